//! No sequence of verbs releases an engine, or leaves a release standing, while a finding is open, a clock has lapsed,
//! her log is not closed, a special notice is not lifted, or a symptom or work is open.
//!
//! The oracle reads the entries, one by one, and nothing of the book's state or of the functions under test. Its clocks
//! are counted by hand: 49 CFR 230.13 and 230.14 (31 service days), 230.15 (92 service days), 230.16 (368 days).

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, date};
use measure::State;
use proptest::prelude::*;
use shop::Refusal;
use shop::book::{
    Authority, FindingId, FireId, FireLogged, InspectionId, JobId, NoticeGiven, Occasion, PersonId,
    ReportId, RunId, Statement, Symptom,
};
use shop::clock::{close_log, promise};
use shop::decision::{Wish, decide};
use shop::finding::{NewFinding, NewLifting, NewReport, answer_symptom, lift, record, report};
use shop::locomotive::take_readings;
use shop::report::Release;
use shop::{inspection, job, proof, record as left};

use crate::flow::{self, CHECK};
use crate::world::{ADA, BEN, CAL, DOT, ELI, FOURTEEN, World, later};

/// The first day of these histories: her papers are in order and her log is closed through the day before.
const FIRST: Date = date(2026, 3, 1);

/// One thing somebody does.
#[derive(Debug, Clone, Copy)]
enum Act {
    DaysPass(i64),
    Steamed(i64),
    LogClosed(i64),
    Promised(i64),
    Opened(usize),
    Answered,
    Closed,
    Found(usize),
    Lifted(bool),
    Decided(usize),
    Ordered,
    Worked,
    Signed,
    JobClosed,
    MeasuredAgain,
    WrittenUp(bool),
    LookedAt,
    BrakeValvesDone,
    Released,
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let one = prop_oneof![
        3 => (1..40i64).prop_map(Act::DaysPass),
        3 => (0..6i64).prop_map(Act::Steamed),
        6 => (0..3i64).prop_map(Act::LogClosed),
        1 => (0..20i64).prop_map(Act::Promised),
        2 => (0..4usize).prop_map(Act::Opened),
        3 => Just(Act::Answered),
        3 => Just(Act::Closed),
        2 => (0..3usize).prop_map(Act::Found),
        2 => any::<bool>().prop_map(Act::Lifted),
        3 => (0..3usize).prop_map(Act::Decided),
        3 => Just(Act::Ordered),
        3 => Just(Act::Worked),
        3 => Just(Act::Signed),
        3 => Just(Act::JobClosed),
        1 => Just(Act::MeasuredAgain),
        1 => any::<bool>().prop_map(Act::WrittenUp),
        2 => Just(Act::LookedAt),
        1 => Just(Act::BrakeValvesDone),
        9 => Just(Act::Released),
    ];
    prop::collection::vec(one, 1..60)
}

/// A shop at work, with every entry that it made since the first day.
struct History {
    world: World,
    on: Date,
    made: Vec<(Date, Statement)>,
}

impl History {
    fn begun() -> History {
        static MADE: std::sync::OnceLock<World> = std::sync::OnceLock::new();
        let world = MADE.get_or_init(|| {
            let mut world = flow::shop();
            let eve = later(FIRST, -1);
            world.paper("annual", date(2026, 1, 31), None);
            world.closed(date(2026, 1, 31), eve);
            world.did("air-brake-valves", date(2026, 2, 7), None, None);
            world.did("frame-cleaning", date(2026, 2, 7), None, None);
            world
        });
        History {
            world: world.clone(),
            on: FIRST,
            made: Vec::new(),
        }
    }

    /// Enters what a verb stated; what it refused is not entered. Whether it was.
    fn enter(&mut self, by: PersonId, made: Result<Vec<Statement>, Refusal>) -> bool {
        let Ok(made) = made else { return false };
        for statement in made {
            self.world.state(by, self.on, statement.clone());
            self.made.push((self.on, statement));
        }
        true
    }

