//! What can be wrong with a drawing that was asked for.

/// Why no drawing was made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DrawingError {
    /// A size or an angle from which nothing can be drawn.
    #[error("{name} is {given}; {expected} was expected. No drawing was made.")]
    Size {
        /// Which size.
        name: &'static str,
        /// What was given, as it prints.
        given: String,
        /// What would do.
        expected: String,
    },
    /// A worked sheet's figure is not that of the sizes to be drawn.
    #[error(
        "{name} is stated as {stated}, and the sizes give {drawn}: sheet and drawing must say one thing. No drawing was made."
    )]
    Stated {
        /// Which size.
        name: &'static str,
        /// What the sheet says.
        stated: String,
        /// What the geometry says.
        drawn: String,
    },
    /// It fits its place on the sheet at no standard scale.
    #[error(
        "`{view}` fits its place on the sheet at no standard scale from {largest} to {smallest}; a part between a few thousandths of an inch and some forty feet was expected. No drawing was made."
    )]
    Room {
        /// The view that does not fit.
        view: String,
        /// The first scale tried.
        largest: String,
        /// The last scale tried.
        smallest: String,
    },
    /// A dimension found no place.
    #[error(
        "there is no room for the dimension `{text}` in `{view}`. No drawing was made; this is a fault of the drawing, not of the sizes."
    )]
    Crowded {
        /// The view.
        view: String,
        /// What the dimension says.
        text: String,
    },
}
