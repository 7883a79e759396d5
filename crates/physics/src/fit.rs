//! What the sheets of fits share: the standard tables of `tables/fit/`, and how two zones of
//! tolerance become limits and clearances.

use crate::answer::{Answer, TableValue};
use crate::card::{ResultSpec, Symbol};
use crate::csv;
use crate::error::SheetError;
use measure::{Dimension, Length, Rounding};
use std::sync::OnceLock;

/// A table of `tables/fit/`, read the first time it is asked for.
struct Table {
    text: &'static str,
    heading: &'static [&'static str],
    read: OnceLock<Result<Rows, String>>,
}

/// The rows of a table with the line each stands on.
type Rows = Vec<(usize, Vec<String>)>;

impl Table {
    const fn new(text: &'static str, heading: &'static [&'static str]) -> Table {
        let read = OnceLock::new();
        Table {
            text,
            heading,
            read,
        }
    }

    fn rows(&self, sheet: &'static str) -> Result<&Rows, SheetError> {
        let read = self.read.get_or_init(|| csv::rows(self.text, self.heading));
        read.as_ref().map_err(|detail| fault(sheet, detail.clone()))
    }
}

static GRADES: Table = Table::new(
    include_str!("../../../tables/fit/iso-grades.csv"),
    &[
        "over", "to", "IT5", "IT6", "IT7", "IT8", "IT9", "IT10", "IT11",
    ],
);
static DEVIATIONS: Table = Table::new(
    include_str!("../../../tables/fit/iso-deviations.csv"),
    &["letter", "over", "to", "deviation", "grade"],
);
static CLASSES: Table = Table::new(
    include_str!("../../../tables/fit/inch-classes.csv"),
    &["class", "over", "to", "hole", "shaft_low", "shaft_high"],
);
static TIRES: Table = Table::new(
    include_str!("../../../tables/fit/tire-shrinkage.csv"),
    &["center", "allowance"],
);

/// The formula of the ISO system: deviations are thousandths of the unit of the book.
pub const FORMULA: &str = "
        h_max = d + E_s / 1000
        h_min = d + E_i / 1000
        s_max = d + e_s / 1000
        s_min = d + e_i / 1000
        c_max = h_max - s_min
        c_min = h_min - s_max";

/// The same for the inch classes, whose holes all begin at the nominal size.
pub const INCH_FORMULA: &str = "
        h_max = d + E_s / 1000
        h_min = d
        s_max = d + e_s / 1000
        s_min = d + e_i / 1000
        c_max = h_max - s_min
        c_min = h_min - s_max";

/// The three ways a fit can come out.
pub const BRANCHES: [&str; 3] = ["clearance", "transition", "interference"];

/// The four deviations, counted in `unit`: micrometres or thousandths of an inch.
pub const fn deviations(unit: &'static str, source: &'static str) -> [Symbol; 4] {
    [
        Symbol::named("E_s", unit, "upper deviation of the hole", source),
        Symbol::named("E_i", unit, "lower deviation of the hole", source),
        Symbol::named("e_s", unit, "upper deviation of the shaft", source),
        Symbol::named("e_i", unit, "lower deviation of the shaft", source),
    ]
}

/// The results of both sheets of fits. A clearance below zero is an interference.
pub const RESULTS: [ResultSpec; 7] = [
    limit("hole_min", "h_min", "least hole"),
    limit("hole_max", "h_max", "greatest hole"),
    limit("shaft_min", "s_min", "least shaft"),
    limit("shaft_max", "s_max", "greatest shaft"),
    limit(
        "clearance_min",
        "c_min",
        "least clearance; below zero it is the greatest interference",
    )
    .rounded(Rounding::Down),
    limit(
        "clearance_max",
        "c_max",
        "greatest clearance; below zero it is the least interference",
    )
    .rounded(Rounding::Up),
    ResultSpec::text("kind", "which kind of fit it comes to", SUM),
];
const SUM: &str = "nominal size and deviation added";

const fn limit(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Length, (5, 4), meaning, SUM)
}

/// The four deviations of a fit, thousandths of a millimetre or of an inch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zones {
    /// Lower and upper deviation of the hole.
    pub hole: (f64, f64),
    /// Lower and upper deviation of the shaft.
    pub shaft: (f64, f64),
}

/// The limits of a fit, and its clearances; below zero they are interferences.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Least and greatest hole.
    pub hole: (Length, Length),
    /// Least and greatest shaft.
    pub shaft: (Length, Length),
    /// Least and greatest clearance.
    pub clearance: (Length, Length),
}

/// The limits of nominal `size` with these `zones`, a thousandth of `unit` each.
pub fn limits(size: Length, zones: Zones, unit: Length) -> Limits {
    let thousandth = unit.to_m() / 1000.0;
    let at = |deviation: f64| Length::m(size.to_m() + deviation * thousandth);
    let both = |pair: (f64, f64)| (at(pair.0), at(pair.1));
    // Taken from the deviations and not from the limits, so that no dust of the size is left.
    let gap = |hole: f64, shaft: f64| Length::m((hole - shaft) * thousandth);
    Limits {
        hole: both(zones.hole),
        shaft: both(zones.shaft),
        clearance: (
            gap(zones.hole.0, zones.shaft.1),
            gap(zones.hole.1, zones.shaft.0),
        ),
    }
}

