//! `part tell`, `part tree`, `part fit-out`, `part adopt`: where the parts of an engine are, and what is known of them.

use std::collections::BTreeMap;

use clap::Args;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, FeatureTold, Part, PartId, PartKnown, PartTold, Side, Statement};
use shop::locomotive::{above_of, engine, family, mates, mirror, part, tree};

use super::{pair, saved};
use crate::{Answer, Context, Failure, words};

/// Say more of a part, or something else. What is not told stays as it was.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tell {
    /// The engine's number.
    pub engine: String,
    /// The part's name.
    pub part: String,
    /// On which side: right, left or center.
    #[arg(long)]
    pub side: Option<String>,
    /// On which axle, coupled axles counted from the front.
    #[arg(long)]
    pub axle: Option<u32>,
    /// Where more exactly, such as "row 3, bolt 9".
    #[arg(long)]
    pub at: Option<String>,
    /// The assembly it is part of, by its name.
    #[arg(long)]
    pub within: Option<String>,
    /// What it is made of.
    #[arg(long)]
    pub material: Option<String>,
    /// The number of its drawing.
    #[arg(long)]
    pub drawing: Option<String>,
    /// What must come off to reach it. May be given again, in order.
    #[arg(long)]
    #[serde(default)]
    pub reach: Vec<String>,
    /// A part it mates with, by its name. May be given again.
    #[arg(long = "mate")]
    #[serde(default)]
    pub mates: Vec<String>,
    /// Another name or an old number it goes by. May be given again.
    #[arg(long)]
    #[serde(default)]
    pub also: Vec<String>,
    /// When it was fitted: a year, a year and a month, or a day.
    #[arg(long = "fitted")]
    pub fitted_on: Option<String>,
    /// When it was taken off for good.
    #[arg(long = "removed")]
    pub removed_on: Option<String>,
    /// The engine it came from.
    #[arg(long)]
    pub donor: Option<String>,
    /// A fact of the whole part: name=value. May be given again.
    #[arg(long = "fact")]
    #[serde(default)]
    pub facts: Vec<String>,
    /// The size of a feature on the drawing: name=size. May be given again.
    #[arg(long)]
    #[serde(default)]
    pub drawn: Vec<String>,
    /// A feature as built: name=size. May be given again.
    #[arg(long = "as-built")]
    #[serde(default)]
    pub as_built: Vec<String>,
    /// Our own limit for a feature: name=size. May be given again.
    #[arg(long = "shop-limit")]
    #[serde(default)]
    pub shop_limit: Vec<String>,
    /// Metal one re-cut usually takes: name=size. May be given again.
    #[arg(long = "step")]
    #[serde(default)]
    pub step: Vec<String>,
    /// A size it is made to one after the other: name=size. May be given again, in order.
    #[arg(long = "step-size")]
    #[serde(default)]
    pub steps: Vec<String>,
    /// The paper it was read from, or who remembers it.
    #[arg(long)]
    pub document: Option<String>,
}

/// Add the positions that her wheel arrangement has.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FitOut {
    /// The engine's number.
    pub engine: String,
    /// The coupled axle that her main rods drive, counted from the front, if it is known.
    #[arg(long)]
    pub main_axle: Option<u32>,
    /// Save them, as one batch. Without this nothing is changed.
    #[arg(long)]
    #[serde(default)]
    pub write: bool,
}

/// A side as typed.
///
/// # Errors
/// Input: no side.
pub(super) fn side(word: &str) -> Result<Side, Failure> {
    let known = Side::ALL
        .into_iter()
        .find(|side| side.word() == word.trim());
    known.ok_or_else(|| {
        Failure::Input(format!(
            "`{word}` is no side of an engine: right, left or center were expected."
        ))
    })
}

/// Things given one by one, or several in one with semicolons between them.
fn several(given: &[String]) -> Vec<String> {
    let parts = given.iter().flat_map(|one| one.split(';'));
    let parts = parts.map(|one| one.trim().to_string());
    parts.filter(|one| !one.is_empty()).collect()
}

