//! A verdict is computed: readings meet limits here, and only here.
//!
//! There are three words. *complies*: every limit on file was met by readings at every place.
//! *fails*: at least one was not. *cannot tell: needs ...*: something is missing, and missing never
//! helps. A verdict decides nothing; a named person does.

mod check;
mod figure;
mod number;

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Fraction, House, Size, show};
use rules::{Body, Limit, LimitValue, Outcome, Rulebook, Ruling};

pub use check::{Answered, Checked, Fineness, LimitQuestion, check};
use figure::{Told, figure};

use crate::Refusal;
use crate::book::{
    Book, Family, Feature, FeatureKind, FeatureReading, Part, RuleChoice, RulingRef, Worst,
};
use crate::locomotive::{family, value};

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
    /// Whether it is law; our own shop limit if not.
    pub law: bool,
    /// The ruling, where the law is known.
    pub ruling: Option<Ruling>,
    /// How it came out.
    pub verdict: Verdict,
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
            .map(|r| RulingRef {
                rule: r.rule.clone(),
                version: r.version,
            })
            .collect();
        refs.sort();
        refs.dedup();
        refs
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

/// Holds every limit on file against a part.
///
/// # Errors
/// Input: a rule named by the family is not on file for that day, or a reading does not read.
pub fn judge(book: &Book, rules: &Rulebook, question: Question<'_>) -> Result<Judgement, Refusal> {
    let family = family(book, &question.part.family)?;
    let bench = Bench {
        book,
        rules,
        family: &family,
        question,
    };
    let mut lines = Vec::new();
    for condition in &family.conditions {
        if let Some(rule) = &condition.rule
            && question.conditions.contains(&condition.word)
        {
            lines.push(bench.condition(rule, &condition.title)?);
        }
    }
    for feature in &family.features {
        bench.feature(feature, &mut lines)?;
    }
    for difference in &family.differences {
        let shop = question
            .part
            .features
            .get(&difference.name)
            .and_then(|f| f.shop_limit.clone());
        if difference.rule.is_none() && shop.is_none() {
            continue;
        }
        let read = bench.difference(&difference.larger, &difference.smaller)?;
        if let Some(choice) = &difference.rule {
            lines.push(bench.by_law(&difference.title, choice, &read)?);
        }
        if let Some(limit) = shop {
            lines.push(bench.by_shop(&difference.title, &limit, Worst::Largest, &read)?);
        }
    }
    let law = together(lines.iter().filter(|l| l.law), || no_limit(&family));
    let shop = together(lines.iter().filter(|l| !l.law), || Verdict::Complies);
    Ok(Judgement {
        lines,
        verdict: law,
        shop,
    })
}

fn no_limit(family: &Family) -> Verdict {
    Verdict::CannotTell(vec![format!(
        "a limit: no limit on file for what was found on this {}",
        family.family
    )])
}

