//! `wear.forecast`: how fast one feature wears from one opening to the next, and what that leaves.
//!
//! An as-left reading and the next as-found reading are one measured interval of wear, whatever was cut in between; so
//! wear is reckoned by intervals, and a re-cut never looks like wear turning back.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, Assumption, Outcome, cannot_tell};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::wear::{By, Reckoned, told};
use measure::{Rounding, show};

/// How many times its mirror a part may wear before somebody looks, where nothing was said.
const FACTOR: f64 = 2.0;
const APART: &str = "openings whose rates differ";

/// A rate a service day.
static BY: By = By {
    sheet: card::ID,
    argument: "days",
    per: 1.0,
    words: "service days",
    rate: "wear a day in",
    first: "an opening with both as_left and days",
    second: "a second opening with both as_left and days",
    unknown: "as_left or days is not known, and nothing was put in its place. It may have been a hard one.",
    symbols: card::SYMBOLS,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let all = Reckoned::of(&BY, inputs)?;
    let answer = all.begun(Answer::new(card::OPENINGS));
    let answer = told(
        answer,
        "mean_interval",
        all.mean_interval(),
        &[all.no_spread()],
    );
    let answer = limits(answer, inputs, &all)?;
    let answer = mirrored(answer, inputs, &all);
    Ok(all.ended(answer, inputs))
}

/// The days to both limits and the chance of reaching them.
fn limits(mut answer: Answer, inputs: &Inputs, all: &Reckoned) -> Result<Answer, SheetError> {
    let present = inputs.need_si("present")?;
    let ahead = inputs.si("days_ahead");
    let (worn, fast) = (all.worn(), all.fast());
    let (no_wear, few) = (all.no_wear(), all.few());
    let alike = all.rates.filter(|rates| rates.squares <= 0.0);
    let no_spread = all.no_spread().or(alike.map(|_| APART));
    let no_ahead = ahead.is_none().then_some("days_ahead");
    for (argument, days, soonest, rate_to, chance, whose) in [
        (
            "shop_limit",
            "days_to_shop_limit",
            "soonest_shop_limit",
            "rate_to_shop_limit",
            "chance_shop_limit",
            "The shop's limit",
        ),
        (
            "rule_limit",
            "days_to_rule_limit",
            "soonest_rule_limit",
            "rate_to_rule_limit",
            "chance_rule_limit",
            "The rule's limit",
        ),
    ] {
        let limit = inputs.si(argument);
        let missing = limit.is_none().then_some(argument);
        let room = limit.map(|limit| all.way.room(present, limit));
        let over = |rate: Option<f64>| Some(room? / rate?);
        let needed = over(ahead);
        let above = needed
            .zip(all.rates)
            .and_then(|(rate, rates)| rates.chance_above(rate));
        let reached = room.is_some_and(|room| room <= 0.0);
        answer = told(answer, days, over(worn), &[missing, no_wear]);
        answer = told(answer, soonest, over(fast), &[missing, no_wear, few]);
        answer = told(answer, rate_to, needed, &[missing, no_ahead]);
        if reached {
            answer = answer.with(chance, Outcome::Si(1.0));
            answer.notices.push(format!(
                "{whose} is reached or passed at the present reading: there are no days left to it."
            ));
        } else {
            answer = told(answer, chance, above, &[missing, no_ahead, no_spread]);
        }
    }
    Ok(answer)
}

/// How it stands to the same part on the other side.
fn mirrored(mut answer: Answer, inputs: &Inputs, all: &Reckoned) -> Answer {
    let mirror = inputs.si("mirror_rate");
    let ratio = all.worn().zip(mirror).map(|(rate, mirror)| rate / mirror);
    let needs = [mirror.is_none().then_some("mirror_rate"), all.no_wear()];
    answer = told(answer, "mirror_ratio", ratio, &needs);
    let factor = inputs.si("mirror_factor").unwrap_or(FACTOR);
    if mirror.is_some() && inputs.si("mirror_factor").is_none() {
        answer.assumptions.push(Assumption {
            argument: "mirror_factor",
            text: "2",
            si: FACTOR,
            why: "none was said: twice its mirror, by common practice",
        });
    }
    let times = |ratio: f64| show::number(ratio, 1, Rounding::Nearest);
    let words = match ratio {
        None => {
            let wanting: Vec<&str> = needs.into_iter().flatten().collect();
            cannot_tell(&wanting)
        }
        Some(ratio) if ratio > factor => format!(
            "wears {} times its mirror: look at tram, quarter, lubrication",
            times(ratio)
        ),
        Some(ratio) if ratio * factor < 1.0 => format!(
            "its mirror wears {} times as fast: look there, at tram, quarter, lubrication",
            times(1.0 / ratio)
        ),
        Some(ratio) => format!(
            "wears {} times its mirror: no more apart than is looked into",
            times(ratio)
        ),
    };
    answer.with("mirror", words)
}
