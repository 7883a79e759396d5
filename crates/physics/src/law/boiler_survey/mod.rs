//! `boiler.survey`: a plate's thickness read square by square: the thinnest, course by course, and an estimate of the
//! thinnest place between the spots that were read.
//!
//! A reading sees one spot of its square. Squares are put together into blocks, thirty at least; the thinnest of each goes to
//! the extreme-value law of `boiler.least_wall`, which is asked for the minimum of as many blocks as the plate would make
//! were all of it searched as the spots were.

use crate::answer::{Answer, Outcome, TableValue};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::boiler_least_wall::{ESTIMATE, FEWEST, Fit, MODE, SCALE};
use measure::{Dimension, Length, Rounding, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "boiler.survey";
/// How many blocks are fitted at most: larger blocks are taken then.
pub const MOST: usize = 400;

const GIVEN: &str = "the readings given";
const AREA: &str = "area of the plate over the area that the spots of a block saw";
const GUMBEL: &str = "Gumbel's law of least values, by moments";

const SQUARES: Symbol = Symbol::of(
    "N",
    Dimension::Count,
    "squares of plate, read or not",
    GIVEN,
);
const WIDE: Symbol = Symbol::of(
    "W",
    Dimension::Count,
    "squares along a side of a block: as many as still leave thirty blocks read whole",
    GIVEN,
);
const MEAN: Symbol = Symbol::of(
    "m",
    Dimension::Length,
    "mean of the blocks' thinnest readings",
    GIVEN,
);
const SCATTER: Symbol = Symbol::of(
    "s",
    Dimension::Length,
    "their standard deviation, over one less than their number",
    GIVEN,
);
const VARIATE: Symbol = Symbol::of(
    "y",
    Dimension::Ratio,
    "logarithm of less the logarithm of 1 - 1/T, T the blocks in all as a whole number",
    GUMBEL,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "A thickness survey, square by square",
    purpose: "From the readings of a plate laid out flat in rows and columns: the thinnest and where it is, the thinnest of \
        each course, the plate as a map, and, where thirty blocks were read whole, an estimate of the thinnest place that \
        no reading met. The estimate says where measuring was too thin. It never raises a pressure.",
    formula: "
        B = N * q^2 / (W^2 * pi / 4 * d^2)
        beta = s * sqrt(6) / pi
        mu = m + 0.5772156649 * beta
        x = mu + beta * y",
    book_units: None,
    arguments: &[
        Argument::list(
            "grid",
            Dimension::Length,
            "0.01 in",
            "4 in",
            (1, 4000),
            "readings of the plate laid out flat, row by row; ? for a square that nobody read",
        )
        .with_gaps(),
        Argument::quantity(
            "columns",
            "columns",
            Dimension::Count,
            "1",
            "400",
            "squares in a row",
        ),
        Argument::list(
            "courses",
            Dimension::Count,
            "1",
            "400",
            (1, 20),
            "the last column of each course, in order, where the columns run through several courses",
        )
        .optional(),
        Argument::quantity(
            "square",
            "q",
            Dimension::Length,
            "0.25 in",
            "24 in",
            "side of a square",
        )
        .optional(),
        Argument::quantity(
            "spot",
            "d",
            Dimension::Length,
            "0.05 in",
            "2 in",
            "width of the spot that one reading sees: the probe's element",
        )
        .optional(),
    ],
    table_values: &[SQUARES, WIDE, MEAN, SCATTER, VARIATE],
    lines: &[],
    results: &[
        ResultSpec::quantity("thinnest", "", Dimension::Length, (4, 3), "thinnest reading", GIVEN)
            .rounded(Rounding::Down),
        ResultSpec::text("place", "where that is: row and column, counted from one", GIVEN),
        ResultSpec::quantity("read", "", Dimension::Count, (0, 0), "squares read", GIVEN),
        ResultSpec::quantity("not_read", "", Dimension::Count, (0, 0), "squares not read", GIVEN),
        ResultSpec::quantity("blocks_read", "", Dimension::Count, (0, 0), "blocks read whole", GIVEN),
        ResultSpec::quantity(
            "blocks",
            "B",
            Dimension::Ratio,
            (0, 0),
            "blocks that the whole plate would make, searched as the spots were",
            AREA,
        )
        .rounded(Rounding::Up),
        SCALE,
        MODE,
        ESTIMATE,
        ResultSpec::quantity(
            "least",
            "",
            Dimension::Length,
            (3, 2),
            "the lesser of estimate and thinnest reading",
            GUMBEL,
        )
        .rounded(Rounding::Down),
        ResultSpec::table("per_course", "thinnest of each course", GIVEN),
        ResultSpec::table("map", "the plate laid out flat, inches", GIVEN),
    ],
    branches: &[FITTED, READ, BARE],
    validity: "Squares of one size on one plate. The estimate holds for one kind of wastage all over it; grooves at a seam, a \
        row of stays or a water line are measured for themselves. A square without plate is counted as not read here, which \
        makes the estimate lower. Ultrasound reads paint and scale as steel and reads a lamination as the far face.",
    sources: &[
        Source {
            work: "HSE Research Report 016 (TWI, 2002)",
            locator: "pages read at studmed.ru",
            used_for: "minima of blocks and an extreme-value law for pitting",
        },
        Source {
            work: "plane geometry",
            locator: "area of the plate over the area of the spots",
            used_for: "how many blocks the whole plate would make",
        },
    ],
    cautions: &[
        "An estimate finds no pit: where it comes out low, more plate is measured, and the reading governs.",
        "It never raises a pressure and never stands in for a survey that the law asks for.",
        "A reading that looks wrong is read again and kept: nothing is dropped from a survey.",
        boiler::MEASURED,
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
    ],
    closed_form: ClosedForm::No(
        "the least of each block, their mean and deviation are worked from the squares; what they make is a formula",
    ),
};

const FITTED: &str = "read and fitted";
const READ: &str = "read";
const BARE: &str = "nothing read";

/// The thinnest reading of each block of `wide` by `wide` squares that was read whole, in the order of the rows; squares
/// that make no whole block at the last edges are in none. In whatever unit the squares are.
pub fn blocks<R: AsRef<[Option<f64>]>>(rows: &[R], wide: usize) -> Vec<f64> {
    let mut minima = Vec::new();
    if wide == 0 {
        return minima;
    }
    for band in rows.chunks_exact(wide) {
        let columns = band.first().map_or(0, |row| row.as_ref().len());
        for from in (0..columns).step_by(wide) {
            let cells = band
                .iter()
                .flat_map(|row| row.as_ref().get(from..from + wide).unwrap_or_default());
            let mut thinnest = f64::INFINITY;
            let mut read = 0;
            for reading in cells.flatten() {
                thinnest = thinnest.min(*reading);
                read += 1;
            }
            if read == wide * wide {
                minima.push(thinnest);
            }
        }
    }
    minima
}

/// The largest blocks of which at least [`FEWEST`] were read whole: squares along a side, thinnest of each. Nothing where
/// there are fewer, or more than [`MOST`] of every size.
pub fn fitted<R: AsRef<[Option<f64>]>>(rows: &[R]) -> Option<(usize, Vec<f64>)> {
    let columns = rows.first().map_or(0, |row| row.as_ref().len());
    let most = rows.len().min(columns).max(1);
    (1..=most)
        .rev()
        .map(|wide| (wide, blocks(rows, wide)))
        .find(|(_, minima)| (FEWEST..=MOST).contains(&minima.len()))
}

/// How many blocks of `wide` squares a side a plate of `squares` would make, were all of it searched as the spots were.
pub fn in_all(squares: usize, wide: usize, square: Length, spot: Length) -> f64 {
    let seen = (wide * wide) as f64 * std::f64::consts::FRAC_PI_4 * spot.to_m() * spot.to_m();
    squares as f64 * square.to_m() * square.to_m() / seen
}

/// The same as the law is asked for it: whole, no fewer than were read, no more than a hundred thousand.
pub fn asked_for(in_all: f64, read: usize) -> f64 {
    in_all.max(read as f64).ceil().min(100_000.0)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let grid = inputs.gapped_si("grid");
    // A count is whole and in range already.
    let columns = inputs.need_si("columns")? as usize;
    if columns == 0 || !grid.len().is_multiple_of(columns) {
        return Err(SheetError::impossible(
            ID,
            format!("{} readings do not fill rows of {columns}", grid.len()),
            "every square of every row, ? for one that nobody read",
        ));
    }
    let rows: Vec<&[Option<f64>]> = grid.chunks(columns).collect();
    let courses = courses(inputs, columns)?;
    let read = grid.iter().flatten().count();
    let (per_course, map) = (per_course(&rows, &courses), map(&rows));
    let answer = Answer::new(BARE)
        .with("read", Outcome::Si(read as f64))
        .with("not_read", Outcome::Si((grid.len() - read) as f64))
        .with("per_course", per_course)
        .with("map", map);
    let Some((thinnest, at)) = thinnest(grid) else {
        let waits = [
            "thinnest",
            "place",
            "blocks_read",
            "blocks",
            "scale",
            "mode",
            "estimate",
            "least",
        ];
        return Ok(answer.waiting(&waits, &["a square that was read"]));
    };
    let mut answer = answer.with("thinnest", Length::m(thinnest)).with(
        "place",
        format!("row {}, column {}", at / columns + 1, at % columns + 1),
    );
    answer.branch = READ;
    unread(answer, inputs, &rows, thinnest)
}

/// The estimate of what no reading met.
fn unread(
    mut answer: Answer,
    inputs: &Inputs,
    rows: &[&[Option<f64>]],
    thinnest: f64,
) -> Result<Answer, SheetError> {
    const WAITS: [&str; 6] = [
        "blocks_read",
        "blocks",
        "scale",
        "mode",
        "estimate",
        "least",
    ];
    let Some((wide, minima)) = fitted(rows) else {
        return Ok(answer.waiting(
            &WAITS,
            &["from 30 to 400 blocks of squares that were read whole"],
        ));
    };
    let (Some(square), Some(spot)) = (inputs.length("square"), inputs.length("spot")) else {
        return Ok(answer.waiting(&WAITS, &inputs.wanting(&["square", "spot"])));
    };
    if spot.to_m() > square.to_m() {
        return Err(SheetError::impossible(
            ID,
            "the spot that a reading sees is wider than its square",
            "the width of the probe's element, and the side of a square",
        ));
    }
    let lengths: Vec<Length> = minima.iter().map(|m| Length::m(*m)).collect();
    let Some(fit) = Fit::of(&lengths) else {
        return Ok(answer.waiting(&WAITS, &["30 blocks of squares that were read whole"]));
    };
    let squares = rows.iter().map(|row| row.len()).sum::<usize>();
    let all = in_all(squares, wide, square, spot);
    let asked = asked_for(all, minima.len());
    answer.branch = FITTED;
    let counted = format!(
        "{} squares, {} blocks of {wide} by {wide} read whole",
        squares,
        minima.len()
    );
    for (symbol, value) in [(SQUARES, squares as f64), (WIDE, wide as f64)] {
        answer.found.push(TableValue {
            symbol,
            value,
            printed: crate::formula::significant(value),
            row: counted.clone(),
        });
    }
    let answer = answer
        .with("blocks_read", Outcome::Si(minima.len() as f64))
        .with("blocks", Outcome::Si(all));
    let symbols = [MEAN, SCATTER, VARIATE];
    Ok(fit.told(answer, symbols, asked, Length::m(thinnest), &counted))
}

/// The last column of each course; all columns are one course where none is said.
fn courses(inputs: &Inputs, columns: usize) -> Result<Vec<usize>, SheetError> {
    let given: Vec<usize> = inputs
        .list_si("courses")
        .iter()
        .map(|it| *it as usize)
        .collect();
    if given.is_empty() {
        return Ok(vec![columns]);
    }
    let grow = given
        .windows(2)
        .all(|pair| matches!(pair, [one, other] if one < other));
    if !grow || given.last() != Some(&columns) {
        return Err(SheetError::impossible(
            ID,
            "the courses' last columns do not lead to the last column",
            format!("growing numbers of columns, the last of them {columns}"),
        ));
    }
    Ok(given)
}

fn thinnest(cells: &[Option<f64>]) -> Option<(f64, usize)> {
    let read = cells
        .iter()
        .enumerate()
        .filter_map(|(at, cell)| Some(((*cell)?, at)));
    read.min_by(|one, other| one.0.total_cmp(&other.0))
}

fn per_course(rows: &[&[Option<f64>]], courses: &[usize]) -> Outcome {
    let mut from = 0;
    let mut lines = Vec::new();
    for (number, to) in courses.iter().enumerate() {
        let read = rows.iter().enumerate().flat_map(|(row, cells)| {
            let course = cells.get(from..*to).unwrap_or_default();
            let first = from;
            course
                .iter()
                .enumerate()
                .filter_map(move |(column, cell)| Some(((*cell)?, row, first + column)))
        });
        let squares = rows.len() * (to - from);
        let count = read.clone().count();
        let least = read.min_by(|one, other| one.0.total_cmp(&other.0));
        let (reads, place) = least.map_or(
            ("cannot tell".to_owned(), "none read".to_owned()),
            |(si, row, column)| {
                (
                    inches(si),
                    format!("row {}, column {}", row + 1, column + 1),
                )
            },
        );
        lines.push(vec![
            (number + 1).to_string(),
            format!("{} to {to}", from + 1),
            reads,
            place,
            format!("{count} of {squares}"),
        ]);
        from = *to;
    }
    let columns = ["course", "columns", "thinnest", "at", "squares read"];
    Outcome::Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows: lines,
    }
}

fn map(rows: &[&[Option<f64>]]) -> Outcome {
    let columns = rows.first().map_or(0, |row| row.len());
    let mut heads = vec!["row".to_owned()];
    heads.extend((1..=columns).map(|column| column.to_string()));
    let lines = rows.iter().enumerate().map(|(row, cells)| {
        let mut line = vec![(row + 1).to_string()];
        line.extend(cells.iter().map(|cell| match cell {
            Some(si) => thousandths(*si),
            None => "?".to_owned(),
        }));
        line
    });
    Outcome::Table {
        columns: heads,
        rows: lines.collect(),
    }
}

/// As a map has room for it: `.571`.
fn thousandths(si: f64) -> String {
    let shown = show::number(Length::m(si).to_inches(), 3, Rounding::Down);
    shown.strip_prefix('0').map_or(shown.clone(), str::to_owned)
}

fn inches(si: f64) -> String {
    format!(
        "{} in",
        show::number(Length::m(si).to_inches(), 4, Rounding::Down)
    )
}
