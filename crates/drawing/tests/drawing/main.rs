//! Tests of drawings as they are written down: the SVG and the DXF are read again and measured.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on must fail, in its helpers too"
)]

mod chart;
mod dxf;
mod labels;
mod placing;
mod refused;
mod samples;
mod seam;
mod seat;
mod svg;
mod svg_reader;
