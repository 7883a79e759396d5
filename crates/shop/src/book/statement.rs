//! What a person can state: one struct a statement, in the order of the flow.
//!
//! These are the stored forms. The bytes of a body are hashed as written, and a book must open for
//! ever, so a form that has landed never changes: a changed statement gets a new form number and the
//! old one keeps decoding. Bodies hold no floats: sizes are ticks, fractions and readings are text.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Size, State};
use serde::{Deserialize, Serialize};

pub use super::blue_statement::{BlueChecked, BlueSeen, BluedFace, RingWidth, Touch};
pub use super::boiler_statement::{
    BoilerCardSigned, BoilerEntered, BoilerSurveyed, CardLineKept, StayRow, StaysMapped, StaysTold,
    SurveyHeld,
};
pub use super::card_statement::CardKept;
pub use super::crew_statement::{
    CrewReported, Heat, NoticeGiven, NoticeLifted, Symptom, SymptomAnswered,
};
pub use super::day_statement::{
    InspectedBy, InspectionClosed, InspectionNotCompleted, Made, MoveDecided, MoveEnd, MoveEnded,
    MoveUnder, MovedHow, ParticularStated,
};
pub use super::engine_statement::{DayStated, FactStated, HeldBefore, OutOfUse};
use super::id::{BatchId, FindingId, InspectionId, JobId, LocomotiveId, PartId};
pub use super::job_statement::{JobPaper, JobPaperKept, WindowFrom};
pub use super::lathe_statement::{
    DialReads, LatheAdded, LatheKnown, LatheTaper, LatheTold, SwivelZero, ThreadDial,
};
pub use super::letter_statement::{LetterAnswered, LetterLogged, Promised, Way};
pub use super::log_statement::{
    DayLogged, FireLogged, LogClosed, PaperCounted, RunPromised, Stood,
};
pub use super::part_statement::{
    Circumstances, EngineState, FeatureFacts, FeatureTold, InstrumentAdded, InstrumentChecked,
    PartAdded, PartKnown, PartTold, PhotoAdded, PhotoOf, Questioned, Side, ToolingAdded,
};
pub use super::people_statement::{Authority, AuthorityStated, OnPaper, PersonAdded};
pub use super::shop_statement::{RuleHeld, ShopRuleStated};
pub use super::spare_statement::{
    Amount, Counted, SpareAdded, SpareCounted, SpareHeld, SpareKnown, SpareReceived, SpareSettled,
    SpareTold, SpareUsed, UsedOn,
};
pub use super::tool_statement::{ToolingChecked, ToolingMoved, ToolingTakenOut, ToolingTold};

/// A statement that could not be read back from its stored form.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FormError {
    /// This build does not know the kind or the form number.
    #[error("this build does not know the statement `{kind}` in form {form}")]
    Unknown {
        /// The kind as stored.
        kind: String,
        /// The form number as stored.
        form: u32,
    },
    /// The body is not what the form says.
    #[error("the body of a `{kind}` does not read: {why}")]
    Body {
        /// The kind as stored.
        kind: String,
        /// What the reader said.
        why: String,
    },
}

