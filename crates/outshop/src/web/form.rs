//! A form becomes the same request as typed words, through the same function; one that is refused
//! comes back as it was filled in.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{RawForm, State};
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Map, Value};

use super::door::cookie;
use super::{Desk, Reader, on_thread, page, trouble};
use crate::verb::past;
use crate::words::form as say;
use crate::{Answer, Failure, Request};

/// What was filled in, and what was said of it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Draft {
    /// The fields, as sent.
    pub fields: Vec<(String, String)>,
    /// Why it was not saved.
    pub said: Option<String>,
    /// What was saved before this page, in the verb's words.
    pub kept: Option<String>,
}

impl Draft {
    /// What stood in a field of a form of this verb; empty if nothing did.
    pub fn value(&self, verb: &str, name: &str) -> &str {
        if !self.is_of(verb) {
            return "";
        }
        value(&self.fields, name)
    }

    /// Whether this was filled in for a verb.
    pub fn is_of(&self, verb: &str) -> bool {
        self.fields
            .iter()
            .any(|(name, value)| name == "verb" && value == verb)
    }
}

/// Fields of a form body.
pub fn fields(body: &[u8]) -> Vec<(String, String)> {
    serde_html_form::from_bytes(body).unwrap_or_default()
}

/// What stands in a field; empty if nothing does.
pub fn value<'f>(fields: &'f [(String, String)], name: &str) -> &'f str {
    let found = fields.iter().find(|(known, _)| known == name);
    found.map_or("", |(_, value)| value.as_str())
}

/// What was filled into a field, without blanks about it; none if it was left empty.
pub fn filled(fields: &[(String, String)], name: &str) -> Option<String> {
    let value = value(fields, name).trim();
    (!value.is_empty()).then(|| value.to_string())
}

/// The page a form stands on, to go back to: one of this desk's own, whatever was sent.
pub fn back(fields: &[(String, String)]) -> String {
    let path = value(fields, "back");
    if path.starts_with('/') && !path.starts_with("//") {
        path.to_string()
    } else {
        "/".to_string()
    }
}

/// Verbs a form may ask for: statements about the shop. Making, serving or copying a book is for the
/// command line of the machine it lies on.
const ASKED: &[&str] = &[
    "person add",
    "person authorise",
    "person withdraw",
    "locomotive add",
    "locomotive held",
    "locomotive day",
    "locomotive fact",
    "locomotive out-of-use",
    "part add",
    "part tell",
    "instrument add",
    "instrument check",
    "reading take",
    "spare add",
    "spare tell",
    "spare receive",
    "spare use",
    "spare hold",
    "spare count",
    "spare settle",
    "lathe add",
    "lathe tell",
    "card keep",
    "blue",
    "letter log",
    "letter answer",
    "tooling add",
    "tooling tell",
    "tooling check",
    "tooling move",
    "tooling take-out",
    "steam log",
    "steam days",
    "steam counted",
    "entry withdraw",
    "steam close",
    "steam promise",
    "inspect open",
    "inspect day",
    "inspect answer",
    "inspect close",
    "inspect put-away",
    "move decide",
    "move end",
    "boiler enter",
    "boiler survey",
    "boiler stay",
    "boiler sign",
    "shop state",
    "shop require",
    "shop drop",
    "writeup report",
    "writeup answer",
    "finding record",
    "finding lift",
    "finding opens",
    "decide",
    "job make",
    "job done",
    "job clear",
    "job knock-on",
    "job paper",
    "job close",
    "prove",
    "sign",
    "release",
    "rule hold",
];

/// Names of fields that are yes or no, that are numbers, or that may be given more than once.
const YES: &[&str] = &[
    "good",
    "not_fitted",
    "passed",
    "failed",
    "as_left",
    "close",
    "nothing",
    "no_defect",
    "tagged",
    "wrong",
];
const NUMBERS: &[&str] = &[
    "operation",
    "miles",
    "version",
    "seen_entry",
    "mph",
    "axle_load",
    "service_days",
    "annuals",
    "axle",
];
const LISTS: &[&str] = &[
    "days", "readings", "shows", "facts", "changes", "may", "fitted", "reach", "mates", "also",
    "features", "rows", "remarks", "given",
];
/// Lists of things with fields of their own: `items:KEY:seen` is what was seen of the item KEY.
const THINGS: &[&str] = &["items", "symptoms"];
/// Fields that say where a form stands and who signs it, not what it asks.
const OURS: &[&str] = &["verb", "back", "then", SIGN_WITH, WITH];
/// The field that says once with which instrument all readings of a form were taken.
pub const WITH: &str = "with";
/// The field of a form that is signed: the passphrase or the code of whoever signs.
pub const SIGN_WITH: &str = "sign_with";
/// Verbs by which somebody answers for something with their name. At the desk they say once more who they are.
pub const SIGNED: &[&str] = &[
    "sign",
    "decide",
    "job clear",
    "job paper",
    "job close",
    "inspect close",
    "inspect put-away",
    "move decide",
    "move end",
    "release",
    "boiler sign",
    "rule hold",
    "shop require",
    "shop drop",
    "person authorise",
    "person withdraw",
];

