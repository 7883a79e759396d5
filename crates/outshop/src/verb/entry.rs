//! `entry`: the entries as they stand, and putting one right.

use clap::Subcommand;
use serde::Deserialize;
use serde_json::json;
use shop::book::{Authority, Statement};
use store::By;

use super::{date, saved};
use crate::{Answer, Context, Failure, words};

/// Show entries, or put one right.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Entry {
    /// One entry, whole.
    Show {
        /// Its number.
        number: u64,
    },
    /// Every entry, a line each.
    List,
    /// Put an entry right: what is named stands instead from now on; the old one stays readable.
    Correct {
        /// The number of the entry.
        number: u64,
        /// Why.
        #[arg(long)]
        because: String,
        /// What is to stand: name=value, value in JSON or as plain text; null takes a value out.
        #[arg(required = true)]
        changes: Vec<String>,
    },
    /// What came in together from a file or a list, a line each.
    Batches,
    /// Take back all that came in together; it stays readable and counts no more.
    Withdraw {
        /// The batch, as `entry batches` names it; its first letters will do.
        batch: String,
        /// Why.
        #[arg(long)]
        because: String,
    },
}

impl Entry {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Entry::Show { number } => {
                let (entry, body) = find(context, *number)?;
                let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                let pretty = serde_json::to_string_pretty(&body).unwrap_or_default();
                let value = json!({
                    "entry": number, "kind": text(&entry.kind), "form": entry.form, "done_on": text(&entry.done_on),
                    "recorded_at": text(&entry.recorded_at), "person": text(&entry.person), "body": body,
                });
                let told = format!(
                    "Entry {number}, {} (form {}), done on {}, entered {}\n{pretty}\n",
                    text(&entry.kind),
                    entry.form,
                    text(&entry.done_on),
                    text(&entry.recorded_at)
                );
                Ok(Answer::done(told, value))
            }
            Entry::List => {
                let book = context.book()?;
                let mut told = String::new();
                let mut list = Vec::new();
                for entry in context.store()?.entries()? {
                    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                    let by = text(&entry.person)
                        .parse()
                        .ok()
                        .and_then(|id| book.persons.get(&id))
                        .map_or("?", |p| p.name.as_str());
                    told.push_str(&format!(
                        "{:>6}  {}  {:<20} {by}\n",
                        entry.seq,
                        text(&entry.done_on),
                        text(&entry.kind)
                    ));
                    list.push(json!({ "entry": entry.seq, "done_on": text(&entry.done_on), "kind": text(&entry.kind), "by": by }));
                }
                Ok(Answer::done(told, json!(list)))
            }
            Entry::Correct {
                number,
                because,
                changes,
            } => correct(context, *number, because, changes),
            Entry::Batches => batches(context),
            Entry::Withdraw { batch, because } => withdraw(context, batch, because),
        }
    }
}

fn batches(context: &mut Context) -> Result<Answer, Failure> {
    let book = context.book()?;
    let mut told = String::new();
    let mut list = Vec::new();
    for batch in context.store()?.batches()? {
        let by = super::name(&book, batch.by);
        let id = batch.id.to_string();
        let line = words::log::batch(
            &id,
            batch.entries,
            batch.first,
            batch.last,
            &batch.recorded_at,
            by,
        );
        let back = if batch.withdrawn {
            format!("; {}", words::log::TAKEN_BACK)
        } else {
            String::new()
        };
        told.push_str(&format!("{line}{back}\n"));
        list.push(json!({
            "batch": id, "entries": batch.entries, "first": batch.first, "last": batch.last,
            "recorded_at": batch.recorded_at, "by": by, "withdrawn": batch.withdrawn,
        }));
    }
    if list.is_empty() {
        told.push_str(&format!("{}\n", words::log::NO_BATCH));
    }
    Ok(Answer::done(told, json!(list)))
}

fn withdraw(context: &mut Context, batch: &str, because: &str) -> Result<Answer, Failure> {
    let wanted = batch.trim().to_ascii_lowercase();
    let all = context.store()?.batches()?;
    let found: Vec<_> = all
        .iter()
        .filter(|it| wanted.len() >= 4 && it.id.to_string().starts_with(&wanted))
        .collect();
    let (batch, brought_in_by) = match found.as_slice() {
        [one] => (one.id, one.by),
        [] => {
            return Err(Failure::Input(format!(
                "There is no batch `{wanted}` in this book: `outshop entry batches` lists them, and at least four of their letters \
                 were expected."
            )));
        }
        several => {
            return Err(Failure::Input(format!(
                "{} batches begin with `{wanted}`: more of it was expected.",
                several.len()
            )));
        }
    };
    // What others entered is not for everybody to take back.
    let (book, on) = (context.book()?, context.on()?);
    let (person, known) = shop::locomotive::person(&book, context.by()?)?;
    if person != brought_in_by && !known.holds(Authority::Approve, on) {
        return Err(shop::Refusal::refused(format!(
            "Batch {batch} was brought in by {}: it is taken back by them, or by somebody who may approve.",
            super::name(&book, brought_in_by)
        ))
        .into());
    }
    let zone = context.zone()?;
    let by = By::Name(context.by()?.to_string());
    let act = context.act(by, &zone)?;
    let taken_back: Vec<_> = context
        .store()?
        .entries()?
        .iter()
        .filter(|it| it.batch.as_deref() == Some(batch.to_string().as_bytes()))
        .filter_map(stated)
        .collect();
    let late = context.look_back(&taken_back)?;
    let receipt = context.store()?.withdraw(&act, batch, because)?;
    context.tell_of_past(late)?;
    Ok(saved(
        &receipt,
        format!("Batch {batch} is taken back; it stays readable and counts no more."),
        json!({ "batch": batch.to_string() }),
    ))
}

