//! A sheet that goes on from another: which sheets were worked before it, what of them goes into it, and how that is
//! said, at every door alike. The sheets before are named in one argument and are worked again, so a figure is where it
//! came from or it was typed anew, and the page says which.

use jiff::civil::Date;
use measure::House;
use physics::handed_on::{self, Before, HandedOn, Next};
use physics::{Basis, Given, Sheet};
use rules::Rulebook;
use shop::book::Book;

use super::ruled::Asked;
use crate::Failure;
use crate::web::form::fields;
use crate::words::handed_on as say;

/// The name under which the sheet before is said: its id, a question mark, its arguments as in an address.
pub const FROM: &str = "from";
/// The name under which the line is said that was taken from the list of a sheet.
pub const TAKEN: &str = "taken";

/// More sheets in a row than any work has; it ends a chain that somebody made by hand.
const LONGEST: usize = 6;

/// A sheet worked before.
#[derive(Debug, Clone)]
pub struct Step {
    /// As it is named in the argument [`FROM`].
    pub named: String,
    /// As it was worked.
    pub sheet: Sheet,
    /// The line taken of its list.
    pub taken: Option<usize>,
}

/// What comes from the sheets before.
#[derive(Debug, Clone, Default)]
pub struct Over {
    /// They themselves, the first one first.
    pub steps: Vec<Step>,
    /// What goes into this sheet.
    pub handed_on: Vec<HandedOn>,
    /// What must be remembered here, and no argument takes.
    pub remarks: Vec<String>,
}

impl Over {
    /// Works the sheets that are named before the sheet `id`; nothing where none is.
    ///
    /// # Errors
    /// Input: a name that is no sheet's, a chain that does not end, or a sheet that does not lead to this one. What
    /// the sheets say of their arguments.
    pub fn into(
        id: &str,
        from: Option<&str>,
        book: &Book,
        rules: &Rulebook,
        on: Date,
        house: House,
    ) -> Result<Over, Failure> {
        let steps = steps(from, book, rules, on, house)?;
        leads(&steps, id)?;
        let before = before(&steps);
        Ok(Over {
            handed_on: handed_on::handed_on(id, &before),
            remarks: handed_on::remarks(id, &before),
            steps,
        })
    }

    /// What is handed on for an argument.
    pub fn of(&self, name: &str) -> Option<&HandedOn> {
        self.handed_on.iter().find(|one| one.name == name)
    }

    /// The arguments typed, with those handed on that were not.
    pub fn with(&self, typed: &[Given]) -> Vec<Given> {
        let anew = typed.iter().filter(|given| {
            let handed_on = self.of(&given.name);
            handed_on.is_none_or(|one| one.text != given.text.trim())
        });
        let mut all: Vec<Given> = anew.cloned().collect();
        for one in &self.handed_on {
            if all.iter().all(|given| given.name != one.name) {
                all.push(Given {
                    basis: Basis::HandedOn(one.whence.clone()),
                    ..Given::typed(one.name, &one.text)
                });
            }
        }
        all
    }

    /// What the sheet must say of it: what was typed in place of what was handed on, and the remarks.
    pub fn notices(&self, typed: &[Given]) -> Vec<String> {
        let anew = |one: &&HandedOn| {
            let mut typed = typed.iter().filter(|given| given.name == one.name);
            typed.any(|given| given.text.trim() != one.text)
        };
        let anew = self.handed_on.iter().filter(anew).map(say::anew);
        anew.chain(self.remarks.iter().cloned()).collect()
    }
}

/// The sheets that this one leads to, each with the name under which it is gone on from: `query` is what stands in the
/// address of this one.
pub fn next(sheet: &Sheet, query: &[(String, String)]) -> Vec<(Next, String)> {
    let all = handed_on::leads_to(sheet).into_iter();
    all.map(|next| {
        let named = named(sheet.card.id, query, next.taken);
        (next, named)
    })
    .collect()
}

/// How a sheet with these arguments is named in the argument [`FROM`] of another.
pub fn named(id: &str, query: &[(String, String)], taken: Option<usize>) -> String {
    let mut all: Vec<(&str, String)> = query
        .iter()
        .filter(|(name, value)| {
            !value.trim().is_empty() && ![TAKEN, super::ruled::LATHE].contains(&name.as_str())
        })
        .map(|(name, value)| (name.as_str(), value.trim().to_owned()))
        .collect();
    all.extend(taken.map(|at| (TAKEN, at.to_string())));
    let query = serde_html_form::to_string(&all).unwrap_or_default();
    format!("{id}?{query}")
}

/// The sheets named one in another, the first one first.
pub fn steps(
    from: Option<&str>,
    book: &Book,
    rules: &Rulebook,
    on: Date,
    house: House,
) -> Result<Vec<Step>, Failure> {
    let mut chain = Vec::new();
    let mut named = from.map(str::to_owned);
    while let Some(name) = named {
        if chain.len() == LONGEST {
            return Err(Failure::Input(say::TOO_LONG.into()));
        }
        let (id, query) = name.split_once('?').unwrap_or((&name, ""));
        let asked = Asked::of(&fields(query.as_bytes()));
        let id = physics::find(id)?.card.id;
        named = asked.from.clone();
        chain.push((name, id, asked));
    }
    let mut steps: Vec<Step> = Vec::new();
    for (named, id, asked) in chain.into_iter().rev() {
        leads(&steps, id)?;
        let over = Over {
            handed_on: handed_on::handed_on(id, &before(&steps)),
            ..Over::default()
        };
        let alone = Asked {
            given: over.with(&asked.given),
            from: None,
            ..asked.clone()
        };
        let sheet = alone.worked(book, rules, id, on, house)?;
        steps.push(Step {
            named,
            sheet,
            taken: asked.taken,
        });
    }
    Ok(steps)
}

/// Refuses a sheet that the one before it does not lead to.
fn leads(steps: &[Step], id: &str) -> Result<(), Failure> {
    let Some(last) = steps.last() else {
        return Ok(());
    };
    if handed_on::leads_to(&last.sheet)
        .iter()
        .any(|next| next.sheet == id)
    {
        return Ok(());
    }
    Err(Failure::Input(say::leads_elsewhere(last.sheet.card.id, id)))
}

/// The steps as the sheets that follow see them.
pub fn before(steps: &[Step]) -> Vec<Before<'_>> {
    let seen = |step| {
        let Step { sheet, taken, .. }: &Step = step;
        Before {
            sheet,
            taken: *taken,
        }
    };
    steps.iter().map(seen).collect()
}
