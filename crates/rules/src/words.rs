//! The closed word lists of the rule files: inspections, fittings, events, conditions, recipients and things
//! kept. A file that uses a word not listed here is refused, so a slip of the pen cannot make a rule that never
//! applies.

mod forms;
mod units;
mod when;

pub use forms::{FORM_1_CONDITIONS, FORM_4_CONDITIONS, ITEM_ANSWERS, TABLE_WORDS};
pub use units::{LimitUnit, UNITS, unit};
pub use when::{QUESTIONS, Question, question, words as circumstances};

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

/// Inspections of a diesel. Each contains the daily; the periodic and the qualified daily stand side by side.
pub const DIESEL_INSPECTIONS: &[Word] = &[
    ("daily", "each calendar day the locomotive is in use"),
    (
        "qualified-daily",
        "a daily held by a qualified mechanical inspector, where condition monitoring lengthens the periodic",
    ),
    (
        "periodic",
        "after 92 days, or 184 with condition monitoring",
    ),
];

/// Work with a clock of its own, outside the round of inspections: it may be done on any day, and its day is stated.
pub const OWN_WORK: &[Word] = &[
    (
        "air-brake-valves",
        "cleaning and testing the air brake valves, dirt collectors and filters",
    ),
    (
        "frame-cleaning",
        "cleaning and inspecting frame, deck, pedestals, tail pieces and braces",
    ),
    (
        "annual-tests",
        "the yearly tests of load meters and electronic air readings",
    ),
    ("air-flow-meter", "calibrating the air flow meter"),
    ("brake-level-1", "brake maintenance level 1"),
    ("brake-level-2", "brake maintenance level 2"),
    ("brake-level-3", "brake maintenance level 3"),
    (
        "main-reservoir-test",
        "the hammer and hydrostatic test of the main reservoirs",
    ),
];

