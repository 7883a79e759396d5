//! The drawings themselves, each a plain function of plain numbers.

mod disc;
mod lap;
mod need;
mod seat;
mod stated;
mod turned;

pub use disc::{TurnedDisc, turned_disc};
pub use lap::{DiscLap, SeatLap, lap_for_disc, seat_lap};
pub use seat::{SeatSection, SeatStated, seat_section};
