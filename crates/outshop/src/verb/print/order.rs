//! The order of the work on one page, for a thread that is cut: what is set, where it stops to be measured, which cuts are
//! ticked off. Every figure is the sheet's own, as printed.

use paper::{Came, WorkStep, Worked};
use shop::lathe::THREAD;

use crate::words::order as say;

/// The order of work of a sheet; none for a sheet that is no cutting.
pub(super) fn of(worked: &Worked) -> Vec<WorkStep> {
    if worked.id != THREAD {
        return Vec::new();
    }
    thread(worked).unwrap_or_default()
}

fn thread(worked: &Worked) -> Option<Vec<WorkStep>> {
    let internal = input(worked, "side")? == "internal";
    let tpi = input(worked, "tpi")?;
    let starts = input(worked, "starts")?;
    let passes = passes(worked)?;
    let straight = number(worked, "depth")? == number(worked, "infeed_travel")?;
    // The last two cuts, and the two of spring after them, wait for a measurement.
    let (first, last) = passes.split_at(passes.len().saturating_sub(4));
    let mut steps = vec![
        plain(say::tool(
            input(worked, "form")?,
            number(worked, "tool_flat")?,
        )),
        hold(
            say::before(internal, number(worked, "diameter_before")?),
            say::DIAMETERS,
        ),
    ];
    if let Some(relief) = number(worked, "relief") {
        steps.push(plain(say::relief(relief)));
    }
    steps.extend([
        plain(say::set(straight, angle(worked)?)),
        plain(say::zero(internal)),
        plain(say::PICK_UP.to_owned()),
        hold(say::trial(tpi, starts), say::TRIAL),
        cuts(say::first(straight), first),
        hold(say::MEASURE.to_owned(), say::MEASURED),
        cuts(say::last(straight), last),
        hold(say::LEAVES.to_owned(), say::LEFT),
    ]);
    Some(steps)
}

fn plain(what: String) -> WorkStep {
    WorkStep {
        what,
        hold: false,
        blanks: Vec::new(),
        cuts: Vec::new(),
    }
}

fn hold(what: String, blanks: &[&str]) -> WorkStep {
    WorkStep {
        hold: true,
        blanks: blanks.iter().map(|it| (*it).to_owned()).collect(),
        ..plain(what)
    }
}

fn cuts(what: String, all: &[String]) -> WorkStep {
    WorkStep {
        cuts: all.to_vec(),
        ..plain(what)
    }
}

/// The dial at each pass, by its number; the spring passes last.
fn passes(worked: &Worked) -> Option<Vec<String>> {
    let table = worked.results.iter().find(|it| it.name == "pass_table")?;
    let Came::Table { text } = &table.value else {
        return None;
    };
    let rows = text.lines().skip(1);
    let pass = |row: &str| {
        let cells: Vec<&str> = row.split_whitespace().collect();
        let (number, at) = (cells.first()?, cells.last()?);
        Some(say::pass(number, at))
    };
    let all: Vec<String> = rows.filter_map(pass).collect();
    (!all.is_empty()).then_some(all)
}

fn input<'w>(worked: &'w Worked, name: &str) -> Option<&'w str> {
    let mut all = worked.inputs.iter();
    let one = all.find(|it| it.name == name || it.name.is_empty() && it.symbol == name)?;
    Some(one.entered.as_str())
}

/// The angle of the compound in figures, also where it was taken for granted in words.
fn angle(worked: &Worked) -> Option<&str> {
    let mut all = worked.inputs.iter();
    let one = all.find(|it| it.name == "infeed_angle")?;
    Some(if one.value.is_empty() {
        &one.entered
    } else {
        &one.value
    })
}

/// A result as the sheet prints it, a number with its unit or words.
fn number<'w>(worked: &'w Worked, name: &str) -> Option<&'w str> {
    let one = worked.results.iter().find(|it| it.name == name)?;
    match &one.value {
        Came::Number { text } | Came::Words { text } => Some(text),
        Came::Table { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use measure::House;
    use physics::Given;

    fn worked(more: &[(&str, &str)]) -> Worked {
        let given = [
            ("form", "unified"),
            ("tpi", "12"),
            ("diameter", ".75in"),
            ("material", "bronze"),
        ];
        let given: Vec<Given> = given
            .iter()
            .chain(more)
            .map(|(n, v)| Given::typed(n, v))
            .collect();
        let sheet = physics::run(THREAD, &given, House::Inch);
        let sheet = sheet.unwrap_or_else(|why| panic!("{why}"));
        Worked::of(&sheet).unwrap_or_else(|| panic!("it reads back"))
    }

    #[test]
    fn every_cut_of_the_table_is_ticked_once_and_the_last_wait_for_a_measurement() {
        for (side, word) in [
            ("internal", "Bore to 0.6598 in"),
            ("external", "Turn to 0.7500 in"),
        ] {
            let steps = of(&worked(&[("side", side)]));
            let cuts: Vec<&String> = steps.iter().flat_map(|step| &step.cuts).collect();
            // Twelve passes for 12 threads, and two of spring.
            assert_eq!(cuts.len(), 14, "{cuts:?}");
            assert!(cuts[0].starts_with("1: ") && cuts[13].starts_with("spring: "));
            let holds = steps.iter().filter(|step| step.hold).count();
            assert_eq!(holds, 4, "{steps:?}");
            assert!(
                steps
                    .iter()
                    .filter(|step| step.hold)
                    .all(|step| !step.blanks.is_empty())
            );
            assert!(
                steps.iter().any(|step| step.what.starts_with(word)),
                "{word}: {steps:?}"
            );
            let measured = steps.iter().position(|step| step.what == say::MEASURE);
            let last = steps.iter().rposition(|step| !step.cuts.is_empty());
            assert!(
                measured < last && measured.is_some(),
                "the last cuts come after"
            );
        }
    }

    #[test]
    fn a_sheet_that_is_no_cutting_has_no_order() {
        let given = [Given::typed("size", "1in"), Given::typed("fit", "H7/g6")];
        let sheet = physics::run("fit.iso", &given, House::Inch);
        let sheet = sheet.unwrap_or_else(|why| panic!("{why}"));
        let worked = Worked::of(&sheet).unwrap_or_else(|| panic!("it reads back"));
        assert!(of(&worked).is_empty());
    }
}
