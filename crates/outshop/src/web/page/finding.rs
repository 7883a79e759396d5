//! A finding, told downwards to its close: found, measured, verdict, routes, decision, job, left.

use maud::{Markup, html};
use shop::book::{Family, Feature, FeatureReading, Finding, FindingState, Occasion};
use shop::clock::{may_start, runs_out};
use shop::finding::unlifted;
use shop::locomotive::{family, finding};
use shop::record::as_left;
use shop::route::{Choice, Feasible, Offer, metal_left, routes};
use shop::verdict::{Judgement, Verdict};

use super::{Drawn, View, bench, drawn, kit, moves, sheet};
use crate::Failure;
use crate::web::photo;
use crate::words::{self, day as on_day, finding as say, tag};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = finding(view.book, number)?;
    let choice = routes(view.book, view.rules, kept, kept.found_on, view.house)?;
    let part = view
        .book
        .parts
        .get(&kept.part)
        .map_or("?", |p| p.name.as_str());
    let her = kit::number(view.book, kept.locomotive);
    let title = tag::finding(kept.number);
    let carried = kept.state == FindingState::Carried;
    let again = kept
        .decision
        .as_ref()
        .and_then(|it| it.recheck)
        .filter(|_| carried);
    let body = html! {
        h1 { (say::head(&title, her, part)) }
        p class="lead" { (say::state(kept.state)) " " @if let Some(day) = again { span class=(if day < view.on { "need" } else { "" }) { (say::recheck(day)) } " " } a href=(kit::part_path(her, part)) { (say::PARTS_LIFE) } }
        section class="ruled" {
            h2 { (say::FOUND) }
            p { (words::day(kept.found_on)) " " (occasion(view, kept)) (say::by(kit::name(view.book, kept.found_by))) }
            p class="told" { (kept.told) }
        }
        (notice(view, kept, &title))
        (measured(view, kept))
        (at_bench(view, kept))
        (verdict(&choice.judgement))
        (kit::held(view, choice.judgement.lines.iter().filter_map(|line| line.ruling.as_ref())))
        (drawn::of_sheets(view, part, &choice.sheets, kept.decision.as_ref().map(|d| d.sheets.as_slice())))
        (clocks(view, kept)?)
        @if carried { (decided(view, kept, &choice)) }
        (super::apart::beside(view, kept))
        (weighed(view, kept, &choice))
        @if !carried { (decided(view, kept, &choice)) }
        (job(view, kept)?)
        (super::letter::about_it(view, |it| it.logged.finding == Some(id)))
        (photo::of_finding(view, id, &title))
    };
    Ok(Drawn::new("/work", title, body))
}

fn occasion(view: &View<'_>, kept: &Finding) -> Markup {
    match &kept.occasion {
        Occasion::Inspection { inspection } => match view.book.inspections.get(inspection) {
            Some(i) => {
                let tag = tag::inspection(i.number);
                html! { (say::occasion::at(&i.kind)) " " a href=(format!("/inspection/{tag}")) { (tag) } }
            }
            None => html! { (say::occasion::INSPECTION) },
        },
        Occasion::WriteUp => html! { (say::occasion::WRITE_UP) },
        Occasion::RoadFailure => html! { (say::occasion::ROAD_FAILURE) },
        Occasion::SpecialNotice => html! { (say::occasion::NOTICE) },
        Occasion::PlannedWork => html! { (say::occasion::PLANNED) },
    }
}

