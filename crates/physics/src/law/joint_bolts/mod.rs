//! `joint.bolts`: what the bolts of a gasketed steam joint must hold, seated and under pressure, and what that is for each.

use crate::answer::{Answer, Outcome, TableValue};
use crate::boiler::{QUALIFIED, REVIEW};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::csv::{self, Table};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::screw_torque::Screw;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Angle, Area, Dimension, Force, House, Length, Rounding, Stress, Torque, math};
use std::f64::consts::{FRAC_PI_4, PI};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "joint.bolts";
const FACTORS: &str = include_str!("../../../../../tables/material/gasket.csv");
const LISTED: &str = "tables/material/gasket.csv";
const CODE: &str = "the pressure vessel code's two bolt loads";
const WIDTH: &str = "the code's effective width: half the contact, or half the root of that where it is over a quarter inch";
const EACH: &str = "the load shared alike by all bolts";

/// The gaskets of the table, in its order; with others m and y are typed.
pub const GASKETS: [&str; 13] = [
    "vegetable-fiber",
    "spiral-wound",
    "corrugated-filled-copper",
    "corrugated-filled-iron",
    "corrugated-copper",
    "corrugated-iron",
    "jacketed-copper",
    "jacketed-iron",
    "grooved-copper",
    "grooved-iron",
    "flat-aluminum",
    "flat-copper",
    "flat-iron",
];

/// One row of the table of gaskets.
#[derive(Debug, Clone, PartialEq)]
pub struct Gasket {
    /// The word that names it.
    pub word: String,
    /// How many times the pressure must stay on it.
    pub m: String,
    /// What seats it, psi.
    pub y: String,
    /// What it is.
    pub note: String,
}

static ROWS: Table<Gasket> = Table::new("table of gaskets", || {
    csv::each(
        FACTORS,
        &["gasket", "m", "y", "grade", "note"],
        |[word, m, y, _, note]| Ok(Gasket { word, m, y, note }),
    )
});

