//! The clocks and papers of `us-diesel`: spans, which fact binds them, and the credit for days out of use.
//! Published: 49 CFR Part 229, annual edition of 2015, at the section named beside each row.

use jiff::civil::{Date, date};
use rules::{Body, Keep, Rulebook, Span, words};

const DAY: Date = date(2026, 5, 2);

fn book() -> &'static Rulebook {
    Rulebook::built_in().expect("the rulebook loads")
}

/// Rule, section, days, the work, the fact and answer that bind it, whether out-of-use days lengthen it.
type Row = (
    &'static str,
    &'static str,
    u32,
    &'static str,
    Option<(&'static str, &'static str)>,
    bool,
);

const PRINTED: &[Row] = &[
    (
        "periodic",
        "229.23(a)",
        92,
        "periodic",
        Some(("condition-monitoring", "no")),
        true,
    ),
    (
        "periodic-monitored",
        "229.23(b)",
        184,
        "periodic",
        Some(("condition-monitoring", "yes")),
        true,
    ),
    (
        "qualified-daily",
        "229.23(b)",
        33,
        "qualified-daily",
        Some(("condition-monitoring", "yes")),
        false,
    ),
    ("annual-tests", "229.27", 368, "annual-tests", None, true),
    (
        "air-flow-meter",
        "229.29(b)",
        92,
        "air-flow-meter",
        Some(("air-flow-meter", "yes")),
        true,
    ),
    (
        "brake-level-1",
        "229.29(d)",
        368,
        "brake-level-1",
        None,
        true,
    ),
    (
        "brake-level-2.other",
        "229.29(e)",
        368,
        "brake-level-2",
        Some(("brake-schedule", "other")),
        true,
    ),
    (
        "brake-level-3.other",
        "229.29(e)",
        736,
        "brake-level-3",
        Some(("brake-schedule", "other")),
        true,
    ),
    (
        "brake-level-2.26-l",
        "229.29(f)(1)",
        1104,
        "brake-level-2",
        Some(("brake-schedule", "26-l")),
        true,
    ),
    (
        "brake-level-3.26-l",
        "229.29(f)(1)",
        1104,
        "brake-level-3",
        Some(("brake-schedule", "26-l")),
        true,
    ),
    (
        "brake-level-2.26-l-dryer",
        "229.29(f)(2)",
        1472,
        "brake-level-2",
        Some(("brake-schedule", "26-l-dryer")),
        true,
    ),
    (
        "brake-level-3.26-l-dryer",
        "229.29(f)(2)",
        1472,
        "brake-level-3",
        Some(("brake-schedule", "26-l-dryer")),
        true,
    ),
    (
        "brake-level-2.electronic",
        "229.29(f)(3)",
        1840,
        "brake-level-2",
        Some(("brake-schedule", "electronic")),
        true,
    ),
    (
        "brake-level-3.electronic",
        "229.29(f)(3)",
        1840,
        "brake-level-3",
        Some(("brake-schedule", "electronic")),
        true,
    ),
    (
        "main-reservoirs",
        "229.31(a)",
        736,
        "main-reservoir-test",
        Some(("main-reservoirs", "tested")),
        true,
    ),
];

#[test]
fn every_clock_of_part_229_runs_as_long_as_the_text_says() {
    for (id, section, days, work, fact, credit) in PRINTED {
        let ruling = book()
            .ruling(&format!("us-diesel.clock.{id}"), DAY)
            .expect(id);
        let Body::Calendar(clock) = ruling.body else {
            panic!("{id} is no calendar clock")
        };
        assert_eq!(ruling.cite.section, *section, "{id}");
        assert_eq!(clock.span, Span::Days(*days), "{id}");
        assert_eq!(clock.inspection, *work, "{id}");
        assert_eq!(clock.restarted_by, [*work], "{id}");
        let bound = clock.only_if.map(|f| (f.fact, f.is));
        let told = fact.map(|(f, is)| (f.to_owned(), is.to_owned()));
        assert_eq!(bound, told, "{id}");
        // 229.33: whole spells of 30 or more consecutive days.
        let spell = clock.out_of_use.map(|c| (c.least_days, c.section));
        assert_eq!(spell, credit.then(|| (30, "229.33".into())), "{id}");
    }
    let clocks = book().clocks("us-diesel", DAY).expect("clocks");
    // And the daily, 229.21(a), which counts days of use.
    assert_eq!(clocks.len(), PRINTED.len() + 1);
}

/// Every answer of a fact that picks among clocks of one work has its clock, but those that excuse from it.
#[test]
fn every_brake_schedule_has_its_levels() {
    let answers = words::answers("brake-schedule").expect("a fact");
    for (schedule, _) in answers {
        for level in ["2", "3"] {
            let id = format!("us-diesel.clock.brake-level-{level}.{schedule}");
            assert!(book().ruling(&id, DAY).is_ok(), "{id}");
        }
    }
}

#[test]
fn a_diesel_has_its_inspections_and_no_service_days() {
    let kinds = |jurisdiction| -> Vec<&str> {
        let listed = book().inspections(jurisdiction, DAY).expect("kinds");
        listed.into_iter().map(|(word, _)| word).collect()
    };
    assert_eq!(kinds("us-diesel"), ["daily", "qualified-daily", "periodic"]);
    assert_eq!(
        kinds("us-steam"),
        ["daily", "31", "92", "annual", "fifth-annual", "1472"]
    );
    assert!(book().counts_service_days("us-steam") && !book().counts_service_days("us-diesel"));
    let items = |kind| book().items("us-diesel", kind, DAY).expect("items").len();
    assert!(items("daily") == 1 && items("periodic") > 15);
}

