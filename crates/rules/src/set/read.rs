//! Reads the text of a set and tells every fault with its line.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use toml::Spanned;
use toml::de::{DeTable, DeValue, ValueDeserializer};

use super::place::{Leaf, Lines, leaves, of_sentence};
use super::{Declared, Fault, Origin, RuleSet};
use crate::load::grammar::Grammar;
use crate::load::{self, VersionText};
use crate::near::near;
use crate::{Body, Kind, Rule, Rulebook, Source, Version, words};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HeadText {
    id: String,
    title: String,
    origin: String,
    answers: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleText {
    id: String,
    title: String,
    kind: String,
}

/// What is being read, and the faults found so far.
struct Reading<'t> {
    lines: Lines,
    built_in: &'t Rulebook,
    faults: Vec<Fault>,
}

type Table<'i> = DeTable<'i>;
type Value<'i> = Spanned<DeValue<'i>>;

pub(super) fn read(text: &str, built_in: &Rulebook) -> Result<RuleSet, Vec<Fault>> {
    let lines = Lines::of(text);
    let root = match DeTable::parse(text) {
        Ok(root) => root.into_inner(),
        Err(error) => {
            let at = error.span().map_or(0, |span| span.start);
            return Err(vec![Fault {
                line: lines.at(at),
                says: format!(
                    "this does not read as TOML: {}",
                    load::plainly(error.message())
                ),
            }]);
        }
    };
    let mut reading = Reading {
        lines,
        built_in,
        faults: Vec::new(),
    };
    let set = reading.whole(root);
    reading.faults.sort();
    match set {
        Some(set) if reading.faults.is_empty() => Ok(set),
        _ => Err(reading.faults),
    }
}

