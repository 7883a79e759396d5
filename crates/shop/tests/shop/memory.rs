//! The shop's memory: readings that cannot be are questioned, instruments found wrong throw doubt, parts stand in a
//! tree by position. What is asked, and how far a size may stray, is common practice without a source.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, date};
use measure::{Size, State};
use shop::Refusal;
use shop::book::{
    InstrumentAdded, InstrumentChecked, InstrumentId, PartId, PartKnown, PartTold, Side, Statement,
};
use shop::locomotive::{
    Taking, add_instrument, check_instrument, doubted, fit_out, mates, mirror, places, shape, span,
    take_readings, tell_part, tree, worn,
};

use crate::world::{ADA, BEN, DOT, FOURTEEN, TODAY, World, found, reading};

fn take(
    world: &World,
    part: PartId,
    state: State,
    readings: &[(&str, &str, &str)],
    insist: Option<&str>,
) -> Result<Vec<Statement>, Refusal> {
    let readings = readings
        .iter()
        .map(|(f, p, t)| reading(f, p, t, state))
        .collect();
    let taking = Taking {
        on: Some(TODAY),
        insist: insist.map(str::to_string),
        ..Taking::default()
    };
    take_readings(&world.book, part, None, state, readings, &taking)
}

#[test]
fn a_lost_fraction_bar_is_asked_about() {
    let mut world = World::new();
    let part = world.part(0xB1, "rod-bushing", &[]);
    // Whatever the book knows, nothing of ours is 332 inches.
    let no = take(
        &world,
        part,
        State::AsFound,
        &[("side-play", "rod", "332 in")],
        None,
    );
    assert!(no.unwrap_err().to_string().contains("was 3/32 meant?"));
    let made = take(
        &world,
        part,
        State::AsFound,
        &[("side-play", "rod", "3/32 in")],
        None,
    );
    world.enter(BEN, date(2026, 4, 1), made);
    // 14 for 1/4: a whole size of its own, but far from what the book knows, and the fraction is near.
    let no = take(
        &world,
        part,
        State::AsFound,
        &[("side-play", "rod", "14 in")],
        None,
    );
    assert!(no.unwrap_err().to_string().contains("was 1/4 meant?"));
    // A fraction written as one is none.
    let made = take(
        &world,
        part,
        State::AsFound,
        &[("side-play", "rod", "7/64 in")],
        None,
    );
    world.enter(BEN, TODAY, made);
}

#[test]
fn a_bore_smaller_than_its_pin_is_asked_about_and_kept_marked_where_insisted_on() {
    let mut world = World::new();
    let part = world.part(0xB2, "rod-bushing", &[("pin", "main-rod")]);
    let set = [
        ("bore", "inner end", "3.500 in"),
        ("bore", "middle", "3.500 in"),
        ("pin", "inner end", "5.500 in"),
        ("pin", "middle", "5.500 in"),
    ];
    let no = take(&world, part, State::AsFound, &set, None).unwrap_err();
    assert_eq!(no.class, shop::Class::Input);
    assert!(no.to_string().contains("that goes into it"), "{no}");
    // A blank reason insists on nothing.
    assert!(take(&world, part, State::AsFound, &set, Some("  ")).is_err());
    let why = "bushing bored under size, to be opened";
    let made = take(&world, part, State::AsFound, &set, Some(why));
    world.enter(BEN, TODAY, made);
    let kept = world.book.readings.newest_first(part).unwrap();
    let taken = kept[0].taken.as_ref().unwrap();
    assert_eq!(taken.insisted.as_deref(), Some(why));
    assert_eq!(taken.questioned.len(), 4);
    // And against what was read before: the bore alone, smaller than the pin of that day.
    let bore = [("bore", "outer end", "5.4 in")];
    let no = take(&world, part, State::AsFound, &bore, None);
    assert!(no.unwrap_err().to_string().contains("goes into it"));
    // Nothing questioned, nothing marked, whatever was insisted on.
    let pin = [("pin", "outer end", "3.1 in")];
    let made = take(&world, part, State::AsFound, &pin, Some("sure")).unwrap();
    let [Statement::ReadingsTaken(it)] = made.as_slice() else {
        panic!("{made:?}")
    };
    assert_eq!(it.taken, None);
}

