//! Missing never helps a verdict or a route, and neither does more wear.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::Size;
use proptest::prelude::*;
use shop::book::{Book, Family, FeatureFacts, Part, PartId, Statement};
use shop::route::{Feasible, metal_left, routes};
use shop::verdict::{Question, Verdict, judge};

use crate::world::{ADA, FOURTEEN, World, found, words};

const FIRST: Date = jiff::civil::date(2026, 3, 1);

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_missing_fact_never_makes_a_part_comply(
        case in parts(),
        picks in prop::collection::vec(any::<prop::sample::Index>(), 1..6),
    ) {
        let mut now = case;
        for pick in picks {
            let Some(fewer) = now.without(pick) else { break };
            let (before, after) = (now.judged(), fewer.judged());
            prop_assert!(before == Verdict::Complies || after != Verdict::Complies, "{:#?}", now);
            for (was, is) in now.feasible().into_iter().zip(fewer.feasible()) {
                let opened = was.1 != Feasible::Yes && is.1 == Feasible::Yes;
                prop_assert!(!opened, "{} of {:#?}", was.0, now);
            }
            now = fewer;
        }
    }

    #[test]
    fn more_wear_never_makes_a_part_comply(
        case in parts(),
        pick in any::<prop::sample::Index>(),
        by in 1..40_000_000i64,
    ) {
        let Some(worn) = case.worn(pick, by) else { return Ok(()) };
        let rank = |verdict: &Verdict| match verdict {
            Verdict::Fails(_) => 0,
            Verdict::CannotTell(_) => 1,
            Verdict::Complies => 2,
        };
        let (before, after) = (case.judged(), worn.judged());
        prop_assert!(rank(&after) <= rank(&before), "{:#?}\n{:?} {:?}", case, before, after);
        for (feature, left) in worn.metal() {
            let was = case.metal();
            prop_assert!(was.get(&feature).is_some_and(|was| left <= *was), "{feature}");
        }
    }
}

/// A part with its readings, by family.
#[derive(Debug, Clone)]
struct Case {
    family: Family,
    load: Option<u32>,
    facts: BTreeMap<String, String>,
    features: BTreeMap<String, FeatureFacts>,
    /// Feature, place, as written.
    readings: Vec<(String, String, String)>,
    conditions: Vec<String>,
}

impl Case {
    fn book(&self) -> (World, Part) {
        let mut world = World::new();
        let engine = world.book.locomotives.get_mut(&FOURTEEN).unwrap();
        engine.axle_load_lb = self.load;
        let part = shop::book::PartAdded {
            id: PartId(1),
            locomotive: FOURTEEN,
            family: self.family.family.clone(),
            name: "a part".into(),
            facts: self.facts.clone(),
            features: self.features.clone(),
            known: None,
        };
        world.state(ADA, FIRST, Statement::PartAdded(part));
        let recorded = shop::book::FindingRecorded {
            id: shop::book::FindingId(1),
            locomotive: FOURTEEN,
            part: PartId(1),
            occasion: shop::book::Occasion::PlannedWork,
            conditions: self.conditions.clone(),
            told: "as found".into(),
            readings: self.written(),
            notice: None,
            taken: None,
        };
        world.state(ADA, FIRST, Statement::FindingRecorded(recorded));
        let part = world.book.parts[&PartId(1)].clone();
        (world, part)
    }

    fn written(&self) -> Vec<shop::book::FeatureReading> {
        let all = self.readings.iter();
        let all: Vec<_> = all
            .map(|(f, p, t)| (f.as_str(), p.as_str(), t.as_str()))
            .collect();
        found(&all)
    }

    fn judged(&self) -> Verdict {
        let (world, part) = self.book();
        let question = Question {
            part: &part,
            readings: &self.written(),
            conditions: &self.conditions,
            on: FIRST,
            house: measure::House::Inch,
        };
        judge(&world.book, world.rules, question).unwrap().verdict
    }

    fn feasible(&self) -> Vec<(String, Feasible)> {
        let (world, _) = self.book();
        let book: &Book = &world.book;
        let finding = book.findings.values().next().unwrap();
        let choice = routes(book, world.rules, finding, FIRST, measure::House::Inch).unwrap();
        let offers = choice.offers.into_iter();
        offers
            .map(|offer| (offer.route.word, offer.feasible))
            .collect()
    }

