//! Verdicts at the limit and one tick to either side, by the law's printed numbers.
//!
//! Every limit here is written out from 49 CFR Part 230, 2015 edition, at the section beside it, and not
//! read from the rulebook under test.

use std::collections::BTreeMap;

use measure::{House, Size};
use shop::book::{FeatureFacts, FeatureReading, PartAdded, PartId, Statement};
use shop::verdict::{Judgement, Question, Verdict, judge};

use crate::world::{ADA, FOURTEEN, TODAY, World, found, words};

fn judged(world: &World, part: PartId, readings: &[FeatureReading]) -> Judgement {
    let question = Question {
        part: &world.book.parts[&part],
        readings,
        conditions: &[],
        on: TODAY,
        house: House::Inch,
    };
    judge(&world.book, world.rules, question).unwrap()
}

/// A size as a shop with a very fine rule would write it: in inches as a fraction of ticks.
fn ticks(size: Size) -> String {
    format!("{}/{} in", size.ticks(), Size::TICKS_PER_INCH)
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap()
}

fn beside(text: &str, by: i64) -> String {
    ticks(Size::from_ticks(size(text).ticks() + by))
}

/// Every place of these features read alike.
fn all_alike(world: &World, part: PartId, sizes: &[(&str, &str)]) -> Vec<FeatureReading> {
    let family = world.book.families[&world.book.parts[&part].family]
        .family()
        .unwrap();
    let mut readings = Vec::new();
    for (name, text) in sizes {
        for place in &family.feature(name).unwrap().positions {
            readings.extend(found(&[(name, place, text)]));
        }
    }
    readings
}

fn complies(verdict: &Verdict) -> bool {
    *verdict == Verdict::Complies
}

fn fails(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::Fails(_))
}

fn needs(verdict: &Verdict) -> &[String] {
    match verdict {
        Verdict::CannotTell(needs) => needs,
        other => panic!("{other:?}"),
    }
}

/// 230.94: vertical 1/4 in, lateral 5/16 in.
#[test]
fn crosshead_clearances() {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let verdict = |vertical: &str, lateral: &str| {
        let readings = all_alike(
            &world,
            part,
            &[("vertical", vertical), ("lateral", lateral)],
        );
        judged(&world, part, &readings).verdict
    };
    assert!(complies(&verdict("1/4 in", "5/16 in")));
    assert!(complies(&verdict(
        &beside("1/4 in", -1),
        &beside("5/16 in", -1)
    )));
    assert!(fails(&verdict(&beside("1/4 in", 1), "5/16 in")));
    assert!(fails(&verdict("1/4 in", &beside("5/16 in", 1))));
    // One of them is not the other.
    assert!(fails(&verdict("5/16 in", "5/16 in")));
    assert!(complies(&verdict("1/4 in", "1/4 in")));
    // One size, two ways of writing it.
    assert!(complies(&verdict("6.35 mm", "7.9375 mm")));
    assert!(fails(&verdict("6.351 mm", "7.9375 mm")));
    assert!(fails(&verdict("0.25 in", "0.3126 in")));
}

/// 230.96(f): main rod 3/32 in. 230.96(g): side rod on the main pin 5/32 in, on another 3/16 in.
#[test]
fn which_pin_it_is_decides_the_limit() {
    const PIN: &str = "5 1/2 in";
    for (id, pin, limit) in [
        (1, "main-rod", "3/32 in"),
        (2, "side-main-pin", "5/32 in"),
        (3, "side-other-pin", "3/16 in"),
    ] {
        let mut world = World::new();
        let part = world.part(id, "rod-bushing", &[("pin", pin)]);
        let verdict = |over: i64| {
            let bore = ticks(Size::from_ticks(size(PIN).ticks() + over));
            let sizes = [
                ("bore", bore.as_str()),
                ("pin", PIN),
                ("side-play", "1/8 in"),
            ];
            judged(&world, part, &all_alike(&world, part, &sizes)).verdict
        };
        let limit = size(limit).ticks();
        assert!(complies(&verdict(limit)), "{pin}");
        assert!(complies(&verdict(limit - 1)), "{pin}");
        assert!(fails(&verdict(limit + 1)), "{pin}");
    }
    let mut world = World::new();
    let part = world.part(1, "rod-bushing", &[]);
    let sizes = [("bore", "5 1/2 in"), ("pin", PIN), ("side-play", "1/8 in")];
    let verdict = judged(&world, part, &all_alike(&world, part, &sizes)).verdict;
    assert!(
        needs(&verdict)[0].contains("which pin it is"),
        "{verdict:?}"
    );
}

