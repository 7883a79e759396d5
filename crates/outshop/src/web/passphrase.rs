//! A passphrase as it is kept: hashed by Argon2id, in the lesser of the memories that are held to be as strong.

use argon2::password_hash::rand_core::OsRng;
use argon2::password_hash::{PasswordHash, PasswordHasher, PasswordVerifier, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};

use crate::Failure;

/// Memory, in KiB, and turns: one of the pairs that the OWASP Password Storage Cheat Sheet names as equal (19 MiB and 2,
/// 12 MiB and 3, 9 MiB and 4, 7 MiB and 5; from memory). The allocator keeps what one sign-in took, so the lesser is taken.
const MEMORY: u32 = 9 * 1024;
const TURNS: u32 = 4;

/// The hash of a passphrase, with its salt and its costs.
///
/// # Errors
/// If the machine gives no chance for the salt.
pub fn hash(passphrase: &str) -> Result<String, Failure> {
    let failed = |why: String| Failure::Machine(why);
    let params = Params::new(MEMORY, TURNS, 1, None).map_err(|e| failed(e.to_string()))?;
    let salt = SaltString::generate(&mut OsRng);
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
        .hash_password(passphrase.as_bytes(), &salt)
        .map(|hash| hash.to_string())
        .map_err(|e| failed(e.to_string()))
}

/// Whether it is the passphrase of this hash, at the costs the hash was made with.
pub fn is_of(passphrase: &str, hash: &str) -> bool {
    PasswordHash::new(hash).is_ok_and(|hash| {
        Argon2::default()
            .verify_password(passphrase.as_bytes(), &hash)
            .is_ok()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_own_passphrase_and_no_other_and_one_of_older_costs() {
        let kept = hash("blue ring of contact").unwrap();
        assert!(kept.starts_with("$argon2id$v=19$m=9216,t=4,p=1$"), "{kept}");
        assert!(is_of("blue ring of contact", &kept));
        assert!(!is_of("blue ring of contact ", &kept));
        assert!(!is_of("blue ring of contact", "no hash"));
        assert_ne!(hash("blue ring of contact").unwrap(), kept, "no salt");
        let salt = SaltString::generate(&mut OsRng);
        let older = Argon2::default()
            .hash_password(b"as before", &salt)
            .unwrap();
        assert!(is_of("as before", &older.to_string()));
    }
}
