//! The start and the end of a day at the verb and at the desk: one act, refused by name, nothing lost.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

const NOW: &str = "2026-05-03T09:00";

/// A served book with one engine and somebody who may not inspect.
fn served(name: &str) -> Served {
    let folder = Folder::shop(name);
    folder.done(&["person", "add", "Cal Wren", "--may", "repair"]);
    folder.done(&["person", "add", "Dot Marsh", "--may", "inspect"]);
    let mut served = Served::of_book(folder, NOW);
    served.sets_passphrase();
    served
}

/// The rules of the daily items, in order, as the page asks for them.
fn rules(page: &str) -> Vec<String> {
    let mut rules = Vec::new();
    for piece in page.split("name=\"items:").skip(1) {
        let rule = piece.split(':').next().unwrap().to_string();
        if !rules.contains(&rule) {
            rules.push(rule);
        }
    }
    rules
}

/// A form body that answers items good.
fn answers(rules: &[String]) -> String {
    let mut body = String::from("verb=inspect+day&back=/day/14&engine=14");
    for rule in rules {
        body.push_str(&format!(
            "&items:{rule}:how=good&items:{rule}:seen=looked+at%2C+sound&items:{rule}:at="
        ));
    }
    body
}

fn refused(folder: &Folder, words: &[&str], code: i32, said: &[&str]) {
    let head = folder.head();
    let output = folder.run(words);
    let text = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(code), "{words:?}: {text}");
    for word in said.iter().chain(&["Nothing was saved."]) {
        assert!(text.contains(word), "{words:?} does not say {word}: {text}");
    }
    assert_eq!(folder.head(), head, "{words:?} moved the head");
}

#[test]
fn a_morning_on_one_page() {
    let served = served("morning");
    let folder = &served.folder;
    let page = served.get("/day/14").body;
    let all = rules(&page);
    // 49 CFR 230, Appendix A, lists 21 daily items; 230.78(c) asks for one more.
    assert_eq!(all.len(), 22);
    assert!(page.contains("None is open; saving opens it. 22 items."));
    // No item comes answered, and none is answered by a single touch for all.
    assert!(!page.contains("value=\"good\" checked"), "{page}");
    assert_eq!(page.matches("value=\"good\"").count(), 22);
    let head = folder.head();
    // A look at the page opens nothing.
    assert!(served.get("/").body.contains("href=\"/day/14\""));
    assert!(served.get("/engine/14").body.contains("href=\"/day/14\""));
    assert_eq!(folder.head(), head);

    // One item without its condition, one without what was seen: both named, both kept, the good one too.
    let (a, b, c) = (&all[0], &all[1], &all[2]);
    let body = format!(
        "verb=inspect+day&back=/day/14&engine=14&items:{a}:how=good&items:{a}:seen=lifts+at+178\
         &items:{b}:seen=left+glass+slow+to+clear&items:{c}:how=good&items:{c}:seen="
    );
    let page = served.post("/do", &body);
    assert_eq!(page.status, 409);
    for kept in [
        "item 2, ",
        "the condition is missing",
        "item 3, ",
        "what was seen is missing",
        "value=\"lifts at 178\"",
        "value=\"left glass slow to clear\"",
        "Nothing was saved.",
    ] {
        assert!(page.body.contains(kept), "{kept}: {}", page.body);
    }
    assert_eq!(page.body.matches("value=\"good\" checked").count(), 2);
    assert_eq!(folder.head(), head, "half of it was saved");

    // Three items at once, one of them a defect on a part: the inspection, a finding and the answers in one act.
    let body = format!(
        "verb=inspect+day&back=/day/14&engine=14&items:{a}:how=good&items:{a}:seen=lifts+at+178\
         &items:{b}:how=good&items:{b}:seen=clear&items:{c}:how=defect&items:{c}:at=right+feed+check&items:{c}:seen=weeps"
    );
    let saved = served.post("/do", &body);
    assert_eq!(saved.status, 303, "{}", saved.body);
    let page = served.get("/day/14").body;
    assert!(page.contains("I-001 is open: 19 of 22 items are not answered."));
    assert!(page.contains("F-001") && page.contains("lifts at 178"));
    assert_eq!(rules(&page), all[3..]);
    let shown = folder.json(&["inspect", "show", "I-001"]);
    assert_eq!(shown["items"][2]["answer"], "defect F-001");
    let finding = folder.json(&["finding", "show", "F-001"]);
    assert_eq!(finding["told"], "weeps");

    // The same form sent twice answers nothing twice.
    let head = folder.head();
    let again = served.post("/do", &body);
    assert_eq!(again.status, 409);
    assert!(again.body.contains("was answered by Ada Quill already"));
    // Closing with an item open, and with a finding nobody has decided on: both are named and the form is kept.
    let short = answers(&all[3..21]);
    let page = served.post("/do", &format!("{short}&close=yes{SIGNED}"));
    assert_eq!(page.status, 409);
    assert!(page.body.contains("I-001 cannot be closed."));
    assert!(page.body.contains("item 22 is not answered: "));
    assert!(
        page.body
            .contains("item 3 has the open finding F-001: weeps")
    );
    assert_eq!(page.body.matches("value=\"looked at, sound\"").count(), 18);
    assert_eq!(folder.head(), head, "a refused close moved the head");
    assert_eq!(served.post("/do", &answers(&all[3..])).status, 303);
    let page = served.get("/day/14").body;
    assert!(page.contains("0 of 22 items are not answered"));
    assert!(page.contains("item 3 has the open finding F-001"), "{page}");
}

