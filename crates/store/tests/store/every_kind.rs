//! One statement of every kind, in the order of the flow, each with every fact it can hold.
//!
//! Together they are a history that folds: a feed check that weeps is found, decided on, re-cut, proved
//! and signed, and No. 14 goes back to service. All of it is invented.
//!
//! Long because: one statement a kind, and they lean on each other.

use std::collections::BTreeMap;

use jiff::civil::date;
use measure::{Reading, Size, State, Ton};
use shop::book::{
    Amount, AnchorStated, Answer, Authority, AuthorityStated, BatchId, BatchWithdrawn, BlueChecked,
    BlueSeen, BluedFace, BoilerCardSigned, BoilerEntered, BoilerSurveyed, BookOpened, CardId,
    CardKept, CardLineKept, Circumstances, ClockOpened, Correction, Counted, CrewReported,
    DayLogged, DayStated, Decided, DialReads, EngineState, FactStated, FamilyAdopted, FeatureFacts,
    FeatureReading, FeatureTold, FindingId, FindingRecorded, FireId, FireLogged, Heat, HeldBefore,
    HoldCleared, HoldPoint, InspectedBy, InspectionClosed, InspectionId, InspectionNotCompleted,
    InspectionOpened, InstrumentAdded, InstrumentChecked, InstrumentId, ItemAnswered, ItemAsked,
    ItemCondition, JobClosed, JobId, JobMade, JobPaper, JobPaperKept, KnockOnAnswered, LatheAdded,
    LatheId, LatheKnown, LatheTaper, LatheTold, LetterAnswered, LetterId, LetterLogged,
    LocomotiveAdded, LogClosed, Made, MoveDecided, MoveEnd, MoveEnded, MoveId, MoveUnder, MovedHow,
    NoticeGiven, NoticeLifted, Occasion, OnPaper, Operation, OperationDone, OutOfUse, PaperAbout,
    PaperCounted, PaperSent, PartAdded, PartId, PartKnown, PartTold, ParticularStated, PersonAdded,
    PersonId, PhotoAdded, PhotoId, PhotoOf, PrintedSheet, Promised, Proved, QuarterHours,
    Questioned, ReadingsTaken, Released, ReportId, RingWidth, RuleHeld, RulesAdopted, RulesBind,
    RulingRef, RunId, RunPromised, ShopRuleStated, Side, Signed, SpareAdded, SpareCounted,
    SpareHeld, SpareId, SpareKnown, SpareReceived, SpareSettled, SpareTold, SpareUsed, Statement,
    StayRow, StaysMapped, StaysTold, Stood, SurveyHeld, SwivelZero, Symptom, SymptomAnswered,
    ThreadDial, ToolingAdded, ToolingChecked, ToolingId, ToolingMoved, ToolingTakenOut,
    ToolingTold, Touch, UsedOn, Way, WindowFrom,
};

use crate::world::{ENGINE, OFFICER};

/// The right feed check of No. 14.
pub const PART: PartId = PartId(0xFC);
/// The finding on it.
pub const FINDING: FindingId = FindingId(0xF1);
/// The job on it.
pub const JOB: JobId = JobId(0x70B);
/// The crew's report that came before it.
const REPORT: ReportId = ReportId(0x4E9);
const INSPECTION: InspectionId = InspectionId(0x15);
/// A daily that was left open.
const LEFT: InspectionId = InspectionId(0x16);
const MOVE: MoveId = MoveId(0x30E);

/// A small family, in words of the trade.
pub const FAMILY: &str = include_str!("family.toml");

/// The first five statements: what every book of these tests begins with.
pub fn shop() -> Vec<Statement> {
    vec![
        Statement::BookOpened(BookOpened {
            shop: "Juniper Fork Railroad Museum".into(),
            time_zone: "America/Denver".into(),
            house: "inch".into(),
            demonstration: Some(date(2026, 5, 3)),
        }),
        Statement::PersonAdded(PersonAdded {
            id: OFFICER,
            name: "Ada Quill".into(),
            may: Authority::ALL.to_vec(),
            trade: None,
        }),
        Statement::FamilyAdopted(FamilyAdopted {
            family: "feed-check".into(),
            version: 1,
            text: FAMILY.into(),
        }),
        Statement::LocomotiveAdded(LocomotiveAdded {
            id: ENGINE,
            number: "14".into(),
            wheels: "2-8-0".into(),
            gauge: Size::parse("56-1/2 in").unwrap(),
            jurisdiction: "us-steam".into(),
            mawp_psig: Some(180),
            axle_load_lb: Some(33_000),
            fittings: BTreeMap::from([("thermic-siphon".to_string(), false)]),
        }),
        Statement::PartAdded(PartAdded {
            id: PART,
            locomotive: ENGINE,
            family: "feed-check".into(),
            name: "right feed check".into(),
            facts: BTreeMap::from([("seat-design".to_string(), "matched".to_string())]),
            features: BTreeMap::from([(
                "seat-land".to_string(),
                FeatureFacts {
                    as_built: Some("1/16 in".into()),
                    shop_limit: Some("5/32 in".into()),
                    step: Some(".010 in".into()),
                },
            )]),
            known: None,
        }),
    ]
}

