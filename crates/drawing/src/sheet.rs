//! A drawing, and how it is laid out on a sheet: each view at the largest standard scale that fits its place.

use crate::error::DrawingError;
use crate::geometry::{Bounds, Path, Point, Transform, wavy};
use crate::hatch::{Lean, hatch, spacing};
use crate::label::text_width;
use crate::laid::{Item, Laid, LaidView, Shape, Text};
use crate::layer::Layer;
use crate::place::{Placed, place};
use crate::scale::Scale;
use crate::title::{ADVICE, Title};
use crate::view::{Dimension, Mark, View};
use measure::{House, Length};

/// A drawing: its views, its title block and its notes.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The units its sizes are shown in, and its paper: US letter for inches, A4 for millimetres.
    pub house: House,
    /// The title block.
    pub title: Title,
    /// The views, the one to which the scale of the title block belongs first.
    pub views: Vec<View>,
    /// Which lines mean what, for the key.
    pub key: Vec<(Layer, &'static str)>,
    /// Notes, each a sentence.
    pub notes: Vec<String>,
}

/// From the edge of the paper to the border.
const MARGIN: f64 = 0.4;
/// Height of the band with the notes and the title block.
const BAND: f64 = 2.1;
/// The part of the band's width that the notes take.
const NOTES: f64 = 0.36;
/// Room kept round a view.
const ROUND: f64 = 0.16;
/// Height of a note.
const NOTE: f64 = 0.105;
/// Height of the name under a view.
pub(crate) const NAME: f64 = 0.15;
/// Length of the sample of a line in the key: long enough for its dashes to be told.
const SAMPLE: f64 = 0.62;
/// Between the lines of metal that is to be taken off.
const CLOSE: f64 = 0.035;
/// The part of the sheet's width that the first of two views takes.
const FIRST_OF_TWO: f64 = 0.54;

impl Drawing {
    /// The drawing on its paper.
    ///
    /// # Errors
    /// [`DrawingError`] when a view fits at no standard scale, or a dimension finds no place.
    pub fn lay_out(&self) -> Result<Laid, DrawingError> {
        let paper = match self.house {
            House::Inch => Point::new(11.0, 8.5),
            House::Metric => {
                Point::new(Length::mm(297.0).to_inches(), Length::mm(210.0).to_inches())
            }
        };
        let border = Bounds::of(Point::ORIGIN, paper).grown(-MARGIN);
        let shelf = border.min.y + BAND;
        let views = self
            .views
            .iter()
            .zip(places(border, shelf, self.views.len()))
            .map(|(view, room)| fitted(view, room))
            .collect::<Result<Vec<_>, _>>()?;
        let scale = views.first().map_or(Scale::FULL, |view| view.scale);
        let split = border.min.x + border.width() * NOTES;
        let unit = match self.house {
            House::Inch => "inches",
            House::Metric => "millimetres",
        };
        let mut frame = vec![
            Item::path(Layer::Title, rectangle(border)),
            Item::path(
                Layer::Title,
                Path::line(
                    Point::new(border.min.x, shelf),
                    Point::new(border.max.x, shelf),
                ),
            ),
            Item::path(
                Layer::Title,
                Path::line(Point::new(split, border.min.y), Point::new(split, shelf)),
            ),
        ];
        let block = Bounds::of(
            Point::new(split, border.min.y),
            Point::new(border.max.x, shelf),
        );
        frame.extend(self.title.laid(block, &scale.to_string(), unit));
        let notes = Bounds::of(border.min, Point::new(split, shelf)).grown(-0.09);
        frame.extend(self.notes_in(notes));
        Ok(Laid {
            width: paper.x,
            height: paper.y,
            house: self.house,
            name: self.title.drawing.clone(),
            description: self.description(&views, unit),
            views,
            frame,
        })
    }

    /// The key of lines and the notes under it, in as many lines as they need; smaller type when they are many.
    fn notes_in(&self, room: Bounds) -> Vec<Item> {
        let mut height = NOTE;
        let lines = loop {
            let lines: Vec<String> = self
                .notes
                .iter()
                .flat_map(|note| wrapped(note, room.width() * 0.97, height))
                .collect();
            let rows = (self.key.len().div_ceil(2) + lines.len()) as f64 + 0.4;
            let needed = rows * height * 1.35;
            if needed <= room.height() || height < 0.06 {
                break lines;
            }
            height *= 0.95;
        };
        let step = height * 1.35;
        let mut items = Vec::new();
        let mut foot = room.max.y - height * 0.8;
        for pair in self.key.chunks(2) {
            for (column, (layer, words)) in pair.iter().enumerate() {
                let left = room.min.x + room.width() / 2.0 * column as f64;
                let level = foot + height * 0.3;
                items.extend(sample(*layer, Point::new(left, level), height, SAMPLE));
                let at = Point::new(left + SAMPLE + 0.09, foot);
                items.push(Item::text(Layer::Text, Text::start(at, height, *words)));
            }
            foot -= step;
        }
        foot -= step * 0.4;
        for line in lines {
            let at = Point::new(room.min.x, foot);
            items.push(Item::text(Layer::Text, Text::start(at, height, line)));
            foot -= step;
        }
        items
    }

