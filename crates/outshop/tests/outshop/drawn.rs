//! The drawing of a worked sheet says what the sheet says, and says it in words too.

use drawing::{Drawing, PageWidth, Title};
use measure::House;
use outshop::drawn::of_sheet;
use physics::{Given, Shown};

/// The texts of the dimensions of a drawing for one width.
fn texts(drawing: &Drawing, width: PageWidth) -> Vec<String> {
    let laid = drawing.for_page(width).unwrap();
    let dimensions = laid.views.iter().flat_map(|view| &view.dimensions);
    let lines = dimensions.flat_map(|placed| placed.label.lines.clone());
    lines.collect()
}

/// Sheet and drawing never show two figures for one size, whatever the inputs: seats of every angle, opened
/// and closed, in both houses.
#[test]
fn a_sheets_results_stand_on_its_drawing_to_the_letter() {
    let mut compared = 0;
    for number in 0_u32..60 {
        let part = |step: u32| f64::from(number * step % 97) / 97.0;
        let found = 15.0 + 60.0 * part(31);
        let wanted = (found - 9.0 + 18.0 * part(17)).clamp(12.0, 80.0);
        let (port, land) = (0.5 + 5.0 * part(7), 0.03 + 0.3 * part(43));
        let house = if number % 2 == 0 {
            House::Inch
        } else {
            House::Metric
        };
        let given = [
            ("found_half_angle", format!("{found:.2}deg")),
            ("wanted_half_angle", format!("{wanted:.2}deg")),
            ("port", format!("{port:.4}in")),
            ("land", format!("{land:.4}in")),
            ("wall", "1in".to_owned()),
        ];
        let given = given.map(|(name, text)| Given::typed(name, &text));
        let sheet = physics::run("seat.correct", &given, house).unwrap();
        let drawing = of_sheet(&sheet, &Title::default()).remove(0).unwrap();
        let figure = |name: &str| match sheet.result(name) {
            Some(Shown::Quantity { shown, .. }) => shown.clone(),
            other => panic!("{name}: {other:?}"),
        };
        // Where nothing is to be cut only the outside is dimensioned.
        let cut = figure("wedge").trim_matches(['0', '.']).is_empty();
        for width in [PageWidth::Narrow, PageWidth::Wide] {
            let texts = texts(&drawing, width);
            for (name, word) in [
                ("outside", "Ø "),
                ("new_land", "land after "),
                ("wedge", "take "),
                ("axial_sink", ""),
                ("metal_left", ""),
            ] {
                if cut && name != "outside" {
                    continue;
                }
                let mut shown = figure(name);
                // A drawing in inches has nothing before the point.
                if house == House::Inch && shown.starts_with("0.") {
                    shown.remove(0);
                }
                let wanted = format!("{word}{shown}");
                assert!(
                    texts.contains(&wanted),
                    "{name}: `{wanted}` is not in {texts:?}"
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 500, "only {compared} figures were compared");
}

/// The bushing's sheet draws it with the sheet's own figures, in either house.
#[test]
fn a_bushing_is_drawn_at_the_sizes_of_its_sheet() {
    let given = [
        ("eye", "3in"),
        ("eye_outside", "5in"),
        ("length", "4in"),
        ("pin_largest", "2.4987in"),
        ("running_clearance", ".006in"),
        ("interference", ".0031in"),
        ("bore", "2.4in"),
        ("materials", "steel,bronze"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    for (house, figures) in [
        (House::Inch, ["3.0031", "2.5047"]),
        (House::Metric, ["76.279", "63.619"]),
    ] {
        let sheet = physics::run("fit.bushing", &given, house).unwrap();
        let drawing = of_sheet(&sheet, &Title::default()).remove(0).unwrap();
        let notes = drawing.notes.join("; ");
        let all = format!("{}; {notes}", texts(&drawing, PageWidth::Wide).join("; "));
        for (name, figure) in ["bushing_outside", "bore_after"].iter().zip(figures) {
            let shown = match sheet.result(name) {
                Some(Shown::Quantity { shown, .. }) => shown.clone(),
                other => panic!("{name}: {other:?}"),
            };
            assert_eq!(shown, figure);
            assert!(all.contains(figure), "{figure} is not in {all}");
        }
    }
}

/// A seam's sheet draws it with its own sizes and says which mode governs; a butt without its strap is not drawn, and
/// the strap is asked for.
#[test]
fn a_seam_is_drawn_from_its_sheet() {
    let given = |kind: &'static str| {
        [
            ("kind", kind),
            ("pitch", "15in"),
            ("thickness", "1/2in"),
            ("rivet", "15/16in"),
            ("shear", "44000psi"),
            ("shear_double", "88000psi"),
            ("crushing", "95000psi"),
            ("tensile", "55000psi"),
            ("rows", "1, 2, 3, 4, 4"),
            ("double_rows", "2"),
            ("strap", "7/16in"),
        ]
    };
    for kind in [
        "lap-single",
        "lap-triple",
        "butt-double",
        "butt-quadruple",
        "saw-tooth",
    ] {
        let all = given(kind).map(|(name, text)| Given::typed(name, text));
        let sheet = physics::run("boiler.seam", &all, House::Inch).unwrap();
        let drawing = of_sheet(&sheet, &Title::default()).remove(0).unwrap();
        let texts = texts(&drawing, PageWidth::Wide).join("; ");
        for figure in ["15", "1/2", "15/16"] {
            assert!(texts.contains(figure), "{kind}: {figure} is not in {texts}");
        }
        assert_eq!(texts.contains("7/16"), !kind.starts_with("lap"), "{kind}");
        let Some(Shown::Text(weakest)) = sheet.result("weakest") else {
            panic!("{kind} has no weakest mode");
        };
        assert!(
            drawing.notes.iter().any(|note| note.contains(weakest)),
            "{kind}"
        );
        let fewer = &all[..all.len() - 1];
        let sheet = physics::run("boiler.seam", fewer, House::Inch).unwrap();
        let drawn = of_sheet(&sheet, &Title::default()).remove(0);
        assert_eq!(
            drawn.err().as_deref() == Some("it needs strap"),
            !kind.starts_with("lap")
        );
    }
}

#[test]
fn every_drawing_says_in_words_what_it_shows() {
    let given = [
        ("found_half_angle", "43deg"),
        ("wanted_half_angle", "45deg"),
        ("port", "1 3/4in"),
        ("land", "5/32in"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    let sheet = physics::run("seat.correct", &given, House::Inch).unwrap();
    let drawing = of_sheet(&sheet, &Title::default()).remove(0).unwrap();
    for width in [PageWidth::Narrow, PageWidth::Wide] {
        let svg = drawing.for_page(width).unwrap().svg_view();
        for part in [
            "role=\"img\"",
            "aria-label=\"Valve seat, before and after. Sizes in inches.",
            "port Ø 1 3/4 1.7500",
            "found 43°",
        ] {
            assert!(svg.contains(part), "{part}: {svg}");
        }
    }
}

#[test]
fn the_lap_of_a_seat_has_its_angle_and_reaches_past_its_edges() {
    let given = [
        ("found_half_angle", "43deg"),
        ("wanted_half_angle", "45deg"),
        ("port", "1 3/4in"),
        ("land", "5/32in"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    let sheet = physics::run("seat.correct", &given, House::Inch).unwrap();
    let drawings = of_sheet(&sheet, &Title::default());
    let lap = drawings.last().unwrap().as_ref().unwrap();
    let texts = texts(lap, PageWidth::Narrow);
    // Plane geometry: 1.75 + 2 x .15625 x sin 43 degrees = 1.96312, rounded up.
    for text in [
        "large end over",
        "Ø 1.9632",
        "small end under",
        "Ø 1 3/4",
        "45°",
    ] {
        assert!(texts.iter().any(|line| line == text), "{text}: {texts:?}");
    }
}

#[test]
fn a_sheet_without_a_picture_has_none() {
    let given = [
        ("large_ball", "1in"),
        ("small_ball", "1/2in"),
        ("top_difference", "1in"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    let sheet = physics::run("gauge.cone_two_balls", &given, House::Inch).unwrap();
    assert!(of_sheet(&sheet, &Title::default()).is_empty());
}
