//! Runs the casebook: every page of `casebook/` is a case worked at the command line, and its printed
//! answers are what the program must still print, to the letter.
//!
//! A page holds blocks fenced with `console`. In them, a line `$ outshop ...` is a command, and the lines
//! beneath it are what it prints, standard output first and standard error after it. A last line `? 2` says
//! that the command ends with exit code 2; without one it must end with 0. All blocks of a page run in order
//! in one new folder with `OUTSHOP_BOOK=shop.book`. A page that needs to know the time says which:
//! `$ export OUTSHOP_NOW=2026-05-02T09:00` for what follows, or `$ OUTSHOP_NOW=... outshop ...` for one
//! command. Nothing else of the environment reaches the program, so no page leans on this machine or this day.
//!
//! `UPDATE_CASEBOOK=1` writes the present answers into the pages, to be read and judged before they are kept.
//! `CASEBOOK_PAGE=word` runs only the pages whose path contains the word.

mod diff;
mod page;
mod words;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};

use page::{Page, Step};

/// What a page sees as the time until it states one: no time at all, so that a page which asks without
/// stating it fails on the day it is written and not years later.
const NO_TIME: &str = "not stated on this page";

#[test]
fn every_page_of_the_casebook_still_comes_out_as_printed() {
    let casebook = root().join("casebook");
    let chosen = std::env::var("CASEBOOK_PAGE").unwrap_or_default();
    let mut paths = Vec::new();
    if casebook.is_dir() {
        find_pages(&casebook, &mut paths).unwrap();
    }
    paths.retain(|path| path.to_string_lossy().contains(&chosen));
    paths.sort();
    assert!(
        chosen.is_empty() || !paths.is_empty(),
        "no page of the casebook has `{chosen}` in its path"
    );

    let failures = in_parallel(&paths, |path| {
        run_page(path, std::env::var_os("UPDATE_CASEBOOK").is_some())
    });
    assert!(
        failures.is_empty(),
        "{} of {} pages differ\n\n{}",
        failures.len(),
        paths.len(),
        failures.join("\n")
    );
}

/// The folder of the repository.
fn root() -> &'static Path {
    let ours = Path::new(env!("CARGO_MANIFEST_DIR"));
    ours.ancestors().nth(2).unwrap_or(ours)
}

/// Adds the pages under a folder. README.md tells about a folder; it is no case.
fn find_pages(folder: &Path, paths: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            find_pages(&path, paths)?;
        } else if path.extension().is_some_and(|end| end == "md") && !path.ends_with("README.md") {
            paths.push(path);
        }
    }
    Ok(())
}

/// Runs the pages on as many threads as the machine has cores; gives what went wrong, in the pages' order.
fn in_parallel(paths: &[PathBuf], run: impl Fn(&Path) -> Result<(), String> + Sync) -> Vec<String> {
    let next = AtomicUsize::new(0);
    let threads = std::thread::available_parallelism()
        .map_or(1, usize::from)
        .min(paths.len());
    let work = || {
        let mut failures = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(path) = paths.get(index) else {
                return failures;
            };
            if let Err(why) = run(path) {
                failures.push((index, why));
            }
        }
    };
    let mut failures: Vec<(usize, String)> = std::thread::scope(|scope| {
        let started: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        started
            .into_iter()
            .flat_map(|thread| {
                thread
                    .join()
                    .unwrap_or_else(|panic| std::panic::resume_unwind(panic))
            })
            .collect()
    });
    failures.sort();
    failures.into_iter().map(|(_, why)| why).collect()
}

