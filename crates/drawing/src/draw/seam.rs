//! A riveted seam: seen from outside over one unit of its length, and cut across.

use super::need;
use crate::error::DrawingError;
use crate::geometry::{Path, Point, Vertex, wavy};
use crate::hatch::Lean;
use crate::label::Label;
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Mark, Side, View};
use measure::{House, Length};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

/// What is known of a seam. Rows are counted from the outside of the seam, where the plate comes in.
#[derive(Clone, Debug, PartialEq)]
pub struct RivetedSeam {
    /// Unit of length: the pitch of the row with the widest spacing.
    pub pitch: Length,
    /// Thickness of the plate.
    pub plate: Length,
    /// Thickness of a butt strap; none for a lap.
    pub strap: Option<Length>,
    /// Diameter of the rivets as driven.
    pub rivet: Length,
    /// The rows, outermost first.
    pub rows: Vec<SeamRow>,
    /// Whether the wide strap is cut to teeth, one a unit of length.
    pub teeth: bool,
    /// From row to row. Not known: the rows are drawn for their place, and a note says so.
    pub row_spacing: Option<Length>,
    /// From the last row to the edge of plate or strap. Not known: the same.
    pub edge: Option<Length>,
    /// How the seam would come apart first, in words, where a worked sheet says it.
    pub weakest: Option<String>,
}

/// One row within one unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeamRow {
    /// Rivets in it.
    pub rivets: u32,
    /// Whether they go through both straps of a butt; in a lap it means nothing.
    pub both_straps: bool,
}

/// More rows or more rivets in a row than this are no seam, and cannot be told apart on paper.
const MOST: usize = 12;

/// The seam from outside and in section. Of a butt one side is drawn, the other broken off behind the butt.
///
/// Spacings that are not known are drawn by common practice, two and a half and one and a half rivets, without source
/// and without dimension; so are the heads of the rivets.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, there is no row or more than twelve, or the rivets of a row
/// do not fit beside each other.
pub fn riveted_seam(
    seam: &RivetedSeam,
    house: House,
    title: Title,
) -> Result<Drawing, DrawingError> {
    let laid = Rows::of(seam, house)?;
    Ok(Drawing {
        house,
        title,
        views: vec![section(seam, &laid, house), plan(seam, &laid, house)],
        key: key(seam),
        notes: notes(seam),
    })
}

/// The seam in inches. The edge of the plate, which in a butt is the butt, is at 0; rows and load lie to its right.
struct Rows {
    pitch: f64,
    plate: f64,
    strap: Option<f64>,
    radius: f64,
    /// Where each row is, outermost first.
    rows: Vec<(f64, SeamRow)>,
    /// Where the narrow strap ends; in a lap nothing does.
    narrow: Option<f64>,
    /// Where the wide strap ends, or the other plate of a lap.
    wide: f64,
    /// Where the view is broken off.
    left: f64,
    right: f64,
}