    fn metal(&self) -> BTreeMap<String, Size> {
        let (world, part) = self.book();
        let sets = world.book.readings.newest_first(PartId(1)).unwrap();
        let left = metal_left(&self.family, &part, &sets).into_iter();
        left.map(|metal| (metal.feature, metal.left)).collect()
    }

    /// Takes away one reading, one fact of the part, a step or a size it was built to, or the axle load.
    /// A condition seen is not a fact that can be missing but what the finding is about.
    fn without(&self, pick: prop::sample::Index) -> Option<Case> {
        let mut fewer = Vec::new();
        for at in 0..self.readings.len() {
            let mut part = self.clone();
            part.readings.remove(at);
            fewer.push(part);
        }
        for fact in self.facts.keys() {
            let mut part = self.clone();
            part.facts.remove(fact);
            fewer.push(part);
        }
        for feature in self.features.keys() {
            let mut part = self.clone();
            part.features.remove(feature);
            fewer.push(part);
        }
        if self.load.is_some() {
            let load = None;
            fewer.push(Case {
                load,
                ..self.clone()
            });
        }
        let at = (!fewer.is_empty()).then(|| pick.index(fewer.len()))?;
        Some(fewer.swap_remove(at))
    }

    /// One size worn further, the way its feature wears.
    fn worn(&self, pick: prop::sample::Index, by: i64) -> Option<Case> {
        use shop::book::{FeatureKind, Wears};
        let wears = |name: &str| {
            let feature = self.family.feature(name)?;
            match (feature.kind, feature.wears) {
                (FeatureKind::Size, Wears::Larger) => Some(by),
                (FeatureKind::Size, Wears::Smaller) => Some(-by),
                _ => None,
            }
        };
        let sizes: Vec<_> = (0..self.readings.len())
            .filter_map(|at| Some((at, wears(&self.readings[at].0)?)))
            .collect();
        let (at, by) = *sizes.get((!sizes.is_empty()).then(|| pick.index(sizes.len()))?)?;
        let mut worn = self.clone();
        let (_, _, text) = worn.readings.get_mut(at)?;
        let size = Size::from_ticks(Size::parse(text).ok()?.ticks() + by);
        *text = written(size.ticks());
        Some(worn)
    }
}

fn written(ticks: i64) -> String {
    format!("{ticks}/{} in", Size::TICKS_PER_INCH)
}

/// Sizes near a limit of the law, so that verdicts of every kind come up: at it, or up to 1/16 in off.
fn near(limit: &'static str) -> impl Strategy<Value = String> {
    let at = Size::parse(limit).unwrap().ticks();
    let off = prop_oneof![
        3 => Just(0i64),
        2 => Just(1),
        2 => Just(-1),
        3 => -640_000..640_000i64,
    ];
    off.prop_map(move |off| written(at + off))
}

/// A feature read at most of its places.
fn read(
    family: &Family,
    name: &'static str,
    size: impl Strategy<Value = String> + Clone + 'static,
) -> BoxedStrategy<Vec<(String, String, String)>> {
    let places = family.feature(name).unwrap().positions.clone();
    let one = (prop::bool::weighted(0.95), size);
    prop::collection::vec(one, places.len())
        .prop_map(move |sizes| {
            let read = places.iter().zip(sizes).filter(|(_, (read, _))| *read);
            read.map(|(place, (_, text))| (name.to_string(), place.clone(), text))
                .collect()
        })
        .boxed()
}

