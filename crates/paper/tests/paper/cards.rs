//! What stands on the cards.

use crate::samples::{bare, job, lathe, long, picture, seat, sheets, tool_tags};
use crate::text::{page, pages as read, run_on, text};
use paper::LatheCard;
use physics::STANDING;

#[test]
fn the_job_card_says_all_that_was_written() {
    let printed = job().print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    let text = run_on(&text(&printed.bytes));
    for said in [
        "J-001",
        "Re-cut seat and disc to 45°",
        "No. 14",
        "right feed check",
        "fails: a check valve that weeps back",
        "230.57(b) (2024)",
        "read in the text",
        "The angles differ by a degree",
        "HOLD",
        "The ring: whole, 1/32 in wide",
        "cleared by",
        "Sound all round; no void.",
        "Plug gauge, 45° seat",
        "cabinet 2, drawer 4",
        "Whole ring, .030 in wide.",
        "repairer",
        "The proof steam-test is not made.",
        "bench; engine cold and drained",
        "gauge at zero, cock open to the air",
        "It ended within the fit's window, 3.2 to 12.4 tons.",
        "wanted before operation 3",
        "Seat: 320 grit",
        "touches all round; ring 1/32 in",
        "$41.50 of 1 paper",
        "A demonstration: all of it is invented.",
        "entry 118",
    ] {
        assert!(text.contains(&run_on(said)), "{said} is not on the card");
    }
}

/// A fraction is read as it was written: 12 3/16 is never 1 over something.
#[test]
fn fractions_are_read_back_as_they_were_written() {
    let printed = job().print().unwrap();
    let text = text(&printed.bytes).replace('\u{2044}', "/");
    for reading in ["5/32 in", "11/64 in", "12 3/16 in", "1 1/64 in", "1 1/2 h"] {
        assert!(text.contains(reading), "{reading} is not in: {text}");
    }
}

#[test]
fn every_page_carries_the_standing_line_its_number_and_that_it_is_a_demonstration() {
    for printed in [job().print().unwrap(), long(12).print().unwrap()] {
        let pages = printed.pages;
        let read = read(&printed.bytes);
        assert_eq!(read.len(), pages);
        for number in 1..=pages {
            let text = run_on(&read[number - 1]);
            assert!(text.contains(&run_on(STANDING)), "page {number}");
            assert!(
                text.contains(&format!("page{number}of{pages}")),
                "page {number}: {text}"
            );
            assert!(text.contains("Ademonstration:"), "page {number}");
            assert!(text.contains("AsofMon4May2026."), "page {number}");
        }
    }
}

#[test]
fn a_card_with_next_to_nothing_is_one_page() {
    let printed = bare().print().unwrap();
    assert_eq!((printed.pages, printed.oddities.len()), (1, 0));
    assert!(!text(&printed.bytes).contains("demonstration"));
}

/// Nothing of 24 operations and 168 readings is lost over the foot of a page, a note longer than a page included.
#[test]
fn a_long_job_is_printed_to_its_end() {
    let card = long(24);
    let printed = card.print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    let text = run_on(&text(&printed.bytes));
    for at in 1..=24 {
        assert!(text.contains(&format!("Step{at}ofmany")), "step {at}");
    }
    // A word of every note, which no break of a page parts.
    let dressed = "dressed";
    let written: usize = card
        .operations
        .iter()
        .map(|step| {
            let told = step.done.as_ref().map_or("", |d| d.told.as_str());
            let look = step.hold.as_ref().map_or("", |h| h.look.as_str());
            [&step.what, told, look]
                .map(|t| run_on(t).matches(dressed).count())
                .iter()
                .sum::<usize>()
        })
        .sum();
    assert_eq!(text.matches(dressed).count(), written + 150);
    for at in 1..=14 {
        assert!(
            text.contains(&format!("{at}12/16in")),
            "the last reading of bolt {at}"
        );
    }
}

/// Every sheet of the catalogue, with inputs of its evidence.
#[test]
fn every_sheet_makes_a_lathe_card_with_its_results() {
    for entry in physics::catalogue() {
        let all = sheets(entry.card.id);
        assert!(!all.is_empty(), "{}", entry.card.id);
        for sheet in all.iter().step_by(all.len().div_ceil(2)) {
            let printed = lathe(sheet).print().unwrap();
            assert_eq!(printed.oddities, Vec::<String>::new());
            let text = run_on(&text(&printed.bytes)).replace('\u{2044}', "/");
            for result in &sheet.results {
                let physics::Shown::Quantity { shown, unit, .. } = &result.value else {
                    continue;
                };
                assert!(
                    text.contains(&run_on(&format!("{shown}{unit}"))),
                    "{}: {shown}",
                    result.name
                );
            }
            for caution in &sheet.cautions {
                assert!(text.contains(&run_on(caution)), "{caution}");
            }
        }
    }
}

/// Text inside a drawing is text in the file, in our own letters.
#[test]
fn a_drawing_keeps_its_words() {
    let card = LatheCard {
        pictures: vec![picture()],
        ..lathe(&seat())
    };
    let printed = card.print().unwrap();
    assert!(run_on(&page(&printed.bytes, printed.pages)).contains("5/32square"));
}

/// All that is said of a tool stands on its one small tag, and the words of the foot are not under it.
#[test]
fn a_tool_tag_is_one_page_and_holds_all_of_it() {
    for tag in tool_tags() {
        let printed = tag.print().unwrap();
        assert_eq!((printed.pages, printed.oddities.clone()), (1, Vec::new()));
        let text = run_on(&text(&printed.bytes));
        let lines = tag.serves.iter().chain(&tag.belongs).map(String::as_str);
        for said in lines.chain([
            "T-014",
            tag.what.as_str(),
            STANDING,
            "entry 118",
            "A demonstration:",
        ]) {
            assert!(
                text.contains(&run_on(said)),
                "{said} is not on the tag: {text}"
            );
        }
    }
}
