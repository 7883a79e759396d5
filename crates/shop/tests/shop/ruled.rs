//! Figures of law in worked sheets: which rule each comes from, a hair to either side of it, and what is left out where the
//! rulebook has nothing.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use measure::{Fraction, House, Length, Stress};
use physics::{Basis, Given, Shown};
use rules::{Body, LimitValue, Rulebook};
use shop::book::Book;
use shop::locomotive::engine;
use shop::ruled::{Filled, Question, figures_of, fill, table};

use crate::world::{TODAY, World, words};

fn given(pairs: &[(&str, &str)]) -> Vec<Given> {
    pairs
        .iter()
        .map(|(name, text)| Given::typed(name, text))
        .collect()
}

/// A sheet filled by a rulebook, of no engine.
fn by(rules: &str, sheet: &str, pairs: &[(&str, &str)]) -> Filled {
    let question = Question {
        sheet,
        given: &given(pairs),
        rules: Some(rules),
        engine: None,
        told: &["steel-plate".to_string()],
        facts: &words(&[("rivet", "steel")]),
        on: TODAY,
        house: House::Inch,
    };
    fill(&Book::default(), Rulebook::built_in().unwrap(), question).unwrap()
}

fn us_steam(sheet: &str, pairs: &[(&str, &str)]) -> Filled {
    by("us-steam", sheet, pairs)
}

/// A result of the sheet once the law's figures are in it.
fn told(sheet: &str, pairs: &[(&str, &str)], result: &str) -> String {
    result_of(sheet, &us_steam(sheet, pairs).given, result)
}

fn result_of(sheet: &str, given: &[Given], result: &str) -> String {
    let sheet = physics::run(sheet, given, House::Inch).unwrap();
    match sheet.result(result) {
        Some(Shown::Text(text)) => text.clone(),
        Some(Shown::Quantity { shown, unit, .. }) => format!("{shown} {unit}").trim().to_string(),
        other => panic!("{other:?}"),
    }
}

/// What an argument was given as, and by which rule.
fn figure(filled: &Filled, argument: &str) -> (String, String) {
    let one = filled.given.iter().find(|one| one.name == argument);
    match one.map(|one| (&one.text, &one.basis)) {
        Some((text, Basis::Ruling { rule, version })) => {
            (text.clone(), format!("{rule} {version}"))
        }
        other => panic!("{argument}: {other:?}, {:?}", filled.notices),
    }
}

const GENERAL: [(&str, &str); 9] = [
    ("spread", "60 in"),
    ("axle_load", "36500 lb"),
    ("center_diameter", "56 in"),
    ("center", "56 in"),
    ("original", "8 in"),
    ("altitude", "500 ft"),
    ("compressor", "westinghouse-11"),
    ("mawp", "180 psig"),
    ("required", "0.6 in"),
];

/// Every row of the table finds its figure in the rulebook of this program, and its sheet reads it.
#[test]
fn every_row_names_a_sheet_an_argument_and_a_limit_on_file() {
    for row in table() {
        let card = physics::find(row.sheet).unwrap().card;
        let argument = card.argument(row.argument).unwrap();
        for (name, word) in row.only {
            assert!(
                card.argument(name).unwrap().choices().contains(word),
                "{row:?}"
            );
        }
        let mut pairs: Vec<_> = GENERAL
            .into_iter()
            .filter(|(name, _)| card.argument(name).is_some())
            .filter(|(name, _)| row.only.iter().all(|(only, _)| only != name))
            .collect();
        pairs.extend(row.only);
        let filled = us_steam(row.sheet, &pairs);
        let (text, rule) = figure(&filled, row.argument);
        assert!(
            rule.starts_with("us-steam.") && rule.contains("230."),
            "{row:?}: {rule}"
        );
        let read = measure::entered(&text, argument.dimension().unwrap(), House::Inch).unwrap();
        let physics::card::Kind::Quantity(dimension, range) = argument.kind else {
            panic!("{row:?} is no quantity");
        };
        let (least, most) = physics::given::bounds(card, dimension, range).unwrap();
        assert!((least..=most).contains(&read.si), "{row:?}: {text}");
    }
}

