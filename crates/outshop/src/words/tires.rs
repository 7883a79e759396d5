//! The driving tires together: as they stand, one diameter for all, what it spends, how long it lasts.

use measure::{Rounding, show};
use shop::ruled::knock_on::Moved;
use shop::ruled::tires::{TireSet, TireWheel};

/// The link.
pub const LINK: &str = "Her driving tires";
/// A part.
pub const WHEELS: &str = "Each wheel as it stands";
/// Columns.
pub const WHEEL_HEADS: &[&str] = &[
    "Wheel",
    "Diameter, in",
    "Tire, in",
    "Over its mate, in",
    "Hollow, in",
    "Flange, in",
    "As it stands",
];
/// A part.
pub const CUT: &str = "One diameter for all";
/// Columns.
pub const CUT_HEADS: &[&str] = &[
    "Wheel",
    "Turned to, in",
    "Tire then, in",
    "Off the radius, in",
    "Above the least, in",
];
/// A part.
pub const LASTS: &str = "How long it lasts";
/// A part.
pub const MOVES: &str = "What comes down with her";
/// A part.
pub const MISSING: &str = "What is missing";
/// A form.
pub const ASK: &str = "The cut, and the order";
/// A field.
pub const CLEAN_UP: &str = "What the cut takes off the radius of the smallest wheel to come clean";
/// A hint.
pub const CLEAN_UP_HINT: &str =
    "such as 1/32in; a flange brought back costs about three times its gain at the tread";
/// A field.
pub const LEAD: &str = "Weeks from the order of a new set to its coming";
/// Its button.
pub const ASK_IT: &str = "Work it";
/// The link to the paper.
pub const PRINT: &str = "Print this proposal";
/// Over the paper.
pub const OVER: &str = "Proposal for the driving tires";
/// Boxes.
pub const SIGN_BOXES: &[&[&str]] = &[
    &["measured by, with which tape", "reviewed by", "day"],
    &["diameter ordered, by hand", "for the owner, by hand", "day"],
];
/// A part.
pub const SIGNED: &str = "Decided by hand";
/// What marks mean.
pub const ARROWS: &str = "An arrow up: the way of its plus; down: the other way. Heavy: a limit of the law lies on it. The amount is worked; what \
     is listed is measured before and after.";
/// What governs.
pub const CAUTIONS: &[&str] = &[
    "This proposes a cut and decides none. Tread and flange are looked at by somebody qualified: cracks, flats, seams and loose \
     tires are not in these figures.",
    "Wheels of one rod are of one diameter, not of one thickness of tire: measure every wheel with one tape on one day.",
    "A tire dropped, rolled or slipped from its sling weighs more than a man can stop: rated slings, chocks, nobody in its way.",
];
/// The sheet.
pub const SHEET: &str = "The worked sheet: running.tire_set";
/// Weeks that do not read.
pub const WEEKS: &str = "The weeks from an order to its coming were expected as a whole number.";
/// Nothing.
pub const NOT_KNOWN: &str = "cannot tell";

/// The title.
pub fn title(number: &str) -> String {
    format!("Driving tires of No. {}", number.trim())
}

fn inch(value: f64, rounding: Rounding) -> String {
    format!("{} in", show::number(value, 3, rounding))
}

/// How the whole stands, a sentence each.
pub fn stands(set: &TireSet) -> Vec<String> {
    let drivers = set.drivers.map_or(String::new(), |count| {
        format!(" of her {count} driving wheels")
    });
    let mut all = vec![format!(
        "{}: {} tires{drivers} are parts in this book.",
        super::sentence(&set.stands),
        set.wheels.len()
    )];
    if let Some(spread) = set.spread {
        all.push(format!(
            "Largest wheel over the smallest, on the diameter: {}.",
            inch(spread, Rounding::Up)
        ));
    }
    all
}

/// The cells of a wheel as it stands.
pub fn wheel(wheel: &TireWheel) -> Vec<String> {
    let mut cells = vec![wheel.name.clone()];
    if wheel.stands.is_empty() {
        let read = |it: &Option<shop::ruled::tires::Read>| {
            it.as_ref()
                .map_or(NOT_KNOWN.to_owned(), |it| it.says.clone())
        };
        cells.push(NOT_KNOWN.into());
        cells.push(read(&wheel.thickness));
        cells.push(NOT_KNOWN.into());
        cells.push(read(&wheel.hollow));
        cells.push(read(&wheel.flange));
        cells.push(NOT_KNOWN.into());
    } else {
        cells.extend(wheel.stands.iter().cloned());
    }
    cells
}

