//! What a device of the bench holds, and the door by which it hands in readings and surveys taken without a signal.
//!
//! A device keeps a long token beside each set of readings: it says who wrote them, whoever is at the device when they
//! are sent, and opens nothing but this door. Ids of entries are made on the device, so a set that is sent again is saved
//! once (`docs/decisions/0030-the-bench-without-a-signal.md`).

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::sync::Arc;

use axum::body::Bytes;
use axum::extract::{Request as Asked, State};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_json::json;
use shop::book::{EntryId, PersonId};
use shop::locomotive::{engine, part};
use store::Token;

use super::begun::{self, Begun};
use super::page::kit;
use super::{Desk, Reader, bench, door, on_thread, trouble};
use crate::verb::boiler::Boiler;
use crate::verb::part::{Reading, Take};
use crate::verb::survey::TakeSurvey;
use crate::words::pocket as say;
use crate::{Clock, Context, Failure, Globals, Request};

/// Where readings are handed in.
pub const PATH: &str = "/bench/send";
/// Says to the scripts of the bench who is at the device. They read it, so it holds no session.
const COOKIE: &str = "outshop_bench";
/// The pages that may read it.
const PLACE: &str = "/bench";
/// How long what a device holds is good, in seconds: two weeks without a signal.
const GOOD: i64 = 14 * 86_400;
/// Sets that are taken at once.
const MOST: usize = 200;
/// Minutes by which a device's clock may be off before it is said.
const CLOSE: i64 = 5;

impl Desk {
    /// The cookie that says who is at a device from now on, with what that person's readings are handed in with.
    pub fn pocket(
        &self,
        person: PersonId,
        name: &str,
        device: Option<&str>,
    ) -> Result<HeaderValue, Failure> {
        let token = self.given(Token::Pocket, person, GOOD, device)?;
        self.pocket_cookie(&format!("{person}.{token}.{}", kit::encode(name)), GOOD)
    }

    /// The same cookie taken away.
    pub fn no_pocket(&self) -> Result<HeaderValue, Failure> {
        self.pocket_cookie("", 0)
    }

    fn pocket_cookie(&self, value: &str, seconds: i64) -> Result<HeaderValue, Failure> {
        self.cookie_for(PLACE, COOKIE, value, seconds)
    }

    /// Whose the pocket of a request is.
    fn pocket_of(&self, headers: &HeaderMap) -> Result<Option<PersonId>, Failure> {
        let Some(kept) = door::cookie(headers, COOKIE) else {
            return Ok(None);
        };
        let token = kept.split('.').nth(1).unwrap_or_default();
        Ok(self.keys()?.whose(Token::Pocket, token, self.seconds()?)?)
    }
}

/// Sees to it that a page of the bench is on a device that knows whose it is.
pub async fn know_reader(State(desk): State<Arc<Desk>>, request: Asked, next: Next) -> Response {
    let reader = request.extensions().get::<Reader>().cloned();
    let page = request.method() == Method::GET && request.uri().path().starts_with("/bench/");
    let Some(reader) = reader.filter(|_| page) else {
        return next.run(request).await;
    };
    let known = (|| -> Result<Option<HeaderValue>, Failure> {
        if desk.pocket_of(request.headers())? == Some(reader.id) {
            return Ok(None);
        }
        let device = bench::token(request.headers()).filter(|_| reader.device.is_some());
        desk.pocket(reader.id, &reader.name, device.as_deref())
            .map(Some)
    })();
    let mut response = next.run(request).await;
    // A page is shown all the same; without the cookie its form is sent as it is without scripts.
    if let Ok(Some(cookie)) = known {
        response.headers_mut().append(header::SET_COOKIE, cookie);
    }
    response
}

/// The fate of a set that was saved now, and of one that was before.
const KEPT: &str = "kept";
const ALREADY: &str = "already";

/// What a device hands in.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct HandedIn {
    /// The device's own clock, in thousandths of a second since 1970.
    now: i64,
    sets: Vec<Set>,
}

