//! Signing in and out: a one-time link, or a passphrase kept as a modern hash.

use std::sync::{Arc, OnceLock};

use axum::Extension;
use axum::extract::{Path, RawForm, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{AppendHeaders, IntoResponse, Redirect, Response};
use maud::{Markup, html};
use measure::House;
use shop::book::PersonId;
use store::{Keys, Token};

use super::{Desk, Reader, form, frame, passphrase, trouble};
use crate::words::{self, door as say};
use crate::{Context, Failure, Ids};

/// How long a session is good, in seconds: a working day and the next morning.
const SESSION: i64 = 20 * 3600;
/// How long a link is good, in seconds.
const LINK: i64 = 3600;
const COOKIE: &str = "outshop_desk";

/// What a browser keeps when a session begins or ends: the session's own cookie, and that of the bench.
pub type Cookies = AppendHeaders<[(HeaderName, HeaderValue); 2]>;

/// Makes a link that signs a person in once; gives its path.
///
/// # Errors
/// If the person is not in the book, or the keys cannot be written.
pub fn one_time_link(context: &mut Context, name: &str, now: i64) -> Result<String, Failure> {
    let book = context.book()?;
    let (person, _) = shop::locomotive::person(&book, name)?;
    let token = token()?;
    Keys::beside(&context.path()?)?.give(Token::Link, &token, person, now + LINK)?;
    Ok(format!("/in/{token}"))
}

/// A long token that nobody guesses.
///
/// # Errors
/// If the machine gives no chance.
pub fn token() -> Result<String, Failure> {
    let mut random = Ids::Random;
    Ok(format!("{:032x}{:032x}", random.draw()?, random.draw()?))
}

impl Desk {
    /// The keys beside the book.
    pub fn keys(&self) -> Result<Keys, Failure> {
        Ok(Keys::beside(&self.book)?)
    }

    /// A person of the book as a reader.
    pub fn person(&self, id: PersonId) -> Result<Option<Reader>, Failure> {
        let book = self.context(None).book_of_shop()?;
        let house = self.keys()?.house(id)?;
        Ok(book.persons.get(&id).map(|person| Reader {
            id,
            name: person.name.clone(),
            house,
            device: None,
        }))
    }

    /// Who a request's cookie speaks for.
    pub fn reader(&self, headers: &HeaderMap) -> Result<Option<Reader>, Failure> {
        let Some(token) = cookie(headers, COOKIE) else {
            return Ok(None);
        };
        match self
            .keys()?
            .whose(Token::Session, &token, self.seconds()?)?
        {
            Some(id) => {
                let device = self.device(headers)?.map(|(_, device)| device.name);
                Ok(self.person(id)?.map(|reader| Reader { device, ..reader }))
            }
            None => Ok(None),
        }
    }

    /// Begins a session, on an enrolled device if its token is given; gives its cookie, and that of the bench.
    pub fn begin(
        &self,
        person: PersonId,
        name: &str,
        device: Option<&str>,
    ) -> Result<Cookies, Failure> {
        let token = self.given(Token::Session, person, SESSION, device)?;
        Ok(AppendHeaders([
            (header::SET_COOKIE, self.cookie(COOKIE, &token, SESSION)?),
            (header::SET_COOKIE, self.pocket(person, name, device)?),
        ]))
    }

    /// A new token that is good for so many seconds, and no longer than the device it is given on.
    pub fn given(
        &self,
        kind: Token,
        person: PersonId,
        seconds: i64,
        device: Option<&str>,
    ) -> Result<String, Failure> {
        let (token, keys) = (token()?, self.keys()?);
        keys.give(kind, &token, person, self.seconds()? + seconds)?;
        if let Some(device) = device {
            keys.begun_on(&token, device)?;
        }
        Ok(token)
    }

    /// Ends the session a request speaks in.
    pub fn end(&self, headers: &HeaderMap) {
        if let Some(token) = cookie(headers, COOKIE)
            && let (Ok(keys), Ok(now)) = (self.keys(), self.seconds())
        {
            let _ = keys.take(Token::Session, &token, now);
        }
    }

    /// A cookie for so many seconds that no script reads.
    pub fn cookie(&self, name: &str, value: &str, seconds: i64) -> Result<HeaderValue, Failure> {
        self.cookie_for("/; HttpOnly", name, value, seconds)
    }

    /// A cookie for so many seconds, for a place of this desk only, and over https never sent without it.
    pub fn cookie_for(
        &self,
        place: &str,
        name: &str,
        value: &str,
        seconds: i64,
    ) -> Result<HeaderValue, Failure> {
        let secure = if self.secure { "; Secure" } else { "" };
        let text =
            format!("{name}={value}; Path={place}; SameSite=Strict; Max-Age={seconds}{secure}");
        HeaderValue::from_str(&text).map_err(|e| Failure::Machine(e.to_string()))
    }
}

/// The value of a cookie that a request carries.
pub fn cookie(headers: &HeaderMap, name: &str) -> Option<String> {
    let all = headers.get(header::COOKIE)?.to_str().ok()?;
    all.split(';')
        .find_map(|one| one.trim().strip_prefix(name)?.strip_prefix('='))
        .map(str::to_string)
}

/// Lets only a reader pass, and says to the page who it is.
pub async fn need_reader(
    State(desk): State<Arc<Desk>>,
    mut request: Request,
    next: Next,
) -> Response {
    match desk.reader(request.headers()) {
        Ok(Some(reader)) => {
            request.extensions_mut().insert(reader);
            next.run(request).await
        }
        Ok(None) => Redirect::to(way_in(&desk, request.headers())).into_response(),
        Err(failure) => sorry(&failure),
    }
}

/// Where somebody who is not signed in begins: at the bench the next person gives a code, elsewhere a name and a
/// passphrase.
pub fn way_in(desk: &Desk, headers: &HeaderMap) -> &'static str {
    let enrolled = matches!(desk.device(headers), Ok(Some(_)));
    if enrolled { "/switch" } else { "/in" }
}

