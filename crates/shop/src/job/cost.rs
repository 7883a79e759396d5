//! What a job cost: hours booked by person and by place of work, and money as it was written. No currency is invented, and
//! none is turned into another.

use std::collections::BTreeMap;

use measure::{Dimension, Fraction, House, entered};

use crate::book::{Job, PersonId, QuarterHours};

/// What is known of it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Cost {
    /// Hours by person.
    pub by_person: BTreeMap<PersonId, QuarterHours>,
    /// Hours by the place of the work: bench, lathe, engine.
    pub by_place: BTreeMap<String, QuarterHours>,
    /// All of them.
    pub hours: QuarterHours,
    /// Operations that were done and for which nobody kept hours, by number.
    pub unkept: Vec<usize>,
    /// Sums of what papers say they cost, each in its own currency as written, in the order first written.
    pub money: Vec<Sum>,
    /// Costs that are no sum of one currency: as written.
    pub unread: Vec<String>,
    /// Purchases that say no cost: what they say.
    pub unpriced: Vec<String>,
}

/// Money of one currency.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sum {
    /// How the currency was written; empty where none was.
    pub currency: String,
    /// Whether it stands before the figure.
    pub before: bool,
    /// How much.
    pub amount: Fraction,
    /// The most decimals of any figure in it.
    pub decimals: usize,
    /// How many figures.
    pub figures: usize,
}

impl Sum {
    /// As it is written: `$41.50`, `41.50 USD`.
    pub fn written(&self) -> String {
        let figure = decimal(self.amount, self.decimals);
        match (self.currency.as_str(), self.before) {
            ("", _) => figure,
            (sign, true) if sign.chars().all(char::is_alphabetic) => format!("{sign} {figure}"),
            (sign, true) => format!("{sign}{figure}"),
            (sign, false) => format!("{figure} {sign}"),
        }
    }
}

/// An exact sum with so many decimals. Every figure had that many at the most, so nothing is rounded.
fn decimal(amount: Fraction, decimals: usize) -> String {
    let scale = (0..decimals).fold(1, |scale, _| scale * 10);
    let whole = (amount * Fraction::from_integer(scale)).to_integer();
    if decimals == 0 {
        return whole.to_string();
    }
    format!("{}.{:0decimals$}", whole / scale, whole % scale)
}

/// What a job cost.
pub fn cost(job: &Job) -> Cost {
    let mut cost = Cost::default();
    let steps = job.plan.operations.iter().zip(&job.operations).enumerate();
    for (at, (plan, state)) in steps {
        let Some((_, by, hours, _)) = &state.done else {
            continue;
        };
        let Some(hours) = hours else {
            cost.unkept.push(at + 1);
            continue;
        };
        let add = |to: &mut QuarterHours| to.0 = to.0.saturating_add(hours.0);
        add(cost.by_person.entry(*by).or_default());
        add(cost.by_place.entry(plan.place.clone()).or_default());
        add(&mut cost.hours);
    }
    for paper in &job.papers {
        let kept = &paper.kept;
        match kept.cost.as_deref().map(str::trim) {
            Some(written) if !written.is_empty() => cost.spent(written),
            _ if kept.kind == crate::book::JobPaper::Purchase => {
                cost.unpriced.push(kept.told.clone());
            }
            _ => {}
        }
    }
    cost
}

impl Cost {
    /// Whether there is anything to tell.
    pub fn is_empty(&self) -> bool {
        *self == Cost::default()
    }

    fn spent(&mut self, written: &str) {
        let Some(one) = read(written) else {
            self.unread.push(written.to_owned());
            return;
        };
        match self
            .money
            .iter_mut()
            .find(|sum| sum.currency == one.currency)
        {
            None => self.money.push(one),
            Some(sum) => {
                sum.amount += one.amount;
                sum.decimals = sum.decimals.max(one.decimals);
                sum.figures += 1;
            }
        }
    }
}

/// The greatest figure that is read, and the most decimals: more is no price of a shop.
const MOST: i128 = 1_000_000_000;
const MOST_DECIMALS: usize = 4;

/// A figure with one currency before or after it. A word of more than four letters is no currency, and a comma that does not
/// part thousands may mean another thing: neither is read.
fn read(written: &str) -> Option<Sum> {
    let is_figure = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let from = written.find(|c: char| c.is_ascii_digit())?;
    let figure: &str = &written[from..];
    let until = figure.find(|c| !is_figure(c)).unwrap_or(figure.len());
    let (figure, after) = figure.split_at(until);
    let (sign, after) = (written[..from].trim(), after.trim());
    let (currency, before) = match (sign, after) {
        ("", after) => (after, false),
        (sign, "") => (sign, true),
        _ => return None,
    };
    let is_sign = |c: char| !c.is_whitespace() && !c.is_ascii_digit() && !"+-−.,".contains(c);
    if currency.chars().count() > 4 || !currency.chars().all(is_sign) {
        return None;
    }
    let (whole, part) = figure.split_once('.').unwrap_or((figure, ""));
    if part.contains(['.', ',']) || part.len() > MOST_DECIMALS || figure.ends_with(['.', ',']) {
        return None;
    }
    let mut groups = whole.split(',');
    let first = groups.next()?;
    let thousands = groups.all(|group| group.len() == 3);
    if !thousands || (whole.contains(',') && !(1..=3).contains(&first.len())) {
        return None;
    }
    let plain = whole.replace(',', "");
    let text = if part.is_empty() {
        plain
    } else {
        format!("{plain}.{part}")
    };
    let amount = entered(&text, Dimension::Ratio, House::Inch).ok()?.exact?;
    (amount <= Fraction::from_integer(MOST)).then(|| Sum {
        currency: currency.to_owned(),
        before,
        amount,
        decimals: part.len(),
        figures: 1,
    })
}
