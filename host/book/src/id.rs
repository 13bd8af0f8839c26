//! Names of entries: short enough for a thumb, the same wherever the entry goes.

use sha2::{Digest, Sha256};
use thou_text::hex;

/// The letters of an id: digits and letters without those that look like another (i, l, o, u).
const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

/// An id from what makes the entry itself: eight letters, 40 bits.
pub(crate) fn id(parts: &[&str], again: u32) -> String {
    let mut hash = Sha256::new();
    for part in parts {
        hash.update((part.len() as u64).to_le_bytes());
        hash.update(part.as_bytes());
    }
    hash.update(again.to_le_bytes());
    let bits = hash.finalize().iter().take(5).fold(0_u64, |bits, byte| bits << 8 | u64::from(*byte));
    (0..8).map(|n| char::from(LETTERS.get((bits >> (35 - 5 * n) & 31) as usize).copied().unwrap_or(b'0'))).collect()
}

/// The digest of a text, as it is printed.
pub(crate) fn digest(text: &str) -> String {
    hex(&Sha256::digest(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_digest_is_that_of_the_standard() {
        // FIPS 180-4, the example of one block
        assert_eq!(digest("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn an_id_is_eight_plain_letters_and_hangs_on_every_part() {
        let one = id(&["0417", "a"], 0);
        assert_eq!(one.len(), 8);
        assert!(one.bytes().all(|b| LETTERS.contains(&b)), "{one}");
        assert_ne!(one, id(&["0417", "a"], 1));
        assert_ne!(one, id(&["0417a", ""], 0));
        assert_eq!(one, id(&["0417", "a"], 0));
    }
}