/// The row of one gasket.
///
/// # Errors
/// [`SheetError::OwnFault`] where the table cannot be read or has no such row.
pub fn gasket(word: &str) -> Result<&'static Gasket, SheetError> {
    ROWS.row(ID, word, |row| row.word == word)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Bolts of a steam joint with a gasket",
    purpose: "A flat gasket inside the bolts of a round joint: the load that seats it and the load that keeps it tight under pressure, \
        which of the two governs, and what load, stress and turning force that means for each bolt.",
    formula: "
        N = (D - d) / 2
        b_0 = N / 2
        b = min(b_0, sqrt(b_0) / 2)
        G = D - 2 * b
        H = pi / 4 * G^2 * p
        H_g = 2 * b * pi * G * m * p
        W_1 = H + H_g
        W_2 = pi * b * G * y
        W = max(W_1, W_2)
        F = W / n
        A = pi / 4 * d_r^2
        S = F / A
        a_l = atan(L / (pi * d_p))
        T_t = F * d_p / 2 * (cos(a) * tan(a_l) + f) / (cos(a) - f * tan(a_l))
        T = T_t + F * f_n * d_n / 2",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "pressure",
            "p",
            Dimension::GaugePressure,
            "1 psig",
            "600 psig",
            "the most pressure the joint holds",
        ),
        Argument::quantity(
            "gasket_outside",
            "D",
            Dimension::Length,
            "0.5 in",
            "100 in",
            "outside of the ring on which gasket and both faces touch",
        ),
        Argument::quantity(
            "gasket_inside",
            "d",
            Dimension::Length,
            "0.1 in",
            "99 in",
            "inside of that ring",
        ),
        Argument::word(
            "gasket",
            &GASKETS,
            "the gasket, of the table; or say gasket_m and gasket_y",
        )
        .optional(),
        Argument::quantity(
            "gasket_m",
            "m",
            Dimension::Ratio,
            "0",
            "10",
            "the gasket maker's factor m, instead of the table",
        )
        .optional(),
        Argument::quantity(
            "gasket_y",
            "y",
            Dimension::Stress,
            "0 psi",
            "50000 psi",
            "the gasket maker's seating stress y, instead of the table",
        )
        .optional(),
        Argument::quantity(
            "bolts",
            "n",
            Dimension::Count,
            "2",
            "200",
            "number of bolts or studs",
        ),
        Argument::quantity(
            "root_diameter",
            "d_r",
            Dimension::Length,
            "0.1 in",
            "4 in",
            "diameter of the bolts at the root of their thread, or of the shank where that is less",
        )
        .optional(),
        Argument::quantity(
            "pitch_diameter",
            "d_p",
            Dimension::Length,
            "0.1 in",
            "4 in",
            "their pitch diameter: thread.unified or thread.whitworth works it",
        )
        .optional(),
        Argument::quantity(
            "lead",
            "L",
            Dimension::Length,
            "0.01 in",
            "0.5 in",
            "travel of the nut in one turn",
        )
        .optional(),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "0 deg",
            "45 deg",
            "angle of one flank: Unified 30, Whitworth 27.5",
        )
        .optional(),
        Argument::quantity(
            "friction",
            "f",
            Dimension::Ratio,
            "0.01",
            "0.6",
            "friction of the thread, as it is greased",
        )
        .optional(),
        Argument::quantity(
            "nut_diameter",
            "d_n",
            Dimension::Length,
            "0.1 in",
            "8 in",
            "mean diameter of the face the nut rubs on",
        )
        .optional(),
        Argument::quantity(
            "nut_friction",
            "f_n",
            Dimension::Ratio,
            "0",
            "0.6",
            "friction of that face",
        )
        .optional(),
        figure(
            "allowable",
            "S_a",
            Dimension::Stress,
            "1000 psi",
            "100000 psi",
            "the most the bolts may be stressed at the heat of the joint, by the code in force or their maker; the figure itself passes",
        ),
    ],
    table_values: &[
        Symbol::named(
            "m",
            "",
            "times the pressure that must stay on the gasket",
            LISTED,
        ),
        Symbol::of(
            "y",
            Dimension::Stress,
            "stress that seats the gasket",
            LISTED,
        ),
    ],
    lines: &[
        Symbol::of("N", Dimension::Length, "width of the contact", WIDTH),
        Symbol::of("b_0", Dimension::Length, "basic width of seating", WIDTH),
        Symbol::of("H", Dimension::Force, "pressure on the joint", CODE),
        Symbol::of(
            "H_g",
            Dimension::Force,
            "load that must stay on the gasket",
            CODE,
        ),
        Symbol::of(
            "A",
            Dimension::Area,
            "section of one bolt at its root",
            EACH,
        ),
        Symbol::of(
            "a_l",
            Dimension::Angle,
            "lead angle of the thread",
            "screw.torque",
        ),
        Symbol::of(
            "T_t",
            Dimension::Torque,
            "the thread's part of the turning force",
            "screw.torque",
        ),
    ],
    results: &[
        ResultSpec::quantity(
            "effective_width",
            "b",
            Dimension::Length,
            (4, 3),
            "effective width of the gasket",
            WIDTH,
        ),
        ResultSpec::quantity(
            "load_diameter",
            "G",
            Dimension::Length,
            (3, 2),
            "diameter on which the gasket's load acts",
            WIDTH,
        ),
        ResultSpec::quantity(
            "operating",
            "W_1",
            Dimension::Force,
            (0, 0),
            "load that keeps it tight under pressure",
            CODE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "seating",
            "W_2",
            Dimension::Force,
            (0, 0),
            "load that seats the gasket",
            CODE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "load",
            "W",
            Dimension::Force,
            (0, 0),
            "the greater of the two",
            CODE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "each",
            "F",
            Dimension::Force,
            (0, 0),
            "load on each bolt",
            EACH,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "stress",
            "S",
            Dimension::Stress,
            (0, 0),
            "stress at the root of each bolt",
            EACH,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "torque",
            "T",
            Dimension::Torque,
            (1, 1),
            "turning force that gives that load, no more than a first guess",
            "screw.torque, thread and face of the nut",
        ),
        ResultSpec::text("governs", "which of the two loads governs", CODE),
        ResultSpec::text(
            "complies",
            "how the stress stands to the figure given",
            FIGURE,
        ),
    ],
    branches: &["gasket of the table", "m and y given"],
    validity: "A flat ring gasket wholly inside the bolts of a round joint, faces flat and stiff. The factors are for the design of a joint, not \
        for how hard to tighten it: what seats a gasket in the shop is its maker's word. Heat lets bolts and gasket creep; \
        bending of flanges, outside pulls and shock are not in it. A full-face or ring joint has other rules.",
    sources: &[
        Source {
            work: "Garlock, Metallic Gasket Catalog",
            locator: "page D-36, calculating load requirements (read at pdf.directindustry.com, catalog 5615-10898 page 36)",
            used_for: "both loads, the effective width on either side of a quarter inch, and the diameter they act on",
        },
        Source {
            work: "Flange leakage calculation by ASME VIII-1 Appendix 2 (a copy at scribd.com, 327905617)",
            locator: "rows 6, 10 and 15",
            used_for: "a gasket's width and diameter worked",
        },
        Source {
            work: "Copies of the code's table of gasket factors",
            locator: "tables/material/gasket.toml names four",
            used_for: "m and y",
        },
    ],
    cautions: &[
        "No joint is opened or tightened under pressure or while hot: zero proven, cooled and drained first.",
        "Turning force is a poor measure of load: dirt, grease and a tired thread change it by a third or more. Tighten across, in steps, and look again when she is warm and cold.",
        "Bolts and studs of a boiler are those of its drawing and its code: grade, length, thread full in its hole.",
        QUALIFIED,
        REVIEW,
    ],
    closed_form: ClosedForm::Yes,
};

