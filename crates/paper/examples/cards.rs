//! Writes the sample cards into a folder, to be looked at: `cargo run -p paper --release --example cards -- FOLDER`.
//! With a number after the folder it then sets so many cards more, each different, and tells what memory is held.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "shares the samples of the tests, which may fail loudly"
)]

#[path = "../tests/paper/samples.rs"]
mod samples;

use std::error::Error;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| "cards".into());
    std::fs::create_dir_all(&folder)?;
    let mut cards = vec![
        ("job".to_owned(), samples::job().print()?),
        ("bare".to_owned(), samples::bare().print()?),
        ("form".to_owned(), samples::form().print()?),
        ("close".to_owned(), samples::close_form().print()?),
        ("long".to_owned(), samples::long(60).print()?),
        ("seat".to_owned(), samples::lathe(&samples::seat()).print()?),
        ("tool-tag".to_owned(), samples::tool_tags()[1].print()?),
    ];
    for entry in physics::catalogue() {
        for sheet in samples::sheets(entry.card.id).iter().take(1) {
            cards.push((entry.card.id.to_owned(), samples::lathe(sheet).print()?));
        }
    }
    for (name, printed) in cards {
        std::fs::write(
            Path::new(&folder).join(format!("{name}.pdf")),
            &printed.bytes,
        )?;
        println!("{name}: {} pages, {:?}", printed.pages, printed.oddities);
    }
    let more: usize = std::env::args().nth(2).map_or(Ok(0), |n| n.parse())?;
    for at in 1..=more {
        let mut card = samples::bare();
        card.title = format!("Card {at}");
        card.operations = samples::job().operations;
        card.print()?;
        if at % more.div_ceil(10) == 0 {
            let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
            let held = status.lines().find(|line| line.starts_with("VmRSS"));
            println!("{at} more: {}", held.unwrap_or("memory is not told here"));
        }
    }
    Ok(())
}
