//! `fit.press`: a shaft or pin pressed into a hub: pressure, stress, tonnage, what it will hold.
//!
//! The theory is in [`crate::cylinder`]. The force is friction times pressure times area; friction is
//! what nobody knows to better than a half, so the window on the gauge runs from half to twice what is
//! expected, and a fit that goes in outside it is taken apart and measured again.

use crate::answer::{Answer, Assumption, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::cylinder::{self, Elastic, Member};
use crate::error::SheetError;
use crate::fit::METALS;
use crate::given::Inputs;
use measure::{Dimension, Force, House, Length, Rounding, Stress, Torque};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const LAME: &str = "Lamé, thick cylinders";
const FRICTION: &str = "friction on the area of the fit";
const WINDOW: &str =
    "common practice: out and measured again under half or over twice what was expected";
const ELASTIC: &str = "tables/material/elastic.csv";

/// Poisson's ratio of the two metals.
pub(crate) const POISSONS: [Symbol; 2] = [
    Symbol::of(
        "nu_o",
        Dimension::Ratio,
        "Poisson's ratio of the outer metal",
        ELASTIC,
    ),
    Symbol::of(
        "nu_i",
        Dimension::Ratio,
        "Poisson's ratio of the inner metal",
        ELASTIC,
    ),
];

/// The two moduli, which a maker's data sheet may give.
pub(crate) const MODULI: [Argument; 2] = [
    cylinder::modulus(
        "outer_modulus",
        "E_o",
        "modulus of elasticity of the outer metal",
    ),
    cylinder::modulus(
        "inner_modulus",
        "E_i",
        "modulus of elasticity of the inner metal",
    ),
];

static CARD: Card = Card {
    id: "fit.press",
    version: 1,
    title: "A press fit: pressure, stress and tonnage",
    purpose: "A pin, axle or shaft larger than its hole by the interference is pressed in. The pressure \
        between them, the hoop stress at the bore of the hub, the force to expect on the gauge and the \
        window it should stay in, and the torque that friction will hold.",
    formula: "
        k_o = (D_o^2 + d^2) / (D_o^2 - d^2)
        k_i = (d^2 + d_i^2) / (d^2 - d_i^2)
        C = (k_o + nu_o) / E_o + (k_i - nu_i) / E_i
        p = delta / (d * C)
        sigma_o = p * k_o
        sigma_i = -p * k_i
        u_o = 2 * p * d^2 * D_o / (E_o * (D_o^2 - d^2))
        u_i = 2 * p * d^2 * d_i / (E_i * (d^2 - d_i^2))
        A = pi * d * L
        F = mu * p * A
        F_min = F / 2
        F_max = 2 * F
        T = F * d / 2",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "diameter",
            "d",
            Dimension::Length,
            "0.25 in",
            "40 in",
            "diameter of the fit",
        ),
        Argument::quantity(
            "hub_outside",
            "D_o",
            Dimension::Length,
            "0.3 in",
            "80 in",
            "outside diameter of the hub",
        ),
        Argument::quantity(
            "shaft_bore",
            "d_i",
            Dimension::Length,
            "0 in",
            "30 in",
            "bore of the shaft",
        )
        .optional(),
        Argument::quantity(
            "interference",
            "delta",
            Dimension::Length,
            "0.00005 in",
            "0.1 in",
            "how much larger the shaft is than the hole, on the diameter",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "0.05 in",
            "60 in",
            "length of the fit",
        ),
        METALS,
        Argument::quantity(
            "friction",
            "mu",
            Dimension::Ratio,
            "0.02",
            "0.5",
            "friction while pressing",
        ),
        MODULI[0],
        MODULI[1],
    ],
    table_values: &POISSONS,
    lines: &[
        Symbol::of(
            "k_o",
            Dimension::Ratio,
            "hoop stress at the hub's bore over the pressure",
            LAME,
        ),
        Symbol::of(
            "k_i",
            Dimension::Ratio,
            "hoop stress at the shaft's outside over the pressure",
            LAME,
        ),
        Symbol::named(
            "C",
            "per psi",
            "how much both together give for each psi",
            LAME,
        ),
        Symbol::of("A", Dimension::Area, "area of the fit", LAME),
    ],
    results: &[
        ResultSpec::quantity(
            "pressure",
            "p",
            Dimension::Stress,
            (0, 2),
            "pressure between the two",
            LAME,
        ),
        ResultSpec::quantity(
            "hub_hoop",
            "sigma_o",
            Dimension::Stress,
            (0, 2),
            "hoop stress at the bore of the hub, pulling",
            LAME,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "shaft_hoop",
            "sigma_i",
            Dimension::Stress,
            (0, 2),
            "hoop stress at the outside of the shaft; below zero it presses",
            LAME,
        ),
        ResultSpec::quantity(
            "hub_growth",
            "u_o",
            Dimension::Length,
            (5, 4),
            "growth over the outside of the hub, on the diameter",
            LAME,
        ),
        ResultSpec::quantity(
            "close_in",
            "u_i",
            Dimension::Length,
            (5, 4),
            "by how much the shaft's bore closes, on the diameter",
            LAME,
        ),
        ResultSpec::quantity(
            "force",
            "F",
            Dimension::Force,
            (0, 0),
            "force expected at full length",
            FRICTION,
        ),
        ResultSpec::quantity(
            "force_min",
            "F_min",
            Dimension::Force,
            (0, 0),
            "under this, stop: take it apart and measure",
            WINDOW,
        ),
        ResultSpec::quantity(
            "force_max",
            "F_max",
            Dimension::Force,
            (0, 0),
            "over this, stop: take it apart and measure",
            WINDOW,
        ),
        ResultSpec::quantity(
            "torque",
            "T",
            Dimension::Torque,
            (0, 0),
            "torque that the friction holds",
            FRICTION,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("tons", "the force in tons of both kinds", FRICTION),
    ],
    branches: &[SOLID, HOLLOW],
    validity: "Both parts elastic, round and true to size, the hub at least as long as the fit and as \
        stiff all round: spokes, keyways and hubs near an edge give more. Tapered fits spoil the reading.",
    sources: &[
        Source {
            work: "Lamé's theory of thick cylinders",
            locator: "gani-mech-toolbox.blogspot.com, thick-wall theory for cylinders, and derived in the notes of this law",
            used_for: "pressure and stresses",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "the window of half to twice the force expected",
        },
    ],
    cautions: &[
        "Stand clear of the line of a press: a pin that lets go flies. Guard it, and keep hands out.",
        "Tons may be long (2240 lb) or short (2000 lb): ask which the gauge and the old specification mean.",
        "Draw a curve of force against travel while pressing; a step or a fall says more than the last figure.",
        "Friction is a guess to half or twice: the pressure is what holds, and only sizes measured before \
            pressing say what it is.",
    ],
    closed_form: ClosedForm::Yes,
};

