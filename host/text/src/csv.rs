//! Rows of CSV, as a hand wrote them and as a spreadsheet takes them.

/// Where a cell of a row of CSV starts, in characters from one.
#[must_use]
pub fn cell_column(line: &str, cell: usize) -> usize {
    let (mut quoted, mut passed) = (false, 0);
    for (at, c) in line.chars().enumerate() {
        if passed == cell {
            return at + 1;
        }
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => passed += 1,
            _ => {}
        }
    }
    line.chars().count() + 1
}

/// A double quote that makes no cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StrayQuote {
    /// The line that it stands in, from one.
    pub line: u64,
    /// In characters from one.
    pub column: usize,
    /// How many bytes of the text are before the row that it spoils.
    pub row: usize,
    /// Whether it opens a cell that never closes; else it closes one, and more stands behind it.
    pub open: bool,
}

/// The first double quote that makes no cell (RFC 4180, section 2): one that never closes takes every row behind it in.
#[must_use]
pub fn stray_quote(text: &str) -> Option<StrayQuote> {
    let (mut line, mut column, mut row) = (1, 1, 0);
    let (mut opened, mut closed, mut fresh): (Option<StrayQuote>, bool, bool) = (None, false, true);
    for (at, c) in text.char_indices() {
        let here = StrayQuote { line, column, row, open: true };
        let ends = matches!(c, ',' | '\n' | '\r');
        match (opened, c) {
            (None, '"') if fresh => opened = Some(here),
            // the second of two in a cell is one that is meant
            (Some(_), '"') => closed = !closed,
            (Some(_), _) if closed && ends => (opened, closed) = (None, false),
            (Some(_), _) if closed => return Some(StrayQuote { column: column - 1, open: false, ..here }),
            _ => {}
        }
        fresh = opened.is_none() && ends;
        column += 1;
        if c == '\n' {
            (line, column) = (line + 1, 1);
            if opened.is_none() {
                row = at + 1;
            }
        }
    }
    opened.filter(|_| !closed)
}

/// What a spreadsheet takes for something to run: a cell that begins so (OWASP, "CSV Injection").
const RUNS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// Marks a cell as text. It stands before what a spreadsheet would run, and before itself there.
const MARK: char = '\'';

fn runs(text: &str) -> bool {
    text.trim_start_matches(MARK).starts_with(RUNS)
}

/// A text as a cell that no spreadsheet runs; a number stays one.
#[must_use]
pub fn safe_cell(text: &str) -> String {
    if runs(text) && text.parse::<f64>().is_err() { format!("{MARK}{text}") } else { text.to_owned() }
}

/// The text of a cell that [`safe_cell`] wrote.
#[must_use]
pub fn cell_text(cell: &str) -> &str {
    cell.strip_prefix(MARK).filter(|text| runs(text)).unwrap_or(cell)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_spreadsheet_would_run_is_text_and_comes_back() {
        for text in
            ["=HYPERLINK(\"x\")", "+1 step", "-0.5 thou", "@home", "\tx", "'=x", "''-x", "-5", "plain", "it's", "'", ""]
        {
            let cell = safe_cell(text);
            assert!(!cell.starts_with(RUNS) || cell.parse::<f64>().is_ok(), "{cell}");
            assert_eq!(cell_text(&cell), text);
        }
        assert_eq!((safe_cell("=1+1"), safe_cell("-5")), ("'=1+1".to_owned(), "-5".to_owned()));
    }

    #[test]
    fn a_quote_that_makes_no_cell_is_found_at_its_place() {
        assert_eq!(stray_quote("a,b\n1,\"two, and \"\"three\"\"\nfour\"\n5,6\"7\n"), None);
        let open = stray_quote("a,b\n1,2\n3,\"never\n5,6\n").map(|q| (q.line, q.column, q.row, q.open));
        assert_eq!(open, Some((3, 3, 8, true)));
        // two rows that each open one: the second closes the first
        let behind = stray_quote("a,b\n1,\"x\n2,\"y\n").map(|q| (q.line, q.column, q.row, q.open));
        assert_eq!(behind, Some((3, 3, 4, false)));
    }
}
