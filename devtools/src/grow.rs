//! `grow-book`: a made-up shop whose log is as long as one asks, for benches.

use std::path::Path;

use jiff::Span;
use jiff::civil::{Date, date};
use measure::Size;
use rules::Rulebook;
use shop::book::{
    DayStated, EntryId, FireId, FireLogged, HeldBefore, LocomotiveId, LogClosed, PersonId,
    Statement,
};
use shop::locomotive::{NewBook, NewEngine, add_engine, new_book};
use store::{Act, By, Store};

use crate::Stop;

/// The day after the last fire.
pub const TODAY: Date = date(2026, 5, 1);
/// More than a shop could log in a thousand years, and as many as a bench may ask for.
const MOST: u32 = 1_000_000;
const OFFICER: PersonId = PersonId(1);
const ENGINES: [(LocomotiveId, &str); 3] = [
    (LocomotiveId(14), "14"),
    (LocomotiveId(27), "27"),
    (LocomotiveId(803), "803"),
];

/// Makes a book from the words of the command line.
///
/// # Errors
/// Input where the number does not read; otherwise as [`grow`].
pub fn from_words(file: &str, fires: &str) -> Result<String, Stop> {
    let number = fires.parse::<u32>().ok().filter(|n| (1..=MOST).contains(n));
    let number = number.ok_or_else(|| {
        Stop::input(format!(
            "`{fires}` is not a number of fires: 1 to {MOST} was expected. Nothing was made."
        ))
    })?;
    let entries = grow(Path::new(file), number)?
        .entries()
        .map_err(Stop::machine)?
        .len();
    Ok(format!(
        "{file}: {number} fires of three engines, {entries} entries\n"
    ))
}

/// Makes a lineup from the words of the command line.
///
/// # Errors
/// Input where a number does not read; otherwise as [`lineup`].
pub fn lineup_from_words(file: &str, engines: &str, years: &str) -> Result<String, Stop> {
    let within = |word: &str, most: u32| word.parse().ok().filter(|n| (1..=most).contains(n));
    let (Some(engines), Some(years)) = (within(engines, 400), within(years, 50)) else {
        return Err(Stop::input(format!(
            "`{engines}` engines and `{years}` years: 1 to 400 and 1 to 50 were expected. Nothing was made."
        )));
    };
    let (entries, bytes) = lineup(Path::new(file), engines, years)?
        .scan()
        .map_err(Stop::machine)?;
    Ok(format!(
        "{file}: {entries} entries, {bytes} bytes of them\n"
    ))
}

/// Makes a book whose three engines steam in turn, one fire a day each, up to [`TODAY`].
///
/// # Errors
/// The machine's where the file stands or cannot be written.
pub fn grow(file: &Path, fires: u32) -> Result<Store, Stop> {
    let mut store = begun(file)?;
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    for (id, number) in ENGINES {
        store
            .write(&act_of(0x100 + id.0), |book, _| {
                add_engine(book, rules, engine(id, number.into()))
            })
            .map_err(Stop::machine)?;
    }
    // In one act, because each act loads the whole book anew.
    let days = fires.div_ceil(3);
    let first = days_on(TODAY, -i64::from(days)).map_err(Stop::machine)?;
    let logged = || -> Result<Vec<Statement>, jiff::Error> {
        let mut all = Vec::new();
        for number in 0..fires {
            let day = days_on(first, i64::from(number / 3))?;
            all.push(fire(number, day));
        }
        let last = TODAY.yesterday()?;
        all.extend(ENGINES.map(|(locomotive, _)| {
            Statement::LogClosed(LogClosed {
                locomotive,
                from: first,
                through: last,
            })
        }));
        Ok(all)
    };
    let logged = logged().map_err(Stop::machine)?;
    store
        .write(&act_of(0x1000), |_, _| Ok(logged.clone()))
        .map_err(Stop::machine)?;
    Ok(store)
}

/// Days each engine of a lineup steams in a year.
pub const DAYS_A_YEAR: u32 = 100;

/// The id of the n-th engine of a lineup.
pub fn engine_of(number: u32) -> LocomotiveId {
    LocomotiveId(0x1000 + u128::from(number))
}

/// Makes a book of many engines with logs of many years, each with an annual a year by its papers: the day before
/// [`TODAY`] is the last of every log, and every log is closed through it.
///
/// # Errors
/// The machine's where the file stands or cannot be written.
pub fn lineup(file: &Path, engines: u32, years: u32) -> Result<Store, Stop> {
    let mut store = begun(file)?;
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    let first = TODAY
        .checked_sub(jiff::Span::new().try_years(years).map_err(Stop::machine)?)
        .map_err(Stop::machine)?;
    store
        .write(&act_of(2), |book, _| {
            let mut all = Vec::new();
            for number in 0..engines {
                let number_of = (100 + number).to_string();
                let engine = engine(engine_of(number), number_of);
                all.extend(add_engine(book, rules, engine)?);
                all.extend(papers(engine_of(number), first, years)?);
            }
            Ok(all)
        })
        .map_err(Stop::machine)?;
    let logged = logs(engines, years, first)?;
    // In one act, because each act loads the whole book anew.
    store
        .write(&act_of(0x1000_0000), |_, _| Ok(logged.clone()))
        .map_err(Stop::machine)?;
    Ok(store)
}

/// A new book of the invented museum, with its officer.
pub fn begun(file: &Path) -> Result<Store, Stop> {
    let mut store = Store::create(file).map_err(Stop::machine)?;
    let new = NewBook {
        shop: "Juniper Fork Railroad Museum".into(),
        time_zone: "America/Denver".into(),
        house: "inch".into(),
        officer: "Ada Quill".into(),
        demonstration: Some(TODAY),
    };
    store
        .write(&act_of(1), |_, officer| new_book(&new, officer))
        .map_err(Stop::machine)?;
    Ok(store)
}

