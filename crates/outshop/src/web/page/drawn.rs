//! Drawings on pages: which drawing a worked sheet or a job has, shown for a phone and for a desk, with its notes.
//!
//! Which drawing a sheet has is known in `crates/outshop/src/drawn.rs`, so that paper shows the same.

use drawing::{Drawing, Laid, PageWidth, Title};
use maud::{Markup, PreEscaped, html};
use physics::Sheet;
use shop::book::PrintedSheet;

use super::View;
pub use crate::drawn::of_sheet;
use crate::words::sheet as say;

/// What the title block says besides the name and the sheet.
pub fn title(view: &View<'_>, part: Option<String>) -> Title {
    Title {
        shop: view.book.shop.as_ref().map(|shop| shop.name.clone()),
        part,
        as_of: Some(view.on.to_string()),
        ..Title::default()
    }
}

/// Every drawing of these sheets. `kept` are the sheets of a decision or a job as printed that day: one that
/// would read differently now is not drawn, and that is said.
pub fn of_sheets(
    view: &View<'_>,
    part: &str,
    sheets: &[Sheet],
    kept: Option<&[PrintedSheet]>,
) -> Markup {
    let reads_as_kept = |sheet: &Sheet| {
        kept.is_none_or(|kept| {
            let mut same = kept.iter().filter(|one| one.sheet == sheet.card.id);
            same.any(|one| one.text == sheet.to_text())
        })
    };
    let is_kept =
        |sheet: &Sheet| kept.is_none_or(|kept| kept.iter().any(|one| one.sheet == sheet.card.id));
    html! {
        @for sheet in sheets.iter().filter(|sheet| is_kept(sheet)) {
            @let drawings = of_sheet(sheet, &title(view, Some(part.to_owned())));
            @if drawings.is_empty() || reads_as_kept(sheet) { (shown(&drawings)) } @else { p class="quiet" { (say::NOT_AS_KEPT) } }
        }
    }
}

/// Drawings under their heading, or why there is one less; nothing where there is none to show.
pub fn shown(drawings: &[Result<Drawing, String>]) -> Markup {
    html! {
        @if !drawings.is_empty() { h2 { (say::DRAWN) } }
        @for drawing in drawings {
            @match drawing.as_ref().map_err(String::clone).and_then(laid) {
                Ok((narrow, wide, notes)) => {
                    div class="drawing" {
                        h3 { (narrow.name) }
                        div class="drawn narrow" tabindex=[scrolls(&narrow, PageWidth::Narrow)] { (PreEscaped(narrow.svg_view())) }
                        div class="drawn wide" tabindex=[scrolls(&wide, PageWidth::Wide)] { (PreEscaped(wide.svg_view())) }
                        ul class="small" { @for note in notes { li { (note) } } }
                    }
                }
                Err(why) => p { (say::not_drawn(&why)) },
            }
        }
    }
}

/// A drawing laid out for a phone and for a desk, and its notes.
fn laid(drawing: &Drawing) -> Result<(Laid, Laid, &[String]), String> {
    let page = |width| drawing.for_page(width).map_err(|why| why.to_string());
    Ok((
        page(PageWidth::Narrow)?,
        page(PageWidth::Wide)?,
        &drawing.notes,
    ))
}

/// A drawing wider than its page scrolls sideways, and so must be reached with the keyboard.
fn scrolls(laid: &Laid, width: PageWidth) -> Option<&'static str> {
    (laid.width > width.usual() + 0.01).then_some("0")
}
