//! What a bushing is made on and measured by: a mandrel, and a plug gauge with a go and a not-go end.

use super::need;
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::Point;
use crate::hatch::Lean;
use crate::label::{Kept, Label};
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Side, View};
use measure::House;
use std::f64::consts::FRAC_PI_2;

/// A plug gauge with two ends on one handle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlugGauge {
    /// Diameter of the end that must enter.
    pub go: Kept,
    /// Length of that end.
    pub go_length: Kept,
    /// Diameter of the end that must not.
    pub not_go: Kept,
    /// Length of that end.
    pub not_go_length: Kept,
    /// Diameter of the handle, less than both.
    pub handle: Kept,
    /// Length of the handle.
    pub handle_length: Kept,
}

/// A mandrel: a long cone, so slim that a bushing holds on it, between two reduced ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mandrel {
    /// Diameter at the small end of the body.
    pub small: Kept,
    /// Diameter at its large end.
    pub large: Kept,
    /// Length of the body.
    pub length: Kept,
    /// Diameter of the reduced ends.
    pub ends: Kept,
    /// Length of each.
    pub end_length: Kept,
}

const KEY: [(Layer, &str); 2] = [(Layer::Outline, "edge"), (Layer::Center, "axis")];

/// The gauge, its upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, the not-go end is no larger than the go end, or the handle
/// is no smaller than that.
pub fn plug_gauge(gauge: &PlugGauge, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let handle = need::kept("the handle", gauge.handle, house)? / 2.0;
    need::kept("the go end", gauge.go, house)?;
    need::kept("the not-go end", gauge.not_go, house)?;
    let (go_size, not_go_size) = (gauge.go.size, gauge.not_go.size);
    let thicker = "more than the handle";
    let go = need::more("the go end", go_size, gauge.handle.size, thicker, house)? / 2.0;
    let larger = "more than the go end";
    let not_go = need::more("the not-go end", not_go_size, go_size, larger, house)? / 2.0;
    let first = need::kept("the length of the go end", gauge.go_length, house)?;
    let second = first + need::kept("the length of the handle", gauge.handle_length, house)?;
    let end = second + need::kept("the length of the not-go end", gauge.not_go_length, house)?;
    let mut view = View::new("Plug gauge, upper half in section");
    Turned {
        outside: vec![
            Point::new(0.0, go),
            Point::new(first, go),
            Point::new(first, handle),
            Point::new(second, handle),
            Point::new(second, not_go),
            Point::new(end, not_go),
        ],
        bore: Vec::new(),
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    axis(&mut view, 0.0, end);
    let (front, rear) = (Point::new(0.0, go), Point::new(end, not_go));
    diameter(
        &mut view,
        front,
        Side::Left,
        "go\ndatum A",
        gauge.go.within,
        house,
    );
    diameter(
        &mut view,
        rear,
        Side::Right,
        "not go",
        gauge.not_go.within,
        house,
    );
    for (from, to, radius, kept) in [
        (0.0, first, go, gauge.go_length),
        (first, second, handle, gauge.handle_length),
        (second, end, not_go, gauge.not_go_length),
    ] {
        let (from, to) = (Point::new(from, radius), Point::new(to, radius));
        along(&mut view, from, to, Side::Below, "", kept.within, house);
    }
    let grip = Label::kept(gauge.handle.size, gauge.handle.within, "Ø ", house).named("handle");
    view.leader(Point::new((first + second) / 2.0, handle), FRAC_PI_2, grip);
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: [
            "Before it leaves the chuck: each end by micrometer at three places round and both ends, cold, after the last \
             cut or the stone.",
            "Mark each end with its size and with go or not go; a groove round the not-go end tells it in the dark.",
            "Gauge, part and shop at one temperature. Wipe both; the gauge enters by its own weight or a light hand.",
            "A worn go end passes bores that are too small: measure it before the job.",
        ]
        .map(str::to_owned)
        .to_vec(),
    })
}

/// The mandrel, its upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, the large end is no larger than the small one, or the ends
/// are no smaller than that.
pub fn mandrel(mandrel: &Mandrel, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let ends = need::kept("the ends of the mandrel", mandrel.ends, house)? / 2.0;
    need::kept("the small end of the body", mandrel.small, house)?;
    need::kept("the large end of the body", mandrel.large, house)?;
    let (small_size, large_size) = (mandrel.small.size, mandrel.large.size);
    let thicker = "more than the reduced ends";
    let small = need::more(
        "the small end of the body",
        small_size,
        mandrel.ends.size,
        thicker,
        house,
    )? / 2.0;
    let larger = "more than the small end";
    let large = need::more(
        "the large end of the body",
        large_size,
        small_size,
        larger,
        house,
    )? / 2.0;
    let first = need::kept("the length of the ends", mandrel.end_length, house)?;
    let second = first + need::kept("the length of the body", mandrel.length, house)?;
    let end = second + first;
    let corners = [
        Point::new(0.0, ends),
        Point::new(first, ends),
        Point::new(first, small),
        Point::new(second, large),
        Point::new(second, ends),
        Point::new(end, ends),
    ];
    let mut view = View::new("Mandrel, upper half in section");
    Turned {
        outside: corners.to_vec(),
        bore: Vec::new(),
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    axis(&mut view, 0.0, end);
    let [tail, _, thin, thick, _, _] = corners;
    diameter(
        &mut view,
        thin,
        Side::Left,
        "small end",
        mandrel.small.within,
        house,
    );
    diameter(
        &mut view,
        thick,
        Side::Right,
        "large end",
        mandrel.large.within,
        house,
    );
    let reduced =
        Label::kept(mandrel.ends.size, mandrel.ends.within, "Ø ", house).named("both ends");
    view.leader(Point::new(tail.x + first / 2.0, ends), FRAC_PI_2, reduced);
    let (body, shoulder) = (mandrel.length.within, mandrel.end_length.within);
    for (from, to, word, within) in [
        (tail, Point::new(first, ends), "end ", shoulder),
        (thin, thick, "body ", body),
        (
            Point::new(second, ends),
            Point::new(end, ends),
            "end ",
            shoulder,
        ),
    ] {
        along(&mut view, from, to, Side::Below, word, within, house);
    }
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: [
            "Before it leaves the centers: runout of the body by an indicator at both ends; the diameter at both ends by \
             micrometer. Datum A is the line of its centers.",
            "Centers at both ends, recessed, so that a blow does not spoil them. Turn and grind it between them.",
            "The taper is too slim to be seen here: mark the large end.",
            "Oil it; press the bushing on from the small end until it holds, no further.",
        ]
        .map(str::to_owned)
        .to_vec(),
    })
}
