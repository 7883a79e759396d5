//! What a reader sees on a page stands in `crates/outshop/src/words/`, not among the markup.
//!
//! Two signs give a word away. In the content of `html!` every literal with a letter is read by somebody.
//! Elsewhere in the pages' code one that holds two words, or begins as a sentence does, most likely is. Values
//! of attributes that no reader sees, paths, patterns and the names of verbs are not words.

use super::Problem;
use super::rust_text::{RustText, in_name, line_of};
use super::tree::Tree;

/// Where the pages are.
const PAGES: &str = "crates/outshop/src/web/";
/// Where the verbs are named that a form may ask for; they hold blanks, and nobody reads them.
const FORMS: &str = "crates/outshop/src/web/form.rs";
/// The list in it.
const VERBS: &str = "const ASKED:";

/// Attributes whose values are shown or read out.
const SEEN: &[&str] = &[
    "aria-label",
    "aria-description",
    "alt",
    "data-label",
    "label",
    "placeholder",
    "title",
];

/// No page holds words of its own.
pub fn stand_in_one_place(tree: &Tree) -> Vec<Problem> {
    let verbs = tree
        .rust()
        .find(|(path, _)| *path == FORMS)
        .map(|(_, text)| verbs(text))
        .unwrap_or_default();
    let mut problems = Vec::new();
    for (path, text) in tree.rust().filter(|(path, _)| path.starts_with(PAGES)) {
        for (line, word) in seen(text) {
            if !verbs.contains(&word) {
                let sentence =
                    format!("\"{word}\": what a reader sees stands in crates/outshop/src/words/");
                problems.push(Problem::new(path, line, sentence));
            }
        }
    }
    problems
}

/// The verbs that forms may ask for.
fn verbs(forms: &str) -> Vec<String> {
    let Some((_, list)) = forms.split_once(VERBS) else {
        return Vec::new();
    };
    let list = list.split_once("];").map_or(list, |(list, _)| list);
    let literals = RustText::of(list).literals;
    literals.into_iter().map(|(_, verb)| verb).collect()
}

/// Where the walk through the code stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Within {
    /// Plain Rust, where a literal may be anything.
    Code,
    /// The content of a page.
    Content,
    /// What nobody reads: an attribute of Rust, `#[allow(..)]`, or the value of one that is not shown,
    /// `class=(..)`.
    Unread,
}

/// Literals of one file that a reader would see, with their lines.
fn seen(text: &str) -> Vec<(usize, String)> {
    // What follows is for the tests of the file, which no reader sees.
    let text = text.split("\n#[cfg(test)]").next().unwrap_or(text);
    let taken = RustText::of(text);
    let code: Vec<char> = taken.code.chars().collect();
    let mut literals = taken.literals.into_iter();
    let mut within = vec![Within::Code];
    // After `@` a condition, a pattern or a `let` follows, in Rust.
    let mut rust = false;
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(&c) = code.get(at) {
        let here = within.last().copied().unwrap_or(Within::Code);
        match c {
            '"' => {
                let end = end_of_literal(&code, at);
                let Some((_, word)) = literals.next() else {
                    break;
                };
                let content = here == Within::Content && !rust;
                let pattern = after(&code, end + 1).starts_with("=>");
                if here != Within::Unread && !pattern && tells(&code, at, &word, content) {
                    let before: String = code.iter().take(at).collect();
                    found.push((line_of(&before, before.len()), word));
                }
                at = end;
            }
            '@' if here == Within::Content => rust = true,
            ';' if here == Within::Content => rust = false,
            '(' | '[' => within.push(if here == Within::Unread || opens_unread(&code, at) {
                Within::Unread
            } else {
                Within::Code
            }),
            '{' => {
                within.push(match here {
                    Within::Content => here,
                    _ if macro_opens(&code, at) => Within::Content,
                    _ => here,
                });
                rust = false;
            }
            ')' | ']' | '}' if within.len() > 1 => {
                within.pop();
            }
            _ => {}
        }
        at += 1;
    }
    found
}

/// Where the literal that opens at `at` closes.
fn end_of_literal(code: &[char], at: usize) -> usize {
    code.iter()
        .enumerate()
        .skip(at + 1)
        .find(|(_, c)| **c == '"')
        .map_or(code.len(), |(end, _)| end)
}

/// Whether the bracket at `at` opens something that nobody reads.
fn opens_unread(code: &[char], at: usize) -> bool {
    match at.checked_sub(1).and_then(|last| code.get(last)) {
        Some('#') => true,
        Some('=') => {
            let name = attribute(code, at - 1);
            !name.is_empty() && !SEEN.contains(&name.as_str())
        }
        _ => false,
    }
}

/// Whether a literal is read by somebody.
fn tells(code: &[char], at: usize, word: &str, content: bool) -> bool {
    let word = without_slots(word);
    if !word.chars().any(char::is_alphabetic) {
        return false;
    }
    if at > 0 && code.get(at - 1) == Some(&'=') {
        // `class="..."`: the formatter leaves no blank there, and puts one after any other `=`.
        return SEEN.contains(&attribute(code, at - 1).as_str());
    }
    content || two_words(&word) || like_a_sentence(&word)
}

/// The name of the attribute before the `=` at `at`.
fn attribute(code: &[char], at: usize) -> String {
    let name: Vec<char> = code[..at]
        .iter()
        .rev()
        .take_while(|c| in_name(**c) || **c == '-')
        .copied()
        .collect();
    name.into_iter().rev().collect()
}

