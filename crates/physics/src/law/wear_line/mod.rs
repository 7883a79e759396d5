//! `wear.line`: the straight line through readings of one feature that nothing was cut between.
//!
//! Where a feature was read at several openings and left as it was each time, all its readings lie on one history, and
//! the least-squares line uses them all. Across a re-cut they do not: that is `wear.forecast`.

use crate::answer::{Answer, Assumption, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::chance;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::steam_safety_valve::paired;
use crate::limit::figure;
use crate::wear::{CAUTIONS, ROOM, SIGN, WEARS, Way, found, tenths, told};
use measure::{Dimension, Rounding, Unit, math, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "wear.line";
const LEAST: &str = "least squares, readings over days";
const RESIDUAL: &str = "what the readings keep off the line, two degrees of freedom taken by it";
const STUDENT: &str = "Student's t, both sides";
const DAYS: &str = "room over slope";
const CONFIDENCE: f64 = 0.95;
const WEAR: &str = "readings that show wear";

const COUNT: Symbol = Symbol::named("n", "", "readings", LEAST);
const MEAN_DAY: Symbol = Symbol::of("x_a", Dimension::Ratio, "mean of the days", LEAST);
const MEAN_READING: Symbol = Symbol::of("y_a", Dimension::Length, "mean of the readings", LEAST);
const DAY_SQUARES: Symbol = Symbol::of(
    "S_x",
    Dimension::Ratio,
    "sum of the squares of each day less their mean",
    LEAST,
);
const PRODUCTS: Symbol = Symbol::of(
    "S_p",
    Dimension::Length,
    "sum of each day less its mean times its reading less its mean",
    LEAST,
);
const OFF_LINE: Symbol = Symbol::of(
    "q",
    Dimension::Area,
    "sum of the squares of what each reading keeps off the line",
    RESIDUAL,
);
const T: Symbol = Symbol::named(
    "t",
    "",
    "Student's t for the confidence, with n - 2 degrees of freedom",
    STUDENT,
);
const NEWEST: Symbol = Symbol::of(
    "y_n",
    Dimension::Length,
    "the newest reading",
    "the reading of the latest day",
);
const RECKONED: Symbol = Symbol::of(
    "g",
    Dimension::Length,
    "slope the way it wears, where it is wear at all",
    LEAST,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "The straight line through readings that nothing was cut between",
    purpose: "A feature read at several openings and left as it was: the wear a service day as the slope of the line \
        through all its readings, how sure that is, and the service days from the newest reading to a limit.",
    formula: "
        a = S_p / S_x
        i = y_a - a * x_a
        s = sqrt(q / (n - 2))
        s_a = s / sqrt(S_x)
        e = t * s_a
        M = max(0, z * (m - y_n))
        L = M / g
        K = M / (g + e)",
    book_units: None,
    arguments: &[
        WEARS,
        Argument::list(
            "readings",
            Dimension::Length,
            "0 in",
            "1000 in",
            (3, 40),
            "the reading at each opening, with no cut between any of them",
        ),
        Argument::list(
            "days",
            Dimension::Ratio,
            "0",
            "100000",
            (3, 40),
            "the count of service days at each, from any start, in the same order",
        ),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0 in",
            "1000 in",
            "the limit to count down to, of the law or of the shop",
        ),
        Argument::quantity(
            "confidence",
            "p",
            Dimension::Ratio,
            "0.5",
            "0.999",
            "how sure the interval is to be, both sides together",
        )
        .optional(),
    ],
    table_values: &[
        COUNT,
        MEAN_DAY,
        MEAN_READING,
        DAY_SQUARES,
        PRODUCTS,
        OFF_LINE,
        T,
        NEWEST,
        RECKONED,
        SIGN,
    ],
    lines: &[Symbol::of(
        "M",
        Dimension::Length,
        "room to the limit",
        ROOM,
    )],
    results: &[
        ResultSpec::text("direction", "which way the readings went", LEAST),
        ResultSpec::quantity(
            "slope",
            "a",
            Dimension::Length,
            (7, 6),
            "change of the reading in one service day; with a minus where it grows smaller",
            LEAST,
        ),
        ResultSpec::quantity(
            "start",
            "i",
            Dimension::Length,
            (4, 3),
            "where the line stands at day 0",
            LEAST,
        ),
        ResultSpec::quantity(
            "residual",
            "s",
            Dimension::Length,
            (5, 4),
            "standard deviation of the readings about the line",
            RESIDUAL,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "slope_deviation",
            "s_a",
            Dimension::Length,
            (7, 6),
            "standard deviation of the slope",
            RESIDUAL,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "slope_interval",
            "e",
            Dimension::Length,
            (7, 6),
            "either way from the slope: where the true one lies, at the confidence",
            STUDENT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "days_to_limit",
            "L",
            Dimension::Ratio,
            (0, 0),
            "service days from the newest reading to the limit, at the slope",
            DAYS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "soonest_limit",
            "K",
            Dimension::Ratio,
            (0, 0),
            "the same at the fast end of the interval",
            DAYS,
        )
        .rounded(Rounding::Down),
        ResultSpec::table(
            "line",
            "every reading and how far it lies off the line",
            LEAST,
        ),
    ],
    branches: &["line"],
    validity: "One feature at one place, not cut, bushed or renewed between the first reading and the last, read the same way \
        each time. The line is straight: wear that quickens shows as readings off the line the same way at both ends. No \
        reading is dropped.",
    sources: &[
        Source {
            work: "NIST, Statistical Reference Datasets, linear regression, Norris",
            locator: "certified estimates, standard deviations and residual standard deviation (figures read in public test \
                files that cite it, the data in scipy's own tests)",
            used_for: "slope, start, residual and deviation of the slope",
        },
        Source {
            work: "Abramowitz and Stegun, Handbook of Mathematical Functions",
            locator: "26.7.3 and 26.7.4",
            used_for: "Student's t with whole degrees of freedom; recalled, and held against scipy",
        },
    ],
    cautions: CAUTIONS,
    closed_form: ClosedForm::Yes,
};

/// A straight line through readings, lengths in metres, by least squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// How many readings.
    pub count: u32,
    /// Mean of the days.
    pub mean_day: f64,
    /// Mean of the readings.
    pub mean_reading: f64,
    /// Sum of the squares of each day less their mean.
    pub day_squares: f64,
    /// Sum of the products of day and reading, each less its mean.
    pub products: f64,
    /// Sum of the squares of what is off the line.
    pub off_line: f64,
}

