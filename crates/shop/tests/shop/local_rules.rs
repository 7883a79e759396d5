//! Rules a shop writes itself, beside the law's and alone: what they add to verdicts, clocks, lists and papers, and
//! that they name what binds.
//!
//! The figures of the law are 49 CFR 230.94 (1/4 in), 230.96 (5/32 in), 230.14 (31 service days), 230.16 (368 days)
//! and 230.39(b) (30 days), 2015 edition. Those of the shop and of the province of Hallow are invented.

use jiff::civil::{Date, date};
use measure::{House, Size};
use rules::Origin;
use shop::Class::{Input, Refused};
use shop::book::{FeatureReading, FindingId, LocomotiveId, Occasion, PartId, RulesBind};
use shop::clock::{Among, Clock, PaperState, State, due, filings};
use shop::locomotive::{Law, NewEngine, add_engine, adopt_rules, bind_rules, held_before};
use shop::verdict::{Judgement, LimitQuestion, Question, Verdict, check_in, judge};

use crate::said::no;
use crate::world::{ADA, BEN, DOT, FOURTEEN, TODAY, World, engine, found, later};

pub const OWN: &str = include_str!("../../../../docs/examples/own-limits.toml");
pub const HALLOW: &str = include_str!("../../../../docs/examples/invented-hallow.toml");
pub const BOUND: Date = date(2026, 3, 1);

impl World {
    pub fn adopted(&mut self, text: &str, from: Date) {
        let made = adopt_rules(&self.book, self.rules, "FILE", text, from, ADA, TODAY);
        self.enter(ADA, from, made);
    }

    pub fn bound(&mut self, set: &str, from: Date, through: Option<Date>) {
        let made = bind_rules(&self.book, self.rules, told(set, from, through), ADA, TODAY);
        self.enter(ADA, from, made);
    }
}

pub fn told(set: &str, from: Date, through: Option<Date>) -> RulesBind {
    RulesBind {
        locomotive: FOURTEEN,
        set: set.into(),
        from,
        through,
        document: "shop order 4".into(),
    }
}

/// The shop with its own rules taken in and No. 14 under them.
fn ours() -> World {
    let mut world = World::new();
    world.adopted(OWN, BOUND);
    world.bound("juniper-fork", BOUND, None);
    world
}

pub fn judged(world: &World, part: PartId, readings: &[FeatureReading], on: Date) -> Judgement {
    let question = Question {
        part: &world.book.parts[&part],
        readings,
        conditions: &[],
        on,
        house: House::Inch,
    };
    judge(&world.book, world.rules, question).unwrap()
}

