//! Which entries may be put right, by whom, and what the mended statement must still satisfy.
//!
//! An observation can be mistyped and must be mendable. A signed act happened: it stands, and what is
//! true now is entered as a new act. A witness mends only their own words.

use jiff::civil::Date;
use rules::Rulebook;

use crate::Refusal;
use crate::book::{Authority, Book, PersonId, Statement};
use crate::clock::{
    NewFire, admit_out_of_use, count_paper, file_paper, log_day, log_fire, state_day, state_fact,
};
use crate::finding::{NewReport, report};
use crate::locomotive::{
    NewBook, NewEngine, NewPart, add_engine, add_instrument, add_part, admit_bind, admit_boiler,
    admit_lathe, admit_map, admit_spare, admit_survey, admit_told, check_instrument,
    check_readings, family, fits_tool, held_before, log_letter, new_book, part_of, tell_part,
    with_authority,
};
use crate::proof::admit_blue;

/// A statement about to take another's place.
#[derive(Debug, Clone, Copy)]
pub struct Mend<'a> {
    /// What stands now.
    pub was: &'a Statement,
    /// Who stated it.
    pub stated_by: PersonId,
    /// What is to stand.
    pub instead: &'a Statement,
    /// Who mends it.
    pub by: PersonId,
    /// The day the work was done, as mended.
    pub on: Date,
}

/// Checks a correction: the same kind, about the same thing, one that its verb could have made.
///
/// # Errors
/// Refused: it is a signed act, another person's testimony, or about another thing. Input: it does
/// not read as its verb would have it.
pub fn put_right(book: &Book, rules: &Rulebook, mend: Mend<'_>) -> Result<(), Refusal> {
    let kind = mend.was.kind();
    match mend.was {
        Statement::FamilyAdopted(_)
        | Statement::RulesAdopted(_)
        | Statement::RuleHeld(_)
        | Statement::ShopRuleStated(_)
        | Statement::InspectionOpened(_)
        | Statement::AnchorStated(_)
        | Statement::AuthorityStated(_)
        | Statement::ClockOpened(_)
        | Statement::Decided(_)
        | Statement::JobMade(_)
        | Statement::HoldCleared(_)
        | Statement::JobPaperKept(_)
        | Statement::Signed(_)
        | Statement::JobClosed(_)
        | Statement::InspectionClosed(_)
        | Statement::InspectionNotCompleted(_)
        | Statement::MoveDecided(_)
        | Statement::MoveEnded(_)
        | Statement::ParticularStated(_)
        | Statement::BoilerCardSigned(_)
        | Statement::NoticeLifted(_)
        | Statement::Released(_)
        | Statement::Correction(_)
        | Statement::BatchWithdrawn(_) => {
            return Err(Refusal::refused(format!(
                "A `{kind}` is an act: it happened and it stands."
            ))
            .todo("enter what is true now as a new act"));
        }
        Statement::ItemAnswered(_)
        | Statement::CrewReported(_)
        | Statement::SymptomAnswered(_)
        | Statement::OperationDone(_)
        | Statement::Proved(_)
        | Statement::KnockOnAnswered(_)
            if mend.stated_by != mend.by =>
        {
            let who = book
                .persons
                .get(&mend.stated_by)
                .map_or("somebody else", |p| p.name.as_str());
            return Err(Refusal::refused(format!(
                "Only {who} can put this `{kind}` right: it is what {who} saw and did."
            )));
        }
        Statement::PersonAdded(_)
        | Statement::BookOpened(_)
        | Statement::OutOfUse(_)
        | Statement::RulesBind(_) => {
            with_authority(
                book,
                mend.by,
                Authority::Approve,
                "put this entry right",
                mend.on,
            )?;
        }
        _ => {}
    }
    if kind != mend.instead.kind() || subject(mend.was) != subject(mend.instead) {
        return Err(Refusal::refused(
            "A correction changes what was said, never what it was said of.",
        ));
    }
    admit(book, rules, mend.instead, mend.by, mend.on)
}

