//! Laps: the one for a seat on its pilot, and the one for a disc.

use super::disc::face;
use super::need;
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::Point;
use crate::hatch::Lean;
use crate::label::{Kept, Label, Tolerance};
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Dimension, Side, View};
use measure::{Angle, House, Length, math};

/// The lines that a lap's drawing is made of.
const KEY: [(Layer, &str); 3] = [
    (Layer::Outline, "edge"),
    (Layer::Center, "axis"),
    (Layer::Hidden, "hidden edge"),
];

/// A conical lap for a seat, on a spindle whose front end is a pilot in the port.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatLap {
    /// Small diameter of the cone.
    pub small: Kept,
    /// Large diameter of the cone.
    pub large: Kept,
    /// Half angle of the cone, from the axis.
    pub half_angle: Angle,
    /// How far the half angle may be off either way, where somebody has said so.
    pub half_angle_within: Option<Angle>,
    /// Length of the cylinder behind the cone.
    pub back: Kept,
    /// Diameter of the pilot.
    pub pilot: Kept,
    /// Length of the pilot before the lap.
    pub pilot_length: Kept,
    /// Diameter of the spindle, which is the bore of the lap.
    pub spindle: Kept,
    /// Length of the spindle behind the lap.
    pub drive_length: Kept,
}

/// The lap on its spindle, the upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, or the cone is no larger than the spindle or the pilot.
pub fn seat_lap(lap: &SeatLap, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let spindle = need::kept("the spindle", lap.spindle, house)? / 2.0;
    let pilot = need::kept("the pilot", lap.pilot, house)? / 2.0;
    let small_name = "the small end of the lap";
    need::kept(small_name, lap.small, house)?;
    need::kept("the large end of the lap", lap.large, house)?;
    need::more(
        small_name,
        lap.small.size,
        lap.pilot.size,
        "more than the pilot",
        house,
    )?;
    let small = need::more(
        small_name,
        lap.small.size,
        lap.spindle.size,
        "more than the spindle",
        house,
    )? / 2.0;
    let large = need::more(
        "the large end of the lap",
        lap.large.size,
        lap.small.size,
        "more than the small end",
        house,
    )? / 2.0;
    let half_angle = need::half_angle("the half angle of the lap", lap.half_angle)?;
    let back = need::kept("the length behind the cone", lap.back, house)?;
    let pilot_length = need::kept("the length of the pilot", lap.pilot_length, house)?;
    let drive = need::kept("the length of the spindle", lap.drive_length, house)?;

    let cone = (large - small) / math::tan(half_angle);
    let behind = cone + back;
    let (front, shoulder, rear) = (
        Point::new(0.0, small),
        Point::new(cone, large),
        Point::new(behind, large),
    );
    let bore = [Point::new(0.0, spindle), Point::new(behind, spindle)];
    let (tip, end) = (
        Point::new(-pilot_length, pilot),
        Point::new(behind + drive, spindle),
    );
    let mut view = View::new("Lap and pilot, upper half in section");
    Turned {
        outside: vec![front, shoulder, rear],
        bore: bore.to_vec(),
        lean: Lean::Right,
        covered: None,
        filled: true,
    }
    .draw(&mut view);
    Turned {
        outside: vec![tip, Point::new(0.0, pilot), bore[0], end],
        bore: Vec::new(),
        lean: Lean::Left,
        covered: Some((0.0, behind)),
        filled: false,
    }
    .draw(&mut view);
    axis(&mut view, tip.x, end.x);
    for (at, side, word, within) in [
        (tip, Side::Left, "pilot", lap.pilot.within),
        (front, Side::Left, "lap, small", lap.small.within),
        (rear, Side::Right, "lap, large", lap.large.within),
        (end, Side::Right, "spindle\ndatum A", lap.spindle.within),
    ] {
        diameter(&mut view, at, side, word, within, house);
    }
    for (from, to, word, within) in [
        (tip, front, "pilot ", lap.pilot_length.within),
        // The cone follows from its ends and its angle.
        (front, shoulder, "cone ", Some(Tolerance::Reference)),
        (shoulder, rear, "back ", lap.back.within),
        (rear, end, "drive ", lap.drive_length.within),
    ] {
        along(&mut view, from, to, Side::Below, word, within, house);
    }
    let angle = Label::angle_within(Angle::radians(half_angle), lap.half_angle_within);
    view.dimensions
        .push(face(front, shoulder, half_angle, angle));
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: vec![
            "Before it leaves the chuck: the angle by its own master and thin blue, all round; the lap slides on its spindle \
             without shake.".to_owned(),
            "The half angle is from the axis. It is the seat's own angle, whatever the disc has.".to_owned(),
            "The pilot is turned to the port it guides in; the lap slides on the spindle.".to_owned(),
            "Check the cone and face it anew before each use: a worn lap wears its error into the seat.".to_owned(),
            "Take every trace of abrasive out of the body before it is closed.".to_owned(),
        ],
    })
}

