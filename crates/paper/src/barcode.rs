//! A number that a hand reader can read: Code 128, code set B, drawn as plain bars.
//!
//! Source: ISO/IEC 15417, the symbology specification of Code 128. The table of widths is from memory; each of its
//! rows is held by the tests against the independent encoder `barcoders` 2.0, and the printed cards were read by
//! an independent decoder (`docs/decisions/0012-papers.md`).

use crate::PaperError;

/// Widths of bar, space, bar, space, bar, space in modules, by value.
const WIDTHS: [[u8; 6]; 106] = [
    [2, 1, 2, 2, 2, 2],
    [2, 2, 2, 1, 2, 2],
    [2, 2, 2, 2, 2, 1],
    [1, 2, 1, 2, 2, 3],
    [1, 2, 1, 3, 2, 2],
    [1, 3, 1, 2, 2, 2],
    [1, 2, 2, 2, 1, 3],
    [1, 2, 2, 3, 1, 2],
    [1, 3, 2, 2, 1, 2],
    [2, 2, 1, 2, 1, 3],
    [2, 2, 1, 3, 1, 2],
    [2, 3, 1, 2, 1, 2],
    [1, 1, 2, 2, 3, 2],
    [1, 2, 2, 1, 3, 2],
    [1, 2, 2, 2, 3, 1],
    [1, 1, 3, 2, 2, 2],
    [1, 2, 3, 1, 2, 2],
    [1, 2, 3, 2, 2, 1],
    [2, 2, 3, 2, 1, 1],
    [2, 2, 1, 1, 3, 2],
    [2, 2, 1, 2, 3, 1],
    [2, 1, 3, 2, 1, 2],
    [2, 2, 3, 1, 1, 2],
    [3, 1, 2, 1, 3, 1],
    [3, 1, 1, 2, 2, 2],
    [3, 2, 1, 1, 2, 2],
    [3, 2, 1, 2, 2, 1],
    [3, 1, 2, 2, 1, 2],
    [3, 2, 2, 1, 1, 2],
    [3, 2, 2, 2, 1, 1],
    [2, 1, 2, 1, 2, 3],
    [2, 1, 2, 3, 2, 1],
    [2, 3, 2, 1, 2, 1],
    [1, 1, 1, 3, 2, 3],
    [1, 3, 1, 1, 2, 3],
    [1, 3, 1, 3, 2, 1],
    [1, 1, 2, 3, 1, 3],
    [1, 3, 2, 1, 1, 3],
    [1, 3, 2, 3, 1, 1],
    [2, 1, 1, 3, 1, 3],
    [2, 3, 1, 1, 1, 3],
    [2, 3, 1, 3, 1, 1],
    [1, 1, 2, 1, 3, 3],
    [1, 1, 2, 3, 3, 1],
    [1, 3, 2, 1, 3, 1],
    [1, 1, 3, 1, 2, 3],
    [1, 1, 3, 3, 2, 1],
    [1, 3, 3, 1, 2, 1],
    [3, 1, 3, 1, 2, 1],
    [2, 1, 1, 3, 3, 1],
    [2, 3, 1, 1, 3, 1],
    [2, 1, 3, 1, 1, 3],
    [2, 1, 3, 3, 1, 1],
    [2, 1, 3, 1, 3, 1],
    [3, 1, 1, 1, 2, 3],
    [3, 1, 1, 3, 2, 1],
    [3, 3, 1, 1, 2, 1],
    [3, 1, 2, 1, 1, 3],
    [3, 1, 2, 3, 1, 1],
    [3, 3, 2, 1, 1, 1],
    [3, 1, 4, 1, 1, 1],
    [2, 2, 1, 4, 1, 1],
    [4, 3, 1, 1, 1, 1],
    [1, 1, 1, 2, 2, 4],
    [1, 1, 1, 4, 2, 2],
    [1, 2, 1, 1, 2, 4],
    [1, 2, 1, 4, 2, 1],
    [1, 4, 1, 1, 2, 2],
    [1, 4, 1, 2, 2, 1],
    [1, 1, 2, 2, 1, 4],
    [1, 1, 2, 4, 1, 2],
    [1, 2, 2, 1, 1, 4],
    [1, 2, 2, 4, 1, 1],
    [1, 4, 2, 1, 1, 2],
    [1, 4, 2, 2, 1, 1],
    [2, 4, 1, 2, 1, 1],
    [2, 2, 1, 1, 1, 4],
    [4, 1, 3, 1, 1, 1],
    [2, 4, 1, 1, 1, 2],
    [1, 3, 4, 1, 1, 1],
    [1, 1, 1, 2, 4, 2],
    [1, 2, 1, 1, 4, 2],
    [1, 2, 1, 2, 4, 1],
    [1, 1, 4, 2, 1, 2],
    [1, 2, 4, 1, 1, 2],
    [1, 2, 4, 2, 1, 1],
    [4, 1, 1, 2, 1, 2],
    [4, 2, 1, 1, 1, 2],
    [4, 2, 1, 2, 1, 1],
    [2, 1, 2, 1, 4, 1],
    [2, 1, 4, 1, 2, 1],
    [4, 1, 2, 1, 2, 1],
    [1, 1, 1, 1, 4, 3],
    [1, 1, 1, 3, 4, 1],
    [1, 3, 1, 1, 4, 1],
    [1, 1, 4, 1, 1, 3],
    [1, 1, 4, 3, 1, 1],
    [4, 1, 1, 1, 1, 3],
    [4, 1, 1, 3, 1, 1],
    [1, 1, 3, 1, 4, 1],
    [1, 1, 4, 1, 3, 1],
    [3, 1, 1, 1, 4, 1],
    [4, 1, 1, 1, 3, 1],
    [2, 1, 1, 4, 1, 2],
    [2, 1, 1, 2, 1, 4],
    [2, 1, 1, 2, 3, 2],
];
const STOP: [u8; 7] = [2, 3, 3, 1, 1, 1, 2];
const START_B: usize = 104;
/// Modules of nothing on either side: the specification asks for ten.
const QUIET: u32 = 10;
/// Modules high; only the width carries anything.
const HIGH: u32 = 44;

