//! A verdict is computed: readings meet limits here, and only here.
//!
//! There are three words. *complies*: every limit on file was met by readings at every place.
//! *fails*: at least one was not. *cannot tell: needs ...*: something is missing, and missing never
//! helps. A verdict decides nothing; a named person does.

mod check;
mod figure;
mod number;
mod read;

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Fraction, House, Size, show};
use rules::{
    Beside, Body, Limit, LimitValue, Origin, Outcome, Rulebook, RulebookError, Ruling, words,
};

pub(crate) use check::gauge_of;
pub use check::{Answered, Checked, Fineness, LimitQuestion, check, check_in};
pub(crate) use figure::{Told, figure};
pub(crate) use number::measured;
use read::Read;

use crate::Refusal;
use crate::book::{
    Book, Family, Feature, FeatureKind, FeatureReading, Part, ReadingSet, RuleChoice, RulingRef,
    Worst,
};
use crate::locomotive::{Bound, Law, as_it_is, engine_of, family};

/// The computed answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Every limit on file is met.
    Complies,
    /// At least one is not; by how much, one line each.
    Fails(Vec<String>),
    /// Something is missing.
    CannotTell(Vec<String>),
}

impl Verdict {
    /// The verdict in its fixed words.
    pub fn words(&self) -> String {
        match self {
            Verdict::Complies => "complies".into(),
            Verdict::Fails(_) => "fails".into(),
            Verdict::CannotTell(needs) => format!("cannot tell: needs {}", needs.join("; ")),
        }
    }
}

/// One limit held against what was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What is limited.
    pub what: String,
    /// What was read: as it was written, and in the reader's unit where that is another.
    pub found: String,
    /// The limit: as the law or the shop wrote it, and in the reader's unit where that is another.
    pub limit: String,
    /// Whether it is law; our own limit if not, of the part or of a rule set of the shop's own.
    pub law: bool,
    /// The ruling, where a rule is known.
    pub ruling: Option<Ruling>,
    /// How it came out.
    pub verdict: Verdict,
    /// The feature or the difference, by its word; empty for a condition.
    pub of: String,
    /// The limit itself, where one was found in a rule.
    pub held: Option<Limit>,
}

/// All limits of a part held against a set of readings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judgement {
    /// One line a limit.
    pub lines: Vec<Line>,
    /// By the law: what decides whether the part may be returned.
    pub verdict: Verdict,
    /// By our own tighter limits.
    pub shop: Verdict,
}

impl Judgement {
    /// The rulings applied.
    pub fn rulings(&self) -> Vec<RulingRef> {
        let mut refs: Vec<_> = self
            .lines
            .iter()
            .filter_map(|line| line.ruling.as_ref())
            .map(RulingRef::from)
            .collect();
        refs.sort();
        refs.dedup();
        refs
    }

    /// The verdict by the law and by our own limits together.
    pub fn whole(&self) -> Verdict {
        worst(self.verdict.clone(), self.shop.clone())
    }
}

/// What is judged: a part's readings and the conditions that stand.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// The part.
    pub part: &'a Part,
    /// Readings, all as found or all as left.
    pub readings: &'a [FeatureReading],
    /// Conditions that stand, in the family's words.
    pub conditions: &'a [String],
    /// The day that chooses the rules.
    pub on: Date,
    /// The units of whoever reads the answer. They change its figures, never its word.
    pub house: House,
}

/// Holds every limit on file against a part: those of each rule set that binds her engine on the day, and our own.
/// Each is a line of its own, and a reading must meet all of them: the stricter binds.
///
/// The set an engine was added under must speak: where it has no limit for what was found, nobody can tell. A set
/// that binds beside it adds limits, and its silence adds nothing.
///
/// # Errors
/// Input: a rule named by the family is not on file for that day, a rule set of the engine's does not read, or a
/// reading does not.
pub fn judge(book: &Book, rules: &Rulebook, question: Question<'_>) -> Result<Judgement, Refusal> {
    judge_but(book, rules, question, &[])
}

