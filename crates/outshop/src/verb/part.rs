//! `part`, `reading`: what is kept of a part, from its first size to its last reading.

use std::collections::BTreeMap;

use clap::{Args, Subcommand};
use measure::{House, State, show};
use serde::Deserialize;
use serde_json::json;
use shop::book::{
    Book, EngineState, FeatureFacts, JobId, Part as Kept, PartId, PartKnown, ReadingSet,
};
use shop::locomotive::{NewPart, Taking, engine, family, finding, job, part};
use shop::route::metal_left;

use super::{name, pair, readings, saved, wrap};
use crate::{Answer, Context, Failure, words};

/// Parts: what is measured, what was last left, metal left.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(clippy::large_enum_variant, reason = "one is read for a whole request")]
pub enum Part {
    /// Add a part to an engine.
    Add(Add),
    /// Say more of a part, or something else: where it is, what it is of, when it was fitted, sizes.
    Tell(super::part_tree::Tell),
    /// The parts of an engine as a tree, by position.
    Tree {
        /// The engine's number.
        engine: String,
    },
    /// Show the positions her wheel arrangement has; with --write, add those she lacks.
    FitOut(super::part_tree::FitOut),
    /// Show what a list of parts in a CSV or XLSX file would add, line by line; with --write, add it.
    Import(super::part_file::Import),
    /// Take families of parts of this program into a book that lacks them.
    Adopt {
        /// Their words.
        #[arg(required = true)]
        families: Vec<String>,
    },
    /// What is known of a part: facts, readings, metal left, tooling.
    Show {
        /// The engine's number.
        engine: String,
        /// The part's name.
        part: String,
    },
    /// What the book tells of a part's wear: rate, service days to each limit, chance before each opening.
    Wear(super::wear::Tells),
    /// Leave, cut or renew at each opening over the years, for a size that has steps, and what that saves.
    Plan(super::wear::Plans),
    /// What a family of parts is measured on, and its routes.
    Family {
        /// The family's word; all of them if left out.
        family: Option<String>,
    },
}

/// Add a part to an engine.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// The engine's number.
    pub engine: String,
    /// What the shop calls it, such as "right feed check".
    pub name: String,
    /// Its family, such as check-valve.
    #[arg(long)]
    pub family: String,
    /// A fact of the whole part: name=value. May be given again.
    #[arg(long = "fact")]
    #[serde(default)]
    pub facts: Vec<String>,
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
    /// On which side: right, left or center.
    #[arg(long)]
    pub side: Option<String>,
    /// On which axle, coupled axles counted from the front.
    #[arg(long)]
    pub axle: Option<u32>,
    /// The assembly it is part of, by its name.
    #[arg(long)]
    pub within: Option<String>,
}

/// Readings of a part.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reading {
    /// Take a set of readings: feature@place=value, each as written.
    Take(Take),
}

/// Take a set of readings.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Take {
    /// The engine's number.
    pub engine: String,
    /// The part's name.
    pub part: String,
    /// The readings, such as "seat-land@front=5/32in by dividers".
    #[arg(required = true)]
    pub readings: Vec<String>,
    /// They are as left: when closed up.
    #[arg(long)]
    #[serde(default)]
    pub as_left: bool,
    /// The job they belong to.
    #[arg(long)]
    pub job: Option<String>,
    /// The finding that asks for them, such as F-005: as found, at places it did not read.
    #[arg(long, conflicts_with_all = ["job", "as_left"])]
    pub finding: Option<String>,
    /// How they were taken.
    #[command(flatten)]
    #[serde(flatten)]
    pub how: How,
}

