//! How statements about tooling change the book: the part of the projector that `fold` hands them to.

use super::ToolingId;
use super::fold::{Meta, Touched};
use super::fold_part::Unfit;
use super::rows::RowKind;
use super::state::{Book, CheckMade, TakenOut, Tooling};
use super::statement::{ToolingAdded, ToolingChecked, ToolingMoved, ToolingTakenOut, ToolingTold};

impl Book {
    pub(super) fn add_tooling(
        &mut self,
        it: &ToolingAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        if !self.parts.contains_key(&it.part) {
            return Err(Unfit::Unknown("a part".into()));
        }
        let number = self.count(|s| &mut s.tooling);
        let made = Tooling {
            number: number.ok_or_else(|| Unfit::Unknown("the shop".into()))?,
            what: it.what.clone(),
            part: it.part,
            also: Vec::new(),
            features: Vec::new(),
            drawing: None,
            shelf: it.shelf.clone(),
            job: it.job,
            checks: Vec::new(),
            out: None,
            last: meta.seq,
        };
        if self.tooling.insert(it.id, made).is_some() {
            return Err(Unfit::Twice("the tooling".into()));
        }
        touched.note(RowKind::Shop, "");
        touched.note(RowKind::Tooling, it.id);
        Ok(())
    }

    pub(super) fn tell_tooling(
        &mut self,
        it: &ToolingTold,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        if it.parts.iter().any(|part| !self.parts.contains_key(part)) {
            return Err(Unfit::Unknown("a part".into()));
        }
        let tool = self.tool(it.tooling, meta, touched)?;
        for part in &it.parts {
            if *part != tool.part && !tool.also.contains(part) {
                tool.also.push(*part);
            }
        }
        for feature in &it.features {
            if !tool.features.contains(feature) {
                tool.features.push(feature.clone());
            }
        }
        if it.drawing.is_some() {
            tool.drawing.clone_from(&it.drawing);
        }
        Ok(())
    }

    pub(super) fn check_tooling(
        &mut self,
        it: &ToolingChecked,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let tool = self.tool(it.tooling, meta, touched)?;
        tool.checks.push(CheckMade {
            on: meta.done_on,
            by: meta.person,
            good: it.good,
            error: it.error.clone(),
            against: it.against.clone(),
            told: it.told.clone(),
            entry: meta.seq,
        });
        Ok(())
    }

    pub(super) fn move_tooling(
        &mut self,
        it: &ToolingMoved,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let tool = self.tool(it.tooling, meta, touched)?;
        tool.shelf.clone_from(&it.shelf);
        tool.out = None;
        Ok(())
    }

    pub(super) fn take_out_tooling(
        &mut self,
        it: &ToolingTakenOut,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let tool = self.tool(it.tooling, meta, touched)?;
        tool.out = Some(TakenOut {
            on: meta.done_on,
            by: meta.person,
            because: it.because.clone(),
        });
        Ok(())
    }

    fn tool(
        &mut self,
        id: ToolingId,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<&mut Tooling, Unfit> {
        let tool = self.tooling.get_mut(&id);
        let tool = tool.ok_or_else(|| Unfit::Unknown("a tool".into()))?;
        tool.last = tool.last.max(meta.seq);
        touched.note(RowKind::Tooling, id);
        Ok(tool)
    }
}
