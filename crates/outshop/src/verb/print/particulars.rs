//! What a paper says of the shop and of her in the shop's own words, such as who owns her; and what of it nobody stated.

use jiff::civil::Date;
use shop::book::{Book, Locomotive};
use shop::record::PARTICULARS;

use crate::words::paper as say;

/// What was stated through a day, by the words of [`PARTICULARS`].
#[derive(Clone, Copy)]
pub(super) struct Particulars<'b> {
    book: &'b Book,
    engine: &'b Locomotive,
    on: Date,
}

impl<'b> Particulars<'b> {
    pub(super) fn of(book: &'b Book, engine: &'b Locomotive, on: Date) -> Particulars<'b> {
        Particulars { book, engine, on }
    }

    /// What is so, if anybody said.
    pub(super) fn said(&self, what: &str) -> Option<&'b str> {
        let said = self.book.particular(self.engine, what, self.on);
        said.map(|it| it.says.as_str())
    }

    /// Each of these with what is so, or that nobody stated it.
    pub(super) fn lines(&self, words: &[&'static str]) -> String {
        let all = words.iter();
        let all = all.map(|word| say::stated(means(word), self.said(word)));
        all.collect::<Vec<_>>().join("\n")
    }

    /// Her number and her initials.
    pub(super) fn number(&self) -> String {
        say::number_and_initials(&self.engine.number, self.said("initials"))
    }

    /// A sentence that names those of these that nobody stated; nothing if all of them are.
    pub(super) fn unstated(&self, words: &[&'static str]) -> Option<String> {
        let mut all = words.to_vec();
        all.retain(|word| self.said(word).is_none());
        let all: Vec<_> = all.into_iter().map(means).collect();
        (!all.is_empty()).then(|| say::unstated(&all))
    }
}

/// What a word of [`PARTICULARS`] means.
pub(super) fn means(word: &'static str) -> &'static str {
    let known = PARTICULARS.iter().find(|(known, ..)| *known == word);
    known.map_or(word, |(_, means, _)| *means)
}
