//! A survey of a sheet read at the bench: first what is read and how, then square by square or a line at a time.
//!
//! Without scripts each line is a form that is kept beside the book; with them one square at a time stands over a keypad,
//! and all of it waits on the device (`crates/outshop/assets/survey.js`).

use maud::{Markup, html};
use measure::{Length, Rounding, show};
use shop::book::{Authority, Survey};
use shop::locomotive::{BOILER_PLACES, engine};
use shop::ruled::boiler::{Beside, beside_last};

use super::bench::{made, with_scripts};
use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::begun::{self, BEGIN, Begun, LINE, TEXT};
use crate::web::survey_file;
use crate::words::{self, boiler_map as of_map, pocket, survey as say};

/// Her components under pressure, each a way to its page; nothing where she has none.
pub fn ways(view: &View<'_>, number: &str) -> Markup {
    let known = engine(view.book, number).ok();
    let boiler = known.and_then(|(id, _)| view.book.boilers.get(&id));
    let mut all: Vec<&str> = Vec::new();
    for component in boiler.into_iter().flat_map(|boiler| &boiler.components) {
        let under = BOILER_PLACES
            .iter()
            .any(|(place, _)| *place == component.place);
        if under && component.kind != "not-fitted" && component.stood(view.on) {
            all.push(&component.name);
        }
    }
    html! {
        @if !all.is_empty() {
            h3 { (say::AT_BENCH) }
            div class="places" { @for name in &all { a href=(begun::path(number, name)) { (words::sentence(name)) } } }
        }
    }
}

/// The page of one component.
pub fn draw(view: &View<'_>, number: &str, component: &str) -> Result<Option<Drawn>, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let boiler = view.book.boilers.get(&id);
    let Some(boiler) = boiler.filter(|boiler| boiler.component(component).is_some()) else {
        return Ok(None);
    };
    let begun = Begun::of(view.desk, view.reader.id, view.path)?;
    let last = boiler.surveys_of(component, view.on).last();
    let title = of_map::survey_title(&kept.number, component);
    let body = html! {
        div class="bench survey" {
            h1 { (title) }
            p class="lead" { a href=(format!("/engine/{}/boiler/{}", kit::encode(&kept.number), kit::encode(component))) { (say::ITS_SURVEYS) } }
            p class="quiet small age" { (pocket::age(made(view)?)) }
            @if !view.may(Authority::Inspect) { p class="need" { (say::MAY_NOT) } }
            @else {
                @match &begun {
                    None => (begin(view, &kept.number, component, last)),
                    Some(begun) => div class="without-scripts" { (line(view, begun, &beside_last(view.book, id, &begun.survey()))) },
                }
                (for_scripts(view, component, &kept.number, begun.as_ref(), last)?)
            }
            @for said in of_map::SURVEY_CAUTIONS { p class="small quiet" { (said) } }
        }
    };
    Ok(Some(Drawn::new("", title, body)))
}

/// The form that says what is read and how.
fn begin(view: &View<'_>, number: &str, component: &str, last: Option<&Survey>) -> Markup {
    let sent = view.draft.is_of(BEGIN);
    let stood = |name: &str| view.draft.value(BEGIN, name);
    let joined =
        |names: Option<&Vec<String>>| names.map_or(String::new(), |names| names.join(", "));
    // The names of the squares are those of the survey before, so that the two can be laid beside each other.
    let names = |name: &str, last: Option<&Vec<String>>| {
        if sent {
            stood(name).to_owned()
        } else {
            joined(last)
        }
    };
    html! {
        form class="act day survey-begin" method="post" action=(begun::PATH) {
            h2 { (say::HOW) }
            (kit::hidden("verb", BEGIN)) (kit::hidden("engine", number)) (kit::hidden("component", component))
            @if let Some(last) = last { p class="quiet small" { (say::names_of(last.on)) } }
            label for="survey-rows" { (say::ROWS) " " span class="quiet" { (say::NAMES_HINT) } }
            input type="text" id="survey-rows" name="rows" value=(names("rows", last.map(|it| &it.rows))) autocomplete="off" required;
            label for="survey-columns" { (say::COLUMNS) }
            input type="text" id="survey-columns" name="columns" value=(names("columns", last.map(|it| &it.columns))) autocomplete="off" required;
            fieldset {
                legend { (say::DIRECTION) }
                div class="choices" { @for (word, means) in say::DIRECTIONS {
                    label class="choice" { input type="radio" name="direction" value=(word) required checked[stood("direction") == word]; span { (means) } }
                } }
            }
            (survey_file::head(&stood))
            p class="note need" role="status" {}
            button { (say::BEGIN) }
        }
        p { (survey_file::way(number, component)) }
    }
}

