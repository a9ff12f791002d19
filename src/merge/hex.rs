//! Sums as text.

use std::fmt::Write;

/// A sum as its hexadecimal digits: how a record and a manifest write a SHA-256.
#[must_use]
pub fn hex(bytes: &[u8]) -> String {
    bytes
        .iter()
        .fold(String::with_capacity(2 * bytes.len()), |mut text, byte| {
            // Writing to a string does not fail.
            let _ = write!(text, "{byte:02x}");
            text
        })
}
