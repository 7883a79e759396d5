//! Every page, on a phone and at a desk: nothing wrong with it that can be measured.

use browser::{Desk, Screen, Window, audit, visits};

/// Looks at every page on a screen and says what is wrong, page by page.
fn looked_at(screen: Screen) {
    let mut desk = Desk::demonstration().unwrap();
    let cookie = desk.sign_in().unwrap();
    let all = visits(&desk).unwrap();
    assert!(all.len() > 60, "only {} pages were found", all.len());
    let window = Window::open(screen).unwrap();
    let mut wrong = Vec::new();
    let turn = usize::from(screen == Screen::Desk);
    for (at, visit) in all.iter().enumerate() {
        // The pages of rules are hundreds and alike, and those of the bench are one a feature: each is looked at on one
        // of the two screens, turn by turn, and the engine, which takes its time, is asked of some. `cargo xtask
        // pictures` looks at all of them on both.
        let of_many = visit.path.starts_with("/rule/") || visit.path.starts_with("/bench/");
        if of_many && at % 2 != turn {
            continue;
        }
        window.visit(&desk, visit, &cookie).unwrap();
        let engine = !of_many || at % 8 == turn;
        for note in audit(&window, &desk.at, engine).unwrap() {
            if !visit.is_expected(&note) {
                wrong.push(format!("{}: {note}", visit.path));
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "{} things:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    // A leak shows in what is the program's own. Its file is large, and how much of it stands mapped hangs on the machine.
    if let Some((own, all)) = desk.memory_kb() {
        assert!(
            own < 60_000,
            "the program holds {own} kB of its own, {all} kB with its file, after its pages were looked at"
        );
    }
}

#[test]
fn nothing_is_wrong_with_any_page_on_a_phone() {
    looked_at(Screen::Phone);
}

#[test]
fn nothing_is_wrong_with_any_page_at_a_desk() {
    looked_at(Screen::Desk);
}

/// A page on which everything is wrong: the measures must find it, or they measure nothing.
const BAD: &str = "data:text/html,<!doctype html><html lang=en><title>x</title><body style='margin:0'><main><h1>Bad</h1>\
    <div style='width:3000px'>wide</div>\
    <p style='font-size:9px'>small print</p><p>as `typed`</p>\
    <div style='position:absolute;top:300px;left:20px'>one over</div><div style='position:absolute;top:302px;left:24px'>the other</div>\
    <form><button style='height:12px;width:12px;padding:0;min-height:0'>b</button></form>\
    <svg width='60' height='30' viewBox='0 0 60 30'><text x='20' y='20' font-size='16'>too long for it</text></svg>\
    <p style='color:%23ddd;background:%23eee'>pale words</p><input></main></body></html>";

#[test]
fn a_page_with_everything_wrong_is_found_out() {
    let window = Window::open(Screen::Phone).unwrap();
    window.go(BAD).unwrap();
    let wrong = audit(&window, "127.0.0.1:1", true).unwrap().join("\n");
    for sentence in [
        "scrolls sideways to 3000 px",
        "text of 9.0 px",
        "text stands over text",
        "a target of 12 by 12 px, 44 wanted",
        "text is cut off",
        "a raw backtick in ",
        "axe color-contrast",
        "axe label",
    ] {
        assert!(
            wrong.contains(sentence),
            "not found out: {sentence}; found:\n{wrong}"
        );
    }
}
