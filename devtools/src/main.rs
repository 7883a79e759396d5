//! Chores that need the crates: the state of the rulebook, the state of the evidence, benches.
//!
//! They are started as `cargo xtask rulebook`, `evidence` and `bench`; nothing of the program uses them.

mod bench;
mod columns;
mod evidence;
mod grow;
mod grow_parts;
mod rulebook;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The chores and what each is for.
const VERBS: &[(&str, &str)] = &[
    ("rulebook", "what the rulebook holds and where it is weak"),
    (
        "evidence",
        "every result of every sheet with the best proof it has",
    ),
    (
        "bench",
        "what a sheet, a rebuild, each reading verb and each page cost",
    ),
    (
        "bench lineup",
        "the same of a roundhouse of 200 engines alone",
    ),
    (
        "bench boiler",
        "a boiler's card, its stays and a survey of 20,000 readings",
    ),
    (
        "bench parts",
        "a part's page among 3 engines and among 200 with 2.4 million readings",
    ),
    (
        "grow-parts FILE N",
        "make a book of N engines with 134 measured parts each, for benches",
    ),
    ("grow-book FILE N", "make a book with N fires, for benches"),
    (
        "grow-lineup FILE N Y",
        "make a book of N engines with logs of Y years, for benches",
    ),
];

/// Why a chore was not done: a sentence, and the exit code (1 a fault was found, 2 the input is wrong,
/// 3 the machine failed).
struct Stop {
    code: u8,
    why: String,
}

impl Stop {
    /// A fault in what was looked at.
    fn fault(why: impl ToString) -> Stop {
        let why = why.to_string();
        Stop { code: 1, why }
    }

    /// Wrong words on the command line.
    fn input(why: impl ToString) -> Stop {
        let why = why.to_string();
        Stop { code: 2, why }
    }

    /// A file, a disk, a program that did not start.
    fn machine(why: impl ToString) -> Stop {
        let why = why.to_string();
        Stop { code: 3, why }
    }
}

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let said = match words.as_slice() {
        ["rulebook"] => rulebook::report(&root()),
        ["evidence"] => evidence::table(),
        ["bench"] => bench::all(&root()),
        ["bench", "lineup"] => bench::of_lineup(&root()),
        ["bench", "boiler"] => bench::of_boiler(),
        ["bench", "parts"] => bench::of_parts(&root()),
        ["grow-parts", file, engines] => grow_parts::from_words(file, engines),
        ["grow-book", file, fires] => grow::from_words(file, fires),
        ["grow-lineup", file, engines, years] => grow::lineup_from_words(file, engines, years),
        _ => Err(Stop::input(list())),
    };
    match said {
        Ok(text) => {
            print!("{text}");
            ExitCode::SUCCESS
        }
        Err(stop) => {
            eprintln!("{}", stop.why);
            ExitCode::from(stop.code)
        }
    }
}

/// The list shown where no known chore is named.
fn list() -> String {
    let mut text = String::from("One of these chores was expected:");
    for (verb, what) in VERBS {
        text.push_str(&format!("\n  {verb:<22}{what}"));
    }
    text
}

/// The folder the workspace stands in.
fn root() -> PathBuf {
    let ours = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    ours.parent()
        .map_or_else(|| ours.clone(), Path::to_path_buf)
}
