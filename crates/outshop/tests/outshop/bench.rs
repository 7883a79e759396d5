//! The bench: its page as a plain form, and the door by which a device hands in what it wrote without a signal.
#![allow(
    clippy::disallowed_methods,
    reason = "a device has a clock of its own, and one test is timed"
)]

use std::time::{SystemTime, UNIX_EPOCH};

use serde_json::{Value, json};

use crate::pages::{Page, Served};

const LAND: &str = "/bench/14/right%20feed%20check/seat-land";

/// What a device knows of who is at it: the person's id, and what vouches for them.
pub fn pocket(page: &Page) -> (String, String) {
    let set = page
        .head
        .lines()
        .find_map(|line| line.strip_prefix("set-cookie: outshop_bench="));
    let set = set.unwrap();
    // Scripts read it, pages of the bench alone, and no other site makes it travel.
    assert!(
        set.contains("Path=/bench;")
            && set.contains("SameSite=Strict")
            && !set.contains("HttpOnly"),
        "{set}"
    );
    let mut parts = set.split(';').next().unwrap().split('.');
    (
        parts.next().unwrap().to_string(),
        parts.next().unwrap().to_string(),
    )
}

fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap();
    i64::try_from(since.as_millis()).unwrap()
}

fn hand_in(served: &Served, now: i64, sets: &[Value]) -> Value {
    let page = served.post(
        "/bench/send",
        &json!({ "now": now, "sets": sets }).to_string(),
    );
    assert_eq!(page.status, 200, "{}", page.body);
    serde_json::from_str(&page.body).unwrap()
}

fn set(id: u128, who: &(String, String), written: i64, readings: &[&str]) -> Value {
    json!({
        "id": format!("{id:032x}"), "person": who.0, "ticket": who.1, "written": written, "seen": 0,
        "take": { "engine": "14", "part": "right feed check", "readings": readings },
    })
}

/// Every set of readings of the check, oldest first, as the book tells it.
fn told(served: &Served) -> Vec<Value> {
    let told = served
        .folder
        .json(&["part", "show", "14", "right feed check", "--book", "d.book"]);
    told["readings"].as_array().unwrap().clone()
}

fn sets(served: &Served) -> usize {
    told(served).len()
}

#[test]
fn without_scripts_it_is_a_form_with_all_places_and_the_instrument_said_once() {
    let served = Served::signed_in("bench-form");
    let page = served.get(LAND);
    assert_eq!(page.status, 200, "{}", page.body);
    assert_eq!(page.body.matches("name=\"at:seat-land@").count(), 4);
    assert_eq!(page.body.matches("<svg class=\"spot\"").count(), 4);
    for said in [
        "As this phone had it at 18:00, Sat 16 May 2026.",
        "last left 3/32",
        "Advice only.",
    ] {
        assert!(page.body.contains(said), "{said}: {}", page.body);
    }
    // Scripts are files of this desk, here and at the way in, and nowhere else.
    let policy = |path: &str| {
        let head = served.get(path).head;
        head.lines()
            .find(|line| line.starts_with("content-security-policy"))
            .unwrap()
            .to_string()
    };
    let here = policy(LAND);
    assert!(
        here.contains("script-src 'self'; connect-src 'self'; worker-src 'self'")
            && !here.contains("unsafe"),
        "{here}"
    );
    assert!(policy("/in").contains("script-src 'self'"));
    for other in ["/", "/engine/14", "/people", "/asset/desk.css"] {
        assert!(!policy(other).contains("script-src"), "{other}");
    }
    let body = served.get(LAND).body;
    assert_eq!(body.matches("<script").count(), 1);
    for inline in ["onclick", " style=", "javascript:"] {
        assert!(!body.contains(inline), "{inline}");
    }
    // A bare number is taken because the field shows its unit; a reading that says its own instrument keeps it.
    let before = sets(&served);
    let fields = "verb=reading+take&back=/bench/14/right%2520feed%2520check/seat-land&engine=14&part=right+feed+check&as_left=yes\
                  &unit:seat-land=in&with=&with=dividers";
    let kept = served.post(
        "/do",
        &format!("{fields}&at:seat-land@front=3/32&at:seat-land@back=.094+by+glass"),
    );
    assert_eq!(kept.status, 303, "{}", kept.body);
    let told = told(&served);
    let newest = told.last().unwrap();
    assert_eq!(told.len(), before + 1);
    assert_eq!(newest["state"], "as-left");
    assert_eq!(newest["readings"][0]["written"], "3/32 in");
    assert_eq!(newest["readings"][0]["instrument"], "dividers");
    assert_eq!(newest["readings"][1]["instrument"], "glass");
    // What is refused comes back filled in, instrument and all.
    let no = served.post(
        "/do",
        &format!("{fields}&at:seat-land@front=332&at:seat-land@left=5/64"),
    );
    assert_eq!(no.status, 422);
    for lost in [
        "value=\"332\"",
        "value=\"5/64\"",
        "value=\"dividers\"",
        "lost its fraction bar",
    ] {
        assert!(no.body.contains(lost), "{lost}: {}", no.body);
    }
    for missing in [
        "/bench/14/right%20feed%20check/none",
        "/bench/14/none/pin",
        "/bench/99/x/y",
    ] {
        assert_eq!(served.get(missing).status, 404, "{missing}");
    }
    let list = served.get("/bench/?engine=14");
    assert!(
        list.body.contains(LAND) && list.body.contains("J-002"),
        "{}",
        list.body
    );
}

