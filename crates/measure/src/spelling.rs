//! How units are spelled: every way a shop writes each one, by dimension.

use crate::dimension::Dimension;
use crate::unit::Unit;

/// What a unit word turned out to be when one dimension was wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Meaning {
    /// A unit of the wanted dimension.
    Unit(Unit),
    /// A unit, but of this other dimension.
    Other(Dimension),
    /// A word that means more than one thing; the sentence says what to write instead.
    Unclear(&'static str),
    /// No unit known here.
    Unknown,
}

/// What `word` means where `wanted` is expected.
pub(crate) fn meaning(word: &str, wanted: Dimension) -> Meaning {
    let word = canonical(word);
    if let Some(unit) = lookup(&word, wanted) {
        return Meaning::Unit(unit);
    }
    if let Some(sentence) = unclear(&word, wanted) {
        return Meaning::Unclear(sentence);
    }
    match Dimension::ALL
        .into_iter()
        .find(|&other| lookup(&word, other).is_some())
    {
        Some(other) => Meaning::Other(other),
        None => Meaning::Unknown,
    }
}

/// Lower case, without the spaces, points, hyphens and brackets that shops differ on: `lbf·in`, `lb-in.` and
/// `LB IN` are all `lbin` or `lbfin`. A degree sign before or after a letter goes too.
fn canonical(word: &str) -> String {
    let word: String = word
        .to_lowercase()
        .chars()
        .filter(|c| !matches!(c, ' ' | '.' | '-' | '*' | '^' | '(' | ')'))
        .collect();
    if word.chars().any(char::is_alphabetic) {
        word.replace('°', "")
    } else {
        word
    }
}

fn unclear(word: &str, wanted: Dimension) -> Option<&'static str> {
    Some(match (wanted, word) {
        (_, "ton" | "tons" | "tonf") => {
            "a ton may be short, long or metric; write pounds, kilograms or kilonewtons"
        }
        (Dimension::Length | Dimension::Pitch, "mil" | "mils") => {
            "a mil is a thousandth of an inch to one shop and a millimetre to another; write thou or mm"
        }
        (Dimension::AbsolutePressure, "psi" | "lb/in2" | "lb/sqin" | "kpa" | "bar") => {
            "say whether it is counted from vacuum: psia, kPa absolute or bar absolute; a gauge reading needs the atmosphere added"
        }
        (Dimension::AbsolutePressure, word) if lookup(word, Dimension::GaugePressure).is_some() => {
            "that is a gauge pressure; an absolute one is it plus the atmosphere of the place, written psia, kPa absolute or bar absolute"
        }
        (Dimension::GaugePressure, word) if lookup(word, Dimension::AbsolutePressure).is_some() => {
            "that is an absolute pressure; a gauge shows it less the atmosphere of the place, written psig, kPa gauge or bar gauge"
        }
        _ => return None,
    })
}

/// The unit that a canonical word spells in one dimension.
fn lookup(word: &str, dimension: Dimension) -> Option<Unit> {
    let spellings: &[(&[&str], Unit)] = match dimension {
        Dimension::Length => LENGTH,
        Dimension::Angle => ANGLE,
        Dimension::GaugePressure => GAUGE_PRESSURE,
        Dimension::AbsolutePressure => ABSOLUTE_PRESSURE,
        Dimension::Temperature => TEMPERATURE,
        Dimension::TemperatureRise => TEMPERATURE_RISE,
        Dimension::Force => FORCE,
        Dimension::Torque => TORQUE,
        Dimension::Stress => STRESS,
        Dimension::Area => AREA,
        Dimension::Mass => MASS,
        Dimension::Speed => SPEED,
        Dimension::Flow => FLOW,
        Dimension::SpecificVolume => SPECIFIC_VOLUME,
        Dimension::Heat => HEAT,
        Dimension::Pitch => PITCH,
        Dimension::PerInch => PER_INCH,
        Dimension::Ratio => &[(&["%", "percent"], Unit::Percent)],
        Dimension::Count => &[],
    };
    spellings
        .iter()
        .find(|(words, _)| words.contains(&word))
        .map(|&(_, unit)| unit)
}

const LENGTH: &[(&[&str], Unit)] = &[
    (&["in", "inch", "inches", "\""], Unit::Inch),
    (&["ft", "foot", "feet", "'"], Unit::Foot),
    (&["thou", "thous", "thousandth", "thousandths"], Unit::Thou),
    (
        &[
            "mm",
            "millimetre",
            "millimetres",
            "millimeter",
            "millimeters",
        ],
        Unit::Mm,
    ),
    (
        &["µm", "um", "micron", "microns", "micrometre", "micrometres"],
        Unit::Micrometre,
    ),
    (&["m", "metre", "metres", "meter", "meters"], Unit::M),
];

const ANGLE: &[(&[&str], Unit)] = &[
    (&["°", "d", "deg", "degree", "degrees"], Unit::Degree),
    (&["'", "arcmin", "arcminute", "arcminutes"], Unit::ArcMinute),
    (&["rad", "radian", "radians"], Unit::Radian),
    (
        &[
            "in/ft",
            "\"/ft",
            "\"/'",
            "in/foot",
            "inch/foot",
            "inches/foot",
            "inperft",
            "inperfoot",
            "inchperfoot",
            "inchesperfoot",
            "\"perft",
            "\"perfoot",
            "tpf",
        ],
        Unit::InchPerFoot,
    ),
];

