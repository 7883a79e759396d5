//! Sheets of any family worked from a finding's readings; what feeds no argument is named; sizes that need not be left.

use measure::House;
use shop::book::{
    BoilerEntered, BoilerSurveyed, Family, FeatureReading, FindingId, JobId, Occasion,
};
use shop::decision::{Wish, decide};
use shop::finding::{NewFinding, record};
use shop::locomotive::{enter_boiler, take_survey};
use shop::route::{Choice, quantity, routes};
use shop::{job, record as closing};

use crate::world::{ADA, DOT, FOURTEEN, TODAY, World, found};

const LOOSE: FindingId = FindingId(0x1005E);
const JOB: JobId = JobId(0x10B);

/// Bore and pin at every place: .170 in between them; and the side play.
fn both() -> Vec<FeatureReading> {
    let places = ["inner end", "middle", "outer end"];
    let of = |feature: &'static str, size: &'static str| places.map(|place| (feature, place, size));
    let mut all = [of("bore", "5.6850 in"), of("pin", "5.5150 in")].concat();
    all.push(("side-play", "rod", "1/8 in"));
    found(&all)
}

fn loose(pin: &[(&str, &str)], readings: Vec<FeatureReading>) -> World {
    let mut world = World::new();
    let part = world.part(0xB5, "rod-bushing", pin);
    let new = NewFinding {
        id: LOOSE,
        locomotive: FOURTEEN,
        part,
        occasion: Occasion::PlannedWork,
        conditions: Vec::new(),
        told: "loose on its pin".into(),
        readings,
        notice: None,
        taking: Default::default(),
    };
    let made = record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world
}

fn offered(world: &World) -> Choice {
    let finding = &world.book.findings[&LOOSE];
    routes(&world.book, world.rules, finding, TODAY, House::Inch).unwrap()
}

#[test]
fn every_argument_that_a_family_feeds_is_one_of_its_sheet() {
    let mut fed = 0;
    for text in Family::BUILT_IN {
        let family = Family::read(text).unwrap();
        for sum in &family.calculations {
            for (sheet, arguments) in &sum.fill {
                let card = physics::find(sheet).unwrap().card;
                for argument in arguments.keys() {
                    let known = card.argument(argument).is_some();
                    assert!(known, "{}: {sheet} {argument}", family.family);
                    fed += 1;
                }
            }
        }
    }
    assert!(fed > 15, "{fed}");
}

#[test]
fn a_bushings_clearance_is_worked_from_its_readings_and_the_press_names_what_it_lacks() {
    let world = loose(&[("pin", "side-other-pin")], both());
    let choice = offered(&world);
    let mut sheets = choice.sheets.iter();
    let sheet = sheets.find(|it| it.card.id == "running.clearance");
    // By hand: 5.6850 less 5.5150.
    let clearance = quantity(sheet.unwrap(), "clearance").unwrap() / 0.0254;
    assert!((clearance - 0.170).abs() < 1e-9, "{clearance}");
    let mut offers = choice.offers.iter();
    let new = offers.find(|it| it.route.word == "new-bushing").unwrap();
    let lacks = new.unknown.join("; ");
    assert!(
        lacks.contains("fit.bushing cannot tell: needs eye: the eye of the rod"),
        "{lacks}"
    );
    assert!(lacks.contains("interference"), "{lacks}");
}

/// The same readings: inside the limit of one pin (3/16 in, 49 CFR 230.104) and past that of another (5/32 in).
#[test]
fn a_pin_at_its_limit_gives_the_other_answer_when_it_is_the_main_pin() {
    let other = loose(&[("pin", "side-other-pin")], both());
    assert_eq!(offered(&other).judgement.verdict.words(), "complies");
    let main = loose(&[("pin", "side-main-pin")], both());
    assert_eq!(offered(&main).judgement.verdict.words(), "fails");
    let choice = offered(&loose(&[], both()));
    let words = choice.judgement.verdict.words();
    assert!(words.contains("which pin it is"), "{words}");
    let mut offers = choice.offers.iter();
    let new = offers.find(|it| it.route.word == "new-bushing").unwrap();
    let named = "running.clearance cannot tell: needs pair: the fact `pin`";
    assert!(new.unknown.iter().any(|line| line.contains(named)));
}

fn finding_on(
    world: &mut World,
    part: shop::book::PartId,
    told: &str,
    readings: Vec<FeatureReading>,
) {
    let locomotive = world.book.parts[&part].locomotive;
    let new = NewFinding {
        id: LOOSE,
        locomotive,
        part,
        occasion: Occasion::PlannedWork,
        conditions: Vec::new(),
        told: told.into(),
        readings,
        notice: None,
        taking: Default::default(),
    };
    let made = record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
}

/// A reservoir of 20 in whose shell was read all round.
fn reservoir(facts: &[(&str, &str)]) -> Choice {
    let mut world = World::new();
    let part = world.part(0xA1, "main-reservoir", facts);
    let walls = ["front", "middle", "back", "bottom"].map(|place| ("shell", place, ".247 in"));
    finding_on(&mut world, part, "thin at the bottom", found(&walls));
    offered(&world)
}

