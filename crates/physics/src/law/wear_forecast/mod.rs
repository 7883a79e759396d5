//! `wear.forecast`: how fast one feature wears from one opening to the next, and what that leaves.
//!
//! An as-left reading and the next as-found reading are one measured interval of wear, whatever was cut in between; so
//! wear is reckoned by intervals, and a re-cut never looks like wear turning back.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, Assumption, Outcome, cannot_tell};
use crate::chance;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::wear::{SIGN, Way, found, rate_in, tenths, told};
use measure::{Rounding, Unit, math, show};

/// The level of the test for an outlier.
const OUTLIER: f64 = 0.05;
/// The confidence taken where none was said.
pub const CONFIDENCE: f64 = 0.95;
/// How many times its mirror a part may wear before somebody looks, where nothing was said.
const FACTOR: f64 = 2.0;

const RATE: &str = "an opening with both as_left and days";
const SECOND: &str = "a second opening with both as_left and days";
const WEAR: &str = "readings that show wear";
const APART: &str = "openings whose rates differ";

/// What some openings say of the rate of wear, in metres a service day or for one of what it goes by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    /// How many gave a rate.
    pub count: u32,
    /// Their mean.
    pub mean: f64,
    /// The sum of the squares of each less the mean.
    pub squares: f64,
}

impl Rates {
    /// Takes the mean of `rates`, metres a service day; none of none.
    pub fn of(rates: &[f64]) -> Option<Rates> {
        let count = u32::try_from(rates.len()).ok().filter(|n| *n > 0)?;
        let mean = rates.iter().sum::<f64>() / f64::from(count);
        // Rates that are all one figure have no spread, whatever dust their mean carries.
        let alike = rates
            .iter()
            .all(|rate| (rate - mean).abs() <= 1e-12 * mean.abs());
        let squares = match alike {
            true => 0.0,
            false => rates.iter().map(|rate| (rate - mean) * (rate - mean)).sum(),
        };
        Some(Rates {
            count,
            mean,
            squares,
        })
    }

    /// The standard deviation of one opening's rate; none from a single opening.
    pub fn deviation(&self) -> Option<f64> {
        (self.count > 1).then(|| math::sqrt(self.squares / f64::from(self.count - 1)))
    }

    /// The deviation to reckon with for an opening yet to come: that of the openings and that of their mean.
    pub fn ahead(&self) -> Option<f64> {
        Some(self.deviation()? * math::sqrt(1.0 + 1.0 / f64::from(self.count)))
    }

    /// Student's t for `confidence`, both sides together; none from a single opening.
    pub fn student(&self, confidence: f64) -> Option<f64> {
        chance::quantile((1.0 - confidence) / 2.0, self.count.checked_sub(1)?)
    }

    /// The half width of the interval that holds the rate to the next opening.
    pub fn interval(&self, confidence: f64) -> Option<f64> {
        Some(self.student(confidence)? * self.ahead()?)
    }

    /// The chance that the rate to the next opening is above `rate`; none where the openings show no spread to reckon with.
    pub fn chance_above(&self, rate: f64) -> Option<f64> {
        let ahead = self.ahead().filter(|ahead| *ahead > 0.0)?;
        Some(chance::beyond((rate - self.mean) / ahead, self.count - 1))
    }

    /// Whether `rate`, one of those taken, is an outlier by Grubbs' test at 5 percent, either side.
    pub fn is_outlier(&self, rate: f64) -> bool {
        let limit = chance::grubbs(self.count, OUTLIER / (2.0 * f64::from(self.count)));
        match limit.zip(self.deviation()) {
            Some((limit, deviation)) => (rate - self.mean).abs() > limit * deviation,
            None => false,
        }
    }
}

/// One opening: what it was left at before, what it was found at, and the service days between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// As left, in metres, if anybody wrote it down.
    pub left: Option<f64>,
    /// As found, in metres.
    pub found: f64,
    /// Service days, if a log was kept; where wear goes by something else, how much of that.
    pub over: Option<f64>,
}

