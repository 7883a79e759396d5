//! `cargo xtask tidy`: the promises of the house that no compiler keeps. Each check is a plain function
//! from the tree of files to a list of problems, so each is tested on small trees made up in memory.

mod arrows;
mod pages;
mod rust_text;
mod source;
mod sql;
mod stages;
mod tree;
mod words;

use std::path::Path;
use std::process::ExitCode;

use tree::Tree;

/// Where the forbidden words are written down, so that they may be looked for; these files are not
/// searched for them.
const KEEPS_THE_WORDS: &str = "xtask/src/tidy/";

/// One broken promise: where, and a sentence saying what is wrong and what was expected.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Problem {
    path: String,
    line: usize,
    says: String,
}

impl Problem {
    fn new(path: &str, line: usize, says: impl Into<String>) -> Problem {
        Problem {
            path: path.to_owned(),
            line,
            says: says.into(),
        }
    }
}

/// Every check, in the order of the house.
const CHECKS: &[fn(&Tree) -> Vec<Problem>] = &[
    arrows::check,
    stages::check,
    source::opens_with_purpose,
    source::is_not_too_long,
    source::is_finished,
    source::stands_alone,
    sql::stays_in_the_store,
    sql::never_asks_the_time,
    pages::architecture,
    pages::readme,
    pages::casebook,
    words::stand_in_one_place,
];

/// Reads the tree under `root`, runs every check and prints each problem as `path:line: sentence`.
pub fn run(root: &Path) -> ExitCode {
    let tree = match Tree::read(root) {
        Ok(tree) => tree,
        Err(why) => {
            eprintln!("{why}");
            return ExitCode::from(3);
        }
    };
    let mut problems: Vec<Problem> = CHECKS.iter().flat_map(|check| check(&tree)).collect();
    problems.sort();
    for problem in &problems {
        println!("{}:{}: {}", problem.path, problem.line, problem.says);
    }
    match problems.len() {
        0 => {
            println!(
                "tidy: {} files read, nothing out of place",
                tree.files().len()
            );
            ExitCode::SUCCESS
        }
        1 => {
            println!("tidy: 1 problem");
            ExitCode::FAILURE
        }
        many => {
            println!("tidy: {many} problems");
            ExitCode::FAILURE
        }
    }
}

/// Makes a tree out of pairs of path and text, and runs one check on it; for the tests of the checks.
#[cfg(test)]
fn says(check: fn(&Tree) -> Vec<Problem>, files: &[(&str, &str)]) -> Vec<String> {
    check(&Tree::of(files))
        .into_iter()
        .map(|p| format!("{}:{}: {}", p.path, p.line, p.says))
        .collect()
}