/// Who gave a special notice, and who lifted it.
fn notice(view: &View<'_>, kept: &Finding, title: &str) -> Markup {
    const VERB: &str = "finding lift";
    let fields = html! {
        (kit::hidden("finding", title))
        p class="quiet small" { (on_day::LIFT_MEANS) }
        (kit::line(view, VERB, "name", on_day::LIFT_NAME, ""))
        (kit::line(view, VERB, "office", on_day::LIFT_OFFICE, ""))
        (kit::day(view, VERB, "day", on_day::LIFT_DAY))
        (kit::line(view, VERB, "document", on_day::LIFT_PAPER, ""))
    };
    html! {
        @if kept.occasion == Occasion::SpecialNotice {
            section class="ruled" {
                h2 { (on_day::NOTICE) }
                @if let Some(it) = &kept.notice { p { (on_day::given(&it.name, &it.office, &it.document)) } }
                @if let Some(it) = &kept.lifted { p { (on_day::lifted(&it.name, &it.office, it.day, &it.document)) } }
                @else {
                    @if let Some(why) = unlifted(kept, view.on) { p class="need" { (kit::sentence(&why)) } }
                    (kit::form(view, VERB, on_day::LIFT, &fields, on_day::LIFT_IT))
                }
            }
        }
    }
}

fn measured(view: &View<'_>, kept: &Finding) -> Markup {
    let read = view
        .book
        .parts
        .get(&kept.part)
        .and_then(|p| family(view.book, &p.family).ok());
    let sets = view
        .book
        .readings
        .newest_first(kept.part)
        .unwrap_or_default();
    let id = finding(view.book, &tag::finding(kept.number))
        .ok()
        .map(|(id, _)| id);
    let later = sets
        .iter()
        .rev()
        .filter(|set| set.finding.is_some() && set.finding == id && set.entry != kept.entry);
    html! {
        section class="ruled" {
            h2 { (say::MEASURED) }
            @if kept.readings.is_empty() { p { (say::NOT_MEASURED) } }
            @for set in later { p class="quiet small" { (say::read_later(set.on, kit::name(view.book, set.by))) } }
            @if let Some(family) = read {
                @if !kept.readings.is_empty() {
                    div class="table" { table class="stack" {
                        thead { tr { th { (say::WHAT) } th { (say::PLACE_BY_PLACE) } th { (say::BY) } } }
                        tbody { @for feature in family.measured() {
                            @let of_it: Vec<_> = kept.readings.iter().filter(|r| r.feature == feature.name).collect();
                            @if !of_it.is_empty() { tr {
                                td data-label=(say::WHAT) { b { (feature.title) } }
                                td data-label=(say::READ) { @for (at, r) in of_it.iter().enumerate() { @if at > 0 { ", " } span class="quiet" { (r.reading.position) } " " span class="fig" { (r.reading.written()) } } }
                                td data-label=(say::BY) { (instruments(&of_it).join(", ")) }
                            } }
                        } }
                    } }
                }
            }
        }
    }
}

/// With what readings were taken, each instrument once; that it was not written is said too.
fn instruments<'r>(readings: &[&'r FeatureReading]) -> Vec<&'r str> {
    let mut all = Vec::new();
    for read in readings {
        let with = read.reading.instrument.as_deref();
        let with = with.unwrap_or(words::NOT_WRITTEN);
        if !all.contains(&with) {
            all.push(with);
        }
    }
    all
}

/// The way to the bench, while readings of the part are still asked for.
fn at_bench(view: &View<'_>, kept: &Finding) -> Markup {
    let part = view
        .book
        .parts
        .get(&kept.part)
        .filter(|_| kept.state != FindingState::Closed);
    let read = part.and_then(|part| Some((part, family(view.book, &part.family).ok()?)));
    // Once it is decided on, what it was found at stands: the job's own readings are taken there.
    let asks = matches!(kept.state, FindingState::Open | FindingState::Carried);
    let title = tag::finding(kept.number);
    let her = kit::number(view.book, kept.locomotive);
    html! {
        @if let (Some((part, family)), true) = (read, asks) {
            (bench::ways(family, part, her, &bench::for_finding(&title)))
            (measure(view, kept, family, &part.name, &title))
        }
    }
}

