//! Names as people type them.

/// A name as names are compared: without case and blanks, so that "R 21" is "r21".
#[must_use]
pub fn same_name(name: &str) -> String {
    name.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::same_name;

    #[test]
    fn case_and_blanks_tell_no_names_apart() {
        assert_eq!(same_name(" R  21 "), same_name("r21"));
        assert_ne!(same_name("R 2"), same_name("R 21"));
    }
}
