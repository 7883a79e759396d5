//! A survey of a sheet as it comes in: from a file on a page and at the command line.

use rust_xlsxwriter::Workbook;

use crate::pages::{Page, Served};
use crate::run::Folder;

/// A shop with a course that has a survey of two rows of three, of spring.
fn shop(name: &str) -> Folder {
    let folder = Folder::shop(name);
    let course = [
        "boiler",
        "enter",
        "14",
        "second course",
        "--kind",
        "course",
        "--place",
        "barrel",
        "--source",
        "drawing 14-B-2",
        "thickness=.649in",
        "as_built=11/16in",
    ];
    folder.done(&course);
    folder.done(&[
        "boiler",
        "survey",
        "14",
        "second course",
        "--on",
        "2026-04-25",
        "--unit",
        "in",
        "--columns",
        "1,2,3",
        "--source",
        "from the front seam, A. Quill, gauge U-1",
        "12=.682 .681 .681",
        "6=.646 .634 .612",
    ]);
    folder
}

/// The survey of the course as the book tells it.
fn told(folder: &Folder) -> serde_json::Value {
    folder.json(&["boiler", "surveyed", "14", "second course"])
}

const HEAD: [(&str, &str); 8] = [
    ("engine", "14"),
    ("component", "second course"),
    ("on", "2026-05-02"),
    ("unit", "in"),
    ("source", "from the front seam, B. Ostrow"),
    ("instrument", "gauge U-2"),
    ("checked", "block of .500 in, .500 before and .501 after"),
    ("part_temperature", "61 degF"),
];

fn send(desk: &Served, file: Option<(&str, &[u8])>) -> Page {
    desk.upload("/surveys/import", &HEAD, file)
}

#[test]
fn a_file_is_shown_line_by_line_with_every_fault_and_nothing_of_it_is_kept() {
    let desk = Served::of_book(shop("survey-faults"), "2026-05-03T09:00");
    let before = desk.folder.head();
    let table =
        ",1,2,3\n12,.680,.68O,wide\n6,.640,.630,.608\n6,.6,.6,.6\n5,.6,.6,.6,.6\n4,.66,,\n3,.66\n";
    let page = send(&desk, Some(("course.csv", table.as_bytes())));
    assert_eq!(page.status, 200, "{}", page.body);
    for says in [
        "<code>.68O</code> in row <code>12</code>, column <code>2</code> is no reading",
        "<code>wide</code> in row <code>12</code>, column <code>3</code> is no reading",
        "The row <code>6</code> is there twice.",
        "The line has 5 values and the table 4",
        "The line has 2 values and the table 4",
        "3 read",
        "1 read, 2 not read",
        "; 4 lines are refused.",
        "Nothing of it can be entered as it stands.",
    ] {
        assert!(page.body.contains(says), "{says}: {}", page.body);
    }
    // A survey without one of its rows would be another: nobody is asked to leave any out.
    assert!(!page.body.contains("/surveys/import/save"), "{}", page.body);
    // What was told of the file is asked again where that is wrong, and stays filled in.
    for (field, value, says) in [
        ("component", "smokebox", "no component"),
        ("unit", "", "no unit"),
        ("on", "2026-06-01", "lies ahead"),
        ("on", "", "on which day"),
        ("source", "", "where the squares begin"),
    ] {
        let changed = HEAD.map(|(name, said)| (name, if name == field { value } else { said }));
        let page = desk.upload(
            "/surveys/import",
            &changed,
            Some(("course.csv", b",1\n6,.6\n")),
        );
        assert_eq!(page.status, 422, "{field}: {}", page.body);
        assert!(page.body.contains(says), "{says}: {}", page.body);
        assert!(page.body.contains("value=\"gauge U-2\""), "{}", page.body);
    }
    let none = send(&desk, None);
    assert!(none.body.contains("No file was sent"), "{}", none.body);
    assert_eq!(desk.folder.head(), before);
    // At the command line the same file says the same, and --write does not get past it.
    let folder = desk.leaves();
    std::fs::write(folder.file("course.csv"), table).unwrap();
    let asked = [
        "boiler",
        "survey",
        "14",
        "second course",
        "--file",
        "course.csv",
        "--unit",
        "in",
        "--source",
        "from the front seam",
    ];
    let dry = folder.run(&asked);
    assert_eq!(dry.status.code(), Some(2));
    let text = String::from_utf8(dry.stdout).unwrap();
    assert!(
        text.contains("`.68O`") && text.contains("`wide`") && text.contains("twice"),
        "{text}"
    );
    assert_eq!(
        folder
            .run(&[&asked[..], &["--write"]].concat())
            .status
            .code(),
        Some(2)
    );
    assert_eq!(folder.head(), before);
}

