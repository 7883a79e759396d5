//! Chores of the house, each one word after `cargo xtask`. Links none of our crates, so it builds at once
//! and can judge the others even while they do not compile.

mod browser;
mod drawings;
mod libraries;
mod pictures;
mod python;
mod suite;
mod tidy;

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

/// The chores and what each is for, in the order they are listed to a person.
const VERBS: &[(&str, &str)] = &[
    (
        "test",
        "run every test of every crate; the last line is the total (--no-browser leaves the browser out)",
    ),
    (
        "tidy",
        "check the promises no compiler checks: arrows, stages, headers, SQL, pages",
    ),
    (
        "rulebook",
        "lint the rules in rulebook/ and list what stands on memory",
    ),
    ("evidence", "list every law with the grade of its proof"),
    ("bench", "time the things a person waits for"),
    (
        "drawings",
        "write the sample drawings and have their DXF read by an independent reader",
    ),
    (
        "libraries",
        "work the rows of evidence that name a steam or fluids library again with that library",
    ),
    (
        "pictures",
        "write a picture of every page into target/pictures, or a folder named, and check them",
    ),
];

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let Some(verb) = words.next() else {
        print!("{}", list_of_verbs());
        return ExitCode::SUCCESS;
    };
    let rest: Vec<String> = words.collect();
    let root = root();
    match verb.as_str() {
        "test" => suite::run(&root, &rest),
        "tidy" => tidy::run(&root),
        "drawings" => drawings::run(&root, &rest),
        "libraries" => libraries::run(&root),
        "pictures" => pictures::run(&root, &rest),
        "rulebook" | "evidence" | "bench" => devtools(&root, &verb, &rest),
        other => {
            eprint!(
                "`{other}` is not a chore of this house.\n{}",
                list_of_verbs()
            );
            ExitCode::from(2)
        }
    }
}

/// The list shown by a bare `cargo xtask`.
fn list_of_verbs() -> String {
    let mut text = String::from("cargo xtask <chore>\n");
    for (verb, what) in VERBS {
        text.push_str(&format!("  {verb:<11}{what}\n"));
    }
    text
}

/// The folder the workspace stands in. Cargo names this package's own folder when it runs us; the one
/// known at build time serves when the program is started by hand.
fn root() -> PathBuf {
    let ours = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    ours.parent()
        .map_or_else(|| ours.clone(), Path::to_path_buf)
}

/// Cargo itself: the one that started us, so that a pinned toolchain stays pinned.
fn cargo(root: &Path) -> Command {
    let program = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(program);
    command.current_dir(root);
    command
}

/// Builds the program, as `cargo run` builds it, for those who start it as a shop does.
fn build_program(root: &Path) -> bool {
    cargo(root)
        .args(["build", "--release", "-q", "-p", "outshop"])
        .status()
        .is_ok_and(|status| status.success())
}

/// Hands a chore to the tools that do link our crates.
fn devtools(root: &Path, verb: &str, rest: &[String]) -> ExitCode {
    let mut command = cargo(root);
    command
        .args(["run", "--release", "-q", "-p", "devtools", "--", verb])
        .args(rest);
    match command.status() {
        Ok(status) if status.success() => ExitCode::SUCCESS,
        Ok(status) => ExitCode::from(
            status
                .code()
                .and_then(|code| u8::try_from(code).ok())
                .unwrap_or(1),
        ),
        Err(why) => {
            eprintln!("cargo could not be started for `{verb}`: {why}.");
            ExitCode::from(3)
        }
    }
}
