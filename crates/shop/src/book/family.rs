//! A part family: what is measured where, which limits may apply, which routes exist, as data.
//!
//! Families are TOML texts that are adopted into the book as entries. They hold positions, words,
//! hours and steps; they never hold a size of somebody's part.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::family_words::{BoilerWork, Calculation, HoursFrom, LimitNamed, Rung, Whose};
use super::statement::{Authority, QuarterHours};

/// A family text that does not read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the part family does not read: {0}")]
pub struct FamilyError(pub String);

/// A part family.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Family {
    /// The word for it, e.g. `check-valve`.
    pub family: String,
    /// Its version; a changed family is a new version.
    pub version: u32,
    /// What it is.
    pub title: String,
    /// Where on the engine it is looked for; families adopted before this was asked do not say.
    #[serde(default)]
    pub place: Option<Place>,
    /// Whether its parts hold pressure, so that no step on them is done before zero is proven.
    #[serde(default)]
    pub holds_pressure: bool,
    /// How long one takes to come, from the order, as the shop has it for all of the kind: `6 weeks`, `42 days`. What is told of
    /// one part goes before it.
    #[serde(default)]
    pub lead_time: Option<String>,
    /// Facts of the whole part that verdicts and routes need.
    #[serde(default, rename = "fact")]
    pub facts: Vec<FactAsked>,
    /// What is measured.
    #[serde(default, rename = "feature")]
    pub features: Vec<Feature>,
    /// Sizes that are the difference of two features, such as bore over pin.
    #[serde(default, rename = "difference")]
    pub differences: Vec<Difference>,
    /// Of those, the clearances between two sizes, as they are measured where the pair stands: worked out as the text
    /// is read ([`Family::pair`]).
    #[serde(skip)]
    pub pairs: Vec<Feature>,
    /// What it may do when it is not right.
    #[serde(default, rename = "condition")]
    pub conditions: Vec<Condition>,
    /// Limits beside those of its features: the law's by their ids, and what the shop or the maker sets.
    #[serde(default, rename = "limit")]
    pub limits: Vec<LimitNamed>,
    /// What is reckoned on the way, and on which sheets.
    #[serde(default, rename = "calculation")]
    pub calculations: Vec<Calculation>,
    /// Sizes that are cut down step by step over the years, and by which ways.
    #[serde(default, rename = "steps")]
    pub rungs: Vec<Rung>,
    /// Where its hours are from; families adopted before this was asked do not say.
    #[serde(default)]
    pub hours_from: Option<HoursFrom>,
    /// Proofs that its repairs ask for.
    #[serde(default, rename = "proof")]
    pub proofs: Vec<Proof>,
    /// Neighbours to look at when a size changed.
    #[serde(default, rename = "knock-on")]
    pub knock_ons: Vec<KnockOn>,
    /// Ways to put it right.
    #[serde(default, rename = "route")]
    pub routes: Vec<Route>,
}

/// Where a clearance is read that is taken on the pair itself.
pub const PAIR_PLACES: [&str; 2] = ["one way", "square to it"];

/// A place on an engine, as a person standing beside her points to it. The list is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// The front end, with what is inside it.
    Smokebox,
    /// The round part of the boiler, with what hangs on it.
    Barrel,
    /// The firebox and its sheets, inside and out.
    Firebox,
    /// Where her crew stands.
    Cab,
    /// Cylinders, rods, crossheads and valve gear.
    Motion,
    /// Wheels, tires, axles and boxes.
    Wheels,
    /// The tender.
    Tender,
}

impl Place {
    /// From front to back, boiler before running gear.
    pub const ALL: [Place; 7] = [
        Place::Smokebox,
        Place::Barrel,
        Place::Firebox,
        Place::Cab,
        Place::Motion,
        Place::Wheels,
        Place::Tender,
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Place::Smokebox => "smokebox",
            Place::Barrel => "barrel",
            Place::Firebox => "firebox",
            Place::Cab => "cab",
            Place::Motion => "motion",
            Place::Wheels => "wheels",
            Place::Tender => "tender",
        }
    }
}

/// A fact of the whole part.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct FactAsked {
    /// Its word.
    pub name: String,
    /// What it means.
    pub title: String,
    /// The words it may take; empty where it is a size or a number.
    #[serde(default)]
    pub choices: Vec<String>,
}

/// What kind of size a feature has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FeatureKind {
    /// A length.
    Size,
    /// An angle.
    Angle,
}

/// Which way wear moves a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wears {
    /// Gets smaller.
    Smaller,
    /// Gets larger.
    Larger,
    /// Either way, or not at all.
    Either,
}

