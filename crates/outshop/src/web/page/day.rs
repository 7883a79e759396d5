//! A day of an engine on one page, for a phone in cold hands: what stops her, the daily inspection in the morning, and
//! in the evening the fire's times and the crew's report.

use std::collections::BTreeMap;

use jiff::civil::Date;
use maud::{Markup, html};
use rules::Body;
use shop::book::{
    Answer, Authority, Book, FindingState, Inspection, ItemAsked, Locomotive, LocomotiveId,
};
use shop::clock::State;
use shop::inspection::{items, unmet};
use shop::locomotive::{Law, engine};
use shop::record::{Daily, daily_of};
use shop::report::{Ahead, ahead};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::trouble;
use crate::words::{self, day as say, engine as on_her, tag};

const DAY: &str = "inspect day";
const REPORT: &str = "writeup report";
/// Things noticed that the form has room for at once.
const NOTICED: usize = 3;

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let ahead = ahead(view.book, view.rules, id, view.on)?;
    let title = say::head(&kept.number, view.on);
    let body = html! {
        h1 { (title) }
        (state(kept, &ahead, view.on))
        (morning(view, id, kept))
        (evening(view, id, kept))
    };
    Ok(Drawn::new("/", title, body))
}

/// What stops her and what her clocks have left, before anything is asked.
fn state(kept: &Locomotive, ahead: &Ahead, on: Date) -> Markup {
    // A clock that has run out stands among what stops her.
    let runs = ahead
        .clocks
        .iter()
        .filter(|clock| clock.state == State::Runs);
    let left: Vec<_> = runs
        .filter_map(|clock| Some((clock.inspection.as_str(), clock.left?, clock.unit)))
        .collect();
    html! {
        // Who released her, when, and through when her log is closed belong to it.
        @if ahead.stops.is_empty() { p { (words::ahead::clear(&kept.number, &ahead.release, on)) } }
        @else {
            h2 { (say::STOPS) }
            ol class="between" { @for stop in &ahead.stops { li {
                @match stop.what.as_deref().and_then(|what| what.split_once(' ')) {
                    Some((kind, number)) => a href=(format!("/{kind}/{number}")) { (kit::sentence(&stop.why)) },
                    None => (kit::sentence(&stop.why)),
                }
            } } }
        }
        p class="quiet small" { (say::clocks(&left)) " " a href=(format!("/engine/{}", kept.number)) { (words::ahead::EVERY_CLOCK) } " · " a href=(format!("/engine/{}/open", kept.number)) { (words::apart::LINK) } }
    }
}

fn morning(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let may = view.may(Authority::Inspect);
    let body = match daily_of(view.book, id, view.on) {
        Daily::None => match items(&Law::of(view.book, view.rules, kept), "daily", view.on) {
            Ok(asked) => html! {
                p { (say::to_open(asked.len())) }
                @if may { (form(view, id, kept, &asked, None)) }
            },
            // Without a daily inspection in her rules the evening is still there to be told.
            Err(no) => trouble::said(&no.to_string()),
        },
        Daily::Open(_, daily) => {
            let open = daily.items.len() - daily.answers.len();
            html! {
                p { a href=(path(daily)) { (say::stands(&tag::inspection(daily.number), open, daily.items.len())) } }
                @if may { (form(view, id, kept, &daily.items, Some(daily))) }
                (answered(view, daily))
            }
        }
        Daily::Left(_, daily) => html! {
            p { a class="need" href=(path(daily)) { (say::left_open(&tag::inspection(daily.number), daily.opened_on)) } }
            @if may { (kit::put_away(view, daily)) }
        },
        Daily::Closed(_, daily) => html! {
            p { a href=(path(daily)) { (say::is_closed(&tag::inspection(daily.number), daily.closed.map_or("?", |(_, by)| kit::name(view.book, by)))) } }
            (answered(view, daily))
        },
    };
    let mut who: Vec<_> = view.book.persons.values().collect();
    who.retain(|p| p.holds(Authority::Inspect, view.on));
    let mut who: Vec<&str> = who.iter().map(|p| p.name.as_str()).collect();
    who.sort_unstable();
    html! {
        section class="ruled" {
            h2 { (say::BEFORE) }
            @if !may { p class="need" { (say::may_not(&view.reader.name, &who)) } }
            (body)
        }
    }
}

