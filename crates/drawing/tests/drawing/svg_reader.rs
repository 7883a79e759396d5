//! Reads a drawing back from its SVG, as one would with a ruler: points of arrows, figures, edges.

use drawing::{Drawing, UNITS};
use roxmltree::{Document, Node};

/// A point, inches of paper, y down.
pub type At = (f64, f64);

/// One dimension as it is on paper.
#[derive(Debug)]
pub struct Dimension {
    /// How many times as large as the part the paper is.
    pub times: f64,
    /// The points of its arrows.
    pub tips: Vec<At>,
    /// The radius of its arc, if it has one.
    pub radius: Option<f64>,
    /// Its lines of text.
    pub lines: Vec<String>,
    /// All corners of the edges in its view, and the ends of its center lines.
    pub corners: Vec<At>,
}

/// The SVG of a drawing that can be laid out.
pub fn svg(drawing: &Drawing) -> String {
    drawing.lay_out().unwrap().svg()
}

/// All dimensions of an SVG.
pub fn dimensions(text: &str) -> Vec<Dimension> {
    let document = Document::parse(text).unwrap();
    let mut found = Vec::new();
    for view in of_class(document.root(), "view") {
        let (paper, part) = view
            .attribute("data-scale")
            .unwrap()
            .split_once(':')
            .unwrap();
        let times = paper.parse::<f64>().unwrap() / part.parse::<f64>().unwrap();
        let corners: Vec<At> = ["outline", "hidden", "found", "neighbor", "center"]
            .iter()
            .flat_map(|layer| of_class(view, layer))
            .flat_map(|group| group.descendants())
            .flat_map(|shape| match shape.attribute("d") {
                Some(data) => points(data),
                None => reaches(shape),
            })
            .collect();
        for group in of_class(view, "dimension") {
            let paths = || group.children().filter(|n| n.has_tag_name("path"));
            found.push(Dimension {
                times,
                tips: paths()
                    .filter(|n| n.attribute("class") == Some("arrow"))
                    .map(|n| points(n.attribute("d").unwrap())[0])
                    .collect(),
                radius: paths().filter_map(|n| radius(n.attribute("d")?)).next(),
                lines: group
                    .children()
                    .filter(|n| n.has_tag_name("text"))
                    .map(|n| n.text().unwrap().to_owned())
                    .collect(),
                corners: corners.clone(),
            });
        }
    }
    found
}

fn of_class<'a>(within: Node<'a, 'a>, class: &'a str) -> Vec<Node<'a, 'a>> {
    within
        .descendants()
        .filter(|n| n.has_tag_name("g") && n.attribute("class") == Some(class))
        .collect()
}

/// The points of path data in which every number pair but those of arcs is a point.
fn points(data: &str) -> Vec<At> {
    let mut found = Vec::new();
    let mut words = data.split_whitespace();
    while let Some(word) = words.next() {
        match word.as_bytes()[0] {
            b'M' | b'L' => found.push((inches(&word[1..]), inches(words.next().unwrap()))),
            b'A' => {
                // The other radius, the turn and the two flags.
                let rest: Vec<&str> = words.by_ref().take(6).collect();
                found.push((inches(rest[4]), inches(rest[5])));
            }
            b'Z' => {}
            _ => panic!("unexpected {word} in {data}"),
        }
    }
    found
}

/// The left, right, top and bottom of a circle; nothing of what is none.
fn reaches(shape: Node) -> Vec<At> {
    let [Some(x), Some(y), Some(r)] = ["cx", "cy", "r"].map(|name| shape.attribute(name)) else {
        return Vec::new();
    };
    let [x, y, r] = [x, y, r].map(inches);
    vec![(x - r, y), (x + r, y), (x, y - r), (x, y + r)]
}

fn radius(data: &str) -> Option<f64> {
    let (_, arc) = data.split_once('A')?;
    arc.split_whitespace().next().map(inches)
}

fn inches(word: &str) -> f64 {
    word.parse::<f64>().unwrap() / UNITS
}
