//! The text beside a rule's cases: what their user would read.

use crate::packs::CheckedAnswer;
use crate::report::case::Reads;
use similar::{ChangeTag, TextDiff};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use thou_cases::{CASES, Case};
use thou_contract::Manifest;

/// What such a text ends with, in place of [`CASES`].
const READS: &str = ".reads.txt";

/// Holds what is read to the text beside the cases of a rule, if there is one, or writes it; says whether it wrote.
pub(super) fn held(manifest: &Manifest, cases: &[(Case, CheckedAnswer)], write: bool) -> Result<bool, String> {
    let Some(file) = cases.first().map(|(case, _)| beside(&case.file)) else { return Ok(false) };
    let kept = std::fs::read_to_string(&file).ok().map(|text| text.replace("\r\n", "\n"));
    if kept.is_none() && !write {
        return Ok(false);
    }
    let mut reads = Reads::new(manifest);
    cases.iter().for_each(|(case, answer)| reads.add(case, answer));
    let page = reads.text();
    let kept = match kept {
        Some(kept) if kept == page => return Ok(false),
        Some(kept) if !write => kept,
        _ => {
            let wrote = std::fs::write(&file, page).map(|()| true);
            return wrote.map_err(|e| format!("{} cannot be written: {e}", file.display()));
        }
    };
    Err(difference(&file.display().to_string(), &kept, &page))
}

fn beside(cases: &Path) -> PathBuf {
    let name = cases.file_name().unwrap_or_default().to_string_lossy();
    cases.with_file_name(format!("{}{READS}", name.strip_suffix(CASES).unwrap_or(&name)))
}

/// Where two texts differ: the first line of the text that does, and each line that went (-) and came (+).
fn difference(name: &str, kept: &str, page: &str) -> String {
    let diff = TextDiff::from_lines(kept, page);
    let changes: Vec<_> = diff.iter_all_changes().filter(|c| c.tag() != ChangeTag::Equal).collect();
    let line = changes.first().map_or(1, |c| c.old_index().or(c.new_index()).unwrap_or(0) + 1);
    let mut out = format!("{name}:{line}: a user reads another text; --write-reads takes it (- wanted, + got)");
    for change in changes {
        let sign = if change.tag() == ChangeTag::Delete { '-' } else { '+' };
        let _ = write!(out, "\n  {sign} {}", change.value().trim_end_matches('\n'));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::difference;

    #[test]
    fn the_first_line_that_differs_is_named() {
        assert_eq!(
            difference("go.txt", "GO\n\nCRANK  read\nend play  4.0 thou\n", "GO\n\nCRANK  read\nend play  4.1 thou\n"),
            "go.txt:4: a user reads another text; --write-reads takes it (- wanted, + got)\n  - end play  4.0 thou\n  + end play  4.1 thou"
        );
        assert_eq!(
            difference("go.txt", "GO\n", "GO\nmore\n"),
            "go.txt:2: a user reads another text; --write-reads takes it (- wanted, + got)\n  + more"
        );
    }
}
