//! The one projector: how a statement changes the book.
//!
//! The same code serves a single new entry and a rebuild from nothing, so the two cannot differ.
//!
//! Long because: one arm a statement, and whoever adds one must see the others.

use jiff::civil::Date;
use measure::State;

use super::fold_part::Unfit;
use super::id::{
    BatchId, EntryId, FindingId, FireId, InspectionId, JobId, LocomotiveId, PartId, PersonId,
};
use super::rows::{Row, RowKind, fire_key};
use super::rule_set::Edition;
use super::state::{
    AnchorTaken, AnswerGiven, Blue, Book, CarriedOn, CrewReport, DayTold, DecisionTaken,
    FamilyKept, Finding, FindingState, Fire, Holding, Inspection, Job, JobPaperOf, Locomotive,
    OperationState, PaperCount, Part, Person, Promise, PutAway, ReadingSet, ReleaseGiven, Sent,
    Shop, ShopRule, Signature, Spell, SymptomLooked, SymptomTold, Trial,
};
use super::statement::{Occasion, PaperAbout, Statement};

/// What an entry says beside its statement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meta {
    /// Its number, counted from 1.
    pub seq: u64,
    /// Its id.
    pub id: EntryId,
    /// Its batch, if it came in one.
    pub batch: Option<BatchId>,
    /// Who states it.
    pub person: PersonId,
    /// The day the work was done.
    pub done_on: Date,
}

/// A statement that does not fit the book before it.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FoldError {
    /// It speaks of a thing that no earlier statement made.
    #[error("entry {seq} ({kind}) speaks of {what}, which no earlier entry made")]
    Unknown {
        /// The entry.
        seq: u64,
        /// Its kind.
        kind: &'static str,
        /// What it speaks of.
        what: String,
    },
    /// It makes a thing that stands already.
    #[error("entry {seq} ({kind}) makes {what}, which stands already")]
    Twice {
        /// The entry.
        seq: u64,
        /// Its kind.
        kind: &'static str,
        /// What it makes.
        what: String,
    },
    /// It does not read.
    #[error("entry {seq}: {why}")]
    Reads {
        /// The entry.
        seq: u64,
        /// Why not.
        why: String,
    },
}

/// The rows a statement touches, where anybody wants to know.
pub(super) struct Touched(Option<Vec<Row>>);

impl Touched {
    pub(super) fn note(&mut self, kind: RowKind, key: impl ToString) {
        if let Some(rows) = &mut self.0 {
            rows.push(Row::of(kind, key));
        }
    }
}

/// Folds statements from an empty book.
///
/// # Errors
/// [`FoldError`] at the first statement that does not fit.
pub fn fold<'a>(
    statements: impl IntoIterator<Item = (Meta, &'a Statement)>,
) -> Result<Book, FoldError> {
    let mut book = Book::default();
    for (meta, statement) in statements {
        book.change(meta, statement, &mut Touched(None))?;
    }
    Ok(book)
}

impl Book {
    /// Applies one statement and says which rows it touched. Corrections and withdrawals are not
    /// statements about the shop but about the ledger: the store folds anew without what they take
    /// back, and hands this function the statement that stands instead.
    ///
    /// # Errors
    /// [`FoldError`]; the book is then to be thrown away.
    pub fn apply(&mut self, meta: Meta, statement: &Statement) -> Result<Vec<Row>, FoldError> {
        let mut touched = Touched(Some(Vec::new()));
        self.change(meta, statement, &mut touched)?;
        Ok(touched.0.unwrap_or_default())
    }

