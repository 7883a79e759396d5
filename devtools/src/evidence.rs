//! `evidence`: for each sheet, every result in every case with the best proof it has.

use physics::{Grade, Matrix, catalogue, evidence, evidence_matrix};

use crate::Stop;
use crate::columns::columns;

/// What nothing better than practice, memory or our own output holds.
const UNPROVEN: &str = "unproven";

/// The table of every sheet, the disagreements on file, and a count.
///
/// # Errors
/// A fault where the evidence of a sheet does not read or cannot be worked.
pub fn table() -> Result<String, Stop> {
    let rows = evidence().map_err(Stop::fault)?;
    let (mut text, mut proved, mut all) = (String::new(), 0, 0);
    for entry in catalogue() {
        let card = entry.card;
        let matrix = evidence_matrix(card.id).map_err(Stop::fault)?;
        proved += matrix.values().filter(|grade| proves(**grade)).count();
        all += matrix.len();
        let of_law = rows.iter().filter(|row| row.law == card.id);
        let (kept, held) = of_law.fold((0, 0), |(kept, held), row| {
            (kept + usize::from(row.is_disagreement()), held + 1)
        });
        text.push_str(&format!("{}: {}\n", card.id, card.title));
        text.push_str(&sheet(&matrix));
        text.push_str(&format!(
            "  {held} rows of evidence, {kept} kept as disagreements\n\n"
        ));
    }
    text.push_str(&format!(
        "{proved} of {all} results and cases are held by a published or independent value; the rest \
         are {UNPROVEN}.\n"
    ));
    Ok(text)
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
    fn every_sheet_stands_in_the_table() {
        let told = super::table().map_err(|stop| stop.why).unwrap();
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
