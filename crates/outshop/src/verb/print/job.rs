//! The job card, filled from the book: nothing on it is worked again, only said as it was written.

use std::collections::BTreeSet;

use drawing::Title;
use measure::House;
use paper::{
    Answered, Copied, Done, Fact, Feature, Hold, JobCard, LatheCard, Mark, Operation, Picture,
    Place, Ruling, Seen, Shelved, Signature, Verdict,
};
use rules::Rulebook;
use shop::book::{
    Authority, Book, Family, FeatureReading, Finding, Job, Occasion, Part, PersonId, PrintedSheet,
    RulingRef,
};
use shop::locomotive::{checking_of, family};
use shop::route::routes;

use super::{about, drawn, job_papers};
use crate::verb::rule::said;
use crate::verb::rule_held::standing;
use crate::words::{self, print as say, tag};
use crate::{Context, Failure};

/// What a card is filled from.
pub(super) struct Filling<'b> {
    book: &'b Book,
    rules: &'static Rulebook,
    pub(super) job: &'b Job,
    finding: &'b Finding,
    pub(super) part: &'b Part,
    family: &'b Family,
}

pub(super) fn card(context: &mut Context, number: &str) -> Result<JobCard, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let house = context.house();
    let from = Filling::of(&book, rules, number)?;
    let job = from.job;
    let engine = book.locomotives.get(&job.locomotive);
    let engine = engine.map_or("?", |e| e.number.as_str());
    let tag = tag::job(job.number);
    let mut about = about(
        context,
        &tag,
        say::job(&tag, engine, &from.part.name, &job.plan.title),
    )?;
    about.bars = words::card::of_job(&tag, job.last);
    let sheets: Vec<_> = job
        .plan
        .sheets
        .iter()
        .map(|sheet| Copied::of(&sheet.sheet, &sheet.text))
        .collect();
    Ok(JobCard {
        title: job.plan.title.clone(),
        facts: from.facts(engine),
        found: from.found(),
        verdict: from.verdict(),
        decision: from.decision(),
        cautions: job.plan.cautions.clone(),
        stop_points: job.plan.stop_points.clone(),
        sizes: job.plan.sizes.clone(),
        make_first: job.plan.tooling.clone(),
        shelf: from.shelf(),
        features: from.features(),
        papers: job_papers::papers(&book, job, on),
        operations: from.operations(),
        blues: job_papers::blues(&book, job, house),
        proofs: from.proofs(),
        knock_ons: from.knock_ons(),
        cost: job_papers::cost(&book, job),
        signatures: from.signatures(),
        standing: match &job.closed {
            Some((day, by, verdict)) => vec![words::job::closed(*day, from.name(*by), verdict)],
            None => {
                let missing = shop::record::unmet(&book, rules, job, on, house)?;
                if missing.is_empty() {
                    vec![say::NOTHING_MISSING.into()]
                } else {
                    missing
                }
            }
        },
        pictures: from.pictures(&tag, about.shop.clone(), on, house, &job.plan.sheets)?,
        sheets,
        about,
    })
}

/// The lathe card of a sheet as a job keeps it: the figures the job was ordered to, not worked again.
pub(super) fn lathe_card(
    context: &mut Context,
    number: &str,
    id: &str,
) -> Result<LatheCard, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let house = context.house();
    let from = Filling::of(&book, rules, number)?;
    let tag = tag::job(from.job.number);
    let sheets = &from.job.plan.sheets;
    let of_it: Vec<_> = sheets.iter().filter(|one| one.sheet == id).collect();
    let kept = match of_it.as_slice() {
        [one] => *one,
        [] => {
            let known: Vec<_> = sheets.iter().map(|one| one.sheet.as_str()).collect();
            return Err(Failure::Input(say::keeps_no_sheet(&tag, id, &known)));
        }
        several => {
            let why = say::keeps_several(&tag, id, several.len());
            return Err(Failure::Input(why));
        }
    };
    let worked = Copied::of(&kept.sheet, &kept.text)
        .worked
        .ok_or_else(|| Failure::Input(say::kept_unread(&tag, id)))?;
    let engine = book.locomotives.get(&from.job.locomotive);
    let engine = engine.map_or("?", |e| e.number.as_str());
    let mut about = about(
        context,
        &tag,
        say::lathe(&tag, engine, &from.part.name, &worked.title),
    )?;
    about.bars = words::card::of_job(&tag, from.job.last);
    let pictures = from.pictures(
        &tag,
        about.shop.clone(),
        on,
        house,
        std::slice::from_ref(kept),
    )?;
    Ok(LatheCard {
        about,
        worked,
        settings: None,
        order: Vec::new(),
        pictures,
    })
}