fn path(daily: &Inspection) -> String {
    format!("/inspection/{}", tag::inspection(daily.number))
}

/// Every item nobody has answered, one under another, on one form.
fn form(
    view: &View<'_>,
    id: LocomotiveId,
    kept: &Locomotive,
    asked: &[ItemAsked],
    daily: Option<&Inspection>,
) -> Markup {
    let asks: BTreeMap<String, rules::Item> = Law::of(view.book, view.rules, kept)
        .items("daily", view.on)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|ruling| match ruling.body {
            Body::Item(item) => Some((ruling.rule, item)),
            _ => None,
        })
        .collect();
    let open: Vec<(usize, &ItemAsked)> = (1..)
        .zip(asked)
        .filter(|(_, item)| daily.is_none_or(|d| !d.answers.contains_key(&item.rule)))
        .collect();
    let waits = daily.map_or(Vec::new(), |daily| unmet(view.book, daily));
    html! {
        form class="act day" method="post" action="/do" {
            (kit::hidden("verb", DAY)) (kit::hidden("back", view.path)) (kit::hidden("engine", &kept.number))
            @if open.is_empty() {
                @if waits.is_empty() { (kit::made(view, DAY)) (kit::sign_with(DAY)) button name="close" value="yes" { (say::CLOSE) } }
                @else { ul { @for line in &waits { li { (line) } } } }
            } @else {
                p class="quiet small" { (say::EACH_ITEM) }
                @for (at, item) in &open { (one(view, id, *at, item, asks.get(&item.rule))) }
                button { (say::SAVE) }
                (kit::made(view, DAY))
                (kit::may_sign_with(DAY))
                button name="close" value="yes" { (say::SAVE_AND_CLOSE) }
            }
        }
    }
}

fn one(
    view: &View<'_>,
    id: LocomotiveId,
    at: usize,
    item: &ItemAsked,
    law: Option<&rules::Item>,
) -> Markup {
    let name = |field: &str| format!("items:{}:{field}", item.rule);
    let how = view.draft.value(DAY, &name("how"));
    let on = view.draft.value(DAY, &name("at"));
    let seen = kit::id(DAY, &name("seen"));
    let choice = |word: &str, title: &str| {
        html! {
            label class="choice" { input type="radio" name=(name("how")) value=(word) checked[how == word]; span { (title) } }
        }
    };
    let fitting = item.fitting.is_some();
    let before = said_before(view, id, &item.rule);
    let words_before = kit::id(DAY, &name("before"));
    html! {
        fieldset class="item" {
            legend { (say::item(at, &item.text)) " " span class="quiet small" { (item.section) @if law.is_some_and(|law| law.at_start_of_day) { ", " (say::AT_START) } } }
            @if let Some(law) = law { p class="small" { (law.question) } }
            // Words of the same person before, with *good* in them: one touch an item, never one for all.
            @for said in before.iter().take(2) { (choice(&format!("good: {said}"), &say::good_again(said))) }
            div class="choices" {
                (choice("good", say::GOOD))
                (choice("fair", say::FAIR))
                (choice("defect", say::DEFECT))
                @if fitting { (choice("not-fitted", say::NOT_FITTED)) }
            }
            label for=(seen) { (say::SEEN) @if law.is_some_and(rules::Item::needs_reading) { " " span class="quiet" { (say::WITH_FIGURE) } } }
            input type="text" id=(seen) name=(name("seen")) value=(view.draft.value(DAY, &name("seen"))) autocomplete="off" list=[(!before.is_empty()).then_some(&words_before)];
            @if !before.is_empty() { datalist id=(words_before) { @for said in &before { option value=(said) {} } } }
            details open[how == "defect" || !on.is_empty()] {
                summary { (say::DEFECT_ON) }
                (defect_on(view.book, id, &name("at"), on))
                p class="quiet small" { (say::NO_SUCH_PART) }
            }
        }
    }
}

