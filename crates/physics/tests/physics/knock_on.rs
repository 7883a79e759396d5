//! What a changed size moves: the graph is whole, and its sheet adds up what a plain walk along it adds up.

use std::collections::BTreeMap;

use crate::typed;
use measure::House;
use physics::law::running_knock_on::{SIZES, relations, share, sizes};
use physics::{Shown, run};
use proptest::prelude::*;

const SHEET: &str = "test";
const RATIOS: [&str; 3] = ["leverage", "close_in", "gear"];

#[test]
fn every_relation_is_between_sizes_that_are_known_and_gives_its_reason() {
    let known: Vec<&str> = sizes(SHEET)
        .unwrap()
        .iter()
        .map(|size| size.id.as_str())
        .collect();
    assert_eq!(known, SIZES);
    let all = relations(SHEET).unwrap();
    assert!(all.len() >= 40, "{} relations", all.len());
    for relation in all {
        assert!(known.contains(&relation.to.as_str()), "{relation:?}");
        assert!(known.contains(&relation.from.as_str()), "{relation:?}");
        assert!(relation.why.len() > 5, "{relation:?}");
        assert!(relation.factor != 0.0, "{relation:?}");
        if let Some(ratio) = &relation.times {
            assert!(RATIOS.contains(&ratio.as_str()), "{relation:?}");
        }
        let twin = all
            .iter()
            .filter(|other| (&other.to, &other.from) == (&relation.to, &relation.from));
        assert_eq!(twin.count(), 1, "{relation:?} stands twice");
    }
}

/// The sizes in an order in which each stands after all that move it.
fn in_order() -> Vec<&'static str> {
    let all = relations(SHEET).unwrap();
    let mut done: Vec<&str> = Vec::new();
    while done.len() < SIZES.len() {
        let ready = SIZES.into_iter().find(|size| {
            let moved_by = all.iter().filter(|relation| relation.to == *size);
            !done.contains(size)
                && moved_by
                    .into_iter()
                    .all(|relation| done.contains(&relation.from.as_str()))
        });
        done.push(ready.unwrap_or_else(|| panic!("the relations go round in a ring")));
    }
    done
}

#[test]
fn nothing_moves_itself() {
    assert_eq!(in_order().len(), SIZES.len());
}

fn told(pairs: &[(&str, &str)], name: &str) -> String {
    match run("running.knock_on", &typed(pairs), House::Inch)
        .unwrap()
        .result(name)
    {
        Some(Shown::Quantity { shown, .. } | Shown::Text(shown)) => shown.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

#[test]
fn a_ratio_that_nobody_gave_is_never_guessed() {
    let ask = |watched| {
        [
            ("changed", "tire-thickness"),
            ("by", "-1/4 in"),
            ("watched", watched),
        ]
    };
    assert_eq!(
        told(&ask("piston-travel"), "moves"),
        "cannot tell: needs leverage"
    );
    assert_eq!(told(&ask("ash-pan-clearance"), "moves"), "-0.2500");
    assert_eq!(
        told(&ask("ash-pan-clearance"), "worst"),
        "cannot tell: needs each"
    );
    assert_eq!(
        told(&ask("ash-pan-clearance"), "way"),
        "tire-thickness, then driving-radius, then axle-height, then box-height, then frame-height, then ash-pan-clearance"
    );
    assert_eq!(told(&ask("driver-lateral"), "way"), "no way leads there");
}

#[test]
fn ways_that_undo_each_other_leave_a_size_where_it_was() {
    // The frame comes down with the axle, so the cylinders stay over it; a turned journal lowers the frame alone.
    let ask = |changed| {
        [
            ("changed", changed),
            ("by", "-1/4 in"),
            ("watched", "cylinder-over-axle"),
        ]
    };
    assert_eq!(told(&ask("tire-thickness"), "moves"), "0.0000");
    assert_eq!(told(&ask("journal-diameter"), "moves"), "-0.1250");
}

proptest! {
    /// A change is walked forward, size by size, each taking what its movers hand on: another way round than the sheet's.
    #[test]
    fn a_change_walked_forward_comes_to_the_same(
        changed in 0..SIZES.len(),
        ratios in (0.2_f64..40.0, 0.0_f64..1.0, -2.0_f64..2.0),
    ) {
        let changed = SIZES[changed];
        let given = |name: &str| match name {
            "leverage" => Some(ratios.0),
            "close_in" => Some(ratios.1),
            "gear" => Some(ratios.2),
            _ => None,
        };
        let mut moved: BTreeMap<&str, f64> = BTreeMap::from([(changed, 1.0)]);
        for size in in_order() {
            let handed: f64 = relations(SHEET)
                .unwrap()
                .iter()
                .filter(|relation| relation.to == size)
                .map(|relation| {
                    let ratio = relation.times.as_deref().map_or(1.0, |name| given(name).unwrap());
                    moved.get(relation.from.as_str()).copied().unwrap_or(0.0) * relation.factor * ratio
                })
                .sum();
            if size != changed {
                moved.insert(size, handed);
            }
        }
        for size in SIZES {
            let share = share(SHEET, changed, size, &given).unwrap();
            let want = moved.get(size).copied().unwrap_or(0.0);
            prop_assert!((share.factor - want).abs() < 1e-9, "{size}: {} and {want}", share.factor);
            prop_assert!(share.reached || want == 0.0);
        }
    }
}
