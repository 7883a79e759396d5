//! What one component would bear: its facts put to its sheet, with the law's figures where the law has them.

use jiff::civil::Date;
use measure::{Dimension, House, Rounding, entered_with_unit, show};
use physics::{Basis, Given, Worked};

use super::law::Figures;
use super::{Bears, CardLine, Held, Stood};
use crate::Refusal;
use crate::book::{BoilerFact, Book, Component, LocomotiveId};
use crate::locomotive::{BoilerKind, FactAs, Squares, boiler_kind, family, newest_of, size_of};

const SHELL: &str = "boiler.shell";
const SEAM: &str = "boiler.seam";
const LIGAMENT: &str = "boiler.ligament";
const BRACE: &str = "boiler.brace";

/// Works one component.
pub fn line(
    book: &Book,
    law: &mut Figures<'_>,
    id: LocomotiveId,
    component: &Component,
    set: Option<u32>,
    on: Date,
) -> Result<CardLine, Refusal> {
    let mut desk = Desk {
        book,
        law,
        id,
        component,
        on,
        stood_on: Vec::new(),
        missing: Vec::new(),
        unsure: Vec::new(),
        notices: Vec::new(),
        thinnest: None,
        required: None,
        set,
        factor: None,
    };
    let psi = match boiler_kind(&component.kind) {
        Some(kind) => desk.work(kind)?,
        None => {
            let kind = &component.kind;
            desk.missing
                .push(format!("a kind that this program knows; `{kind}` is none"));
            None
        }
    };
    // The sheet may answer with less than it was asked for: then nothing is told.
    let bears = match psi {
        Some(psi) if desk.missing.is_empty() && desk.unsure.is_empty() => Bears::Told(psi),
        Some(psi) if desk.missing.is_empty() => Bears::NotAbove(psi),
        _ => Bears::CannotTell,
    };
    let set_psi = set.filter(|set| *set > 0).map(f64::from);
    let times = match bears {
        Bears::Told(psi) => set_psi.map(|set| psi / set),
        _ => None,
    };
    let factor = times.zip(desk.factor).map(|(times, factor)| times * factor);
    let missing = desk.missing.into_iter().chain(desk.unsure).collect();
    Ok(CardLine {
        component: component.name.clone(),
        kind: component.kind.clone(),
        place: component.place.clone(),
        bears,
        held: Held::of(bears, set),
        times,
        factor,
        worked_with: desk.factor,
        thinnest: desk.thinnest,
        required: desk.required,
        stood_on: desk.stood_on,
        missing,
        notices: desk.notices,
    })
}

struct Desk<'d, 'a> {
    book: &'d Book,
    law: &'d mut Figures<'a>,
    id: LocomotiveId,
    component: &'d Component,
    on: Date,
    stood_on: Vec<Stood>,
    /// Without these nothing can be worked.
    missing: Vec<String>,
    /// Without these a lower pressure is possible.
    unsure: Vec<String>,
    notices: Vec<String>,
    thinnest: Option<(String, String)>,
    /// The thickness that the set pressure asks, inches.
    required: Option<f64>,
    set: Option<u32>,
    factor: Option<f64>,
}

/// A fact as an argument that says where it came from.
fn given(name: &str, fact: &BoilerFact) -> Given {
    Given {
        name: name.to_owned(),
        text: fact.says.clone(),
        basis: Basis::Reading(format!("{}, {}", fact.source, fact.on)),
    }
}

fn inches(text: &str) -> Option<f64> {
    let read = entered_with_unit(text, Dimension::Length).ok()?;
    Some(read.si)
}

impl Desk<'_, '_> {
    fn fact(&self, name: &str) -> Option<&BoilerFact> {
        self.component.fact(name, self.on)
    }

    fn word(&self, name: &str) -> Option<String> {
        self.fact(name).map(|fact| fact.says.clone())
    }

    /// A fact for an argument, or its name among what is missing.
    fn take(&mut self, fact: &str, argument: &str, into: &mut Vec<Given>) {
        match self.fact(fact) {
            Some(said) => into.push(given(argument, said)),
            None => self.lacks(fact),
        }
    }

    /// A fact is missing; it is said once, whatever asks for it.
    fn lacks(&mut self, fact: &str) {
        if !self.missing.iter().any(|known| known == fact) {
            self.missing.push(fact.to_owned());
        }
    }

