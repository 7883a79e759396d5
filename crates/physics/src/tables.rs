//! The tables that laws look things up in, read from `tables/` where each has its card.

use crate::answer::TableValue;
use crate::card::Symbol;
use crate::csv::{self, Table};
use crate::error::SheetError;
use measure::{Length, Size};

const EXPANSION: &str = include_str!("../../../tables/material/expansion.csv");
const ACME_ALLOWANCE: &str = include_str!("../../../tables/thread/acme-allowance.csv");

/// The metals of `tables/material/expansion.csv`, in its order.
pub const MATERIALS: [&str; 7] = [
    "cast-iron",
    "steel",
    "cast-steel",
    "brass",
    "copper",
    "wrought-iron",
    "bronze",
];

/// One row of the table of expansion.
#[derive(Debug, Clone, PartialEq)]
pub struct Expansion {
    /// The metal, by the word that names it.
    pub material: String,
    /// Growth of a unit of length for 100 Fahrenheit degrees.
    pub per_100f: f64,
    /// The figure as printed.
    pub printed: String,
    /// The book or data sheet.
    pub source: String,
    /// Which of the book's metals this is.
    pub note: String,
}

static EXPANSIONS: Table<Expansion> = Table::new("table of expansion", || {
    let heading = ["material", "per_100f", "grade", "source", "note"];
    csv::each(
        EXPANSION,
        &heading,
        |[material, printed, _, source, note]| {
            Ok(Expansion {
                material,
                per_100f: csv::number(&printed)?,
                printed,
                source,
                note,
            })
        },
    )
});

impl Expansion {
    /// The figure as the value of `symbol`, as the book prints it.
    pub(crate) fn value_of(&self, symbol: Symbol) -> TableValue {
        TableValue {
            symbol,
            value: self.per_100f,
            printed: self.printed.clone(),
            row: format!("{}: {}", self.source, self.note),
        }
    }
}

/// The row of the table of expansion for `material`.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or lacks a metal of [`MATERIALS`].
pub fn expansion(sheet: &'static str, material: &str) -> Result<&'static Expansion, SheetError> {
    EXPANSIONS.row(sheet, material, |row| row.material == material)
}

/// One figure of the table of Acme allowances.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowance {
    /// The allowance.
    pub allowance: Length,
    /// The figure as printed, inches.
    pub printed: String,
    /// The range of sizes it is for, and how the figure was come by.
    pub row: String,
}

/// The classes the table has a column for.
const CLASSES: [&str; 3] = ["2G", "3G", "4G"];

/// The allowances of the three [`CLASSES`] for sizes up to the one that ends their range.
struct Allowances {
    to: Length,
    classes: [Allowance; 3],
}

static ACME_ALLOWANCES: Table<Allowances> = Table::new("table of allowances", || {
    let heading = ["over", "to", "2G", "3G", "4G", "grade", "note"];
    csv::each(
        ACME_ALLOWANCE,
        &heading,
        |[over, to, loose, close, closest, grade, _]| {
            let upper = Size::parse(&format!("{to} in")).map_err(|why| why.to_string())?;
            let computed = if grade == "published" {
                ""
            } else {
                ", not legible, computed by rule"
            };
            let of = |printed: String, class: &str| {
                Ok::<Allowance, String>(Allowance {
                    allowance: Length::inches(csv::number(&printed)?),
                    printed,
                    row: format!(
                        "Machinery's Handbook 27 p. 1841 Table 10, over {over} to {to} in, {class}{computed}"
                    ),
                })
            };
            Ok(Allowances {
                to: upper.length(),
                classes: [
                    of(loose, CLASSES[0])?,
                    of(close, CLASSES[1])?,
                    of(closest, CLASSES[2])?,
                ],
            })
        },
    )
});

/// The allowance on the pitch diameter of an Acme screw of `class` (`2G`, `3G` or `4G`) and nominal
/// `diameter`, above zero and up to 5 in.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or does not reach the size.
pub fn acme_allowance(
    sheet: &'static str,
    class: &str,
    diameter: Length,
) -> Result<&'static Allowance, SheetError> {
    // The dust of converting units must not push a size over the end of its range.
    let row = ACME_ALLOWANCES.row(sheet, "this size", |row| {
        diameter.to_m() <= row.to.to_m() + 1e-12
    })?;
    let mut classes = CLASSES.iter().zip(&row.classes);
    let found = classes.find(|(name, _)| **name == class);
    found
        .map(|(_, allowance)| allowance)
        .ok_or_else(|| ACME_ALLOWANCES.fault(sheet, format!("no class {class}")))
}
