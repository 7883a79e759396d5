//! The report of a year's service days (49 CFR 230.18(b)), with the log behind it and the record of 230.18(a).

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use paper::{Block, Fact, Form, FormPart};
use rules::{Body, Rulebook, Ruling};
use shop::book::{Book, DaySet, Days, Locomotive, LocomotiveId, PaperAbout};
use shop::clock::{Clock, due, filings_of, of_year, service_days};
use shop::locomotive::{Law, engine};

use super::about;
use super::held::Figures;
use super::particulars::Particulars;
use super::report::{goes, kept_how_long, noted, points, speaks_of};
use super::worksheet::{code, facts, room, strings};
use crate::words::{self, paper as papers, yearly as say};
use crate::{Context, Failure};

/// What the report needs the shop to have said of itself and of her (words of `record::PARTICULARS`).
const STATED: &[&str] = &["owner", "operator", "initials", "region"];

/// Longest list of unsettled days that is written out span by span.
const MOST_SPANS: usize = 12;

struct Year<'b> {
    book: &'b Book,
    rules: &'static Rulebook,
    id: LocomotiveId,
    kept: &'b Locomotive,
    year: i16,
    on: Date,
    ruling: Ruling,
    days: Days,
    clocks: Vec<Clock>,
}

pub(super) fn paper(context: &mut Context, number: &str, year: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = engine(&book, number)?;
    let typed = year.trim();
    let year: i16 = typed
        .parse()
        .ok()
        .filter(|year| (1900..=on.year()).contains(year))
        .ok_or_else(|| Failure::Input(say::no_such_year(typed, on.year())))?;
    let law = Law::of(&book, rules, kept);
    let ends = date(year, 12, 31).min(on);
    // A year before the rulebook begins is asked by what binds her today.
    let asked = asked(law.in_force(ends).or_else(|_| law.in_force(on))?);
    let ruling = asked.ok_or_else(|| Failure::Input(say::no_year(&kept.number)))?;
    let it = Year {
        book: &book,
        rules,
        id,
        kept,
        year,
        on,
        clocks: due(&book, rules, id, on)?,
        days: of_year(&book, id, year, on, service_days),
        ruling,
    };
    let title = say::year_title(&kept.number, year);
    let about = about(
        context,
        &code(&format!("{}-{year}", kept.number)),
        title.clone(),
    )?;
    let of = Fact::of(say::OF_YEAR, year.to_string());
    let ruling = std::slice::from_ref(&it.ruling);
    let heads = facts(&law, kept, Some(of), ruling, on)?;
    let mut figures = Figures::of(&book, rules);
    figures.add(&it.ruling);
    let mut parts = vec![
        it.missing(),
        it.asked(),
        it.months(),
        it.since(&mut figures)?,
    ];
    parts.push(FormPart {
        note: Some(say::NO_SIGNER.into()),
        ..FormPart::on_one_page(papers::SIGNED, vec![room(say::SIGNERS, 14)])
    });
    parts.push(it.deadline(&mut figures)?);
    let named = |what: &str| matches!(&it.ruling.body, Body::Filing(f) if speaks_of(&f.what, what));
    parts.push(kept_how_long(&book, rules, id, on, named, &mut figures)?);
    parts.extend(figures.part());
    Ok(Form {
        close: false,
        about,
        over: say::YEAR.into(),
        title,
        under: None,
        shout: None,
        facts: heads,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: Vec::new(),
        parts,
    })
}

/// The rule that asks for a report of each calendar year, if one does.
pub(super) fn asked(rulings: Vec<Ruling>) -> Option<Ruling> {
    let mut all = rulings.into_iter();
    all.find(|it| matches!(&it.body, Body::Filing(f) if f.when.of == "end-of-calendar-year"))
}

