//! `running.clearance`: how loose a running fit or a slide is, and what is left of the limit.
//!
//! Wear is not round. What the pin and the bore let move is the largest bore less the smallest pin, not the difference
//! of two means; a new bushing on the other hand is sized on the pin's largest reading, or it seizes there.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use crate::readings::{governing, largest, more, smallest, thou, which};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The pairs that a limit may be asked for. Which one it is decides the limit and nothing else here.
pub const PAIRS: [&str; 11] = [
    "main-pin",
    "wrist-pin",
    "main-rod-both-ends",
    "side-main-pin",
    "side-other-pin",
    "rod-side-motion",
    "crosshead-vertical",
    "crosshead-lateral",
    "knuckle-pin",
    "valve-motion-pin",
    "brake-pin",
];

const MEASURED: &str = "two sizes taken apart, or a gap read as it is";

const LARGER: Symbol = Symbol::of(
    "x",
    Dimension::Length,
    "the larger side: bore or gap",
    MEASURED,
);
const SMALLER: Symbol = Symbol::of(
    "y",
    Dimension::Length,
    "the smaller side: pin, or nothing in a gap",
    MEASURED,
);

static CARD: Card = Card {
    id: "running.clearance",
    version: 1,
    title: "Clearance of a pin, a slide or a rod, and what is left of it",
    purpose: "How far one part can move in the other, from bore and pin or from a gap as the feelers read it, and how \
        much of the limit is used. Wear is not round: give every reading, comma between; the largest bore and the \
        smallest pin govern.",
    formula: "
        c = x - y
        c_m = m
        l = m - c
        u = c / m",
    book_units: None,
    arguments: &[
        Argument::word(
            "pair",
            &PAIRS,
            "which pair it is, for which pin decides the limit: main-pin and wrist-pin are the main rod's two ends",
        ),
        Argument::list("bore", Dimension::Length, "0.05 in", "60 in", (1, 24), "readings of the bore")
            .optional(),
        Argument::list("pin", Dimension::Length, "0.05 in", "60 in", (1, 24), "readings of the pin or journal")
            .optional(),
        Argument::list(
            "gap",
            Dimension::Length,
            "0 in",
            "6 in",
            (1, 24),
            "readings of the gap itself, where no bore and pin are measured: by feelers, or moved from stop to stop",
        )
        .optional(),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.001 in",
            "6 in",
            "the most that is allowed, by the law in force or the shop's own rule; the figure itself passes",
        ),
    ],
    table_values: &[LARGER, SMALLER],
    lines: &[],
    results: &[
        ResultSpec::quantity("clearance", "c", Dimension::Length, (4, 3), "how far the parts can move", MEASURED)
            .rounded(Rounding::Up),
        ResultSpec::quantity("limit", "c_m", Dimension::Length, (5, 4), "the most that is allowed", FIGURE)
            .rounded(Rounding::Down),
        ResultSpec::quantity("left", "l", Dimension::Length, (4, 3), "what is left; with a minus, what it is past", FIGURE)
            .rounded(Rounding::Down),
        ResultSpec::quantity("used", "u", Dimension::Ratio, (2, 2), "share of the limit that is used", FIGURE)
            .rounded(Rounding::Up),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &[BORE_AND_PIN, GAP],
    validity: "Both parts cold and off load, measured where they run. A rod still on its pin shows less than the two \
        sizes taken apart.",
    sources: &[
        Source {
            work: "49 CFR Part 230, 2015 edition",
            locator: "230.94, 230.96",
            used_for: "what is measured on crossheads and rods; no figure of it is in this sheet",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "largest bore over smallest pin; a new fit sized on the largest pin reading",
        },
    ],
    cautions: &[
        "Which pin it is decides the limit: the main pin and the others differ.",
        "Rods weigh more than anyone lifts: rated slings, the engine's wheels blocked, nobody between the spokes.",
        "Block the wheels and protect the track before anyone works at the running gear.",
        "Welding on rods needs the regulator's approval in writing first; a loose crank pin is never shimmed, punched or \
            welded.",
    ],
    closed_form: ClosedForm::Yes,
};

const BORE_AND_PIN: &str = "bore and pin";
const GAP: &str = "a gap";

/// How far a pin of `pin` can move in a bore of `bore`, on the diameter; with a minus where it would not go in.
pub fn clearance(bore: Length, pin: Length) -> Length {
    Length::m(more(bore.to_m(), pin.to_m()))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |name| inputs.list_si(name);
    let (bore, pin, gap) = (of("bore"), of("pin"), of("gap"));
    if !gap.is_empty() && largest(bore).or(largest(pin)).is_some() {
        return Err(SheetError::impossible(
            CARD.id,
            "a gap was given beside a bore or a pin",
            "bore and pin, or the gap alone",
        ));
    }
    let limit = inputs.si("limit");
    let (branch, larger, smaller, wanting) = if gap.is_empty() {
        let wanting = match (bore.is_empty(), pin.is_empty()) {
            (true, true) => "bore and pin, or gap",
            (true, false) => "bore",
            _ => "pin",
        };
        (BORE_AND_PIN, largest(bore), smallest(pin), wanting)
    } else {
        (GAP, largest(gap), Some(0.0), "")
    };
    let mut answer = Answer::new(branch);
    if let Some(x) = larger {
        let how = if branch == GAP {
            which("largest", gap, "gap")
        } else {
            which("largest", bore, "bore")
        };
        answer.found.push(governing(LARGER, x, how));
    }
    if let Some(y) = smaller {
        let how = if branch == GAP {
            "a gap is read as it is: nothing is taken off".to_owned()
        } else {
            which("smallest", pin, "pin")
        };
        answer.found.push(governing(SMALLER, y, how));
    }
    if let Some(limit) = limit {
        answer = answer.with("limit", Length::m(limit));
    } else {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    let clear = match larger.zip(smaller) {
        Some((x, y)) if y > x => {
            return Err(SheetError::impossible(
                CARD.id,
                "the smallest pin is larger than the largest bore",
                "a pin that goes into its bore; measure again",
            ));
        }
        Some((x, y)) => clearance(Length::m(x), Length::m(y)),
        None => {
            let mut needs = vec![wanting];
            let answer = answer.waiting(&["clearance"], &needs);
            needs.extend(inputs.wanting(&["limit"]));
            return Ok(answer.waiting(&["left", "used", "complies"], &needs));
        }
    };
    let held = Held::default().hold(
        "clearance",
        (Some(clear.to_m()), wanting),
        Bound::AtMost,
        (limit, "limit"),
    );
    answer = answer
        .with("clearance", clear)
        .with("complies", held.words());
    if let Some(limit) = limit {
        answer = answer
            .with("left", Length::m(more(limit, clear.to_m())))
            .with("used", Outcome::Si(clear.to_m() / limit));
    }
    if let Some((least, fullest)) = smallest(pin).zip(largest(pin)) {
        answer.notices.extend(of_pin(least, fullest, bore));
    }
    Ok(answer)
}

/// What the readings of a pin say beside their least.
fn of_pin(least: f64, fullest: f64, bore: &[f64]) -> Vec<String> {
    let mut notices = Vec::new();
    if fullest > least {
        notices.push(format!(
            "The readings of the pin differ by {} in. A new bushing is sized on the largest, {} in, or it seizes there.",
            thou(more(fullest, least)),
            thou(fullest)
        ));
    }
    if smallest(bore).is_some_and(|bore| bore < fullest) {
        notices.push(
            "Somewhere the pin is fuller than the bore: these two cannot turn in each other. Measure again, hot parts \
             and burrs aside."
                .to_owned(),
        );
    }
    notices
}
