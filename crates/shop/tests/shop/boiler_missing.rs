//! Missing never helps, held over whole boilers: whatever fact is left out or taken back, no component is known to bear more,
//! the boiler is not known to bear more, and nothing comes to comply that did not.

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::sample::{Index, select};
use shop::book::{BoilerEntered, BoilerSurveyed};
use shop::locomotive::{BOILER_PLACES, enter_boiler, take_survey};
use shop::ruled::boiler::{Bears, BoilerCard, CardLine, Governing, Held, sign_boiler_card};

use crate::world::{ADA, DOT, FOURTEEN, TODAY, World};

type Facts = &'static [(&'static str, &'static str)];

/// Kinds with all their facts. Where a way has facts of its own (each seam, each proof) it stands by itself.
const WHOLE: &[(&str, Facts)] = &[
    (
        "course",
        &[
            ("thickness", "0.375 in"),
            ("as_built", "0.4 in"),
            ("radius", "20 in"),
            ("proof", "certificate"),
            ("tensile", "55000 psi"),
            ("seam_kind", "butt-triple"),
            ("seam_pitch", "6.5 in"),
            ("seam_thickness", "0.36 in"),
            ("seam_strap", "0.3125 in"),
            ("seam_rivet", "0.8125 in"),
            ("seam_crushing", "95000 psi"),
            ("rivets", "steel"),
            ("rivet_proof", "assumed"),
        ],
    ),
    (
        "course",
        &[
            ("thickness", "0.375 in"),
            ("radius", "20 in"),
            ("metal", "wrought-iron"),
            ("proof", "assumed"),
            ("seam_kind", "lap-double"),
            ("seam_pitch", "2.875 in"),
            ("seam_thickness", "0.35 in"),
            ("seam_rivet", "0.75 in"),
            ("seam_crushing", "95000 psi"),
            ("rivet_proof", "test"),
            ("seam_shear", "44000 psi"),
        ],
    ),
    (
        "course",
        &[
            ("thickness", "0.375 in"),
            ("radius", "20 in"),
            ("metal", "steel"),
            ("proof", "assumed"),
            ("seam_kind", "ligaments"),
            ("seam_thickness", "0.33 in"),
            ("hole_pitches", "5.25 in"),
            ("hole", "3.28125 in"),
        ],
    ),
    (
        "course",
        &[
            ("thickness", "0.375 in"),
            ("radius", "20 in"),
            ("metal", "steel"),
            ("proof", "assumed"),
            ("seam_kind", "by-paper"),
            ("seam_thickness", "0.33 in"),
            ("efficiency", "0.82"),
        ],
    ),
    (
        "stayed-sheet",
        &[
            ("thickness", "0.25 in"),
            ("pitches", "3.5 in, 3.25 in"),
            ("proof", "test"),
            ("tensile", "55200 psi"),
            ("stay_factor", "2.1"),
        ],
    ),
    (
        "stays",
        &[
            ("least_diameter", "0.8557 in"),
            ("pitches", "4 in, 4 in"),
            ("telltale", "3/16 in"),
            ("angle", "12 deg"),
            ("count", "400"),
        ],
    ),
    (
        "brace",
        &[
            ("area", "1 sq in"),
            ("distance", "49 in"),
            ("length", "50 in"),
            ("surface", "49 sq in"),
        ],
    ),
    (
        "segment",
        &[
            ("shell_diameter", "54 in"),
            ("height", "25 in"),
            ("shell_strip", "3 in"),
            ("tube_strip", "2 in"),
            ("braces", "14"),
            ("area", "1.2 sq in"),
            ("distance", "49 in"),
            ("length", "50 in"),
        ],
    ),
    (
        "crown-bar",
        &[
            ("constant", "22"),
            ("tensile_tons", "28"),
            ("bar_thickness", "1.25 in"),
            ("depth", "6 in"),
            ("span", "40 in"),
            ("pitch", "7 in"),
            ("accepted", "R. Halloway, licensed engineer, 2013"),
        ],
    ),
    (
        "screw-stay",
        &[
            ("constant", "7100"),
            ("diameter", "1 in"),
            ("threads", "11 tpi"),
            ("bore", "0 in"),
            ("surface", "16 sq in"),
            ("accepted", "R. Halloway, licensed engineer, 2013"),
        ],
    ),
    (
        "tube",
        &[
            ("pressure_from", "inside"),
            ("outside_diameter", "3 in"),
            ("wall", "0.14 in"),
            ("wear", "0.01 in"),
            ("proof", "assumed"),
            ("metal", "steel"),
        ],
    ),
    (
        "by-paper",
        &[
            ("pressure", "204 psig"),
            ("by", "R. Halloway, licensed engineer, 2013"),
            ("thickness", "1/2 in"),
        ],
    ),
    (
        "dome",
        &[
            ("pressure", "196 psig"),
            ("by", "R. Halloway, licensed engineer, 2013"),
        ],
    ),
    ("not-fitted", &[("seen", "looked for it")]),
];

