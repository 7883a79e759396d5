//! One entry as stored, and the hash that chains it to the one before.

use sha2::{Digest, Sha256};

/// A SHA-256 hash.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Hash(pub [u8; 32]);

impl Hash {
    /// What stands before the first entry.
    pub const NONE: Hash = Hash([0; 32]);
}

impl std::fmt::Display for Hash {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// An entry exactly as its row holds it: raw bytes, so that a damaged row can still be named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its number.
    pub seq: i64,
    /// Its id, as text.
    pub id: Vec<u8>,
    /// Its batch, if it has one.
    pub batch: Option<Vec<u8>>,
    /// The device it was made on.
    pub device: Vec<u8>,
    /// Who states it.
    pub person: Vec<u8>,
    /// The day the work was done.
    pub done_on: Vec<u8>,
    /// The instant it was entered.
    pub recorded_at: Vec<u8>,
    /// The kind of statement.
    pub kind: Vec<u8>,
    /// The form of its body.
    pub form: i64,
    /// The body.
    pub body: Vec<u8>,
    /// The entry it stands instead of.
    pub supersedes: Option<Vec<u8>>,
    /// The hash of the entry before it.
    pub prev: Vec<u8>,
    /// Its own hash.
    pub hash: Vec<u8>,
}

/// Distinguishes this way of hashing from any later one.
const TAG: &[u8] = b"outshop entry 1";

impl Entry {
    /// The hash over the tag and every stored column, each with its length before it, in this order.
    /// Never over a value written out again: what is hashed is what lies on the disk.
    pub fn digest(&self) -> Hash {
        let mut hasher = Sha256::new();
        let mut take = |bytes: &[u8]| {
            hasher.update((bytes.len() as u64).to_be_bytes());
            hasher.update(bytes);
        };
        take(TAG);
        take(self.seq.to_string().as_bytes());
        take(&self.id);
        for optional in [&self.batch, &self.supersedes] {
            match optional {
                None => take(b"-"),
                Some(bytes) => {
                    take(b"+");
                    take(bytes);
                }
            }
        }
        for column in [
            &self.device,
            &self.person,
            &self.done_on,
            &self.recorded_at,
            &self.kind,
        ] {
            take(column);
        }
        take(self.form.to_string().as_bytes());
        take(&self.body);
        take(&self.prev);
        Hash(hasher.finalize().into())
    }

    /// Its number as the rest of the house counts it.
    pub fn number(&self) -> u64 {
        u64::try_from(self.seq).unwrap_or(0)
    }

    /// What is wrong with it, given the hash that should stand before it; nothing if it is whole.
    pub fn fault(&self, before: Hash) -> Option<String> {
        if self.prev != before.0 {
            return Some("does not follow the entry before it".into());
        }
        if self.hash != self.digest().0 {
            return Some("is not what was hashed when it was entered".into());
        }
        None
    }
}