/// 49 CFR 230.96(f) and (g), 230.94: a tick of 2.5 nm past each figure fails.
#[test]
fn a_hair_past_the_law_fails_and_the_figure_itself_passes() {
    for (pair, at, past, section) in [
        ("main-pin", "6.09375 in", "6.0937525 in", "230.96(f)"),
        ("wrist-pin", "6.09375 in", "6.0937525 in", "230.96(f)"),
        ("side-main-pin", "6.15625 in", "6.1562525 in", "230.96(g)"),
        ("side-other-pin", "6.1875 in", "6.1875025 in", "230.96(g)"),
    ] {
        let pairs = |bore| [("pair", pair), ("bore", bore), ("pin", "6 in")];
        let word = |bore| told("running.clearance", &pairs(bore), "complies");
        assert_eq!(word(at), "complies", "{pair}");
        assert_eq!(word(past), "fails: clearance", "{pair}");
        let (_, rule) = figure(&us_steam("running.clearance", &pairs(at)), "limit");
        assert!(rule.contains(section), "{rule}");
    }
}

/// The basis that stands on the page names rule, version and section.
#[test]
fn the_page_says_which_rule_a_figure_is_of() {
    let pairs = [("pair", "main-pin"), ("bore", "6.05 in"), ("pin", "6 in")];
    let filled = us_steam("running.clearance", &pairs);
    let page = physics::run("running.clearance", &filled.given, House::Inch)
        .unwrap()
        .to_text();
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        page.contains("3/32 in = 0.09375 in (ruling: us-steam.rod.main.bore-over-pin, version 1, 230.96(f) (2015 and 2023))"),
        "{page}"
    );
    assert_eq!(
        filled.used,
        [("us-steam.rod.main.bore-over-pin".to_string(), 1)]
    );
}

/// 49 CFR 230.72: the same reading, and the wall of the law's own formula to the tick.
#[test]
fn the_same_reservoir_reading_passes_without_and_fails_with_a_lap_seam() {
    let rules = Rulebook::built_in().unwrap();
    for (seam, circumstance, word) in [
        ("none", "welded-reservoir", "complies"),
        ("lap", "lap-seam-reservoir", "fails: wall"),
    ] {
        for (strength, stress) in [("known", 11_000), ("unknown", 10_000)] {
            let pairs = [
                ("pressure", "140 psig"),
                ("radius", "12 in"),
                ("seam", seam),
                ("strength", strength),
                ("tensile", "55000 psi"),
                ("wall", "0.2 in"),
            ];
            assert_eq!(told("air.reservoir", &pairs, "complies"), word);
            // The rule's own formula, in exact fractions.
            let asked = rules
                .limits("us-steam", "reservoir-wall", &[circumstance], TODAY)
                .unwrap();
            let Body::LimitFormula(formula) = &asked.rulings[0].body else {
                panic!("not a formula");
            };
            let whole = Fraction::from_integer;
            let facts = [
                ("working_pressure", whole(140)),
                ("radius", whole(12)),
                ("stress", whole(stress)),
            ];
            let LimitValue::Size(law) = formula.limit_for(&facts).unwrap().value else {
                panic!("not a size");
            };
            let ours = physics::law::air_reservoir::wall(
                Stress::psi(140.0).to_pascals(),
                Length::inches(12.0),
                Stress::psi(stress as f64).to_pascals(),
                if seam == "lap" { 0.5 } else { 1.0 },
            );
            let apart = ours.unwrap().to_m() - law.length().to_m();
            assert!(apart.abs() < 2.5e-9, "{seam} {strength}: {apart}");
        }
    }
}

/// Nothing is said of a reservoir before its seam, whatever the rulebook has.
#[test]
fn the_seam_is_still_asked() {
    let pairs = [
        ("pressure", "140 psig"),
        ("radius", "12 in"),
        ("strength", "unknown"),
    ];
    let filled = us_steam("air.reservoir", &pairs);
    let said = physics::run("air.reservoir", &filled.given, House::Inch)
        .unwrap_err()
        .to_string();
    assert!(said.contains("needs seam"), "{said}");
}

