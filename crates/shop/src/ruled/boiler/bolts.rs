//! The map of the staybolts: every bolt with its place and state, the count and the distances of those that count as
//! broken, held against the law's limits, and the last day of each.
//!
//! A bolt of which nobody said anything is not known to be sound. Distances are true ones within a sheet; between sheets
//! this map has none, and says so.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::sync::Arc;

use jiff::civil::Date;
use measure::{Dimension, House, Length, Rounding, entered_with_unit, show};
use rules::{Body, Rulebook, Ruling};

use crate::Refusal;
use crate::book::{Book, LocomotiveId, StaySaid, StaySheet};
use crate::locomotive::{Law, STAY_STATES, engine_of};
use crate::verdict::{Checked, LimitQuestion, Verdict, check_in};

/// A bolt.
#[derive(Debug, Clone, PartialEq)]
pub struct Bolt {
    /// Its row.
    pub row: String,
    /// Its number in the row, from 1.
    pub number: u32,
    /// From the left edge, inches.
    pub x: f64,
    /// From the lower edge, inches.
    pub y: f64,
    /// What was said of it last; nothing where nobody said anything.
    pub said: Option<Arc<StaySaid>>,
    /// Everything said of it since it was first found to count as broken and was not put right, the first of it first. The
    /// law's days run from that first day: to say it again gains none. Empty where it does not count as broken.
    pub found: Vec<Arc<StaySaid>>,
    /// Its kind.
    pub kind: String,
    /// Its size as written.
    pub size: String,
    /// When it was renewed last, if the book says.
    pub renewed: Option<Date>,
}

impl Bolt {
    /// Whether it counts as broken: broken, or its telltale leaks, is plugged or missing.
    pub fn counts_as_broken(&self) -> bool {
        !self.found.is_empty()
    }

    /// Whether its state is known.
    pub fn is_known(&self) -> bool {
        self.said.is_some()
    }

    /// Its name: row and number.
    pub fn name(&self) -> String {
        format!("row {}, number {}", self.row, self.number)
    }
}

/// One sheet of bolts.
#[derive(Debug, Clone, PartialEq)]
pub struct BoltSheet {
    /// The sheet.
    pub sheet: String,
    /// Its bolts, row by row.
    pub bolts: Vec<Bolt>,
}

/// Two bolts that count as broken, and how far apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The sheet.
    pub sheet: String,
    /// The one.
    pub one: String,
    /// The other.
    pub other: String,
    /// In a straight line, inches.
    pub apart: f64,
}

/// The day by which a bolt is renewed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Renew {
    /// The sheet.
    pub sheet: String,
    /// The bolt.
    pub bolt: String,
    /// The day it was found.
    pub found: Date,
    /// The last day; the day itself where the rule leaves none.
    pub by: Date,
    /// Why no days are left, where none are.
    pub at_once: Option<String>,
    /// The rule and its section.
    pub rule: String,
}

/// The map.
#[derive(Debug, Clone, PartialEq)]
pub struct BoltMap {
    /// The sheets, in the order entered.
    pub sheets: Vec<BoltSheet>,
    /// How many count as broken.
    pub broken: usize,
    /// How many nobody said anything of.
    pub unknown: usize,
    /// The nearest two that count as broken in one sheet.
    pub nearest: Option<Pair>,
    /// Whether broken bolts lie in more than one sheet, so that their distance is not on this map.
    pub across: bool,
    /// The law's limits, each with its verdict.
    pub limits: Vec<Checked>,
    /// By all of them, and by what is not known.
    pub verdict: Verdict,
    /// The last day of each that counts as broken.
    pub renew: Vec<Renew>,
}

/// Whether a bolt of this state counts as broken.
fn breaks(state: &str) -> bool {
    STAY_STATES
        .iter()
        .any(|(word, _, broken)| *word == state && *broken)
}

fn inches(text: &str) -> Option<f64> {
    let read = entered_with_unit(text, Dimension::Length).ok()?;
    Some(Length::m(read.si).to_inches())
}

fn sheet_of(kept: &StaySheet, on: Date) -> BoltSheet {
    let pitch = inches(&kept.map.pitch).unwrap_or(0.0);
    let mut bolts: Vec<Bolt> = Vec::new();
    for row in &kept.map.rows {
        let (first, y) = (
            inches(&row.first).unwrap_or(0.0),
            inches(&row.height).unwrap_or(0.0),
        );
        bolts.extend((1..=row.count).map(|number| Bolt {
            row: row.row.clone(),
            number,
            x: first + pitch * f64::from(number - 1),
            y,
            said: None,
            found: Vec::new(),
            kind: kept.map.kind.clone(),
            size: kept.map.size.clone(),
            renewed: None,
        }));
    }
    let mut said: Vec<&StaySaid> = kept.said.iter().filter(|it| it.on <= on).collect();
    // In the order of the days; of one day, in the order entered.
    said.sort_by_key(|it| it.on);
    for it in said {
        let (it, broken) = (Arc::new(it.clone()), breaks(&it.state));
        for bolt in bolts
            .iter_mut()
            .filter(|bolt| it.speaks_of(&bolt.row, bolt.number))
        {
            if let Some(kind) = &it.kind {
                bolt.kind.clone_from(kind);
            }
            if let Some(size) = &it.size {
                bolt.size.clone_from(size);
            }
            if it.state == "renewed" {
                bolt.renewed = Some(it.on);
            }
            if broken {
                bolt.found.push(Arc::clone(&it));
            } else {
                bolt.found.clear();
            }
            bolt.said = Some(Arc::clone(&it));
        }
    }
    BoltSheet {
        sheet: kept.map.sheet.clone(),
        bolts,
    }
}

