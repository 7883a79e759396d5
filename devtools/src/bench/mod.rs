//! `bench`: what things cost, as ratios taken in one run, so that a slow machine does not matter.
//!
//! Nothing here is a promise and nothing fails for being slow: the figures are for a person to read.

mod boiler;
mod desk;
mod lineup;
mod parts;
mod rebuild;
mod sheets;
mod verbs;
mod wheels;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};

use crate::Stop;

/// Every bench, in one run.
///
/// # Errors
/// A fault where a sheet refuses the bench's own arguments; the machine's where a file fails. A
/// program that cannot be built is told in a sentence and skipped.
pub fn all(root: &Path) -> Result<String, Stop> {
    if cfg!(debug_assertions) {
        return Err(Stop::input(
            "A bench of an unoptimised build says nothing: start it as `cargo xtask bench`.",
        ));
    }
    Ok(format!(
        "{}\n{}\n{}\n{}\n{}\n{}\n{}\n{}",
        sheets::bench()?,
        boiler::bench()?,
        wheels::bench(),
        rebuild::bench()?,
        lineup::bench(root)?,
        verbs::bench(root)?,
        desk::bench(root)?,
        parts::bench(root)?
    ))
}

/// The bench of a lineup alone, which takes the longest.
///
/// # Errors
/// As [`all`].
pub fn of_lineup(root: &Path) -> Result<String, Stop> {
    lineup::bench(root)
}

/// The bench of a boiler alone.
///
/// # Errors
/// As [`all`].
pub fn of_boiler() -> Result<String, Stop> {
    boiler::bench()
}

/// The bench of parts' pages alone.
///
/// # Errors
/// As [`all`].
pub fn of_parts(root: &Path) -> Result<String, Stop> {
    parts::bench(root)
}

/// What something took, once.
#[allow(
    clippy::disallowed_methods,
    reason = "a bench is the one thing in the house that is timed"
)]
fn took<T>(what: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let result = what();
    (start.elapsed(), result)
}

/// What something took of this process's own processor time, once: other programs on the machine do not count.
fn worked<T>(what: impl FnOnce() -> T) -> (Duration, T) {
    let now = || {
        let at = rustix::time::clock_gettime(rustix::time::ClockId::ProcessCPUTime);
        let seconds = u64::try_from(at.tv_sec).unwrap_or(0);
        Duration::new(seconds, u32::try_from(at.tv_nsec).unwrap_or(0))
    };
    let start = now();
    let result = what();
    (now().saturating_sub(start), result)
}

/// The middle of several times; nothing of none.
fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

/// A ratio with as many figures as it deserves.
fn ratio(over: Duration, under: Duration) -> String {
    let ratio = over.as_secs_f64() / under.as_secs_f64().max(1e-12);
    match ratio {
        r if r >= 100.0 => format!("{r:.0}"),
        r if r >= 10.0 => format!("{r:.1}"),
        r => format!("{r:.2}"),
    }
}

/// The first line a program said when it failed.
fn said(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stderr);
    text.lines().next().unwrap_or("it said nothing").to_string()
}

/// The program, built as a person would build it. It lies beside this one.
fn built(root: &Path) -> Result<PathBuf, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command.current_dir(root);
    command.args(["build", "--release", "-q", "-p", "outshop"]);
    let made = command.output().map_err(|why| format!("cargo: {why}"))?;
    if !made.status.success() {
        return Err(format!("the program does not build: {}", said(&made)));
    }
    let ours = std::env::current_exe().map_err(|why| why.to_string())?;
    let beside = ours.with_file_name(format!("outshop{}", std::env::consts::EXE_SUFFIX));
    if beside.is_file() {
        Ok(beside)
    } else {
        Err(format!("there is no program at {}", beside.display()))
    }
}

/// A folder of the bench's own, taken away at the end.
pub struct Folder(PathBuf);

impl Folder {
    /// Makes it among the machine's temporary files.
    ///
    /// # Errors
    /// The machine's.
    pub fn new(name: &str) -> Result<Folder, Stop> {
        Folder::within(&std::env::temp_dir(), name)
    }

    /// Makes it in a folder that stands.
    ///
    /// # Errors
    /// The machine's.
    pub fn within(place: &Path, name: &str) -> Result<Folder, Stop> {
        let path = place.join(format!("devtools-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path)
            .map_err(|why| Stop::machine(format!("{}: {why}.", path.display())))?;
        Ok(Folder(path))
    }

    /// A file in it.
    pub fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A folder left behind among temporary files hurts nobody.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_middle_one() {
        let times = [9, 1, 5].map(Duration::from_millis).to_vec();
        assert_eq!(median(times), Duration::from_millis(5));
        assert_eq!(median(Vec::new()), Duration::ZERO);
        let ms = Duration::from_millis;
        assert_eq!(ratio(ms(3), ms(2)), "1.50");
        assert_eq!(ratio(ms(300), ms(2)), "150");
    }
}