/// The form for what a finding did not read; once it is carried, for all that is looked at again.
fn measure(view: &View<'_>, kept: &Finding, family: &Family, part: &str, title: &str) -> Markup {
    const VERB: &str = "reading take";
    let carried = kept.state == FindingState::Carried;
    let unread = |feature: &&Feature| {
        let has = |place: &&String| {
            let mut read = kept.readings.iter();
            read.any(|r| r.feature == feature.name && r.reading.position == **place)
        };
        let all = feature.positions.iter();
        all.filter(|place| carried || !has(place))
            .cloned()
            .collect::<Vec<_>>()
    };
    let asked: Vec<_> = family
        .features
        .iter()
        .map(|feature| (feature, unread(&feature)))
        .filter(|(_, places)| !places.is_empty())
        .collect();
    let fields = html! {
        (kit::hidden("engine", kit::number(view.book, kept.locomotive))) (kit::hidden("part", part)) (kit::hidden("finding", title))
        p class="quiet small" { (words::job::AS_WRITTEN) }
        @for (feature, places) in &asked { fieldset {
            legend { (feature.title) " " span class="quiet" { (feature.how) } }
            (super::part_form::shown_unit(view, feature))
            div class="grid2" { @for place in places { div { (kit::line(view, VERB, &format!("at:{}@{place}", feature.name), place, "")) } } }
        } }
        (kit::line(view, VERB, "insist", words::part::INSIST, words::part::INSIST_TELLS))
    };
    let head = if carried {
        say::LOOK_AGAIN
    } else {
        say::MEASURE
    };
    html! {
        @if !asked.is_empty() { details open[view.draft.is_of(VERB)] { summary { (head) } (kit::form(view, VERB, head, &fields, words::job::KEEP_THEM)) } }
    }
}

/// The verdict with each limit behind it.
pub fn verdict(judgement: &Judgement) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::VERDICT) ": " (kit::verdict(&judgement.verdict)) }
            p { @if let Verdict::CannotTell(needs) = &judgement.verdict { (kit::worded(&say::needs(needs))) " " } (say::COMPUTED) }
            div class="table" { table class="stack" {
                thead { tr { th { (say::WHAT) } th { (say::FOUND) } th { (say::LIMIT) } th { (say::VERDICT) } th { (say::STANDS_IN) } } }
                tbody { @for line in &judgement.lines { tr {
                    td data-label=(say::WHAT) { b { (line.what) } }
                    td data-label=(say::FOUND) { (line.found) }
                    td data-label=(say::LIMIT) { (line.limit) }
                    td data-label=(say::VERDICT) { (kit::verdict(&line.verdict)) }
                    td data-label=(say::STANDS_IN) { @match &line.ruling {
                        Some(ruling) => { a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } " " span class="quiet small" { (ruling.mark) } }
                        None => { span class="quiet small" { (if line.law { say::RULE_NOT_KNOWN } else { say::OUR_OWN }) } }
                    } }
                } } }
            } }
        }
    }
}

/// The clocks of its own that it starts, and the form that starts one nobody can see from what it shows.
fn clocks(view: &View<'_>, kept: &Finding) -> Result<Markup, Failure> {
    const VERB: &str = "finding opens";
    if kept.state == FindingState::Closed {
        return Ok(html! {});
    }
    let run = runs_out(view.book, view.rules, kept)?;
    let may = may_start(view.book, view.rules, kept)?;
    Ok(html! {
        @if !run.is_empty() || !may.is_empty() {
            section class="ruled" {
                h2 { (say::CLOCKS) }
                ul class="plain" { @for (ruling, last) in &run { li {
                    (ruling.title) ": " b class=(if *last < view.on { "need" } else { "" }) { (say::last_day(*last)) } " "
                    a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } " " span class="quiet small" { (ruling.mark) }
                } } }
                @for ruling in &may {
                    @let fields = html! {
                        (kit::hidden("finding", &tag::finding(kept.number)))
                        (kit::hidden("rule", &ruling.rule))
                        p { (ruling.reading) " " a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } }
                    };
                    details open[view.draft.value(VERB, "rule") == ruling.rule] { summary { (say::starts(&ruling.title)) } (kit::form(view, VERB, &ruling.title, &fields, say::START_IT)) }
                }
            }
        }
    })
}