    fn figure(
        &mut self,
        sheet: &'static str,
        argument: &str,
        word: &str,
        into: &mut Vec<Given>,
    ) -> Result<(), Refusal> {
        match self.law.figure(sheet, argument, word)? {
            Ok(given) => into.push(given),
            Err(why) => self.missing.push(why),
        }
        Ok(())
    }

    fn work(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        match kind.word {
            "course" => self.course(),
            "stayed-sheet" => self.stayed_sheet(kind),
            "stays" => self.stays(kind),
            "brace" => self.brace(kind),
            "tube" => self.tube(kind),
            "segment" => self.segment(kind),
            "crown-bar" | "screw-stay" => Ok(self.by_another_rule(kind)),
            "by-paper" | "dished-head" | "dome" | "opening" | "patch" => Ok(self.by_paper()),
            _ => Ok(None),
        }
    }

    fn course(&mut self) -> Result<Option<f64>, Refusal> {
        let mut all = Vec::new();
        let tensile = self.tensile()?;
        self.wall("thickness", &["thickness", "seam_thickness"], &mut all);
        self.take("radius", "radius", &mut all);
        self.rule_factor(&mut all)?;
        let efficiency = self.efficiency(tensile.as_ref())?;
        all.extend(tensile);
        all.extend(efficiency);
        let least = self.ask_required(SHELL, &all, "required_thickness");
        let psi = self.ask(SHELL, all, "mawp");
        self.required = least.filter(|_| psi.is_some());
        Ok(psi)
    }

    fn rule_factor(&mut self, into: &mut Vec<Given>) -> Result<(), Refusal> {
        let before = into.len();
        self.figure(SHELL, "factor", "", into)?;
        let factor = into
            .get(before)
            .and_then(|one| one.text.trim().parse().ok());
        self.factor = factor;
        Ok(())
    }

    /// The strength of the plate: as proved, or the rule's figure where it is said to be assumed.
    fn tensile(&mut self) -> Result<Option<Given>, Refusal> {
        let mut one = Vec::new();
        match self.word("proof").as_deref() {
            Some("certificate" | "test") => {
                let proof = self.word("proof").unwrap_or_default();
                match self.fact("tensile") {
                    Some(fact) => {
                        let mut strength = given("tensile", fact);
                        strength.basis = Basis::Reading(format!("{proof}: {}, {}", fact.source, fact.on));
                        one.push(strength);
                    }
                    None => self.missing.push(format!("tensile, as the {proof} says it")),
                }
            }
            Some("assumed") => match self.word("metal").as_deref() {
                Some("steel") => self.figure(SHELL, "tensile", "steel-plate", &mut one)?,
                Some("wrought-iron") => self.figure(SHELL, "tensile", "iron-plate", &mut one)?,
                _ => self.missing.push("metal: steel or wrought-iron".into()),
            },
            _ => self.missing.push(
                "proof of the metal: certificate or test with its tensile, or assumed with its metal, when the rule's figure \
                 for unknown metal is taken"
                    .into(),
            ),
        }
        Ok(one.pop())
    }

    /// The stress allowed to a plate: its strength over the rule's factor.
    fn allowable(&mut self, into: &mut Vec<Given>) -> Result<(), Refusal> {
        let tensile = self.tensile()?;
        let mut factor = Vec::new();
        self.rule_factor(&mut factor)?;
        let (Some(tensile), Some(factor)) = (tensile, factor.pop()) else {
            return Ok(());
        };
        let strength = entered_with_unit(&tensile.text, Dimension::Stress).ok();
        let over = self.factor.filter(|factor| *factor > 0.0);
        let Some((strength, over)) = strength.zip(over) else {
            self.missing
                .push("a strength and a factor that read".into());
            return Ok(());
        };
        let psi = measure::Unit::of(Dimension::Stress, House::Inch).from_si(strength.si) / over;
        into.push(Given {
            name: "allowable".into(),
            text: format!("{} psi", show::number(psi, 2, Rounding::Down)),
            basis: Basis::Found(format!(
                "{} ({}) over {} ({})",
                tensile.text, tensile.basis, factor.text, factor.basis
            )),
        });
        Ok(())
    }

