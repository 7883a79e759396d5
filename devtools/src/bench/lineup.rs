//! A roundhouse of engines with logs of thirty years: the whole lineup asked by a new process, a fire of twenty years
//! ago entered today, and all derived rows folded anew; each at three sizes, and beside a bare reading of the rows.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use jiff::civil::Date;
use rules::Rulebook;
use shop::book::{EntryId, FireId};
use shop::clock::{NewFire, due, log_fire};
use store::{Act, By, Store};

use super::{built, median, ratio, said, took, worked};
use crate::Stop;
use crate::columns::columns;
use crate::grow::{DAYS_A_YEAR, TODAY, days_on, engine_of, lineup, years_on};

/// How many engines.
const ENGINES: [u32; 3] = [10, 50, 200];
/// How long their logs are.
const YEARS: u32 = 30;
/// How often each short thing is done.
const TIMES: usize = 15;

/// The table of times and rates.
///
/// # Errors
/// The machine's, or a fault where the grown book does not read.
pub fn bench(root: &Path) -> Result<String, Stop> {
    let program = built(root);
    let mut rows = Vec::new();
    for engines in ENGINES {
        rows.push(of(engines, program.as_deref().ok())?);
    }
    let heading = [
        "engines",
        "entries",
        "MB",
        "lineup ms",
        "quickest",
        "floor ms",
        "late fire ms",
        "load ms",
        "due ms",
        "rebuild s",
        "rebuild/s",
        "scan s",
        "scan/s",
        "rebuild/scan",
    ];
    let why = program.err().map_or(String::new(), |why| {
        format!("The lineup was not asked by a process of its own: {why}\n")
    });
    Ok(format!(
        "Logs of {YEARS} years, {DAYS_A_YEAR} days a year each; medians of {TIMES}. The lineup and its floor (`--version`) are \
         processes, start to end by the wall's clock; the rest is processor time of this one, with the book in memory where \
         there is any, so that no sync is waited for:\n{}{why}",
        columns(&heading, &[], &rows)
    ))
}

/// A folder whose files lie in memory, where the machine has one: syncing there costs nothing, so what is timed is
/// the program and not the disk.
fn folder(engines: u32) -> Result<super::Folder, Stop> {
    let name = format!("lineup-{engines}");
    let memory = Path::new("/dev/shm");
    if memory.is_dir() {
        super::Folder::within(memory, &name)
    } else {
        super::Folder::new(&name)
    }
}

fn of(engines: u32, program: Option<&Path>) -> Result<Vec<String>, Stop> {
    let folder = folder(engines)?;
    let file = folder.file("grown.book");
    drop(lineup(&file, engines, YEARS)?);
    let bytes = std::fs::metadata(&file).map_or(0, |about| about.len());
    let asked = match program {
        Some(program) => Some((
            started(program, &file, &["due"])?,
            started(program, &file, &["--version"])?,
        )),
        None => None,
    };
    let mut store = Store::open(&file).map_err(Stop::machine)?;
    let late = late_fires(&mut store, engines)?;
    let mut loads = Vec::new();
    let mut dues = Vec::new();
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    for _ in 0..TIMES {
        let (time, book) = worked(|| store.book());
        let book = book.map_err(Stop::machine)?;
        loads.push(time);
        let (time, clocks) = worked(|| {
            let mut of = (0..engines).map(|number| due(&book, rules, engine_of(number), TODAY));
            of.try_fold(0, |sum, clocks| clocks.map(|clocks| sum + clocks.len()))
        });
        let clocks = clocks.map_err(Stop::fault)?;
        if clocks < usize::try_from(engines).unwrap_or(0) {
            return Err(Stop::fault("an engine of the lineup has no clock"));
        }
        dues.push(time);
    }
    let (scan, scanned) = worked(|| store.scan());
    let (entries, _) = scanned.map_err(Stop::machine)?;
    let (rebuild, rebuilt) = worked(|| store.rebuild());
    if rebuilt.map_err(Stop::machine)? != entries {
        return Err(Stop::fault("the rebuild read other entries than the scan"));
    }
    let ms = |time: Duration| format!("{:.2}", time.as_secs_f64() * 1e3);
    let seconds = |time: Duration| format!("{:.2}", time.as_secs_f64());
    let rate = |time: Duration| format!("{:.0}", entries as f64 / time.as_secs_f64().max(1e-9));
    let not = || "-".to_string();
    Ok(vec![
        engines.to_string(),
        entries.to_string(),
        format!("{:.0}", bytes as f64 / 1e6),
        asked.map_or_else(not, |((middle, _), _)| ms(middle)),
        asked.map_or_else(not, |((_, quickest), _)| ms(quickest)),
        asked.map_or_else(not, |(_, (floor, _))| ms(floor)),
        ms(late),
        ms(median(loads)),
        ms(median(dues)),
        seconds(rebuild),
        rate(rebuild),
        seconds(scan),
        rate(scan),
        ratio(rebuild, scan),
    ])
}

/// Fires of twenty years ago, each entered today and every clock of its engine asked again: the middle time.
fn late_fires(store: &mut Store, engines: u32) -> Result<Duration, Stop> {
    let rules = Rulebook::built_in().map_err(Stop::fault)?;
    let mut times = Vec::new();
    for turn in 0..u32::try_from(TIMES).unwrap_or(0) {
        let engine = engine_of(turn * 7 % engines);
        let day: Date = years_on(TODAY, -20)
            .and_then(|day| days_on(day, 2 * i64::from(turn) + 1))
            .map_err(Stop::machine)?;
        let fire = NewFire {
            id: FireId(0xF00D_0000 + u128::from(turn)),
            locomotive: engine,
            lit: Some(day.at(5, 0, 0, 0)),
            up: Some(day.at(8, 0, 0, 0)),
            out: Some(day.at(17, 0, 0, 0)),
            gone: Some(day.at(21, 0, 0, 0)),
            miles: Some(12),
            offered: Some(true),
        };
        let act = Act {
            id: EntryId(0xACE_0000 + u128::from(turn)),
            batch: None,
            device: "bench".into(),
            by: By::Name("Ada Quill".into()),
            done_on: TODAY,
            recorded_at: "2026-05-01T10:00:00-06:00".into(),
        };
        let (time, decided) = worked(|| -> Result<usize, String> {
            store
                .write_of(&act, engine, |_, _| log_fire(fire, TODAY))
                .map_err(|why| why.to_string())?;
            let book = store.book_of(engine).map_err(|why| why.to_string())?;
            let clocks = due(&book, rules, engine, TODAY).map_err(|why| why.to_string())?;
            Ok(clocks.len())
        });
        if decided.map_err(Stop::machine)? == 0 {
            return Err(Stop::fault("an engine of the lineup has no clock"));
        }
        times.push(time);
    }
    Ok(median(times))
}

/// A new process, start to end: the middle time.
fn started(program: &Path, book: &Path, words: &[&str]) -> Result<(Duration, Duration), Stop> {
    let mut times = Vec::new();
    for _ in 0..TIMES {
        let mut command = Command::new(program);
        command
            .args(words)
            .stdin(Stdio::null())
            .stdout(Stdio::null());
        command.env_remove("OUTSHOP_NOW").env("OUTSHOP_BOOK", book);
        let (time, output) = took(|| command.stderr(Stdio::piped()).output());
        let output = output.map_err(Stop::machine)?;
        if !matches!(output.status.code(), Some(0 | 1)) {
            return Err(Stop::machine(said(&output)));
        }
        times.push(time);
    }
    let quickest = times.iter().min().copied().unwrap_or_default();
    Ok((median(times), quickest))
}