/// Every place of a feature read alike.
pub fn alike(world: &World, part: PartId, sizes: &[(&str, &str)]) -> Vec<FeatureReading> {
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

pub fn crosshead(world: &World, part: PartId, vertical: &str, on: Date) -> Judgement {
    let readings = alike(
        world,
        part,
        &[("vertical", vertical), ("lateral", "1/16 in")],
    );
    judged(world, part, &readings, on)
}

fn fails(verdict: &Verdict) -> &[String] {
    match verdict {
        Verdict::Fails(by) => by,
        other => panic!("{other:?}"),
    }
}

#[test]
fn two_sets_hold_a_reading_each_by_its_own_limit_and_are_named() {
    let mut world = ours();
    let part = world.part(1, "crosshead-and-guide", &[]);
    // Between our limit and the law's.
    let both = crosshead(&world, part, "7/32 in", TODAY);
    assert_eq!(both.verdict, Verdict::Complies, "the law's word is its own");
    let by = fails(&both.shop);
    assert!(
        by[0].contains("1/32 in · .03125 in past the limit")
            && by[0].contains("juniper-fork, this shop's own"),
        "{by:?}"
    );
    assert_eq!(fails(&both.whole()), by);
    let of = |set: &str| {
        let is = |l: &&shop::verdict::Line| {
            l.ruling
                .as_ref()
                .is_some_and(|r| r.set == set && l.what.contains("vertical"))
        };
        both.lines.iter().find(is).unwrap()
    };
    let (law, own) = (of("us-steam"), of("juniper-fork"));
    assert!(law.law && !own.law);
    assert_eq!(law.limit, "at most 1/4 in");
    assert_eq!(
        own.limit,
        "at most 3/16 in (juniper-fork, this shop's own), the stricter"
    );
    assert_eq!(law.verdict, Verdict::Complies);
    // The rulings go with the verdict, so that a decision keeps both.
    let kept = both.rulings();
    for rule in [
        "us-steam.crosshead.vertical",
        "juniper-fork.crosshead.vertical",
    ] {
        assert!(
            kept.iter().any(|r| r.rule == rule && r.version == 1),
            "{rule}"
        );
    }
    // At our limit and one tick past it; and past the law's both fail.
    let ticks = Size::parse("3/16 in").unwrap().ticks();
    let at = |ticks: i64| format!("{ticks}/{} in", Size::TICKS_PER_INCH);
    assert_eq!(
        crosshead(&world, part, &at(ticks), TODAY).whole(),
        Verdict::Complies
    );
    assert!(matches!(
        crosshead(&world, part, &at(ticks + 1), TODAY).shop,
        Verdict::Fails(_)
    ));
    let worse = crosshead(&world, part, "5/16 in", TODAY);
    assert!(fails(&worse.verdict)[0].contains("230.94"));
    assert_eq!(fails(&worse.whole()).len(), 2);
}

#[test]
fn a_set_binds_from_its_day_through_its_last_and_no_other_engine() {
    let mut world = ours();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let before = crosshead(&world, part, "7/32 in", later(BOUND, -1));
    assert_eq!((before.lines.len(), before.whole()), (2, Verdict::Complies));
    assert!(matches!(
        crosshead(&world, part, "7/32 in", BOUND).whole(),
        Verdict::Fails(_)
    ));
    world.bound("juniper-fork", BOUND, Some(later(TODAY, -1)));
    assert!(matches!(
        crosshead(&world, part, "7/32 in", later(TODAY, -1)).whole(),
        Verdict::Fails(_)
    ));
    assert_eq!(
        crosshead(&world, part, "7/32 in", TODAY).whole(),
        Verdict::Complies
    );
    let other = &world.book.locomotives[&crate::world::TWENTY_SEVEN];
    let law = Law::of(&world.book, world.rules, other);
    assert_eq!(law.told_on(BOUND), "us-steam");
}

#[test]
fn circumstances_of_the_named_rule_pick_the_shops_limit() {
    let mut world = ours();
    let verdict = |world: &World, part, bore: &str| {
        let sizes = [
            ("bore", bore),
            ("pin", "5 1/2 in"),
            ("side-play", "1/16 in"),
        ];
        judged(world, part, &alike(world, part, &sizes), TODAY)
    };
    // 3/32 in over the pin: past our 1/16 in for the main pin, within the law's 5/32 and 3/16 in.
    let main = world.part(1, "rod-bushing", &[("pin", "side-main-pin")]);
    let other = world.part(2, "rod-bushing", &[("pin", "side-other-pin")]);
    let on_main = verdict(&world, main, "5 19/32 in");
    assert_eq!(on_main.verdict, Verdict::Complies);
    assert!(matches!(on_main.shop, Verdict::Fails(_)));
    assert_eq!(
        verdict(&world, other, "5 19/32 in").whole(),
        Verdict::Complies
    );
    // Which pin it is, nobody stated: by none of the sets can it be told.
    let unknown = world.part(3, "rod-bushing", &[]);
    let open = verdict(&world, unknown, "5 19/32 in");
    assert!(matches!(open.verdict, Verdict::CannotTell(_)));
    assert!(matches!(open.shop, Verdict::CannotTell(_)));
}

fn clock<'c>(clocks: &'c [Clock], rule: &str) -> &'c Clock {
    clocks.iter().find(|c| c.ruling.rule == rule).unwrap()
}