    /// The least of what is known of a wall: the facts named, and the newest readings of a part of the same name.
    fn wall(&mut self, argument: &str, facts: &[&str], into: &mut Vec<Given>) {
        let mut all: Vec<Given> = Vec::new();
        for name in facts {
            match self.fact(name) {
                Some(fact) => all.push(given(argument, fact)),
                // At the seam too, whatever closes it: the thinner of the two governs, so one that is not known helps nobody.
                None => self.lacks(name),
            }
        }
        all.extend(self.surveyed(argument));
        all.extend(self.read_of_part(argument));
        let sized = all
            .into_iter()
            .filter_map(|one| Some((inches(&one.text)?, one)));
        let least = sized.min_by(|one, other| one.0.total_cmp(&other.0));
        let Some((si, least)) = least else { return };
        self.thinnest = Some((least.text.clone(), least.basis.to_string()));
        let built = self.fact("as_built").and_then(|fact| inches(&fact.says));
        if built.is_some_and(|built| si > built * 1.1) {
            self.notices.push(format!(
                "The thinnest place, {}, is more than a tenth over the thickness as built: is the reading right?",
                least.text
            ));
        }
        into.push(least);
    }

    /// The thinnest square of the newest survey; squares that nobody read could only be thinner.
    fn surveyed(&mut self, argument: &str) -> Option<Given> {
        let boiler = self.book.boilers.get(&self.id)?;
        // What was taken back lowers nothing any more; that it was there is remembered by what was signed on it.
        if let Some((card, day)) = boiler.lost_survey(&self.component.name, self.on) {
            self.unsure.push(format!(
                "a survey of the {}: that of {day}, on which the card signed on {} stood, is in this book no more",
                self.component.name, card.on
            ));
        }
        let survey = boiler.surveys_of(&self.component.name, self.on).last()?;
        let squares = Squares::of(survey);
        let [_, unread, _] = squares.counts();
        if unread > 0 {
            self.unsure.push(format!(
                "{unread} squares of the survey of {} that were not read",
                survey.on
            ));
        }
        let (_, row, column) = squares.thinnest()?;
        let token = survey.cells.get(row)?.split(' ').nth(column)?;
        let name = |names: &[String], at: usize| names.get(at).cloned().unwrap_or_default();
        Some(Given {
            name: argument.to_owned(),
            text: format!("{token} {}", survey.unit),
            basis: Basis::Reading(format!(
                "thinnest square of the survey of {}: row {}, column {}",
                survey.on,
                name(&survey.rows, row),
                name(&survey.columns, column)
            )),
        })
    }

    /// The thinnest of the newest readings of the part that has this component's name.
    fn read_of_part(&mut self, argument: &str) -> Option<Given> {
        let mut parts = self.book.parts.iter();
        let (part, kept) = parts
            .find(|(_, part)| part.locomotive == self.id && part.name == self.component.name)?;
        let Some(sets) = self.book.readings.newest_first(*part) else {
            self.unsure
                .push("the readings of her part of this name".into());
            return None;
        };
        let family = family(self.book, &kept.family).ok()?;
        let feature = family.features.iter().find(|it| it.name == "thickness")?;
        let sets: Vec<_> = sets.into_iter().filter(|set| set.on <= self.on).collect();
        let newest = newest_of(&feature.name, &sets)?;
        let read = newest
            .readings
            .iter()
            .filter(|it| it.feature == feature.name);
        let sized = read.filter_map(|it| Some((size_of(feature, it)?, it)));
        let (_, least) = sized.min_by_key(|(size, _)| *size)?;
        Some(Given {
            name: argument.to_owned(),
            text: least.reading.written(),
            basis: Basis::Reading(format!(
                "thinnest of her part {}, {}, {}",
                self.component.name, least.reading.position, newest.on
            )),
        })
    }

    /// The efficiency along a course, worked by its seam or holes or as a paper says.
    fn efficiency(&mut self, tensile: Option<&Given>) -> Result<Option<Given>, Refusal> {
        let Some(kind) = self.word("seam_kind") else {
            self.missing
                .push("seam_kind: how it is closed along its length".into());
            return Ok(None);
        };
        let mut all = Vec::new();
        let sheet = match kind.as_str() {
            "by-paper" => {
                self.take("efficiency", "efficiency", &mut all);
                return Ok(all.pop());
            }
            "ligaments" => {
                self.take("hole_pitches", "pitches", &mut all);
                self.take("hole", "hole", &mut all);
                LIGAMENT
            }
            _ => {
                self.riveted(&kind, tensile, &mut all)?;
                SEAM
            }
        };
        let worked = self.ask(sheet, all, "efficiency");
        Ok(worked.map(|share| Given {
            name: "efficiency".into(),
            // Rounded against the engine.
            text: show::number(share, 6, Rounding::Down),
            basis: Basis::Found(format!("worked on {sheet}, {kind}")),
        }))
    }

