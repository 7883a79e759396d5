//! What each of the law's reports of an inspection asks, and where this book has the answer.
//!
//! The lines are those of the rulebook's own paper rules (`contents`), each with the section that asks for the work
//! behind it. A test holds that no line of a rule is without a row here, and that no row names an item or a line that
//! is not there. Where a form as printed was not read, a row says so.

/// Where the answer to a field is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// The book does not hold it: room for a pen.
    Pen,
    /// The number of the engine and her initials.
    Engine,
    /// The days of the inspection.
    Days,
    /// Place, days and time of day of the inspection.
    Made,
    /// What the shop says of itself or of the engine, by the words of `record::PARTICULARS`.
    Stated(&'static [&'static str]),
    /// The answers to these items, by the ends of their rules.
    Items(&'static [&'static str]),
    /// The findings of this inspection.
    Found,
    /// Those of them that are put right.
    PutRight,
    /// The last inspection of a kind before this one.
    Last(&'static str),
    /// The form as printed was not read.
    NotRead,
}

/// A field of a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    /// The line of the rule that asks for the paper.
    pub line: &'static str,
    /// The section behind the work.
    pub section: &'static str,
    /// Where the answer is.
    pub held: Held,
}

/// A report: the rule that asks for it, and its fields in order.
pub struct Report {
    /// The rule's id.
    pub rule: &'static str,
    /// The kinds of inspection whose own paper it is.
    pub own: &'static [&'static str],
    /// These, and the larger ones that contain the work it speaks of.
    pub kinds: &'static [&'static str],
    /// Its fields.
    pub fields: &'static [Field],
}

impl Report {
    /// The rule set it belongs to: `us-steam`.
    pub fn set(&self) -> &'static str {
        self.rule.split_once('.').map_or(self.rule, |(set, _)| set)
    }
}

const fn field(line: &'static str, section: &'static str, held: Held) -> Field {
    Field {
        line,
        section,
        held,
    }
}

use self::Held::{Days, Engine, Found, Items, Last, Made, NotRead, Pen, PutRight, Stated};

const OWNERS: &[&str] = &["owner", "operator"];
const RAILROAD: &[&str] = &["railroad"];