/// The map of an engine's staybolts on a day.
///
/// # Errors
/// Input: no such engine, a set of her rules that does not read, a day before the rulebook's coverage.
pub fn bolt_map(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    on: Date,
) -> Result<BoltMap, Refusal> {
    let engine = engine_of(book, id)?;
    let kept = book
        .boilers
        .get(&id)
        .map_or(&[][..], |boiler| &boiler.stays);
    let sheets: Vec<BoltSheet> = kept.iter().map(|kept| sheet_of(kept, on)).collect();
    let all = || {
        sheets
            .iter()
            .flat_map(|sheet| sheet.bolts.iter().map(move |bolt| (sheet, bolt)))
    };
    let broken: Vec<_> = all().filter(|(_, bolt)| bolt.counts_as_broken()).collect();
    let unknown = all().filter(|(_, bolt)| !bolt.is_known()).count();
    let nearest = nearest(&broken);
    let first = broken.first().map(|(sheet, _)| &sheet.sheet);
    let across = broken.iter().any(|(sheet, _)| Some(&sheet.sheet) != first);
    let empty = std::collections::BTreeMap::new();
    let ask = |of: &str, reading: &str| {
        check_in(
            book,
            rules,
            LimitQuestion {
                of,
                jurisdiction: None,
                told: &[],
                facts: &empty,
                reading: Some(reading),
                uncertainty: None,
                engine: Some(engine),
                on,
                house: House::Inch,
            },
        )
    };
    let mut limits = ask("broken-staybolts", &broken.len().to_string())?.lines;
    if let Some(pair) = &nearest {
        let apart = format!("{} in", show::number(pair.apart, 4, Rounding::Down));
        limits.extend(ask("broken-staybolt-spacing", &apart)?.lines);
    }
    let fails: Vec<String> = limits
        .iter()
        .filter_map(|it| match &it.verdict {
            Verdict::Fails(why) => Some(why.clone()),
            _ => None,
        })
        .flatten()
        .collect();
    let mut needs: Vec<String> = limits
        .iter()
        .filter_map(|it| match &it.verdict {
            Verdict::CannotTell(needs) => Some(needs.clone()),
            _ => None,
        })
        .flatten()
        .collect();
    if sheets.is_empty() {
        needs.push("the map of her staybolts".into());
    }
    if unknown > 0 {
        needs.push(format!(
            "the state of {unknown} bolts of which nobody has said anything"
        ));
    }
    if across {
        needs.push("the distance between broken bolts of different sheets, taken with a tape inside the firebox".into());
    }
    let verdict = match (fails.is_empty(), needs.is_empty()) {
        (false, _) => Verdict::Fails(fails),
        (true, false) => Verdict::CannotTell(needs),
        (true, true) => Verdict::Complies,
    };
    let over = matches!(verdict, Verdict::Fails(_));
    let mut renew = Vec::new();
    let mut of_days = BTreeMap::new();
    for (sheet, bolt) in &broken {
        let Some(first) = bolt.found.first() else {
            continue;
        };
        // The rules of a day are asked for once, however many bolts were found on it.
        let of_day: &Vec<Ruling> = match of_days.entry(first.on) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(free) => {
                let in_force = Law::of(book, rules, engine).in_force(first.on)?;
                let renewals = in_force.into_iter().filter(|ruling| {
                    matches!(&ruling.body, Body::Calendar(says) if says.inspection == "staybolt-renewal")
                });
                free.insert(renewals.collect())
            }
        };
        for ruling in of_day {
            let Body::Calendar(says) = &ruling.body else {
                continue;
            };
            let found_at = bolt.found.iter().find_map(|said| {
                let kind = said.at.as_ref()?;
                says.at_once.contains(kind).then_some((kind, said.on))
            });
            let last = says.span.after(first.on)?;
            let (by, at_once) = match found_at {
                _ if over => (
                    first.on,
                    Some(
                        "a limit of the law on broken bolts is not met: no days are left to it"
                            .into(),
                    ),
                ),
                Some((kind, day)) => (
                    day.min(last),
                    Some(format!(
                        "found at the {kind} of {day}: there it is put right at once"
                    )),
                ),
                None => (last, None),
            };
            renew.push(Renew {
                sheet: sheet.sheet.clone(),
                bolt: bolt.name(),
                found: first.on,
                by,
                at_once,
                rule: format!("{}, {}", ruling.rule, ruling.cite.section),
            });
        }
    }
    Ok(BoltMap {
        broken: broken.len(),
        unknown,
        nearest,
        across,
        limits,
        verdict,
        renew,
        sheets,
    })
}

/// The nearest two in one sheet.
fn nearest(broken: &[(&BoltSheet, &Bolt)]) -> Option<Pair> {
    let mut least: Option<Pair> = None;
    for (at, (sheet, one)) in broken.iter().enumerate() {
        for (other_sheet, other) in broken.iter().skip(at + 1) {
            if sheet.sheet != other_sheet.sheet {
                continue;
            }
            let apart = measure::math::sqrt(
                (one.x - other.x) * (one.x - other.x) + (one.y - other.y) * (one.y - other.y),
            );
            if least.as_ref().is_none_or(|pair| apart < pair.apart) {
                least = Some(Pair {
                    sheet: sheet.sheet.clone(),
                    one: one.name(),
                    other: other.name(),
                    apart,
                });
            }
        }
    }
    least
}