/// The largest of the bore meets the smallest of the pin, wherever they were read. 230.96(g), 5/32 in.
#[test]
fn the_worst_of_both_governs() {
    let mut world = World::new();
    let part = world.part(1, "rod-bushing", &[("pin", "side-main-pin")]);
    let readings = |outer_pin: &str| {
        found(&[
            ("bore", "inner end", "5.660 in"),
            ("bore", "middle", "5.500 in"),
            ("bore", "outer end", "5.500 in"),
            ("pin", "inner end", "5.510 in"),
            ("pin", "middle", "5.510 in"),
            ("pin", "outer end", outer_pin),
            ("side-play", "rod", "1/4 in"),
        ])
    };
    // 5.660 - 5.50375 = 0.15625, which is 5/32 in.
    assert!(complies(
        &judged(&world, part, &readings("5.50375 in")).verdict
    ));
    assert!(fails(&judged(&world, part, &readings("5.503 in")).verdict));
}

/// 230.96(d): side motion of a rod on its pin, 1/4 in.
#[test]
fn side_motion_of_a_rod() {
    let mut world = World::new();
    let part = world.part(1, "rod-bushing", &[("pin", "main-rod")]);
    let verdict = |play: &str| {
        let sizes = [("bore", "5 in"), ("pin", "5 in"), ("side-play", play)];
        judged(&world, part, &all_alike(&world, part, &sizes)).verdict
    };
    assert!(complies(&verdict("1/4 in")));
    assert!(fails(&verdict(&beside("1/4 in", 1))));
}

/// A tire that meets everything but, perhaps, its thickness.
fn tire(world: &World, part: PartId, thickness: &str) -> Vec<FeatureReading> {
    let sizes = [
        ("thickness", thickness),
        ("flange-thickness", "1 1/8 in"),
        ("hollow", "1/16 in"),
        ("flange-height", "1 1/8 in"),
    ];
    all_alike(world, part, &sizes)
}

fn tired(load: Option<u32>, center: Option<&str>) -> (World, PartId) {
    let mut world = World::new();
    world
        .book
        .locomotives
        .get_mut(&FOURTEEN)
        .unwrap()
        .axle_load_lb = load;
    let facts: Vec<_> = center.map(|c| ("center-diameter", c)).into_iter().collect();
    let part = world.part(1, "driving-tire", &facts);
    (world, part)
}

/// 230.112(d): by axle load and wheel-center diameter; the upper edge of a band belongs to it. Seven
/// cells written out of the printed table, its corners and edges among them.
#[test]
fn tire_thickness_goes_by_axle_load_and_center() {
    for (load, center, least) in [
        (30_000, "44 in", "1 1/4 in"),
        (30_001, "44 in", "1 5/16 in"),
        (30_000, "44 1/16 in", "1 5/16 in"),
        (36_500, "50 in", "1 7/16 in"),
        (55_000, "74 in", "1 7/8 in"),
        (55_001, "74 in", "1 15/16 in"),
        (55_001, "74 1/16 in", "2 in"),
    ] {
        let (world, part) = tired(Some(load), Some(center));
        let verdict = |thick: &str| judged(&world, part, &tire(&world, part, thick)).verdict;
        assert!(complies(&verdict(least)), "{load} lb, {center}");
        assert!(complies(&verdict(&beside(least, 1))), "{load} lb, {center}");
        assert!(fails(&verdict(&beside(least, -1))), "{load} lb, {center}");
    }
    // A center given in millimetres is in the same band: 44 in is 1117.6 mm.
    let (world, part) = tired(Some(30_000), Some("1117.6 mm"));
    assert!(complies(
        &judged(&world, part, &tire(&world, part, "31.75 mm")).verdict
    ));
    assert!(fails(
        &judged(&world, part, &tire(&world, part, "31.749 mm")).verdict
    ));
}

#[test]
fn an_axle_load_or_a_center_not_known_cannot_tell() {
    for (load, center, missing) in [
        (None, Some("50 in"), "weight on drivers"),
        (Some(36_500), None, "diameter of the wheel center"),
        (
            Some(36_500),
            Some("big"),
            "diameter of the wheel center as a size",
        ),
        (Some(0), Some("50 in"), "axle load"),
    ] {
        let (world, part) = tired(load, center);
        let judged = judged(&world, part, &tire(&world, part, "3 in"));
        let needs = needs(&judged.verdict);
        assert!(needs[0].contains(missing), "{needs:?}");
        assert!(judged.verdict.words().starts_with("cannot tell: needs "));
    }
}

