//! Drawings on pages: which drawing a worked sheet or a job has, shown for a phone and for a desk, with its notes.
//!
//! Which drawing a sheet has is known in `crates/outshop/src/drawn.rs`, so that paper shows the same.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

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
            @match drawing.as_ref().map_err(String::clone).and_then(|d| Ok((laid(d)?, &d.notes))) {
                Ok((laid, notes)) => {
                    div class="drawing" {
                        h3 { (laid.name) }
                        div class="drawn narrow" tabindex=[laid.narrow.scrolls] { (PreEscaped(&laid.narrow.svg)) }
                        div class="drawn wide" tabindex=[laid.wide.scrolls] { (PreEscaped(&laid.wide.svg)) }
                        ul class="small" { @for note in notes { li { (note) } } }
                    }
                }
                Err(why) => p { (say::not_drawn(&why)) },
            }
        }
    }
}

/// A drawing laid out for a phone and for a desk.
struct Both {
    name: String,
    narrow: Side,
    wide: Side,
}

/// One of the two, as written down.
struct Side {
    svg: String,
    scrolls: Option<&'static str>,
}

/// The newest drawings as they were laid out, by everything that is drawn: finding each dimension its place
/// takes most of the time of a page, and comes out the same.
static LAID: Mutex<BTreeMap<String, Arc<Both>>> = Mutex::new(BTreeMap::new());
/// How many are kept; then they begin anew.
const KEPT: usize = 48;

fn laid(drawing: &Drawing) -> Result<Arc<Both>, String> {
    let key = format!("{drawing:?}");
    let kept = || LAID.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(both) = kept().get(&key) {
        return Ok(both.clone());
    }
    let side = |width| {
        let laid = drawing.for_page(width).map_err(|why| why.to_string())?;
        let side = Side {
            svg: laid.svg_view(),
            scrolls: scrolls(&laid, width),
        };
        Ok::<_, String>((laid.name, side))
    };
    let (name, narrow) = side(PageWidth::Narrow)?;
    let (_, wide) = side(PageWidth::Wide)?;
    let both = Arc::new(Both { name, narrow, wide });
    let mut all = kept();
    if all.len() >= KEPT {
        all.clear();
    }
    all.insert(key, both.clone());
    Ok(both)
}

/// A drawing wider than its page scrolls sideways, and so must be reached with the keyboard.
fn scrolls(laid: &Laid, width: PageWidth) -> Option<&'static str> {
    (laid.width > width.usual() + 0.01).then_some("0")
}
