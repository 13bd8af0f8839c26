//! Bytes as they are printed: digests, keys.

use std::fmt::Write as _;

/// Two digits a byte, 0 to 9 and a to f.
#[must_use]
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    })
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_byte_is_two_digits() {
        assert_eq!(super::hex(&[0, 9, 0xab, 0xff]), "0009abff");
    }
}
