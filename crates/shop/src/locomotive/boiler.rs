//! What a boiler is entered as: kinds of component with the facts each is worked from, and the places of the law's
//! specification card. No size has a default, and no metal is taken for proved because nobody said otherwise.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{House, entered_with_unit};
use physics::Given;
use physics::card::Kind as Asked;

use crate::Refusal;
use crate::book::{Authority, BoilerEntered, Book, Component, PersonId, Statement};

use super::find::engine_of;
use super::people::with_authority;

/// What may be written as a fact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FactAs {
    /// A value that this argument of this sheet takes, with its unit.
    Argument(&'static str, &'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    /// Anything: it stands on the card and nothing is worked from it.
    Text,
}

/// A fact that a kind of component can hold.
#[derive(Debug, Clone, Copy)]
pub struct FactOf {
    /// Its name, as typed.
    pub name: &'static str,
    /// What may be written.
    pub takes: FactAs,
    /// What it is.
    pub means: &'static str,
}

const fn fact(name: &'static str, takes: FactAs, means: &'static str) -> FactOf {
    FactOf { name, takes, means }
}

/// A kind of component.
#[derive(Debug, Clone, Copy)]
pub struct BoilerKind {
    /// Its word.
    pub word: &'static str,
    /// What it is.
    pub means: &'static str,
    /// The sheet it is worked by; empty where there is none.
    pub sheet: &'static str,
    /// The argument of that sheet that is the thickness of its metal; empty where it is worked from none.
    pub wall: &'static str,
    /// Its facts.
    pub facts: &'static [FactOf],
}

use FactAs::{Argument, Text, Word};

/// How the strength of a metal is known.
pub const PROOFS: &[&str] = &["certificate", "test", "assumed"];
/// Metals that a rule may have a figure for where their strength is not known.
pub const METALS: &[&str] = &["steel", "wrought-iron"];
/// How a course is closed along its length, or by whose paper its efficiency is known.
pub const SEAMS: &[&str] = &[
    "lap-single",
    "lap-double",
    "lap-triple",
    "butt-double",
    "butt-triple",
    "butt-quadruple",
    "saw-tooth",
    "ligaments",
    "by-paper",
];

const SHELL: &str = "boiler.shell";
const SEAM: &str = "boiler.seam";
const PLATE: &str = "boiler.stayed_plate";
const STAY: &str = "boiler.stay";
const BRACE: &str = "boiler.brace";
const TUBE: &str = "boiler.tube";
const LEVEL: &str = "boiler.water_level";

const METAL: FactOf = fact("metal", Word(METALS), "what the plate is");
const PROOF: FactOf = fact(
    "proof",
    Word(PROOFS),
    "how its strength is known: a certificate, a test, or assumed, when the rule's figure for unknown metal is taken",
);
const TENSILE: FactOf = fact(
    "tensile",
    Argument(SHELL, "tensile"),
    "tensile strength that the certificate or the test says",
);
const AS_BUILT: FactOf = fact(
    "as_built",
    Argument(SHELL, "thickness"),
    "thickness on the drawing; nothing is worked from it",
);
const CARBON: FactOf = fact("carbon", Text, "carbon content and how it is known");
const CONDITION: FactOf = fact("condition", Text, "new, good or fair");

