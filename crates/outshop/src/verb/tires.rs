//! `tires`: the driving tires of an engine together: as they stand, one diameter for all, what it spends, how long it lasts.

use clap::Args;
use drawing::{Move, MoveTree};
use serde::Deserialize;
use serde_json::json;
use shop::book::{Book, LocomotiveId};
use shop::locomotive::engine;
use shop::ruled::knock_on::Moved;
use shop::ruled::tires::{TirePlan, TireSet, tire_set, tires_of};

use super::wrap;
use crate::words::tires as say;
use crate::{Answer, Context, Failure};

/// The driving tires together: each by the law, one diameter for all, metal spent, life, the day to order.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
pub struct Tires {
    /// Her number.
    pub engine: String,
    /// What the cut takes off the radius of the smallest wheel for tread and flange to come clean, such as 1/32in.
    #[arg(long)]
    pub clean_up: Option<String>,
    /// Weeks from the order of a new set to its coming.
    #[arg(long)]
    pub lead_weeks: Option<u32>,
}

impl Tires {
    /// What a person said of the work.
    pub fn plan(&self) -> TirePlan {
        TirePlan {
            clean_up: self.clean_up.clone(),
            lead_weeks: self.lead_weeks,
        }
    }

    /// The set out of her book.
    ///
    /// # Errors
    /// As [`tire_set`].
    pub fn set(&self, context: &mut Context) -> Result<(Book, LocomotiveId, TireSet), Failure> {
        let (on, rules) = (context.on()?, context.rules()?);
        let book = book_for(context, &self.engine)?;
        let (id, _) = engine(&book, &self.engine)?;
        let set = tire_set(&book, rules, id, on, &self.plan())?;
        Ok((book, id, set))
    }

    /// Shows it.
    ///
    /// # Errors
    /// As [`Tires::set`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (book, id, set) = self.set(context)?;
        let kept = book.locomotives.get(&id);
        let number = kept.map_or(self.engine.as_str(), |kept| kept.number.as_str());
        let mut text = format!("{}\n", say::title(number));
        let mut line = |indent: usize, said: &str| {
            text.push_str(&format!(
                "{}{}\n",
                " ".repeat(indent),
                wrap(said, indent, 118)
            ));
        };
        say::stands(&set).iter().for_each(|it| line(2, it));
        for wheel in &set.wheels {
            let cells = say::wheel(wheel);
            let heads = say::WHEEL_HEADS.iter().zip(&cells).skip(1);
            let told: Vec<String> = heads
                .map(|(head, cell)| format!("{head}: {cell}"))
                .collect();
            line(4, &format!("{}: {}", wheel.name, told.join(", ")));
        }
        line(2, say::CUT);
        say::proposal(&set).iter().for_each(|it| line(4, it));
        for wheel in set.wheels.iter().filter(|wheel| !wheel.cut.is_empty()) {
            let cells = say::cut(wheel);
            let heads = say::CUT_HEADS.iter().zip(&cells).skip(1);
            let told: Vec<String> = heads
                .map(|(head, cell)| format!("{head}: {cell}"))
                .collect();
            line(4, &format!("{}: {}", wheel.name, told.join(", ")));
        }
        line(2, say::LASTS);
        say::lasts(&set).iter().for_each(|it| line(4, it));
        if let Ok(proposal) = &set.proposal {
            line(2, say::MOVES);
            for it in &proposal.moves {
                let limit = say::limit(&it.limits);
                let moves = say::moves(it, Some(-proposal.drop));
                let said = [it.words.as_str(), &moves, &limit];
                let said: Vec<&str> = said.into_iter().filter(|it| !it.is_empty()).collect();
                line(4, &said.join("; "));
            }
        }
        set.missing
            .iter()
            .for_each(|it| line(2, &crate::words::boiler::missing(it)));
        set.notices.iter().for_each(|it| line(2, it));
        say::CAUTIONS.iter().for_each(|it| line(2, it));
        let code = u8::from(set.stands != "complies");
        Ok(Answer {
            text,
            json: value(number, &set),
            code,
        })
    }
}

/// The part of the book that the tires are read from: hers, with their readings.
///
/// # Errors
/// As [`Context::book_of`].
pub fn book_for(context: &mut Context, number: &str) -> Result<Book, Failure> {
    let mut book = context.book_of(number)?;
    let (id, _) = engine(&book, number)?;
    for tire in tires_of(&book, id) {
        context.store()?.add_readings(&mut book, tire)?;
    }
    Ok(book)
}

fn value(number: &str, set: &TireSet) -> serde_json::Value {
    let told = |it: &Result<jiff::civil::Date, String>| match it {
        Ok(day) => json!(day.to_string()),
        Err(why) => json!({ "cannot_tell_needs": why }),
    };
    let wheels = set.wheels.iter().map(
        |it| json!({ "tire": it.name, "stands": it.stands, "cut": it.cut, "missing": it.missing }),
    );
    json!({
        "engine": number, "drivers": set.drivers, "stands": set.stands, "spread_inches": set.spread, "missing": set.missing,
        "wheels": wheels.collect::<Vec<_>>(), "heads": &say::WHEEL_HEADS[1..], "cut_heads": &say::CUT_HEADS[1..],
        "proposal": match &set.proposal {
            Err(needs) => json!({ "cannot_tell_needs": needs }),
            Ok(it) => json!({
                "diameter_inches": it.diameter, "known": it.known, "drop_inches": it.drop, "thinnest_inches": it.thinnest,
                "above_least_inches": it.left, "stands": it.stands, "pull_gained": it.pull, "days_to_hollow": it.to_hollow, "days_of_life": it.life,
                "moves": it.moves.iter().map(|one| json!({ "size": one.size, "words": one.words, "inches": one.share.as_ref().ok().map(|share| -share * it.drop), "limits": one.limits })).collect::<Vec<_>>(),
            }),
        },
        "worn_out": told(&set.worn_out), "order_by": told(&set.order_by),
        "service_days_a_year": set.a_year.as_ref().ok(),
        "used": set.used.iter().map(|(rule, version)| json!({ "rule": rule, "version": version })).collect::<Vec<_>>(),
        "cautions": say::CAUTIONS,
    })
}

/// The tree of what a change moves, from its words and way down; `change` is the change, inches, where it is known.
pub fn tree(
    told: &str,
    top: Move,
    change: Option<f64>,
    up: Option<bool>,
    all: &[Moved],
) -> MoveTree {
    let mut moves = vec![top];
    moves.extend(all.iter().map(|it| Move {
        deep: it.steps,
        words: crate::words::sentence(&it.words),
        amount: say::moves(it, change),
        up: match (&it.share, up) {
            (Ok(share), Some(up)) => Some((*share > 0.0) == up),
            _ => None,
        },
        limit: say::limit(&it.limits),
    }));
    MoveTree {
        told: told.to_owned(),
        moves,
    }
}

/// The picture of what comes down with her.
pub fn picture(set: &TireSet) -> Option<MoveTree> {
    let proposal = set.proposal.as_ref().ok()?;
    let top = Move {
        deep: 0,
        words: say::radius().into(),
        amount: say::radius_goes(proposal.drop),
        up: Some(false),
        limit: String::new(),
    };
    Some(tree(
        say::MOVES,
        top,
        Some(-proposal.drop),
        Some(false),
        &proposal.moves,
    ))
}