/// Whether a form is a signature. The day's form is one when it closes the inspection, and not while it only answers.
fn is_signed(fields: &[(String, String)]) -> bool {
    let verb = value(fields, "verb");
    SIGNED.contains(&verb) || (verb == "inspect day" && !value(fields, "close").is_empty())
}

/// Reads a form as a request.
///
/// # Errors
/// Input: no verb, a number that does not read, or a field the verb does not have.
pub fn request(fields: &[(String, String)]) -> Result<Request, Failure> {
    let verb = fields
        .iter()
        .find(|(name, _)| name == "verb")
        .map(|(_, value)| value.as_str());
    let verb = verb.ok_or_else(|| Failure::Input(say::NO_VERB.into()))?;
    if !ASKED.contains(&verb) {
        return Err(Failure::Input(say::not_for_pages(verb)));
    }
    let mut asked = Map::new();
    let mut keys: Vec<(&str, &str)> = Vec::new();
    let unit_of = |feature: &str| {
        let shown = fields
            .iter()
            .find(|(name, _)| name.strip_prefix("unit:") == Some(feature));
        shown.map(|(_, unit)| unit.trim())
    };
    let mut with = fields.iter().filter(|(name, _)| name == WITH);
    let with = with.find_map(|(_, value)| Some(value.trim()).filter(|value| !value.is_empty()));
    for (name, value) in fields {
        let value = value.trim();
        if OURS.contains(&name.as_str()) || value.is_empty() {
            continue;
        }
        // A file is read where the verb runs: on the machine of the book, which is not the reader's.
        if name == "file" {
            return Err(Failure::Input(say::NO_FILE.into()));
        }
        if let Some(fitting) = name.strip_prefix("fitting:") {
            push(&mut asked, value, Value::String(fitting.into()));
        } else if let Some(place) = name.strip_prefix("at:") {
            // A bare number means what the field beside it says, and only then.
            let feature = place.split('@').next().unwrap_or_default();
            let (size, by) = match value.split_once(" by ") {
                Some((size, by)) => (size.trim(), Some(by)),
                None => (value, with),
            };
            let unit = unit_of(feature).filter(|_| is_bare(size));
            let unit = unit.map_or(String::new(), |unit| format!(" {unit}"));
            let by = by.map_or(String::new(), |by| format!(" by {by}"));
            let written = format!("{place}={size}{unit}{by}");
            push(&mut asked, "readings", Value::String(written));
        } else if name.starts_with("unit:") {
            // Said with each reading above.
        } else if let Some((list, key)) = pair(name) {
            push(&mut asked, list, Value::String(format!("{key}={value}")));
        } else if let Some((list, key, field)) = thing(name) {
            if !keys.contains(&(list, key)) {
                keys.push((list, key));
                let mut made = Map::new();
                if list == "items" {
                    made.insert("item".into(), Value::String(key.into()));
                }
                push(&mut asked, list, Value::Object(made));
            }
            let of_list = keys.iter().filter(|(known, _)| *known == list);
            let at = of_list.map(|(_, key)| *key).position(|known| known == key);
            let made = asked.get_mut(list).zip(at);
            let made = made.and_then(|(all, at)| all.get_mut(at)?.as_object_mut());
            if let Some(made) = made {
                made.insert(field.into(), Value::String(value.into()));
            }
        } else if name == "choice" {
            asked.insert(value.into(), Value::Bool(true));
        } else if YES.contains(&name.as_str()) {
            asked.insert(name.clone(), Value::Bool(true));
        } else if name == "number_text" || (name == "number" && verb.starts_with("instrument")) {
            // The number on an instrument is a word.
            asked.insert("number".into(), Value::String(value.into()));
        } else if NUMBERS.contains(&name.as_str()) {
            let number: u64 = value
                .parse()
                .map_err(|_| Failure::Input(say::not_a_number(value)))?;
            asked.insert(name.clone(), Value::from(number));
        } else if LISTS.contains(&name.as_str()) {
            push(&mut asked, name, Value::String(value.into()));
        } else {
            asked.insert(name.clone(), Value::String(value.into()));
        }
    }
    let mut asked = Value::Object(asked);
    for word in verb.split(' ').rev() {
        asked = Value::Object(Map::from_iter([(word.to_string(), asked)]));
    }
    Request::from_json(&asked.to_string())
}

