//! `browser FOLDER [PATH ...]`: takes the pictures of every page, or of those whose path begins with one of these, into a
//! folder and says what is wrong with the pages.

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("A folder for the pictures is wanted.");
        return ExitCode::from(2);
    };
    let begin: Vec<String> = std::env::args().skip(2).collect();
    match browser::pictures(&folder, &begin) {
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
