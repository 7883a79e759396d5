//! A part's page of a book with 3 engines and of one with many, each engine with 134 parts of three features and 30
//! readings a feature: what the page costs must not grow with the other engines.

use std::path::Path;

use super::desk::{Desk, Times, ms};
use super::{Folder, built, ratio, took};
use crate::Stop;
use crate::columns::columns;
use crate::grow_parts::{PARTS, name_of, parts};

/// Engines of the books.
const ENGINES: [u32; 2] = [3, 200];
/// How often each page is asked for.
const TIMES: usize = 300;
/// Served by the same process, and without the book.
const PLAIN: &str = "/asset/desk.css";

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
    let mut rows = Vec::new();
    let mut first: Option<Times> = None;
    for engines in ENGINES {
        let file = folder.file(&format!("{engines}.book"));
        let (made, store) = took(|| parts(&file, engines));
        let store = store?;
        let entries = store.head().map_err(Stop::machine)?.0;
        drop(store);
        let serve = ["serve", "--port", "0"];
        let mut desk = match Desk::serve(&program, &file, &serve) {
            Ok(desk) => desk,
            Err(why) => return Ok(format!("Parts were not timed: {why}\n")),
        };
        let mut asked = |path: &dyn Fn(usize) -> String| -> Result<(Times, usize), Stop> {
            let (mut times, mut bytes) = (Vec::new(), 0);
            for at in 0..TIMES {
                let (time, body) = took(|| desk.get(&path(at)));
                bytes = body.map_err(Stop::machine)?.len();
                times.push(time);
            }
            Ok((Times::of(times), bytes))
        };
        let (plain, _) = asked(&|_| PLAIN.to_string())?;
        let (page, bytes) = asked(&|at| {
            let part = name_of(u32::try_from(at).unwrap_or(0) % PARTS);
            let engine = 100 + u32::try_from(at).unwrap_or(0) % engines;
            format!("/engine/{engine}/part/{}", part.replace(' ', "%20"))
        })?;
        let growth = first
            .as_ref()
            .map_or("1.00".to_string(), |first| ratio(page.middle, first.middle));
        rows.push(vec![
            engines.to_string(),
            entries.to_string(),
            format!("{:.0}", made.as_secs_f64()),
            format!("{:.1}", bytes as f64 / 1024.0),
            ms(page.middle),
            ms(page.slow),
            ratio(page.middle, plain.middle),
            growth,
        ]);
        first.get_or_insert(page);
    }
    let heading = [
        "engines",
        "entries",
        "made in s",
        "kB",
        "p50 ms",
        "p99 ms",
        "ratio",
        "growth",
    ];
    Ok(format!(
        "A part's page over one line, {TIMES} times, each of another part (ratio to {PLAIN}; growth over the small book):\n{}",
        columns(&heading, &[], &rows)
    ))
}
