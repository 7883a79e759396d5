//! `lathe.change_gears`: which of the wheels a shop owns cut the pitch that is wanted.
//!
//! The screw turns once for every *E/D* turns of the first driver, so a train cuts *k D/E* times the
//! pitch of the leadscrew. Pitches stay exact fractions: 3 mm on a screw of 6 threads in the inch wants
//! 90/127, because an inch is 127/5 mm. 127 is a prime number; that is why a wheel of 127 teeth exists.

mod card;
mod trains;

pub use card::ENTRY;
pub use trains::{Asked, Found, Train, search, wanting};

use crate::answer::{Answer, Assumption, Outcome, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Fraction, Length, Rounding, fraction};

/// Trains listed when nobody says how many.
const LISTED: usize = 24;
/// Teeth left between a rim and the shaft beside it, when nobody says. Common practice.
const STUD: u32 = 15;

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let leadscrew = inputs.need_pitch("leadscrew")?;
    let wanted = inputs.need_pitch("wanted")?;
    let spindle = inputs
        .exact("spindle_ratio")
        .map(|(value, unit)| match unit {
            measure::Unit::Percent => value / Fraction::from_integer(100),
            _ => value,
        });
    let ratio = lowest(wanted.inches(), leadscrew.inches(), spindle)?;
    // A count is read as a whole number; the cast only drops the nought behind the point.
    let wheels: Vec<u32> = inputs
        .list_si("gears")
        .iter()
        .map(|teeth| *teeth as u32)
        .collect();
    let mut sizes = wheels.clone();
    sizes.sort_unstable();
    sizes.dedup();
    if sizes.len() > trains::SIZES {
        return Err(SheetError::impossible(
            card::ID,
            format!("{} sizes of wheel were given", sizes.len()),
            format!(
                "{} sizes at most; leave out those that this lathe cannot take",
                trains::SIZES
            ),
        ));
    }
    let pairs = match inputs.word("wheels") {
        Some("2") => 1,
        Some("4") => 2,
        _ => 3,
    };
    if wheels.len() < 2 * pairs {
        return Err(SheetError::impossible(
            card::ID,
            format!(
                "{} wheels were given for a train of {}",
                wheels.len(),
                2 * pairs
            ),
            "at least as many wheels as the train has",
        ));
    }
    let mut assumptions = Vec::new();
    let mut count = |name: &'static str, text: &'static str, si: u32, why: &'static str| {
        inputs.si(name).map_or_else(
            || {
                let si = f64::from(si);
                assumptions.push(Assumption {
                    argument: name,
                    text,
                    si,
                    why,
                });
                si as u32
            },
            |given| given as u32,
        )
    };
    let asked = Asked {
        ratio,
        pairs,
        stud: count(
            "stud",
            "15",
            STUD,
            "room for a stud and its nut by common practice; measure the lathe's own",
        ),
        span: count(
            "span",
            "0",
            0,
            "the arm is taken to reach any train; try the wheels before counting on one",
        ),
        show: inputs.si("show").map_or(LISTED, |show| show as usize),
    };
    if spindle.is_none() {
        assumptions.push(Assumption {
            argument: "spindle_ratio",
            text: "1",
            si: 1.0,
            why: "most lathes drive the first wheel once for each turn of the spindle; mark both and turn by hand to see",
        });
    }
    let found = search(&wheels, &asked);
    let Some(best) = found.trains.first() else {
        return Err(SheetError::impossible(
            card::ID,
            format!(
                "of {} sets tried, no train of these wheels clears its studs",
                found.examined
            ),
            format!(
                "more wheels, another number of them in the train, or less room than {} teeth at a stud",
                asked.stud
            ),
        ));
    };
    let mut answer = told(best, &found, ratio, spindle, leadscrew.inches());
    answer.branch = card::BRANCHES
        .get(pairs - 1)
        .copied()
        .unwrap_or(card::BRANCHES[0]);
    answer.assumptions = assumptions;
    let listed = found.trains.len() as u64;
    if found.exact > listed {
        answer.notices.push(format!(
            "{} trains are exact; the {listed} with the fewest teeth are listed.",
            found.exact
        ));
    }
    if found.exact == 0 {
        for prime in wanting(&wheels, ratio) {
            answer.notices.push(format!(
                "No train of these wheels can be exact: {}/{} wants a wheel whose teeth are a multiple of {prime}.",
                ratio.0, ratio.1
            ));
        }
    }
    Ok(answer)
}

