//! The papers of an inspection, held against the rulebook, the book, and the fields the law names.

use std::collections::BTreeSet;

use ::paper::{Block, Form};
use rules::{Body, Rulebook};

use super::fields::{Held, REPORTS, SIGNERS};
use super::shop_test::{Shop, has_room, items, rows, said};
use super::{duties, report, tag, worksheet};
use crate::words::held as say;

const KINDS: &[(&str, &str)] = &[
    ("14", "daily"),
    ("14", "31"),
    ("14", "92"),
    ("14", "annual"),
    ("14", "fifth-annual"),
    ("14", "1472"),
    ("803", "daily"),
    ("803", "qualified-daily"),
    ("803", "periodic"),
];

#[test]
fn a_sheet_asks_every_item_the_inspection_would() {
    let rules = Rulebook::built_in().unwrap();
    let mut shop = Shop::new("sheet");
    for (number, kind) in KINDS {
        let form = worksheet::paper(&mut shop.context, number, kind).unwrap();
        let on = shop.context.on().unwrap();
        let book = shop.context.book().unwrap();
        let (_, kept) = shop::locomotive::engine(&book, number).unwrap();
        let law = shop::locomotive::Law::of(&book, rules, kept);
        let asked = shop::inspection::items(&law, kind, on).unwrap();
        let items = items(&form);
        assert_eq!(items.len(), asked.len(), "{kind}");
        for (at, (item, asked)) in items.iter().zip(&asked).enumerate() {
            assert_eq!(
                (item.number, &item.text, &item.section),
                (at + 1, &asked.text, &asked.section)
            );
        }
        has_room(&form);
        let printed = form.print().unwrap();
        assert!(printed.oddities.is_empty() && printed.pages >= 2);
        assert!(
            printed.pages <= 2 + asked.len().div_ceil(4),
            "{kind}: {}",
            printed.pages
        );
    }
}

/// Appendix A to 49 CFR part 230 lists 21 items at the daily, 6 more at the 31 and 6 more at the 92 (read in the
/// 2015 text); the text alone adds brake pipe leakage, 230.78(c), and the orifice test, 230.71(a).
#[test]
fn the_lists_are_as_long_as_the_appendix_has_them() {
    let mut shop = Shop::new("appendix");
    for (kind, many) in [("daily", 21 + 1), ("31", 22 + 6), ("92", 28 + 6 + 1)] {
        let form = worksheet::paper(&mut shop.context, "14", kind).unwrap();
        assert_eq!(items(&form).len(), many, "{kind}");
    }
}

#[test]
fn a_fitting_is_told_as_the_book_has_it() {
    let mut shop = Shop::new("fitting");
    let form = worksheet::paper(&mut shop.context, "14", "31").unwrap();
    let of = |text: &str| {
        let all = items(&form);
        all.into_iter()
            .find(|i| i.text.contains(text))
            .unwrap()
            .clone()
    };
    let absent = of("fusible plugs");
    let told = absent.fitting.unwrap();
    assert!(absent.absent && absent.asks.is_empty());
    assert!(
        told.starts_with("Not fitted, as Ada Quill stated on Sun 3 May 2026 (entry "),
        "{told}"
    );
    let unknown = of("arch and water bar tubes");
    assert!(!unknown.absent);
    assert!(
        unknown
            .fitting
            .unwrap()
            .starts_with("Not said whether fitted: ")
    );
    let there = of("shield");
    assert!(
        there
            .fitting
            .unwrap()
            .starts_with("Fitted, as Ada Quill stated")
    );
}

/// What is cleaned or taken out is asked how much scale it held: glasses (230.53), plugs (230.60).
#[test]
fn what_is_cleaned_is_asked_how_much_scale_it_held() {
    let mut shop = Shop::new("scale");
    let form = worksheet::paper(&mut shop.context, "14", "31").unwrap();
    for text in [
        "spindles of water glass valves",
        "every washout",
        "Wash the boiler",
    ] {
        let all = items(&form);
        let item = all.iter().find(|i| i.text.contains(text)).unwrap();
        assert!(
            item.asks
                .iter()
                .any(|ask| ask.starts_with("how much scale")),
            "{text}"
        );
    }
}

