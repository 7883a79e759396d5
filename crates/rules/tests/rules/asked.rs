//! "Which limit is it?": what is told picks the limit, what is not told is asked back.
//! Published: 49 CFR Part 230, annual edition of 2015, at the section named beside each check.

use jiff::civil::{Date, date};
use measure::Fraction;
use rules::{Asked, Body, Compare, Limit, LimitValue, Outcome, Rulebook, words};

const DAY: Date = date(2026, 5, 2);

fn book() -> &'static Rulebook {
    Rulebook::built_in().expect("the rulebook loads")
}

fn asked(quantity: &str, told: &[&str]) -> Asked {
    book()
        .limits("us-steam", quantity, told, DAY)
        .expect("an answer")
}

/// The words of the one limit that holds.
fn only(quantity: &str, told: &[&str]) -> String {
    let found = asked(quantity, told);
    assert!(found.needs.is_empty(), "{quantity}: {:?}", found.needs);
    match found.rulings.as_slice() {
        [ruling] => match &ruling.body {
            Body::Limit(limit) => limit.words(),
            other => panic!("{quantity}: {other:?}"),
        },
        several => panic!("{quantity} {told:?}: {} limits", several.len()),
    }
}

#[test]
fn the_pin_picks_the_limit_and_more_may_be_told_than_is_asked() {
    // 230.96(g).
    let quantity = "side-rod-bore-over-pin";
    assert_eq!(
        only(quantity, &["main-pin", "left-side", "driver"]),
        "at most 5/32 in"
    );
    assert_eq!(
        only(quantity, &["right-side", "other-pin"]),
        "at most 3/16 in"
    );
    let open = asked(quantity, &["left-side"]);
    assert_eq!(
        (open.rulings.len(), open.needs),
        (0, vec!["which pin it is"])
    );
}

#[test]
fn two_questions_are_both_asked() {
    // 230.112(e).
    assert_eq!(
        only("tire-width", &["narrow-gauge", "plain-tire"]),
        "at least 5 1/2 in"
    );
    assert_eq!(
        only("tire-width", &["flanged-tire", "standard-gauge"]),
        "at least 5 1/2 in"
    );
    assert_eq!(
        only("tire-width", &["narrow-gauge", "flanged-tire"]),
        "at least 5 in"
    );
    assert_eq!(
        asked("tire-width", &["plain-tire"]).needs,
        ["the gauge of the track"]
    );
    assert_eq!(asked("tire-width", &[]).needs.len(), 2);
}

#[test]
fn a_circumstance_no_limit_is_for_gives_none_and_asks_nothing() {
    // 230.98: an axle of the tender has its own section; of the lateral limits none is for it.
    let none = asked("center-plate-entry", &["tender-truck"]);
    assert_eq!(none.rulings.len(), 1);
    let indicator = asked("running-speed", &["speed-indicator"]);
    assert_eq!((indicator.rulings.len(), indicator.needs.len()), (0, 0));
}

#[test]
fn a_wrong_question_is_refused_with_what_was_expected() {
    let refused = |quantity: &str, told: &[&str]| {
        book()
            .limits("us-steam", quantity, told, DAY)
            .expect_err("refused")
            .to_string()
    };
    assert_eq!(
        refused("hub-lateral", &["drivr"]),
        "no rule knows the circumstance `drivr`; did you mean `driver`?"
    );
    assert_eq!(
        refused("hub-lateral", &["driver", "trailing-truck"]),
        "`driver` and `trailing-truck` cannot both be true: tell one, which wheels they are"
    );
    assert!(refused("flange-heigth", &[]).contains("did you mean flange-height"));
    assert!(
        book()
            .limits("us-stem", "flange-height", &[], DAY)
            .is_err_and(|e| e.to_string().contains("us-steam"))
    );
}

