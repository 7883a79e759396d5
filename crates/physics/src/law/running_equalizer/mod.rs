//! `running.equalizer`: loads along a chain of springs and equalizers by their arms, and what a shim under one box does.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Force, Length, Rounding, Unit, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// Which levers of the chain rest on boxes: springs and equalizers alternate.
pub const BOXES: [&str; 2] = ["odd-levers", "even-levers"];

const LEVERS: &str = "each lever in balance about its pivot, one after the other";
const KNOWN: Symbol = Symbol::named(
    "K_1",
    "",
    "what the known place bears where the first end bears one",
    LEVERS,
);
const LAST: Symbol = Symbol::named(
    "R",
    "",
    "what the last end bears where the first end bears one: all near arms over all far arms",
    LEVERS,
);
const ALL_BOXES: Symbol = Symbol::named(
    "Q",
    "",
    "what all boxes bear together where the first end bears one",
    LEVERS,
);
const SHIMMED: Symbol = Symbol::named(
    "q",
    "",
    "what the shimmed box bears where the first end bears one",
    LEVERS,
);

static CARD: Card = Card {
    id: "running.equalizer",
    version: 1,
    title: "Loads by lever along an equalizing chain",
    purpose: "Springs and equalizers of one side, one after the other, each a lever on its pivot: what every hanger and every pivot \
        bears, from the arms and one load that is known; and how much the frame rises by a shim over one box.",
    formula: "
        F = P / K_1
        E = F * R
        B = F * Q
        z = s * q / Q",
    book_units: None,
    arguments: &[
        Argument::list(
            "arms",
            Dimension::Length,
            "1 in",
            "120 in",
            (2, 24),
            "near and far arm of each lever from its pivot to its hangers, lever after lever along the engine; of a spring both halves",
        ),
        Argument::word(
            "boxes",
            &BOXES,
            "which levers rest on axle boxes: the first, third and so on, or the second, fourth and so on; the others hang on the frame",
        ),
        Argument::quantity(
            "load",
            "P",
            Dimension::Force,
            "1 lb",
            "200000 lb",
            "the load that is known",
        ),
        Argument::quantity(
            "load_at",
            "n_P",
            Dimension::Count,
            "0",
            "12",
            "where it is known: 0 for the first hanger, else the pivot of the lever with this number",
        ),
        Argument::quantity(
            "shim",
            "s",
            Dimension::Length,
            "0 in",
            "3 in",
            "thickness put between one box and its spring saddle",
        )
        .optional(),
        Argument::quantity(
            "shim_at",
            "n_s",
            Dimension::Count,
            "1",
            "12",
            "number of the lever on that box",
        )
        .optional(),
    ],
    table_values: &[KNOWN, LAST, ALL_BOXES, SHIMMED],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "first_end",
            "F",
            Dimension::Force,
            (0, 0),
            "load on the first hanger",
            LEVERS,
        ),
        ResultSpec::quantity(
            "last_end",
            "E",
            Dimension::Force,
            (0, 0),
            "load on the last hanger",
            LEVERS,
        ),
        ResultSpec::quantity(
            "on_boxes",
            "B",
            Dimension::Force,
            (0, 0),
            "load on all boxes of the chain together",
            LEVERS,
        ),
        ResultSpec::quantity(
            "rise",
            "z",
            Dimension::Length,
            (4, 3),
            "how far the frame rises over this side's chain, staying level",
            "work of the loads: what goes in at one box comes out at the frame",
        ),
        ResultSpec::table("loads", "what each lever's hangers and pivot bear", LEVERS),
    ],
    branches: &["chain"],
    validity: "One side standing, hangers upright, pins free: a pin that binds, or a lever against its stop, carries what no sheet \
        knows. Weights of levers and springs are left out. In a free chain a shim moves heights and not loads: shares follow \
        the arms alone.",
    sources: &[
        Source {
            work: "Railway and Locomotive Engineering, August 1906",
            locator: "page 374, equalizing bars (read at afripics.com, image 00C4F433)",
            used_for: "an equalizer of unequal arms and what each end bears",
        },
        Source {
            work: "W. H. Dooley, Applied Science for Metal-Workers (1914)",
            locator: "section 35, problems in compound leverage (read at chestofbooks.com)",
            used_for: "two levers one after the other",
        },
    ],
    cautions: &[
        "Springs and hangers are under tons: pull them only with the frame on blocking and the lever held, hands out of the hanger.",
        "Loads on wheels are proved on scales; a sheet is no weighing.",
        "A shim moves heights, wedges, drawbar and brake hangers: look at each after it (running.heights).",
    ],
    closed_form: ClosedForm::No(
        "the loads along the chain are found lever by lever; the table shows each, and a test works them again from the far end",
    ),
};

