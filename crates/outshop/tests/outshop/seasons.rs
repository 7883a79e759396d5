//! Two seasons of an invented log, brought in from a table, at the command line and at the desk.
//!
//! What the program counts is held against a second count that knows nothing of it: every minute of every fire, on
//! the calendar of another library (chrono 0.4). The rule is 49 CFR 230.8 (2015 edition): a calendar day on which
//! the boiler is above atmospheric pressure with fire in the firebox.

use std::collections::BTreeSet;

use chrono::{Datelike, Days, Duration, NaiveDate, NaiveDateTime};
use serde_json::Value;

use crate::pages::Served;
use crate::run::Folder;

/// One line: its day, and minutes after that day's midnight.
#[derive(Debug, Clone)]
struct Line {
    engine: &'static str,
    day: NaiveDate,
    /// Lit, up, out, gone.
    times: [Option<i64>; 4],
    miles: Option<u32>,
    offered: Option<bool>,
    /// Where a time is missing: the days that are in doubt and those that are not, by hand.
    by_hand: Option<(&'static [i64], &'static [i64])>,
}

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// A fire of one day from morning to evening, a little other each day.
fn plain(engine: &'static str, day: NaiveDate) -> Line {
    let shift = i64::from(day.ordinal() % 5) * 10;
    Line {
        engine,
        day,
        times: [
            Some(330 + shift),
            Some(480 + shift),
            Some(1020 - shift),
            Some(1200 + shift),
        ],
        miles: Some(20 + day.day()),
        offered: Some(true),
        by_hand: None,
    }
}

/// Both seasons. No. 14 runs the Saturdays and Sundays of summer, No. 27 every other Wednesday.
fn log() -> Vec<Line> {
    let mut all = Vec::new();
    for year in [2024, 2025] {
        let mut at = NaiveDate::from_ymd_opt(year, 5, 3).unwrap();
        while at <= NaiveDate::from_ymd_opt(year, 10, 20).unwrap() {
            match at.weekday() {
                chrono::Weekday::Sat | chrono::Weekday::Sun => all.push(plain("14", at)),
                chrono::Weekday::Wed if at.iso_week().week().is_multiple_of(2) => {
                    all.push(plain("27", at))
                }
                _ => {}
            }
            at = at + Days::new(1);
        }
    }
    let special = |day: &str, times: [Option<i64>; 4], by_hand| Line {
        times,
        by_hand,
        ..plain("14", self::day(day))
    };
    // A test steam on leap day: never offered for use, and a service day all the same.
    all.push(Line {
        offered: Some(false),
        miles: Some(0),
        ..special(
            "2024-02-29",
            [Some(600), Some(780), Some(900), Some(1000)],
            None,
        )
    });
    // Past midnight into a new year, and in the night in which the clocks go back: two days each.
    all.push(special(
        "2024-12-31",
        [Some(900), Some(1100), Some(1440 + 70), Some(1440 + 200)],
        None,
    ));
    all.push(special(
        "2025-11-01",
        [Some(900), Some(1100), Some(1440 + 95), Some(1440 + 200)],
        None,
    ));
    // Banked over two nights: three days. Out at midnight exactly, and pressure left until noon: one day.
    all.push(special(
        "2025-10-24",
        [
            Some(900),
            Some(1100),
            Some(2 * 1440 + 600),
            Some(2 * 1440 + 900),
        ],
        None,
    ));
    all.push(special(
        "2025-11-08",
        [Some(500), Some(700), Some(1440), Some(1440 + 720)],
        None,
    ));
    // A time nobody wrote: pressure may have been up at any hour, or the fire out on either day.
    all.push(special(
        "2025-09-30",
        [Some(500), None, Some(1000), Some(1100)],
        Some((&[], &[0])),
    ));
    all.push(special(
        "2025-10-28",
        [Some(500), Some(700), None, Some(1440 + 300)],
        Some((&[0], &[0, 1])),
    ));
    // A missed entry: the mileage was kept, and no hour of the fire.
    all.push(special("2025-11-05", [None; 4], Some((&[], &[0]))));
    all
}

fn hour(minutes: i64) -> String {
    let (days, left) = (minutes.div_euclid(1440), minutes.rem_euclid(1440));
    let day = if days == 1 { " next day" } else { "" };
    format!("{:02}:{:02}{day}", left / 60, left % 60)
}