#[test]
fn metal_does_not_grow_by_running() {
    let mut world = World::new();
    let part = world.part(0xB3, "driving-tire", &[]);
    let made = take(
        &world,
        part,
        State::AsLeft,
        &[("thickness", "first", "2 in")],
        None,
    );
    world.enter(BEN, date(2025, 4, 1), made);
    let thick = |text| [("thickness", "first", text)];
    let no = take(&world, part, State::AsFound, &thick("2-1/4 in"), None);
    assert!(no.unwrap_err().to_string().contains("metal has grown"));
    // A sixty-fourth more is no more than how finely both were read.
    assert!(take(&world, part, State::AsFound, &thick("2-1/64 in"), None).is_ok());
    assert!(take(&world, part, State::AsFound, &thick("1-63/64 in"), None).is_ok());
    // A decimal that slipped is asked about either way.
    let no = take(&world, part, State::AsFound, &thick(".19 in"), None);
    assert!(no.unwrap_err().to_string().contains("slipped"));
    // A job may put a new piece in.
    let new = found(&[("thickness", "first", "3 in")]);
    let in_job = Some(shop::book::JobId(1));
    let made = take_readings(
        &world.book,
        part,
        in_job,
        State::AsLeft,
        new,
        &Taking::default(),
    );
    assert!(made.is_ok());
    // An old notebook is held against what stood before it, not against what came after.
    let old = Taking {
        on: Some(date(2011, 4, 1)),
        ..Taking::default()
    };
    let was = found(&[("thickness", "first", "3 in")]);
    assert!(take_readings(&world.book, part, None, State::AsFound, was, &old).is_ok());
}

fn checked(world: &mut World, day: Date, good: bool) {
    let made = check_instrument(
        &world.book,
        InstrumentChecked {
            instrument: InstrumentId(1),
            good,
            error: (!good).then(|| "+.002 in at 1 in".into()),
            against: "gauge blocks".into(),
            told: None,
        },
    );
    world.enter(DOT, day, made);
}

#[test]
fn an_instrument_found_wrong_lists_every_reading_since_it_was_last_good() {
    let mut world = World::new();
    let new = |number: &str| InstrumentAdded {
        id: InstrumentId(1),
        number: number.into(),
        what: "outside micrometer".into(),
        range: None,
        shelf: None,
    };
    assert!(add_instrument(&world.book, new("the red one")).is_err());
    let made = add_instrument(&world.book, new("M-1"));
    world.enter(DOT, date(2024, 1, 1), made);
    assert!(add_instrument(&world.book, new("m-1")).is_err());
    let part = world.part(0xB4, "rod-bushing", &[]);
    for (day, with) in [
        (date(2024, 6, 1), "micrometer M-1"),
        (date(2025, 6, 1), "micrometer m-1, 5 to 6 in"),
        (date(2025, 7, 1), "micrometer M-12"),
        (date(2026, 3, 1), "M-1"),
    ] {
        let mut readings = found(&[("pin", "middle", "5.5 in")]);
        readings[0].reading.instrument = Some(with.into());
        let made = take_readings(
            &world.book,
            part,
            None,
            State::AsFound,
            readings,
            &Taking::default(),
        );
        world.enter(BEN, day, made);
    }
    let days = |world: &World| -> Vec<Date> {
        let kept = &world.book.instruments[&InstrumentId(1)];
        let all = doubted(&world.book, kept).into_iter();
        all.map(|(_, set, _)| set.on).collect()
    };
    assert_eq!(days(&world), []);
    checked(&mut world, date(2025, 2, 1), true);
    checked(&mut world, date(2026, 1, 10), false);
    // M-12 is another one; what was read before the good check and after the wrong one stands.
    assert_eq!(days(&world), [date(2025, 6, 1)]);
    // Never found good before: everything up to then.
    let mut never = world;
    never
        .book
        .instruments
        .get_mut(&InstrumentId(1))
        .unwrap()
        .checks
        .remove(0);
    assert_eq!(days(&never), [date(2024, 6, 1), date(2025, 6, 1)]);
    // Found good later takes no doubt away.
    checked(&mut never, date(2026, 4, 1), true);
    assert_eq!(days(&never).len(), 2);
}

#[test]
fn a_wheel_arrangement_has_its_positions_and_no_sizes() {
    let names = |wheels, main| -> Vec<_> {
        let places = places(wheels, main).unwrap().into_iter();
        places.map(|place| place.name).collect::<Vec<_>>()
    };
    let all = names("2-8-0", None);
    let distinct: BTreeSet<_> = all.iter().collect();
    assert_eq!(distinct.len(), all.len());
    let holds = |what: &str| all.iter().filter(|name| name.contains(what)).count();
    // Four coupled axles with a tire, a journal and a pin a side; one leading; no trailing.
    assert_eq!(holds("driving tire"), 8);
    assert_eq!(holds("driving journal"), 8);
    assert_eq!(holds("side-rod bushing"), 8);
    assert_eq!(holds("driving wheelset"), 4);
    assert_eq!(holds("leading truck"), 1);
    assert_eq!(holds("trailing truck"), 0);
    assert_eq!(holds("safety valve"), 2);
    assert_eq!(
        names("4-6-2", None)
            .iter()
            .filter(|n| n.contains("trailing"))
            .count(),
        1
    );
    for (wheels, main) in [
        ("2-6-6-2", None),
        ("B-B", None),
        ("2-7-0", None),
        ("", None),
        ("2-8-0", Some(5)),
    ] {
        assert!(places(wheels, main).is_err(), "{wheels}");
    }
    // Which pin it is hangs on the main axle: where nobody says, nothing is said.
    let pins = |main| {
        let places = places("2-8-0", main).unwrap().into_iter();
        let rods = places.filter(|place| place.name.contains("side-rod"));
        rods.filter_map(|place| place.facts.get("pin").cloned())
            .collect::<Vec<_>>()
    };
    assert!(pins(None).is_empty());
    let told = pins(Some(3));
    assert_eq!(told.iter().filter(|pin| *pin == "side-main-pin").count(), 2);
    assert_eq!(told.len(), 8);
}

