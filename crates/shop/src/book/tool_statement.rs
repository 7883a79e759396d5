//! What people state of tooling after it was registered: the stored forms, of which `statement` tells the rules.

use serde::{Deserialize, Serialize};

use super::id::{PartId, ToolingId};

/// More is known of a tool, or something else. What is not told stays as it was; parts and features are added to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToolingTold {
    /// Which tool.
    pub tooling: ToolingId,
    /// Features it serves, in the words of the family of a part it serves.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub features: Vec<String>,
    /// Parts it serves beside the one it was registered for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<PartId>,
    /// The number of its drawing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drawing: Option<String>,
}

/// A tool was held against something better.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToolingChecked {
    /// Which.
    pub tooling: ToolingId,
    /// Whether it was found good.
    pub good: bool,
    /// The error found, as written; missing where none was written down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub error: Option<String>,
    /// What it was held against.
    pub against: String,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// A tool lies somewhere else from now on. One that was taken out is back by this.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToolingMoved {
    /// Which.
    pub tooling: ToolingId,
    /// Where it lies now.
    pub shelf: String,
}

/// A tool is no longer to be used: worn, broken, lost, given away.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToolingTakenOut {
    /// Which.
    pub tooling: ToolingId,
    /// Why.
    pub because: String,
}
