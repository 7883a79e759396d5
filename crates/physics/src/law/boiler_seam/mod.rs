//! `boiler.seam`: the efficiency of a riveted seam, whatever its rows.

mod card;
mod modes;

pub use card::ENTRY;
pub use modes::{Fate, Mode, Row, Seam, Tally, Through, weakest};

use crate::answer::{Answer, Outcome, TableValue};
use crate::boiler::book;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Rounding, show};

/// The rows of a seam of this `kind`, outermost first; none for a saw-tooth seam, whose rows are its own.
///
/// Sources: the quadruple butt seam as in the Report of the Boiler Code Committee, 1914; the others from memory.
pub fn rows(kind: &str) -> Option<Vec<Row>> {
    let each = |through: Through, rivets: &[u32]| {
        let row = |rivets: &u32| Row {
            rivets: *rivets,
            through,
        };
        rivets.iter().map(row).collect::<Vec<_>>()
    };
    let butt = |once: &[u32], twice: &[u32]| {
        let mut rows = each(Through::OneStrap, once);
        rows.extend(each(Through::BothStraps, twice));
        rows
    };
    match kind {
        "lap-single" => Some(each(Through::Lap, &[1])),
        "lap-double" => Some(each(Through::Lap, &[1, 1])),
        "lap-triple" => Some(each(Through::Lap, &[1, 1, 1])),
        "butt-double" => Some(butt(&[1], &[2])),
        "butt-triple" => Some(butt(&[1], &[2, 2])),
        "butt-quadruple" => Some(butt(&[1, 2], &[4, 4])),
        _ => None,
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let kind = inputs.need_word("kind", |word| {
        card::KINDS.iter().find(|kind| **kind == word).copied()
    })?;
    let lap = kind.starts_with("lap");
    let (strap, double) = (inputs.inch("strap"), inputs.inch("shear_double"));
    let rows = rows(kind).map_or_else(|| given_rows(inputs), |rows| Ok(Some(rows)))?;
    let seam = Seam {
        pitch: inputs.need_inch("pitch")?,
        plate: inputs.need_inch("thickness")?,
        strap: strap.unwrap_or(0.0),
        rivet: inputs.need_inch("rivet")?,
        tensile: inputs.need_inch("tensile")?,
        shear: inputs.need_inch("shear")?,
        shear_double: double.unwrap_or(0.0),
        crushing: inputs.need_inch("crushing")?,
        rows: rows.clone().unwrap_or_default(),
        teeth: kind == "saw-tooth",
    };
    let most = seam.rows.iter().map(|row| row.rivets).max().unwrap_or(1);
    if f64::from(most) * seam.rivet >= seam.pitch {
        return Err(SheetError::impossible(
            card::ID,
            format!(
                "{most} holes of {:.4} in leave no plate in a pitch of {:.4} in",
                seam.rivet, seam.pitch
            ),
            "pitch to be the unit of length, with plate left between the holes of its fullest row",
        ));
    }
    let solid = book(Dimension::Force, seam.solid());
    let mut answer = Answer::new(kind).with("solid_plate", solid);
    let mut needs = Vec::new();
    if !lap {
        needs.extend(inputs.wanting(&["strap", "shear_double"]));
    }
    if rows.is_none() {
        needs.extend(inputs.wanting(&["rows", "double_rows"]));
    }
    if !needs.is_empty() {
        return Ok(answer.waiting(&["modes", "efficiency", "weakest", "weakest_load"], &needs));
    }
    answer.notices = notices(inputs, lap, kind);
    Ok(told(answer, &seam, lap, strap, double))
}

/// Rows told one by one, outermost first, of which the last `double` go through both straps; none when there are not so
/// many.
pub fn told_rows(counts: &[u32], double: usize) -> Option<Vec<Row>> {
    let single = counts.len().checked_sub(double)?;
    let row = |(at, rivets): (usize, &u32)| Row {
        rivets: *rivets,
        through: if at < single {
            Through::OneStrap
        } else {
            Through::BothStraps
        },
    };
    Some(counts.iter().enumerate().map(row).collect())
}

/// The rows of a saw-tooth seam as given; none while they are not.
fn given_rows(inputs: &Inputs) -> Result<Option<Vec<Row>>, SheetError> {
    // A count is read as a whole number; the cast only drops the nought behind the point.
    let counts: Vec<u32> = inputs
        .list_si("rows")
        .iter()
        .map(|count| *count as u32)
        .collect();
    let Some(double) = inputs.si("double_rows").filter(|_| !counts.is_empty()) else {
        return Ok(None);
    };
    let rows = told_rows(&counts, double as usize).ok_or_else(|| {
        SheetError::impossible(
            card::ID,
            format!(
                "{double} of {} rows cannot go through both straps",
                counts.len()
            ),
            "double_rows no more than the rows given",
        )
    })?;
    Ok(Some(rows))
}

fn told(answer: Answer, seam: &Seam, lap: bool, strap: Option<f64>, double: Option<f64>) -> Answer {
    let modes = seam.modes();
    let Some(least) = weakest(&modes) else {
        return answer;
    };
    let share = least.load / seam.solid();
    let rows = modes.iter().map(|mode| row(mode, seam)).collect();
    let columns = ["mode", "load_lbf", "efficiency"]
        .map(String::from)
        .to_vec();
    let mut answer = answer
        .with("modes", Outcome::Table { columns, rows })
        .with("efficiency", book(Dimension::Ratio, share))
        .with("weakest", least.name.clone())
        .with("weakest_load", book(Dimension::Force, least.load));
    let tally = least.tally;
    let counts = [
        tally.plates,
        tally.plate_holes,
        tally.straps,
        tally.strap_holes,
        tally.single,
        tally.double,
        tally.crush_plate,
        tally.crush_strap,
    ];
    let how = format!("the weakest mode: {}", least.name);
    for (symbol, count) in card::COUNTS.into_iter().zip(counts) {
        let found = TableValue::inch_book(symbol, f64::from(count), how.clone());
        answer.found.push(found);
    }
    // A lap has neither straps nor rivets sheared twice: what was not given counts for nothing.
    for (symbol, given) in [(card::STRAP, strap), (card::DOUBLE, double)] {
        if lap && given.is_none() {
            let none = TableValue::inch_book(symbol, 0.0, "a lap seam has none");
            answer.found.push(none);
        }
    }
    answer
}

/// A mode as a row of the table, load and efficiency never rounded up.
fn row(mode: &Mode, seam: &Seam) -> Vec<String> {
    vec![
        mode.name.clone(),
        show::number(mode.load, 0, Rounding::Down),
        show::number(mode.load / seam.solid(), 4, Rounding::Down),
    ]
}

fn notices(inputs: &Inputs, lap: bool, kind: &str) -> Vec<String> {
    let mut notices = Vec::new();
    let given = |name: &&str| inputs.find(name).is_some();
    let idle: Vec<&str> = ["strap", "shear_double"]
        .into_iter()
        .filter(|_| lap)
        .chain(
            ["rows", "double_rows"]
                .into_iter()
                .filter(|_| kind != "saw-tooth"),
        )
        .filter(given)
        .collect();
    if !idle.is_empty() {
        notices.push(format!("Not used by a {kind} seam: {}.", idle.join(", ")));
    }
    if kind == "saw-tooth" {
        notices.push(
            "The teeth of the strap are not worked: see that each is wide enough for what its rivets give it.".to_owned(),
        );
    }
    notices
}