/// The answer both sheets give.
///
/// `symbols` are those of the card's table values, out of [`deviations`]; `rows` where hole and shaft
/// were found.
pub fn answer(limits: &Limits, zones: Zones, symbols: &[Symbol], rows: [String; 2]) -> Answer {
    let (least, most) = limits.clearance;
    let (branch, kind) = if zones.hole.0 >= zones.shaft.1 {
        (
            BRANCHES[0],
            "clearance fit: the shaft goes in whatever the parts are",
        )
    } else if zones.hole.1 <= zones.shaft.0 {
        (
            BRANCHES[2],
            "interference fit: the shaft is larger whatever the parts are",
        )
    } else {
        (
            BRANCHES[1],
            "transition fit: it may come out with clearance or with interference",
        )
    };
    let mut answer = Answer::new(branch)
        .with("hole_min", limits.hole.0)
        .with("hole_max", limits.hole.1)
        .with("shaft_min", limits.shaft.0)
        .with("shaft_max", limits.shaft.1)
        .with("clearance_min", least)
        .with("clearance_max", most)
        .with("kind", kind.to_owned());
    let [hole, shaft] = &rows;
    let known = [
        ("E_s", zones.hole.1, hole),
        ("E_i", zones.hole.0, hole),
        ("e_s", zones.shaft.1, shaft),
        ("e_i", zones.shaft.0, shaft),
    ];
    for symbol in symbols {
        if let Some((_, value, row)) = known.iter().find(|(name, ..)| *name == symbol.symbol) {
            answer.table_values.push(TableValue {
                symbol: *symbol,
                value: *value,
                printed: crate::formula::significant(*value),
                row: (*row).clone(),
            });
        }
    }
    answer
}

/// One cell of a table whose rows begin with the two ends of a range of sizes.
fn ranged(cells: &[String], at: usize, size: f64) -> Option<bool> {
    let end = |at: usize| cells.get(at)?.parse::<f64>().ok();
    // The dust of converting units must not push a size over the end of its range.
    Some(end(at)? + 1e-9 < size && size <= end(at + 1)? + 1e-9)
}

fn fault(sheet: &'static str, detail: String) -> SheetError {
    SheetError::OwnFault {
        sheet,
        what: "table of fits",
        detail,
    }
}

/// The ISO tolerance of `grade` (5 to 11) for a size in millimetres, in micrometres.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or does not reach.
pub fn iso_grade(sheet: &'static str, grade: u8, mm: f64) -> Result<f64, SheetError> {
    let column = usize::from(grade) - 3;
    for (line, row) in GRADES.rows(sheet)? {
        let bad = || fault(sheet, format!("line {line}"));
        if ranged(row, 0, mm).ok_or_else(bad)? {
            return row.get(column).and_then(|c| c.parse().ok()).ok_or_else(bad);
        }
    }
    Err(fault(sheet, format!("no row for {mm} mm")))
}

/// The fundamental deviation of a shaft of `letter` for a size in millimetres, in micrometres, and
/// whether it was read in a page or is from memory.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or does not reach.
pub fn iso_deviation(
    sheet: &'static str,
    letter: &str,
    mm: f64,
) -> Result<(f64, String), SheetError> {
    for (line, row) in DEVIATIONS.rows(sheet)? {
        let bad = || fault(sheet, format!("line {line}"));
        if row.first().is_some_and(|l| l == letter) && ranged(row, 1, mm).ok_or_else(bad)? {
            let value = row.get(3).and_then(|c| c.parse().ok()).ok_or_else(bad)?;
            return Ok((value, row.get(4).cloned().unwrap_or_default()));
        }
    }
    Err(fault(sheet, format!("no row for {letter} at {mm} mm")))
}

/// The zones of an inch class (`RC4`) for a size in inches, in thousandths, with the row's range;
/// none where no table was read.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn inch_class(
    sheet: &'static str,
    class: &str,
    inches: f64,
) -> Result<Option<(Zones, String)>, SheetError> {
    for (line, row) in CLASSES.rows(sheet)? {
        let bad = || fault(sheet, format!("line {line}"));
        if row.first().is_some_and(|c| c == class) && ranged(row, 1, inches).ok_or_else(bad)? {
            let cell = |at: usize| row.get(at).and_then(|c| c.parse().ok()).ok_or_else(bad);
            let zones = Zones {
                hole: (0.0, cell(3)?),
                shaft: (cell(4)?, cell(5)?),
            };
            let text = |at: usize| row.get(at).cloned().unwrap_or_default();
            let said = format!("{class}, above {} to {} in", text(1), text(2));
            return Ok(Some((zones, said)));
        }
    }
    Ok(None)
}

/// The shrinkage of a tire for a wheel center of so many inches, read between the lines of the table;
/// none outside it.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn tire_shrinkage(sheet: &'static str, inches: f64) -> Result<Option<f64>, SheetError> {
    let rows = TIRES.rows(sheet)?;
    let read = |row: &[String], at: usize| row.get(at).and_then(|c| c.parse::<f64>().ok());
    let points: Option<Vec<(f64, f64)>> = rows
        .iter()
        .map(|(_, row)| Some((read(row, 0)?, read(row, 1)?)))
        .collect();
    let points = points.ok_or_else(|| fault(sheet, "a row that is no number".to_owned()))?;
    let between = points.windows(2).find_map(|two| match two {
        [(low, a), (high, b)] if (*low - 1e-9..=*high + 1e-9).contains(&inches) => {
            Some(a + (b - a) * (inches - low) / (high - low))
        }
        _ => None,
    });
    Ok(between)
}