/// The ratio that the wheels must make, in lowest terms.
fn lowest(
    wanted: Fraction,
    leadscrew: Fraction,
    spindle: Option<Fraction>,
) -> Result<(i64, i64), SheetError> {
    use num_traits::CheckedDiv;
    let ratio = wanted
        .checked_div(&leadscrew)
        .and_then(|ratio| match spindle {
            Some(spindle) => ratio.checked_div(&spindle),
            None => Some(ratio),
        });
    let side = |number: i128| {
        i64::try_from(number)
            .ok()
            .filter(|n| (1..=trains::FIGURES).contains(n))
    };
    let sides = ratio.and_then(|ratio| Some((side(*ratio.numer())?, side(*ratio.denom())?)));
    sides.ok_or_else(|| {
        SheetError::impossible(
            card::ID,
            "the ratio of the two pitches has more than nine figures",
            "pitches as they are called, such as 11 1/2 TPI or 1.5 mm",
        )
    })
}

/// Results, table and the numbers of the best train.
fn told(
    best: &Train,
    found: &Found,
    ratio: (i64, i64),
    spindle: Option<Fraction>,
    leadscrew: Fraction,
) -> Answer {
    let (over, under) = best.error(ratio);
    let share = over as f64 / under as f64;
    let (drivers, driven) = (best.drivers(), best.driven());
    let turns = drivers as f64 / driven as f64;
    let spindle = spindle.map_or(1.0, fraction::to_f64);
    let cut = Length::inches(fraction::to_f64(leadscrew) * spindle * turns);
    let rows = found.trains.iter().map(|train| row(train, ratio)).collect();
    let columns = ["gears", "ratio", "error_ppm", "error_per_foot"]
        .map(String::from)
        .to_vec();
    let mut answer = Answer::new("")
        .with("trains", Outcome::Table { columns, rows })
        .with("best", said(best, ratio))
        .with("best_error_ppm", Outcome::Si(1e6 * share))
        .with("error_per_foot", Length::inches(12.0 * share))
        .with("examined", Outcome::Si(found.examined as f64))
        .with("exact", Outcome::Si(found.exact as f64))
        .with("wanted_ratio", Outcome::Si(ratio.0 as f64 / ratio.1 as f64))
        .with("best_ratio", Outcome::Si(turns))
        .with("cut", cut);
    let place = |at: usize, side: fn(&(u32, u32)) -> u32| best.pairs.get(at).map(side);
    let places = (0..3)
        .map(|at| place(at, |pair| pair.0))
        .chain((0..3).map(|at| place(at, |pair| pair.1)));
    for (symbol, teeth) in card::PLACES.into_iter().zip(places) {
        answer.table_values.push(TableValue {
            symbol,
            value: f64::from(teeth.unwrap_or(1)),
            printed: teeth.map_or("1, no wheel here".to_owned(), |teeth| {
                format!("{teeth} teeth")
            }),
            row: "the best train found".to_owned(),
        });
    }
    for (symbol, value) in [(card::OVER, ratio.0), (card::UNDER, ratio.1)] {
        answer.table_values.push(TableValue {
            symbol,
            value: value as f64,
            printed: value.to_string(),
            row: "the pitches as they were written, as an exact fraction".to_owned(),
        });
    }
    answer
}

/// A train as a person sets it up: `40/60 x 20/45`.
fn gears(train: &Train) -> String {
    let pairs: Vec<String> = train
        .pairs
        .iter()
        .map(|pair| format!("{}/{}", pair.0, pair.1))
        .collect();
    pairs.join(" x ")
}

/// A share of one, times `scale`, with its sign; *exact* where nothing is missed.
fn signed((over, under): (i64, i64), scale: i128, places: u32) -> String {
    if over == 0 {
        return "exact".to_owned();
    }
    let share = Fraction::new(i128::from(over) * scale, i128::from(under));
    let sign = if over > 0 { "+" } else { "" };
    format!(
        "{sign}{}",
        fraction::decimal(share, places, Rounding::Nearest)
    )
}

fn row(train: &Train, ratio: (i64, i64)) -> Vec<String> {
    let turns = Fraction::new(train.drivers().into(), train.driven().into());
    let error = train.error(ratio);
    vec![
        gears(train),
        format!("{}/{}", turns.numer(), turns.denom()),
        signed(error, 1_000_000, 1),
        signed(error, 12, 6),
    ]
}

fn said(train: &Train, ratio: (i64, i64)) -> String {
    let error = train.error(ratio);
    if error.0 == 0 {
        return format!("{}: exact", gears(train));
    }
    let (ppm, foot) = (signed(error, 1_000_000, 1), signed(error, 12, 6));
    format!("{}: {ppm} ppm, {foot} in a foot", gears(train))
}