/// Which of several readings governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Worst {
    /// The smallest.
    Smallest,
    /// The largest.
    Largest,
}

/// A feature: where it is measured, and what limit may apply.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Feature {
    /// Its word.
    pub name: String,
    /// What it is.
    pub title: String,
    /// A size or an angle.
    pub kind: FeatureKind,
    /// Where it is measured; every place must be read.
    pub positions: Vec<String>,
    /// Which way it wears.
    pub wears: Wears,
    /// Which reading governs.
    pub worst: Worst,
    /// How a good shop takes it.
    pub how: String,
    /// The rule that limits it.
    #[serde(default)]
    pub rule: Option<RuleChoice>,
    /// Whether metal left is reckoned on it, from its shop limit.
    #[serde(default)]
    pub metal: bool,
    /// Whether it is read as left only where the finding read it as found: not every way touches every size of a part.
    #[serde(default)]
    pub left_only_if_found: bool,
}

/// Which rule limits something: one, or one by a fact of the part (which pin it is decides).
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(untagged)]
pub enum RuleChoice {
    /// Always this rule.
    One(String),
    /// By a fact.
    ByFact(BTreeMap<String, BTreeMap<String, String>>),
}

/// A size that is one feature less another.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Difference {
    /// Its word.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The larger feature; its largest reading counts.
    pub larger: String,
    /// The smaller feature; its smallest reading counts.
    pub smaller: String,
    /// The rule that limits it, if there is one on file.
    #[serde(default)]
    pub rule: Option<RuleChoice>,
}

/// Something a part does when it is not right.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Condition {
    /// Its word.
    pub word: String,
    /// What is seen.
    pub title: String,
    /// The rule that forbids it.
    #[serde(default)]
    pub rule: Option<String>,
    /// The clock of the law that a finding with it starts, by its rule.
    #[serde(default)]
    pub starts: Option<String>,
    /// The proof that shows it gone.
    pub cleared_by: String,
}

/// A proof.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Proof {
    /// Its word.
    pub word: String,
    /// What it shows.
    pub title: String,
    /// How it is made.
    pub how: String,
    /// What its record says beside *shown*, in the words of who made it: pressures, strokes, a paper's number.
    #[serde(default)]
    pub records: Vec<String>,
    /// The rule that asks it, if a rule does.
    #[serde(default)]
    pub rule: Option<String>,
}

/// A neighbour to look at.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct KnockOn {
    /// Its word.
    pub word: String,
    /// What to look at, and why.
    pub title: String,
    /// The family that neighbour is of, where it is a part of its own.
    #[serde(default)]
    pub family: Option<String>,
    /// Which of that family's features or differences may have moved.
    #[serde(default)]
    pub sizes: Vec<String>,
    /// Rules whose limits may be touched.
    #[serde(default)]
    pub rules: Vec<String>,
}

/// A stop after an operation.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Hold {
    /// What is looked at.
    pub look: String,
    /// Who may clear it.
    pub by: Authority,
}

/// A step of a route.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct OperationPlan {
    /// What is done.
    pub what: String,
    /// Where.
    pub place: String,
    /// The state the engine must be in.
    pub engine: String,
    /// Low, likely and high, in quarter hours.
    pub quarter_hours: [u32; 3],
    /// A stop after it.
    #[serde(default)]
    pub hold: Option<Hold>,
}

impl OperationPlan {
    /// Low, likely and high.
    pub fn hours(&self) -> [QuarterHours; 3] {
        self.quarter_hours.map(QuarterHours)
    }
}

/// A way to put a part right.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Route {
    /// Its word, e.g. `re-cut`.
    pub word: String,
    /// What it is.
    pub title: String,
    /// Leaves the part as it is.
    #[serde(default)]
    pub carries: bool,
    /// The most metal at one edge of a seat that this route can move, as a size.
    #[serde(default)]
    pub most_wedge: Option<String>,
    /// Whether it spends the seat's own metal, so that enough must be left.
    #[serde(default)]
    pub spends_seat: bool,
    /// What it buys, in words.
    pub buys: String,
    /// What nobody knows yet.
    #[serde(default)]
    pub unknown: Vec<String>,
    /// Skill it takes.
    #[serde(default)]
    pub skill: Option<String>,
    /// Tools that must exist or be made first.
    #[serde(default)]
    pub tooling: Vec<String>,
    /// What is reckoned for it, by word.
    #[serde(default)]
    pub calculations: Vec<String>,
    /// What it welds or rivets on a boiler; nothing where it does neither.
    #[serde(default)]
    pub boiler_work: Option<BoilerWork>,
    /// Steps.
    #[serde(default, rename = "operation")]
    pub operations: Vec<OperationPlan>,
    /// Proofs, by word.
    #[serde(default)]
    pub proofs: Vec<String>,
    /// Knock-ons, by word.
    #[serde(default)]
    pub knock_ons: Vec<String>,
    /// When to stop and ask.
    #[serde(default)]
    pub stop_points: Vec<String>,
    /// What can hurt.
    #[serde(default)]
    pub cautions: Vec<String>,
}

