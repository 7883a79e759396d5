//! `air.orifice`: whether an air compressor still gives what it should, by the pressure it holds against a hole.

use crate::answer::{Answer, Outcome, less};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Dimension, House, Rounding, Stress};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The compressors that the table of the law names, and the others.
pub const COMPRESSORS: [&str; 8] = [
    "westinghouse-9-1/2",
    "westinghouse-11",
    "westinghouse-8-1/2-150",
    "westinghouse-8-1/2-120",
    "new-york-2a",
    "new-york-6a",
    "new-york-5b",
    "unlisted",
];

const HELD: &str = "what was held, beside what must be";
const LISTED: &str = "a listed compressor";
const UNLISTED: &str = "an unlisted compressor";

static CARD: Card = Card {
    id: "air.orifice",
    version: 1,
    title: "Orifice test of an air compressor",
    purpose: "A compressor on a tested orifice: the strokes it needed and the pressure it held, beside what the rule asks at this \
        height above the sea; one that the table leaves out goes by a share of its maker's rating.",
    formula: "
        n_r = n_m
        n_l = n_m - n
        p_l = p - p_m
        s = q / q_r
        s_l = s - s_m",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "compressor",
            &COMPRESSORS,
            "which compressor it is, as the table of the law calls it",
        ),
        Argument::quantity(
            "altitude",
            "h",
            Dimension::Length,
            "-300 ft",
            "15000 ft",
            "height of the place above the sea: the strokes allowed hang on it",
        ),
        Argument::quantity(
            "strokes",
            "n",
            Dimension::Ratio,
            "1",
            "400",
            "single strokes in a minute that held the pressure",
        )
        .optional(),
        Argument::quantity(
            "held",
            "p",
            Dimension::GaugePressure,
            "0 psig",
            "250 psig",
            "pressure held against the orifice",
        )
        .optional(),
        figure(
            "most_strokes",
            "n_m",
            Dimension::Ratio,
            "1",
            "400",
            "the most strokes in a minute at this height, by the law in force; the figure itself passes",
        ),
        figure(
            "least_pressure",
            "p_m",
            Dimension::GaugePressure,
            "1 psig",
            "250 psig",
            "the least it must hold, by the law in force; the figure itself passes",
        ),
        figure(
            "orifice",
            "o",
            Dimension::Length,
            "0.05 in",
            "1 in",
            "the orifice to be used, by the law in force",
        ),
        Argument::quantity(
            "delivered",
            "q",
            Dimension::Ratio,
            "0.1",
            "1000",
            "an unlisted compressor: what it gave, in the unit of its rating",
        )
        .optional(),
        Argument::quantity(
            "rated",
            "q_r",
            Dimension::Ratio,
            "0.1",
            "1000",
            "an unlisted compressor: its maker's rating",
        )
        .optional(),
        figure(
            "least_share",
            "s_m",
            Dimension::Ratio,
            "0.05",
            "1",
            "the least share of that rating, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "required_strokes",
            "n_r",
            Dimension::Ratio,
            (1, 1),
            "the most strokes in a minute at this height",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "strokes_left",
            "n_l",
            Dimension::Ratio,
            (1, 1),
            "strokes to spare; with a minus, too many",
            HELD,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "pressure_over",
            "p_l",
            Dimension::Stress,
            (1, 4),
            "pressure held over the least; with a minus, what is wanting",
            HELD,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "share",
            "s",
            Dimension::Ratio,
            (3, 3),
            "share of the maker's rating",
            HELD,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "share_over",
            "s_l",
            Dimension::Ratio,
            (3, 3),
            "what that is over the least; with a minus, what is wanting",
            HELD,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figures given", FIGURE),
    ],
    branches: &[LISTED, UNLISTED],
    validity: "Steam at its usual pressure, the orifice sharp and of the size the rule names, gauge tested. Strokes are single strokes: \
        up and down are two.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.71(b)",
        used_for: "how the test is made and which compressors its table names; no figure of it is in this sheet",
    }],
    cautions: &[
        "Stand clear of the jet, ears and eyes covered; nothing held in front of it.",
        "A compressor is shut off, drained and its air let out before a head or valve cap is slacked.",
        "Live steam cylinders burn: let it cool before hands go to it.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |name| inputs.si(name);
    let unlisted = inputs.word("compressor") == Some("unlisted");
    let share = of("delivered")
        .zip(of("rated"))
        .map(|(given, rated)| given / rated);
    let held = if unlisted {
        let from = inputs.wanting(&["delivered", "rated"]).join(", ");
        Held::default().hold(
            "share of the rating",
            (share, &from),
            Bound::AtLeast,
            (of("least_share"), "least_share"),
        )
    } else {
        Held::default()
            .hold(
                "strokes",
                (of("strokes"), "strokes"),
                Bound::AtMost,
                (of("most_strokes"), "most_strokes"),
            )
            .hold(
                "pressure held",
                (of("held"), "held"),
                Bound::AtLeast,
                (of("least_pressure"), "least_pressure"),
            )
    };
    let mut answer =
        Answer::new(if unlisted { UNLISTED } else { LISTED }).with("complies", held.words());
    for (result, value) in [
        ("required_strokes", of("most_strokes")),
        (
            "strokes_left",
            of("most_strokes")
                .zip(of("strokes"))
                .map(|(most, strokes)| less(most, strokes, Dimension::Ratio)),
        ),
        ("share", share),
        (
            "share_over",
            share
                .zip(of("least_share"))
                .map(|(share, least)| less(share, least, Dimension::Ratio)),
        ),
    ] {
        if let Some(value) = value {
            answer = answer.with(result, Outcome::Si(value));
        }
    }
    if let Some((held, least)) = of("held").zip(of("least_pressure")) {
        answer = answer.with(
            "pressure_over",
            Stress::pascals(less(held, least, Dimension::GaugePressure)),
        );
    }
    let wanted: &[&str] = if unlisted {
        &["least_share"]
    } else {
        &["most_strokes", "least_pressure"]
    };
    if !inputs.wanting(wanted).is_empty() {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    Ok(answer)
}
