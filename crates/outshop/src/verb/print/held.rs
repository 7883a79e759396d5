//! What a paper says of its figures of law: which of them two people of this shop have held against the official
//! text, and which not.

use std::collections::BTreeMap;

use paper::{Block, FormPart};
use rules::{Rulebook, Ruling};
use shop::book::Book;
use shop::locomotive::{Checking, checking_of, rule};

use crate::verb::rule_held::standing;
use crate::words::{self, held as say};

/// The figures of law of one paper.
pub(super) struct Figures<'b> {
    book: &'b Book,
    rules: &'b Rulebook,
    /// Rule and version, each once.
    used: BTreeMap<(String, u32), Named>,
}

struct Named {
    title: String,
    section: String,
}

impl<'b> Figures<'b> {
    pub(super) fn of(book: &'b Book, rules: &'b Rulebook) -> Figures<'b> {
        Figures {
            book,
            rules,
            used: BTreeMap::new(),
        }
    }

    /// A ruling that stands on the paper.
    pub(super) fn add(&mut self, ruling: &Ruling) {
        let named = Named {
            title: ruling.title.clone(),
            section: ruling.cite.section.clone(),
        };
        self.used
            .insert((ruling.rule.clone(), ruling.version), named);
    }

    /// Rulings that stand on it.
    pub(super) fn add_all<'r>(&mut self, rulings: impl IntoIterator<Item = &'r Ruling>) {
        for ruling in rulings {
            self.add(ruling);
        }
    }

    /// A version that stands on it, by the number kept in the book.
    pub(super) fn add_version(&mut self, id: &str, version: u32) {
        let known = rule(self.book, self.rules, id).ok();
        let of_it = known.and_then(|rule| rule.versions.iter().find(|v| v.number == version));
        let named = Named {
            title: known.map_or(id, |rule| rule.title.as_str()).to_owned(),
            section: of_it.map_or(String::new(), |v| v.cite.section.clone()),
        };
        self.used.insert((id.to_owned(), version), named);
    }

    fn open(&self) -> usize {
        let all = self.used.keys();
        all.filter(|(id, version)| !checking_of(self.book, self.rules, id, *version).is_checked())
            .count()
    }

    /// What governs in this paper's place, and how many of its figures are not checked.
    pub(super) fn governs(&self) -> String {
        match self.open() {
            0 => words::paper::GOVERNS.to_owned(),
            open => format!(
                "{} {}",
                words::paper::GOVERNS,
                say::none_of(open, self.used.len())
            ),
        }
    }

    /// The part of the paper that tells it figure by figure; nothing where no figure of law is on it.
    pub(super) fn part(&self) -> Option<FormPart> {
        if self.used.is_empty() {
            return None;
        }
        let mut all = Vec::new();
        // Those of one standing share a line.
        let (mut not, mut others) = (Vec::new(), BTreeMap::<String, Vec<String>>::new());
        for ((id, version), it) in &self.used {
            let named = say::named(&it.title, &it.section);
            let stands = checking_of(self.book, self.rules, id, *version);
            match &stands {
                Checking::Differs(_) => {
                    all.push(format!("{named}: {}", standing(self.book, &stands)))
                }
                Checking::Not(None) => not.push(named),
                Checking::Not(Some(_)) | Checking::Checked(_) => {
                    let told = standing(self.book, &stands);
                    others.entry(told).or_default().push(named);
                }
            }
        }
        let used = self.used.len();
        match self.open() {
            0 => all.push(say::all_checked(used)),
            open => all.push(say::none_of(open, used)),
        }
        all.extend(others.iter().map(|(told, rules)| say::listed(told, rules)));
        // The shorter list is printed; where nobody has held any, the line above says it of all.
        let named = used - not.len();
        if named >= not.len() && !not.is_empty() {
            all.push(say::listed(say::NOT, &not));
        } else if named > 0 && !not.is_empty() {
            all.push(say::ALL_BUT_THESE.into());
        }
        Some(FormPart {
            note: Some(say::MEANS.into()),
            ..FormPart::of(say::HELD, vec![Block::Points { all }])
        })
    }
}