#[test]
fn a_workbook_is_shown_beside_the_survey_before_and_kept_as_one_batch() {
    let desk = Served::of_book(shop("survey-xlsx"), "2026-05-03T09:00");
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    for (at, name) in ["1", "2", "3"].iter().enumerate() {
        sheet
            .write(0, u16::try_from(at).unwrap() + 1, *name)
            .unwrap();
    }
    for (row, (name, cells)) in [("12", [0.68, 0.679, 0.679]), ("6", [0.641, 0.629, 0.571])]
        .iter()
        .enumerate()
    {
        let row = u32::try_from(row).unwrap() + 1;
        sheet.write(row, 0, *name).unwrap();
        for (at, cell) in cells.iter().enumerate() {
            sheet
                .write(row, u16::try_from(at).unwrap() + 1, *cell)
                .unwrap();
        }
    }
    let bytes = workbook.save_to_buffer().unwrap();
    let page = send(&desk, Some(("course.xlsx", &bytes)));
    assert_eq!(page.status, 200, "{}", page.body);
    for says in [
        "Survey of the second course of No. 14: 2 rows of 3 squares; 6 read.",
        "Read on Sat 2 May 2026",
        "Thinnest: 0.571 in, row 6, column 3.",
        "The survey before, Sat 25 Apr 2026",
        "most lost 0.041 in",
    ] {
        assert!(page.body.contains(says), "{says}: {}", page.body);
    }
    // The map of this one and of the one before.
    assert_eq!(page.body.matches("class=\"drawn map\"").count(), 2);
    let before = desk.folder.head();
    let field = |name: &str| crate::seasons::hidden(&page.body, name);
    let keep = format!("token={}&mark={}", field("token"), field("mark"));
    let kept = desk.post("/surveys/import/save", &keep);
    assert_eq!(kept.status, 303, "{}", kept.body);
    assert_ne!(desk.folder.head(), before);
    let survey = told(&desk.folder);
    assert_eq!(survey["on"], "2026-05-02");
    assert_eq!(survey["cells"][1][2], "0.571");
    assert_eq!(
        survey["source"],
        "from the front seam, B. Ostrow; read with gauge U-2; checked: block of .500 in, .500 before and .501 after; \
         plate at 61 degF"
    );
    // It is in the book: sent twice it is entered once.
    assert_eq!(desk.post("/surveys/import/save", &keep).status, 409);
    let again = send(&desk, Some(("course.xlsx", &bytes)));
    assert!(again.body.contains("in the book already"), "{}", again.body);
    assert!(!again.body.contains("/surveys/import/save"));
    // One batch, taken back whole.
    let list = desk.get("/surveys/import").body;
    assert!(list.contains("Take it back"), "{list}");
    let batches = desk.folder.json(&["entry", "batches"]);
    let newest = batches.as_array().unwrap().last().unwrap();
    assert_eq!(newest["entries"], 1);
    let batch = newest["batch"].as_str().unwrap();
    desk.folder.done(&[
        "entry",
        "withdraw",
        batch,
        "--because",
        "the gauge was wrong",
    ]);
    assert_eq!(told(&desk.folder)["on"], "2026-04-25");
}

/// An error or a day in a workbook is no square that was left out.
#[test]
fn a_cell_that_is_no_number_is_a_fault_and_not_an_unread_square() {
    let folder = shop("survey-cells");
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    sheet.write(0, 1, "1").unwrap();
    sheet.write(0, 2, "2").unwrap();
    sheet.write(1, 0, "6").unwrap();
    sheet.write(1, 1, true).unwrap();
    sheet.write(1, 2, 0.6).unwrap();
    workbook.save(folder.file("course.xlsx")).unwrap();
    let asked = [
        "boiler",
        "survey",
        "14",
        "second course",
        "--file",
        "course.xlsx",
        "--unit",
        "in",
        "--source",
        "from the front seam",
    ];
    let told = folder.json(&asked);
    assert_eq!(told["refused"], 1, "{told:#}");
    assert!(
        told["lines"][0]["faults"][0]
            .as_str()
            .unwrap()
            .contains("column `1`"),
        "{told:#}"
    );
}

