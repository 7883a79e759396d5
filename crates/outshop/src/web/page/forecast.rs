//! What the book tells of a part's wear, on the part's page: a picture, its rate, the days to each limit, the chance of
//! reaching them before each coming opening; every figure out of the worked sheet, which is linked.

use maud::{Markup, html};
use measure::{Size, State, show};
use shop::book::Part;
use shop::route::{Forecast, MetalLeft, Wear};

use super::{View, kit, sheet};
use crate::web::wear;
use crate::words::{self, wear as say};

/// Sentences at the head of the page: what meets a limit first, and what wears faster than its mirror.
pub fn lead(wear: &Wear) -> Markup {
    let first = wear.forecasts.first();
    let outlier = wear.forecasts.iter().find_map(say::outlier);
    html! {
        @if let Some(said) = first.and_then(say::glance) { p { (said) } }
        @if let Some(said) = outlier { p class="need" { (said) } }
    }
}

/// Every size that has a rate, with its forecast.
pub fn draw(view: &View<'_>, part: &Part, wear: &Wear, metal: &[MetalLeft]) -> Markup {
    html! {
        @let of = |it: &Forecast| one(view, part, it, metal.iter().find(|left| left.feature == it.name));
        @for it in wear.forecasts.iter().filter(|it| say::has_chance(it)) { (of(it)) }
        @for it in wear.forecasts.iter().filter(|it| say::has_rate(it) && !say::has_chance(it)) { details { summary { (say::no_limit(it)) } (of(it)) } }
    }
}

/// What the forecasts stand on, and why a size has none; which openings are coming.
pub fn grounds(view: &View<'_>, wear: &Wear) -> Markup {
    html! {
        @if !wear.forecasts.is_empty() || !wear.wanting.is_empty() {
            section class="ruled" {
                h2 { (say::TITLE) }
                @for it in wear.forecasts.iter().filter(|it| !say::has_rate(it)) { p class="small" { (say::without(it, &show::size(it.now.2, view.house))) " " a href=(sheet::path(&it.sheet)) { (say::SHEET_SHORT) } } }
                @for ahead in wear.coming.ahead.iter().filter(|_| !wear.forecasts.is_empty()) { p class="small" { (kit::sentence(&say::coming(ahead))) } }
                @for why in wear.wanting.iter().chain(if wear.forecasts.is_empty() { [].iter() } else { wear.coming.wanting.iter() }) { p class="small" { (kit::sentence(why)) } }
                @if let (Some((days, whose)), false) = (&wear.coming.a_year, wear.forecasts.is_empty()) { p class="quiet small" { (say::a_year(*days, whose)) } }
                form class="act" method="get" action=(view.path) {
                    label for="wear-a-year" { (say::PLANNED) }
                    input type="text" inputmode="numeric" id="wear-a-year" name=(say::A_YEAR) value=(view.asked(say::A_YEAR)) autocomplete="off";
                    button { (say::RECKON) }
                }
            }
        }
    }
}

fn one(view: &View<'_>, part: &Part, it: &Forecast, metal: Option<&MetalLeft>) -> Markup {
    let told = part.features.get(&it.name);
    let size = |text: &String| Size::parse(text).ok();
    let built = told.and_then(|told| told.as_built.as_ref().and_then(size));
    let shown = |size: Size| show::size(size, view.house);
    html! {
        section class="ruled" id=(kit::id("wear", &it.name)) {
            h2 { (words::sentence(&it.title)) @if let Some(left) = metal { ": " (say::left(&shown(left.left), left.re_cuts)) } }
            p { (say::now(it, &shown(it.now.2))) }
            (wear::draw(it, built, &steps(it, told, metal), view.house))
            @for line in say::rate(it) { p { (line) } }
            @for line in say::by_miles(it) { p { (line) } }
            @if let Some(beside) = &it.beside { p { (say::mirror(it, &beside.part)) } }
            (openings(view, it))
            (ahead(it))
            p { a href=(sheet::path(&it.sheet)) { (say::SHEET) } @if let Some(miles) = &it.by_miles { " · " a href=(sheet::path(miles)) { (say::MILES_SHEET) } } @if let Some(beside) = &it.beside { " · " a href=(sheet::path(&beside.sheet)) { (say::sheet_of(&beside.part)) } } }
        }
    }
}

