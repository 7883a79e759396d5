//! The findings of the demonstration, one by one: each is carried by verbs from where it stands to its close, or is
//! shown to be rightly held, with what holds it. Read the texts of `findings/` in their order; they are one book.
//!
//! A line that begins `@` says when and who speaks. A line that stands at the margin is typed, and is done; after
//! `refused` (or `refused 2`) it ends with 1 (or 2) and nothing is saved; after `tells` it may end with 1, which says
//! that something stops her. A line set in says what the answer holds, after `not` what it does not. `rest I-001 ...`
//! answers each item that is open with the words after it.
//!
//! Sizes are the demonstration's own, invented. The figures of law in the answers are 49 CFR Part 230, 2015 edition, at
//! the section that stands beside each.

use std::process::Output;

use crate::run::Folder;

const TEXTS: &[(&str, &str)] = &[
    ("bushing", include_str!("findings/01-bushing.txt")),
    ("plug", include_str!("findings/02-plug.txt")),
    ("valve", include_str!("findings/03-valve.txt")),
    ("left check", include_str!("findings/04-left-check.txt")),
    ("crosshead", include_str!("findings/05-crosshead.txt")),
    ("second course", include_str!("findings/06-course.txt")),
    ("tires", include_str!("findings/07-tires.txt")),
    ("annual", include_str!("findings/08-annual.txt")),
    ("telltale", include_str!("findings/09-telltale.txt")),
    ("all of them", include_str!("findings/10-all-of-them.txt")),
    ("november", include_str!("findings/11-november.txt")),
];

/// A book that texts are played on: who speaks and when, and what was answered last.
struct Stage {
    folder: Folder,
    now: String,
    by: String,
    said: String,
}

impl Stage {
    fn typed(&self, words: &[String]) -> Output {
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let mut command = self.folder.command(&words);
        let command = command.env("OUTSHOP_NOW", &self.now);
        command.env("OUTSHOP_BY", &self.by).output().unwrap()
    }

    /// Types a line and holds it to how it must end.
    fn does(&mut self, line: &str, ends: &[i32], at: &str) {
        let before = if ends.contains(&0) {
            None
        } else {
            Some(self.folder.head())
        };
        let output = self.typed(&split(line));
        self.said = plain(&String::from_utf8([output.stdout, output.stderr].concat()).unwrap());
        let code = output.status.code().unwrap();
        assert!(ends.contains(&code), "{at}: {line}: {code}: {}", self.said);
        if let Some(before) = before {
            assert!(
                self.said.contains("Nothing was saved."),
                "{at}: {}",
                self.said
            );
            assert_eq!(self.folder.head(), before, "{at}: {line} moved the head");
        }
    }

    /// Answers every open item of an inspection.
    fn rest(&mut self, line: &str, at: &str) {
        let (number, answer) = line.split_once(' ').unwrap();
        let shown = self.folder.json(&["inspect", "show", number]);
        let items = shown["items"].as_array().unwrap();
        let open: Vec<_> = items.iter().filter(|it| it["answer"] == "open").collect();
        assert!(!open.is_empty(), "{at}: none is open");
        for item in open {
            let rule = item["rule"].as_str().unwrap();
            self.does(
                &format!("inspect answer {number} {rule} {answer}"),
                &[0],
                at,
            );
        }
    }

    fn play(&mut self, name: &str, text: &str) {
        for (at, line) in (1..).zip(text.lines()) {
            let at = format!("{name}, line {at}");
            if let Some(wanted) = line.strip_prefix("    ") {
                let (is, words) = wanted.split_once(' ').unwrap();
                let holds = self.said.contains(&plain(words));
                assert!(["says", "not"].contains(&is), "{at}: {line}");
                assert_eq!(holds, is == "says", "{at}: {line}: {}", self.said);
            } else if let Some(turn) = line.strip_prefix("@ ") {
                let (now, by) = turn.split_once(' ').unwrap();
                (self.now, self.by) = (now.into(), by.into());
            } else if line.is_empty() || line.starts_with('#') {
                // Prose.
            } else if let Some(line) = line.strip_prefix("refused 2 ") {
                self.does(line, &[2], &at);
            } else if let Some(line) = line.strip_prefix("refused ") {
                self.does(line, &[1], &at);
            } else if let Some(line) = line.strip_prefix("tells ") {
                self.does(line, &[0, 1], &at);
            } else if let Some(line) = line.strip_prefix("rest ") {
                self.rest(line, &at);
            } else {
                self.does(line, &[0], &at);
            }
        }
    }
}

/// However the lines are broken.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Words of a line; what stands between double quotes is one.
fn split(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    for (at, piece) in line.split('"').enumerate() {
        if at % 2 == 1 {
            words.last_mut().unwrap().push_str(piece);
            continue;
        }
        for (nth, word) in piece.split(' ').enumerate() {
            if nth > 0 {
                words.push(String::new());
            }
            words.last_mut().unwrap().push_str(word);
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn each_finding_of_the_demonstration_is_closed_or_rightly_held() {
    let folder = Folder::new("findings");
    folder.done(&["demo", "--no-serve", "--book", "shop.book"]);
    let mut stage = Stage {
        folder,
        now: String::new(),
        by: String::new(),
        said: String::new(),
    };
    for (name, text) in TEXTS {
        stage.play(name, text);
    }
    let checked = stage.folder.json(&["check"]);
    assert_eq!(checked["differences"], serde_json::json!([]));
}