/// A hollow lap for the conical face of a disc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DiscLap {
    /// Diameter over all.
    pub outside: Kept,
    /// Length over all.
    pub length: Kept,
    /// Diameter of the mouth, where the cone is widest.
    pub mouth: Kept,
    /// Half angle of the cone, from the axis.
    pub half_angle: Angle,
    /// How far the half angle may be off either way, where somebody has said so.
    pub half_angle_within: Option<Angle>,
    /// Diameter of the bore behind the cone.
    pub bore: Kept,
}

/// The lap for a disc, the upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, or bore, mouth and outside are not each larger than the
/// one before, or the cone is longer than the lap.
pub fn lap_for_disc(lap: &DiscLap, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let bore = need::kept("the bore of the lap", lap.bore, house)? / 2.0;
    need::kept("the mouth of the lap", lap.mouth, house)?;
    need::kept("the outside of the lap", lap.outside, house)?;
    need::kept("the length of the lap", lap.length, house)?;
    let mouth = need::more(
        "the mouth of the lap",
        lap.mouth.size,
        lap.bore.size,
        "more than the bore",
        house,
    )? / 2.0;
    let outside = need::more(
        "the outside of the lap",
        lap.outside.size,
        lap.mouth.size,
        "more than the mouth",
        house,
    )? / 2.0;
    let half_angle = need::half_angle("the half angle of the lap", lap.half_angle)?;
    let deep = (mouth - bore) / math::tan(half_angle);
    let long = need::more(
        "the length of the lap",
        lap.length.size,
        Length::inches(deep),
        "more than its cone is deep",
        house,
    )?;
    let (foot, lip) = (Point::new(long - deep, bore), Point::new(long, mouth));
    let (left, right) = (Point::new(0.0, outside), Point::new(long, outside));
    let mut view = View::new("Lap for the disc, upper half in section");
    Turned {
        outside: vec![left, right],
        bore: vec![Point::new(0.0, bore), foot, lip],
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    axis(&mut view, 0.0, long);
    let face = Point::new(0.0, bore);
    for (at, side, word, within) in [
        (face, Side::Left, "bore\ndatum A", lap.bore.within),
        (left, Side::Left, "outside", lap.outside.within),
        (lip, Side::Right, "mouth", lap.mouth.within),
    ] {
        diameter(&mut view, at, side, word, within, house);
    }
    let length = lap.length.within;
    along(
        &mut view,
        left,
        right,
        Side::Below,
        "length ",
        length,
        house,
    );
    // The cone follows from its ends and its angle.
    let follows = Some(Tolerance::Reference);
    along(&mut view, foot, right, Side::Above, "cone ", follows, house);
    view.dimensions.push(Dimension::Angle {
        vertex: foot,
        start: 0.0,
        sweep: half_angle,
        drawn: [0.0, (lip - foot).length()],
        label: Label::angle_within(Angle::radians(half_angle), lap.half_angle_within),
    });
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: vec![
            "Before it leaves the chuck: the angle by its own master and thin blue, all round; bore and cone at one setting.".to_owned(),
            "The half angle is from the axis. It is the disc's own angle, whatever the seat has.".to_owned(),
            "Check the cone and face it anew before each use: a worn lap wears its error into the disc.".to_owned(),
            "Take every trace of abrasive off the disc before it goes back.".to_owned(),
        ],
    })
}
