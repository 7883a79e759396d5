//! A thread turned into the settings of a lathe, held against published threads, a published dial, and wheels reckoned
//! by hand. The lathes are invented.

use measure::{House, Size};
use physics::{Given, Sheet};
use shop::book::{DialReads, LatheKnown, ThreadDial};
use shop::lathe::{HalfNuts, Missing, Settings, Swing, Wheels, settings};

fn thread(given: &[(&str, &str)]) -> Sheet {
    let given: Vec<Given> = given.iter().map(|it| Given::typed(it.0, it.1)).collect();
    physics::run("thread.cutting", &given, House::Inch).unwrap()
}

fn outside(form: &str, tpi: &str, more: &[(&str, &str)]) -> Sheet {
    let given = [
        ("form", form),
        ("tpi", tpi),
        ("diameter", "1 in"),
        ("side", "external"),
        ("material", "steel"),
    ];
    thread(&[&given[..], more].concat())
}

fn size(text: &str) -> Option<Size> {
    Some(Size::parse(text).unwrap())
}

/// Everything is known of this one.
fn lathe() -> LatheKnown {
    LatheKnown {
        leadscrew: Some("6 TPI".into()),
        wheels: Some(vec![24, 36, 40, 48, 60, 72]),
        stud: Some(15),
        span: None,
        spindle_ratio: Some("1".into()),
        thread_dial: Some(ThreadDial::Wheel {
            teeth: 24,
            lines: 8,
        }),
        speeds: Some(vec![30, 55, 90, 140]),
        cross_reads: Some(DialReads::Diameter),
        cross_graduation: size(".001 in"),
        compound_graduation: size(".001 in"),
        swing_bed: size("16 in"),
        swing_slide: size("9 in"),
        centers: None,
    }
}

fn set(known: &LatheKnown, sheet: &Sheet) -> Settings {
    settings(known, sheet).unwrap()
}

fn near(found: f64, published: f64, within: f64) {
    assert!((found - published).abs() <= within, "{found}, {published}");
}

/// 6/10 of a screw of 6 is 36/60; 6/9 is 24/36, 40/60 or 48/72; each by hand.
#[test]
fn the_wheels_cut_the_pitch() {
    let exact = |tpi: &str| match set(&lathe(), &outside("unified", tpi, &[])).wheels.unwrap() {
        Wheels::Train {
            best,
            exact,
            stud_known,
            span_known,
        } => {
            assert!(stud_known && !span_known);
            (best, exact)
        }
        Wheels::None(why) => panic!("{why}"),
    };
    let (best, is_exact) = exact("10");
    assert!(
        is_exact
            && ["36/60", "24/40"]
                .iter()
                .any(|train| best.starts_with(train)),
        "{best}"
    );
    let (best, is_exact) = exact("9");
    let by_hand = ["24/36", "40/60", "48/72"];
    assert!(
        is_exact && by_hand.iter().any(|train| best.starts_with(train)),
        "{best}"
    );
    // 13 is a prime number, and no wheel here is a multiple of it.
    let (best, is_exact) = exact("13");
    assert!(!is_exact && best.contains("ppm"), "{best}");
    // A first driver that turns half as fast wants twice the ratio: 6/12 is then 1, of two wheels alike.
    let slow = LatheKnown {
        spindle_ratio: Some("1/2".into()),
        wheels: Some(vec![48, 48]),
        ..lathe()
    };
    let told = set(&slow, &outside("unified", "12", &[])).wheels.unwrap();
    assert!(matches!(told, Wheels::Train { best, exact: true, .. } if best.starts_with("48/48")));
    // Two starts of 12 are a lead of 6.
    let two = outside("unified", "12", &[("starts", "2")]);
    let lead = LatheKnown {
        wheels: Some(vec![48, 48]),
        ..lathe()
    };
    let told = set(&lead, &two).wheels.unwrap();
    assert!(matches!(told, Wheels::Train { best, exact: true, .. } if best.starts_with("48/48")));
}

/// F. D. Jones, Turning and Boring, pages 75 and 76 (read in a copy at bitlit.ru): a dial of 24 teeth and 8 lines on a
/// screw of 6 threads; even numbers at any line, odd ones at four, multiples of six at any time.
#[test]
fn the_half_nuts_are_closed_where_the_book_says() {
    for (tpi, says, lines) in [
        ("10", "at any line", 8),
        ("9", "at the line begun on", 4),
        ("18", "anywhere", 8),
    ] {
        match set(&lathe(), &outside("unified", tpi, &[]))
            .half_nuts
            .unwrap()
        {
            HalfNuts::Dial {
                engage,
                usable,
                train_known,
            } => {
                assert!(engage.starts_with(says), "{tpi}: {engage}");
                assert_eq!((usable, train_known), (lines, true), "{tpi}");
            }
            other => panic!("{other:?}"),
        }
    }
    // No train of these is exact for 13, so that no line comes round right.
    let thirteen = outside("unified", "13", &[]);
    assert_eq!(set(&lathe(), &thirteen).half_nuts, Ok(HalfNuts::NotExact));
    let none = LatheKnown {
        thread_dial: Some(ThreadDial::None),
        ..lathe()
    };
    assert_eq!(set(&none, &thirteen).half_nuts, Ok(HalfNuts::NoDial));
}

