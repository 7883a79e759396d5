//! `steam.safety_valve`: whether the valves together pass what the boiler makes, and in what order they open.
//!
//! The law's own numbers, how far above the allowed pressure a valve may be set and how far the pressure may run
//! up with all of them blowing, are arguments: this crate knows no rule.

use crate::answer::{Answer, Outcome, TableValue, less};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::readings::ends;
use measure::{Dimension, Flow, GaugePressure, House, Rounding, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GIVEN: &str = "the valves as given";
const TAKEN: &str = "what all valves pass less what the boiler makes";
const LAW: &str = "the allowed pressure and what the rule allows above it";
const ALL: Symbol = Symbol::of("C", Dimension::Flow, "what all the valves pass", GIVEN);
const HIGHEST: Symbol = Symbol::of(
    "p_h",
    Dimension::GaugePressure,
    "the highest set pressure",
    GIVEN,
);

/// The allowed pressure, as the sheets about safety valves ask for it.
pub(crate) const MAWP: Argument = Argument::quantity(
    "mawp",
    "P_m",
    Dimension::GaugePressure,
    "5 psig",
    "600 psig",
    "maximum allowable working pressure of the boiler",
);

/// How far above the allowed pressure a valve may be set, which only a rule can say.
pub(crate) const SET_ABOVE: Argument = Argument::quantity(
    "set_above",
    "a",
    Dimension::Stress,
    "0 psi",
    "60 psi",
    "how far above the allowed pressure the rule lets any valve be set (49 CFR 230.49(b) gives it)",
)
.optional();

static CARD: Card = Card {
    id: "steam.safety_valve",
    version: 1,
    title: "Safety valves: capacity against evaporation, and their ladder",
    purpose: "What the valves pass together against the most the boiler makes, the order in which they open, and the \
        pressures that the rule's own shares come to.",
    formula: "
        M = C - W
        m = M / W
        P_s = P_m + a
        P_x = P_m * (1 + x)
        r = P_x - p_h",
    book_units: Some(House::Inch),
    arguments: &[
        MAWP,
        Argument::list("set_pressure", Dimension::GaugePressure, "5 psig", "660 psig", (1, 6), "set pressure of each valve"),
        Argument::list("capacity", Dimension::Flow, "10 lb/h", "200000 lb/h", (1, 6), "what each valve passes, as stamped, in the same order"),
        Argument::quantity("evaporation", "W", Dimension::Flow, "10 lb/h", "200000 lb/h", "the most steam the boiler makes: by test, or by its fuel or heating surface"),
        SET_ABOVE,
        Argument::quantity("accumulation", "x", Dimension::Ratio, "0", "0.3", "share above the allowed pressure that the rule lets it rise to with every valve blowing (49 CFR 230.48(a) gives it)").optional(),
    ],
    table_values: &[ALL, HIGHEST],
    lines: &[],
    results: &[
        ResultSpec::quantity("margin", "M", Dimension::Flow, (0, 0), "what the valves pass beyond what the boiler makes", TAKEN).rounded(Rounding::Down),
        ResultSpec::quantity("margin_share", "m", Dimension::Ratio, (3, 3), "the same as a share of what the boiler makes", TAKEN).rounded(Rounding::Down),
        ResultSpec::quantity("highest_set", "P_s", Dimension::GaugePressure, (1, 0), "the most a valve may be set for", LAW).rounded(Rounding::Down),
        ResultSpec::quantity("pressure_limit", "P_x", Dimension::GaugePressure, (1, 0), "the most the boiler may reach with every valve blowing", LAW).rounded(Rounding::Down),
        ResultSpec::quantity("room", "r", Dimension::Stress, (1, 3), "from the highest set pressure to that limit", LAW).rounded(Rounding::Down),
        ResultSpec::text("enough", "whether the valves pass what the boiler makes", TAKEN),
        ResultSpec::table("ladder", "the valves in the order in which they open", GIVEN),
    ],
    branches: &["valves"],
    validity: "Capacities of saturated steam as stamped by maker or code, at the pressure the boiler may reach. The most a \
        boiler makes is not its everyday steaming: bright fire, clean heating surface, blower or load wide open.",
    sources: &[
        Source {
            work: "U.S. Code of Federal Regulations, title 49, sections 230.48 and 230.49",
            locator: "2015 edition",
            used_for: "which numbers a rule gives; the numbers are arguments",
        },
        Source {
            work: "12 NYCRR 14-9.4 and 14-9.9",
            locator: "capacity from fuel or from heating surface",
            used_for: "how the most a boiler makes may be reckoned",
        },
    ],
    cautions: &[
        "A safety valve under pressure is adjusted only by a competent person who knows it, with two tested gauges in sight.",
        "A valve that does not open, leaks or chatters is out of the ladder, whatever it is stamped for: reckon without it.",
        "Capacity on paper proves nothing: an accumulation test by the rule does, and people qualified for it run it.",
        "This sheet approves no pressure and no valve.",
    ],
    closed_form: ClosedForm::Yes,
};

/// A valve: its set pressure and what it passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Valve {
    /// Set pressure.
    pub set: GaugePressure,
    /// What it passes.
    pub capacity: Flow,
}