impl Rows {
    fn of(seam: &RivetedSeam, house: House) -> Result<Rows, DrawingError> {
        let rivet = need::size("the rivet", seam.rivet, house)?;
        let plate = need::size("the plate", seam.plate, house)?;
        let strap = seam
            .strap
            .map(|strap| need::size("the strap", strap, house))
            .transpose()?;
        let counted = |name, given: usize| DrawingError::Size {
            name,
            given: given.to_string(),
            expected: format!("1 to {MOST}"),
        };
        if !(1..=MOST).contains(&seam.rows.len()) {
            return Err(counted("the number of rows", seam.rows.len()));
        }
        let fewest = seam.rows.iter().map(|row| row.rivets).min().unwrap_or(0);
        let most = seam.rows.iter().map(|row| row.rivets).max().unwrap_or(0);
        if fewest < 1 || most as usize > MOST {
            let wrong = if fewest < 1 { fewest } else { most };
            return Err(counted("the number of rivets in a row", wrong as usize));
        }
        let side_by_side = Length::inches(f64::from(most) * rivet);
        let wider = "more than the rivets of its fullest row side by side";
        let pitch = need::more("the pitch", seam.pitch, side_by_side, wider, house)?;
        let apart = |name, given: Option<Length>, than: f64, usual: f64| match given {
            Some(given) => need::more(
                name,
                given,
                Length::inches(than),
                "more than the rivet's own",
                house,
            ),
            None => Ok(usual * rivet),
        };
        let edge = apart("the distance to the edge", seam.edge, rivet / 2.0, 1.5)?;
        let between = apart("the distance between rows", seam.row_spacing, rivet, 2.5)?;
        let count = seam.rows.len();
        let at = |row: usize| edge + between * (count - 1 - row) as f64;
        let rows: Vec<(f64, SeamRow)> = seam
            .rows
            .iter()
            .enumerate()
            .map(|(row, of)| (at(row), *of))
            .collect();
        let outermost = at(0);
        let twice = rows
            .iter()
            .filter(|(_, row)| row.both_straps)
            .map(|(x, _)| *x);
        let beyond = 0.8 * edge;
        Ok(Rows {
            pitch,
            plate,
            strap,
            radius: rivet / 2.0,
            narrow: strap.and(twice.reduce(f64::max).map(|x| x + edge)),
            wide: outermost + edge,
            left: -beyond,
            right: outermost + edge + beyond,
            rows,
        })
    }

    /// How far beyond the unit of length the seam is drawn, at either end: past the rivets on its ends.
    fn beyond(&self) -> f64 {
        (0.2 * self.pitch).max(1.5 * self.radius)
    }

    /// Where the rivets of each row stand along the seam, those wholly in the view.
    ///
    /// Of two rows alike the second stands between the rivets of the first. In a tooth the rivets keep the spacing of
    /// the fullest row, about the middle of the tooth.
    fn along(&self, teeth: bool) -> Vec<Vec<f64>> {
        let fullest = self
            .rows
            .iter()
            .map(|(_, row)| row.rivets)
            .max()
            .unwrap_or(1);
        let (low, high) = (
            -self.beyond() + self.radius,
            self.pitch + self.beyond() - self.radius,
        );
        let mut before: Option<(u32, bool)> = None;
        let mut all = Vec::new();
        for (_, row) in &self.rows {
            let alike = before.filter(|(rivets, _)| *rivets == row.rivets);
            // The first row stands on the ends of the unit, so that its pitch can be seen.
            let between = alike.map_or(before.is_some() && !teeth, |(_, between)| !between);
            before = Some((row.rivets, between));
            let count = f64::from(row.rivets);
            let apart = if teeth {
                self.pitch / f64::from(fullest)
            } else {
                self.pitch / count
            };
            let first = match (teeth, between) {
                (true, true) => -(count - 2.0) / 2.0 * apart,
                (true, false) => -(count - 1.0) / 2.0 * apart,
                (false, true) => apart / 2.0,
                (false, false) => 0.0,
            };
            let units = (-1..=1).map(|unit| f64::from(unit) * self.pitch);
            let mut stand: Vec<f64> = units
                .flat_map(|unit| (0..row.rivets).map(move |n| unit + first + f64::from(n) * apart))
                .filter(|y| (low..=high).contains(y))
                .collect();
            stand.sort_by(f64::total_cmp);
            all.push(stand);
        }
        all
    }
}

