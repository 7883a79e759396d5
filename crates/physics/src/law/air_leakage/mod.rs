//! `air.leakage`: how fast the air goes, and for how long a brake holds.

use crate::answer::{Answer, less};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Dimension, House, Rounding, Stress, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const MEAN: &str = "fall of pressure over the time it took";

static CARD: Card = Card {
    id: "air.leakage",
    version: 1,
    title: "Leakage of air, and a brake that must hold",
    purpose: "How far the pressure falls in a minute, on the average of the test, against the most that is allowed; for \
        brake cylinders, whether the brake was still on at the end of the time it must hold.",
    formula: "
        r = (p_s - p_e) / n
        l = m - r
        p_w = p_o * f
        y = p_s - p_w",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "kind",
            &["main-reservoir", "brake-pipe", "brake-cylinder"],
            "what is tested",
        ),
        Argument::quantity(
            "start",
            "p_s",
            Dimension::GaugePressure,
            "0.1 psig",
            "600 psig",
            "pressure at the start",
        ),
        Argument::quantity(
            "end",
            "p_e",
            Dimension::GaugePressure,
            "0 psig",
            "600 psig",
            "pressure at the end",
        ),
        Argument::quantity(
            "minutes",
            "n",
            Dimension::Ratio,
            "0.1",
            "240",
            "how long it took, in minutes",
        ),
        figure(
            "limit",
            "m",
            Dimension::Stress,
            "0.01 psi",
            "100 psi",
            "the most it may fall in a minute, by the law in force; the figure itself passes",
        ),
        figure(
            "least_minutes",
            "n_m",
            Dimension::Ratio,
            "0.1",
            "240",
            "how long the reservoir's test must be, or a brake hold, in minutes; a brake pipe's rate asks for none",
        ),
        Argument::quantity(
            "operating",
            "p_o",
            Dimension::GaugePressure,
            "1 psig",
            "600 psig",
            "highest operating pressure of the main reservoir",
        )
        .optional(),
        figure(
            "start_share",
            "f",
            Dimension::Ratio,
            "0.05",
            "1",
            "share of it at which the test begins, by the law in force",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "rate",
            "r",
            Dimension::Stress,
            (2, 4),
            "fall of pressure in a minute",
            MEAN,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Stress,
            (2, 4),
            "what is left to the most that is allowed; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "start_wanted",
            "p_w",
            Dimension::GaugePressure,
            (1, 0),
            "pressure at which the test begins",
            FIGURE,
        ),
        ResultSpec::quantity(
            "start_off",
            "y",
            Dimension::Stress,
            (1, 4),
            "how far above that it began; below, with a minus",
            FIGURE,
        ),
        ResultSpec::text("complies", "how it stands to the figures given", FIGURE),
    ],
    branches: &["falls", "holds"],
    validity: "All supply shut off, the air at one temperature throughout: a tank that cools falls without a leak.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.78",
        used_for: "which tests are made and how; no figure of it is in this sheet",
    }],
    cautions: &[
        "Wheels blocked before the brake is tried: an engine on leaking air is an engine without brakes.",
        "Look for the leak with soap and water, never by hand on a fitting under pressure; let the air out before a joint is \
            opened.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The fall of pressure in a minute, both pressures in Pa by the gauge.
pub fn rate(start: f64, end: f64, minutes: f64) -> Stress {
    Stress::pascals(less(start, end, Dimension::GaugePressure) / minutes)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (start, end) = (inputs.need_si("start")?, inputs.need_si("end")?);
    let minutes = inputs.need_si("minutes")?;
    let holds = inputs.word("kind") == Some("brake-cylinder");
    if end > start {
        return Err(SheetError::impossible(
            CARD.id,
            "the pressure rose during the test",
            "all supply shut off, and an end no higher than the start",
        ));
    }
    let fall = rate(start, end, minutes);
    let (limit, least) = (inputs.si("limit"), inputs.si("least_minutes"));
    let long_enough = least.is_some_and(|least| Bound::AtLeast.holds(minutes, least));
    let held = if holds {
        match (least, end > 0.0) {
            (None, _) => Held::default().need("least_minutes"),
            (Some(_), true) if !long_enough => Held::default().need("a longer test"),
            (Some(least), true) => Held::default().hold(
                "time held",
                (Some(minutes), "minutes"),
                Bound::AtLeast,
                (Some(least), "least_minutes"),
            ),
            // Whether it let go at the last moment or at the first is not told.
            (Some(least), false) => Held::default().hold(
                "time held",
                (Some(minutes), "minutes"),
                Bound::Above,
                (Some(least), "least_minutes"),
            ),
        }
    } else {
        let held = Held::default().hold(
            "fall of pressure",
            (Some(fall.to_pascals()), "end"),
            Bound::AtMost,
            (limit, "limit"),
        );
        match (inputs.word("kind"), least) {
            (Some("brake-pipe"), _) => held,
            (_, None) => held.need("least_minutes"),
            (_, Some(_)) if long_enough => held,
            (_, Some(_)) => held.need("a longer test"),
        }
    };
    let mut answer = Answer::new(if holds { "holds" } else { "falls" })
        .with("rate", fall)
        .with("complies", held.words());
    if let Some(limit) = limit {
        answer = answer.with(
            "left",
            Stress::pascals(less(limit, fall.to_pascals(), Dimension::GaugePressure)),
        );
    }
    if (limit.is_none() && !holds) || (least.is_none() && holds) {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    if let Some((operating, share)) = inputs.si("operating").zip(inputs.si("start_share")) {
        let wanted = operating * share;
        answer = answer
            .with("start_wanted", crate::answer::Outcome::Si(wanted))
            .with(
                "start_off",
                Stress::pascals(less(start, wanted, Dimension::GaugePressure)),
            );
        if (start - wanted).abs() > 1e-9 * wanted {
            answer.notices.push(format!(
                "The test began {} psi {} the pressure wanted: what that matters is for whoever answers for the test.",
                show::number((start - wanted).abs() / measure::Unit::Psi.to_si(1.0), 1, Rounding::Nearest),
                if start > wanted { "above" } else { "below" }
            ));
        }
    }
    Ok(answer)
}
