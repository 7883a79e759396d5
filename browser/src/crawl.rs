//! Every page that can be come to: by following links from the first page, and by going wrong on purpose.

use std::collections::{BTreeSet, HashMap, VecDeque};

use serde_json::{Value, json};

use crate::{Desk, Window, Wrong};

/// One page to look at: how it is come to, and the status that it answers with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Visit {
    /// Its path, with what stands after the question mark.
    pub path: String,
    /// What a form sends there; none if it is only asked for.
    pub form: Option<Vec<(String, String)>>,
    /// The status it must answer with.
    pub status: u16,
    /// Whether a reader is signed in.
    pub signed_in: bool,
}

impl Visit {
    /// A page that is only asked for.
    pub fn page(path: impl Into<String>) -> Visit {
        Visit {
            path: path.into(),
            form: None,
            status: 200,
            signed_in: true,
        }
    }

    /// A name that can be the name of a file.
    pub fn name(&self) -> String {
        let path = if self.path == "/" {
            "days-ahead"
        } else {
            self.path.trim_start_matches('/')
        };
        let verb = self.form.iter().flatten().find(|(name, _)| name == "verb");
        let kind = match (&self.form, verb) {
            (None, _) => String::new(),
            (Some(_), None) => "refused ".into(),
            (Some(_), Some((_, verb))) => format!("refused {verb} "),
        };
        let plain: String = format!("{kind}{path}")
            .chars()
            .map(|c| {
                if c.is_ascii_alphanumeric() || c == '.' || c == '-' {
                    c
                } else {
                    '_'
                }
            })
            .collect();
        // A sheet with all its inputs has a path longer than a file's name may be.
        plain.chars().take(90).collect()
    }
}

impl Visit {
    /// Whether a note of the browser's console only says that the page answers as it must: a browser writes
    /// every refused page down as an error.
    pub fn is_expected(&self, note: &str) -> bool {
        self.status >= 400
            && note.starts_with("console: ")
            && note.contains(&format!("responded with a status of {}", self.status))
    }
}

impl Window {
    /// Comes to a page as a reader with this session does, or as nobody.
    ///
    /// # Errors
    /// If it cannot be come to.
    pub fn visit(
        &self,
        desk: &Desk,
        visit: &Visit,
        (name, value): &(String, String),
    ) -> Result<(), Wrong> {
        let home = desk.url("/in");
        if visit.signed_in {
            self.keep(&home, (name, value))?;
        } else {
            self.forget()?;
        }
        let Some(form) = &visit.form else {
            self.go(&desk.url(&visit.path))?;
            // A browser just started, on a machine with much to do, was once seen to show its first page without the
            // style sheet, and to name no reason. One that never comes is still found: it is asked once more only.
            let bare = "return document.styleSheets.length === 0";
            if self.ask(bare, Vec::new())? == Value::Bool(true) {
                self.go(&desk.url(&visit.path))?;
            }
            return Ok(());
        };
        self.go(&home)?;
        let make = "const form = document.createElement('form');
            form.method = 'post'; form.action = arguments[0];
            for (const [name, value] of arguments[1]) {
                const field = document.createElement('input');
                field.name = name; field.value = value; form.append(field);
            }
            const send = document.createElement('button');
            send.id = 'send-by-test'; send.textContent = 'Send'; form.append(send);
            document.body.prepend(form);";
        self.ask(make, vec![json!(visit.path), json!(form)])?;
        self.go_by("#send-by-test")
    }
}

/// Pages no link leads to: sheets with what goes in, and what is said when something is wrong.
const BESIDE: &[&str] = &[
    "/sheet/seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5/32in&port=2in",
    "/sheet/seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5/32in&port=2in&wall=0.41in",
    "/sheet/seat.correct?found_half_angle=43deg",
    "/sheet/thread.acme?diameter=1in&tpi=5&class=2G",
];

/// How many addresses that differ only after the question mark are kept.
const ALIKE: usize = 2;
/// The pages of the bench, one a feature of every part, and how many of them stand for all.
const BENCH: (&str, usize) = ("/bench/", 12);

