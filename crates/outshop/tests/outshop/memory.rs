//! The shop's memory at its door: an engine fitted out, parts from a file, a questioned reading, an instrument found
//! wrong, a photograph in and out again.

use crate::pages::Served;
use crate::run::Folder;

fn refused(folder: &Folder, words: &[&str]) -> String {
    let output = folder.run(words);
    assert_eq!(output.status.code(), Some(2), "{words:?}: {output:?}");
    String::from_utf8(output.stderr).unwrap() + &String::from_utf8(output.stdout).unwrap()
}

#[test]
fn an_engine_is_fitted_out_and_the_batch_can_be_taken_back() {
    let folder = Folder::shop("fit-out");
    let before = folder.head();
    let dry = folder.done(&["part", "fit-out", "14"]);
    assert!(
        dry.contains("right driving tire, axle 4") && dry.contains("Nothing is changed"),
        "{dry}"
    );
    assert_eq!(folder.head(), before);
    let made = folder.json(&["part", "fit-out", "14", "--main-axle", "3", "--write"]);
    // One she had: the right feed check.
    assert_eq!(made["in_the_book"], 1);
    let tree = folder.json(&["part", "tree", "14"]);
    let count = tree["parts"].as_array().unwrap().len();
    assert_eq!(count, made["adds"].as_array().unwrap().len() + 1);
    let again = refused(&folder, &["part", "fit-out", "14"]);
    assert!(again.contains("already"), "{again}");
    let batch = made["batch"].as_str().unwrap().to_string();
    folder.done(&["entry", "withdraw", &batch, "--because", "the wrong engine"]);
    let tree = folder.json(&["part", "tree", "14"]);
    assert_eq!(tree["parts"].as_array().unwrap().len(), 1);
    folder.done(&["check"]);
}

#[test]
fn a_reading_that_cannot_be_is_asked_about_kept_if_insisted_on_and_marked() {
    let folder = Folder::shop("questioned");
    folder.done(&["part", "add", "14", "left rod", "--family", "rod-bushing"]);
    let take = ["reading", "take", "14", "left rod", "side-play@rod=332 in"];
    let head = folder.head();
    let said = refused(&folder, &take);
    assert!(said.contains("was 3/32 meant?"), "{said}");
    // A bare number is no reading.
    let bare = refused(
        &folder,
        &["reading", "take", "14", "left rod", "side-play@rod=.094"],
    );
    assert!(bare.contains("unit"), "{bare}");
    assert_eq!(folder.head(), head);
    folder.done(
        &[
            &take[..],
            &[
                "--insist",
                "the drawing of a giant",
                "--standing",
                "cold-and-full",
            ],
        ]
        .concat(),
    );
    let shown = folder.done(&["part", "show", "14", "left rod"]);
    assert!(shown.contains("332 in (questioned)"), "{shown}");
    assert!(
        shown.contains("insisted on: the drawing of a giant"),
        "{shown}"
    );
    let json = folder.json(&["part", "show", "14", "left rod"]);
    assert_eq!(json["readings"][0]["readings"][0]["questioned"], true);
    assert_eq!(json["readings"][0]["taken"]["standing"], "cold-and-full");
    folder.done(&["check"]);
}

#[test]
fn an_instrument_found_wrong_names_its_readings() {
    let folder = Folder::shop("instrument");
    folder.done(&[
        "instrument",
        "add",
        "M-12",
        "--what",
        "depth micrometer",
        "--range",
        "0 to 6 in",
    ]);
    let wall = "seat-wall@front=.484in by depth micrometer M-12";
    folder.done(&[
        "reading",
        "take",
        "14",
        "right feed check",
        wall,
        "--on",
        "2026-04-01",
    ]);
    let list = folder.done(&["instrument", "list"]);
    assert!(list.contains("never checked"), "{list}");
    let said = refused(
        &folder,
        &["instrument", "check", "M-12", "--against", "blocks"],
    );
    assert!(said.contains("--good or --wrong"), "{said}");
    let found = [
        "instrument",
        "check",
        "M-12",
        "--against",
        "blocks",
        "--wrong",
        "--error",
        "+.002 in",
    ];
    let told = folder.done(&found);
    assert!(told.contains("1 reading is in doubt"), "{told}");
    let shown = folder.run(&["instrument", "show", "M-12"]);
    // Something stands in doubt: the answer is no.
    assert_eq!(shown.status.code(), Some(1));
    let json = folder.json(&["instrument", "show", "M-12"]);
    assert_eq!(json["in_doubt"][0]["part"], "right feed check");
    assert_eq!(json["in_doubt"][0]["written"], ".484in");
    folder.done(&["check"]);
}

