//! A newcomer with a worn thread: from its readings to the printed card for the lathe, on a phone, at the demonstration's
//! desk, through links and forms alone. No figure is typed twice.

use browser::{Desk, Paper, Screen, Window};

use crate::shop;

/// Follows the first link on the page whose words hold these.
fn follow(window: &Window, words: &str) {
    let script = "const all = [...document.querySelectorAll('main a')]; \
        const at = all.findIndex((a) => a.textContent.includes(arguments[0])); \
        if (at >= 0) all[at].id = 'the-way-on'; return at";
    let at = window.ask(script, vec![words.into()]).unwrap();
    assert!(
        at.as_i64().unwrap() >= 0,
        "no link says {words}: {}",
        window.text().unwrap()
    );
    window.go_by("#the-way-on").unwrap();
}

fn write(window: &Window, name: &str, text: &str) {
    window
        .write(&format!("form.act input[name='{name}']"), text)
        .unwrap();
}

fn choose(window: &Window, name: &str, value: &str) {
    window
        .choose(&format!("form.act select[name='{name}']"), value)
        .unwrap();
}

fn field(window: &Window, name: &str) -> String {
    let script = "return document.querySelector(`form.act [name='${arguments[0]}']`).value";
    let value = window.ask(script, vec![name.into()]).unwrap();
    value.as_str().unwrap().to_owned()
}

fn work(window: &Window) {
    window.go_by("form.act button").unwrap();
}

#[test]
fn a_newcomer_goes_from_a_worn_thread_to_the_printed_card() {
    let desk = Desk::demonstration().unwrap();
    let window = Window::open(Screen::Phone).unwrap();
    shop::comes_in(&window, &desk);
    window.go_by("a[href='/sheets']").unwrap();
    follow(&window, "Begin with the readings");
    choose(&window, "side", "external");
    for (name, text) in [
        ("major", ".740in"),
        ("tpi", "12"),
        ("pitch_diameter", ".6935in"),
        ("flank_angle", "30deg"),
    ] {
        write(&window, name, text);
    }
    choose(&window, "hand", "right");
    work(&window);
    follow(&window, "Make its mate, taken as 3/4 in");
    // What was read stands here with where it came from, and what is wanting is asked for.
    assert_eq!(field(&window, "pitch_diameter"), ".6935in");
    assert_eq!(field(&window, "form"), "unified");
    let text = window.text().unwrap();
    assert!(
        text.contains("handed on: line 1 of the list of thread.identify"),
        "{text}"
    );
    assert!(
        text.contains("Still to be said here, and by a person"),
        "{text}"
    );
    write(&window, "clearance", ".006in");
    write(&window, "materials", "bronze,steel");
    work(&window);
    follow(&window, "Cut the new one");
    assert_eq!(field(&window, "side"), "internal");
    assert_eq!(field(&window, "diameter"), "0.7460 in");
    assert_eq!(field(&window, "material"), "bronze");
    choose(&window, "lathe", "LA-001");
    work(&window);
    let text = window.text().unwrap();
    for says in [
        "Settings for LA-001",
        "exact",
        "handed on: major_limit of thread.mate",
    ] {
        assert!(text.contains(says), "{says}: {text}");
    }
    let link = "const all = [...document.querySelectorAll('main a')]; \
        return all.find((a) => a.textContent === 'Print the lathe card').getAttribute('href')";
    let link = window.ask(link, Vec::new()).unwrap();
    let session = window.session(&desk.url("/")).unwrap();
    let pdf = desk.paper(link.as_str().unwrap(), &session).unwrap();
    let text: String = Paper::read(&pdf).unwrap().sheets.concat();
    for says in [
        "Cutting a thread with a single point",
        "Settings for LA-001",
        "handed on: major_limit of thread.mate",
        "A list proves nothing",
        "Order of work",
        "Stop and measure.",
        "One zero: touch the work",
    ] {
        let says: String = says.split_whitespace().collect();
        assert!(text.contains(&says), "the card does not say {says}: {text}");
    }
}
