//! The tables that laws look things up in, read from `tables/` where each has its card.

use crate::csv;
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

/// The row of the table of expansion for `material`.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or lacks a metal of [`MATERIALS`].
pub fn expansion(sheet: &'static str, material: &str) -> Result<Expansion, SheetError> {
    let fault = |detail: String| SheetError::OwnFault {
        sheet,
        what: "table of expansion",
        detail,
    };
    let heading = ["material", "per_100f", "grade", "source", "note"];
    let rows = csv::rows(EXPANSION, &heading).map_err(fault)?;
    for (line, row) in rows {
        let [name, printed, _, source, note] =
            <[String; 5]>::try_from(row).map_err(|_| fault(format!("line {line}")))?;
        if name == material {
            let per_100f = printed.parse().map_err(|_| fault(format!("line {line}")))?;
            return Ok(Expansion {
                material: name,
                per_100f,
                printed,
                source,
                note,
            });
        }
    }
    Err(fault(format!("no row for {material}")))
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

/// The allowance on the pitch diameter of an Acme screw of `class` (`2G`, `3G` or `4G`) and nominal
/// `diameter`, above zero and up to 5 in.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or does not reach the size.
pub fn acme_allowance(
    sheet: &'static str,
    class: &str,
    diameter: Length,
) -> Result<Allowance, SheetError> {
    let fault = |detail: String| SheetError::OwnFault {
        sheet,
        what: "table of allowances",
        detail,
    };
    let heading = ["over", "to", "2G", "3G", "4G", "grade", "note"];
    let column = heading.iter().position(|name| *name == class);
    let column = column.ok_or_else(|| fault(format!("no class {class}")))?;
    for (line, row) in csv::rows(ACME_ALLOWANCE, &heading).map_err(fault)? {
        let cell = |at: usize| row.get(at).cloned().unwrap_or_default();
        let (over, to) = (cell(0), cell(1));
        let upper = Size::parse(&format!("{to} in")).map_err(|e| fault(e.to_string()))?;
        // The dust of converting units must not push a size over the end of its range.
        if diameter.to_m() > upper.length().to_m() + 1e-12 {
            continue;
        }
        let printed = cell(column);
        let inches = printed.parse().map_err(|_| fault(format!("line {line}")))?;
        let computed = if cell(5) == "published" {
            ""
        } else {
            ", not legible, computed by rule"
        };
        let row = format!(
            "Machinery's Handbook 27 p. 1841 Table 10, over {over} to {to} in, {class}{computed}"
        );
        return Ok(Allowance {
            allowance: Length::inches(inches),
            printed,
            row,
        });
    }
    Err(fault("no row reaches this size".to_owned()))
}
