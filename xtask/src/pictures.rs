//! `cargo xtask pictures`: writes a picture of every page of the demonstration, on a phone and at a desk, with scripts
//! and without, and on paper; fails when a page scrolls sideways, text stands over text or is too small, or the
//! browser complains.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Takes the pictures into the folder named, or into `target/pictures`; of the pages whose paths begin with what is named
/// after the folder, or of all.
pub fn run(root: &Path, rest: &[String]) -> ExitCode {
    let folder = rest
        .first()
        .map_or_else(|| root.join("target/pictures"), PathBuf::from);
    let browser = match super::browser::find() {
        Ok(browser) => browser,
        Err(why) => {
            eprintln!("{why}");
            return ExitCode::from(3);
        }
    };
    if !super::build_program(root) {
        return ExitCode::FAILURE;
    }
    let mut command = super::cargo(root);
    command
        .args(["run", "--release", "-q", "-p", "browser", "--"])
        .arg(folder)
        .args(rest.iter().skip(1));
    browser.tell(&mut command);
    match command.status() {
        Ok(status) => ExitCode::from(
            status
                .code()
                .and_then(|code| u8::try_from(code).ok())
                .unwrap_or(1),
        ),
        Err(why) => {
            eprintln!("cargo could not be started for the pictures: {why}.");
            ExitCode::from(3)
        }
    }
}
