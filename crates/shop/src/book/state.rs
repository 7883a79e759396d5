//! The state that the statements add up to: what the shop knows now, one struct a thing.
//!
//! Each thing carries `last`, the number of the newest entry that touched it, so that an act which
//! changes it can say what its person had seen.

use std::collections::BTreeMap;

use jiff::civil::{Date, DateTime};
use measure::Size;
use serde::{Deserialize, Serialize};

use super::boiler::Boiler;
use super::family::Family;
use super::fold_card::Card;
use super::fold_lathe::Lathe;
use super::fold_letter::Letter;
use super::fold_spare::Spare;
use super::id::{
    CardId, FindingId, InspectionId, InstrumentId, JobId, LatheId, LetterId, LocomotiveId, PartId,
    PersonId, PhotoId, ReportId, RunId, SpareId, ToolingId,
};
use super::log::{EngineLog, Fires};
use super::moved::{Movement, Particular};
use super::people::AuthorityKept;
use super::read::Read;
use super::readings::Readings;
use super::rule_set::RuleSetKept;
pub use super::state_part::{
    CheckMade, Instrument, LastRead, Part, PartSaid, Photo, ReadingSet, TakenOut, Tooling,
};
use super::statement::{
    Answer, Authority, BlueSeen, DayStated, FactStated, FeatureReading, HeldBefore, ItemAsked,
    ItemCondition, JobMade, JobPaperKept, Made, NoticeGiven, NoticeLifted, Occasion, OnPaper,
    PaperCounted, PaperSent, PrintedSheet, QuarterHours, RuleHeld, RulesBind, RulingRef,
    ShopRuleStated, Stood, Symptom,
};

/// Everything the book says, as of its last entry.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Book {
    /// The shop itself; missing only in a book with no entries.
    pub shop: Option<Shop>,
    /// Part families adopted, by word.
    pub families: BTreeMap<String, FamilyKept>,
    /// Sets of rules the shop wrote, by word.
    pub rule_sets: BTreeMap<String, RuleSetKept>,
    /// Who held which rule against the official text, by rule, in the order entered.
    pub rules_held: BTreeMap<String, Vec<Holding>>,
    /// People.
    pub persons: BTreeMap<PersonId, Person>,
    /// Engines.
    pub locomotives: BTreeMap<LocomotiveId, Locomotive>,
    /// Parts.
    pub parts: BTreeMap<PartId, Part>,
    /// Their readings, set by set.
    pub readings: Readings,
    /// Tooling.
    pub tooling: BTreeMap<ToolingId, Tooling>,
    /// Instruments.
    pub instruments: BTreeMap<InstrumentId, Instrument>,
    /// Spares.
    pub spares: BTreeMap<SpareId, Spare>,
    /// Lathes.
    pub lathes: BTreeMap<LatheId, Lathe>,
    /// Lathe cards that have a number.
    pub cards: BTreeMap<CardId, Card>,
    /// Letters.
    pub letters: BTreeMap<LetterId, Letter>,
    /// Photographs and scans; what they show lies in the file under its hash.
    pub photos: BTreeMap<PhotoId, Photo>,
    /// Fires, one by one.
    pub fires: Fires,
    /// What the fires of each engine add up to.
    pub logs: BTreeMap<LocomotiveId, EngineLog>,
    /// Boilers, by engine.
    pub boilers: BTreeMap<LocomotiveId, Boiler>,
    /// Inspections.
    pub inspections: BTreeMap<InspectionId, Inspection>,
    /// Crews' reports.
    pub reports: BTreeMap<ReportId, CrewReport>,
    /// Findings.
    pub findings: BTreeMap<FindingId, Finding>,
    /// Jobs.
    pub jobs: BTreeMap<JobId, Job>,
}

