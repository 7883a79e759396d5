//! From a worn thread's readings to the card for the lathe: what one sheet knows goes into the next, at every door, and
//! each figure says where it came from.

use crate::pages::Served;
use crate::run::Folder;

/// The readings of an invented worn stem; flank at 30 degrees and 12 threads: American, by its first line.
const READ: &str = "thread.identify?side=external&tpi=12&major=.740in&pitch_diameter=.6935in&flank_angle=30deg&hand=left&taken=1";

/// A word as it stands in an address.
fn encoded(text: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_.".contains(c);
    let each = text.chars().map(|c| match c {
        c if plain(c) => c.to_string(),
        c => format!("%{:02X}", u32::from(c)),
    });
    each.collect()
}

/// The sheet of the mate, as the one that cuts it names it.
fn mate() -> String {
    format!(
        "thread.mate?from={}&clearance=.006in&tolerance=.004in&minor=.650in&materials=bronze%2Csteel",
        encoded(READ)
    )
}

fn basis<'j>(sheet: &'j serde_json::Value, name: &str) -> &'j str {
    let mut inputs = sheet["inputs"].as_array().unwrap().iter();
    let found = inputs.find(|input| input["name"] == name);
    found.unwrap()["basis"].as_str().unwrap()
}

#[test]
fn what_a_sheet_knows_goes_into_the_next_and_says_whence() {
    let folder = Folder::new("handed-on");
    let from = format!("from={}", mate());
    let sheet = folder.json(&["sheet", "thread.cutting", &from]);
    assert_eq!(
        basis(&sheet, "side"),
        "handed on: the other than the old one's in thread.mate"
    );
    assert_eq!(
        basis(&sheet, "diameter"),
        "handed on: major_limit of thread.mate"
    );
    // .740 as read and .006 wanted, by hand.
    let mut inputs = sheet["inputs"].as_array().unwrap().iter();
    let diameter = inputs.find(|input| input["name"] == "diameter").unwrap();
    assert_eq!(diameter["entered"], "0.7460 in");
    let notices = sheet["notices"].to_string();
    for says in ["12 TPI unified", "A list proves nothing", "Left hand"] {
        assert!(notices.contains(says), "{says}: {notices}");
    }
    // What is typed stands, and it is said that it is not what was handed on.
    let sheet = folder.json(&["sheet", "thread.cutting", &from, "diameter=.750in"]);
    assert_eq!(basis(&sheet, "diameter"), "entered");
    let notices = sheet["notices"].to_string();
    assert!(notices.contains("Typed anew: diameter"), "{notices}");
    // A choice is nobody's but a person's.
    let output = folder.run(&["sheet", "thread.mate", &format!("from={READ}")]);
    let why = String::from_utf8(output.stderr).unwrap();
    assert!(
        output.status.code() == Some(2) && why.contains("needs clearance"),
        "{why}"
    );
}

#[test]
fn a_sheet_that_leads_nowhere_near_is_refused() {
    let folder = Folder::new("handed-on-refused");
    let looped = format!("from=thread.identify?from={}", encoded(READ));
    for (sheet, from, says) in [
        (
            "fit.press",
            format!("from={READ}"),
            "does not lead to fit.press",
        ),
        (
            "thread.mate",
            "from=thread.nothing?x=1".into(),
            "there is no sheet",
        ),
        ("thread.mate", "from=thread.identify?side=up".into(), "side"),
        ("thread.mate", looped, "does not lead to thread.identify"),
    ] {
        let output = folder.run(&["sheet", sheet, &from]);
        let why = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{from}: {why}");
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{says}: {why}"
        );
    }
}

#[test]
fn pages_offer_the_next_and_carry_the_figures() {
    let served = Served::signed_in("handed-on-pages");
    assert!(
        served
            .get("/sheets")
            .body
            .contains("href=\"/sheet/thread.identify\"")
    );
    let readings = READ.trim_end_matches("&taken=1");
    let page = served.get(&format!("/sheet/{readings}")).body;
    let next = format!("href=\"/sheet/thread.mate?from={}\"", encoded(READ));
    assert!(page.contains(&next), "{next}: {page}");
    let page = served
        .get(&format!("/sheet/thread.mate?from={}", encoded(READ)))
        .body;
    for says in [
        "Still to be said here, and by a person: clearance wanted on the diameter",
        "value=\".6935in\"",
        "handed on: line 1 of the list of thread.identify",
        "Goes on from",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
    let page = served.get(&format!("/sheet/{}", mate())).body;
    for kind in ["/sheet/thread.cutting?from=", "/drawing/nut?from="] {
        assert!(page.contains(kind), "{kind}: {page}");
    }
    let card = served.get(&format!(
        "/print/sheet/thread.cutting?from={}&lathe=LA-001",
        encoded(&mate())
    ));
    assert_eq!(card.status, 200, "{}", card.body);
}
