//! What is wrong with a page: by an accessibility engine, by our own measure of what stands on the screen, by the
//! browser's console and by what went over the wire.

use serde_json::{Value, json};

use crate::{Screen, Window, Wrong};

/// The engine, as published; see its licence beside it.
const AXE: &str = include_str!("../vendor/axe-core/axe.min.js");
/// Our own measures.
const OURS: &str = include_str!("audit.js");

/// Which rules of the engine are asked: the levels A and AA of the guidelines, and its best practice.
pub const AXE_TAGS: &[&str] = &[
    "wcag2a",
    "wcag2aa",
    "wcag21a",
    "wcag21aa",
    "wcag22aa",
    "best-practice",
];

/// Everything found wrong with the page that a window shows, each a sentence. `engine` says whether the
/// accessibility engine is asked too, which takes the longest.
///
/// # Errors
/// If the page cannot be looked at.
pub fn audit(window: &Window, host: &str, engine: bool) -> Result<Vec<String>, Wrong> {
    let mut wrong = Vec::new();
    let least = match window.screen() {
        Screen::Phone => 44,
        Screen::Desk => 24,
    };
    let ours = window.ask(OURS, vec![json!(least), json!(window.screen().width())])?;
    wrong.extend(texts(&ours));
    if engine {
        wrong.extend(axe(window)?);
    }
    for note in window.notes("browser")? {
        if !matches!(note["level"].as_str(), Some("SEVERE" | "WARNING")) {
            continue;
        }
        wrong.push(format!(
            "console: {}",
            note["message"].as_str().unwrap_or("something unread")
        ));
    }
    wrong.extend(elsewhere(window, host)?);
    Ok(wrong)
}

fn texts(list: &Value) -> Vec<String> {
    list.as_array()
        .map(|list| {
            list.iter()
                .filter_map(|one| one.as_str().map(str::to_string))
                .collect()
        })
        .unwrap_or_default()
}

/// What the engine found, with the element it found it at.
fn axe(window: &Window) -> Result<Vec<String>, Wrong> {
    let script = format!(
        "{AXE};
        const [tags, done] = arguments;
        axe.run(document, {{ runOnly: {{ type: 'tag', values: tags }}, resultTypes: ['violations'] }}).then(
            (r) => done(r.violations.flatMap((v) => v.nodes.slice(0, 4).map((n) =>
                'axe ' + v.id + ': ' + v.help + ' at ' + n.target.join(' ') + ' ' + (n.any[0] ? n.any[0].message : '')))),
            (e) => done(['axe failed: ' + e]));"
    );
    Ok(texts(&window.ask_later(&script, vec![json!(AXE_TAGS)])?))
}

/// Requests that went to anything but the desk.
fn elsewhere(window: &Window, host: &str) -> Result<Vec<String>, Wrong> {
    let mut wrong = Vec::new();
    for note in window.notes("performance")? {
        let text = note["message"].as_str().unwrap_or_default();
        let event: Value = serde_json::from_str(text).unwrap_or_default();
        if event["message"]["method"] != "Network.requestWillBeSent" {
            continue;
        }
        let url = event["message"]["params"]["request"]["url"]
            .as_str()
            .unwrap_or_default();
        let ours = ["http", "https"].map(|scheme| format!("{scheme}://{host}/"));
        if !ours.iter().any(|ours| url.starts_with(ours)) && !url.starts_with("data:") {
            wrong.push(format!("asked something else: {url}"));
        }
    }
    Ok(wrong)
}
