//! What was typed for a drawing, read: sizes with how closely they are kept, limits of a thread, words.

use drawing::{Kept, Limits, Tolerance};
use measure::{Angle, Dimension, House, Length};

use super::TITLE;
use super::kinds::{Kind, Takes};
use crate::Failure;
use crate::words::{drawing as words, print as say};

/// A value that was read.
enum Read {
    /// A length and how closely it is kept.
    Kept(Kept),
    /// An angle, and how far it may be off.
    Angle(Angle, Option<Angle>),
    /// Limits of a thread's diameter.
    Limits(Limits),
    /// Words.
    Text(String),
}

/// All that was read; every required one is there.
pub struct Given {
    all: Vec<(&'static str, Read)>,
    /// Sizes that have no limits of their own, by what they are.
    open: Vec<&'static str>,
}

impl Given {
    fn find(&self, name: &str) -> Option<&Read> {
        let found = self.all.iter().find(|(known, _)| *known == name);
        found.map(|(_, read)| read)
    }

    /// A size as it is to be kept. One that is missing was refused before; it would be drawn as nothing, which is
    /// refused too.
    pub fn kept(&self, name: &str) -> Kept {
        match self.find(name) {
            Some(Read::Kept(kept)) => *kept,
            _ => Kept::from(Length::m(0.0)),
        }
    }

    /// The same of one that may be left out.
    pub fn maybe_kept(&self, name: &str) -> Option<Kept> {
        self.find(name).map(|_| self.kept(name))
    }

    /// A size alone.
    pub fn length(&self, name: &str) -> Length {
        self.kept(name).size
    }

    /// The same of one that may be left out.
    pub fn maybe(&self, name: &str) -> Option<Length> {
        self.maybe_kept(name).map(|kept| kept.size)
    }

    /// An angle.
    pub fn angle(&self, name: &str) -> Angle {
        match self.find(name) {
            Some(Read::Angle(angle, _)) => *angle,
            _ => Angle::radians(0.0),
        }
    }

    /// How far it may be off.
    pub fn angle_within(&self, name: &str) -> Option<Angle> {
        match self.find(name) {
            Some(Read::Angle(_, within)) => *within,
            _ => None,
        }
    }

    /// Limits of a thread's diameter; open where nobody stated them.
    pub fn limits(&self, name: &str) -> Limits {
        match self.find(name) {
            Some(Read::Limits(limits)) => *limits,
            _ => Limits::default(),
        }
    }

    /// Words.
    pub fn text(&self, name: &str) -> Option<&str> {
        match self.find(name) {
            Some(Read::Text(text)) => Some(text),
            _ => None,
        }
    }

    /// Sizes that have no limits of their own.
    pub fn without_limits(&self) -> Vec<&'static str> {
        self.open.clone()
    }
}

/// A word of a title block; none where it was left empty.
pub fn text(typed: &[(String, String)], name: &str) -> Option<String> {
    let found = typed.iter().find(|(known, _)| known == name);
    found.map(|(_, text)| text.clone())
}

/// Reads all of it; refuses names that the drawing does not take, and a required one that is missing.
pub fn read(kind: &Kind, typed: &[(String, String)], house: House) -> Result<Given, Failure> {
    let mut given = Given {
        all: Vec::new(),
        open: Vec::new(),
    };
    for (at, (name, value)) in typed.iter().enumerate() {
        if typed.iter().take(at).any(|(before, _)| before == name) {
            return Err(Failure::Input(say::twice(name)));
        }
        if TITLE.iter().any(|(known, _)| known == name) {
            continue;
        }
        let Some(size) = kind.sizes.iter().find(|size| size.name == name) else {
            let sizes = kind.sizes.iter().map(|size| size.name);
            let known: Vec<_> = sizes.chain(TITLE.map(|(known, _)| known)).collect();
            let why = say::no_such_argument(kind.word, name, &known.join(", "));
            return Err(Failure::Input(why));
        };
        let read = one(size.takes, value, house)
            .map_err(|why| Failure::Input(format!("{name}: {why}")))?;
        let is_open = match &read {
            Read::Kept(kept) => kept.within.is_none() && size.takes == Takes::Kept,
            Read::Angle(_, within) => within.is_none() && size.takes == Takes::Angle,
            Read::Limits(_) | Read::Text(_) => false,
        };
        if is_open {
            given.open.push(size.meaning);
        }
        given.all.push((size.name, read));
    }
    for size in kind.sizes {
        if size.required && given.find(size.name).is_none() {
            return Err(Failure::Input(say::needs(
                kind.word,
                size.name,
                size.meaning,
            )));
        }
    }
    Ok(given)
}