fn together<'l>(lines: impl Iterator<Item = &'l Line>, none: impl Fn() -> Verdict) -> Verdict {
    let (mut any, mut fails, mut needs) = (false, Vec::new(), Vec::new());
    for line in lines {
        any = true;
        match &line.verdict {
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

/// What the readings of a size come to, and which places were not read.
struct Read {
    /// Of what was read, the governing end and the other one.
    ends: Option<[End; 2]>,
    missing: Vec<String>,
}

/// A size that was read, with its text where one person wrote it; a difference has none.
#[derive(Clone)]
struct End {
    size: Size,
    written: Option<String>,
}

impl End {
    fn words(&self, house: House) -> String {
        match &self.written {
            Some(text) => show::size_as_written(text, self.size, house),
            None => show::size(self.size, house),
        }
    }
}

struct Bench<'a> {
    book: &'a Book,
    rules: &'a Rulebook,
    family: &'a Family,
    question: Question<'a>,
}

impl Bench<'_> {
    fn condition(&self, rule: &str, title: &str) -> Result<Line, Refusal> {
        let ruling = self.rules.ruling(rule, self.question.on)?;
        let limit = match &ruling.body {
            Body::Limit(limit) => limit.clone(),
            _ => return Err(Refusal::input(format!("The rule `{rule}` is not a limit."))),
        };
        let verdict = match limit.judge_number(Fraction::from_integer(1)) {
            Outcome::Passes => Verdict::Complies,
            Outcome::Fails { .. } => Verdict::Fails(vec![format!("{title} ({})", ruling.cite)]),
            Outcome::CannotTell { needs } => Verdict::CannotTell(vec![needs]),
        };
        Ok(Line {
            what: limit.subject.clone(),
            found: title.into(),
            limit: self.limit(&limit),
            law: true,
            ruling: Some(ruling),
            verdict,
        })
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

    fn feature(&self, feature: &Feature, lines: &mut Vec<Line>) -> Result<(), Refusal> {
        let shop = self
            .question
            .part
            .features
            .get(&feature.name)
            .and_then(|f| f.shop_limit.clone());
        if feature.kind != FeatureKind::Size || (feature.rule.is_none() && shop.is_none()) {
            return Ok(());
        }
        let read = self.worst(feature, feature.worst)?;
        if let Some(choice) = &feature.rule {
            lines.push(self.by_law(&feature.title, choice, &read)?);
        }
        if let Some(limit) = shop {
            lines.push(self.by_shop(&feature.title, &limit, feature.worst, &read)?);
        }
        Ok(())
    }

    /// The governing reading of a feature; every place must be read.
    fn worst(&self, feature: &Feature, worst: Worst) -> Result<Read, Refusal> {
        let mut sizes = BTreeMap::new();
        for reading in self
            .question
            .readings
            .iter()
            .filter(|r| r.feature == feature.name)
        {
            let written = reading.reading.written();
            if let Some(size) = value(feature, &written)?.size() {
                let written = Some(written);
                sizes.insert(reading.reading.position.as_str(), End { size, written });
            }
        }
        let missing = feature
            .positions
            .iter()
            .filter(|place| !sizes.contains_key(place.as_str()))
            .map(|place| format!("the {} at {place}", feature.title))
            .collect();
        let least = sizes.values().min_by_key(|end| end.size).cloned();
        let most = sizes.values().max_by_key(|end| end.size).cloned();
        let ends = match worst {
            Worst::Largest => most.zip(least),
            Worst::Smallest => least.zip(most),
        };
        Ok(Read {
            ends: ends.map(|(governing, other)| [governing, other]),
            missing,
        })
    }

    fn difference(&self, larger: &str, smaller: &str) -> Result<Read, Refusal> {
        let of = |name: &str, worst| match self.family.feature(name) {
            Some(feature) => self.worst(feature, worst),
            None => Ok(Read {
                ends: None,
                missing: vec![format!("the {name}")],
            }),
        };
        let (large, small) = (of(larger, Worst::Largest)?, of(smaller, Worst::Smallest)?);
        let far = || Refusal::input("The readings are too far apart to be of one part.");
        let less = |from: &End, take: &End| {
            let size = from.size.checked_sub(take.size)?;
            Some(End {
                size,
                written: None,
            })
        };
        let ends = match (large.ends, small.ends) {
            (Some([largest, large]), Some([smallest, small])) => Some([
                less(&largest, &smallest).ok_or_else(far)?,
                less(&large, &small).ok_or_else(far)?,
            ]),
            _ => None,
        };
        let mut missing = large.missing;
        missing.extend(small.missing);
        Ok(Read { ends, missing })
    }

    fn by_law(&self, title: &str, choice: &RuleChoice, read: &Read) -> Result<Line, Refusal> {
        let rule = match choice {
            RuleChoice::One(rule) => rule.clone(),
            RuleChoice::ByFact(facts) => match self.by_fact(facts) {
                Ok(rule) => rule,
                Err(need) => return Ok(self.unknown(title, read, vec![need])),
            },
        };
        let ruling = self.rules.ruling(&rule, self.question.on)?;
        let limit = match self.figure(&ruling.body) {
            Ok(Some(limit)) => limit,
            Ok(None) => {
                return Err(Refusal::input(format!("The rule `{rule}` is not a limit.")));
            }
            Err(needs) => {
                let mut line = self.unknown(title, read, needs);
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
                    ruling.cite
                )]),
                Outcome::Fails { by } => Verdict::Fails(vec![format!(
                    "{title}: {} past the limit ({})",
                    show::size(by, house),
                    ruling.cite
                )]),
                Outcome::CannotTell { needs } => Verdict::CannotTell(vec![needs]),
            };
            (found, verdict) = (end.words(house), failed);
            break;
        }
        Ok(Line {
            what: title.into(),
            found,
            limit: self.limit(&limit),
            law: true,
            ruling: Some(ruling),
            verdict,
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
        })
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
        }
    }
}

impl Read {
    /// The governing size, where every place was read.
    fn words(&self, house: House) -> String {
        match &self.ends {
            Some([governing, _]) if self.missing.is_empty() => governing.words(house),
            _ => "not read".into(),
        }
    }

    /// The verdict where nothing read fails.
    fn complete(&self) -> Verdict {
        match &self.ends {
            Some(_) if self.missing.is_empty() => Verdict::Complies,
            _ => Verdict::CannotTell(self.missing.clone()),
        }
    }
}