/// The table as a shop might keep it: days as day, month, year; the columns in an order of its own.
fn table(lines: &[Line]) -> String {
    let mut text = String::from(
        "Date,Engine,Miles,Fire lit,Pressure up,Fire out,Fire out day,Pressure gone,Pressure gone day,Offered for use,Crew\n",
    );
    for line in lines {
        let [lit, up, out, gone] = line.times;
        let at = |at: Option<i64>| at.map_or(String::new(), hour);
        // An end further on than the next day has a day of its own.
        let end = |ends: Option<i64>| match ends {
            Some(minutes) if minutes >= 2 * 1440 => {
                let on = line.day + Duration::days(minutes / 1440);
                (hour(minutes % 1440), on.format("%d/%m/%Y").to_string())
            }
            other => (at(other), String::new()),
        };
        let ((out, out_day), (gone, gone_day)) = (end(out), end(gone));
        let offered = match line.offered {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        };
        text.push_str(&format!(
            "{},{},{},{},{},{out},{out_day},{gone},{gone_day},{offered},\"Voss, Marsh\"\n",
            line.day.format("%d/%m/%Y"),
            line.engine,
            line.miles.map_or(String::new(), |miles| miles.to_string()),
            at(lit),
            at(up),
        ));
    }
    text
}

/// Looks at every minute of a fire of which all is known.
fn by_minutes(line: &Line) -> BTreeSet<NaiveDate> {
    let [lit, up, out, gone] = line.times.map(Option::unwrap);
    let midnight: NaiveDateTime = line.day.and_hms_opt(0, 0, 0).unwrap();
    let mut days = BTreeSet::new();
    for minute in lit.min(up)..out.max(gone) {
        let fire = (lit..out).contains(&minute);
        let pressure = (up..gone).contains(&minute);
        if fire && pressure {
            days.insert((midnight + Duration::minutes(minute)).date());
        }
    }
    days
}

/// The service days of an engine after a day: certain ones, and those that may have been.
fn second_count(lines: &[Line], engine: &str, after: &str) -> (usize, usize) {
    let (mut least, mut most) = (BTreeSet::new(), BTreeSet::new());
    for line in lines.iter().filter(|line| line.engine == engine) {
        match line.by_hand {
            None => least.extend(by_minutes(line)),
            Some((certain, doubt)) => {
                let of = |days: &[i64]| -> BTreeSet<NaiveDate> {
                    days.iter().map(|n| line.day + Duration::days(*n)).collect()
                };
                least.extend(of(certain));
                most.extend(of(doubt));
            }
        }
    }
    most.extend(least.iter().copied());
    let count = |days: &BTreeSet<NaiveDate>| days.iter().filter(|d| **d > day(after)).count();
    (count(&least), count(&most))
}

const NOW: &str = "2025-11-20T10:00";
/// The papers of both engines. The counts are through the last day before the log begins.
const PAPERS: &str = "locomotive held NUMBER annual 2025-02-10 --document form\n\
    locomotive held NUMBER fifth-annual 2022-02-07 --document form --annuals 3\n\
    locomotive held NUMBER 1472 2019-03-04 --document form --service-days 300 --through 2023-12-31\n\
    locomotive day NUMBER enters-service 1923-05-14 --document roster\n\
    locomotive day NUMBER air-brake-valves 2025-02-10 --document card --service-days 0 --through 2025-02-10 --annuals 0\n\
    locomotive day NUMBER frame-cleaning 2019-03-04 --document form --service-days 300 --through 2023-12-31\n\
    locomotive held NUMBER 31 2025-08-18 --document form";
/// Runs promised to No. 14 after the seasons, one a day.
const RUNS: [&str; 12] = [
    "2025-11-21",
    "2025-11-22",
    "2025-11-23",
    "2025-11-28",
    "2025-11-29",
    "2025-11-30",
    "2025-12-05",
    "2025-12-06",
    "2025-12-07",
    "2025-12-12",
    "2025-12-13",
    "2025-12-14",
];

fn run(folder: &Folder, words: &[&str]) -> (i32, String, String) {
    let output = folder
        .command(words)
        .env("OUTSHOP_NOW", NOW)
        .output()
        .unwrap();
    (
        output.status.code().unwrap(),
        String::from_utf8(output.stdout).unwrap(),
        String::from_utf8(output.stderr).unwrap(),
    )
}

fn done(folder: &Folder, words: &[&str]) -> String {
    let (code, text, said) = run(folder, words);
    assert_eq!(code, 0, "{words:?}: {text}{said}");
    text
}

