//! The bench: every place of one feature entered one after the other, with a phone in one hand.
//!
//! Without scripts it is a form like any other, all places on one page. With them it is a keypad, and what is written
//! waits on the device until the book has answered (`crates/outshop/assets/bench.js`).

use jiff::civil::DateTime;
use maud::{Markup, html};
use measure::House;
use shop::book::{Authority, Book, Family, Feature, FeatureKind, FindingState, Part, ReadingSet};
use shop::locomotive::{engine, engines, family, finding, last_check, part};

use super::part_form::last_left;
use super::{Drawn, View, bench_survey, kit};
use crate::Failure;
use crate::web::{form, spot};
use crate::words::{self, part as on_part, pocket as say, tag};

const VERB: &str = "reading take";

/// The path of the page of one feature.
pub fn path(number: &str, part: &str, feature: &str) -> String {
    format!(
        "/bench/{}/{}/{feature}",
        kit::encode(number),
        kit::encode(part)
    )
}

/// Links to the pages of all features of a part; `more` stands after each path.
pub fn links(family: &Family, part: &Part, number: &str, more: &str) -> Markup {
    html! {
        @if !family.features.is_empty() {
            div class="places" { @for feature in family.measured() {
                a href=(format!("{}{more}", path(number, &part.name, &feature.name))) { (words::sentence(&feature.title)) }
            } }
        }
    }
}

/// The same under a heading, on a page that is not the bench's.
pub fn ways(family: &Family, part: &Part, number: &str, more: &str) -> Markup {
    html! {
        @if !family.features.is_empty() {
            section class="ruled" { h2 { (say::AT_BENCH) } p class="quiet small" { (say::AT_BENCH_WHY) } (links(family, part, number, more)) }
        }
    }
}

/// A part that open work asks to be measured.
struct AskedFor<'b> {
    tag: String,
    /// The path of the work's own page.
    to: String,
    part: &'b Part,
    /// The engine's number.
    number: &'b str,
    /// What stands after the path of a feature: a job's readings are its as-left ones.
    more: String,
}

/// What open work asks to be measured, by its tag: findings nobody has decided on, and jobs.
fn asked_for(book: &Book) -> Vec<AskedFor<'_>> {
    let found = book.findings.values();
    let found = found.filter(|found| found.state == FindingState::Open);
    let found = found.filter_map(|found| {
        let tag = tag::finding(found.number);
        Some(AskedFor {
            to: format!("/finding/{tag}"),
            part: book.parts.get(&found.part)?,
            number: kit::number(book, found.locomotive),
            more: for_finding(&tag),
            tag,
        })
    });
    let jobs = book.jobs.values().filter(|job| job.closed.is_none());
    let jobs = jobs.filter_map(|job| {
        let tag = tag::job(job.number);
        let found = book.findings.get(&job.plan.finding)?;
        Some(AskedFor {
            to: format!("/job/{tag}"),
            part: book.parts.get(&found.part)?,
            number: kit::number(book, job.locomotive),
            more: after_job(&tag),
            tag,
        })
    });
    let mut all: Vec<_> = found.chain(jobs).collect();
    all.sort_by(|a, b| a.tag.cmp(&b.tag));
    all
}

/// What stands after the path of a feature where the readings are those a job left.
pub fn after_job(tag: &str) -> String {
    format!("?job={tag}&left=yes")
}

/// The same where a finding asks for the readings.
pub fn for_finding(tag: &str) -> String {
    format!("?finding={tag}&left=no")
}

