//! Drawings that a part is made from: they measure what their sheet says, in every form, and say what is not stated.

use crate::pages::Served;
use crate::run::Folder;

/// The layer and the ends of every line of a DXF.
fn lines(dxf: &str) -> Vec<(String, [f64; 4])> {
    let pairs: Vec<(&str, &str)> = dxf
        .lines()
        .collect::<Vec<_>>()
        .chunks(2)
        .map(|pair| (pair[0].trim(), pair[1].trim()))
        .collect();
    let starts: Vec<usize> = (0..pairs.len()).filter(|at| pairs[*at].0 == "0").collect();
    let each = starts.windows(2).map(|two| &pairs[two[0]..two[1]]);
    let line = |entity: &[(&str, &str)]| {
        let text = |code: &str| entity.iter().find(|pair| pair.0 == code).map(|pair| pair.1);
        let ends = ["10", "20", "11", "21"].map(|code| text(code).and_then(|t| t.parse().ok()));
        let [Some(a), Some(b), Some(c), Some(d)] = ends else {
            return None;
        };
        (entity[0].1 == "LINE").then(|| (text("8").unwrap_or_default().to_owned(), [a, b, c, d]))
    };
    each.filter_map(line).collect()
}

const TITLE: [&str; 10] = [
    "part=gland of the left injector",
    "number=D-021",
    "revision=2",
    "mate=the old stem, P-7",
    "material=bronze C93200",
    "quantity=2",
    "finish=63 microinch",
    "edges=break .010",
    "unless=±.005",
    "runout=.002",
];

#[test]
fn a_nut_is_drawn_to_the_limits_of_its_sheet_and_its_dxf_measures_them() {
    let folder = Folder::shop("parts-nut");
    // External major and bore of a nut of 1-8 UNC-2B, as the sheet has them: ASME B1.1 (source 6 of the thread sheets).
    let asked = [
        "print",
        "drawing",
        "nut",
        "from=thread.unified?diameter=1in&tpi=8&class=2",
        "length=7/8in +.000 -.010",
        "across_flats=1-1/2in ±.010",
        "hand=right",
    ];
    for form in ["pdf", "svg", "dxf"] {
        let file = format!("nut.{form}");
        folder.done(&[&asked[..], &TITLE[..], &["--out", &file]].concat());
    }
    let dxf = std::fs::read_to_string(folder.file("nut.dxf")).unwrap();
    let all = lines(&dxf);
    // The bore stands at its least, .865, and the root at 1.000: half of each from the axis, over the whole length.
    for (layer, radius) in [("OUTLINE", 0.4325), ("THREAD", 0.5)] {
        let found = all.iter().any(|(on, [ax, ay, bx, by])| {
            on == layer
                && (ay - radius).abs() < 1e-6
                && (by - radius).abs() < 1e-6
                && ((bx - ax).abs() - 0.875).abs() < 1e-6
        });
        assert!(found, "{layer} {radius}: {all:?}");
    }
    let svg = std::fs::read_to_string(folder.file("nut.svg")).unwrap();
    for says in [
        "1in - 8 Unified 2",
        "right hand",
        "major 1.0000 or over",
        "pitch dia. .9188 to .9276",
        "minor .8650 to .8900",
        "datum A",
        "across",
        "+.0000 -.0100",
        "Before it leaves the chuck",
        "the old stem, P-7",
        "±.005",
    ] {
        assert!(svg.contains(says), "{says}: {svg}");
    }
    assert!(!svg.contains("not stated"), "{svg}");
}

