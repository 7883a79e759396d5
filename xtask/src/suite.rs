//! `cargo xtask test`: every test of every crate (library, programs, integration, documentation), with one
//! total at the end. The counts are read from the test harness's own result lines, never kept by us.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, ExitCode, Stdio};

/// How many tests passed and failed, summed over all binaries.
#[derive(Debug, Default, PartialEq, Eq)]
struct Totals {
    passed: u64,
    failed: u64,
}

impl Totals {
    /// Adds one line of output if it is a harness's result line, for example
    /// `test result: ok. 5 passed; 0 failed; 0 ignored; ...`.
    fn read(&mut self, line: &str) {
        let Some(counts) = line.trim_start().strip_prefix("test result: ") else {
            return;
        };
        for part in counts.split([';', '.']) {
            let mut words = part.split_whitespace();
            let (Some(number), Some(what), None) = (words.next(), words.next(), words.next())
            else {
                continue;
            };
            let Ok(number) = number.parse::<u64>() else {
                continue;
            };
            match what {
                "passed" => self.passed += number,
                "failed" => self.failed += number,
                _ => {}
            }
        }
    }
}

/// The option that leaves the browser out.
const NO_BROWSER: &str = "--no-browser";

/// Runs the tests, shows them as they go, and ends with the line `N passed, N failed`.
///
/// `extra` goes to `cargo test` as it is; when it chooses packages with `-p`, only those are run. Without that,
/// the tests in a real browser come after all others, on the program as `cargo run` builds it; `--no-browser`
/// leaves them out, and says so.
/// The exit code is 0 only if cargo was content and nothing failed: a test binary that dies without a
/// result line, or a crate that does not compile, is a failure too.
pub fn run(root: &Path, extra: &[String]) -> ExitCode {
    let no_browser = extra.iter().any(|word| word == NO_BROWSER);
    let extra: Vec<&str> = extra
        .iter()
        .map(String::as_str)
        .filter(|word| *word != NO_BROWSER)
        .collect();
    let mut totals = Totals::default();
    let mut content = true;
    let with_browser = if chooses_packages(&extra) {
        if extra.contains(&"browser") {
            browser_tests(root, &extra, &mut totals, &mut content);
        } else {
            cargo_test(super::cargo(root), &extra, &mut totals, &mut content);
        }
        true
    } else {
        // Apart from the rest, so that what the browser's crates ask of others does not build the program twice.
        let all = [&["--workspace", "--exclude", "browser"], &extra[..]].concat();
        cargo_test(super::cargo(root), &all, &mut totals, &mut content);
        if !no_browser {
            let only = [&["-p", "browser"], &extra[..]].concat();
            browser_tests(root, &only, &mut totals, &mut content);
        }
        !no_browser
    };
    if !with_browser {
        println!("The tests in a browser were left out, as asked: no page was looked at.");
    }
    if !content && totals.failed == 0 {
        println!(
            "The tests did not all run: something above did not compile, or ended before its result line."
        );
    }
    println!("{} passed, {} failed", totals.passed, totals.failed);
    if content && totals.failed == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

/// The tests in a browser, on the program as it is built now. Where no browser can be had, that is said here and
/// each of them fails.
fn browser_tests(root: &Path, words: &[&str], totals: &mut Totals, content: &mut bool) {
    let mut command = super::cargo(root);
    match super::browser::find() {
        Ok(browser) => browser.tell(&mut command),
        Err(why) => println!("{why}"),
    }
    if !super::build_program(root) {
        *content = false;
        return;
    }
    cargo_test(command, words, totals, content);
}

/// Runs `cargo test` and adds up what it counts.
fn cargo_test(mut command: Command, words: &[&str], totals: &mut Totals, content: &mut bool) {
    command
        .args(["test", "--release", "--no-fail-fast"])
        .args(words)
        .stdout(Stdio::piped());
    let mut child = match command.spawn() {
        Ok(child) => child,
        Err(why) => {
            println!("cargo could not be started for the tests: {why}.");
            *content = false;
            return;
        }
    };
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8_lossy(&line);
            totals.read(&line);
            println!("{line}");
        }
    }
    *content &= child.wait().is_ok_and(|status| status.success());
}

/// Whether the caller named packages; everything after `--` belongs to the test binaries.
fn chooses_packages(extra: &[&str]) -> bool {
    extra.iter().take_while(|word| **word != "--").any(|word| {
        word.starts_with("-p") || *word == "--package" || word.starts_with("--package=")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn result_lines_are_added_up_and_nothing_else_is() {
        let mut totals = Totals::default();
        for line in [
            "running 3 tests",
            "test a::b ... ok",
            "7 passed; 7 failed",
            "test result: ok. 5 passed; 0 failed; 0 ignored; 0 measured; 2 filtered out; finished in 0.53s",
            "test result: FAILED. 2 passed; 1 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s",
        ] {
            totals.read(line);
        }
        assert_eq!(
            totals,
            Totals {
                passed: 7,
                failed: 1
            }
        );
    }

    #[test]
    fn packages_are_chosen_only_before_the_two_dashes() {
        assert!(chooses_packages(&["-p", "measure"]));
        assert!(chooses_packages(&["--package=measure"]));
        assert!(!chooses_packages(&["thread", "--", "-p"]));
        assert!(!chooses_packages(&[]));
    }
}