impl Reading<'_> {
    fn fault(&mut self, line: usize, says: impl Into<String>) {
        self.faults.push(Fault {
            line,
            says: says.into(),
        });
    }

    /// Reads a table into a form, or tells why it does not fit.
    fn take<T: serde::de::DeserializeOwned>(&mut self, value: Value<'_>, what: &str) -> Option<T> {
        let start = value.span().start;
        match T::deserialize(ValueDeserializer::from(value)) {
            Ok(read) => Some(read),
            Err(error) => {
                let missing = error.message().starts_with("missing field");
                let at = error
                    .span()
                    .filter(|_| !missing)
                    .map_or(start, |span| span.start);
                let line = self.lines.at(at);
                self.fault(line, format!("{what}: {}", load::plainly(error.message())));
                None
            }
        }
    }

    fn whole(&mut self, root: Table<'_>) -> Option<RuleSet> {
        let (mut head, mut sources, mut declared, mut rules) = (None, None, None, None);
        for (key, value) in root {
            match key.get_ref().as_ref() {
                "set" => head = Some(value),
                "source" => sources = Some(value),
                "inspection" => declared = Some(value),
                "rule" => rules = Some(value),
                other => {
                    let line = self.lines.at(key.span().start);
                    self.fault(
                        line,
                        format!("unknown key `{other}`; expected [set], [source.NAME], [[inspection]] and [[rule]]"),
                    );
                }
            }
        }
        let Some(head) = head else {
            self.fault(
                1,
                "the table [set] is missing; expected it first, with id, title, origin and answers",
            );
            return None;
        };
        let (head, origin) = self.head(head)?;
        let sources: BTreeMap<String, Source> = match sources {
            Some(value) => self.take(value, "[source]")?,
            None => BTreeMap::new(),
        };
        let declared = self.declared(declared);
        let mut read = BTreeMap::new();
        let mut lines = BTreeMap::new();
        for value in self.tables(rules, "rule") {
            let line = self.lines.at(value.span().start);
            if let Some((rule, places)) = self.rule(value, &head.id, origin, &sources, &declared) {
                if read.contains_key(&rule.id) {
                    self.fault(
                        line,
                        format!(
                            "the id `{}` is used twice in this file; expected each rule once",
                            rule.id
                        ),
                    );
                }
                lines.insert(rule.id.clone(), places);
                read.insert(rule.id.clone(), rule);
            }
        }
        if read.is_empty() && self.faults.is_empty() {
            self.fault(1, "the file holds no rule; expected at least one [[rule]]");
        }
        let rules = Rulebook::of_set(read, sources, declared, origin);
        let set = RuleSet {
            id: head.id,
            title: head.title,
            origin,
            answers: head.answers,
            rules,
            lines,
        };
        self.references(&set);
        Some(set)
    }

    fn head(&mut self, value: Value<'_>) -> Option<(HeadText, Origin)> {
        let line = self.lines.at(value.span().start);
        let leaves = of(&value, &self.lines);
        let head: HeadText = self.take(value, "[set]")?;
        let mut wrong = Vec::new();
        for (key, text) in [("title", &head.title), ("answers", &head.answers)] {
            wrong.extend(load::filled(key, text).err());
        }
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if head.id.is_empty() || !head.id.chars().all(plain) {
            wrong.push(format!(
                "`id` is \"{}\"; expected lower-case letters, digits and hyphens, as \"our-shop\"",
                head.id
            ));
        }
        let taken = self.built_in.jurisdictions();
        if taken.contains(head.id.as_str()) {
            wrong.push(format!(
                "the id `{}` is that of a rulebook inside this program; expected a name of your own",
                head.id
            ));
        }
        let known = [Origin::Shop, Origin::Elsewhere];
        let origin = known.into_iter().find(|o| o.word() == head.origin);
        if origin.is_none() {
            wrong.push(format!(
                "`origin` is \"{}\"; expected \"shop\" for rules of your own, or \"elsewhere\" for those of another jurisdiction",
                head.origin
            ));
        }
        for says in wrong {
            let line = of_sentence(&says, &leaves, line);
            self.fault(line, format!("[set]: {says}"));
        }
        origin.map(|origin| (head, origin))
    }

    /// The tables of an array, `[[name]]`.
    fn tables<'i>(&mut self, value: Option<Value<'i>>, name: &str) -> Vec<Value<'i>> {
        let Some(value) = value else {
            return Vec::new();
        };
        let line = self.lines.at(value.span().start);
        match value.into_inner() {
            DeValue::Array(all) => all.into_iter().collect(),
            _ => {
                self.fault(
                    line,
                    format!(
                        "`{name}` is one table; expected a list of them, each headed [[{name}]]"
                    ),
                );
                Vec::new()
            }
        }
    }

    fn declared(&mut self, value: Option<Value<'_>>) -> Vec<Declared> {
        let mut declared: Vec<Declared> = Vec::new();
        for value in self.tables(value, "inspection") {
            let line = self.lines.at(value.span().start);
            let Some(it) = self.take::<Declared>(value, "[[inspection]]") else {
                continue;
            };
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            let built_in = words::place(&it.word).is_some()
                || words::meaning(words::DEFECT_WORK, &it.word).is_some()
                || words::HAPPENINGS.contains(&it.word.as_str());
            if it.word.is_empty() || !it.word.chars().all(plain) {
                self.fault(
                    line,
                    format!("[[inspection]]: `word` is \"{}\"; expected lower-case letters, digits and hyphens", it.word),
                );
            } else if built_in {
                self.fault(
                    line,
                    format!("[[inspection]]: `{}` is a word of this program already; use it without declaring it, or take another", it.word),
                );
            } else if declared.iter().any(|d| d.word == it.word) {
                self.fault(
                    line,
                    format!("[[inspection]]: `{}` is declared twice", it.word),
                );
            } else if let Err(says) = load::filled("meaning", &it.meaning) {
                self.fault(line, format!("[[inspection]]: {says}"));
            }
            declared.push(it);
        }
        declared
    }

    fn rule(
        &mut self,
        value: Value<'_>,
        set: &str,
        origin: Origin,
        sources: &BTreeMap<String, Source>,
        declared: &[Declared],
    ) -> Option<(Rule, Vec<usize>)> {
        let span = value.span();
        let line = self.lines.at(span.start);
        let leaves = of(&value, &self.lines);
        let DeValue::Table(mut table) = value.into_inner() else {
            self.fault(line, "a rule is a table, headed [[rule]]");
            return None;
        };
        let versions = take_key(&mut table, "version");
        let head: RuleText = self.take(Spanned::new(span, DeValue::Table(table)), "[[rule]]")?;
        let mut wrong = Vec::new();
        wrong.extend(load::plain_id(&head.id).err());
        if self.built_in.rule(&head.id).is_ok() {
            wrong.push(format!(
                "the id `{}` is that of a rule of the law inside this program; expected one under `{set}.`",
                head.id
            ));
        } else if !head
            .id
            .strip_prefix(set)
            .is_some_and(|rest| rest.len() > 1 && rest.starts_with('.'))
        {
            wrong.push(format!(
                "the id `{}` is not under this set; expected it to begin with `{set}.`",
                head.id
            ));
        }
        wrong.extend(load::filled("title", &head.title).err());
        let kind = load::kind(&head.kind).map_err(|e| wrong.push(e)).ok();
        for says in wrong {
            let line = of_sentence(&says, &leaves, line);
            self.fault(line, says);
        }
        let versions = self.tables(versions, "rule.version");
        if versions.is_empty() {
            self.fault(
                line,
                format!(
                    "{}: holds no version; a rule has at least one [[rule.version]]",
                    head.id
                ),
            );
        }
        let kind = kind?;
        let mut places = vec![line];
        let mut read = Vec::new();
        let mut starts = Vec::new();
        for (number, value) in (1u32..).zip(versions) {
            let line = self.lines.at(value.span().start);
            places.push(line);
            let leaves = of(&value, &self.lines);
            starts.push(of_sentence("in_force", &leaves, line));
            let what = format!("{}, version {number}", head.id);
            let Some(version) = self.take::<VersionText>(value, &what) else {
                continue;
            };
            let of_shop = Grammar::of_shop(declared);
            match load::read_version(number, kind, version, sources, &of_shop) {
                Ok(version) => read.push(version),
                Err(says) => {
                    let line = of_sentence(&says, &leaves, line);
                    self.fault(line, format!("{what}: {}", for_a_shop(&says)));
                }
            }
        }
        self.order(&head.id, &read, &starts);
        let rule = Rule {
            id: head.id,
            title: head.title,
            jurisdiction: set.to_owned(),
            origin,
            kind,
            versions: read,
        };
        Some((rule, places))
    }

    /// Tells each version that does not follow the one before it.
    fn order(&mut self, id: &str, versions: &[Version], starts: &[usize]) {
        for pair in versions.windows(2) {
            if let (Err(says), [_, after]) = (load::check_order(pair), pair) {
                let at = usize::try_from(after.number).unwrap_or(1).saturating_sub(1);
                let line = starts.get(at).copied().unwrap_or(1);
                self.fault(line, format!("{id}: {says}"));
            }
        }
    }

    /// Tells each name of another rule that names none, and each inspection nobody could hold.
    fn references(&mut self, set: &RuleSet) {
        let own = &set.rules;
        let rule = |id: &str| own.rule(id).or_else(|_| self.built_in.rule(id)).ok();
        let is_item = |id: &str| rule(id).is_some_and(|r| r.kind == Kind::Item);
        let is_limit = |id: &str| {
            let mut versions = rule(id).into_iter().flat_map(|r| &r.versions);
            versions.any(|v| v.body.measures().is_some())
        };
        let mut wrong = Vec::new();
        for held in own.rules() {
            for version in &held.versions {
                let (key, lost, what) = match &version.body {
                    Body::Count(it) => {
                        let mut named = it.restarted_by_items.iter();
                        (
                            "restarted_by_items",
                            named.find(|id| !is_item(id)),
                            "an item",
                        )
                    }
                    Body::Item(it) => (
                        "limits",
                        it.limits.iter().find(|id| !is_limit(id)),
                        "a limit",
                    ),
                    Body::Limit(it) => {
                        let mut named = it.together_with.iter();
                        let partner = |id: &String| {
                            *id != held.id && own.rule(id).is_ok_and(|r| r.kind == held.kind)
                        };
                        (
                            "together_with",
                            named.find(|id| !partner(id)),
                            "another limit of this set",
                        )
                    }
                    _ => continue,
                };
                if let Some(lost) = lost {
                    let every = own.rules().chain(self.built_in.rules());
                    let like = near(lost, every.map(|r| r.id.as_str()));
                    let like = like
                        .first()
                        .map_or_else(String::new, |id| format!("; did you mean `{id}`?"));
                    let line = set.line(&held.id, version.number);
                    wrong.push((
                        line,
                        format!(
                            "{}, version {}: {key} names `{lost}`, which is not {what} on file{like}",
                            held.id, version.number
                        ),
                    ));
                }
            }
        }
        let mut listed = BTreeSet::new();
        let mut called = Vec::new();
        for held in own.rules() {
            for version in &held.versions {
                if let Body::Item(it) = &version.body {
                    listed.extend(it.inspections.iter().map(String::as_str));
                }
                called.extend(version.body.work().map(|work| (held, version.number, work)));
            }
        }
        for (held, number, word) in called {
            if own.declares(word).is_some() && !listed.contains(word) {
                wrong.push((
                    set.line(&held.id, number),
                    format!("{}, version {number}: calls for the inspection `{word}`, and no item of this set is on its list; expected at least one, or nobody could hold it", held.id),
                ));
            }
        }
        for (line, says) in wrong {
            self.fault(line, says);
        }
    }
}

/// A long list of words is named to a shop by the document that tells it, not by where the program keeps it.
fn for_a_shop(says: &str) -> String {
    const TOLD: &str = ", which docs/rule-files.md does not tell";
    says.replace(", not in `words::QUESTIONS`", TOLD)
        .replace(", not in `words::UNITS`", TOLD)
}

/// The keys and values of a table value.
fn of(value: &Value<'_>, lines: &Lines) -> Vec<Leaf> {
    match value.get_ref() {
        DeValue::Table(table) => leaves(table, lines),
        _ => Vec::new(),
    }
}

/// Takes a key out of a table.
fn take_key<'i>(table: &mut Table<'i>, name: &str) -> Option<Value<'i>> {
    let mut taken = None;
    for (key, value) in std::mem::take(table) {
        if key.get_ref().as_ref() == name {
            taken = Some(value);
        } else {
            table.insert(key, value);
        }
    }
    taken
}
