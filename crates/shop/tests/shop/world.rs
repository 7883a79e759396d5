//! A small invented shop held in memory: statements are applied as a book file would apply them.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use measure::{Reading, Size, State};
use rules::Rulebook;
use shop::Refusal;
use shop::book::{
    Answer, Authority, Book, DayStated, EntryId, FeatureReading, FireId, FireLogged, HeldBefore,
    InspectionId, LocomotiveId, LogClosed, Meta, PartId, PersonAdded, PersonId, Statement,
};
use shop::locomotive::{NewBook, NewEngine, NewPart, add_engine, add_part, add_person, new_book};

/// The officer: may do everything.
pub const ADA: PersonId = PersonId(0xADA);
/// May inspect and repair.
pub const BEN: PersonId = PersonId(0xBE2);
/// May repair.
pub const CAL: PersonId = PersonId(0xCA1);
/// May inspect.
pub const DOT: PersonId = PersonId(0xD07);
/// May do nothing but write up.
pub const ELI: PersonId = PersonId(0xE11);
/// Engine No. 14.
pub const FOURTEEN: LocomotiveId = LocomotiveId(14);
/// Engine No. 27.
pub const TWENTY_SEVEN: LocomotiveId = LocomotiveId(27);
/// The day most tests stand on.
pub const TODAY: Date = date(2026, 5, 2);

/// The day so many days after `day`.
pub fn later(day: Date, days: i64) -> Date {
    rules::days_after(day, days).unwrap()
}

/// A book in memory.
#[derive(Clone)]
pub struct World {
    pub book: Book,
    pub rules: &'static Rulebook,
    seq: u64,
}

/// A person to be added.
pub fn person(id: PersonId, name: &str, may: &[Authority]) -> PersonAdded {
    PersonAdded {
        id,
        name: name.into(),
        may: may.to_vec(),
        trade: None,
    }
}

impl World {
    /// A book with its officer and nobody else.
    pub fn opened() -> World {
        let mut world = World {
            book: Book::default(),
            rules: Rulebook::built_in().unwrap(),
            seq: 0,
        };
        let new = NewBook {
            shop: "Juniper Fork Railroad Museum".into(),
            time_zone: "America/Denver".into(),
            house: "inch".into(),
            officer: "Ada Quill".into(),
            demonstration: None,
        };
        world.enter(ADA, date(2024, 1, 1), new_book(&new, ADA));
        world
    }

    /// The shop with its people and engines No. 14 and No. 27; nothing is known of their clocks.
    pub fn new() -> World {
        static MADE: std::sync::OnceLock<World> = std::sync::OnceLock::new();
        MADE.get_or_init(World::make).clone()
    }

    fn make() -> World {
        let mut world = World::opened();
        for (id, name, may) in [
            (
                BEN,
                "Ben Ostrow",
                &[Authority::Inspect, Authority::Repair][..],
            ),
            (CAL, "Cal Wren", &[Authority::Repair]),
            (DOT, "Dot Marsh", &[Authority::Inspect]),
            (ELI, "Eli Voss", &[]),
        ] {
            let made = add_person(&world.book, person(id, name, may), ADA, TODAY);
            world.enter(ADA, date(2024, 1, 1), made);
        }
        for (id, number) in [(FOURTEEN, "14"), (TWENTY_SEVEN, "27")] {
            let made = add_engine(&world.book, world.rules, engine(id, number));
            world.enter(ADA, date(2024, 1, 1), made);
        }
        for engine in [FOURTEEN, TWENTY_SEVEN] {
            world.in_service_since(engine, date(1951, 6, 1));
        }
        world
    }

    /// The day an engine entered service, so that a 1472 held since is not her first.
    pub fn in_service_since(&mut self, engine: LocomotiveId, day: Date) {
        let told = DayStated {
            locomotive: engine,
            what: "enters-service".into(),
            day,
            service_days_since: None,
            annuals_since: None,
            inspection: None,
            document: "builder's list".into(),
        };
        let made = shop::clock::state_day(&self.book, self.rules, told, date(2024, 1, 1));
        self.enter(ADA, date(2024, 1, 1), made);
    }

    /// A day of work of No. 14, with what a paper counted since.
    pub fn did(&mut self, what: &str, day: Date, since: Option<(u32, Date)>, annuals: Option<u32>) {
        let told = DayStated {
            locomotive: FOURTEEN,
            what: what.into(),
            day,
            service_days_since: since,
            annuals_since: annuals,
            inspection: None,
            document: "the cab card".into(),
        };
        let on = since.map_or(day, |(_, through)| through.max(day));
        let made = shop::clock::state_day(&self.book, self.rules, told, on);
        self.enter(ADA, on, made);
    }

    /// Enters what a verb stated.
    pub fn enter(&mut self, by: PersonId, on: Date, made: Result<Vec<Statement>, Refusal>) {
        for statement in made.unwrap_or_else(|no| panic!("refused: {no}")) {
            self.state(by, on, statement);
        }
    }

    /// Enters one statement, as it would come back from its stored form.
    pub fn state(&mut self, by: PersonId, on: Date, statement: Statement) {
        self.seq += 1;
        let meta = Meta {
            seq: self.seq,
            id: EntryId(u128::from(self.seq)),
            batch: None,
            person: by,
            done_on: on,
        };
        let body = statement.body().unwrap();
        let stored = Statement::read(statement.kind(), statement.form(), &body).unwrap();
        assert_eq!(stored, statement);
        self.book.apply(meta, &stored).unwrap();
    }

