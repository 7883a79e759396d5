//! The bench on a phone, over https by the shop's own authority: a keypad, a pocket, and a book that does not answer.
//!
//! What counts in each of these is one thing: the entries of the book equal what was tapped, no fewer and no more.

use std::collections::BTreeMap;

use browser::{Desk, Screen, Window, audit};
use serde_json::{Value, json};

use crate::shop::{self, ADA, ENGINE, NEW};

/// A shop with one engine, a crank pin measured all round, a bushing, and two people.
const SHOP: &[(&str, &str, &[&str])] = &[
    (ADA, "2026-05-01T09:00", NEW),
    (
        ADA,
        "2026-05-01T09:05",
        &["person", "add", "Ben Ostrow", "--may", "repair"],
    ),
    (ADA, "2026-05-01T09:10", ENGINE),
    (
        ADA,
        "2026-05-01T09:15",
        &[
            "part",
            "add",
            "14",
            "right main pin",
            "--family",
            "crank-pin",
        ],
    ),
    (
        ADA,
        "2026-05-01T09:20",
        &[
            "part",
            "add",
            "14",
            "right feed check",
            "--family",
            "check-valve",
        ],
    ),
    (
        ADA,
        "2026-05-01T09:25",
        &[
            "instrument",
            "add",
            "M-7",
            "--what",
            "outside micrometer",
            "--range",
            "6 to 7 in",
        ],
    ),
    (
        ADA,
        "2026-05-01T09:30",
        &[
            "reading",
            "take",
            "14",
            "right main pin",
            "--as-left",
            "pin@inner vertical=6.958in",
        ],
    ),
];

const PIN: &str = "/bench/14/right%20main%20pin/pin";
const LAND: &str = "/bench/14/right%20feed%20check/seat-land";

pub struct Phone {
    pub window: Window,
    pub desk: Desk,
}

impl Phone {
    /// A phone that was given the shop's authority, with Ada Quill signed in on it.
    fn new() -> Phone {
        Phone::of(SHOP)
    }

    /// The same in another shop.
    pub fn of(shop: &[(&str, &str, &[&str])]) -> Phone {
        let desk = Desk::by_https(shop).unwrap();
        let window = Window::trusting(Screen::Phone, &desk.authority().unwrap()).unwrap();
        let phone = Phone { window, desk };
        shop::comes_in(&phone.window, &phone.desk);
        phone
    }

    /// Opens a page of the bench and waits until its scripts are ready.
    fn opens(&self, path: &str) {
        self.window.go(&self.desk.url(path)).unwrap();
        self.sees("document.querySelector('section.pocket:not([hidden])') && document.querySelector('.stage')");
    }

    /// The same, with the worker at work and the page kept.
    fn keeps(&self, path: &str) {
        self.opens(path);
        self.sees("document.documentElement.dataset.worker === 'ready'");
    }

    /// Waits, for a bounded time, until something is so on the page.
    pub fn sees(&self, what: &str) {
        let seen = self.window.until(what);
        assert!(seen.is_ok(), "{seen:?}\n{}", self.window.text().unwrap());
    }

    pub fn says(&self, text: &str) {
        self.sees(&format!(
            "document.body.innerText.includes({})",
            json!(text)
        ));
    }

    fn state(&self, left: bool) {
        let value = if left { "yes" } else { "" };
        self.window
            .press(&format!("label:has(input[name=as_left][value='{value}'])"))
            .unwrap();
    }

    /// Taps a reading key by key: `6.934`, or `1&5/32` for one inch and five thirty-seconds.
    fn types(&self, reading: &str) {
        let (whole, under) = reading
            .split_once('/')
            .map_or((reading, None), |(a, b)| (a, Some(b)));
        for figure in whole.chars() {
            let key = if figure == '&' {
                "and".to_string()
            } else {
                figure.to_string()
            };
            self.window
                .press(&format!(".pad [data-key='{key}']"))
                .unwrap();
        }
        if let Some(under) = under {
            self.window
                .press(&format!(".pad [data-key='/{under}']"))
                .unwrap();
        }
    }

    /// Taps a reading and enters it; the last one that was open is kept with all the others.
    fn taps(&self, reading: &str) {
        self.types(reading);
        self.enters();
    }

    fn enters(&self) {
        self.window.press(".pad .go").unwrap();
    }

    /// What waits in the pocket.
    fn pocket(&self) -> Vec<Value> {
        let all = "const done = arguments[arguments.length - 1]; import('/asset/pocket.js').then((p) => p.waiting()).then(done);";
        self.window
            .ask_later(all, Vec::new())
            .unwrap()
            .as_array()
            .unwrap()
            .clone()
    }