/// How readings were taken.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
pub struct How {
    /// Who measured, where it is not the one who enters.
    #[arg(long)]
    #[serde(default)]
    pub measured_by: Option<String>,
    /// How warm the part was, with its unit, such as "68 F".
    #[arg(long)]
    #[serde(default)]
    pub part_temperature: Option<String>,
    /// How the part or the engine was supported.
    #[arg(long)]
    #[serde(default)]
    pub supported: Option<String>,
    /// The state of the engine: cold-and-drained, cold-and-full or hot.
    #[arg(long)]
    #[serde(default)]
    pub standing: Option<String>,
    /// Why a reading that is questioned is right all the same.
    #[arg(long)]
    #[serde(default)]
    pub insist: Option<String>,
}

impl How {
    /// As the shop takes it.
    ///
    /// # Errors
    /// Input: a state of the engine that is none.
    pub(super) fn taking(&self, on: Option<jiff::civil::Date>) -> Result<Taking, Failure> {
        let standing = self.standing.as_deref().map(|word| {
            let known = EngineState::ALL.into_iter();
            known.into_iter().find(|it| it.word() == word.trim()).ok_or_else(|| {
                Failure::Input(format!(
                    "`{word}` is no state of an engine: cold-and-drained, cold-and-full or hot were expected."
                ))
            })
        });
        Ok(Taking {
            on,
            supported: self.supported.clone(),
            standing: standing.transpose()?,
            insist: self.insist.clone(),
            in_job: false,
        })
    }

    /// What was typed, with who measured and how warm the part was.
    ///
    /// # Errors
    /// Input: a temperature that does not read.
    pub(super) fn put_on(
        &self,
        mut taken: Vec<shop::book::FeatureReading>,
    ) -> Result<Vec<shop::book::FeatureReading>, Failure> {
        for one in &mut taken {
            if let Some(name) = &self.measured_by {
                one.reading.measured_by = name.trim().to_string();
            }
            one.reading.part_temperature = self.part_temperature.clone();
            one.reading
                .part_temperature()
                .map_err(|why| Failure::Input(format!("The temperature of the part: {why}")))?;
        }
        Ok(taken)
    }
}

impl Part {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Part::Add(it) => it.run(context),
            Part::Tell(it) => it.run(context),
            Part::Tree { engine } => super::part_tree::show(context, engine),
            Part::FitOut(it) => it.run(context),
            Part::Import(it) => it.run(context),
            Part::Adopt { families } => super::part_tree::adopt(context, families),
            Part::Show {
                engine: number,
                part: wanted,
            } => {
                let book = context.book_of_part(number, wanted)?;
                let house = context.house();
                let (id, _) = engine(&book, number)?;
                let (part_id, kept) = part(&book, id, wanted)?;
                show_part(&book, number, part_id, kept, house)
            }
            Part::Wear(it) => it.run(context),
            Part::Plan(it) => it.run(context),
            Part::Family { family: word } => {
                let book = context.book()?;
                let wanted: Vec<_> = match word {
                    Some(word) => vec![family(&book, word)?],
                    None => book
                        .families
                        .keys()
                        .map(|w| family(&book, w))
                        .collect::<Result<_, _>>()?,
                };
                let mut text = String::new();
                for family in &wanted {
                    text.push_str(&format!(
                        "{}: {} (version {})\n",
                        family.family, family.title, family.version
                    ));
                    for feature in family.measured() {
                        text.push_str(&format!(
                            "  {:<18} at {}: {}\n",
                            feature.name,
                            feature.positions.join(", "),
                            feature.how
                        ));
                    }
                    for condition in &family.conditions {
                        text.push_str(&format!(
                            "  shows {:<12} {}\n",
                            condition.word, condition.title
                        ));
                    }
                    if word.is_some() {
                        text.push_str(&super::family_file::limits_and_routes(family));
                        continue;
                    }
                    for route in &family.routes {
                        text.push_str(&format!("  route {:<12} {}\n", route.word, route.title));
                    }
                }
                let list: Vec<_> = wanted
                    .iter()
                    .map(|f| json!({ "family": f.family, "version": f.version, "title": f.title, "features": f.features.iter().map(|x| &x.name).collect::<Vec<_>>() }))
                    .collect();
                Ok(Answer::done(text, json!(list)))
            }
        }
    }
}

