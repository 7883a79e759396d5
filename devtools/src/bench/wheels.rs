//! Every train of twenty-four change wheels, against the plain way of trying all orders of them.

use physics::law::lathe_change_gears::{Asked, search};

use super::{ratio, worked};
use crate::columns::columns;

/// The wheels of a well-found shop, no two alike.
const WHEELS: [u32; 24] = [
    20, 24, 25, 28, 30, 32, 35, 38, 40, 42, 44, 45, 46, 48, 50, 55, 57, 60, 63, 65, 70, 80, 100,
    127,
];
/// A British pipe thread, 19 threads, on a screw of 8.
const RATIO: (i64, i64) = (8, 19);

/// What the benches ask of the wheels.
pub fn asked(pairs: usize, ratio: (i64, i64)) -> Asked {
    Asked {
        ratio,
        pairs,
        stud: 15,
        span: 0,
        show: 24,
    }
}

/// The table of ratios.
pub fn bench() -> String {
    let mut rows = Vec::new();
    for (pairs, plain) in [(2, of_four as fn() -> f64), (3, of_six)] {
        let (ours, found) = worked(|| search(&WHEELS, &asked(pairs, RATIO)));
        let (brute, _) = worked(plain);
        rows.push(vec![
            format!("{} wheels", 2 * pairs),
            found.examined.to_string(),
            format!("{:.1}", ours.as_secs_f64() * 1e3),
            format!("{:.1}", brute.as_secs_f64() * 1e3),
            ratio(ours, brute),
        ]);
    }
    let heading = ["train", "sets", "search, ms", "every order, ms", "ratio"];
    format!(
        "Every train of {} wheels against trying every order of them:\n{}",
        WHEELS.len(),
        columns(&heading, &[], &rows)
    )
}

/// How far two pairs of wheels miss the ratio, and whether they clear their studs.
fn miss(pairs: &[(u32, u32)]) -> Option<f64> {
    let clear = pairs.windows(2).all(|two| match two {
        [(a, b), (c, d)] => a + b >= c + 15 && c + d >= b + 15,
        _ => true,
    });
    let turns: f64 = pairs
        .iter()
        .map(|(a, b)| f64::from(*a) / f64::from(*b))
        .product();
    clear.then(|| (turns * RATIO.1 as f64 / RATIO.0 as f64 - 1.0).abs())
}

/// The least miss of four wheels, by four loops.
fn of_four() -> f64 {
    let mut least = f64::INFINITY;
    for four in orders(&WHEELS) {
        let [a, b, c, d] = four;
        least = miss(&[(a, b), (c, d)]).map_or(least, |miss| least.min(miss));
    }
    least
}

/// The least miss of six wheels, by six loops.
fn of_six() -> f64 {
    let mut least = f64::INFINITY;
    for [a, b, c, d] in orders(&WHEELS) {
        for e in WHEELS.into_iter().filter(|e| ![a, b, c, d].contains(e)) {
            for f in WHEELS.into_iter().filter(|f| ![a, b, c, d, e].contains(f)) {
                least = miss(&[(a, b), (c, d), (e, f)]).map_or(least, |miss| least.min(miss));
            }
        }
    }
    least
}

/// Every ordered four of wheels no two of which are alike.
fn orders(wheels: &[u32]) -> impl Iterator<Item = [u32; 4]> {
    let of = move |taken: Vec<u32>| {
        let free = wheels
            .iter()
            .copied()
            .filter(move |wheel| !taken.contains(wheel));
        free.collect::<Vec<_>>().into_iter()
    };
    of(Vec::new()).flat_map(move |a| {
        of(vec![a]).flat_map(move |b| {
            of(vec![a, b]).flat_map(move |c| of(vec![a, b, c]).map(move |d| [a, b, c, d]))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The plain way and the search find trains that are equally good.
    #[test]
    fn both_ways_find_the_same() {
        let best = &search(&WHEELS, &asked(2, RATIO)).trains[0];
        let (over, under) = best.error(RATIO);
        assert!((of_four() - (over as f64 / under as f64).abs()).abs() < 1e-12);
    }
}
