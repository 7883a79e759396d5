//! Makes every text printable: a character for which we have no letter is written out by its number, so that
//! nothing somebody wrote is lost without a sign.

use serde_json::Value;

/// The same data with each text as it can be printed: a character without a letter becomes `[U+4E2D]`.
pub fn readable(data: Value, has: &impl Fn(char) -> bool) -> Value {
    match data {
        Value::String(text) => Value::String(printable(&text, has)),
        Value::Array(all) => Value::Array(all.into_iter().map(|one| readable(one, has)).collect()),
        Value::Object(all) => {
            let mut kept = serde_json::Map::new();
            for (key, value) in all {
                kept.insert(key, readable(value, has));
            }
            Value::Object(kept)
        }
        other => other,
    }
}

fn printable(text: &str, has: &impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.replace("\r\n", "\n").chars() {
        match c {
            '\n' => out.push(c),
            '\t' => out.push(' '),
            // Some characters are in a font for a program's private use, or steer the direction of
            // writing: a page that is read in twenty years holds neither.
            c if c.is_control() || private(c) || steers(c) || !has(c) => {
                out.push_str(&format!("[U+{:04X}]", u32::from(c)));
            }
            c => out.push(c),
        }
    }
    out
}

fn private(c: char) -> bool {
    matches!(u32::from(c), 0xE000..=0xF8FF | 0xF0000..)
}

fn steers(c: char) -> bool {
    matches!(u32::from(c), 0xAD | 0x200B..=0x200F | 0x2028..=0x202E | 0x2060..=0x206F | 0xFE00..=0xFE0F | 0xFEFF)
}
