//! Rules held against the official text at the verb and on the page; a certifier who is the fixer; entries made late.

use crate::pages::{SIGNED, Served};
use crate::run::Folder;

const RULE: &str = "us-steam.crosshead.vertical";

fn said_by(folder: &Folder, who: &str, words: &[&str]) -> (i32, String) {
    let mut command = folder.command(words);
    let output = command.env("OUTSHOP_BY", who).output().unwrap();
    let said = [output.stdout, output.stderr].concat();
    let said = String::from_utf8(said).unwrap();
    (output.status.code().unwrap(), said)
}

fn hold<'w>(how: &'w str, words: &'w str) -> [&'w str; 7] {
    [
        "rule",
        "hold",
        RULE,
        "--against",
        "eCFR of 2026-05-01",
        how,
        words,
    ]
}

fn people(folder: &Folder) {
    folder.done(&["person", "add", "Ben Ostrow", "--may", "inspect,repair"]);
    folder.done(&["person", "add", "Dot Marsh", "--may", "inspect"]);
}

#[test]
fn two_people_check_a_rule_and_every_answer_says_so() {
    let folder = Folder::shop("held");
    people(&folder);
    let asked = ["rule", "crosshead-vertical", "--reading", "7/32in ± .002in"];
    let standing = |folder: &Folder| {
        let rule = folder.json(&["rule", RULE]);
        let word = rule["versions"][0]["checking"]["by_this_shop"].clone();
        let limit = folder.json(&asked)["limits"][0]["checked_by_this_shop"].clone();
        (word.as_str().unwrap().to_string(), limit.as_bool().unwrap())
    };
    assert_eq!(standing(&folder), ("not checked".into(), false));
    assert!(folder.done(&asked).contains("not checked by this shop"));
    let before = folder.head();
    // Neither, both, and a text without its day: nothing is saved.
    for words in [
        &["rule", "hold", RULE, "--against", "eCFR of 2026-05-01"][..],
        &[
            "rule",
            "hold",
            RULE,
            "--against",
            "eCFR of 2026-05-01",
            "--agrees",
            "a",
            "--differs",
            "b",
        ],
        &[
            "rule",
            "hold",
            RULE,
            "--against",
            "the law",
            "--agrees",
            "a",
        ],
    ] {
        assert_eq!(said_by(&folder, "Ben Ostrow", words).0, 2, "{words:?}");
    }
    assert_eq!(folder.head(), before);
    let (exit, said) = said_by(
        &folder,
        "Ben Ostrow",
        &hold("--agrees", "230.94: one quarter inch"),
    );
    assert_eq!(exit, 0, "{said}");
    assert!(said.contains("a second person is needed"), "{said}");
    let (exit, said) = said_by(&folder, "Ben Ostrow", &hold("--agrees", "the same"));
    assert_eq!(exit, 1, "{said}");
    assert_eq!(standing(&folder), ("not checked".into(), false));
    let (exit, said) = said_by(&folder, "Dot Marsh", &hold("--agrees", "one quarter"));
    assert_eq!(exit, 0, "{said}");
    assert_eq!(standing(&folder), ("checked".into(), true));
    assert!(!folder.done(&asked).contains("not checked by this shop"));
    said_by(
        &folder,
        "Ada Quill",
        &hold("--differs", "my print has 5/16 in"),
    );
    assert_eq!(standing(&folder), ("differs".into(), false));
    assert!(
        folder
            .done(&asked)
            .contains("DIFFERS FROM THE OFFICIAL TEXT")
    );
    // It is shown, and stops nothing by itself.
    assert!(
        folder
            .done(&["rule", "held"])
            .starts_with("Differ from the official text: 1\n")
    );
    assert_eq!(
        folder.json(&["check"])["differences"],
        serde_json::json!([])
    );
}

