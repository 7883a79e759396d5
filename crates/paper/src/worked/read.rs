//! Reads a sheet's printed text back, so that a sheet stored years ago is laid out without being worked again.
//!
//! The text is `Sheet::to_text` of the `physics` crate. Every line of it must find its place; one that does not
//! makes the whole sheet be printed as the plain text it is, so that nothing is lost or guessed.

use super::{Came, Formula, Input, Line, Outcome, Step, Worked};
use physics::formula;

/// The page, if all of it is understood.
pub(super) fn read(text: &str) -> Option<Worked> {
    let mut lines = text.lines();
    let (id, version) = lines
        .next()?
        .strip_prefix("WORKED SHEET  ")?
        .split_once(" (")?;
    let mut worked = Worked {
        id: id.to_owned(),
        version: version.strip_suffix(')')?.to_owned(),
        title: lines.next()?.to_owned(),
        ..Worked::empty()
    };
    let rest: Vec<&str> = lines.collect();
    for part in rest.split(|line| line.is_empty()) {
        let Some((heading, body)) = part.split_first() else {
            continue;
        };
        match (*heading, body.is_empty()) {
            ("Purpose", false) => worked.purpose = prose(body)?,
            ("Holds for", false) => worked.validity = prose(body)?,
            ("ASSUMED, NOT GIVEN", false) => worked.assumed = items(body)?,
            ("Notices", false) => worked.notices = items(body)?,
            ("Cautions", false) => worked.cautions = items(body)?,
            ("Sources", false) => worked.sources = items(body)?,
            ("Formula", false) => worked.formula = formulas(body)?,
            ("Where", _) => where_each(body, &mut worked)?,
            ("Worked", _) => worked.steps = steps(body)?,
            ("Results", false) => worked.results = results(body)?,
            (standing, true) if worked.standing.is_empty() => worked.standing = standing.to_owned(),
            _ => return None,
        }
    }
    (!worked.standing.is_empty()).then_some(worked)
}

impl Worked {
    fn empty() -> Worked {
        Worked {
            id: String::new(),
            version: String::new(),
            title: String::new(),
            purpose: String::new(),
            assumed: Vec::new(),
            formula: Vec::new(),
            inputs: Vec::new(),
            lines: Vec::new(),
            not_given: Vec::new(),
            steps: Vec::new(),
            results: Vec::new(),
            notices: Vec::new(),
            cautions: Vec::new(),
            validity: String::new(),
            sources: Vec::new(),
            standing: String::new(),
        }
    }
}

/// What stands after so many blanks, and no more blanks than that.
fn indented(line: &str, blanks: usize) -> Option<&str> {
    let rest = line.trim_start_matches(' ');
    (line.len() - rest.len() == blanks && !rest.is_empty()).then_some(rest)
}

/// Lines grouped: one at `first` blanks with those at `after` blanks that follow it.
fn groups<'t>(body: &[&'t str], first: usize, after: usize) -> Option<Vec<Vec<&'t str>>> {
    let mut all: Vec<Vec<&str>> = Vec::new();
    for line in body {
        if let Some(text) = indented(line, first) {
            all.push(vec![text]);
        } else {
            all.last_mut()?.push(indented(line, after)?);
        }
    }
    Some(all)
}

fn prose(body: &[&str]) -> Option<String> {
    let lines: Option<Vec<_>> = body.iter().map(|line| indented(line, 2)).collect();
    Some(lines?.join(" "))
}

fn items(body: &[&str]) -> Option<Vec<String>> {
    let all = groups(body, 2, 4)?;
    let texts = all.iter().map(|item| item.join(" "));
    texts
        .map(|text| Some(text.strip_prefix("- ")?.to_owned()))
        .collect()
}

fn formulas(body: &[&str]) -> Option<Vec<Formula>> {
    let all = groups(body, 2, 6)?;
    all.iter()
        .map(|line| Formula::line(&line.join(" ")))
        .collect()
}

/// Lines grouped as [`groups`] does at 2 and 6 blanks, a line that went on under itself at 8 made whole: what it came
/// from stands three blanks after it.
fn under_itself(body: &[&str]) -> Option<Vec<Vec<String>>> {
    let mut all: Vec<Vec<String>> = Vec::new();
    for line in body {
        if let Some(text) = indented(line, 2) {
            all.push(vec![text.to_owned()]);
        } else if let Some(text) = indented(line, 6) {
            all.last_mut()?.push(text.to_owned());
        } else {
            let text = indented(line, 8)?;
            let last = all.last_mut()?.last_mut()?;
            let basis = text.starts_with('(') && !last.contains("   (");
            last.push_str(if basis { "   " } else { " " });
            last.push_str(text);
        }
    }
    Some(all)
}

