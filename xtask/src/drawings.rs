//! `cargo xtask drawings`: writes the sample drawings, to be looked at, and has their DXF read by ezdxf, a reader
//! that is not ours. It needs Python with its package installer, which nothing else in the house does; the tests of
//! the crate `drawing` need neither.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use super::python::{self, done};

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
    python::run(
        &folder.join("reader"),
        &[READER],
        &root.join("crates/drawing/tests/ezdxf_audit.py"),
        folder,
        "ezdxf found fault with the DXF",
    )
}