fn json(folder: &Folder, words: &[&str]) -> Value {
    let mut all = words.to_vec();
    all.push("--json");
    let (_, text, said) = run(folder, &all);
    serde_json::from_str(&text).unwrap_or_else(|e| panic!("{words:?}: {e}: {text}{said}"))
}

/// A book with two engines, their papers and the promised runs, and the table beside it.
fn shop(name: &str) -> (Folder, Vec<Line>) {
    let folder = Folder::new(name);
    let lines = log();
    done(
        &folder,
        &[
            "new",
            "--shop",
            "Juniper Fork",
            "--zone",
            "America/Denver",
            "--officer",
            "Ada Quill",
        ],
    );
    for number in ["14", "27"] {
        let gauge = [
            "--wheels",
            "2-8-0",
            "--gauge",
            "56 1/2 in",
            "--rules",
            "us-steam",
        ];
        done(
            &folder,
            &[&["locomotive", "add", number], &gauge[..]].concat(),
        );
        for paper in PAPERS.replace("NUMBER", number).lines() {
            done(&folder, &paper.split_whitespace().collect::<Vec<_>>());
        }
    }
    for run in RUNS {
        done(&folder, &["steam", "promise", "14", run, "train"]);
    }
    std::fs::write(folder.file("seasons.csv"), table(&lines)).unwrap();
    (folder, lines)
}

fn close(folder: &Folder) {
    for number in ["14", "27"] {
        done(
            folder,
            &[
                "steam",
                "close",
                number,
                "--from",
                "2024-01-01",
                "--through",
                "2025-11-19",
            ],
        );
    }
}

fn clock<'v>(due: &'v Value, inspection: &str) -> &'v Value {
    let clocks = due["clocks"].as_array().unwrap();
    clocks
        .iter()
        .find(|c| c["inspection"] == inspection)
        .unwrap()
}

fn counted(clock: &Value) -> (usize, usize) {
    let number = |name: &str| usize::try_from(clock[name].as_u64().unwrap()).unwrap();
    (number("counted_min"), number("counted_max"))
}

/// Holds what `due` says against the second count, and the trains against what is left of the 31.
fn holds(folder: &Folder, lines: &[Line]) -> (usize, usize) {
    let mut of_14 = (0, 0);
    for number in ["14", "27"] {
        let due = json(folder, &["due", number]);
        let since_31 = second_count(lines, number, "2025-08-18");
        assert_eq!(
            counted(clock(&due, "31")),
            since_31,
            "the 31 of No. {number}"
        );
        let since_annual = second_count(lines, number, "2025-02-10");
        assert_eq!(
            counted(clock(&due, "92")),
            since_annual,
            "the 92 of No. {number}"
        );
        let (least, most) = second_count(lines, number, "2023-12-31");
        assert_eq!(
            counted(clock(&due, "1472")),
            (300 + least, 300 + most),
            "the 1472 of No. {number}"
        );
        if number == "14" {
            of_14 = since_31;
        }
    }
    // 230.14(a) (2015 edition): 31 service days; the 32nd is not begun, by the most that may have been.
    let left = 31 - of_14.1;
    let due = json(folder, &["due", "14"]);
    for (at, train) in due["trains"].as_array().unwrap().iter().enumerate() {
        let stopped = train["stopped_by"].as_array().unwrap();
        assert_eq!(train["day"], RUNS[at]);
        if at < left {
            assert!(stopped.is_empty(), "{train}");
        } else {
            let why = "the 31 must be held first";
            assert!(stopped.iter().any(|s| s == why), "{train}");
        }
    }
    of_14
}

