//! The circumstances a limit may depend on, as questions with their answers. A caller answers what it knows; a
//! limit whose question is not answered is not given, and the question comes back in its place.

use super::Word;

/// A question that decides between limits, and the words it can be answered with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Question {
    /// What is asked, to stand after "needs": "which pin it is".
    pub asks: &'static str,
    /// The answers. No two can be true of one thing at once.
    pub answers: &'static [Word],
}

/// Every question a limit may ask.
pub const QUESTIONS: &[Question] = &[
    Question {
        asks: "the gauge of the track",
        answers: &[
            ("standard-gauge", "the engine runs on standard gauge track"),
            (
                "narrow-gauge",
                "the engine runs on a track gauge under standard",
            ),
        ],
    },
    Question {
        asks: "which pin it is",
        answers: &[
            ("main-pin", "the main crank pin"),
            ("other-pin", "a crank pin that is not the main pin"),
        ],
    },
    // No limit of Part 230 asks for the side; a reading that tells it is not refused for telling more than was asked.
    Question {
        asks: "which side of the engine it is",
        answers: &[
            ("left-side", "the left side, facing forward"),
            ("right-side", "the right side, facing forward"),
        ],
    },
    Question {
        asks: "whether the tire is flanged or plain",
        answers: &[
            ("flanged-tire", "a tire with a flange"),
            ("plain-tire", "a tire without a flange"),
        ],
    },
    Question {
        asks: "how the tire is held",
        answers: &[
            (
                "retaining-rings",
                "tires held by retaining rings and measured at the ring",
            ),
            ("no-retaining-rings", "tires held without retaining rings"),
        ],
    },
    Question {
        asks: "which axle it is, and its journal's size when new",
        answers: &[
            (
                "main-or-truck-axle",
                "a main driving axle, a trailing or engine truck axle, or a driving axle whose journal was 6 in or less when new",
            ),
            (
                "other-driving-axle",
                "a driving axle other than the main one, whose journal was over 6 in when new",
            ),
        ],
    },
    Question {
        asks: "which wheels they are",
        answers: &[
            ("swing-center-truck", "an engine truck with a swing center"),
            ("rigid-center-truck", "an engine truck with a rigid center"),
            ("trailing-truck", "a trailing truck"),
            ("driver", "a driving wheel pair"),
        ],
    },
    Question {
        asks: "which truck it is",
        answers: &[
            (
                "engine-or-trailing-truck",
                "the engine truck or the trailing truck of the engine itself",
            ),
            ("tender-truck", "a truck of the tender"),
        ],
    },
    Question {
        asks: "which brake it is",
        answers: &[
            ("cam-driver-brake", "a driving wheel brake worked by cams"),
            (
                "other-driver-brake",
                "a driving wheel brake of any other kind",
            ),
            ("engine-truck-brake", "a brake on an engine truck"),
            ("tender-brake", "a tender brake"),
        ],
    },
    Question {
        asks: "whether a spring buffer stands between engine and tender",
        answers: &[
            (
                "no-spring-buffer",
                "engine and tender joined without a spring buffer",
            ),
            (
                "spring-buffer",
                "engine and tender joined through a spring buffer",
            ),
        ],
    },
    Question {
        asks: "which axle of the diesel it is",
        answers: &[
            (
                "axle-unpowered-or-friction",
                "an axle without a motor, or with one and friction bearings",
            ),
            (
                "axle-other-powered",
                "an axle with a motor and no friction bearings, but the center one of three",
            ),
            (
                "axle-center-of-three",
                "the center axle of a truck with three",
            ),
        ],
    },
    Question {
        asks: "whether the center plate carries traction",
        answers: &[
            ("plate-no-traction", "the center plate carries no traction"),
            (
                "plate-carries-traction",
                "the center plate carries traction",
            ),
        ],
    },
    Question {
        asks: "which pair of side bearings it is",
        answers: &[
            (
                "first-side-bearings",
                "the side bearings, or the first pair of two",
            ),
            ("second-side-bearings", "the second pair of side bearings"),
        ],
    },
    Question {
        asks: "which axles are compared",
        answers: &[
            (
                "diameters-within-truck",
                "axles of one truck, without shims",
            ),
            (
                "diameters-shimmed-or-between",
                "axles with shims, or of different trucks",
            ),
        ],
    },
    Question {
        asks: "which flange the wheels have",
        answers: &[
            ("standard-flange", "a flange of the usual width"),
            ("wide-flange", "a wide flange"),
        ],
    },
    Question {
        asks: "which service she is in",
        answers: &[
            ("road-service", "road service"),
            ("yard-service", "yard service alone"),
        ],
    },
    Question {
        asks: "on what occasion it is measured",
        answers: &[
            (
                "wheels-applied-or-turned",
                "when wheels are applied or turned",
            ),
            ("at-tire-turning", "when tires are turned or renewed"),
            ("after-repair", "a steam test after a repair or alteration"),
            (
                "hydrostatic-test",
                "a hydrostatic test that the rules ask for",
            ),
        ],
    },
    Question {
        asks: "which sort of staybolt it is",
        answers: &[
            (
                "short-rigid-bolt",
                "a bolt under 8 in long, not flexible, as it stands in the boiler",
            ),
            (
                "renewed-short-bolt",
                "a bolt of 8 in or less put in to renew another",
            ),
            (
                "hidden-bolt",
                "a bolt behind brickwork or a grate bearer, drilled its full length so that the 31 service day test may be left out",
            ),
            (
                "drilled-flexible-bolt",
                "a flexible bolt drilled so that its cap may stay on",
            ),
        ],
    },
    Question {
        asks: "what the plate is made of",
        answers: &[
            (
                "steel-plate",
                "shell plate of steel, its strength not known",
            ),
            (
                "iron-plate",
                "shell plate of wrought iron, its strength not known",
            ),
        ],
    },
    Question {
        asks: "whether the compressor is one the table names",
        answers: &[
            (
                "listed-compressor",
                "a compressor named in the table of 230.71(b)(1)",
            ),
            ("unlisted-compressor", "a compressor that table leaves out"),
        ],
    },
    Question {
        asks: "how high the place lies",
        answers: &[
            ("to-1000-ft", "no more than 1000 ft above the sea"),
            ("above-1000-ft", "more than 1000 ft above the sea"),
        ],
    },
    Question {
        asks: "how the main reservoir is made and which way it is proved",
        answers: &[
            (
                "hammered-reservoir",
                "a reservoir proved by hammer and hydrostatic test",
            ),
            (
                "drilled-reservoir",
                "a welded reservoir drilled with telltale holes",
            ),
            (
                "welded-reservoir",
                "a welded reservoir without lap seam, proved by its thickness",
            ),
            (
                "lap-seam-reservoir",
                "a reservoir with a lap seam, welded or riveted, proved by its thickness",
            ),
        ],
    },
    Question {
        asks: "whether the metal's tensile strength is known",
        answers: &[
            ("strength-known", "the least tensile strength is specified"),
            ("strength-unknown", "the tensile strength is not known"),
        ],
    },
    Question {
        asks: "what sort of leaf spring it is",
        answers: &[
            ("elliptical-spring", "a full elliptical leaf spring"),
            ("semi-elliptical-spring", "a semi-elliptical leaf spring"),
        ],
    },
    Question {
        asks: "under which truck of the tender, and how far apart the side bearings stand",
        answers: &[
            (
                "rear-truck-50",
                "the tender's rear truck, side bearings 50 in apart",
            ),
            (
                "rear-truck-wider",
                "the tender's rear truck, side bearings more than 50 in apart",
            ),
            (
                "front-truck-50",
                "the tender's front truck where it has side bearings, 50 in apart",
            ),
            (
                "front-truck-wider",
                "the tender's front truck where it has side bearings, more than 50 in apart",
            ),
        ],
    },
    Question {
        asks: "whether bars or chains are the safety connection",
        answers: &[
            ("safety-bars", "engine and tender held by safety bars"),
            ("safety-chains", "engine and tender held by safety chains"),
        ],
    },
    Question {
        asks: "whether the engine has a speed indicator",
        answers: &[
            (
                "no-speed-indicator",
                "she has no speed indicator, or one that is not accurate",
            ),
            ("speed-indicator", "she has an accurate speed indicator"),
        ],
    },
    Question {
        asks: "what the welded plate is",
        answers: &[
            ("carbon-steel", "carbon steel plate"),
            ("alloy-steel", "alloy steel plate"),
        ],
    },
];

/// The question a word answers, with the word's meaning.
pub fn question(word: &str) -> Option<(&'static Question, &'static str)> {
    QUESTIONS.iter().find_map(|q| {
        let found = q.answers.iter().find(|(w, _)| *w == word);
        found.map(|(_, meaning)| (q, *meaning))
    })
}

/// Every answer's word.
pub fn words() -> impl Iterator<Item = &'static str> {
    QUESTIONS
        .iter()
        .flat_map(|q| q.answers.iter().map(|(word, _)| *word))
}
