//! Writing a file whole or not at all.

use std::path::{Path, PathBuf};

/// Writes the whole file or leaves the one that is there.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let half = PathBuf::from(format!("{}.{}.part", path.display(), std::process::id()));
    std::fs::write(&half, bytes).and_then(|()| std::fs::rename(&half, path)).inspect_err(|_| {
        let _ = std::fs::remove_file(&half);
    })
}