/// One set of readings: one entry.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Set {
    /// The id of the entry, made on the device.
    id: String,
    /// Who wrote it.
    person: PersonId,
    /// What says so.
    ticket: String,
    /// When, by the device's own clock.
    written: i64,
    /// The newest entry about the part that the device had seen.
    seen: u64,
    /// Readings of a part, or a survey of a sheet: one of the two.
    take: Option<Take>,
    survey: Option<TakeSurvey>,
}

/// What became of one.
#[derive(Debug, Serialize)]
struct Fate {
    id: String,
    /// `kept`, `already` (it was, before), `refused` (never as it stands), `whose` (nobody vouches for the person), or
    /// `waits` (the book or the machine failed: again later).
    fate: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    entry: Option<u64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    said: Option<String>,
}

impl Fate {
    fn of(set: &Set, fate: &'static str, said: Option<String>) -> Fate {
        Fate {
            id: set.id.clone(),
            fate,
            entry: None,
            said,
        }
    }
}

/// Takes what a device hands in, a set at a time, and says of each what became of it.
pub async fn send(State(desk): State<Arc<Desk>>, headers: HeaderMap, body: Bytes) -> Response {
    on_thread(move || {
        let no = |said: &str| answer(StatusCode::UNPROCESSABLE_ENTITY, &json!({ "said": said }));
        let handed: HandedIn = match serde_json::from_slice(&body) {
            Ok(handed) => handed,
            Err(_) => return no(say::UNREADABLE),
        };
        if handed.sets.len() > MOST {
            return no(&say::too_many(MOST));
        }
        match take(&desk, &headers, &handed) {
            Ok((clock, sets)) => answer(StatusCode::OK, &json!({ "clock": clock, "sets": sets })),
            Err(failure) => {
                let said = json!({ "said": failure.to_string() });
                answer(trouble::status(&failure), &said)
            }
        }
    })
    .await
}

fn answer(status: StatusCode, value: &serde_json::Value) -> Response {
    let headers = [(header::CONTENT_TYPE, "application/json")];
    (status, headers, value.to_string()).into_response()
}

fn take(
    desk: &Desk,
    headers: &HeaderMap,
    handed: &HandedIn,
) -> Result<(Option<String>, Vec<Fate>), Failure> {
    let (own, keys, seconds) = (desk.reader(headers)?, desk.keys()?, desk.seconds()?);
    let device = desk
        .device(headers)?
        .map_or("bench".to_string(), |(_, device)| device.name);
    let mut names: HashMap<PersonId, Option<String>> = HashMap::new();
    let mut context = desk.context(None);
    let mut sets = Vec::with_capacity(handed.sets.len());
    for set in &handed.sets {
        let vouched = own.as_ref().is_some_and(|own| own.id == set.person)
            || keys.whose(Token::Pocket, &set.ticket, seconds)? == Some(set.person);
        let name = match names.get(&set.person) {
            Some(name) => name.clone(),
            None => {
                let name = desk.person(set.person)?.map(|person| person.name);
                names.insert(set.person, name.clone());
                name
            }
        };
        let Some(name) = name.filter(|_| vouched) else {
            sets.push(Fate::of(set, "whose", None));
            continue;
        };
        sets.push(
            match one(desk, &mut context, set, &name, &device, handed.now) {
                Ok(fate) => fate,
                Err(failure) if failure.code() == 3 => {
                    Fate::of(set, "waits", Some(failure.to_string()))
                }
                Err(failure) => Fate::of(set, "refused", Some(failure.to_string())),
            },
        );
    }
    meanwhile(&mut context, &handed.sets, &mut sets)?;
    // Held against this machine's clock and not the book's own day: a demonstration stays at one.
    let here = Clock::Machine.read("UTC")?.0.as_millisecond();
    let minutes = (handed.now - here) / 60_000;
    let clock = (minutes.abs() >= CLOSE).then(|| say::clock_off(minutes));
    Ok((clock, sets))
}

