//! Bytes that nobody can guess, for codes and cookies.

use sha2::{Digest, Sha256};
use std::hash::BuildHasher;
use std::io::Read;

/// Thirty-two bytes from the system's own source of chance.
///
/// Where the system has no such file, they are made of the keys that the standard library draws from the
/// system for its hashing: four words of a keyed function of 128 bits, put through SHA-256.
#[allow(
    clippy::disallowed_types,
    reason = "that it is seeded anew in every run is what is wanted here"
)]
pub fn bytes() -> [u8; 32] {
    let mut drawn = [0; 32];
    let read = std::fs::File::open("/dev/urandom").and_then(|mut file| file.read_exact(&mut drawn));
    if read.is_ok() {
        return drawn;
    }
    let mut mixed = Sha256::new();
    for word in 0..4_u64 {
        mixed.update(std::hash::RandomState::new().hash_one(word).to_le_bytes());
    }
    mixed.finalize().into()
}

#[cfg(test)]
mod tests {
    #[test]
    fn no_two_draws_are_the_same() {
        let all: std::collections::BTreeSet<[u8; 32]> = (0..100).map(|_| super::bytes()).collect();
        assert_eq!(all.len(), 100);
    }
}
