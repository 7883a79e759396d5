//! Laps: the one for a seat on its pilot, and the one for a disc.

use super::disc::face;
use super::need;
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::Point;
use crate::hatch::Lean;
use crate::label::Label;
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
    pub small: Length,
    /// Large diameter of the cone.
    pub large: Length,
    /// Half angle of the cone, from the axis.
    pub half_angle: Angle,
    /// Length of the cylinder behind the cone.
    pub back: Length,
    /// Diameter of the pilot.
    pub pilot: Length,
    /// Length of the pilot before the lap.
    pub pilot_length: Length,
    /// Diameter of the spindle, which is the bore of the lap.
    pub spindle: Length,
    /// Length of the spindle behind the lap.
    pub drive_length: Length,
}

/// The lap on its spindle, the upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, or the cone is no larger than the spindle or the pilot.
pub fn seat_lap(lap: &SeatLap, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let spindle = need::size("the spindle", lap.spindle, house)? / 2.0;
    let pilot = need::size("the pilot", lap.pilot, house)? / 2.0;
    let small_name = "the small end of the lap";
    need::more(
        small_name,
        lap.small,
        lap.pilot,
        "more than the pilot",
        house,
    )?;
    let small = need::more(
        small_name,
        lap.small,
        lap.spindle,
        "more than the spindle",
        house,
    )? / 2.0;
    let large = need::more(
        "the large end of the lap",
        lap.large,
        lap.small,
        "more than the small end",
        house,
    )? / 2.0;
    let half_angle = need::half_angle("the half angle of the lap", lap.half_angle)?;
    let back = need::size("the length behind the cone", lap.back, house)?;
    let pilot_length = need::size("the length of the pilot", lap.pilot_length, house)?;
    let drive = need::size("the length of the spindle", lap.drive_length, house)?;

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
    diameter(&mut view, tip, Side::Left, "pilot", house);
    diameter(&mut view, front, Side::Left, "lap, small", house);
    diameter(&mut view, rear, Side::Right, "lap, large", house);
    diameter(&mut view, end, Side::Right, "spindle", house);
    along(&mut view, tip, front, Side::Below, "pilot ", house);
    along(&mut view, front, shoulder, Side::Below, "cone ", house);
    along(&mut view, shoulder, rear, Side::Below, "back ", house);
    along(&mut view, rear, end, Side::Below, "drive ", house);
    view.dimensions.push(face(front, shoulder, half_angle));
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: vec![
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
    pub outside: Length,
    /// Length over all.
    pub length: Length,
    /// Diameter of the mouth, where the cone is widest.
    pub mouth: Length,
    /// Half angle of the cone, from the axis.
    pub half_angle: Angle,
    /// Diameter of the bore behind the cone.
    pub bore: Length,
}

/// The lap for a disc, the upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, or bore, mouth and outside are not each larger than the
/// one before, or the cone is longer than the lap.
pub fn lap_for_disc(lap: &DiscLap, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let bore = need::size("the bore of the lap", lap.bore, house)? / 2.0;
    let mouth = need::more(
        "the mouth of the lap",
        lap.mouth,
        lap.bore,
        "more than the bore",
        house,
    )? / 2.0;
    let outside = need::more(
        "the outside of the lap",
        lap.outside,
        lap.mouth,
        "more than the mouth",
        house,
    )? / 2.0;
    let half_angle = need::half_angle("the half angle of the lap", lap.half_angle)?;
    let deep = (mouth - bore) / math::tan(half_angle);
    let long = need::more(
        "the length of the lap",
        lap.length,
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
    diameter(&mut view, Point::new(0.0, bore), Side::Left, "bore", house);
    diameter(&mut view, left, Side::Left, "outside", house);
    diameter(&mut view, lip, Side::Right, "mouth", house);
    along(&mut view, left, right, Side::Below, "length ", house);
    along(&mut view, foot, right, Side::Above, "cone ", house);
    view.dimensions.push(Dimension::Angle {
        vertex: foot,
        start: 0.0,
        sweep: half_angle,
        drawn: [0.0, (lip - foot).length()],
        label: Label::angle(Angle::radians(half_angle)),
    });
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: KEY.to_vec(),
        notes: vec![
            "The half angle is from the axis. It is the disc's own angle, whatever the seat has.".to_owned(),
            "Check the cone and face it anew before each use: a worn lap wears its error into the disc.".to_owned(),
            "Take every trace of abrasive off the disc before it goes back.".to_owned(),
        ],
    })
}
