//! What every source file owes its reader: it opens with what it is for, it is no longer than can be read,
//! it is finished, and it leans on nothing outside the repository.

use super::rust_text::{RustText, line_of, words};
use super::tree::Tree;
use super::{KEEPS_THE_WORDS, Problem};

/// Past this many lines a file is split, or says in its header why not.
const LONGEST: usize = 800;

/// How a header says why its file is long; a reason follows.
const REASON: &str = "long because";

/// Words by which a person leaves work for later.
const UNFINISHED: &[&str] = &["TODO", "FIXME"];

/// Code that stands in for work not done, or sets a test aside.
const STAND_INS: &[&str] = &["todo!", "unimplemented!", "#[ignore"];

/// Marks of things that are not in this repository. Written in halves, so that this file passes its own check.
const ELSEWHERE: &[&str] = &[
    concat!("../", "shared"),
    concat!("/work/", "shared"),
    concat!("/work/", "main"),
    concat!("seed ", "document"),
];

/// Every source file opens with a `//!` line that says something.
pub fn opens_with_purpose(tree: &Tree) -> Vec<Problem> {
    tree.rust()
        .filter(|(_, text)| {
            text.lines()
                .next()
                .and_then(|line| line.strip_prefix("//!"))
                .is_none_or(|purpose| purpose.trim().is_empty())
        })
        .map(|(path, _)| {
            Problem::new(
                path,
                1,
                "the file does not open with a `//!` line saying what it is for",
            )
        })
        .collect()
}

/// A file longer than can be read at a sitting says in its header why.
pub fn is_not_too_long(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.rust() {
        let lines = text.lines().count();
        let header: String = text
            .lines()
            .take_while(|line| line.starts_with("//!"))
            .collect::<Vec<_>>()
            .join(" ")
            .to_lowercase();
        let reason = header
            .split_once(REASON)
            .map(|(_, reason)| reason.trim_matches([' ', ':', '.']));
        if lines > LONGEST && reason.is_none_or(str::is_empty) {
            let sentence = format!(
                "{lines} lines; at {LONGEST} split the file, or say in its header `Long because` and why"
            );
            problems.push(Problem::new(path, LONGEST + 1, sentence));
        }
    }
    problems
}

/// Nothing is left for later: no such words in any text, no stand-in code, no test set aside.
pub fn is_finished(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree
        .texts()
        .filter(|(path, _)| !path.starts_with(KEEPS_THE_WORDS))
    {
        for word in UNFINISHED {
            for at in words(text, word) {
                problems.push(Problem::new(
                    path,
                    line_of(text, at),
                    format!("`{word}`: finish it, or write down as a decision that it is left out"),
                ));
            }
        }
        if path.ends_with(".rs") {
            let code = RustText::of(text).code;
            for word in STAND_INS {
                for (at, _) in code.match_indices(word) {
                    let in_another_name = code[..at]
                        .chars()
                        .next_back()
                        .is_some_and(super::rust_text::in_name);
                    if !in_another_name {
                        problems.push(Problem::new(
                            path,
                            line_of(&code, at),
                            format!("`{word}`: code and tests are whole or they are not there"),
                        ));
                    }
                }
            }
        }
    }
    problems
}

/// No file speaks of places or papers that a fresh clone does not have.
pub fn stands_alone(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.texts() {
        for (number, line) in (1..).zip(text.lines()) {
            let line = line.to_lowercase();
            if ELSEWHERE.iter().any(|mark| line.contains(mark)) {
                problems.push(Problem::new(
                    path,
                    number,
                    "speaks of something that is not in this repository; say here what is needed",
                ));
            }
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    #[test]
    fn a_file_says_first_what_it_is_for() {
        assert!(
            says(
                opens_with_purpose,
                &[("a.rs", "//! Reads a size.\n"), ("b.md", "text")]
            )
            .is_empty()
        );
        for text in [
            "",
            "//!\n//! late\n",
            "\n//! late\n",
            "use std::fs;\n//! late\n",
            "// plain\n",
        ] {
            let found = says(opens_with_purpose, &[("a.rs", text)]);
            assert_eq!(
                found,
                ["a.rs:1: the file does not open with a `//!` line saying what it is for"],
                "{text:?}"
            );
        }
    }

    #[test]
    fn a_long_file_gives_a_reason() {
        let body = "x\n".repeat(800);
        let long = |header: &str| says(is_not_too_long, &[("a.rs", &format!("{header}\n{body}"))]);
        assert!(says(is_not_too_long, &[("a.rs", &body)]).is_empty());
        assert!(long("//! Sizes. Long because: the table of forms is read as one.").is_empty());
        assert_eq!(long("//! Sizes.").len(), 1);
        assert_eq!(long("//! Sizes. Long because.").len(), 1);
    }

    #[test]
    fn nothing_is_left_for_later() {
        assert_eq!(says(is_finished, &[("notes.md", "a\nTODO: b")]).len(), 1);
        assert_eq!(
            says(
                is_finished,
                &[("a.rs", "fn f() { todo!() }\n#[ignore = \"slow\"]\n// FIXME")]
            )
            .len(),
            3
        );
        assert!(
            says(
                is_finished,
                &[(
                    "a.rs",
                    "// never write todo!() here\nmytodo!(); let s = \"#[ignore]\";"
                )]
            )
            .is_empty()
        );
        assert!(says(is_finished, &[("a.md", "METODO, todo, TODOS")]).is_empty());
    }

    #[test]
    fn nothing_outside_is_leaned_on() {
        for mark in ELSEWHERE {
            let found = says(stands_alone, &[("docs/a.md", &format!("x\nSee {mark}."))]);
            assert_eq!(found.len(), 1, "{mark}");
            assert!(found[0].starts_with("docs/a.md:2: "));
        }
        assert!(
            says(
                stands_alone,
                &[("docs/a.md", "the shared pin; seed ids; ../rulebook")]
            )
            .is_empty()
        );
    }
}