#[test]
fn two_seasons_come_in_from_a_table_and_stop_the_right_trains() {
    let (folder, mut lines) = shop("seasons");
    let head = || json(&folder, &["check"])["head"]["hash"].clone();
    let before = head();
    // Without the order of its days nothing in it is guessed, and every line says so.
    let (code, ..) = run(&folder, &["steam", "import", "seasons.csv"]);
    assert_eq!(code, 2);
    let guessed = json(&folder, &["steam", "import", "seasons.csv"]);
    for line in guessed["lines"].as_array().unwrap() {
        let why = line["why"].as_str().unwrap();
        assert!(why.contains("day or the month stands first"), "{why}");
    }
    let import = ["steam", "import", "seasons.csv", "--dates", "day-month"];
    let shown = json(&folder, &import);
    assert_eq!(shown["taken"], lines.len());
    assert_eq!(shown["columns_not_read"], serde_json::json!(["Crew"]));
    assert_eq!(head(), before, "showing changes nothing");
    // Each line shows the days it would make.
    for (line, told) in lines.iter().zip(shown["lines"].as_array().unwrap()) {
        let days: BTreeSet<NaiveDate> = told["least"]
            .as_array()
            .unwrap()
            .iter()
            .map(|d| day(d.as_str().unwrap()))
            .collect();
        if line.by_hand.is_none() {
            assert_eq!(days, by_minutes(line), "{line:?}");
        }
    }
    let written = json(&folder, &[&import[..], &["--write"]].concat());
    assert_eq!(written["taken"], lines.len());
    let batch = written["batch"].as_str().unwrap().to_string();
    close(&folder);
    let (least, most) = holds(&folder, &lines);
    assert!(
        least < most && most < 31,
        "{least} to {most}: the test means something"
    );
    // Why: the days that are in doubt are named.
    let (_, why, _) = run(&folder, &["due", "14", "--why"]);
    assert!(
        why.contains("whether 2025-11-05 was a service day"),
        "{why}"
    );
    assert!(
        why.contains("the time pressure was up in the fire of 2025-09-30"),
        "{why}"
    );
    // The same file again adds nothing.
    let after = head();
    let again = json(&folder, &[&import[..], &["--write"]].concat());
    assert_eq!(
        (again["taken"].as_u64(), again["again"].as_u64()),
        (Some(0), Some(lines.len() as u64))
    );
    assert_eq!(head(), after);

    // The missed entry is cleared up: she did not steam that day. The entry is put right, not changed.
    let log = json(&folder, &["steam", "show", "14"]);
    let fires = log["fires"].as_array().unwrap();
    let missed = fires
        .iter()
        .find(|f| f["day"]["day"] == "2025-11-05")
        .unwrap();
    let entry = missed["entry"].to_string();
    let because = ["--because", "moved by the diesel", "stood=no-service-day"];
    done(
        &folder,
        &[&["entry", "correct", &entry], &because[..]].concat(),
    );
    let at = lines
        .iter()
        .position(|l| l.by_hand.is_some() && l.times == [None; 4])
        .unwrap();
    lines[at].by_hand = Some((&[], &[]));
    assert_eq!(holds(&folder, &lines), (least, most - 1));

    // A fire forgotten in September comes in late, into days the log was closed for.
    let late = plain("14", day("2025-09-03"));
    let fire = [
        "--lit",
        "2025-09-03T06:00",
        "--up",
        "2025-09-03T09:00",
        "--out",
        "2025-09-03T16:00",
        "--gone",
        "2025-09-03T20:00",
    ];
    done(&folder, &[&["steam", "log", "14"], &fire[..]].concat());
    lines.push(late);
    assert_eq!(holds(&folder, &lines), (least + 1, most));

    // The paper log of October counts two days more than there are lines for: it is told, and counted against us.
    let october = |lines: &[Line]| {
        let since = second_count(lines, "14", "2025-09-30");
        let later = second_count(lines, "14", "2025-10-31");
        (since.0 - later.0, since.1 - later.1)
    };
    let (proved, may) = october(&lines);
    let says = (may + 2).to_string();
    let span = [
        "--from",
        "2025-10-01",
        "--through",
        "2025-10-31",
        "--document",
        "cab notebook",
    ];
    let told = done(
        &folder,
        &[&["steam", "counted", "14", &says], &span[..]].concat(),
    );
    assert!(told.contains("2 more may have been"), "{told}");
    let due = json(&folder, &["due", "14"]);
    assert_eq!(due["notices"].as_array().unwrap().len(), 1);
    assert_eq!(counted(clock(&due, "31")), (least + 1, most + 2));
    // Put right: the notebook's sum was of thirty-two days. Now the two can both be true.
    let log = json(&folder, &["steam", "show", "14"]);
    let entry = log["papers"][0]["entry"].to_string();
    let right = format!("service_days={proved}");
    done(
        &folder,
        &[
            "entry",
            "correct",
            &entry,
            "--because",
            "added up wrong",
            &right,
        ],
    );
    let due = json(&folder, &["due", "14"]);
    assert_eq!(counted(clock(&due, "31")), (least + 1, most));
    let notice = due["notices"][0].as_str().unwrap();
    assert!(
        notice.starts_with("cannot tell whether the log agrees"),
        "{notice}"
    );

    // Taken back whole, it is as if it had never come, and it may come again.
    let (code, _, said) = run(&folder, &["entry", "withdraw", "0000", "--because", "x"]);
    assert_eq!(
        (code, said.contains("no batch `0000`")),
        (2, true),
        "{said}"
    );
    // The entry put right above stands in the batch's place and goes with it only if it was of the batch: it
    // builds on a line of it, so it must be named first.
    let (code, _, said) = run(
        &folder,
        &["entry", "withdraw", &batch, "--because", "wrong book"],
    );
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("a later entry builds on it"), "{said}");
}

