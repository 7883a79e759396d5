//! A log from a file: which fields its form asks, and what its lines say of themselves.

use maud::html;
use shop::book::BatchId;
use shop::clock;
use store::Receipt;

use super::lines::{Fate, Fates, File, Lines, Names, batches, came_in, stood};
use super::page::{Drawn, View};
use crate::verb::import::{Plan, tell};
use crate::words::{self, log as say};
use crate::{Context, Failure};

/// The path of the page.
pub const PATH: &str = "/log/import";

/// The page that asks for a file, and lists what came in.
pub fn draw(view: &View<'_>) -> Drawn {
    let filled = |name: &str| stood::<Plan>(view, name);
    let order = filled("dates");
    let body = html! {
        h1 { (say::FROM_FILE) }
        @if let Some(said) = came_in(view) { (said) }
        p class="lead" { (say::TAKES) }
        form class="act" method="post" action=(PATH) enctype="multipart/form-data" {
            label for="file" { (say::FILE) }
            input type="file" id="file" name="file" accept=".csv,.txt,.tsv,.xlsx" required;
            label for="engine" { (say::ENGINE_OF_ALL) }
            input type="text" id="engine" name="engine" value=(filled("engine")) autocomplete="off";
            label for="dates" { (say::ORDER) }
            select id="dates" name="dates" {
                @for (word, name) in ORDERS { option value=(word) selected[*word == order] { (name) } }
            }
            label for="sheet" { (say::SHEET) }
            input type="text" id="sheet" name="sheet" value=(filled("sheet")) autocomplete="off";
            p class="quiet small" { (say::CHANGES_NOTHING) }
            button { (say::SHOW_FATES) }
        }
        (batches(view))
    };
    Drawn::new("/", say::FROM_FILE, body)
}

/// The choices of an order of day and month.
const ORDERS: &[(&str, &str)] = &[
    ("", say::NO_ORDER),
    ("day-month", say::DAY_MONTH),
    ("month-day", say::MONTH_DAY),
];

impl Lines for Plan {
    const PATH: &'static str = PATH;
    const VERB: &'static str = "import";
    const NAMES: Names = Names {
        of: say::DAY,
        save_it: say::SAVE_IT,
        nothing_new: say::NOTHING_NEW,
        another: say::FROM_FILE,
    };

    fn of(context: &mut Context, file: &File) -> Result<Plan, Failure> {
        Plan::of_file(context, &file.name, &file.bytes, &file.told)
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
        let [taken, _, _, refused] = self.counts();
        let adds = self.adds.iter();
        let lines = self.lines.iter().map(|line| Fate {
            place: line.place,
            engine: &line.engine,
            of: line.day.map_or("-".to_string(), words::day),
            told: tell(line),
            refused: matches!(line.fate, clock::Fate::Refused(_)),
        });
        Fates {
            sum: say::sum(self.counts(), self.passed_over),
            adds: adds
                .map(|(number, (days, doubt))| say::adds(number, *days, *doubt))
                .collect(),
            not_read: &self.not_read,
            news: taken > 0,
            refused,
            lines: lines.collect(),
            together: None,
        }
    }
}
