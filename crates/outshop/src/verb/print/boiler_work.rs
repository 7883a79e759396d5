//! The report of work on a boiler (49 CFR 230.20): an alteration, or a welded or riveted repair, described from its job.
//!
//! Which of them a job was, nobody but a qualified person can say: it is told when the report is printed, and the paper
//! says that it was told.

use jiff::civil::Date;
use paper::{Block, Fact, Form, FormPart};
use rules::{Body, Filing, Rulebook, Ruling};
use shop::book::{Book, Locomotive, LocomotiveId, PaperAbout};
use shop::clock::{due, filings_of};
use shop::locomotive::{Law, engine_of};

use super::about;
use super::held::Figures;
use super::job::Filling;
use super::particulars::Particulars;
use super::report::{goes, kept_how_long, noted, points, recipients, speaks_of};
use super::worksheet::{code, facts, room, strings};
use crate::words::{self, paper as papers, tag, yearly as say};
use crate::{Context, Failure};

/// What the report needs the shop to have said (words of `record::PARTICULARS`).
const STATED: &[&str] = &["owner", "operator", "initials", "boiler-number"];

/// The approvals the law may ask before such work, by rule.
pub(super) const APPROVALS: &[&str] = &[
    "us-steam.approval.unstayed-weld",
    "us-steam.approval.weld-buildup",
    "us-steam.approval.flush-patch",
    "us-steam.approval.unstayed-rivet-alteration",
];

/// What such an event is called in the rulebook's list, past the word of the work.
const COMPLETED: &str = "-completed";

struct Work<'b> {
    book: &'b Book,
    rules: &'static Rulebook,
    id: LocomotiveId,
    engine: &'b Locomotive,
    job: Filling<'b>,
    ruling: Ruling,
    filing: Filing,
    on: Date,
}

pub(super) fn paper(context: &mut Context, number: &str, kind: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let job = Filling::of(&book, rules, number)?;
    let id = job.job.locomotive;
    let engine = engine_of(&book, id)?;
    let law = Law::of(&book, rules, engine);
    let kind = kind.trim();
    let day = job.job.closed.as_ref().map_or(on, |(day, ..)| *day);
    let (ruling, filing) = asked(&law, kind, day)?;
    let it = Work {
        book: &book,
        rules,
        id,
        engine,
        job,
        ruling,
        filing,
        on,
    };
    let tag = tag::job(it.job.job.number);
    let title = say::work_title(&tag, kind);
    let about = about(
        context,
        &code(&tag),
        format!("{title}, {}", words::engine(&engine.number)),
    )?;
    let of = Fact::of(say::IT_WAS, say::said_to_be(kind));
    let ruling = std::slice::from_ref(&it.ruling);
    let mut heads = facts(&law, engine, Some(of), ruling, on)?;
    heads.extend(it.heads());
    let mut figures = Figures::of(&book, rules);
    figures.add(&it.ruling);
    let mut parts = vec![it.missing()?, it.described(), it.done(), it.readings()];
    parts.push(it.proofs());
    parts.push(FormPart::on_one_page(
        say::BY_HAND,
        vec![room(say::HAND_BOXES, 12)],
    ));
    // What is only described afterward had no approval to ask: the text names them for unstayed areas and alterations.
    if it.filing.when.of != "stayed-repair-completed" {
        parts.push(it.beforehand(&law, day, &mut figures)?);
    }
    parts.push(it.signed());
    parts.push(it.deadline(&mut figures)?);
    let named = |what: &str| speaks_of(&it.filing.what, what);
    parts.push(kept_how_long(&book, rules, id, on, named, &mut figures)?);
    parts.extend(figures.part());
    Ok(Form {
        close: false,
        about,
        over: say::WORK.into(),
        title,
        under: Some(format!(
            "{}, {}",
            words::engine(&engine.number),
            it.job.part.name
        )),
        shout: it
            .job
            .job
            .closed
            .is_none()
            .then(|| papers::NOT_COMPLETED.into()),
        facts: heads,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: Vec::new(),
        parts,
    })
}

/// The kinds of such work that the law wants reported.
///
/// # Errors
/// As [`Law::in_force`].
pub(super) fn kinds(law: &Law<'_>, on: Date) -> Result<Vec<String>, Failure> {
    let all = law.in_force(on)?.into_iter();
    let words = all.filter_map(|ruling| match ruling.body {
        Body::Filing(it) => it.when.of.strip_suffix(COMPLETED).map(str::to_owned),
        _ => None,
    });
    let mut words: Vec<_> = words.collect();
    words.sort();
    words.dedup();
    Ok(words)
}

fn asked(law: &Law<'_>, kind: &str, on: Date) -> Result<(Ruling, Filing), Failure> {
    let event = format!("{kind}{COMPLETED}");
    for ruling in law.in_force(on)? {
        if let Body::Filing(filing) = &ruling.body
            && filing.when.of == event
        {
            let filing = filing.clone();
            return Ok((ruling, filing));
        }
    }
    Err(Failure::Input(say::no_such_work(kind, &kinds(law, on)?)))
}

