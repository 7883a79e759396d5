//! An engine's boiler as the book holds it: its components, each fact with its day and source, and the cards signed.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fold::Meta;
use super::id::{LocomotiveId, PersonId};
use super::state::Book;
use super::statement::{BoilerCardSigned, BoilerEntered, BoilerSurveyed, StaysMapped, StaysTold};

/// A boiler.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Boiler {
    /// Its components, in the order entered.
    pub components: Vec<Component>,
    /// Its cards, in the order signed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub editions: Vec<CardEdition>,
    /// Surveys of its sheets, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub surveys: Vec<Survey>,
    /// Maps of its staybolts, in the order first entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stays: Vec<StaySheet>,
    /// Newest entry.
    pub last: u64,
}

/// A survey as taken. Its readings lie as written, a text a row, and are read where they are asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Survey {
    /// The component.
    pub component: String,
    /// Names of the rows.
    pub rows: Vec<String>,
    /// Names of the columns.
    pub columns: Vec<String>,
    /// The readings of each row.
    pub cells: Vec<String>,
    /// Their unit.
    pub unit: String,
    /// The side of a square.
    pub square: Option<String>,
    /// The width of the spot that one reading sees.
    pub spot: Option<String>,
    /// Where the squares begin, who read them and with what.
    pub source: String,
    /// The day.
    pub on: Date,
    /// Who entered it.
    pub by: PersonId,
    /// The entry.
    pub entry: u64,
}

/// The bolts of one sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaySheet {
    /// Where they are, as mapped last.
    pub map: StaysMapped,
    /// What was said of them, in the order entered.
    pub said: Vec<StaySaid>,
}

/// What was said of bolts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaySaid {
    /// Which; none of them is every bolt.
    pub which: Vec<(String, u32, u32)>,
    /// What each is.
    pub state: String,
    /// The inspection it was found at.
    pub at: Option<String>,
    /// Its kind now.
    pub kind: Option<String>,
    /// Its size now.
    pub size: Option<String>,
    /// In the words of whoever did it.
    pub told: String,
    /// The day.
    pub on: Date,
    /// Who entered it.
    pub by: PersonId,
    /// The entry.
    pub entry: u64,
}

impl StaySaid {
    /// Whether it speaks of a bolt.
    pub fn speaks_of(&self, row: &str, number: u32) -> bool {
        let mut which = self.which.iter();
        self.which.is_empty()
            || which.any(|(of, first, last)| of == row && (*first..=*last).contains(&number))
    }
}

/// A component of a boiler.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Component {
    /// Its name.
    pub name: String,
    /// What it is worked as.
    pub kind: String,
    /// Where it is.
    pub place: String,
    /// What was said of it, in the order entered.
    pub facts: Vec<BoilerFact>,
}

/// One fact of a component as it was said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoilerFact {
    /// Its name.
    pub name: String,
    /// What was written; empty where it is not known after all.
    pub says: String,
    /// The paper, or who measured it.
    pub source: String,
    /// From which day.
    pub on: Date,
    /// Who entered it.
    pub by: PersonId,
    /// The entry.
    pub entry: u64,
}

/// A card that somebody signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CardEdition {
    /// What was signed.
    #[serde(flatten)]
    pub card: BoilerCardSigned,
    /// By whom.
    pub by: PersonId,
    /// On which day.
    pub on: Date,
}

impl CardEdition {
    /// The surveys of a component that it stood on: the day, and the entry where it is known.
    ///
    /// A card in form 1 keeps no list of them; its own words name the day of the survey whose thinnest square governed, or of
    /// which squares were not read. Where neither was so, that survey lowered nothing.
    fn stood_on(&self, component: &str) -> impl Iterator<Item = (Date, u64)> {
        let listed = self.card.surveys.iter().flatten();
        let listed = listed.filter(move |it| it.component == component);
        let listed: Vec<_> = listed.map(|it| (it.on, it.entry)).collect();
        let told = match &self.card.surveys {
            Some(_) => Vec::new(),
            None => {
                let lines = self
                    .card
                    .lines
                    .iter()
                    .filter(|it| it.component == component);
                let day = |said: &String, before: &str| -> Option<Date> {
                    said.split_once(before)?.1.get(..10)?.parse().ok()
                };
                let days = lines.flat_map(|line| {
                    let stood = line.stood_on.iter();
                    let stood = stood.filter_map(|it| day(it, "thinnest square of the survey of "));
                    let unread = line.missing.iter();
                    stood.chain(unread.filter_map(|it| day(it, " squares of the survey of ")))
                });
                days.map(|day| (day, 0)).collect()
            }
        };
        listed.into_iter().chain(told)
    }
}

impl Component {
    /// What a fact was on a day, if it was known: the newest that had been said by then.
    pub fn fact(&self, name: &str, on: Date) -> Option<&BoilerFact> {
        let said = self.facts.iter().enumerate();
        said.filter(|(_, fact)| fact.name == name && fact.on <= on)
            .max_by_key(|(at, fact)| (fact.on, *at))
            .map(|(_, fact)| fact)
            .filter(|fact| !fact.says.is_empty())
    }

    /// Whether anything had been said of it by a day.
    pub fn stood(&self, on: Date) -> bool {
        self.facts.iter().any(|fact| fact.on <= on)
    }
}

impl Boiler {
    /// The component of a name.
    pub fn component(&self, name: &str) -> Option<&Component> {
        self.components.iter().find(|it| it.name == name)
    }

