//! What is wrong with a table: the place, what stands there, what was expected, what to write.

use std::fmt;
use std::ops::Range;

/// How many faults are told at once; the rest are only counted.
pub const MOST_FAULTS: usize = 20;

/// One thing that is wrong with a table.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}")]
pub struct TableFault {
    /// What is wrong, with the word as the table writes it.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
    /// Bytes of the table's text.
    pub span: Range<usize>,
}

/// Everything that is wrong with a table, in the order of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableFaults {
    /// The file's name.
    pub name: String,
    /// The file's text.
    pub text: String,
    /// The faults, at most [`MOST_FAULTS`].
    pub faults: Vec<TableFault>,
    /// How many more there are.
    pub left_off: usize,
}

impl TableFaults {
    pub(crate) fn new(name: &str, text: &str, mut faults: Vec<TableFault>) -> Self {
        faults.sort_by(|a, b| (a.span.start, a.span.end, &a.message).cmp(&(b.span.start, b.span.end, &b.message)));
        faults.dedup();
        let left_off = faults.len().saturating_sub(MOST_FAULTS);
        faults.truncate(MOST_FAULTS);
        Self { name: name.to_owned(), text: text.to_owned(), faults, left_off }
    }

    /// Line and column of a byte, both from 1, the column in characters.
    #[must_use]
    pub fn position(&self, at: usize) -> (usize, usize) {
        let before = self.text.get(..at.min(self.text.len())).unwrap_or(&self.text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
        (line, column)
    }
}

/// One line a fault, as `file:line:column: message`, its help indented below.
impl fmt::Display for TableFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for fault in &self.faults {
            let (line, column) = self.position(fault.span.start);
            writeln!(f, "{}:{line}:{column}: {}", self.name, fault.message)?;
            if let Some(help) = &fault.help {
                writeln!(f, "    {help}")?;
            }
        }
        if self.left_off > 0 {
            writeln!(f, "and {} more", self.left_off)?;
        }
        Ok(())
    }
}

impl std::error::Error for TableFaults {}