/// Each line of the rulebook's reports has a row, each row is a line of the rule or says that the form was not read,
/// and each item a row leans on is there.
#[test]
fn every_field_of_every_report_has_its_place() {
    let rules = Rulebook::built_in().unwrap();
    let day = jiff::civil::date(2026, 5, 3);
    for report in REPORTS {
        let ruling = rules.ruling(report.rule, day).unwrap();
        let lines: BTreeSet<&str> = report
            .fields
            .iter()
            .filter(|f| f.held != Held::NotRead)
            .map(|f| f.line)
            .collect();
        if let Body::Filing(filing) = &ruling.body
            && !filing.contents.is_empty()
        {
            let asked: BTreeSet<&str> = filing.contents.iter().map(String::as_str).collect();
            assert_eq!(lines, asked, "{}", report.rule);
        }
        let rulebook = &ruling.rule[..ruling.rule.find('.').unwrap()];
        for field in report.fields {
            assert!(field.section.starts_with(if rulebook == "us-steam" {
                "230."
            } else {
                "229."
            }));
            if let Held::Items(ends) = field.held {
                for end in ends {
                    let rule = rules.rule(&format!("{rulebook}.{end}")).unwrap();
                    assert!(
                        rule.versions
                            .iter()
                            .all(|v| matches!(v.body, Body::Item(_))),
                        "{end}"
                    );
                }
            }
        }
        assert!(report.own.iter().all(|own| report.kinds.contains(own)));
        for kind in report.kinds {
            let known = rules.inspections(rulebook, day).unwrap();
            assert!(rules::words::meaning(&known, kind).is_some(), "{kind}");
        }
    }
    // Every kind of inspection has a report.
    for (number, kind) in KINDS {
        let rulebook = if *number == "14" {
            "us-steam."
        } else {
            "us-diesel."
        };
        assert!(
            REPORTS
                .iter()
                .any(|r| r.rule.starts_with(rulebook) && r.kinds.contains(kind)),
            "{kind}"
        );
    }
    assert!(
        SIGNERS
            .iter()
            .all(|(rule, _)| REPORTS.iter().any(|r| r.rule == *rule))
    );
}

