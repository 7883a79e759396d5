//! Names for things that never change: 128-bit numbers, one type a kind, made by the device.
//!
//! An id is never shown to a person where a number or a name will do. Numbers for people (J-031)
//! are given when the book commits; ids are there so that a device without signal can speak of a
//! thing before the book has heard of it.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// An id that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not an id: 32 hexadecimal digits were expected")]
pub struct IdError(pub String);

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u128);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                write!(f, "{:032x}", self.0)
            }
        }

        impl std::str::FromStr for $name {
            type Err = IdError;
            fn from_str(text: &str) -> Result<Self, IdError> {
                let plain = text.len() == 32 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
                match u128::from_str_radix(text, 16) {
                    Ok(n) if plain => Ok($name(n)),
                    _ => Err(IdError(text.to_string())),
                }
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                let text = std::borrow::Cow::<'de, str>::deserialize(d)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    )*};
}

ids! {
    /// One entry of the book.
    EntryId,
    /// Entries made together: an import, an offline day.
    BatchId,
    /// A person.
    PersonId,
    /// A locomotive.
    LocomotiveId,
    /// A part of a locomotive.
    PartId,
    /// One fire, from lighting it to its last heat.
    FireId,
    /// A promised run.
    RunId,
    /// An opened inspection.
    InspectionId,
    /// A finding.
    FindingId,
    /// A job.
    JobId,
    /// A piece of tooling.
    ToolingId,
}
