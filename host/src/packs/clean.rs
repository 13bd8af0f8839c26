//! Takes the teeth out of text that somebody else wrote, before it can reach a terminal or a page.

/// The text without control and bidirectional characters: an escape code cannot colour, move or hide anything, and a
/// direction mark cannot make a limit read backwards. Line breaks and tabs become spaces.
///
/// What goes: C0, DEL and C1 controls, the directional formatting characters of Unicode Standard Annex 9, zero-width
/// characters and the invisible tag characters.
#[must_use]
pub fn clean(text: &str) -> String {
    text.chars().filter_map(kept).collect()
}

/// Like [`clean`], cut after `most` characters with an ellipsis.
#[must_use]
pub fn clip(text: &str, most: usize) -> String {
    let mut kept = text.chars().filter_map(kept);
    let mut short: String = kept.by_ref().take(most).collect();
    if kept.next().is_some() {
        short.push('…');
    }
    short
}

fn kept(c: char) -> Option<char> {
    match c {
        '\n' | '\r' | '\t' | '\u{85}' | '\u{2028}' | '\u{2029}' => Some(' '),
        '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' => None,
        '\u{e0000}'..='\u{e007f}' => None,
        c if c.is_control() => None,
        c => Some(c),
    }
}

/// Cleans every string of a JSON value in place, keys left alone: a key that is not known is refused anyway.
pub(crate) fn clean_json(value: &mut serde_json::Value) {
    match value {
        serde_json::Value::String(text) if text.chars().any(|c| kept(c) != Some(c)) => *text = clean(text),
        serde_json::Value::Array(list) => list.iter_mut().for_each(clean_json),
        serde_json::Value::Object(map) => map.values_mut().for_each(clean_json),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escape_codes_and_direction_marks_go() {
        assert_eq!(clean("a\u{1b}[31mred\u{7}"), "a[31mred");
        assert_eq!(clean("0.004\u{202e}500.0\u{2066}x\u{9b}2J"), "0.004500.0x2J");
        assert_eq!(clean("one\r\ntwo\tthree"), "one  two three");
        assert_eq!(clean("µm, °F, 0.5 · ½"), "µm, °F, 0.5 · ½");
    }

    #[test]
    fn a_long_text_is_cut_and_says_so() {
        assert_eq!(clip("abcdef", 3), "abc…");
        assert_eq!(clip("abc", 3), "abc");
        assert_eq!(clip("\u{1b}abc\u{1b}", 3), "abc");
    }
}
