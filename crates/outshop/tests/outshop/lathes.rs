//! Lathes at their doors: typed, as JSON, on pages, and found by their words.

use crate::pages::Served;
use crate::run::Folder;

#[test]
fn a_lathe_is_stated_bit_by_bit_and_what_is_not_stays_not_known() {
    let folder = Folder::shop("lathes");
    let add = ["lathe", "add", "the sixteen-inch", "--leadscrew", "4 TPI"];
    assert_eq!(folder.json(&add)["lathe"], "LA-001");
    folder.done(&[
        "lathe",
        "tell",
        "la-1",
        "--thread-dial",
        "16, 8",
        "--cross-reads",
        "diameter",
        "--cross-graduation",
        ".001 in",
        "--swing-slide",
        "9-1/4 in",
    ]);
    let shown = folder.json(&["lathe", "show", "LA-001"]);
    assert_eq!(shown["thread_dial"], "worm wheel of 16 teeth, 8 lines");
    assert_eq!(shown["swing_slide"], "9 1/4 in");
    assert!(
        shown["wheels"].is_null() && shown["spindle_ratio"].is_null(),
        "{shown}"
    );
    let text = folder.done(&["lathe", "show", "LA-001"]);
    for line in [
        "Pitch of the leadscrew: 4 TPI",
        "Teeth of the change wheels: not known",
        "The cross-slide's dial reads: diameter",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
    let found = folder.done(&["find", "LA-1"]);
    assert!(found.contains("the sixteen-inch"), "{found}");
    let head = folder.head();
    for (told, says) in [
        (["--leadscrew", "4"], "leadscrew"),
        (["--wheels", "24, many"], "list of whole numbers"),
        (["--thread-dial", "16"], "thread dial"),
        (["--cross-reads", "both"], "radius or diameter"),
        (["--swing-bed", "16"], "with its unit"),
        (["--stud", "-3"], "whole number"),
    ] {
        let flag = format!("{}={}", told[0], told[1]);
        let output = folder.run(&["lathe", "tell", "LA-001", &flag]);
        let why = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{flag}: {why}");
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{flag}: {why}"
        );
    }
    assert_eq!(folder.head(), head);
}

#[test]
fn the_pages_of_lathes_do_the_same() {
    let served = Served::of_book(Folder::shop("lathes-page"), "2026-05-03T09:00");
    assert!(served.get("/sheets").body.contains("href=\"/lathes\""));
    let add = "verb=lathe+add&back=%2Flathes&then=lathe&name=sixteen-inch&leadscrew=";
    let refused = served.post("/do", &format!("{add}4"));
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(
        refused.body.contains("value=\"sixteen-inch\""),
        "{}",
        refused.body
    );
    let added = served.post("/do", &format!("{add}4+TPI"));
    assert!(
        added.head.contains("/lathe/LA-001"),
        "{} {}",
        added.head,
        added.body
    );
    let tell = "verb=lathe+tell&back=%2Flathe%2FLA-001&number=LA-001&thread_dial=none&cross_reads=";
    assert_eq!(served.post("/do", &format!("{tell}radius")).status, 303);
    let page = served.get("/lathe/LA-001").body;
    for says in ["4 TPI", "none", "radius", "not known"] {
        assert!(page.contains(says), "{says}: {page}");
    }
    assert!(served.get("/lathes").body.contains("13 of 16 not known"));
    assert_eq!(served.get("/lathe/LA-009").status, 404);
}

