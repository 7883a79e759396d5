//! Every open thing of one engine, grouped by what must be apart anyway: two things stand together where something must
//! come off to reach the one that must come off to reach the other.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::book::{Book, CarriedOn, Finding, FindingState, LocomotiveId};
use crate::finding::open_symptoms;

/// What is open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Thing {
    /// A finding that is not closed.
    Finding {
        /// F-001.
        number: u32,
        /// How far it has come.
        state: FindingState,
        /// The day it is looked at again, if it is carried.
        recheck: Option<Date>,
        /// Each time somebody decided to carry it, oldest first.
        carried: Vec<CarriedOn>,
    },
    /// A write-up that nobody has looked at.
    WriteUp {
        /// W-001.
        number: u32,
    },
}

/// One open thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Open {
    /// What it is.
    pub thing: Thing,
    /// Where: the name of a finding's part, or the crew's words.
    pub place: String,
    /// In the words of whoever found it.
    pub told: String,
    /// Since when.
    pub since: Date,
    /// What must come off to reach its part, in order, as somebody stated it; nothing where nobody did.
    pub reach: Vec<String>,
}

/// Open things whose ways in have a part in common.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Together {
    /// All that must come off to reach them, in the order it was stated; empty where nobody stated any.
    pub apart: Vec<String>,
    /// The things, oldest first.
    pub open: Vec<Open>,
}

/// Every open thing of an engine, oldest first in its group, the group with the oldest first. Those of which nobody
/// stated what must come off stand in one group at the end.
pub fn open_things(book: &Book, engine: LocomotiveId) -> Vec<Together> {
    let findings = book.findings.values();
    let findings = findings.filter(|f| f.locomotive == engine && f.state != FindingState::Closed);
    let mut all: Vec<Open> = findings.map(|f| of_finding(book, f)).collect();
    let symptoms = open_symptoms(book, engine).into_iter();
    all.extend(symptoms.map(|(report, told)| Open {
        thing: Thing::WriteUp {
            number: told.number,
        },
        place: told.symptom.place.clone(),
        told: told.symptom.what.clone(),
        since: report.on,
        reach: Vec::new(),
    }));
    all.sort_by_key(|open| (open.since, open.number()));
    let mut groups: Vec<Together> = Vec::new();
    let mut alone = Vec::new();
    for open in all {
        if open.reach.is_empty() {
            alone.push(open);
            continue;
        }
        // What it shares with groups that had nothing in common before makes one of them.
        let ways: BTreeSet<&String> = open.reach.iter().collect();
        let meets = |group: &Together| group.apart.iter().any(|word| ways.contains(word));
        let mut met = Together {
            apart: Vec::new(),
            open: Vec::new(),
        };
        let mut at = None;
        let mut kept = Vec::new();
        for group in groups {
            if meets(&group) {
                at.get_or_insert(kept.len());
                met.add(group.apart, group.open);
            } else {
                kept.push(group);
            }
        }
        met.add(open.reach.clone(), vec![open]);
        met.open.sort_by_key(|open| (open.since, open.number()));
        kept.insert(at.unwrap_or(kept.len()), met);
        groups = kept;
    }
    if !alone.is_empty() {
        groups.push(Together {
            apart: Vec::new(),
            open: alone,
        });
    }
    groups
}

impl Thing {
    /// Whether it is carried by decision.
    pub fn is_carried(&self) -> bool {
        matches!(
            self,
            Thing::Finding {
                state: FindingState::Carried,
                ..
            }
        )
    }
}

impl Open {
    fn number(&self) -> u32 {
        match self.thing {
            Thing::Finding { number, .. } | Thing::WriteUp { number } => number,
        }
    }
}

impl Together {
    fn add(&mut self, apart: Vec<String>, open: Vec<Open>) {
        for word in apart {
            if !self.apart.contains(&word) {
                self.apart.push(word);
            }
        }
        self.open.extend(open);
    }
}

fn of_finding(book: &Book, finding: &Finding) -> Open {
    let part = book.parts.get(&finding.part);
    let recheck = finding.decision.as_ref().and_then(|it| it.recheck);
    Open {
        thing: Thing::Finding {
            number: finding.number,
            state: finding.state,
            recheck: recheck.filter(|_| finding.state == FindingState::Carried),
            carried: finding.carried.clone(),
        },
        place: part.map_or_else(|| "?".to_owned(), |part| part.name.clone()),
        told: finding.told.clone(),
        since: finding.found_on,
        reach: part.map_or_else(Vec::new, |part| part.known.reach.clone()),
    }
}
