//! A thread as a print calls it out: what it is, and the limits of its three diameters.

use super::need;
use crate::error::DrawingError;
use crate::geometry::{Path, Point};
use crate::label::Label;
use crate::layer::Layer;
use crate::view::View;
use measure::{House, Length, Rounding};

/// The limits of a diameter; either may be open, as that of a new nut's major diameter is upward.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Limits {
    /// Not under this.
    pub least: Option<Length>,
    /// Not over this.
    pub most: Option<Length>,
}

impl Limits {
    /// The limit at which it is drawn: the one with the most metal of a nut (least), of a screw (most).
    fn drawn(self, of_a_nut: bool) -> Option<Length> {
        if of_a_nut {
            self.least.or(self.most)
        } else {
            self.most.or(self.least)
        }
    }

    /// As it stands in the call-out; what nobody stated is said so.
    fn said(self, house: House) -> String {
        let text = |length| {
            Label::rounded(length, house, Rounding::Nearest)
                .lines
                .concat()
        };
        match (self.least, self.most) {
            (Some(least), Some(most)) => format!("{} to {}", text(least), text(most)),
            (Some(least), None) => format!("{} or over", text(least)),
            (None, Some(most)) => format!("{} or under", text(most)),
            (None, None) => "not stated".to_owned(),
        }
    }
}

/// A thread: what it is called, and its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadCall {
    /// What it is, with its hand and its starts; a line break parts them: "1 1/4-5 Acme", "right hand, 1 start".
    pub named: String,
    /// Major diameter.
    pub major: Limits,
    /// Pitch diameter.
    pub pitch: Limits,
    /// Minor diameter.
    pub minor: Limits,
}

impl ThreadCall {
    /// The call-out.
    pub(super) fn label(&self, house: House) -> Label {
        let mut label = Label {
            lines: self.named.lines().map(str::to_owned).collect(),
        };
        for (what, limits) in [
            ("major", self.major),
            ("pitch dia.", self.pitch),
            ("minor", self.minor),
        ] {
            label = label.over(format!("{what} {}", limits.said(house)));
        }
        label
    }

    /// The radii at which it is drawn, inches: minor and major.
    ///
    /// # Errors
    /// [`DrawingError::Size`] when major or minor has no limit at all, limits cross, or the minor is not the lesser.
    pub(super) fn radii(&self, of_a_nut: bool, house: House) -> Result<(f64, f64), DrawingError> {
        let named = [
            ("the major diameter of the thread", self.major),
            ("the pitch diameter of the thread", self.pitch),
            ("the minor diameter of the thread", self.minor),
        ];
        for (name, limits) in named {
            if let (Some(least), Some(most)) = (limits.least, limits.most)
                && least.to_m() > most.to_m()
            {
                return Err(DrawingError::Size {
                    name,
                    given: limits.said(house),
                    expected: "the least before the most".to_owned(),
                });
            }
        }
        let size = |name: &'static str, limits: Limits| {
            let drawn = limits.drawn(of_a_nut).ok_or(DrawingError::Size {
                name,
                given: "not stated".to_owned(),
                expected: "at least one of its limits".to_owned(),
            })?;
            need::size(name, drawn, house)?;
            Ok(drawn)
        };
        let minor = size("the minor diameter of the thread", self.minor)?;
        let major = size("the major diameter of the thread", self.major)?;
        let larger = "more than the minor diameter";
        let major = need::more(
            "the major diameter of the thread",
            major,
            minor,
            larger,
            house,
        )?;
        Ok((minor.to_inches() / 2.0, major / 2.0))
    }
}

/// The roots of a thread between two places of the axis, above and below it, as a thin line each.
pub(super) fn roots(view: &mut View, from: f64, to: f64, radius: f64, sides: &[f64]) {
    for side in sides {
        let at = |x: f64| Point::new(x, radius * side);
        view.line(Layer::Thread, Path::line(at(from), at(to)));
    }
}