/// The shop, and the last number given to each kind of thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shop {
    /// Its name.
    pub name: String,
    /// Its time zone.
    pub time_zone: String,
    /// `inch` or `metric`.
    pub house: String,
    /// A demonstration book holds its today at this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub demonstration: Option<Date>,
    /// Last inspection number.
    pub inspections: u32,
    /// Last finding number.
    pub findings: u32,
    /// Last job number.
    pub jobs: u32,
    /// Last tooling number.
    pub tooling: u32,
    /// Last number of a symptom that a crew wrote up.
    #[serde(default)]
    pub write_ups: u32,
    /// Rules of its own work, in the order stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<ShopRule>,
    /// What it says of itself on its papers, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub particulars: Vec<Particular>,
    /// Last number of a photograph.
    #[serde(default)]
    pub photos: u32,
    /// Last number of a spare.
    #[serde(default)]
    pub spares: u32,
    /// Last number of a lathe.
    #[serde(default)]
    pub lathes: u32,
    /// Last number of a lathe card.
    #[serde(default)]
    pub cards: u32,
    /// Last number of a letter.
    #[serde(default)]
    pub letters: u32,
}

impl Shop {
    /// The rule of a word as it holds on a day: the newest statement that had been made by then, if it holds.
    pub fn rule(&self, word: &str, on: Date) -> Option<&ShopRule> {
        let told = self.rules.iter().enumerate();
        told.filter(|(_, rule)| rule.told.word == word && rule.on <= on)
            .max_by_key(|(at, rule)| (rule.on, *at))
            .map(|(_, rule)| rule)
            .filter(|rule| rule.told.holds)
    }
}

/// A rule of the shop's own work, as stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShopRule {
    /// What was stated.
    #[serde(flatten)]
    pub told: ShopRuleStated,
    /// By whom.
    pub by: PersonId,
    /// From which day.
    pub on: Date,
}

/// A rule as one person held it against the official text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Holding {
    /// What was stated.
    #[serde(flatten)]
    pub told: RuleHeld,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
    /// The entry.
    pub entry: u64,
}

/// An adopted family: its text as entered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FamilyKept {
    /// Its version.
    pub version: u32,
    /// The TOML text.
    pub text: String,
    /// The text as read, once somebody asked.
    #[serde(skip)]
    read: Read<Family>,
}

impl FamilyKept {
    pub(super) fn new(version: u32, text: String) -> FamilyKept {
        let read = Read::default();
        FamilyKept {
            version,
            text,
            read,
        }
    }

    /// The family the text describes.
    ///
    /// # Errors
    /// As [`Family::read`], as a sentence; a text is checked before it is adopted, so this fails only in a damaged
    /// book.
    pub fn family(&self) -> Result<&Family, &str> {
        self.read
            .get(|| Family::read(&self.text).map_err(|e| e.to_string()))
    }
}

/// A person.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Person {
    /// The name they sign with.
    pub name: String,
    /// Their trade, in the shop's words; it gives no authority.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trade: Option<String>,
    /// What they were added with; [`Person::standing`] says what they hold on a day.
    pub added_with: Vec<Authority>,
    /// Who added them.
    pub added_by: PersonId,
    /// When.
    pub added_on: Date,
    /// Authorities stated since, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stated: Vec<AuthorityKept>,
    /// Newest entry.
    pub last: u64,
}

