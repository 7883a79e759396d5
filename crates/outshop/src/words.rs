//! Words that more than one screen or paper says, so that they are said alike everywhere.

/// Stands under every number someone may trust with their life.
pub const STANDING: &str =
    "Advice only. The law in force, the code, the drawing and the responsible officer govern.";

/// A day as people read it.
pub fn day(date: jiff::civil::Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// `1 service day`, `2 service days`.
pub fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}
