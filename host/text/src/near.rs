//! Words for a message: the one that was meant, and those that there are.

/// The word nearest to what was written, if any is near enough to have been meant: a third of its letters may be wrong,
/// and four at the most. Capitals, and what joins the parts of a word, are no difference. Of words that are as near, the
/// first.
#[must_use]
pub fn nearest<'a>(written: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    nearest_few(written, words, 1).first().copied()
}

/// So many words that may have been meant, the nearest first.
#[must_use]
pub fn nearest_few<'a>(written: &str, words: impl Iterator<Item = &'a str>, most: usize) -> Vec<&'a str> {
    let written = plain(&written.chars().take(64).collect::<String>());
    let mut near: Vec<(usize, &str)> = words
        .map(|word| (strsim::damerau_levenshtein(&written, &plain(word)), word))
        .filter(|(distance, word)| *distance <= (word.chars().count().max(written.chars().count()) / 3).min(4))
        .collect();
    near.sort_by_key(|(distance, _)| *distance);
    near.into_iter().map(|(_, word)| word).take(most).collect()
}

fn plain(word: &str) -> String {
    word.to_lowercase().replace(['_', ' '], "-")
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
        assert_eq!(nearest("rod-bolt", ["head bolts", "rod bolts"].into_iter()), Some("rod bolts"));
    }

    #[test]
    fn the_nearest_comes_first_and_of_words_as_near_the_first() {
        let words = ["top-gap", "oil-gap", "top-gaps", "end-play"];
        assert_eq!(nearest_few("top-gaps", words.into_iter(), 3), ["top-gaps", "top-gap"]);
        assert_eq!(nearest_few("tip-gap", words.into_iter(), 3), ["top-gap", "oil-gap", "top-gaps"]);
        assert_eq!(nearest_few("tip-gap", words.into_iter(), 1), ["top-gap"]);
    }

    #[test]
    fn the_last_word_of_a_list_stands_behind_an_or() {
        assert_eq!([list(&[]), list(&["a"]), list(&["a", "b", "c"])], ["", "a", "a, b or c"]);
    }
}
