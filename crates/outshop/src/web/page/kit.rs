//! Pieces that more than one page uses: verdicts as word and shape, days, forms that lose nothing.

use maud::{Markup, html};
use rules::Ruling;
use shop::book::{Book, Inspection, LocomotiveId, PersonId};
use shop::locomotive::engines;
use shop::route::Feasible;
use shop::verdict::Verdict;

use super::View;
use crate::verb::rule_held;
use crate::words::{self, inspection as said, page as say, tag};

/// A verdict: a word and a shape before it is a tone.
pub fn verdict(verdict: &Verdict) -> Markup {
    let (class, word) = match verdict {
        Verdict::Complies => ("complies", say::COMPLIES),
        Verdict::Fails(_) => ("fails", say::FAILS),
        Verdict::CannotTell(_) => ("unknown", say::CANNOT_TELL),
    };
    html! { span class=(format!("verdict {class}")) { (word) } }
}

/// Whether a route can be taken, as word and shape.
pub fn feasible(feasible: &Feasible) -> Markup {
    let (class, word) = match feasible {
        Feasible::Yes => ("complies", say::CAN_BE_TAKEN),
        Feasible::No(_) => ("fails", say::CANNOT_BE_TAKEN),
        Feasible::CannotTell(_) => ("unknown", say::CANNOT_TELL),
    };
    html! { span class=(format!("verdict {class}")) { (word) } }
}

/// Which of many figures of law this shop has not held against the official text, in one line.
pub fn held<'r>(view: &View<'_>, used: impl IntoIterator<Item = &'r Ruling>) -> Markup {
    let used = used.into_iter();
    let used = used.map(|ruling| (ruling.rule.as_str(), ruling.version));
    let line = rule_held::line(view.book, view.rules, used);
    html! { @if let Some(line) = line { p class="small need" { (line) } } }
}

/// A sentence of ours as a page sets it: what stands between backticks, something typed or to be typed, as `code`. A
/// backtick without a fellow is somebody's own, and all is left as it stands.
pub fn worded(text: &str) -> Markup {
    let pieces: Vec<&str> = text.split('`').collect();
    if pieces.len().is_multiple_of(2) {
        return html! { (text) };
    }
    html! { @for (at, piece) in pieces.iter().enumerate() { @if at % 2 == 0 { (piece) } @else { code { (piece) } } } }
}

/// What our own rooms say in half a sentence, begun large and set as [`worded`] does.
pub fn sentence(text: &str) -> Markup {
    worded(&words::sentence(text))
}

/// The name of a person.
pub fn name(book: &Book, id: PersonId) -> &str {
    book.persons.get(&id).map_or("?", |p| p.name.as_str())
}

/// An engine's number.
pub fn number(book: &Book, id: LocomotiveId) -> &str {
    book.locomotives.get(&id).map_or("?", |e| e.number.as_str())
}

/// Every engine of the book, to choose one from.
pub fn engine_options(view: &View<'_>, chosen: &str) -> Markup {
    html! { @for (_, kept) in engines(view.book) {
        option value=(kept.number) selected[kept.number == chosen] { (words::engine(&kept.number)) }
    } }
}

/// The path of a part.
pub fn part_path(number: &str, part: &str) -> String {
    format!("/engine/{number}/part/{}", encode(part))
}

/// A word as it stands in a path.
pub fn encode(text: &str) -> String {
    let mut out = String::new();
    for byte in text.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'_' | b'.' => {
                out.push(char::from(byte))
            }
            _ => out.push_str(&format!("%{byte:02X}")),
        }
    }
    out
}

/// A form that does a verb and comes back to this page.
pub fn form(view: &View<'_>, verb: &str, title: &str, fields: &Markup, button: &str) -> Markup {
    html! {
        form class="act" method="post" action="/do" {
            h2 { (title) }
            input type="hidden" name="verb" value=(verb);
            input type="hidden" name="back" value=(view.path);
            (fields)
            button { (button) }
        }
    }
}