/// A reading of the land, as written.
pub fn land(position: &str, text: &str, state: State) -> FeatureReading {
    FeatureReading {
        feature: "seat-land".into(),
        reading: Reading {
            text: text.into(),
            unit_text: "in".into(),
            instrument: Some("6 in caliper".into()),
            position: position.into(),
            part_temperature: Some("68 F".into()),
            measured_by: "Ada Quill".into(),
            typed_by: "Ada Quill".into(),
            measured_on: Some("2026-05-02".into()),
            state,
        },
    }
}

fn ruling() -> Vec<RulingRef> {
    vec![RulingRef {
        rule: "invented.rule".into(),
        version: 1,
    }]
}

fn sheet() -> Vec<PrintedSheet> {
    vec![PrintedSheet {
        sheet: "seat.correct".into(),
        text: "wedge .0049 in\n  \"as printed\", 45° → 44° 30′".into(),
    }]
}

/// What is known of a part beside its sizes.
fn known() -> PartKnown {
    PartKnown {
        side: Some(Side::Right),
        axle: Some(2),
        at: Some("front of the barrel".into()),
        within: None,
        material: Some("bronze, melt 41".into()),
        drawing: Some("14-B-203".into()),
        reach: vec!["running board".into(), "lagging".into()],
        mates: vec![PART],
        also: vec!["old No. 7 check".into()],
        fitted: Some("1998-04".into()),
        removed: Some("2026-05-02".into()),
        donor: Some("No. 12".into()),
    }
}

/// What the photograph shows, in bytes that pass for a file.
pub const PHOTO: &[u8] = b"\x89PNG\r\n\x1a\nan invented ring of blue";
/// Their SHA-256, as `sha256sum` gives it.
pub const PHOTO_NAME: &str = "23c57baaa11b0eaad37f63548cec145e31c5667c626f4e752ccca81610093750";
const INSTRUMENT: InstrumentId = InstrumentId(0x312);
const LATHE: LatheId = LatheId(0x1A7);
const CARD: CardId = CardId(0xCA4D);
const SPARE: SpareId = SpareId(0x5BA);
const LETTER: LetterId = LetterId(0x1E7);

fn spare_known() -> SpareKnown {
    SpareKnown {
        material: Some("bronze, melt 41".into()),
        size: Some("3 in round".into()),
        drawing: Some("14-B-12".into()),
        shelf: Some("bar rack".into()),
        least: Some(Amount(243_840_000)),
    }
}

fn lathe_known() -> LatheKnown {
    LatheKnown {
        leadscrew: Some("4 TPI".into()),
        wheels: Some(vec![24, 24, 48, 127]),
        stud: Some(15),
        span: Some(90),
        spindle_ratio: Some("1/2".into()),
        thread_dial: Some(ThreadDial::Wheel {
            teeth: 16,
            lines: 8,
        }),
        speeds: Some(vec![30, 55, 90]),
        cross_reads: Some(DialReads::Diameter),
        cross_graduation: Some(Size::from_ticks(10_160)),
        compound_graduation: Some(Size::from_ticks(10_160)),
        swing_bed: Some(Size::from_ticks(162_560_000)),
        swing_slide: Some(Size::from_ticks(91_440_000)),
        centers: Some(Size::from_ticks(487_680_000)),
    }
}

fn lathe_taper() -> LatheTaper {
    LatheTaper {
        swivel_graduation: Some("1 deg".into()),
        swivel_zero: Some(SwivelZero::Bed),
        set_over: Some(Size::from_ticks(8_890_000)),
    }
}

