//! How many statements a piece of work asks of its databases: what must not grow with the book.

use std::cell::Cell;

use rusqlite::Connection;
use rusqlite::trace::{TraceEvent, TraceEventCodes};

thread_local! {
    /// Asked so far on this thread, while somebody counts.
    static ASKED: Cell<Option<u64>> = const { Cell::new(None) };
}

/// Counts the statements asked of every book and its keys that `work` opens on this thread. The settings of a connection
/// (`PRAGMA`) ask nothing of what the book holds and are not counted.
pub fn counted<T>(work: impl FnOnce() -> T) -> (u64, T) {
    ASKED.set(Some(0));
    let done = work();
    (ASKED.take().unwrap_or(0), done)
}

/// Has a connection count, where somebody does.
pub(crate) fn watch(connection: &mut Connection) -> rusqlite::Result<()> {
    if ASKED.get().is_none() {
        return Ok(());
    }
    connection.trace_v2(TraceEventCodes::SQLITE_TRACE_STMT, Some(ask))
}

fn ask(event: TraceEvent<'_>) {
    if let TraceEvent::Stmt(_, sql) = event
        && !sql.trim_start().starts_with("PRAGMA")
    {
        ASKED.set(ASKED.get().map(|asked| asked + 1));
    }
}
