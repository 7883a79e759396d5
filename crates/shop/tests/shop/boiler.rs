//! The boiler card: against published figures, and that a fact taken away never raises a pressure.

use std::collections::BTreeMap;

use measure::{Dimension, House};
use physics::Worked;
use physics::answer::Outcome;
use proptest::prelude::*;
use shop::book::{BoilerEntered, LocomotiveId};
use shop::locomotive::{BOILER_PLACES, enter_boiler};
use shop::ruled::boiler::{
    Bears, BoilerCard, Governing, Held, boiler_card, compared, sign_boiler_card,
};
use shop::ruled::{Question, fill};

use crate::world::{ADA, DOT, ELI, FOURTEEN, TODAY, World};

fn entered(component: &str, kind: &str, place: &str, facts: &[(&str, &str)]) -> BoilerEntered {
    BoilerEntered {
        locomotive: FOURTEEN,
        component: component.into(),
        kind: kind.into(),
        place: place.into(),
        facts: facts
            .iter()
            .map(|(name, says)| ((*name).into(), (*says).into()))
            .collect(),
        source: "drawing 14-211".into(),
    }
}

impl World {
    pub fn component(&mut self, component: &str, kind: &str, place: &str, facts: &[(&str, &str)]) {
        let made = enter_boiler(
            &self.book,
            entered(component, kind, place, facts),
            DOT,
            TODAY,
        );
        self.enter(DOT, TODAY, made);
    }

    fn refused(&self, component: &str, kind: &str, place: &str, facts: &[(&str, &str)]) -> String {
        let told = entered(component, kind, place, facts);
        enter_boiler(&self.book, told, DOT, TODAY)
            .unwrap_err()
            .to_string()
    }

    pub fn card(&self) -> BoilerCard {
        boiler_card(&self.book, self.rules, FOURTEEN, TODAY).unwrap()
    }
}

pub fn bears(card: &BoilerCard, component: &str) -> Bears {
    let mut lines = card.lines.iter();
    lines
        .find(|line| line.component == component)
        .unwrap()
        .bears
}

fn told(card: &BoilerCard, component: &str) -> f64 {
    match bears(card, component) {
        Bears::Told(psi) => psi,
        other => panic!("{component}: {other:?} {:?}", card.lines),
    }
}

/// A course whose seam is the triple butt seam of the 1914 code's appendix: efficiency 0.875.
const COURSE: &[(&str, &str)] = &[
    ("thickness", "0.375 in"),
    ("radius", "20 in"),
    ("proof", "certificate"),
    ("tensile", "55000 psi"),
    ("seam_kind", "butt-triple"),
    ("seam_pitch", "6.5 in"),
    ("seam_thickness", "0.375 in"),
    ("seam_strap", "0.3125 in"),
    ("seam_rivet", "0.8125 in"),
    ("seam_crushing", "95000 psi"),
    ("rivets", "steel"),
    ("rivet_proof", "assumed"),
];
/// A row of the table of National Board proposal NB12-1201, S2.10.4: 0.25 in at 3.5 in bears 148 psi, its stress a quarter
/// of 55200 psi.
const SHEET: &[(&str, &str)] = &[
    ("thickness", "0.25 in"),
    ("pitches", "3.5 in"),
    ("proof", "test"),
    ("tensile", "55200 psi"),
    ("stay_factor", "2.1"),
];
/// The diagonal brace of Laying Out for Boiler Makers (1907), at the 9000 psi that 49 CFR 230.25 allows: 180 psi.
const BRACE: &[(&str, &str)] = &[
    ("area", "1 sq in"),
    ("distance", "49 in"),
    ("length", "50 in"),
    ("surface", "49 sq in"),
];
const STAYS: &[(&str, &str)] = &[
    ("least_diameter", "0.8557 in"),
    ("pitches", "4 in, 4 in"),
    ("telltale", "3/16 in"),
    ("angle", "0 deg"),
];
const TUBE: &[(&str, &str)] = &[
    ("pressure_from", "inside"),
    ("outside_diameter", "3 in"),
    ("wall", "0.14 in"),
    ("wear", "0.01 in"),
    ("proof", "assumed"),
    ("metal", "steel"),
];

/// Every place filled: some worked, the rest said not to be there.
pub fn whole() -> World {
    let mut world = World::new();
    world.component("first course", "course", "barrel", COURSE);
    world.component("crown sheet", "stayed-sheet", "crown", SHEET);
    world.component("side bolts", "stays", "staybolts", STAYS);
    world.component("back head braces", "brace", "braces", BRACE);
    world.component("arch tubes", "tube", "arch-tubes", TUBE);
    for (place, means) in BOILER_PLACES {
        if !["barrel", "crown", "staybolts", "braces", "arch-tubes"].contains(place) {
            world.component(means, "not-fitted", place, &[("seen", "looked for it")]);
        }
    }
    world
}