impl Add {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut facts = BTreeMap::new();
        for typed in &self.facts {
            let (name, value) = pair(typed, "a fact")?;
            facts.insert(name, value);
        }
        let mut features: BTreeMap<String, FeatureFacts> = BTreeMap::new();
        for (typed, set) in [
            (
                &self.as_built,
                set_as_built as fn(&mut FeatureFacts, String),
            ),
            (&self.shop_limit, |f, v| f.shop_limit = Some(v)),
            (&self.step, |f, v| f.step = Some(v)),
        ] {
            for one in typed {
                let (name, value) = pair(one, "a size of a feature")?;
                set(features.entry(name).or_default(), value);
            }
        }
        let id = PartId(context.id()?);
        let side = self.side.as_deref().map(super::part_tree::side);
        let side = side.transpose()?;
        let receipt = context.save_of(&self.engine, |book, _, _| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let within = self.within.as_deref();
            let within = within
                .map(|name| part(book, locomotive, name))
                .transpose()?;
            shop::locomotive::add_part(
                book,
                NewPart {
                    id,
                    locomotive,
                    family: self.family.clone(),
                    name: self.name.clone(),
                    facts: facts.clone(),
                    features: features.clone(),
                    known: PartKnown {
                        side,
                        axle: self.axle,
                        within: within.map(|(id, _)| id),
                        ..PartKnown::default()
                    },
                },
            )
        })?;
        Ok(saved(
            &receipt,
            format!(
                "The {} of No. {} is in the book.",
                self.name.trim(),
                self.engine
            ),
            json!({ "part": id.to_string() }),
        ))
    }
}

fn set_as_built(facts: &mut FeatureFacts, value: String) {
    facts.as_built = Some(value);
}