#[test]
fn where_the_rulebook_has_nothing_it_says_so() {
    let pairs = [
        ("pair", "knuckle-pin"),
        ("bore", "2.02 in"),
        ("pin", "2 in"),
    ];
    let filled = us_steam("running.clearance", &pairs);
    assert_eq!(
        filled.notices,
        ["no limit on file in us-steam for pair knuckle-pin."]
    );
    assert_eq!(
        result_of("running.clearance", &filled.given, "complies"),
        "cannot tell: needs limit"
    );
    let main = [("pair", "main-pin"), ("bore", "6.02 in"), ("pin", "6 in")];
    let filled = by("us-diesel", "running.clearance", &main);
    assert_eq!(filled.notices, ["limit: no limit on file in us-diesel."]);
    let coupler = [
        ("place", "coupler"),
        ("readings", "33 in"),
        ("figures", "both"),
    ];
    let filled = us_steam("running.heights", &coupler);
    assert_eq!(
        filled.notices,
        ["no limit on file in us-steam for place coupler."]
    );
}

/// 49 CFR 230.98(a)(7): three quarters of an inch only where the journal was over 6 in when new.
#[test]
fn a_driving_axle_goes_by_what_its_journal_was() {
    let limit = |position, original| {
        let pairs = [
            ("position", position),
            ("original", original),
            ("present", "5.9 in"),
        ];
        figure(&us_steam("running.axle", &pairs), "limit").0
    };
    assert_eq!(limit("other-driver", "6 in"), "1/2 in");
    assert_eq!(limit("other-driver", "6.0001 in"), "3/4 in");
    assert_eq!(limit("main-driver", "9 in"), "1/2 in");
    assert_eq!(limit("engine-truck", "9 in"), "1/2 in");
}

/// 49 CFR 230.112(d): cells of the table and the edges of its bands.
#[test]
fn tires_go_by_load_and_center() {
    let least = |load, center| {
        let pairs = [("axle_load", load), ("center_diameter", center)];
        figure(&us_steam("running.tire_limit", &pairs), "least_thickness").0
    };
    assert_eq!(least("30000 lb", "44 in"), "1 1/4 in");
    assert_eq!(least("30001 lb", "44.01 in"), "1 3/8 in");
    assert_eq!(least("36500 lb", "56 in"), "1 1/2 in");
    assert_eq!(least("60000 lb", "80 in"), "2 in");
}

/// Wheel centers to either side of a band's edge have no figure in common, and none is picked.
#[test]
fn a_set_of_tires_stands_under_one_figure_or_under_none() {
    let pairs = |center| {
        [
            ("axle_load", "36500 lb"),
            ("center", center),
            ("thickness", "2 in, 2 in"),
            ("state", "running"),
            ("clean_up", "1/16 in"),
        ]
    };
    let one = us_steam("running.tire_set", &pairs("55.9 in, 56 in"));
    assert_eq!(figure(&one, "least_thickness").0, "1 1/2 in");
    assert_eq!(figure(&one, "hollow_limit").0, "5/16 in");
    assert_eq!(figure(&one, "least_flange").0, "15/16 in");
    assert!(one.given.iter().all(|one| one.name != "set_difference"));
    let two = us_steam("running.tire_set", &pairs("56 in, 56.1 in"));
    assert!(two.given.iter().all(|one| one.name != "least_thickness"));
    assert!(
        two.notices.iter().any(|n| n.contains("work them apart")),
        "{:?}",
        two.notices
    );
}