#[test]
fn each_component_bears_what_the_published_figures_say() {
    let card = whole().card();
    // 1914 code, appendix: the triple butt seam, A 134062, least 117304. Shell rule of the states: T t E / (R F).
    let course = 55_000.0 * 0.375 * (117_304.0 / 134_062.0) / (20.0 * 4.0);
    assert!(
        (told(&card, "first course") - course).abs() < 0.01,
        "{:?}",
        card.lines[0]
    );
    assert_eq!(told(&card, "crown sheet").round(), 148.0);
    assert!((told(&card, "back head braces") - 180.0).abs() < 1e-6);
    // The law's own 7500 psi on the net section of the stay.
    let net = std::f64::consts::PI / 4.0 * (0.8557 * 0.8557 - 0.1875 * 0.1875);
    assert!((told(&card, "side bolts") - 7500.0 * net / 16.0).abs() < 0.01);
    // A tube from inside at a quarter of the law's 50000 psi for unknown steel: 2 S (t - w) / D.
    assert!((told(&card, "arch tubes") - 2.0 * 12_500.0 * 0.13 / 3.0).abs() < 1e-6);
    assert_eq!(
        card.governing,
        Governing::Told(told(&card, "crown sheet"), "crown sheet".into())
    );
    assert_eq!(card.held(), Held::Fails, "148 is less than the 180 set");
}

#[test]
fn a_head_above_the_tubes_bears_what_its_braces_carry() {
    let mut world = World::new();
    // N. Hawkins, Maxims and Instructions for the Boiler Room: 54 in shell, 25 in of height, 714 sq in to brace.
    let facts = [
        ("shell_diameter", "54 in"),
        ("height", "25 in"),
        ("shell_strip", "3 in"),
        ("tube_strip", "2 in"),
        ("braces", "14"),
        ("area", "1.2 sq in"),
        ("distance", "49 in"),
        ("length", "50 in"),
    ];
    world.component("back head above the tubes", "segment", "back-head", &facts);
    // The law's 9000 psi on each brace (49 CFR 230.25), slanted 49 in 50, holding a fourteenth of the segment.
    let psi = 9000.0 * 1.2 * 49.0 / 50.0 / (713.7 / 14.0);
    let bears = told(&world.card(), "back head above the tubes");
    assert!((bears - psi).abs() < 0.1, "{bears} {psi}");
    let none = world.refused(
        "x",
        "segment",
        "back-head",
        &[("braces", "a dozen"), ("height", "25 in")],
    );
    assert!(none.contains("whole number"), "{none}");
}

#[test]
fn another_countrys_rule_is_a_bound_until_somebody_took_it_for_her() {
    let mut world = World::new();
    // Indian Boiler Regulations 1950, reg. 202: 1 in, 11 threads, 16 sq in, steel: 346.5 psi.
    let facts = [
        ("constant", "7100"),
        ("diameter", "1 in"),
        ("threads", "11 tpi"),
        ("bore", "0 in"),
        ("surface", "16 sq in"),
    ];
    world.component("side stays", "screw-stay", "staybolts", &facts);
    let card = world.card();
    assert!(
        matches!(bears(&card, "side stays"), Bears::NotAbove(psi) if (psi - 346.5).abs() < 0.1),
        "{card:?}"
    );
    assert!(card.lines[0].missing[0].contains("Indian Boiler Regulations"));
    let accepted = [("accepted", "R. Halloway, licensed engineer, 2013")];
    world.component("side stays", "", "", &accepted);
    assert!((told(&world.card(), "side stays") - 346.5).abs() < 0.1);
}

#[test]
fn a_part_without_a_rule_on_file_says_so() {
    for kind in ["dome", "dished-head", "opening", "patch"] {
        let mut world = World::new();
        world.component("it", kind, "dome", &[("thickness", "1/2 in")]);
        let card = world.card();
        assert_eq!(bears(&card, "it"), Bears::CannotTell);
        assert!(
            card.lines[0]
                .missing
                .iter()
                .any(|it| it.contains("no rule on file")),
            "{kind}"
        );
    }
}

#[test]
fn every_value_says_where_it_came_from() {
    let card = whole().card();
    for line in &card.lines {
        assert!(!line.stood_on.is_empty(), "{line:?}");
        for it in &line.stood_on {
            assert!(!it.basis.is_empty() && it.basis != "entered", "{it:?}");
        }
    }
    let law = card
        .used
        .iter()
        .map(|(rule, _)| rule.as_str())
        .collect::<Vec<_>>();
    for rule in [
        "us-steam.boiler.safety-factor",
        "us-steam.stay.stress",
        "us-steam.brace.stress",
        "us-steam.rivet.shear",
    ] {
        assert!(law.contains(&rule), "{rule} of {law:?}");
    }
}

