//! The lathes that the shop cuts on: what is stated of each, so that a sheet can be turned into its settings.

use measure::{Angle, Dimension, House, Size, entered, entered_with_unit};

use super::filled;
use crate::Refusal;
use crate::book::{
    Book, Lathe, LatheAdded, LatheId, LatheKnown, LatheTaper, LatheTold, Statement, ThreadDial,
};

/// Teeth that a change wheel may have, and a dial's worm wheel; lines of its face. As the sheets take them.
const WHEEL: std::ops::RangeInclusive<u32> = 10..=200;
const WORM: std::ops::RangeInclusive<u32> = 4..=200;
const LINES: std::ops::RangeInclusive<u32> = 1..=100;
const STUD: std::ops::RangeInclusive<u32> = 1..=60;
const SPAN: std::ops::RangeInclusive<u32> = 1..=1000;
/// The most wheels that the sheet takes, and more speeds than any headstock has.
const MOST_WHEELS: usize = 40;
const MOST_SPEEDS: usize = 60;
/// Turns a minute that no shop's lathe exceeds.
const FASTEST: u32 = 20_000;

/// Puts a lathe in the book.
///
/// # Errors
/// Input: it has no name, a lathe of that name is in the book, or something told of it cannot be.
pub fn add_lathe(book: &Book, new: LatheAdded) -> Result<Vec<Statement>, Refusal> {
    let name = new.name.trim();
    let (known, taper) = (fits(new.known)?, fits_taper(new.taper)?);
    if name.is_empty() {
        return Err(Refusal::input(
            "What the shop calls the lathe was expected.",
        ));
    }
    let same = |it: &&Lathe| it.name.eq_ignore_ascii_case(name);
    if let Some(kept) = book.lathes.values().find(same) {
        return Err(Refusal::input(format!(
            "It is in this book already: LA-{:03}.",
            kept.number
        )));
    }
    Ok(vec![Statement::LatheAdded(LatheAdded {
        name: name.into(),
        known,
        taper,
        ..new
    })])
}

/// Says more of a lathe.
///
/// # Errors
/// Input: there is no such lathe, nothing is told, or something told of it cannot be.
pub fn tell_lathe(book: &Book, told: LatheTold) -> Result<Vec<Statement>, Refusal> {
    kept(book, told.lathe)?;
    let (known, taper) = (fits(told.known)?, fits_taper(told.taper)?);
    if known == LatheKnown::default() && taper.is_none() {
        return Err(Refusal::input(
            "Nothing is told of it: leadscrew, wheels, thread dial, speeds, a dial's graduation or a swing was expected.",
        ));
    }
    Ok(vec![Statement::LatheTold(LatheTold {
        known,
        taper,
        ..told
    })])
}

/// What a correction of a statement about a lathe must still say.
pub(crate) fn admit_lathe(statement: &Statement) -> Result<(), Refusal> {
    let (name, known, taper) = match statement {
        Statement::LatheAdded(it) => (it.name.as_str(), &it.known, &it.taper),
        Statement::LatheTold(it) => ("told", &it.known, &it.taper),
        _ => return Ok(()),
    };
    if name.trim().is_empty() {
        return Err(Refusal::input(
            "It must still say what the lathe is called.",
        ));
    }
    fits_taper(taper.clone())?;
    fits(known.clone()).map(drop)
}

fn kept(book: &Book, id: LatheId) -> Result<&Lathe, Refusal> {
    let kept = book.lathes.get(&id);
    kept.ok_or_else(|| Refusal::input("There is no such lathe in this book."))
}

