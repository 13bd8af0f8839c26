//! Names that would pass for somebody else's: of a title stands behind every number of its pack, so it must be nobody
//! else's, and letters that look like others must not make it one.

/// What numbers rest on, as a page prints it and as a manifest writes it: no shop is called that.
const BASIS: [&str; 14] = [
    "physics",
    "maker",
    "the maker",
    "standard",
    "a standard",
    "published",
    "practice",
    "common practice",
    "common practice, no source",
    "this shop",
    "from memory",
    "thou",
    "host",
    "built in",
];

/// What is wrong with a pack's title, as the rest of a sentence.
#[must_use]
pub fn title_fault(title: &str) -> Option<String> {
    if let Some(mixed) = mixed(title) {
        return Some(mixed);
    }
    let own = shape(title);
    if let Some(word) = BASIS.into_iter().find(|word| shape(word) == own) {
        return Some(format!("is \"{title}\", and \"{word}\" is what numbers rest on: say whose these are"));
    }
    is_card(title).then(|| format!("is \"{title}\", and a card is a part maker's: say whose these numbers are"))
}

/// What is wrong with the words for whose one limit is. `own` are the words for what it rests on.
#[must_use]
pub fn whose_fault(whose: &str, own: &[&str]) -> Option<String> {
    if let Some(mixed) = mixed(whose) {
        return Some(mixed);
    }
    let shaped = shape(whose);
    let is_own = own.iter().any(|word| shape(word) == shaped);
    let taken = BASIS.into_iter().find(|word| shape(word) == shaped).filter(|_| !is_own);
    taken.map(|word| format!("is \"{whose}\", and \"{word}\" is not what it rests on"))
}

fn is_card(text: &str) -> bool {
    shape(text).ends_with(&shape("card"))
        && text.split_whitespace().next_back().is_some_and(|w| shape(w) == shape("card"))
}

/// A word of a text that has letters of two alphabets, as the rest of a sentence. Signs of units, as the micro sign, are of
/// every alphabet.
#[must_use]
pub fn mixed(text: &str) -> Option<String> {
    for word in text.split(|c: char| !c.is_alphanumeric()) {
        let mut first: Option<&str> = None;
        for c in word.chars() {
            let Some(alphabet) = alphabet(c) else { continue };
            match first {
                Some(first) if first != alphabet => {
                    return Some(format!(
                        "has letters of two alphabets in \"{word}\", where {} (U+{:04X}) is {alphabet} beside {first}: it would \
                         pass for another name",
                        c,
                        u32::from(c)
                    ));
                }
                _ => first = Some(alphabet),
            }
        }
    }
    None
}

/// The alphabet of a letter, where it is one of those that have letters like others'.
fn alphabet(c: char) -> Option<&'static str> {
    Some(match c {
        // mu and omega are signs of units
        '\u{3bc}' | '\u{3a9}' => return None,
        'a'..='z' | 'A'..='Z' | '\u{c0}'..='\u{24f}' | '\u{1e00}'..='\u{1eff}' => "Latin",
        '\u{250}'..='\u{2af}' | '\u{1d00}'..='\u{1dbf}' => "phonetic",
        '\u{370}'..='\u{3ff}' | '\u{1f00}'..='\u{1fff}' => "Greek",
        '\u{400}'..='\u{52f}' | '\u{1c80}'..='\u{1c8f}' | '\u{a640}'..='\u{a69f}' => "Cyrillic",
        '\u{530}'..='\u{58f}' => "Armenian",
        '\u{13a0}'..='\u{13ff}' | '\u{ab70}'..='\u{abbf}' => "Cherokee",
        '\u{ff21}'..='\u{ff3a}' | '\u{ff41}'..='\u{ff5a}' => "full width",
        '\u{1d400}'..='\u{1d7ff}' => "mathematical",
        _ => return None,
    })
}

/// A text as the eye takes it: small letters, nothing between them, each as the Latin letter that it looks like.
#[must_use]
pub fn shape(text: &str) -> String {
    text.chars().flat_map(char::to_lowercase).filter_map(looks_like).collect()
}

