//! Sizes from which nothing can be drawn are refused in words.

use crate::samples::{seam, seat, title};
use drawing::{
    Kept, Limits, NutBody, PlugGauge, RivetedSeam, SeatSection, ThreadCall, Tolerance, TurnedDisc,
    TurnedNut, plug_gauge, riveted_seam, seat_section, turned_disc, turned_nut,
};
use measure::{Angle, House, Length};

fn why(seat: SeatSection) -> String {
    seat_section(&seat, House::Inch, title("Seat"))
        .unwrap_err()
        .to_string()
}

#[test]
fn a_seat_that_cannot_be_is_refused_with_its_size_and_what_was_expected() {
    let good = seat(1.5, 0.125, 40.0, 45.0);
    for (bad, says) in [
        (
            seat(0.0, 0.125, 44.0, 45.0),
            "the port is .0000 in; a size above nothing",
        ),
        (
            seat(1.5, -0.1, 44.0, 45.0),
            "the land is -.1000 in; a size above nothing",
        ),
        (
            seat(1.5, f64::NAN, 44.0, 45.0),
            "the land is not a number in; a size above nothing",
        ),
        (
            seat(1.5, 0.125, 90.0, 45.0),
            "the half angle found is 90.00°; a half angle from the axis of 1° to 89°",
        ),
        (
            seat(1.5, 0.125, 44.0, 0.5),
            "the half angle wanted is 0.50°;",
        ),
        (
            SeatSection {
                body_outside: Some(Length::inches(1.5)),
                ..good.clone()
            },
            "the outside of the body is 1.5000 in; more than the outside of the seat (1.6607 in)",
        ),
        (
            SeatSection {
                disc_outside: Some(Length::inches(1.25)),
                ..good.clone()
            },
            "the outside of the disc is 1.2500 in; more than the port (1.5000 in)",
        ),
        (
            // Plane geometry: the sink is .125 sin 5° / sin 45° = .0154.
            SeatSection {
                wall: Some(Length::inches(0.015)),
                ..good.clone()
            },
            "the wall behind the seat is .0150 in; more than the sink, or the cut breaks through (.0154 in)",
        ),
    ] {
        let why = why(bad);
        assert!(why.starts_with(says), "{why}");
        assert!(why.ends_with("No drawing was made."), "{why}");
    }
}

#[test]
fn a_part_too_large_for_every_scale_is_refused() {
    let why = seat_section(&seat(1e6, 1.0, 44.0, 45.0), House::Inch, title("Seat"))
        .unwrap()
        .lay_out()
        .unwrap_err()
        .to_string();
    assert!(
        why.contains("fits its place on the sheet at no standard scale from 200:1 to 1:500"),
        "{why}"
    );
}

#[test]
fn a_chamfer_larger_than_its_corner_is_refused() {
    let disc = TurnedDisc {
        nose: Length::inches(1.0).into(),
        outside: Length::inches(1.5).into(),
        half_angle: Angle::degrees(45.0),
        half_angle_within: None,
        rim: Length::inches(0.125).into(),
        stem: Length::inches(0.5).into(),
        stem_length: Length::inches(2.0).into(),
        chamfer: Some(Length::inches(0.125)),
        thread: None,
    };
    let why = turned_disc(&disc, House::Inch, title("Disc"))
        .unwrap_err()
        .to_string();
    assert!(
        why.starts_with("what is left to chamfer is .1250 in; more than the chamfer (.1250 in)"),
        "{why}"
    );
}

