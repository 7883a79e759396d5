//! `thread.mate`: the sizes of a new screw or nut to an old, measured and worn one: cold, and with the
//! growth of two metals when both are hot.
//!
//! A worn thread is of no class. Its mate is made to what was measured, with the clearance wanted, on
//! the pitch diameter and at crest and root alike. If the old one is a screw, the new nut is larger
//! than it by the clearance; if the old one is a nut, the new screw is smaller. When hot, the screw
//! grows by its metal and the nut by its own; where the screw grows more, that much is added, so that
//! the clearance is still there hot. Where the nut grows more nothing is taken off: the fit must also
//! go together cold.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::tables;
use crate::thread::has_core;
use measure::Length;

/// What the two metals do to a fit of this diameter when both are warmer by `rise_f` Fahrenheit
/// degrees: how much more the inner grows than the outer. The expansions are for 100 degrees.
pub fn lost(diameter: Length, inner: f64, outer: f64, rise_f: f64) -> Length {
    Length::m(diameter.to_m() * (inner - outer) * rise_f / 100.0)
}

/// Pitch diameter under the major, in pitches.
fn form(word: &str) -> Option<f64> {
    Some(match word {
        "unified" => 0.649_519,
        "sharp-v" => 0.866_025,
        "whitworth" => 0.640_327,
        "acme" | "square" => 0.5,
        "stub-acme" => 0.3,
        _ => return None,
    })
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let old = inputs.need_length("pitch_diameter")?;
    let clearance = inputs.need_length("clearance")?;
    let tolerance = inputs.length("tolerance");
    let pitch = Length::inches(1.0 / inputs.need_per_inch("tpi")?);
    let share = inputs.need_word("form", form)?;
    has_core(card::ID, old, pitch)?;
    // A new nut is larger than the old screw, a new screw smaller than the old nut.
    let (branch, way) = match inputs.word("side") {
        Some("external") => ("new nut", 1.0),
        _ => ("new screw", -1.0),
    };
    let near = |size: Length, gap: Length| Length::m(size.to_m() + way * gap.to_m());
    let limits = |gap: Length, tolerance: Length| {
        let (a, b) = (
            near(old, gap).to_m(),
            near(old, gap).to_m() + way * tolerance.to_m(),
        );
        (Length::m(a.min(b)), Length::m(a.max(b)))
    };
    let mut answer = Answer::new(branch).with("pitch_near", near(old, clearance));
    if let Some(tolerance) = tolerance {
        let cold = limits(clearance, tolerance);
        answer = answer.with("pitch_min", cold.0).with("pitch_max", cold.1);
    }
    answer.table_values = vec![
        TableValue::inch_book(card::SHARE, share, "by the form"),
        TableValue::inch_book(card::WAY, way, format!("for a {branch}")),
    ];
    for (name, reading) in [
        ("major_limit", inputs.length("major")),
        ("minor_limit", inputs.length("minor")),
    ] {
        if let Some(reading) = reading {
            answer = answer.with(name, near(reading, clearance));
        }
    }
    if let Some(major) = inputs.length("major") {
        let off = major.to_m() - old.to_m() - share * pitch.to_m();
        answer = answer.with("crest_off", Length::m(off));
        if off.abs() > 0.1 * pitch.to_m() {
            answer.notices.push(
                "The crests of the old thread stand far from where its pitch diameter puts them: worn, \
                 or of another form than was told. Identify it first."
                    .to_owned(),
            );
        }
    }
    let metals = inputs.words("materials");
    let rise = inputs
        .need_rise("rise")
        .ok()
        .map(|rise| rise.to_f_degrees());
    if let ([new, worn], Some(rise)) = (metals, rise) {
        let (screw, nut) = if way > 0.0 { (worn, new) } else { (new, worn) };
        let inner = tables::expansion(card::ID, screw)?;
        let outer = tables::expansion(card::ID, nut)?;
        let lost = lost(old, inner.per_100f, outer.per_100f, rise);
        let gap = Length::m(clearance.to_m() + lost.to_m().max(0.0));
        answer = answer
            .with("growth_lost", lost)
            .with("pitch_near_hot", near(old, gap))
            .with("clearance_when_hot", Length::m(gap.to_m() - lost.to_m()));
        if let Some(tolerance) = tolerance {
            let hot = limits(gap, tolerance);
            answer = answer
                .with("pitch_min_hot", hot.0)
                .with("pitch_max_hot", hot.1);
        }
        for (name, reading) in [
            ("major_limit_hot", inputs.length("major")),
            ("minor_limit_hot", inputs.length("minor")),
        ] {
            if let Some(reading) = reading {
                answer = answer.with(name, near(reading, gap));
            }
        }
        let row = |what: &str, row: &tables::Expansion| {
            format!("{what}: {}, {}", row.material, row.source)
        };
        answer.table_values.push(TableValue::inch_book(
            card::INNER,
            inner.per_100f,
            row("screw", inner),
        ));
        answer.table_values.push(TableValue::inch_book(
            card::OUTER,
            outer.per_100f,
            row("nut", outer),
        ));
    } else {
        let hot = [
            "growth_lost",
            "pitch_near_hot",
            "pitch_min_hot",
            "pitch_max_hot",
            "clearance_when_hot",
            "major_limit_hot",
            "minor_limit_hot",
        ];
        answer = answer.waiting(&hot, &inputs.wanting(&["materials", "rise"]));
        answer.notices.push(
            "Cold only. A stem or nut that gets hot wants its metals and its rise told: bronze in iron \
             or on steel may seize."
                .to_owned(),
        );
    }
    answer.notices.push(
        "The old thread is measured where it is largest (a screw) or smallest (a nut): where it is least \
         worn the mate must still pass. If that spoils the fit where it works, the old one is the part to \
         renew."
            .to_owned(),
    );
    Ok(answer)
}
