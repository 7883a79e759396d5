//! What the thread laws share: the standard series, and the limits that a class of fit gives.

pub mod limits;
pub mod series;