/// The same of a part as it is now, by the newest reading of each of its sizes. `newest` are its sets, the newest first.
///
/// # Errors
/// As [`judge`].
pub fn judge_as_it_is(
    book: &Book,
    rules: &Rulebook,
    part: &Part,
    newest: &[&ReadingSet],
    (on, house): (Date, House),
) -> Result<Judgement, Refusal> {
    let now = as_it_is(family(book, &part.family)?, newest);
    let question = Question {
        part,
        readings: &now.readings,
        conditions: &[],
        on,
        house,
    };
    judge_but(book, rules, question, &now.outdated)
}

/// As [`judge`], without what the two sizes of an outdated pair leave between them.
fn judge_but(
    book: &Book,
    rules: &Rulebook,
    question: Question<'_>,
    outdated: &[String],
) -> Result<Judgement, Refusal> {
    let family = family(book, &question.part.family)?;
    let engine = engine_of(book, question.part.locomotive)?;
    let sets = Law::of(book, rules, engine).sets(question.on)?;
    let bench = Bench {
        book,
        rules,
        sets: &sets,
        family,
        question,
    };
    let mut lines = Vec::new();
    for condition in &family.conditions {
        if let Some(rule) = &condition.rule
            && question.conditions.contains(&condition.word)
        {
            bench.condition(rule, &condition.title, &mut lines)?;
        }
    }
    let of_size = |feature: &&Feature| feature.kind == FeatureKind::Size;
    for feature in family.features.iter().filter(of_size) {
        let read = bench.worst(feature, feature.worst)?;
        let size = Sized {
            name: &feature.name,
            title: &feature.title,
            rule: feature.rule.as_ref(),
            worst: feature.worst,
        };
        bench.size(size, &read, &mut lines)?;
    }
    for difference in &family.differences {
        let read = bench.clearance(difference, outdated.contains(&difference.name))?;
        let size = Sized {
            name: &difference.name,
            title: &difference.title,
            rule: difference.rule.as_ref(),
            worst: Worst::Largest,
        };
        bench.size(size, &read, &mut lines)?;
    }
    // The set that must not be silent; every other one only adds.
    let first = sets.iter().find(|bound| bound.origin.binds_as_law());
    let of_first = |held: &&Held| held.line.law && Some(held.set) == first.map(|b| b.set);
    let of_others = |held: &&Held| held.line.law && Some(held.set) != first.map(|b| b.set);
    let law = worst(
        together(lines.iter().filter(of_first).map(Held::verdict), || {
            no_limit(family)
        }),
        together(lines.iter().filter(of_others).map(Held::verdict), || {
            Verdict::Complies
        }),
    );
    let own = lines.iter().filter(|h| !h.line.law).map(Held::verdict);
    let shop = together(own, || Verdict::Complies);
    name_the_stricter(&mut lines);
    Ok(Judgement {
        lines: lines.into_iter().map(|held| held.line).collect(),
        verdict: law,
        shop,
    })
}

/// A line, with the rule set it comes from.
struct Held<'s> {
    /// Nothing for a limit of the part itself.
    set: &'s str,
    line: Line,
}

impl Held<'_> {
    fn verdict(&self) -> &Verdict {
        &self.line.verdict
    }

    fn by_shop(line: Line) -> Held<'static> {
        Held { set: "", line }
    }
}

/// A size that is limited: of a feature, or of what lies between two.
#[derive(Clone, Copy)]
struct Sized<'s> {
    name: &'s str,
    title: &'s str,
    rule: Option<&'s RuleChoice>,
    worst: Worst,
}

