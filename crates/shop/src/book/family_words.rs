//! What a family says beside its features, proofs and routes: limits that no feature carries, what is reckoned, where hours
//! are from, what a route welds or rivets on a boiler. All of it may be left out: families in older books say none of it.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::family::Worst;

/// Who sets a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Whose {
    /// The law; the rule is named.
    Law,
    /// The shop, as a figure of each part or as what its officer accepts.
    Shop,
    /// The maker, on a drawing or in a book.
    Maker,
    /// What good shops look for, with no source.
    Practice,
}

impl Whose {
    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Whose::Law => "law",
            Whose::Shop => "shop",
            Whose::Maker => "maker",
            Whose::Practice => "practice",
        }
    }
}

/// A limit by its name. It holds no figure: the law's is in the rulebook, the shop's and the maker's with the part.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct LimitNamed {
    /// Its word.
    pub word: String,
    /// What it says.
    pub title: String,
    /// Who sets it.
    pub whose: Whose,
    /// The rule, where the law sets it.
    #[serde(default)]
    pub rule: Option<String>,
    /// The feature or difference that it limits, where it is one size.
    #[serde(default)]
    pub of: Option<String>,
}

/// Something reckoned on the way.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Calculation {
    /// Its word.
    pub word: String,
    /// What it tells.
    pub title: String,
    /// The sheets it is worked on, by id; none where it is worked by hand and checked by the officer.
    #[serde(default)]
    pub sheets: Vec<String>,
    /// Which reading or fact feeds which argument, by sheet: so that it is worked, and not only named.
    #[serde(default)]
    pub fill: BTreeMap<String, BTreeMap<String, Source>>,
}

/// What feeds an argument of a sheet, written as `all bore`, `largest pin`, `smallest wall`, `place hole inner face`,
/// `fact stamped`, `fact pin main-rod=main-pin`, `survey readings` or `is driver`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub enum Source {
    /// Every reading of a feature, in the order of its places.
    All(String),
    /// The governing one.
    End(String, Worst),
    /// The one of a place.
    Place(String, String),
    /// A fact of the part; with pairs, each of its words as the sheet says it.
    Fact(String, Vec<(String, String)>),
    /// What her engine says.
    Engine(OfEngine),
    /// Surveys of the boiler's component that has the part's name.
    Survey(OfSurvey),
    /// A word.
    Is(String),
}

/// What the engine of a part says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfEngine {
    /// Whether her gauge is `standard` or `narrow`.
    Gauge,
    /// Her gauge where it is narrow; of a standard one nothing is said.
    NarrowGauge,
}

/// What surveys give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfSurvey {
    /// The thinnest square of the newest, and what the surveys before read there, the oldest first.
    Readings,
    /// How many years ago each of those was read.
    Ages,
    /// The thinnest reading of each block of the newest that was read whole.
    Minima,
    /// How many such blocks the plate makes.
    Blocks,
}

impl TryFrom<String> for Source {
    type Error = String;

    fn try_from(text: String) -> Result<Source, String> {
        let wrong = || {
            format!(
                "`{text}` feeds nothing: `all`, `largest` or `smallest` and a feature, `place`, a feature and a place, `fact` and \
                 a fact, `engine` and `gauge` or `narrow-gauge`, `survey` and readings, ages, minima or blocks, or `is` and a word were expected"
            )
        };
        let (word, rest) = text.trim().split_once(' ').ok_or_else(wrong)?;
        let rest = rest.trim();
        Ok(match word {
            "all" => Source::All(rest.into()),
            "largest" => Source::End(rest.into(), Worst::Largest),
            "smallest" => Source::End(rest.into(), Worst::Smallest),
            "is" => Source::Is(rest.into()),
            "engine" => Source::Engine(match rest {
                "gauge" => OfEngine::Gauge,
                "narrow-gauge" => OfEngine::NarrowGauge,
                _ => return Err(wrong()),
            }),
            "survey" => Source::Survey(match rest {
                "readings" => OfSurvey::Readings,
                "ages" => OfSurvey::Ages,
                "minima" => OfSurvey::Minima,
                "blocks" => OfSurvey::Blocks,
                _ => return Err(wrong()),
            }),
            "place" => {
                let (name, place) = rest.split_once(' ').ok_or_else(wrong)?;
                Source::Place(name.into(), place.trim().into())
            }
            "fact" => {
                let mut all = rest.split_whitespace();
                let name = all.next().ok_or_else(wrong)?;
                let words = all.map(|pair| {
                    let (word, as_said) = pair.split_once('=').ok_or_else(wrong)?;
                    Ok((word.to_string(), as_said.to_string()))
                });
                Source::Fact(name.into(), words.collect::<Result<_, String>>()?)
            }
            _ => return Err(wrong()),
        })
    }
}

impl Source {
    /// The feature it reads, if it reads one.
    pub fn feature(&self) -> Option<&str> {
        match self {
            Source::All(name) | Source::End(name, _) | Source::Place(name, _) => Some(name),
            Source::Fact(..) | Source::Engine(_) | Source::Survey(_) | Source::Is(_) => None,
        }
    }
}

/// A size that is cut down step by step over the years until it is renewed.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Rung {
    /// The feature.
    pub size: String,
    /// The route that cuts it.
    pub cut: String,
    /// The route that renews it or gives it back its metal.
    pub renew: String,
}

/// Where the hours of a family are from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoursFrom {
    /// Common practice, without a source.
    CommonPractice,
    /// The shop's own books.
    OwnBooks,
}

impl HoursFrom {
    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            HoursFrom::CommonPractice => "common-practice",
            HoursFrom::OwnBooks => "own-books",
        }
    }
}

/// How metal of a boiler is joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Joining {
    /// By welding.
    Weld,
    /// By rivets.
    Rivet,
}

/// Whether a part of a boiler is held by stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Area {
    /// Held by stays.
    Stayed,
    /// Holding by its own shape.
    Unstayed,
}

/// What work on a boiler is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// A repair: as it was.
    Repair,
    /// An alteration: it holds pressure otherwise than before.
    Alteration,
}

/// What a route welds or rivets on a boiler, as far as the family can say it of every such part. What is left out hangs on
/// the part, and is asked.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct BoilerWork {
    /// Welded or riveted.
    #[serde(default)]
    pub joining: Option<Joining>,
    /// Stayed or unstayed.
    #[serde(default)]
    pub area: Option<Area>,
    /// Repair or alteration.
    #[serde(default)]
    pub change: Option<Change>,
    /// Whether wastage is built up by weld.
    #[serde(default)]
    pub build_up: Option<bool>,
    /// Whether a flush patch is let in.
    #[serde(default)]
    pub flush_patch: Option<bool>,
}
