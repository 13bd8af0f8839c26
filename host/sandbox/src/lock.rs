//! `packs.lock`: which files the packs beside a sheet were when somebody looked at them.

use super::clean;
use super::fault::{PackFault, PackFaultKind};
use super::pack::LoadedPack;
use super::regular;
use super::signature::PublicKey;
use serde::de::{Deserializer, Error, Unexpected, Visitor};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::cmp::Ordering;
use std::collections::BTreeSet;
use std::io::Write as _;
use std::path::{Component, Path, PathBuf};
use thou_text::hex;

/// The lock's file beside a sheet.
pub const LOCK: &str = "packs.lock";
/// The file beside it that lists the packs, one a line.
pub const LISTED: &str = "packs";
/// The kind of lock that is written here.
const KIND: u64 = 1;
/// A lock of a thousand packs has half as many bytes.
const MOST: u64 = 1024 * 1024;
/// What a user has locked in a lifetime, a hundred bytes a pack.
const MOST_KNOWN: u64 = 64 * MOST;

/// What is known of one pack.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LockEntry {
    /// Its file, as the file `packs` has it.
    pub file: String,
    /// The pack's name, for people: the digest is what counts.
    pub pack: String,
    /// Its version, for people.
    pub version: String,
    /// SHA-256 of the file, 64 hexadecimal digits.
    #[serde(deserialize_with = "digest")]
    pub sha256: String,
    /// The public key that the file must be signed with, if one is asked for.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "key")]
    pub key: Option<String>,
}

/// A lock, and the folder that it stands in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lock {
    folder: PathBuf,
    /// Its packs, by the names of their files.
    pub entries: Vec<LockEntry>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Whole {
    #[serde(deserialize_with = "kind")]
    lock: u64,
    packs: Vec<LockEntry>,
}

impl Lock {
    /// A lock of nothing, for this folder.
    #[must_use]
    pub fn empty(folder: &Path) -> Self {
        Self { folder: folder.to_owned(), entries: Vec::new() }
    }

    /// The lock in this folder; none if there is no such file.
    ///
    /// # Errors
    /// When there is one that cannot be read, is damaged, or is of a newer kind.
    pub fn read(folder: &Path) -> Result<Option<Self>, PackFault> {
        let path = folder.join(LOCK);
        let fault = |fault: PackFaultKind| {
            let origin = clean::clean(&path.display().to_string());
            PackFault { pack: LOCK.to_owned(), origin, fault }
        };
        let text = match regular::text(&path, MOST) {
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(None),
            Err(e) => return Err(fault(PackFaultKind::LockUnreadable(clean::clean(&e.to_string())))),
            Ok(text) => text,
        };
        let entries = parse(&text).map_err(fault)?;
        Ok(Some(Self { folder: folder.to_owned(), entries }))
    }

    /// Its text: the same packs give the same bytes, one field a line.
    #[must_use]
    pub fn text(&self) -> String {
        let mut packs = self.entries.clone();
        packs.sort_by(|a, b| a.file.cmp(&b.file));
        // strings and a number: there is nothing in it that cannot be written
        serde_json::to_string_pretty(&Whole { lock: KIND, packs }).unwrap_or_default() + "\n"
    }

    /// The entry for a file, by its name in the file `packs`.
    #[must_use]
    pub fn listed(&self, name: &str) -> Option<&LockEntry> {
        self.entries.iter().find(|e| e.file == name)
    }

    /// The entry for a file by whatever path it is reached.
    #[must_use]
    pub fn reached(&self, path: &Path) -> Option<&LockEntry> {
        let real = path.canonicalize().ok()?;
        self.entries.iter().find(|e| self.folder.join(&e.file).canonicalize().is_ok_and(|p| p == real))
    }
}

impl Lock {
    /// Holds a pack to the versions that were locked: an older one, or one that no order can be told of, is a step back.
    ///
    /// # Errors
    /// When it is one.
    pub fn no_step_back(&self, pack: &str, version: &str) -> Result<(), PackFaultKind> {
        let locked = self.entries.iter().filter(|e| e.pack == pack && e.version != version);
        let newer = locked.filter(|e| super::version::order(version, &e.version).is_none_or(Ordering::is_lt));
        match newer.map(|e| &e.version).next() {
            None => Ok(()),
            Some(locked) => Err(PackFaultKind::Older { locked: clean::clean(locked), found: clean::clean(version) }),
        }
    }
}

