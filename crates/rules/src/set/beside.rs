//! How a rule of a set stands to another rule on the same matter: which of two limits, or of two clocks, is the
//! stricter. Where the two cannot be laid side by side, nothing is said.

use std::cmp::Ordering;

use crate::{AtValue, Body, Compare, Limit, LimitValue, Ruling, Span};

/// How one rule stands beside another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beside {
    /// It binds first, wherever both bind.
    Stricter,
    /// Both bind alike.
    Alike,
    /// The other binds first: it changes nothing where both bind.
    Looser,
    /// Which binds first hangs on more than the two rules say.
    Both,
}

/// Lays a rule beside another; nothing where they are on different matters.
pub fn beside(own: &Ruling, other: &Ruling) -> Option<Beside> {
    match (&own.body, &other.body) {
        (Body::Limit(a), Body::Limit(b)) if a.quantity == b.quantity && a.when == b.when => {
            Some(limits(a, b))
        }
        _ => {
            if let (Some((a, _)), Some((b, _))) = (own.body.measures(), other.body.measures()) {
                return (a == b).then_some(Beside::Both);
            }
            let (a, b) = (own.body.work()?, other.body.work()?);
            (a == b).then(|| clocks(&own.body, &other.body))
        }
    }
}

fn of(order: Ordering) -> Beside {
    match order {
        Ordering::Less => Beside::Stricter,
        Ordering::Equal => Beside::Alike,
        Ordering::Greater => Beside::Looser,
    }
}

/// How one limit stands beside another on the same quantity, where both hold.
pub fn limits(a: &Limit, b: &Limit) -> Beside {
    let order = match (&a.value, &b.value) {
        (LimitValue::Size(x), LimitValue::Size(y)) => x.cmp(y),
        (LimitValue::Number(x), LimitValue::Number(y)) if a.unit == b.unit => x.cmp(y),
        (LimitValue::CountNone, LimitValue::CountNone) if a.unit == b.unit => Ordering::Equal,
        _ => return Beside::Both,
    };
    // Of two limits at one figure, the one that the figure itself fails is the stricter.
    let edge = |limit: &Limit| u8::from(limit.at_value == AtValue::Passes);
    match (a.compare, b.compare) {
        (Compare::Max, Compare::Max) => of(order.then(edge(a).cmp(&edge(b)))),
        (Compare::Min, Compare::Min) => of(order.reverse().then(edge(a).cmp(&edge(b)))),
        (Compare::Set, Compare::Set) if order.is_eq() => Beside::Alike,
        _ => Beside::Both,
    }
}

fn clocks(a: &Body, b: &Body) -> Beside {
    match (a, b) {
        (Body::Count(x), Body::Count(y))
            if x.unit == y.unit && x.restarted_by == y.restarted_by =>
        {
            of(x.due_after.cmp(&y.due_after))
        }
        (Body::Calendar(x), Body::Calendar(y))
            if x.from == y.from
                && x.restarted_by == y.restarted_by
                && x.only_if == y.only_if
                && x.out_of_use == y.out_of_use =>
        {
            match (x.span, y.span) {
                (Span::Days(m), Span::Days(n)) => of(m.cmp(&n)),
                (Span::Months(m, e), Span::Months(n, f)) if e == f => of(m.cmp(&n)),
                (Span::Years(m, e), Span::Years(n, f)) if e == f => of(m.cmp(&n)),
                _ => Beside::Both,
            }
        }
        _ => Beside::Both,
    }
}