macro_rules! statements {
    ($($(#[$doc:meta])* $name:ident = $kind:literal form $form:literal $(or $more:literal where $field:ident)*),* $(,)?) => {
        /// One statement by one person.
        #[derive(Debug, Clone, PartialEq, Eq)]
        pub enum Statement {
            $($(#[$doc])* $name($name),)*
        }

        impl Statement {
            /// Every kind with the form number it is written in, in the order of the flow. A kind whose
            /// newest form only adds a fact is written in the older one where that fact is missing. Where several add
            /// one, the newest form is named first.
            pub const KINDS: &'static [(&'static str, u32)] = &[$(($kind, $form)),*];

            /// The kind as stored.
            pub fn kind(&self) -> &'static str {
                match self { $(Statement::$name(_) => $kind,)* }
            }

            /// The number of the form this build writes.
            pub fn form(&self) -> u32 {
                match self { $(Statement::$name(_it) => {
                    $(if _it.$field.is_some() { return $more; })*
                    $form
                },)* }
            }

            /// The body to store: UTF-8 JSON without floats.
            ///
            /// # Errors
            /// Only if the statement cannot be written as JSON, which no statement of ours is.
            pub fn body(&self) -> Result<String, FormError> {
                let written = match self { $(Statement::$name(it) => serde_json::to_string(it),)* };
                written.map_err(|e| FormError::Body { kind: self.kind().into(), why: e.to_string() })
            }

            /// Reads a stored statement.
            ///
            /// # Errors
            /// [`FormError`] if the kind or form is unknown to this build or the body does not fit it.
            #[allow(clippy::manual_range_patterns, reason = "each form is named where its kind is")]
            pub fn read(kind: &str, form: u32, body: &str) -> Result<Statement, FormError> {
                match (kind, form) {
                    $(($kind, $form $(| $more)*) => serde_json::from_str(body)
                        .map(Statement::$name)
                        .map_err(|e| FormError::Body { kind: kind.into(), why: e.to_string() }),)*
                    _ => Err(FormError::Unknown { kind: kind.into(), form }),
                }
            }
        }
    };
}

statements! {
    /// The book was opened.
    BookOpened = "book-opened" form 1,
    /// A part family was taken into the book as it stood.
    FamilyAdopted = "family-adopted" form 1,
    /// A set of rules that the shop wrote was taken into the book, from a day on.
    RulesAdopted = "rules-adopted" form 1,
    /// A person held a version of a rule against the official text.
    RuleHeld = "rule-held" form 1,
    /// A rule of this shop's own work holds from now on, or holds no more.
    ShopRuleStated = "shop-rule-stated" form 1,
    /// A person and what they may do.
    PersonAdded = "person-added" form 1 or 2 where trade,
    /// An authority given to a person for a time, or taken back.
    AuthorityStated = "authority-stated" form 1,
    /// A locomotive.
    LocomotiveAdded = "locomotive-added" form 1,
    /// A rule set binds a locomotive, or ceases to.
    RulesBind = "rules-bind" form 1,
    /// An inspection held before this book began.
    HeldBefore = "held-before" form 1,
    /// A day in an engine's life that a clock or a paper runs from.
    DayStated = "day-stated" form 1,
    /// A fact of an engine that decides which clocks bind her.
    FactStated = "fact-stated" form 1,
    /// What the shop says of itself or of an engine on its papers.
    ParticularStated = "particular-stated" form 1,
    /// A spell in which an engine was not used, attested by the one who enters it.
    OutOfUse = "out-of-use" form 1,
    /// A part of a locomotive.
    PartAdded = "part-added" form 1 or 2 where known,
    /// More is known of a part.
    PartTold = "part-told" form 1,
    /// A component of a boiler, or more of one that stands.
    BoilerEntered = "boiler-entered" form 1,
    /// The thickness of a sheet of a boiler, read on squares.
    BoilerSurveyed = "boiler-surveyed" form 1,
    /// Where the staybolts of a sheet are.
    StaysMapped = "stays-mapped" form 1,
    /// What was found or done at staybolts.
    StaysTold = "stays-told" form 1,
    /// A boiler card, frozen as it was signed.
    BoilerCardSigned = "boiler-card-signed" form 1 or 2 where surveys,
    /// An instrument.
    InstrumentAdded = "instrument-added" form 1,
    /// An instrument was held against something better.
    InstrumentChecked = "instrument-checked" form 1,
    /// A piece of tooling and where it lies.
    ToolingAdded = "tooling-added" form 1,
    /// More is known of a tool.
    ToolingTold = "tooling-told" form 1,
    /// A tool was held against something better.
    ToolingChecked = "tooling-checked" form 1,
    /// A tool lies somewhere else from now on.
    ToolingMoved = "tooling-moved" form 1,
    /// A tool is no longer to be used.
    ToolingTakenOut = "tooling-taken-out" form 1,
    /// A spare.
    SpareAdded = "spare-added" form 1,
    /// More is known of a spare.
    SpareTold = "spare-told" form 1,
    /// Some of a spare came in.
    SpareReceived = "spare-received" form 1,
    /// Some of a spare were used.
    SpareUsed = "spare-used" form 1,
    /// A spare was counted.
    SpareCounted = "spare-counted" form 1,
    /// A difference between a count and the ledger was answered for.
    SpareSettled = "spare-settled" form 1,
    /// Some of a spare are held for a job.
    SpareHeld = "spare-held" form 1,
    /// A lathe.
    LatheAdded = "lathe-added" form 1 or 2 where taper,
    /// More is known of a lathe.
    LatheTold = "lathe-told" form 1 or 2 where taper,
    /// A lathe card was kept under a number.
    CardKept = "card-kept" form 1,
    /// A letter.
    LetterLogged = "letter-logged" form 1,
    /// What came of a letter's promise.
    LetterAnswered = "letter-answered" form 1,
    /// A fire.
    FireLogged = "fire-logged" form 1 or 2 where offered,
    /// What is known of a day without the times of its fire.
    DayLogged = "day-logged" form 1,
    /// What a paper says of the service days of a span.
    PaperCounted = "paper-counted" form 1,
    /// The log of an engine is complete through a day.
    LogClosed = "log-closed" form 1,
    /// A run promised for a day.
    RunPromised = "run-promised" form 1,
    /// An inspection was opened.
    InspectionOpened = "inspection-opened" form 1,
    /// An item of an inspection was answered.
    ItemAnswered = "item-answered" form 1 or 2 where condition,
    /// What a crew reports of a day, symptoms or none.
    CrewReported = "crew-reported" form 1,
    /// A condition found, with its readings.
    FindingRecorded = "finding-recorded" form 1 or 3 where taken or 2 where notice,
    /// Somebody looked at what a crew wrote up.
    SymptomAnswered = "symptom-answered" form 1,
    /// The authority that gave a special notice lifted it.
    NoticeLifted = "notice-lifted" form 1,
    /// A finding starts a clock of its own.
    ClockOpened = "clock-opened" form 1,
    /// A named person's choice among routes.
    Decided = "decided" form 1,
    /// A job with its operations.
    JobMade = "job-made" form 1,
    /// An operation of a job was done.
    OperationDone = "operation-done" form 1,
    /// The right person looked, and the job may go on.
    HoldCleared = "hold-cleared" form 1 or 2 where paper,
    /// A paper of a job: a permit, proof of zero pressure, a certificate, a press chart, what was bought.
    JobPaperKept = "job-paper-kept" form 1 or 2 where window_from,
    /// A face was blued while it was lapped.
    BlueChecked = "blue-checked" form 1,
    /// A proof was made.
    Proved = "proved" form 1,
    /// A set of readings of a part.
    ReadingsTaken = "readings-taken" form 1 or 3 where finding or 2 where taken,
    /// A photograph or a scan.
    PhotoAdded = "photo-added" form 1 or 2 where letter,
    /// A knock-on was looked at.
    KnockOnAnswered = "knock-on-answered" form 1,
    /// A signature.
    Signed = "signed" form 1 or 2 where stated,
    /// A job was closed.
    JobClosed = "job-closed" form 1,
    /// An inspection was closed.
    InspectionClosed = "inspection-closed" form 1 or 2 where made,
    /// An inspection was put away without being completed.
    InspectionNotCompleted = "inspection-not-completed" form 1,
    /// An engine that does not comply may be moved, somebody decided.
    MoveDecided = "move-decided" form 1,
    /// Such a move ended.
    MoveEnded = "move-ended" form 1,
    /// Which day of an inspection starts the clocks that follow it.
    AnchorStated = "anchor-stated" form 1,
    /// A paper was sent, filed or put up.
    PaperSent = "paper-sent" form 1,
    /// The engine was handed to service.
    Released = "released" form 1,
    /// An earlier statement is put right.
    Correction = "correction" form 1,
    /// A whole batch is taken back.
    BatchWithdrawn = "batch-withdrawn" form 1,
}

/// The first entry of every book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BookOpened {
    /// The shop's name.
    pub shop: String,
    /// Its one time zone, by its IANA name.
    pub time_zone: String,
    /// `inch` or `metric`.
    pub house: String,
    /// A demonstration book holds its today at this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub demonstration: Option<Date>,
}