/// Lists whose things are a name and a value: `as_built:bore` is the bore as built.
const PAIRS: &[(&str, &str)] = &[
    ("fact", "facts"),
    ("drawn", "drawn"),
    ("as_built", "as_built"),
    ("shop_limit", "shop_limit"),
    ("step", "step"),
];

/// What a field of a pair names: the list, and the name.
fn pair(field: &str) -> Option<(&'static str, &str)> {
    let (word, key) = field.split_once(':')?;
    let found = PAIRS.iter().find(|(known, _)| *known == word);
    found.map(|(_, list)| (*list, key))
}

/// Whether a reading is figures alone: digits, a fraction, a decimal, without a unit.
fn is_bare(value: &str) -> bool {
    let figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-' | ' ');
    value.chars().all(figure) && value.contains(|c: char| c.is_ascii_digit())
}

/// What a field of a thing in a list names: the list, the thing, the field.
fn thing(name: &str) -> Option<(&str, &str, &str)> {
    let (list, rest) = name.split_once(':')?;
    let (key, field) = rest.rsplit_once(':')?;
    THINGS.contains(&list).then_some((list, key, field))
}

fn push(asked: &mut Map<String, Value>, name: &str, value: Value) {
    if let Value::Array(list) = asked
        .entry(name)
        .or_insert_with(|| Value::Array(Vec::new()))
    {
        list.push(value);
    }
}

/// The cookie that carries what was saved to the page shown next.
const KEPT: &str = "outshop_kept";

/// Has the next page tell what was saved; a page that does not is no harm.
fn tell_next(desk: &Desk, told: &str, response: &mut Response) {
    let told: String = told.chars().take(300).collect();
    if let Ok(cookie) = desk.cookie(KEPT, &page::kit::encode(&told), 30) {
        response.headers_mut().append(header::SET_COOKIE, cookie);
    }
}

/// What was saved just before a page was asked for, and the cookie that forgets it; nothing where nothing was.
pub fn saved_before(desk: &Desk, headers: &HeaderMap) -> Option<(String, HeaderValue)> {
    let told = page::decode(&cookie(headers, KEPT)?);
    let forget = desk.cookie(KEPT, "", 0).ok()?;
    (!told.is_empty()).then_some((told, forget))
}

/// Goes to a page and tells there what was saved.
pub fn went(desk: &Desk, reader: &Reader, answer: &Answer, to: &str) -> Response {
    match past::of(answer) {
        None => {
            let told = answer.text.lines().next().unwrap_or_default();
            let mut response = Redirect::to(to).into_response();
            tell_next(desk, told, &mut response);
            response
        }
        // What it shows of days past is told at once; the form was saved, and is not filled in again.
        Some(said) => {
            let told = Draft {
                fields: Vec::new(),
                said: Some(said.to_string()),
                kept: None,
            };
            page::draw(desk, reader, to, "", &told)
        }
    }
}

/// Does what a form asks, then goes back to where it stood.
pub async fn act(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    headers: HeaderMap,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let mut fields = fields(&body);
        // Taken out at once: what opens a signature is never shown again.
        let given = fields.iter().position(|(name, _)| name == SIGN_WITH);
        let given = given.map_or_else(String::new, |at| fields.remove(at).1);
        let back = back(&fields);
        let signed = is_signed(&fields);
        let asked = request(&fields).and_then(|request| {
            if signed {
                desk.proved(&reader, &headers, &given)?;
            }
            request.run(&mut desk.context(Some(&reader.name)))
        });
        match asked {
            Ok(answer) => {
                // A form that makes a thing may lead to it by its new number.
                let kind = value(&fields, "then");
                let number = answer.json.get(kind).and_then(Value::as_str);
                let made = number.map(|number| format!("/{kind}/{number}"));
                let to = made.unwrap_or(back);
                went(&desk, &reader, &answer, &to)
            }
            Err(failure) => {
                let (why, status) = (failure.to_string(), trouble::status(&failure));
                page::refused(&desk, &reader, &back, fields, why, status)
            }
        }
    })
    .await
}
