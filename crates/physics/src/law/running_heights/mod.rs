//! `running.heights`: heights above the rail, before and after the engine comes down.

use crate::answer::{Answer, Outcome};
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

/// What has a height that a limit may be on.
pub const PLACES: [&str; 7] = [
    "pilot",
    "ash-pan",
    "brake-gear",
    "tender",
    "deck-difference",
    "coupler",
    "frame",
];

const READ: &str = "the readings";
const HIGHEST: Symbol = Symbol::of("h_x", Dimension::Length, "highest reading", READ);
const LOWEST: Symbol = Symbol::of("h_n", Dimension::Length, "lowest reading", READ);

static CARD: Card = Card {
    id: "running.heights",
    version: 1,
    title: "Heights above the rail",
    purpose: "Heights read at several places on straight level track: how much they differ, what is left to the least and the \
        most allowed, and what is left once the engine has come down, as after tires are turned.",
    formula: "
        s = h_x - h_n
        l_n = h_n - a
        l_x = b - h_x
        h_d = h_n - d
        l_d = h_d - a",
    book_units: None,
    arguments: &[
        Argument::word(
            "place",
            &PLACES,
            "what is measured: its limits hang on it; deck-difference is the tender's deck against the cab floor",
        ),
        Argument::list(
            "readings",
            Dimension::Length,
            "0 in",
            "120 in",
            (1, 16),
            "heights above the rail, or differences, one for each place",
        ),
        Argument::quantity(
            "comes_down",
            "d",
            Dimension::Length,
            "0 in",
            "6 in",
            "how far it will come down: the drop of running.tire_set, a shim taken out",
        )
        .optional(),
        figure(
            "least",
            "a",
            Dimension::Length,
            "0.1 in",
            "120 in",
            "the least that is allowed, by the law in force; the figure itself passes",
        ),
        figure(
            "most",
            "b",
            Dimension::Length,
            "0.1 in",
            "120 in",
            "the most that is allowed, by the law in force; the figure itself passes",
        ),
        Argument::word(
            "figures",
            &["both", "least-alone", "most-alone"],
            "which of the two the rule has for this place",
        ),
    ],
    table_values: &[HIGHEST, LOWEST],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "spread",
            "s",
            Dimension::Length,
            (3, 2),
            "highest over lowest",
            READ,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "above_least",
            "l_n",
            Dimension::Length,
            (3, 2),
            "what is left to the least; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "below_most",
            "l_x",
            Dimension::Length,
            (3, 2),
            "what is left to the most; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "lowest_after",
            "h_d",
            Dimension::Length,
            (3, 2),
            "lowest once it has come down",
            READ,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "above_least_after",
            "l_d",
            Dimension::Length,
            (3, 2),
            "what is left to the least then",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figures given", FIGURE),
        ResultSpec::text(
            "complies_after",
            "how the lowest stands to the least once it has come down",
            FIGURE,
        ),
    ],
    branches: &["heights"],
    validity: "Straight level track, tanks and fuel as they run, springs settled: move her and read again.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.69, 230.77, 230.107, 230.110",
        used_for: "what has a height that is limited; no figure of it is in this sheet",
    }],
    cautions: &[
        "Nobody under an engine on jacks: blocking carries, jacks lift.",
        "Block the wheels and protect the track before anyone goes beneath.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let readings = inputs.list_si("readings");
    let (low, high) = ends(inputs, "readings")?;
    let of = |name| inputs.si(name);
    let figures = inputs.word("figures").unwrap_or("both");
    let (asks_least, asks_most) = (figures != "most-alone", figures != "least-alone");
    let mut held = Held::default();
    if asks_least {
        held = held.hold(
            "lowest",
            (Some(low), "readings"),
            Bound::AtLeast,
            (of("least"), "least"),
        );
    }
    if asks_most {
        held = held.hold(
            "highest",
            (Some(high), "readings"),
            Bound::AtMost,
            (of("most"), "most"),
        );
    }
    let after = of("comes_down").map(|down| more(low, down));
    let held_after = if asks_least {
        Held::default()
            .hold(
                "lowest",
                (after, "comes_down"),
                Bound::AtLeast,
                (of("least"), "least"),
            )
            .words()
    } else {
        "the rule has no least here".to_owned()
    };
    let mut answer = Answer::new("heights")
        .with("spread", Length::m(more(high, low)))
        .with("complies", held.words())
        .with("complies_after", held_after);
    for (result, value) in [
        ("above_least", of("least").map(|least| more(low, least))),
        ("below_most", of("most").map(|most| more(most, high))),
        ("lowest_after", after),
        (
            "above_least_after",
            after
                .zip(of("least"))
                .map(|(after, least)| more(after, least)),
        ),
    ] {
        if let Some(value) = value {
            answer = answer.with(result, Outcome::from(Length::m(value)));
        }
    }
    if (asks_least && of("least").is_none()) || (asks_most && of("most").is_none()) {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    if let (Some(least), Some(most)) = (of("least"), of("most"))
        && least > most
    {
        return Err(SheetError::impossible(
            CARD.id,
            "the least allowed is more than the most",
            "the two the right way about",
        ));
    }
    answer.found.push(governing(
        HIGHEST,
        high,
        which("highest", readings, "height"),
    ));
    answer
        .found
        .push(governing(LOWEST, low, which("lowest", readings, "height")));
    Ok(answer)
}
