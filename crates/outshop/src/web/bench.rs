//! Devices of the bench: enrolled by an officer, and from then on a short code of one's own serves there.
//!
//! A code is worth nothing on any other device, and after a few wrong guesses it is gone. Who signs says once more who
//! they are, by passphrase or by that code.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{RawForm, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use store::{Code, Device};

use super::form::filled;
use super::page::{View, kit};
use super::{Desk, Reader, door, form, frame, on_thread, passphrase, trouble};
use crate::Failure;
use crate::words::bench as say;

/// Holds the device's own token.
const COOKIE: &str = "outshop_device";
/// Seconds a browser keeps it: as long as browsers keep any (400 days); each use begins them anew.
const KEPT: i64 = 400 * 86_400;
/// Figures of a code.
const FIGURES: usize = 6;

/// The token of the device a request comes from, if it has one.
pub fn token(headers: &HeaderMap) -> Option<String> {
    door::cookie(headers, COOKIE)
}

impl Desk {
    /// The enrolled device a request comes from, with its token.
    pub fn device(&self, headers: &HeaderMap) -> Result<Option<(String, Device)>, Failure> {
        let Some(token) = token(headers) else {
            return Ok(None);
        };
        Ok(self.keys()?.device(&token)?.map(|device| (token, device)))
    }

    /// Whether it is truly this reader: by passphrase, or by their code on an enrolled device. Slow on purpose.
    ///
    /// # Errors
    /// Input: nothing was given, it is wrong, nothing was ever set, or too many guesses were wrong.
    pub fn proved(&self, reader: &Reader, headers: &HeaderMap, given: &str) -> Result<(), Failure> {
        if given.is_empty() {
            return Err(Failure::Input(say::SIGN_AGAIN.into()));
        }
        let device = self.device(headers)?;
        if let Some((token, _)) = device.filter(|_| looks_like_code(given)) {
            let tried = self.code_is_right(&token, reader, given)?;
            return match tried {
                Tried::Right => Ok(()),
                Tried::Wrong => Err(Failure::Input(say::WRONG_CODE.into())),
                Tried::Spent => Err(Failure::Input(say::CODE_SPENT.into())),
                Tried::None => Err(Failure::Input(say::NO_CODE.into())),
            };
        }
        let mut keys = self.keys()?;
        let Some(hash) = keys.passphrase(reader.id)? else {
            return Err(Failure::Input(say::NOTHING_SET.into()));
        };
        if let Some(seconds) = keys.guess(&reader.name, self.seconds()?)? {
            return Err(Failure::Input(crate::words::door::wait(seconds)));
        }
        if !passphrase::is_of(given, &hash) {
            return Err(Failure::Input(say::WRONG_PASSPHRASE.into()));
        }
        keys.forgive(&reader.name)?;
        Ok(())
    }

    fn code_is_right(&self, token: &str, reader: &Reader, code: &str) -> Result<Tried, Failure> {
        let mut keys = self.keys()?;
        match keys.guess_code(token, reader.id)? {
            Code::None => Ok(Tried::None),
            Code::Spent => Ok(Tried::Spent),
            Code::Hash(hash) if passphrase::is_of(&together(code, token), &hash) => {
                keys.right_code(token, reader.id)?;
                Ok(Tried::Right)
            }
            Code::Hash(_) => Ok(Tried::Wrong),
        }
    }
}

enum Tried {
    Right,
    Wrong,
    Spent,
    None,
}

/// What is hashed: the code is nothing without the device.
fn together(code: &str, token: &str) -> String {
    format!("{code}:{token}")
}

fn looks_like_code(given: &str) -> bool {
    given.len() == FIGURES && given.bytes().all(|b| b.is_ascii_digit())
}

/// Why a code is too easily guessed, if it is: five guesses must not be enough.
fn too_easy(code: &str) -> bool {
    let steps: Vec<i16> = code
        .as_bytes()
        .windows(2)
        .filter_map(|two| match two {
            [a, b] => Some(i16::from(*b) - i16::from(*a)),
            _ => None,
        })
        .collect();
    steps
        .iter()
        .all(|step| Some(step) == steps.first() && step.abs() <= 1)
}

/// The page to change who is at this device: names, then a code.
pub async fn switch(State(desk): State<Arc<Desk>>, headers: HeaderMap) -> Response {
    page(
        &desk,
        &headers,
        "",
        &came_from(&headers),
        None,
        StatusCode::OK,
    )
}

/// The page of the bench that a reader came from, to go back to: whoever takes over goes on where the other was.
fn came_from(headers: &HeaderMap) -> String {
    let text = |name| {
        headers
            .get(name)
            .and_then(|it| it.to_str().ok())
            .unwrap_or_default()
    };
    let (from, host) = (text(header::REFERER), text(header::HOST));
    let path = from
        .split_once("://")
        .and_then(|(_, rest)| rest.strip_prefix(host));
    let path = path.filter(|path| path.starts_with("/bench/"));
    path.unwrap_or("/").to_string()
}

