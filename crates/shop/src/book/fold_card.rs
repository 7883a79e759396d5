//! Cards and how statements about them change the book.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::{Meta, Touched};
use super::fold_part::Unfit;
use super::id::PersonId;
use super::rows::RowKind;
use super::state::Book;
use super::statement::CardKept;

/// A lathe card with a number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Card {
    /// C-001.
    pub number: u32,
    /// The sheet it is worked by.
    pub sheet: String,
    /// As it stood each time it was kept, the first one first.
    pub revisions: Vec<Revision>,
    /// Newest entry.
    pub last: u64,
}

/// A card as it stood once.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Revision {
    /// What went in, each `name=value`.
    pub given: Vec<String>,
    /// The units a bare number was taken in.
    pub house: String,
    /// As printed that day.
    pub text: String,
    /// Why it was revised; none for the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub because: Option<String>,
    /// Who kept it.
    pub by: PersonId,
    /// When.
    pub on: Date,
}

impl Book {
    pub(super) fn keep_card(
        &mut self,
        it: &CardKept,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let revision = Revision {
            given: it.given.clone(),
            house: it.house.clone(),
            text: it.text.clone(),
            because: it.because.clone(),
            by: meta.person,
            on: meta.done_on,
        };
        if let Some(card) = self.cards.get_mut(&it.card) {
            card.revisions.push(revision);
            card.last = card.last.max(meta.seq);
        } else {
            let number = self.count(|s| &mut s.cards);
            let made = Card {
                number: number.ok_or_else(|| Unfit::Unknown("the shop".into()))?,
                sheet: it.sheet.clone(),
                revisions: vec![revision],
                last: meta.seq,
            };
            self.cards.insert(it.card, made);
            touched.note(RowKind::Shop, "");
        }
        touched.note(RowKind::Card, it.card);
        Ok(())
    }
}
