//! Clocks that run to whichever of their arms comes first, and where the first calendar arm begins.

use std::cmp::Ordering;

use jiff::civil::Date;
use rules::{CountUnit, FirstStart, Ruling, Span, WhicheverFirst};

use super::line::{Anchor, Arm, Clock, State};
use super::view::{View, newest};
use crate::Refusal;

impl View<'_> {
    pub(super) fn whichever_first(
        &self,
        ruling: Ruling,
        first: &WhicheverFirst,
    ) -> Result<Clock, Refusal> {
        let kinds = &first.restarted_by;
        let mut arms = Vec::new();
        for arm in &first.counts {
            arms.push(match arm.unit {
                CountUnit::Annual => self.by_annuals(&first.inspection, arm.due_after, kinds),
                _ => self.by_service_days(&first.inspection, arm.due_after, kinds, &[]),
            });
        }
        if let Some(arm) = &first.calendar {
            arms.push(match &first.first_start {
                Some(start) => self.since_first_start(first, start, arm.span)?,
                None => self.by_calendar(&first.inspection, arm.span, kinds, None)?,
            });
        }
        bound(ruling, first.inspection.clone(), arms)
    }

    /// The calendar arm of an engine that may be new or back from retirement. It runs from the inspection if
    /// she was in service before it; else from the day she entered service or so many days after the first
    /// flue, whichever came first. What nobody stated is bounded by the worst it can be, or cannot be told.
    fn since_first_start(
        &self,
        clock: &WhicheverFirst,
        rule: &FirstStart,
        span: Span,
    ) -> Result<Arm, Refusal> {
        let kinds = &clock.restarted_by;
        let starts = self.starts(kinds, &[]);
        let Some(held) = newest(&starts).map(|start| &start.anchor) else {
            return self.by_calendar(&clock.inspection, span, kinds, None);
        };
        let days = |what: &str| -> Vec<Date> {
            let told = self.kept.days.iter();
            told.filter(|d| d.what == what && d.day <= self.on)
                .map(|d| d.day)
                .collect()
        };
        let entered = days(&rule.event);
        let before = entered.iter().copied().filter(|d| *d < held.earliest).max();
        let after = entered
            .iter()
            .copied()
            .filter(|d| *d >= held.earliest)
            .min();
        let flue = days(&rule.at_latest)
            .into_iter()
            .filter(|d| *d <= held.on && before.is_none_or(|before| *d > before))
            .min();
        if let Some(flue) = flue {
            let at_latest = rule.within.after(flue)?;
            // She cannot have entered service before the inspection was held.
            let entered = after.unwrap_or(held.earliest);
            let from = entered.min(at_latest);
            let kind = if from < entered {
                format!("{} after the first flue", rule.within)
            } else if after.is_some() {
                "entry into service".to_string()
            } else {
                held.kind.clone()
            };
            return self.first_arm(clock, kind, from, span);
        }
        if let (Some(_), None) = (before, after) {
            return self.by_calendar(&clock.inspection, span, kinds, None);
        }
        let mut needs = Vec::new();
        if after.is_none() {
            needs.push(format!(
                "the day she entered service, new or last back from retirement (whether before the {} of {})",
                held.kind, held.on
            ));
            needs.push("if it was after, the day the first flue tube went in".to_string());
        } else {
            needs.push(format!(
                "the day the first flue tube went in before the {} of {}",
                held.kind, held.on
            ));
        }
        let mut arm = self.since_day(held, span, None)?;
        arm.why = format!("cannot tell: needs {}", needs.join("; "));
        arm.would_change = needs.iter().map(|n| format!("stating {n}")).collect();
        arm.stops_on = Some(self.on);
        arm.left = None;
        arm.counted.most = None;
        arm.state = State::CannotTell(needs);
        Ok(arm)
    }

    fn first_arm(
        &self,
        clock: &WhicheverFirst,
        kind: String,
        from: Date,
        span: Span,
    ) -> Result<Arm, Refusal> {
        let anchor = Anchor {
            kind,
            on: from,
            earliest: from,
            document: None,
            inspection: None,
            reading: None,
        };
        let mut arm = self.since_day(&anchor, span, None)?;
        arm.would_change
            .push(super::count::doing(&clock.inspection));
        Ok(arm)
    }
}

/// Joins the arms of a clock that runs to whichever comes first.
fn bound(ruling: Ruling, inspection: String, arms: Vec<Arm>) -> Result<Clock, Refusal> {
    let by_rank = |(at, arm): &(usize, &Arm)| (arm.state.rank(), *at);
    let Some((at, _)) = arms.iter().enumerate().min_by_key(by_rank) else {
        return Err(Refusal::input(format!(
            "The rule `{}` has no arm to count by.",
            ruling.rule
        )));
    };
    let (at, told) = match arms.as_slice() {
        // Nothing to run from: one arm says so for all.
        [first, ..] if first.anchor.is_none() => (0, String::new()),
        [counted, dated] if dated.unit == "calendar days" => {
            let (at, told) = days_or_calendar(counted, dated);
            (at, format!("; {told}"))
        }
        _ => (at, "; whichever comes first".to_string()),
    };
    let Some(first) = arms.get(at).cloned() else {
        return Err(Refusal::input("A clock lost its arm."));
    };
    let whole = first.anchor.is_none();
    let mut clock = Clock::of(ruling, inspection, first);
    if !whole {
        let whys: Vec<_> = arms.iter().map(|arm| arm.why.as_str()).collect();
        clock.why = format!("{}{told}", whys.join("; and "));
        clock.stops_on = arms.iter().filter_map(|arm| arm.stops_on).min();
        if let Some(days) = arms.iter().find(|arm| !arm.days.is_empty()) {
            clock.days = days.days.clone();
        }
        clock.would_change.clear();
        for line in arms.iter().flat_map(|arm| &arm.would_change) {
            if !clock.would_change.contains(line) {
                clock.would_change.push(line.clone());
            }
        }
    }
    clock.arms = arms;
    Ok(clock)
}

/// Which of a service-day arm (0) and a calendar arm (1) comes first, and how that is said.
fn days_or_calendar(counted: &Arm, dated: &Arm) -> (usize, &'static str) {
    // A day holds one service day at most: with as many of them left as calendar days, the calendar is
    // sure to come first; with fewer, the service days may, however few runs are promised.
    let calendar_sure = match (counted.left, dated.left) {
        (Some(counted), Some(dated)) => counted >= dated,
        _ => false,
    };
    match dated.state.rank().cmp(&counted.state.rank()) {
        Ordering::Less if dated.left.is_none() => (1, "whichever comes first"),
        Ordering::Less => (1, "the calendar comes first"),
        Ordering::Greater => (0, "the service days come first"),
        Ordering::Equal if calendar_sure => (1, "the calendar comes first"),
        Ordering::Equal
            if counted
                .stops_on
                .is_some_and(|day| Some(day) <= dated.stops_on) =>
        {
            (0, "the service days come first")
        }
        Ordering::Equal => (0, "the service days may come first"),
    }
}
