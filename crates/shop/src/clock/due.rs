//! Every clock of an engine on a day: which ones bind her, each counted by its kind.

use std::collections::BTreeMap;

use jiff::civil::Date;
use rules::{Body, Calendar, Count, CountUnit, Rulebook, Ruling, Span, words};

use super::among::lay_side_by_side;

use super::line::{Clock, Counted, State};
use super::view::{View, newest};
use crate::Refusal;
use crate::book::{Book, LocomotiveId};
use crate::locomotive::{Law, engine_of};

/// Every clock of an engine on a day, of every rule set that binds her: the inspections smallest first, work with a
/// clock of its own, then what her findings started. Where several sets have a clock for one work, the one that
/// comes first stands first and says so.
///
/// # Errors
/// Input: the day lies before the rulebook's coverage, or a rule set of hers is not on file.
pub fn due(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Clock>, Refusal> {
    let kept = engine_of(book, engine)?;
    let view = View::of(book, kept, engine, on);
    let law = Law::of(book, rules, kept);
    let mut clocks = Vec::new();
    // Clocks of one work among which a fact nobody stated would choose.
    let mut unchosen: BTreeMap<(String, String), usize> = BTreeMap::new();
    for ruling in law.clocks(on)? {
        match ruling.body.clone() {
            Body::Count(it) => clocks.push(view.by_count(ruling, &it)?),
            Body::WhicheverFirst(it) => clocks.push(view.whichever_first(ruling, &it)?),
            Body::Calendar(it) => match view.binds(&it) {
                Some(true) => {
                    let arm = view.by_calendar(
                        &it.inspection,
                        it.span,
                        &it.restarted_by,
                        it.out_of_use.as_ref(),
                    )?;
                    clocks.push(Clock::of(ruling, it.inspection, arm));
                }
                Some(false) => {}
                None => {
                    let clock = view.unchosen(ruling, &it)?;
                    let of = (clock.ruling.set.clone(), it.inspection);
                    match unchosen.get(&of).and_then(|at| clocks.get_mut(*at)) {
                        Some(held) if clock.limit < held.limit => *held = clock,
                        Some(_) => {}
                        None => {
                            unchosen.insert(of, clocks.len());
                            clocks.push(clock);
                        }
                    }
                }
            },
            _ => {}
        }
    }
    if clocks.is_empty() {
        return Err(Refusal::input(format!(
            "No clock is on file for the rulebook `{}` of No. {}.",
            law.told_on(on),
            kept.number
        )));
    }
    clocks.extend(view.of_defects(&law)?);
    Ok(lay_side_by_side(clocks))
}

impl View<'_> {
    fn by_count(&self, ruling: Ruling, it: &Count) -> Result<Clock, Refusal> {
        let (work, kinds) = (&it.inspection, &it.restarted_by);
        let arm = match it.unit {
            CountUnit::ServiceDay => {
                self.by_service_days(work, it.due_after, kinds, &it.restarted_by_items)
            }
            CountUnit::Annual => self.by_annuals(work, it.due_after, kinds),
            CountUnit::DayOfUse => return Ok(self.each_day(ruling, it)),
        };
        let mut clock = Clock::of(ruling, work.clone(), arm);
        clock.beside = self.beside(it.cautious.as_ref(), clock.anchor.as_ref())?;
        if let Some(beside) = &clock.beside {
            let past = if beside.last < self.on {
                " and is past"
            } else {
                ""
            };
            clock.why.push_str(&format!(
                ". Beside it, not the law: a careful reading ends {}{past}",
                beside.last
            ));
        }
        Ok(clock)
    }

    fn each_day(&self, ruling: Ruling, it: &Count) -> Clock {
        let kinds = std::slice::from_ref(&it.inspection);
        let starts = self.starts(kinds, &[]);
        let anchor = newest(&starts).map(|start| start.anchor.clone());
        let why = match &anchor {
            Some(last) => format!(
                "due on each day she is offered for use; last held {}",
                last.on
            ),
            None => "due on each day she is offered for use; none is in this book".to_string(),
        };
        let why = format!("{why}{}", self.not_completed(&it.inspection));
        let mut arm = self.no_anchor(Vec::new(), it.due_after, "day of use");
        arm.anchor = anchor;
        arm.counted = Counted {
            least: 0,
            most: Some(0),
        };
        arm.stops_on = None;
        arm.state = State::EachDay;
        arm.why = why;
        arm.would_change = vec![super::count::doing(&it.inspection)];
        Clock::of(ruling, it.inspection.clone(), arm)
    }

    /// What to say of inspections of a kind that were put away: the day of use behind each stays without one.
    fn not_completed(&self, kind: &str) -> String {
        let of_her =
            self.book.inspections.values().filter(|i| {
                i.locomotive == self.engine && i.kind == kind && i.opened_on <= self.on
            });
        let mut away: Vec<_> = of_her
            .filter_map(|i| Some((i, i.not_completed.as_ref().filter(|it| it.on <= self.on)?)))
            .collect();
        away.sort_by_key(|(i, _)| (i.opened_on, i.number));
        let many = away.len();
        let Some((last, it)) = away.pop() else {
            return String::new();
        };
        let day = last.opened_on;
        let in_steam = match self.days(day) {
            days if days.least.contains(day) => ", a day she was in steam by the log",
            days if days.most.contains(day) => ", a day she may have been in steam by the log",
            _ => "",
        };
        let before = match many {
            1 => String::new(),
            many => format!(" (and {} before it)", many - 1),
        };
        format!(
            "; not completed: I-{:03} of {day}{in_steam}: {}{before}",
            last.number, it.because
        )
    }

    /// Whether a calendar clock binds her; nothing if a fact it hangs on is not stated.
    fn binds(&self, it: &Calendar) -> Option<bool> {
        match &it.only_if {
            None => Some(true),
            Some(only) => self
                .kept
                .fact(&only.fact, self.on)
                .map(|value| value == only.is),
        }
    }

    /// A clock of which nobody stated the fact that makes it bind or not.
    fn unchosen(&self, ruling: Ruling, it: &Calendar) -> Result<Clock, Refusal> {
        let limit = match it.span {
            Span::Days(days) => days,
            span => super::line::days_between(self.on, span.after(self.on)?),
        };
        let fact = it.only_if.as_ref().map_or("", |only| only.fact.as_str());
        let asked = words::FACTS.iter().find(|(word, ..)| *word == fact);
        let needs = asked.map_or_else(
            || format!("the fact `{fact}`"),
            |(word, meaning, answers)| {
                let answers: Vec<_> = answers.iter().map(|(answer, _)| *answer).collect();
                format!("{meaning} (`{word}`: {})", answers.join(", "))
            },
        );
        let arm = self.no_anchor(vec![needs], limit, "calendar days");
        Ok(Clock::of(ruling, it.inspection.clone(), arm))
    }
}
