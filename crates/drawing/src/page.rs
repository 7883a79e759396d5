//! A drawing for a page that is read on a screen: no border and no title block, since the page says all that, and
//! type that is never smaller than the page's own.
//!
//! There are two widths. The narrow one stacks the views, for a phone; the wide one puts the first beside the others.
//! Neither is meant to be measured with a ruler, so a view takes the largest of many scales, and none is printed.

use crate::error::DrawingError;
use crate::geometry::Point;
use crate::label::{FIGURE, text_width};
use crate::laid::{Item, Laid, LaidView, Text};
use crate::layer::Layer;
use crate::scale::Scale;
use crate::sheet::{Drawing, Fit, NAME, fit, laid, sample, sizes};
use crate::view::View;
use measure::{House, Rounding, show};

/// Screen pixels to an inch of paper: at this the smallest type, a dimension's, is 14 pixels high.
pub const PIXELS: f64 = 97.0;

/// How wide the page is on which a drawing is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PageWidth {
    /// A phone 390 pixels wide.
    Narrow,
    /// A desk, 800 pixels and more.
    Wide,
}

impl PageWidth {
    /// How wide a drawing for it usually is, inches of paper.
    pub fn usual(self) -> f64 {
        self.tries().first().copied().unwrap_or_default()
    }

    /// The widths that are tried, inches of paper. The first leaves the page its margins; a drawing that has no
    /// place for a dimension in that becomes wider, and never its type smaller.
    const fn tries(self) -> &'static [f64] {
        match self {
            PageWidth::Narrow => &[3.6, 4.2, 5.0, 6.0, 7.0, 9.0],
            PageWidth::Wide => &[7.0, 8.0, 9.0, 10.5],
        }
    }
}

/// Room kept round a view and at the edge.
const ROUND: f64 = 0.08;
/// The highest a view may be.
const HIGHEST: f64 = 4.4;
/// A view whose part is no larger than this is hard to read, however clear its dimensions are.
const SMALL: f64 = 0.9;
/// The part of the width that the first of several views takes: a detail has the longer dimensions.
const FIRST: f64 = 0.48;
/// Length of the sample of a line in the key.
const SAMPLE: f64 = 0.44;
/// From one row of the key to the next.
const ROW: f64 = 0.24;

impl Drawing {
    /// The drawing for a page of this width. The notes are left to the page: they are sentences.
    ///
    /// # Errors
    /// [`DrawingError`] when a view fits at no scale, or a dimension finds no place.
    pub fn for_page(&self, width: PageWidth) -> Result<Laid, DrawingError> {
        let mut last = None;
        for &wide in width.tries() {
            let beside = width == PageWidth::Wide && self.views.len() > 1;
            let tried = if beside {
                self.beside(wide).or_else(|_| self.stacked(wide))
            } else {
                self.stacked(wide)
            };
            match tried {
                Ok(laid) => return Ok(laid),
                Err(why) => last = Some(why),
            }
        }
        Err(last.unwrap_or(DrawingError::Room {
            view: self.title.drawing.clone(),
            largest: String::new(),
            smallest: String::new(),
        }))
    }

    /// One view under the other.
    fn stacked(&self, wide: f64) -> Result<Laid, DrawingError> {
        let room = Point::new(wide - 2.0 * ROUND, HIGHEST);
        let fits = self.views.iter().map(|view| fit(view, room, &scales()));
        let fits = fits.collect::<Result<Vec<_>, _>>()?;
        let mut top = -ROUND;
        let mut columns = Vec::new();
        for fit in fits {
            let height = fit.all.height();
            columns.push((fit, Point::new(wide / 2.0, top)));
            top -= height + 3.2 * NAME;
        }
        Ok(self.put(wide, top, columns))
    }

