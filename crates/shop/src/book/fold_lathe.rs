//! Lathes and how statements about them change the book.

use serde::{Deserialize, Serialize};

use super::fold::{Meta, Touched};
use super::fold_part::{Unfit, take};
use super::rows::RowKind;
use super::state::Book;
use super::statement::{LatheAdded, LatheKnown, LatheTaper, LatheTold};

/// A lathe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lathe {
    /// LA-001.
    pub number: u32,
    /// What the shop calls it.
    pub name: String,
    /// What is known of it.
    #[serde(flatten)]
    pub known: LatheKnown,
    /// What is known of tapers on it.
    #[serde(default)]
    pub taper: LatheTaper,
    /// Newest entry.
    pub last: u64,
}

impl Book {
    pub(super) fn add_lathe(
        &mut self,
        it: &LatheAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let number = self.count(|s| &mut s.lathes);
        let made = Lathe {
            number: number.ok_or_else(|| Unfit::Unknown("the shop".into()))?,
            name: it.name.clone(),
            known: it.known.clone(),
            taper: it.taper.clone().unwrap_or_default(),
            last: meta.seq,
        };
        if self.lathes.insert(it.id, made).is_some() {
            return Err(Unfit::Twice("the lathe".into()));
        }
        touched.note(RowKind::Shop, "");
        touched.note(RowKind::Lathe, it.id);
        Ok(())
    }

    pub(super) fn tell_lathe(
        &mut self,
        it: &LatheTold,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let lathe = self.lathes.get_mut(&it.lathe);
        let lathe = lathe.ok_or_else(|| Unfit::Unknown("a lathe".into()))?;
        let (known, told) = (&mut lathe.known, &it.known);
        take(&mut known.leadscrew, &told.leadscrew);
        take(&mut known.wheels, &told.wheels);
        take(&mut known.stud, &told.stud);
        take(&mut known.span, &told.span);
        take(&mut known.spindle_ratio, &told.spindle_ratio);
        take(&mut known.thread_dial, &told.thread_dial);
        take(&mut known.speeds, &told.speeds);
        take(&mut known.cross_reads, &told.cross_reads);
        take(&mut known.cross_graduation, &told.cross_graduation);
        take(&mut known.compound_graduation, &told.compound_graduation);
        take(&mut known.swing_bed, &told.swing_bed);
        take(&mut known.swing_slide, &told.swing_slide);
        take(&mut known.centers, &told.centers);
        if let Some(told) = &it.taper {
            let taper = &mut lathe.taper;
            take(&mut taper.swivel_graduation, &told.swivel_graduation);
            take(&mut taper.swivel_zero, &told.swivel_zero);
            take(&mut taper.set_over, &told.set_over);
        }
        lathe.last = lathe.last.max(meta.seq);
        touched.note(RowKind::Lathe, it.lathe);
        Ok(())
    }
}
