//! `boiler.least_wall`: how thin the plate may be where nobody measured.
//!
//! The plate is thought of in blocks of one size, of which some were searched for their thinnest place. The minima are
//! fitted with the extreme-value law of Gumbel by their mean and scatter, and the law is asked for the minimum of all
//! blocks. It can only make a plate thinner than it was measured, never thicker.

use crate::answer::{Answer, TableValue};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::readings::ends;
use measure::{Dimension, Length, Rounding, math, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GUMBEL: &str = "Gumbel's law of least values, by moments";
const GIVEN: &str = "the minima as given";
/// Under so many blocks nothing can be said of the tail.
pub const FEWEST: usize = 30;
/// Euler's constant, as the formula writes it.
const EULER: f64 = 0.5772156649;

const MEAN: Symbol = Symbol::of("m", Dimension::Length, "mean of the minima", GIVEN);
const SCATTER: Symbol = Symbol::of(
    "s",
    Dimension::Length,
    "their standard deviation, over one less than their number",
    GIVEN,
);
const VARIATE: Symbol = Symbol::of(
    "y",
    Dimension::Ratio,
    "logarithm of less the logarithm of 1 - 1/T",
    GUMBEL,
);

/// A result of the law, here and where a survey makes its own blocks.
pub(crate) const SCALE: ResultSpec = ResultSpec::quantity(
    "scale",
    "beta",
    Dimension::Length,
    (4, 3),
    "scale of the law: how fast the chance of thinner places falls",
    GUMBEL,
)
.rounded(Rounding::Up);
/// A result of the law, here and where a survey makes its own blocks.
pub(crate) const MODE: ResultSpec = ResultSpec::quantity(
    "mode",
    "mu",
    Dimension::Length,
    (4, 3),
    "the minimum most often met in a block",
    GUMBEL,
)
.rounded(Rounding::Down);
/// A result of the law, here and where a survey makes its own blocks.
pub(crate) const ESTIMATE: ResultSpec = ResultSpec::quantity(
    "estimate",
    "x",
    Dimension::Length,
    (3, 2),
    "minimum met once in all the blocks, by the law",
    GUMBEL,
)
.rounded(Rounding::Down);

static CARD: Card = Card {
    id: "boiler.least_wall",
    version: 1,
    title: "The thinnest place nobody measured",
    purpose: "From the thinnest reading of each of thirty or more blocks of a plate: an estimate of the thinnest place among \
        all the blocks, those not measured too. It serves to say where measuring was too thin, and it never raises a \
        pressure.",
    formula: "
        beta = s * sqrt(6) / pi
        mu = m + 0.5772156649 * beta
        x = mu + beta * y",
    book_units: None,
    arguments: &[
        Argument::list(
            "minima",
            Dimension::Length,
            "0.01 in",
            "4 in",
            (FEWEST, 400),
            "thinnest reading of each block searched, all blocks of one size; thirty at least, for fewer say nothing of the places nobody measured",
        ),
        Argument::quantity(
            "blocks",
            "T",
            Dimension::Count,
            "30",
            "100000",
            "blocks of that size in the whole plate, those searched among them",
        ),
    ],
    table_values: &[MEAN, SCATTER, VARIATE],
    lines: &[],
    results: &[
        SCALE,
        MODE,
        ESTIMATE,
        ResultSpec::quantity(
            "thinnest",
            "",
            Dimension::Length,
            (4, 3),
            "thinnest reading given",
            GIVEN,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "least",
            "",
            Dimension::Length,
            (3, 2),
            "the lesser of the two: never above the thinnest reading",
            GUMBEL,
        )
        .rounded(Rounding::Down),
    ],
    branches: &["minima"],
    validity: "Blocks of one size, chosen without looking for good or bad plate, each searched whole; one kind of wastage \
        over all of them. Thirty minima are few: with fewer the sheet refuses. Grooves at a seam, a row of stays or a \
        water line are not part of the field and are measured for themselves.",
    sources: &[
        Source {
            work: "HSE Research Report 016 (TWI, 2002)",
            locator: "pages read at studmed.ru",
            used_for: "minima of blocks and an extreme-value law for pitting",
        },
        Source {
            work: "from memory",
            locator: "checked against scipy 1.17.1, stats.gumbel_l",
            used_for: "the law for least values and its moments",
        },
    ],
    cautions: &[
        "An estimate finds no pit: where it comes out low, more plate is measured, and the reading governs.",
        "It never raises a pressure and never stands in for a survey that the law asks for.",
        "A minimum of a block is the thinnest of a whole search of it, not one reading in it.",
        boiler::MEASURED,
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
    ],
    closed_form: ClosedForm::No(
        "the mean, the deviation and a logarithm are worked from the list of minima",
    ),
};

/// Gumbel's law fitted to the minima of blocks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Mean of the minima.
    pub mean: Length,
    /// Their standard deviation.
    pub scatter: Length,
    /// Scale of the law.
    pub scale: Length,
    /// The minimum most often met.
    pub mode: Length,
}