fn entered(choice: &Choice, sheet: &str, argument: &str) -> String {
    let mut sheets = choice.sheets.iter();
    let sheet = sheets.find(|it| it.card.id == sheet).unwrap();
    let mut inputs = sheet.inputs.iter();
    inputs
        .find(|it| it.name == argument)
        .unwrap()
        .entered
        .clone()
}

#[test]
fn a_reservoirs_sheet_is_filled_from_its_facts_and_its_seam_is_asked_first() {
    let rest = [
        ("radius", "10-1/4 in"),
        ("working-pressure", "110 psig"),
        ("strength", "unknown"),
    ];
    let choice = reservoir(&[&rest[..], &[("seam", "lap")]].concat());
    assert_eq!(entered(&choice, "air.reservoir", "radius"), "10-1/4 in");
    // Nobody said which seam: nothing is worked, and that is the first thing asked, before pressure and radius.
    for facts in [&rest[..], &[]] {
        let choice = reservoir(facts);
        assert!(choice.sheets.iter().all(|it| it.card.id != "air.reservoir"));
        let lacks: Vec<&String> = choice.offers.iter().flat_map(|it| &it.unknown).collect();
        let first = "air.reservoir cannot tell: needs seam: the fact `seam` of the part";
        assert!(lacks.iter().any(|it| it.starts_with(first)), "{lacks:?}");
    }
}

#[test]
fn a_wheelset_is_gauged_as_her_engine_is() {
    for (gauge, word, track) in [
        ("56 1/2 in", "standard", None),
        ("36 in", "narrow", Some("36.0000 in")),
    ] {
        let mut world = World::new();
        let part = world.part(0xA2, "wheelset", &[]);
        let size = measure::Size::parse(gauge).unwrap();
        world.book.locomotives.get_mut(&FOURTEEN).unwrap().gauge = size;
        let backs = ["front", "top", "back"].map(|place| ("back-to-back", place, "33-1/4 in"));
        finding_on(&mut world, part, "read on the pit", found(&backs));
        let choice = offered(&world);
        assert_eq!(entered(&choice, "running.wheel_gauge", "gauge"), word);
        let mut sheets = choice.sheets.iter();
        let sheet = sheets
            .find(|it| it.card.id == "running.wheel_gauge")
            .unwrap();
        let mut inputs = sheet.inputs.iter();
        let given = inputs.find(|it| it.name == "track_gauge");
        assert_eq!(given.map(|it| it.entered.as_str()), track);
    }
}

#[test]
fn a_staybolts_tap_is_worked_from_the_threads_counted_on_it() {
    let read = [
        ("thread", "inside sheet", "1.010 in"),
        ("thread", "outside sheet", "1.000 in"),
        ("sheet", "inside sheet", "3/8 in"),
        ("sheet", "outside sheet", "1/2 in"),
        ("length", "bolt", "6 in"),
    ];
    for (facts, told) in [(&[("threads-per-inch", "12")][..], true), (&[][..], false)] {
        let mut world = World::new();
        let part = world.part(0xA3, "staybolt", facts);
        finding_on(&mut world, part, "broken", found(&read));
        let choice = offered(&world);
        let worked = choice
            .sheets
            .iter()
            .any(|it| it.card.id == "thread.staybolt");
        assert_eq!(worked, told);
        if told {
            assert_eq!(entered(&choice, "thread.staybolt", "tpi"), "12");
            continue;
        }
        let lacks: Vec<&String> = choice.offers.iter().flat_map(|it| &it.unknown).collect();
        let needs =
            "thread.staybolt cannot tell: needs tpi: the fact `threads-per-inch` of the part";
        assert!(lacks.iter().any(|it| *it == needs), "{lacks:?}");
    }
}

/// The eye of the rod is read only with the bushing out: as left it is asked for where the finding read it, and only there.
#[test]
fn what_is_read_as_left_only_if_found_is_asked_for_only_then() {
    let eyes = ["inner end", "middle", "outer end"].map(|place| ("eye", place, "7.0010 in"));
    for (extra, asked) in [(Vec::new(), false), (found(&eyes), true)] {
        let readings = both().into_iter().chain(extra).collect();
        let mut world = loose(&[("pin", "side-main-pin")], readings);
        let wish = Wish {
            finding: LOOSE,
            route: "new-bushing".into(),
            because: "past the limit of the main pin".into(),
            recheck: None,
        };
        let made = decide(&world.book, world.rules, wish, ADA, TODAY);
        world.enter(ADA, TODAY, made);
        let design = shop::design::propose(&world.book, world.rules, LOOSE, TODAY).unwrap();
        let made = job::make(&world.book, JOB, &design, None, ADA, TODAY);
        world.enter(ADA, TODAY, made);
        let kept = &world.book.jobs[&JOB];
        let missing = closing::unmet(&world.book, world.rules, kept, TODAY, House::Inch).unwrap();
        let says = |what: &str| missing.iter().any(|line| line.contains(what));
        assert!(says("bore of the bushing"), "{missing:?}");
        assert_eq!(says("eye of the rod"), asked, "{missing:?}");
    }
}

