//! A job: worked to what, step by step, where it stops, what proves it, what is missing.

use maud::{Markup, html};
use shop::book::{Authority, Job, Part};
use shop::locomotive::{family, job};
use shop::record::unmet;

use super::{Drawn, View, kit};
use crate::{Failure, words};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = job(view.book, number)?;
    let title = format!("J-{:03}", kept.number);
    let missing = if kept.closed.is_some() {
        Vec::new()
    } else {
        unmet(view.book, view.rules, kept, view.on)?
    };
    let finding = view.book.findings.get(&kept.plan.finding);
    let part = finding.and_then(|f| view.book.parts.get(&f.part));
    let found = finding.map_or(0, |f| f.number);
    let body = html! {
        h1 { (title) ": " (kept.plan.title) }
        p class="lead" {
            "No. " (kit::number(view.book, kept.locomotive)) ", for " a href=(format!("/finding/F-{found:03}")) { "F-" (format!("{found:03}")) }
            ". Ordered " (words::day(kept.made_on)) " by " (kit::name(view.book, kept.made_by))
            @if let Some(day) = kept.plan.promised { "; promised for " (words::day(day)) } "."
        }
        section class="ruled" {
            h2 { "Cautions" }
            ul class="caution" { @for line in &kept.plan.cautions { li { (line) } } }
            h3 { "Stop and ask" }
            ul class="caution" { @for line in &kept.plan.stop_points { li { (line) } } }
        }
        section class="ruled" {
            h2 { "Worked to" }
            ul { @for line in &kept.plan.sizes { li { (line) } } }
            @if kept.plan.sizes.is_empty() { p { "No sheet is on file for this route: sizes are worked by hand and checked by the officer." } }
            @if !kept.plan.tooling.is_empty() { h3 { "Made first" } ul { @for line in &kept.plan.tooling { li { (line) } } } }
            @for sheet in &kept.plan.sheets { details { summary { "Sheet " (sheet.sheet) ", as printed" } pre class="steps" { (sheet.text) } } }
        }
        (operations(view, kept, &title))
        (proofs(view, kept, &title))
        @if let Some(part) = part { (left(view, kept, part, &title)?) }
        (knock_ons(view, kept, &title))
        (signatures(view, kept, &title, &missing))
    };
    Ok(Drawn::new("/work", title, body))
}

/// The job and what the reader has seen of it.
fn of(kept: &Job, title: &str) -> Markup {
    html! { (kit::hidden("job", title)) (kit::hidden("seen_entry", &kept.last.to_string())) }
}

fn operations(view: &View<'_>, kept: &Job, title: &str) -> Markup {
    let next = kept.operations.iter().position(|o| o.done.is_none());
    let held = kept
        .plan
        .operations
        .iter()
        .zip(&kept.operations)
        .position(|(plan, state)| {
            plan.hold.is_some() && state.done.is_some() && state.cleared.is_none()
        });
    html! {
        section class="ruled" {
            h2 { "Operations" }
            ol { @for (at, (plan, state)) in kept.plan.operations.iter().zip(&kept.operations).enumerate() {
                @let [low, likely, high] = plan.hours;
                li {
                    p { (plan.what) " " span class="quiet small" { (plan.place) "; engine " (plan.engine) "; " (likely) " likely, " (low) " to " (high) } }
                    @if let Some((day, by, hours, told)) = &state.done {
                        p class="told" { "Done " (words::day(*day)) " by " (kit::name(view.book, *by)) @if let Some(hours) = hours { ", " (hours) } @if !told.is_empty() { ": " (told) } }
                    }
                    @if let Some(hold) = &plan.hold {
                        @match &state.cleared {
                            Some((day, by, seen)) => p class="told" { b { "Hold point cleared" } " " (words::day(*day)) " by " (kit::name(view.book, *by)) ": " (seen) },
                            None => p { b class=(if held == Some(at) { "need" } else { "" }) { "Hold point" } ": " (hold.look) " (" (hold.by.word()) ")" },
                        }
                    }
                }
            } }
            @if kept.closed.is_none() {
                @if let Some(at) = held {
                    @let fields = html! {
                        (of(kept, title)) (kit::hidden("operation", &(at + 1).to_string()))
                        (kit::lines(view, "job clear", "seen", "What was seen", "not by the one who did the work"))
                    };
                    (kit::form(view, "job clear", &format!("Clear the hold point after operation {}", at + 1), &fields, "Clear it"))
                } @else if let Some(at) = next {
                    @let fields = html! {
                        (kit::hidden("job", title)) (kit::hidden("operation", &(at + 1).to_string()))
                        (kit::line(view, "job done", "hours", "Hours", "such as 2 1/2; leave blank if nobody kept them"))
                        (kit::lines(view, "job done", "told", "What there is to say", ""))
                    };
                    (kit::form(view, "job done", &format!("Operation {} is done", at + 1), &fields, "It is done"))
                }
            }
        }
    }
}

