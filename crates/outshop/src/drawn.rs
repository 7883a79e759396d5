//! The drawing that belongs to a worked sheet, for pages and for paper alike.
//!
//! What is drawn comes from the sheet alone, and the sheet's own figures are repeated to the letter.

use drawing::{Drawing, SeatSection, SeatStated, Title, seat_section};
use measure::{Angle, Length};
use physics::{Sheet, Shown};

use crate::words::sheet as say;

/// The drawing of what a sheet computes, where there is one; why not, where its sizes cannot be drawn.
pub fn of_sheet(sheet: &Sheet, title: Title) -> Option<Result<Drawing, String>> {
    (sheet.card.id == "seat.correct").then(|| seat(sheet, title))
}

/// The seat before and after, from the sheet's own inputs and results.
fn seat(sheet: &Sheet, title: Title) -> Result<Drawing, String> {
    let input = |name: &str| {
        let input = sheet.inputs.iter().find(|input| input.name == name)?;
        match input.value {
            Shown::Quantity { si, .. } => si,
            _ => None,
        }
    };
    let need = |name: &str| input(name).ok_or_else(|| say::needs(name));
    let says = |name: &str| match sheet.result(name) {
        Some(Shown::Quantity { shown, .. }) => Some(shown.clone()),
        _ => None,
    };
    let seat = SeatSection {
        port: Length::m(need("port")?),
        land: Length::m(need("land")?),
        found_half_angle: Angle::radians(need("found_half_angle")?),
        wanted_half_angle: Angle::radians(need("wanted_half_angle")?),
        wall: input("wall").map(Length::m),
        body_outside: None,
        disc_outside: None,
        stated: SeatStated {
            outside: says("outside"),
            land_after: says("new_land"),
            take: says("wedge"),
            sink: says("axial_sink"),
            wall_after: says("metal_left"),
        },
    };
    let title = Title {
        drawing: say::SEAT.to_owned(),
        sheets: vec![sheet.card.id.to_owned()],
        ..title
    };
    seat_section(&seat, sheet.house, title).map_err(|why| why.to_string())
}