/// Where several rule sets limit one thing, says in its line which limit is the stricter.
fn name_the_stricter(lines: &mut [Held<'_>]) {
    let mut stricter = Vec::new();
    for (at, one) in lines.iter().enumerate() {
        let others = lines
            .iter()
            .filter(|o| o.line.what == one.line.what && o.set != one.set);
        let beside: Vec<Beside> = others
            .filter_map(|o| {
                Some(rules::stricter(
                    one.line.held.as_ref()?,
                    o.line.held.as_ref()?,
                ))
            })
            .collect();
        let binds = beside.contains(&Beside::Stricter);
        if binds
            && !beside
                .iter()
                .any(|b| matches!(b, Beside::Looser | Beside::Both))
        {
            stricter.push(at);
        }
    }
    for at in stricter {
        if let Some(held) = lines.get_mut(at) {
            held.line.limit.push_str(", the stricter");
        }
    }
}

/// Two verdicts that both hold.
fn worst(one: Verdict, other: Verdict) -> Verdict {
    match (one, other) {
        (Verdict::Fails(mut a), Verdict::Fails(b)) => {
            a.extend(b);
            Verdict::Fails(a)
        }
        (Verdict::Fails(by), _) | (_, Verdict::Fails(by)) => Verdict::Fails(by),
        (Verdict::CannotTell(mut a), Verdict::CannotTell(b)) => {
            a.extend(
                b.into_iter()
                    .filter(|need| !a.contains(need))
                    .collect::<Vec<_>>(),
            );
            Verdict::CannotTell(a)
        }
        (Verdict::CannotTell(needs), _) | (_, Verdict::CannotTell(needs)) => {
            Verdict::CannotTell(needs)
        }
        (Verdict::Complies, Verdict::Complies) => Verdict::Complies,
    }
}

/// Where a ruling stands, with the name of its set where it is not this program's rulebook.
fn cited(ruling: &Ruling) -> String {
    match ruling.origin {
        Origin::Law => ruling.cite.to_string(),
        other => format!("{}; {}, {}", ruling.cite, ruling.set, other.told()),
    }
}

fn no_limit(family: &Family) -> Verdict {
    Verdict::CannotTell(vec![format!(
        "a limit: no limit on file for what was found on this {}",
        family.family
    )])
}

fn together<'l>(all: impl Iterator<Item = &'l Verdict>, none: impl Fn() -> Verdict) -> Verdict {
    let (mut any, mut fails, mut needs) = (false, Vec::new(), Vec::new());
    for verdict in all {
        any = true;
        match verdict {
            Verdict::Complies => {}
            Verdict::Fails(by) => fails.extend(by.iter().cloned()),
            Verdict::CannotTell(missing) => needs.extend(missing.iter().cloned()),
        }
    }
    match (any, fails.is_empty(), needs.is_empty()) {
        (false, ..) => none(),
        (_, false, _) => Verdict::Fails(fails),
        (_, true, false) => Verdict::CannotTell(needs),
        (_, true, true) => Verdict::Complies,
    }
}

/// Whether a rule is of a set.
fn of(bound: &Bound<'_>, rule: &str) -> bool {
    rule.strip_prefix(bound.set)
        .is_some_and(|rest| rest.starts_with('.'))
}

struct Bench<'a> {
    book: &'a Book,
    rules: &'a Rulebook,
    /// The rule sets that bind the engine on the day, the one she was added under first.
    sets: &'a [Bound<'a>],
    family: &'a Family,
    question: Question<'a>,
}

impl<'a> Bench<'a> {
    /// A condition that stands, under each set that forbids it.
    fn condition(&self, rule: &str, title: &str, lines: &mut Vec<Held<'a>>) -> Result<(), Refusal> {
        let quantity = self.quantity(rule);
        for bound in self.sets {
            if of(bound, rule) {
                let ruling = bound.rules.ruling(rule, self.question.on)?;
                lines.push(self.condition_under(bound, ruling, title)?);
                continue;
            }
            let asked = match &quantity {
                Some(quantity) => self.asked(bound, quantity, &[])?,
                None => None,
            };
            for ruling in asked.map(|asked| asked.rulings).unwrap_or_default() {
                lines.push(self.condition_under(bound, ruling, title)?);
            }
        }
        Ok(())
    }

