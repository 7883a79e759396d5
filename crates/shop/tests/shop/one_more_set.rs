//! One more rule set never helps: no verdict moves toward *complies*, no due day later.

use jiff::civil::{Date, date};
use proptest::prelude::*;
use rules::RuleSet;
use shop::book::{RulesAdopted, Statement};
use shop::clock::{Among, Clock, State, due};
use shop::verdict::Verdict;

use crate::local_rules::{BOUND, HALLOW, OWN, alike, crosshead, judged, rule_of, told};
use crate::world::{ADA, FOURTEEN, TODAY, World, later};

/// 0 complies, 1 cannot tell, 2 fails: a verdict never moves down this list.
fn rank(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::Complies => 0,
        Verdict::CannotTell(_) => 1,
        Verdict::Fails(_) => 2,
    }
}

/// A set of one limit and one clock.
fn set_of(origin: &str, limit: &str, clock: &str) -> String {
    let head = OWN[..OWN.find("[[rule]]").unwrap()].replace("\"shop\"", &format!("\"{origin}\""));
    let kind = if clock.starts_with("unit") {
        "count"
    } else {
        "calendar"
    };
    format!(
        "{head}{}{}",
        rule_of("limit", "juniper-fork.a-limit", limit),
        rule_of(kind, "juniper-fork.a-clock", clock)
    )
}

fn limits() -> impl Strategy<Value = String> {
    let quantity = prop::sample::select(vec![
        ("crosshead-vertical", ""),
        ("crosshead-lateral", ""),
        ("side-rod-bore-over-pin", ""),
        ("side-rod-bore-over-pin", "\"main-pin\""),
        ("side-rod-bore-over-pin", "\"flanged-tire\""),
        ("rod-side-motion", ""),
        ("rod-bushing-bore", ""),
        ("crosshead-and-guide-lateral", ""),
        ("something-else", ""),
    ]);
    let side = prop::sample::select(vec!["max", "min"]);
    let edge = prop::sample::select(vec!["passes", "fails"]);
    (quantity, side, edge, 1..400u32).prop_map(|((quantity, when), side, edge, n)| {
        format!(
            "quantity = \"{quantity}\"\nsubject = \"invented\"\nmeasured = \"somehow\"\nwhen = [{when}]\ncompare = \"{side}\"\n\
             value = \"{n}/64 in\"\nat_value = \"{edge}\"\ngrounds = true\n"
        )
    })
}

fn clocks() -> impl Strategy<Value = String> {
    let work = prop::sample::select(vec![
        "daily",
        "31",
        "92",
        "annual",
        "fifth-annual",
        "1472",
        "air-brake-valves",
        "frame-cleaning",
    ]);
    let restarts = "[\"31\", \"92\", \"annual\", \"fifth-annual\", \"1472\", \"daily\", \"air-brake-valves\", \"frame-cleaning\"]";
    (work, any::<bool>(), 1..900u32).prop_map(move |(work, counts, n)| {
        if counts {
            format!("unit = \"service-day\"\ndue_after = {n}\ninspection = \"{work}\"\nrestarted_by = {restarts}\n")
        } else {
            format!("span = {{ days = {n} }}\ninspection = \"{work}\"\nrestarted_by = {restarts}\nfrom = \"inspection\"\n")
        }
    })
}

