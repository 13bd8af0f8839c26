//! What a built pack was made from.

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use std::collections::BTreeMap;
use std::io::{Error, ErrorKind, Result};
use std::path::{Path, PathBuf};
use thou_text::hex;

/// The contract's own text, which every pack is built from.
const CONTRACT: &str = include_str!("../../../../schemas/rules-1.0.wit");

/// The file `digests.json` of a folder of built packs: a pack's name and what is known of its build.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Digests(pub BTreeMap<String, Digest>);

/// What is known of the build of one pack.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Digest {
    /// SHA-256 of the component, in hex.
    pub sha256: String,
    /// That of its sources, see [`sources_digest`].
    pub sources_sha256: String,
    /// The compiler, as `rustc --version` names it.
    pub rustc: String,
}

impl Digests {
    /// Reads a folder's file.
    ///
    /// # Errors
    /// When there is none, or it is no such file.
    pub fn read(folder: &Path) -> Result<Self> {
        let text = std::fs::read_to_string(folder.join("digests.json"))?;
        serde_json::from_str(&text).map_err(|e| Error::new(ErrorKind::InvalidData, e))
    }

    /// Writes a folder's file.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn write(&self, folder: &Path) -> Result<()> {
        let text = serde_json::to_string_pretty(self).map_err(|e| Error::new(ErrorKind::InvalidData, e))?;
        std::fs::write(folder.join("digests.json"), text + "\n")
    }
}

/// What lies beside a rule's source and goes into no component: its cases, and what their user reads.
const BESIDE: [&str; 2] = [".cases.toml", ".reads.txt"];

/// SHA-256 over the contract and the `src` folders of these crates, each under its name: every file with its path and
/// length, in the order of their names, but for cases. Where the folders lie does not matter.
///
/// # Errors
/// When a folder cannot be read.
pub fn sources_digest(crates: &[(&str, PathBuf)]) -> Result<String> {
    let mut digest = Sha256::new();
    let mut add = |name: &str, bytes: &[u8]| {
        digest.update(format!("{name}\n{}\n", bytes.len()));
        digest.update(bytes);
    };
    add("rules-1.0.wit", CONTRACT.as_bytes());
    let mut crates = crates.to_vec();
    crates.sort();
    for (name, folder) in crates {
        let mut files = BTreeMap::new();
        list(&folder.join("src"), "src", &mut files)?;
        for (path, file) in files {
            add(&format!("{name}/{path}"), &std::fs::read(file)?);
        }
    }
    Ok(hex(&digest.finalize()))
}

fn list(folder: &Path, under: &str, files: &mut BTreeMap<String, PathBuf>) -> Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = format!("{under}/{name}");
        if entry.file_type()?.is_dir() {
            list(&entry.path(), &path, files)?;
        } else if !BESIDE.iter().any(|end| name.ends_with(end)) {
            files.insert(path, entry.path());
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn cases_do_not_make_a_pack_stale_and_sources_do() {
        let folder = tempfile::tempdir().unwrap();
        let write = |name: &str, text: &str| {
            let file = folder.path().join(name);
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(file, text).unwrap();
        };
        let digest = || sources_digest(&[("our-shop", folder.path().to_owned())]).unwrap();
        write("src/lib.rs", "//! Ours");
        let bare = digest();
        write("src/crank/end_play.cases.toml", "[[case]]");
        write("src/crank/end_play.reads.txt", "a go");
        write("tests/cases.rs", "//! Held");
        write("native/cases.rs", "//! Held");
        assert_eq!(digest(), bare);
        write("src/crank/end_play.rs", "//! End play");
        assert_ne!(digest(), bare);
    }
}
