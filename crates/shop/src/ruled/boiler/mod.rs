//! The boiler card: what each component would bear by its worked sheet, on which values, held against the pressure that the
//! owner set.
//!
//! It computes and compares; it approves no pressure. A fact that is missing never helps: what cannot be told is named,
//! and while anything cannot be told the least of the rest is a pressure that the boiler is *not above*, and no more.

mod bear;
mod bolts;
mod fields;
mod governing;
mod law;
mod level;
mod survey;

use jiff::civil::Date;
use measure::{Rounding, show};
use physics::law::boiler_governing::{Governs, governs};
use rules::Rulebook;

use crate::Refusal;
use crate::book::{
    Authority, BoilerCardSigned, Book, CardEdition, CardLineKept, Component, LocomotiveId,
    PersonId, Statement, SurveyHeld,
};
use crate::locomotive::{BOILER_PLACES, engine_of, with_authority};

pub use crate::locomotive::{Cell, Squares};
pub use bolts::{Bolt, BoltMap, BoltSheet, Pair, Renew, bolt_map};
pub use fields::{CardField, card_fields};
pub(super) use governing::of_card;
pub use level::Level;
pub use physics::law::boiler_governing::Bears;
pub use survey::{Beside, Doubtful, Paired, SurveyRead, Why, beside_last, survey_read};

/// What a component would bear, in words, rounded against the engine.
pub fn borne(bears: Bears) -> String {
    match bears {
        Bears::Told(psi) => psig(psi),
        Bears::NotAbove(psi) => format!("not above {}", psig(psi)),
        Bears::CannotTell => CANNOT_TELL.into(),
    }
}

const CANNOT_TELL: &str = "cannot tell";

/// A pressure in words, rounded down.
pub fn psig(psi: f64) -> String {
    format!("{} psig", show::number(psi.max(0.0), 0, Rounding::Down))
}

/// How a component stands to the set pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// It would bear it.
    Complies,
    /// It would not.
    Fails,
    /// Nobody can tell.
    CannotTell,
}

impl Held {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Held::Complies => "complies",
            Held::Fails => "fails",
            Held::CannotTell => CANNOT_TELL,
        }
    }

    fn of(bears: Bears, set: Option<u32>) -> Held {
        let Some(set) = set.map(f64::from) else {
            return Held::CannotTell;
        };
        // A pressure is worked in floating point; a millionth of a pound is not a shortfall.
        match bears {
            Bears::Told(psi) if psi + 1e-6 >= set => Held::Complies,
            Bears::Told(psi) | Bears::NotAbove(psi) if psi + 1e-6 < set => Held::Fails,
            _ => Held::CannotTell,
        }
    }
}

/// A value that a pressure stood on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stood {
    /// Which sheet took it.
    pub sheet: &'static str,
    /// The argument.
    pub name: String,
    /// The value as written.
    pub says: String,
    /// Where it came from.
    pub basis: String,
}

/// One component of the card.
#[derive(Debug, Clone, PartialEq)]
pub struct CardLine {
    /// The component.
    pub component: String,
    /// Its kind.
    pub kind: String,
    /// Its place.
    pub place: String,
    /// What it would bear, psi by the gauge, unrounded.
    pub bears: Bears,
    /// Against the set pressure.
    pub held: Held,
    /// What it would bear over the set pressure, where both are known.
    pub times: Option<f64>,
    /// Its factor of safety at the set pressure, where the rule's factor stands in its sheet.
    pub factor: Option<f64>,
    /// The rule's factor that its pressure was worked with; nothing where its sheet takes a stress, or it stands on a paper.
    pub worked_with: Option<f64>,
    /// The thickness or diameter that it was worked from, with where it was read.
    pub thinnest: Option<(String, String)>,
    /// The thickness that the set pressure asks, inches, where the sheet tells it.
    pub required: Option<f64>,
    /// What it stood on.
    pub stood_on: Vec<Stood>,
    /// What is missing.
    pub missing: Vec<String>,
    /// What must be said of it.
    pub notices: Vec<String>,
}

/// What governs.
#[derive(Debug, Clone, PartialEq)]
pub enum Governing {
    /// Every component was told, and this one bears least.
    Told(f64, String),
    /// This one bears least of those told; others were not.
    NotAbove(f64, String),
    /// None was told.
    CannotTell,
}

