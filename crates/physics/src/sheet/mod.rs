//! A worked sheet: the page a second person can redo with a pencil.
//!
//! It is made once and then only printed or stored; nothing on it is ever recomputed by a reader.

mod json;
mod set;
mod text;

use crate::answer::{Outcome, TableValue, cannot_tell};
use crate::card::{Card, Kind, Measure, ResultKind, ResultSpec};
use crate::error::SheetError;
use crate::formula::{self, Formula, Shape};
use crate::given::{Basis, Value};
use crate::work::Worked;
use measure::{Dimension, House, Unit, show};
use std::collections::BTreeMap;

/// The line that stands at the foot of every sheet.
pub const STANDING: &str =
    "Advice only. The law in force, the code, the drawing and the responsible officer govern.";

/// A value as a sheet shows it.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// A quantity.
    Quantity {
        /// Unrounded, in `unit`.
        value: f64,
        /// The unit's symbol; empty for a pure number.
        unit: &'static str,
        /// Rounded in the direction the card states.
        shown: String,
        /// The same in SI; none for a book's own unit.
        si: Option<f64>,
    },
    /// Words.
    Text(String),
    /// A small table.
    Table {
        /// The headings.
        columns: Vec<String>,
        /// The rows.
        rows: Vec<Vec<String>>,
    },
}

/// One input line of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct ShownInput {
    /// The argument's name, or the symbol of a table value.
    pub name: &'static str,
    /// How the formula writes it.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// The text as typed, or as the table prints it.
    pub entered: String,
    /// The value the formula was worked with.
    pub value: Shown,
    /// Where it came from.
    pub basis: Basis,
}

/// One result line of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct ShownResult {
    /// The stable name.
    pub name: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// The value, or *cannot tell* in words.
    pub value: Shown,
}

/// One line of the formula, worked.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The name the line gives its value to.
    pub symbol: String,
    /// The line as the card prints it.
    pub formula: String,
    /// The same line as it is set in type.
    pub shape: Shape,
    /// The right-hand side with numbers in place of symbols; it can be worked as it stands.
    pub substituted: String,
    /// The same as it is set in type.
    pub numbers: Shape,
    /// The value, unrounded, in `unit`.
    pub value: f64,
    /// The value to nine significant digits, as printed.
    pub shown: String,
    /// The unit's symbol.
    pub unit: &'static str,
    /// Where the line comes from.
    pub source: &'static str,
}

/// A worked sheet.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The card of the law.
    pub card: &'static Card,
    /// The house it was printed for.
    pub house: House,
    /// The inputs, table values and assumptions among them.
    pub inputs: Vec<ShownInput>,
    /// Optional arguments that nobody gave.
    pub not_given: Vec<&'static str>,
    /// The results.
    pub results: Vec<ShownResult>,
    /// The formula worked line by line.
    pub steps: Vec<Step>,
    /// What this case makes a person ask or look at.
    pub notices: Vec<String>,
    /// What can hurt a person or spoil a part.
    pub cautions: Vec<&'static str>,
    /// What the law rests on.
    pub sources: Vec<String>,
}

impl Sheet {
    /// Lays a worked law out as a sheet. `unproven` are the notices that say how far the law's
    /// results have been proved.
    ///
    /// # Errors
    /// [`SheetError::OwnFault`] when our own card cannot be followed.
    pub fn compose(worked: &Worked, unproven: Vec<String>) -> Result<Sheet, SheetError> {
        let card = worked.card;
        let tree = card
            .tree()
            .map_err(|e| worked.own_fault("formula", &e.to_string()))?;
        let lines = worked.lines(&tree)?;
        let results = card
            .results
            .iter()
            .map(|spec| result(worked, &tree, spec))
            .collect::<Result<Vec<_>, _>>()?;
        let mut notices = unit_notices(worked);
        notices.extend(worked.answer.notices.iter().cloned());
        notices.extend(unproven);
        let assumed = |name: &str| worked.answer.assumptions.iter().any(|a| a.argument == name);
        let absent = card.arguments.iter().map(|argument| argument.name);
        Ok(Sheet {
            card,
            house: worked.house,
            inputs: inputs(worked),
            not_given: absent
                .filter(|name| worked.inputs.find(name).is_none() && !assumed(name))
                .collect(),
            results,
            steps: steps(worked, &tree, &lines)?,
            notices,
            cautions: card.cautions.to_vec(),
            sources: card
                .sources
                .iter()
                .map(|s| format!("{}, {}: {}", s.work, s.locator, s.used_for))
                .collect(),
        })
    }

    /// The result called `name`.
    pub fn result(&self, name: &str) -> Option<&Shown> {
        self.results
            .iter()
            .find(|result| result.name == name)
            .map(|result| &result.value)
    }

    /// Every input whose basis is an assumption.
    pub fn assumed(&self) -> impl Iterator<Item = &ShownInput> {
        self.inputs
            .iter()
            .filter(|input| matches!(input.basis, Basis::Assumed(_)))
    }
}

