//! Spares: blanks, glasses, gaskets, bar. What lies there is the sum of what came and went, in whatever order it was
//! entered; a count is held against that sum and changes nothing of it.

use jiff::civil::Date;
use measure::Size;

use super::filled;
use crate::Refusal;
use crate::book::{
    Amount, Book, Counted, JobId, MoveOf, Spare, SpareAdded, SpareCounted, SpareHeld, SpareId,
    SpareKnown, SpareMove, SpareReceived, SpareSettled, SpareTold, SpareUsed, Statement, UsedOn,
};

/// More pieces than a shop holds of anything, and more inches of bar: a slip of the hand.
const MOST_PIECES: i64 = 1_000_000;
const MOST_INCHES: i64 = 1_000_000;

/// Reads how many: a whole number of pieces, or a length with its unit, none of it negative.
///
/// # Errors
/// Input: neither, or more than any shop holds.
pub fn read_amount(counted: Counted, text: &str) -> Result<Amount, Refusal> {
    let typed = text.trim();
    let amount = match counted {
        Counted::Pieces => typed.parse::<u32>().map(i64::from).map_err(|_| {
            Refusal::input(format!(
                "`{text}` is not a number of pieces: a whole number was expected, such as 12."
            ))
        })?,
        Counted::Length => {
            let size = Size::parse(typed).map_err(|why| {
                Refusal::input(format!("`{text}` is not a length with its unit: {why}"))
            })?;
            size.ticks()
        }
    };
    let most = match counted {
        Counted::Pieces => MOST_PIECES,
        Counted::Length => MOST_INCHES * Size::TICKS_PER_INCH,
    };
    if !(0..=most).contains(&amount) {
        return Err(Refusal::input(format!(
            "`{text}` is less than nothing, or more than a shop holds."
        )));
    }
    Ok(Amount(amount))
}

/// What a spare's moves add up to on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ledger<'s> {
    /// What lies there, by the ledger. Below nothing where something that came in was not entered.
    pub there: Amount,
    /// What is held for jobs that are not closed and was not used on them yet, in the order first held.
    pub held: Vec<(JobId, Amount)>,
    /// What lies there and is held for nothing.
    pub free: Amount,
    /// By how much what is free is below the least to keep; nothing where it is not, or nobody said.
    pub short: Option<Amount>,
    /// The newest count, where it disagrees with the ledger and nobody answered for that.
    pub differs: Option<Differs<'s>>,
}

/// A count that disagrees.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differs<'s> {
    /// The count.
    pub count: &'s SpareMove,
    /// What lay there by the ledger when it was counted.
    pub ledger: Amount,
    /// Count less ledger, less what was answered for since.
    pub by: Amount,
}

/// Adds up a spare's moves through a day. The order in which they were entered plays no part but among those of one
/// day, and there only for a count: it is held against what was entered before it.
pub fn ledger<'s>(book: &Book, kept: &'s Spare, on: Date) -> Ledger<'s> {
    let moves: Vec<&SpareMove> = kept.moves.iter().filter(|it| it.on <= on).collect();
    let when = |it: &SpareMove| (it.on, it.entry);
    let sum = |wanted: &dyn Fn(&SpareMove) -> bool| -> i128 {
        let of = moves.iter().filter(|it| wanted(it));
        of.map(|it| signed(it)).sum()
    };
    let there = sum(&|_| true);
    let count = moves.iter().filter(|it| it.of == MoveOf::Counted);
    let count = count.max_by_key(|it| when(it));
    let differs = count.and_then(|count| {
        let before = sum(&|it| when(it) < when(count));
        let settled = |it: &SpareMove| matches!(it.of, MoveOf::Settled { .. });
        let since = sum(&|it| settled(it) && when(it) > when(count));
        let by = i128::from(count.many.0) - before - since;
        (by != 0).then(|| Differs {
            count,
            ledger: amount(before),
            by: amount(by),
        })
    });
    let held = held(book, &moves);
    let free = there
        - held
            .iter()
            .map(|(_, many)| i128::from(many.0))
            .sum::<i128>();
    let short = kept.known.least.map(|least| i128::from(least.0) - free);
    Ledger {
        there: amount(there),
        held,
        free: amount(free),
        short: short.filter(|short| *short > 0).map(amount),
        differs,
    }
}

