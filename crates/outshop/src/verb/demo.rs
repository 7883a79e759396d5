//! `demo`: makes the demonstration book through the verbs, and tells what is in it.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use store::{Store, StoreError};

use crate::{Answer, Clock, Context, Failure, Globals, Ids, parse};

/// Make the demonstration book and tell what is in it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Demo {
    /// Only make the book, and tell nothing of it.
    #[arg(long)]
    #[serde(default)]
    pub no_serve: bool,
}

/// What is told, in order: who speaks when, and the verbs as they would be typed.
const TOLD: &[(&str, &str)] = &[
    ("1-shop", include_str!("../../demo/1-shop.txt")),
    ("2-log", include_str!("../../demo/2-log.txt")),
    ("3-annual", include_str!("../../demo/3-annual.txt")),
    ("4-feed-check", include_str!("../../demo/4-feed-check.txt")),
    ("5-spring", include_str!("../../demo/5-spring.txt")),
];

/// Every id of the demonstration follows from this, so that two runs give one book.
const SEED: &str = "juniper fork";

/// Shown after the book is made, as they would be typed.
const SHOWN: &[&[&str]] = &[
    &["due"],
    &["finding", "show", "F-001"],
    &["job", "show", "J-001"],
    &["part", "show", "14", "right feed check"],
];

impl Demo {
    /// Makes it, beside any book that stands there only if that is a demonstration too.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let path = context
            .globals()
            .book
            .clone()
            .unwrap_or_else(|| PathBuf::from("demo.book"));
        make_room(&path)?;
        let globals = Globals {
            book: Some(path.clone()),
            device: "demo".into(),
            ..Globals::default()
        };
        let start = "2026-01-10T09:00"
            .parse()
            .map_err(|_| Failure::Machine("The demonstration's clock does not read.".into()))?;
        let mut stage = Context::stated(
            globals.clone(),
            Clock::Stated(start),
            Ids::Seeded(SEED.into(), 0),
        );
        let mut said = 0;
        for (name, text) in TOLD {
            said += tell(&mut stage, &globals, name, text)?;
        }
        let (entries, head) = stage.store()?.head()?;
        let mut text = format!(
            "The demonstration book is made at {}: {said} verbs, {entries} entries, head {head}.\n\
             Everything in it is invented. It holds its today at 16 May 2026.\n",
            path.display()
        );
        if !self.no_serve {
            let clock = Clock::Machine;
            let mut reader = Context::stated(
                Globals {
                    book: Some(path.clone()),
                    ..Globals::default()
                },
                clock,
                Ids::Random,
            );
            for words in SHOWN {
                let typed = ["outshop"].iter().chain(*words).map(OsString::from);
                let (_, request) = parse(typed).map_err(|e| Failure::Machine(e.to_string()))?;
                let answer = request.run(&mut reader)?;
                let line: Vec<_> = words
                    .iter()
                    .map(|w| {
                        if w.contains(' ') {
                            format!("\"{w}\"")
                        } else {
                            (*w).to_string()
                        }
                    })
                    .collect();
                text.push_str(&format!(
                    "\n$ outshop --book {} {}\n{}",
                    path.display(),
                    line.join(" "),
                    answer.text
                ));
            }
        }
        Ok(Answer::done(
            text,
            json!({ "book": path.display().to_string(), "entries": entries, "head": head.to_string() }),
        ))
    }
}

/// Clears the way for a demonstration: only an older demonstration is taken away.
fn make_room(path: &Path) -> Result<(), Failure> {
    if !path.exists() {
        return Ok(());
    }
    let demonstration = Store::open(path)
        .ok()
        .and_then(|store| store.book().ok())
        .and_then(|b| b.shop)
        .and_then(|s| s.demonstration);
    if demonstration.is_none() {
        return Err(StoreError::Exists(path.into()).into());
    }
    let beside = |tail: &str| {
        let mut name = path.as_os_str().to_owned();
        name.push(tail);
        PathBuf::from(name)
    };
    for file in [path.to_path_buf(), beside("-wal"), beside("-shm")] {
        if file.exists() {
            std::fs::remove_file(&file).map_err(|e| {
                Failure::Machine(format!("{} cannot be taken away: {e}.", file.display()))
            })?;
        }
    }
    Ok(())
}

/// Does the verbs of one text. A line `@ 2026-01-10T09:00 Ada Quill` says who speaks from now on, and when.
fn tell(context: &mut Context, globals: &Globals, name: &str, text: &str) -> Result<u64, Failure> {
    let mut said = 0;
    let mut speaker: Option<String> = None;
    for (at, line) in text.lines().enumerate() {
        let line = line.trim();
        let wrong =
            |why: String| Failure::Machine(format!("Demonstration {name}, line {}: {why}", at + 1));
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if let Some(turn) = line.strip_prefix("@ ") {
            let (time, who) = turn
                .split_once(' ')
                .ok_or_else(|| wrong("a time and a name were expected".into()))?;
            let clock = Clock::Stated(
                time.parse()
                    .map_err(|_| wrong(format!("{time} is no time")))?,
            );
            speaker = Some(who.to_string());
            context.turn(
                Globals {
                    by: speaker.clone(),
                    ..globals.clone()
                },
                clock,
            );
            continue;
        }
        let typed = split(line).ok_or_else(|| wrong("a quote is not closed".into()))?;
        let words =
            std::iter::once(OsString::from("outshop")).chain(typed.into_iter().map(OsString::from));
        let (spoken, request) = parse(words).map_err(|e| wrong(e.to_string()))?;
        context.speak(Globals {
            by: speaker.clone(),
            on: spoken.on,
            ..globals.clone()
        });
        request.run(context).map_err(|e| wrong(e.to_string()))?;
        said += 1;
    }
    Ok(said)
}

/// Splits a line at blanks, keeping what stands between double quotes together.
fn split(line: &str) -> Option<Vec<String>> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => {
                quoted = !quoted;
                word.get_or_insert_with(String::new);
            }
            c if c.is_whitespace() && !quoted => words.extend(word.take()),
            c => word.get_or_insert_with(String::new).push(c),
        }
    }
    words.extend(word);
    (!quoted).then_some(words)
}
