//! A finding, told downwards.

use jiff::civil::Date;
use shop::book::{FindingState, HoursFrom};
use shop::route::HoursOf;

/// A link.
pub const PARTS_LIFE: &str = "The part's life";
/// A section.
pub const FOUND: &str = "Found";
/// A section.
pub const MEASURED: &str = "Measured, as found";
/// No reading.
pub const NOT_MEASURED: &str = "Nothing was measured.";
/// A form: what it did not read.
pub const MEASURE: &str = "Measure what it asks for";
/// The same once it is carried.
pub const LOOK_AGAIN: &str = "Measure it again";
/// A column.
pub const WHAT: &str = "What";
/// A column.
pub const PLACE_BY_PLACE: &str = "Read, place by place";
/// The same on a narrow page.
pub const READ: &str = "Read";
/// A column.
pub const BY: &str = "By";
/// A column.
pub const LIMIT: &str = "Limit";
/// A column, and the head of its section.
pub const VERDICT: &str = "Verdict";
/// A column.
pub const STANDS_IN: &str = "Stands in";
/// Whose a verdict is.
pub const COMPUTED: &str = "A verdict is computed; the officer decides.";
/// A limit of the law whose rule depends on a fact that is missing.
pub const RULE_NOT_KNOWN: &str = "not known which rule";
/// A limit that is no law.
pub const OUR_OWN: &str = "our own limit";
/// A section.
pub const CLOCKS: &str = "Clocks of its own";
/// A button.
pub const START_IT: &str = "Start this clock";
/// A section.
pub const ROUTES: &str = "Routes, side by side";
/// The same, once decided.
pub const WEIGHED: &str = "Routes weighed";
/// Before the names of sheets.
pub const STAND_ON: &str = "These stand on the sheets";
/// Of a route.
pub const WHY_NOT: &str = "Why not";
/// Of a route.
pub const NEEDS: &str = "Needs";
/// Of a route.
pub const HOURS: &str = "Hours";
/// Of a route.
pub const METAL: &str = "Metal";
/// Of a route.
pub const BUYS: &str = "Buys";
/// Of a route.
pub const SKILL: &str = "Skill";
/// Of a route.
pub const SHEETS: &str = "Reckoned on";
/// Of a route.
pub const TOOLS: &str = "Tools first";
/// Of a tool that the register has not.
pub const TO_BE_MADE: &str = "to be made first";
/// Before a tool that was made for another part.
pub const FITS: &str = "unless it fits:";
/// Before the sheets that a tool is drawn from.
pub const DRAW_FROM: &str = "Its sizes are on";
/// Of a route.
pub const MOVES: &str = "Moves";
/// Of a route.
pub const STEPS: &str = "Steps";
/// Of a route.
pub const STOPS: &str = "Stop and ask";
/// Of a route.
pub const NOT_KNOWN: &str = "Not known";
/// A field.
pub const ROUTE: &str = "Route";
/// A field.
pub const WHY: &str = "Why";
/// A field.
pub const RECHECK: &str = "Looked at again on, if it is carried";
/// A form.
pub const DECIDE: &str = "Decide";
/// A form, on what is carried.
pub const DECIDE_AGAIN: &str = "Look at it again, then decide again";
/// Its button.
pub const SIGN: &str = "Sign the decision";
/// In the place of that form.
pub const NO_ROUTE: &str = "No route can be taken yet: see what each needs.";
/// A section.
pub const JOB: &str = "Job";
/// A field.
pub const PROMISED: &str = "Promised for";
/// A form and its button.
pub const MAKE_JOB: &str = "Make the job";
/// A section, before its verdict.
pub const LEFT: &str = "Left:";

/// Whose hours these are.
pub fn hours_of(of: HoursOf) -> String {
    match of {
        HoursOf::Family(None) => String::new(),
        HoursOf::Family(Some(HoursFrom::CommonPractice)) => "common practice".into(),
        HoursOf::Family(Some(HoursFrom::OwnBooks)) => {
            "as the family has them from our books".into()
        }
        HoursOf::Own(jobs) => format!(
            "our own: smallest, median and greatest of {}",
            super::count(jobs, "closed job", "closed jobs")
        ),
    }
}

/// A stop after a step.
pub fn hold(look: &str, by: &str) -> String {
    format!("(stop until {by} has seen: {look})")
}

/// The head of the page.
pub fn head(tag: &str, engine: &str, part: &str) -> String {
    format!("{tag}: No. {engine}, {part}")
}

/// Where it stands.
pub fn state(state: FindingState) -> &'static str {
    match state {
        FindingState::Open => "Nobody has decided yet.",
        FindingState::Decided => "Decided; no job is made yet.",
        FindingState::InWork => "In work.",
        FindingState::Closed => "Put right, proved and signed.",
        FindingState::Carried => "Carried by decision.",
    }
}

/// What brought it to light.
pub mod occasion {
    /// An inspection the book does not hold.
    pub const INSPECTION: &str = "at an inspection";
    /// A crew's report.
    pub const WRITE_UP: &str = "by a write-up";
    /// On the road.
    pub const ROAD_FAILURE: &str = "by a road failure";
    /// An inspector.
    pub const NOTICE: &str = "by an inspector's special notice";
    /// Work.
    pub const PLANNED: &str = "in planned work";

    /// Before the number of an inspection.
    pub fn at(kind: &str) -> String {
        format!("at the {kind} inspection")
    }
}

/// The end of the sentence about who found it.
pub fn by(name: &str) -> String {
    format!(", by {name}.")
}

/// What a verdict waits for.
pub fn needs(needs: &[String]) -> String {
    format!("Needs {}.", needs.join("; "))
}

/// Readings that came to it after it was recorded.
pub fn read_later(on: Date, by: &str) -> String {
    format!("More was read for it {}, by {by}.", super::day(on))
}

/// Through when a clock of its own leaves it.
pub fn last_day(day: Date) -> String {
    format!("through {}", super::day(day))
}

/// A clock of its own, in one line.
pub fn clock(title: &str, last: Date, section: &str) -> String {
    format!("Clock of its own: {title}, {} [{section}]", last_day(last))
}

/// Over the form that starts a clock.
pub fn starts(title: &str) -> String {
    format!("Does it start this clock? {title}")
}

/// Hours of a route.
pub fn hours(low: &str, likely: &str, high: &str) -> String {
    format!("{likely} likely, {low} to {high}")
}

/// Over what was decided.
pub fn decided(route: &str) -> String {
    format!("Decided: {route}")
}

/// When, by whom, and what the verdict was.
pub fn decision(on: Date, by: &str, verdict: &str) -> String {
    format!(
        "{} by {by}. The verdict that day: {verdict}.",
        super::day(on)
    )
}

/// When it is looked at again.
pub fn recheck(on: Date) -> String {
    format!("To be looked at again {}.", super::day(on))
}

/// A sheet of the decision.
pub fn printed(sheet: &str) -> String {
    format!("Sheet {sheet}, as printed that day")
}

/// How far the job is.
pub fn job(title: &str, done: usize, of: usize) -> String {
    format!("{title}. {done} of {of} operations done.")
}

/// That the job is closed.
pub fn job_closed(on: Date, by: &str, verdict: &str) -> String {
    format!("Closed {} by {by}; as left it {verdict}.", super::day(on))
}

/// After a size: metal left.
pub fn metal_left(re_cuts: Option<i64>) -> String {
    match re_cuts {
        Some(n) => format!(
            " of metal left, {}, before our shop limit.",
            super::re_cuts(n)
        ),
        None => " of metal left before our shop limit.".into(),
    }
}
