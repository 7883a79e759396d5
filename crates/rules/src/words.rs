//! The closed word lists of the rule files: inspections, fittings, events, conditions, recipients and things
//! kept. A file that uses a word not listed here is refused, so a slip of the pen cannot make a rule that never
//! applies.

/// A word of a closed list and what it means.
pub type Word = (&'static str, &'static str);

/// Inspections, smallest first: each contains all before it.
pub const INSPECTIONS: &[Word] = &[
    ("daily", "each day the engine is offered for use"),
    ("31", "after 31 service days"),
    ("92", "after 92 service days"),
    ("annual", "after 368 calendar days"),
    ("fifth-annual", "at every fifth annual"),
    (
        "1472",
        "after 1472 service days or 15 years, whichever is first",
    ),
];

/// Work that a defect calls for by a day, outside the round of inspections.
pub const DEFECT_WORK: &[Word] = &[
    ("staybolt-renewal", "renewing a broken staybolt"),
    (
        "flue-repair",
        "taking the plug out of a flue and repairing it",
    ),
];

/// Fittings that decide whether an item applies. A fact nobody has stated keeps the item on the list.
pub const FITTINGS: &[Word] = &[
    (
        "arch-tubes",
        "arch tubes, water bar tubes, circulators or siphons: any water tube in the firebox",
    ),
    ("fusible-plugs", "fusible plugs in the crown sheet"),
    (
        "tubular-glasses",
        "water or lubricator glasses that are plain tubes",
    ),
    (
        "flexible-staybolts",
        "flexible staybolts with caps and sleeves",
    ),
    (
        "lap-seams",
        "longitudinal lap seams without reinforcing plates",
    ),
];

/// What an item's answer must say beside "looked at".
pub const NEEDS: &[Word] = &[
    ("signature-of-tester", "who made the test"),
    ("pressures", "the pressures read, each with its gauge"),
    (
        "lifting-pressure",
        "the pressure at which the lowest safety valve lifted",
    ),
    ("scale", "how much scale was found and where"),
    ("bolts", "which bolts were found broken, each by its place"),
    ("readings", "the readings taken, each with its position"),
    ("wash-date", "the date of the wash"),
    (
        "thickness-readings",
        "wall or plate thickness at each marked place",
    ),
    ("gauge-errors", "each gauge's error at the points tested"),
    (
        "leak-rates",
        "pressure lost a minute, and how long it was watched",
    ),
    ("test-method", "which method was used"),
    (
        "last-done",
        "the day it was last done, if it is not done now",
    ),
];

/// Happenings from which days are counted.
pub const EVENTS: &[Word] = &[
    (
        "inspection",
        "the day the named inspection was last completed",
    ),
    (
        "31-inspection",
        "the day a 31 service day inspection was done",
    ),
    (
        "92-inspection",
        "the day a 92 service day inspection was done",
    ),
    (
        "annual-inspection",
        "the day an annual inspection is completed",
    ),
    (
        "1472-inspection",
        "the day a 1472 service day inspection is completed",
    ),
    (
        "end-of-calendar-year",
        "31 December of the year reported on",
    ),
    (
        "alteration-completed",
        "the day an alteration of the boiler was completed",
    ),
    (
        "unstayed-repair-completed",
        "the day a welded or riveted repair to an unstayed area was completed",
    ),
    (
        "broken-staybolt-found",
        "the day a broken staybolt was found",
    ),
    ("flue-plugged", "the day a flue was plugged"),
    (
        "first-flue-installed",
        "the day the first flue tube of the set was put in",
    ),
    ("enters-service", "the day the engine enters service"),
];

