//! Rates of wear from openings, for every sheet that reckons with them, by service days or by miles alike.
//!
//! Only what an opening's wear is divided by differs, and the words for it: [`By`] says both.

use super::{SIGN, Way, found, rate_in, tenths, told};
use crate::answer::{Answer, Assumption, Outcome, cannot_tell};
use crate::card::Symbol;
use crate::chance;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Rounding, Unit, math, show};

/// The level of the test for an outlier.
const OUTLIER: f64 = 0.05;
/// The confidence taken where none was said.
const CONFIDENCE: f64 = 0.95;
/// What the readings must show before a limit can be reached.
const WEAR: &str = "readings that show wear";
/// Where sums over openings stand.
const ADDED: &str = "added up from the table of openings";

/// Where a spread comes from.
pub const SPREAD: &str =
    "standard deviation of the openings, one degree of freedom taken by their mean";
/// Where an interval comes from.
pub const STUDENT: &str = "Student's t, both sides";

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

/// What the wear of an opening is divided by, and how a sheet speaks of it.
#[derive(Debug)]
pub struct By {
    /// The sheet's id.
    pub sheet: &'static str,
    /// The argument that tells how much lay in each opening.
    pub argument: &'static str,
    /// How much of it a rate is for.
    pub per: f64,
    /// Its words, over the table of openings and where an opening lacks it.
    pub words: &'static str,
    /// The words for a rate over that table.
    pub rate: &'static str,
    /// What a first rate needs.
    pub first: &'static str,
    /// What a spread needs.
    pub second: &'static str,
    /// What is said of openings without a rate, after their numbers.
    pub unknown: &'static str,
    /// The values found that stand in the formula.
    pub symbols: Symbols,
}

/// The values that openings give to a formula.
#[derive(Debug, Clone, Copy)]
pub struct Symbols {
    /// How many openings were given.
    pub given: Symbol,
    /// How many of them give no rate.
    pub without: Symbol,
    /// The sum of their rates.
    pub sum: Symbol,
    /// The sum of squares about their mean.
    pub squares: Symbol,
    /// Student's t.
    pub t: Symbol,
    /// The rate that is reckoned with.
    pub reckoned: Symbol,
}

impl Symbols {
    /// The symbols of a sheet: where its rates come from, what an opening without one lacks, what the sum is of.
    pub const fn of(rates: &'static str, without: &'static str, sum: &'static str) -> Symbols {
        Symbols {
            given: Symbol::named("n_g", "", "openings given", rates),
            without: Symbol::named("n_w", "", without, rates),
            sum: Symbol::of("u", Dimension::Length, sum, rates),
            squares: Symbol::of(
                "q",
                Dimension::Area,
                "sum of the squares of each rate less the mean",
                SPREAD,
            ),
            t: Symbol::named(
                "t",
                "",
                "Student's t for the confidence, with n - 1 degrees of freedom",
                STUDENT,
            ),
            reckoned: Symbol::of(
                "g",
                Dimension::Length,
                "the mean rate, where it is wear at all",
                rates,
            ),
        }
    }
}

/// The openings of a sheet, reckoned.
#[derive(Debug)]
pub struct Reckoned {
    by: &'static By,
    /// Which way it wears.
    pub way: Way,
    openings: Vec<Opening>,
    /// What the openings say; none where none gives a rate.
    pub rates: Option<Rates>,
    confidence: f64,
}

impl Reckoned {
    /// Reads the openings and takes their rates.
    ///
    /// # Errors
    /// As many as-left readings, as-found readings and amounts between must be given, and the way it wears.
    pub fn of(by: &'static By, inputs: &Inputs) -> Result<Reckoned, SheetError> {
        let way = inputs.need_word("wears", Way::of)?;
        let openings = by.openings(inputs)?;
        let rates: Vec<f64> = openings.iter().filter_map(|one| one.rate(way)).collect();
        Ok(Reckoned {
            by,
            way,
            openings,
            rates: Rates::of(&rates),
            confidence: inputs.si("confidence").unwrap_or(CONFIDENCE),
        })
    }

    /// The mean rate, where it is wear.
    pub fn worn(&self) -> Option<f64> {
        self.rates
            .map(|rates| rates.mean)
            .filter(|rate| *rate > 0.0)
    }

    /// The rate at the fast end of the interval.
    pub fn fast(&self) -> Option<f64> {
        let interval = self.rates.and_then(|rates| rates.interval(self.confidence));
        interval
            .zip(self.worn())
            .map(|(interval, worn)| worn + interval)
    }

