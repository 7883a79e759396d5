//! `steam.valve_setting`: the valves as they were found to open and close, against the allowed pressure.

use crate::answer::{Answer, Outcome, less};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::steam_safety_valve::{MAWP, SET_ABOVE, among, paired, psi};
use crate::readings::ends;
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GIVEN: &str = "the valves as given";
const LAW: &str = "the allowed pressure and what the rule allows above it";
const OVER: &str = "set pressure less allowed pressure";
const CLOSES: &str = "pressure at which it opens less that at which it closes";
const LOWEST: Symbol = Symbol::of(
    "p_l",
    Dimension::GaugePressure,
    "the lowest pressure at which one opens",
    GIVEN,
);
const HIGHEST: Symbol = Symbol::of("p_h", Dimension::GaugePressure, "the highest", GIVEN);
const OPENS: Symbol = Symbol::of(
    "p_b",
    Dimension::GaugePressure,
    "where the valve with the most blowdown opens",
    GIVEN,
);
const SHUTS: Symbol = Symbol::of("r_b", Dimension::GaugePressure, "where it closes", GIVEN);

static CARD: Card = Card {
    id: "steam.valve_setting",
    version: 1,
    title: "Safety valves as set: each against the allowed pressure",
    purpose: "For the record of a setting: whether one valve at least opens at or under the allowed pressure and none \
        beyond what the rule allows above it, and how far each falls before it closes.",
    formula: "
        P_s = P_m + a
        x_l = p_l - P_m
        x_h = p_h - P_m
        b = p_b - r_b
        k = b / p_b",
    book_units: Some(House::Inch),
    arguments: &[
        MAWP,
        Argument::list(
            "set_pressures",
            Dimension::GaugePressure,
            "5 psig",
            "660 psig",
            (1, 6),
            "pressure at which each valve was seen to open, gauge error and head taken off",
        ),
        Argument::list(
            "reseats",
            Dimension::GaugePressure,
            "1 psig",
            "660 psig",
            (1, 6),
            "pressure at which each was seen to close, in the same order",
        )
        .optional(),
        SET_ABOVE,
    ],
    table_values: &[LOWEST, HIGHEST, OPENS, SHUTS],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "highest_allowed",
            "P_s",
            Dimension::GaugePressure,
            (1, 0),
            "the most a valve may be set for",
            LAW,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "lowest_over",
            "x_l",
            Dimension::Stress,
            (1, 3),
            "how far the lowest opens above the allowed pressure; under it with a minus",
            OVER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "highest_over",
            "x_h",
            Dimension::Stress,
            (1, 3),
            "the same of the highest",
            OVER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "blowdown",
            "b",
            Dimension::Stress,
            (1, 3),
            "the most that any falls before it closes",
            CLOSES,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "blowdown_share",
            "k",
            Dimension::Ratio,
            (3, 3),
            "the same as a share of where that valve opens",
            CLOSES,
        )
        .rounded(Rounding::Up),
        ResultSpec::text("complies", "all valves together", LAW),
        ResultSpec::table("valves", "each valve", LAW),
    ],
    branches: &["as set"],
    validity: "Pressures at the boiler: a gauge with an error or with a head of water in its pipe is corrected first \
        (gauge.pressure). Blowdown has no limit in 49 CFR part 230; what is usual, 2 to 4 percent, is common practice.",
    sources: &[Source {
        work: "U.S. Code of Federal Regulations, title 49, section 230.49(b)",
        locator: "2015 edition",
        used_for: "that one valve is set at or under the allowed pressure and none beyond a number above it; the number is an argument",
    }],
    cautions: &[
        "A safety valve under pressure is adjusted only by a competent person who knows it: stand clear of its discharge, and leave gags to those people.",
        "Two gauges, both tested just before, one in full view; where they differ by more than the rule allows, both come off and are tested (49 CFR 230.49(c)).",
        "Water no higher in the glass than the rule says while setting: a full boiler passes water and spoils a seat.",
        "This sheet approves no pressure: it compares what was read with what was allowed.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mawp = inputs.need_si("mawp")?;
    let sets = inputs.list_si("set_pressures");
    let reseats = inputs.list_si("reseats");
    let (low, high) = ends(inputs, "set_pressures")?;
    let above = inputs.si("set_above");
    let mut answer = Answer::new("as set")
        .with(
            "lowest_over",
            Outcome::Si(less(low, mawp, Dimension::Stress)),
        )
        .with(
            "highest_over",
            Outcome::Si(less(high, mawp, Dimension::Stress)),
        );
    answer.found = vec![
        among(LOWEST, low, format!("{} psig", psi(low))),
        among(HIGHEST, high, format!("{} psig", psi(high))),
    ];
    if let Some(above) = above {
        answer = answer.with("highest_allowed", Outcome::Si(mawp + above));
    }
    if reseats.is_empty() {
        answer = answer.waiting(&["blowdown", "blowdown_share"], &["reseats"]);
    } else {
        paired(CARD.id, ["set_pressures", "reseats"], sets, reseats)?;
        answer = fallen(answer, sets, reseats)?;
    }
    let verdicts: Vec<Verdict> = sets.iter().map(|set| verdict(*set, mawp, above)).collect();
    let rows = sets
        .iter()
        .zip(&verdicts)
        .enumerate()
        .map(|(at, (set, verdict))| {
            let fall = reseats
                .get(at)
                .map_or("not said".to_owned(), |shut| psi(set - shut));
            vec![
                (at + 1).to_string(),
                psi(*set),
                psi(set - mawp),
                fall,
                verdict.words().to_owned(),
            ]
        });
    let table = Outcome::Table {
        rows: rows.collect(),
        columns: [
            "valve",
            "opens, psi",
            "above allowed, psi",
            "blowdown, psi",
            "verdict",
        ]
        .map(str::to_owned)
        .to_vec(),
    };
    Ok(answer
        .with("complies", together(low, mawp, &verdicts))
        .with("valves", table))
}

