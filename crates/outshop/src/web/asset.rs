//! The style sheet, the letters and the scripts of the bench, shipped inside the program.

use axum::extract::Path;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

const FONT: &str = "font/woff2";
const SCRIPT: &str = "text/javascript; charset=utf-8";

/// Where the worker of the bench lies: under the pages it serves, and no others.
pub const WORKER: &str = "/bench/worker.js";

/// Name, type and bytes of everything a page may load.
const ASSETS: &[(&str, &str, &[u8])] = &[
    (
        "desk.css",
        "text/css; charset=utf-8",
        include_bytes!("../../assets/desk.css"),
    ),
    (
        "mark.svg",
        "image/svg+xml",
        include_bytes!("../../assets/mark.svg"),
    ),
    ("bench.js", SCRIPT, include_bytes!("../../assets/bench.js")),
    (
        "keypad.js",
        SCRIPT,
        include_bytes!("../../assets/keypad.js"),
    ),
    (
        "pocket.js",
        SCRIPT,
        include_bytes!("../../assets/pocket.js"),
    ),
    (
        "survey.js",
        SCRIPT,
        include_bytes!("../../assets/survey.js"),
    ),
    (
        "forget.js",
        SCRIPT,
        include_bytes!("../../assets/forget.js"),
    ),
    (
        "cabin-400.woff2",
        FONT,
        include_bytes!("../../assets/fonts/cabin-latin-400-normal.woff2"),
    ),
    (
        "cabin-400-italic.woff2",
        FONT,
        include_bytes!("../../assets/fonts/cabin-latin-400-italic.woff2"),
    ),
    (
        "cabin-600.woff2",
        FONT,
        include_bytes!("../../assets/fonts/cabin-latin-600-normal.woff2"),
    ),
    (
        "fira-mono-400.woff2",
        FONT,
        include_bytes!("../../assets/fonts/fira-mono-latin-400-normal.woff2"),
    ),
    (
        "fira-mono-500.woff2",
        FONT,
        include_bytes!("../../assets/fonts/fira-mono-latin-500-normal.woff2"),
    ),
];

/// Serves the worker. A browser looks for a newer one whenever a page of the bench is opened.
pub async fn worker() -> Response {
    let headers = [
        (header::CONTENT_TYPE, SCRIPT),
        (header::CACHE_CONTROL, "no-cache"),
    ];
    (headers, include_bytes!("../../assets/worker.js").as_slice()).into_response()
}

/// Serves one of them.
pub async fn serve(Path(name): Path<String>) -> Response {
    match ASSETS.iter().find(|(known, ..)| *known == name) {
        Some((_, kind, bytes)) => {
            let headers = [
                (header::CONTENT_TYPE, *kind),
                (header::CACHE_CONTROL, "private, max-age=3600"),
            ];
            (headers, *bytes).into_response()
        }
        None => StatusCode::NOT_FOUND.into_response(),
    }
}
