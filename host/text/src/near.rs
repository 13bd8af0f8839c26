//! Words for a message: the one that was meant, and those that there are.

/// The word nearest to what was written, if any is near enough to have been meant: a third of its letters may be wrong,
/// and four at the most.
#[must_use]
pub fn nearest<'a>(written: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let written: String = written.chars().take(64).collect::<String>().to_lowercase().replace(['_', ' '], "-");
    words
        .map(|word| (strsim::damerau_levenshtein(&written, &word.to_lowercase()), word))
        .filter(|(distance, word)| *distance <= (word.chars().count().max(written.chars().count()) / 3).min(4))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, word)| word)
}

/// "a, b or c".
#[must_use]
pub fn list(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_is_known_and_another_word_is_not() {
        let words = ["bore", "stroke", "rod-bearing.clearance"];
        let near = |written: &str| nearest(written, words.into_iter());
        assert_eq!(near("Bor"), Some("bore"));
        assert_eq!(near("strokes"), Some("stroke"));
        assert_eq!(near("rod_bearing clearence"), Some("rod-bearing.clearance"));
        assert_eq!((near("deck"), near(""), near("borxyz")), (None, None, None));
    }

    #[test]
    fn the_last_word_of_a_list_stands_behind_an_or() {
        assert_eq!([list(&[]), list(&["a"]), list(&["a", "b", "c"])], ["", "a", "a, b or c"]);
    }
}
