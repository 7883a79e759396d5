//! `cast.babbitt`: white metal for a lining poured round a mandrel: how much to melt, how hot, what it shrinks, what is left
//! to machine.

use crate::answer::{Answer, Outcome, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::csv::{self, Table};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Length, Mass, Rounding, Unit};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const METALS: &str = include_str!("../../../../../tables/material/babbitt.csv");
const LISTED: &str = "tables/material/babbitt.csv";
const ROOM: &str = "room between two cylinders, and the weight of the metal";
const LATHE: &str = "one diameter off the other";
const GROWTH: &str = "growth of the metal between freezing and the shop";

/// The alloys of the table by their numbers, in its order.
pub const ALLOYS: [&str; 5] = ["astm-1", "astm-2", "astm-3", "astm-7", "astm-8"];

/// One row of the table of white metals.
#[derive(Debug, Clone, PartialEq)]
pub struct WhiteMetal {
    /// Its number.
    pub alloy: String,
    /// Weight in pounds for a cubic inch, the heats in degrees Fahrenheit at which it freezes and is poured, growth in
    /// length for a hundred degrees Fahrenheit; each as printed.
    pub figures: [String; 4],
    /// How far weight, heats and growth were read.
    pub grades: [String; 3],
    /// What it is made of.
    pub note: String,
}

static ROWS: Table<WhiteMetal> = Table::new("table of white metals", || {
    let heading = [
        "alloy",
        "weight",
        "freezes_f",
        "pour_f",
        "per_100f",
        "grade_weight",
        "grade_heats",
        "grade_growth",
        "note",
    ];
    csv::each(
        METALS,
        &heading,
        |[alloy, weight, freezes, pour, growth, a, b, c, note]| {
            Ok(WhiteMetal {
                alloy,
                figures: [weight, freezes, pour, growth],
                grades: [a, b, c],
                note,
            })
        },
    )
});

/// The row of one alloy.
///
/// # Errors
/// [`SheetError::OwnFault`] where the table cannot be read or has no such row.
pub fn white_metal(alloy: &str) -> Result<&'static WhiteMetal, SheetError> {
    ROWS.row(ID, alloy, |row| row.alloy == alloy)
}