fn show_part(
    book: &Book,
    number: &str,
    id: PartId,
    kept: &Kept,
    house: House,
) -> Result<Answer, Failure> {
    let family = family(book, &kept.family)?;
    let mut text = format!("{}, No. {number}: {}\n", kept.name, family.title);
    for fact in &family.facts {
        let told = kept
            .facts
            .get(&fact.name)
            .map_or("not known", String::as_str);
        text.push_str(&format!("  {:<18} {told}\n", fact.name));
    }
    let known = super::part_tree::known_lines(book, id, kept);
    for (what, told) in &known {
        text.push_str(&format!("  {what:<18} {}\n", wrap(told, 21, 100)));
    }
    let sets = book.readings.newest_first(id).unwrap_or_default();
    let metal = metal_left(family, kept, &sets);
    for left in &metal {
        let cuts = left.re_cuts.map_or(String::new(), |n| {
            format!(
                ", about {}",
                words::count(usize::try_from(n).unwrap_or(0), "re-cut", "re-cuts")
            )
        });
        let state = if left.state == State::AsLeft {
            "as left"
        } else {
            "as found"
        };
        let said = format!(
            "{}{cuts}. The {} was {} {state} on {}; our shop limit is {}.",
            show::size(left.left, house),
            left.title,
            show::size(left.now, house),
            words::day(left.on),
            show::size(left.shop_limit, house),
        );
        text.push_str(&format!("  metal left: {}\n", wrap(&said, 14, 100)));
    }
    for set in &sets {
        let state = if set.state == State::AsLeft {
            "as left"
        } else {
            "as found"
        };
        text.push_str(&format!(
            "  {} {state}, by {} (entry {})\n",
            words::day(set.on),
            name(book, set.by),
            set.entry
        ));
        for feature in family.measured() {
            let of_it: Vec<_> = set
                .readings
                .iter()
                .filter(|r| r.feature == feature.name)
                .map(|r| {
                    let mark = if is_questioned(set, r) {
                        " (questioned)"
                    } else {
                        ""
                    };
                    format!("{} {}{mark}", r.reading.position, r.reading.written())
                })
                .collect();
            if !of_it.is_empty() {
                text.push_str(&format!("    {:<18} {}\n", feature.name, of_it.join(", ")));
            }
            if let Some(shape) = shop::locomotive::shape(feature, set) {
                let told = words::part::shape(&shape, house);
                text.push_str(&format!("    {:<18} {told}\n", ""));
            }
        }
        for line in words::part::taken(set) {
            text.push_str(&format!("    {}\n", wrap(&line, 4, 100)));
        }
    }
    let mut tools: Vec<_> = book
        .tooling
        .values()
        .filter(|t| t.out.is_none() && t.serves().any(|part| part == id))
        .collect();
    tools.sort_by_key(|t| t.number);
    for tool in &tools {
        text.push_str(&format!(
            "  T-{:03} {}: {}\n",
            tool.number, tool.what, tool.shelf
        ));
    }
    let value = json!({
        "part": kept.name, "family": kept.family, "facts": kept.facts, "features": kept.features,
        "known": known.iter().map(|(what, told)| json!({ "what": what, "told": told })).collect::<Vec<_>>(),
        "metal_left": metal.iter().map(|m| json!({
            "feature": m.feature, "left_in": show::decimal_in(m.left), "now_in": show::decimal_in(m.now), "on": m.on.to_string(), "re_cuts": m.re_cuts,
        })).collect::<Vec<_>>(),
        "readings": sets.iter().rev().map(|s| json!({
            "entry": s.entry, "on": s.on.to_string(), "state": s.state, "by": name(book, s.by), "taken": s.taken,
            "readings": s.readings.iter().map(|r| json!({ "feature": r.feature, "position": r.reading.position, "written": r.reading.written(), "instrument": r.reading.instrument, "measured_by": r.reading.measured_by, "questioned": is_questioned(s, r) })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "tooling": tools.iter().map(|t| json!({ "number": format!("T-{:03}", t.number), "what": t.what, "shelf": t.shelf })).collect::<Vec<_>>(),
    });
    Ok(Answer::done(text, value))
}

/// Whether a reading of a set was questioned and is kept all the same.
pub(crate) fn is_questioned(set: &ReadingSet, reading: &shop::book::FeatureReading) -> bool {
    set.taken.as_ref().is_some_and(|taken| {
        let mut all = taken.questioned.iter();
        all.any(|q| q.feature == reading.feature && q.position == reading.reading.position)
    })
}

/// The job of a number, where one is given.
pub(super) fn job_of(book: &Book, number: Option<&str>) -> Result<Option<JobId>, shop::Refusal> {
    number
        .map(|number| job(book, number).map(|(id, _)| id))
        .transpose()
}

impl Reading {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let Reading::Take(it) = self;
        let state = if it.as_left {
            State::AsLeft
        } else {
            State::AsFound
        };
        let taken = it
            .how
            .put_on(readings(&it.readings, state, context.by()?)?)?;
        let taking = it.how.taking(None)?;
        let receipt = context.save_of_part(&it.engine, &it.part, |book, _, on| {
            let (id, _) = engine(book, &it.engine)?;
            let (part, _) = part(book, id, &it.part)?;
            let job = job_of(book, it.job.as_deref())?;
            let taking = Taking {
                on: Some(on),
                ..taking.clone()
            };
            if let Some(number) = &it.finding {
                let (id, kept) = finding(book, number)?;
                if it.as_left || job.is_some() || kept.part != part {
                    return Err(shop::Refusal::input(format!(
                        "Readings for {number} are as found, of the part it was found on, and of no job."
                    )));
                }
                return shop::finding::measure(book, id, taken.clone(), &taking);
            }
            shop::locomotive::take_readings(book, part, job, state, taken.clone(), &taking)
        })?;
        let what = if it.as_left { "as left" } else { "as found" };
        let told = format!(
            "{} of the {} kept, {what}.",
            words::count(taken.len(), "reading", "readings"),
            it.part
        );
        Ok(saved(&receipt, told, json!({})))
    }
}
