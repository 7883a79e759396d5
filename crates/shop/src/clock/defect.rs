//! Clocks that a defect starts: they run from the day it was found and end with the work.

use rules::{Body, Calendar, Rulebook, Ruling, words};

use super::line::{Anchor, Arm, Clock, Counted, State, days_between};
use super::view::View;
use jiff::civil::Date;

use crate::Refusal;
use crate::book::{
    Answer, Authority, Book, ClockOpened, Finding, FindingId, FindingState, Occasion, PersonId,
    Statement,
};
use crate::locomotive::{Law, engine_of, family, finding_of, with_authority};

const UNIT: &str = "calendar days";

impl View<'_> {
    /// The clocks of every finding of hers that is not put right, in the order of their numbers.
    pub(super) fn of_defects(&self, law: &Law<'_>) -> Result<Vec<Clock>, Refusal> {
        let findings = self.book.findings.values();
        let mut open: Vec<_> = findings
            .filter(|f| {
                f.locomotive == self.engine
                    && f.found_on <= self.on
                    && f.state != FindingState::Closed
            })
            .collect();
        open.sort_by_key(|f| f.number);
        let mut clocks = Vec::new();
        for finding in open {
            for (ruling, says) in started(self.book, law, finding)? {
                clocks.push(self.of_defect(ruling, &says, finding)?);
            }
        }
        Ok(clocks)
    }

    fn of_defect(
        &self,
        ruling: Ruling,
        says: &Calendar,
        finding: &Finding,
    ) -> Result<Clock, Refusal> {
        let number = finding.number;
        let found = finding.found_on;
        let at = found_at(self.book, finding, &says.at_once);
        let last = last_day(finding, says, at.as_deref())?;
        // Found at an inspection that leaves no time: it stops her from that very day.
        let stops_on = match &at {
            Some(_) => found,
            None => last.tomorrow().unwrap_or(last),
        };
        let limit = days_between(found, last);
        let counted = days_between(found, self.on);
        let left = i64::from(limit) - i64::from(counted);
        let stops = stops_on <= self.on;
        let work = says.inspection.replace('-', " ");
        let since = format!("{counted} calendar days since F-{number:03} was found on {found}");
        let why = match &at {
            Some(kind) => format!(
                "{since}, at the {kind}: there it is put right at once, and no days are left to it"
            ),
            None if stops => {
                format!("{since}: {limit} is the most allowed; her last day was {last}")
            }
            None => format!("{since}; {left} left, her last day is {last}"),
        };
        let arm = Arm {
            anchor: Some(Anchor {
                kind: format!("finding F-{number:03}"),
                on: found,
                earliest: found,
                document: None,
                inspection: None,
                reading: None,
            }),
            counted: Counted {
                least: counted,
                most: Some(counted),
            },
            limit,
            unit: UNIT,
            left: Some(left),
            stops_on: Some(stops_on),
            state: if stops { State::Stops } else { State::Runs },
            why,
            days: Vec::new(),
            would_change: vec![format!("doing the {work} and closing its job")],
        };
        let mut clock = Clock::of(ruling, says.inspection.clone(), arm);
        clock.finding = Some(number);
        Ok(clock)
    }
}

/// The clocks a finding starts: those somebody said it starts, those its part's family says of what it shows, and those
/// that other sets of hers have for the same work.
fn started(
    book: &Book,
    law: &Law<'_>,
    finding: &Finding,
) -> Result<Vec<(Ruling, Calendar)>, Refusal> {
    let shown = by_what_it_shows(book, finding);
    if finding.clocks.is_empty() && shown.is_empty() {
        return Ok(Vec::new());
    }
    let mut started = Vec::new();
    for rule in &finding.clocks {
        started.push(law.ruling(rule, finding.found_on)?);
    }
    let in_force = law.in_force(finding.found_on)?;
    for ruling in &in_force {
        let known = started.iter().any(|it| it.rule == ruling.rule);
        if !known && shown.contains(&ruling.rule.as_str()) && called(ruling).is_some() {
            started.push(ruling.clone());
        }
    }
    let work: Vec<String> = started.iter().filter_map(called).collect();
    for ruling in in_force {
        let new = |r: &Ruling| started.iter().all(|known| known.set != r.set);
        if new(&ruling) && called(&ruling).is_some_and(|of| work.contains(&of)) {
            started.push(ruling);
        }
    }
    let says = |ruling: Ruling| match ruling.body.clone() {
        Body::Calendar(says) => Some((ruling, says)),
        _ => None,
    };
    Ok(started.into_iter().filter_map(says).collect())
}

/// The rules of the clocks that what a finding shows starts, by the family of its part. Nobody has to say it, and nobody
/// can forget it.
fn by_what_it_shows<'b>(book: &'b Book, finding: &'b Finding) -> Vec<&'b str> {
    let part = book.parts.get(&finding.part);
    let kind = part.and_then(|part| family(book, &part.family).ok());
    let shown = finding.conditions.iter();
    let shown = shown.filter_map(|word| kind?.condition(word)?.starts.as_deref());
    shown.collect()
}

