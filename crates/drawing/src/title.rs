//! The title block: who made the drawing, of what, and what it stands on.

use crate::geometry::{Bounds, Path, Point};
use crate::label::text_width;
use crate::laid::{Item, Text};
use crate::layer::Layer;

/// The line that stands under every drawing.
pub const ADVICE: &str = "Advice only. The law in force, the code, the drawing of record and the \
    responsible officer govern.";

/// What is said of a fact that nobody gave.
const NOT_STATED: &str = "not stated";

/// What the title block says besides the scale and the unit, which the sheet knows. What is not known is `None`
/// and is printed as *not stated*.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Title {
    /// The shop.
    pub shop: Option<String>,
    /// What is drawn, in a few words: "Valve seat, before and after".
    pub drawing: String,
    /// The part it is for: "No. 14, right feed check".
    pub part: Option<String>,
    /// The number of the drawing or of the tool.
    pub number: Option<String>,
    /// What it is made of.
    pub material: Option<String>,
    /// How many are wanted.
    pub quantity: Option<String>,
    /// How the faces are to be left.
    pub finish: Option<String>,
    /// What is done with edges: "break .010".
    pub edges: Option<String>,
    /// The number of the part or the tool it goes with.
    pub mate: Option<String>,
    /// How closely sizes are kept that have no limits of their own: "±.005".
    pub unless: Option<String>,
    /// How far the part may run out to its datum A, the whole reading: ".001".
    pub runout: Option<String>,
    /// The day for which the sizes are true, as it is to be printed.
    pub as_of: Option<String>,
    /// The revision.
    pub revision: Option<String>,
    /// The worked sheets from which the sizes come.
    pub sheets: Vec<String>,
}

/// Height of the word over an entry, inches of paper.
const CAPTION: f64 = 0.088;
/// Height of an entry.
const ENTRY: f64 = 0.135;
/// Height of the drawing's name.
const NAME: f64 = 0.21;
/// An entry is not set smaller than this; what still does not fit is cut and ends in an ellipsis.
const SMALLEST: f64 = 0.09;
/// The part of the block's height that each row takes; the last is the line of advice.
const ROWS: [f64; 6] = [0.236, 0.172, 0.172, 0.172, 0.172, 0.076];

impl Title {
    /// The block in this box, in inches of paper.
    pub(crate) fn laid(&self, place: Bounds, scale: &str, unit: &str) -> Vec<Item> {
        let sheets = (!self.sheets.is_empty()).then(|| self.sheets.join(", "));
        let name = Some(self.drawing.clone());
        let rows = [
            vec![
                ("drawing", &name, 0.60),
                ("number", &self.number, 0.25),
                ("revision", &self.revision, 0.15),
            ],
            vec![
                ("part", &self.part, 0.47),
                ("material", &self.material, 0.38),
                ("quantity", &self.quantity, 0.15),
            ],
            vec![
                ("finish", &self.finish, 0.47),
                ("edges", &self.edges, 0.38),
                ("as of", &self.as_of, 0.15),
            ],
            vec![
                ("sizes without limits of their own", &self.unless, 0.36),
                ("runout to datum A, whole reading", &self.runout, 0.31),
                ("goes with", &self.mate, 0.33),
            ],
        ];
        let (scale, unit) = (Some(scale.to_owned()), Some(unit.to_owned()));
        let last = vec![
            ("shop", &self.shop, 0.36),
            ("drawn from", &sheets, 0.31),
            ("sizes in", &unit, 0.18),
            ("scale", &scale, 0.15),
        ];
        let mut items = Vec::new();
        let mut top = place.max.y;
        for (index, row) in rows.into_iter().chain([last]).enumerate() {
            let bottom = top - place.height() * ROWS.get(index).copied().unwrap_or(0.2);
            let mut left = place.min.x;
            for (caption, entry, part) in row {
                let right = left + place.width() * part;
                let cell = Bounds::of(Point::new(left, bottom), Point::new(right, top));
                if left > place.min.x {
                    items.push(rule(Point::new(left, bottom), Point::new(left, top)));
                }
                items.extend(entry_in(
                    cell,
                    caption,
                    entry.as_deref(),
                    index == 0 && part > 0.5,
                ));
                left = right;
            }
            items.push(rule(
                Point::new(place.min.x, bottom),
                Point::new(place.max.x, bottom),
            ));
            top = bottom;
        }
        let middle = (top + place.min.y) / 2.0 - CAPTION * 0.36;
        items.push(Item::text(
            Layer::Title,
            fitted(
                ADVICE,
                Point::new(place.min.x + 0.08, middle),
                place.width() - 0.16,
                0.11,
            ),
        ));
        items
    }
}

fn rule(from: Point, to: Point) -> Item {
    Item::path(Layer::Title, Path::line(from, to))
}

/// An entry with its caption over it.
fn entry_in(cell: Bounds, caption: &str, entry: Option<&str>, large: bool) -> Vec<Item> {
    let left = cell.min.x + 0.08;
    let room = cell.width() - 0.16;
    let height = if large { NAME } else { ENTRY };
    let top = Point::new(left, cell.max.y - 0.05 - CAPTION * 0.72);
    let foot = Point::new(left, cell.min.y + 0.07);
    let entry = entry.map(str::trim).filter(|entry| !entry.is_empty());
    vec![
        Item::text(Layer::Title, fitted(caption, top, room, CAPTION)),
        Item::text(
            Layer::Title,
            fitted(entry.unwrap_or(NOT_STATED), foot, room, height),
        ),
    ]
}

/// A text in this room: as high as wished if it fits, else smaller, else cut.
fn fitted(text: &str, at: Point, room: f64, height: f64) -> Text {
    let wide = text_width(text, height);
    let height = if wide <= room {
        height
    } else {
        (height * room / wide).max(SMALLEST.min(height))
    };
    let mut shown = text.to_owned();
    while text_width(&shown, height) > room && shown.pop().is_some() {
        let kept = shown.trim_end_matches('…').trim_end().len();
        shown.truncate(kept);
        shown.pop();
        shown.push('…');
    }
    Text::start(at, height, shown)
}
