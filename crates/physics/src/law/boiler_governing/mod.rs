//! `boiler.governing`: which component of a boiler bears least, and what each has to spare at the pressure that is set.
//!
//! A boiler bears what its weakest component bears. While one of them cannot be told, the least of the others is a pressure
//! that the boiler is not above, and no more.

use crate::answer::{Answer, Outcome, TableValue, cannot_tell};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, Unit, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "boiler.governing";
/// How many components a sheet takes.
const MOST: usize = 200;
const LEAST: &str = "the least of what the components bear";
const RATIO: &str = "what it bears over the pressure set";

const BEARS: Symbol = Symbol::of(
    "b",
    Dimension::GaugePressure,
    "what the governing component bears",
    LEAST,
);
const FACTOR: Symbol = Symbol::of(
    "f",
    Dimension::Ratio,
    "factor of safety in that component's pressure",
    "the factor given for it",
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "What governs a boiler",
    purpose: "From what each component would bear by its own sheet: which bears least, what the boiler is known to bear, and \
        each component's factor of safety at the pressure that the owner set.",
    formula: "
        t = b / p
        F = f * b / p",
    book_units: None,
    arguments: &[
        Argument::list(
            "bears",
            Dimension::GaugePressure,
            "0 psig",
            "2000 psig",
            (1, MOST),
            "what each component would bear by its sheet or its signed paper; ? where that cannot be told",
        )
        .with_gaps(),
        Argument::list(
            "bounds",
            Dimension::GaugePressure,
            "0 psig",
            "2000 psig",
            (1, MOST),
            "in the same order, for a component that cannot be told: a pressure that it certainly does not bear more than; else ?",
        )
        .with_gaps()
        .optional(),
        Argument::list(
            "factors",
            Dimension::Ratio,
            "1",
            "20",
            (1, MOST),
            "in the same order, the factor of safety that each pressure was worked with; ? where its sheet takes an allowed stress instead",
        )
        .with_gaps()
        .optional(),
        Argument::quantity(
            "set",
            "p",
            Dimension::GaugePressure,
            "1 psig",
            "1000 psig",
            "the pressure that the owner set",
        )
        .optional(),
    ],
    table_values: &[BEARS, FACTOR],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "mawp",
            "",
            Dimension::GaugePressure,
            (0, 1),
            "what the boiler bears, every component told",
            LEAST,
        )
        .rounded(Rounding::Down),
        ResultSpec::text(
            "not_above",
            "the least pressure of those told and bounded, and whose it is: the boiler bears no more than this",
            LEAST,
        ),
        ResultSpec::text("governing", "which component that is, by its place in the list", LEAST),
        ResultSpec::quantity(
            "times",
            "t",
            Dimension::Ratio,
            (2, 2),
            "what the governing component bears, over the pressure set",
            RATIO,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "factor",
            "F",
            Dimension::Ratio,
            (2, 2),
            "the governing component's factor of safety at the pressure set",
            "its factor, by what it bears over the pressure set",
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how the boiler stands to the pressure set", LEAST),
        ResultSpec::table(
            "components",
            "each component: what it bears, its factor at the pressure set, how it stands to it",
            RATIO,
        ),
    ],
    branches: &[TOLD, BOUND, WAITS],
    validity: "Every part under pressure stands in the list, told or not: a part that was left out governs nothing and can \
        still burst. A factor grows with what is to spare only where the strength and not a stress or a bend decides.",
    sources: &[
        Source {
            work: "U.S. Code of Federal Regulations, title 49, section 230.8",
            locator: "2015 edition",
            used_for: "that the boiler's pressure is the one entered on its specification card (Form 4)",
        },
        Source {
            work: "plain arithmetic",
            locator: "a chain is as strong as its weakest link",
            used_for: "that the least governs",
        },
    ],
    cautions: &[
        "This compares; it approves no pressure. The pressure is the owner's to set and a qualified person's to stand behind.",
        "What is not told is not fit: while one component cannot be told, no figure here says what the boiler bears.",
        boiler::MEASURED,
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
    ],
    closed_form: ClosedForm::No("the least of a list is picked out; what it makes with the pressure set is a formula"),
};

const TOLD: &str = "every component told";
const BOUND: &str = "some not told";
const WAITS: &str = "nothing told";

/// What a component would bear, in any one unit of pressure above the atmosphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bears {
    /// Told.
    Told(f64),
    /// Not told; certainly no more than this.
    NotAbove(f64),
    /// Not told at all.
    CannotTell,
}

impl Bears {
    /// The pressure, known or only bounded.
    pub fn bound(self) -> Option<f64> {
        match self {
            Bears::Told(pressure) | Bears::NotAbove(pressure) => Some(pressure),
            Bears::CannotTell => None,
        }
    }
}

/// What governs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Governs {
    /// Every component is told; this one, by its place counted from nothing, bears least.
    Told(usize, f64),
    /// Not every component is told; this one has the least pressure of the rest.
    NotAbove(usize, f64),
    /// None has a pressure.
    Nothing,
}

/// Which of the components governs; the first of several that bear alike. No component at all tells nothing.
pub fn governs(all: &[Bears]) -> Governs {
    let bound = all
        .iter()
        .enumerate()
        .filter_map(|(at, one)| Some((at, one.bound()?)));
    let least = bound.min_by(|one, other| one.1.total_cmp(&other.1));
    let told = all.iter().all(|one| matches!(one, Bears::Told(_)));
    match least {
        None => Governs::Nothing,
        Some((at, pressure)) if told => Governs::Told(at, pressure),
        Some((at, pressure)) => Governs::NotAbove(at, pressure),
    }
}