    fn riveted(
        &mut self,
        kind: &str,
        tensile: Option<&Given>,
        all: &mut Vec<Given>,
    ) -> Result<(), Refusal> {
        if let Some(fact) = self.fact("seam_kind") {
            let one = given("kind", fact);
            all.push(one);
        }
        for (fact, argument) in [
            ("seam_pitch", "pitch"),
            ("seam_thickness", "thickness"),
            ("seam_rivet", "rivet"),
            ("seam_crushing", "crushing"),
        ] {
            self.take(fact, argument, all);
        }
        let straps = !kind.starts_with("lap");
        if straps {
            self.take("seam_strap", "strap", all);
        }
        if kind == "saw-tooth" {
            self.take("seam_rows", "rows", all);
            self.take("seam_double_rows", "double_rows", all);
        }
        all.extend(tensile.cloned());
        match self.word("rivet_proof").as_deref() {
            Some("test") => {
                self.take("seam_shear", "shear", all);
                if straps {
                    self.take("seam_shear_double", "shear_double", all);
                }
            }
            Some("assumed") => match self.word("rivets") {
                Some(metal) => {
                    let word = format!("rivet={metal}");
                    self.figure(SEAM, "shear", &word, all)?;
                    if straps {
                        self.figure(SEAM, "shear_double", &word, all)?;
                    }
                }
                None => self.missing.push("rivets: steel or iron".into()),
            },
            _ => self.missing.push(
                "rivet_proof: test with its strengths, or assumed with the rivets' metal, when the rule's figure is taken".into(),
            ),
        }
        Ok(())
    }

    fn stayed_sheet(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        let mut all = Vec::new();
        self.wall(kind.wall, &[kind.wall], &mut all);
        self.take("pitches", "pitches", &mut all);
        self.take("stay_factor", "stay_factor", &mut all);
        self.allowable(&mut all)?;
        self.required = self.ask_required(kind.sheet, &all, "required_thickness");
        Ok(self.ask(kind.sheet, all, "pressure_allowed"))
    }

    fn stays(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        let mut all = Vec::new();
        self.wall(kind.wall, &[kind.wall], &mut all);
        for name in ["pitches", "telltale", "angle"] {
            self.take(name, name, &mut all);
        }
        self.figure("boiler.stay", "allowable", "", &mut all)?;
        // The sheet asks a pressure for its load; what is allowed does not hang on it.
        all.push(Given::typed("pressure", "100 psig"));
        let psi = self.ask(kind.sheet, all, "allowed");
        self.stood_on.retain(|it| it.name != "pressure");
        Ok(psi)
    }

    fn brace(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        let mut all = Vec::new();
        for name in ["area", "distance", "length", "surface"] {
            self.take(name, name, &mut all);
        }
        self.figure(BRACE, "allowable", "", &mut all)?;
        Ok(self.ask(kind.sheet, all, "pressure_allowed"))
    }

    fn tube(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        let mut all = Vec::new();
        self.wall(kind.wall, &[kind.wall], &mut all);
        for name in ["pressure_from", "outside_diameter", "wear"] {
            self.take(name, name, &mut all);
        }
        self.allowable(&mut all)?;
        Ok(self.ask(kind.sheet, all, "pressure_allowed"))
    }