/// A page for when nothing can be read.
pub fn sorry(failure: &Failure) -> Response {
    let ways = [("/in", say::SIGN_IN), ("/", words::trouble::THE_DAYS_AHEAD)];
    trouble::page(
        trouble::status(failure),
        words::trouble::NO_BOOK,
        &failure.to_string(),
        &ways,
    )
    .into_response()
}

/// Asks for a name and a passphrase.
pub async fn ask() -> Response {
    sign_in("", None).into_response()
}

/// The name is typed: who is in the book is not for everybody to read.
fn sign_in(name: &str, wrong: Option<&str>) -> Markup {
    let body = html! {
        h1 { (say::WHO) }
        p class="lead" { (say::WHY) }
        @if let Some(wrong) = wrong { (trouble::said(wrong)) }
        form class="act" method="post" action="/in" {
            label for="name" { (say::NAME) }
            input id="name" name="name" type="text" value=(name) autocomplete="username" required;
            label for="passphrase" { (say::PASSPHRASE) }
            input id="passphrase" name="passphrase" type="password" autocomplete="current-password" required;
            button { (say::SIGN_IN) }
        }
        script type="module" src="/asset/forget.js" {}
    };
    frame::bare(say::SIGN_IN, &body)
}

/// Signs in by passphrase.
pub async fn with_passphrase(State(desk): State<Arc<Desk>>, RawForm(body): RawForm) -> Response {
    let fields = form::fields(&body);
    let field = |name: &str| form::value(&fields, name).to_string();
    let (name, passphrase) = (field("name"), field("passphrase"));
    let typed = name.clone();
    // Hashing takes a while on purpose; it must not hold up the pages of others.
    let tried = tokio::task::spawn_blocking(move || tried(&desk, &name, &passphrase)).await;
    let tried = match tried {
        Ok(Ok(tried)) => tried,
        Ok(Err(failure)) => return sorry(&failure),
        Err(e) => return sorry(&Failure::Machine(e.to_string())),
    };
    let (status, wrong) = match tried {
        Tried::Right(cookies) => {
            return (cookies, Redirect::to("/")).into_response();
        }
        Tried::Wrong => (StatusCode::UNPROCESSABLE_ENTITY, say::WRONG.to_string()),
        Tried::Wait(seconds) => (StatusCode::TOO_MANY_REQUESTS, say::wait(seconds)),
    };
    let mut answer = (status, sign_in(&typed, Some(&wrong))).into_response();
    if let Tried::Wait(seconds) = tried {
        answer
            .headers_mut()
            .insert(header::RETRY_AFTER, HeaderValue::from(seconds));
    }
    answer
}

