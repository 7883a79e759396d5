//! Factors built in code from exact definitions, against published ones at the precision they are printed to.
//!
//! Grades. *published*: National Institute of Standards and Technology, Special Publication 811 (2008 edition),
//! appendix B.8, read as quoted in two unrelated works rather than in the publication itself; and the Handbook of
//! Mathematical Functions (National Bureau of Standards, Applied Mathematics Series 55, 1964), table 2.5, page 8,
//! read. *from memory*: SP 811 rows that were not seen quoted; they check nothing that the exact definitions do
//! not, and say so.

use measure::{
    Area, Flow, Force, Heat, Length, Mass, SpecificVolume, Speed, Stress, Temperature,
    TemperatureRise, Tolerance, Torque, agrees,
};

/// Fails unless `computed` rounds to the number as printed: apart by no more than half its last printed place.
fn printed(computed: f64, printed: f64, last_place: f64, what: &str) {
    assert!(
        agrees(
            computed,
            printed,
            Tolerance::Absolute(0.500_001 * last_place)
        ),
        "{what}: computed {computed}, printed {printed}"
    );
}

#[test]
fn nist_sp_811() {
    // published, quoted: psi 6.894 757 E+03 Pa; lbf 4.448 222 E+00 N; lbf.in 1.129 848 E-01 N.m;
    // lbf.ft 1.355 818 E+00 N.m.
    printed(Stress::psi(1.0).to_pascals(), 6894.757, 0.001, "psi");
    printed(Stress::ksi(1.0).to_mpa(), 6.894757, 1e-6, "ksi");
    printed(Force::lbf(1.0).to_newtons(), 4.448222, 1e-6, "lbf");
    printed(Torque::lbf_in(1.0).to_newton_m(), 0.1129848, 1e-7, "lbf.in");
    printed(Torque::lbf_ft(1.0).to_newton_m(), 1.355818, 1e-6, "lbf.ft");
    // from memory: lb 4.535 924 E-01 kg; in2 6.4516 E+02 mm2; ft2 9.290 304 E-02 m2; mph 4.4704 E-01 m/s;
    // ft/min 5.08 E-03 m/s.
    printed(Mass::lb(1.0).to_kg(), 0.4535924, 1e-7, "lb");
    printed(Area::sq_in(1.0).to_sq_mm(), 645.16, 1e-9, "sq in");
    printed(Area::sq_ft(1.0).to_sq_m(), 0.09290304, 1e-14, "sq ft");
    printed(Speed::mph(1.0).to_m_per_s(), 0.44704, 1e-12, "mph");
    printed(
        Speed::ft_per_min(1.0).to_m_per_s(),
        5.08e-3,
        1e-14,
        "ft/min",
    );
    // from memory: lb/h 1.259 979 E-04 kg/s; lb/min 7.559 873 E-03 kg/s; ft3/lb 6.242 796 E-02 m3/kg;
    // Btu(IT)/lb 2.326 E+03 J/kg.
    printed(
        Flow::lb_per_h(1.0).to_kg_per_s(),
        1.259979e-4,
        1e-10,
        "lb/h",
    );
    printed(
        Flow::lb_per_min(1.0).to_kg_per_s(),
        7.559873e-3,
        1e-9,
        "lb/min",
    );
    printed(
        SpecificVolume::cu_ft_per_lb(1.0).to_cu_m_per_kg(),
        6.242796e-2,
        1e-8,
        "ft3/lb",
    );
    printed(Heat::btu_per_lb(1.0).to_kj_per_kg(), 2.326, 1e-12, "Btu/lb");
}

#[test]
fn handbook_of_mathematical_functions() {
    // published, read: table 2.5, page 8.
    printed(Length::inches(1.0).to_m(), 0.0254, 1e-15, "inch");
    printed(Length::ft(1.0).to_m(), 0.3048, 1e-14, "foot");
    printed(Mass::lb(1.0).to_kg(), 0.45359237, 1e-14, "pound");
    printed(Force::lbf(1.0).to_newtons(), 4.44822, 1e-5, "pound force");
    printed(
        Torque::lbf_ft(1.0).to_newton_m(),
        1.35582,
        1e-5,
        "foot pound",
    );
    // Statute mile 1609.344 m, through the speed: one mile an hour for an hour.
    printed(
        Speed::mph(1.0).to_m_per_s() * 3600.0,
        1609.344,
        1e-9,
        "statute mile",
    );
}

#[test]
fn temperature_scales() {
    // published, read: the same table, Fahrenheit = 32 + (9/5) Celsius, so that 100 C is 212 F and -40 is -40.
    for (f, c) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0)] {
        printed(
            Temperature::fahrenheit(f).to_celsius(),
            c,
            1e-9,
            "to celsius",
        );
        printed(
            Temperature::celsius(c).to_fahrenheit(),
            f,
            1e-9,
            "to fahrenheit",
        );
    }
    // By the definition of the Celsius temperature.
    printed(
        Temperature::celsius(0.0).to_kelvin(),
        273.15,
        1e-9,
        "ice point",
    );
    printed(
        Temperature::fahrenheit(-459.67).to_kelvin(),
        0.0,
        1e-9,
        "absolute zero",
    );
}

#[test]
fn a_rise_is_not_a_temperature() {
    // 180 Fahrenheit degrees from ice to steam are 100 Celsius degrees; neither scale's zero comes into it.
    printed(
        TemperatureRise::f_degrees(180.0).to_c_degrees(),
        100.0,
        1e-9,
        "rise",
    );
    printed(
        TemperatureRise::c_degrees(100.0).to_f_degrees(),
        180.0,
        1e-9,
        "rise",
    );
    let rise = Temperature::fahrenheit(380.0).rise_from(Temperature::fahrenheit(70.0));
    printed(rise.to_f_degrees(), 310.0, 1e-9, "310 F of rise");
}
