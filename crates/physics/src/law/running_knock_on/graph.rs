//! The sizes and what moves what: a graph without rings, each line with its factor.

use crate::csv::{self, Table};
use crate::error::SheetError;
use measure::{Fraction, fraction};
use std::f64::consts::PI;

/// The sizes, in the order of `tables/knock-on/sizes.csv`.
pub const SIZES: [&str; 92] = [
    "tire-thickness",
    "driving-radius",
    "driving-diameter",
    "axle-height",
    "journal-diameter",
    "crown-brass",
    "box-height",
    "spring-shim",
    "spring-set",
    "frame-height",
    "truck-radius",
    "truck-shim",
    "front-coupler-height",
    "engine-drawbar-height",
    "pilot-clearance",
    "ash-pan-clearance",
    "brake-gear-clearance",
    "cylinder-over-axle",
    "brake-shoe",
    "shoe-gap",
    "piston-travel",
    "tread-hollow",
    "flange-height",
    "shoe-main",
    "box-front-face",
    "box-back-face",
    "wedge-main",
    "wedge-room",
    "axle-main-back",
    "shoe-ahead",
    "axle-ahead-back",
    "center-distance",
    "side-rod-length",
    "rod-over-centers",
    "main-rod-length",
    "rod-draw",
    "piston-back",
    "front-gasket",
    "back-gasket",
    "front-clearance",
    "back-clearance",
    "crosshead-shoe-bottom",
    "crosshead-shoe-top",
    "guide-apart",
    "guide-bottom",
    "crosshead-center",
    "guide-clearance",
    "rod-off-gland",
    "cylinder-bore",
    "piston-diameter",
    "piston-clearance",
    "ring-gap",
    "rod-eye",
    "bushing-outside",
    "interference",
    "bushing-bore",
    "pin-diameter",
    "bore-over-pin",
    "wrist-clearance",
    "rod-lost-motion",
    "hub-liner",
    "box-hub-face",
    "wheel-hub-face",
    "driver-lateral",
    "valve-spindle",
    "valve-back",
    "lead-front",
    "lead-back",
    "drawbar-eye",
    "drawbar-pin",
    "drawbar-lost-motion",
    "tender-radius",
    "tender-spring-set",
    "tender-center-liner",
    "tender-height",
    "tender-drawbar-height",
    "tender-coupler-height",
    "tender-side-bearing-shim",
    "tender-side-bearing",
    "drawbar-level",
    "deck-difference",
    "seat-cut",
    "disc-cut",
    "disc-height",
    "seat-wall",
    "stem-reach",
    "valve-lift",
    "crown-sheet",
    "glass-bottom",
    "glass-over-crown",
    "cock-bottom",
    "cock-over-crown",
];

/// One size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Size {
    /// Its id.
    pub id: String,
    /// What it is.
    pub words: String,
    /// What a plus means: thicker, higher.
    pub plus: String,
    /// Ids of the rules that set a limit on it.
    pub limits: Vec<String>,
}

/// One line of the graph: `to` moves by `factor` of what `from` moves.
#[derive(Debug, Clone, PartialEq)]
pub struct Relation {
    /// What is moved.
    pub to: String,
    /// What moves it.
    pub from: String,
    /// By how much of itself.
    pub factor: f64,
    /// The ratio of the engine that it is multiplied by, by the name it is asked for with.
    pub times: Option<String>,
    /// Why.
    pub why: String,
}

const WHAT: &str = "table of knock-ons";

static ALL: Table<Size> = Table::new(WHAT, || {
    let text = include_str!("../../../../../tables/knock-on/sizes.csv");
    let heading = ["size", "words", "plus", "limits"];
    csv::each(text, &heading, |[id, words, plus, limits]| {
        let limits = limits.split(';').map(str::trim).filter(|id| !id.is_empty());
        Ok(Size {
            limits: limits.map(str::to_owned).collect(),
            id,
            words,
            plus,
        })
    })
});

static RELATIONS: Table<Relation> = Table::new(WHAT, || {
    let text = include_str!("../../../../../tables/knock-on/relations.csv");
    let heading = ["to", "from", "by", "times", "grade", "why"];
    csv::each(text, &heading, |[to, from, by, times, _, why]| {
        let factor = match by.as_str() {
            "pi" => PI,
            of => fraction::to_f64(
                of.parse::<Fraction>()
                    .map_err(|_| format!("'{of}' is no factor"))?,
            ),
        };
        Ok(Relation {
            to,
            from,
            factor,
            times: (!times.is_empty()).then_some(times),
            why,
        })
    })
});

/// A choice of work and the size that it moves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// The family of the part.
    pub family: String,
    /// The choice.
    pub route: String,
    /// The size it moves.
    pub size: String,
    /// Which way; nothing where it may go both ways.
    pub way: Option<Way>,
    /// Why.
    pub why: String,
}

/// Which way a size moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// As its plus.
    Plus,
    /// The other way.
    Minus,
}

static CHOICES: Table<Choice> = Table::new(WHAT, || {
    let text = include_str!("../../../../../tables/knock-on/choices.csv");
    let heading = ["family", "route", "size", "way", "why"];
    csv::each(text, &heading, |[family, route, size, way, why]| {
        if !SIZES.contains(&size.as_str()) {
            return Err(format!("'{size}' is no size"));
        }
        let way = match way.as_str() {
            "+" => Some(Way::Plus),
            "-" => Some(Way::Minus),
            "either" => None,
            other => return Err(format!("'{other}' is no way: +, - or either")),
        };
        Ok(Choice {
            family,
            route,
            size,
            way,
            why,
        })
    })
});

/// Every choice of work that moves a size.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn choices() -> Result<&'static [Choice], SheetError> {
    CHOICES.rows(super::ID)
}

/// Every size.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn sizes(sheet: &'static str) -> Result<&'static [Size], SheetError> {
    ALL.rows(sheet)
}

/// Every relation.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn relations(sheet: &'static str) -> Result<&'static [Relation], SheetError> {
    RELATIONS.rows(sheet)
}

/// By how much of itself one size moves another, along every way between them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Share {
    /// The factor, all ways added.
    pub factor: f64,
    /// Whether there is a way at all.
    pub reached: bool,
    /// The ratios on the way that nobody gave.
    pub needs: Vec<String>,
    /// The sizes on the way, the first way found: `tire-thickness, driving-radius, axle-height`.
    pub way: Vec<String>,
}

/// The share of `from` that `to` moves by, with the ratios that `given` knows by name.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn share(
    sheet: &'static str,
    from: &str,
    to: &str,
    given: &dyn Fn(&str) -> Option<f64>,
) -> Result<Share, SheetError> {
    if from == to {
        return Ok(Share {
            factor: 1.0,
            reached: true,
            needs: Vec::new(),
            way: vec![to.to_owned()],
        });
    }
    let mut all = Share::default();
    // Backwards from what is moved: every size has few movers, and the graph has no rings.
    for relation in relations(sheet)?
        .iter()
        .filter(|relation| relation.to == to)
    {
        let before = share(sheet, from, &relation.from, given)?;
        if !before.reached {
            continue;
        }
        all.reached = true;
        let ratio = match &relation.times {
            None => 1.0,
            Some(name) => given(name).unwrap_or_else(|| {
                all.needs.push(name.clone());
                0.0
            }),
        };
        all.needs.extend(before.needs);
        all.factor += before.factor * relation.factor * ratio;
        if all.way.is_empty() {
            all.way = before.way;
            all.way.push(to.to_owned());
        }
    }
    all.needs.sort_unstable();
    all.needs.dedup();
    Ok(all)
}
