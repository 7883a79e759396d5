//! The boiler: its components, its card.

use shop::book::CardEdition;
use shop::ruled::boiler::{Bears, BoilerCard, CardField, CardLine, Level, Stood};

/// The link to the page.
pub const LINK: &str = "Her boiler";
/// What a fact is, for whoever typed none.
pub const A_FACT: &str = "a fact of a component, such as thickness=.571in";
/// The book changed.
pub const CHANGED: &str = "The book has changed since this was worked.";
/// What to do then.
pub const LOOK_AGAIN: &str = "look at it again, then do it";
/// A list.
pub const PLACES: &str = "Places\n";
/// What a fact takes.
pub const ANY_WORDS: &str = "any words";
/// What a fact takes.
pub const A_COUNT: &str = "a whole number";
/// A line of a file.
pub const ENTERS: &str = "enters";
/// Nothing was written.
pub const NOTHING_CHANGED: &str = "Nothing is changed. With --write it is entered, as one batch.\n";
/// Lines were refused.
pub const LINES_REFUSED: &str = "Lines are refused, so nothing was saved: put the file right.";
/// A part of the card.
pub const FIELDS_LACKING: &str =
    "What the law's specification card (Form 4) asks and this book lacks:";
/// No edition.
const NO_EDITION: &str = "No card of this boiler has been signed in this book.";
/// The same as before.
const NOTHING_DIFFERS: &str = "Nothing differs from it.";
/// What governs in its place.
pub const CAUTIONS: &[&str] = &[
    "This card computes and compares. It approves no pressure: the owner sets it, whoever is licensed and answerable for the \
     boiler reviews every figure here, and the authority that has jurisdiction decides.",
    "A sheet knows nothing of cracks, grooving, laminations, burned plate or broken stays. Look for them.",
];
/// Heads of the table.
pub const HEADS: &[&str] = &[
    "Component",
    "Would bear",
    "Set pressure",
    "Stood on",
    "Missing",
];
/// A part.
pub const COMPONENTS: &str = "Each component";
/// The way to the sheet.
pub const AS_SHEET: &str = "What governs, as a worked sheet";
/// Over what governs.
pub const GOVERNS: &str = "What governs";
/// A part.
pub const NOT_ENTERED: &str = "Places of which nothing is entered";
/// A part.
pub const WITHOUT: &str = "What she does not have";
/// A part.
pub const LEVELS: &str = "Water over the crown";
/// A part.
pub const FIELDS: &str = "What the law's specification card asks";
/// A part.
pub const SINCE: &str = "Against the last card signed";
/// Heads.
pub const FIELD_HEADS: &[&str] = &["Field", "As this book has it", "Known how"];
/// A field read on the form.
pub const READ_ON_FORM: &str = "field read on the form";
/// A field from memory.
pub const FROM_MEMORY: &str = "field from memory: hold it against the form";
/// The link to the paper.
pub const PRINT: &str = "Print the boiler card";
/// Over the paper.
pub const OVER: &str = "Boiler card";
/// A form.
pub const ENTER: &str = "Enter a component, or more of one";
/// A field.
pub const COMPONENT: &str = "Component, in the shop's words";
/// A field.
pub const KIND: &str = "Worked as (left empty of one that stands)";
/// A field.
pub const PLACE: &str = "Where it is";
/// A field.
pub const FACTS: &str = "Facts, one a line: name=value with its unit";
/// A hint.
pub const FACTS_HINT: &str = "such as thickness=.571in; name=unknown takes back what was said";
/// A field.
pub const SOURCE: &str = "The drawing or paper that says so, or who measured it";
/// Its button.
pub const ENTER_IT: &str = "Enter it";
/// A form.
pub const SIGN: &str = "Sign this card as it stands";
/// What that is.
pub const SIGN_MEANS: &str =
    "It is kept as it stands today, as a new edition. It approves no pressure.";
/// A field.
pub const BECAUSE: &str = "Why there is a new one: the survey, the repair";
/// Its button.
pub const SIGN_IT: &str = "Sign the card";
/// As it stands.
pub const AS_IT_STANDS: &str = "as it stands";
/// Nothing is missing.
pub const NOTHING: &str = "nothing";
/// Which values a pressure stood on.
pub const WHAT_IT_STOOD_ON: &str = "What it stood on";
/// For the signer on paper.
pub const SIGN_BOXES: &[&[&str]] = &[
    &[
        "worked by",
        "reviewed by (licensed, answerable for the boiler)",
        "day",
    ],
    &["owner", "pressure the owner sets", "day"],
];
/// A part.
pub const SIGNED_BY: &str = "Reviewed and signed by hand";
/// The law's figures.
pub const FIGURES: &str = "Figures of law";

/// The title.
pub fn title(number: &str) -> String {
    format!("Boiler card of No. {number}")
}

/// A fact typed twice.
pub fn twice(fact: &str) -> String {
    format!("`{fact}` was said twice in one line: once was expected.")
}

/// Entered.
pub fn entered(number: &str, component: &str, facts: usize) -> String {
    let facts = super::count(facts, "fact", "facts");
    format!(
        "Boiler of No. {}, {component}: {facts} entered",
        number.trim()
    )
}

/// Signed.
pub fn signed(number: &str, governs: &str) -> String {
    format!(
        "The boiler card of No. {} is signed as it stands. {governs}",
        number.trim()
    )
}

/// The rule sets.
pub fn rules(sets: &[String]) -> String {
    format!("Worked by the rules {}.", sets.join(", "))
}

/// The set pressure.
pub fn set(set: Option<u32>) -> String {
    match set {
        Some(psi) => {
            format!("The owner set {psi} psig; this card compares with it and approves nothing.")
        }
        None => "The owner's pressure is not in this book: nothing can be held against it.".into(),
    }
}

