//! Spares and letters at their doors: typed, on pages, and what is told of them elsewhere.

use crate::pages::Served;
use crate::run::Folder;

fn said(folder: &Folder, words: &[&str], code: i32) -> String {
    let output = folder.run(words);
    assert_eq!(output.status.code(), Some(code), "{words:?}: {output:?}");
    String::from_utf8(output.stderr).unwrap() + &String::from_utf8(output.stdout).unwrap()
}

#[test]
fn bar_is_received_cut_counted_and_answered_for() {
    let folder = Folder::shop("spares");
    let add = [
        "spare",
        "add",
        "bronze bar",
        "--counted",
        "length",
        "--size",
        "3 in round",
        "--shelf",
        "bar rack",
    ];
    let added = folder.json(&[&add[..], &["--least", "48 in"]].concat());
    assert_eq!(added["spare"], "S-001");
    folder.done(&[
        "spare",
        "receive",
        "S-001",
        "72 in",
        "--from",
        "a foundry",
        "--certificate",
        "melt 41",
    ]);
    let told = folder.done(&[
        "spare",
        "use",
        "S-001",
        "25-1/2 in",
        "--engine",
        "14",
        "--told",
        "bushing",
    ]);
    assert!(
        told.contains("46 1/2 in there") && told.contains("SHORT by 1 1/2 in of the 48 in"),
        "{told}"
    );
    let counted = folder.done(&["spare", "count", "S-001", "46-3/8 in"]);
    assert!(
        counted.contains("COUNTED 46 3/8 in") && counted.contains("46 1/2 in there"),
        "{counted}"
    );
    folder.done(&["spare", "settle", "S-001", "--because", "saw cut"]);
    let shown = folder.json(&["spare", "show", "S-001"]);
    assert_eq!(shown["there"], "46 3/8 in");
    assert!(shown["differs"].is_null(), "{shown}");
    let ledger = shown["ledger"].to_string();
    for line in [
        "certificate melt 41",
        "25 1/2 in used on No. 14; bushing",
        "-1/8 in written off: saw cut",
    ] {
        assert!(ledger.contains(line), "{line}: {ledger}");
    }
    let short = folder.json(&["spare", "list", "--short"]);
    assert_eq!(short.as_array().unwrap().len(), 1);
    let head = folder.head();
    for (words, says) in [
        (
            &["spare", "use", "S-001", "2", "--engine", "14"][..],
            "length with its unit",
        ),
        (&["spare", "use", "S-001", "2 in"], "a job or an engine"),
        (
            &["spare", "use", "S-001", "2 in", "--engine", "99"],
            "no engine `99`",
        ),
        (
            &["spare", "use", "S-009", "2 in", "--engine", "14"],
            "no spare S-009",
        ),
        (
            &[
                "spare",
                "add",
                "glass",
                "--counted",
                "dozens",
                "--shelf",
                "2",
            ],
            "pieces or length",
        ),
        (
            &["spare", "add", "glass", "--counted", "pieces"],
            "where it lies",
        ),
        (&["spare", "tell", "S-001"], "Nothing is told"),
    ] {
        let why = said(&folder, words, 2);
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{words:?}: {why}"
        );
    }
    assert_eq!(folder.head(), head);
    folder.done(&["check"]);
}

