//! Welding and riveting on a boiler: what the law asks, in the order of the work.

use shop::boiler_work::{Before, Question, Stage};

/// The page.
pub const TITLE: &str = "Welding and riveting on a boiler";
/// What it is.
pub const LEAD: &str = "What the law asks before, while and after a boiler is welded or riveted: approval, standard, tests, report. An answer left out is never read as one that helps: what hangs on it is told with its question.";
/// A link to it.
pub const LINK: &str = "Welding and riveting on a boiler: approval first, tests and report after";
/// The form.
pub const ASKED: &str = "What is known of the work";
/// Its button.
pub const ASK: &str = "Ask";
/// Before it is asked.
pub const FILL_IN: &str = "Answer what is known, and ask. Leave out what is not.";
/// Whose law.
pub const WHOSE: &str =
    "us-steam, 49 CFR Part 230. Another code or authority may ask more: ask them too.";
/// Who signs the report.
pub const SIGNER: &str =
    "The text names nobody who signs Form 19: it is the owner's or operator's to file.";
/// An answer not given.
pub const NOT_KNOWN: &str = "not known";
/// A column.
pub const ASKS: &str = "What is asked";
/// A column.
pub const STANDS_IN: &str = "Stands in";
/// A duty that holds.
pub const HOLDS: &str = "holds";
/// A section.
pub const OPEN: &str = "Not told, and it decides";
/// Careful.
pub const CAUTION: &str = "Welding and riveting on a boiler belong to qualified people under an accepted code, with papers of procedure, welder and plate. Hot work: permit, fire watch, air. This program approves nothing.";

/// The head of a stage.
pub fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Never => "Not at all",
        Stage::Approval => "Approved first",
        Stage::Standard => "While it is done",
        Stage::Test => "Tested before she goes back",
        Stage::Report => "Reported",
        Stage::Keep => "Kept",
    }
}

/// What comes before the work, in a line.
pub fn before(before: &Before) -> String {
    match before {
        Before::Forbidden => "Not to be done: the rule forbids it.".into(),
        Before::Approval => "Approval first: nothing is struck before it is in hand.".into(),
        Before::NoApproval => {
            "No approval is asked beforehand by the rules on file; the duties below hold.".into()
        }
        Before::CannotTell(open) => {
            let open: Vec<&str> = open.iter().map(|it| it.asks()).collect();
            format!("Cannot tell: needs {}.", open.join("; "))
        }
    }
}

/// What a duty hangs on.
pub fn hangs_on(open: &[Question]) -> String {
    let open: Vec<&str> = open.iter().map(|it| it.asks()).collect();
    format!("unless it is told: {}", open.join("; "))
}

/// The days in which a paper goes, and to whom.
pub fn goes(span: Option<String>, to: &str) -> String {
    match span {
        Some(span) => format!("within {span}, to {to}"),
        None => to.to_string(),
    }
}

/// A field.
pub const ENGINE: &str = "Engine: her pressure gives that of the water test";

/// An engine under other rules.
pub fn not_her_law(number: &str) -> String {
    format!(
        "No. {number} is not under us-steam, and no other rule on welding or riveting a boiler is on file: ask her authority."
    )
}

/// The pressure that a test is made at, by her own figure.
pub fn at_pressure(number: &str, mawp: u32, pressure: &str) -> String {
    format!("No. {number}, allowed {mawp} psi: {pressure}")
}