/// The last day a finding's clock leaves to it.
fn last_day(finding: &Finding, says: &Calendar, at: Option<&str>) -> Result<Date, Refusal> {
    Ok(match at {
        Some(_) => finding.found_on,
        None => says.span.after(finding.found_on)?,
    })
}

/// The inspection it was found at, if that one leaves no time.
fn found_at(book: &Book, finding: &Finding, at_once: &[String]) -> Option<String> {
    let told = match &finding.occasion {
        Occasion::Inspection { inspection } => book.inspections.get(inspection),
        _ => None,
    };
    let is_it = |answer: &Answer| match answer {
        Answer::Defect { finding: id } => book
            .findings
            .get(id)
            .is_some_and(|it| it.number == finding.number),
        _ => false,
    };
    let answered = book.inspections.values().filter(|i| {
        let mut answers = i.answers.values();
        answers.any(|given| is_it(&given.answer))
    });
    told.into_iter()
        .chain(answered)
        .find(|i| at_once.contains(&i.kind))
        .map(|i| i.kind.clone())
}

/// The clocks a finding starts, each with the last day it leaves: nothing is carried past it.
///
/// # Errors
/// As [`Law::in_force`], or the day lies beyond the calendar.
pub fn runs_out(
    book: &Book,
    rules: &Rulebook,
    finding: &Finding,
) -> Result<Vec<(Ruling, Date)>, Refusal> {
    let law = Law::of(book, rules, engine_of(book, finding.locomotive)?);
    let mut all = Vec::new();
    for (ruling, says) in started(book, &law, finding)? {
        let at = found_at(book, finding, &says.at_once);
        all.push((ruling, last_day(finding, &says, at.as_deref())?));
    }
    Ok(all)
}

/// Clocks that a finding may be said to start and has not: those its part's family has among its limits.
///
/// # Errors
/// As [`Law::in_force`].
pub fn may_start(book: &Book, rules: &Rulebook, finding: &Finding) -> Result<Vec<Ruling>, Refusal> {
    let part = book.parts.get(&finding.part);
    let Some(kind) = part.and_then(|part| family(book, &part.family).ok()) else {
        return Ok(Vec::new());
    };
    let named: Vec<&str> = kind
        .limits
        .iter()
        .filter_map(|it| it.rule.as_deref())
        .collect();
    let law = Law::of(book, rules, engine_of(book, finding.locomotive)?);
    let runs = started(book, &law, finding)?;
    let mut may = law.in_force(finding.found_on)?;
    may.retain(|ruling| {
        called(ruling).is_some()
            && named.contains(&ruling.rule.as_str())
            && runs.iter().all(|(known, _)| known.rule != ruling.rule)
    });
    Ok(may)
}

/// The work a defect's own clock calls for.
fn called(ruling: &Ruling) -> Option<String> {
    match &ruling.body {
        Body::Calendar(it) if words::meaning(words::DEFECT_WORK, &it.inspection).is_some() => {
            Some(it.inspection.clone())
        }
        _ => None,
    }
}

/// Says that a finding starts a clock of its own, such as `us-steam.clock.broken-staybolt`.
///
/// # Errors
/// Refused: the person may neither inspect nor repair, or the finding is put right. Input: the rule is not the
/// clock of a defect in her rulebook, or the finding has started it already.
pub fn open_clock(
    book: &Book,
    rules: &Rulebook,
    id: FindingId,
    rule: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    if with_authority(book, by, Authority::Repair, "start a finding's clock", on).is_err() {
        with_authority(book, by, Authority::Inspect, "start a finding's clock", on)?;
    }
    let finding = finding_of(book, id)?;
    let kept = engine_of(book, finding.locomotive)?;
    let mut known = Vec::new();
    for ruling in Law::of(book, rules, kept).in_force(finding.found_on)? {
        if called(&ruling).is_some() {
            known.push(ruling.rule);
        }
    }
    let wanted = known.iter().find(|id| {
        *id == rule
            || id
                .split_once(".clock.")
                .is_some_and(|(_, name)| name == rule)
    });
    let Some(wanted) = wanted else {
        let none = "no such clock is on file for her".to_string();
        let list = if known.is_empty() {
            none
        } else {
            format!("{} were expected", known.join(", "))
        };
        return Err(Refusal::input(format!(
            "`{rule}` is not the clock of a defect: {list}."
        )));
    };
    if finding.state == FindingState::Closed {
        return Err(Refusal::refused(format!(
            "F-{:03} is put right; no clock runs from it.",
            finding.number
        )));
    }
    let shown = by_what_it_shows(book, finding);
    if finding.clocks.contains(wanted) || shown.contains(&wanted.as_str()) {
        return Err(Refusal::input(format!(
            "F-{:03} has started `{wanted}` already.",
            finding.number
        )));
    }
    Ok(vec![Statement::ClockOpened(ClockOpened {
        finding: id,
        rule: wanted.clone(),
    })])
}
