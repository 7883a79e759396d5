//! Taking a family of parts that the shop wrote into the book.

use jiff::civil::Date;
use rules::Rulebook;

use crate::Refusal;
use crate::book::{
    Authority, Book, Family, FamilyAdopted, KnownToFamilies, PersonId, Statement, family_faults,
};
use crate::locomotive::with_authority;

/// What a family may name beside a rulebook and families: the ids of its rules, the families by their words, and every sheet of
/// the catalogue.
pub fn known(rules: &Rulebook, families: impl IntoIterator<Item = Family>) -> KnownToFamilies {
    KnownToFamilies {
        rules: rules.rules().map(|rule| rule.id.clone()).collect(),
        families: families
            .into_iter()
            .map(|family| (family.family.clone(), family))
            .collect(),
        arguments: physics::catalogue()
            .iter()
            .flat_map(|entry| {
                let id = entry.card.id.to_string();
                entry
                    .card
                    .arguments
                    .iter()
                    .map(move |it| (id.clone(), it.name.to_string()))
            })
            .collect(),
        sheets: physics::catalogue()
            .iter()
            .map(|entry| entry.card.id.to_string())
            .collect(),
    }
}

/// Reads the text of a family as it would be taken into a book. It may name the rules of this program and of the sets the book
/// holds, and the families of the book; where the book has none, those this program brings.
///
/// # Arguments
/// `file`: what the text is called in the sentences, before the line.
///
/// # Errors
/// Input: every fault of the text, one line each as `FILE:LINE: sentence`.
pub fn read_family(
    book: &Book,
    rules: &Rulebook,
    file: &str,
    text: &str,
) -> Result<Family, Refusal> {
    let kept: Vec<Family> = book
        .families
        .values()
        .filter_map(|kept| kept.family().ok().cloned())
        .collect();
    let families = if kept.is_empty() {
        let built_in = Family::BUILT_IN.iter();
        built_in
            .filter_map(|text| Family::read(text).ok())
            .collect()
    } else {
        kept
    };
    let mut known = known(rules, families);
    for set in book.rule_sets.values() {
        let read = set.newest().and_then(|(_, it)| it.rules(rules).ok());
        let own = read.into_iter().flat_map(|it| it.rules.rules());
        known.rules.extend(own.map(|rule| rule.id.clone()));
    }
    family_faults(text, &known).map_err(|faults| {
        let many = match faults.len() {
            1 => "a fault".to_string(),
            n => format!("{n} faults"),
        };
        let faults: Vec<_> = faults.iter().map(|fault| fault.at(file)).collect();
        Refusal::input(format!("{file} has {many}; nothing of it was taken in.")).todos(faults)
    })
}

/// Takes the text of a family into the book. Parts of that family are judged by it from then on; what was decided before
/// stands as it was signed.
///
/// # Errors
/// Refused: the person may not approve. Input: as [`read_family`], or the book has the family in this version or a newer one.
pub fn adopt_family(
    book: &Book,
    rules: &Rulebook,
    (file, text): (&str, &str),
    (by, on): (PersonId, Date),
) -> Result<Vec<Statement>, Refusal> {
    with_authority(
        book,
        by,
        Authority::Approve,
        "take a part family into the book",
        on,
    )?;
    let family = read_family(book, rules, file, text)?;
    let kept = book.families.get(&family.family);
    if let Some(kept) = kept.filter(|kept| kept.version >= family.version) {
        return Err(Refusal::input(format!(
            "The book has `{}` in version {}: a higher version was expected, and {file} says {}.",
            family.family, kept.version, family.version
        )));
    }
    Ok(vec![Statement::FamilyAdopted(FamilyAdopted {
        family: family.family,
        version: family.version,
        text: text.to_string(),
    })])
}
