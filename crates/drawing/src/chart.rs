//! Maps of a sheet developed flat: squares with their numbers, and stays with their state. A mark is a shape before it is
//! a tone: hatching, a heavy frame, a letter. Lines take the color of the text round them.

use crate::svg::escaped;
use std::fmt::{self, Write};

/// How a square is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Square {
    /// Nothing to say of it.
    Plain,
    /// Thin: hatched.
    Thin,
    /// The thinnest: hatched, with a heavy frame.
    Thinnest,
    /// Not read.
    NotRead,
    /// No plate there: crossed out.
    NoPlate,
}

/// A square with what stands in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Marked {
    /// What stands in it.
    pub said: String,
    /// How it is marked.
    pub mark: Square,
    /// Whether its reading is to be looked at again: a corner and a question mark, beside any other mark.
    pub again: bool,
}

/// A sheet in squares.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SquareMap {
    /// What it shows, for one who cannot see it.
    pub told: String,
    /// Names of the columns.
    pub columns: Vec<String>,
    /// Each row: its name, and its squares.
    pub rows: Vec<(String, Vec<Marked>)>,
}

/// How a stay is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StayMark {
    /// Said to be sound: an open ring.
    Sound,
    /// Counts as broken: a filled disc with a cross over it.
    Broken,
    /// Renewed: a ring in a square.
    Renewed,
    /// Nobody said: a dashed ring with a question mark.
    Unknown,
}

/// A stay on its sheet, in inches from the lower left.
#[derive(Debug, Clone, PartialEq)]
pub struct Stay {
    /// From the left.
    pub x: f64,
    /// From below.
    pub y: f64,
    /// Its mark.
    pub mark: StayMark,
    /// A letter beside it; empty for none.
    pub letter: String,
    /// What it is, for one who points at it.
    pub told: String,
}

/// Stays of one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct StayMap {
    /// What it shows, for one who cannot see it.
    pub told: String,
    /// Names of the rows with their height.
    pub rows: Vec<(String, f64)>,
    /// Numbers along the rows, with their place.
    pub numbers: Vec<(String, f64)>,
    /// The stays.
    pub stays: Vec<Stay>,
}

/// The least room for one square, in pixels.
const WIDE: f64 = 58.0;
const HIGH: f64 = 34.0;
/// Room for the names of the columns.
const HEAD: f64 = 30.0;

/// Room for the longest of some words, in pixels: no letter of the face is wider on the mean.
fn room<'w>(words: impl Iterator<Item = &'w str>) -> f64 {
    let longest = words.map(|word| word.chars().count()).max().unwrap_or(0);
    8.6 * longest as f64 + 14.0
}

/// A place on the picture, to a tenth of a pixel: whole numbers are printed far faster than fractions.
struct At(f64);

impl fmt::Display for At {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.0 * 10.0).round() as i64;
        let sign = if tenths < 0 { "-" } else { "" };
        write!(out, "{sign}{}.{}", tenths.abs() / 10, tenths.abs() % 10)
    }
}

pub(crate) fn open(out: &mut String, wide: f64, high: f64, told: &str) {
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{wide:.0}\" height=\"{high:.0}\" viewBox=\"0 0 {wide:.0} {high:.0}\" \
         aria-label=\"{}\" font-family=\"Arial, Helvetica, 'Liberation Sans', sans-serif\" font-size=\"15\" fill=\"currentColor\">",
        escaped(told)
    );
}

pub(crate) fn text(out: &mut String, x: f64, y: f64, anchor: &str, weight: &str, said: &str) {
    let _ = writeln!(
        out,
        "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" font-weight=\"{weight}\">{}</text>",
        At(x),
        At(y),
        escaped(said)
    );
}

impl SquareMap {
    /// The map as an SVG element. Its numbers are as large as text on a page; a wide sheet is wide.
    pub fn svg(&self) -> String {
        let names = room(self.rows.iter().map(|(name, _)| name.as_str()));
        let each = room(self.columns.iter().map(String::as_str)).max(WIDE);
        let wide = names + each * self.columns.len() as f64 + 4.0;
        let high = HEAD + HIGH * self.rows.len() as f64 + 4.0;
        let mut out = String::with_capacity(400 + 260 * self.rows.len() * self.columns.len());
        open(&mut out, wide, high, &self.told);
        for (at, name) in self.columns.iter().enumerate() {
            let x = names + each * (at as f64 + 0.5);
            text(&mut out, x, HEAD - 10.0, "middle", "normal", name);
        }
        for (row, (name, cells)) in self.rows.iter().enumerate() {
            let top = HEAD + HIGH * row as f64;
            text(&mut out, names - 8.0, top + 22.0, "end", "normal", name);
            for (at, cell) in cells.iter().enumerate() {
                square(&mut out, names + each * at as f64, top, each, cell);
            }
        }
        out.push_str("</svg>\n");
        out
    }
}