/// A course with a finding on it, a boiler's component of its name, and surveys of that.
fn course(
    required: &[(&str, &str)],
    thinnest: &str,
    surveys: &[(jiff::civil::Date, &str)],
) -> World {
    let mut world = World::new();
    let part = world.part(0xC0, "boiler-course", required);
    let name = world.book.parts[&part].name.clone();
    let told = BoilerEntered {
        locomotive: FOURTEEN,
        component: name.clone(),
        kind: "course".into(),
        place: "barrel".into(),
        facts: [("thickness".to_owned(), "0.41 in".to_owned())].into(),
        source: "drawing 14-B-2".into(),
    };
    let made = enter_boiler(&world.book, told, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    for (on, row) in surveys {
        let told = BoilerSurveyed {
            locomotive: FOURTEEN,
            component: name.clone(),
            rows: vec!["12".into(), "6".into()],
            columns: vec!["1".into(), "2".into()],
            cells: vec!["0.41 0.41".into(), (*row).to_owned()],
            unit: "in".into(),
            square: None,
            spot: None,
            source: "from the front seam, by ultrasound".into(),
        };
        let made = take_survey(&world.book, told, DOT, *on);
        world.enter(DOT, *on, made);
    }
    let places = [
        "top",
        "left side",
        "bottom left",
        "bottom",
        "bottom right",
        "right side",
    ];
    let mut read = places.map(|place| ("thickness", place, "0.40 in")).to_vec();
    read[3].2 = thinnest;
    read.push(("pit", "bottom", "0.030 in"));
    let new = NewFinding {
        id: LOOSE,
        locomotive: FOURTEEN,
        part,
        occasion: Occasion::PlannedWork,
        conditions: vec!["pitted".into()],
        told: "pits at the bottom".into(),
        readings: found(&read),
        notice: None,
        taking: Default::default(),
    };
    let made = record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world
}

/// All that a route of a finding is not known to have.
fn lacks(choice: &Choice, route: &str) -> String {
    let mut offers = choice.offers.iter();
    offers
        .find(|it| it.route.word == route)
        .unwrap()
        .unknown
        .join("; ")
}

const TEN_YEARS: jiff::civil::Date = jiff::civil::date(2016, 5, 2);
const REQUIRED: &[(&str, &str)] = &[("required-wall", "0.300 in")];

#[test]
fn the_life_of_a_plate_is_worked_from_the_surveys_of_the_component_of_its_name() {
    let world = course(
        REQUIRED,
        "0.36 in",
        &[(TEN_YEARS, "0.40 0.405"), (TODAY, "0.35 0.40")],
    );
    let choice = offered(&world);
    let sheet = choice
        .sheets
        .iter()
        .find(|it| it.card.id == "boiler.remaining_life");
    let sheet = sheet.unwrap_or_else(|| panic!("{}", lacks(&choice, "recalculate")));
    // By hand: .400 less .350 at row 6, column 1 over 3652 days of 365.25 a year is .0050 a year, and .050 is left: 9.999 years.
    let years = 3652.0 / 365.25;
    let life = quantity(sheet, "life").unwrap();
    assert!((life - 0.050 / (0.050 / years)).abs() < 0.01, "{life}");
    let text = sheet.to_text();
    assert!(
        text.contains("row 6, column 1, surveys of 2016-05-02, 2026-05-02"),
        "{text}"
    );
    // What welding it up would ask: the thickness required, what is left, the pit; the area nobody said is asked for.
    let asked = lacks(&choice, "build-up");
    assert!(
        asked.contains("boiler.buildup cannot tell: needs area: "),
        "{asked}"
    );
    assert!(
        !asked.contains("present") && !asked.contains("depth:"),
        "{asked}"
    );
}

#[test]
fn what_the_surveys_do_not_tell_of_a_plate_stays_asked() {
    let both = [(TEN_YEARS, "0.40 0.405"), (TODAY, "0.35 0.40")];
    for (world, says) in [
        (
            course(&[], "0.36 in", &both),
            "required: the fact `required-wall`",
        ),
        (
            course(REQUIRED, "0.36 in", &[]),
            "readings: a survey of the boiler-course c0",
        ),
        (
            course(REQUIRED, "0.36 in", &both[1..]),
            "readings: a survey before that of 2026-05-02 which read row 6, column 1",
        ),
        (
            course(REQUIRED, "0.36 in", &[both[0], (TODAY, "0.35 -")]),
            "readings: 1 squares of the survey of 2026-05-02 that were not read",
        ),
        // Somebody found it thinner than any square: the squares missed that place.
        (
            course(REQUIRED, "0.34 in", &both),
            "readings: a survey that saw the place found at 0.34 in",
        ),
        (
            course(REQUIRED, "0.36 in", &both),
            "minima: the side of a square",
        ),
    ] {
        let choice = offered(&world);
        let lacks = lacks(&choice, "recalculate");
        assert!(lacks.contains(says), "{says}: {lacks}");
    }
}
