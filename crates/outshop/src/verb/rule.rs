//! `rule`: a rule as the rulebook has it, with its citation and the mark of how it was read.

use clap::{Args, Subcommand};
use rules::Rulebook;
use serde::Deserialize;
use serde_json::json;
use shop::book::Book;
use shop::locomotive::checking;

use super::rule_file::{Adopt, Check};
use super::rule_held::{self, Held, Hold};
use super::wrap;
use crate::{Answer, Context, Failure, words};

/// A rule, its versions, its citation; who held it against the official text; rules the shop writes itself.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
#[serde(try_from = "Asked")]
pub struct Rule {
    /// The rule's id, such as us-steam.clock.31; or what a limit is on, such as side-rod-bore-over-pin.
    #[arg(required_unless_present = "list")]
    pub id: Option<String>,
    /// List every rule, or those whose id begins so.
    #[arg(long)]
    pub list: bool,
    /// Hold a reading against the limit: 5/32in, or 5/32in ± .001in with its uncertainty.
    #[arg(long, value_name = "READING", conflicts_with = "list")]
    pub reading: Option<String>,
    /// The uncertainty of the reading or of the instrument, where it is known: .001in.
    #[arg(long, value_name = "±", requires = "reading")]
    pub uncertainty: Option<String>,
    /// A circumstance that is so, such as main-pin. May be given more than once.
    #[arg(long, value_name = "WORD", conflicts_with = "list")]
    pub so: Vec<String>,
    /// A fact that a table or a formula hangs on, with its unit: axle-load=36500lb. May be given more than once.
    #[arg(long = "fact", value_name = "NAME=VALUE", conflicts_with = "list")]
    pub facts: Vec<String>,
    /// The engine, whose gauge, axle load and boiler pressure the book knows.
    #[arg(long, value_name = "NUMBER", conflicts_with = "list")]
    pub engine: Option<String>,
    /// The rulebook, where more than one has a limit on it: us-steam.
    #[arg(long, value_name = "RULEBOOK", conflicts_with = "list")]
    pub rules: Option<String>,
    /// What is done about rules.
    #[command(subcommand)]
    pub act: Option<Act>,
}

/// What is done about rules.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// State that you held a rule against the official text, and whether that says the same.
    Hold(Hold),
    /// Which rules this shop has held against the official text, and which not.
    Held(Held),
    /// Read a file of rules, name every fault with its line, and tell what it would do; changes nothing.
    Check(Check),
    /// Take a file of rules into the book, from a day on.
    Adopt(Adopt),
}

/// The same as it comes in JSON: `{"id": ...}`, `{"list": true}`, or one act such as `{"adopt": {...}}`.
#[derive(Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    id: Option<String>,
    #[serde(default)]
    list: bool,
    reading: Option<String>,
    uncertainty: Option<String>,
    #[serde(default)]
    so: Vec<String>,
    #[serde(default)]
    facts: Vec<String>,
    engine: Option<String>,
    rules: Option<String>,
    hold: Option<Hold>,
    held: Option<Held>,
    check: Option<Check>,
    adopt: Option<Adopt>,
}

impl TryFrom<Asked> for Rule {
    type Error = String;

    fn try_from(mut asked: Asked) -> Result<Rule, String> {
        const ACTS: &str = "`hold`, `held`, `check` and `adopt`";
        let acts = [
            asked.hold.take().map(Act::Hold),
            asked.held.take().map(Act::Held),
            asked.check.take().map(Act::Check),
            asked.adopt.take().map(Act::Adopt),
        ];
        let mut acts = acts.into_iter().flatten();
        let (act, more) = (acts.next(), acts.next());
        // What is left asks about a rule.
        let of_rules = asked != Asked::default();
        match (&act, more, of_rules) {
            (None, _, false) => return Err(format!("one of `id`, `list`, {ACTS} was expected")),
            (Some(_), Some(_), _) | (Some(_), None, true) => {
                return Err(format!("only one of `id`, {ACTS} was expected"));
            }
            _ => {}
        }
        Ok(Rule {
            id: asked.id,
            list: asked.list,
            reading: asked.reading,
            uncertainty: asked.uncertainty,
            so: asked.so,
            facts: asked.facts,
            engine: asked.engine,
            rules: asked.rules,
            act,
        })
    }
}

/// The book, where one is named; a rule of the law needs none.
pub(super) fn book_if_named(context: &mut Context) -> Result<Book, Failure> {
    match context.globals().book {
        Some(_) => context.book(),
        None => Ok(Book::default()),
    }
}

/// Every rule: of this program's rulebook, then of the newest text of each set in the book.
pub fn every<'a>(book: &'a Book, rules: &'a Rulebook) -> Vec<&'a rules::Rule> {
    let kept = book.rule_sets.values();
    let kept = kept.filter_map(|kept| kept.newest()?.1.rules(rules).ok());
    let own = kept.flat_map(|set| set.rules.rules());
    rules.rules().chain(own).collect()
}

