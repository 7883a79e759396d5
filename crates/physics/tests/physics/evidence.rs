//! Every row of evidence is run, and no row is wider than its source allows.

use physics::{Grade, catalogue, evidence, evidence_matrix, reasons};
use std::collections::BTreeSet;

/// The rows of the sheets whose names begin with `group`: each holds, or is a stated disagreement. Group by group, so that
/// the groups are worked beside each other.
fn every_row_holds_or_is_a_stated_disagreement(group: &str) {
    let rows = evidence().unwrap();
    let rows: Vec<_> = rows
        .iter()
        .filter(|row| row.law.split('.').next() == Some(group))
        .collect();
    assert!(!rows.is_empty(), "no rows of {group}");
    let mut failures = Vec::new();
    for row in &rows {
        let place = format!(
            "{} line {} {:?} {}",
            row.law, row.line, row.inputs, row.result
        );
        match row.check() {
            Err(e) => failures.push(format!("{place}: {e}")),
            Ok(checked) if row.is_disagreement() == checked.within => failures.push(format!(
                "{place}: ours {}, printed {}, apart {}, stated disagreement: {}",
                checked.ours,
                row.printed,
                checked.difference,
                row.is_disagreement()
            )),
            Ok(_) => {}
        }
    }
    assert!(
        failures.is_empty(),
        "{} of {}:\n{}",
        failures.len(),
        rows.len(),
        failures.join("\n")
    );
}

macro_rules! rows_hold {
    ($($group:ident)*) => {
        /// One test for each group of sheets.
        mod rows_hold {
            $(#[test]
            fn $group() {
                super::every_row_holds_or_is_a_stated_disagreement(stringify!($group));
            })*
        }

        const GROUPS: &[&str] = &[$(stringify!($group)),*];
    };
}

rows_hold!(seat valve gauge fit lathe thread screw steam boiler running air wear cast joint);

#[test]
fn no_group_of_sheets_is_left_out() {
    for entry in catalogue() {
        let group = entry.card.id.split('.').next().unwrap();
        assert!(
            GROUPS.contains(&group),
            "{}: name its group above",
            entry.card.id
        );
    }
}

/// What nothing published or independent holds has its reason on file, what has been proved has none, and a sheet of which no
/// published value was found says why.
#[test]
fn what_is_unproven_says_why() {
    let reasons = reasons().unwrap();
    let rows = evidence().unwrap();
    let mut wrong = Vec::new();
    // Every name of a reason must stand for something: what was proved since is to be struck out.
    let mut used: Vec<BTreeSet<&str>> = vec![BTreeSet::new(); reasons.len()];
    for entry in catalogue() {
        let id = entry.card.id;
        let unproven = |grade: Option<Grade>| !grade.is_some_and(Grade::proves);
        for ((result, case), grade) in evidence_matrix(id).unwrap() {
            let of: Vec<usize> = (0..reasons.len())
                .filter(|at| reasons[*at].law == id && reasons[*at].is_about(result, case))
                .collect();
            match of.as_slice() {
                [] if unproven(grade) => wrong.push(format!(
                    "{id}: {result} ({case}) is unproven without a reason"
                )),
                [one] if unproven(grade) => used[*one].extend([result, case]),
                [_, ..] if unproven(grade) => {
                    wrong.push(format!("{id}: {result} ({case}) has two reasons"))
                }
                _ => {}
            }
        }
        let published = rows
            .iter()
            .any(|row| row.law == id && row.grade == Grade::Published && !row.is_disagreement());
        let of_sheet =
            (0..reasons.len()).find(|at| reasons[*at].law == id && reasons[*at].is_of_the_sheet());
        match (published, of_sheet) {
            (false, None) => wrong.push(format!("{id}: no published value and no reason")),
            (false, Some(at)) => used[at].extend(["published"]),
            (true, _) => {}
        }
    }
    for (reason, used) in reasons.iter().zip(used) {
        let place = format!("{} line {}", reason.law, reason.line);
        if used.is_empty() || reason.why.len() < 30 {
            wrong.push(format!(
                "{place}: of nothing that is unproven, or too short"
            ));
        }
        for name in reason.names().filter(|name| !used.contains(name)) {
            wrong.push(format!("{place}: nothing of {name} is unproven"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn published_rows_say_where_and_are_no_wider_than_half_their_last_digit() {
    for row in evidence().unwrap() {
        let place = format!("{} line {}", row.law, row.line);
        if row.grade.proves() {
            assert!(
                !row.source.is_empty() && !row.locator.is_empty(),
                "{place}: no source"
            );
        }
        if row.grade == Grade::Published {
            let widest = row.half_last_digit() * (1.0 + 1e-9);
            assert!(
                row.tolerance.is_some_and(|t| t <= widest),
                "{place}: wider than {widest}"
            );
        }
        if row.grade == Grade::Independent {
            let versioned = row.source.chars().any(|c| c.is_ascii_digit());
            assert!(versioned, "{place}: name the library's version");
        }
        if row.is_disagreement() {
            assert!(row.note.len() > 40, "{place}: say why");
        }
    }
}

#[test]
fn every_branch_is_reached_and_the_matrix_is_whole() {
    for entry in catalogue() {
        let card = entry.card;
        let matrix = evidence_matrix(card.id).unwrap();
        assert_eq!(matrix.len(), card.results.len() * card.branches.len());
        for row in evidence().unwrap().iter().filter(|row| row.law == card.id) {
            let branch = row.check().unwrap().branch;
            assert!(card.branches.contains(&branch), "{}: {branch}", card.id);
        }
    }
}