/// A part family as data, so that one file reproduces every verdict.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FamilyAdopted {
    /// The family's word, e.g. `check-valve`.
    pub family: String,
    /// Its version.
    pub version: u32,
    /// The whole TOML text.
    pub text: String,
}

/// A set of rules that the shop wrote, as text, so that one file reproduces every verdict. A later text of the same
/// set takes its place from its own day on; what this one bound until then stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesAdopted {
    /// The set's word, e.g. `juniper-fork`.
    pub set: String,
    /// Which text of the set this is, counted from 1.
    pub edition: u32,
    /// The first day it holds.
    pub from: Date,
    /// The whole TOML text.
    pub text: String,
}

/// A locomotive and what is known of her.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LocomotiveAdded {
    /// Made by the device.
    pub id: LocomotiveId,
    /// The number on her cab.
    pub number: String,
    /// Wheel arrangement, e.g. `2-8-0`.
    pub wheels: String,
    /// Track gauge.
    pub gauge: Size,
    /// Which rulebook governs her.
    pub jurisdiction: String,
    /// Maximum allowable working pressure, psi gauge, from her specification card.
    pub mawp_psig: Option<u32>,
    /// Weight on drivers divided by driving axles, lb.
    pub axle_load_lb: Option<u32>,
    /// Fittings known to be there (true) or not (false); what is not listed is not known.
    pub fittings: BTreeMap<String, bool>,
}