/// What follows the first five, up to the release.
fn flow() -> Vec<Statement> {
    vec![
        Statement::RulesAdopted(RulesAdopted {
            set: "invented-set".into(),
            edition: 1,
            from: date(2026, 3, 1),
            text: "# an invented set\n[set]\nid = \"invented-set\"\n".into(),
        }),
        Statement::AuthorityStated(AuthorityStated {
            person: OFFICER,
            authority: Authority::Inspect,
            given: true,
            from: date(2026, 1, 1),
            through: Some(date(2026, 12, 31)),
            within: Some("boilers with a riveted barrel".into()),
            document: "minute 12 of the board".into(),
        }),
        Statement::RulesBind(RulesBind {
            locomotive: ENGINE,
            set: "invented-set".into(),
            from: date(2026, 3, 1),
            through: Some(date(2026, 12, 31)),
            document: "shop order 4".into(),
        }),
        Statement::RuleHeld(RuleHeld {
            rule: "invented-set.a-limit".into(),
            version: 1,
            as_told: "section: 4\nvalue: 5/32 in\n".into(),
            against: "shop order 4 of 2025-11-02".into(),
            agrees: false,
            seen: "the order has 1/8 in".into(),
        }),
        Statement::ShopRuleStated(ShopRuleStated {
            word: "another-certifies".into(),
            holds: true,
            because: "board minute of 2 February 2026".into(),
        }),
        Statement::HeldBefore(HeldBefore {
            locomotive: ENGINE,
            kind: "1472".into(),
            held_on: date(2019, 4, 12),
            service_days_since: Some((212, date(2025, 12, 31))),
            annuals_since: Some(2),
            document: "green binder, page 40".into(),
        }),
        Statement::DayStated(DayStated {
            locomotive: ENGINE,
            what: "air-brake-valves".into(),
            day: date(2025, 4, 20),
            service_days_since: Some((40, date(2025, 12, 31))),
            annuals_since: Some(1),
            inspection: None,
            document: "cab card".into(),
        }),
        Statement::FactStated(FactStated {
            locomotive: ENGINE,
            fact: "brake-schedule".into(),
            value: "26-l".into(),
            from: date(2021, 3, 1),
            document: "air brake diagram".into(),
        }),
        Statement::ParticularStated(ParticularStated {
            locomotive: Some(ENGINE),
            what: "owner".into(),
            says: "the museum society".into(),
        }),
        Statement::BoilerEntered(BoilerEntered {
            locomotive: ENGINE,
            component: "second course".into(),
            kind: "course".into(),
            place: "barrel".into(),
            facts: BTreeMap::from([
                ("radius".into(), "37 in".into()),
                ("thickness".into(), ".571in".into()),
            ]),
            source: "drawing 211; ultrasound of April".into(),
        }),
        Statement::BoilerSurveyed(BoilerSurveyed {
            locomotive: ENGINE,
            component: "second course".into(),
            rows: vec!["top".into(), "bottom".into()],
            columns: vec!["1".into(), "2".into()],
            cells: vec![".681 .680".into(), ".571 -".into()],
            unit: "in".into(),
            square: Some("12 in".into()),
            spot: Some("3/8 in".into()),
            source: "from the front seam, by ultrasound".into(),
        }),
        Statement::StaysMapped(StaysMapped {
            locomotive: ENGINE,
            sheet: "left side".into(),
            rows: vec![StayRow {
                row: "1".into(),
                count: 18,
                height: "6 in".into(),
                first: "5 in".into(),
            }],
            pitch: "4 in".into(),
            kind: "rigid".into(),
            size: "1 in, 12 threads".into(),
            source: "drawing 14-B-6".into(),
        }),
        Statement::StaysTold(StaysTold {
            locomotive: ENGINE,
            sheet: "left side".into(),
            which: vec![("1".into(), 3, 4)],
            state: "renewed".into(),
            at: Some("annual".into()),
            kind: Some("hollow".into()),
            size: Some("1-1/32 in, 12 threads".into()),
            told: "driven both ends".into(),
        }),
        Statement::BoilerCardSigned(BoilerCardSigned {
            locomotive: ENGINE,
            edition: 1,
            because: "survey".into(),
            set_psig: Some(180),
            governing: "cannot tell".into(),
            lines: vec![CardLineKept {
                component: "second course".into(),
                bears: "cannot tell".into(),
                verdict: "cannot tell".into(),
                stood_on: vec!["radius 37 in (drawing 211)".into()],
                missing: vec!["proof of the metal".into()],
            }],
            surveys: None,
        }),
        Statement::OutOfUse(OutOfUse {
            locomotive: ENGINE,
            from: date(2025, 11, 3),
            through: date(2025, 12, 19),
            told: "cold in the back bay".into(),
        }),
        Statement::FireLogged(FireLogged {
            id: FireId(0xF1E),
            locomotive: ENGINE,
            lit: Some(date(2026, 4, 25).at(5, 30, 0, 0)),
            up: Some(date(2026, 4, 25).at(8, 10, 0, 0)),
            out: Some(date(2026, 4, 25).at(17, 0, 0, 0)),
            gone: Some(date(2026, 4, 26).at(0, 0, 0, 0)),
            miles: Some(34),
            offered: None,
        }),
        Statement::DayLogged(DayLogged {
            id: FireId(0xF1F),
            locomotive: ENGINE,
            day: date(2026, 4, 18),
            stood: Stood::CannotTell,
            miles: Some(12),
            offered: Some(true),
            told: "cab notebook, loose leaf".into(),
        }),
        Statement::PaperCounted(PaperCounted {
            locomotive: ENGINE,
            from: date(2026, 1, 1),
            through: date(2026, 4, 30),
            service_days: 2,
            document: "the wall calendar".into(),
        }),
        Statement::LogClosed(LogClosed {
            locomotive: ENGINE,
            from: date(2026, 1, 1),
            through: date(2026, 4, 30),
        }),
        Statement::RunPromised(RunPromised {
            id: RunId(0x12),
            locomotive: ENGINE,
            day: date(2026, 5, 23),
            what: "the school train".into(),
        }),
        Statement::InspectionOpened(InspectionOpened {
            id: INSPECTION,
            locomotive: ENGINE,
            kind: "31".into(),
            items: vec![ItemAsked {
                rule: "invented.item".into(),
                version: 1,
                text: "Feed checks tight".into(),
                section: "invented".into(),
                fitting: Some("thermic-siphon".into()),
            }],
        }),
        Statement::CrewReported(CrewReported {
            id: REPORT,
            locomotive: ENGINE,
            symptoms: vec![Symptom {
                what: "hot to the hand above the check".into(),
                place: "right side, feed check".into(),
                heat: Some(Heat::Cold),
                pressure: Some("0 psig".into()),
                can_wait: Some(false),
            }],
            told: Some("the stoker's shovel is cracked".into()),
        }),
        Statement::FindingRecorded(FindingRecorded {
            id: FINDING,
            locomotive: ENGINE,
            part: PART,
            occasion: Occasion::Inspection {
                inspection: INSPECTION,
            },
            conditions: vec!["weeps-back".into()],
            told: "Hot to the hand above the check, cold boiler".into(),
            readings: vec![
                land("front", "3/32", State::AsFound),
                land("back", ".098", State::AsFound),
            ],
            notice: None,
            taken: None,
        }),
        Statement::ItemAnswered(ItemAnswered {
            inspection: INSPECTION,
            rule: "invented.item".into(),
            answer: Answer::Defect { finding: FINDING },
            seen: "it weeps".into(),
            condition: None,
        }),
        Statement::SymptomAnswered(SymptomAnswered {
            report: REPORT,
            symptom: 1,
            finding: Some(FINDING),
            seen: "it weeps".into(),
        }),
        Statement::ClockOpened(ClockOpened {
            finding: FINDING,
            rule: "invented.clock".into(),
        }),
        Statement::Decided(Decided {
            finding: FINDING,
            route: "re-cut".into(),
            because: "the wedge is too much to lap".into(),
            verdict: "fails: it weeps back".into(),
            rulings: ruling(),
            sheets: sheet(),
            recheck: Some(date(2026, 11, 1)),
        }),
        Statement::JobMade(JobMade {
            id: JOB,
            finding: FINDING,
            route: "re-cut".into(),
            title: "Re-cut the right feed check".into(),
            tooling: vec!["45 degree cutter".into()],
            sizes: vec!["45° half angle".into()],
            operations: vec![Operation {
                what: "Cut the seat".into(),
                place: "bench".into(),
                engine: "cold and drained".into(),
                hours: [QuarterHours(4), QuarterHours(8), QuarterHours(16)],
                hold: Some(HoldPoint {
                    look: "the cut face is whole".into(),
                    by: Authority::Approve,
                }),
            }],
            proofs: vec!["blue".into()],
            knock_ons: vec!["lift".into()],
            stop_points: vec!["a void opens: stop".into()],
            cautions: vec!["cold and drained before the cap is slacked".into()],
            sheets: sheet(),
            promised: Some(date(2026, 5, 20)),
        }),
        Statement::ToolingAdded(ToolingAdded {
            id: ToolingId(0x7001),
            what: "cast iron lap, 45°".into(),
            part: PART,
            shelf: "C-3".into(),
            job: Some(JOB),
        }),
        Statement::ToolingTold(ToolingTold {
            tooling: ToolingId(0x7001),
            features: vec!["seat-land".into()],
            parts: vec![PART],
            drawing: Some("14-B-9".into()),
        }),
        Statement::ToolingChecked(ToolingChecked {
            tooling: ToolingId(0x7001),
            good: false,
            error: Some("6 minutes steep".into()),
            against: "master cone".into(),
            told: Some("dropped".into()),
        }),
        Statement::ToolingTakenOut(ToolingTakenOut {
            tooling: ToolingId(0x7001),
            because: "worn".into(),
        }),
        Statement::ToolingMoved(ToolingMoved {
            tooling: ToolingId(0x7001),
            shelf: "C-4".into(),
        }),
        Statement::SpareAdded(SpareAdded {
            id: SPARE,
            what: "bronze bar".into(),
            counted: Counted::Length,
            known: spare_known(),
        }),
        Statement::SpareTold(SpareTold {
            spare: SPARE,
            known: spare_known(),
        }),
        Statement::SpareReceived(SpareReceived {
            spare: SPARE,
            many: Amount(1_463_040_000),
            from: "an invented foundry".into(),
            certificate: Some("melt 41".into()),
            told: Some("two bars".into()),
        }),
        Statement::SpareHeld(SpareHeld {
            spare: SPARE,
            job: JOB,
            many: Amount(76_200_000),
        }),
        Statement::SpareUsed(SpareUsed {
            spare: SPARE,
            many: Amount(76_200_000),
            on: UsedOn::Job { job: JOB },
            told: Some("bushing blank".into()),
        }),
        Statement::SpareCounted(SpareCounted {
            spare: SPARE,
            many: Amount(1_376_680_000),
            told: Some("by tape".into()),
        }),
        Statement::SpareSettled(SpareSettled {
            spare: SPARE,
            many: Amount(-10_160_000),
            because: "saw cuts".into(),
        }),
        Statement::LatheAdded(LatheAdded {
            id: LATHE,
            name: "the invented sixteen-inch".into(),
            known: lathe_known(),
            taper: None,
        }),
        Statement::LatheTold(LatheTold {
            lathe: LATHE,
            known: lathe_known(),
            taper: None,
        }),
        Statement::CardKept(CardKept {
            card: CARD,
            sheet: "thread.cutting".into(),
            given: vec!["tpi=12".into(), "lathe=LA-001".into()],
            house: "inch".into(),
            text: "WORKED SHEET  thread.cutting\n".into(),
            because: None,
        }),
        Statement::CardKept(CardKept {
            card: CARD,
            sheet: "thread.cutting".into(),
            given: vec!["tpi=11".into()],
            house: "inch".into(),
            text: "WORKED SHEET  thread.cutting\n  anew\n".into(),
            because: Some("counted again".into()),
        }),
        Statement::LetterLogged(LetterLogged {
            id: LETTER,
            way: Way::From,
            with: "invented foundry".into(),
            what: "the bar is poured".into(),
            locomotive: Some(ENGINE),
            finding: None,
            job: Some(JOB),
            promised: Some(Promised {
                ours: false,
                what: "the bar, with its paper".into(),
                until: Some(date(2026, 6, 1)),
            }),
        }),
        Statement::LetterAnswered(LetterAnswered {
            letter: LETTER,
            by: None,
            told: "the bar came".into(),
        }),
        Statement::OperationDone(OperationDone {
            job: JOB,
            operation: 1,
            hours: Some(QuarterHours(9)),
            told: "cleaned up at .006".into(),
        }),
        Statement::HoldCleared(HoldCleared {
            job: JOB,
            operation: 1,
            seen: "whole all round".into(),
            paper: None,
        }),
        Statement::JobPaperKept(JobPaperKept {
            job: JOB,
            kind: JobPaper::PressChart,
            told: "pressed from the inner end".into(),
            document: Some("press book, page 41".into()),
            until: Some(date(2026, 5, 3)),
            cost: Some("41.50 for the hire of the gauge".into()),
            points: vec![("1/2in".into(), "4".into()), ("1in".into(), "8.5".into())],
            window: Some(("8".into(), "20".into())),
            window_from: None,
        }),
        Statement::BlueChecked(BlueChecked {
            job: JOB,
            seen: BlueSeen {
                face: BluedFace::Seat,
                after: "320 grit".into(),
                touches: vec![Touch { from: 20, to: 140 }, Touch { from: 200, to: 10 }],
                width: Some(RingWidth {
                    least: Size::from_ticks(317_500),
                    most: Size::from_ticks(476_250),
                }),
                wanted: Some(RingWidth {
                    least: Size::from_ticks(317_500),
                    most: Size::from_ticks(635_000),
                }),
                photo: None,
                told: Some("open at the back".into()),
            },
        }),
        Statement::Proved(Proved {
            job: JOB,
            proof: "blue".into(),
            passed: true,
            told: "a full ring".into(),
        }),
        Statement::ReadingsTaken(ReadingsTaken {
            part: PART,
            job: Some(JOB),
            state: State::AsLeft,
            readings: vec![land("front", "7/64", State::AsLeft)],
            taken: None,
            finding: None,
        }),
        Statement::PartTold(PartTold {
            part: PART,
            known: known(),
            facts: BTreeMap::from([("seat-design".to_string(), "matched".to_string())]),
            features: BTreeMap::from([(
                "seat-land".to_string(),
                FeatureTold {
                    drawn: Some("1/16 in".into()),
                    as_built: Some("1/16 in".into()),
                    shop_limit: Some("5/32 in".into()),
                    step: Some(".010 in".into()),
                    steps: vec!["3/32 in".into(), "1/8 in".into()],
                },
            )]),
            document: Some("drawing 14-B-203".into()),
        }),
        Statement::InstrumentAdded(InstrumentAdded {
            id: INSTRUMENT,
            number: "M-12".into(),
            what: "depth micrometer".into(),
            range: Some("0 to 6 in".into()),
            shelf: Some("gauge case, top".into()),
        }),
        Statement::InstrumentChecked(InstrumentChecked {
            instrument: INSTRUMENT,
            good: false,
            error: Some("+.002 in at 1 in".into()),
            against: "gauge blocks, set B".into(),
            told: Some("dropped in March".into()),
        }),
        Statement::PhotoAdded(PhotoAdded {
            id: PhotoId(0x9407),
            sha256: PHOTO_NAME.into(),
            bytes: PHOTO.len() as u64,
            media: "image/png".into(),
            name: "blue ring.png".into(),
            of: PhotoOf::Proof {
                job: JOB,
                proof: "blue".into(),
            },
            told: "a full ring, seat side".into(),
            letter: None,
        }),
        Statement::KnockOnAnswered(KnockOnAnswered {
            job: JOB,
            knock_on: "lift".into(),
            seen: "lift still 5/16".into(),
        }),
        Statement::Signed(Signed {
            job: JOB,
            capacity: Authority::Repair,
            stated: None,
        }),
        Statement::JobClosed(JobClosed {
            job: JOB,
            verdict: "complies".into(),
            rulings: ruling(),
        }),
        Statement::InspectionClosed(InspectionClosed {
            inspection: INSPECTION,
            made: None,
        }),
        Statement::InspectionOpened(InspectionOpened {
            id: LEFT,
            locomotive: ENGINE,
            kind: "daily".into(),
            items: Vec::new(),
        }),
        Statement::InspectionNotCompleted(InspectionNotCompleted {
            inspection: LEFT,
            because: "the run was called off".into(),
        }),
        Statement::MoveDecided(MoveDecided {
            id: MOVE,
            locomotive: ENGINE,
            under: MoveUnder::SpecialNotice {
                finding: FINDING,
                allows: "to the shop, in daylight".into(),
            },
            defects: vec!["it weeps".into()],
            from: "the water tank".into(),
            to: "the shop".into(),
            how: MovedHow::InTow,
            top_mph: 10,
            limits: "the weighbridge track is not used".into(),
            told: Some("both engineers, by note".into()),
            inspected: Some(InspectedBy {
                who: "Ada Quill".into(),
                place: "the water tank".into(),
                on: date(2026, 5, 2),
            }),
            rulings: ruling(),
        }),
        Statement::MoveEnded(MoveEnded {
            locomotive: ENGINE,
            id: MOVE,
            end: MoveEnd::Arrived,
            told: "track 2, chocked".into(),
        }),
        Statement::AnchorStated(AnchorStated {
            inspection: INSPECTION,
            day: date(2026, 5, 2),
            reading: "the day the last item was done".into(),
        }),
        Statement::PaperSent(PaperSent {
            locomotive: ENGINE,
            rule: "invented.paper".into(),
            about: PaperAbout::Inspection {
                inspection: INSPECTION,
            },
            sent_on: date(2026, 5, 3),
            told: "mailed".into(),
        }),
        Statement::NoticeLifted(NoticeLifted {
            finding: FINDING,
            name: "Inez Hale".into(),
            office: "invented region".into(),
            day: date(2026, 5, 3),
            document: "letter".into(),
        }),
        Statement::Released(Released {
            locomotive: ENGINE,
            log_through: date(2026, 4, 30),
        }),
    ]
}

