//! Each reading verb of the built program on the demonstration book, against the program alone.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use super::{Folder, built, median, ratio, said, took};
use crate::Stop;
use crate::columns::columns;

/// How often each is started.
const SPAWNS: usize = 20;

/// What a person waits for, as typed.
const VERBS: &[&[&str]] = &[
    &["due"],
    &["finding", "show", "F-001"],
    &["job", "show", "J-001"],
    &["part", "show", "14", "right feed check"],
    &["rule", "us-steam.clock.31"],
    &[
        "sheet",
        "seat.correct",
        "found_half_angle=42d54m",
        "wanted_half_angle=45deg",
        "land=11/64in",
        "port=1-1/2in",
        "design=matched",
    ],
    &["steam", "show", "27"],
    &["inspect", "show", "I-001"],
    &["check"],
];

/// The table of times; a sentence where there is nothing to time.
///
/// # Errors
/// The machine's.
pub fn bench(root: &Path) -> Result<String, Stop> {
    let folder = Folder::new("verbs")?;
    let program = match built(root) {
        Ok(program) => program,
        Err(why) => return Ok(skipped(&why)),
    };
    let book = folder.file("demo.book");
    let start = |words: &[&str]| {
        let mut command = Command::new(&program);
        command.args(words).stdin(Stdio::null());
        command.env_remove("OUTSHOP_NOW").env("OUTSHOP_BOOK", &book);
        command.output()
    };
    match start(&["demo", "--no-serve"]) {
        Ok(made) if made.status.success() => {}
        Ok(made) => return Ok(skipped(&format!("`demo` failed: {}", said(&made)))),
        Err(why) => return Ok(skipped(&why.to_string())),
    }
    let timed = |words: &[&str]| -> Result<Duration, String> {
        let mut times = Vec::new();
        for _ in 0..SPAWNS {
            let (time, output) = took(|| start(words));
            let output = output.map_err(|why| why.to_string())?;
            // 1 is an answer too: a limit fails, a fact is missing.
            if !matches!(output.status.code(), Some(0 | 1)) {
                return Err(said(&output));
            }
            times.push(time);
        }
        Ok(median(times))
    };
    let alone = match timed(&["--version"]) {
        Ok(time) => time,
        Err(why) => return Ok(skipped(&why)),
    };
    let mut rows = vec![row("--version", alone, alone)];
    for words in VERBS {
        let mut named = words.to_vec();
        named.retain(|word| !word.contains('='));
        let name = named.join(" ");
        rows.push(match timed(words) {
            Ok(time) => row(&name, time, alone),
            Err(why) => vec![name, "failed".into(), why],
        });
    }
    let heading = ["verb", "ms", "ratio"];
    Ok(format!(
        "Each reading verb on the demonstration book, median of {SPAWNS} starts:\n{}",
        columns(&heading, &[], &rows)
    ))
}

fn row(name: &str, time: Duration, alone: Duration) -> Vec<String> {
    let ms = format!("{:.2}", time.as_secs_f64() * 1e3);
    vec![name.to_string(), ms, ratio(time, alone)]
}

fn skipped(why: &str) -> String {
    format!("The reading verbs were not timed: {why}\n")
}
