//! `wear.openings`: what the openings of the past say of the next: findings, chance of any, hours.
//!
//! Openings are few, so what was believed before them is part of the answer and is stated: a prior, in findings and in
//! openings. With none seen it alone answers; each opening that is written down outweighs it more.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::wear::CAUTIONS;
use measure::{Dimension, Rounding, math, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const UPDATE: &str = "what was believed and what was seen, added";
const NEXT: &str = "negative binomial: a Poisson count whose rate is known only so far";
/// The longest list of chances that is printed.
const MOST_ROWS: u32 = 40;

static CARD: Card = Card {
    id: "wear.openings",
    version: 1,
    title: "What past openings say of the next: findings, the chance of any, and hours",
    purpose: "From how many findings so many openings gave, and from what was believed before any was seen: how many the \
        next opening is expected to give, the chance that it gives none, and the hours they take.",
    formula: "
        A = a + k
        B = b + n
        m = A / B * o
        s = sqrt(m * (1 + o / B))
        q = (B / (B + o))^A
        p = 1 - q
        H = m * h",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "found",
            "k",
            Dimension::Count,
            "0",
            "1000",
            "findings of this kind at the openings seen, all together",
        ),
        Argument::quantity(
            "openings",
            "n",
            Dimension::Count,
            "0",
            "1000",
            "openings seen; one at which nothing was found counts as much as any other",
        ),
        Argument::quantity(
            "prior_found",
            "a",
            Dimension::Ratio,
            "0.01",
            "1000",
            "findings believed in before any opening was seen",
        ),
        Argument::quantity(
            "prior_openings",
            "b",
            Dimension::Ratio,
            "0.01",
            "1000",
            "how many openings that belief is to weigh as much as",
        ),
        Argument::quantity(
            "ahead",
            "o",
            Dimension::Count,
            "1",
            "100",
            "openings ahead that are asked about",
        ),
        Argument::quantity(
            "hours_each",
            "h",
            Dimension::Ratio,
            "0",
            "5000",
            "hours that one finding takes, likely",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "shape",
            "A",
            Dimension::Ratio,
            (2, 2),
            "findings believed in after what was seen",
            UPDATE,
        ),
        ResultSpec::quantity(
            "weight",
            "B",
            Dimension::Ratio,
            (2, 2),
            "openings that this belief weighs as much as",
            UPDATE,
        ),
        ResultSpec::quantity(
            "expected",
            "m",
            Dimension::Ratio,
            (3, 3),
            "findings to be expected at the openings ahead",
            NEXT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "spread",
            "s",
            Dimension::Ratio,
            (3, 3),
            "standard deviation of them",
            NEXT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "none",
            "q",
            Dimension::Ratio,
            (4, 4),
            "chance that there is none",
            NEXT,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "any",
            "p",
            Dimension::Ratio,
            (4, 4),
            "chance that there is one or more",
            NEXT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "hours",
            "H",
            Dimension::Ratio,
            (1, 1),
            "hours to be expected for them",
            "findings times hours of each",
        )
        .rounded(Rounding::Up),
        ResultSpec::table(
            "chances",
            "how many there may be, and the chance of it",
            NEXT,
        ),
    ],
    branches: &["openings"],
    validity: "Findings that come singly and do not call each other, at openings of one kind, on an engine run and looked \
        after as before. Where one bad year gives many at once the spread is greater than shown. The prior is somebody's \
        belief: it is shown, and with few openings it is most of the answer. The number ahead is a negative binomial \
        count; hours are taken as alike for each finding, and no spread is told of them.",
    sources: &[
        Source {
            work: "A. Johnson, M. Ott, M. Dogucu, Bayes Rules! An Introduction to Applied Bayesian Modeling",
            locator: "chapter 5, fraud risk calls: Gamma(10, 2) and 6, 2, 2, 1 calls give Gamma(21, 6)",
            used_for: "the worked update; seen in notes on the chapter (r4ds.github.io/bookclub-bayes_rules)",
        },
        Source {
            work: "A. Gelman and others, Bayesian Data Analysis, 3rd edition",
            locator: "section 2.6 (recalled, not read)",
            used_for: "that the count ahead is negative binomial; held against scipy",
        },
    ],
    cautions: CAUTIONS,
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let need = |name| inputs.need_si(name);
    let shape = need("prior_found")? + need("found")?;
    let weight = need("prior_openings")? + need("openings")?;
    let ahead = need("ahead")?;
    let expected = shape / weight * ahead;
    let none = math::pow(weight / (weight + ahead), shape);
    let mut answer = Answer::new("openings")
        .with("shape", Outcome::Si(shape))
        .with("weight", Outcome::Si(weight))
        .with("expected", Outcome::Si(expected))
        .with(
            "spread",
            Outcome::Si(math::sqrt(expected * (1.0 + ahead / weight))),
        )
        .with("none", Outcome::Si(none))
        .with("any", Outcome::Si(1.0 - none))
        .with("chances", chances(shape, ahead / (weight + ahead), none));
    if let Some(hours) = inputs.si("hours_each") {
        answer = answer.with("hours", Outcome::Si(expected * hours));
    }
    if need("openings")? < 1.0 {
        answer
            .notices
            .push("No opening was seen: this is the prior and nothing else.".to_owned());
    }
    Ok(answer)
}

/// The chance of each number until what is over is less than one in a thousand. `step` is the share of the next opening
/// among all that weigh.
fn chances(shape: f64, step: f64, none: f64) -> Outcome {
    let mut rows = Vec::new();
    let (mut chance, mut sum) = (none, 0.0);
    for count in 0..MOST_ROWS {
        sum += chance;
        rows.push(vec![
            count.to_string(),
            show::number(chance, 4, Rounding::Nearest),
            show::number((1.0 - sum).max(0.0), 4, Rounding::Up),
        ]);
        if 1.0 - sum < 0.001 {
            break;
        }
        chance *= step * (shape + f64::from(count)) / f64::from(count + 1);
    }
    Outcome::Table {
        columns: ["findings", "chance", "chance of more"]
            .map(str::to_owned)
            .to_vec(),
        rows,
    }
}
