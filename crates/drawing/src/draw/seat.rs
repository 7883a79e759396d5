//! A conical valve seat in section, as found and as it is to be left.

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
use std::f64::consts::{FRAC_PI_2, PI};

/// What is known of a seat. Angles are half angles, from the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct SeatSection {
    /// Diameter of the port, at the inner edge of the land.
    pub port: Length,
    /// Length of the land as found, along the cone.
    pub land: Length,
    /// Half angle as found.
    pub found_half_angle: Angle,
    /// Half angle that is wanted.
    pub wanted_half_angle: Angle,
    /// Metal behind the seat as found, along the axis. Not known: it is drawn broken off, and a note says so.
    pub wall: Option<Length>,
    /// Outside diameter of the body or ring in which the seat is. Not known: it is drawn broken off.
    pub body_outside: Option<Length>,
    /// Outside diameter of the disc. Not known: the disc is drawn as wide as the seat.
    pub disc_outside: Option<Length>,
    /// What a worked sheet says of the same cut. The drawing repeats its figures to the letter, and is refused
    /// when they are not those of the sizes above.
    pub stated: SeatStated,
}

/// The figures of a worked sheet as it prints them, without the unit; what no sheet has said is worked out here.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeatStated {
    /// Diameter over the outer edge of the land.
    pub outside: Option<String>,
    /// Length of the land after the cut, along the cone.
    pub land_after: Option<String>,
    /// The most metal taken, square to the new face.
    pub take: Option<String>,
    /// How far the edge that loses most sinks along the axis.
    pub sink: Option<String>,
    /// Metal behind the seat after the cut, along the axis.
    pub wall_after: Option<String>,
}

/// Less than this, inches, is the dust of arithmetic and not metal.
const DUST: f64 = 1e-7;

/// The seat before and after, in one section, with an enlarged detail of its land.
///
/// Drawn is the least cut that takes metal off everywhere and adds none: opened out, the face swings about the
/// port edge, closed in, about the outer edge. Port and outside of the seat stay the cylinders they are.
/// Computed sizes are rounded so that they do not flatter: metal to take up, metal left down.
/// Source: plane geometry.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, an angle is not from 1 to 89 degrees, the body or the
/// disc is smaller than the seat, or the wall is too thin for the cut; [`DrawingError::Stated`] when a sheet's figure
/// is not that of the sizes.
pub fn seat_section(
    seat: &SeatSection,
    house: House,
    title: Title,
) -> Result<Drawing, DrawingError> {
    let cut = Cut::of(seat, house)?;
    let says = Says::of(&cut, &seat.stated, house)?;
    Ok(Drawing {
        house,
        title,
        views: vec![section(&cut, &says, house), detail(&cut, &says, house)],
        key: key(&cut),
        notes: notes(&cut, seat),
    })
}

/// The seat in numbers, inches of the part; the right half, the port edge as found at height 0.
struct Cut {
    port: f64,
    outside: f64,
    found: f64,
    wanted: f64,
    land: f64,
    /// The edges of the land as found.
    inner: Point,
    outer: Point,
    /// The edges as they will be.
    new_inner: Point,
    new_outer: Point,
    wall: Option<f64>,
    body: Option<f64>,
    disc: Option<f64>,
}

impl Cut {
    fn of(seat: &SeatSection, house: House) -> Result<Cut, DrawingError> {
        let port = need::size("the port", seat.port, house)? / 2.0;
        let land = need::size("the land", seat.land, house)?;
        let found = need::half_angle("the half angle found", seat.found_half_angle)?;
        let wanted = need::half_angle("the half angle wanted", seat.wanted_half_angle)?;
        let outside = port + land * math::sin(found);
        let inner = Point::new(port, 0.0);
        let outer = Point::new(outside, land * math::cos(found));
        let rise = (outside - port) / math::tan(wanted);
        let (new_inner, new_outer) = if wanted >= found {
            (inner, Point::new(outside, rise))
        } else {
            (Point::new(port, outer.y - rise), outer)
        };
        let seat_outside = Length::inches(2.0 * outside);
        let wider = |name, length: Option<Length>, expected| {
            length
                .map(|length| need::more(name, length, seat_outside, expected, house))
                .transpose()
        };
        let body = wider(
            "the outside of the body",
            seat.body_outside,
            "more than the outside of the seat",
        )?;
        let disc = seat
            .disc_outside
            .map(|disc| {
                need::more(
                    "the outside of the disc",
                    disc,
                    seat.port,
                    "more than the port",
                    house,
                )
            })
            .transpose()?;
        let mut cut = Cut {
            port,
            outside,
            found,
            wanted,
            land,
            inner,
            outer,
            new_inner,
            new_outer,
            wall: None,
            body: body.map(|body| body / 2.0),
            disc: disc.map(|disc| disc / 2.0),
        };
        let sink = Length::inches(cut.sink());
        let deeper = "more than the sink, or the cut breaks through";
        cut.wall = seat
            .wall
            .map(|wall| need::more("the wall behind the seat", wall, sink, deeper, house))
            .transpose()?;
        Ok(cut)
    }

