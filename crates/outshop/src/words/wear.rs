//! What the book tells of a part's wear.

use physics::{Sheet, Shown};
use shop::route::{Forecast, quantity};

/// A section: what else there is to say.
pub const TITLE: &str = "What the forecast stands on";
/// A link.
pub const SHEET_SHORT: &str = "its sheet";
/// A column.
pub const SERVICE_DAYS: &str = "Service days";
/// In place of a size.
pub const NOT_WRITTEN: &str = "not written down";
/// In place of service days.
pub const NO_RATE: &str = "no rate";
/// A section.
pub const BEFORE: &str = "Chance of reaching a limit before the next opening";
/// A column.
pub const OPENING: &str = "Opening";
/// A column.
pub const PAST_OURS: &str = "Our limit";
/// A column.
pub const PAST_LAW: &str = "The law's limit";
/// A link.
pub const SHEET: &str = "The worked sheet, step by step";
/// The name of a field.
pub const A_YEAR: &str = "a-year";
/// A field.
pub const PLANNED: &str = "Service days planned in a year";
/// Its button.
pub const RECKON: &str = "Reckon with these";
/// Under a picture.
pub const LEGEND: &str = "solid: ours to spend; hatched: not";

/// A link.
pub const MILES_SHEET: &str = "the sheet by miles";
/// A column.
pub const MILES: &str = "Miles";
/// In place of miles.
pub const NOT_IN_LOG: &str = "not in the log";

/// Marks beside a picture.
pub mod mark {
    /// As built.
    pub const BUILT: &str = "new";
    /// The newest reading.
    pub const NOW: &str = "now";
    /// Our own limit.
    pub const SHOP: &str = "ours";
    /// The law's.
    pub const LAW: &str = "law";
}

/// A mark with its size.
pub fn mark(word: &str, size: &str) -> String {
    format!("{word} {size}")
}

/// The picture, for those who do not see it.
pub fn picture(title: &str, now: &str) -> String {
    format!("{title} through its life: {now} now; the table below has every figure")
}

/// At the end of the line ahead.
pub fn days_on(days: f64) -> String {
    format!("+{:.0} days", days.floor())
}

/// Metal left, after the name of a size.
pub fn left(left: &str, re_cuts: Option<i64>) -> String {
    match re_cuts {
        Some(n) => format!("{left} left, {}", super::re_cuts(n)),
        None => format!("{left} left"),
    }
}

/// The newest reading.
pub fn now(it: &Forecast, size: &str) -> String {
    let (on, state, _) = it.now;
    format!("{size} {} on {}.", super::state(state), super::day(on))
}

/// A result of a sheet as it stands there.
pub fn result(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Quantity { shown, unit, .. }) => super::sheet::value(shown, unit),
        Some(Shown::Text(text)) => text.clone(),
        _ => String::new(),
    }
}

/// Whether a result is a number.
fn is_number(sheet: &Sheet, name: &str) -> bool {
    matches!(sheet.result(name), Some(Shown::Quantity { .. }))
}

/// Its rate, how sure that is, and the days to each limit: a line each.
pub fn rate(it: &Forecast) -> Vec<String> {
    let sheet = &it.sheet;
    if !is_number(sheet, "rate") {
        return vec![super::sentence(&format!(
            "no rate: {}",
            result(sheet, "rate")
        ))];
    }
    let openings = result(sheet, "counted");
    let rate = result(sheet, "rate");
    let mut lines = vec![match is_number(sheet, "interval") {
        true => format!(
            "Wears {rate} a service day by {openings} openings; to the next opening {} either way, 19 times in 20. So few points give a wide answer.",
            result(sheet, "interval")
        ),
        false => format!(
            "Wears {rate} a service day by one opening. How far the next may differ cannot be told from one: a second opening with its as left settles it."
        ),
    }];
    for (limit, whose, days, soonest) in [
        (
            it.shop_limit.is_some(),
            "our limit",
            "days_to_shop_limit",
            "soonest_shop_limit",
        ),
        (
            it.rule_limit.is_some(),
            "the law's limit",
            "days_to_rule_limit",
            "soonest_rule_limit",
        ),
    ] {
        if !limit {
            lines.push(format!("No figure on file for {whose}."));
        } else if is_number(sheet, days) {
            let soon = match is_number(sheet, soonest) {
                true => format!(", as soon as {}", result(sheet, soonest)),
                false => String::new(),
            };
            lines.push(format!(
                "To {whose}: {} service days at that rate{soon}.",
                result(sheet, days)
            ));
        } else {
            lines.push(format!("To {whose}: {}.", result(sheet, days)));
        }
    }
    lines
}

