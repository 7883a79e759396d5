//! Papers of a job at its doors: the window of a press chart from a kept sheet, what is wanted, and what the job cost.

use crate::run::Folder;

/// What is said, run as Cal Wren in the demonstration, and the exit code.
fn says(folder: &Folder, words: &[&str]) -> (String, Option<i32>) {
    let words = [words, &["--book", "d.book", "--by", "Cal Wren"]].concat();
    let output = folder
        .command(&words)
        .env_remove("OUTSHOP_NOW")
        .output()
        .unwrap();
    let text = [output.stdout, output.stderr].concat();
    let text = String::from_utf8(text).unwrap();
    let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
    (plain, output.status.code())
}

const CHART: [&str; 7] = [
    "job",
    "paper",
    "J-002",
    "press-chart",
    "--told=pressed again",
    "--points",
    "1in 4; 2in 8; 3in 12",
];

#[test]
fn a_press_chart_takes_its_window_from_a_kept_sheet() {
    let folder = Folder::new("press");
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    let chart = |more: &[&str]| says(&folder, &[&CHART[..], more].concat());
    // The demonstration's bushing: 13012 to 52049 lb, which are 5.809 to 23.236 tons of 2240 lb, rounded inward.
    let (text, code) = chart(&["--ton", "long", "--card", "C-002"]);
    assert_eq!(code, Some(0), "{text}");
    let given = [
        "It ended within the fit's window, 5.9 to 23.2 tons",
        "Window by fit.bushing (version 1), card C-002 R1; tons of 2240 lb.",
    ];
    for said in given {
        assert!(text.contains(said), "{text}");
    }
    // Typed, it stands as typed, and that it is another is said in both kinds of ton.
    let typed = ["--least", "20", "--most", "40"];
    let card = ["--ton", "short", "--card", "C-002"];
    let (text, code) = chart(&[&typed[..], &card].concat());
    assert_eq!(code, Some(0), "{text}");
    for said in [
        "It ended under the fit's window, 20 to 40 tons",
        "The window that was typed is not that of fit.bushing (version 1)",
        "tons of 2000 lb, or",
        "tons of 2240 lb. Ask which holds.",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    // Without a word on the ton nothing is taken from a sheet.
    let (text, code) = chart(&[]);
    assert_eq!(code, Some(0), "{text}");
    assert!(text.contains("No window was stated"), "{text}");
    for (more, said) in [
        (
            &["--ton", "metric"][..],
            "short (2000 lb) or long (2240 lb)",
        ),
        (
            &["--ton", "short"],
            "J-002 keeps no sheet of fit.press or fit.bushing",
        ),
        (
            &["--ton", "short", "--card", "C-001"],
            "C-001 is a card of thread.cutting",
        ),
        (&["--ton", "short", "--card", "C-009"], "C-009"),
    ] {
        let (text, code) = chart(more);
        assert_eq!(code, Some(2), "{text}");
        assert!(
            text.contains(said) && text.contains("Nothing was saved"),
            "{text}"
        );
    }
    let (text, _) = says(&folder, &["job", "show", "J-002"]);
    for said in [
        "Press chart, tons against travel: pressed from the inner end",
        "Hours booked 14 h",
        "By place of work lathe 14 h",
        "Spent, by its papers $647.40 of 2 papers",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    // Of a job in which a joint is still to be opened.
    let (text, _) = says(&folder, &["job", "show", "J-006"]);
    assert!(!text.contains("wanted before"), "{text}");
    let (text, code) = says(&folder, &["print", "job", "J-001", "--out", "card.pdf"]);
    assert_eq!(code, Some(0), "{text}");
    assert!(text.contains(" 8 pages"), "{text}");
    let (text, _) = says(&folder, &["check"]);
    assert!(!text.contains("differ from"), "{text}");
}