    /// How many sets wait, once as many do as are meant to.
    pub fn waits(&self, count: usize) {
        self.sees(&format!(
            "document.querySelectorAll('.pocket .waits, .pocket .came-back').length === {count}"
        ));
        assert_eq!(self.pocket().len(), count);
    }

    /// Every set of readings of a part as the book tells it, oldest first.
    fn sets(&self, part: &str) -> Vec<Value> {
        let told = self.desk.json(&["part", "show", "14", part]).unwrap();
        let mut sets = told["readings"].as_array().unwrap().clone();
        sets.sort_by_key(|set| set["entry"].as_u64());
        sets
    }

    /// The same, by who entered it and what was written.
    fn book(&self, part: &str) -> Vec<(String, Vec<String>)> {
        let sets = self.sets(part);
        let sets = sets.iter();
        sets.map(|set| {
            let read = set["readings"].as_array().unwrap().iter();
            let read = read.map(|r| {
                format!(
                    "{} {}",
                    r["position"].as_str().unwrap(),
                    r["written"].as_str().unwrap()
                )
            });
            (set["by"].as_str().unwrap().to_string(), read.collect())
        })
        .collect()
    }

    pub fn checked(&self) {
        let checked = self.desk.json(&["check"]).unwrap();
        assert_eq!(
            checked["differences"].as_array().map(Vec::len),
            Some(0),
            "{checked}"
        );
    }
}

const TWELVE: [&str; 12] = [
    "6.931", "6.933", "6.935", "6.930", "6.934", "6.936", "6.937", "6.934", "6.932", "6.934",
    "6.935", "6.931",
];

#[test]
fn a_pins_twelve_readings_by_keypad() {
    let phone = Phone::new();
    phone.opens(PIN);
    let wrong = audit(&phone.window, &phone.desk.at, true).unwrap();
    assert!(wrong.is_empty(), "{wrong:#?}");
    // Keys are 15 mm, and the picture shows another place with each reading.
    let small = "return [...document.querySelectorAll('.pad button')].filter((b) => b.getBoundingClientRect().height < 56).length";
    assert_eq!(phone.window.ask(small, Vec::new()).unwrap(), json!(0));
    phone.state(false);
    phone.window.press("details.with > summary").unwrap();
    phone
        .window
        .choose("#with", "outside micrometer M-7")
        .unwrap();
    let mut pictures = BTreeMap::new();
    for (at, reading) in TWELVE.iter().enumerate() {
        phone.says(&format!("{} of 12", at + 1));
        let picture = phone
            .window
            .ask(
                "return document.querySelector('.stage svg').innerHTML",
                Vec::new(),
            )
            .unwrap();
        pictures.insert(picture.as_str().unwrap().to_string(), at);
        phone.types(reading);
        if at < 11 {
            phone.enters();
        }
    }
    assert_eq!(pictures.len(), 12);
    // The last one is written: the key says what it does now.
    phone.says("Keep these 12 readings");
    assert_eq!(
        phone.book("right main pin").len(),
        1,
        "nothing is sent before it is kept"
    );
    phone.enters();
    phone.says("In the book today from this phone: 12 readings.");
    phone.waits(0);
    let book = phone.book("right main pin");
    assert_eq!(book.len(), 2);
    let (by, read) = &book[1];
    assert_eq!(by, ADA);
    assert_eq!(read.len(), 12);
    assert_eq!(read[0], "inner vertical 6.931 in");
    let set = &phone.sets("right main pin")[1];
    assert_eq!(set["state"], "as-found");
    assert_eq!(set["readings"][11]["instrument"], "outside micrometer M-7");
    phone.checked();
}

#[test]
fn fractions_are_tapped_as_they_are_said_and_half_a_reading_is_not_written() {
    let phone = Phone::new();
    phone.opens(LAND);
    // Nothing is kept that does not say what it is.
    for reading in ["5/32", "1&5/64", "9/64"] {
        phone.taps(reading);
    }
    // 21/16 is no proper fraction, and "1 and" is not finished: both are asked about, and neither goes on.
    phone.taps("21/16");
    phone.says("21/16 is more than a whole inch");
    for _ in 0..3 {
        phone.window.press(".pad [data-key=back]").unwrap();
    }
    phone.taps("1&");
    phone.says("That is not finished");
    for _ in 0..2 {
        phone.window.press(".pad [data-key=back]").unwrap();
    }
    for key in ["1", "4", "1", "thou", "enter"] {
        phone
            .window
            .press(&format!(".pad [data-key='{key}']"))
            .unwrap();
    }
    phone.says("Keep these 4 readings");
    phone.enters();
    phone.says("First say whether these are as found or as left.");
    phone.state(true);
    phone.enters();
    phone.says("In the book today from this phone: 4 readings.");
    assert_eq!(
        phone.book("right feed check"),
        [(
            ADA.to_string(),
            vec![
                "front 5/32 in".into(),
                "right 1 5/64 in".into(),
                "back 9/64 in".into(),
                "left .141 in".into()
            ]
        )]
    );
}

