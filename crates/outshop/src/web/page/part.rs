//! A part's life on one page: where it is, what mates with it, its sizes and limits, every as found and as left, what
//! wear took, with which instruments, photographs, tooling, findings and jobs.

use maud::{Markup, html};
use measure::{Size, State, show};
use shop::book::{Family, Part, PartId, ReadingSet};
use shop::locomotive::{
    above_of, below, doubts, engine, family, governing, lead_of, mates, mirror, names, part, shape,
    worn,
};
use shop::route::{MetalLeft, Wear, metal_left};
use shop::verdict::judge_as_it_is;

use super::{Drawn, View, bench, forecast, kit, part_form, plan};
use crate::Failure;
use crate::verb::part::is_questioned;
use crate::web::{column, photo};
use crate::words::{self, instrument, part as say, tag, wear as wear_say};

pub fn draw(view: &View<'_>, number: &str, name: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let (part_id, part) = part(view.book, id, name)?;
    let family = family(view.book, &part.family)?;
    let sets = view.book.readings.newest_first(part_id).unwrap_or_default();
    let metal = metal_left(family, part, &sets);
    let typed = view.asked(wear_say::A_YEAR);
    let plans = shop::route::planned(family);
    let a_year = match typed.parse::<u32>() {
        Ok(days) if (1..=366).contains(&days) => Some(days),
        _ => None,
    };
    let told = shop::route::wear(view.book, view.rules, part_id, view.on, view.house, a_year)?;
    // Where nothing has a rate yet, why not is read after what was measured.
    let rated = told.forecasts.iter().any(wear_say::has_rate);
    let forecast_of = |left: &&MetalLeft| !told.forecasts.iter().any(|it| it.name == left.feature);
    let body = html! {
        h1 { (say::head(&part.name)) a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        p class="lead" { (family.title) }
        @if let Some(day) = &part.known.removed { p class="need" { (say::taken_off(day)) } }
        @if a_year.is_none() && !typed.is_empty() { (crate::web::trouble::said(&wear_say::not_days(typed))) }
        (forecast::lead(&told))
        div class="two" {
            div { @for rung in &plans { p { a href=(plan::path(&kept.number, &part.name, &rung.size)) { (words::plan::link(family.feature(&rung.size).map_or(rung.size.as_str(), |feature| &feature.title))) } } } (forecast::draw(view, part, &told, &metal)) @if rated { (forecast::grounds(view, &told)) } @for left in metal.iter().filter(forecast_of) { (column(view, left)) } (limits(view, family, part, &sets)?) }
            div { (place(view, part_id, part, &kept.number)) (facts(family, part)) }
        }
        (wear(view, family, part_id, &sets, &told))
        (bench::ways(family, part, &kept.number, ""))
        (readings(view, family, &sets))
        @if !rated { (forecast::grounds(view, &told)) }
        (instruments(view, &sets))
        (photo::of_part(view, part_id, &kept.number, &part.name))
        (tooling(view, part_id))
        (findings(view, part_id))
        (said(view, part))
        (part_form::record(view, family, part, &sets, &kept.number))
        (part_form::measure(view, family, part, &sets, &kept.number))
        (part_form::tell(view, family, part, &kept.number))
    };
    Ok(Drawn::new("/", say::title(&part.name, &kept.number), body))
}

/// Where it is in the tree, and what it touches.
fn place(view: &View<'_>, id: PartId, part: &Part, number: &str) -> Markup {
    let known = &part.known;
    let link =
        |other: &Part| html! { a href=(kit::part_path(number, &other.name)) { (other.name) } };
    let links = |parts: Vec<(PartId, &Part)>| {
        html! { @for (at, (_, other)) in parts.iter().enumerate() { @if at > 0 { ", " } (link(other)) } }
    };
    let above: Vec<_> = above_of(view.book, id)
        .skip(1)
        .filter_map(|id| Some((id, view.book.parts.get(&id)?)))
        .collect();
    let position = say::position(
        known.side.map(|side| side.word()),
        known.axle,
        known.at.as_deref(),
    );
    let (holds, mates) = (below(view.book, id), mates(view.book, id));
    let written: [(&str, Option<String>); 8] = [
        (
            say::REACH,
            (!known.reach.is_empty()).then(|| known.reach.join(", ")),
        ),
        (say::MATERIAL, known.material.clone()),
        (say::DRAWING, known.drawing.clone()),
        (
            say::ALSO,
            (!known.also.is_empty()).then(|| known.also.join(", ")),
        ),
        (say::FITTED, known.fitted.clone()),
        (say::REMOVED, known.removed.clone()),
        (say::DONOR, known.donor.clone()),
        (
            say::LEAD_TIME,
            lead_of(view.book, part).map(|lead| lead.from),
        ),
    ];
    html! {
        section class="ruled" {
            h2 { (say::WHERE_IT_IS) }
            dl class="facts" {
                dt { (say::POSITION) } dd { (position.as_deref().unwrap_or(say::NOT_KNOWN)) }
                @if !above.is_empty() { dt { (say::WITHIN) } dd { (links(above)) } }
                @if !holds.is_empty() { dt { (say::HOLDS) } dd { (links(holds)) } }
                dt { (say::MATES) } dd { @if mates.is_empty() { (say::NOT_KNOWN) } @else { (links(mates)) } }
                @if let Some((_, other)) = mirror(view.book, id) { dt { (say::MIRROR) } dd { (link(other)) } }
                @for (what, told) in written { @if let Some(told) = told { dt { (what) } dd { (told) } } }
            }
        }
    }
}

fn facts(family: &Family, part: &Part) -> Markup {
    html! {
        @if !family.facts.is_empty() {
            section class="ruled" {
                h2 { (say::FACTS) }
                dl class="facts" { @for fact in &family.facts { dt { (fact.name) } dd { (part.facts.get(&fact.name).map_or(say::NOT_KNOWN, String::as_str)) " " span class="quiet small" { (fact.title) } } } }
            }
        }
    }
}

/// What it is now against each limit, the law's and ours; and what it was built to.
fn limits(
    view: &View<'_>,
    family: &Family,
    part: &Part,
    sets: &[&ReadingSet],
) -> Result<Markup, Failure> {
    let judged = judge_as_it_is(view.book, view.rules, part, sets, (view.on, view.house))?;
    let sizes = |name: &str| {
        let told = part.features.get(name)?;
        say::sizes(told)
    };
    Ok(html! {
        section class="ruled" {
            h2 { (say::SIZES_AND_LIMITS) }
            @if judged.lines.is_empty() { p { (say::NO_LIMIT) } }
            @else {
                div class="table" { table class="stack" {
                    thead { tr { th { (say::WHAT) } th { (say::NEWEST) } th { (say::LIMIT) } th { (say::HOW_IT_STANDS) } } }
                    tbody { @for line in &judged.lines { tr {
                        td data-label=(say::WHAT) { (words::sentence(&line.what)) }
                        td data-label=(say::NEWEST) { span class="fig" { (if line.found.is_empty() { say::NOT_READ } else { line.found.as_str() }) } }
                        td data-label=(say::LIMIT) {
                            (if line.law { say::RULE_LIMIT } else { say::SHOP_LIMIT }) " " span class="fig" { (line.limit) }
                            @if let Some(ruling) = &line.ruling { " " a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } }
                        }
                        td data-label=(say::HOW_IT_STANDS) { (kit::verdict(&line.verdict)) }
                    } } }
                } }
                p class="quiet small" { (say::OF_THE_NEWEST) }
            }
            @let told: Vec<_> = family.measured().filter_map(|f| Some((f, sizes(&f.name)?))).collect();
            @if !told.is_empty() {
                dl class="facts" { @for (feature, sizes) in &told { dt { (feature.title) } dd class="fig" { (sizes) } } }
            }
        }
    })
}