#[test]
fn its_daily_reports_are_kept_92_days() {
    // 229.21(a).
    let Body::Retention(kept) = book()
        .ruling("us-diesel.keep.daily-report", DAY)
        .expect("a ruling")
        .body
    else {
        panic!("not a retention")
    };
    assert_eq!(kept.keep, Keep::Days(92));
}

/// The figures as printed in 2015: rule, section, words.
const FIGURES: &[(&str, &str, &str)] = &[
    ("scope.track-gauge", "229.3", "exactly 56 1/2 in"),
    (
        "piston-travel.short-of-stroke",
        "229.55",
        "at least 1 1/2 in",
    ),
    ("brake-cylinder.pressure", "229.55", "at least 30 psi"),
    ("brake-gear.wear", "229.57", "at most 30 percent"),
    ("leak.main-reservoir", "229.59", "at most 3 psi a minute"),
    ("leak.brake-pipe", "229.59", "at most 5 psi a minute"),
    ("leak.brake-cylinder", "229.59", "at least 5 minutes"),
    ("leak.control-air", "229.59", "at most 3 psi a minute"),
    ("coupler.knuckle", "229.61", "at most 5 5/16 in"),
    ("coupler.slack", "229.61", "at most 1/2 in"),
    ("lateral.unpowered-or-friction", "229.63", "at most 1 in"),
    ("lateral.other-powered", "229.63", "at most 3/4 in"),
    ("lateral.center-of-three", "229.63", "at most 1 1/4 in"),
    ("spring.other-leaves", "229.65", "under 3 leaves"),
    ("center-plate.no-traction", "229.67", "at least 3/4 in"),
    (
        "center-plate.carries-traction",
        "229.67",
        "at least 1 1/2 in",
    ),
    ("center-plate.lost-motion", "229.67", "at most 1/2 in"),
    ("side-bearing.first-each", "229.69", "at most 1/4 in"),
    ("side-bearing.first-total", "229.69", "at most 1/2 in"),
    ("side-bearing.second-each", "229.69", "at most 1/2 in"),
    ("side-bearing.second-total", "229.69", "at most 1 in"),
    ("nest.broken-springs", "229.69", "at most 25 percent"),
    ("clearance.above-rail", "229.71", "at least 2 1/2 in"),
    (
        "wheel.same-axle-circumference",
        "229.73(a)",
        "at most 1/4 in",
    ),
    (
        "wheel.truck-diameters-within-truck",
        "229.73(b)",
        "at most 3/4 in",
    ),
    (
        "wheel.truck-diameters-shimmed-or-between",
        "229.73(b)",
        "at most 1 1/4 in",
    ),
    (
        "wheel.gauge-standard-flange",
        "229.73(c)",
        "53 in to 53 1/2 in",
    ),
    ("wheel.gauge-wide-flange", "229.73(c)", "53 in to 53 1/4 in"),
    ("wheel.back-to-back", "229.73(d)", "at most 1/4 in"),
    ("wheel.flat-spot", "229.75(a)", "under 2 1/2 in"),
    ("wheel.flat-spots-adjoining", "229.75(a)", "under 2 in"),
    ("wheel.flange-chip-length", "229.75(b)", "at most 1 1/2 in"),
    ("wheel.flange-chip-width", "229.75(b)", "at most 1/2 in"),
    ("wheel.broken-rim-tread", "229.75(c)", "at least 3 3/4 in"),
    ("wheel.shelled-spot", "229.75(d)", "under 2 1/2 in"),
    ("wheel.shelled-spots-adjoining", "229.75(d)", "under 2 in"),
    ("wheel.seam-from-flange", "229.75(e)", "over 3 3/4 in"),
    ("wheel.flange-thickness", "229.75(f)", "over 7/8 in"),
    ("wheel.tread-hollow-road", "229.75(g)", "under 5/16 in"),
    ("wheel.tread-hollow-yard", "229.75(g)", "under 3/8 in"),
    ("wheel.flange-height", "229.75(h)", "under 1 1/2 in"),
    ("tire.thickness", "229.75(i)", "at least 1 1/2 in"),
    ("wheel.rim-thickness-road", "229.75(j)", "at least 1 in"),
    ("wheel.rim-thickness-yard", "229.75(j)", "at least 3/4 in"),
    ("wheel.cracks", "229.75(k)", "no cracks or breaks"),
    ("movement.yard-speed", "229.9", "at most 10 mph"),
];

#[test]
fn the_figures_of_part_229_are_those_printed() {
    for (id, section, words) in FIGURES {
        let ruling = book().ruling(&format!("us-diesel.{id}"), DAY).expect(id);
        let Body::Limit(limit) = ruling.body else {
            panic!("{id} is no limit")
        };
        assert_eq!(
            (ruling.cite.section.as_str(), limit.words().as_str()),
            (*section, *words),
            "{id}"
        );
    }
    let rules = book().in_jurisdiction("us-diesel");
    assert_eq!(
        rules.filter(|r| r.kind == rules::Kind::Limit).count(),
        FIGURES.len()
    );
}
