//! `due --ahead`, `--hold`, `--run`: the days to come of an engine, and what a supposed day would change. Nothing
//! is entered.

use jiff::civil::Date;
use rules::Rulebook;
use serde_json::{Value, json};
use shop::book::{Book, Locomotive, LocomotiveId};
use shop::report::{
    Asked, Change, Course, Look, Standing, Suppose, Train, changes, course_words, courses, look,
    train_words,
};

use super::wrap;
use crate::{Failure, words};

/// Reads what is supposed, as typed: `31=2026-05-20`, `F-004=2026-05-20`; a run as `2026-06-06=charter`.
///
/// # Errors
/// Input: it does not read.
pub fn supposed(hold: &[String], run: &[String]) -> Result<Vec<Suppose>, Failure> {
    let mut all = Vec::new();
    for typed in hold {
        let wrong = || {
            Failure::Input(format!(
                "`{typed}` is not something to suppose: what is held and its day were expected, such as \
                 31=2026-05-20, air-brake-valves=2026-05-20 or F-004=2026-05-20."
            ))
        };
        let (what, day) = typed.split_once('=').ok_or_else(wrong)?;
        let what = what.trim();
        let on = super::date(day)?;
        if what.is_empty() {
            return Err(wrong());
        }
        let number = what.strip_prefix("F-").or_else(|| what.strip_prefix("f-"));
        all.push(match number {
            Some(number) => Suppose::PutRight {
                finding: number.parse().map_err(|_| wrong())?,
                on,
            },
            None => Suppose::Held {
                what: what.to_lowercase().replace(' ', "-"),
                on,
            },
        });
    }
    for typed in run {
        let (day, what) = typed.split_once('=').unwrap_or((typed, "supposed run"));
        let on = super::date(day)?;
        all.push(Suppose::Run {
            on,
            what: what.trim().to_string(),
        });
    }
    Ok(all)
}

/// The days ahead of one engine, and the same without what is supposed.
///
/// # Errors
/// As [`look`].
pub fn looks(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
) -> Result<(Look, Vec<Change>), Failure> {
    let after = look(book, rules, engine, on, supposed)?;
    if after.supposed.is_empty() {
        return Ok((after, Vec::new()));
    }
    let before = courses(book, rules, engine, on, &[])?;
    let changed = changes(&before, &after);
    Ok((after, changed))
}

/// Tells the days ahead of one engine: text, value, and whether a promised run cannot be kept.
pub(super) fn one(
    book: &Book,
    rules: &Rulebook,
    (id, kept): (LocomotiveId, &Locomotive),
    on: Date,
    supposed: &[Suppose],
) -> Result<(String, Value, bool), Failure> {
    let (look, changed) = looks(book, rules, id, on, supposed)?;
    let mut text = format!(
        "No. {}, {}, looking ahead from {}\n",
        kept.number,
        kept.wheels,
        words::day(on)
    );
    for one in &look.supposed {
        text.push_str(&format!(
            "  if {} on {}\n",
            one.what(),
            words::day(one.on())
        ));
    }
    let wide = look
        .courses
        .iter()
        .map(|c| c.clock.inspection.len())
        .max()
        .unwrap_or(0);
    text.push_str("  Each clock, and the last good day to hold what it asks for\n");
    for course in &look.courses {
        text.push_str(&told(course, wide));
    }
    text.push_str("  Runs\n");
    for train in &look.trains {
        let line = format!("{}: {}", train.what, train_words(train));
        text.push_str(&format!(
            "    {:<11} {:<15} {}\n",
            standing(train.standing),
            words::day(train.day),
            wrap(&line, 32, 100)
        ));
    }
    if look.trains.is_empty() {
        text.push_str("    none is promised; a clock that counts service days names no day\n");
    }
    if !look.papers.is_empty() {
        text.push_str("  Papers that what is supposed asks for\n");
        for paper in &look.papers {
            text.push_str(&format!("    {}\n", wrap(&paper_words(paper), 4, 100)));
        }
    }
    if !look.supposed.is_empty() {
        text.push_str("  What it changes\n");
        for change in &changed {
            let line = format!("{}: {}; was: {}", change.what, change.after, change.before);
            text.push_str(&format!("    {}\n", wrap(&line, 6, 100)));
        }
        if changed.is_empty() {
            text.push_str("    no run and no clock\n");
        }
    }
    text.push_str("  Taken for granted\n");
    for line in &look.assumed {
        text.push_str(&format!("    - {}\n", wrap(line, 6, 100)));
    }
    let held = look.trains.iter().any(|t| t.standing != Standing::Clear);
    Ok((text, value(&kept.number, &look, &changed), held))
}

