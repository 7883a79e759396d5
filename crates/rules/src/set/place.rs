//! On which line of a text a thing stands, so that a fault can be looked up where it was written.

use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

/// The lines of a text.
pub(super) struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    pub(super) fn of(text: &str) -> Lines {
        let after = text.match_indices('\n').map(|(at, _)| at + 1);
        Lines {
            starts: std::iter::once(0).chain(after).collect(),
        }
    }

    /// The line of a byte of the text, counted from 1.
    pub(super) fn at(&self, byte: usize) -> usize {
        self.starts.partition_point(|start| *start <= byte).max(1)
    }
}

/// A key or a value of a table, with the line it stands on.
pub(super) struct Leaf {
    key: String,
    value: Option<String>,
    line: usize,
}

/// Every key and value under a table, in order.
pub(super) fn leaves(table: &DeTable<'_>, lines: &Lines) -> Vec<Leaf> {
    let mut found = Vec::new();
    of_table(table, lines, &mut found);
    found.sort_by_key(|leaf| leaf.line);
    found
}

fn of_table(table: &DeTable<'_>, lines: &Lines, found: &mut Vec<Leaf>) {
    for (key, value) in table.iter() {
        let key: &Spanned<DeString<'_>> = key;
        let name = key.get_ref().to_string();
        found.push(Leaf {
            key: name.clone(),
            value: None,
            line: lines.at(key.span().start),
        });
        of_value(&name, value, lines, found);
    }
}

fn of_value(key: &str, value: &Spanned<DeValue<'_>>, lines: &Lines, found: &mut Vec<Leaf>) {
    let mut leaf = |text: String| {
        found.push(Leaf {
            key: key.to_owned(),
            value: Some(text),
            line: lines.at(value.span().start),
        });
    };
    match value.get_ref() {
        DeValue::String(text) => leaf(text.to_string()),
        DeValue::Integer(number) => leaf(number.to_string()),
        DeValue::Float(number) => leaf(number.to_string()),
        DeValue::Datetime(day) => leaf(day.to_string()),
        DeValue::Boolean(_) => {}
        DeValue::Array(values) => {
            for value in values.iter() {
                of_value(key, value, lines, found);
            }
        }
        DeValue::Table(table) => of_table(table, lines, found),
    }
}

/// The line a fault's sentence speaks of: that of the first key or value it names. A key that is missing stands
/// nowhere: then the line given.
pub(super) fn of_sentence(says: &str, leaves: &[Leaf], or: usize) -> usize {
    let bare = says.trim_start_matches("says: ");
    if bare.starts_with("missing key") || bare.starts_with("`until` is missing") {
        let says_key = leaves.iter().find(|leaf| leaf.key == "says");
        return match says_key {
            Some(leaf) if bare != says || bare.contains("`value`") || bare.contains("`unit`") => {
                leaf.line
            }
            _ => or,
        };
    }
    let first = bare.split([' ', ',']).next().unwrap_or_default();
    let quoted = bare.split('`').skip(1).step_by(2);
    for word in std::iter::once(first).chain(quoted) {
        let last = word.rsplit('.').next().unwrap_or(word);
        let by_value = leaves
            .iter()
            .find(|leaf| leaf.value.as_deref() == Some(word));
        let by_key = leaves
            .iter()
            .find(|leaf| leaf.value.is_none() && (leaf.key == word || leaf.key == last));
        if let Some(leaf) = by_key.or(by_value) {
            return leaf.line;
        }
    }
    or
}