#[test]
fn the_earlier_clock_stands_first_and_names_the_other() {
    let mut world = ours();
    let yesterday = later(TODAY, -1);
    world.paper("31", later(TODAY, -40), Some((20, yesterday)));
    world.closed(later(TODAY, -60), yesterday);
    let clocks = due(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    let at = clocks.iter().position(|c| c.inspection == "31").unwrap();
    let [own, law] = &clocks[at..at + 2] else {
        panic!("two")
    };
    assert_eq!(
        (own.ruling.rule.as_str(), own.left),
        ("juniper-fork.clock.31", Some(4))
    );
    assert_eq!(
        (law.ruling.rule.as_str(), law.left),
        ("us-steam.clock.31", Some(11))
    );
    assert_eq!(own.ruling.origin, Origin::Shop);
    assert_eq!(own.among, Among::First(vec!["us-steam.clock.31".into()]));
    assert_eq!(law.among, Among::Behind("juniper-fork.clock.31".into()));
    assert!(
        own.why
            .ends_with("4 left; comes first, before us-steam.clock.31"),
        "{}",
        own.why
    );
    assert!(
        law.why
            .ends_with("11 left; juniper-fork.clock.31 comes first"),
        "{}",
        law.why
    );
    // Four more days in steam, and ours stops her while the law's runs.
    for day in 0..4 {
        world.steamed(later(TODAY, day));
    }
    let on = later(TODAY, 4);
    world.closed(TODAY, later(on, -1));
    let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    assert_eq!(clock(&clocks, "juniper-fork.clock.31").state, State::Stops);
    assert_eq!(clock(&clocks, "us-steam.clock.31").state, State::Runs);
    // The 31 is held with our item on its list too, and starts both again.
    world.inspected("31", on);
    let held = world.book.inspections.values().next().unwrap();
    let last = held.items.last().unwrap();
    assert_eq!(
        (last.rule.as_str(), last.version),
        ("juniper-fork.31.brick", 1)
    );
    let clocks = due(&world.book, world.rules, FOURTEEN, later(on, 1)).unwrap();
    assert_eq!(
        clock(&clocks, "juniper-fork.clock.31")
            .anchor
            .as_ref()
            .unwrap()
            .on,
        on
    );
    assert_eq!(
        clock(&clocks, "us-steam.clock.31")
            .anchor
            .as_ref()
            .unwrap()
            .on,
        on
    );
}

/// A calendar of our own for the annual, and a defect's clock of our own: 230.39(b) gives 30 days, we give 10.
#[test]
fn calendar_and_defect_clocks_combine_to_the_earlier_day() {
    let mut text = rule_of(
        "calendar",
        "juniper-fork.clock.annual",
        "span = { days = 300 }\ninspection = \"annual\"\nrestarted_by = [\"annual\", \"fifth-annual\", \"1472\"]\nfrom = \"inspection\"\n",
    );
    text.push_str(&rule_of("calendar", "juniper-fork.clock.broken-staybolt", "span = { days = 10 }\ninspection = \"staybolt-renewal\"\nrestarted_by = []\nfrom = \"broken-staybolt-found\"\n"));
    let mut world = World::new();
    world.adopted(&format!("{OWN}\n{text}"), BOUND);
    world.bound("juniper-fork", BOUND, None);
    world.paper("annual", date(2026, 1, 10), Some((0, date(2026, 1, 10))));
    let clocks = due(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    // The last day of 300 and of 368, counted from 10 January 2026 as day 0.
    let (own, law) = (
        clock(&clocks, "juniper-fork.clock.annual"),
        clock(&clocks, "us-steam.clock.annual"),
    );
    assert_eq!(own.stops_on, Some(date(2026, 11, 7)));
    assert_eq!(law.stops_on, Some(date(2027, 1, 14)));
    assert_eq!(
        own.among,
        Among::First(vec!["us-steam.clock.annual".into()])
    );

    let part = world.part(1, "staybolt", &[("other-broken-bolts", "none")]);
    let new = shop::finding::NewFinding {
        id: FindingId(7),
        locomotive: FOURTEEN,
        part,
        occasion: Occasion::WriteUp,
        conditions: vec!["sounds-broken".into()],
        told: "the telltale blows".into(),
        readings: Vec::new(),
        notice: None,
        taking: Default::default(),
    };
    let made = shop::finding::record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    // What it shows starts the law's clock; the other set's clock for the same work runs with it.
    let clocks = due(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    let own = clock(&clocks, "juniper-fork.clock.broken-staybolt");
    assert_eq!(
        (own.stops_on, own.finding),
        (Some(later(TODAY, 11)), Some(1))
    );
    assert_eq!(
        clock(&clocks, "us-steam.clock.broken-staybolt").stops_on,
        Some(later(TODAY, 31))
    );
    assert_eq!(
        own.among,
        Among::First(vec!["us-steam.clock.broken-staybolt".into()])
    );
}

/// A rule under the head of the shop's own example.
pub fn rule_of(kind: &str, id: &str, says: &str) -> String {
    format!(
        "\n[[rule]]\nid = \"{id}\"\ntitle = \"invented\"\nkind = \"{kind}\"\n\n[[rule.version]]\nin_force = 2026-03-01\nuntil = \"open\"\n\
         dates_mark = \"own rule\"\ncite = {{ source = \"order-4\", section = \"9\", edition = \"1\" }}\nmark = \"own rule\"\n\
         reading = \"invented\"\nchecked = {{ on = 2026-03-01, by = \"a test\" }}\n\n[rule.version.says]\n{says}"
    )
}

/// An engine under the invented province alone.
pub fn in_hallow() -> World {
    let mut world = World::new();
    world.adopted(HALLOW, date(2024, 1, 1));
    let new = NewEngine {
        jurisdiction: "invented-hallow".into(),
        ..engine(LocomotiveId(33), "33")
    };
    let made = add_engine(&world.book, world.rules, new);
    world.enter(ADA, date(2024, 1, 1), made);
    world
}

#[test]
fn an_engine_under_another_jurisdiction_alone_knows_nothing_of_the_law_here() {
    let mut world = in_hallow();
    let her = LocomotiveId(33);
    let clocks = due(&world.book, world.rules, her, TODAY).unwrap();
    let asked: Vec<_> = clocks.iter().map(|c| c.inspection.as_str()).collect();
    assert_eq!(asked, ["daily", "washing", "half-yearly", "lift-and-test"]);
    assert!(clocks.iter().all(|c| c.ruling.set == "invented-hallow"));
    // Nothing was ever held: it cannot be told, and is asked for in words of its own.
    assert_eq!(
        clock(&clocks, "invented-hallow.clock.washing").must(),
        "the washing must be held"
    );
    assert!(matches!(
        clock(&clocks, "invented-hallow.clock.half-yearly").state,
        State::CannotTell(_)
    ));
    let held = shop::book::HeldBefore {
        locomotive: her,
        kind: "half-yearly".into(),
        held_on: date(2026, 1, 31),
        service_days_since: None,
        annuals_since: None,
        document: "a form".into(),
    };
    let made = held_before(&world.book, world.rules, held.clone(), TODAY);
    world.enter(ADA, TODAY, made);
    // Six months from 31 January, the last day of a short month: 31 July is the last day in time.
    let clocks = due(&world.book, world.rules, her, TODAY).unwrap();
    assert_eq!(
        clock(&clocks, "invented-hallow.clock.half-yearly").stops_on,
        Some(date(2026, 8, 1))
    );
    // An engine under the law here has no such inspection.
    let wrong = shop::book::HeldBefore {
        locomotive: FOURTEEN,
        ..held
    };
    no(
        held_before(&world.book, world.rules, wrong, TODAY),
        Input,
        &["`half-yearly` is not a kind of inspection"],
    );
    // She is inspected by her own lists, and has a log.
    let kept = &world.book.locomotives[&her];
    let law = Law::of(&world.book, world.rules, kept);
    assert!(law.counts_service_days());
    let items = shop::inspection::items(&law, "washing", TODAY).unwrap();
    assert_eq!(
        items.iter().map(|i| i.rule.as_str()).collect::<Vec<_>>(),
        ["invented-hallow.washing.plugs"]
    );
    let id = shop::book::InspectionId(5);
    no(
        shop::inspection::open(&world.book, world.rules, id, her, "annual", DOT, TODAY),
        Input,
        &[
            "`annual` is not a kind of inspection: daily, washing, half-yearly, lift-and-test were expected",
        ],
    );
    let made = shop::inspection::open(&world.book, world.rules, id, her, "washing", DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world.answer_all(id, TODAY);
    let made = shop::inspection::close(&world.book, id, None, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    let clocks = due(&world.book, world.rules, her, TODAY).unwrap();
    let washed = clock(&clocks, "invented-hallow.clock.washing");
    assert_eq!(
        (washed.anchor.as_ref().unwrap().on, washed.limit),
        (TODAY, 20)
    );
    assert!(
        washed.why.contains("since the washing of 2026-05-02"),
        "{}",
        washed.why
    );
    // Before the set was in the book nobody can say what bound her.
    no(
        due(&world.book, world.rules, her, date(2023, 12, 31)).map(drop),
        Input,
        &["in this book from 2024-01-01 only"],
    );
}

#[test]
fn limits_in_millimetres_are_exact_and_stand_alone() {
    let mut world = in_hallow();
    let part = PartId(9);
    let new = shop::locomotive::NewPart {
        id: part,
        locomotive: LocomotiveId(33),
        family: "crosshead-and-guide".into(),
        name: "right crosshead".into(),
        facts: Default::default(),
        features: Default::default(),
        known: Default::default(),
    };
    let made = shop::locomotive::add_part(&world.book, new);
    world.enter(ADA, TODAY, made);
    let at = |vertical: &str| crosshead(&world, part, vertical, TODAY);
    assert_eq!(at("5.5 mm").verdict, Verdict::Complies);
    let past = at("5.501 mm");
    assert!(fails(&past.verdict)[0].contains("invented-hallow, of another jurisdiction"));
    // 1/4 in, which the law here lets pass, is more than 5.5 mm.
    assert!(matches!(at("1/4 in").verdict, Verdict::Fails(_)));
    assert!(past.lines.iter().all(|l| {
        l.law
            && l.ruling
                .as_ref()
                .is_some_and(|r| r.set == "invented-hallow")
    }));
    // What this jurisdiction does not limit: no limit on file, and nobody can tell.
    let tire = PartId(10);
    let new = shop::locomotive::NewPart {
        id: tire,
        locomotive: LocomotiveId(33),
        family: "driving-tire".into(),
        name: "tire".into(),
        facts: Default::default(),
        features: Default::default(),
        known: Default::default(),
    };
    let made = shop::locomotive::add_part(&world.book, new);
    world.enter(ADA, TODAY, made);
    let none = judged(
        &world,
        tire,
        &found(&[("flange-height", "tread", "1 in")]),
        TODAY,
    );
    assert!(
        matches!(&none.verdict, Verdict::CannotTell(n) if n[0].contains("no limit on file")),
        "{none:?}"
    );
}

#[test]
fn a_declared_inspections_notice_falls_before_its_clock() {
    let mut world = in_hallow();
    let held = shop::book::HeldBefore {
        locomotive: LocomotiveId(33),
        kind: "lift-and-test".into(),
        held_on: date(2018, 6, 30),
        service_days_since: Some((10, date(2026, 5, 1))),
        annuals_since: None,
        document: "a form".into(),
    };
    let made = held_before(&world.book, world.rules, held, TODAY);
    world.enter(ADA, TODAY, made);
    let papers = filings(&world.book, world.rules, TODAY).unwrap();
    let notice = papers
        .iter()
        .find(|p| p.ruling.rule == "invented-hallow.notice.lift-and-test")
        .unwrap();
    // Eight years end on 30 June 2026; three weeks before that is 9 June.
    assert_eq!(
        (notice.by, notice.state),
        (Some(date(2026, 6, 9)), PaperState::Open)
    );
}

#[test]
fn a_file_with_faults_is_not_taken_in_and_says_each() {
    let world = World::new();
    let adopt = |text: &str, from, by| {
        adopt_rules(&world.book, world.rules, "ours.toml", text, from, by, TODAY)
    };
    let bad = OWN
        .replacen("value = \"3/16 in\"", "value = 0.1875", 1)
        .replacen("when = [\"main-pin\"]", "when = [\"sunday\"]", 1);
    let refusal = adopt(&bad, BOUND, ADA).unwrap_err();
    assert_eq!(refusal.class, Input);
    assert_eq!(
        refusal.what,
        "ours.toml has 2 faults; nothing of it was taken in."
    );
    assert!(
        refusal.todo[0].starts_with(
            "ours.toml:37: juniper-fork.crosshead.vertical, version 1: `value` is the decimal"
        ),
        "{:?}",
        refusal.todo
    );
    no(
        adopt(OWN, BOUND, BEN),
        Refused,
        &["take rules into the book"],
    );
    assert!(adopt(OWN, BOUND, ADA).is_ok());
}

#[test]
fn a_newer_text_takes_the_place_of_the_older_from_its_day() {
    let mut world = ours();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let tighter = {
        let closed = OWN.replacen("until = \"open\"", "until = 2026-05-31", 1);
        let second = OWN[OWN.find("[[rule.version]]").unwrap()
            ..OWN.find("[[rule]]\nid = \"juniper-fork.side-rod").unwrap()]
            .replace("in_force = 2026-03-01", "in_force = 2026-06-01")
            .replace("3/16 in", "5/32 in");
        let at = closed
            .find("[[rule]]\nid = \"juniper-fork.side-rod")
            .unwrap();
        format!("{}{second}{}", &closed[..at], &closed[at..])
    };
    let again = |world: &World, text: &str, from| {
        adopt_rules(&world.book, world.rules, "FILE", text, from, ADA, TODAY)
    };
    no(
        again(&world, OWN, date(2026, 6, 1)),
        Input,
        &["This very text of `juniper-fork` is in the book already"],
    );
    no(
        again(&world, &tighter, BOUND),
        Input,
        &["a newer text was expected to hold from a later day"],
    );
    let changed = OWN.replacen("3/16 in", "1/4 in", 1);
    let refusal = again(&world, &changed, date(2026, 6, 1)).unwrap_err();
    assert!(
        refusal.todo[0].contains("it has bound days as it was and is not changed"),
        "{refusal:?}"
    );
    world.adopted(&tighter, date(2026, 6, 1));
    assert_eq!(world.book.rule_sets["juniper-fork"].editions.len(), 2);
    // 3/16 in complies through May and fails from June on; the day of the work chooses.
    assert_eq!(
        crosshead(&world, part, "3/16 in", date(2026, 5, 31)).whole(),
        Verdict::Complies
    );
    let june = crosshead(&world, part, "3/16 in", date(2026, 6, 1));
    assert!(matches!(june.shop, Verdict::Fails(_)));
    assert!(
        june.rulings()
            .iter()
            .any(|r| r.rule == "juniper-fork.crosshead.vertical" && r.version == 2)
    );
}

#[test]
fn what_may_bind_an_engine_and_what_may_not() {
    let mut world = ours();
    let bind = |world: &World, told, by| bind_rules(&world.book, world.rules, told, by, TODAY);
    no(
        bind(&world, told("mars", BOUND, None), ADA),
        Input,
        &["There is no rulebook `mars`: juniper-fork, us-diesel, us-steam are on file"],
    );
    no(
        bind(&world, told("juniper-fork", BOUND, None), BEN),
        Refused,
        &["say which rules bind an engine"],
    );
    no(
        bind(&world, told("juniper-fork", TODAY, Some(BOUND)), ADA),
        Input,
        &["The last day lies before the first"],
    );
    no(
        bind(
            &world,
            RulesBind {
                document: " ".into(),
                ..told("juniper-fork", TODAY, None)
            },
            ADA,
        ),
        Input,
        &["Say which document"],
    );
    // The law she was added under ends only where another jurisdiction takes its place.
    no(
        bind(&world, told("us-steam", TODAY, Some(TODAY)), ADA),
        Refused,
        &["would be under no jurisdiction on 2026-05-03"],
    );
    world.adopted(HALLOW, date(2024, 1, 1));
    world.bound("invented-hallow", later(TODAY, 1), None);
    world.bound("us-steam", TODAY, Some(TODAY));
    let sets = |day| {
        let kept = &world.book.locomotives[&FOURTEEN];
        Law::of(&world.book, world.rules, kept).told_on(day)
    };
    assert_eq!(sets(TODAY), "us-steam, juniper-fork (this shop's own)");
    assert_eq!(
        sets(later(TODAY, 1)),
        "juniper-fork (this shop's own), invented-hallow (of another jurisdiction, as this shop wrote it down)"
    );
    // A shop's own rules are no jurisdiction to add an engine under.
    let new = NewEngine {
        jurisdiction: "juniper-fork".into(),
        ..engine(LocomotiveId(40), "40")
    };
    no(
        add_engine(&world.book, world.rules, new),
        Input,
        &["`juniper-fork` cannot stand alone for an engine"],
    );
    // A set whose name is not in the book stops her rather than letting her go.
    let mut lost = world.clone();
    lost.book.rule_sets.remove("juniper-fork");
    no(
        due(&lost.book, lost.rules, FOURTEEN, TODAY).map(drop),
        Input,
        &["The rule set `juniper-fork` binds No. 14 and is not in this book"],
    );
}

#[test]
fn a_reading_asked_by_hand_meets_every_set_of_the_engine() {
    let mut world = ours();
    world.adopted(HALLOW, BOUND);
    let facts = Default::default();
    let her = &world.book.locomotives[&FOURTEEN];
    let ask = |of: &str, reading: &str, engine| {
        let question = LimitQuestion {
            of,
            jurisdiction: None,
            told: &[],
            facts: &facts,
            reading: Some(reading),
            uncertainty: None,
            engine,
            on: TODAY,
            house: House::Inch,
        };
        check_in(&world.book, world.rules, question).unwrap()
    };
    let both = ask("crosshead-vertical", "7/32 in", Some(her));
    assert_eq!(both.lines.len(), 2);
    assert!(fails(&both.verdict)[0].contains("juniper-fork"));
    assert_eq!(
        ask("crosshead-vertical", "3/16 in", Some(her)).verdict,
        Verdict::Complies
    );
    assert!(matches!(
        ask("juniper-fork.crosshead.vertical", "7/32 in", None).verdict,
        Verdict::Fails(_)
    ));
    // A figure in bar, told with its unit.
    let gauge = ask("invented-hallow.gauge.error", "0.25 bar", None);
    assert!(matches!(gauge.verdict, Verdict::Fails(_)), "{gauge:?}");
    assert_eq!(
        ask("invented-hallow.gauge.error", "0.24 bar", None).verdict,
        Verdict::Complies
    );
}
