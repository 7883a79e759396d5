//! A crew's report at the end of a day: symptoms in their words, or that there is nothing to report.
//!
//! A crew tells what it noticed and where; it need not know the part. Each symptom stops her until somebody who may
//! inspect has looked: at a finding, or at nothing amiss. That the crew thinks a thing can wait is told, and lifts
//! nothing.

use jiff::civil::Date;
use measure::{Dimension, entered_with_unit};

use crate::Refusal;
use crate::book::{
    Authority, Book, CrewReport, CrewReported, FindingId, LocomotiveId, PersonId, ReportId,
    Statement, Symptom, SymptomAnswered, SymptomTold,
};
use crate::locomotive::with_authority;

/// A report to be filed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewReport {
    /// Its id.
    pub id: ReportId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// What was noticed.
    pub symptoms: Vec<Symptom>,
    /// Said in so many words that there is nothing to report.
    pub nothing: bool,
    /// What else there is to say.
    pub told: String,
}

/// Files a crew's report. Anybody may: who ran her tells what they noticed.
///
/// # Errors
/// Input: neither symptoms nor that there are none, or both; a symptom without what or where, or with a pressure that
/// does not read. Refused: the same person has filed the same report for that day.
pub fn report(
    book: &Book,
    new: NewReport,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    match (new.nothing, new.symptoms.is_empty()) {
        (true, false) => {
            return Err(Refusal::input(
                "The report says that there is nothing to report, and reports something: one of the two was expected.",
            ));
        }
        (false, true) => {
            return Err(Refusal::input(
                "The report says nothing: what was noticed, or in so many words that there is nothing to report, was expected.",
            ));
        }
        _ => {}
    }
    let mut wrong = Vec::new();
    let mut symptoms = Vec::new();
    for (at, told) in new.symptoms.iter().enumerate() {
        match clean(told) {
            Ok(symptom) => symptoms.push(symptom),
            Err(why) => wrong.push(format!("symptom {}: {why}", at + 1)),
        }
    }
    if !wrong.is_empty() {
        return Err(Refusal::input("The report does not say enough.").todos(wrong));
    }
    let told = Some(new.told.trim().to_string()).filter(|told| !told.is_empty());
    let same = |old: &&CrewReport| {
        old.locomotive == new.locomotive
            && old.on == on
            && old.by == by
            && old.told == told
            && old.symptoms.iter().map(|s| &s.symptom).eq(&symptoms)
    };
    if let Some(old) = book.reports.values().find(same) {
        return Err(Refusal::refused(format!(
            "That report of {on} is in the book already, as entry {}.",
            old.entry
        )));
    }
    Ok(vec![Statement::CrewReported(CrewReported {
        id: new.id,
        locomotive: new.locomotive,
        symptoms,
        told,
    })])
}

/// A symptom as it is stored: without blanks around it; or what is wrong with it.
fn clean(told: &Symptom) -> Result<Symptom, String> {
    let (what, place) = (told.what.trim(), told.place.trim());
    if what.is_empty() {
        return Err("what was noticed is missing".into());
    }
    if place.is_empty() {
        return Err(format!("where is missing of `{what}`"));
    }
    let pressure = told.pressure.as_deref().map(str::trim);
    let pressure = pressure.filter(|text| !text.is_empty());
    if let Some(written) = pressure {
        entered_with_unit(written, Dimension::GaugePressure).map_err(|e| e.to_string())?;
    }
    Ok(Symptom {
        what: what.into(),
        place: place.into(),
        heat: told.heat,
        pressure: pressure.map(str::to_string),
        can_wait: told.can_wait,
    })
}

/// A symptom by number, W-001, with its report and its place in it, counted from 1.
///
/// # Errors
/// Input if the book has none of that number.
pub fn symptom<'b>(
    book: &'b Book,
    number: &str,
) -> Result<(ReportId, &'b CrewReport, u32, &'b SymptomTold), Refusal> {
    let typed = number.trim();
    let digits = typed.strip_prefix(['W', 'w']).unwrap_or("");
    let wanted: u32 = digits.trim_start_matches('-').parse().map_err(|_| {
        Refusal::input(format!(
            "`{number}` is not the number of a write-up: W-001 was expected."
        ))
    })?;
    let mut all = book.reports.iter().flat_map(|(id, report)| {
        let told = (1..).zip(&report.symptoms);
        told.map(move |(at, symptom)| (*id, report, at, symptom))
    });
    all.find(|(.., symptom)| symptom.number == wanted)
        .ok_or_else(|| {
            Refusal::input(format!(
                "There is no write-up W-{wanted:03} in this book; it has {}.",
                book.shop.as_ref().map_or(0, |s| s.write_ups)
            ))
        })
}

/// What crews wrote up of an engine and nobody has looked at, by number.
pub fn open_symptoms(book: &Book, engine: LocomotiveId) -> Vec<(&CrewReport, &SymptomTold)> {
    let of_her = book.reports.values().filter(|r| r.locomotive == engine);
    let mut open: Vec<_> = of_her
        .flat_map(|report| report.symptoms.iter().map(move |s| (report, s)))
        .filter(|(_, s)| s.looked.is_none())
        .collect();
    open.sort_by_key(|(_, s)| s.number);
    open
}

/// Answers a symptom: somebody who may inspect looked, and it is a finding, or there is no defect.
///
/// # Errors
/// Refused: the person may not inspect; it is answered already; nothing says what was seen. Input: no such write-up,
/// or a finding of another engine.
pub fn answer_symptom(
    book: &Book,
    number: &str,
    finding: Option<FindingId>,
    seen: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let (id, report, at, told) = symptom(book, number)?;
    with_authority(book, by, Authority::Inspect, "answer a write-up", on)?;
    let tag = format!("W-{:03}", told.number);
    if let Some(looked) = &told.looked {
        let who = book
            .persons
            .get(&looked.by)
            .map_or("?", |p| p.name.as_str());
        return Err(Refusal::refused(format!(
            "{tag} was answered on {} by {who}.",
            looked.on
        )));
    }
    if seen.trim().is_empty() {
        return Err(Refusal::refused(format!(
            "{tag} needs what was seen when somebody looked."
        )));
    }
    if let Some(finding) = finding
        && book
            .findings
            .get(&finding)
            .is_none_or(|f| f.locomotive != report.locomotive)
    {
        return Err(Refusal::input("That finding is not of this engine."));
    }
    Ok(vec![Statement::SymptomAnswered(SymptomAnswered {
        report: id,
        symptom: at,
        finding,
        seen: seen.trim().into(),
    })])
}
