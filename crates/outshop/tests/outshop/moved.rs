//! At the desk: words chosen again item by item, a daily put away, what others find, the move of an engine that does not
//! comply, what the shop says of itself, and her papers on one page. Refused forms come back as they were filled in.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

fn served(name: &str) -> Served {
    let folder = Folder::shop(name);
    folder.done(&["person", "add", "Dot Marsh", "--may", "inspect"]);
    let mut served = Served::of_book(folder, "2026-05-03T09:00");
    served.sets_passphrase();
    served
}

fn taken(served: &Served, body: &str) {
    let answer = served.post("/do", &format!("{body}{SIGNED}"));
    assert_eq!(answer.status, 303, "{body}: {}", answer.body);
}

/// A form that is refused: nothing is saved, and what was filled in stands in it.
fn comes_back(served: &Served, body: &str, said: &[&str]) {
    let head = served.folder.head();
    let page = served.post("/do", &format!("{body}{SIGNED}"));
    assert!((400..500).contains(&page.status), "{body}: {}", page.status);
    for words in said.iter().chain(&["Nothing was saved."]) {
        assert!(
            page.body.contains(words),
            "{body} lacks {words}: {}",
            page.body
        );
    }
    assert_eq!(served.folder.head(), head, "{body} moved the head");
}

/// Good with the words of before is one touch of one item; fair words and words with a figure are not among them.
#[test]
fn words_of_before_are_chosen_again_one_item_at_a_time() {
    let served = served("again");
    let folder = &served.folder;
    let before = [
        "1=good: first valve lifts at 178 psig",
        "2=good: both glasses quick",
        "3=fair: one shield scratched",
    ];
    folder.done(&[&["inspect", "day", "14"][..], &before].concat());
    folder.done(&["inspect", "put-away", "I-001", "--because", "rained off"]);
    let page = served.get("/day/14").body;
    assert!(
        page.contains("value=\"good: both glasses quick\""),
        "{page}"
    );
    assert!(!page.contains("good: first valve") && !page.contains("good: one shield"));
    let chosen = |word: &str| page.contains(&format!("value=\"{word}\" checked"));
    assert!(
        !chosen("good") && !chosen("good: both glasses quick"),
        "nothing comes chosen"
    );
    let rule = "us-steam.daily.water-glasses";
    taken(
        &served,
        &format!(
            "verb=inspect+day&back=/day/14&engine=14&items:{rule}:how=good:+both+glasses+quick&items:{rule}:seen="
        ),
    );
    let shown = folder.json(&["inspect", "show", "I-002"]);
    assert_eq!(shown["items"][1]["answer"], "good");
    assert!(
        shown["items"][1]["seen"]
            .as_str()
            .unwrap()
            .starts_with("both glasses quick")
    );
    // More words beside them are kept too; a condition alone still says too little.
    let rule = "us-steam.daily.glass-shields";
    taken(
        &served,
        &format!(
            "verb=inspect+day&back=/day/14&engine=14&items:{rule}:how=fair&items:{rule}:seen=scratched"
        ),
    );
    assert_eq!(
        folder.json(&["inspect", "show", "I-002"])["items"][2]["answer"],
        "fair"
    );
    let rule = "us-steam.daily.cab-lamps";
    comes_back(
        &served,
        &format!(
            "verb=inspect+day&back=/day/14&engine=14&items:{rule}:how=good:&items:{rule}:seen="
        ),
        &["what was seen is missing"],
    );
}

#[test]
fn a_daily_left_open_is_put_away_on_the_page_of_the_next_day() {
    let served = served("left");
    let folder = &served.folder;
    folder.done(&[
        "--on",
        "2026-05-02",
        "inspect",
        "day",
        "14",
        "2=good: both glasses quick",
    ]);
    let page = served.get("/day/14").body;
    assert!(page.contains("or sign that it was not completed"), "{page}");
    let form = "verb=inspect+put-away&back=/day/14&inspection=I-001&because=";
    comes_back(&served, form, &["Why I-001 was not completed was expected"]);
    taken(&served, &format!("{form}rained+off"));
    let page = served.get("/day/14").body;
    assert!(page.contains("None is open; saving opens it."), "{page}");
    for path in ["/inspection/I-001", "/work"] {
        assert!(
            served
                .get(path)
                .body
                .contains("was NOT COMPLETED: rained off"),
            "{path}"
        );
    }
    assert!(
        served
            .get("/engine/14")
            .body
            .contains("not completed: I-001 of 2026-05-02")
    );
    assert_eq!(
        folder.json(&["inspect", "show", "I-001"])["not_completed"]["because"],
        "rained off"
    );
}

