//! The pages by keyboard alone: every link and control in the order in which it stands, seen when it is reached.

use browser::{Desk, Screen, Visit, Window};
use fantoccini::key::Key;
use serde_json::{Value, json};

/// One page of each kind, with folded forms and without.
const PAGES: &[&str] = &[
    "/",
    "/work",
    "/engine/14",
    "/engine/14/part/right%20feed%20check",
    "/finding/F-004",
    "/job/J-002",
    "/inspection/I-001",
    "/sheets",
    "/sheet/thread.acme?diameter=1in&tpi=5&class=2G",
    "/sheet/seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5/32in&port=2in",
    "/drawing/nut?from=thread.unified%3Fdiameter%3D1in%26tpi%3D8%26class%3D2&length=1in&outside=2in",
    "/card/C-001",
    "/rulebook",
    "/rule/us-steam.tire.thickness",
    "/me",
];

/// Numbers everything the keyboard must reach, in the order of the page, and notes what it reaches. A set of round
/// buttons is one stop.
const LISTEN: &str = "
    const groups = new Set();
    const stops = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex=\"0\"]')]
        .filter((el) => el.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true }))
        .filter((el) => {
            if (el.type !== 'radio') return true;
            if (groups.has(el.name)) return false;
            groups.add(el.name);
            return true;
        });
    window.stops = stops;
    window.reached = [];
    const number = (el) => el.type === 'radio' ? stops.findIndex((s) => s.name === el.name) : stops.indexOf(el);
    document.addEventListener('focusin', (e) => {
        const style = getComputedStyle(e.target);
        const seen = e.target.matches(':focus-visible') && style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
        window.reached.push({ number: number(e.target), seen, what: e.target.outerHTML.slice(0, 90) });
    });
    return stops.length;";

#[test]
fn the_keyboard_reaches_everything_in_order_and_shows_where_it_is() {
    let mut desk = Desk::demonstration().unwrap();
    let cookie = desk.sign_in().unwrap();
    let window = Window::open(Screen::Desk).unwrap();
    for path in PAGES {
        window.visit(&desk, &Visit::page(*path), &cookie).unwrap();
        let count = window.ask(LISTEN, Vec::new()).unwrap().as_u64().unwrap();
        let count = usize::try_from(count).unwrap();
        assert!(count > 5, "{path}: only {count} things to reach");
        window.key(Key::Tab, count).unwrap();
        let reached = window.ask("return window.reached", Vec::new()).unwrap();
        let reached = reached.as_array().unwrap();
        let order: Vec<_> = reached.iter().map(|r| r["number"].as_u64()).collect();
        let want: Vec<_> = (0..count as u64).map(Some).collect();
        let first = reached
            .iter()
            .zip(&want)
            .find(|(r, want)| r["number"].as_u64() != **want)
            .map(|(r, want)| format!("{want:?} was to come, {r} came"));
        assert!(
            order == want,
            "{path}: of {count} things {} were reached; {first:?}",
            order.len()
        );
        let unseen: Vec<&Value> = reached
            .iter()
            .filter(|r| r["seen"] != json!(true))
            .collect();
        assert!(
            unseen.is_empty(),
            "{path}: reached and not shown: {unseen:?}"
        );
        // And back again: nothing holds the keyboard fast.
        window.key(Key::Tab, 1).unwrap();
        let stuck = window
            .ask(
                "return document.activeElement === window.stops[window.stops.length - 1]",
                Vec::new(),
            )
            .unwrap();
        assert_eq!(
            stuck,
            json!(false),
            "{path}: the last thing holds the keyboard"
        );
    }
}

#[test]
fn the_first_key_skips_to_the_page_and_enter_sends_a_form() {
    let mut desk = Desk::demonstration().unwrap();
    let cookie = desk.sign_in().unwrap();
    let window = Window::open(Screen::Desk).unwrap();
    window
        .visit(&desk, &Visit::page("/sheet/thread.acme"), &cookie)
        .unwrap();
    window.key(Key::Tab, 1).unwrap();
    window.key(Key::Enter, 1).unwrap();
    window.until("location.hash === '#main'").unwrap();
    window.write("input[name=diameter]", "1in").unwrap();
    // Nothing is chosen beforehand.
    window.choose("select[name=class]", "2G").unwrap();
    window.write("input[name=tpi]", "5").unwrap();
    window.go_by_key(Key::Enter).unwrap();
    let url = window.url().unwrap();
    assert!(
        url.contains("diameter=1in") && url.contains("tpi=5"),
        "{url}"
    );
    // A passphrase of one's own, sent from its field.
    window.visit(&desk, &Visit::page("/me"), &cookie).unwrap();
    window
        .write("input[name=passphrase]", "twelve characters or more")
        .unwrap();
    window.go_by_key(Key::Enter).unwrap();
    assert_eq!(window.url().unwrap(), desk.url("/"));
}
