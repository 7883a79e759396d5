//! `due --dates`: every day by which something must be done, in one list.

use serde_json::{Value, json};
use shop::locomotive::{LetterStanding, open_letters};
use shop::report::{DateOf, Deadline, Reach, deadlines};

use super::wrap;
use crate::{Answer, Context, Failure, words};

/// Tells every deadline of every engine, or of one.
pub(super) fn list(context: &mut Context, engine: Option<&str>) -> Result<Answer, Failure> {
    let on = context.on()?;
    let rules = context.rules()?;
    let book = context.book()?;
    let only = match engine {
        Some(number) => Some(shop::locomotive::engine(&book, number)?.0),
        None => None,
    };
    let all = deadlines(&book, rules, on, only)?;
    let mut text = format!("Every deadline, as of {}\n", words::day(on));
    let mut before = None;
    for one in &all {
        if before != Some(one.reach) {
            text.push_str(&format!("{}\n", reach(one.reach)));
            before = Some(one.reach);
        }
        let day = one.last.map_or(String::new(), words::day);
        let head = format!("  {day:<15} {:<8} ", format!("No. {}", one.number));
        text.push_str(&head);
        let section = one.ruling.as_ref().map(|r| r.cite.section.as_str());
        let section = section.map_or(String::new(), |s| format!(" ({s})"));
        let line = match one.of {
            // What a paper says of itself begins with its name.
            DateOf::Paper => format!("{}{section}", one.why),
            DateOf::Clock(_) | DateOf::Recheck => format!("{}: {}{section}", one.what, one.why),
        };
        text.push_str(&wrap(&line, head.chars().count(), 100));
        text.push('\n');
    }
    if all.is_empty() {
        text.push_str("  none\n");
    }
    let letters = open_letters(&book, on, only);
    if !letters.is_empty() {
        text.push_str(&format!("{}\n", words::letter::DUE));
    }
    for (kept, _) in &letters {
        let line = super::letter::line(&book, kept, on);
        text.push_str(&format!("  {}\n", wrap(&line, 9, 100)));
    }
    let late = letters
        .iter()
        .any(|(_, stands)| *stands == LetterStanding::Overdue);
    text.push_str(&format!("{}\n", words::STANDING));
    let bad = |one: &Deadline| matches!(one.reach, Reach::CannotTell | Reach::Past);
    Ok(Answer {
        text,
        code: u8::from(late || all.iter().any(bad)),
        json: json!({ "on": on.to_string(), "dates": all.iter().map(value).collect::<Vec<_>>(), "letters": letters.iter().map(|(kept, stands)| json!({
            "letter": words::tag::letter(kept.number), "state": words::letter::state(*stands),
            "until": kept.logged.promised.as_ref().and_then(|it| it.until).map(|d| d.to_string()),
        })).collect::<Vec<_>>() }),
    })
}

/// How a deadline stands, as a heading.
pub fn reach(reach: Reach) -> &'static str {
    match reach {
        Reach::CannotTell => "cannot tell",
        Reach::Past => "past",
        Reach::Ahead => "to come",
        Reach::NoDay => "no day yet",
    }
}

fn value(one: &Deadline) -> Value {
    let of = match one.of {
        DateOf::Clock(_) => "clock",
        DateOf::Paper => "paper",
        DateOf::Recheck => "recheck",
    };
    json!({
        "engine": one.number, "what": one.what, "of": of, "last_day": one.last.map(|d| d.to_string()),
        "at_the_utmost": one.at_the_utmost.map(|d| d.to_string()), "state": reach(one.reach), "why": one.why,
        "rule": one.ruling.as_ref().map(|r| r.rule.clone()),
        "section": one.ruling.as_ref().map(|r| r.cite.section.clone()),
        "finding": one.finding.map(|n| format!("F-{n:03}")),
    })
}
