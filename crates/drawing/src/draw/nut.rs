//! A nut: a threaded bore through a hexagon or a round body.

use super::need;
use super::thread::{ThreadCall, roots};
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::{Path, Point};
use crate::hatch::Lean;
use crate::label::{Kept, Label};
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Side, View};
use measure::{House, Length, math};
use std::f64::consts::{FRAC_PI_2, PI};

/// The body of a nut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NutBody {
    /// Round, of this diameter.
    Round(Kept),
    /// Six flats, so far across them.
    Hexagon(Kept),
}

/// A nut, threaded from end to end.
#[derive(Clone, Debug, PartialEq)]
pub struct TurnedNut {
    /// Its body.
    pub body: NutBody,
    /// Its length.
    pub length: Kept,
    /// Its thread.
    pub thread: ThreadCall,
}

/// The nut, its upper half in section, and from the end where it has flats.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, the thread has no limit of its major or its minor diameter,
/// or the body is no larger than the thread.
pub fn turned_nut(nut: &TurnedNut, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let (minor, major) = nut.thread.radii(true, house)?;
    let (name, body) = match nut.body {
        NutBody::Round(body) => ("the outside of the nut", body),
        NutBody::Hexagon(body) => ("the nut across its flats", body),
    };
    need::kept(name, body, house)?;
    let thread = Length::inches(2.0 * major);
    let outside = need::more(name, body.size, thread, "more than its thread", house)? / 2.0;
    let length = need::kept("the length of the nut", nut.length, house)?;

    let mut view = View::new("Nut, upper half in section");
    let (front, rear) = (Point::new(0.0, outside), Point::new(length, outside));
    Turned {
        outside: vec![front, rear],
        bore: vec![Point::new(0.0, minor), Point::new(length, minor)],
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    roots(&mut view, 0.0, length, major, &[1.0]);
    axis(&mut view, 0.0, length);
    let within = nut.length.within;
    along(
        &mut view,
        front,
        rear,
        Side::Below,
        "length ",
        within,
        house,
    );
    let bore = Point::new(length / 2.0, minor);
    let call = nut.thread.label(house).over("datum A");
    let from_the_end = match nut.body {
        NutBody::Round(_) => {
            diameter(&mut view, front, Side::Left, "outside", body.within, house);
            None
        }
        NutBody::Hexagon(_) => Some(from_the_end(body, minor, major, house)),
    };
    view.leader(bore, FRAC_PI_2, call);
    let views = [view].into_iter().chain(from_the_end).collect();
    Ok(Drawing {
        house,
        title,
        views,
        key: vec![
            (Layer::Outline, "edge"),
            (Layer::Thread, "root of the thread"),
            (Layer::Center, "axis"),
        ],
        notes: [
            "Before it leaves the chuck: the go end enters its whole length, the not-go end no more than two turns; \
             then the mate by hand, clean and oiled.",
            "Datum A is the axis of the thread. Bore, thread and the first face at one setting: that face is the bearing \
             face; mark it.",
            "Countersink both ends to the major diameter, so that no feather edge is left.",
        ]
        .map(str::to_owned)
        .to_vec(),
    })
}

/// The hexagon with the bore, and the root of the thread as three quarters of a circle.
fn from_the_end(flats: Kept, minor: f64, major: f64, house: House) -> View {
    let mut view = View::new("Nut from the end");
    let half = flats.size.to_inches() / 2.0;
    // A regular hexagon: from the middle to a corner it is the half across flats over the cosine of 30 degrees.
    let corner = half / math::cos_deg(30.0);
    let corners = [
        Point::new(corner, 0.0),
        Point::new(corner / 2.0, half),
        Point::new(-corner / 2.0, half),
        Point::new(-corner, 0.0),
        Point::new(-corner / 2.0, -half),
        Point::new(corner / 2.0, -half),
    ];
    view.line(Layer::Outline, Path::closed(corners));
    view.line(Layer::Outline, Path::circle(Point::ORIGIN, minor));
    view.line(
        Layer::Thread,
        Path::arc(Point::ORIGIN, major, 0.0, 1.5 * PI),
    );
    let over = 1.08 * corner;
    for (from, to) in [
        (Point::new(-over, 0.0), Point::new(over, 0.0)),
        (Point::new(0.0, -over), Point::new(0.0, over)),
    ] {
        view.line(Layer::Center, Path::line(from, to));
    }
    let label = Label::kept(flats.size, flats.within, "", house).named("across\nflats");
    view.linear(corners[5], corners[1], Side::Right, label);
    view
}