impl Work<'_> {
    fn particulars(&self) -> Particulars<'_> {
        Particulars::of(self.book, self.engine, self.on)
    }

    fn closed_on(&self) -> Option<Date> {
        self.job.job.closed.as_ref().map(|(day, ..)| *day)
    }

    fn heads(&self) -> Vec<Fact> {
        let number = self.particulars().said("boiler-number");
        let closed = match &self.job.job.closed {
            Some((day, by, _)) => papers::by(*day, self.job.name(*by)),
            None => say::NOT_COMPLETED.into(),
        };
        vec![
            Fact::of(say::BOILER, number.unwrap_or(papers::NOT_STATED)),
            Fact::of(say::COMPLETED, closed),
        ]
    }

    fn missing(&self) -> Result<FormPart, Failure> {
        let mut all = Vec::new();
        let (job, house) = (self.job.job, shop::route::house(self.book));
        if job.closed.is_none() {
            let open = shop::record::unmet(self.book, self.rules, job, self.on, house)?;
            all.extend(open.iter().map(|line| words::sentence(line)));
        }
        let closed = self.closed_on();
        let event = self.filing.when.of.as_str();
        let stated = self.engine.days.iter();
        if !stated
            .clone()
            .any(|day| day.what == event && Some(day.day) == closed)
        {
            let tag = tag::job(job.number);
            all.push(say::not_stated(event, &self.engine.number, &tag, closed));
        }
        all.extend(self.particulars().unstated(STATED));
        if all.is_empty() {
            all.push(say::NOTHING_MISSING_OF_WORK.into());
        }
        Ok(FormPart::of(papers::MISSING, vec![points(all)]))
    }

    /// What was found and decided, under the words of the rule.
    fn described(&self) -> FormPart {
        let ruling = &self.ruling;
        let note = papers::read_as(&ruling.reading, &ruling.cite.to_string(), &ruling.mark);
        let mut all = self.job.found();
        all.extend(self.job.decision());
        let sizes = self.job.job.plan.sizes.iter();
        all.extend(sizes.map(|size| Fact::of(say::WORKED_TO, size)));
        noted(say::DESCRIBED, note, vec![Block::Facts { all }])
    }

    fn done(&self) -> FormPart {
        let rows = self.job.operations().into_iter().map(|step| {
            let (when, told) = step.done.map_or_else(
                || (say::NOT_DONE.to_owned(), String::new()),
                |done| (format!("{}\n{}", done.on, done.by), done.told),
            );
            vec![Some(step.what), Some(when), Some(told)]
        });
        let table = Block::Table {
            shares: vec![10, 6, 10],
            heads: strings(say::DONE_HEADS),
            rows: rows.collect(),
        };
        FormPart::of(say::DONE, vec![table])
    }

    fn readings(&self) -> FormPart {
        let mut rows = Vec::new();
        for feature in self.job.features() {
            for place in feature.places {
                rows.push(vec![
                    Some(feature.title.clone()),
                    Some(place.place),
                    place.found,
                    place.left,
                ]);
            }
        }
        let table = Block::Table {
            shares: vec![9, 7, 5, 5],
            heads: strings(say::READING_HEADS),
            rows,
        };
        FormPart::of(say::READINGS, vec![table])
    }

    fn proofs(&self) -> FormPart {
        let rows = self.job.proofs().into_iter().map(|proof| {
            let answer = match proof.answer.as_str() {
                "" => say::NO_PROOF.to_owned(),
                said => said.to_owned(),
            };
            let seen = proof
                .seen
                .map(|it| format!("{}\n{}, {}", it.told, it.by, it.on));
            vec![Some(proof.asks), Some(answer), seen]
        });
        let table = Block::Table {
            shares: vec![11, 4, 11],
            heads: strings(say::PROOF_HEADS),
            rows: rows.collect(),
        };
        FormPart::of(say::PROOFS, vec![table])
    }

    fn beforehand(
        &self,
        law: &Law<'_>,
        on: Date,
        figures: &mut Figures<'_>,
    ) -> Result<FormPart, Failure> {
        let mut rows = Vec::new();
        for ruling in law.in_force(on)? {
            if !APPROVALS.contains(&ruling.rule.as_str()) {
                continue;
            }
            figures.add(&ruling);
            rows.push(vec![
                Some(ruling.title.clone()),
                Some(ruling.reading.clone()),
                Some(ruling.cite.section.clone()),
                None,
            ]);
        }
        let table = Block::Table {
            shares: vec![6, 12, 3, 5],
            heads: strings(say::BEFOREHAND_HEADS),
            rows,
        };
        let note = say::BEFOREHAND_NOTE.into();
        Ok(noted(say::BEFOREHAND, note, vec![table]))
    }

    fn signed(&self) -> FormPart {
        let all = self.job.signatures().into_iter().map(|it| match it {
            paper::Signature {
                capacity,
                name: Some(name),
                on: Some(on),
            } => format!("{capacity}: {name}, {on}"),
            it => papers::no_signature(&it.capacity),
        });
        FormPart {
            note: Some(say::NO_SIGNER.into()),
            ..FormPart::on_one_page(
                say::IN_BOOK,
                vec![points(all.collect()), room(say::SIGNERS, 14)],
            )
        }
    }

    /// Where it goes by when: by the day of completion that was stated, else by the day the job was closed.
    fn deadline(&self, figures: &mut Figures<'_>) -> Result<FormPart, Failure> {
        let clocks = due(self.book, self.rules, self.id, self.on)?;
        let papers = filings_of(self.book, self.rules, self.id, &clocks, self.on)?;
        let closed = self.closed_on();
        let about = closed.map(|day| PaperAbout::Day { day });
        let mut ours = papers
            .into_iter()
            .filter(|it| it.ruling.rule == self.ruling.rule && it.about == about)
            .peekable();
        let block = if ours.peek().is_some() {
            goes(ours, figures)
        } else {
            let (what, to) = (&self.filing.what, recipients(&self.filing.to));
            points(vec![match (closed, self.filing.when.span) {
                (Some(day), Some(_)) => {
                    say::by_the_job(what, &to, self.filing.when.last_day(day)?, day)
                }
                _ => say::goes(what, &to),
            }])
        };
        Ok(FormPart::of(papers::DEADLINES, vec![block]))
    }
}