impl Route {
    /// Low, likely and high hours of the whole route.
    pub fn hours(&self) -> [QuarterHours; 3] {
        let mut sum = [0; 3];
        for step in &self.operations {
            for (total, hours) in sum.iter_mut().zip(step.quarter_hours) {
                *total += hours;
            }
        }
        sum.map(QuarterHours)
    }
}

impl Family {
    /// Reads a family and checks that its words hang together.
    ///
    /// # Errors
    /// [`FamilyError`] if the text is not TOML of this shape, or a word is used that it does not define.
    pub fn read(text: &str) -> Result<Family, FamilyError> {
        let mut family: Family = toml::from_str(text).map_err(|e| FamilyError(e.to_string()))?;
        family.hangs_together()?;
        let between_two = family.differences.iter().filter(|d| d.larger != d.smaller);
        family.pairs = between_two.map(Family::pair).collect();
        Ok(family)
    }

    /// A clearance as it is read on the pair itself, with nothing taken apart: twice, square to each other, since a
    /// hole worn out of round is loose one way and not the other.
    fn pair(of: &Difference) -> Feature {
        Feature {
            name: of.name.clone(),
            title: of.title.clone(),
            kind: FeatureKind::Size,
            positions: PAIR_PLACES.map(str::to_string).to_vec(),
            wears: Wears::Larger,
            worst: Worst::Largest,
            how: "taken on the pair as it stands, with feelers, lead wire or a dial: all of it, from one side hard over to the other"
                .into(),
            rule: None,
            metal: false,
            left_only_if_found: true,
        }
    }

    /// All that is read on it: its features, then the clearances of its pairs.
    pub fn measured(&self) -> impl Iterator<Item = &Feature> {
        self.features.iter().chain(&self.pairs)
    }

    /// Of what is read on it, the feature or the clearance of this word.
    pub fn measured_as(&self, name: &str) -> Option<&Feature> {
        self.measured().find(|f| f.name == name)
    }

    /// Of a difference, how it is read on the pair itself; nothing where its two sizes are of one feature.
    pub fn on_the_pair(&self, difference: &Difference) -> Option<&Feature> {
        self.pairs.iter().find(|pair| pair.name == difference.name)
    }

    /// A feature by its word.
    pub fn feature(&self, name: &str) -> Option<&Feature> {
        self.features.iter().find(|f| f.name == name)
    }

    /// Whether a size of this name is measured on it, or is the difference of two that are.
    pub fn measures(&self, name: &str) -> bool {
        self.feature(name).is_some() || self.differences.iter().any(|d| d.name == name)
    }

    /// A route by its word.
    pub fn route(&self, word: &str) -> Option<&Route> {
        self.routes.iter().find(|r| r.word == word)
    }

    /// A condition by its word.
    pub fn condition(&self, word: &str) -> Option<&Condition> {
        self.conditions.iter().find(|c| c.word == word)
    }

    /// A proof by its word.
    pub fn proof(&self, word: &str) -> Option<&Proof> {
        self.proofs.iter().find(|p| p.word == word)
    }

    /// A knock-on by its word.
    pub fn knock_on(&self, word: &str) -> Option<&KnockOn> {
        self.knock_ons.iter().find(|k| k.word == word)
    }

    /// A calculation by its word.
    pub fn calculation(&self, word: &str) -> Option<&Calculation> {
        self.calculations.iter().find(|c| c.word == word)
    }

    /// The sheets that a route stands on, each once, in the order it names its calculations.
    pub fn sheets_of(&self, route: &Route) -> Vec<&str> {
        let mut sheets: Vec<&str> = Vec::new();
        let named = route
            .calculations
            .iter()
            .filter_map(|w| self.calculation(w));
        for sheet in named.flat_map(|c| &c.sheets) {
            if !sheets.contains(&sheet.as_str()) {
                sheets.push(sheet);
            }
        }
        sheets
    }

    /// The first slip of its words, as one error.
    fn hangs_together(&self) -> Result<(), FamilyError> {
        let first = self.slips().into_iter().next();
        first.map_or(Ok(()), |slip| {
            Err(FamilyError(format!("in `{}`: {}", self.family, slip.says)))
        })
    }

