//! What somebody has begun and not entered yet, kept beside the book: it is no entry, and nobody has stated it.

use rusqlite::{OptionalExtension, params};
use shop::book::PersonId;

use crate::error::StoreError;
use crate::keys::Keys;

impl Keys {
    /// What a person had begun of something, by its name.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn draft(&self, person: PersonId, of: &str) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row(
                "SELECT text FROM draft WHERE person = ?1 AND of = ?2",
                params![person.to_string(), of],
                |row| row.get(0),
            )
            .optional()
            .map_err(StoreError::of(&self.path))
    }

    /// Keeps it, in the place of what was kept of it before.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn keep_draft(&self, person: PersonId, of: &str, text: &str) -> Result<(), StoreError> {
        self.connection
            .execute(
                "INSERT OR REPLACE INTO draft (person, of, text) VALUES (?1, ?2, ?3)",
                params![person.to_string(), of, text],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Forgets it: it was entered, or given up.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn end_draft(&self, person: PersonId, of: &str) -> Result<(), StoreError> {
        self.connection
            .execute(
                "DELETE FROM draft WHERE person = ?1 AND of = ?2",
                params![person.to_string(), of],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_begun_is_its_own_persons_until_it_is_ended() {
        let folder = std::env::temp_dir().join(format!("outshop-drafts-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let book = folder.join("shop.book");
        let (ada, ben) = (PersonId(7), PersonId(8));
        let keys = Keys::beside(&book).unwrap();
        assert_eq!(keys.draft(ada, "a survey").unwrap(), None);
        keys.keep_draft(ada, "a survey", "one row").unwrap();
        keys.keep_draft(ada, "a survey", "two rows").unwrap();
        keys.keep_draft(ben, "a survey", "his own").unwrap();
        drop(keys);
        // It outlives the open file: a desk may be started again meanwhile.
        let keys = Keys::beside(&book).unwrap();
        assert_eq!(
            keys.draft(ada, "a survey").unwrap().as_deref(),
            Some("two rows")
        );
        keys.end_draft(ada, "a survey").unwrap();
        assert_eq!(keys.draft(ada, "a survey").unwrap(), None);
        assert_eq!(
            keys.draft(ben, "a survey").unwrap().as_deref(),
            Some("his own")
        );
        drop(keys);
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
