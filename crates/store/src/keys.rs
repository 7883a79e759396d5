//! The keys beside a book: passphrase hashes, one-time links and sessions, never part of the record.
//!
//! They live in `BOOK.keys` so that a book can be copied, exported or printed without them. Tokens are
//! kept as SHA-256 only: who reads this file cannot sign in with it. What time it is is an argument.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, params};
use sha2::{Digest, Sha256};
use shop::book::PersonId;

use crate::error::StoreError;

const LAYOUT: &str = "
CREATE TABLE IF NOT EXISTS passphrase (person TEXT PRIMARY KEY, hash TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS link (token BLOB PRIMARY KEY, person TEXT NOT NULL, until INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS session (token BLOB PRIMARY KEY, person TEXT NOT NULL, until INTEGER NOT NULL) STRICT;
";

/// The open keys of a book.
pub struct Keys {
    connection: Connection,
    path: PathBuf,
}

/// Which kind of token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Token {
    /// A link that signs a person in once.
    Link,
    /// A signed-in session.
    Session,
}

impl Token {
    fn table(self) -> &'static str {
        match self {
            Token::Link => "link",
            Token::Session => "session",
        }
    }
}

impl Keys {
    /// Opens the keys beside a book, making the file if there is none.
    ///
    /// # Errors
    /// If the file cannot be opened or made.
    pub fn beside(book: &Path) -> Result<Keys, StoreError> {
        let mut name = book.as_os_str().to_owned();
        name.push(".keys");
        let path = PathBuf::from(name);
        let connection = Connection::open(&path).map_err(StoreError::of(&path))?;
        connection
            .execute_batch(&format!(
                "PRAGMA busy_timeout = 5000; PRAGMA secure_delete = ON;{LAYOUT}"
            ))
            .map_err(StoreError::of(&path))?;
        Ok(Keys { connection, path })
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

    /// Sets the hash of a person's passphrase, and ends their sessions.
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
        change
            .execute("DELETE FROM session WHERE person = ?1", [id])
            .map_err(&sql)?;
        change.commit().map_err(&sql)
    }
}

fn digest(token: &str) -> Vec<u8> {
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
        // The token itself is nowhere in the file.
        keys.give(Token::Session, "a-secret-token", ada, 100)
            .unwrap();
        drop(keys);
        let bytes = std::fs::read(folder.join("shop.book.keys")).unwrap();
        assert!(!bytes.windows(14).any(|w| w == b"a-secret-token"));
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
