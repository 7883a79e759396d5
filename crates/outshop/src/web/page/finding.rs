//! A finding, told downwards to its close: found, measured, verdict, routes, decision, job, left.

use maud::{Markup, html};
use shop::book::{Finding, FindingState, Occasion};
use shop::locomotive::{family, finding};
use shop::record::as_left;
use shop::route::{Choice, Feasible, Offer, metal_left, routes};
use shop::verdict::{Judgement, Verdict};

use super::{Drawn, View, kit};
use crate::{Failure, words};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = finding(view.book, number)?;
    let choice = routes(view.book, view.rules, kept, kept.found_on)?;
    let part = view
        .book
        .parts
        .get(&kept.part)
        .map_or("?", |p| p.name.as_str());
    let her = kit::number(view.book, kept.locomotive);
    let title = format!("F-{:03}", kept.number);
    let body = html! {
        h1 { (title) ": No. " (her) ", " (part) }
        p class="lead" { (state(kept)) " " a href=(kit::part_path(her, part)) { "The part's life" } }
        section class="ruled" {
            h2 { "Found" }
            p { (words::day(kept.found_on)) " " (occasion(view, kept)) ", by " (kit::name(view.book, kept.found_by)) "." }
            p class="told" { (kept.told) }
        }
        (measured(view, kept))
        (verdict(&choice.judgement))
        (weighed(view, kept, &choice))
        (decided(view, kept, &choice))
        (job(view, kept)?)
    };
    Ok(Drawn::new("/work", title, body))
}

fn state(kept: &Finding) -> &'static str {
    match kept.state {
        FindingState::Open => "Nobody has decided yet.",
        FindingState::Decided => "Decided; no job is made yet.",
        FindingState::InWork => "In work.",
        FindingState::Closed => "Put right, proved and signed.",
        FindingState::Carried => "Carried by decision.",
    }
}

fn occasion(view: &View<'_>, kept: &Finding) -> Markup {
    match &kept.occasion {
        Occasion::Inspection { inspection } => match view.book.inspections.get(inspection) {
            Some(i) => {
                html! { "at the " (i.kind) " inspection " a href=(format!("/inspection/I-{:03}", i.number)) { "I-" (format!("{:03}", i.number)) } }
            }
            None => html! { "at an inspection" },
        },
        Occasion::WriteUp => html! { "by a write-up" },
        Occasion::RoadFailure => html! { "by a road failure" },
        Occasion::SpecialNotice => html! { "by an inspector's special notice" },
        Occasion::PlannedWork => html! { "in planned work" },
    }
}

fn measured(view: &View<'_>, kept: &Finding) -> Markup {
    let read = view
        .book
        .parts
        .get(&kept.part)
        .and_then(|p| family(view.book, &p.family).ok());
    html! {
        section class="ruled" {
            h2 { "Measured, as found" }
            @if kept.readings.is_empty() { p { "Nothing was measured." } }
            @if let Some(family) = read {
                @if !kept.readings.is_empty() {
                    div class="table" { table class="stack" {
                        thead { tr { th { "What" } th { "Read, place by place" } th { "By" } } }
                        tbody { @for feature in &family.features {
                            @let of_it: Vec<_> = kept.readings.iter().filter(|r| r.feature == feature.name).collect();
                            @if !of_it.is_empty() { tr {
                                td data-label="What" { b { (feature.title) } }
                                td data-label="Read" { @for (at, r) in of_it.iter().enumerate() { @if at > 0 { ", " } span class="quiet" { (r.reading.position) } " " span class="fig" { (r.reading.written()) } } }
                                td data-label="By" { (of_it.iter().find_map(|r| r.reading.instrument.as_deref()).unwrap_or("not written")) }
                            } }
                        } }
                    } }
                }
            }
        }
    }
}

/// The verdict with each limit behind it.
pub fn verdict(judgement: &Judgement) -> Markup {
    html! {
        section class="ruled" {
            h2 { "Verdict: " (kit::verdict(&judgement.verdict)) }
            p { @if let Verdict::CannotTell(needs) = &judgement.verdict { "Needs " (needs.join("; ")) ". " } "A verdict is computed; the officer decides." }
            div class="table" { table class="stack" {
                thead { tr { th { "What" } th { "Found" } th { "Limit" } th { "Verdict" } th { "Where it stands" } } }
                tbody { @for line in &judgement.lines { tr {
                    td data-label="What" { b { (line.what) } }
                    td data-label="Found" { (line.found) }
                    td data-label="Limit" { (line.limit) }
                    td data-label="Verdict" { (kit::verdict(&line.verdict)) }
                    td data-label="Stands in" { @match &line.ruling {
                        Some(ruling) => { a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } " " span class="quiet small" { (ruling.mark) } }
                        None => { span class="quiet small" { @if line.law { "not known which rule" } @else { "our own limit" } } }
                    } }
                } } }
            } }
        }
    }
}

fn weighed(view: &View<'_>, kept: &Finding, choice: &Choice) -> Markup {
    let rows = html! {
        @for offer in &choice.offers { (one(offer)) }
        @if !choice.sheets.is_empty() {
            p class="small" { "These stand on the sheets " @for (at, sheet) in choice.sheets.iter().enumerate() { @if at > 0 { ", " } a href=(sheet_path(sheet)) { (sheet.card.id) } } "." }
        }
    };
    html! {
        @if kept.state == FindingState::Open {
            section class="ruled" {
                h2 { "Routes, side by side" }
                (rows)
                (decide(view, kept, choice))
            }
        } @else {
            details {
                summary { "Routes weighed " span class="quiet" { @for (at, o) in choice.offers.iter().enumerate() { @if at > 0 { "; " } (o.route.word) } } }
                (rows)
            }
        }
    }
}

