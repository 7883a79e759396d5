//! `move`: an engine that does not comply is moved. Who decided, how, how fast, to where; and how it ended.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::Refusal;
use shop::book::{Book, InspectedBy, MoveDecided, MoveEnd, MoveId, MoveUnder, Movement};
use shop::locomotive::{engine, engines, finding};
use shop::record::{decide_move, end_move};

use super::{date, name, saved, wrap};
use crate::words::moved as say;
use crate::{Answer, Context, Failure, words};

/// Decide on the move of an engine that does not comply, and say how it ended.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(clippy::large_enum_variant, reason = "one is read for a whole request")]
pub enum Move {
    /// Decide that she can be moved safely. Who enters it decides; it lifts nothing and is no release.
    Decide(Decide),
    /// Say how the move that is open ended.
    End(End),
    /// Moves of an engine, or of all; what is open first.
    List {
        /// Only of this engine.
        engine: Option<String>,
    },
}

/// Decide that she can be moved safely.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decide {
    /// Her number.
    pub engine: String,
    /// What it stands on: to-repair, in-yard, on-from-road or special-notice.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub under: String,
    /// Of a special notice: the finding that hangs on it, such as F-003.
    #[arg(long)]
    pub finding: Option<String>,
    /// Of a special notice: what it allows.
    #[arg(long)]
    pub allows: Option<String>,
    /// From where.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub from: String,
    /// To where.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub to: String,
    /// How: lite, in-tow or with-train.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub how: String,
    /// Top speed, miles an hour.
    #[arg(long, default_value_t = 0, hide_default_value = true)]
    #[serde(default)]
    pub mph: u32,
    /// What else limits the move, or in so many words that nothing does.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub limits: String,
    /// Who was told in writing: engineers and all in the cabs.
    #[arg(long)]
    pub told: Option<String>,
    /// For the tag: who inspected her.
    #[arg(long)]
    pub inspected_by: Option<String>,
    /// For the tag: where.
    #[arg(long)]
    pub inspected_at: Option<String>,
    /// For the tag: on which day.
    #[arg(long)]
    pub inspected_on: Option<String>,
}

/// Say how a move ended.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct End {
    /// Her number.
    pub engine: String,
    /// How: arrived, put-right or broken-off.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub how: String,
    /// Where she stands, and what there is to say.
    #[arg(long, default_value = "", hide_default_value = true)]
    #[serde(default)]
    pub told: String,
}

impl Move {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Move::Decide(it) => it.run(context),
            Move::End(it) => it.run(context),
            Move::List { engine: number } => list(context, number.as_deref()),
        }
    }
}

impl Decide {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let id = MoveId(context.id()?);
        let inspected = self.inspected()?;
        let how = say::HOW.iter().find(|(word, ..)| *word == self.how.trim());
        let how = how
            .map(|(_, how, _)| *how)
            .ok_or_else(|| Failure::Input(expected(&self.how, "how she is moved", say::HOW)))?;
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let new = MoveDecided {
                id,
                locomotive,
                under: self.under(book)?,
                defects: Vec::new(),
                from: self.from.clone(),
                to: self.to.clone(),
                how,
                top_mph: self.mph,
                limits: self.limits.clone(),
                told: self.told.clone(),
                inspected: inspected.clone(),
                rulings: Vec::new(),
            };
            decide_move(book, rules, new, by, on)
        })?;
        let book = context.book()?;
        let (_, kept) = engine(&book, &self.engine)?;
        let made = kept.moves.iter().find(|made| made.decided.id == id);
        let made = made.ok_or_else(|| Failure::Machine("The move is not in the book.".into()))?;
        let told = say::decided(&kept.number, made, name(&book, made.by));
        Ok(saved(&receipt, told, value(&book, &kept.number, made)))
    }

    fn under(&self, book: &Book) -> Result<MoveUnder, Refusal> {
        let under = match self.under.trim() {
            "to-repair" => MoveUnder::ToRepair,
            "in-yard" => MoveUnder::InYard,
            "on-from-road" => MoveUnder::OnFromRoad,
            "special-notice" => {
                let number = self.finding.as_deref().unwrap_or_default();
                return Ok(MoveUnder::SpecialNotice {
                    finding: finding(book, number)?.0,
                    allows: self.allows.as_deref().unwrap_or_default().trim().into(),
                });
            }
            other => {
                return Err(Refusal::input(expected(
                    other,
                    "what the move stands on",
                    say::UNDER,
                )));
            }
        };
        match (&self.finding, &self.allows) {
            (None, None) => Ok(under),
            _ => Err(Refusal::input(
                "A finding and what is allowed are said of a move under a special notice: special-notice was expected.",
            )),
        }
    }

    fn inspected(&self) -> Result<Option<InspectedBy>, Failure> {
        let said = [&self.inspected_by, &self.inspected_at, &self.inspected_on];
        if said.iter().all(|it| it.is_none()) {
            return Ok(None);
        }
        let [who, place, on] = said.map(|it| it.as_deref().unwrap_or_default().trim().to_string());
        Ok(Some(InspectedBy {
            who,
            place,
            on: date(&on)?,
        }))
    }
}

