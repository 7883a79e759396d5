//! `thread.identify`: what a worn thread may have been: a ranked list out of every standard series,
//! with how far each reading stands off, what wear would explain, and what measurement would settle it.
//!
//! # How candidates are weighed
//!
//! Wear takes metal off and never puts it on. So a reading that stands off in the way wear goes
//! weighs little, and one that stands off in the other way weighs at once. Each is counted in steps
//! of what it may be off by honestly:
//!
//! | reading | wear goes | a step of wear | a step the other way |
//! |---|---|---|---|
//! | major, screw | smaller | 0.12 pitch (crests) | .003 in |
//! | pitch diameter, screw | smaller | 0.08 pitch (flanks) | .003 in |
//! | major and pitch diameter, nut | larger | the same | .003 in |
//! | bore, nut | larger | 0.12 pitch | .003 in |
//! | root, screw | (it does not wear) | 0.05 pitch either way | |
//! | pitch | (it does not wear) | 1.5 per cent either way | |
//! | flank | (it wears hollow) | 1 degree either way | |
//! | taper | (wear is local) | 0.12 in per foot either way | |
//!
//! The squares of the steps are added; less is likelier. *None of these* stands in the same list at
//! nine, as if one reading were three steps off: what weighs more is not offered. A thread with two
//! starts is tried wherever nobody measured the lead, since its lead is easily taken for its pitch.
//! The steps are common practice, not a source; the list is a help to look again, not a verdict.

mod card;
mod weigh;

pub use card::ENTRY;
pub use weigh::{Candidate, NONE, Readings, Side, candidates};

use crate::answer::{Answer, Outcome, TableValue, cannot_tell};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Length};

/// How many candidates a sheet lists at most.
const LISTED: usize = 7;

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let side = inputs.need_word("side", Side::from_word)?;
    let pitch = match (inputs.inch("tpi"), inputs.length("pitch")) {
        (Some(_), Some(_)) => {
            return Err(SheetError::impossible(
                card::ID,
                "given tpi and pitch together",
                "one of them",
            ));
        }
        (Some(tpi), None) => Some(Length::inches(1.0 / tpi)),
        (None, pitch) => pitch,
    };
    let (major, minor) = (inputs.length("major"), inputs.length("minor"));
    let needs = match (pitch, major.or(minor)) {
        (None, None) => "tpi or pitch, and major or minor",
        (None, Some(_)) => "tpi or pitch",
        (Some(_), None) => "major or minor",
        (Some(pitch), Some(_)) => {
            let readings = Readings {
                side,
                pitch,
                lead: inputs.length("lead"),
                major,
                minor,
                pitch_diameter: inputs.length("pitch_diameter"),
                flank: inputs.si("flank_angle").map(Angle::radians),
                taper: taper(inputs)?,
            };
            return found(inputs, &readings);
        }
    };
    let said = cannot_tell(&[needs]);
    let mut answer = Answer::new(side.word());
    for spec in inputs.card.results {
        let told = match (spec.name, pitch, taper(inputs)?) {
            ("taper_per_foot", _, Some(taper)) => Outcome::Si(Length::inches(12.0 * taper).to_m()),
            ("taper_per_foot", _, None) => continue,
            ("pitch_measured", Some(pitch), _) => Outcome::Si(pitch.to_m()),
            ("threads_per_inch", Some(pitch), _) => Outcome::Si(1.0 / pitch.to_m()),
            ("starts_measured", Some(pitch), _) => match inputs.length("lead") {
                Some(lead) => Outcome::Si(lead.to_m() / pitch.to_m()),
                None => continue,
            },
            _ => Outcome::Text(said.clone()),
        };
        answer.results.push((spec.name, told));
    }
    answer.found = pitch.map(measured).into_iter().collect();
    Ok(answer)
}

/// The pitch as the formula uses it, however it was told.
fn measured(pitch: Length) -> TableValue {
    TableValue::inch_book(
        card::MEASURED,
        pitch.to_inches(),
        "from tpi or pitch as given",
    )
}

/// Change of diameter over length along the axis, where a second place was measured.
fn taper(inputs: &Inputs) -> Result<Option<f64>, SheetError> {
    let places = (
        inputs.length("major"),
        inputs.length("major_far"),
        inputs.length("distance"),
    );
    let (Some(near), Some(far), Some(distance)) = places else {
        return Ok(None);
    };
    let taper = (near.to_m() - far.to_m()).abs() / distance.to_m();
    if taper > 0.5 {
        return Err(SheetError::impossible(
            card::ID,
            format!("a taper of {:.2} in per foot", 12.0 * taper),
            "two places on one thread, less than 6 in per foot apart",
        ));
    }
    Ok(Some(taper))
}

