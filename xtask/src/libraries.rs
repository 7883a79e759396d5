//! `cargo xtask libraries`: the rows of evidence that name a library of steam or of fluids are worked again with that library,
//! so that a figure on record can be had from its source at any time. The tests hold our sheets to the rows and need
//! neither it nor the network.

use std::path::Path;
use std::process::ExitCode;

use super::python;

/// The libraries, in the versions that the rows name.
const LIBRARIES: [&str; 2] = ["iapws==1.5.5", "fluids==1.3.1"];

/// Asks them.
pub fn run(root: &Path) -> ExitCode {
    let asked = python::run(
        &std::env::temp_dir().join("outshop-libraries"),
        &LIBRARIES,
        &root.join("crates/physics/tests/independent.py"),
        &root.join("crates/physics/src/law"),
        "A row of evidence is not what its library says",
    );
    match asked {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(3)
        }
    }
}
