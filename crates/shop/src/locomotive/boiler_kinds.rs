//! What a boiler is entered as: kinds of component with the facts each is worked from, and the places of the law's
//! specification card. A kind for which no rule is on file says so, and stands on a signed paper.

/// What may be written as a fact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FactAs {
    /// A value that this argument of this sheet takes, with its unit.
    Argument(&'static str, &'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    /// A whole number from 1.
    Count,
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

use FactAs::{Argument, Count, Text, Word};

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
const BAR: &str = "boiler.crown_bar";
const SCREWED: &str = "boiler.screw_stay";
const SEGMENT: &str = "boiler.segment";

/// What a part is that no sheet here works: the pressure stands on a paper.
const ON_PAPER: &[FactOf] = &[
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
];
/// Who answers for a rule that is none of hers.
const ACCEPTED: FactOf = fact(
    "accepted",
    Text,
    "who, licensed and answerable for her, took this rule for her, and when",
);

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
        word: "segment",
        means: "the flat head above the tubes, held by braces that carry alike",
        sheet: SEGMENT,
        wall: "",
        facts: &[
            fact(
                "shell_diameter",
                Argument(SEGMENT, "shell_diameter"),
                "inside diameter of the shell",
            ),
            fact(
                "height",
                Argument(SEGMENT, "height"),
                "from the top of the tubes to the shell above them",
            ),
            fact(
                "shell_strip",
                Argument(SEGMENT, "shell_strip"),
                "width of the strip that the shell's flange holds, by the code of construction",
            ),
            fact(
                "tube_strip",
                Argument(SEGMENT, "tube_strip"),
                "width of the strip that the tubes hold, by the code of construction",
            ),
            fact("braces", Count, "how many braces hold it"),
            fact(
                "area",
                Argument(BRACE, "area"),
                "net section of one brace, the least along it",
            ),
            fact(
                "distance",
                Argument(BRACE, "distance"),
                "from the head square to the far end of a brace",
            ),
            fact("length", Argument(BRACE, "length"), "length along a brace"),
        ],
    },
    BoilerKind {
        word: "crown-bar",
        means: "crown bars that stand on the firebox plates, by the Indian rule",
        sheet: BAR,
        wall: "",
        facts: &[
            fact(
                "constant",
                Argument(BAR, "constant"),
                "constant of the rule for how the bar was made",
            ),
            fact(
                "tensile_tons",
                Argument(BAR, "tensile_tons"),
                "tensile strength, long tons on the square inch, as the rule counts it",
            ),
            fact(
                "bar_thickness",
                Argument(BAR, "thickness"),
                "thickness of a bar, both plates of a double one together",
            ),
            fact(
                "depth",
                Argument(BAR, "depth"),
                "depth at the middle, less holes",
            ),
            fact(
                "span",
                Argument(BAR, "span"),
                "inside the plates that it stands on",
            ),
            fact(
                "pitch",
                Argument(BAR, "pitch"),
                "center to center of the bars",
            ),
            ACCEPTED,
            fact("count", Text, "how many"),
        ],
    },
    BoilerKind {
        word: "screw-stay",
        means: "stays of Whitworth thread or stay tubes, by the Indian rule",
        sheet: SCREWED,
        wall: "",
        facts: &[
            fact(
                "constant",
                Argument(SCREWED, "constant"),
                "constant of the rule for kind and metal of stay",
            ),
            fact(
                "diameter",
                Argument(SCREWED, "diameter"),
                "diameter over the threads",
            ),
            fact("threads", Argument(SCREWED, "tpi"), "threads in the inch"),
            fact(
                "bore",
                Argument(SCREWED, "bore"),
                "bore of a stay tube; 0 in of a solid stay",
            ),
            fact(
                "surface",
                Argument(SCREWED, "area"),
                "area of plate that one holds",
            ),
            ACCEPTED,
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
        facts: ON_PAPER,
    },
    BoilerKind {
        word: "dished-head",
        means: "a dished head; no rule on file here, so it stands on a signed paper",
        sheet: "",
        wall: "",
        facts: ON_PAPER,
    },
    BoilerKind {
        word: "dome",
        means: "a dome, its flange and liner; no rule on file here, so it stands on a signed paper",
        sheet: "",
        wall: "",
        facts: ON_PAPER,
    },
    BoilerKind {
        word: "opening",
        means: "an opening and its liner; no rule on file here, so it stands on a signed paper",
        sheet: "",
        wall: "",
        facts: ON_PAPER,
    },
    BoilerKind {
        word: "patch",
        means: "a patch on unstayed plate; no rule on file here, so it stands on a signed paper",
        sheet: "",
        wall: "",
        facts: ON_PAPER,
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