/// The fire of the flow with the time that was written wrong put right.
pub fn fire_put_right() -> Statement {
    Statement::FireLogged(FireLogged {
        id: FireId(0xF1E),
        locomotive: ENGINE,
        lit: Some(date(2026, 4, 25).at(5, 30, 0, 0)),
        up: Some(date(2026, 4, 25).at(8, 10, 0, 0)),
        out: Some(date(2026, 4, 25).at(17, 0, 0, 0)),
        gone: None,
        miles: Some(43),
        offered: None,
    })
}

/// The shop and its flow: every kind but the two about the ledger.
pub fn work() -> Vec<Statement> {
    let mut all = shop();
    all.extend(flow());
    all
}

/// One of every kind.
pub fn all() -> Vec<Statement> {
    let mut all = work();
    let instead = fire_put_right();
    all.push(Statement::Correction(Correction {
        because: "nobody saw the gauge at midnight".into(),
        kind: instead.kind().into(),
        form: instead.form(),
        body: instead.body().unwrap(),
    }));
    all.push(Statement::BatchWithdrawn(BatchWithdrawn {
        batch: BatchId(0xBA7C),
        because: "entered twice".into(),
    }));
    all
}

/// Statements of kinds that can lack facts, with all of those missing: missing is a value, and is kept.
pub fn bare() -> Vec<Statement> {
    let mut bare = Vec::new();
    for mut statement in work() {
        match &mut statement {
            Statement::BookOpened(it) => it.demonstration = None,
            Statement::LocomotiveAdded(it) => {
                it.mawp_psig = None;
                it.axle_load_lb = None;
                it.fittings.clear();
            }
            Statement::PartAdded(it) => {
                it.facts.clear();
                it.features = BTreeMap::from([("seat-land".into(), FeatureFacts::default())]);
            }
            Statement::RulesBind(it) => it.through = None,
            Statement::AuthorityStated(it) => {
                it.given = false;
                it.through = None;
                it.within = None;
            }
            Statement::HeldBefore(it) => {
                it.service_days_since = None;
                it.annuals_since = None;
            }
            Statement::DayStated(it) => {
                it.service_days_since = None;
                it.annuals_since = None;
                it.inspection = None;
            }
            Statement::PaperSent(it) => {
                it.about = PaperAbout::Day {
                    day: date(2026, 5, 2),
                };
            }
            Statement::FireLogged(it) => {
                *it = FireLogged {
                    lit: None,
                    out: None,
                    gone: None,
                    miles: None,
                    ..it.clone()
                };
            }
            Statement::DayLogged(it) => {
                it.miles = None;
                it.offered = None;
            }
            Statement::InspectionOpened(it) => it.items.iter_mut().for_each(|i| i.fitting = None),
            Statement::FindingRecorded(it) => {
                it.occasion = Occasion::WriteUp;
                it.readings.iter_mut().for_each(without_facts);
            }
            Statement::CrewReported(it) => {
                it.told = None;
                it.symptoms.iter_mut().for_each(|told| {
                    told.heat = None;
                    told.pressure = None;
                    told.can_wait = None;
                });
            }
            Statement::SymptomAnswered(it) => it.finding = None,
            Statement::ParticularStated(it) => it.locomotive = None,
            Statement::MoveDecided(it) => {
                it.under = MoveUnder::InYard;
                it.told = None;
                it.inspected = None;
            }
            Statement::ItemAnswered(it) => it.answer = Answer::NotFitted,
            Statement::Decided(it) => it.recheck = None,
            Statement::JobMade(it) => {
                it.promised = None;
                it.operations.iter_mut().for_each(|o| o.hold = None);
            }
            Statement::ToolingAdded(it) => it.job = None,
            Statement::SpareAdded(it) => it.known = SpareKnown::default(),
            Statement::SpareTold(it) => it.known = SpareKnown::default(),
            Statement::SpareReceived(it) => {
                it.certificate = None;
                it.told = None;
            }
            Statement::SpareUsed(it) => {
                it.on = UsedOn::Engine { locomotive: ENGINE };
                it.told = None;
            }
            Statement::SpareCounted(it) => it.told = None,
            Statement::LatheAdded(it) => it.known = LatheKnown::default(),
            Statement::LatheTold(it) => {
                it.known = LatheKnown {
                    thread_dial: Some(ThreadDial::None),
                    ..LatheKnown::default()
                }
            }
            Statement::LetterLogged(it) => {
                it.way = Way::To;
                it.locomotive = None;
                it.job = None;
                it.promised = None;
            }
            Statement::LetterAnswered(it) => it.by = Some(LETTER),
            Statement::ToolingTold(it) => {
                it.features.clear();
                it.parts.clear();
                it.drawing = None;
            }
            Statement::ToolingChecked(it) => {
                it.error = None;
                it.told = None;
            }
            Statement::PartTold(it) => {
                it.known = PartKnown::default();
                it.facts.clear();
                it.features.clear();
                it.document = None;
            }
            Statement::InstrumentAdded(it) => {
                it.range = None;
                it.shelf = None;
            }
            Statement::InstrumentChecked(it) => {
                it.error = None;
                it.told = None;
            }
            Statement::PhotoAdded(it) => it.of = PhotoOf::Part { part: PART },
            Statement::BlueChecked(it) => {
                it.seen.touches.clear();
                it.seen.width = None;
                it.seen.wanted = None;
                it.seen.told = None;
            }
            Statement::OperationDone(it) => it.hours = None,
            Statement::ReadingsTaken(it) => {
                it.job = None;
                it.readings.iter_mut().for_each(without_facts);
            }
            _ => continue,
        }
        bare.push(statement);
    }
    bare
}