    /// The drawing in words.
    fn description(&self, views: &[LaidView], unit: &str) -> String {
        let mut said = format!("Sizes in {unit}. ");
        if let Some(part) = &self.title.part {
            said.push_str(&format!("Part: {part}. "));
        }
        for view in views {
            said.push_str(&format!(
                "{} at {}: {}. ",
                view.name,
                view.scale,
                sizes(view)
            ));
        }
        for note in &self.notes {
            said.push_str(note);
            said.push(' ');
        }
        said.push_str(ADVICE);
        said
    }
}

/// What the dimensions of a view say.
pub(crate) fn sizes(view: &LaidView) -> String {
    let each = view.dimensions.iter();
    let sizes: Vec<String> = each.map(|placed| placed.label.lines.join(" ")).collect();
    sizes.join("; ")
}

/// The room of each view.
fn places(border: Bounds, shelf: f64, count: usize) -> Vec<Bounds> {
    let whole = Bounds::of(Point::new(border.min.x, shelf), border.max);
    if count < 2 {
        return vec![whole];
    }
    let split = border.min.x + border.width() * FIRST_OF_TWO;
    let mut rooms = vec![Bounds::of(whole.min, Point::new(split, whole.max.y))];
    // Further views share what is left, one over the other.
    let each = whole.height() / (count - 1) as f64;
    for number in 0..count - 1 {
        let top = whole.max.y - each * number as f64;
        rooms.push(Bounds::of(
            Point::new(split, top - each),
            Point::new(whole.max.x, top),
        ));
    }
    rooms
}

/// The view in its room at the largest standard scale that fits.
fn fitted(view: &View, room: Bounds) -> Result<LaidView, DrawingError> {
    let mut inner = room.grown(-ROUND);
    inner.min.y += NAME * 1.8;
    let space = Point::new(inner.width(), inner.height());
    let fit = fit(view, space, &Scale::STANDARD)?;
    let shift = inner.center() - fit.all.center();
    let name = format!("{}, {}", view.name, fit.scale);
    let foot = Point::new(room.center().x, room.min.y + 0.14);
    Ok(laid(view, fit, shift, name, foot))
}

/// A view at its scale, its dimensions placed, about its own origin.
pub(crate) struct Fit {
    pub(crate) scale: Scale,
    marks: Vec<Mark>,
    placed: Vec<Placed>,
    /// What the part itself takes up.
    pub(crate) part: Bounds,
    /// All that is taken up.
    pub(crate) all: Bounds,
}

/// The view at the first of these scales, the largest first, at which it fits this space.
pub(crate) fn fit(view: &View, space: Point, scales: &[Scale]) -> Result<Fit, DrawingError> {
    let mut crowded = None;
    for &scale in scales {
        let marks: Vec<Mark> = moved_marks(&view.marks, Transform::scale(scale.times()));
        let part = bounds(&marks);
        // A view that is too large without its dimensions needs none placed to know it.
        if part.width() > space.x || part.height() > space.y {
            continue;
        }
        let dimensions: Vec<Dimension> = view
            .dimensions
            .iter()
            .map(|dimension| moved(dimension, Transform::scale(scale.times())))
            .collect();
        let placed = match place(&marks, &dimensions, space) {
            Ok(placed) => placed,
            Err(which) => {
                crowded = dimensions.get(which).map(|d| d.label().lines.join(" "));
                continue;
            }
        };
        let all = placed.iter().map(Placed::bounds).fold(part, Bounds::with);
        return Ok(Fit {
            scale,
            marks,
            placed,
            part,
            all,
        });
    }
    let end = |scale: Option<&Scale>| scale.map(Scale::to_string).unwrap_or_default();
    Err(match crowded {
        Some(text) => DrawingError::Crowded {
            view: view.name.clone(),
            text,
        },
        None => DrawingError::Room {
            view: view.name.clone(),
            largest: end(scales.first()),
            smallest: end(scales.last()),
        },
    })
}

/// The fitted view moved by `shift`, its name with the middle of its foot at `foot`.
pub(crate) fn laid(view: &View, fit: Fit, shift: Point, name: String, foot: Point) -> LaidView {
    let shift_by = Transform::shift(shift);
    let mut items = Vec::new();
    for mark in moved_marks(&fit.marks, shift_by) {
        match mark {
            Mark::Line(layer, path) => items.push(Item::path(layer, path)),
            Mark::Solid(corners) => items.extend(cut(corners)),
            Mark::Hatch(loops, lean) => {
                let size = Bounds::over(
                    loops
                        .iter()
                        .filter_map(Path::bounds)
                        .flat_map(|b| [b.min, b.max]),
                );
                let Some(size) = size else { continue };
                for (a, b) in hatch(&loops, lean, spacing(size)) {
                    items.push(Item::path(Layer::Hatch, Path::line(a, b)));
                }
            }
        }
    }
    items.push(Item::text(Layer::Text, Text::middle(foot, NAME, name)));
    LaidView {
        name: view.name.clone(),
        scale: fit.scale,
        to_paper: Transform::scale(fit.scale.times()).then(shift_by),
        items,
        dimensions: fit
            .placed
            .iter()
            .map(|placed| placed.shifted(shift))
            .collect(),
    }
}

