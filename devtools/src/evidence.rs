//! `evidence`: for each sheet, every result in every case with the best proof it has.

use physics::{EvidenceRow, Grade, Matrix, Reason, catalogue, evidence, evidence_matrix, reasons};

use crate::Stop;
use crate::columns::columns;

/// What nothing better than practice, memory or our own output holds.
const UNPROVEN: &str = "unproven";

/// The table of every sheet, the reason for whatever is unproven in it, the disagreements on file, and a count.
///
/// # Errors
/// A fault where the evidence of a sheet does not read or cannot be worked.
pub fn table() -> Result<String, Stop> {
    let rows = evidence().map_err(Stop::fault)?;
    let reasons = reasons().map_err(Stop::fault)?;
    let (mut text, mut proved, mut all, mut without) = (String::new(), 0, 0, 0);
    for entry in catalogue() {
        let card = entry.card;
        let matrix = evidence_matrix(card.id).map_err(Stop::fault)?;
        proved += matrix.values().filter(|grade| proves(**grade)).count();
        all += matrix.len();
        text.push_str(&format!("{}: {}\n", card.id, card.title));
        text.push_str(&sheet(&matrix));
        let of_law: Vec<&EvidenceRow> = rows.iter().filter(|row| row.law == card.id).collect();
        text.push_str(&counted(&of_law));
        let of_law: Vec<&Reason> = reasons
            .iter()
            .filter(|reason| reason.law == card.id)
            .collect();
        for reason in &of_law {
            text.push_str(&format!("  why {}: {}\n", reason.about(), reason.why));
        }
        without += reasonless(&matrix, &of_law);
        text.push('\n');
    }
    text.push_str(&format!(
        "{proved} of {all} results and cases are held by a published or independent value; the rest \
         are {UNPROVEN}, {without} of them without a reason on file.\n"
    ));
    Ok(text)
}

/// How many rows a sheet has of each grade, and how many are kept as disagreements.
fn counted(rows: &[&EvidenceRow]) -> String {
    let kept = rows.iter().filter(|row| row.is_disagreement()).count();
    let by_grade: Vec<String> = Grade::ALL
        .iter()
        .map(|(grade, words)| (rows.iter().filter(|row| row.grade == *grade).count(), words))
        .filter(|(count, _)| *count > 0)
        .map(|(count, words)| format!("{count} {words}"))
        .collect();
    format!(
        "  rows: {}; {kept} kept as disagreements\n",
        by_grade.join(", ")
    )
}

/// How many unproven results of a sheet no reason is about.
fn reasonless(matrix: &Matrix, reasons: &[&Reason]) -> usize {
    let unproven = matrix.iter().filter(|(_, grade)| !proves(**grade));
    unproven
        .filter(|((result, case), _)| !reasons.iter().any(|reason| reason.is_about(result, case)))
        .count()
}

fn proves(grade: Option<Grade>) -> bool {
    grade.is_some_and(Grade::proves)
}

/// The results of one sheet. One that is known alike in every case takes one line.
fn sheet(matrix: &Matrix) -> String {
    let mut results: Vec<&str> = matrix.keys().map(|(result, _)| *result).collect();
    results.dedup();
    let mut rows = Vec::new();
    for result in results {
        let cases: Vec<_> = matrix.iter().filter(|((of, _), _)| *of == result).collect();
        let alike = cases.windows(2).all(|two| match two {
            [(_, one), (_, other)] => one == other,
            _ => true,
        });
        for ((_, branch), grade) in cases.iter().take(if alike { 1 } else { cases.len() }) {
            let case = if alike && cases.len() > 1 {
                "every case"
            } else {
                branch
            };
            let best = grade.map_or("none", Grade::words);
            let mark = if proves(**grade) { "" } else { UNPROVEN };
            rows.push([result, case, best, mark].map(String::from).to_vec());
        }
    }
    columns(&["result", "case", "best proof", ""], &[1, 2, 3], &rows)
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_sheet_stands_in_the_table_and_every_hole_has_its_reason() {
        let told = super::table().map_err(|stop| stop.why).unwrap();
        assert!(told.ends_with(", 0 of them without a reason on file.\n"));
        assert!(told.contains("  why method (every case): "), "{told}");
        for entry in physics::catalogue() {
            assert!(
                told.contains(&format!("{}: ", entry.card.id)),
                "{}",
                entry.card.id
            );
            for result in entry.card.results {
                assert!(told.contains(result.name), "{}", result.name);
            }
        }
    }

    #[test]
    fn a_result_held_by_memory_alone_is_unproven() {
        use physics::Grade;
        let matrix = physics::Matrix::from([
            (("lead", "one"), Some(Grade::Published)),
            (("lead", "two"), Some(Grade::FromMemory)),
            (("depth", "one"), None),
            (("depth", "two"), None),
        ]);
        let lines: Vec<String> = super::sheet(&matrix)
            .lines()
            .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
            .collect();
        let expected = [
            "result case best proof",
            "depth every case none unproven",
            "lead one published",
            "lead two from memory unproven",
        ];
        assert_eq!(lines, expected);
    }
}
