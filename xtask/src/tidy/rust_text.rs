//! Takes Rust text apart just far enough to tell code from comments and from string literals, so that a
//! word in a comment is not taken for a use, nor a word in code for SQL.

/// A source file seen twice over: as code alone, and as its string literals.
pub struct RustText {
    /// The code, with comments and the insides of literals blanked out; line breaks are kept, so a line
    /// here is the same line there.
    pub code: String,
    /// Each string literal with the line it starts on and its text as written (escapes untouched).
    pub literals: Vec<(usize, String)>,
}

impl RustText {
    /// Takes `text` apart. Text that is not valid Rust gives something harmless, never a panic.
    pub fn of(text: &str) -> RustText {
        let mut scanner = Scanner {
            chars: text.chars().collect(),
            at: 0,
            line: 1,
            code: String::new(),
            literals: Vec::new(),
        };
        scanner.scan();
        RustText {
            code: scanner.code,
            literals: scanner.literals,
        }
    }
}

/// Whether a character can be part of a Rust name.
pub fn in_name(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Where `word` stands in `text` as a whole word: byte offsets.
pub fn words<'t>(text: &'t str, word: &'t str) -> impl Iterator<Item = usize> + 't {
    text.match_indices(word)
        .map(|(at, _)| at)
        .filter(move |at| {
            let before = text[..*at].chars().next_back();
            let after = text[at + word.len()..].chars().next();
            !before.is_some_and(in_name) && !after.is_some_and(in_name)
        })
}

/// The line (counted from 1) on which a byte offset stands.
pub fn line_of(text: &str, offset: usize) -> usize {
    1 + text[..offset].matches('\n').count()
}

struct Scanner {
    chars: Vec<char>,
    at: usize,
    line: usize,
    code: String,
    literals: Vec<(usize, String)>,
}

impl Scanner {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).copied()
    }

    /// Steps over one character, keeping it as code or blanking it out.
    fn step(&mut self, keep: bool) -> Option<char> {
        let c = self.peek(0)?;
        self.at += 1;
        if c == '\n' {
            self.line += 1;
        }
        self.code.push(if keep || c == '\n' { c } else { ' ' });
        Some(c)
    }

    fn scan(&mut self) {
        while let Some(c) = self.peek(0) {
            match (c, self.peek(1)) {
                ('/', Some('/')) => self.line_comment(),
                ('/', Some('*')) => self.block_comment(),
                ('"', _) => self.string(),
                ('\'', _) => self.quote(),
                _ if in_name(c) => self.name_or_raw_string(),
                _ => {
                    self.step(true);
                }
            }
        }
    }

    fn line_comment(&mut self) {
        while self.peek(0).is_some_and(|c| c != '\n') {
            self.step(false);
        }
    }

    /// Block comments nest in Rust.
    fn block_comment(&mut self) {
        let mut depth = 0;
        loop {
            match (self.peek(0), self.peek(1)) {
                (Some('/'), Some('*')) => {
                    depth += 1;
                    self.step(false);
                }
                (Some('*'), Some('/')) => {
                    depth -= 1;
                    self.step(false);
                }
                (None, _) => return,
                _ => {}
            }
            self.step(false);
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) {
        let line = self.line;
        let mut inside = String::new();
        self.step(true);
        while let Some(c) = self.peek(0) {
            if c == '"' {
                self.step(true);
                break;
            }
            inside.extend(self.step(false));
            if c == '\\' {
                inside.extend(self.step(false));
            }
        }
        self.literals.push((line, inside));
    }

    /// A quote opens a character ('a', '\n') or names a lifetime ('a).
    fn quote(&mut self) {
        if self.peek(1) == Some('\\') {
            self.step(true);
            self.step(false);
            self.step(false);
            while self.peek(0).is_some_and(|c| c != '\'' && c != '\n') {
                self.step(false);
            }
            self.step(true);
        } else if self.peek(2) == Some('\'') {
            self.step(true);
            self.step(false);
            self.step(true);
        } else {
            self.step(true);
        }
    }

    /// A whole name at once, so that the `r` of `for"` is not taken for a raw string; a raw string if the
    /// name is one of the prefixes and hashes or a quote follow.
    fn name_or_raw_string(&mut self) {
        let from = self.at;
        while self.peek(0).is_some_and(in_name) {
            self.step(true);
        }
        let name: String = self.chars[from..self.at].iter().collect();
        if !matches!(name.as_str(), "r" | "br" | "cr") {
            return;
        }
        let hashes = self.chars[self.at..]
            .iter()
            .take_while(|c| **c == '#')
            .count();
        if self.peek(hashes) != Some('"') {
            return;
        }
        let line = self.line;
        let mut inside = String::new();
        for _ in 0..=hashes {
            self.step(true);
        }
        while let Some(c) = self.peek(0) {
            if c == '"' && (1..=hashes).all(|ahead| self.peek(ahead) == Some('#')) {
                for _ in 0..=hashes {
                    self.step(true);
                }
                break;
            }
            inside.extend(self.step(false));
        }
        self.literals.push((line, inside));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_are_blanked_and_lines_stay_where_they_were() {
        let text = RustText::of("a // one\n/* two /* three */\nfour */ b\n");
        assert_eq!(
            text.code,
            format!(
                "a {}\n{}\n{} b\n",
                " ".repeat(6),
                " ".repeat(18),
                " ".repeat(7)
            )
        );
    }

    #[test]
    fn literals_are_taken_out_with_their_lines() {
        let text =
            RustText::of("let a = \"x \\\" // y\";\nlet b = r#\"say \"hi\"\"#; // \"no\"\nb\"z\"");
        assert_eq!(
            text.literals,
            [
                (1, "x \\\" // y".into()),
                (2, "say \"hi\"".into()),
                (3, "z".into())
            ]
        );
        assert!(!text.code.contains("hi") && text.code.contains("let b"));
    }

    #[test]
    fn lifetimes_and_quote_characters_do_not_open_strings() {
        let text =
            RustText::of("fn f<'a>(c: &'a str) { g('\"', '\\'', '\\u{22}', 'x') } // end\nnext");
        assert!(text.literals.is_empty());
        assert!(text.code.contains("fn f<'a>(c: &'a str)") && text.code.ends_with("next"));
        assert!(!text.code.contains("end"));
    }

    #[test]
    fn an_unclosed_literal_or_comment_ends_with_the_file() {
        for text in ["\"open", "r##\"open\"#", "/* open", "'\\", "'"] {
            assert_eq!(
                RustText::of(text).code.chars().count(),
                text.chars().count(),
                "{text}"
            );
        }
    }

    #[test]
    fn whole_words_only() {
        assert_eq!(
            words("rules rulesy _rules (rules)", "rules").collect::<Vec<_>>(),
            [0, 21]
        );
        assert_eq!(line_of("a\nb\nc", 4), 3);
    }
}
