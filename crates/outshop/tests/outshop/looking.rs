//! Looking ahead, the list of deadlines, the calendar file and the limit check, from the command line and the pages.
//!
//! The calendar is read back with the crate `ical` 0.11, which shares no code with the one that writes it, and its
//! lines are held against RFC 5545, 3.1 (CRLF, 75 octets), 3.3.4 (dates) and 3.8.4.7 (UID).

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use crate::pages::Served;
use crate::run::Folder;

fn demonstration(name: &str) -> Folder {
    let folder = Folder::new(name);
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    folder
}

fn head(folder: &Folder) -> Value {
    folder.json(&["check", "--book", "d.book"])["head"].clone()
}

fn run_on<'v>(look: &'v Value, day: &str) -> &'v Value {
    let mut runs = look["trains"].as_array().unwrap().iter();
    runs.find(|run| run["day"] == day).unwrap()
}

#[test]
fn a_supposed_day_is_told_and_nothing_is_entered() {
    let folder = demonstration("supposed");
    let before = head(&folder);
    let plain = folder.json(&["due", "27", "--ahead", "--book", "d.book"]);
    assert_eq!(run_on(&plain, "2026-05-30")["standing"], "falls");
    let clock = plain["clocks"]
        .as_array()
        .unwrap()
        .iter()
        .find(|c| c["inspection"] == "31")
        .unwrap();
    assert_eq!(clock["stops"]["from"], "2026-05-30");
    let last = clock["last_good_day"]["day"].as_str().unwrap().to_string();
    assert_eq!(last, "2026-05-29");

    // Held on the last good day the run is kept; with one more run promised the count goes on.
    let hold = format!("31={last}");
    let with = folder.json(&[
        "due",
        "27",
        "--hold",
        &hold,
        "--run",
        "2026-05-31=charter",
        "--book",
        "d.book",
    ]);
    assert_eq!(run_on(&with, "2026-05-30")["standing"], "clear");
    assert!(
        with["changes"]
            .as_array()
            .unwrap()
            .iter()
            .any(|c| c["before"] == "the 31 must be held first")
    );
    assert!(
        with["papers"]
            .as_array()
            .unwrap()
            .iter()
            .any(|p| p["what"] == "Form 1")
    );
    // On the day of the run itself the book cannot know which came first.
    let same = folder.json(&["due", "27", "--hold", "31=2026-05-30", "--book", "d.book"]);
    assert_eq!(run_on(&same, "2026-05-30")["standing"], "cannot tell");
    let text = folder.run(&["due", "27", "--hold", &hold, "--book", "d.book"]);
    assert_eq!(text.status.code(), Some(0));
    let text = String::from_utf8(text.stdout).unwrap();
    assert!(
        text.contains("What it changes") && text.contains("Advice only."),
        "{text}"
    );
    folder.run(&["due", "--dates", "--book", "d.book"]);
    folder.done(&["print", "calendar", "--out", "a.ics", "--book", "d.book"]);
    folder.run(&[
        "rule",
        "us-steam.crosshead.vertical",
        "--reading",
        "1/4in",
        "--book",
        "d.book",
    ]);
    assert_eq!(head(&folder), before);
}

