//! Two thick cylinders, one forced into the other, by the theory of Lamé: elastic, long enough that
//! their ends do not matter, equally warm.
//!
//! A cylinder of inside diameter *a* and outside diameter *b* under a pressure *p* at its bore carries
//! the hoop stress *p (b² + a²)/(b² - a²)* there; under *p* from outside it carries
//! *-p (b² + a²)/(b² - a²)* at its outside. The strain that each gives, with Poisson's share of the
//! pressure itself, adds up to the interference.

use crate::answer::Assumption;
use crate::card::Argument;
use crate::csv::{self, Table};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Length, Stress};

const ELASTIC: &str = include_str!("../../../tables/material/elastic.csv");

/// One row of the table of elastic constants.
#[derive(Debug, Clone, PartialEq)]
pub struct Elastic {
    /// The metal, by the word that names it.
    pub material: String,
    /// The modulus as a person would type it: `30000000 psi`.
    pub modulus_text: String,
    /// Modulus of elasticity.
    pub modulus: Stress,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Which metal the figures are for.
    pub note: String,
}

static METALS: Table<Elastic> = Table::new("table of elastic constants", || {
    let heading = [
        "material",
        "modulus_mpsi",
        "poisson",
        "grade_modulus",
        "grade_poisson",
        "note",
    ];
    csv::each(
        ELASTIC,
        &heading,
        |[material, mpsi, poisson, _, _, note]| {
            let ksi = csv::number(&mpsi)? * 1000.0;
            Ok(Elastic {
                material,
                modulus_text: format!("{ksi:.0} ksi"),
                modulus: Stress::ksi(ksi),
                poisson: csv::number(&poisson)?,
                note,
            })
        },
    )
});

/// The elastic constants of `material`.
///
/// # Errors
/// [`SheetError::OwnFault`] when the table cannot be read or lacks the metal.
pub fn elastic(sheet: &'static str, material: &str) -> Result<&'static Elastic, SheetError> {
    METALS.row(sheet, material, |row| row.material == material)
}

/// A modulus of elasticity that a maker's data sheet may give.
pub(crate) const fn modulus(
    name: &'static str,
    symbol: &'static str,
    meaning: &'static str,
) -> Argument {
    let (least, most) = ("5000 ksi", "35000 ksi");
    Argument::quantity(name, symbol, Dimension::Stress, least, most, meaning).optional()
}

impl Elastic {
    /// The modulus given as `name`, or this metal's, said aloud.
    pub(crate) fn modulus_for(
        &'static self,
        inputs: &Inputs,
        name: &'static str,
        assumptions: &mut Vec<Assumption>,
    ) -> Stress {
        if let Some(given) = inputs.si(name) {
            return Stress::pascals(given);
        }
        assumptions.push(Assumption {
            argument: name,
            text: &self.modulus_text,
            si: self.modulus.to_pascals(),
            why: "by the name of the metal, tables/material/elastic.csv; its maker's data sheet governs",
        });
        self.modulus
    }
}

/// One of the two cylinders: the diameter that is not the common one, and its metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// Outside diameter of the outer cylinder; bore of the inner one, zero where it is solid.
    pub free: Length,
    /// Modulus of elasticity.
    pub modulus: Stress,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Two cylinders forced together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pressed {
    /// Pressure between them.
    pub pressure: Stress,
    /// Hoop stress at the bore of the outer one, pulling.
    pub outer_hoop: Stress,
    /// Hoop stress at the outside of the inner one, pressing: below zero.
    pub inner_hoop: Stress,
    /// By how much the outer one grows over its outside, on the diameter.
    pub growth: Length,
    /// By how much the bore of the inner one closes, on the diameter; nothing where it is solid.
    pub close_in: Length,
}

/// The `outer` cylinder on the `inner` one at `diameter`, which is larger by `interference` than the
/// hole it goes into. Holds while both stay elastic and `inner.free < diameter < outer.free`.
///
/// Source: Lamé's theory of thick cylinders, as given by gani-mech-toolbox.blogspot.com (thick-wall
/// theory for cylinders) and derived at the head of this file.
pub fn pressed(diameter: Length, interference: Length, outer: Member, inner: Member) -> Pressed {
    let square = |length: Length| length.to_m() * length.to_m();
    let (d, out, bore) = (square(diameter), square(outer.free), square(inner.free));
    let (outer_ratio, inner_ratio) = ((out + d) / (out - d), (d + bore) / (d - bore));
    let give = (outer_ratio + outer.poisson) / outer.modulus.to_pascals()
        + (inner_ratio - inner.poisson) / inner.modulus.to_pascals();
    let pressure = interference.to_m() / (diameter.to_m() * give);
    let growth = 2.0 * pressure * d * outer.free.to_m() / (outer.modulus.to_pascals() * (out - d));
    let close = 2.0 * pressure * d * inner.free.to_m() / (inner.modulus.to_pascals() * (d - bore));
    Pressed {
        pressure: Stress::pascals(pressure),
        outer_hoop: Stress::pascals(pressure * outer_ratio),
        inner_hoop: Stress::pascals(-pressure * inner_ratio),
        growth: Length::m(growth),
        close_in: Length::m(close),
    }
}

/// The interference that makes `pressure` between the two: [`pressed`] the other way about.
pub fn interference(diameter: Length, pressure: Stress, outer: Member, inner: Member) -> Length {
    let one = pressed(diameter, Length::m(1.0), outer, inner).pressure;
    Length::m(pressure.to_pascals() / one.to_pascals())
}
