//! The formula in words, for a screen reader and for the text alternative of a page of type. Each bar,
//! root and bracket is closed in words wherever anything follows, so that it can be heard one way only.

use super::name::said;
use super::shape::Shape;

impl Shape {
    /// The shape in words: `a equals the arc tangent of the fraction b all over c, end of fraction`.
    pub fn spoken(&self) -> String {
        say(self, true)
    }
}

/// `last` says that nothing follows to which a short form could be stretched.
fn say(shape: &Shape, last: bool) -> String {
    match shape {
        Shape::Number { text } => text.clone(),
        Shape::Symbol { base, sub: None } => said(base),
        Shape::Symbol {
            base,
            sub: Some(sub),
        } => {
            let low: Vec<String> = sub.split(',').map(said).collect();
            format!("{} sub {}", said(base), low.join("-"))
        }
        Shape::Pi => "pi".to_owned(),
        Shape::Degrees { of } => format!("{} degrees", say(of, last)),
        Shape::Row { of } => row(of, last),
        Shape::Sign { sign } => sign_word(sign).to_owned(),
        Shape::Fraction { above, below } => {
            if last && plain(above) && plain(below) {
                format!("{} over {}", say(above, true), say(below, true))
            } else {
                let (above, below) = (say(above, false), say(below, false));
                format!("the fraction {above} all over {below}, end of fraction")
            }
        }
        Shape::Root { index, of } => {
            let kind = if index.is_some() { "cube" } else { "square" };
            if last && plain(of) {
                format!("the {kind} root of {}", say(of, true))
            } else {
                let end = "end of root";
                format!("the {kind} root of all of {}, {end}", say(of, false))
            }
        }
        Shape::Power { base, exponent } => power(base, exponent),
        Shape::Brackets { of } => format!("open bracket {} close bracket", say(of, false)),
        Shape::Absolute { of } => {
            format!("the size of {}, end of size", say(of, false))
        }
        Shape::Call { word, of } => call(word, of, last),
        Shape::List { of } => {
            let items: Vec<String> = of.iter().map(|item| say(item, false)).collect();
            items.join(" and ")
        }
    }
}

fn row(of: &[Shape], last: bool) -> String {
    let worked = |part: &Shape| matches!(part, Shape::Sign { sign } if *sign != "=");
    let alone = !of.iter().any(worked);
    let mut words = Vec::new();
    for (at, part) in of.iter().enumerate() {
        let ends = at + 1 == of.len() && last;
        // A fraction beside other things is always closed: "a plus b over c" is heard two ways.
        let short = ends && (alone || !matches!(part, Shape::Fraction { .. }));
        words.push(say(part, short));
    }
    words.join(" ")
}

fn power(base: &Shape, exponent: &Shape) -> String {
    let base = say(base, false);
    match exponent {
        Shape::Number { text } if text == "2" => format!("{base} squared"),
        Shape::Number { text } if text == "3" => format!("{base} cubed"),
        other if plain(other) => format!("{base} to the power {}", say(other, true)),
        other => format!(
            "{base} to the power of all of {}, end of power",
            say(other, false)
        ),
    }
}

fn call(word: &str, of: &Shape, last: bool) -> String {
    let inside = match of {
        Shape::Brackets { of } => of,
        other => other,
    };
    match (word, inside) {
        ("round", Shape::List { of }) => {
            let mut items = of.iter().map(|item| say(item, false));
            let (value, places) = (items.next(), items.next());
            let (value, places) = (value.unwrap_or_default(), places.unwrap_or_default());
            format!("the value {value}, rounded to {places} decimal places")
        }
        ("min", list) => format!("the least of {}, end of list", say(list, false)),
        ("max", list) => format!("the greatest of {}, end of list", say(list, false)),
        (word, inside) => {
            let name = match word {
                "sin" => "sine",
                "cos" => "cosine",
                "tan" => "tangent",
                "arcsin" => "arc sine",
                "arccos" => "arc cosine",
                "arctan" => "arc tangent",
                other => other,
            };
            let held = matches!(inside, Shape::Absolute { .. } | Shape::Fraction { .. });
            if last && plain(inside) {
                format!("the {name} of {}", say(inside, true))
            } else if held {
                format!("the {name} of {}", say(inside, false))
            } else {
                format!(
                    "the {name} of open bracket {} close bracket",
                    say(inside, false)
                )
            }
        }
    }
}

/// One number, letter or angle: a word or two that cannot be torn apart.
fn plain(shape: &Shape) -> bool {
    matches!(
        shape,
        Shape::Number { .. } | Shape::Symbol { .. } | Shape::Pi | Shape::Degrees { .. }
    )
}

fn sign_word(sign: &str) -> &'static str {
    match sign {
        "=" => "equals",
        "+" => "plus",
        "×" => "times",
        _ => "minus",
    }
}
