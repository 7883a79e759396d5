//! Names that look like a mistyped one, so that a refusal can offer them.

/// The number of single-letter insertions, removals and changes between two words.
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut next = vec![i + 1];
        let mut corner = i;
        let mut left = i + 1;
        for (cb, above) in b.iter().zip(row.iter().skip(1)) {
            let best = (corner + usize::from(ca != *cb))
                .min(above + 1)
                .min(left + 1);
            corner = *above;
            left = best;
            next.push(best);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

/// Up to three of `names` that resemble `asked`, nearest first: those that contain it, or its last part, and
/// those a few letters away.
pub(crate) fn near<'a>(asked: &str, names: impl Iterator<Item = &'a str>) -> Vec<String> {
    let asked = asked.to_lowercase();
    let mut scored: Vec<(usize, &str)> = names
        .filter_map(|name| {
            let far = distance(&asked, name);
            let holds = !asked.is_empty() && name.contains(&asked);
            let score = if holds { 0 } else { far };
            (holds || far <= 2.max(name.len() / 4)).then_some((score, name))
        })
        .collect();
    scored.sort_unstable();
    scored
        .into_iter()
        .take(3)
        .map(|(_, name)| name.to_owned())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_a_letter_and_a_part_of_a_name_are_both_found() {
        let names = [
            "us-steam.clock.31",
            "us-steam.clock.92",
            "us-steam.crosshead.vertical",
        ];
        assert_eq!(
            near("us-steam.clok.31", names.into_iter())
                .first()
                .map(String::as_str),
            Some("us-steam.clock.31")
        );
        assert_eq!(
            near("crosshead", names.into_iter()),
            ["us-steam.crosshead.vertical"]
        );
        assert!(near("firebox", names.into_iter()).is_empty());
        assert!(near("", names.into_iter()).is_empty());
    }

    #[test]
    fn the_distance_is_that_of_the_letters() {
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
        assert_eq!(distance("abc", "abc"), 0);
    }
}