const SOLID: &str = "solid shaft";
const HOLLOW: &str = "bored shaft";

/// The two members with their metals: moduli as given, or out of the table and said to be assumed.
pub(crate) struct Metals {
    /// The outer member.
    pub outer: Member,
    /// The inner member.
    pub inner: Member,
    /// The moduli that were not given.
    pub assumptions: Vec<Assumption>,
    /// Poisson's ratios, as table values.
    pub rows: Vec<TableValue>,
}

/// Reads both metals and moduli of a sheet whose arguments are [`METALS`] and [`MODULI`].
pub(crate) fn metals(inputs: &Inputs, outside: Length, bore: Length) -> Result<Metals, SheetError> {
    let sheet = inputs.card.id;
    let [outer, inner] = inputs.need_pair("materials")?;
    let mut assumptions = Vec::new();
    let (of_outer, of_inner) = (
        cylinder::elastic(sheet, outer)?,
        cylinder::elastic(sheet, inner)?,
    );
    let mut member = |free, metal: &'static Elastic, name| Member {
        free,
        modulus: metal.modulus_for(inputs, name, &mut assumptions),
        poisson: metal.poisson,
    };
    let outer = member(outside, of_outer, "outer_modulus");
    let inner = member(bore, of_inner, "inner_modulus");
    let row = |symbol, metal: &Elastic| {
        TableValue::inch_book(symbol, metal.poisson, format!("{ELASTIC}, {}", metal.note))
    };
    Ok(Metals {
        outer,
        inner,
        assumptions,
        rows: vec![row(POISSONS[0], of_outer), row(POISSONS[1], of_inner)],
    })
}

