//! `running.tender_axle`: the diameters of a tender's axle, its collar and its gouges, each against the figure for the load on it.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use crate::readings::{ends, governing, more, which};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const READ: &str = "the readings";
const JOURNAL: Symbol = Symbol::of("d_j", Dimension::Length, "smallest of the journals", READ);
const SEAT: Symbol = Symbol::of(
    "d_s",
    Dimension::Length,
    "smallest of the wheel seats",
    READ,
);
const CENTER: Symbol = Symbol::of("d_c", Dimension::Length, "smallest of the center", READ);
const COLLAR: Symbol = Symbol::of("t_k", Dimension::Length, "thinnest of the collars", READ);

/// One place of the axle: what is read, the figure that holds it, what is left, how it is held and how it is called.
struct Place {
    readings: &'static str,
    figure: &'static str,
    left: &'static str,
    bound: Bound,
    symbol: Symbol,
    what: &'static str,
}

const PLACES: [Place; 4] = [
    Place {
        readings: "journal",
        figure: "least_journal",
        left: "journal_left",
        bound: Bound::AtLeast,
        symbol: JOURNAL,
        what: "journal",
    },
    Place {
        readings: "wheel_seat",
        figure: "least_seat",
        left: "seat_left",
        bound: Bound::AtLeast,
        symbol: SEAT,
        what: "wheel seat",
    },
    Place {
        readings: "center",
        figure: "least_center",
        left: "center_left",
        bound: Bound::AtLeast,
        symbol: CENTER,
        what: "center",
    },
    Place {
        readings: "collar",
        figure: "collar_out",
        left: "collar_left",
        bound: Bound::Above,
        symbol: COLLAR,
        what: "collar",
    },
];

/// Readings of one place of the axle.
const fn readings(name: &'static str, least: &'static str, meaning: &'static str) -> Argument {
    Argument::list(name, Dimension::Length, least, "16 in", (1, 24), meaning)
}

/// What is left of one place.
const fn left(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Length, (4, 3), meaning, FIGURE)
        .rounded(Rounding::Down)
}

static CARD: Card = Card {
    id: "running.tender_axle",
    version: 1,
    title: "Axle of a tender by the load on it",
    purpose: "Journal, wheel seat and center of a tender's axle, each against the least diameter for the load it carries; the \
        collar and the deepest gouge besides. The smallest reading of each place governs.",
    formula: "
        l_j = d_j - a_j
        l_s = d_s - a_s
        l_c = d_c - a_c
        l_k = t_k - a_k
        l_g = a_g - g",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "axle_load",
            "W",
            Dimension::Force,
            "1000 lb",
            "100000 lb",
            "weight on this axle with tank and bunker full: the least diameters hang on it",
        )
        .optional(),
        readings("journal", "1 in", "readings of the journals, both ends"),
        readings(
            "wheel_seat",
            "1 in",
            "readings of the wheel seats, as pressed or as far as they show",
        )
        .optional(),
        readings(
            "center",
            "1 in",
            "readings of the axle between the wheels, at its smallest",
        )
        .optional(),
        Argument::word(
            "ends",
            &["collar", "no-collar"],
            "whether the journals end in a collar",
        ),
        readings(
            "collar",
            "0.01 in",
            "thickness of the collars, at the thinnest place",
        )
        .optional(),
        Argument::quantity(
            "gouge",
            "g",
            Dimension::Length,
            "0 in",
            "4 in",
            "depth of the deepest gouge between the wheel seats; 0 where it was looked for and there is none",
        )
        .optional(),
        figure(
            "least_journal",
            "a_j",
            Dimension::Length,
            "1 in",
            "16 in",
            "the least the journal may be, by the law in force; the figure itself passes",
        ),
        figure(
            "least_seat",
            "a_s",
            Dimension::Length,
            "1 in",
            "16 in",
            "the least the wheel seat may be; the figure itself passes",
        ),
        figure(
            "least_center",
            "a_c",
            Dimension::Length,
            "1 in",
            "16 in",
            "the least the center may be; the figure itself passes",
        ),
        figure(
            "collar_out",
            "a_k",
            Dimension::Length,
            "0.01 in",
            "4 in",
            "thickness at which a collar is out; the figure itself fails",
        ),
        figure(
            "most_gouge",
            "a_g",
            Dimension::Length,
            "0.01 in",
            "4 in",
            "the deepest a gouge may be; the figure itself passes",
        ),
    ],
    table_values: &[JOURNAL, SEAT, CENTER, COLLAR],
    lines: &[],
    results: &[
        left(
            "journal_left",
            "l_j",
            "journal over its least diameter; with a minus, what it is under",
        ),
        left("seat_left", "l_s", "wheel seat over its least diameter"),
        left("center_left", "l_c", "center over its least diameter"),
        left(
            "collar_left",
            "l_k",
            "collar over the thickness at which it is out; at nothing it is out",
        ),
        left("gouge_left", "l_g", "what the deepest gouge keeps of its figure"),
        ResultSpec::text("complies", "how the axle stands to the figures given", FIGURE),
    ],
    branches: &["collar", "no-collar"],
    validity: "Axles of tender trucks by size alone. The law prints five loads; a load between two of them is held to the larger \
        one, which is our reading of it. An axle that is bent, cracked, seamed, run hot or with a worn-out fillet comes out \
        whatever its size.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.99, 230.100(a)(2) and (a)(5)",
        used_for: "which places of the axle are limited, by which load; no figure of it is in this sheet",
    }],
    cautions: &[
        "An axle is looked at for cracks each time it is bare: a thick one breaks too.",
        "Nobody under a tender on jacks: empty the tank, chock the trucks, blocking carries.",
        "What is turned off cannot be put back by welding: axles are not built up.",
    ],
    closed_form: ClosedForm::Yes,
};

