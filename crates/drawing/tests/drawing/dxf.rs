//! The DXF, read here by its bare structure: pairs of a code and a value. That an independent program reads it
//! without complaint is proved by `cargo xtask drawings`, which needs Python.

use crate::samples;
use drawing::Drawing;

/// One entity: its kind and its pairs.
#[derive(Debug)]
struct Entity {
    kind: String,
    pairs: Vec<(u16, String)>,
}

impl Entity {
    fn text(&self, code: u16) -> &str {
        self.pairs
            .iter()
            .find(|(c, _)| *c == code)
            .map(|(_, value)| value.as_str())
            .unwrap_or_else(|| panic!("{} has no {code}", self.kind))
    }

    fn real(&self, code: u16) -> f64 {
        self.text(code).parse().unwrap()
    }

    fn layer(&self) -> &str {
        self.text(8)
    }
}

fn pairs(text: &str) -> Vec<(u16, String)> {
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.len() % 2, 0, "every code has a value");
    lines
        .chunks(2)
        .map(|pair| (pair[0].trim().parse().unwrap(), pair[1].to_owned()))
        .collect()
}

fn entities(text: &str) -> Vec<Entity> {
    let mut found: Vec<Entity> = Vec::new();
    let mut inside = false;
    for (code, value) in pairs(text) {
        if (code, value.as_str()) == (2, "ENTITIES") {
            inside = true;
        } else if inside && code == 0 {
            found.push(Entity {
                kind: value,
                pairs: Vec::new(),
            });
        } else if inside {
            found.last_mut().unwrap().pairs.push((code, value));
        }
    }
    found.retain(|entity| !["ENDSEC", "EOF"].contains(&entity.kind.as_str()));
    found
}

fn dxf(drawing: &Drawing) -> String {
    drawing.lay_out().unwrap().dxf()
}

/// The ends of lines and the corners of polylines on a layer, inches of the part.
fn corners(entities: &[Entity], layer: &str) -> Vec<(f64, f64)> {
    entities
        .iter()
        .filter(|entity| entity.layer() == layer)
        .flat_map(|entity| match entity.kind.as_str() {
            "LINE" => vec![
                (entity.real(10), entity.real(20)),
                (entity.real(11), entity.real(21)),
            ],
            "VERTEX" => vec![(entity.real(10), entity.real(20))],
            _ => Vec::new(),
        })
        .collect()
}

#[test]
fn sizes_in_the_file_are_those_of_the_part() {
    for sample in samples::all() {
        let found = corners(&entities(&dxf(sample.drawing.as_ref().unwrap())), "OUTLINE");
        for (x, y) in sample.corners_in_file() {
            assert!(
                found
                    .iter()
                    .any(|(fx, fy)| (fx - x).abs() < 1e-8 && (fy - y).abs() < 1e-8),
                "{} has no corner at {x} {y}",
                sample.name
            );
        }
    }
}

#[test]
fn enlarged_details_are_kept_off_the_layers_of_the_part() {
    let sample = &samples::all()[0];
    let drawing = sample.drawing.as_ref().unwrap();
    let all = entities(&dxf(drawing));
    let land = |layer: &str| corners(&all, layer).len();
    assert!(land("OUTLINE") > 0 && land("DETAIL_OUTLINE") > 0);
    // Body 2 1/4 in outside: nothing of the part is further than 1 1/8 in from the axis.
    for (x, _) in corners(&all, "OUTLINE") {
        assert!(x.abs() <= 1.125 + 1e-9, "{x}");
    }
}

#[test]
fn every_layer_and_line_type_is_in_its_table() {
    for sample in samples::all() {
        let text = dxf(sample.drawing.as_ref().unwrap());
        let named = |kind: &str| -> Vec<String> {
            let all = pairs(&text);
            all.windows(2)
                .filter(|two| two[0] == (0, kind.to_owned()) && two[1].0 == 2)
                .map(|two| two[1].1.clone())
                .collect()
        };
        let (layers, line_types) = (named("LAYER"), named("LTYPE"));
        for entity in entities(&text) {
            assert!(layers.contains(&entity.layer().to_owned()), "{entity:?}");
        }
        for pair in pairs(&text)
            .windows(5)
            .filter(|five| five[0] == (0, "LAYER".to_owned()))
        {
            assert!(line_types.contains(&pair[4].1), "{pair:?}");
        }
        assert!(text.is_ascii());
        assert!(text.starts_with("  0\nSECTION\n  2\nHEADER\n"));
        assert!(text.ends_with("  0\nEOF\n"));
        assert!(text.contains("AC1009"));
    }
}

#[test]
fn polylines_end_and_wavy_edges_bulge() {
    let drawing = true_seat();
    let all = entities(&dxf(&drawing));
    let count = |kind: &str| all.iter().filter(|entity| entity.kind == kind).count();
    assert!(count("POLYLINE") > 0);
    assert_eq!(count("POLYLINE"), count("SEQEND"));
    assert!(count("ARC") > 0, "the half angle has an arc");
    let bulges = all
        .iter()
        .filter(|entity| entity.kind == "VERTEX" && entity.layer() == "BREAK")
        .filter(|entity| entity.pairs.iter().any(|(code, _)| *code == 42))
        .count();
    assert!(bulges > 0, "the broken edge is made of arcs");
}

#[test]
fn signs_of_a_drawing_are_written_in_its_own_codes() {
    let drawing = true_seat();
    let texts: Vec<String> = entities(&dxf(&drawing))
        .iter()
        .filter(|entity| entity.kind == "TEXT")
        .map(|entity| entity.text(1).to_owned())
        .collect();
    assert!(texts.iter().any(|text| text == "%%c 1 1/2"), "{texts:?}");
    assert!(texts.iter().any(|text| text == "45%%d"), "{texts:?}");
}

/// A seat with a true angle, of which little is known.
fn true_seat() -> Drawing {
    let seat = samples::seat(1.5, 0.125, 45.0, 45.0);
    drawing::seat_section(&seat, measure::House::Inch, samples::title("Seat")).unwrap()
}

#[test]
fn a_circle_is_a_circle() {
    let mut samples = samples::all().into_iter();
    let ring = samples.find(|sample| sample.name == "ring").unwrap();
    let radii: Vec<f64> = entities(&dxf(&ring.drawing.unwrap()))
        .iter()
        .filter(|entity| entity.kind == "CIRCLE")
        .map(|entity| entity.real(40))
        .collect();
    assert_eq!(radii, [1.0, 1.5, 0.5]);
}