/// What is wrong is said, with what was expected; the exit code is 2.
#[test]
fn what_cannot_be_asked_is_said() {
    let folder = demonstration("not-asked");
    let said = |words: &[&str], hints: &[&str]| {
        let output = folder.run(&[words, &["--book", "d.book"]].concat());
        let told = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{words:?}: {told}");
        for hint in hints {
            assert!(told.contains(hint), "{words:?}: {told}");
        }
    };
    said(&["due", "27", "--hold", "31"], &["31=2026-05-20"]);
    said(&["due", "27", "--hold", "31=May"], &["YYYY-MM-DD"]);
    said(
        &["due", "27", "--hold", "31=2026-05-01"],
        &["before 2026-05-03", "not supposed"],
    );
    said(
        &["due", "27", "--hold", "32=2026-05-20"],
        &["`32` is not due on her", "31, 92"],
    );
    said(
        &["due", "27", "--hold", "F-999=2026-05-20"],
        &["F-999 is not a finding of this engine"],
    );
    said(&["due", "99", "--ahead"], &["99"]);
    said(&["print", "calendar", "--out", "a.pdf"], &[".ics"]);
    said(
        &["rule", "us-steam.crosshead.vertical", "--reading", "1/4"],
        &["1/4"],
    );
    said(
        &["rule", "us-steam.crosshead.vertical", "--reading", "60 psi"],
        &["60 psi"],
    );
    said(
        &[
            "rule",
            "us-steam.crosshead.vertical",
            "--reading",
            "1/4in",
            "--uncertainty",
            "0in",
        ],
        &["not above zero"],
    );
    said(
        &[
            "rule",
            "us-steam.crosshead.vertical",
            "--reading",
            "1/4in",
            "--engine",
            "99",
        ],
        &["99"],
    );
    said(
        &["rule", "crosshead-vertikal", "--reading", "1/4in"],
        &["neither a rule nor"],
    );
    // As JSON, where no argument reader stands before the verb.
    let told = outshop::Request::from_json(r#"{"due":{"dates":true,"why":true}}"#).unwrap();
    assert!(matches!(told, outshop::Request::Due(_)));
}

/// 230.94 (2015): a quarter of an inch at the crosshead. Exit code 0 complies, 1 fails or cannot tell.
#[test]
fn a_limit_is_asked_without_a_part() {
    let folder = demonstration("limit");
    let code = |words: &[&str]| {
        folder
            .run(&[words, &["--book", "d.book"]].concat())
            .status
            .code()
    };
    let rule = "us-steam.crosshead.vertical";
    assert_eq!(code(&["rule", rule, "--reading", "1/4in"]), Some(0));
    assert_eq!(code(&["rule", rule, "--reading", "17/64in"]), Some(1));
    let near = folder.json(&[
        "rule",
        rule,
        "--reading",
        ".249in ± .002in",
        "--book",
        "d.book",
    ]);
    assert_eq!(near["verdict"], "complies");
    assert_eq!(near["limits"][0]["within_its_uncertainty"], true);
    let bare = folder.json(&["rule", rule, "--reading", ".249in", "--book", "d.book"]);
    assert!(bare["limits"][0]["within_its_uncertainty"].is_null() && bare["uncertainty"].is_null());
    let text = String::from_utf8(
        folder
            .run(&["rule", rule, "--reading", ".249in", "--book", "d.book"])
            .stdout,
    )
    .unwrap();
    assert!(text.contains("not stated, and none is assumed"), "{text}");
    // 230.96(g): which pin it is decides.
    let of = "side-rod-bore-over-pin";
    let open = folder.json(&[
        "rule",
        of,
        "--reading",
        "11/64in",
        "--engine",
        "27",
        "--book",
        "d.book",
    ]);
    assert_eq!(open["verdict"], "cannot tell");
    assert_eq!(open["needs"], serde_json::json!(["which pin it is"]));
    assert_eq!(
        code(&["rule", of, "--reading", "11/64in", "--so", "other-pin"]),
        Some(0)
    );
    assert_eq!(
        code(&["rule", of, "--reading", "11/64in", "--so", "main-pin"]),
        Some(1)
    );
    // 230.49(b): no safety valve over MAWP and 6 psi; No. 14 carries 180 psi in the book.
    let valve = "us-steam.safety-valve.any-set";
    assert_eq!(
        code(&["rule", valve, "--reading", "186psi", "--engine", "14"]),
        Some(0)
    );
    assert_eq!(
        code(&["rule", valve, "--reading", "187psi", "--engine", "14"]),
        Some(1)
    );
    assert_eq!(code(&["rule", valve, "--reading", "186psi"]), Some(1));
    // Without a book the law is still there.
    let nowhere = folder
        .command(&["rule", rule, "--reading", "1/4in"])
        .env_remove("OUTSHOP_BOOK")
        .output()
        .unwrap();
    assert_eq!(nowhere.status.code(), Some(0), "{nowhere:?}");
}

/// What a text value of RFC 5545 says: `\\`, `\;`, `\,` and `\n` undone.
fn plain(text: &str) -> String {
    let mut out = String::new();
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => match letters.next() {
                Some('n' | 'N') => out.push('\n'),
                Some(other) => out.push(other),
                None => {}
            },
            other => out.push(other),
        }
    }
    out
}