impl LockEntry {
    /// What there is to be known of a loaded pack; `bytes` are its file's.
    #[must_use]
    pub fn of(file: &str, pack: &LoadedPack, bytes: &[u8]) -> Self {
        let m = &pack.manifest;
        let sha256 = hex(&Sha256::digest(bytes));
        Self { file: file.to_owned(), pack: m.id.clone(), version: m.version.clone(), sha256, key: None }
    }

    /// Holds a file's bytes to the digest, and to the signature beside the file where a key is named.
    ///
    /// # Errors
    /// When it is another file, or no signature of that key holds.
    pub fn hold(&self, file: &Path, bytes: &[u8]) -> Result<(), PackFaultKind> {
        let found = hex(&Sha256::digest(bytes));
        if found != self.sha256 {
            return Err(PackFaultKind::NotAsLocked { locked: self.sha256.clone(), found });
        }
        let Some(key) = &self.key else { return Ok(()) };
        PublicKey::parse(key).and_then(|key| key.holds(file, bytes)).map(|_| ()).map_err(PackFaultKind::NotAsSigned)
    }
}

/// The files that the file `packs` of this folder names, one a line; `#` starts a remark. None if there is no such file.
///
/// # Errors
/// When there is one that cannot be read.
pub fn listed(folder: &Path) -> Result<Option<Vec<String>>, PackFault> {
    let path = folder.join(LISTED);
    let text = match regular::text(&path, MOST) {
        Ok(text) => text,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        // a folder of that name is a folder, and no list
        Err(_) if path.is_dir() => return Ok(None),
        Err(e) => {
            let origin = clean::clean(&path.display().to_string());
            let fault = PackFaultKind::Unreadable(clean::clean(&e.to_string()));
            return Err(PackFault { pack: origin.clone(), origin, fault });
        }
    };
    let lines = text.lines().map(|l| l.split('#').next().unwrap_or("").trim());
    Ok(Some(lines.filter(|l| !l.is_empty()).map(str::to_owned).collect()))
}

/// The file that a line of `packs` names, if it lies in the sheet's folder or below it, whatever links lead to it, or in a
/// folder that the user's own list allows. `list` is where that list is.
///
/// # Errors
/// When it lies elsewhere: who wrote the sheet's folder does not choose what else of this computer is run.
pub fn reach(folder: &Path, name: &str, allowed: &[PathBuf], list: &Path) -> Result<PathBuf, PackFaultKind> {
    let path = folder.join(name);
    let here = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let real = path.canonicalize();
    let within = |folder: &Path| match (&real, folder.canonicalize()) {
        (Ok(real), Ok(folder)) => real.starts_with(folder),
        // what is not there is told as such, and only of this folder
        (Err(_), _) => {
            folder == here
                && Path::new(name).components().all(|c| matches!(c, Component::Normal(_) | Component::CurDir))
        }
        (Ok(_), Err(_)) => false,
    };
    if within(here) || allowed.iter().any(|folder| within(folder)) {
        return Ok(path);
    }
    Err(PackFaultKind::Elsewhere(clean::clean(&list.display().to_string())))
}

/// The folders that a user's list names, one a line; `#` starts a remark. None of them where there is no such list, or
/// where it hangs on the folder that the program was started in.
#[must_use]
pub fn allowed(list: &Path) -> Vec<PathBuf> {
    if !list.is_absolute() {
        return Vec::new();
    }
    let text = regular::text(list, MOST).unwrap_or_default();
    let lines = text.lines().map(|l| l.split('#').next().unwrap_or("").trim());
    // a folder that hangs on where the program was started is nobody's choice
    lines.filter(|l| !l.is_empty()).map(PathBuf::from).filter(|p| p.is_absolute()).collect()
}