#[test]
fn a_file_taken_back_is_as_if_it_had_never_come() {
    let (folder, lines) = shop("taken-back");
    let import = [
        "steam",
        "import",
        "seasons.csv",
        "--dates",
        "day-month",
        "--write",
    ];
    let written = json(&folder, &import);
    close(&folder);
    holds(&folder, &lines);
    let batch = written["batch"].as_str().unwrap();
    let short = batch.get(..6).unwrap();
    // Not by everybody: who brought it in, or somebody who may approve.
    done(&folder, &["person", "add", "Eli Voss", "--may", "inspect"]);
    let by_eli = [
        "entry",
        "withdraw",
        short,
        "--because",
        "x",
        "--by",
        "Eli Voss",
    ];
    let (code, _, said) = run(&folder, &by_eli);
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("was brought in by Ada Quill"), "{said}");
    done(
        &folder,
        &[
            "entry",
            "withdraw",
            short,
            "--because",
            "the wrong railway's log",
        ],
    );
    holds(&folder, &[]);
    assert_eq!(json(&folder, &["entry", "batches"])[0]["withdrawn"], true);
    // It comes in again as a new batch.
    let again = json(&folder, &import);
    assert_eq!(again["taken"], lines.len());
    holds(&folder, &lines);
}

/// The fields of a page's form that saves what was shown.
pub fn hidden(body: &str, name: &str) -> String {
    let from = format!("name=\"{name}\" value=\"");
    let at = body
        .find(&from)
        .unwrap_or_else(|| panic!("no field {name}"));
    let rest = &body[at + from.len()..];
    rest[..rest.find('"').unwrap()].to_string()
}

fn served(folder: Folder) -> Served {
    Served::of_book(folder, NOW)
}

#[test]
fn the_desk_takes_the_same_table_and_says_the_same() {
    let (typed, lines) = shop("seasons-typed");
    let import = [
        "steam",
        "import",
        "seasons.csv",
        "--dates",
        "day-month",
        "--write",
    ];
    done(&typed, &import);
    close(&typed);
    let (sent, _) = shop("seasons-sent");
    let bytes = std::fs::read(sent.file("seasons.csv")).unwrap();
    let desk = served(sent);
    let head = |desk: &Served| json(&desk.folder, &["check"])["head"]["hash"].clone();
    let before = head(&desk);
    let file = Some(("seasons.csv", &bytes[..]));
    let shown = desk.upload(
        "/log/import",
        &[("dates", "day-month"), ("engine", "")],
        file,
    );
    assert_eq!(shown.status, 200, "{}", shown.body);
    assert!(shown.body.contains(&format!("{} lines taken", lines.len())));
    assert!(shown.body.contains("Wed 1 Jan 2025"), "the days are shown");
    assert_eq!(head(&desk), before, "showing changes nothing");
    let save = format!(
        "token={}&mark={}",
        hidden(&shown.body, "token"),
        hidden(&shown.body, "mark")
    );
    let saved = desk.post("/log/import/save", &save);
    assert_eq!(saved.status, 303, "{}", saved.body);
    let to = saved
        .head
        .lines()
        .find_map(|l| l.strip_prefix("location: "))
        .unwrap();
    let page = desk.get(to);
    assert!(
        page.body
            .contains(&format!("{} lines saved as batch", lines.len())),
        "{}",
        page.body
    );
    // Sent twice, it is saved once: the second time nothing is as it was shown.
    let after = head(&desk);
    let twice = desk.post("/log/import/save", &save);
    assert_eq!(twice.status, 409);
    assert!(
        twice
            .body
            .contains("The book has changed since this was shown")
    );
    assert_eq!(head(&desk), after);
    close(&desk.folder);
    let (least, most) = holds(&desk.folder, &lines);
    // Both books say the same of every clock and every train.
    for number in ["14", "27"] {
        assert_eq!(
            json(&typed, &["due", number]),
            json(&desk.folder, &["due", number]),
            "No. {number}"
        );
    }
    // And her page says it in words.
    let page = desk.get("/engine/14").body;
    let count = format!("{least} to {most} service days since the 31 of 2025-08-18");
    assert!(page.contains(&count), "{page}");
    let stopped = page
        .matches("<span class=\"need\">the 31 must be held first</span>")
        .count();
    assert_eq!(stopped, RUNS.len() - (31 - most));
    let log = desk.get("/engine/14/log").body;
    assert!(
        log.contains("cannot tell, no hours written (seasons.csv, line"),
        "{log}"
    );

    // From the page: days without times, and a paper that does not agree.
    let days = "verb=steam+days&back=/engine/14/log&engine=14&days=2025-11-12%0A2025-11-13&told=wall+calendar";
    assert_eq!(desk.post("/do", days).status, 303);
    let counted = "verb=steam+counted&back=/engine/14/log&engine=14&service_days=1&from=2025-11-12&through=2025-11-13&document=notebook";
    assert_eq!(desk.post("/do", counted).status, 303);
    let notice = "A paper counts 1 service days from 2025-11-12 through 2025-11-13";
    for path in ["/engine/14/log", "/engine/14"] {
        let page = desk.get(path).body;
        assert!(page.contains(notice), "{path}: {page}");
    }
    let wrong = "verb=steam+days&back=/engine/14/log&engine=14&days=soon&told=wall+calendar";
    let page = desk.post("/do", wrong);
    assert_eq!(page.status, 422);
    assert!(
        page.body.contains("<code>soon</code> is not a day")
            && page.body.contains(">soon</textarea>")
    );
}

