//! What a dimension says, and how much room it takes to say it.

use measure::{Angle, House, Length, Rounding, Size, show};

/// Height of a figure in a dimension, inches of paper; the height of type, of which a capital takes seven tenths.
pub const FIGURE: f64 = 0.145;

/// From one line of a text to the next, as a part of its height.
pub const LEADING: f64 = 1.15;

/// The part of the type's height that a capital or a figure takes.
pub const CAPITAL: f64 = 0.72;

/// How far a size may be from the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// As much over as under.
    Either(Length),
    /// So much over, and so much under; either may be nothing.
    OverUnder(Length, Length),
}

/// The lines of text at a dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// From top to bottom.
    pub lines: Vec<String>,
}

impl Label {
    /// A label of these words as they are.
    pub fn words(text: impl Into<String>) -> Label {
        Label {
            lines: vec![text.into()],
        }
    }

    /// A length: `5/32 · .15625` where it is a fraction of the shop's, `.1264` where it is not, `3.969` in a
    /// metric house. The unit stands once, in the title block.
    pub fn length(length: Length, house: House) -> Label {
        Label::words(length_text(length, house))
    }

    /// A length in two lines, the fraction over its decimal; one line where there is only one to say.
    pub fn stacked(length: Length, house: House) -> Label {
        Label {
            lines: length_text(length, house)
                .split(" · ")
                .map(str::to_owned)
                .collect(),
        }
    }

    /// A diameter.
    pub fn diameter(length: Length, house: House) -> Label {
        Label::length(length, house).after("Ø ")
    }

    /// A diameter in two lines.
    pub fn stacked_diameter(length: Length, house: House) -> Label {
        Label::stacked(length, house).after("Ø ")
    }

    /// An angle in degrees, to the hundredth, without zeros that say nothing: `45°`, `44.5°`, `14.04°`.
    pub fn angle(angle: Angle) -> Label {
        let text = show::number(angle.to_degrees(), 2, Rounding::Nearest);
        Label::words(format!(
            "{}°",
            text.trim_end_matches('0').trim_end_matches('.')
        ))
    }

    /// The label with `word` before its first line.
    pub fn after(mut self, word: &str) -> Label {
        if let Some(first) = self.lines.first_mut() {
            first.insert_str(0, word);
        }
        self
    }

    /// The label with one more line under it.
    pub fn over(mut self, line: impl Into<String>) -> Label {
        self.lines.push(line.into());
        self
    }

    /// The label with its tolerance in a last line.
    pub fn within(self, tolerance: Tolerance, house: House) -> Label {
        let text = |length: Length| match house {
            House::Inch => decimal(length, house, 4),
            House::Metric => decimal(length, house, 3),
        };
        self.over(match tolerance {
            Tolerance::Either(by) => format!("±{}", text(by)),
            Tolerance::OverUnder(over, under) => format!("+{} -{}", text(over), text(under)),
        })
    }

    /// How wide it is, inches of paper.
    pub fn width(&self) -> f64 {
        self.lines
            .iter()
            .map(|line| text_width(line, FIGURE))
            .fold(0.0, f64::max)
    }

    /// How high it is, inches of paper, from the top of the first line's figures to the foot of the last.
    pub fn height(&self) -> f64 {
        let more = self.lines.len().saturating_sub(1) as f64;
        FIGURE * (CAPITAL + more * LEADING)
    }
}

/// A length as it stands on a drawing. One that a law gave is rounded to a ten-thousandth (a thousandth of a
/// millimetre); one that the shop can write exactly is written so.
fn length_text(length: Length, house: House) -> String {
    let exact = Size::nearest_to(length)
        // Half a tick is the most the rounding moves it; a length further off than dust is not that size.
        .filter(|size| {
            (size.length().to_m() - length.to_m()).abs() < 1e-12 * length.to_m().abs().max(1e-3)
        });
    match house {
        House::Inch => match exact.and_then(|size| Some((show::fraction_in(size)?, size))) {
            Some((fraction, _)) if !fraction.contains('/') => fraction,
            Some((fraction, size)) => format!("{fraction} · {}", show::decimal_in(size)),
            None => decimal(length, house, 4),
        },
        House::Metric => {
            let text = decimal(length, house, 3);
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        }
    }
}

/// The decimals of a length in the house unit, without the unit's name.
fn decimal(length: Length, house: House, places: u32) -> String {
    let text = show::length(length, house, places, Rounding::Nearest);
    text.split(' ').next().unwrap_or_default().to_owned()
}

/// How wide a line of text is, in the unit of `height`, in a plain sans such as most machines have.
///
/// The widths, in thousandths of the type's height, are from memory of a common sans; the SVG writer sets each
/// text to exactly this width, so that another font cannot make two texts touch.
pub fn text_width(text: &str, height: f64) -> f64 {
    let thousandths: u32 = text.chars().map(advance).sum();
    f64::from(thousandths) / 1000.0 * height
}

fn advance(c: char) -> u32 {
    match c {
        'i' | 'j' | 'l' | '\'' | '|' => 225,
        ' ' | '.' | ',' | ':' | ';' | '/' | '·' | 'f' | 't' | 'I' | '!' => 280,
        '-' | 'r' | '(' | ')' | '[' | ']' => 335,
        '°' | '"' => 400,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 500,
        'w' | 'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 725,
        'A' | 'B' | 'E' | 'K' | 'P' | 'S' | 'V' | 'X' | 'Y' | 'F' | 'T' | 'Z' => 670,
        'G' | 'O' | 'Q' | 'Ø' => 780,
        'm' | 'M' => 835,
        'W' | '%' | '@' => 950,
        '+' | '=' | '±' | '×' | '<' | '>' => 585,
        // Figures, the other small letters, and a guess for what is none of these.
        c if c.is_ascii() => 556,
        _ => 700,
    }
}
