//! The working face of a seat's lap: what the seat itself asks of a lap whose other sizes nobody has stated.

use super::{need, stated};
use crate::error::DrawingError;
use crate::geometry::{Path, Point, Transform, wavy};
use crate::hatch::Lean;
use crate::label::Label;
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Dimension, Mark, Side, View};
use measure::{Angle, House, Length, Rounding, math};
use std::f64::consts::FRAC_PI_2;

/// What a seat asks of its lap.
#[derive(Clone, Debug, PartialEq)]
pub struct LapFace {
    /// Diameter of the port: the lap's small end is less.
    pub port: Length,
    /// Diameter over the outer edge of the land: the lap's large end is more.
    pub outside: Length,
    /// What a worked sheet says of that diameter, without the unit.
    pub outside_stated: Option<String>,
    /// The half angle of the seat, which is the lap's own.
    pub half_angle: Angle,
}

/// The lap's cone over its seat. All of the lap but the cone is drawn broken off: it is the maker's to choose.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing or the outside is no larger than the port;
/// [`DrawingError::Stated`] when the sheet's figure is not that of the size.
pub fn lap_face(lap: &LapFace, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let port = need::size("the port", lap.port, house)? / 2.0;
    let wider = "more than the port";
    let outside = need::more(
        "the outside of the seat",
        lap.outside,
        lap.port,
        wider,
        house,
    )? / 2.0;
    let angle = need::half_angle("the half angle of the seat", lap.half_angle)?;
    let over = stated::label(
        "the outside of the seat",
        lap.outside_stated.as_deref(),
        lap.outside,
        house,
        Rounding::Up,
    )?;
    let on_cone = |radius: f64| Point::new(radius, (radius - port) / math::tan(angle));
    let width = outside - port;
    // So far past the seat that a reader sees it is past; how far is the maker's to choose.
    let past = (0.35 * width).max(0.06 * port);
    let (small, large) = (
        on_cone(port - past.min(0.5 * port)),
        on_cone(outside + past),
    );
    let (inner, outer) = (on_cone(port), on_cone(outside));
    let height = (large.y - small.y).max(0.25 * outside);
    let top = Point::new(large.x, large.y + 0.7 * height);

    let mut view = View::new("Lap over its seat, in section");
    let left = Transform::mirror_left_right();
    let half = [small, large, top];
    let broken = wavy(top, left.point(top));
    let mirrored = half.iter().rev().map(|p| left.point(*p));
    // From the left end of the break down, round the cone and up to its right end; then back along the break.
    let mut whole = Path::open(mirrored.chain(half)).vertices;
    whole.pop();
    whole.extend(broken.vertices.iter().copied());
    whole.pop();
    let whole = Path {
        vertices: whole,
        closed: true,
    };
    view.marks.push(Mark::Hatch(vec![whole], Lean::Right));
    for side in [Transform::IDENTITY, left] {
        view.line(Layer::Outline, Path::open(half).transformed(side));
        // The seat, for its place: its land, the port under it, the floor beside it.
        let floor = Point::new(large.x + past, outer.y);
        let under = Point::new(port, small.y - 0.4 * height);
        view.line(
            Layer::Neighbor,
            Path::open([under, inner, outer, floor]).transformed(side),
        );
    }
    view.line(Layer::Outline, Path::line(left.point(small), small));
    view.line(Layer::Break, broken);
    let reach = 0.5 * height;
    let axis = [small.y - reach, top.y + reach].map(|y| Point::new(0.0, y));
    view.line(Layer::Center, Path::line(axis[0], axis[1]));
    let under = Label::stacked_diameter(lap.port, house).named("small end under");
    view.linear(left.point(inner), inner, Side::Below, under);
    let over = over.after("Ø ").named("large end over");
    view.linear(left.point(outer), outer, Side::Above, over);
    view.dimensions.push(Dimension::Angle {
        vertex: large,
        start: -FRAC_PI_2 - angle,
        sweep: angle,
        drawn: [(large - small).length(), 0.0],
        label: Label::angle(lap.half_angle),
    });
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key: vec![
            (Layer::Outline, "lap"),
            (Layer::Neighbor, "seat, in place"),
            (Layer::Center, "axis"),
            (Layer::Break, "broken off"),
        ],
        notes: [
            "The lap has the seat's own half angle, whatever the disc has; it reaches past the land at both edges.",
            "Its other sizes, its pilot and its spindle are not stated here.",
            "The disc is never the lap for its own seat.",
        ]
        .map(str::to_owned)
        .to_vec(),
    })
}
