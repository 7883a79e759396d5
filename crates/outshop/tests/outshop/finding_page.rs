//! A finding's page beyond its verdict: what it asks to be measured, the clock it starts, until when it is carried, and what
//! else is open where the same things must come off.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

const NOW: &str = "2026-05-03T09:00";

fn found(folder: &Folder, part: &str, more: &[&str]) {
    let words = ["finding", "record", "14", part, "--occasion", "write-up"];
    folder.done(&[&words[..], &["--told", "looked at"], more].concat());
}

/// Where in a page a sentence begins.
fn at(page: &str, words: &str) -> usize {
    page.find(words)
        .unwrap_or_else(|| panic!("{words} is not on the page: {page}"))
}

#[test]
fn a_broken_bolt_is_measured_timed_and_carried_from_its_own_page() {
    let folder = Folder::shop("bolt-page");
    let bolt = ["part", "add", "14", "bolt", "--family", "staybolt"];
    folder.done(&[&bolt[..], &["--fact", "other-broken-bolts=none"]].concat());
    found(&folder, "bolt", &["telltale@outer end=1-3/8in"]);
    let mut served = Served::of_book(folder, NOW);
    served.sets_passphrase();
    let page = served.get("/finding/F-001").body;
    // It asks for what it has not, and for no more.
    let asked = |page: &str, place: &str| page.contains(&format!("name=\"at:{place}\""));
    assert!(asked(&page, "sound-around@inside the firebox"));
    assert!(!asked(&page, "telltale@outer end"));
    let read = "verb=reading+take&back=/finding/F-001&engine=14&part=bolt&finding=F-001";
    // A bare number means the unit that stands beside it; one without is refused and not lost.
    let no = served.post(
        "/do",
        &format!("{read}&at:sound-around@inside+the+firebox=thirty"),
    );
    assert_eq!(no.status, 422, "{}", no.body);
    assert!(no.body.contains("value=\"thirty\""), "it was lost");
    let kept = served.post(
        "/do",
        &format!("{read}&unit:sound-around=in&at:sound-around@inside+the+firebox=30"),
    );
    assert_eq!(kept.status, 303, "{}", kept.body);
    let page = served.get("/finding/F-001").body;
    assert!(page.contains("More was read for it Sun 3 May 2026, by Ada Quill."));
    assert!(!asked(&page, "sound-around@inside the firebox"));
    // At the bench too: a place that it has is not read again before it is decided on.
    let bench = |feature: &str| {
        served
            .get(&format!("/bench/14/bolt/{feature}?finding=F-001&left=no"))
            .body
    };
    assert!(asked(&bench("thread"), "thread@inside sheet"));
    let has = bench("telltale");
    assert!(!asked(&has, "telltale@outer end"));
    assert!(has.contains("F-001 has every place of this"));
    // Nobody said that it counts as broken: the page asks, and the clock runs once it is said.
    assert!(page.contains("Does it start this clock?"));
    let opens =
        "verb=finding+opens&back=/finding/F-001&finding=F-001&rule=us-steam.clock.broken-staybolt";
    assert_eq!(served.post("/do", opens).status, 303);
    let page = served.get("/finding/F-001").body;
    assert!(!page.contains("Does it start this clock?"));
    // 49 CFR 230.39(b), 2015 edition: 30 calendar days from 3 May.
    assert!(page.contains("through Tue 2 Jun 2026"), "{page}");
    let carry = |day: &str| {
        format!(
            "verb=decide&back=/finding/F-001&finding=F-001&route=carry&because=alone&recheck={day}{SIGNED}"
        )
    };
    let no = served.post("/do", &carry("2026-06-03"));
    assert_eq!(no.status, 409, "{}", no.body);
    assert!(no.body.contains("cannot be carried to 2026-06-03"));
    assert_eq!(served.post("/do", &carry("2026-06-02")).status, 303);
    // Until when it is carried, and why, is read before the routes.
    let page = served.get("/finding/F-001").body;
    let routes = at(&page, "Routes, side by side");
    assert!(at(&page, "To be looked at again Tue 2 Jun 2026") < at(&page, "looked at</p>"));
    assert!(at(&page, "Decided: carry") < routes);
}

#[test]
fn what_is_reached_the_same_way_stands_on_the_page_of_the_finding_and_of_its_job() {
    let folder = Folder::shop("apart-page");
    folder.done(&[
        "part",
        "add",
        "14",
        "left feed check",
        "--family",
        "check-valve",
    ]);
    folder.done(&[
        "part",
        "add",
        "14",
        "whistle valve",
        "--family",
        "stop-valve",
    ]);
    let told = ["--document", "looked at"];
    for (part, reach) in [
        ("right feed check", "running board bracket"),
        ("left feed check", "running board bracket"),
        ("whistle valve", "dome casing"),
    ] {
        folder.done(&[&["part", "tell", "14", part, "--reach", reach], &told[..]].concat());
        found(&folder, part, &[]);
    }
    folder.done(&["decide", "F-001", "renew", "--because", "a spare lies here"]);
    folder.done(&["job", "make", "F-001"]);
    let served = Served::of_book(folder, NOW);
    for path in ["/finding/F-001", "/job/J-001"] {
        let page = served.get(path).body;
        let from = at(&page, "While it is apart");
        let section = page[from..].split("</section>").next().unwrap();
        assert!(section.contains("running board bracket"), "{section}");
        assert!(section.contains("/finding/F-002"), "{section}");
        assert!(!section.contains("/finding/F-001"), "{section}");
        assert!(!section.contains("/finding/F-003"), "{section}");
    }
    let alone = served.get("/finding/F-003").body;
    assert!(!alone.contains("While it is apart"));
    // The list of all that is open leads to the job of what is in work.
    assert!(
        served
            .get("/engine/14/open")
            .body
            .contains("href=\"/job/J-001\"")
    );
}
