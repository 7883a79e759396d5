//! Finds the browser and its driver for the tests and the pictures, and installs them where that is allowed.

use std::path::{Path, PathBuf};
use std::process::Command;

/// A browser and a driver of one version.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Browser {
    /// The browser.
    pub chromium: PathBuf,
    /// Its driver.
    pub driver: PathBuf,
}

const CHROMIUM: &str = "OUTSHOP_CHROMIUM";
const DRIVER: &str = "OUTSHOP_CHROMEDRIVER";
/// Names of the browser, as systems have it.
const NAMES: &[&str] = &["chromium", "chromium-browser", "google-chrome"];

impl Browser {
    /// Hands both to a command, and the built program with them.
    pub fn tell(&self, command: &mut Command) {
        command
            .env(CHROMIUM, &self.chromium)
            .env(DRIVER, &self.driver);
    }
}

/// The two that were named in the environment, else those on the path, else those that apt installs when
/// we are the machine's keeper.
///
/// # Errors
/// A sentence that says what to do.
pub fn find() -> Result<Browser, String> {
    let first = match matched(look()) {
        Ok(browser) => return Ok(browser),
        Err(why) => why,
    };
    let named = [CHROMIUM, DRIVER]
        .iter()
        .any(|name| std::env::var_os(name).is_some());
    let way = "Install chromium and chromedriver of one version, or name them in OUTSHOP_CHROMIUM and \
               OUTSHOP_CHROMEDRIVER; `cargo xtask test --no-browser` leaves their tests out.";
    if named || !may_install() {
        return Err(format!("{first} {way}"));
    }
    println!(
        "{first} They are installed from this machine's packages: apt-get install chromium chromium-driver."
    );
    install().map_err(|why| format!("{first} {why} {way}"))?;
    matched(look()).map_err(|why| format!("{why} {way}"))
}

/// Both, if both are there.
fn look() -> Result<Browser, String> {
    let chromium = named(CHROMIUM).or_else(|| NAMES.iter().find_map(|name| on_path(name)));
    let driver = named(DRIVER).or_else(|| on_path("chromedriver"));
    match (chromium, driver) {
        (Some(chromium), Some(driver)) => Ok(Browser { chromium, driver }),
        (None, Some(_)) => Err("There is no browser here.".into()),
        (Some(_), None) => Err("There is no driver for the browser here.".into()),
        (None, None) => Err("There is neither a browser nor a driver for one here.".into()),
    }
}

fn named(variable: &str) -> Option<PathBuf> {
    std::env::var_os(variable)
        .filter(|value| !value.is_empty())
        .map(PathBuf::from)
}

fn on_path(name: &str) -> Option<PathBuf> {
    std::env::split_paths(&std::env::var_os("PATH")?)
        .map(|folder| folder.join(name))
        .find(|path| path.is_file())
}

/// Passes on a pair whose versions are equal up to the first dot; a driver refuses any other browser.
fn matched(found: Result<Browser, String>) -> Result<Browser, String> {
    let browser = found?;
    let (chromium, driver) = (version(&browser.chromium)?, version(&browser.driver)?);
    if chromium == driver {
        Ok(browser)
    } else {
        Err(format!(
            "The browser is of version {chromium} and its driver of version {driver}."
        ))
    }
}

/// The first number of what a program says of its version.
fn version(program: &Path) -> Result<u32, String> {
    let failed = |why: String| format!("{} does not say its version: {why}.", program.display());
    let output = Command::new(program)
        .arg("--version")
        .output()
        .map_err(|why| failed(why.to_string()))?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    major(&text).ok_or_else(|| failed(text.trim().to_string()))
}

/// The number before the first dot of the first word that is a version.
fn major(text: &str) -> Option<u32> {
    text.split_whitespace()
        .find(|word| word.contains('.') && word.starts_with(|c: char| c.is_ascii_digit()))?
        .split('.')
        .next()?
        .parse()
        .ok()
}

/// Whether packages may be installed: apt is here and we are root.
fn may_install() -> bool {
    let root = Command::new("id")
        .arg("-u")
        .output()
        .is_ok_and(|output| output.stdout.trim_ascii() == b"0");
    root && on_path("apt-get").is_some()
}

fn install() -> Result<(), String> {
    for words in [
        &["update", "-q"][..],
        &[
            "install",
            "-y",
            "-q",
            "--no-install-recommends",
            "chromium",
            "chromium-driver",
        ],
    ] {
        let status = Command::new("apt-get")
            .args(words)
            .env("DEBIAN_FRONTEND", "noninteractive")
            .status();
        if !status.is_ok_and(|status| status.success()) {
            return Err(format!("`apt-get {}` failed.", words.join(" ")));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_version_is_read_from_what_each_program_says() {
        assert_eq!(
            major("Chromium 156.0.8078.79 built on Debian GNU/Linux 12 (bookworm)"),
            Some(156)
        );
        assert_eq!(
            major("ChromeDriver 148.0.1 (a21ce95c-refs/branch-heads/8078@{#1704})"),
            Some(148)
        );
        assert_eq!(major("no version"), None);
    }
}