/// 230.113(g): flange 15/16 in or less condemns. (h): hollow of 5/16 in or more condemns. (i): flange
/// height under 1 in or over 1 1/2 in condemns.
#[test]
fn a_tire_at_its_other_limits() {
    let (world, part) = tired(Some(30_000), Some("44 in"));
    let verdict = |feature: &str, text: &str| {
        let mut readings = tire(&world, part, "3 in");
        for reading in readings.iter_mut().filter(|r| r.feature == feature) {
            reading.reading.text = text.into();
        }
        judged(&world, part, &readings).verdict
    };
    assert!(fails(&verdict("flange-thickness", "15/16 in")));
    assert!(complies(&verdict(
        "flange-thickness",
        &beside("15/16 in", 1)
    )));
    assert!(fails(&verdict("hollow", "5/16 in")));
    assert!(complies(&verdict("hollow", &beside("5/16 in", -1))));
    for (height, good) in [
        ("1 in", true),
        ("1 1/2 in", true),
        (&beside("1 in", -1), false),
        (&beside("1 1/2 in", 1), false),
    ] {
        assert_eq!(
            complies(&verdict("flange-height", height)),
            good,
            "{height}"
        );
    }
}

/// 230.113(i) has two ends: one low place condemns though the others are high enough.
#[test]
fn both_ends_of_a_limit_are_held_against_every_place() {
    let (world, part) = tired(Some(30_000), Some("44 in"));
    let mut readings = tire(&world, part, "3 in");
    let low =
        |r: &&mut FeatureReading| r.feature == "flange-height" && r.reading.position == "second";
    readings.iter_mut().find(low).unwrap().reading.text = "63/64 in".into();
    let judged = judged(&world, part, &readings);
    assert!(fails(&judged.verdict), "{judged:?}");
    let line = judged
        .lines
        .iter()
        .find(|l| l.verdict == judged.verdict)
        .unwrap();
    assert!(line.found.starts_with("63/64 in"), "{}", line.found);
}

#[test]
fn a_place_not_read_cannot_tell_and_does_not_hide_a_failure() {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let lateral = ["front", "middle", "back"].map(|place| ("lateral", place, "1/8 in"));
    let with = |vertical: &[(&str, &str, &str)]| {
        let mut all = found(vertical);
        all.extend(found(&lateral));
        judged(&world, part, &all).verdict
    };
    let good = with(&[
        ("vertical", "front", "1/8 in"),
        ("vertical", "back", "1/8 in"),
    ]);
    assert_eq!(
        needs(&good),
        ["the crosshead to guide, vertical clearance at middle"]
    );
    assert!(fails(&with(&[("vertical", "front", "9/32 in")])));
    assert_eq!(needs(&with(&[])).len(), 3);
}

#[test]
fn where_no_rule_limits_there_is_no_limit_on_file() {
    let mut world = World::new();
    let part = world.part(1, "check-valve", &[]);
    let verdict = judged(&world, part, &[]).verdict;
    assert!(verdict.words().contains("no limit on file"), "{verdict:?}");
}

/// 230.57(b): no leaks are allowed in feed checks.
#[test]
fn a_leak_fails_by_its_rule() {
    let mut world = World::new();
    let part = world.part(1, "check-valve", &[]);
    let of = |word: &str| {
        let question = Question {
            part: &world.book.parts[&part],
            readings: &[],
            conditions: &[word.to_string()],
            on: TODAY,
            house: House::Inch,
        };
        judge(&world.book, world.rules, question).unwrap().verdict
    };
    assert!(fails(&of("weeps-back")));
    // Nobody's law limits a disc that sticks.
    assert!(of("sticks").words().contains("no limit on file"));
}

/// Our own limit is not the law's: past it, the law's verdict stands and ours is told apart.
#[test]
fn a_shop_limit_is_told_apart_from_the_law() {
    let mut world = World::new();
    let ours = FeatureFacts {
        shop_limit: Some("3/16 in".into()),
        ..FeatureFacts::default()
    };
    let part = PartAdded {
        id: PartId(1),
        locomotive: FOURTEEN,
        family: "crosshead-and-guide".into(),
        name: "right crosshead".into(),
        facts: words(&[]),
        features: BTreeMap::from([("vertical".to_string(), ours)]),
        known: None,
    };
    world.state(ADA, TODAY, Statement::PartAdded(part));
    let of = |vertical: &str| {
        let sizes = [("vertical", vertical), ("lateral", "1/8 in")];
        let readings = all_alike(&world, PartId(1), &sizes);
        judged(&world, PartId(1), &readings)
    };
    assert!(complies(&of("3/16 in").shop) && complies(&of("3/16 in").verdict));
    let past = of(&beside("3/16 in", 1));
    assert!(fails(&past.shop) && complies(&past.verdict), "{past:?}");
}