/// The sizes it may be cut to next, before its first limit: as stated, or by its usual step.
fn steps(
    it: &Forecast,
    told: Option<&shop::book::FeatureTold>,
    metal: Option<&MetalLeft>,
) -> Vec<Size> {
    let Some(told) = told else { return Vec::new() };
    let is_next = |size: &Size| match it.larger {
        true => *size > it.now.2,
        false => *size < it.now.2,
    };
    let stated: Vec<Size> = told
        .steps
        .iter()
        .filter_map(|text| Size::parse(text).ok())
        .collect();
    if !stated.is_empty() {
        return stated.into_iter().filter(is_next).collect();
    }
    let step = told.step.as_deref().and_then(|text| Size::parse(text).ok());
    let (Some(step), Some(cuts)) = (step, metal.and_then(|left| left.re_cuts)) else {
        return Vec::new();
    };
    let mut at = it.now.2;
    let mut all = Vec::new();
    for _ in 0..cuts.min(24) {
        let next = match it.larger {
            true => at.checked_add(step),
            false => at.checked_sub(step),
        };
        let Some(next) = next else { break };
        all.push(next);
        at = next;
    }
    all
}

fn openings(view: &View<'_>, it: &Forecast) -> Markup {
    let shown = |size: Size| show::size(size, view.house);
    // A column with nothing in it tells nothing: why there are no miles stands in a line.
    let by_miles = it.openings.iter().any(|it| matches!(it.miles, Some(Ok(_))));
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (words::state(State::AsLeft)) } th { (words::state(State::AsFound)) } th { (say::SERVICE_DAYS) } @if by_miles { th class="num" { (say::MILES) } } } }
            tbody { @for opening in &it.openings { tr {
                td data-label=(words::state(State::AsLeft)) { @match opening.left {
                    Some((day, size)) => { span class="fig" { (shown(size)) } " " span class="quiet small" { (words::day(day)) } }
                    None => { (say::NOT_WRITTEN) }
                } }
                td data-label=(words::state(State::AsFound)) { span class="fig" { (shown(opening.found.1)) } " " span class="quiet small" { (words::day(opening.found.0)) } }
                td data-label=(say::SERVICE_DAYS) {
                    @match opening.days { Some(days) => { span class="fig" { (days) } } None => { span class="need" { (say::NO_RATE) } } }
                    @if opening.days.is_none() { " " span class="small" { (opening.told.join("; ")) } }
                    @else { details { summary class="small" { (say::HOW_COUNTED) } @for line in &opening.told { p class="quiet small" { (line) } } } }
                }
                @if by_miles { td class="num" data-label=(say::MILES) { @match &opening.miles {
                    Some(Ok(miles)) => { (miles) }
                    _ => { span class="need" { (say::NOT_IN_LOG) } }
                } } }
            } } }
        } }
    }
}

fn ahead(it: &Forecast) -> Markup {
    html! {
        @if !it.ahead.is_empty() && say::has_chance(it) {
            h3 { (say::BEFORE) }
            div class="table" { table class="stack" {
                thead { tr { th { (say::OPENING) } th class="num" { (say::SERVICE_DAYS) } @if it.shop_limit.is_some() { th { (say::PAST_OURS) } } @if it.rule_limit.is_some() { th { (say::PAST_LAW) } } } }
                tbody { @for (ahead, sheet) in &it.ahead { tr {
                    td data-label=(say::OPENING) { a class="tap" href=(sheet::path(sheet)) { (ahead.what) } }
                    td class="num" data-label=(say::SERVICE_DAYS) { (ahead.days) }
                    @if it.shop_limit.is_some() { td data-label=(say::PAST_OURS) { (kit::worded(&say::chance(sheet, "chance_shop_limit"))) } }
                    @if it.rule_limit.is_some() { td data-label=(say::PAST_LAW) { (kit::worded(&say::chance(sheet, "chance_rule_limit"))) } }
                } } }
            } }
        }
    }
}
