//! The first page and the ribbon of days.

use jiff::civil::Date;
use shop::report::Release;

/// Leads to the clocks of an engine.
pub const EVERY_CLOCK: &str = "Every clock";
/// Leads to the page that looks ahead.
pub const LOOK_AHEAD: &str = "Look ahead, and suppose a day";
/// An empty book.
pub const NO_ENGINE: &str = "There is no engine in this book yet. Begin here:";

/// The book's today, in a sentence.
pub fn today(on: Date) -> String {
    format!("The book's today is {}.", super::day(on))
}

/// How far each log is closed.
pub fn logs(closed: &[(&str, Option<Date>)]) -> String {
    let told: Vec<_> = closed
        .iter()
        .map(|(number, through)| match through {
            Some(through) => {
                format!("No. {number}: log closed through {}", super::day(*through))
            }
            None => format!("No. {number}: log never closed"),
        })
        .collect();
    if told.is_empty() {
        String::new()
    } else {
        format!("{}.", told.join("; "))
    }
}

/// The next promised day, how many engines are promised on it, and how many of them nothing stops.
pub fn headline(next: Option<Date>, promised: usize, clear: usize) -> String {
    let Some(day) = next else {
        return "No run is promised.".into();
    };
    let name = day.strftime("%A, %-d %B").to_string();
    match (promised, clear) {
        (1, 1) => format!("{name}: nothing in this book stops the engine promised."),
        (1, _) => format!("{name}: something stops the engine promised."),
        (n, 0) => format!("{name}: something stops each of the {n} engines promised."),
        (n, c) if n == c => format!("{name}: nothing in this book stops the {n} engines promised."),
        (n, c) => format!("{name}: of {n} engines promised, nothing in this book stops {c}."),
    }
}

/// What must be done before a day.
pub fn first(why: &str, day: Date) -> String {
    format!("{}, before {}.", super::sentence(why), super::day(day))
}

/// That nothing stops her, and what that rests on.
pub fn clear(number: &str, release: &Release, on: Date) -> String {
    let how = match release {
        Release::Stands {
            by,
            on,
            log_through,
        } => format!(
            "released {} by {by}; log closed through {}",
            super::day(*on),
            super::day(*log_through)
        ),
        Release::None(why) => format!("but {why}"),
    };
    format!(
        "Nothing in this book stops No. {number} on {} ({how}).",
        super::day(on)
    )
}

/// A job that waits at a hold point.
pub fn waits(job: &str, doer: &str, look: &str) -> String {
    format!("{job} waits for somebody other than {doer} to look: {look}")
}

/// A promised run on the ribbon, and what is in its way.
pub fn run(what: &str, day: Date, in_the_way: &[String]) -> String {
    let run = format!("{what}, {}", super::day(day));
    if in_the_way.is_empty() {
        run
    } else {
        format!("{run}: {}", in_the_way.join("; "))
    }
}

/// The ribbon in words, for those who do not see it.
pub fn ribbon(number: &str, unsure: bool, stop: Option<&(Date, String)>) -> String {
    let sure = if unsure {
        "; the log is not closed, or a fact is missing"
    } else {
        ""
    };
    match stop {
        Some((day, why)) => format!(
            "No. {number} is stopped from {}: {why}{sure}",
            super::day(*day)
        ),
        None => format!("Nothing in this book stops No. {number} in the days shown{sure}"),
    }
}
