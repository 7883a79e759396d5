//! The atmosphere where a gauge hangs: given, or by the altitude of the place; never taken for granted.
//!
//! Steam knows nothing of gauges: every sheet that asks the steam tables must first add the atmosphere, and a
//! mile up that is nearly three pounds less than by the sea.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Source, Symbol};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::steam::SteamError;
use measure::{AbsolutePressure, Dimension, GaugePressure};

/// The atmosphere, as it may be given.
pub(crate) const ATMOSPHERE: Argument = Argument::quantity(
    "atmosphere",
    "p_a",
    Dimension::AbsolutePressure,
    "8 psia",
    "16 psia",
    "atmosphere of the place, as a barometer that was not set to sea level shows it; or say altitude",
)
.optional();

/// The altitude, as it may be given instead.
pub(crate) const ALTITUDE: Argument = Argument::quantity(
    "altitude",
    "z",
    Dimension::Length,
    "-1400 ft",
    "15000 ft",
    "height of the place above the sea, instead of the atmosphere",
)
.optional();

/// The atmosphere as a value of the formula, where the altitude gave it.
pub(crate) const BY_ALTITUDE: Symbol = Symbol::of(
    "p_a",
    Dimension::AbsolutePressure,
    "atmosphere of the place, by its altitude",
    STANDARD,
);

/// The line that adds it.
pub(crate) const ADDED: &str = "gauge pressure with the atmosphere added";

/// What a result waits for that waits for the atmosphere.
const NEEDED: &str = "atmosphere or altitude";

const STANDARD: &str = "U.S. Standard Atmosphere, 1976";

/// Where the atmosphere of an altitude comes from.
pub(crate) const SOURCE: Source = Source {
    work: STANDARD,
    locator: "the lowest layer, which is that of the ICAO Standard Atmosphere (Doc 7488)",
    used_for: "the atmosphere where only the altitude is given; the weather moves it a few percent",
};

/// The atmosphere given or found; none when neither it nor the altitude was said.
///
/// # Errors
/// [`SheetError::Impossible`] when both were said.
pub(crate) fn told(
    inputs: &Inputs,
) -> Result<Option<(AbsolutePressure, Option<TableValue>)>, SheetError> {
    match (inputs.si("atmosphere"), inputs.length("altitude")) {
        (Some(_), Some(_)) => Err(SheetError::impossible(
            inputs.card.id,
            "both the atmosphere and the altitude were said",
            "one of them: the atmosphere where a barometer hangs, else the altitude",
        )),
        (Some(pascals), None) => Ok(Some((AbsolutePressure::pascals(pascals), None))),
        (None, Some(altitude)) => {
            let air = AbsolutePressure::at_altitude(altitude).map_err(|why| {
                SheetError::impossible(
                    inputs.card.id,
                    why.to_string(),
                    "an altitude a railroad reaches",
                )
            })?;
            let row = TableValue {
                symbol: BY_ALTITUDE,
                value: air.to_pascals(),
                printed: format!("{:.2} psia", air.to_psi()),
                row: format!("{STANDARD}, at {:.0} ft", altitude.to_ft()),
            };
            Ok(Some((air, Some(row))))
        }
        (None, None) => Ok(None),
    }
}

/// The absolute pressure behind the gauge pressure called `name`, and the row that gave the atmosphere; none
/// when neither the atmosphere nor the altitude was said.
///
/// # Errors
/// [`SheetError::Impossible`] when both were said.
pub(crate) fn absolute(
    inputs: &Inputs,
    name: &'static str,
) -> Result<Option<(AbsolutePressure, Option<TableValue>)>, SheetError> {
    let gauge = GaugePressure::pascals(inputs.need_si(name)?);
    Ok(told(inputs)?.map(|(air, row)| (gauge.absolute(air), row)))
}

/// Says of each of these results that it waits for the atmosphere.
pub(crate) fn waiting(answer: Answer, results: &[&'static str]) -> Answer {
    answer.waiting(results, &[NEEDED])
}

/// A pressure the steam tables do not reach, as an error of the sheet.
pub(crate) fn refused(sheet: &'static str, why: SteamError) -> SheetError {
    SheetError::impossible(sheet, format!("{} was asked for", why.what), why.expected)
}
