//! Cards on the wall: what their bars say is read at every door, and a superseded one is said so, with what changed. And the
//! rings of a seat that is lapped, stated and shown.

use crate::pages::Served;
use crate::run::Folder;

const CUT: [&str; 6] = [
    "thread.cutting",
    "form=unified",
    "tpi=12",
    "side=internal",
    "material=bronze",
    "--lathe",
];

fn keep(folder: &Folder, diameter: &str, more: &[&str]) -> std::process::Output {
    folder.run(&[&["card", "keep"], &CUT[..], &["LA-001", diameter], more].concat())
}

fn shop(name: &str) -> Folder {
    let folder = Folder::shop(name);
    folder.done(&[
        "lathe",
        "add",
        "sixteen-inch",
        "--speeds",
        "28, 95, 290",
        "--cross-reads",
        "radius",
        "--cross-graduation",
        ".001 in",
    ]);
    folder
}

#[test]
fn a_superseded_card_says_by_which_revision_when_and_what_changed() {
    let folder = shop("cards");
    let first = keep(&folder, "diameter=.746in", &[]);
    assert_eq!(first.status.code(), Some(0), "{first:?}");
    let told = folder.done(&["card", "read", "C-001 R1"]);
    assert!(
        told.contains("is the newest, and worked again today it reads the same"),
        "{told}"
    );
    // The same again is no revision; another sheet is none of this card; and why is asked.
    for (diameter, more, says) in [
        (
            "diameter=.746in",
            &["--revises", "C-1", "--because", "again"][..],
            "says this already",
        ),
        (
            "diameter=.750in",
            &["--revises", "C-1", "--because", " "][..],
            "Why C-001 is revised",
        ),
        (
            "diameter=.750in",
            &["--revises", "C-9", "--because", "x"][..],
            "no card C-009",
        ),
    ] {
        let refused = keep(&folder, diameter, more);
        let why = String::from_utf8(refused.stderr).unwrap();
        assert_eq!(refused.status.code(), Some(2), "{says}: {why}");
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{says}: {why}"
        );
    }
    let second = keep(
        &folder,
        "diameter=.750in",
        &["--revises", "C-1", "--because", "measured again"],
    );
    assert_eq!(second.status.code(), Some(0), "{second:?}");
    // By the verb for it, and by find, which is where a hand reader writes.
    for door in [
        &["card", "read", "C-001 R1"][..],
        &["find", "C-001 R1"],
        &["find", "c-1", "r1"],
    ] {
        let read = folder.run(door);
        let text = String::from_utf8(read.stdout).unwrap();
        assert_eq!(read.status.code(), Some(1), "{door:?}: {text}");
        for says in [
            "SUPERSEDED: C-001 revision 1 was superseded by revision 2 on Sun 3 May 2026, by Ada Quill, because measured again",
            "was diameter = .746in; is diameter = .750in",
            // Bore before the thread: the diameter less twice .541266 of the pitch, by hand .6558 and .6598.
            "was diameter_before = 0.6558 in; is diameter_before = 0.6598 in",
        ] {
            assert!(text.contains(says), "{says}: {text}");
        }
    }
    // The newest does not stand once the lathe is told otherwise: worked again it reads otherwise, and what is said.
    folder.done(&["lathe", "tell", "LA-1", "--cross-reads", "diameter"]);
    let read = folder.run(&["card", "read", "C-001 R2"]);
    let text = String::from_utf8(read.stdout).unwrap();
    assert_eq!(read.status.code(), Some(1));
    assert!(
        text.contains("DO NOT WORK TO IT") && text.contains("dial reads diameter"),
        "{text}"
    );
    let printed = folder.done(&["print", "card", "C-001"]);
    assert!(printed.contains("C-001 R2.pdf"), "{printed}");
    for (code, says) in [
        ("C-001 R7", "has no revision 7: it has 2"),
        ("C-009 R1", "no card C-009"),
        ("nothing", "is not what the bars of a card say"),
        ("C-001", "is not what the bars of a card say"),
    ] {
        let refused = folder.run(&["card", "read", code]);
        let why = String::from_utf8(refused.stderr).unwrap();
        assert!(
            refused.status.code() == Some(2) && why.contains(says),
            "{code}: {why}"
        );
    }
}