#[test]
fn a_word_on_a_square_stands_in_the_source_and_names_a_square_there_is() {
    let folder = shop("survey-remarks");
    let survey = [
        "boiler",
        "survey",
        "14",
        "second course",
        "--unit",
        "in",
        "--columns",
        "1,2",
        "--source",
        "from the front seam",
        "6=.640 .571",
        "--remark",
    ];
    let no = folder.run(&[&survey[..], &["6,3=pitted"]].concat());
    assert_eq!(no.status.code(), Some(2));
    let said = String::from_utf8(no.stderr).unwrap();
    assert!(said.contains("`6,3=pitted` names no square"), "{said}");
    folder.done(&[&survey[..], &["6,2=pitted, read three times"]].concat());
    assert_eq!(
        told(&folder)["source"],
        "from the front seam; row 6, column 2: pitted, read three times"
    );
}

/// A form of a page cannot have a file of the book's own machine read.
#[test]
fn a_form_reads_no_file_of_the_machine() {
    let desk = Served::of_book(shop("survey-no-file"), "2026-05-03T09:00");
    std::fs::write(desk.folder.file("secret.csv"), ",1\n6,.6\n").unwrap();
    let asked = "verb=boiler+survey&back=/&engine=14&component=second+course&unit=in&source=x&file=secret.csv";
    let page = desk.post("/do", asked);
    assert_eq!(page.status, 422, "{}", page.body);
    assert!(
        page.body.contains("does not read files of the machine"),
        "{}",
        page.body
    );
}

const BENCH: &str = "/bench/14/boiler/second%20course/survey";

/// What every form of the page of the bench carries.
fn form(verb: &str, more: &str) -> String {
    format!("verb={verb}&engine=14&component=second+course&{more}")
}

/// Without scripts: line by line, kept beside the book and no entry until all is read; then one entry, and only once.
#[test]
fn a_survey_is_read_line_by_line_at_the_bench_and_entered_once() {
    let mut desk = Served::of_book(shop("survey-bench"), "2026-05-03T09:00");
    let before = desk.folder.head();
    let page = desk.get(BENCH);
    assert_eq!(page.status, 200, "{}", page.body);
    // The names of the squares are those of the survey before; nothing else is filled in.
    assert!(
        page.body.contains("value=\"12, 6\"") && page.body.contains("value=\"1, 2, 3\""),
        "{}",
        page.body
    );
    assert!(!page.body.contains(" checked>"), "{}", page.body);
    let how = "rows=12,6&columns=1..3&unit=in&source=from+the+front+seam&instrument=gauge+U-2";
    for (asked, says) in [
        (how.to_owned(), "in which order"),
        (
            format!("direction=along&{}", how.replace("unit=in", "unit=")),
            "no unit",
        ),
        (
            format!("direction=along&{}", how.replace("12,6", "6,6")),
            "there twice",
        ),
        (
            format!("direction=along&{}", how.replace("12,6", "a=b")),
            "without =",
        ),
    ] {
        let no = desk.post("/bench/survey", &form("survey-begin", &asked));
        assert_eq!(no.status, 422, "{says}: {}", no.body);
        assert!(no.body.contains(says), "{says}: {}", no.body);
        assert!(no.body.contains("value=\"gauge U-2\""), "{}", no.body);
    }
    let begun = desk.post(
        "/bench/survey",
        &form("survey-begin", &format!("direction=along&{how}")),
    );
    assert_eq!(begun.status, 303, "{}", begun.body);
    // A square that does not read comes back with its whole line, as it was typed.
    let no = desk.post(
        "/bench/survey",
        &form(
            "survey-line",
            "line=0&cell:0=.680&cell:1=.67O&cell:2=-&word:0=scale",
        ),
    );
    assert_eq!(no.status, 422, "{}", no.body);
    for lost in [
        "value=\".680\"",
        "value=\".67O\"",
        "value=\"scale\"",
        "is no reading",
    ] {
        assert!(no.body.contains(lost), "{lost}: {}", no.body);
    }
    let line = desk.post(
        "/bench/survey",
        &form(
            "survey-line",
            "line=0&cell:0=.680&cell:1=.702&cell:2=-&word:0=scale",
        ),
    );
    assert_eq!(line.status, 303, "{}", line.body);
    // What is strange is flagged beside what was read before, and stays.
    let strange = desk.get(&format!("{BENCH}?line=0")).body;
    for says in [
        "last 0.681 in",
        "Look again, thicker than the sheet as built",
        "value=\".702\"",
        "2 of 6 squares read, 1 not read",
    ] {
        assert!(strange.contains(says), "{says}: {strange}");
    }
    // It is there after the desk was started again; nobody else sees it; and nothing of it is in the book.
    let link = {
        let folder = desk.leaves();
        desk = Served::of_book(folder, "2026-05-03T11:00");
        desk.get(&format!("{BENCH}?line=1")).body
    };
    assert!(link.contains("2 of 6 squares read"), "{link}");
    assert_eq!(desk.folder.head(), before);
    // The other line in one go, with a square too few first.
    let few = desk.post(
        "/bench/survey",
        &form("survey-text", "line=1&text=.640+.630"),
    );
    assert_eq!(few.status, 422);
    assert!(
        few.body
            .contains("2 squares stand there and the line has 3")
            && few.body.contains(".640 .630"),
        "{}",
        few.body
    );
    assert_eq!(
        desk.post(
            "/bench/survey",
            &form("survey-text", "line=1&text=.640+.630+.571")
        )
        .status,
        303
    );
    let entered = desk.post("/bench/survey", &form("survey-enter", ""));
    assert_eq!(entered.status, 303, "{}", entered.body);
    let survey = told(&desk.folder);
    assert_eq!(
        survey["cells"],
        serde_json::json!([[".680", ".702", "-"], [".640", ".630", ".571"]])
    );
    assert_eq!(
        survey["source"],
        "from the front seam; read with gauge U-2; row 12, column 1: scale"
    );
    // Sent again there is nothing to enter.
    let again = desk.post("/bench/survey", &form("survey-enter", ""));
    assert_eq!(again.status, 422, "{}", again.body);
    assert!(again.body.contains("entered already"), "{}", again.body);
    // A square of which nobody said anything is not read, and a survey without a reading is none.
    let down = form("survey-begin", &format!("direction=down&{how}"));
    assert_eq!(desk.post("/bench/survey", &down).status, 303);
    assert!(desk.get(BENCH).body.contains("Column 1: 0 of 2"));
    let none = desk.post("/bench/survey", &form("survey-enter", ""));
    assert!(none.body.contains("Not one square"), "{}", none.body);
    assert_eq!(
        desk.post("/bench/survey", &form("survey-drop", "")).status,
        422
    );
    assert_eq!(
        desk.post("/bench/survey", &form("survey-drop", "sure=yes"))
            .status,
        303
    );
    assert!(desk.get(BENCH).body.contains("Begin to read"));
    for missing in [
        "/bench/14/boiler/smokebox/survey",
        "/bench/99/boiler/x/survey",
    ] {
        assert_eq!(desk.get(missing).status, 404, "{missing}");
    }
}

