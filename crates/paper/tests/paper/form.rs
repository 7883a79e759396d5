//! The papers of an inspection: nothing of them is lost, and there is room for a pencil.

use crate::samples::{close_form, form};
use crate::text::{pages, run_on, text};
use paper::Block;
use physics::STANDING;

#[test]
fn a_paper_says_every_word_of_every_block() {
    let printed = form().print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    let said = run_on(&text(&printed.bytes));
    for words in [
        "Sheet to write on",
        "Mind the gap",
        "The official form governs.",
        "Never strike a plug under pressure.",
        "how much scale, and where",
        "not said whether fitted: arch tubes",
        "not fitted, as E. Marsh said",
        "not in this book",
        "What to know of Signed.",
    ] {
        assert!(said.contains(&run_on(words)), "{words}");
    }
    for at in 1..=30 {
        assert!(said.contains(&format!("Item{at}:takeout")), "item {at}");
    }
    for at in 1..=40 {
        assert!(said.contains(&format!("Field{at}230.14")), "field {at}");
    }
    // One box for who looked beside every item, whatever is fitted; a condition only of what is there.
    assert_eq!(said.matches("wholooked").count(), 30);
    assert_eq!(said.matches("condition").count(), 29);
}

#[test]
fn every_page_of_it_carries_the_standing_line_and_says_which_it_is() {
    let printed = form().print().unwrap();
    let read = pages(&printed.bytes);
    assert_eq!(read.len(), printed.pages);
    for (at, page) in (1..).zip(&read) {
        let page = run_on(page);
        assert!(page.contains(&run_on(STANDING)), "page {at}");
        assert!(page.contains(&format!("page{at}of{}", printed.pages)));
    }
}

/// An item and its boxes are never parted: whoever has the number has the room.
#[test]
fn an_item_is_kept_on_one_page() {
    for page in pages(&form().print().unwrap().bytes) {
        let page = run_on(&page);
        assert_eq!(
            page.matches(":takeoutthespindles").count(),
            page.matches("wholooked").count()
        );
    }
}

#[test]
fn a_paper_without_parts_is_one_page() {
    let mut bare = form();
    bare.parts.clear();
    bare.shout = None;
    assert_eq!(bare.print().unwrap().pages, 1);
    let mut empty = form();
    for part in &mut empty.parts {
        part.blocks = vec![Block::Points { all: Vec::new() }];
    }
    assert_eq!(empty.print().unwrap().oddities, Vec::<String>::new());
}

/// Set close, nothing is lost, and every line to be filled in is there.
#[test]
fn a_close_paper_says_every_word_too() {
    let printed = close_form().print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    let said = run_on(&text(&printed.bytes));
    for words in [
        "225.0 psig",
        "at the top of the water",
        "171.0 psig",
        "Finding",
    ] {
        assert!(said.contains(&run_on(words)), "{words}");
    }
    for at in 1..=50 {
        assert!(said.contains(&format!("Place{at}")), "place {at}");
    }
    assert!(printed.pages < form().print().unwrap().pages + 2);
}
