//! Gauges for a test: those on file, what the tester said of each, how far it hangs below the water, and what it must show
//! then. What is not on file is named; no gauge is taken to be true because nobody said otherwise.

use jiff::civil::Date;
use measure::{Dimension, House, Rounding, entered_with_unit, show};
use physics::Shown;
use rules::Rulebook;
use shop::book::{Book, CheckMade, Instrument, Locomotive, LocomotiveId, Part};

use super::{PSI, SHEET};
use crate::Failure;
use crate::verb::ruled::{Asked, ENGINE};
use crate::words::{self, hydro as say};

/// The family of the gauges that are parts of her.
const FAMILY: &str = "steam-gauge";
/// What such a part says of how far it hangs below the water.
const HEAD: &str = "head";
/// The height of water whose weight is printed for a pencil to scale.
const LADDER: &str = "10 ft";

/// A gauge that the test can be read on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gauge {
    /// What it is, with its number.
    pub what: String,
    /// When it was tried last and what came of it, or what is needed.
    pub tried: String,
    /// What it shows too much at the test pressure, as on file, or what is needed.
    pub error: Result<String, String>,
    /// How far it hangs below the top of the water, or what is needed.
    pub head: Result<String, String>,
    /// What it must show in the hydrostatic test, or what is needed to tell.
    pub shows: Result<String, String>,
}

/// What works the corrections of one engine.
pub(super) struct Correcting<'b> {
    pub(super) book: &'b Book,
    pub(super) rules: &'b Rulebook,
    pub(super) kept: &'b Locomotive,
    pub(super) on: Date,
}

impl Correcting<'_> {
    /// What a gauge that hangs so far below the water, and shows so much too much, must show.
    fn must_show(&self, head: &str, error: &str) -> Result<String, Failure> {
        let too_much = entered_with_unit(error, Dimension::Stress)
            .map_err(|why| Failure::Input(format!("{}: {why}", say::ERROR)))?;
        match self.result(head, "at_gauge")? {
            Some(Shown::Quantity { value, .. }) => {
                let psi = PSI.from_si(too_much.si);
                Ok(say::psig(&show::number(value + psi, 1, Rounding::Up)))
            }
            Some(Shown::Text(said)) => Err(Failure::Input(said)),
            _ => Err(Failure::Input(say::NO_MAWP.into())),
        }
    }

    fn result(&self, head: &str, name: &str) -> Result<Option<Shown>, Failure> {
        let mawp = self.kept.mawp_psig;
        let given = [
            ("mawp", mawp.map_or(String::new(), |psi| say::psig(&psi))),
            ("head", head.to_owned()),
            (ENGINE, self.kept.number.clone()),
        ];
        let given = given.map(|(name, says)| (name.to_owned(), says));
        let sheet = Asked::of(&given).worked(self.book, self.rules, SHEET, self.on, House::Inch)?;
        let found = sheet.results.into_iter().find(|it| it.name == name);
        Ok(found.map(|it| it.value))
    }

    /// What so much water adds, in words.
    pub(super) fn ladder(&self) -> Result<Option<String>, Failure> {
        if self.kept.mawp_psig.is_none() {
            return Ok(None);
        }
        Ok(match self.result(LADDER, "head_pressure")? {
            Some(Shown::Quantity { shown, unit, .. }) => {
                Some(say::ladder(LADDER, &words::sheet::value(&shown, unit)))
            }
            _ => None,
        })
    }

    /// Every gauge of pressure on file: those of her own that are parts, and the instruments whose range is a pressure.
    pub(super) fn gauges(&self, id: LocomotiveId, test: Option<f64>) -> Vec<Gauge> {
        let hers = self.book.parts.values().filter(|part| {
            part.locomotive == id && part.family == FAMILY && part.known.removed.is_none()
        });
        let mut hers: Vec<&Part> = hers.collect();
        hers.sort_by(|one, other| one.name.cmp(&other.name));
        let instruments = self.book.instruments.values();
        let mut instruments: Vec<&Instrument> =
            instruments.filter(|it| reads_pressure(it)).collect();
        instruments.sort_by(|one, other| one.number.cmp(&other.number));
        let instruments = instruments.into_iter().map(|it| self.instrument(it, test));
        instruments
            .chain(hers.into_iter().map(|part| self.part(part)))
            .collect()
    }

    /// A test gauge hangs where it is screwed in on the day, so its head is never on file.
    fn instrument(&self, it: &Instrument, test: Option<f64>) -> Gauge {
        let checks = it.checks.iter().filter(|check| check.on <= self.on);
        let newest = checks.max_by_key(|check| (check.on, check.entry));
        Gauge {
            what: say::instrument(&it.number, &it.what, it.range.as_deref()),
            tried: newest.map_or(say::NEVER_TRIED.into(), say::tried),
            error: error_of(newest, test),
            head: Err(say::NEEDS_HEAD.into()),
            shows: Err(say::NEEDS_HEAD.into()),
        }
        .corrected(self)
    }

    fn part(&self, part: &Part) -> Gauge {
        let head = part.facts.get(HEAD).map(|says| says.trim());
        let head = head.filter(|says| entered_with_unit(says, Dimension::Length).is_ok());
        Gauge {
            what: part.name.clone(),
            tried: say::NOT_TRIED_HERE.into(),
            error: Err(say::NEEDS_ERROR.into()),
            head: head
                .map(str::to_owned)
                .ok_or_else(|| say::NEEDS_HEAD.into()),
            shows: Err(say::NEEDS_ERROR.into()),
        }
        .corrected(self)
    }
}

