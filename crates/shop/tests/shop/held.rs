//! Two people hold a rule against the official text. The rules are those of this program; what the people say is invented.

use jiff::civil::date;
use proptest::prelude::*;
use shop::Class::{Input, Refused};
use shop::Refusal;
use shop::book::{Authority, PersonId, Statement};
use shop::locomotive::{
    Checking, NewHolding, add_person, checking_of, held_before_it_changed, hold_rule, rule,
};

use crate::local_rules::OWN;
use crate::said::no;
use crate::world::{ADA, BEN, CAL, DOT, TODAY, World};

const RULE: &str = "us-steam.clock.31";
const TEXT: &str = "eCFR of 2026-04-30";

fn says(
    world: &World,
    id: &str,
    agrees: bool,
    against: &str,
    by: PersonId,
) -> Result<Vec<Statement>, Refusal> {
    let new = NewHolding {
        rule: id,
        version: None,
        against,
        agrees,
        seen: "230.13 and 230.14: 31 service days",
    };
    hold_rule(&world.book, world.rules, new, by, TODAY)
}

fn said(world: &mut World, agrees: bool, by: PersonId) {
    let made = says(world, RULE, agrees, TEXT, by);
    world.enter(by, TODAY, made);
}

fn stands(world: &World) -> Checking<'_> {
    checking_of(&world.book, world.rules, RULE, 1)
}

fn people(stands: &Checking<'_>) -> Vec<PersonId> {
    match stands {
        Checking::Checked(all) | Checking::Differs(all) => all.iter().map(|held| held.by).collect(),
        Checking::Not(held) => held.iter().map(|held| held.by).collect(),
    }
}

#[test]
fn it_takes_two_and_they_are_two() {
    let mut world = World::new();
    assert_eq!(stands(&world), Checking::Not(None));
    said(&mut world, true, BEN);
    assert!(!stands(&world).is_checked());
    assert_eq!(people(&stands(&world)), [BEN]);
    // The same again is no second look.
    no(
        says(&world, RULE, true, TEXT, BEN),
        Refused,
        &["Ben Ostrow has held", "another person's"],
    );
    // Against a newer text he may, and still counts once.
    let made = says(&world, RULE, true, "eCFR of 2026-05-01", BEN);
    world.enter(BEN, TODAY, made);
    assert!(!stands(&world).is_checked());
    said(&mut world, true, DOT);
    assert!(stands(&world).is_checked());
    assert_eq!(people(&stands(&world)), [BEN, DOT]);
}

#[test]
fn one_who_finds_that_it_differs_undoes_it_until_it_is_settled() {
    let mut world = World::new();
    said(&mut world, true, BEN);
    said(&mut world, true, DOT);
    said(&mut world, false, ADA);
    assert_eq!(people(&stands(&world)), [ADA]);
    assert!(matches!(stands(&world), Checking::Differs(_)));
    // Who agreed before may look again now that somebody doubts; one is not enough, two are.
    said(&mut world, true, BEN);
    assert!(matches!(stands(&world), Checking::Differs(_)));
    said(&mut world, true, DOT);
    assert!(stands(&world).is_checked());

    // Or the one who doubted looks again.
    let mut world = World::new();
    said(&mut world, true, BEN);
    said(&mut world, false, ADA);
    said(&mut world, true, ADA);
    assert!(stands(&world).is_checked());
    // Who agreed may come to doubt: a last word is one word.
    said(&mut world, false, BEN);
    assert_eq!(people(&stands(&world)), [BEN]);
}

#[test]
fn what_is_told_otherwise_later_was_held_by_nobody() {
    let mut world = World::new();
    said(&mut world, true, BEN);
    let made = says(&world, RULE, true, TEXT, DOT);
    let Ok([Statement::RuleHeld(held)]) = made.as_deref() else {
        panic!("{made:?}");
    };
    // As an earlier build of the program told it.
    let mut other = held.clone();
    other.as_told = other.as_told.replace("31 service days", "33 service days");
    assert_ne!(other.as_told, held.as_told);
    world.state(DOT, TODAY, Statement::RuleHeld(other));
    assert!(!stands(&world).is_checked());
    let known = rule(&world.book, world.rules, RULE).unwrap();
    let older = held_before_it_changed(&world.book, RULE, &known.versions[0]);
    assert_eq!(older.len(), 1);
    said(&mut world, true, DOT);
    assert!(stands(&world).is_checked());
    // Another version was held by nobody either.
    assert_eq!(
        checking_of(&world.book, world.rules, RULE, 2),
        Checking::Not(None)
    );
}

