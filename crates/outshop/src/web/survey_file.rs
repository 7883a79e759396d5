//! A survey of a sheet from a file: which fields its form asks, what its lines say of themselves, and its map beside the
//! survey before it.

use maud::{Markup, html};
use shop::book::{BatchId, Survey};
use shop::locomotive::{engine, engines};
use shop::ruled::boiler::SurveyRead;
use store::Receipt;

use super::form::filled;
use super::lines::{self, Fates, File, Lines, Names, batches, came_in, stood};
use super::page::{Drawn, View, boiler_map, kit};
use crate::verb::survey::{Plan, TakeSurvey};
use crate::words::{self, boiler_map as of_map, log, survey as say};
use crate::{Context, Failure, Globals};

/// The path of the page.
pub const PATH: &str = "/surveys/import";

/// The page that asks for a file, and lists what came in.
pub fn draw(view: &View<'_>) -> Drawn {
    let stood = |name: &str| stood::<Plan>(view, name);
    let body = html! {
        h1 { (say::FROM_FILE) }
        @if let Some(said) = came_in(view) {
            (said)
            @if let Some(path) = survey_path(view, stood("engine"), stood("component")) {
                p { a href=(path) { (of_map::survey_title(stood("engine"), stood("component"))) } }
            }
        }
        p class="lead" { (say::FILE_TAKES) }
        form class="act" method="post" action=(PATH) enctype="multipart/form-data" {
            label for="file" { (log::FILE) }
            input type="file" id="file" name="file" accept=".csv,.txt,.tsv,.xlsx" required;
            label for="engine" { (say::OF_ENGINE) }
            select id="engine" name="engine" required {
                option value="" { (say::CHOOSE) }
                (kit::engine_options(view, stood("engine")))
            }
            label for="component" { (words::boiler::COMPONENT) }
            input type="text" id="component" name="component" list="components" value=(stood("component")) autocomplete="off" required;
            datalist id="components" { @for name in components(view) { option value=(name) {} } }
            label for="on" { (say::DAY_READ) }
            input type="date" id="on" name="on" value=(stood("on")) required;
            (head(&stood))
            label for="sheet" { (log::SHEET) }
            input type="text" id="sheet" name="sheet" value=(stood("sheet")) autocomplete="off";
            p class="quiet small" { (log::CHANGES_NOTHING) }
            button { (log::SHOW_FATES) }
        }
        h2 { (words::part_list::SUCH_AS) }
        div class="table" { table {
            thead { tr { @for column in say::EXAMPLE_COLUMNS { @if column.is_empty() { td {} } @else { th { (column) } } } } }
            tbody { @for line in say::EXAMPLE_LINES { tr { @for cell in line { td { (cell) } } } } }
        } }
        (batches(view))
    };
    Drawn::new("/", say::FROM_FILE, body)
}

/// What is told of a survey beside its squares: its unit, the size of a square and of a spot, where it begins, who read it,
/// with what, how that was checked, how warm the plate was. Nothing is filled in that was not said.
pub fn head<'s>(stood: &impl Fn(&str) -> &'s str) -> Markup {
    let line = |name: &str, label: &str, hint: &str| {
        let must = name == "source";
        html! {
            label for=(format!("survey-{name}")) { (label) @if !hint.is_empty() { " " span class="quiet" { (hint) } } }
            input type="text" id=(format!("survey-{name}")) name=(name) value=(stood(name)) autocomplete="off" required[must];
        }
    };
    html! {
        fieldset {
            legend { (say::UNIT) }
            div class="choices" { @for (word, means) in say::UNITS {
                label class="choice" { input type="radio" name="unit" value=(word) required checked[stood("unit") == word]; span { (means) } }
            } }
        }
        (line("source", of_map::SOURCE, say::SOURCE_HINT))
        (line("instrument", say::INSTRUMENT, say::INSTRUMENT_HINT))
        (line("checked", say::CHECKED, say::CHECKED_HINT))
        (line("part_temperature", say::TEMPERATURE, say::TEMPERATURE_HINT))
        div class="grid2" {
            div { (line("square", of_map::SQUARE, "12 in")) }
            div { (line("spot", of_map::SPOT, "3/8 in")) }
        }
    }
}