/// The seam from outside, the narrow strap on top: across from left to right, along from bottom to top.
fn plan(seam: &RivetedSeam, laid: &Rows, house: House) -> View {
    let mut view = View::new("Seam from outside");
    let (low, high) = (-laid.beyond(), laid.pitch + laid.beyond());
    let level = |x: f64| Path::line(Point::new(x, low), Point::new(x, high));
    // Both ends of the length, and both sides, are broken off.
    let corners = [
        Point::new(laid.left, low),
        Point::new(laid.right, low),
        Point::new(laid.right, high),
        Point::new(laid.left, high),
    ];
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        for part in broken_off(*from, *to, laid.right - laid.left) {
            view.line(Layer::Break, part);
        }
    }
    if let Some(narrow) = laid.narrow {
        view.line(Layer::Outline, level(narrow));
        view.line(Layer::Hidden, level(0.0));
    } else {
        view.line(Layer::Outline, level(0.0));
    }
    if seam.teeth {
        view.line(Layer::Hidden, teeth(laid, low, high));
    } else {
        view.line(Layer::Hidden, level(laid.wide));
    }
    let stand = laid.along(seam.teeth);
    for ((x, _), stand) in laid.rows.iter().zip(&stand) {
        let past = 0.06 * laid.pitch;
        let ends = [low - past, high + past].map(|y| Point::new(*x, y));
        view.line(Layer::Center, Path::line(ends[0], ends[1]));
        for y in stand {
            let center = Point::new(*x, *y);
            view.line(Layer::Outline, Path::circle(center, laid.radius));
            let arm = Point::new(1.4 * laid.radius, 0.0);
            view.line(Layer::Center, Path::line(center - arm, center + arm));
        }
    }
    let first = laid.rows.first().map_or(0.0, |(x, _)| *x);
    let pitch = Label::stacked(seam.pitch, house).named("pitch");
    view.linear(
        Point::new(first, 0.0),
        Point::new(first, laid.pitch),
        Side::Right,
        pitch,
    );
    if let Some(spacing) = seam.row_spacing.filter(|_| laid.rows.len() > 1) {
        let second = laid.rows.get(1).map_or(0.0, |(x, _)| *x);
        let label = Label::stacked(spacing, house).named("row to row");
        view.linear(
            Point::new(second, low),
            Point::new(first, low),
            Side::Below,
            label,
        );
    }
    if let Some(edge) = seam.edge {
        let last = laid.rows.last().map_or(0.0, |(x, _)| *x);
        let label = Label::stacked(edge, house).named("edge");
        view.linear(
            Point::new(0.0, low),
            Point::new(last, low),
            Side::Below,
            label,
        );
    }
    let driven = Label::stacked_diameter(seam.rivet, house).named("rivet, driven");
    let lowest = stand
        .first()
        .and_then(|stand| stand.first())
        .copied()
        .unwrap_or(0.0);
    let rim = Point::toward(-0.6) * laid.radius;
    view.leader(Point::new(first, lowest) + rim, -0.6, driven);
    // Every other row is named below, so that names do not crowd; those of the inner rows lean inward.
    let middle = (laid.left + laid.right) / 2.0;
    for (number, (x, _)) in laid.rows.iter().enumerate() {
        let name = Label::words(format!("row {}", number + 1));
        let lean = if *x < middle { FRAC_PI_4 } else { -FRAC_PI_4 };
        let past = 0.06 * laid.pitch;
        if number % 2 == 0 {
            view.leader(Point::new(*x, high + past), FRAC_PI_2 + lean, name);
        } else {
            view.leader(Point::new(*x, low - past), -FRAC_PI_2 - lean, name);
        }
    }
    view
}

/// A long edge where the view ends: wavy lines one after the other, so that the waves of a long edge are no wider than
/// those of one `usual` long.
fn broken_off(from: Point, to: Point, usual: f64) -> Vec<Path> {
    let parts = ((to - from).length() / usual).round().max(1.0);
    let at = |number: f64| from + (to - from) * (number / parts);
    // A seam's unit is no more than a few times as long as the seam is wide.
    (0..parts as u32)
        .map(|number| wavy(at(f64::from(number)), at(f64::from(number) + 1.0)))
        .collect()
}

