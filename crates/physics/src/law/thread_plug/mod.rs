//! `thread.plug`: the taper of a plug or its hole, fitted from two diameters a known way apart, and
//! what the next size costs.
//!
//! No taper is ever assumed: 3/4 in and 1 1/4 in per foot are both real, by road and by builder, and
//! holes have been re-tapped at unknown dates. Two diameters of one kind (both over the crests, both
//! at the pitch line, both of the bore) and the distance between them along the axis give it.
//!
//! Where each diameter may be wrong by `diameter_error`, the taper lies between those of the
//! difference less and plus twice that: over a short plug two tapers may both be possible, and the
//! sheet says which known ones are.

use crate::answer::{Answer, Outcome, cannot_tell};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::tpi;
use measure::{Angle, Dimension, House, Length, Rounding, math, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.plug";
const GEOMETRY: &str = "plane geometry";

/// Tapers met on boilers, inches per foot on the diameter, with who uses them.
const KNOWN: [(f64, &str); 4] = [
    (
        0.75,
        "3/4 in per ft: American pipe thread, boiler studs of a 1943 specification",
    ),
    (
        1.25,
        "1 1/4 in per ft: mud plug and fusible plug taps of an Army manual",
    ),
    (1.5, "1 in 8: British washout plugs, by memory"),
    (0.5, "1/2 in per ft: by memory, some plugs and bolts"),
];

const fn size(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(name, symbol, Dimension::Length, "1/8 in", "8 in", meaning)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Taper of a plug, from two diameters",
    purpose: "Two diameters of a taper plug or hole and the distance between them give its taper. How \
        far a turn takes it in, how much it gains, and how deep each next size must be tapped.",
    formula: "
        T = 12 * (d_l - d_s) / x
        a = atan((d_l - d_s) / (2 * x))
        g = (d_l - d_s) / (x * n)
        N = 1 / 32 / g
        A = N / n
        T_low = 12 * (d_l - d_s - 2 * e) / x
        T_high = 12 * (d_l - d_s + 2 * e) / x",
    book_units: Some(House::Inch),
    arguments: &[
        size("small_diameter", "d_s", "diameter at the small place"),
        size(
            "large_diameter",
            "d_l",
            "diameter at the large place, measured in the same way",
        ),
        Argument::quantity(
            "distance",
            "x",
            Dimension::Length,
            "1/8 in",
            "12 in",
            "distance between the two places, along the axis",
        ),
        tpi("4", "40"),
        Argument::quantity(
            "diameter_error",
            "e",
            Dimension::Length,
            "0 in",
            "0.05 in",
            "how far each diameter may be wrong, either way",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "taper_per_foot",
            "T",
            Dimension::Length,
            (3, 2),
            "change of diameter over a foot of length",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            (3, 3),
            "angle of the taper to the axis",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "growth_per_turn",
            "g",
            Dimension::Length,
            (5, 4),
            "gain of diameter in one turn",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "turns_per_advance",
            "N",
            Dimension::Ratio,
            (2, 2),
            "turns that take it in by 1/32 in of diameter",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "depth_per_advance",
            "A",
            Dimension::Length,
            (3, 2),
            "how far in that is",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "taper_low",
            "T_low",
            Dimension::Length,
            (3, 2),
            "least taper per foot the readings allow",
            GEOMETRY,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "taper_high",
            "T_high",
            Dimension::Length,
            (3, 2),
            "greatest taper per foot the readings allow",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::text(
            "known_tapers",
            "which tapers of the trade it may be",
            "OD0017 p. 77; rypn.org 41490; memory",
        ),
        ResultSpec::table(
            "next_sizes",
            "the same plug re-tapped to the next sizes",
            GEOMETRY,
        ),
    ],
    branches: &["plug"],
    validity: "A true cone, both diameters measured in the same way on clean thread and not on the worn \
        ends. A taper of under 1/16 in per foot is taken for wear, not for a plug.",
    sources: &[
        Source {
            work: "US Army OD0017, page 77; rypn.org topic 41490, quoting a builder's specification",
            locator: "armyordnance.tpub.com; rypn.org",
            used_for: "that both 3/4 and 1 1/4 in per foot are in use, and a stud's sizes through a sheet",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the British tapers",
        },
    ],
    cautions: &[
        "Plug and hole belong together: form, pitch, taper and number. A plug of another taper holds by \
            two threads and lets go.",
        "Never tighten a plug under pressure. Cold, drained and vented first.",
        "Keep threads in reserve for the next re-cut. How many must engage, and how large a hole may \
            grow, are for the code and the responsible officer.",
    ],
    closed_form: ClosedForm::No("the known tapers and the next sizes are lists"),
};

/// The taper of a plug.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taper {
    /// Change of diameter over its own length.
    pub per_length: f64,
}

impl Taper {
    /// The taper between two diameters `distance` apart; none where the large one is not larger.
    pub fn fitted(small: Length, large: Length, distance: Length) -> Option<Taper> {
        let per_length = (large.to_m() - small.to_m()) / distance.to_m();
        (per_length > 0.0).then_some(Taper { per_length })
    }

    /// Angle to the axis.
    pub fn half_angle(self) -> Angle {
        Angle::radians(math::atan(0.5 * self.per_length))
    }

    /// How far along the axis the diameter grows by `growth`.
    pub fn depth_for(self, growth: Length) -> Length {
        Length::m(growth.to_m() / self.per_length)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (small, large) = (
        inputs.need_length("small_diameter")?,
        inputs.need_length("large_diameter")?,
    );
    let distance = inputs.need_length("distance")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let taper = Taper::fitted(small, large, distance).ok_or_else(|| {
        SheetError::impossible(
            ID,
            "the large diameter is not larger than the small one: that is no taper",
            "two diameters of one kind, the larger toward the head",
        )
    })?;
    let per_foot = 12.0 * taper.per_length;
    if !(1.0 / 16.0..=6.0).contains(&per_foot) {
        return Err(SheetError::impossible(
            ID,
            format!("a taper of {per_foot:.3} in per foot"),
            "between 1/16 and 6 in per foot; less is wear, more is a cone",
        ));
    }
    let step = Length::inches(1.0 / 32.0);
    let depth = taper.depth_for(step);
    let mut answer = Answer::new("plug")
        .with("taper_per_foot", Length::inches(per_foot))
        .with("half_angle", taper.half_angle())
        .with("growth_per_turn", Length::inches(taper.per_length / tpi))
        .with("turns_per_advance", Outcome::Si(depth.to_inches() * tpi))
        .with("depth_per_advance", depth);
    let doubt = inputs.length("diameter_error");
    if let Some(error) = doubt {
        let by = 24.0 * error.to_m() / distance.to_m();
        answer = answer
            .with("taper_low", Length::inches(per_foot - by))
            .with("taper_high", Length::inches(per_foot + by));
    }
    answer = answer.with(
        "known_tapers",
        known(per_foot, doubt.map(|e| 24.0 * e.to_m() / distance.to_m())),
    );
    answer
        .results
        .push(("next_sizes", next_sizes(small, large, taper, tpi)));
    if distance.to_m() < 4.0 * Length::inches(1.0 / tpi).to_m() {
        answer.notices.push(
            "The two places are less than four threads apart: a small error of diameter is a large one \
             of taper."
                .to_owned(),
        );
    }
    Ok(answer)
}

/// Which of the known tapers the readings allow, in words.
fn known(per_foot: f64, doubt: Option<f64>) -> String {
    let Some(doubt) = doubt else {
        return cannot_tell(&["diameter_error"]);
    };
    let fits: Vec<&str> = KNOWN
        .iter()
        .filter(|(taper, _)| (taper - per_foot).abs() <= doubt + 1e-9)
        .map(|(_, words)| *words)
        .collect();
    match fits.as_slice() {
        [] => "none of those we know: cut to the taper measured".to_owned(),
        [one] => format!("may be {one}"),
        several => format!(
            "more than one is possible, measure further apart: {}",
            several.join("; ")
        ),
    }
}

fn next_sizes(small: Length, large: Length, taper: Taper, tpi: f64) -> Outcome {
    let shown = |length: Length| show::number(length.to_inches(), 4, Rounding::Nearest);
    let columns = [
        "larger by, in",
        "small place, in",
        "large place, in",
        "deeper by, in",
        "turns",
    ];
    let rows = (1..=4).map(|count| {
        let growth = Length::inches(f64::from(count) / 32.0);
        let depth = taper.depth_for(growth);
        vec![
            format!("{count}/32"),
            shown(Length::m(small.to_m() + growth.to_m())),
            shown(Length::m(large.to_m() + growth.to_m())),
            show::number(depth.to_inches(), 3, Rounding::Nearest),
            show::number(depth.to_inches() * tpi, 2, Rounding::Nearest),
        ]
    });
    Outcome::Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}
