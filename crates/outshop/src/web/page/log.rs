//! The log of an engine, a year at a time: its lines, what papers count beside it, and the forms that add to it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use maud::{Markup, html};
use shop::book::{Fire, Locomotive, LocomotiveId, Stood, days_of_fire};
use shop::clock::{self, Agreement, PaperCheck, own_service_days, paper_checks};
use shop::locomotive::{Law, engine};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::print::asks_for_years;
use crate::words::{self, engine as on_her, log as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let mut by_year: BTreeMap<i16, Vec<&Fire>> = BTreeMap::new();
    for (_, line) in view.book.fires.of(id).into_iter().flatten() {
        if let Some(begins) = line.begins() {
            by_year.entry(begins.year()).or_default().push(line);
        }
    }
    let shown = view.asked("year").parse().ok();
    let shown = shown.or_else(|| by_year.keys().next_back().copied());
    let checks = paper_checks(view.book, id, view.on);
    let yearly = asks_for_years(&Law::of(view.book, view.rules, kept), view.on)?;
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" {
            @match (kept.log_from, kept.log_through) {
                (Some(from), Some(through)) => { (on_her::closed(from, through)) }
                _ => { (on_her::NEVER_CLOSED) }
            }
            " " a href=(format!("/engine/{}", kept.number)) { (say::TO_HER) }
        }
        (notices(checks.iter().filter_map(PaperCheck::told)))
        section class="ruled" {
            h2 { (say::LOG) }
            @if by_year.is_empty() { p { (say::EMPTY) } }
            nav aria-label=(say::YEARS) { ul class="plain" {
                @for year in by_year.keys() { li {
                    @let (least, most) = of_year(view, id, *year);
                    @let said = say::year(*year, least, most);
                    @if Some(*year) == shown { b aria-current="true" { (said) } } @else { a href=(format!("?year={year}")) { (said) } }
                } }
            } }
            @if let Some(lines) = shown.and_then(|year| by_year.get(&year)) { (table(view, lines)) }
            @if let (Some(year), true) = (shown, yearly) { p { a href=(format!("/print/year/{}/{year}", kept.number)) { (words::yearly::print_year(year)) } } }
            p class="quiet small" { (kit::worded(say::PUT_RIGHT)) }
        }
        section class="ruled" {
            h2 { (say::PAPERS) }
            @if !checks.is_empty() { (papers(&checks)) }
            details { summary { (say::PAPER_COUNTS) } (count_form(view, kept)) }
        }
        section class="ruled" {
            h2 { (say::LIST_DAYS) }
            details { summary { (say::LIST_DAYS) } (days_form(view, kept)) }
            p { a href=(format!("/log/import?engine={}", kit::encode(&kept.number))) { (say::FROM_FILE) } }
        }
    };
    Ok(Drawn::new("/", title, body))
}

/// What somebody must look at, one line each; nothing where there is nothing.
pub fn notices(told: impl Iterator<Item = String>) -> Markup {
    let told: Vec<_> = told.collect();
    html! {
        @if !told.is_empty() {
            section class="ruled" {
                h2 { (say::NOTICES) }
                ul class="plain" { @for line in &told { li { span class="need" { (kit::sentence(line)) } } } }
            }
        }
    }
}

/// The service days of a year up to the day asked about, by the log alone.
fn of_year(view: &View<'_>, id: LocomotiveId, year: i16) -> (usize, usize) {
    let days = clock::of_year(view.book, id, year, view.on, own_service_days);
    (days.least.len(), days.most.len())
}

