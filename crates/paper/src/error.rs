//! Why a page could not be set. It is never the reader's fault: what they typed is data to a page.

/// A page could not be set.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PaperError {
    /// A template, a font or the typesetter failed.
    #[error("The page could not be set, and that is a fault of this program: {0}.")]
    Set(String),
    /// A number for people has characters that no barcode of ours can hold.
    #[error(
        "`{0}` cannot be drawn as a barcode: 1 to 40 plain letters, figures and signs were expected."
    )]
    Barcode(String),
    /// A text is too long for a square code.
    #[error("`{0}` is too long for a square code that a phone can read.")]
    Square(String),
}
