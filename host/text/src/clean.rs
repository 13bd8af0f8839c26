//! Takes the teeth out of text that somebody else wrote, before it can reach a terminal or a page.

/// The text without control and bidirectional characters: an escape code cannot colour, move or hide anything, and a
/// direction mark cannot make a limit read backwards. Line breaks and tabs become spaces.
///
/// What goes: C0, DEL and C1 controls, the directional formatting characters of Unicode Standard Annex 9, and every
/// character that is drawn as nothing: zero-width ones, fillers, soft hyphens, variation selectors, tags.
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
        // marks of direction, and what Unicode has drawn as nothing (Default_Ignorable_Code_Point of
        // DerivedCoreProperties.txt): a name with one of these in it looks like another
        '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' => None,
        '\u{ad}' | '\u{34f}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180f}' => None,
        '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}' => None,
        '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e0fff}' => None,
        c if c.is_control() => None,
        c => Some(c),
    }
}

/// The text as it stands, each character that [`clean`] takes out as a visible one of the same length in bytes: for a
/// line that is shown beside its carets, which count bytes. Line breaks and tabs stay.
#[must_use]
pub fn visible(text: &str) -> std::borrow::Cow<'_, str> {
    let hidden = |c: char| !matches!(c, '\n' | '\r' | '\t') && kept(c) != Some(c);
    if !text.contains(hidden) {
        return text.into();
    }
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c.len_utf8() {
            _ if !hidden(c) => out.push(c),
            1 => out.push('?'),
            2 => out.push('·'),
            3 => out.push('\u{fffd}'),
            _ => out.push_str("··"),
        }
    }
    out.into()
}

/// Cleans every string of a JSON value in place, keys left alone: a key that is not known is refused anyway.
pub fn clean_json(value: &mut serde_json::Value) {
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
        assert_eq!(clean("clear\u{ad}anc\u{180e}es\u{e0100}\u{3164}"), "clearances");
        assert_eq!(clean("µm, °F, 0.5 · ½"), "µm, °F, 0.5 · ½");
    }

    #[test]
    fn what_is_hidden_is_shown_in_the_same_place() {
        let text = "\"a\u{1b}b\u{9b}c\u{202e}d\u{e0041}e\":\t1\n";
        assert_eq!(visible(text), "\"a?b·c\u{fffd}d··e\":\t1\n");
        assert_eq!(visible(text).len(), text.len());
        assert!(matches!(visible("µm"), std::borrow::Cow::Borrowed("µm")));
    }

    #[test]
    fn a_long_text_is_cut_and_says_so() {
        assert_eq!(clip("abcdef", 3), "abc…");
        assert_eq!(clip("abc", 3), "abc");
        assert_eq!(clip("\u{1b}abc\u{1b}", 3), "abc");
    }
}