/// Every kind of component.
pub const BOILER_KINDS: &[BoilerKind] = &[
    BoilerKind {
        word: "course",
        means: "a course of the shell, with the seam or the holes along it",
        sheet: SHELL,
        wall: "thickness",
        facts: &[
            fact(
                "thickness",
                Argument(SHELL, "thickness"),
                "thinnest place measured",
            ),
            AS_BUILT,
            fact(
                "radius",
                Argument(SHELL, "radius"),
                "inside radius; of a taper course that of its larger end",
            ),
            METAL,
            PROOF,
            TENSILE,
            fact(
                "seam_kind",
                Word(SEAMS),
                "how it is closed along its length",
            ),
            fact(
                "seam_thickness",
                Argument(SEAM, "thickness"),
                "thickness of the plate at the seam",
            ),
            fact(
                "seam_pitch",
                Argument(SEAM, "pitch"),
                "pitch of the row with the widest spacing; of a saw-tooth seam one tooth",
            ),
            fact(
                "seam_strap",
                Argument(SEAM, "strap"),
                "thickness of the thinner strap",
            ),
            fact(
                "seam_rivet",
                Argument(SEAM, "rivet"),
                "diameter of the driven rivet",
            ),
            fact(
                "seam_crushing",
                Argument(SEAM, "crushing"),
                "crushing strength of the plate, by the code of construction",
            ),
            fact(
                "seam_rows",
                Argument(SEAM, "rows"),
                "of a saw-tooth seam, rivets of each row, outermost first",
            ),
            fact(
                "seam_double_rows",
                Argument(SEAM, "double_rows"),
                "of a saw-tooth seam, rows through both straps",
            ),
            fact("rivets", Word(&["steel", "iron"]), "what the rivets are"),
            fact(
                "rivet_proof",
                Word(&["test", "assumed"]),
                "how their strength is known; assumed takes the rule's figure",
            ),
            fact(
                "seam_shear",
                Argument(SEAM, "shear"),
                "strength of a rivet sheared once, as tested",
            ),
            fact(
                "seam_shear_double",
                Argument(SEAM, "shear_double"),
                "the same sheared twice",
            ),
            fact(
                "hole_pitches",
                Argument("boiler.ligament", "pitches"),
                "distances between the holes along the course",
            ),
            fact(
                "hole",
                Argument("boiler.ligament", "hole"),
                "diameter of the holes",
            ),
            fact(
                "efficiency",
                Argument(SHELL, "efficiency"),
                "efficiency that a signed paper says",
            ),
            fact(
                "rivet_metal",
                Text,
                "rivets: metal and carbon as the card asks",
            ),
            fact("other_end", Text, "inside diameter at its other end"),
            CARBON,
            CONDITION,
        ],
    },
    BoilerKind {
        word: "stayed-sheet",
        means: "a flat sheet between stays",
        sheet: PLATE,
        wall: "thickness",
        facts: &[
            fact(
                "thickness",
                Argument(PLATE, "thickness"),
                "thinnest place measured",
            ),
            AS_BUILT,
            fact(
                "pitches",
                Argument(PLATE, "pitches"),
                "greatest distances between the stays, one way and the other",
            ),
            METAL,
            PROOF,
            TENSILE,
            fact(
                "stay_factor",
                Argument(PLATE, "stay_factor"),
                "the code's factor for how the stays are fastened",
            ),
            CARBON,
            CONDITION,
        ],
    },
    BoilerKind {
        word: "stays",
        means: "a zone of stays that carry alike",
        sheet: STAY,
        wall: "least_diameter",
        facts: &[
            fact(
                "least_diameter",
                Argument(STAY, "least_diameter"),
                "the least of thread root, reduced body and wasted body",
            ),
            fact(
                "pitches",
                Argument(STAY, "pitches"),
                "distances between them, where they are longest",
            ),
            fact(
                "telltale",
                Argument(STAY, "telltale"),
                "telltale hole through the least section; 0 in where none reaches it",
            ),
            fact(
                "angle",
                Argument(STAY, "angle"),
                "how far they lean from square to the sheet; 0 deg where they do not",
            ),
            fact("count", Text, "how many"),
            fact("stay_kind", Text, "rigid, flexible, radial, hollow"),
            fact("length", Text, "length between the sheets"),
        ],
    },
    BoilerKind {
        word: "brace",
        means: "a brace, or several that carry alike",
        sheet: BRACE,
        wall: "",
        facts: &[
            fact(
                "area",
                Argument(BRACE, "area"),
                "net section, the least along it",
            ),
            fact(
                "distance",
                Argument(BRACE, "distance"),
                "from the sheet square to the far end",
            ),
            fact(
                "length",
                Argument(BRACE, "length"),
                "length along the brace",
            ),
            fact(
                "surface",
                Argument(BRACE, "surface"),
                "sheet that one of them carries",
            ),
            fact("count", Text, "how many"),
        ],
    },
    BoilerKind {
        word: "tube",
        means: "tubes, flues or pipes of one size",
        sheet: TUBE,
        wall: "wall",
        facts: &[
            fact(
                "pressure_from",
                Argument(TUBE, "pressure_from"),
                "which side the pressure is on",
            ),
            fact(
                "outside_diameter",
                Argument(TUBE, "outside_diameter"),
                "outside diameter",
            ),
            fact("wall", Argument(TUBE, "wall"), "thinnest wall measured"),
            fact(
                "wear",
                Argument(TUBE, "wear"),
                "wall that will be gone before it is measured again",
            ),
            METAL,
            PROOF,
            TENSILE,
            fact("count", Text, "how many"),
            fact("length", Text, "length between the sheets"),
        ],
    },
    BoilerKind {
        word: "by-paper",
        means: "a part worked on a signed paper, for which no sheet is on file here",
        sheet: "",
        wall: "",
        facts: &[
            fact(
                "pressure",
                Argument(SHELL, "pressure"),
                "pressure that the paper says it bears",
            ),
            fact("by", Text, "who worked and signed it, and when"),
            fact(
                "thickness",
                Argument(SHELL, "thickness"),
                "thinnest place measured",
            ),
            AS_BUILT,
            METAL,
            fact("count", Text, "how many"),
            fact("outside_diameter", Text, "outside diameter"),
            fact("length", Text, "length"),
            CARBON,
            CONDITION,
        ],
    },
    BoilerKind {
        word: "not-fitted",
        means: "she has none",
        sheet: "",
        wall: "",
        facts: &[fact("seen", Text, "how that is known")],
    },
    BoilerKind {
        word: "water-level",
        means: "lowest readings of glass and cock, and the highest part of the crown, all from one mark",
        sheet: LEVEL,
        wall: "",
        facts: &[
            fact(
                "crown_height",
                Argument(LEVEL, "crown_height"),
                "height of the highest part of the crown sheet",
            ),
            fact(
                "glass_low",
                Argument(LEVEL, "glass_low"),
                "lowest reading of the lower glass",
            ),
            fact("cock_low", Argument(LEVEL, "cock_low"), "lowest gauge cock"),
            fact(
                "cocks",
                Word(&["fitted", "none"]),
                "whether she has gauge cocks",
            ),
        ],
    },
    BoilerKind {
        word: "particulars",
        means: "what the specification card asks of the whole boiler",
        sheet: "",
        wall: "",
        facts: &[
            fact(
                "circular",
                Text,
                "circular at all courses? where and how much flattened?",
            ),
            fact("flats_stayed", Text, "are flats stayed for this pressure?"),
            fact(
                "water_space_sides",
                Text,
                "water space at the mud ring, sides",
            ),
            fact(
                "water_space_front",
                Text,
                "water space at the mud ring, front",
            ),
            fact(
                "water_space_back",
                Text,
                "water space at the mud ring, back",
            ),
            fact(
                "water_space_middle",
                Text,
                "water space at the boiler's center line: sides, front, back",
            ),
            fact("dome_opening", Text, "dome: pieces, opening, liner"),
            fact("girth_seams", Text, "girth seams: kind, rivets, pitch"),
            fact(
                "safety_valves",
                Text,
                "safety valves: number, size, capacity",
            ),
            fact("injectors", Text, "injectors and pumps: number, size"),
            fact("heating_surface", Text, "heating surface"),
            fact("grate_area", Text, "grate area"),
            fact("drawings", Text, "working drawings and where they are"),
            fact(
                "material_tests",
                Text,
                "papers that prove the materials, and where they are",
            ),
        ],
    },
];

