//! The calendar days that one fire touches: on any part of which fire and pressure stand together.

use jiff::civil::{Date, DateTime, Time};

use super::day_set::DaySet;
use super::state::Fire;
use super::statement::Stood;

/// Days that certainly were service days, and days that may have been.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Days {
    /// Proved by the log.
    pub least: DaySet,
    /// Not ruled out by the log; holds every day of `least`.
    pub most: DaySet,
}

/// The days one fire touches, looking back from `on`.
///
/// Fire stands from lit to out, pressure from up to gone; a day counts if both stand together on any
/// part of it, and an end at 00:00 does not touch the day it begins. A fire whose end is not written
/// may still be burning, so its most runs through `on`. Of a day told without times, what was told counts.
pub fn days_of_fire(fire: &Fire, on: Date) -> Days {
    let mut days = Days::default();
    if let Some(told) = &fire.day {
        if told.stood != Stood::NoServiceDay {
            days.most.insert(told.day);
        }
        if told.stood == Stood::ServiceDay {
            days.least.insert(told.day);
        }
        return days;
    }
    let start = fire.lit.max(fire.up);
    let end = match (fire.out, fire.gone) {
        (Some(out), Some(gone)) => Some(out.min(gone)),
        (out, gone) => out.or(gone),
    };
    let Some(first) = start else { return days };
    days.most = touched(first, end, on);
    if let (Some(lit), Some(up)) = (fire.lit, fire.up) {
        let together = lit.max(up);
        days.least = match (fire.out, fire.gone) {
            (Some(out), Some(gone)) => touched(together, Some(out.min(gone)), on),
            // One end is not written: both stood together at that instant, and no more is proved,
            // unless the written end says they never met.
            _ if end.is_some_and(|e| e <= together) => DaySet::default(),
            _ => DaySet::span(together.date(), together.date()),
        };
    } else if let (Some(out), Some(gone)) = (fire.out, fire.gone) {
        // One start is not written: just before the earlier end the thing that ended last stood, and
        // the other had begun if its start is the one we know.
        let just_before = out.min(gone);
        let known_to_have_begun = first < just_before;
        let other_stood = if fire.lit.is_none() {
            out <= gone
        } else {
            gone <= out
        };
        if known_to_have_begun
            && other_stood
            && let Some(day) = last_day(just_before)
        {
            days.least.insert(day);
        }
    }
    days
}

/// The last day an interval ending at `end` touches.
fn last_day(end: DateTime) -> Option<Date> {
    if end.time() == Time::midnight() {
        end.date().yesterday().ok()
    } else {
        Some(end.date())
    }
}

fn touched(start: DateTime, end: Option<DateTime>, on: Date) -> DaySet {
    let last = match end {
        Some(end) if end <= start => None,
        Some(end) => last_day(end),
        None => Some(on.max(start.date())),
    };
    last.map_or_else(DaySet::default, |last| DaySet::span(start.date(), last))
}

#[cfg(test)]
mod tests {
    use super::super::id::LocomotiveId;
    use super::*;

    fn at(text: &str) -> Option<DateTime> {
        (!text.is_empty()).then(|| text.parse().unwrap())
    }

    fn fire(lit: &str, up: &str, out: &str, gone: &str) -> Fire {
        let locomotive = LocomotiveId(1);
        Fire {
            locomotive,
            lit: at(lit),
            up: at(up),
            out: at(out),
            gone: at(gone),
            miles: None,
            offered: None,
            day: None,
            entry: 1,
        }
    }

    fn counted(lit: &str, up: &str, out: &str, gone: &str) -> (usize, usize) {
        let days = days_of_fire(&fire(lit, up, out, gone), "2026-05-10".parse().unwrap());
        assert!(days.least.without(&days.most).is_empty(), "{days:?}");
        (days.least.len(), days.most.len())
    }

    // 49 CFR 230.8 (2015 edition): a service day is any calendar day on which the boiler is above
    // atmospheric pressure with fire in the firebox.
    #[test]
    fn a_day_needs_fire_and_pressure_together() {
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-02T17:00",
                "2026-05-02T21:00"
            ),
            (1, 1)
        );
        // Banked past midnight: two days.
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-03T01:00",
                "2026-05-03T05:00"
            ),
            (2, 2)
        );
        // Pressure past midnight but the fire is out: one day.
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-02T23:00",
                "2026-05-03T05:00"
            ),
            (1, 1)
        );
        // Out at midnight exactly does not touch the next day.
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-03T00:00",
                "2026-05-03T05:00"
            ),
            (1, 1)
        );
        // Lit in the evening, pressure only after midnight: the second day alone.
        assert_eq!(
            counted(
                "2026-05-02T22:00",
                "2026-05-03T01:00",
                "2026-05-03T09:00",
                "2026-05-03T12:00"
            ),
            (1, 1)
        );
        // Fire drawn before any pressure: none.
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-02T08:00",
                "2026-05-02T09:30"
            ),
            (0, 0)
        );
    }

    #[test]
    fn a_missing_bound_gives_a_least_and_a_most() {
        // No end written: burning still, for all the log says.
        assert_eq!(
            counted("2026-05-02T06:00", "2026-05-02T09:00", "", ""),
            (1, 9)
        );
        // Pressure-up not written: it may have been as early as the fire.
        assert_eq!(
            counted(
                "2026-05-02T22:00",
                "",
                "2026-05-03T12:00",
                "2026-05-03T10:00"
            ),
            (1, 2)
        );
        // Pressure gone not written: the fire bounds it.
        assert_eq!(
            counted(
                "2026-05-02T06:00",
                "2026-05-02T09:00",
                "2026-05-03T02:00",
                ""
            ),
            (1, 2)
        );
        // Lit not written.
        assert_eq!(
            counted(
                "",
                "2026-05-02T23:00",
                "2026-05-03T02:00",
                "2026-05-03T08:00"
            ),
            (1, 2)
        );
        // Neither start written: nothing is proved, and entering it is refused.
        assert_eq!(counted("", "", "2026-05-03T02:00", ""), (0, 0));
    }
}
