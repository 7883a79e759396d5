//! What each family must hold, from a table beside them: nothing that a trade card asks for may go missing unseen.
//!
//! `tables/family-demands.csv` says per family what is measured, limited, chosen, reckoned, affected and proved. Its words
//! were written from the shop's trade cards (common practice, and 49 CFR Part 230 where a rule stands behind a limit).

use std::collections::{BTreeMap, BTreeSet};

use rules::Rulebook;
use shop::book::{Family, family_faults};
use shop::route::known_to_families;

const DEMANDS: &str = include_str!("../../../../tables/family-demands.csv");

fn built_in() -> BTreeMap<String, Family> {
    let read = |text: &&str| Family::read(text).unwrap();
    let all = Family::BUILT_IN.iter().map(read);
    all.map(|family| (family.family.clone(), family)).collect()
}

/// What a demand is written as in a family, with what it must name: a sheet, a rule, a family.
fn holds(family: &Family, kind: &str, word: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut put = |names: Vec<String>| {
        found.insert(word.to_string());
        found.extend(names.iter().map(|name| format!("{word}={name}")));
    };
    match kind {
        "measured" => {
            let is_record = |said: &String| said.replace(' ', "-") == word;
            let mut records = family.proofs.iter().flat_map(|proof| &proof.records);
            if family.measures(word)
                || family.condition(word).is_some()
                || family.facts.iter().any(|fact| fact.name == word)
                || records.any(is_record)
            {
                put(Vec::new());
            }
        }
        "limit" => {
            if let Some(limit) = family.limits.iter().find(|it| it.word == word) {
                put(limit.rule.iter().cloned().collect());
            }
        }
        "choice" => {
            if family.route(word).is_some() {
                put(Vec::new());
            }
        }
        "calculation" => {
            let used = family
                .routes
                .iter()
                .any(|r| r.calculations.iter().any(|w| w == word));
            if let Some(sum) = family.calculation(word).filter(|_| used) {
                put(sum.sheets.clone());
            }
        }
        "affects" => {
            let used = family
                .routes
                .iter()
                .any(|r| r.knock_ons.iter().any(|w| w == word));
            if let Some(neighbor) = family.knock_on(word).filter(|_| used) {
                put(neighbor.family.iter().cloned().collect());
            }
        }
        "proof" => {
            let used = family
                .routes
                .iter()
                .any(|r| r.proofs.iter().any(|w| w == word));
            if family.proof(word).is_some() && used {
                put(Vec::new());
            }
        }
        other => panic!("`{other}` is no kind of demand"),
    }
    found
}

/// The demands that are not met, as `family kind word`.
fn missing(families: &BTreeMap<String, Family>) -> Vec<String> {
    let mut missing = Vec::new();
    for line in DEMANDS.lines().skip(1) {
        let mut columns = line.split(',');
        let (Some(name), Some(kind), Some(words), None) = (
            columns.next(),
            columns.next(),
            columns.next(),
            columns.next(),
        ) else {
            panic!("three columns were expected: {line}");
        };
        for demand in words.split(' ') {
            let word = demand.split_once('=').map_or(demand, |(word, _)| word);
            let met = families
                .get(name)
                .is_some_and(|family| holds(family, kind, word).contains(demand));
            if !met {
                missing.push(format!("{name} {kind} {demand}"));
            }
        }
    }
    missing
}

#[test]
fn every_family_holds_what_its_trade_card_asks() {
    assert_eq!(missing(&built_in()), Vec::<String>::new());
}

