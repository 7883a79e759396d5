//! A reading held against the law straight away: every plain row of the law's figures at its value and one step to
//! either side, and a sample of the tables and formulas with figures written out from the text.
//!
//! The rows are `rulebook/us-steam/limits.csv`, written apart from the rule files; the figures below are of 49 CFR Part 230, 2015 edition, at the section beside each.

use std::collections::BTreeMap;

use measure::{Fraction, House, Size};
use proptest::prelude::*;
use rules::{Body, Rulebook};
use shop::Class::Input;
use shop::Refusal;
use shop::book::Locomotive;
use shop::verdict::{Answered, Fineness, LimitQuestion, Verdict, check};

use crate::said::no;
use crate::world::{FOURTEEN, TODAY, World, words};

const ROWS: &str = include_str!("../../../../rulebook/us-steam/limits.csv");

#[derive(Clone, Default)]
struct Ask<'a> {
    of: &'a str,
    told: Vec<String>,
    facts: BTreeMap<String, String>,
    uncertainty: Option<&'a str>,
    jurisdiction: Option<&'a str>,
    engine: Option<&'a Locomotive>,
}

impl<'a> Ask<'a> {
    fn of(of: &'a str) -> Ask<'a> {
        Ask {
            of,
            ..Ask::default()
        }
    }

    fn told(mut self, told: &[&str]) -> Self {
        self.told = told.iter().map(|w| w.to_string()).collect();
        self
    }

    fn facts(mut self, facts: &[(&str, &str)]) -> Self {
        self.facts = words(facts);
        self
    }

    fn asked(&self, reading: Option<&str>) -> Result<Answered, Refusal> {
        let question = LimitQuestion {
            of: self.of,
            jurisdiction: self.jurisdiction,
            told: &self.told,
            facts: &self.facts,
            reading,
            uncertainty: self.uncertainty,
            engine: self.engine,
            on: TODAY,
            house: House::Inch,
        };
        check(Rulebook::built_in().unwrap(), question)
    }

    fn answered(&self, reading: &str) -> Answered {
        self.asked(Some(reading))
            .unwrap_or_else(|no| panic!("{}: {no}", self.of))
    }

    fn verdict(&self, reading: &str) -> Verdict {
        self.answered(reading).verdict
    }

    fn complies(&self, reading: &str) -> bool {
        match self.verdict(reading) {
            Verdict::Complies => true,
            Verdict::Fails(_) => false,
            Verdict::CannotTell(needs) => panic!("{} {reading}: cannot tell: {needs:?}", self.of),
        }
    }
}

fn plain(text: &str) -> Option<Fraction> {
    let (whole, rest) = text.rsplit_once(' ').unwrap_or(("0", text));
    let (over, under) = rest.split_once('/').unwrap_or((rest, "1"));
    let decimal = |text: &str| -> Option<Fraction> {
        let (a, b) = text.split_once('.').unwrap_or((text, ""));
        let scale = 10i128.checked_pow(u32::try_from(b.len()).ok()?)?;
        Some(Fraction::new(format!("{a}{b}").parse().ok()?, scale))
    };
    Some(decimal(whole)? + decimal(over)? / decimal(under)?)
}

/// Every row that gives a plain figure with a side, against the verdict.
#[test]
fn every_plain_row_comes_out_as_the_law_says() {
    let rules = Rulebook::built_in().unwrap();
    let mut held = 0;
    for row in rules::read_rows("limits.csv", ROWS).unwrap() {
        let Ok(rule) = rules.rule(&row.rule) else {
            continue;
        };
        let ruling = rule.ruling(TODAY).unwrap();
        let Body::Limit(limit) = &ruling.body else {
            continue;
        };
        let (Some(value), "max" | "min") = (plain(&row.value), row.side.as_str()) else {
            continue;
        };
        if limit.together_with.is_some() || limit.compare.word() != row.side {
            continue;
        }
        let (unit, step) = if row.unit == "in" {
            ("in", Fraction::new(1, i128::from(Size::TICKS_PER_INCH)))
        } else {
            let Some(unit) = rules::words::unit(&limit.unit) else {
                continue;
            };
            (unit.word, Fraction::new(1, unit.steps_in_one))
        };
        // The limit may be kept in another unit than the row prints.
        if unit != row.unit || unit != limit.unit {
            continue;
        }
        let asked = Ask::of(&row.rule);
        for way in [-1, 0, 1] {
            let reading = value + step * Fraction::from_integer(way);
            if reading < Fraction::from_integer(0) {
                continue;
            }
            let text = format!("{}/{} {unit}", reading.numer(), reading.denom());
            let text = if reading.is_integer() {
                format!("{} {unit}", reading.numer())
            } else {
                text
            };
            let inside = if row.side == "max" { way < 0 } else { way > 0 };
            let wanted = inside || (way == 0 && row.at_value == "passes");
            assert_eq!(asked.complies(&text), wanted, "row {}: {text}", row.row);
        }
        held += 1;
    }
    assert!(held > 100, "{held}");
}

/// 230.96(g): which pin it is decides the limit.
#[test]
fn what_is_not_told_is_asked() {
    let rules = Rulebook::built_in().unwrap();
    let of_rule = |id: &str| {
        let ruling = rules.ruling(id, TODAY).unwrap();
        let (quantity, when) = ruling.body.measures().unwrap();
        (quantity.to_string(), when.to_vec())
    };
    let (quantity, _) = of_rule("us-steam.rod.side.bore-over-other-pin");
    let ask = |told: &[&str]| Ask {
        jurisdiction: Some("us-steam"),
        ..Ask::of(&quantity).told(told)
    };
    // Side rods, 5/32 in on the main pin and 3/16 in on the others.
    let Verdict::CannotTell(needs) = ask(&[]).verdict("11/64 in") else {
        panic!()
    };
    assert_eq!(needs, ["which pin it is"]);
    assert!(matches!(
        ask(&["main-pin"]).verdict("11/64 in"),
        Verdict::Fails(_)
    ));
    assert_eq!(ask(&["other-pin"]).verdict("11/64 in"), Verdict::Complies);
    let left = ask(&["other-pin"]).answered("11/64 in").lines[0]
        .left
        .clone();
    assert_eq!(left.as_deref(), Some("1/64 in · .015625 in"));
    assert_eq!(
        ask(&["other-pin"]).answered("3/16 in").lines[0]
            .left
            .as_deref(),
        Some("0 in")
    );
    no(
        ask(&["main-pin", "other-pin"]).asked(Some("1/8 in")),
        Input,
        &["cannot both be true"],
    );
    no(
        ask(&["mian-pin"]).asked(Some("1/8 in")),
        Input,
        &["main-pin"],
    );
    no(
        Ask::of("side-rod-bore-ovr-pin").asked(Some("1/8 in")),
        Input,
        &["did you mean"],
    );
    no(
        Ask::of("us-steam.clock.31").asked(Some("1/8 in")),
        Input,
        &["is no limit"],
    );
    let contrary = Ask::of("us-steam.rod.side.bore-over-other-pin").told(&["main-pin"]);
    no(
        contrary.asked(Some("1/8 in")),
        Input,
        &["cannot both be true"],
    );
    // Without a reading the limit itself is told.
    let limit = ask(&["main-pin"]).asked(None).unwrap();
    assert_eq!(limit.lines[0].limit.as_deref(), Some("at most 5/32 in"));
    assert_eq!(limit.verdict, Verdict::CannotTell(vec!["a reading".into()]));
}

/// 230.112(d) tires, 230.71(b)(1) the orifice test, 230.27 rivets.
#[test]
fn tables_by_numbers_and_by_words() {
    let tire = Ask::of("us-steam.tire.thickness");
    let needs = match tire.verdict("2 in") {
        Verdict::CannotTell(needs) => needs,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        needs,
        [
            "the weight on drivers per driving axle",
            "the diameter of the wheel center"
        ]
    );
    let world = World::new();
    let engine = &world.book.locomotives[&FOURTEEN];
    // 36,500 lb an axle and a center of 50 in: 1 7/16 in, from the row over 35,000 to 40,000 lb.
    let tire = Ask {
        engine: Some(engine),
        ..tire.facts(&[("center-diameter", "50 in")])
    };
    let limit = tire.asked(None).unwrap().lines[0].limit.clone().unwrap();
    let figure = limit.strip_prefix("at least ").unwrap();
    assert_eq!(figure, "1 7/16 in");
    assert!(tire.complies(figure));
    let below = Size::parse(figure).unwrap().ticks() - 1;
    assert!(!tire.complies(&format!("{below}/{} in", Size::TICKS_PER_INCH)));

    let orifice = |compressor: &str| {
        Ask::of("us-steam.compressor.pressure").facts(&[("compressor", compressor)])
    };
    for compressor in ["westinghouse-9-1/2", "new-york-5b"] {
        assert!(orifice(compressor).complies("60 psi"));
        assert!(!orifice(compressor).complies("59.9 psi"));
    }
    let Verdict::CannotTell(needs) = orifice("steam-pump").verdict("60 psi") else {
        panic!()
    };
    assert!(needs[0].contains("westinghouse-11"), "{needs:?}");
    // Rivets of iron 38,000 lb per sq in in single shear, steel 44,000; double 76,000 and 88,000.
    let rivet = |metal: &str, shear: &str| {
        Ask::of("us-steam.rivet.shear").facts(&[("rivet", metal), ("shear", shear)])
    };
    for (metal, shear, psi) in [
        ("iron", "single-shear", "38000"),
        ("iron", "double-shear", "76000"),
        ("steel", "single-shear", "44000"),
        ("steel", "double-shear", "88000"),
    ] {
        let limit = rivet(metal, shear).asked(None).unwrap().lines[0]
            .limit
            .clone()
            .unwrap();
        assert!(limit.contains(psi), "{limit}");
        assert!(rivet(metal, shear).complies(&format!("{psi} psi")));
        assert!(!rivet(metal, shear).complies(&format!("{psi}.1 psi")));
    }
}

/// 230.49(b) safety valves, 230.36(b) the hydrostatic test, 230.33(c) building up, 230.72(d)(1) reservoirs.
#[test]
fn formulas_by_facts_of_the_engine_or_as_told() {
    let world = World::new();
    let engine = &world.book.locomotives[&FOURTEEN];
    let of_her = |rule| Ask {
        engine: Some(engine),
        ..Ask::of(rule)
    };
    // Her boiler is good for 180 psi in the book.
    assert!(of_her("us-steam.safety-valve.any-set").complies("186 psi"));
    assert!(!of_her("us-steam.safety-valve.any-set").complies("186.1 psi"));
    assert!(of_her("us-steam.safety-valve.lowest-set").complies("180 psig"));
    assert!(!of_her("us-steam.safety-valve.lowest-set").complies("180.1 psi"));
    let hydrostatic = of_her("us-steam.hydrostatic.pressure");
    assert!(hydrostatic.complies("225 psi"));
    assert!(!hydrostatic.complies("224.9 psi"));
    // A reservoir has a pressure of its own, which the book does not know: the boiler's is not taken for it.
    let Verdict::CannotTell(needs) = of_her("us-steam.reservoir.lap-wall").verdict("1/4 in") else {
        panic!()
    };
    assert_eq!(needs.len(), 3, "{needs:?}");
    let wall = Ask::of("us-steam.reservoir.lap-wall").facts(&[
        ("working-pressure", "140 psi"),
        ("radius", "10 in"),
        ("stress", "10000 psi"),
    ]);
    // t = P R / (0.5 S - 0.6 P) = 1400 / 4916 = 350/1229 in, which is no whole number of ticks.
    let exact = Fraction::new(350, 1229) * Fraction::from_integer(i128::from(Size::TICKS_PER_INCH));
    assert!(!exact.is_integer());
    let ticks = |n: i128| format!("{n}/{} in", Size::TICKS_PER_INCH);
    assert!(wall.complies(&ticks(exact.ceil().to_integer())));
    assert!(!wall.complies(&ticks(exact.floor().to_integer())));
    let none = Ask::of("us-steam.reservoir.lap-wall").facts(&[
        ("working-pressure", "140"),
        ("radius", "10 in"),
        ("stress", "10000 psi"),
    ]);
    let Verdict::CannotTell(needs) = none.verdict("1/4 in") else {
        panic!()
    };
    assert!(needs[0].contains("has no unit"), "{needs:?}");
    // A quarter of the required wall, and never over half an inch.
    let buildup =
        |wall: &str| Ask::of("us-steam.repair.buildup-depth").facts(&[("required-wall", wall)]);
    let limit = |wall: &str| {
        buildup(wall).asked(None).unwrap().lines[0]
            .limit
            .clone()
            .unwrap()
    };
    assert!(limit("1 in").contains("1/4 in"), "{}", limit("1 in"));
    assert!(limit("3 in").contains("1/2 in"), "{}", limit("3 in"));
}

/// Nobody's uncertainty is assumed; one that is stated is held against the distance to the limit, exactly.
#[test]
fn a_reading_within_its_uncertainty_says_so_and_keeps_its_verdict() {
    // 230.94: 1/4 in vertical at the crosshead.
    let ask = |uncertainty| Ask {
        uncertainty,
        ..Ask::of("us-steam.crosshead.vertical")
    };
    let at = |reading: &str, uncertainty| {
        let answered = ask(uncertainty).answered(reading);
        (
            answered.verdict == Verdict::Complies,
            answered.lines[0].fineness.clone(),
        )
    };
    assert_eq!(at(".249 in", None), (true, Fineness::NotStated));
    assert_eq!(at(".249 in", Some(".0005 in")), (true, Fineness::Clear));
    assert_eq!(at(".249 in", Some(".001 in")), (true, Fineness::Within));
    assert_eq!(at(".249 in ± .002 in", None), (true, Fineness::Within));
    assert_eq!(at(".251 in +/- .002 in", None), (false, Fineness::Within));
    assert_eq!(at(".251 in", Some("0.01 mm")), (false, Fineness::Clear));
    no(
        ask(Some("0 in")).asked(Some(".249 in")),
        Input,
        &["not above zero"],
    );
    no(
        ask(Some(".001 in")).asked(Some(".249 in ± .001 in")),
        Input,
        &["one was expected"],
    );
    no(ask(Some(".001 in")).asked(None), Input, &["no reading"]);
    no(ask(None).asked(Some("1/4")), Input, &["1/4"]);
    no(ask(None).asked(Some("60 psi")), Input, &["60 psi"]);
    // What is counted has none. 230.39(a): broken staybolts.
    let counted = Ask::of("us-steam.staybolt.broken-count");
    let answered = counted.answered("1");
    assert_eq!(answered.lines[0].fineness, Fineness::None);
    no(counted.asked(Some("1.5")), Input, &["whole number"]);
    no(counted.asked(Some("-1")), Input, &["whole number"]);
}

/// A limit that only condemns together with another asks for the other. 230.113(c): a chip 1 1/2 in long *and* 1/2 in wide.
#[test]
fn of_two_that_condemn_together_the_other_is_asked_for() {
    let length = Ask::of("us-steam.wheel.flange-chip-length");
    assert_eq!(length.verdict("1 in"), Verdict::Complies);
    let Verdict::CannotTell(needs) = length.verdict("2 in") else {
        panic!()
    };
    assert!(needs[0].contains("flange-chip-width"), "{needs:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Leaving out a circumstance, a fact or an uncertainty never moves the verdict toward *complies*; inches and
    /// millimetres of one size come out alike.
    #[test]
    fn what_is_left_out_never_helps(ticks in 0..4_000_000i64, told in any::<bool>(), load in 20_000..60_000u32) {
        let size = Size::from_ticks(ticks);
        let inches = format!("{ticks}/{} in", Size::TICKS_PER_INCH);
        let mm = format!("{} mm", measure::show::decimal_mm(size));
        let rank = |v: &Verdict| match v {
            Verdict::Complies => 2,
            Verdict::CannotTell(_) => 1,
            Verdict::Fails(_) => 0,
        };
        let rules = Rulebook::built_in().unwrap();
        let ruling = rules.ruling("us-steam.rod.side.bore-over-other-pin", TODAY).unwrap();
        let quantity = ruling.body.measures().unwrap().0.to_string();
        let pin = if told { "main-pin" } else { "other-pin" };
        let whole = Ask { jurisdiction: Some("us-steam"), ..Ask::of(&quantity).told(&[pin]) };
        let less = Ask { jurisdiction: Some("us-steam"), ..Ask::of(&quantity) };
        prop_assert!(rank(&less.verdict(&inches)) <= rank(&whole.verdict(&inches)).max(1));
        prop_assert_eq!(rank(&whole.verdict(&inches)), rank(&whole.verdict(&mm)));
        let stated = Ask { uncertainty: Some("1 in"), ..whole.clone() };
        prop_assert_eq!(rank(&stated.verdict(&inches)), rank(&whole.verdict(&inches)));
        let load = format!("{load} lb");
        let tire = Ask::of("us-steam.tire.thickness").facts(&[("axle-load", &load), ("center-diameter", "50 in")]);
        let bare = Ask::of("us-steam.tire.thickness").facts(&[("center-diameter", "50 in")]);
        prop_assert!(rank(&bare.verdict(&inches)) <= 1 && rank(&tire.verdict(&inches)) != 1);
    }
}
