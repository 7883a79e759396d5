//! The card of `thread.mate`.

use crate::card::{Argument, Card, ClosedForm, Kind, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::tables::MATERIALS;
use crate::thread::card::{figure, length, line, tpi};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.mate";

const GEOMETRY: &str = "plane geometry";
const TABLE: &str = "tables/material/expansion.csv";

pub(super) const SHARE: Symbol = figure(
    "k_e",
    "pitch diameter under the major, in pitches",
    "the form",
);
pub(super) const WAY: Symbol = figure(
    "v",
    "1 for a new nut, -1 for a new screw",
    "the side measured",
);
pub(super) const INNER: Symbol =
    Symbol::named("e_i", "per 100 °F", "expansion of the screw's metal", TABLE);
pub(super) const OUTER: Symbol =
    Symbol::named("e_o", "per 100 °F", "expansion of the nut's metal", TABLE);

const fn given(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(name, symbol, Dimension::Length, "0.1 in", "8 in", meaning)
}

const fn small(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(name, symbol, Dimension::Length, "0 in", "0.1 in", meaning)
}

const fn size(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    length(name, symbol, meaning, GEOMETRY)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "A new mate to an old thread",
    purpose: "The limits to which a new nut is made for an old screw, or a new screw for an old nut, \
        from what the old one measures and the clearance wanted: cold, and so that the clearance is \
        still there when both are hot.",
    formula: "
        P = 1 / n
        E_a = e + v * c
        E_b = E_a + v * T
        E_min = min(E_a, E_b)
        E_max = max(E_a, E_b)
        d_n = d + v * c
        m_n = m + v * c
        o = d - e - k_e * P
        g = e * (e_i - e_o) * t / 100
        C = c + max(0, g)
        H_a = e + v * C
        H_b = H_a + v * T
        H_min = min(H_a, H_b)
        H_max = max(H_a, H_b)
        d_h = d + v * C
        m_h = m + v * C
        C_h = C - g",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "form",
            &[
                "unified",
                "sharp-v",
                "whitworth",
                "acme",
                "stub-acme",
                "square",
            ],
            "form of the old thread, proved and not assumed",
        ),
        tpi("1", "48"),
        Argument::word(
            "side",
            &["external", "internal"],
            "which is the old one: a screw, or a nut or hole",
        ),
        given(
            "pitch_diameter",
            "e",
            "pitch diameter of the old one: largest of a screw, smallest of a nut",
        ),
        small(
            "clearance",
            "c",
            "clearance wanted on the diameter, when it works",
        ),
        small(
            "tolerance",
            "T",
            "tolerance the new pitch diameter may have",
        )
        .optional(),
        given("major", "d", "major diameter of the old one").optional(),
        given("minor", "m", "minor diameter of the old one").optional(),
        Argument {
            name: "materials",
            symbol: "materials",
            meaning: "metals of the new and the old one",
            kind: Kind::Words {
                choices: &MATERIALS,
                roles: &["new", "old"],
            },
            required: false,
        },
        Argument::quantity(
            "rise",
            "t",
            Dimension::TemperatureRise,
            "0 F",
            "800 F",
            "how much hotter it works than it was measured",
        )
        .optional(),
    ],
    table_values: &[SHARE, WAY, INNER, OUTER],
    lines: &[
        line("P", "pitch", GEOMETRY),
        line("E_b", "new pitch diameter, the side further off", GEOMETRY),
        line("C", "clearance it is made with, for use hot", GEOMETRY),
        line("H_b", "the same for use hot, further off", GEOMETRY),
    ],
    results: &[
        size(
            "pitch_near",
            "E_a",
            "new pitch diameter, the limit next to the old one, for use cold",
        ),
        size(
            "pitch_near_hot",
            "H_a",
            "the same for use hot, measured cold",
        ),
        size(
            "pitch_min",
            "E_min",
            "new pitch diameter, least, for use cold",
        ),
        size(
            "pitch_max",
            "E_max",
            "new pitch diameter, most, for use cold",
        ),
        size(
            "major_limit",
            "d_n",
            "new major diameter: of a nut not less, of a screw not more",
        ),
        size(
            "minor_limit",
            "m_n",
            "new minor diameter: of a nut not less, of a screw not more",
        ),
        size(
            "crest_off",
            "o",
            "old major diameter less what its pitch diameter gives",
        ),
        length(
            "growth_lost",
            "g",
            "clearance lost when hot (under zero: gained)",
            TABLE,
        ),
        size(
            "pitch_min_hot",
            "H_min",
            "new pitch diameter, least, for use hot, measured cold",
        ),
        size(
            "pitch_max_hot",
            "H_max",
            "new pitch diameter, most, for use hot, measured cold",
        ),
        size(
            "major_limit_hot",
            "d_h",
            "new major diameter for use hot: of a nut not less, of a screw not more",
        ),
        size(
            "minor_limit_hot",
            "m_h",
            "new minor diameter for use hot: of a nut not less, of a screw not more",
        ),
        size("clearance_when_hot", "C_h", "clearance when both are hot"),
    ],
    branches: &["new nut", "new screw"],
    validity: "Parallel threads of one pitch, new and old, the old one round and measured at its tightest \
        place; both at one temperature when measured and when hot. Error of lead over the length engaged \
        eats clearance and is not in it.",
    sources: &[
        Source {
            work: "Plane geometry",
            locator: "the notes of this law",
            used_for: "every size",
        },
        Source {
            work: "tables/material/expansion.csv",
            locator: "its card",
            used_for: "expansion of the metals",
        },
    ],
    cautions: &[
        "A new thread on a badly worn one bears on a few turns only. Whether the old part may stay is for \
            the responsible officer and, in a boiler, its code.",
        "Make a trial ring or plug first; then the part.",
        "A hot stem that seizes is turned by nobody: give steam threads their clearance and growth.",
    ],
    closed_form: ClosedForm::No("the form's figure, the way and the expansions are looked up"),
};