/// A statement of each form that is written only where a fact is known that the form before it lacks.
pub fn later_forms() -> Vec<Statement> {
    let fire = work().into_iter().find_map(|statement| match statement {
        Statement::FireLogged(it) => Some(it),
        _ => None,
    });
    let found = work().into_iter().find_map(|statement| match statement {
        Statement::FindingRecorded(it) => Some(it),
        _ => None,
    });
    let item = work().into_iter().find_map(|statement| match statement {
        Statement::ItemAnswered(it) => Some(it),
        _ => None,
    });
    let part = work().into_iter().find_map(|statement| match statement {
        Statement::PartAdded(it) => Some(it),
        _ => None,
    });
    let read = work().into_iter().find_map(|statement| match statement {
        Statement::ReadingsTaken(it) => Some(it),
        _ => None,
    });
    let photo = work().into_iter().find_map(|statement| match statement {
        Statement::PhotoAdded(it) => Some(it),
        _ => None,
    });
    let found_3 = found.clone();
    let card = work().into_iter().find_map(|statement| match statement {
        Statement::BoilerCardSigned(it) => Some(it),
        _ => None,
    });
    vec![
        Statement::BoilerCardSigned(BoilerCardSigned {
            surveys: Some(vec![SurveyHeld {
                component: "second course".into(),
                on: date(2026, 4, 25),
                entry: 41,
            }]),
            ..card.unwrap()
        }),
        Statement::FireLogged(FireLogged {
            offered: Some(false),
            ..fire.unwrap()
        }),
        Statement::FindingRecorded(FindingRecorded {
            occasion: Occasion::SpecialNotice,
            notice: Some(NoticeGiven {
                name: "Inez Hale".into(),
                office: "invented region".into(),
                document: "notice".into(),
            }),
            ..found.unwrap()
        }),
        Statement::ItemAnswered(ItemAnswered {
            answer: Answer::Good,
            condition: Some(ItemCondition::Fair),
            ..item.unwrap()
        }),
        Statement::InspectionClosed(InspectionClosed {
            inspection: INSPECTION,
            made: Some(Made {
                at: Some(jiff::civil::time(7, 40, 0, 0)),
                place: Some("the engine house".into()),
            }),
        }),
        Statement::PersonAdded(PersonAdded {
            id: PersonId(0xCA1),
            name: "Cal Wren".into(),
            may: vec![Authority::Repair],
            trade: Some("apprentice".into()),
        }),
        Statement::HoldCleared(HoldCleared {
            job: JOB,
            operation: 1,
            seen: "whole all round".into(),
            paper: Some(OnPaper {
                day: date(2026, 5, 1),
                document: "job card, second column".into(),
            }),
        }),
        Statement::JobPaperKept(JobPaperKept {
            job: JOB,
            kind: JobPaper::PressChart,
            told: "pressed from the inner end".into(),
            document: None,
            until: None,
            cost: None,
            points: vec![("1/2in".into(), "4".into()), ("1in".into(), "8.5".into())],
            window: Some(("3.2".into(), "12.4".into())),
            window_from: Some(WindowFrom {
                sheet: "fit.bushing".into(),
                version: 1,
                card: Some((CardId(0xCA4D), 2)),
                ton: Ton::Short,
            }),
        }),
        Statement::Signed(Signed {
            job: JOB,
            capacity: Authority::Repair,
            stated: Some("As repairer: the re-cut of the right feed check.".into()),
        }),
        Statement::PartAdded(PartAdded {
            known: Some(PartKnown {
                mates: Vec::new(),
                ..known()
            }),
            ..part.unwrap()
        }),
        Statement::FindingRecorded(FindingRecorded {
            taken: Some(taken()),
            ..found_3.unwrap()
        }),
        Statement::ReadingsTaken(ReadingsTaken {
            taken: Some(taken()),
            ..read.clone().unwrap()
        }),
        Statement::ReadingsTaken(ReadingsTaken {
            job: None,
            state: State::AsFound,
            readings: vec![land("left", "5/32", State::AsFound)],
            taken: Some(taken()),
            finding: Some(FINDING),
            ..read.unwrap()
        }),
        Statement::LatheAdded(LatheAdded {
            id: LATHE,
            name: "the invented sixteen-inch".into(),
            known: LatheKnown::default(),
            taper: Some(lathe_taper()),
        }),
        Statement::LatheTold(LatheTold {
            lathe: LATHE,
            known: LatheKnown::default(),
            taper: Some(LatheTaper {
                swivel_zero: Some(SwivelZero::Cross),
                ..LatheTaper::default()
            }),
        }),
        Statement::PhotoAdded(PhotoAdded {
            of: PhotoOf::Letter,
            letter: Some(LETTER),
            ..photo.unwrap()
        }),
    ]
}

