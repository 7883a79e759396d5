//! The rulebook.

use jiff::civil::Date;

/// The head of the page.
pub const THE_RULEBOOK: &str = "The rulebook";
/// What it is, and what governs.
pub const LEAD: &str = "What the law says, rule by rule, as this program has it: our own short reading with its section and edition. The official text governs; look there before anyone leans on a figure.";
/// A chapter.
pub const WORDS: &str = "Words";
/// A chapter.
pub const CLOCKS: &str = "Clocks";
/// A chapter.
pub const ITEMS: &str = "Items looked at";
/// A chapter.
pub const LIMITS: &str = "Limits";
/// A chapter.
pub const FILING: &str = "Notices, reports and keeping";
/// Of a version.
pub const COMES_TO: &str = "It comes to";
/// Of a version.
pub const SECTION: &str = "Section";
/// Of a version.
pub const TEXT: &str = "Text";
/// Of a version.
pub const HOW_READ: &str = "How it was read";
/// Of a version.
pub const IN_FORCE_FROM: &str = "In force from";
/// Of a version.
pub const LAST_CHECKED: &str = "Last checked";
/// Names the table of a limit for those who hear it.
pub const THE_TABLE: &str = "The limits, by size";
/// Over the cases of a limit.
pub const CASES: &str = "Below, at and above the value";
/// A column of the cases.
pub const READING: &str = "A reading";
/// A column of the cases.
pub const COMES_OUT: &str = "comes out as";

/// Which rule, of which rulebook.
pub fn lead(id: &str, jurisdiction: &str) -> String {
    format!("{id}, rulebook {jurisdiction}")
}

/// Over the rules this shop wrote.
pub const OWN_SETS: &str = "Rules this shop wrote";
/// What they are, and what they are not.
pub const OWN_LEAD: &str = "None of these is in the rulebook of this program, and nobody but this shop has held them against anything. They ask more of an engine that is put under them, and never less: where two sets speak of one matter, the stricter binds.";

/// Whose rules they are.
pub fn whose(origin: rules::Origin) -> &'static str {
    match origin {
        rules::Origin::Law => "The law, as this program has it.",
        rules::Origin::Shop => "This shop's own: no law.",
        rules::Origin::Elsewhere => {
            "Of another jurisdiction, as this shop wrote it down: the official text governs."
        }
    }
}

/// The set's word, and who answers for it.
pub fn answers(set: &str, who: &str) -> String {
    format!("{set}; for it answers {who}.")
}

/// Which engines are under a set today.
pub fn under(numbers: &[&str]) -> String {
    if numbers.is_empty() {
        return "No engine is under it today.".into();
    }
    let her: Vec<_> = numbers.iter().map(|number| super::engine(number)).collect();
    format!("Under it today: {}.", her.join(", "))
}

/// A text of a set, as it came into the book.
pub fn text_of_set(number: u32, from: Date, by: &str, entry: u64) -> String {
    format!(
        "Text {number}, holds from {}; taken in by {by} (entry {entry})",
        super::day(from)
    )
}

/// Which rule, of which set.
pub fn lead_of_set(id: &str, set: &str) -> String {
    format!("{id}, of {set}.")
}

/// Over a version.
pub fn version(number: u32, from: Date, until: Option<Date>) -> String {
    let until = until.map_or(String::new(), |day| format!(" through {}", super::day(day)));
    format!(
        "Version {number}, in force from {}{until}",
        super::day(from)
    )
}

/// Which text, which edition.
pub fn text(title: &str, edition: &str) -> String {
    format!("{title}, {edition}")
}

/// From when, and how that is known.
pub fn in_force(from: Date, mark: &str) -> String {
    format!("{}: {mark}", super::day(from))
}

/// Who looked last.
pub fn checked(on: Date, by: &str) -> String {
    format!("{} by {by}", super::day(on))
}

/// Over the rows of a table; a band ends with its unit, a word has none.
pub fn rows(name: &str, unit: &str) -> String {
    let name = name.replace('_', " ");
    if unit.is_empty() {
        name
    } else {
        format!("{name}, {unit}")
    }
}

/// Under a table of bands.
pub fn across(name: &str, unit: &str) -> String {
    format!(
        "Across: {}. A size on an edge belongs to the lower band.",
        rows(name, unit)
    )
}

