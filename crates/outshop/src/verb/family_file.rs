//! `family check` and `family adopt`: a family of parts that a shop wrote, looked over, and taken into the book.

use clap::{Args, Subcommand};
use rules::Rulebook;
use serde::Deserialize;
use serde_json::json;
use shop::book::{Book, Family as Kind};
use shop::route::{adopt_family, read_family};

use super::rule::book_if_named;
use super::rule_file::text_of;
use super::saved;
use crate::{Answer, Context, Failure, words};

/// Families of parts that the shop writes itself: docs/family-files.md.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// Read the file of a family, name every fault with its line, and tell what it holds; changes nothing.
    Check(File),
    /// Take the file of a family into the book, as an officer.
    Adopt(File),
}

/// A file.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    /// The file, as docs/family-files.md tells.
    pub file: String,
}

impl Family {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Family::Check(it) => it.check(context),
            Family::Adopt(it) => it.adopt(context),
        }
    }
}

impl File {
    fn check(&self, context: &mut Context) -> Result<Answer, Failure> {
        let text = text_of(&self.file)?;
        let (rules, book) = (context.rules()?, book_if_named(context)?);
        let family = read_family(&book, rules, &self.file, &text)
            .map_err(|no| Failure::Input(no.to_string()))?;
        let mut told = format!(
            "{}: no fault found\n{}, version {}: {}\n",
            self.file, family.family, family.version, family.title
        );
        told.push_str(&limits_and_routes(&family));
        told.push_str(&format!("{}\n", in_the_book(&book, &family)));
        told.push_str(&format!("Nothing was changed. {}\n", words::STANDING));
        Ok(Answer::done(told, value(&family)))
    }

    fn adopt(&self, context: &mut Context) -> Result<Answer, Failure> {
        let text = text_of(&self.file)?;
        let rules: &Rulebook = context.rules()?;
        let receipt = context
            .save(|book, by, on| adopt_family(book, rules, (&self.file, &text), (by, on)))?;
        let book = context.book()?;
        let family =
            Kind::read(&text).map_err(|why| Failure::Machine(words::sentence(&why.to_string())))?;
        let parts = book.parts.values();
        let of_it = parts.filter(|part| part.family == family.family).count();
        let told = format!(
            "The family {}, version {}, is in the book; {} of it.",
            family.family,
            family.version,
            words::count(of_it, "part is", "parts are")
        );
        Ok(saved(&receipt, told, value(&family)))
    }
}

fn value(family: &Kind) -> serde_json::Value {
    json!({
        "family": family.family, "version": family.version, "title": family.title,
        "features": family.features.iter().map(|it| &it.name).collect::<Vec<_>>(),
        "routes": family.routes.iter().map(|it| json!({ "route": it.word, "sheets": family.sheets_of(it) })).collect::<Vec<_>>(),
        "faults": [],
    })
}

/// Limits and routes of a family, a line each.
pub(super) fn limits_and_routes(family: &Kind) -> String {
    let mut told = String::new();
    for limit in &family.limits {
        let rule = limit.rule.as_ref().map(|rule| format!(" ({rule})"));
        told.push_str(&format!(
            "  limit of the {}: {}{}\n",
            limit.whose.word(),
            limit.title,
            rule.unwrap_or_default()
        ));
    }
    for route in &family.routes {
        told.push_str(&format!("  {}: {}\n", route.word, route.title));
        if route.carries {
            continue;
        }
        let [low, likely, high] = route.hours();
        told.push_str(&format!("    hours {low}, likely {likely}, up to {high}\n"));
        let sheets = family.sheets_of(route);
        if !sheets.is_empty() {
            told.push_str(&format!("    sheets {}\n", sheets.join(", ")));
        }
        let moved = route
            .knock_ons
            .iter()
            .filter_map(|word| family.knock_on(word));
        let moved: Vec<&str> = moved.map(|it| it.title.as_str()).collect();
        if !moved.is_empty() {
            told.push_str(&format!(
                "    moves {}\n",
                super::wrap(&moved.join("; "), 4, 100)
            ));
        }
    }
    told
}

fn in_the_book(book: &Book, family: &Kind) -> String {
    match book.families.get(&family.family) {
        None => "It is not in this book. To take it in: family adopt FILE".into(),
        Some(kept) if kept.version < family.version => format!(
            "The book has it in version {}; this would take its place.",
            kept.version
        ),
        Some(kept) => format!(
            "The book has it in version {}; a higher version is needed to take its place.",
            kept.version
        ),
    }
}