    /// The first view on the left, the others under each other on the right.
    fn beside(&self, wide: f64) -> Result<Laid, DrawingError> {
        let first = wide * FIRST;
        let mut columns = Vec::new();
        let mut feet = [-ROUND, -ROUND];
        for (number, view) in self.views.iter().enumerate() {
            let (column, middle, room) = if number == 0 {
                (0, first / 2.0, first)
            } else {
                (1, first + (wide - first) / 2.0, wide - first)
            };
            let room = Point::new(room - 2.0 * ROUND, HIGHEST);
            let fit = fit(view, room, &scales())?;
            if fit.part.width().max(fit.part.height()) < SMALL {
                return Err(DrawingError::Crowded {
                    view: view.name.clone(),
                    text: view.name.clone(),
                });
            }
            let top = feet[column];
            feet[column] -= fit.all.height() + 3.2 * NAME;
            columns.push((fit, Point::new(middle, top)));
        }
        Ok(self.put(wide, feet[0].min(feet[1]), columns))
    }

    /// The fitted views put in their places, each by the middle of its top, and the key under them all from `foot` on.
    fn put(&self, wide: f64, foot: f64, columns: Vec<(Fit, Point)>) -> Laid {
        let key = self.key_rows(wide);
        let high = -foot + ROW * key.len() as f64 + ROUND;
        let up = Point::new(0.0, high);
        let first = columns.first().map_or(Scale::FULL, |(fit, _)| fit.scale);
        let views: Vec<LaidView> = self
            .views
            .iter()
            .zip(columns)
            .map(|(view, (fit, top))| {
                let name = title(view, fit.scale, first);
                let at = top + up;
                let shift = Point::new(at.x - fit.all.center().x, at.y - fit.all.max.y);
                let foot = Point::new(at.x, at.y - fit.all.height() - 1.6 * NAME);
                laid(view, fit, shift, name, foot)
            })
            .collect();
        let mut frame = Vec::new();
        for (number, row) in key.iter().enumerate() {
            let level = high + foot - ROW * (number as f64 + 0.4);
            let each = (wide - 2.0 * ROUND) / row.len() as f64;
            for (column, (layer, words)) in row.iter().enumerate() {
                let left = Point::new(ROUND + each * column as f64, level);
                frame.extend(sample(
                    *layer,
                    left + Point::new(0.0, FIGURE * 0.3),
                    FIGURE * 0.7,
                    SAMPLE,
                ));
                let at = left + Point::new(SAMPLE + 0.07, 0.0);
                frame.push(Item::text(Layer::Text, Text::start(at, FIGURE, *words)));
            }
        }
        let unit = match self.house {
            House::Inch => "inches",
            House::Metric => "millimetres",
        };
        let said: Vec<String> = views
            .iter()
            .map(|view| format!("{}: {}.", view.name, sizes(view)))
            .collect();
        Laid {
            width: wide,
            height: high,
            house: self.house,
            name: self.title.drawing.clone(),
            description: format!("Sizes in {unit}. {}", said.join(" ")),
            views,
            frame,
        }
    }

    /// The key in rows of as many as there is room for.
    fn key_rows(&self, wide: f64) -> Vec<Vec<(Layer, &'static str)>> {
        let widest = self.key.iter().map(|(_, words)| text_width(words, FIGURE));
        let each = widest.fold(0.0, f64::max) + SAMPLE + 0.07 + 0.1;
        let most = (1..=4)
            .rev()
            .find(|n| f64::from(*n) * each <= wide - 2.0 * ROUND);
        let columns = most.unwrap_or(1) as usize;
        self.key.chunks(columns).map(<[_]>::to_vec).collect()
    }
}

/// The name of a view, and how much it is enlarged from the first.
fn title(view: &View, scale: Scale, first: Scale) -> String {
    let times = scale.times() / first.times();
    if (times - 1.0).abs() < 0.05 {
        return view.name.clone();
    }
    let times = show::number(times, 1, Rounding::Nearest);
    format!(
        "{}, {} times the section",
        view.name,
        times.trim_end_matches(".0")
    )
}

/// The scales for a screen, the largest first.
fn scales() -> Vec<Scale> {
    let steps = [10, 8, 6, 5, 4, 3];
    let fine = [25, 20, 15, 12];
    let mut scales = Vec::new();
    for (paper, part) in [(100, 1), (10, 1), (1, 1), (1, 10), (1, 100)] {
        scales.extend(steps.map(|step| Scale {
            paper: step * paper,
            part,
        }));
        scales.extend(fine.map(|step| Scale {
            paper: step * paper,
            part: part * 10,
        }));
    }
    scales
}
