//! `lathe.turning`: spindle speed, time and power of one cut.
//!
//! Speeds in books are ranges, so that is what comes out: the low end to begin with, the high end for
//! good bar, a sharp tool and coolant. Time and power are worked at the low end.

use crate::answer::{Answer, Outcome, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::csv::{self, Table};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Force, House, Rounding};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const TABLE: &str = include_str!("../../../../../tables/material/cutting.csv");
const FILE: &str = "tables/material/cutting.csv";
const SPEED: &str = "surface speed over circumference";
const POWER: &str = "volume cut times unit power";
const WORN: &str = "a quarter more for a worn tool, as the table's source has it";

/// The metals of the table, in its order.
const METALS: [&str; 10] = [
    "mild-steel",
    "cast-steel",
    "alloy-steel-hard",
    "tool-steel",
    "stainless-steel",
    "cast-iron-soft",
    "cast-iron-hard",
    "brass",
    "bronze",
    "copper",
];
const LOW: Symbol = Symbol::of("V_l", Dimension::Speed, "surface speed, low end", FILE);
const HIGH: Symbol = Symbol::of("V_h", Dimension::Speed, "surface speed, high end", FILE);
const UNIT: Symbol = Symbol::named(
    "u",
    "hp for 1 cu in a minute",
    "unit power, sharp tool",
    FILE,
);

static CARD: Card = Card {
    id: "lathe.turning",
    version: 1,
    title: "Turning: speed, time and power",
    purpose: "For a metal and a kind of tool: the spindle speeds between which to begin, the time of one cut \
        and the power and force it asks of the lathe.",
    formula: "
        v_l = V_l
        v_h = V_h
        N = 12 * V_l / (pi * d)
        N_h = 12 * V_h / (pi * d)
        t = L / (f * N)
        Q = 12 * V_l * f * a
        P = Q * u
        P_w = 1.25 * P
        F = 33000 * P_w / V_l",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word("material", &METALS, "the metal turned"),
        Argument::word(
            "tool",
            &["hss", "carbide"],
            "what the tool is of: high speed steel or carbide",
        ),
        Argument::quantity(
            "diameter",
            "d",
            Dimension::Length,
            "0.05 in",
            "100 in",
            "diameter being cut",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "0.01 in",
            "240 in",
            "length of the cut",
        ),
        Argument::quantity(
            "depth",
            "a",
            Dimension::Length,
            "0.0005 in",
            "0.75 in",
            "depth of the cut, square to the surface: half of what the diameter loses",
        ),
        Argument::quantity(
            "feed",
            "f",
            Dimension::Length,
            "0.0005 in",
            "0.1 in",
            "feed for each turn",
        ),
    ],
    table_values: &[LOW, HIGH, UNIT],
    lines: &[Symbol::named(
        "Q",
        "cu in a minute",
        "metal cut",
        "speed, feed and depth multiplied",
    )],
    results: &[
        ResultSpec::quantity(
            "speed_low",
            "v_l",
            Dimension::Speed,
            (0, 1),
            "surface speed to begin with",
            FILE,
        ),
        ResultSpec::quantity(
            "speed_high",
            "v_h",
            Dimension::Speed,
            (0, 1),
            "surface speed at most",
            FILE,
        ),
        ResultSpec::quantity(
            "rpm",
            "N",
            Dimension::Ratio,
            (0, 0),
            "turns a minute to begin with",
            SPEED,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "rpm_high",
            "N_h",
            Dimension::Ratio,
            (0, 0),
            "turns a minute at most",
            SPEED,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "time",
            "t",
            Dimension::Ratio,
            (2, 2),
            "minutes for one cut at the lower speed",
            "length over feed and speed",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "power",
            "P",
            Dimension::Ratio,
            (2, 2),
            "horsepower at a sharp tool, at the lower speed",
            POWER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "power_worn",
            "P_w",
            Dimension::Ratio,
            (2, 2),
            "horsepower at a worn tool: what the lathe must give after its own losses",
            WORN,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "force",
            "F",
            Dimension::Force,
            (0, 0),
            "cutting force down on a worn tool",
            POWER,
        )
        .rounded(Rounding::Up),
        ResultSpec::text("feeds", "feeds usual for this metal", FILE),
    ],
    branches: &["hss", "carbide"],
    validity: "A stiff lathe, a short overhang and a sharp tool at center height. The table is for roughing and \
        finishing in ordinary shop work; slender work, interrupted cuts, boring bars and scale want less speed.",
    sources: &[
        Source {
            work: "docslib 5103932, machine tool speeds and feeds",
            locator: "its table for high speed steel; carbide at twice the speed",
            used_for: "surface speeds and feeds",
        },
        Source {
            work: "M. Groover, Fundamentals of Modern Manufacturing",
            locator: "table 20.2 (reproduced at transtutors.com 10319374)",
            used_for: "unit power, and a quarter more for wear",
        },
    ],
    cautions: &[
        "Eyes covered, no gloves, sleeves or rag near the work; chuck key out before the switch.",
        "A chuck has a greatest speed stamped on it: that goes before any figure here. Unbalanced castings go \
            slower still.",
        "Long stringy chips are hooked off with the lathe stopped, never pulled by hand.",
        "Dust of cast iron and of bronzes with lead is swept and drawn off, not blown.",
    ],
    closed_form: ClosedForm::Yes,
};

