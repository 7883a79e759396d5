//! A plain bushing, with or without a collar, turned to be pressed into an eye.

use super::need;
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::Point;
use crate::hatch::Lean;
use crate::label::{Kept, Label, Tolerance};
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Side, View};
use measure::{Angle, House, Length, math};

/// A bushing as it is turned, before it is pressed in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnedBushing {
    /// Diameter of the outside that goes into the eye.
    pub outside: Kept,
    /// Diameter of the bore before pressing.
    pub bore: Kept,
    /// Diameter to which the bore is brought after pressing, where that is stated.
    pub bore_after: Option<Kept>,
    /// Length in the eye, without the collar.
    pub length: Kept,
    /// The collar, if it has one: at the left end.
    pub collar: Option<Collar>,
    /// The lead by which it enters the eye, if it has one: at the right end.
    pub lead: Option<Lead>,
}

/// A collar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Collar {
    /// Its diameter.
    pub outside: Kept,
    /// Its thickness along the axis.
    pub thickness: Kept,
}

/// A lead: the end turned to a slim cone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lead {
    /// Its length along the axis.
    pub length: Length,
    /// Its angle from the axis.
    pub half_angle: Angle,
}

/// The bushing, its upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, the outside is no larger than the bore or the collar than
/// the outside, or the lead leaves nothing of the length or of the wall.
pub fn turned_bushing(
    bushing: &TurnedBushing,
    house: House,
    title: Title,
) -> Result<Drawing, DrawingError> {
    let bore = need::kept("the bore of the bushing", bushing.bore, house)? / 2.0;
    let name = "the outside of the bushing";
    need::kept(name, bushing.outside, house)?;
    let (outer, inner) = (bushing.outside.size, bushing.bore.size);
    let outside = need::more(name, outer, inner, "more than the bore", house)? / 2.0;
    let length = need::kept("the length of the bushing", bushing.length, house)?;
    if let Some(after) = bushing.bore_after {
        need::kept("the bore after pressing", after, house)?;
        let name = "the outside of the bushing";
        need::more(
            name,
            outer,
            after.size,
            "more than the bore after pressing",
            house,
        )?;
    }
    let collar = bushing
        .collar
        .map(|collar| sized(collar, outer, house))
        .transpose()?;
    let lead = bushing
        .lead
        .map(|lead| slope(lead, bushing, house))
        .transpose()?;

    let step = collar.map_or(0.0, |(_, thick)| thick);
    let end = step + length;
    let mut profile = match collar {
        Some((radius, thick)) => vec![
            Point::new(0.0, radius),
            Point::new(thick, radius),
            Point::new(thick, outside),
        ],
        None => vec![Point::new(0.0, outside)],
    };
    let shoulder = Point::new(end - lead.map_or(0.0, |(long, _)| long), outside);
    profile.push(shoulder);
    if let Some((_, deep)) = lead {
        profile.push(Point::new(end, outside - deep));
    }
    let mut view = View::new("Bushing, upper half in section");
    Turned {
        outside: profile,
        bore: vec![Point::new(0.0, bore), Point::new(end, bore)],
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    axis(&mut view, 0.0, end);
    let foot = Point::new(end, outside - lead.map_or(0.0, |(_, deep)| deep));
    let inner = Point::new(0.0, bore);
    diameter(
        &mut view,
        inner,
        Side::Left,
        "bore before\npressing",
        bushing.bore.within,
        house,
    );
    diameter(
        &mut view,
        shoulder,
        Side::Right,
        "outside\ndatum A",
        bushing.outside.within,
        house,
    );
    let start = Point::new(step, outside);
    along(
        &mut view,
        start,
        foot,
        Side::Below,
        "length ",
        bushing.length.within,
        house,
    );
    if let (Some(given), Some((radius, thick))) = (bushing.collar, collar) {
        let (face, back) = (Point::new(0.0, radius), Point::new(thick, radius));
        diameter(
            &mut view,
            face,
            Side::Left,
            "collar",
            given.outside.within,
            house,
        );
        along(
            &mut view,
            face,
            back,
            Side::Below,
            "collar ",
            given.thickness.within,
            house,
        );
        let follows = Some(Tolerance::Reference);
        along(
            &mut view,
            face,
            foot,
            Side::Below,
            "over all ",
            follows,
            house,
        );
    }
    if let Some(lead) = bushing.lead {
        let angle = Label::angle(lead.half_angle).lines.concat();
        let label = Label::length(lead.length, house)
            .named("lead")
            .over(format!("at {angle}"));
        view.leader(shoulder.middle(foot), 0.9, label);
    }
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: vec![
            (Layer::Outline, "edge"),
            (Layer::Hidden, "hidden edge"),
            (Layer::Center, "axis"),
        ],
        notes: notes(bushing, house),
    })
}

/// The collar's radius and thickness.
fn sized(collar: Collar, outside: Length, house: House) -> Result<(f64, f64), DrawingError> {
    let name = "the collar";
    need::kept(name, collar.outside, house)?;
    let size = collar.outside.size;
    let over = need::more(
        name,
        size,
        outside,
        "more than the outside of the bushing",
        house,
    )?;
    let thick = need::kept("the thickness of the collar", collar.thickness, house)?;
    Ok((over / 2.0, thick))
}

/// The lead's length and how deep it goes at the end.
fn slope(lead: Lead, bushing: &TurnedBushing, house: House) -> Result<(f64, f64), DrawingError> {
    let long = need::size("the lead", lead.length, house)?;
    let angle = need::half_angle("the angle of the lead", lead.half_angle)?;
    let deep = long * math::tan(angle);
    let shorter = "more than the lead is long";
    need::more(
        "the length of the bushing",
        bushing.length.size,
        lead.length,
        shorter,
        house,
    )?;
    let wall = (bushing.outside.size.to_inches() - bushing.bore.size.to_inches()) / 2.0;
    let given = Length::inches(deep);
    let thinner = "more than the lead is deep";
    need::more(
        "the wall of the bushing",
        Length::inches(wall),
        given,
        thinner,
        house,
    )?;
    Ok((long, deep))
}

fn notes(bushing: &TurnedBushing, house: House) -> Vec<String> {
    let mut notes = vec![
        "Before it leaves the chuck: outside and bore by micrometer at both ends and two places round; bore, outside and \
         first face at one setting."
            .to_owned(),
    ];
    notes.push(match bushing.bore_after {
        Some(after) => {
            let mut lines = Label::kept(after.size, after.within, "Ø ", house).lines;
            let size = if matches!(after.within, Some(Tolerance::Limits(..))) {
                lines.reverse();
                lines.join(" to ")
            } else {
                lines.join(" ")
            };
            format!("The bore closes when pressed. Measure it, then bring it to {size}.")
        }
        None => {
            "The bore closes when pressed. Measure it after; the bore to be left is not stated."
                .to_owned()
        }
    });
    notes.extend(
        [
            "Measure eye and outside at one temperature, and at both ends, before it is pressed.",
            "Press it square, on its whole end face. Stop if the force leaves the range of the sheet.",
        ]
        .map(str::to_owned),
    );
    notes
}