#[test]
fn what_is_handed_in_is_saved_once_as_whoever_wrote_it() {
    let mut served = Served::signed_in("bench-door");
    let ada = pocket(&served.get(LAND));
    let (before, at) = (sets(&served), now());
    let one = set(
        1,
        &ada,
        at - 60_000,
        &["seat-land@front=5/32 in by dividers"],
    );
    let kept = hand_in(&served, at, std::slice::from_ref(&one));
    assert_eq!(kept["sets"][0]["fate"], "kept", "{kept}");
    assert_eq!(kept["clock"], Value::Null);
    for _ in 0..2 {
        let again = hand_in(&served, at + 5, std::slice::from_ref(&one));
        assert_eq!(again["sets"][0]["fate"], "already");
        assert_eq!(again["sets"][0]["entry"], kept["sets"][0]["entry"]);
    }
    let other = set(1, &ada, at, &["seat-land@front=9/64 in"]);
    let no = hand_in(&served, at, &[other]);
    assert_eq!(no["sets"][0]["fate"], "refused", "{no}");
    assert_eq!(sets(&served), before + 1);
    // A reading that is questioned is told in words, and those beside it are kept.
    let grown = set(2, &ada, at, &["seat-wall@front=4.60 in"]);
    let good = set(3, &ada, at, &["seat-land@left=5/32 in"]);
    let mixed = hand_in(&served, at, &[grown, good]);
    assert_eq!(mixed["sets"][0]["fate"], "refused");
    assert!(
        mixed["sets"][0]["said"]
            .as_str()
            .unwrap()
            .contains("Is that right?"),
        "{mixed}"
    );
    assert_eq!(mixed["sets"][1]["fate"], "kept");
    // What somebody else measured meanwhile is said, and both stand.
    let ben = [
        "reading",
        "take",
        "14",
        "right feed check",
        "seat-land@front=5/32in",
        "--by",
        "Ben Ostrow",
        "--book",
        "d.book",
    ];
    served.folder.done(&ben);
    // Nobody signs in with it, and it speaks for its own person alone, whoever is signed in.
    served.sign_in_with("");
    let later = set(4, &ada, at, &["seat-land@right=5/32 in"]);
    let told = hand_in(&served, at, &[later]);
    assert_eq!(told["sets"][0]["fate"], "kept");
    let said = told["sets"][0]["said"].as_str().unwrap();
    assert!(said.contains("Ben Ostrow measured this part too"), "{said}");
    let forged = (format!("{:032x}", 77), ada.1.clone());
    let stranger = (ada.0.clone(), "0".repeat(64));
    for who in [&forged, &stranger] {
        let no = hand_in(&served, at, &[set(5, who, at, &["seat-land@back=5/32 in"])]);
        assert_eq!(no["sets"][0]["fate"], "whose", "{no}");
    }
    served.sign_in_with(&format!("outshop_desk={}", ada.1));
    assert_eq!(served.get("/").status, 303, "it opens no page");
    assert_eq!(sets(&served), before + 4);
    // A clock that is hours off is said, and the day is reckoned from how long ago it was written.
    let hours = 3 * 3_600_000;
    let slow = hand_in(
        &served,
        at - hours,
        &[set(6, &ada, at - hours - 1000, &["seat-land@back=5/32 in"])],
    );
    let said = slow["clock"].as_str().unwrap();
    assert!(said.contains("3 h 0 min behind the book's"), "{said}");
    let yesterday = set(7, &ada, at - 86_400_000, &["seat-land@back=5/32 in"]);
    assert_eq!(
        hand_in(&served, at, &[yesterday])["sets"][0]["fate"],
        "kept"
    );
    let told = self::told(&served);
    let days: Vec<_> = told.iter().map(|set| &set["on"]).collect();
    assert!(
        days.contains(&&json!("2026-05-15")) && days.contains(&&json!("2026-05-16")),
        "{days:?}"
    );
    // What is no queue is said, and nothing is half taken.
    for bad in ["", "{}", "{\"now\":1,\"sets\":[{\"id\":\"x\"}]}"] {
        let page = served.post("/bench/send", bad);
        assert_eq!(page.status, 422, "{bad}");
        assert!(page.body.contains("Nothing was saved"), "{}", page.body);
    }
    let many: Vec<Value> = (0..201)
        .map(|n| set(100 + n, &ada, at, &["seat-land@back=5/32 in"]))
        .collect();
    let page = served.post(
        "/bench/send",
        &json!({ "now": at, "sets": many }).to_string(),
    );
    assert_eq!(page.status, 422);
    assert_eq!(sets(&served), before + 6);
    served.folder.done(&["check", "--book", "d.book"]);
}

