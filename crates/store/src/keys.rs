//! The keys beside a book: passphrase hashes, one-time links and sessions, in which units a person reads, and what somebody
//! has begun and not entered; never part of the record.
//!
//! They live in `BOOK.keys` so that a book can be copied, exported or printed without them. Tokens are
//! kept as SHA-256 only: who reads this file cannot sign in with it. What time it is is an argument.

use std::path::{Path, PathBuf};

use measure::House;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use sha2::{Digest, Sha256};
use shop::book::PersonId;

use crate::counted;
use crate::error::StoreError;

/// Goes up by one whenever a table is added to [`LAYOUT`].
const MADE: i64 = 2;
const LAYOUT: &str = "
CREATE TABLE IF NOT EXISTS passphrase (person TEXT PRIMARY KEY, hash TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS link (token BLOB PRIMARY KEY, person TEXT NOT NULL, until INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS session (token BLOB PRIMARY KEY, person TEXT NOT NULL, until INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS pocket (token BLOB PRIMARY KEY, person TEXT NOT NULL, until INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS guess (name BLOB PRIMARY KEY, wrong INTEGER NOT NULL, last INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS reader (person TEXT PRIMARY KEY, house TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS copied (at INTEGER PRIMARY KEY, place TEXT NOT NULL, entry INTEGER NOT NULL, same_disk INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS device (token BLOB PRIMARY KEY, name TEXT NOT NULL UNIQUE, enrolled_by TEXT NOT NULL, since INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS code (device BLOB NOT NULL, person TEXT NOT NULL, hash TEXT NOT NULL, wrong INTEGER NOT NULL, PRIMARY KEY (device, person)) STRICT;
CREATE TABLE IF NOT EXISTS session_on (session BLOB PRIMARY KEY, device BLOB NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS draft (person TEXT NOT NULL, of TEXT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (person, of)) STRICT;
";

/// Wrong guesses for one name that cost nothing but themselves.
pub const FREE_GUESSES: i64 = 5;
/// The first wait after those, in seconds; each further wrong guess doubles it.
const FIRST_WAIT: i64 = 10;
/// The longest wait, in seconds: nobody can be kept out for good by another's guessing.
const LONGEST_WAIT: i64 = 900;
/// Guesses are forgotten when none was made for this long, in seconds.
const FORGOTTEN: i64 = 86_400;

/// The open keys of a book.
pub struct Keys {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
}

/// Which kind of token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Token {
    /// A link that signs a person in once.
    Link,
    /// A signed-in session.
    Session,
    /// What a device keeps beside readings taken without a signal, to hand them in as whoever wrote them. It opens
    /// nothing else.
    Pocket,
}

impl Token {
    fn table(self) -> &'static str {
        match self {
            Token::Link => "link",
            Token::Session => "session",
            Token::Pocket => "pocket",
        }
    }
}

impl Keys {
    /// Opens the keys beside a book, making the file if there is none.
    ///
    /// # Errors
    /// If the file cannot be opened or made.
    pub fn beside(book: &Path) -> Result<Keys, StoreError> {
        Keys::of_file(&crate::backup::keys_of(book))
    }

    /// Opens a file of keys by its own name.
    pub(crate) fn of_file(path: &Path) -> Result<Keys, StoreError> {
        let new = !path.exists();
        let sql = StoreError::of(path);
        let mut connection = Connection::open(path).map_err(&sql)?;
        counted::watch(&mut connection).map_err(&sql)?;
        if new {
            owner_only(path);
        }
        let settings = "PRAGMA busy_timeout = 5000; PRAGMA secure_delete = ON;";
        connection.execute_batch(settings).map_err(&sql)?;
        // They are opened for every page: what stands is not made again.
        let made: i64 = connection
            .pragma_query_value(None, "user_version", |row| row.get(0))
            .map_err(&sql)?;
        if made < MADE {
            let make = format!("{LAYOUT}PRAGMA user_version = {MADE};");
            connection.execute_batch(&make).map_err(&sql)?;
        }
        Ok(Keys {
            connection,
            path: path.into(),
        })
    }

    pub(crate) fn connection(&self) -> &Connection {
        &self.connection
    }

    /// Keeps a token for a person until an instant (seconds since 1970).
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn give(
        &self,
        kind: Token,
        token: &str,
        person: PersonId,
        until: i64,
    ) -> Result<(), StoreError> {
        let sql = format!(
            "INSERT INTO {} (token, person, until) VALUES (?1, ?2, ?3)",
            kind.table()
        );
        self.connection
            .execute(&sql, params![digest(token), person.to_string(), until])
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Whose token it is, if it is still good at `now`.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn whose(
        &self,
        kind: Token,
        token: &str,
        now: i64,
    ) -> Result<Option<PersonId>, StoreError> {
        let sql = format!(
            "SELECT person FROM {} WHERE token = ?1 AND until > ?2",
            kind.table()
        );
        let mut found = self
            .connection
            .prepare_cached(&sql)
            .map_err(StoreError::of(&self.path))?;
        let mut rows = found
            .query(params![digest(token), now])
            .map_err(StoreError::of(&self.path))?;
        let row = rows.next().map_err(StoreError::of(&self.path))?;
        Ok(row
            .and_then(|row| row.get::<_, String>(0).ok())
            .and_then(|id| id.parse().ok()))
    }

    /// Takes a token away; also every one that has run out.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn take(&self, kind: Token, token: &str, now: i64) -> Result<(), StoreError> {
        let sql = format!(
            "DELETE FROM {} WHERE token = ?1 OR until <= ?2",
            kind.table()
        );
        self.connection
            .execute(&sql, params![digest(token), now])
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Takes note of a guess at the passphrase of a name at `now` (seconds since 1970), before it is
    /// tried; a right one is taken back with [`Keys::forgive`]. A name that is nobody's is counted alike.
    ///
    /// Gives the seconds still to wait where the guess may not be tried yet; it is not counted then.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn guess(&mut self, name: &str, now: i64) -> Result<Option<i64>, StoreError> {
        let sql = StoreError::of(&self.path);
        // Locked from the start, so that guesses made at once are counted one after the other.
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&sql)?;
        let name = digest(&folded(name));
        let so_far: Option<(i64, i64)> = change
            .query_row(
                "SELECT wrong, last FROM guess WHERE name = ?1 AND last > ?2",
                params![name, now - FORGOTTEN],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .optional()
            .map_err(&sql)?;
        let (wrong, last) = so_far.unwrap_or((0, now));
        if last > now {
            // The clock was set back: the wait begins anew, or it would last until the old hour comes again.
            change
                .execute(
                    "UPDATE guess SET last = ?1 WHERE name = ?2",
                    params![now, name],
                )
                .map_err(&sql)?;
        }
        let left = last.min(now) + wait(wrong) - now;
        if left > 0 {
            change.commit().map_err(&sql)?;
            return Ok(Some(left));
        }
        change
            .execute("DELETE FROM guess WHERE last <= ?1", [now - FORGOTTEN])
            .map_err(&sql)?;
        change
            .execute(
                "INSERT OR REPLACE INTO guess (name, wrong, last) VALUES (?1, ?2, ?3)",
                params![name, wrong + 1, now],
            )
            .map_err(&sql)?;
        change.commit().map_err(&sql)?;
        Ok(None)
    }

    /// Forgets the guesses at a name: the right passphrase was given, or a link was followed.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn forgive(&self, name: &str) -> Result<(), StoreError> {
        self.connection
            .execute("DELETE FROM guess WHERE name = ?1", [digest(&folded(name))])
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// The hash of a person's passphrase, if they have set one.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn passphrase(&self, person: PersonId) -> Result<Option<String>, StoreError> {
        let mut found = self
            .connection
            .prepare_cached("SELECT hash FROM passphrase WHERE person = ?1")
            .map_err(StoreError::of(&self.path))?;
        let mut rows = found
            .query([person.to_string()])
            .map_err(StoreError::of(&self.path))?;
        let row = rows.next().map_err(StoreError::of(&self.path))?;
        Ok(row.and_then(|row| row.get(0).ok()))
    }

    /// Sets the hash of a person's passphrase, and ends their sessions and what devices hold of theirs.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn set_passphrase(&mut self, person: PersonId, hash: &str) -> Result<(), StoreError> {
        let sql = StoreError::of(&self.path);
        let change = self.connection.transaction().map_err(&sql)?;
        let id = person.to_string();
        change
            .execute(
                "INSERT INTO passphrase (person, hash) VALUES (?1, ?2) ON CONFLICT (person) DO UPDATE SET hash = excluded.hash",
                params![id, hash],
            )
            .map_err(&sql)?;
        for table in ["session", "pocket"] {
            let ends = format!("DELETE FROM {table} WHERE person = ?1");
            change.execute(&ends, [&id]).map_err(&sql)?;
        }
        change.commit().map_err(&sql)
    }

    /// The units a person reads in, if they have chosen any.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn house(&self, person: PersonId) -> Result<Option<House>, StoreError> {
        let mut found = self
            .connection
            .prepare_cached("SELECT house FROM reader WHERE person = ?1")
            .map_err(StoreError::of(&self.path))?;
        let mut rows = found
            .query([person.to_string()])
            .map_err(StoreError::of(&self.path))?;
        let row = rows.next().map_err(StoreError::of(&self.path))?;
        Ok(row
            .and_then(|row| row.get::<_, String>(0).ok())
            .and_then(|word| word.parse().ok()))
    }

    /// Keeps the units a person reads in; none is to read in the shop's.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn set_house(&self, person: PersonId, house: Option<House>) -> Result<(), StoreError> {
        let person = person.to_string();
        let done = match house {
            Some(house) => self.connection.execute(
                "INSERT INTO reader (person, house) VALUES (?1, ?2) ON CONFLICT (person) DO UPDATE SET house = excluded.house",
                params![person, house.to_string()],
            ),
            None => self
                .connection
                .execute("DELETE FROM reader WHERE person = ?1", [person]),
        };
        done.map(|_| ()).map_err(StoreError::of(&self.path))
    }
}

/// How long to wait after so many wrong guesses, in seconds.
fn wait(wrong: i64) -> i64 {
    match wrong - FREE_GUESSES {
        over if over < 0 => 0,
        // Ten doublings are past the longest wait.
        over => (FIRST_WAIT << over.min(10)).min(LONGEST_WAIT),
    }
}

/// A name as it is counted: blanks around it and large letters make no other name.
fn folded(name: &str) -> String {
    name.trim().to_lowercase()
}

/// Lets nobody but its owner read a file of keys. Where the file system knows no owners, it stays as it is.
pub(crate) fn owner_only(path: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let _ = std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o600));
}

pub(crate) fn digest(token: &str) -> Vec<u8> {
    Sha256::digest(token.as_bytes()).to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_token_is_good_until_its_time_and_only_as_given() {
        let folder = std::env::temp_dir().join(format!("outshop-keys-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let book = folder.join("shop.book");
        let mut keys = Keys::beside(&book).unwrap();
        let ada = PersonId(7);
        keys.give(Token::Link, "abc", ada, 100).unwrap();
        assert_eq!(keys.whose(Token::Link, "abc", 99).unwrap(), Some(ada));
        assert_eq!(keys.whose(Token::Link, "abc", 100).unwrap(), None);
        assert_eq!(keys.whose(Token::Link, "abd", 99).unwrap(), None);
        assert_eq!(keys.whose(Token::Session, "abc", 99).unwrap(), None);
        keys.take(Token::Link, "abc", 0).unwrap();
        assert_eq!(keys.whose(Token::Link, "abc", 99).unwrap(), None);

        keys.give(Token::Session, "s", ada, 100).unwrap();
        keys.set_passphrase(ada, "hash").unwrap();
        assert_eq!(keys.passphrase(ada).unwrap().as_deref(), Some("hash"));
        assert_eq!(
            keys.whose(Token::Session, "s", 1).unwrap(),
            None,
            "a new passphrase ends old sessions"
        );
        // In which units somebody reads is kept for that person, until it is taken back.
        assert_eq!(keys.house(ada).unwrap(), None);
        keys.set_house(ada, Some(House::Metric)).unwrap();
        keys.set_house(PersonId(8), Some(House::Inch)).unwrap();
        assert_eq!(keys.house(ada).unwrap(), Some(House::Metric));
        keys.set_house(ada, None).unwrap();
        assert_eq!(keys.house(ada).unwrap(), None);
        // The token itself is nowhere in the file.
        keys.give(Token::Session, "a-secret-token", ada, 100)
            .unwrap();
        drop(keys);
        let bytes = std::fs::read(folder.join("shop.book.keys")).unwrap();
        assert!(!bytes.windows(14).any(|w| w == b"a-secret-token"));
        std::fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn waits_grow_after_five_wrong_guesses_and_end() {
        let folder = std::env::temp_dir().join(format!("outshop-guesses-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let book = folder.join("shop.book");
        let mut keys = Keys::beside(&book).unwrap();
        for second in 0..FREE_GUESSES {
            assert_eq!(keys.guess("Ada Quill", second).unwrap(), None);
        }
        let mut now = FREE_GUESSES - 1;
        let mut waits = Vec::new();
        for _ in 0..10 {
            let left = keys.guess(" ada quill", now).unwrap().unwrap();
            waits.push(left);
            // Asking again does not make it longer, and it is over to the second.
            assert_eq!(keys.guess("Ada Quill", now + left - 1).unwrap(), Some(1));
            now += left;
            assert_eq!(keys.guess("Ada Quill", now).unwrap(), None);
        }
        assert_eq!(waits, [10, 20, 40, 80, 160, 320, 640, 900, 900, 900]);
        // Another name is another count; the count outlives the open file.
        assert_eq!(keys.guess("Ben Ostrow", now).unwrap(), None);
        drop(keys);
        let mut keys = Keys::beside(&book).unwrap();
        assert_eq!(keys.guess("Ada Quill", now).unwrap(), Some(900));
        // A clock set back does not lengthen the wait without end.
        assert_eq!(keys.guess("Ada Quill", 100).unwrap(), Some(900));
        assert_eq!(keys.guess("Ada Quill", 101).unwrap(), Some(899));
        assert_eq!(keys.guess("Ada Quill", now + FORGOTTEN).unwrap(), None);
        assert_eq!(keys.guess("Ada Quill", now + FORGOTTEN).unwrap(), None);
        for _ in 0..3 {
            keys.guess("Ada Quill", now + FORGOTTEN).unwrap();
        }
        assert!(keys.guess("Ada Quill", now + FORGOTTEN).unwrap().is_some());
        keys.forgive("ADA QUILL ").unwrap();
        assert_eq!(keys.guess("Ada Quill", now + FORGOTTEN).unwrap(), None);
        drop(keys);
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