/// What all the valves pass together.
pub fn together(valves: &[Valve]) -> Flow {
    Flow::kg_per_s(
        valves
            .iter()
            .map(|valve| valve.capacity.to_kg_per_s())
            .sum(),
    )
}

/// Refuses two lists that are not of one length.
pub(crate) fn paired(
    sheet: &'static str,
    what: [&'static str; 2],
    one: &[f64],
    other: &[f64],
) -> Result<(), SheetError> {
    if one.len() == other.len() {
        return Ok(());
    }
    let [first, second] = what;
    Err(SheetError::impossible(
        sheet,
        format!(
            "{} of {first} and {} of {second} were given",
            one.len(),
            other.len()
        ),
        "as many of the one as of the other, in the same order",
    ))
}

/// A value found among those given.
pub(crate) fn among(symbol: Symbol, si: f64, shown: String) -> TableValue {
    TableValue {
        symbol,
        value: si,
        printed: shown,
        row: GIVEN.to_owned(),
    }
}

/// A gauge pressure in a table or a sentence.
pub(crate) fn psi(pascals: f64) -> String {
    show::number(
        GaugePressure::pascals(pascals).to_psi(),
        1,
        Rounding::Nearest,
    )
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (sets, capacities) = (inputs.list_si("set_pressure"), inputs.list_si("capacity"));
    paired(CARD.id, ["set_pressure", "capacity"], sets, capacities)?;
    let mawp = inputs.need_si("mawp")?;
    let made = inputs.need_si("evaporation")?;
    let mut valves: Vec<(usize, Valve)> = sets
        .iter()
        .zip(capacities)
        .map(|(set, capacity)| Valve {
            set: GaugePressure::pascals(*set),
            capacity: Flow::kg_per_s(*capacity),
        })
        .enumerate()
        .collect();
    let all = together(&valves.iter().map(|(_, valve)| *valve).collect::<Vec<_>>());
    valves.sort_by(|a, b| a.1.set.to_pascals().total_cmp(&b.1.set.to_pascals()));
    let (_, highest) = ends(inputs, "set_pressure")?;
    let margin = less(all.to_kg_per_s(), made, Dimension::Flow);
    let mut answer = Answer::new("valves")
        .with("margin", Flow::kg_per_s(margin))
        .with("margin_share", Outcome::Si(margin / made));
    answer.found = vec![
        among(ALL, all.to_kg_per_s(), lb_per_h(all)),
        among(HIGHEST, highest, format!("{} psig", psi(highest))),
    ];
    if let Some(above) = inputs.si("set_above") {
        answer = answer.with("highest_set", Outcome::Si(mawp + above));
    }
    if let Some(share) = inputs.si("accumulation") {
        let limit = mawp * (1.0 + share);
        answer = answer
            .with("pressure_limit", Outcome::Si(limit))
            .with("room", Outcome::Si(less(limit, highest, Dimension::Stress)));
        if limit < highest {
            answer.notices.push("The highest valve is set above the pressure that the boiler may reach: it counts for nothing.".into());
        }
    }
    // The dust of adding must not turn exactly enough into too little.
    let enough = margin >= -1e-12 * made;
    let said = format!(
        "{}: the valves pass {}, the boiler makes {}",
        if enough { "complies" } else { "fails" },
        lb_per_h(all),
        lb_per_h(Flow::kg_per_s(made))
    );
    if let [_] = sets {
        answer.notices.push("One valve only: nothing stands behind it if it sticks. 49 CFR 230.48(a) says how many a locomotive boiler has.".into());
    }
    Ok(answer
        .with("enough", said)
        .with("ladder", ladder(&valves, mawp)))
}

fn lb_per_h(flow: Flow) -> String {
    format!(
        "{} lb/h",
        show::number(flow.to_lb_per_h(), 0, Rounding::Nearest)
    )
}

fn ladder(valves: &[(usize, Valve)], mawp: f64) -> Outcome {
    let mut so_far = 0.0;
    let rows = valves.iter().map(|(at, valve)| {
        so_far += valve.capacity.to_kg_per_s();
        let set = valve.set.to_pascals();
        vec![
            (at + 1).to_string(),
            psi(set),
            psi(set - mawp),
            lb_per_h(valve.capacity),
            lb_per_h(Flow::kg_per_s(so_far)),
        ]
    });
    Outcome::Table {
        rows: rows.collect(),
        columns: [
            "valve",
            "set, psi",
            "above allowed, psi",
            "passes",
            "together so far",
        ]
        .map(str::to_owned)
        .to_vec(),
    }
}