/// What a statement is about: ids and words that a correction may not change.
fn subject(statement: &Statement) -> Vec<String> {
    match statement {
        Statement::PersonAdded(it) => vec![it.id.to_string()],
        Statement::LocomotiveAdded(it) => vec![it.id.to_string()],
        Statement::RulesBind(it) => vec![it.locomotive.to_string(), it.set.clone()],
        Statement::HeldBefore(it) => vec![it.locomotive.to_string()],
        Statement::DayStated(it) => vec![it.locomotive.to_string(), it.what.clone()],
        Statement::FactStated(it) => vec![it.locomotive.to_string(), it.fact.clone()],
        Statement::OutOfUse(it) => vec![it.locomotive.to_string()],
        Statement::PaperSent(it) => vec![it.locomotive.to_string(), it.rule.clone()],
        Statement::PartAdded(it) => vec![
            it.id.to_string(),
            it.locomotive.to_string(),
            it.family.clone(),
        ],
        Statement::PartTold(it) => vec![it.part.to_string()],
        Statement::BoilerEntered(it) => vec![it.locomotive.to_string(), it.component.clone()],
        Statement::BoilerSurveyed(it) => vec![it.locomotive.to_string(), it.component.clone()],
        Statement::StaysMapped(it) => vec![it.locomotive.to_string(), it.sheet.clone()],
        Statement::StaysTold(it) => vec![it.locomotive.to_string(), it.sheet.clone()],
        Statement::InstrumentAdded(it) => vec![it.id.to_string()],
        Statement::InstrumentChecked(it) => vec![it.instrument.to_string()],
        // What lies in the book under its hash is what was put in.
        Statement::PhotoAdded(it) => {
            vec![it.id.to_string(), it.sha256.clone(), it.bytes.to_string()]
        }
        Statement::ToolingAdded(it) => vec![it.id.to_string()],
        Statement::SpareAdded(it) => vec![it.id.to_string(), it.counted.word().into()],
        Statement::SpareTold(it) => vec![it.spare.to_string()],
        Statement::SpareReceived(it) => vec![it.spare.to_string()],
        Statement::SpareUsed(it) => vec![it.spare.to_string()],
        Statement::SpareCounted(it) => vec![it.spare.to_string()],
        Statement::SpareSettled(it) => vec![it.spare.to_string()],
        Statement::SpareHeld(it) => vec![it.spare.to_string(), it.job.to_string()],
        Statement::LatheAdded(it) => vec![it.id.to_string()],
        Statement::LatheTold(it) => vec![it.lathe.to_string()],
        Statement::CardKept(it) => vec![it.card.to_string(), it.sheet.clone()],
        Statement::BlueChecked(it) => vec![it.job.to_string(), it.seen.face.word().into()],
        Statement::LetterLogged(it) => vec![it.id.to_string()],
        Statement::LetterAnswered(it) => vec![it.letter.to_string()],
        Statement::ToolingTold(it) => vec![it.tooling.to_string()],
        Statement::ToolingChecked(it) => vec![it.tooling.to_string()],
        Statement::ToolingMoved(it) => vec![it.tooling.to_string()],
        Statement::ToolingTakenOut(it) => vec![it.tooling.to_string()],
        Statement::FireLogged(it) => vec![it.id.to_string(), it.locomotive.to_string()],
        Statement::DayLogged(it) => vec![it.id.to_string(), it.locomotive.to_string()],
        Statement::PaperCounted(it) => vec![it.locomotive.to_string()],
        Statement::LogClosed(it) => vec![it.locomotive.to_string()],
        Statement::RunPromised(it) => vec![it.id.to_string(), it.locomotive.to_string()],
        Statement::ItemAnswered(it) => vec![it.inspection.to_string(), it.rule.clone()],
        // As many symptoms as before: each has a number that people call it by.
        Statement::CrewReported(it) => vec![
            it.id.to_string(),
            it.locomotive.to_string(),
            it.symptoms.len().to_string(),
        ],
        Statement::SymptomAnswered(it) => vec![it.report.to_string(), it.symptom.to_string()],
        Statement::FindingRecorded(it) => vec![
            it.id.to_string(),
            it.locomotive.to_string(),
            it.part.to_string(),
        ],
        Statement::OperationDone(it) => vec![it.job.to_string(), it.operation.to_string()],
        Statement::Proved(it) => vec![it.job.to_string(), it.proof.clone()],
        Statement::ReadingsTaken(it) => {
            let job = it.job.map(|job| job.to_string()).unwrap_or_default();
            let found = it.finding.map(|it| it.to_string()).unwrap_or_default();
            vec![it.part.to_string(), job, format!("{:?}", it.state), found]
        }
        Statement::KnockOnAnswered(it) => vec![it.job.to_string(), it.knock_on.clone()],
        _ => Vec::new(),
    }
}

