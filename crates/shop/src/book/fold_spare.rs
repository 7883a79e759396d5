//! Spares and how statements about them change the book: every move is kept, and what lies there is their sum
//! (`crate::locomotive::ledger`).

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::{Meta, Touched};
use super::fold_part::{Unfit, take};
use super::id::{JobId, PersonId, SpareId};
use super::rows::RowKind;
use super::state::Book;
use super::statement::{
    Amount, Counted, SpareAdded, SpareCounted, SpareHeld, SpareKnown, SpareReceived, SpareSettled,
    SpareTold, SpareUsed, UsedOn,
};

/// A spare.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spare {
    /// S-001.
    pub number: u32,
    /// What it is.
    pub what: String,
    /// How it is counted.
    pub counted: Counted,
    /// What is known of it.
    #[serde(flatten)]
    pub known: SpareKnown,
    /// What came, went and was counted, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<SpareMove>,
    /// Newest entry.
    pub last: u64,
}

/// One line of a spare's ledger.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareMove {
    /// The entry.
    pub entry: u64,
    /// On which day.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// How many.
    pub many: Amount,
    /// What it was.
    #[serde(flatten)]
    pub of: MoveOf,
    /// What else was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// What a line of a spare's ledger is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "of")]
pub enum MoveOf {
    /// Came in.
    Received {
        /// From whom.
        from: String,
        /// The paper of its material.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        certificate: Option<String>,
    },
    /// Was used.
    Used {
        /// On what.
        used: UsedOn,
    },
    /// Was counted.
    Counted,
    /// A difference was answered for.
    Settled {
        /// Why.
        because: String,
    },
    /// Is held for a job, so many in all.
    Held {
        /// Which.
        job: JobId,
    },
}

impl Book {
    pub(super) fn add_spare(
        &mut self,
        it: &SpareAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let number = self.count(|s| &mut s.spares);
        let made = Spare {
            number: number.ok_or_else(|| Unfit::Unknown("the shop".into()))?,
            what: it.what.clone(),
            counted: it.counted,
            known: it.known.clone(),
            moves: Vec::new(),
            last: meta.seq,
        };
        if self.spares.insert(it.id, made).is_some() {
            return Err(Unfit::Twice("the spare".into()));
        }
        touched.note(RowKind::Shop, "");
        touched.note(RowKind::Spare, it.id);
        Ok(())
    }

    pub(super) fn tell_spare(
        &mut self,
        it: &SpareTold,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let known = &mut self.spare(it.spare, meta, touched)?.known;
        take(&mut known.material, &it.known.material);
        take(&mut known.size, &it.known.size);
        take(&mut known.drawing, &it.known.drawing);
        take(&mut known.shelf, &it.known.shelf);
        take(&mut known.least, &it.known.least);
        Ok(())
    }

    pub(super) fn receive_spare(
        &mut self,
        it: &SpareReceived,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let of = MoveOf::Received {
            from: it.from.clone(),
            certificate: it.certificate.clone(),
        };
        self.move_spare((it.spare, it.many, of, &it.told), meta, touched)
    }

    pub(super) fn use_spare(
        &mut self,
        it: &SpareUsed,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        match it.on {
            UsedOn::Job { job } => self.job_stands(job)?,
            UsedOn::Engine { locomotive } if !self.locomotives.contains_key(&locomotive) => {
                return Err(Unfit::Unknown("a locomotive".into()));
            }
            UsedOn::Engine { .. } => {}
        }
        let of = MoveOf::Used { used: it.on };
        self.move_spare((it.spare, it.many, of, &it.told), meta, touched)
    }

    pub(super) fn count_spare(
        &mut self,
        it: &SpareCounted,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        self.move_spare(
            (it.spare, it.many, MoveOf::Counted, &it.told),
            meta,
            touched,
        )
    }

    pub(super) fn settle_spare(
        &mut self,
        it: &SpareSettled,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let because = it.because.clone();
        let of = MoveOf::Settled { because };
        self.move_spare((it.spare, it.many, of, &None), meta, touched)
    }

    pub(super) fn hold_spare(
        &mut self,
        it: &SpareHeld,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        self.job_stands(it.job)?;
        let of = MoveOf::Held { job: it.job };
        self.move_spare((it.spare, it.many, of, &None), meta, touched)
    }

    fn job_stands(&self, job: JobId) -> Result<(), Unfit> {
        if self.jobs.contains_key(&job) {
            return Ok(());
        }
        Err(Unfit::Unknown("a job".into()))
    }

    fn move_spare(
        &mut self,
        (id, many, of, told): (SpareId, Amount, MoveOf, &Option<String>),
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let made = SpareMove {
            entry: meta.seq,
            on: meta.done_on,
            by: meta.person,
            many,
            of,
            told: told.clone(),
        };
        self.spare(id, meta, touched)?.moves.push(made);
        Ok(())
    }

    fn spare(
        &mut self,
        id: SpareId,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<&mut Spare, Unfit> {
        let spare = self.spares.get_mut(&id);
        let spare = spare.ok_or_else(|| Unfit::Unknown("a spare".into()))?;
        spare.last = spare.last.max(meta.seq);
        touched.note(RowKind::Spare, id);
        Ok(spare)
    }
}
