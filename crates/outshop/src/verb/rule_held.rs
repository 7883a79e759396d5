//! `rule hold` and `rule held`: a rule held against the official text by a person, and which of them were.

use std::collections::BTreeMap;

use clap::{ArgGroup, Args};
use rules::Version;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, Holding};
use shop::locomotive::{Checking, NewHolding, checking, hold_rule, rule};

use super::{name, saved, wrap};
use crate::words::held as say;
use crate::{Answer, Context, Failure, words};

/// State that you held a rule against the official text, and whether that says the same.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[command(group = ArgGroup::new("came-out").required(true))]
#[serde(deny_unknown_fields)]
pub struct Hold {
    /// The rule's id, such as us-steam.clock.31.
    pub id: String,
    /// The text it was held against, with its edition or its day: "eCFR of 2026-11-01".
    #[arg(long, value_name = "TEXT")]
    pub against: String,
    /// It says the same; told with what you read there: the section and its figure.
    #[arg(long, value_name = "READ", group = "came-out")]
    pub agrees: Option<String>,
    /// It does not say the same; told with what differs.
    #[arg(long, value_name = "WHAT", group = "came-out")]
    pub differs: Option<String>,
    /// The version held; the one in force on the day if left out.
    #[arg(long, value_name = "N")]
    pub version: Option<u32>,
}

/// Which rules this shop has held against the official text, and which not.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Held {
    /// Only those whose id begins so: us-steam.limit
    pub begins: Option<String>,
    /// List those too that nobody has held.
    #[arg(long)]
    #[serde(default)]
    pub all: bool,
}

impl Hold {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (agrees, seen) = match (&self.agrees, &self.differs) {
            (Some(read), None) => (true, read),
            (None, Some(what)) => (false, what),
            _ => return Err(Failure::Input(say::ONE_OF_TWO.into())),
        };
        let rules = context.rules()?;
        let new = NewHolding {
            rule: &self.id,
            version: self.version,
            against: &self.against,
            agrees,
            seen,
        };
        let receipt = context.save(|book, by, on| hold_rule(book, rules, new, by, on))?;
        let (book, on) = (context.book()?, context.on()?);
        let known = rule(&book, rules, self.id.trim())?;
        let version = match self.version {
            Some(number) => known.versions.iter().find(|v| v.number == number),
            None => known.on(on).ok(),
        };
        let Some(version) = version else {
            return Err(Failure::Machine(say::GONE.into()));
        };
        let stands = checking(&book, &known.id, version);
        let told = say::stated(
            context.by()?,
            &known.id,
            version.number,
            agrees,
            &standing(&book, &stands),
        );
        let value = json!({
            "rule": known.id, "version": version.number, "agrees": agrees, "checking": json_of(&book, &stands),
        });
        Ok(saved(&receipt, told, value))
    }
}

/// What this shop makes of a version, in a sentence.
pub fn standing(book: &Book, stands: &Checking<'_>) -> String {
    match stands {
        Checking::Checked(all) => say::checked(&people(book, all)),
        Checking::Not(None) => say::NOT.into(),
        Checking::Not(Some(held)) => say::not_with_one(name(book, held.by), held.on),
        Checking::Differs(all) => {
            let said: Vec<_> = all
                .iter()
                .map(|held| {
                    say::differs(
                        name(book, held.by),
                        held.on,
                        &held.told.against,
                        &held.told.seen,
                    )
                })
                .collect();
            said.join(" ")
        }
    }
}

/// A short mark of a rule by its newest version, where there is more to say than that nobody has held it.
pub fn mark(book: &Book, rule: &rules::Rule) -> Option<&'static str> {
    let newest = rule.versions.last()?;
    match checking(book, &rule.id, newest) {
        Checking::Checked(_) => Some(say::CHECKED),
        Checking::Not(Some(_)) => Some(say::ONE),
        Checking::Not(None) => None,
        Checking::Differs(_) => Some(say::DIFFERENT),
    }
}

/// The same for a program.
pub fn json_of(book: &Book, stands: &Checking<'_>) -> Value {
    let one = |held: &Holding| {
        json!({
            "by": name(book, held.by), "on": held.on.to_string(), "against": held.told.against,
            "agrees": held.told.agrees, "seen": held.told.seen, "entry": held.entry,
        })
    };
    let (word, people): (_, Vec<_>) = match stands {
        Checking::Checked(all) => ("checked", all.iter().map(|held| one(held)).collect()),
        Checking::Not(held) => ("not checked", held.iter().map(|held| one(held)).collect()),
        Checking::Differs(all) => ("differs", all.iter().map(|held| one(held)).collect()),
    };
    json!({ "by_this_shop": word, "people": people })
}

/// Names with days, as one reads them.
fn people(book: &Book, all: &[&Holding]) -> String {
    let said: Vec<_> = all
        .iter()
        .map(|held| say::who(name(book, held.by), held.on))
        .collect();
    said.join(", ")
}

impl Held {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (rules, book) = (context.rules()?, context.book()?);
        let begins = self.begins.as_deref().unwrap_or_default().trim();
        let mut listed = super::rule::every(&book, rules);
        listed.retain(|rule| rule.id.starts_with(begins));
        if listed.is_empty() {
            return Err(Failure::Input(say::none_begins(begins)));
        }
        let versions = listed
            .iter()
            .flat_map(|rule| rule.versions.iter().map(move |version| (*rule, version)));
        let mut chapters: BTreeMap<u8, Vec<(&rules::Rule, &Version, Checking<'_>)>> =
            BTreeMap::new();
        for (rule, version) in versions {
            let stands = checking(&book, &rule.id, version);
            let chapter = match &stands {
                Checking::Differs(_) => 0,
                Checking::Not(Some(_)) => 1,
                Checking::Checked(_) => 2,
                Checking::Not(None) => 3,
            };
            chapters
                .entry(chapter)
                .or_default()
                .push((rule, version, stands));
        }
        let (mut text, mut list) = (String::new(), Vec::new());
        for chapter in 0..=3 {
            let all = chapters.remove(&chapter).unwrap_or_default();
            let hidden = chapter == 3 && !self.all && !all.is_empty();
            text.push_str(&say::chapter(chapter, all.len(), hidden));
            for (rule, version, stands) in &all {
                list.push(json!({
                    "rule": rule.id, "version": version.number, "title": rule.title,
                    "checking": json_of(&book, stands),
                }));
                if hidden {
                    continue;
                }
                text.push_str(&format!(
                    "  {}, version {}: {}\n",
                    rule.id, version.number, rule.title
                ));
                if chapter < 3 {
                    let told = standing(&book, stands);
                    text.push_str(&format!("      {}\n", wrap(&told, 6, 100)));
                }
            }
        }
        text.push_str(&format!("{}\n", words::STANDING));
        Ok(Answer::done(text, json!(list)))
    }
}

/// One line for many figures: which of them this shop has not checked, by id and version; none where all are.
pub fn line<'r>(
    book: &Book,
    rules: &rules::Rulebook,
    used: impl IntoIterator<Item = (&'r str, u32)>,
) -> Option<String> {
    let mut used: Vec<_> = used.into_iter().collect();
    used.sort_unstable();
    used.dedup();
    let (mut not, mut differ) = (0, Vec::new());
    for (id, version) in &used {
        match shop::locomotive::checking_of(book, rules, id, *version) {
            Checking::Checked(_) => {}
            Checking::Not(_) => not += 1,
            Checking::Differs(_) => differ.push(*id),
        }
    }
    say::in_a_line(used.len(), not, &differ)
}
