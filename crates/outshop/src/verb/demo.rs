//! `demo`: makes the demonstration book through the verbs, and serves it.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use store::{Store, StoreError};

use super::serve::{PORT, Serve, port, serve};
use crate::{Answer, Clock, Context, Failure, Globals, Ids, parse};

/// Make the demonstration book and serve it on this machine.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Demo {
    /// Only make the book.
    #[arg(long)]
    #[serde(default)]
    pub no_serve: bool,
    /// The port; 0 takes any that is free.
    #[arg(long, default_value_t = PORT, conflicts_with = "no_serve")]
    #[serde(default = "port")]
    pub port: u16,
}

/// What is told, in order: who speaks when, and the verbs as they would be typed.
const TOLD: &[(&str, &str)] = &[
    ("1-shop", include_str!("../../demo/1-shop.txt")),
    ("2-log", include_str!("../../demo/2-log.txt")),
    ("3-annual", include_str!("../../demo/3-annual.txt")),
    ("4-feed-check", include_str!("../../demo/4-feed-check.txt")),
    ("5-cards", include_str!("../../demo/5-cards.txt")),
    ("6-boiler", include_str!("../../demo/6-boiler.txt")),
    ("7-spring", include_str!("../../demo/7-spring.txt")),
    ("8-diesel", include_str!("../../demo/8-diesel.txt")),
    ("9-lathe", include_str!("../../demo/9-lathe.txt")),
    ("9-law", include_str!("../../demo/9-law.txt")),
    ("9-memory", include_str!("../../demo/9-memory.txt")),
    ("9-pressure", include_str!("../../demo/9-pressure.txt")),
    ("9-tires", include_str!("../../demo/9-tires.txt")),
];

/// Every id of the demonstration follows from this, so that two runs give one book.
const SEED: &str = "juniper fork";

/// Pages worth a first look, and what is seen there.
const LOOK: &[(&str, &str)] = &[
    (
        "/",
        "the days ahead: which promised run stops, and what stops it",
    ),
    (
        "/finding/F-001",
        "a leaking feed check, from what was found to its close",
    ),
    ("/job/J-002", "a job that stops at a hold point"),
    (
        "/finding/F-005",
        "a verdict that cannot be told, and what it needs",
    ),
    (
        "/sheet/seat.correct?found_half_angle=42d54m&wanted_half_angle=45deg&land=11/64in&port=1-3/4in&design=matched",
        "a worked sheet, to be done again with a pencil",
    ),
];

impl Demo {
    /// Makes it, in place of an older demonstration but of no other book, and serves it.
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
        let made = format!(
            "The demonstration book is made at {}: {said} verbs, {entries} entries, head {head}.\n\
             Everything in it is invented. It holds its today at 16 May 2026.\n",
            path.display()
        );
        drop(stage);
        if self.no_serve {
            let value = json!({ "book": path.display().to_string(), "entries": entries, "head": head.to_string() });
            return Ok(Answer::done(made, value));
        }
        let mut look = String::from("Look first at\n");
        for (page, what) in LOOK {
            look.push_str(&format!("  {page}\n      {what}\n"));
        }
        let globals = Globals {
            book: Some(path.clone()),
            ..Globals::default()
        };
        let mut desk = Context::stated(globals, Clock::Machine, Ids::Random);
        serve(&mut desk, &Serve::here(self.port), &made, &look).map_err(|failure| match failure {
            Failure::Machine(why) => Failure::Late(format!(
                "{why}\nThe demonstration book is made all the same, at {}.",
                path.display()
            )),
            other => other,
        })
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
    // Its keys go with it: a session or a passphrase of the old book opens nothing in the new one.
    for tail in ["", "-wal", "-shm", ".keys", ".keys-journal"] {
        let file = beside(tail);
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
