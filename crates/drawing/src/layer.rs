//! The layers of a drawing. Each has its own line, so that it means the same in black on white paper.

/// What a line or a text is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Layer {
    /// Section lining.
    Hatch,
    /// An edge that is seen.
    Outline,
    /// An edge behind metal.
    Hidden,
    /// The root of a thread, which no tool follows.
    Thread,
    /// An axis.
    Center,
    /// What was found and will be gone.
    Found,
    /// Metal to be taken off.
    Cut,
    /// A part beside this one, or one that is only shown for its place.
    Neighbor,
    /// Where the view ends and the metal does not.
    Break,
    /// Dimensions with their arrows.
    Dimension,
    /// Notes and the names of views.
    Text,
    /// The title block and the border.
    Title,
}

impl Layer {
    /// All of them, in the order in which they are drawn, one over the other.
    pub const ALL: [Layer; 12] = [
        Layer::Hatch,
        Layer::Thread,
        Layer::Center,
        Layer::Neighbor,
        Layer::Break,
        Layer::Cut,
        Layer::Outline,
        Layer::Hidden,
        Layer::Found,
        Layer::Dimension,
        Layer::Text,
        Layer::Title,
    ];

    /// Its name: in lower case a class of the SVG, in upper case a layer of the DXF.
    pub const fn name(self) -> &'static str {
        match self {
            Layer::Hatch => "hatch",
            Layer::Outline => "outline",
            Layer::Hidden => "hidden",
            Layer::Thread => "thread",
            Layer::Center => "center",
            Layer::Found => "found",
            Layer::Cut => "cut",
            Layer::Neighbor => "neighbor",
            Layer::Break => "break",
            Layer::Dimension => "dimension",
            Layer::Text => "text",
            Layer::Title => "title",
        }
    }

    /// How wide its line is, inches of paper. Two widths only: what is metal, and what speaks of it.
    pub const fn width(self) -> f64 {
        match self {
            Layer::Outline => 0.022,
            Layer::Found | Layer::Hidden => 0.014,
            Layer::Hatch => 0.006,
            _ => 0.009,
        }
    }

    /// Its dashes: stroke, gap, stroke, gap ... in inches of paper; none for an unbroken line.
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Layer::Hidden => &[0.08, 0.04],
            Layer::Found => &[0.10, 0.04],
            Layer::Center => &[0.26, 0.04, 0.06, 0.04],
            Layer::Neighbor => &[0.22, 0.04, 0.05, 0.04, 0.05, 0.04],
            _ => &[],
        }
    }
}