#[test]
fn a_judgement_keeps_the_rulings_it_stands_on() {
    let (world, part) = tired(Some(30_000), Some("44 in"));
    let judged = judged(&world, part, &tire(&world, part, "3 in"));
    let rules: Vec<_> = judged
        .rulings()
        .into_iter()
        .map(|r| (r.rule, r.version))
        .collect();
    let expected = [
        "us-steam.tire.thickness",
        "us-steam.wheel.flange-height",
        "us-steam.wheel.flange-thickness",
        "us-steam.wheel.tread-hollow",
    ];
    assert_eq!(rules, expected.map(|rule| (rule.to_string(), 1)));
}

/// Work done before the rulebook begins is not judged by a later text.
#[test]
fn a_day_before_the_rulebook_is_refused() {
    let (world, part) = tired(Some(30_000), Some("44 in"));
    let readings = tire(&world, part, "3 in");
    let question = Question {
        part: &world.book.parts[&part],
        readings: &readings,
        conditions: &[],
        on: jiff::civil::date(1999, 6, 1),
        house: House::Inch,
    };
    assert!(judge(&world.book, world.rules, question).is_err());
}

/// The reader's units change the figures shown, never the word; what the law and the person wrote is in both.
#[test]
fn a_verdict_is_the_same_in_both_houses() {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let judged_in = |house: House, sizes: [&'static str; 3]| {
        let places = ["front", "middle", "back"].into_iter().zip(sizes);
        let readings: Vec<_> = places
            .flat_map(|(place, size)| [("vertical", place, size), ("lateral", place, size)])
            .collect();
        let question = Question {
            part: &world.book.parts[&part],
            readings: &found(&readings),
            conditions: &[],
            on: TODAY,
            house,
        };
        judge(&world.book, world.rules, question).unwrap()
    };
    let inch = judged_in(House::Inch, ["7/32 in", "17/64 in", "13/64 in"]);
    let metric = judged_in(House::Metric, ["7/32 in", "17/64 in", "13/64 in"]);
    let words = |judged: &Judgement| {
        judged
            .lines
            .iter()
            .map(|l| l.verdict.words())
            .collect::<Vec<_>>()
    };
    assert_eq!(words(&inch), words(&metric));
    assert!(fails(&inch.verdict) && fails(&metric.verdict));
    let line = |judged: &Judgement| (judged.lines[0].found.clone(), judged.lines[0].limit.clone());
    assert_eq!(
        line(&inch),
        ("17/64 in · .265625 in".into(), "at most 1/4 in".into())
    );
    assert_eq!(
        line(&metric),
        (
            "17/64 in (6.746875 mm)".into(),
            "at most 1/4 in (6.35 mm)".into()
        )
    );
    let Verdict::Fails(by) = &metric.verdict else {
        panic!("{:?}", metric.verdict)
    };
    assert!(by[0].contains("0.396875 mm past the limit"), "{by:?}");
    // The same sizes measured in millimetres: the same words, and what was written first in both.
    let sizes = ["5.55625 mm", "6.746875 mm", "5.159375 mm"];
    let measured = judged_in(House::Inch, sizes);
    assert_eq!(words(&measured), words(&inch));
    assert_eq!(
        measured.lines[0].found,
        "6.746875 mm (17/64 in · .265625 in)"
    );
    assert_eq!(
        judged_in(House::Metric, sizes).lines[0].found,
        "6.746875 mm"
    );
}

