//! Folding a long book anew, against merely decoding the same bodies.

use std::time::Duration;

use serde_json::Value;

use super::{Folder, ratio, took};
use crate::Stop;
use crate::columns::columns;
use crate::grow::grow;

/// Fires of the book: a century of three engines.
const FIRES: u32 = 100_000;

/// The table of rates.
///
/// # Errors
/// The machine's, or a fault where the grown book does not read.
pub fn bench() -> Result<String, Stop> {
    let folder = Folder::new("rebuild")?;
    let (grown, store) = took(|| grow(&folder.file("grown.book"), FIRES));
    let mut store = store?;
    let entries = store.entries().map_err(Stop::machine)?;
    let bodies: Vec<&[u8]> = entries.iter().map(|entry| entry.body.as_slice()).collect();
    let (decoded, read) = took(|| {
        let mut of = bodies
            .iter()
            .map(|body| serde_json::from_slice::<Value>(body));
        of.try_fold(0usize, |read, body| body.map(|_| read + 1))
    });
    let read = read.map_err(Stop::fault)?;
    let (rebuilt, count) = took(|| store.rebuild());
    let count = count.map_err(Stop::machine)?;
    let (loaded, book) = took(|| store.whole_book());
    let fires = book.map_err(Stop::machine)?.fires.len();
    let (checked, found) = took(|| store.check());
    let differences = found.map_err(Stop::machine)?.differences.len();
    let rate = |time: Duration| format!("{:.0}", count as f64 / time.as_secs_f64().max(1e-9));
    let row = |what: &str, time: Duration| {
        vec![
            what.to_string(),
            format!("{:.2}", time.as_secs_f64()),
            rate(time),
            ratio(time, decoded),
        ]
    };
    let rows = [
        row("decode the bodies as plain JSON", decoded),
        row("grow the book, in one act", grown),
        row("rebuild every derived row", rebuilt),
        row("load the book", loaded),
        row("check the book", checked),
    ];
    let heading = ["what", "s", "entries/s", "ratio"];
    Ok(format!(
        "A book of {count} entries, {fires} fires ({read} bodies decoded, {differences} differences):\n{}",
        columns(&heading, &[], &rows)
    ))
}