/// Every report of an inspection, the larger paper first.
pub const REPORTS: &[Report] = &[
    Report {
        rule: "us-steam.form-3-and-4.after-1472",
        own: &["1472"],
        kinds: &["1472"],
        fields: &[
            field(
                "engine and boiler number, date built, builder, owner, operator, type of boiler, place of the dome",
                "230.17",
                Stated(&[
                    "boiler-number",
                    "built",
                    "builder",
                    "owner",
                    "operator",
                    "boiler-type",
                    "dome",
                ]),
            ),
            field(
                "of each course and of the rivets: wrought iron, carbon or alloy steel; carbon content; condition; proof of how the material was found, attached",
                "230.26",
                Pen,
            ),
            field(
                "thickness of the front flue sheet, and of courses 1 to 3 at the seam and at the thinnest place",
                "230.17",
                Items(&["1472.thickness-survey"]),
            ),
            field(
                "inside diameter, at each end where the boiler tapers",
                "230.23",
                Pen,
            ),
            field(
                "whether it is round everywhere; where and how much flattened; whether flats are stayed enough for the pressure",
                "230.17",
                Pen,
            ),
            field(
                "water space at the mud ring and at the center line of the boiler",
                "230.17",
                Pen,
            ),
            field(
                "from here on from memory: material and thickness of firebox, wrapper and chamber sheets",
                "230.17",
                Pen,
            ),
            field("dome: pieces, thickness, opening, liner", "230.17", Pen),
            field(
                "tubes, flues, arch tubes, siphons: number, outside diameter, wall, length",
                "230.31, 230.61",
                Items(&["1472.flues", "annual.arch-tube-thickness"]),
            ),
            field(
                "stays, rigid, flexible and crown: least diameter, hole, pitch, area carried, stress",
                "230.25",
                Pen,
            ),
            field(
                "braces: number, area, load and stress, by place",
                "230.25",
                Pen,
            ),
            field(
                "seams, lengthwise and around: type, rivets, holes, straps, efficiency, sketch",
                "230.24, 230.27",
                Pen,
            ),
            field(
                "fittings: safety valves with capacity, glass and cock heights above the crown sheet, injectors, heating surface, grate",
                "230.48, 230.51",
                Pen,
            ),
            field(
                "results: lowest safety factor, governing part, MAWP, stress of stays and braces",
                "230.23 to 230.25",
                Pen,
            ),
            field(
                "drawings, survey readings, tests of material, alteration reports",
                "230.17, 230.20",
                Pen,
            ),
        ],
    },
    Report {
        rule: "us-steam.form-3.after-annual",
        own: &["annual", "fifth-annual", "1472"],
        kinds: &["annual", "fifth-annual", "1472"],
        fields: &[
            field(
                "removal of flexible staybolt caps and the tests made in their place, in a fifth annual",
                "230.41",
                Items(&["fifth-annual.flexible-staybolts"]),
            ),
            field(
                "the wash, where it is noted here and not on Form 1",
                "230.60",
                Items(&["31.wash"]),
            ),
            field(
                "fusible plugs taken out, where they are noted here and not on Form 1",
                "230.59",
                Items(&["31.fusible-plugs"]),
            ),
            field(
                "the other fields of Form 3 as printed",
                "230.16(c)",
                NotRead,
            ),
        ],
    },
    Report {
        rule: "us-steam.form-1.after-92",
        own: &["92"],
        kinds: &["92", "annual", "fifth-annual", "1472"],
        fields: &[
            field("owner and operator", "230.15(b)", Stated(OWNERS)),
            field("date of the inspection", "230.15(b)", Days),
            field("initials and number of the engine", "230.15(b)", Engine),
            field("92 service days: day of the last one", "230.15", Last("92")),
            field(
                "tubular water glasses renewed",
                "230.55(a)",
                Items(&["92.tubular-glasses"]),
            ),
            field(
                "pressures at which the safety valves lift",
                "230.49, 230.50",
                Items(&["92.safety-valves"]),
            ),
            field(
                "orifice test of the compressor",
                "230.71(a)",
                Items(&["92.orifice-test"]),
            ),
            field(
                "steam gauges",
                "230.44",
                Items(&["92.gauges", "92.siphon-pipe"]),
            ),
            field(
                "main reservoir leakage",
                "230.78(a)",
                Items(&["92.reservoir-and-cylinder-leakage"]),
            ),
            field("air gauges", "230.73(b)", Items(&["92.gauges"])),
            field(
                "brake cylinder leakage",
                "230.78(b)",
                Items(&["92.reservoir-and-cylinder-leakage"]),
            ),
            field("fields of Form 1 after these", "230.15(b)", NotRead),
        ],
    },
    Report {
        rule: "us-steam.form-1.after-31",
        own: &["31"],
        kinds: &["31", "92", "annual", "fifth-annual", "1472"],
        fields: &[
            field("owner and operator", "230.14(c)", Stated(OWNERS)),
            field("date of the inspection", "230.14(c)", Days),
            field("initials and number of the engine", "230.14(c)", Engine),
            field(
                "31 service days: boiler washed",
                "230.60(a)",
                Items(&["31.wash"]),
            ),
            field(
                "water glass valves and passages",
                "230.53",
                Items(&["31.glass-passages"]),
            ),
            field(
                "gauge cock passages",
                "230.53",
                Items(&["31.glass-passages"]),
            ),
            field(
                "washout and water tube plugs",
                "230.60(b)",
                Items(&["31.washout-plugs"]),
            ),
            field(
                "arch tubes, water bar tubes, circulators, siphons",
                "230.61(a)",
                Items(&["31.arch-tubes"]),
            ),
            field("fusible plugs", "230.59", Items(&["31.fusible-plugs"])),
            field("staybolts hammered", "230.40(a)", Items(&["31.staybolts"])),
            field("broken staybolts renewed", "230.39(b)", Pen),
            field(
                "steam leaks",
                "230.64, 230.65",
                Items(&["daily.lagging-leaks", "daily.view-leaks"]),
            ),
            field(
                "draft system and draw gear",
                "230.63, 230.90",
                Items(&["annual.smoke-box", "daily.draw-gear", "daily.draft-gear"]),
            ),
            field(
                "running gear",
                "230.97 to 230.114",
                Items(&["daily.running-gear"]),
            ),
            field(
                "driving gear",
                "230.93 to 230.97",
                Items(&["daily.crossheads", "daily.piston-rods", "daily.rods"]),
            ),
            field(
                "springs and equalizing gear",
                "230.111",
                Items(&["daily.running-gear"]),
            ),
            field(
                "tender running gear",
                "230.107, 230.109",
                Items(&[
                    "daily.running-gear",
                    "daily.tender-frame-and-tanks",
                    "daily.tender-side-bearings",
                ]),
            ),
            field(
                "brake gear",
                "230.76, 230.77",
                Items(&[
                    "daily.brake-and-signal",
                    "daily.piston-travel",
                    "daily.foundation-brake",
                ]),
            ),
            field("injectors", "230.57", Items(&["daily.feedwater"])),
            field("feed pump", "230.57", Items(&["daily.feedwater"])),
        ],
    },
    Report {
        rule: "us-steam.form-2.daily",
        own: &["daily"],
        kinds: &["daily"],
        fields: &[
            field("railroad", "230.13(c)", Stated(RAILROAD)),
            field("initials and number of the engine", "230.13(c)", Engine),
            field("place, date and time", "230.13(c)", Made),
            field("faults the inspection found", "230.13(c)", Found),
            field(
                "faults found during the day and repaired",
                "230.13(c)",
                PutRight,
            ),
        ],
    },
    Report {
        rule: "us-diesel.keep.daily-report",
        own: &["daily", "qualified-daily"],
        kinds: &["daily", "qualified-daily"],
        fields: &[
            field("railroad", "229.21(a)", Stated(RAILROAD)),
            field("initials and number", "229.21(a)", Engine),
            field("place, date and time", "229.21(a)", Made),
            field("faults", "229.21(a)", Found),
            field("repairs", "229.21(a)", PutRight),
        ],
    },
    Report {
        rule: "us-diesel.posted.periodic",
        own: &["periodic"],
        kinds: &["periodic"],
        fields: &[
            field("number of the engine", "229.23(e)", Engine),
            field("date of the inspection", "229.23(e)", Days),
            field(
                "the other fields of Form F 6180-49A as printed",
                "229.23(e)",
                NotRead,
            ),
        ],
    },
];

/// Who signs a report of which the rule's own list does not say it (49 CFR 229.21(a): inspector and repairer).
pub const SIGNERS: &[(&str, &[&str])] = &[(
    "us-diesel.keep.daily-report",
    &["the inspector", "the repairer"],
)];
