//! A reading held against the law's limit straight away, without a part: by the rule, or by what is measured and
//! under which circumstances. Exactly; with what is left, and whether the reading is fine enough to tell.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Fraction, House, Size, show};
use num_traits::CheckedSub as _;
use rules::{Compare, Limit, LimitValue, Outcome, Rulebook, RulebookError, Ruling};

use super::figure::{Told, figure};
use super::number::{is_counted, measured, said};
use super::{Verdict, together};
use crate::Refusal;
use crate::book::{Book, Locomotive};
use crate::locomotive::Law;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct LimitQuestion<'a> {
    /// The rule's id, or what is measured: `side-rod-bore-over-pin`.
    pub of: &'a str,
    /// The rulebook, where `of` is a quantity; the engine's if left out.
    pub jurisdiction: Option<&'a str>,
    /// Circumstances that are so, in the rulebook's words: `main-pin`.
    pub told: &'a [String],
    /// Facts that a table or formula hangs on, as written with their units: `axle-load` is `36500 lb`.
    pub facts: &'a BTreeMap<String, String>,
    /// The reading as written, with its unit; `±` and its uncertainty may follow it. Nothing asks for the limit.
    pub reading: Option<&'a str>,
    /// The uncertainty of the reading or of the instrument, as written, where it is not in the reading.
    pub uncertainty: Option<&'a str>,
    /// The engine, whose gauge, axle load and boiler pressure are then known.
    pub engine: Option<&'a Locomotive>,
    /// The day that chooses the rules.
    pub on: Date,
    /// The units of whoever reads the answer. They change its figures, never its word.
    pub house: House,
}

/// How a reading lies to a limit for the fineness with which it was taken. It changes no verdict.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fineness {
    /// Farther from the limit than its uncertainty.
    Clear,
    /// Within its uncertainty of the limit: a finer instrument is needed to tell.
    Within,
    /// Nobody stated an uncertainty, and none is assumed.
    NotStated,
    /// Counted, or not held against a figure.
    None,
}

/// One limit and how the reading stands to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// The ruling.
    pub ruling: Ruling,
    /// What is limited, as the rule says it.
    pub subject: String,
    /// How and where it is measured.
    pub measured: String,
    /// The limit in words; nothing where it cannot be told.
    pub limit: Option<String>,
    /// How it came out.
    pub verdict: Verdict,
    /// How much is left to the limit, where the reading complies.
    pub left: Option<String>,
    /// Whether the reading is fine enough.
    pub fineness: Fineness,
    /// Whether a reading outside it keeps an engine out of service.
    pub grounds: bool,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// The reading, as written and in the reader's unit.
    pub reading: Option<String>,
    /// The uncertainty, as stated.
    pub uncertainty: Option<String>,
    /// One line a limit.
    pub lines: Vec<Checked>,
    /// Circumstances that must be told before the other limits on this hold or fall away.
    pub open: Vec<String>,
    /// What the book told of the engine.
    pub from_book: Vec<String>,
    /// By all of them.
    pub verdict: Verdict,
}

/// Holds a reading against the limits on something.
///
/// # Errors
/// Input: no such rule or quantity, a rule that is no limit, a circumstance no rule knows or that goes against
/// another, a reading or an uncertainty that does not read.
pub fn check(rules: &Rulebook, question: LimitQuestion<'_>) -> Result<Answered, Refusal> {
    check_in(&Book::default(), rules, question)
}

/// The same with the sets of rules that a book holds: an engine's limits are those of every set that binds her, and
/// the reading must meet each.
///
/// # Errors
/// As [`check`]; or a rule set of the engine's is not in the book or does not read.
pub fn check_in(
    book: &Book,
    rules: &Rulebook,
    question: LimitQuestion<'_>,
) -> Result<Answered, Refusal> {
    let mut told: Vec<String> = question.told.to_vec();
    let mut from_book = Vec::new();
    if let Some(engine) = question.engine {
        let gauge = gauge_of(engine.gauge);
        let asks = rules::words::question(gauge).map(|(question, _)| question.asks);
        let open = |word: &String| rules::words::question(word).map(|(q, _)| q.asks) != asks;
        if told.iter().all(open) {
            told.push(gauge.to_string());
            from_book.push(format!(
                "No. {} is of {}",
                engine.number,
                gauge.replace('-', " ")
            ));
        }
    }
    let (rulings, open) = rulings(book, rules, &question, &told)?;
    let (text, stated) = split(question.reading, question.uncertainty)?;
    let bench = Bench {
        question,
        text,
        stated,
    };
    let mut lines = Vec::new();
    for ruling in rulings {
        lines.push(bench.line(ruling)?);
    }
    let verdict = match (bench.text, lines.is_empty(), open.is_empty()) {
        (None, ..) => {
            let needs = open.iter().cloned().chain(["a reading".to_string()]);
            Verdict::CannotTell(needs.collect())
        }
        (_, true, true) => Verdict::CannotTell(vec![format!(
            "a limit: no limit on file for {} under these circumstances",
            question.of
        )]),
        _ => by_all(&lines, &open),
    };
    let reading = bench.text.map(|text| match Size::parse(text) {
        Ok(size) => show::size_as_written(text, size, question.house),
        Err(_) => text.to_string(),
    });
    Ok(Answered {
        reading,
        uncertainty: bench.stated.map(str::to_string),
        lines,
        open,
        from_book,
        verdict,
    })
}