#[test]
fn a_set_of_the_shop_is_not_checked_by_who_took_it_in() {
    let mut world = World::new();
    world.adopted(OWN, date(2026, 1, 1));
    let id = "juniper-fork.crosshead.vertical";
    let text = "shop order 4 of 2025";
    no(
        says(&world, id, true, text, ADA),
        Refused,
        &[
            "Ada Quill took juniper-fork.crosshead.vertical",
            "two others",
        ],
    );
    for by in [BEN, DOT] {
        let made = says(&world, id, true, text, by);
        world.enter(by, TODAY, made);
    }
    assert!(checking_of(&world.book, world.rules, id, 1).is_checked());
}

#[test]
fn bad_input_is_refused_by_name() {
    let world = World::new();
    no(
        says(&world, RULE, true, TEXT, CAL),
        Refused,
        &["Cal Wren", "`inspect`", "Dot Marsh"],
    );
    no(
        says(&world, "us-steam.clock.32", true, TEXT, BEN),
        Input,
        &["us-steam.clock.32"],
    );
    for text in ["", "the eCFR", "49 CFR 230"] {
        no(
            says(&world, RULE, true, text, BEN),
            Input,
            &["edition or its day"],
        );
    }
    no(
        says(&world, RULE, true, "eCFR of 2026-05-03", BEN),
        Input,
        &["2026-05-03", "not been published"],
    );
    let with = |version, seen| {
        let new = NewHolding {
            rule: RULE,
            version,
            against: TEXT,
            agrees: false,
            seen,
        };
        hold_rule(&world.book, world.rules, new, BEN, TODAY)
    };
    no(with(None, " "), Input, &["what differs"]);
    no(
        with(Some(7), "x"),
        Input,
        &["no version 7", "1 was expected"],
    );
}

/// Everything in the rulebook has a text of its own to hold: two versions that say different things are told apart.
#[test]
fn every_version_is_told_in_full_and_apart() {
    let world = World::new();
    for rule in world.rules.rules() {
        for (at, version) in rule.versions.iter().enumerate() {
            let told = version.as_told();
            assert!(told.lines().count() >= 5, "{}: {told}", rule.id);
            assert!(told.contains(&version.cite.section), "{told}");
            for other in &rule.versions[at + 1..] {
                assert_ne!(told, other.as_told(), "{}", rule.id);
            }
        }
    }
    // And in full: the figure stands in it, whichever kind it is.
    for (id, figure) in [
        ("us-steam.clock.31", "31 service days"),
        ("us-steam.crosshead.vertical", "1/4 in"),
    ] {
        let told = world.rules.rule(id).unwrap().versions[0].as_told();
        assert!(told.contains(figure), "{told}");
    }
}

/// What a history of words comes to, thought anew: go through them once and remember who still has an open doubt.
fn by_hand(words: &[(usize, bool)]) -> &'static str {
    let mut last: Vec<Option<(usize, bool)>> = vec![None; 4];
    for (at, (who, agrees)) in words.iter().enumerate() {
        last[*who] = Some((at, *agrees));
    }
    let agree = |after: usize| {
        let all = last.iter().flatten();
        all.filter(|(at, agrees)| *agrees && *at >= after).count()
    };
    let doubts = last.iter().flatten().filter(|(_, agrees)| !agrees);
    if doubts.map(|(at, _)| agree(at + 1)).any(|n| n < 2) {
        "differs"
    } else if agree(0) >= 2 {
        "checked"
    } else {
        "not"
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever four people say in whatever order: it is what each one's last word makes of it; one person alone never
    /// checks a rule; and a doubt just spoken always shows.
    #[test]
    fn each_last_word_counts_once(words in prop::collection::vec((0..4usize, any::<bool>()), 0..12)) {
        let mut world = World::new();
        let gus = PersonId(0x905);
        let made = add_person(&world.book, crate::world::person(gus, "Gus Tarn", &[Authority::Inspect]), ADA, TODAY);
        world.enter(ADA, date(2024, 1, 1), made);
        let four = [ADA, BEN, DOT, gus];
        let mut spoken: Vec<(usize, bool)> = Vec::new();
        for (who, agrees) in words {
            // Some are refused because they add nothing; those were not said.
            if let Ok(made) = says(&world, RULE, agrees, TEXT, four[who]) {
                world.enter(four[who], TODAY, Ok(made));
                spoken.push((who, agrees));
                prop_assert!(agrees || matches!(stands(&world), Checking::Differs(_)));
            }
            let came_to = match stands(&world) {
                Checking::Checked(all) => {
                    let mut names: Vec<_> = all.iter().map(|held| held.by).collect();
                    names.sort();
                    names.dedup();
                    prop_assert!(names.len() >= 2);
                    "checked"
                }
                Checking::Not(_) => "not",
                Checking::Differs(_) => "differs",
            };
            prop_assert_eq!(came_to, by_hand(&spoken));
        }
    }
}
