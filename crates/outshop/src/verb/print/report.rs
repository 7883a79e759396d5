//! The report of an inspection: what was answered, what became of the defects, what the law's papers ask of it, and
//! what is missing.

use std::collections::BTreeSet;

use jiff::civil::Date;
use paper::{Block, Fact, Form, FormPart};
use rules::{Body, Rulebook, Ruling, Side, words as rulewords};
use shop::book::{
    Answer, Authority, Book, Finding, FindingState, Inspection, InspectionId, Job, Locomotive,
    LocomotiveId, Occasion, PaperAbout, PersonId,
};
use shop::clock::{Paper, due, filings_of, keeping_of, span_of};
use shop::inspection::unmet;
use shop::locomotive::{Law, family, inspection};

use super::about;
use super::fields::{Field, Held, REPORTS, Report, SIGNERS};
use super::held::Figures;
use super::particulars::{Particulars, means};
use super::worksheet::{facts, meaning, room, strings};
use crate::verb::name;
use crate::words::{self, paper as say, tag};
use crate::{Context, Failure};

/// Inspections of one day, whose report speaks of the whole day (49 CFR 229.21(a) and 230.13(c)).
const DAILIES: &[&str] = &["daily", "qualified-daily"];

/// What a report is filled from.
struct Filling<'b> {
    book: &'b Book,
    rules: &'static Rulebook,
    id: InspectionId,
    kept: &'b Inspection,
    engine: &'b Locomotive,
    on: Date,
}

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = inspection(&book, number)?;
    let engine = book
        .locomotives
        .get(&kept.locomotive)
        .ok_or_else(|| Failure::Machine(format!("The engine of {number} is not there.")))?;
    let it = Filling {
        book: &book,
        rules,
        id,
        kept,
        engine,
        on,
    };
    let tag = tag::inspection(kept.number);
    let title = say::report_title(&tag, &kept.kind);
    let about = about(
        context,
        &tag,
        format!("{title}, {}", words::engine(&engine.number)),
    )?;
    let day = it.day();
    let law = it.law();
    let known = law.inspections(day)?;
    let means = meaning(&known, &kept.kind);
    let asked: Vec<Ruling> = kept
        .items
        .iter()
        .filter_map(|item| law.ruling(&item.rule, day).ok())
        .collect();
    let kind = Fact::of(say::KIND, say::kind(&kept.kind, means));
    let mut all = facts(&law, engine, Some(kind), &asked, day)?;
    all.extend(it.days());
    let mut figures = Figures::of(&book, rules);
    for item in &kept.items {
        figures.add_version(&item.rule, item.version);
    }
    let mut parts = vec![it.missing()?, it.answers(), it.defects()?];
    parts.extend(it.reports(&mut figures)?);
    parts.push(it.signed());
    parts.push(it.deadlines(&mut figures)?);
    parts.push(it.keeping(&mut figures)?);
    parts.extend(figures.part());
    Ok(Form {
        close: false,
        about,
        over: say::REPORT.into(),
        title,
        under: Some(words::engine(&engine.number)),
        shout: kept
            .not_completed
            .is_some()
            .then(|| say::NOT_COMPLETED.into()),
        facts: all,
        governs: figures.governs(),
        careful: say::CAUTIONS.into(),
        cautions: Vec::new(),
        parts,
    })
}

/// A part with a note under its heading.
pub(super) fn noted(title: &str, note: String, blocks: Vec<Block>) -> FormPart {
    FormPart {
        note: Some(note),
        ..FormPart::of(title, blocks)
    }
}

pub(super) fn points(all: Vec<String>) -> Block {
    Block::Points { all }
}