/// One component: what it is, by how much its sizes are scaled, and which of its facts nobody ever said.
#[derive(Debug, Clone)]
struct Made {
    place: &'static str,
    kind: &'static str,
    facts: Facts,
    scale: f64,
    unsaid: Vec<Index>,
}

fn made(place: &'static str) -> impl Strategy<Value = Made> {
    let few = proptest::collection::vec(any::<Index>(), 0..2);
    let unsaid = prop_oneof![3 => Just(Vec::new()), 1 => few];
    (select(WHOLE), 0.8f64..1.6, unsaid).prop_map(move |((kind, facts), scale, unsaid)| Made {
        place,
        kind,
        facts,
        scale,
        unsaid,
    })
}

/// A boiler: something or nothing at each place, more at some, a survey of one sheet or none, squares of it that nobody read.
fn boiler() -> impl Strategy<Value = (Vec<Made>, Option<(Index, Vec<bool>)>)> {
    let places: Vec<&'static str> = BOILER_PLACES.iter().map(|(place, _)| *place).collect();
    let each: Vec<_> = places
        .iter()
        .map(|place| prop_oneof![1 => Just(None), 9 => made(place).prop_map(Some)])
        .collect();
    let more = proptest::collection::vec(select(places).prop_flat_map(made), 0..6);
    let survey =
        proptest::option::of((any::<Index>(), proptest::collection::vec(any::<bool>(), 6)));
    (each, more, survey).prop_map(|(each, more, survey)| {
        let all: Vec<Made> = each.into_iter().flatten().chain(more).collect();
        (all, survey)
    })
}

fn scaled(says: &str, by: f64) -> String {
    match says.split_once(" in") {
        Some((number, "")) => match number.parse::<f64>() {
            Ok(inches) => format!("{:.4} in", inches * by),
            Err(_) => says.to_owned(),
        },
        _ => says.to_owned(),
    }
}

/// Facts whose size is scaled: walls.
const WALLS: &[&str] = &[
    "thickness",
    "seam_thickness",
    "least_diameter",
    "wall",
    "depth",
    "diameter",
];

