//! A view of a part: its lines, its section lining and what is to be dimensioned, in inches of the part.

use crate::geometry::{Path, Point};
use crate::hatch::Lean;
use crate::label::Label;
use crate::layer::Layer;

/// One view.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// What stands under it: "Section".
    pub name: String,
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// What is dimensioned. Those of one side are stacked outward, the shortest next to the part.
    pub dimensions: Vec<Dimension>,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line.
    Line(Layer, Path),
    /// Metal that is cut through: closed outlines, a loop in a loop being a hole.
    Hatch(Vec<Path>, Lean),
    /// A black triangle: metal to be taken off.
    Solid([Point; 3]),
}

/// Where a linear dimension stands, which says too what it measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// Over the part; measures from left to right.
    Above,
    /// Under it; from left to right.
    Below,
    /// To the left of it; measures from bottom to top.
    Left,
    /// To the right of it; from bottom to top.
    Right,
    /// On the left hand of one who goes from the first point to the second; measures straight between them.
    Beside,
}

/// One dimension.
#[derive(Clone, Debug, PartialEq)]
pub enum Dimension {
    /// From point to point.
    Linear {
        /// Where it starts.
        from: Point,
        /// Where it ends.
        to: Point,
        /// Where it stands and which way it measures.
        side: Side,
        /// What it says.
        label: Label,
    },
    /// Between two directions.
    Angle {
        /// Where the two meet.
        vertex: Point,
        /// The first direction, radians.
        start: f64,
        /// From it to the second, radians, counter-clockwise, above zero.
        sweep: f64,
        /// How far from the vertex, inches of the part, a line is drawn already in each direction; from there
        /// on a thin one is added.
        drawn: [f64; 2],
        /// What it says.
        label: Label,
    },
    /// A note with an arrow.
    Leader {
        /// What it points at.
        at: Point,
        /// The direction, radians, in which the note lies if there is room.
        toward: f64,
        /// What it says.
        label: Label,
    },
}

impl Dimension {
    /// What it says.
    pub const fn label(&self) -> &Label {
        match self {
            Dimension::Linear { label, .. }
            | Dimension::Angle { label, .. }
            | Dimension::Leader { label, .. } => label,
        }
    }
}

impl View {
    /// An empty view.
    pub fn new(name: impl Into<String>) -> View {
        View {
            name: name.into(),
            marks: Vec::new(),
            dimensions: Vec::new(),
        }
    }

    /// Draws a line.
    pub fn line(&mut self, layer: Layer, path: Path) {
        self.marks.push(Mark::Line(layer, path));
    }

    /// Dimensions from point to point.
    pub fn linear(&mut self, from: Point, to: Point, side: Side, label: Label) {
        self.dimensions.push(Dimension::Linear {
            from,
            to,
            side,
            label,
        });
    }

    /// Notes something at a point; the note lies in the direction `toward`, radians, if there is room.
    pub fn leader(&mut self, at: Point, toward: f64, label: Label) {
        self.dimensions
            .push(Dimension::Leader { at, toward, label });
    }
}