/// A rule set binds a locomotive for some days, beside the one she was added under. A later statement about the
/// same set takes its place; one about the set she was added under says only when that ceases to bind her.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesBind {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The set's word: of this program's rulebook, or of a set in this book.
    pub set: String,
    /// The first day.
    pub from: Date,
    /// The last day; missing while it goes on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub through: Option<Date>,
    /// The document that says so.
    pub document: String,
}

/// An item asked at an inspection: the rule and the version in force on the day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ItemAsked {
    /// The rule.
    pub rule: String,
    /// Its version.
    pub version: u32,
    /// What is to be looked at.
    pub text: String,
    /// The section behind it.
    pub section: String,
    /// The fitting it speaks of, if it speaks only of engines that have one.
    pub fitting: Option<String>,
}

/// An inspection was opened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InspectionOpened {
    /// Made by the device.
    pub id: InspectionId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// `daily`, `31`, `92`, `annual`, `fifth-annual`, `1472`.
    pub kind: String,
    /// What it asks.
    pub items: Vec<ItemAsked>,
}

/// How an item was answered. There is no one word for all of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "answer")]
pub enum Answer {
    /// Looked at; no defect.
    Good,
    /// A defect, recorded as this finding.
    Defect {
        /// The finding.
        finding: FindingId,
    },
    /// The engine has no such fitting.
    NotFitted,
}

/// What the looker calls something that is not a defect, where *good* would say too much. The words are those of the
/// condition columns on the federal forms (good, fair, poor); *poor* is unlawful there, so here it is a defect.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ItemCondition {
    /// Below its best, but safe and within the law.
    Fair,
}

/// An item of an inspection was answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ItemAnswered {
    /// Which inspection.
    pub inspection: InspectionId,
    /// Which item, by its rule.
    pub rule: String,
    /// The answer.
    pub answer: Answer,
    /// What was seen, in the looker's words.
    pub seen: String,
    /// Less than good, with no defect; none where it was simply good, or is a defect, or is not fitted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub condition: Option<ItemCondition>,
}