/// A locomotive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Locomotive {
    /// The number on her cab.
    pub number: String,
    /// Wheel arrangement.
    pub wheels: String,
    /// Track gauge.
    pub gauge: Size,
    /// Which rulebook governs her, since she was added.
    pub jurisdiction: String,
    /// Rule sets that bind her beside it, and when that ceases to; in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules_bound: Vec<RulesBind>,
    /// Maximum allowable working pressure, psi gauge.
    pub mawp_psig: Option<u32>,
    /// Weight on drivers per driving axle, lb.
    pub axle_load_lb: Option<u32>,
    /// Fittings known to be there or not.
    pub fittings: BTreeMap<String, bool>,
    /// Inspections held before the book.
    pub held_before: Vec<HeldBefore>,
    /// Days in her life that clocks and papers run from, in the order entered.
    #[serde(default)]
    pub days: Vec<DayStated>,
    /// Facts that decide which clocks bind her, in the order entered.
    #[serde(default)]
    pub facts: Vec<FactStated>,
    /// Spells out of use, in the order entered.
    #[serde(default)]
    pub out_of_use: Vec<Spell>,
    /// What the shop says of her on its papers, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub particulars: Vec<Particular>,
    /// Moves while she did not comply, in the order decided.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<Movement>,
    /// Papers sent, in the order entered.
    #[serde(default)]
    pub papers: Vec<Sent>,
    /// The log is complete through this day: the end of the first stretch of days vouched for.
    pub log_through: Option<Date>,
    /// The first day the book's own log speaks of.
    pub log_from: Option<Date>,
    /// Every stretch of days somebody vouched for, first to last, in order and without touching. More
    /// than one only where a closing between them was taken back.
    #[serde(default)]
    pub log_closed: Vec<(Date, Date)>,
    /// What papers count over spans of her log, in the order entered.
    #[serde(default)]
    pub paper_counts: Vec<PaperCount>,
    /// Runs promised.
    pub promises: Vec<Promise>,
    /// The last release.
    pub released: Option<ReleaseGiven>,
    /// Entry number of the last thing that ends a release: a finding, a job or work on it, an opened inspection, a
    /// day that a clock runs from.
    pub unsettled: u64,
    /// Newest entry.
    pub last: u64,
}

impl Locomotive {
    /// What a fact was on a day, if somebody stated it: the newest statement that had begun by then.
    pub fn fact(&self, word: &str, on: Date) -> Option<&str> {
        let told = self.facts.iter().enumerate();
        told.filter(|(_, f)| f.fact == word && f.from <= on)
            .max_by_key(|(at, f)| (f.from, *at))
            .map(|(_, f)| f.value.as_str())
    }

    /// Whether somebody vouched that the log holds every fire of a day.
    pub fn log_holds(&self, day: Date) -> bool {
        self.log_closed
            .iter()
            .any(|(from, through)| (*from..=*through).contains(&day))
    }

    /// Takes one closing of the log. Days between two closings are not closed by them.
    pub(crate) fn close_log(&mut self, from: Date, through: Date) {
        let mut all = std::mem::take(&mut self.log_closed);
        all.push((from, through));
        all.sort();
        for (from, through) in all {
            match self.log_closed.last_mut() {
                Some((_, end)) if end.tomorrow().is_ok_and(|next| from > next) => {
                    self.log_closed.push((from, through));
                }
                Some((_, end)) => *end = through.max(*end),
                None => self.log_closed.push((from, through)),
            }
        }
        let first = self.log_closed.first();
        self.log_from = first.map(|(from, _)| *from);
        self.log_through = first.map(|(_, through)| *through);
    }
}

/// A spell out of use, as attested.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spell {
    /// The first whole day.
    pub from: Date,
    /// The last whole day.
    pub through: Date,
    /// Why, and where she stood.
    pub told: String,
    /// Who attests it.
    pub by: PersonId,
}

/// A paper sent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sent {
    /// What was stated.
    #[serde(flatten)]
    pub paper: PaperSent,
    /// By whom.
    pub by: PersonId,
}

/// A promised run.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Promise {
    /// Its id.
    pub id: RunId,
    /// The day.
    pub day: Date,
    /// What was promised.
    pub what: String,
}

/// A release.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReleaseGiven {
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
    /// Log closed through.
    pub log_through: Date,
    /// The entry.
    pub entry: u64,
}

/// What a paper counted, as stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PaperCount {
    /// The entry that says so.
    pub entry: u64,
    /// What was stated.
    #[serde(flatten)]
    pub told: PaperCounted,
    /// Who entered it.
    pub by: PersonId,
}

/// A day told without the times of its fire.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DayTold {
    /// The day.
    pub day: Date,
    /// Whether it was a service day.
    pub stood: Stood,
    /// The paper it was read from, or who remembers it.
    pub told: String,
}

