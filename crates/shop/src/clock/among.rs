//! Several rule sets with a clock for the same work: all of them bind, and the earliest is told first.

use super::line::{Among, Arm, Clock, State};

/// Lays the clocks for one work side by side, the one that comes first before the others, and says so in each.
pub(super) fn lay_side_by_side(clocks: Vec<Clock>) -> Vec<Clock> {
    let mut groups: Vec<Vec<Clock>> = Vec::new();
    for clock in clocks {
        let same = |group: &&mut Vec<Clock>| {
            let first = group.first();
            first.is_some_and(|c| {
                c.inspection == clock.inspection
                    && c.finding == clock.finding
                    // Two clocks of one set for one work are that set's own business.
                    && c.ruling.set != clock.ruling.set
            })
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(clock),
            None => groups.push(vec![clock]),
        }
    }
    groups.into_iter().flat_map(told).collect()
}

fn told(mut group: Vec<Clock>) -> Vec<Clock> {
    if group.len() < 2 {
        return group;
    }
    let first = group
        .iter()
        .position(|one| group.iter().all(|other| not_after(one, other)));
    let Some(first) = first else {
        let rules: Vec<String> = group.iter().map(|c| c.ruling.rule.clone()).collect();
        for clock in &mut group {
            let others: Vec<String> = rules
                .iter()
                .filter(|rule| **rule != clock.ruling.rule)
                .cloned()
                .collect();
            say(clock, Among::Open(others));
        }
        return group;
    };
    let mut first = group.remove(first);
    let rule = first.ruling.rule.clone();
    let mut behind = Vec::new();
    for clock in &mut group {
        if not_after(clock, &first) {
            say(clock, Among::Alike(rule.clone()));
        } else {
            behind.push(clock.ruling.rule.clone());
            say(clock, Among::Behind(rule.clone()));
        }
    }
    if !behind.is_empty() {
        say(&mut first, Among::First(behind));
    }
    group.insert(0, first);
    group
}

fn say(clock: &mut Clock, among: Among) {
    let told = match &among {
        Among::Alone => return,
        Among::First(behind) => format!("comes first, before {}", behind.join(" and ")),
        Among::Alike(rule) => match &clock.state {
            State::Stops => format!("{rule} stops her too"),
            State::CannotTell(_) => format!("{rule} cannot be told either"),
            State::Runs | State::EachDay => format!("{rule} comes no later"),
        },
        Among::Behind(rule) => format!("{rule} comes first"),
        Among::Open(rules) => format!("{} may come first", rules.join(" or ")),
    };
    clock.why.push_str(&format!("; {told}"));
    clock.among = among;
}

/// Whether one clock is sure to stop her no later than another.
fn not_after(one: &Clock, other: &Clock) -> bool {
    let (a, b) = (one.state.rank(), other.state.rank());
    if a != b || a < 2 {
        // What stops her, and what may, comes before what runs.
        return a <= b;
    }
    other
        .arms
        .iter()
        .all(|late| one.arms.iter().any(|early| arm_not_after(early, late)))
}

fn arm_not_after(early: &Arm, late: &Arm) -> bool {
    const CALENDAR: &str = "calendar days";
    let by_left = match (early.left, late.left) {
        (Some(a), Some(b)) => a <= b,
        _ => false,
    };
    match (early.unit, late.unit) {
        (CALENDAR, CALENDAR) => match (early.stops_on, late.stops_on) {
            (Some(a), Some(b)) => a <= b,
            _ => false,
        },
        (a, b) if a == b => by_left || (early.state == State::EachDay && late.state == early.state),
        // A day holds one service day at most: with as few calendar days left, the calendar is sure to come first.
        (CALENDAR, "service days") => by_left,
        _ => false,
    }
}
