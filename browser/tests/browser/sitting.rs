//! The first sitting of somebody new, on an empty book, on a phone, by links and forms alone: an engine, what her papers
//! say, six parts, one of them as found and as left, a photograph, a tool with its tag, a write-up, a copy of the book
//! and the trial of that copy. Every page on the way is looked at, and says what comes next.

use browser::{Desk, Paper, audit};

use crate::shop::{ADA, NEW};
use crate::walk::Hand;

/// A picture of one dot, as PNG (ISO/IEC 15948).
const DOT: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\x06\0\0\0\x1f\x15\xc4\x89\0\0\0\nIDATx\x9cc\0\x01\0\0\x05\0\x01\r\n-\xb4\0\0\0\0IEND\xaeB`\x82";

/// What stands on her, with its family.
const PARTS: &[(&str, &str)] = &[
    ("right feed check", "check-valve"),
    ("left feed check", "check-valve"),
    ("main rod back end, right", "rod-bushing"),
    ("main pin, right", "crank-pin"),
    ("driving wheelset 1", "wheelset"),
    ("her heights", "engine-heights"),
];

/// Everything wrong with the pages seen so far.
struct Seen(Vec<String>);

impl Seen {
    fn page(&mut self, hand: &Hand) {
        self.but(hand, "");
    }

    /// The same, but for what the browser's console says of an answer by its number.
    fn but(&mut self, hand: &Hand, expected: &str) {
        for note in audit(&hand.window, &hand.desk.at, false).unwrap() {
            if expected.is_empty() || !note.contains(expected) {
                self.0.push(format!("{}: {note}", hand.path()));
            }
        }
    }
}

/// Sends a form that must be taken, and is told on the next page what was kept.
fn kept(hand: &Hand, verb: &str, seen: &mut Seen) {
    hand.done(verb);
    let said = "const said = document.querySelector('.kept'); return said ? said.innerText : ''";
    let said = hand.window.ask(said, Vec::new()).unwrap();
    assert!(said.as_str().unwrap().contains("entr"), "{verb}: {said}");
    seen.page(hand);
}

#[test]
fn a_newcomer_makes_a_book_useful_in_one_sitting() {
    let desk = Desk::of(&[(ADA, "2026-05-03T09:00", NEW)]).unwrap();
    // Where copies go is said once at the machine: no page chooses a folder.
    desk.does(ADA, &["backup", "."]).unwrap();
    let hand = Hand::of(desk);
    let mut seen = Seen(Vec::new());
    assert!(hand.text().contains("Begin here"), "{}", hand.text());
    seen.page(&hand);
    hand.follow("/first-hour");
    assert!(hand.text().contains("A passphrase of your own"));
    seen.page(&hand);
    hand.sets_passphrase(ADA);

    hand.follow("/first-hour");
    for (name, text) in [
        ("number", "14"),
        ("wheels", "2-8-0"),
        ("gauge", "56 1/2 in"),
        ("mawp", "180psig"),
    ] {
        hand.write("locomotive add", name, text);
    }
    hand.choose("locomotive add", "rules", "us-steam");
    kept(&hand, "locomotive add", &mut seen);

    // Her anchors; what no paper says is left out.
    hand.follow("/engine/14/known#held");
    hand.choose("locomotive held", "kind", "annual");
    for (name, text) in [
        ("document", "Form 3 in the green binder"),
        ("service_days", "4"),
    ] {
        hand.write("locomotive held", name, text);
    }
    for (name, day) in [("day", "2026-03-08"), ("through", "2026-05-01")] {
        let field = format!(
            "document.querySelector(\"form:has([value='locomotive held']) [name={name}]\").value = '{day}'"
        );
        hand.window.ask(&field, Vec::new()).unwrap();
    }
    kept(&hand, "locomotive held", &mut seen);
    for (name, family) in PARTS {
        hand.write("part add", "name", name);
        hand.choose("part add", "family", family);
        kept(&hand, "part add", &mut seen);
    }

    // As found, and as left once the hubs were lined: a wheelset is measured as one, whoever stands before it.
    hand.follow("/engine/14/part/driving%20wheelset%201");
    seen.page(&hand);
    let lateral = |text: &str| {
        for place in ["front", "top", "back"] {
            hand.write(
                "reading take",
                &format!("at:back-to-back@{place}"),
                "53 1/4",
            );
        }
        hand.write("reading take", "at:lateral@axle", text);
    };
    lateral("3/8");
    kept(&hand, "reading take", &mut seen);
    hand.tick("reading take", "as_left", "yes");
    lateral("3/16");
    // Less than it was, and no job that put metal on: it is asked about, and nothing that was written is lost.
    hand.send("reading take");
    assert!(hand.alert().contains("Is that right?"), "{}", hand.alert());
    seen.but(&hand, "a status of 422");
    hand.write(
        "reading take",
        "insist",
        "new hub liners fitted before this book",
    );
    kept(&hand, "reading take", &mut seen);
    let text = hand.text();
    assert!(
        text.contains("as found") && text.contains("as left"),
        "{text}"
    );

    // A photograph of it.
    hand.window
        .press("details:has(form[action='/photo']) > summary")
        .unwrap();
    let chosen = "const all = new DataTransfer(); all.items.add(new File([Uint8Array.from(arguments[0])], 'hub.png', { type: 'image/png' })); document.querySelector('#photo-file').files = all.files;";
    hand.window.ask(chosen, vec![DOT.into()]).unwrap();
    hand.window
        .write(
            "form[action='/photo'] input[name=told]",
            "right hub, liner in",
        )
        .unwrap();
    hand.window.go_by("form[action='/photo'] button").unwrap();
    assert_eq!(hand.alert(), "");
    assert!(hand.text().contains("right hub, liner in"));
    seen.page(&hand);

    // A tool, and its tag.
    hand.follow("/");
    hand.follow("/tooling");
    for (name, text) in [
        ("what", "plug gauge 1.250 in"),
        ("engine", "14"),
        ("part", "right feed check"),
        ("shelf", "valve drawer 2"),
    ] {
        hand.write("tooling add", name, text);
    }
    kept(&hand, "tooling add", &mut seen);
    assert_eq!(hand.path(), "/tooling/T-001");
    let session = hand.window.session(&hand.desk.url("/")).unwrap();
    let tag = hand.desk.paper("/print/tool-tag/T-001", &session).unwrap();
    assert!(Paper::read(&tag).unwrap().sheets.concat().contains("T-001"));

    // What the crew noticed.
    hand.follow("/");
    hand.follow("/day/14");
    seen.page(&hand);
    hand.write(
        "writeup report",
        "symptoms:1:what",
        "left injector slow to pick up",
    );
    hand.write("writeup report", "symptoms:1:where", "cab, left");
    kept(&hand, "writeup report", &mut seen);
    hand.follow("/write-up/W-001");
    seen.page(&hand);

    // A copy, and the trial of it.
    hand.follow("/");
    hand.follow("/copies");
    seen.page(&hand);
    hand.window.go_by("form[action='/copies'] button").unwrap();
    assert_eq!(hand.alert(), "");
    hand.window
        .go_by("form[action='/copies/drill'] button")
        .unwrap();
    assert_eq!(hand.alert(), "");
    assert!(
        hand.text().contains("is what was entered"),
        "{}",
        hand.text()
    );
    seen.page(&hand);

    // The first hour tells what is left.
    hand.follow("/");
    hand.follow("/first-hour");
    let text = hand.text();
    for step in [
        "A passphrase of your own done",
        "An engine done",
        "What her papers say done",
        "A part done",
        "The first as-left done",
        "A copy somewhere else done",
        "The people to do",
    ] {
        assert!(text.contains(step), "{step}: {text}");
    }
    seen.page(&hand);
    hand.follow("/engine/14");
    seen.page(&hand);
    hand.follow("/engine/14/open");
    assert!(hand.text().contains("W-001"));
    seen.page(&hand);
    assert!(
        seen.0.is_empty(),
        "{} things:\n{}",
        seen.0.len(),
        seen.0.join("\n")
    );
    let checked = hand.desk.json(&["check"]).unwrap();
    assert_eq!(checked["differences"], serde_json::json!([]));
}
