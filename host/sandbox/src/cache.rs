//! Compiled packs, kept from one run to the next.
//!
//! Machine code is run as it is, so it is only taken from a folder that nobody but its owner can write, only where
//! the digest beside it is right, and only for this very engine. The digest is of the entry's own key and the code: an entry
//! under another's name is none. Compiled code never comes from a pack's author.

mod precompiled;

use super::regular::{self, Whole};
use sha2::{Digest, Sha256};
use std::hash::{Hash, Hasher};
use std::path::{Path, PathBuf};
use thou_text::hex;
use wasmtime::Engine;
use wasmtime::component::Component;

/// As many compiled packs are kept.
const KEPT: usize = 32;
/// No entry has more bytes: the largest pack that there is compiles to some 40 MB.
const LARGEST: u64 = 256 * 1024 * 1024;
/// What is smaller, in bytes, is compiled again as quickly as it is read.
const WORTH_IT: usize = 16 * 1024;

/// The compiled component for this digest, if the cache has it whole.
pub(crate) fn load(engine: &Engine, digest: &str, bytes: &[u8]) -> Option<Component> {
    if bytes.len() < WORTH_IT {
        return None;
    }
    load_from(&folder()?, engine, digest)
}

fn load_from(folder: &Path, engine: &Engine, digest: &str) -> Option<Component> {
    let key = key(engine, digest);
    let Ok(Whole::Bytes(kept)) = regular::read(&folder.join(&key), LARGEST) else { return None };
    let (stated, compiled) = kept.split_at_checked(32)?;
    if seal(&key, compiled).as_slice() != stated {
        return None;
    }
    precompiled::component(engine, compiled)
}

/// The digest of an entry: of its key and its code.
fn seal(key: &str, compiled: &[u8]) -> Vec<u8> {
    let mut seal = Sha256::new();
    seal.update(key.as_bytes());
    seal.update(compiled);
    seal.finalize().to_vec()
}

/// Keeps a compiled component. Nothing is said if it cannot be kept: the next run compiles again.
pub(crate) fn save(engine: &Engine, digest: &str, bytes: &[u8], component: &Component) {
    if bytes.len() < WORTH_IT {
        return;
    }
    if let Some(folder) = folder() {
        save_to(&folder, engine, digest, component);
    }
}

fn save_to(folder: &Path, engine: &Engine, digest: &str, component: &Component) {
    let key = key(engine, digest);
    let file = folder.join(&key);
    let Ok(compiled) = component.serialize() else { return };
    if u64::try_from(compiled.len()).is_ok_and(|size| size + 32 > LARGEST) {
        return;
    }
    make_room(folder);
    let half = file.with_extension(format!("{}.part", std::process::id()));
    let whole = [seal(&key, &compiled).as_slice(), &compiled].concat();
    // renaming is atomic: another run sees the whole file or none
    if std::fs::write(&half, whole).and_then(|()| std::fs::rename(&half, &file)).is_err() {
        let _ = std::fs::remove_file(&half);
    }
}

/// Who works on a pack builds it again and again: only the newest are kept.
fn make_room(folder: &Path) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    let age = |e: &std::fs::DirEntry| e.metadata().and_then(|m| m.modified()).ok();
    let mut kept: Vec<_> = entries.flatten().map(|e| (age(&e), e.path())).collect();
    kept.sort();
    for (_, old) in kept.iter().rev().skip(KEPT - 1) {
        let _ = std::fs::remove_file(old);
    }
}

/// The name of an entry: of this engine and this component.
fn key(engine: &Engine, digest: &str) -> String {
    let mut key = Key(Sha256::new());
    engine.precompile_compatibility_hash().hash(&mut key);
    key.0.update(digest.as_bytes());
    hex(&key.0.finalize())
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
    if std::env::var_os("THOU_NO_CACHE").is_some_and(|v| v != "0" && !v.is_empty()) {
        return None;
    }
    let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let base = absolute("XDG_CACHE_HOME").or_else(|| Some(absolute("HOME")?.join(".cache")))?;
    private(base.join("thou").join("packs-cache"))
}