/// The card.
#[derive(Debug, Clone, PartialEq)]
pub struct BoilerCard {
    /// The rule sets that were asked.
    pub rules: Vec<String>,
    /// The pressure the owner set.
    pub set_psig: Option<u32>,
    /// Its components under pressure, in the order of the places.
    pub lines: Vec<CardLine>,
    /// Places of which nothing is entered: word and meaning.
    pub nothing_of: Vec<(&'static str, &'static str)>,
    /// Places that she is said not to have, and how that is known.
    pub not_fitted: Vec<(String, String)>,
    /// What governs.
    pub governing: Governing,
    /// The lowest readings against the crown; nothing where they were not entered.
    pub level: Option<Level>,
    /// What the law's specification card asks and this card has or lacks.
    pub fields: Vec<CardField>,
    /// The newest card signed by the day.
    pub last: Option<CardEdition>,
    /// What differs from it, a sentence each.
    pub differs: Vec<String>,
    /// The rulings used, by id and version.
    pub used: Vec<(String, u32)>,
}

impl BoilerCard {
    /// The components that cannot be told.
    pub fn untold(&self) -> impl Iterator<Item = &CardLine> {
        self.lines
            .iter()
            .filter(|line| !matches!(line.bears, Bears::Told(_)))
    }

    /// How the boiler stands to the set pressure: every component must bear it.
    pub fn held(&self) -> Held {
        if self.lines.iter().any(|line| line.held == Held::Fails) {
            Held::Fails
        } else if matches!(self.governing, Governing::Told(..))
            && self.lines.iter().all(|line| line.held == Held::Complies)
        {
            Held::Complies
        } else {
            Held::CannotTell
        }
    }

    /// What governs, in a sentence.
    pub fn governs(&self) -> String {
        match &self.governing {
            Governing::Told(psi, name) => {
                format!("{} bears least: {}.", sentence(name), psig(*psi))
            }
            Governing::NotAbove(psi, name) => format!(
                "The boiler bears not above {}, which is what {name} bears, the least of those told; it is not known to \
                 bear that, for {} could not be told.",
                psig(*psi),
                self.how_many_untold()
            ),
            Governing::CannotTell => {
                format!("cannot tell: {} could not be told.", self.how_many_untold())
            }
        }
    }

    fn how_many_untold(&self) -> String {
        match self.untold().count() + self.nothing_of.len() {
            1 => "one component or place".into(),
            many => format!("{many} components and places"),
        }
    }

