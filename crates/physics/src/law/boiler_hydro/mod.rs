//! `boiler.hydro`: the pressures of a hydrostatic test and of the steam test after it.
//!
//! What share the law asks above the allowed pressure is an argument; without it there is no answer.

use crate::answer::{Answer, Outcome};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::{gauge_pressure, steam_safety_valve::MAWP};
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const SHARE: &str = "the allowed pressure times the rule's share";
const WATER: &str = "weight of cold water: .433 psi for each foot";

static CARD: Card = Card {
    id: "boiler.hydro",
    version: 1,
    title: "Pressures of a hydrostatic and a steam test",
    purpose: "What the gauge must show in the hydrostatic test, and between what the steam test after a repair lies, from \
        the allowed pressure and the shares that the rule gives.",
    formula: "
        p_t = P_m * (1 + x)
        p_l = P_m * y
        p_u = P_m * z
        p_w = 0.433 * h / 12
        p_g = p_t + p_w",
    book_units: Some(House::Inch),
    arguments: &[
        MAWP,
        Argument::quantity("test_above", "x", Dimension::Ratio, "0", "1", "share above the allowed pressure at which it is tested with water (49 CFR 230.36(b) gives it)").optional(),
        Argument::quantity("steam_low", "y", Dimension::Ratio, "0.5", "1.1", "least share of the allowed pressure in the steam test (49 CFR 230.37 gives it)").optional(),
        Argument::quantity("steam_high", "z", Dimension::Ratio, "0.5", "1.1", "greatest share of it in the steam test (49 CFR 230.37 gives it)").optional(),
        Argument::quantity("head", "h", Dimension::Length, "-30 ft", "30 ft", "how far the test gauge hangs below the top of the water; above it, with a minus").optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity("test_pressure", "p_t", Dimension::GaugePressure, (1, 0), "pressure of the hydrostatic test at the top of the water", SHARE).rounded(Rounding::Up),
        ResultSpec::quantity("steam_test_low", "p_l", Dimension::GaugePressure, (1, 0), "the least the steam test is made at", SHARE).rounded(Rounding::Up),
        ResultSpec::quantity("steam_test_high", "p_u", Dimension::GaugePressure, (1, 0), "the most it is made at", SHARE).rounded(Rounding::Down),
        ResultSpec::quantity("head_pressure", "p_w", Dimension::Stress, (2, 4), "what the water over the gauge adds to it", WATER),
        ResultSpec::quantity("at_gauge", "p_g", Dimension::GaugePressure, (1, 0), "what a true gauge then shows in the hydrostatic test", WATER).rounded(Rounding::Up),
    ],
    branches: &["test"],
    validity: "A boiler full of cold water with its air let out. The rule also gives the temperature of water and metal: \
        cold plate is brittle, and hot water hides leaks.",
    sources: &[
        Source {
            work: "U.S. Code of Federal Regulations, title 49, sections 230.35, 230.36 and 230.37",
            locator: "2015 edition",
            used_for: "which shares and temperatures a rule gives; the numbers are arguments",
        },
        Source {
            work: "American stationary engineering (1917)",
            locator: "page 113, the older marine rule",
            used_for: "a test of 150 for each 100 of working pressure, as a check",
        },
    ],
    cautions: &[
        "A hydrostatic test is run by qualified people by the rule in force: vent every pocket of air, pump by hand for the last pounds, stand clear of plugs, tubes and stays.",
        "Never test with air or gas: compressed, it bursts a boiler where water only leaks.",
        "Safety valves are taken off or held by those people alone, and every gag is counted in and counted out.",
        "After a test above the allowed pressure the boiler is inspected inside (49 CFR 230.36(c)) and its stays are hammered under pressure (49 CFR 230.40(a)).",
        boiler::QUALIFIED,
        boiler::REVIEW,
        boiler::FORM_4,
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mawp = inputs.need_si("mawp")?;
    let (low, high) = (inputs.si("steam_low"), inputs.si("steam_high"));
    if low.zip(high).is_some_and(|(low, high)| low > high) {
        return Err(SheetError::impossible(
            CARD.id,
            "steam_low is above steam_high",
            "the least share no greater than the greatest",
        ));
    }
    let mut answer = Answer::new("test");
    if let Some(low) = low {
        answer = answer.with("steam_test_low", Outcome::Si(mawp * low));
    }
    if let Some(high) = high {
        answer = answer.with("steam_test_high", Outcome::Si(mawp * high));
    }
    let test = inputs.si("test_above").map(|above| mawp * (1.0 + above));
    if let Some(test) = test {
        answer = answer.with("test_pressure", Outcome::Si(test));
    }
    if let Some(head) = inputs.length("head") {
        let water = gauge_pressure::head(head);
        answer = answer.with("head_pressure", water);
        if let Some(test) = test {
            answer = answer.with("at_gauge", Outcome::Si(test + water.to_pascals()));
        }
    }
    Ok(answer)
}