#[test]
fn while_anything_cannot_be_told_the_least_is_only_a_bound() {
    let mut world = whole();
    world.component("back head braces", "", "", &[("area", "unknown")]);
    let card = world.card();
    assert_eq!(bears(&card, "back head braces"), Bears::CannotTell);
    assert!(matches!(&card.governing, Governing::NotAbove(_, name) if name == "crown sheet"));
    assert!(
        card.governs().contains("not known to bear that"),
        "{}",
        card.governs()
    );
    // A place of which nobody said anything does the same.
    let mut world = World::new();
    world.component("crown sheet", "stayed-sheet", "crown", SHEET);
    assert!(matches!(world.card().governing, Governing::NotAbove(..)));
    assert_eq!(World::new().card().governing, Governing::CannotTell);
}

/// The sheet that says what governs, worked from her card, says what the card says; without her boiler it has nothing.
#[test]
fn what_governs_is_a_sheet_that_says_what_the_card_says() {
    let sheet = |world: &World| {
        let question = Question {
            sheet: "boiler.governing",
            given: &[],
            rules: None,
            engine: world.book.locomotives.get(&FOURTEEN),
            told: &[],
            facts: &BTreeMap::new(),
            on: TODAY,
            house: House::Inch,
        };
        let filled = fill(&world.book, world.rules, question).unwrap();
        let entry = physics::find("boiler.governing").unwrap();
        Worked::new(entry, &filled.given, House::Inch).map(|it| (it.answer, filled.notices))
    };
    let mut world = whole();
    let card = world.card();
    let Governing::Told(psi, name) = &card.governing else {
        panic!("{:?}", card.governing)
    };
    let at = card.lines.iter().position(|line| line.component == *name);
    let (answer, notices) = sheet(&world).unwrap();
    let number = format!("component {}", at.unwrap() + 1);
    assert_eq!(answer.result("governing"), Some(&Outcome::Text(number)));
    let Some(Outcome::Si(si)) = answer.result("mawp") else {
        panic!("{answer:?}")
    };
    let mawp = measure::Unit::of(Dimension::GaugePressure, House::Inch).from_si(*si);
    assert!(mawp <= *psi + 1e-9 && mawp > psi - 1e-3, "{mawp} {psi}");
    assert!(notices[0].contains(&format!("{} {name}", at.unwrap() + 1)));

    // A component that can no longer be told: the card is a bound, and so is the sheet.
    world.component("back head braces", "", "", &[("area", "unknown")]);
    assert!(matches!(world.card().governing, Governing::NotAbove(..)));
    let (answer, _) = sheet(&world).unwrap();
    let Some(Outcome::Text(said)) = answer.result("mawp") else {
        panic!("{answer:?}")
    };
    assert!(said.starts_with("cannot tell: needs component"), "{said}");

    let bare = sheet(&World::new()).unwrap_err().to_string();
    assert!(bare.contains("needs bears"), "{bare}");
}

#[test]
fn what_does_not_read_is_refused_in_a_sentence() {
    let world = World::new();
    let bare = world.refused("x", "course", "barrel", &[("thickness", "0.375")]);
    assert!(
        bare.contains("thickness") && bare.contains("unit"),
        "{bare}"
    );
    let kind = world.refused("x", "dome-ish", "barrel", &[("thickness", "1 in")]);
    assert!(kind.contains("course"), "{kind}");
    let place = world.refused("x", "course", "roof", &[("thickness", "1 in")]);
    assert!(place.contains("barrel"), "{place}");
    let fact = world.refused("x", "course", "barrel", &[("weight", "1 in")]);
    assert!(fact.contains("seam_kind"), "{fact}");
    let both = world.refused(
        "x",
        "course",
        "barrel",
        &[("proof", "assumed"), ("tensile", "40000 psi")],
    );
    assert!(both.contains("proof=assumed"), "{both}");
    let mut told = entered("x", "course", "barrel", &[("thickness", "1 in")]);
    told.source = " ".into();
    assert!(enter_boiler(&world.book, told.clone(), DOT, TODAY).is_err());
    told.source = "drawing".into();
    told.locomotive = LocomotiveId(99);
    assert!(enter_boiler(&world.book, told.clone(), DOT, TODAY).is_err());
    told.locomotive = FOURTEEN;
    assert!(
        enter_boiler(&world.book, told, ELI, TODAY).is_err(),
        "Eli may not inspect"
    );
}

