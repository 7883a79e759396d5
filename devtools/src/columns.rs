//! Rows of words set out in columns, for a terminal.

/// Sets rows out under a heading. The first column and those named in `left` stand at the left; the
/// others hold figures and stand at the right.
///
/// # Arguments
/// `heading`: one word a column. `rows`: as many words each; a missing one stays blank.
pub fn columns(heading: &[&str], left: &[usize], rows: &[Vec<String>]) -> String {
    let heading: Vec<String> = heading.iter().map(|word| word.to_string()).collect();
    let all = || std::iter::once(&heading).chain(rows);
    let widths: Vec<usize> = (0..heading.len())
        .map(|at| {
            let lengths = all().map(|row| row.get(at).map_or(0, |word| word.chars().count()));
            lengths.max().unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for row in all() {
        let mut line = String::new();
        for (at, width) in widths.iter().copied().enumerate() {
            let word = row.get(at).map_or("", String::as_str);
            if at == 0 || left.contains(&at) {
                line.push_str(&format!("  {word:<width$}"));
            } else {
                line.push_str(&format!("  {word:>width$}"));
            }
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::columns;

    #[test]
    fn words_stand_left_and_figures_right() {
        let rows = [
            vec!["due".to_string(), "4.25".to_string()],
            vec!["finding show".to_string()],
        ];
        let text = columns(&["verb", "ms"], &[], &rows);
        assert_eq!(
            text,
            "  verb            ms\n  due           4.25\n  finding show\n"
        );
    }
}
