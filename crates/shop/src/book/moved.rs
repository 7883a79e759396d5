//! Moves of an engine that does not comply, and what the shop says of itself on its papers: what the statements add up
//! to, and how. None of it lets a clock run on, and none of it ends or gives a release.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::Meta;
use super::id::PersonId;
use super::state::{Book, Locomotive};
use super::statement::{MoveDecided, MoveEnd, MoveEnded, MoveUnder, ParticularStated};

/// What the shop says of itself or of an engine on its papers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Particular {
    /// The word.
    pub what: String,
    /// What is so.
    pub says: String,
    /// From which day.
    pub from: Date,
    /// Who said so.
    pub by: PersonId,
}

/// A move of an engine that does not comply.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Movement {
    /// What was decided.
    pub decided: MoveDecided,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
    /// How it ended, what was said, on which day and by whom.
    pub ended: Option<(MoveEnd, String, Date, PersonId)>,
}

impl Locomotive {
    /// The move that has not ended, if there is one.
    pub fn on_the_move(&self) -> Option<&Movement> {
        self.moves.iter().rev().find(|made| made.ended.is_none())
    }
}

impl Book {
    /// What is said on papers of an engine on a day: of her, else of the whole shop; nothing where nobody said.
    pub fn particular<'b>(
        &'b self,
        her: &'b Locomotive,
        what: &str,
        on: Date,
    ) -> Option<&'b Particular> {
        let shop = self.shop.as_ref().map_or(&[][..], |shop| &shop.particulars);
        newest(&her.particulars, what, on).or_else(|| newest(shop, what, on))
    }

    pub(super) fn take_particular(
        &mut self,
        it: &ParticularStated,
        meta: Meta,
    ) -> Result<(), String> {
        let said = Particular {
            what: it.what.clone(),
            says: it.says.clone(),
            from: meta.done_on,
            by: meta.person,
        };
        match it.locomotive {
            Some(id) => self.engine(id, meta.seq)?.particulars.push(said),
            None => {
                let shop = self.shop.as_mut().ok_or("the shop")?;
                shop.particulars.push(said);
            }
        }
        Ok(())
    }

    pub(super) fn take_move(&mut self, it: &MoveDecided, meta: Meta) -> Result<(), String> {
        if let MoveUnder::SpecialNotice { finding, .. } = &it.under
            && !self.findings.contains_key(finding)
        {
            return Err("a finding".into());
        }
        self.engine(it.locomotive, meta.seq)?.moves.push(Movement {
            decided: it.clone(),
            by: meta.person,
            on: meta.done_on,
            ended: None,
        });
        Ok(())
    }

    pub(super) fn end_move(&mut self, it: &MoveEnded, meta: Meta) -> Result<(), String> {
        let engine = self.engine(it.locomotive, meta.seq)?;
        let mut moves = engine.moves.iter_mut();
        let made = moves.find(|made| made.decided.id == it.id);
        let made = made.ok_or("a move")?;
        made.ended = Some((it.end, it.told.clone(), meta.done_on, meta.person));
        Ok(())
    }
}

fn newest<'p>(all: &'p [Particular], what: &str, on: Date) -> Option<&'p Particular> {
    let told = all.iter().enumerate();
    told.filter(|(_, it)| it.what == what && it.from <= on)
        .max_by_key(|(at, it)| (it.from, *at))
        .map(|(_, it)| it)
}