#[test]
fn every_kind_is_drawn_from_the_sheet_that_gives_it() {
    let folder = Folder::shop("parts-kinds");
    let cases: [(&str, &[&str], &[&str]); 6] = [
        (
            "bushing",
            &[
                "from=fit.bushing?eye=3in&eye_outside=5in&length=4in&pin_largest=2.4987in&running_clearance=.006in&interference=.0031in&bore=2.4in&materials=steel%2Cbronze",
            ],
            &["3.0031", "2.5047", "bore before"],
        ),
        (
            "plug-gauge",
            &[
                "from=fit.iso?size=2.5in&fit=H7%2Fg6",
                "go_length=1-1/2in",
                "not_go_length=3/4in",
                "handle=1-1/4in",
                "handle_length=3-1/2in",
            ],
            // 63.5 mm H7: 0 and +30 micrometres (ISO 286-1), in inches.
            &["2 1/2", "2.5012", "not go"],
        ),
        (
            "mandrel",
            &[
                "from=lathe.taper?large=2.503in&small=2.4995in&length=6in",
                "ends=1-3/4in",
                "end_length=1in",
            ],
            &["2.4995", "2.503", "small end"],
        ),
        (
            "disc",
            &[
                "from=thread.acme?diameter=1in&tpi=5&class=2G",
                "nose=1-3/8in",
                "outside=1.8125in ±.002",
                "half_angle=45deg ±.1deg",
                "rim=5/16in",
                "stem=1.000in +.000 -.002",
                "stem_length=3in",
                "thread_length=1-1/2in",
                "hand=left",
            ],
            // 1-5 Acme 2G (Machinery's Handbook, as the sheet's own evidence has it).
            &[
                "major .9900 to 1.0000",
                "pitch dia. .8726 to .8920",
                "left hand",
                "45° ±0.1°",
            ],
        ),
        (
            "seat-lap",
            &[
                "from=seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5%2F32in&port=2in",
                "small=1.9in",
                "large=2.4in",
                "back=1/2in",
                "pilot=1.75in",
                "pilot_length=1in",
                "spindle=1/2in",
                "drive_length=1-1/2in",
            ],
            &["45°", "spindle"],
        ),
        (
            "seat",
            &[
                "from=seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5%2F32in&port=2in",
            ],
            &["43°", "45°"],
        ),
    ];
    for (kind, given, says) in cases {
        let file = format!("{kind}.svg");
        folder.done(&[&["print", "drawing", kind][..], given, &["--out", &file]].concat());
        let svg = std::fs::read_to_string(folder.file(&file)).unwrap();
        for said in says {
            assert!(svg.contains(said), "{kind}: {said}: {svg}");
        }
    }
}

#[test]
fn what_cannot_be_drawn_is_refused_in_a_sentence() {
    let folder = Folder::shop("parts-refused");
    let nut = ["print", "drawing", "nut"];
    let unified = "from=thread.unified?diameter=1in&tpi=8&class=2";
    let cases: [(&[&str], &str); 5] = [
        (&[unified], "needs length"),
        (&[unified, "length=1in"], "across_flats or outside"),
        (
            &[unified, "length=1in", "outside=.9in"],
            "more than its thread",
        ),
        (
            &[unified, "length=1in +.001", "outside=2in"],
            "both with their sign",
        ),
        (
            &["from=lathe.taper?large=2in&small=1in&length=3in"],
            "gives nothing of the drawing nut",
        ),
    ];
    for (given, says) in cases {
        let output = folder.run(&[&nut[..], given, &["--out", "x.svg"]].concat());
        let why = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{given:?}: {why}");
        assert!(
            why.contains(says) && why.contains("Nothing was saved."),
            "{says}: {why}"
        );
    }
    assert!(!folder.file("x.svg").exists());
}

#[test]
fn the_page_of_a_drawing_says_what_a_stranger_would_ask_and_gives_its_files() {
    let served = Served::signed_in("parts-page");
    let asked = "from=thread.unified%3Fdiameter%3D1in%26tpi%3D8%26class%3D2&length=1in&outside=2in";
    let page = served.get(&format!("/drawing/nut?{asked}")).body;
    for says in [
        "handed on: internal_pitch_min, internal_pitch_max of thread.unified",
        "what it is made of, by its specification",
        "how closely these are kept: length of the nut",
        "<svg",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
    for (form, kind) in [
        ("pdf", "application/pdf"),
        ("svg", "image/svg+xml"),
        ("dxf", "image/vnd.dxf"),
    ] {
        let file = served.get(&format!("/print/drawing/nut/{form}?{asked}"));
        assert_eq!(file.status, 200, "{form}: {}", file.body);
        assert!(file.head.contains(kind), "{}", file.head);
    }
    assert_ne!(
        served
            .get(&format!("/print/drawing/nut/png?{asked}"))
            .status,
        200
    );
}