fn square(out: &mut String, x: f64, y: f64, wide: f64, cell: &Marked) {
    let (high, mark) = (HIGH, cell.mark);
    let dashed = if mark == Square::NotRead {
        " stroke-dasharray=\"4 3\""
    } else {
        ""
    };
    let heavy = if mark == Square::Thinnest { 3.5 } else { 0.8 };
    let inset = heavy / 2.0;
    let _ = writeln!(
        out,
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"{heavy}\"{dashed}/>",
        At(x + inset),
        At(y + inset),
        At(wide - heavy),
        At(high - heavy)
    );
    let mut path = String::new();
    match mark {
        Square::Thin | Square::Thinnest => {
            // Hatching above and below the number, so that it stays legible.
            for step in 0..=((wide - 8.0) / 5.6) as u32 {
                let from = x + 3.0 + f64::from(step) * 5.6;
                for (low, top) in [(y + 9.0, y + 3.0), (y + high - 3.0, y + high - 9.0)] {
                    let _ = write!(
                        path,
                        "M{} {}L{} {}",
                        At(from),
                        At(low),
                        At((from + 6.0).min(x + wide - 3.0)),
                        At(top)
                    );
                }
            }
        }
        Square::NoPlate => {
            let _ = write!(
                path,
                "M{x:.1} {y:.1}L{:.1} {:.1}M{x:.1} {:.1}L{:.1} {y:.1}",
                x + wide,
                y + high,
                y + high,
                x + wide
            );
        }
        Square::Plain | Square::NotRead => {}
    }
    if !path.is_empty() {
        let _ = writeln!(
            out,
            "<path d=\"{path}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.9\"/>"
        );
    }
    if cell.again {
        let _ = writeln!(
            out,
            "<path d=\"M{:.1} {y:.1}l-12 0l12 12z\" fill=\"currentColor\"/>",
            x + wide
        );
    }
    let weight = if matches!(mark, Square::Thin | Square::Thinnest) {
        "bold"
    } else {
        "normal"
    };
    let said = if cell.again {
        format!("{}?", cell.said)
    } else {
        cell.said.clone()
    };
    text(out, x + wide / 2.0, y + 22.0, "middle", weight, &said);
}

/// Pixels for an inch of sheet.
const INCH: f64 = 9.0;

impl StayMap {
    /// The map as an SVG element, to scale.
    pub fn svg(&self) -> String {
        let least =
            |pick: fn(&Stay) -> f64| self.stays.iter().map(pick).fold(f64::INFINITY, f64::min);
        let most = |pick: fn(&Stay) -> f64| {
            self.stays
                .iter()
                .map(pick)
                .fold(f64::NEG_INFINITY, f64::max)
        };
        let (left, right, low, top) =
            (least(|s| s.x), most(|s| s.x), least(|s| s.y), most(|s| s.y));
        if !(left.is_finite() && low.is_finite()) {
            return String::new();
        }
        let (names, head) = (room(self.rows.iter().map(|(name, _)| name.as_str())), 34.0);
        let place = |x: f64, y: f64| {
            (
                names + (x - left) * INCH + 16.0,
                head + (top - y) * INCH + 16.0,
            )
        };
        let wide = names + (right - left) * INCH + 36.0;
        let high = head + (top - low) * INCH + 36.0;
        let mut out = String::new();
        open(&mut out, wide, high, &self.told);
        for (name, y) in &self.rows {
            text(
                &mut out,
                names - 8.0,
                place(left, *y).1 + 5.0,
                "end",
                "normal",
                name,
            );
        }
        for (name, x) in &self.numbers {
            text(
                &mut out,
                place(*x, top).0,
                head - 10.0,
                "middle",
                "normal",
                name,
            );
        }
        for stay in &self.stays {
            let (x, y) = place(stay.x, stay.y);
            let _ = write!(out, "<g><title>{}</title>", escaped(&stay.told));
            let dashed = if stay.mark == StayMark::Unknown {
                " stroke-dasharray=\"3 2\""
            } else {
                ""
            };
            let fill = if stay.mark == StayMark::Broken {
                "currentColor"
            } else {
                "none"
            };
            let _ = write!(
                out,
                "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"8\" fill=\"{fill}\" stroke=\"currentColor\" stroke-width=\"1.4\"{dashed}/>"
            );
            match stay.mark {
                StayMark::Broken => {
                    let _ = write!(
                        out,
                        "<path d=\"M{:.1} {:.1}l24 24m0 -24l-24 24\" stroke=\"currentColor\" stroke-width=\"2\" fill=\"none\"/>",
                        x - 12.0,
                        y - 12.0
                    );
                }
                StayMark::Renewed => {
                    let _ = write!(
                        out,
                        "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"22\" height=\"22\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.2\"/>",
                        x - 11.0,
                        y - 11.0
                    );
                }
                StayMark::Sound | StayMark::Unknown => {}
            }
            let letter = if stay.mark == StayMark::Unknown {
                "?"
            } else {
                stay.letter.as_str()
            };
            if !letter.is_empty() && stay.mark != StayMark::Broken {
                text(&mut out, x, y + 5.0, "middle", "normal", letter);
            }
            out.push_str("</g>\n");
        }
        out.push_str("</svg>\n");
        out
    }
}
