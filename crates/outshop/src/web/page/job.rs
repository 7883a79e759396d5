//! A job: worked to what, step by step, where it stops, what proves it, what is missing.

use maud::{Markup, html};
use shop::book::{Authority, Family, Job, Part};
use shop::locomotive::{Law, engine_of, family, job};
use shop::record::unmet;
use shop::route::routes;

use super::{Drawn, View, bench, drawn, kit};
use crate::Failure;
use crate::verb::print::boiler_work_kinds;
use crate::web::photo;
use crate::words::{self, job as say, tag};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = job(view.book, number)?;
    let title = tag::job(kept.number);
    let missing = if kept.closed.is_some() {
        Vec::new()
    } else {
        unmet(view.book, view.rules, kept, view.on, view.house)?
    };
    let finding = view.book.findings.get(&kept.plan.finding);
    let part = finding.and_then(|f| view.book.parts.get(&f.part));
    let kind = part
        .map(|part| family(view.book, &part.family))
        .transpose()?;
    let found = finding.map(|f| tag::finding(f.number)).unwrap_or_default();
    let engine = engine_of(view.book, kept.locomotive)?;
    let reported = boiler_work_kinds(&Law::of(view.book, view.rules, engine), view.on)?;
    let body = html! {
        h1 { (say::head(&title, &kept.plan.title)) }
        p class="lead" {
            (say::of(kit::number(view.book, kept.locomotive))) a href=(format!("/finding/{found}")) { (found) }
            (say::ordered(kept.made_on, kit::name(view.book, kept.made_by), kept.plan.promised))
        }
        @if let Some(next) = next(kept) { p { a class="need" href=(next.anchor()) { (say::next(&next.words())) } } }
        (crate::web::print::link(&format!("job/{title}")))
        @if !reported.is_empty() {
            p class="quiet small" {
                (words::yearly::PRINT_WORK)
                @for kind in &reported { " " a href=(format!("/print/boiler-work/{title}/{kind}")) { (words::yearly::print_work(kind)) } }
            }
        }
        section class="ruled" {
            h2 { (say::CAUTIONS) }
            ul class="caution" { @for line in &kept.plan.cautions { li { (line) } } }
            h3 { (say::STOP) }
            ul class="caution" { @for line in &kept.plan.stop_points { li { (line) } } }
        }
        section class="ruled" {
            h2 { (say::WORKED_TO) }
            ul { @for line in &kept.plan.sizes { li { (line) } } }
            @if kept.plan.sizes.is_empty() { p { (if kept.plan.sheets.is_empty() { say::BY_HAND } else { say::BY_THESE }) } }
            @if !kept.plan.tooling.is_empty() { h3 { (say::MADE_FIRST) } ul { @for line in &kept.plan.tooling { li { (line) } } } }
            @for sheet in &kept.plan.sheets {
                details { summary { (say::printed(&sheet.sheet)) } pre class="steps" { (sheet.text) } }
                (crate::web::print::kept_link(&title, &sheet.sheet))
            }
        }
        @if let (Some(finding), Some(part)) = (finding, part) { (drawn::of_sheets(view, &part.name, &routes(view.book, view.rules, finding, finding.found_on, view.house)?.sheets, Some(&kept.plan.sheets))) }
        @if let (Some(finding), None) = (finding, &kept.closed) { (super::apart::beside(view, finding)) }
        (super::spare::of_job(view, id))
        (super::job_papers::draw(view, kept, &title))
        (operations(view, kept, &title))
        (super::blue::of_job(view, kept, &title))
        (proofs(view, kept, kind, &title))
        @if let Some(part) = part { (left(view, kept, part, &title)?) }
        (knock_ons(view, kept, kind, &title))
        (photo::of_job(view, id, &title, &kept.plan.proofs))
        (super::job_papers::cost(view, kept))
        (super::letter::about_it(view, |it| it.logged.job == Some(id)))
        (signatures(view, kept, &title, &missing))
    };
    Ok(Drawn::new("/work", title, body))
}

/// Where a job stands: the section whose form comes next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Next {
    Operation(usize),
    Hold(usize),
    Proofs,
    Left,
    KnockOns,
    Sign,
}

