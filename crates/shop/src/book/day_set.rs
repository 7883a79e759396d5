//! A set of calendar days as one bit a day: thirty years of a log count in a handful of words.

use jiff::civil::{Date, date};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

/// Day 0 of the numbering; any fixed day would do.
const DAY_ZERO: Date = date(1970, 1, 1);

/// Bits in a word.
const WORD: i32 = 64;

/// A set of calendar days.
///
/// Kept as text `DAY:BITS`: the first day of the first word, then sixteen hexadecimal digits a word, the lowest
/// bit of a word being its first day. An empty set is an empty text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct DaySet {
    /// Which word, counted from day 0, the first of `words` is.
    first: i32,
    /// The bits; neither the first word nor the last is empty, so that equal sets are equal values.
    words: Vec<u64>,
}

/// The number of a day, counted from day 0.
fn number(day: Date) -> i32 {
    DAY_ZERO.until(day).map_or(0, |span| span.get_days())
}

/// The day of a number; nothing outside the calendar.
fn day(number: i32) -> Option<Date> {
    rules::days_after(DAY_ZERO, number.into())
}

impl DaySet {
    /// The days from one through another; none if the last lies before the first.
    pub fn span(from: Date, through: Date) -> DaySet {
        let mut set = DaySet::default();
        set.add_span(from, through);
        set
    }

    /// Adds a day.
    pub fn insert(&mut self, day: Date) {
        let number = number(day);
        let word = self.word(number.div_euclid(WORD));
        *word |= 1 << number.rem_euclid(WORD);
    }

    /// Adds the days from one through another; none if the last lies before the first.
    pub fn add_span(&mut self, from: Date, through: Date) {
        if through < from {
            return;
        }
        let (from, through) = (number(from), number(through));
        // Both ends are asked for first, so that the words between are made at once.
        self.word(from.div_euclid(WORD));
        self.word(through.div_euclid(WORD));
        for at in from.div_euclid(WORD)..=through.div_euclid(WORD) {
            let mask = mask(from - at * WORD, through - at * WORD);
            *self.word(at) |= mask;
        }
    }

    /// Adds every day of another set.
    pub fn add(&mut self, other: &DaySet) {
        for (at, bits) in (other.first..).zip(&other.words) {
            if *bits != 0 {
                *self.word(at) |= bits;
            }
        }
    }

    /// The days of this set from one through another.
    pub fn within(&self, from: Date, through: Date) -> DaySet {
        let mut set = DaySet::default();
        if through < from {
            return set;
        }
        let (from, through) = (number(from), number(through));
        let (low, high) = (from.div_euclid(WORD), through.div_euclid(WORD));
        let last = self.first + i32::try_from(self.words.len()).unwrap_or(i32::MAX) - 1;
        set.first = low.max(self.first);
        for at in set.first..=high.min(last) {
            let mask = mask(from - at * WORD, through - at * WORD);
            set.words.push(self.bits(at) & mask);
        }
        set.trim();
        set
    }

    /// The days of this set that are not in another.
    pub fn without(&self, other: &DaySet) -> DaySet {
        let mut set = DaySet {
            first: self.first,
            words: (self.first..)
                .zip(&self.words)
                .map(|(at, bits)| bits & !other.bits(at))
                .collect(),
        };
        set.trim();
        set
    }

    /// Whether a day is in the set.
    pub fn contains(&self, day: Date) -> bool {
        let number = number(day);
        self.bits(number.div_euclid(WORD)) >> number.rem_euclid(WORD) & 1 == 1
    }

    /// How many days.
    pub fn len(&self) -> usize {
        self.words
            .iter()
            .map(|bits| bits.count_ones() as usize)
            .sum()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// The days, oldest first.
    pub fn iter(&self) -> impl Iterator<Item = Date> + '_ {
        (self.first..).zip(&self.words).flat_map(|(at, bits)| {
            (0..WORD)
                .filter(move |bit| bits >> bit & 1 == 1)
                .filter_map(move |bit| day(at * WORD + bit))
        })
    }

    /// The newest day.
    pub fn last(&self) -> Option<Date> {
        let bits = self.words.last()?;
        let at = self.first + i32::try_from(self.words.len()).ok()? - 1;
        day(at * WORD + WORD - 1 - i32::try_from(bits.leading_zeros()).ok()?)
    }

    fn bits(&self, at: i32) -> u64 {
        usize::try_from(at - self.first)
            .ok()
            .and_then(|at| self.words.get(at).copied())
            .unwrap_or(0)
    }

    /// The word of that number, made if it is not there.
    fn word(&mut self, at: i32) -> &mut u64 {
        if self.words.is_empty() {
            self.first = at;
        }
        if at < self.first {
            let before = usize::try_from(self.first - at).unwrap_or(0);
            self.words.splice(0..0, std::iter::repeat_n(0, before));
            self.first = at;
        }
        let place = usize::try_from(at - self.first).unwrap_or(0);
        if place >= self.words.len() {
            self.words.resize(place + 1, 0);
        }
        &mut self.words[place]
    }

    /// Drops empty words at both ends.
    fn trim(&mut self) {
        while self.words.last() == Some(&0) {
            self.words.pop();
        }
        let empty = self.words.iter().take_while(|bits| **bits == 0).count();
        self.words.drain(..empty);
        self.first = if self.words.is_empty() {
            0
        } else {
            self.first + i32::try_from(empty).unwrap_or(0)
        };
    }
}