type Events = BTreeMap<String, BTreeMap<String, String>>;

fn events(bytes: &[u8]) -> Events {
    let mut calendars = ical::IcalParser::new(bytes);
    let calendar = calendars.next().unwrap().unwrap();
    assert!(calendars.next().is_none(), "one calendar in the file");
    let top: BTreeMap<String, String> = calendar
        .properties
        .iter()
        .map(|p| (p.name.clone(), p.value.clone().unwrap_or_default()))
        .collect();
    assert_eq!(top["VERSION"], "2.0");
    assert!(top.contains_key("PRODID"));
    let mut all = Events::new();
    for event in calendar.events {
        assert!(event.alarms.is_empty(), "it sets no alarm");
        let mut told = BTreeMap::new();
        for property in &event.properties {
            let value = property.value.clone().unwrap_or_default();
            if property.name == "DTSTART" {
                let params = property.params.clone().unwrap();
                assert_eq!(params, [("VALUE".to_string(), vec!["DATE".to_string()])]);
            }
            assert!(
                told.insert(property.name.clone(), value).is_none(),
                "{} twice",
                property.name
            );
        }
        let uid = told["UID"].clone();
        assert!(all.insert(uid, told).is_none(), "a UID stands twice");
    }
    all
}

#[test]
fn the_calendar_is_read_by_another_reader() {
    let folder = demonstration("calendar");
    let made = |name: &str, now: &str| {
        let words = ["print", "calendar", "--out", name, "--book", "d.book"];
        let output = folder
            .command(&words)
            .env("OUTSHOP_NOW", now)
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(0), "{output:?}");
        std::fs::read(folder.file(name)).unwrap()
    };
    let bytes = made("a.ics", "2026-05-16T18:00");
    // RFC 5545, 3.1: lines end in CRLF and hold at most 75 octets, and no line ends inside a letter.
    let text = String::from_utf8(bytes.clone()).unwrap();
    assert!(text.ends_with("\r\n"));
    for line in text.split_terminator("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.contains('\n') && !line.contains('\r'), "{line}");
    }
    let all = events(&bytes);
    let dates = folder.json(&["due", "--dates", "--on", "2026-05-16", "--book", "d.book"]);
    let dates = dates["dates"].as_array().unwrap();
    let with_day: Vec<&Value> = dates
        .iter()
        .filter(|d| !d["last_day"].is_null() || d["state"] == "cannot tell")
        .collect();
    assert_eq!(all.len(), with_day.len());
    for event in all.values() {
        assert_eq!(event["DTSTAMP"], "20260517T000000Z");
        let told = plain(&event["DESCRIPTION"]);
        assert!(
            told.contains("As of Sat 16 May 2026") && told.contains("The book governs"),
            "{told}"
        );
        assert!(told.contains("Advice only."), "{told}");
        assert!(plain(&event["SUMMARY"]).starts_with("No. "));
    }
    // Each deadline stands on its day, with its reason word for word and its section.
    for date in with_day {
        let why = outshop::words::sentence(date["why"].as_str().unwrap());
        let section = date["section"].as_str().unwrap_or("");
        let day = date["last_day"].as_str().unwrap().replace('-', "");
        let found = all.values().any(|event| {
            let told = plain(&event["DESCRIPTION"]);
            told.starts_with(&why) && told.contains(section) && event["DTSTART"] == day
        });
        assert!(found, "{date}");
    }
    // Made again later: the same names, another stamp. A file is not written over unasked.
    let again = events(&made("b.ics", "2026-05-16T19:30"));
    let names = |all: &Events| all.keys().cloned().collect::<BTreeSet<_>>();
    assert_eq!(names(&all), names(&again));
    assert!(
        again
            .values()
            .all(|event| event["DTSTAMP"] == "20260517T013000Z")
    );
    let words = ["print", "calendar", "--out", "a.ics", "--book", "d.book"];
    assert_eq!(folder.run(&words).status.code(), Some(2));
    // Some days later days have moved; what is due keeps its name.
    let words = [
        "print",
        "calendar",
        "--out",
        "c.ics",
        "--engine",
        "27",
        "--on",
        "2026-05-20",
        "--book",
        "d.book",
    ];
    folder.done(&words);
    let hers = events(&std::fs::read(folder.file("c.ics")).unwrap());
    assert!(hers.len() < all.len());
    let kept = hers.keys().filter(|uid| all.contains_key(*uid)).count();
    assert!(kept * 2 > hers.len(), "{kept} of {}", hers.len());
}

