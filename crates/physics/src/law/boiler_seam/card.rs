//! The card: what is asked, what is answered, and where it comes from.

use super::answer;
use crate::boiler::{FORM_4, MEASURED, QUALIFIED, REVIEW};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "boiler.seam";

/// The kinds of seam, which are the branches of the evidence.
pub const KINDS: &[&str] = &[
    "lap-single",
    "lap-double",
    "lap-triple",
    "butt-double",
    "butt-triple",
    "butt-quadruple",
    "saw-tooth",
];

const LEAST: &str = "found by working every mode";
const CODE: &str = "Report of the Boiler Code Committee, 1914 edition, appendix";

const fn count(symbol: &'static str, meaning: &'static str) -> Symbol {
    Symbol::of(symbol, Dimension::Count, meaning, LEAST)
}

/// Thickness of a strap where there is none.
pub const STRAP: Symbol = Symbol::of(
    "b",
    Dimension::Length,
    "thickness of one strap",
    "the kind of seam",
);
/// Strength in double shear where no rivet has it.
pub const DOUBLE: Symbol = Symbol::of(
    "S",
    Dimension::Stress,
    "strength of a rivet sheared twice",
    "the kind of seam",
);
/// What gives way in the weakest mode, in the order of [`super::modes::Tally`].
pub const COUNTS: [Symbol; 8] = [
    count("u", "plates torn"),
    count("m", "holes in the row where the plate tears"),
    count("v", "straps torn"),
    count("m_b", "holes in the row where the straps tear"),
    count("n_s", "rivets sheared once"),
    count("n_d", "rivets sheared twice"),
    count("n_t", "rivets that crush the plate"),
    count("n_b", "strap thicknesses that rivets crush"),
];

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Strength of a riveted seam",
    purpose: "Every way in which a riveted seam can come apart, over one unit of its length: plate torn at each row, \
        rivets sheared or crushing what they bear on, straps torn. The least of them over the strength of solid plate is \
        the seam's efficiency.",
    formula: "
        a = pi * d^2 / 4
        A = P * t * T
        W_p = u * (P - m * d) * t * T
        W_b = v * (P - m_b * d) * b * T
        W_s = n_s * a * s + n_d * a * S
        W_c = n_t * d * t * c + n_b * d * b * c
        W = W_p + W_b + W_s + W_c
        E = W / A",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "kind",
            KINDS,
            "the kind of seam; saw-tooth stands for any butt seam whose rows are given",
        ),
        Argument::quantity(
            "pitch",
            "P",
            Dimension::Length,
            "1/2 in",
            "40 in",
            "unit of length: pitch of the row with the widest spacing, for a saw-tooth seam one whole tooth",
        ),
        Argument::quantity(
            "thickness",
            "t",
            Dimension::Length,
            "1/16 in",
            "2 in",
            "thickness of the plate at the seam",
        ),
        Argument::quantity(
            "strap",
            "b",
            Dimension::Length,
            "1/16 in",
            "2 in",
            "thickness of one butt strap, the thinner where they differ",
        )
        .optional(),
        Argument::quantity(
            "rivet",
            "d",
            Dimension::Length,
            "1/4 in",
            "2 in",
            "diameter of the rivet as driven, which is that of its hole",
        ),
        Argument::quantity(
            "shear",
            "s",
            Dimension::Stress,
            "5000 psi",
            "100000 psi",
            "strength of a rivet sheared once",
        ),
        Argument::quantity(
            "shear_double",
            "S",
            Dimension::Stress,
            "5000 psi",
            "200000 psi",
            "strength of a rivet sheared twice, on its area taken once",
        )
        .optional(),
        Argument::quantity(
            "crushing",
            "c",
            Dimension::Stress,
            "10000 psi",
            "300000 psi",
            "crushing strength of the plate",
        ),
        Argument::quantity(
            "tensile",
            "T",
            Dimension::Stress,
            "5000 psi",
            "120000 psi",
            "tensile strength of the plate",
        ),
        Argument::list("rows",Dimension::Count,"1","12",(1, 10),"of a saw-tooth seam, the rivets of each row within one unit, outermost row first: 1, 2, 3, 4, 4").optional(),
        Argument::quantity(
            "double_rows",
            "double_rows",
            Dimension::Count,
            "1",
            "10",
            "of a saw-tooth seam, how many rows next to the butt go through both straps",
        )
        .optional(),
    ],
    table_values: &COUNTS,
    lines: &[
        Symbol::of("a", Dimension::Area, "area of a driven rivet", "circle"),
        Symbol::of(
            "W_p",
            Dimension::Force,
            "plate torn in the weakest mode",
            CODE,
        ),
        Symbol::of(
            "W_b",
            Dimension::Force,
            "straps torn in it",
            "plane statics",
        ),
        Symbol::of("W_s", Dimension::Force, "rivets sheared in it", CODE),
        Symbol::of(
            "W_c",
            Dimension::Force,
            "plate and strap crushed in it",
            CODE,
        ),
    ],
    results: &[
        ResultSpec::table(
            "modes",
            "every mode, rows counted from the outside; load over one unit of length in pounds, and that over the solid plate",
            LEAST,
        ),
        ResultSpec::quantity(
            "efficiency",
            "E",
            Dimension::Ratio,
            (4, 4),
            "efficiency of the seam",
            CODE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("weakest", "the mode that governs", LEAST),
        ResultSpec::quantity(
            "solid_plate",
            "A",
            Dimension::Force,
            (0, 0),
            "strength of the solid plate over one unit of length",
            CODE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "weakest_load",
            "W",
            Dimension::Force,
            (0, 0),
            "load of the mode that governs",
            CODE,
        )
        .rounded(Rounding::Down),
    ],
    branches: KINDS,
    validity: "Rivets that fill their holes, rows and edges spaced as the code of construction asks, plates and straps \
        bearing evenly. A lap seam also bends, which is what cracks it along the rivets, where nobody sees; no strength \
        sheet knows that. Of a saw-tooth strap the teeth themselves are not worked. How wide a patch with a single riveted \
        seam may be is read off tables of the code that are not on file here.",
    sources: &[
        Source {
            work: "Report of the Boiler Code Committee, 1914 edition",
            locator: "appendix, as reprinted in a state's tentative boiler safety orders, p. 102 (copy at afripics.com, partly legible)",
            used_for: "the modes of the quadruple butt seam and the rule of the least; the other seams' modes are from memory, \
                by the same count",
        },
        Source {
            work: "California Code of Regulations, title 8",
            locator: "section 796 (copy at casetext)",
            used_for: "efficiencies of single riveted seams, as evidence; it works them to about half a point",
        },
        Source {
            work: "US 49 CFR 230 and state boiler rules",
            locator: "section 230.27; Michigan R 408.4212",
            used_for: "that shear once and twice is counted on one area of the driven rivet, and crushing on diameter times \
                thickness",
        },
        Source {
            work: "Plane statics",
            locator: "no page",
            used_for: "straps that tear; the published lists leave it out for straps as thick as they ask",
        },
    ],
    cautions: &[
        REVIEW,
        FORM_4,
        "Strengths of plate and rivets that nobody proved are what the rule in force says of unproved metal, and shear \
            twice is not twice the shear once in every rule. Give both.",
        "Look for cracks from hole to hole, for grooving along the edge, and for caulking that was cut into the plate. A \
            lap seam along a barrel is opened for the eye as the rule in force asks.",
        MEASURED,
        QUALIFIED,
    ],
    closed_form: ClosedForm::No(
        "the mode that governs is found by working every one; its load is a formula",
    ),
};
