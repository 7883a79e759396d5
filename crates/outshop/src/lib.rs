//! The program's inside: arguments, verbs, the clock and the ids that nobody below may make.
//!
//! A verb is one request type, filled from arguments or from JSON, and one function. No arithmetic and
//! no rule lives here: a verb loads, asks `shop`, appends, and says what `shop::report` says.

mod answer;
mod args;
mod blue_ring;
mod context;
pub mod drawn;
mod ids;
mod logfile;
mod network;
mod now;
mod part_drawing;
mod press_chart;
mod verb;
mod web;
pub mod words;

pub use answer::{Answer, Failure};
pub use args::{Globals, Request, parse, verbs};
pub use context::Context;
pub use ids::Ids;
pub use now::Clock;

use std::io::Write;
use std::process::ExitCode;

/// Runs the program on the process's own arguments.
pub fn run_command_line() -> ExitCode {
    let (globals, request) = match parse(std::env::args_os()) {
        Ok(parsed) => parsed,
        Err(said) => {
            let _ = said.print();
            return ExitCode::from(if said.use_stderr() { 2 } else { 0 });
        }
    };
    let json = globals.json;
    let mut context = Context::of(globals);
    match request.run(&mut context) {
        Ok(answer) => {
            let out = if json {
                answer.json_text()
            } else {
                answer.text.clone()
            };
            // A reader that hangs up early is no failure of ours.
            let _ = std::io::stdout().lock().write_all(out.as_bytes());
            ExitCode::from(answer.code)
        }
        Err(failure) => {
            let _ = writeln!(std::io::stderr().lock(), "{failure}");
            ExitCode::from(failure.code())
        }
    }
}

/// Every word that may stand over a column of a list of parts.
pub fn part_file_words() -> Vec<&'static str> {
    let words = verb::part_file::WORDS.iter();
    words.flat_map(|(_, words)| words.iter().copied()).collect()
}
