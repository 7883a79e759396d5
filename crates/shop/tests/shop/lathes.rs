//! Lathes: what is stated of one is kept, what is not stays unknown, and what no lathe can be is refused.

use measure::Size;
use shop::book::{
    LatheAdded, LatheId, LatheKnown, LatheTaper, LatheTold, Statement, SwivelZero, ThreadDial,
};
use shop::locomotive::{add_lathe, lathe, tell_lathe};

use crate::world::{ADA, TODAY, World};

const SIXTEEN: LatheId = LatheId(9);

fn added(known: LatheKnown) -> LatheAdded {
    LatheAdded {
        id: SIXTEEN,
        name: " the sixteen-inch ".into(),
        known,
        taper: None,
    }
}

#[test]
fn what_is_told_is_kept_and_what_is_not_stays_unknown() {
    let mut world = World::new();
    let known = LatheKnown {
        leadscrew: Some(" 4 TPI ".into()),
        wheels: Some(vec![48, 24, 24]),
        ..LatheKnown::default()
    };
    let stated = add_lathe(&world.book, added(known));
    world.enter(ADA, TODAY, stated);
    let dial = LatheKnown {
        thread_dial: Some(ThreadDial::None),
        speeds: Some(vec![90, 30, 30]),
        ..LatheKnown::default()
    };
    let told = LatheTold {
        lathe: SIXTEEN,
        known: dial,
        taper: None,
    };
    let stated = tell_lathe(&world.book, told);
    world.enter(ADA, TODAY, stated);
    for number in ["LA-001", "la-1", "LA1"] {
        let (id, kept) = lathe(&world.book, number).unwrap();
        assert_eq!((id, kept.name.as_str()), (SIXTEEN, "the sixteen-inch"));
        let known = LatheKnown {
            leadscrew: Some("4 TPI".into()),
            wheels: Some(vec![24, 24, 48]),
            thread_dial: Some(ThreadDial::None),
            speeds: Some(vec![30, 90]),
            ..LatheKnown::default()
        };
        assert_eq!(kept.known, known);
    }
    // A letter's number is no lathe's, nor the other way about.
    assert!(lathe(&world.book, "L-001").is_err());
    assert!(shop::locomotive::letter(&world.book, "LA-001").is_err());
}

#[test]
fn what_no_lathe_can_be_is_refused() {
    let mut world = World::new();
    let none = LatheKnown::default;
    let wrong = [
        (
            "leadscrew",
            LatheKnown {
                leadscrew: Some("4".into()),
                ..none()
            },
        ),
        (
            "leadscrew",
            LatheKnown {
                leadscrew: Some("coarse".into()),
                ..none()
            },
        ),
        (
            "first driver",
            LatheKnown {
                spindle_ratio: Some("0".into()),
                ..none()
            },
        ),
        (
            "first driver",
            LatheKnown {
                spindle_ratio: Some("one".into()),
                ..none()
            },
        ),
        (
            "change wheels",
            LatheKnown {
                wheels: Some(vec![24, 9]),
                ..none()
            },
        ),
        (
            "change wheels",
            LatheKnown {
                wheels: Some(Vec::new()),
                ..none()
            },
        ),
        (
            "turns a minute",
            LatheKnown {
                speeds: Some(vec![0]),
                ..none()
            },
        ),
        (
            "at a stud",
            LatheKnown {
                stud: Some(0),
                ..none()
            },
        ),
        (
            "arm spans",
            LatheKnown {
                span: Some(2000),
                ..none()
            },
        ),
        (
            "worm wheel",
            LatheKnown {
                thread_dial: Some(ThreadDial::Wheel { teeth: 2, lines: 8 }),
                ..none()
            },
        ),
        (
            "lines",
            LatheKnown {
                thread_dial: Some(ThreadDial::Wheel {
                    teeth: 16,
                    lines: 0,
                }),
                ..none()
            },
        ),
        (
            "above nothing",
            LatheKnown {
                swing_bed: Some(Size::from_ticks(0)),
                ..none()
            },
        ),
    ];
    for (says, known) in wrong {
        let why = add_lathe(&world.book, added(known))
            .unwrap_err()
            .to_string();
        assert!(why.contains(says), "{says}: {why}");
    }
    let nameless = LatheAdded {
        name: " ".into(),
        ..added(none())
    };
    assert!(add_lathe(&world.book, nameless).is_err());
    let stated = add_lathe(&world.book, added(none())).unwrap();
    assert!(matches!(stated.as_slice(), [Statement::LatheAdded(_)]));
    world.enter(ADA, TODAY, Ok(stated));
    let twice = add_lathe(&world.book, added(none()))
        .unwrap_err()
        .to_string();
    assert!(twice.contains("LA-001"), "{twice}");
    let nothing = LatheTold {
        lathe: SIXTEEN,
        known: none(),
        taper: None,
    };
    assert!(tell_lathe(&world.book, nothing).is_err());
    let nobody = LatheTold {
        lathe: LatheId(1),
        known: LatheKnown {
            stud: Some(15),
            ..none()
        },
        taper: None,
    };
    assert!(tell_lathe(&world.book, nobody).is_err());
}

#[test]
fn what_is_told_of_tapers_is_kept_bit_by_bit() {
    let mut world = World::new();
    let stated = add_lathe(&world.book, added(LatheKnown::default()));
    world.enter(ADA, TODAY, stated);
    let tell = |world: &World, taper: LatheTaper| {
        let told = LatheTold {
            lathe: SIXTEEN,
            known: LatheKnown::default(),
            taper: Some(taper),
        };
        tell_lathe(&world.book, told)
    };
    let swivel = LatheTaper {
        swivel_graduation: Some(" 1 deg ".into()),
        swivel_zero: Some(SwivelZero::Bed),
        set_over: None,
    };
    let stated = tell(&world, swivel);
    world.enter(ADA, TODAY, stated);
    let over = LatheTaper {
        set_over: Some(Size::from_ticks(8_890_000)),
        ..LatheTaper::default()
    };
    let stated = tell(&world, over);
    world.enter(ADA, TODAY, stated);
    let (_, kept) = lathe(&world.book, "LA-1").unwrap();
    let all = LatheTaper {
        swivel_graduation: Some("1 deg".into()),
        swivel_zero: Some(SwivelZero::Bed),
        set_over: Some(Size::from_ticks(8_890_000)),
    };
    assert_eq!(kept.taper, all);
    let wrong = |graduation: &str| LatheTaper {
        swivel_graduation: Some(graduation.into()),
        ..LatheTaper::default()
    };
    for graduation in ["1", "coarse", "0 deg", "20 deg"] {
        assert!(tell(&world, wrong(graduation)).is_err(), "{graduation}");
    }
    assert!(
        tell(&world, LatheTaper::default()).is_err(),
        "nothing is told"
    );
}