fn weighed(view: &View<'_>, kept: &Finding, choice: &Choice) -> Markup {
    let part = view.book.parts.get(&kept.part);
    let family = part.map_or("", |part| part.family.as_str());
    let rows = html! {
        @for offer in &choice.offers { (one(offer, &choice.sheets, family, kit::number(view.book, kept.locomotive))) }
        @if !choice.sheets.is_empty() {
            p class="small" { (say::STAND_ON) " " @for (at, sheet) in choice.sheets.iter().enumerate() { @if at > 0 { ", " } a href=(sheet::path_by_law(sheet, kit::number(view.book, kept.locomotive))) { (sheet.card.id) } } "." }
        }
    };
    html! {
        @if matches!(kept.state, FindingState::Open | FindingState::Carried) {
            section class="ruled" {
                h2 { (say::ROUTES) }
                (rows)
                (decide(view, kept, choice))
            }
        } @else {
            details {
                summary { (say::WEIGHED) " " span class="quiet" { @for (at, o) in choice.offers.iter().enumerate() { @if at > 0 { "; " } (o.route.word) } } }
                (rows)
            }
        }
    }
}

/// A tool a way needs: which of the register, on which shelf, or that it must be made.
fn tool_line(tool: &shop::route::Tool) -> Markup {
    html! { div {
        (words::sentence(&tool.need)) ": "
        @if !tool.is_kept() { span class="need" { (say::TO_BE_MADE) } }
        @for (at, kept) in tool.kept.iter().enumerate() {
            @if at > 0 || !tool.is_kept() { "; " }
            @if !kept.serves { (say::FITS) " " }
            @let number = tag::tool(kept.number);
            a href=(format!("/tooling/{number}")) { (number) } " " (kept.what) ", " (kept.shelf)
        }
    } }
}