/// The components of every boiler, each name once.
fn components(view: &View<'_>) -> Vec<String> {
    let all = engines(view.book).into_iter();
    let boilers = all.filter_map(|(id, _)| view.book.boilers.get(&id));
    let mut names: Vec<String> = boilers
        .flat_map(|boiler| boiler.components.iter().map(|it| it.name.clone()))
        .collect();
    names.sort();
    names.dedup();
    names
}

fn survey_path(view: &View<'_>, number: &str, component: &str) -> Option<String> {
    let (id, kept) = engine(view.book, number).ok()?;
    view.book.boilers.get(&id)?.component(component)?;
    Some(format!(
        "/engine/{}/boiler/{}",
        kit::encode(&kept.number),
        kit::encode(component)
    ))
}

impl Lines for Plan {
    const PATH: &'static str = PATH;
    const VERB: &'static str = "survey-file";
    const NAMES: Names = Names {
        of: say::ROW,
        save_it: of_map::TAKE_IT,
        nothing_new: say::NOTHING_TO_ENTER,
        another: words::part_list::ANOTHER,
    };

    fn of(context: &mut Context, file: &File) -> Result<Plan, Failure> {
        let told = |name: &str| filled(&file.fields, name);
        let day = told("on").ok_or_else(|| Failure::Input(say::DAY_NEEDED.into()))?;
        context.speak(Globals {
            on: Some(crate::verb::date(&day)?),
            ..context.globals().clone()
        });
        let take = TakeSurvey {
            engine: told("engine").unwrap_or_default(),
            component: told("component").unwrap_or_default(),
            sheet: told("sheet"),
            unit: told("unit").unwrap_or_default(),
            square: told("square"),
            spot: told("spot"),
            source: told("source").unwrap_or_default(),
            instrument: told("instrument"),
            checked: told("checked"),
            part_temperature: told("part_temperature"),
            ..TakeSurvey::default()
        };
        Plan::of_file(context, &file.name, &file.bytes, &take)
    }

    fn mark(&self) -> String {
        self.mark()
    }

    fn save(&self, context: &mut Context, _: bool) -> Result<Option<(Receipt, BatchId)>, Failure> {
        self.save(context).map(Some)
    }

    fn after(&self, batch: BatchId) -> String {
        format!(
            "{PATH}?batch={batch}&engine={}&component={}",
            kit::encode(&self.engine),
            kit::encode(self.component())
        )
    }

    fn fates(&self) -> Fates<'_> {
        let lines = self.lines.iter().map(|line| lines::Fate {
            place: line.place,
            engine: &self.engine,
            of: line.row.clone(),
            told: line.told(),
            refused: line.fate.is_err(),
        });
        let mut adds = vec![say::day(self.day())];
        if self.again() {
            adds.push(say::AGAIN.into());
        }
        Fates {
            sum: say::sum(&self.shown(), self.counts(), self.refused()),
            adds,
            not_read: &[],
            news: self.refused() == 0 && !self.again(),
            refused: self.refused(),
            lines: lines.collect(),
            together: self
                .comes_to
                .as_ref()
                .map(|read| together(read, self.last.as_ref())),
        }
    }
}

/// What the survey would come to, and its map beside that of the survey before.
fn together((survey, read): &(Survey, SurveyRead), last: Option<&(Survey, SurveyRead)>) -> Markup {
    html! {
        section class="ruled" { h2 { (say::WOULD_COME_TO) } ul class="plain" { @for said in of_map::survey(survey, read) { li { (said) } } } }
        p class="small quiet" { (of_map::MARKS) }
        div class="grid2" {
            div { h2 { (say::THIS_SURVEY) } @for map in of_map::pictures(survey, read) { (boiler_map::picture(map.svg(), &map.told)) } }
            div {
                @match last {
                    None => { h2 { (say::LAST_SURVEY) } p { (say::NO_LAST) } },
                    Some((survey, read)) => { h2 { (say::last_survey(survey.on)) } @for map in of_map::pictures(survey, read) { (boiler_map::picture(map.svg(), &map.told)) } },
                }
            }
        }
        @for said in of_map::SURVEY_CAUTIONS { p class="small quiet" { (said) } }
    }
}

/// The way to this page for a component, with what it is of filled in.
pub fn way(number: &str, component: &str) -> Markup {
    html! { a href=(format!("{PATH}?engine={}&component={}", kit::encode(number), kit::encode(component))) { (say::FROM_FILE) } }
}