fn table(view: &View<'_>, lines: &[&Fire]) -> Markup {
    let mut lines = lines.to_vec();
    lines.sort_by_key(|line| (line.begins(), line.entry));
    let moment = |at| words::moment(at);
    html! {
        div class="table" { table class="stack twos" {
            thead { tr {
                th { (on_her::LIT) } th { (on_her::UP) } th { (on_her::OUT) } th { (on_her::GONE) }
                th class="num" { (on_her::MILES) } th { (say::OFFERED) } th class="num" { (on_her::SERVICE_DAYS) } th class="num" { (say::ENTRY) }
            } }
            tbody { @for line in &lines {
                @let days = days_of_fire(line, view.on);
                tr {
                    @match &line.day {
                        Some(told) => td colspan="4" data-label=(say::DAY) { (words::day(told.day)) ": " (say::told_day(told.stood, &told.told)) },
                        None => {
                            td data-label=(on_her::LIT) { (moment(line.lit)) } td data-label=(on_her::UP) { (moment(line.up)) }
                            td data-label=(on_her::OUT) { (moment(line.out)) } td data-label=(on_her::GONE) { (moment(line.gone)) }
                        }
                    }
                    td class="num" data-label=(on_her::MILES) { (line.miles.map_or("-".to_string(), |miles| miles.to_string())) }
                    td data-label=(say::OFFERED) { (match line.offered { Some(true) => say::YES, Some(false) => say::NO, None => "-" }) }
                    td class="num" data-label=(on_her::SERVICE_DAYS) { (on_her::days(days.least.len(), days.most.len())) }
                    td class="num" data-label=(say::ENTRY) { (line.entry) }
                }
            } }
        } }
    }
}

fn papers(checks: &[PaperCheck]) -> Markup {
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (say::DOCUMENT) } th { (say::DAYS) } th class="num" { (say::PAPER_SAYS) } th class="num" { (say::LOG_HOLDS) } th { (say::HOW) } th class="num" { (say::ENTRY) } } }
            tbody { @for check in checks {
                @let told = &check.count.told;
                tr {
                    td data-label=(say::DOCUMENT) { (told.document) }
                    td data-label=(say::DAYS) { (say::span(told.from, told.through)) }
                    td class="num" data-label=(say::PAPER_SAYS) { (told.service_days) }
                    td class="num" data-label=(say::LOG_HOLDS) { (say::range(check.least, check.most)) }
                    td data-label=(say::HOW) { @match check.agreement {
                        Agreement::Agrees => (say::AGREES),
                        Agreement::CannotTell => (words::page::CANNOT_TELL),
                        Agreement::PaperHasMore | Agreement::PaperHasFewer => span class="need" { (say::DIFFERS) },
                    } }
                    td class="num" data-label=(say::ENTRY) { (check.count.entry) }
                }
            } }
        } }
    }
}

fn count_form(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "steam counted";
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        p class="quiet small" { (say::COUNT_MEANS) }
        (kit::line(view, VERB, "service_days", say::SERVICE_DAYS, ""))
        (kit::day(view, VERB, "from", say::FROM))
        (kit::day(view, VERB, "through", say::THROUGH))
        (kit::line(view, VERB, "document", say::DOCUMENT, ""))
    };
    kit::form(view, VERB, say::PAPER_COUNTS, &fields, say::SAVE_COUNT)
}

fn days_form(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "steam days";
    let chosen = view.draft.value(VERB, "stood");
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        p class="quiet small" { (say::LIST_MEANS) }
        (kit::lines(view, VERB, "days", say::DAYS, say::DAYS_SUCH_AS))
        label for="days-stood" { (say::WHAT_THEY_WERE) }
        select id="days-stood" name="stood" {
            @for stood in Stood::ALL { option value=(stood.word()) selected[stood.word() == chosen] { (say::stood(stood)) } }
        }
        (kit::line(view, VERB, "told", say::TOLD, ""))
    };
    kit::form(view, VERB, say::LIST_DAYS, &fields, say::SAVE_DAYS)
}

/// The newest lines of a log, for her own page.
pub fn newest<'b>(lines: impl Iterator<Item = &'b Fire>, many: usize) -> Vec<&'b Fire> {
    let mut lines: Vec<_> = lines.collect();
    lines.sort_by_key(|line| std::cmp::Reverse((line.begins(), line.entry)));
    lines.truncate(many);
    lines
}

/// The day a line without times tells of.
pub fn told_day(line: &Fire) -> Option<(Date, String)> {
    let told = line.day.as_ref()?;
    Some((told.day, say::told_day(told.stood, &told.told)))
}
