//! Before the opening: what will probably be needed.

use jiff::civil::Date;
use shop::route::{Before, Likely};

/// The head of the page.
pub fn title(engine: &str, kind: &str) -> String {
    format!(
        "Before the {kind} of {}: what to have ready",
        super::engine(engine)
    )
}

/// A link.
pub fn link(kind: &str) -> String {
    format!("before the {kind}")
}

/// Before such links.
pub const READY: &str = "What to have ready";
/// Under the head.
pub const MEANS: &str = "From forecasts of wear and from the openings this book holds. A chance is no finding: it says what to have on the shelf, or ordered, before she is opened.";
/// A link to the paper.
pub const PRINT: &str = "Print it";
/// A section.
pub const LIKELY: &str = "Probably needed";
/// A section with nothing in it.
pub const NOTHING: &str =
    "Nothing comes out at 1 in 20 or more. Parts without a rate are not ruled out.";
/// A section.
pub const WHOLE: &str = "The opening as a whole";
/// A section.
pub const NOT_KNOWN: &str = "What could not be told";
/// Columns.
pub const HEADS: [&str; 5] = ["Part", "Chance", "From", "Hours before", "Order by"];
/// The name of a field.
pub const LEAD: &str = "lead";
/// A field.
pub const LEAD_TIME: &str = "Lead time of parts without their own: days, or such as 6 weeks";
/// Its button.
pub const RECKON: &str = "Reckon with it";
/// In place of a day.
pub const NO_DAY: &str = "not known: needs a lead time and the day of the opening";
/// In place of hours.
pub const NO_HOURS: &str = "none booked";

/// When it comes.
pub fn when(it: &Before) -> String {
    let by = match it.by {
        Some(day) => format!("Its last day is {}", super::day(day)),
        None => "Its last day is not known".into(),
    };
    match &it.ahead {
        Some(ahead) => format!(
            "{by}; {} until then ({}).",
            super::count(
                usize::try_from(ahead.days).unwrap_or(0),
                "service day",
                "service days"
            ),
            ahead.why
        ),
        None => format!("{by}."),
    }
}

/// Which lead time is reckoned with.
pub fn lead(it: &Before) -> String {
    match &it.lead {
        Some(lead) => format!(
            "Lead time of parts that have none of their own: {} days, {}.",
            lead.days, lead.from
        ),
        None => {
            "No lead time for parts that have none of their own: type one, tell it of the part, or log what was promised to us and when it came (letters)."
                .into()
        }
    }
}

/// Where a chance is from.
pub fn from(it: &Likely) -> Vec<String> {
    let open = it
        .open
        .map(|number| format!("{} stands open on it", super::tag::finding(number)));
    let wear = it.wear.as_ref().map(|wear| {
        format!(
            "wear: {} meets {}, {}",
            wear.title,
            wear.limit,
            super::wear::hundred(wear.chance)
        )
    });
    let seen = it.seen.as_ref().map(|(found, sheet)| {
        let any = super::wear::chance(sheet, "any");
        let found = usize::try_from(*found).unwrap_or(0);
        format!(
            "past openings: {} on it, {any}",
            super::count(found, "finding", "findings")
        )
    });
    open.into_iter().chain(wear).chain(seen).collect()
}

/// The chance of a line.
pub fn chance(it: &Likely) -> String {
    match it.open {
        Some(_) => "already found".into(),
        None => super::wear::hundred(it.chance),
    }
}

/// Hours it took before.
pub fn hours(it: &Likely) -> String {
    match it.hours {
        Some([least, median, most]) if least == most => median.to_string(),
        Some([least, median, most]) => format!("{median}, {least} to {most}"),
        None => NO_HOURS.into(),
    }
}

/// A part's own lead time.
pub fn own_lead(it: &Likely) -> Option<String> {
    let lead = it.lead.as_ref()?;
    Some(format!("its own lead time: {}", lead.from))
}

/// The day to order by.
pub fn order_by(it: &Likely, on: Date) -> String {
    match it.order_by {
        Some(day) if day < on => format!("{}: past", super::day(day)),
        Some(day) => super::day(day),
        None => NO_DAY.into(),
    }
}

/// What the past says of the whole opening.
pub fn whole(it: &Before) -> String {
    let get = |name: &str| super::wear::result(&it.whole, name);
    let seen = match it.openings {
        0 => "This book holds no closed opening of the kind, so what follows is what was believed beforehand".to_string(),
        n => format!(
            "{} in this book, {} at {}",
            super::count(usize::try_from(n).unwrap_or(0), "opening", "openings"),
            super::count(usize::try_from(it.found).unwrap_or(0), "finding", "findings"),
            if n == 1 { "it" } else { "them" }
        ),
    };
    let hours = match shop::route::quantity(&it.whole, "hours") {
        Some(_) => format!(", about {} h by her closed jobs", get("hours")),
        None => String::new(),
    };
    format!(
        "{seen}. To be expected: {} findings (spread {}){hours}.",
        get("expected"),
        get("spread")
    )
}

/// Over the title of the paper.
pub const OVER: &str = "Before the opening";
/// A section of the paper.
pub const WHEN: &str = "When";
/// A column for a pencil.
pub const DONE: &str = "Ordered, by whom";