#[test]
fn a_photograph_goes_into_the_book_and_comes_out_the_same() {
    let folder = Folder::shop("photo");
    let mut bytes = b"\x89PNG\r\n\x1a\n".to_vec();
    bytes.extend((0..300_000u32).map(|n| (n % 253) as u8));
    std::fs::write(folder.file("ring.png"), &bytes).unwrap();
    std::fs::write(folder.file("ring.txt"), "a ring").unwrap();
    let of = [
        "--told",
        "a full ring",
        "--engine",
        "14",
        "--part",
        "right feed check",
    ];
    let said = refused(&folder, &[&["photo", "add", "ring.txt"], &of[..]].concat());
    assert!(said.contains("JPEG, PNG, WebP or PDF"), "{said}");
    let none = refused(&folder, &["photo", "add", "ring.png", "--told", "a ring"]);
    assert!(none.contains("Say what it shows"), "{none}");
    let added = folder.json(&[&["photo", "add", "ring.png"], &of[..]].concat());
    assert_eq!(added["photo"], "P-001");
    assert!(
        folder
            .done(&["photo", "list", "14"])
            .contains("a full ring")
    );
    folder.done(&["photo", "get", "P-001", "out.png"]);
    assert_eq!(std::fs::read(folder.file("out.png")).unwrap(), bytes);
    folder.done(&["check"]);
    folder.done(&["backup", "copy.book"]);
}

/// Every table in `docs/part-files.md` is answered as it says there.
#[test]
fn the_examples_of_the_page_are_true() {
    let page = include_str!("../../../../docs/part-files.md");
    let mut seen = 0;
    for block in page.split("```csv ").skip(1) {
        let folder = Folder::new("parts");
        let zone = ["--zone", "America/Denver", "--officer", "Ada Quill"];
        folder.done(&[&["new", "--shop", "Juniper Fork"], &zone[..]].concat());
        let engine = [
            "--wheels",
            "2-8-0",
            "--gauge",
            "56 1/2 in",
            "--rules",
            "us-steam",
        ];
        folder.done(&[&["locomotive", "add", "14"], &engine[..]].concat());
        let (head, rest) = block.split_once('\n').unwrap();
        let (table, _) = rest.split_once("```").unwrap();
        std::fs::write(folder.file("parts.csv"), table).unwrap();
        let import = ["part", "import", "parts.csv", "--engine", "14"];
        if let Some(says) = head.strip_prefix("wrong=") {
            let said = refused(&folder, &import);
            assert!(said.contains(says), "{said}");
        } else {
            let json = folder.json(&import);
            for one in head.split(' ') {
                let (what, count) = one.split_once('=').unwrap();
                assert_eq!(
                    json[what],
                    count.parse::<u64>().unwrap(),
                    "{head}: {json:#}"
                );
            }
            let refused_lines = json["refused"].as_u64().unwrap();
            let head = folder.head();
            let written = folder.run(&[&import[..], &["--write"]].concat());
            if refused_lines > 0 {
                assert_eq!(written.status.code(), Some(2));
                let said = String::from_utf8(written.stderr).unwrap();
                assert!(said.contains("parts.csv:2: REFUSED"), "{said}");
                assert_eq!(folder.head(), head);
                folder.done(&[&import[..], &["--write", "--leave-out"]].concat());
            } else {
                assert_eq!(written.status.code(), Some(0), "{written:?}");
            }
            // The same file again adds nothing.
            let again = folder.json(&import);
            assert_eq!(
                (&again["adds"], &again["tells"]),
                (&0.into(), &0.into()),
                "{again:#}"
            );
            folder.done(&["check"]);
        }
        seen += 1;
    }
    assert_eq!(seen, 3);
    // And every word over a column that it names is known.
    let words: Vec<&str> = outshop::part_file_words();
    for line in page
        .lines()
        .filter(|l| l.starts_with("| ") && !l.starts_with("| column"))
    {
        for word in line.split('|').nth(2).unwrap().split([',', ';']) {
            let word = word.trim().replace('-', " ");
            assert!(words.contains(&word.as_str()), "{word}");
        }
    }
}