fn engine(all: &[Made], survey: &Option<(Index, Vec<bool>)>) -> World {
    let mut world = World::new();
    for (at, it) in all.iter().enumerate() {
        let unsaid: Vec<&str> = it
            .unsaid
            .iter()
            .map(|index| index.get(it.facts).0)
            .collect();
        let facts: BTreeMap<String, String> = it
            .facts
            .iter()
            .filter(|(name, _)| !unsaid.contains(name))
            .map(|(name, says)| {
                let says = if WALLS.contains(name) {
                    scaled(says, it.scale)
                } else {
                    (*says).to_owned()
                };
                ((*name).to_owned(), says)
            })
            .collect();
        if !facts.is_empty() {
            say(
                &mut world,
                &format!("component {at}"),
                it.kind,
                it.place,
                facts,
            );
        }
    }
    let levels = [
        ("crown_height", "62 in"),
        ("glass_low", "65-1/2 in"),
        ("cock_low", "65 in"),
        ("cocks", "fitted"),
    ];
    let levels = levels.map(|(name, says)| (name.to_owned(), says.to_owned()));
    say(&mut world, "levels", "water-level", "", levels.into());
    let components = &world.book.boilers[&FOURTEEN].components;
    let courses: Vec<_> = components
        .iter()
        .filter(|it| it.kind == "course")
        .map(|it| it.name.clone())
        .collect();
    if let (Some((which, read)), false) = (survey, courses.is_empty()) {
        let cell = |at: usize| {
            if read[at] {
                ["0.371", "0.369", "0.352", "0.372", "0.374", "0.37"][at]
            } else {
                "-"
            }
        };
        let row = |from: usize| (from..from + 3).map(cell).collect::<Vec<_>>().join(" ");
        let told = BoilerSurveyed {
            locomotive: FOURTEEN,
            component: which.get(&courses).clone(),
            rows: vec!["1".into(), "2".into()],
            columns: ["1", "2", "3"].map(str::to_owned).to_vec(),
            cells: vec![row(0), row(3)],
            unit: "in".into(),
            square: None,
            spot: None,
            source: "from the front seam, by ultrasound".into(),
        };
        // Of a survey without one reading there is nothing to enter.
        if read.contains(&true) {
            let made = take_survey(&world.book, told, DOT, TODAY);
            world.enter(DOT, TODAY, made);
        }
    }
    world
}

fn say(
    world: &mut World,
    component: &str,
    kind: &str,
    place: &str,
    facts: BTreeMap<String, String>,
) {
    let told = BoilerEntered {
        locomotive: FOURTEEN,
        component: component.into(),
        kind: kind.into(),
        place: place.into(),
        facts,
        source: "drawing 14-211".into(),
    };
    let made = enter_boiler(&world.book, told, DOT, TODAY);
    world.enter(DOT, TODAY, made);
}

/// What it is known to bear: nothing, where only a bound is told.
fn known(line: &CardLine) -> Option<f64> {
    match line.bears {
        Bears::Told(psi) => Some(psi),
        Bears::NotAbove(_) | Bears::CannotTell => None,
    }
}

fn no_more(was: Option<f64>, now: Option<f64>) -> bool {
    match (was, now) {
        (_, None) => true,
        (Some(was), Some(now)) => now <= was,
        (None, Some(_)) => false,
    }
}

fn governs(card: &BoilerCard) -> Option<f64> {
    match card.governing {
        Governing::Told(psi, _) => Some(psi),
        Governing::NotAbove(..) | Governing::CannotTell => None,
    }
}