    fn act(&mut self, act: Act) {
        let (on, rules) = (self.on, self.world.rules);
        let book = self.world.book.clone();
        let fresh = self.world.fresh();
        let findings = || book.findings.iter().map(|(id, kept)| (*id, kept));
        let jobs: Vec<_> = book.jobs.keys().copied().collect();
        match act {
            Act::DaysPass(days) => self.on = later(on, days),
            Act::Steamed(ago) => {
                let day = later(on, -ago);
                let fire = FireLogged {
                    id: FireId(fresh),
                    locomotive: FOURTEEN,
                    lit: Some(day.at(6, 0, 0, 0)),
                    up: Some(day.at(8, 0, 0, 0)),
                    out: Some(day.at(17, 0, 0, 0)),
                    gone: Some(day.at(20, 0, 0, 0)),
                    miles: None,
                    offered: None,
                };
                self.enter(ELI, Ok(vec![Statement::FireLogged(fire)]));
            }
            Act::LogClosed(ago) => {
                let made = close_log(&book, FOURTEEN, None, later(on, -ago), on);
                self.enter(ADA, made);
            }
            Act::Promised(ahead) => {
                let made = promise(RunId(fresh), FOURTEEN, later(on, ahead), "a train");
                self.enter(ADA, made);
            }
            Act::Opened(kind) => {
                let kind = ["daily", "31", "92", "annual"][kind];
                let id = InspectionId(fresh);
                let made = inspection::open(&book, rules, id, FOURTEEN, kind, DOT, on);
                self.enter(DOT, made);
            }
            Act::Answered => {
                let open = book.inspections.iter().filter(|(_, i)| i.closed.is_none());
                for (id, kept) in open {
                    for item in &kept.items {
                        let good = shop::book::Answer::Good;
                        let made = inspection::answer(
                            &self.world.book,
                            *id,
                            &item.rule,
                            (good, None),
                            "sound",
                            DOT,
                            on,
                        );
                        self.enter(DOT, made);
                    }
                }
            }
            Act::Closed => {
                for id in book.inspections.keys() {
                    let made = inspection::close(&self.world.book, *id, None, DOT, on);
                    self.enter(DOT, made);
                }
            }
            Act::Found(occasion) => {
                let (occasion, notice) = match occasion {
                    0 => (Occasion::WriteUp, None),
                    1 => (Occasion::RoadFailure, None),
                    _ => {
                        let notice = NoticeGiven {
                            name: "R. Falk".into(),
                            office: "the federal inspector".into(),
                            document: "notice 7".into(),
                        };
                        (Occasion::SpecialNotice, Some(notice))
                    }
                };
                let new = NewFinding {
                    id: FindingId(fresh),
                    locomotive: FOURTEEN,
                    part: CHECK,
                    occasion,
                    conditions: vec!["weeps-back".into()],
                    told: "weeps back at the delivery pipe".into(),
                    readings: Vec::new(),
                    notice,
                    taking: Default::default(),
                };
                self.enter(ELI, record(&book, new, ELI, on));
            }
            Act::Lifted(own) => {
                for (finding, _) in findings() {
                    let new = NewLifting {
                        finding,
                        name: if own { "Ada Quill" } else { "R. Falk" }.into(),
                        office: "the federal inspector".into(),
                        day: on,
                        document: "letter 7".into(),
                    };
                    self.enter(ADA, lift(&self.world.book, new, ADA, on));
                }
            }
            Act::Decided(route) => {
                for (finding, _) in findings() {
                    let wish = Wish {
                        finding,
                        route: ["seat-ring", "renew", "carry"][route].into(),
                        because: "so it is".into(),
                        recheck: Some(later(on, 10)),
                    };
                    self.enter(ADA, decide(&self.world.book, rules, wish, ADA, on));
                }
            }
            Act::Ordered => {
                for (finding, _) in findings() {
                    let design = shop::design::propose(&self.world.book, rules, finding, on);
                    let id = JobId(self.world.fresh());
                    let made =
                        design.and_then(|d| job::make(&self.world.book, id, &d, None, ADA, on));
                    self.enter(ADA, made);
                }
            }
            Act::Worked => {
                for id in jobs {
                    self.work(id);
                }
            }
            Act::Signed => {
                for id in jobs {
                    for (capacity, by) in [
                        (Authority::Repair, CAL),
                        (Authority::Inspect, DOT),
                        (Authority::Approve, ADA),
                    ] {
                        let made = left::sign(&self.world.book, rules, id, capacity, by, on);
                        self.enter(by, made);
                    }
                }
            }
            Act::JobClosed => {
                for id in jobs {
                    let made = left::close_job(&self.world.book, rules, id, ADA, on);
                    self.enter(ADA, made);
                }
            }
            Act::MeasuredAgain => {
                if let Some(id) = jobs.last() {
                    let readings = flow::as_left();
                    let made = take_readings(
                        &book,
                        CHECK,
                        Some(*id),
                        State::AsLeft,
                        readings,
                        &Default::default(),
                    );
                    self.enter(BEN, made);
                }
            }
            Act::WrittenUp(nothing) => {
                let symptom = Symptom {
                    what: "knocks".into(),
                    place: "right side".into(),
                    heat: None,
                    pressure: None,
                    can_wait: Some(true),
                };
                let new = NewReport {
                    id: ReportId(fresh),
                    locomotive: FOURTEEN,
                    symptoms: if nothing { Vec::new() } else { vec![symptom] },
                    nothing,
                    told: format!("report {fresh}"),
                };
                self.enter(ELI, report(&book, new, ELI, on));
            }
            Act::LookedAt => {
                let all = book.reports.values().flat_map(|r| &r.symptoms);
                for told in all {
                    let number = format!("W-{:03}", told.number);
                    let made = answer_symptom(&self.world.book, &number, None, "sound", DOT, on);
                    self.enter(DOT, made);
                }
            }
            Act::BrakeValvesDone => {
                let told = shop::book::DayStated {
                    locomotive: FOURTEEN,
                    what: "air-brake-valves".into(),
                    day: on,
                    service_days_since: None,
                    annuals_since: None,
                    inspection: None,
                    document: "the cab card".into(),
                };
                self.enter(ADA, shop::clock::state_day(&book, rules, told, on));
            }
            Act::Released => {
                self.enter(ADA, left::release(&book, rules, FOURTEEN, ADA, on));
            }
        }
    }

