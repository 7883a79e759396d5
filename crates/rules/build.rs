//! Builds the list of every file in `rulebook/`, so that the program carries the rules inside itself and a
//! shop never runs with half of them.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let here = PathBuf::from(
        env::var_os("CARGO_MANIFEST_DIR").ok_or_else(|| io::Error::other("no manifest folder"))?,
    );
    let rulebook = fs::canonicalize(here.join("../../rulebook"))?;
    println!("cargo:rerun-if-changed={}", rulebook.display());

    let mut files = Vec::new();
    collect(&rulebook, &mut files)?;
    files.sort();

    let mut list = String::from("&[\n");
    for file in &files {
        println!("cargo:rerun-if-changed={}", file.display());
        let name = file
            .strip_prefix(&rulebook)
            .map_err(io::Error::other)?
            .display()
            .to_string();
        writeln!(
            list,
            "    ({:?}, include_str!({:?})),",
            name.replace('\\', "/"),
            file.display().to_string()
        )
        .map_err(io::Error::other)?;
    }
    list.push_str("]\n");
    let out =
        PathBuf::from(env::var_os("OUT_DIR").ok_or_else(|| io::Error::other("no output folder"))?);
    fs::write(out.join("rulebook_files.rs"), list)
}

/// Every `.toml` file under a folder; folders are watched too, so that a new file is seen.
fn collect(folder: &Path, into: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            println!("cargo:rerun-if-changed={}", path.display());
            collect(&path, into)?;
        } else if path.extension().is_some_and(|e| e == "toml") {
            into.push(path);
        }
    }
    Ok(())
}
