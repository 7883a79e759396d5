//! `blue`: a face blued while a seat is lapped, as somebody saw it: where it touches, how wide, after which grit.

use clap::Args;
use measure::Size;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::Refusal;
use shop::book::{Blue as Kept, BlueChecked, BlueSeen, BluedFace, RingWidth, Touch};
use shop::locomotive::{job, photo};
use shop::proof::{check_blue, degrees};

use super::saved;
use crate::words::{blue as say, tag};
use crate::{Answer, Context, Failure};

/// State a blue check of a seat that is lapped.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blue {
    /// The job, such as J-001.
    pub job: String,
    /// Which face: seat or disc, each against its master; or together.
    pub face: String,
    /// After which cut or grit, such as "320 grit".
    #[arg(long)]
    pub after: String,
    /// Where it touches: "all round", "nowhere", or arcs in degrees clockwise from the front, such as "20-140, 200-350".
    #[arg(long)]
    pub touches: String,
    /// How wide the ring is where it touches: one size, or the least and the most, such as "1/32 in to 3/64 in".
    #[arg(long)]
    #[serde(default)]
    pub width: Option<String>,
    /// How wide it is to be, the least and the most; said once, it holds for the face until it is said again.
    #[arg(long)]
    #[serde(default)]
    pub wanted: Option<String>,
    /// The photograph of it, such as P-003.
    #[arg(long)]
    #[serde(default)]
    pub photo: Option<String>,
    /// What else was seen.
    #[arg(long)]
    #[serde(default)]
    pub told: Option<String>,
}

impl Blue {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, _, _| {
            let (id, _) = job(book, &self.job)?;
            let photo = match &self.photo {
                Some(number) => Some(photo(book, number)?.0),
                None => None,
            };
            let seen = BlueSeen {
                face: face(&self.face)?,
                after: self.after.clone(),
                touches: touches(&self.touches)?,
                width: self.width.as_deref().map(width).transpose()?,
                wanted: self.wanted.as_deref().map(width).transpose()?,
                photo,
                told: self.told.clone(),
            };
            check_blue(book, BlueChecked { job: id, seen })
        })?;
        let (book, house) = (context.book()?, context.house());
        let (_, kept) = job(&book, &self.job)?;
        let number = tag::job(kept.number);
        let Some(newest) = kept.blues.last() else {
            return Err(Failure::Machine(say::NOT_THERE.into()));
        };
        let value = json!({ "job": number, "blue": shown(newest) });
        Ok(saved(
            &receipt,
            say::line(&number, &newest.seen, house),
            value,
        ))
    }
}

/// A blue check as JSON has it.
fn shown(blue: &Kept) -> Value {
    let seen = &blue.seen;
    json!({
        "face": seen.face.word(), "after": seen.after, "touches": say::touches(&seen.touches),
        "degrees": degrees(&seen.touches), "on": blue.on.to_string(),
    })
}

fn face(text: &str) -> Result<BluedFace, Refusal> {
    let found = BluedFace::ALL.into_iter();
    let found = found.into_iter().find(|face| face.word() == text.trim());
    found.ok_or_else(|| Refusal::input(say::no_face(text)))
}

fn touches(text: &str) -> Result<Vec<Touch>, Refusal> {
    match text.trim() {
        "all round" => return Ok(vec![Touch { from: 0, to: 360 }]),
        "nowhere" => return Ok(Vec::new()),
        _ => {}
    }
    let arc = |one: &str| {
        let (from, to) = one.trim().split_once('-')?;
        Some(Touch {
            from: from.trim().parse().ok()?,
            to: to.trim().parse().ok()?,
        })
    };
    let all: Option<Vec<Touch>> = text.split(',').map(arc).collect();
    all.ok_or_else(|| Refusal::input(say::no_arcs(text)))
}

fn width(text: &str) -> Result<RingWidth, Refusal> {
    let size = |text: &str| {
        Size::parse(text.trim())
            .map_err(|why| Refusal::input(say::no_width(text, &why.to_string())))
    };
    let (least, most) = match text.split_once(" to ") {
        Some((least, most)) => (size(least)?, size(most)?),
        None => (size(text)?, size(text)?),
    };
    Ok(RingWidth { least, most })
}