/// One row of the table.
struct Metal {
    name: String,
    low: f64,
    high: f64,
    feeds: [String; 2],
    unit: Option<f64>,
    of: String,
}

static SPEEDS: Table<Metal> = Table::new("table of speeds", || {
    let heading = [
        "material",
        "speed_low",
        "speed_high",
        "feed_rough",
        "feed_finish",
        "unit_power",
        "power_for",
    ];
    csv::each(
        TABLE,
        &heading,
        |[name, low, high, rough, finish, unit, of]| {
            Ok(Metal {
                name,
                low: csv::number(&low)?,
                high: csv::number(&high)?,
                feeds: [rough, finish],
                unit: csv::unless_empty(&unit, csv::number)?,
                of,
            })
        },
    )
});

/// Turns a minute of work `diameter` inches across at a surface speed of `speed` feet a minute.
///
/// Source: a circumference for each turn, twelve inches to the foot.
pub fn turns(speed: f64, diameter: f64) -> f64 {
    12.0 * speed / (PI * diameter)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let need = |name| inputs.need_inch(name);
    let (diameter, length, depth, feed) = (
        need("diameter")?,
        need("length")?,
        need("depth")?,
        need("feed")?,
    );
    if 2.0 * depth > diameter + 1e-9 {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a cut {depth:.4} in deep goes through the middle of {diameter:.4} in"),
            "a depth of not more than half the diameter",
        ));
    }
    let name = inputs.word("material").unwrap_or_default();
    let metal = SPEEDS.row(CARD.id, name, |row| row.name == name)?;
    let carbide = inputs.word("tool") == Some("carbide");
    let times = if carbide { 2.0 } else { 1.0 };
    let (low, high) = (times * metal.low, times * metal.high);
    let rpm = turns(low, diameter);
    let foot_per_minute = |speed: f64| Outcome::Si(measure::Speed::ft_per_min(speed).to_m_per_s());
    let mut answer = Answer::new(if carbide { "carbide" } else { "hss" })
        .with("speed_low", foot_per_minute(low))
        .with("speed_high", foot_per_minute(high))
        .with("rpm", Outcome::Si(rpm))
        .with("rpm_high", Outcome::Si(turns(high, diameter)))
        .with("time", Outcome::Si(length / (feed * rpm)));
    let row = if carbide {
        "twice the figure for high speed steel"
    } else {
        "high speed steel"
    };
    answer.table_values = vec![
        TableValue::inch_book(LOW, low, format!("{FILE}, {row}")),
        TableValue::inch_book(HIGH, high, format!("{FILE}, {row}")),
    ];
    if let Some(unit) = metal.unit {
        let power = 12.0 * low * feed * depth * unit;
        let worn = 1.25 * power;
        answer = answer
            .with("power", Outcome::Si(power))
            .with("power_worn", Outcome::Si(worn))
            .with("force", Force::lbf(33_000.0 * worn / low));
        answer.table_values.push(TableValue::inch_book(
            UNIT,
            unit,
            format!("{FILE}, for {}", metal.of),
        ));
    } else {
        answer = answer.waiting(
            &["power", "power_worn", "force"],
            &["a unit power, and none is on file for this metal"],
        );
    }
    let [rough, finish] = &metal.feeds;
    let feeds = if rough.is_empty() {
        "none on file for this metal".to_owned()
    } else {
        format!("{rough} in a turn roughing, {finish} finishing")
    };
    Ok(answer.with("feeds", feeds))
}