fn proofs(view: &View<'_>, kept: &Job, title: &str) -> Markup {
    const VERB: &str = "prove";
    let wanting: Vec<_> = kept
        .plan
        .proofs
        .iter()
        .filter(|p| !kept.proofs.get(*p).is_some_and(|(passed, ..)| *passed))
        .collect();
    let ready = kept.operations.iter().all(|o| o.done.is_some());
    html! {
        section class="ruled" {
            h2 { "Proofs" }
            dl class="facts" { @for proof in &kept.plan.proofs {
                dt { (proof) }
                dd { @match kept.proofs.get(proof) {
                    Some((passed, told, by, day)) => { @if *passed { "held" } @else { b class="need" { "did not hold" } } ", " (words::day(*day)) " by " (kit::name(view.book, *by)) ": " (told) }
                    None => { "to be made" }
                } }
            } }
            @if ready && kept.closed.is_none() && !wanting.is_empty() {
                @let fields = html! {
                    (kit::hidden("job", title))
                    label for="prove-proof" { "Proof" }
                    select id="prove-proof" name="proof" { @for proof in &wanting { option selected[view.draft.value(VERB, "proof") == proof.as_str()] { (proof) } } }
                    fieldset {
                        legend { "It" }
                        label class="choice" { input type="radio" name="choice" value="passed" required; span { "held" } }
                        label class="choice" { input type="radio" name="choice" value="failed"; span { "did not hold" } }
                    }
                    (kit::lines(view, VERB, "told", "What was seen", "pressure, how long, where it wept or that it did not"))
                };
                (kit::form(view, VERB, "Record a proof", &fields, "Record it"))
            }
        }
    }
}

fn left(view: &View<'_>, kept: &Job, part: &Part, title: &str) -> Result<Markup, Failure> {
    const VERB: &str = "reading take";
    let family = family(view.book, &part.family)?;
    let ready = kept.operations.iter().all(|o| o.done.is_some());
    let her = kit::number(view.book, kept.locomotive);
    let found = view.book.findings.get(&kept.plan.finding);
    let before = |feature: &str, place: &str| {
        found
            .and_then(|f| {
                f.readings
                    .iter()
                    .find(|r| r.feature == feature && r.reading.position == place)
            })
            .map(|r| r.reading.written())
    };
    let here = |feature: &str, place: &str| {
        kept.left
            .iter()
            .find(|r| r.feature == feature && r.reading.position == place)
    };
    Ok(html! {
        section class="ruled" {
            h2 { "As left" }
            @if !kept.left.is_empty() {
                div class="table" { table class="stack" {
                    thead { tr { th { "What" } th { "Place" } th class="num" { "As found" } th class="num" { "As left" } } }
                    tbody { @for feature in &family.features { @for place in &feature.positions {
                        @if let Some(reading) = here(&feature.name, place) { tr {
                            td data-label="What" { b { (feature.title) } } td data-label="Place" { (place) }
                            td class="num" data-label="As found" { (before(&feature.name, place).unwrap_or_else(|| "-".into())) }
                            td class="num" data-label="As left" { (reading.reading.written()) }
                        } }
                    } } }
                } }
            }
            @if ready && kept.closed.is_none() {
                @let fields = html! {
                    (kit::hidden("job", title)) (kit::hidden("engine", her)) (kit::hidden("part", &part.name)) (kit::hidden("as_left", "yes"))
                    p class="quiet small" { "As written, with its unit: 5/32in, .399in, 45deg. Leave a place blank to come back to it." }
                    @for feature in &family.features {
                        fieldset {
                            legend { (feature.title) " " span class="quiet" { (feature.how) } }
                            div class="grid2" { @for place in &feature.positions {
                                @let name = format!("at:{}@{place}", feature.name);
                                @let hint = before(&feature.name, place).map(|was| format!("was {was}")).unwrap_or_default();
                                div { (kit::line(view, VERB, &name, place, &hint)) }
                            } }
                        }
                    }
                };
                details open[kept.left.is_empty()] { summary { "Take as-left readings" } (kit::form(view, VERB, "As-left readings", &fields, "Keep them")) }
            }
            @if !ready { p { "Taken when every operation is done." } }
        }
    })
}