#[test]
fn a_file_that_cannot_be_taken_at_the_desk_comes_back_with_a_sentence() {
    let (folder, _) = shop("refused-files");
    let desk = served(folder);
    let before = json(&desk.folder, &["check"])["head"]["hash"].clone();
    let sent = |file: Option<(&str, &[u8])>| desk.upload("/log/import", &[("engine", "27")], file);
    for (file, status, says) in [
        (None, 422, "No file was sent"),
        (Some(("", &b""[..])), 422, "No file was sent"),
        (Some(("log.csv", b"")), 422, "log.csv is empty"),
        (
            Some(("C:\\logs\\log.pdf", b"%PDF-1.7")),
            422,
            "log.pdf is a PDF",
        ),
        (
            Some(("log.xls", b"\xD0\xCF\x11\xE0\xA1\xB1")),
            422,
            "old binary kind",
        ),
        (
            Some(("<b>.csv", b"date,lit\n")),
            422,
            "&lt;b&gt;.csv has a heading and no line",
        ),
    ] {
        let page = sent(file);
        assert_eq!(page.status, status, "{says}: {}", page.body);
        assert!(page.body.contains(says), "{says}: {}", page.body);
        if file.is_some_and(|(name, _)| !name.is_empty()) {
            assert!(page.body.contains("value=\"27\""), "what was typed is kept");
        }
    }
    let huge = vec![b'x'; 5 << 20];
    let page = sent(Some(("huge.csv", &huge)));
    assert_eq!(page.status, 413);
    assert!(page.body.contains("larger than 4 MB"), "{}", page.body);
    // A line that is refused holds back the rest, until it is said to leave it out.
    let mixed = b"date,lit,up,out,gone\n2025-05-03,6:00,8:00,16:00,20:00\n2025-05-04,9:00,8:00,16:00,20:00\n";
    let page = sent(Some(("mixed.csv", mixed)));
    assert_eq!(page.status, 200);
    let save = format!(
        "token={}&mark={}",
        hidden(&page.body, "token"),
        hidden(&page.body, "mark")
    );
    let held = desk.post("/log/import/save", &save);
    assert_eq!(held.status, 422);
    assert!(held.body.contains("all are held back"), "{}", held.body);
    // What was shown to one is not for another to save, nor a token nobody was given.
    let forged = desk.post("/log/import/save", "token=0&mark=0");
    assert_eq!(forged.status, 409);
    assert!(
        forged.body.contains("not at hand any more"),
        "{}",
        forged.body
    );
    assert_eq!(json(&desk.folder, &["check"])["head"]["hash"], before);
    let taken = desk.post("/log/import/save", &format!("{save}&leave_out=yes"));
    assert_eq!(taken.status, 303, "{}", taken.body);
    let log = json(&desk.folder, &["steam", "show", "27"]);
    assert_eq!(log["fires"].as_array().unwrap().len(), 1);
}
