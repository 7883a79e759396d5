//! The layout of a book: one table of entries that only grows, its head, and derived rows.

/// Marks a file as a book of ours (`OUTS` in ASCII).
pub const APPLICATION_ID: i64 = 0x4F55_5453;

/// The layout this build writes. It counts the shapes that derived rows have had: when a row changes its
/// shape, this goes up by one, and a book of an older layout is folded anew as it is opened.
pub const LAYOUT: i64 = 21;

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
    // What one engine's pages and verbs read is found without passing over the others'.
    ("state_of_engine", "CREATE INDEX state_of_engine ON state (engine) WHERE kind NOT IN ('fire', 'readings')"),
    // The words of each derived row, and the index that finds them; both are made from the rows (`seek.rs`).
    (
        "said",
        "CREATE TABLE said (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  key TEXT NOT NULL,
  words TEXT NOT NULL,
  UNIQUE (kind, key)
) STRICT",
    ),
    (
        "seek",
        "CREATE VIRTUAL TABLE seek USING fts5(words, content='said', content_rowid='id', tokenize=\"ascii tokenchars '-./#'\", detail=none, columnsize=0)",
    ),
    // What photographs and scans show, by its hash, in pieces: the database moves no more at once than one piece.
    (
        "scan",
        "CREATE TABLE scan (
  sha256 TEXT NOT NULL,
  piece INTEGER NOT NULL,
  body BLOB NOT NULL,
  UNIQUE (sha256, piece)
) STRICT",
    ),
    ("scan_stands", "CREATE TRIGGER scan_stands BEFORE UPDATE ON scan BEGIN SELECT RAISE(ABORT, 'a scan is never changed'); END"),
    ("scan_stays", "CREATE TRIGGER scan_stays BEFORE DELETE ON scan BEGIN SELECT RAISE(ABORT, 'a scan is never removed'); END"),
    (
        "scan_once",
        "CREATE TRIGGER scan_once BEFORE INSERT ON scan WHEN EXISTS (SELECT 1 FROM scan WHERE sha256 = NEW.sha256 AND piece = NEW.piece)
BEGIN SELECT RAISE(ABORT, 'a scan is kept once'); END",
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

/// What the full-text index keeps beside itself; its own module makes these.
pub const OF_SEEK: &[&str] = &["seek_config", "seek_data", "seek_idx"];

/// Said once of the full-text index: what is taken out of it leaves nothing readable behind.
pub const SEEK_FORGETS: &str = "INSERT INTO seek (seek, rank) VALUES ('secure-delete', 1)";

/// The most bytes of a scan that one row holds.
pub const PIECE: usize = 256 * 1024;

/// Set on every connection: durable, guarded, and nothing deleted stays readable. The cache (kibibytes, where
/// negative) holds the book of twenty years, so that folding it does not read pages twice.
pub const CONNECTION: &str = "PRAGMA synchronous = FULL;
PRAGMA secure_delete = ON;
PRAGMA recursive_triggers = ON;
PRAGMA foreign_keys = ON;
PRAGMA trusted_schema = OFF;
PRAGMA cache_size = -32768;
PRAGMA busy_timeout = 5000;";
