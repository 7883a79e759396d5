//! The window of a press chart: the least and the most tons that a fit's kept sheet allows at the end. The sheet is read as it
//! was printed and never worked again, so what the chart is held against is what the job was ordered to.

use measure::{Dimension, Force, Rounding, Ton, entered_with_unit, show};

use crate::Refusal;
use crate::book::{Book, CardId, Job, JobPaperKept, WindowFrom};

/// The sheets that give one.
pub const WINDOW_SHEETS: [&str; 2] = ["fit.press", "fit.bushing"];

/// A kept sheet that gives a window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindowSheet<'b> {
    /// The sheet.
    pub sheet: &'b str,
    /// Its version.
    pub version: u32,
    /// The card that keeps it and its revision; the job where there is none.
    pub card: Option<(CardId, u32)>,
    least: Force,
    most: Force,
}

impl WindowSheet<'_> {
    /// The window in tons as a press gauge is read: the least rounded up, the most down, so that rounding opens it nowhere.
    pub fn window(&self, ton: Ton) -> (String, String) {
        let tons = |force, round| show::number(ton.of(force), 1, round);
        (
            tons(self.least, Rounding::Up),
            tons(self.most, Rounding::Down),
        )
    }

    /// Where it comes from, as it is kept with the chart.
    pub fn from(&self, ton: Ton) -> WindowFrom {
        WindowFrom {
            sheet: self.sheet.to_owned(),
            version: self.version,
            card: self.card,
            ton,
        }
    }
}

/// The sheet a job keeps that gives a window; the first of several.
pub fn window_sheet(job: &Job) -> Option<WindowSheet<'_>> {
    let kept = job.plan.sheets.iter();
    let mut kept = kept.filter(|it| WINDOW_SHEETS.contains(&it.sheet.as_str()));
    kept.find_map(|it| read(&it.sheet, &it.text, None))
}

/// The sheet a card keeps, in its newest revision, where it gives a window.
///
/// # Errors
/// Input: the card is of another sheet, or its sheet does not tell the two forces.
pub fn window_card(book: &Book, id: CardId) -> Result<WindowSheet<'_>, Refusal> {
    let none = || Refusal::input("There is no such card in this book.");
    let card = book.cards.get(&id).ok_or_else(none)?;
    let (revision, newest) = card.newest().ok_or_else(none)?;
    let tag = format!("C-{:03}", card.number);
    if !WINDOW_SHEETS.contains(&card.sheet.as_str()) {
        return Err(Refusal::input(format!(
            "{tag} is a card of {}: one of {} was expected, which gives the tons of a press.",
            card.sheet,
            WINDOW_SHEETS.join(" or ")
        )));
    }
    let revision = u32::try_from(revision).unwrap_or(u32::MAX);
    read(&card.sheet, &newest.text, Some((id, revision))).ok_or_else(|| {
        Refusal::input(format!(
            "The sheet of {tag} does not tell the least and the most force."
        ))
    })
}

/// What the sheet of a chart says now of its window, in the tons it was kept in: of the card's revision that was named, or of
/// the job's own sheet where none was.
pub fn sheet_of_chart<'b>(
    book: &'b Book,
    job: &'b Job,
    kept: &JobPaperKept,
) -> Option<WindowSheet<'b>> {
    match kept.window_from.as_ref().and_then(|from| from.card) {
        Some((id, revision)) => {
            let card = book.cards.get(&id)?;
            let then = card.revision(usize::try_from(revision).ok()?)?;
            read(&card.sheet, &then.text, Some((id, revision)))
        }
        None => window_sheet(job),
    }
}

/// Whether a window that somebody typed is another than the sheet's, in either kind of ton. Nothing where they agree, or where
/// one of them is not there.
pub fn differs(
    kept: &WindowSheet<'_>,
    typed: &(String, String),
) -> Option<[(Ton, (String, String)); 2]> {
    let tons = |text: &str| super::paper::tons_of(text).ok();
    let same = |ton| {
        let (least, most) = kept.window(ton);
        tons(&least) == tons(&typed.0) && tons(&most) == tons(&typed.1)
    };
    if Ton::ALL.into_iter().any(same) {
        return None;
    }
    Some(Ton::ALL.map(|ton| (ton, kept.window(ton))))
}

/// Reads the two forces off a sheet as it was printed; nothing where it could not tell them.
fn read<'b>(sheet: &'b str, text: &str, card: Option<(CardId, u32)>) -> Option<WindowSheet<'b>> {
    let head = text.lines().next()?;
    let version = head.split_once("(version ")?.1;
    let version = version.split_once(')')?.0.trim().parse().ok()?;
    let results = &text[text.find("\nResults\n")?..];
    let force = |name: &str| {
        let mut lines = results.lines().map(str::trim_start);
        let line = lines.find_map(|line| line.strip_prefix(name)?.strip_prefix(" = "))?;
        // What it means stands after it, three blanks off.
        let value = line.split("   ").next()?.trim();
        let read = entered_with_unit(value, Dimension::Force).ok()?;
        Some(Force::newtons(read.si))
    };
    Some(WindowSheet {
        sheet,
        version,
        card,
        least: force("force_min")?,
        most: force("force_max")?,
    })
}