/// A line of the log, as stated: a fire, or a day told without its times.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fire {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Fire lit.
    pub lit: Option<DateTime>,
    /// Pressure first above atmosphere.
    pub up: Option<DateTime>,
    /// Fire out.
    pub out: Option<DateTime>,
    /// Pressure gone.
    pub gone: Option<DateTime>,
    /// Miles run.
    pub miles: Option<u32>,
    /// Whether she was offered for use.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offered: Option<bool>,
    /// The day that is told without the times; then none of them is written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub day: Option<DayTold>,
    /// The entry that says so.
    pub entry: u64,
}

impl Fire {
    /// When it begins, so far as anybody wrote it: the earliest of its beginnings, or the first moment of the
    /// day that is told.
    pub fn begins(&self) -> Option<DateTime> {
        let told = self.day.as_ref().map(|it| it.day.at(0, 0, 0, 0));
        self.lit.into_iter().chain(self.up).min().or(told)
    }
}

/// An inspection.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Inspection {
    /// I-001.
    pub number: u32,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Its kind.
    pub kind: String,
    /// The day it was opened.
    pub opened_on: Date,
    /// By whom.
    pub opened_by: PersonId,
    /// What it asks.
    pub items: Vec<ItemAsked>,
    /// Answers, by rule.
    pub answers: BTreeMap<String, AnswerGiven>,
    /// The day it was closed, and by whom.
    pub closed: Option<(Date, PersonId)>,
    /// Where and at what time of day it was made, if somebody said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<Made>,
    /// Put away without being completed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_completed: Option<PutAway>,
    /// The day that starts the clocks after it, where somebody stated one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub anchor: Option<AnchorTaken>,
    /// Newest entry.
    pub last: u64,
}

impl Inspection {
    /// Whether it waits for answers: neither closed nor put away.
    pub fn is_open(&self) -> bool {
        self.closed.is_none() && self.not_completed.is_none()
    }

    /// The day it was closed or put away.
    pub fn ended_on(&self) -> Option<Date> {
        let closed = self.closed.map(|(day, _)| day);
        closed.or(self.not_completed.as_ref().map(|away| away.on))
    }
}

/// An inspection that was not completed and will not be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutAway {
    /// Why.
    pub because: String,
    /// Who put it away.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
}

/// The day of an inspection that starts the clocks after it, as stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnchorTaken {
    /// The day.
    pub day: Date,
    /// How the rule was read.
    pub reading: String,
    /// By whom.
    pub by: PersonId,
}

/// An answered item.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerGiven {
    /// The answer.
    pub answer: Answer,
    /// What was seen.
    pub seen: String,
    /// Less than good, with no defect.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub condition: Option<ItemCondition>,
    /// Who looked.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
}

/// A crew's report of a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CrewReport {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The day it speaks of.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// What was noticed; none of it where there was nothing to report.
    pub symptoms: Vec<SymptomTold>,
    /// What else there was to say.
    pub told: Option<String>,
    /// The entry that holds it.
    pub entry: u64,
    /// Newest entry.
    pub last: u64,
}

/// A symptom that a crew wrote up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SymptomTold {
    /// W-001.
    pub number: u32,
    /// As told.
    #[serde(flatten)]
    pub symptom: Symptom,
    /// What somebody who may inspect saw, once they looked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub looked: Option<SymptomLooked>,
}

/// What came of a symptom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SymptomLooked {
    /// The finding it turned out to be; none where there is no defect.
    pub finding: Option<FindingId>,
    /// What was seen.
    pub seen: String,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
}

/// How far a finding has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FindingState {
    /// Nobody has decided.
    Open,
    /// Decided; no job yet.
    Decided,
    /// A job is made and not closed.
    InWork,
    /// Put right, proved and signed.
    Closed,
    /// Carried by decision.
    Carried,
}