fn one(offer: &Offer, sheets: &[physics::Sheet], family: &str, number: &str) -> Markup {
    let [low, likely, high] = offer.hours;
    html! {
        h3 { (offer.route.title) " " (kit::feasible(&offer.feasible)) }
        dl class="facts" {
            @match &offer.feasible {
                Feasible::Yes => {}
                Feasible::No(why) => { dt { (say::WHY_NOT) } dd { (why) } }
                Feasible::CannotTell(needs) => { dt { (say::NEEDS) } dd { (kit::worded(&needs.join("; "))) } }
            }
            @if !offer.route.carries { dt { (say::HOURS) } dd { (say::hours(&low.to_string(), &likely.to_string(), &high.to_string())) " " span class="quiet small" { (say::hours_of(offer.hours_of)) } } }
            @if let Some(metal) = &offer.metal { dt { (say::METAL) } dd { (metal) } }
            dt { (say::BUYS) } dd { (offer.route.buys) }
            @if let Some(moved) = moves::of_choice(family, &offer.route.word) { dt { (words::moves::MOVES) } dd { (moved) } }
            @if let Some(skill) = &offer.route.skill { dt { (say::SKILL) } dd { (skill) } }
            @if !offer.sheets.is_empty() { dt { (say::SHEETS) } dd { @for (at, id) in offer.sheets.iter().enumerate() { @if at > 0 { ", " } a href=(sheet::of_engine(id, number)) { (id) } } } }
            @if !offer.tools.is_empty() { dt { (say::TOOLS) } dd { @for tool in &offer.tools { (tool_line(tool)) } @if offer.tools.iter().any(|tool| !tool.is_kept()) && !sheets.is_empty() { div class="small" { (say::DRAW_FROM) " " @for (at, sheet) in sheets.iter().enumerate() { @if at > 0 { ", " } a href=(sheet::path_by_law(sheet, number)) { (sheet.card.id) } } } } } }
            @if !offer.moves.is_empty() { dt { (say::MOVES) } dd { (offer.moves.join("; ")) } }
            @if !offer.route.operations.is_empty() { dt { (say::STEPS) } dd { @for step in &offer.route.operations { div { (step.what) @if let Some(hold) = &step.hold { " " span class="quiet" { (say::hold(&hold.look, hold.by.signer())) } } } } } }
            @if !offer.route.stop_points.is_empty() { dt { (say::STOPS) } dd { @for line in &offer.route.stop_points { div { (words::sentence(line)) } } } }
            @if !offer.unknown.is_empty() { dt { (say::NOT_KNOWN) } dd { (kit::worded(&offer.unknown.join("; "))) } }
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
        (kit::hidden("finding", &tag::finding(kept.number)))
        (kit::hidden("seen_entry", &kept.last.to_string()))
        fieldset {
            legend { (say::ROUTE) }
            @for offer in &open {
                label class="choice" {
                    input type="radio" name="route" value=(offer.route.word) required checked[view.draft.value(VERB, "route") == offer.route.word];
                    span { (offer.route.title) }
                }
            }
        }
        (kit::lines(view, VERB, "because", say::WHY, ""))
        @if carries { (kit::day(view, VERB, "recheck", say::RECHECK)) }
    };
    html! {
        @if open.is_empty() { p { (say::NO_ROUTE) } }
        @else { (kit::signed(view, VERB, if kept.decision.is_some() { say::DECIDE_AGAIN } else { say::DECIDE }, &fields, say::SIGN)) }
    }
}

fn decided(view: &View<'_>, kept: &Finding, _choice: &Choice) -> Markup {
    let Some(decision) = &kept.decision else {
        return html! {};
    };
    html! {
        section class="ruled" {
            h2 { (say::decided(&decision.route)) }
            p { (say::decision(decision.on, kit::name(view.book, decision.by), &decision.verdict)) }
            p class="told" { (decision.because) }
            @if let Some(day) = decision.recheck { p { (say::recheck(day)) } }
            @if kept.carried.len() > 1 { details { summary { (words::apart::each(kept.carried.len())) }
                ul class="plain small" { @for it in &kept.carried { li { (words::day(it.on)) ", " (kit::name(view.book, it.by)) ": " (it.because) } } }
            } }
            @for sheet in &decision.sheets {
                details { summary { (say::printed(&sheet.sheet)) } pre class="steps" { (sheet.text) } }
            }
        }
    }
}

fn job(view: &View<'_>, kept: &Finding) -> Result<Markup, Failure> {
    let Some(job) = kept.job.and_then(|id| view.book.jobs.get(&id)) else {
        if kept.state == FindingState::Decided {
            let fields = html! {
                (kit::hidden("finding", &tag::finding(kept.number)))
                (kit::hidden("then", "job"))
                (kit::day(view, "job make", "promised", say::PROMISED))
            };
            return Ok(
                html! { section class="ruled" { h2 { (say::JOB) } (kit::form(view, "job make", say::MAKE_JOB, &fields, say::MAKE_JOB)) } },
            );
        }
        return Ok(html! {});
    };
    let done = job.operations.iter().filter(|o| o.done.is_some()).count();
    let tag = tag::job(job.number);
    let metal = view.book.parts.get(&kept.part).and_then(|part| {
        let family = family(view.book, &part.family).ok()?;
        let sets = view.book.readings.newest_first(kept.part)?;
        metal_left(family, part, &sets).into_iter().next()
    });
    let left = if job.left.is_empty() {
        None
    } else {
        Some(as_left(view.book, view.rules, job, view.on, view.house)?)
    };
    Ok(html! {
        section class="ruled" {
            h2 { (say::JOB) " " a href=(format!("/job/{tag}")) { (tag) } }
            p { (say::job(&job.plan.title, done, job.operations.len())) }
            @if let Some((day, by, verdict)) = &job.closed { p { (say::job_closed(*day, kit::name(view.book, *by), verdict)) } }
        }
        @if let Some(left) = left {
            section class="ruled" {
                h2 { (say::LEFT) " " (kit::verdict(&left.verdict)) }
                @if let Some(metal) = metal {
                    p { b class="fig" { (measure::show::size(metal.left, view.house)) } (say::metal_left(metal.re_cuts)) }
                }
            }
        }
    })
}