fn page(
    desk: &Desk,
    headers: &HeaderMap,
    chosen: &str,
    back: &str,
    said: Option<&str>,
    status: StatusCode,
) -> Response {
    let read = (|| -> Result<_, Failure> {
        let Some((token, device)) = desk.device(headers)? else {
            return Ok(None);
        };
        let book = desk.context(None).book()?;
        let mut names: Vec<String> = desk
            .keys()?
            .with_code(&token)?
            .iter()
            .filter_map(|id| book.persons.get(id))
            .map(|person| person.name.clone())
            .collect();
        names.sort();
        Ok(Some((device, names)))
    })();
    let body = match read {
        Ok(None) => html! {
            h1 { (say::SWITCH) }
            p class="lead" { (say::NOT_ENROLLED) }
            p { a href="/in" { (crate::words::door::SIGN_IN) } }
        },
        Ok(Some((device, names))) => html! {
            h1 { (say::SWITCH) }
            p class="lead" { (say::at_device(&device.name)) }
            @if let Some(said) = said { (trouble::said(said)) }
            @if names.is_empty() { p { (say::NO_CODES) } } @else {
                form class="act" method="post" action="/switch" {
                    (kit::hidden("back", back))
                    fieldset { legend { (say::WHO_NOW) }
                        @for (at, name) in names.iter().enumerate() {
                            label class="choice" { input type="radio" name="name" value=(name) required checked[name == chosen || (chosen.is_empty() && at == 0 && names.len() == 1)]; span { (name) } }
                        }
                    }
                    label for="code" { (say::CODE) }
                    input id="code" name="code" type="password" inputmode="numeric" pattern="[0-9]{6}" maxlength="6" autocomplete="off" required;
                    button { (say::THAT_IS_ME) }
                }
            }
            p { a href="/in" { (say::BY_PASSPHRASE) } }
        },
        Err(failure) => return door::sorry(&failure),
    };
    (status, frame::bare(say::SWITCH, &body)).into_response()
}

/// Signs somebody in by their code on this device, in the place of whoever was.
pub async fn switch_to(
    State(desk): State<Arc<Desk>>,
    headers: HeaderMap,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let fields = form::fields(&body);
        let typed = |name| filled(&fields, name).unwrap_or_default();
        let (name, code) = (typed("name"), typed("code"));
        let back = form::back(&fields);
        let tried = (|| -> Result<_, Failure> {
            let Some((token, _)) = desk.device(&headers)? else {
                return Ok(None);
            };
            let book = desk.context(None).book()?;
            let Ok((id, person)) = shop::locomotive::person(&book, &name) else {
                return Ok(Some((Tried::None, None)));
            };
            let reader = Reader {
                id,
                name: person.name.clone(),
                house: None,
                device: None,
            };
            let tried = desk.code_is_right(&token, &reader, &code)?;
            let cookie = match tried {
                Tried::Right => {
                    desk.end(&headers);
                    Some(desk.begin(id, &person.name, Some(&token))?)
                }
                _ => None,
            };
            Ok(Some((tried, cookie)))
        })();
        let wrong = |why| {
            page(
                &desk,
                &headers,
                &name,
                &back,
                Some(why),
                StatusCode::UNPROCESSABLE_ENTITY,
            )
        };
        match tried {
            Ok(Some((_, Some(cookies)))) => (cookies, Redirect::to(&back)).into_response(),
            Ok(Some((Tried::Spent, _))) => wrong(say::CODE_SPENT),
            Ok(Some(_)) => wrong(say::WRONG_CODE),
            Ok(None) => page(&desk, &headers, "", "/", None, StatusCode::FORBIDDEN),
            Err(failure) => door::sorry(&failure),
        }
    })
    .await
}

/// What there is to do about devices, on the page of people: what is enrolled, and for officers a way to enrol and revoke.
pub fn devices(view: &View<'_>, officer: bool) -> Result<Markup, Failure> {
    let devices = view.desk.keys()?.devices()?;
    let here = view.reader.device.as_deref();
    Ok(html! {
        section class="ruled" {
            h2 { (say::DEVICES) }
            p class="quiet small" { (say::DEVICES_WHY) }
            @if devices.is_empty() { p { (say::NO_DEVICES) } }
            ul class="plain" { @for device in &devices { li {
                b { (device.name) } " " span class="quiet small" { (say::enrolled_by(kit::name(view.book, device.enrolled_by))) @if here == Some(device.name.as_str()) { " " (say::THIS_ONE) } }
                @if officer { form class="act" method="post" action="/bench/revoke" { input type="hidden" name="device" value=(device.name); button class="plain" { (say::revoke(&device.name)) } } }
            } } }
            @if officer && here.is_none() {
                form class="act" method="post" action="/bench/enrol" {
                    h2 { (say::ENROL) }
                    p class="quiet small" { (say::ENROL_WHY) }
                    label for="device" { (say::DEVICE_NAME) }
                    input id="device" name="device" type="text" maxlength="40" autocomplete="off" required;
                    button { (say::ENROL_IT) }
                }
            }
        }
    })
}