/// What a finding hangs on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "on")]
pub enum Occasion {
    /// An inspection.
    Inspection {
        /// Which.
        inspection: InspectionId,
    },
    /// A crew's write-up.
    WriteUp,
    /// A failure on the road.
    RoadFailure,
    /// An inspector's special notice.
    SpecialNotice,
    /// Planned work.
    PlannedWork,
}

/// A reading of one feature at one position, kept as written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FeatureReading {
    /// Which feature of the part.
    pub feature: String,
    /// What was written: digits or fraction, unit, instrument, position.
    #[serde(flatten)]
    pub reading: measure::Reading,
}

/// A condition found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FindingRecorded {
    /// Made by the device.
    pub id: FindingId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Which part.
    pub part: PartId,
    /// What it hangs on.
    pub occasion: Occasion,
    /// What the part does, in the family's words, e.g. `weeps-back`.
    pub conditions: Vec<String>,
    /// What was seen, in the finder's words.
    pub told: String,
    /// As-found readings.
    pub readings: Vec<FeatureReading>,
    /// Who gave the special notice it hangs on; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notice: Option<NoticeGiven>,
    /// How the readings were taken; form 3 holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Circumstances>,
}

/// A finding starts a clock of its own: a broken staybolt's thirty days. It ends with the finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClockOpened {
    /// Which finding.
    pub finding: FindingId,
    /// The rule of the clock.
    pub rule: String,
}

/// A ruling that was applied: which rule, in which version.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct RulingRef {
    /// The rule.
    pub rule: String,
    /// Its version.
    pub version: u32,
}

impl From<&rules::Ruling> for RulingRef {
    fn from(ruling: &rules::Ruling) -> RulingRef {
        RulingRef {
            rule: ruling.rule.clone(),
            version: ruling.version,
        }
    }
}

/// A sheet kept as it was printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PrintedSheet {
    /// The sheet's id.
    pub sheet: String,
    /// The whole text, as printed.
    pub text: String,
}

/// A named person's choice among routes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Decided {
    /// What was decided on.
    pub finding: FindingId,
    /// The route's word.
    pub route: String,
    /// Why.
    pub because: String,
    /// The verdict as it was worded that day.
    pub verdict: String,
    /// The rulings behind it.
    pub rulings: Vec<RulingRef>,
    /// The sheets, as printed.
    pub sheets: Vec<PrintedSheet>,
    /// When it must be looked at again, where a shop limit was passed.
    pub recheck: Option<Date>,
}

/// Hours of work in quarters, so that no fraction is lost.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct QuarterHours(pub u32);

impl std::fmt::Display for QuarterHours {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let whole = self.0 / 4;
        match (whole, self.0 % 4) {
            (w, 0) => write!(f, "{w} h"),
            (0, q) => write!(f, "{} h", ["", "1/4", "1/2", "3/4"][q as usize % 4]),
            (w, q) => write!(f, "{w} {} h", ["", "1/4", "1/2", "3/4"][q as usize % 4]),
        }
    }
}

/// A stop in a job until the right person looks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HoldPoint {
    /// What is looked at.
    pub look: String,
    /// Who may clear it.
    pub by: Authority,
}

/// One step of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Operation {
    /// What is done.
    pub what: String,
    /// Where: bench, lathe, engine.
    pub place: String,
    /// The state the engine must be in, e.g. `cold and drained`.
    pub engine: String,
    /// Low, likely and high.
    pub hours: [QuarterHours; 3],
    /// A stop after it, if there is one.
    pub hold: Option<HoldPoint>,
}

/// A job that a decision ordered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobMade {
    /// Made by the device.
    pub id: JobId,
    /// The finding it puts right.
    pub finding: FindingId,
    /// The route decided.
    pub route: String,
    /// One line.
    pub title: String,
    /// What is to be made first.
    pub tooling: Vec<String>,
    /// The sizes worked to, as told by the design.
    pub sizes: Vec<String>,
    /// Steps, in order.
    pub operations: Vec<Operation>,
    /// Proofs asked.
    pub proofs: Vec<String>,
    /// What must be checked because a size changed.
    pub knock_ons: Vec<String>,
    /// When to stop and ask.
    pub stop_points: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// The sheets, as printed.
    pub sheets: Vec<PrintedSheet>,
    /// The day promised.
    pub promised: Option<Date>,
}

