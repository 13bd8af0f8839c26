//! Rows that line up within the width of a page: the first column takes what the others leave, and every cell that is
//! too long for its column goes on below itself.

use super::bench::WIDTH;

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Set {
    /// From the left.
    Left,
    /// Against the right, as numbers are.
    Right,
}

/// A column after the first: how it is set, the most that it may take, and how far it stands off.
pub(super) type Column = (Set, usize, usize);

/// The widths of the columns of a page's rows, the first column's first.
pub(super) fn widths(rows: &[Vec<String>], columns: &[Column]) -> Vec<usize> {
    let longest = |at: usize| rows.iter().filter_map(|r| r.get(at)).map(|c| c.chars().count()).max().unwrap_or(0);
    let mut widths: Vec<usize> =
        columns.iter().enumerate().map(|(i, (_, most, _))| longest(i + 1).min(*most)).collect();
    let off = |at: usize| columns.get(at).map_or(0, |c| c.2);
    let taken: usize = widths.iter().enumerate().filter(|(_, w)| **w > 0).map(|(i, w)| w + off(i)).sum();
    widths.insert(0, longest(0).min(WIDTH.saturating_sub(taken)).max(8));
    widths
}

/// One row, on as many lines as its longest cell needs.
pub(super) fn row(cells: &[String], columns: &[Column], widths: &[usize], out: &mut String) {
    let folded: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .enumerate()
        .map(|(at, (cell, width))| {
            // a name that goes on is set in, so that it is not taken for another
            let indent = if at == 0 { "  " } else { "" };
            let options = textwrap::Options::new((*width).max(1)).subsequent_indent(indent).break_words(false);
            textwrap::wrap(cell, options).into_iter().map(std::borrow::Cow::into_owned).collect()
        })
        .collect();
    let lines = folded.iter().map(Vec::len).max().unwrap_or(0).max(1);
    for line in 0..lines {
        let mut text = String::new();
        for (at, width) in widths.iter().enumerate() {
            if *width == 0 {
                continue;
            }
            let cell = folded.get(at).and_then(|c| c.get(line)).map_or("", String::as_str);
            if at > 0 {
                text.push_str(&" ".repeat(columns.get(at - 1).map_or(1, |c| c.2)));
            }
            let pad = " ".repeat(width.saturating_sub(cell.chars().count()));
            let right = at > 0 && columns.get(at - 1).is_some_and(|c| c.0 == Set::Right);
            text.push_str(&if right { pad + cell } else { cell.to_owned() + &pad });
        }
        out.push_str(text.trim_end());
        out.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::{Set, row, widths};

    #[test]
    fn cells_line_up_and_long_ones_go_on_below() {
        let columns = [(Set::Left, 8, 2), (Set::Right, 10, 2)];
        let rows = vec![
            vec!["bore taper".to_owned(), "all 8".to_owned(), "0.1 thou".to_owned()],
            vec!["gasket".to_owned(), "1 3 5 7 2 4".to_owned(), "12.5 thou".to_owned()],
        ];
        let widths = widths(&rows, &columns);
        let mut out = String::new();
        for cells in &rows {
            row(cells, &columns, &widths, &mut out);
        }
        assert_eq!(out, "bore taper  all 8      0.1 thou\ngasket      1 3 5 7   12.5 thou\n            2 4\n");
    }
}
