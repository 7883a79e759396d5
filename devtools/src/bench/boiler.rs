//! What a boiler's card and a large survey take, against the same arithmetic on plain arrays (ndarray) in the same run.

use std::collections::BTreeMap;
use std::convert::Infallible;
use std::fmt::Display;
use std::hint::black_box;
use std::time::Duration;

use drawing::{Marked, Square, SquareMap};
use jiff::civil::{Date, date};
use measure::math;
use ndarray::{Array1, Array2, ArrayView1, Axis, Zip};
use rules::Rulebook;
use shop::book::{
    BoilerEntered, BoilerSurveyed, Book, EntryId, Meta, PersonId, Statement, StayRow, StaysMapped,
    StaysTold, Survey,
};
use shop::locomotive::add_engine;
use shop::ruled::boiler::{Cell, SurveyRead, boiler_card, bolt_map, survey_read};

use super::desk::ms;
use super::{median, ratio, worked};
use crate::Stop;
use crate::grow::{engine, engine_of};

const COMPONENTS: usize = 40;
const SHEETS: u32 = 6;
const ROWS: u32 = 10;
const IN_A_ROW: u32 = 25;
const HIGH: usize = 100;
const WIDE: usize = 200;
const THEN: Date = date(2013, 3, 16);
const NOW: Date = date(2026, 5, 2);

/// The bench.
///
/// # Errors
/// A fault where the book refuses the bench's own boiler.
pub fn bench() -> Result<String, Stop> {
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    let book = made(rules)?;
    let id = engine_of(0);
    let card = times(|| boiler_card(&book, rules, id, NOW))?;
    let stays = times(|| bolt_map(&book, rules, id, NOW))?;
    let survey = times(|| {
        let read = survey_read(&book, rules, id, "course 1", NOW).map_err(|why| why.to_string())?;
        let (survey, read) = read.ok_or("the bench's own survey is not read")?;
        Ok::<_, String>(map(&survey, &read).svg())
    })?;
    let sizes = Sizes::of();
    let plain_card = times(|| Ok::<_, Infallible>(sizes.card()))?;
    let (old, new) = (field(0.0), field(0.004));
    let plain_survey = times(|| Ok::<_, Infallible>(survey_arithmetic(&old, &new)))?;
    let both = card.saturating_add(stays);
    Ok(format!(
        "boiler, processor time, the middle of {TIMES}\n  \
         card of {COMPONENTS} components and the map of {} stays: {} ms ({} and {}), {} times the same arithmetic on plain arrays\n  \
         survey of {} readings read beside the one before, mapped and fitted: {} ms, {} times the same arithmetic on plain arrays\n",
        SHEETS * ROWS * IN_A_ROW,
        ms(both),
        ms(card),
        ms(stays),
        ratio(both, plain_card),
        HIGH * WIDE,
        ms(survey),
        ratio(survey, plain_survey),
    ))
}

const TIMES: usize = 21;

/// The middle time of what is done again and again; a refusal is quick and is no time.
fn times<T, E: Display>(mut what: impl FnMut() -> Result<T, E>) -> Result<Duration, Stop> {
    let mut each = Vec::new();
    for _ in 0..TIMES {
        let (time, done) = worked(|| what().map(|it| drop(black_box(it))));
        done.map_err(Stop::fault)?;
        each.push(time);
    }
    Ok(median(each))
}

