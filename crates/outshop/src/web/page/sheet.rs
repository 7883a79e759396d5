//! Worked sheets: the list of them, and any one as a form that shows its steps, its sources, its cautions.

use maud::{Markup, PreEscaped, html};
use physics::card::Card;
use physics::{Basis, Sheet, Shown};
use shop::lathe::{FILLED, SET};
use shop::ruled::{figures_of, of_boiler};

use super::{Drawn, View, card, drawn, kit};
use crate::Failure;
use crate::part_drawing;
use crate::verb::handed_on::{FROM, Over, Step, named, next as follow};
use crate::verb::lathe::by_number;
use crate::verb::ruled::{Asked, ENGINE, LATHE, RULES};
use crate::verb::setting::ForLathe;
use crate::web::form::value;
use crate::words::{self, handed_on, sheet as say, tag};

pub fn list() -> Result<Drawn, Failure> {
    let mut rest: Vec<_> = physics::catalogue().iter().collect();
    let mut groups = Vec::new();
    for (subject, title) in say::SUBJECTS {
        let (of, others) = rest
            .into_iter()
            .partition::<Vec<_>, _>(|entry| subject_of(entry.card) == *subject);
        groups.push((*subject, *title, of));
        rest = others;
    }
    groups.push(("others", say::OTHERS, rest));
    groups.retain(|(_, _, of)| !of.is_empty());
    let body = html! {
        h1 { (say::WORKED_SHEETS) }
        p class="lead" { (say::LEAD) }
        p { a href="/boiler-work" { (words::boiler_work::LINK) } }
        p { a href="/yearly" { (words::year_work::TITLE) } }
        p { a href="/lathes" { (words::lathe::TITLE) } }
        p { a href="/cards" { (words::card::TITLE) } }
        p { a href="/drawings" { (words::drawing::TITLE) } }
        section class="ruled" {
            h2 { (handed_on::WAY) }
            p { (handed_on::WAY_TELLS) }
            p { a href="/sheet/thread.identify" { (handed_on::BEGIN) } }
        }
        p class="small" { @for (n, (subject, title, _)) in groups.iter().enumerate() { @if n > 0 { " · " } a href=(format!("#{subject}")) { (title) } } }
        @for (subject, title, of) in &groups {
            section class="ruled" id=(subject) {
                h2 { (title) }
                ul class="plain" { @for entry in of {
                    li { a href=(format!("/sheet/{}", entry.card.id)) { (entry.card.title) } " " span class="quiet small" { (entry.card.id) } p class="small" { (entry.card.purpose) } }
                } }
            }
        }
    };
    Ok(Drawn::new("/sheets", words::page::SHEETS, body))
}

/// The first word of a sheet's id.
fn subject_of(card: &Card) -> &str {
    card.id.split('.').next().unwrap_or(card.id)
}

pub fn draw(view: &View<'_>, id: &str) -> Result<Drawn, Failure> {
    let card = physics::find(id)?.card;
    let asked = Asked::of(&view.query);
    let over = Over::into(
        id,
        asked.from.as_deref(),
        view.book,
        view.rules,
        view.on,
        view.house,
    )?;
    let wanting = wanting(card, &asked, &over);
    let worked = (asked != Asked::default() && wanting.is_empty())
        .then(|| asked.worked(view.book, view.rules, id, view.on, view.house));
    let body = html! {
        h1 { (card.title) }
        p class="lead" { (card.purpose) }
        (goes_on_from(&over.steps))
        @if !wanting.is_empty() { p class="need" { (handed_on::still(&wanting)) } }
        div class="sheet" {
            (inputs(view, card, &over))
            div id="worked" { @match &worked {
                None => p class="quiet" { (say::FILL_IN) },
                Some(Ok(sheet)) => { @if let Some(number) = &asked.lathe { (on_lathe(view, number, sheet)) } (page(sheet, &html! { (drawn::shown(&drawn::of_sheet(sheet, &drawn::title(view, None)))) (next(view, sheet, &asked)) })) }
                Some(Err(e)) => (crate::web::trouble::said(&e.to_string())),
            } }
        }
    };
    Ok(Drawn::new("/sheets", card.title, body))
}

