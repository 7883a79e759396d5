//! Letters and how statements about them change the book.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::{Meta, Touched};
use super::fold_part::Unfit;
use super::id::{LetterId, LocomotiveId, PersonId};
use super::rows::RowKind;
use super::state::Book;
use super::statement::{LetterAnswered, LetterLogged};

/// A letter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Letter {
    /// L-001.
    pub number: u32,
    /// As stated.
    #[serde(flatten)]
    pub logged: LetterLogged,
    /// The engine it is about, by itself or by its finding or job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub engine: Option<LocomotiveId>,
    /// The day it was written or came.
    pub on: Date,
    /// Who entered it.
    pub entered_by: PersonId,
    /// What came of what it promised.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub answered: Option<Answered>,
    /// Newest entry.
    pub last: u64,
}

/// What came of a letter's promise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answered {
    /// On which day.
    pub on: Date,
    /// Who says so.
    pub by: PersonId,
    /// The letter that answers it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub letter: Option<LetterId>,
    /// What came of it.
    pub told: String,
}

impl Book {
    pub(super) fn log_letter(
        &mut self,
        it: &LetterLogged,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let unknown = |what: &str| Unfit::Unknown(what.into());
        let mut engine = it.locomotive;
        if engine.is_some_and(|id| !self.locomotives.contains_key(&id)) {
            return Err(unknown("a locomotive"));
        }
        if let Some(finding) = it.finding {
            let finding = self.findings.get(&finding);
            engine = Some(finding.ok_or_else(|| unknown("a finding"))?.locomotive);
        }
        if let Some(job) = it.job {
            let job = self.jobs.get(&job).ok_or_else(|| unknown("a job"))?;
            engine = Some(job.locomotive);
        }
        let number = self.count(|s| &mut s.letters);
        let made = Letter {
            number: number.ok_or_else(|| unknown("the shop"))?,
            logged: it.clone(),
            engine,
            on: meta.done_on,
            entered_by: meta.person,
            answered: None,
            last: meta.seq,
        };
        if self.letters.insert(it.id, made).is_some() {
            return Err(Unfit::Twice("the letter".into()));
        }
        touched.note(RowKind::Shop, "");
        touched.note(RowKind::Letter, it.id);
        Ok(())
    }

    pub(super) fn answer_letter(
        &mut self,
        it: &LetterAnswered,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let unknown = || Unfit::Unknown("a letter".into());
        if it.by.is_some_and(|by| !self.letters.contains_key(&by)) {
            return Err(unknown());
        }
        let kept = self.letters.get_mut(&it.letter).ok_or_else(unknown)?;
        kept.last = kept.last.max(meta.seq);
        kept.answered = Some(Answered {
            on: meta.done_on,
            by: meta.person,
            letter: it.by,
            told: it.told.clone(),
        });
        touched.note(RowKind::Letter, it.letter);
        Ok(())
    }
}