/// A finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Finding {
    /// F-001.
    pub number: u32,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Which part.
    pub part: PartId,
    /// What it hangs on.
    pub occasion: Occasion,
    /// What the part does.
    pub conditions: Vec<String>,
    /// In the finder's words.
    pub told: String,
    /// As found.
    pub readings: Vec<FeatureReading>,
    /// The day it was found.
    pub found_on: Date,
    /// By whom.
    pub found_by: PersonId,
    /// How far it has come.
    pub state: FindingState,
    /// Rules of the clocks it started.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clocks: Vec<String>,
    /// Who gave the special notice it hangs on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notice: Option<NoticeGiven>,
    /// The lifting of that notice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lifted: Option<NoticeLifted>,
    /// The decision: the newest, where it was carried and decided on again.
    pub decision: Option<DecisionTaken>,
    /// Each time somebody decided to carry it, oldest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub carried: Vec<CarriedOn>,
    /// The job.
    pub job: Option<JobId>,
    /// The entry that recorded it.
    pub entry: u64,
    /// Newest entry.
    pub last: u64,
}

/// One decision to carry a finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarriedOn {
    /// The day.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// Why.
    pub because: String,
    /// The day it is looked at again.
    pub recheck: Option<Date>,
}

/// A decision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DecisionTaken {
    /// The route.
    pub route: String,
    /// Why.
    pub because: String,
    /// The verdict as worded that day.
    pub verdict: String,
    /// The rulings behind it.
    pub rulings: Vec<RulingRef>,
    /// The sheets, as printed.
    pub sheets: Vec<PrintedSheet>,
    /// When to look again.
    pub recheck: Option<Date>,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
}

/// A trial of a proof that a later one stands for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trial {
    /// The proof.
    pub proof: String,
    /// Whether it held.
    pub passed: bool,
    /// What was seen.
    pub told: String,
    /// By whom.
    pub by: PersonId,
    /// When.
    pub on: Date,
}

/// What became of an operation.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OperationState {
    /// Done: when, by whom, how long, what was said.
    pub done: Option<(Date, PersonId, Option<QuarterHours>, String)>,
    /// Hold cleared: when it was entered, by whom, what was seen.
    pub cleared: Option<(Date, PersonId, String)>,
    /// The day and the paper, where it was cleared in person and entered later.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cleared_on_paper: Option<OnPaper>,
}

/// A signature.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Signature {
    /// In which capacity.
    pub capacity: Authority,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
    /// The entry.
    pub entry: u64,
    /// What was signed, in words, where the entry holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated: Option<String>,
}

/// A paper of a job, as kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobPaperOf {
    /// As stated.
    #[serde(flatten)]
    pub kept: JobPaperKept,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
    /// The entry.
    pub entry: u64,
}

/// A face as it was blued once.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Blue {
    /// What was seen.
    #[serde(flatten)]
    pub seen: BlueSeen,
    /// Who saw it.
    pub by: PersonId,
    /// When.
    pub on: Date,
}

/// A job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// J-001.
    pub number: u32,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The plan, as made.
    pub plan: JobMade,
    /// Who made it.
    pub made_by: PersonId,
    /// The day.
    pub made_on: Date,
    /// What became of each operation.
    pub operations: Vec<OperationState>,
    /// Proofs made: passed, what was seen, by whom, when. A later one stands for an earlier one.
    pub proofs: BTreeMap<String, (bool, String, PersonId, Date)>,
    /// Earlier trials of proofs that were made again, in the order made: one that did not hold is never struck out.
    pub earlier: Vec<Trial>,
    /// As-left readings.
    pub left: Vec<FeatureReading>,
    /// Its papers, in the order kept.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub papers: Vec<JobPaperOf>,
    /// Knock-ons looked at: what was seen, by whom, when.
    pub knock_ons: BTreeMap<String, (String, PersonId, Date)>,
    /// Signatures.
    pub signatures: Vec<Signature>,
    /// Blue checks while it was lapped, in the order made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blues: Vec<Blue>,
    /// Closed: when, by whom, the verdict as worded.
    pub closed: Option<(Date, PersonId, String)>,
    /// Entry number of the last change to the work itself (signatures must be newer).
    pub work: u64,
    /// Newest entry.
    pub last: u64,
}
