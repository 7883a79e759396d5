//! Making the things the shop keeps: the book itself, people, engines, parts.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Size, State};
use rules::Rulebook;

use super::describe::{check_facts, check_known, check_sizes};
use super::find::part_of;
use super::question::{Taking, admit};
use super::reading::check_readings;
use crate::Refusal;
use crate::book::{
    Authority, Book, BookOpened, Family, FamilyAdopted, FeatureFacts, FeatureReading, HeldBefore,
    JobId, LocomotiveAdded, LocomotiveId, PartAdded, PartId, PartKnown, PersonAdded, PersonId,
    ReadingsTaken, Statement,
};

/// A book to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewBook {
    /// The shop's name.
    pub shop: String,
    /// Its time zone, by its IANA name.
    pub time_zone: String,
    /// `inch` or `metric`.
    pub house: String,
    /// The officer's name.
    pub officer: String,
    /// A demonstration book holds its today at this day.
    pub demonstration: Option<Date>,
}

/// The first entries of a book: the shop, its officer, and the part families this build brings.
///
/// # Errors
/// Input: an empty name, an unknown time zone or house unit.
pub fn new_book(new: &NewBook, officer: PersonId) -> Result<Vec<Statement>, Refusal> {
    let NewBook {
        shop,
        time_zone,
        house,
        officer: name,
        demonstration,
    } = new;
    if shop.trim().is_empty() || name.trim().is_empty() {
        return Err(Refusal::input(
            "A book needs the shop's name and its officer's.",
        ));
    }
    if jiff::tz::TimeZone::get(time_zone).is_err() {
        return Err(Refusal::input(format!(
            "`{time_zone}` is not a time zone: a name such as America/Denver was expected."
        )));
    }
    house
        .parse::<measure::House>()
        .map_err(|e| Refusal::input(e.to_string()))?;
    let mut made = vec![
        Statement::BookOpened(BookOpened {
            shop: shop.trim().into(),
            time_zone: time_zone.clone(),
            house: house.clone(),
            demonstration: *demonstration,
        }),
        Statement::PersonAdded(PersonAdded {
            id: officer,
            name: name.trim().into(),
            may: Authority::ALL.to_vec(),
            trade: None,
        }),
    ];
    for text in Family::BUILT_IN {
        let family = Family::read(text).map_err(|e| Refusal::input(e.to_string()))?;
        made.push(Statement::FamilyAdopted(FamilyAdopted {
            family: family.family,
            version: family.version,
            text: (*text).to_string(),
        }));
    }
    Ok(made)
}

/// An engine to be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewEngine {
    /// Her id.
    pub id: LocomotiveId,
    /// The number on her cab.
    pub number: String,
    /// Wheel arrangement.
    pub wheels: String,
    /// Track gauge.
    pub gauge: Size,
    /// Which rulebook governs her.
    pub jurisdiction: String,
    /// Maximum allowable working pressure, psi gauge.
    pub mawp_psig: Option<u32>,
    /// Weight on drivers per driving axle, lb.
    pub axle_load_lb: Option<u32>,
    /// Fittings known to be there, or not.
    pub fittings: BTreeMap<String, bool>,
}

/// Adds an engine.
///
/// # Errors
/// Input: an empty or known number, a rulebook that is not on file, a fitting no rule speaks of.
pub fn add_engine(
    book: &Book,
    rules: &Rulebook,
    new: NewEngine,
) -> Result<Vec<Statement>, Refusal> {
    let number = new
        .number
        .trim()
        .trim_start_matches("No.")
        .trim()
        .to_string();
    if number.is_empty() || new.wheels.trim().is_empty() {
        return Err(Refusal::input(
            "An engine needs the number on her cab and her wheel arrangement.",
        ));
    }
    if book.locomotives.values().any(|e| e.number == number) {
        return Err(Refusal::input(format!(
            "No. {number} is in this book already."
        )));
    }
    super::rule_sets::known_set(book, rules, &new.jurisdiction)?;
    speaks_for_her(book, rules, &new.jurisdiction)?;
    if let Some(word) = new
        .fittings
        .keys()
        .find(|w| rules::words::meaning(rules::words::FITTINGS, w).is_none())
    {
        let known: Vec<_> = rules::words::FITTINGS.iter().map(|(w, _)| *w).collect();
        return Err(Refusal::input(format!(
            "No rule speaks of the fitting `{word}`: {} were expected.",
            known.join(", ")
        )));
    }
    if new.gauge <= Size::ZERO {
        return Err(Refusal::input("The track gauge must be more than nothing."));
    }
    super::rule_sets::reaches(book, rules, &new.jurisdiction, new.gauge)?;
    Ok(vec![Statement::LocomotiveAdded(LocomotiveAdded {
        id: new.id,
        number,
        wheels: new.wheels.trim().into(),
        gauge: new.gauge,
        jurisdiction: new.jurisdiction,
        mawp_psig: new.mawp_psig,
        axle_load_lb: new.axle_load_lb,
        fittings: new.fittings,
    })])
}