/// 49 CFR 230.71(b)(1): 100 strokes to 1,000 ft, five more for each 1,000 ft above it.
#[test]
fn strokes_rise_with_the_place() {
    let most = |altitude| {
        let pairs = [("compressor", "westinghouse-11"), ("altitude", altitude)];
        figure(&us_steam("air.orifice", &pairs), "most_strokes").0
    };
    assert_eq!(most("1000 ft"), "100");
    assert_eq!(most("5000 ft"), "120");
    let unlisted = us_steam(
        "air.orifice",
        &[("compressor", "unlisted"), ("altitude", "5000 ft")],
    );
    assert_eq!(figure(&unlisted, "least_share").0, "80%");
    assert!(unlisted.given.iter().all(|one| one.name != "most_strokes"));
    // The compressors that the sheet knows are those of the law's table, and the others.
    let rules = Rulebook::built_in().unwrap();
    let Body::LimitTable(table) = rules
        .ruling("us-steam.compressor.speed", TODAY)
        .unwrap()
        .body
    else {
        panic!("not a table");
    };
    let rules::Bands::Words(names) = table.rows.bands else {
        panic!("not words");
    };
    let (unlisted, listed) = physics::law::air_orifice::COMPRESSORS.split_last().unwrap();
    assert_eq!(
        (*unlisted, listed),
        (
            "unlisted",
            names
                .iter()
                .map(String::as_str)
                .collect::<Vec<_>>()
                .as_slice()
        )
    );
}

/// 49 CFR 230.112(b): 36 in less 3 1/2 and less 3 1/8.
#[test]
fn a_narrow_gauge_has_its_own_figures() {
    let word = |inside| {
        let pairs = [
            ("gauge", "narrow"),
            ("track_gauge", "36 in"),
            ("inside", inside),
        ];
        told("running.wheel_gauge", &pairs, "complies")
    };
    assert_eq!(word("32 1/2 in, 32 5/8 in, 32 3/4 in"), "complies");
    assert_eq!(word("32.4999 in, 32 5/8 in, 32 5/8 in"), "fails: most");
    assert_eq!(word("32.8751 in, 32 3/4 in, 32 3/4 in"), "fails: least");
}

/// 49 CFR 230.36(b), 230.37 and 230.49(b): a quarter above, 95 to 100 percent, six pounds above.
#[test]
fn pressures_of_tests_are_shares_of_the_boilers_own() {
    let hydro = us_steam("boiler.hydro", &[("mawp", "180 psig")]);
    assert_eq!(figure(&hydro, "test_above").0, "1/4");
    assert_eq!(figure(&hydro, "steam_low").0, "95%");
    assert_eq!(
        result_of("boiler.hydro", &hydro.given, "test_pressure"),
        "225.0 psig"
    );
    let setting = us_steam("steam.valve_setting", &[("mawp", "180 psig")]);
    assert_eq!(figure(&setting, "set_above").0, "6 psi");
    let buildup = us_steam("boiler.buildup", &[("required", "0.4 in")]);
    assert_eq!(figure(&buildup, "depth_share").0, "1/4");
    let thick = us_steam("boiler.buildup", &[("required", "4 in")]);
    assert_eq!(figure(&thick, "depth_share").0, "1/8");
}

/// What nobody told is asked for in the rulebook's words and not guessed.
#[test]
fn a_circumstance_that_is_not_told_leaves_the_figure_out() {
    let empty = BTreeMap::new();
    let shell = given(&[("thickness", "0.5 in")]);
    let question = Question {
        sheet: "boiler.shell",
        given: &shell,
        rules: Some("us-steam"),
        engine: None,
        told: &[],
        facts: &empty,
        on: TODAY,
        house: House::Inch,
    };
    let filled = fill(&Book::default(), Rulebook::built_in().unwrap(), question).unwrap();
    assert!(
        filled
            .notices
            .iter()
            .any(|n| n == "tensile: cannot tell: needs what the plate is made of."),
        "{:?}",
        filled.notices
    );
    assert!(filled.given.iter().all(|one| one.name != "tensile"));
}

#[test]
fn what_was_typed_stands_and_the_law_is_told_beside_it() {
    let pairs = [
        ("pair", "main-pin"),
        ("bore", "6.05 in"),
        ("pin", "6 in"),
        ("limit", "1/16 in"),
    ];
    let filled = us_steam("running.clearance", &pairs);
    assert_eq!(filled.given.len(), 4);
    assert!(
        filled.notices[0].starts_with("limit is taken as typed; the law has 3/32 in"),
        "{:?}",
        filled.notices
    );
    assert!(filled.used.is_empty());
}

