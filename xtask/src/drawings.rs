//! `cargo xtask drawings`: writes the sample drawings, to be looked at, and has their DXF read by ezdxf, a reader
//! that is not ours. It needs Python with its package installer, which nothing else in the house does; the tests of
//! the crate `drawing` need neither.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

/// The reader, and the version whose word is on record.
const READER: &str = "ezdxf==1.4.5";

/// Writes the samples into the folder named, or one beside the build's own, and asks the reader.
pub fn run(root: &Path, rest: &[String]) -> ExitCode {
    let folder = rest.first().map_or_else(
        || std::env::temp_dir().join("outshop-drawings"),
        PathBuf::from,
    );
    match asked(root, &folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(3)
        }
    }
}

fn asked(root: &Path, folder: &Path) -> Result<(), String> {
    std::fs::create_dir_all(folder)
        .map_err(|why| format!("{} could not be made: {why}.", folder.display()))?;
    let mut samples = super::cargo(root);
    samples
        .args([
            "run",
            "--release",
            "-q",
            "-p",
            "drawing",
            "--example",
            "samples",
            "--",
        ])
        .arg(folder);
    done(&mut samples, "the samples could not be drawn")?;
    println!("The samples are in {}.", folder.display());

    // A throwaway home for the reader, so that nothing of the machine's own Python is changed.
    let home = folder.join("reader");
    let python = ["python3", "python"]
        .into_iter()
        .find(|name| {
            Command::new(name)
                .arg("--version")
                .output()
                .is_ok_and(|output| output.status.success())
        })
        .ok_or("There is no Python here, so no independent reader was asked about the DXF.")?;
    let no_reader =
        "ezdxf could not be installed, so no independent reader was asked about the DXF";
    done(
        Command::new(python).args([OsStr::new("-m"), OsStr::new("venv"), home.as_os_str()]),
        no_reader,
    )?;
    let inside = ["bin/python", "Scripts/python.exe"]
        .map(|path| home.join(path))
        .into_iter()
        .find(|path| path.exists())
        .ok_or_else(|| format!("{no_reader}."))?;
    done(
        Command::new(&inside).args(["-m", "pip", "install", "-q", READER]),
        no_reader,
    )?;
    done(
        Command::new(&inside)
            .arg(root.join("crates/drawing/tests/ezdxf_audit.py"))
            .arg(folder),
        "ezdxf found fault with the DXF",
    )
}

/// Runs a command to its end.
fn done(command: &mut Command, wrong: &str) -> Result<(), String> {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(format!("{wrong}.")),
        Err(why) => Err(format!("{wrong}: {why}.")),
    }
}