/// The gauge of an engine as the rules ask for it. Standard is 56 1/2 in; what is wider is none of the two.
pub(crate) fn gauge_of(gauge: Size) -> &'static str {
    let standard = Fraction::new(113, 2);
    if gauge.inches() < standard {
        "narrow-gauge"
    } else {
        "standard-gauge"
    }
}

/// The rulings asked about, and the circumstances still open.
fn rulings(
    book: &Book,
    rules: &Rulebook,
    question: &LimitQuestion<'_>,
    told: &[String],
) -> Result<(Vec<Ruling>, Vec<String>), Refusal> {
    let words: Vec<&str> = told.iter().map(String::as_str).collect();
    let of_set = question.of.split_once('.').map(|(set, _)| set);
    let whose = match of_set.and_then(|set| set_in(book, rules, set, question.on)) {
        Some(own) => own,
        None => rules,
    };
    if let Ok(rule) = whose.rule(question.of) {
        let ruling = rule.ruling(question.on)?;
        let Some((quantity, when)) = ruling.body.measures() else {
            return Err(Refusal::input(format!(
                "`{}` is no limit, so no reading can be held against it: it is of the kind {}.",
                question.of,
                ruling.body.kind().word()
            )));
        };
        // The words are checked against each other and against the rule's own.
        let all: Vec<&str> = words
            .iter()
            .copied()
            .chain(when.iter().map(String::as_str))
            .collect();
        whose.limits(&rule.jurisdiction, quantity, &all, question.on)?;
        return Ok((vec![ruling], Vec::new()));
    }
    let found = |asked: rules::Asked| {
        let open = asked.needs.iter().map(|need| (*need).to_string()).collect();
        Ok((asked.rulings, open))
    };
    let jurisdictions = match (question.jurisdiction, question.engine) {
        (Some(told), _) => match set_in(book, rules, told, question.on) {
            Some(own) => return found(own.limits(told, question.of, &words, question.on)?),
            None => vec![told],
        },
        (None, Some(engine)) => {
            let law = Law::of(book, rules, engine);
            return found(law.limits(question.of, &words, question.on)?);
        }
        (None, None) => rules
            .jurisdictions()
            .into_iter()
            .filter(|jurisdiction| has(rules, jurisdiction, question.of))
            .collect(),
    };
    match jurisdictions.as_slice() {
        [] => {
            let near = rules.rule(question.of).map(|_| ());
            Err(Refusal::input(format!(
                "`{}` is neither a rule nor a thing that a limit is on{}.",
                question.of,
                near_quantities(rules, question.of, near)
            )))
        }
        [one] => found(rules.limits(one, question.of, &words, question.on)?),
        several => Err(Refusal::input(format!(
            "Limits on `{}` are on file in {}: say which rulebook, or which engine.",
            question.of,
            several.join(" and ")
        ))),
    }
}

/// The rules of a set that the shop wrote, as they hold on a day; nothing if the book has no such set then.
fn set_in<'b>(book: &'b Book, rules: &Rulebook, set: &str, on: Date) -> Option<&'b Rulebook> {
    let (_, edition) = book.rule_sets.get(set)?.on(on)?;
    edition.rules(rules).ok().map(|read| &read.rules)
}

/// Whether a rulebook has a limit on a quantity.
fn has(rules: &Rulebook, jurisdiction: &str, quantity: &str) -> bool {
    let mut versions = rules
        .in_jurisdiction(jurisdiction)
        .flat_map(|rule| &rule.versions);
    versions.any(|version| {
        version
            .body
            .measures()
            .is_some_and(|(of, _)| of == quantity)
    })
}

