//! What people state of the cards that go to the machine. The stored forms, of which `statement` tells the rules.

use serde::{Deserialize, Serialize};

use super::id::CardId;

/// A lathe card was kept under a number, or a new revision of one that has a number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CardKept {
    /// The card; made by the device for the first revision.
    pub card: CardId,
    /// The sheet it is worked by.
    pub sheet: String,
    /// What went in, each `name=value` as it was written.
    pub given: Vec<String>,
    /// The units a bare number was taken in: `inch` or `metric`.
    pub house: String,
    /// The sheet and the settings as printed that day.
    pub text: String,
    /// Why there is a new revision; none for the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub because: Option<String>,
}
