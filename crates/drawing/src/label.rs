//! What a dimension says, and how much room it takes to say it.

use measure::{Angle, House, Length, Rounding, Size, show};

/// Height of a figure in a dimension, inches of paper; the height of type, of which a capital takes seven tenths.
pub const FIGURE: f64 = 0.145;

/// From one line of a text to the next, as a part of its height.
pub const LEADING: f64 = 1.15;

/// The part of the type's height that a capital or a figure takes.
pub const CAPITAL: f64 = 0.72;

/// How far a size may be from the drawing, and how that is written.
///
/// Written as ASME Y14.5 and ISO 129-1 have it (both from memory): a size and its tolerance have the same count of
/// decimals, the greater of two limits stands over the less, a size given for information stands in brackets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// As much over as under: `.6250 ±.0005`.
    Either(Length),
    /// So much over, and so much under; either may be nothing: `.6250`, `+.0000 -.0005`.
    OverUnder(Length, Length),
    /// Not under the first and not over the second: `.6250` over `.6245`.
    Limits(Length, Length),
    /// No tolerance: it follows from other sizes and is not to be worked to. In brackets.
    Reference,
}

/// A size, and how closely it is to be kept where somebody has said so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// The size, to which the part is drawn.
    pub size: Length,
    /// How closely.
    pub within: Option<Tolerance>,
}

impl From<Length> for Kept {
    fn from(size: Length) -> Kept {
        Kept { size, within: None }
    }
}

impl Kept {
    /// A size that is to be kept so closely.
    pub const fn within(size: Length, tolerance: Tolerance) -> Kept {
        Kept {
            size,
            within: Some(tolerance),
        }
    }

    /// A size that follows from others: said in brackets and not to be worked to.
    pub const fn reference(size: Length) -> Kept {
        Kept::within(size, Tolerance::Reference)
    }
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

    /// An angle and how far it may be off either way.
    pub fn angle_within(angle: Angle, within: Option<Angle>) -> Label {
        let mut label = Label::angle(angle);
        if let (Some(within), Some(line)) = (within, label.lines.first_mut()) {
            line.push_str(&Label::angle(within).after(" ±").lines.concat());
        }
        label
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

    /// A computed size, rounded in the direction that does not flatter: what is taken off up, what is left down.
    /// Always decimals, as many as a worked sheet shows, so that sheet and drawing read alike.
    pub fn rounded(length: Length, house: House, rounding: Rounding) -> Label {
        let text = show::length(length, house, places(house), rounding);
        Label::words(text.split(' ').next().unwrap_or_default())
    }

    /// A number as a sheet prints it, in the way of a drawing: in inches nothing stands before the point.
    pub fn stated(text: &str, house: House) -> Label {
        let bare = match (house, text.strip_prefix("0.")) {
            (House::Inch, Some(decimals)) => format!(".{decimals}"),
            _ => text.to_owned(),
        };
        Label::words(bare)
    }

    /// A size with its tolerance, `sign` (`Ø ` or nothing) before each figure; without one, as [`Label::stacked`].
    pub fn kept(length: Length, tolerance: Option<Tolerance>, sign: &str, house: House) -> Label {
        let Some(tolerance) = tolerance else {
            return Label::stacked(length, house).after(sign);
        };
        let of = |lengths: &[Length]| {
            let need = lengths.iter().map(|length| decimals(*length, house));
            need.fold(places(house), u32::max)
        };
        let text = |length: Length, places| decimal(length, house, places);
        let lines = match tolerance {
            Tolerance::Either(by) => {
                let places = of(&[length, by]);
                vec![format!(
                    "{sign}{} ±{}",
                    text(length, places),
                    text(by, places)
                )]
            }
            Tolerance::OverUnder(over, under) => {
                let places = of(&[length, over, under]);
                let by = format!("+{} -{}", text(over, places), text(under, places));
                vec![format!("{sign}{}", text(length, places)), by]
            }
            Tolerance::Limits(least, most) => {
                let places = of(&[least, most]);
                vec![
                    format!("{sign}{}", text(most, places)),
                    format!("{sign}{}", text(least, places)),
                ]
            }
            Tolerance::Reference => {
                let plain = length_text(length, house);
                let figure = plain.split(" · ").last().unwrap_or_default();
                vec![format!("({sign}{figure})")]
            }
        };
        Label { lines }
    }

    /// The label under a name; a line break parts a long name.
    pub fn named(mut self, name: &str) -> Label {
        let name = name.split('\n').filter(|line| !line.is_empty());
        self.lines.splice(0..0, name.map(str::to_owned));
        self
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
            None => decimal(length, house, places(house)),
        },
        House::Metric => {
            let text = decimal(length, house, places(house));
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        }
    }
}

/// How many decimals a computed size has.
const fn places(house: House) -> u32 {
    match house {
        House::Inch => 4,
        House::Metric => 3,
    }
}

/// How many decimals a length needs to be written as it is, up to seven: one that needs more is rounded there.
fn decimals(length: Length, house: House) -> u32 {
    let value = match house {
        House::Inch => length.to_inches(),
        House::Metric => length.to_m() * 1000.0,
    };
    let exact = |places: &u32| {
        let text = show::number(value, *places, Rounding::Nearest);
        let written: f64 = text.parse().unwrap_or(f64::NAN);
        (written - value).abs() < 1e-10
    };
    (0..7).find(exact).unwrap_or(7)
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
