//! The laws, one a folder: a plain function, a card, and the evidence beside it.

pub mod fit_bushing;
pub mod fit_hot_clearance;
pub mod fit_inch_class;
pub mod fit_iso;
pub mod fit_press;
pub mod fit_shrink;
pub mod fit_tire;
pub mod gauge_cone_two_balls;
pub mod lathe_change_gears;
pub mod seat_correct;
pub mod thread_acme;
pub mod thread_unified;
pub mod thread_bore;
pub mod thread_whitworth;
pub mod thread_strength;
pub mod screw_torque;
pub mod thread_wires;
pub mod thread_bsp;
pub mod thread_metric;
pub mod thread_npt;
pub mod thread_plug;
pub mod thread_sharp_v;
pub mod thread_square;
pub mod thread_staybolt;
pub mod thread_stub_acme;
pub mod thread_identify;
