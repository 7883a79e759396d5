//! Drawings on pages: which drawing a worked sheet or a job has, shown for a phone and for a desk, with its notes.
//!
//! What is drawn comes from a worked sheet alone, and a sheet's own figures are repeated to the letter.

use drawing::{Drawing, Laid, PageWidth, SeatSection, SeatStated, Title, seat_section};
use maud::{Markup, PreEscaped, html};
use measure::{Angle, Length};
use physics::{Sheet, Shown};
use shop::book::PrintedSheet;

use super::View;
use crate::words::sheet as say;

/// The drawing of what a sheet computes, where there is one; why not, where its sizes cannot be drawn.
pub fn of_sheet(sheet: &Sheet, title: Title) -> Option<Result<Drawing, String>> {
    (sheet.card.id == "seat.correct").then(|| seat(sheet, title))
}

/// What the title block says besides the name and the sheet.
pub fn title(view: &View<'_>, part: Option<String>) -> Title {
    Title {
        shop: view.book.shop.as_ref().map(|shop| shop.name.clone()),
        part,
        as_of: Some(view.on.to_string()),
        ..Title::default()
    }
}

/// Every drawing of these sheets. `kept` are the sheets of a decision or a job as printed that day: one that
/// would read differently now is not drawn, and that is said.
pub fn of_sheets(
    view: &View<'_>,
    part: &str,
    sheets: &[Sheet],
    kept: Option<&[PrintedSheet]>,
) -> Markup {
    let reads_as_kept = |sheet: &Sheet| {
        kept.is_none_or(|kept| {
            let mut same = kept.iter().filter(|one| one.sheet == sheet.card.id);
            same.any(|one| one.text == sheet.to_text())
        })
    };
    let is_kept =
        |sheet: &Sheet| kept.is_none_or(|kept| kept.iter().any(|one| one.sheet == sheet.card.id));
    html! {
        @for sheet in sheets.iter().filter(|sheet| is_kept(sheet)) {
            @if let Some(drawing) = of_sheet(sheet, title(view, Some(part.to_owned()))) {
                @if reads_as_kept(sheet) { (shown(drawing)) } @else { p class="quiet" { (say::NOT_AS_KEPT) } }
            }
        }
    }
}

/// A drawing under its heading, or why there is none.
pub fn shown(drawing: Result<Drawing, String>) -> Markup {
    let laid = drawing.and_then(|drawing| {
        let page = |width| drawing.for_page(width).map_err(|why| why.to_string());
        Ok((
            page(PageWidth::Narrow)?,
            page(PageWidth::Wide)?,
            drawing.notes,
        ))
    });
    html! {
        h2 { (say::DRAWN) }
        @match laid {
            Ok((narrow, wide, notes)) => {
                div class="drawing" {
                    (framed("drawn narrow", &narrow, 3.6))
                    (framed("drawn wide", &wide, 7.0))
                    ul class="small" { @for note in &notes { li { (note) } } }
                }
            }
            Err(why) => p { (say::not_drawn(&why)) },
        }
    }
}

/// One of the two widths. A drawing wider than `usual` scrolls, so it can be reached with the keyboard.
fn framed(class: &str, laid: &Laid, usual: f64) -> Markup {
    let scrolls = (laid.width > usual + 0.01).then_some("0");
    let label = scrolls.map(|_| laid.name.as_str());
    html! { div class=(class) tabindex=[scrolls] role=[scrolls.map(|_| "group")] aria-label=[label] { (PreEscaped(laid.svg_view())) } }
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

#[cfg(test)]
mod tests {
    use super::*;
    use measure::House;
    use physics::Given;

    /// The texts of the dimensions of a drawing for one width.
    fn texts(drawing: &Drawing, width: PageWidth) -> Vec<String> {
        let laid = drawing.for_page(width).unwrap();
        let dimensions = laid.views.iter().flat_map(|view| &view.dimensions);
        let lines = dimensions.flat_map(|placed| placed.label.lines.clone());
        lines.collect()
    }

    /// Sheet and drawing never show two figures for one size, whatever the inputs: seats of every angle, opened
    /// and closed, in both houses.
    #[test]
    fn a_sheets_results_stand_on_its_drawing_to_the_letter() {
        let mut compared = 0;
        for number in 0_u32..240 {
            let part = |step: u32| f64::from(number * step % 97) / 97.0;
            let found = 15.0 + 60.0 * part(31);
            let wanted = (found - 9.0 + 18.0 * part(17)).clamp(12.0, 80.0);
            let (port, land) = (0.5 + 5.0 * part(7), 0.03 + 0.3 * part(43));
            let house = if number % 2 == 0 {
                House::Inch
            } else {
                House::Metric
            };
            let given = [
                ("found_half_angle", format!("{found:.2}deg")),
                ("wanted_half_angle", format!("{wanted:.2}deg")),
                ("port", format!("{port:.4}in")),
                ("land", format!("{land:.4}in")),
                ("wall", "1in".to_owned()),
            ];
            let given = given.map(|(name, text)| Given::typed(name, &text));
            let sheet = physics::run("seat.correct", &given, house).unwrap();
            let drawing = of_sheet(&sheet, Title::default()).unwrap().unwrap();
            let figure = |name: &str| match sheet.result(name) {
                Some(Shown::Quantity { shown, .. }) => shown.clone(),
                other => panic!("{name}: {other:?}"),
            };
            // Where nothing is to be cut only the outside is dimensioned.
            let cut = figure("wedge").trim_matches(['0', '.']).is_empty();
            for width in [PageWidth::Narrow, PageWidth::Wide] {
                let texts = texts(&drawing, width);
                for (name, word) in [
                    ("outside", "Ø "),
                    ("new_land", "land after "),
                    ("wedge", "take "),
                    ("axial_sink", ""),
                    ("metal_left", ""),
                ] {
                    if cut && name != "outside" {
                        continue;
                    }
                    let mut shown = figure(name);
                    // A drawing in inches has nothing before the point.
                    if house == House::Inch && shown.starts_with("0.") {
                        shown.remove(0);
                    }
                    let wanted = format!("{word}{shown}");
                    assert!(
                        texts.contains(&wanted),
                        "{name}: `{wanted}` is not in {texts:?}"
                    );
                    compared += 1;
                }
            }
        }
        assert!(compared > 2000, "only {compared} figures were compared");
    }

    #[test]
    fn every_drawing_says_in_words_what_it_shows() {
        let given = [
            ("found_half_angle", "43deg"),
            ("wanted_half_angle", "45deg"),
            ("port", "1 3/4in"),
            ("land", "5/32in"),
        ];
        let given = given.map(|(name, text)| Given::typed(name, text));
        let sheet = physics::run("seat.correct", &given, House::Inch).unwrap();
        let page = shown(of_sheet(&sheet, Title::default()).unwrap()).into_string();
        assert_eq!(page.matches("role=\"img\"").count(), 2);
        for part in [
            "aria-label=\"Valve seat, before and after. Sizes in inches.",
            "port Ø 1 3/4 1.7500",
            "found 43°",
            "Measure it before any cut.",
        ] {
            assert!(page.contains(part), "{part}: {page}");
        }
        assert!(
            of_sheet(
                &physics::run(
                    "gauge.cone_two_balls",
                    &[
                        Given::typed("large_ball", "1in"),
                        Given::typed("small_ball", "1/2in"),
                        Given::typed("top_difference", "1in"),
                    ],
                    House::Inch
                )
                .unwrap(),
                Title::default()
            )
            .is_none()
        );
    }
}
