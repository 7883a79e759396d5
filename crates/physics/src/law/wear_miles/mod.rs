//! `wear.miles`: how fast one feature wears by the miles run between its openings, and the miles that leaves.
//!
//! The openings are those of `wear.forecast`; only what each is divided by is another thing.

mod card;

pub use card::ENTRY;

use crate::answer::Answer;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::wear::{By, Reckoned, told};

/// What a rate is for.
const MILES: f64 = 1000.0;

/// A rate in a thousand miles.
static BY: By = By {
    sheet: card::ID,
    argument: "miles",
    per: MILES,
    words: "miles",
    rate: "wear in 1000 miles in",
    first: "an opening with both as_left and miles",
    second: "a second opening with both as_left and miles",
    unknown: "as_left or miles are not known, and nothing was put in their place.",
    symbols: card::SYMBOLS,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let all = Reckoned::of(&BY, inputs)?;
    let answer = all.begun(Answer::new(card::OPENINGS));
    let answer = limits(answer, inputs, &all)?;
    Ok(all.ended(answer, inputs))
}

/// The miles to both limits, and the service days that those are.
fn limits(mut answer: Answer, inputs: &Inputs, all: &Reckoned) -> Result<Answer, SheetError> {
    let present = inputs.need_si("present")?;
    let a_day = inputs.si("miles_a_day");
    let (worn, fast) = (all.worn(), all.fast());
    let (no_wear, few) = (all.no_wear(), all.few());
    let no_day = a_day.is_none().then_some("miles_a_day");
    for (argument, miles, soonest, days, whose) in [
        (
            "shop_limit",
            "miles_to_shop_limit",
            "soonest_shop_limit",
            "days_to_shop_limit",
            "The shop's limit",
        ),
        (
            "rule_limit",
            "miles_to_rule_limit",
            "soonest_rule_limit",
            "days_to_rule_limit",
            "The rule's limit",
        ),
    ] {
        let limit = inputs.si(argument);
        let missing = limit.is_none().then_some(argument);
        let room = limit.map(|limit| all.way.room(present, limit));
        let over = |rate: Option<f64>| Some(MILES * room? / rate?);
        let far = over(worn);
        answer = told(answer, miles, far, &[missing, no_wear]);
        answer = told(answer, soonest, over(fast), &[missing, no_wear, few]);
        let by_miles = far.zip(a_day).map(|(miles, a_day)| miles / a_day);
        answer = told(answer, days, by_miles, &[missing, no_wear, no_day]);
        if room.is_some_and(|room| room <= 0.0) {
            answer.notices.push(format!(
                "{whose} is reached or passed at the present reading: there are no miles left to it."
            ));
        }
    }
    Ok(answer)
}