#[test]
fn a_form_holds_the_version_it_stands_under_and_loses_nothing() {
    let mut served = Served::signed_in("held-page");
    served.sets_passphrase();
    let page = served.get(&format!("/rule/{RULE}"));
    for said in [
        "Held against the official text",
        "Checked by this shop against the official text: Ben Ostrow Fri 15 May 2026, Dot Marsh Fri 15 May 2026",
        "Sign what I found",
    ] {
        assert!(page.body.contains(said), "{said}: {}", page.body);
    }
    let id = "us-steam.clock.92";
    let page = served.get(&format!("/rule/{id}"));
    assert!(
        page.body.contains("a second person is needed"),
        "{}",
        page.body
    );
    let form = |more: &str| {
        format!(
            "verb=rule+hold&back=%2Frule%2F{id}&id={id}&version=1&against=eCFR+of+2026-05-01&{more}{SIGNED}"
        )
    };
    let before = served.head();
    let refused = served.post("/do", &form("agrees=&differs="));
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(
        refused.body.contains("value=\"eCFR of 2026-05-01\""),
        "{}",
        refused.body
    );
    assert_eq!(served.head(), before);
    let done = served.post("/do", &form("agrees=230.15%3A+92&differs="));
    assert_eq!(done.status, 303, "{}", done.body);
    let page = served.get(&format!("/rule/{id}"));
    assert!(page.body.contains("Checked by this shop"), "{}", page.body);
    let list = served.get("/rulebook");
    assert!(
        list.body
            .contains("4 checked by this shop, 1 held by one person"),
        "{}",
        list.body
    );
}

#[test]
fn an_entry_made_late_says_which_days_it_would_have_stopped_and_stays() {
    let folder = Folder::shop("late");
    for day in ["2026-04-25", "2026-04-26", "2026-05-02"] {
        let [lit, out] = ["06:00", "17:00"].map(|hour| format!("{day}T{hour}"));
        folder.done(&[
            "steam", "log", "14", "--lit", &lit, "--up", &lit, "--out", &out, "--gone", &out,
        ]);
    }
    let told = [
        "finding",
        "record",
        "14",
        "right feed check",
        "--occasion",
        "write-up",
        "--told",
        "wept",
    ];
    let late = [&told[..], &["--on", "2026-04-25"]].concat();
    let said = folder.done(&late);
    for line in [
        "This entry is saved and stays.",
        "No. 14, Sun 26 Apr 2026: finding F-001",
        "No. 14, Sat 2 May 2026: finding F-001",
    ] {
        assert!(said.contains(line), "{line}: {said}");
    }
    assert!(!said.contains("25 Apr 2026: finding"), "{said}");
    assert_eq!(
        folder.json(&["finding", "show", "F-001"])["found_on"],
        "2026-04-25"
    );
    // On the day itself nothing lies behind it.
    assert!(!folder.done(&told).contains("stays"));
    let late = [&told[..], &["--on", "2026-05-01"]].concat();
    let said = folder.json(&late);
    assert_eq!(said["past"][0]["day"], "2026-05-02");
    assert_eq!(said["past"].as_array().unwrap().len(), 1);

    // A day that is put right may show the same: the daily fire of 2 May is moved to a day that was not in steam.
    let fire = folder.json(&["steam", "show", "14"]);
    let number = fire["fires"]
        .as_array()
        .and_then(|all| all.last())
        .and_then(|line| line["entry"].as_u64())
        .unwrap()
        .to_string();
    let moved = ["lit", "up", "out", "gone"].map(|name| {
        let hour = if ["lit", "up"].contains(&name) {
            "06:00"
        } else {
            "17:00"
        };
        format!("{name}=2026-04-29T{hour}:00")
    });
    let mut words = vec![
        "entry",
        "correct",
        number.as_str(),
        "--because",
        "the wrong line",
    ];
    words.extend(moved.iter().map(String::as_str));
    let said = folder.done(&words);
    assert!(
        said.contains("No. 14, Wed 29 Apr 2026: finding F-001"),
        "{said}"
    );
}