#[test]
fn a_morning_with_nothing_amiss_is_one_act_and_is_closed() {
    let served = served("clean-morning");
    let folder = &served.folder;
    let all = rules(&served.get("/day/14").body);
    // Closing is a signature: without the passphrase nothing is saved and nothing is lost.
    let head = folder.head();
    let closing = format!("{}&close=yes", answers(&all));
    let unsigned = served.post("/do", &closing);
    assert_eq!(unsigned.status, 422, "{}", unsigned.body);
    assert_eq!(
        unsigned.body.matches("value=\"looked at, sound\"").count(),
        all.len()
    );
    assert_eq!(folder.head(), head);
    let saved = served.post("/do", &format!("{closing}{SIGNED}"));
    assert_eq!(saved.status, 303, "{}", saved.body);
    let page = served.get("/day/14").body;
    assert!(
        page.contains("I-001 is closed and signed by Ada Quill."),
        "{page}"
    );
    assert!(rules(&page).is_empty());
    refused(
        folder,
        &["inspect", "day", "14", "1=good: again"],
        1,
        &["is closed already, as I-001"],
    );
    assert_eq!(
        folder.json(&["check"])["differences"],
        serde_json::json!([])
    );
}

/// Words are offered again one item at a time; a figure is read anew each day.
#[test]
fn what_was_said_before_is_offered_without_figures() {
    let folder = Folder::shop("said-before");
    let yesterday = [
        "inspect",
        "day",
        "14",
        "1=good: lifts at 178",
        "2=good: both clear",
        "--on",
        "2026-05-02",
    ];
    folder.done(&yesterday);
    let shown = folder.json(&["inspect", "show", "I-001"]);
    let items = shown["items"].as_array().unwrap().iter();
    let open: Vec<String> = items
        .filter(|item| item["answer"] == "open")
        .map(|item| format!("{}=good: sound", item["item"]))
        .collect();
    let mut words = vec!["inspect", "day", "14", "--on", "2026-05-02", "--close"];
    words.extend(open.iter().map(String::as_str));
    folder.done(&words);
    let served = Served::of_book(folder, NOW);
    let page = served.get("/day/14").body;
    assert!(page.contains("<option value=\"both clear\">"), "{page}");
    assert_eq!(page.matches("<option value=\"sound\">").count(), 20);
    assert!(!page.contains("lifts at 178") && !page.contains("value=\"good\" checked"));
}

#[test]
fn a_morning_at_the_verb() {
    let folder = Folder::shop("day-verb");
    folder.done(&["person", "add", "Cal Wren", "--may", "repair"]);
    folder.done(&["person", "add", "Dot Marsh", "--may", "inspect"]);
    refused(
        &folder,
        &["inspect", "day", "14", "1=good: lifts", "--by", "Cal Wren"],
        1,
        &["Cal Wren has no authority", "Ada Quill, Dot Marsh"],
    );
    refused(
        &folder,
        &["inspect", "day", "14"],
        2,
        &["No item was answered"],
    );
    refused(
        &folder,
        &["inspect", "day", "14", "1=fine: all well"],
        2,
        &[
            "`fine` is not how item 1 was found",
            "good, fair, not-fitted or defect",
        ],
    );
    refused(
        &folder,
        &["inspect", "day", "14", "1=defect: weeps"],
        2,
        &["Item 1 has a defect", "F-004"],
    );
    refused(
        &folder,
        &["inspect", "day", "14", "1=defect@F-009: weeps"],
        2,
        &["There is no finding F-009"],
    );
    refused(
        &folder,
        &["inspect", "day", "14", "99=good: weeps"],
        2,
        &["asks no item `99`"],
    );
    refused(
        &folder,
        &["inspect", "day", "14", "1=good: lifts at 178", "--close"],
        1,
        &["I-001 cannot be closed.", "21 items are not answered"],
    );
    let made = folder.json(&[
        "inspect",
        "day",
        "14",
        "1=good: lifts at 178",
        "2=defect@right feed check: weeps, hot",
        "--by",
        "Dot Marsh",
    ]);
    assert_eq!(made["inspection"], "I-001");
    assert_eq!(made["open"], 20);
    assert_eq!(made["findings"], serde_json::json!(["F-001"]));
    // Opened, two answers, one finding: four entries of one person.
    let entries = made["entries"].as_array().unwrap();
    let (first, last) = (entries[0].as_u64().unwrap(), entries[1].as_u64().unwrap());
    assert_eq!(last - first, 3);
    let known = folder.json(&["inspect", "day", "14", "3=defect@F-001: the same check"]);
    assert_eq!(known["open"], 19);
}