/// Says for which arguments the house's unit was taken, whatever the basis of the value is.
fn unit_notices(worked: &Worked) -> Vec<String> {
    let taken = worked.inputs.list.iter().filter(|input| input.unit_assumed);
    taken
        .filter_map(|input| {
            let (name, entered) = (input.argument.name, &input.entered);
            let unit = match input.argument.kind {
                Kind::List { dimension, .. } => Unit::of(dimension, worked.house),
                _ => Unit::of(input.argument.dimension()?, worked.house),
            };
            let taken = show::with_symbol(entered, unit);
            Some(format!(
                "{name}: '{entered}' has no unit; taken as {taken}, by the house."
            ))
        })
        .collect()
}

fn inputs(worked: &Worked) -> Vec<ShownInput> {
    let frame = worked.card.frame(worked.house);
    let mut shown = Vec::new();
    for argument in worked.card.arguments {
        let (entered, value, basis) = if let Some(input) = worked.inputs.find(argument.name) {
            let value = match (&input.value, argument.dimension()) {
                (Value::Si(si), Some(dimension)) => counted(Measure::Of(dimension), *si, frame),
                (Value::Si(si), None) => Shown::Text(formula::significant(*si)),
                (Value::Words(words), _) => Shown::Text(words.join(",")),
                (Value::List(_) | Value::Gapped(_), _) => Shown::Text(input.entered.clone()),
            };
            (input.entered.clone(), value, input.basis.clone())
        } else if let Some(assumed) = worked
            .answer
            .assumptions
            .iter()
            .find(|a| a.argument == argument.name)
        {
            let dimension = argument.dimension().unwrap_or(Dimension::Count);
            let value = counted(Measure::Of(dimension), assumed.si, frame);
            (
                assumed.text.to_owned(),
                value,
                Basis::Assumed(assumed.why.to_owned()),
            )
        } else {
            continue;
        };
        shown.push(ShownInput {
            name: argument.name,
            symbol: argument.symbol,
            meaning: argument.meaning,
            entered,
            value,
            basis,
        });
    }
    let row = |row: &TableValue, basis: fn(String) -> Basis| ShownInput {
        name: row.symbol.symbol,
        symbol: row.symbol.symbol,
        meaning: row.symbol.meaning,
        entered: row.printed.clone(),
        value: counted(row.symbol.measure, row.value, frame),
        basis: basis(row.row.clone()),
    };
    let tables = worked.answer.table_values.iter();
    shown.extend(tables.map(|one| row(one, Basis::Table)));
    let found = worked.answer.found.iter();
    shown.extend(found.map(|one| row(one, Basis::Found)));
    shown
}

fn counted(measure: Measure, si: f64, frame: House) -> Shown {
    let value = measure.from_si(si, frame);
    Shown::Quantity {
        value,
        unit: measure.symbol(frame),
        shown: formula::significant(value),
        si: matches!(measure, Measure::Of(_)).then_some(si),
    }
}

fn result(worked: &Worked, tree: &Formula, spec: &ResultSpec) -> Result<ShownResult, SheetError> {
    let value = match (worked.answer.result(spec.name), spec.kind) {
        (Some(Outcome::Si(si)), ResultKind::Quantity(dimension, decimals, rounding)) => {
            let unit = Unit::of(dimension, worked.house);
            let places = match worked.house {
                House::Inch => decimals.inch,
                House::Metric => decimals.metric,
            };
            let value = unit.from_si(*si);
            let shown = show::number(value, places, rounding);
            Shown::Quantity {
                value,
                unit: unit.symbol(),
                shown,
                si: Some(*si),
            }
        }
        (Some(Outcome::Text(text)), _) => Shown::Text(text.clone()),
        (Some(Outcome::Table { columns, rows }), ResultKind::Table) => Shown::Table {
            columns: columns.clone(),
            rows: rows.clone(),
        },
        (None, _) => {
            let needs = worked.needs(tree, spec.symbol);
            if needs.is_empty() {
                return Err(worked.own_fault("law", &format!("no answer for {}", spec.name)));
            }
            Shown::Text(cannot_tell(&needs))
        }
        (Some(_), _) => {
            return Err(worked.own_fault("law", &format!("{} is of the wrong kind", spec.name)));
        }
    };
    Ok(ShownResult {
        name: spec.name,
        meaning: spec.meaning,
        value,
    })
}

fn steps(
    worked: &Worked,
    tree: &Formula,
    lines: &BTreeMap<String, f64>,
) -> Result<Vec<Step>, SheetError> {
    let symbols = worked.symbols();
    let frame = worked.card.frame(worked.house);
    let value_of = |symbol: &str| {
        symbols
            .get(symbol)
            .copied()
            .or_else(|| lines.get(symbol).copied())
    };
    let mut steps = Vec::new();
    for statement in &tree.lines {
        let Some(value) = lines.get(&statement.name).copied() else {
            continue;
        };
        let line = worked.card.line(&statement.name).ok_or_else(|| {
            worked.own_fault("card", &format!("{} is not described", statement.name))
        })?;
        let numbers = statement.expression.substituted(&value_of);
        steps.push(Step {
            symbol: statement.name.clone(),
            formula: statement.to_string(),
            shape: statement.shape(),
            substituted: numbers.to_string(),
            numbers: numbers.shape(),
            value,
            shown: formula::significant(value),
            unit: line.measure.symbol(frame),
            source: line.source,
        });
    }
    Ok(steps)
}