fn told(course: &Course, wide: usize) -> String {
    let mut line = course_words(course);
    if let Some(stopped) = &course.stopped {
        line.push_str(&format!(" ({})", stopped.why));
    } else {
        line.push_str(&format!(" ({})", course.clock.why));
    }
    if let Some((most, least)) = course.left_after.filter(|_| course.stopped.is_none()) {
        line.push_str(&format!(
            "; after the last run {} left",
            least_to_most(most, least)
        ));
    }
    let head = format!("    {:<wide$} ", course.clock.inspection);
    let mut text = format!("{head}{}\n", wrap(&line, head.chars().count(), 100));
    let indent = " ".repeat(wide + 5);
    if let Some(good) = &course.good {
        let day = match (good.last, good.at_the_utmost) {
            (None, _) => "no good day".to_string(),
            (Some(last), None) => format!("last good day {}", words::day(last)),
            (Some(last), Some(utmost)) => format!(
                "last good day {}; {} if what is not known turns out well",
                words::day(last),
                words::day(utmost)
            ),
        };
        let line = format!("{day}: {}", good.why);
        text.push_str(&format!("{indent}{}\n", wrap(&line, wide + 5, 100)));
        for paper in &good.papers {
            text.push_str(&format!(
                "{indent}- {}\n",
                wrap(&paper_words(paper), wide + 7, 100)
            ));
        }
    }
    text
}

/// How much is left, both ways where they differ.
pub fn least_to_most(most: i64, least: i64) -> String {
    if most == least {
        most.to_string()
    } else {
        format!("{most} to {least}")
    }
}

/// A paper and its day, in a sentence.
pub fn paper_words(paper: &Asked) -> String {
    let by = match paper.by {
        Some(day) => format!("by {}", words::day(day)),
        None if paper.before_use => "before she is used again".to_string(),
        None => "by a day that cannot be told".to_string(),
    };
    let state = match (paper.done, paper.too_late) {
        (true, _) => ": done",
        (_, true) => ": that day is past, so it can no longer be given in time",
        _ => "",
    };
    format!(
        "{} for {}, {by} ({}){state}",
        paper.what, paper.about, paper.section
    )
}

/// A run's standing in its fixed words.
pub fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Clear => "clear",
        Standing::CannotTell => "cannot tell",
        Standing::Falls => "falls",
    }
}

fn value(number: &str, look: &Look, changed: &[Change]) -> Value {
    let day = |day: Option<Date>| day.map(|d| d.to_string());
    let course = |c: &Course| {
        json!({
            "rule": c.clock.ruling.rule, "version": c.clock.ruling.version, "section": c.clock.ruling.cite.section,
            "inspection": c.clock.inspection, "finding": c.clock.finding.map(|n| format!("F-{n:03}")),
            "freed_on": c.freed.as_ref().map(|(day, _)| day.to_string()),
            "then_stops_from": c.freed.as_ref().and_then(|(_, next)| next.as_ref()).map(|s| s.from.to_string()),
            "stops": c.stopped.as_ref().map(|s| json!({
                "from": s.from.to_string(), "for_certain_from": day(s.surely), "certain": s.certain, "why": s.why,
            })),
            "last_good_day": c.good.as_ref().map(|g| json!({
                "hold": g.hold, "day": day(g.last), "at_the_utmost": day(g.at_the_utmost),
                "run": g.run.as_ref().map(|(day, what)| json!({ "day": day.to_string(), "what": what })),
                "why": g.why, "papers": g.papers.iter().map(paper).collect::<Vec<_>>(),
            })),
            "left_after_runs": c.left_after.map(|(most, least)| json!({
                "by_the_most": most, "by_the_least": least, "unit": c.clock.unit,
            })),
        })
    };
    let train = |t: &Train| {
        json!({
            "day": t.day.to_string(), "what": t.what, "standing": standing(t.standing), "stopped_by": t.in_the_way,
        })
    };
    let change = |c: &Change| json!({ "what": c.what, "is_run": c.is_run, "before": c.before, "after": c.after });
    json!({
        "engine": number, "on": look.on.to_string(),
        "supposed": look.supposed.iter().map(|s| json!({ "what": s.what(), "on": s.on().to_string() })).collect::<Vec<_>>(),
        "clocks": look.courses.iter().map(course).collect::<Vec<_>>(),
        "trains": look.trains.iter().map(train).collect::<Vec<_>>(),
        "papers": look.papers.iter().map(paper).collect::<Vec<_>>(),
        "changes": changed.iter().map(change).collect::<Vec<_>>(),
        "assumed": look.assumed,
    })
}

fn paper(paper: &Asked) -> Value {
    json!({
        "rule": paper.rule, "section": paper.section, "what": paper.what, "about": paper.about,
        "by": paper.by.map(|d| d.to_string()), "before_use": paper.before_use, "done": paper.done, "too_late": paper.too_late,
    })
}
