//! The pages on paper: nothing blank, nothing left folded, nothing to press.

use browser::{Desk, Paper, Screen, Visit, Window};
use serde_json::json;

const PAGES: &[&str] = &[
    "/",
    "/ahead/27",
    "/work",
    "/engine/14",
    "/engine/27/part/steam%20gauge",
    "/engine/14/part/right%20feed%20check",
    "/finding/F-001",
    "/finding/F-002",
    "/finding/F-004",
    "/job/J-001",
    "/inspection/I-001",
    "/sheet/thread.acme?diameter=1in&tpi=5&class=2G",
    "/sheet/seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5/32in&port=2in",
    "/drawing/nut?from=thread.unified%3Fdiameter%3D1in%26tpi%3D8%26class%3D2&length=1in&outside=2in",
    "/card/C-001",
    "/rulebook",
    "/rule/us-steam.tire.thickness",
];

/// What stands under every page, without its blanks.
const STANDING: &str = "Adviceonly.Thelawinforce,thecode,thedrawingandtheresponsibleofficergovern.";

/// The words inside folded pieces, a piece an entry, without what is only filled in or pressed.
const FOLDED: &str = "
    return [...document.querySelectorAll('details')].filter((d) => !d.querySelector('form') && !d.closest('form')).map((d) => {
        const inside = [...d.children].filter((c) => c.tagName !== 'SUMMARY');
        return inside.map((c) => c.textContent).join(' ').replace(/\\s+/g, '').slice(0, 40);
    }).filter((text) => text)";

#[test]
fn paper_has_no_blank_sheet_and_holds_what_is_folded_on_the_screen() {
    let mut desk = Desk::demonstration().unwrap();
    let cookie = desk.sign_in().unwrap();
    let window = Window::open(Screen::Desk).unwrap();
    let mut unfolded = 0;
    for path in PAGES {
        window.visit(&desk, &Visit::page(*path), &cookie).unwrap();
        let folded = window.ask(FOLDED, Vec::new()).unwrap();
        let paper = Paper::read(&window.print().unwrap()).unwrap();
        assert!(!paper.sheets.is_empty(), "{path} prints nothing");
        for (at, text) in paper.sheets.iter().enumerate() {
            assert!(
                text.replace(STANDING, "").chars().count() > 20,
                "{path}: sheet {} of {} is blank but for the standing line",
                at + 1,
                paper.sheets.len()
            );
        }
        let all = paper.sheets.concat();
        assert!(
            all.contains(STANDING),
            "{path} does not say on paper what governs"
        );
        for piece in folded.as_array().unwrap() {
            let piece = piece.as_str().unwrap();
            assert!(all.contains(piece), "{path}: folded away on paper: {piece}");
            unfolded += 1;
        }
        window.as_printed(true).unwrap();
        let pressed = "return [...document.querySelectorAll('button, input, select, textarea')].filter((el) => el.checkVisibility()).length";
        assert_eq!(
            window.ask(pressed, Vec::new()).unwrap(),
            json!(0),
            "{path}: paper has something to press"
        );
        window.as_printed(false).unwrap();
    }
    assert!(unfolded > 3, "no folded sheet was looked for on paper");
}