/// An operation was done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OperationDone {
    /// Which job.
    pub job: JobId,
    /// Which operation, counted from 1.
    pub operation: u32,
    /// How long it took, if anyone kept it.
    pub hours: Option<QuarterHours>,
    /// What there is to say.
    pub told: String,
}

/// A hold point was cleared.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HoldCleared {
    /// Which job.
    pub job: JobId,
    /// After which operation, counted from 1.
    pub operation: u32,
    /// What was seen.
    pub seen: String,
    /// Where it was cleared in person, with a pencil, and entered later; form 2 holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paper: Option<OnPaper>,
}

/// A proof was made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Proved {
    /// Which job.
    pub job: JobId,
    /// Which proof.
    pub proof: String,
    /// Whether it held.
    pub passed: bool,
    /// What was seen.
    pub told: String,
}

/// A set of readings of a part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReadingsTaken {
    /// Which part.
    pub part: PartId,
    /// The job, if they belong to one.
    pub job: Option<JobId>,
    /// As found or as left.
    pub state: State,
    /// The readings.
    pub readings: Vec<FeatureReading>,
    /// How they were taken; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Circumstances>,
    /// The finding they are read for, if it asks for them; form 3 holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finding: Option<FindingId>,
}

/// A knock-on was looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KnockOnAnswered {
    /// Which job.
    pub job: JobId,
    /// Which knock-on.
    pub knock_on: String,
    /// What was found.
    pub seen: String,
}

/// A signature on a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Signed {
    /// Which job.
    pub job: JobId,
    /// In which capacity.
    pub capacity: Authority,
    /// What was signed, in the words that stood before the one who signed; form 2 holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated: Option<String>,
}

/// A job was closed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobClosed {
    /// Which job.
    pub job: JobId,
    /// The verdict on the as-left state, as worded.
    pub verdict: String,
    /// The rulings behind it.
    pub rulings: Vec<RulingRef>,
}

/// Which day of an inspection that took more than one starts the clocks that follow it. Who enters it
/// answers for the reading.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnchorStated {
    /// Which inspection.
    pub inspection: InspectionId,
    /// The day.
    pub day: Date,
    /// How the rule was read.
    pub reading: String,
}

/// What a paper was about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "about")]
pub enum PaperAbout {
    /// An inspection of this book.
    Inspection {
        /// Which.
        inspection: InspectionId,
    },
    /// A day: that of an inspection to come, of work completed, or 31 December of a year reported on.
    Day {
        /// Which.
        day: Date,
    },
}

/// A paper was sent, filed or put up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PaperSent {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The rule that asks for it.
    pub rule: String,
    /// What it was about.
    #[serde(flatten)]
    pub about: PaperAbout,
    /// The day it went.
    pub sent_on: Date,
    /// How, and what shows it.
    pub told: String,
}

/// The engine was handed to service.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Released {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The log was closed through this day when she was released.
    pub log_through: Date,
}

/// An earlier statement put right. The entry that carries it names the one it supersedes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Correction {
    /// Why.
    pub because: String,
    /// The kind, the same as the one put right.
    pub kind: String,
    /// The form of the body below.
    pub form: u32,
    /// The body that stands instead, as text.
    pub body: String,
}

impl Correction {
    /// The statement that stands instead.
    ///
    /// # Errors
    /// [`FormError`] as [`Statement::read`].
    pub fn statement(&self) -> Result<Statement, FormError> {
        Statement::read(&self.kind, self.form, &self.body)
    }
}

/// A whole batch taken back, as if never entered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchWithdrawn {
    /// Which batch.
    pub batch: BatchId,
    /// Why.
    pub because: String,
}
