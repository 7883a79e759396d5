//! A limit shown by cases: a reading a step below its value, at it, and a step above, and what each comes to. Worked
//! from the rule itself; the table of the law's rows (`rulebook/us-steam/limits.csv`) checks them from outside.

use measure::{Fraction, Size, fraction};

use crate::{Body, Compare, Limit, LimitValue, Outcome, Version, words};

/// Where a case's reading lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Near {
    /// One step below the value.
    Below,
    /// At the value.
    At,
    /// One step above the value.
    Above,
}

/// One reading and what it comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Case {
    /// The value it lies by, as written, with the facts that give it where a table or a formula does.
    pub of: String,
    /// Where the reading lies.
    pub near: Near,
    /// The reading, in words: "one tick (2.5 nm) below 1/4 in".
    pub reading: String,
    /// Whether it complies; if not, it fails.
    pub complies: bool,
}

impl Case {
    /// The verdict in its fixed word.
    pub fn verdict(&self) -> &'static str {
        if self.complies { "complies" } else { "fails" }
    }
}

impl Version {
    /// The cases of a limit: three at every value it has. A table gives them cell by cell; a formula at the example of
    /// its file. Kinds that hold no reading against a figure have none.
    pub fn cases(&self) -> Vec<Case> {
        match &self.body {
            Body::Limit(limit) => of_limit(limit, ""),
            Body::LimitTable(table) => {
                let columns = table.columns.as_ref().map(|c| c.labels());
                let mut cases = Vec::new();
                for (row, line) in table.rows.labels().iter().zip(&table.cells) {
                    for (at, (written, value)) in line.iter().enumerate() {
                        let column = columns.as_ref().and_then(|c| c.get(at));
                        let place = match column {
                            Some(column) => format!(
                                "{} {row}, {} {column}: ",
                                table.rows.name.replace('_', " "),
                                table
                                    .columns
                                    .as_ref()
                                    .map_or(String::new(), |c| c.name.replace('_', " "))
                            ),
                            None => format!("{row}: "),
                        };
                        cases.extend(of_limit(&table.limit_of(written, value), &place));
                    }
                }
                cases
            }
            Body::LimitFormula(formula) => {
                let told: Vec<String> = formula
                    .facts
                    .iter()
                    .map(|f| format!("{} {} {}", f.meaning, fraction::mixed(f.example), f.unit))
                    .collect();
                match formula.limit_for(&formula.examples()) {
                    Ok(limit) => of_limit(&limit, &format!("{}: ", told.join(", "))),
                    Err(_) => Vec::new(),
                }
            }
            _ => Vec::new(),
        }
    }
}

fn of_limit(limit: &Limit, place: &str) -> Vec<Case> {
    let single = limit.written.as_str();
    let (from, to) = single.split_once(" to ").unwrap_or((single, single));
    match (&limit.value, limit.compare) {
        (LimitValue::SizeRange(least, most), _) => {
            let mut cases = lengths(limit, place, from, *least);
            cases.extend(lengths(limit, place, to, *most));
            cases
        }
        (LimitValue::NumberRange(least, most), _) => {
            let mut cases = numbers(limit, place, from, *least);
            cases.extend(numbers(limit, place, to, *most));
            cases
        }
        (LimitValue::Size(value), _) => lengths(limit, place, single, *value),
        (LimitValue::Number(value), _) => numbers(limit, place, single, *value),
        // Fewer than none cannot be found.
        (LimitValue::CountNone, Compare::Max | Compare::Min | Compare::Range | Compare::Set) => {
            let mut cases = numbers(limit, place, "0", Fraction::from_integer(0));
            cases.retain(|case| case.near != Near::Below);
            cases
        }
    }
}

fn lengths(limit: &Limit, place: &str, written: &str, value: Size) -> Vec<Case> {
    three(place, written, "one tick (2.5 nm)", |step| {
        limit.judge(Size::from_ticks(value.ticks().saturating_add(step))) == Outcome::Passes
    })
}

fn numbers(limit: &Limit, place: &str, written: &str, value: Fraction) -> Vec<Case> {
    let steps = words::unit(&limit.unit).map_or(1_000, |unit| unit.steps_in_one);
    let step = Fraction::new(1, steps);
    let written = format!("{written} {}", limit.unit);
    three(place, &written, &fraction::mixed(step), |way| {
        let reading = value + step * Fraction::from_integer(i128::from(way));
        limit.judge_number(reading) == Outcome::Passes
    })
}

fn three(place: &str, written: &str, step: &str, passes: impl Fn(i64) -> bool) -> Vec<Case> {
    [
        (Near::Below, -1, format!("{step} below {written}")),
        (Near::At, 0, written.to_owned()),
        (Near::Above, 1, format!("{step} above {written}")),
    ]
    .into_iter()
    .map(|(near, way, reading)| Case {
        of: format!("{place}{written}"),
        near,
        reading,
        complies: passes(way),
    })
    .collect()
}
