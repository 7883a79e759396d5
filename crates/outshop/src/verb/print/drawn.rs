//! A drawing by itself, in the three forms it is written in; and the drawings that stand on a card.

use std::path::Path;

use drawing::{Drawing, DrawingError, Title};
use paper::{Picture, Plate};
use physics::Sheet;
use shop::book::Book;

use super::{Paper, about};
use crate::part_drawing::{self, Asked};
use crate::verb::handed_on::FROM;
use crate::words::print as say;
use crate::{Context, Failure};

/// The forms that a drawing is written in.
const FORMS: [&str; 3] = ["pdf", "svg", "dxf"];

/// The drawings of a sheet's case that can be drawn. A case that cannot is still worth its card.
pub(super) fn of_sheet(sheet: &Sheet, title: &Title) -> Vec<Picture> {
    let drawings = crate::drawn::of_sheet(sheet, title).into_iter().flatten();
    drawings.filter_map(|one| picture(&one).ok()).collect()
}

/// A drawing as a picture of a card.
fn picture(drawing: &Drawing) -> Result<Picture, DrawingError> {
    let laid = drawing.lay_out()?;
    Ok(Picture {
        title: laid.name.clone(),
        told: laid.description.clone(),
        svg: laid.svg(),
        paper: [laid.width, laid.height],
    })
}

/// Draws, and writes it in the form that the file's name ends in; PDF where no file is named.
pub(super) fn print(
    context: &mut Context,
    word: &str,
    typed: &[(String, String)],
    out: Option<&Path>,
) -> Result<Paper, Failure> {
    part_drawing::kind(word)?;
    in_form(context, word, typed, form(out)?)
}

/// Draws, and writes it in this form.
pub(super) fn in_form(
    context: &mut Context,
    word: &str,
    typed: &[(String, String)],
    form: &str,
) -> Result<Paper, Failure> {
    let kind = part_drawing::kind(word)?;
    let form = FORMS.into_iter().find(|known| *known == form);
    let form = form.ok_or_else(|| Failure::Input(say::no_such_form(Path::new(word))))?;
    let typed_number = typed.iter().find(|(name, _)| name == "number");
    let number = typed_number.map_or(kind.word, |(_, number)| number.trim());
    let number = if number.is_empty() { kind.word } else { number };
    let about = about(context, number, kind.title.into())?;
    let house = context.house();
    let goes_on = typed.iter().any(|(name, _)| name == FROM);
    let there = context.globals().book.is_some();
    let book = if goes_on && there {
        context.book()?
    } else {
        Book::default()
    };
    let rules = context.rules()?;
    let asked = Asked::of(kind, typed, &book, rules, about.as_of, house)?;
    let drawing = asked
        .draw(kind, house, about.shop.clone(), about.as_of)?
        .drawing;
    let refused = |e: DrawingError| Failure::Input(e.to_string());
    let plain = |text: String| Paper {
        name: format!("{word}.{form}"),
        bytes: text.into_bytes(),
        pages: None,
    };
    match form {
        "svg" => Ok(plain(drawing.lay_out().map_err(refused)?.svg())),
        "dxf" => Ok(plain(drawing.lay_out().map_err(refused)?.dxf())),
        _ => {
            let picture = picture(&drawing).map_err(refused)?;
            Ok(Paper::pdf(word, Plate { about, picture }.print()?))
        }
    }
}

/// The form that a file's name asks for.
fn form(out: Option<&Path>) -> Result<&'static str, Failure> {
    let Some(path) = out else {
        return Ok("pdf");
    };
    let ending = path.extension().and_then(|e| e.to_str());
    let ending = ending.map(str::to_ascii_lowercase);
    FORMS
        .into_iter()
        .find(|form| ending.as_deref() == Some(form))
        .ok_or_else(|| Failure::Input(say::no_such_form(path)))
}