    fn condition_under(
        &self,
        bound: &Bound<'a>,
        ruling: Ruling,
        title: &str,
    ) -> Result<Held<'a>, Refusal> {
        let limit = match &ruling.body {
            Body::Limit(limit) => limit.clone(),
            _ => {
                return Err(Refusal::input(format!(
                    "The rule `{}` is not a limit.",
                    ruling.rule
                )));
            }
        };
        let verdict = match limit.judge_number(Fraction::from_integer(1)) {
            Outcome::Passes => Verdict::Complies,
            Outcome::Fails { .. } => Verdict::Fails(vec![format!("{title} ({})", cited(&ruling))]),
            Outcome::CannotTell { needs } => Verdict::CannotTell(vec![needs]),
        };
        let line = Line {
            what: limit.subject.clone(),
            found: title.into(),
            limit: self.limit_of(&limit, &ruling),
            law: ruling.origin.binds_as_law(),
            ruling: Some(ruling),
            verdict,
            of: String::new(),
            held: Some(limit),
        };
        Ok(Held {
            set: bound.set,
            line,
        })
    }

    /// The limit, with the name of the set that gives it where it is not this program's rulebook.
    fn limit_of(&self, limit: &Limit, ruling: &Ruling) -> String {
        match ruling.origin {
            Origin::Law => self.limit(limit),
            other => format!("{} ({}, {})", self.limit(limit), ruling.set, other.told()),
        }
    }

    /// The limit as the law writes it; after it, in brackets, what that is in the reader's unit.
    fn limit(&self, limit: &Limit) -> String {
        let sizes = match limit.value {
            LimitValue::Size(size) => vec![size],
            LimitValue::SizeRange(least, most) => vec![least, most],
            _ => return limit.words(),
        };
        // "53 in to 53 3/8 in": both ends are in the unit of the last.
        let last = limit.written.rsplit(" to ").next().unwrap_or_default();
        if show::written_in(last) == Some(self.question.house) {
            return limit.words();
        }
        let sizes: Vec<_> = sizes
            .into_iter()
            .map(|size| show::size(size, self.question.house))
            .collect();
        format!("{} ({})", limit.words(), sizes.join(" to "))
    }

    /// A size under every limit of the law and under our own.
    fn size(&self, size: Sized<'_>, read: &Read, lines: &mut Vec<Held<'a>>) -> Result<(), Refusal> {
        let before = lines.len();
        self.by_sets(size, read, lines)?;
        let told = self.question.part.features.get(size.name);
        if let Some(limit) = told.and_then(|told| told.shop_limit.as_ref()) {
            let line = self.by_shop(size.title, limit, size.worst, read)?;
            lines.push(Held::by_shop(line));
        }
        for held in lines.iter_mut().skip(before) {
            held.line.of = size.name.to_string();
        }
        Ok(())
    }

    /// A size under every set that limits it. The family names a rule of one set; in another set the limits on the
    /// same quantity are found, under the circumstances that rule names and those the part's facts tell.
    fn by_sets(
        &self,
        Sized {
            name, title, rule, ..
        }: Sized<'_>,
        read: &Read,
        lines: &mut Vec<Held<'a>>,
    ) -> Result<(), Refusal> {
        let (named, need) = match rule {
            None => (Vec::new(), None),
            Some(RuleChoice::One(rule)) => (vec![rule.clone()], None),
            Some(RuleChoice::ByFact(facts)) => match self.by_fact(facts) {
                Ok(rule) => (vec![rule], None),
                Err(need) => {
                    let all = facts.values().flat_map(|choices| choices.values().cloned());
                    (all.collect(), Some(need))
                }
            },
        };
        for bound in self.sets {
            let held = |line: Line| Held {
                set: bound.set,
                line,
            };
            let own: Vec<_> = named.iter().filter(|rule| of(bound, rule)).collect();
            if let (Some(need), false) = (&need, own.is_empty()) {
                lines.push(held(self.unknown(title, read, vec![need.clone()])));
                continue;
            }
            if let Some(rule) = own.first() {
                let ruling = bound.rules.ruling(rule, self.question.on)?;
                lines.push(held(self.by_ruling(title, ruling, read)?));
                continue;
            }
            let mut quantities: Vec<String> = vec![self.own_word(name)];
            for quantity in named.iter().filter_map(|rule| self.quantity(rule)) {
                if !quantities.contains(&quantity) {
                    quantities.push(quantity);
                }
            }
            let told = self.told(if need.is_some() { &[] } else { &named });
            for quantity in quantities {
                let Some(asked) = self.asked(bound, &quantity, &told)? else {
                    continue;
                };
                // While it is not told which of several things it is, no limit on one of them can be held.
                let unsure = need.clone().filter(|_| quantity != self.own_word(name));
                if let Some(need) = unsure {
                    lines.push(held(self.unknown_under(bound, title, read, need)));
                    continue;
                }
                for ruling in asked.rulings {
                    lines.push(held(self.by_ruling(title, ruling, read)?));
                }
                if !asked.needs.is_empty() {
                    let need = asked.needs.join("; ");
                    lines.push(held(self.unknown_under(bound, title, read, need)));
                }
            }
        }
        Ok(())
    }

    /// The quantity by which a set may limit what is measured on a part of this family and on no other: the
    /// family's word and the feature's, as `check-valve-seat-land`.
    fn own_word(&self, name: &str) -> String {
        format!("{}-{name}", self.family.family)
    }

    /// What a rule of this program's rulebook limits.
    fn quantity(&self, rule: &str) -> Option<String> {
        let rule = self.rules.rule(rule).ok()?;
        let (quantity, _) = rule.versions.last()?.body.measures()?;
        Some(quantity.to_string())
    }

    /// The circumstances that are told: those of the rule the family names, and the part's facts that are such words.
    fn told(&self, named: &[String]) -> Vec<String> {
        let mut told: Vec<String> = Vec::new();
        let of_rule = named.iter().filter_map(|rule| {
            let version = self.rules.rule(rule).ok()?.versions.last()?;
            Some(version.body.measures()?.1.to_vec())
        });
        let of_part = self.question.part.facts.values().cloned();
        for word in of_rule.flatten().chain(of_part) {
            let Some((question, _)) = words::question(&word) else {
                continue;
            };
            let answered = |w: &String| {
                words::question(w).is_some_and(|(asked, _)| asked.asks == question.asks)
            };
            if !told.iter().any(answered) {
                told.push(word);
            }
        }
        told
    }

    /// The limits of a set on a quantity; nothing where it has none.
    fn asked(
        &self,
        bound: &Bound<'a>,
        quantity: &str,
        told: &[String],
    ) -> Result<Option<rules::Asked>, Refusal> {
        let told: Vec<&str> = told.iter().map(String::as_str).collect();
        match bound.limits_if_any(quantity, &told, self.question.on) {
            // A set of which no rule is left is silent too.
            Err(RulebookError::Unknown { .. }) => Ok(None),
            other => Ok(other?),
        }
    }

    /// A size under one ruling.
    fn by_ruling(&self, title: &str, ruling: Ruling, read: &Read) -> Result<Line, Refusal> {
        let limit = match self.figure(&ruling.body) {
            Ok(Some(limit)) => limit,
            Ok(None) => {
                return Err(Refusal::input(format!(
                    "The rule `{}` is not a limit.",
                    ruling.rule
                )));
            }
            Err(needs) => {
                let mut line = self.unknown(title, read, needs);
                line.law = ruling.origin.binds_as_law();
                line.ruling = Some(ruling);
                return Ok(line);
            }
        };
        // Both ends are held against it: a limit may have two sides. What one place fails, no other
        // place can mend, so a place not read does not hide a failure.
        let house = self.question.house;
        let (mut found, mut verdict) = (read.words(house), read.complete());
        for end in read.ends.iter().flatten() {
            let failed = match limit.judge(end.size) {
                Outcome::Passes => continue,
                Outcome::Fails { by } if by == Size::ZERO => Verdict::Fails(vec![format!(
                    "{title}: at the limit, which already fails ({})",
                    cited(&ruling)
                )]),
                Outcome::Fails { by } => Verdict::Fails(vec![format!(
                    "{title}: {} past the limit ({})",
                    show::size(by, house),
                    cited(&ruling)
                )]),
                Outcome::CannotTell { needs } => Verdict::CannotTell(vec![needs]),
            };
            (found, verdict) = (end.words(house), failed);
            break;
        }
        Ok(Line {
            what: title.into(),
            found,
            limit: self.limit_of(&limit, &ruling),
            law: ruling.origin.binds_as_law(),
            ruling: Some(ruling),
            verdict,
            of: String::new(),
            held: Some(limit),
        })
    }

    fn by_fact(
        &self,
        facts: &BTreeMap<String, BTreeMap<String, String>>,
    ) -> Result<String, String> {
        let (fact, choices) = facts.first_key_value().ok_or("which rule applies")?;
        let told = self.question.part.facts.get(fact);
        let told = told.ok_or_else(|| format!("which {fact} it is, which decides the limit"))?;
        choices
            .get(told)
            .cloned()
            .ok_or_else(|| format!("a rule for {fact} `{told}`"))
    }

    /// The figure of a limit of any kind, for this engine and part.
    fn figure(&self, body: &Body) -> Result<Option<Limit>, Vec<String>> {
        let told = Told {
            facts: &self.question.part.facts,
            engine: self.book.locomotives.get(&self.question.part.locomotive),
        };
        figure(body, told)
    }

    /// Our own limit, where the shop has set one.
    fn by_shop(
        &self,
        title: &str,
        limit: &str,
        worst: Worst,
        read: &Read,
    ) -> Result<Line, Refusal> {
        let kept = Size::parse(limit)
            .map_err(|e| Refusal::input(format!("The shop limit of the {title}: {e}")))?;
        let house = self.question.house;
        let limit = if show::written_in(limit) == Some(house) {
            limit.to_string()
        } else {
            show::size_as_written(limit, kept, house)
        };
        let (words, past): (_, fn(Size, Size) -> bool) = match worst {
            Worst::Largest => (format!("at most {limit}"), |size, kept| size > kept),
            Worst::Smallest => (format!("at least {limit}"), |size, kept| size < kept),
        };
        let governing = read.ends.as_ref().map(|[governing, _]| governing);
        let (found, verdict) = match governing.filter(|end| past(end.size, kept)) {
            Some(end) => (
                end.words(house),
                Verdict::Fails(vec![format!("{title}: past our own shop limit, {words}")]),
            ),
            None => (read.words(house), read.complete()),
        };
        Ok(Line {
            what: title.into(),
            found,
            limit: format!("{words} (shop limit)"),
            law: false,
            ruling: None,
            verdict,
            of: String::new(),
            held: None,
        })
    }

    /// The same under a set that binds beside the first one.
    fn unknown_under(&self, bound: &Bound<'a>, title: &str, read: &Read, need: String) -> Line {
        let mut line = self.unknown(title, read, vec![need]);
        line.law = bound.origin.binds_as_law();
        if bound.origin != Origin::Law {
            line.limit = format!("not known ({})", bound.told());
        }
        line
    }

    /// A line whose limit cannot be told; readings that are missing too are named with it.
    fn unknown(&self, title: &str, read: &Read, mut needs: Vec<String>) -> Line {
        needs.extend(read.missing.iter().cloned());
        Line {
            what: title.into(),
            found: read.words(self.question.house),
            limit: "not known".into(),
            law: true,
            ruling: None,
            verdict: Verdict::CannotTell(needs),
            of: String::new(),
            held: None,
        }
    }
}