/// What there is to measure: what open work asks for, and the parts of one engine.
pub fn list(view: &View<'_>) -> Drawn {
    let wanted = view.asked("engine");
    let all = engines(view.book);
    let asked = asked_for(view.book);
    let her = all.iter().find(|(_, kept)| kept.number == wanted);
    let mut parts: Vec<&Part> = her.map_or(Vec::new(), |(id, _)| {
        view.book
            .parts
            .values()
            .filter(|part| part.locomotive == *id && part.known.removed.is_none())
            .collect()
    });
    parts.sort_by(|a, b| a.name.cmp(&b.name));
    let of = |part: &Part, number: &str, more: &str| {
        let known = family(view.book, &part.family);
        html! { @if let Ok(known) = known { (links(known, part, number, more)) } }
    };
    let body = html! {
        div class="bench" {
            h1 { (say::TITLE) }
            p class="lead" { (say::WHY) }
            p class="quiet small" { (say::FIRST_DAY) }
            section class="ruled" {
                h2 { (say::ASKED) }
                @if asked.is_empty() { p { (say::NOTHING_ASKED) } }
                ul class="plain" { @for it in &asked { li {
                    a href=(it.to) { (it.tag) } " " (say::of(&it.part.name, it.number))
                    (of(it.part, it.number, &it.more))
                } } }
            }
            section class="ruled" {
                h2 { (say::ENGINES) }
                p class="kinds" { @for (_, kept) in &all {
                    @let here = her.is_some_and(|(_, it)| it.number == kept.number);
                    a href=(format!("/bench/?engine={}", kit::encode(&kept.number))) aria-current=[here.then_some("true")] { (words::engine(&kept.number)) } " "
                } }
                @if let Some((_, kept)) = her {
                    @if parts.is_empty() { p { (say::NO_PARTS) } }
                    ul class="plain along" { @for part in &parts { li { b { (part.name) } (of(part, &kept.number, "")) } } }
                    @if view.may(Authority::Inspect) { div class="along" { (bench_survey::ways(view, &kept.number)) } }
                }
            }
            (with_scripts(&html! { button class="take" type="button" { (say::TAKE_ALONG) } }))
        }
    };
    Drawn::new("", say::TITLE, body)
}

/// The page of one feature of a part.
pub fn draw(
    view: &View<'_>,
    number: &str,
    name: &str,
    feature: &str,
) -> Result<Option<Drawn>, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let (part_id, part) = part(view.book, id, name)?;
    let family = family(view.book, &part.family)?;
    let Some(feature) = family.measured_as(feature) else {
        return Ok(None);
    };
    let sets = view.book.readings.newest_first(part_id).unwrap_or_default();
    let seen = sets.iter().map(|set| set.entry).max().unwrap_or(0);
    let (unit, kind, told) = match (feature.kind, view.house) {
        (FeatureKind::Angle, _) => ("deg", "angle", on_part::IN_DEGREES),
        (FeatureKind::Size, House::Inch) => ("in", "inch", on_part::IN_INCHES),
        (FeatureKind::Size, House::Metric) => ("mm", "metric", on_part::IN_MILLIMETERS),
    };
    let typed = |name: &str| view.draft.value(VERB, name);
    let of = |name: &str| {
        if view.draft.is_of(VERB) {
            typed(name)
        } else {
            view.asked(name)
        }
    };
    let (job, found) = (of("job"), of("finding"));
    // What a finding was found at stands: it asks for the places it has not, until it is carried and looked at again.
    let has = |place: &String| {
        let kept = finding(view.book, found).ok().map(|(_, kept)| kept);
        let kept = kept.filter(|kept| kept.state == FindingState::Open);
        let mut read = kept.iter().flat_map(|kept| &kept.readings);
        read.any(|r| r.feature == feature.name && r.reading.position == *place)
    };
    let places: Vec<&String> = feature
        .positions
        .iter()
        .filter(|place| !has(place))
        .collect();
    let state = if view.draft.is_of(VERB) {
        Some(typed("as_left") == "yes")
    } else {
        match view.asked("left") {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        }
    };
    let body = html! {
        div class="bench" {
            h1 { (words::sentence(&feature.title)) }
            p class="lead" { a href=(kit::part_path(&kept.number, &part.name)) { (say::of(&part.name, &kept.number)) } @if !job.is_empty() { ", " a href=(format!("/job/{job}")) { (job) } } @if !found.is_empty() { ", " a href=(format!("/finding/{found}")) { (found) } } }
            p class="quiet small" { (feature.how) }
            p class="quiet small age" { (say::age(made(view)?)) }
            // Where nothing is left to read there is nothing to write in, nor a keypad to write with.
            @if places.is_empty() { p { (say::all_read(found)) } } @else {
            form class="act day at-bench" method="post" action="/do" data-kind=(kind) data-unit=(unit) data-seen=(seen) data-feature=(feature.name) data-what=(feature.title) {
                (kit::hidden("verb", VERB)) (kit::hidden("back", view.path))
                (kit::hidden("engine", &kept.number)) (kit::hidden("part", &part.name))
                @if !job.is_empty() { (kit::hidden("job", job)) }
                @if !found.is_empty() { (kit::hidden("finding", found)) }
                (kit::hidden(&format!("unit:{}", feature.name), unit))
                fieldset {
                    legend { (say::STATE) }
                    div class="choices" {
                        label class="choice" { input type="radio" name="as_left" value="" required checked[state == Some(false)]; span { (say::AS_FOUND) } }
                        label class="choice" { input type="radio" name="as_left" value="yes" checked[state == Some(true)]; span { (say::AS_LEFT) } }
                    }
                }
                (instrument(view))
                h2 { (say::PLACES) }
                p class="quiet small" { (told) }
                ol class="spots" { @for place in &places { (spot(view, feature, place, unit, &sets)) } }
                details open[!typed("part_temperature").is_empty() || !typed("measured_by").is_empty() || !typed("insist").is_empty()] {
                    summary { (say::MORE) }
                    (kit::line(view, VERB, "part_temperature", on_part::TEMPERATURE, on_part::TEMPERATURE_TELLS))
                    (kit::line(view, VERB, "measured_by", on_part::MEASURED_BY, on_part::MEASURED_BY_TELLS))
                    (kit::line(view, VERB, "insist", on_part::INSIST, say::INSIST_TELLS))
                }
                button { (say::KEEP) }
            }
            (with_scripts(&pad(kind)))
            }
        }
    };
    Ok(Some(Drawn::new(
        "",
        say::title(&feature.title, &part.name, &kept.number),
        body,
    )))
}

