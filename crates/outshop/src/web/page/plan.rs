//! Leave, cut or renew over the years: the sheet `wear.policy` filled in from the book, what it lacks named, and worked.

use std::collections::BTreeMap;

use maud::{Markup, html};
use shop::locomotive::{engine, part};
use shop::route::{POLICY, Plan, plan};

use super::{Drawn, View, kit, sheet};
use crate::Failure;
use crate::words::{self, plan as say, wear};

/// The path of a plan.
pub fn path(number: &str, part: &str, size: &str) -> String {
    format!(
        "{}/plan/{}",
        kit::part_path(number, part),
        kit::encode(size)
    )
}

pub fn draw(view: &View<'_>, number: &str, name: &str, size: &str) -> Result<Drawn, Failure> {
    let (locomotive, kept) = engine(view.book, number)?;
    let (id, named) = part(view.book, locomotive, name)?;
    let card = physics::find(POLICY)?.card;
    let typed: BTreeMap<String, String> = view
        .query
        .iter()
        .filter(|(name, value)| card.argument(name).is_some() && !value.trim().is_empty())
        .map(|(name, value)| (name.clone(), value.trim().to_string()))
        .collect();
    let a_year = view.asked(wear::A_YEAR);
    let days = a_year
        .parse::<u32>()
        .ok()
        .filter(|days| (1..=366).contains(days));
    let told = plan(
        view.book,
        view.rules,
        (id, size),
        &typed,
        view.on,
        view.house,
        days,
    )?;
    let body = html! {
        h1 { (say::head(&told.title)) }
        p class="lead" { a href=(kit::part_path(&kept.number, &named.name)) { (named.name) } ", " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        p { (say::LEAD) }
        @if days.is_none() && !a_year.is_empty() { (crate::web::trouble::said(&wear::not_days(a_year))) }
        div class="sheet" {
            (form(view, &told, &typed))
            div { @match &told.sheet {
                None => {
                    p class="need" { (say::cannot_tell(&told.title)) }
                    ul { @for it in told.stands.iter().filter(|it| it.given.is_none()) { li { (kit::worded(&say::missing(it.name, it.meaning, &it.settles))) } } }
                }
                Some(Err(why)) => (crate::web::trouble::said(why)),
                Some(Ok(worked)) => {
                    @let get = |name: &str| wear::result(worked, name);
                    p { b { (say::says(&get("now"), &get("expected"), &get("renew_always"), &get("cut_always"), &get("stops"))) } }
                    (sheet::page(worked, &html! {}))
                    p { a href=(sheet::path(worked)) { (wear::SHEET) } }
                }
            } }
        }
    };
    Ok(Drawn::new("/", say::head(&told.title), body))
}

fn form(view: &View<'_>, told: &Plan, typed: &BTreeMap<String, String>) -> Markup {
    html! {
        form class="act" method="get" action=(view.path) {
            h2 { (say::GOES_IN) }
            @for it in &told.stands {
                @let id = kit::id("plan", it.name);
                @let ours = typed.get(it.name);
                label for=(id) { (it.meaning) " " span class="quiet" { (it.name) } }
                input type="text" id=(id) name=(it.name) value=(ours.map_or("", String::as_str)) placeholder=[it.given.as_ref().map(|given| given.text.as_str())] autocomplete="off";
                @match (&it.given, ours) {
                    (Some(given), None) => p class="quiet small" { b class="fig" { (given.text) } " " (say::from(&given.basis.to_string())) },
                    (None, _) => p class="need small" { (say::NEEDS) " " (kit::worded(&it.settles)) },
                    _ => {}
                }
            }
            label for="plan-a-year" { (wear::PLANNED) }
            input type="text" inputmode="numeric" id="plan-a-year" name=(wear::A_YEAR) value=(view.asked(wear::A_YEAR)) autocomplete="off";
            p class="quiet small" { (say::SUPPOSED) }
            button { (say::WORK_IT) }
        }
    }
}
