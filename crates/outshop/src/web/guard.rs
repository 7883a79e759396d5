//! What stands before every page: strict headers, and no act on another site's behalf.

use axum::extract::Request;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::trouble;

/// Nothing from outside, no script, no inline style, no frame.
macro_rules! policy {
    ($more:literal) => {
        concat!(
            "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; form-action 'self'; ",
            "base-uri 'none'; frame-ancestors 'none'",
            $more
        )
    };
}
const POLICY: &str = policy!("");

/// The same for pages of the bench and for the way in, which run scripts of ours: files of this desk, none inline.
const WITH_SCRIPTS: &str = policy!("; script-src 'self'; connect-src 'self'; worker-src 'self'");

/// The policy of a path.
fn policy(path: &str) -> &'static str {
    if path.starts_with("/bench/") || path == "/in" {
        WITH_SCRIPTS
    } else {
        POLICY
    }
}

/// Puts the headers on every answer.
pub async fn headers(request: Request, next: Next) -> Response {
    let policy = policy(request.uri().path());
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, policy),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Refuses any act that another site's page asks for.
pub async fn same_origin(request: Request, next: Next) -> Response {
    let safe = matches!(
        *request.method(),
        Method::GET | Method::HEAD | Method::OPTIONS
    );
    if safe || is_ours(request.headers()) {
        return next.run(request).await;
    }
    let page = trouble::page(
        StatusCode::FORBIDDEN,
        crate::words::door::FROM_ELSEWHERE,
        crate::words::door::FROM_ELSEWHERE_WHY,
        &[("/", crate::words::trouble::THE_DAYS_AHEAD)],
    );
    page.into_response()
}

fn is_ours(headers: &HeaderMap) -> bool {
    let text = |name: header::HeaderName| headers.get(name).and_then(|v| v.to_str().ok());
    if let Some(site) = headers.get("sec-fetch-site").and_then(|v| v.to_str().ok()) {
        return matches!(site, "same-origin" | "none");
    }
    let origin = text(header::ORIGIN)
        .and_then(|o| o.split_once("://"))
        .map(|(_, host)| host);
    origin.is_some() && origin == text(header::HOST)
}
