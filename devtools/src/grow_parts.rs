//! `grow-parts`: a made-up roundhouse whose engines have their parts and many readings of each, for benches.

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::{Date, date};
use measure::{Reading, State};
use rules::Rulebook;
use shop::book::{FeatureReading, PartAdded, PartId, PartKnown, ReadingsTaken, Side, Statement};
use shop::locomotive::add_engine;
use store::{Act, Store};

use crate::Stop;
use crate::grow::{act_of, begun, engine, engine_of, years_on};

/// Parts of an engine: with three features each, 400 features and two over.
pub const PARTS: u32 = 134;
/// Sets of readings of a part, seven readings in each: 30 readings of a feature and one over.
const SETS: u32 = 13;
/// The day of the first set; the others follow a year apart.
const FIRST: Date = date(2013, 3, 16);

/// Makes a book from the words of the command line.
///
/// # Errors
/// Input where the number does not read; otherwise as [`parts`].
pub fn from_words(file: &str, engines: &str) -> Result<String, Stop> {
    let engines = engines.parse().ok().filter(|n| (1..=400).contains(n));
    let engines = engines.ok_or_else(|| {
        Stop::input("1 to 400 engines were expected. Nothing was made.".to_string())
    })?;
    let (entries, bytes) = parts(Path::new(file), engines)?
        .scan()
        .map_err(Stop::machine)?;
    Ok(format!(
        "{file}: {entries} entries, {bytes} bytes of them\n"
    ))
}

/// The name of the n-th part of an engine.
pub fn name_of(part: u32) -> String {
    let side = if part.is_multiple_of(2) {
        "right"
    } else {
        "left"
    };
    format!("{side} bushing {}", part / 2 + 1)
}

/// Makes a book of engines with [`PARTS`] parts each, every one measured over and over.
///
/// # Errors
/// The machine's where the file stands or cannot be written.
pub fn parts(file: &Path, engines: u32) -> Result<Store, Stop> {
    let mut store = begun(file)?;
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    store
        .write(&act_of(2), |book, _| {
            let mut all = Vec::new();
            for number in 0..engines {
                let new = engine(engine_of(number), (100 + number).to_string());
                all.extend(add_engine(book, rules, new)?);
            }
            Ok(all)
        })
        .map_err(Stop::machine)?;
    for number in 0..engines {
        let id = 0x2000_0000 + u128::from(number) * 0x10_0000;
        let made: Vec<Statement> = (0..PARTS).map(|part| added(number, part)).collect();
        store
            .write_of(&act_of(id), engine_of(number), |_, _| Ok(made.clone()))
            .map_err(Stop::machine)?;
        for set in 0..SETS {
            let day = years_on(FIRST, set.into()).map_err(Stop::machine)?;
            let read: Vec<Statement> = (0..PARTS).map(|part| taken(number, part, set)).collect();
            let act = Act {
                done_on: day,
                ..act_of(id + 0x1_0000 * u128::from(set + 1))
            };
            store
                .write_of(&act, engine_of(number), |_, _| Ok(read.clone()))
                .map_err(Stop::machine)?;
        }
    }
    Ok(store)
}

fn part_of(engine: u32, part: u32) -> PartId {
    PartId(u128::from(engine) * 0x1_0000 + u128::from(part) + 1)
}

fn added(engine: u32, part: u32) -> Statement {
    Statement::PartAdded(PartAdded {
        id: part_of(engine, part),
        locomotive: engine_of(engine),
        family: "rod-bushing".into(),
        name: name_of(part),
        facts: BTreeMap::from([("pin".to_string(), "side-other-pin".to_string())]),
        features: BTreeMap::new(),
        known: Some(PartKnown {
            side: Some(if part.is_multiple_of(2) {
                Side::Right
            } else {
                Side::Left
            }),
            at: Some(format!("bay {}", part / 2 + 1)),
            ..PartKnown::default()
        }),
    })
}

/// A set: found worn a little more each year, left as it was found.
fn taken(engine: u32, part: u32, set: u32) -> Statement {
    let state = if set.is_multiple_of(2) {
        State::AsLeft
    } else {
        State::AsFound
    };
    let read = |feature: &str, place: &str, text: String| {
        let mut reading = Reading::new(&text, "in", place, "Ada Quill", "Ada Quill", state);
        reading.instrument = Some("micrometer M-12".into());
        FeatureReading {
            feature: feature.into(),
            reading,
        }
    };
    let mut readings = Vec::new();
    for place in ["inner end", "middle", "outer end"] {
        readings.push(read("bore", place, format!("5.5{:02}", 10 + set)));
        readings.push(read("pin", place, format!("5.4{:02}", 99 - set)));
    }
    readings.push(read("side-play", "rod", "3/32".into()));
    Statement::ReadingsTaken(ReadingsTaken {
        part: part_of(engine, part),
        job: None,
        state,
        readings,
        taken: None,
        finding: None,
    })
}
