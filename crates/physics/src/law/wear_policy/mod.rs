//! `wear.policy`: leave, cut or renew, at each opening of a long horizon, so that the hours come out least.
//!
//! The wear of a stretch is uncertain, a cut cannot be put back, and a stop between openings costs most: so the act of
//! today depends on all that may follow, and is worked from the last opening back.

mod card;
mod program;

pub use card::ENTRY;
pub use program::{Act, Expected, Model, Plan, Rule, State};

use crate::answer::{Answer, Outcome, TableValue, less};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::wear::tenths;
use measure::{Dimension, Rounding, math, show};

/// Parts of wear that one cut clears.
pub const PARTS: usize = 8;
/// The most cuts a new part may have, and the most wear in cuts, so that a page answers at once.
const MOST_CUTS: usize = 24;
const MOST_WEAR: usize = 10 * PARTS;

/// The wear of one stretch on whole parts, from a mean and a standard deviation in parts: the mean, and 1.732
/// deviations either side, with chances 2/3, 1/6 and 1/6. Wear below nothing is nothing; a value between two whole parts
/// is shared between them so that the mean stays. The chances add up to 1.
pub fn stretch(mean: f64, deviation: f64) -> Vec<(usize, f64)> {
    let reach = math::sqrt(3.0) * deviation;
    let mut wear: Vec<(usize, f64)> = Vec::new();
    let mut add = |parts: usize, chance: f64| {
        if chance <= 0.0 {
            return;
        }
        match wear.iter_mut().find(|(known, _)| *known == parts) {
            Some((_, sum)) => *sum += chance,
            None => wear.push((parts, chance)),
        }
    };
    for (value, chance) in [
        (mean - reach, 1.0 / 6.0),
        (mean, 2.0 / 3.0),
        (mean + reach, 1.0 / 6.0),
    ] {
        let value = meant(value.max(0.0));
        let below = value.floor();
        let over = value - below;
        add(below as usize, chance * (1.0 - over));
        add(below as usize + 1, chance * over);
    }
    wear.sort_by_key(|(parts, _)| *parts);
    wear
}

/// A quotient without the dust of dividing, where it is whole.
fn meant(quotient: f64) -> f64 {
    let whole = quotient.round();
    if (quotient - whole).abs() <= 1e-9 {
        whole
    } else {
        quotient
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let step = inputs.need_si("step")?;
    let (model, start) = model(inputs, step)?;
    let plan = model.cheapest();
    let renewing = model.by_rule(&|_, _, _| Act::Renew);
    let cutting = model.by_rule(&|_, _, _| Act::Cut);
    // To a thousandth of an hour, so that the differences can be redone from the figures on the page.
    let hours = |plan: &Plan| (plan.expected(start).hours * 1e3).round() / 1e3;
    let stops = |plan: &Plan| Outcome::Si((plan.expected(start).stops * 1e9).round() / 1e9);
    let (least, renewed, cut) = (hours(&plan), hours(&renewing), hours(&cutting));
    let spread = inputs.need_si("wear_spread")?;
    let mut answer = Answer::new(card::PLAN)
        .with("now", now(&model, &plan, start))
        .with("plan", table(&model, &plan, start, step))
        .with("expected", Outcome::Si(least))
        .with("stops", stops(&plan))
        .with("renew_always", Outcome::Si(renewed))
        .with("renew_stops", stops(&renewing))
        .with("cut_always", Outcome::Si(cut))
        .with("cut_stops", stops(&cutting))
        .with(
            "saved_on_renewing",
            Outcome::Si(less(renewed, least, Dimension::Ratio)),
        )
        .with(
            "saved_on_cutting",
            Outcome::Si(less(cut, least, Dimension::Ratio)),
        )
        .with(
            "hours_an_opening",
            Outcome::Si(least / model.openings as f64),
        )
        .with(
            "hard_wear",
            Outcome::Si(inputs.need_si("wear_mean")? + math::sqrt(3.0) * spread),
        )
        .with("stretch", stretch_table(&model, step));
    for (symbol, value) in [
        (card::CHEAPEST, least),
        (card::RENEWING, renewed),
        (card::CUTTING, cut),
    ] {
        answer
            .found
            .push(TableValue::inch_book(symbol, value, "the dynamic program"));
    }
    if spread <= 0.0 {
        answer.notices.push("The spread was given as nothing: every stretch is then taken to wear alike, and no stop comes as a surprise. Ask the forecast for the spread.".to_owned());
    }
    if start.wear > model.limit(start.cuts) {
        answer.notices.push("The metal left is less than the wear: it has passed the size that condemns it and cannot be left.".to_owned());
    }
    Ok(answer)
}

/// The model out of lengths and hours, and where the part stands.
fn model(inputs: &Inputs, step: f64) -> Result<(Model, State), SheetError> {
    let need = |name| inputs.need_si(name);
    let part = step / PARTS as f64;
    // Rounded against the part: metal down, wear up.
    let down = |length: f64, unit: f64| meant(length / unit).floor() as usize;
    let up = |length: f64| meant(length / part).ceil() as usize;
    let (new_cuts, cuts) = (down(need("new_metal")?, step), down(need("metal")?, step));
    let wear_limit = down(need("wear_limit")?, part);
    let wear = up(need("wear")?);
    if new_cuts == 0 || new_cuts > MOST_CUTS {
        return Err(SheetError::impossible(
            card::ID,
            format!("a new part has metal for {new_cuts} cuts"),
            format!("new_metal for 1 to {MOST_CUTS} cuts of one step"),
        ));
    }
    if cuts > new_cuts {
        return Err(SheetError::impossible(
            card::ID,
            format!("the part has metal for {cuts} cuts and a new one for {new_cuts}"),
            "no more metal than a new part has",
        ));
    }
    if wear_limit == 0 || wear_limit > MOST_WEAR {
        return Err(SheetError::impossible(
            card::ID,
            format!("the wear limit is {wear_limit} eighths of a step"),
            format!("a wear_limit of 1 to {MOST_WEAR} eighths of a step"),
        ));
    }
    if wear > wear_limit {
        return Err(SheetError::impossible(
            card::ID,
            "the wear is past its limit already",
            "wear within wear_limit: past it there is nothing to plan, it is cut or renewed now",
        ));
    }
    let model = Model {
        parts: PARTS,
        new_cuts,
        wear_limit,
        wear: stretch(need("wear_mean")? / part, need("wear_spread")? / part),
        hours: [
            need("hours_leave")?,
            need("hours_cut")?,
            need("hours_renew")?,
        ],
        forced: need("hours_forced")?,
        openings: need("openings")?.round() as usize,
    };
    Ok((model, State { cuts, wear }))
}

fn word(act: Act) -> &'static str {
    match act {
        Act::Leave => "leave",
        Act::Cut => "cut",
        Act::Renew => "renew",
    }
}