impl Line {
    /// The line through `points` of day and reading; none of fewer than three, or where all were read on one day.
    pub fn through(points: &[(f64, f64)]) -> Option<Line> {
        let count = u32::try_from(points.len()).ok().filter(|n| *n > 2)?;
        let n = f64::from(count);
        let mean_day = points.iter().map(|(day, _)| day).sum::<f64>() / n;
        let mean_reading = points.iter().map(|(_, reading)| reading).sum::<f64>() / n;
        let (mut day_squares, mut products) = (0.0, 0.0);
        for (day, reading) in points {
            day_squares += (day - mean_day) * (day - mean_day);
            products += (day - mean_day) * (reading - mean_reading);
        }
        if day_squares <= 0.0 {
            return None;
        }
        let slope = products / day_squares;
        let off = |(day, reading): &(f64, f64)| (reading - mean_reading) - slope * (day - mean_day);
        Some(Line {
            count,
            mean_day,
            mean_reading,
            day_squares,
            products,
            off_line: points.iter().map(|point| off(point) * off(point)).sum(),
        })
    }

    /// Change of the reading in one day.
    pub fn slope(&self) -> f64 {
        self.products / self.day_squares
    }

    /// Where the line stands on `day`.
    pub fn at(&self, day: f64) -> f64 {
        self.mean_reading + self.slope() * (day - self.mean_day)
    }

    /// Standard deviation of the readings about the line.
    pub fn residual(&self) -> f64 {
        math::sqrt(self.off_line / f64::from(self.count - 2))
    }