    /// Does, clears, proves, measures and looks round whatever a job still lacks.
    fn work(&mut self, id: JobId) {
        let plan = self.world.book.jobs[&id].plan.clone();
        let made = job::keep(
            &self.world.book,
            crate::world::zero_proven(id),
            CAL,
            self.on,
        );
        self.enter(CAL, made);
        for (at, step) in (1..).zip(&plan.operations) {
            let made = job::done(
                &self.world.book,
                id,
                at,
                None,
                "done as planned",
                CAL,
                self.on,
            );
            self.enter(CAL, made);
            if let Some(hold) = &step.hold {
                let by = if hold.by == Authority::Approve {
                    ADA
                } else {
                    BEN
                };
                let made = job::clear(
                    &self.world.book,
                    id,
                    at,
                    "looked at, and good",
                    None,
                    by,
                    self.on,
                );
                self.enter(by, made);
            }
        }
        let ring = shop::book::BlueChecked {
            job: id,
            seen: flow::all_round(),
        };
        let made = proof::check_blue(&self.world.book, ring);
        self.enter(CAL, made);
        for word in &plan.proofs {
            let made = proof::prove(&self.world.book, id, word, true, "held", DOT, self.on);
            self.enter(DOT, made);
        }
        let made = take_readings(
            &self.world.book,
            CHECK,
            Some(id),
            State::AsLeft,
            flow::as_left(),
            &Default::default(),
        );
        self.enter(BEN, made);
        for word in &plan.knock_ons {
            let made = left::knock_on(&self.world.book, id, word, "nothing changed", BEN, self.on);
            self.enter(BEN, made);
        }
    }