impl<'b> Filling<'b> {
    pub(super) fn of(
        book: &'b Book,
        rules: &'static Rulebook,
        number: &str,
    ) -> Result<Filling<'b>, Failure> {
        let (_, job) = shop::locomotive::job(book, number)?;
        let not_there =
            |what: &str| Failure::Machine(format!("The {what} of {number} is not there."));
        let finding = book.findings.get(&job.plan.finding);
        let finding = finding.ok_or_else(|| not_there("finding"))?;
        let part = book.parts.get(&finding.part);
        let part = part.ok_or_else(|| not_there("part"))?;
        let family = family(book, &part.family)?;
        Ok(Filling {
            book,
            rules,
            job,
            finding,
            part,
            family,
        })
    }

    pub(super) fn name(&self, id: PersonId) -> &str {
        self.book.persons.get(&id).map_or("?", |p| p.name.as_str())
    }

    fn seen(&self, by: PersonId, on: jiff::civil::Date, told: &str) -> Seen {
        Seen {
            by: self.name(by).into(),
            on: words::day(on),
            told: told.into(),
        }
    }

    fn facts(&self, engine: &str) -> Vec<Fact> {
        let ordered = say::when_by(self.job.made_on, self.name(self.job.made_by));
        let mut facts = vec![
            Fact::of(say::ENGINE, words::engine(engine)),
            Fact::of(say::PART, &self.part.name),
            Fact::of(say::ORDERED, ordered),
        ];
        if let Some(day) = self.job.plan.promised {
            facts.push(Fact::of(say::PROMISED, words::day(day)));
        }
        facts
    }

    pub(super) fn found(&self) -> Vec<Fact> {
        use words::finding::occasion;
        let occasion = match &self.finding.occasion {
            Occasion::Inspection { inspection } => match self.book.inspections.get(inspection) {
                Some(i) => format!("{} {}", occasion::at(&i.kind), tag::inspection(i.number)),
                None => occasion::INSPECTION.into(),
            },
            Occasion::WriteUp => occasion::WRITE_UP.into(),
            Occasion::RoadFailure => occasion::ROAD_FAILURE.into(),
            Occasion::SpecialNotice => occasion::NOTICE.into(),
            Occasion::PlannedWork => occasion::PLANNED.into(),
        };
        let it = self.finding;
        let found = say::found(
            &tag::finding(it.number),
            it.found_on,
            self.name(it.found_by),
            &occasion,
        );
        let mut facts = vec![Fact::of(say::FINDING, found)];
        let conditions = it.conditions.iter().map(|word| {
            let known = self.family.conditions.iter().find(|c| c.word == *word);
            known.map_or(word.as_str(), |c| c.title.as_str())
        });
        facts.extend(conditions.map(|title| Fact::of(say::IT, title)));
        if !it.told.is_empty() {
            facts.push(Fact::of(say::TOLD, &it.told));
        }
        facts
    }

    fn verdict(&self) -> Option<Verdict> {
        let decision = self.finding.decision.as_ref()?;
        let mark = match decision.verdict.as_str() {
            "complies" => Mark::Complies,
            word if word.starts_with("fails") => Mark::Fails,
            _ => Mark::CannotTell,
        };
        Some(Verdict {
            mark,
            said: decision.verdict.clone(),
            rulings: decision.rulings.iter().map(|r| self.ruling(r)).collect(),
        })
    }

    /// The version that was applied, as this program's rulebook has it.
    fn ruling(&self, applied: &RulingRef) -> Ruling {
        let rule = say::rule(&applied.rule, applied.version);
        let known = shop::locomotive::rule(self.book, self.rules, &applied.rule).ok();
        let version = known.and_then(|r| r.versions.iter().find(|v| v.number == applied.version));
        match (known, version) {
            (Some(known), Some(version)) => Ruling {
                title: known.title.clone(),
                says: said(&version.body),
                rule,
                section: version.cite.to_string(),
                mark: say::mark(&version.mark, &self.checked(applied)),
            },
            _ => Ruling {
                title: applied.rule.clone(),
                says: String::new(),
                rule,
                section: String::new(),
                mark: say::mark(say::NOT_ON_FILE, &self.checked(applied)),
            },
        }
    }

    /// What this shop's people made of the version when they held it against the official text.
    fn checked(&self, applied: &RulingRef) -> String {
        let stands = checking_of(self.book, self.rules, &applied.rule, applied.version);
        standing(self.book, &stands)
    }

    pub(super) fn decision(&self) -> Vec<Fact> {
        let Some(it) = &self.finding.decision else {
            return Vec::new();
        };
        let route = self.family.routes.iter().find(|r| r.word == it.route);
        let route = route.map_or(it.route.as_str(), |r| r.title.as_str());
        let mut facts = vec![
            Fact::of(say::ROUTE, route),
            Fact::of(say::SIGNED, say::when_by(it.on, self.name(it.by))),
            Fact::of(say::BECAUSE, &it.because),
        ];
        if let Some(day) = it.recheck {
            facts.push(Fact::of(say::LOOK_AGAIN, words::day(day)));
        }
        facts
    }

    /// What lies on a shelf for this part.
    fn shelf(&self) -> Vec<Shelved> {
        let of_it = |tool: &&shop::book::Tooling| {
            tool.out.is_none() && tool.serves().any(|part| part == self.finding.part)
        };
        let mut tools: Vec<_> = self.book.tooling.values().filter(of_it).collect();
        tools.sort_by_key(|tool| tool.number);
        let shelved = tools.iter().map(|tool| Shelved {
            number: tag::tool(tool.number),
            what: tool.what.clone(),
            shelf: tool.shelf.clone(),
        });
        shelved.collect()
    }

    pub(super) fn features(&self) -> Vec<Feature> {
        let at = |readings: &[FeatureReading], feature: &str, place: &str| {
            readings
                .iter()
                .rev()
                .find(|r| r.feature == feature && r.reading.position == place)
                .map(|r| r.reading.written())
        };
        // A clearance has a box only where it was read on the pair.
        let read = |name: &str| {
            let mut all = self.finding.readings.iter().chain(&self.job.left);
            all.any(|r| r.feature == name)
        };
        let pairs = self.family.pairs.iter().filter(|pair| read(&pair.name));
        let features = self.family.features.iter().chain(pairs);
        let features = features.map(|feature| Feature {
            title: words::sentence(&feature.title),
            how: feature.how.clone(),
            taken: self.taken(&feature.name),
            places: feature
                .positions
                .iter()
                .map(|place| Place {
                    place: place.clone(),
                    found: at(&self.finding.readings, &feature.name, place),
                    left: at(&self.job.left, &feature.name, place),
                })
                .collect(),
        });
        features.collect()
    }

    /// With what and by whom a feature was read, before and after.
    fn taken(&self, feature: &str) -> Vec<String> {
        let of_state = |readings: &[FeatureReading], state| {
            let of_it = || readings.iter().filter(|r| r.feature == feature);
            let with: BTreeSet<_> = of_it()
                .filter_map(|r| r.reading.instrument.as_deref())
                .collect();
            let by: BTreeSet<_> = of_it().map(|r| r.reading.measured_by.as_str()).collect();
            let (with, by): (Vec<_>, Vec<_>) =
                (with.into_iter().collect(), by.into_iter().collect());
            let told = say::taken(&with.join(", "), &by.join(", "));
            (!by.is_empty()).then(|| format!("{}: {told}", words::state(state)))
        };
        let found = of_state(&self.finding.readings, measure::State::AsFound);
        let left = of_state(&self.job.left, measure::State::AsLeft);
        found.into_iter().chain(left).collect()
    }

    pub(super) fn operations(&self) -> Vec<Operation> {
        let steps = self.job.plan.operations.iter().zip(&self.job.operations);
        let steps = steps.map(|(plan, state)| {
            let [low, likely, high] = plan.hours.map(|hours| hours.to_string());
            Operation {
                what: plan.what.clone(),
                place: plan.place.clone(),
                engine: plan.engine.clone(),
                likely,
                range: say::range(&low, &high),
                done: state.done.as_ref().map(|(on, by, hours, told)| Done {
                    by: self.name(*by).into(),
                    on: words::day(*on),
                    hours: hours.map(|h| h.to_string()),
                    told: told.clone(),
                }),
                hold: plan.hold.as_ref().map(|hold| Hold {
                    look: hold.look.clone(),
                    who: hold.by.signer().into(),
                    cleared: state.cleared.as_ref().map(|(on, by, seen)| {
                        let paper = state.cleared_on_paper.as_ref();
                        let paper = paper.map_or(String::new(), |p| {
                            format!(" ({})", words::job::on_paper(p).trim())
                        });
                        self.seen(*by, *on, &format!("{seen}{paper}"))
                    }),
                }),
            }
        });
        steps.collect()
    }

    /// Each proof as it stands, after the trials of it that came before.
    pub(super) fn proofs(&self) -> Vec<Answered> {
        let answer = |passed| match passed {
            true => words::job::HELD.to_owned(),
            false => words::job::DID_NOT_HOLD.to_owned(),
        };
        let mut all = Vec::new();
        for word in &self.job.plan.proofs {
            let trials = self.job.earlier.iter().filter(|t| t.proof == *word);
            all.extend(trials.map(|trial| Answered {
                word: word.clone(),
                asks: words::job::EARLIER_TRIAL.into(),
                answer: answer(trial.passed),
                seen: Some(self.seen(trial.by, trial.on, &trial.told)),
            }));
            let known = self.family.proofs.iter().find(|p| p.word == *word);
            let made = self.job.proofs.get(word);
            all.push(Answered {
                word: word.clone(),
                asks: known.map_or(String::new(), |p| format!("{}: {}", p.title, p.how)),
                answer: made.map_or(String::new(), |(passed, ..)| answer(*passed)),
                seen: made.map(|(_, told, by, on)| self.seen(*by, *on, told)),
            });
        }
        all
    }

    fn knock_ons(&self) -> Vec<Answered> {
        let all = self.job.plan.knock_ons.iter().map(|word| {
            let known = self.family.knock_ons.iter().find(|k| k.word == *word);
            let seen = self.job.knock_ons.get(word);
            Answered {
                word: word.clone(),
                asks: known.map_or(String::new(), |k| k.title.clone()),
                answer: String::new(),
                seen: seen.map(|(told, by, on)| self.seen(*by, *on, told)),
            }
        });
        all.collect()
    }

    pub(super) fn signatures(&self) -> Vec<Signature> {
        let all = Authority::ALL.iter().map(|capacity| {
            let given = self.job.signatures.iter().find(|s| s.capacity == *capacity);
            Signature {
                capacity: capacity.signer().into(),
                name: given.map(|s| self.name(s.by).into()),
                on: given.map(|s| words::day(s.on)),
            }
        });
        all.collect()
    }

    /// The drawings of these of the job's sheets. A sheet is kept as text, so what is drawn comes from the finding worked
    /// again; one that would read differently now is not drawn.
    fn pictures(
        &self,
        tag: &str,
        shop: Option<String>,
        on: jiff::civil::Date,
        house: House,
        wanted: &[PrintedSheet],
    ) -> Result<Vec<Picture>, Failure> {
        let title = Title {
            shop,
            part: Some(self.part.name.clone()),
            number: Some(tag.into()),
            as_of: Some(on.to_string()),
            ..Title::default()
        };
        let day = self.finding.found_on;
        let now = routes(self.book, self.rules, self.finding, day, house)?.sheets;
        let kept = |sheet: &&physics::Sheet| {
            let mut same = wanted.iter().filter(|one| one.sheet == sheet.card.id);
            same.any(|one| one.text == sheet.to_text())
        };
        let drawings = now
            .iter()
            .filter(kept)
            .flat_map(|sheet| drawn::of_sheet(sheet, &title));
        Ok(drawings.collect())
    }
}