    /// Standard deviation of the slope.
    pub fn slope_deviation(&self) -> f64 {
        self.residual() / math::sqrt(self.day_squares)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let way = inputs.need_word("wears", Way::of)?;
    let (readings, days) = (inputs.list_si("readings"), inputs.list_si("days"));
    paired(ID, ["readings", "days"], readings, days)?;
    let points: Vec<(f64, f64)> = days.iter().copied().zip(readings.iter().copied()).collect();
    let line = Line::through(&points).ok_or_else(|| {
        SheetError::impossible(
            ID,
            "the readings were all taken on one day",
            "readings with service days between them",
        )
    })?;
    let newest = points
        .iter()
        .copied()
        .reduce(|newest, one| if one.0 >= newest.0 { one } else { newest })
        .map_or(line.mean_reading, |(_, reading)| reading);
    let confidence = inputs.si("confidence").unwrap_or(CONFIDENCE);
    let t = chance::quantile((1.0 - confidence) / 2.0, line.count - 2).ok_or_else(|| {
        SheetError::OwnFault {
            sheet: ID,
            what: "distribution",
            detail: format!("no t for {confidence} and {} readings", line.count),
        }
    })?;
    let interval = t * line.slope_deviation();
    let wear = way.sign() * line.slope();

    let mut answer = Answer::new("line")
        .with("direction", way.said(wear))
        .with("slope", Outcome::Si(line.slope()))
        .with("start", Outcome::Si(line.at(0.0)))
        .with("residual", Outcome::Si(line.residual()))
        .with("slope_deviation", Outcome::Si(line.slope_deviation()))
        .with("slope_interval", Outcome::Si(interval))
        .with("line", table(&line, &points));
    let limit = inputs.si("limit");
    let room = limit.map(|limit| way.room(newest, limit));
    let over = |rate: f64| room.filter(|_| wear > 0.0).map(|room| room / rate);
    let needs = [
        limit.is_none().then_some("limit"),
        (wear <= 0.0).then_some(WEAR),
    ];
    answer = told(answer, "days_to_limit", over(wear), &needs);
    answer = told(answer, "soonest_limit", over(wear + interval), &needs);
    if room.is_some_and(|room| room <= 0.0) {
        answer.notices.push(
            "The limit is reached or passed at the newest reading: there are no days left to it."
                .to_owned(),
        );
    }
    if inputs.si("confidence").is_none() {
        answer.assumptions.push(Assumption {
            argument: "confidence",
            text: "0.95",
            si: CONFIDENCE,
            why: "none was said: 19 times in 20",
        });
    }
    let inch = |si: f64| Unit::Inch.from_si(si);
    for (symbol, value, how) in [
        (COUNT, f64::from(line.count), "counted"),
        (MEAN_DAY, line.mean_day, "of the days given"),
        (
            MEAN_READING,
            inch(line.mean_reading),
            "of the readings given",
        ),
        (
            DAY_SQUARES,
            line.day_squares,
            "added up from the lists given",
        ),
        (
            PRODUCTS,
            inch(line.products),
            "added up from the lists given",
        ),
        (
            OFF_LINE,
            inch(inch(line.off_line)),
            "added up from the table of the line",
        ),
        (T, t, "Abramowitz and Stegun, 26.7.3 and 26.7.4"),
        (NEWEST, inch(newest), "the reading of the latest day"),
        (SIGN, way.sign(), "as it was said to wear"),
    ] {
        answer.found.push(found(symbol, value, how));
    }
    if wear > 0.0 {
        answer
            .found
            .push(found(RECKONED, inch(wear), "the slope, the way it wears"));
    }
    Ok(answer)
}

fn table(line: &Line, points: &[(f64, f64)]) -> Outcome {
    let rows = points.iter().map(|(day, reading)| {
        vec![
            show::number(*day, 1, Rounding::Nearest),
            tenths(*reading),
            tenths(line.at(*day)),
            tenths(reading - line.at(*day)),
        ]
    });
    let columns = ["service day", "reading in", "line in", "off the line in"];
    Outcome::Table {
        rows: rows.collect(),
        columns: columns.map(str::to_owned).to_vec(),
    }
}
