//! Holds one row of the law's figures against its rule, by the row's own word for a reading at the value.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Fraction, Size};
use num_traits::CheckedMul as _;

use super::Row;
use crate::expression::{Expression, plain};
use crate::{
    Axis, Bands, Body, Compare, CountUnit, Keep, Limit, LimitFormula, LimitTable, LimitValue,
    Outcome, Place, Rulebook, Ruling, Span, words,
};

/// Whether the ruling gives what the row says; if not, why.
pub(super) fn meet(
    rulebook: &Rulebook,
    row: &Row,
    ruling: &Ruling,
    on: Date,
) -> Result<(), String> {
    let (section, marked) = match &ruling.body {
        // An item of the appendix is cited by the appendix; the section that asks for the work is its own.
        Body::Item(item) => (item.section.as_str(), false),
        _ => (ruling.cite.section.as_str(), true),
    };
    // An item may answer for two sections; its reading then names the second.
    let also = matches!(&ruling.body, Body::Item(_)) && ruling.reading.contains(&row.section);
    if !row.section.starts_with(section) && !also {
        return Err(format!("its rule `{}` cites {section}", ruling.rule));
    }
    if marked && !same_mark(&row.mark, &ruling.mark) {
        return Err(format!(
            "the row was read in {}, its rule is marked \"{}\"",
            row.mark, ruling.mark
        ));
    }
    match &ruling.body {
        Body::Limit(limit) if row.part == "track_gauge less the reading" => difference(row, limit),
        Body::Limit(limit) => figure(row, limit),
        Body::LimitTable(table) => cell(row, table),
        Body::LimitFormula(formula) => worked(row, formula),
        Body::Count(it) => counted(row, it.unit, it.due_after),
        Body::Calendar(it) => span(row, it.span),
        Body::WhicheverFirst(it) => match row.part.as_str() {
            // Of several counting arms the one in the row's unit is meant.
            "count" => {
                let arms = it.counts.iter();
                arms.map(|arm| counted(row, arm.unit, arm.due_after))
                    .reduce(Result::or)
                    .unwrap_or_else(|| Err("no counting arm".into()))
            }
            "calendar" => it
                .calendar
                .as_ref()
                .map_or_else(|| Err("no calendar arm".into()), |arm| span(row, arm.span)),
            "first start" => it.first_start.as_ref().map_or_else(
                || Err("no first start".into()),
                |first| span(row, first.within),
            ),
            other => Err(format!("a clock of several arms has no part `{other}`")),
        },
        Body::Item(item) => {
            let clocks = rulebook
                .clocks(jurisdiction(&ruling.rule), on)
                .map_err(|e| e.to_string())?;
            let own = clocks.iter().filter_map(|clock| match &clock.body {
                Body::Count(c) if item.inspections.contains(&c.inspection) => Some(c),
                _ => None,
            });
            let told: Vec<_> = own.map(|c| counted(row, c.unit, c.due_after)).collect();
            match told.into_iter().next() {
                Some(met) => met,
                None => Err("no counting clock of its inspection is on file".into()),
            }
        }
        Body::Filing(it) => it
            .when
            .span
            .map_or_else(|| Err("its rule has no span".into()), |s| span(row, s)),
        Body::Retention(it) => match it.keep {
            Keep::Days(days) => span(row, Span::Days(days)),
            other => Err(format!("its rule keeps it {other:?}")),
        },
        Body::Definition(_) => Err("a definition holds no figure".into()),
    }
}

fn jurisdiction(rule: &str) -> &str {
    rule.split('.').next().unwrap_or(rule)
}

/// The row's short word for where it was read against the rule's mark, which may add what is inference.
fn same_mark(row: &str, rule: &str) -> bool {
    let begins = match row {
        "2015" => String::from("read in the 2015 text"),
        "2015; words 2023" => String::from(
            "read in the 2015 text; the sentence, without its figure, seen again in the 2023 text",
        ),
        _ => match row.strip_prefix("2015 and ") {
            Some(year) => format!("read in the 2015 text, seen again in the {year} text"),
            None => return false,
        },
    };
    rule.strip_prefix(begins.as_str()).is_some_and(|rest| {
        rest.is_empty() || (rest.starts_with("; ") && !rest.contains("seen again"))
    })
}

