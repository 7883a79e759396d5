//! How a name of a formula is set: Greek letters as letters, digits and what follows an underscore low.

use super::shape::Shape;

/// The Greek letters by the names a formula spells them with. Those that look like Latin ones are left
/// out: nobody could tell them apart on a page.
const GREEK: [(&str, &str); 32] = [
    ("alpha", "α"),
    ("beta", "β"),
    ("gamma", "γ"),
    ("delta", "δ"),
    ("epsilon", "ε"),
    ("zeta", "ζ"),
    ("eta", "η"),
    ("theta", "θ"),
    ("kappa", "κ"),
    ("lambda", "λ"),
    ("mu", "μ"),
    ("nu", "ν"),
    ("xi", "ξ"),
    ("rho", "ρ"),
    ("sigma", "σ"),
    ("tau", "τ"),
    ("upsilon", "υ"),
    ("phi", "φ"),
    ("chi", "χ"),
    ("psi", "ψ"),
    ("omega", "ω"),
    ("Gamma", "Γ"),
    ("Delta", "Δ"),
    ("Theta", "Θ"),
    ("Lambda", "Λ"),
    ("Xi", "Ξ"),
    ("Pi", "Π"),
    ("Sigma", "Σ"),
    ("Upsilon", "Υ"),
    ("Phi", "Φ"),
    ("Psi", "Ψ"),
    ("Omega", "Ω"),
];

/// A name as it is set: `D2_min` is D with the index `2,min`, `alpha_w` is α with the index `w`.
pub(super) fn symbol(name: &str) -> Shape {
    let mut pieces = name.split('_').filter(|piece| !piece.is_empty());
    let head = pieces.next().unwrap_or(name);
    let digits = head.find(|c: char| c.is_ascii_digit()).filter(|at| *at > 0);
    let (base, tail) = digits.map_or((head, ""), |at| head.split_at(at));
    let low: Vec<&str> = std::iter::once(tail)
        .filter(|tail| !tail.is_empty())
        .chain(pieces)
        .map(letter)
        .collect();
    Shape::Symbol {
        base: letter(base).to_owned(),
        sub: (!low.is_empty()).then(|| low.join(",")),
    }
}

/// The Greek letter of that name, or the word itself.
fn letter(word: &str) -> &str {
    let known = GREEK.iter().find(|(name, _)| *name == word);
    known.map_or(word, |(_, letter)| letter)
}

/// A letter or word as it is said aloud: Greek letters by their names, and whether a single letter is
/// a capital, since a page often has both `D` and `d`.
pub(super) fn said(word: &str) -> String {
    if let Some((name, _)) = GREEK.iter().find(|(_, letter)| *letter == word) {
        let lower = name.to_lowercase();
        return if lower == *name {
            lower
        } else {
            format!("capital {lower}")
        };
    }
    let mut letters = word.chars();
    match (letters.next(), letters.next()) {
        (Some(only), None) if only.is_uppercase() => format!("capital {only}"),
        _ => word.to_owned(),
    }
}
