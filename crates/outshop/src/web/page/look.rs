//! The days ahead of one engine along her promised runs, and a form to suppose a day. It asks and enters nothing,
//! so what was typed stands in the page's own address.

use maud::{Markup, html};
use shop::book::{FindingState, Locomotive, LocomotiveId};
use shop::clock::{State, due};
use shop::locomotive::engine;
use shop::report::{Change, Look, Standing, course_words};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::ahead::{looks, supposed};
use crate::web::trouble;
use crate::words::{self, look as say, tag};

/// Lines to fill in at first; one more than are filled in after that.
const LINES: usize = 3;
/// Beyond so many, nobody plans on one page.
const MOST: usize = 12;

/// One line of the form.
struct Line<'v> {
    what: &'v str,
    day: &'v str,
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let held = lines(view, "hold", "day");
    let runs = lines(view, "run", "rday");
    let typed = |lines: &[Line<'_>]| -> Vec<String> {
        let filled = lines
            .iter()
            .filter(|l| !l.what.is_empty() || !l.day.is_empty());
        filled.map(|l| format!("{}={}", l.what, l.day)).collect()
    };
    let as_run = |lines: &[Line<'_>]| -> Vec<String> {
        let filled = lines
            .iter()
            .filter(|l| !l.day.is_empty() || !l.what.is_empty());
        let word = |l: &Line<'_>| {
            if l.what.is_empty() {
                say::A_RUN.to_string()
            } else {
                l.what.to_string()
            }
        };
        filled.map(|l| format!("{}={}", l.day, word(l))).collect()
    };
    let asked = supposed(&typed(&held), &as_run(&runs))
        .and_then(|all| looks(view.book, view.rules, id, view.on, &all));
    let (look, changed, said) = match asked {
        Ok((look, changed)) => (look, changed, None),
        // What was typed is refused and stays; an engine without any clock on file is told so as on her own page.
        Err(failure) => {
            let (plain, _) = looks(view.book, view.rules, id, view.on, &[])?;
            (plain, Vec::new(), Some(failure.to_string()))
        }
    };
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" { (say::lead(view.on)) }
        @if let Some(said) = &said { (trouble::said(said)) }
        (if_so(&look, &changed))
        (runs_of(&look))
        (clocks(&look))
        (form(view, id, kept, &held, &runs)?)
        section class="ruled" {
            h2 { (say::ASSUMED) }
            ul { @for line in &look.assumed { li { (kit::sentence(line)) } } }
        }
    };
    Ok(Drawn::new("/", title, body))
}

/// The lines of the form, as they stand in the address.
fn lines<'v>(view: &'v View<'_>, what: &str, day: &str) -> Vec<Line<'v>> {
    let of = |name: &str| -> Vec<&'v str> {
        let mut all: Vec<&str> = Vec::new();
        for (known, value) in &view.query {
            if known == name && all.len() < MOST {
                all.push(value.trim());
            }
        }
        all
    };
    let (whats, days) = (of(what), of(day));
    let filled = whats.len().max(days.len());
    let at = |all: &[&'v str], at: usize| all.get(at).copied().unwrap_or("");
    let mut lines: Vec<Line<'v>> = (0..filled)
        .map(|n| Line {
            what: at(&whats, n),
            day: at(&days, n),
        })
        .collect();
    lines.retain(|line| !line.what.is_empty() || !line.day.is_empty());
    lines
}

fn if_so(look: &Look, changed: &[Change]) -> Markup {
    html! {
        @if !look.supposed.is_empty() {
            section class="ruled" {
                h2 { (say::IF) }
                ul { @for one in &look.supposed { li { (words::sentence(&say::supposed(&one.what(), one.on()))) } } }
                h3 { (say::CHANGES) }
                @if changed.is_empty() { p { (say::NO_CHANGE) } } @else {
                    div class="table" { table class="stack" {
                        thead { tr { th { (say::CHANGED) } th { (say::BEFORE) } th { (say::AFTER) } } }
                        tbody { @for change in changed { tr {
                            td data-label=(say::CHANGED) { b { (say::change(change)) } }
                            td data-label=(say::BEFORE) { (change.before) }
                            td data-label=(say::AFTER) { (change.after) }
                        } } }
                    } }
                }
                @if !look.papers.is_empty() {
                    h3 { (say::PAPERS) }
                    ul { @for paper in &look.papers { li { span class=(if paper.too_late { "need" } else { "" }) { (say::paper(paper)) } } } }
                }
            }
        }
    }
}

