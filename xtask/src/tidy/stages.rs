//! The order of work inside the crate `shop`: a stage uses the stages above it and never one below, and
//! values of the law and values of physics meet in three places only, so there are three places to audit.

use super::Problem;
use super::rust_text::{RustText, in_name, line_of, words};
use super::tree::Tree;

/// The stages, in the order of the work.
const STAGES: &[&str] = &[
    "book",
    "locomotive",
    "lathe",
    "clock",
    "inspection",
    "finding",
    "verdict",
    "boiler_work",
    "route",
    "decision",
    "design",
    "job",
    "proof",
    "record",
    "report",
];

/// Worked sheets that cite the law: they may use every stage, and only reports may use them.
const RULED: &str = "ruled";

/// Stages that look back over the whole of the work.
const MAY_USE_ALL: &[&str] = &["record", "report"];

/// Where a value of `rules` may stand beside a value of `physics`.
const WHERE_LAW_MEETS_PHYSICS: &[&str] = &["verdict", "route", RULED];

/// Both promises, over every file of the crate.
pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.rust() {
        let Some(within) = path.strip_prefix("crates/shop/src/") else {
            continue;
        };
        let code = RustText::of(text).code;
        let stage = within
            .split('/')
            .next()
            .map(|name| name.strip_suffix(".rs").unwrap_or(name))
            .unwrap_or_default();
        if stage != "lib" {
            for (at, used) in uses(&code, depth(within)) {
                if let Some(sentence) = objection(stage, &used) {
                    problems.push(Problem::new(path, line_of(&code, at), sentence));
                }
            }
        }
        if let (Some(physics), Some(rules)) =
            (names_crate(&code, "physics"), names_crate(&code, "rules"))
            && !WHERE_LAW_MEETS_PHYSICS.contains(&stage)
        {
            let line = line_of(&code, physics.max(rules));
            problems.push(Problem::new(
                path,
                line,
                "`physics` and `rules` meet here; they may meet only in verdict, route and ruled",
            ));
        }
    }
    problems
}

/// Why `stage` may not use `used`, if it may not.
fn objection(stage: &str, used: &str) -> Option<String> {
    let place = |name: &str| STAGES.iter().position(|known| *known == name);
    if used == "*" {
        return Some("`crate::*` hides which stages are used; name them".to_owned());
    }
    if stage == used || (used != RULED && place(used).is_none()) {
        return None;
    }
    if used == RULED {
        return (stage != "report").then(|| format!("`{stage}` uses `ruled`; only `report` may"));
    }
    if stage == RULED || MAY_USE_ALL.contains(&stage) {
        return None;
    }
    match (place(stage), place(used)) {
        (Some(here), Some(there)) if there < here => None,
        (Some(_), _) => Some(format!(
            "`{stage}` uses `{used}`, a stage below it; a stage uses stages above it only"
        )),
        (None, _) => Some(format!(
            "`{stage}` is no stage, yet uses the stage `{used}`; put it inside a stage, or give it a place in the order"
        )),
    }
}

/// How many modules deep a file stands: `clock.rs` and `clock/mod.rs` one, `clock/due.rs` two.
fn depth(within: &str) -> usize {
    let parts = within.split('/').count();
    if within.ends_with("/mod.rs") {
        parts - 1
    } else {
        parts
    }
}

/// How many `mod name { .. }` blocks of the file itself stand around an offset.
fn inline_modules(code: &str, at: usize) -> usize {
    let mut open: Vec<bool> = Vec::new();
    for (offset, c) in code[..at].char_indices() {
        match c {
            '{' => {
                let mut before = code[..offset].split_whitespace().rev().skip(1);
                open.push(before.next() == Some("mod"));
            }
            '}' => {
                open.pop();
            }
            _ => {}
        }
    }
    open.into_iter().filter(|is_module| *is_module).count()
}

/// The modules at the top of the crate that the code names through `crate::` or through enough `super::`s
/// to reach the top, each with where it is named.
fn uses(code: &str, depth: usize) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for at in words(code, "crate") {
        named_after(code, at + "crate".len(), &mut found);
    }
    for at in words(code, "super") {
        if code[..at].trim_end().ends_with("super::") {
            continue;
        }
        let mut end = at + "super".len();
        let mut supers = 1;
        while let Some(rest) = code[end..].strip_prefix("::super") {
            end = code.len() - rest.len();
            supers += 1;
        }
        if supers >= depth + inline_modules(code, at) {
            named_after(code, end, &mut found);
        }
    }
    found
}

/// Reads what follows a path's start: `::name`, `::*` or `::{name::.., name}`.
fn named_after(code: &str, end: usize, found: &mut Vec<(usize, String)>) {
    let Some(rest) = code[end..].strip_prefix("::") else {
        return;
    };
    let start = code.len() - rest.len();
    if !rest.starts_with('{') {
        found.extend(name_at(code, start));
        return;
    }
    let mut nested = 0;
    for (offset, c) in rest.char_indices() {
        match c {
            '{' => nested += 1,
            '}' => nested -= 1,
            _ => {}
        }
        if nested == 0 {
            return;
        }
        if nested == 1 && (c == '{' || c == ',') {
            let item = start + offset + 1;
            let blanks = code[item..].len() - code[item..].trim_start().len();
            found.extend(name_at(code, item + blanks));
        }
    }
}

