//! Days out of use that lengthen a clock of Part 229. Part 230 gives no such credit, and no clock of a steam
//! locomotive comes here: the rule's file says which clocks do.

use jiff::civil::Date;

use crate::book::Spell;

/// The days by which a test's interval grows, as known on a day.
///
/// Spells that touch or overlap are one. Of each, the days after the test count, to and including `on`, if
/// they are at least `least_days` in a row. That the days *after the test* must themselves be so many, where a
/// spell began before it, is our reading (inference): 229.33 (2015 edition) speaks of periods of at least 30
/// days since the test.
///
/// # Arguments
/// `least_days`: the shortest spell that counts, in days. `since`: the day of the test, which is not counted.
pub fn credit(spells: &[Spell], least_days: u32, since: Date, on: Date) -> u32 {
    let mut whole: Vec<(Date, Date)> = spells
        .iter()
        .map(|spell| (spell.from, spell.through.min(on)))
        .filter(|(from, through)| from <= through)
        .collect();
    whole.sort_unstable();
    let mut joined: Vec<(Date, Date)> = Vec::new();
    for (from, through) in whole {
        match joined.last_mut() {
            Some((_, end)) if end.tomorrow().is_ok_and(|next| from <= next) => {
                *end = through.max(*end);
            }
            _ => joined.push((from, through)),
        }
    }
    joined
        .into_iter()
        .map(|(from, through)| {
            let from = since.tomorrow().map_or(from, |next| from.max(next));
            let days = from.until(through).map_or(-1, |span| span.get_days()) + 1;
            u32::try_from(days).unwrap_or(0)
        })
        .filter(|days| *days >= least_days)
        .sum()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::book::PersonId;

    fn spell(from: Date, days: i64) -> Spell {
        Spell {
            from,
            through: rules::days_after(from, days - 1).unwrap(),
            told: "in the back bay".into(),
            by: PersonId(1),
        }
    }

    /// 229.33 (2015 edition): one or more periods of at least 30 consecutive days, each with all its days.
    #[test]
    fn whole_spells_of_thirty_days_count_and_shorter_ones_do_not() {
        let (test, on) = (date(2025, 1, 1), date(2026, 1, 1));
        let of = |spells: &[Spell]| credit(spells, 30, test, on);
        let june = date(2025, 6, 1);
        assert_eq!(of(&[spell(june, 47)]), 47);
        assert_eq!(of(&[spell(june, 30)]), 30);
        assert_eq!(of(&[spell(june, 29)]), 0);
        assert_eq!(of(&[spell(june, 29), spell(date(2025, 9, 1), 29)]), 0);
        assert_eq!(of(&[spell(june, 30), spell(date(2025, 9, 1), 31)]), 61);
        // Attested in two pieces that touch, or that overlap: one spell.
        assert_eq!(of(&[spell(june, 20), spell(date(2025, 6, 21), 20)]), 40);
        assert_eq!(of(&[spell(june, 20), spell(date(2025, 6, 11), 20)]), 30);
        // A day of use between them breaks it.
        assert_eq!(of(&[spell(june, 20), spell(date(2025, 6, 22), 20)]), 0);
    }

    /// Inference: of a spell that began before the test only the days after it count, and they must be 30.
    #[test]
    fn a_spell_begun_before_the_test_counts_only_from_the_day_after() {
        let spells = [spell(date(2025, 6, 1), 60)];
        let of = |test| credit(&spells, 30, test, date(2026, 1, 1));
        assert_eq!(of(date(2025, 5, 31)), 60);
        assert_eq!(of(date(2025, 6, 1)), 59);
        assert_eq!(of(date(2025, 6, 30)), 30);
        assert_eq!(of(date(2025, 7, 1)), 0);
        assert_eq!(of(date(2025, 9, 1)), 0);
    }

    #[test]
    fn days_after_the_day_asked_about_are_not_known_yet() {
        let spells = [spell(date(2025, 6, 1), 60)];
        let of = |on| credit(&spells, 30, date(2025, 1, 1), on);
        assert_eq!(of(date(2025, 6, 29)), 0);
        assert_eq!(of(date(2025, 6, 30)), 30);
        assert_eq!(of(date(2025, 7, 1)), 31);
    }
}