/// One line of a survey that was begun, the ways to the others, and the end of it.
fn line(view: &View<'_>, begun: &Begun, beside: &Beside) -> Markup {
    let at: usize = view.asked("line").parse().unwrap_or(0);
    let at = at.min(begun.lines().saturating_sub(1));
    let places = begun.squares(at);
    let [read, marked, all] = begun.counts();
    let hidden = |verb: &str| {
        html! { (kit::hidden("verb", verb)) (kit::hidden("engine", &begun.take.engine)) (kit::hidden("component", &begun.take.component)) }
    };
    let draft = view.draft;
    html! {
        p role="status" { (say::so_far(read, marked, all, begun.on)) }
        nav class="lines" aria-label=(say::LINES) { @for line in 0..begun.lines() {
            @let said = begun.squares(line).iter().filter(|(row, column)| !begun.cell(*row, *column).is_empty()).count();
            a href=(format!("{}?line={line}", view.path)) aria-current=[(line == at).then_some("true")] { (say::line_so_far(begun.down, begun.line_name(line), said, begun.squares(line).len())) }
        } }
        form class="act day" method="post" action=(begun::PATH) {
            h2 { (say::line(begun.down, begun.line_name(at))) }
            (hidden(LINE)) (kit::hidden("line", &at.to_string()))
            p class="quiet small" { (say::SQUARES_HINT) }
            ol class="spots" { @for (n, (row, column)) in places.iter().enumerate() {
                @let (cell, word) = (format!("cell:{n}"), format!("word:{n}"));
                @let kept = begun.words.get(&begun.square_name(*row, *column)).map_or("", String::as_str);
                @let sent = draft.is_of(LINE);
                @let why: Vec<_> = beside.again.iter().filter(|it| (it.row, it.column) == (*row, *column)).map(|it| of_map::why(it.why)).collect();
                li class="place square" {
                    label for=(format!("cell-{n}")) { (say::square(begun.down, begun.across(*row, *column))) }
                    span class="before quiet" { (before(beside, *row, *column)) }
                    span class="write" {
                        input type="text" inputmode="decimal" id=(format!("cell-{n}")) name=(cell) autocomplete="off"
                            value=(if sent { draft.value(LINE, &cell) } else { begun.cell(*row, *column) });
                        " " (begun.take.unit)
                    }
                    @if !why.is_empty() { span class="again need" { (say::again(&why)) } }
                    details class="word" open[!kept.is_empty()] {
                        summary { (say::WORD) }
                        input type="text" name=(word) aria-label=(say::word_on(&begun.square_name(*row, *column))) autocomplete="off"
                            value=(if sent { draft.value(LINE, &word) } else { kept });
                    }
                }
            } }
            button { (say::KEEP_LINE) }
        }
        details open[draft.is_of(TEXT)] {
            summary { (say::as_text(begun.down)) }
            form class="act day" method="post" action=(begun::PATH) {
                (hidden(TEXT)) (kit::hidden("line", &at.to_string()))
                label for="line-text" { (say::line(begun.down, begun.line_name(at))) " " span class="quiet" { (say::text_hint(places.len())) } }
                textarea id="line-text" name="text" { (draft.value(TEXT, "text")) }
                button { (say::KEEP_LINE) }
            }
        }
        section class="ruled" {
            h2 { (say::ALL_READ) }
            form class="act" method="post" action=(begun::PATH) {
                (hidden("survey-enter"))
                p { (say::enter_means(read, all)) }
                button { (of_map::TAKE_IT) }
            }
            details {
                summary { (say::DROP) }
                form class="act" method="post" action=(begun::PATH) {
                    (hidden("survey-drop"))
                    label class="choice" { input type="checkbox" name="sure" value="yes" required; span { (say::SURE) } }
                    button { (say::DROP) }
                }
            }
        }
    }
}

/// What the survey before read on a square.
fn before(beside: &Beside, row: usize, column: usize) -> String {
    let was = beside.was.get(row).and_then(|row| *row.get(column)?);
    let unit = beside.last.as_ref().map_or("in", |last| last.unit.as_str());
    match was {
        Some(inches) => say::was(&written(inches, unit), unit),
        None => say::NEVER.into(),
    }
}

/// A thickness in a unit, as a survey writes it.
fn written(inches: f64, unit: &str) -> String {
    match unit {
        "mm" => show::number(Length::inches(inches).to_mm(), 2, Rounding::Nearest),
        _ => show::number(inches, 3, Rounding::Nearest),
    }
}