/// One place: its picture, what was left there before, and the line to write in with its unit.
fn spot(
    view: &View<'_>,
    feature: &Feature,
    place: &str,
    unit: &str,
    sets: &[&ReadingSet],
) -> Markup {
    let field = format!("at:{}@{place}", feature.name);
    let id = kit::id(VERB, &field);
    let before = last_left(sets, &feature.name, place);
    html! {
        li class="place" {
            @if let Some(picture) = spot::draw(&feature.positions, place) { (picture) }
            label for=(id) { (words::sentence(place)) }
            span class="before quiet" { @match &before { Some(was) => (on_part::last_left(was)), None => (say::NEVER_LEFT) } }
            span class="write" {
                input type="text" id=(id) name=(field) value=(view.draft.value(VERB, &field)) autocomplete="off" data-place=(place);
                " " (unit)
            }
        }
    }
}

/// The instrument, chosen once for all places.
fn instrument(view: &View<'_>) -> Markup {
    let mut known: Vec<_> = view.book.instruments.values().collect();
    known.sort_by_key(|kept| (kept.number.len(), kept.number.clone()));
    let all: Vec<&str> = view
        .draft
        .fields
        .iter()
        .filter(|(name, _)| name == form::WITH)
        .map(|(_, value)| value.as_str())
        .collect();
    html! { details class="with" open[all.iter().any(|text| !text.is_empty())] {
        summary { (say::INSTRUMENT) }
        @if !known.is_empty() {
            label for="with" { (say::REGISTERED) }
            select id="with" name=(form::WITH) {
                option value="" { (say::INSTRUMENT_BELOW) }
                @for kept in &known {
                    @let named = format!("{} {}", kept.what, kept.number);
                    @let wrong = last_check(kept).is_some_and(|check| !check.good);
                    option value=(named) selected[all.contains(&named.as_str())] { (named) @if wrong { " " (say::FOUND_WRONG) } }
                }
            }
        }
        label for="with-words" { (say::INSTRUMENT_WORDS) " " span class="quiet" { (say::INSTRUMENT_TELLS) } }
        input type="text" id="with-words" name=(form::WITH) value=(all.last().filter(|_| known.is_empty() || all.len() > 1).copied().unwrap_or_default()) autocomplete="off";
    } }
}

