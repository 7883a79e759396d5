//! Drawings to scale, dimensioned and lined, as SVG and as DXF.
//!
//! A drawing is a plain function of plain numbers: [`seat_section`], [`turned_disc`], [`seat_lap`],
//! [`lap_for_disc`], [`lap_face`], [`turned_bushing`], [`plug_gauge`], [`mandrel`], [`turned_nut`],
//! [`riveted_seam`]. It gives a [`Drawing`], which [`Drawing::lay_out`] puts on a sheet of paper at a standard
//! scale, with every dimension in a place of its own; [`Laid::svg`] and [`Laid::dxf`] write that down. For a page on a
//! screen [`Drawing::for_page`] lays it out without title block, and [`Laid::svg_view`] writes it to stand inside HTML.
//!
//! Inside a view everything is in inches of the part, on a sheet in inches of paper, both as `f64`: a drawing
//! shows sizes, it does not judge them. A size is written as the shop writes it by `measure::show`.
//!
//! Known here: geometry and drafting. Not known: any rule, law of physics, part, book, page of type, or date.

mod chart;
mod draw;
mod error;
mod label;
mod laid;
mod layer;
mod moves;
mod page;
mod place;
mod scale;
mod sheet;
mod svg;
mod title;
mod view;

mod dxf;

pub mod geometry;
pub mod hatch;

pub use chart::{Marked, Square, SquareMap, Stay, StayMap, StayMark};
pub use draw::{
    Collar, DiscLap, LapFace, Lead, Limits, Mandrel, NutBody, PlugGauge, RivetedSeam, SeamRow,
    SeatLap, SeatSection, SeatStated, StemThread, ThreadCall, TurnedBushing, TurnedDisc, TurnedNut,
    lap_face, lap_for_disc, mandrel, plug_gauge, riveted_seam, seat_lap, seat_section,
    turned_bushing, turned_disc, turned_nut,
};
pub use error::DrawingError;
pub use label::{Kept, Label, Tolerance};
pub use laid::{Item, Laid, LaidView, Shape, Text};
pub use layer::Layer;
pub use moves::{Move, MoveTree};
pub use page::{PIXELS, PageWidth};
pub use place::Placed;
pub use scale::Scale;
pub use sheet::Drawing;
pub use svg::UNITS;
pub use title::{ADVICE, Title};
pub use view::{Dimension, Mark, Side, View};