/// The name (or `*`) that stands at an offset.
fn name_at(code: &str, at: usize) -> Option<(usize, String)> {
    let rest = &code[at..];
    if rest.starts_with('*') {
        return Some((at, "*".to_owned()));
    }
    let name: String = rest.chars().take_while(|c| in_name(*c)).collect();
    (!name.is_empty()).then_some((at, name))
}

/// Where a file first names another crate as a path (`rules::`, `use rules;`, `use rules as`).
fn names_crate(code: &str, name: &str) -> Option<usize> {
    words(code, name).find(|at| {
        let before = code[..*at].trim_end();
        let after = &code[at + name.len()..];
        let own_module = before.ends_with("::") && !before.ends_with("use ::");
        !own_module
            && (after.starts_with("::")
                || (before.ends_with("use") && after.trim_start().starts_with([';', 'a'])))
    })
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    fn in_shop(path: &str, text: &str) -> Vec<String> {
        says(check, &[(&format!("crates/shop/src/{path}"), text)])
    }

    #[test]
    fn a_stage_uses_stages_above_it() {
        assert!(
            in_shop(
                "finding.rs",
                "use crate::inspection::Item;\nuse crate::{book, clock::Due};"
            )
            .is_empty()
        );
        assert!(
            in_shop(
                "finding/take.rs",
                "use super::Finding;\nuse crate::finding::Reading;"
            )
            .is_empty()
        );
        assert!(in_shop("record.rs", "use crate::report::Line;").is_empty());
        assert!(in_shop("lib.rs", "pub use crate::report::Line;").is_empty());
    }

    #[test]
    fn never_one_below() {
        let expected = "crates/shop/src/finding.rs:2: `finding` uses `verdict`, a stage below it; a stage uses stages above it only";
        assert_eq!(
            in_shop("finding.rs", "\nuse crate::verdict::Verdict;"),
            [expected]
        );
        assert_eq!(
            in_shop(
                "finding.rs",
                "use crate::{\nverdict::{self, Verdict}, book};"
            ),
            [expected]
        );
        assert_eq!(
            in_shop("finding.rs", "\nfn f() -> super::verdict::Verdict {}"),
            [expected]
        );
        assert_eq!(
            in_shop("finding/take.rs", "use super::super::verdict::V;").len(),
            1
        );
        assert_eq!(in_shop("finding/mod.rs", "use super::verdict::V;").len(), 1);
    }

    #[test]
    fn comments_and_neighbours_names_are_no_use() {
        assert!(
            in_shop(
                "finding.rs",
                "// see crate::verdict\nuse crate::verdict_words::X;"
            )
            .is_empty()
        );
        assert!(in_shop("finding.rs", "fn f() { let s = \"crate::verdict\"; }").is_empty());
        assert!(
            in_shop(
                "finding/take.rs",
                "use super::verdict::V; // a child of finding"
            )
            .is_empty()
        );
        assert!(in_shop("finding.rs", "use crate::{book::{verdict, X}};").is_empty());
    }

    #[test]
    fn sheets_that_cite_law_are_used_by_reports_only() {
        assert!(in_shop("report.rs", "use crate::ruled::sheet;").is_empty());
        assert!(in_shop("ruled.rs", "use crate::report::Line;").is_empty());
        for stage in ["record", "verdict"] {
            assert!(
                in_shop(&format!("{stage}.rs"), "use crate::ruled::sheet;")[0]
                    .ends_with("only `report` may")
            );
        }
    }

    #[test]
    fn no_back_doors() {
        assert!(in_shop("helpers.rs", "use crate::report::Line;")[0].contains("is no stage"));
        assert!(in_shop("helpers.rs", "use crate::ruled::sheet;")[0].contains("only `report` may"));
        assert!(in_shop("clock.rs", "use crate::*;")[0].contains("name them"));
        assert!(in_shop("clock.rs", "use super::*;")[0].contains("name them"));
    }

    #[test]
    fn a_module_inside_the_file_is_one_step_deeper() {
        let tests = |inside: &str| {
            in_shop(
                "clock.rs",
                &format!("fn f() {{}}\n#[cfg(test)]\nmod tests {{\n fn g() {{}}\n {inside} }}"),
            )
        };
        assert!(tests("use super::*;").is_empty());
        assert!(tests("use super::report;").is_empty());
        assert_eq!(tests("use super::super::report;").len(), 1);
        assert!(tests("use crate::report;")[0].starts_with("crates/shop/src/clock.rs:5: "));
    }

    #[test]
    fn law_meets_physics_in_three_places() {
        let both = "use physics::Sheet;\nuse rules::Ruling;";
        for place in ["verdict.rs", "route/cost.rs", "ruled/mod.rs"] {
            assert!(in_shop(place, both).is_empty(), "{place}");
        }
        assert_eq!(
            in_shop("design.rs", both),
            [
                "crates/shop/src/design.rs:2: `physics` and `rules` meet here; they may meet only in verdict, route and ruled"
            ]
        );
        assert!(in_shop("design.rs", "use physics as p;\nfn f(r: &rules::Ruling) {}").len() == 1);
        assert!(in_shop("design.rs", "use physics::Sheet; // not rules::Ruling").is_empty());
        assert!(in_shop("design.rs", "use physics::Sheet;\nlet rules = 3;").is_empty());
    }
}
