//! Compiled packs, kept from one run to the next.
//!
//! Machine code is run as it is, so it is only taken from a folder that nobody but its owner can write, only where
//! the digest beside it is right, and only for this very engine. Compiled code never comes from a pack's author.

mod precompiled;

use super::pack::hex;
use sha2::{Digest, Sha256};
use std::hash::{Hash, Hasher};
use std::path::{Path, PathBuf};
use wasmtime::Engine;
use wasmtime::component::Component;

/// As many compiled packs are kept.
const KEPT: usize = 32;
/// What is smaller, in bytes, is compiled again as quickly as it is read.
const WORTH_IT: usize = 16 * 1024;

/// The compiled component for this digest, if the cache has it whole.
pub(crate) fn load(engine: &Engine, digest: &str, bytes: &[u8]) -> Option<Component> {
    if bytes.len() < WORTH_IT {
        return None;
    }
    let kept = std::fs::read(file(engine, digest)?).ok()?;
    let (told, compiled) = kept.split_at_checked(32)?;
    if Sha256::digest(compiled).as_slice() != told {
        return None;
    }
    precompiled::component(engine, compiled)
}

/// Keeps a compiled component. Nothing is said if it cannot be kept: the next run compiles again.
pub(crate) fn save(engine: &Engine, digest: &str, bytes: &[u8], component: &Component) {
    if bytes.len() < WORTH_IT {
        return;
    }
    let Some(file) = file(engine, digest) else { return };
    let Ok(compiled) = component.serialize() else { return };
    make_room(&file);
    let half = file.with_extension(format!("{}.part", std::process::id()));
    let whole = [Sha256::digest(&compiled).as_slice(), &compiled].concat();
    // renaming is atomic: another run sees the whole file or none
    if std::fs::write(&half, whole).and_then(|()| std::fs::rename(&half, &file)).is_err() {
        let _ = std::fs::remove_file(&half);
    }
}

/// Who works on a pack builds it again and again: only the newest are kept.
fn make_room(file: &Path) {
    let Some(entries) = file.parent().and_then(|folder| std::fs::read_dir(folder).ok()) else { return };
    let age = |e: &std::fs::DirEntry| e.metadata().and_then(|m| m.modified()).ok();
    let mut kept: Vec<_> = entries.flatten().map(|e| (age(&e), e.path())).collect();
    kept.sort();
    for (_, old) in kept.iter().rev().skip(KEPT - 1) {
        let _ = std::fs::remove_file(old);
    }
}

fn file(engine: &Engine, digest: &str) -> Option<PathBuf> {
    let mut key = Key(Sha256::new());
    engine.precompile_compatibility_hash().hash(&mut key);
    key.0.update(digest.as_bytes());
    Some(folder()?.join(hex(&key.0.finalize())))
}

/// A hasher that is the same in every process, and as wide as a digest.
struct Key(Sha256);

impl Hasher for Key {
    fn write(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }
    fn finish(&self) -> u64 {
        0
    }
}

/// The cache's folder, made if need be; none where it would not be its owner's alone, or where it is switched off.
#[cfg(unix)]
fn folder() -> Option<PathBuf> {
    use std::os::unix::fs::{DirBuilderExt, MetadataExt};
    if std::env::var_os("THOU_NO_CACHE").is_some_and(|v| v != "0" && !v.is_empty()) {
        return None;
    }
    let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let base = absolute("XDG_CACHE_HOME").or_else(|| Some(absolute("HOME")?.join(".cache")))?;
    let folder = base.join("thou").join("packs-cache");
    std::fs::DirBuilder::new().recursive(true).mode(0o700).create(&folder).ok()?;
    let (leaf, above) = (std::fs::symlink_metadata(&folder).ok()?, std::fs::metadata(folder.parent()?).ok()?);
    let private = leaf.is_dir() && leaf.mode() & 0o077 == 0 && above.mode() & 0o022 == 0;
    (private && leaf.uid() == user(&folder)? && above.uid() == leaf.uid()).then_some(folder)
}

/// The user of this process: the owner of a file that it makes.
#[cfg(unix)]
fn user(folder: &Path) -> Option<u32> {
    use std::os::unix::fs::MetadataExt;
    let probe = folder.join(format!("{}.probe", std::process::id()));
    let owner = std::fs::File::create(&probe).and_then(|file| file.metadata()).map(|m| m.uid()).ok();
    let _ = std::fs::remove_file(&probe);
    owner
}

/// Elsewhere no folder is known to be its owner's alone.
#[cfg(not(unix))]
fn folder() -> Option<PathBuf> {
    None
}