impl Opening {
    /// Wear in metres a service day, or for one of what it goes by, above zero the way it wears; none where a fact is missing.
    pub fn rate(&self, way: Way) -> Option<f64> {
        let over = self.over.filter(|over| *over > 0.0)?;
        Some(way.along(self.left?, self.found) / over)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let way = inputs.need_word("wears", Way::of)?;
    let openings = openings(inputs)?;
    let rates: Vec<f64> = openings.iter().filter_map(|one| one.rate(way)).collect();
    let rates = Rates::of(&rates);
    let confidence = inputs.si("confidence").unwrap_or(CONFIDENCE);

    let mut answer = Answer::new(card::OPENINGS);
    answer
        .found
        .push(found(SIGN, way.sign(), "as it was said to wear"));
    let counted = rates.map_or(0, |rates| rates.count);
    let given = openings.len() as f64;
    for (symbol, value) in [
        (card::GIVEN, given),
        (card::WITHOUT, given - f64::from(counted)),
    ] {
        answer.found.push(found(symbol, value, "counted"));
    }
    answer = answer.with("counted", Outcome::Si(f64::from(counted)));
    answer = reckoned(answer, rates.as_ref(), confidence);
    answer = limits(answer, inputs, way, rates.as_ref(), confidence)?;
    answer = mirrored(answer, inputs, rates.as_ref());
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

/// The rate and its intervals, and the values found that stand in the formula.
fn reckoned(mut answer: Answer, rates: Option<&Rates>, confidence: f64) -> Answer {
    let inch = |si: f64| Unit::Inch.from_si(si);
    if let Some(rates) = rates {
        let sum = inch(rates.mean * f64::from(rates.count));
        answer
            .found
            .push(found(card::SUM, sum, "added up from the table of openings"));
        if rates.count > 1 {
            let squares = inch(inch(rates.squares));
            answer.found.push(found(
                card::SQUARES,
                squares,
                "added up from the table of openings",
            ));
        }
        if let Some(t) = rates.student(confidence) {
            answer.found.push(found(
                card::T,
                t,
                "Abramowitz and Stegun, 26.7.3 and 26.7.4",
            ));
        }
        if rates.mean > 0.0 {
            answer
                .found
                .push(found(card::RECKONED, inch(rates.mean), "the mean rate"));
        }
    }
    let first = rates.is_none().then_some(RATE);
    let second = match rates {
        None => first,
        Some(rates) => (rates.count < 2).then_some(SECOND),
    };
    let deviation = rates.and_then(Rates::deviation);
    let mean_interval = rates.zip(deviation).and_then(|(rates, deviation)| {
        Some(rates.student(confidence)? * deviation / math::sqrt(f64::from(rates.count)))
    });
    let interval = rates.and_then(|rates| rates.interval(confidence));
    answer = told(answer, "rate", rates.map(|rates| rates.mean), &[first]);
    answer = told(answer, "spread", deviation, &[second]);
    answer = told(answer, "mean_interval", mean_interval, &[second]);
    told(answer, "interval", interval, &[second])
}

/// The days to both limits and the chance of reaching them.
fn limits(
    mut answer: Answer,
    inputs: &Inputs,
    way: Way,
    rates: Option<&Rates>,
    confidence: f64,
) -> Result<Answer, SheetError> {
    let present = inputs.need_si("present")?;
    let ahead = inputs.si("days_ahead");
    let worn = rates.map(|rates| rates.mean).filter(|rate| *rate > 0.0);
    let no_wear = match (rates, worn) {
        (None, _) => Some(RATE),
        (_, None) => Some(WEAR),
        _ => None,
    };
    let few = rates.filter(|rates| rates.count < 2).map(|_| SECOND);
    let no_spread = match rates {
        None => Some(RATE),
        Some(rates) if rates.count < 2 => Some(SECOND),
        Some(rates) => (rates.squares <= 0.0).then_some(APART),
    };
    let fast = rates
        .and_then(|rates| rates.interval(confidence))
        .zip(worn)
        .map(|(interval, worn)| worn + interval);
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
        let room = limit.map(|limit| way.room(present, limit));
        let over = |rate: Option<f64>| Some(room? / rate?);
        let needed = over(ahead);
        let above = needed
            .zip(rates)
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
fn mirrored(mut answer: Answer, inputs: &Inputs, rates: Option<&Rates>) -> Answer {
    let rate = rates.map(|rates| rates.mean).filter(|rate| *rate > 0.0);
    let mirror = inputs.si("mirror_rate");
    let ratio = rate.zip(mirror).map(|(rate, mirror)| rate / mirror);
    let needs = [
        mirror.is_none().then_some("mirror_rate"),
        match (rates, rate) {
            (None, _) => Some(RATE),
            (_, None) => Some(WEAR),
            _ => None,
        },
    ];
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

/// The openings as given, in their order.
fn openings(inputs: &Inputs) -> Result<Vec<Opening>, SheetError> {
    let (left, found, days) = (
        inputs.gapped_si("as_left"),
        inputs.list_si("as_found"),
        inputs.gapped_si("days"),
    );
    if left.len() != found.len() || days.len() != found.len() {
        return Err(SheetError::impossible(
            card::ID,
            format!(
                "{} of as_left, {} of as_found and {} of days were given",
                left.len(),
                found.len(),
                days.len()
            ),
            "as many of each, in the same order, with ? for what nobody knows",
        ));
    }
    let each = left.iter().zip(found).zip(days);
    Ok(each
        .map(|((left, found), days)| Opening {
            left: *left,
            found: *found,
            over: *days,
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
            "No rate from opening {}: as_left or days is not known, and nothing was put in its place. It may have been a hard one.",
            without.join(", ")
        ));
    }
    let Some(rates) = rates else {
        return said;
    };
    if rates.count == 1 {
        said.push("One opening gives one rate and no interval: how far the next may differ cannot be told from it.".to_owned());
    }
    if rates.count > 1 && rates.squares <= 0.0 {
        said.push("The rates are alike to the last figure, so the interval is nothing. That is luck or a copied figure, and no proof.".to_owned());
    }
    let marked = |of: fn(&Rates, f64) -> bool| {
        let rates_of = openings.iter().filter_map(|one| one.rate(way));
        rates_of.filter(|rate| of(rates, *rate)).count()
    };
    if marked(Rates::is_outlier) > 0 {
        said.push("An opening lies far from the others. It is counted in all the same: ask what was different then.".to_owned());
    }
    if rates.mean > 0.0 && marked(|_, rate| rate < 0.0) > 0 {
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
            (None, _) => "no rate: service days not known",
        };
        vec![
            number.to_string(),
            one.left.map_or_else(unknown, tenths),
            tenths(one.found),
            one.over
                .map_or_else(unknown, |days| show::number(days, 0, Rounding::Nearest)),
            rate.map_or_else(unknown, rate_in),
            remark.to_owned(),
        ]
    });
    let columns = [
        "opening",
        "as left in",
        "as found in",
        "service days",
        "wear a day in",
        "remark",
    ];
    Outcome::Table {
        rows: rows.collect(),
        columns: columns.map(str::to_owned).to_vec(),
    }
}