/// What went between each as left and the as found after it, with the other side beside it.
fn wear(view: &View<'_>, family: &Family, id: PartId, sets: &[&ReadingSet], told: &Wear) -> Markup {
    let other = mirror(view.book, id);
    let others = other
        .as_ref()
        .and_then(|(id, _)| view.book.readings.newest_first(*id))
        .unwrap_or_default();
    let shown = |size: Size| show::size(size, view.house);
    let rows: Vec<_> = family
        .measured()
        .filter(|feature| !told.forecasts.iter().any(|it| it.name == feature.name))
        .flat_map(|feature| {
            worn(feature, sets)
                .into_iter()
                .map(move |worn| (feature, worn))
        })
        .collect();
    let beside: Vec<_> = family
        .measured()
        .filter_map(|feature| {
            let newest = |sets: &[&ReadingSet]| {
                sets.iter()
                    .find_map(|set| Some((set.on, set.state, governing(feature, set)?)))
            };
            Some((feature, newest(sets), newest(&others)?))
        })
        .collect();
    html! {
        @if !rows.is_empty() {
            section class="ruled" {
                h2 { (say::WHAT_WEAR_TOOK) }
                div class="table" { table class="stack" {
                    thead { tr { th { (say::WHAT) } th { (words::state(State::AsLeft)) } th { (words::state(State::AsFound)) } th class="num" { (say::WENT) } } }
                    tbody { @for (feature, worn) in &rows { tr {
                        td data-label=(say::WHAT) { (words::sentence(&feature.title)) }
                        td data-label=(words::state(State::AsLeft)) { span class="fig" { (shown(worn.left.1)) } " " span class="quiet small" { (words::day(worn.left.0)) } }
                        td data-label=(words::state(State::AsFound)) { span class="fig" { (shown(worn.found.1)) } " " span class="quiet small" { (words::day(worn.found.0)) } }
                        td class="num" data-label=(say::WENT) { (shown(worn.went)) }
                    } } }
                } }
            }
        }
        @if let (Some((_, part)), false) = (&other, beside.is_empty()) {
            section class="ruled" {
                h2 { (say::beside(&part.name)) }
                dl class="facts" { @for (feature, here, there) in &beside {
                    dt { (feature.title) }
                    dd {
                        @match here {
                            Some((on, state, size)) => { (say::HERE) " " span class="fig" { (shown(*size)) } " " span class="quiet small" { (say::set(*on, *state)) } },
                            None => { (say::HERE) " " (say::NOT_READ) },
                        }
                        "; " (say::THERE) " " span class="fig" { (shown(there.2)) } " " span class="quiet small" { (say::set(there.0, there.1)) }
                    }
                } }
            }
        }
    }
}

