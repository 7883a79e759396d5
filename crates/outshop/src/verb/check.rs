//! `check`: proof that a book is what was entered.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use store::Checked;

use crate::{Answer, Context, Failure, words};

/// Prove the chain of entries and the rows derived from them.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// First drop the derived rows and fold them anew from the entries.
    #[arg(long)]
    #[serde(default)]
    pub fold_anew: bool,
}

impl Check {
    /// Checks.
    ///
    /// # Errors
    /// If the file cannot be read at all.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.fold_anew {
            context.store()?.rebuild()?;
        }
        Ok(told(&context.store()?.check()?))
    }
}

pub(super) fn told(checked: &Checked) -> Answer {
    let mut text = String::new();
    let (seq, hash) = checked.head;
    if checked.differences.is_empty() {
        text.push_str(&format!(
            "The book is what was entered: {}, chained and whole; {} agree with them.\n",
            words::count(
                usize::try_from(checked.entries).unwrap_or(usize::MAX),
                "entry",
                "entries"
            ),
            words::count(checked.rows, "derived row", "derived rows"),
        ));
    } else {
        text.push_str(&format!(
            "The book differs from what was entered: {}.\n",
            words::count(checked.differences.len(), "difference", "differences")
        ));
        for difference in checked.differences.iter().take(20) {
            // A difference that does not name its entry itself says where to look.
            let at = match difference.entry {
                Some(entry) if !difference.what.starts_with("entry ") => {
                    format!(": look at entry {entry}")
                }
                _ => String::new(),
            };
            text.push_str(&format!("  - {}{at}\n", difference.what));
        }
        if checked.differences.len() > 20 {
            text.push_str(&format!(
                "  - and {} more\n",
                checked.differences.len() - 20
            ));
        }
    }
    text.push_str(&format!(
        "Last entry {seq}, hash {hash}.\n{}\n",
        store::CANNOT_PROVE
    ));
    let differences: Vec<_> = checked
        .differences
        .iter()
        .map(|d| json!({ "entry": d.entry, "what": d.what }))
        .collect();
    let first = checked.differences.iter().filter_map(|d| d.entry).min();
    Answer {
        text,
        json: json!({
            "entries": checked.entries, "head": { "entry": seq, "hash": hash.to_string() },
            "rows": checked.rows, "first_difference": first, "differences": differences,
            "cannot_prove": store::CANNOT_PROVE,
        }),
        code: u8::from(!checked.differences.is_empty()),
    }
}
