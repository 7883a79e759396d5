//! The demonstration is the same twice, keeps its own today, and never takes another's place.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, ChildStdout, Command, Stdio};

use crate::run::Folder;

#[test]
fn two_runs_give_one_head_hash_and_a_clean_book() {
    let folder = Folder::new("demo");
    let mut heads = Vec::new();
    for book in ["one.book", "two.book"] {
        folder.done(&["demo", "--no-serve", "--book", book]);
        let checked = folder.json(&["check", "--book", book]);
        assert_eq!(checked["differences"], serde_json::json!([]));
        heads.push(checked["head"]["hash"].clone());
    }
    assert_eq!(heads[0], heads[1]);
    // Made again over itself: still the same.
    folder.done(&["demo", "--no-serve", "--book", "one.book"]);
    assert_eq!(
        folder.json(&["check", "--book", "one.book"])["head"]["hash"],
        heads[1]
    );
}

#[test]
fn it_tells_what_stops_which_engine_and_the_feed_check_to_its_close() {
    let folder = Folder::new("told");
    let made = folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    assert!(made.contains("Everything in it is invented"), "{made}");
    let mut told = String::new();
    for words in [
        &["due"][..],
        &["finding", "show", "F-001"],
        &["job", "show", "J-001"],
        &["part", "show", "14", "right feed check"],
    ] {
        let mut command = folder.command(&[words, &["--book", "d.book"]].concat());
        let output = command.env_remove("OUTSHOP_NOW").output().unwrap();
        // 1 is an answer too: something stops No. 14.
        let answered = matches!(output.status.code(), Some(0 | 1));
        assert!(answered, "{words:?}: {output:?}");
        told.push_str(&String::from_utf8(output.stdout).unwrap());
    }
    for said in [
        "STOPS HER   annual",
        "Nothing in this book stops No. 27 on Sat 16 May 2026 (released by Ada Quill",
        "Sat 30 May 2026  Saturday train: the 31 must be held first",
        "F-001: No. 14, right feed check (closed)",
        "Closed Sat 4 Apr 2026 by Ada Quill; as left it complies.",
        "metal left: .1490 in",
        // The switcher's 92 days are 139, for 47 out of use: 49 CFR 229.33.
        "lengthened by 47 days out of use (229.33); 13 left, her last day is 2026-05-29",
    ] {
        // However the lines are broken.
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let stands = plain(&told).contains(&plain(said));
        assert!(stands, "missing: {said}\n{told}");
    }
}