    /// What is missing before a limit can be reached.
    pub fn no_wear(&self) -> Option<&'static str> {
        match (self.rates, self.worn()) {
            (None, _) => Some(self.by.first),
            (_, None) => Some(WEAR),
            _ => None,
        }
    }

    /// What is missing of a spread beside the first rate.
    pub fn few(&self) -> Option<&'static str> {
        let few = self.rates.filter(|rates| rates.count < 2);
        few.map(|_| self.by.second)
    }

    /// What is missing of a spread, the first rate among it.
    pub fn no_spread(&self) -> Option<&'static str> {
        match self.rates {
            None => Some(self.by.first),
            Some(_) => self.few(),
        }
    }

    /// Half the width of the interval that holds the mean itself.
    pub fn mean_interval(&self) -> Option<f64> {
        let rates = self.rates?;
        let t = rates.student(self.confidence)?;
        Some(t * rates.deviation()? / math::sqrt(f64::from(rates.count)))
    }

    /// The rate and its interval, and the values found that stand in the formula.
    pub fn begun(&self, mut answer: Answer) -> Answer {
        let symbols = &self.by.symbols;
        let inch = |si: f64| Unit::Inch.from_si(si);
        let given = self.openings.len() as f64;
        let counted = f64::from(self.rates.map_or(0, |rates| rates.count));
        let way = found(SIGN, self.way.sign(), "as it was said to wear");
        answer.found.push(way);
        for (symbol, value) in [(symbols.given, given), (symbols.without, given - counted)] {
            answer.found.push(found(symbol, value, "counted"));
        }
        answer = answer.with("counted", Outcome::Si(counted));
        if let Some(rates) = self.rates {
            let sum = inch(rates.mean * f64::from(rates.count));
            answer.found.push(found(symbols.sum, sum, ADDED));
            if rates.count > 1 {
                let squares = inch(inch(rates.squares));
                answer.found.push(found(symbols.squares, squares, ADDED));
            }
            if let Some(t) = rates.student(self.confidence) {
                let whose = "Abramowitz and Stegun, 26.7.3 and 26.7.4";
                answer.found.push(found(symbols.t, t, whose));
            }
            if rates.mean > 0.0 {
                let mean = found(symbols.reckoned, inch(rates.mean), "the mean rate");
                answer.found.push(mean);
            }
        }
        let first = self.rates.is_none().then_some(self.by.first);
        let second = self.no_spread();
        let rate = self.rates.map(|rates| rates.mean);
        let deviation = self.rates.as_ref().and_then(Rates::deviation);
        let interval = self.rates.and_then(|rates| rates.interval(self.confidence));
        answer = told(answer, "rate", rate, &[first]);
        answer = told(answer, "spread", deviation, &[second]);
        told(answer, "interval", interval, &[second])
    }

    /// Which way the readings went, the table of openings, and what must be said of them.
    pub fn ended(&self, mut answer: Answer, inputs: &Inputs) -> Answer {
        let direction = match &self.rates {
            Some(rates) => self.way.said(rates.mean),
            None => cannot_tell(&[self.by.first]),
        };
        answer = answer
            .with("direction", direction)
            .with("openings", self.table());
        if inputs.si("confidence").is_none() {
            answer.assumptions.push(Assumption {
                argument: "confidence",
                text: "0.95",
                si: CONFIDENCE,
                why: "none was said: 19 times in 20",
            });
        }
        answer.notices.extend(self.remarks());
        answer
    }

    fn remarks(&self) -> Vec<String> {
        let (openings, way) = (&self.openings, self.way);
        let mut said = Vec::new();
        let without: Vec<String> = (1..)
            .zip(openings)
            .filter(|(_, one)| one.rate(way).is_none())
            .map(|(number, _)| number.to_string())
            .collect();
        if !without.is_empty() {
            said.push(format!(
                "No rate from opening {}: {}",
                without.join(", "),
                self.by.unknown
            ));
        }
        let Some(rates) = self.rates else {
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
            rates_of.filter(|rate| of(&rates, *rate)).count()
        };
        if marked(Rates::is_outlier) > 0 {
            said.push("An opening lies far from the others. It is counted in all the same: ask what was different then.".to_owned());
        }
        if rates.mean > 0.0 && marked(|_, rate| rate < 0.0) > 0 {
            said.push("At one opening or more the reading went against the wear: metal does not grow. It is counted in all the same and widens the interval; measure again if it still can be.".to_owned());
        }
        said
    }

    fn table(&self) -> Outcome {
        let rates = self.rates.as_ref();
        let unknown = || "?".to_owned();
        let over = |over: f64| show::number(over * self.by.per, 0, Rounding::Nearest);
        let rows = (1..).zip(&self.openings).map(|(number, one)| {
            let rate = one.rate(self.way);
            let remark = match (rate, rates) {
                (Some(rate), Some(rates)) if rates.is_outlier(rate) => {
                    "counted; far from the others".to_owned()
                }
                (Some(rate), _) if rate < 0.0 => "counted; against the wear".to_owned(),
                (Some(_), _) => "counted".to_owned(),
                (None, _) if one.left.is_none() => "no rate: as left not known".to_owned(),
                (None, _) => format!("no rate: {} not known", self.by.words),
            };
            vec![
                number.to_string(),
                one.left.map_or_else(unknown, tenths),
                tenths(one.found),
                one.over.map_or_else(unknown, over),
                rate.map_or_else(unknown, rate_in),
                remark,
            ]
        });
        let columns = [
            "opening",
            "as left in",
            "as found in",
            self.by.words,
            self.by.rate,
            "remark",
        ];
        Outcome::Table {
            rows: rows.collect(),
            columns: columns.map(str::to_owned).to_vec(),
        }
    }
}

impl By {
    /// The openings as given, in their order.
    fn openings(&self, inputs: &Inputs) -> Result<Vec<Opening>, SheetError> {
        let (left, found, over) = (
            inputs.gapped_si("as_left"),
            inputs.list_si("as_found"),
            inputs.gapped_si(self.argument),
        );
        if left.len() != found.len() || over.len() != found.len() {
            return Err(SheetError::impossible(
                self.sheet,
                format!(
                    "{} of as_left, {} of as_found and {} of {} were given",
                    left.len(),
                    found.len(),
                    over.len(),
                    self.argument
                ),
                "as many of each, in the same order, with ? for what nobody knows",
            ));
        }
        let each = left.iter().zip(found).zip(over);
        Ok(each
            .map(|((left, found), over)| Opening {
                left: *left,
                found: *found,
                over: over.map(|over| over / self.per),
            })
            .collect())
    }
}