#[test]
fn the_page_of_a_part_asks_marks_and_shows_its_photograph() {
    let folder = Folder::shop("part-page");
    let served = Served::of_book(folder, "2026-05-03T09:00");
    let path = "/engine/14/part/right%20feed%20check";
    // A bare number means what the field shows beside it, and a lost bar is asked about.
    let form = |rest: &str| {
        let head = "verb=reading+take&engine=14&part=right+feed+check&choice=&unit%3Aseat-land=in";
        served.post("/do", &format!("{head}&back={path}&{rest}"))
    };
    let asked = form("at%3Aseat-land%40front=332");
    assert_eq!(asked.status, 422, "{}", asked.body);
    assert!(asked.body.contains("was 3/32 meant?"), "{}", asked.body);
    // Nothing typed is lost.
    assert!(asked.body.contains("value=\"332\""), "{}", asked.body);
    assert_eq!(form("at%3Aseat-land%40front=3%2F32").status, 303);
    let insisted = form("at%3Aseat-land%40front=332&insist=a+giant");
    assert_eq!(insisted.status, 303, "{}", insisted.body);
    let page = served.get(path).body;
    assert!(
        page.contains("3/32 in") && page.contains("questioned"),
        "{page}"
    );
    assert!(page.contains("Insisted on: a giant"), "{page}");
    // A photograph is sent, shown and served as what it is.
    let picture = b"\x89PNG\r\n\x1a\na ring of blue".to_vec();
    let fields = [
        ("engine", "14"),
        ("part", "right feed check"),
        ("told", "a full ring"),
        ("back", path),
    ];
    let sent = served.upload("/photo", &fields, Some(("ring.png", &picture)));
    assert_eq!(sent.status, 303, "{}", sent.body);
    let page = served.get(path).body;
    assert!(
        page.contains("src=\"/photo/P-001\"") && page.contains("alt=\"a full ring\""),
        "{page}"
    );
    let shown = served.get("/photo/P-001");
    assert_eq!(shown.status, 200);
    assert!(
        shown.head.contains("content-type: image/png"),
        "{}",
        shown.head
    );
    assert_eq!(served.get("/photo/P-007").status, 404);
    let text = served.upload("/photo", &fields, Some(("ring.png", b"a script")));
    assert_eq!(text.status, 422, "{}", text.body);
    assert!(
        text.body.contains("JPEG, PNG, WebP or PDF"),
        "{}",
        text.body
    );
    // Nothing of it is for those who are not signed in.
    let mut stranger = served;
    stranger.sign_in_with("");
    assert_eq!(stranger.get("/photo/P-001").status, 303);
}

/// A list of parts from the page: nothing is kept until it was looked at, and lines that are refused hold back the rest.
#[test]
fn a_list_of_parts_is_looked_at_on_a_page_before_it_is_kept() {
    let mut desk = Served::of_book(Folder::shop("part-list"), "2026-05-03T09:00");
    desk.sets_passphrase();
    for page in ["/first-hour", "/engine/14", "/engine/14/known"] {
        let body = desk.get(page).body;
        assert!(body.contains("\"/parts/import"), "{page}");
    }
    let before = desk.folder.head();
    let sent =
        |file: Option<(&str, &[u8])>| desk.upload("/parts/import", &[("engine", "14")], file);
    for (file, says) in [
        (None, "No file was sent"),
        (Some(("parts.pdf", &b"%PDF-1.7"[..])), "parts.pdf is a PDF"),
        (
            Some(("parts.csv", &b"name,size\nx,1 in\n"[..])),
            "no heading that is understood",
        ),
    ] {
        let page = sent(file);
        assert_eq!(page.status, 422, "{says}");
        assert!(page.body.contains(says), "{says}: {}", page.body);
    }
    let table = "part,family,side,feature,as built\n\
        left feed check,check-valve,left,seat-wall,.484 in\n\
        right gauge cock,try-cock,right,,\n\
        left feed check,,,seat-wall,.484\n";
    let page = sent(Some(("parts.csv", table.as_bytes())));
    assert_eq!(page.status, 200);
    for says in [
        "1 part to add; 0 say more, 0 in the book already, 2 refused.",
        "adds the part",
        "There is no part family",
        "Leave out the lines that are refused",
    ] {
        assert!(page.body.contains(says), "{says}: {}", page.body);
    }
    let field = |name: &str| crate::seasons::hidden(&page.body, name);
    let keep = format!("token={}&mark={}", field("token"), field("mark"));
    let held = desk.post("/parts/import/save", &keep);
    assert_eq!(held.status, 422);
    assert!(
        held.body
            .contains("2 lines are refused, so nothing was saved"),
        "{}",
        held.body
    );
    // A list of parts is no log.
    assert_eq!(desk.post("/log/import/save", &keep).status, 409);
    assert_eq!(desk.folder.head(), before);
    let kept = desk.post("/parts/import/save", &format!("{keep}&leave_out=yes"));
    assert_eq!(kept.status, 303, "{}", kept.body);
    let part = desk.folder.json(&["part", "show", "14", "left feed check"]);
    assert_eq!(
        part["features"]["seat-wall"]["as_built"], ".484 in",
        "{part:#}"
    );
    // Shown before, kept since: the lines would not do what was shown.
    let twice = desk.post("/parts/import/save", &format!("{keep}&leave_out=yes"));
    assert_eq!(twice.status, 409, "{}", twice.body);
    let list = desk.get("/parts/import").body;
    assert!(list.contains("Take it back"), "{list}");
}