/// The newest words the reader wrote of this item of hers when it was good, to be chosen again one item at a time. A
/// figure is read anew each day, so words that hold one are not offered.
fn said_before<'b>(view: &View<'b>, id: LocomotiveId, rule: &str) -> Vec<&'b str> {
    let of_her = view.book.inspections.values();
    let mut of_her: Vec<_> = of_her.filter(|i| i.locomotive == id).collect();
    of_her.sort_by_key(|i| std::cmp::Reverse(i.number));
    let mut before: Vec<&str> = Vec::new();
    for given in of_her.iter().filter_map(|i| i.answers.get(rule)) {
        let said = given.seen.as_str();
        let plain = !said.contains(|letter: char| letter.is_numeric());
        if given.by == view.reader.id
            && given.answer == Answer::Good
            && given.condition.is_none()
            && plain
            && !before.contains(&said)
        {
            before.push(said);
        }
        if before.len() == 3 {
            break;
        }
    }
    before
}

fn defect_on(book: &Book, id: LocomotiveId, name: &str, chosen: &str) -> Markup {
    let mut findings: Vec<_> = book.findings.values().collect();
    findings.retain(|f| f.locomotive == id && f.state != FindingState::Closed);
    findings.sort_by_key(|f| f.number);
    let parts = book.parts.values().filter(|p| p.locomotive == id);
    let mut parts: Vec<&str> = parts.map(|p| p.name.as_str()).collect();
    parts.sort_unstable();
    html! {
        select name=(name) aria-label=(say::DEFECT_ON) {
            option value="" { (say::NOT_CHOSEN) }
            @if !parts.is_empty() { optgroup label=(say::PARTS) { @for part in &parts { option value=(part) selected[*part == chosen] { (part) } } } }
            @if !findings.is_empty() { optgroup label=(say::FINDINGS) { @for f in &findings {
                @let tag = tag::finding(f.number);
                option value=(tag) selected[tag == chosen] { (words::inspection::finding(&tag, &f.told)) }
            } } }
        }
    }
}

fn answered(view: &View<'_>, daily: &Inspection) -> Markup {
    let given = (1..).zip(&daily.items);
    let given = given.filter_map(|(at, item)| Some((at, item, daily.answers.get(&item.rule)?)));
    let given: Vec<(usize, _, _)> = given.collect();
    html! {
        @if !given.is_empty() { details { summary { (say::ANSWERED) " " span class="quiet" { (words::work::folded(given.len())) } }
            ul class="plain" { @for (at, item, it) in &given { li {
                (say::item(*at, &item.text)) " "
                b {
                    (words::inspection::answer(it))
                    @if let Answer::Defect { finding } = &it.answer { @if let Some(f) = view.book.findings.get(finding) { " " a href=(format!("/finding/{}", tag::finding(f.number))) { (tag::finding(f.number)) } } }
                }
                ": " (it.seen) " " span class="quiet small" { (words::inspection::by(it.on, kit::name(view.book, it.by))) }
            } } }
        } }
    }
}

fn evening(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let steams = Law::of(view.book, view.rules, kept).counts_service_days();
    let mut filed: Vec<_> = view.book.reports.values().collect();
    filed.retain(|r| r.locomotive == id && r.on == view.on);
    filed.sort_by_key(|r| r.entry);
    html! {
        section class="ruled" {
            h2 { (say::AFTER) }
            @if !filed.is_empty() { ul class="plain" { @for report in &filed {
                @if report.symptoms.is_empty() { li { (say::report(kit::name(view.book, report.by), say::CLEAN)) @if let Some(told) = &report.told { "; " (told) } } }
                @for told in &report.symptoms { li {
                    @let tag = tag::write_up(told.number);
                    a class=(if told.looked.is_none() { "need" } else { "" }) href=(format!("/write-up/{tag}")) { (tag) } " "
                    (say::report(kit::name(view.book, report.by), &say::symptom(&told.symptom)))
                } }
            } } }
            (crew(view, kept))
            @if steams { (fire(view, id, kept)) }
            p { a href=(format!("/notice/{}", kept.number)) { (words::moved::FROM_OUTSIDE) } }
        }
    }
}