fn find(context: &mut Context, number: u64) -> Result<(store::Entry, serde_json::Value), Failure> {
    let entries = context.store()?.entries()?;
    let count = entries.len();
    let entry = entries.into_iter().find(|e| e.number() == number);
    let entry = entry.ok_or_else(|| {
        Failure::Input(format!(
            "There is no entry {number}: this book has {count}."
        ))
    })?;
    let body = serde_json::from_slice(&entry.body)
        .map_err(|e| Failure::Machine(format!("Entry {number} does not read: {e}.")))?;
    Ok((entry, body))
}

/// What an entry states, one that puts another right in that one's place, and the day it was done on; nothing where it
/// does not read, which `check` tells.
pub(super) fn stated(entry: &store::Entry) -> Option<(Statement, jiff::civil::Date)> {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let form = u32::try_from(entry.form).ok()?;
    let statement = Statement::read(&text(&entry.kind), form, &text(&entry.body)).ok()?;
    let statement = match statement {
        Statement::Correction(it) => it.statement().ok()?,
        other => other,
    };
    Some((statement, text(&entry.done_on).parse().ok()?))
}

/// What was entered of a job after this entry, as differences of a card: nothing before, a line for each now.
pub(super) fn of_job_since(
    context: &mut Context,
    job: shop::book::JobId,
    entry: u64,
) -> Result<Vec<(String, String)>, Failure> {
    let book = context.book()?;
    let id = job.to_string();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let entries = context.store()?.entries()?;
    let since = entries.iter().filter(|it| it.number() > entry);
    let of_it = since.filter(|it| text(&it.body).contains(&id));
    let lines = of_it.map(|it| {
        let person = text(&it.person).parse().ok();
        let by = person.map_or("?", |id| super::name(&book, id));
        let kind = text(&it.kind).replace('-', " ");
        let line = words::card::entered(it.number(), &kind, &text(&it.done_on), by);
        (String::new(), line)
    });
    Ok(lines.collect())
}

fn correct(
    context: &mut Context,
    number: u64,
    because: &str,
    changes: &[String],
) -> Result<Answer, Failure> {
    let (entry, body) = find(context, number)?;
    let mut kind = String::from_utf8_lossy(&entry.kind).into_owned();
    let mut form = u32::try_from(entry.form).unwrap_or(0);
    let mut body = body;
    // A correction is itself put right by correcting the statement it carries.
    if kind == "correction" {
        let inner = |name: &str| body.get(name).and_then(|v| v.as_str()).map(str::to_string);
        let (Some(inner_kind), Some(inner_body)) = (inner("kind"), inner("body")) else {
            return Err(Failure::Machine(format!("Entry {number} does not read.")));
        };
        form = body
            .get("form")
            .and_then(serde_json::Value::as_u64)
            .and_then(|n| u32::try_from(n).ok())
            .unwrap_or(0);
        body = serde_json::from_str(&inner_body)
            .map_err(|e| Failure::Machine(format!("Entry {number} does not read: {e}.")))?;
        kind = inner_kind;
    }
    let serde_json::Value::Object(map) = &mut body else {
        return Err(Failure::Machine(format!("Entry {number} has no fields.")));
    };
    // A fire's older form does not speak of this; a correction may.
    if kind == "fire-logged" && !map.contains_key("offered") {
        map.insert("offered".into(), serde_json::Value::Null);
        form = 2;
    }
    for change in changes {
        let (name, value) = super::pair(change, "a change")?;
        if !map.contains_key(&name) {
            let known: Vec<_> = map.keys().map(String::as_str).collect();
            return Err(Failure::Input(format!(
                "Entry {number} says nothing of `{name}`: {} were expected.",
                known.join(", ")
            )));
        }
        let value = serde_json::from_str(&value).unwrap_or(serde_json::Value::String(value));
        map.insert(name, value);
    }
    let instead = Statement::read(&kind, form, &body.to_string())
        .map_err(|e| Failure::Input(format!("What is to stand does not read: {e}.")))?;
    let zone = context.zone()?;
    let by = By::Name(context.by()?.to_string());
    let mut act = context.act(by, &zone)?;
    // The work was done when it was done: mending the entry today does not move it, unless --on says so.
    if context.globals().on.is_none() {
        act.done_on = date(&String::from_utf8_lossy(&entry.done_on))?;
    }
    let mut changed = vec![(instead.clone(), act.done_on)];
    changed.extend(stated(&entry));
    let late = context.look_back(&changed)?;
    let receipt = context.store()?.correct(&act, number, because, &instead)?;
    context.tell_of_past(late)?;
    Ok(saved(
        &receipt,
        format!("Entry {number} is put right; it stays readable as it was."),
        json!({}),
    ))
}