/// A sheet to be filled in, with the law of an engine where it asks figures of law.
pub fn of_engine(id: &str, number: &str) -> String {
    match figures_of(id).is_empty() && of_boiler(id).is_empty() {
        true => format!("/sheet/{id}"),
        false => format!("/sheet/{id}?{ENGINE}={}", kit::encode(number)),
    }
}

/// A worked sheet with the same inputs.
pub fn path(sheet: &Sheet) -> String {
    format!("/sheet/{}?{}", sheet.card.id, inputs_of(sheet, |_| true))
}

/// A sheet worked from readings of an engine, with the same inputs; where it asks figures of law they come of her rules.
pub fn path_by_law(sheet: &Sheet, number: &str) -> String {
    let id = sheet.card.id;
    if figures_of(id).is_empty() {
        return path(sheet);
    }
    let typed = inputs_of(sheet, |basis| !matches!(basis, Basis::Ruling { .. }));
    format!("{}&{typed}", of_engine(id, number))
}

fn inputs_of(sheet: &Sheet, kept: impl Fn(&Basis) -> bool) -> String {
    let inputs: Vec<_> = sheet
        .inputs
        .iter()
        .filter(|input| sheet.card.arguments.iter().any(|a| a.name == input.name))
        .filter(|input| kept(&input.basis))
        .map(|input| {
            format!(
                "{}={}",
                input.name,
                kit::encode(&with_unit(&input.entered, &input.value))
            )
        })
        .collect();
    inputs.join("&")
}

/// An input as it was entered; one without a unit takes the one the sheet gave it, for whoever opens the page
/// may read in others.
fn with_unit(entered: &str, value: &Shown) -> String {
    match value {
        Shown::Quantity { unit, .. } if entered.ends_with(|c: char| c.is_ascii_digit()) => {
            words::sheet::value(entered, unit)
        }
        _ => entered.into(),
    }
}

/// Arguments that a sheet going on from another cannot do without and nobody has said yet.
fn wanting<'c>(card: &'c Card, asked: &Asked, over: &Over) -> Vec<&'c str> {
    let known =
        |name: &str| over.of(name).is_some() || asked.given.iter().any(|given| given.name == name);
    let all = card.arguments.iter();
    let all = all.filter(|one| one.required && !over.steps.is_empty() && !known(one.name));
    all.map(|one| one.meaning).collect()
}

/// The sheets worked before this one, each a way back.
fn goes_on_from(steps: &[Step]) -> Markup {
    html! { @if !steps.is_empty() {
        p class="kinds" { (handed_on::GOES_ON) ": "
            @for (n, step) in steps.iter().enumerate() { @if n > 0 { " · " } a href=(format!("/sheet/{}", step.named)) { (step.sheet.card.title) } }
        }
    } }
}

/// What comes next: sheets that this one leads to, parts that can be drawn from it, its card.
fn next(view: &View<'_>, sheet: &Sheet, asked: &Asked) -> Markup {
    let id = sheet.card.id;
    let sheets = follow(sheet, &view.query);
    let named = named(id, &view.query, None);
    let parts: Vec<_> = part_drawing::from_sheet(sheet).collect();
    html! {
        h2 { (handed_on::NEXT) }
        @if !sheets.is_empty() || !parts.is_empty() { p class="small" { (handed_on::NEXT_TELLS) } }
        ul class="plain steps-next" {
            @for (next, from) in &sheets {
                li { a href=(format!("/sheet/{}?from={}", next.sheet, kit::encode(from))) { (next.what) } " " span class="quiet small" { (next.sheet) } }
            }
            @for kind in &parts {
                li { a href=(format!("/drawing/{}?from={}", kind.word, kit::encode(&named))) { (words::drawing::draw(kind.title)) } }
            }
        }
        @if id == shop::lathe::THREAD && asked.lathe.is_none() { p class="small" { (handed_on::NO_LATHE) } }
        (crate::web::print::sheet_link(id, &view.query))
        (card::keep(view, sheet))
    }
}

