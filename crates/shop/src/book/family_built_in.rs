//! The families that this build brings along, in the order in which a new book takes them in: those that earlier builds had
//! come first.

use super::family::Family;

impl Family {
    /// The families this build brings along, as texts.
    pub const BUILT_IN: &'static [&'static str] = &[
        include_str!("../../../../tables/family/check-valve.toml"),
        include_str!("../../../../tables/family/crosshead-and-guide.toml"),
        include_str!("../../../../tables/family/rod-bushing.toml"),
        include_str!("../../../../tables/family/driving-tire.toml"),
        include_str!("../../../../tables/family/staybolt.toml"),
        include_str!("../../../../tables/family/boiler-course.toml"),
        include_str!("../../../../tables/family/washout-plug.toml"),
        include_str!("../../../../tables/family/safety-valve.toml"),
        include_str!("../../../../tables/family/main-reservoir.toml"),
        include_str!("../../../../tables/family/wheelset.toml"),
        include_str!("../../../../tables/family/driving-journal.toml"),
        include_str!("../../../../tables/family/engine-heights.toml"),
        include_str!("../../../../tables/family/water-glass.toml"),
        include_str!("../../../../tables/family/steam-gauge.toml"),
        include_str!("../../../../tables/family/crank-pin.toml"),
        include_str!("../../../../tables/family/stop-valve.toml"),
        include_str!("../../../../tables/family/injector.toml"),
        include_str!("../../../../tables/family/piston-and-cylinder.toml"),
        include_str!("../../../../tables/family/driving-box.toml"),
        include_str!("../../../../tables/family/superheater-unit.toml"),
        include_str!("../../../../tables/family/throttle.toml"),
        include_str!("../../../../tables/family/tube-and-flue.toml"),
        include_str!("../../../../tables/family/air-compressor.toml"),
        include_str!("../../../../tables/family/brake-rigging.toml"),
        include_str!("../../../../tables/family/brake-valve.toml"),
        include_str!("../../../../tables/family/spring-rigging.toml"),
        include_str!("../../../../tables/family/fusible-plug.toml"),
        include_str!("../../../../tables/family/arch-tube.toml"),
        include_str!("../../../../tables/family/flexible-stay-cap.toml"),
        include_str!("../../../../tables/family/drawbar.toml"),
        include_str!("../../../../tables/family/axle.toml"),
        include_str!("../../../../tables/family/shoe-and-wedge.toml"),
        include_str!("../../../../tables/family/valve-gear-joint.toml"),
        include_str!("../../../../tables/family/instrument.toml"),
    ];
}