    fn stands(&self) -> bool {
        let (book, rules) = (&self.world.book, self.world.rules);
        let release = shop::report::release(book, rules, FOURTEEN, self.on).unwrap();
        matches!(release, Release::Stands { .. })
    }
}

/// What the entries say is in the way on a day. Only what nobody could argue with is told here: the functions under
/// test may see more.
fn in_the_way(made: &[(Date, Statement)], on: Date) -> Vec<String> {
    let mut all = Vec::new();
    let (mut findings, mut notices) = (BTreeSet::new(), BTreeMap::new());
    let (mut jobs, mut symptoms) = (BTreeMap::new(), BTreeSet::new());
    let mut inspections = BTreeMap::new();
    // Of her papers: the annual of 31 January, and the log closed through the day before the first.
    let mut restarted = [
        ("31", date(2026, 1, 31)),
        ("92", date(2026, 1, 31)),
        ("annual", date(2026, 1, 31)),
    ];
    let (mut steamed, mut closed_through) = (BTreeSet::new(), later(FIRST, -1));
    for (day, statement) in made {
        match statement {
            Statement::FindingRecorded(it) => {
                findings.insert(it.id);
                if it.occasion == Occasion::SpecialNotice {
                    notices.insert(it.id, None);
                }
            }
            Statement::NoticeLifted(it) => {
                notices.insert(it.finding, Some(it.day));
            }
            Statement::Decided(it) if it.route == "carry" => {
                // A leak that 230.57(b) forbids cannot be carried; were it, this would say so.
                all.push("carried".to_string());
            }
            Statement::JobMade(it) => {
                jobs.insert(it.id, (it.finding, false));
            }
            // Work after the signatures asks for new ones: the job counts as open until it is signed again.
            Statement::ReadingsTaken(it) if it.state == State::AsLeft => {
                if let Some(job) = it.job.and_then(|id| jobs.get_mut(&id)) {
                    job.1 = false;
                }
            }
            Statement::JobClosed(it) => {
                if let Some(job) = jobs.get_mut(&it.job) {
                    job.1 = true;
                    findings.remove(&job.0);
                }
            }
            // The approver signs last, of the three, in these histories.
            Statement::Signed(it) if it.capacity == Authority::Approve => {
                if let Some(job) = jobs
                    .get_mut(&it.job)
                    .filter(|job| !findings.contains(&job.0))
                {
                    job.1 = true;
                }
            }
            Statement::CrewReported(it) => {
                symptoms.extend((1..=it.symptoms.len()).map(|at| (it.id, at)));
            }
            Statement::SymptomAnswered(it) => {
                symptoms.remove(&(it.report, it.symptom as usize));
            }
            Statement::InspectionOpened(it) => {
                inspections.insert(it.id, it.kind.clone());
            }
            Statement::InspectionClosed(it) => {
                let kind = inspections.remove(&it.inspection).unwrap();
                let rank = |kind: &str| {
                    ["daily", "31", "92", "annual"]
                        .iter()
                        .position(|k| *k == kind)
                };
                for (clock, at) in &mut restarted {
                    if rank(&kind) >= rank(clock) {
                        *at = (*at).max(*day);
                    }
                }
            }
            Statement::FireLogged(it) => {
                steamed.extend(it.lit.map(|at| at.date()));
            }
            Statement::LogClosed(it) => closed_through = closed_through.max(it.through),
            _ => {}
        }
    }
    all.extend(findings.iter().map(|id| format!("finding {id} is open")));
    all.extend(
        jobs.iter()
            .filter(|(_, (_, done))| !done)
            .map(|(id, _)| format!("job {id} is open")),
    );
    for (id, lifted) in &notices {
        if lifted.is_none_or(|day| day > on) {
            all.push(format!("the notice of {id} is not lifted"));
        }
    }
    all.extend(
        symptoms
            .iter()
            .map(|(id, at)| format!("symptom {at} of {id} is open")),
    );
    all.extend(
        inspections
            .iter()
            .map(|(id, kind)| format!("the {kind} {id} is open")),
    );
    // A day nobody vouched for may have been one in steam.
    let mut maybe = steamed.clone();
    let mut day = later(closed_through, 1);
    while day < on {
        maybe.insert(day);
        day = later(day, 1);
    }
    for (clock, last) in restarted {
        let most = match clock {
            "31" => 31,
            "92" => 92,
            _ => {
                if on > later(last, 368) {
                    all.push(format!("the annual of {last} has lapsed"));
                }
                continue;
            }
        };
        let counted = maybe
            .iter()
            .filter(|day| **day > last && **day < on)
            .count();
        if counted >= most {
            all.push(format!(
                "{counted} service days since {last}: {most} are allowed"
            ));
        }
    }
    all
}