/// No. 27's annual of September 2025 stands closed, so what was found at it and the hours it took are learned from.
#[test]
fn before_an_opening_it_has_a_past_one_to_learn_from() {
    let folder = Folder::new("past");
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    let ask = |words: &[&str]| {
        let mut command = folder.command(&[words, &["--json", "--book", "d.book"]].concat());
        let output = command.env_remove("OUTSHOP_NOW").output().unwrap();
        serde_json::from_slice::<serde_json::Value>(&output.stdout).unwrap()
    };
    let told = ask(&["inspect", "before", "27", "annual"]);
    assert_eq!((&told["openings"], &told["found"]), (&1.into(), &2.into()));
    let of = |part: &str| {
        let mut likely = told["likely"].as_array().unwrap().iter();
        likely.find(|it| it["part"] == part).unwrap().clone()
    };
    // Hours booked: 3 1/4 and 3; 1 1/2, 2 3/4 and 3/4.
    assert_eq!(of("left main reservoir")["hours"], "6 1/4 h");
    assert_eq!(of("right back washout plug")["hours"], "5 h");
    // A part with a lead time of its own is ordered by that; the others by what is told for them, or learned from letters.
    let by = |told: &serde_json::Value, part: &str| {
        let mut likely = told["likely"].as_array().unwrap().iter();
        let it = likely.find(|it| it["part"] == part).unwrap();
        (it["order_by"].clone(), it["lead_days"].clone())
    };
    // Her last day is 23 September 2026: 84 days, 14 days and 60 days before it, by any calendar.
    let reservoir = ("2026-07-01".into(), 84.into());
    assert_eq!(by(&told, "left main reservoir"), reservoir);
    let learned = ("2026-09-09".into(), serde_json::Value::Null);
    assert_eq!(by(&told, "right back washout plug"), learned);
    let sixty = ask(&["inspect", "before", "27", "annual", "--lead", "60"]);
    assert_eq!(by(&sixty, "left main reservoir"), reservoir);
    assert_eq!(by(&sixty, "right back washout plug").0, "2026-07-25");
    let said =
        "12 weeks, told by Ada Quill on 2026-05-09: quote of Mesa Boiler and Tank, 2 May 2026";
    assert_eq!(of("left main reservoir")["lead_from"], said);
    // The annual to come is her fifth, so both come on one day.
    let fifth = ask(&["inspect", "before", "27", "fifth-annual"]);
    assert_eq!(fifth["last_day"], "2026-09-23");
    assert_eq!(fifth["last_day"], told["last_day"]);
    // Her feed check was left and found inside the log, so it has a rate by miles too; that of No. 14 stands on papers.
    let wear = |engine: &str| {
        let told = ask(&["part", "wear", engine, "right feed check"]);
        let all = told["wear"].as_array().unwrap().clone();
        let mut walls = all.into_iter().filter(|it| it["size"] == "seat-wall");
        walls.next().unwrap()
    };
    let walls = wear("27");
    assert_eq!(walls["openings"][1]["service_days"], 32);
    assert_eq!(walls["openings"][1]["miles"], 938);
    assert!(walls["by_miles"]["results"]["rate"]["value"].is_number());
    let fourteen = wear("14");
    assert!(fourteen["openings"][0]["miles"].is_null());
    assert!(
        fourteen["openings"][0]["miles_need"]
            .as_str()
            .unwrap()
            .contains("no log is closed")
    );
}

/// Both ways to end it leave a clean end: exit code 0, and one file that holds everything.
#[test]
fn it_serves_what_to_look_at_first_and_stops_cleanly() {
    for signal in ["INT", "TERM"] {
        let folder = Folder::new("served");
        let mut served = Serving::start(&folder, &["demo", "--port", "0", "--book", "d.book"]);
        let first = served.said_until("Stop with Ctrl-C.");
        let pages: Vec<&str> = first
            .lines()
            .filter_map(|line| line.strip_prefix("  /"))
            .collect();
        assert_eq!(pages.len(), 5, "{first}");
        let link = first
            .lines()
            .find_map(|line| {
                Some(
                    line.split_once("Sign in as Ada Quill")?
                        .1
                        .split_once("http://")?
                        .1,
                )
            })
            .unwrap();
        let (at, link) = link.split_at(link.find('/').unwrap());
        assert!(first.contains(&format!("Served at http://{at} on this machine only")));
        let signed = ask(at, "POST", link, "");
        let cookie = signed
            .lines()
            .find_map(|line| line.strip_prefix("set-cookie: "))
            .unwrap()
            .split(';')
            .next()
            .unwrap();
        for page in pages {
            let shown = ask(at, "GET", &format!("/{page}"), cookie);
            assert!(shown.starts_with("HTTP/1.1 200"), "{page}: {shown}");
        }
        // A browser that holds a line open and asks nothing does not keep the program from ending.
        let idle = TcpStream::connect(at).unwrap();
        assert_eq!(served.stop(signal), Some(0), "SIG{signal}");
        drop(idle);
        assert!(
            !folder.file("d.book-wal").exists(),
            "the log was not folded in"
        );
        folder.json(&["check", "--book", "d.book"]);
    }
}

