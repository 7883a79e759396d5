//! The book: what people stated, in order, and the state that those statements add up to.
//!
//! [`Statement`] is what one person said once; [`Book`] is the fold of all of them. The types live
//! here, above every stage, because each stage reads the book and answers with statements.

mod boiler;
mod boiler_statement;
mod crew_statement;
mod day_set;
mod day_statement;
mod engine_statement;
mod family;
mod family_built_in;
mod family_file;
mod family_words;
mod fire_days;
mod fold;
mod fold_card;
mod fold_lathe;
mod fold_letter;
mod fold_part;
mod fold_spare;
mod fold_tool;
mod id;
mod job_statement;
mod blue_statement;
mod card_statement;
mod lathe_statement;
mod lead;
mod log;
mod letter_statement;
mod log_statement;
mod moved;
mod people;
mod people_statement;
mod part_statement;
mod readings;
mod read;
mod rows;
mod rule_set;
mod seek;
mod shop_statement;
mod spare_statement;
mod state;
mod state_part;
mod statement;
mod tool_statement;

pub use boiler::{Boiler, BoilerFact, CardEdition, Component, StaySaid, StaySheet, Survey};
pub use day_set::DaySet;
pub use family::{
    Condition, Difference, Family, FamilyError, Feature, FeatureKind, Hold, KnockOn, OperationPlan,
    PAIR_PLACES, Place, Proof, Route, RuleChoice, Wears, Worst,
};
pub use family_file::{Known as KnownToFamilies, faults as family_faults};
pub use family_words::{
    Area, BoilerWork, Calculation, Change, HoursFrom, Joining, LimitNamed, OfEngine, OfSurvey,
    Rung, Source, Whose,
};
pub use fire_days::{Days, days_of_fire};
pub use fold::{FoldError, Meta, fold};
pub use fold_card::{Card, Revision};
pub use fold_lathe::Lathe;
pub use fold_letter::{Answered, Letter};
pub use fold_spare::{MoveOf, Spare, SpareMove};
pub use id::{
    BatchId, CardId, EntryId, FindingId, FireId, IdError, InspectionId, InstrumentId, JobId,
    LatheId, LetterId, LocomotiveId, MoveId, PartId, PersonId, PhotoId, ReportId, RunId, SpareId,
    ToolingId,
};
pub use lead::{LEAD_TIME, Lead, MOST_LEAD_DAYS, lead_days, lead_of, lead_weeks, read_lead};
pub use log::{EngineLog, Fires};
pub use moved::{Movement, Particular};
pub use people::{AuthorityKept, Standing};
pub use readings::Readings;
pub use rows::{Row, RowKind};
pub use rule_set::{Edition, RuleSetKept};
pub use seek::{Term, Wanted, is_found, row_words, says, stands_in, wanted};
pub use state::{
    AnchorTaken, AnswerGiven, Blue, Book, CarriedOn, CheckMade, CrewReport, DayTold, DecisionTaken,
    FamilyKept, Finding, FindingState, Fire, Holding, Inspection, Instrument, Job, JobPaperOf,
    LastRead, Locomotive, OperationState, PaperCount, Part, PartSaid, Person, Photo, Promise,
    PutAway, ReadingSet, ReleaseGiven, Sent, Shop, ShopRule, Signature, Spell, SymptomLooked,
    SymptomTold, TakenOut, Tooling, Trial,
};
pub use statement::*;
