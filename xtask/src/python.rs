//! Libraries of another language asked for their word: each chore in a home of its own, made for it, with the versions that are
//! on record. Nothing else in the house needs Python.

use std::ffi::OsStr;
use std::path::Path;
use std::process::Command;

/// Runs a script over a folder with these packages, in a home that is made where there is none yet.
pub fn run(
    home: &Path,
    packages: &[&str],
    script: &Path,
    folder: &Path,
    wrong: &str,
) -> Result<(), String> {
    let python = ["python3", "python"]
        .into_iter()
        .find(|name| {
            Command::new(name)
                .arg("--version")
                .output()
                .is_ok_and(|output| output.status.success())
        })
        .ok_or("There is no Python here, so no other library was asked.")?;
    let none = format!(
        "{} could not be installed, so no other library was asked",
        packages.join(" and ")
    );
    done(
        Command::new(python).args([OsStr::new("-m"), OsStr::new("venv"), home.as_os_str()]),
        &none,
    )?;
    let inside = ["bin/python", "Scripts/python.exe"]
        .map(|path| home.join(path))
        .into_iter()
        .find(|path| path.exists())
        .ok_or_else(|| format!("{none}."))?;
    done(
        Command::new(&inside)
            .args(["-m", "pip", "install", "-q"])
            .args(packages),
        &none,
    )?;
    done(Command::new(&inside).arg(script).arg(folder), wrong)
}

/// Runs a command to its end.
pub fn done(command: &mut Command, wrong: &str) -> Result<(), String> {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(format!("{wrong}.")),
        Err(why) => Err(format!("{wrong}: {why}.")),
    }
}