#[test]
fn a_taken_port_is_a_sentence_and_the_book_is_made_all_the_same() {
    let folder = Folder::new("port");
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let output = folder.run(&["demo", "--port", &port, "--book", "d.book"]);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(3), "{said}");
    assert!(
        said.contains(&format!(
            "Port {port} of this machine cannot be listened on"
        )),
        "{said}"
    );
    assert!(
        said.contains("The demonstration book is made all the same, at d.book."),
        "{said}"
    );
    assert!(!said.contains("Nothing was saved"), "{said}");
    assert_eq!(
        folder.json(&["check", "--book", "d.book"])["differences"],
        serde_json::json!([])
    );
    let output = folder.run(&["serve", "--port", &port, "--book", "d.book"]);
    assert_eq!(output.status.code(), Some(3), "{output:?}");
}

#[test]
fn made_again_it_opens_to_no_old_key() {
    let folder = Folder::new("keys");
    let words = ["demo", "--port", "0", "--book", "d.book"];
    let mut old = Serving::start(&folder, &words);
    let first = old.said_until("Stop with Ctrl-C.");
    let from = first.find("/in/").unwrap();
    let link = first[from..].lines().next().unwrap().to_string();
    assert_eq!(old.stop("INT"), Some(0));
    let mut new = Serving::start(&folder, &words);
    let again = new.said_until("Stop with Ctrl-C.");
    let from = again.find("Served at http://").unwrap() + "Served at http://".len();
    let at = again[from..].split(' ').next().unwrap();
    assert!(ask(at, "GET", &link, "").starts_with("HTTP/1.1 410"));
    assert_eq!(new.stop("INT"), Some(0));
}

/// The program, serving; ended with the test.
struct Serving {
    child: Child,
    out: BufReader<ChildStdout>,
}

impl Serving {
    fn start(folder: &Folder, words: &[&str]) -> Serving {
        let mut command = folder.command(words);
        command.env_remove("OUTSHOP_NOW").env_remove("OUTSHOP_BY");
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        Serving { child, out }
    }

    /// What was printed, through the line that holds `last`.
    fn said_until(&mut self, last: &str) -> String {
        let mut said = String::new();
        while !said.contains(last) {
            assert_ne!(
                self.out.read_line(&mut said).unwrap(),
                0,
                "it ended: {said}"
            );
        }
        said
    }

    /// Ends it by a signal; its exit code.
    fn stop(&mut self, signal: &str) -> Option<i32> {
        let sent = Command::new("/bin/kill")
            .args([format!("-{signal}"), self.child.id().to_string()])
            .status()
            .unwrap();
        assert!(sent.success());
        self.child.wait().unwrap().code()
    }
}

impl Drop for Serving {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// One request; the whole answer.
fn ask(at: &str, method: &str, path: &str, cookie: &str) -> String {
    let mut stream = TcpStream::connect(at).unwrap();
    let text = format!(
        "{method} {path} HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\nCookie: {cookie}\r\n\
         Origin: http://{at}\r\nContent-Length: 0\r\n\r\n"
    );
    stream.write_all(text.as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer.replace("\r\n", "\n")
}

#[test]
fn it_keeps_its_own_today_whatever_the_machine_says() {
    let folder = Folder::new("today");
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    let output = folder
        .command(&["due", "27", "--json", "--book", "d.book"])
        .env_remove("OUTSHOP_NOW")
        .output()
        .unwrap();
    let due: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(due["on"], "2026-05-16");
}

#[test]
fn it_never_overwrites_a_file_that_is_no_demonstration() {
    let folder = Folder::shop("kept");
    let before = std::fs::read(folder.file("shop.book")).unwrap();
    let output = folder.run(&["demo", "--no-serve"]);
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert_eq!(std::fs::read(folder.file("shop.book")).unwrap(), before);

    std::fs::write(folder.file("notes.txt"), "shopping list").unwrap();
    let output = folder.run(&["demo", "--no-serve", "--book", "notes.txt"]);
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert_eq!(
        std::fs::read(folder.file("notes.txt")).unwrap(),
        b"shopping list"
    );
}