impl Filling<'_> {
    fn law(&self) -> Law<'_> {
        Law::of(self.book, self.rules, self.engine)
    }

    fn name(&self, id: PersonId) -> &str {
        name(self.book, id)
    }

    /// The day for which the rules are read: that of its close, else of its opening.
    fn day(&self) -> Date {
        self.kept.ended_on().unwrap_or(self.kept.opened_on)
    }

    fn days(&self) -> Vec<Fact> {
        let kept = self.kept;
        let opened = say::by(kept.opened_on, self.name(kept.opened_by));
        let closed = match (kept.closed, &kept.not_completed) {
            (Some((day, by)), _) => say::by(day, self.name(by)),
            (None, Some(_)) => words::inspection::not_completed(self.book, kept),
            (None, None) => say::OPEN.into(),
        };
        let mut all = vec![Fact::of(say::OPENED, opened), Fact::of(say::CLOSED, closed)];
        let from = match (&kept.anchor, span_of(kept)) {
            (Some(told), _) => Some(say::run_from(told.day, &told.reading, self.name(told.by))),
            (None, Some((first, last))) if first < last => Some(say::no_anchor(first, last)),
            (None, Some((_, day))) => Some(say::run_from_its_day(day)),
            (None, None) => None,
        };
        all.extend(from.map(|said| Fact::of(say::CLOCKS_FROM, said)));
        all
    }

    /// What is missing: items, open findings, the signature, the day the clocks run from, what nobody stated.
    fn missing(&self) -> Result<FormPart, Failure> {
        let mut all = Vec::new();
        if self.kept.closed.is_none() {
            all.push(if self.kept.is_open() {
                say::still_open(&tag::inspection(self.kept.number))
            } else {
                words::inspection::not_completed(self.book, self.kept)
            });
            let lines = unmet(self.book, self.kept);
            all.extend(lines.iter().map(|line| words::sentence(line)));
        } else if self.kept.anchor.is_none()
            && let Some((first, last)) = span_of(self.kept)
            && first < last
        {
            all.push(words::sentence(&say::no_anchor(first, last)));
        }
        let unstated = self.unstated()?;
        if !unstated.is_empty() {
            all.push(say::unstated(&unstated));
        }
        if all.is_empty() {
            all.push(say::NOTHING_MISSING.into());
        }
        Ok(FormPart::of(say::MISSING, vec![points(all)]))
    }

    /// What the shop says of itself or of her on the day of the report.
    fn particulars(&self) -> Particulars<'_> {
        Particulars::of(self.book, self.engine, self.day())
    }

    /// Where it was made: as said when it was closed, else where she is kept up.
    fn place(&self) -> Option<&str> {
        let made = self.kept.made.as_ref();
        let said = made.and_then(|made| made.place.as_deref());
        said.or_else(|| self.particulars().said("place"))
    }

    fn time(&self) -> Option<String> {
        let at = self.kept.made.as_ref().and_then(|made| made.at);
        at.map(|at| at.strftime("%H:%M").to_string())
    }

    /// The reports this inspection belongs on.
    fn belongs_on(&self) -> Result<Vec<&'static Report>, Failure> {
        let law = self.law();
        let sets = law.sets(self.day())?;
        let mut all: Vec<&Report> = REPORTS.iter().collect();
        all.retain(|report| {
            let bound = sets.iter().any(|bound| bound.set == report.set());
            bound && report.kinds.contains(&self.kept.kind.as_str())
        });
        Ok(all)
    }

    /// What those reports ask of the shop and nobody has stated, by its meaning.
    fn unstated(&self) -> Result<Vec<&'static str>, Failure> {
        let particulars = self.particulars();
        let mut all = BTreeSet::new();
        for field in self.belongs_on()?.iter().flat_map(|report| report.fields) {
            match field.held {
                Held::Stated(words) => {
                    all.extend(words.iter().filter(|word| particulars.said(word).is_none()));
                }
                Held::Engine if particulars.said("initials").is_none() => {
                    all.insert(&"initials");
                }
                Held::Made => {
                    if self.place().is_none() {
                        all.insert(&"place");
                    }
                    if self.time().is_none() {
                        all.insert(&say::TIME_OF_DAY);
                    }
                }
                _ => {}
            }
        }
        Ok(all.into_iter().map(|word| means(word)).collect())
    }

    fn answer(&self, rule: &str) -> String {
        let Some(given) = self.kept.answers.get(rule) else {
            return say::UNANSWERED.into();
        };
        match &given.answer {
            Answer::Good | Answer::NotFitted => words::inspection::answer(given).into(),
            Answer::Defect { finding } => {
                let number = self.book.findings.get(finding).map_or(0, |f| f.number);
                say::defect(&tag::finding(number))
            }
        }
    }

    fn answers(&self) -> FormPart {
        let rows = self.kept.items.iter().enumerate().map(|(at, item)| {
            let given = self.kept.answers.get(&item.rule);
            let seen = given.map(|g| say::seen(&g.seen, self.name(g.by), g.on));
            vec![
                Some(format!("{}  {}", at + 1, item.text)),
                Some(item.section.clone()),
                Some(self.answer(&item.rule)),
                seen,
            ]
        });
        let table = Block::Table {
            shares: vec![10, 3, 5, 10],
            heads: strings(say::ANSWER_HEADS),
            rows: rows.collect(),
        };
        FormPart::of(say::ANSWERS, vec![table])
    }

    /// Findings that an answer names, or that were recorded at this inspection.
    fn found(&self) -> Vec<&Finding> {
        let named: BTreeSet<_> = self
            .kept
            .answers
            .values()
            .filter_map(|given| match &given.answer {
                Answer::Defect { finding } => Some(*finding),
                _ => None,
            })
            .collect();
        let here = Occasion::Inspection {
            inspection: self.id,
        };
        let hangs =
            |(id, f): &(&shop::book::FindingId, &Finding)| named.contains(id) || f.occasion == here;
        let all = self.book.findings.iter().filter(hangs);
        let mut all: Vec<_> = all.map(|(_, f)| f).collect();
        all.sort_by_key(|f| f.number);
        all
    }

    /// At a daily, the other findings of the day: the law's report of it asks for them too.
    fn of_the_day(&self) -> Vec<&Finding> {
        if !DAILIES.contains(&self.kept.kind.as_str()) {
            return Vec::new();
        }
        let here = self.found();
        let days = self.kept.opened_on..=self.day();
        let mut all: Vec<_> = self
            .book
            .findings
            .values()
            .filter(|f| f.locomotive == self.kept.locomotive && days.contains(&f.found_on))
            .filter(|f| here.iter().all(|known| known.number != f.number))
            .collect();
        all.sort_by_key(|f| f.number);
        all
    }

    /// What crews wrote up on the day, and what was seen when somebody looked.
    fn written_up(&self) -> Vec<String> {
        let days = self.kept.opened_on..=self.day();
        let reports = self.book.reports.values();
        let reports =
            reports.filter(|r| r.locomotive == self.kept.locomotive && days.contains(&r.on));
        let mut all: Vec<_> = reports.flat_map(|r| &r.symptoms).collect();
        all.sort_by_key(|told| told.number);
        let said = all.iter().map(|told| {
            let looked = told
                .looked
                .as_ref()
                .map_or(say::NOT_LOOKED_AT.into(), |it| {
                    say::seen(&it.seen, self.name(it.by), it.on)
                });
            say::written_up(
                told.number,
                &told.symptom.place,
                &told.symptom.what,
                &looked,
            )
        });
        said.collect()
    }

    fn defects(&self) -> Result<FormPart, Failure> {
        let mut rows = Vec::new();
        for finding in self.found().into_iter().chain(self.of_the_day()) {
            let part = self.book.parts.get(&finding.part);
            let title = part.map_or("?", |p| p.name.as_str());
            let found = say::found(title, finding.found_on, self.name(finding.found_by));
            let became = self.became(finding)?;
            rows.push(vec![
                Some(tag::finding(finding.number)),
                Some(format!("{found}\n{}", finding.told)),
                Some(became.join("\n")),
            ]);
        }
        let block = if rows.is_empty() {
            points(strings(&[say::NO_DEFECTS]))
        } else {
            Block::Table {
                shares: vec![2, 9, 11],
                heads: strings(say::FINDING_HEADS),
                rows,
            }
        };
        Ok(FormPart::of(say::DEFECTS, vec![block]))
    }

    /// What became of a finding: the decision, who worked, who signed.
    fn became(&self, finding: &Finding) -> Result<Vec<String>, Failure> {
        let mut all = vec![words::finding::state(finding.state).to_owned()];
        if let Some(taken) = &finding.decision {
            let part = self.book.parts.get(&finding.part);
            let family = part.map(|p| family(self.book, &p.family)).transpose()?;
            let route = family
                .iter()
                .flat_map(|f| f.routes.iter())
                .find(|r| r.word == taken.route);
            let route = route.map_or(taken.route.as_str(), |r| r.title.as_str());
            all.push(say::decided(
                route,
                taken.on,
                self.name(taken.by),
                &taken.because,
            ));
        }
        let job = finding.job.and_then(|id| self.book.jobs.get(&id));
        if let Some(job) = job {
            all.extend(self.repair(job));
        }
        Ok(all)
    }

    fn repair(&self, job: &Job) -> Vec<String> {
        let mut all = vec![say::job(&tag::job(job.number), &job.plan.title)];
        let names: BTreeSet<&str> = job
            .operations
            .iter()
            .filter_map(|step| step.done.as_ref())
            .map(|(_, by, ..)| self.name(*by))
            .collect();
        if !names.is_empty() {
            let names: Vec<_> = names.into_iter().collect();
            all.push(say::worked(&names));
        }
        for capacity in Authority::ALL {
            let given = job.signatures.iter().find(|s| s.capacity == capacity);
            all.push(match given {
                Some(s) => say::signature(capacity.signer(), self.name(s.by), s.on),
                None => say::no_signature(capacity.signer()),
            });
        }
        all.extend(
            job.closed
                .as_ref()
                .map(|(day, by, _)| say::job_closed(*day, self.name(*by))),
        );
        all
    }

    /// Each of the law's reports that this inspection belongs on, field by field, with room for who signs it.
    fn reports(&self, figures: &mut Figures<'_>) -> Result<Vec<FormPart>, Failure> {
        let mut parts = Vec::new();
        let (law, kind) = (self.law(), self.kept.kind.as_str());
        for report in self.belongs_on()? {
            let ruling = law.ruling(report.rule, self.day())?;
            figures.add(&ruling);
            let mut rows = Vec::new();
            for field in report.fields {
                rows.push(vec![
                    Some(words::sentence(field.line)),
                    Some(field.section.to_owned()),
                    self.field(report.set(), field)?,
                ]);
            }
            let mut blocks = vec![Block::Table {
                shares: vec![10, 4, 12],
                heads: strings(say::FIELD_HEADS),
                rows,
            }];
            let signers = match &ruling.body {
                Body::Filing(it) if !it.signed_by.is_empty() => it.signed_by.clone(),
                _ => SIGNERS
                    .iter()
                    .filter(|(rule, _)| *rule == report.rule)
                    .flat_map(|(_, all)| strings(all))
                    .collect(),
            };
            if !signers.is_empty() {
                blocks.push(Block::Room {
                    rows: signers
                        .into_iter()
                        .map(|who| vec![who, say::SIGNED_ON.into()])
                        .collect(),
                    high: 13,
                });
            }
            let mut note = say::read_as(&ruling.reading, &ruling.cite.to_string(), &ruling.mark);
            if !report.own.contains(&kind) {
                note = say::contained(&self.kept.kind, &note);
            }
            parts.push(noted(&ruling.title, note, blocks));
        }
        // A set that the shop wrote may ask for papers of its own: what they must hold, with room for it.
        for ruling in law.in_force(self.day())? {
            let Body::Filing(filing) = &ruling.body else {
                continue;
            };
            let known = REPORTS.iter().any(|report| report.rule == ruling.rule);
            let about = filing.when.before_or_after == Side::After
                && filing.inspections.iter().any(|own| own == kind);
            if known || !about || filing.contents.is_empty() {
                continue;
            }
            figures.add(&ruling);
            let rows = filing.contents.iter().map(|line| {
                let section = ruling.cite.section.clone();
                vec![Some(words::sentence(line)), Some(section), None]
            });
            let note = say::read_as(&ruling.reading, &ruling.cite.to_string(), &ruling.mark);
            let table = Block::Table {
                shares: vec![10, 4, 12],
                heads: strings(say::FIELD_HEADS),
                rows: rows.collect(),
            };
            parts.push(noted(&ruling.title, note, vec![table]));
        }
        Ok(parts)
    }

    /// What the book says of a field; nothing where there is room for a pen.
    fn field(&self, set: &str, field: &Field) -> Result<Option<String>, Failure> {
        Ok(match field.held {
            Held::Pen => None,
            Held::NotRead => Some(say::NOT_READ.into()),
            Held::Engine => Some(self.particulars().number()),
            Held::Days => Some(self.dates()),
            Held::Made => Some(say::made(
                self.place(),
                &self.dates(),
                self.time().as_deref(),
            )),
            Held::Stated(words) => Some(self.particulars().lines(words)),
            Held::Items(ends) => Some(self.items(set, ends)),
            Held::Found => Some(self.listed(self.found(), Vec::new())),
            Held::PutRight => {
                let closed = |f: &&Finding| f.state == FindingState::Closed;
                let mended = self.found().into_iter().filter(closed);
                let all = mended.chain(self.of_the_day()).collect();
                Some(self.listed(all, self.written_up()))
            }
            Held::Last(kind) => self.last(kind)?,
        })
    }

    fn dates(&self) -> String {
        let first = self.kept.answers.values().map(|given| given.on).min();
        let first = first
            .unwrap_or(self.kept.opened_on)
            .min(self.kept.opened_on);
        say::dates(first, self.kept.closed.map(|(day, _)| day))
    }

    /// The answers to items, by number; where the inspection asks none of them it says so.
    fn items(&self, set: &str, ends: &[&str]) -> String {
        let mut all = Vec::new();
        for end in ends {
            let rule = format!("{set}.{end}");
            let at = self.kept.items.iter().position(|item| item.rule == rule);
            if let Some(at) = at {
                all.push(say::item(at + 1, &self.answer(&rule)));
            }
        }
        if all.is_empty() {
            return say::NOT_ASKED.into();
        }
        all.join("\n")
    }

    /// Findings with how far each has come, and what else there is to list.
    fn listed(&self, findings: Vec<&Finding>, more: Vec<String>) -> String {
        let mut all: Vec<_> = findings
            .into_iter()
            .map(|f| {
                let state = words::finding::state(f.state);
                say::told(&tag::finding(f.number), &f.told, state)
            })
            .collect();
        all.extend(more);
        if all.is_empty() {
            return say::NONE_IN_BOOK.into();
        }
        all.join("\n")
    }

    /// The last inspection of a kind, or a larger one, before this was opened.
    fn last(&self, kind: &str) -> Result<Option<String>, Failure> {
        let before = self
            .kept
            .opened_on
            .yesterday()
            .unwrap_or(self.kept.opened_on);
        let clocks = due(self.book, self.rules, self.kept.locomotive, before)?;
        let clock = clocks.into_iter().find(|clock| clock.inspection == kind);
        let anchor = clock.and_then(|clock| clock.anchor);
        Ok(anchor.map(|anchor| say::last(&anchor.kind, anchor.on)))
    }

    /// Who signed it in the book, and room for pens.
    fn signed(&self) -> FormPart {
        let inspector = match self.kept.closed {
            Some((day, by)) => say::signature(Authority::Inspect.signer(), self.name(by), day),
            None if !self.kept.is_open() => words::inspection::not_completed(self.book, self.kept),
            None => say::no_signature(Authority::Inspect.signer()),
        };
        FormPart::on_one_page(
            say::SIGNED,
            vec![
                points(vec![say::in_book(&inspector)]),
                room(say::REPORT_SIGNERS, 14),
            ],
        )
    }

    /// Where its papers go, by when, and what has gone.
    fn deadlines(&self, figures: &mut Figures<'_>) -> Result<FormPart, Failure> {
        let about = PaperAbout::Inspection {
            inspection: self.id,
        };
        let engine = self.kept.locomotive;
        let clocks = due(self.book, self.rules, engine, self.on)?;
        let papers = filings_of(self.book, self.rules, engine, &clocks, self.on)?;
        let ours = papers
            .into_iter()
            .filter(|p| p.about.as_ref() == Some(&about));
        let block = goes(ours, figures);
        Ok(FormPart::of(say::DEADLINES, vec![block]))
    }

    fn keeping(&self, figures: &mut Figures<'_>) -> Result<FormPart, Failure> {
        let named = |what: &str| {
            let rules = REPORTS
                .iter()
                .filter(|r| r.kinds.contains(&self.kept.kind.as_str()));
            let mut all = rules.filter_map(|r| self.law().ruling(r.rule, self.day()).ok());
            all.any(|ruling| match &ruling.body {
                Body::Filing(it) => speaks_of(&it.what, what),
                Body::Retention(it) => it.what == what,
                _ => false,
            })
        };
        let (book, rules, engine) = (self.book, self.rules, self.kept.locomotive);
        kept_how_long(book, rules, engine, self.on, named, figures)
    }
}