/// A clearance read on the pair is told as such wherever a reading is: by words, on the part's page, at the bench.
#[test]
fn a_clearance_is_read_on_the_pair_as_it_stands() {
    let folder = Folder::shop("pair");
    folder.done(&[
        "part",
        "add",
        "14",
        "main rod back end, right",
        "--family",
        "rod-bushing",
        "--fact",
        "pin=main-rod",
    ]);
    let rod = ["14", "main rod back end, right"];
    let refused = refused(
        &folder,
        &[
            &["reading", "take"],
            &rod[..],
            &["bore-over-pin@middle=.05in"],
        ]
        .concat(),
    );
    assert!(
        refused.contains("one way, square to it were expected"),
        "{refused}"
    );
    let pair = [
        "bore-over-pin@one way=1/16in by feelers F-2",
        "bore-over-pin@square to it=7/64in by feelers F-2",
        "--measured-by",
        "Ben Holt",
        "--standing",
        "cold-and-full",
        "--supported",
        "rod on its pins, engine on its wheels",
        "--part-temperature",
        "64 F",
    ];
    folder.done(&[&["reading", "take"], &rod[..], &pair[..]].concat());
    let shown = folder.done(&[&["part", "show"], &rod[..]].concat());
    assert!(
        shown.contains("bore-over-pin      one way 1/16in, square to it 7/64in"),
        "{shown}"
    );
    assert!(shown.contains("engine on its wheels"), "{shown}");
    // A finding on it fails the law's 3/32 in by it alone.
    let told = [
        "--occasion",
        "write-up",
        "--told",
        "knocks at the back end, hot",
        "bore-over-pin@one way=1/16in",
        "bore-over-pin@square to it=7/64in",
    ];
    folder.done(&[&["finding", "record"], &rod[..], &told[..]].concat());
    let finding = folder.run(&["finding", "show", "F-001"]);
    let finding = String::from_utf8(finding.stdout).unwrap();
    assert!(
        finding.contains("7/64in") && finding.contains("read on the pair"),
        "{finding}"
    );
    assert!(finding.contains("fails"), "{finding}");
    // Closed by itself: asked about.
    let closed = ["bore-over-pin@one way=1/64in"];
    let asked = self::refused(
        &folder,
        &[&["reading", "take"], &rod[..], &closed[..]].concat(),
    );
    assert!(asked.contains("the clearance has closed since"), "{asked}");
    let mut desk = Served::of_book(folder, "2026-05-03T09:00");
    desk.sets_passphrase();
    let page = desk
        .get("/engine/14/part/main%20rod%20back%20end%2C%20right")
        .body;
    assert!(
        page.contains("at:bore-over-pin@square to it") && page.contains("read on the pair"),
        "{page}"
    );
    let bench = desk.get("/bench/14/main%20rod%20back%20end%2C%20right/bore-over-pin");
    assert_eq!(bench.status, 200);
    assert!(bench.body.contains("at:bore-over-pin@one way"));
    assert!(desk.get("/finding/F-001").body.contains("square to it"));
}