#[test]
fn the_crew_reports_at_the_desk_and_nothing_to_report_is_an_entry() {
    let served = served("evening");
    let folder = &served.folder;
    let page = served.get("/day/14").body;
    assert!(page.contains("type=\"datetime-local\""));
    let head = folder.head();
    let form = "verb=writeup+report&back=/day/14&engine=14";
    let empty = served.post("/do", &format!("{form}&symptoms:1:heat=&symptoms:1:wait="));
    assert_eq!(empty.status, 422);
    assert!(empty.body.contains("The report says nothing"));
    let half = served.post(
        "/do",
        &format!(
            "{form}&symptoms:1:what=knocks+on+the+quarters&symptoms:1:heat=hot&symptoms:2:where=cab"
        ),
    );
    assert_eq!(half.status, 422);
    for kept in [
        "symptom 1: where is missing of <code>knocks on the quarters</code>",
        "symptom 2: what was noticed is missing",
        "value=\"knocks on the quarters\"",
        "value=\"hot\" checked",
        "value=\"cab\"",
    ] {
        assert!(half.body.contains(kept), "{kept}: {}", half.body);
    }
    assert_eq!(folder.head(), head);
    let clean = served.post("/do", &format!("{form}&nothing=yes"));
    assert_eq!(clean.status, 303, "{}", clean.body);
    assert_ne!(folder.head(), head, "a clean report is filed too");
    assert!(
        served
            .get("/day/14")
            .body
            .contains("Ada Quill: nothing to report")
    );
    let newest = folder.json(&["check"])["head"]["entry"].as_u64().unwrap();
    let entry = folder.json(&["entry", "show", &newest.to_string()]);
    assert_eq!(entry["kind"], "crew-reported");
    assert_eq!(entry["body"]["symptoms"], serde_json::json!([]));
    assert_eq!(
        served.post("/do", &format!("{form}&nothing=yes")).status,
        409
    );

    let told = served.post(
        "/do",
        &format!(
            "{form}&symptoms:1:what=knocks+on+the+quarters&symptoms:1:where=left+motion&symptoms:1:heat=hot\
             &symptoms:1:pressure=140+psig&symptoms:1:wait=yes"
        ),
    );
    assert_eq!(told.status, 303, "{}", told.body);
    for path in ["/day/14", "/", "/engine/14", "/work"] {
        let page = served.get(path).body;
        assert!(page.contains("href=\"/write-up/W-001\""), "{path}: {page}");
    }
    let page = served.get("/write-up/W-001").body;
    assert!(page.contains(
        "Knocks on the quarters, left motion, hot, at 140 psig; it can wait, the crew says"
    ));
    let form = "verb=writeup+answer&back=/write-up/W-001&write_up=W-001";
    let none = served.post("/do", &format!("{form}&seen=wedge+was+down"));
    assert_eq!(none.status, 422);
    assert!(
        none.body.contains("wedge was down"),
        "what was seen is lost"
    );
    refused(
        folder,
        &[
            "writeup",
            "answer",
            "W-001",
            "--no-defect",
            "--seen",
            "x",
            "--by",
            "Cal Wren",
        ],
        1,
        &["Cal Wren has no authority to answer a write-up"],
    );
    let done = served.post("/do", &format!("{form}&seen=wedge+was+down&no_defect=yes"));
    assert_eq!(done.status, 303, "{}", done.body);
    assert!(!served.get("/work").body.contains("W-001"));
    let list = folder.json(&["writeup", "list", "14"]);
    assert_eq!(list[0]["looked"]["seen"], "wedge was down");
    // The fire's times, as a telephone writes them.
    let fire = served.post(
        "/do",
        "verb=steam+log&back=/day/14&engine=14&lit=2026-05-03T05:10&up=2026-05-03T07:40&out=&gone=&miles=28",
    );
    assert_eq!(fire.status, 303, "{}", fire.body);
    assert!(served.get("/day/14").body.contains("Sun 3 May 2026 05:10"));
}

