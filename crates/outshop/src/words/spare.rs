//! Spares.

use jiff::civil::Date;
use measure::{House, Size, show};
use shop::book::{Amount, Counted, MoveOf, Spare, SpareMove};

use super::day;

/// How many, as a shop says it: `3`, `130 1/2 in`.
pub fn many(counted: Counted, amount: Amount, house: House) -> String {
    let size = Size::from_ticks(amount.0);
    match (counted, house, show::fraction_in(size)) {
        (Counted::Pieces, ..) => amount.0.to_string(),
        (Counted::Length, House::Inch, Some(fraction)) => format!("{fraction} in"),
        (Counted::Length, ..) => show::size(size, house),
    }
}

/// What it is, with its size.
pub fn what(kept: &Spare) -> String {
    match &kept.known.size {
        Some(size) => format!("{}, {size}", kept.what),
        None => kept.what.clone(),
    }
}

/// What is known of it beside.
pub fn known(kept: &Spare, house: House) -> Vec<String> {
    let known = &kept.known;
    let mut told = Vec::new();
    told.extend(known.material.as_ref().map(|it| format!("material: {it}")));
    told.extend(known.drawing.as_ref().map(|it| format!("drawing: {it}")));
    let least = known.least.map(|it| many(kept.counted, it, house));
    told.push(format!(
        "least to keep: {}",
        least.as_deref().unwrap_or("not said")
    ));
    told
}

/// How many lie there.
pub fn there(many: &str) -> String {
    format!("{many} there by the ledger")
}

/// Held for a job.
pub fn held(many: &str, job: &str) -> String {
    format!("{many} held for {job}")
}

/// Below the least to keep.
pub fn short(short: &str, least: &str) -> String {
    format!("SHORT by {short} of the {least} to keep")
}

/// A count that disagrees.
pub fn differs(count: &str, on: Date, ledger: &str) -> String {
    format!(
        "COUNTED {count} on {}, where the ledger had {ledger}",
        day(on)
    )
}

/// More was used than ever came in.
pub const BELOW_NOTHING: &str = "MORE USED than came in: something was never entered";

/// One line of the ledger.
pub fn moved(it: &SpareMove, many: &str, on: &str, by: &str) -> String {
    let what = match &it.of {
        MoveOf::Received { from, certificate } => {
            let paper = certificate.as_ref();
            let paper = paper.map_or(String::new(), |paper| format!(", certificate {paper}"));
            format!("{many} came from {from}{paper}")
        }
        MoveOf::Used { .. } => format!("{many} used on {on}"),
        MoveOf::Counted => format!("{many} counted"),
        MoveOf::Settled { because } => format!("{many} written {}: {because}", on_or_off(it)),
        MoveOf::Held { .. } if it.many.0 == 0 => format!("none held for {on} any longer"),
        MoveOf::Held { .. } => format!("{many} in all held for {on}"),
    };
    let told = it.told.as_ref();
    let told = told.map_or(String::new(), |told| format!("; {told}"));
    format!("{} {what}{told} (by {by}, entry {})", day(it.on), it.entry)
}

fn on_or_off(it: &SpareMove) -> &'static str {
    if it.many.0 < 0 { "off" } else { "on" }
}

/// A way to count that is none.
pub fn no_way(word: &str) -> String {
    format!("`{word}` is no way to count a spare: pieces or length was expected.")
}

/// Neither or both.
pub const ON_WHAT: &str = "Say what they were used on: a job or an engine, one of the two.";
/// None.
pub const NONE: &str = "No spare is in this book yet.";
/// None is short.
pub const NONE_SHORT: &str = "No spare is below the least to keep.";
/// The page.
pub const TITLE: &str = "Spares";
/// Under its title.
pub const LEAD: &str = "Blanks, glasses, gaskets, bar: what lies there by the ledger. What is short or counted otherwise stands first.";
/// A column.
pub const NUMBER: &str = "Number";
/// A column.
pub const SPARE: &str = "Spare";
/// A column.
pub const THERE: &str = "There";
/// A column.
pub const SHELF_COLUMN: &str = "Shelf";
/// A section.
pub const LEDGER: &str = "Ledger";
/// An empty one.
pub const NO_MOVE: &str = "Nothing came in yet: enter what lies there as received.";
/// A form.
pub const ADD: &str = "Put a spare in the book";
/// Its button.
pub const ADD_IT: &str = "Put it in";
/// A field.
pub const WHAT: &str = "What it is";
/// What it tells.
pub const WHAT_TELLS: &str = "such as water glass, bronze bar";
/// A choice.
pub const COUNTED: &str = "How it is counted";
/// A choice.
pub const PIECES: &str = "by the piece";
/// A choice.
pub const LENGTH: &str = "by length, as bar and packing are";
/// A field.
pub const MATERIAL: &str = "Material";
/// A field.
pub const SIZE: &str = "Size";
/// What it tells.
pub const SIZE_TELLS: &str = "in the words it is ordered by";
/// A field.
pub const DRAWING: &str = "Drawing";
/// A field.
pub const SHELF: &str = "Where it lies";
/// A field.
pub const LEAST: &str = "Least to keep";
/// A form.
pub const RECEIVE: &str = "Some came in";
/// Its button.
pub const RECEIVE_IT: &str = "They came in";
/// A field.
pub const MANY: &str = "How many";
/// What it tells.
pub fn many_tells(counted: Counted) -> &'static str {
    match counted {
        Counted::Pieces => "a whole number",
        Counted::Length => "a length with its unit, such as 7-1/2 in",
    }
}
/// A field.
pub const FROM: &str = "From whom";
/// What it tells.
pub const FROM_TELLS: &str = "a supplier, or where they were found";
/// A field.
pub const CERTIFICATE: &str = "Paper of the material";
/// A field.
pub const TOLD: &str = "What else there is to say";
/// A form.
pub const USE: &str = "Some were used";
/// Its button.
pub const USE_IT: &str = "They were used";
/// A field.
pub const JOB: &str = "On the job";
/// What it tells.
pub const JOB_TELLS: &str = "such as J-001; or else";
/// A field.
pub const ENGINE: &str = "On the engine";
/// A form.
pub const HOLD: &str = "Hold some for a job";
/// Its button.
pub const HOLD_IT: &str = "Hold them";
/// A field.
pub const HOLD_MANY: &str = "How many in all";
/// What it tells.
pub const HOLD_TELLS: &str = "0 holds none any longer";
/// A field.
pub const FOR_JOB: &str = "For the job";
/// A form.
pub const COUNT: &str = "They were counted";
/// Its button.
pub const COUNT_IT: &str = "Keep the count";
/// A form.
pub const SETTLE: &str = "Answer for the difference";
/// Its button.
pub const SETTLE_IT: &str = "Write it on or off";
/// A field.
pub const BECAUSE: &str = "Why they differ";
/// What it tells.
pub const BECAUSE_TELLS: &str = "broken, lost, never entered";
/// A form.
pub const TELL: &str = "Say more of it";
/// Its button.
pub const KEEP: &str = "Keep it";
/// On the page of a job.
pub const OF_JOB: &str = "Spares held for it and used on it";

/// On the first page, how many need a person.
pub fn need(count: usize) -> String {
    super::count(
        count,
        "spare is short or counted otherwise",
        "spares are short or counted otherwise",
    )
}
