//! Words as a page of 80 columns has them.

/// Columns of a page.
const WIDTH: usize = 80;

/// A message at the width of a page, each line under its own indent.
pub(super) fn folded(text: &str) -> String {
    let mut out = String::new();
    for line in text.lines() {
        let words = line.trim_start();
        let indent = line.get(..line.len() - words.len()).unwrap_or("");
        let rest = format!("{indent}  ");
        // a path or a command that is broken at a dash cannot be copied
        let options = textwrap::Options::new(WIDTH)
            .initial_indent(indent)
            .subsequent_indent(&rest)
            .break_words(false)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        out.push_str(&textwrap::fill(words, options));
        out.push('\n');
    }
    out
}

pub(super) fn fill(text: &str, first: &str, rest: &str) -> String {
    let mut out = textwrap::fill(text, textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent(rest));
    out.push('\n');
    out
}

/// What a limit rests on, and its source where that says more.
pub(super) fn whose(basis: thou_contract::Basis, source: &str) -> String {
    if source.starts_with(basis.word()) { source.to_owned() } else { format!("{}: {source}", basis.word()) }
}
