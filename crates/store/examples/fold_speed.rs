//! How fast a book is folded anew: `cargo run --release -p store --example fold_speed`. Prints, proves nothing.

use std::time::Instant;

use jiff::civil::date;
use shop::book::{
    BookOpened, EntryId, FireId, FireLogged, LocomotiveAdded, LocomotiveId, PersonId, Statement,
};
use store::{Act, By, Store};

const FIRES: u32 = 20_000;

fn book() -> Vec<Statement> {
    let mut all = vec![
        Statement::BookOpened(BookOpened {
            shop: "Juniper Fork Railroad Museum".into(),
            time_zone: "America/Denver".into(),
            house: "inch".into(),
            demonstration: None,
        }),
        Statement::LocomotiveAdded(LocomotiveAdded {
            id: LocomotiveId(14),
            number: "14".into(),
            wheels: "2-8-0".into(),
            gauge: measure::Size::ZERO,
            jurisdiction: "us-steam".into(),
            mawp_psig: None,
            axle_load_lb: None,
            fittings: Default::default(),
        }),
    ];
    all.extend((0..FIRES).map(|number| {
        let day = rules::days_after(date(1990, 1, 1), (number / 2).into()).unwrap_or_default();
        Statement::FireLogged(FireLogged {
            // Spread as ids made by chance are: a book never gets them in order.
            id: FireId(u128::from(number).wrapping_mul(0x9E37_79B9_7F4A_7C15_F39C_C060_5CED_C835)),
            locomotive: LocomotiveId(14),
            lit: Some(day.at(5, 30, 0, 0)),
            up: Some(day.at(8, 0, 0, 0)),
            out: Some(day.at(17, 0, 0, 0)),
            gone: Some(day.at(22, 15, 0, 0)),
            miles: Some(34),
            offered: None,
        })
    }));
    all
}

#[allow(clippy::disallowed_methods, reason = "this program times the store")]
fn timed<T, E>(what: &str, count: u32, work: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
    let begun = Instant::now();
    let done = work()?;
    let took = begun.elapsed();
    let rate = f64::from(count) / took.as_secs_f64();
    println!("{what:<28}{:>8} ms{rate:>12.0} entries/s", took.as_millis());
    Ok(done)
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::temp_dir().join(format!("fold-speed-{}.book", std::process::id()));
    let mut store = Store::create(&path)?;
    let statements = book();
    let act = Act {
        id: EntryId(1),
        batch: None,
        device: "bench".into(),
        by: By::Id(PersonId(1)),
        done_on: date(2026, 5, 3),
        recorded_at: "2026-05-03T09:00:00-06:00".into(),
    };
    let count = FIRES + 2;
    timed("entered in one act", count, || {
        store.write(&act, |_, _| Ok(statements.clone()))
    })?;
    for _ in 0..3 {
        timed("folded anew and written", count, || store.rebuild())?;
    }
    for _ in 0..2 {
        timed("checked", count, || store.check())?;
        timed("loaded from its rows", count, || store.whole_book())?;
    }
    drop(store);
    std::fs::remove_file(&path)?;
    Ok(())
}