/// The same by miles: its rate and the miles to each limit, or what would settle it; a line each, none where her fires were not
/// read or no size was ever left and found.
pub fn by_miles(it: &Forecast) -> Vec<String> {
    let Some(sheet) = &it.by_miles else {
        return Vec::new();
    };
    if !is_number(sheet, "rate") {
        let needs = it.openings.iter().filter_map(|opening| {
            let run = opening.miles.as_ref()?;
            run.as_ref().err().cloned()
        });
        let needs: Vec<String> = needs.collect();
        return vec![match needs.is_empty() {
            true => format!("By miles: {}.", result(sheet, "rate")),
            // One that is wanting is enough to read; the JSON of `part wear` names every one.
            false => {
                let more = match needs.len() {
                    0 | 1 => String::new(),
                    n => format!(
                        ", and of {} besides",
                        super::count(n - 1, "opening", "openings")
                    ),
                };
                let first = needs.first().map_or("", String::as_str);
                format!("By miles: cannot tell: needs {first}{more}.")
            }
        }];
    }
    let rate = result(sheet, "rate");
    let counted = quantity(sheet, "counted").unwrap_or(0.0) as usize;
    let openings = super::count(counted, "opening", "openings");
    let sure = match is_number(sheet, "interval") {
        true => format!(
            "; to the next opening {} either way, 19 times in 20",
            result(sheet, "interval")
        ),
        false => String::new(),
    };
    let mut lines = vec![format!(
        "By miles: wears {rate} in 1000 miles by {openings}{sure}. Days or miles: which goes better with this part, nobody has shown, so both stand."
    )];
    for (limit, whose, miles, soonest, days) in [
        (
            it.shop_limit.is_some(),
            "our limit",
            "miles_to_shop_limit",
            "soonest_shop_limit",
            "days_to_shop_limit",
        ),
        (
            it.rule_limit.is_some(),
            "the law's limit",
            "miles_to_rule_limit",
            "soonest_rule_limit",
            "days_to_rule_limit",
        ),
    ] {
        if !limit {
            continue;
        }
        if !is_number(sheet, miles) {
            lines.push(format!("By miles to {whose}: {}.", result(sheet, miles)));
            continue;
        }
        let soon = match is_number(sheet, soonest) {
            true => format!(", as soon as {}", result(sheet, soonest)),
            false => String::new(),
        };
        let in_days = match is_number(sheet, days) {
            true => format!("; about {} service days", result(sheet, days)),
            false => String::new(),
        };
        lines.push(format!(
            "By miles to {whose}: {} miles at that rate{soon}{in_days}.",
            result(sheet, miles)
        ));
    }
    lines
}

/// How it stands to its mirror.
pub fn mirror(it: &Forecast, part: &str) -> String {
    format!("Beside the {part}: {}.", result(&it.sheet, "mirror"))
}

/// What stands at the head of the page where it wears much faster than its mirror.
pub fn outlier(it: &Forecast) -> Option<String> {
    let said = result(&it.sheet, "mirror");
    said.contains("look")
        .then(|| format!("{}: {said}.", super::sentence(&it.title)))
}

/// A link to the sheet of the other side.
pub fn sheet_of(part: &str) -> String {
    format!("the sheet of the {part}")
}

/// A chance, in words that a tired person reads: in a hundred.
pub fn chance(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Quantity {
            si: Some(chance), ..
        }) => hundred(*chance),
        Some(Shown::Text(text)) => text.clone(),
        _ => String::new(),
    }
}

/// A chance in a hundred, never rounded to none or to certainty.
pub fn hundred(chance: f64) -> String {
    match (chance * 100.0).round() {
        _ if chance >= 1.0 => "reached already".into(),
        in_hundred if in_hundred < 1.0 => "less than 1 in 100".into(),
        in_hundred if in_hundred > 99.0 => "more than 99 in 100".into(),
        in_hundred => format!("{in_hundred:.0} in 100"),
    }
}

