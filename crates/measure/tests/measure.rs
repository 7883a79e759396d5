//! The tests of the measure crate, by topic.
