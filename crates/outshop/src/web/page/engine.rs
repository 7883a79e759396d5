//! An engine: a plain side view touched by place, her clocks, what is open, her parts, her log.

use maud::{Markup, html};
use shop::book::{Authority, Locomotive, LocomotiveId, days_of_fire};
use shop::clock::{Clock, State};
use shop::locomotive::{Law, engine};
use shop::report::{Ahead, Release, ahead};

use super::{Drawn, View, kit, side};
use crate::Failure;
use crate::web::{print, ribbon};
use crate::words::{self, engine as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let ahead = ahead(view.book, view.rules, id, view.on)?;
    let title = words::engine(&kept.number);
    let body = html! {
        h1 { (say::head(&kept.number, &kept.wheels)) }
        p class="lead" { (say::lead(&words::page::gauge(kept.gauge, view.house), &Law::of(view.book, view.rules, kept).told_on(view.on), kept.mawp_psig, view.house)) }
        p { a href=(format!("/day/{}", kept.number)) { (words::day::HER_DAY) } }
        p class="small" {
            a href=(format!("/engine/{}/open", kept.number)) { (words::apart::LINK) } " · "
            a href=(format!("/notice/{}", kept.number)) { (words::moved::FROM_OUTSIDE) } " · "
            a href=(format!("/move/{}", kept.number)) { (words::moved::HER_MOVES) } " · "
            a href=(format!("/engine/{}/papers", kept.number)) { (words::duties::HER_PAPERS) }
            @if Law::of(view.book, view.rules, kept).counts_service_days() {
                " · " a href=(format!("/engine/{}/boiler", kept.number)) { (words::boiler::LINK) }
                " · " a href=(format!("/engine/{}/tires", kept.number)) { (words::tires::LINK) }
            }
        }
        (side::places(view, id, kept))
        @if !view.query.is_empty() { (side::parts(view, id, kept)) }
        (ribbon::draw(&kept.number, &ahead, view.on))
        (stops(view, kept, &ahead))
        (super::log::notices(ahead.notices.iter().cloned()))
        section class="ruled" { h2 { (say::CLOCKS) } (clocks(&ahead.clocks)) (kit::held(view, ahead.clocks.iter().map(|clock| &clock.ruling))) }
        @if view.query.is_empty() { (side::parts(view, id, kept)) }
        (log(view, id, kept))
        (open_inspection(view, kept))
    };
    Ok(Drawn::new("/", title, body))
}

fn stops(view: &View<'_>, kept: &Locomotive, ahead: &Ahead) -> Markup {
    let officer = view.may(Authority::Approve);
    html! {
        section class="ruled" {
            @if ahead.stops.is_empty() {
                h2 { (say::NOTHING_STOPS) }
                @match &ahead.release {
                    Release::Stands { by, on, log_through } => p { (say::released(by, *on, *log_through)) },
                    Release::None(why) => {
                        p { (say::not_released(why)) }
                        @if officer { (kit::signed(view, "release", say::HAND_OVER, &kit::hidden("engine", &kept.number), say::SIGN_RELEASE)) }
                    }
                }
            } @else {
                h2 { (say::WHAT_STOPS) }
                ol class="between" { @for stop in &ahead.stops { li {
                    @match stop.what.as_deref().and_then(|what| what.split_once(' ')) {
                        Some((kind, number)) => a href=(format!("/{kind}/{number}")) { (kit::sentence(&stop.why)) },
                        None => (kit::sentence(&stop.why)),
                    }
                } } }
                @if Law::of(view.book, view.rules, kept).any(|rule| rule.id.ends_with(".move.tag")) { (print::tag_link(&kept.number)) }
            }
            @if !ahead.runs.is_empty() {
                h3 { (say::PROMISED) }
                ul class="plain" { @for run in &ahead.runs { li {
                    b { (words::day(run.day)) } (say::run(&run.what))
                    @if run.in_the_way.is_empty() { (say::NOT_STOPPED) } @else { span class="need" { (run.in_the_way.join("; ")) } }
                } } }
            }
        }
    }
}

