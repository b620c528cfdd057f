//! By what a text is known again, and by what a page's own style is let through: its SHA-256.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// SHA-256 (FIPS 180-4) of bytes, in base64 (RFC 4648, 4), as a content security policy writes it.
pub fn base64(bytes: &[u8]) -> String {
    STANDARD.encode(Sha256::digest(bytes))
}

#[cfg(test)]
mod tests {
    /// FIPS 180-4's own example, "abc": ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c
    /// b410ff61 f20015ad.
    #[test]
    fn the_standards_example() {
        let known = "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=";
        assert_eq!(super::base64(b"abc"), known);
    }
}
