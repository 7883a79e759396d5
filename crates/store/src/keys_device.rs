//! Devices of the bench that were enrolled, and the short codes that serve on one of them.
//!
//! A code is short, so it is worth nothing by itself: it is kept for one device and hashed together with that
//! device's own long token, which lies on the device alone. After a few wrong guesses it is taken away.

use rusqlite::{OptionalExtension, TransactionBehavior, params};
use shop::book::PersonId;

use crate::error::StoreError;
use crate::keys::{Keys, digest};

/// Wrong guesses at a code before it is taken away and has to be set anew with the passphrase.
pub const CODE_GUESSES: i64 = 5;

/// A device that was enrolled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Device {
    /// What the shop calls it.
    pub name: String,
    /// Who enrolled it.
    pub enrolled_by: PersonId,
    /// When, in seconds since 1970.
    pub since: i64,
}

/// What there is to hold a code against.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Code {
    /// None was set on this device.
    None,
    /// Its hash. The guess is counted; [`Keys::right_code`] takes it back.
    Hash(String),
    /// It was guessed wrong too often and is gone.
    Spent,
}

impl Keys {
    /// Enrols a device under a name.
    ///
    /// # Errors
    /// If the name is taken, or the file cannot be written.
    pub fn enrol(
        &self,
        token: &str,
        name: &str,
        by: PersonId,
        now: i64,
    ) -> Result<bool, StoreError> {
        let made = self
            .connection
            .execute(
                "INSERT OR IGNORE INTO device (token, name, enrolled_by, since) VALUES (?1, ?2, ?3, ?4)",
                params![digest(token), name, by.to_string(), now],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(made == 1)
    }

    /// The device of a token, if it is enrolled.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn device(&self, token: &str) -> Result<Option<Device>, StoreError> {
        self.connection
            .query_row(
                "SELECT name, enrolled_by, since FROM device WHERE token = ?1",
                [digest(token)],
                device_of,
            )
            .optional()
            .map_err(StoreError::of(&self.path))
    }

    /// Every device, by name.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn devices(&self) -> Result<Vec<Device>, StoreError> {
        let sql = StoreError::of(&self.path);
        let mut found = self
            .connection
            .prepare_cached("SELECT name, enrolled_by, since FROM device ORDER BY name")
            .map_err(&sql)?;
        let rows = found.query_map([], device_of).map_err(&sql)?;
        rows.collect::<Result<_, _>>().map_err(&sql)
    }

    /// Takes a device back: its codes are gone, and who is signed in on it is signed out.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn revoke(&mut self, name: &str) -> Result<bool, StoreError> {
        let sql = StoreError::of(&self.path);
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&sql)?;
        let of_it = "(SELECT token FROM device WHERE name = ?1)";
        for what in [
            format!(
                "DELETE FROM session WHERE token IN (SELECT session FROM session_on WHERE device IN {of_it})"
            ),
            format!(
                "DELETE FROM pocket WHERE token IN (SELECT session FROM session_on WHERE device IN {of_it})"
            ),
            format!("DELETE FROM session_on WHERE device IN {of_it}"),
            format!("DELETE FROM code WHERE device IN {of_it}"),
        ] {
            change.execute(&what, [name]).map_err(&sql)?;
        }
        let gone = change
            .execute("DELETE FROM device WHERE name = ?1", [name])
            .map_err(&sql)?;
        change.commit().map_err(&sql)?;
        Ok(gone == 1)
    }

    /// Notes that a session, or what a pocket holds, was begun on a device, so that it ends with it.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn begun_on(&self, session: &str, device: &str) -> Result<(), StoreError> {
        let sql = StoreError::of(&self.path);
        self.connection
            .execute(
                "DELETE FROM session_on WHERE session NOT IN (SELECT token FROM session UNION SELECT token FROM pocket)",
                [],
            )
            .map_err(&sql)?;
        self.connection
            .execute(
                "INSERT OR REPLACE INTO session_on (session, device) VALUES (?1, ?2)",
                params![digest(session), digest(device)],
            )
            .map_err(&sql)?;
        Ok(())
    }

    /// Keeps a person's code on a device, as a hash.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn set_code(&self, device: &str, person: PersonId, hash: &str) -> Result<(), StoreError> {
        self.connection
            .execute(
                "INSERT OR REPLACE INTO code (device, person, hash, wrong) VALUES (?1, ?2, ?3, 0)",
                params![digest(device), person.to_string(), hash],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Takes a person's codes back, on every device.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn forget_codes(&self, person: PersonId) -> Result<(), StoreError> {
        self.connection
            .execute("DELETE FROM code WHERE person = ?1", [person.to_string()])
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Who has a code on a device.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn with_code(&self, device: &str) -> Result<Vec<PersonId>, StoreError> {
        let sql = StoreError::of(&self.path);
        let mut found = self
            .connection
            .prepare_cached("SELECT person FROM code WHERE device = ?1 AND wrong < ?2")
            .map_err(&sql)?;
        let rows = found
            .query_map(params![digest(device), CODE_GUESSES], |row| {
                row.get::<_, String>(0)
            })
            .map_err(&sql)?;
        let ids: Vec<String> = rows.collect::<Result<_, _>>().map_err(&sql)?;
        Ok(ids.iter().filter_map(|id| id.parse().ok()).collect())
    }

    /// What a guess at a person's code on a device is held against; the guess is counted before it is tried.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn guess_code(&mut self, device: &str, person: PersonId) -> Result<Code, StoreError> {
        let sql = StoreError::of(&self.path);
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&sql)?;
        let key = params![digest(device), person.to_string()];
        let kept: Option<(String, i64)> = change
            .query_row(
                "SELECT hash, wrong FROM code WHERE device = ?1 AND person = ?2",
                key,
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .optional()
            .map_err(&sql)?;
        let code = match kept {
            None => Code::None,
            Some((_, wrong)) if wrong >= CODE_GUESSES => Code::Spent,
            Some((hash, _)) => {
                change
                    .execute(
                        "UPDATE code SET wrong = wrong + 1 WHERE device = ?1 AND person = ?2",
                        key,
                    )
                    .map_err(&sql)?;
                Code::Hash(hash)
            }
        };
        change.commit().map_err(&sql)?;
        Ok(code)
    }

    /// The code was right: the guesses at it are forgotten.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn right_code(&self, device: &str, person: PersonId) -> Result<(), StoreError> {
        self.connection
            .execute(
                "UPDATE code SET wrong = 0 WHERE device = ?1 AND person = ?2",
                params![digest(device), person.to_string()],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }
}

