//! Where ids come from: the machine's randomness, or a seed so that the demonstration is the same twice.

use sha2::{Digest, Sha256};

use crate::Failure;

/// A source of ids.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ids {
    /// The machine's randomness.
    Random,
    /// A seed and how many ids it has given.
    Seeded(String, u64),
}

impl Ids {
    /// The next id.
    ///
    /// # Errors
    /// If the machine gives no randomness.
    pub fn draw(&mut self) -> Result<u128, Failure> {
        match self {
            Ids::Random => {
                let mut bytes = [0; 16];
                getrandom::fill(&mut bytes).map_err(|e| {
                    Failure::Machine(format!("The machine gives no randomness: {e}."))
                })?;
                Ok(u128::from_be_bytes(bytes))
            }
            Ids::Seeded(seed, given) => {
                *given += 1;
                let digest = Sha256::new()
                    .chain_update(seed.as_bytes())
                    .chain_update(given.to_be_bytes())
                    .finalize();
                Ok(digest
                    .iter()
                    .take(16)
                    .fold(0, |id, byte| (id << 8) | u128::from(*byte)))
            }
        }
    }
}
