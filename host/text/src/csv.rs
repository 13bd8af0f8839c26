//! Rows of CSV, as a hand wrote them.

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
