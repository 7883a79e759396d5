//! The units a limit's number may have, other than a length, and the least step worth telling apart in each.

/// A unit of a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LimitUnit {
    /// As it stands in a rule's file and after the number.
    pub word: &'static str,
    /// The least step by which two readings in it are told apart: one over this. A count goes by whole ones.
    pub steps_in_one: i128,
}

const fn whole(word: &'static str) -> LimitUnit {
    LimitUnit {
        word,
        steps_in_one: 1,
    }
}

const fn fine(word: &'static str, steps_in_one: i128) -> LimitUnit {
    LimitUnit { word, steps_in_one }
}

/// Every unit.
pub const UNITS: &[LimitUnit] = &[
    // Things counted.
    whole("bolts"),
    whole("leaks"),
    whole("cracks or breaks"),
    whole("steam gauges"),
    whole("gauges"),
    whole("safety valves"),
    whole("water glasses"),
    whole("valves"),
    whole("means of feed"),
    whole("live-steam injectors"),
    whole("flues"),
    whole("shims"),
    whole("pieces"),
    whole("leaves"),
    whole("spokes"),
    whole("bars"),
    whole("chains"),
    whole("cut-off stations"),
    whole("full cycles"),
    whole("strokes a minute"),
    whole("pipe schedule"),
    // Measured; the step is about what an instrument of the shop tells apart.
    fine("sq in", 100),
    fine("sq cm", 100),
    fine("in NPS", 100),
    fine("psi", 10),
    fine("psi a minute", 10),
    fine("bar", 100),
    fine("kPa", 10),
    fine("kPa a minute", 10),
    fine("degrees F", 10),
    fine("degrees C", 10),
    fine("degrees", 60),
    fine("minutes", 60),
    fine("mph", 10),
    fine("km/h", 10),
    fine("dB(A)", 10),
    // Shares.
    fine("percent", 100),
    fine("percent of MAWP", 100),
    fine("percent of full scale", 100),
    fine("percent of allowed pressure", 100),
    fine("percent of maximum operating pressure", 100),
    fine("percent of the maker's rating", 100),
    fine("percent of the least wall required", 100),
    fine("percent of the drawbar's strength", 100),
    fine("percent carbon", 1_000),
    fine("times MAWP", 100),
    fine("times the working stress", 100),
    fine("of tensile strength", 1_000),
    fine("of head diameter", 1_000),
    fine("of visible glass", 1_000),
    fine("of length or width", 1_000),
];

/// A unit by its word.
pub fn unit(word: &str) -> Option<&'static LimitUnit> {
    UNITS.iter().find(|u| u.word == word)
}