impl Rule {
    /// Tells.
    ///
    /// # Errors
    /// If there is no such rule.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match &self.act {
            Some(Act::Hold(it)) => return it.run(context),
            Some(Act::Held(it)) => return it.run(context),
            Some(Act::Check(it)) => return it.run(context),
            Some(Act::Adopt(it)) => return it.run(context),
            None => {}
        }
        let (rules, book) = (context.rules()?, book_if_named(context)?);
        if self.asks_a_limit(rules) {
            return self.hold(context);
        }
        let Some(id) = self.id.as_deref().filter(|_| !self.list) else {
            let begins = self.id.as_deref().unwrap_or_default();
            let mut listed = every(&book, rules);
            listed.retain(|r| r.id.starts_with(begins));
            let origin = |r: &rules::Rule| match r.origin {
                rules::Origin::Law => String::new(),
                other => format!(" ({})", other.told()),
            };
            let text: String = listed
                .iter()
                .map(|r| {
                    let mark =
                        rule_held::mark(&book, r).map_or(String::new(), |m| format!(" [{m}]"));
                    format!("{:<44} {}{}{mark}\n", r.id, r.title, origin(r))
                })
                .collect();
            let list: Vec<_> = listed
                .iter()
                .map(|r| {
                    let mut told = json!({ "rule": r.id, "title": r.title, "kind": r.kind.word() });
                    if r.origin != rules::Origin::Law {
                        told["origin"] = json!(r.origin.told());
                    }
                    told
                })
                .collect();
            return Ok(Answer::done(text, json!(list)));
        };
        let rule = shop::locomotive::rule(&book, rules, id)
            .map_err(|no| Failure::Input(no.to_string()))?;
        let set = book.rule_sets.get(&rule.jurisdiction);
        let set = set.and_then(|kept| kept.newest()?.1.rules(rules).ok());
        let sources = set.map_or(rules, |set| &set.rules).sources();
        let whose = match rule.origin {
            rules::Origin::Law => format!("rulebook {}", rule.jurisdiction),
            other => format!("rule set {}: {}", rule.jurisdiction, other.told()),
        };
        let mut text = format!(
            "{}: {}\n  {whose}, kind {}\n",
            rule.id,
            rule.title,
            rule.kind.word()
        );
        let mut versions = Vec::new();
        for version in &rule.versions {
            let until = version
                .until
                .map_or("still in force, as far as this book knows".into(), |d| {
                    format!("through {d}")
                });
            let source = sources
                .get(&version.cite.source)
                .map_or(version.cite.source.clone(), |s| s.title.clone());
            let stands = checking(&book, &rule.id, version);
            text.push_str(&format!(
                "  version {}: from {}, {until}\n",
                version.number, version.in_force
            ));
            for (what, told) in [
                (
                    "cites",
                    format!(
                        "{}, {}, {}",
                        version.cite.section, source, version.cite.edition
                    ),
                ),
                ("mark", version.mark.clone()),
                ("our reading", version.reading.clone()),
                ("says", said(&version.body)),
                (
                    "last checked",
                    format!("{} by {}", version.checked.on, version.checked.by),
                ),
                ("this shop", rule_held::standing(&book, &stands)),
            ] {
                text.push_str(&format!("    {what:<13} {}\n", wrap(&told, 18, 100)));
            }
            versions.push(json!({
                "version": version.number, "in_force": version.in_force.to_string(), "until": version.until.map(|d| d.to_string()),
                "section": version.cite.section, "source": source, "edition": version.cite.edition, "mark": version.mark,
                "reading": version.reading, "says": said(&version.body),
                "cases": version.cases().iter().map(|c| json!({ "of": c.of, "reading": c.reading, "verdict": c.verdict() })).collect::<Vec<_>>(),
                "checked": { "on": version.checked.on.to_string(), "by": version.checked.by },
                "checking": rule_held::json_of(&book, &stands),
            }));
        }
        text.push_str(&format!("{}\n", words::STANDING));
        let mut value = json!({ "rule": rule.id, "title": rule.title, "rulebook": rule.jurisdiction, "kind": rule.kind.word(), "versions": versions });
        if rule.origin != rules::Origin::Law {
            value["origin"] = json!(rule.origin.told());
        }
        Ok(Answer::done(text, value))
    }
}