/// The registered instruments that its readings name.
fn instruments(view: &View<'_>, sets: &[&ReadingSet]) -> Markup {
    let mut used: Vec<_> = view
        .book
        .instruments
        .values()
        .filter(|kept| {
            let mut all = sets.iter().flat_map(|set| &set.readings);
            all.any(|read| names(read, kept))
        })
        .collect();
    used.sort_by_key(|kept| (kept.number.len(), kept.number.clone()));
    html! {
        @if !used.is_empty() {
            section class="ruled" {
                h2 { (say::INSTRUMENTS) }
                ul class="plain" { @for kept in used { li {
                    a href=(format!("/instrument/{}", kit::encode(&kept.number))) { b { (kept.number) } } " " (instrument::line(kept))
                } } }
            }
        }
    }
}

/// Who said what of it after it was added.
fn said(view: &View<'_>, part: &Part) -> Markup {
    html! {
        @if !part.said.is_empty() {
            section class="ruled" {
                h2 { (say::WHO_SAID_SO) }
                ul class="plain" { @for said in part.said.iter().rev() { li {
                    (say::said(said.on, &said.of, kit::name(view.book, said.by), said.document.as_deref(), said.entry))
                } } }
            }
        }
    }
}

/// The metal column, with what it says in words.
fn column(view: &View<'_>, left: &MetalLeft) -> Markup {
    let shown = |size: Size| show::size(size, view.house);
    html! {
        section class="ruled" {
            h2 { (say::metal_left(&shown(left.left), left.re_cuts)) }
            p { (say::was(&left.title, &shown(left.now), left.state, left.on)) }
            (column::draw(left, view.house))
        }
    }
}

fn readings(view: &View<'_>, family: &Family, sets: &[&ReadingSet]) -> Markup {
    let in_doubt = |set: &ReadingSet, read: &shop::book::FeatureReading| {
        view.book
            .instruments
            .values()
            .any(|kept| names(read, kept) && doubts(kept).iter().any(|doubt| doubt.covers(set.on)))
    };
    html! {
        section class="ruled" {
            h2 { (say::FOUND_AND_LEFT) }
            @if sets.is_empty() { p { (say::NEVER_MEASURED) } }
            @for set in sets {
                h3 id=(format!("entry-{}", set.entry)) { (say::set(set.on, set.state)) " " span class="quiet small" { (say::by(kit::name(view.book, set.by), set.entry)) } }
                dl class="facts" { @for feature in family.measured() {
                    @let of_it: Vec<_> = set.readings.iter().filter(|r| r.feature == feature.name).collect();
                    @if !of_it.is_empty() {
                        dt { (feature.title) }
                        dd {
                            @for (at, r) in of_it.iter().enumerate() {
                                @if at > 0 { ", " } span class="quiet" { (r.reading.position) } " " span class="fig" { (r.reading.written()) }
                                @if is_questioned(set, r) { " " b class="need" { (instrument::QUESTIONED) } }
                                @if in_doubt(set, r) { " " b class="need" { (instrument::IN_DOUBT) } }
                            }
                            @if let Some(shape) = shape(feature, set) { " " span class="quiet small" { (say::shape(&shape, view.house)) } }
                            @let with = say::with(&of_it);
                            @if !with.is_empty() { " " span class="quiet small" { (with) } }
                        }
                    }
                } }
                @for line in say::taken(set) { p class="quiet small" { (words::sentence(&line)) } }
            }
        }
    }
}

fn tooling(view: &View<'_>, id: PartId) -> Markup {
    let mut tools: Vec<_> = view
        .book
        .tooling
        .values()
        .filter(|t| t.out.is_none() && t.serves().any(|part| part == id))
        .collect();
    tools.sort_by_key(|t| t.number);
    html! {
        section class="ruled" {
            h2 { (say::TOOLING) }
            @if tools.is_empty() { p { (say::NO_TOOLING) } }
            ul class="plain" { @for tool in &tools { @let number = tag::tool(tool.number); li { a href=(format!("/tooling/{number}")) { b { (number) } } " " (say::tool(&tool.what, &tool.shelf)) } } }
        }
    }
}