/// Runs one page. With `update`, answers that differ are written into the page instead of reported.
fn run_page(path: &Path, update: bool) -> Result<(), String> {
    let shown = path.strip_prefix(root()).unwrap_or(path).display();
    let text =
        fs::read_to_string(path).map_err(|why| format!("{shown} could not be read: {why}"))?;
    let page = Page::parse(&text).map_err(|why| format!("{shown}:{why}"))?;
    let folder = Folder::new(path)?;
    let answers = run_steps(&page, &folder.0).map_err(|why| format!("{shown}:{why}"))?;

    if update {
        let rewritten = page
            .with_answers(&answers)
            .map_err(|why| format!("{shown}:{why}"))?;
        if rewritten != text {
            fs::write(path, rewritten)
                .map_err(|why| format!("{shown} could not be written: {why}"))?;
            println!("rewritten: {shown}");
        }
        return Ok(());
    }
    let differing: Vec<_> = page
        .commands()
        .zip(&answers)
        .filter(|(command, answer)| command.answer != **answer)
        .collect();
    let Some((command, answer)) = differing.first() else {
        return Ok(());
    };
    let mut report = format!("{shown}:{}: $ {}\n", command.line, command.text);
    report.push_str("  (- the page, + the program)\n");
    report.push_str(&diff::lines(&command.answer, answer));
    if differing.len() > 1 {
        report.push_str(&format!(
            "  answers of this page that differ besides: {}\n",
            differing.len() - 1
        ));
    }
    Err(report)
}

/// Runs the page's commands in order and gives what each answered: its lines, and `? N` if it did not end with 0.
fn run_steps(page: &Page, folder: &Path) -> Result<Vec<Vec<String>>, String> {
    let mut exported = vec![
        ("OUTSHOP_BOOK".to_owned(), "shop.book".to_owned()),
        ("OUTSHOP_NOW".to_owned(), NO_TIME.to_owned()),
    ];
    let mut answers = Vec::new();
    for step in &page.steps {
        match step {
            Step::Export(variables) => exported.extend(variables.iter().cloned()),
            Step::Run(command) => {
                let mut program = Command::new(env!("CARGO_BIN_EXE_outshop"));
                program
                    .env_clear()
                    .args(&command.arguments)
                    .current_dir(folder)
                    .stdin(Stdio::null());
                // What an operating system needs to start a program and find a folder for its scratch files.
                for name in ["PATH", "SYSTEMROOT", "TMPDIR", "TEMP", "TMP"] {
                    program.envs(std::env::var_os(name).map(|value| (name, value)));
                }
                program.envs(
                    exported
                        .iter()
                        .chain(&command.variables)
                        .map(|(name, value)| (name, value)),
                );
                let output = program.output().map_err(|why| {
                    format!("{}: the program could not be started: {why}", command.line)
                })?;
                let mut answer = lines_of(&output.stdout);
                answer.extend(lines_of(&output.stderr));
                match output.status.code() {
                    Some(0) => {}
                    Some(code) => answer.push(format!("? {code}")),
                    None => {
                        return Err(format!(
                            "{}: $ {}\n  the program was ended by a signal ({})",
                            command.line, command.text, output.status
                        ));
                    }
                }
                answers.push(answer);
            }
        }
    }
    Ok(answers)
}

/// The lines a program wrote. A last line left open is shown as such, for a page could not show it.
fn lines_of(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if !text.is_empty() && !text.ends_with('\n') {
        lines.push("(the line above is not ended)".to_owned());
    }
    lines
}

/// A new, empty folder for one page, removed when the page has run.
struct Folder(PathBuf);

impl Folder {
    fn new(page: &Path) -> Result<Folder, String> {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let name = page.file_stem().unwrap_or_default().to_string_lossy();
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
            .join(format!("casebook-{}-{number}-{name}", std::process::id()));
        fs::create_dir_all(&folder)
            .map_err(|why| format!("{} could not be made: {why}", folder.display()))?;
        Ok(Folder(folder))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A folder that stays behind harms nothing; it lies under the build folder.
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[test]
fn an_open_last_line_is_shown_and_an_empty_output_is_no_line() {
    assert_eq!(lines_of(b""), Vec::<String>::new());
    assert_eq!(lines_of(b"a\n\nb\n"), ["a", "", "b"]);
    assert_eq!(lines_of(b"a"), ["a", "(the line above is not ended)"]);
}

#[test]
fn every_page_is_run_and_failures_come_in_the_order_of_the_pages() {
    let paths: Vec<PathBuf> = (0..20).map(|n| PathBuf::from(format!("{n}"))).collect();
    let runs = AtomicUsize::new(0);
    let failures = in_parallel(&paths, |path| {
        runs.fetch_add(1, Ordering::Relaxed);
        let name = path.display().to_string();
        if name.ends_with('3') {
            Err(name)
        } else {
            Ok(())
        }
    });
    assert_eq!(
        (runs.into_inner(), failures),
        (20, vec!["3".to_owned(), "13".to_owned()])
    );
}
