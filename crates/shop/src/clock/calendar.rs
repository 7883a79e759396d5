//! Clocks that run by the calendar, whether she is used or stands.

use jiff::civil::Date;
use rules::{OutOfUseCredit, Span};

use super::count::doing;
use super::credit::credit;
use super::line::{Anchor, Arm, Counted, State, days_between};
use super::view::{View, newest, since, when_last, which_day};
use crate::Refusal;

const UNIT: &str = "calendar days";

impl View<'_> {
    /// Counts calendar days since the last of these inspections or works.
    pub(super) fn by_calendar(
        &self,
        inspection: &str,
        span: Span,
        kinds: &[String],
        out_of_use: Option<&OutOfUseCredit>,
    ) -> Result<Arm, Refusal> {
        let starts = self.starts(kinds, &[]);
        let Some(start) = newest(&starts) else {
            let limit = match span {
                Span::Days(days) => days,
                _ => days_between(self.on, span.after(self.on)?),
            };
            return Ok(self.no_anchor(vec![when_last(inspection, kinds)], limit, UNIT));
        };
        let mut anchor = start.anchor.clone();
        // Each of several inspections bounds the day it runs from; the latest bound is the one that counts.
        let bounds = starts.iter().map(|start| start.anchor.earliest);
        anchor.earliest = bounds.max().unwrap_or(anchor.on).min(anchor.on);
        let mut arm = self.since_day(&anchor, span, out_of_use)?;
        arm.would_change.push(doing(inspection));
        Ok(arm)
    }

    /// Counts calendar days from an anchor; by its worst day where that is in doubt.
    pub(super) fn since_day(
        &self,
        anchor: &Anchor,
        span: Span,
        out_of_use: Option<&OutOfUseCredit>,
    ) -> Result<Arm, Refusal> {
        let credited = |day: Date| {
            out_of_use.map_or(0, |rule| {
                credit(&self.kept.out_of_use, rule.least_days, day, self.on)
            })
        };
        let last_from = |day: Date| -> Result<Date, Refusal> {
            let more = Span::Days(credited(day).max(1));
            let end = span.after(day)?;
            Ok(if credited(day) == 0 {
                end
            } else {
                more.after(end)?
            })
        };
        // Days out of use may reach farther from a later day than from an earlier one, so each is tried.
        let mut day = anchor.earliest;
        let (mut worst, mut last) = (day, last_from(day)?);
        while day < anchor.on {
            day = day.tomorrow().unwrap_or(anchor.on);
            let end = last_from(day)?;
            if end < last {
                (worst, last) = (day, end);
            }
        }
        let best = last_from(anchor.on)?;
        let stops_on = last.tomorrow().unwrap_or(last);
        let limit = days_between(worst, last);
        let most = days_between(worst, self.on);
        let least = days_between(anchor.on, self.on);
        let left = i64::from(limit) - i64::from(most);
        let state = match (last < self.on, best < self.on) {
            (true, true) => State::Stops,
            (true, false) => State::CannotTell(vec![which_day(anchor)]),
            (false, _) => State::Runs,
        };
        let since = since(anchor);
        let mut count = if least == most {
            format!("{least} calendar days {since}")
        } else {
            format!(
                "{least} to {most} calendar days {since} ({} is not stated)",
                which_day(anchor)
            )
        };
        if let (Some(rule), more @ 1..) = (out_of_use, credited(worst)) {
            count.push_str(&format!(
                ", lengthened by {more} days out of use ({})",
                rule.section
            ));
        }
        let why = match &state {
            State::Stops => {
                format!("{count}: {limit} is the most allowed; her last day was {last}")
            }
            State::CannotTell(needs) => {
                format!(
                    "cannot tell: needs {}; {count}; her last day may have been {last}",
                    needs.join("; ")
                )
            }
            _ => format!("{count}; {left} left, her last day is {last}"),
        };
        let mut would_change = Vec::new();
        if anchor.in_doubt() {
            would_change.push(format!("stating {}", which_day(anchor)));
        }
        if let Some(rule) = out_of_use {
            would_change.push(format!(
                "a spell of {} days or more out of use since, attested ({})",
                rule.least_days, rule.section
            ));
        }
        Ok(Arm {
            anchor: Some(anchor.clone()),
            counted: Counted {
                least,
                most: Some(most),
            },
            limit,
            unit: UNIT,
            left: Some(left),
            stops_on: Some(stops_on),
            state,
            why,
            days: Vec::new(),
            would_change,
        })
    }
}