impl Tell {
    /// What is told of each feature.
    ///
    /// # Errors
    /// Input: not name=size.
    fn features(&self) -> Result<BTreeMap<String, FeatureTold>, Failure> {
        let mut features: BTreeMap<String, FeatureTold> = BTreeMap::new();
        type Put = fn(&mut FeatureTold, String);
        let all: [(&Vec<String>, Put); 5] = [
            (&self.drawn, |f, v| f.drawn = Some(v)),
            (&self.as_built, |f, v| f.as_built = Some(v)),
            (&self.shop_limit, |f, v| f.shop_limit = Some(v)),
            (&self.step, |f, v| f.step = Some(v)),
            (&self.steps, |f, v| f.steps.push(v)),
        ];
        for (typed, put) in all {
            for one in typed {
                let (name, value) = pair(one, "a size of a feature")?;
                put(features.entry(name).or_default(), value);
            }
        }
        Ok(features)
    }

    /// What is told, of a part of the book.
    ///
    /// # Errors
    /// Input: what does not read; a part she does not have.
    pub(super) fn told(&self, book: &Book) -> Result<PartTold, Failure> {
        let (locomotive, _) = engine(book, &self.engine)?;
        let (id, _) = part(book, locomotive, &self.part)?;
        let named = |name: &String| part(book, locomotive, name).map(|(id, _)| id);
        let facts = self.facts.iter().map(|one| pair(one, "a fact"));
        Ok(PartTold {
            part: id,
            known: PartKnown {
                side: self.side.as_deref().map(side).transpose()?,
                axle: self.axle,
                at: self.at.clone(),
                within: self.within.as_ref().map(named).transpose()?,
                material: self.material.clone(),
                drawing: self.drawing.clone(),
                reach: several(&self.reach),
                mates: several(&self.mates)
                    .iter()
                    .map(named)
                    .collect::<Result<_, _>>()?,
                also: several(&self.also),
                fitted: self.fitted_on.clone(),
                removed: self.removed_on.clone(),
                donor: self.donor.clone(),
            },
            facts: facts.collect::<Result<_, _>>()?,
            features: self.features()?,
            document: self.document.clone(),
        })
    }

    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        // Asked once before the book is locked, so that what does not read is said as input.
        self.told(&context.book_of(&self.engine)?)?;
        let receipt = context.save_of(&self.engine, |book, _, on| {
            let told = self
                .told(book)
                .map_err(|why| shop::Refusal::input(why.to_string()))?;
            shop::locomotive::tell_part(book, told, on)
        })?;
        let told = format!(
            "More is known of the {} of No. {}.",
            self.part.trim(),
            self.engine
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

/// The parts of an engine as a tree.
pub(super) fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let book = context.book_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let parts = tree(&book, id);
    let mut text = format!(
        "No. {}: {}\n",
        kept.number,
        words::count(parts.len(), "part", "parts")
    );
    let mut list = Vec::new();
    for placed in &parts {
        let part = placed.part;
        let read = match &part.read {
            Some(read) => format!("{} {}", words::state(read.state), words::day(read.on)),
            None => "never measured".to_string(),
        };
        let gone = part.known.removed.as_deref();
        let gone = gone.map_or(String::new(), |day| format!("; taken off {day}"));
        text.push_str(&format!(
            "  {}{} ({}); {read}{gone}\n",
            "  ".repeat(placed.depth),
            part.name,
            part.family
        ));
        let within = part.known.within.and_then(|id| book.parts.get(&id));
        list.push(json!({
            "part": part.name, "family": part.family, "depth": placed.depth, "within": within.map(|p| &p.name),
            "side": part.known.side, "axle": part.known.axle, "at": part.known.at, "removed": part.known.removed,
            "last_read": part.read.as_ref().map(|r| r.on.to_string()),
        }));
    }
    if parts.is_empty() {
        text.push_str("  none yet: `outshop part fit-out` shows the positions she has\n");
    }
    Ok(Answer::done(
        text,
        json!({ "engine": kept.number, "parts": list }),
    ))
}

/// Takes families into the book.
pub(super) fn adopt(context: &mut Context, families: &[String]) -> Result<Answer, Failure> {
    let receipt =
        context.save(|book, by, on| shop::locomotive::adopt_families(book, families, (by, on)))?;
    let told = format!("The book has the part families {}.", families.join(", "));
    Ok(saved(&receipt, told, json!({ "families": families })))
}

impl FitOut {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let book = context.book_of(&self.engine)?;
        let (id, kept) = engine(&book, &self.engine)?;
        let (number, wheels) = (kept.number.clone(), kept.wheels.clone());
        let first = PartId(context.id()?);
        let planned = shop::locomotive::fit_out(&book, id, self.main_axle, first)?;
        let added: Vec<_> = planned
            .iter()
            .filter_map(|statement| match statement {
                Statement::PartAdded(it) => Some(it),
                _ => None,
            })
            .collect();
        let all = shop::locomotive::places(&wheels, self.main_axle)?.len();
        let mut text = format!("No. {number}, {wheels}\n");
        for it in &added {
            let title = family(&book, &it.family).map_or("", |family| family.title.as_str());
            text.push_str(&format!("  {:<42} {title}\n", it.name));
        }
        let list: Vec<Value> = added
            .iter()
            .map(|it| json!({ "part": it.name, "family": it.family, "facts": it.facts }))
            .collect();
        let stand = all - added.len();
        text.push_str(&format!(
            "  {} to add, {stand} in the book already. Positions only: no size, no day, no material.\n",
            words::count(added.len(), "position", "positions")
        ));
        if self.main_axle.is_none() {
            text.push_str(
                "  Nobody said which axle her main rods drive, so no side-rod pin has its limit yet: --main-axle says it.\n",
            );
        }
        let mut value = json!({ "engine": number, "wheels": wheels, "adds": list, "in_the_book": stand, "written": self.write });
        if !self.write {
            text.push_str("Nothing is changed. With --write they are added, as one batch.\n");
            return Ok(Answer::done(text, value));
        }
        let (act, batch) = context.batch_act()?;
        let receipt = context.store()?.write_of(&act, id, |book, _| {
            shop::locomotive::fit_out(book, id, self.main_axle, first)
        })?;
        if let Value::Object(map) = &mut value {
            map.insert("batch".into(), json!(batch.to_string()));
        }
        text.push_str(&format!(
            "They came in as batch {batch}; `outshop entry withdraw` takes it back whole."
        ));
        Ok(saved(&receipt, text, value))
    }
}

