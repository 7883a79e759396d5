//! What a text kept in the book came to when it was read: worked out once, when somebody first asks.

use std::sync::OnceLock;

/// A text as read, or its first fault. It follows from the text, so it makes no difference between two things
/// that hold one, and it is not kept in the book's rows.
#[derive(Debug, Clone)]
pub(super) struct Read<T>(OnceLock<Result<T, String>>);

impl<T> Read<T> {
    /// The text as read; `read` is asked the first time only.
    pub(super) fn get(&self, read: impl FnOnce() -> Result<T, String>) -> Result<&T, &str> {
        self.0.get_or_init(read).as_ref().map_err(String::as_str)
    }
}

impl<T> Default for Read<T> {
    fn default() -> Read<T> {
        Read(OnceLock::new())
    }
}

impl<T> PartialEq for Read<T> {
    fn eq(&self, _: &Read<T>) -> bool {
        true
    }
}

impl<T> Eq for Read<T> {}
