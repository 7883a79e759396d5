//! The plain function: every train of the wheels a shop owns, held against the ratio wanted.
//!
//! A train is a set of drivers and a set of driven wheels; which driver meets which driven wheel does
//! not change its ratio, so each pair of sets is looked at once. All is done in whole numbers: a train
//! whose drivers multiply to *D* and whose driven wheels multiply to *E* misses the ratio *p/q* by
//! *(D q - E p) / (E p)*, and it is exact when *D q = E p*.
//!
//! Of two wheels alike there may be two in a train, but never more than the shop owns. To see that at
//! once, a choice of wheels is one number with four bits for each size of wheel.

use std::cmp::Ordering;

/// The most sizes of wheel that a search can hold: four bits each in 128.
pub const SIZES: usize = 32;
/// Neither side of a ratio may be larger: nine figures, as many as a step of a sheet shows. Times three
/// wheels of 200 teeth, the largest the card allows, it is still whole in a floating number.
pub const FIGURES: i64 = 999_999_999;

/// What is asked of the wheels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked {
    /// The ratio wanted, drivers over driven, in lowest terms; both from 1 to [`FIGURES`].
    pub ratio: (i64, i64),
    /// How many drivers, and as many driven wheels: 1, 2 or 3.
    pub pairs: usize,
    /// Teeth that must be left between the rim of a wheel and the next shaft.
    pub stud: u32,
    /// Twice the distance from the first shaft to the leadscrew, counted in teeth; 0 when the arm
    /// reaches whatever it must.
    pub span: u32,
    /// How many trains to give back at most.
    pub show: usize,
}

/// One train, each driver beside the wheel it drives, from the spindle to the leadscrew.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Train {
    /// The teeth of driver and driven, pair by pair.
    pub pairs: Vec<(u32, u32)>,
}

impl Train {
    /// The product of the drivers' teeth.
    pub fn drivers(&self) -> i64 {
        self.pairs.iter().map(|pair| i64::from(pair.0)).product()
    }

    /// The product of the driven wheels' teeth.
    pub fn driven(&self) -> i64 {
        self.pairs.iter().map(|pair| i64::from(pair.1)).product()
    }

    /// By how much the train misses `ratio`, as a fraction of it: over and under, never reduced.
    pub fn error(&self, ratio: (i64, i64)) -> (i64, i64) {
        let (p, q) = ratio;
        (self.drivers() * q - self.driven() * p, self.driven() * p)
    }

    fn teeth(&self) -> u32 {
        self.pairs.iter().map(|pair| pair.0 + pair.1).sum()
    }
}

/// What a search found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// The trains that mesh, the exact ones first, then by size of error.
    pub trains: Vec<Train>,
    /// How many sets of wheels were looked at.
    pub examined: u64,
    /// How many of them are exact and mesh.
    pub exact: u64,
}

/// A choice of one, two or three wheels.
struct Choice {
    /// Four bits for each size: how many of it are in the choice.
    lanes: u128,
    /// Their teeth multiplied.
    product: i64,
    /// Their teeth, smallest first.
    teeth: Vec<u32>,
}

/// Looks at every set of `asked.pairs` drivers and as many driven wheels out of `wheels` (the teeth of
/// each wheel owned, 10 to 200, of not more than [`SIZES`] sizes).
///
/// Source: the rule of change wheels, drivers over driven as the pitch wanted over the leadscrew's
/// (F. D. Jones, *Turning and Boring*). Which wheels foul which shaft is plane geometry; how much room
/// a shaft needs is common practice.
pub fn search(wheels: &[u32], asked: &Asked) -> Found {
    let owned = sizes(wheels);
    let choices = choices(&owned, asked.pairs);
    let (p, q) = asked.ratio;
    // Eight in each lane beside what is owned: taking away what is used leaves the eight standing as
    // long as no size is used up.
    let guard = owned.iter().fold(0u128, |all, size| all | 8 << size.lane);
    let room = owned
        .iter()
        .fold(guard, |all, size| all | u128::from(size.count) << size.lane);
    let mut found = Found {
        trains: Vec::new(),
        examined: 0,
        exact: 0,
    };
    // What the worst train kept so far misses by; with dust, since the last word is had in integers.
    let mut worst = f64::INFINITY;
    for driven in &choices {
        let left = room - driven.lanes;
        let wanted = driven.product * p;
        let scale = 1.0 / wanted as f64;
        for drivers in &choices {
            if (left - drivers.lanes) & guard != guard {
                continue;
            }
            found.examined += 1;
            let over = drivers.product * q - wanted;
            if over != 0 && over.abs() as f64 * scale > worst {
                continue;
            }
            let Some(train) = meshing(&drivers.teeth, &driven.teeth, asked) else {
                continue;
            };
            found.exact += u64::from(over == 0);
            keep(&mut found.trains, train, asked);
            if found.trains.len() == asked.show {
                worst = found.trains.last().map_or(worst, |last| {
                    let (over, under) = last.error(asked.ratio);
                    over.abs() as f64 / under as f64 * (1.0 + 1e-9)
                });
            }
        }
    }
    found
}

/// One size of wheel, how many of it are owned (four are never wanted of one size on one side, six
/// never in a train) and where its four bits stand.
struct Size {
    teeth: u32,
    count: u8,
    lane: usize,
}

fn sizes(wheels: &[u32]) -> Vec<Size> {
    let mut sorted = wheels.to_vec();
    sorted.sort_unstable();
    let mut sizes: Vec<Size> = Vec::new();
    for teeth in sorted {
        if let Some(last) = sizes.last_mut().filter(|last| last.teeth == teeth) {
            last.count = (last.count + 1).min(6);
        } else if sizes.len() < SIZES {
            let lane = 4 * sizes.len();
            sizes.push(Size {
                teeth,
                count: 1,
                lane,
            });
        }
    }
    sizes
}