#[test]
fn a_promise_in_a_letter_is_told_among_the_deadlines_until_it_is_answered() {
    let folder = Folder::shop("letters");
    let log = [
        "letter",
        "log",
        "from",
        "a foundry",
        "--what",
        "pattern came",
        "--engine",
        "14",
        "--dated",
        "2026-04-01",
    ];
    let logged = folder.json(
        &[
            &log[..],
            &["--they-promise", "two castings", "--until", "2026-04-20"],
        ]
        .concat(),
    );
    assert_eq!(logged["letter"], "L-001");
    let due = said(&folder, &["due", "--dates"], 1);
    assert!(
        due.contains("Promised in letters") && due.contains("OVERDUE"),
        "{due}"
    );
    let shown = said(&folder, &["letter", "show", "L-001"], 1);
    assert!(
        shown.contains("Wed 1 Apr 2026 from a foundry: pattern came (No. 14)"),
        "{shown}"
    );
    // A scan of it is kept under its hash like any other.
    let mut bytes = b"%PDF-1.7\n".to_vec();
    bytes.extend((0..400_000u32).map(|n| (n % 249) as u8));
    std::fs::write(folder.file("letter.pdf"), &bytes).unwrap();
    let scan = folder.json(&[
        "photo",
        "add",
        "letter.pdf",
        "--told",
        "both pages",
        "--letter",
        "L-001",
    ]);
    folder.done(&["photo", "get", scan["photo"].as_str().unwrap(), "out.pdf"]);
    assert_eq!(std::fs::read(folder.file("out.pdf")).unwrap(), bytes);
    assert_eq!(
        folder.json(&["letter", "show", "L-001"])["scans"][0],
        scan["photo"]
    );
    // About her, so it is among her pictures.
    assert!(folder.done(&["photo", "list", "14"]).contains("both pages"));
    folder.done(&["letter", "log", "to", "a foundry", "--what", "thanks"]);
    folder.done(&[
        "letter",
        "answer",
        "L-001",
        "--told",
        "both came",
        "--letter",
        "L-002",
    ]);
    assert!(
        !folder
            .run(&["due", "--dates"])
            .stdout
            .windows(8)
            .any(|w| w == b"Promised")
    );
    let head = folder.head();
    for (words, says) in [
        (
            &["letter", "log", "via", "a foundry", "--what", "x"][..],
            "to or from",
        ),
        (
            &[
                "letter",
                "log",
                "to",
                "a foundry",
                "--what",
                "x",
                "--until",
                "2026-06-01",
            ],
            "Say what is promised",
        ),
        (
            &[
                "letter",
                "log",
                "to",
                "a foundry",
                "--what",
                "x",
                "--dated",
                "2027-06-01",
            ],
            "lies ahead",
        ),
        (
            &[
                "letter",
                "log",
                "to",
                "a foundry",
                "--what",
                "x",
                "--dated",
                "June",
            ],
            "is not a day",
        ),
        (
            &["letter", "answer", "L-009", "--told", "x"],
            "no letter L-009",
        ),
        (
            &[
                "photo",
                "add",
                "letter.pdf",
                "--told",
                "x",
                "--letter",
                "L-009",
            ],
            "no letter L-009",
        ),
    ] {
        let why = said(&folder, words, 2);
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{words:?}: {why}"
        );
    }
    assert_eq!(folder.head(), head);
    folder.done(&["check"]);
}

#[test]
fn the_pages_of_spares_and_letters_do_the_same() {
    let served = Served::of_book(Folder::shop("shelves-page"), "2026-05-03T09:00");
    let add =
        "verb=spare+add&back=%2Fspares&then=spare&what=water+glass&counted=pieces&least=4&shelf=";
    let refused = served.post("/do", add);
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(
        refused.body.contains("value=\"water glass\""),
        "{}",
        refused.body
    );
    let added = served.post("/do", &format!("{add}rack"));
    assert!(
        added.head.contains("/spare/S-001"),
        "{} {}",
        added.head,
        added.body
    );
    let post = |rest: &str| {
        served
            .post("/do", &format!("back=%2Fspare%2FS-001&number=S-001&{rest}"))
            .status
    };
    assert_eq!(post("verb=spare+receive&many=5&from=a+supplier"), 303);
    assert_eq!(post("verb=spare+use&many=2&engine=14"), 303);
    assert_eq!(post("verb=spare+count&many=2"), 303);
    let page = served.get("/spare/S-001").body;
    for says in [
        "3 there by the ledger",
        "SHORT by 1",
        "COUNTED 2",
        "Answer for the difference",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
    assert!(served.get("/").body.contains("1 spare is short"));
    assert_eq!(post("verb=spare+settle&because=one+broken"), 303);
    assert!(served.get("/spares").body.contains("2 there by the ledger"));
    let log = "verb=letter+log&back=%2Fletters&then=letter&way=from&whom=the+region&what=asks+for+the+report&we_promise=the+report";
    let logged = served.post("/do", &format!("{log}&dated=2026-04-01&until=2026-04-10"));
    assert!(
        logged.head.contains("/letter/L-001"),
        "{} {}",
        logged.head,
        logged.body
    );
    assert!(served.get("/dates").body.contains("Promised in letters"));
    let picture = b"\x89PNG\r\n\x1a\na letter".to_vec();
    let fields = [
        ("letter", "L-001"),
        ("told", "page one"),
        ("back", "/letter/L-001"),
    ];
    let sent = served.upload("/photo", &fields, Some(("one.png", &picture)));
    assert_eq!(sent.status, 303, "{}", sent.body);
    let page = served.get("/letter/L-001").body;
    assert!(
        page.contains("/photo/P-001") && page.contains("OVERDUE"),
        "{page}"
    );
    let answer = "verb=letter+answer&back=%2Fletter%2FL-001&number=L-001&told=";
    assert_eq!(served.post("/do", answer).status, 422);
    assert_eq!(served.post("/do", &format!("{answer}sent")).status, 303);
    assert!(!served.get("/dates").body.contains("Promised in letters"));
    assert_eq!(served.get("/letter/L-099").status, 404);
    assert_eq!(served.get("/spare/S-099").status, 404);
}
