//! Which argument of which sheet is a figure of law: one row each, and nothing else decides it.
//!
//! To let a sheet ask the rulebook for one more figure, add a row. A row says under which words of the sheet it holds, what
//! the rulebook calls the quantity, which of the rulebook's circumstances that makes so, which facts its table or formula
//! hangs on, and how the sheet uses the figure: a rule that counts the figure itself otherwise than the sheet does is
//! not taken.

/// How a sheet uses a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Takes {
    /// The most that is allowed; the figure itself passes.
    AtMost,
    /// What condemns from below; the figure itself fails.
    Below,
    /// The least that is allowed; the figure itself passes.
    AtLeast,
    /// What condemns from above; the figure itself fails.
    Above,
    /// The lower end of a range.
    Low,
    /// The upper end of a range.
    High,
    /// A figure to be used as it stands.
    Value,
    /// The most that is allowed, less this argument of the sheet.
    Over(&'static str),
    /// The most that is allowed, as a share of this argument.
    Share(&'static str),
    /// What the figure is above this argument, as a share of it.
    ShareOver(&'static str),
}

/// A circumstance that a row makes so.
#[derive(Debug, Clone, Copy)]
pub(super) enum So {
    /// Always.
    Is(&'static str),
    /// One word or the other, as an argument of the sheet passes or fails another limit of the rulebook.
    Judged {
        /// The argument, a length.
        argument: &'static str,
        /// The other limit's quantity.
        quantity: &'static str,
        /// The word where it passes, and where it fails.
        passes: &'static str,
        /// See `passes`.
        fails: &'static str,
    },
}

/// Where a fact of a table or formula comes from.
#[derive(Debug, Clone, Copy)]
pub(super) enum Fact {
    /// An argument of the sheet, said in this unit of the rulebook.
    Argument(&'static str, &'static str),
    /// A word of the sheet, as it stands.
    Word(&'static str),
    /// Always this word.
    Is(&'static str),
    /// Another figure of the rulebook, under these circumstances and on the same facts.
    Figure(&'static str, &'static [&'static str]),
}

/// One figure of law in one sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    /// The sheet's id.
    pub sheet: &'static str,
    /// Its argument.
    pub argument: &'static str,
    /// What the rulebook calls it.
    pub quantity: &'static str,
    /// How the sheet uses it.
    pub takes: Takes,
    /// Words of the sheet under which the row holds.
    pub only: &'static [(&'static str, &'static str)],
    /// A word of the sheet under which it does not.
    pub unless: Option<(&'static str, &'static str)>,
    /// Circumstances that are then so.
    pub so: &'static [So],
    /// Facts by the rulebook's names.
    pub facts: &'static [(&'static str, Fact)],
}

impl Row {
    const fn only(mut self, words: &'static [(&'static str, &'static str)]) -> Row {
        self.only = words;
        self
    }

    const fn unless(mut self, name: &'static str, word: &'static str) -> Row {
        self.unless = Some((name, word));
        self
    }

    const fn so(mut self, so: &'static [So]) -> Row {
        self.so = so;
        self
    }

    const fn facts(mut self, facts: &'static [(&'static str, Fact)]) -> Row {
        self.facts = facts;
        self
    }
}

const fn row(
    sheet: &'static str,
    argument: &'static str,
    quantity: &'static str,
    takes: Takes,
) -> Row {
    Row {
        sheet,
        argument,
        quantity,
        takes,
        only: &[],
        unless: None,
        so: &[],
        facts: &[],
    }
}

use Takes::{Above, AtLeast, AtMost, Below, High, Low, Over, Share, ShareOver, Value};

const CLEARANCE: &str = "running.clearance";
const AXLE: &str = "running.axle";
const LATERAL: &str = "running.lateral";
const TENDER_AXLE: &str = "running.tender_axle";
const SIDE_BEARING: &str = "running.side_bearing";
const TIRES: &str = "running.tire_set";
const GAUGE: &str = "running.wheel_gauge";
const DRAWBAR: &str = "running.drawbar";
const HEIGHTS: &str = "running.heights";
const RESERVOIR: &str = "air.reservoir";
const LEAKAGE: &str = "air.leakage";
const TRAVEL: &str = "air.piston_travel";
const ORIFICE: &str = "air.orifice";
const TIRE: &str = "running.tire_limit";
const HYDRO: &str = "boiler.hydro";
const BUILDUP: &str = "boiler.buildup";
const VALVES: &str = "steam.safety_valve";
const SETTING: &str = "steam.valve_setting";

const OTHER_DRIVER: So = So::Judged {
    argument: "original",
    quantity: "journal-original-diameter",
    passes: "other-driving-axle",
    fails: "main-or-truck-axle",
};
const HEIGHT_OF_PLACE: So = So::Judged {
    argument: "altitude",
    quantity: "orifice-test-altitude",
    passes: "to-1000-ft",
    fails: "above-1000-ft",
};
const LISTED: So = So::Is("listed-compressor");
const COMPRESSOR: (&str, Fact) = ("compressor", Fact::Word("compressor"));
const TIRE_FACTS: &[(&str, Fact)] = &[
    ("axle_load", Fact::Argument("axle_load", "lb")),
    ("center_diameter", Fact::Argument("center_diameter", "in")),
];
const TIRE_SET_FACTS: &[(&str, Fact)] = &[
    ("axle_load", Fact::Argument("axle_load", "lb")),
    ("center_diameter", Fact::Argument("center", "in")),
];
const TENDER_LOAD: (&str, Fact) = ("axle_load", Fact::Argument("axle_load", "lb"));
const SPREAD: &[(&str, Fact)] = &[("spread", Fact::Argument("spread", "in"))];
const BUILDUP_FACTS: &[(&str, Fact)] = &[("required_wall", Fact::Argument("required", "in"))];
const MAWP: &[(&str, Fact)] = &[("working_pressure", Fact::Argument("mawp", "psi"))];

/// Every figure of law that a sheet asks for.
pub(super) static ROWS: &[Row] = &[
    row(CLEARANCE, "limit", "main-rod-bore-over-pin", AtMost).only(&[("pair", "main-pin")]),
    row(CLEARANCE, "limit", "main-rod-bore-over-pin", AtMost).only(&[("pair", "wrist-pin")]),
    row(CLEARANCE, "limit", "main-rod-lost-motion", AtMost).only(&[("pair", "main-rod-both-ends")]),
    row(CLEARANCE, "limit", "side-rod-bore-over-pin", AtMost)
        .only(&[("pair", "side-main-pin")])
        .so(&[So::Is("main-pin")]),
    row(CLEARANCE, "limit", "side-rod-bore-over-pin", AtMost)
        .only(&[("pair", "side-other-pin")])
        .so(&[So::Is("other-pin")]),
    row(CLEARANCE, "limit", "rod-side-motion", AtMost).only(&[("pair", "rod-side-motion")]),
    row(CLEARANCE, "limit", "crosshead-vertical", AtMost).only(&[("pair", "crosshead-vertical")]),
    row(CLEARANCE, "limit", "crosshead-lateral", AtMost).only(&[("pair", "crosshead-lateral")]),
    row(TIRE, "least_thickness", "tire-thickness", AtLeast).facts(TIRE_FACTS),
    row(TIRES, "least_thickness", "tire-thickness", AtLeast).facts(TIRE_SET_FACTS),
    row(TIRES, "axle_difference", "same-axle-diameter", AtMost),
    row(
        TIRES,
        "set_difference",
        "diameter-variation-all-turned",
        AtMost,
    )
    .only(&[("state", "just-turned")])
    .so(&[So::Is("at-tire-turning")]),
    row(TIRES, "hollow_limit", "tread-hollow", Below),
    row(TIRES, "least_flange", "flange-thickness", Above),
    row(AXLE, "limit", "journal-wear", Below)
        .only(&[("position", "main-driver")])
        .so(&[So::Is("main-or-truck-axle")]),
    row(AXLE, "limit", "journal-wear", Below)
        .only(&[("position", "engine-truck")])
        .so(&[So::Is("main-or-truck-axle")]),
    row(AXLE, "limit", "journal-wear", Below)
        .only(&[("position", "trailing-truck")])
        .so(&[So::Is("main-or-truck-axle")]),
    row(AXLE, "limit", "journal-wear", Below)
        .only(&[("position", "other-driver")])
        .so(&[OTHER_DRIVER]),
    row(LATERAL, "limit", "hub-lateral", AtMost)
        .only(&[("position", "driver")])
        .so(&[So::Is("driver")]),
    row(LATERAL, "limit", "hub-lateral", AtMost)
        .only(&[("position", "engine-truck-swing")])
        .so(&[So::Is("swing-center-truck")]),
    row(LATERAL, "limit", "hub-lateral", AtMost)
        .only(&[("position", "engine-truck-rigid")])
        .so(&[So::Is("rigid-center-truck")]),
    row(LATERAL, "limit", "hub-lateral", AtMost)
        .only(&[("position", "trailing-truck")])
        .so(&[So::Is("trailing-truck")]),
    row(
        TENDER_AXLE,
        "least_journal",
        "tender-axle-diameter",
        AtLeast,
    )
    .facts(&[TENDER_LOAD, ("place", Fact::Is("journal"))]),
    row(TENDER_AXLE, "least_seat", "tender-axle-diameter", AtLeast)
        .facts(&[TENDER_LOAD, ("place", Fact::Is("wheel-seat"))]),
    row(TENDER_AXLE, "least_center", "tender-axle-diameter", AtLeast)
        .facts(&[TENDER_LOAD, ("place", Fact::Is("center"))]),
    row(TENDER_AXLE, "collar_out", "tender-axle-collar", Above).only(&[("ends", "collar")]),
    row(TENDER_AXLE, "most_gouge", "tender-axle-gouge", AtMost),
    row(
        "running.safety_connection",
        "least_share",
        "safety-connection-strength",
        AtLeast,
    ),
    row(SIDE_BEARING, "limit", "side-bearing-clearance", AtMost)
        .only(&[("bearings", "rear")])
        .so(&[So::Is("rear-truck-50")]),
    row(SIDE_BEARING, "limit", "side-bearing-clearance", AtMost)
        .only(&[("bearings", "rear-wider")])
        .so(&[So::Is("rear-truck-wider")])
        .facts(SPREAD),
    row(SIDE_BEARING, "limit", "side-bearing-clearance", AtMost)
        .only(&[("bearings", "front")])
        .so(&[So::Is("front-truck-50")]),
    row(SIDE_BEARING, "limit", "side-bearing-clearance", AtMost)
        .only(&[("bearings", "front-wider")])
        .so(&[So::Is("front-truck-wider")])
        .facts(SPREAD),
    // On a narrow gauge the rule limits what the distance leaves of the track's gauge, and so does the sheet.
    row(GAUGE, "least", "inside-gauge", Low)
        .only(&[("gauge", "standard")])
        .so(&[So::Is("standard-gauge")]),
    row(GAUGE, "most", "inside-gauge", High)
        .only(&[("gauge", "standard")])
        .so(&[So::Is("standard-gauge")]),
    row(GAUGE, "least", "inside-gauge", Low)
        .only(&[("gauge", "narrow")])
        .so(&[So::Is("narrow-gauge")]),
    row(GAUGE, "most", "inside-gauge", High)
        .only(&[("gauge", "narrow")])
        .so(&[So::Is("narrow-gauge")]),
    row(GAUGE, "variation_limit", "back-to-back-variation", AtMost),
    row(DRAWBAR, "limit", "engine-tender-lost-motion", AtMost)
        .only(&[("buffer", "none")])
        .so(&[So::Is("no-spring-buffer")]),
    row(DRAWBAR, "least_compression", "buffer-compression", AtLeast)
        .only(&[("buffer", "spring")])
        .so(&[So::Is("spring-buffer")]),
    row(HEIGHTS, "least", "pilot-above-rail", Low).only(&[("place", "pilot")]),
    row(HEIGHTS, "most", "pilot-above-rail", High).only(&[("place", "pilot")]),
    row(HEIGHTS, "least", "ash-pan-above-rail", AtLeast).only(&[("place", "ash-pan")]),
    row(HEIGHTS, "least", "brake-gear-above-rail", AtLeast).only(&[("place", "brake-gear")]),
    row(HEIGHTS, "least", "tender-above-rail", AtLeast).only(&[("place", "tender")]),
    row(HEIGHTS, "most", "deck-height-difference", AtMost).only(&[("place", "deck-difference")]),
    row(RESERVOIR, "share", "reservoir-stress", Value)
        .only(&[("strength", "known")])
        .so(&[So::Is("strength-known")]),
    row(RESERVOIR, "allowed_stress", "reservoir-stress", Value)
        .only(&[("strength", "unknown")])
        .so(&[So::Is("strength-unknown")]),
    row(LEAKAGE, "limit", "reservoir-leakage", AtMost).only(&[("kind", "main-reservoir")]),
    row(
        LEAKAGE,
        "least_minutes",
        "reservoir-leakage-duration",
        Value,
    )
    .only(&[("kind", "main-reservoir")]),
    row(LEAKAGE, "start_share", "reservoir-leakage-start", Value)
        .only(&[("kind", "main-reservoir")]),
    row(LEAKAGE, "limit", "brake-pipe-leakage", AtMost).only(&[("kind", "brake-pipe")]),
    row(LEAKAGE, "least_minutes", "brake-cylinder-hold", AtLeast)
        .only(&[("kind", "brake-cylinder")]),
    row(TRAVEL, "limit", "brake-piston-travel", AtMost)
        .only(&[("kind", "cam-driver")])
        .so(&[So::Is("cam-driver-brake")]),
    row(TRAVEL, "limit", "brake-piston-travel", AtMost)
        .only(&[("kind", "other-driver")])
        .so(&[So::Is("other-driver-brake")]),
    row(TRAVEL, "limit", "brake-piston-travel", AtMost)
        .only(&[("kind", "engine-truck")])
        .so(&[So::Is("engine-truck-brake")]),
    row(TRAVEL, "limit", "brake-piston-travel", AtMost)
        .only(&[("kind", "tender")])
        .so(&[So::Is("tender-brake")]),
    row(ORIFICE, "least_share", "orifice-test-share", AtLeast)
        .only(&[("compressor", "unlisted")])
        .so(&[So::Is("unlisted-compressor")]),
    row(ORIFICE, "most_strokes", "orifice-test-speed", AtMost)
        .unless("compressor", "unlisted")
        .so(&[LISTED, HEIGHT_OF_PLACE])
        .facts(&[
            COMPRESSOR,
            ("altitude", Fact::Argument("altitude", "ft")),
            (
                "table_speed",
                Fact::Figure("orifice-test-speed", &["listed-compressor", "to-1000-ft"]),
            ),
        ]),
    row(ORIFICE, "least_pressure", "orifice-test-pressure", AtLeast)
        .unless("compressor", "unlisted")
        .so(&[LISTED])
        .facts(&[COMPRESSOR]),
    row(ORIFICE, "orifice", "orifice-diameter", Value)
        .unless("compressor", "unlisted")
        .so(&[LISTED])
        .facts(&[COMPRESSOR]),
    row("boiler.stay", "allowable", "stay-stress", AtMost),
    row("boiler.brace", "allowable", "brace-stress", AtMost),
    row("boiler.shell", "factor", "boiler-safety-factor", AtLeast),
    row("boiler.shell", "tensile", "plate-tensile-unknown", Value),
    row("boiler.seam", "tensile", "plate-tensile-unknown", Value),
    row("boiler.seam", "shear", "rivet-shear", AtMost)
        .facts(&[("shear", Fact::Is("single-shear"))]),
    row("boiler.seam", "shear_double", "rivet-shear", AtMost)
        .facts(&[("shear", Fact::Is("double-shear"))]),
    row(
        HYDRO,
        "test_above",
        "hydrostatic-pressure",
        ShareOver("mawp"),
    )
    .so(&[So::Is("hydrostatic-test")])
    .facts(MAWP),
    row(HYDRO, "steam_low", "steam-test-pressure", Low).so(&[So::Is("after-repair")]),
    row(HYDRO, "steam_high", "steam-test-pressure", High).so(&[So::Is("after-repair")]),
    row(
        "boiler.water_level",
        "least_above",
        "glass-lowest-reading",
        AtLeast,
    ),
    row(BUILDUP, "area_limit", "weld-buildup-area", AtMost),
    // The rule has one formula for the depth, the smaller of a share and a size: it stands for both.
    row(
        BUILDUP,
        "depth_share",
        "weld-buildup-depth",
        Share("required"),
    )
    .facts(BUILDUP_FACTS),
    row(BUILDUP, "depth_limit", "weld-buildup-depth", AtMost).facts(BUILDUP_FACTS),
    row(BUILDUP, "least_share", "weld-buildup-remaining", AtLeast),
    row(VALVES, "set_above", "set-pressure", Over("mawp")).facts(MAWP),
    row(VALVES, "accumulation", "accumulation", AtMost),
    row(SETTING, "set_above", "set-pressure", Over("mawp")).facts(MAWP),
];

/// What the book knows of an engine that a sheet asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Known {
    /// Weight on drivers per driving axle.
    AxleLoad,
    /// Gauge of her track.
    TrackGauge,
    /// Maximum allowable working pressure.
    Mawp,
}

/// Which argument of which sheet the book has for an engine.
pub(super) static OF_ENGINE: &[(&str, &str, Known)] = &[
    (TIRE, "axle_load", Known::AxleLoad),
    (TIRES, "axle_load", Known::AxleLoad),
    (GAUGE, "track_gauge", Known::TrackGauge),
    (VALVES, "mawp", Known::Mawp),
    (SETTING, "mawp", Known::Mawp),
    (HYDRO, "mawp", Known::Mawp),
];