/// What comes next; nothing once it is closed.
fn next(kept: &Job) -> Option<Next> {
    if kept.closed.is_some() {
        return None;
    }
    let mut steps = kept.plan.operations.iter().zip(&kept.operations);
    let held = steps.position(|(plan, state)| {
        plan.hold.is_some() && state.done.is_some() && state.cleared.is_none()
    });
    let passed = |proof: &String| kept.proofs.get(proof).is_some_and(|(passed, ..)| *passed);
    Some(if let Some(at) = held {
        Next::Hold(at + 1)
    } else if let Some(at) = kept.operations.iter().position(|o| o.done.is_none()) {
        Next::Operation(at + 1)
    } else if !kept.plan.proofs.iter().all(passed) {
        Next::Proofs
    } else if kept.left.is_empty() {
        Next::Left
    } else if !kept
        .plan
        .knock_ons
        .iter()
        .all(|k| kept.knock_ons.contains_key(k))
    {
        Next::KnockOns
    } else {
        Next::Sign
    })
}

impl Next {
    fn words(self) -> String {
        match self {
            Next::Operation(at) => say::next::operation(at),
            Next::Hold(at) => say::next::hold(at),
            Next::Proofs => say::next::PROOFS.into(),
            Next::Left => say::next::LEFT.into(),
            Next::KnockOns => say::next::KNOCK_ONS.into(),
            Next::Sign => say::next::SIGN.into(),
        }
    }

    /// The section it stands in.
    fn anchor(self) -> &'static str {
        match self {
            Next::Operation(_) | Next::Hold(_) => "#operations",
            Next::Proofs => "#proofs",
            Next::Left => "#left",
            Next::KnockOns => "#knock-ons",
            Next::Sign => "#signatures",
        }
    }
}

/// A form, folded until its turn has come or what was filled in came back.
fn in_turn(view: &View<'_>, verb: &str, its_turn: bool, title: &str, form: &Markup) -> Markup {
    html! { details open[its_turn || view.draft.is_of(verb)] { summary { (title) } (form) } }
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
        section class="ruled" id="operations" {
            h2 { (say::OPERATIONS) }
            ol { @for (at, (plan, state)) in kept.plan.operations.iter().zip(&kept.operations).enumerate() {
                @let [low, likely, high] = plan.hours;
                li {
                    p { (plan.what) " " span class="quiet small" { (say::operation(&plan.place, &plan.engine, &words::finding::hours(&low.to_string(), &likely.to_string(), &high.to_string()))) } }
                    @if let Some((day, by, hours, told)) = &state.done {
                        p class="told" { (say::done(*day, kit::name(view.book, *by), hours.as_ref().map(ToString::to_string).as_deref(), told)) }
                    }
                    @if let Some(hold) = &plan.hold {
                        @match &state.cleared {
                            Some((day, by, seen)) => p class="told" { b { (say::HOLD_CLEARED) } " " (say::seen(*day, kit::name(view.book, *by), seen)) @if let Some(paper) = &state.cleared_on_paper { (say::on_paper(paper)) "." } },
                            None => p { b class=(if held == Some(at) { "need" } else { "" }) { (say::HOLD_POINT) } (say::look(&hold.look, hold.by.word())) },
                        }
                    }
                }
            } }
            @if kept.closed.is_none() {
                @if let Some(at) = held {
                    @let fields = html! {
                        (of(kept, title)) (kit::hidden("operation", &(at + 1).to_string()))
                        (kit::lines(view, "job clear", "seen", say::SEEN, say::NOT_THE_DOER))
                        details open[!view.draft.value("job clear", "paper").is_empty()] { summary { (say::CLEARED_ON_PAPER) }
                            p class="quiet small" { (say::ON_PAPER_MEANS) }
                            (kit::line(view, "job clear", "paper", say::WHICH_PAPER, ""))
                            (kit::day(view, "job clear", "cleared_on", say::CLEARED_ON))
                        }
                    };
                    (kit::signed(view, "job clear", &say::clear(at + 1), &fields, say::CLEAR_IT))
                } @else if let Some(at) = next {
                    @let fields = html! {
                        (kit::hidden("job", title)) (kit::hidden("operation", &(at + 1).to_string()))
                        (kit::line(view, "job done", "hours", say::HOURS, say::HOURS_SUCH_AS))
                        (kit::lines(view, "job done", "told", say::TOLD, ""))
                    };
                    (kit::form(view, "job done", &say::is_done(at + 1), &fields, say::IT_IS_DONE))
                }
            }
        }
    }
}

