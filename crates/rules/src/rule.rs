//! A rule with its versions, and a ruling: one version as it bound one day.

use jiff::civil::Date;
use serde::Deserialize;

use crate::{Body, Kind, Origin, RulebookError};

/// Where a version was read.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cite {
    /// A key of `sources.toml`.
    pub source: String,
    /// The section, as `230.96(f)` or `App. A`.
    pub section: String,
    /// The edition or editions read.
    pub edition: String,
}

/// When somebody last held the file against its source, or against notes taken from it (`by` says which).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// The day.
    pub on: Date,
    /// By whom.
    pub by: String,
}

/// One version of a rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// Counted from 1, oldest first.
    pub number: u32,
    /// The first day it bound.
    pub in_force: Date,
    /// The last day it bound; none while it still does.
    pub until: Option<Date>,
    /// How we know those days.
    pub dates_mark: String,
    /// Where it was read.
    pub cite: Cite,
    /// How well we know it (see `words::MARKS`).
    pub mark: String,
    /// Our understanding of it, in our own words.
    pub reading: String,
    /// When it was last held against its source.
    pub checked: Checked,
    /// What it says.
    pub body: Body,
}

/// A rule of law.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rule {
    /// Its id, which is also its file's name.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The rulebook or the set it belongs to, `us-steam`.
    pub jurisdiction: String,
    /// Where it comes from: this program's rulebook, or a file a shop wrote.
    pub origin: Origin,
    /// Its kind, the same in every version.
    pub kind: Kind,
    /// Its versions, oldest first, without gap or overlap.
    pub versions: Vec<Version>,
}

/// One version of a rule as it bound one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ruling {
    /// The rule's id.
    pub rule: String,
    /// The version's number.
    pub version: u32,
    /// The rule's title.
    pub title: String,
    /// The rulebook or the set it belongs to.
    pub set: String,
    /// Where that comes from.
    pub origin: Origin,
    /// What it says.
    pub body: Body,
    /// Where it was read.
    pub cite: Cite,
    /// How well we know it.
    pub mark: String,
    /// Our understanding of it.
    pub reading: String,
}

impl Rule {
    /// The version that bound a day.
    ///
    /// # Errors
    /// When the day lies before the first version on file, or after the last one ended.
    pub fn on(&self, on: Date) -> Result<&Version, RulebookError> {
        let held = self
            .versions
            .iter()
            .find(|v| v.in_force <= on && v.until.is_none_or(|end| on <= end));
        if let Some(version) = held {
            return Ok(version);
        }
        let id = self.id.clone();
        match (
            self.versions.first(),
            self.versions.last().and_then(|v| v.until),
        ) {
            (Some(first), _) if on < first.in_force => Err(RulebookError::BeforeCoverage {
                id,
                on,
                first: first.in_force,
            }),
            (_, Some(last)) => Err(RulebookError::Ended { id, on, last }),
            _ => Err(RulebookError::file(
                &format!("{id}.toml"),
                "holds no version",
            )),
        }
    }

    /// The ruling for a day: the day the work was done, never the day it was entered.
    ///
    /// # Errors
    /// As [`Rule::on`].
    pub fn ruling(&self, on: Date) -> Result<Ruling, RulebookError> {
        let version = self.on(on)?;
        Ok(Ruling {
            rule: self.id.clone(),
            version: version.number,
            title: self.title.clone(),
            set: self.jurisdiction.clone(),
            origin: self.origin,
            body: version.body.clone(),
            cite: version.cite.clone(),
            mark: version.mark.clone(),
            reading: version.reading.clone(),
        })
    }
}

impl std::fmt::Display for Cite {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} ({})", self.section, self.edition)
    }
}
