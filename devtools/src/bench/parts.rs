//! A part's page of a book with 3 engines and of one with many, each engine with 134 parts of three features and 30
//! readings a feature: what the page costs must not grow with the other engines. Beside it what is found by words, a day's
//! readings handed in by a phone, and the rows made anew.
//!
//! The large book takes minutes to make. `OUTSHOP_BENCH_ENGINES=20` makes a smaller one.

use std::path::Path;
use std::time::Duration;

use serde_json::json;
use store::Store;

use super::desk::{Desk, Times, ms};
use super::{Folder, built, ratio, took};
use crate::Stop;
use crate::columns::columns;
use crate::grow_parts::{PARTS, name_of, parts};

/// Engines of the small book, and of the large one where nobody said otherwise.
const ENGINES: [u32; 2] = [3, 200];
/// How often each page is asked for.
const TIMES: usize = 300;
/// Served by the same process, and without the book.
const PLAIN: &str = "/asset/desk.css";
/// Words of one part.
const ONE_FOUND: &str = "/find?q=left+bushing+12";
/// Words of many.
const MANY_FOUND: &str = "/find?q=5.511";
/// Sets of a day, seven readings in each.
const SETS: u32 = 72;

/// The table of times; a sentence where nothing can be timed.
///
/// # Errors
/// The machine's.
pub fn bench(root: &Path) -> Result<String, Stop> {
    let program = match built(root) {
        Ok(program) => program,
        Err(why) => return Ok(format!("Parts were not timed: {why}\n")),
    };
    let folder = Folder::new("parts")?;
    let most = std::env::var("OUTSHOP_BENCH_ENGINES").ok();
    let most = most
        .and_then(|text| text.parse().ok())
        .unwrap_or(ENGINES[1]);
    let mut rows = Vec::new();
    let mut first: Option<Duration> = None;
    for engines in [ENGINES[0], most] {
        let file = folder.file(&format!("{engines}.book"));
        eprintln!("a book of {engines} engines is made");
        let (made, store) = took(|| parts(&file, engines));
        let store = store?;
        let entries = store.head().map_err(Stop::machine)?.0;
        drop(store);
        let timed = match timed(&program, &file, engines) {
            Ok(timed) => timed,
            Err(why) => return Ok(format!("Parts were not timed: {why}\n")),
        };
        let (anew, rebuilt) = took(|| Store::open(&file).and_then(|mut store| store.rebuild()));
        rebuilt.map_err(Stop::machine)?;
        let page = &timed.page;
        let growth = first.map_or("1.00".to_string(), |first| ratio(page.middle, first));
        rows.push(vec![
            engines.to_string(),
            entries.to_string(),
            format!("{:.0}", made.as_secs_f64()),
            ms(page.middle),
            ms(page.slow),
            ratio(page.middle, timed.plain.middle),
            growth,
            ms(timed.one.slow),
            ms(timed.many.slow),
            format!("{:.2}", timed.day.as_secs_f64()),
            format!("{:.1}", anew.as_secs_f64()),
        ]);
        first.get_or_insert(page.middle);
    }
    let heading = [
        "engines",
        "entries",
        "made in s",
        "p50 ms",
        "p99 ms",
        "ratio",
        "growth",
        "one found",
        "many found",
        "day in s",
        "anew in s",
    ];
    Ok(format!(
        "A part's page over one line, {TIMES} times, each of another part (ratio to {PLAIN}; growth over the small book);\n\
         p99 in ms of what finds one part's words and of what finds many; {} readings handed in at once; rows and index made anew:\n{}",
        SETS * 7,
        columns(&heading, &[], &rows)
    ))
}

/// What one book took.
struct Timed {
    plain: Times,
    page: Times,
    one: Times,
    many: Times,
    day: Duration,
}

fn timed(program: &Path, file: &Path, engines: u32) -> Result<Timed, String> {
    let mut desk = Desk::serve(program, file, &["serve", "--port", "0"])?;
    let plain = desk.times_of(PLAIN, TIMES)?;
    let page = desk.times((0..).take(TIMES).map(|at: u32| {
        let part = name_of(at % PARTS).replace(' ', "%20");
        format!("/engine/{}/part/{part}", 100 + at % engines)
    }))?;
    let one = desk.times_of(ONE_FOUND, TIMES)?;
    let many = desk.times_of(MANY_FOUND, TIMES)?;
    let store = Store::open(file).map_err(|why| why.to_string())?;
    let book = store.book_of_shop().map_err(|why| why.to_string())?;
    let person = book.persons.keys().next().ok_or("nobody is in the book")?;
    drop(store);
    let places = ["inner end", "middle", "outer end"];
    let sets = (0..SETS).map(|set| {
        let bores = places.map(|place| format!("bore@{place}=5.530in"));
        let pins = places.map(|place| format!("pin@{place}=5.480in"));
        let mut readings = [bores, pins].concat();
        readings.push("side-play@rod=3/32in".into());
        json!({
            "id": format!("{:032x}", 0xDA_0000_u128 + u128::from(set)), "person": person.to_string(), "ticket": "", "written": 0,
            "seen": 0, "take": { "engine": (100 + set % engines).to_string(), "part": name_of(set % PARTS), "readings": readings },
        })
    });
    let kept = json!({ "now": 0, "sets": sets.collect::<Vec<_>>() }).to_string();
    let (day, fates) = took(|| desk.hand_in(&kept));
    let fates: serde_json::Value =
        serde_json::from_slice(&fates?).map_err(|why| why.to_string())?;
    let all = fates["sets"].as_array().cloned().unwrap_or_default();
    if let Some(not) = all.iter().find(|fate| fate["fate"] != "kept") {
        return Err(format!("a reading was not kept: {not}"));
    }
    Ok(Timed {
        plain,
        page,
        one,
        many,
        day,
    })
}