fn runs_of(look: &Look) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::RUNS) }
            @if look.trains.is_empty() { p { (say::NO_RUN) } } @else {
                div class="table" { table class="stack" {
                    thead { tr { th { (say::RUN_DAY) } th { (say::RUN) } th { (say::STANDING) } th { (say::IN_THE_WAY) } } }
                    tbody { @for train in &look.trains { tr {
                        td data-label=(say::RUN_DAY) { (words::day(train.day)) }
                        td data-label=(say::RUN) { (train.what) }
                        td data-label=(say::STANDING) { span class=(format!("verdict {}", standing(train.standing))) { (say::standing(train.standing)) } }
                        td data-label=(say::IN_THE_WAY) { (kit::sentence(&train.in_the_way.join("; "))) }
                    } } }
                } }
            }
        }
    }
}

fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Clear => "complies",
        Standing::CannotTell => "unknown",
        Standing::Falls => "fails",
    }
}

fn clocks(look: &Look) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::CLOCKS) }
            div class="table" { table class="stack" {
                thead { tr { th { (say::CLOCK) } th { (say::STOPS) } th { (say::GOOD) } th { (say::RULE) } } }
                tbody { @for course in &look.courses { tr {
                    td data-label=(say::CLOCK) {
                        b { (course.clock.inspection) }
                        @if let Some(number) = course.clock.finding { " " a href=(format!("/finding/{}", tag::finding(number))) { (tag::finding(number)) } }
                    }
                    td data-label=(say::STOPS) {
                        (words::sentence(&course_words(course)))
                        div class="quiet small" { (kit::sentence(course.stopped.as_ref().map_or(&course.clock.why, |s| &s.why))) }
                    }
                    td data-label=(say::GOOD) { @if let Some(good) = &course.good {
                        b { (words::sentence(&say::good(good))) }
                        div class="quiet small" { (kit::sentence(&good.why)) }
                        @for paper in &good.papers { div class="small" { (say::paper(paper)) } }
                    } }
                    td data-label=(say::RULE) { a href=(format!("/rule/{}", course.clock.ruling.rule)) { (course.clock.ruling.cite.section) } }
                } } }
            } }
        }
    }
}

fn form(
    view: &View<'_>,
    id: LocomotiveId,
    kept: &Locomotive,
    held: &[Line<'_>],
    runs: &[Line<'_>],
) -> Result<Markup, Failure> {
    let clocks = due(view.book, view.rules, id, view.on)?;
    let mut work: Vec<&str> = Vec::new();
    for clock in clocks
        .iter()
        .filter(|c| c.state != State::EachDay && c.finding.is_none())
    {
        if !work.contains(&clock.inspection.as_str()) {
            work.push(&clock.inspection);
        }
    }
    let mut findings: Vec<_> = view
        .book
        .findings
        .values()
        .filter(|f| f.locomotive == id && f.state != FindingState::Closed)
        .collect();
    findings.sort_by_key(|f| f.number);
    let rows = LINES.max(held.len() + 1);
    let more = 2.max(runs.len() + 1);
    let at = |lines: &[Line<'_>], n: usize| {
        lines.get(n).map_or((String::new(), String::new()), |l| {
            (l.what.to_string(), l.day.to_string())
        })
    };
    Ok(html! {
        form class="act" method="get" action=(format!("/ahead/{}", kept.number)) {
            h2 { (say::SUPPOSE) }
            p class="quiet small" { (say::NOTHING_ENTERED) }
            @for n in 0..rows {
                @let (what, day) = at(held, n);
                div class="grid2" {
                    div {
                        label for=(format!("hold-{n}")) { (say::WHAT) }
                        select id=(format!("hold-{n}")) name="hold" {
                            option value="" selected[what.is_empty()] { (say::NOTHING) }
                            @for word in &work { option value=(word) selected[*word == what] { (say::choice(word)) } }
                            @for finding in &findings {
                                @let number = tag::finding(finding.number);
                                option value=(number) selected[number == what] { (say::finding(finding.number, &finding.told)) }
                            }
                        }
                    }
                    div {
                        label for=(format!("day-{n}")) { (say::DAY) }
                        input type="date" id=(format!("day-{n}")) name="day" value=(day);
                    }
                }
            }
            @for n in 0..more {
                @let (what, day) = at(runs, n);
                div class="grid2" {
                    div {
                        label for=(format!("rday-{n}")) { (say::A_RUN) }
                        input type="date" id=(format!("rday-{n}")) name="rday" value=(day);
                    }
                    div {
                        label for=(format!("run-{n}")) { (say::WHAT_RUN) }
                        input type="text" id=(format!("run-{n}")) name="run" value=(what) autocomplete="off";
                    }
                }
            }
            button { (say::LOOK) }
            @if !held.is_empty() || !runs.is_empty() { " " a href=(format!("/ahead/{}", kept.number)) { (say::AS_IT_IS) } }
        }
    })
}