/// Papers with where each goes, how it stands and by which section.
pub(super) fn goes(papers: impl IntoIterator<Item = Paper>, figures: &mut Figures<'_>) -> Block {
    let rows: Vec<_> = papers
        .into_iter()
        .map(|paper| {
            figures.add(&paper.ruling);
            vec![
                Some(paper.what.clone()),
                Some(recipients(&paper.to)),
                Some(paper.why.clone()),
                Some(paper.ruling.cite.section.clone()),
            ]
        })
        .collect();
    if rows.is_empty() {
        return points(strings(&[say::NO_DEADLINE]));
    }
    Block::Table {
        shares: vec![5, 8, 12, 3],
        heads: strings(say::DEADLINE_HEADS),
        rows,
    }
}

/// Where a paper goes, in words.
pub(super) fn recipients(all: &[String]) -> String {
    let all = all.iter();
    let all = all.map(|word| rulewords::meaning(rulewords::RECIPIENTS, word).unwrap_or(word));
    all.collect::<Vec<_>>().join("; ")
}

/// How long papers of this name are kept of an engine.
///
/// # Errors
/// Input: as [`keeping`].
pub(super) fn kept_how_long(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    named: impl Fn(&str) -> bool,
    figures: &mut Figures<'_>,
) -> Result<FormPart, Failure> {
    let all = keeping_of(book, rules, engine, on)?;
    let hers = all.into_iter().filter(|it| named(&it.what));
    let hers = hers.map(|it| {
        figures.add(&it.ruling);
        say::kept(&it.why, &it.ruling.cite.section)
    });
    Ok(FormPart::of(say::KEPT, vec![points(hers.collect())]))
}

/// Whether a paper's name speaks of another: `Forms 3 and 4` of `Form 4`, but not `Form 1` of `Form 19`.
pub(super) fn speaks_of(paper: &str, one: &str) -> bool {
    let numbers = |text: &str| -> BTreeSet<String> {
        text.split(|c: char| !c.is_ascii_alphanumeric())
            .filter(|word| word.starts_with(|c: char| c.is_ascii_digit()))
            .map(str::to_owned)
            .collect()
    };
    let (all, wanted) = (numbers(paper), numbers(one));
    paper == one || (!wanted.is_empty() && wanted.is_subset(&all))
}
