//! The verbs, one request type each, in the order of the work.

pub mod ahead;
pub mod backup;
pub mod boiler_work;
pub mod boiler;
pub mod blue;
pub mod boiler_map;
pub mod card;
pub mod handed_on;
pub mod check;
pub mod dates;
pub mod day;
pub mod demo;
pub mod due;
pub mod entry;
pub mod family_file;
pub mod find;
pub mod finding;
pub mod import;
pub mod inspect;
pub mod instrument;
pub mod job;
pub mod lathe;
pub mod letter;
pub mod limit;
pub mod locomotive;
pub mod moved;
pub mod new;
pub mod papers;
pub mod part;
pub mod particular;
pub mod past;
pub mod part_file;
pub mod part_tree;
pub mod person;
pub mod photo;
pub mod print;
pub mod release;
pub mod rule;
pub mod rule_file;
pub mod rule_held;
pub mod ruled;
pub mod serve;
pub mod setting;
pub mod sheet;
pub mod shop_rule;
pub mod stated;
pub mod spare;
pub mod steam;
pub mod survey;
pub mod test_day;
pub mod tires;
pub mod yearly;
pub mod tooling;
pub mod wear;

use jiff::civil::{Date, DateTime};
use measure::State;
use serde_json::{Value, json};
use shop::book::{Authority, Book, FeatureReading, PersonId};
use store::Receipt;

use crate::{Answer, Failure};

/// A saved statement, told in one sentence.
fn saved(receipt: &Receipt, told: String, mut value: Value) -> Answer {
    if let Value::Object(map) = &mut value {
        map.insert(
            "entries".into(),
            json!([receipt.entries.0, receipt.entries.1]),
        );
        map.insert("head".into(), json!(receipt.head.to_string()));
        map.insert("repeated".into(), json!(receipt.repeated));
    }
    let entries = match receipt.entries {
        (first, last) if first == last => format!("entry {first}"),
        (first, last) => format!("entries {first} to {last}"),
    };
    let again = if receipt.repeated {
        ", saved before"
    } else {
        ""
    };
    Answer::done(format!("{told} ({entries}{again})\n"), value)
}

/// A date as typed.
pub(crate) fn date(text: &str) -> Result<Date, Failure> {
    text.trim().parse().map_err(|_| {
        Failure::Input(format!(
            "`{text}` is not a day: YYYY-MM-DD was expected, such as 2026-05-02."
        ))
    })
}

/// An instant as typed: `2026-05-02T06:30` or `2026-05-02 06:30`.
fn instant(text: &Option<String>) -> Result<Option<DateTime>, Failure> {
    let Some(text) = text else { return Ok(None) };
    let typed = text.trim();
    let has_time = typed.len() > 10;
    match typed.parse::<DateTime>() {
        Ok(at) if has_time => Ok(Some(at)),
        _ => Err(Failure::Input(format!(
            "`{text}` is not a time: a day and an hour were expected, such as 2026-05-02T06:30."
        ))),
    }
}

/// `may` words: `inspect`, `repair`, `approve`.
fn authority(word: &str) -> Result<Authority, Failure> {
    let wanted = word.trim();
    Authority::ALL
        .into_iter()
        .find(|a| a.word() == wanted || a.signer() == wanted)
        .ok_or_else(|| {
            Failure::Input(format!(
                "`{word}` is not an authority: inspect, repair or approve were expected."
            ))
        })
}

/// Readings as typed: `feature@position=value [by instrument]`.
fn readings(typed: &[String], state: State, person: &str) -> Result<Vec<FeatureReading>, Failure> {
    typed
        .iter()
        .map(|text| reading(text, state, person))
        .collect()
}

fn reading(typed: &str, state: State, person: &str) -> Result<FeatureReading, Failure> {
    let wrong = || {
        Failure::Input(format!(
            "`{typed}` is not a reading: feature@place=value was expected, such as seat-land@front=5/32in, with ` by ` and an \
             instrument after it where one is known."
        ))
    };
    let (place, value) = typed.split_once('=').ok_or_else(wrong)?;
    let (feature, position) = place.split_once('@').ok_or_else(wrong)?;
    let (value, instrument) = match value.split_once(" by ") {
        Some((value, instrument)) => (value, Some(instrument.trim().to_string())),
        None => (value, None),
    };
    let mut reading =
        measure::Reading::new(value.trim(), "", position.trim(), person, person, state);
    reading.instrument = instrument;
    Ok(FeatureReading {
        feature: feature.trim().to_string(),
        reading,
    })
}

/// The name of a person.
fn name(book: &Book, id: PersonId) -> &str {
    book.persons.get(&id).map_or("?", |p| p.name.as_str())
}

/// `key=value` as typed.
fn pair(typed: &str, what: &str) -> Result<(String, String), Failure> {
    typed
        .split_once('=')
        .map(|(key, value)| (key.trim().to_string(), value.trim().to_string()))
        .ok_or_else(|| Failure::Input(format!("`{typed}` is not {what}: name=value was expected.")))
}

/// Breaks a long line at words, each further line set in by `indent`.
fn wrap(text: &str, indent: usize, width: usize) -> String {
    let mut out = String::new();
    let mut at = indent;
    for word in text.split_whitespace() {
        if at > indent && at + 1 + word.chars().count() > width {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            at = indent;
        } else if at > indent {
            out.push(' ');
            at += 1;
        }
        out.push_str(word);
        at += word.chars().count();
    }
    out
}

/// Refuses an act whose person had seen an older state of what it acts on.
fn not_stale(what: &str, seen: Option<u64>, newest: u64) -> Result<(), shop::Refusal> {
    match seen {
        Some(seen) if seen < newest => Err(shop::Refusal::refused(format!(
            "{what} has changed since you looked at entry {seen}: its newest entry is {newest}."
        ))
        .todo("look again, then decide")),
        _ => Ok(()),
    }
}
