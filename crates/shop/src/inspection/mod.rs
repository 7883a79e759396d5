//! An opened occasion with its items; it closes only when every item is answered and signed.

mod anchor;
mod put_away;

use jiff::civil::Date;
use rules::{Body, Rulebook};

pub use anchor::anchor;
pub use put_away::put_away;

use crate::Refusal;
use crate::book::{
    Answer, Authority, Book, FindingState, Inspection, InspectionClosed, InspectionId,
    InspectionOpened, ItemAnswered, ItemAsked, ItemCondition, LocomotiveId, Made, PersonId,
    Statement,
};
use crate::locomotive::{Law, engine_of, with_authority};

/// The items an inspection of this kind asks of an engine on this day, in the order of the lists; a
/// larger inspection holds the smaller ones.
///
/// The items of every rule set that binds her stand one set after the other.
///
/// Items of fittings that are known not to be there are still asked: somebody must say *not fitted*.
///
/// # Errors
/// Input: an unknown kind, no items on file, or a day before the rulebook's coverage.
pub fn items(law: &Law<'_>, kind: &str, on: Date) -> Result<Vec<ItemAsked>, Refusal> {
    let kinds = law.inspections(on)?;
    if kinds.iter().all(|(word, _)| *word != kind) {
        let known: Vec<_> = kinds.iter().map(|(word, _)| *word).collect();
        return Err(Refusal::input(format!(
            "`{kind}` is not a kind of inspection: {} were expected.",
            known.join(", ")
        )));
    }
    let mut asked = Vec::new();
    for ruling in law.items(kind, on)? {
        let Body::Item(item) = ruling.body else {
            continue;
        };
        asked.push(ItemAsked {
            rule: ruling.rule,
            version: ruling.version,
            text: item.text,
            section: item.section,
            fitting: item.fitting,
        });
    }
    if asked.is_empty() {
        return Err(Refusal::input(format!(
            "No items of a {kind} inspection are on file for the rules that bind her, {}.",
            law.told_on(on)
        )));
    }
    Ok(asked)
}

/// Opens an inspection.
///
/// # Errors
/// Refused: one of the same kind is open, or the person has no authority. Input: as [`items`].
pub fn open(
    book: &Book,
    rules: &Rulebook,
    id: InspectionId,
    engine: LocomotiveId,
    kind: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "open an inspection", on)?;
    let kept = engine_of(book, engine)?;
    let items = items(&Law::of(book, rules, kept), kind, on)?;
    let open = book
        .inspections
        .values()
        .find(|i| i.locomotive == engine && i.kind == kind && i.is_open());
    if let Some(open) = open {
        return Err(Refusal::refused(format!(
            "A {kind} inspection of No. {} is open already: I-{:03}, of {}.",
            kept.number, open.number, open.opened_on
        )));
    }
    Ok(vec![Statement::InspectionOpened(InspectionOpened {
        id,
        locomotive: engine,
        kind: kind.into(),
        items,
    })])
}

/// How an item was found: the answer, and beside *good* a condition that is less than good and yet no defect.
pub type Found = (Answer, Option<ItemCondition>);

/// Answers one item.
///
/// # Errors
/// Refused: the inspection is closed; the person may not inspect; nothing says what was seen; *not
/// fitted* of something every engine has, or of a fitting the engine is known to have. Input: the
/// item is not asked, or a condition beside a defect, or beside what is not fitted.
pub fn answer(
    book: &Book,
    id: InspectionId,
    item: &str,
    (answer, condition): Found,
    seen: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    if condition.is_some() && answer != Answer::Good {
        return Err(Refusal::input(
            "*Fair* is said of what has no defect; a defect has its finding, and what is not fitted has no condition.",
        ));
    }
    let inspection = kept(book, id)?;
    with_authority(book, by, Authority::Inspect, "answer an item", on)?;
    if let Some(day) = inspection.ended_on() {
        let how = ended_how(inspection);
        return Err(Refusal::refused(format!(
            "I-{:03} was {how} on {day}; nothing can be added to it.",
            inspection.number
        )));
    }
    let asked = find_item(inspection, item)?;
    if seen.trim().is_empty() {
        return Err(Refusal::refused(format!(
            "`{}` needs what was seen, not only that it is well.",
            asked.text
        )));
    }
    if answer != Answer::NotFitted && holds_scale(&asked.text) && only_cleaned(seen) {
        return Err(Refusal::refused(format!(
            "`{}`: *{}* does not say what came out of it. How much scale there was was expected, or that there was \
             none: the next one to open it plans by that.",
            asked.text,
            seen.trim()
        )));
    }
    if answer == Answer::NotFitted {
        let fitted = asked.fitting.as_ref().map(|f| {
            book.locomotives
                .get(&inspection.locomotive)
                .and_then(|e| e.fittings.get(f))
                .copied()
                .unwrap_or(false)
        });
        match fitted {
            None => {
                return Err(Refusal::refused(format!(
                    "`{}` is asked of every engine; it cannot be *not fitted*.",
                    asked.text
                )));
            }
            Some(true) => {
                return Err(Refusal::refused(format!(
                    "The book says this engine has {}; it cannot be *not fitted*.",
                    asked.fitting.as_deref().unwrap_or_default()
                ))
                .todo("correct the engine's entry first, if that is wrong"));
            }
            Some(false) => {}
        }
    }
    if let Answer::Defect { finding } = &answer
        && book
            .findings
            .get(finding)
            .is_none_or(|f| f.locomotive != inspection.locomotive)
    {
        return Err(Refusal::input("That finding is not of this engine."));
    }
    Ok(vec![Statement::ItemAnswered(ItemAnswered {
        inspection: id,
        rule: asked.rule.clone(),
        answer,
        seen: seen.trim().into(),
        condition,
    })])
}