#[test]
fn a_thread_has_the_settings_of_its_lathe_at_every_door() {
    let served = Served::of_book(Folder::shop("lathe-settings"), "2026-05-03T09:00");
    let add = "verb=lathe+add&back=%2Flathes&then=lathe&name=sixteen-inch&leadscrew=4+TPI&wheels=24,24,48&spindle_ratio=1&thread_dial=none&speeds=30,90";
    assert_eq!(served.post("/do", add).status, 303);
    let asked = "form=unified&tpi=8&diameter=1in&side=external&material=steel&lathe=LA-001";
    let page = served.get(&format!("/sheet/thread.cutting?{asked}")).body;
    for says in [
        "Settings for LA-001, sixteen-inch",
        "24/48: exact",
        "no thread dial",
        "90 turns a minute",
        "not known: state",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
    let card = served.get(&format!("/print/sheet/thread.cutting?{asked}"));
    assert_eq!(card.status, 200);
    let folder = Folder::shop("lathe-settings-typed");
    folder.done(&["lathe", "add", "sixteen-inch", "--thread-dial", "none"]);
    let words = [
        "sheet",
        "thread.cutting",
        "form=unified",
        "tpi=8",
        "diameter=1in",
        "side=external",
        "material=steel",
        "--lathe",
        "LA-1",
    ];
    let told = folder.json(&words);
    assert_eq!(told["lathe"]["settings"][0]["not_known"], true, "{told}");
    // A result that cannot be told without run-out makes it exit with 1.
    let text = String::from_utf8(folder.run(&words).stdout).unwrap();
    assert!(text.contains("Half nuts: no thread dial"), "{text}");
    let other = [
        "sheet",
        "fit.iso",
        "size=1in",
        "fit=H7/g6",
        "--lathe",
        "LA-1",
    ];
    let output = folder.run(&other);
    let why = String::from_utf8(output.stderr).unwrap();
    assert!(
        output.status.code() == Some(2) && why.contains("lathe.turning"),
        "{why}"
    );
}

/// A lathe of invented sizes, all of it stated.
const ALL: [&str; 27] = [
    "lathe",
    "add",
    "sixteen-inch",
    "--leadscrew",
    "4 TPI",
    "--wheels",
    "24, 24, 48, 60",
    "--stud",
    "15",
    "--spindle-ratio",
    "1",
    "--speeds",
    "28, 95, 290, 520",
    "--cross-reads",
    "diameter",
    "--cross-graduation",
    ".001 in",
    "--swing-slide",
    "9-1/4 in",
    "--centers",
    "54 in",
    "--swivel-graduation",
    "1 deg",
    "--swivel-zero",
    "bed",
    "--set-over",
    "7/8 in",
];

fn says(told: &serde_json::Value) -> String {
    let all = told["lathe"]["settings"].as_array().unwrap().iter();
    let all = all.map(|it| format!("{}: {}", it["setting"], it["says"]));
    all.collect::<Vec<_>>().join("\n")
}

#[test]
fn turning_and_tapers_have_settings_too() {
    let folder = Folder::shop("lathe-turning");
    folder.done(&ALL);
    let turning = [
        "sheet",
        "lathe.turning",
        "material=bronze",
        "tool=hss",
        "diameter=2in",
        "length=3in",
        "depth=.05in",
        "feed=.006in",
        "--lathe",
        "LA-1",
    ];
    let told = says(&folder.json(&turning));
    // 250 and 500 ft/min on 2 in: 477 and 954 turns (12 V over pi d, by hand); .05 deep is .100 on a dial of diameter.
    for line in [
        "290 turns a minute to begin with (477 by the sheet); 520 once",
        "dial reads diameter: 100.0 graduations of .0010 in",
        "2 in swings over the cross-slide (9 1/4 in)",
    ] {
        assert!(told.contains(line), "{line}: {told}");
    }
    let taper = [
        "sheet",
        "lathe.taper",
        "large=1.5in",
        "small=1.25in",
        "length=4in",
        "between_centers=8in",
        "--lathe",
        "LA-1",
    ];
    let told = says(&folder.json(&taper));
    // Half of .25 over 4 in: 1.79 degrees; on the line of 2 the diameter is 8 tan 2 deg - .25 = .0294 off.
    for line in [
        "1.79 degrees by its scale",
        "on its nearest line, 2.00, the diameter is off by .0294 in",
        ".2500 in over, of the 7/8 in it goes",
        "8.000 in of work, 54 in between them",
    ] {
        assert!(told.contains(line), "{line}: {told}");
    }
    // Without the whole length the tailstock cannot be told, and that is said.
    let told = says(&folder.json(&[&taper[..5], &taper[6..]].concat()));
    assert!(
        told.contains("tell the sheet the length of the whole work"),
        "{told}"
    );
    folder.done(&["lathe", "add", "bare"]);
    let bare = folder.json(&[&taper[..7], &["LA-2"]].concat());
    assert_eq!(bare["lathe"]["settings"][0]["not_known"], true, "{bare}");
    assert!(
        says(&bare).contains("--swivel-graduation … --swivel-zero …"),
        "{bare}"
    );
}

#[test]
fn what_a_lathe_has_goes_into_the_sheets_that_ask_it() {
    let folder = Folder::shop("lathe-fills");
    folder.done(&ALL);
    let gears = [
        "sheet",
        "lathe.change_gears",
        "wanted=8 TPI",
        "wheels=2",
        "--lathe",
        "LA-1",
    ];
    let told = folder.json(&gears);
    let mut inputs = told["inputs"].as_array().unwrap().iter();
    let own = inputs.find(|input| input["name"] == "gears").unwrap();
    assert_eq!(own["basis"], "reading: LA-001, as stated");
    assert!(
        told["results"]["best"].to_string().contains("exact"),
        "{told}"
    );
    // What is typed stands before what was stated.
    let told = folder.json(&[&gears[..4], &["gears=30,60", "--lathe", "LA-1"]].concat());
    let mut inputs = told["inputs"].as_array().unwrap().iter();
    let own = inputs.find(|input| input["name"] == "gears").unwrap();
    assert_eq!(own["basis"], "entered");
}
