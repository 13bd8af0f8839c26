//! Which of two versions of a pack is the older one.

use semver::Version;
use std::cmp::Ordering;

/// The order of two versions by the rules of Semantic Versioning 2.0.0; numbers that are left out are zero, so that `2` is
/// `2.0.0`, and a day like `2026-06-14` comes before a later one. None where one of them is no such version.
#[must_use]
pub fn order(a: &str, b: &str) -> Option<Ordering> {
    Some(version(a)?.cmp_precedence(&version(b)?))
}

fn version(text: &str) -> Option<Version> {
    let text = text.trim();
    let end = text.find(['-', '+']).unwrap_or(text.len());
    let (numbers, rest) = text.split_at(end);
    let mut three = ["0", "0", "0"];
    let given: Vec<&str> = numbers.split('.').collect();
    for (at, number) in given.iter().enumerate() {
        let digits = number.trim_start_matches('0');
        *three.get_mut(at)? = match (number.is_empty(), digits) {
            (true, _) => return None,
            (false, "") => "0",
            (false, digits) => digits,
        };
    }
    // a day's month and day, 06-14, are one word and are compared as such
    Version::parse(&format!("{}{rest}", three.join("."))).ok()
}

#[cfg(test)]
mod tests {
    use super::order;
    use std::cmp::Ordering::{Equal, Greater, Less};

    #[test]
    fn versions_stand_in_the_order_of_the_standard_and_short_ones_are_filled_up() {
        for (a, b, wanted) in [
            ("1.0.0", "2.0.0", Less),
            ("2.0.0", "2.1.0", Less),
            ("2.1.0", "2.1.1", Less),
            ("1.0.0-alpha", "1.0.0-alpha.1", Less),
            ("1.0.0-beta.2", "1.0.0-beta.11", Less),
            ("1.0.0-rc.1", "1.0.0", Less),
            ("1.0.0+a", "1.0.0+b", Equal),
            ("9", "10", Less),
            ("1.10", "1.9", Greater),
            ("1", "1.0.0", Equal),
            ("2026-06-14", "2026-07-01", Less),
            ("2026-12-31", "2027-01-01", Less),
            ("2026.06.14", "2026.6.2", Greater),
        ] {
            assert_eq!(order(a, b), Some(wanted), "{a} {b}");
            assert_eq!(order(b, a), Some(wanted.reverse()), "{b} {a}");
        }
        for other in ["spring", "", "1..2", "1.2.3.4", "v2", "1.0_2", "99999999999999999999"] {
            assert_eq!(order(other, "1"), None, "{other}");
        }
    }
}