/// What may have been meant, after a comma.
fn near_quantities(rules: &Rulebook, asked: &str, near: Result<(), RulebookError>) -> String {
    let mut like: Vec<String> = Vec::new();
    for jurisdiction in rules.jurisdictions() {
        let unknown = rules.limits(jurisdiction, asked, &[], Date::MAX);
        if let Err(RulebookError::Unknown { near, .. }) = unknown {
            like.extend(near);
        }
    }
    if let Err(RulebookError::Unknown { near, .. }) = near {
        like.extend(near);
    }
    like.sort();
    like.dedup();
    if like.is_empty() {
        "; `outshop rule --list` lists the rules".to_string()
    } else {
        format!("; did you mean {}?", like.join(", or "))
    }
}

/// The reading and the uncertainty that stands in it or beside it.
fn split<'a>(
    reading: Option<&'a str>,
    beside: Option<&'a str>,
) -> Result<(Option<&'a str>, Option<&'a str>), Refusal> {
    let Some(text) = reading.map(str::trim).filter(|text| !text.is_empty()) else {
        return match beside.map(str::trim).filter(|text| !text.is_empty()) {
            None => Ok((None, None)),
            Some(_) => Err(Refusal::input(
                "An uncertainty was given and no reading: a reading such as 5/32 in was expected.",
            )),
        };
    };
    let marks = ["±", "+/-", "+-"];
    let inside = marks.iter().find_map(|mark| text.split_once(mark));
    let beside = beside.map(str::trim).filter(|text| !text.is_empty());
    match (inside, beside) {
        (Some(_), Some(_)) => Err(Refusal::input(format!(
            "`{text}` carries an uncertainty and another one was given: one was expected."
        ))),
        (Some((text, within)), None) => Ok((Some(text.trim()), Some(within.trim()))),
        (None, beside) => Ok((Some(text), beside)),
    }
}

/// The verdict of all limits; one that cannot be chosen yet may still be the stricter.
fn by_all(lines: &[Checked], open: &[String]) -> Verdict {
    let chosen = together(lines.iter().map(|line| &line.verdict), || Verdict::Complies);
    match (chosen, open.is_empty()) {
        (fails @ Verdict::Fails(_), _) => fails,
        (verdict, true) => verdict,
        (Verdict::CannotTell(mut needs), false) => {
            needs.extend(open.iter().cloned());
            Verdict::CannotTell(needs)
        }
        (Verdict::Complies, false) => Verdict::CannotTell(open.to_vec()),
    }
}

struct Bench<'a> {
    question: LimitQuestion<'a>,
    text: Option<&'a str>,
    stated: Option<&'a str>,
}