#[test]
fn no_two_limits_on_one_quantity_can_hold_at_once_on_one_side() {
    // Every pair of limits on a quantity is told apart by some question, or stands on different sides.
    let rulings = book().in_force("us-steam", DAY).expect("rulings");
    let limits: Vec<_> = rulings
        .iter()
        .filter_map(|r| {
            r.body
                .measures()
                .map(|(quantity, when)| (r, quantity, when))
        })
        .collect();
    let mut pairs = 0;
    for (at, (a, quantity, when_a)) in limits.iter().enumerate() {
        for (b, other, when_b) in limits.iter().skip(at + 1) {
            if quantity != other {
                continue;
            }
            pairs += 1;
            let apart = when_a.iter().any(|x| {
                let question = words::question(x).map(|(q, _)| q.asks);
                when_b
                    .iter()
                    .any(|y| x != y && words::question(y).map(|(q, _)| q.asks) == question)
            });
            assert!(apart, "{} and {} may hold at once", a.rule, b.rule);
        }
    }
    assert!(pairs > 25, "only {pairs} pairs");
}

#[test]
fn every_answer_but_those_that_open_an_allowance_is_used_by_a_limit() {
    let used: Vec<String> = book()
        .rules()
        .flat_map(|r| &r.versions)
        .filter_map(|v| v.body.measures().map(|(_, when)| when.to_vec()))
        .flatten()
        .collect();
    let unused: Vec<&str> = words::circumstances()
        .filter(|w| !used.iter().any(|u| u == w))
        .collect();
    // Each is the answer under which no limit binds, or that no limit asks for.
    assert_eq!(
        unused,
        [
            "left-side",
            "right-side",
            "no-retaining-rings",
            "speed-indicator",
            "alloy-steel"
        ]
    );
}

