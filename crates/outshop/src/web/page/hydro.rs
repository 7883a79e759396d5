//! The day of her hydrostatic and steam test: what is due and why, the pressures, what each gauge must show, what is looked at.

use maud::{Markup, html};
use measure::{Dimension, House, Rounding, entered_with_unit, show};
use shop::book::Locomotive;
use shop::locomotive::engine;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::ruled::{Asked, ENGINE};
use crate::verb::test_day::{TestDay, item_text, test_day};
use crate::web::form::value;
use crate::web::trouble;
use crate::words::{self, hydro as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let day = test_day(view.book, view.rules, id, kept, view.on, view.house)?
        .ok_or_else(|| Failure::Input(say::none_asked(&kept.number)))?;
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p { a href=(format!("/print/hydro/{}", kept.number)) { (say::PRINT) } " · " a href=(format!("/engine/{}/papers", kept.number)) { (words::duties::title(&kept.number)) } " · " a href=(format!("/engine/{}/boiler", kept.number)) { (words::boiler::LINK) } }
        ul class="caution" { @for said in say::CAUTIONS { li { (said) } } }
        section class="ruled" { h2 { (say::WHY) } ul class="plain" { @for said in &day.why { li { (kit::sentence(said)) } } } }
        section class="ruled" {
            h2 { (say::PRESSURES) }
            div class="table" { table {
                tbody { @for (what, worked) in &day.pressures { tr { td { (what) } td class="num" { (worked) } } } }
            } }
            p class="small quiet" { (say::PRESSURES_NOTE) }
            @for said in &day.notices { p class="small need" { (said) } }
            ul class="plain" { @for ruling in &day.figures { li { (kit::sentence(&TestDay::figure(ruling))) " " a class="quiet small" href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } } } }
            (kit::held(view, &day.used))
        }
        (gauge(view, kept))
        section class="ruled" {
            h2 { (say::LOOKED) }
            ul class="plain" { @for ruling in day.looked.iter().flat_map(|(_, all)| all) { li { (kit::sentence(item_text(ruling))) " " a class="quiet small" href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } } } }
            p { (say::LEAKS_NOTE) }
            p { (say::WRITE) }
        }
    };
    Ok(Drawn::new("/", title, body))
}

/// What one gauge must show, its head of water and its own error counted.
fn gauge(view: &View<'_>, kept: &Locomotive) -> Markup {
    let (head, error) = (value(&view.query, "head"), value(&view.query, "error"));
    let asked = !head.is_empty() || !error.is_empty();
    let shows = asked.then(|| must_show(view, kept, head, error));
    html! {
        section class="ruled" {
            h2 { (say::GAUGES) }
            form class="act" method="get" {
                h2 { (say::CORRECT) }
                label for="gauge-head" { (say::HEAD) " " span class="quiet" { (say::HEAD_HINT) } }
                input type="text" id="gauge-head" name="head" value=(head) autocomplete="off";
                label for="gauge-error" { (say::ERROR) " " span class="quiet" { (say::ERROR_HINT) } }
                input type="text" id="gauge-error" name="error" value=(error) autocomplete="off";
                button { (say::CORRECT_IT) }
            }
            @match shows {
                None => {},
                Some(Ok(said)) => p class="said" { (said) },
                Some(Err(why)) => (trouble::said(&why.to_string())),
            }
        }
    }
}

fn must_show(
    view: &View<'_>,
    kept: &Locomotive,
    head: &str,
    error: &str,
) -> Result<String, Failure> {
    let too_much = entered_with_unit(error, Dimension::Stress)
        .map_err(|why| Failure::Input(format!("{}: {why}", say::ERROR)))?;
    let mawp = kept
        .mawp_psig
        .map_or(String::new(), |psi| format!("{psi} psig"));
    let given = [
        ("mawp", mawp.as_str()),
        ("head", head),
        (ENGINE, &kept.number),
    ];
    let given = given.map(|(name, says)| (name.to_owned(), says.to_owned()));
    let sheet =
        Asked::of(&given).worked(view.book, view.rules, "boiler.hydro", view.on, House::Inch)?;
    let at = sheet.results.iter().find(|it| it.name == "at_gauge");
    match at.map(|it| &it.value) {
        Some(physics::Shown::Quantity { value, .. }) => {
            let psi = measure::Unit::of(Dimension::Stress, House::Inch).from_si(too_much.si);
            let shows = format!("{} psig", show::number(value + psi, 1, Rounding::Up));
            Ok(say::must_show(&shows, head, error))
        }
        Some(physics::Shown::Text(said)) => Err(Failure::Input(said.clone())),
        _ => Err(Failure::Input(say::NO_MAWP.into())),
    }
}
