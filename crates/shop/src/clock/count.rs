//! Clocks that count service days: from the log, with a least and a most.

use jiff::civil::Date;

use super::line::{Anchor, Arm, Counted, State, ordinal, small};
use super::paper_count::{Agreement, paper_checks};
use super::view::{Start, View, newest, since, when_last, which_day};
use crate::book::{Days, Fire, Stood, days_of_fire};

const UNIT: &str = "service days";

impl View<'_> {
    /// Counts service days since the last of these inspections, works or items.
    pub(super) fn by_service_days(
        &self,
        inspection: &str,
        limit: u32,
        kinds: &[String],
        items: &[String],
    ) -> Arm {
        let starts = self.starts(kinds, items);
        let Some(start) = newest(&starts) else {
            return self.no_anchor(vec![when_last(inspection, kinds)], limit, UNIT);
        };
        let anchor = start.anchor.clone();
        let least = self.days(start.from_least);
        let counted_least = start.counted + small(least.least.len());
        let (counted_most, from) = self.most(&starts, start);
        let counted_most = counted_most.max(counted_least);
        let most = self.days(from);
        let left = i64::from(limit) - i64::from(counted_most);
        let stops_on = self.stops_after(left, most.most.contains(self.on));
        let stopped = stops_on.is_some_and(|day| day <= self.on);
        let proved_left = i64::from(limit) - i64::from(counted_least);
        let proved = self
            .stops_after(proved_left, least.least.contains(self.on))
            .is_some_and(|day| day <= self.on);
        let state = match (stopped, proved) {
            (true, true) => State::Stops,
            (true, false) => State::CannotTell(self.log_needs(&anchor)),
            (false, _) => State::Runs,
        };
        let since = since(&anchor);
        let count = if counted_least == counted_most {
            let unit = if counted_least == 1 {
                "service day"
            } else {
                UNIT
            };
            format!("{counted_least} {unit} {since}")
        } else {
            format!(
                "{counted_least} to {counted_most} {UNIT} {since} ({})",
                self.doubt(&anchor, &least, &most)
            )
        };
        let why = match &state {
            State::CannotTell(needs) => format!("cannot tell: needs {}; {count}", needs.join("; ")),
            State::Stops if left < 0 => {
                format!("{count}: {limit} is the most allowed; {} too many", -left)
            }
            State::Stops => format!(
                "{count}: the next day in steam would be the {} one",
                ordinal(limit + 1)
            ),
            _ => format!("{count}; {left} left"),
        };
        let mut would_change = if counted_least < counted_most {
            self.would_settle(&anchor, from)
        } else {
            Vec::new()
        };
        would_change.push(doing(inspection));
        Arm {
            counted: Counted {
                least: counted_least,
                most: Some(counted_most),
            },
            anchor: Some(anchor),
            limit,
            unit: UNIT,
            left: Some(left),
            stops_on,
            state,
            why,
            days: least.least.iter().collect(),
            would_change,
        }
    }

    /// The most that may have been counted, and from which day. Each start bounds it, for the clock began
    /// again there at the latest; so does a paper that counted the days since an earlier inspection.
    fn most(&self, starts: &[Start], newest: &Start) -> (u32, Date) {
        let latest = starts
            .iter()
            .filter(|start| !start.by_paper)
            .max_by_key(|start| start.from_most);
        let papers = starts.iter().filter(|start| start.by_paper);
        let bound = |start: &Start| {
            let days = small(self.days(start.from_most).most.len());
            (start.counted + days, start.from_most)
        };
        latest
            .into_iter()
            .chain(papers)
            .map(bound)
            .min()
            .unwrap_or_else(|| bound(newest))
    }

    /// The first day on which steaming would be one day too many: today if none are left, else the
    /// promised run that would be the one after the last. A day already counted costs nothing more.
    fn stops_after(&self, left: i64, today_counted: bool) -> Option<Date> {
        if left < 0 {
            return Some(self.on);
        }
        if left > 0 {
            let mut fresh: Vec<Date> = self
                .kept
                .promises
                .iter()
                .map(|p| p.day)
                .filter(|day| *day > self.on || (*day == self.on && !today_counted))
                .collect();
            fresh.dedup();
            return usize::try_from(left)
                .ok()
                .and_then(|left| fresh.get(left).copied());
        }
        // None left: she may finish a day that is counted already, and not begin another.
        Some(if today_counted {
            self.on.tomorrow().unwrap_or(self.on)
        } else {
            self.on
        })
    }

    fn yesterday(&self) -> Date {
        self.on.yesterday().unwrap_or(self.on)
    }

    fn log_needs(&self, anchor: &Anchor) -> Vec<String> {
        let yesterday = self.yesterday();
        let mut needs = Vec::new();
        if anchor.in_doubt() {
            needs.push(which_day(anchor));
        }
        match self.kept.log_through {
            Some(through) if through >= yesterday => {
                if needs.is_empty() {
                    needs.push("the times missing from the fires in the log, or the order of the inspection and the fire of its day".into());
                }
            }
            Some(through) => needs.push(format!(
                "the log closed through {yesterday} (it is closed through {through})"
            )),
            None => needs.push(format!(
                "the log closed through {yesterday} (it has never been closed)"
            )),
        }
        needs
    }

    fn doubt(&self, anchor: &Anchor, least: &Days, most: &Days) -> String {
        let yesterday = self.yesterday();
        let mut said = Vec::new();
        match self.kept.log_through {
            Some(through) if through < yesterday => {
                said.push(format!("log closed through {through}"))
            }
            None => said.push("log never closed".to_string()),
            Some(_) => {}
        }
        let open = most.most.without(&least.least);
        if let Some(from) = self.kept.log_from
            && open.iter().any(|day| day < from && day != anchor.on)
        {
            said.push(format!("log begins {from}"));
        }
        if anchor.in_doubt() {
            said.push(format!("{} is not stated", which_day(anchor)));
        } else if most.most.contains(anchor.on) && !least.least.contains(anchor.on) {
            said.push("the day of the inspection itself may count".to_string());
        }
        if self.paper_has_more(anchor) {
            said.push("a paper counts more days than the log holds".to_string());
        }
        if said.is_empty() {
            said.push("a time is missing in the log".to_string());
        }
        said.join("; ")
    }

    /// What would bring least and most together, one line each.
    fn would_settle(&self, anchor: &Anchor, from: Date) -> Vec<String> {
        let yesterday = self.yesterday();
        let mut lines = Vec::new();
        match (self.kept.log_from, self.kept.log_through) {
            (Some(first), _) if from < first => lines.push(format!(
                "closing the log from {from}, if nobody forgot a fire before {first}"
            )),
            (None, _) if from < self.on => {
                lines.push(format!("closing the log from {from} through {yesterday}"))
            }
            _ => {}
        }
        if let Some(through) = self.kept.log_through
            && through < yesterday
        {
            lines.push(format!("closing the log through {yesterday}"));
        }
        if anchor.in_doubt() {
            lines.push(format!("stating {}", which_day(anchor)));
        }
        if self.paper_has_more(anchor) {
            lines.push(
                "putting the log right, or the paper that counts more days than it".to_string(),
            );
        }
        lines.extend(self.missing_times(from));
        lines
    }

    /// Whether a paper whose span reaches past the start counts more days than the log allows.
    fn paper_has_more(&self, anchor: &Anchor) -> bool {
        self.kept
            .paper_counts
            .iter()
            .any(|count| count.told.through >= anchor.earliest)
            && paper_checks(self.book, self.engine, self.on)
                .iter()
                .any(|check| {
                    check.agreement == Agreement::PaperHasMore
                        && check.count.told.through >= anchor.earliest
                })
    }

    /// Times nobody wrote down that leave days in doubt, from a day on, one line each. Where the fires are not
    /// read one by one, the days in doubt are named and not the times.
    fn missing_times(&self, from: Date) -> Vec<String> {
        const NAMED: usize = 6;
        let Some(log) = self.book.logs.get(&self.engine) else {
            return Vec::new();
        };
        let ended: Vec<(Date, String)> = match self.book.fires.of(self.engine) {
            Some(fires) => fires
                .filter(|(id, _)| !log.unended.contains_key(id))
                .filter_map(|(_, fire)| self.missing_time(fire, from))
                .collect(),
            None => log
                .most
                .without(&log.least)
                .within(from, self.on)
                .iter()
                .map(|day| {
                    (
                        day,
                        format!("a time nobody wrote down in the fire of {day}"),
                    )
                })
                .collect(),
        };
        let unended = log.unended.values();
        let mut times: Vec<_> = unended
            .filter_map(|fire| self.missing_time(fire, from))
            .chain(ended)
            .collect();
        times.sort();
        let more = times.len().saturating_sub(NAMED);
        let mut lines: Vec<_> = times
            .into_iter()
            .take(NAMED)
            .map(|(_, line)| line)
            .collect();
        if more > 0 {
            lines.push(format!("{more} more times nobody wrote down in the log"));
        }
        lines
    }

    /// The times nobody wrote down of a fire whose days are in doubt because of it.
    fn missing_time(&self, fire: &Fire, from: Date) -> Option<(Date, String)> {
        if let Some(told) = &fire.day {
            let open = told.stood == Stood::CannotTell && (from..=self.on).contains(&told.day);
            let line = || {
                format!(
                    "whether {} was a service day (entry {})",
                    told.day, fire.entry
                )
            };
            return open.then(|| (told.day, line()));
        }
        let times = [
            (fire.lit, "the fire was lit"),
            (fire.up, "pressure was up"),
            (fire.out, "the fire was out"),
            (fire.gone, "pressure was gone"),
        ];
        if times.iter().all(|(at, _)| at.is_some()) {
            return None;
        }
        let days = days_of_fire(fire, self.on);
        let open = days.most.without(&days.least);
        open.iter().find(|day| (from..=self.on).contains(day))?;
        let begun = fire.lit.into_iter().chain(fire.up).min()?.date();
        let missing: Vec<&str> = times
            .iter()
            .filter(|(at, _)| at.is_none())
            .map(|(_, what)| *what)
            .collect();
        Some((
            begun,
            format!("the time {} in the fire of {begun}", missing.join(", and ")),
        ))
    }
}

/// Doing what the clock calls for, as a change that would help.
pub(super) fn doing(inspection: &str) -> String {
    if !rules::words::is_work(inspection) {
        return format!("holding the {inspection}");
    }
    format!("doing the {}", inspection.replace('-', " "))
}