/// The table is not met by accident: whatever is taken out of a family goes missing by name.
#[test]
fn what_is_taken_out_goes_missing() {
    let mut families = built_in();
    let valve = families.get_mut("stop-valve").unwrap();
    valve.features.retain(|it| it.name != "stem-bend");
    valve.routes.retain(|it| it.word != "grind-in");
    valve.knock_ons.retain(|it| it.word != "handle");
    valve.calculations.retain(|it| it.word != "hot");
    let box_limits = &mut families.get_mut("driving-box").unwrap().limits;
    box_limits.retain(|it| it.word != "one-shim");
    families.remove("brake-valve");
    let missing = missing(&families);
    for gone in [
        "stop-valve measured stem-bend",
        "stop-valve choice grind-in",
        "stop-valve affects handle",
        "stop-valve calculation hot=steam.saturation",
        "driving-box limit one-shim=us-steam.driving-box.shims",
        "brake-valve measured valve-hollow",
    ] {
        assert!(missing.iter().any(|it| it == gone), "{gone}: {missing:?}");
    }
}

#[test]
fn every_family_is_in_the_table() {
    let named: BTreeSet<&str> = DEMANDS
        .lines()
        .skip(1)
        .filter_map(|l| l.split(',').next())
        .collect();
    let unnamed: Vec<_> = built_in()
        .into_keys()
        .filter(|word| !named.contains(word.as_str()))
        .collect();
    // What these hold is asked of the card's other families: the journal of the box, the pin of the rod's bushing.
    let with_others = [
        "boiler-course",
        "check-valve",
        "crank-pin",
        "driving-journal",
        "engine-heights",
        "steam-gauge",
    ];
    assert_eq!(unnamed, with_others);
}

/// The strict look: sheets, rules and neighbors exist, three ways and one that carries.
#[test]
fn every_family_of_this_build_passes_the_look() {
    let rules = Rulebook::built_in().unwrap();
    let known = known_to_families(rules, built_in().into_values());
    for text in Family::BUILT_IN {
        if let Err(faults) = family_faults(text, &known) {
            panic!("{}: {faults:?}", Family::read(text).unwrap().family);
        }
    }
}

/// Each slip is told at the line it is written on.
#[test]
fn a_slip_is_told_with_its_line() {
    let rules = Rulebook::built_in().unwrap();
    let known = known_to_families(rules, built_in().into_values());
    let good = include_str!("../../../../tables/family/driving-box.toml");
    for (was, is, says) in [
        ("\"running.axle\"", "\"running.axel\"", "running.axel"),
        (
            "\"us-steam.driving-box.shims\"",
            "\"us-steam.driving-box.shim\"",
            "no rulebook known here",
        ),
        (
            "family = \"shoe-and-wedge\"",
            "family = \"shoe-and-wage\"",
            "no family known here",
        ),
        (
            "sizes = [\"wedge\"]",
            "sizes = [\"wage\"]",
            "not measured on",
        ),
        ("whose = \"practice\"", "whose = \"rumour\"", "rumour"),
        (
            "proofs = [\"axle-tested\", \"ran-cool\"]",
            "proofs = [\"axle-tested\", \"ran-warm\"]",
            "ran-warm",
        ),
        (
            "quarter-hours = [160, 200, 260]",
            "quarter-hours = [160, 20, 260]",
            "do not rise",
        ),
        (
            "title = \"journal under this box\"",
            "titel = \"journal under this box\"",
            "titel",
        ),
    ] {
        assert!(good.contains(was), "{was}");
        let text = good.replacen(was, is, 1);
        let at = good.find(was).unwrap();
        let faults = family_faults(&text, &known).unwrap_err();
        let fault = faults.iter().find(|it| it.says.contains(says));
        let fault = fault.unwrap_or_else(|| panic!("{is}: {faults:?}"));
        let line = good[..at].matches('\n').count() + 1;
        // Hours and what a whole route lacks are told at the route's head.
        if !is.starts_with("quarter") {
            assert_eq!(fault.line, line, "{is}: {fault:?}");
        }
    }
    let few = good
        .split("[[route]]")
        .take(4)
        .collect::<Vec<_>>()
        .join("[[route]]");
    let said = family_faults(&few, &known).unwrap_err();
    assert!(
        said.iter().any(|it| it.says.contains("at least 3 routes")),
        "{said:?}"
    );
}