/// A worked sheet with the same inputs.
fn sheet_path(sheet: &physics::Sheet) -> String {
    let inputs: Vec<_> = sheet
        .inputs
        .iter()
        .filter(|input| sheet.card.arguments.iter().any(|a| a.name == input.name))
        .map(|input| format!("{}={}", input.name, kit::encode(&input.entered)))
        .collect();
    format!("/sheet/{}?{}", sheet.card.id, inputs.join("&"))
}

fn one(offer: &Offer) -> Markup {
    let [low, likely, high] = offer.hours;
    html! {
        h3 { (offer.route.title) " " (kit::feasible(&offer.feasible)) }
        dl class="facts" {
            @match &offer.feasible {
                Feasible::Yes => {}
                Feasible::No(why) => { dt { "Why not" } dd { (why) } }
                Feasible::CannotTell(needs) => { dt { "Needs" } dd { (needs.join("; ")) } }
            }
            @if !offer.route.carries { dt { "Hours" } dd { (likely) " likely, " (low) " to " (high) } }
            @if let Some(metal) = &offer.metal { dt { "Metal" } dd { (metal) } }
            dt { "Buys" } dd { (offer.route.buys) }
            @if let Some(skill) = &offer.route.skill { dt { "Skill" } dd { (skill) } }
            @if !offer.unknown.is_empty() { dt { "Not known" } dd { (offer.unknown.join("; ")) } }
        }
    }
}

fn decide(view: &View<'_>, kept: &Finding, choice: &Choice) -> Markup {
    const VERB: &str = "decide";
    let open: Vec<_> = choice
        .offers
        .iter()
        .filter(|o| o.feasible == Feasible::Yes)
        .collect();
    let carries = open.iter().any(|o| o.route.carries);
    let fields = html! {
        (kit::hidden("finding", &format!("F-{:03}", kept.number)))
        (kit::hidden("seen_entry", &kept.last.to_string()))
        fieldset {
            legend { "Route" }
            @for offer in &open {
                label class="choice" {
                    input type="radio" name="route" value=(offer.route.word) required checked[view.draft.value(VERB, "route") == offer.route.word];
                    span { (offer.route.title) }
                }
            }
        }
        (kit::lines(view, VERB, "because", "Why", ""))
        @if carries { (kit::day(view, VERB, "recheck", "Looked at again on, if it is carried")) }
    };
    html! {
        @if open.is_empty() { p { "No route can be taken yet: see what each needs." } }
        @else { (kit::form(view, VERB, "Decide", &fields, "Sign the decision")) }
    }
}

fn decided(view: &View<'_>, kept: &Finding, _choice: &Choice) -> Markup {
    let Some(decision) = &kept.decision else {
        return html! {};
    };
    html! {
        section class="ruled" {
            h2 { "Decided: " (decision.route) }
            p { (words::day(decision.on)) " by " (kit::name(view.book, decision.by)) ". The verdict that day: " (decision.verdict) "." }
            p class="told" { (decision.because) }
            @if let Some(day) = decision.recheck { p { "To be looked at again " (words::day(day)) "." } }
            @for sheet in &decision.sheets {
                details { summary { "Sheet " (sheet.sheet) ", as printed that day" } pre class="steps" { (sheet.text) } }
            }
        }
    }
}

fn job(view: &View<'_>, kept: &Finding) -> Result<Markup, Failure> {
    let Some(job) = kept.job.and_then(|id| view.book.jobs.get(&id)) else {
        if kept.state == FindingState::Decided {
            let fields = html! {
                (kit::hidden("finding", &format!("F-{:03}", kept.number)))
                (kit::hidden("then", "job"))
                (kit::day(view, "job make", "promised", "Promised for"))
            };
            return Ok(
                html! { section class="ruled" { h2 { "Job" } (kit::form(view, "job make", "Make the job", &fields, "Make the job")) } },
            );
        }
        return Ok(html! {});
    };
    let done = job.operations.iter().filter(|o| o.done.is_some()).count();
    let path = format!("/job/J-{:03}", job.number);
    let metal = view.book.parts.get(&kept.part).and_then(|part| {
        let family = family(view.book, &part.family).ok()?;
        metal_left(&family, part).into_iter().next()
    });
    let left = if job.left.is_empty() {
        None
    } else {
        Some(as_left(view.book, view.rules, job, view.on)?)
    };
    Ok(html! {
        section class="ruled" {
            h2 { "Job " a href=(path) { "J-" (format!("{:03}", job.number)) } }
            p { (job.plan.title) ". " (done) " of " (job.operations.len()) " operations done." }
            @if let Some((day, by, verdict)) = &job.closed { p { "Closed " (words::day(*day)) " by " (kit::name(view.book, *by)) "; as left it " (verdict) "." } }
        }
        @if let Some(left) = left {
            section class="ruled" {
                h2 { "Left: " (kit::verdict(&left.verdict)) }
                @if let Some(metal) = metal {
                    p { b class="fig" { (measure::show::decimal_in(metal.left)) " in" } " of metal left" @if let Some(cuts) = metal.re_cuts { ", about " (words::count(usize::try_from(cuts).unwrap_or(0), "re-cut", "re-cuts")) } ", before our shop limit." }
                }
            }
        }
    })
}
