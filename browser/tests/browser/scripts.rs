//! The pages say the same with scripts and without; but for those of the bench, which become a keypad.

use browser::{Desk, Screen, Window, visits};

#[test]
fn every_page_says_the_same_with_scripts_and_without() {
    let mut desk = Desk::demonstration().unwrap();
    let cookie = desk.sign_in().unwrap();
    // The pages of rules are hundreds and alike: some of them stand for all.
    let (rules, mut all): (Vec<_>, Vec<_>) = visits(&desk)
        .unwrap()
        .into_iter()
        .filter(|visit| !visit.path.starts_with("/bench/"))
        .partition(|visit| visit.path.starts_with("/rule/"));
    all.extend(rules.into_iter().step_by(16));
    let window = Window::open(Screen::Phone).unwrap();
    let read = |scripts| -> Vec<String> {
        window.scripts(scripts).unwrap();
        all.iter()
            .map(|visit| {
                window.visit(&desk, visit, &cookie).unwrap();
                window.text().unwrap()
            })
            .collect()
    };
    let (with, without) = (read(true), read(false));
    for ((visit, with), without) in all.iter().zip(&with).zip(&without) {
        assert!(!with.trim().is_empty(), "{} is empty", visit.path);
        assert_eq!(with, without, "{}", visit.path);
    }
}