/// What a diameter keeps over its least; with a minus what it is under.
pub fn over(diameter: Length, least: Length) -> Length {
    Length::m(more(diameter.to_m(), least.to_m()))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let collared = inputs.word("ends") == Some("collar");
    if !collared && !inputs.list_si("collar").is_empty() {
        return Err(SheetError::impossible(
            CARD.id,
            "a collar was read on journals that have none",
            "ends=collar, or no reading of a collar",
        ));
    }
    let mut answer = Answer::new(if collared { "collar" } else { "no-collar" });
    let mut held = Held::default();
    for place in &PLACES {
        if place.readings == "collar" && !collared {
            answer = answer.waiting(&[place.left], &["a collar"]);
            continue;
        }
        let read = inputs.list_si(place.readings);
        let (value, limit) = (
            if read.is_empty() {
                None
            } else {
                Some(ends(inputs, place.readings)?.0)
            },
            inputs.si(place.figure),
        );
        held = held.hold(
            place.what,
            (value, place.readings),
            place.bound,
            (limit, place.figure),
        );
        if let Some(value) = value {
            answer.found.push(governing(
                place.symbol,
                value,
                which("smallest", read, place.what),
            ));
        }
        answer = match (value, limit) {
            (Some(value), Some(limit)) => {
                answer.with(place.left, over(Length::m(value), Length::m(limit)))
            }
            _ => {
                let wanting = inputs.wanting(&[place.readings, place.figure]);
                answer.waiting(&[place.left], &wanting)
            }
        };
    }
    let (gouge, most) = (inputs.si("gouge"), inputs.si("most_gouge"));
    held = held.hold(
        "gouge",
        (gouge, "gouge"),
        Bound::AtMost,
        (most, "most_gouge"),
    );
    if let (Some(gouge), Some(most)) = (gouge, most) {
        answer = answer.with("gouge_left", Length::m(more(most, gouge)));
    }
    let figures = ["least_journal", "least_seat", "least_center", "most_gouge"];
    let wanting = figures.iter().any(|name| inputs.si(name).is_none())
        || (collared && inputs.si("collar_out").is_none());
    if wanting {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    if inputs.si("axle_load").is_none() {
        answer.notices.push(
            "The load on this axle was not given: the law's least diameters hang on it.".to_owned(),
        );
    }
    Ok(answer.with("complies", held.words()))
}
