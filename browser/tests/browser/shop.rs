//! A shop of the tests' own, and what more than one of them does in it by hand.

use browser::{Desk, Window};

/// Its officer.
pub const ADA: &str = "Ada Quill";

/// Makes its book.
pub const NEW: &[&str] = &[
    "new",
    "--shop",
    "Juniper Fork Railroad Museum",
    "--zone",
    "America/Denver",
    "--officer",
    ADA,
];

/// Puts its engine in.
pub const ENGINE: &[&str] = &[
    "locomotive",
    "add",
    "14",
    "--wheels",
    "2-8-0",
    "--gauge",
    "56 1/2 in",
    "--rules",
    "us-steam",
    "--mawp",
    "180psig",
    "--axle-load",
    "36500",
];

/// The officer comes in by the one-time link.
pub fn comes_in(window: &Window, desk: &Desk) {
    window.go(&desk.url(&desk.link)).unwrap();
    window.go_by("main form button").unwrap();
}

/// Whoever is signed in sets a passphrase, on their own page.
pub fn sets_passphrase(window: &Window, words: &str) {
    let form = "form[action='/me']";
    window
        .write(&format!("{form} input[name=passphrase]"), words)
        .unwrap();
    window.go_by(&format!("{form} button")).unwrap();
    assert_eq!(alert(window), "");
}

/// What a page says is wrong; nothing if nothing is.
pub fn alert(window: &Window) -> String {
    let said =
        "const said = document.querySelector('[role=alert]'); return said ? said.innerText : ''";
    let said = window.ask(said, Vec::new()).unwrap();
    said.as_str().unwrap().to_string()
}

/// The officer asks on their own page for a link that lets somebody in, and is shown it; gives its address.
pub fn link_for(window: &Window, name: &str) -> String {
    window.choose("select[name=for]", name).unwrap();
    window.go_by("form[action='/me/link'] button").unwrap();
    let link = "return document.querySelector(\"main a[href^='/in/']\").href";
    let link = window.ask(link, Vec::new()).unwrap();
    link.as_str().unwrap().to_string()
}