/// The edge of a strap cut to teeth: their tips over the ends of the unit of length, their roots between.
fn teeth(laid: &Rows, low: f64, high: f64) -> Path {
    let root = laid.narrow.unwrap_or(0.0);
    let fullest = laid
        .rows
        .iter()
        .map(|(_, row)| row.rivets)
        .max()
        .unwrap_or(1);
    let first = laid.rows.first().map_or(1, |(_, row)| row.rivets);
    let half = (0.5 * laid.pitch * f64::from(first) / f64::from(fullest)).min(0.45 * laid.pitch);
    let slope = (laid.wide - root) / (0.5 * laid.pitch - half);
    // Where the view is broken off the edge is on its way down from a tip.
    let off = |past: f64| (laid.wide - slope * (past - half).max(0.0)).max(root);
    let mut points = vec![Point::new(off(-low), low)];
    for tip in [0.0, laid.pitch] {
        if tip > 0.0 {
            points.push(Point::new(root, tip - 0.5 * laid.pitch));
        }
        points.push(Point::new(laid.wide, (tip - half).max(low)));
        points.push(Point::new(laid.wide, (tip + half).min(high)));
    }
    points.push(Point::new(off(high - laid.pitch), high));
    Path::open(points)
}

/// A flat piece in section: from `left` to `right`, from `bottom` to `top`, either end broken off or an edge.
struct Piece {
    left: f64,
    right: f64,
    bottom: f64,
    top: f64,
    broken: [bool; 2],
    lean: Lean,
}

/// The seam cut across, each row at one of its rivets.
fn section(seam: &RivetedSeam, laid: &Rows, house: House) -> View {
    let mut view = View::new("Section across the rows");
    let t = laid.plate;
    let piece = |left, right, bottom, top, broken, lean| Piece {
        left,
        right,
        bottom,
        top,
        broken,
        lean,
    };
    let load = piece(0.0, laid.right, 0.0, t, [false, true], Lean::Right);
    let pieces = match (laid.strap, laid.narrow) {
        (Some(b), narrow) => {
            let mut pieces = vec![
                load,
                piece(laid.left, 0.0, 0.0, t, [true, false], Lean::Right),
                piece(laid.left, laid.wide, -b, 0.0, [true, false], Lean::Left),
            ];
            pieces.extend(
                narrow.map(|narrow| piece(laid.left, narrow, t, t + b, [true, false], Lean::Left)),
            );
            pieces
        }
        (None, _) => vec![
            load,
            piece(laid.left, laid.wide, -t, 0.0, [true, false], Lean::Left),
        ],
    };
    let under = -laid.strap.unwrap_or(t);
    let over = |row: &SeamRow| match laid.strap {
        Some(b) if row.both_straps => t + b,
        _ => t,
    };
    let shanks: Vec<(f64, f64)> = laid.rows.iter().map(|(x, row)| (*x, over(row))).collect();
    for piece in &pieces {
        draw(&mut view, piece, &shanks, laid.radius);
    }
    for (x, top) in &shanks {
        rivet(&mut view, *x, under, *top, laid.radius);
    }
    let right = [0.0, t].map(|y| Point::new(laid.right, y));
    view.linear(
        right[0],
        right[1],
        Side::Right,
        Label::stacked(seam.plate, house).named("plate"),
    );
    let left = |from: f64, to: f64| [from, to].map(|y| Point::new(laid.left, y));
    match (seam.strap, laid.strap) {
        (Some(given), Some(b)) => {
            let ends = left(-b, 0.0);
            let name = if laid.narrow.is_some() {
                "strap,\neach"
            } else {
                "strap"
            };
            view.linear(
                ends[0],
                ends[1],
                Side::Left,
                Label::stacked(given, house).named(name),
            );
        }
        _ => {
            let ends = left(-t, 0.0);
            view.linear(
                ends[0],
                ends[1],
                Side::Left,
                Label::stacked(seam.plate, house).named("plate"),
            );
        }
    }
    view
}

