//! What the law's specification card (Form 4 of 49 CFR 230) asks of a boiler, and where this book has it.
//!
//! Source: the form's fields, of which the heads, materials, thicknesses, shape and water spaces were read and the rest is
//! from memory; each says which.

use jiff::civil::Date;

use crate::book::{Book, Component, Locomotive};

/// One field of the law's card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardField {
    /// What it asks.
    pub asks: &'static str,
    /// Whether the field was read on the form itself; else it is from memory.
    pub read: bool,
    /// What this book has; nothing where it is missing.
    pub has: Option<String>,
    /// Where it lacks, of which components.
    pub lacks: Vec<String>,
}

#[derive(Clone, Copy)]
enum In {
    /// What the shop says on papers.
    Particular(&'static str),
    /// A fact of every component of a place.
    Of(&'static str, &'static [&'static str]),
    /// The pressure set.
    SetPressure,
}

const READ: bool = true;
const MEMORY: bool = false;

/// The fields, in the order of the form.
const FIELDS: &[(&str, bool, In)] = &[
    ("boiler number", READ, In::Particular("boiler-number")),
    ("date built", READ, In::Particular("built")),
    ("builder", READ, In::Particular("builder")),
    ("owner", READ, In::Particular("owner")),
    ("operator", READ, In::Particular("operator")),
    ("type of boiler", READ, In::Particular("boiler-type")),
    ("where the dome is", READ, In::Particular("dome")),
    (
        "material of each course",
        READ,
        In::Of("barrel", &["metal"]),
    ),
    (
        "carbon content of each course",
        READ,
        In::Of("barrel", &["carbon"]),
    ),
    (
        "condition of each course: new, good or fair",
        READ,
        In::Of("barrel", &["condition"]),
    ),
    (
        "rivets: metal and carbon",
        READ,
        In::Of("barrel", &["rivet_metal"]),
    ),
    (
        "papers that prove the materials",
        READ,
        In::Of("whole", &["material_tests"]),
    ),
    (
        "thickness of the front tube sheet",
        READ,
        In::Of("front-tube-sheet", &["thickness"]),
    ),
    (
        "thickness of each course at its seam",
        READ,
        In::Of("barrel", &["seam_thickness"]),
    ),
    (
        "thickness of each course at its thinnest place",
        READ,
        In::Of("barrel", &["thickness"]),
    ),
    (
        "inside diameter of each course",
        READ,
        In::Of("barrel", &["radius"]),
    ),
    (
        "circular throughout? flattened where and how much?",
        READ,
        In::Of("whole", &["circular"]),
    ),
    (
        "flats stayed for this pressure?",
        READ,
        In::Of("whole", &["flats_stayed"]),
    ),
    (
        "water space at the mud ring: sides",
        READ,
        In::Of("whole", &["water_space_sides"]),
    ),
    (
        "water space at the mud ring: front",
        READ,
        In::Of("whole", &["water_space_front"]),
    ),
    (
        "water space at the mud ring: back",
        READ,
        In::Of("whole", &["water_space_back"]),
    ),
    (
        "water space at the center line",
        READ,
        In::Of("whole", &["water_space_middle"]),
    ),
    (
        "crown sheet: material and thickness",
        MEMORY,
        In::Of("crown", &["metal", "thickness"]),
    ),
    (
        "side sheets: material and thickness",
        MEMORY,
        In::Of("firebox-sides", &["metal", "thickness"]),
    ),
    (
        "firebox tube sheet: material and thickness",
        MEMORY,
        In::Of("firebox-tube-sheet", &["metal", "thickness"]),
    ),
    (
        "door sheet: material and thickness",
        MEMORY,
        In::Of("door-sheet", &["metal", "thickness"]),
    ),
    (
        "wrapper: material and thickness",
        MEMORY,
        In::Of("wrapper", &["metal", "thickness"]),
    ),
    (
        "throat sheet: material and thickness",
        MEMORY,
        In::Of("throat", &["metal", "thickness"]),
    ),
    (
        "back head: material and thickness",
        MEMORY,
        In::Of("back-head", &["metal", "thickness"]),
    ),
    (
        "dome: pieces, opening, liner",
        MEMORY,
        In::Of("whole", &["dome_opening"]),
    ),
    (
        "tubes: number, outside diameter, length",
        MEMORY,
        In::Of("tubes", &["count", "outside_diameter", "length"]),
    ),
    (
        "staybolts: number and least diameter",
        MEMORY,
        In::Of("staybolts", &["count", "least_diameter"]),
    ),
    (
        "crown stays: number and least diameter",
        MEMORY,
        In::Of("crown-stays", &["count", "least_diameter"]),
    ),
    (
        "braces: number, area, surface",
        MEMORY,
        In::Of("braces", &["count", "area", "surface"]),
    ),
    (
        "longitudinal seams: kind, pitch, rivet",
        MEMORY,
        In::Of("barrel", &["seam_kind", "seam_pitch", "seam_rivet"]),
    ),
    ("girth seams", MEMORY, In::Of("whole", &["girth_seams"])),
    (
        "safety valves: number, size, capacity",
        MEMORY,
        In::Of("whole", &["safety_valves"]),
    ),
    (
        "lowest glass above the crown sheet",
        MEMORY,
        In::Of("whole", &["crown_height", "glass_low"]),
    ),
    (
        "injectors and pumps",
        MEMORY,
        In::Of("whole", &["injectors"]),
    ),
    (
        "heating surface",
        MEMORY,
        In::Of("whole", &["heating_surface"]),
    ),
    ("grate area", MEMORY, In::Of("whole", &["grate_area"])),
    ("working drawings", MEMORY, In::Of("whole", &["drawings"])),
    (
        "pressure allowed, as the owner set it",
        MEMORY,
        In::SetPressure,
    ),
];

/// What the law's card asks, and what this book has of it.
pub fn card_fields(
    book: &Book,
    engine: &Locomotive,
    standing: &[&Component],
    on: Date,
) -> Vec<CardField> {
    let fields = FIELDS.iter().map(|(asks, read, held)| {
        let (has, lacks) = match held {
            In::Particular(word) => (
                book.particular(engine, word, on).map(|it| it.says.clone()),
                Vec::new(),
            ),
            In::SetPressure => (
                engine.mawp_psig.map(|psi| format!("{psi} psig")),
                Vec::new(),
            ),
            In::Of(place, names) => of_place(standing, place, names, on),
        };
        CardField {
            asks,
            read: *read,
            has,
            lacks,
        }
    });
    fields.collect()
}

/// The facts of every component of a place, where none lacks any of them.
fn of_place(
    standing: &[&Component],
    place: &str,
    names: &[&str],
    on: Date,
) -> (Option<String>, Vec<String>) {
    // Of the whole boiler each fact stands on one of several components, and none has all.
    let here: Vec<_> = standing.iter().filter(|it| it.place == place).collect();
    if here.iter().any(|it| it.kind == "not-fitted") {
        return (Some("not fitted".into()), Vec::new());
    }
    let whole = place == "whole";
    let (mut has, mut lacks) = (Vec::new(), Vec::new());
    for component in &here {
        let told: Vec<_> = names
            .iter()
            .filter_map(|name| Some(component.fact(name, on)?.says.as_str()))
            .collect();
        match (told.len() == names.len(), whole) {
            (true, true) => has.push(told.join(", ")),
            (true, false) => has.push(format!("{}: {}", component.name, told.join(", "))),
            (false, true) => {}
            (false, false) => lacks.push(component.name.clone()),
        }
    }
    match (has.is_empty(), lacks.is_empty()) {
        (false, true) => (Some(has.join("; ")), lacks),
        _ => (None, lacks),
    }
}