/// Asks of a mended statement what its verb asks of a new one.
fn admit(
    book: &Book,
    rules: &Rulebook,
    statement: &Statement,
    by: PersonId,
    on: Date,
) -> Result<(), Refusal> {
    let told = |text: &str| {
        if text.trim().is_empty() {
            Err(Refusal::input("It must still say what was seen."))
        } else {
            Ok(())
        }
    };
    match statement {
        Statement::BookOpened(it) => {
            let new = NewBook {
                shop: it.shop.clone(),
                time_zone: it.time_zone.clone(),
                house: it.house.clone(),
                officer: "anybody".into(),
                demonstration: it.demonstration,
            };
            new_book(&new, PersonId(0)).map(drop)
        }
        Statement::PersonAdded(it) => told(&it.name),
        Statement::LocomotiveAdded(it) => {
            let mut without = book.clone();
            without.locomotives.remove(&it.id);
            let new = NewEngine {
                id: it.id,
                number: it.number.clone(),
                wheels: it.wheels.clone(),
                gauge: it.gauge,
                jurisdiction: it.jurisdiction.clone(),
                mawp_psig: it.mawp_psig,
                axle_load_lb: it.axle_load_lb,
                fittings: it.fittings.clone(),
            };
            add_engine(&without, rules, new).map(drop)
        }
        Statement::RulesBind(it) => admit_bind(book, rules, it),
        Statement::HeldBefore(it) => held_before(book, rules, it.clone(), on).map(drop),
        Statement::DayStated(it) => state_day(book, rules, it.clone(), on).map(drop),
        Statement::FactStated(it) => state_fact(book, it.clone(), on).map(drop),
        Statement::OutOfUse(it) => admit_out_of_use(book, rules, it, on),
        Statement::PaperSent(it) => file_paper(book, rules, it.clone(), on).map(drop),
        Statement::PartAdded(it) => {
            let mut without = book.clone();
            without.parts.remove(&it.id);
            let new = NewPart {
                id: it.id,
                locomotive: it.locomotive,
                family: it.family.clone(),
                name: it.name.clone(),
                facts: it.facts.clone(),
                features: it.features.clone(),
                known: it.known.clone().unwrap_or_default(),
            };
            add_part(&without, new).map(drop)
        }
        Statement::PartTold(it) => tell_part(book, it.clone(), on).map(drop),
        Statement::BoilerEntered(it) => admit_boiler(book, it.clone(), on).map(drop),
        Statement::BoilerSurveyed(it) => admit_survey(book, it.clone()).map(drop),
        Statement::StaysMapped(it) => admit_map(book, it.clone()).map(drop),
        Statement::StaysTold(it) => admit_told(book, it.clone()).map(drop),
        Statement::InstrumentAdded(it) => {
            let mut without = book.clone();
            without.instruments.remove(&it.id);
            add_instrument(&without, it.clone()).map(drop)
        }
        Statement::InstrumentChecked(it) => check_instrument(book, it.clone()).map(drop),
        Statement::SpareAdded(_)
        | Statement::SpareReceived(_)
        | Statement::SpareUsed(_)
        | Statement::SpareCounted(_)
        | Statement::SpareSettled(_) => admit_spare(statement),
        Statement::LatheAdded(_) | Statement::LatheTold(_) => admit_lathe(statement),
        Statement::LetterLogged(it) => log_letter(book, it.clone(), on).map(drop),
        Statement::LetterAnswered(it) => told(&it.told),
        Statement::ToolingAdded(it) => told(&it.what).and_then(|()| told(&it.shelf)),
        Statement::ToolingTold(it) => fits_tool(book, it),
        Statement::ToolingChecked(it) => told(&it.against),
        Statement::ToolingMoved(it) => told(&it.shelf),
        Statement::ToolingTakenOut(it) => told(&it.because),
        Statement::PhotoAdded(it) => told(&it.told),
        Statement::FireLogged(it) => {
            let fire = NewFire {
                id: it.id,
                locomotive: it.locomotive,
                lit: it.lit,
                up: it.up,
                out: it.out,
                gone: it.gone,
                miles: it.miles,
                offered: it.offered,
            };
            log_fire(fire, on).map(drop)
        }
        Statement::DayLogged(it) => log_day(it.clone(), on).map(drop),
        Statement::PaperCounted(it) => count_paper(book, it.clone(), on).map(drop),
        Statement::LogClosed(it) if it.from > it.through || it.through > on => Err(Refusal::input(
            format!("A log is closed from a day through a later one, {on} at most."),
        )),
        Statement::FindingRecorded(it) => {
            told(&it.told)?;
            let part = part_of(book, it.part)?;
            let family = family(book, &part.family)?;
            if let Some(word) = it.conditions.iter().find(|w| family.condition(w).is_none()) {
                return Err(Refusal::input(format!(
                    "`{word}` is not what a {} does.",
                    family.family
                )));
            }
            check_readings(family, &it.readings)
        }
        Statement::ReadingsTaken(it) => {
            let part = part_of(book, it.part)?;
            if it.readings.is_empty() {
                return Err(Refusal::input("At least one reading was expected."));
            }
            check_readings(family(book, &part.family)?, &it.readings)
        }
        Statement::CrewReported(it) => {
            let mut without = book.clone();
            without.reports.remove(&it.id);
            let new = NewReport {
                id: it.id,
                locomotive: it.locomotive,
                nothing: it.symptoms.is_empty(),
                symptoms: it.symptoms.clone(),
                told: it.told.clone().unwrap_or_default(),
            };
            report(&without, new, by, on).map(drop)
        }
        Statement::SymptomAnswered(it) => told(&it.seen),
        Statement::ItemAnswered(it) => told(&it.seen),
        Statement::BlueChecked(it) => admit_blue(book, &it.seen),
        Statement::Proved(it) => told(&it.told),
        Statement::KnockOnAnswered(it) => told(&it.seen),
        Statement::RunPromised(it) => told(&it.what),
        _ => Ok(()),
    }
}
