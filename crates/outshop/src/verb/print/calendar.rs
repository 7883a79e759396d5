//! Every deadline as a calendar in the open format of RFC 5545, for the calendar program of anybody's choice.
//!
//! It is a copy of one day. Each entry keeps its name however often its day moves, so that a newer copy takes the
//! place of an older one, and each says as of when it was made and that the book governs. It sets no alarm.

use icalendar::{Calendar, Component, Event, Property};
use jiff::Timestamp;
use jiff::civil::Date;
use shop::report::{Deadline, Reach, deadlines};

use super::Paper;
use crate::words::{self, calendar as say};
use crate::{Context, Failure};

/// The calendar of every engine, or of one.
///
/// # Errors
/// If there is no such engine, or the book does not read.
pub fn calendar(context: &mut Context, engine: Option<&str>) -> Result<Paper, Failure> {
    let on = context.on()?;
    let made = context.now()?;
    let rules = context.rules()?;
    let book = context.book()?;
    let only = match engine {
        Some(number) => Some(shop::locomotive::engine(&book, number)?.0),
        None => None,
    };
    let shop = book.shop.as_ref().map_or("", |shop| shop.name.as_str());
    let all = deadlines(&book, rules, on, only)?;
    let name = match engine {
        Some(number) => format!("deadlines-{}.ics", number.trim()),
        None => "deadlines.ics".to_string(),
    };
    Ok(Paper {
        name,
        bytes: written(shop, &all, made, on).into_bytes(),
        pages: None,
    })
}

fn written(shop: &str, all: &[Deadline], made: Timestamp, on: Date) -> String {
    let mut calendar = Calendar::empty();
    for (key, value) in [
        ("VERSION", "2.0"),
        ("PRODID", say::PRODUCT),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", "PUBLISH"),
    ] {
        calendar.append_property((key, value));
    }
    let stamp = made.strftime("%Y%m%dT%H%M%SZ").to_string();
    for one in all {
        // What cannot be told stands on the day that could not tell; what no day reaches yet stands nowhere.
        let day = match (one.last, one.reach) {
            (_, Reach::CannotTell) => on,
            (Some(last), _) => last,
            (None, _) => continue,
        };
        let mut start = Property::new("DTSTART", day.strftime("%Y%m%d").to_string());
        start.add_parameter("VALUE", "DATE");
        let mut event = Event::new();
        event
            .uid(&uid(shop, &one.key))
            .add_property("DTSTAMP", stamp.as_str())
            .append_property(start.done())
            .add_property("TRANSP", "TRANSPARENT")
            .summary(&say::summary(&one.number, &one.what, one.reach))
            .description(&description(one, on));
        calendar.push(event.done());
    }
    folded(&calendar.to_string())
}

/// Folds every line anew so that none holds more than 75 octets without its end (RFC 5545, 3.1): the crate's own
/// last line of a folded one may hold 76. A letter is never cut, and a line is cut where no blank stands on either
/// side, for some readers take blanks away at the ends of lines.
fn folded(text: &str) -> String {
    const MOST: usize = 75;
    let mut out = String::with_capacity(text.len());
    for line in text.replace("\r\n ", "").split_terminator("\r\n") {
        let (mut rest, mut room) = (line, MOST);
        while rest.len() > room {
            let at = cut(rest, room);
            let (now, later) = rest.split_at(at);
            out.push_str(now);
            out.push_str("\r\n ");
            (rest, room) = (later, MOST - 1);
        }
        out.push_str(rest);
        out.push_str("\r\n");
    }
    out
}

/// Where to cut a line that is longer than `room` octets.
fn cut(line: &str, room: usize) -> usize {
    let cuts = || (1..=room).rev().filter(|at| line.is_char_boundary(*at));
    let blank_beside = |at: &usize| {
        let (before, after) = line.split_at(*at);
        before.ends_with(' ') || after.starts_with(' ')
    };
    let inside_a_word = cuts().find(|at| !blank_beside(at));
    inside_a_word.or_else(|| cuts().next()).unwrap_or(room)
}

/// A name that is the same at every making: it hangs on the shop, the engine and what is due, on no day.
fn uid(shop: &str, key: &str) -> String {
    let mut hex = super::sha256(format!("{shop}\n{key}").as_bytes());
    hex.truncate(32);
    format!("{hex}@outshop")
}

fn description(one: &Deadline, on: Date) -> String {
    let mut lines = vec![words::sentence(&one.why)];
    if let Some(day) = one.at_the_utmost {
        lines.push(say::range(one.last, day));
    }
    if let Some(ruling) = &one.ruling {
        lines.push(say::rule(
            &ruling.rule,
            &ruling.cite.section,
            &ruling.cite.edition,
            &ruling.mark,
        ));
    }
    lines.push(say::as_of(on));
    lines.push(words::STANDING.to_string());
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 5545, 3.1: at most 75 octets a line, the blank that begins a further one among them.
    #[test]
    fn a_line_is_folded_at_75_octets_and_no_letter_is_cut() {
        for length in [74, 75, 76, 149, 150, 151, 225] {
            for letter in ["a", "\u{b1}", "\u{2265}", "ab ", " ab", "\u{b1}a  \u{b1}"] {
                let line = format!("{}\r\n", letter.repeat(length));
                let folded = folded(&line);
                let lines: Vec<&str> = folded.split_terminator("\r\n").collect();
                assert!(lines.iter().all(|l| l.len() <= 75), "{length} {letter}");
                let again = folded.replace("\r\n ", "");
                assert!(lines.iter().skip(1).all(|l| !l.starts_with("  ")));
                assert_eq!(again, line);
            }
        }
    }
}
