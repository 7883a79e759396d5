//! Works one law for one set of arguments: reads, answers, and gathers every symbol's value.

use crate::answer::{Answer, Outcome};
use crate::card::{Card, ResultKind};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::formula::{self, Formula};
use crate::given::{Given, Inputs};
use measure::House;
use std::collections::BTreeMap;

/// One law worked: what was given, what its own function answered, and the formula's symbols.
#[derive(Debug, Clone)]
pub struct Worked {
    /// The law's card.
    pub card: &'static Card,
    /// The house the reader thinks in.
    pub house: House,
    /// What was given.
    pub inputs: Inputs,
    /// What the law's own function answered.
    pub answer: Answer,
}

impl Worked {
    /// Reads `given` and works `entry`'s law with it. No step is worked yet and nothing is printed.
    ///
    /// # Errors
    /// A sentence naming the argument at fault and what was expected.
    pub fn new(entry: &'static Entry, given: &[Given], house: House) -> Result<Worked, SheetError> {
        let inputs = Inputs::read(entry.card, given, house)?;
        let answer = (entry.answer)(&inputs)?;
        Ok(Worked {
            card: entry.card,
            house,
            inputs,
            answer,
        })
    }

    /// The value of every argument and table value, under its symbol, in the formula's own units.
    pub fn symbols(&self) -> BTreeMap<&'static str, f64> {
        let frame = self.card.frame(self.house);
        let mut symbols: BTreeMap<&'static str, f64> = self.inputs.symbols(frame).collect();
        for assumed in &self.answer.assumptions {
            if let Some((argument, dimension)) = self
                .card
                .argument(assumed.argument)
                .and_then(|a| Some((a, a.dimension()?)))
            {
                let unit = measure::Unit::of(dimension, frame);
                symbols.insert(argument.symbol, unit.from_si(assumed.si));
            }
        }
        for row in self.answer.table_values.iter().chain(&self.answer.found) {
            symbols.insert(
                row.symbol.symbol,
                row.symbol.measure.from_si(row.value, frame),
            );
        }
        symbols
    }

    /// A quantity among the results of the law's own function, in the formula's units.
    pub fn result(&self, name: &str) -> Option<f64> {
        let spec = self.card.results.iter().find(|spec| spec.name == name)?;
        match (self.answer.result(name)?, spec.kind) {
            (Outcome::Si(si), ResultKind::Quantity(dimension, _, _)) => {
                Some(measure::Unit::of(dimension, self.card.frame(self.house)).from_si(*si))
            }
            _ => None,
        }
    }

    /// The value of every line of `tree` that can be worked with what was given, by symbol. A line
    /// that wants a symbol nobody gave is left out; the caller says what it needs.
    ///
    /// # Errors
    /// A line that has all its symbols and yet no answer: the card's range is then too wide.
    pub fn lines(&self, tree: &Formula) -> Result<BTreeMap<String, f64>, SheetError> {
        let mut known: BTreeMap<String, f64> = self
            .symbols()
            .into_iter()
            .map(|(symbol, value)| (symbol.to_owned(), value))
            .collect();
        let mut worked = BTreeMap::new();
        for line in &tree.lines {
            if line
                .expression
                .symbols()
                .iter()
                .any(|symbol| !known.contains_key(*symbol))
            {
                continue;
            }
            let value = formula::evaluate(&line.expression, &|s| known.get(s).copied())
                .map_err(|e| self.own_fault("formula", &format!("{}: {e}", line.name)))?;
            known.insert(line.name.clone(), value);
            worked.insert(line.name.clone(), value);
        }
        Ok(worked)
    }

    /// The names of the arguments that `symbol` waits for, followed back through the lines above it.
    pub fn needs(&self, tree: &Formula, symbol: &str) -> Vec<&'static str> {
        let known = self.symbols();
        let mut needs = Vec::new();
        let mut open = vec![symbol.to_owned()];
        let mut seen = Vec::new();
        while let Some(symbol) = open.pop() {
            if seen.contains(&symbol) || known.contains_key(symbol.as_str()) {
                continue;
            }
            let argument = self.card.arguments.iter().find(|a| a.symbol == symbol);
            if let Some(argument) = argument.filter(|a| !needs.contains(&a.name)) {
                needs.push(argument.name);
            }
            if let Some(line) = tree.lines.iter().find(|line| line.name == symbol) {
                open.extend(line.expression.symbols().into_iter().map(str::to_owned));
            }
            seen.push(symbol);
        }
        needs
    }

    /// An error that says the fault is ours.
    pub fn own_fault(&self, what: &'static str, detail: &str) -> SheetError {
        SheetError::OwnFault {
            sheet: self.card.id,
            what,
            detail: detail.to_owned(),
        }
    }
}