/// A word that is none of a list, in a sentence.
fn expected<T>(word: &str, what: &str, list: &[(&str, T, &str)]) -> String {
    let all: Vec<_> = list.iter().map(|(word, ..)| *word).collect();
    format!("`{word}` is not {what}: {} were expected.", all.join(", "))
}

impl End {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let end = say::END.iter().find(|(word, ..)| *word == self.how.trim());
        let end = end.map(|(_, end, _)| *end);
        let end: MoveEnd =
            end.ok_or_else(|| Failure::Input(expected(&self.how, "how a move ends", say::END)))?;
        let receipt = context.save_of(&self.engine, |book, _, _| {
            let (locomotive, _) = engine(book, &self.engine)?;
            end_move(book, locomotive, end, &self.told)
        })?;
        let told = say::ended(self.engine.trim(), end, self.told.trim());
        Ok(saved(&receipt, told, json!({})))
    }
}

fn list(context: &mut Context, number: Option<&str>) -> Result<Answer, Failure> {
    let book = context.book()?;
    let only = number.map(|n| engine(&book, n)).transpose()?;
    let mut all = Vec::new();
    for (id, kept) in engines(&book) {
        if only.is_none_or(|(only, _)| only == id) {
            all.extend(kept.moves.iter().map(|made| (&kept.number, made)));
        }
    }
    all.sort_by_key(|(_, made)| (made.ended.is_some(), made.on));
    let mut text = String::new();
    for (number, made) in &all {
        let line = say::decided(number, made, name(&book, made.by));
        text.push_str(&format!("{}\n", wrap(&line, 2, 100)));
        let end = match &made.ended {
            Some((end, told, on, by)) => say::end(*end, told, *on, name(&book, *by)),
            None => say::NOT_ENDED.into(),
        };
        text.push_str(&format!("    {}\n", wrap(&end, 4, 100)));
    }
    if all.is_empty() {
        text.push_str(&format!("{}\n", say::NONE));
    }
    text.push_str(&format!("{}\n", words::STANDING));
    let list: Vec<_> = all
        .iter()
        .map(|(number, made)| value(&book, number, made))
        .collect();
    Ok(Answer::done(text, json!(list)))
}

fn value(book: &Book, number: &str, made: &Movement) -> Value {
    let it = &made.decided;
    let ended = made.ended.as_ref().map(|(end, told, on, by)| {
        json!({ "how": say::end_word(*end), "told": told, "on": on.to_string(), "by": name(book, *by) })
    });
    let inspected = it
        .inspected
        .as_ref()
        .map(|by| json!({ "by": by.who, "at": by.place, "on": by.on.to_string() }));
    let rules: Vec<_> = it.rulings.iter().map(|r| r.rule.as_str()).collect();
    json!({
        "engine": number, "under": say::under_word(&it.under), "from": it.from, "to": it.to,
        "how": say::how_word(it.how), "mph": it.top_mph, "limits": it.limits, "told": it.told,
        "defects": it.defects, "inspected": inspected, "rules": rules, "decided_by": name(book, made.by),
        "on": made.on.to_string(), "ended": ended,
    })
}