/// Places of a boiler, with what each is. Each holds something, or is said not to be fitted, before the card can name what governs.
pub const BOILER_PLACES: &[(&str, &str)] = &[
    ("barrel", "courses of the barrel"),
    ("front-tube-sheet", "front tube sheet"),
    ("firebox-tube-sheet", "firebox tube sheet"),
    ("crown", "crown sheet"),
    ("firebox-sides", "side sheets of the firebox"),
    ("door-sheet", "door sheet"),
    ("wrapper", "wrapper or roof sheet"),
    ("throat", "throat sheet"),
    ("back-head", "back head"),
    ("combustion-chamber", "combustion chamber"),
    ("staybolts", "staybolts"),
    ("crown-stays", "crown stays"),
    ("braces", "braces of the flat heads"),
    ("dome", "dome and its opening"),
    ("tubes", "tubes"),
    ("flues", "superheater flues"),
    ("arch-tubes", "arch tubes, siphons, circulators"),
    ("dry-pipe", "dry pipe"),
];
/// Places that are no part under pressure.
pub const WHOLE: &[(&str, &str)] = &[("whole", "the whole boiler")];

/// The kind of a word.
pub fn boiler_kind(word: &str) -> Option<&'static BoilerKind> {
    BOILER_KINDS.iter().find(|kind| kind.word == word)
}

/// Enters a component of a boiler, or more of one that stands.
///
/// # Errors
/// Input: no such kind, place or fact, a value that does not read or lacks its unit, no source, nothing said, a strength
/// typed that nobody proved. Refused: the person may not approve.
pub fn enter_boiler(
    book: &Book,
    told: BoilerEntered,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "enter what the boiler is", on)?;
    Ok(vec![Statement::BoilerEntered(admit_boiler(
        book, told, on,
    )?)])
}