const GAUGE_PRESSURE: &[(&[&str], Unit)] = &[
    (
        &["psi", "psig", "psigauge", "lb/in2", "lb/sqin"],
        Unit::PsiGauge,
    ),
    (&["kpa", "kpag", "kpagauge"], Unit::KPaGauge),
    (&["bar", "barg", "bargauge"], Unit::BarGauge),
];

const ABSOLUTE_PRESSURE: &[(&[&str], Unit)] = &[
    (&["psia", "psiabs", "psiabsolute"], Unit::PsiAbsolute),
    (&["kpaa", "kpaabs", "kpaabsolute"], Unit::KPaAbsolute),
    (&["bara", "barabs", "barabsolute"], Unit::BarAbsolute),
];

const TEMPERATURE: &[(&[&str], Unit)] = &[
    (&["f", "degf", "fahrenheit"], Unit::Fahrenheit),
    (&["c", "degc", "celsius"], Unit::Celsius),
    (&["k", "kelvin"], Unit::Kelvin),
];

const TEMPERATURE_RISE: &[(&[&str], Unit)] = &[
    (
        &["f", "degf", "fdeg", "fdegrees", "fahrenheitdegrees"],
        Unit::FahrenheitDegree,
    ),
    (
        &[
            "c",
            "degc",
            "cdeg",
            "cdegrees",
            "celsiusdegrees",
            "k",
            "kelvin",
        ],
        Unit::CelsiusDegree,
    ),
];

const FORCE: &[(&[&str], Unit)] = &[
    (&["lb", "lbs", "lbf", "pound", "pounds"], Unit::PoundForce),
    (&["n", "newton", "newtons"], Unit::Newton),
    (&["kn", "kilonewton", "kilonewtons"], Unit::KiloNewton),
];

const TORQUE: &[(&[&str], Unit)] = &[
    (
        &["lbin", "lbfin", "lbsin", "inlb", "inlbs", "inlbf"],
        Unit::PoundInch,
    ),
    (
        &["lbft", "lbfft", "lbsft", "ftlb", "ftlbs", "ftlbf"],
        Unit::PoundFoot,
    ),
    (&["nm", "newtonmetre", "newtonmetres"], Unit::NewtonMetre),
];

const STRESS: &[(&[&str], Unit)] = &[
    (&["psi", "lb/in2", "lb/sqin", "lbf/in2"], Unit::Psi),
    (&["ksi"], Unit::Ksi),
    (&["mpa", "n/mm2"], Unit::MPa),
];

const AREA: &[(&[&str], Unit)] = &[
    (&["sqin", "in2", "squareinch", "squareinches"], Unit::SqInch),
    (&["sqft", "ft2", "squarefoot", "squarefeet"], Unit::SqFoot),
    (&["sqmm", "mm2"], Unit::SqMm),
];

const MASS: &[(&[&str], Unit)] = &[
    (&["lb", "lbs", "lbm", "pound", "pounds"], Unit::Pound),
    (&["kg", "kilogram", "kilograms"], Unit::Kilogram),
];

const SPEED: &[(&[&str], Unit)] = &[
    (
        &["ft/min", "ftpermin", "fpm", "sfm", "feetperminute"],
        Unit::FootPerMinute,
    ),
    (&["m/min", "mpermin"], Unit::MetrePerMinute),
    (&["m/s", "mpers", "m/sec"], Unit::MetrePerSecond),
    (&["mph", "mi/h", "milesperhour"], Unit::MilePerHour),
    (&["km/h", "kmh", "kph"], Unit::KilometrePerHour),
];

const FLOW: &[(&[&str], Unit)] = &[
    (
        &["lb/h", "lb/hr", "lbs/h", "lbs/hr", "lbperhour", "pph"],
        Unit::PoundPerHour,
    ),
    (&["lb/min", "lbs/min", "lbpermin"], Unit::PoundPerMinute),
    (&["kg/h", "kg/hr"], Unit::KilogramPerHour),
    (&["kg/s", "kg/sec"], Unit::KilogramPerSecond),
];

const SPECIFIC_VOLUME: &[(&[&str], Unit)] = &[
    (&["cuft/lb", "ft3/lb"], Unit::CuFootPerPound),
    (&["m3/kg", "cum/kg"], Unit::CuMetrePerKilogram),
];

const HEAT: &[(&[&str], Unit)] = &[
    (&["btu/lb"], Unit::BtuPerPound),
    (&["kj/kg"], Unit::KiloJoulePerKilogram),
];

const PITCH: &[(&[&str], Unit)] = &[
    (
        &[
            "tpi",
            "perin",
            "perinch",
            "/in",
            "/inch",
            "threadsperin",
            "threadsperinch",
        ],
        Unit::ThreadsPerInch,
    ),
    (&["in", "inch", "inches", "\""], Unit::Inch),
    (&["thou"], Unit::Thou),
    (
        &[
            "mm",
            "millimetre",
            "millimetres",
            "millimeter",
            "millimeters",
        ],
        Unit::Mm,
    ),
];

const PER_INCH: &[(&[&str], Unit)] = &[(
    &[
        "tpi",
        "perin",
        "perinch",
        "/in",
        "/inch",
        "threadsperin",
        "threadsperinch",
    ],
    Unit::PerInch,
)];