fn where_each(body: &[&str], worked: &mut Worked) -> Option<()> {
    for group in under_itself(body)? {
        // The value stands on the line that ends in its basis, three blanks before the bracket.
        let at = group.iter().skip(1).position(|l| l.contains("   ("));
        let (told, value) = group.split_at(at.map_or(group.len(), |at| at + 1));
        let told = told.join(" ");
        let (symbol, meaning) = told.split_once(": ")?;
        if value.is_empty() {
            if meaning == "not given" && formula_letter(symbol, worked).is_none() {
                worked.not_given.push(symbol.to_owned());
            } else {
                worked.lines.push(Line {
                    shape: letter(symbol),
                    symbol: symbol.to_owned(),
                    meaning: meaning.to_owned(),
                });
            }
            continue;
        }
        let value = value.join(" ");
        let (value, basis) = value.split_once("   (")?;
        let (entered, value) = value.split_once(" = ").unwrap_or((value, ""));
        let (symbol, name) = match symbol.split_once(" (") {
            Some((symbol, name)) => (symbol, name.strip_suffix(')')?),
            None => (symbol, ""),
        };
        worked.inputs.push(Input {
            shape: letter(symbol),
            symbol: symbol.to_owned(),
            name: name.to_owned(),
            meaning: meaning.to_owned(),
            entered: entered.to_owned(),
            value: value.to_owned(),
            basis: basis.strip_suffix(')')?.to_owned(),
        });
    }
    Some(())
}

/// The line of the formula that gives this letter its value.
fn formula_letter<'w>(symbol: &str, worked: &'w Worked) -> Option<&'w Formula> {
    let gives = |f: &&Formula| f.text.split(" = ").next() == Some(symbol);
    worked.formula.iter().find(gives)
}

fn letter(symbol: &str) -> Option<formula::Shape> {
    Some(formula::expression(symbol).ok()?.shape())
}

fn steps(body: &[&str]) -> Option<Vec<Step>> {
    let mut all = Vec::new();
    let mut body = body.iter().peekable();
    while let Some(first) = body.next() {
        let mut taken = |first: &str, after: usize| {
            let mut line = first.to_owned();
            while let Some(more) = body.peek().and_then(|next| indented(next, after)) {
                line.push(' ');
                line.push_str(more);
                body.next();
            }
            let next = body.next_if(|next| indented(next, 4).is_some());
            (line, next)
        };
        let (formula, next) = taken(indented(first, 2)?, 6);
        let (substituted, next) = taken(indented(next?, 4)?, 8);
        let (value, next) = taken(indented(next?, 4)?, 8);
        if next.is_some() {
            return None;
        }
        let (value, source) = value.strip_prefix("= ")?.split_once("   [")?;
        all.push(Step {
            formula: Formula::line(&formula)?,
            substituted: Formula::worked(substituted.strip_prefix("= ")?)?,
            value: value.to_owned(),
            source: source.strip_suffix(']')?.to_owned(),
        });
    }
    Some(all)
}

fn results(body: &[&str]) -> Option<Vec<Outcome>> {
    let mut all: Vec<Outcome> = Vec::new();
    for line in body {
        if let Some(text) = indented(line, 2) {
            all.push(outcome(text)?);
            continue;
        }
        let last = all.last_mut()?;
        match &mut last.value {
            Came::Table { text } => {
                let row = line.strip_prefix("      ")?;
                text.push_str(row);
                text.push('\n');
            }
            Came::Words { text } => {
                text.push(' ');
                text.push_str(indented(line, 6)?);
            }
            Came::Number { .. } => {
                last.meaning.push(' ');
                last.meaning.push_str(indented(line, 6)?);
            }
        }
    }
    Some(all)
}

fn outcome(text: &str) -> Option<Outcome> {
    let name = |c: char| !c.is_ascii_alphanumeric() && c != '_';
    let (name, rest) = text.split_at(text.find(name)?);
    let outcome = |meaning: &str, value| Outcome {
        name: name.to_owned(),
        meaning: meaning.to_owned(),
        value,
    };
    if let Some(number) = rest.strip_prefix(" = ") {
        // Blanks fill the number up to a column, so that the meanings stand in line.
        let (text, meaning) = number.split_once("  ").unwrap_or((number, ""));
        let text = text.to_owned();
        return Some(outcome(meaning.trim_start(), Came::Number { text }));
    }
    let text = match rest.strip_prefix(": ") {
        Some(words) => return Some(outcome("", Came::Words { text: words.into() })),
        None => String::new(),
    };
    (rest == ":").then(|| outcome("", Came::Table { text }))
}
