//! `wear.miles`: how fast one feature wears by the miles run between its openings, and the miles that leaves.
//!
//! The openings are those of `wear.forecast`; only what each is divided by is another thing.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, Assumption, Outcome, cannot_tell};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::wear_forecast::{CONFIDENCE, Opening, Rates};
use crate::wear::{SIGN, Way, found, rate_in, tenths, told};
use measure::{Rounding, Unit, show};

/// What a rate is for.
const MILES: f64 = 1000.0;

const RATE: &str = "an opening with both as_left and miles";
const SECOND: &str = "a second opening with both as_left and miles";
const WEAR: &str = "readings that show wear";

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let way = inputs.need_word("wears", Way::of)?;
    let openings = openings(inputs)?;
    let each: Vec<f64> = openings.iter().filter_map(|one| one.rate(way)).collect();
    let rates = Rates::of(&each);
    let confidence = inputs.si("confidence").unwrap_or(CONFIDENCE);

    let mut answer = Answer::new(card::OPENINGS);
    answer
        .found
        .push(found(SIGN, way.sign(), "as it was said to wear"));
    let (given, counted) = (openings.len() as f64, each.len() as f64);
    for (symbol, value) in [(card::GIVEN, given), (card::WITHOUT, given - counted)] {
        answer.found.push(found(symbol, value, "counted"));
    }
    answer = answer.with("counted", Outcome::Si(counted));
    answer = reckoned(answer, rates.as_ref(), confidence);
    answer = limits(answer, inputs, way, rates.as_ref(), confidence)?;
    answer = answer
        .with(
            "direction",
            match &rates {
                Some(rates) => way.said(rates.mean),
                None => cannot_tell(&[RATE]),
            },
        )
        .with("openings", table(&openings, way, rates.as_ref()));
    if inputs.si("confidence").is_none() {
        answer.assumptions.push(Assumption {
            argument: "confidence",
            text: "0.95",
            si: CONFIDENCE,
            why: "none was said: 19 times in 20",
        });
    }
    answer
        .notices
        .extend(remarks(&openings, way, rates.as_ref()));
    Ok(answer)
}

/// The rate and its interval, and the values found that stand in the formula.
fn reckoned(mut answer: Answer, rates: Option<&Rates>, confidence: f64) -> Answer {
    let inch = |si: f64| Unit::Inch.from_si(si);
    const ADDED: &str = "added up from the table of openings";
    if let Some(rates) = rates {
        let sum = inch(rates.mean * f64::from(rates.count));
        answer.found.push(found(card::SUM, sum, ADDED));
        if rates.count > 1 {
            let squares = inch(inch(rates.squares));
            answer.found.push(found(card::SQUARES, squares, ADDED));
        }
        if let Some(t) = rates.student(confidence) {
            let whose = "Abramowitz and Stegun, 26.7.3 and 26.7.4";
            answer.found.push(found(card::T, t, whose));
        }
        if rates.mean > 0.0 {
            let mean = found(card::RECKONED, inch(rates.mean), "the mean rate");
            answer.found.push(mean);
        }
    }
    let first = rates.is_none().then_some(RATE);
    let second = match rates {
        None => first,
        Some(rates) => (rates.count < 2).then_some(SECOND),
    };
    let interval = rates.and_then(|rates| rates.interval(confidence));
    answer = told(answer, "rate", rates.map(|rates| rates.mean), &[first]);
    answer = told(
        answer,
        "spread",
        rates.and_then(Rates::deviation),
        &[second],
    );
    told(answer, "interval", interval, &[second])
}

/// The miles to both limits, and the service days that those are.
fn limits(
    mut answer: Answer,
    inputs: &Inputs,
    way: Way,
    rates: Option<&Rates>,
    confidence: f64,
) -> Result<Answer, SheetError> {
    let present = inputs.need_si("present")?;
    let a_day = inputs.si("miles_a_day");
    let worn = rates.map(|rates| rates.mean).filter(|rate| *rate > 0.0);
    let no_wear = match (rates, worn) {
        (None, _) => Some(RATE),
        (_, None) => Some(WEAR),
        _ => None,
    };
    let few = rates.filter(|rates| rates.count < 2).map(|_| SECOND);
    let fast = rates
        .and_then(|rates| rates.interval(confidence))
        .zip(worn)
        .map(|(interval, worn)| worn + interval);
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
        let room = limit.map(|limit| way.room(present, limit));
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

/// The openings as given, in their order: what each is divided by is its thousands of miles.
fn openings(inputs: &Inputs) -> Result<Vec<Opening>, SheetError> {
    let (left, found, miles) = (
        inputs.gapped_si("as_left"),
        inputs.list_si("as_found"),
        inputs.gapped_si("miles"),
    );
    if left.len() != found.len() || miles.len() != found.len() {
        return Err(SheetError::impossible(
            card::ENTRY.card.id,
            format!(
                "{} of as_left, {} of as_found and {} of miles were given",
                left.len(),
                found.len(),
                miles.len()
            ),
            "as many of each, in the same order, with ? for what nobody knows",
        ));
    }
    let each = left.iter().zip(found).zip(miles);
    Ok(each
        .map(|((left, found), miles)| Opening {
            left: *left,
            found: *found,
            over: miles.map(|miles| miles / MILES),
        })
        .collect())
}

fn remarks(openings: &[Opening], way: Way, rates: Option<&Rates>) -> Vec<String> {
    let mut said = Vec::new();
    let without: Vec<String> = (1..)
        .zip(openings)
        .filter(|(_, one)| one.rate(way).is_none())
        .map(|(number, _)| number.to_string())
        .collect();
    if !without.is_empty() {
        said.push(format!(
            "No rate from opening {}: as_left or miles are not known, and nothing was put in their place.",
            without.join(", ")
        ));
    }
    let Some(rates) = rates else {
        return said;
    };
    if rates.count == 1 {
        said.push("One opening gives one rate and no interval: how far the next may differ cannot be told from it.".to_owned());
    }
    let each = || openings.iter().filter_map(|one| one.rate(way));
    if each().any(|rate| rates.is_outlier(rate)) {
        said.push("An opening lies far from the others. It is counted in all the same: ask what was different then.".to_owned());
    }
    if rates.mean > 0.0 && each().any(|rate| rate < 0.0) {
        said.push("At one opening or more the reading went against the wear: metal does not grow. It is counted in all the same and widens the interval; measure again if it still can be.".to_owned());
    }
    said
}

fn table(openings: &[Opening], way: Way, rates: Option<&Rates>) -> Outcome {
    let unknown = || "?".to_owned();
    let rows = (1..).zip(openings).map(|(number, one)| {
        let rate = one.rate(way);
        let remark = match (rate, rates) {
            (Some(rate), Some(rates)) if rates.is_outlier(rate) => "counted; far from the others",
            (Some(rate), _) if rate < 0.0 => "counted; against the wear",
            (Some(_), _) => "counted",
            (None, _) if one.left.is_none() => "no rate: as left not known",
            (None, _) => "no rate: miles not known",
        };
        let miles = |over: f64| show::number(over * MILES, 0, Rounding::Nearest);
        vec![
            number.to_string(),
            one.left.map_or_else(unknown, tenths),
            tenths(one.found),
            one.over.map_or_else(unknown, miles),
            rate.map_or_else(unknown, rate_in),
            remark.to_owned(),
        ]
    });
    let columns = [
        "opening",
        "as left in",
        "as found in",
        "miles",
        "wear in 1000 miles in",
        "remark",
    ];
    Outcome::Table {
        rows: rows.collect(),
        columns: columns.map(str::to_owned).to_vec(),
    }
}