fn findings(view: &View<'_>, id: PartId) -> Markup {
    let mut found: Vec<_> = view
        .book
        .findings
        .values()
        .filter(|f| f.part == id)
        .collect();
    found.sort_by_key(|f| std::cmp::Reverse(f.number));
    html! {
        @if !found.is_empty() {
            section class="ruled" {
                h2 { (say::FINDINGS) }
                ul class="plain" { @for f in &found { li { a href=(format!("/finding/{}", tag::finding(f.number))) { (tag::finding(f.number)) } " " (say::found(f.found_on, &f.told)) @if let Some(job) = f.job.and_then(|id| view.book.jobs.get(&id)) { " " a href=(format!("/job/{}", tag::job(job.number))) { (tag::job(job.number)) } " " (job.plan.title) } } } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::ffi::OsString;
    use std::path::PathBuf;

    use crate::web::form::Draft;
    use crate::web::{Desk, page};
    use crate::{Clock, Context, Globals, Ids, parse};

    /// A book of engines, each with so many parts measured so many times; taken away at the end.
    struct Grown(PathBuf);

    impl Grown {
        fn of(engines: u32, parts: u32, sets: u32) -> Grown {
            let name = format!("outshop-grown-{engines}-{}", std::process::id());
            let folder = std::env::temp_dir().join(name);
            std::fs::create_dir_all(&folder).unwrap();
            let grown = Grown(folder);
            let globals = Globals {
                book: Some(grown.book()),
                by: Some("Ada Quill".into()),
                ..Globals::default()
            };
            let ids = Ids::Seeded(format!("grown {engines}"), 0);
            let mut context = Context::stated(globals.clone(), grown.clock(), ids);
            let mut says = |words: &[&str]| {
                let all = ["outshop"].iter().chain(words).map(OsString::from);
                let (_, request) = parse(all).unwrap();
                context.speak(globals.clone());
                let answer = request.run(&mut context);
                answer.unwrap_or_else(|why| panic!("{words:?}: {why}"));
            };
            says(&[
                "new",
                "--shop",
                "Trial",
                "--zone",
                "America/Denver",
                "--officer",
                "Ada Quill",
            ]);
            for engine in 0..engines {
                let number = (14 + engine).to_string();
                says(&[
                    "locomotive",
                    "add",
                    &number,
                    "--wheels",
                    "2-8-0",
                    "--gauge",
                    "56 1/2 in",
                    "--rules",
                    "us-steam",
                ]);
                for part in 0..parts {
                    let name = format!("bushing {part}");
                    says(&[
                        "part",
                        "add",
                        &number,
                        &name,
                        "--family",
                        "rod-bushing",
                        "--fact",
                        "pin=main-rod",
                    ]);
                    for set in 0..sets {
                        let bore = format!("bore@middle=5.{}in", 500 + set);
                        let pin = format!("pin@middle=5.{}in", 490 - set);
                        says(&["reading", "take", &number, &name, &bore, &pin]);
                    }
                }
            }
            grown
        }

        fn book(&self) -> PathBuf {
            self.0.join("shop.book")
        }

        fn clock(&self) -> Clock {
            Clock::Stated("2026-05-03T09:00".parse().unwrap())
        }

        /// Statements asked for the page of the last part, who reads it included.
        fn asked(&self, path: &str) -> u64 {
            let desk = Desk::of(self.book(), Some(self.clock()), false);
            let book = desk.context(None).book_of_shop().unwrap();
            let id = *book.persons.keys().next().unwrap();
            let session = desk.begin(id, "Ada Quill", None).unwrap();
            let mut headers = axum::http::HeaderMap::new();
            for (_, cookie) in session.0 {
                if cookie.to_str().unwrap().starts_with("outshop_desk") {
                    headers.insert(axum::http::header::COOKIE, cookie);
                }
            }
            let (asked, status) = store::counted(|| {
                let reader = desk.reader(&headers).unwrap().unwrap();
                page::draw(&desk, &reader, path, "", &Draft::default()).status()
            });
            assert_eq!(status, 200);
            asked
        }
    }

    impl Drop for Grown {
        fn drop(&mut self) {
            let _ = std::fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn a_parts_page_asks_as_much_of_a_large_book_as_of_a_small_one() {
        let path = "/engine/14/part/bushing%200";
        let small = Grown::of(1, 1, 1).asked(path);
        let large = Grown::of(3, 8, 6).asked(path);
        assert_eq!(small, large);
        assert!(small > 4, "nothing was counted: {small}");
        assert!(small <= 25, "{small} statements");
    }
}