    fn change(
        &mut self,
        meta: Meta,
        statement: &Statement,
        touched: &mut Touched,
    ) -> Result<(), FoldError> {
        let kind = statement.kind();
        let unknown = |what: String| FoldError::Unknown {
            seq: meta.seq,
            kind,
            what,
        };
        let twice = |what: String| FoldError::Twice {
            seq: meta.seq,
            kind,
            what,
        };
        let unfit = |unfit: Unfit| match unfit {
            Unfit::Unknown(what) => unknown(what),
            Unfit::Twice(what) => twice(what),
        };
        let seq = meta.seq;
        match statement {
            Statement::BookOpened(it) => {
                if self.shop.is_some() {
                    return Err(twice("the shop".into()));
                }
                self.shop = Some(Shop {
                    name: it.shop.clone(),
                    time_zone: it.time_zone.clone(),
                    house: it.house.clone(),
                    demonstration: it.demonstration,
                    inspections: 0,
                    findings: 0,
                    jobs: 0,
                    tooling: 0,
                    write_ups: 0,
                    particulars: Vec::new(),
                    rules: Vec::new(),
                    photos: 0,
                    spares: 0,
                    lathes: 0,
                    cards: 0,
                    letters: 0,
                });
                touched.note(RowKind::Shop, "");
            }
            Statement::FamilyAdopted(it) => {
                let kept = FamilyKept::new(it.version, it.text.clone());
                kept.family().map_err(|why| FoldError::Reads {
                    seq,
                    why: why.into(),
                })?;
                self.families.insert(it.family.clone(), kept);
                touched.note(RowKind::Family, &it.family);
            }
            Statement::RulesAdopted(it) => {
                // The text was read before it was stated; a build that reads it no more says so where it is used.
                let kept = self.rule_sets.entry(it.set.clone()).or_default();
                kept.editions.push(Edition::new(it, meta.person, seq));
                touched.note(RowKind::RuleSet, &it.set);
            }
            Statement::RuleHeld(it) => {
                // The rule may be gone from a later build of the program; who held it, did.
                let kept = self.rules_held.entry(it.rule.clone()).or_default();
                kept.push(Holding {
                    told: it.clone(),
                    by: meta.person,
                    on: meta.done_on,
                    entry: seq,
                });
                touched.note(RowKind::RuleHeld, &it.rule);
            }
            Statement::ShopRuleStated(it) => {
                let shop = self.shop.as_mut();
                let shop = shop.ok_or_else(|| unknown("the shop".into()))?;
                shop.rules.push(ShopRule {
                    told: it.clone(),
                    by: meta.person,
                    on: meta.done_on,
                });
                touched.note(RowKind::Shop, "");
            }
            Statement::PersonAdded(it) => {
                let person = Person {
                    name: it.name.clone(),
                    trade: it.trade.clone(),
                    added_with: it.may.clone(),
                    added_by: meta.person,
                    added_on: meta.done_on,
                    stated: Vec::new(),
                    last: seq,
                };
                if self.persons.insert(it.id, person).is_some() {
                    return Err(twice(format!("person {}", it.name)));
                }
                touched.note(RowKind::Person, it.id);
            }
            Statement::AuthorityStated(it) => {
                let person = self.persons.get_mut(&it.person);
                let person = person.ok_or_else(|| unknown(format!("person {}", it.person)))?;
                person.state(it, meta);
                touched.note(RowKind::Person, it.person);
            }
            Statement::LocomotiveAdded(it) => {
                let made = Locomotive {
                    number: it.number.clone(),
                    wheels: it.wheels.clone(),
                    gauge: it.gauge,
                    jurisdiction: it.jurisdiction.clone(),
                    rules_bound: Vec::new(),
                    mawp_psig: it.mawp_psig,
                    axle_load_lb: it.axle_load_lb,
                    fittings: it.fittings.clone(),
                    held_before: Vec::new(),
                    days: Vec::new(),
                    facts: Vec::new(),
                    out_of_use: Vec::new(),
                    particulars: Vec::new(),
                    moves: Vec::new(),
                    papers: Vec::new(),
                    log_through: None,
                    log_from: None,
                    log_closed: Vec::new(),
                    paper_counts: Vec::new(),
                    promises: Vec::new(),
                    released: None,
                    unsettled: seq,
                    last: seq,
                };
                if self.locomotives.insert(it.id, made).is_some() {
                    return Err(twice(format!("locomotive {}", it.number)));
                }
                touched.note(RowKind::Locomotive, it.id);
            }
            Statement::RulesBind(it) => {
                let built_in =
                    rules::Rulebook::is_built_in(&it.set).map_err(|e| FoldError::Reads {
                        seq,
                        why: e.to_string(),
                    })?;
                if !built_in && !self.rule_sets.contains_key(&it.set) {
                    return Err(unknown(format!("the rule set `{}`", it.set)));
                }
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.rules_bound.push(it.clone());
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::HeldBefore(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                // A clock that had lapsed may run again by this: who releases her signs anew.
                engine.unsettled = engine.unsettled.max(seq);
                engine.held_before.push(it.clone());
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::DayStated(it) => {
                if it
                    .inspection
                    .is_some_and(|id| !self.inspections.contains_key(&id))
                {
                    return Err(unknown("an inspection".into()));
                }
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.unsettled = engine.unsettled.max(seq);
                engine.days.push(it.clone());
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::FactStated(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.facts.push(it.clone());
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::ParticularStated(it) => {
                self.take_particular(it, meta).map_err(unknown)?;
                match it.locomotive {
                    Some(id) => touched.note(RowKind::Locomotive, id),
                    None => touched.note(RowKind::Shop, ""),
                }
            }
            Statement::MoveDecided(it) => {
                self.take_move(it, meta).map_err(unknown)?;
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::MoveEnded(it) => {
                self.end_move(it, meta).map_err(unknown)?;
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::OutOfUse(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.out_of_use.push(Spell {
                    from: it.from,
                    through: it.through,
                    told: it.told.clone(),
                    by: meta.person,
                });
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::PaperSent(it) => {
                if let PaperAbout::Inspection { inspection } = &it.about
                    && !self.inspections.contains_key(inspection)
                {
                    return Err(unknown("an inspection".into()));
                }
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.papers.push(Sent {
                    paper: it.clone(),
                    by: meta.person,
                });
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::PartAdded(it) => {
                self.engine(it.locomotive, seq).map_err(unknown)?;
                self.add_part(it, meta, touched).map_err(unfit)?;
            }
            Statement::PartTold(it) => self.tell_part(it, meta, touched).map_err(unfit)?,
            Statement::InstrumentAdded(it) => {
                self.add_instrument(it, meta, touched).map_err(unfit)?;
            }
            Statement::InstrumentChecked(it) => {
                self.check_instrument(it, meta, touched).map_err(unfit)?;
            }
            Statement::PhotoAdded(it) => self.add_photo(it, meta, touched).map_err(unfit)?,
            Statement::BoilerEntered(it) => {
                self.enter_boiler(it, meta).map_err(unknown)?;
                touched.note(RowKind::Boiler, it.locomotive);
            }
            Statement::BoilerSurveyed(it) => {
                self.take_survey(it, meta).map_err(unknown)?;
                touched.note(RowKind::Boiler, it.locomotive);
            }
            Statement::StaysMapped(it) => {
                self.map_stays(it, meta).map_err(unknown)?;
                touched.note(RowKind::Boiler, it.locomotive);
            }
            Statement::StaysTold(it) => {
                self.tell_stays(it, meta).map_err(unknown)?;
                touched.note(RowKind::Boiler, it.locomotive);
            }
            Statement::BoilerCardSigned(it) => {
                self.sign_card(it, meta).map_err(unknown)?;
                touched.note(RowKind::Boiler, it.locomotive);
            }
            Statement::ToolingAdded(it) => self.add_tooling(it, meta, touched).map_err(unfit)?,
            Statement::ToolingTold(it) => self.tell_tooling(it, meta, touched).map_err(unfit)?,
            Statement::ToolingChecked(it) => {
                self.check_tooling(it, meta, touched).map_err(unfit)?;
            }
            Statement::ToolingMoved(it) => self.move_tooling(it, meta, touched).map_err(unfit)?,
            Statement::ToolingTakenOut(it) => {
                self.take_out_tooling(it, meta, touched).map_err(unfit)?;
            }
            Statement::SpareAdded(it) => self.add_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareTold(it) => self.tell_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareReceived(it) => self.receive_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareUsed(it) => self.use_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareCounted(it) => self.count_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareSettled(it) => self.settle_spare(it, meta, touched).map_err(unfit)?,
            Statement::SpareHeld(it) => self.hold_spare(it, meta, touched).map_err(unfit)?,
            Statement::LatheAdded(it) => self.add_lathe(it, meta, touched).map_err(unfit)?,
            Statement::LatheTold(it) => self.tell_lathe(it, meta, touched).map_err(unfit)?,
            Statement::CardKept(it) => self.keep_card(it, meta, touched).map_err(unfit)?,
            Statement::LetterLogged(it) => self.log_letter(it, meta, touched).map_err(unfit)?,
            Statement::LetterAnswered(it) => {
                self.answer_letter(it, meta, touched).map_err(unfit)?;
            }
            Statement::FireLogged(it) => {
                self.engine(it.locomotive, seq).map_err(unknown)?;
                let fire = Fire {
                    locomotive: it.locomotive,
                    lit: it.lit,
                    up: it.up,
                    out: it.out,
                    gone: it.gone,
                    miles: it.miles,
                    offered: it.offered,
                    day: None,
                    entry: seq,
                };
                self.take_line(it.id, fire, touched)
                    .map_err(|()| twice("the fire".into()))?;
            }
            Statement::DayLogged(it) => {
                self.engine(it.locomotive, seq).map_err(unknown)?;
                let line = Fire {
                    locomotive: it.locomotive,
                    lit: None,
                    up: None,
                    out: None,
                    gone: None,
                    miles: it.miles,
                    offered: it.offered,
                    day: Some(DayTold {
                        day: it.day,
                        stood: it.stood,
                        told: it.told.clone(),
                    }),
                    entry: seq,
                };
                self.take_line(it.id, line, touched)
                    .map_err(|()| twice("the line of the log".into()))?;
            }
            Statement::PaperCounted(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.paper_counts.push(PaperCount {
                    entry: seq,
                    told: it.clone(),
                    by: meta.person,
                });
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::LogClosed(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.close_log(it.from, it.through);
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::RunPromised(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                if engine.promises.iter().any(|p| p.id == it.id) {
                    return Err(twice("the promise".into()));
                }
                engine.promises.push(Promise {
                    id: it.id,
                    day: it.day,
                    what: it.what.clone(),
                });
                engine
                    .promises
                    .sort_by_key(|promise| (promise.day, promise.id));
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::InspectionOpened(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.unsettled = engine.unsettled.max(seq);
                let number = self
                    .count(|s| &mut s.inspections)
                    .ok_or_else(|| unknown("the shop".into()))?;
                let made = Inspection {
                    number,
                    locomotive: it.locomotive,
                    kind: it.kind.clone(),
                    opened_on: meta.done_on,
                    opened_by: meta.person,
                    items: it.items.clone(),
                    answers: Default::default(),
                    closed: None,
                    made: None,
                    not_completed: None,
                    anchor: None,
                    last: seq,
                };
                if self.inspections.insert(it.id, made).is_some() {
                    return Err(twice("the inspection".into()));
                }
                touched.note(RowKind::Shop, "");
                touched.note(RowKind::Locomotive, it.locomotive);
                touched.note(RowKind::Inspection, it.id);
            }
            Statement::ItemAnswered(it) => {
                let inspection = self.inspection_mut(it.inspection, seq).map_err(unknown)?;
                if !inspection.items.iter().any(|i| i.rule == it.rule) {
                    return Err(unknown(format!("the item `{}`", it.rule)));
                }
                inspection.answers.insert(
                    it.rule.clone(),
                    AnswerGiven {
                        answer: it.answer.clone(),
                        seen: it.seen.clone(),
                        condition: it.condition,
                        by: meta.person,
                        on: meta.done_on,
                    },
                );
                touched.note(RowKind::Inspection, it.inspection);
            }
            Statement::InspectionClosed(it) => {
                let inspection = self.inspection_mut(it.inspection, seq).map_err(unknown)?;
                inspection.closed = Some((meta.done_on, meta.person));
                inspection.made.clone_from(&it.made);
                touched.note(RowKind::Inspection, it.inspection);
            }
            Statement::InspectionNotCompleted(it) => {
                let inspection = self.inspection_mut(it.inspection, seq).map_err(unknown)?;
                inspection.not_completed = Some(PutAway {
                    because: it.because.clone(),
                    by: meta.person,
                    on: meta.done_on,
                });
                touched.note(RowKind::Inspection, it.inspection);
            }
            Statement::AnchorStated(it) => {
                let inspection = self.inspection_mut(it.inspection, seq).map_err(unknown)?;
                inspection.anchor = Some(AnchorTaken {
                    day: it.day,
                    reading: it.reading.clone(),
                    by: meta.person,
                });
                touched.note(RowKind::Inspection, it.inspection);
            }
            Statement::ClockOpened(it) => {
                let finding = self.finding_mut(it.finding, seq).map_err(unknown)?;
                if !finding.clocks.contains(&it.rule) {
                    finding.clocks.push(it.rule.clone());
                }
                touched.note(RowKind::Finding, it.finding);
            }
            Statement::CrewReported(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                // A clean report ends no release.
                if !it.symptoms.is_empty() {
                    engine.unsettled = engine.unsettled.max(seq);
                }
                let mut symptoms = Vec::new();
                for symptom in &it.symptoms {
                    let number = self
                        .count(|s| &mut s.write_ups)
                        .ok_or_else(|| unknown("the shop".into()))?;
                    symptoms.push(SymptomTold {
                        number,
                        symptom: symptom.clone(),
                        looked: None,
                    });
                }
                let made = CrewReport {
                    locomotive: it.locomotive,
                    on: meta.done_on,
                    by: meta.person,
                    symptoms,
                    told: it.told.clone(),
                    entry: seq,
                    last: seq,
                };
                if self.reports.insert(it.id, made).is_some() {
                    return Err(twice("the report".into()));
                }
                touched.note(RowKind::Shop, "");
                touched.note(RowKind::Locomotive, it.locomotive);
                touched.note(RowKind::Report, it.id);
            }
            Statement::SymptomAnswered(it) => {
                if let Some(finding) = it.finding
                    && !self.findings.contains_key(&finding)
                {
                    return Err(unknown("a finding".into()));
                }
                let report = self.reports.get_mut(&it.report);
                let report = report.ok_or_else(|| unknown("a report".into()))?;
                report.last = report.last.max(seq);
                let at = usize::try_from(it.symptom).unwrap_or(0).checked_sub(1);
                let symptom = at.and_then(|at| report.symptoms.get_mut(at));
                let symptom = symptom.ok_or_else(|| unknown(format!("symptom {}", it.symptom)))?;
                symptom.looked = Some(SymptomLooked {
                    finding: it.finding,
                    seen: it.seen.clone(),
                    by: meta.person,
                    on: meta.done_on,
                });
                touched.note(RowKind::Report, it.report);
            }
            Statement::NoticeLifted(it) => {
                let finding = self.finding_mut(it.finding, seq).map_err(unknown)?;
                finding.lifted = Some(it.clone());
                touched.note(RowKind::Finding, it.finding);
            }
            Statement::FindingRecorded(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.unsettled = engine.unsettled.max(seq);
                if let Occasion::Inspection { inspection } = &it.occasion
                    && !self.inspections.contains_key(inspection)
                {
                    return Err(unknown("an inspection".into()));
                }
                self.part_mut(it.part, seq).map_err(unknown)?;
                if !it.readings.is_empty() {
                    let set = ReadingSet {
                        entry: seq,
                        on: meta.done_on,
                        by: meta.person,
                        state: State::AsFound,
                        finding: Some(it.id),
                        job: None,
                        readings: it.readings.clone(),
                        taken: it.taken.clone(),
                    };
                    self.read_part(it.part, set, touched).map_err(unknown)?;
                }
                let number = self
                    .count(|s| &mut s.findings)
                    .ok_or_else(|| unknown("the shop".into()))?;
                let made = Finding {
                    number,
                    locomotive: it.locomotive,
                    part: it.part,
                    occasion: it.occasion.clone(),
                    conditions: it.conditions.clone(),
                    told: it.told.clone(),
                    readings: it.readings.clone(),
                    found_on: meta.done_on,
                    found_by: meta.person,
                    state: FindingState::Open,
                    clocks: Vec::new(),
                    notice: it.notice.clone(),
                    lifted: None,
                    decision: None,
                    carried: Vec::new(),
                    job: None,
                    entry: seq,
                    last: seq,
                };
                if self.findings.insert(it.id, made).is_some() {
                    return Err(twice("the finding".into()));
                }
                touched.note(RowKind::Shop, "");
                touched.note(RowKind::Locomotive, it.locomotive);
                touched.note(RowKind::Part, it.part);
                touched.note(RowKind::Finding, it.id);
            }
            Statement::Decided(it) => {
                let part = self.findings.get(&it.finding).map(|f| f.part);
                let carries = part
                    .and_then(|p| self.parts.get(&p))
                    .and_then(|p| self.families.get(&p.family))
                    .and_then(|f| f.family().ok())
                    .and_then(|f| f.route(&it.route).map(|r| r.carries))
                    .ok_or_else(|| unknown(format!("the route `{}`", it.route)))?;
                let finding = self.finding_mut(it.finding, seq).map_err(unknown)?;
                finding.state = if carries {
                    finding.carried.push(CarriedOn {
                        on: meta.done_on,
                        by: meta.person,
                        because: it.because.clone(),
                        recheck: it.recheck,
                    });
                    FindingState::Carried
                } else {
                    FindingState::Decided
                };
                finding.decision = Some(DecisionTaken {
                    route: it.route.clone(),
                    because: it.because.clone(),
                    verdict: it.verdict.clone(),
                    rulings: it.rulings.clone(),
                    sheets: it.sheets.clone(),
                    recheck: it.recheck,
                    by: meta.person,
                    on: meta.done_on,
                });
                touched.note(RowKind::Finding, it.finding);
            }
            Statement::JobMade(it) => {
                let number = self
                    .count(|s| &mut s.jobs)
                    .ok_or_else(|| unknown("the shop".into()))?;
                let finding = self.finding_mut(it.finding, seq).map_err(unknown)?;
                finding.state = FindingState::InWork;
                finding.job = Some(it.id);
                let locomotive = finding.locomotive;
                let engine = self.engine(locomotive, seq).map_err(unknown)?;
                engine.unsettled = engine.unsettled.max(seq);
                let made = Job {
                    number,
                    locomotive,
                    plan: it.clone(),
                    made_by: meta.person,
                    made_on: meta.done_on,
                    operations: vec![OperationState::default(); it.operations.len()],
                    proofs: Default::default(),
                    earlier: Vec::new(),
                    blues: Vec::new(),
                    left: Vec::new(),
                    papers: Vec::new(),
                    knock_ons: Default::default(),
                    signatures: Vec::new(),
                    closed: None,
                    work: seq,
                    last: seq,
                };
                if self.jobs.insert(it.id, made).is_some() {
                    return Err(twice("the job".into()));
                }
                touched.note(RowKind::Shop, "");
                touched.note(RowKind::Locomotive, locomotive);
                touched.note(RowKind::Finding, it.finding);
                touched.note(RowKind::Job, it.id);
            }
            Statement::OperationDone(it) => {
                self.worked(it.job, seq, touched).map_err(unknown)?;
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                let step = operation_mut(job, it.operation)
                    .ok_or_else(|| unknown(format!("operation {}", it.operation)))?;
                step.done = Some((meta.done_on, meta.person, it.hours, it.told.clone()));
            }
            Statement::HoldCleared(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                let step = operation_mut(job, it.operation)
                    .ok_or_else(|| unknown(format!("operation {}", it.operation)))?;
                step.cleared = Some((meta.done_on, meta.person, it.seen.clone()));
                step.cleared_on_paper = it.paper.clone();
                touched.note(RowKind::Job, it.job);
            }
            Statement::JobPaperKept(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                job.papers.push(JobPaperOf {
                    kept: it.clone(),
                    by: meta.person,
                    on: meta.done_on,
                    entry: seq,
                });
                touched.note(RowKind::Job, it.job);
            }
            Statement::BlueChecked(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                job.blues.push(Blue {
                    seen: it.seen.clone(),
                    by: meta.person,
                    on: meta.done_on,
                });
                job.last = job.last.max(seq);
                touched.note(RowKind::Job, it.job);
            }
            Statement::Proved(it) => {
                self.worked(it.job, seq, touched).map_err(unknown)?;
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                let made = (it.passed, it.told.clone(), meta.person, meta.done_on);
                if let Some((passed, told, by, on)) = job.proofs.insert(it.proof.clone(), made) {
                    let proof = it.proof.clone();
                    job.earlier.push(Trial {
                        proof,
                        passed,
                        told,
                        by,
                        on,
                    });
                }
                touched.note(RowKind::Job, it.job);
            }
            Statement::ReadingsTaken(it) => {
                if let Some(id) = it.job {
                    if it.state == State::AsLeft {
                        self.worked(id, seq, touched).map_err(unknown)?;
                    }
                    let job = self.job_mut(id, seq).map_err(unknown)?;
                    if it.state == State::AsLeft {
                        read_in_place(&mut job.left, &it.readings);
                    }
                    touched.note(RowKind::Job, id);
                }
                if let Some(id) = it.finding {
                    let finding = self.finding_mut(id, seq).map_err(unknown)?;
                    read_in_place(&mut finding.readings, &it.readings);
                    touched.note(RowKind::Finding, id);
                }
                let set = ReadingSet {
                    entry: seq,
                    on: meta.done_on,
                    by: meta.person,
                    state: it.state,
                    finding: it.finding,
                    job: it.job,
                    readings: it.readings.clone(),
                    taken: it.taken.clone(),
                };
                self.read_part(it.part, set, touched).map_err(unknown)?;
            }
            Statement::KnockOnAnswered(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                job.knock_ons.insert(
                    it.knock_on.clone(),
                    (it.seen.clone(), meta.person, meta.done_on),
                );
                touched.note(RowKind::Job, it.job);
            }
            Statement::Signed(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                job.signatures.retain(|s| s.capacity != it.capacity);
                job.signatures.push(Signature {
                    capacity: it.capacity,
                    by: meta.person,
                    on: meta.done_on,
                    entry: seq,
                    stated: it.stated.clone(),
                });
                job.signatures.sort_by_key(|s| s.capacity);
                touched.note(RowKind::Job, it.job);
            }
            Statement::JobClosed(it) => {
                let job = self.job_mut(it.job, seq).map_err(unknown)?;
                job.closed = Some((meta.done_on, meta.person, it.verdict.clone()));
                let finding = job.plan.finding;
                self.finding_mut(finding, seq).map_err(unknown)?.state = FindingState::Closed;
                touched.note(RowKind::Finding, finding);
                touched.note(RowKind::Job, it.job);
            }
            Statement::Released(it) => {
                let engine = self.engine(it.locomotive, seq).map_err(unknown)?;
                engine.released = Some(ReleaseGiven {
                    by: meta.person,
                    on: meta.done_on,
                    log_through: it.log_through,
                    entry: seq,
                });
                touched.note(RowKind::Locomotive, it.locomotive);
            }
            Statement::Correction(_) | Statement::BatchWithdrawn(_) => {}
        }
        Ok(())
    }

    /// Notes work on a job: signatures must be newer, and so must a release of its engine.
    fn worked(&mut self, id: JobId, seq: u64, touched: &mut Touched) -> Result<(), String> {
        let job = self.job_mut(id, seq)?;
        job.work = job.work.max(seq);
        let locomotive = job.locomotive;
        let engine = self.engine(locomotive, seq)?;
        engine.unsettled = engine.unsettled.max(seq);
        touched.note(RowKind::Job, id);
        touched.note(RowKind::Locomotive, locomotive);
        Ok(())
    }

    /// Takes a line of a log; an error if it stands already.
    fn take_line(&mut self, id: FireId, line: Fire, touched: &mut Touched) -> Result<(), ()> {
        let engine = line.locomotive;
        self.logs.entry(engine).or_default().take(id, &line);
        if self.fires.put(id, line).is_some() {
            return Err(());
        }
        touched.note(RowKind::Locomotive, engine);
        touched.note(RowKind::Log, engine);
        if touched.0.is_some() {
            touched.note(RowKind::Fire, fire_key(engine, id));
        }
        Ok(())
    }

    pub(super) fn engine(&mut self, id: LocomotiveId, seq: u64) -> Result<&mut Locomotive, String> {
        let engine = self.locomotives.get_mut(&id).ok_or("a locomotive")?;
        engine.last = engine.last.max(seq);
        Ok(engine)
    }

    fn part_mut(&mut self, id: PartId, seq: u64) -> Result<&mut Part, String> {
        let part = self.parts.get_mut(&id).ok_or("a part")?;
        part.last = part.last.max(seq);
        Ok(part)
    }

    fn inspection_mut(&mut self, id: InspectionId, seq: u64) -> Result<&mut Inspection, String> {
        let inspection = self.inspections.get_mut(&id).ok_or("an inspection")?;
        inspection.last = inspection.last.max(seq);
        Ok(inspection)
    }

    fn finding_mut(&mut self, id: FindingId, seq: u64) -> Result<&mut Finding, String> {
        let finding = self.findings.get_mut(&id).ok_or("a finding")?;
        finding.last = finding.last.max(seq);
        Ok(finding)
    }

    fn job_mut(&mut self, id: JobId, seq: u64) -> Result<&mut Job, String> {
        let job = self.jobs.get_mut(&id).ok_or("a job")?;
        job.last = job.last.max(seq);
        Ok(job)
    }

    /// Gives the next number for people.
    pub(super) fn count(&mut self, which: impl Fn(&mut Shop) -> &mut u32) -> Option<u32> {
        let shop = self.shop.as_mut()?;
        let number = which(shop);
        *number += 1;
        Some(*number)
    }
}

fn operation_mut(job: &mut Job, number: u32) -> Option<&mut OperationState> {
    let index = usize::try_from(number).ok()?.checked_sub(1)?;
    job.operations.get_mut(index)
}

/// Puts new readings beside those of other places, and in the stead of those of the same.
fn read_in_place(kept: &mut Vec<super::FeatureReading>, new: &[super::FeatureReading]) {
    for new in new {
        let here = |old: &super::FeatureReading| {
            old.feature == new.feature && old.reading.position == new.reading.position
        };
        kept.retain(|old| !here(old));
        kept.push(new.clone());
    }
}