/// As [`form`], for an act that is a signature: whoever signs says once more who they are.
pub fn signed(view: &View<'_>, verb: &str, title: &str, fields: &Markup, button: &str) -> Markup {
    form(
        view,
        verb,
        title,
        &html! { (fields) (sign_with(verb)) },
        button,
    )
}

/// Asks whoever signs for their passphrase or code. It is never filled in again.
pub fn sign_with(verb: &str) -> Markup {
    sign_by(verb, true)
}

/// As [`sign_with`], in a form that another button sends without signing.
pub fn may_sign_with(verb: &str) -> Markup {
    sign_by(verb, false)
}

fn sign_by(verb: &str, required: bool) -> Markup {
    let id = id(verb, "sign-with");
    html! {
        p class="quiet small" { (words::bench::SIGNING) }
        label for=(id) { (words::bench::SIGN_WITH) }
        input type="password" id=(id) name=(crate::web::form::SIGN_WITH) autocomplete="current-password" required[required];
    }
}

/// A hidden field.
pub fn hidden(name: &str, value: &str) -> Markup {
    html! { input type="hidden" name=(name) value=(value); }
}

/// A line to write in, filled in again if its form was refused.
pub fn line(view: &View<'_>, verb: &str, name: &str, label: &str, hint: &str) -> Markup {
    let id = id(verb, name);
    html! {
        label for=(id) { (label) @if !hint.is_empty() { " " span class="quiet" { (hint) } } }
        input type="text" id=(id) name=(name) value=(view.draft.value(verb, name)) autocomplete="off";
    }
}

/// A few lines to write in.
pub fn lines(view: &View<'_>, verb: &str, name: &str, label: &str, hint: &str) -> Markup {
    let id = id(verb, name);
    html! {
        label for=(id) { (label) @if !hint.is_empty() { " " span class="quiet" { (hint) } } }
        textarea id=(id) name=(name) { (view.draft.value(verb, name)) }
    }
}

/// A day.
pub fn day(view: &View<'_>, verb: &str, name: &str, label: &str) -> Markup {
    let id = id(verb, name);
    html! {
        label for=(id) { (label) }
        input type="date" id=(id) name=(name) value=(view.draft.value(verb, name));
    }
}

/// One of a few words, each with what it means; none is chosen for the reader.
pub fn choices(
    view: &View<'_>,
    verb: &str,
    name: &str,
    label: &str,
    words: &[(&str, &str)],
) -> Markup {
    let chosen = view.draft.value(verb, name);
    html! {
        fieldset {
            legend { (label) }
            @for (word, means) in words { label class="choice" { input type="radio" name=(name) value=(word) checked[chosen == *word]; span { (means) } } }
        }
    }
}

/// Where and at what time of day an inspection was made, for the form that closes it.
pub fn made(view: &View<'_>, verb: &str) -> Markup {
    let at = id(verb, "at");
    html! {
        div class="grid2" {
            div { label for=(at) { (said::MADE_AT) } input type="time" id=(at) name="at" value=(view.draft.value(verb, "at")); }
            div { (line(view, verb, "place", said::MADE_WHERE, "")) }
        }
    }
}

/// The form that puts an inspection away as not completed.
pub fn put_away(view: &View<'_>, kept: &Inspection) -> Markup {
    const VERB: &str = "inspect put-away";
    let fields = html! {
        (hidden("inspection", &tag::inspection(kept.number)))
        p class="small" { (said::PUT_AWAY_MEANS) }
        (line(view, VERB, "because", said::BECAUSE, ""))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (said::PUT_AWAY) } (signed(view, VERB, said::PUT_AWAY, &fields, said::SIGN_NOT_COMPLETED)) } }
}

/// An id for a field, the same every time.
pub fn id(verb: &str, name: &str) -> String {
    format!("{verb}-{name}").replace(|c: char| !c.is_ascii_alphanumeric(), "-")
}