/// What still keeps an inspection from closing, one line each.
pub fn unmet(book: &Book, inspection: &Inspection) -> Vec<String> {
    let mut missing = Vec::new();
    let mut open = Vec::new();
    for (at, item) in inspection.items.iter().enumerate() {
        match inspection.answers.get(&item.rule).map(|a| &a.answer) {
            None => open.push((at + 1, item)),
            Some(Answer::Defect { finding }) => {
                if let Some(finding) = book.findings.get(finding)
                    && !matches!(finding.state, FindingState::Closed | FindingState::Carried)
                {
                    missing.push(format!(
                        "item {} has the open finding F-{:03}: {}",
                        at + 1,
                        finding.number,
                        finding.told
                    ));
                }
            }
            Some(_) => {}
        }
    }
    // A few open items are named in full; a list that is hardly begun is not read out.
    if open.len() <= 6 {
        missing.extend(open.iter().map(|(at, item)| {
            format!(
                "item {at} is not answered: {} ({})",
                item.text, item.section
            )
        }));
    } else {
        let numbers: Vec<_> = open.iter().map(|(at, _)| at.to_string()).collect();
        missing.push(format!(
            "{} items are not answered: {}",
            open.len(),
            numbers.join(", ")
        ));
    }
    missing
}

/// Closes an inspection; the one who enters it signs as inspector. Where and when it was made may be said.
///
/// # Errors
/// Refused, naming each open item; or the person may not inspect.
pub fn close(
    book: &Book,
    id: InspectionId,
    made: Option<Made>,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let inspection = kept(book, id)?;
    with_authority(book, by, Authority::Inspect, "sign an inspection", on)?;
    if let Some(day) = inspection.ended_on() {
        let how = ended_how(inspection);
        return Err(Refusal::refused(format!(
            "I-{:03} was {how} on {day}.",
            inspection.number
        )));
    }
    let missing = unmet(book, inspection);
    if !missing.is_empty() {
        return Err(
            Refusal::refused(format!("I-{:03} cannot be closed.", inspection.number))
                .todos(missing),
        );
    }
    let made = made.and_then(|it| {
        let place = it.place.map(|place| place.trim().to_string());
        let place = place.filter(|place| !place.is_empty());
        (it.at.is_some() || place.is_some()).then_some(Made { at: it.at, place })
    });
    Ok(vec![Statement::InspectionClosed(InspectionClosed {
        inspection: id,
        made,
    })])
}

/// An item by its rule or by its number in the list.
///
/// # Errors
/// Input if it is not asked.
pub fn find_item<'i>(inspection: &'i Inspection, item: &str) -> Result<&'i ItemAsked, Refusal> {
    let by_number = item
        .parse::<usize>()
        .ok()
        .and_then(|n| inspection.items.get(n.checked_sub(1)?));
    by_number.or_else(|| inspection.items.iter().find(|i| i.rule == item)).ok_or_else(|| {
        Refusal::input(format!(
            "I-{:03} asks no item `{item}`: a number from 1 to {} or the id of its rule was expected.",
            inspection.number,
            inspection.items.len()
        ))
    })
}

fn ended_how(inspection: &Inspection) -> &'static str {
    if inspection.closed.is_some() {
        "closed"
    } else {
        "put away as not completed"
    }
}

fn kept(book: &Book, id: InspectionId) -> Result<&Inspection, Refusal> {
    book.inspections
        .get(&id)
        .ok_or_else(|| Refusal::input("There is no such inspection in this book."))
}

/// Whether an item is of something that scales up: a glass, a cock, a plug, a check.
fn holds_scale(text: &str) -> bool {
    const SCALES_UP: [&str; 8] = [
        "glass", "glasses", "cock", "cocks", "plug", "plugs", "check", "checks",
    ];
    let text = text.to_lowercase();
    let mut words = text.split(|c: char| !c.is_alphabetic());
    words.any(|word| SCALES_UP.contains(&word))
}

/// Whether somebody wrote that a thing was cleaned and nothing of what was found in it.
fn only_cleaned(seen: &str) -> bool {
    let seen = seen.to_lowercase();
    let words: Vec<&str> = seen
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.iter().any(|word| word.starts_with("clean"))
        && words.iter().all(|word| {
            word.starts_with("clean")
                || [
                    "and", "out", "all", "good", "ok", "well", "was", "is", "done", "now",
                ]
                .contains(word)
        })
}
