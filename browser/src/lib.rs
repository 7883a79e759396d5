//! The desk's pages in a real browser: opens one, walks it as a person would, and names what is wrong with a page.
//!
//! This room knows none of our crates. It starts the built program as a shop starts it, and sees of it only
//! what a browser sees. It is for tests and for the pictures that people look at.

mod audit;
mod crawl;
mod desk;
mod driver;
mod paper;
mod pictures;
mod window;

pub use audit::{AXE_TAGS, audit};
pub use crawl::{Visit, visits};
pub use desk::{Answer, Desk};
pub use paper::Paper;
pub use pictures::pictures;
pub use window::{Screen, Window};

/// What went wrong, as a sentence.
pub type Wrong = String;