#[cfg(unix)]
fn private(folder: PathBuf) -> Option<PathBuf> {
    use std::os::unix::fs::{DirBuilderExt, MetadataExt};
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

#[cfg(all(test, unix))]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::super::{builtin, deep_stack::on_deep_stack, engine::engine};
    use super::*;
    use std::os::unix::fs::PermissionsExt;

    struct Scratch(PathBuf);

    impl Scratch {
        fn new(name: &str) -> Self {
            let folder = std::env::temp_dir().join(format!("thou-{name}-{}", std::process::id()));
            std::fs::create_dir_all(&folder).unwrap();
            let _ = std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o700));
            Self(folder)
        }
    }

    impl Drop for Scratch {
        fn drop(&mut self) {
            let _ = std::fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn what_comes_back_is_what_was_kept_or_nothing() {
        let scratch = Scratch::new("kept");
        let engine = engine().unwrap();
        let component = on_deep_stack(|| Component::from_binary(engine, builtin::BUILT[0].1)).unwrap().unwrap();
        save_to(&scratch.0, engine, "one", &component);
        assert!(load_from(&scratch.0, engine, "one").is_some());
        assert!(load_from(&scratch.0, engine, "two").is_none());
        let file = scratch.0.join(key(engine, "one"));
        let whole = std::fs::read(&file).unwrap();
        for at in [0, 31, 32, whole.len() / 2, whole.len() - 1] {
            let mut bent = whole.clone();
            bent[at] ^= 1;
            std::fs::write(&file, bent).unwrap();
            assert!(load_from(&scratch.0, engine, "one").is_none(), "byte {at}");
        }
        std::fs::write(&file, &whole[..20]).unwrap();
        assert!(load_from(&scratch.0, engine, "one").is_none());
    }

    #[test]
    fn an_entry_under_anothers_name_and_one_that_is_no_file_or_too_large_are_none() {
        let scratch = Scratch::new("swapped");
        let engine = engine().unwrap();
        let compiled =
            |at: usize| on_deep_stack(|| Component::from_binary(engine, builtin::BUILT[at].1)).unwrap().unwrap();
        save_to(&scratch.0, engine, "one", &compiled(0));
        save_to(&scratch.0, engine, "two", &compiled(1));
        let [one, two] = ["one", "two"].map(|digest| scratch.0.join(key(engine, digest)));
        let aside = scratch.0.join("aside");
        std::fs::rename(&one, &aside).unwrap();
        std::fs::rename(&two, &one).unwrap();
        std::fs::rename(&aside, &two).unwrap();
        assert!(load_from(&scratch.0, engine, "one").is_none() && load_from(&scratch.0, engine, "two").is_none());
        std::fs::rename(&two, &aside).unwrap();
        std::fs::rename(&aside, &one).unwrap();
        assert!(load_from(&scratch.0, engine, "one").is_some(), "put back, it is one again");
        // 20 GB of nothing, of which no byte is read
        std::fs::File::options().write(true).open(&one).unwrap().set_len(20 << 30).unwrap();
        assert!(load_from(&scratch.0, engine, "one").is_none());
        std::fs::remove_file(&one).unwrap();
        assert!(std::process::Command::new("mkfifo").arg(&one).status().unwrap().success());
        assert!(load_from(&scratch.0, engine, "one").is_none());
    }

    #[test]
    fn a_folder_that_others_can_reach_is_not_used() {
        let scratch = Scratch::new("reach");
        let (above, leaf) = (scratch.0.join("thou"), scratch.0.join("thou/packs-cache"));
        assert_eq!(private(leaf.clone()), Some(leaf.clone()));
        assert_eq!(std::fs::metadata(&leaf).unwrap().permissions().mode() & 0o777, 0o700);
        let set =
            |folder: &Path, mode| std::fs::set_permissions(folder, std::fs::Permissions::from_mode(mode)).unwrap();
        for (folder, mode) in [(&leaf, 0o750), (&leaf, 0o707), (&above, 0o777), (&above, 0o775)] {
            set(folder, mode);
            assert_eq!(private(leaf.clone()), None, "{} {mode:o}", folder.display());
            set(folder, 0o700);
        }
        assert!(private(leaf.clone()).is_some());
        // a link to a folder that is private is still somebody's choice of folder
        std::fs::remove_dir(&leaf).unwrap();
        std::os::unix::fs::symlink(&scratch.0, &leaf).unwrap();
        assert_eq!(private(leaf), None);
    }

    #[test]
    fn only_the_newest_are_kept() {
        let scratch = Scratch::new("newest");
        for i in 0..KEPT + 5 {
            std::fs::write(scratch.0.join(i.to_string()), "").unwrap();
        }
        make_room(&scratch.0);
        assert_eq!(std::fs::read_dir(&scratch.0).unwrap().count(), KEPT - 1);
    }
}