/// A field.
pub const SEEK: &str = "Find a rule by a word, a number or a section";
/// A button.
pub const FIND: &str = "Find";
/// Leads back.
pub const ALL: &str = "Every rule";

/// What a search found.
pub fn found(n: usize, sought: &str) -> String {
    format!("{} with “{sought}”.", super::count(n, "rule", "rules"))
}

/// A version in one line: which, from when, which edition was read, and how.
pub fn in_a_line(number: u32, from: Date, edition: &str, mark: &str) -> String {
    format!(
        "Version {number}, from {}; edition {edition}; {mark}",
        super::day(from)
    )
}

/// Which engines a rule stops today.
pub fn stops(numbers: &[&str]) -> String {
    let her: Vec<_> = numbers.iter().map(|number| super::engine(number)).collect();
    format!("Stops {} today.", her.join(", "))
}

/// Of a reading with no uncertainty stated.
pub const NOT_STATED: &str =
    "not stated, and none is assumed: nobody can say whether this reading is fine enough";
/// Of a reading within its uncertainty of the limit.
pub const WITHIN: &str = "within its uncertainty of the limit: measure again with a finer instrument before leaning on this";
/// Of a limit that grounds her.
pub const GROUNDS: &str =
    "by this rule an engine so found is kept out of service until it is put right";

/// A question that must be answered before the limit is known, with its answers.
pub fn tell(asks: &str) -> String {
    let known = rules::words::QUESTIONS.iter().find(|q| q.asks == asks);
    let answers = known.map_or(&[][..], |question| question.answers);
    let answers: Vec<_> = answers
        .iter()
        .map(|(word, meaning)| format!("`{word}` ({meaning})"))
        .collect();
    format!("{asks}: {}", answers.join(", or "))
}

/// Asks for a reading.
pub const HOLD: &str = "Hold a reading against it";
/// That nothing is entered.
pub const NOT_ENTERED: &str = "Nothing is entered in the book.";
/// The reading.
pub const THE_READING: &str = "Reading, with its unit";
/// Such as.
pub const READING_SUCH_AS: &str = "such as 5/32 in, .1562 in ± .0005 in, 60 psi";
/// Its uncertainty.
pub const UNCERTAINTY: &str = "Its uncertainty, or the instrument's";
/// Left empty.
pub const UNCERTAINTY_HINT: &str = "left empty where it is not known; none is assumed";
/// The engine.
pub const ENGINE: &str = "Engine";
/// Her gauge, axle load and pressure are then known.
pub const ENGINE_HINT: &str = "her gauge, axle load and boiler pressure are then known";
/// None named.
pub const NO_ENGINE: &str = "none";
/// A question not answered.
pub const NOT_TOLD: &str = "not told";
/// Judges.
pub const JUDGE: &str = "Hold it";
/// The answer.
pub const ANSWER: &str = "What it comes to";
/// The reading in the answer.
pub const READ: &str = "Reading";
/// The uncertainty in the answer.
pub const WITHIN_WHAT: &str = "Uncertainty";
/// From the book.
pub const FROM_BOOK: &str = "From the book";
/// The limit in the answer.
pub const LIMIT: &str = "Limit";
/// Of what.
pub const OF: &str = "Of";
/// The rule it stands in.
pub const STANDS_IN: &str = "Rule";
/// The verdict.
pub const VERDICT: &str = "Verdict";
/// What is left.
pub const LEFT: &str = "Left";
/// Not known.
pub const NOT_KNOWN: &str = "not known";
/// What must be told.
pub const TELL: &str = "Tell";
/// All limits together.
pub const ALL_IN_ALL: &str = "All in all";

/// A fact to fill in, with its unit.
pub fn fact(name: &str, unit: &str) -> String {
    let name = name.replace(['_', '-'], " ");
    if unit.is_empty() {
        super::sentence(&name)
    } else {
        format!("{}, in {unit}", super::sentence(&name))
    }
}

/// A verdict's reasons or needs.
pub fn because(verdict: &shop::verdict::Verdict) -> String {
    use shop::verdict::Verdict;
    match verdict {
        Verdict::Complies => String::new(),
        Verdict::Fails(by) => by.join("; "),
        Verdict::CannotTell(needs) => format!("needs {}", needs.join("; ")),
    }
}