/// Metal to be taken off: lined closely, against the lining of what stays; black where it is too thin for lines,
/// as thin sections are drawn.
fn cut([a, b, c]: [Point; 3]) -> Vec<Item> {
    let longest = [b - a, c - b, a - c]
        .map(Point::length)
        .into_iter()
        .fold(0.0, f64::max);
    let thick = (b - a).cross(c - a).abs() / longest.max(f64::MIN_POSITIVE);
    if thick < 3.0 * CLOSE {
        return vec![Item {
            layer: Layer::Cut,
            shape: Shape::Solid([a, b, c]),
        }];
    }
    hatch(&[Path::closed([a, b, c])], Lean::Left, CLOSE)
        .into_iter()
        .map(|(from, to)| Item::path(Layer::Cut, Path::line(from, to)))
        .collect()
}

impl Placed {
    /// The dimension moved by `way`.
    fn shifted(&self, way: Point) -> Placed {
        let by = Transform::shift(way);
        let paths = |paths: &[Path]| paths.iter().map(|path| path.transformed(by)).collect();
        Placed {
            lines: paths(&self.lines),
            extensions: paths(&self.extensions),
            arrows: self
                .arrows
                .iter()
                .map(|arrow| arrow.map(|p| p + way))
                .collect(),
            label: self.label.clone(),
            text: Bounds {
                min: self.text.min + way,
                max: self.text.max + way,
            },
        }
    }
}

fn moved_marks(marks: &[Mark], by: Transform) -> Vec<Mark> {
    marks
        .iter()
        .map(|mark| match mark {
            Mark::Line(layer, path) => Mark::Line(*layer, path.transformed(by)),
            Mark::Hatch(loops, lean) => Mark::Hatch(
                loops.iter().map(|path| path.transformed(by)).collect(),
                *lean,
            ),
            Mark::Solid(corners) => Mark::Solid(corners.map(|p| by.point(p))),
        })
        .collect()
}

/// The dimension enlarged with its view, which is neither turned nor mirrored.
fn moved(dimension: &Dimension, by: Transform) -> Dimension {
    let label = dimension.label().clone();
    match *dimension {
        Dimension::Linear { from, to, side, .. } => Dimension::Linear {
            from: by.point(from),
            to: by.point(to),
            side,
            label,
        },
        Dimension::Angle {
            vertex,
            start,
            sweep,
            drawn,
            ..
        } => Dimension::Angle {
            vertex: by.point(vertex),
            start,
            sweep,
            drawn: drawn.map(|way| way * by.times()),
            label,
        },
        Dimension::Leader { at, toward, .. } => Dimension::Leader {
            at: by.point(at),
            toward,
            label,
        },
    }
}

/// The box of what is drawn.
fn bounds(marks: &[Mark]) -> Bounds {
    let boxes = marks.iter().flat_map(|mark| match mark {
        Mark::Line(_, path) => path.bounds().into_iter().collect(),
        Mark::Hatch(loops, _) => loops.iter().filter_map(Path::bounds).collect(),
        Mark::Solid(corners) => Bounds::over(*corners).into_iter().collect::<Vec<_>>(),
    });
    boxes
        .reduce(Bounds::with)
        .unwrap_or(Bounds::of(Point::ORIGIN, Point::ORIGIN))
}

fn rectangle(b: Bounds) -> Path {
    Path::closed([
        b.min,
        Point::new(b.max.x, b.min.y),
        b.max,
        Point::new(b.min.x, b.max.y),
    ])
}

/// A short piece of a line, or a little of its filling, for the key.
pub(crate) fn sample(layer: Layer, at: Point, height: f64, long: f64) -> Vec<Item> {
    let end = at + Point::new(long, 0.0);
    match layer {
        Layer::Cut => {
            let up = Point::new(0.0, height * 0.45);
            cut([at - up, end - up, end + up * 2.0])
        }
        Layer::Hatch => {
            let shape = rectangle(Bounds::around(at.middle(end), long, height * 0.8));
            hatch(&[shape], Lean::Right, 0.055)
                .into_iter()
                .map(|(a, b)| Item::path(layer, Path::line(a, b)))
                .collect()
        }
        Layer::Break => vec![Item::path(layer, wavy(at, end))],
        _ => vec![Item::path(layer, Path::line(at, end))],
    }
}

/// The text in lines no wider than `room`, broken at blanks.
fn wrapped(text: &str, room: f64, height: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if text_width(&longer, height) > room && !line.is_empty() {
            lines.push(std::mem::replace(&mut line, word.to_owned()));
        } else {
            line = longer;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}
