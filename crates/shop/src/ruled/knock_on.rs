//! What a changed size moves, with the limits of the rulebook that this touches: by the table of knock-ons, its signs and its
//! reasons. It says what to look at and measure, not what it will be.

use std::collections::BTreeMap;

use physics::law::running_knock_on::{self as law, Way, choices, relations, share, sizes};

use crate::Refusal;

/// A size that moves with the changed one.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// Its id.
    pub size: String,
    /// What it is.
    pub words: String,
    /// What a plus means of it: higher, thicker.
    pub plus: String,
    /// By how much of the change, with its sign; the ratios of the engine that nobody gave, where it hangs on them.
    pub share: Result<f64, Vec<String>>,
    /// The size that moves it, on the first way from the changed one.
    pub by: String,
    /// How many relations lie between the changed size and it, on that way.
    pub steps: usize,
    /// Why it moves.
    pub why: String,
    /// Ids of the rules that set a limit on it.
    pub limits: Vec<String>,
}

/// What a choice of work changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Changed {
    /// The size.
    pub size: String,
    /// What it is.
    pub words: String,
    /// What a plus means of it.
    pub plus: String,
    /// Whether it goes the way of its plus; nothing where the work may go both ways.
    pub up: Option<bool>,
    /// Why.
    pub why: String,
    /// Ids of the rules that set a limit on the changed size itself.
    pub limits: Vec<String>,
    /// What moves with it, each after what moves it.
    pub moved: Vec<Moved>,
}

impl Changed {
    /// The rules whose limits the change touches, each once.
    pub fn limits(&self) -> Vec<&str> {
        let mut all: Vec<&str> = self.limits.iter().map(String::as_str).collect();
        all.extend(
            self.moved
                .iter()
                .flat_map(|it| it.limits.iter().map(String::as_str)),
        );
        all.sort_unstable();
        all.dedup();
        all
    }
}

fn fault(why: impl std::fmt::Display) -> Refusal {
    Refusal::input(format!("{why}."))
}

/// Everything that moves with a size, each after what moves it, with ratios of the engine by name.
///
/// # Errors
/// Input: no such size.
pub fn moved(size: &str, ratios: &BTreeMap<String, f64>) -> Result<Vec<Moved>, Refusal> {
    let given = |name: &str| ratios.get(name).copied();
    let all = sizes(law::ID).map_err(fault)?;
    if !all.iter().any(|it| it.id == size) {
        return Err(Refusal::input(format!(
            "`{size}` is no size of the knock-on table; the sheet running.knock_on lists them."
        )));
    }
    let mut found = Vec::new();
    for it in all.iter().filter(|it| it.id != size) {
        let share = share(law::ID, size, &it.id, &given).map_err(fault)?;
        let still = share.needs.is_empty() && share.factor.abs() < 1e-12;
        if still || !share.reached {
            continue;
        }
        let before = share.way.len().checked_sub(2);
        let by = before.and_then(|at| share.way.get(at)).cloned();
        let by = by.unwrap_or_else(|| size.to_owned());
        let why = relations(law::ID)
            .map_err(fault)?
            .iter()
            .find(|one| one.to == it.id && one.from == by)
            .map_or(String::new(), |one| one.why.clone());
        found.push(Moved {
            size: it.id.clone(),
            words: it.words.clone(),
            plus: it.plus.clone(),
            share: if share.needs.is_empty() {
                Ok(share.factor)
            } else {
                Err(share.needs)
            },
            steps: share.way.len().saturating_sub(1),
            by,
            why,
            limits: it.limits.clone(),
        });
    }
    Ok(after_what_moves_it(size, found))
}

/// Each behind the one that moves it, as a tree is read.
fn after_what_moves_it(from: &str, all: Vec<Moved>) -> Vec<Moved> {
    let mut sorted = Vec::new();
    for it in all.iter().filter(|it| it.by == from) {
        sorted.push(it.clone());
        let rest: Vec<Moved> = all
            .iter()
            .filter(|other| other.by != from)
            .cloned()
            .collect();
        sorted.extend(after_what_moves_it(&it.size, rest));
    }
    sorted
}

/// What a choice of work on a part of a family changes and moves, one for each size it changes; none where the table has none.
///
/// # Errors
/// [`Refusal`] where the table cannot be read.
pub fn changed_by(family: &str, route: &str) -> Result<Vec<Changed>, Refusal> {
    let mut all = Vec::new();
    for choice in choices().map_err(fault)? {
        if choice.family == family && choice.route == route {
            let size = sizes(law::ID)
                .map_err(fault)?
                .iter()
                .find(|it| it.id == choice.size)
                .ok_or_else(|| fault(format!("{} is no size", choice.size)))?;
            all.push(Changed {
                size: size.id.clone(),
                words: size.words.clone(),
                plus: size.plus.clone(),
                up: choice.way.map(|way| way == Way::Plus),
                why: choice.why.clone(),
                limits: size.limits.clone(),
                moved: moved(&size.id, &BTreeMap::new())?,
            });
        }
    }
    Ok(all)
}
