//! Writes a laid-out drawing as SVG: one file, nothing loaded, no script, no style attribute.
//!
//! The unit of the picture is a hundredth of an inch of paper, because some browsers set type badly that is
//! smaller than one unit. Lines take the color of the text round them (`currentColor`), so that a page or a
//! printer chooses it. Text is text: it can be searched, copied and read aloud.

use crate::geometry::{Path, Point, Segment};
use crate::laid::{Item, Laid, LaidView, Shape, Text};
use crate::layer::Layer;
use crate::page::PIXELS;
use crate::place::Placed;
use std::borrow::Cow;
use std::fmt::Write;

/// Units of the picture in an inch of paper.
pub const UNITS: f64 = 100.0;

/// The type that is asked for. Every text says its width too, so that another one cannot make two texts touch.
const TYPE: &str = "Arial, Helvetica, 'Liberation Sans', sans-serif";

impl Laid {
    /// The drawing as an SVG document.
    pub fn svg(&self) -> String {
        let mut writer = Writer {
            out: String::new(),
            height: self.height,
        };
        writer.document(self);
        writer.out
    }

    /// The drawing as an `<svg>` element to stand inside a page, as large on the screen as its type needs, and with
    /// what it shows in words as its text alternative.
    pub fn svg_view(&self) -> String {
        let mut writer = Writer {
            out: String::new(),
            height: self.height,
        };
        writer.element(self);
        writer.out
    }
}

struct Writer {
    out: String,
    /// The height of the paper: the picture counts downward from the top.
    height: f64,
}

impl Writer {
    fn put(&mut self, text: &str) {
        self.out.push_str(text);
    }

    fn document(&mut self, laid: &Laid) {
        self.put(&format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" role=\"img\" width=\"{}in\" height=\"{}in\" viewBox=\"0 0 {} {}\" aria-label=\"{}\" font-family=\"{TYPE}\">\n",
            number(laid.width),
            number(laid.height),
            number(laid.width * UNITS),
            number(laid.height * UNITS),
            escaped(&laid.name),
        ));
        self.put(&format!(
            "<title>{}</title>\n<desc>{}</desc>\n",
            escaped(&laid.name),
            escaped(&laid.description)
        ));
        self.parts(laid);
    }

    fn element(&mut self, laid: &Laid) {
        self.put(&format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {} {}\" aria-label=\"{}\" font-family=\"{TYPE}\">\n",
            number(laid.width * PIXELS),
            number(laid.height * PIXELS),
            number(laid.width * UNITS),
            number(laid.height * UNITS),
            escaped(&format!("{}. {}", laid.name, laid.description)),
        ));
        self.parts(laid);
    }

    /// The views, the frame, and the end of the element.
    fn parts(&mut self, laid: &Laid) {
        for view in &laid.views {
            self.view(view);
        }
        self.put("<g class=\"frame\">\n");
        self.layers(&laid.frame);
        self.put("</g>\n</svg>\n");
    }

    fn view(&mut self, view: &LaidView) {
        self.put(&format!(
            "<g class=\"view\" aria-label=\"{}\" data-scale=\"{}\">\n",
            escaped(&view.name),
            view.scale
        ));
        self.layers(&view.items);
        for dimension in &view.dimensions {
            self.dimension(dimension);
        }
        self.put("</g>\n");
    }

    fn layers(&mut self, items: &[Item]) {
        for layer in Layer::ALL {
            let mut of_layer = items.iter().filter(|item| item.layer == layer).peekable();
            if of_layer.peek().is_none() {
                continue;
            }
            self.open(layer, layer.name());
            for item in of_layer {
                match &item.shape {
                    Shape::Path(path) => self.path(path),
                    Shape::Solid(corners) => self.solid(corners, "solid"),
                    Shape::Text(text) => self.text(text),
                }
            }
            self.put("</g>\n");
        }
    }

    /// Begins a group with the line of a layer.
    fn open(&mut self, layer: Layer, class: &str) {
        self.put(&format!(
            "<g class=\"{class}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
            number(layer.width() * UNITS)
        ));
        let dashes: Vec<String> = layer
            .dashes()
            .iter()
            .map(|dash| number(dash * UNITS))
            .collect();
        if !dashes.is_empty() {
            self.put(&format!(" stroke-dasharray=\"{}\"", dashes.join(" ")));
        }
        self.put(">\n");
    }

    fn dimension(&mut self, dimension: &Placed) {
        self.open(Layer::Dimension, "dimension");
        for path in dimension.extensions.iter().chain(&dimension.lines) {
            self.path(path);
        }
        for corners in &dimension.arrows {
            self.solid(corners, "arrow");
        }
        for text in dimension.texts() {
            self.text(&text);
        }
        self.put("</g>\n");
    }

    fn at(&self, p: Point) -> String {
        format!(
            "{} {}",
            number(p.x * UNITS),
            number((self.height - p.y) * UNITS)
        )
    }

    fn path(&mut self, path: &Path) {
        if let Some((center, radius)) = path.as_circle() {
            let line = format!(
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n",
                number(center.x * UNITS),
                number((self.height - center.y) * UNITS),
                number(radius * UNITS)
            );
            self.put(&line);
            return;
        }
        let mut data = String::new();
        for segment in path.segments() {
            if data.is_empty() {
                data = format!("M{}", self.at(segment.at(0.0)));
            }
            let end = self.at(segment.at(1.0));
            match segment {
                Segment::Line { .. } => data.push_str(&format!(" L{end}")),
                Segment::Arc { radius, sweep, .. } => {
                    let radius = number(radius * UNITS);
                    let large = u8::from(sweep.abs() > std::f64::consts::PI);
                    // Counter-clockwise on paper is counter to the picture's sense, whose y goes down.
                    let sense = u8::from(sweep < 0.0);
                    data.push_str(&format!(" A{radius} {radius} 0 {large} {sense} {end}"));
                }
            }
        }
        if data.is_empty() {
            return;
        }
        if path.closed {
            data.push_str(" Z");
        }
        self.put(&format!("<path d=\"{data}\"/>\n"));
    }

    fn solid(&mut self, corners: &[Point; 3], class: &str) {
        let [a, b, c] = corners.map(|p| self.at(p));
        self.put(&format!(
            "<path class=\"{class}\" fill=\"currentColor\" stroke=\"none\" d=\"M{a} L{b} L{c} Z\"/>\n"
        ));
    }

    fn text(&mut self, text: &Text) {
        let y = (self.height - text.at.y) * UNITS;
        let line = format!(
            "<text fill=\"currentColor\" stroke=\"none\" x=\"{}\" y=\"{}\" font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
            number(text.at.x * UNITS),
            number(y),
            number(text.height * UNITS),
            number(text.width * UNITS),
            escaped(&text.words)
        );
        self.put(&line);
    }
}

/// A number without needless zeros, to a ten-thousandth of a unit.
fn number(value: f64) -> String {
    let mut text = String::new();
    // Writing to a String cannot fail.
    let _ = write!(text, "{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

/// Text as XML has it: what has a meaning there is written out, and control characters, which XML cannot hold,
/// become blanks.
pub(crate) fn escaped(text: &str) -> Cow<'_, str> {
    let told =
        |c: char| matches!(c, '&' | '<' | '>' | '"' | '\u{fffe}' | '\u{ffff}') || c.is_control();
    // The map of a large survey has twenty thousand numbers, and none of them needs it.
    if !text.contains(told) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push(' '),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}
