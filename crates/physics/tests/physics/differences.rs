//! A difference of two figures as they were written is exact on the page: rounding up or down acts on what was meant, not
//! on the dust that subtracting leaves.

use crate::{Dice, typed};
use measure::House;
use physics::{Shown, run};

/// One sheet whose result is the first figure less the second.
struct Less {
    id: &'static str,
    around: &'static [(&'static str, &'static str)],
    from: &'static str,
    take: &'static str,
    unit: &'static str,
    result: &'static str,
    places: usize,
    /// The first figure's least and most, in thousandths.
    range: (usize, usize),
}

const ALL: [Less; 12] = [
    Less {
        id: "running.axle",
        around: &[("position", "main-driver")],
        from: "original",
        take: "present",
        unit: "in",
        result: "wear",
        places: 4,
        range: (5000, 12000),
    },
    Less {
        id: "running.clearance",
        around: &[("pair", "main-pin")],
        from: "bore",
        take: "pin",
        unit: "in",
        result: "clearance",
        places: 4,
        range: (3000, 9000),
    },
    Less {
        id: "running.drawbar",
        around: &[("buffer", "none")],
        from: "pulled",
        take: "pushed",
        unit: "in",
        result: "lost_motion",
        places: 4,
        range: (10_000, 60_000),
    },
    Less {
        id: "running.drawbar",
        around: &[("buffer", "spring")],
        from: "free_length",
        take: "fitted_length",
        unit: "in",
        result: "compression",
        places: 4,
        range: (10_000, 40_000),
    },
    Less {
        id: "running.heights",
        around: &[("place", "pilot"), ("figures", "both")],
        from: "readings",
        take: "least",
        unit: "in",
        result: "above_least",
        places: 3,
        range: (10_000, 40_000),
    },
    Less {
        id: "running.tire_limit",
        around: &[("axle_load", "40000 lb"), ("center_diameter", "56 in")],
        from: "thickness",
        take: "least_thickness",
        unit: "in",
        result: "left",
        places: 4,
        range: (1500, 4000),
    },
    Less {
        id: "running.wheel_gauge",
        around: &[("gauge", "standard")],
        from: "inside",
        take: "inside",
        unit: "in",
        result: "variation",
        places: 4,
        range: (53_000, 54_000),
    },
    Less {
        id: "running.quarter",
        around: &[("stroke", "28 in")],
        from: "offsets",
        take: "offsets",
        unit: "in",
        result: "difference",
        places: 4,
        range: (500, 900),
    },
    Less {
        id: "air.piston_travel",
        around: &[("kind", "other-driver")],
        from: "limit",
        take: "travel",
        unit: "in",
        result: "left",
        places: 3,
        range: (6000, 12_000),
    },
    Less {
        id: "air.leakage",
        around: &[("kind", "brake-pipe"), ("minutes", "1")],
        from: "start",
        take: "end",
        unit: "psi",
        result: "rate",
        places: 2,
        range: (60_000, 140_000),
    },
    Less {
        id: "air.orifice",
        around: &[("compressor", "westinghouse-9-1/2"), ("altitude", "800 ft")],
        from: "held",
        take: "least_pressure",
        unit: "psi",
        result: "pressure_over",
        places: 1,
        range: (60_000, 140_000),
    },
    Less {
        id: "gauge.pressure",
        around: &[("gauge_error", "0 psi"), ("head", "0 ft")],
        from: "reading",
        take: "second_reading",
        unit: "psi",
        result: "difference",
        places: 1,
        range: (100_000, 250_000),
    },
];

#[test]
fn an_exact_difference_stays_exact() {
    let mut dice = Dice::new(3);
    for case in &ALL {
        // The last figure that the result shows, in thousandths; figures finer than a thousandth are not drawn.
        let tick = 10_usize.pow(3_u32.saturating_sub(case.places as u32));
        for _ in 0..300 {
            let (least, most) = case.range;
            let from = (least + dice.below(most - least)) / tick * tick;
            let take = (from - dice.below(from.min(least) / 4 + 1)) / tick * tick;
            let text = |thousandths: usize| {
                format!(
                    "{}.{:03} {}",
                    thousandths / 1000,
                    thousandths % 1000,
                    case.unit
                )
            };
            let (first, second) = (text(from), text(take));
            let both = format!("{first}, {second}, {second}");
            let mut pairs = case.around.to_vec();
            if case.from == case.take {
                pairs.push((case.from, &both));
            } else {
                pairs.extend([(case.from, first.as_str()), (case.take, second.as_str())]);
            }
            let sheet = run(case.id, &typed(&pairs), House::Inch).unwrap_or_else(|e| panic!("{e}"));
            let Some(Shown::Quantity { shown, .. }) = sheet.result(case.result) else {
                panic!("{}: no {}", case.id, case.result);
            };
            let apart = from - take;
            let (whole, part) = (apart / 1000, format!("{:03}0", apart % 1000));
            let expected = format!("{whole}.{}", &part[..case.places]);
            assert_eq!(shown, &expected, "{} {first} less {second}", case.id);
        }
    }
}
