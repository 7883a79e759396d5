//! The boiler card as the arguments of the sheet that says what governs.

use measure::{Rounding, show};
use physics::law::boiler_governing::Bears;
use physics::{Basis, Given};

use super::BoilerCard;

/// The list of components that the sheet takes, in the card's order, with each place of which nothing is entered as one
/// more that cannot be told; and a sentence that says which is which. Nothing where nothing is entered at all.
pub(in crate::ruled) fn of_card(card: &BoilerCard, number: &str) -> (Vec<Given>, Vec<String>) {
    if card.lines.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let basis = || Basis::Reading(format!("the boiler card of No. {number}"));
    // Cut, never rounded up: a list is to be read.
    let psig = |psi: f64| format!("{} psig", show::number(psi, 4, Rounding::Down));
    let mut bears = Vec::new();
    let mut bounds = Vec::new();
    let mut factors = Vec::new();
    let mut names = Vec::new();
    let or = |text: Option<String>| text.unwrap_or_else(|| "?".to_owned());
    for line in &card.lines {
        let (told, bound) = match line.bears {
            Bears::Told(psi) => (Some(psig(psi)), None),
            Bears::NotAbove(psi) => (None, Some(psig(psi))),
            Bears::CannotTell => (None, None),
        };
        bears.push(or(told));
        bounds.push(or(bound));
        factors.push(or(line.worked_with.map(|factor| factor.to_string())));
        names.push(line.component.as_str());
    }
    for (_, means) in &card.nothing_of {
        for list in [&mut bears, &mut bounds, &mut factors] {
            list.push(or(None));
        }
        names.push(means);
    }
    let names = names.iter().enumerate();
    let told: Vec<String> = names
        .map(|(at, name)| format!("{} {name}", at + 1))
        .collect();
    let mut given = vec![
        ("bears", bears.join(", ")),
        ("bounds", bounds.join(", ")),
        ("factors", factors.join(", ")),
    ];
    if let Some(set) = card.set_psig {
        given.push(("set", psig(f64::from(set))));
    }
    let given = given.into_iter().map(|(name, text)| Given {
        name: name.to_owned(),
        text,
        basis: basis(),
    });
    (
        given.collect(),
        vec![format!("The components: {}.", told.join("; "))],
    )
}
