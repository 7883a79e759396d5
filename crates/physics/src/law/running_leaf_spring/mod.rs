//! `running.leaf_spring`: what a half-elliptic spring carries, how it is stressed and how far it goes down.
//!
//! Leaves that shorten by steps to the ends are a beam of one strength along its length: the stress is that at the band
//! and the spring bends to a round. Two rules of the trade stand beside it: the load on each inch of leaf, which a chart
//! of the 1890s goes by, and D. K. Clark's safe load.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BEAM: &str = "beam of uniform strength, from memory";
const CHART: &str = "American Engineer and Railroad Journal, 1890s";
const CLARK: &str = "D. K. Clark, in Molesworth's pocket-book, page 501";

static CARD: Card = Card {
    id: "running.leaf_spring",
    version: 1,
    title: "Half-elliptic leaf spring",
    purpose: "Stress and deflection of a half-elliptic spring under its load, beside two rules of the trade for what it \
        may carry.",
    formula: "
        f_b = 3 * q * a / (2 * n * b * t^2)
        d = 3 * q * a^3 / (8 * e_m * n * b * t^3)
        r = q / d
        z = q / (n * b)
        w_c = 2240 * b * (16 * t)^2 * n / (11.3 * a)
        u = q / w_c",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "leaves",
            "n",
            Dimension::Count,
            "1",
            "60",
            "leaves, the top one counted",
        ),
        Argument::quantity(
            "width",
            "b",
            Dimension::Length,
            "1 in",
            "8 in",
            "width of a leaf",
        ),
        Argument::quantity(
            "thickness",
            "t",
            Dimension::Length,
            "0.1 in",
            "1 in",
            "thickness of a leaf",
        ),
        Argument::quantity(
            "span",
            "a",
            Dimension::Length,
            "10 in",
            "80 in",
            "span from hanger to hanger, loaded; less the band, where the band is tight",
        ),
        Argument::quantity(
            "load",
            "q",
            Dimension::Force,
            "100 lb",
            "60000 lb",
            "load at the band",
        ),
        Argument::quantity(
            "modulus",
            "e_m",
            Dimension::Stress,
            "20000000 psi",
            "35000000 psi",
            "modulus of elasticity of the leaves' steel",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "stress",
            "f_b",
            Dimension::Stress,
            (0, 1),
            "bending stress at the band",
            BEAM,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "deflection",
            "d",
            Dimension::Length,
            (3, 2),
            "how far it goes down under the load",
            BEAM,
        ),
        ResultSpec::quantity(
            "rate",
            "r",
            Dimension::Ratio,
            (0, 0),
            "pounds for an inch of deflection",
            BEAM,
        ),
        ResultSpec::quantity(
            "per_leaf_inch",
            "z",
            Dimension::Ratio,
            (1, 1),
            "pounds on each leaf and inch of its width, as the chart counts",
            CHART,
        ),
        ResultSpec::quantity(
            "clark_load",
            "w_c",
            Dimension::Force,
            (0, 0),
            "safe load by Clark's rule",
            CLARK,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "clark_share",
            "u",
            Dimension::Ratio,
            (2, 2),
            "the load as a share of Clark's",
            CLARK,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["half-elliptic"],
    validity: "Half-elliptic springs, load in the middle, leaves of one section stepped evenly to the ends. Friction between the \
        leaves is left out: a rusty spring is stiffer. Two springs tip to tip go down twice as far.",
    sources: &[
        Source {
            work: "American Engineer and Railroad Journal, 1890s (read in a picture of the page, afripics 19186008)",
            locator: "chart of half-elliptic springs",
            used_for: "195 lb on each leaf and inch for 3/8 in leaves at 40 in span: 15 leaves of 4 in carry 11,700 lb",
        },
        Source {
            work: "Molesworth, Pocket-book of Useful Formulae",
            locator: "page 501, D. K. Clark",
            used_for: "safe load in long tons: width times the square of the thickness in sixteenths times leaves over 11.3 spans",
        },
        Source {
            work: "Strength of materials",
            locator: "from memory",
            used_for: "stress and deflection of a beam of uniform strength",
        },
    ],
    cautions: &[
        "A spring under load is never unbolted: take the load on blocking first. It stores enough to kill.",
        "By the chart's load and this formula a working stress is near 80,000 psi; new leaves want their own maker's figure.",
        "How many broken leaves condemn a spring is a matter of law, not of this sheet: look at the rule.",
        "A spring changed on one wheel shifts weight to the others: see that the equalizers come level.",
    ],
    closed_form: ClosedForm::Yes,
};

/// A half-elliptic spring, in inches and pounds.
#[derive(Debug, Clone, Copy)]
pub struct Spring {
    /// Leaves.
    pub leaves: f64,
    /// Width of a leaf, in.
    pub width: f64,
    /// Thickness of a leaf, in.
    pub thickness: f64,
    /// Span, in.
    pub span: f64,
}

impl Spring {
    /// Bending stress at the band, psi, under `load` pounds.
    pub fn stress(self, load: f64) -> f64 {
        3.0 * load * self.span / (2.0 * self.leaves * self.width * self.thickness * self.thickness)
    }

    /// Deflection in inches under `load` pounds, the steel's modulus in psi.
    pub fn deflection(self, load: f64, modulus: f64) -> f64 {
        let section = self.leaves * self.width * self.thickness * self.thickness * self.thickness;
        3.0 * load * self.span * self.span * self.span / (8.0 * modulus * section)
    }

    /// Safe load in pounds by Clark's rule.
    ///
    /// Source: Molesworth, page 501: long tons are B T² N / (11.3 S), T in sixteenths of an inch.
    pub fn clark(self) -> f64 {
        let sixteenths = 16.0 * self.thickness;
        2240.0 * self.width * sixteenths * sixteenths * self.leaves / (11.3 * self.span)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |name| inputs.need_inch(name);
    let spring = Spring {
        leaves: of("leaves")?,
        width: of("width")?,
        thickness: of("thickness")?,
        span: of("span")?,
    };
    let load = of("load")?;
    let stress = spring.stress(load);
    let clark = spring.clark();
    let psi = measure::Stress::psi;
    let mut answer = Answer::new("half-elliptic")
        .with("stress", psi(stress))
        .with(
            "per_leaf_inch",
            Outcome::Si(load / (spring.leaves * spring.width)),
        )
        .with("clark_load", measure::Force::lbf(clark))
        .with("clark_share", Outcome::Si(load / clark));
    if let Some(modulus) = inputs.inch("modulus") {
        let down = spring.deflection(load, modulus);
        answer = answer
            .with("deflection", measure::Length::inches(down))
            .with("rate", Outcome::Si(load / down));
    }
    if load > clark {
        answer
            .notices
            .push("The load is more than Clark's rule allows.".to_owned());
    }
    Ok(answer)
}
