//! `part wear`, `part plan`: what the book tells of a part's wear and what to do over the years, by the sheets `wear.forecast`
//! and `wear.policy`.

use std::collections::BTreeMap;

use clap::Args;
use measure::show;
use serde::Deserialize;
use serde_json::json;
use shop::locomotive::{engine, part};
use shop::route::{plan, wear};

use super::{pair, wrap};
use crate::words::{self, wear as say};
use crate::{Answer, Context, Failure};

/// What the book tells of a part's wear: its rate, the service days to each limit, the chance before each opening.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tells {
    /// The engine's number.
    pub engine: String,
    /// The part's name.
    pub part: String,
    /// Service days planned in a year; those of the last 365 days if left out and their log is closed.
    #[arg(long, value_name = "DAYS")]
    #[serde(default)]
    pub a_year: Option<u32>,
}

/// Service days in a year, if as many can be.
///
/// # Errors
/// Input: none, or more than a year has.
pub fn planned(a_year: Option<u32>) -> Result<Option<u32>, Failure> {
    match a_year {
        Some(days) if !(1..=366).contains(&days) => {
            Err(Failure::Input(say::not_days(&days.to_string())))
        }
        days => Ok(days),
    }
}

impl Tells {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let planned = planned(self.a_year)?;
        let (on, house) = (context.on()?, context.house());
        let rules = context.rules()?;
        let book = context.book_of_part_with_fires(&self.engine, &self.part)?;
        let (locomotive, kept) = engine(&book, &self.engine)?;
        let (id, named) = part(&book, locomotive, &self.part)?;
        let told = wear(&book, rules, id, on, house, planned)?;
        let mut text = format!("{}, {}\n", named.name, words::engine(&kept.number));
        let mut line = |indent: usize, said: &str| {
            text.push_str(&format!(
                "{}{}\n",
                " ".repeat(indent),
                wrap(said, indent, 100)
            ));
        };
        for it in told.forecasts.iter().filter(|it| !say::has_rate(it)) {
            line(2, &say::without(it, &show::size(it.now.2, house)));
        }
        for it in told.forecasts.iter().filter(|it| say::has_rate(it)) {
            line(
                2,
                &format!(
                    "{}: {}",
                    it.title,
                    say::now(it, &show::size(it.now.2, house))
                ),
            );
            for opening in &it.openings {
                line(4, &say::opening(opening, house));
            }
            for said in say::rate(it) {
                line(4, &said);
            }
            for said in say::by_miles(it) {
                line(4, &said);
            }
            if let Some(beside) = &it.beside {
                line(4, &say::mirror(it, &beside.part));
            }
            for (ahead, sheet) in it.ahead.iter().filter(|_| say::has_chance(it)) {
                line(4, &say::before(ahead, sheet, it));
            }
        }
        for ahead in &told.coming.ahead {
            line(2, &words::sentence(&say::coming(ahead)));
        }
        for why in told.wanting.iter().chain(&told.coming.wanting) {
            line(2, &words::sentence(why));
        }
        if let Some((days, whose)) = &told.coming.a_year {
            line(2, &say::a_year(*days, whose));
        }
        if told.forecasts.is_empty() && told.wanting.is_empty() {
            line(2, say::NEVER_READ);
        }
        let value = json!({
            "part": named.name,
            "wear": told.forecasts.iter().map(|it| json!({
                "size": it.name, "sheet": it.sheet.to_json(),
                "openings": it.openings.iter().map(|opening| json!({
                    "left": opening.left.map(|(day, size)| json!({ "on": day.to_string(), "in": show::decimal_in(size) })),
                    "found": { "on": opening.found.0.to_string(), "in": show::decimal_in(opening.found.1) },
                    "service_days": opening.days, "told": opening.told,
                    "miles": opening.miles.as_ref().and_then(|run| run.as_ref().ok()),
                    "miles_need": opening.miles.as_ref().and_then(|run| run.as_ref().err()),
                })).collect::<Vec<_>>(),
                "by_miles": it.by_miles.as_ref().map(physics::Sheet::to_json),
                "ahead": it.ahead.iter().map(|(ahead, sheet)| json!({ "opening": ahead.what, "service_days": ahead.days, "why": ahead.why, "sheet": sheet.to_json() })).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
            "wanting": told.wanting,
        });
        Ok(Answer::done(text, value))
    }
}

/// Leave, cut or renew at each opening over the years, for a size that has steps.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plans {
    /// The engine's number.
    pub engine: String,
    /// The part's name.
    pub part: String,
    /// The size, such as seat-wall.
    pub size: String,
    /// An argument of the sheet that the book lacks or has otherwise: name=value. May be given again.
    #[arg(long = "with")]
    #[serde(default)]
    pub with: Vec<String>,
    /// Service days planned in a year; those of the last 365 days if left out and their log is closed.
    #[arg(long, value_name = "DAYS")]
    #[serde(default)]
    pub a_year: Option<u32>,
}

impl Plans {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let planned = planned(self.a_year)?;
        let typed: BTreeMap<String, String> = self
            .with
            .iter()
            .map(|typed| pair(typed, "an argument of the sheet"))
            .collect::<Result<_, _>>()?;
        known(&typed)?;
        let (on, house) = (context.on()?, context.house());
        let rules = context.rules()?;
        let book = context.book_of_part(&self.engine, &self.part)?;
        let (locomotive, _) = engine(&book, &self.engine)?;
        let (id, _) = part(&book, locomotive, &self.part)?;
        let size = self.size.trim();
        let told = plan(&book, rules, (id, size), &typed, on, house, planned)?;
        let missing: Vec<String> = told
            .stands
            .iter()
            .filter(|it| it.given.is_none())
            .map(|it| words::plan::missing(it.name, it.meaning, &it.settles))
            .collect();
        let value = json!({
            "size": size,
            "given": told.stands.iter().filter_map(|it| it.given.as_ref()).map(|it| json!({ "name": it.name, "text": it.text, "from": it.basis.to_string() })).collect::<Vec<_>>(),
            "missing": told.stands.iter().filter(|it| it.given.is_none()).map(|it| json!({ "name": it.name, "settles": it.settles })).collect::<Vec<_>>(),
            "sheet": told.sheet.as_ref().and_then(|sheet| Some(sheet.as_ref().ok()?.to_json())),
        });
        match told.sheet {
            Some(Ok(sheet)) => Ok(Answer::done(sheet.to_text(), value)),
            Some(Err(why)) => Err(Failure::Input(why)),
            None => {
                let mut text = format!("{}\n", words::plan::cannot_tell(&told.title));
                for line in missing {
                    text.push_str(&format!("  - {}\n", wrap(&line, 4, 100)));
                }
                Ok(Answer {
                    code: 1,
                    ..Answer::done(text, value)
                })
            }
        }
    }
}

/// Refuses an argument that the sheet does not have.
fn known(typed: &BTreeMap<String, String>) -> Result<(), Failure> {
    let card = physics::find(shop::route::POLICY)?.card;
    for name in typed.keys() {
        if card.argument(name).is_none() {
            let all: Vec<_> = card.arguments.iter().map(|it| it.name).collect();
            return Err(Failure::Input(words::plan::no_argument(name, &all)));
        }
    }
    Ok(())
}
