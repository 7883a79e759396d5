//! `boiler.remaining_life`: how fast a plate wastes, how long it has, and when it is measured again.
//!
//! The rate is the greater of that since the first reading and that since the one before, so that a corrosion that has
//! lately begun is not drowned in quiet years. This crate knows no dates: a reading comes with its age.

use crate::answer::{Answer, Assumption, Outcome, TableValue, less};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::steam_safety_valve::paired;
use measure::{Dimension, Length, Rounding, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GIVEN: &str = "the readings as given";
const RATE: &str = "thickness lost over the years it took";
const GREATER: &str = "the greater of the long and the short rate";
const LIFE: &str = "thickness to spare over the rate";
const HALF: &str = "half of the life, or what the rule allows where that is less";

const SYMBOLS: [Symbol; 6] = [
    Symbol::of("t_0", Dimension::Length, "the oldest reading", GIVEN),
    Symbol::of("y_0", Dimension::Ratio, "years since it", GIVEN),
    Symbol::of(
        "t_1",
        Dimension::Length,
        "the reading before the newest",
        GIVEN,
    ),
    Symbol::of("y_1", Dimension::Ratio, "years since it", GIVEN),
    Symbol::of("t_2", Dimension::Length, "the newest reading", GIVEN),
    Symbol::of("y_2", Dimension::Ratio, "years since it", GIVEN),
];

static CARD: Card = Card {
    id: "boiler.remaining_life",
    version: 1,
    title: "Wastage, remaining life and the next measuring",
    purpose: "From readings of one place over the years: the loss a year, the years until the thickness required is \
        reached, and how soon the place must be measured again.",
    formula: "
        r_l = (t_0 - t_2) / (y_0 - y_2)
        r_s = (t_1 - t_2) / (y_1 - y_2)
        r = max(r_l, r_s, r_m)
        L = max(0, t_2 - t_r) / r
        H = L / 2
        N = min(H, y_x)
        B = N - y_2",
    book_units: None,
    arguments: &[
        Argument::list(
            "readings",
            Dimension::Length,
            "0.01 in",
            "4 in",
            (2, 12),
            "thickness of the same place at each reading",
        ),
        Argument::list(
            "ages",
            Dimension::Ratio,
            "0",
            "150",
            (2, 12),
            "how many years ago each was taken, in the same order; 0 is today",
        ),
        Argument::quantity(
            "required",
            "t_r",
            Dimension::Length,
            "0.01 in",
            "4 in",
            "least thickness that the allowed pressure requires here",
        ),
        Argument::quantity(
            "least_rate",
            "r_m",
            Dimension::Length,
            "0 in",
            "0.2 in",
            "loss a year to reckon with at least",
        )
        .optional(),
        Argument::quantity(
            "longest",
            "y_x",
            Dimension::Ratio,
            "0.1",
            "40",
            "longest time in years between measurings that the rule or the shop allows",
        )
        .optional(),
    ],
    table_values: &SYMBOLS,
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "rate_long",
            "r_l",
            Dimension::Length,
            (5, 4),
            "loss a year since the oldest reading",
            RATE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "rate_short",
            "r_s",
            Dimension::Length,
            (5, 4),
            "loss a year since the reading before",
            RATE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "rate",
            "r",
            Dimension::Length,
            (5, 4),
            "loss a year that is reckoned with",
            GREATER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "life",
            "L",
            Dimension::Ratio,
            (1, 1),
            "years from the newest reading until the thickness required is reached",
            LIFE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "half_life",
            "H",
            Dimension::Ratio,
            (1, 1),
            "half of that",
            HALF,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "interval",
            "N",
            Dimension::Ratio,
            (1, 1),
            "years from the newest reading to the next",
            HALF,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "next_in",
            "B",
            Dimension::Ratio,
            (1, 1),
            "years from today to the next; overdue, with a minus",
            HALF,
        )
        .rounded(Rounding::Down),
        ResultSpec::table(
            "rates",
            "the loss a year between each reading and the next",
            RATE,
        ),
    ],
    branches: &["wastage"],
    validity: "Even wastage of one place, measured at that place each time, by instruments that agree. Pits and grooves run \
        ahead of it, and cracks know no rate. Two readings close together say more of the instrument than of the plate.",
    sources: &[
        Source {
            work: "API 510, 10th edition",
            locator: "calculation sheet and questions on corrosion (pdfcoffee.com; scribd 693504388)",
            used_for: "long and short rate, remaining life, half of it, and the worked cases",
        },
        Source {
            work: "API 510",
            locator: "the same: ten years at most",
            used_for: "that a longest time bounds the interval; the number is an argument",
        },
    ],
    cautions: &[
        "A life is a forecast and no permission: the law's own inspections come when they come, however long the plate has.",
        "At or below the thickness required the boiler does not wait: the pressure, the plate or the calculation is changed by those who may.",
        "A reading thicker than the one before is a fault of measuring: measure again before anything is reckoned from it.",
        boiler::MEASURED,
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// One reading of a thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The thickness.
    pub thickness: Length,
    /// How many years ago it was taken.
    pub age: f64,
}

/// Loss a year from one reading to a later one; a gain, with a minus.
///
/// Source: API 510, long-term and short-term corrosion rate.
pub fn rate(old: Reading, new: Reading) -> Length {
    let lost = less(
        old.thickness.to_m(),
        new.thickness.to_m(),
        Dimension::Length,
    );
    Length::m(lost / less(old.age, new.age, Dimension::Ratio))
}