    /// An id nothing has yet.
    pub fn fresh(&self) -> u128 {
        0x1000_0000 + u128::from(self.seq)
    }

    /// A fire of No. 14 that stood from morning to evening of one day.
    pub fn steamed(&mut self, day: Date) {
        self.steamed_for(day, None);
    }

    /// The same with the miles she ran.
    pub fn steamed_for(&mut self, day: Date, miles: Option<u32>) {
        let fire = FireLogged {
            id: FireId(self.fresh()),
            locomotive: FOURTEEN,
            lit: Some(day.at(6, 0, 0, 0)),
            up: Some(day.at(9, 0, 0, 0)),
            out: Some(day.at(17, 0, 0, 0)),
            gone: Some(day.at(21, 0, 0, 0)),
            miles,
            offered: None,
        };
        self.state(ELI, day, Statement::FireLogged(fire));
    }

    /// The log of No. 14 holds every fire of these days.
    pub fn closed(&mut self, from: Date, through: Date) {
        let closed = LogClosed {
            locomotive: FOURTEEN,
            from,
            through,
        };
        self.state(ADA, through, Statement::LogClosed(closed));
    }

    /// An inspection of No. 14 held before the book.
    pub fn paper(&mut self, kind: &str, held_on: Date, since: Option<(u32, Date)>) {
        let held = HeldBefore {
            locomotive: FOURTEEN,
            kind: kind.into(),
            held_on,
            service_days_since: since,
            annuals_since: (kind == "fifth-annual").then_some(0),
            document: "a form in the drawer".into(),
        };
        let on = since.map_or(held_on, |(_, through)| through.max(held_on));
        let made = shop::locomotive::held_before(&self.book, self.rules, held, on);
        self.enter(ADA, on, made);
    }

    /// Opens an inspection of No. 14, answers every item *good* and closes it, all on one day.
    pub fn inspected(&mut self, kind: &str, day: Date) {
        let id = InspectionId(self.fresh());
        let made = shop::inspection::open(&self.book, self.rules, id, FOURTEEN, kind, DOT, day);
        self.enter(DOT, day, made);
        self.answer_all(id, day);
        let made = shop::inspection::close(&self.book, id, None, DOT, TODAY);
        self.enter(DOT, day, made);
    }

    /// Answers *good* to every item that has no answer.
    pub fn answer_all(&mut self, id: InspectionId, day: Date) {
        let inspection = &self.book.inspections[&id];
        let open: Vec<String> = inspection
            .items
            .iter()
            .filter(|item| !inspection.answers.contains_key(&item.rule))
            .map(|item| item.rule.clone())
            .collect();
        for rule in open {
            let seen = "looked at, nothing amiss";
            let made = shop::inspection::answer(
                &self.book,
                id,
                &rule,
                (Answer::Good, None),
                seen,
                DOT,
                TODAY,
            );
            self.enter(DOT, day, made);
        }
    }

    /// Somebody proves that what a job opens holds no pressure.
    pub fn zero(&mut self, job: shop::book::JobId, day: Date) {
        let kept = zero_proven(job);
        let made = shop::job::keep(&self.book, kept, CAL, day);
        self.enter(CAL, day, made);
    }

    /// A part of No. 14 that was just added.
    pub fn part(&mut self, id: u128, family: &str, facts: &[(&str, &str)]) -> PartId {
        let id = PartId(id);
        let new = NewPart {
            id,
            locomotive: FOURTEEN,
            family: family.into(),
            name: format!("{family} {:x}", id.0),
            facts: words(facts),
            features: BTreeMap::new(),
            known: Default::default(),
        };
        let made = add_part(&self.book, new);
        self.enter(ADA, TODAY, made);
        id
    }
}

/// Proof of zero pressure, as a repairer signs it.
pub fn zero_proven(job: shop::book::JobId) -> shop::book::JobPaperKept {
    shop::book::JobPaperKept {
        job,
        kind: shop::book::JobPaper::ZeroProven,
        told: "gauge at zero, cock open to the air, feed shut and locked".into(),
        document: None,
        until: None,
        cost: None,
        points: Vec::new(),
        window: None,
        window_from: None,
    }
}

/// An engine as the tests add it: 2-8-0, standard gauge, 180 psi, 36,500 lb an axle.
pub fn engine(id: LocomotiveId, number: &str) -> NewEngine {
    NewEngine {
        id,
        number: number.into(),
        wheels: "2-8-0".into(),
        gauge: Size::parse("56 1/2 in").unwrap(),
        jurisdiction: "us-steam".into(),
        mawp_psig: Some(180),
        axle_load_lb: Some(36_500),
        fittings: BTreeMap::from([("tubular-glasses".into(), true)]),
    }
}

/// Pairs as a map of words.
pub fn words(pairs: &[(&str, &str)]) -> BTreeMap<String, String> {
    pairs
        .iter()
        .map(|(key, value)| (key.to_string(), value.to_string()))
        .collect()
}

/// A reading as written.
pub fn reading(feature: &str, position: &str, text: &str, state: State) -> FeatureReading {
    FeatureReading {
        feature: feature.into(),
        reading: Reading::new(text, "", position, "Ben Ostrow", "Ben Ostrow", state),
    }
}

/// Readings as found: `(feature, position, as written)`.
pub fn found(readings: &[(&str, &str, &str)]) -> Vec<FeatureReading> {
    readings
        .iter()
        .map(|(feature, position, text)| reading(feature, position, text, State::AsFound))
        .collect()
}
