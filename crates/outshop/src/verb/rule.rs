//! `rule`: a rule as the rulebook has it, with its citation and the mark of how it was read.

use clap::Args;
use serde::Deserialize;
use serde_json::json;

use super::wrap;
use crate::{Answer, Context, Failure, words};

/// A rule, its versions, its citation.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// The rule's id, such as us-steam.clock.31; or what a limit is on, such as side-rod-bore-over-pin.
    #[arg(required_unless_present = "list")]
    pub id: Option<String>,
    /// List every rule, or those whose id begins so.
    #[arg(long)]
    #[serde(default)]
    pub list: bool,
    /// Hold a reading against the limit: 5/32in, or 5/32in ± .001in with its uncertainty.
    #[arg(long, value_name = "READING", conflicts_with = "list")]
    pub reading: Option<String>,
    /// The uncertainty of the reading or of the instrument, where it is known: .001in.
    #[arg(long, value_name = "±", requires = "reading")]
    pub uncertainty: Option<String>,
    /// A circumstance that is so, such as main-pin. May be given more than once.
    #[arg(long, value_name = "WORD", conflicts_with = "list")]
    #[serde(default)]
    pub so: Vec<String>,
    /// A fact that a table or a formula hangs on, with its unit: axle-load=36500lb. May be given more than once.
    #[arg(long = "fact", value_name = "NAME=VALUE", conflicts_with = "list")]
    #[serde(default)]
    pub facts: Vec<String>,
    /// The engine, whose gauge, axle load and boiler pressure the book knows.
    #[arg(long, value_name = "NUMBER", conflicts_with = "list")]
    pub engine: Option<String>,
    /// The rulebook, where more than one has a limit on it: us-steam.
    #[arg(long, value_name = "RULEBOOK", conflicts_with = "list")]
    pub rules: Option<String>,
}

impl Rule {
    /// Tells.
    ///
    /// # Errors
    /// If there is no such rule.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let book = context.rules()?;
        if self.asks_a_limit(book) {
            return self.hold(context);
        }
        let Some(id) = self.id.as_deref().filter(|_| !self.list) else {
            let begins = self.id.as_deref().unwrap_or_default();
            let listed: Vec<_> = book.rules().filter(|r| r.id.starts_with(begins)).collect();
            let text: String = listed
                .iter()
                .map(|r| format!("{:<44} {}\n", r.id, r.title))
                .collect();
            let list: Vec<_> = listed
                .iter()
                .map(|r| json!({ "rule": r.id, "title": r.title, "kind": r.kind.word() }))
                .collect();
            return Ok(Answer::done(text, json!(list)));
        };
        let rule = book.rule(id)?;
        let mut text = format!(
            "{}: {}\n  rulebook {}, kind {}\n",
            rule.id,
            rule.title,
            rule.jurisdiction,
            rule.kind.word()
        );
        let mut versions = Vec::new();
        for version in &rule.versions {
            let until = version
                .until
                .map_or("still in force, as far as this book knows".into(), |d| {
                    format!("through {d}")
                });
            let source = book
                .sources()
                .get(&version.cite.source)
                .map_or(version.cite.source.clone(), |s| s.title.clone());
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
            ] {
                text.push_str(&format!("    {what:<13} {}\n", wrap(&told, 18, 100)));
            }
            versions.push(json!({
                "version": version.number, "in_force": version.in_force.to_string(), "until": version.until.map(|d| d.to_string()),
                "section": version.cite.section, "source": source, "edition": version.cite.edition, "mark": version.mark,
                "reading": version.reading, "says": said(&version.body),
                "cases": version.cases().iter().map(|c| json!({ "of": c.of, "reading": c.reading, "verdict": c.verdict() })).collect::<Vec<_>>(),
                "checked": { "on": version.checked.on.to_string(), "by": version.checked.by },
            }));
        }
        text.push_str(&format!("{}\n", words::STANDING));
        let value = json!({ "rule": rule.id, "title": rule.title, "rulebook": rule.jurisdiction, "kind": rule.kind.word(), "versions": versions });
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