/// A gasket of a round joint: its effective width and the diameter its load acts on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Effective width.
    pub width: Length,
    /// Diameter of its load.
    pub diameter: Length,
}

impl Seat {
    /// Of a flat ring between two diameters. In inches: half the contact up to a quarter inch, half its root beyond. The
    /// two meet there, so that the lesser is right on either side.
    pub fn flat(outside: Length, inside: Length) -> Seat {
        let basic = (outside.to_inches() - inside.to_inches()) / 4.0;
        let width = basic.min(math::sqrt(basic) / 2.0);
        Seat {
            width: Length::inches(width),
            diameter: Length::inches(outside.to_inches() - 2.0 * width),
        }
    }

    /// The load that keeps it tight under a pressure that must stand `m` times on it.
    pub fn operating(self, pressure: Stress, m: f64) -> Force {
        let (width, diameter, psi) = (
            self.width.to_inches(),
            self.diameter.to_inches(),
            pressure.to_psi(),
        );
        Force::lbf(FRAC_PI_4 * diameter * diameter * psi + 2.0 * width * PI * diameter * m * psi)
    }

    /// The load that seats it.
    pub fn seating(self, y: Stress) -> Force {
        Force::lbf(PI * self.width.to_inches() * self.diameter.to_inches() * y.to_psi())
    }
}