/// How readings were taken, with one that was questioned.
fn taken() -> Circumstances {
    Circumstances {
        supported: Some("body in the chuck, bonnet face up".into()),
        standing: Some(EngineState::ColdAndDrained),
        questioned: vec![Questioned {
            feature: "seat-land".into(),
            position: "front".into(),
            asked: "far from what it was".into(),
        }],
        insisted: Some("a new body".into()),
    }
}

fn without_facts(reading: &mut FeatureReading) {
    reading.reading.instrument = None;
    reading.reading.part_temperature = None;
    reading.reading.measured_on = None;
}

/// A fire of the world's log with other miles, to put it right with.
pub fn fire_of(number: u32, miles: u32) -> Statement {
    match crate::world::fire(number) {
        Statement::FireLogged(it) => Statement::FireLogged(FireLogged {
            miles: Some(miles),
            ..it
        }),
        other => other,
    }
}

/// The finding of the flow as a crew's write-up, which needs no inspection before it.
pub fn write_up() -> Statement {
    let finding = work().into_iter().find_map(|statement| match statement {
        Statement::FindingRecorded(it) => Some(it),
        _ => None,
    });
    Statement::FindingRecorded(FindingRecorded {
        occasion: Occasion::WriteUp,
        ..finding.unwrap()
    })
}