/// Every page of a desk that is signed in to, in the order in which they are come to.
///
/// # Errors
/// A link that leads nowhere, by where it stands and where it leads.
pub fn visits(desk: &Desk) -> Result<Vec<Visit>, Wrong> {
    let mut found = Vec::new();
    let mut known = BTreeSet::new();
    let mut alike: HashMap<String, usize> = HashMap::new();
    let mut waiting = VecDeque::from([("the start".to_string(), "/".to_string())]);
    waiting.extend(
        BESIDE
            .iter()
            .map(|path| ("the test".into(), path.to_string())),
    );
    while let Some((from, path)) = waiting.pop_front() {
        if !known.insert(path.clone()) {
            continue;
        }
        let plain = path.split('?').next().unwrap_or_default();
        let (plain, most) = match plain.starts_with(BENCH.0) {
            true => BENCH,
            false => (plain, ALIKE + 1),
        };
        let count = alike.entry(plain.to_string()).or_default();
        *count += 1;
        if *count > most && !BESIDE.contains(&path.as_str()) {
            continue;
        }
        let answer = desk.get(&path)?;
        if answer.status != 200 {
            return Err(format!(
                "{from} leads to {path}, which answers {}.",
                answer.status
            ));
        }
        if answer
            .head
            .to_lowercase()
            .contains("content-type: text/html")
        {
            let here = path.clone();
            waiting.extend(links(&answer.body).into_iter().map(|to| (here.clone(), to)));
            found.push(Visit::page(path));
        }
    }
    found.extend(wrong_turns());
    Ok(found)
}

/// Pages that say no: nothing there, nobody signed in, a form refused as input and as an act.
fn wrong_turns() -> Vec<Visit> {
    let form = |fields: &[(&str, &str)]| {
        let owned = fields.iter().map(|(n, v)| (n.to_string(), v.to_string()));
        Some(owned.collect())
    };
    let mut turns: Vec<Visit> = [
        "/nothing/here",
        "/finding/F-999",
        "/engine/99",
        "/sheet/none",
    ]
    .into_iter()
    .map(|path| Visit {
        status: 404,
        ..Visit::page(path)
    })
    .collect();
    turns.push(Visit {
        form: form(&[
            ("verb", "finding record"),
            ("back", "/engine/14/part/right%20feed%20check"),
            ("engine", "14"),
            ("part", "right feed check"),
            ("occasion", "write-up"),
            ("told", "weeps again, hot"),
            ("at:seat-land@front", "5/32"),
        ]),
        status: 422,
        ..Visit::page("/do")
    });
    turns.push(Visit {
        form: form(&[
            ("verb", "release"),
            ("back", "/engine/14"),
            ("engine", "14"),
        ]),
        status: 422,
        ..Visit::page("/do")
    });
    turns.push(Visit {
        form: form(&[("passphrase", "short")]),
        status: 422,
        ..Visit::page("/me")
    });
    turns.push(Visit {
        signed_in: false,
        ..Visit::page("/in")
    });
    turns.push(Visit {
        form: form(&[("name", "Ada Quill"), ("passphrase", "a guess")]),
        status: 422,
        signed_in: false,
        ..Visit::page("/in")
    });
    turns.push(Visit {
        status: 410,
        signed_in: false,
        ..Visit::page("/in/0123456789abcdef")
    });
    turns
}

/// The addresses of this desk that a page links to, without the place on the page.
fn links(body: &str) -> Vec<String> {
    body.split("<a ")
        .skip(1)
        .filter_map(|rest| {
            let tag = rest.split('>').next()?;
            let (_, from) = tag.split_once("href=\"")?;
            let to = from.split('"').next()?.replace("&amp;", "&");
            let to = to.split('#').next()?.to_string();
            to.starts_with('/').then_some(to)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_read_as_a_browser_reads_them() {
        let body = "<a href=\"/work\">x</a><a class=\"need\" href=\"/sheet/a?b=1&amp;c=2#d\">y</a>\
                    <a href=\"#main\">skip</a><link href=\"/asset/desk.css\"><a name=\"x\">z</a>";
        assert_eq!(links(body), ["/work", "/sheet/a?b=1&c=2"]);
    }

    #[test]
    fn a_visit_has_a_name_a_file_can_have() {
        assert_eq!(Visit::page("/").name(), "days-ahead");
        assert_eq!(
            Visit::page("/engine/14/part/right%20feed%20check?x=1/2").name(),
            "engine_14_part_right_20feed_20check_x_1_2"
        );
    }
}