/// A set that the shop wrote may stand alone for an engine only if it is a jurisdiction's and holds clocks.
fn speaks_for_her(book: &Book, rules: &Rulebook, set: &str) -> Result<(), Refusal> {
    let Some((_, newest)) = book.rule_sets.get(set).and_then(|kept| kept.newest()) else {
        return Ok(());
    };
    let read = newest
        .rules(rules)
        .map_err(|why| Refusal::input(format!("The rule set `{set}` does not read: {why}")))?;
    let clock = |rule: &rules::Rule| {
        use rules::Kind::{Calendar, Count, WhicheverFirst};
        matches!(rule.kind, Calendar | Count | WhicheverFirst)
    };
    if read.origin.binds_as_law() && read.rules.rules().any(clock) {
        return Ok(());
    }
    Err(Refusal::input(format!(
        "`{set}` cannot stand alone for an engine: a jurisdiction with its clocks was expected. Add her under one, then say that `{set}` binds her too."
    )))
}

/// States an inspection held before the book began.
///
/// # Errors
/// Input: an unknown kind, a day not past, no document named, a count that ends before it begins.
pub fn held_before(
    book: &Book,
    rules: &Rulebook,
    held: HeldBefore,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = book.locomotives.get(&held.locomotive);
    let of_a_set = kept.is_some_and(|kept| {
        let law = super::Law::of(book, rules, kept);
        let kinds = law.inspections(on).unwrap_or_default();
        kinds.iter().any(|(word, _)| *word == held.kind)
    });
    if rules::words::rank(&held.kind).is_none() && !of_a_set {
        return Err(Refusal::input(format!(
            "`{}` is not a kind of inspection.",
            held.kind
        )));
    }
    if held.held_on > on {
        return Err(Refusal::input(format!(
            "{} has not happened yet.",
            held.held_on
        )));
    }
    if held.document.trim().is_empty() {
        return Err(Refusal::input("Say which document shows that it was held."));
    }
    if held
        .service_days_since
        .is_some_and(|(_, through)| through < held.held_on || through > on)
    {
        return Err(Refusal::input(
            "The service days since must be counted through a day between the inspection and today.",
        ));
    }
    if let Some((days, through)) = held.service_days_since {
        let there_are = held
            .held_on
            .until(through)
            .map(|s| s.get_days())
            .unwrap_or(0)
            + 1;
        if i64::from(days) > i64::from(there_are) {
            return Err(Refusal::input(format!(
                "There are only {there_are} days from {} through {through}; {days} cannot have been service days.",
                held.held_on
            )));
        }
    }
    Ok(vec![Statement::HeldBefore(held)])
}

/// A part to be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewPart {
    /// Its id.
    pub id: PartId,
    /// On which engine.
    pub locomotive: LocomotiveId,
    /// Its family.
    pub family: String,
    /// What the shop calls it.
    pub name: String,
    /// Facts of the whole part.
    pub facts: BTreeMap<String, String>,
    /// What is known of each feature.
    pub features: BTreeMap<String, FeatureFacts>,
    /// Where it is, what it is of, when it came.
    pub known: PartKnown,
}