/// What is known of a part beside its facts and sizes, as lines: what, and what is told.
pub(crate) fn known_lines(book: &Book, id: PartId, kept: &Part) -> Vec<(&'static str, String)> {
    let known = &kept.known;
    let names = |parts: Vec<(PartId, &Part)>| {
        let names: Vec<_> = parts.iter().map(|(_, part)| part.name.as_str()).collect();
        (!names.is_empty()).then(|| names.join(", "))
    };
    let above: Vec<_> = above_of(book, id)
        .skip(1)
        .filter_map(|id| book.parts.get(&id))
        .map(|part| part.name.as_str())
        .collect();
    let text = |list: &Vec<String>| (!list.is_empty()).then(|| list.join(", "));
    let position: Vec<String> = [
        known.side.map(|side| side.word().to_string()),
        known.axle.map(|axle| format!("axle {axle}")),
        known.at.clone(),
    ]
    .into_iter()
    .flatten()
    .collect();
    let lines = [
        ("position", text(&position)),
        (
            "within",
            (!above.is_empty()).then(|| above.join(", within ")),
        ),
        ("holds", names(shop::locomotive::below(book, id))),
        ("mates with", names(mates(book, id))),
        (
            "mirror",
            mirror(book, id).map(|(_, part)| part.name.clone()),
        ),
        ("to reach it", text(&known.reach)),
        ("material", known.material.clone()),
        ("drawing", known.drawing.clone()),
        ("also", text(&known.also)),
        ("fitted", known.fitted.clone()),
        ("taken off", known.removed.clone()),
        ("from engine", known.donor.clone()),
        (
            "lead time",
            shop::locomotive::lead_of(book, kept).map(|lead| lead.from),
        ),
    ];
    let told = lines
        .into_iter()
        .filter_map(|(what, told)| Some((what, told?)));
    told.collect()
}