/// How many times over a pressure is borne; nothing for a pressure of nothing.
pub fn times(bears: f64, set: f64) -> Option<f64> {
    (set > 0.0).then(|| bears / set)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let told = inputs.gapped_si("bears");
    let bounds = alongside(inputs, "bounds", told.len())?;
    let factors = alongside(inputs, "factors", told.len())?;
    let set = inputs.si("set");
    let all: Vec<Bears> = told
        .iter()
        .zip(&bounds)
        .map(|pair| match pair {
            (Some(told), _) => Bears::Told(*told),
            (None, Some(bound)) => Bears::NotAbove(*bound),
            (None, None) => Bears::CannotTell,
        })
        .collect();
    let untold: Vec<String> = all
        .iter()
        .enumerate()
        .filter(|(_, one)| !matches!(one, Bears::Told(_)))
        .map(|(at, _)| format!("component {}", at + 1))
        .collect();
    let rows = all
        .iter()
        .zip(&factors)
        .enumerate()
        .map(|(at, (bears, factor))| row(at, *bears, *factor, set))
        .collect();
    let columns = [
        "component",
        "bears",
        "times the set",
        "factor at the set",
        "stands",
    ];
    let table = Outcome::Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows,
    };
    let (mut answer, least) = match governs(&all) {
        Governs::Nothing => (
            Answer::new(WAITS).waiting(
                &["mawp", "not_above", "governing", "times", "factor"],
                &untold_of(&untold),
            ),
            None,
        ),
        Governs::Told(at, least) => (
            Answer::new(TOLD)
                .with("mawp", Outcome::Si(least))
                .with("governing", format!("component {}", at + 1)),
            Some((at, least)),
        ),
        Governs::NotAbove(at, least) => (
            Answer::new(BOUND).waiting(&["mawp", "governing"], &untold_of(&untold)),
            Some((at, least)),
        ),
    };
    answer = answer.with("components", table);
    let Some((at, least)) = least else {
        return Ok(answer.with("complies", cannot_tell(&untold)));
    };
    answer = answer.with(
        "not_above",
        format!("{}, component {}", psig(least), at + 1),
    );
    answer = if untold.is_empty() {
        spare(answer, at, least, factors.get(at).copied().flatten(), set)
    } else {
        answer.waiting(&["times", "factor"], &untold_of(&untold))
    };
    let mut needs = untold;
    if set.is_none() {
        needs.push("set".into());
    }
    let complies = match set {
        Some(set) if short(least, set) => "fails".to_owned(),
        _ if needs.is_empty() => "complies".to_owned(),
        _ => cannot_tell(&needs),
    };
    Ok(answer.with("complies", complies))
}

/// What the governing component has to spare at the pressure set.
fn spare(
    mut answer: Answer,
    at: usize,
    least: f64,
    factor: Option<f64>,
    set: Option<f64>,
) -> Answer {
    let Some(times) = set.and_then(|set| times(least, set)) else {
        return answer.waiting(&["times", "factor"], &["set"]);
    };
    answer.found.push(found(BEARS, least, at));
    answer = answer.with("times", Outcome::Si(times));
    let Some(factor) = factor else {
        return answer.waiting(&["factor"], &["the factor of the governing component"]);
    };
    answer.found.push(found(FACTOR, factor, at));
    answer.with("factor", Outcome::Si(factor * times))
}

fn untold_of(untold: &[String]) -> Vec<&str> {
    untold.iter().map(String::as_str).collect()
}

/// Whether a pressure falls short of another. It is worked in floating point: a millionth of a pound is none.
fn short(bears: f64, set: f64) -> bool {
    bears + Unit::of(Dimension::GaugePressure, House::Inch).to_si(1e-6) < set
}

/// A list that goes along with `bears`: as long, or not given.
fn alongside(
    inputs: &Inputs,
    name: &'static str,
    count: usize,
) -> Result<Vec<Option<f64>>, SheetError> {
    let list = inputs.gapped_si(name);
    match list.len() {
        0 => Ok(vec![None; count]),
        given if given == count => Ok(list.to_vec()),
        given => Err(SheetError::impossible(
            ID,
            format!("{given} of {name} and {count} of bears"),
            "one for each component, in the same order, ? where it is not known",
        )),
    }
}

fn psig(si: f64) -> String {
    let psi = Unit::of(Dimension::GaugePressure, House::Inch).from_si(si);
    format!("{} psig", show::number(psi, 0, Rounding::Down))
}

fn row(at: usize, bears: Bears, factor: Option<f64>, set: Option<f64>) -> Vec<String> {
    let said = match bears {
        Bears::Told(told) => psig(told),
        Bears::NotAbove(bound) => format!("not above {}", psig(bound)),
        Bears::CannotTell => "cannot tell".to_owned(),
    };
    let told = match bears {
        Bears::Told(told) => set.and_then(|set| times(told, set)),
        _ => None,
    };
    let shown = |value: Option<f64>| {
        value.map_or("not known".to_owned(), |value| {
            show::number(value, 2, Rounding::Down)
        })
    };
    let stands = match (bears.bound(), set) {
        (Some(bound), Some(set)) if short(bound, set) => "fails",
        (Some(_), Some(_)) if matches!(bears, Bears::Told(_)) => "complies",
        _ => "cannot tell",
    };
    vec![
        (at + 1).to_string(),
        said,
        shown(told),
        shown(told.zip(factor).map(|(times, factor)| factor * times)),
        stands.to_owned(),
    ]
}

fn found(symbol: Symbol, value: f64, at: usize) -> TableValue {
    let printed = if symbol.symbol == BEARS.symbol {
        psig(value)
    } else {
        crate::formula::significant(value)
    };
    TableValue {
        symbol,
        value,
        printed,
        row: format!("component {}", at + 1),
    }
}