    /// The surveys of a component taken by a day, the newest last.
    pub fn surveys_of<'b>(
        &'b self,
        component: &str,
        on: Date,
    ) -> impl Iterator<Item = &'b Survey> + use<'b> {
        let name = component.to_owned();
        let mut all: Vec<_> = self
            .surveys
            .iter()
            .filter(|it| it.component == name && it.on <= on)
            .collect();
        all.sort_by_key(|it| (it.on, it.entry));
        all.into_iter()
    }

    /// The map of a sheet.
    pub fn stay_sheet(&self, sheet: &str) -> Option<&StaySheet> {
        self.stays.iter().find(|it| it.map.sheet == sheet)
    }

    /// What a signed card stood on and the book has no more, of a component on a day: the card, and the day of its survey.
    /// A survey of that day entered as late, or one of a later day, is as good.
    pub fn lost_survey(&self, component: &str, on: Date) -> Option<(&CardEdition, Date)> {
        let signed = self.editions.iter().filter(|it| it.on <= on);
        let stood = signed.flat_map(|card| card.stood_on(component).map(move |it| (card, it)));
        // The newest that any card stood on: what stands in its place does for the earlier ones too.
        let (card, (day, entry)) = stood.max_by_key(|(_, it)| *it)?;
        let held = self.surveys_of(component, on);
        let held = held.map(|it| (it.on, it.entry)).max();
        held.is_none_or(|held| held < (day, entry))
            .then_some((card, day))
    }

    /// The newest card signed by a day.
    pub fn edition(&self, on: Date) -> Option<&CardEdition> {
        let signed = self.editions.iter().filter(|it| it.on <= on);
        signed.max_by_key(|it| it.card.edition)
    }
}

impl Book {
    pub(super) fn boiler_of(&mut self, id: LocomotiveId, seq: u64) -> Result<&mut Boiler, String> {
        if !self.locomotives.contains_key(&id) {
            return Err(format!("locomotive {id}"));
        }
        let boiler = self.boilers.entry(id).or_default();
        boiler.last = boiler.last.max(seq);
        Ok(boiler)
    }

    pub(super) fn enter_boiler(&mut self, it: &BoilerEntered, meta: Meta) -> Result<(), String> {
        let boiler = self.boiler_of(it.locomotive, meta.seq)?;
        let at = match boiler
            .components
            .iter()
            .position(|one| one.name == it.component)
        {
            Some(at) => at,
            None => {
                boiler.components.push(Component {
                    name: it.component.clone(),
                    kind: String::new(),
                    place: String::new(),
                    facts: Vec::new(),
                });
                boiler.components.len() - 1
            }
        };
        let Some(component) = boiler.components.get_mut(at) else {
            return Err("a component".into());
        };
        component.kind.clone_from(&it.kind);
        component.place.clone_from(&it.place);
        component
            .facts
            .extend(it.facts.iter().map(|(name, says)| BoilerFact {
                name: name.clone(),
                says: says.clone(),
                source: it.source.clone(),
                on: meta.done_on,
                by: meta.person,
                entry: meta.seq,
            }));
        Ok(())
    }

    pub(super) fn sign_card(&mut self, it: &BoilerCardSigned, meta: Meta) -> Result<(), String> {
        let boiler = self.boiler_of(it.locomotive, meta.seq)?;
        boiler.editions.push(CardEdition {
            card: it.clone(),
            by: meta.person,
            on: meta.done_on,
        });
        Ok(())
    }

    pub(super) fn take_survey(&mut self, it: &BoilerSurveyed, meta: Meta) -> Result<(), String> {
        let boiler = self.boiler_of(it.locomotive, meta.seq)?;
        boiler.surveys.push(Survey {
            component: it.component.clone(),
            rows: it.rows.clone(),
            columns: it.columns.clone(),
            cells: it.cells.clone(),
            unit: it.unit.clone(),
            square: it.square.clone(),
            spot: it.spot.clone(),
            source: it.source.clone(),
            on: meta.done_on,
            by: meta.person,
            entry: meta.seq,
        });
        Ok(())
    }

    pub(super) fn map_stays(&mut self, it: &StaysMapped, meta: Meta) -> Result<(), String> {
        let boiler = self.boiler_of(it.locomotive, meta.seq)?;
        let mut sheets = boiler.stays.iter_mut();
        match sheets.find(|sheet| sheet.map.sheet == it.sheet) {
            Some(sheet) => sheet.map = it.clone(),
            None => boiler.stays.push(StaySheet {
                map: it.clone(),
                said: Vec::new(),
            }),
        }
        Ok(())
    }

    pub(super) fn tell_stays(&mut self, it: &StaysTold, meta: Meta) -> Result<(), String> {
        let boiler = self.boiler_of(it.locomotive, meta.seq)?;
        let mut sheets = boiler.stays.iter_mut();
        let sheet = sheets.find(|sheet| sheet.map.sheet == it.sheet);
        let sheet = sheet.ok_or_else(|| format!("the bolts of the {}", it.sheet))?;
        sheet.said.push(StaySaid {
            which: it.which.clone(),
            state: it.state.clone(),
            at: it.at.clone(),
            kind: it.kind.clone(),
            size: it.size.clone(),
            told: it.told.clone(),
            on: meta.done_on,
            by: meta.person,
            entry: meta.seq,
        });
        Ok(())
    }
}
