//! A survey of a sheet read on a phone: line by line with scripts switched off, and square by square where there is no
//! signal. What counts: the entry of the book equals what was read, once, and a square that nobody read is not read.

use browser::{Desk, audit};
use serde_json::{Value, json};

use crate::bench::Phone;
use crate::shop::{ADA, ENGINE, NEW};
use crate::walk::Hand;

const COURSE: &[&str] = &[
    "boiler",
    "enter",
    "14",
    "second course",
    "--kind",
    "course",
    "--place",
    "barrel",
    "--source",
    "drawing 14-B-2",
    "thickness=.649in",
    "as_built=11/16in",
];
const SPRING: &[&str] = &[
    "boiler",
    "survey",
    "14",
    "second course",
    "--unit",
    "in",
    "--columns",
    "1,2,3",
    "--source",
    "from the front seam, gauge U-1",
    "12=.682 .681 .681",
    "6=.646 .634 .612",
];
const PAGE: &str = "/bench/14/boiler/second%20course/survey";

/// A shop with a course of a boiler that was surveyed before.
const SHOP: &[(&str, &str, &[&str])] = &[
    (ADA, "2026-05-01T09:00", NEW),
    (ADA, "2026-05-01T09:10", ENGINE),
    (ADA, "2026-05-01T09:15", COURSE),
    (ADA, "2026-05-01T09:20", SPRING),
];

fn told(desk: &Desk) -> Value {
    desk.json(&["boiler", "surveyed", "14", "second course"])
        .unwrap()
}

#[test]
fn a_survey_is_read_line_by_line_on_a_phone_without_scripts() {
    const BEGIN: &str = "survey-begin";
    const LINE: &str = "survey-line";
    const TEXT: &str = "survey-text";
    let shop = [NEW, &["--demonstration", "2026-05-16"]].concat();
    let desk = Desk::of(&[
        (ADA, "2026-01-10T09:00", &shop),
        (ADA, "2026-01-10T09:00", ENGINE),
        (ADA, "2026-01-10T09:00", COURSE),
        (ADA, "2026-01-10T09:00", SPRING),
    ]);
    let hand = Hand::of(desk.unwrap());
    hand.window
        .go(&hand.desk.url("/engine/14/boiler/second%20course"))
        .unwrap();
    hand.follow(PAGE);
    hand.tick(BEGIN, "direction", "along");
    hand.tick(BEGIN, "unit", "in");
    hand.write(BEGIN, "source", "from the front seam; A. Quill");
    hand.send(BEGIN);
    assert!(hand.text().contains("Row 12: 0 of 3"), "{}", hand.text());
    // The accessibility engine is a script of the test's own; those of the page have had their chance and were refused.
    hand.window.scripts(true).unwrap();
    let wrong = audit(&hand.window, &hand.desk.at, true).unwrap();
    assert!(wrong.is_empty(), "{wrong:#?}");
    hand.window.scripts(false).unwrap();
    // A letter for a figure: the line comes back as it was written.
    hand.write(LINE, "cell:0", ".680");
    hand.write(LINE, "cell:1", ".70l");
    hand.send(LINE);
    assert!(hand.alert().contains("is no reading"), "{}", hand.alert());
    hand.write(LINE, "cell:1", ".702");
    hand.done(LINE);
    hand.write(TEXT, "text", ".640 - .571");
    hand.done(TEXT);
    // What is strange is said beside what was read before, and stays.
    hand.follow(&format!("{PAGE}?line=0"));
    let text = hand.text();
    assert!(
        text.contains("Look again, thicker than the sheet as built"),
        "{text}"
    );
    assert!(
        text.contains("last 0.681 in") && text.contains("4 of 6 squares read"),
        "{text}"
    );
    hand.done("survey-enter");
    let survey = told(&hand.desk);
    assert_eq!(
        survey["cells"],
        json!([[".680", ".702", "-"], [".640", "-", ".571"]])
    );
    assert!(
        hand.text().contains("0.571 in, row 6, column 3"),
        "{}",
        hand.text()
    );
}

#[test]
fn a_survey_read_without_a_signal_comes_into_the_book_once() {
    let mut phone = Phone::of(SHOP);
    let tap = |phone: &Phone, keys: &[&str]| {
        for key in keys {
            phone
                .window
                .press(&format!(".pad [data-key='{key}']"))
                .unwrap();
        }
    };
    let figures = |phone: &Phone, text: &str| {
        let keys: Vec<String> = text.chars().map(String::from).collect();
        tap(phone, &keys.iter().map(String::as_str).collect::<Vec<_>>());
    };
    let opens = |phone: &Phone| {
        phone.window.go(&phone.desk.url(PAGE)).unwrap();
        phone.sees("document.querySelector('section.pocket:not([hidden])')");
    };
    opens(&phone);
    phone.sees("document.documentElement.dataset.worker === 'ready'");
    phone.desk.stops();
    opens(&phone);
    for choice in ["direction'][value='along", "unit'][value='in"] {
        phone
            .window
            .press(&format!("label:has(input[name='{choice}'])"))
            .unwrap();
    }
    phone
        .window
        .write("#survey-source", "from the front seam; A. Quill")
        .unwrap();
    phone.window.press("form.survey-begin button").unwrap();
    phone.says("Row 12, column 1");
    phone.says("Last read 0.682 in");
    let wrong = audit(&phone.window, &phone.desk.at, true).unwrap();
    assert!(wrong.is_empty(), "{wrong:#?}");
    // Thicker than the sheet ever was: said, and kept all the same.
    figures(&phone, ".702");
    phone.says("Look again, thicker than the sheet as built");
    tap(&phone, &["enter"]);
    tap(&phone, &["-"]);
    phone.says("Row 12, column 3");
    figures(&phone, ".68");
    // The tab is lost in the middle of a square: all of it is there again.
    phone.window.kill_tab().unwrap();
    opens(&phone);
    phone.says("What was begun here before is still here.");
    phone.says("2 read, 1 not read or without plate, 3 of 6 still open.");
    // The next row in one go.
    phone.window.press(".survey-pad details > summary").unwrap();
    phone.window.write("#square-line", ".640 .630").unwrap();
    phone.window.press(".write-line").unwrap();
    phone.says("2 squares stand there and the line has 3");
    phone
        .window
        .write("#square-line", ".640 .630 .571")
        .unwrap();
    phone.window.press(".write-line").unwrap();
    phone.says("5 read, 1 not read or without plate, 0 of 6 still open.");
    phone.window.press(".keep").unwrap();
    phone.says("is in this pocket. Nothing is lost.");
    phone.waits(1);
    phone.desk.serves_again().unwrap();
    opens(&phone);
    phone.says("In the book today from this phone: 5 readings.");
    phone.waits(0);
    let survey = told(&phone.desk);
    assert_eq!(
        survey["cells"],
        json!([[".702", "-", ".68"], [".640", ".630", ".571"]])
    );
    assert_eq!(survey["source"], "from the front seam; A. Quill");
    // One more visit sends nothing more.
    opens(&phone);
    let batches = phone.desk.json(&["entry", "batches"]).unwrap();
    assert_eq!(batches.as_array().unwrap().len(), 2, "{batches}");
    phone.checked();
}