/// Thirty readings where there is no signal, one of them against what was entered at the desk meanwhile.
#[test]
fn a_day_without_a_signal_comes_back_with_one_conflict_and_nothing_lost() {
    let mut phone = Phone::new();
    phone.keeps(PIN);
    phone.keeps(LAND);
    phone.desk.stops();
    // What was begun is there again after the page was lost.
    phone.opens(PIN);
    phone.says("As this phone had it at ");
    phone.state(false);
    phone.taps("6.931");
    phone.opens(PIN);
    phone.says("What was begun here before is still here.");
    for reading in &TWELVE[1..] {
        phone.taps(reading);
    }
    phone.says("not yet in the book: 12 readings");
    phone.says("Nothing is lost");
    phone.opens(LAND);
    for (left, readings) in [
        (false, ["5/32", "9/64", "5/32", "9/64"]),
        (true, ["11/64"; 4]),
        (true, ["11/64"; 4]),
    ] {
        phone.state(left);
        readings.iter().for_each(|reading| phone.taps(reading));
        phone.says("in this pocket. Nothing is lost.");
    }
    phone.opens(PIN);
    phone.state(true);
    // The inner end is not read again as left: four places are passed over, and the last two.
    (0..4).for_each(|_| phone.enters());
    ["6.930"; 6].iter().for_each(|reading| phone.taps(reading));
    (0..2).for_each(|_| phone.enters());
    phone.says("Keep these 6 readings");
    phone.enters();
    phone.says("not yet in the book: 30 readings");
    phone.waits(5);
    // Meanwhile at the desk: the pin is entered smaller than the phone has it, and no job put metal on.
    let less = [
        "reading",
        "take",
        "14",
        "right main pin",
        "pin@inner level=6.920in",
    ];
    phone.desk.does("Ben Ostrow", &less).unwrap();
    phone.desk.serves_again().unwrap();
    phone.opens(PIN);
    // The set that says metal has grown came back, in words; the rest are in the book, once, and one reload more
    // changes nothing.
    phone.says("metal has grown");
    phone.waits(1);
    phone.opens(PIN);
    phone.says("Came back:");
    phone.waits(1);
    assert_eq!(phone.book("right feed check").len(), 3);
    assert_eq!(phone.book("right main pin").len(), 3);
    // It is insisted on, with a reason.
    phone
        .window
        .write(".came-back input", "read again with M-7, three times")
        .unwrap();
    phone.window.press(".came-back .insist").unwrap();
    phone.waits(0);
    let pin = phone.book("right main pin");
    assert_eq!(pin.len(), 4);
    assert_eq!(pin[3].1.len(), 12);
    phone.checked();
}

/// The book has the readings and the tab dies before it hears so; then everything is sent twice more.
#[test]
fn a_tab_killed_in_the_middle_of_sending_and_a_queue_sent_twice_save_once() {
    let mut phone = Phone::new();
    phone.keeps(LAND);
    // From here on the book answers, and this tab never hears it.
    let deaf = "const real = window.fetch; window.fetch = (...asked) => real(...asked).then(() => new Promise(() => {}))";
    phone.window.ask(deaf, Vec::new()).unwrap();
    phone.state(false);
    ["5/32"; 4].iter().for_each(|reading| phone.taps(reading));
    phone.waits(1);
    // The book has it.
    let saved = (0..500).any(|_| !phone.book("right feed check").is_empty());
    assert!(saved, "the book never had it");
    assert_eq!(phone.book("right feed check").len(), 1);
    let queue = phone.pocket();
    assert_eq!(queue.len(), 1);
    phone.window.kill_tab().unwrap();
    phone.opens(LAND);
    phone.says("In the book today from this phone: 4 readings.");
    phone.waits(0);
    // The same once more, and once more, and changed under the same id.
    let again = "const [sets, done] = arguments;
        const send = (sets) => fetch('/bench/send', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ now: Date.now(), sets }) }).then((a) => a.json());
        const plain = ({ id, person, ticket, written, seen, take }) => ({ id, person, ticket, written, seen, take });
        const all = sets.map(plain);
        const other = all.map((set) => ({ ...set, take: { ...set.take, as_left: true } }));
        send(all).then((a) => send(all).then((b) => send(other).then((c) => done([a, b, c]))));";
    let answers = phone.window.ask_later(again, vec![json!(queue)]).unwrap();
    assert_eq!(answers[0]["sets"][0]["fate"], "already", "{answers}");
    assert_eq!(answers[1]["sets"][0]["fate"], "already", "{answers}");
    assert_eq!(answers[2]["sets"][0]["fate"], "refused", "{answers}");
    assert_eq!(phone.book("right feed check").len(), 1);
    phone.checked();
}

