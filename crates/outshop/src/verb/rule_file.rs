//! `rule check` and `rule adopt`: a file of rules the shop wrote, read and looked over, and taken into the book.

use std::borrow::Cow;
use std::io::Read as _;
use std::path::Path;

use clap::Args;
use jiff::civil::Date;
use rules::{Beside, Body, Kind, RuleSet, Rulebook, beside};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, Family, RuleChoice};
use shop::locomotive::{Law, adopt_rules, engines, read_rules};

use super::rule::{book_if_named, said};
use super::{date, saved, wrap};
use crate::{Answer, Context, Failure, words};

/// No file of rules a person writes comes near this.
const MOST_BYTES: u64 = 1 << 20;

/// Read a file of rules, name every fault with its line, and tell what it would do; changes nothing.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// The file, as docs/rule-files.md tells.
    pub file: String,
}

/// Take a file of rules into the book, from a day on.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Adopt {
    /// The file, as docs/rule-files.md tells.
    pub file: String,
    /// The first day it holds; the day of this entry if left out.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub from: Option<String>,
}

/// The text of a file, whole, or a sentence that says why not.
pub(super) fn text_of(file: &str) -> Result<String, Failure> {
    let fails = |why: String| Failure::Input(format!("{file} cannot be read: {why}."));
    let open = std::fs::File::open(Path::new(file)).map_err(|e| fails(e.to_string()))?;
    let mut bytes = Vec::new();
    open.take(MOST_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| fails(e.to_string()))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(fails(
            "it is larger than a megabyte; a text file was expected".into(),
        ));
    }
    String::from_utf8(bytes).map_err(|e| {
        let line = e.as_bytes().iter().take(e.utf8_error().valid_up_to());
        let line = line.filter(|byte| **byte == b'\n').count() + 1;
        Failure::Input(format!(
            "{file}:{line}: this is not text in UTF-8, which was expected."
        ))
    })
}

impl Check {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let text = text_of(&self.file)?;
        let (rules, book) = (context.rules()?, book_if_named(context)?);
        let set = read_rules(&book, rules, &self.file, &text, None)
            .map_err(|no| Failure::Input(no.to_string()))?;
        let on = match context.globals().book {
            Some(_) => Some(context.on()?),
            None => context.globals().on,
        };
        let (mut told, mut list) = (head(&self.file, &set), Vec::new());
        for rule in set.rules.rules() {
            let (line, value) = one(&book, rules, &set, rule, on);
            told.push_str(&line);
            list.push(value);
        }
        told.push_str(&format!("{}\n", in_the_book(&book, &set)));
        told.push_str(&format!("Nothing was changed. {}\n", words::STANDING));
        let value = json!({
            "set": set.id, "title": set.title, "origin": set.origin.told(), "answers": set.answers,
            "rules": list, "faults": [],
        });
        Ok(Answer::done(told, value))
    }
}

fn head(file: &str, set: &RuleSet) -> String {
    format!(
        "{file}: no fault found\n{}: {}\n  {}; for it answers {}\n",
        set.id,
        set.title,
        set.origin.told(),
        set.answers
    )
}

/// One rule of a set: what it says on the day, and how it stands beside the law.
fn one(
    book: &Book,
    rules: &Rulebook,
    set: &RuleSet,
    rule: &rules::Rule,
    on: Option<Date>,
) -> (String, Value) {
    let Some(newest) = rule.versions.last() else {
        return (String::new(), Value::Null);
    };
    let version = on.and_then(|on| rule.on(on).ok()).unwrap_or(newest);
    let day = on.unwrap_or(version.in_force).max(version.in_force);
    let mut lines = Vec::new();
    if let Ok(own) = rule.ruling(day) {
        for other in rules.rules().filter_map(|other| other.ruling(day).ok()) {
            let Some(stands) = beside(&own, &other) else {
                continue;
            };
            let name = format!("{} ({})", other.rule, said(&other.body));
            lines.push(match stands {
                Beside::Stricter => format!("stricter than {name}: where both bind, this one comes first"),
                Beside::Alike => format!("as strict as {name}"),
                Beside::Looser => format!("looser than {name}: where both bind, that one comes first, and this one changes nothing"),
                Beside::Both => format!("on the same matter as {name}: where both bind, both must be met"),
            });
        }
    }
    match &version.body {
        Body::Limit(_) | Body::LimitTable(_) | Body::LimitFormula(_) => {
            let quantity = version.body.measures().map_or("", |(quantity, _)| quantity);
            let by = measured_by(book, rules, quantity);
            lines.push(if by.is_empty() {
                format!(
                    "no family of parts measures `{quantity}`: a reading is held against it by hand"
                )
            } else {
                format!("held against {}", by.join("; "))
            });
        }
        _ if lines.is_empty() && set.origin.binds_as_law() && rule.kind != Kind::Item => {
            lines.push("no rule of the law inside this program is on the same matter".into());
        }
        _ => {}
    }
    let until = version
        .until
        .map_or(String::new(), |day| format!(" through {}", words::day(day)));
    let mut text = format!(
        "  {}, version {}, from {}{until}\n",
        rule.id,
        version.number,
        words::day(version.in_force)
    );
    for line in std::iter::once(&said(&version.body)).chain(&lines) {
        text.push_str(&format!("    {}\n", wrap(line, 6, 100)));
    }
    let value = json!({
        "rule": rule.id, "kind": rule.kind.word(), "version": version.number, "says": said(&version.body), "beside": lines,
    });
    (text, value)
}

