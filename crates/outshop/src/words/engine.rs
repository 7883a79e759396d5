//! An engine: what stops her, her clocks, her parts, her log.

use jiff::civil::Date;
use measure::show::{self, Rounding};
use measure::{House, Unit};
use shop::book::Place;

/// Over her clocks.
pub const CLOCKS: &str = "Every clock, and why";
/// A column.
pub const CLOCK: &str = "Clock";
/// A column.
pub const STATE: &str = "State";
/// A column.
pub const LEFT: &str = "Left";
/// A column.
pub const WHY: &str = "Why";
/// A column.
pub const RULE: &str = "Rule";
/// Of a clock.
pub const RUNS: &str = "runs";
/// Of a clock.
pub const STOPS_HER: &str = "stops her";
/// Of a clock that is due on each day of use.
pub const EACH_DAY: &str = "each day";

/// Over the list of what is in the way.
pub const WHAT_STOPS: &str = "What stops her";
/// In the place of the list.
pub const NOTHING_STOPS: &str = "Nothing in this book stops her";
/// A form.
pub const HAND_OVER: &str = "Hand her to service";
/// Its button.
pub const SIGN_RELEASE: &str = "Sign the release";
/// Over promised runs.
pub const PROMISED: &str = "Promised";
/// Of a promised run.
pub const NOT_STOPPED: &str = "nothing in this book stops her";

/// Over her parts.
pub const PARTS: &str = "Parts in the book";
/// None.
pub const NO_PARTS: &str = "None yet.";

/// Over her log.
pub const LOG: &str = "Log";
/// Of a log.
pub const NEVER_CLOSED: &str = "Never closed.";
/// A column and a field.
pub const LIT: &str = "Fire lit";
/// A column and a field.
pub const UP: &str = "Pressure up";
/// A column and a field.
pub const OUT: &str = "Fire out";
/// A column and a field.
pub const GONE: &str = "Pressure gone";
/// A column.
pub const SERVICE_DAYS: &str = "Service days";
/// A field.
pub const MILES: &str = "Miles";
/// How a moment is written.
pub const SUCH_AS: &str = "such as 2026-05-02T06:30";
/// What to do about what nobody wrote down.
pub const LEFT_BLANK: &str = "What nobody wrote down is left blank, never guessed.";
/// A form.
pub const LOG_A_FIRE: &str = "Log a fire";
/// Its button.
pub const LOG_IT: &str = "Log it";
/// A form, folded.
pub const CLOSE_LOG: &str = "Close the log";
/// The same form, open.
pub const LOG_HOLDS: &str = "The log holds every fire through a day";
/// A field.
pub const FROM: &str = "From";
/// A field.
pub const THROUGH: &str = "Through";
/// A button.
pub const CLOSE_IT: &str = "Close it";
/// A form.
pub const OPEN_INSPECTION: &str = "Open an inspection";
/// A field.
pub const KIND: &str = "Kind";
/// A button.
pub const OPEN_IT: &str = "Open it";

/// A place on her, by the words beside the drawing.
pub fn place(place: Place) -> &'static str {
    match place {
        Place::Smokebox => "smokebox",
        Place::Barrel => "barrel",
        Place::Firebox => "firebox",
        Place::Cab => "cab",
        Place::Motion => "cylinders and motion",
        Place::Wheels => "wheels",
        Place::Tender => "tender",
    }
}

/// The same where there is little room.
pub fn short_place(at: Place) -> &'static str {
    match at {
        Place::Motion => "motion",
        other => place(other),
    }
}

/// What the list of places is called.
pub const PLACES: &str = "Places on her";

/// A place as a link says it: how many parts of it the book holds, how many of them have an open finding.
pub fn place_link(place: Place, parts: usize, findings: usize) -> String {
    let name = self::place(place);
    match (parts, findings) {
        (0, _) => format!("{name}: no part"),
        (n, 0) => format!("{name}: {}", super::count(n, "part", "parts")),
        (n, f) => format!(
            "{name}: {}, {} open",
            super::count(n, "part", "parts"),
            super::count(f, "finding", "findings")
        ),
    }
}

/// A section of the page: the parts of a place.
pub fn parts_at(place: Place) -> String {
    format!("Parts in the book: {}", self::place(place))
}

/// None there.
pub const NO_PARTS_THERE: &str = "The book holds no part of hers there.";
/// Over the parts whose name says which side they are on.
pub const RIGHT_SIDE: &str = "Right side";
/// The other.
pub const LEFT_SIDE: &str = "Left side";
/// Parts whose name does not say.
pub const NO_SIDE: &str = "No side in the name";
/// A field.
pub const FIND_PART: &str = "Find a part by its name";
/// A button.
pub const FIND: &str = "Find";
/// Leads back to all of them.
pub const ALL_PARTS: &str = "Every part of hers";

/// A section of the page: what a search found.
pub fn found(sought: &str) -> String {
    format!("Parts with “{sought}” in the name")
}

/// Nothing has that name.
pub fn not_found(sought: &str) -> String {
    format!("No part of hers in this book has “{sought}” in its name.")
}

/// When a part was last read, and whether before or after the work.
pub fn last_read(on: Date, state: measure::State) -> String {
    format!("last measured {}, {}", super::day(on), super::state(state))
}

/// A part nobody measured.
pub const NEVER_READ: &str = "never measured in this book";

/// Number and wheels, as the head of her page.
pub fn head(number: &str, wheels: &str) -> String {
    format!("No. {number}, {wheels}")
}

/// What she is.
pub fn lead(gauge: &str, jurisdiction: &str, psi: Option<u32>, house: House) -> String {
    let pressure = match psi {
        Some(psi) => format!("allowed {} by her card", pressure(psi, house)),
        None => "allowed pressure not on file".into(),
    };
    format!("{gauge}; rules {jurisdiction}; {pressure}.")
}

/// A pressure of her card, which is in psi; in a metric house what that is stands after it.
fn pressure(psi: u32, house: House) -> String {
    match house {
        House::Inch => format!("{psi} psi gauge"),
        House::Metric => {
            let pascal = Unit::PsiGauge.to_si(f64::from(psi));
            let metric = show::value(pascal, Unit::KPaGauge, 0, Rounding::Down);
            format!("{psi} psi gauge ({metric})")
        }
    }
}

/// The side view, for those who do not see it.
pub fn side_view(wheels: &str) -> String {
    format!("Side view of a {wheels}, smokebox to the left")
}

/// Her release.
pub fn released(by: &str, on: Date, log_through: Date) -> String {
    format!(
        "Released {} by {by}; log closed through {}.",
        super::day(on),
        super::day(log_through)
    )
}

/// Why there is none.
pub fn not_released(why: &str) -> String {
    format!("But {why}.")
}

/// What a run is, before what is in its way.
pub fn run(what: &str) -> String {
    format!(" {what}: ")
}

/// What her log holds.
pub fn closed(from: Date, through: Date) -> String {
    format!(
        "Closed from {} through {}.",
        super::day(from),
        super::day(through)
    )
}

/// Service days of one fire, the least and the most.
pub fn days(least: usize, most: usize) -> String {
    if least == most {
        least.to_string()
    } else {
        format!("{least} to {most}")
    }
}

/// A kind of inspection in a list.
pub fn kind(word: &str, meaning: &str) -> String {
    format!("{word}: {meaning}")
}