/// Adds a part.
///
/// # Errors
/// Input: a family, fact or feature that is not known, a fact outside its choices, a size that does
/// not read, or a name the engine has already.
pub fn add_part(book: &Book, new: NewPart) -> Result<Vec<Statement>, Refusal> {
    let family = family(book, &new.family)?;
    let name = new.name.trim();
    if name.is_empty() {
        return Err(Refusal::input("A part needs a name the shop calls it by."));
    }
    if book
        .parts
        .values()
        .any(|p| p.locomotive == new.locomotive && p.name.eq_ignore_ascii_case(name))
    {
        return Err(Refusal::input(format!(
            "This engine has a part called `{name}` already."
        )));
    }
    check_facts(family, &new.facts)?;
    for (word, facts) in &new.features {
        let sizes = [&facts.as_built, &facts.shop_limit, &facts.step];
        check_sizes(family, word, sizes.into_iter().flatten())?;
    }
    // Days it came and went are told of it afterwards, and held against the day then.
    check_known(book, (new.id, new.locomotive), &new.known, Date::MAX)?;
    Ok(vec![Statement::PartAdded(PartAdded {
        id: new.id,
        locomotive: new.locomotive,
        family: new.family,
        name: name.into(),
        facts: new.facts,
        features: new.features,
        known: (new.known != PartKnown::default()).then_some(new.known),
    })])
}

/// A family of the book.
///
/// # Errors
/// Input, naming the families the book has.
pub fn family<'b>(book: &'b Book, word: &str) -> Result<&'b Family, Refusal> {
    let kept = book.families.get(word).ok_or_else(|| {
        let known: Vec<_> = book.families.keys().map(String::as_str).collect();
        Refusal::input(format!(
            "There is no part family `{word}`: {} are in this book.",
            known.join(", ")
        ))
    })?;
    kept.family().map_err(Refusal::input)
}

/// Takes families of this build into a book that does not have them, or has an older version.
///
/// # Errors
/// Input: a family this build does not have, or one the book has in this version or a newer one. Refused: the one who
/// does is not an officer.
pub fn adopt_families(
    book: &Book,
    words: &[String],
    (by, on): (PersonId, Date),
) -> Result<Vec<Statement>, Refusal> {
    super::with_authority(
        book,
        by,
        Authority::Approve,
        "take a part family into the book",
        on,
    )?;
    let mut made = Vec::new();
    for word in words {
        let mut known = Vec::new();
        let mut found = None;
        for text in Family::BUILT_IN {
            let family = Family::read(text).map_err(|e| Refusal::input(e.to_string()))?;
            if family.family == word.trim() {
                found = Some((family.version, *text));
            }
            known.push(family.family);
        }
        let (version, text) = found.ok_or_else(|| {
            Refusal::input(format!(
                "This program brings no part family `{word}`: {} were expected.",
                known.join(", ")
            ))
        })?;
        let kept = book.families.get(word.trim());
        if let Some(kept) = kept.filter(|kept| kept.version >= version) {
            return Err(Refusal::input(format!(
                "The book has `{word}` in version {} already.",
                kept.version
            )));
        }
        made.push(Statement::FamilyAdopted(FamilyAdopted {
            family: word.trim().into(),
            version,
            text: text.into(),
        }));
    }
    Ok(made)
}

/// Takes a set of readings of a part, outside a finding.
///
/// # Errors
/// Input: none given, one that the family does not know or that does not read, or one that is questioned and not
/// insisted on.
pub fn take_readings(
    book: &Book,
    part: PartId,
    job: Option<JobId>,
    state: State,
    readings: Vec<FeatureReading>,
    taking: &Taking,
) -> Result<Vec<Statement>, Refusal> {
    let kept = part_of(book, part)?;
    if readings.is_empty() {
        return Err(Refusal::input("At least one reading was expected."));
    }
    let family = family(book, &kept.family)?;
    check_readings(family, &readings)?;
    let taking = Taking {
        in_job: job.is_some(),
        ..taking.clone()
    };
    let taken = admit(book, (part, kept), family, state, &readings, &taking)?;
    Ok(vec![Statement::ReadingsTaken(ReadingsTaken {
        part,
        job,
        state,
        readings,
        taken,
        finding: None,
    })])
}
