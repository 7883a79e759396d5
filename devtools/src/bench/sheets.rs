//! A whole worked sheet against the bare function of its law.

use std::hint::black_box;
use std::time::Duration;

use measure::{Angle, House, Length, TemperatureRise};
use physics::law::fit_hot_clearance::growth;
use physics::law::gauge_cone_two_balls::cone;
use physics::law::lathe_change_gears::search;
use physics::law::seat_correct::correct;
use physics::law::thread_acme::{Class, acme};
use physics::law::thread_identify::{Readings, Side, candidates};
use physics::law::wear_policy::{Model, stretch};
use physics::{Given, catalogue, run};

use super::{ratio, took, wheels};
use crate::Stop;
use crate::columns::columns;

/// One law: its sheet's id and arguments, and its function on the same values.
struct Law {
    id: &'static str,
    given: &'static [(&'static str, &'static str)],
    bare: fn(),
}

const LAWS: &[Law] = &[
    Law {
        id: "seat.correct",
        given: &[
            ("found_half_angle", "42d54m"),
            ("wanted_half_angle", "45deg"),
            ("land", "11/64in"),
            ("port", "1-1/2in"),
            ("design", "matched"),
        ],
        bare: || {
            let (found, wanted) = (Angle::degrees(42.9), Angle::degrees(45.0));
            let (land, port) = (Length::inches(0.171_875), Length::inches(1.5));
            black_box(correct(
                black_box(found),
                black_box(wanted),
                black_box(land),
                black_box(port),
                None,
            ));
        },
    },
    Law {
        id: "gauge.cone_two_balls",
        given: &[
            ("large_ball", "1in"),
            ("small_ball", "3/4in"),
            ("top_difference", ".3in"),
        ],
        bare: || {
            let [large, small, difference] = [1.0, 0.75, 0.3].map(Length::inches);
            black_box(cone(
                black_box(large),
                black_box(small),
                black_box(difference),
            ));
        },
    },
    Law {
        id: "fit.hot_clearance",
        given: &[
            ("diameter", "3/4in"),
            ("materials", "bronze,steel"),
            ("rise", "300 F degrees"),
        ],
        bare: || {
            let rise = TemperatureRise::f_degrees(300.0);
            let diameter = black_box(Length::inches(0.75));
            black_box(growth(
                diameter,
                black_box(0.001),
                0.000_65,
                black_box(rise),
            ));
        },
    },
    // 225 states (24 cuts and nine wears) over 60 openings: the largest plan a page may ask for.
    Law {
        id: "wear.policy",
        given: &[
            ("metal", ".6in"),
            ("wear", "0in"),
            ("new_metal", ".6in"),
            ("step", ".025in"),
            ("wear_limit", ".025in"),
            ("wear_mean", ".01in"),
            ("wear_spread", ".004in"),
            ("hours_leave", "2"),
            ("hours_cut", "20"),
            ("hours_renew", "60"),
            ("hours_forced", "40"),
            ("openings", "60"),
        ],
        bare: || {
            let model = Model {
                parts: 8,
                new_cuts: 24,
                wear_limit: 8,
                wear: stretch(3.2, 1.28),
                hours: [2.0, 20.0, 60.0],
                forced: 40.0,
                openings: 60,
            };
            black_box(black_box(&model).cheapest());
        },
    },
    Law {
        id: "thread.acme",
        given: &[("diameter", "1-1/2in"), ("tpi", "4"), ("class", "2G")],
        bare: || {
            let (diameter, allowance) = (Length::inches(1.5), Length::inches(0.0098));
            black_box(acme(
                black_box(diameter),
                black_box(4.0),
                Class::C2G,
                allowance,
                1.0,
            ));
        },
    },
    Law {
        id: "lathe.change_gears",
        given: &[
            ("leadscrew", "8 TPI"),
            ("wanted", "11 1/2 TPI"),
            ("gears", "20,25,30,35,40,45,50,55,60,65"),
            ("wheels", "4"),
        ],
        bare: || {
            let wheels = [20, 25, 30, 35, 40, 45, 50, 55, 60, 65];
            black_box(search(black_box(&wheels), &wheels::asked(2, (16, 23))));
        },
    },
    Law {
        id: "thread.identify",
        given: &[
            ("side", "external"),
            ("major", ".982in"),
            ("tpi", "8"),
            ("pitch_diameter", ".917in"),
            ("flank_angle", "27.3deg"),
        ],
        bare: || {
            let readings = Readings {
                side: Side::External,
                pitch: Length::inches(0.125),
                lead: None,
                major: Some(Length::inches(0.982)),
                minor: None,
                pitch_diameter: Some(Length::inches(0.917)),
                flank: Some(Angle::degrees(27.3)),
                taper: None,
            };
            black_box(candidates("bench", black_box(&readings)).is_ok());
        },
    },
];

/// The table of ratios.
///
/// # Errors
/// A fault where a sheet refuses its arguments, or a sheet of the catalogue has no row here.
pub fn bench() -> Result<String, Stop> {
    let known = |id: &str| LAWS.iter().any(|law| law.id == id);
    let forgotten: Vec<&str> = catalogue()
        .iter()
        .map(|entry| entry.card.id)
        .filter(|id| !known(id))
        .collect();
    let mut rows = Vec::new();
    for law in LAWS {
        let given: Vec<Given> = law
            .given
            .iter()
            .map(|(name, text)| Given::typed(name, text))
            .collect();
        // The first working reads tables and evidence that every later one finds ready.
        run(law.id, &given, House::Inch).map_err(Stop::fault)?;
        let sheet = each(300, || {
            drop(black_box(run(law.id, black_box(&given), House::Inch)))
        });
        // A search takes a thousand times as long as a formula: a tenth of a second of each is enough.
        let (once, ()) = took(law.bare);
        let calls = (0.1 / once.as_secs_f64().max(1e-9)).clamp(20.0, 300_000.0);
        let bare = each(calls as u32, law.bare);
        rows.push(vec![
            law.id.to_string(),
            format!("{:.1}", sheet.as_secs_f64() * 1e6),
            format!("{:.4}", bare.as_secs_f64() * 1e6),
            ratio(sheet, bare),
        ]);
    }
    let heading = ["sheet", "sheet, us", "function, us", "ratio"];
    let mut text = String::from("A worked sheet against the bare function of its law:\n");
    text.push_str(&columns(&heading, &[], &rows));
    if !forgotten.is_empty() {
        text.push_str(&format!("  not benched yet: {}\n", forgotten.join(", ")));
    }
    Ok(text)
}

/// The time of one call, of many made.
fn each(times: u32, what: impl Fn()) -> Duration {
    let (all, ()) = took(|| (0..times).for_each(|_| what()));
    all / times.max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_law_that_is_benched_works() {
        for law in LAWS {
            let typed = |(name, text): &(&str, &str)| Given::typed(name, text);
            let given: Vec<Given> = law.given.iter().map(typed).collect();
            assert!(run(law.id, &given, House::Inch).is_ok(), "{}", law.id);
            (law.bare)();
        }
    }
}
