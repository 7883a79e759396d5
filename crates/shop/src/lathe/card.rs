//! Lathe cards with a number: which revision stands, and what a newer one changed.

use crate::Refusal;
use crate::book::{Book, Card, CardKept, Revision, Statement};

/// Keeps a card under a new number, or a new revision of one.
///
/// # Errors
/// Input: a revision says nothing of why, is of another sheet, or says what the newest says already.
pub fn keep_card(book: &Book, new: CardKept) -> Result<Vec<Statement>, Refusal> {
    let because = new.because.as_deref().map(str::trim).unwrap_or_default();
    if let Some(card) = book.cards.get(&new.card) {
        let tag = format!("C-{:03}", card.number);
        if card.sheet != new.sheet {
            return Err(Refusal::input(format!(
                "{tag} is a card of {}, not of {}: keep it under a number of its own.",
                card.sheet, new.sheet
            )));
        }
        if because.is_empty() {
            return Err(Refusal::input(format!(
                "Why {tag} is revised was expected: it stands on the card that it takes the place of."
            )));
        }
        let same = |newest: &Revision| newest.text == new.text && newest.given == new.given;
        if card.revisions.last().is_some_and(same) {
            return Err(Refusal::input(format!(
                "{tag} says this already, in revision {}.",
                card.revisions.len()
            )));
        }
    }
    let because = (!because.is_empty()).then(|| because.to_owned());
    Ok(vec![Statement::CardKept(CardKept { because, ..new })])
}

/// What a later revision says otherwise than an earlier one: what went in, and what came out.
pub fn revised(before: &Revision, after: &Revision) -> Vec<(String, String)> {
    let lines = |given: &[String]| {
        let each = given
            .iter()
            .map(|it| format!("  {}", it.replacen('=', " = ", 1)));
        each.collect::<Vec<_>>().join("\n")
    };
    let went_in = changed(&lines(&before.given), &lines(&after.given));
    let came_out = changed(&before.text, &after.text);
    went_in.into_iter().chain(came_out).collect()
}

/// What the second text says otherwise than the first, line by line: what it was, what it is. A line that only one of them
/// has stands beside nothing.
pub fn changed(before: &str, after: &str) -> Vec<(String, String)> {
    let (before, after) = (facts(before), facts(after));
    let mut all = Vec::new();
    for (name, was) in &before {
        let is = after.iter().find(|(other, _)| other == name);
        match is {
            Some((_, is)) if is == was => {}
            Some((_, is)) => all.push((format!("{name}{was}"), format!("{name}{is}"))),
            None => all.push((format!("{name}{was}"), String::new())),
        }
    }
    for (name, is) in &after {
        if before.iter().all(|(other, _)| other != name) {
            all.push((String::new(), format!("{name}{is}")));
        }
    }
    all
}

/// The lines of a printed sheet that say what something is: results and settings, by name.
fn facts(text: &str) -> Vec<(String, String)> {
    let from = text.find("\nResults\n").map_or(0, |at| at + 1);
    let until = text
        .find("\nNotices\n")
        .or_else(|| text.find("\nCautions\n"));
    let results = text.get(from..until.unwrap_or(text.len()).max(from));
    let settings = text.find("\nSettings for ").map(|at| &text[at..]);
    let lines = results.unwrap_or_default().lines();
    let lines = lines.chain(settings.unwrap_or_default().lines());
    let said = lines.filter(|line| line.starts_with("  "));
    let parted = said.filter_map(|line| {
        let line = line.trim();
        let at = line.find(" = ").or_else(|| line.find(": "))?;
        // What it means stands after it, three blanks off, and says the same in both.
        let value = line[at..].split("   ").next().unwrap_or_default();
        Some((line[..at].to_owned(), value.to_owned()))
    });
    parted.collect()
}

impl Card {
    /// The newest revision and its number, counted from one.
    pub fn newest(&self) -> Option<(usize, &Revision)> {
        let newest = self.revisions.last()?;
        Some((self.revisions.len(), newest))
    }

    /// A revision by its number, counted from one.
    pub fn revision(&self, number: usize) -> Option<&Revision> {
        self.revisions.get(number.checked_sub(1)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_newer_text_says_otherwise_is_told_by_name() {
        let before = "\nResults\n  depth = 0.0541 in     how deep\n  passes = 12\n\nCautions\n  - none\n\nSettings for LA-001\n  Half nuts: line 1\n";
        let after = "\nResults\n  depth = 0.0530 in     how deep\n  passes = 12\n\nCautions\n  - more\n\nSettings for LA-001\n  Half nuts: any line\n  Swing: clears\n";
        let told = changed(before, after);
        let pair = |was: &str, is: &str| (was.to_owned(), is.to_owned());
        assert_eq!(
            told,
            [
                pair("depth = 0.0541 in", "depth = 0.0530 in"),
                pair("Half nuts: line 1", "Half nuts: any line"),
                pair("", "Swing: clears"),
            ]
        );
        assert!(changed(before, before).is_empty());
        assert!(changed("nothing that reads", "").is_empty());
    }
}
