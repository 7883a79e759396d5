//! The formula on the card is the law that was worked: held for every card, and the holding is itself tested.

use crate::valid;
use measure::{House, Tolerance, agrees};
use physics::card::{ClosedForm, ResultKind};
use physics::formula::{Expression, Formula};
use physics::{Entry, Worked, catalogue};

const POINTS: usize = 300;

/// Whether every line of `tree` that is a result agrees with the law's own function at every point.
fn agreement(entry: &Entry, tree: &Formula, points: &[Worked]) -> Result<usize, String> {
    let mut compared = 0;
    for worked in points {
        let lines = worked.lines(tree).map_err(|e| e.to_string())?;
        for spec in entry
            .card
            .results
            .iter()
            .filter(|spec| !spec.symbol.is_empty())
        {
            match (lines.get(spec.symbol), worked.result(spec.name)) {
                (Some(a), Some(b)) => {
                    // Relative, but never finer than a millionth of a tenth of a thou near zero.
                    if !agrees(*a, b, Tolerance::Relative(1e-9))
                        && !agrees(*a, b, Tolerance::Absolute(1e-11))
                    {
                        return Err(format!("{}: formula {a}, function {b}", spec.name));
                    }
                    compared += 1;
                }
                (None, None) => {}
                (line, own) => {
                    return Err(format!("{}: formula {line:?}, function {own:?}", spec.name));
                }
            }
        }
    }
    Ok(compared)
}

fn points(entry: &'static Entry) -> Vec<Worked> {
    let mut all: Vec<Worked> = valid(entry, POINTS, House::Inch)
        .into_iter()
        .map(|(_, worked)| worked)
        .collect();
    all.extend(
        valid(entry, POINTS, House::Metric)
            .into_iter()
            .map(|(_, worked)| worked),
    );
    all
}

#[test]
fn every_printed_formula_is_the_function() {
    for entry in catalogue() {
        let compared = agreement(entry, &entry.card.tree().unwrap(), &points(entry));
        assert!(
            compared.as_ref().is_ok_and(|n| *n >= POINTS),
            "{}: {compared:?}",
            entry.card.id
        );
    }
}

/// Every tree that differs from `expression` by one factor, term, function or sign left out.
fn mutants(expression: &Expression) -> Vec<Expression> {
    let mut all = Vec::new();
    match expression {
        Expression::Number(_) | Expression::Symbol(_) | Expression::Pi => {}
        Expression::Negative(inner) => {
            all.push((**inner).clone());
            all.extend(
                mutants(inner)
                    .into_iter()
                    .map(|m| Expression::Negative(Box::new(m))),
            );
        }
        Expression::Binary(operation, left, right) => {
            all.push((**left).clone());
            all.push((**right).clone());
            all.extend(
                mutants(left)
                    .into_iter()
                    .map(|m| Expression::Binary(*operation, Box::new(m), right.clone())),
            );
            all.extend(
                mutants(right)
                    .into_iter()
                    .map(|m| Expression::Binary(*operation, left.clone(), Box::new(m))),
            );
        }
        Expression::Call(function, arguments) => {
            all.extend(arguments.iter().cloned());
            for (at, argument) in arguments.iter().enumerate() {
                for mutant in mutants(argument) {
                    let mut changed = arguments.clone();
                    changed[at] = mutant;
                    all.push(Expression::Call(*function, changed));
                }
            }
        }
    }
    all.retain(|mutant| mutant != expression);
    all
}

/// The guard is guarded: with any one factor or term left out of one card's formula, the agreement
/// test fails for exactly that card.
#[test]
fn leaving_out_any_part_of_a_formula_is_noticed() {
    let all: Vec<(&'static Entry, Formula, Vec<Worked>)> = catalogue()
        .iter()
        .map(|entry| (entry, entry.card.tree().unwrap(), points(entry)))
        .collect();
    for (entry, tree, points) in &all {
        let mut tried = 0;
        for (at, line) in tree.lines.iter().enumerate() {
            for mutant in mutants(&line.expression) {
                let mut changed = tree.clone();
                changed.lines[at].expression = mutant;
                let text = changed.lines[at].to_string();
                assert!(
                    agreement(entry, &changed, points).is_err(),
                    "{}: '{text}' passed for '{line}'",
                    entry.card.id
                );
                tried += 1;
            }
        }
        assert!(tried > 5, "{}: only {tried} mutants", entry.card.id);
        for (other, other_tree, other_points) in &all {
            if other.card.id != entry.card.id {
                let fewer = &other_points[..20];
                assert!(
                    agreement(other, other_tree, fewer).is_ok(),
                    "{}",
                    other.card.id
                );
            }
        }
    }
}

/// Every symbol of a formula is an argument, a table value named on the card, or an earlier line;
/// every line is described; every quantity with a symbol has its line.
#[test]
fn every_symbol_is_accounted_for() {
    for entry in catalogue() {
        let card = entry.card;
        let tree = card.tree().unwrap();
        let mut known: Vec<String> = card
            .arguments
            .iter()
            .map(|a| a.symbol)
            .chain(card.table_values.iter().map(|t| t.symbol))
            .map(str::to_owned)
            .collect();
        for line in &tree.lines {
            for symbol in line.expression.symbols() {
                assert!(
                    known.iter().any(|k| k == symbol),
                    "{}: {symbol} in '{line}'",
                    card.id
                );
            }
            assert!(
                card.line(&line.name).is_some(),
                "{}: '{}' is not described",
                card.id,
                line.name
            );
            assert!(
                !known.contains(&line.name),
                "{}: '{}' is given twice",
                card.id,
                line.name
            );
            known.push(line.name.clone());
        }
        for spec in card.results {
            let lined = tree.lines.iter().any(|line| line.name == spec.symbol);
            let quantity = matches!(spec.kind, ResultKind::Quantity(..));
            // What a search counted or a table was asked for has no line; its card says so.
            let counted = spec.symbol.is_empty() && matches!(card.closed_form, ClosedForm::No(_));
            assert!(
                lined == quantity || (quantity && counted),
                "{}: {}",
                card.id,
                spec.name
            );
        }
        for listed in card.lines {
            assert!(
                tree.lines.iter().any(|l| l.name == listed.symbol),
                "{}",
                listed.symbol
            );
        }
    }
}