/// Five hundred readings of a queue, timed: forty-two times a pin's twelve. Nothing fails for being slow on a busy machine
/// but an order of size.
#[test]
fn five_hundred_readings_land_at_once() {
    let served = Served::signed_in("bench-500");
    let pin = [
        "part",
        "add",
        "14",
        "right main pin",
        "--family",
        "crank-pin",
        "--by",
        "Ada Quill",
        "--book",
        "d.book",
    ];
    served.folder.done(&pin);
    let ada = pocket(&served.get(LAND));
    let at = now();
    let mut twelve = Vec::new();
    for along in ["inner", "middle", "outer"] {
        for way in ["vertical", "level", "rising", "falling"] {
            twelve.push(format!(
                "pin@{along} {way}=6.934 in by outside micrometer M-3"
            ));
        }
    }
    let queue: Vec<Value> = (0..42)
        .map(|n| {
            let take = json!({ "engine": "14", "part": "right main pin", "readings": twelve });
            json!({ "id": format!("{:032x}", 1000 + n), "person": ada.0, "ticket": ada.1, "written": at, "seen": 0, "take": take })
        })
        .collect();
    let begun = SystemTime::now();
    let answer = hand_in(&served, at, &queue);
    let took = begun.elapsed().unwrap();
    let sets = answer["sets"].as_array().unwrap().iter();
    assert_eq!(
        sets.filter(|set| set["fate"] == "kept").count(),
        42,
        "{answer}"
    );
    println!("504 readings in 42 sets landed in {took:?}");
    assert!(took.as_secs() < 10, "{took:?}");
}
