//! `grow-book`: a made-up shop whose log is as long as one asks, for benches.

use std::path::Path;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use measure::Size;
use rules::Rulebook;
use shop::book::{EntryId, FireId, FireLogged, LocomotiveId, LogClosed, PersonId, Statement};
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

/// Makes a book whose three engines steam in turn, one fire a day each, up to [`TODAY`].
///
/// # Errors
/// The machine's where the file stands or cannot be written.
pub fn grow(file: &Path, fires: u32) -> Result<Store, Stop> {
    let mut store = Store::create(file).map_err(Stop::machine)?;
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    let new = NewBook {
        shop: "Juniper Fork Railroad Museum".into(),
        time_zone: "America/Denver".into(),
        house: "inch".into(),
        officer: "Ada Quill".into(),
        demonstration: Some(TODAY),
    };
    let act = |id: u128| Act {
        id: EntryId(id),
        batch: None,
        device: "bench".into(),
        by: By::Id(OFFICER),
        done_on: TODAY,
        recorded_at: "2026-05-01T09:00:00-06:00".into(),
    };
    store
        .write(&act(1), |_, officer| new_book(&new, officer))
        .map_err(Stop::machine)?;
    for (id, number) in ENGINES {
        let engine = NewEngine {
            id,
            number: number.into(),
            wheels: "2-8-0".into(),
            // Standard gauge, 56 1/2 in, in ticks.
            gauge: Size::from_ticks(113 * Size::TICKS_PER_INCH / 2),
            jurisdiction: "us-steam".into(),
            mawp_psig: Some(180),
            axle_load_lb: Some(36_500),
            fittings: Default::default(),
        };
        let made = act(0x100 + id.0);
        store
            .write(&made, |book, _| add_engine(book, rules, engine.clone()))
            .map_err(Stop::machine)?;
    }
    // In one act, because each act loads the whole book anew.
    let days = fires.div_ceil(3);
    let first = TODAY
        .checked_sub(i64::from(days).days())
        .map_err(Stop::machine)?;
    let logged = || -> Result<Vec<Statement>, jiff::Error> {
        let mut all = Vec::new();
        for number in 0..fires {
            let day = first.checked_add(i64::from(number / 3).days())?;
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
        .write(&act(0x1000), |_, _| Ok(logged.clone()))
        .map_err(Stop::machine)?;
    Ok(store)
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
