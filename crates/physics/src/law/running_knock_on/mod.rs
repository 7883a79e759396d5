//! `running.knock_on`: one size is changed, and everything that it moves.
//!
//! The sizes of an engine hang together by plain relations: the frame comes down as the tires are turned, the piston
//! comes back as a shoe is lined. `tables/knock-on/` has them, each with its sign and its reason; a way from one size to
//! another multiplies, ways that meet again add.

mod graph;

pub use graph::{Choice, Relation, SIZES, Share, Size, Way, choices, relations, share, sizes};

use crate::answer::{Answer, Outcome, TableValue, cannot_tell};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Length, Rounding, math, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "running.knock_on";
const HANGS: &str = "what hangs on what: tables/knock-on";
const ADDED: &str = "each maker's share, added";

const FACTOR: Symbol = Symbol::of(
    "k",
    Dimension::Ratio,
    "share of the change that reaches the size watched, all ways added",
    HANGS,
);
const WORST: Symbol = Symbol::of(
    "K_w",
    Dimension::Ratio,
    "the shares of all sizes that move the one watched and are moved by none, added without their signs",
    HANGS,
);
const SQUARES: Symbol = Symbol::of(
    "K_r",
    Dimension::Ratio,
    "the root of the squares of the same shares, added",
    HANGS,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "What a changed size moves",
    purpose: "One size of a 2-8-0 is changed: every other size that moves with it, which way and by how much, and which \
        limits that touches. Of the size that is watched also how far off it may come when everything it hangs on is made \
        to the same plus or minus.",
    formula: "
        m = k * b
        w = K_w * u
        r = K_r * u",
    book_units: Some(measure::House::Inch),
    arguments: &[
        Argument::word("changed", &SIZES, "what is changed"),
        Argument::quantity(
            "by",
            "b",
            Dimension::Length,
            "-6 in",
            "6 in",
            "by how much: plus thicker, larger, higher, farther back, more; minus the other way",
        ),
        Argument::word("watched", &SIZES, "the size that is asked after first"),
        Argument::quantity(
            "each",
            "u",
            Dimension::Length,
            "0 in",
            "1 in",
            "plus or minus to which each size that the watched one hangs on is made",
        )
        .optional(),
        Argument::quantity(
            "leverage",
            "leverage",
            Dimension::Ratio,
            "0.2",
            "40",
            "travel of the brake piston over that of a shoe",
        )
        .optional(),
        Argument::quantity(
            "close_in",
            "close_in",
            Dimension::Ratio,
            "0",
            "1",
            "share of its interference by which a bushing's bore closes in: see fit.bushing",
        )
        .optional(),
        Argument::quantity(
            "gear",
            "gear",
            Dimension::Ratio,
            "-2",
            "2",
            "movement of the valve over that of the main axle along the frame, in the gear's working notch",
        )
        .optional(),
    ],
    table_values: &[FACTOR, WORST, SQUARES],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "moves",
            "m",
            Dimension::Length,
            (4, 3),
            "how far the watched size moves, with its sign",
            HANGS,
        ),
        ResultSpec::text("plus", "what a plus means of it", HANGS),
        ResultSpec::text("way", "how the change comes to it", HANGS),
        ResultSpec::table("moved", "everything that moves, and the rules that set a limit on it", HANGS),
        ResultSpec::quantity(
            "count",
            "",
            Dimension::Count,
            (0, 0),
            "sizes that move",
            HANGS,
        ),
        ResultSpec::quantity(
            "worst",
            "w",
            Dimension::Length,
            (4, 3),
            "how far off the watched size is at the worst, either way",
            ADDED,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "likely",
            "r",
            Dimension::Length,
            (4, 3),
            "the same by the root of the sum of squares: seldom passed where the sizes are made apart from one another",
            "common practice for sizes that err apart from one another",
        )
        .rounded(Rounding::Up),
    ],
    branches: &[MOVED, STAYS, WAITS],
    validity: "Small changes, up to about an inch, on straight level track: inclined cylinders, turned levers and lifted \
        links are taken as straight. All wheels, boxes or springs of a kind are changed alike where the words say so; \
        the engine is kept level by her truck. A valve of inside admission has its leads the other way.",
    sources: &[Source {
        work: "Plane geometry of a locomotive",
        locator: "tables/knock-on: each relation with its reason",
        used_for: "what moves what",
    }],
    cautions: &[
        "This says what to look at, not what it will be: measure what is listed before and after.",
        "A frame on jacks is not a frame on its wheels: heights count on level track, springs settled, boiler filled as the \
            limit has it.",
        "What has not been drawn here can move too: pipes, rods over the boiler, sand pipes, steps.",
    ],
    closed_form: ClosedForm::No("the shares are added up over every way between two sizes; what they make is a formula"),
};

