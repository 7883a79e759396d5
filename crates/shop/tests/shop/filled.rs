//! Sheets of any family worked from a finding's readings; what feeds no argument is named; sizes that need not be left.

use measure::House;
use shop::book::{Family, FeatureReading, FindingId, JobId, Occasion};
use shop::decision::{Wish, decide};
use shop::finding::{NewFinding, record};
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