/// The factors of the gasket, m and y, from the table or as typed; none where nobody said.
fn factors(
    inputs: &Inputs,
    answer: &mut Answer,
) -> Result<(Option<f64>, Option<Stress>), SheetError> {
    let typed = (inputs.si("gasket_m"), inputs.si("gasket_y"));
    let Some(word) = inputs.word("gasket") else {
        return Ok((typed.0, typed.1.map(Stress::pascals)));
    };
    if typed != (None, None) {
        return Err(SheetError::impossible(
            ID,
            "both a gasket of the table and its factors were said",
            "one of them: gasket_m and gasket_y where the maker gives them, else the gasket",
        ));
    }
    let row = gasket(word)?;
    let fault = |why| ROWS.fault(ID, why);
    let m = csv::number(&row.m).map_err(fault)?;
    let y = csv::number(&row.y).map_err(fault)?;
    for (symbol, value) in CARD.table_values.iter().zip([m, y]) {
        let said = format!("{LISTED}, {}", row.note);
        answer
            .table_values
            .push(TableValue::inch_book(*symbol, value, said));
    }
    Ok((Some(m), Some(Stress::psi(y))))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let outside = inputs.need_length("gasket_outside")?;
    let inside = inputs.need_length("gasket_inside")?;
    let pressure = Stress::pascals(inputs.need_si("pressure")?);
    let bolts = inputs.need_si("bolts")?;
    if outside.to_m() - inside.to_m() < 1e-6 {
        return Err(SheetError::impossible(
            ID,
            "the inside of the gasket is no smaller than its outside",
            "the two diameters of the ring on which it touches",
        ));
    }
    let seat = Seat::flat(outside, inside);
    let branch = match inputs.word("gasket") {
        Some(_) => "gasket of the table",
        None => "m and y given",
    };
    let mut answer = Answer::new(branch);
    let (m, y) = factors(inputs, &mut answer)?;
    let operating = m.map(|m| seat.operating(pressure, m));
    let seating = y.map(|y| seat.seating(y));
    answer = answer
        .with("effective_width", seat.width)
        .with("load_diameter", seat.diameter);
    // What nobody said: one word would do, or the two factors.
    let mut missing = Vec::new();
    for (told, name) in [(m.is_some(), "gasket_m"), (y.is_some(), "gasket_y")] {
        if !told {
            missing.push(name);
        }
    }
    if missing.len() == 2 {
        missing = vec!["gasket, or gasket_m and gasket_y"];
    }
    answer = match operating {
        Some(load) => answer.with("operating", load),
        None => answer.waiting(&["operating"], &missing),
    };
    answer = match seating {
        Some(load) => answer.with("seating", load),
        None => answer.waiting(&["seating"], &missing),
    };
    let allowable = inputs.si("allowable");
    let mut stress = None;
    if let (Some(operating), Some(seating)) = (operating, seating) {
        let pressed = operating.to_newtons() >= seating.to_newtons();
        let load = operating.to_newtons().max(seating.to_newtons());
        let each = Force::newtons(load / bolts);
        answer = answer
            .with("load", Force::newtons(load))
            .with("each", each)
            .with(
                "governs",
                if pressed { "pressure" } else { "seating" }.to_owned(),
            );
        if let Some(root) = inputs.length("root_diameter") {
            let section = Area::sq_in(FRAC_PI_4 * root.to_inches() * root.to_inches());
            let at = Stress::psi(each.to_lbf() / section.to_sq_in());
            stress = Some(at.to_pascals());
            answer = answer.with("stress", at);
        }
        answer = turning(inputs, answer, each)?;
    } else {
        answer = answer.waiting(&["load", "each", "stress", "torque", "governs"], &missing);
    }
    let from = missing.first().copied().unwrap_or("root_diameter");
    let held = Held::default().hold(
        "stress in the bolts",
        (stress, from),
        Bound::AtMost,
        (allowable, "allowable"),
    );
    if allowable.is_none() {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    Ok(answer.with("complies", held.words()))
}

/// The turning force for a load on each bolt, where thread and nut are told.
fn turning(inputs: &Inputs, answer: Answer, each: Force) -> Result<Answer, SheetError> {
    let (Some(pitch_diameter), Some(lead), Some(angle), Some(friction)) = (
        inputs.length("pitch_diameter"),
        inputs.length("lead"),
        inputs.si("half_angle"),
        inputs.si("friction"),
    ) else {
        return Ok(answer);
    };
    let (Some(nut), Some(rubs)) = (inputs.si("nut_diameter"), inputs.si("nut_friction")) else {
        return Ok(answer);
    };
    let screw = Screw {
        load: each,
        pitch_diameter,
        lead,
        half_angle: Angle::radians(angle),
        friction,
    };
    let thread = screw.raise().ok_or_else(|| {
        SheetError::impossible(
            ID,
            "with this lead and friction no turning draws the nut up",
            "a lead of the thread, or less friction",
        )
    })?;
    let face = each.to_newtons() * rubs * nut / 2.0;
    Ok(answer.with(
        "torque",
        Outcome::from(Torque::newton_m(thread.to_newton_m() + face)),
    ))
}