/// What a rule comes to, in words.
pub fn said(body: &rules::Body) -> String {
    use rules::{Body, CountUnit};
    let unit = |unit: CountUnit| match unit {
        CountUnit::ServiceDay => "service days",
        CountUnit::Annual => "annual inspections",
        CountUnit::DayOfUse => "day of use",
    };
    match body {
        Body::Definition(it) => {
            format!("{}: a day on which {}", it.term, it.together.join(" and "))
        }
        Body::Count(it) => format!(
            "a {} inspection after {} {}; restarted by {}",
            it.inspection,
            it.due_after,
            unit(it.unit),
            it.restarted_by.join(", ")
        ),
        Body::Calendar(it) => {
            let end = if it.restarted_by.is_empty() {
                "ends with the work".to_string()
            } else {
                format!("restarted by {}", it.restarted_by.join(", "))
            };
            let only = it.only_if.iter();
            let only = only.map(|f| format!("; only where {} is {}", f.fact, f.is));
            let credit = it.out_of_use.iter().map(|c| {
                format!(
                    "; lengthened by spells out of use of {} days or more ({})",
                    c.least_days, c.section
                )
            });
            let more: String = only.chain(credit).collect();
            format!("{} within {}; {end}{more}", it.inspection, it.span)
        }
        Body::WhicheverFirst(it) => {
            let arms: Vec<_> = it
                .counts
                .iter()
                .map(|arm| format!("{} {}", arm.due_after, unit(arm.unit)))
                .chain(it.calendar.iter().map(|arm| arm.span.to_string()))
                .collect();
            format!(
                "a {} inspection after {}, whichever comes first; restarted by {}",
                it.inspection,
                arms.join(" or "),
                it.restarted_by.join(", ")
            )
        }
        Body::Limit(it) => format!("{}: {}{}", it.subject, it.words(), only(&it.when)),
        Body::LimitTable(it) => {
            let columns = it.columns.as_ref().map_or(String::new(), |c| {
                format!(" and {}", c.name.replace('_', " "))
            });
            let rows = it.rows.name.replace('_', " ");
            format!(
                "{}: {}, in {}, by a table of {rows}{columns}{}",
                it.subject,
                bound(it.compare),
                it.unit,
                only(&it.when)
            )
        }
        Body::LimitFormula(it) => {
            let facts: Vec<_> = it
                .facts
                .iter()
                .map(|f| format!("{}, {}: {}", f.name.replace('_', " "), f.unit, f.meaning))
                .collect();
            format!(
                "{}: {} {} {}{}. In it {}",
                it.subject,
                bound(it.compare),
                it.written.replace('_', " "),
                it.unit,
                only(&it.when),
                facts.join("; ")
            )
        }
        Body::Item(it) => item(it),
        Body::Filing(it) => filing(it),
        Body::Retention(it) => {
            let at: Vec<_> = it
                .at
                .iter()
                .map(|w| rules::words::meaning(rules::words::KEPT_AT, w).unwrap_or(w))
                .collect();
            let long = match it.keep {
                rules::Keep::Days(days) => format!("kept at least {days} days"),
                rules::Keep::LifeOfBoiler => "kept for the life of the boiler".into(),
                rules::Keep::WhileCurrent => "kept until the next one takes its place".into(),
                rules::Keep::NoPeriodInText => "the text sets no period".into(),
            };
            format!("{}: {long}; {}", it.what, at.join("; "))
        }
    }
}

/// On which side of a figure a reading must lie, before the figure.
fn bound(compare: rules::Compare) -> &'static str {
    match compare {
        rules::Compare::Max => "at most",
        rules::Compare::Min => "at least",
        rules::Compare::Set | rules::Compare::Range => "exactly",
    }
}

/// Under which circumstances a limit holds, if not always.
fn only(when: &[String]) -> String {
    if when.is_empty() {
        return String::new();
    }
    let told: Vec<_> = when
        .iter()
        .map(|word| rules::words::question(word).map_or(word.as_str(), |(_, meaning)| meaning))
        .collect();
    format!(" (only: {})", told.join("; "))
}

fn item(it: &rules::Item) -> String {
    let asked = match &it.occasion {
        Some(occasion) => rules::words::meaning(rules::words::OCCASIONS, occasion)
            .unwrap_or(occasion)
            .to_owned(),
        None => it.inspections.join(", "),
    };
    let mut told = format!("asked at: {asked}. {}", it.question);
    if let Some(except) = &it.except {
        told.push_str(&format!(" Left out: {except}."));
    }
    if !it.limits.is_empty() {
        told.push_str(&format!(" Held against: {}.", it.limits.join(", ")));
    }
    told
}

fn filing(it: &rules::Filing) -> String {
    let of = rules::words::meaning(rules::words::EVENTS, &it.when.of).unwrap_or(&it.when.of);
    let when = match (it.when.span, it.when.before_or_after) {
        (Some(span), rules::Side::Before) => format!("at least {span} before {of}"),
        (Some(span), rules::Side::After) => format!("within {span} after {of}"),
        (None, rules::Side::Before) => format!("before {of}"),
        (None, rules::Side::After) => format!("at once after {of}"),
    };
    let mut told = format!("{}: {when}", it.what);
    if !it.contents.is_empty() {
        told.push_str(&format!(". It holds: {}", it.contents.join("; ")));
    }
    if !it.signed_by.is_empty() {
        told.push_str(&format!(". Signed by {}", it.signed_by.join("; ")));
    }
    told
}
