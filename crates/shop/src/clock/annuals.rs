//! Clocks that count annual inspections held: the fifth annual, and the brake valves' second.

use jiff::civil::Date;
use rules::{Cautious, words};

use super::count::doing;
use super::line::{Anchor, Arm, Beside, Counted, State, ordinal, small};
use super::view::{Start, View, newest, since, span_of, when_last, which_day};
use crate::Refusal;
use crate::book::InspectionId;

/// What is counted, as a shop says it.
pub const UNIT: &str = "annual inspections";

/// An annual held: the first and last day it may be reckoned to, and what it was in the book.
struct Held {
    earliest: Date,
    on: Date,
    of: Option<InspectionId>,
}

impl View<'_> {
    /// Counts annuals since the last of these inspections or works. `limit`-th annual is the one that includes
    /// the work.
    pub(super) fn by_annuals(&self, inspection: &str, limit: u32, kinds: &[String]) -> Arm {
        let starts = self.starts(kinds, &[]);
        let Some(start) = newest(&starts) else {
            return self.no_anchor(vec![when_last(inspection, kinds)], limit, UNIT);
        };
        let anchor = start.anchor.clone();
        let held = self.annuals_held(kinds);
        let after = |day: Date, papers: bool| {
            let after = held.iter().filter(|a| a.earliest > day);
            small(after.filter(|a| a.of.is_none() == papers).count())
        };
        let possibly_after = |start: &Start, papers: bool| {
            let after = held.iter().filter(|a| a.of.is_none() == papers);
            let after = after.filter(|a| {
                a.on > start.anchor.earliest && (a.of.is_none() || a.of != start.within)
            });
            small(after.count())
        };
        // Where it is known by a paper from before the book's own log, annuals may have followed that nobody
        // entered: a paper must say how many. Each start that is so known bounds the number since the last.
        let bound = |start: &Start| {
            let from_before = start.anchor.document.is_some()
                && self.kept.log_from.is_none_or(|from| start.anchor.on < from);
            let told = start.annuals.or((!from_before).then_some(0))?;
            Some(told.max(possibly_after(start, true)) + possibly_after(start, false))
        };
        let certain =
            start.annuals.unwrap_or(0).max(after(anchor.on, true)) + after(anchor.on, false);
        let most = starts.iter().filter_map(bound).min();
        let least = most.map_or(after(anchor.on, true) + after(anchor.on, false), |most| {
            certain.min(most)
        });
        let left = most.map(|m| i64::from(limit) - i64::from(m));
        let since = since(&anchor);
        let (be, been) = if inspection == "fifth-annual" {
            ("be a fifth annual", "been a fifth annual")
        } else {
            ("include this work", "included this work")
        };
        let many = |n: u32| if n == 1 { "annual" } else { "annuals" };
        let (state, stops_on, why) = match most {
            None => {
                let needs = format!("how many annuals were held {since}");
                let why = format!("cannot tell: needs {needs}");
                (State::CannotTell(vec![needs]), Some(self.on), why)
            }
            Some(n) if n >= limit && least < limit => {
                let needs = if anchor.in_doubt() {
                    which_day(&anchor)
                } else {
                    format!("whether {n} annuals were held {since}, or {least}")
                };
                let why = format!("cannot tell: needs {needs}; {least} to {n} annuals {since}");
                (State::CannotTell(vec![needs]), Some(self.on), why)
            }
            Some(n) if n >= limit => {
                let why = format!(
                    "{n} {} {since}: the {} should have {been}",
                    many(n),
                    ordinal(limit)
                );
                (State::Stops, Some(self.on), why)
            }
            Some(n) if n + 1 == limit => {
                let why = format!("{n} {} {since}: the next annual must {be}", many(n));
                (State::Runs, None, why)
            }
            Some(n) => {
                let why = format!("{n} {} {since}; the {} must {be}", many(n), ordinal(limit));
                (State::Runs, None, why)
            }
        };
        let mut would_change = match &state {
            State::CannotTell(needs) => needs.iter().map(|n| format!("stating {n}")).collect(),
            _ => Vec::new(),
        };
        would_change.push(doing(inspection));
        Arm {
            anchor: Some(anchor),
            counted: Counted { least, most },
            limit,
            unit: UNIT,
            left,
            stops_on,
            state,
            why,
            days: Vec::new(),
            would_change,
        }
    }

    /// Inspections that contain an annual and do not themselves restart the clock.
    fn annuals_held(&self, restarted_by: &[String]) -> Vec<Held> {
        let counts =
            |kind: &String| words::contains(kind, "annual") && !restarted_by.contains(kind);
        let papers = self.kept.held_before.iter();
        let papers = papers.filter(|h| counts(&h.kind) && h.held_on <= self.on);
        let papers = papers.map(|h| Held {
            earliest: h.held_on,
            on: h.held_on,
            of: None,
        });
        let in_book = self.closed().filter(|(_, i)| counts(&i.kind));
        let in_book = in_book.filter_map(|(id, i)| {
            let (earliest, on) = span_of(i)?;
            Some(Held {
                earliest,
                on,
                of: Some(id),
            })
        });
        papers.chain(in_book).collect()
    }

    /// The cautious day beside a count: it stops nothing.
    pub(super) fn beside(
        &self,
        cautious: Option<&Cautious>,
        anchor: Option<&Anchor>,
    ) -> Result<Option<Beside>, Refusal> {
        let (Some(cautious), Some(anchor)) = (cautious, anchor) else {
            return Ok(None);
        };
        Ok(Some(Beside {
            last: cautious.span.after(anchor.earliest)?,
            why: cautious.why.clone(),
        }))
    }
}