/// The door by which a device hands in what waited: a survey once, under whoever wrote it, and no file of this machine.
#[test]
fn a_survey_handed_in_by_a_device_is_saved_once() {
    let desk = Served::of_book(shop("survey-pocket"), "2026-05-03T09:00");
    let page = desk.get(BENCH);
    let (person, ticket) = crate::bench::pocket(&page);
    let survey = |more: serde_json::Value| {
        let mut survey = serde_json::json!({
            "engine": "14", "component": "second course", "unit": "in", "source": "from the front seam", "columns": "1,2,3",
            "rows": ["12=.680 .679 -", "6=.640 .630 .571"], "remarks": ["6,3=pitted"],
        });
        for (name, value) in more.as_object().unwrap() {
            survey[name] = value.clone();
        }
        survey
    };
    let send = |id: u128, survey: serde_json::Value| {
        let set = serde_json::json!({ "id": format!("{id:032x}"), "person": person, "ticket": ticket, "written": 5, "seen": 0, "survey": survey });
        let body = serde_json::json!({ "now": 6, "sets": [set] }).to_string();
        let page = desk.post("/bench/send", &body);
        assert_eq!(page.status, 200, "{}", page.body);
        let told: serde_json::Value = serde_json::from_str(&page.body).unwrap();
        told["sets"][0].clone()
    };
    let kept = send(1, survey(serde_json::json!({})));
    assert_eq!(kept["fate"], "kept", "{kept}");
    assert_eq!(send(1, survey(serde_json::json!({})))["fate"], "already");
    let told = told(&desk.folder);
    assert_eq!(told["not_read"], 1);
    assert_eq!(
        told["source"],
        "from the front seam; row 6, column 3: pitted"
    );
    // Another one under its id, one that does not read, one that names a file: refused, each with a sentence.
    for (id, more, says) in [
        (1, serde_json::json!({ "source": "elsewhere" }), "id"),
        (
            2,
            serde_json::json!({ "rows": ["12=.680 .67O -"], "remarks": [] }),
            "`.67O`",
        ),
        (
            3,
            serde_json::json!({ "file": "secret.csv" }),
            "does not read as readings",
        ),
    ] {
        let no = send(id, survey(more));
        assert_eq!(no["fate"], "refused", "{no}");
        assert!(no["said"].as_str().unwrap().contains(says), "{no}");
    }
}