fn crew(view: &View<'_>, kept: &Locomotive) -> Markup {
    let draft = |name: &str| view.draft.value(REPORT, name);
    html! {
        form class="act day" method="post" action="/do" {
            h2 { (say::CREW) }
            (kit::hidden("verb", REPORT)) (kit::hidden("back", view.path)) (kit::hidden("engine", &kept.number))
            p class="quiet small" { (say::REPORT_MEANS) }
            label class="choice" { input type="checkbox" name="nothing" value="yes" checked[draft("nothing") == "yes"]; span { (say::NOTHING) } }
            (noticed(view, 1))
            @for at in 2..=NOTICED {
                @let used = ["what", "where", "pressure"].iter().any(|field| !draft(&format!("symptoms:{at}:{field}")).is_empty());
                details open[used] { summary { (say::nth(at)) } (noticed(view, at)) }
            }
            (kit::line(view, REPORT, "told", say::ELSE, ""))
            button { (say::FILE) }
        }
    }
}

fn noticed(view: &View<'_>, at: usize) -> Markup {
    let name = |field: &str| format!("symptoms:{at}:{field}");
    let choice = |field: &str, word: &str, title: &str| {
        let name = name(field);
        let chosen = view.draft.value(REPORT, &name) == word;
        html! { label class="choice" { input type="radio" name=(name) value=(word) checked[chosen]; span { (title) } } }
    };
    html! {
        fieldset class="item" {
            @if at == 1 { legend { (say::nth(at)) } }
            (kit::line(view, REPORT, &name("what"), say::WHAT, ""))
            (kit::line(view, REPORT, &name("where"), say::WHERE, ""))
            fieldset { legend { (say::HEAT) } div class="choices" { (choice("heat", "hot", say::HOT)) (choice("heat", "cold", say::COLD)) (choice("heat", "", say::NOT_SAID)) } }
            (kit::line(view, REPORT, &name("pressure"), say::PRESSURE, say::PRESSURE_SUCH_AS))
            fieldset { legend { (say::WAIT) } div class="choices" { (choice("wait", "no", say::CANNOT_WAIT)) (choice("wait", "yes", say::CAN_WAIT)) (choice("wait", "", say::NOT_SAID)) } }
        }
    }
}

/// The fire's times, with the day's own page behind the fields of the telephone.
fn fire(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    const VERB: &str = "steam log";
    let lines = view.book.fires.of(id).into_iter().flatten();
    let today = lines.map(|(_, line)| line).filter(|line| {
        let touches = |at: Option<jiff::civil::DateTime>| at.is_some_and(|at| at.date() == view.on);
        [line.lit, line.up, line.out, line.gone]
            .into_iter()
            .any(touches)
    });
    let time = |name: &str, label: &str| {
        let field = kit::id(VERB, name);
        html! {
            label for=(field) { (label) }
            input type="datetime-local" id=(field) name=(name) value=(view.draft.value(VERB, name));
        }
    };
    html! {
        form class="act day" method="post" action="/do" {
            h2 { (say::THE_FIRE) }
            (kit::hidden("verb", VERB)) (kit::hidden("back", view.path)) (kit::hidden("engine", &kept.number))
            ul class="plain" { @for line in today { li {
                (on_her::LIT) ": " (words::moment(line.lit)) "; " (on_her::UP) ": " (words::moment(line.up)) "; "
                (on_her::OUT) ": " (words::moment(line.out)) "; " (on_her::GONE) ": " (words::moment(line.gone))
            } } }
            div class="grid2" {
                div { (time("lit", on_her::LIT)) } div { (time("up", on_her::UP)) }
                div { (time("out", on_her::OUT)) } div { (time("gone", on_her::GONE)) }
            }
            (kit::line(view, VERB, "miles", on_her::MILES, ""))
            p class="quiet small" { (on_her::LEFT_BLANK) }
            button { (say::LOG_FIRE) }
        }
    }
}
