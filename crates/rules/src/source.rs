//! The papers the rules were read in: who issued them, which edition, where seen, what the copy is good for.

use serde::Deserialize;

/// A paper a rule cites.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Who issued it.
    pub issuer: String,
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// Where our copy was seen.
    pub seen: String,
    /// What the copy is good for, and what it is not.
    pub good_for: String,
}