/// The Latin letter that a small letter looks like (a selection of Unicode Technical Standard 39's confusables), and
/// nothing for what stands between letters. One, l and i are drawn alike.
fn looks_like(c: char) -> Option<char> {
    let like = match c {
        'i' | 'l' | '1' | '|' | 'ı' | 'í' | 'ì' | 'î' | 'ï' | 'і' | 'ї' | 'ӏ' | 'ι' | 'ⅰ' | 'ⅼ' => 'l',
        'а' | 'α' | 'á' | 'à' | 'â' | 'ä' | 'ã' | 'å' | 'ɑ' => 'a',
        'ь' | 'в' | 'β' => 'b',
        'с' | 'ç' | 'ϲ' | 'ć' | 'č' => 'c',
        'ԁ' => 'd',
        'е' | 'ё' | 'ε' | 'é' | 'è' | 'ê' | 'ë' => 'e',
        'ɡ' => 'g',
        'һ' | 'ⱨ' | 'н' => 'h',
        'ј' => 'j',
        'к' | 'κ' => 'k',
        'м' => 'm',
        'п' | 'η' | 'ñ' => 'n',
        'о' | 'ο' | '0' | 'ó' | 'ò' | 'ô' | 'ö' | 'õ' | 'ø' | 'օ' => 'o',
        'р' | 'ρ' => 'p',
        'ԛ' => 'q',
        'г' | 'ᴦ' => 'r',
        'ѕ' | 'š' | 'ś' | '5' => 's',
        'т' | 'τ' => 't',
        'υ' | 'ս' | 'ú' | 'ù' | 'û' | 'ü' => 'u',
        'ν' | 'ѵ' => 'v',
        'ԝ' | 'ω' => 'w',
        'х' | 'χ' => 'x',
        'у' | 'γ' | 'ý' | 'ÿ' => 'y',
        '\u{ff41}'..='\u{ff5a}' => return char::from_u32(u32::from(c) - 0xff41 + u32::from('a')).and_then(looks_like),
        c if c.is_alphanumeric() => c,
        _ => return None,
    };
    Some(like)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_is_nobody_elses_whatever_letters_it_is_written_in() {
        for title in [
            "physics",
            "Physics",
            " PHYSICS ",
            "phys1cs",
            "p h y s i c s",
            "phýsics",
            "рһуѕісѕ",
            "ｐｈｙｓｉｃｓ",
            "practice",
            "Common practice",
            "common practice, no source",
            "standard",
            "Published",
            "pub1ished",
            "this shop",
            "piston card",
            "Bearing Card",
            "card",
            "a maker's card",
            "thou",
            "built-in",
        ] {
            assert!(title_fault(title).is_some(), "{title}");
        }
        for title in [
            "Nine Mile's numbers",
            "common practice, to be edited",
            "Мотор",
            "Κινητήρας",
            "published in 2026 by us",
            "Scorecard",
            "cards of our shop",
            "Ventil 5 µm",
            "spring 10 μm and 5 Ω",
        ] {
            assert_eq!(title_fault(title), None, "{title}");
        }
    }

    #[test]
    fn letters_of_two_alphabets_in_a_word_are_told_with_the_letter() {
        assert_eq!(
            title_fault("Nine Mіle").as_deref(),
            Some(
                "has letters of two alphabets in \"Mіle\", where і (U+0456) is Cyrillic beside Latin: it would pass for \
                 another name"
            )
        );
        assert_eq!(mixed("Мотор and Motor"), None);
    }

    #[test]
    fn whose_a_limit_is_goes_with_what_it_rests_on() {
        assert_eq!(whose_fault("piston card", &["maker"]), None);
        assert_eq!(whose_fault("Maker", &["maker"]), None);
        assert!(whose_fault("physics", &["this shop", "common practice"]).is_some());
        assert!(whose_fault("ｐhysics", &["physics"]).is_some());
        assert_eq!(whose_fault("our own engines", &["this shop"]), None);
    }
}
