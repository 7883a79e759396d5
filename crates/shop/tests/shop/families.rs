//! The part families this build brings: each reads, hangs together, and names rules that exist.

use std::collections::BTreeSet;

use rules::{Body, Rulebook};
use shop::book::{Family, RuleChoice, Wears, Worst};

use crate::world::TODAY;

fn built_in() -> Vec<Family> {
    let read = |text: &&str| Family::read(text).unwrap();
    Family::BUILT_IN.iter().map(read).collect()
}

fn named(choice: &RuleChoice) -> Vec<String> {
    match choice {
        RuleChoice::One(rule) => vec![rule.clone()],
        RuleChoice::ByFact(facts) => facts.values().flat_map(|c| c.values().cloned()).collect(),
    }
}

/// The rules that limit what a family measures, and those its conditions break.
fn limits(family: &Family) -> Vec<String> {
    let features = family.features.iter().filter_map(|f| f.rule.as_ref());
    let differences = family.differences.iter().filter_map(|d| d.rule.as_ref());
    let conditions = family.conditions.iter().filter_map(|c| c.rule.clone());
    let measured = features.chain(differences).flat_map(named);
    measured.chain(conditions).collect()
}

#[test]
fn every_family_reads_and_no_two_have_one_word() {
    let words: BTreeSet<String> = built_in().into_iter().map(|f| f.family).collect();
    assert_eq!(words.len(), Family::BUILT_IN.len());
}

#[test]
fn every_rule_a_family_names_exists_with_a_limit() {
    let rules = Rulebook::built_in().unwrap();
    let (mut seen, mut started) = (0, 0);
    for family in built_in() {
        for rule in limits(&family) {
            let ruling = rules.ruling(&rule, TODAY).unwrap();
            let limit = matches!(
                ruling.body,
                Body::Limit(_) | Body::LimitTable(_) | Body::LimitFormula(_)
            );
            assert!(limit, "{rule} of {} is no limit", family.family);
            seen += 1;
        }
        // The clock that a condition starts is one that a defect can start.
        for rule in family.conditions.iter().filter_map(|c| c.starts.as_ref()) {
            let ruling = rules.ruling(rule, TODAY).unwrap();
            let Body::Calendar(says) = ruling.body else {
                panic!("{rule} of {} is no clock", family.family);
            };
            let work = rules::words::meaning(rules::words::DEFECT_WORK, &says.inspection);
            assert!(work.is_some(), "{rule} of {}", family.family);
            started += 1;
        }
        for rule in family.proofs.iter().filter_map(|p| p.rule.as_ref()) {
            let ruling = rules.ruling(rule, TODAY).unwrap();
            assert!(matches!(ruling.body, Body::Limit(_)), "{rule}");
            seen += 1;
        }
    }
    assert!(seen >= 12, "only {seen} rules are named");
    assert!(started >= 4, "only {started} clocks are started");
}

/// The words inside a family are told apart, and what decides a rule is a fact that is asked, with a
/// rule for every choice.
#[test]
fn every_family_hangs_together() {
    for family in built_in() {
        let name = &family.family;
        let lists: [Vec<&str>; 6] = [
            family.facts.iter().map(|f| f.name.as_str()).collect(),
            family.features.iter().map(|f| f.name.as_str()).collect(),
            family.conditions.iter().map(|c| c.word.as_str()).collect(),
            family.proofs.iter().map(|p| p.word.as_str()).collect(),
            family.knock_ons.iter().map(|k| k.word.as_str()).collect(),
            family.routes.iter().map(|r| r.word.as_str()).collect(),
        ];
        for list in lists {
            let distinct: BTreeSet<_> = list.iter().collect();
            assert_eq!(distinct.len(), list.len(), "{name}: {list:?}");
        }
        let features = family.features.iter().filter_map(|f| f.rule.as_ref());
        let differences = family.differences.iter().filter_map(|d| d.rule.as_ref());
        for choice in features.chain(differences) {
            let RuleChoice::ByFact(facts) = choice else {
                continue;
            };
            assert_eq!(facts.len(), 1, "{name}: one fact decides");
            for (fact, choices) in facts {
                let asked = family.facts.iter().find(|f| f.name == *fact).unwrap();
                let asked: BTreeSet<_> = asked.choices.iter().collect();
                let ruled: BTreeSet<_> = choices.keys().collect();
                assert_eq!(asked, ruled, "{name}: {fact}");
            }
        }
        for feature in &family.features {
            let places: BTreeSet<_> = feature.positions.iter().collect();
            assert_eq!(
                places.len(),
                feature.positions.len(),
                "{name}: {}",
                feature.name
            );
            // The reading that governs is the one that wear moved furthest.
            let worst = match feature.wears {
                Wears::Smaller => Worst::Smallest,
                Wears::Larger | Wears::Either => Worst::Largest,
            };
            assert_eq!(feature.worst, worst, "{name}: {}", feature.name);
        }
        assert!(family.routes.iter().any(|r| r.carries), "{name}");
        for route in &family.routes {
            for step in &route.operations {
                let [low, likely, high] = step.hours();
                assert!(low <= likely && likely <= high, "{name}: {}", step.what);
            }
            let works = !route.carries;
            assert_eq!(works, !route.cautions.is_empty(), "{name}: {}", route.word);
        }
    }
}