/// Years from a thickness to the one required at this loss a year; none left at or below it.
///
/// Source: API 510, remaining life. No answer for a rate that is not above zero.
pub fn life(present: Length, required: Length, rate: Length) -> Option<f64> {
    let spare = less(present.to_m(), required.to_m(), Dimension::Length).max(0.0);
    (rate.to_m() > 0.0).then(|| spare / rate.to_m())
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (thicknesses, ages) = (inputs.list_si("readings"), inputs.list_si("ages"));
    paired(CARD.id, ["readings", "ages"], thicknesses, ages)?;
    let mut readings: Vec<Reading> = thicknesses
        .iter()
        .zip(ages)
        .map(|(thickness, age)| Reading {
            thickness: Length::m(*thickness),
            age: *age,
        })
        .collect();
    readings.sort_by(|a, b| b.age.total_cmp(&a.age));
    let [first, .., new] = readings.as_slice() else {
        return Err(SheetError::impossible(
            CARD.id,
            "fewer than two readings were given",
            "two or more",
        ));
    };
    let (first, new) = (*first, *new);
    let before = readings.iter().rev().nth(1).copied().unwrap_or(first);
    // A tenth of a day: nearer together than that two readings are one.
    if readings
        .windows(2)
        .any(|two| matches!(two, [old, new] if old.age - new.age < 3e-4))
    {
        return Err(SheetError::impossible(
            CARD.id,
            "two readings have the same age",
            "one reading for each day: the thinnest of that day",
        ));
    }
    let (long, short) = (rate(first, new), rate(before, new));
    let required = inputs.need_length("required")?;
    let mut answer = Answer::new("wastage")
        .with("rate_long", long)
        .with("rate_short", short);
    let measured = long.to_m().max(short.to_m());
    let reckoned = match inputs.si("least_rate") {
        // Without a loss, and without a rate to reckon with, the rate and the life cannot be told.
        None if measured <= 0.0 => None,
        None => {
            answer.assumptions.push(Assumption {
                argument: "least_rate",
                text: "0 in",
                si: 0.0,
                why: "none was said: only what was measured is reckoned with",
            });
            Some(measured)
        }
        Some(least) => Some(measured.max(least)),
    };
    match reckoned {
        Some(reckoned) => answer = lived(answer, inputs, new, required, Length::m(reckoned))?,
        None => answer.notices.push("These readings show no loss, so no life follows from them: say a least_rate to reckon with, such as what the instrument cannot see in that time.".into()),
    }
    for (at, reading) in [first, before, new].into_iter().enumerate() {
        let symbols = SYMBOLS.iter().skip(2 * at);
        let values = [
            (
                reading.thickness.to_m(),
                format!("{} in", inches(reading.thickness, 4)),
            ),
            (
                reading.age,
                format!("{} years", show::number(reading.age, 2, Rounding::Nearest)),
            ),
        ];
        for (symbol, (value, printed)) in symbols.zip(values) {
            answer.found.push(TableValue {
                symbol: *symbol,
                value,
                printed,
                row: GIVEN.to_owned(),
            });
        }
    }
    answer.notices.extend(remarks(
        &readings,
        reckoned.unwrap_or(f64::INFINITY),
        required,
    ));
    Ok(answer.with("rates", table(&readings)))
}

/// Adds the rate, the life it leaves and the next measuring.
fn lived(
    answer: Answer,
    inputs: &Inputs,
    new: Reading,
    required: Length,
    rate: Length,
) -> Result<Answer, SheetError> {
    let life = life(new.thickness, required, rate).ok_or_else(|| {
        SheetError::impossible(
            CARD.id,
            "no loss was measured and the least rate is nothing",
            "a least_rate above zero to reckon with",
        )
    })?;
    let half = life / 2.0;
    let mut answer = answer
        .with("rate", rate)
        .with("life", Outcome::Si(life))
        .with("half_life", Outcome::Si(half));
    if let Some(longest) = inputs.si("longest") {
        let interval = half.min(longest);
        let next = less(interval, new.age, Dimension::Ratio);
        answer = answer
            .with("interval", Outcome::Si(interval))
            .with("next_in", Outcome::Si(next));
        if next <= 0.0 {
            answer
                .notices
                .push("The next measuring is due now or overdue.".into());
        }
    }
    Ok(answer)
}

fn inches(length: Length, places: u32) -> String {
    show::number(length.to_inches(), places, Rounding::Nearest)
}

fn between(readings: &[Reading]) -> impl Iterator<Item = (Reading, Reading, Length)> + '_ {
    readings.windows(2).filter_map(|two| match two {
        [old, new] => Some((*old, *new, rate(*old, *new))),
        _ => None,
    })
}

fn remarks(readings: &[Reading], reckoned: f64, required: Length) -> Vec<String> {
    let mut said = Vec::new();
    if between(readings).any(|(_, _, rate)| rate.to_m() < 0.0) {
        said.push("A reading is thicker than the one before it: plate does not grow. Measure again before this is believed.".to_owned());
    }
    if between(readings).any(|(_, _, rate)| boiler::over(rate.to_m(), reckoned)) {
        said.push("Between two earlier readings it went faster than is reckoned with here: ask what was different then.".to_owned());
    }
    if readings
        .last()
        .is_some_and(|new| new.thickness.to_m() <= required.to_m())
    {
        said.push(
            "The newest reading is at or below the thickness required: there is no life left."
                .to_owned(),
        );
    }
    said
}

fn table(readings: &[Reading]) -> Outcome {
    let years = |age: f64| show::number(age, 2, Rounding::Nearest);
    let rows = between(readings)
        .map(|(old, new, rate)| vec![years(old.age), years(new.age), inches(rate, 5)]);
    Outcome::Table {
        rows: rows.collect(),
        columns: ["years ago", "to years ago", "lost a year, in"]
            .map(str::to_owned)
            .to_vec(),
    }
}
