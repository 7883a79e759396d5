//! Every open thing of an engine, grouped by what must be apart anyway.

use jiff::civil::Date;
use shop::report::Thing;

/// The link.
pub const LINK: &str = "Everything open on her";
/// What it is for.
pub const MEANS: &str = "Before each fire: everything open on her, oldest first. Things stand together where the way to \
                         one is a piece of the way to the other, so that what is apart for one is looked at for all.";
/// On the page of a finding or its job: what else is reached the same way.
pub const BESIDE: &str = "While it is apart";
/// Nothing.
pub const NOTHING: &str =
    "Nothing is open on her in this book. A book knows only what was written in it.";
/// Those of which nobody stated the way in.
pub const NOT_SAID: &str = "Nobody stated what must come off to reach these";
/// How that is stated.
pub const SAY_IT: &str =
    "It is stated on the part's own page, in order: then these find their place above.";

/// Title.
pub fn title(number: &str) -> String {
    format!("Open on No. {number}")
}

/// How many there are, and how many are carried.
pub fn lead(open: usize, carried: usize) -> String {
    let carried = match carried {
        0 => "none of them carried".to_owned(),
        n => format!("{n} carried by decision"),
    };
    format!(
        "{}, {carried}.",
        super::count(open, "open thing", "open things")
    )
}

/// Over a group.
pub fn off(apart: &[String]) -> String {
    format!("To reach these, off comes: {}", apart.join(", "))
}

/// Of a thing that is carried: how often, since when, through when.
pub fn carried(thing: &Thing) -> Option<String> {
    let Thing::Finding {
        carried, recheck, ..
    } = thing
    else {
        return None;
    };
    let first = carried.first().filter(|_| thing.is_carried())?;
    let (times, first) = (carried.len(), first.on);
    let again = recheck.map_or(String::new(), |day| {
        format!("; to be looked at again {}", super::day(day))
    });
    let since = super::day(first);
    Some(match times {
        1 => format!("carried once, {since}{again}"),
        n => format!("carried {n} times, first {since}{again}"),
    })
}

/// Its day to look again is past.
pub fn past(day: Date) -> String {
    format!("The day to look again, {}, is past.", super::day(day))
}

/// Since when it is open.
pub fn since(day: Date) -> String {
    format!("since {}", super::day(day))
}

/// Each decision to carry it, over the list.
pub fn each(times: usize) -> String {
    format!("Carried {}", super::count(times, "time", "times"))
}