/// The cells of a wheel after the cut.
pub fn cut(wheel: &TireWheel) -> Vec<String> {
    let mut cells = vec![wheel.name.clone()];
    if wheel.cut.is_empty() {
        cells.extend([NOT_KNOWN; 4].map(String::from));
    } else {
        cells.extend(wheel.cut.iter().cloned());
    }
    cells
}

/// The proposal, a sentence each.
pub fn proposal(set: &TireSet) -> Vec<String> {
    let it = match &set.proposal {
        Err(needs) => return vec![format!("Cannot tell: needs {}.", needs.join("; "))],
        Ok(it) => it,
    };
    let mut all = vec![if it.known {
        format!(
            "Turn every wheel to {} over the tread, the largest that the smallest wheel allows.",
            inch(it.diameter, Rounding::Down)
        )
    } else {
        format!(
            "Not above {} over the tread: a wheel that is not known can only make it smaller.",
            inch(it.diameter, Rounding::Down)
        )
    }];
    all.push(format!(
        "Thinnest tire after the cut: {}{}. Against the law's least: {}.",
        inch(it.thinnest, Rounding::Down),
        it.left.map_or(String::new(), |left| format!(
            ", {} above the least",
            inch(left, Rounding::Down)
        )),
        it.stands
    ));
    all.push(format!(
        "She comes down by {} at the axle of the largest wheel, and gains {} percent in pull at the same pressure.",
        inch(it.drop, Rounding::Up),
        show::number(it.pull * 100.0, 2, Rounding::Down)
    ));
    all
}

/// What it lasts, a sentence each.
pub fn lasts(set: &TireSet) -> Vec<String> {
    let mut all = vec![match &set.wear {
        Ok(wear) => {
            let days = if wear.most == wear.days {
                wear.days.to_string()
            } else {
                format!("{} to {}", wear.days, wear.most)
            };
            let unsure = if wear.most == wear.days {
                ""
            } else {
                " Her log does not know how many: what follows is worked with the fewest, the fastest it can have been."
            };
            format!(
                "Fastest so far: the {} lost {} of its radius in {days} service days, {} to {}.{unsure}",
                wear.name,
                inch(wear.inches, Rounding::Up),
                super::day(wear.between.0),
                super::day(wear.between.1)
            )
        }
        Err(why) => format!("The rate of wear: cannot tell: needs {why}."),
    }];
    all.push(match &set.a_year {
        Ok(days) => format!("She does {days} service days in her busiest year of the last three."),
        Err(why) => format!("Service days in a year: cannot tell: needs {why}."),
    });
    if let Ok(it) = &set.proposal {
        let days = |days: Option<f64>| {
            days.map_or(NOT_KNOWN.into(), |days| {
                format!("{} service days", show::number(days, 0, Rounding::Down))
            })
        };
        all.push(format!(
            "From the cut to the hollow that condemns: {}; to the least thickness: {}, and each later turning takes its own metal.",
            days(it.to_hollow),
            days(it.life)
        ));
    }
    all.push(match &set.worn_out {
        Ok(day) => format!(
            "At that use the least thickness is come to about {}.",
            super::day(*day)
        ),
        Err(why) => format!("The day the least is come to: cannot tell: needs {why}."),
    });
    all.push(match &set.order_by {
        Ok(day) => format!("Order a new set by {} at the latest.", super::day(*day)),
        Err(why) => format!("The last day to order a new set: cannot tell: needs {why}."),
    });
    all
}

/// By how much a size moves, in words; `change` is what changed, inches.
pub fn moves(it: &Moved, change: Option<f64>) -> String {
    match (&it.share, change) {
        (Err(needs), _) => format!("cannot tell by how much: needs {}", needs.join(", ")),
        (Ok(share), Some(change)) => {
            let by = share * change;
            let sign = if by > 0.0 { "+" } else { "" };
            format!(
                "{sign}{} in ({} is plus)",
                show::number(by, 3, Rounding::Nearest),
                it.plus
            )
        }
        (Ok(share), None) => format!(
            "{} of it ({} is plus)",
            show::number(share.abs(), 3, Rounding::Nearest),
            it.plus
        ),
    }
}

/// The limits on a size.
pub fn limit(limits: &[String]) -> String {
    if limits.is_empty() {
        String::new()
    } else {
        format!("limit: {}", limits.join(", "))
    }
}

/// What is changed.
pub fn radius() -> &'static str {
    "Radius of the largest wheel at the tread"
}

/// By how much.
pub fn radius_goes(inches: f64) -> String {
    format!("-{}", inch(inches, Rounding::Up))
}

/// A part.
pub const TO_SAY: &str = "What must be said of it";
