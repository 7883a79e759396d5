//! The drawings that belong to a worked sheet, for pages and for paper alike.
//!
//! What is drawn comes from the sheet alone, and the sheet's own figures are repeated to the letter.

use drawing::{
    Drawing, Kept, LapFace, RivetedSeam, SeamRow, SeatSection, SeatStated, Title, TurnedBushing,
    lap_face, riveted_seam, seat_section, turned_bushing,
};
use measure::{Angle, House, Length};
use physics::law::boiler_seam::{Through, rows, told_rows};
use physics::{Sheet, Shown};

use crate::words::sheet as say;

/// The drawings of what a sheet computes, none for most sheets; why not, where its sizes cannot be drawn.
pub fn of_sheet(sheet: &Sheet, title: &Title) -> Vec<Result<Drawing, String>> {
    match sheet.card.id {
        "seat.correct" => {
            let seat = seat(sheet, title);
            // What cannot be drawn as a seat asks for no lap either, and is refused once.
            let lap = seat.is_ok().then(|| lap(sheet, title));
            std::iter::once(seat).chain(lap).collect()
        }
        "fit.bushing" => vec![bushing(sheet, title)],
        "boiler.seam" => vec![seam(sheet, title)],
        _ => Vec::new(),
    }
}

/// An input of the sheet, SI.
fn input(sheet: &Sheet, name: &str) -> Option<f64> {
    let input = sheet.inputs.iter().find(|input| input.name == name)?;
    match input.value {
        Shown::Quantity { si, .. } => si,
        _ => None,
    }
}

/// The same where nothing can be drawn without it.
fn need(sheet: &Sheet, name: &str) -> Result<f64, String> {
    input(sheet, name).ok_or_else(|| say::needs(name))
}

/// An input of the sheet that is a word or a list, as it was entered.
fn word<'a>(sheet: &'a Sheet, name: &str) -> Option<&'a str> {
    let input = sheet.inputs.iter().find(|input| input.name == name)?;
    match &input.value {
        Shown::Text(text) => Some(text),
        _ => None,
    }
}

/// A result as the sheet prints it, without its unit.
fn says(sheet: &Sheet, name: &str) -> Option<String> {
    match sheet.result(name) {
        Some(Shown::Quantity { shown, .. }) => Some(shown.clone()),
        _ => None,
    }
}

/// The title block of a drawing of this sheet.
fn titled(drawing: &str, sheet: &Sheet, title: &Title) -> Title {
    Title {
        drawing: drawing.to_owned(),
        sheets: vec![sheet.card.id.to_owned()],
        ..title.clone()
    }
}

/// A result that is a length, at the size the sheet prints: a drawing must not say it finer.
fn printed(sheet: &Sheet, name: &str) -> Result<Kept, String> {
    let figure = says(sheet, name).and_then(|text| text.parse::<f64>().ok());
    let figure = figure.ok_or_else(|| say::needs(name))?;
    Ok(Kept::from(match sheet.house {
        House::Inch => Length::inches(figure),
        House::Metric => Length::mm(figure),
    }))
}

/// The bushing as it is turned, with the bore it is brought to in the rod.
fn bushing(sheet: &Sheet, title: &Title) -> Result<Drawing, String> {
    let bushing = TurnedBushing {
        outside: printed(sheet, "bushing_outside")?,
        bore: Length::m(need(sheet, "bore")?).into(),
        bore_after: Some(printed(sheet, "bore_after")?),
        length: Length::m(need(sheet, "length")?).into(),
        collar: None,
        lead: None,
    };
    turned_bushing(&bushing, sheet.house, titled(say::BUSHING, sheet, title))
        .map_err(|why| why.to_string())
}

/// What the seat asks of its lap.
fn lap(sheet: &Sheet, title: &Title) -> Result<Drawing, String> {
    let outside = match sheet.result("outside") {
        Some(Shown::Quantity { si: Some(si), .. }) => *si,
        _ => return Err(say::needs("outside")),
    };
    let face = LapFace {
        port: Length::m(need(sheet, "port")?),
        outside: Length::m(outside),
        outside_stated: says(sheet, "outside"),
        half_angle: Angle::radians(need(sheet, "wanted_half_angle")?),
    };
    lap_face(&face, sheet.house, titled(say::LAP, sheet, title)).map_err(|why| why.to_string())
}

/// The seat before and after, from the sheet's own inputs and results.
fn seat(sheet: &Sheet, title: &Title) -> Result<Drawing, String> {
    let seat = SeatSection {
        port: Length::m(need(sheet, "port")?),
        land: Length::m(need(sheet, "land")?),
        found_half_angle: Angle::radians(need(sheet, "found_half_angle")?),
        wanted_half_angle: Angle::radians(need(sheet, "wanted_half_angle")?),
        wall: input(sheet, "wall").map(Length::m),
        body_outside: None,
        disc_outside: None,
        stated: SeatStated {
            outside: says(sheet, "outside"),
            land_after: says(sheet, "new_land"),
            take: says(sheet, "wedge"),
            sink: says(sheet, "axial_sink"),
            wall_after: says(sheet, "metal_left"),
        },
    };
    seat_section(&seat, sheet.house, titled(say::SEAT, sheet, title)).map_err(|why| why.to_string())
}

/// A seam over one unit of its length; a sheet knows neither the distance of its rows nor that to its edges.
fn seam(sheet: &Sheet, title: &Title) -> Result<Drawing, String> {
    let kind = word(sheet, "kind").ok_or_else(|| say::needs("kind"))?;
    let told = || {
        let counts = word(sheet, "rows").ok_or_else(|| say::needs("rows"))?;
        let counts: Vec<u32> = counts
            .split(',')
            .filter_map(|count| count.trim().parse().ok())
            .collect();
        let double = need(sheet, "double_rows")? as usize;
        told_rows(&counts, double).ok_or_else(|| say::needs("rows"))
    };
    let rows = rows(kind).map_or_else(told, Ok)?;
    let butt = rows.iter().all(|row| row.through != Through::Lap);
    let strap = if butt {
        Some(need(sheet, "strap")?)
    } else {
        None
    };
    let weakest = match sheet.result("weakest") {
        Some(Shown::Text(mode)) if says(sheet, "efficiency").is_some() => Some(mode.clone()),
        _ => None,
    };
    let row = |row: &physics::law::boiler_seam::Row| SeamRow {
        rivets: row.rivets,
        both_straps: row.through == Through::BothStraps,
    };
    let seam = RivetedSeam {
        pitch: Length::m(need(sheet, "pitch")?),
        plate: Length::m(need(sheet, "thickness")?),
        strap: strap.map(Length::m),
        rivet: Length::m(need(sheet, "rivet")?),
        rows: rows.iter().map(row).collect(),
        teeth: kind == "saw-tooth",
        row_spacing: None,
        edge: None,
        weakest,
    };
    riveted_seam(&seam, sheet.house, titled(say::SEAM, sheet, title)).map_err(|why| why.to_string())
}
