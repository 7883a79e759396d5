//! Reads the files of the rulebook and refuses what is not exactly as it should be, one sentence a fault: a rule
//! half understood is worse than none.

mod body;
pub(crate) mod grammar;
mod limit;
mod table;
mod text;

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::Date;
use serde::Deserialize;

use crate::{Checked, Cite, Kind, Origin, Rule, RulebookError, Source, Version, words};
use grammar::Grammar;

pub(crate) use text::{filled, plainly};

/// One rule file as written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleText {
    id: String,
    title: String,
    jurisdiction: String,
    kind: String,
    version: Vec<VersionText>,
}

/// One version as written. `says` is read once the kind is known.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct VersionText {
    in_force: toml::Value,
    until: Option<toml::Value>,
    dates_mark: String,
    cite: Cite,
    mark: String,
    reading: String,
    checked: CheckedText,
    says: toml::Table,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CheckedText {
    on: toml::Value,
    by: String,
}

/// The papers of `sources.toml`.
pub(crate) fn sources(text: &str) -> Result<BTreeMap<String, Source>, RulebookError> {
    toml::from_str(text).map_err(|e| RulebookError::file("sources.toml", text::said(&e, text)))
}

/// One rule, from its file's name inside the rulebook (with folders) and its text.
pub(crate) fn rule(
    name: &str,
    text: &str,
    sources: &BTreeMap<String, Source>,
) -> Result<Rule, RulebookError> {
    read(name, text, sources).map_err(|problem| RulebookError::file(name, problem))
}

fn read(name: &str, text: &str, sources: &BTreeMap<String, Source>) -> Result<Rule, String> {
    let file: RuleText = toml::from_str(text).map_err(|e| text::said(&e, text))?;
    check_names(name, &file)?;
    let kind = kind(&file.kind)?;
    text::filled("title", &file.title)?;
    if file.version.is_empty() {
        return Err("holds no version; a rule has at least one [[version]]".into());
    }
    let mut versions = Vec::new();
    for (number, version) in (1u32..).zip(file.version) {
        let read = read_version(number, kind, version, sources, &Grammar::of_law())
            .map_err(|e| format!("version {number}: {e}"))?;
        versions.push(read);
    }
    check_order(&versions)?;
    Ok(Rule {
        id: file.id,
        title: file.title,
        jurisdiction: file.jurisdiction,
        origin: Origin::Law,
        kind,
        versions,
    })
}

/// The kind a word names.
pub(crate) fn kind(word: &str) -> Result<Kind, String> {
    Kind::of(word).ok_or_else(|| {
        let kinds: Vec<&str> = Kind::ALL.iter().map(|(_, w)| *w).collect();
        format!(
            "unknown kind `{word}`; expected one of {}",
            kinds.join(", ")
        )
    })
}

/// The id is the file's name, begins with the jurisdiction, and lies in the jurisdiction's folder.
fn check_names(name: &str, file: &RuleText) -> Result<(), String> {
    let stem = Path::new(name)
        .file_name()
        .and_then(|n| n.to_str())
        .and_then(|n| n.strip_suffix(".toml"));
    if stem != Some(file.id.as_str()) {
        return Err(format!(
            "the id is `{}`, but a rule's file is named after its id",
            file.id
        ));
    }
    plain_id(&file.id)?;
    if !file.id.starts_with(&format!("{}.", file.jurisdiction)) {
        return Err(format!(
            "the id `{}` must begin with its jurisdiction, `{}.`",
            file.id, file.jurisdiction
        ));
    }
    if name.split('/').next() != Some(file.jurisdiction.as_str()) {
        return Err(format!(
            "a rule of `{}` lies in the folder `{}/`",
            file.jurisdiction, file.jurisdiction
        ));
    }
    Ok(())
}

/// An id is lower-case letters, digits, hyphens and points.
pub(crate) fn plain_id(id: &str) -> Result<(), String> {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-' || c == '.';
    if id.chars().all(plain) {
        return Ok(());
    }
    Err(format!(
        "the id `{id}` may hold only lower-case letters, digits, hyphens and points"
    ))
}

/// One version of a rule, every word of it held against its closed list.
pub(crate) fn read_version(
    number: u32,
    kind: Kind,
    version: VersionText,
    sources: &BTreeMap<String, Source>,
    of: &Grammar<'_>,
) -> Result<Version, String> {
    let in_force = text::date("in_force", &version.in_force)?;
    let until = match &version.until {
        None => {
            return Err("`until` is missing; write until = \"open\" or the last day in force, never leave it out".into());
        }
        Some(toml::Value::String(open)) if open == "open" => None,
        Some(toml::Value::String(word)) if !word.starts_with(|c: char| c.is_ascii_digit()) => {
            return Err(format!(
                "`until` is \"{word}\"; expected \"open\" or the last day in force"
            ));
        }
        Some(value) => Some(text::date("until", value)?),
    };
    if until.is_some_and(|end| end < in_force) {
        return Err(format!(
            "`until` lies before in_force, {in_force}; it is the last day in force"
        ));
    }
    of.mark("mark", &version.mark)?;
    of.mark("dates_mark", &version.dates_mark)?;
    text::filled("reading", &version.reading)?;
    text::filled("checked.by", &version.checked.by)?;
    text::filled("cite.edition", &version.cite.edition)?;
    of.section(&version.cite.section)?;
    if !sources.contains_key(&version.cite.source) {
        return Err(of.unknown_source(&version.cite.source));
    }
    Ok(Version {
        number,
        in_force,
        until,
        dates_mark: version.dates_mark,
        cite: version.cite,
        mark: version.mark,
        reading: version.reading,
        checked: Checked {
            on: text::date("checked.on", &version.checked.on)?,
            by: version.checked.by,
        },
        body: body::read(kind, version.says, of)?,
    })
}

/// Versions follow one another day by day.
pub(crate) fn check_order(versions: &[Version]) -> Result<(), String> {
    for pair in versions.windows(2) {
        let [before, after] = pair else { continue };
        let (a, b) = (before.number, after.number);
        if after.in_force <= before.in_force {
            return Err(format!(
                "versions are out of order: version {b} begins {}, not after version {a}",
                after.in_force
            ));
        }
        let Some(end) = before.until else {
            return Err(format!(
                "versions overlap: version {a} is open, yet version {b} begins {}",
                after.in_force
            ));
        };
        let next: Date = end
            .tomorrow()
            .map_err(|_| format!("version {a} ends beyond the calendar"))?;
        if after.in_force < next {
            return Err(format!(
                "versions overlap: version {a} runs to {end}, version {b} begins {}",
                after.in_force
            ));
        }
        if after.in_force > next {
            return Err(format!(
                "versions leave a gap: version {a} ends {end}, version {b} begins {}",
                after.in_force
            ));
        }
    }
    Ok(())
}

/// Refuses a word that its list does not hold.
fn word(key: &str, list: &[words::Word], given: &str) -> Result<(), String> {
    match words::meaning(list, given) {
        Some(_) => Ok(()),
        None => Err(format!(
            "unknown word `{given}` for `{key}`; expected {}",
            words::listed(list)
        )),
    }
}