#[test]
fn a_size_outside_its_own_limits_is_refused() {
    let inches = Length::inches;
    let gauge = |go: Kept| PlugGauge {
        go,
        go_length: inches(1.0).into(),
        not_go: inches(1.01).into(),
        not_go_length: inches(1.0).into(),
        handle: inches(0.5).into(),
        handle_length: inches(3.0).into(),
    };
    let draw = |go| plug_gauge(&gauge(go), House::Inch, title("Plug gauge"));
    assert!(
        draw(Kept::within(
            inches(1.0),
            Tolerance::Limits(inches(0.999), inches(1.0))
        ))
        .is_ok()
    );
    for wrong in [
        Tolerance::Limits(inches(1.001), inches(1.002)),
        Tolerance::Either(inches(-0.001)),
        Tolerance::OverUnder(inches(0.0), inches(1.5)),
        Tolerance::Either(inches(f64::NAN)),
    ] {
        let why = draw(Kept::within(inches(1.0), wrong))
            .unwrap_err()
            .to_string();
        assert!(
            why.starts_with("the go end is 1.0000 in; a size within its own limits"),
            "{why}"
        );
    }
    let why = draw(inches(1.02).into()).unwrap_err().to_string();
    assert!(
        why.starts_with("the not-go end is 1.0100 in; more than the go end (1.0200 in)"),
        "{why}"
    );
}

#[test]
fn a_seam_that_cannot_be_is_refused() {
    let good = seam(6.5, [0.375, 0.8125], Some(0.3125), &[1, 2, 2], 2);
    riveted_seam(&good, House::Inch, title("Seam")).unwrap();
    let why = |bad: RivetedSeam| {
        riveted_seam(&bad, House::Inch, title("Seam"))
            .unwrap_err()
            .to_string()
    };
    let inches = |size: f64| Some(Length::inches(size));
    for (bad, says) in [
        (
            seam(1.6, [0.375, 0.8125], Some(0.3125), &[1, 2, 2], 2),
            "the pitch is 1.6000 in; more than the rivets of its fullest row side by side (1.6250 in)",
        ),
        (
            seam(6.5, [0.375, 0.8125], None, &[], 0),
            "the number of rows is 0; 1 to 12",
        ),
        (
            seam(6.5, [0.375, 0.8125], None, &[1, 0], 0),
            "the number of rivets in a row is 0; 1 to 12",
        ),
        (
            seam(40.0, [0.375, 0.8125], None, &[1, 13], 0),
            "the number of rivets in a row is 13; 1 to 12",
        ),
        (
            seam(6.5, [0.0, 0.8125], None, &[1], 0),
            "the plate is .0000 in; a size above nothing",
        ),
        (
            RivetedSeam {
                row_spacing: inches(0.75),
                ..good.clone()
            },
            "the distance between rows is .7500 in; more than the rivet's own (.8125 in)",
        ),
        (
            RivetedSeam {
                edge: inches(0.25),
                ..good.clone()
            },
            "the distance to the edge is .2500 in; more than the rivet's own (.4063 in)",
        ),
    ] {
        let said = why(bad);
        assert!(said.contains(says), "{said}");
    }
}

#[test]
fn a_thread_that_cannot_be_drawn_is_refused() {
    let inches = Length::inches;
    let limits = |least: Option<f64>, most: Option<f64>| Limits {
        least: least.map(inches),
        most: most.map(inches),
    };
    let sound = ThreadCall {
        named: "1-8 Unified".to_owned(),
        major: limits(Some(1.0), None),
        pitch: limits(Some(0.9188), Some(0.9276)),
        minor: limits(Some(0.865), Some(0.89)),
    };
    let why = |body: f64, thread: &ThreadCall| {
        let nut = TurnedNut {
            body: NutBody::Round(inches(body).into()),
            length: inches(1.0).into(),
            thread: thread.clone(),
        };
        let drawn = turned_nut(&nut, House::Inch, title("Nut"));
        drawn.map(|_| ()).map_err(|why| why.to_string())
    };
    assert_eq!(why(1.5, &sound), Ok(()));
    let crossed = ThreadCall {
        pitch: limits(Some(0.93), Some(0.92)),
        ..sound.clone()
    };
    let unsaid = ThreadCall {
        minor: limits(None, None),
        ..sound.clone()
    };
    let inside_out = ThreadCall {
        minor: limits(Some(1.1), None),
        ..sound.clone()
    };
    for (body, thread, says) in [
        (1.0, &sound, "more than its thread"),
        (1.5, &crossed, "the least before the most"),
        (1.5, &unsaid, "at least one of its limits"),
        (1.5, &inside_out, "more than the minor diameter"),
    ] {
        let said = why(body, thread).unwrap_err();
        assert!(said.contains(says), "{says}: {said}");
    }
}