fn parts() -> impl Strategy<Value = Case> {
    let family = |word: &str| {
        let mut all = Family::BUILT_IN
            .iter()
            .map(|text| Family::read(text).unwrap());
        all.find(|f| f.family == word).unwrap()
    };
    let blank = |family: Family| Case {
        family,
        load: Some(36_500),
        facts: BTreeMap::new(),
        features: BTreeMap::new(),
        readings: Vec::new(),
        conditions: Vec::new(),
    };
    // A limit where comparing one-sidedly is wrong: a flange lower than 1 in has not worn there.
    let flange = (Size::parse("1 in").unwrap().ticks()..15_900_000).prop_map(written);
    let crosshead = family("crosshead-and-guide");
    let crossheads = (
        read(&crosshead, "vertical", near_any(&["1/4 in", "1/8 in"])),
        read(&crosshead, "lateral", near_any(&["5/16 in", "1/8 in"])),
    )
        .prop_map(move |(vertical, lateral)| Case {
            readings: [vertical, lateral].concat(),
            ..blank(crosshead.clone())
        });
    let rod = family("rod-bushing");
    let pins = prop_oneof![
        Just(None),
        Just(Some("main-rod")),
        Just(Some("side-main-pin")),
        Just(Some("side-other-pin")),
    ];
    let rods = (
        read(
            &rod,
            "bore",
            near_any(&["5 3/32 in", "5 5/32 in", "5 3/16 in", "5 1/16 in"]),
        ),
        read(&rod, "pin", Just("5 in".to_string())),
        read(&rod, "side-play", near_any(&["1/4 in", "1/8 in"])),
        pins,
    )
        .prop_map(move |(bore, pin, play, which)| Case {
            readings: [bore, pin, play].concat(),
            facts: words(&which.map(|w| ("pin", w)).into_iter().collect::<Vec<_>>()),
            ..blank(rod.clone())
        });
    let tire = family("driving-tire");
    let loads = prop_oneof![Just(None), (29_000..57_000u32).prop_map(Some)];
    let centers = prop_oneof![
        Just("44 in"),
        Just("50 in"),
        Just("57 1/2 in"),
        Just("80 in")
    ];
    let tires = (
        read(
            &tire,
            "thickness",
            near_any(&["1 7/16 in", "1 11/16 in", "2 1/4 in"]),
        ),
        read(
            &tire,
            "flange-thickness",
            near_any(&["15/16 in", "1 1/8 in"]),
        ),
        read(&tire, "hollow", near_any(&["5/16 in", "1/8 in"])),
        read(&tire, "flange-height", flange),
        loads,
        prop::option::of(centers),
    )
        .prop_map(move |(thick, flange, hollow, height, load, center)| Case {
            readings: [thick, flange, hollow, height].concat(),
            facts: words(
                &center
                    .map(|c| ("center-diameter", c))
                    .into_iter()
                    .collect::<Vec<_>>(),
            ),
            features: BTreeMap::from([("thickness".to_string(), ours("1 7/16 in"))]),
            load,
            ..blank(tire.clone())
        });
    let check = family("check-valve");
    let angle = |text: &'static str| Just(text.to_string());
    let angles = prop_oneof![
        angle("45deg"),
        angle("44d58m"),
        angle("43d00m"),
        angle("46d30m")
    ];
    let designs = prop_oneof![
        Just(None),
        Just(Some("matched")),
        Just(Some("differential"))
    ];
    let checks = (
        read(&check, "seat-half-angle", angles),
        read(&check, "seat-land", near_any(&["1/8 in", "5/32 in"])),
        read(&check, "seat-wall", near_any(&["0.250 in", "0.400 in"])),
        designs,
        any::<bool>(),
    )
        .prop_map(move |(angles, land, wall, design, weeps)| {
            let mut facts = words(&[("seat-angle", "45deg"), ("port", "1 1/2 in")]);
            facts.extend(words(
                &design
                    .map(|d| ("seat-design", d))
                    .into_iter()
                    .collect::<Vec<_>>(),
            ));
            let weeps = weeps.then(|| "weeps-back".to_string());
            Case {
                readings: [angles, land, wall].concat(),
                facts,
                features: BTreeMap::from([("seat-wall".to_string(), ours("0.250 in"))]),
                conditions: weeps.into_iter().collect(),
                ..blank(check.clone())
            }
        });
    prop_oneof![crossheads, rods, tires, checks]
}

fn near_any(limits: &[&'static str]) -> BoxedStrategy<String> {
    let each: Vec<_> = limits.iter().map(|limit| near(limit).boxed()).collect();
    prop::strategy::Union::new(each).boxed()
}

fn ours(shop_limit: &str) -> FeatureFacts {
    FeatureFacts {
        shop_limit: Some(shop_limit.into()),
        ..FeatureFacts::default()
    }
}