fn clocks(clocks: &[Clock]) -> Markup {
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (say::CLOCK) } th { (say::STATE) } th class="num" { (say::LEFT) } th { (say::WHY) } th { (say::RULE) } } }
            tbody { @for clock in clocks { tr {
                td data-label=(say::CLOCK) { b { (clock.inspection) } }
                td data-label=(say::STATE) { @match &clock.state {
                    State::Runs => span class="verdict complies" { (say::RUNS) },
                    State::Stops => span class="verdict fails" { (say::STOPS_HER) },
                    State::CannotTell(_) => span class="verdict unknown" { (words::page::CANNOT_TELL) },
                    State::EachDay => (say::EACH_DAY),
                } }
                td class="num" data-label=(say::LEFT) { (clock.left.map_or("-".to_string(), |left| left.to_string())) }
                td data-label=(say::WHY) { (kit::worded(&clock.why)) }
                td data-label=(say::RULE) { a href=(format!("/rule/{}", clock.ruling.rule)) { (clock.ruling.cite.section) } }
            } } }
        } }
    }
}

fn log(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let lines = view.book.fires.of(id).into_iter().flatten();
    let fires = super::log::newest(lines.map(|(_, line)| line), 8);
    const VERB: &str = "steam log";
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        div class="grid2" {
            div { (kit::line(view, VERB, "lit", say::LIT, say::SUCH_AS)) }
            div { (kit::line(view, VERB, "up", say::UP, "")) }
            div { (kit::line(view, VERB, "out", say::OUT, "")) }
            div { (kit::line(view, VERB, "gone", say::GONE, "")) }
        }
        (kit::line(view, VERB, "miles", say::MILES, ""))
        label for="log-offered" { (words::log::OFFERED) }
        select id="log-offered" name="offered" {
            @for (word, name) in [("", words::log::NOT_SAID), ("yes", words::log::YES), ("no", words::log::NO)] {
                option value=(word) selected[view.draft.value(VERB, "offered") == word] { (name) }
            }
        }
        p class="quiet small" { (say::LEFT_BLANK) }
    };
    let close = html! {
        (kit::hidden("engine", &kept.number))
        @if kept.log_through.is_none() { (kit::day(view, "steam close", "from", say::FROM)) }
        (kit::day(view, "steam close", "through", say::THROUGH))
    };
    html! {
        section class="ruled" {
            h2 { (say::LOG) }
            p { @match (kept.log_from, kept.log_through) {
                (Some(from), Some(through)) => { (say::closed(from, through)) }
                _ => { (say::NEVER_CLOSED) }
            } }
            div class="table" { table class="stack twos" {
                thead { tr { th { (say::LIT) } th { (say::UP) } th { (say::OUT) } th { (say::GONE) } th class="num" { (say::SERVICE_DAYS) } } }
                tbody { @for fire in &fires {
                    @let days = days_of_fire(fire, view.on);
                    tr {
                        @if let Some((day, told)) = super::log::told_day(fire) {
                            td colspan="4" data-label=(words::log::DAY) { (words::day(day)) ": " (told) }
                        } @else {
                            td data-label=(say::LIT) { (words::moment(fire.lit)) } td data-label=(say::UP) { (words::moment(fire.up)) } td data-label=(say::OUT) { (words::moment(fire.out)) } td data-label=(say::GONE) { (words::moment(fire.gone)) }
                        }
                        td class="num" data-label=(say::SERVICE_DAYS) { (say::days(days.least.len(), days.most.len())) }
                    }
                } }
            } }
            p { a href=(format!("/engine/{}/log", kept.number)) { (words::log::WHOLE_LOG) } }
            p { a href=(format!("/engine/{}/known", kept.number)) { (words::first::known(&kept.number)) } }
            details { summary { (say::LOG_A_FIRE) } (kit::form(view, VERB, say::LOG_A_FIRE, &fields, say::LOG_IT)) }
            details { summary { (say::CLOSE_LOG) } (kit::form(view, "steam close", say::LOG_HOLDS, &close, say::CLOSE_IT)) }
        }
    }
}

fn open_inspection(view: &View<'_>, kept: &Locomotive) -> Markup {
    let known = Law::of(view.book, view.rules, kept).inspections(view.on);
    let known = known.unwrap_or_default();
    let fields = html! {
        (kit::hidden("engine", &kept.number)) (kit::hidden("then", "inspection"))
        label for="open-kind" { (say::KIND) }
        select id="open-kind" name="kind" { @for (word, meaning) in &known { option value=(word) { (say::kind(word, meaning)) } } }
    };
    let kinds: Vec<&str> = known.iter().map(|(word, _)| *word).collect();
    html! {
        (print::sheet_links(&kept.number, &kinds))
        @if kinds.contains(&"annual") { (super::before::links(&kept.number, &["31", "92", "annual"])) }
        details { summary { (say::OPEN_INSPECTION) } (kit::form(view, "inspect open", say::OPEN_INSPECTION, &fields, say::OPEN_IT)) }
    }
}