fn by_formula(id: &str, facts: &[(&str, i128)]) -> Result<Limit, String> {
    let facts: Vec<(&str, Fraction)> = facts
        .iter()
        .map(|(name, n)| (*name, Fraction::from_integer(*n)))
        .collect();
    match book().ruling(id, DAY).expect("a ruling").body {
        Body::LimitFormula(formula) => formula.limit_for(&facts).map_err(|e| e.to_string()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_limit_by_formula_is_worked_exactly_and_rounded_so_that_nothing_slips_through() {
    // 230.72(c): t = PR/(S - 0.6P). 140 psi, 10 in, 10000 psi: 1400/9916 in; worked by hand, 0.14118596... in,
    // 1434449.375... ticks, so the least whole tick inside is 1434450.
    let wall = by_formula(
        "us-steam.reservoir.welded-wall",
        &[
            ("working_pressure", 140),
            ("radius", 10),
            ("stress", 10_000),
        ],
    )
    .expect("a limit");
    let LimitValue::Size(least) = wall.value else {
        panic!("{wall:?}")
    };
    let exact = Fraction::new(1400 * 10_160_000, 9916);
    assert!(Fraction::from_integer(i128::from(least.ticks())) >= exact);
    assert!(Fraction::from_integer(i128::from(least.ticks() - 1)) < exact);
    assert_eq!(wall.words(), "at least 0.1412 in");
    assert_eq!(wall.judge(least), Outcome::Passes);
    // 230.72(d)(1): with half the stress a little more than twice the wall: 1400/4916 = 0.28478... in.
    let lap = by_formula(
        "us-steam.reservoir.lap-wall",
        &[
            ("working_pressure", 140),
            ("radius", 10),
            ("stress", 10_000),
        ],
    );
    assert_eq!(lap.expect("a limit").words(), "at least 0.2848 in");
    // 230.33(c): the smaller of a quarter of the wall and 1/2 in.
    for (wall, words) in [
        (1, "at most 1/4 in"),
        (2, "at most 1/2 in"),
        (3, "at most 1/2 in"),
    ] {
        let depth = by_formula("us-steam.repair.buildup-depth", &[("required_wall", wall)]);
        assert_eq!(depth.expect("a limit").words(), words);
    }
    // 230.36(b): 25 percent above 180 psi; 230.49(b): 6 psi above it.
    let hydro = by_formula(
        "us-steam.hydrostatic.pressure",
        &[("working_pressure", 180)],
    );
    let hydro = hydro.expect("a limit");
    assert_eq!(
        (hydro.compare, hydro.words().as_str()),
        (Compare::Set, "exactly 225 psi")
    );
    let set = by_formula(
        "us-steam.safety-valve.any-set",
        &[("working_pressure", 180)],
    );
    assert_eq!(set.expect("a limit").words(), "at most 186 psi");
    // 230.71(b)(1): at 3000 ft ten strokes more than the table.
    let speed = by_formula(
        "us-steam.compressor.speed-above",
        &[("table_speed", 120), ("altitude", 3000)],
    );
    assert_eq!(
        speed.expect("a limit").words(),
        "at most 130 strokes a minute"
    );
}

#[test]
fn a_formula_without_its_facts_gives_no_limit() {
    let wall = |facts: &[(&str, i128)]| by_formula("us-steam.reservoir.welded-wall", facts);
    let full = [
        ("working_pressure", 140),
        ("radius", 10),
        ("stress", 10_000),
    ];
    for lost in 0..3 {
        let mut facts = full.to_vec();
        facts.remove(lost);
        assert!(wall(&facts).is_err_and(|e| e.contains("needs ")), "{lost}");
    }
    for (at, value) in [(0, 0), (1, -10), (2, 0)] {
        let mut facts = full;
        facts[at].1 = value;
        assert!(wall(&facts).is_err_and(|e| e.contains("must be above zero")));
    }
    // S - 0.6P at zero and below: a stress that is all used up.
    for stress in [84, 50] {
        let said = wall(&[
            ("working_pressure", 140),
            ("radius", 10),
            ("stress", stress),
        ]);
        assert!(
            said.is_err_and(|e| e.contains("not above zero")),
            "{stress}"
        );
    }
    let wild = wall(&[
        ("working_pressure", i128::MAX),
        ("radius", i128::MAX),
        ("stress", 1),
    ]);
    assert!(wild.is_err_and(|e| e.contains("too large")));
}

#[test]
fn a_table_by_words_gives_its_row_and_refuses_what_it_has_not() {
    let table = |id: &str| match book().ruling(id, DAY).expect("a ruling").body {
        Body::LimitTable(table) => table,
        other => panic!("{other:?}"),
    };
    // 230.71(b)(1).
    let (speed, orifice) = (
        table("us-steam.compressor.speed"),
        table("us-steam.compressor.orifice"),
    );
    let words = |limit: Result<Limit, rules::RulebookError>| limit.expect("a limit").words();
    assert_eq!(
        words(speed.limit_in("new-york-2a")),
        "exactly 120 strokes a minute"
    );
    assert_eq!(
        words(orifice.limit_in("westinghouse-8-1/2-150")),
        "exactly 9/32 in"
    );
    assert!(
        speed
            .limit_in("bicycle-pump")
            .is_err_and(|e| e.to_string().contains("the table has westinghouse-9-1/2"))
    );
    assert!(speed.limit_at("new-york-2a", "journal").is_err());
    // 230.99: a load between two printed ones takes the larger; above the last nothing is printed.
    let axle = table("us-steam.tender-axle.diameter");
    let load = |lb: i128| Fraction::from_integer(lb);
    assert_eq!(
        words(axle.limit_at(load(31_000), "wheel-seat")),
        "at least 6 1/4 in"
    );
    assert_eq!(
        words(axle.limit_at(load(31_001), "wheel-seat")),
        "at least 6 3/4 in"
    );
    assert_eq!(
        words(axle.limit_at(load(50_000), "center")),
        "at least 6 7/16 in"
    );
    assert!(
        axle.limit_at(load(50_001), "journal")
            .is_err_and(|e| e.to_string().contains("the law's table ends at 50000 lb"))
    );
    assert!(axle.limit_at("journal", "journal").is_err());
    assert!(axle.limit_in(load(1)).is_err());
}