fn inputs(view: &View<'_>, card: &Card, over: &Over) -> Markup {
    let typed = |name: &str| match value(&view.query, name) {
        "" => over.of(name).map_or("", |one| one.text.as_str()),
        typed => typed,
    };
    let law = figures_of(card.id);
    let by_card = of_boiler(card.id);
    // What the law or a lathe of the book gives may be left to it, also where the sheet cannot do without.
    let by_lathe = FILLED.contains(&card.id) && !view.book.lathes.is_empty();
    let given = |name: &str| {
        let of_lathe = by_lathe && name != "wanted" && name != "wheels";
        law.contains(&name) || by_card.contains(&name) || of_lathe
    };
    let needed = |name: &str, required: bool| required && !given(name);
    html! {
        form class="act" method="get" action=(format!("/sheet/{}#worked", card.id)) {
            h2 { (say::GOES_IN) }
            @if let Some(last) = over.steps.last() { (kit::hidden(FROM, &last.named)) }
            @if !law.is_empty() { (whose_law(view)) }
            @if !by_card.is_empty() { (whose_boiler(view)) }
            @for argument in card.arguments {
                @let id = kit::id("sheet", argument.name);
                label for=(id) { (argument.meaning) " " span class="quiet" { (say::argument(argument.name, needed(argument.name, argument.required))) @if law.contains(&argument.name) { (say::OF_LAW) } } }
                @if let Some(one) = over.of(argument.name) { p class="small" { @if typed(argument.name) == one.text { (handed_on::whence(one)) } @else { (handed_on::instead(one)) } } }
                @if argument.choices().is_empty() || argument.name == "materials" {
                    input type="text" id=(id) name=(argument.name) value=(typed(argument.name)) required[needed(argument.name, argument.required)] autocomplete="off";
                    @if !argument.choices().is_empty() { p class="quiet small" { (say::choices(argument.choices())) } }
                } @else {
                    // Nothing is chosen for the reader: what was not said is not known.
                    select id=(id) name=(argument.name) required[needed(argument.name, argument.required)] {
                        option value="" { (say::NOT_SAID) }
                        @for choice in argument.choices() { option selected[typed(argument.name) == *choice] { (choice) } }
                    }
                }
            }
            @if SET.contains(&card.id) || FILLED.contains(&card.id) { (whose_lathe(view, card.id)) }
            button { (say::WORK_IT) }
        }
    }
}

/// Whose rules give the figures of law: an engine's, or a rulebook without one.
fn whose_law(view: &View<'_>) -> Markup {
    let mut sets: Vec<&str> = view.rules.jurisdictions().into_iter().collect();
    sets.extend(view.book.rule_sets.keys().map(String::as_str));
    html! {
        label for="sheet-engine" { (say::LAW_ENGINE) " " span class="quiet" { (say::LAW_HINT) } }
        select id="sheet-engine" name=(ENGINE) {
            option value="" { (say::NOT_SAID) }
            (kit::engine_options(view, value(&view.query, ENGINE)))
        }
        label for="sheet-rules" { (say::LAW_RULES) }
        select id="sheet-rules" name=(RULES) {
            option value="" { (say::NOT_SAID) }
            @for set in sets { option selected[value(&view.query, RULES) == set] { (set) } }
        }
    }
}

/// Whose boiler card gives what is not typed.
fn whose_boiler(view: &View<'_>) -> Markup {
    html! {
        label for="sheet-engine" { (say::BOILER_OF) " " span class="quiet" { (say::BOILER_HINT) } }
        select id="sheet-engine" name=(ENGINE) {
            option value="" { (say::NOT_SAID) }
            (kit::engine_options(view, value(&view.query, ENGINE)))
        }
    }
}