impl Gauge {
    fn corrected(self, by: &Correcting<'_>) -> Gauge {
        let needs = [&self.error, &self.head];
        let needs: Vec<&str> = needs
            .into_iter()
            .filter_map(|it| it.as_ref().err())
            .map(String::as_str)
            .collect();
        let shows = match (&self.error, &self.head) {
            (Ok(error), Ok(head)) => by.must_show(head, error).map_err(|why| why.to_string()),
            _ => Err(say::cannot_correct(&needs)),
        };
        Gauge { shows, ..self }
    }
}

/// An instrument whose range ends in a pressure is a gauge of pressure: `0 to 300 psi`.
fn reads_pressure(it: &Instrument) -> bool {
    let range = it.range.as_deref().unwrap_or_default().trim();
    let words: Vec<&str> = range.split_whitespace().collect();
    let last = match words.as_slice() {
        [.., number, unit] if unit.starts_with(char::is_alphabetic) => format!("{number} {unit}"),
        [.., one] => (*one).to_owned(),
        [] => return false,
    };
    [Dimension::GaugePressure, Dimension::Stress]
        .into_iter()
        .any(|of| entered_with_unit(&last, of).is_ok())
}

/// What the newest check says it shows too much at the test pressure. A gauge found wrong says nothing; one found good
/// without a figure is still off by something nobody wrote down.
fn error_of(newest: Option<&CheckMade>, test: Option<f64>) -> Result<String, String> {
    let needs = || say::NEEDS_ERROR.to_owned();
    let check = newest.ok_or_else(needs)?;
    if !check.good {
        return Err(say::FOUND_WRONG.into());
    }
    let all = check.error.as_deref().ok_or_else(needs)?;
    let psi = |text: &str, of| {
        let read = entered_with_unit(text, of).ok()?;
        Some(PSI.from_si(read.si))
    };
    let mut errors = all.split([',', ';']).filter_map(|one| {
        let (error, at) = match one.split_once(" at ") {
            Some((error, at)) => (error.trim(), Some(at.trim())),
            None => (one.trim(), None),
        };
        // Which way it is off must be written: too much with a plus, too little with a minus.
        let signed =
            error.starts_with(['+', '-', '−']) || psi(error, Dimension::Stress) == Some(0.0);
        psi(error, Dimension::Stress).filter(|_| signed)?;
        let holds = match (at, test) {
            (None, _) => true,
            // To the pound, which is what a dial is read to.
            (Some(at), Some(test)) => {
                let at = psi(at, Dimension::GaugePressure).or_else(|| psi(at, Dimension::Stress));
                at.is_some_and(|at| (at - test).abs() <= 1.0)
            }
            (Some(_), None) => false,
        };
        holds.then(|| error.to_owned())
    });
    errors.next().ok_or_else(|| say::needs_error_here(all))
}

/// What a gauge must show, typed: how far it hangs below the water, and what it shows too much.
///
/// # Errors
/// Input: a head or an error that does not read, or her allowed pressure is not stated.
pub fn must_show(
    book: &Book,
    rules: &Rulebook,
    kept: &Locomotive,
    on: Date,
    head: &str,
    error: &str,
) -> Result<String, Failure> {
    let correcting = Correcting {
        book,
        rules,
        kept,
        on,
    };
    correcting
        .must_show(head, error)
        .map(|shows| say::must_show(&shows, head, error))
}