/// Why the second card says more than the first, of one fewer fact; nothing where it does not.
fn helped(before: &BoilerCard, after: &BoilerCard) -> Option<String> {
    for now in &after.lines {
        let was = before
            .lines
            .iter()
            .find(|line| line.component == now.component)?;
        if !no_more(known(was), known(now)) {
            return Some(format!(
                "{}: {:?} then, {:?} now",
                now.component, was.bears, now.bears
            ));
        }
        if now.held == Held::Complies && was.held != Held::Complies {
            return Some(format!("{} complies now", now.component));
        }
        // What the set pressure asks of a sheet may become untold; it never becomes less.
        if let (Some(was), Some(now)) = (was.required, now.required)
            && now < was
        {
            return Some(format!("required {was} then, {now} now"));
        }
    }
    if !no_more(governs(before), governs(after)) {
        return Some(format!(
            "{:?} then, {:?} now",
            before.governing, after.governing
        ));
    }
    if after.held() == Held::Complies && before.held() != Held::Complies {
        return Some("the boiler complies now".into());
    }
    let glass = |card: &BoilerCard| {
        card.level.as_ref().map(|it| {
            (
                it.glass == "complies",
                it.cock.as_deref() == Some("complies"),
            )
        })
    };
    let (was, now) = (glass(before)?, glass(after)?);
    ((now.0 && !was.0) || (now.1 && !was.1)).then(|| "the water level complies now".into())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn no_fact_left_out_or_taken_back_raises_a_pressure(
        (all, survey) in boiler(),
        which in proptest::collection::vec(any::<Index>(), 24),
    ) {
        let world = engine(&all, &survey);
        let before = world.card();
        let facts: Vec<(usize, usize)> = world.book.boilers[&FOURTEEN]
            .components
            .iter()
            .enumerate()
            .flat_map(|(at, it)| (0..it.facts.len()).map(move |fact| (at, fact)))
            .collect();
        for index in which {
            let (at, fact) = *index.get(&facts);
            let component = &world.book.boilers[&FOURTEEN].components[at];
            let name = component.facts[fact].name.clone();
            // Taken back, as a shop takes it back.
            let mut back = world.clone();
            let unknown = BTreeMap::from([(name.clone(), "unknown".to_owned())]);
            say(&mut back, &component.name, "", "", unknown);
            let why = helped(&before, &back.card());
            prop_assert!(why.is_none(), "{} of {} taken back: {why:?}", name, component.name);
            // As if it had never been said; what is never spoken of at all is no component.
            if component.facts.len() > 1 {
                let mut never = world.clone();
                let boiler = never.book.boilers.get_mut(&FOURTEEN).unwrap();
                boiler.components[at].facts.remove(fact);
                let why = helped(&before, &never.card());
                prop_assert!(why.is_none(), "{} of {} never said: {why:?}", name, component.name);
            }
        }
        // A square that nobody read could only be thinner.
        let surveys = world.book.boilers[&FOURTEEN].surveys.len();
        for square in 0..6 * surveys {
            let mut unread = world.clone();
            let survey = &mut unread.book.boilers.get_mut(&FOURTEEN).unwrap().surveys[0];
            let row = &mut survey.cells[square / 3];
            let mut cells: Vec<&str> = row.split(' ').collect();
            cells[square % 3] = "-";
            *row = cells.join(" ");
            let why = helped(&before, &unread.card());
            prop_assert!(why.is_none(), "square {square} not read: {why:?}");
        }
    }
}

/// A survey of the first course of a boiler, a day or more ago; nothing where it has none.
fn survey_before(world: &mut World, cells: [&str; 2], on: jiff::civil::Date) -> Option<String> {
    let components = &world.book.boilers[&FOURTEEN].components;
    let course = components
        .iter()
        .find(|it| it.kind == "course")?
        .name
        .clone();
    let told = BoilerSurveyed {
        locomotive: FOURTEEN,
        component: course.clone(),
        rows: vec!["1".into(), "2".into()],
        columns: ["1", "2", "3"].map(str::to_owned).to_vec(),
        cells: cells.map(str::to_owned).to_vec(),
        unit: "in".into(),
        square: None,
        spot: None,
        source: "from the front seam, by ultrasound".into(),
    };
    let made = take_survey(&world.book, told, DOT, on);
    world.enter(DOT, on, made);
    Some(course)
}

fn sign(world: &mut World) {
    let card = world.card();
    let made = sign_boiler_card(&world.book, &card, FOURTEEN, "survey", ADA, TODAY);
    world.enter(ADA, TODAY, made);
}

/// As if the surveys of these places in the list had been taken back: their batches count no more.
fn taken_back(world: &World, which: &[usize]) -> World {
    let mut back = world.clone();
    let surveys = &mut back.book.boilers.get_mut(&FOURTEEN).unwrap().surveys;
    let mut at = 0;
    surveys.retain(|_| {
        at += 1;
        !which.contains(&(at - 1))
    });
    back
}

