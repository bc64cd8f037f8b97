//! Names made from content.

use sha2::{Digest as _, Sha256};

/// The SHA-256 of the bytes, in small hexadecimal digits.
pub(crate) fn sha256(bytes: impl AsRef<[u8]>) -> String {
    format!("{:x}", Sha256::digest(bytes))
}