/// What Ada wrote without a signal is hers, though Ben has the phone when the signal comes back.
#[test]
fn the_person_changes_and_each_entry_is_of_whoever_tapped_it() {
    let mut phone = Phone::new();
    phone.window.go(&phone.desk.url("/me")).unwrap();
    let link = shop::link_for(&phone.window, "Ben Ostrow");
    phone.keeps(LAND);
    phone.desk.stops();
    phone.state(false);
    ["5/32"; 4].iter().for_each(|reading| phone.taps(reading));
    phone.waits(1);
    phone.says("readings by Ada Quill");
    phone.window.go("about:blank").unwrap();
    phone.desk.serves_again().unwrap();
    // Ada hands the phone over by signing out: the pages kept on it are gone, the pocket is not.
    phone.window.go(&phone.desk.url("/me")).unwrap();
    phone.window.go_by("form[action='/out'] button").unwrap();
    let kept = "const done = arguments[arguments.length - 1]; caches.has('bench-pages').then(done)";
    phone.sees("document.querySelector('#passphrase')");
    let forgotten =
        (0..1000).any(|_| phone.window.ask_later(kept, Vec::new()).unwrap() == json!(false));
    assert!(forgotten, "the pages are still kept");
    phone.window.go(&link).unwrap();
    phone.window.go_by("form.act button").unwrap();
    phone.opens(LAND);
    phone.says("In the book today from this phone: 4 readings.");
    assert!(phone.window.text().unwrap().contains("Ben Ostrow"));
    phone.state(true);
    ["11/64"; 4].iter().for_each(|reading| phone.taps(reading));
    phone.says("In the book today from this phone: 8 readings.");
    let people: Vec<_> = phone
        .book("right feed check")
        .into_iter()
        .map(|(by, _)| by)
        .collect();
    assert_eq!(people, [ADA, "Ben Ostrow"]);
    phone.checked();
}

/// A set that came back is opened again and put right under the id it has; another is taken out, with two taps.
#[test]
fn what_came_back_is_changed_or_taken_out() {
    let phone = Phone::new();
    phone.opens(PIN);
    // Larger than it was left, though no job put metal on: the book asks.
    let asked_about = || {
        phone.state(false);
        phone.taps("6.999");
        (0..11).for_each(|_| phone.enters());
        phone.says("Keep this reading");
        phone.enters();
        phone.says("The book asks about them");
        phone.says("metal has grown");
        phone.waits(1);
    };
    phone
        .window
        .press("form.at-bench > details:last-of-type > summary")
        .unwrap();
    for (name, words) in [("part_temperature", "70F"), ("measured_by", "Ben Ostrow")] {
        phone
            .window
            .write(&format!("input[name={name}]"), words)
            .unwrap();
    }
    asked_about();
    let id = phone.pocket()[0]["id"].clone();
    for name in ["part_temperature", "measured_by"] {
        phone
            .window
            .write(&format!("input[name={name}]"), "")
            .unwrap();
    }
    phone.window.press(".came-back a").unwrap();
    phone.sees("document.querySelector('.stage output').textContent === '6.999'");
    // It is not out of the pocket while it is being put right.
    phone.waits(1);
    (0..5).for_each(|_| phone.window.press(".pad [data-key=back]").unwrap());
    phone.taps("6.949");
    (0..11).for_each(|_| phone.enters());
    phone.says("Keep this reading");
    phone.enters();
    phone.says("In the book today from this phone: 1 reading.");
    phone.waits(0);
    let book = phone.book("right main pin");
    assert_eq!(book.len(), 2);
    assert_eq!(
        book[1],
        (ADA.to_string(), vec!["inner vertical 6.949 in".to_string()])
    );
    let set = &phone.sets("right main pin")[1];
    assert_eq!(set["readings"][0]["measured_by"], "Ben Ostrow", "{set}");
    let entry = phone
        .desk
        .json(&["entry", "show", &set["entry"].to_string()]);
    let entry = entry.unwrap().to_string();
    assert!(entry.contains("\"part_temperature\":\"70F\""), "{entry}");
    // Another one, under an id of its own, is taken out.
    asked_about();
    assert_ne!(phone.pocket()[0]["id"], id);
    phone.window.press(".came-back .give-up").unwrap();
    phone.says("Sure? It is then nowhere");
    phone.waits(1);
    // The list may have been drawn anew between the two taps, and then asks again.
    let sure = "const out = document.querySelector('.came-back .give-up'); if (!out.dataset.sure) out.click(); out.click();";
    phone.window.ask(sure, Vec::new()).unwrap();
    phone.waits(0);
    phone.opens(PIN);
    phone.says("Nothing waits in this pocket.");
    assert_eq!(phone.book("right main pin").len(), 2);
    phone.checked();
}