/// Saves one set as whoever wrote it, through the same request as every other door.
fn one(
    desk: &Desk,
    context: &mut Context,
    set: &Set,
    name: &str,
    device: &str,
    now: i64,
) -> Result<Fate, Failure> {
    let id: EntryId = set
        .id
        .parse()
        .map_err(|_| Failure::Input(say::no_id(&set.id)))?;
    let on = written_on(context, id, now.saturating_sub(set.written).max(0))?;
    context.speak(Globals {
        device: device.to_string(),
        id: Some(id),
        on: Some(on),
        ..desk.globals(Some(name))
    });
    let asked = match (&set.take, &set.survey) {
        (Some(take), None) => Request::Reading(Reading::Take(take.clone())),
        // A device hands in what it wrote; it names no file of this machine.
        (None, Some(survey)) if survey.file.is_none() => {
            Request::Boiler(Boiler::Survey(survey.clone()))
        }
        _ => return Err(Failure::Input(say::UNREADABLE.into())),
    };
    let answer = asked.run(context)?;
    if let Some(survey) = &set.survey {
        // Begun without scripts and gone on with here: that is done with. Another one of the same sheet stays.
        let page = begun::path(&survey.engine, &survey.component);
        if Begun::of(desk, set.person, &page)?.is_some_and(|it| it.id == set.id) {
            desk.keys()?.end_draft(set.person, &page)?;
        }
    }
    let repeated = answer
        .json
        .get("repeated")
        .and_then(serde_json::Value::as_bool)
        == Some(true);
    let entry = answer
        .json
        .get("entries")
        .and_then(|it| it.get(0))
        .and_then(serde_json::Value::as_u64);
    Ok(Fate {
        entry,
        ..Fate::of(set, if repeated { ALREADY } else { KEPT }, None)
    })
}

/// The day a set was written: so long ago, by the book's clock. One that stands already keeps the day it has.
fn written_on(context: &mut Context, id: EntryId, ago: i64) -> Result<Date, Failure> {
    if let Some(day) = context.store()?.day_of(id)? {
        return Ok(day);
    }
    let now = context.now()?;
    let then = now
        .checked_sub(jiff::SignedDuration::from_millis(ago))
        .unwrap_or(now);
    Ok(context.local(then)?.date())
}

/// A set of readings: its entry, who entered it, and their name.
type Measured = (u64, PersonId, String);

/// Says of each set that was kept who else measured its part since the device had the page. A part is read once, however
/// many sets it had.
fn meanwhile(context: &mut Context, handed: &[Set], fates: &mut [Fate]) -> Result<(), Failure> {
    let mut parts: HashMap<(&str, &str), Vec<Measured>> = HashMap::new();
    for (set, fate) in handed
        .iter()
        .zip(fates)
        .filter(|(_, fate)| fate.fate == KEPT)
    {
        let Some(take) = &set.take else { continue };
        let named = (take.engine.as_str(), take.part.as_str());
        let measured = match parts.entry(named) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => new.insert(measured(context, named)?),
        };
        let others = measured
            .iter()
            .filter(|(entry, by, _)| *entry > set.seen && *by != set.person);
        let newest = others.max_by_key(|(entry, ..)| *entry);
        fate.said = newest.map(|(entry, _, name)| say::also_measured(name, *entry));
    }
    Ok(())
}

/// Every set of readings of a part.
fn measured(context: &mut Context, (number, name): (&str, &str)) -> Result<Vec<Measured>, Failure> {
    let book = context.book_of_part(number, name)?;
    let (id, _) = engine(&book, number)?;
    let (part, _) = part(&book, id, name)?;
    let sets = book.readings.newest_first(part).unwrap_or_default();
    let told = sets
        .into_iter()
        .map(|it| (it.entry, it.by, kit::name(&book, it.by).to_string()));
    Ok(told.collect())
}
