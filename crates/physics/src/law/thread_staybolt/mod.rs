//! `thread.staybolt`: a stay renewed in its worn holes: the next diameter, the bore to tap, how far
//! the tap must reach, and how the two sheets' threads stand to each other.
//!
//! # Why the sheets must be tapped in one pass
//!
//! The stay is one screw in two nuts. The thread of the second sheet must be the same helix carried
//! on across the water space: the second sheet's outer face stands `n (t + w)` turns from the first
//! one's (`w` the space, `t` the first sheet). Only whole turns would let a tap started afresh at the
//! second sheet agree, and nobody can find the fraction by eye; a tap long enough to hold both
//! sheets at once carries the lead across by itself.
//!
//! The next diameter is the next thirty-second over the thread that is there: it must cut clean
//! thread all round.

use crate::answer::{Answer, Outcome, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::thread_bore::{SHARE, full, share};
use crate::readings::more;
use crate::thread::card::{UNREAD, figure, length, line};
use crate::thread::has_core;
use measure::{Dimension, House, Length, Rounding, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.staybolt";
const GEOMETRY: &str = "plane geometry, in the notes of this law";
const NEXT: Symbol = line(
    "D_0",
    "next thirty-second over the present diameter",
    UNREAD,
);
const FULL: Symbol = figure("f", "full thread on both sides, in pitches", "thread.bore");
const FIRST: Symbol = line("t_1", "thickness of the first sheet", "as given");
const SHEETS: Symbol = line("t", "thickness of all sheets together", "as given");

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Renewing a staybolt: next size, bore, reach of the tap",
    purpose: "For a threaded stay to be renewed: the next diameter over the thread that is there, the \
        bore to ream before tapping, how long the tap must be to carry the lead through both sheets, \
        and the threads that hold in each.",
    formula: "
        D = D_0
        g = D - d
        P = 1 / n
        B = D - f * P * q
        R = t + w
        u = n * (t_1 + w)
        N = n * t",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "present_diameter",
            "d",
            Dimension::Length,
            "1/2 in",
            "2 1/2 in",
            "largest diameter of the thread in the holes now",
        ),
        Argument::quantity(
            "tpi",
            "n",
            Dimension::PerInch,
            "6",
            "20",
            "threads per inch (American stays: 12, measure them)",
        ),
        Argument::list(
            "sheet_thicknesses",
            Dimension::Length,
            "1/8 in",
            "2 in",
            (2, 2),
            "thickness of each sheet, the one tapped first leading",
        ),
        Argument::quantity(
            "length",
            "w",
            Dimension::Length,
            "1 in",
            "36 in",
            "water space between the sheets",
        ),
        Argument::word(
            "form",
            &["unified", "sharp-v", "whitworth"],
            "form of the thread; American National bores as unified",
        )
        .optional(),
        Argument::quantity(
            "percent",
            "p",
            Dimension::Ratio,
            "0.3",
            "100",
            "thread wanted, of full: 90, 90% or 9/10",
        )
        .optional(),
    ],
    table_values: &[NEXT, FULL, SHARE, FIRST, SHEETS],
    lines: &[line("P", "pitch", GEOMETRY)],
    results: &[
        length("next_diameter", "D", "diameter to tap to", UNREAD),
        length("growth", "g", "how much the holes grow", GEOMETRY).rounded(Rounding::Up),
        length("bore", "B", "bore before the tap", "thread.bore"),
        length(
            "reach",
            "R",
            "length over both sheets: the tap's threaded part is at least this",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "turns_between",
            "u",
            Dimension::Ratio,
            (3, 3),
            "turns from the first sheet's outer face to the second sheet",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "threads_held",
            "N",
            Dimension::Ratio,
            (1, 1),
            "full threads held in all sheets together",
            GEOMETRY,
        )
        .rounded(Rounding::Down),
        ResultSpec::text(
            "lead_in_step",
            "how the second sheet's thread stands to the first's",
            GEOMETRY,
        ),
        ResultSpec::table("sheets", "threads held in each sheet", GEOMETRY),
    ],
    branches: &["staybolt"],
    validity: "Parallel threaded stays square to both sheets. The next size steps by thirty-seconds; a hole \
        torn or out of round may need more. Taper and welded or flexible stays go by their own drawings.",
    sources: &[
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "stepping by thirty-seconds; 12 threads per inch whatever the diameter",
        },
        Source {
            work: "Plane geometry",
            locator: "the notes of this law",
            used_for: "reach and step of the lead",
        },
    ],
    cautions: &[
        "The boiler's code and the responsible officer say whether a stay may be renewed, to what \
            diameter, with what telltale, and what is inspected after. Stress is for the boiler's own sheet.",
        "The holes grow at each renewal and the ligaments shrink: check the pitch and the sheet before \
            reaming.",
        "Cold, drained and vented before any stay is drilled.",
    ],
    closed_form: ClosedForm::No("the next diameter is chosen, and the depth of the form looked up"),
};

