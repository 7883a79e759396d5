//! The seat's section against plane geometry.

use crate::samples::{seat, title};
use crate::svg_reader::{dimensions, svg};
use drawing::{SeatSection, SeatStated, seat_section};
use measure::{House, Length, math};
use proptest::prelude::*;

/// The figure of the dimension whose label starts with this word.
fn figure(all: &[crate::svg_reader::Dimension], word: &str) -> Option<f64> {
    let label = all
        .iter()
        .map(|dimension| dimension.lines.join(" "))
        .find(|label| label.starts_with(word))?;
    label
        .split_whitespace()
        .filter_map(|word| word.trim_end_matches('°').parse::<f64>().ok())
        .next_back()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Plane geometry. The far end of the old face stands off the new one by land x sin(difference), square to the
    /// new face; along the axis that is so much over sin(wanted); the land spans the same width before and after.
    #[test]
    fn take_sink_and_land_are_those_of_plane_geometry(
        port in 0.5_f64..4.0, land in 0.05_f64..0.4, found in 15.0_f64..75.0, off in -8.0_f64..8.0,
    ) {
        prop_assume!(off.abs() > 0.3);
        let wanted = found + off;
        let wall = Some(Length::inches(1.0));
        let given = SeatSection { wall, ..seat(port, land, found, wanted) };
        let drawing = seat_section(&given, House::Inch, title("Seat")).unwrap();
        let all = dimensions(&svg(&drawing));
        let take = land * math::sin_deg(off.abs());
        let sink = take / math::sin_deg(wanted);
        let new = land * math::sin_deg(found) / math::sin_deg(wanted);
        let outside = port + 2.0 * land * math::sin_deg(found);
        // What is taken or sinks is never shown less than it is, what is left never more.
        let (up, down, near) = ((0.0, 1e-4), (-1e-4, 0.0), (-5e-5, 5e-5));
        for (word, wanted, (least, most)) in [
            ("sink", sink, up), ("land after", new, near), ("land found", land, near),
            ("seat outside", outside, up), ("wall after the cut", 1.0 - sink, down),
        ] {
            let drawn = figure(&all, word).unwrap();
            prop_assert!((least - 1e-9..=most + 1e-9).contains(&(drawn - wanted)), "{} {} {}", word, drawn, wanted);
        }
        let note = all.iter().find(|d| d.lines[0].starts_with("take")).unwrap();
        let drawn: f64 = note.lines[0].split_whitespace().next_back().unwrap().parse().unwrap();
        prop_assert!((-1e-9..=1e-4 + 1e-9).contains(&(drawn - take)), "take {} {}", drawn, take);
    }
}

#[test]
fn an_angle_already_true_asks_for_no_metal() {
    let drawing = seat_section(&seat(1.5, 0.125, 45.0, 45.0), House::Inch, title("Seat")).unwrap();
    let text = svg(&drawing);
    assert!(!text.contains("class=\"solid\""), "nothing is black");
    assert!(!text.contains("class=\"found\""), "nothing is dashed");
    let all = dimensions(&text);
    assert!(figure(&all, "sink").is_none());
    assert!(figure(&all, "land").is_some());
    assert!(text.contains("The angle is the one wanted: nothing is to be cut for it."));
}

#[test]
fn a_sheets_figures_are_repeated_and_those_that_differ_are_refused() {
    // Plane geometry: .125 sin 5° / sin 45° = .01540; rounded up .0155.
    let stated = |sink: &str| SeatSection {
        stated: SeatStated {
            sink: Some(sink.to_owned()),
            ..SeatStated::default()
        },
        ..seat(1.5, 0.125, 40.0, 45.0)
    };
    let drawn = seat_section(&stated("0.0155"), House::Inch, title("Seat")).unwrap();
    assert_eq!(figure(&dimensions(&svg(&drawn)), "sink"), Some(0.0155));
    for wrong in ["0.0157", "0.0152", "0.16", "cannot tell: needs wall"] {
        let why = seat_section(&stated(wrong), House::Inch, title("Seat")).unwrap_err();
        assert!(
            why.to_string()
                .starts_with(&format!("the sink is stated as {wrong}")),
            "{why}"
        );
    }
}

#[test]
fn a_disc_wider_than_a_sunken_seat_is_spoken_of() {
    let wide = SeatSection {
        disc_outside: Some(Length::inches(2.0)),
        ..seat(1.5, 0.125, 43.0, 45.0)
    };
    let says = |seat: &SeatSection| {
        seat_section(seat, House::Inch, title("Seat"))
            .unwrap()
            .notes
            .iter()
            .any(|note| note.starts_with("The disc is wider than the seat"))
    };
    assert!(says(&wide));
    // Closed in, the outer edge stays where it is and nothing stands in the disc's way.
    assert!(!says(&SeatSection {
        found_half_angle: measure::Angle::degrees(47.0),
        ..wide.clone()
    }));
}
