//! A list of parts from a file: which fields its form asks, and what its lines say of themselves.

use maud::html;
use shop::book::BatchId;
use shop::locomotive::engines;
use store::Receipt;

use super::lines::{self, Fates, File, Lines, Names, batches, came_in, stood};
use super::page::{Drawn, View, kit};
use crate::verb::part_file::{Fate, Plan};
use crate::words::{self, log, part_list as say};
use crate::{Context, Failure};

/// The path of the page.
pub const PATH: &str = "/parts/import";

/// The page that asks for a file, and lists what came in.
pub fn draw(view: &View<'_>) -> Drawn {
    let all = engines(view.book);
    let (of, sheet) = (stood::<Plan>(view, "engine"), stood::<Plan>(view, "sheet"));
    let body = html! {
        h1 { (say::TITLE) }
        @if let Some(said) = came_in(view) {
            (said)
            @if let [(_, kept)] = all.as_slice() { p { a href=(format!("/engine/{}", kit::encode(&kept.number))) { (words::engine(&kept.number)) } } }
        }
        p class="lead" { (say::TAKES) }
        form class="act" method="post" action=(PATH) enctype="multipart/form-data" {
            label for="file" { (log::FILE) }
            input type="file" id="file" name="file" accept=".csv,.txt,.tsv,.xlsx" required;
            label for="engine" { (say::ENGINE_OF_ALL) }
            select id="engine" name="engine" {
                option value="" { (say::EACH_NAMES_ONE) }
                @for (_, kept) in &all { option value=(kept.number) selected[kept.number == of] { (words::engine(&kept.number)) } }
            }
            label for="sheet" { (log::SHEET) }
            input type="text" id="sheet" name="sheet" value=(sheet) autocomplete="off";
            p class="quiet small" { (log::CHANGES_NOTHING) }
            button { (log::SHOW_FATES) }
        }
        h2 { (say::SUCH_AS) }
        div class="table" { table class="stack" {
            thead { tr { @for column in say::COLUMNS { th { (column) } } } }
            tbody { @for line in say::LINES { tr { @for (column, cell) in say::COLUMNS.iter().zip(line) {
                td data-label=(column) { (cell) }
            } } } }
        } }
        details { summary { (say::FAMILIES) }
            dl class="facts" { @for (word, kept) in &view.book.families { @if let Ok(family) = kept.family() { dt { (word) } dd { (family.title) } } } }
        }
        (batches(view))
    };
    Drawn::new("/", say::TITLE, body)
}

impl Lines for Plan {
    const PATH: &'static str = PATH;
    const VERB: &'static str = "parts";
    const NAMES: Names = Names {
        of: say::PART,
        save_it: say::SAVE_IT,
        nothing_new: say::NOTHING_NEW,
        another: say::ANOTHER,
    };

    fn of(context: &mut Context, file: &File) -> Result<Plan, Failure> {
        let (engine, sheet) = (file.told.engine.as_deref(), file.told.sheet.as_deref());
        Plan::of_file(context, &file.name, &file.bytes, engine, sheet)
    }

    fn mark(&self) -> String {
        self.mark()
    }

    fn save(
        &self,
        context: &mut Context,
        leave_out: bool,
    ) -> Result<Option<(Receipt, BatchId)>, Failure> {
        self.save(context, leave_out)
    }

    fn fates(&self) -> Fates<'_> {
        let [adds, tells, _, refused] = self.counts();
        let lines = self.lines.iter().map(|line| lines::Fate {
            place: line.place,
            engine: &line.engine,
            of: line.part.clone(),
            told: line.told(),
            refused: matches!(line.fate, Fate::Refused(_)),
        });
        Fates {
            sum: say::sum(self.counts()),
            adds: Vec::new(),
            not_read: &self.not_read,
            news: adds + tells > 0,
            refused,
            lines: lines.collect(),
            together: None,
        }
    }
}