/// What came of a name and a passphrase.
enum Tried {
    /// They go together; the cookie of the session.
    Right(Cookies),
    /// They do not, or nobody has that name, or no passphrase was set: nobody learns which.
    Wrong,
    /// Too many were wrong: so many seconds are to be waited first.
    Wait(i64),
}

fn tried(desk: &Desk, name: &str, passphrase: &str) -> Result<Tried, Failure> {
    let mut keys = desk.keys()?;
    if let Some(seconds) = keys.guess(name, desk.seconds()?)? {
        return Ok(Tried::Wait(seconds));
    }
    let book = desk.context(None).book()?;
    let person = shop::locomotive::person(&book, name).ok();
    let own = match person {
        Some((id, _)) => keys.passphrase(id)?,
        None => None,
    };
    // Where there is no passphrase, one that nobody has is tried: the answer takes as long.
    let nobodys = match NOBODYS.get() {
        Some(hash) => hash,
        None => {
            let hash = passphrase::hash(&token()?)?;
            NOBODYS.get_or_init(|| hash)
        }
    };
    let hash = own.as_ref().unwrap_or(nobodys);
    let right = passphrase::is_of(passphrase, hash) && own.is_some();
    match person.filter(|_| right) {
        Some((id, person)) => {
            keys.forgive(name)?;
            Ok(Tried::Right(desk.begin(id, &person.name, None)?))
        }
        None => Ok(Tried::Wrong),
    }
}

/// A hash that no passphrase of a person is held against.
static NOBODYS: OnceLock<String> = OnceLock::new();

/// Shows whom a link signs in; following it changes nothing yet.
pub async fn link(State(desk): State<Arc<Desk>>, Path(token): Path<String>) -> Response {
    let found = (|| -> Result<Option<Reader>, Failure> {
        let seconds = desk.seconds()?;
        match desk.keys()?.whose(Token::Link, &token, seconds)? {
            Some(id) => desk.person(id),
            None => Ok(None),
        }
    })();
    match found {
        Ok(Some(reader)) => {
            let body = html! {
                h1 { (say::sign_in_as_asked(&reader.name)) }
                p class="lead" { (say::LINK_WORKS) }
                form class="act" method="post" action=(format!("/in/{token}")) { button { (say::sign_in_as(&reader.name)) } }
            };
            frame::bare(say::SIGN_IN, &body).into_response()
        }
        Ok(None) => spent(),
        Err(failure) => sorry(&failure),
    }
}

fn spent() -> Response {
    trouble::page(
        StatusCode::GONE,
        say::SPENT,
        say::SPENT_WHY,
        &[("/in", say::SIGN_IN)],
    )
    .into_response()
}

/// Signs in by link, and spends it.
pub async fn with_link(State(desk): State<Arc<Desk>>, Path(token): Path<String>) -> Response {
    let begun = (|| -> Result<Option<Cookies>, Failure> {
        let (keys, now) = (desk.keys()?, desk.seconds()?);
        let Some(id) = keys.whose(Token::Link, &token, now)? else {
            return Ok(None);
        };
        keys.take(Token::Link, &token, now)?;
        let Some(reader) = desk.person(id)? else {
            return Ok(None);
        };
        keys.forgive(&reader.name)?;
        desk.begin(id, &reader.name, None).map(Some)
    })();
    match begun {
        Ok(Some(cookies)) => (cookies, Redirect::to("/")).into_response(),
        Ok(None) => spent(),
        Err(failure) => sorry(&failure),
    }
}

/// Signs out.
pub async fn leave(State(desk): State<Arc<Desk>>, headers: HeaderMap) -> Response {
    desk.end(&headers);
    let gone = [desk.cookie(COOKIE, "", 0), desk.no_pocket()].map(|cookie| {
        let cookie = cookie.unwrap_or(HeaderValue::from_static(""));
        (header::SET_COOKIE, cookie)
    });
    (AppendHeaders(gone), Redirect::to("/in")).into_response()
}

/// The reader's own page.
pub async fn me(State(desk): State<Arc<Desk>>, request: Request) -> Response {
    own_page(
        &desk,
        request.extensions().get::<Reader>(),
        None,
        StatusCode::OK,
    )
}