/// On the pages the same is asked in the address, stays filled in, and enters nothing.
#[test]
fn the_pages_ask_and_keep_what_was_typed() {
    let served = Served::signed_in("looking");
    let before = served.head();
    let page = served
        .get("/ahead/27?hold=31&day=2026-05-27&hold=&day=&rday=2026-06-06&run=charter+%26+more");
    assert_eq!(page.status, 200);
    assert!(
        page.body.contains("The 31 on Wed 27 May 2026"),
        "{}",
        page.body
    );
    assert!(page.body.contains("charter &amp; more"));
    assert!(page.body.contains("<option value=\"31\" selected>"));
    assert!(
        page.body.contains("value=\"2026-05-27\"") && page.body.contains("value=\"2026-06-06\"")
    );
    // What does not read is said, and stays in the form.
    let wrong = served.get("/ahead/27?hold=31&day=soon");
    assert_eq!(wrong.status, 200);
    assert!(wrong.body.contains("is not a day") && wrong.body.contains("value=\"soon\""));
    let past = served.get("/ahead/27?hold=31&day=2026-05-01");
    assert!(past.body.contains("not supposed"), "{}", past.body);

    let dates = served.get("/dates?engine=14");
    assert!(dates.body.contains("No. 14") && !dates.body.contains("/ahead/27"));
    assert!(dates.body.contains("/rule/us-steam.clock.annual"));
    let file = served.get("/print/calendar/14");
    assert!(
        file.head
            .contains("content-type: text/calendar; charset=utf-8"),
        "{}",
        file.head
    );
    assert!(file.body.starts_with("BEGIN:VCALENDAR"));

    let limit = served.get("/rule/us-steam.rod.side.bore-over-other-pin");
    assert!(
        limit.body.contains("<option value=\"other-pin\" selected>"),
        "{}",
        limit.body
    );
    let asked = served.get(
        "/rule/us-steam.rod.side.bore-over-other-pin?reading=11%2F64+in&so-0=main-pin&engine=27",
    );
    assert!(
        asked.body.contains("verdict fails") && asked.body.contains("value=\"11/64 in\""),
        "{}",
        asked.body
    );
    let open = served.get("/rule/us-steam.rod.side.bore-over-other-pin?reading=11%2F64+in&so-0=");
    assert!(open.body.contains("verdict unknown") && open.body.contains("needs which pin it is"));
    let wrong =
        served.get("/rule/us-steam.rod.side.bore-over-other-pin?reading=11%2F64&so-0=main-pin");
    assert!(
        wrong.body.contains("value=\"11/64\"") && wrong.body.contains("role=\"alert\""),
        "{}",
        wrong.body
    );
    assert_eq!(served.head(), before);
}
