//! `browser FOLDER`: takes the pictures of every page into a folder and says what is wrong with the pages.

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("A folder for the pictures is wanted.");
        return ExitCode::from(2);
    };
    match browser::pictures(&folder) {
        Ok(wrong) if wrong.is_empty() => {
            println!(
                "The pictures are in {}; open index.html there.",
                folder.display()
            );
            ExitCode::SUCCESS
        }
        Ok(wrong) => {
            for sentence in &wrong {
                eprintln!("{sentence}");
            }
            eprintln!(
                "{} things are wrong; the pictures are in {}.",
                wrong.len(),
                folder.display()
            );
            ExitCode::FAILURE
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(3)
        }
    }
}