/// The widths of bars and spaces in turn, from the first bar to the last.
///
/// # Errors
/// A text that is empty, over 40 characters, or has others than printable ASCII.
pub fn widths(text: &str) -> Result<Vec<u8>, PaperError> {
    let refused = || PaperError::Barcode(text.to_owned());
    let mut values = vec![START_B];
    for c in text.chars() {
        if !(' '..='~').contains(&c) {
            return Err(refused());
        }
        values.push(c as usize - ' ' as usize);
    }
    if !(2..=41).contains(&values.len()) {
        return Err(refused());
    }
    // The start counts once, then each character by its place.
    let weighed = values.iter().enumerate().map(|(at, v)| at.max(1) * v);
    values.push(weighed.sum::<usize>() % 103);
    let mut all = Vec::new();
    for value in values {
        all.extend(WIDTHS.get(value).ok_or_else(refused)?);
    }
    all.extend(STOP);
    Ok(all)
}

/// The barcode as a picture, one unit a module, with the quiet zones on both sides.
///
/// # Errors
/// As [`widths`].
pub fn svg(text: &str) -> Result<String, PaperError> {
    let widths = widths(text)?;
    let mut bars = String::new();
    let mut at = QUIET;
    for (turn, width) in widths.into_iter().map(u32::from).enumerate() {
        if turn % 2 == 0 {
            bars.push_str(&format!("M{at} 0h{width}v{HIGH}h-{width}z"));
        }
        at += width;
    }
    let wide = at + QUIET;
    Ok(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}\" height=\"{HIGH}\" viewBox=\"0 0 {wide} {HIGH}\"><path d=\"{bars}\"/></svg>"
    ))
}