/// Whose service days a year are reckoned with.
pub fn a_year(days: u32, whose: &str) -> String {
    format!("Reckoned with {days} service days a year, {whose}.")
}

/// A number of days that is none.
pub fn not_days(typed: &str) -> String {
    format!("`{typed}` is no number of service days in a year: 1 to 366 was expected.")
}

/// A part that was never read twice.
pub const NEVER_READ: &str = "It was never measured in this book, so nothing is told of its wear.";

/// One opening in a line.
pub fn opening(it: &shop::route::Opening, house: measure::House) -> String {
    let size = |size| measure::show::size(size, house);
    let left = match it.left {
        Some((day, left)) => format!("as left {} {day}", size(left)),
        None => "as left not written down".into(),
    };
    let days = match it.days {
        Some(days) => format!("{days} service days ({})", it.told.join("; ")),
        None => format!("no rate: needs {}", it.told.join("; ")),
    };
    format!(
        "{left}, as found {} {}: {days}",
        size(it.found.1),
        it.found.0
    )
}

/// The chances before one opening, in a line.
pub fn before(ahead: &shop::route::Ahead, sheet: &Sheet, it: &Forecast) -> String {
    let mut told = Vec::new();
    if it.shop_limit.is_some() {
        told.push(format!("our limit {}", chance(sheet, "chance_shop_limit")));
    }
    if it.rule_limit.is_some() {
        told.push(format!(
            "the law's limit {}",
            chance(sheet, "chance_rule_limit")
        ));
    }
    if told.is_empty() {
        told.push("no limit on file".into());
    }
    format!("before the {}: {}", ahead.what, told.join("; "))
}

/// A coming opening.
pub fn coming(ahead: &shop::route::Ahead) -> String {
    format!(
        "the {} in {}: {}",
        ahead.what,
        super::count(
            usize::try_from(ahead.days).unwrap_or(0),
            "service day",
            "service days"
        ),
        ahead.why
    )
}

/// Whether a chance of it can be told: there is a rate, and a limit to hold it against.
pub fn has_chance(it: &Forecast) -> bool {
    is_number(&it.sheet, "rate") && (it.shop_limit.is_some() || it.rule_limit.is_some())
}

/// Whether it has a rate.
pub fn has_rate(it: &Forecast) -> bool {
    is_number(&it.sheet, "rate")
}

/// A size without a rate: what it was last, and what would settle it.
pub fn without(it: &Forecast, size: &str) -> String {
    let needs: Vec<&str> = it.openings.last().map_or(Vec::new(), |last| {
        last.told.iter().map(String::as_str).collect()
    });
    format!(
        "{}: {} No rate: needs {}.",
        super::sentence(&it.title),
        now(it, size),
        needs.join("; ")
    )
}

/// A fold.
pub const HOW_COUNTED: &str = "how counted";

/// At the head of the page: the limit that is met first.
pub fn glance(it: &Forecast) -> Option<String> {
    let sheet = &it.sheet;
    let named = [
        (
            "days_to_rule_limit",
            "soonest_rule_limit",
            "the law's limit",
        ),
        ("days_to_shop_limit", "soonest_shop_limit", "our limit"),
    ];
    let number = |name: &str| shop::route::quantity(sheet, name);
    let first = named
        .into_iter()
        .filter_map(|(days, soonest, whose)| Some((number(days)?, soonest, whose)));
    let (days, soonest, whose) = first.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let title = super::sentence(&it.title);
    if days < 1.0 {
        return Some(format!("{title}: at {whose} or past it."));
    }
    let soon = match is_number(sheet, soonest) {
        true => format!(", as soon as {}", result(sheet, soonest)),
        false => ", by one opening alone".into(),
    };
    Some(format!(
        "{title}: at its rate it meets {whose} after about {:.0} service days{soon}.",
        days.floor()
    ))
}

/// A fold: a size that no limit is set for.
pub fn no_limit(it: &Forecast) -> String {
    format!(
        "{}: {} a service day, no limit on file",
        super::sentence(&it.title),
        result(&it.sheet, "rate")
    )
}