const ID: &str = "cast.babbitt";
const WEIGHT: Symbol = Symbol::named(
    "r",
    "lb/cu in",
    "weight of a cubic inch of the metal",
    LISTED,
);
const FREEZES: Symbol = Symbol::of("T_f", Dimension::Temperature, "where it freezes", LISTED);
const POURED: Symbol = Symbol::of("T_p", Dimension::Temperature, "heat to pour at", LISTED);
const GROWS: Symbol = Symbol::named(
    "e",
    "",
    "growth in length for 100 degrees Fahrenheit",
    LISTED,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "White metal for a lining",
    purpose: "For a shell, box or shoe that is lined with white metal round a mandrel: the metal of the finished lining and what must be \
        melted, the heat to pour at, how much the lining would shrink if it were free, and what is left to bore.",
    formula: "
        t = (D - d) / 2
        M = r * pi / 4 * (D^2 - d^2) * L
        M_c = r * pi / 4 * (D^2 - d_m^2) * L * (1 + w)
        s = e * (T_f - 68) / 100 * D
        s_l = e * (T_f - 68) / 100 * L
        h = T_p
        b = d + c
        x = b - d_m",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity("bore", "D", Dimension::Length, "0.5 in", "40 in", "bore of the shell that is lined, bare"),
        Argument::quantity("pin", "d", Dimension::Length, "0.3 in", "39 in", "diameter of the journal that runs in it"),
        Argument::quantity("length", "L", Dimension::Length, "0.2 in", "40 in", "length of the lining along the axis"),
        Argument::word("alloy", &ALLOYS, "the metal by its ASTM B23 number: 1 to 3 are of tin, 7 and 8 of lead"),
        Argument::quantity("mandrel", "d_m", Dimension::Length, "0.2 in", "39 in", "diameter of the mandrel it is poured round: smaller than the finished bore by what is bored out").optional(),
        Argument::quantity("running_clearance", "c", Dimension::Length, "0 in", "0.1 in", "clearance of the finished bore over the journal, on the diameter").optional(),
        Argument::quantity("extra", "w", Dimension::Ratio, "0", "3", "metal beside the lining, as a share of it: riser, flanges, grooves, dross, what stays in the ladle").optional(),
    ],
    table_values: &[WEIGHT, FREEZES, POURED, GROWS],
    lines: &[],
    results: &[
        ResultSpec::quantity("wall", "t", Dimension::Length, (3, 2), "lining on the journal, on each side", LATHE),
        ResultSpec::quantity("mass", "M", Dimension::Mass, (2, 2), "metal between shell and journal", ROOM).rounded(Rounding::Up),
        ResultSpec::quantity("melt", "M_c", Dimension::Mass, (1, 1), "metal to melt: round the mandrel, and what is beside it", ROOM).rounded(Rounding::Up),
        ResultSpec::quantity("shrink", "s", Dimension::Length, (4, 3), "loss on the outside diameter from freezing to 68 F, were the lining free: it is what the bond must hold", GROWTH).rounded(Rounding::Up),
        ResultSpec::quantity("shrink_length", "s_l", Dimension::Length, (4, 3), "the same along the axis", GROWTH).rounded(Rounding::Up),
        ResultSpec::quantity("pour", "h", Dimension::Temperature, (0, 0), "heat of the metal when it is poured", LISTED),
        ResultSpec::quantity("finished_bore", "b", Dimension::Length, (4, 3), "bore when it is done", LATHE),
        ResultSpec::quantity("machining", "x", Dimension::Length, (4, 3), "left to bore, on the diameter", LATHE),
        ResultSpec::text("heating", "how warm shell and mandrel are when it is poured", "United American Metals, Babbitting Advice"),
    ],
    branches: &["tin", "lead"],
    validity: "A whole round lining; of a half one takes half. Flanges, anchors and oil grooves go into extra. The heats are of the metals as \
        listed: what is bought comes with its maker's own sheet, and that governs. Metal that was melted before is of no number.",
    sources: &[
        Source {
            work: "Liquisearch, Babbitt alloys",
            locator: "liquisearch.com/babbitt_metal/babbitt_alloys, a reprint of the ASTM B23 figures",
            used_for: "where each freezes, and the heat to pour at",
        },
        Source {
            work: "Hirsch Metals, Babbitt Alloys Selection Chart; MakeItFrom.com, L13890 against L53585",
            locator: "hirschmetals.com/babbitt-alloy-selection-chart; makeitfrom.com, Grade 7 against Grade 2",
            used_for: "weights of alloys 2, 7 and 8, growth of 2 and 7; weights of 1 and 3 are from memory, growth of the others is taken from these",
        },
        Source {
            work: "United American Metals, Babbitting Advice",
            locator: "uamet.com/babbit.htm, steps 5 to 8 and 10",
            used_for: "heat of shell and mandrel; 50 F more in the pot where it stands far from the work",
        },
    ],
    cautions: &[
        "Not a drop of water: damp in shell, mandrel, ladle or scrap throws molten metal across the shop. Everything is preheated dry.",
        "Face shield, leather, long sleeves, dry boots; nobody else near, no water within reach of the pot, a way out behind.",
        "Lead: alloys 7 and 8 and old linings of any kind. Ventilation, no food, hands and clothes washed, and the law on lead at work.",
        "A journeyman pours and an apprentice watches. Hot work needs its permit and its fire watch.",
        "A lining is proved by its ring and by looking for a bond all round: metal that shrank off its shell is poured again.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The weight in pounds of metal of so many pounds a cubic inch between two cylinders.
pub fn between(
    outside: Length,
    inside: Length,
    length: Length,
    pounds_per_cubic_inch: f64,
) -> Mass {
    let (outer, inner) = (outside.to_inches(), inside.to_inches());
    let room = std::f64::consts::FRAC_PI_4 * (outer * outer - inner * inner) * length.to_inches();
    Mass::lb(room * pounds_per_cubic_inch)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let bore = inputs.need_length("bore")?;
    let pin = inputs.need_length("pin")?;
    let length = inputs.need_length("length")?;
    let alloy = inputs.word("alloy").unwrap_or_default();
    let row = white_metal(alloy)?;
    let fault = |why| ROWS.fault(ID, why);
    let mut figures = [0.0; 4];
    for (figure, printed) in figures.iter_mut().zip(&row.figures) {
        *figure = csv::number(printed).map_err(fault)?;
    }
    let [weight, freezes, pour, growth] = figures;
    let (mandrel, clearance) = (inputs.length("mandrel"), inputs.length("running_clearance"));
    if pin.to_m() >= bore.to_m() || mandrel.is_some_and(|m| m.to_m() >= bore.to_m()) {
        return Err(SheetError::impossible(
            ID,
            "journal or mandrel does not go into the shell",
            "the bore of the bare shell, larger than both",
        ));
    }
    let lead = ["astm-7", "astm-8"].contains(&alloy);
    let mut answer = Answer::new(if lead { "lead" } else { "tin" });
    let said = |grade: &str| format!("{LISTED}, {alloy}, {grade}: {}", row.note);
    for (symbol, value, grade) in [
        (WEIGHT, weight, &row.grades[0]),
        (FREEZES, freezes, &row.grades[1]),
        (POURED, pour, &row.grades[1]),
        (GROWS, growth, &row.grades[2]),
    ] {
        answer
            .table_values
            .push(TableValue::inch_book(symbol, value, said(grade)));
    }
    let free = growth * (freezes - 68.0) / 100.0;
    answer = answer
        .with("wall", Length::m((bore.to_m() - pin.to_m()) / 2.0))
        .with("mass", between(bore, pin, length, weight))
        .with("shrink", Length::m(free * bore.to_m()))
        .with("shrink_length", Length::m(free * length.to_m()))
        .with("pour", Outcome::Si(Unit::Fahrenheit.to_si(pour)))
        .with(
            "heating",
            "shell tinned at some 650 F and not under 450 F when the metal comes; mandrel at the heat of the metal".to_owned(),
        );
    if let (Some(mandrel), Some(extra)) = (mandrel, inputs.si("extra")) {
        let round = between(bore, mandrel, length, weight).to_lb();
        answer = answer.with("melt", Mass::lb(round * (1.0 + extra)));
    }
    if let Some(clearance) = clearance {
        let finished = pin.to_m() + clearance.to_m();
        if finished >= bore.to_m() {
            return Err(SheetError::impossible(
                ID,
                "the finished bore would leave no lining",
                "a clearance on the diameter that leaves metal on the shell",
            ));
        }
        answer = answer.with("finished_bore", Length::m(finished));
        if let Some(mandrel) = mandrel {
            let left = finished - mandrel.to_m();
            if left <= 0.0 {
                answer.notices.push(
                    "The mandrel is as large as the finished bore or larger: nothing is left to bore, and it stands open."
                        .to_owned(),
                );
            }
            answer = answer.with("machining", Length::m(left));
        }
    }
    answer.notices.push(
        "Where the pot stands away from the work, the maker's advice is some 50 F more in the pot."
            .to_owned(),
    );
    Ok(answer)
}
