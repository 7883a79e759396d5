//! What the sheets of fits share: the metals of the two parts, the standard tables of `tables/fit/`, and
//! how two zones of tolerance become limits and clearances.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Kind, ResultSpec, Symbol};
use crate::csv::{self, Span, Table};
use crate::error::SheetError;
use crate::tables::MATERIALS;
use measure::{Dimension, Length, Rounding};

/// The metals of the two parts of a fit.
pub const METALS: Argument = Argument {
    name: "materials",
    symbol: "materials",
    meaning: "the metals, outer part first",
    kind: Kind::Words {
        choices: &MATERIALS,
        roles: &["outer", "inner"],
    },
    required: true,
};

/// The ISO tolerances of one range of sizes.
struct Grades {
    sizes: Span,
    /// IT5 to IT11, micrometres.
    widths: [f64; 7],
}

/// The fundamental deviation of one letter for one range of sizes.
struct Deviation {
    letter: String,
    sizes: Span,
    micrometres: f64,
    grade: String,
}

/// The zones of one inch class for one range of sizes.
struct Class {
    class: String,
    sizes: Span,
    zones: Zones,
    /// The class and its range, in words.
    said: String,
}

static GRADES: Table<Grades> = Table::new(WHAT, || {
    let text = include_str!("../../../tables/fit/iso-grades.csv");
    let heading = [
        "over", "to", "IT5", "IT6", "IT7", "IT8", "IT9", "IT10", "IT11",
    ];
    csv::each(text, &heading, |[over, to, widths @ ..]| {
        let mut read = [0.0; 7];
        for (width, cell) in read.iter_mut().zip(&widths) {
            *width = csv::number(cell)?;
        }
        Ok(Grades {
            sizes: Span::read(&over, &to)?,
            widths: read,
        })
    })
});
static DEVIATIONS: Table<Deviation> = Table::new(WHAT, || {
    let text = include_str!("../../../tables/fit/iso-deviations.csv");
    let heading = ["letter", "over", "to", "deviation", "grade"];
    csv::each(text, &heading, |[letter, over, to, deviation, grade]| {
        Ok(Deviation {
            letter,
            sizes: Span::read(&over, &to)?,
            micrometres: csv::number(&deviation)?,
            grade,
        })
    })
});
static CLASSES: Table<Class> = Table::new(WHAT, || {
    let text = include_str!("../../../tables/fit/inch-classes.csv");
    let heading = ["class", "over", "to", "hole", "shaft_low", "shaft_high"];
    csv::each(text, &heading, |[class, over, to, hole, low, high]| {
        Ok(Class {
            sizes: Span::read(&over, &to)?,
            zones: Zones {
                hole: (0.0, csv::number(&hole)?),
                shaft: (csv::number(&low)?, csv::number(&high)?),
            },
            said: format!("{class}, above {over} to {to} in"),
            class,
        })
    })
});
/// Wheel center and shrinkage, inches.
static TIRES: Table<(f64, f64)> = Table::new(WHAT, || {
    let text = include_str!("../../../tables/fit/tire-shrinkage.csv");
    csv::each(text, &["center", "allowance"], |[center, allowance]| {
        Ok((csv::number(&center)?, csv::number(&allowance)?))
    })
});
const WHAT: &str = "table of fits";

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
pub fn answer(limits: &Limits, zones: Zones, symbols: &[Symbol], rows: [&str; 2]) -> Answer {
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
    let [hole, shaft] = rows;
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
                row: (*row).to_owned(),
            });
        }
    }
    answer
}

/// The ISO tolerance of `grade` (5 to 11) for a size in millimetres, in micrometres.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or does not reach.
pub fn iso_grade(sheet: &'static str, grade: u8, mm: f64) -> Result<f64, SheetError> {
    let row = GRADES.row(sheet, &format!("{mm} mm"), |row| row.sizes.holds(mm))?;
    let column = usize::from(grade).checked_sub(5);
    let width = column.and_then(|at| row.widths.get(at)).copied();
    width.ok_or_else(|| GRADES.fault(sheet, format!("no grade {grade}")))
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
) -> Result<(f64, &'static str), SheetError> {
    let row = DEVIATIONS.row(sheet, &format!("{letter} at {mm} mm"), |row| {
        row.letter == letter && row.sizes.holds(mm)
    })?;
    Ok((row.micrometres, &row.grade))
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
) -> Result<Option<(Zones, &'static str)>, SheetError> {
    let mut rows = CLASSES.rows(sheet)?.iter();
    let row = rows.find(|row| row.class == class && row.sizes.holds(inches));
    Ok(row.map(|row| (row.zones, row.said.as_str())))
}

/// The shrinkage of a tire for a wheel center of so many inches, read between the lines of the table;
/// none outside it.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read.
pub fn tire_shrinkage(sheet: &'static str, inches: f64) -> Result<Option<f64>, SheetError> {
    let points = TIRES.rows(sheet)?;
    let between = points.windows(2).find_map(|two| match two {
        [(low, a), (high, b)] if (*low - 1e-9..=*high + 1e-9).contains(&inches) => {
            Some(a + (b - a) * (inches - low) / (high - low))
        }
        _ => None,
    });
    Ok(between)
}