fn proofs(view: &View<'_>, kept: &Job, family: Option<&Family>, title: &str) -> Markup {
    const VERB: &str = "prove";
    let wanting: Vec<_> = kept
        .plan
        .proofs
        .iter()
        .filter(|p| !kept.proofs.get(*p).is_some_and(|(passed, ..)| *passed))
        .collect();
    let ready = kept.operations.iter().all(|o| o.done.is_some());
    let known = |word: &str| family.and_then(|it| it.proof(word));
    html! {
        section class="ruled" id="proofs" {
            h2 { (say::PROOFS) }
            dl class="facts" { @for proof in &kept.plan.proofs {
                dt { (proof) }
                dd {
                    @match kept.proofs.get(proof) {
                        Some((passed, told, by, day)) => { @if *passed { (say::HELD) } @else { b class="need" { (say::DID_NOT_HOLD) } } ", " (say::seen(*day, kit::name(view.book, *by), told)) }
                        None => { (say::TO_BE_MADE) }
                    }
                    @for trial in kept.earlier.iter().filter(|t| t.proof == *proof) {
                        div class="quiet small" { (say::EARLIER_TRIAL) ": " @if trial.passed { (say::HELD) } @else { (say::DID_NOT_HOLD) } ", " (say::seen(trial.on, kit::name(view.book, trial.by), &trial.told)) }
                    }
                    @if let Some(it) = known(proof) { div class="quiet small" { (say::proof_is(&it.title, &it.how)) } }
                }
            } }
            @if ready && kept.closed.is_none() && !wanting.is_empty() {
                @let fields = html! {
                    (kit::hidden("job", title))
                    label for="prove-proof" { (say::PROOF) }
                    select id="prove-proof" name="proof" { @for proof in &wanting { option value=(proof) selected[view.draft.value(VERB, "proof") == proof.as_str()] { (say::choice(proof, known(proof).map(|it| it.title.as_str()))) } } }
                    fieldset {
                        legend { (say::IT) }
                        label class="choice" { input type="radio" name="choice" value="passed" required; span { (say::HELD) } }
                        label class="choice" { input type="radio" name="choice" value="failed"; span { (say::DID_NOT_HOLD) } }
                    }
                    (kit::lines(view, VERB, "told", say::SEEN, say::PROOF_TELLS))
                };
                (in_turn(view, VERB, next(kept) == Some(Next::Proofs), say::RECORD_PROOF, &kit::form(view, VERB, say::RECORD_PROOF, &fields, say::RECORD_IT)))
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
        section class="ruled" id="left" {
            h2 { (say::AS_LEFT) }
            @if !kept.left.is_empty() {
                div class="table" { table class="stack threes" {
                    thead { tr { th { (say::WHAT) } th { (say::PLACE) } th class="num" { (say::AS_FOUND) } th class="num" { (say::AS_LEFT) } } }
                    tbody { @for feature in family.measured() { @for (nth, place) in feature.positions.iter().filter(|place| here(&feature.name, place).is_some()).enumerate() {
                        @if let Some(reading) = here(&feature.name, place) { tr class=(if nth == 0 { "" } else { "same" }) {
                            td data-label=(say::WHAT) { b { (feature.title) } } td data-label=(say::PLACE) { (place) }
                            td class="num" data-label=(say::AS_FOUND) { (before(&feature.name, place).unwrap_or_else(|| say::NO_READING.into())) }
                            td class="num" data-label=(say::AS_LEFT) { (reading.reading.written()) }
                        } }
                    } } }
                } }
            }
            @if ready && kept.closed.is_none() {
                @let fields = html! {
                    (kit::hidden("job", title)) (kit::hidden("engine", her)) (kit::hidden("part", &part.name)) (kit::hidden("as_left", "yes"))
                    p class="quiet small" { (say::AS_WRITTEN) }
                    @for feature in family.measured() {
                        fieldset {
                            legend { (feature.title) " " span class="quiet" { (feature.how) } }
                            div class="grid2" { @for place in &feature.positions {
                                @let name = format!("at:{}@{place}", feature.name);
                                @let hint = before(&feature.name, place).map(|was| say::was(&was)).unwrap_or_default();
                                div { (kit::line(view, VERB, &name, place, &hint)) }
                            } }
                        }
                    }
                };
                p class="quiet small" { (words::pocket::AT_BENCH) ": " (words::pocket::AT_BENCH_WHY) }
                (bench::links(family, part, her, &bench::after_job(title)))
                (in_turn(view, VERB, next(kept) == Some(Next::Left), say::TAKE_LEFT, &kit::form(view, VERB, say::LEFT_READINGS, &fields, say::KEEP_THEM)))
            }
            @if !ready { p { (say::LEFT_LATER) } }
        }
    })
}

fn knock_ons(view: &View<'_>, kept: &Job, family: Option<&Family>, title: &str) -> Markup {
    const VERB: &str = "job knock-on";
    let wanting: Vec<_> = kept
        .plan
        .knock_ons
        .iter()
        .filter(|k| !kept.knock_ons.contains_key(*k))
        .collect();
    let known = |word: &str| {
        let it = family.and_then(|it| it.knock_on(word));
        it.map(|it| it.title.as_str())
    };
    html! {
        section class="ruled" id="knock-ons" {
            h2 { (say::KNOCK_ONS) }
            dl class="facts" { @for word in &kept.plan.knock_ons {
                dt { (word) }
                dd { @match kept.knock_ons.get(word) {
                    Some((seen, by, day)) => { (seen) " " span class="quiet small" { (say::by(*day, kit::name(view.book, *by))) } }
                    None => { (say::TO_BE_LOOKED_AT) }
                } @if let Some(it) = known(word) { div class="quiet small" { (it) } } }
            } }
            @if kept.closed.is_none() && !wanting.is_empty() {
                @let fields = html! {
                    (kit::hidden("job", title))
                    label for="knock-on-which" { (say::WHICH) }
                    select id="knock-on-which" name="knock_on" { @for word in &wanting { option value=(word) selected[view.draft.value(VERB, "knock_on") == word.as_str()] { (say::choice(word, known(word))) } } }
                    (kit::lines(view, VERB, "seen", say::FOUND_THERE, ""))
                };
                (in_turn(view, VERB, next(kept) == Some(Next::KnockOns), say::LOOKED_AT, &kit::form(view, VERB, say::LOOKED_AT, &fields, say::KEEP_IT)))
            }
        }
    }
}

fn signatures(view: &View<'_>, kept: &Job, title: &str, missing: &[String]) -> Markup {
    let may = view
        .book
        .persons
        .get(&view.reader.id)
        .map(|p| p.may(view.on))
        .unwrap_or_default();
    let signed = |capacity: Authority| kept.signatures.iter().find(|s| s.capacity == capacity);
    html! {
        section class="ruled" id="signatures" {
            h2 { (say::SIGNATURES) }
            dl class="facts" { @for capacity in Authority::ALL {
                dt { (capacity.signer()) }
                dd { @match signed(capacity) {
                    Some(s) => { (say::signed(kit::name(view.book, s.by), s.on)) @if let Some(stated) = &s.stated { " " span class="quiet small" { (stated) } } }
                    None => { (say::NOT_SIGNED) }
                } }
            } }
            @match &kept.closed {
                Some((day, by, verdict)) => p { (say::closed(*day, kit::name(view.book, *by), verdict)) },
                None => {
                    h3 { (say::BEFORE_CLOSING) }
                    @if missing.is_empty() { p { (say::NOTHING_MISSING) } }
                    ul { @for line in missing { li { (kit::sentence(line)) } } }
                    @if !may.is_empty() {
                        @let fields = html! {
                            (of(kept, title))
                            label for="sign-as" { (say::SIGN_AS) }
                            ul class="small" { @for capacity in &may { li { (shop::record::what_is_signed(view.book, kept, *capacity)) } } }
                            select id="sign-as" name="as" { @for capacity in &may { option value=(capacity.signer()) { (capacity.signer()) } } }
                        };
                        (in_turn(view, "sign", next(kept) == Some(Next::Sign), &say::sign_as(&view.reader.name), &kit::signed(view, "sign", &say::sign_as(&view.reader.name), &fields, say::SIGN)))
                    }
                    @if may.contains(&Authority::Approve) { (in_turn(view, "job close", missing.is_empty(), say::CLOSE_JOB, &kit::signed(view, "job close", say::CLOSE_JOB, &of(kept, title), say::CLOSE_IT))) }
                }
            }
        }
    }
}
