//! The formula as MathML Core (W3C), presentation markup only: what browsers set without help. No style
//! and no colour; a page's own sheet decides those.

use super::shape::Shape;

impl Shape {
    /// A whole `<math>` element, to stand inside HTML on a line of its own, with the formula in words as its
    /// text alternative.
    pub fn mathml(&self) -> String {
        block(&self.spoken(), &self.mathml_part())
    }

    /// The shape as one MathML element, to stand inside a `<math>` element.
    pub fn mathml_part(&self) -> String {
        match self {
            Shape::Number { text } => element("mn", &escaped(text)),
            Shape::Symbol { base, sub: None } => element("mi", &escaped(base)),
            Shape::Symbol {
                base,
                sub: Some(sub),
            } => element(
                "msub",
                &format!("{}{}", element("mi", &escaped(base)), low(sub)),
            ),
            Shape::Pi => element("mi", "π"),
            Shape::Degrees { of } => element(
                "mrow",
                &format!("{}<mo form=\"postfix\">°</mo>", of.mathml_part()),
            ),
            Shape::Row { of } => element(
                "mrow",
                &of.iter().map(Shape::mathml_part).collect::<String>(),
            ),
            Shape::Sign { sign } => element("mo", sign),
            Shape::Fraction { above, below } => {
                element("mfrac", &(above.mathml_part() + &below.mathml_part()))
            }
            Shape::Root { index: None, of } => element("msqrt", &of.mathml_part()),
            Shape::Root {
                index: Some(index),
                of,
            } => element("mroot", &format!("{}<mn>{index}</mn>", of.mathml_part())),
            Shape::Power { base, exponent } => {
                element("msup", &(base.mathml_part() + &exponent.mathml_part()))
            }
            Shape::Brackets { of } => fenced("(", of, ")"),
            Shape::Absolute { of } => fenced("|", of, "|"),
            Shape::Call { word, of } => {
                // U+2061 says that a function is applied; it has no width, so a bare argument is set off.
                let gap = if matches!(**of, Shape::Brackets { .. }) {
                    ""
                } else {
                    "<mspace width=\"0.17em\"/>"
                };
                let inside = format!("<mi>{word}</mi><mo>\u{2061}</mo>{gap}{}", of.mathml_part());
                element("mrow", &inside)
            }
            Shape::List { of } => {
                let items: Vec<String> = of.iter().map(Shape::mathml_part).collect();
                element("mrow", &items.join("<mo separator=\"true\">,</mo>"))
            }
        }
    }
}

/// A `<math>` element on a line of its own around `inside`, with `spoken` as its text alternative.
pub(crate) fn block(spoken: &str, inside: &str) -> String {
    format!(
        "<math display=\"block\" alttext=\"{}\">{inside}</math>",
        escaped(spoken)
    )
}

fn element(name: &str, inside: &str) -> String {
    format!("<{name}>{inside}</{name}>")
}

fn fenced(open: &str, of: &Shape, close: &str) -> String {
    let inside = of.mathml_part();
    element(
        "mrow",
        &format!("<mo form=\"prefix\">{open}</mo>{inside}<mo form=\"postfix\">{close}</mo>"),
    )
}

/// An index: digits upright, letters as letters, parts with commas between.
fn low(sub: &str) -> String {
    let part = |part: &str| {
        let number = part.starts_with(|c: char| c.is_ascii_digit());
        element(if number { "mn" } else { "mi" }, &escaped(part))
    };
    let parts: Vec<String> = sub.split(',').map(part).collect();
    match parts.as_slice() {
        [only] => only.clone(),
        several => element("mrow", &several.join("<mo separator=\"true\">,</mo>")),
    }
}

/// Text made safe inside an element or a quoted attribute.
pub(crate) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            other => safe.push(other),
        }
    }
    safe
}
