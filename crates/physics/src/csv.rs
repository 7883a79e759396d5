//! Reads the small comma-separated files that carry our evidence and our tables.
//!
//! The files are our own and are compiled in: a heading row, fields quoted with `"` where they hold
//! a comma, lines that begin with `#` for people only.

/// The rows after the heading, each as long as the heading, with the line number each began on.
///
/// # Errors
/// A sentence naming the line whose fields do not match the heading.
pub fn rows(text: &str, heading: &[&str]) -> Result<Vec<(usize, Vec<String>)>, String> {
    let mut lines = text
        .lines()
        .enumerate()
        .map(|(at, line)| (at + 1, line))
        .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'));
    let (at, first) = lines.next().ok_or_else(|| "the file is empty".to_owned())?;
    let read = fields(first);
    if read != heading {
        return Err(format!(
            "line {at}: the heading is {read:?}, expected {heading:?}"
        ));
    }
    lines
        .map(|(at, line)| {
            let read = fields(line);
            if read.len() == heading.len() {
                Ok((at, read))
            } else {
                Err(format!(
                    "line {at}: {} fields, expected {}",
                    read.len(),
                    heading.len()
                ))
            }
        })
        .collect()
}

/// One line's fields. A quote inside a quoted field is written twice.
fn fields(line: &str) -> Vec<String> {
    let mut fields = vec![String::new()];
    let mut quoted = false;
    let mut characters = line.chars().peekable();
    while let Some(c) = characters.next() {
        match c {
            '"' if quoted && characters.peek() == Some(&'"') => {
                characters.next();
                push(&mut fields, '"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(String::new()),
            c => push(&mut fields, c),
        }
    }
    fields.iter().map(|field| field.trim().to_owned()).collect()
}

fn push(fields: &mut [String], c: char) {
    if let Some(last) = fields.last_mut() {
        last.push(c);
    }
}