impl Year<'_> {
    fn particulars(&self) -> Particulars<'_> {
        Particulars::of(self.book, self.kept, self.on)
    }

    fn perhaps(&self) -> DaySet {
        self.days.most.without(&self.days.least)
    }

    fn missing(&self) -> FormPart {
        let mut all = Vec::new();
        if date(self.year, 12, 31) > self.on {
            all.push(say::runs(self.on));
        }
        let perhaps = self.perhaps();
        if !perhaps.is_empty() {
            let which = spans(&perhaps);
            all.push(say::unsettled(perhaps.len(), &which, self.kept.log_through));
        }
        all.extend(self.particulars().unstated(STATED));
        if all.is_empty() {
            all.push(say::NOTHING_MISSING.into());
        }
        FormPart::of(papers::MISSING, vec![points(all)])
    }

    /// Field by field what the rule asks.
    fn asked(&self) -> FormPart {
        let section = || Some(self.ruling.cite.section.clone());
        let particulars = self.particulars();
        let owners = particulars.lines(&["owner", "operator"]);
        let count = say::how_many(self.days.least.len(), self.days.most.len());
        let number = particulars.number();
        let contents = match &self.ruling.body {
            Body::Filing(filing) => filing.contents.as_slice(),
            _ => &[],
        };
        let mut rows = vec![
            vec![Some(say::NUMBER.into()), section(), Some(number)],
            vec![Some(say::OWNERS.into()), section(), Some(owners)],
        ];
        rows.extend(
            contents
                .iter()
                .map(|line| vec![Some(words::sentence(line)), section(), Some(count.clone())]),
        );
        rows.push(vec![
            Some(say::OTHERS.into()),
            section(),
            Some(papers::NOT_READ.into()),
        ]);
        let ruling = &self.ruling;
        let note = papers::read_as(&ruling.reading, &ruling.cite.to_string(), &ruling.mark);
        let table = Block::Table {
            shares: vec![10, 4, 12],
            heads: strings(papers::FIELD_HEADS),
            rows,
        };
        noted(&ruling.title, note, vec![table])
    }

    fn months(&self) -> FormPart {
        let perhaps = self.perhaps();
        let rows = (1..=12).map(|month| {
            let first = date(self.year, month, 1);
            let of_month = |set: &DaySet| -> Vec<i8> {
                let all = set.iter().filter(|day| day.month() == month);
                all.map(Date::day).collect()
            };
            let (sure, open) = (of_month(&self.days.least), of_month(&perhaps));
            let count = match (sure.len(), open.len()) {
                (0, 0) if first > self.on => say::TO_COME.into(),
                (0, 0) => say::NONE.into(),
                (sure, 0) => sure.to_string(),
                (sure, open) => format!("{sure} to {}", sure + open),
            };
            vec![
                Some(say::month(first)),
                Some(count),
                Some(say::days_of_month(&runs(&sure), &runs(&open))),
            ]
        });
        let table = Block::Table {
            shares: vec![5, 5, 16],
            heads: strings(say::DAY_HEADS),
            rows: rows.collect(),
        };
        noted(say::DAYS, say::A_SERVICE_DAY.into(), vec![table])
    }

    /// The record that is kept up and shown on request: service days since each inspection, as of today.
    fn since(&self, figures: &mut Figures<'_>) -> Result<FormPart, Failure> {
        let mut rows = Vec::new();
        for clock in &self.clocks {
            let counts = clock.arms.iter().filter(|arm| arm.unit == "service days");
            for arm in counts {
                let counted = match arm.counted.most {
                    Some(most) if most == arm.counted.least => most.to_string(),
                    Some(most) => format!("{} to {most}", arm.counted.least),
                    None => papers::CANNOT_TELL.to_owned(),
                };
                let from = arm.anchor.as_ref().map(|anchor| anchor.on);
                rows.push(vec![
                    Some(clock.inspection.clone()),
                    Some(say::since(&counted, from)),
                    Some(arm.why.clone()),
                ]);
                figures.add(&clock.ruling);
            }
        }
        let table = Block::Table {
            shares: vec![5, 7, 14],
            heads: strings(say::SINCE_HEADS),
            rows,
        };
        let law = Law::of(self.book, self.rules, self.kept);
        let record = law
            .in_force(self.on)?
            .into_iter()
            .find(|it| it.rule.ends_with("record.service-day-count"));
        let Some(record) = record else {
            return Ok(FormPart::of(say::SINCE, vec![table]));
        };
        figures.add(&record);
        let note = papers::read_as(&record.reading, &record.cite.to_string(), &record.mark);
        Ok(noted(say::SINCE, note, vec![table]))
    }

    fn deadline(&self, figures: &mut Figures<'_>) -> Result<FormPart, Failure> {
        let day = date(self.year, 12, 31);
        let papers = filings_of(self.book, self.rules, self.id, &self.clocks, self.on)?;
        let ours = papers.into_iter().filter(|it| {
            it.ruling.rule == self.ruling.rule && it.about == Some(PaperAbout::Day { day })
        });
        Ok(FormPart::of(papers::DEADLINES, vec![goes(ours, figures)]))
    }
}

/// Days of one month as a person writes them: `2, 3, 9 to 12`.
fn runs(days: &[i8]) -> String {
    let mut all: Vec<(i8, i8)> = Vec::new();
    for day in days {
        match all.last_mut() {
            Some((_, last)) if *last + 1 == *day => *last = *day,
            _ => all.push((*day, *day)),
        }
    }
    let told = all.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first} to {last}"),
    });
    told.collect::<Vec<_>>().join(", ")
}

/// Days of a year, month by month; many of them by their first and last alone.
fn spans(days: &DaySet) -> String {
    let mut months: BTreeMap<Date, Vec<i8>> = BTreeMap::new();
    for day in days.iter() {
        let of_it = months.entry(day.first_of_month()).or_default();
        of_it.push(day.day());
    }
    let told: Vec<_> = months
        .iter()
        .map(|(month, days)| format!("{} {}", say::month(*month), runs(days)))
        .collect();
    let long = told
        .iter()
        .map(|one| one.matches(',').count() + 1)
        .sum::<usize>()
        > MOST_SPANS;
    match (days.iter().next(), days.last()) {
        (Some(first), Some(last)) if long => say::between(first, last),
        _ => told.join("; "),
    }
}
