//! Plane geometry of a drawing: points, paths of lines and arcs, boxes, and the one transform.
//!
//! Coordinates are plain `f64`, x to the right and y up. In a view they are *inches of the part*; on a sheet
//! they are *inches of paper*. Nothing here knows which.

mod bounds;
mod path;
mod point;
mod transform;

pub use bounds::Bounds;
pub(crate) use path::wavy;
pub use path::{Path, Segment, Vertex};
pub use point::Point;
pub use transform::Transform;