impl Fit {
    /// The law with the mean and scatter of `minima`; none for fewer than thirty.
    pub fn of(minima: &[Length]) -> Option<Fit> {
        if minima.len() < FEWEST {
            return None;
        }
        let count = minima.len() as f64;
        let mean = minima.iter().map(|one| one.to_m()).sum::<f64>() / count;
        let squares: f64 = minima
            .iter()
            .map(|one| (one.to_m() - mean) * (one.to_m() - mean))
            .sum();
        let scatter = math::sqrt(squares / (count - 1.0));
        Some(Fit::by_moments(Length::m(mean), Length::m(scatter)))
    }

    /// The law with this mean and standard deviation, however they were come by.
    ///
    /// Source: Gumbel's law of least values by moments, from memory; held against scipy in the evidence.
    pub fn by_moments(mean: Length, scatter: Length) -> Fit {
        let scale = scatter.to_m() * math::sqrt(6.0) / std::f64::consts::PI;
        Fit {
            mean,
            scatter,
            scale: Length::m(scale),
            mode: Length::m(mean.to_m() + EULER * scale),
        }
    }

    /// What the law says of so many blocks, added to the answer of a sheet, with what must be said of it. `symbols` are
    /// mean, scatter and variate; `counted` says what the first two were taken of.
    pub(crate) fn told(
        self,
        mut answer: Answer,
        symbols: [Symbol; 3],
        blocks: f64,
        thinnest: Length,
        counted: &str,
    ) -> Answer {
        let estimate = self.once_in(blocks);
        let said = |length: Length| {
            format!(
                "{} in",
                show::number(length.to_inches(), 4, Rounding::Nearest)
            )
        };
        let y = variate(blocks);
        let mean = (self.mean.to_m(), said(self.mean), counted.to_owned());
        let scatter = (self.scatter.to_m(), said(self.scatter), counted.to_owned());
        let printed = show::number(y, 4, Rounding::Nearest);
        let variate = (y, printed, format!("ln(-ln(1 - 1/{blocks:.0}))"));
        for (symbol, (value, printed, row)) in symbols.into_iter().zip([mean, scatter, variate]) {
            answer.found.push(TableValue {
                symbol,
                value,
                printed,
                row,
            });
        }
        answer.notices.push(format!(
            "The least wall is never above the thinnest reading, {}: this raises no pressure.",
            said(thinnest)
        ));
        if estimate.to_m() <= 0.0 {
            answer.notices.push("The law gives no plate at all somewhere: either the wastage is of more than one kind or there are holes to be found. Measure.".into());
        }
        answer
            .with("scale", self.scale)
            .with("mode", self.mode)
            .with("estimate", estimate)
            .with("least", least(estimate, thinnest))
    }

    /// The minimum met once in so many blocks; below zero, a hole.
    pub fn once_in(self, blocks: f64) -> Length {
        Length::m(self.mode.to_m() + self.scale.to_m() * variate(blocks))
    }
}

/// The reduced variate of a minimum met once in `blocks`, two or more.
pub fn variate(blocks: f64) -> f64 {
    math::ln(-math::ln(1.0 - 1.0 / blocks))
}

/// The least wall to reckon with: what the law gives, but never above the thinnest reading nor below nothing.
pub fn least(estimate: Length, thinnest: Length) -> Length {
    Length::m(estimate.to_m().min(thinnest.to_m()).max(0.0))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let minima: Vec<Length> = inputs
        .list_si("minima")
        .iter()
        .map(|m| Length::m(*m))
        .collect();
    let blocks = inputs.need_si("blocks")?;
    let Some(fit) = Fit::of(&minima) else {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "{} minima say nothing of the places nobody measured",
                minima.len()
            ),
            format!(
                "the thinnest reading of each of {FEWEST} blocks or more; until then the thinnest reading is all that is known"
            ),
        ));
    };
    if blocks < minima.len() as f64 {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "{} minima were given for a plate of {blocks:.0} blocks",
                minima.len()
            ),
            "blocks in the whole plate, those searched among them",
        ));
    }
    let (thinnest, _) = ends(inputs, "minima")?;
    let answer = Answer::new("minima").with("thinnest", Length::m(thinnest));
    let row = format!("{} minima as given", minima.len());
    let symbols = [MEAN, SCATTER, VARIATE];
    Ok(fit.told(answer, symbols, blocks, Length::m(thinnest), &row))
}