/// The literal without what is put into its braces.
fn without_slots(word: &str) -> String {
    let mut depth = 0_usize;
    let mut out = String::new();
    for c in word.chars() {
        match c {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => out.push(c),
            _ => {}
        }
    }
    out
}

/// Two words with a blank between them, of more than one letter; a colon may stand before it. A path of a drawing
/// has single letters only.
fn two_words(word: &str) -> bool {
    let of_letters = |w: &str| w.chars().filter(|c| c.is_alphabetic()).count() > 1;
    if !word.split_whitespace().any(of_letters) {
        return false;
    }
    let letters: Vec<char> = word.chars().collect();
    letters.windows(3).any(|three| {
        let [a, b, c] = three else { return false };
        (a.is_alphabetic() || *a == ':') && *b == ' ' && c.is_alphabetic()
    })
}

/// A capital with small letters after it.
fn like_a_sentence(word: &str) -> bool {
    let mut letters = word.chars();
    letters.next().is_some_and(char::is_uppercase) && letters.next().is_some_and(char::is_lowercase)
}

/// Whether the brace at `at` opens the content of `html!`.
fn macro_opens(code: &[char], at: usize) -> bool {
    let before: String = code[..at].iter().collect();
    before.trim_end().ends_with("html!")
}

/// The next few characters, over blanks.
fn after(code: &[char], at: usize) -> String {
    code.iter()
        .skip(at)
        .skip_while(|c| c.is_whitespace())
        .take(2)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    fn of(page: &str) -> Vec<String> {
        let path = format!("{PAGES}page/a.rs");
        says(stand_in_one_place, &[(path.as_str(), page)])
    }

    #[test]
    fn words_among_the_markup_are_found() {
        for bad in [
            "html! { p { \"None yet.\" } }",
            "html! { @if all.is_empty() { \"held\" } }",
            "html! { @match it { Some(_) => { \"defect\" } None => (say::NONE), } }",
            "html! { @match it { None => \"each day\", _ => {} } }",
            "html! { td data-label=\"Found\" { (line.found) } }",
            "html! { svg aria-label=\"side view\" {} }",
            "html! { input placeholder=\"name\"; }",
            "html! { b { (day) } \" by \" (name) }",
            "html! { p { (kept.told) \", as left\" } }",
            "let wrong = \"That name does not fit.\";",
            "let what = format!(\"Operation {} is done\", at + 1);",
            "let what = format!(\"was {was} before noon\");",
            "kit::line(view, VERB, \"lit\", \"Fire lit\", \"\")",
            "trouble::page(status, \"Spent\", why, &[])",
            "html! { h2 { (say::A) } } fn f() { html! { \"x\" } }",
        ] {
            assert_eq!(of(bad).len(), 1, "{bad}: {:?}", of(bad));
        }
        let two = of("html! { p { \"Made\nby\" } }\nhtml! { i { \"us\" } }");
        assert!(
            two[0].starts_with("crates/outshop/src/web/page/a.rs:1: "),
            "{two:?}"
        );
        assert!(
            two[1].starts_with("crates/outshop/src/web/page/a.rs:3: "),
            "{two:?}"
        );
    }

    #[test]
    fn what_no_reader_sees_is_let_be() {
        for good in [
            "html! { p class=\"quiet small\" { (say::NONE) } }",
            "html! { a href=\"/work\" class=(if open { \"need\" } else { \"\" }) { (what) } }",
            "html! { i class=(if held { \"s-need f-paper\" } else { \"verdict fails\" }) { (x) } }",
            "html! { path d=\"M84 62 H180 V142 H84 Z\" {} }",
            "boiler(place, \"M480 40 V34 H572 Z M466 34 H586 Z\")",
            "html! { path d=(format!(\"M{} 46 L{} 36\", x, y)) {} }",
            "html! { @if place == \"cab\" { (say::CAB) } }",
            "html! { @match word { \"carry\" => (say::CARRY), _ => {} } }",
            "html! { @let to = format!(\"/job/{tag}\"); a href=(to) { (tag) \" \" } \": \" }",
            "// \"None yet.\" is said there\nhtml! {}",
            "#[allow(dead_code, reason = \"It is read by tests.\")] fn f() {}",
            "html! { select id=\"sign-as\" name=\"as\" {} }",
            "let cookie = format!(\"{COOKIE}={token}; Path=/; HttpOnly\");",
            "html! {}\n#[cfg(test)]\nmod tests { const A: &str = \"It is done\"; }",
            "match parts { [\"engine\", number] => {} }",
        ] {
            assert!(of(good).is_empty(), "{good}: {:?}", of(good));
        }
    }

    #[test]
    fn verbs_of_forms_are_no_words_and_other_rooms_are_not_looked_at() {
        let page = "kit::form(view, \"steam log\", say::LOG)";
        let path = format!("{PAGES}page/a.rs");
        assert_eq!(of(page).len(), 1);
        let forms = "const ASKED: &[&str] = &[\"steam log\"]; ";
        let files = [(path.as_str(), page), (FORMS, forms)];
        assert!(says(stand_in_one_place, &files).is_empty());
        let words = [("crates/outshop/src/words/job.rs", "\"It is done\"")];
        assert!(says(stand_in_one_place, &words).is_empty());
    }
}