/// Every choice of `many` wheels, each once, smallest wheels first.
fn choices(owned: &[Size], many: usize) -> Vec<Choice> {
    let mut all = vec![(
        0usize,
        Choice {
            lanes: 0,
            product: 1,
            teeth: Vec::new(),
        },
    )];
    for _ in 0..many {
        all = all
            .iter()
            .flat_map(|(from, choice)| {
                owned
                    .iter()
                    .enumerate()
                    .skip(*from)
                    .filter_map(move |(at, size)| {
                        let used = choice.teeth.iter().filter(|t| **t == size.teeth).count();
                        if used >= usize::from(size.count) {
                            return None;
                        }
                        let mut teeth = choice.teeth.clone();
                        teeth.push(size.teeth);
                        let choice = Choice {
                            lanes: choice.lanes + (1 << size.lane),
                            product: choice.product * i64::from(size.teeth),
                            teeth,
                        };
                        Some((at, choice))
                    })
            })
            .collect();
    }
    all.into_iter().map(|(_, choice)| choice).collect()
}

/// The order of these wheels that leaves most room at the shafts, if any order can be set up.
///
/// Between pair *i* and the next there is a stud with the driven wheel of the one and the driver of the
/// other. That driver turns beside the shaft of the driver before it, which is half of (driver +
/// driven) away; and that driven wheel beside the shaft that the next driven wheel is on. Each must
/// clear the shaft by `stud` teeth.
fn meshing(drivers: &[u32], driven: &[u32], asked: &Asked) -> Option<Train> {
    let mut best: Option<(i64, Train)> = None;
    for first in orders(drivers) {
        for second in orders(driven) {
            let pairs: Vec<(u32, u32)> = first.iter().copied().zip(second).collect();
            let room = room(&pairs);
            let better = best.as_ref().is_none_or(|(most, _)| room > *most);
            if room >= i64::from(asked.stud) && reaches(&pairs, asked.span) && better {
                best = Some((room, Train { pairs }));
            }
        }
    }
    best.map(|(_, train)| train)
}

/// The least number of teeth between a rim and the shaft beside it; without end for a simple train.
fn room(pairs: &[(u32, u32)]) -> i64 {
    let gaps = pairs.windows(2).flat_map(|two| match two {
        [(a, b), (c, d)] => {
            let [a, b, c, d] = [*a, *b, *c, *d].map(i64::from);
            [a + b - c, c + d - b]
        }
        _ => [i64::MAX; 2],
    });
    gaps.min().unwrap_or(i64::MAX)
}

/// Whether the studs can stand so that the train ends on the leadscrew: all distances together must
/// reach, and the longest must not overreach what the others can bring back. A simple train bridges
/// any gap with idlers.
fn reaches(pairs: &[(u32, u32)], span: u32) -> bool {
    if span == 0 || pairs.len() < 2 {
        return true;
    }
    let sums = pairs.iter().map(|pair| pair.0 + pair.1);
    let (all, longest) = (sums.clone().sum::<u32>(), sums.max().unwrap_or(0));
    all >= span && 2 * longest <= all + span
}

/// Every order of one, two or three things, each once even where two are alike.
fn orders(of: &[u32]) -> Vec<Vec<u32>> {
    let [a, b, c] = match of {
        [a, b, c] => [*a, *b, *c],
        [a, b] if a != b => return vec![vec![*a, *b], vec![*b, *a]],
        _ => return vec![of.to_vec()],
    };
    let mut all: Vec<Vec<u32>> = [
        [a, b, c],
        [a, c, b],
        [b, a, c],
        [b, c, a],
        [c, a, b],
        [c, b, a],
    ]
    .map(|order| order.to_vec())
    .to_vec();
    all.sort_unstable();
    all.dedup();
    all
}

/// Puts `train` where it belongs, and lets the last go when there are too many.
fn keep(trains: &mut Vec<Train>, train: Train, asked: &Asked) {
    let at = trains.partition_point(|kept| order(kept, &train, asked.ratio) != Ordering::Greater);
    if at < asked.show {
        trains.insert(at, train);
        trains.truncate(asked.show);
    }
}

/// By size of error, exactly; then fewer teeth; then the numbers themselves, so that one search always
/// answers alike.
fn order(one: &Train, other: &Train, ratio: (i64, i64)) -> Ordering {
    let ((over, under), (over_2, under_2)) = (one.error(ratio), other.error(ratio));
    let [a, b, c, d] = [over.abs(), under_2, over_2.abs(), under].map(i128::from);
    (a * b)
        .cmp(&(c * d))
        .then_with(|| one.teeth().cmp(&other.teeth()))
        .then_with(|| one.pairs.cmp(&other.pairs))
}

/// The prime numbers of which `ratio` needs one wheel at least to be a multiple, and none of `wheels`
/// is: while there are any, no train can be exact.
pub fn wanting(wheels: &[u32], ratio: (i64, i64)) -> Vec<i64> {
    let mut primes = primes(ratio.0);
    primes.extend(self::primes(ratio.1));
    primes.retain(|prime| !wheels.iter().any(|teeth| i64::from(*teeth) % prime == 0));
    primes.sort_unstable();
    primes.dedup();
    primes
}

fn primes(mut of: i64) -> Vec<i64> {
    let mut found = Vec::new();
    let mut prime = 2;
    while prime * prime <= of {
        while of % prime == 0 {
            found.push(prime);
            of /= prime;
        }
        prime += 1;
    }
    if of > 1 {
        found.push(of);
    }
    found
}