/// Refuses a bore, a fit and an outside that do not stand inside one another.
pub(crate) fn nested(
    sheet: &'static str,
    bore: Length,
    fit: Length,
    outside: Length,
) -> Result<(), SheetError> {
    // Closer than a thousandth of the diameter is a skin and no cylinder.
    let inside = |small: Length, large: Length| small.to_m() < 0.999 * large.to_m();
    if inside(bore, fit) && inside(fit, outside) {
        return Ok(());
    }
    Err(SheetError::impossible(
        sheet,
        format!(
            "a bore of {:.4} in, a fit of {:.4} in and an outside of {:.4} in do not stand inside one another",
            bore.to_inches(),
            fit.to_inches(),
            outside.to_inches()
        ),
        "the bore smaller than the fit and the fit smaller than the outside",
    ))
}

/// What a fit this heavy must be told, if it must.
pub(crate) fn heavy(diameter: Length, interference: Length) -> Option<String> {
    let share = interference.to_m() / diameter.to_m();
    (share > 0.0025).then(|| {
        format!(
            "The interference is {:.2} thousandths for each inch of diameter. Forced fits were made with 1 to 2.5: beyond that most metals yield, and these figures no longer hold.",
            1000.0 * share
        )
    })
}

/// The force that presses a fit of this `diameter` and `length` home against `friction`, under this
/// `pressure` between the two.
///
/// Source: friction on the area of the fit.
pub fn force(pressure: Stress, diameter: Length, length: Length, friction: f64) -> Force {
    Force::newtons(friction * pressure.to_pascals() * PI * diameter.to_m() * length.to_m())
}

/// Adds the force expected, the window of half to twice it, and the tons of both kinds.
pub(crate) fn with_force(answer: Answer, force: Force) -> Answer {
    let (newtons, pounds) = (force.to_newtons(), force.to_lbf());
    let tons = format!(
        "{:.1} tons of 2000 lb, {:.1} tons of 2240 lb",
        pounds / 2000.0,
        pounds / 2240.0
    );
    answer
        .with("force", force)
        .with("force_min", Force::newtons(newtons / 2.0))
        .with("force_max", Force::newtons(2.0 * newtons))
        .with("tons", tons)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (diameter, outside) = (
        inputs.need_length("diameter")?,
        inputs.need_length("hub_outside")?,
    );
    let (interference, length) = (
        inputs.need_length("interference")?,
        inputs.need_length("length")?,
    );
    let friction = inputs.need_si("friction")?;
    let bore = inputs.length("shaft_bore").unwrap_or(Length::m(0.0));
    nested(CARD.id, bore, diameter, outside)?;
    let metals = metals(inputs, outside, bore)?;
    let fit = cylinder::pressed(diameter, interference, metals.outer, metals.inner);
    let force = force(fit.pressure, diameter, length, friction);
    let mut answer = Answer::new(if bore.to_m() > 0.0 { HOLLOW } else { SOLID })
        .with("pressure", fit.pressure)
        .with("hub_hoop", fit.outer_hoop)
        .with("shaft_hoop", fit.inner_hoop)
        .with("hub_growth", fit.growth)
        .with("close_in", fit.close_in)
        .with(
            "torque",
            Torque::newton_m(force.to_newtons() * diameter.to_m() / 2.0),
        );
    answer = with_force(answer, force);
    answer.assumptions = metals.assumptions;
    answer.table_values = metals.rows;
    if inputs.si("shaft_bore").is_none() {
        answer.assumptions.push(Assumption {
            argument: "shaft_bore",
            text: "0 in",
            si: 0.0,
            why: "no bore was said: the shaft is taken as solid",
        });
    }
    answer.notices.extend(heavy(diameter, interference));
    Ok(answer)
}