/// The daily report, 49 CFR 230.13(c) as read in the 2015 text: railroad, initials and number, place, date and time,
/// faults found, faults found during the day and repaired, and three signatures.
#[test]
fn the_daily_report_holds_what_230_13_names() {
    let mut shop = Shop::new("daily");
    shop.says(&["inspect", "open", "14", "daily"]);
    shop.says(&[
        "inspect",
        "answer",
        "I-001",
        "1",
        "--good",
        "--seen",
        "lifted at 178 psig",
    ]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    let fields: Vec<_> = rows(&form, "Daily report")
        .iter()
        .map(|row| row[0].clone().unwrap())
        .collect();
    assert_eq!(
        fields,
        [
            "Railroad",
            "Initials and number of the engine",
            "Place, date and time",
            "Faults the inspection found",
            "Faults found during the day and repaired"
        ]
    );
    // What nobody stated is named as that, never guessed.
    let railroad = rows(&form, "Daily report")[0][2].as_deref();
    assert_eq!(
        railroad,
        Some("the railroad that runs her: not stated in this book")
    );
    let text = said(&form);
    for words in [
        "the inspector",
        "the repairer",
        "certifying that every fault was repaired",
        "kept 92 days",
        "lifted at 178 psig",
        "21 items are not answered",
        "I-001 is not closed",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    has_room(&form);
    assert!(form.print().unwrap().oddities.is_empty());
}

#[test]
fn a_closed_31_says_where_form_1_goes_and_by_when() {
    let mut shop = Shop::new("closed");
    shop.says(&["inspect", "open", "14", "31"]);
    for at in 1..=28 {
        let at = at.to_string();
        let fit = match at.as_str() {
            "28" => "--not-fitted",
            "24" => "--fair",
            _ => "--good",
        };
        shop.says(&[
            "inspect",
            "answer",
            "I-001",
            &at,
            fit,
            "--seen",
            "looked over, whole",
        ]);
    }
    shop.says(&["inspect", "close", "I-001"]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    let asked = rows(&form, "Form 1 after a 31 service day inspection");
    let value = |line: &str| {
        let row = asked
            .iter()
            .find(|row| row[0].as_deref() == Some(line))
            .unwrap();
        row[2].clone()
    };
    let unstated = "the owner: not stated in this book\nthe operator: not stated in this book";
    assert_eq!(value("Owner and operator").as_deref(), Some(unstated));
    assert_eq!(value("Broken staybolts renewed"), None);
    assert_eq!(value("Staybolts hammered").unwrap(), "item 27: good");
    assert_eq!(value("Gauge cock passages").unwrap(), "item 24: fair");
    assert_eq!(value("Fusible plugs").unwrap(), "item 28: not fitted");
    assert_eq!(value("Date of the inspection").unwrap(), "Sun 3 May 2026");
    // 49 CFR 230.14(c): within 10 days, where she is maintained and with the Regional Administrator.
    let gone = rows(&form, "Where it goes, and by when");
    assert!(gone.iter().any(|row| {
        row[1]
            .as_ref()
            .is_some_and(|to| to.contains("Regional Administrator"))
            && row[2]
                .as_ref()
                .is_some_and(|why| why.contains("by 2026-05-13"))
    }));
    let text = said(&form);
    assert!(text.contains("inspector: Ada Quill, Sun 3 May 2026"));
    assert!(text.contains("the text names no period"));
    assert!(!text.contains("Form 19"), "keeping of another paper");
}

/// 49 CFR 230.12(b) as read in the 2015 text: the words, the number, who inspected, place and date, the defect, the
/// limits, where she goes, and the signature of the one who decided.
#[test]
fn the_tag_holds_what_230_12_names() {
    let mut shop = Shop::new("tag");
    let form = tag::paper(&mut shop.context, "14").unwrap();
    let text = said(&form);
    for words in [
        "NON-COMPLYING LOCOMOTIVE",
        "No. 14",
        "inspecting entity",
        "place of the inspection",
        "day of the inspection",
        "The defect",
        "top speed",
        "other limits",
        "destination",
        "signature of the person who decided",
        "10 mph",
    ] {
        assert!(text.contains(words), "{words}");
    }
    // Her clocks cannot be told, so they stop her; nobody has found anything.
    assert!(text.contains("cannot tell") && !text.contains("Found by"));
    has_room(&form);
    assert!(form.print().unwrap().oddities.is_empty());
    // 49 CFR 229.9, as our notes have it: as 230.12, hung at the control stand or the switch, 10 mph in a yard.
    let diesel = tag::paper(&mut shop.context, "803").unwrap();
    let text = said(&diesel);
    for words in ["229.9", "control stand", "isolation", "10 mph"] {
        assert!(text.contains(words), "{words}");
    }
}

/// The tag hangs on the engine: whatever is wrong with her, what is signed stands on its first page.
#[test]
fn the_signature_of_a_tag_is_on_its_first_page_however_much_is_wrong() {
    let mut shop = Shop::new("long-tag");
    shop.says(&[
        "part",
        "add",
        "14",
        "right feed check",
        "--family",
        "check-valve",
    ]);
    let long = "weeps at the bonnet joint, and the joint face is cut all the way across under the gasket, \
                as far as can be seen with the pipe still in its place";
    for at in 0..9 {
        let told = format!("{at}: {long}");
        shop.says(&[
            "finding",
            "record",
            "14",
            "right feed check",
            "--told",
            &told,
            "--occasion",
            "road-failure",
        ]);
    }
    let decided = &[
        "move",
        "decide",
        "14",
        "--under",
        "to-repair",
        "--from",
        "the water tank at milepost 31",
        "--to",
        "the shop",
        "--how",
        "in-tow",
        "--mph",
        "10",
        "--limits",
        "by daylight, the left feed check alone is used",
        "--told",
        "both engineers and all in the cabs, by note",
        "--inspected-by",
        "Ada Quill",
        "--inspected-at",
        "milepost 31",
        "--inspected-on",
        "2026-05-03",
    ];
    for moving in [false, true] {
        if moving {
            shop.says(decided);
        }
        let form = tag::paper(&mut shop.context, "14").unwrap();
        let titles: Vec<&str> = form.parts.iter().map(|part| part.title.as_str()).collect();
        let signs = titles
            .iter()
            .position(|it| *it == crate::words::paper::DECIDED)
            .unwrap();
        let mut front = form.clone();
        front.parts.truncate(signs + 1);
        assert_eq!(front.print().unwrap().pages, 1, "moving: {moving}");
        let text = said(&form);
        for at in 0..9 {
            assert!(text.contains(&format!("{at}: weeps")), "{at}");
        }
        let decision = "the left feed check alone is used";
        assert_eq!(text.contains(decision), moving);
        assert!(form.print().unwrap().oddities.is_empty());
    }
}

/// Every paper of an engine's inspections, her tag and her duties say which edition of the law they were read in, that
/// the official form and text govern, and what they lack.
#[test]
fn every_paper_names_its_law_and_says_what_governs() {
    let mut shop = Shop::new("governs");
    let (mut forms, mut opened) = (Vec::new(), 0);
    for (engine, kind) in KINDS {
        forms.push(worksheet::paper(&mut shop.context, engine, kind).unwrap());
        shop.says(&["inspect", "open", engine, kind]);
        opened += 1;
        let number = format!("I-{opened:03}");
        let report = report::paper(&mut shop.context, &number).unwrap();
        assert!(
            report
                .parts
                .iter()
                .any(|part| part.title == crate::words::paper::MISSING)
        );
        forms.push(report);
    }
    for engine in ["14", "803"] {
        forms.push(tag::paper(&mut shop.context, engine).unwrap());
        let duties = duties::paper(&mut shop.context, engine).unwrap();
        assert!(duties.print().unwrap().oddities.is_empty());
        assert!(said(&duties).contains("is not stated in this book"));
        forms.push(duties);
    }
    for form in &forms {
        assert!(
            form.governs
                .contains("The official form and the text of the law in force govern")
        );
        let law = form
            .facts
            .iter()
            .find(|fact| fact.word == crate::words::paper::LAW);
        assert!(
            law.is_some_and(|fact| fact.said.contains("2015")),
            "{}",
            form.title
        );
        assert!(
            form.about.standing.starts_with("Advice only."),
            "{}",
            form.title
        );
    }
}

/// What papers ask of the shop is on them once it was stated, and named as missing before (230.13(c), 229.21(a)).
#[test]
fn what_the_shop_states_of_itself_is_on_its_reports() {
    let mut shop = Shop::new("stated");
    shop.says(&["inspect", "open", "14", "daily"]);
    let before = said(&report::paper(&mut shop.context, "I-001").unwrap());
    for words in [
        "the railroad that runs her: not stated",
        "place: not stated",
        "time: not stated",
        "the time of day",
    ] {
        assert!(before.contains(words), "{words}");
    }
    shop.says(&["shop", "state", "railroad", "Juniper Fork"]);
    shop.says(&["shop", "state", "place", "the engine house"]);
    shop.says(&["shop", "state", "initials", "J.F.", "--engine", "14"]);
    for item in 1..=22 {
        shop.says(&[
            "inspect",
            "answer",
            "I-001",
            &item.to_string(),
            "--good",
            "--seen",
            "as it should be",
        ]);
    }
    shop.says(&["inspect", "close", "I-001", "--at", "07:40"]);
    let after = said(&report::paper(&mut shop.context, "I-001").unwrap());
    for words in [
        "the railroad that runs her: Juniper Fork",
        "place: the engine house",
        "time: 07:40",
        "initials: J.F.",
    ] {
        assert!(after.contains(words), "{words}");
    }
    assert!(
        !after.contains("Asked by the papers and not stated"),
        "{after}"
    );
}

/// An inspection that was put away says so in heavy letters, and no signature of it is shown.
#[test]
fn the_report_of_one_that_was_not_completed_says_so() {
    let mut shop = Shop::new("away");
    shop.says(&["inspect", "open", "14", "daily"]);
    shop.says(&["inspect", "put-away", "I-001", "--because", "rained off"]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    assert_eq!(form.shout.as_deref(), Some("NOT COMPLETED"));
    assert!(said(&form).contains("rained off"));
    assert!(form.print().unwrap().oddities.is_empty());
}

/// An example of `docs/examples/`; all in it is invented.
fn example(name: &str) -> String {
    format!("{}/../../docs/examples/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// A shop's own item stands on the sheet under the shop's name, never as one of the law's.
#[test]
fn a_shops_own_item_is_told_as_its_own() {
    let mut shop = Shop::new("own");
    let file = example("own-limits.toml");
    shop.says(&["rule", "adopt", &file, "--from", "2026-03-01"]);
    shop.says(&[
        "locomotive",
        "rules",
        "14",
        "juniper-fork",
        "--from",
        "2026-03-01",
        "--document",
        "order 4",
    ]);
    let form = worksheet::paper(&mut shop.context, "14", "31").unwrap();
    assert_eq!(items(&form).len(), 28 + 1);
    let own: Vec<_> = form
        .parts
        .iter()
        .filter(|part| part.title.contains("juniper-fork (this shop's own)"))
        .collect();
    assert_eq!(own.len(), 1);
    match own[0].blocks.as_slice() {
        [Block::Items { all, .. }] => {
            assert_eq!((all.len(), all[0].number), (1, 29));
            assert!(all[0].text.contains("brick arch"));
            // It is on no list of the appendix, but nobody would look for it there.
            assert!(!all[0].notes.iter().any(|note| note.contains("appendix")));
        }
        other => panic!("{other:?}"),
    }
    assert!(
        form.facts
            .iter()
            .any(|fact| fact.word.contains("this shop's own"))
    );
    assert!(form.print().unwrap().oddities.is_empty());
}

/// An engine under no law of this program has the sheet of her own rules, and no report that is not hers.
#[test]
fn an_engine_of_another_country_has_a_sheet_of_her_own() {
    let mut shop = Shop::new("elsewhere");
    let file = example("invented-hallow.toml");
    shop.says(&["rule", "adopt", &file, "--from", "2024-01-01"]);
    shop.says(&[
        "locomotive",
        "add",
        "33",
        "--wheels",
        "0-6-0",
        "--gauge",
        "1000 mm",
        "--rules",
        "invented-hallow",
    ]);
    let form = worksheet::paper(&mut shop.context, "33", "half-yearly").unwrap();
    assert!(!items(&form).is_empty());
    assert!(!said(&form).contains("Form 1"));
    assert_eq!(tag::paper(&mut shop.context, "33").unwrap_err().code(), 2);
    shop.says(&["inspect", "open", "33", "half-yearly"]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    assert!(!said(&form).contains("230."));
    assert!(form.print().unwrap().oddities.is_empty());
}

/// 49 CFR 230.13(c) asks for the faults of the day too, not only for those the inspection found.
#[test]
fn the_daily_report_has_what_crews_wrote_up() {
    let mut shop = Shop::new("crew");
    shop.says(&["inspect", "open", "14", "daily"]);
    shop.says(&[
        "writeup",
        "report",
        "14",
        "knocks; where=left motion; heat=hot; wait=no",
    ]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    let day = &rows(&form, "Daily report")[4][2];
    let told = day.as_deref().unwrap();
    assert_eq!(
        told,
        "Write-up W-001, left motion: knocks; nobody has looked yet"
    );
    let form = tag::paper(&mut shop.context, "14").unwrap();
    assert!(said(&form).contains("W-001"));
}

/// The points of the part that says which figures this shop has held against the official text.
fn held(form: &Form) -> Vec<&String> {
    let parts = form.parts.iter().filter(|part| part.title == say::HELD);
    let points = parts
        .flat_map(|part| &part.blocks)
        .filter_map(|block| match block {
            Block::Points { all } => Some(all),
            _ => None,
        });
    points.flatten().collect()
}

/// Every paper that uses a figure of law says which of them two people of the shop have held against its text.
#[test]
fn every_paper_says_what_this_shop_has_not_checked() {
    let mut shop = Shop::new("held");
    shop.says(&["person", "add", "Ben Ostrow", "--may", "inspect"]);
    for (engine, kind) in KINDS {
        let form = worksheet::paper(&mut shop.context, engine, kind).unwrap();
        assert!(
            form.governs
                .contains("Not checked by this shop: none of the"),
            "{kind}: {}",
            form.governs
        );
        assert_eq!(held(&form).len(), 1, "{kind}: {:?}", held(&form));
    }
    let form = tag::paper(&mut shop.context, "14").unwrap();
    assert!(
        form.governs.contains("Not checked by this shop"),
        "{}",
        form.governs
    );
    shop.says(&["inspect", "open", "14", "daily"]);
    let form = report::paper(&mut shop.context, "I-001").unwrap();
    assert!(
        form.governs.contains("Not checked by this shop"),
        "{}",
        form.governs
    );

    // Two hold all that stands on one sheet: it says by whom and when, and warns no more.
    let rules = Rulebook::built_in().unwrap();
    let day = "2026-05-03".parse().unwrap();
    let ids: Vec<&str> = rules
        .rules()
        .filter(|rule| rule.id.starts_with("us-diesel.") && rule.on(day).is_ok())
        .map(|rule| rule.id.as_str())
        .collect();
    let hold = |shop: &mut Shop, who: &str, how: &str, id: &str| {
        shop.globals.by = Some(who.into());
        shop.says(&[
            "rule",
            "hold",
            id,
            "--against",
            "eCFR of 2026-05-01",
            how,
            "read, line by line",
        ]);
    };
    for id in &ids {
        for who in ["Ada Quill", "Ben Ostrow"] {
            hold(&mut shop, who, "--agrees", id);
        }
    }
    let sheet = |shop: &mut Shop| worksheet::paper(&mut shop.context, "803", "periodic").unwrap();
    let form = sheet(&mut shop);
    assert_eq!(form.governs, crate::words::paper::GOVERNS);
    let said = format!("{:?}", held(&form));
    for words in [
        "are checked by this shop.",
        "Ada Quill Sun 3 May 2026, Ben Ostrow Sun 3 May 2026: ",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(!said.contains("ot checked"), "{said}");
    // One of them finds a difference: first on the list, in capitals, with what differs.
    let text = items(&form)[0].text.clone();
    let item = rules.rules().find(|rule| {
        let now = rule.on(day).ok();
        ids.contains(&rule.id.as_str())
            && now.is_some_and(|v| matches!(&v.body, Body::Item(it) if it.text == text))
    });
    hold(&mut shop, "Ben Ostrow", "--differs", &item.unwrap().id);
    let form = sheet(&mut shop);
    let first = held(&form)[0];
    assert!(
        first.contains("DIFFERS FROM THE OFFICIAL TEXT, by Ben Ostrow"),
        "{first}"
    );
    assert!(
        form.governs.contains("Not checked by this shop: 1 of the"),
        "{}",
        form.governs
    );
}
