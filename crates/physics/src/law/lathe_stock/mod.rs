//! `lathe.stock`: the bar a part is made from, what it weighs, and what is on file of its metal.

use crate::answer::{Answer, Outcome, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::csv::{self, Table};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Length, Mass, Rounding};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const TABLE: &str = include_str!("../../../../../tables/material/shop.csv");
const FILE: &str = "tables/material/shop.csv";
const SUM: &str = "sizes added";
const WEIGHT: Symbol = Symbol::named("g", "lb for a cu in", "weight of the metal", FILE);

/// The metals of the table, in its order.
const METALS: [&str; 15] = [
    "c83600",
    "c92200",
    "c90300",
    "c93200",
    "c93700",
    "c95400",
    "c86300",
    "gray-iron-30",
    "gray-iron-40",
    "cast-steel-wcb",
    "1018-hot-rolled",
    "1018-cold-drawn",
    "1045-cold-drawn",
    "wrought-iron",
    "4140-28-32hrc",
];

static CARD: Card = Card {
    id: "lathe.stock",
    version: 1,
    title: "Bar for a part, and its metal",
    purpose: "The bar or cored blank that so many parts are made from: diameter, length, what it weighs before \
        and after, what becomes chips; and what is on file of the metal: strength, hardness, steam, what it takes \
        the place of.",
    formula: "
        D_b = D + c_d
        L_1 = L + 2 * c_f + k
        L_b = n * L_1 + h
        m_b = g * pi * (D_b^2 - b^2) * L_b / 4
        m = g * pi * (D^2 - B^2) * L / 4
        m_c = m_b - n * m",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word("material", &METALS, "the metal, by its number or name"),
        Argument::quantity(
            "diameter",
            "D",
            Dimension::Length,
            "0.05 in",
            "60 in",
            "largest finished diameter",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "0.02 in",
            "120 in",
            "finished length of one part",
        ),
        Argument::quantity(
            "bore",
            "B",
            Dimension::Length,
            "0 in",
            "59 in",
            "bore that goes right through it; 0 where there is none",
        ),
        Argument::quantity(
            "parts",
            "n",
            Dimension::Count,
            "1",
            "500",
            "how many parts, the spare and the trial piece counted",
        ),
        Argument::quantity(
            "on_diameter",
            "c_d",
            Dimension::Length,
            "0 in",
            "2 in",
            "metal to clean up, on the diameter",
        ),
        Argument::quantity(
            "facing",
            "c_f",
            Dimension::Length,
            "0 in",
            "1 in",
            "metal to face off each end",
        ),
        Argument::quantity(
            "parting",
            "k",
            Dimension::Length,
            "0 in",
            "0.5 in",
            "width of the saw or parting tool",
        ),
        Argument::quantity(
            "holding",
            "h",
            Dimension::Length,
            "0 in",
            "12 in",
            "length the chuck keeps, lost at the last part",
        ),
        Argument::quantity(
            "cored",
            "b",
            Dimension::Length,
            "0 in",
            "58 in",
            "hole of a cored or hollow bar; 0 for solid",
        ),
    ],
    table_values: &[WEIGHT],
    lines: &[Symbol::of(
        "L_1",
        Dimension::Length,
        "length of bar for one part",
        SUM,
    )],
    results: &[
        ResultSpec::quantity(
            "bar_diameter",
            "D_b",
            Dimension::Length,
            (4, 3),
            "diameter of bar at least; take the next that is rolled or cast",
            SUM,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "bar_length",
            "L_b",
            Dimension::Length,
            (3, 2),
            "length of bar",
            SUM,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "mass",
            "m_b",
            Dimension::Mass,
            (2, 3),
            "weight of that bar",
            "volume by weight of the metal",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "mass_each",
            "m",
            Dimension::Mass,
            (3, 4),
            "weight of one finished part, as a plain cylinder",
            "volume by weight of the metal",
        ),
        ResultSpec::quantity(
            "chips",
            "m_c",
            Dimension::Mass,
            (2, 3),
            "weight that becomes chips and ends",
            "what is left over",
        ),
        ResultSpec::table("metal", "what is on file of the metal", FILE),
        ResultSpec::text("steam", "whether a steam limit is on file", FILE),
    ],
    branches: &[KNOWN, WARNED],
    validity: "Round parts from round bar. Strengths are least or usual figures at shop temperature from open pages, \
        to choose by, not to design a boiler by: the code's table of allowable stress and the mill's paper do that.",
    sources: &[
        Source {
            work: "Open pages of foundries and suppliers",
            locator: "named in tables/material/shop.toml",
            used_for: "strength, hardness and the steam limit of C92200",
        },
        Source {
            work: "J. Wickert, An Introduction to Mechanical Engineering",
            locator: "chapter 3, table of weights (coursepaper.com)",
            used_for: "weight of steel and gray iron; the other weights are from memory",
        },
    ],
    cautions: &[
        "Never yellow brass in steam or boiler plugs: it loses its zinc, and its strength when hot.",
        "The alloy must be on paper: mark the bar, keep the certificate, and file both with the part.",
        "A sling, and two people, for what one cannot lift; a bar that sticks out behind the spindle is guarded.",
        "What replaces what is told by other shops: the drawing, the code and the officer decide.",
    ],
    closed_form: ClosedForm::No("the metal's own figures are looked up; the rest is a formula"),
};

