//! `find`: words, numbers, sizes, old numbers, among everything the book holds, the rulebook and the sheets.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::book::{Book, LocomotiveId, RowKind, Wanted, says, stands_in, wanted};
use store::{Found, Hit, MOST_OF_A_KIND};

use super::wrap;
use crate::web::{encode, part_path};
use crate::words::{self, find as say, tag};
use crate::{Answer, Context, Failure};

/// Find what says all of these words, wherever it stands.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Find {
    /// Words, numbers, sizes: 5/32, F-004, "No. 7", 14-B-203, check. An engine's number with other words finds what is hers.
    #[arg(required = true)]
    pub words: Vec<String>,
}

/// One thing found, as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// What it is called.
    pub name: String,
    /// The page it stands on.
    pub path: String,
    /// Where it says it: the field, and what stands there.
    pub said: Option<(String, String)>,
}

/// Things of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// The kind, in the plural.
    pub title: &'static str,
    /// How many there are.
    pub count: usize,
    /// The first of them.
    pub shown: Vec<Shown>,
}

impl Find {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`]: nothing to be found is said.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let asked = self.words.join(" ");
        // What a hand reader gives may be the bars of a card.
        if super::card::read(context, &asked)?.is_some() {
            return super::card::Card::Read { code: asked }.run(context);
        }
        let groups = find(context, &asked)?;
        let mut text = String::new();
        for group in &groups {
            text.push_str(&format!("{}\n", say::head(group.title, group.count)));
            for it in &group.shown {
                text.push_str(&format!("  {}\n", it.name));
                if let Some((field, said)) = &it.said {
                    let line = say::stands(field, said);
                    text.push_str(&format!("      {}\n", wrap(&line, 6, 100)));
                }
            }
            if group.count > group.shown.len() {
                text.push_str(&format!(
                    "  {}\n",
                    say::more(group.count - group.shown.len())
                ));
            }
        }
        if groups.is_empty() {
            text.push_str(&format!("{}\n", say::nothing(&asked)));
        }
        let value = json!({
            "asked": asked,
            "found": groups.iter().map(|group| json!({
                "kind": group.title, "count": group.count,
                "first": group.shown.iter().map(|it| json!({
                    "what": it.name, "page": it.path, "where": it.said.as_ref().map(|(field, _)| field),
                    "says": it.said.as_ref().map(|(_, said)| said),
                })).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
        });
        Ok(Answer {
            text,
            json: value,
            code: u8::from(groups.is_empty()),
        })
    }
}

/// Finds what says all of the words.
///
/// # Errors
/// Input: no word, or only marks. What the book says.
pub fn find(context: &mut Context, asked: &str) -> Result<Vec<Group>, Failure> {
    let all = wanted(asked);
    if all.is_empty() {
        return Err(Failure::Input(say::NO_WORD.into()));
    }
    let rules = context.rules()?;
    let found = context.store()?.find(&all, None)?;
    let mut groups = groups(&found, &all);
    // An engine's number beside other words asks for what is hers, and that stands first.
    if let Some((engine, rest)) = of_engine(&found.book, &all) {
        let hers = context.store()?.find(&rest, Some(engine))?;
        groups = join(self::groups(&hers, &rest), groups);
    }
    groups.extend(of_rules(rules, &all));
    groups.extend(of_sheets(&all));
    Ok(groups)
}

fn groups(found: &Found, wanted: &[Wanted]) -> Vec<Group> {
    let kinds = found.kinds.iter().map(|(kind, (count, hits))| Group {
        title: say::kind(*kind),
        count: *count,
        shown: hits
            .iter()
            .map(|hit| shown(&found.book, hit, wanted))
            .collect(),
    });
    kinds.collect()
}

/// The engine that one of several words names, and the others.
fn of_engine(book: &Book, all: &[Wanted]) -> Option<(LocomotiveId, Vec<Wanted>)> {
    if all.len() < 2 {
        return None;
    }
    let named = |it: &Wanted| {
        let word = it.ways.first()?.first()?.word.as_str();
        let number = word.strip_prefix('#').unwrap_or(word);
        let mut engines = book.locomotives.iter();
        engines
            .find(|(_, it)| it.number.eq_ignore_ascii_case(number))
            .map(|(id, _)| *id)
    };
    let (at, engine) = all
        .iter()
        .enumerate()
        .find_map(|(at, it)| Some((at, named(it)?)))?;
    let mut rest = all.to_vec();
    rest.remove(at);
    Some((engine, rest))
}

/// What two searches found together, the first of them first.
fn join(first: Vec<Group>, other: Vec<Group>) -> Vec<Group> {
    let mut all = first;
    for group in other {
        match all.iter_mut().find(|it| it.title == group.title) {
            None => all.push(group),
            Some(kept) => {
                let is_new = |it: &Shown| !kept.shown.iter().any(|known| known.path == it.path);
                let news: Vec<_> = group.shown.into_iter().filter(is_new).collect();
                kept.count = (kept.count + news.len()).max(group.count);
                kept.shown.extend(news);
            }
        }
    }
    all
}

/// What a hit is called and where it stands.
fn shown(book: &Book, hit: &Hit, wanted: &[Wanted]) -> Shown {
    let said = stands_in(&hit.text, wanted);
    let unnamed = || (say::kind(hit.row.kind).to_string(), "/".to_string());
    let (name, path) = named(book, hit).unwrap_or_else(unnamed);
    Shown { name, path, said }
}

fn named(book: &Book, hit: &Hit) -> Option<(String, String)> {
    let key = hit.row.key.as_str();
    let engine = |id: &LocomotiveId| {
        book.locomotives
            .get(id)
            .map_or("?", |it| it.number.as_str())
    };
    let part = |id| book.parts.get(id).map_or("?", |part| part.name.as_str());
    Some(match hit.row.kind {
        RowKind::Locomotive => {
            let kept = book.locomotives.get(&key.parse().ok()?)?;
            (
                format!("{}, {}", words::engine(&kept.number), kept.wheels),
                format!("/engine/{}", kept.number),
            )
        }
        RowKind::Boiler => {
            let number = engine(&key.parse().ok()?);
            (
                words::boiler::title(number),
                format!("/engine/{number}/boiler"),
            )
        }
        RowKind::Part => {
            let kept = book.parts.get(&key.parse().ok()?)?;
            let number = engine(&kept.locomotive);
            (
                format!("{} {}", words::engine(number), kept.name),
                part_path(number, &kept.name),
            )
        }
        RowKind::Readings => {
            let (id, entry) = key.split_once('/')?;
            let (id, entry): (_, u64) = (id.parse().ok()?, entry.parse().ok()?);
            let set = book.readings.get(id, entry)?;
            let kept = book.parts.get(&id)?;
            let number = engine(&kept.locomotive);
            let path = format!("{}#entry-{entry}", part_path(number, &kept.name));
            (
                say::readings(number, &kept.name, set.on, words::state(set.state)),
                path,
            )
        }
        RowKind::Tooling => {
            let kept = book.tooling.get(&key.parse().ok()?)?;
            let number = tag::tool(kept.number);
            (
                format!("{number} {}", kept.what),
                format!("/tooling/{number}"),
            )
        }
        RowKind::Instrument => {
            let kept = book.instruments.get(&key.parse().ok()?)?;
            (
                format!("{} {}", kept.number, kept.what),
                format!("/instrument/{}", encode(&kept.number)),
            )
        }
        RowKind::Spare => {
            let kept = book.spares.get(&key.parse().ok()?)?;
            let number = tag::spare(kept.number);
            (
                format!("{number} {}", words::spare::what(kept)),
                format!("/spare/{number}"),
            )
        }
        RowKind::Lathe => {
            let kept = book.lathes.get(&key.parse().ok()?)?;
            let number = tag::lathe(kept.number);
            (
                format!("{number} {}", kept.name),
                format!("/lathe/{number}"),
            )
        }
        RowKind::Card => {
            let kept = book.cards.get(&key.parse().ok()?)?;
            let number = tag::card(kept.number);
            (
                format!("{number} {}", kept.sheet),
                format!("/card/{number}"),
            )
        }
        RowKind::Letter => {
            let kept = book.letters.get(&key.parse().ok()?)?;
            let number = tag::letter(kept.number);
            (
                format!("{number} {}", words::letter::head(kept)),
                format!("/letter/{number}"),
            )
        }
        RowKind::Photo => {
            let kept = book.photos.get(&key.parse().ok()?)?;
            let number = tag::photo(kept.number);
            (
                format!("{number} {}", kept.added.told),
                format!("/photo/{number}"),
            )
        }
        RowKind::Inspection => {
            let kept = book.inspections.get(&key.parse().ok()?)?;
            let number = tag::inspection(kept.number);
            let name = format!(
                "{number} {}, {}",
                words::engine(engine(&kept.locomotive)),
                kept.kind
            );
            (name, format!("/inspection/{number}"))
        }
        RowKind::Report => {
            let kept = book.reports.get(&key.parse().ok()?)?;
            let number = engine(&kept.locomotive);
            let first = kept.symptoms.first().map(|it| tag::write_up(it.number));
            let path = first
                .as_ref()
                .map_or(format!("/engine/{number}"), |it| format!("/write-up/{it}"));
            (say::report(number, kept.on, first.as_deref()), path)
        }
        RowKind::Finding => {
            let kept = book.findings.get(&key.parse().ok()?)?;
            let number = tag::finding(kept.number);
            let name = format!(
                "{number} {} {}",
                words::engine(engine(&kept.locomotive)),
                part(&kept.part)
            );
            (name, format!("/finding/{number}"))
        }
        RowKind::Job => {
            let kept = book.jobs.get(&key.parse().ok()?)?;
            let number = tag::job(kept.number);
            let name = format!(
                "{number} {}: {}",
                words::engine(engine(&kept.locomotive)),
                kept.plan.title
            );
            (name, format!("/job/{number}"))
        }
        RowKind::Person => {
            let kept = book.persons.get(&key.parse().ok()?)?;
            (kept.name.clone(), "/people".into())
        }
        RowKind::RuleHeld => (key.to_string(), format!("/rule/{key}")),
        RowKind::Shop | RowKind::Family | RowKind::RuleSet | RowKind::Fire | RowKind::Log => {
            return None;
        }
    })
}

/// Rules that say all of it: in their id, their title or their readings of the law.
fn of_rules(rules: &rules::Rulebook, wanted: &[Wanted]) -> Option<Group> {
    let found = rules.rules().filter(|rule| {
        let said = rule
            .versions
            .iter()
            .map(|v| format!("{} {}", v.reading, v.cite.section));
        let said: Vec<String> = said.collect();
        says(
            &format!("{} {} {}", rule.id, rule.title, said.join(" ")),
            wanted,
        )
    });
    group(
        say::RULES,
        found.map(|rule| Shown {
            name: rule.title.clone(),
            path: format!("/rule/{}", rule.id),
            said: Some((say::RULE.into(), rule.id.clone())),
        }),
    )
}

/// Worked sheets that are of all of it.
fn of_sheets(wanted: &[Wanted]) -> Option<Group> {
    let found = physics::catalogue().iter().filter(|entry| {
        let card = &entry.card;
        says(
            &format!("{} {} {}", card.id, card.title, card.purpose),
            wanted,
        )
    });
    group(
        say::SHEETS,
        found.map(|entry| Shown {
            name: entry.card.title.to_string(),
            path: format!("/sheet/{}", entry.card.id),
            said: Some((say::SHEET.into(), entry.card.id.to_string())),
        }),
    )
}

fn group(title: &'static str, all: impl Iterator<Item = Shown>) -> Option<Group> {
    let mut shown: Vec<Shown> = all.collect();
    let count = shown.len();
    shown.truncate(MOST_OF_A_KIND);
    (count > 0).then_some(Group {
        title,
        count,
        shown,
    })
}