fn found(inputs: &Inputs, readings: &Readings) -> Result<Answer, SheetError> {
    let all = candidates(card::ID, readings)?;
    let Some(first) = all.first() else {
        return Err(SheetError::OwnFault {
            sheet: card::ID,
            what: "table of thread series",
            detail: "no candidates".to_owned(),
        });
    };
    let left = inputs.word("hand") == Some("left");
    let name = |one: &Candidate| {
        let hand = if left { ", left hand" } else { "" };
        format!("{}{hand}", one.name)
    };
    let offered: Vec<&Candidate> = all
        .iter()
        .take_while(|one| one.weight < NONE)
        .take(LISTED)
        .collect();
    let best = offered
        .first()
        .map_or("none of these".to_owned(), |one| name(one));
    let settle = match offered.as_slice() {
        [] => "every list is off: measure again clean and unworn; then cut to the readings, or to a cast \
               of the mate"
            .to_owned(),
        [one] => one.doubt(readings),
        [one, other, ..] => one.against(other, readings),
    };
    let mut answer = Answer::new(readings.side.word())
        .with("best", best)
        .with("settle", settle)
        .with("nearest", name(first))
        .with("pitch_measured", readings.pitch)
        .with("threads_per_inch", Outcome::Si(1.0 / readings.pitch.to_m()));
    if let Some(lead) = readings.lead {
        let starts = lead.to_m() / readings.pitch.to_m();
        answer = answer.with("starts_measured", Outcome::Si(starts));
    }
    if let Some(taper) = readings.taper {
        answer = answer.with("taper_per_foot", Length::inches(12.0 * taper));
    }
    answer
        .results
        .push(("candidates", table(&offered, readings, name)));
    answer.found = vec![measured(readings.pitch)];
    answer.notices = notices(inputs, readings);
    Ok(answer)
}

/// The list as a table; *none of these* stands in it where it weighs.
fn table(
    offered: &[&Candidate],
    readings: &Readings,
    name: impl Fn(&Candidate) -> String,
) -> Outcome {
    let columns = [
        "thread",
        "weight",
        "off",
        "wear would explain",
        "settled by",
    ];
    let mut rows: Vec<Vec<String>> = offered
        .iter()
        .map(|one| {
            vec![
                name(one),
                format!("{:.1}", one.weight),
                one.off(readings),
                one.wear(readings),
                one.doubt(readings),
            ]
        })
        .collect();
    rows.push(
        [
            "none of these",
            &format!("{NONE:.1}"),
            "-",
            "a re-cut, a maker's own thread, or a wrong reading",
            "measure again clean, at an unworn place",
        ]
        .map(str::to_owned)
        .to_vec(),
    );
    Outcome::Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows,
    }
}

fn notices(inputs: &Inputs, readings: &Readings) -> Vec<String> {
    let mut notices = Vec::new();
    match inputs.word("hand") {
        None => notices.push(
            "The hand was not told: look which way the thread climbs. Left-hand threads are found where \
             a right-hand one would unscrew."
                .to_owned(),
        ),
        Some("left") => notices.push(
            "Left hand: taps, dies and the lathe's lead are reversed; the sizes are those of the right \
             hand."
                .to_owned(),
        ),
        Some(_) => {}
    }
    if readings.lead.is_none() {
        notices.push(
            "The lead was not measured: count the thread's ends, or how far one turn goes. Two starts \
             look like one of twice the pitch."
                .to_owned(),
        );
    }
    match readings.taper {
        None => notices.push(
            "One place only: a taper thread measured once looks like a worn parallel one. Measure the \
             major diameter at two places."
                .to_owned(),
        ),
        Some(taper) if taper > 0.02 => notices.push(format!(
            "Tapers {:.2} in per foot on the diameter. Boiler plugs and studs are in no list: fit theirs \
             with thread.plug.",
            12.0 * taper
        )),
        Some(_) => {}
    }
    if readings.flank.is_some_and(|flank| flank.to_degrees() < 8.0) {
        notices.push(
            "The flanks are near square: square threads are in no list; see thread.square."
                .to_owned(),
        );
    }
    notices
}
