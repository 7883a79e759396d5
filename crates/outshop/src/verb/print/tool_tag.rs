//! The tag of a tool.

use paper::ToolTag;
use shop::locomotive::tooling;

use super::about;
use crate::verb::tooling::serves;
use crate::words::{tag, tool as say};
use crate::{Context, Failure};

pub(super) fn paper(context: &mut Context, number: &str) -> Result<ToolTag, Failure> {
    let book = context.book()?;
    let (_, kept) = tooling(&book, number)?;
    if kept.out.is_some() {
        return Err(shop::Refusal::refused(say::no_tag(&tag::tool(kept.number))).into());
    }
    let number = tag::tool(kept.number);
    let about = about(context, &number, format!("{}: {number}", say::TAG))?;
    let mut lines = serves(&book, kept);
    if !kept.features.is_empty() {
        lines.push(kept.features.join(", "));
    }
    let mut belongs = vec![kept.shelf.clone()];
    belongs.extend(kept.drawing.as_ref().map(|it| say::drawing(it)));
    Ok(ToolTag {
        about,
        what: kept.what.clone(),
        serves: lines,
        belongs,
    })
}