#[test]
fn who_may_not_inspect_reads_and_writes_up() {
    let mut served = served("reader");
    // The officer lets somebody in who may not inspect: no form of items, and who may is named.
    let link = served.post("/me/link", "for=Cal+Wren").body;
    let link = link.split("href=\"/in/").nth(1).unwrap();
    let link = format!("/in/{}", link.split('"').next().unwrap());
    let page = served.post(&link, "");
    served.sign_in_with(&page.cookie());
    let page = served.get("/day/14").body;
    assert!(
        page.contains("Cal Wren may not inspect; Ada Quill, Dot Marsh may."),
        "{page}"
    );
    assert!(rules(&page).is_empty() && page.contains("The crew"));
    let head = served.folder.head();
    let forced = served.post(
        "/do",
        "verb=inspect+day&back=/day/14&engine=14&items:1:how=good&items:1:seen=lifts+at+178",
    );
    assert_eq!(forced.status, 409);
    assert!(
        forced
            .body
            .contains("Cal Wren has no authority to make a daily inspection")
    );
    assert_eq!(served.folder.head(), head);
    let Served { folder, .. } = &served;
    let made = folder.json(&[
        "writeup",
        "report",
        "14",
        "gland blows; where=cab, throttle; heat=hot; pressure=140psig; wait=no",
        "coal gate bent; where=tender",
        "--told",
        "wet rail all day",
        "--by",
        "Cal Wren",
    ]);
    assert_eq!(made["write_ups"], serde_json::json!(["W-001", "W-002"]));
    let list = folder.json(&["writeup", "list"]);
    assert_eq!(list[0]["where"], "cab, throttle");
    assert_eq!(list[0]["can_wait"], false);
    assert_eq!(list[1]["heat"], serde_json::Value::Null);
    refused(
        folder,
        &["writeup", "report", "14", "knocks; where=left; heat=warm"],
        2,
        &["`warm` does not say", "hot or cold"],
    );
    refused(
        folder,
        &["writeup", "answer", "W-009", "--no-defect", "--seen", "x"],
        2,
        &["There is no write-up W-009 in this book; it has 2."],
    );
    assert_eq!(served.get("/write-up/W-003").status, 404);
}

#[test]
fn a_special_notice_and_its_lifting() {
    let served = served("notice");
    let folder = &served.folder;
    let record = [
        "finding",
        "record",
        "14",
        "right feed check",
        "--told",
        "leaks at the joint",
    ];
    let notice = ["--occasion", "special-notice"];
    refused(
        folder,
        &[&record[..], &notice[..]].concat(),
        2,
        &["A special notice needs who gave it"],
    );
    // The office and its people are invented.
    let given = [
        "--given-by",
        "Inez Hale",
        "--office",
        "Region Nine",
        "--document",
        "notice",
    ];
    folder.done(&[&record[..], &notice[..], &given[..]].concat());
    let page = served.get("/finding/F-001").body;
    assert!(
        page.contains("Given by Inez Hale, Region Nine (notice)."),
        "{page}"
    );
    assert!(page.contains("The special notice of Inez Hale, Region Nine, is not lifted"));
    let lift = |name: &'static str, office: &'static str| {
        [
            "finding",
            "lift",
            "F-001",
            "--name",
            name,
            "--office",
            office,
            "--day",
            "2026-05-03",
            "--document",
            "letter",
        ]
    };
    refused(
        folder,
        &lift("Ada Quill", "Region Nine"),
        1,
        &["Ada Quill is of this shop"],
    );
    refused(
        folder,
        &lift("Omar Reyes", "Region Two"),
        1,
        &["Omar Reyes of Region Two does not lift"],
    );
    let body = "verb=finding+lift&back=/finding/F-001&finding=F-001&name=Omar+Reyes&office=Region+Two&day=2026-05-03\
                &document=letter";
    let no = served.post("/do", body);
    assert_eq!(no.status, 409);
    assert!(no.body.contains("value=\"Region Two\""), "the form is lost");
    folder.done(&lift("Omar Reyes", "Region Nine"));
    let page = served.get("/finding/F-001").body;
    assert!(
        page.contains("by Omar Reyes, Region Nine (letter)."),
        "{page}"
    );
    assert!(!page.contains("is not lifted"));
}

/// What is below its best is told so wherever the answer stands.
#[test]
fn a_fair_item_is_fair_on_every_page_that_shows_it() {
    let served = served("fair");
    let folder = &served.folder;
    folder.done(&["inspect", "open", "14", "daily"]);
    let seen = "rough at the edge, tight";
    folder.done(&["inspect", "answer", "I-001", "2", "--fair", "--seen", seen]);
    for path in ["/day/14", "/inspection/I-001"] {
        let page = served.get(path).body;
        let (before, _) = page.split_once(seen).unwrap();
        let last = before.rsplit(['<', '>']).find(|text| {
            let text = text.trim();
            text == "fair" || text == "good"
        });
        assert_eq!(last.map(str::trim), Some("fair"), "{path}");
    }
    let shown = folder.done(&["inspect", "show", "I-001"]);
    assert!(shown.contains("fair"), "{shown}");
}
