//! Writes a laid-out drawing as DXF, release 12, in plain ASCII.
//!
//! The parts of the first view are at *true size in the house unit* (inches or millimetres, the unit of its figures),
//! whatever the scale on paper: what is measured in the file is what is measured on the part. The paper round it is drawn larger or smaller to suit. A view that is
//! enlarged from the first would be read wrong by a machine that takes every outline for the part; its layers
//! are called `DETAIL_OUTLINE` and so on, and those of the samples of lines in the key `KEY_OUTLINE` and so on.
//!
//! Release 12 is the oldest form that is still read everywhere, and small enough to be written out by hand. It
//! knows no unit; its reader is told by the text in the title block. Its format is
//! from memory, and is proved by an independent reader (`tests/ezdxf_audit.py`).

use crate::geometry::{Path, Point, Segment};
use crate::label::CAPITAL;
use crate::laid::{Item, Laid, Shape, Text};
use crate::layer::Layer;
use measure::{Angle, House, Length};

/// How wide the plain stroke letters of a DXF reader are set, so that they take no more room than ours.
const NARROW: f64 = 0.75;

/// What stands before the names of layers: nothing for the part itself, so that only it is on `OUTLINE`.
const PREFIXES: [&str; 3] = ["", "DETAIL_", "KEY_"];

impl Laid {
    /// The drawing as a DXF file of release 12.
    pub fn dxf(&self) -> String {
        let scale = self.views.first().map_or(1.0, |view| view.scale.times());
        let units_in_an_inch = match self.house {
            House::Inch => 1.0,
            House::Metric => Length::inches(1.0).to_mm(),
        };
        let times = scale / units_in_an_inch;
        let shift = self
            .views
            .first()
            .map_or(Point::ORIGIN, |view| view.to_paper.point(Point::ORIGIN));
        let mut writer = Writer {
            out: String::new(),
            shift,
            times,
        };
        writer.header(self.width, self.height);
        writer.tables();
        writer.section("ENTITIES");
        for (number, view) in self.views.iter().enumerate() {
            let prefix = if number == 0 { "" } else { "DETAIL_" };
            for item in &view.items {
                writer.item(item, prefix);
            }
            let layer = layer_name(prefix, Layer::Dimension);
            for dimension in &view.dimensions {
                for path in dimension.extensions.iter().chain(&dimension.lines) {
                    writer.path(&layer, path);
                }
                for corners in &dimension.arrows {
                    writer.solid(&layer, corners);
                }
                for text in dimension.texts() {
                    writer.text(&layer, &text);
                }
            }
        }
        for item in &self.frame {
            let own = matches!(item.layer, Layer::Title | Layer::Text);
            writer.item(item, if own { "" } else { "KEY_" });
        }
        writer.pair(0, "ENDSEC");
        writer.pair(0, "EOF");
        writer.out
    }
}

fn layer_name(prefix: &str, layer: Layer) -> String {
    format!("{prefix}{}", layer.name().to_uppercase())
}

struct Writer {
    out: String,
    /// Where on paper the origin of the first view is.
    shift: Point,
    /// Inches of paper for one house unit of the part.
    times: f64,
}

impl Writer {
    fn pair(&mut self, code: u16, value: &str) {
        self.out.push_str(&format!("{code:>3}\n{value}\n"));
    }

    fn real(&mut self, code: u16, value: f64) {
        // Ten decimals: far finer than any size, and no dust from the shift to paper and back.
        let text = format!("{value:.10}");
        let text = if text
            .trim_start_matches('-')
            .bytes()
            .all(|b| b == b'0' || b == b'.')
        {
            "0.0000000000"
        } else {
            &text
        };
        self.pair(code, text);
    }

    /// A point of the paper, in house units of the part; `code` is that of x.
    fn point(&mut self, code: u16, p: Point) {
        let p = (p - self.shift) * (1.0 / self.times);
        self.real(code, p.x);
        self.real(code + 10, p.y);
        self.real(code + 20, 0.0);
    }

    fn section(&mut self, name: &str) {
        self.pair(0, "SECTION");
        self.pair(2, name);
    }