/// What a move adds to the ledger, or takes from it.
fn signed(it: &SpareMove) -> i128 {
    let many = i128::from(it.many.0);
    match it.of {
        MoveOf::Received { .. } | MoveOf::Settled { .. } => many,
        MoveOf::Used { .. } => -many,
        MoveOf::Counted | MoveOf::Held { .. } => 0,
    }
}

fn held(book: &Book, moves: &[&SpareMove]) -> Vec<(JobId, Amount)> {
    let mut held: Vec<(JobId, &SpareMove)> = Vec::new();
    for it in moves {
        let MoveOf::Held { job } = it.of else {
            continue;
        };
        match held.iter_mut().find(|(known, _)| *known == job) {
            Some((_, newest)) if (newest.on, newest.entry) > (it.on, it.entry) => {}
            Some((_, newest)) => *newest = it,
            None => held.push((job, it)),
        }
    }
    let is_open = |job: &JobId| book.jobs.get(job).is_some_and(|it| it.closed.is_none());
    let used = |job: JobId| -> i128 {
        let on = MoveOf::Used {
            used: UsedOn::Job { job },
        };
        let used = moves.iter().filter(|it| it.of == on);
        used.map(|it| i128::from(it.many.0)).sum()
    };
    let held = held.into_iter().filter(|(job, _)| is_open(job));
    held.map(|(job, it)| (job, i128::from(it.many.0) - used(job)))
        .filter(|(_, left)| *left > 0)
        .map(|(job, left)| (job, amount(left)))
        .collect()
}

fn amount(sum: i128) -> Amount {
    Amount(i64::try_from(sum).unwrap_or(if sum < 0 { i64::MIN } else { i64::MAX }))
}

/// Puts a spare in the book.
///
/// # Errors
/// Input: nothing says what it is or where it lies, or the book has the same already.
pub fn add_spare(book: &Book, new: SpareAdded) -> Result<Vec<Statement>, Refusal> {
    let what = new.what.trim();
    let known = tidy(new.known);
    if what.is_empty() || known.shelf.is_none() {
        return Err(Refusal::input(
            "A spare that nobody can find is bought again: what it is and where it lies were expected.",
        ));
    }
    let same = |it: &&Spare| it.what.eq_ignore_ascii_case(what) && it.known.size == known.size;
    if let Some(kept) = book.spares.values().find(same) {
        return Err(Refusal::input(format!(
            "It is in this book already: S-{:03}.",
            kept.number
        )));
    }
    Ok(vec![Statement::SpareAdded(SpareAdded {
        what: what.into(),
        known,
        ..new
    })])
}

/// Says more of a spare.
///
/// # Errors
/// Input: there is no such spare, or nothing is told.
pub fn tell_spare(book: &Book, told: SpareTold) -> Result<Vec<Statement>, Refusal> {
    kept(book, told.spare)?;
    let known = tidy(told.known);
    if known == SpareKnown::default() {
        return Err(Refusal::input(
            "Nothing is told of it: its material, size, drawing, shelf or the least to keep was expected.",
        ));
    }
    Ok(vec![Statement::SpareTold(SpareTold { known, ..told })])
}

/// States that some came in.
///
/// # Errors
/// Input: there is no such spare, none came, or nothing says from whom.
pub fn receive_spare(book: &Book, it: SpareReceived) -> Result<Vec<Statement>, Refusal> {
    kept(book, it.spare)?;
    some(it.many)?;
    if it.from.trim().is_empty() {
        return Err(Refusal::input(
            "Say from whom they came, or where they were found.",
        ));
    }
    Ok(vec![Statement::SpareReceived(SpareReceived {
        from: it.from.trim().into(),
        certificate: filled(it.certificate),
        told: filled(it.told),
        ..it
    })])
}

