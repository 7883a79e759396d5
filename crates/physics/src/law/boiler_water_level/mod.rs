//! `boiler.water_level`: how far the lowest water that can be seen stands over the crown sheet.

use crate::answer::{Answer, Outcome, less};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const HEIGHTS: &str = "difference of two heights";
const LAW: &str = "what is there less what the rule asks";

static CARD: Card = Card {
    id: "boiler.water_level",
    version: 1,
    title: "Lowest water over the crown sheet",
    purpose: "Whether the lowest reading of a water glass, and the lowest gauge cock where there are cocks, stand as far \
        above the highest part of the crown sheet as the rule asks. All heights from one level mark.",
    formula: "
        m_g = g - c
        m_k = k - c
        s_g = m_g - r
        s_k = m_k - r",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "crown_height",
            "c",
            Dimension::Length,
            "0 in",
            "200 in",
            "height of the highest part of the crown sheet over the mark",
        ),
        Argument::quantity(
            "glass_low",
            "g",
            Dimension::Length,
            "0 in",
            "200 in",
            "height of the lowest water that the glass can show, over the same mark",
        ),
        Argument::quantity(
            "cock_low",
            "k",
            Dimension::Length,
            "0 in",
            "200 in",
            "height of the lowest gauge cock, where cocks are fitted",
        )
        .optional(),
        Argument::quantity(
            "least_above",
            "r",
            Dimension::Length,
            "0 in",
            "12 in",
            "least height over the crown sheet that the rule asks (49 CFR 230.51 gives it)",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "margin_glass",
            "m_g",
            Dimension::Length,
            (3, 2),
            "lowest reading of the glass over the crown sheet",
            HEIGHTS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "margin_cock",
            "m_k",
            Dimension::Length,
            (3, 2),
            "lowest gauge cock over the crown sheet",
            HEIGHTS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "spare_glass",
            "s_g",
            Dimension::Length,
            (3, 2),
            "what the glass has beyond what is asked",
            LAW,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "spare_cock",
            "s_k",
            Dimension::Length,
            (3, 2),
            "what the cock has beyond it",
            LAW,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("glass", "the glass against the rule", LAW),
        ResultSpec::text("cock", "the cock against the rule", LAW),
    ],
    branches: &["level"],
    validity: "The engine level fore and aft and across: on a grade the water leaves one end of the crown sheet, and no \
        figure here speaks of that. The lowest water a glass can show is where its lower nut or guard begins to hide it. \
        Work it for each glass.",
    sources: &[Source {
        work: "U.S. Code of Federal Regulations, title 49, section 230.51",
        locator: "2015 edition",
        used_for: "that the lowest reading stands a given height over the highest part of the crown sheet; the number is an argument",
    }],
    cautions: &[
        "Low water bares the crown sheet, which softens and comes down: the boiler explodes. A glass too low is put right before the next fire.",
        "Heights are taken from a water level or a transit, twice, by two people; a crown sheet sags and is measured at its highest.",
        "A glass is blown through before it is believed; a shut or choked cock shows water that is not there.",
        "Heights are measured on a cold, empty boiler made safe for entry by people qualified for confined spaces.",
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// How far a lowest reading stands over the crown sheet; below it, with a minus. Both heights from one mark.
pub fn margin(low: Length, crown: Length) -> Length {
    Length::m(less(low.to_m(), crown.to_m(), Dimension::Length))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let crown = inputs.need_length("crown_height")?;
    let asked = inputs.si("least_above");
    let mut answer = Answer::new("level");
    for (given, [over, spare, verdict]) in [
        ("glass_low", ["margin_glass", "spare_glass", "glass"]),
        ("cock_low", ["margin_cock", "spare_cock", "cock"]),
    ] {
        let Some(low) = inputs.length(given) else {
            answer = answer.waiting(&[verdict], &[given]);
            continue;
        };
        let over_crown = margin(low, crown);
        answer = answer.with(over, over_crown);
        if over_crown.to_m() <= 0.0 {
            answer.notices.push(format!(
                "{given} stands no higher than the crown sheet: the sheet can be bare with water still in sight."
            ));
        }
        let Some(asked) = asked else {
            answer = if over_crown.to_m() <= 0.0 {
                answer.with(verdict, "fails: no higher than the crown sheet".to_owned())
            } else {
                answer.waiting(&[verdict], &["least_above"])
            };
            continue;
        };
        let left = less(over_crown.to_m(), asked, Dimension::Length);
        let said = if left >= 0.0 && over_crown.to_m() > 0.0 {
            "complies"
        } else {
            "fails"
        };
        answer = answer
            .with(spare, Outcome::Si(left))
            .with(verdict, said.to_owned());
    }
    Ok(answer)
}
