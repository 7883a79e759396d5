//! Splits a command line into words as a shell would, as far as a page needs it. What a shell would do
//! beyond that is refused, so that a line copied from a page does in a shell just what it did here.

/// Characters that ask a shell for more than words, unless they are quoted.
const MEANT_FOR_A_SHELL: &[char] = &[
    '|', '&', ';', '<', '>', '(', ')', '$', '`', '*', '?', '[', '{', '~', '#', '!',
];

/// The words of a command. `'..'` keeps everything, `".."` everything but `\"` and `\\`; a backslash
/// keeps the next character, and at the end of a line joins the next line. An error is a sentence.
pub fn split(command: &str) -> Result<Vec<String>, String> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut chars = command.chars();
    while let Some(c) = chars.next() {
        match c {
            '\'' => {
                let word = word.get_or_insert_default();
                loop {
                    match chars.next() {
                        Some('\'') => break,
                        Some(c) => word.push(c),
                        None => return Err("a quote ' is never closed".to_owned()),
                    }
                }
            }
            '"' => {
                let word = word.get_or_insert_default();
                loop {
                    match chars.next() {
                        Some('"') => break,
                        Some('\\') => match chars.next() {
                            Some(c @ ('"' | '\\' | '$' | '`')) => word.push(c),
                            Some(c) => word.extend(['\\', c]),
                            None => return Err("a quote \" is never closed".to_owned()),
                        },
                        Some(c @ ('$' | '`')) => return Err(refused(c)),
                        Some(c) => word.push(c),
                        None => return Err("a quote \" is never closed".to_owned()),
                    }
                }
            }
            '\\' => match chars.next() {
                Some('\n') => {}
                Some(c) => word.get_or_insert_default().push(c),
                None => return Err("the line ends in a backslash and no line follows".to_owned()),
            },
            c if c.is_whitespace() => words.extend(word.take()),
            // Inside a word these two are plain characters to a shell: 14#2, bore~.
            c @ ('#' | '~') if word.is_some() => word.get_or_insert_default().push(c),
            c if MEANT_FOR_A_SHELL.contains(&c) => return Err(refused(c)),
            c => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    Ok(words)
}

fn refused(c: char) -> String {
    format!("`{c}` means something to a shell; put it in quotes '..'")
}

/// A word that sets a variable of ours: its name and value.
pub fn variable(word: &str) -> Option<(&str, &str)> {
    let (name, value) = word.split_once('=')?;
    let ours = name.starts_with("OUTSHOP_")
        && name
            .chars()
            .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_');
    ours.then_some((name, value))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_split_as_a_shell_splits_them() {
        for (command, expected) in [
            ("outshop  due ", vec!["outshop", "due"]),
            (r#"a 'No. 14' "No. 27""#, vec!["a", "No. 14", "No. 27"]),
            (
                r#"bore='1 1/4"' pin=1-1/8in"#,
                vec![r#"bore=1 1/4""#, "pin=1-1/8in"],
            ),
            (r#"'a "b"'"'c'""#, vec![r#"a "b"'c'"#]),
            (r#""1/2\"" "a\\b" "a\n""#, vec!["1/2\"", "a\\b", "a\\n"]),
            (r"a\ b \'", vec!["a b", "'"]),
            ("a '' \"\" b", vec!["a", "", "", "b"]),
            ("a \\\n  b", vec!["a", "b"]),
            ("'$5 | *' a#b", vec!["$5 | *", "a#b"]),
            ("", vec![]),
        ] {
            assert_eq!(split(command).unwrap(), expected, "{command}");
        }
    }

    #[test]
    fn what_only_a_shell_can_do_is_refused() {
        for (command, what) in [
            ("a > b", "`>`"),
            ("a | b", "`|`"),
            ("a $B", "`$`"),
            ("\"$B\"", "`$`"),
            ("a *.csv", "`*`"),
            ("a # note", "`#`"),
            ("'open", "never closed"),
            ("\"open", "never closed"),
            ("\"open\\", "never closed"),
            ("a \\", "no line follows"),
        ] {
            assert!(split(command).unwrap_err().contains(what), "{command}");
        }
    }

    #[test]
    fn only_our_own_variables_are_set() {
        assert_eq!(
            variable("OUTSHOP_NOW=2026-05-02T09:00"),
            Some(("OUTSHOP_NOW", "2026-05-02T09:00"))
        );
        assert_eq!(variable("OUTSHOP_NOW="), Some(("OUTSHOP_NOW", "")));
        assert_eq!(variable("bore=1in"), None);
        assert_eq!(variable("OUTSHOP_now=1"), None);
        assert_eq!(variable("OUTSHOP_NOW"), None);
    }
}