/// Which lathe the settings are wanted for; nothing where the book has none.
fn whose_lathe(view: &View<'_>, sheet: &str) -> Markup {
    let all = by_number(view.book);
    let chosen = value(&view.query, LATHE);
    html! { @if !all.is_empty() {
        label for="sheet-lathe" { @if FILLED.contains(&sheet) { (words::setting::OF_LATHE) } @else { (words::setting::FOR_LATHE) } }
        select id="sheet-lathe" name=(LATHE) {
            option value="" { (say::NOT_SAID) }
            @for kept in all { @let number = tag::lathe(kept.number); option value=(number) selected[chosen == number] { (number) " " (kept.name) } }
        }
    } }
}

/// The settings of a lathe for the thread, or why there are none.
fn on_lathe(view: &View<'_>, number: &str, sheet: &Sheet) -> Markup {
    match ForLathe::of(view.book, number, sheet, view.house) {
        Err(why) => crate::web::trouble::said(&why.to_string()),
        Ok(None) => html! {},
        Ok(Some(told)) => html! {
            h2 { a href=(format!("/lathe/{}", told.number)) { (told.title) } }
            dl class="facts" { @for it in &told.settings {
                dt { (it.what) }
                dd { span class=(if it.missing { "need" } else { "" }) { (kit::worded(&it.said)) } }
            } }
        },
    }
}

/// A cell of a table longer than this is a sentence.
const WORDED: usize = 24;

fn shown(value: &Shown) -> Markup {
    match value {
        Shown::Quantity { shown, unit, .. } => {
            html! { b { (say::value(shown, unit)) } }
        }
        Shown::Text(text) => {
            html! { @if text.starts_with(words::page::CANNOT_TELL) { span class="verdict unknown" { (text) } } @else { strong { (text) } } }
        }
        Shown::Table { columns, rows } => html! {
            // Sentences in narrow columns cannot be read on a phone: there each stands under its heading.
            @let worded = rows.iter().flatten().any(|cell| cell.len() > WORDED);
            div class="table" tabindex="0" role="group" aria-label=(say::RESULTS) { table class=[worded.then_some("stack")] {
                thead { tr { @for column in columns { th { (column) } } } }
                tbody { @for row in rows { tr { @for (n, cell) in row.iter().enumerate() {
                    td data-label=[columns.get(n).filter(|_| worded)] { (cell) }
                } } } }
            } }
        },
    }
}

/// The sheet; `after` stands under its results.
pub fn page(sheet: &Sheet, after: &Markup) -> Markup {
    html! {
        @if !sheet.notices.is_empty() { div class="said" { @for notice in &sheet.notices { p { (notice) } } } }
        h2 { (say::RESULTS) }
        @for result in &sheet.results { div class="result" { (shown(&result.value)) span class="quiet" { (result.meaning) } } }
        (after)
        h2 { (say::WHERE_FROM) }
        dl class="facts" { @for input in &sheet.inputs {
            dt { (input.symbol) }
            dd { span class="fig" { (input.entered) } " " (input.meaning) " " span class="quiet small" { (input.basis) } }
        } }
        @if !sheet.steps.is_empty() {
            h2 { (say::WORKED) }
            div class="steps" tabindex="0" role="group" aria-label=(say::WORKED) { @for step in &sheet.steps {
                (PreEscaped(step.mathml()))
                // The same in plain signs: to be typed again, and for a browser that cannot set mathematics.
                p { (step.formula) br; (say::equals(&step.substituted)) br; (say::equals(&say::value(&step.shown, step.unit))) }
            } }
        }
        h2 { (say::CAUTIONS) }
        ul class="caution" { @for caution in &sheet.cautions { li { (caution) } } }
        h2 { (say::SOURCES) }
        ul class="small" { @for source in &sheet.sources { li { (source) } } }
    }
}