#[test]
fn a_notice_and_a_failure_are_entered_at_the_desk_and_come_back_when_refused() {
    let served = served("outside");
    let folder = &served.folder;
    assert!(
        served
            .get("/engine/14")
            .body
            .contains("href=\"/notice/14\"")
    );
    let notice = "verb=finding+record&back=/notice/14&engine=14&occasion=special-notice&part=right+feed+check&told=bonnet+studs+wasted&given_by=Inez+Hale&office=";
    comes_back(
        &served,
        notice,
        &[
            "Nothing is said of the office",
            "value=\"Inez Hale\"",
            "value=\"bonnet studs wasted\"",
            "value=\"right feed check\" selected",
        ],
    );
    taken(
        &served,
        &format!("{notice}Region+Nine&document=notice+of+3+May"),
    );
    let failure =
        "verb=finding+record&back=/notice/14&engine=14&occasion=road-failure&part=&told=stuck+open";
    comes_back(&served, failure, &["value=\"stuck open\""]);
    taken(
        &served,
        "verb=finding+record&back=/notice/14&engine=14&occasion=road-failure&part=right+feed+check&told=stuck+open",
    );
    let page = served.get("/notice/14").body;
    for words in [
        "F-001",
        "F-002",
        "The special notice of Inez Hale, Region Nine, is not lifted",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert!(
        served
            .get("/finding/F-001")
            .body
            .contains("value=\"finding lift\"")
    );
    // Under the notice she moves only as it allows.
    let moved = "verb=move+decide&back=/move/14&engine=14&from=milepost+31&to=the+shop&how=in-tow&mph=10&limits=by+daylight&told=all+told\
                 &inspected_by=Dot+Marsh&inspected_at=milepost+31&inspected_on=2026-05-03";
    comes_back(
        &served,
        &format!("{moved}&under=to-repair"),
        &[
            "only as that notice allows",
            "value=\"milepost 31\"",
            "value=\"to-repair\" checked",
            "value=\"10\"",
        ],
    );
    comes_back(
        &served,
        &format!("{moved}&under=special-notice&finding=F-001"),
        &["what the special notice allows is missing"],
    );
    taken(
        &served,
        &format!("{moved}&under=special-notice&finding=F-001&allows=dead+to+the+shop"),
    );
    let page = served.get("/move/14").body;
    assert!(
        page.contains("It has not ended.") && page.contains("value=\"move end\""),
        "{page}"
    );
    comes_back(
        &served,
        "verb=move+end&back=/move/14&engine=14&how=arrived&told=",
        &["Where she stands now was expected"],
    );
    taken(
        &served,
        "verb=move+end&back=/move/14&engine=14&how=arrived&told=track+2",
    );
    let list = folder.json(&["move", "list", "14"]);
    assert_eq!(list[0]["ended"]["told"], "track 2");
    assert_eq!(list[0]["under"], "special-notice");
    // She is stopped as before.
    assert!(served.get("/engine/14").body.contains("is not lifted"));
}

#[test]
fn what_the_shop_says_of_itself_is_stated_on_its_page() {
    let served = served("particular");
    let page = served.get("/shop").body;
    assert!(
        page.contains("the owner") && page.contains("not stated"),
        "{page}"
    );
    let form = "verb=shop+state&back=/shop&what=boiler-number&says=31";
    comes_back(&served, form, &["her number was expected", "value=\"31\""]);
    taken(&served, &format!("{form}&engine=14"));
    taken(
        &served,
        "verb=shop+state&back=/shop&what=owner&says=the+museum+society",
    );
    let page = served.get("/shop").body;
    assert!(
        page.contains("31 (Ada Quill, from Sun 3 May 2026)"),
        "{page}"
    );
    assert!(page.contains("the museum society (Ada Quill"));
}

/// Her papers on one page: each with its section; what is missing of the shop is named until it is stated.
#[test]
fn her_papers_stand_on_one_page() {
    let served = served("papers");
    let page = served.get("/engine/14/papers").body;
    for words in [
        "What must stand in her cab or on herself",
        "What goes where, by when",
        "What is kept, and how long",
        "230.18(b)",
        "230.46",
        "Within 30 days of",
        "For the life of the boiler",
        "The regional office that reports are filed with is not stated",
        "The official form and the text of the law in force govern",
    ] {
        assert!(page.contains(words), "{words}");
    }
    taken(
        &served,
        "verb=shop+state&back=/shop&what=region&says=the+invented+region",
    );
    let page = served.get("/engine/14/papers").body;
    assert!(!page.contains("The regional office that reports are filed with is not stated"));
    let paper = served.get("/print/duties/14");
    assert!(paper.body.starts_with("%PDF-1.7"));
}
