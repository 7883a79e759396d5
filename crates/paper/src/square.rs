//! A text that a phone's camera reads: a square code (ISO/IEC 18004, QR code), as a plain picture.

use qrcode::{EcLevel, QrCode};

use crate::PaperError;

/// Modules of nothing on every side: the specification asks for four.
const QUIET: usize = 4;

/// The code as a picture, one unit a module. It still reads with some of it smeared (level M).
///
/// # Errors
/// A text too long for any such code.
pub fn svg(text: &str) -> Result<String, PaperError> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M)
        .map_err(|_| PaperError::Square(text.to_owned()))?;
    let wide = code.width();
    let mut dark = String::new();
    for (at, color) in code.to_colors().into_iter().enumerate() {
        if color == qrcode::Color::Dark {
            let (x, y) = (at % wide + QUIET, at / wide + QUIET);
            dark.push_str(&format!("M{x} {y}h1v1h-1z"));
        }
    }
    let all = wide + 2 * QUIET;
    Ok(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{all}\" height=\"{all}\" viewBox=\"0 0 {all} {all}\"><path d=\"{dark}\"/></svg>"
    ))
}