fn one(takes: Takes, value: &str, house: House) -> Result<Read, String> {
    let length = |text: &str| {
        let read = measure::entered(text.trim(), Dimension::Length, house);
        read.map(|read| Length::m(read.si))
            .map_err(|why| why.to_string())
    };
    let angle = |text: &str| {
        let read = measure::entered(text.trim(), Dimension::Angle, house);
        read.map(|read| Angle::radians(read.si))
            .map_err(|why| why.to_string())
    };
    Ok(match takes {
        Takes::Text => Read::Text(value.trim().to_owned()),
        Takes::Plain => Read::Kept(length(value)?.into()),
        Takes::PlainAngle => Read::Angle(angle(value)?, None),
        Takes::Angle => match either(value) {
            Some((size, within)) => Read::Angle(angle(size)?, Some(angle(within)?)),
            None => Read::Angle(angle(value)?, None),
        },
        Takes::Kept => Read::Kept(kept(value, length)?),
        Takes::Limits => Read::Limits(limits(value, length)?),
    })
}

/// `2.500 ±.001`, also with `+-` or `+/-`.
fn either(text: &str) -> Option<(&str, &str)> {
    let signs = ["±", "+/-", "+-"];
    signs.into_iter().find_map(|sign| text.split_once(sign))
}

/// A size, or one with its tolerance: `2.500`, `2.500 ±.001`, `2.500 +.001 -.000`, `2.499 to 2.500`.
fn kept(text: &str, length: impl Fn(&str) -> Result<Length, String>) -> Result<Kept, String> {
    if let Some((least, most)) = text.split_once(" to ") {
        let (least, most) = (length(least)?, length(most)?);
        let middle = Length::m((least.to_m() + most.to_m()) / 2.0);
        return Ok(Kept::within(middle, Tolerance::Limits(least, most)));
    }
    if let Some((size, by)) = either(text) {
        return Ok(Kept::within(length(size)?, Tolerance::Either(length(by)?)));
    }
    // A fraction such as 1-1/4 has its own dash; a tolerance's sign stands after a blank.
    if let Some((size, rest)) = text.split_once(" +") {
        let (over, under) = rest
            .split_once(" -")
            .ok_or_else(|| words::no_tolerance(text))?;
        let within = Tolerance::OverUnder(length(over)?, length(under)?);
        return Ok(Kept::within(length(size)?, within));
    }
    Ok(length(text)?.into())
}

/// `.6995 to .7035`, `.6995 or over`, `.7035 or under`.
fn limits(text: &str, length: impl Fn(&str) -> Result<Length, String>) -> Result<Limits, String> {
    if let Some((least, most)) = text.split_once(" to ") {
        return Ok(Limits {
            least: Some(length(least)?),
            most: Some(length(most)?),
        });
    }
    if let Some(least) = text.trim().strip_suffix("or over") {
        return Ok(Limits {
            least: Some(length(least)?),
            most: None,
        });
    }
    if let Some(most) = text.trim().strip_suffix("or under") {
        return Ok(Limits {
            least: None,
            most: Some(length(most)?),
        });
    }
    Err(words::no_limits(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_kept(text: &str) -> Result<Kept, String> {
        match one(Takes::Kept, text, House::Inch)? {
            Read::Kept(kept) => Ok(kept),
            _ => Err("no size".to_owned()),
        }
    }

    #[test]
    fn a_size_is_read_with_its_tolerance() {
        let near = |a: Length, b: f64| assert!((a.to_inches() - b).abs() < 1e-9, "{a:?} {b}");
        let plain = read_kept("1-1/4 in").unwrap();
        near(plain.size, 1.25);
        assert_eq!(plain.within, None);
        for text in ["2.5in ±.001", "2.5 in +-.001", "2.5 +/- .001 in"] {
            let Kept { size, within } = read_kept(text).unwrap();
            near(size, 2.5);
            let Some(Tolerance::Either(by)) = within else {
                panic!("{text}");
            };
            near(by, 0.001);
        }
        let Some(Tolerance::OverUnder(over, under)) = read_kept("2.5 +.002 -0").unwrap().within
        else {
            panic!("over and under");
        };
        near(over, 0.002);
        near(under, 0.0);
        let limits = read_kept("2.499 to 2.501").unwrap();
        near(limits.size, 2.5);
        assert!(matches!(limits.within, Some(Tolerance::Limits(..))));
        assert!(read_kept("2.5 +.002").is_err());
        assert!(read_kept("wide").is_err());
    }

    #[test]
    fn limits_of_a_thread_may_be_open_and_must_be_said() {
        let read = |text: &str| match one(Takes::Limits, text, House::Inch) {
            Ok(Read::Limits(limits)) => Ok((limits.least.is_some(), limits.most.is_some())),
            Ok(_) => Err("no limits".to_owned()),
            Err(why) => Err(why),
        };
        assert_eq!(read(".6995 to .7035"), Ok((true, true)));
        assert_eq!(read("0.756 in or over"), Ok((true, false)));
        assert_eq!(read(".75 or under"), Ok((false, true)));
        assert!(read(".75").is_err(), "one figure is no limit");
    }
}