/// How a component stands to the set pressure.
pub fn against(line: &CardLine, set: Option<u32>) -> String {
    if line.bears == Bears::CannotTell {
        return String::new();
    }
    let word = super::sentence(line.held.word());
    let Some(set) = set else {
        return format!("{word}.");
    };
    let down = |value: f64| measure::show::number(value, 2, measure::Rounding::Down);
    let times = line
        .times
        .map(|times| format!(", {} times the {set} psig set", down(times)));
    let factor = line
        .factor
        .map(|factor| format!(", factor of safety {} at it", down(factor)));
    format!(
        "{word}{}{}.",
        times.unwrap_or_default(),
        factor.unwrap_or_default()
    )
}

/// What a component stood on: for each paper, measuring or rule the values that came from it.
pub fn stood_on(all: &[Stood]) -> Vec<String> {
    let mut grouped: Vec<(&str, Vec<String>)> = Vec::new();
    for it in all {
        let from = it.basis.strip_prefix("reading: ").unwrap_or(&it.basis);
        let value = format!("{} {}", it.name, it.says);
        match grouped.iter_mut().find(|(known, _)| *known == from) {
            // The seam and the shell may take the same value.
            Some((_, values)) if values.contains(&value) => {}
            Some((_, values)) => values.push(value),
            None => grouped.push((from, vec![value])),
        }
    }
    let lines = grouped
        .into_iter()
        .map(|(from, values)| format!("{} ({from})", values.join(", ")));
    lines.collect()
}

/// Something missing.
pub fn missing(what: &str) -> String {
    format!("missing: {what}")
}

/// A place without anything.
pub fn nothing_of(means: &str) -> String {
    format!(
        "{}: cannot tell; nothing is entered, nor said not to be fitted.",
        super::sentence(means)
    )
}

/// A place she does not have.
pub fn not_fitted(component: &str, seen: &str) -> String {
    format!("{}: not fitted; {seen}", super::sentence(component))
}

/// What a height of the water level is.
fn level_of(argument: &str) -> &str {
    match argument {
        "crown_height" => "Highest part of the crown sheet",
        "glass_low" => "Lowest reading of the lower glass",
        "cock_low" => "Lowest gauge cock",
        "least_above" => "Least above the crown",
        other => other,
    }
}

/// The water level, a sentence each.
pub fn level(level: Option<&Level>) -> Vec<String> {
    let Some(level) = level else {
        return vec!["Lowest glass against the crown: cannot tell; no heights are entered.".into()];
    };
    let mut all = vec![format!(
        "Lowest reading of the lower glass against the crown: {}.",
        level.glass
    )];
    all.push(match &level.cock {
        Some(cock) => format!("Lowest gauge cock against the crown: {cock}."),
        None => "She is said to have no gauge cocks.".into(),
    });
    for (name, says, basis) in &level.stood_on {
        let from = basis.strip_prefix("reading: ").unwrap_or(basis);
        all.push(format!("{}: {says} ({from}).", level_of(name)));
    }
    let jobs: Vec<String> = level
        .worked_since
        .iter()
        .map(|job| super::tag::job(*job))
        .collect();
    if !jobs.is_empty() {
        all.push(format!(
            "Work on firebox or glass was closed after they were measured ({}): measure them again.",
            jobs.join(", ")
        ));
    }
    all.push("They are measured again after any work on glass, cock or firebox.".into());
    all
}

/// A field that is lacking.
pub fn lacks(field: &CardField) -> String {
    let known = if field.read {
        READ_ON_FORM
    } else {
        FROM_MEMORY
    };
    let of = if field.lacks.is_empty() {
        String::new()
    } else {
        format!(", of {}", field.lacks.join(", "))
    };
    format!("{}{of} ({known})", field.asks)
}

/// What a field has.
pub fn has(field: &CardField) -> String {
    match (&field.has, field.lacks.is_empty()) {
        (Some(has), _) => has.clone(),
        (None, true) => "missing".into(),
        (None, false) => format!("missing of {}", field.lacks.join(", ")),
    }
}

/// The card beside the one signed last, by whom: what differs, a sentence each.
pub fn since(card: &BoilerCard, by: &str) -> Vec<String> {
    let Some(last) = &card.last else {
        return vec![NO_EDITION.into()];
    };
    let mut all = vec![edition(last, by)];
    if card.differs.is_empty() {
        all.push(NOTHING_DIFFERS.into());
    }
    all.extend(card.differs.iter().cloned());
    all
}

/// An edition.
fn edition(last: &CardEdition, by: &str) -> String {
    format!(
        "Edition {} was signed by {by} on {} ({}): {}",
        last.card.edition,
        super::day(last.on),
        last.card.because,
        last.card.governing
    )
}

/// What a fact takes.
pub fn argument_of(sheet: &str) -> String {
    format!("a value with its unit, for {sheet}")
}

/// A file without a heading.
pub fn no_heading(file: &str) -> String {
    format!(
        "{file} has no heading that is understood: a column `component` was expected, with kind, place, source and facts by name."
    )
}

/// A line of a file, as a source.
pub fn file_line(file: &str, line: u32) -> String {
    format!("{file}, line {line}")
}

/// A refused line.
pub fn refused(why: &str) -> String {
    format!("REFUSED: {why}")
}

/// What came in.
pub fn batch(batch: &str) -> String {
    format!("It came in as batch {batch}; `outshop entry withdraw` takes it back whole.")
}

/// What the book cannot take.
pub fn cannot_take(why: &str) -> String {
    format!("The book cannot take this: {why}.")
}