/// The next thirty-second of an inch over `present`.
pub fn next_size(present: Length) -> Length {
    // What stands on a thirty-second, but for the dust of conversion, goes on to the next.
    let steps = (present.to_inches() * 32.0 + 1e-9).floor() + 1.0;
    Length::inches(steps / 32.0)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let present = inputs.need_length("present_diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let space = inputs.need_length("length")?.to_inches();
    let sheets: Vec<f64> = inputs
        .list_si("sheet_thicknesses")
        .iter()
        .map(|si| Length::m(*si).to_inches())
        .collect();
    has_core(ID, present, Length::inches(1.0 / tpi))?;
    let next = next_size(present);
    let (first, all) = (
        sheets.first().copied().unwrap_or_default(),
        sheets.iter().sum::<f64>(),
    );
    let turns = tpi * (first + space);
    let part = turns - turns.floor();
    let step = if !(0.001..=0.999).contains(&part) {
        "in step by chance: whole turns between; a tap through both sheets keeps it so".to_owned()
    } else {
        format!(
            "{part:.3} of a turn out of step if the sheets are tapped apart: tap both in one pass, {} in \
             over the sheets",
            show::number(all + space, 3, Rounding::Up)
        )
    };
    let mut answer = Answer::new("staybolt")
        .with("next_diameter", next)
        .with("growth", Length::m(more(next.to_m(), present.to_m())))
        .with("reach", Length::inches(all + space))
        .with("turns_between", Outcome::Si(turns))
        .with("threads_held", Outcome::Si(tpi * all))
        .with("lead_in_step", step);
    let form = inputs.word("form").and_then(full);
    let share = share(inputs)?;
    match (form, share) {
        (Some((whole, of)), Some(share)) => {
            let bore = crate::law::thread_bore::bore(next, tpi, share, whole);
            answer = answer.with("bore", bore);
            answer.table_values = vec![TableValue::inch_book(FULL, whole, of)];
        }
        (form, share) => {
            let needs: Vec<&str> = [("form", form.is_some()), ("percent", share.is_some())]
                .into_iter()
                .filter(|(_, told)| !told)
                .map(|(name, _)| name)
                .collect();
            answer = answer.waiting(&["bore"], &needs);
            if let Some((whole, of)) = form {
                answer.table_values = vec![TableValue::inch_book(FULL, whole, of)];
            }
        }
    }
    let rows = sheets.iter().enumerate().map(|(at, thick)| {
        vec![
            (at + 1).to_string(),
            show::number(*thick, 4, Rounding::Nearest),
            show::number(tpi * thick, 1, Rounding::Down),
        ]
    });
    let table = Outcome::Table {
        columns: ["sheet", "thick, in", "threads held"]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
    };
    answer.results.push(("sheets", table));
    answer.found = vec![
        TableValue::inch_book(
            NEXT,
            next.to_inches(),
            "the next thirty-second over the present diameter",
        ),
        TableValue::inch_book(FIRST, first, "the first of the sheets given"),
        TableValue::inch_book(SHEETS, all, "the sheets given, added"),
    ];
    if let Some(share) = share {
        let row = TableValue::inch_book(SHARE, share, "percent as given");
        answer.found.push(row);
    }
    if sheets.iter().any(|thick| tpi * thick < 4.0) {
        answer.notices.push(
            "A sheet holds fewer than four threads: by common practice too few. Ask before tapping."
                .to_owned(),
        );
    }
    let growth = next.to_inches() - present.to_inches();
    if growth < 0.010 {
        answer.notices.push(format!(
            "That is only {growth:.4} in over the hole: it may not clean the thread all round. The step \
             after it is {:.5} in.",
            next.to_inches() + 1.0 / 32.0
        ));
    }
    answer.notices.push(
        "Measure the thread at its worst place in both sheets: the larger of them is the present \
         diameter."
            .to_owned(),
    );
    Ok(answer)
}