#[test]
fn a_family_that_does_not_hang_together_is_not_read() {
    let good = Family::BUILT_IN[0];
    for (was, is, says) in [
        (
            "cleared-by = \"steam-test\"",
            "cleared-by = \"prayer\"",
            "prayer",
        ),
        (
            "larger = \"guide-bore\"",
            "larger = \"guide-hole\"",
            "guide-hole",
        ),
        ("proofs = [\"blue\", ", "proofs = [\"red\", ", "red"),
        (
            "knock-ons = [\"delivery-joint\"",
            "knock-ons = [\"the-moon\"",
            "the-moon",
        ),
        (
            "positions = [\"top\", \"bottom\"]",
            "positions = []",
            "nowhere to measure",
        ),
        ("version = 4", "version = 4\nmood = \"good\"", "mood"),
        ("cut = \"re-cut\"", "cut = \"saw\"", "saw"),
        ("size = \"seat-wall\"", "size = \"handle\"", "handle"),
        ("place = \"barrel\"", "place = \"roof\"", "roof"),
    ] {
        assert!(good.contains(was), "{was}");
        let said = Family::read(&good.replacen(was, is, 1)).unwrap_err();
        assert!(said.to_string().contains(says), "{said}");
    }
}

/// Every family says where on the engine a person points; books with families from before that still read.
#[test]
fn every_family_says_where_on_the_engine_it_is() {
    for text in Family::BUILT_IN {
        let family = Family::read(text).unwrap();
        let place = family
            .place
            .unwrap_or_else(|| panic!("{} names no place", family.family));
        assert!(shop::book::Place::ALL.contains(&place));
        assert!(text.contains(&format!("place = \"{}\"", place.word())));
        let older = text.replace(&format!("place = \"{}\"\n", place.word()), "");
        assert_eq!(Family::read(&older).unwrap().place, None);
    }
}

/// Hours of closed jobs take the place of the family's, with their count; of a job with a step nobody booked, none do.
#[test]
fn hours_come_from_closed_jobs_of_the_same_way() {
    use crate::flow::{CHECK, JOB, WEEPS, closed};
    use crate::world::FOURTEEN;
    use shop::book::{FindingId, FindingState, HoursFrom, JobId, QuarterHours};
    use shop::route::{HoursOf, before, routes};

    let mut world = closed();
    let own = world.book.findings[&WEEPS].clone();
    let house = measure::House::Inch;
    let re_cut = |world: &crate::world::World, finding: &shop::book::Finding| {
        let on = jiff::civil::date(2026, 12, 1);
        let choice = routes(&world.book, world.rules, finding, on, house).unwrap();
        let mut offers = choice.offers.into_iter();
        let offer = offers.find(|it| it.route.word == "re-cut").unwrap();
        (offer.hours, offer.hours_of)
    };
    // Its own job says nothing of how long it will take.
    let practice = HoursOf::Family(Some(HoursFrom::CommonPractice));
    assert_eq!(re_cut(&world, &own).1, practice);
    let mut next = own.clone();
    next.job = None;
    let steps = u32::try_from(world.book.jobs[&JOB].operations.len()).unwrap();
    // Every step of the flow is booked with ten quarter hours.
    let all = QuarterHours(10 * steps);
    assert_eq!(re_cut(&world, &next), ([all; 3], HoursOf::Own(1)));
    // A second, quicker job: the median lies between, and the ends are the two.
    let mut quick = world.book.jobs[&JOB].clone();
    if let Some((_, _, hours, _)) = &mut quick.operations[0].done {
        *hours = Some(QuarterHours(3));
    }
    world.book.jobs.insert(JobId(0x11), quick.clone());
    let least = QuarterHours(10 * steps - 7);
    let median = QuarterHours(10 * steps - 3);
    assert_eq!(
        re_cut(&world, &next),
        ([least, median, all], HoursOf::Own(2))
    );
    // Before an opening the same median stands beside what will be needed, though it lies between two jobs.
    let mut open = world.book.clone();
    open.findings.get_mut(&WEEPS).unwrap().state = FindingState::Open;
    let on = jiff::civil::date(2026, 12, 1);
    let told = before(&open, world.rules, (FOURTEEN, "annual"), None, on, house).unwrap();
    let mut likely = told.likely.into_iter();
    let check = likely.find(|it| it.part == CHECK).unwrap();
    assert_eq!(check.hours, Some([least, median, all]));
    // One step without hours: that job is left out, not counted as quick.
    if let Some((_, _, hours, _)) = &mut quick.operations[0].done {
        *hours = None;
    }
    world.book.jobs.insert(JobId(0x11), quick);
    assert_eq!(re_cut(&world, &next).1, HoursOf::Own(1));
    assert_eq!(world.book.findings[&FindingId(0xF0)].part, CHECK);
}