const MOVED: &str = "moves";
const STAYS: &str = "stays";
const WAITS: &str = "waits for a ratio";

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let word = |name: &'static str| inputs.word(name).ok_or_else(|| inputs.missing(name));
    let (changed, watched) = (word("changed")?, word("watched")?);
    let by = inputs.need_length("by")?;
    let given = |name: &str| inputs.si(name);
    let mut rows = Vec::new();
    for size in sizes(ID)? {
        let share = share(ID, changed, &size.id, &given)?;
        // Two ways may undo each other: the cylinders come down as far as the axle does.
        let still = share.needs.is_empty() && share.factor.abs() < 1e-12;
        if still || size.id == changed {
            continue;
        }
        let moves = match share.needs.as_slice() {
            [] => inches(share.factor * by.to_inches()),
            needs => cannot_tell(needs),
        };
        let limits = match size.limits.as_slice() {
            [] => "none".to_owned(),
            limits => limits.join(", "),
        };
        rows.push(vec![
            format!("{}; plus: {}", size.words, size.plus),
            moves,
            limits,
        ]);
    }
    let count = rows.len() as f64;
    let columns = ["size", "moves in", "limit"];
    let table = Outcome::Table {
        rows,
        columns: columns.map(str::to_owned).to_vec(),
    };

    let share = share(ID, changed, watched, &given)?;
    let plus = sizes(ID)?.iter().find(|size| size.id == watched);
    let mut answer = Answer::new(match (share.reached, share.needs.is_empty()) {
        (false, _) => STAYS,
        (true, true) => MOVED,
        (true, false) => WAITS,
    })
    .with("moved", table)
    .with("count", Outcome::Si(count))
    .with("plus", plus.map_or(String::new(), |size| size.plus.clone()))
    .with(
        "way",
        if share.reached {
            share.way.join(", then ")
        } else {
            "no way leads there".to_owned()
        },
    );
    if share.needs.is_empty() {
        answer = answer.with("moves", Length::m(share.factor * by.to_m()));
        answer.table_values.push(found(FACTOR, share.factor));
    } else {
        let needs: Vec<&str> = share.needs.iter().map(String::as_str).collect();
        answer = answer.waiting(&["moves"], &needs);
    }
    off(answer, inputs, watched)
}

/// How far off `watched` may come when each size that it hangs on, and that hangs on none, is off by the plus or minus
/// given.
fn off(mut answer: Answer, inputs: &Inputs, watched: &str) -> Result<Answer, SheetError> {
    let given = |name: &str| inputs.si(name);
    let (mut sum, mut squares) = (0.0, 0.0);
    let mut needs = Vec::new();
    for size in sizes(ID)? {
        if relations(ID)?.iter().any(|relation| relation.to == size.id) {
            continue;
        }
        let share = share(ID, &size.id, watched, &given)?;
        sum += share.factor.abs();
        squares += share.factor * share.factor;
        needs.extend(share.needs);
    }
    needs.sort_unstable();
    needs.dedup();
    let each = inputs.length("each");
    if each.is_none() {
        needs.insert(0, "each".to_owned());
    }
    let (Some(each), true) = (each, needs.is_empty()) else {
        let needs: Vec<&str> = needs.iter().map(String::as_str).collect();
        return Ok(answer.waiting(&["worst", "likely"], &needs));
    };
    let root = math::sqrt(squares);
    answer.table_values.push(found(WORST, sum));
    answer.table_values.push(found(SQUARES, root));
    Ok(answer
        .with("worst", Length::m(sum * each.to_m()))
        .with("likely", Length::m(root * each.to_m())))
}

fn found(symbol: Symbol, value: f64) -> TableValue {
    TableValue {
        symbol,
        value,
        printed: crate::formula::significant(value),
        row: HANGS.to_owned(),
    }
}

/// A movement with its sign.
fn inches(value: f64) -> String {
    let sign = if value > 0.0 { "+" } else { "" };
    format!("{sign}{}", show::number(value, 4, Rounding::Nearest))
}