/// States that some were used. More than the ledger has is kept as well: who took them knows, and the ledger then
/// says that something was never entered.
///
/// # Errors
/// Input: there is no such spare, job or engine, or none were used. Refused: the job is closed.
pub fn use_spare(book: &Book, it: SpareUsed) -> Result<Vec<Statement>, Refusal> {
    kept(book, it.spare)?;
    some(it.many)?;
    match it.on {
        UsedOn::Job { job } => open_job(book, job)?,
        UsedOn::Engine { locomotive } => drop(super::engine_of(book, locomotive)?),
    }
    Ok(vec![Statement::SpareUsed(SpareUsed {
        told: filled(it.told),
        ..it
    })])
}

/// States how many were counted.
///
/// # Errors
/// Input: there is no such spare.
pub fn count_spare(book: &Book, it: SpareCounted) -> Result<Vec<Statement>, Refusal> {
    kept(book, it.spare)?;
    Ok(vec![Statement::SpareCounted(SpareCounted {
        told: filled(it.told),
        ..it
    })])
}

/// Answers for the difference between the newest count and the ledger.
///
/// # Errors
/// Input: there is no such spare, or no reason. Refused: nothing differs.
pub fn settle_spare(
    book: &Book,
    id: SpareId,
    because: &str,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = kept(book, id)?;
    if because.trim().is_empty() {
        return Err(Refusal::input(
            "Say why they differ: broken, lost, never entered.",
        ));
    }
    let differs = ledger(book, kept, on).differs;
    let differs = differs.ok_or_else(|| {
        Refusal::refused(format!(
            "Nothing of S-{:03} differs: no count disagrees with the ledger.",
            kept.number
        ))
        .todo("Count what lies there first: `outshop spare count`.")
    })?;
    Ok(vec![Statement::SpareSettled(SpareSettled {
        spare: id,
        many: differs.by,
        because: because.trim().into(),
    })])
}

/// Holds so many in all for a job, or none any longer.
///
/// # Errors
/// Input: there is no such spare or job. Refused: the job is closed.
pub fn hold_spare(book: &Book, it: SpareHeld) -> Result<Vec<Statement>, Refusal> {
    kept(book, it.spare)?;
    open_job(book, it.job)?;
    Ok(vec![Statement::SpareHeld(it)])
}

/// What a correction of a statement about a spare must still say.
pub(crate) fn admit_spare(statement: &Statement) -> Result<(), Refusal> {
    let (many, words) = match statement {
        Statement::SpareAdded(it) => (None, vec![&it.what]),
        Statement::SpareReceived(it) => (Some(it.many), vec![&it.from]),
        Statement::SpareUsed(it) => (Some(it.many), Vec::new()),
        Statement::SpareSettled(it) => (None, vec![&it.because]),
        Statement::SpareCounted(it) if it.many.0 < 0 => (Some(it.many), Vec::new()),
        _ => (None, Vec::new()),
    };
    if words.iter().any(|word| word.trim().is_empty()) {
        return Err(Refusal::input(
            "It must still say what it is, from whom or why.",
        ));
    }
    many.map_or(Ok(()), some)
}

fn kept(book: &Book, id: SpareId) -> Result<&Spare, Refusal> {
    let kept = book.spares.get(&id);
    kept.ok_or_else(|| Refusal::input("There is no such spare in this book."))
}

fn some(many: Amount) -> Result<(), Refusal> {
    if many.0 > 0 {
        return Ok(());
    }
    Err(Refusal::input("More than nothing was expected."))
}

fn open_job(book: &Book, id: JobId) -> Result<(), Refusal> {
    let job = book.jobs.get(&id);
    let job = job.ok_or_else(|| Refusal::input("There is no such job in this book."))?;
    match job.closed {
        None => Ok(()),
        Some((day, _, _)) => Err(Refusal::refused(format!(
            "J-{:03} was closed on {day}: nothing is used on it or held for it any more.",
            job.number
        ))),
    }
}

fn tidy(known: SpareKnown) -> SpareKnown {
    SpareKnown {
        material: filled(known.material),
        size: filled(known.size),
        drawing: filled(known.drawing),
        shelf: filled(known.shelf),
        least: known.least,
    }
}