/// What is told, tidy: each thing within what a lathe can be, wheels and speeds in order.
fn fits(mut known: LatheKnown) -> Result<LatheKnown, Refusal> {
    known.leadscrew = filled(known.leadscrew);
    if let Some(written) = &known.leadscrew {
        entered_with_unit(written, Dimension::Pitch).map_err(|why| {
            Refusal::input(format!(
                "`{written}` is not the pitch of a leadscrew, such as 4 TPI or 6 mm: {why}"
            ))
        })?;
    }
    known.spindle_ratio = filled(known.spindle_ratio);
    if let Some(written) = &known.spindle_ratio {
        let read = entered(written, Dimension::Ratio, House::Inch);
        let read = read.map_err(|why| {
            Refusal::input(format!(
                "`{written}` is not the turns of the first driver to one of the spindle, such as 1 or 1/2: {why}"
            ))
        })?;
        if !(0.1..=10.0).contains(&read.value()) {
            return Err(Refusal::input(format!(
                "`{written}` turns of the first driver to one of the spindle cannot be: 1/10 to 10 was expected."
            )));
        }
    }
    if let Some(wheels) = &mut known.wheels {
        all_within(wheels, &WHEEL, MOST_WHEELS, "teeth of change wheels")?;
        wheels.sort_unstable();
    }
    if let Some(speeds) = &mut known.speeds {
        all_within(speeds, &(1..=FASTEST), MOST_SPEEDS, "turns a minute")?;
        speeds.sort_unstable();
        speeds.dedup();
    }
    within(known.stud, &STUD, "teeth of room at a stud")?;
    within(known.span, &SPAN, "teeth that the arm spans")?;
    if let Some(ThreadDial::Wheel { teeth, lines }) = known.thread_dial {
        within(Some(teeth), &WORM, "teeth of the dial's worm wheel")?;
        within(Some(lines), &LINES, "lines on the dial")?;
    }
    for size in [
        known.cross_graduation,
        known.compound_graduation,
        known.swing_bed,
        known.swing_slide,
        known.centers,
    ] {
        if size.is_some_and(|size| size <= Size::from_ticks(0)) {
            return Err(Refusal::input(
                "A graduation, a swing or a length above nothing was expected.",
            ));
        }
    }
    Ok(known)
}

/// What is told of tapers, tidy; none where nothing is.
fn fits_taper(taper: Option<LatheTaper>) -> Result<Option<LatheTaper>, Refusal> {
    let Some(mut taper) = taper else {
        return Ok(None);
    };
    taper.swivel_graduation = filled(taper.swivel_graduation);
    if let Some(written) = &taper.swivel_graduation {
        let read = entered_with_unit(written, Dimension::Angle).map_err(|why| {
            Refusal::input(format!(
                "`{written}` is not one graduation of a swivel, such as 1 deg or 0d30m: {why}"
            ))
        })?;
        let degrees = Angle::radians(read.si).to_degrees();
        if !(1.0 / 60.0..=10.0).contains(&(degrees + 1e-9)) {
            return Err(Refusal::input(format!(
                "A graduation of `{written}` cannot be: a minute to ten degrees was expected."
            )));
        }
    }
    if taper
        .set_over
        .is_some_and(|over| over <= Size::from_ticks(0))
    {
        return Err(Refusal::input(
            "How far the tailstock goes over each way was expected, above nothing.",
        ));
    }
    Ok((taper != LatheTaper::default()).then_some(taper))
}

fn all_within(
    told: &[u32],
    range: &std::ops::RangeInclusive<u32>,
    most: usize,
    what: &str,
) -> Result<(), Refusal> {
    if told.is_empty() || told.len() > most {
        return Err(Refusal::input(format!(
            "{} numbers were told: 1 to {most} {what} were expected.",
            told.len()
        )));
    }
    told.iter()
        .try_for_each(|one| within(Some(*one), range, what))
}

fn within(
    told: Option<u32>,
    range: &std::ops::RangeInclusive<u32>,
    what: &str,
) -> Result<(), Refusal> {
    match told {
        Some(told) if !range.contains(&told) => Err(Refusal::input(format!(
            "{told} cannot be: {} to {} {what} was expected.",
            range.start(),
            range.end()
        ))),
        _ => Ok(()),
    }
}
