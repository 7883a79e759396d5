//! `rule LIMIT --reading 5/32in`: a reading held against the law's limit without a part, by the rule or by what is
//! measured and under which circumstances.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::House;
use rules::Rulebook;
use serde_json::{Value, json};
use shop::book::{Book, Locomotive};
use shop::locomotive::checking_of;
use shop::verdict::{Answered, Checked, Fineness, LimitQuestion, Verdict, check_in};

use super::rule::Rule;
use super::{pair, rule_held, wrap};
use crate::{Answer, Context, Failure, words};

impl Rule {
    /// Whether it is a limit that is asked about, and not the rule's text.
    pub(super) fn asks_a_limit(&self, rules: &Rulebook) -> bool {
        let told = self.reading.is_some()
            || self.uncertainty.is_some()
            || self.engine.is_some()
            || self.rules.is_some()
            || !self.so.is_empty()
            || !self.facts.is_empty();
        let is_rule = self.id.as_deref().is_some_and(|id| rules.rule(id).is_ok());
        let is_quantity = || {
            self.id.as_deref().is_some_and(|id| {
                let versions = rules.rules().flat_map(|rule| &rule.versions);
                let mut of = versions.filter_map(|v| v.body.measures());
                of.any(|(quantity, _)| quantity == id)
            })
        };
        !self.list && (told || (!is_rule && is_quantity()))
    }

    /// Holds the reading.
    pub(super) fn hold(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let house = context.house();
        let on = self.day(context)?;
        let there = context.globals().book.as_ref().is_some_and(|b| b.is_file());
        let book = match &self.engine {
            None if !there => Book::default(),
            _ => context.book()?,
        };
        let engine = match &self.engine {
            Some(number) => Some(shop::locomotive::engine(&book, number)?.1),
            None => None,
        };
        let answered = self.answered(&book, rules, engine, on, house)?;
        Ok(Answer {
            text: text(
                &book,
                rules,
                &answered,
                self.id.as_deref().unwrap_or_default(),
                on,
            ),
            json: value(&book, rules, &answered, on),
            code: u8::from(answered.verdict != Verdict::Complies),
        })
    }

    /// The answer as values, for a page too.
    pub fn answered(
        &self,
        book: &Book,
        rules: &Rulebook,
        engine: Option<&Locomotive>,
        on: Date,
        house: House,
    ) -> Result<Answered, Failure> {
        let facts: BTreeMap<String, String> = self
            .facts
            .iter()
            .map(|typed| pair(typed, "a fact"))
            .collect::<Result<_, _>>()?;
        Ok(check_in(
            book,
            rules,
            LimitQuestion {
                of: self.id.as_deref().unwrap_or_default().trim(),
                jurisdiction: self.rules.as_deref(),
                told: &self.so,
                facts: &facts,
                reading: self.reading.as_deref(),
                uncertainty: self.uncertainty.as_deref(),
                engine,
                on,
                house,
            },
        )?)
    }

    /// The day asked about: the book's today, or the machine's in UTC where no book is named.
    fn day(&self, context: &mut Context) -> Result<Date, Failure> {
        if context.globals().book.as_ref().is_some_and(|b| b.is_file()) {
            return context.on();
        }
        context.on_without_book()
    }
}

fn text(book: &Book, rules: &Rulebook, answered: &Answered, of: &str, on: Date) -> String {
    let mut text = format!("{of}, by the rules of {}\n", words::day(on));
    let mut line = |what: &str, told: &str| {
        text.push_str(&format!("  {what:<13} {}\n", wrap(told, 16, 100)));
    };
    if let Some(reading) = &answered.reading {
        line("reading", reading);
        match &answered.uncertainty {
            Some(stated) => line("uncertainty", stated),
            None if answered
                .lines
                .iter()
                .any(|l| l.fineness == Fineness::NotStated) =>
            {
                line("uncertainty", words::rule::NOT_STATED);
            }
            None => {}
        }
    }
    for told in &answered.from_book {
        line("from the book", told);
    }
    for asks in &answered.open {
        line("tell", &words::rule::tell(asks));
    }
    for one in &answered.lines {
        line("limit", one.limit.as_deref().unwrap_or("not known"));
        line("of", &format!("{}, {}", one.subject, one.measured));
        line(
            "rule",
            &format!(
                "{}, version {}, {} ({})",
                one.ruling.rule, one.ruling.version, one.ruling.cite, one.ruling.mark
            ),
        );
        line("verdict", &verdict(&one.verdict));
        if let Some(left) = &one.left {
            line("left", left);
        }
        if one.fineness == Fineness::Within {
            line("beware", words::rule::WITHIN);
        }
        if one.grounds && matches!(one.verdict, Verdict::Fails(_)) {
            line("so", words::rule::GROUNDS);
        }
    }
    let used = answered.lines.iter();
    let used = used.map(|one| (one.ruling.rule.as_str(), one.ruling.version));
    if let Some(told) = rule_held::line(book, rules, used) {
        line("this shop", &told);
    }
    line("all in all", &verdict(&answered.verdict));
    text.push_str(&format!("{}\n", words::STANDING));
    text
}

/// The verdict in its fixed words, and by how much it fails.
fn verdict(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Fails(by) => format!("{}: {}", verdict.words(), by.join("; ")),
        other => other.words(),
    }
}

fn value(book: &Book, rules: &Rulebook, answered: &Answered, on: Date) -> Value {
    let needs = |verdict: &Verdict| match verdict {
        Verdict::CannotTell(needs) => json!(needs),
        _ => json!([]),
    };
    let word = |verdict: &Verdict| match verdict {
        Verdict::Complies => "complies",
        Verdict::Fails(_) => "fails",
        Verdict::CannotTell(_) => "cannot tell",
    };
    let by = |verdict: &Verdict| match verdict {
        Verdict::Fails(by) => json!(by),
        _ => json!([]),
    };
    let line = |one: &Checked| {
        json!({
            "rule": one.ruling.rule, "version": one.ruling.version, "section": one.ruling.cite.section,
            "edition": one.ruling.cite.edition, "mark": one.ruling.mark,
            "checked_by_this_shop": checking_of(book, rules, &one.ruling.rule, one.ruling.version).is_checked(), "subject": one.subject,
            "measured": one.measured, "limit": one.limit, "verdict": word(&one.verdict), "by": by(&one.verdict),
            "needs": needs(&one.verdict), "left": one.left, "grounds": one.grounds,
            "within_its_uncertainty": match one.fineness {
                Fineness::Within => json!(true),
                Fineness::Clear => json!(false),
                Fineness::NotStated | Fineness::None => Value::Null,
            },
        })
    };
    json!({
        "on": on.to_string(), "reading": answered.reading, "uncertainty": answered.uncertainty,
        "verdict": word(&answered.verdict), "needs": needs(&answered.verdict), "open": answered.open,
        "from_book": answered.from_book, "limits": answered.lines.iter().map(line).collect::<Vec<_>>(),
    })
}
