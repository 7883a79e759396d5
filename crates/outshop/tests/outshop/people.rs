//! People at the desk: authority given and ended, devices of the bench, codes, and signatures that say who signs.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

#[test]
fn an_authority_is_stated_with_its_document_and_is_refused_by_name_when_it_ended() {
    let folder = Folder::shop("authority");
    folder.done(&["person", "add", "Eli Voss", "--trade", "apprentice"]);
    assert!(folder.done(&["person", "list"]).contains("- (apprentice)"));
    let no = folder.run(&["person", "authorise", "Eli Voss", "inspect"]);
    assert!(
        String::from_utf8_lossy(&no.stderr).contains("--document"),
        "{no:?}"
    );
    let words = [
        "person",
        "authorise",
        "Eli Voss",
        "inspect",
        "--document",
        "letter 7",
        "--from",
        "2026-01-01",
        "--until",
        "2026-04-30",
    ];
    let told = folder.done(&words);
    assert!(
        told.contains("EXPIRED") && told.contains("by Ada Quill (letter 7)"),
        "{told}"
    );
    let open = |on: &str| {
        folder.run(&[
            "inspect", "open", "14", "daily", "--by", "Eli Voss", "--on", on,
        ])
    };
    let no = open("2026-05-01");
    assert_eq!(no.status.code(), Some(1));
    let said = String::from_utf8_lossy(&no.stderr).into_owned();
    for word in [
        "Eli Voss",
        "`inspect` ended on 2026-04-30",
        "letter 7",
        "held by: Ada Quill",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
    // Work done while it held may be entered after it ended.
    assert_eq!(open("2026-04-30").status.code(), Some(0));
    let shown = folder.done(&["person", "show", "Eli Voss"]);
    assert!(
        shown.contains("apprentice") && shown.contains("given from Thu 1 Jan 2026"),
        "{shown}"
    );
    folder.done(&["check"]);
}

#[test]
fn at_the_desk_a_signature_says_who_signs_and_a_code_serves_on_its_own_device() {
    let folder = Folder::shop("bench");
    folder.done(&["person", "add", "Ben Ostrow", "--may", "inspect,repair"]);
    let mut served = Served::of_book(folder, "2026-05-03T09:00");
    served.sets_passphrase();
    let give =
        "verb=person+authorise&back=/people&name=Ben+Ostrow&authority=approve&document=minute+12";
    for (with, said) in [
        ("", "says once more who signs"),
        (
            "&sign_with=not+the+passphrase",
            "That is not your passphrase",
        ),
        ("&sign_with=493817", "That is not your passphrase"),
    ] {
        let no = served.post("/do", &format!("{give}{with}"));
        assert_eq!(no.status, 422, "{with}");
        assert!(no.body.contains(said), "{with}: {}", no.body);
        assert!(no.body.contains("value=\"minute 12\""), "the form is lost");
    }
    assert_eq!(served.post("/do", &format!("{give}{SIGNED}")).status, 303);
    assert!(served.get("/people").body.contains("(minute 12)"));

    // The device: enrolled by an officer, then a code of one's own, set with the passphrase.
    let code = "code=493817&passphrase=blue+ring+of+contact";
    assert_eq!(served.post("/bench/code", code).status, 422, "not enrolled");
    assert_eq!(served.post("/bench/enrol", "device=").status, 422);
    let enrolled = served.post("/bench/enrol", "device=bench+phone");
    assert_eq!(enrolled.status, 303);
    let device = enrolled.cookie();
    let session = served.cookie();
    served.sign_in_with(&format!("{session}; {device}"));
    assert_eq!(
        served.post("/bench/enrol", "device=bench+phone").status,
        422,
        "the name is taken"
    );
    assert_eq!(
        served
            .post("/bench/code", "code=123456&passphrase=blue+ring+of+contact")
            .status,
        422
    );
    assert_eq!(
        served
            .post("/bench/code", "code=493817&passphrase=wrong")
            .status,
        422
    );
    assert_eq!(served.post("/bench/code", code).status, 303);
    // It signs there, and lets its owner in there, in the place of whoever was.
    let take = "verb=person+withdraw&back=/people&name=Ben+Ostrow&authority=approve&because=left";
    assert_eq!(
        served
            .post("/do", &format!("{take}&sign_with=493817"))
            .status,
        303
    );
    served.sign_in_with(&device);
    let door = served.get("/");
    assert_eq!(door.status, 303);
    assert!(door.head.contains("location: /switch"), "{}", door.head);
    let names = served.get("/switch").body;
    assert!(
        names.contains("Ada Quill") && !names.contains("Ben Ostrow"),
        "{names}"
    );
    let come = |code: &str| served.post("/switch", &format!("name=Ada+Quill&code={code}"));
    let let_in = come("493817");
    assert_eq!(let_in.status, 303);
    let inside = format!("{}; {device}", let_in.cookie());
    // Without the device it is worth nothing, and nobody's name is shown.
    served.sign_in_with("");
    assert_eq!(
        served.post("/switch", "name=Ada+Quill&code=493817").status,
        403
    );
    for page in ["/switch", "/in"] {
        let body = served.get(page).body;
        assert!(
            !body.contains("Ada") && !body.contains("Juniper"),
            "{page}: {body}"
        );
    }
    // Five wrong guesses take it away; the right one comes too late.
    served.sign_in_with(&device);
    for _ in 0..5 {
        assert_eq!(
            served.post("/switch", "name=Ada+Quill&code=111213").status,
            422
        );
    }
    let late = served.post("/switch", "name=Ada+Quill&code=493817");
    assert!(late.body.contains("taken away"), "{}", late.body);
    // A device that is revoked signs out whoever was let in on it.
    served.sign_in_with(&inside);
    assert_eq!(served.get("/people").status, 200);
    assert_eq!(
        served.post("/bench/revoke", "device=bench+phone").status,
        303
    );
    assert_eq!(served.get("/people").status, 303);
}

/// Every page that a signed-in reader reaches by links is shut to one who is not; papers and files too.
#[test]
fn nothing_that_links_reach_is_readable_without_sign_in() {
    let mut served = Served::signed_in("crawl");
    let cookie = served.cookie();
    let mut found = vec!["/".to_string()];
    let mut at = 0;
    while let Some(path) = found.get(at).cloned() {
        at += 1;
        let body = served.get(&path).body;
        for rest in body
            .split(['<'])
            .filter(|tag| tag.starts_with("a ") || tag.starts_with("img "))
        {
            let Some(to) = rest
                .split("href=\"")
                .nth(1)
                .or_else(|| rest.split("src=\"").nth(1))
            else {
                continue;
            };
            let to = to.split(['"', '#']).next().unwrap().replace("&amp;", "&");
            // One of each kind of sheet and rule is enough; papers are set only once.
            let many = ["/sheet/", "/rule/", "/print/"].iter().any(|k| {
                to.starts_with(k) && found.iter().filter(|f| f.starts_with(k)).count() >= 6
            });
            if to.starts_with('/') && !to.starts_with("/asset/") && !many && !found.contains(&to) {
                found.push(to);
            }
        }
    }
    assert!(found.len() > 40, "{found:?}");
    served.sign_in_with("");
    for path in &found {
        let page = served.get(path);
        let open = ["/in", "/switch"].contains(&path.as_str());
        assert!(
            page.status == 303 || open,
            "{path} is open to anybody: {}",
            page.status
        );
        assert!(
            !page.body.contains("Juniper") && !page.body.contains("Quill"),
            "{path}"
        );
    }
    served.sign_in_with(&cookie);
}

/// Each address that the program answers at, by its own list: without a session it leads to the sign-in, unless it is the
/// sign-in itself, the style of its pages, or what a device hands in under a token of its own.
#[test]
fn each_route_of_the_program_asks_who_is_there() {
    let source = include_str!("../../src/web/mod.rs");
    let (router, _) = source.split_once("/// Does what takes a while").unwrap();
    let constants = [
        ("upload::PATH", "/log/import"),
        ("part_list::PATH", "/parts/import"),
        ("survey_file::PATH", "/surveys/import"),
        ("begun::PATH", "/bench/survey"),
        ("copy::PATH", "/copies"),
        ("copy::DRILL", "/copies/drill"),
        ("asset::WORKER", "/bench/worker.js"),
        ("pocket::PATH", "/bench/send"),
    ];
    let mut routes = Vec::new();
    for rest in router.split(".route(").skip(1) {
        let named = rest.split(',').next().unwrap().trim();
        let path = match named.strip_prefix('"') {
            Some(path) => path.trim_end_matches('"').to_string(),
            None => {
                let known = constants.iter().find(|(name, _)| *name == named);
                known
                    .unwrap_or_else(|| panic!("{named} is a new name: add it here"))
                    .1
                    .to_string()
            }
        };
        let path = path
            .replace("{*rest}", "work")
            .replace("{number}", "P-001")
            .replace("{name}", "desk.css");
        routes.push(path.replace("{token}", "0"));
    }
    assert!(routes.len() > 20, "{routes:?}");
    let mut served = Served::of_book(Folder::shop("routes"), "2026-05-03T09:00");
    served.sign_in_with("");
    let open = [
        "/in",
        "/switch",
        "/in/0",
        "/asset/desk.css",
        "/bench/worker.js",
        "/bench/send",
    ];
    for path in routes.iter().filter(|path| !open.contains(&path.as_str())) {
        for (how, page) in [
            ("GET", served.get(path)),
            ("POST", served.post(path, "verb=part+add")),
        ] {
            let refused = page.status == 303 || (page.status == 405 && path.starts_with("/wall/"));
            assert!(refused, "{how} {path}: {}", page.status);
            assert!(
                !page.body.contains("Juniper") && !page.body.contains("Quill"),
                "{how} {path}"
            );
        }
    }
    for path in open {
        let body = served.get(path).body;
        assert!(
            !body.contains("Juniper") && !body.contains("Quill"),
            "{path}"
        );
    }
}

/// A page on the wall: nobody reads it until an officer chose it, it names nobody and nothing that anybody wrote, and the
/// choice is taken back as it was made.
#[test]
fn a_page_is_readable_without_sign_in_only_where_the_shop_chose_it() {
    let folder = Folder::shop("wall");
    folder.done(&["person", "add", "Ben Holt", "--may", "repair"]);
    folder.done(&[
        "steam",
        "promise",
        "14",
        "2026-05-09",
        "Mrs Larkin's wedding train",
    ]);
    folder.done(&[
        "finding",
        "record",
        "14",
        "right feed check",
        "--occasion",
        "write-up",
        "--told",
        "Ben Holt says it weeps",
        "--shows",
        "weeps-back",
    ]);
    let mut served = Served::of_book(folder, "2026-05-03T09:00");
    served.sets_passphrase();
    let session = served.cookie();
    let choose = |served: &mut Served, verb: &str, rule: &str| {
        served.sign_in_with(&session);
        let body =
            format!("verb=shop+{verb}&back=/shop&rule={rule}&because=board+minute+9{SIGNED}");
        let page = served.post("/do", &body);
        assert_eq!(page.status, 303, "{}", page.body);
        let shown = served.get("/shop").body;
        served.sign_in_with("");
        shown
    };
    let stranger =
        |served: &Served| ["/wall/ahead", "/wall/dates"].map(|path| served.get(path).status);
    served.sign_in_with("");
    assert_eq!(stranger(&served), [303, 303]);
    let shown = choose(&mut served, "require", "wall-ahead");
    assert!(
        shown.contains("href=\"/wall/ahead\"") && shown.contains("board minute 9"),
        "{shown}"
    );
    assert_eq!(stranger(&served), [200, 303]);
    choose(&mut served, "require", "wall-dates");
    assert_eq!(stranger(&served), [200, 200]);
    for (path, says) in [
        ("/wall/ahead", "Finding F-001 is open"),
        ("/wall/dates", "No. 14"),
    ] {
        let page = served.get(path).body;
        assert!(
            page.contains(says) && page.contains("Juniper Fork"),
            "{path}: {page}"
        );
        for hidden in [
            "Quill",
            "Holt",
            "Larkin",
            "weeps",
            "board minute",
            "<form",
            "/engine/",
            "/finding/",
            "<script",
        ] {
            assert!(!page.contains(hidden), "{path} shows {hidden}: {page}");
        }
    }
    assert!(
        served
            .get("/wall/ahead")
            .body
            .contains("promised; something stops her")
    );
    // Nothing else opened with it.
    for path in [
        "/",
        "/dates",
        "/engine/14",
        "/shop",
        "/wall/people",
        "/wall",
    ] {
        assert_eq!(served.get(path).status, 303, "{path}");
    }
    choose(&mut served, "drop", "wall-ahead");
    assert_eq!(stranger(&served), [303, 200]);
}

/// From `new` to a first lineup and a first as-left without a command line.
#[test]
fn the_first_hour_goes_through_forms_alone() {
    let folder = Folder::new("first-hour");
    let told = folder.done(&[
        "new",
        "--shop",
        "Juniper Fork",
        "--zone",
        "America/Denver",
        "--officer",
        "Ada Quill",
    ]);
    assert!(told.contains("Copy it before the day is over"), "{told}");
    let served = Served::of_book(folder, "2026-05-03T09:00");
    assert!(served.get("/").body.contains("/first-hour"));
    let bad = "verb=locomotive+add&back=/first-hour&number=14&wheels=2-8-0&gauge=wide&rules=us-steam&fitting:fusible-plugs=fitted";
    let no = served.post("/do", bad);
    assert_eq!(no.status, 422);
    assert!(
        no.body.contains("value=\"wide\"") && no.body.contains("value=\"2-8-0\""),
        "the form is lost"
    );
    let done = |body: &str| {
        let page = served.post("/do", body);
        assert_eq!(page.status, 303, "{body}: {}", page.body);
    };
    done(&bad.replace("gauge=wide", "gauge=56+1/2+in"));
    let known = served.get("/engine/14/known");
    assert_eq!(known.status, 200);
    assert!(known.body.contains("their clocks cannot tell"));
    let back = "back=/engine/14/known&engine=14";
    done(&format!(
        "verb=locomotive+held&{back}&kind=1472&day=2020-03-01&document=Form+4&service_days=212&through=2025-12-31"
    ));
    done(&format!(
        "verb=locomotive+held&{back}&kind=annual&day=2025-11-08&document=Form+3&service_days=0&through=2025-12-31"
    ));
    done(&format!(
        "verb=locomotive+day&{back}&what=air-brake-valves&day=2025-11-08&document=cab+card"
    ));
    done("verb=steam+close&back=/engine/14&engine=14&from=2026-01-01&through=2026-05-02");
    let future = served.post(
        "/do",
        &format!(
            "verb=locomotive+day&{back}&what=air-brake-valves&day=2027-01-01&document=cab+card"
        ),
    );
    assert_eq!(future.status, 422);
    assert!(
        future.body.contains("has not happened yet") && future.body.contains("value=\"cab card\""),
        "{}",
        future.body
    );
    let ahead = served.get("/ahead/14");
    assert_eq!(ahead.status, 200);
    assert!(ahead.body.contains("1472"), "{}", ahead.body);
    done(&format!(
        "verb=part+add&{back}&name=right+feed+check&family=check-valve"
    ));
    let part = "/engine/14/part/right%20feed%20check";
    assert!(served.get(part).body.contains("id=\"measure\""));
    done(
        "verb=reading+take&back=/&engine=14&part=right+feed+check&as_left=yes&at:seat-land@front=3/32in",
    );
    assert!(served.get(part).body.contains("as left") && served.get(part).body.contains("3/32in"));
    let first = served.get("/first-hour").body;
    assert_eq!(
        first.matches("to do<").count(),
        3,
        "a passphrase, people and a copy are left: {first}"
    );
}