fn device_of(row: &rusqlite::Row<'_>) -> rusqlite::Result<Device> {
    let by: String = row.get(1)?;
    Ok(Device {
        name: row.get(0)?,
        enrolled_by: by.parse().unwrap_or(PersonId(0)),
        since: row.get(2)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::keys::Token;

    #[test]
    fn a_code_serves_on_its_device_for_a_few_guesses_and_ends_with_it() {
        let folder = std::env::temp_dir().join(format!("outshop-devices-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let mut keys = Keys::beside(&folder.join("shop.book")).unwrap();
        let (ada, ben) = (PersonId(7), PersonId(8));
        assert!(keys.enrol("token-1", "bench phone", ada, 100).unwrap());
        assert!(
            !keys.enrol("token-2", "bench phone", ada, 100).unwrap(),
            "one name, one device"
        );
        assert_eq!(keys.device("token-1").unwrap().unwrap().name, "bench phone");
        assert_eq!(keys.device("token-2").unwrap(), None);
        keys.set_code("token-1", ada, "hash").unwrap();
        assert_eq!(keys.guess_code("token-2", ada).unwrap(), Code::None);
        assert_eq!(keys.guess_code("token-1", ben).unwrap(), Code::None);
        // A right guess takes all back; wrong ones add up and the code is gone.
        for _ in 0..CODE_GUESSES - 1 {
            assert_eq!(
                keys.guess_code("token-1", ada).unwrap(),
                Code::Hash("hash".into())
            );
        }
        keys.right_code("token-1", ada).unwrap();
        for _ in 0..CODE_GUESSES {
            assert_eq!(
                keys.guess_code("token-1", ada).unwrap(),
                Code::Hash("hash".into())
            );
        }
        assert_eq!(keys.guess_code("token-1", ada).unwrap(), Code::Spent);
        assert_eq!(keys.with_code("token-1").unwrap(), []);
        keys.set_code("token-1", ada, "new").unwrap();
        assert_eq!(keys.with_code("token-1").unwrap(), [ada]);
        // With the device goes who is signed in on it, and nobody else.
        keys.give(Token::Session, "on-it", ada, 1000).unwrap();
        keys.begun_on("on-it", "token-1").unwrap();
        keys.give(Token::Session, "desk", ada, 1000).unwrap();
        for (token, device) in [("in-its-pocket", "token-1"), ("in-another", "token-2")] {
            keys.give(Token::Pocket, token, ada, 1000).unwrap();
            keys.begun_on(token, device).unwrap();
        }
        assert_eq!(keys.whose(Token::Session, "in-another", 1).unwrap(), None);
        assert!(keys.revoke("bench phone").unwrap());
        assert!(!keys.revoke("bench phone").unwrap());
        assert_eq!(keys.whose(Token::Session, "on-it", 1).unwrap(), None);
        assert_eq!(keys.whose(Token::Session, "desk", 1).unwrap(), Some(ada));
        assert_eq!(keys.whose(Token::Pocket, "in-its-pocket", 1).unwrap(), None);
        assert_eq!(
            keys.whose(Token::Pocket, "in-another", 1).unwrap(),
            Some(ada)
        );
        // A new passphrase ends what any device holds of theirs.
        keys.set_passphrase(ada, "hash").unwrap();
        assert_eq!(keys.whose(Token::Pocket, "in-another", 1).unwrap(), None);
        assert_eq!(keys.guess_code("token-1", ada).unwrap(), Code::None);
        drop(keys);
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
