//! Shows two answers as one list of lines: those only on the page, those only from the program, and those
//! of both.

/// The lines of both, each marked `-` (only in `old`), `+` (only in `new`) or a blank (in both).
pub fn lines(old: &[String], new: &[String]) -> String {
    // common[i][j]: the most lines that old[i..] and new[j..] share in order.
    let mut common = vec![vec![0usize; new.len() + 1]; old.len() + 1];
    for i in (0..old.len()).rev() {
        for j in (0..new.len()).rev() {
            common[i][j] = if old[i] == new[j] {
                common[i + 1][j + 1] + 1
            } else {
                common[i + 1][j].max(common[i][j + 1])
            };
        }
    }
    let mut text = String::new();
    let mut show =
        |mark: char, line: &str| text.push_str(&format!("  {mark} {}\n", with_blanks_seen(line)));
    let (mut i, mut j) = (0, 0);
    loop {
        match (old.get(i), new.get(j)) {
            (Some(a), Some(b)) if a == b => {
                show(' ', a);
                i += 1;
                j += 1;
            }
            (Some(a), b) if b.is_none() || common[i + 1][j] >= common[i][j + 1] => {
                show('-', a);
                i += 1;
            }
            (_, Some(b)) => {
                show('+', b);
                j += 1;
            }
            _ => return text,
        }
    }
}

/// A line whose blanks at the end can be seen, since they may be all that differs.
fn with_blanks_seen(line: &str) -> String {
    let kept = line.trim_end();
    format!(
        "{kept}{}",
        "·".repeat(line.chars().count() - kept.chars().count())
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_both_are_kept_together() {
        let list = |text: &str| text.split(' ').map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(
            lines(&list("a b c d"), &list("a x c d e")),
            "    a\n  - b\n  + x\n    c\n    d\n  + e\n"
        );
        assert_eq!(lines(&list("a b"), &[]), "  - a\n  - b\n");
        assert_eq!(lines(&[], &list("a b")), "  + a\n  + b\n");
        assert_eq!(lines(&[], &[]), "");
    }

    #[test]
    fn blanks_at_the_end_are_seen() {
        assert_eq!(
            lines(&["a".to_owned()], &["a  ".to_owned()]),
            "  - a\n  + a··\n"
        );
    }
}
