//! An item of an inspection: what is looked at, when it applies, what its answer must say.

use serde::Deserialize;

use crate::words;

/// Something an inspection looks at.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// The inspections on whose own list it stands; larger ones contain it. None for an item of an occasion.
    pub inspections: Vec<String>,
    /// The occasion outside the round of inspections that asks for it (a word of `words::OCCASIONS`).
    pub occasion: Option<String>,
    /// Its place on that list, from 1.
    pub order: u32,
    /// Whether the appendix lists it; if not, the rule's text asks for it and the appendix is silent.
    pub listed: bool,
    /// Whether it is looked at at the start of each day of use.
    pub at_start_of_day: bool,
    /// What to do, in our words.
    pub text: String,
    /// What the inspector answers, as a question; *complies* answers it well.
    pub question: String,
    /// When the text lets it be left out, beside a part that is not fitted.
    pub except: Option<String>,
    /// The limits its readings are held against, by rule.
    pub limits: Vec<String>,
    /// The fitting without which the item does not apply. An engine whose fittings are not stated keeps the item.
    pub fitting: Option<String>,
    /// What the answer must say beside "looked at" (words of `words::NEEDS`).
    pub needs: Vec<String>,
    /// The section that asks for the work (the citation of an appendix item is the appendix).
    pub section: String,
}

impl Item {
    /// Whether its answer must hold a figure that was read off something.
    pub fn needs_reading(&self) -> bool {
        self.needs
            .iter()
            .any(|need| words::READINGS.contains(&need.as_str()))
    }
}