/// What scripts need: what the survey before read on each of its squares and over what a reading is looked at again, what
/// was begun without scripts, the keypad, and what they say.
fn for_scripts(
    view: &View<'_>,
    component: &str,
    number: &str,
    begun: Option<&Begun>,
    last: Option<&Survey>,
) -> Result<Markup, Failure> {
    let (id, _) = engine(view.book, number)?;
    // Its own squares read anew today: what the last survey read on each, and what of today's would be strange.
    let today = last.map(|last| Survey {
        on: view.on,
        ..last.clone()
    });
    let beside = today.map(|today| beside_last(view.book, id, &today));
    let built = match &beside {
        Some(beside) => beside.built,
        None => beside_last(view.book, id, &empty(component, view.on)).built,
    };
    // Rounded down: a reading is looked at again rather once too often.
    let most = |inches: f64| {
        [
            show::number(inches, 4, Rounding::Down),
            show::number(Length::inches(inches).to_mm(), 3, Rounding::Down),
        ]
    };
    let built = built.map(most);
    let json = begun.map(serde_json::to_string).transpose();
    let json = json.map_err(|e| Failure::Machine(e.to_string()))?;
    Ok(html! {
        template id="survey" data-begun=[json] data-days-ago=[begun.map(|it| days(it.on, view.on))] data-engine=(number) data-component=(component)
            data-built-in=[built.as_ref().map(|it| &it[0])] data-built-mm=[built.as_ref().map(|it| &it[1])]
            data-unit=[last.map(|it| &it.unit)] data-on=[last.map(|it| words::day(it.on))] {
            @if let (Some(last), Some(beside)) = (last, &beside) {
                @for (row, name) in last.rows.iter().enumerate() { @for (column, of) in last.columns.iter().enumerate() {
                    @if let Some(was) = beside.was.get(row).and_then(|row| *row.get(column)?) {
                        @let most = beside.most(row, column).map(|(inches, why)| (most(inches), why));
                        i data-row=(name) data-column=(of) data-was=(written(was, &last.unit))
                            data-in=[most.as_ref().map(|it| &it.0[0])] data-mm=[most.as_ref().map(|it| &it.0[1])]
                            data-why=[most.as_ref().map(|it| of_map::why(it.1))] {}
                    }
                } }
            }
        }
        (with_scripts(&pad()))
    })
}

/// Whole days from one day to another.
fn days(from: jiff::civil::Date, to: jiff::civil::Date) -> i32 {
    from.until((jiff::Unit::Day, to))
        .map_or(0, |span| span.get_days())
}

fn empty(component: &str, on: jiff::civil::Date) -> Survey {
    Survey {
        component: component.to_owned(),
        rows: Vec::new(),
        columns: Vec::new(),
        cells: Vec::new(),
        unit: "in".into(),
        square: None,
        spot: None,
        source: String::new(),
        on,
        by: shop::book::PersonId(0),
        entry: u64::MAX,
    }
}

/// The keypad, with the square that is asked for above it.
fn pad() -> Markup {
    let key = |press: &str, shown: &str, read: &str, class: &str| {
        html! { button type="button" class=(class) data-key=(press) aria-label=[(!read.is_empty()).then_some(read)] { (shown) } }
    };
    let digit = |n: u32| key(&n.to_string(), &n.to_string(), "", "");
    html! {
        form class="act day survey-pad" {
            section class="stage" aria-live="polite" {
                p class="asked" { b class="name" {} " " span class="count quiet" {} }
                p class="before quiet" {}
                p class="value" { output {} " " small class="unit" {} }
            }
            p class="note need" role="status" {}
            div class="pad thin" role="group" aria-label=(pocket::KEYPAD) {
                (key("previous", say::PREVIOUS, say::PREVIOUS_READ, "part")) (digit(7)) (digit(8)) (digit(9))
                (key("-", say::SKIP, say::SKIP_READ, "part")) (digit(4)) (digit(5)) (digit(6))
                (key("x", say::NO_PLATE, say::NO_PLATE_READ, "part")) (digit(1)) (digit(2)) (digit(3))
                (key("next", say::NEXT, say::NEXT_READ, "part")) (key(".", ".", pocket::POINT_READ, "")) (digit(0)) (key("back", pocket::BACK, pocket::BACK_READ, "part"))
                button type="button" class="go" data-key="enter" {}
            }
            label for="square-word" { (say::WORD) " " span class="quiet" { (say::WORD_HINT) } }
            input type="text" id="square-word" autocomplete="off";
            details {
                summary { (say::WHOLE_LINE) }
                label for="square-line" { span class="line-name" {} " " span class="quiet" { (say::SQUARES_HINT) } }
                textarea id="square-line" {}
                button type="button" class="write-line" { (say::WRITE_LINE) }
            }
            h2 { (say::LINES) }
            div class="lines" {}
            p class="quiet small total" {}
            button type="button" class="keep" {}
            button type="button" class="plain drop" { (say::DROP) }
        }
    }
}
