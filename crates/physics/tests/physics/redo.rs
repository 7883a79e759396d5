//! A sheet can be redone: by a pencil from its steps, and by entering again what was entered.

use crate::valid;
use measure::{House, Tolerance, agrees};
use physics::card::{Kind, ResultKind, ResultSpec};
use physics::{Given, Shown, catalogue, formula, run};

/// Each step's substituted text, read and worked as it stands, gives the figure shown.
#[test]
fn every_step_can_be_redone_with_a_pencil() {
    for entry in catalogue() {
        for house in [House::Inch, House::Metric] {
            for (given, _) in valid(entry, 200, house) {
                let sheet = run(entry.card.id, &given, house).unwrap();
                // Only a sheet that can tell nothing yet of what it has a formula for has no step.
                let silent = |spec: &ResultSpec| matches!(sheet.result(spec.name), Some(Shown::Text(t)) if t.starts_with("cannot tell"));
                let mut by_formula = entry.card.results.iter().filter(|s| !s.symbol.is_empty());
                assert!(!sheet.steps.is_empty() || by_formula.all(silent));
                for step in &sheet.steps {
                    let tree = formula::expression(&step.substituted).unwrap();
                    assert!(tree.symbols().is_empty(), "{}", step.substituted);
                    let redone = formula::evaluate(&tree, &|_| None).unwrap();
                    let shown: f64 = step.shown.parse().unwrap();
                    // Nine digits are put in; a difference of near numbers keeps about six.
                    assert!(
                        agrees(redone, shown, Tolerance::Relative(2e-6))
                            || agrees(redone, shown, Tolerance::Absolute(2e-7)),
                        "{} {given:?}: {} = {redone}, shown {shown}",
                        entry.card.id,
                        step.substituted
                    );
                }
            }
        }
    }
}

/// The last step of a result and the result itself are one figure, in the one unit or the other.
#[test]
fn the_steps_end_in_the_results() {
    for entry in catalogue() {
        // In the units of the card's own book, where it has them, steps and results read alike.
        let house = entry.card.frame(House::Inch);
        for (given, _) in valid(entry, 50, house) {
            let sheet = run(entry.card.id, &given, house).unwrap();
            for spec in entry.card.results.iter().filter(|s| !s.symbol.is_empty()) {
                let step = sheet.steps.iter().find(|step| step.symbol == spec.symbol);
                match (step, sheet.result(spec.name)) {
                    (Some(step), Some(Shown::Quantity { value, unit, .. })) => {
                        assert_eq!(step.unit, *unit);
                        assert!(
                            agrees(step.value, *value, Tolerance::Relative(1e-9))
                                || agrees(step.value, *value, Tolerance::Absolute(1e-11))
                        );
                    }
                    (None, Some(Shown::Text(text))) => {
                        assert!(text.starts_with("cannot tell: needs "), "{text}");
                    }
                    other => panic!("{}: {other:?}", spec.name),
                }
            }
        }
    }
}

#[test]
fn entering_again_what_was_entered_gives_the_same_sheet() {
    for entry in catalogue() {
        for (given, _) in valid(entry, 50, House::Inch) {
            let first = run(entry.card.id, &given, House::Inch).unwrap();
            let assumed: Vec<&str> = first.assumed().map(|input| input.name).collect();
            let again: Vec<Given> = first
                .inputs
                .iter()
                .filter(|input| entry.card.argument(input.name).is_some())
                .filter(|input| !assumed.contains(&input.name))
                .map(|input| Given::typed(input.name, &input.entered))
                .collect();
            let second = run(entry.card.id, &again, House::Inch).unwrap();
            assert_eq!(first.to_json(), second.to_json());
            assert_eq!(first.to_text(), second.to_text());
        }
    }
}

/// One size in inches and the same in millimetres: the same results to the last bit that matters.
#[test]
fn inch_and_metric_entry_agree() {
    for entry in catalogue() {
        for (given, worked) in valid(entry, 60, House::Inch) {
            let metric: Vec<Given> = given
                .iter()
                .map(|one| {
                    let argument = entry.card.argument(&one.name).unwrap();
                    let length =
                        matches!(argument.kind, Kind::Quantity(measure::Dimension::Length, _));
                    let Some(inches) = one.text.strip_suffix(" in").filter(|_| length) else {
                        return one.clone();
                    };
                    let exact = measure::Size::parse(&format!("{inches} in"));
                    // The draw is in tenths of a thou, whole in ticks; the same size is said in full in mm.
                    let mm = measure::show::size(exact.unwrap(), House::Metric);
                    Given::typed(&one.name, &mm)
                })
                .collect();
            let other = physics::Worked::new(entry, &metric, House::Metric).unwrap();
            for spec in entry.card.results {
                if let ResultKind::Quantity(..) = spec.kind {
                    assert_eq!(
                        worked.answer.result(spec.name),
                        other.answer.result(spec.name)
                    );
                }
            }
        }
    }
}

/// Leaving out a fact that may be left out never changes another answer: it only turns some into
/// *cannot tell*, or is assumed aloud.
#[test]
fn a_missing_fact_never_helps() {
    let mut tried = 0;
    for entry in catalogue() {
        for (given, _) in valid(entry, 60, House::Inch) {
            let whole = run(entry.card.id, &given, House::Inch).unwrap();
            for optional in entry.card.arguments.iter().filter(|a| !a.required) {
                let fewer: Vec<Given> = given
                    .iter()
                    .filter(|one| one.name != optional.name)
                    .cloned()
                    .collect();
                if fewer.len() == given.len() {
                    continue;
                }
                tried += 1;
                let part = run(entry.card.id, &fewer, House::Inch).unwrap();
                let assumed = part.assumed().any(|input| input.name == optional.name);
                for spec in entry.card.results {
                    let (with, without) = (whole.result(spec.name), part.result(spec.name));
                    let quantity = matches!(with, Some(Shown::Quantity { .. }));
                    let silent =
                        matches!(without, Some(Shown::Text(t)) if t.starts_with("cannot tell"));
                    assert!(
                        !quantity || with == without || silent || assumed,
                        "{}",
                        spec.name
                    );
                }
            }
        }
    }
    assert!(tried > 60);
}
