//! A drawing laid out on paper: where every line and every text is. The writers only write it down.

use crate::geometry::{Path, Point, Transform};
use crate::label::{CAPITAL, FIGURE, LEADING, text_width};
use crate::layer::Layer;
use crate::place::Placed;
use crate::scale::Scale;
use measure::House;

/// A sheet of paper with a drawing on it. All places are in inches of paper from its lower left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The width of the paper.
    pub width: f64,
    /// The height of the paper.
    pub height: f64,
    /// The units its sizes are shown in.
    pub house: House,
    /// What it is called.
    pub name: String,
    /// What it shows, in sentences, for one who cannot see it.
    pub description: String,
    /// The views. The first has the scale of the title block; the others are enlarged from it.
    pub views: Vec<LaidView>,
    /// The border, the title block, the notes.
    pub frame: Vec<Item>,
}

/// A view in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidView {
    /// Its name.
    pub name: String,
    /// Its scale.
    pub scale: Scale,
    /// From inches of the part to inches of paper.
    pub to_paper: Transform,
    /// Its lines and its name.
    pub items: Vec<Item>,
    /// Its dimensions, in the order in which they were asked for by kind and size.
    pub dimensions: Vec<Placed>,
}

/// One line or text.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is for.
    pub layer: Layer,
    /// What it is.
    pub shape: Shape,
}

/// What can be on paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line.
    Path(Path),
    /// A black triangle.
    Solid([Point; 3]),
    /// A line of text.
    Text(Text),
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The left end of its foot.
    pub at: Point,
    /// The height of the type, inches of paper.
    pub height: f64,
    /// The words.
    pub words: String,
    /// How wide it is made.
    pub width: f64,
    /// Whether it stands about its middle: a writer that cannot set its width keeps that instead of the left end.
    pub centered: bool,
}

impl Text {
    /// A text that starts at a point.
    pub fn start(at: Point, height: f64, words: impl Into<String>) -> Text {
        let words = words.into();
        let width = text_width(&words, height);
        Text {
            at,
            height,
            words,
            width,
            centered: false,
        }
    }

    /// A text with its foot's middle at a point.
    pub fn middle(at: Point, height: f64, words: impl Into<String>) -> Text {
        let text = Text::start(at, height, words);
        Text {
            at: at - Point::new(text.width / 2.0, 0.0),
            centered: true,
            ..text
        }
    }
}

impl Item {
    /// A line.
    pub const fn path(layer: Layer, path: Path) -> Item {
        Item {
            layer,
            shape: Shape::Path(path),
        }
    }

    /// A text.
    pub const fn text(layer: Layer, text: Text) -> Item {
        Item {
            layer,
            shape: Shape::Text(text),
        }
    }
}

impl Placed {
    /// The lines of its label, each in its place.
    pub fn texts(&self) -> Vec<Text> {
        let center = self.text.center().x;
        let mut foot = self.text.max.y - FIGURE * CAPITAL;
        let mut texts = Vec::new();
        for line in &self.label.lines {
            texts.push(Text::middle(Point::new(center, foot), FIGURE, line.clone()));
            foot -= FIGURE * LEADING;
        }
        texts
    }
}