    /// The lines as a signed card keeps them.
    pub fn kept(&self) -> Vec<CardLineKept> {
        let lines = self.lines.iter().map(|line| CardLineKept {
            component: line.component.clone(),
            bears: borne(line.bears),
            verdict: line.held.word().into(),
            stood_on: line
                .stood_on
                .iter()
                .map(|it| format!("{} {} ({})", it.name, it.says, it.basis))
                .collect(),
            missing: line.missing.clone(),
        });
        lines.collect()
    }
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Works the card of an engine as the book has her boiler on a day.
///
/// # Errors
/// Input: no such engine, a set of her rules that does not read, a day before the rulebook's coverage.
pub fn boiler_card(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    on: Date,
) -> Result<BoilerCard, Refusal> {
    let engine = engine_of(book, id)?;
    let mut law = law::Figures::of(book, rules, engine, on);
    let nothing = crate::book::Boiler::default();
    let boiler = book.boilers.get(&id).unwrap_or(&nothing);
    let standing: Vec<&Component> = boiler.components.iter().filter(|it| it.stood(on)).collect();
    let mut lines = Vec::new();
    let mut not_fitted = Vec::new();
    let mut nothing_of = Vec::new();
    for (place, means) in BOILER_PLACES {
        let here: Vec<_> = standing.iter().filter(|it| it.place == *place).collect();
        if here.is_empty() {
            nothing_of.push((*place, *means));
        }
        for component in here {
            if component.kind == "not-fitted" {
                match component.fact("seen", on) {
                    Some(seen) => not_fitted.push((
                        component.name.clone(),
                        format!("{} ({})", seen.says, seen.source),
                    )),
                    None => nothing_of.push((*place, *means)),
                }
                continue;
            }
            lines.push(bear::line(
                book,
                &mut law,
                id,
                component,
                engine.mawp_psig,
                on,
            )?);
        }
    }
    let governing = governing(&lines, nothing_of.is_empty());
    let level = level::of(book, &mut law, id, &standing, on)?;
    let mut card = BoilerCard {
        rules: law.sets()?,
        set_psig: engine.mawp_psig,
        governing,
        level,
        fields: card_fields(book, engine, &standing, on),
        lines,
        nothing_of,
        not_fitted,
        last: boiler.edition(on).cloned(),
        differs: Vec::new(),
        used: law.used(),
    };
    let last = card.last.as_ref();
    card.differs = last.map_or_else(Vec::new, |last| compared(&card, last));
    Ok(card)
}

/// Works the line of one component alone; nothing where it is none under pressure.
///
/// # Errors
/// As [`boiler_card`].
pub(super) fn line_of(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    component: &str,
    on: Date,
) -> Result<Option<CardLine>, Refusal> {
    let engine = engine_of(book, id)?;
    let boiler = book.boilers.get(&id);
    let Some(component) = boiler
        .and_then(|boiler| boiler.component(component))
        .filter(|it| it.stood(on) && BOILER_PLACES.iter().any(|(place, _)| *place == it.place))
    else {
        return Ok(None);
    };
    let mut law = law::Figures::of(book, rules, engine, on);
    bear::line(book, &mut law, id, component, engine.mawp_psig, on).map(Some)
}

fn governing(lines: &[CardLine], whole: bool) -> Governing {
    let mut all: Vec<Bears> = lines.iter().map(|line| line.bears).collect();
    if !whole {
        // A place of which nothing is entered can hold the weakest part of all.
        all.push(Bears::CannotTell);
    }
    let name = |at: usize| lines.get(at).map(|line| line.component.clone());
    match governs(&all) {
        Governs::Nothing => Governing::CannotTell,
        Governs::Told(at, psi) => Governing::Told(psi, name(at).unwrap_or_default()),
        Governs::NotAbove(at, psi) => Governing::NotAbove(psi, name(at).unwrap_or_default()),
    }
}

/// Signs a card as it stands: a new edition, frozen. It approves no pressure.
///
/// # Errors
/// Refused: the person may not approve. Input: nothing is entered, or no reason is given.
pub fn sign_boiler_card(
    book: &Book,
    card: &BoilerCard,
    id: LocomotiveId,
    because: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "sign a boiler card", on)?;
    if card.lines.is_empty() {
        return Err(Refusal::input(
            "Nothing under pressure is entered of her boiler: there is no card to sign.",
        ));
    }
    if because.trim().is_empty() {
        return Err(Refusal::input(
            "Say why there is a new card: the survey, the repair, the day it was worked anew.",
        ));
    }
    let boiler = book.boilers.get(&id);
    let editions = boiler.map_or(0, |boiler| boiler.editions.len());
    let newest = |line: &CardLine| {
        let survey = boiler?.surveys_of(&line.component, on).last()?;
        Some(SurveyHeld {
            component: survey.component.clone(),
            on: survey.on,
            entry: survey.entry,
        })
    };
    let surveys: Vec<_> = card.lines.iter().filter_map(newest).collect();
    Ok(vec![Statement::BoilerCardSigned(BoilerCardSigned {
        locomotive: id,
        edition: u32::try_from(editions)
            .unwrap_or(u32::MAX)
            .saturating_add(1),
        because: because.trim().into(),
        set_psig: card.set_psig,
        governing: card.governs(),
        lines: card.kept(),
        surveys: Some(surveys),
    })])
}

/// What differs from an earlier edition, a sentence each.
pub fn compared(card: &BoilerCard, last: &CardEdition) -> Vec<String> {
    let mut all = Vec::new();
    let psi = |set: Option<u32>| set.map_or("not stated".into(), |set| format!("{set} psig"));
    if card.set_psig != last.card.set_psig {
        all.push(format!(
            "The set pressure was {} and is {}.",
            psi(last.card.set_psig),
            psi(card.set_psig)
        ));
    }
    let now = card.kept();
    for line in &now {
        let Some(was) = last
            .card
            .lines
            .iter()
            .find(|was| was.component == line.component)
        else {
            all.push(format!(
                "{}: new on the card; {}.",
                line.component, line.bears
            ));
            continue;
        };
        if was == line {
            continue;
        }
        let mut told = Vec::new();
        if was.bears != line.bears {
            told.push(format!("{} then, {} now", was.bears, line.bears));
        }
        let gone = was.stood_on.iter().filter(|it| !line.stood_on.contains(it));
        told.extend(gone.map(|it| format!("no longer {it}")));
        let come = line.stood_on.iter().filter(|it| !was.stood_on.contains(it));
        told.extend(come.map(|it| format!("now {it}")));
        let lacks = line.missing.iter().filter(|it| !was.missing.contains(it));
        told.extend(lacks.map(|it| format!("now missing: {it}")));
        let had = was.missing.iter().filter(|it| !line.missing.contains(it));
        told.extend(had.map(|it| format!("no longer missing: {it}")));
        all.push(format!("{}: {}.", line.component, told.join("; ")));
    }
    for was in &last.card.lines {
        if !now.iter().any(|line| line.component == was.component) {
            all.push(format!(
                "{}: was on that card ({}) and is no more.",
                was.component, was.bears
            ));
        }
    }
    all
}