/// A figure as the row writes it: `1 1/4`, `7500`, `0.25`.
fn number(text: &str) -> Result<Fraction, String> {
    let wrong = || format!("`{text}` does not read as a number");
    let part = |t: &str| match t.split_once('/') {
        Some((a, b)) => match (plain(a), plain(b)) {
            (Some(a), Some(b)) if b != Fraction::from_integer(0) => Some(a / b),
            _ => None,
        },
        None => plain(t),
    };
    match text.split_once(' ') {
        Some((whole, rest)) => Ok(part(whole).ok_or_else(wrong)? + part(rest).ok_or_else(wrong)?),
        None => part(text).ok_or_else(wrong),
    }
}

/// How many inches, where the row's unit is a length.
fn inches(unit: &str) -> Option<i128> {
    match unit {
        "in" => Some(1),
        "ft" => Some(12),
        _ => None,
    }
}

fn ticks(length: Fraction) -> Result<Fraction, String> {
    length
        .checked_mul(&Fraction::from_integer(i128::from(Size::TICKS_PER_INCH)))
        .ok_or_else(|| "the length is too large".into())
}

/// Whether a reading passes: of a length in ticks, of anything else in the row's unit.
fn passes(limit: &Limit, length: bool, reading: Fraction) -> Result<bool, String> {
    if !length {
        return match limit.judge_number(reading) {
            Outcome::CannotTell { needs } => Err(format!("its rule needs {needs}")),
            other => Ok(other == Outcome::Passes),
        };
    }
    let whole = i64::try_from(reading.to_integer()).map_err(|e| e.to_string())?;
    match limit.judge(Size::from_ticks(whole)) {
        Outcome::CannotTell { needs } => Err(format!("its rule needs {needs}")),
        other => Ok(other == Outcome::Passes),
    }
}

/// What the row's own words say of a reading below, at and above a value.
fn expected(side: &str, at_value: &str) -> Result<[bool; 3], String> {
    let at = match at_value {
        "passes" | "set" => true,
        "fails" => false,
        other => return Err(format!("the row's word at the value is `{other}`")),
    };
    match side {
        "max" => Ok([true, at, false]),
        "min" => Ok([false, at, true]),
        "set" if at_value == "set" => Ok([false, true, false]),
        other => Err(format!("the row's side is `{other}`")),
    }
}

/// One edge of a limit: below, at and above a value by one step.
fn edge(
    limit: &Limit,
    unit: &str,
    value: Fraction,
    [below, at, above]: [bool; 3],
) -> Result<(), String> {
    let (value, step) = match inches(unit) {
        Some(inches) => (
            ticks(value * Fraction::from_integer(inches))?,
            Fraction::from_integer(1),
        ),
        None => {
            let known = words::unit(unit).ok_or_else(|| format!("the unit `{unit}` is unknown"))?;
            if limit.unit != unit {
                return Err(format!("its rule is in {}, the row in {unit}", limit.unit));
            }
            (value, Fraction::new(1, known.steps_in_one))
        }
    };
    let length = inches(unit).is_some();
    for (place, reading, wanted) in [
        ("a step below", value - step, below),
        ("at the value", value, at),
        ("a step above", value + step, above),
    ] {
        // Fewer than none cannot be found.
        if reading < Fraction::from_integer(0) {
            continue;
        }
        if passes(limit, length, reading)? != wanted {
            let word = |passes| if passes { "passes" } else { "fails" };
            return Err(format!(
                "{place} the rule {}, the row {}; the rule says {}",
                word(!wanted),
                word(wanted),
                limit.words()
            ));
        }
    }
    Ok(())
}

fn figure(row: &Row, limit: &Limit) -> Result<(), String> {
    if row.side == "range" {
        let (from, to) = row.value.split_once(" to ").ok_or("a range is `a to b`")?;
        let at = row.at_value == "passes";
        edge(limit, &row.unit, number(from)?, [false, at, true])?;
        return edge(limit, &row.unit, number(to)?, [true, at, false]);
    }
    let sides = expected(&row.side, &row.at_value)?;
    edge(limit, &row.unit, number(&row.value)?, sides)
}

/// A row that limits a size by track gauge, against a rule that limits what the size falls short of it.
fn difference(row: &Row, limit: &Limit) -> Result<(), String> {
    let formula = Expression::read(&row.value)?;
    let [below, at, above] = expected(&row.side, &row.at_value)?;
    for gauge in [24, 30, 36, 42] {
        let gauge = Fraction::from_integer(gauge);
        let bound = formula.work(&BTreeMap::from([("track_gauge", gauge)]))?;
        edge(limit, &row.unit, gauge - bound, [above, at, below])?;
    }
    Ok(())
}