fn of_fourteen(
    sheet: &str,
    pairs: &[(&str, &str)],
    rules: Option<&str>,
    on: Date,
) -> Result<Filled, shop::Refusal> {
    let world = World::new();
    let (_, kept) = engine(&world.book, "14").unwrap();
    let empty = BTreeMap::new();
    let question = Question {
        sheet,
        given: &given(pairs),
        rules,
        engine: Some(kept),
        told: &[],
        facts: &empty,
        on,
        house: House::Inch,
    };
    fill(&world.book, world.rules, question)
}

/// The book's axle load chooses the row, and says that it is the book's.
#[test]
fn an_engine_brings_what_the_book_knows_of_her() {
    let filled = of_fourteen(
        "running.tire_limit",
        &[("center_diameter", "56 in")],
        None,
        TODAY,
    )
    .unwrap();
    assert_eq!(figure(&filled, "least_thickness").0, "1 1/2 in");
    let load = filled
        .given
        .iter()
        .find(|one| one.name == "axle_load")
        .unwrap();
    assert_eq!(load.text, "36500 lb");
    assert_eq!(
        load.basis,
        Basis::Reading("No. 14, as the book has her".into())
    );
    let both = of_fourteen("running.tire_limit", &[], Some("us-diesel"), TODAY).unwrap_err();
    assert!(both.what.contains("her own rules bind her"), "{both}");
}

#[test]
fn a_day_or_a_rulebook_that_is_not_there_is_refused_in_words() {
    let early = of_fourteen(
        "running.axle",
        &[("position", "main-driver")],
        None,
        date(1980, 1, 1),
    )
    .unwrap_err();
    assert!(early.to_string().contains("2000-01-18"), "{early}");
    let question = Question {
        sheet: "running.axle",
        given: &[],
        rules: Some("us-steem"),
        engine: None,
        told: &[],
        facts: &BTreeMap::new(),
        on: TODAY,
        house: House::Inch,
    };
    let unknown = fill(&Book::default(), Rulebook::built_in().unwrap(), question).unwrap_err();
    assert!(
        unknown.what.contains("`us-steem`") && unknown.what.contains("us-steam"),
        "{unknown}"
    );
    let neither = fill(
        &Book::default(),
        Rulebook::built_in().unwrap(),
        Question {
            rules: None,
            ..question
        },
    )
    .unwrap_err();
    assert!(neither.what.contains("say which"), "{neither}");
}

/// With the law's figures in it, a sheet that is told less never comes nearer to *complies*.
#[test]
fn missing_never_helps() {
    let cases: [(&str, &[(&str, &str)]); 4] = [
        (
            "running.clearance",
            &[("pair", "main-pin"), ("bore", "6.2 in"), ("pin", "6 in")],
        ),
        (
            "running.tire_limit",
            &[
                ("axle_load", "60000 lb"),
                ("center_diameter", "80 in"),
                ("thickness", "1.9 in"),
            ],
        ),
        (
            "air.reservoir",
            &[
                ("pressure", "140 psig"),
                ("radius", "12 in"),
                ("seam", "lap"),
                ("strength", "unknown"),
                ("wall", "0.2 in"),
            ],
        ),
        (
            "running.axle",
            &[
                ("position", "other-driver"),
                ("original", "6 in"),
                ("present", "5.4 in"),
            ],
        ),
    ];
    for (sheet, pairs) in cases {
        assert!(
            told(sheet, pairs, "complies").starts_with("fails"),
            "{sheet}"
        );
        for (leave, _) in pairs {
            let fewer: Vec<_> = pairs
                .iter()
                .copied()
                .filter(|(name, _)| name != leave)
                .collect();
            let filled = us_steam(sheet, &fewer);
            if let Ok(worked) = physics::run(sheet, &filled.given, House::Inch) {
                let said = worked.result("complies");
                assert!(
                    !matches!(said, Some(Shown::Text(t)) if t == "complies"),
                    "{sheet} without {leave}"
                );
            }
        }
    }
}

#[test]
fn a_sheet_without_figures_of_law_asks_for_none() {
    assert_eq!(figures_of("running.clearance"), ["limit"]);
    assert!(figures_of("thread.unified").is_empty());
}