/// Moment at which the page was drawn, in the book's own zone.
pub fn made(view: &View<'_>) -> Result<DateTime, Failure> {
    let mut context = view.desk.context(None);
    let now = context.now()?;
    context.local(now)
}

/// What only scripts show: their sentences, and a piece of the page that they put where it belongs.
pub fn with_scripts(piece: &Markup) -> Markup {
    html! {
        section class="pocket ruled" hidden { h2 { (say::POCKET) } }
        template id="said" { @for (word, sentence) in say::SAID.iter().chain(words::survey::SAID) { p data-word=(word) { (sentence) } } }
        template id="pad" { (piece) }
        script type="module" src="/asset/bench.js" {}
    }
}

/// The keypad, with the place that is asked for above it.
fn pad(kind: &str) -> Markup {
    let key = |press: &str, shown: &str, read: &str, class: &str| {
        html! { button type="button" class=(class) data-key=(press) aria-label=[(!read.is_empty()).then_some(read)] { (shown) } }
    };
    let digit = |n: u32| key(&n.to_string(), &n.to_string(), "", "");
    let under = |n: u32| {
        key(
            &format!("/{n}"),
            &format!("/{n}"),
            &say::fraction(n),
            "part",
        )
    };
    let back = key("back", say::BACK, say::BACK_READ, "part");
    let point = key(".", ".", say::POINT_READ, "");
    html! {
        section class="stage" aria-live="polite" {
            div class="where" { }
            p class="asked" { b class="name" {} " " span class="count quiet" {} }
            p class="before quiet" {}
            p class="value" { output {} " " small class="unit" {} }
        }
        p class="note need" role="status" {}
        div class=(format!("pad {kind}")) role="group" aria-label=(say::KEYPAD) {
            @match kind {
                "inch" => {
                    (digit(7)) (digit(8)) (digit(9)) (under(2)) (back)
                    (digit(4)) (digit(5)) (digit(6)) (under(4)) (under(16))
                    (digit(1)) (digit(2)) (digit(3)) (under(8)) (under(32))
                    (point) (digit(0)) (key("and", say::AND, say::AND_READ, "part")) (key("thou", say::THOU, say::THOU_READ, "part")) (under(64))
                },
                "metric" => {
                    (digit(7)) (digit(8)) (digit(9))
                    (digit(4)) (digit(5)) (digit(6))
                    (digit(1)) (digit(2)) (digit(3))
                    (point) (digit(0)) (back)
                },
                _ => {
                    (digit(7)) (digit(8)) (digit(9)) (back)
                    (digit(4)) (digit(5)) (digit(6)) (key("d", say::DEGREES, say::DEGREES_READ, "part"))
                    (digit(1)) (digit(2)) (digit(3)) (key("m", say::MINUTES, say::MINUTES_READ, "part"))
                    (point) (digit(0))
                },
            }
            button type="button" class="go" data-key="enter" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::path;

    /// Every sentence that a script asks for is on the page, and none is there that no script asks for.
    #[test]
    fn the_scripts_and_the_page_have_the_same_sentences() {
        let scripts = [
            include_str!("../../../assets/bench.js"),
            include_str!("../../../assets/keypad.js"),
            include_str!("../../../assets/pocket.js"),
            include_str!("../../../assets/survey.js"),
        ]
        .concat();
        let quoted = |word: &str| scripts.contains(&format!("'{word}'"));
        let said = || super::say::SAID.iter().chain(super::words::survey::SAID);
        for (word, _) in said() {
            assert!(quoted(word), "no script says {word}");
        }
        for asked in scripts.split("say('").skip(1) {
            let word = asked.split('\'').next().unwrap();
            let known = said().any(|(known, _)| *known == word);
            assert!(known, "a script says {word}, which is not on the page");
        }
    }

    #[test]
    fn a_path_names_engine_part_and_feature() {
        assert_eq!(
            path("14", "right feed check", "seat-land"),
            "/bench/14/right%20feed%20check/seat-land"
        );
    }
}