#[test]
fn an_engine_fitted_out_is_a_tree_and_what_she_has_stays() {
    let mut world = World::new();
    let made = fit_out(&world.book, FOURTEEN, Some(3), PartId(0x1000));
    let count = made.as_ref().unwrap().len();
    for statement in made.as_ref().unwrap() {
        let Statement::PartAdded(it) = statement else {
            panic!()
        };
        assert!(it.features.is_empty(), "{}", it.name);
        let known = it.known.as_ref().unwrap();
        assert!(known.fitted.is_none() && known.material.is_none());
    }
    world.enter(ADA, TODAY, made);
    let placed = tree(&world.book, FOURTEEN);
    assert_eq!(placed.len(), count);
    let of = |name: &str| placed.iter().position(|p| p.part.name == name).unwrap();
    let (set, tire) = (of("driving wheelset 2"), of("left driving tire, axle 2"));
    assert!(set < tire && placed[tire].depth == 1);
    let id = placed[tire].id;
    let (_, other) = mirror(&world.book, id).unwrap();
    assert_eq!(other.name, "right driving tire, axle 2");
    let guide = placed[of("left crosshead and guides")].id;
    assert_eq!(
        mates(&world.book, guide)[0].1.name,
        "left main-rod bushing and pin"
    );
    let again = fit_out(&world.book, FOURTEEN, Some(3), PartId(0x2000));
    assert!(again.is_err());
}

#[test]
fn more_can_be_told_of_a_part_and_what_cannot_be_is_refused() {
    let mut world = World::new();
    let (one, two) = (
        world.part(0xC1, "wheelset", &[]),
        world.part(0xC2, "driving-tire", &[]),
    );
    let tell = |part, known| PartTold {
        part,
        known,
        facts: BTreeMap::new(),
        features: BTreeMap::new(),
        document: None,
    };
    let known = |within, fitted: &str, removed: Option<&str>| PartKnown {
        within,
        side: Some(Side::Left),
        fitted: Some(fitted.into()),
        removed: removed.map(str::to_string),
        ..PartKnown::default()
    };
    let made = tell_part(
        &world.book,
        tell(two, known(Some(one), "1998-04", Some("2001"))),
        TODAY,
    );
    world.enter(ADA, TODAY, made);
    assert_eq!(
        world.book.parts[&two].known.removed.as_deref(),
        Some("2001")
    );
    for wrong in [
        known(Some(two), "1998", None),
        known(None, "2031", None),
        known(None, "April", None),
        known(None, "2001-05", Some("2001-04")),
        PartKnown::default(),
    ] {
        assert!(
            tell_part(&world.book, tell(two, wrong.clone()), TODAY).is_err(),
            "{wrong:?}"
        );
    }
    // A tree has no circles.
    assert!(
        tell_part(
            &world.book,
            tell(one, known(Some(two), "1998", None)),
            TODAY
        )
        .is_err()
    );
    // Fitted again, it is off no more; what was not told stays.
    let made = tell_part(
        &world.book,
        tell(two, known(None, "2020-06-01", None)),
        TODAY,
    );
    world.enter(ADA, TODAY, made);
    let kept = &world.book.parts[&two].known;
    assert_eq!((kept.removed.as_deref(), kept.within), (None, Some(one)));
    assert_eq!(world.book.parts[&two].said.len(), 2);
    assert_eq!(
        span("2001", TODAY).unwrap(),
        (date(2001, 1, 1), date(2001, 12, 31))
    );
    assert_eq!(span("2000-02", TODAY).unwrap().1, date(2000, 2, 29));
}

#[test]
fn ovality_and_taper_are_differences_of_what_was_read() {
    let mut world = World::new();
    let part = world.part(0xC3, "driving-journal", &[]);
    let set = [
        ("journal", "inner vertical", "7.990 in"),
        ("journal", "inner level", "7.996 in"),
        ("journal", "outer vertical", "7.981 in"),
        ("journal", "outer level", "7.995 in"),
    ];
    let made = take(&world, part, State::AsLeft, &set, None);
    world.enter(BEN, date(2025, 1, 1), made);
    let family = world.book.families["driving-journal"].family().unwrap();
    let journal = family.feature("journal").unwrap();
    let sets = world.book.readings.newest_first(part).unwrap();
    let shape = shape(journal, sets[0]).unwrap();
    let size = |text: &str| Size::parse(text).unwrap();
    assert_eq!(shape.ovality, Some((size(".014 in"), "outer".into())));
    assert_eq!(shape.taper, Some((size(".009 in"), "vertical".into())));
    // A place not read: no governing size, and so nothing that wear took.
    assert!(worn(journal, &sets).is_empty());
}