    /// Every word that is used and not defined, and what is left empty that may not be. A book that holds such a text would
    /// not be judged by it, so this much is asked of every family that is read, of any age.
    pub(super) fn slips(&self) -> Vec<Slip> {
        let mut slips = Vec::new();
        let mut slip = |section: &'static str, of: &str, value: &str, says: String| {
            slips.push(Slip {
                section,
                of: of.into(),
                value: value.into(),
                says,
            });
        };
        if let Some(told) = &self.lead_time
            && let Err(why) = super::read_lead(told)
        {
            slip("", &self.family, told, why.what);
        }
        for condition in &self.conditions {
            if self.proof(&condition.cleared_by).is_none() {
                let (word, by) = (&condition.word, &condition.cleared_by);
                let says = format!("`{word}` is cleared by `{by}`, which is no proof of it");
                slip("condition", word, by, says);
            }
        }
        for difference in &self.differences {
            for name in [&difference.larger, &difference.smaller] {
                if self.feature(name).is_none() {
                    let says = format!(
                        "`{}` speaks of `{name}`, which is no feature of it",
                        difference.name
                    );
                    slip("difference", &difference.name, name, says);
                }
            }
        }
        for limit in &self.limits {
            let word = &limit.word;
            if (limit.whose == Whose::Law) != limit.rule.is_some() {
                let says = format!(
                    "limit `{word}` is the law's and names no rule, or names one and is not"
                );
                slip("limit", word, word, says);
            }
            let of = limit.of.as_deref();
            if let Some(name) = of.filter(|name| !self.measures(name)) {
                let says = format!("limit `{word}` is of `{name}`, which is not measured on it");
                slip("limit", word, name, says);
            }
        }
        for sum in &self.calculations {
            for (sheet, arguments) in &sum.fill {
                if !sum.sheets.contains(sheet) {
                    let says = format!("`{}` fills in `{sheet}`, which it does not name", sum.word);
                    slip("calculation", &sum.word, sheet, says);
                }
                for (argument, source) in arguments {
                    let feature = source.feature().filter(|name| self.feature(name).is_none());
                    let fact = match source {
                        super::family_words::Source::Fact(name, _) => Some(name.as_str())
                            .filter(|name| !self.facts.iter().any(|it| it.name == *name)),
                        _ => None,
                    };
                    if let Some(name) = feature.or(fact) {
                        let says = format!(
                            "`{argument}` of `{sheet}` is fed by `{name}`, which is not read or told of it"
                        );
                        slip("calculation", &sum.word, name, says);
                    }
                }
            }
        }
        for rung in &self.rungs {
            if self.feature(&rung.size).is_none() {
                let says = format!("steps are of `{}`, which is no feature of it", rung.size);
                slip("steps", &rung.size, &rung.size, says);
            }
            for way in [&rung.cut, &rung.renew] {
                if self.route(way).is_none() {
                    let says = format!(
                        "steps of `{}` go by `{way}`, which is no route of it",
                        rung.size
                    );
                    slip("steps", &rung.size, way, says);
                }
            }
        }
        for feature in &self.features {
            if feature.positions.is_empty() {
                let says = format!("`{}` says nowhere to measure", feature.name);
                slip("feature", &feature.name, &feature.name, says);
            }
        }
        for route in &self.routes {
            let word = &route.word;
            for proof in route.proofs.iter().filter(|w| self.proof(w).is_none()) {
                let says = format!("route `{word}` asks for `{proof}`, which is no proof of it");
                slip("route", word, proof, says);
            }
            let knock_ons = route.knock_ons.iter();
            for neighbor in knock_ons.filter(|w| self.knock_on(w).is_none()) {
                let says = format!("route `{word}` names `{neighbor}`, which is no knock-on of it");
                slip("route", word, neighbor, says);
            }
            let reckoned = route.calculations.iter();
            for sum in reckoned.filter(|w| self.calculation(w).is_none()) {
                let says = format!("route `{word}` reckons `{sum}`, which is no calculation of it");
                slip("route", word, sum, says);
            }
            if !route.carries && (route.operations.is_empty() || route.proofs.is_empty()) {
                let says = format!("route `{word}` does work but has no steps or no proof");
                slip("route", word, word, says);
            }
        }
        slips
    }
}

/// Something in a family's words that does not hang together, and where it is written.
pub(super) struct Slip {
    /// The kind of entry.
    pub(super) section: &'static str,
    /// Its word or name.
    pub(super) of: String,
    /// What is written there.
    pub(super) value: String,
    /// What is wrong with it.
    pub(super) says: String,
}