/// What a component must satisfy, new or mended; gives it with its kind and place filled in.
///
/// # Errors
/// As [`enter_boiler`].
pub fn admit_boiler(book: &Book, told: BoilerEntered, on: Date) -> Result<BoilerEntered, Refusal> {
    engine_of(book, told.locomotive)?;
    let name = told.component.trim().to_owned();
    if name.is_empty() {
        return Err(Refusal::input(
            "The component has no name: `second course` was expected, or such.",
        ));
    }
    let boiler = book.boilers.get(&told.locomotive);
    let standing = boiler.and_then(|boiler| boiler.component(&name));
    let or = |said: &str, stood: Option<&str>| match (said.trim(), stood) {
        ("", Some(stood)) => stood.to_owned(),
        (said, _) => said.to_owned(),
    };
    let kind = or(&told.kind, standing.map(|it| it.kind.as_str()));
    let place = or(&told.place, standing.map(|it| it.place.as_str()));
    let Some(known) = boiler_kind(&kind) else {
        let all: Vec<_> = BOILER_KINDS.iter().map(|it| it.word).collect();
        return Err(Refusal::input(format!(
            "`{kind}` is no kind of component: {} were expected.",
            all.join(", ")
        )));
    };
    let pressed = !matches!(known.word, "water-level" | "particulars");
    let places = if pressed { BOILER_PLACES } else { WHOLE };
    let place = if pressed || !place.is_empty() {
        place
    } else {
        "whole".into()
    };
    if !places.iter().any(|(word, _)| *word == place) {
        let all: Vec<_> = places.iter().map(|(word, _)| *word).collect();
        return Err(Refusal::input(format!(
            "`{place}` is no place for a component of the kind {kind}: {} were expected.",
            all.join(", ")
        )));
    }
    if told.source.trim().is_empty() {
        return Err(Refusal::input(
            "Say what it stands on: the drawing, the paper, or who measured it and with what.",
        ));
    }
    if told.facts.is_empty() {
        return Err(Refusal::input(
            "Nothing is said of it: name=value was expected.",
        ));
    }
    let mut facts = BTreeMap::new();
    for (fact, says) in &told.facts {
        facts.insert(
            fact.trim().to_owned(),
            written(known, fact.trim(), says.trim())?,
        );
    }
    let told = BoilerEntered {
        component: name,
        kind,
        place,
        facts,
        source: told.source.trim().to_owned(),
        ..told
    };
    proved(&told, standing, on)?;
    Ok(told)
}

/// What is written of a fact, once it reads; nothing for `unknown`.
fn written(kind: &BoilerKind, name: &str, says: &str) -> Result<String, Refusal> {
    let Some(fact) = kind.facts.iter().find(|fact| fact.name == name) else {
        let all: Vec<_> = kind.facts.iter().map(|fact| fact.name).collect();
        return Err(Refusal::input(format!(
            "A component of the kind {} has no `{name}`: {} were expected.",
            kind.word,
            all.join(", ")
        )));
    };
    if matches!(says, "unknown" | "") {
        return Ok(String::new());
    }
    match fact.takes {
        Text => {}
        Word(words) if words.contains(&says) => {}
        Word(words) => {
            return Err(Refusal::input(format!(
                "`{says}` is not what `{name}` can be: {} were expected, or unknown.",
                words.join(", ")
            )));
        }
        Argument(sheet, argument) => reads(sheet, argument, name, says)?,
    }
    Ok(says.to_owned())
}

/// Whether an argument of a sheet takes a text, every size in it with its unit.
fn reads(sheet: &str, argument: &str, name: &str, says: &str) -> Result<(), Refusal> {
    let card = physics::find(sheet)
        .map_err(|e| Refusal::input(format!("{e}.")))?
        .card;
    let refuse = |why: String| Err(Refusal::input(format!("{name}: {why}")));
    if let Some(asked) = card.argument(argument)
        && let Asked::Quantity(dimension, _) | Asked::List { dimension, .. } = asked.kind
        && !matches!(
            dimension,
            measure::Dimension::Ratio | measure::Dimension::Count
        )
    {
        for one in says.split(',') {
            if let Err(why) = entered_with_unit(one.trim(), dimension) {
                return refuse(why.to_string());
            }
        }
    }
    match physics::Inputs::read(card, &[Given::typed(argument, says)], House::Inch) {
        Ok(_) | Err(physics::SheetError::Missing { .. }) => Ok(()),
        Err(why) => refuse(format!("{why}.")),
    }
}

/// A strength is typed where it is proved, and only there: where it is assumed the rule has the figure.
fn proved(told: &BoilerEntered, standing: Option<&Component>, on: Date) -> Result<(), Refusal> {
    let now = |name: &str| match told.facts.get(name) {
        Some(says) => Some(says.as_str()).filter(|says| !says.is_empty()),
        None => standing
            .and_then(|it| it.fact(name, on))
            .map(|fact| fact.says.as_str()),
    };
    for (proof, strengths) in [
        ("proof", &["tensile"][..]),
        ("rivet_proof", &["seam_shear", "seam_shear_double"]),
    ] {
        for strength in strengths {
            if now(strength).is_some() && now(proof) == Some("assumed") {
                return Err(Refusal::input(format!(
                    "`{strength}` and `{proof}=assumed` were both said: a strength is typed where a certificate or a test \
                     says it; assumed takes the rule's own figure for unknown metal. Say `{strength}=unknown`, or its proof."
                )));
            }
        }
    }
    Ok(())
}
