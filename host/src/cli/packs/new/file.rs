//! One file of a new pack.

use std::path::Path;

/// A file of a new pack: where in its folder, what is in it, whether it is run.
pub(super) struct NewFile {
    pub(super) path: String,
    bytes: Vec<u8>,
    runs: bool,
}

impl NewFile {
    pub(super) fn new(path: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Self {
        Self { path: path.into(), bytes: bytes.into(), runs: false }
    }

    /// One that is run.
    pub(super) fn script(path: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Self {
        Self { runs: true, ..Self::new(path, bytes) }
    }

    /// Writes it under this folder.
    pub(super) fn write(&self, folder: &Path) -> std::io::Result<()> {
        let path = folder.join(&self.path);
        if let Some(parent) = path.parent() {
            std::fs::create_dir_all(parent)?;
        }
        std::fs::write(&path, &self.bytes)?;
        if self.runs { make_runnable(&path) } else { Ok(()) }
    }
}

#[cfg(unix)]
fn make_runnable(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755))
}

#[cfg(not(unix))]
fn make_runnable(_path: &Path) -> std::io::Result<()> {
    Ok(())
}