    fn header(&mut self, width: f64, height: f64) {
        self.section("HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        self.pair(9, "$DWGCODEPAGE");
        self.pair(3, "ANSI_1252");
        for (name, corner) in [
            ("$EXTMIN", Point::ORIGIN),
            ("$EXTMAX", Point::new(width, height)),
        ] {
            self.pair(9, name);
            self.point(10, corner);
        }
        self.pair(9, "$LTSCALE");
        self.real(40, 1.0);
        self.pair(0, "ENDSEC");
    }

    fn table(&mut self, name: &str, entries: usize) {
        self.pair(0, "TABLE");
        self.pair(2, name);
        self.pair(70, &entries.to_string());
    }

    fn tables(&mut self) {
        self.section("TABLES");
        let dashed: Vec<Layer> = Layer::ALL
            .into_iter()
            .filter(|layer| !layer.dashes().is_empty())
            .collect();
        self.table("LTYPE", dashed.len() + 1);
        self.line_type("CONTINUOUS", "unbroken", &[]);
        for layer in dashed {
            let name = layer.name().to_uppercase();
            self.line_type(&name, layer.name(), layer.dashes());
        }
        self.pair(0, "ENDTAB");
        self.table("LAYER", 1 + PREFIXES.len() * Layer::ALL.len());
        self.layer("0", "CONTINUOUS");
        for prefix in PREFIXES {
            for layer in Layer::ALL {
                let line = if layer.dashes().is_empty() {
                    "CONTINUOUS".to_owned()
                } else {
                    layer.name().to_uppercase()
                };
                self.layer(&layer_name(prefix, layer), &line);
            }
        }
        self.pair(0, "ENDTAB");
        self.table("STYLE", 1);
        self.pair(0, "STYLE");
        self.pair(2, "STANDARD");
        self.pair(70, "0");
        self.real(40, 0.0);
        self.real(41, 1.0);
        self.real(50, 0.0);
        self.pair(71, "0");
        self.real(42, 0.2);
        self.pair(3, "txt");
        self.pair(4, "");
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    /// A line type; its dashes are of paper and are scaled with it.
    fn line_type(&mut self, name: &str, words: &str, dashes: &[f64]) {
        self.pair(0, "LTYPE");
        self.pair(2, name);
        self.pair(70, "0");
        self.pair(3, words);
        self.pair(72, "65");
        self.pair(73, &dashes.len().to_string());
        let times = self.times;
        self.real(40, dashes.iter().sum::<f64>() / times);
        for (number, dash) in dashes.iter().enumerate() {
            // A stroke is above zero and a gap below.
            let sign = if number % 2 == 0 { 1.0 } else { -1.0 };
            self.real(49, sign * dash / times);
        }
    }

    fn layer(&mut self, name: &str, line_type: &str) {
        self.pair(0, "LAYER");
        self.pair(2, name);
        self.pair(70, "0");
        self.pair(62, "7");
        self.pair(6, line_type);
    }

    fn item(&mut self, item: &Item, prefix: &str) {
        let layer = layer_name(prefix, item.layer);
        match &item.shape {
            Shape::Path(path) => self.path(&layer, path),
            Shape::Solid(corners) => self.solid(&layer, corners),
            Shape::Text(text) => self.text(&layer, text),
        }
    }

    fn entity(&mut self, kind: &str, layer: &str) {
        self.pair(0, kind);
        self.pair(8, layer);
    }

    fn path(&mut self, layer: &str, path: &Path) {
        if let Some((center, radius)) = path.as_circle() {
            self.entity("CIRCLE", layer);
            self.point(10, center);
            self.real(40, radius / self.times);
            return;
        }
        let mut segments = path.segments();
        match (segments.next(), segments.next()) {
            (None, _) => {}
            (Some(Segment::Line { from, to }), None) => {
                self.entity("LINE", layer);
                self.point(10, from);
                self.point(11, to);
            }
            (
                Some(Segment::Arc {
                    center,
                    radius,
                    start,
                    sweep,
                }),
                None,
            ) => {
                // An ARC always runs counter-clockwise.
                let (from, to) = if sweep < 0.0 {
                    (start + sweep, start)
                } else {
                    (start, start + sweep)
                };
                self.entity("ARC", layer);
                self.point(10, center);
                self.real(40, radius / self.times);
                self.real(50, degrees(from));
                self.real(51, degrees(to));
            }
            _ => self.polyline(layer, path),
        }
    }

    fn polyline(&mut self, layer: &str, path: &Path) {
        self.entity("POLYLINE", layer);
        self.pair(66, "1");
        // The place of a polyline of release 12 is a point of no meaning, all zeros.
        for code in [10, 20, 30] {
            self.real(code, 0.0);
        }
        self.pair(70, if path.closed { "1" } else { "0" });
        for vertex in &path.vertices {
            self.entity("VERTEX", layer);
            self.point(10, vertex.at);
            if vertex.bulge != 0.0 {
                self.real(42, vertex.bulge);
            }
        }
        self.entity("SEQEND", layer);
    }

    fn solid(&mut self, layer: &str, [a, b, c]: &[Point; 3]) {
        self.entity("SOLID", layer);
        self.point(10, *a);
        self.point(11, *b);
        self.point(12, *c);
        // A triangle says its last corner twice.
        self.point(13, *c);
    }

    fn text(&mut self, layer: &str, text: &Text) {
        self.entity("TEXT", layer);
        self.point(10, text.at);
        self.real(40, text.height * CAPITAL / self.times);
        self.pair(1, &plain(&text.words));
        self.real(41, NARROW);
        self.pair(7, "STANDARD");
        if text.centered {
            self.pair(72, "1");
            self.point(11, text.at + Point::new(text.width / 2.0, 0.0));
        }
    }
}

/// Degrees from 0 to 360.
fn degrees(radians: f64) -> f64 {
    Angle::radians(radians).to_degrees().rem_euclid(360.0)
}

/// Text in ASCII. The signs of a drawing have codes of their own; other letters are written by their number.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '°' => out.push_str("%%d"),
            'Ø' => out.push_str("%%c"),
            '±' => out.push_str("%%p"),
            '·' => out.push('='),
            '…' => out.push_str("..."),
            '×' => out.push('x'),
            '%' => out.push_str("%%%"),
            c if c.is_control() => out.push(' '),
            c if c.is_ascii() => out.push(c),
            c => out.push_str(&format!("\\U+{:04X}", u32::from(c))),
        }
    }
    out
}