/// Facts of an engine that decide which clocks bind her: the fact, what it asks, its answers.
pub const FACTS: &[(&str, &str, &[Word])] = &[
    (
        "brake-schedule",
        "which of the law's schedules her brake equipment falls under",
        &[
            (
                "other",
                "brake equipment the section does not list, as most older kinds",
            ),
            ("26-l", "26-L or like equipment"),
            ("26-l-dryer", "26-L or like equipment with an air dryer"),
            ("electronic", "electronic equipment such as CCB or EPIC"),
        ],
    ),
    (
        "condition-monitoring",
        "whether microprocessor-based condition monitoring is fitted and in use",
        &[("yes", "fitted and in use"), ("no", "not fitted")],
    ),
    (
        "air-flow-meter",
        "whether an air flow meter serves the train's brake tests",
        &[("yes", "fitted"), ("no", "not fitted")],
    ),
    (
        "main-reservoirs",
        "how her main reservoirs are proved",
        &[
            ("tested", "by hammer and hydrostatic test"),
            (
                "drilled",
                "welded, built for five times the pressure and drilled over the whole surface",
            ),
        ],
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

/// The needs that are figures read off something, not only a name or a day.
pub const READINGS: &[&str] = &[
    "pressures",
    "lifting-pressure",
    "readings",
    "thickness-readings",
    "gauge-errors",
    "leak-rates",
];

/// Occasions outside the round of inspections on which the text asks for a look.
pub const OCCASIONS: &[Word] = &[
    (
        "after-repair",
        "after any repair or alteration of the boiler",
    ),
    (
        "boiler-altered-or-patched",
        "after an alteration of the boiler, a flush patch or riveting on an unstayed area",
    ),
    (
        "boiler-welded-or-riveted",
        "when the boiler is welded or riveted",
    ),
    (
        "hydrostatic-over-mawp",
        "whenever hydrostatic pressure above MAWP is put on the boiler",
    ),
    ("every-wash", "whenever the boiler is washed"),
    ("piston-rod-out", "whenever a piston rod is removed"),
    ("gauge-fitted", "before a gauge is fitted or fitted again"),
    ("staybolt-renewed", "when a broken staybolt is renewed"),
    (
        "brick-or-bearers-out",
        "whenever firebrick or grate bearers are taken out for another reason",
    ),
    ("flues-out", "whenever enough flues are out to see inside"),
    (
        "stated-concern",
        "when the FRA, the owner or the operator states a concern for safety",
    ),
    ("tires-turned", "when tires are turned or renewed"),
    ("tire-fitted", "when a tire is fitted to its center"),
    ("axle-fitted", "when an axle with plain bearings is fitted"),
    ("flue-plugged", "when a failed flue is plugged"),
    (
        "air-part-cleaned",
        "when air brake parts are tested or cleaned",
    ),
    (
        "horn-questioned",
        "when the horn or whistle is to be measured",
    ),
    ("reservoir-drilled", "when a main reservoir is drilled"),
    ("in-steam", "every day the engine is in service"),
    ("calendar-year-end", "at the end of each calendar year"),
    (
        "non-complying-move",
        "before an engine that does not comply is moved",
    ),
    (
        "special-notice",
        "while an engine is under a Special Notice for Repair",
    ),
    ("found-on-the-road", "when a fault is found on the road"),
];

/// Where a paper is kept or shown.
pub const KEPT_AT: &[Word] = &[
    ("maintenance-place", "where the engine is maintained"),
    ("named-place", "the place the owner or operator names"),
    ("with-form-4", "attached to Form 4"),
    (
        "part-or-cab-card",
        "marked on the part, or on a covered card in the cab",
    ),
    ("backhead", "on a metal plate on the backhead, in the cab"),
    ("at-the-gauge", "at the steam gauge"),
    ("terminal", "at the terminal"),
    ("cab", "in the cab, under a clear cover"),
    ("no-place-in-text", "the text names no place"),
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
        "stayed-repair-completed",
        "the day a welded or riveted repair to a stayed area was completed",
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
    (
        "enters-service",
        "the day the engine enters service, new or back from retirement",
    ),
    (
        "next-service",
        "the next day the engine goes into service after the inspection",
    ),
    (
        "periodic-inspection",
        "the day a periodic inspection is completed",
    ),
    ("work-done", "the day the named work was last done"),
    (
        "boiler-failure-with-casualty",
        "the failure of a boiler or of a part or fitting of it that kills or seriously hurts somebody",
    ),
    (
        "non-complying-move",
        "the moving of an engine that does not comply",
    ),
    (
        "on-with-road-fault",
        "going on with an engine whose fault was found on the road",
    ),
    (
        "work-that-needs-approval",
        "the work for which approval is asked",
    ),
    (
        "day-of-use",
        "the end of a day on which the engine was offered for use",
    ),
    ("renumbering", "the day an engine is given a new number"),
    ("boiler-into-service", "putting the boiler into service"),
    (
        "31-inspection-planned",
        "the day planned for a 31 service day inspection",
    ),
];

/// Happenings in an engine's life that somebody states, beside [`OWN_WORK`].
pub const HAPPENINGS: [&str; 6] = [
    "enters-service",
    "first-flue-installed",
    "alteration-completed",
    "stayed-repair-completed",
    "unstayed-repair-completed",
    "renumbering",
];

/// Who a paper goes to.
pub const RECIPIENTS: &[Word] = &[
    ("maintenance-place", "kept where the engine is maintained"),
    ("regional-administrator", "the FRA Regional Administrator"),
    (
        "national-response-center",
        "the National Response Center, by telephone",
    ),
    (
        "associate-administrator",
        "the FRA Associate Administrator for Safety, by mail",
    ),
    (
        "engineer",
        "the engineer of the engine that does not comply",
    ),
    (
        "towing-engineer",
        "the engineer of the engine that tows her",
    ),
    ("cab-crew", "everybody else in the cab"),
    ("tied-to-the-engine", "tied to the engine itself"),
    ("control-stand", "on the control stand of a control cab"),
    (
        "isolation-switch",
        "without a control cab, at the isolation or start switch",
    ),
    ("named-place", "the place the owner or operator names"),
    ("kept-not-sent", "kept by the shop, not sent to anybody"),
    (
        "inspecting-authority",
        "whoever inspects engines by law where she runs, outside the United States",
    ),
    ("cab", "in the cab, in plain view under a clear cover"),
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

/// How the words of a `mark` may begin in a set that a shop wrote, beside [`MARKS`].
pub const OWN_MARKS: &[Word] = &[(
    "own rule",
    "this shop's own rule: the shop is its source, and answers for it",
)];

/// The meaning of a word in a list, if the list has it.
pub fn meaning(list: &[Word], word: &str) -> Option<&'static str> {
    list.iter().find(|(w, _)| *w == word).map(|(_, m)| *m)
}

/// The rank of an inspection within its round, smallest 0; nothing for any other word.
pub fn rank(inspection: &str) -> Option<usize> {
    [INSPECTIONS, DIESEL_INSPECTIONS]
        .iter()
        .find_map(|round| round.iter().position(|(w, _)| *w == inspection))
}

/// Where a clock stands in a list of clocks: inspections by rank, then work with a clock of its own; nothing for
/// work a defect calls for.
pub fn place(inspection: &str) -> Option<usize> {
    let own = OWN_WORK.iter().position(|(w, _)| *w == inspection);
    rank(inspection).or(own.map(|at| INSPECTIONS.len() + at))
}

/// Whether a word is work that is done, not an inspection that is held.
pub fn is_work(word: &str) -> bool {
    meaning(OWN_WORK, word).is_some() || meaning(DEFECT_WORK, word).is_some()
}

/// Whether completing `larger` also completes `smaller`: every steam inspection contains itself and all smaller
/// ones, and every diesel inspection contains the daily. The containment is the text's; that it restarts the
/// smaller clocks is inference.
pub fn contains(larger: &str, smaller: &str) -> bool {
    let within = |round: &[Word], word: &str| round.iter().position(|(w, _)| *w == word);
    match (within(INSPECTIONS, larger), within(INSPECTIONS, smaller)) {
        (Some(l), Some(s)) => l >= s,
        _ => {
            let (l, s) = (
                within(DIESEL_INSPECTIONS, larger),
                within(DIESEL_INSPECTIONS, smaller),
            );
            l.is_some() && (l == s || s == Some(0))
        }
    }
}

/// Every answer a fact has, if it is a fact of [`FACTS`].
pub fn answers(fact: &str) -> Option<&'static [Word]> {
    FACTS
        .iter()
        .find(|(word, ..)| *word == fact)
        .map(|(.., answers)| *answers)
}

/// A list's words for a sentence: "a, b or c".
pub(crate) fn listed(list: &[Word]) -> String {
    let words: Vec<&str> = list.iter().map(|(w, _)| *w).collect();
    or(&words)
}

/// Words for a sentence: "a, b or c".
pub(crate) fn or(words: &[&str]) -> String {
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
        assert!(contains("periodic", "daily") && contains("periodic", "periodic"));
        assert!(!contains("periodic", "qualified-daily") && !contains("periodic", "31"));
        assert!(!contains("1472", "periodic") && !contains("daily", "periodic"));
    }

    #[test]
    fn no_list_says_a_word_twice() {
        for list in [
            INSPECTIONS,
            DIESEL_INSPECTIONS,
            OWN_WORK,
            DEFECT_WORK,
            FITTINGS,
            NEEDS,
            EVENTS,
            OCCASIONS,
            KEPT_AT,
            RECIPIENTS,
            CONDITIONS,
            FORM_1_CONDITIONS,
            FORM_4_CONDITIONS,
            ITEM_ANSWERS,
            TABLE_WORDS,
        ] {
            let mut words: Vec<&str> = list.iter().map(|(w, _)| *w).collect();
            words.sort_unstable();
            words.dedup();
            assert_eq!(words.len(), list.len());
        }
        let mut answers: Vec<&str> = circumstances().collect();
        let told = answers.len();
        answers.sort_unstable();
        answers.dedup();
        assert_eq!(answers.len(), told, "an answer stands under two questions");
        let mut units: Vec<&str> = UNITS.iter().map(|u| u.word).collect();
        units.sort_unstable();
        units.dedup();
        assert_eq!(units.len(), UNITS.len());
        assert!(READINGS.iter().all(|r| meaning(NEEDS, r).is_some()));
    }
}