/// The bands a row names: `axle_load over 30000 to 35000; center_diameter over 74`, `compressor = new-york-2a`.
fn places<'r>(part: &'r str, axis: &Axis) -> Result<Vec<Place<'r>>, String> {
    let told = part
        .split("; ")
        .find_map(|p| p.strip_prefix(axis.name.as_str()))
        .ok_or_else(|| format!("the row does not say where it stands in {}", axis.name))?
        .trim();
    if let Some(word) = told.strip_prefix("= ") {
        return Ok(vec![Place::Word(word)]);
    }
    let (over, to) = match told.strip_prefix("over ") {
        Some(rest) => match rest.split_once(" to ") {
            Some((over, to)) => (Some(over), Some(to)),
            None => (Some(rest), None),
        },
        None => (None, told.strip_prefix("to ")),
    };
    let mut ends = Vec::new();
    if let Some(over) = over {
        ends.push(number(over)? + Fraction::new(1, 64));
    }
    if let Some(to) = to {
        ends.push(number(to)?);
    }
    if ends.is_empty() || !matches!(axis.bands, Bands::Edges { .. }) {
        return Err(format!("`{told}` names no band of {}", axis.name));
    }
    Ok(ends.into_iter().map(Place::Number).collect())
}

fn cell(row: &Row, table: &LimitTable) -> Result<(), String> {
    let value = number(&row.value)?;
    let sides = expected(&row.side, &row.at_value)?;
    for down in places(&row.part, &table.rows)? {
        let Some(columns) = &table.columns else {
            let limit = table.limit_in(down).map_err(|e| e.to_string())?;
            edge(&limit, &row.unit, value, sides)?;
            continue;
        };
        for across in places(&row.part, columns)? {
            let limit = table.limit_at(down, across).map_err(|e| e.to_string())?;
            edge(&limit, &row.unit, value, sides)?;
        }
    }
    Ok(())
}

/// The row's formula and the rule's, worked at the rule's examples and with each fact raised in turn.
fn worked(row: &Row, rule: &LimitFormula) -> Result<(), String> {
    let formula = Expression::read(&row.value)?;
    let [below, at, above] = expected(&row.side, &row.at_value)?;
    let examples = rule.examples();
    let mut sets = vec![examples.clone()];
    for raised in 0..examples.len() {
        for by in [Fraction::new(5, 4), Fraction::new(3, 1)] {
            let mut set = examples.clone();
            if let Some((_, value)) = set.get_mut(raised) {
                *value *= by;
            }
            sets.push(set);
        }
    }
    for set in sets {
        let facts: BTreeMap<&str, Fraction> = set.iter().copied().collect();
        let mine = formula.work(&facts)?;
        let theirs = rule.work(&set).map_err(|e| e.to_string())?;
        if mine != theirs {
            return Err(format!(
                "at {set:?} the row gives {mine}, the rule {theirs}"
            ));
        }
        let limit = rule.limit_for(&set).map_err(|e| e.to_string())?;
        let (value, step, length) = match inches(&row.unit) {
            Some(_) => {
                // Readings are whole ticks: the last one inside, by the row's word, and the first outside.
                let exact = ticks(mine)?;
                let whole = if limit.compare == Compare::Max {
                    exact.floor()
                } else {
                    exact.ceil()
                };
                (whole, Fraction::from_integer(1), true)
            }
            None => {
                if limit.unit != row.unit || !matches!(limit.value, LimitValue::Number(_)) {
                    return Err(format!("its rule is in {}", limit.unit));
                }
                (mine, Fraction::new(1, 1_000), false)
            }
        };
        for (reading, wanted) in [(value - step, below), (value, at), (value + step, above)] {
            if passes(&limit, length, reading)? != wanted {
                return Err(format!(
                    "at {set:?} a reading of {reading} goes the wrong way"
                ));
            }
        }
    }
    Ok(())
}

fn counted(row: &Row, unit: CountUnit, due_after: u32) -> Result<(), String> {
    let unit = match unit {
        CountUnit::ServiceDay => "service days",
        CountUnit::Annual => "annual inspections",
        CountUnit::DayOfUse => "days of use",
    };
    if (row.side.as_str(), row.at_value.as_str()) != ("due", "due") {
        return Err("a clock's row is due at its value".into());
    }
    if row.unit == unit && row.value == due_after.to_string() {
        return Ok(());
    }
    Err(format!("its rule is due after {due_after} {unit}"))
}

fn span(row: &Row, span: Span) -> Result<(), String> {
    let (value, unit) = match span {
        Span::Days(n) => (n, "calendar days"),
        Span::Months(n, _) => (n, "months"),
        Span::Years(n, _) => (n, "years"),
    };
    if row.unit == unit && row.value == value.to_string() {
        return Ok(());
    }
    Err(format!("its rule says {value} {unit}"))
}