/// A flat piece: its edges, and its metal lined between the rivets.
fn draw(view: &mut View, piece: &Piece, shanks: &[(f64, f64)], radius: f64) {
    let (bottom, top) = (piece.bottom, piece.top);
    // From hole to hole, left to right.
    let mut holes: Vec<f64> = shanks
        .iter()
        .filter(|(x, over)| (piece.left..piece.right).contains(x) && *over >= top)
        .map(|(x, _)| *x)
        .collect();
    holes.sort_by(f64::total_cmp);
    let mut from = piece.left;
    let ends = holes.iter().map(|x| (x - radius, x + radius));
    for (to, next) in ends.chain([(piece.right, piece.right)]) {
        let (first, last) = (from == piece.left, to == piece.right);
        let edge = |x: f64, up: bool, broken: bool| {
            let (from, to) = if up { (bottom, top) } else { (top, bottom) };
            let (from, to) = (Point::new(x, from), Point::new(x, to));
            if broken {
                wavy(from, to)
            } else {
                Path::line(from, to)
            }
        };
        let right = edge(to, true, last && piece.broken[1]);
        let left = edge(from, false, first && piece.broken[0]);
        let mut vertices: Vec<Vertex> = right.vertices.clone();
        vertices.extend(left.vertices.iter().copied());
        view.marks.push(Mark::Hatch(
            vec![Path {
                vertices,
                closed: true,
            }],
            piece.lean,
        ));
        let layer = |broken: bool| if broken { Layer::Break } else { Layer::Outline };
        if first {
            view.line(layer(piece.broken[0]), left);
        }
        if last {
            view.line(layer(piece.broken[1]), right);
        }
        for y in [bottom, top] {
            view.line(
                Layer::Outline,
                Path::line(Point::new(from, y), Point::new(to, y)),
            );
        }
        from = next;
    }
}

/// A rivet cut lengthwise, which is not lined: its shank between two heads.
fn rivet(view: &mut View, x: f64, under: f64, over: f64, radius: f64) {
    let (wide, high) = (1.6 * radius, 1.1 * radius);
    for side in [-radius, radius] {
        view.line(
            Layer::Outline,
            Path::line(Point::new(x + side, under), Point::new(x + side, over)),
        );
    }
    // An arc through both rims and the top: its bulge is the height over half the width.
    for (y, up) in [(over, 1.0), (under, -1.0)] {
        let rim = |side: f64, bulge: f64| Vertex {
            at: Point::new(x + side * wide, y),
            bulge,
        };
        view.line(
            Layer::Outline,
            Path {
                vertices: vec![rim(up, high / wide), rim(-up, 0.0)],
                closed: true,
            },
        );
    }
    let past = 2.0 * radius;
    view.line(
        Layer::Center,
        Path::line(Point::new(x, under - past), Point::new(x, over + past)),
    );
}

/// Which lines mean what.
fn key(seam: &RivetedSeam) -> Vec<(Layer, &'static str)> {
    let hidden = match seam.strap {
        None => "edge beneath",
        Some(_) => "butt, wide strap",
    };
    vec![
        (Layer::Outline, "edge"),
        (Layer::Hidden, hidden),
        (Layer::Center, "row"),
        (Layer::Break, "broken off"),
    ]
}

fn notes(seam: &RivetedSeam) -> Vec<String> {
    let mut notes =
        vec!["Rows are counted from the outside of the seam, as on its sheet.".to_owned()];
    if let Some(weakest) = &seam.weakest {
        notes.push(format!("First to give way, by the sheet: {weakest}."));
    }
    let unknown: Vec<&str> = [
        (
            seam.row_spacing.is_none() && seam.rows.len() > 1,
            "distance of the rows",
        ),
        (seam.edge.is_none(), "distance to the edge"),
        (seam.teeth, "shape of the teeth"),
        (true, "heads of the rivets"),
    ]
    .into_iter()
    .filter_map(|(unknown, what)| unknown.then_some(what))
    .collect();
    notes.push(format!(
        "Drawn for their place, not to be measured: {}.",
        unknown.join(", ")
    ));
    notes.push("A strength on paper approves no pressure and no repair.".to_owned());
    notes
}
