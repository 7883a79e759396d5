//! What a shop says of rules: that somebody held one against the official text, and how its own work is done. The
//! stored forms, of which `statement` tells the rules.

use serde::{Deserialize, Serialize};

/// A person held one version of a rule against the official text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RuleHeld {
    /// The rule.
    pub rule: String,
    /// Its version.
    pub version: u32,
    /// All that the program had it say, as held: a later wording was not held by anybody.
    pub as_told: String,
    /// The text it was held against, with its edition or its day.
    pub against: String,
    /// Whether the text says the same.
    pub agrees: bool,
    /// What was read there; where it does not agree, what differs.
    pub seen: String,
}

/// A rule of this shop's own work, stricter than the law: from the day of this entry it holds, or holds no more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShopRuleStated {
    /// Its word, e.g. `another-certifies`.
    pub word: String,
    /// Whether it holds.
    pub holds: bool,
    /// Why, and which paper says so.
    pub because: String,
}