impl Bench<'_> {
    fn line(&self, ruling: Ruling) -> Result<Checked, Refusal> {
        let told = Told {
            facts: self.question.facts,
            engine: self.question.engine,
        };
        let limit = match figure(&ruling.body, told) {
            Ok(Some(limit)) => Ok(limit),
            Ok(None) => {
                return Err(Refusal::input(format!(
                    "The rule `{}` is not a limit.",
                    ruling.rule
                )));
            }
            Err(needs) => Err(needs),
        };
        let (subject, measured, grounds) = of_body(&ruling.body);
        let mut line = Checked {
            subject,
            measured,
            grounds,
            limit: None,
            verdict: Verdict::CannotTell(Vec::new()),
            left: None,
            fineness: Fineness::None,
            ruling,
        };
        match limit {
            Err(needs) => line.verdict = Verdict::CannotTell(needs),
            Ok(limit) => {
                line.limit = Some(limit.words());
                match self.text {
                    None => line.verdict = Verdict::CannotTell(vec!["a reading".into()]),
                    Some(text) => self.hold(text, &limit, &mut line)?,
                }
            }
        }
        Ok(line)
    }

    fn hold(&self, text: &str, limit: &Limit, line: &mut Checked) -> Result<(), Refusal> {
        let wrong = |e: String| Refusal::input(format!("The reading: {e}."));
        if limit.unit == "in" {
            let size = Size::parse(text).map_err(|e| wrong(e.to_string()))?;
            let stated = self.stated.map(|text| self.size(text)).transpose()?;
            let (edges, house) = (sizes(limit), self.question.house);
            let far = |edge: &Size| size.checked_sub(*edge).map(Size::abs);
            let nearest = edges.iter().filter_map(far).min();
            line.fineness = fineness(nearest, stated);
            line.verdict = self.verdict(limit, limit.judge(size), line, |by| {
                (by == Size::ZERO, show::size(by, house))
            });
            if line.verdict == Verdict::Complies {
                line.left = nearest.map(|left| show::size(left, house));
            }
        } else {
            let unit = limit.unit.as_str();
            let number = measured(text, unit, self.question.house).map_err(wrong)?;
            let edges = numbers(limit);
            let far = |edge: &Fraction| {
                let apart = number.checked_sub(edge)?;
                Some(if apart < Fraction::from_integer(0) {
                    -apart
                } else {
                    apart
                })
            };
            let nearest = edges.iter().filter_map(far).min();
            if !is_counted(unit) {
                let stated = self
                    .stated
                    .map(|text| self.number(text, unit))
                    .transpose()?;
                line.fineness = fineness(nearest, stated);
            }
            line.verdict = self.verdict(limit, limit.judge_number(number), line, |by| {
                (by == Fraction::from_integer(0), said(by, unit))
            });
            if line.verdict == Verdict::Complies {
                line.left = nearest.map(|left| said(left, unit));
            }
        }
        if limit.compare == Compare::Set {
            // At a figure to be used as it stands nothing is left.
            line.left = None;
        }
        Ok(())
    }

    fn verdict<T>(
        &self,
        limit: &Limit,
        outcome: Outcome<T>,
        line: &Checked,
        told: impl Fn(T) -> (bool, String),
    ) -> Verdict {
        match outcome {
            Outcome::Passes => Verdict::Complies,
            Outcome::CannotTell { needs } => Verdict::CannotTell(vec![needs]),
            Outcome::Fails { .. } if limit.together_with.is_some() => {
                let other = limit.together_with.as_deref().unwrap_or_default();
                Verdict::CannotTell(vec![format!(
                    "the reading for `{other}`: this one is past its limit, and only both together condemn"
                )])
            }
            Outcome::Fails { by } => {
                let cite = super::cited(&line.ruling);
                Verdict::Fails(vec![match told(by) {
                    (true, _) => {
                        format!(
                            "{}: at the limit, which already fails ({cite})",
                            line.subject
                        )
                    }
                    (false, by) => format!("{}: {by} past the limit ({cite})", line.subject),
                }])
            }
        }
    }

    fn size(&self, text: &str) -> Result<Size, Refusal> {
        let size = Size::parse(text)
            .map_err(|e| Refusal::input(format!("The uncertainty of the reading: {e}.")))?;
        if size <= Size::ZERO {
            return Err(not_above_zero(text));
        }
        Ok(size)
    }

    fn number(&self, text: &str, unit: &str) -> Result<Fraction, Refusal> {
        let number = measured(text, unit, self.question.house)
            .map_err(|e| Refusal::input(format!("The uncertainty of the reading: {e}.")))?;
        if number <= Fraction::from_integer(0) {
            return Err(not_above_zero(text));
        }
        Ok(number)
    }
}

fn not_above_zero(text: &str) -> Refusal {
    Refusal::input(format!(
        "The uncertainty of the reading, `{text}`, is not above zero: nothing that is measured is without one. Leave it \
         out where it is not known."
    ))
}

/// Whether the nearest edge of a limit lies within an uncertainty.
fn fineness<T: Ord>(nearest: Option<T>, stated: Option<T>) -> Fineness {
    match (nearest, stated) {
        (None, _) => Fineness::None,
        (Some(_), None) => Fineness::NotStated,
        (Some(nearest), Some(stated)) if nearest <= stated => Fineness::Within,
        (Some(_), Some(_)) => Fineness::Clear,
    }
}

fn sizes(limit: &Limit) -> Vec<Size> {
    match limit.value {
        LimitValue::Size(value) => vec![value],
        LimitValue::SizeRange(least, most) => vec![least, most],
        _ => Vec::new(),
    }
}

fn numbers(limit: &Limit) -> Vec<Fraction> {
    match limit.value {
        LimitValue::Number(value) => vec![value],
        LimitValue::NumberRange(least, most) => vec![least, most],
        _ => Vec::new(),
    }
}

/// What is limited, how it is measured, and whether it grounds her.
fn of_body(body: &rules::Body) -> (String, String, bool) {
    use rules::Body;
    match body {
        Body::Limit(it) => (it.subject.clone(), it.measured.clone(), it.grounds),
        Body::LimitTable(it) => (it.subject.clone(), it.measured.clone(), it.grounds),
        Body::LimitFormula(it) => (it.subject.clone(), it.measured.clone(), it.grounds),
        _ => (String::new(), String::new(), false),
    }
}
