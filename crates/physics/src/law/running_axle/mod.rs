//! `running.axle`: how far a journal has gone below the diameter it was made to.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, figure, spare};
use crate::readings::{ends, governing, more, thou, which};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The places an axle may have. Which one it is decides the limit and nothing else here.
pub const POSITIONS: [&str; 4] = [
    "main-driver",
    "other-driver",
    "engine-truck",
    "trailing-truck",
];

const TAKEN: &str = "one diameter off the other";
const LEAST: Symbol = Symbol::of(
    "d_n",
    Dimension::Length,
    "the journal now, at its smallest",
    TAKEN,
);

static CARD: Card = Card {
    id: "running.axle",
    version: 1,
    title: "Journal of an axle against its original diameter",
    purpose: "How much smaller a journal is than it was made, the diameter at which the axle must come out, and how much \
        may still be turned or worn away. The smallest reading governs.",
    formula: "
        w = d_o - d_n
        d_c = d_o - m
        l = m - w
        u = w / m",
    book_units: None,
    arguments: &[
        Argument::word(
            "position",
            &POSITIONS,
            "which axle it is: its limit hangs on it",
        ),
        Argument::quantity(
            "original",
            "d_o",
            Dimension::Length,
            "1 in",
            "24 in",
            "original diameter of the journal, as stamped on the end of the axle; not the drawing of another one",
        ),
        Argument::list(
            "present",
            Dimension::Length,
            "1 in",
            "24 in",
            (1, 24),
            "readings of the journal now",
        ),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.01 in",
            "3 in",
            "the wear at which the axle must come out, by the law in force; the figure itself fails",
        ),
    ],
    table_values: &[LEAST],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "wear",
            "w",
            Dimension::Length,
            (4, 3),
            "below the original diameter",
            TAKEN,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "condemning_diameter",
            "d_c",
            Dimension::Length,
            (4, 3),
            "diameter at which the axle must come out",
            FIGURE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what may still go before that, on the diameter; at nothing it is out",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "used",
            "u",
            Dimension::Ratio,
            (2, 2),
            "share of the wear that is used",
            FIGURE,
        )
        .rounded(Rounding::Up),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["journal"],
    validity: "Journals of engine axles by size alone. An axle that is bent, cut, cracked, seamed or overheated comes out \
        whatever its size.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.98",
        used_for: "wear is counted from the original diameter; no figure of it is in this sheet",
    }],
    cautions: &[
        "An axle is looked at for cracks each time it is bare: a thick one breaks too.",
        "Dropping wheels: the drop pit's own rules, jacks on good ground, the engine's other wheels blocked.",
        "What is turned off cannot be put back by welding: axles are not built up.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let original = inputs.need_length("original")?;
    let present = inputs.list_si("present");
    let (least, most) = ends(inputs, "present")?;
    if most > original.to_m() {
        return Err(SheetError::impossible(
            CARD.id,
            "the journal is larger now than it was made",
            "the original diameter as stamped, and readings no larger",
        ));
    }
    let wear = more(original.to_m(), least);
    let limit = inputs.si("limit");
    let held = Held::default().hold(
        "wear of the journal",
        (Some(wear), "present"),
        Bound::Below,
        (limit, "limit"),
    );
    let mut answer = Answer::new("journal")
        .with("wear", Length::m(wear))
        .with("complies", held.words());
    answer.found.push(governing(
        LEAST,
        least,
        which("smallest", present, "journal"),
    ));
    match limit {
        Some(limit) if limit >= original.to_m() => {
            return Err(SheetError::impossible(
                CARD.id,
                "the wear allowed would leave no journal",
                "a limit smaller than the original diameter",
            ));
        }
        Some(limit) => {
            let condemns = Length::m(more(original.to_m(), limit));
            answer = answer.with("condemning_diameter", condemns);
        }
        None => {}
    }
    answer = spare(answer, wear, limit);
    if most > least {
        answer.notices.push(format!(
            "The readings differ by {} in: out of round, or tapered. To true it the whole journal goes to the smallest.",
            thou(more(most, least))
        ));
    }
    Ok(answer)
}