/// Circumstances under which a limit applies; a limit with none applies always.
pub const WHEN: &[Word] = &[
    ("standard-gauge", "the engine runs on standard gauge track"),
    (
        "narrow-gauge",
        "the engine runs on a track gauge under standard",
    ),
    ("main-pin", "the main crank pin"),
    ("other-pin", "a crank pin that is not the main pin"),
    ("flanged-tire", "a tire with a flange"),
    ("plain-tire", "a tire without a flange"),
    (
        "retaining-rings",
        "tires held by retaining rings and measured at the ring",
    ),
    (
        "main-or-truck-axle",
        "a main driving axle, a trailing or engine truck axle, or a driving axle whose journal was 6 in or less when new",
    ),
    (
        "other-driving-axle",
        "a driving axle other than the main one, whose journal was over 6 in when new",
    ),
    ("swing-center-truck", "an engine truck with a swing center"),
    ("rigid-center-truck", "an engine truck with a rigid center"),
    ("trailing-truck", "a trailing truck"),
    ("driver", "a driving wheel pair"),
    ("cam-driver-brake", "a driving wheel brake worked by cams"),
    (
        "other-driver-brake",
        "a driving wheel brake of any other kind",
    ),
    ("engine-truck-brake", "a brake on an engine truck"),
    ("tender-brake", "a tender brake"),
    (
        "no-spring-buffer",
        "engine and tender joined without a spring buffer",
    ),
    (
        "spring-buffer",
        "engine and tender joined through a spring buffer",
    ),
    ("at-tire-turning", "when tires are turned or renewed"),
    ("after-repair", "a steam test after a repair or alteration"),
];

/// Who a paper goes to.
pub const RECIPIENTS: &[Word] = &[
    ("maintenance-place", "kept where the engine is maintained"),
    ("regional-administrator", "the FRA Regional Administrator"),
];

/// Conditions that make a day count.
pub const CONDITIONS: &[Word] = &[
    ("fire-in-firebox", "there is fire in the firebox"),
    (
        "pressure-above-atmosphere",
        "the boiler stands above atmospheric pressure",
    ),
];

/// How the words of a `mark` may begin: where the figure was read, or that it was not.
pub const MARKS: &[Word] = &[
    ("read in", "read in the source named"),
    (
        "memory",
        "not read: to be checked before anyone leans on it",
    ),
    (
        "inference",
        "our reading of how facts combine; not in the text",
    ),
];

/// The meaning of a word in a list, if the list has it.
pub fn meaning(list: &[Word], word: &str) -> Option<&'static str> {
    list.iter().find(|(w, _)| *w == word).map(|(_, m)| *m)
}

/// The rank of an inspection among [`INSPECTIONS`], smallest 0; nothing for any other word.
pub fn rank(inspection: &str) -> Option<usize> {
    INSPECTIONS.iter().position(|(w, _)| *w == inspection)
}

/// Whether completing `larger` also completes `smaller`: every inspection contains itself and all smaller ones.
/// The containment is the text's; that it restarts the smaller clocks is inference.
pub fn contains(larger: &str, smaller: &str) -> bool {
    matches!((rank(larger), rank(smaller)), (Some(l), Some(s)) if l >= s)
}

/// A list's words for a sentence: "a, b or c".
pub(crate) fn listed(list: &[Word]) -> String {
    let words: Vec<&str> = list.iter().map(|(w, _)| *w).collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => words.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_larger_inspection_contains_every_smaller_one_and_no_larger() {
        assert!(
            contains("annual", "31") && contains("1472", "fifth-annual") && contains("92", "92")
        );
        assert!(
            !contains("31", "92")
                && !contains("annual", "fifth-annual")
                && !contains("staybolt-renewal", "31")
        );
    }

    #[test]
    fn no_list_says_a_word_twice() {
        for list in [
            INSPECTIONS,
            DEFECT_WORK,
            FITTINGS,
            NEEDS,
            EVENTS,
            WHEN,
            RECIPIENTS,
            CONDITIONS,
        ] {
            let mut words: Vec<&str> = list.iter().map(|(w, _)| *w).collect();
            words.sort_unstable();
            words.dedup();
            assert_eq!(words.len(), list.len());
        }
    }
}
