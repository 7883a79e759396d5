//! The verb `print`: what it writes, what it will not write over, and what it says.

use crate::run::Folder;

const SEAT: [&str; 7] = [
    "print",
    "sheet",
    "seat.correct",
    "found_half_angle=44deg",
    "wanted_half_angle=45deg",
    "land=5/32in",
    "port=2-1/4in",
];
const DISC: [&str; 9] = [
    "print",
    "drawing",
    "disc",
    "nose=1.9in",
    "outside=2-1/4in",
    "half_angle=45deg",
    "rim=1/4in",
    "stem=3/4in",
    "stem_length=2in",
];

/// Words that must be refused: exit code 2, this said, nothing written.
fn refused(folder: &Folder, words: &[&str], said: &str) {
    let files = || std::fs::read_dir(&folder.0).unwrap().count();
    let before = files();
    let output = folder.run(words);
    let text = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{words:?}: {text}");
    assert!(
        text.contains(said) && text.contains("Nothing was saved."),
        "{text}"
    );
    assert_eq!(files(), before, "{words:?}");
}

#[test]
fn a_card_is_written_once_and_over_only_when_told() {
    let folder = Folder::shop("print");
    let answer = folder.json(&SEAT);
    assert_eq!(answer["path"], "seat.correct.pdf");
    let sum = answer["sha256"].as_str().unwrap().to_owned();
    assert_eq!(sum.len(), 64);
    assert!(answer["pages"].as_u64().unwrap() >= 2);
    let file = folder.file("seat.correct.pdf");
    let bytes = std::fs::read(&file).unwrap();
    assert!(bytes.starts_with(b"%PDF-1.7"));
    refused(&folder, &SEAT, "stands there already");
    std::fs::write(&file, "mine").unwrap();
    refused(&folder, &SEAT, "stands there already");
    let over = [&SEAT[..], &["--over"]].concat();
    assert!(folder.done(&over).contains(&sum));
    assert_eq!(std::fs::read(&file).unwrap(), bytes);
    let named = [&SEAT[..], &["--out", "another.pdf"]].concat();
    assert!(folder.done(&named).contains("Wrote another.pdf"));
    assert_eq!(std::fs::read(folder.file("another.pdf")).unwrap(), bytes);
    assert!(!folder.file("seat.correct.pdf.part").exists());
}

#[test]
fn a_drawing_takes_the_form_its_name_ends_in() {
    let folder = Folder::shop("print-drawing");
    for (name, begins) in [
        ("disc.svg", "<svg "),
        ("disc.dxf", "0\nSECTION"),
        ("disc.pdf", "%PDF-1.7"),
    ] {
        folder.done(&[&DISC[..], &["--out", name]].concat());
        let bytes = std::fs::read(folder.file(name)).unwrap();
        let text = String::from_utf8_lossy(&bytes).replace('\r', "");
        assert!(
            text.trim_start().starts_with(begins),
            "{name}: {}",
            &text[..40]
        );
    }
}

#[test]
fn what_cannot_be_printed_is_a_sentence() {
    let folder = Folder::shop("print-refused");
    refused(&folder, &["print", "job", "J-001"], "There is no job J-001");
    refused(
        &folder,
        &["print", "inspection", "I-001"],
        "There is no inspection I-001",
    );
    refused(&folder, &["print", "tag", "99"], "99");
    refused(&folder, &["print", "worksheet", "99", "31"], "99");
    refused(&folder, &["print", "sheet", "seat.wrong"], "seat.wrong");
    refused(
        &folder,
        &["print", "drawing", "boiler"],
        "There is no drawing `boiler`",
    );
    refused(&folder, &DISC[..8], "needs stem_length");
    refused(
        &folder,
        &[&DISC[..], &["shade=red"]].concat(),
        "takes no `shade`",
    );
    refused(&folder, &[&DISC[..], &["rim=1in"]].concat(), "given twice");
    refused(
        &folder,
        &[&DISC[..], &["--out", "disc.doc"]].concat(),
        "ends in .pdf, .svg or .dxf",
    );
    refused(
        &folder,
        &[&SEAT[..], &["--out", "card.svg"]].concat(),
        "ends in .pdf",
    );
    let nowhere = [&SEAT[..], &["--out", "no/such/folder/card.pdf"]].concat();
    let output = folder.run(&nowhere);
    assert_eq!(output.status.code(), Some(3));
    assert!(
        String::from_utf8(output.stderr)
            .unwrap()
            .contains("cannot be written")
    );
}