    /// How far the edge that loses most sinks along the axis.
    fn sink(&self) -> f64 {
        (self.inner.y - self.new_inner.y) + (self.outer.y - self.new_outer.y)
    }

    /// The most metal taken, square to the new face.
    fn wedge(&self) -> f64 {
        let face = (self.new_outer - self.new_inner).unit();
        let off = |p: Point| face.cross(p - self.new_inner).abs();
        off(self.inner).max(off(self.outer))
    }

    fn moves(&self) -> bool {
        self.sink() > DUST
    }

    fn opens(&self) -> bool {
        self.wanted >= self.found
    }

    /// The triangle between the two faces.
    fn triangle(&self) -> [Point; 3] {
        let third = if self.opens() {
            self.new_outer
        } else {
            self.new_inner
        };
        [self.inner, self.outer, third]
    }

    /// The face to be left and the floor outside of it, out to radius `out`.
    fn top(&self, out: f64) -> Vec<Point> {
        let mut points = vec![self.new_inner, self.new_outer];
        if self.opens() && self.moves() {
            points.push(self.outer);
        }
        points.push(Point::new(out, self.outer.y));
        points
    }
}

/// What the computed dimensions say.
struct Says {
    outside: Label,
    land_after: Label,
    take: Label,
    sink: Label,
    wall_after: Option<Label>,
}

impl Says {
    fn of(cut: &Cut, stated: &SeatStated, house: House) -> Result<Says, DrawingError> {
        let says = |name, text: &Option<String>, inches: f64, rounding| {
            stated::label(name, text.as_deref(), length(inches), house, rounding)
        };
        let land = (cut.new_outer - cut.new_inner).length();
        let left = |wall: f64| {
            let left = wall - cut.sink();
            says(
                "the wall after the cut",
                &stated.wall_after,
                left,
                Rounding::Down,
            )
        };
        let outside = 2.0 * cut.outside;
        Ok(Says {
            outside: says("the seat's outside", &stated.outside, outside, Rounding::Up)?,
            land_after: says(
                "the land after",
                &stated.land_after,
                land,
                Rounding::Nearest,
            )?,
            take: says("the metal to take", &stated.take, cut.wedge(), Rounding::Up)?,
            sink: says("the sink", &stated.sink, cut.sink(), Rounding::Up)?,
            wall_after: cut.wall.map(left).transpose()?,
        })
    }
}

/// Metal of the body on the right of the axis: its outline, and which of its edges are real.
struct Metal {
    edges: Vec<(Layer, Path)>,
    outline: Path,
    /// Its lowest point at the port.
    foot: Point,
}

/// The metal out to radius `out` and down to the wall or, where that is not known or too deep, to `down` below
/// the port edge.
fn metal(cut: &Cut, out: f64, out_is_real: bool, wall: Option<f64>, down: f64) -> Metal {
    let top = cut.top(out);
    let corner = Point::new(out, cut.outer.y);
    let (under, real) = match wall {
        // The underside follows the seat, so that the wall is the same along the axis wherever it is measured.
        Some(wall) => (
            [corner, cut.outer, cut.inner]
                .map(|p| p - Point::new(0.0, wall))
                .to_vec(),
            true,
        ),
        None => (
            vec![Point::new(out, -down), Point::new(cut.port, -down)],
            false,
        ),
    };
    let foot = under.last().copied().unwrap_or(cut.inner);
    let side = if out_is_real {
        Path::line(corner, under[0])
    } else {
        wavy(corner, under[0])
    };
    let bottom = if real {
        Path::open(under.clone())
    } else {
        wavy(under[0], foot)
    };
    let layer = |real| if real { Layer::Outline } else { Layer::Break };
    let mut vertices = Path::open(top.iter().copied()).vertices;
    for path in [&side, &bottom] {
        vertices.pop();
        vertices.extend(path.vertices.iter().copied());
    }
    Metal {
        edges: vec![
            (Layer::Outline, Path::open(top)),
            (layer(out_is_real), side),
            (layer(real), bottom),
            (Layer::Outline, Path::line(foot, cut.new_inner)),
        ],
        outline: Path {
            vertices,
            closed: true,
        },
        foot,
    }
}