fn now(model: &Model, plan: &Plan, start: State) -> String {
    match plan.act(0, start) {
        Some(Act::Leave) => "leave it".to_owned(),
        Some(Act::Cut) => match start.wear.div_ceil(model.parts).max(1) {
            1 => "cut it: one step".to_owned(),
            steps => format!("cut it: {steps} steps"),
        },
        Some(Act::Renew) | None => "bush or renew it".to_owned(),
    }
}

/// The cuts left that the plan can come to at each opening.
fn reached(model: &Model, plan: &Plan, start: State) -> Vec<Vec<usize>> {
    let mut now = vec![start];
    let mut all = Vec::new();
    for opening in 0..model.openings {
        let mut cuts: Vec<usize> = now.iter().map(|state| state.cuts).collect();
        cuts.sort_unstable();
        cuts.dedup();
        all.push(cuts);
        let mut next: Vec<State> = Vec::new();
        let mut put = |state: State| {
            if !next.contains(&state) {
                next.push(state);
            }
        };
        for state in &now {
            let Some(after) = plan
                .act(opening, *state)
                .and_then(|act| model.after(act, *state))
            else {
                continue;
            };
            let limit = model.limit(after.cuts);
            for (wear, _) in &model.wear {
                let worn = after.wear + wear;
                if worn <= limit {
                    put(State {
                        wear: worn,
                        ..after
                    });
                    continue;
                }
                // Stopped at its limit it may be cut or renewed: both are shown.
                let stopped = State {
                    wear: limit,
                    ..after
                };
                for act in [Act::Cut, Act::Renew] {
                    if let Some(right) = model.after(act, stopped) {
                        let wear = (worn - limit).min(model.limit(right.cuts));
                        put(State { wear, ..right });
                    }
                }
            }
        }
        now = next;
    }
    all
}

/// Openings, cuts left, metal left, what to do; runs of openings with one answer are one row.
fn table(model: &Model, plan: &Plan, start: State, step: f64) -> Outcome {
    let reached = reached(model, plan, start);
    let mut rows = Vec::new();
    for cuts in (0..=model.new_cuts).rev() {
        let mut run: Option<(usize, usize, String)> = None;
        for opening in 0..model.openings {
            let here = reached.get(opening).is_some_and(|all| all.contains(&cuts));
            let does = here.then(|| acts(model, plan, opening, cuts, step));
            match (&mut run, does) {
                (Some((_, last, known)), Some(does)) if *known == does => *last = opening,
                (_, does) => {
                    rows.extend(run.take().map(|run| row(run, cuts, step)));
                    run = does.map(|does| (opening, opening, does));
                }
            }
        }
        rows.extend(run.map(|run| row(run, cuts, step)));
    }
    let columns = [
        "cuts left",
        "metal left in",
        "openings",
        "what to do, by wear since the last cut",
    ];
    Outcome::Table {
        rows,
        columns: columns.map(str::to_owned).to_vec(),
    }
}

fn row((first, last, does): (usize, usize, String), cuts: usize, step: f64) -> Vec<String> {
    let openings = if first == last {
        format!("{}", first + 1)
    } else {
        format!("{} to {}", first + 1, last + 1)
    };
    vec![cuts.to_string(), tenths(cuts as f64 * step), openings, does]
}

/// "leave up to 0.0117 in, cut from 0.0156 in".
fn acts(model: &Model, plan: &Plan, opening: usize, cuts: usize, step: f64) -> String {
    let inches = |wear: usize| tenths(wear as f64 * step / model.parts as f64);
    let mut said: Vec<String> = Vec::new();
    let mut known: Option<Act> = None;
    let limit = model.limit(cuts);
    for wear in 0..=limit {
        let Some(act) = plan.act(opening, State { cuts, wear }) else {
            continue;
        };
        if known == Some(act) {
            continue;
        }
        said.push(match known {
            None => word(act).to_owned(),
            Some(_) => format!("{} from {} in", word(act), inches(wear)),
        });
        known = Some(act);
    }
    said.join(", ")
}

fn stretch_table(model: &Model, step: f64) -> Outcome {
    let rows = model.wear.iter().map(|(wear, chance)| {
        vec![
            tenths(*wear as f64 * step / model.parts as f64),
            show::number(*chance, 4, Rounding::Nearest),
        ]
    });
    Outcome::Table {
        rows: rows.collect(),
        columns: ["wear in", "chance"].map(str::to_owned).to_vec(),
    }
}