/// On an enrolled phone the next person gives a code, is back at the page of the bench, and enters under their own name.
#[test]
fn the_next_person_takes_over_by_code_on_the_page_of_the_bench() {
    const CODES: [(&str, &str); 2] = [(ADA, "730418"), ("Ben Ostrow", "264907")];
    let phone = Phone::new();
    let window = &phone.window;
    let goes = |path: &str| window.go(&phone.desk.url(path)).unwrap();
    goes("/people");
    window.write("#device", "bench phone").unwrap();
    window.go_by("form[action='/bench/enrol'] button").unwrap();
    goes("/me");
    let link = shop::link_for(window, "Ben Ostrow");
    for (name, code) in CODES {
        if name != ADA {
            window.go(&link).unwrap();
            window.go_by("main form button").unwrap();
        }
        goes("/me");
        let words = format!("{name} blue ring of contact");
        shop::sets_passphrase(window, &words);
        goes("/me");
        window
            .write("form[action='/bench/code'] #code", code)
            .unwrap();
        window.write("#code-passphrase", &words).unwrap();
        window.go_by("form[action='/bench/code'] button").unwrap();
    }
    for (name, code) in CODES {
        phone.opens(LAND);
        window.go_by(".who a[href='/switch']").unwrap();
        window
            .press(&format!("label:has(input[value='{name}'])"))
            .unwrap();
        window.write("#code", code).unwrap();
        window.go_by("main form button").unwrap();
        assert_eq!(window.url().unwrap(), phone.desk.url(LAND));
        phone.sees("document.querySelector('section.pocket:not([hidden])') && document.querySelector('.stage')");
        phone.state(false);
        ["5/32"; 4].iter().for_each(|reading| phone.taps(reading));
        phone.says("4 readings of the body seat, land along the cone are in the book.");
    }
    let book = phone.book("right feed check");
    let people: Vec<_> = book.iter().map(|(by, _)| by.as_str()).collect();
    assert_eq!(people, [ADA, "Ben Ostrow"]);
    phone.checked();
}

/// A phone whose clock is three days behind is told so, and the day of its readings is the book's.
#[test]
fn a_phones_clock_that_is_off_is_said_and_dates_nothing() {
    let phone = Phone::new();
    phone.opens(LAND);
    let slow = "const real = Date.now; Date.now = () => real() - 3 * 86400000";
    phone.window.ask(slow, Vec::new()).unwrap();
    phone.state(false);
    ["5/32"; 4].iter().for_each(|reading| phone.taps(reading));
    phone.says("The clock of this phone is 72 h 0 min behind the book's.");
    phone.waits(0);
    // What is entered at the desk now has the same day.
    let here = [
        "reading",
        "take",
        "14",
        "right feed check",
        "seat-land@front=5/32in",
    ];
    phone.desk.does("Ben Ostrow", &here).unwrap();
    let sets = phone.sets("right feed check");
    assert_eq!(sets.len(), 2);
    assert_eq!(sets[0]["by"], ADA);
    assert_eq!(sets[0]["on"], sets[1]["on"], "{sets:?}");
    phone.checked();
}

/// A phone that was not given the authority is shown no page: a missing certificate must show.
#[test]
fn without_the_shops_authority_no_page_comes() {
    let desk = Desk::by_https(SHOP).unwrap();
    let window = Window::open(Screen::Phone).unwrap();
    // Some drivers say so themselves, some show what the browser shows.
    let told = match window.go(&desk.url("/in")) {
        Ok(()) => window.text().unwrap(),
        Err(why) => why,
    };
    assert!(
        told.contains("ERR_CERT_AUTHORITY_INVALID") || told.contains("insecure certificate"),
        "{told}"
    );
}