/// The same card as a book of earlier days has it, without its list of surveys.
fn as_form_1(world: &World) -> World {
    let mut old = world.clone();
    for edition in &mut old.book.boilers.get_mut(&FOURTEEN).unwrap().editions {
        edition.card.surveys = None;
    }
    old
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Once a card was signed on it, a survey that is taken back raises nothing: neither the newest nor the one before it nor
    /// all of them, and a card signed anew after that does not help either.
    #[test]
    fn no_survey_taken_back_after_signing_raises_a_pressure((all, survey) in boiler()) {
        let mut world = engine(&all, &None);
        let years_ago = crate::world::later(TODAY, -1000);
        survey_before(&mut world, [".40 .40 .40", ".40 .399 .40"], years_ago);
        // The newest: squares of it that nobody read too.
        let newest = match &survey {
            Some((_, read)) if read[0] => [".371 .369 .352", ".372 - .37"],
            _ => [".371 .369 .352", ".372 .374 .37"],
        };
        survey_before(&mut world, newest, TODAY);
        sign(&mut world);
        let before = world.card();
        for world in [world.clone(), as_form_1(&world)] {
            for which in [&[0][..], &[1], &[0, 1]] {
                let mut back = taken_back(&world, which);
                let why = helped(&before, &back.card());
                prop_assert!(why.is_none(), "surveys {which:?} taken back: {why:?}");
                // A later signature stands on what is left, and forgets nothing.
                sign(&mut back);
                let why = helped(&before, &back.card());
                prop_assert!(why.is_none(), "surveys {which:?} taken back and signed: {why:?}");
            }
        }
    }
}

/// What is said where the survey is gone, and that a later one puts an end to it.
#[test]
fn a_survey_taken_back_is_asked_for_again_until_there_is_a_later_one() {
    let one = Made {
        place: "barrel",
        kind: WHOLE[0].0,
        facts: WHOLE[0].1,
        scale: 1.0,
        unsaid: Vec::new(),
    };
    let mut world = engine(&[one], &None);
    let course = survey_before(&mut world, [".371 .369 .352", ".372 .374 .37"], TODAY).unwrap();
    let told = known(&world.card().lines[0]).unwrap();
    // Before anybody signed, nobody can know that it was there: the card falls back on the thickness as entered.
    let unsigned = taken_back(&world, &[0]);
    assert!(known(&unsigned.card().lines[0]).unwrap() > told);
    sign(&mut world);
    for world in [world.clone(), as_form_1(&world)] {
        let mut back = taken_back(&world, &[0]);
        let line = back.card().lines[0].clone();
        // It bears not above what the rest would say, and complies with nothing.
        assert!(
            matches!(line.bears, Bears::NotAbove(psi) if psi > told),
            "{line:?}"
        );
        assert_ne!(line.held, Held::Complies);
        let says = format!(
            "a survey of the {course}: that of {TODAY}, on which the card signed on {TODAY} stood, is in this book no more"
        );
        assert_eq!(line.missing, [says]);
        // An older one entered now is no answer; one of the same day is.
        survey_before(
            &mut back,
            [".40 .40 .40", ".40 .40 .40"],
            crate::world::later(TODAY, -1),
        );
        assert_eq!(known(&back.card().lines[0]), None);
        survey_before(&mut back, [".371 .369 .353", ".372 .374 .37"], TODAY);
        assert!(
            known(&back.card().lines[0]).is_some(),
            "{:?}",
            back.card().lines[0]
        );
    }
}

/// The boilers of the property are no empty ones: every kind, with all its facts, bears a pressure that is told.
#[test]
fn every_kind_bears_a_told_pressure_when_nothing_is_missing() {
    for (kind, facts) in WHOLE.iter().filter(|(kind, _)| *kind != "not-fitted") {
        let one = Made {
            place: "barrel",
            kind,
            facts,
            scale: 1.0,
            unsaid: Vec::new(),
        };
        let card = engine(&[one], &None).card();
        let line = &card.lines[0];
        assert!(
            matches!(line.bears, Bears::Told(psi) if psi > 50.0),
            "{kind}: {line:?}"
        );
    }
}
