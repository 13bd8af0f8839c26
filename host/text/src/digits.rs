//! Numbers as people read them.

/// Whole digits with their thousands apart, 12345678 as 12,345,678; anything else as it is.
#[must_use]
pub fn thousands(digits: &str) -> String {
    if !digits.bytes().all(|b| b.is_ascii_digit()) {
        return digits.to_owned();
    }
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::thousands;

    #[test]
    fn numbers_are_read_by_their_thousands() {
        let read = ["0", "999", "1000", "128000000", "9.21", "-1000"].map(thousands);
        assert_eq!(read, ["0", "999", "1,000", "128,000,000", "9.21", "-1000"]);
    }
}
