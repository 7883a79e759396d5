//! What the shop says of itself and of its engines on the law's papers.

use jiff::civil::Date;

/// Title of the page.
pub const TITLE: &str = "What stands on the law's papers";
/// What it is for.
pub const MEANS: &str = "The law's reports ask for these. What nobody stated is named as missing on each of them; nothing is guessed.";
/// Nobody said.
pub const NOT_STATED: &str = "not stated";
/// A form.
pub const STATE: &str = "State one of them";
/// A field.
pub const WHAT: &str = "What";
/// A field.
pub const SAYS: &str = "It is";
/// A field.
pub const OF: &str = "Of which engine";
/// A choice.
pub const ALL: &str = "all of them";
/// Its button.
pub const STATE_IT: &str = "State it";
/// Who may not.
pub const MAY_NOT: &str = "Only somebody who may approve states what stands on the papers.";

/// A part of the page.
pub const OWN_RULES: &str = "Rules of this shop's own work";
/// What they are.
pub const OWN_RULES_MEAN: &str =
    "The law asks for none of them. One that an officer states binds from that day on.";
/// A form.
pub const REQUIRE: &str = "Let it hold in this shop";
/// Its button.
pub const REQUIRE_IT: &str = "Sign that it holds";
/// A form.
pub const DROP: &str = "Let it hold no more";
/// Its button.
pub const DROP_IT: &str = "Sign that it holds no more";
/// A field.
pub const BECAUSE: &str = "Why, and which paper of the shop says so";
/// It does not.
pub const HOLDS_NOT: &str = "It does not hold in this shop.";

/// Since when it holds, by whom and why.
pub fn holds(on: Date, by: &str, because: &str) -> String {
    format!("It holds since {} ({by}): {because}", super::day(on))
}

/// What the verb says.
pub fn stated(engine: Option<&str>, what: &str, says: &str) -> String {
    match engine {
        Some(number) => format!("The {what} on the papers of No. {}: {says}", number.trim()),
        None => format!("The {what} on the papers of every engine: {says}"),
    }
}

/// What is so, since when, who says so.
pub fn line(says: &str, from: Date, by: &str) -> String {
    format!("{says} ({by}, from {})", super::day(from))
}