/// finelinehair.com, threading depth table: 8 threads at 29 degrees travel .0928 in. Machinery's Handbook, 27th edition,
/// page 1828: an Acme thread of 5 is .1100 in deep.
#[test]
fn the_infeed_is_told_in_graduations() {
    let eight = outside("unified", "8", &[("infeed_angle", "29 deg")]);
    let told = set(&lathe(), &eight).compound.unwrap().unwrap();
    near(told.full(), 92.8, 0.051);
    assert!(told.passes.is_sorted() && told.passes.len() > 1);
    let acme = outside("acme", "5", &[]);
    let (by_diameter, reads) = set(&lathe(), &acme).cross.unwrap();
    assert_eq!(reads, DialReads::Diameter);
    near(by_diameter.full(), 220.0, 1e-6);
    let radius = LatheKnown {
        cross_reads: Some(DialReads::Radius),
        cross_graduation: size(".002 in"),
        ..lathe()
    };
    let (by_radius, _) = set(&radius, &acme).cross.unwrap();
    near(by_radius.full(), 55.0, 1e-6);
    // A square thread is fed straight in: the compound has no part in it.
    assert!(
        set(&lathe(), &outside("square", "4", &[]))
            .compound
            .is_none()
    );
}

/// By hand: 33 ft/min on 1 in is 12 x 33 / pi = 126 turns; out of 1/8 in of run-out of 8 threads in half a second, 120.
#[test]
fn the_spindle_is_set_at_or_below_the_sheet() {
    let told = set(&lathe(), &outside("unified", "8", &[])).speed.unwrap();
    assert_eq!(
        (told.most, told.set, told.by_runout),
        (126, Some(90), false)
    );
    let out = [("runout", ".125 in"), ("reaction_time", ".5")];
    let told = set(&lathe(), &outside("unified", "8", &out)).speed.unwrap();
    assert_eq!((told.most, told.set, told.by_runout), (120, Some(90), true));
    let fast = LatheKnown {
        speeds: Some(vec![200, 400]),
        ..lathe()
    };
    let told = set(&fast, &outside("unified", "8", &out)).speed.unwrap();
    assert_eq!((told.set, told.slowest), (None, 200));
    let even = LatheKnown {
        speeds: Some(vec![120, 121]),
        ..lathe()
    };
    assert_eq!(
        set(&even, &outside("unified", "8", &out))
            .speed
            .unwrap()
            .set,
        Some(120)
    );
}

#[test]
fn the_work_swings_or_it_does_not() {
    let one = size("1 in").unwrap();
    let swings = |swing: &str| {
        let known = LatheKnown {
            swing_slide: size(swing),
            ..lathe()
        };
        set(&known, &outside("unified", "8", &[])).swing
    };
    assert_eq!(swings("9 in"), Swing::Clears(one, size("9 in").unwrap()));
    // What is as large as the swing rubs.
    assert_eq!(swings("1 in"), Swing::Fouls(one, one));
    let inside = [
        ("form", "unified"),
        ("tpi", "8"),
        ("diameter", "1 in"),
        ("side", "internal"),
        ("material", "steel"),
    ];
    assert_eq!(set(&lathe(), &thread(&inside)).swing, Swing::Outside);
}

/// Each setting names what it wants, and a fact taken away never makes one appear.
#[test]
fn what_is_not_known_is_said_and_never_taken_for_granted() {
    let sheet = outside("unified", "8", &[]);
    let bare = set(&LatheKnown::default(), &sheet);
    assert_eq!(
        bare.wheels,
        Err(vec![
            Missing::Leadscrew,
            Missing::Wheels,
            Missing::SpindleRatio
        ])
    );
    assert_eq!(bare.half_nuts, Err(vec![Missing::ThreadDial]));
    assert_eq!(bare.compound, Some(Err(vec![Missing::CompoundGraduation])));
    assert_eq!(
        bare.cross,
        Err(vec![Missing::CrossReads, Missing::CrossGraduation])
    );
    assert_eq!(bare.speed, Err(vec![Missing::Speeds]));
    assert_eq!(bare.swing, Swing::NotKnown);
    let no_ratio = LatheKnown {
        spindle_ratio: None,
        ..lathe()
    };
    let told = set(&no_ratio, &sheet);
    assert_eq!(told.wheels, Err(vec![Missing::SpindleRatio]));
    assert!(matches!(
        told.half_nuts,
        Ok(HalfNuts::Dial {
            train_known: false,
            ..
        })
    ));
}

#[test]
fn another_sheet_has_no_settings() {
    let given = [
        Given::typed("leadscrew", "6 TPI"),
        Given::typed("wanted", "10 TPI"),
        Given::typed("wheel", "24"),
        Given::typed("lines", "8"),
    ];
    let dial = physics::run("lathe.thread_dial", &given, House::Inch).unwrap();
    let why = settings(&lathe(), &dial).unwrap_err().to_string();
    assert!(why.contains("thread.cutting"), "{why}");
}