/// What can be said of a valve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It opens no higher than the rule allows.
    Complies,
    /// It opens higher.
    Fails,
    /// Nobody said how far above the allowed pressure the rule lets it be set.
    CannotTell,
}

impl Verdict {
    /// The verdict in words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Complies => "complies",
            Verdict::Fails => "fails",
            Verdict::CannotTell => "cannot tell: needs set_above",
        }
    }
}

/// Whether a valve opens no higher than `above` over the allowed pressure; all in one unit. At the value it
/// complies. A valve at or under the allowed pressure itself complies under any rule.
pub fn verdict(set: f64, mawp: f64, above: Option<f64>) -> Verdict {
    // The dust of converting units must not condemn a valve that opens exactly at its limit.
    let at_most = |limit: f64| set <= limit * (1.0 + 1e-12);
    match above {
        _ if at_most(mawp) => Verdict::Complies,
        Some(above) if at_most(mawp + above) => Verdict::Complies,
        Some(_) => Verdict::Fails,
        None => Verdict::CannotTell,
    }
}

fn together(low: f64, mawp: f64, verdicts: &[Verdict]) -> String {
    let high = verdicts.iter().filter(|v| **v == Verdict::Fails).count();
    if verdict(low, mawp, Some(0.0)) == Verdict::Fails {
        "fails: no valve opens at or under the allowed pressure".to_owned()
    } else if high > 0 {
        format!(
            "fails: {high} of {} open higher than the rule allows",
            verdicts.len()
        )
    } else if verdicts.contains(&Verdict::CannotTell) {
        Verdict::CannotTell.words().to_owned()
    } else {
        "complies".to_owned()
    }
}

/// Adds the most that any valve falls before it closes.
fn fallen(mut answer: Answer, sets: &[f64], reseats: &[f64]) -> Result<Answer, SheetError> {
    let pairs = || sets.iter().copied().zip(reseats.iter().copied());
    if let Some((set, shut)) = pairs().find(|(set, shut)| shut >= set) {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "a valve that opens at {} psi cannot close at {}",
                psi(set),
                psi(shut)
            ),
            "each reseat below the set pressure of its valve",
        ));
    }
    let most = pairs().max_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)));
    if let Some((set, shut)) = most {
        let fall = less(set, shut, Dimension::Stress);
        answer
            .found
            .push(among(OPENS, set, format!("{} psig", psi(set))));
        answer
            .found
            .push(among(SHUTS, shut, format!("{} psig", psi(shut))));
        answer = answer
            .with("blowdown", Outcome::Si(fall))
            .with("blowdown_share", Outcome::Si(fall / set));
    }
    Ok(answer)
}