fn made(rules: &Rulebook) -> Result<Book, Stop> {
    let mut book = Book::default();
    let mut new = engine(engine_of(0), "100".into());
    new.mawp_psig = Some(180);
    let statements = add_engine(&book, rules, new).map_err(Stop::fault)?;
    let mut seq = 0;
    let mut say = |book: &mut Book, on: Date, statement: &Statement| {
        seq += 1;
        let meta = Meta {
            seq,
            id: EntryId(u128::from(seq)),
            batch: None,
            person: PersonId(1),
            done_on: on,
        };
        book.apply(meta, statement).map_err(Stop::fault)
    };
    for statement in &statements {
        say(&mut book, THEN, statement)?;
    }
    for at in 0..COMPONENTS {
        let (kind, name, facts) = component(at);
        let entered = BoilerEntered {
            locomotive: engine_of(0),
            component: format!("{name} {}", at / 5 + 1),
            kind: kind.into(),
            place: place(kind).into(),
            facts: facts
                .iter()
                .map(|(name, says)| ((*name).to_owned(), (*says).to_owned()))
                .collect::<BTreeMap<_, _>>(),
            source: "drawing".into(),
        };
        say(&mut book, THEN, &Statement::BoilerEntered(entered))?;
    }
    for (on, loss) in [(THEN, 0.0), (NOW, 0.004)] {
        let readings = field(loss);
        let row = |row: ArrayView1<'_, f64>| {
            let each: Vec<String> = row.iter().map(|inches| format!("{inches:.4}")).collect();
            each.join(" ")
        };
        let survey = BoilerSurveyed {
            locomotive: engine_of(0),
            component: "course 1".into(),
            rows: (1..=HIGH).map(|at| at.to_string()).collect(),
            columns: (1..=WIDE).map(|at| at.to_string()).collect(),
            cells: readings.axis_iter(Axis(0)).map(row).collect(),
            unit: "in".into(),
            square: Some("3 in".into()),
            spot: Some("3/8 in".into()),
            source: "by ultrasound".into(),
        };
        say(&mut book, on, &Statement::BoilerSurveyed(survey))?;
    }
    for sheet in 0..SHEETS {
        let name = format!("sheet {sheet}");
        let mapped = StaysMapped {
            locomotive: engine_of(0),
            sheet: name.clone(),
            rows: (1..=ROWS)
                .map(|row| StayRow {
                    row: row.to_string(),
                    count: IN_A_ROW,
                    height: format!("{} in", 4 * row),
                    first: "4 in".into(),
                })
                .collect(),
            pitch: "4 in".into(),
            kind: "rigid".into(),
            size: "1 in, 12 threads".into(),
            source: "drawing".into(),
        };
        say(&mut book, THEN, &Statement::StaysMapped(mapped))?;
        for (state, which) in [
            ("sound", Vec::new()),
            ("broken", vec![("3".to_owned(), 2, 2)]),
        ] {
            let told = StaysTold {
                locomotive: engine_of(0),
                sheet: name.clone(),
                which,
                state: state.into(),
                at: None,
                kind: None,
                size: None,
                told: "hammer".into(),
            };
            say(&mut book, NOW, &Statement::StaysTold(told))?;
        }
    }
    Ok(book)
}

type Facts = &'static [(&'static str, &'static str)];

fn component(at: usize) -> (&'static str, &'static str, Facts) {
    match at % 5 {
        0 => (
            "course",
            "course",
            &[
                ("thickness", "0.7 in"),
                ("radius", "35 in"),
                ("proof", "certificate"),
                ("tensile", "55000 psi"),
                ("seam_kind", "butt-triple"),
                ("seam_pitch", "6.5 in"),
                ("seam_thickness", "0.7 in"),
                ("seam_strap", "0.5 in"),
                ("seam_rivet", "1.0625 in"),
                ("seam_crushing", "95000 psi"),
                ("rivets", "steel"),
                ("rivet_proof", "assumed"),
            ],
        ),
        1 => (
            "stayed-sheet",
            "flat sheet",
            &[
                ("thickness", "0.375 in"),
                ("pitches", "4 in, 4 in"),
                ("proof", "assumed"),
                ("metal", "steel"),
                ("stay_factor", "2.1"),
            ],
        ),
        2 => (
            "stays",
            "zone of stays",
            &[
                ("least_diameter", "0.8557 in"),
                ("pitches", "4 in, 4 in"),
                ("telltale", "3/16 in"),
                ("angle", "0 deg"),
            ],
        ),
        3 => (
            "brace",
            "braces",
            &[
                ("area", "1.2 sq in"),
                ("distance", "49 in"),
                ("length", "50 in"),
                ("surface", "49 sq in"),
            ],
        ),
        _ => (
            "tube",
            "tubes",
            &[
                ("pressure_from", "inside"),
                ("outside_diameter", "3 in"),
                ("wall", "0.14 in"),
                ("wear", "0.01 in"),
                ("proof", "assumed"),
                ("metal", "steel"),
            ],
        ),
    }
}

fn place(kind: &str) -> &'static str {
    match kind {
        "course" => "barrel",
        "stayed-sheet" => "wrapper",
        "stays" => "staybolts",
        "brace" => "braces",
        _ => "arch-tubes",
    }
}

