//! What every verb stands on: the book file, the clock, the ids, who is speaking, and on which day.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::PathBuf;

use jiff::civil::{Date, DateTime};
use measure::House;
use rules::Rulebook;
use shop::Refusal;
use shop::book::{BatchId, Book, EntryId, LocomotiveId, PersonId, Statement};
use shop::locomotive::plain_number;
use shop::report::{Ran, ran_against, reaches_back};
use store::{Act, By, Receipt, Store, StoreError};

use crate::{Clock, Failure, Globals, Ids};

/// What a verb stated of days past, with the book as it was before. A verb that speaks of today leaves it empty, and
/// the book is not copied for it.
pub struct Late {
    today: Date,
    before: Option<Book>,
    reaches: BTreeMap<LocomotiveId, Date>,
}

impl Late {
    /// Notes from which day before today on a statement may change what stood against her.
    fn reach(&mut self, statement: &Statement, on: Date) {
        let reach = reaches_back(statement, on);
        if let Some((engine, from)) = reach.filter(|(_, from)| *from < self.today) {
            let first = self.reaches.entry(engine).or_insert(from);
            *first = from.min(*first);
        }
    }

    fn of(today: Date) -> Late {
        Late {
            today,
            before: None,
            reaches: BTreeMap::new(),
        }
    }

    fn heard(
        &mut self,
        book: &Book,
        on: Date,
        made: Result<Vec<Statement>, Refusal>,
    ) -> Result<Vec<Statement>, Refusal> {
        for statement in made.iter().flatten() {
            self.reach(statement, on);
        }
        if !self.reaches.is_empty() {
            self.before.get_or_insert_with(|| book.clone());
        }
        made
    }
}

/// A pure verb as a store asks it.
type Asked<'v> = dyn Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal> + 'v;

/// What a verb is done with.
pub struct Context {
    globals: Globals,
    clock: Option<Clock>,
    ids: Ids,
    open: Option<Store>,
    /// What entries made late showed of days past, for the answer.
    past: Vec<(String, Ran)>,
}

impl Context {
    /// For the process's own globals, clock and randomness.
    pub fn of(globals: Globals) -> Context {
        let ids = match std::env::var("OUTSHOP_SEED") {
            Ok(seed) if !seed.is_empty() => Ids::Seeded(seed, 0),
            _ => Ids::Random,
        };
        Context {
            globals,
            clock: None,
            ids,
            open: None,
            past: Vec::new(),
        }
    }

    /// For a stated clock and seed.
    pub fn stated(globals: Globals, clock: Clock, ids: Ids) -> Context {
        Context {
            globals,
            clock: Some(clock),
            ids,
            open: None,
            past: Vec::new(),
        }
    }

    /// Keeps the open book but changes who speaks and when; the demonstration is told this way.
    pub fn turn(&mut self, globals: Globals, clock: Clock) {
        self.globals = globals;
        self.clock = Some(clock);
    }

    /// Keeps clock and book, and changes the globals of the next verb.
    pub fn speak(&mut self, globals: Globals) {
        self.globals = globals;
    }

    /// The globals.
    pub fn globals(&self) -> &Globals {
        &self.globals
    }

    /// A fresh id.
    ///
    /// # Errors
    /// As [`Ids::draw`].
    pub fn id(&mut self) -> Result<u128, Failure> {
        self.ids.draw()
    }

    /// The book's file.
    ///
    /// # Errors
    /// If none is named.
    pub fn path(&self) -> Result<PathBuf, Failure> {
        self.globals.book.clone().ok_or_else(|| {
            Failure::Input("No book is named: give --book FILE, or set OUTSHOP_BOOK.".into())
        })
    }

