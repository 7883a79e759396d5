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

/// The number that 32 lower-case hexadecimal digits write. A book is read by the ten thousand of these.
fn number(text: &str) -> Option<u128> {
    let digit = |byte: u8| match byte {
        b'0'..=b'9' => Some(u64::from(byte - b'0')),
        b'a'..=b'f' => Some(u64::from(byte - b'a') + 10),
        _ => None,
    };
    let half = |digits: &[u8]| {
        let mut digits = digits.iter();
        digits.try_fold(0u64, |number, byte| Some(number << 4 | digit(*byte)?))
    };
    let (high, low) = text.as_bytes().split_at_checked(16)?;
    if low.len() != 16 {
        return None;
    }
    Some(u128::from(half(high)?) << 64 | u128::from(half(low)?))
}

/// The 32 lower-case hexadecimal digits of a number, leading zeros and all.
fn digits(number: u128) -> [u8; 32] {
    let mut digits = [0; 32];
    for (at, byte) in number.to_be_bytes().into_iter().enumerate() {
        for (half, four) in [byte >> 4, byte & 15].into_iter().enumerate() {
            if let Some(digit) = digits.get_mut(2 * at + half) {
                *digit = four + if four < 10 { b'0' } else { b'a' - 10 };
            }
        }
    }
    digits
}

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u128);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(std::str::from_utf8(&digits(self.0)).map_err(|_| std::fmt::Error)?)
            }
        }

        impl std::str::FromStr for $name {
            type Err = IdError;
            fn from_str(text: &str) -> Result<Self, IdError> {
                number(text).map($name).ok_or_else(|| IdError(text.to_string()))
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
    /// A move of an engine that does not comply.
    MoveId,
    /// A crew's report of one day.
    ReportId,
    /// A job.
    JobId,
    /// A piece of tooling.
    ToolingId,
    /// An instrument.
    InstrumentId,
    /// A spare.
    SpareId,
    /// A lathe.
    LatheId,
    /// A lathe card.
    CardId,
    /// A letter.
    LetterId,
    /// A photograph or a scan.
    PhotoId,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_is_32_lower_case_hexadecimal_digits_and_nothing_else() {
        for number in [0, 1, u128::MAX, 0x0123_4567_89ab_cdef_fedc_ba98_7654_3210] {
            let text = PartId(number).to_string();
            assert_eq!(text, format!("{number:032x}"));
            assert_eq!(text.parse(), Ok(PartId(number)));
        }
        let right = "0123456789abcdef0123456789abcdef";
        for wrong in [
            "",
            &right[1..],
            &format!("{right}0"),
            &right.to_uppercase(),
            &right.replace('0', " "),
            &right.replace('0', "+"),
            &right.replace('0', "g"),
            &right.replace("01", "é"),
        ] {
            assert_eq!(wrong.parse::<PartId>(), Err(IdError(wrong.to_string())));
        }
    }
}
