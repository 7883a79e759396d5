//! The drawings themselves, each a plain function of plain numbers.

mod bushing;
mod disc;
mod gauge;
mod lap;
mod lap_face;
mod need;
mod nut;
mod seam;
mod seat;
mod stated;
mod thread;
mod turned;

pub use bushing::{Collar, Lead, TurnedBushing, turned_bushing};
pub use disc::{StemThread, TurnedDisc, turned_disc};
pub use gauge::{Mandrel, PlugGauge, mandrel, plug_gauge};
pub use lap::{DiscLap, SeatLap, lap_for_disc, seat_lap};
pub use lap_face::{LapFace, lap_face};
pub use nut::{NutBody, TurnedNut, turned_nut};
pub use seam::{RivetedSeam, SeamRow, riveted_seam};
pub use seat::{SeatSection, SeatStated, seat_section};
pub use thread::{Limits, ThreadCall};