const KNOWN: &str = "steam limit on file";
const WARNED: &str = "no steam limit on file";

/// One row of the table; what is not on file is empty.
struct Metal {
    name: String,
    tensile: String,
    yields: String,
    stretch: String,
    hard: String,
    steam: String,
    weight: f64,
    strength_grade: String,
    steam_grade: String,
    replaces: String,
    note: String,
}

static ON_FILE: Table<Metal> = Table::new("table of metals", || {
    let heading = [
        "material",
        "tensile",
        "yield",
        "elongation",
        "hardness",
        "steam_limit_f",
        "weight",
        "grade_strength",
        "grade_steam",
        "replaces",
        "note",
    ];
    csv::each(TABLE, &heading, |row| {
        let [
            name,
            tensile,
            yields,
            stretch,
            hard,
            steam,
            weight,
            strength_grade,
            steam_grade,
            replaces,
            note,
        ] = row;
        Ok(Metal {
            name,
            tensile,
            yields,
            stretch,
            hard,
            steam,
            weight: csv::number(&weight)?,
            strength_grade,
            steam_grade,
            replaces,
            note,
        })
    })
});

/// The weight of a cylinder of these diameters and length in inches, at `weight` pounds a cubic inch.
///
/// Source: volume of a hollow cylinder.
pub fn cylinder_weight(outside: f64, bore: f64, length: f64, weight: f64) -> f64 {
    weight * PI * (outside * outside - bore * bore) * length / 4.0
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let need = |name| inputs.need_inch(name);
    let (diameter, length, bore) = (need("diameter")?, need("length")?, need("bore")?);
    let (parts, cored) = (need("parts")?, need("cored")?);
    if bore >= diameter || cored > bore + 1e-9 {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "a bar with a hole of {cored:.4} in makes no part {diameter:.4} in over and {bore:.4} in bored"
            ),
            "a bore smaller than the diameter, and a bar's hole no larger than the bore",
        ));
    }
    let word = inputs.word("material").unwrap_or_default();
    let Metal {
        tensile,
        yields,
        stretch,
        hard,
        steam,
        weight,
        strength_grade,
        steam_grade,
        replaces,
        note,
        ..
    } = ON_FILE.row(CARD.id, word, |row| row.name == word)?;
    let bar = diameter + need("on_diameter")?;
    let one = length + 2.0 * need("facing")? + need("parting")?;
    let all = parts * one + need("holding")?;
    let heavy = cylinder_weight(bar, cored, all, *weight);
    let each = cylinder_weight(diameter, bore, length, *weight);
    let cell = |text: &String, unit: &str| match text.as_str() {
        "" => "not on file".to_owned(),
        text => format!("{text} {unit}").trim_end().to_owned(),
    };
    let graded = |text: String, grade: &String| match grade.as_str() {
        "" | "published" => text,
        grade => format!("{text} ({grade})"),
    };
    let facts = [
        ("metal", note.clone()),
        (
            "tensile strength",
            graded(cell(tensile, "ksi"), strength_grade),
        ),
        ("yield", graded(cell(yields, "ksi"), strength_grade)),
        ("elongation", cell(stretch, "per cent")),
        ("hardness", cell(hard, "HB")),
        ("steam to", graded(cell(steam, "F"), steam_grade)),
        ("takes the place of", cell(replaces, "")),
    ];
    let rows = facts
        .iter()
        .map(|(what, told)| vec![(*what).to_owned(), told.clone()])
        .collect();
    let columns = ["what", "on file"].map(String::from).to_vec();
    let known = !steam.is_empty();
    let said = if known {
        graded(format!("sold for steam up to {steam} F"), steam_grade)
    } else {
        "no limit on file: do not put it in steam on the strength of this sheet".to_owned()
    };
    let mut answer = Answer::new(if known { KNOWN } else { WARNED })
        .with("bar_diameter", Length::inches(bar))
        .with("bar_length", Length::inches(all))
        .with("mass", Mass::lb(heavy))
        .with("mass_each", Mass::lb(each))
        .with("chips", Mass::lb(heavy - parts * each))
        .with("metal", Outcome::Table { columns, rows })
        .with("steam", said);
    answer.table_values.push(TableValue::inch_book(
        WEIGHT,
        *weight,
        format!("{FILE}, {note}"),
    ));
    if !known {
        answer.notices.push("No table of steam temperatures was read for this metal. Ask the code before it goes into steam; bronzes with much lead lose strength early.".into());
    }
    Ok(answer)
}