fn own_page(
    desk: &Desk,
    reader: Option<&Reader>,
    said: Option<&str>,
    status: StatusCode,
) -> Response {
    let Some(reader) = reader else {
        return Redirect::to("/in").into_response();
    };
    let mut context = desk.context(None);
    let read = context.book().and_then(|book| Ok((book, context.on()?)));
    let (book, on) = match read {
        Ok(read) => read,
        Err(failure) => return sorry(&failure),
    };
    let may = book
        .persons
        .get(&reader.id)
        .map(|p| p.may(on).iter().map(|a| a.word()).collect::<Vec<_>>())
        .unwrap_or_default();
    let body = html! {
        h1 { (reader.name) }
        p class="lead" { (say::may(&may)) " " a href="/people" { (words::people::TITLE) } }
        @if let Some(said) = said { (trouble::said(said)) }
        form class="act" method="post" action="/me" {
            h2 { (say::SET_PASSPHRASE) }
            p class="quiet small" { (say::PASSPHRASE_RULES) }
            label for="passphrase" { (say::NEW_PASSPHRASE) }
            input id="passphrase" name="passphrase" type="password" autocomplete="new-password" minlength="12" required;
            button { (say::SET_IT) }
        }
        form class="act" method="post" action="/me/units" {
            h2 { (say::UNITS) }
            p class="quiet small" { (say::UNITS_MEAN) }
            @for (word, house, name) in HOUSES {
                label class="choice" { input type="radio" name="house" value=(word) checked[reader.house == *house]; span { (name) } }
            }
            button { (say::READ_SO) }
        }
        (super::bench::code_form(reader.device.as_deref()))
        (super::link::form(&book, reader, on))
    };
    let shop = book.shop.as_ref();
    let place = frame::Place {
        shop: shop.map_or(words::page::PROGRAM, |s| s.name.as_str()),
        here: "/me",
        reader: Some(reader),
        held: shop.and_then(|s| s.demonstration),
    };
    (status, frame::page(&place, &reader.name, &body)).into_response()
}

/// The choices of units, as words of the form.
const HOUSES: &[(&str, Option<House>, &str)] = &[
    ("shop", None, say::UNITS_OF_SHOP),
    ("inch", Some(House::Inch), say::UNITS_INCH),
    ("metric", Some(House::Metric), say::UNITS_METRIC),
];

/// Keeps the units the reader reads in.
pub async fn set_house(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    let fields = form::fields(&body);
    let word = form::value(&fields, "house");
    let house = HOUSES.iter().find(|(known, ..)| *known == word);
    let Some((_, house, _)) = house else {
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        return own_page(&desk, Some(&reader), Some(say::NO_UNITS), status);
    };
    match desk
        .keys()
        .and_then(|keys| Ok(keys.set_house(reader.id, *house)?))
    {
        Ok(()) => Redirect::to("/me").into_response(),
        Err(failure) => sorry(&failure),
    }
}

/// Sets the reader's passphrase.
pub async fn set_passphrase(State(desk): State<Arc<Desk>>, request: Request) -> Response {
    let reader = request.extensions().get::<Reader>().cloned();
    let Ok(body) = axum::body::to_bytes(request.into_body(), 10_000).await else {
        return own_page(
            &desk,
            reader.as_ref(),
            Some(say::TOO_LONG),
            StatusCode::PAYLOAD_TOO_LARGE,
        );
    };
    let fields = form::fields(&body);
    let passphrase = form::value(&fields, "passphrase").to_string();
    let Some(known) = reader.clone() else {
        return Redirect::to("/in").into_response();
    };
    if passphrase.chars().count() < 12 {
        return own_page(
            &desk,
            reader.as_ref(),
            Some(say::TOO_SHORT),
            StatusCode::UNPROCESSABLE_ENTITY,
        );
    }
    let worker = desk.clone();
    let set = tokio::task::spawn_blocking(move || -> Result<Cookies, Failure> {
        let hash = passphrase::hash(&passphrase)?;
        let mut keys = worker.keys()?;
        keys.set_passphrase(known.id, &hash)?;
        keys.forgive(&known.name)?;
        worker.begin(known.id, &known.name, None)
    })
    .await;
    match set {
        Ok(Ok(cookies)) => (cookies, Redirect::to("/")).into_response(),
        Ok(Err(failure)) => sorry(&failure),
        Err(e) => sorry(&Failure::Machine(e.to_string())),
    }
}