    /// A head above the tubes: each brace carries its share of the segment.
    fn segment(&mut self, kind: &'static BoilerKind) -> Result<Option<f64>, Refusal> {
        let mut head = Vec::new();
        for name in ["shell_diameter", "height", "shell_strip", "tube_strip"] {
            self.take(name, name, &mut head);
        }
        let mut brace = Vec::new();
        for name in ["area", "distance", "length"] {
            self.take(name, name, &mut brace);
        }
        self.figure(BRACE, "allowable", "", &mut brace)?;
        let mut count = Vec::new();
        self.take("braces", "braces", &mut count);
        // The sheet asks a pressure and a brace for its load; the area does not hang on them.
        head.push(Given::typed("pressure", "100 psig"));
        head.push(Given::typed("brace_load", "1000 lbf"));
        let area = self.ask(kind.sheet, head, "area");
        self.stood_on
            .retain(|it| !matches!(it.name.as_str(), "pressure" | "brace_load"));
        let count = count.pop();
        let braces = count.as_ref().and_then(|one| one.text.parse::<f64>().ok());
        let (Some(area), Some(braces)) = (area, braces.filter(|braces| *braces >= 1.0)) else {
            return Ok(None);
        };
        brace.push(Given {
            name: "surface".into(),
            // Rounded against the engine.
            text: format!("{} sq in", show::number(area / braces, 3, Rounding::Up)),
            basis: Basis::Found(format!(
                "worked on {}, shared by {braces} braces",
                kind.sheet
            )),
        });
        Ok(self.ask(BRACE, brace, "pressure_allowed"))
    }

    /// A part for which the rules that bind her have none on file, by the rule of another country: a bound, and no more until
    /// somebody answerable took that rule for her.
    fn by_another_rule(&mut self, kind: &'static BoilerKind) -> Option<f64> {
        let mut all = Vec::new();
        let facts = kind.facts.iter().filter_map(|fact| match fact.takes {
            FactAs::Argument(_, argument) => Some((fact.name, argument)),
            FactAs::Word(_) | FactAs::Count | FactAs::Text => None,
        });
        for (name, argument) in facts {
            self.take(name, argument, &mut all);
        }
        let psi = self.ask(kind.sheet, all, "pressure_allowed");
        let law = physics::find(kind.sheet)
            .ok()
            .and_then(|entry| entry.card.sources.first());
        let law = law.map_or("another country's rule", |source| source.work);
        match self.fact("accepted") {
            Some(fact) => {
                let said = format!("By {law}, taken for her: {} ({}).", fact.says, fact.source);
                self.notices.push(said);
            }
            None => self.unsure.push(format!(
                "no rule on file of those that bind her: worked by {law}; accepted: who, licensed and answerable, took it for her"
            )),
        }
        psi
    }

    fn by_paper(&mut self) -> Option<f64> {
        if self.fact("by").is_none() {
            self.missing
                .push("who worked it and signed it, and when".into());
        }
        let Some(fact) = self.fact("pressure").cloned() else {
            self.missing.push(
                "no rule on file here for such a part: the pressure of a calculation signed by one qualified for it".into(),
            );
            return None;
        };
        let basis = format!("{}, {}", fact.source, fact.on);
        let (sheet, name) = ("", "pressure".to_owned());
        self.stood_on.push(Stood {
            sheet,
            name,
            says: fact.says.clone(),
            basis,
        });
        self.notices
            .push("Not worked here: it stands on the paper named.".into());
        let read = entered_with_unit(&fact.says, Dimension::GaugePressure).ok()?;
        Some(measure::Unit::of(Dimension::GaugePressure, House::Inch).from_si(read.si))
    }

    /// The thickness that the set pressure asks by a sheet, inches.
    fn ask_required(&self, sheet: &str, all: &[Given], result: &str) -> Option<f64> {
        if !self.missing.is_empty() {
            return None;
        }
        let set = self.set?;
        let mut all = all.to_vec();
        all.push(Given {
            name: "pressure".into(),
            text: format!("{set} psig"),
            basis: Basis::Reading("the pressure the owner set".into()),
        });
        let entry = physics::find(sheet).ok()?;
        Worked::new(entry, &all, House::Inch).ok()?.result(result)
    }

    /// Works a sheet, where nothing it needs is missing; a sheet that refuses says why among what is missing.
    fn ask(&mut self, sheet: &'static str, all: Vec<Given>, result: &str) -> Option<f64> {
        for one in &all {
            self.stood_on.push(Stood {
                sheet,
                name: one.name.clone(),
                says: one.text.clone(),
                basis: one.basis.to_string(),
            });
        }
        if !self.missing.is_empty() {
            return None;
        }
        let worked = physics::find(sheet).and_then(|entry| Worked::new(entry, &all, House::Inch));
        match worked {
            Ok(worked) => {
                let answer = worked.result(result);
                if answer.is_none() {
                    self.missing.push(format!("{sheet} gave no {result}"));
                }
                answer
            }
            Err(why) => {
                self.missing.push(why.to_string());
                None
            }
        }
    }
}
