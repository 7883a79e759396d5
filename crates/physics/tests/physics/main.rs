//! Tests of the sheets: the printed formula against the function, the pencil, the evidence, the doors.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on must fail, in its helpers too"
)]

mod acme;
mod agreement;
mod air;
mod balls;
mod boiler;
mod boiler_seam;
mod boiler_whole;
mod boiler_care;
mod differences;
mod errors;
mod evidence;
mod fits;
mod gears;
mod grammar;
mod hot;
mod knock_on;
mod lathe;
mod page;
mod redo;
mod running;
mod seat;
mod seats;
mod setting;
mod steam;
mod steam_valves;
mod tables;
mod thread_cutting;
mod thread_forms;
mod thread_identify;
mod thread_limits;
mod thread_strength;
mod thread_wires;
mod wear;
mod worded;
mod yearly;

use measure::{Dimension, House, Unit, entered};
use physics::answer::{Answer, Outcome};
use physics::card::Kind;
use physics::{Entry, Given, Worked, find};

/// A small random source with a stated seed, so that a failure comes back the same.
pub struct Dice(u64);

impl Dice {
    /// Dice that fall alike for one seed.
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// From 0 up to 1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// From 0 up to `n`, whole.
    pub fn below(&mut self, n: usize) -> usize {
        (self.unit() * n as f64) as usize
    }
}

/// Arguments for `entry` drawn from the ranges on its card; optional ones come half the time.
fn draw(entry: &Entry, dice: &mut Dice) -> Vec<Given> {
    let mut given = Vec::new();
    for argument in entry.card.arguments {
        if !argument.required && dice.below(2) == 0 {
            continue;
        }
        let text = match argument.kind {
            Kind::Quantity(dimension, range) => {
                let end = |text| entered(text, dimension, House::Inch).unwrap().si;
                let (least, most) = (end(range.least), end(range.most));
                let unit = Unit::of(dimension, House::Inch);
                let value = unit.from_si(least + dice.unit() * (most - least));
                let parts = (value * 64.0).round();
                let kept = parts > 0.0
                    && (unit.to_si(parts / 64.0) - least) * (most - unit.to_si(parts / 64.0))
                        >= 0.0;
                if dimension == Dimension::Length && kept && dice.below(4) == 0 {
                    // As a rule is read: many a size of the shop has more than four decimals.
                    format!("{parts:.0}/64 in")
                } else if dimension == Dimension::Count {
                    format!("{value:.0}")
                } else {
                    // Tenths of a thou are whole in ticks, so that a size drawn here is one that a book can hold.
                    format!("{value:.4} {}", unit.symbol()).trim().to_owned()
                }
            }
            Kind::Word(choices) => choices[dice.below(choices.len())].to_owned(),
            Kind::List {
                dimension,
                range,
                count: (fewest, most),
                gaps,
            } => {
                let end = |text| entered(text, dimension, House::Inch).unwrap().si;
                let (least, most_si) = (end(range.least), end(range.most));
                let unit = Unit::of(dimension, House::Inch);
                // Short lists: what they are put through may grow fast with their length.
                let many = fewest + dice.below(8.min(most - fewest) + 1);
                let one = |dice: &mut Dice| {
                    if gaps && dice.below(8) == 0 {
                        return "?".to_owned();
                    }
                    let value = unit.from_si(least + dice.unit() * (most_si - least));
                    match dimension {
                        Dimension::Count => format!("{value:.0}"),
                        _ => format!("{value:.4} {}", unit.symbol()).trim().to_owned(),
                    }
                };
                let all: Vec<String> = (0..many).map(|_| one(dice)).collect();
                all.join(", ")
            }
            Kind::Words { choices, roles } => {
                let words: Vec<&str> = roles
                    .iter()
                    .map(|_| choices[dice.below(choices.len())])
                    .collect();
                words.join(",")
            }
        };
        given.push(Given::typed(argument.name, &text));
    }
    match entry.card.id {
        "boiler.survey" => lay_out(&mut given, dice),
        "boiler.governing" => tell(&mut given, dice),
        _ => {}
    }
    given
}

/// Lists that go together, mostly with every component told: drawn one by one, one of them has a gap nearly always.
fn tell(given: &mut [Given], dice: &mut Dice) {
    let many = 1 + dice.below(6);
    let mut list = |least: f64, most: f64, unit: &str, gap: usize| {
        let one = |_| match dice.below(gap) {
            0 => "?".to_owned(),
            _ => format!("{:.4}{unit}", least + dice.unit() * (most - least)),
        };
        (0..many).map(one).collect::<Vec<_>>().join(", ")
    };
    for one in given {
        one.text = match one.name.as_str() {
            "bears" => list(20.0, 400.0, " psig", 25),
            "bounds" => list(20.0, 400.0, " psig", 2),
            "factors" => list(1.0, 8.0, "", 12),
            _ => continue,
        };
    }
}

/// A grid that fills its rows, with courses that end where it ends: drawn one by one, they hardly ever do. Often it has the
/// thirty blocks that an estimate asks, seldom a square that nobody read.
fn lay_out(given: &mut [Given], dice: &mut Dice) {
    let (columns, rows) = (5 + dice.below(9), 5 + dice.below(9));
    let squares = (0..columns * rows).map(|_| match dice.below(60) {
        0 => "?".to_owned(),
        _ => format!("{:.4} in", 0.2 + 0.4 * dice.unit()),
    });
    let grid: Vec<String> = squares.collect();
    let square = 1.0 + 5.0 * dice.unit();
    for one in given {
        one.text = match one.name.as_str() {
            "grid" => grid.join(", "),
            "columns" => columns.to_string(),
            "courses" => format!("{}, {columns}", 1 + dice.below(columns - 1)),
            "square" => format!("{square:.4} in"),
            "spot" => format!("{:.4} in", square * (0.06 + 0.3 * dice.unit())),
            _ => continue,
        };
    }
}

/// `count` sets of arguments that `entry` accepts, each worked.
pub fn valid(entry: &'static Entry, count: usize, house: House) -> Vec<(Vec<Given>, Worked)> {
    let mut dice = Dice::new(entry.card.id.len() as u64 + 41);
    let mut found = Vec::new();
    for _ in 0..count * 400 {
        let given = draw(entry, &mut dice);
        if let Ok(worked) = Worked::new(entry, &given, house) {
            found.push((given, worked));
            if found.len() == count {
                return found;
            }
        }
    }
    panic!(
        "{}: only {} of {count} draws were accepted",
        entry.card.id,
        found.len()
    );
}

/// Typed arguments out of pairs.
pub fn typed(pairs: &[(&str, &str)]) -> Vec<Given> {
    pairs
        .iter()
        .map(|(name, text)| Given::typed(name, text))
        .collect()
}

/// What a sheet answers, unrounded and with its case.
pub fn answer(id: &str, pairs: &[(&str, &str)]) -> Answer {
    let worked = Worked::new(find(id).unwrap(), &typed(pairs), House::Inch);
    worked.unwrap().answer
}

/// A figure of it, in the units of the SI.
pub fn figure(answer: &Answer, name: &str) -> f64 {
    match answer.result(name) {
        Some(Outcome::Si(si)) => *si,
        other => panic!("{name}: {other:?}"),
    }
}