fn length(inches: f64) -> Length {
    Length::inches(inches)
}

/// The whole seat, cut through its axis.
fn section(cut: &Cut, says: &Says, house: House) -> View {
    let mut view = View::new("Section");
    let width = cut.outside - cut.port;
    let out = cut
        .body
        .unwrap_or(cut.outside + (1.2 * width).max(0.3 * cut.port));
    let down = (1.5 * cut.land).max(0.4 * cut.port) - cut.new_inner.y;
    let right = metal(cut, out, cut.body.is_some(), cut.wall, down);
    let left = Transform::mirror_left_right();
    for half in [Transform::IDENTITY, left] {
        let lean = Lean::Right;
        view.marks
            .push(Mark::Hatch(vec![right.outline.transformed(half)], lean));
        for (layer, path) in &right.edges {
            view.line(*layer, path.transformed(half));
        }
        if cut.moves() {
            view.marks
                .push(Mark::Solid(cut.triangle().map(|p| half.point(p))));
            view.line(
                Layer::Found,
                Path::line(cut.inner, cut.outer).transformed(half),
            );
        }
    }
    // The edges of the port, seen behind the cut.
    for p in [cut.new_inner, right.foot] {
        if cut.wall.is_some() || p != right.foot {
            view.line(Layer::Outline, Path::line(left.point(p), p));
        }
    }
    let (disc, shoulder) = disc(cut);
    let top = shoulder.y;
    view.line(Layer::Neighbor, disc);
    let over = 0.08 * (top - right.foot.y).max(out);
    view.line(
        Layer::Center,
        Path::line(
            Point::new(0.0, right.foot.y - over),
            Point::new(0.0, top + over),
        ),
    );
    let across = |view: &mut View, p: Point, side, label: Label| {
        view.linear(left.point(p), p, side, label);
    };
    let diameter =
        |p: Point, word: &str| Label::stacked_diameter(length(2.0 * p.x), house).named(word);
    across(
        &mut view,
        right.foot,
        Side::Below,
        diameter(right.foot, "port"),
    );
    let seat_edge = if cut.disc.is_some() {
        cut.outer
    } else {
        shoulder
    };
    let outside = says.outside.clone().after("Ø ").named("seat outside");
    across(&mut view, seat_edge, Side::Above, outside);
    if let Some(body) = cut.body {
        let under = cut.outer.y - cut.wall.unwrap_or(cut.outer.y + down);
        let at = Point::new(body, under);
        across(&mut view, at, Side::Below, diameter(at, "body"));
    }
    if let Some(wall) = cut.wall {
        let corner = Point::new(out, cut.outer.y);
        let label = Label::stacked(length(wall), house).named("wall\nas found");
        view.linear(corner - Point::new(0.0, wall), corner, Side::Right, label);
        if let Some(label) = says.wall_after.clone().filter(|_| cut.moves()) {
            let (edge, was) = if cut.opens() {
                (cut.new_outer, cut.outer)
            } else {
                (cut.new_inner, cut.inner)
            };
            let label = label.named("wall after\nthe cut");
            let under = was - Point::new(0.0, wall);
            view.linear(left.point(under), left.point(edge), Side::Left, label);
        }
    }
    view
}

/// The disc on the face to be left, both sides of the axis, and its upper right corner.
fn disc(cut: &Cut) -> (Path, Point) {
    let wide = cut.disc.unwrap_or(cut.outside);
    let on_cone = |radius: f64| {
        Point::new(
            radius,
            cut.new_inner.y + (radius - cut.port) / math::tan(cut.wanted),
        )
    };
    let nose = cut.port - (0.6 * (cut.outside - cut.port)).min(0.4 * cut.port);
    let rim = on_cone(wide);
    let shoulder = rim + Point::new(0.0, (0.3 * wide).max(cut.outer.y - rim.y + 0.1 * wide));
    let right = [on_cone(nose), rim, shoulder];
    let left = Transform::mirror_left_right();
    let points = right
        .iter()
        .copied()
        .chain(right.iter().rev().map(|p| left.point(*p)));
    (Path::closed(points), shoulder)
}

