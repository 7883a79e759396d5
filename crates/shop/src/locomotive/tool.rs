//! Tooling: laps, mandrels, plug gauges, reamers, masters. Registered under a number with a shelf and what they serve,
//! checked, moved, taken out.

use jiff::civil::Date;

use super::{family, filled, part_of};
use crate::Refusal;
use crate::book::{
    Book, CheckMade, JobId, PartId, Statement, Tooling, ToolingAdded, ToolingChecked, ToolingId,
    ToolingMoved, ToolingTakenOut, ToolingTold,
};

/// A piece of tooling to be registered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewTooling {
    /// Its id.
    pub id: ToolingId,
    /// What it is.
    pub what: String,
    /// The part it serves.
    pub part: PartId,
    /// Features of that part it serves.
    pub features: Vec<String>,
    /// The number of its drawing.
    pub drawing: Option<String>,
    /// Where it lies.
    pub shelf: String,
    /// The job it was made for.
    pub job: Option<JobId>,
}

/// Registers tooling: that it is there, and, where more is known, what it serves and its drawing.
///
/// # Errors
/// Input: nothing says what it is or where it lies; a feature that the part's family does not have.
pub fn add_tooling(book: &Book, new: NewTooling) -> Result<Vec<Statement>, Refusal> {
    if new.what.trim().is_empty() || new.shelf.trim().is_empty() {
        return Err(Refusal::input(
            "Tooling without a name or a shelf is made again in six years: both were expected.",
        ));
    }
    let features = known_features(book, &[new.part], &new.features)?;
    let drawing = filled(new.drawing);
    let mut all = vec![Statement::ToolingAdded(ToolingAdded {
        id: new.id,
        what: new.what.trim().into(),
        part: new.part,
        shelf: new.shelf.trim().into(),
        job: new.job,
    })];
    if !features.is_empty() || drawing.is_some() {
        all.push(Statement::ToolingTold(ToolingTold {
            tooling: new.id,
            features,
            parts: Vec::new(),
            drawing,
        }));
    }
    Ok(all)
}

/// Says more of a tool: features and parts it serves, its drawing.
///
/// # Errors
/// Input: there is no such tool or part, a feature that no part it serves has, or nothing that is new.
pub fn tell_tooling(book: &Book, told: ToolingTold) -> Result<Vec<Statement>, Refusal> {
    let kept = kept(book, told.tooling)?;
    let served: Vec<PartId> = kept.serves().chain(told.parts.iter().copied()).collect();
    let features = known_features(book, &served, &told.features)?;
    let drawing = filled(told.drawing);
    let is_new = features.iter().any(|f| !kept.features.contains(f))
        || told
            .parts
            .iter()
            .any(|part| !kept.serves().any(|p| p == *part))
        || (drawing.is_some() && drawing != kept.drawing);
    if !is_new {
        return Err(Refusal::input(
            "Nothing new is told: a feature or a part it serves, or its drawing, was expected.",
        ));
    }
    Ok(vec![Statement::ToolingTold(ToolingTold {
        features,
        drawing,
        ..told
    })])
}

/// States that a tool was held against something better.
///
/// # Errors
/// Input: there is no such tool, nothing it was held against, or found wrong without a word on the error. Refused: it
/// was taken out.
pub fn check_tooling(book: &Book, check: ToolingChecked) -> Result<Vec<Statement>, Refusal> {
    let kept = kept(book, check.tooling)?;
    is_in_use(kept)?;
    if check.against.trim().is_empty() {
        return Err(Refusal::input(
            "Say what it was held against: a master, blocks, a sine bar.",
        ));
    }
    let error = filled(check.error);
    let told = filled(check.told);
    if !check.good && error.is_none() && told.is_none() {
        return Err(Refusal::input(
            "Say what is wrong with it: the error found, or what was seen.",
        ));
    }
    Ok(vec![Statement::ToolingChecked(ToolingChecked {
        against: check.against.trim().into(),
        error,
        told,
        ..check
    })])
}

/// States that a tool lies somewhere else; one that was taken out is back by this.
///
/// # Errors
/// Input: there is no such tool, no shelf, or it lies there already.
pub fn move_tooling(book: &Book, moved: ToolingMoved) -> Result<Vec<Statement>, Refusal> {
    let kept = kept(book, moved.tooling)?;
    let shelf = moved.shelf.trim();
    if shelf.is_empty() {
        return Err(Refusal::input("Say where it lies now: a shelf, a drawer."));
    }
    if kept.out.is_none() && kept.shelf == shelf {
        return Err(Refusal::input(format!("It lies there already: {shelf}.")));
    }
    Ok(vec![Statement::ToolingMoved(ToolingMoved {
        shelf: shelf.into(),
        ..moved
    })])
}

/// States that a tool is no longer to be used.
///
/// # Errors
/// Input: there is no such tool, or nothing says why. Refused: it was taken out already.
pub fn take_out_tooling(book: &Book, out: ToolingTakenOut) -> Result<Vec<Statement>, Refusal> {
    let kept = kept(book, out.tooling)?;
    is_in_use(kept)?;
    if out.because.trim().is_empty() {
        return Err(Refusal::input(
            "Say why: worn past its size, broken, lost, given away.",
        ));
    }
    Ok(vec![Statement::ToolingTakenOut(ToolingTakenOut {
        because: out.because.trim().into(),
        ..out
    })])
}

/// Whether what is told of a tool names only features of parts it serves.
///
/// # Errors
/// Input: there is no such tool or part, or a feature that no part it serves has.
pub(crate) fn fits_tool(book: &Book, told: &ToolingTold) -> Result<(), Refusal> {
    let kept = kept(book, told.tooling)?;
    let served: Vec<PartId> = kept.serves().chain(told.parts.iter().copied()).collect();
    known_features(book, &served, &told.features).map(drop)
}

/// The newest check of a tool that had been made by a day, by its day.
pub fn last_tool_check(kept: &Tooling, on: Date) -> Option<&CheckMade> {
    let made = kept.checks.iter().filter(|check| check.on <= on);
    made.max_by_key(|check| (check.on, check.entry))
}

fn kept(book: &Book, id: ToolingId) -> Result<&Tooling, Refusal> {
    let kept = book.tooling.get(&id);
    kept.ok_or_else(|| Refusal::input("There is no such tool in this book."))
}

fn is_in_use(kept: &Tooling) -> Result<(), Refusal> {
    match &kept.out {
        None => Ok(()),
        Some(out) => Err(Refusal::refused(format!(
            "T-{:03} was taken out on {}: {}.",
            kept.number, out.on, out.because
        ))
        .todo("If it is back in use, say on which shelf it lies: `outshop tooling move`.")),
    }
}

/// The features as told, without blanks; each must be one of a part the tool serves.
fn known_features(book: &Book, parts: &[PartId], told: &[String]) -> Result<Vec<String>, Refusal> {
    let mut known: Vec<&str> = Vec::new();
    for part in parts {
        let family = family(book, &part_of(book, *part)?.family)?;
        known.extend(family.features.iter().map(|feature| feature.name.as_str()));
    }
    let told: Vec<String> = told.iter().map(|told| told.trim().to_string()).collect();
    match told.iter().find(|told| !known.contains(&told.as_str())) {
        None => Ok(told),
        Some(wrong) => Err(Refusal::input(format!(
            "`{wrong}` is no feature of what it serves: {} were expected.",
            known.join(", ")
        ))),
    }
}