fn knock_ons(view: &View<'_>, kept: &Job, title: &str) -> Markup {
    const VERB: &str = "job knock-on";
    let wanting: Vec<_> = kept
        .plan
        .knock_ons
        .iter()
        .filter(|k| !kept.knock_ons.contains_key(*k))
        .collect();
    html! {
        section class="ruled" {
            h2 { "Knock-ons" }
            dl class="facts" { @for word in &kept.plan.knock_ons {
                dt { (word) }
                dd { @match kept.knock_ons.get(word) {
                    Some((seen, by, day)) => { (seen) " " span class="quiet small" { (words::day(*day)) " by " (kit::name(view.book, *by)) } }
                    None => { "to be looked at" }
                } }
            } }
            @if kept.closed.is_none() && !wanting.is_empty() {
                @let fields = html! {
                    (kit::hidden("job", title))
                    label for="knock-on-which" { "Which" }
                    select id="knock-on-which" name="knock_on" { @for word in &wanting { option selected[view.draft.value(VERB, "knock_on") == word.as_str()] { (word) } } }
                    (kit::lines(view, VERB, "seen", "What was found there", ""))
                };
                (kit::form(view, VERB, "A knock-on was looked at", &fields, "Keep it"))
            }
        }
    }
}

fn signatures(view: &View<'_>, kept: &Job, title: &str, missing: &[String]) -> Markup {
    let may = view
        .book
        .persons
        .get(&view.reader.id)
        .map(|p| p.may.clone())
        .unwrap_or_default();
    let signed = |capacity: Authority| kept.signatures.iter().find(|s| s.capacity == capacity);
    html! {
        section class="ruled" {
            h2 { "Signatures" }
            dl class="facts" { @for capacity in Authority::ALL {
                dt { (capacity.signer()) }
                dd { @match signed(capacity) {
                    Some(s) => { (kit::name(view.book, s.by)) ", " (words::day(s.on)) }
                    None => { "not signed" }
                } }
            } }
            @match &kept.closed {
                Some((day, by, verdict)) => p { "Closed " (words::day(*day)) " by " (kit::name(view.book, *by)) "; as left it " (verdict) "." },
                None => {
                    h3 { "Before it can be closed" }
                    @if missing.is_empty() { p { "Nothing is missing." } }
                    ul { @for line in missing { li { (line) } } }
                    @if !may.is_empty() {
                        @let fields = html! {
                            (of(kept, title))
                            label for="sign-as" { "Sign as" }
                            select id="sign-as" name="as" { @for capacity in &may { option value=(capacity.signer()) { (capacity.signer()) } } }
                        };
                        (kit::form(view, "sign", &format!("Sign as {}", view.reader.name), &fields, "Sign"))
                    }
                    @if may.contains(&Authority::Approve) { (kit::form(view, "job close", "Close the job", &of(kept, title), "Close it")) }
                }
            }
        }
    }
}