/// One lever of a chain: what its near hanger, its pivot and its far hanger bear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// On the near hanger.
    pub near: f64,
    /// On the pivot.
    pub pivot: f64,
    /// On the far hanger, which is the next lever's near one.
    pub far: f64,
}

/// A chain whose first hanger bears `first`, by its arms: near and far of each lever.
///
/// Source: each lever in balance about its pivot.
pub fn chain(arms: &[(Length, Length)], first: f64) -> Vec<Lever> {
    let mut near = first;
    let mut levers = Vec::new();
    for (short, long) in arms {
        let far = near * short.to_m() / long.to_m();
        levers.push(Lever {
            near,
            pivot: near + far,
            far,
        });
        near = far;
    }
    levers
}

fn found(symbol: Symbol, value: f64, how: &str) -> crate::answer::TableValue {
    crate::answer::TableValue {
        symbol,
        value,
        printed: crate::formula::significant(value),
        row: how.to_owned(),
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let arms: Vec<(Length, Length)> = inputs
        .list_si("arms")
        .chunks_exact(2)
        .map(|pair| match pair {
            [near, far] => (Length::m(*near), Length::m(*far)),
            _ => (Length::m(0.0), Length::m(0.0)),
        })
        .collect();
    if !inputs.list_si("arms").len().is_multiple_of(2) {
        return Err(SheetError::impossible(
            CARD.id,
            "an arm is left over",
            "a near and a far arm for every lever",
        ));
    }
    let levers = chain(&arms, 1.0);
    let known_at = inputs.need_si("load_at")? as usize;
    let known = if known_at == 0 {
        Some(1.0)
    } else {
        levers.get(known_at - 1).map(|lever| lever.pivot)
    };
    let Some(known) = known else {
        return Err(SheetError::impossible(
            CARD.id,
            "the load is known at a lever that is not in the chain",
            "0 for the first hanger, or the number of a lever",
        ));
    };
    let odd = inputs.word("boxes") == Some("odd-levers");
    let is_box = |at: usize| at.is_multiple_of(2) == odd;
    let first = inputs.need_si("load")? / known;
    let last = levers.last().map_or(1.0, |lever| lever.far);
    let boxes: f64 = levers
        .iter()
        .enumerate()
        .filter(|(at, _)| is_box(*at))
        .map(|(_, lever)| lever.pivot)
        .sum();
    if boxes <= 0.0 {
        return Err(SheetError::impossible(
            CARD.id,
            "no lever of this chain rests on a box",
            "boxes=odd-levers, or a second lever",
        ));
    }
    let pounds = |share: f64| {
        show::number(
            Unit::PoundForce.from_si(share * first),
            0,
            Rounding::Nearest,
        )
    };
    let rows = levers.iter().enumerate().map(|(at, lever)| {
        let rests = if is_box(at) { "box" } else { "frame" };
        vec![
            (at + 1).to_string(),
            rests.to_owned(),
            pounds(lever.near),
            pounds(lever.pivot),
            pounds(lever.far),
        ]
    });
    let headings = [
        "lever",
        "rests on",
        "near hanger, lb",
        "pivot, lb",
        "far hanger, lb",
    ];
    let mut answer = Answer::new("chain")
        .with("first_end", Force::newtons(first))
        .with("last_end", Force::newtons(first * last))
        .with("on_boxes", Force::newtons(first * boxes))
        .with(
            "loads",
            Outcome::Table {
                columns: headings.map(str::to_owned).to_vec(),
                rows: rows.collect(),
            },
        );
    let count = levers.len();
    answer.found.push(found(
        KNOWN,
        known,
        &match known_at {
            0 => "the first hanger itself".to_owned(),
            at => format!("the pivot of lever {at}"),
        },
    ));
    answer
        .found
        .push(found(LAST, last, &format!("through {count} levers")));
    answer
        .found
        .push(found(ALL_BOXES, boxes, "pivots on boxes, added"));
    match (inputs.si("shim"), inputs.si("shim_at")) {
        (Some(shim), Some(at)) => {
            let at = at as usize;
            let lever = levers.get(at.saturating_sub(1));
            let Some(lever) = lever.filter(|_| at > 0 && is_box(at - 1)) else {
                return Err(SheetError::impossible(
                    CARD.id,
                    "the shim is at a lever that rests on no box of this chain",
                    "the number of a lever that rests on a box",
                ));
            };
            answer.found.push(found(
                SHIMMED,
                lever.pivot,
                &format!("the pivot of lever {at}"),
            ));
            answer = answer.with("rise", Length::m(shim * lever.pivot / boxes));
        }
        _ => {
            let needs = inputs.wanting(&["shim", "shim_at"]);
            answer = answer.waiting(&["rise"], &needs);
        }
    }
    Ok(answer)
}
