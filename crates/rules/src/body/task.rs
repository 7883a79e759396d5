//! An item of an inspection: what is looked at, when it applies, what its answer must say.

use serde::Deserialize;

/// Something an inspection looks at.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// The inspections on whose own list it stands; larger ones contain it.
    pub inspections: Vec<String>,
    /// Its place on that list, from 1.
    pub order: u32,
    /// Whether the appendix lists it; if not, the rule's text asks for it and the appendix is silent.
    pub listed: bool,
    /// Whether it is looked at at the start of each day of use.
    pub at_start_of_day: bool,
    /// What to do, in our words.
    pub text: String,
    /// The fitting without which the item does not apply. An engine whose fittings are not stated keeps the item.
    pub fitting: Option<String>,
    /// What the answer must say beside "looked at" (words of `words::NEEDS`).
    pub needs: Vec<String>,
    /// The section that asks for the work (the citation of an appendix item is the appendix).
    pub section: String,
}