#[test]
fn a_strength_that_nobody_proved_is_not_taken() {
    let mut world = whole();
    world.component("first course", "", "", &[("proof", "unknown")]);
    let card = world.card();
    assert_eq!(bears(&card, "first course"), Bears::CannotTell);
    let line = card
        .lines
        .iter()
        .find(|line| line.component == "first course")
        .unwrap();
    assert!(
        line.missing.iter().any(|it| it.contains("certificate")),
        "{:?}",
        line.missing
    );
    // Assumed, the law's 50000 psi for unknown steel stands in its place (49 CFR 230.26).
    world.component(
        "first course",
        "",
        "",
        &[
            ("proof", "assumed"),
            ("tensile", "unknown"),
            ("metal", "steel"),
        ],
    );
    let psi = told(&world.card(), "first course");
    assert!(psi < 226.0 && psi > 200.0, "{psi}");
}

#[test]
fn the_lowest_glass_is_held_against_the_crown() {
    let mut world = World::new();
    world.component(
        "levels",
        "water-level",
        "",
        &[
            ("crown_height", "62 in"),
            ("glass_low", "65 in"),
            ("cocks", "none"),
        ],
    );
    let level = world.card().level.unwrap();
    // 49 CFR 230.51: at least 3 in.
    assert_eq!((level.glass.as_str(), level.cock), ("complies", None));
    world.component(
        "levels",
        "",
        "",
        &[("glass_low", "64-63/64 in"), ("cocks", "fitted")],
    );
    let level = world.card().level.unwrap();
    assert_eq!(level.glass, "fails");
    assert!(level.cock.unwrap().starts_with("cannot tell"));
    world.component("levels", "", "", &[("crown_height", "unknown")]);
    assert!(world.card().level.unwrap().glass.starts_with("cannot tell"));
}

#[test]
fn a_card_is_frozen_and_the_next_is_laid_beside_it() {
    let mut world = whole();
    let card = world.card();
    assert!(sign_boiler_card(&world.book, &card, FOURTEEN, "survey", DOT, TODAY).is_err());
    let made = sign_boiler_card(&world.book, &card, FOURTEEN, "survey of 2026", ADA, TODAY);
    world.enter(ADA, TODAY, made);
    let last = world.book.boilers[&FOURTEEN]
        .edition(TODAY)
        .unwrap()
        .clone();
    assert_eq!(last.card.edition, 1);
    assert!(compared(&world.card(), &last).is_empty());
    world.component("first course", "", "", &[("thickness", "0.36 in")]);
    let said = compared(&world.card(), &last);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].starts_with("first course: 225 psig then, 216 psig now"),
        "{said:?}"
    );
}

type Facts = &'static [(&'static str, &'static str)];

const KINDS: [(&str, &str, Facts); 5] = [
    ("course", "barrel", COURSE),
    ("stayed-sheet", "crown", SHEET),
    ("stays", "staybolts", STAYS),
    ("brace", "braces", BRACE),
    ("tube", "arch-tubes", TUBE),
];
const WALLS: [&str; 5] = ["thickness", "thickness", "least_diameter", "area", "wall"];

fn scaled(says: &str, by: f64) -> String {
    let (number, unit) = says.split_once(' ').unwrap();
    format!("{:.4} {unit}", number.parse::<f64>().unwrap() * by)
}

/// Components of these kinds, the wall of each scaled.
fn random(made: &[(usize, f64)]) -> World {
    let mut world = World::new();
    for (at, (kind, scale)) in made.iter().enumerate() {
        let (word, place, facts) = KINDS[*kind];
        let facts: BTreeMap<String, String> = facts
            .iter()
            .map(|(name, says)| {
                let says = if *name == WALLS[*kind] {
                    scaled(says, *scale)
                } else {
                    (*says).to_owned()
                };
                ((*name).to_owned(), says)
            })
            .collect();
        let told = BoilerEntered {
            facts,
            ..entered(&format!("component {at}"), word, place, &[])
        };
        let made = enter_boiler(&world.book, told, DOT, TODAY);
        world.enter(DOT, TODAY, made);
    }
    world
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Thicker never lowers a pressure.
    #[test]
    fn thicker_never_lowers_a_pressure(kind in 0usize..5, scale in 0.8f64..1.5, more in 1.0f64..1.3) {
        let thin = random(&[(kind, scale)]).card().lines[0].bears;
        let thick = random(&[(kind, scale * more)]).card().lines[0].bears;
        if let (Some(thin), Some(thick)) = (thin.bound(), thick.bound()) {
            prop_assert!(thick + 1e-9 >= thin, "{thin} {thick}");
        }
    }
}
