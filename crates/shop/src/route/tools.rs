//! The tools of a route: which are in the register and on which shelf, which must be made first.
//!
//! A family names a tool by what it is; the register by what somebody wrote on it. So one is found for the other by its words,
//! and the page says where to look: whoever takes it from the shelf sees whether it is the one.

use crate::book::{Book, PartId, Route, Tooling};

/// A tool that a route needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tool {
    /// What the family asks for.
    pub need: String,
    /// Registered tools whose words say the same, those that serve the part first.
    pub kept: Vec<Registered>,
}

/// A tool of the register.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Registered {
    /// T-001.
    pub number: u32,
    /// What is written on it.
    pub what: String,
    /// Where it lies.
    pub shelf: String,
    /// Whether it serves the part; if not, it was made for another one and must be tried.
    pub serves: bool,
}

impl Tool {
    /// Whether one that serves the part is in the register.
    pub fn is_kept(&self) -> bool {
        self.kept.iter().any(|tool| tool.serves)
    }

    /// As a job card tells it.
    pub fn told(&self) -> String {
        let all: Vec<String> = self.kept.iter().map(Registered::told).collect();
        match (self.is_kept(), all.is_empty()) {
            (true, _) => format!("{}: {}", self.need, all.join("; ")),
            (false, true) => format!("{}: to be made", self.need),
            (false, false) => format!("{}: to be made, unless {}", self.need, all.join("; ")),
        }
    }
}

impl Registered {
    /// Number, words and shelf.
    pub fn told(&self) -> String {
        let Registered {
            number,
            what,
            shelf,
            serves,
        } = self;
        match serves {
            true => format!("T-{number:03} {what}, {shelf}"),
            false => format!("T-{number:03} {what}, {shelf}, made for another part, fits"),
        }
    }
}

/// Every tool that a route needs, those that must be made first.
pub fn tools(book: &Book, part: PartId, route: &Route) -> Vec<Tool> {
    let mut all: Vec<Tool> = route
        .tooling
        .iter()
        .map(|need| Tool {
            need: need.clone(),
            kept: kept(book, part, need),
        })
        .collect();
    all.sort_by_key(Tool::is_kept);
    all
}

fn kept(book: &Book, part: PartId, need: &str) -> Vec<Registered> {
    let wanted = head(need);
    let family = book.parts.get(&part).map(|part| &part.family);
    let mut found: Vec<(bool, &Tooling)> = Vec::new();
    for tool in book.tooling.values().filter(|tool| tool.out.is_none()) {
        let serves = tool.serves().any(|id| id == part);
        let has = words(&tool.what);
        let shared = wanted.iter().filter(|word| has.contains(word)).count();
        // For this part half the words will do; one made for another must say all of them, and be for the same kind of part.
        let alike = serves
            || tool
                .serves()
                .any(|id| book.parts.get(&id).map(|part| &part.family) == family);
        let enough = match serves {
            true => shared > 0 && 2 * shared >= wanted.len(),
            false => alike && !wanted.is_empty() && shared == wanted.len(),
        };
        if enough {
            found.push((serves, tool));
        }
    }
    found.sort_by_key(|(serves, tool)| (!serves, tool.number));
    found
        .into_iter()
        .map(|(serves, tool)| Registered {
            number: tool.number,
            what: tool.what.clone(),
            shelf: tool.shelf.clone(),
            serves,
        })
        .collect()
}

/// The words that say what a tool is, before those that say for what.
fn head(need: &str) -> Vec<String> {
    let ends = [
        " of ", " for ", " to ", " with ", " that ", " guided ", " set ", " square ", ",", ":",
    ];
    let end = ends.iter().filter_map(|end| need.find(end)).min();
    words(&need[..end.unwrap_or(need.len())])
}

/// The words of a text that tell one tool from another, in the singular.
fn words(text: &str) -> Vec<String> {
    const NONE: &[&str] = &[
        "and", "the", "its", "each", "one", "for", "with", "that", "size",
    ];
    text.split(|c: char| !c.is_alphanumeric())
        .map(str::to_lowercase)
        .filter(|word| word.len() > 2 && !NONE.contains(&word.as_str()))
        .map(|word| match word.strip_suffix('s') {
            Some(one) if !word.ends_with("ss") => one.to_string(),
            _ => word,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tool_is_told_by_the_words_before_its_purpose() {
        assert_eq!(head("plug gauges for its throats"), ["plug", "gauge"]);
        assert_eq!(
            head("cast-iron lap to the seat's half angle, with a pilot in the guide"),
            ["cast", "iron", "lap"]
        );
        assert_eq!(head("press with a gauge"), ["press"]);
        assert_eq!(
            words("lap and master cone, 45 deg"),
            ["lap", "master", "cone", "deg"]
        );
    }
}