/// The digests of the packs that this user has locked: the first word of each line of a file of the user's own. A lock that
/// came with a stranger's folder is the stranger's word, and this is the user's. Nothing where there is no such file, or
/// where it hangs on the folder that the program was started in.
#[must_use]
pub fn known(own: &Path) -> BTreeSet<String> {
    if !own.is_absolute() {
        return BTreeSet::new();
    }
    let text = regular::text(own, MOST_KNOWN).unwrap_or_default();
    text.lines().filter_map(|l| l.split_whitespace().next()).map(str::to_owned).collect()
}

/// Writes these packs into the user's own file, those that are not there yet, and gives them back.
///
/// # Errors
/// When there is no place of the user's own, or it cannot be written.
pub fn remember<'a>(own: &Path, entries: &[&'a LockEntry]) -> std::io::Result<Vec<&'a LockEntry>> {
    let known = known(own);
    let new: Vec<&LockEntry> = entries.iter().copied().filter(|e| !known.contains(&e.sha256)).collect();
    if new.is_empty() {
        return Ok(new);
    }
    if !own.is_absolute() {
        return Err(std::io::Error::other("there is no folder for your own settings: set HOME or XDG_CONFIG_HOME"));
    }
    if let Some(folder) = own.parent() {
        std::fs::create_dir_all(folder)?;
    }
    // in one write: two programs may lock at once
    let lines: String =
        new.iter().map(|e| clean::clean(&format!("{} {} {}", e.sha256, e.pack, e.version)) + "\n").collect();
    std::fs::OpenOptions::new().append(true).create(true).open(own)?.write_all(lines.as_bytes())?;
    Ok(new)
}

fn parse(text: &str) -> Result<Vec<LockEntry>, PackFaultKind> {
    let damaged = |e: serde_json::Error| {
        let (line, column) = (e.line(), e.column());
        let words = e.to_string();
        let words = words.strip_suffix(&format!(" at line {line} column {column}")).unwrap_or(&words);
        PackFaultKind::LockDamaged { line, column, words: clean::clip(words, 300) }
    };
    let value: serde_json::Value = serde_json::from_str(text).map_err(damaged)?;
    // a newer kind may have fields that are not known here: its number comes first
    if let Some(kind) = value.get("lock").and_then(serde_json::Value::as_u64).filter(|k| *k > KIND) {
        return Err(PackFaultKind::LockNewer(kind));
    }
    let whole: Whole = serde_json::from_str(text).map_err(damaged)?;
    let mut entries = whole.packs;
    entries.sort_by(|a, b| a.file.cmp(&b.file));
    let twice = entries.iter().zip(entries.iter().skip(1)).find(|(a, b)| a.file == b.file);
    if let Some((entry, _)) = twice {
        return Err(PackFaultKind::LockTwice(clean::clean(&entry.file)));
    }
    Ok(entries)
}

fn kind<'de, D: Deserializer<'de>>(from: D) -> Result<u64, D::Error> {
    from.deserialize_u64(Kind)
}

fn digest<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    let fits = |text: &str| text.len() == 64 && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
    from.deserialize_str(Held("64 hexadecimal digits, 0 to 9 and a to f", fits))
}

fn key<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    let fits = |text: &str| PublicKey::parse(text).is_ok();
    from.deserialize_str(Held("a public key, 56 characters that start with RW", fits)).map(Some)
}

/// Holds a value to what it should be where it stands: an error from within a visitor keeps the value's place.
struct Held(&'static str, fn(&str) -> bool);

impl Visitor<'_> for Held {
    type Value = String;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.0)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        if (self.1)(text) { Ok(text.to_owned()) } else { Err(E::invalid_value(Unexpected::Str(text), &self)) }
    }
}

/// Holds the number of a lock's kind to the one that is known.
struct Kind;

impl Visitor<'_> for Kind {
    type Value = u64;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("1, the kind of lock")
    }

    fn visit_u64<E: Error>(self, kind: u64) -> Result<u64, E> {
        if kind == KIND { Ok(kind) } else { Err(E::invalid_value(Unexpected::Unsigned(kind), &self)) }
    }
}