    /// The rulebook of this build.
    ///
    /// # Errors
    /// If it does not read, which a test of this build forbids.
    pub fn rules(&self) -> Result<&'static Rulebook, Failure> {
        Ok(Rulebook::built_in()?)
    }

    /// The open book file.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn store(&mut self) -> Result<&mut Store, Failure> {
        if self.open.is_none() {
            let store = Store::open(&self.path()?)?;
            self.open = Some(store);
        }
        self.open
            .as_mut()
            .ok_or_else(|| Failure::Machine("The book did not open.".into()))
    }

    /// Takes a book file just made.
    pub fn take(&mut self, store: Store) {
        self.open = Some(store);
    }

    /// The state of the book.
    ///
    /// # Errors
    /// As [`Store::book`].
    pub fn book(&mut self) -> Result<Book, Failure> {
        Ok(self.store()?.book()?)
    }

    /// One engine's part of the book, by her number, with her fires.
    ///
    /// # Errors
    /// As [`Store::book_of`]; input if there is no such engine.
    pub fn book_with_fires_of(&mut self, number: &str) -> Result<Book, Failure> {
        let id = self.engine_of(number)?;
        let mut book = self.store()?.book_of(id)?;
        self.store()?.add_fires(&mut book, id)?;
        Ok(book)
    }

    /// The state of the book with the readings of the part that a finding is on.
    ///
    /// # Errors
    /// As [`Store::book`]; input if there is no such finding.
    pub fn book_with_readings_of_finding(&mut self, number: &str) -> Result<Book, Failure> {
        let mut book = self.book()?;
        let part = shop::locomotive::finding(&book, number)?.1.part;
        self.store()?.add_readings(&mut book, part)?;
        Ok(book)
    }

    /// The state of the book with the readings of every part of one engine, by her number.
    ///
    /// # Errors
    /// As [`Store::book`]; input if there is no such engine.
    pub fn book_with_all_readings_of(&mut self, number: &str) -> Result<Book, Failure> {
        let mut book = self.book()?;
        let (id, _) = shop::locomotive::engine(&book, number)?;
        let hers = book.parts.iter().filter(|(_, part)| part.locomotive == id);
        let hers: Vec<_> = hers.map(|(id, _)| *id).collect();
        for part in hers {
            self.store()?.add_readings(&mut book, part)?;
        }
        Ok(book)
    }

    /// The book without any engine's rows.
    ///
    /// # Errors
    /// As [`Store::book_of_shop`].
    pub fn book_of_shop(&mut self) -> Result<Book, Failure> {
        Ok(self.store()?.book_of_shop()?)
    }

    /// The book with every set of readings in which a word stands.
    ///
    /// # Errors
    /// As [`Store::readings_that_say`].
    pub fn book_with_readings_that_say(&mut self, word: &str) -> Result<Book, Failure> {
        Ok(self.store()?.readings_that_say(word)?)
    }

    /// The part of the book that is one engine's, by her number, and what is no engine's.
    ///
    /// # Errors
    /// As [`Store::book_of`]; input if there is no such engine, naming those there are.
    pub fn book_of(&mut self, number: &str) -> Result<Book, Failure> {
        let id = self.engine_of(number)?;
        Ok(self.store()?.book_of(id)?)
    }

    /// The same with the readings of one of her parts, by its name.
    ///
    /// # Errors
    /// As [`Context::book_of`]; that she has no such part is for whoever asks to find.
    pub fn book_of_part(&mut self, number: &str, part: &str) -> Result<Book, Failure> {
        let id = self.engine_of(number)?;
        Ok(self.store()?.book_of_part(id, part)?)
    }

    /// The same with her fires too, whose miles the part ran.
    ///
    /// # Errors
    /// As [`Context::book_of`].
    pub fn book_of_part_with_fires(&mut self, number: &str, part: &str) -> Result<Book, Failure> {
        let mut book = self.book_of_part(number, part)?;
        let id = self.engine_of(number)?;
        self.store()?.add_fires(&mut book, id)?;
        Ok(book)
    }

    /// The engine of a number, found without reading the book; where there is none, the whole book is asked, which
    /// says what numbers there are.
    fn engine_of(&mut self, number: &str) -> Result<shop::book::LocomotiveId, Failure> {
        match self.store()?.engine_of(plain_number(number))? {
            Some(id) => Ok(id),
            None => Ok(shop::locomotive::engine(&self.book()?, number)?.0),
        }
    }

    /// The book's time zone.
    ///
    /// # Errors
    /// As [`Store::book`].
    pub fn zone(&mut self) -> Result<String, Failure> {
        let shop = self.store()?.shop()?;
        Ok(shop.map_or_else(|| "UTC".to_string(), |s| s.time_zone))
    }

    /// What tells the time: a stated clock, else the day a demonstration book is held at, else the
    /// machine's.
    fn clock(&mut self) -> Result<Clock, Failure> {
        let clock = match &self.clock {
            Some(clock) => clock.clone(),
            None => Clock::of_process()?,
        };
        if clock == Clock::Machine
            && let Some(held) = self.demonstration()
        {
            return Ok(Clock::Stated(held.at(18, 0, 0, 0)));
        }
        Ok(clock)
    }

    /// The day a demonstration book holds as its today, if this is one.
    pub fn demonstration(&mut self) -> Option<Date> {
        let there = self.open.is_some()
            || self
                .globals
                .book
                .as_ref()
                .is_some_and(|path| path.is_file());
        if !there {
            return None;
        }
        self.store().ok()?.shop().ok()??.demonstration
    }

    /// The day asked about: `--on`, else today in the book's zone.
    ///
    /// # Errors
    /// If there is no book to say the zone.
    pub fn on(&mut self) -> Result<Date, Failure> {
        match self.globals.on {
            Some(on) => Ok(on),
            None => {
                let zone = self.zone()?;
                Ok(self.clock()?.read(&zone)?.1)
            }
        }
    }

    /// The day where no book says in which zone it is: the one asked about, else today in UTC.
    ///
    /// # Errors
    /// If the process's clock is stated and does not read.
    pub fn on_without_book(&self) -> Result<Date, Failure> {
        match self.globals.on {
            Some(on) => Ok(on),
            None => Ok(Clock::of_process()?.read("UTC")?.1),
        }
    }

    /// This instant, for what says when it was made.
    ///
    /// # Errors
    /// If there is no book to say the zone.
    pub fn now(&mut self) -> Result<jiff::Timestamp, Failure> {
        let zone = self.zone()?;
        Ok(self.clock()?.read(&zone)?.0)
    }

    /// A moment by the clocks where the shop is.
    ///
    /// # Errors
    /// If the book cannot be read, or its zone is not known.
    pub fn local(&mut self, moment: jiff::Timestamp) -> Result<DateTime, Failure> {
        let zone = crate::now::zone(&self.zone()?)?;
        Ok(moment.to_zoned_datetime(zone).datetime())
    }

    /// House units: `--house`, else the book's, else inch.
    pub fn house(&mut self) -> House {
        if let Some(house) = self.globals.house {
            return house;
        }
        let named = self.globals.book.is_some();
        let of_book = if named {
            self.store()
                .ok()
                .and_then(|store| store.shop().ok()?)
                .and_then(|shop| shop.house.parse().ok())
        } else {
            None
        };
        of_book.unwrap_or(House::Inch)
    }

    /// Who speaks.
    ///
    /// # Errors
    /// If nobody is named.
    pub fn by(&self) -> Result<&str, Failure> {
        self.globals.by.as_deref().ok_or_else(|| {
            Failure::Input("Every entry is somebody's: give --by NAME, or set OUTSHOP_BY.".into())
        })
    }

    /// The act of whoever speaks, at this moment, for a zone.
    ///
    /// # Errors
    /// If nobody is named, or the day lies ahead.
    pub fn act(&mut self, by: By, zone: &str) -> Result<Act, Failure> {
        let (now, today) = self.clock()?.read(zone)?;
        let done_on = self.globals.on.unwrap_or(today);
        if done_on > today {
            return Err(Failure::Input(format!(
                "{done_on} lies ahead of today, {today}: work is entered when it is done."
            )));
        }
        let id = match self.globals.id {
            Some(id) => id,
            None => EntryId(self.id()?),
        };
        Ok(Act {
            id,
            batch: self.globals.batch,
            device: self.globals.device.clone(),
            by,
            done_on,
            recorded_at: now.to_string(),
        })
    }

    /// As [`Context::save`] for a verb that speaks of one engine, by her number, and asks of no other: the rest of
    /// the book is not read.
    ///
    /// # Errors
    /// As [`Context::save`].
    pub fn save_of(
        &mut self,
        number: &str,
        verb: impl Fn(&Book, PersonId, Date) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, Failure> {
        let Some(engine) = self.store()?.engine_of(plain_number(number))? else {
            // The whole book is asked, which says what numbers there are.
            return self.save(verb);
        };
        self.heard(verb, |store, act, verb| store.write_of(act, engine, verb))
    }

    /// As [`Context::save_of`] for a verb that asks what one of her parts, by its name, was read at before.
    ///
    /// # Errors
    /// As [`Context::save`].
    pub fn save_of_part(
        &mut self,
        number: &str,
        part: &str,
        verb: impl Fn(&Book, PersonId, Date) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, Failure> {
        let Some(engine) = self.store()?.engine_of(plain_number(number))? else {
            return self.save(verb);
        };
        self.heard(verb, |store, act, verb| {
            store.write_of_part(act, engine, part, verb)
        })
    }

    /// The act of whoever speaks, in the book's own zone.
    ///
    /// # Errors
    /// If nobody is named, or the day lies ahead.
    pub fn own_act(&mut self) -> Result<Act, Failure> {
        let by = By::Name(self.by()?.to_string());
        let zone = self.zone()?;
        self.act(by, &zone)
    }

    /// The same for statements that come in together: of the batch that was named, else of a new one.
    ///
    /// # Errors
    /// As [`Context::own_act`].
    pub fn batch_act(&mut self) -> Result<(Act, BatchId), Failure> {
        let batch = match self.globals.batch {
            Some(batch) => batch,
            None => BatchId(self.id()?),
        };
        let mut act = self.own_act()?;
        act.batch = Some(batch);
        Ok((act, batch))
    }

    /// Asks a pure verb and saves what it states. The verb is told the day the work was done.
    ///
    /// # Errors
    /// What the verb or the book says; nothing is saved then.
    pub fn save(
        &mut self,
        verb: impl Fn(&Book, PersonId, Date) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, Failure> {
        self.heard(verb, |store, act, verb| store.write(act, verb))
    }

    /// Asks a verb through one of the ways a store is written, and tells afterward what it showed of days past.
    fn heard(
        &mut self,
        verb: impl Fn(&Book, PersonId, Date) -> Result<Vec<Statement>, Refusal>,
        write: impl FnOnce(&mut Store, &Act, &Asked<'_>) -> Result<Receipt, StoreError>,
    ) -> Result<Receipt, Failure> {
        let act = self.own_act()?;
        let on = act.done_on;
        let zone = self.zone()?;
        let late = RefCell::new(Late::of(self.clock()?.read(&zone)?.1));
        let asked = |book: &Book, person: PersonId| {
            late.borrow_mut().heard(book, on, verb(book, person, on))
        };
        let receipt = write(self.store()?, &act, &asked)?;
        self.tell_of_past(late.into_inner())?;
        Ok(receipt)
    }

    /// Before something is put right or taken back: the book as it stands, if what changes may show something of days
    /// past. After it, [`Context::tell_of_past`] tells what.
    ///
    /// # Errors
    /// If the book does not read.
    pub fn look_back(&mut self, changed: &[(Statement, Date)]) -> Result<Late, Failure> {
        let zone = self.zone()?;
        let mut late = Late::of(self.clock()?.read(&zone)?.1);
        for (statement, on) in changed {
            late.reach(statement, *on);
        }
        if !late.reaches.is_empty() {
            late.before = Some(self.book()?);
        }
        Ok(late)
    }

    /// Keeps, for the answer, on which days past an engine ran against what an entry made late now shows.
    ///
    /// # Errors
    /// If the book does not read; what was entered stays.
    pub fn tell_of_past(&mut self, late: Late) -> Result<(), Failure> {
        let Some(before) = late.before else {
            return Ok(());
        };
        let (rules, after) = (self.rules()?, self.book()?);
        for (engine, from) in late.reaches {
            // What cannot be asked of those days, before the rulebook's first for one, is not told of them.
            let ran =
                ran_against(&before, &after, rules, engine, from, late.today).unwrap_or_default();
            let number = after
                .locomotives
                .get(&engine)
                .map_or("?", |e| e.number.as_str());
            self.past
                .extend(ran.into_iter().map(|it| (number.to_string(), it)));
        }
        Ok(())
    }

    /// What entries made late showed of days past, by the engine's number; told once.
    pub fn take_past(&mut self) -> Vec<(String, Ran)> {
        std::mem::take(&mut self.past)
    }
}