/// An engine of standard gauge, as these books have them all.
pub fn engine(id: LocomotiveId, number: String) -> NewEngine {
    NewEngine {
        id,
        number,
        wheels: "2-8-0".into(),
        // 56 1/2 in, in ticks.
        gauge: Size::from_ticks(113 * Size::TICKS_PER_INCH / 2),
        jurisdiction: "us-steam".into(),
        mawp_psig: Some(180),
        axle_load_lb: Some(36_500),
        fittings: Default::default(),
    }
}

/// An act of the officer on the bench's own day.
pub fn act_of(id: u128) -> Act {
    Act {
        id: EntryId(id),
        batch: None,
        device: "bench".into(),
        by: By::Id(OFFICER),
        done_on: TODAY,
        recorded_at: "2026-05-01T09:00:00-06:00".into(),
    }
}

/// The day so many days after another.
pub fn days_on(from: Date, days: i64) -> Result<Date, jiff::Error> {
    from.checked_add(Span::new().try_days(days)?)
}

/// The day so many years after another.
pub fn years_on(from: Date, years: i64) -> Result<Date, jiff::Error> {
    from.checked_add(Span::new().try_years(years)?)
}

/// What the papers of an engine say: enough that every clock has something to run from.
fn papers(engine: LocomotiveId, first: Date, years: u32) -> Result<Vec<Statement>, shop::Refusal> {
    let past = |why: jiff::Error| shop::Refusal::input(why.to_string());
    let held = |kind: &str, held_on: Date| {
        Statement::HeldBefore(HeldBefore {
            locomotive: engine,
            kind: kind.into(),
            held_on,
            service_days_since: None,
            annuals_since: None,
            document: "green binder".into(),
        })
    };
    let told = |what: &str, day: Date| {
        Statement::DayStated(DayStated {
            locomotive: engine,
            what: what.into(),
            day,
            service_days_since: None,
            annuals_since: None,
            inspection: None,
            document: "green binder".into(),
        })
    };
    let mut all = vec![told("enters-service", date(1923, 5, 14))];
    for year in 0..years {
        let day = years_on(first, year.into())
            .and_then(|day| days_on(day, 30))
            .map_err(past)?;
        let kind = match year {
            year if year % 14 == 0 => "1472",
            year if year % 5 == 0 => "fifth-annual",
            _ => "annual",
        };
        all.push(held(kind, day));
        if year % 14 == 0 {
            all.push(told("frame-cleaning", day));
        }
        if year % 2 == 0 {
            all.push(told("air-brake-valves", day));
        }
    }
    Ok(all)
}

/// Every fire of a lineup in the order of the days, then the closings.
fn logs(engines: u32, years: u32, first: Date) -> Result<Vec<Statement>, Stop> {
    let mut all = Vec::new();
    let last = TODAY.yesterday().map_err(Stop::machine)?;
    let days = first.until(last).map_or(0, |span| span.get_days());
    let fires = years * DAYS_A_YEAR;
    for turn in 0..fires {
        // Spread evenly over the years, as many as there are.
        let after = i64::from(turn) * i64::from(days) / i64::from(fires.max(1));
        let day = days_on(first, after).map_err(Stop::machine)?;
        for number in 0..engines {
            let mut fire = fire(turn + number, day);
            if let Statement::FireLogged(it) = &mut fire {
                it.locomotive = engine_of(number);
                it.id = FireId(spread(u128::from(turn) * 1_000 + u128::from(number)));
            }
            all.push(fire);
        }
    }
    all.extend((0..engines).map(|number| {
        Statement::LogClosed(LogClosed {
            locomotive: engine_of(number),
            from: first,
            through: last,
        })
    }));
    Ok(all)
}

/// An id as if made by chance: a book never gets them in order.
fn spread(number: u128) -> u128 {
    (number + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15_F39C_C060_5CED_C835)
}

/// One fire; now and then a time was not written, as in a real log.
fn fire(number: u32, day: Date) -> Statement {
    let [first, second, third] = ENGINES.map(|(id, _)| id);
    let locomotive = match number % 3 {
        0 => first,
        1 => second,
        _ => third,
    };
    Statement::FireLogged(FireLogged {
        id: FireId(0x10_0000 + u128::from(number)),
        locomotive,
        lit: Some(day.at(5, 30, 0, 0)),
        up: Some(day.at(8, 15, 0, 0)),
        out: Some(day.at(17, 0, 0, 0)),
        gone: (!number.is_multiple_of(7)).then(|| day.at(21, 45, 0, 0)),
        miles: Some(20 + number % 40),
        offered: None,
    })
}

#[cfg(test)]
mod tests {
    use crate::bench::Folder;

    #[test]
    fn a_grown_book_holds_its_fires_and_stands_up_to_a_check() {
        let folder = Folder::new("grow").map_err(|stop| stop.why).unwrap();
        let file = folder.file("grown.book");
        let store = super::grow(&file, 100).map_err(|stop| stop.why).unwrap();
        assert_eq!(store.whole_book().unwrap().fires.len(), 100);
        assert_eq!(store.check().unwrap().differences, []);
        drop(store);
        // It never writes over a file that stands there.
        assert_eq!(
            super::grow(&file, 1).map(drop).map_err(|stop| stop.code),
            Err(3)
        );
    }

    #[test]
    fn a_number_that_is_none_makes_nothing() {
        for wrong in ["0", "-1", "many", "1000001"] {
            let said = super::from_words("/no/such/folder/x.book", wrong);
            assert_eq!(said.map_err(|stop| stop.code), Err(2), "{wrong}");
        }
    }
}