/// The land of the right side, enlarged.
fn detail(cut: &Cut, says: &Says, house: House) -> View {
    let mut view = View::new("Detail of the land");
    let out = cut.outside + 0.5 * cut.land;
    let wall = cut.wall.filter(|wall| *wall <= 0.9 * cut.land);
    let metal = metal(cut, out, false, wall, 0.45 * cut.land - cut.new_inner.y);
    view.marks
        .push(Mark::Hatch(vec![metal.outline], Lean::Right));
    for (layer, path) in metal.edges {
        view.line(layer, path);
    }
    let angle = |vertex: Point, half: f64, word: &str| Dimension::Angle {
        vertex,
        start: FRAC_PI_2 - half,
        sweep: half,
        drawn: [0.0, 0.0],
        label: Label::angle(Angle::radians(half)).after(word),
    };
    let found = Label::length(length(cut.land), house);
    if !cut.moves() {
        view.linear(cut.inner, cut.outer, Side::Beside, found.after("land "));
        view.dimensions.push(angle(cut.outer, cut.found, ""));
        return view;
    }
    view.marks.push(Mark::Solid(cut.triangle()));
    view.line(Layer::Found, Path::line(cut.inner, cut.outer));
    view.linear(
        cut.inner,
        cut.outer,
        Side::Beside,
        found.after("land found "),
    );
    let after = says.land_after.clone().after("land after ");
    view.linear(cut.new_inner, cut.new_outer, Side::Beside, after);
    view.dimensions.push(angle(cut.outer, cut.found, "found "));
    view.dimensions
        .push(angle(cut.new_outer, cut.wanted, "wanted "));
    let sink = says.sink.clone().named("sink");
    let wedge = says
        .take
        .clone()
        .after("take ")
        .over("square to")
        .over("the new face");
    if cut.opens() {
        view.linear(cut.new_outer, cut.outer, Side::Right, sink);
        let on_face = cut.new_inner + (cut.new_outer - cut.new_inner) * 0.85;
        view.leader(on_face, -0.5, wedge);
    } else {
        view.linear(cut.new_inner, cut.inner, Side::Left, sink);
        view.leader(cut.new_inner.middle(cut.inner), PI + 0.6, wedge);
    }
    view
}

/// Which lines mean what; what is not drawn is not explained.
fn key(cut: &Cut) -> Vec<(Layer, &'static str)> {
    let mut key = vec![(Layer::Outline, "to be left")];
    if cut.moves() {
        key.push((Layer::Found, "as found"));
        key.push((Layer::Cut, "metal to take"));
    }
    key.extend([
        (Layer::Neighbor, "disc, in place"),
        (Layer::Center, "axis"),
        (Layer::Break, "broken off"),
    ]);
    key
}

fn notes(cut: &Cut, seat: &SeatSection) -> Vec<String> {
    let mut notes = vec!["Half angles are from the axis; the land is along the cone.".to_owned()];
    notes.push(
        match (cut.moves(), cut.opens()) {
            (false, _) => "The angle is the one wanted: nothing is to be cut for it.",
            (true, true) => "Most metal goes at the outer edge; the port edge is kept.",
            (true, false) => "Most metal goes at the port edge; the outer edge is kept.",
        }
        .to_owned(),
    );
    if seat.wall.is_none() {
        notes.push("Wall behind the seat: not known. Measure it before any cut.".to_owned());
    }
    if cut.moves() && cut.opens() && cut.disc.is_some_and(|disc| disc > cut.outside + DUST) {
        notes.push(
            "The disc is wider than the seat: after the cut its rim meets the metal outside of the \
             seat. Relieve one or the other."
                .to_owned(),
        );
    }
    notes.extend(
        [
            "Ask before any cut whether the two faces are meant to have one angle or two.",
            "If a void opens under the seat, stop and show it to the responsible officer.",
            "Open no valve before the line is isolated, drained and proved cold and without pressure.",
        ]
        .map(str::to_owned),
    );
    notes
}
