//! What a person may do on a day, by whose word, and until when.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::Meta;
use super::id::PersonId;
use super::state::Person;
use super::statement::{Authority, AuthorityStated};

/// An authority as it was stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AuthorityKept {
    /// Which.
    pub authority: Authority,
    /// Given, or taken back.
    pub given: bool,
    /// The first day.
    pub from: Date,
    /// The last day; missing while it goes on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub through: Option<Date>,
    /// What it is limited to, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<String>,
    /// The document, or why.
    pub document: String,
    /// By whom.
    pub by: PersonId,
    /// The day it was stated.
    pub on: Date,
    /// The entry.
    pub entry: u64,
}

impl AuthorityKept {
    fn new(it: &AuthorityStated, meta: Meta) -> AuthorityKept {
        AuthorityKept {
            authority: it.authority,
            given: it.given,
            from: it.from,
            through: it.through,
            within: it.within.clone(),
            document: it.document.clone(),
            by: meta.person,
            on: meta.done_on,
            entry: meta.seq,
        }
    }
}

/// How a person stands to an authority on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing<'p> {
    /// Held since they were added; no document was asked for then.
    Added,
    /// Held by a statement.
    Held(&'p AuthorityKept),
    /// Was held by a statement, whose last day is past.
    Expired(&'p AuthorityKept),
    /// Taken back.
    Withdrawn(&'p AuthorityKept),
    /// Given, from a day that has not come.
    NotYet(&'p AuthorityKept),
    /// Never given.
    Never,
}

impl Standing<'_> {
    /// Whether it is held.
    pub fn holds(self) -> bool {
        matches!(self, Standing::Added | Standing::Held(_))
    }
}

impl Person {
    /// Takes a statement about them in.
    pub(super) fn state(&mut self, it: &AuthorityStated, meta: Meta) {
        self.stated.push(AuthorityKept::new(it, meta));
        self.last = meta.seq;
    }

    /// How they stand to an authority on a day: what was entered last among what had begun by then decides.
    pub fn standing(&self, authority: Authority, on: Date) -> Standing<'_> {
        let mut of_it = self
            .stated
            .iter()
            .rev()
            .filter(|s| s.authority == authority);
        if let Some(kept) = of_it.clone().find(|s| s.from <= on) {
            return match kept.through {
                _ if !kept.given => Standing::Withdrawn(kept),
                Some(last) if last < on => Standing::Expired(kept),
                _ => Standing::Held(kept),
            };
        }
        if self.added_with.contains(&authority) {
            return Standing::Added;
        }
        match of_it.find(|s| s.given) {
            Some(kept) => Standing::NotYet(kept),
            None => Standing::Never,
        }
    }

    /// Whether they hold an authority on a day.
    pub fn holds(&self, authority: Authority, on: Date) -> bool {
        self.standing(authority, on).holds()
    }

    /// All they hold on a day, in the order of the work.
    pub fn may(&self, on: Date) -> Vec<Authority> {
        let held = |a: &Authority| self.holds(*a, on);
        Authority::ALL.into_iter().filter(held).collect()
    }
}