/// When the clocks first stop her, a clock that cannot be told stopping her at once.
fn first_stop(clocks: &[Clock], on: Date) -> Date {
    let of = |clock: &Clock| match clock.state {
        State::Stops | State::CannotTell(_) => on,
        _ => clock.stops_on.unwrap_or(Date::MAX),
    };
    clocks.iter().map(of).min().unwrap_or(Date::MAX)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Putting an engine under one more set moves no verdict toward *complies* and no due day later.
    #[test]
    fn one_more_set_never_helps(
        origin in prop::sample::select(vec!["shop", "elsewhere"]),
        limit in limits(),
        a_clock in clocks(),
        sizes in prop::collection::vec(1..40u32, 3),
        pin in prop::sample::select(vec!["", "main-rod", "side-main-pin", "side-other-pin"]),
        read in 0..4usize,
        papers in prop::collection::vec((0..5usize, 1..600i64, 0..60u32), 0..5),
        runs in prop::collection::vec(0..40i64, 0..6),
        closed in any::<bool>(),
    ) {
        let mut world = World::new();
        let yesterday = later(TODAY, -1);
        for (kind, ago, days) in papers {
            let kind = ["31", "92", "annual", "fifth-annual", "1472"][kind];
            let held = later(TODAY, -ago);
            let days = days.min(u32::try_from(ago).unwrap());
            world.paper(kind, held, Some((days, yesterday)));
        }
        if closed {
            world.closed(later(TODAY, -700), yesterday);
        }
        for (n, day) in runs.iter().enumerate() {
            let id = shop::book::RunId(n as u128 + 1);
            let made = shop::clock::promise(id, FOURTEEN, later(TODAY, *day), "a train");
            world.enter(ADA, TODAY, made);
        }
        let facts: &[(&str, &str)] = if pin.is_empty() { &[] } else { &[("pin", pin)] };
        let rod = world.part(1, "rod-bushing", facts);
        let head = world.part(2, "crosshead-and-guide", &[]);
        let size = |n: usize, of: &str| match of {
            "bore" => format!("{}/64 in", 320 + sizes[n]),
            "pin" => "5 in".to_string(),
            _ => format!("{}/64 in", sizes[n]),
        };
        let of_rod: Vec<_> = ["bore", "pin", "side-play"].iter().enumerate().map(|(n, f)| (*f, size(n, f))).collect();
        let of_head: Vec<_> = ["vertical", "lateral"].iter().enumerate().map(|(n, f)| (*f, size(n, f))).collect();
        let readings = |world: &World, part, sizes: &[(&str, String)]| {
            let all: Vec<(&str, &str)> = sizes.iter().map(|(f, s)| (*f, s.as_str())).collect();
            let mut all = alike(world, part, &all);
            // Some places were not read.
            all.truncate(all.len().saturating_sub(if read == 3 { 2 } else { 0 }));
            all
        };
        let verdicts = |world: &World| {
            [(rod, &of_rod), (head, &of_head)].map(|(part, sizes)| {
                judged(world, part, &readings(world, part, sizes), TODAY)
            })
        };
        let before = (verdicts(&world), due(&world.book, world.rules, FOURTEEN, TODAY).unwrap());

        let text = set_of(origin, &limit, &a_clock);
        prop_assert!(RuleSet::read(&text, world.rules).is_ok(), "{:?}", RuleSet::read(&text, world.rules));
        let adopted = RulesAdopted { set: "juniper-fork".into(), edition: 1, from: BOUND, text };
        world.state(ADA, BOUND, Statement::RulesAdopted(adopted));
        world.bound("juniper-fork", BOUND, None);
        let after = (verdicts(&world), due(&world.book, world.rules, FOURTEEN, TODAY).unwrap());

        for (before, after) in before.0.iter().zip(&after.0) {
            prop_assert!(rank(&after.verdict) >= rank(&before.verdict), "{before:?}\n{after:?}");
            prop_assert!(rank(&after.shop) >= rank(&before.shop));
            prop_assert!(rank(&after.whole()) >= rank(&before.whole()));
            // Every limit that held before holds still, and says the same.
            for line in &before.lines {
                prop_assert!(after.lines.iter().any(|l| l.verdict == line.verdict && l.ruling == line.ruling));
            }
        }
        prop_assert!(first_stop(&after.1, TODAY) <= first_stop(&before.1, TODAY));
        prop_assert_eq!(after.1.len(), before.1.len() + 1);
        for clock in &before.1 {
            let same = after.1.iter().find(|c| c.ruling == clock.ruling).unwrap();
            prop_assert_eq!(&same.state, &clock.state);
            prop_assert_eq!(same.stops_on, clock.stops_on);
            prop_assert_eq!(&same.arms, &clock.arms);
        }
        // Of two clocks for one work that both run, the first is sure not to come later.
        for clock in &after.1 {
            if let Among::Behind(rule) = &clock.among {
                let first = after.1.iter().find(|c| c.ruling.rule == *rule).unwrap();
                prop_assert!(first_stop(std::slice::from_ref(first), TODAY) <= first_stop(std::slice::from_ref(clock), TODAY));
            }
        }
    }
}

/// The property can fail: a set that took the law's place would be caught.
#[test]
fn the_property_would_see_a_rule_that_relaxes() {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let strict = crosshead(&world, part, "5/16 in", TODAY);
    world.adopted(HALLOW, date(2024, 1, 1));
    world.bound("invented-hallow", date(2024, 1, 1), None);
    // Both: the verdict stands. The law taken away by hand: it would fall.
    assert!(rank(&crosshead(&world, part, "5/16 in", TODAY).verdict) >= rank(&strict.verdict));
    let her = world.book.locomotives.get_mut(&FOURTEEN).unwrap();
    her.rules_bound.push(told("us-steam", BOUND, Some(BOUND)));
    let lateral = alike(&world, part, &[("vertical", "5 mm"), ("lateral", "1 in")]);
    assert_eq!(
        judged(&world, part, &lateral, TODAY).verdict,
        Verdict::Complies
    );
}