/// A sheet worn in one place; no two readings alike.
fn field(loss: f64) -> Array2<f64> {
    Array2::from_shape_fn((HIGH, WIDE), |(row, column)| {
        let (down, across) = (row as f64 - 70.0, column as f64 - 90.0);
        let pit = 0.1 * math::exp(-(down * down + across * across) / 400.0);
        let rough = 0.001 * ((row * 31 + column * 17) % 13) as f64 / 13.0;
        0.6875 - pit * (1.0 + 20.0 * loss) - loss - rough
    })
}

fn map(survey: &Survey, read: &SurveyRead) -> SquareMap {
    let thin = read.required.map_or(0.0, |required| required * 1.1);
    let rows = survey
        .rows
        .iter()
        .zip(survey.cells.iter().zip(&read.squares.rows));
    SquareMap {
        told: "a survey".into(),
        columns: survey.columns.clone(),
        rows: rows
            .map(|(name, (texts, cells))| {
                let each = texts.split(' ').zip(cells).map(|(text, cell)| Marked {
                    said: text.to_owned(),
                    mark: match cell {
                        Cell::Read(inches) if *inches <= thin => Square::Thin,
                        _ => Square::Plain,
                    },
                    again: false,
                });
                (name.clone(), each.collect())
            })
            .collect(),
    }
}

/// The sizes of the card's components and of its stays, as plain arrays.
struct Sizes {
    thickness: Array1<f64>,
    efficiency: Array1<f64>,
    radius: Array1<f64>,
    x: Array2<f64>,
    y: Array2<f64>,
}

impl Sizes {
    fn of() -> Sizes {
        let many = COMPONENTS;
        let (rows, wide) = ((SHEETS * ROWS) as usize, IN_A_ROW as usize);
        Sizes {
            thickness: Array1::linspace(0.5, 0.7, many),
            efficiency: Array1::linspace(0.8, 0.9, many),
            radius: Array1::linspace(30.0, 36.0, many),
            x: Array2::from_shape_fn((rows, wide), |(_, at)| 4.0 + 4.0 * at as f64),
            y: Array2::from_shape_fn((rows, wide), |(row, _)| 4.0 * (row % 10 + 1) as f64),
        }
    }

    /// The pressure of every component, the least of them, and the least distance between every sixth broken stay.
    fn card(&self) -> (f64, f64) {
        let psi = &self.thickness * 55_000.0 * &self.efficiency / (&self.radius * 4.0);
        let least = psi.fold(f64::INFINITY, |least, psi| least.min(*psi));
        let broken: Vec<(f64, f64)> = (0..SHEETS as usize)
            .filter_map(|sheet| {
                Some((
                    *self.x.get((sheet * 10 + 2, 1))?,
                    *self.y.get((sheet * 10 + 2, 1))?,
                ))
            })
            .collect();
        let mut nearest = f64::INFINITY;
        for (at, one) in broken.iter().enumerate() {
            for other in broken.iter().skip(at + 1) {
                nearest = nearest.min((one.0 - other.0).hypot(one.1 - other.1));
            }
        }
        (least, nearest)
    }
}

/// The thinnest, the loss of every square, the middle of each square's neighbors, and a Gumbel fit of the thinnest of blocks.
fn survey_arithmetic(old: &Array2<f64>, new: &Array2<f64>) -> (f64, f64, f64, f64) {
    let thinnest = new.fold(f64::INFINITY, |least, inches| least.min(*inches));
    let loss = (old - new).fold(f64::NEG_INFINITY, |most, loss| most.max(*loss));
    let mut far = 0.0_f64;
    Zip::from(new.windows((3, 3))).for_each(|around| {
        let mut near: Vec<f64> = around.iter().copied().collect();
        let own = near.swap_remove(4);
        near.sort_unstable_by(f64::total_cmp);
        let middle =
            (near.get(3).copied().unwrap_or(own) + near.get(4).copied().unwrap_or(own)) / 2.0;
        far = far.max((own - middle).abs());
    });
    let minima: Vec<f64> = new
        .exact_chunks((10, 10))
        .into_iter()
        .map(|block| block.fold(f64::INFINITY, |least, inches| least.min(*inches)))
        .collect();
    let minima = Array1::from(minima);
    let spread = minima.std(1.0) * 6.0_f64.sqrt() / std::f64::consts::PI;
    let level = minima.mean().unwrap_or(0.0) + 0.577_22 * spread;
    (
        thinnest,
        loss,
        far,
        level + spread * math::ln(-math::ln(1.0 - 1e-4)).abs(),
    )
}