/// The form by which a reader sets their code on this device; where it is not enrolled, how it would be.
pub fn code_form(here: Option<&str>) -> Markup {
    html! {
        form class="act" method="post" action="/bench/code" {
            h2 { (say::OWN_CODE) }
            @match here {
                None => p class="quiet small" { (say::NOT_ENROLLED) },
                Some(device) => {
                    p class="quiet small" { (say::code_rules(device)) }
                    label for="code" { (say::NEW_CODE) }
                    input id="code" name="code" type="password" inputmode="numeric" pattern="[0-9]{6}" maxlength="6" autocomplete="off" required;
                    label for="code-passphrase" { (crate::words::door::PASSPHRASE) }
                    input id="code-passphrase" name="passphrase" type="password" autocomplete="current-password" required;
                    button { (say::SET_CODE) }
                },
            }
        }
    }
}

fn no(reader: &Reader, status: StatusCode, why: &str) -> Response {
    trouble::page(
        status,
        say::NOT_DONE,
        why,
        &[
            ("/people", crate::words::people::TITLE),
            ("/me", &reader.name),
        ],
    )
    .into_response()
}

/// Enrols the device that asks.
pub async fn enrol(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    let name = filled(&form::fields(&body), "device").unwrap_or_default();
    let done = (|| -> Result<Result<HeaderValue, &str>, Failure> {
        if !desk.approves(&reader)? {
            return Ok(Err(say::OFFICER_ONLY));
        }
        if name.is_empty() || name.chars().count() > 40 {
            return Ok(Err(say::NAME_NEEDED));
        }
        let token = door::token()?;
        if !desk
            .keys()?
            .enrol(&token, &name, reader.id, desk.seconds()?)?
        {
            return Ok(Err(say::NAME_TAKEN));
        }
        Ok(Ok(desk.cookie(COOKIE, &token, KEPT)?))
    })();
    match done {
        Ok(Ok(cookie)) => ([(header::SET_COOKIE, cookie)], Redirect::to("/me")).into_response(),
        Ok(Err(why)) => no(&reader, StatusCode::UNPROCESSABLE_ENTITY, why),
        Err(failure) => door::sorry(&failure),
    }
}

/// Takes a device back.
pub async fn revoke(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    let name = filled(&form::fields(&body), "device").unwrap_or_default();
    let done = (|| -> Result<Option<&str>, Failure> {
        if !desk.approves(&reader)? {
            return Ok(Some(say::OFFICER_ONLY));
        }
        Ok((!desk.keys()?.revoke(&name)?).then_some(say::NO_SUCH_DEVICE))
    })();
    match done {
        Ok(None) => Redirect::to("/people").into_response(),
        Ok(Some(why)) => no(&reader, StatusCode::UNPROCESSABLE_ENTITY, why),
        Err(failure) => door::sorry(&failure),
    }
}

/// Sets the reader's code on the device that asks; the passphrase is asked first.
pub async fn set_code(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    headers: HeaderMap,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let set = (|| -> Result<(), Failure> {
            let fields = form::fields(&body);
            let typed = |name| filled(&fields, name).unwrap_or_default();
            let (code, given) = (typed("code"), typed("passphrase"));
            let Some((token, _)) = desk.device(&headers)? else {
                return Err(Failure::Input(say::NOT_ENROLLED.into()));
            };
            if !looks_like_code(&code) || too_easy(&code) {
                return Err(Failure::Input(say::CODE_RULES.into()));
            }
            // Without the device's cookie only the passphrase counts: an old code must not set a new one.
            desk.proved(&reader, &HeaderMap::new(), &given)?;
            let hash = passphrase::hash(&together(&code, &token))?;
            desk.keys()?.set_code(&token, reader.id, &hash)?;
            Ok(())
        })();
        match set {
            Ok(()) => Redirect::to("/me").into_response(),
            Err(failure) => no(&reader, trouble::status(&failure), &failure.to_string()),
        }
    })
    .await
}

#[cfg(test)]
mod tests {
    use super::{looks_like_code, too_easy};

    #[test]
    fn codes_that_five_guesses_would_find_are_refused() {
        for easy in ["000000", "777777", "123456", "654321", "012345"] {
            assert!(too_easy(easy), "{easy}");
        }
        for good in ["493817", "112233", "121212", "135791"] {
            assert!(!too_easy(good), "{good}");
        }
        assert!(looks_like_code("493817"));
        for no in ["49381", "4938172", "49381a", ""] {
            assert!(!looks_like_code(no), "{no}");
        }
    }
}
