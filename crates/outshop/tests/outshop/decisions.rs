//! What a finding's page offers and what nobody may decide: refused by name at the verb and at the form, and nothing is
//! saved at either.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

const NOW: &str = "2026-05-03T09:00";
const CHECK: &[&str] = &[
    "finding",
    "record",
    "14",
    "right feed check",
    "--occasion",
    "write-up",
    "--told",
    "seat two degrees off",
];

/// A book in which the check's seat is two degrees off, with all its metal behind it; more stands after it.
fn seat(name: &str, more: &[&str]) -> Folder {
    let folder = Folder::shop(name);
    folder.done(&[
        "part",
        "tell",
        "14",
        "right feed check",
        "--fact",
        "seat-angle=45deg",
        "--fact",
        "port=1-1/2in",
        "--shop-limit",
        "seat-wall=1/4in",
        "--document",
        "drawing",
    ]);
    let mut readings = vec![
        "seat-half-angle@fore-and-aft=43deg".to_string(),
        "seat-half-angle@athwart=43deg".to_string(),
    ];
    for place in ["front", "right", "back", "left"] {
        readings.push(format!("seat-land@{place}=1/8in"));
        readings.push(format!("seat-wall@{place}=.400in"));
    }
    let readings: Vec<&str> = readings.iter().map(String::as_str).collect();
    folder.done(&[CHECK, more, &readings].concat());
    folder
}

/// Whether a page's form offers a route.
fn offers(page: &str, route: &str) -> bool {
    page.contains(&format!("name=\"route\" value=\"{route}\""))
}

#[test]
fn the_page_of_a_seat_asks_first_whether_its_two_angles_are_meant() {
    let mut served = Served::of_book(seat("asked-first", &[]), NOW);
    served.sets_passphrase();
    let page = served.get("/finding/F-001").body;
    assert!(!offers(&page, "re-cut") && !offers(&page, "grind-in"));
    assert!(page.contains("the design of the seat: cut to one angle with its disc"));
    let tell = |design: &str| {
        let form = format!(
            "verb=part+tell&back=/finding/F-001&engine=14&part=right+feed+check&fact:seat-design={design}&document=drawing"
        );
        let told = served.post("/do", &form);
        assert_eq!(told.status, 303, "{}", told.body);
        served.get("/finding/F-001").body
    };
    let page = tell("differential");
    assert!(!offers(&page, "re-cut") && !offers(&page, "grind-in"));
    assert!(
        offers(&page, "seat-ring"),
        "a way that corrects no angle is gone too"
    );
    assert!(page.contains("seat and disc are cut to two angles on purpose"));
    // Asked for all the same, it is refused with its reason.
    let cut = format!(
        "verb=decide&back=/finding/F-001&finding=F-001&route=re-cut&because=true+it{SIGNED}"
    );
    let no = served.post("/do", &cut);
    assert_eq!(no.status, 409, "{}", no.body);
    assert!(no.body.contains("the difference is not corrected away"));
    let page = tell("matched");
    assert!(
        offers(&page, "re-cut"),
        "matched, it may be cut to its angle"
    );
    assert_eq!(served.post("/do", &cut).status, 303);
}

/// By somebody without authority, on what has changed since, against a rule: the same three at both doors.
#[test]
fn a_decision_is_refused_by_name_at_the_verb_and_at_the_form() {
    let folder = seat("refused-decisions", &["--shows", "weeps-back"]);
    folder.done(&["person", "add", "Dot Marsh", "--may", "inspect"]);
    let seen = folder.json(&["finding", "show", "F-001"])["last"]
        .as_u64()
        .unwrap();
    // The finding is measured further, by somebody else, after it was looked at.
    folder.done(&[
        "reading",
        "take",
        "14",
        "right feed check",
        "--finding",
        "F-001",
        "guide-bore@top=.7500in",
    ]);
    let now = folder.json(&["finding", "show", "F-001"])["last"]
        .as_u64()
        .unwrap();
    assert!(now > seen);
    let mut served = Served::of_book(folder, NOW);
    served.sets_passphrase();
    let head = served.folder.head();
    // By Ada: renew on an outdated page; carry, which a rule forbids.
    let cases: &[(&str, u64, &str, &str)] = &[
        ("renew", seen, "", "has changed since you looked"),
        (
            "carry",
            now,
            "2026-05-30",
            "it fails a rule: water comes back past the disc with the feed shut (230.57(b)",
        ),
    ];
    for (route, seen, recheck, said) in cases {
        let seen = seen.to_string();
        let mut words = vec![
            "decide",
            "F-001",
            route,
            "--because",
            "so",
            "--seen-entry",
            &seen,
        ];
        if !recheck.is_empty() {
            words.extend(["--recheck", recheck]);
        }
        let output = served.folder.run(&words);
        let told = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{told}");
        assert!(
            told.contains(said) && told.contains("Nothing was saved."),
            "{told}"
        );
        let form = format!(
            "verb=decide&back=/finding/F-001&finding=F-001&route={route}&because=a+reason+of+mine&seen_entry={seen}&recheck={recheck}{SIGNED}"
        );
        let no = served.post("/do", &form);
        assert_eq!(no.status, 409, "{}", no.body);
        assert!(no.body.contains(said), "{}", no.body);
        assert!(
            no.body.contains("a reason of mine"),
            "what was written is lost"
        );
    }
    // By Dot, who may inspect and no more.
    let words = [
        "decide",
        "F-001",
        "renew",
        "--because",
        "so",
        "--by",
        "Dot Marsh",
    ];
    let output = served.folder.run(&words);
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{told}");
    let named = "Dot Marsh has no authority to decide on a finding";
    assert!(told.contains(named), "{told}");
    let link = served.post("/me/link", "for=Dot+Marsh").body;
    let link = link.split("href=\"/in/").nth(1).unwrap();
    let link = format!("/in/{}", link.split('"').next().unwrap());
    let own = served.cookie();
    let inside = served.post(&link, "").cookie();
    served.sign_in_with(&inside);
    served.sets_passphrase();
    let form = format!(
        "verb=decide&back=/finding/F-001&finding=F-001&route=renew&because=so&seen_entry={now}{SIGNED}"
    );
    let no = served.post("/do", &form);
    assert_eq!(no.status, 409, "{}", no.body);
    assert!(no.body.contains(named), "{}", no.body);
    // Nothing of all this was saved; and the guard can fail: what may be decided moves the head.
    assert_eq!(served.folder.head(), head);
    served.sign_in_with(&own);
    let done = served.post("/do", &form);
    assert_eq!(done.status, 303, "{}", done.body);
    assert_ne!(served.folder.head(), head);
}