#[test]
fn the_pages_keep_read_and_print_a_card() {
    let served = Served::of_book(shop("cards-page"), "2026-05-03T09:00");
    let asked = "form=unified&tpi=12&side=internal&material=bronze&diameter=.746in&lathe=LA-001";
    let page = served.get(&format!("/sheet/thread.cutting?{asked}")).body;
    assert!(
        page.contains("name=\"given\" value=\"diameter=.746in\""),
        "{page}"
    );
    let given = "given=form%3Dunified&given=tpi%3D12&given=side%3Dinternal&given=material%3Dbronze";
    let keep = format!(
        "verb=card+keep&back=%2Fsheet%2Fthread.cutting%3F{}&then=card&sheet=thread.cutting&{given}&lathe=LA-001",
        asked.replace('&', "%26").replace('=', "%3D")
    );
    let kept = served.post("/do", &format!("{keep}&given=diameter%3D.746in"));
    assert!(
        kept.head.contains("/card/C-001"),
        "{} {}",
        kept.head,
        kept.body
    );
    // One that is refused comes back to the sheet it was worked on, with its figures.
    let refused = served.post(
        "/do",
        &format!("{keep}&given=diameter%3D.746in&revises=C-001&because=again"),
    );
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(
        refused.body.contains("says this already") && refused.body.contains("value=\".746in\""),
        "{}",
        refused.body
    );
    let revised = served.post(
        "/do",
        &format!("{keep}&given=diameter%3D.750in&revises=C-001&because=again"),
    );
    assert_eq!(revised.status, 303, "{}", revised.body);
    for page in ["/cards?code=C-001+R1", "/find?q=C-001+R1"] {
        let body = served.get(page).body;
        for says in [
            "SUPERSEDED: C-001 revision 1",
            "because again",
            "0.6598",
            "href=\"/card/C-001\"",
        ] {
            assert!(body.contains(says), "{page}: {says}: {body}");
        }
    }
    let card = served.get("/card/C-001").body;
    assert!(
        card.contains("C-001 R2") && card.contains("reads the same"),
        "{card}"
    );
    assert_eq!(served.get("/print/card/C-001").status, 200);
    assert_eq!(served.get("/card/C-002").status, 404);
}

#[test]
fn rings_stand_in_a_row_and_a_refused_one_is_not_lost() {
    let served = Served::signed_in("rings");
    let page = served.get("/job/J-001").body;
    for says in [
        "touches 190 of 360",
        "touches all round; ring 1/32 in to 3/64 in",
        "aria-label=\"seat, against its master, after 320 grit: touches all round\"",
    ] {
        assert!(
            page.replace("(190 of 360 degrees)", "touches 190 of 360")
                .contains(says),
            "{says}: {page}"
        );
    }
    assert!(page.matches("class=\"ring\"").count() >= 7, "{page}");
    // J-001 is closed: nothing more is stated of it.
    assert!(!page.contains("State a blue check"), "{page}");
}

#[test]
fn what_is_no_ring_is_refused_in_a_sentence() {
    let folder = Folder::shop("rings-refused");
    let blue = ["blue", "J-001", "seat", "--after", "320 grit", "--touches"];
    for (words, says) in [
        (["everywhere", "--told", "x"], "arcs such as 20-140"),
        (["all round", "--width", "wide"], "no width of a ring"),
        (["all round", "--told", "x"], "no job J-001"),
    ] {
        let output = folder.run(&[&blue[..], &words[..]].concat());
        let why = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{words:?}: {why}");
        assert!(why.contains("Nothing was saved."), "{why}");
        // The job is asked for first: there is none in this book.
        assert!(
            why.contains(says) || why.contains("no job J-001"),
            "{says}: {why}"
        );
    }
}
