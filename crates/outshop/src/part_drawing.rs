//! Drawings that a part is made from: which there are, what each takes, what a worked sheet gives of it, and what is
//! still not stated on it. A stranger is to make the part from the print alone.

mod from_sheet;
mod given;
mod kinds;

use drawing::{Drawing, Title};
use jiff::civil::Date;
use measure::House;
use physics::Sheet;
use physics::handed_on::HandedOn;
use rules::Rulebook;
use shop::book::Book;

use crate::Failure;
use crate::verb::handed_on::{FROM, Step, steps};
use crate::words::{drawing as words, print as say};

pub use kinds::{KINDS, Kind, Size};

/// Words that a title block takes, each with what it is.
pub const TITLE: [(&str, &str); 10] = [
    ("part", "the part it is, and for which engine"),
    ("number", "number of the drawing, or of the tool"),
    ("revision", "revision"),
    ("mate", "number of the part or the tool it goes with"),
    ("material", "what it is made of, by its specification"),
    (
        "quantity",
        "how many, the spare and the trial piece counted",
    ),
    ("finish", "how the faces are to be left"),
    ("edges", "what is done with edges, such as break .010"),
    (
        "unless",
        "how closely sizes without limits of their own are kept, such as ±.005",
    ),
    (
        "runout",
        "how far it may run out to datum A, the whole reading, such as .001",
    ),
];

/// A drawing with what it stands on.
pub struct Made {
    /// The drawing.
    pub drawing: Drawing,
    /// What a stranger would have to ask: what is not stated on it.
    pub unstated: Vec<String>,
}

/// What was typed for a drawing, with what the sheets before give.
pub struct Asked {
    /// Names and values, those handed on among them.
    pub all: Vec<(String, String)>,
    /// What the last of the sheets before gives.
    pub handed_on: Vec<HandedOn>,
    /// The sheets before.
    pub steps: Vec<Step>,
}

/// The kind of this word.
///
/// # Errors
/// There is none.
pub fn kind(word: &str) -> Result<&'static Kind, Failure> {
    let known: Vec<_> = KINDS.iter().map(|kind| kind.word).collect();
    let found = KINDS.iter().find(|kind| kind.word == word);
    found.ok_or_else(|| Failure::Input(say::no_such_drawing(word, &known.join(", "))))
}

/// The kinds that can be drawn from a worked sheet.
pub fn from_sheet(sheet: &Sheet) -> impl Iterator<Item = &'static Kind> {
    KINDS
        .iter()
        .filter(|kind| !from_sheet::gives(kind.word, sheet).is_empty())
}

impl Asked {
    /// Parts what was typed, and works the sheets it goes on from.
    ///
    /// # Errors
    /// What the sheets say of their arguments; a sheet that gives nothing of this drawing.
    pub fn of(
        kind: &Kind,
        typed: &[(String, String)],
        book: &Book,
        rules: &Rulebook,
        on: Date,
        house: House,
    ) -> Result<Asked, Failure> {
        let filled: Vec<(String, String)> = typed
            .iter()
            .map(|(name, value)| (name.clone(), value.trim().to_owned()))
            .filter(|(_, value)| !value.is_empty())
            .collect();
        let from = filled.iter().find(|(name, _)| name == FROM);
        let steps = steps(from.map(|(_, from)| from.as_str()), book, rules, on, house)?;
        let mut handed_on = Vec::new();
        if let Some(last) = steps.last() {
            handed_on = from_sheet::gives(kind.word, &last.sheet);
            if handed_on.is_empty() {
                return Err(Failure::Input(words::gives_nothing(
                    last.sheet.card.id,
                    kind.word,
                )));
            }
            handed_on.extend(from_sheet::hand_and_starts(kind, &steps));
        }
        let mut all: Vec<(String, String)> = filled;
        all.retain(|(name, _)| name != FROM);
        for one in &handed_on {
            if all.iter().all(|(name, _)| name != one.name) {
                all.push((one.name.to_owned(), one.text.clone()));
            }
        }
        Ok(Asked {
            all,
            handed_on,
            steps,
        })
    }

    /// What is handed on under a name.
    pub fn handed_on(&self, name: &str) -> Option<&HandedOn> {
        self.handed_on.iter().find(|one| one.name == name)
    }

    /// Sizes that the drawing cannot do without and nobody has said yet.
    pub fn wanting(&self, kind: &Kind) -> Vec<&'static str> {
        let said = |name: &str| self.all.iter().any(|(known, _)| known == name);
        let none_of = !kind.one_of.is_empty() && !kind.one_of.iter().any(|name| said(name));
        let wanted = |size: &&Size| {
            !said(size.name) && (size.required || none_of && kind.one_of.contains(&size.name))
        };
        let all = kind.sizes.iter().filter(wanted);
        all.map(|size| size.meaning).collect()
    }

    /// Draws it.
    ///
    /// # Errors
    /// A name that the drawing does not take, a size that is none, sizes from which nothing can be drawn.
    pub fn draw(
        &self,
        kind: &Kind,
        house: House,
        shop: Option<String>,
        on: Date,
    ) -> Result<Made, Failure> {
        let given = given::read(kind, &self.all, house)?;
        if let Some(wanting) = self.wanting(kind).first() {
            let names = kind.one_of.join(" or ");
            return Err(Failure::Input(say::needs(kind.word, &names, wanting)));
        }
        let text = |name: &str| given::text(&self.all, name);
        let title = Title {
            shop,
            drawing: kind.title.into(),
            part: text("part"),
            number: text("number"),
            material: text("material"),
            quantity: text("quantity"),
            finish: text("finish"),
            edges: text("edges"),
            mate: text("mate"),
            unless: text("unless"),
            runout: text("runout"),
            as_of: Some(on.to_string()),
            revision: text("revision"),
            sheets: self
                .steps
                .iter()
                .map(|step| step.sheet.card.id.to_owned())
                .collect(),
        };
        let mut unstated: Vec<String> = TITLE
            .iter()
            .filter(|(name, _)| *name != "unless" && text(name).is_none())
            .map(|(_, what)| (*what).to_owned())
            .collect();
        let open = given.without_limits();
        if text("unless").is_none() && !open.is_empty() {
            unstated.push(words::without_limits(&open));
        }
        let drawing =
            (kind.draw)(&given, house, title).map_err(|why| Failure::Input(why.to_string()))?;
        Ok(Made { drawing, unstated })
    }
}
