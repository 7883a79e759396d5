//! Every row of evidence is run, and no row is wider than its source allows.

use physics::{Grade, catalogue, evidence, evidence_matrix};

#[test]
fn every_row_holds_or_is_a_stated_disagreement() {
    let rows = evidence().unwrap();
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
