//! A drawn seam: its rivets counted and placed, its sizes said, what is not known said too.

use crate::samples::{seam, title};
use crate::svg_reader::{dimensions, svg};
use drawing::geometry::Point;
use drawing::{Drawing, Layer, Mark, RivetedSeam, riveted_seam};
use measure::{House, Length};
use proptest::prelude::*;

fn drawn(seam: &RivetedSeam) -> Drawing {
    riveted_seam(seam, House::Inch, title("Seam")).unwrap()
}

/// The rivets of the plan: center and radius of each circle.
fn rivets(drawing: &Drawing) -> Vec<(Point, f64)> {
    let marks = drawing.views[1].marks.iter();
    marks
        .filter_map(|mark| match mark {
            Mark::Line(Layer::Outline, path) => path.as_circle(),
            _ => None,
        })
        .collect()
}

/// How many rivets stand within the unit of length, one on its end counting half.
fn within_the_unit(rivets: &[(Point, f64)], pitch: f64) -> f64 {
    let share = |y: f64| match (y.abs() < 1e-9) || ((y - pitch).abs() < 1e-9) {
        true => 0.5,
        false if (0.0..pitch).contains(&y) => 1.0,
        false => 0.0,
    };
    rivets.iter().map(|(at, _)| share(at.y)).sum()
}

#[test]
fn a_unit_of_each_kind_has_the_rivets_of_its_rows() {
    for (rows, double) in [
        (&[1_u32][..], 0),
        (&[1, 1], 0),
        (&[1, 1, 1], 0),
        (&[1, 2], 1),
        (&[1, 2, 2], 2),
        (&[1, 2, 4, 4], 2),
        (&[1, 2, 3, 4, 4], 2),
    ] {
        for teeth in [false, rows.len() == 5] {
            let strap = (double > 0).then_some(0.375);
            let given = RivetedSeam {
                teeth,
                ..seam(15.0, [0.5, 0.9375], strap, rows, double)
            };
            let all = rivets(&drawn(&given));
            assert!(
                all.iter()
                    .all(|(_, radius)| (radius - 0.46875).abs() < 1e-12)
            );
            let many: u32 = rows.iter().sum();
            assert!(
                (within_the_unit(&all, 15.0) - f64::from(many)).abs() < 1e-9,
                "{rows:?} {teeth}"
            );
        }
    }
}

#[test]
fn sizes_are_said_and_what_is_not_known_is_said_too() {
    let given = seam(6.5, [0.375, 0.8125], Some(0.3125), &[1, 2, 2], 2);
    let text = svg(&drawn(&given));
    let all: Vec<String> = dimensions(&text)
        .iter()
        .map(|one| one.lines.join(" "))
        .collect();
    for says in [
        "pitch 6 1/2",
        "rivet, driven Ø 13/16",
        "plate 3/8",
        "strap, each 5/16",
        "row 1",
        "row 3",
    ] {
        assert!(
            all.iter().any(|label| label.starts_with(says)),
            "{says}: {all:?}"
        );
    }
    assert!(!all.iter().any(|label| label.starts_with("edge")));
    assert!(text.contains("not to be measured"));
    assert!(text.contains("First to give way, by the sheet: plate tears at row 1."));
    let told = RivetedSeam {
        row_spacing: Some(Length::inches(2.0)),
        edge: Some(Length::inches(1.25)),
        ..given
    };
    let all: Vec<String> = dimensions(&svg(&drawn(&told)))
        .iter()
        .map(|one| one.lines.join(" "))
        .collect();
    for says in ["row to row 2", "edge 1 1/4"] {
        assert!(
            all.iter().any(|label| label.starts_with(says)),
            "{says}: {all:?}"
        );
    }
}

/// Metal that is cut is lined, but never the rivets; plates and the straps on them lean opposite ways.
#[test]
fn plates_and_straps_are_lined_opposite_ways_and_rivets_not_at_all() {
    let given = seam(6.5, [0.375, 0.8125], Some(0.3125), &[1, 2, 2], 2);
    let drawing = drawn(&given);
    let mut leans = Vec::new();
    for mark in &drawing.views[0].marks {
        let Mark::Hatch(loops, lean) = mark else {
            continue;
        };
        let bounds = loops[0].bounds().unwrap();
        let within = bounds.min.y >= -1e-9 && bounds.max.y <= 0.375 + 1e-9;
        leans.push((within, *lean));
        // A rivet stands at each row; its shank is 13/16 wide, and lined metal lies beside it.
        for x in [1.21875, 3.25, 5.28125] {
            assert!(
                bounds.max.x <= x - 0.40625 + 1e-9 || bounds.min.x >= x + 0.40625 - 1e-9 || !within
            );
        }
    }
    let of = |plate: bool| {
        leans
            .iter()
            .filter(|(within, _)| *within == plate)
            .map(|(_, lean)| *lean)
            .collect::<Vec<_>>()
    };
    assert!(
        of(true).windows(2).all(|two| two[0] == two[1])
            && of(false).windows(2).all(|two| two[0] == two[1])
    );
    assert!(of(true)[0] != of(false)[0]);
}

proptest! {
    /// However close its rivets, a unit has all those of its rows.
    #[test]
    fn no_rivet_is_left_out(rivet in 0.5_f64..1.25, slack in 1.05_f64..8.0, many in 1_usize..4) {
        let rows = vec![1_u32; many];
        let pitch = rivet * slack;
        let all = rivets(&drawn(&seam(pitch, [0.5, rivet], None, &rows, 0)));
        prop_assert!((within_the_unit(&all, pitch) - many as f64).abs() < 1e-9);
    }

    /// No two rivets of a drawn seam lie on each other.
    #[test]
    fn no_rivet_lies_on_another(
        rivet in 0.5_f64..1.25, slack in 1.05_f64..4.0, kind in 0_usize..5,
    ) {
        let (rows, double): (&[u32], usize) =
            [(&[1_u32, 1, 1][..], 0), (&[1, 2], 1), (&[1, 2, 2], 2), (&[1, 2, 4, 4], 2), (&[1, 2, 3, 4, 4], 2)][kind];
        let pitch = 4.0 * rivet * slack;
        let given = RivetedSeam {
            teeth: kind == 4,
            ..seam(pitch, [0.5, rivet], (double > 0).then_some(0.4), rows, double)
        };
        let all = rivets(&drawn(&given));
        for (at, (one, _)) in all.iter().enumerate() {
            for (other, _) in &all[..at] {
                prop_assert!((*one - *other).length() >= rivet * (1.0 - 1e-9));
            }
        }
    }
}