/// What of which family a limit on a quantity is held against.
fn measured_by(book: &Book, rules: &Rulebook, quantity: &str) -> Vec<String> {
    let kept = book.families.values().filter_map(|kept| kept.family().ok());
    let mut families: Vec<Cow<'_, Family>> = kept.map(Cow::Borrowed).collect();
    if families.is_empty() {
        let built_in = Family::BUILT_IN.iter();
        families = built_in
            .filter_map(|text| Family::read(text).ok().map(Cow::Owned))
            .collect();
    }
    let is_on = |rule: &String| {
        let rule = rules.rule(rule).ok();
        let body = rule.and_then(|r| r.versions.last()).map(|v| &v.body);
        body.and_then(Body::measures)
            .is_some_and(|(q, _)| q == quantity)
    };
    let mut found = Vec::new();
    for family in &families {
        let sizes = family.features.iter().map(|f| (&f.name, &f.title, &f.rule));
        let differences = family.differences.iter();
        let differences = differences.map(|d| (&d.name, &d.title, &d.rule));
        for (name, title, rule) in sizes.chain(differences) {
            let by_rule = match rule {
                None => false,
                Some(RuleChoice::One(rule)) => is_on(rule),
                Some(RuleChoice::ByFact(facts)) => facts
                    .values()
                    .flat_map(|choices| choices.values())
                    .any(is_on),
            };
            if by_rule || quantity == format!("{}-{name}", family.family) {
                found.push(format!("{title} of a {}", family.family));
            }
        }
        for condition in &family.conditions {
            if condition.rule.as_ref().is_some_and(is_on) {
                found.push(format!("{} of a {}", condition.title, family.family));
            }
        }
    }
    found
}

/// What of this set is in the book already, and which engines it binds.
fn in_the_book(book: &Book, set: &RuleSet) -> String {
    let Some((number, newest)) = book.rule_sets.get(&set.id).and_then(|kept| kept.newest()) else {
        return format!(
            "No text of {} is in this book. To take it in: rule adopt FILE --from DAY",
            set.id
        );
    };
    let engines: Vec<String> = engines(book)
        .into_iter()
        .filter(|(_, kept)| {
            kept.jurisdiction == set.id || kept.rules_bound.iter().any(|b| b.set == set.id)
        })
        .map(|(_, kept)| format!("No. {}", kept.number))
        .collect();
    let engines = if engines.is_empty() {
        "no engine is under it".to_string()
    } else {
        format!("under it: {}", engines.join(", "))
    };
    format!(
        "Text {number} of {} is in this book and holds from {}; {engines}. This would be text {}.",
        set.id,
        words::day(newest.from),
        number + 1
    )
}

impl Adopt {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let text = text_of(&self.file)?;
        let from = self.from.as_deref().map(date).transpose()?;
        let rules = context.rules()?;
        let receipt = context.save(|book, by, on| {
            adopt_rules(book, rules, &self.file, &text, from.unwrap_or(on), by, on)
        })?;
        let book = context.book()?;
        let set = RuleSet::read(&text, rules).map_err(|_| {
            Failure::Machine("The set is in the book and does not read there.".into())
        })?;
        let kept = book.rule_sets.get(&set.id).and_then(|kept| kept.newest());
        let (number, day) = kept.map_or((0, None), |(number, e)| (number, Some(e.from)));
        let under: Vec<String> = engines(&book)
            .into_iter()
            .filter(|(_, kept)| {
                let under = Law::of(&book, rules, kept).is_under(&set.id, day.unwrap_or_default());
                under.unwrap_or(false)
            })
            .map(|(_, kept)| format!("No. {}", kept.number))
            .collect();
        let binds = if under.is_empty() {
            format!(
                "It binds no engine yet: say which (locomotive rules ENGINE {} --from DAY --document ...)",
                set.id
            )
        } else {
            format!("It binds {}", under.join(", "))
        };
        let told = format!(
            "{}, {}, is in the book as text {number}: {} that hold from {}. {binds}.",
            set.id,
            set.origin.told(),
            words::count(set.rules.rules().count(), "rule", "rules"),
            day.map(words::day).unwrap_or_default()
        );
        Ok(saved(
            &receipt,
            told,
            json!({ "set": set.id, "text": number, "from": day.map(|d| d.to_string()), "binds": under }),
        ))
    }
}