/// The limits that a changed size touches are rules of the rulebook.
#[test]
fn what_a_changed_size_touches_is_in_the_rulebook() {
    let rules = Rulebook::built_in().unwrap();
    let sizes = physics::law::running_knock_on::sizes("test").unwrap();
    let limits: Vec<&String> = sizes.iter().flat_map(|size| &size.limits).collect();
    assert!(limits.len() > 15, "{limits:?}");
    for limit in limits {
        assert!(rules.rules().any(|rule| rule.id == *limit), "{limit}");
    }
}

/// 49 CFR 230.99, the whole table as ecfr.io prints it (read November 2026): load, then journal, wheel seat, center. A load
/// between two printed ones is held to the larger (our reading), and above the last there is no figure.
#[test]
fn every_cell_of_the_tender_axles_is_in_the_sheet() {
    let places = ["least_journal", "least_seat", "least_center"];
    let table = [
        ("15000 lb", ["3 1/4 in", "4 5/8 in", "3 7/8 in"]),
        ("22000 lb", ["3 3/4 in", "5 in", "4 3/8 in"]),
        ("31000 lb", ["4 1/2 in", "6 1/4 in", "5 5/16 in"]),
        ("38000 lb", ["5 in", "6 3/4 in", "5 7/8 in"]),
        ("50000 lb", ["5 1/2 in", "7 3/8 in", "6 7/16 in"]),
    ];
    let of = |load| {
        let pairs = [("axle_load", load), ("journal", "6 in"), ("ends", "collar")];
        us_steam("running.tender_axle", &pairs)
    };
    for (load, cells) in table {
        for (place, cell) in places.iter().zip(cells) {
            let (text, rule) = figure(&of(load), place);
            assert_eq!(text, cell, "{load} {place}");
            assert!(rule.contains("230.99"), "{rule}");
        }
    }
    for (between, larger) in [
        ("1000 lb", 0),
        ("15001 lb", 1),
        ("37999 lb", 3),
        ("38001 lb", 4),
    ] {
        assert_eq!(figure(&of(between), "least_journal").0, table[larger].1[0]);
    }
    let heavy = of("50001 lb");
    assert!(heavy.given.iter().all(|one| one.name != "least_journal"));
    assert_eq!(figure(&heavy, "collar_out").0, "1/4 in");
    assert_eq!(figure(&heavy, "most_gouge").0, "1/8 in");
    let said = result_of("running.tender_axle", &heavy.given, "complies");
    assert!(
        said.starts_with("cannot tell: needs") && said.contains("least_journal"),
        "{said}"
    );
}

/// 49 CFR 230.109(g), as casetext prints it (current through 30 September 2024): 3/8 in on each side of the rear truck and
/// 3/4 in of the front one at 50 in of spread, in proportion where it is wider. A tick past each fails.
#[test]
fn side_bearings_grow_with_their_spread() {
    let word = |bearings, spread, side| {
        let pairs = [
            ("bearings", bearings),
            ("kind", "friction"),
            ("left_side", side),
            ("right_side", "0 in"),
            ("spread", spread),
        ];
        told("running.side_bearing", &pairs, "complies")
    };
    for (bearings, spread, at, past) in [
        ("rear", "50 in", "3/8 in", "0.3750025 in"),
        ("front", "50 in", "3/4 in", "0.7500025 in"),
        ("rear-wider", "60 in", "0.45 in", "0.4501 in"),
        ("front-wider", "60 in", "0.9 in", "0.9001 in"),
    ] {
        assert_eq!(word(bearings, spread, at), "complies", "{bearings}");
        assert_eq!(
            word(bearings, spread, past),
            "fails: clearance",
            "{bearings}"
        );
    }
    // Wider, and nobody said how wide: the narrower figure is not taken in its place.
    let pairs = [
        ("bearings", "rear-wider"),
        ("kind", "friction"),
        ("left_side", "1/8 in"),
        ("right_side", "1/8 in"),
    ];
    let filled = us_steam("running.side_bearing", &pairs);
    assert!(
        filled.notices[0].contains("needs spread"),
        "{:?}",
        filled.notices
    );
    assert_eq!(
        word("rear", "50 in", "0 in"),
        "fails: in contact on both sides"
    );
}
