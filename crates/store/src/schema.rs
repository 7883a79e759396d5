//! The layout of a book: one table of entries that only grows, its head, and derived rows.

/// Marks a file as a book of ours (`OUTS` in ASCII).
pub const APPLICATION_ID: i64 = 0x4F55_5453;

/// The layout this build writes. It counts the shapes that derived rows have had: when a row changes its
/// shape, this goes up by one, and a book of an older layout is folded anew as it is opened.
pub const LAYOUT: i64 = 11;

/// Every object of the layout, by name, as written. `check` compares the file against it.
pub const OBJECTS: &[(&str, &str)] = &[
    (
        "entry",
        "CREATE TABLE entry (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  batch TEXT,
  device TEXT NOT NULL,
  person TEXT NOT NULL,
  done_on TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  kind TEXT NOT NULL,
  form INTEGER NOT NULL,
  body TEXT NOT NULL,
  supersedes TEXT,
  prev BLOB NOT NULL,
  hash BLOB NOT NULL
) STRICT",
    ),
    (
        "head",
        "CREATE TABLE head (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  seq INTEGER NOT NULL,
  hash BLOB NOT NULL
) STRICT",
    ),
    (
        "state",
        "CREATE TABLE state (
  kind TEXT NOT NULL,
  key TEXT NOT NULL,
  engine TEXT,
  body TEXT NOT NULL,
  PRIMARY KEY (kind, key)
) STRICT, WITHOUT ROWID",
    ),
    ("entry_stands", "CREATE TRIGGER entry_stands BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END"),
    ("entry_stays", "CREATE TRIGGER entry_stays BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END"),
    // Without this one, INSERT OR REPLACE removes the old row and no delete trigger fires.
    (
        "entry_follows",
        "CREATE TRIGGER entry_follows BEFORE INSERT ON entry
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entry) OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'an entry only follows the last one'); END",
    ),
    ("head_stays", "CREATE TRIGGER head_stays BEFORE DELETE ON head BEGIN SELECT RAISE(ABORT, 'the head mark is never removed'); END"),
];

/// Set on every connection: durable, guarded, and nothing deleted stays readable. The cache (kibibytes, where
/// negative) holds the book of twenty years, so that folding it does not read pages twice.
pub const CONNECTION: &str = "PRAGMA synchronous = FULL;
PRAGMA secure_delete = ON;
PRAGMA recursive_triggers = ON;
PRAGMA foreign_keys = ON;
PRAGMA trusted_schema = OFF;
PRAGMA cache_size = -32768;
PRAGMA busy_timeout = 5000;";