/// Through which day the log was closed when she was released, by the entries.
fn closed_through(made: &[(Date, Statement)]) -> Date {
    let all = made.iter().filter_map(|(_, statement)| match statement {
        Statement::LogClosed(it) => Some(it.through),
        _ => None,
    });
    all.max().unwrap_or(later(FIRST, -1))
}

/// Runs a history and says how often she was released; an error names the act at which it went wrong.
fn run(acts: &[Act]) -> Result<usize, String> {
    let mut history = History::begun();
    let mut released = 0;
    let mut ended = true;
    for act in acts {
        let before = history.made.len();
        history.act(*act);
        let (on, made) = (history.on, &history.made);
        let way = in_the_way(made, on);
        let new = made[before..]
            .iter()
            .any(|(_, s)| matches!(s, Statement::Released(_)));
        if new {
            released += 1;
            ended = false;
            if closed_through(made) < later(on, -1) {
                return Err(format!(
                    "{act:?} on {on}: released, her log closed through {}",
                    closed_through(made)
                ));
            }
        }
        let stands = history.stands();
        if (new || stands) && !way.is_empty() {
            return Err(format!(
                "{act:?} on {on}: released {new}, stands {stands}, and {way:?}"
            ));
        }
        if stands && ended {
            return Err(format!(
                "{act:?} on {on}: a release that had ended stands again"
            ));
        }
        // A log not closed leaves a count in doubt; once it is closed there was none. All else ends a release for good.
        let only_doubt = closed_through(made) < later(on, -1);
        if !stands && !only_doubt {
            ended = true;
        }
    }
    Ok(released)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_that_is_open_or_lapsed_is_released(acts in acts()) {
        let came_to = run(&acts);
        prop_assert!(came_to.is_ok(), "{came_to:?}");
    }
}

/// The property is not empty: she is released, ended and released again on the way that a shop would go.
#[test]
fn these_histories_do_release_her() {
    use Act::*;
    let acts = [
        Released,
        Found(2),
        Released,
        Decided(0),
        Ordered,
        Worked,
        Signed,
        JobClosed,
        Released,
        Lifted(true),
        Released,
        Lifted(false),
        Released,
        MeasuredAgain,
        Released,
        Signed,
        Released,
        WrittenUp(false),
        Released,
        LookedAt,
        Released,
        Opened(0),
        Released,
        Answered,
        Closed,
        Released,
        DaysPass(20),
        Released,
        LogClosed(1),
        Released,
    ];
    assert_eq!(run(&acts), Ok(6));
    // The 31 service days, one by one: after them she is not released.
    let mut history = History::begun();
    for _ in 0..31 {
        history.act(Steamed(0));
        history.act(LogClosed(0));
        history.act(DaysPass(1));
    }
    let refused = left::release(
        &history.world.book,
        history.world.rules,
        FOURTEEN,
        ADA,
        history.on,
    );
    let refused = refused.unwrap_err().to_string();
    assert!(refused.contains("31"), "{refused}");
    assert!(!in_the_way(&history.made, history.on).is_empty());
}
