//! `fit.tire`: a tire shrunk on its wheel center: the heat, the stress, and what the old tables allowed.

use crate::answer::{Answer, Outcome, cannot_tell};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::fit;
use crate::given::Inputs;
use crate::law::fit_shrink::{EXPANSION, HEAT, MODULUS, RING, heated};
use measure::{Dimension, House, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const TABLE: &str = "tables/fit/tire-shrinkage.csv, read between its lines";
const DOOLEY: &str =
    "W. H. Dooley, Applied Science for Metal-Workers, section 453: .001 in for each inch";

static CARD: Card = Card {
    id: "fit.tire",
    version: 1,
    title: "Shrinking a tire on a wheel center",
    purpose: "The tire is bored smaller than the center by the shrinkage and heated to go over it. The rise \
        of temperature, the hoop stress it cools to, and the shrinkage of two old books beside the one given.",
    formula: "
        g = delta + c
        t = 100 * g / (e * d)
        sigma = E * delta / d
        q = 1000 * delta / d
        a = 0.001 * d",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "diameter",
            "d",
            Dimension::Length,
            "15 in",
            "100 in",
            "diameter of the wheel center, over the seat of the tire",
        ),
        Argument::quantity(
            "interference",
            "delta",
            Dimension::Length,
            "0.005 in",
            "0.2 in",
            "shrinkage: how much smaller the tire is bored, on the diameter",
        ),
        Argument::quantity(
            "clearance",
            "c",
            Dimension::Length,
            "0.005 in",
            "0.2 in",
            "room wanted to drop the tire on, on the diameter",
        ),
        Argument::word(
            "material",
            &["steel", "cast-steel"],
            "the metal of the tire",
        ),
        MODULUS,
    ],
    table_values: &[EXPANSION],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "temperature_rise",
            "t",
            Dimension::TemperatureRise,
            (0, 0),
            "rise of temperature of the tire",
            HEAT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "growth",
            "g",
            Dimension::Length,
            (4, 3),
            "growth wanted, on the diameter",
            "sizes added",
        ),
        ResultSpec::quantity(
            "hoop",
            "sigma",
            Dimension::Stress,
            (0, 1),
            "hoop stress when cold, at most",
            RING,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "per_inch",
            "q",
            Dimension::Ratio,
            (3, 3),
            "shrinkage in thousandths for each inch of diameter",
            "a ratio",
        ),
        ResultSpec::quantity(
            "allowance_table",
            "",
            Dimension::Length,
            (4, 3),
            "shrinkage by the Master Mechanics' table for this center",
            TABLE,
        ),
        ResultSpec::quantity(
            "allowance_rule",
            "a",
            Dimension::Length,
            (4, 3),
            "shrinkage by the rule of .001 in for each inch",
            DOOLEY,
        ),
        ResultSpec::text(
            "judged",
            "how the shrinkage given stands to the table",
            TABLE,
        ),
    ],
    branches: &[LISTED, OUTSIDE],
    validity: "A tire of even section heated evenly, the center cold. The hoop stress is that of a thin ring \
        on a center that gives nothing; a spoked center gives, and the true stress is less. The table covers \
        centers of 38 to 66 in; for others nothing is on file.",
    sources: &[
        Source {
            work: "F. D. Jones, Turning and Boring, quoting the American Railway Master Mechanics' Association",
            locator: "page 72 (read in a copy at bitlit.ru)",
            used_for: "shrinkage of tires by size of center",
        },
        Source {
            work: "W. H. Dooley, Applied Science for Metal-Workers (1914)",
            locator: "section 453",
            used_for: ".001 in for each inch of diameter",
        },
        Source {
            work: "Steam, Its Generation and Use (Babcock & Wilcox), Project Gutenberg text 22657",
            locator: "Table 6",
            used_for: "expansion of steel",
        },
    ],
    cautions: &[
        "A hot tire is lifted by people who know how, with nobody under it, and with the gauge tried in three \
            places before it moves.",
        "Too little shrinkage works loose, too much breaks: a thin tire rolls out in service and grows loose \
            sooner. Check witness marks at every inspection.",
        "Tire thickness, rims and the two wheels of an axle have limits of law: see the rule before the lathe.",
        "Old shrinkage of other roads and countries was heavier: do not mix their tables.",
    ],
    closed_form: ClosedForm::No(
        "the shrinkage of the old table is read between its lines; the rest is a formula",
    ),
};

const LISTED: &str = "center within the table";
const OUTSIDE: &str = "center outside the table";

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (diameter, given) = (
        inputs.need_length("diameter")?.to_inches(),
        inputs.need_length("interference")?.to_inches(),
    );
    let listed = fit::tire_shrinkage(CARD.id, diameter)?;
    let mut answer = heated(inputs, if listed.is_some() { LISTED } else { OUTSIDE })?
        .with("per_inch", Outcome::Si(1000.0 * given / diameter))
        .with("allowance_rule", Length::inches(0.001 * diameter));
    let (allowance, judged) = match listed {
        Some(listed) => {
            let apart = given - listed;
            let said = if apart.abs() <= 0.005 {
                "within .005 in of the table".to_owned()
            } else if apart > 0.0 {
                format!("{apart:.4} in more than the table: ask why before boring")
            } else {
                format!("{:.4} in less than the table: it may work loose", -apart)
            };
            (Outcome::Si(Length::inches(listed).to_m()), said)
        }
        None => {
            let said = cannot_tell(&["a table, and none is on file for this center"]);
            (Outcome::Text(said.clone()), said)
        }
    };
    answer = answer
        .with("allowance_table", allowance)
        .with("judged", judged);
    Ok(answer)
}