/// A clearance read on the pair as it stands is evidence of its own: 230.96(f), main rod 3/32 in.
#[test]
fn a_clearance_read_on_the_pair_answers_the_limit() {
    let mut world = World::new();
    let part = world.part(1, "rod-bushing", &[("pin", "main-rod")]);
    let play = all_alike(&world, part, &[("side-play", "1/8 in")]);
    let on_pair = |one: &str, square: &str| {
        let mut readings = play.clone();
        readings.extend(found(&[
            ("bore-over-pin", "one way", one),
            ("bore-over-pin", "square to it", square),
        ]));
        readings
    };
    let verdict = |readings: &[FeatureReading]| judged(&world, part, readings).verdict;
    assert!(complies(&verdict(&on_pair("1/16 in", "3/32 in"))));
    assert!(fails(&verdict(&on_pair("1/16 in", &beside("3/32 in", 1)))));
    // Read one way only: past the limit it fails all the same, within it nobody can tell.
    let mut one = on_pair("7/64 in", "0 in");
    one.retain(|r| r.reading.position != "square to it");
    assert!(fails(&verdict(&one)));
    let mut one = on_pair("1/16 in", "0 in");
    one.retain(|r| r.reading.position != "square to it");
    let needed = verdict(&one);
    assert_eq!(needs(&needed), ["the bore over pin at square to it"]);

    // With bore and pin beside it, the wider of the two counts, whichever it is.
    let sized = |bore: &str, readings: Vec<FeatureReading>| {
        let mut all = all_alike(&world, part, &[("bore", bore), ("pin", "5.500 in")]);
        all.extend(readings);
        all
    };
    let both = sized("5.560 in", on_pair("1/16 in", "1/16 in"));
    let judgement = judged(&world, part, &both);
    let of_pair = |judged: &Judgement| {
        let mut lines = judged.lines.iter();
        let line = lines.find(|line| line.what == "bore over pin").unwrap();
        line.found.clone()
    };
    assert!(complies(&judgement.verdict));
    assert_eq!(of_pair(&judgement), "1/16 in · .0625 in; read on the pair");
    assert!(fails(&verdict(&sized(
        "5.600 in",
        on_pair("1/16 in", "1/16 in")
    ))));
    assert!(fails(&verdict(&sized(
        "5.530 in",
        on_pair("7/64 in", "7/64 in")
    ))));
    // Farther apart than they were read to, and that is said.
    let apart = judged(
        &world,
        part,
        &sized("5.530 in", on_pair("5/64 in", "5/64 in")),
    );
    assert!(complies(&apart.verdict));
    let said = of_pair(&apart);
    assert!(
        said.contains("differ by more than they were read to"),
        "{said}"
    );
    // Places that are missing of one do not spoil the other, and neither is whole without its places.
    let mut partly = sized("5.530 in", on_pair("1/16 in", "1/16 in"));
    partly.retain(|r| r.feature != "bore" || r.reading.position == "middle");
    assert!(complies(&verdict(&partly)));
    partly.retain(|r| r.reading.position != "one way");
    assert!(!needs(&verdict(&partly)).is_empty());
}

/// What was read last counts: a clearance of before the bush was bored says nothing of it, nor do the sizes of before it
/// was read on the pair.
#[test]
fn a_clearance_and_its_two_sizes_are_of_their_days() {
    use measure::State;
    use shop::book::ReadingSet;
    use shop::locomotive::as_it_is;
    let mut world = World::new();
    let part = world.part(1, "rod-bushing", &[("pin", "main-rod")]);
    let sizes = all_alike(&world, part, &[("bore", "5.700 in"), ("pin", "5.500 in")]);
    let mut pair = all_alike(&world, part, &[("side-play", "1/8 in")]);
    pair.extend(found(&[
        ("bore-over-pin", "one way", "1/16 in"),
        ("bore-over-pin", "square to it", "1/16 in"),
    ]));
    let set = |entry: u64, readings: &[FeatureReading]| ReadingSet {
        entry,
        on: TODAY,
        by: ADA,
        finding: None,
        job: None,
        state: State::AsFound,
        readings: readings.to_vec(),
        taken: None,
    };
    let family = world.book.families["rod-bushing"].family().unwrap();
    let kept = &world.book.parts[&part];
    let verdict = |newest: &[&ReadingSet]| {
        let asked = (TODAY, House::Inch);
        shop::verdict::judge_as_it_is(&world.book, world.rules, kept, newest, asked)
            .unwrap()
            .verdict
    };
    let (older, newer) = (set(1, &sizes), set(2, &pair));
    assert_eq!(
        as_it_is(family, &[&newer, &older]).outdated,
        ["bore-over-pin"]
    );
    assert!(complies(&verdict(&[&newer, &older])));
    let (older, newer) = (set(1, &pair), set(2, &sizes));
    let now = as_it_is(family, &[&newer, &older]);
    assert!(now.outdated.is_empty());
    assert!(now.readings.iter().all(|r| r.feature != "bore-over-pin"));
    assert!(fails(&verdict(&[&newer, &older])));
}