/// The word of sixteen hexadecimal digits. Written out, because every log of a book is read so at each request, and
/// the general reader takes three times as long.
fn word_of(digits: &[u8]) -> Option<u64> {
    let mut word = 0u64;
    let mut wrong = 0u8;
    for digit in digits {
        let value = HEX[usize::from(*digit)];
        wrong |= value;
        word = word << 4 | u64::from(value & 0xF);
    }
    (wrong < 0x10).then_some(word)
}

/// The value of each digit; what is none has a bit above those four.
const HEX: [u8; 256] = {
    let mut table = [0x10; 256];
    let mut digit = 0;
    while digit < 10 {
        table[b'0' as usize + digit] = digit as u8;
        digit += 1;
    }
    let mut letter = 0;
    while letter < 6 {
        table[b'a' as usize + letter] = 10 + letter as u8;
        table[b'A' as usize + letter] = 10 + letter as u8;
        letter += 1;
    }
    table
};

/// Bits `from` through `through` of a word, where either may lie outside it.
fn mask(from: i32, through: i32) -> u64 {
    let (from, through) = (from.max(0), through.min(WORD - 1));
    if from > through {
        return 0;
    }
    let through = u64::MAX >> (WORD - 1 - through);
    through & (u64::MAX << from)
}

impl FromIterator<Date> for DaySet {
    fn from_iter<I: IntoIterator<Item = Date>>(days: I) -> DaySet {
        let mut set = DaySet::default();
        for day in days {
            set.insert(day);
        }
        set
    }
}

impl Serialize for DaySet {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        use std::fmt::Write;
        let mut text = String::with_capacity(11 + 16 * self.words.len());
        if let Some(first) = (!self.words.is_empty())
            .then(|| day(self.first * WORD))
            .flatten()
        {
            let _ = write!(text, "{first}:");
            for bits in &self.words {
                let _ = write!(text, "{bits:016x}");
            }
        }
        to.serialize_str(&text)
    }
}

impl<'de> Deserialize<'de> for DaySet {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<DaySet, D::Error> {
        let text = <std::borrow::Cow<'de, str>>::deserialize(from)?;
        if text.is_empty() {
            return Ok(DaySet::default());
        }
        let unread = || D::Error::custom("a set of days does not read");
        let (first, bits) = text.split_once(':').ok_or_else(unread)?;
        let first = number(first.parse().map_err(|_| unread())?);
        if first.rem_euclid(WORD) != 0 || bits.len() % 16 != 0 {
            return Err(unread());
        }
        let words = bits
            .as_bytes()
            .chunks(16)
            .map(word_of)
            .collect::<Option<Vec<u64>>>()
            .ok_or_else(unread)?;
        Ok(DaySet {
            first: first.div_euclid(WORD),
            words,
        })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use proptest::prelude::*;

    use super::*;

    fn any_day() -> impl Strategy<Value = Date> {
        (-3000i32..30000).prop_map(|n| day(n).unwrap())
    }

    proptest! {
        // The registry of days is the plain set of the standard library.
        #[test]
        fn it_is_the_set_of_its_days(
            days in proptest::collection::vec(any_day(), 0..60),
            spans in proptest::collection::vec((any_day(), 0i32..200), 0..4),
            from in any_day(),
            length in 0i32..5000,
        ) {
            let mut set: DaySet = days.iter().copied().collect();
            let mut plain: BTreeSet<Date> = days.iter().copied().collect();
            for (first, length) in spans {
                let last = day(number(first) + length).unwrap();
                set.add_span(first, last);
                let days = std::iter::successors(Some(first), |day| day.tomorrow().ok());
                plain.extend(days.take_while(|day| *day <= last));
            }
            prop_assert_eq!(set.len(), plain.len());
            prop_assert_eq!(set.is_empty(), plain.is_empty());
            prop_assert_eq!(set.last(), plain.last().copied());
            prop_assert!(set.iter().eq(plain.iter().copied()));
            let through = day(number(from) + length).unwrap();
            let within: Vec<Date> = plain.range(from..=through).copied().collect();
            let part = set.within(from, through);
            prop_assert!(part.iter().eq(within.iter().copied()));
            prop_assert_eq!(&part, &within.into_iter().collect::<DaySet>());
            for day in &days {
                prop_assert!(set.contains(*day));
            }
            prop_assert_eq!(set.contains(from), plain.contains(&from));
            let rest = set.without(&part);
            prop_assert_eq!(rest.len() + part.len(), set.len());
            let mut both = rest;
            both.add(&part);
            prop_assert_eq!(&both, &set);
            let text = serde_json::to_string(&set).unwrap();
            prop_assert_eq!(serde_json::from_str::<DaySet>(&text).unwrap(), set);
        }
    }

    #[test]
    fn a_text_that_is_no_set_of_days_is_refused() {
        for text in [
            "\"2026-01-01\"",
            "\"x:0000000000000001\"",
            "\"1970-01-01:01\"",
            "\"1970-01-02:0000000000000001\"",
            "\"1970-01-01:000000000000000g\"",
        ] {
            assert!(serde_json::from_str::<DaySet>(text).is_err(), "{text}");
        }
        let one: DaySet = [date(1970, 1, 2)].into_iter().collect();
        assert_eq!(
            serde_json::to_string(&one).unwrap(),
            "\"1970-01-01:0000000000000002\""
        );
    }
}
