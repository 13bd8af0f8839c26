//! Pinning the packs beside a sheet.

use super::whole_file;
use crate::cli::io::{Exit, Io};
use crate::cli::load;
use crate::packs::lock::{LISTED, LOCK, Lock as Locked, LockEntry, allowed, listed, reach, remember};
use crate::packs::signature::PublicKey;
use crate::packs::{self, PackFault, clean};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Lock {
    /// Only these of the packs that are listed; the others stay as they are locked
    #[arg(value_name = "FILE")]
    files: Vec<String>,
    /// The sheet beside which the file `packs` stands
    #[arg(long, value_name = "SHEET", conflicts_with = "dir")]
    sheet: Option<PathBuf>,
    /// The folder in which it stands; this one if neither is given
    #[arg(long, value_name = "DIR")]
    dir: Option<PathBuf>,
    /// The public key, or its .pub file, that the packs named must be signed with from now on
    #[arg(long, value_name = "KEY", requires = "files")]
    key: Option<String>,
    /// Ask no signature of the packs named any more
    #[arg(long, requires = "files", conflicts_with = "key")]
    no_key: bool,
    /// Write nothing: say what differs from the lock
    #[arg(long)]
    check: bool,
    /// Lock an older version than the one that was locked
    #[arg(long)]
    allow_older: bool,
}

pub(super) fn lock(args: &Lock, io: &mut Io<'_>) -> Exit {
    let beside = args.sheet.as_deref().map(|sheet| sheet.parent().unwrap_or(Path::new("")));
    let folder = beside.or(args.dir.as_deref()).unwrap_or(Path::new(""));
    let key = match args.key.as_deref().map(PublicKey::given).transpose() {
        Ok(key) => key,
        Err(fault) => {
            io.complain(&format!("--key: {fault}"));
            return Exit::INVALID;
        }
    };
    let (names, old) = match (listed(folder), Locked::read(folder)) {
        (Ok(Some(names)), Ok(old)) => (names, old),
        (Ok(None), _) => {
            let shown = clean::clean(&folder.join(LISTED).display().to_string());
            io.complain(&format!("There is no file {shown}: it lists the packs that count, one a line."));
            return Exit::INVALID;
        }
        (Err(fault), _) | (_, Err(fault)) => {
            io.complain(&fault.to_string());
            return Exit::PACK;
        }
    };
    if let Some(other) = args.files.iter().find(|f| !names.contains(f)) {
        let known = names.join(", ");
        io.complain(&clean::clean(&format!("The file {LISTED} does not list {other}. It lists: {known}.")));
        return Exit::INVALID;
    }
    if args.check && old.is_none() {
        let shown = clean::clean(&folder.join(LOCK).display().to_string());
        io.complain(&format!("There is no {shown}: `thou pack lock` writes one."));
        return Exit::PACK;
    }
    let old = old.unwrap_or_else(|| Locked::empty(folder));
    let keys = match (&key, args.no_key) {
        (Some(key), _) => WantedKey::This(key.text()),
        (None, true) => WantedKey::None,
        (None, false) => WantedKey::AsBefore,
    };
    let list = load::pack_folders(io);
    let wanted = Wanted { folder, names: &names, only: &args.files, keys, list: &list, allow_older: args.allow_older };
    let (new, faults) = wanted.now(&old);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    let changes = differences(&old.entries, &new.entries);
    let count = if new.entries.len() == 1 { "1 pack".to_owned() } else { format!("{} packs", new.entries.len()) };
    if !faults.is_empty() {
        if !args.check {
            io.complain("Nothing was written.");
        }
        Exit::PACK
    } else if args.check {
        let last =
            if changes.is_empty() { format!("{count}, as they stand") } else { "differs from the packs".to_owned() };
        io.say(&format!("{changes}{LOCK}: {last}\n"));
        if changes.is_empty() { Exit::FINE } else { Exit::PACK }
    } else {
        write(args, folder, &new, &changes, &count, io)
    }
}

/// Writes the lock, and that it was this user who locked it.
fn write(args: &Lock, folder: &Path, new: &Locked, changes: &str, count: &str, io: &mut Io<'_>) -> Exit {
    let looked_at: Vec<&LockEntry> =
        new.entries.iter().filter(|e| args.files.is_empty() || args.files.contains(&e.file)).collect();
    let own = load::known_packs(io);
    let mut taken = String::new();
    match remember(&own, &looked_at) {
        Ok(first) => {
            for e in first.iter().filter(|e| !changes.contains(&e.sha256)) {
                let file = clean::clean(&e.file);
                let _ = writeln!(taken, "yours now  {file}   {} {}\n  sha256 {}", e.pack, e.version, e.sha256);
            }
        }
        Err(error) => {
            io.complain(&format!("{} cannot be written: {error}", clean::clean(&own.display().to_string())));
            return Exit::INVALID;
        }
    }
    let changes = format!("{taken}{changes}");
    if changes.len() == taken.len() && folder.join(LOCK).exists() {
        io.say(&format!("{changes}{LOCK}: {count}, as they stand; nothing to write\n"));
        Exit::FINE
    } else if let Err(error) = whole_file::replace(&folder.join(LOCK), new.text().as_bytes()) {
        io.complain(&format!("{LOCK} cannot be written: {error}"));
        Exit::INVALID
    } else {
        io.say(&format!("{changes}{LOCK}: {count}, written\n"));
        Exit::FINE
    }
}

/// The keys that the packs named are asked for.
enum WantedKey {
    AsBefore,
    None,
    This(String),
}

/// What is to be locked, and how.
struct Wanted<'a> {
    folder: &'a Path,
    names: &'a [String],
    only: &'a [String],
    keys: WantedKey,
    list: &'a Path,
    allow_older: bool,
}

impl Wanted<'_> {
    /// The lock as it would be written now; `only` names what is looked at anew, all of it where nothing is named. Packs are
    /// loaded in the order of the list, as for a page: a table can stand in for the rules of those before it.
    fn now(&self, old: &Locked) -> (Locked, Vec<PackFault>) {
        let Self { folder, names, only, keys, list, allow_older } = self;
        let allowed = allowed(list);
        let mut new = Locked::empty(folder);
        let (mut loaded, mut faults) = (packs::builtin(), Vec::new());
        for (at, name) in names.iter().enumerate() {
            if names.iter().take(at).any(|n| n == name) {
                continue;
            }
            let path = folder.join(name);
            let origin = || clean::clean(&path.display().to_string());
            let found = reach(folder, name, &allowed, list)
                .map_err(|fault| PackFault { pack: origin(), origin: origin(), fault })
                .and_then(|_| packs::read_file(&path))
                .and_then(|bytes| Ok((packs::load_bytes_beside(&path, bytes.clone(), &loaded)?, bytes)));
            let before = old.listed(name);
            if !only.is_empty() && !only.contains(name) {
                new.entries.extend(before.cloned());
                loaded.extend(found.ok().map(|(pack, _)| pack));
                continue;
            }
            let key = match keys {
                WantedKey::This(key) => Some(key.clone()),
                WantedKey::None => None,
                WantedKey::AsBefore => before.and_then(|e| e.key.clone()),
            };
            let entry = found.and_then(|(pack, bytes)| {
                let entry = LockEntry { key, ..LockEntry::of(name, &pack, &bytes) };
                let (id, origin) = (pack.manifest.id.clone(), pack.origin.clone());
                loaded.push(pack);
                let no_older = if *allow_older { Ok(()) } else { old.no_step_back(&entry.pack, &entry.version) };
                let held = no_older.and_then(|()| entry.hold(&path, &bytes));
                held.map_err(|fault| PackFault { pack: id, origin, fault }).map(|()| entry)
            });
            match entry {
                Ok(entry) => new.entries.push(entry),
                Err(fault) => faults.push(fault),
            }
        }
        new.entries.sort_by(|a, b| a.file.cmp(&b.file));
        (new, faults)
    }
}

/// What became of each pack, by its file.
fn differences(old: &[LockEntry], new: &[LockEntry]) -> String {
    let mut out = String::new();
    let files: BTreeSet<&str> = old.iter().chain(new).map(|e| e.file.as_str()).collect();
    for file in files {
        let of = |list: &[LockEntry]| list.iter().find(|e| e.file == file).cloned();
        let line = match (of(old), of(new)) {
            (None, Some(e)) => format!("added    {file}   {} {}\n  sha256 {}\n{}", e.pack, e.version, e.sha256, by(&e)),
            (Some(e), None) => format!("let go   {file}   {} {}\n", e.pack, e.version),
            (Some(a), Some(b)) if a != b => changed(file, &a, &b),
            _ => continue,
        };
        // its lines are this program's, the names in them are not
        for line in line.lines() {
            let _ = writeln!(out, "{}", clean::clean(line));
        }
    }
    out
}

fn changed(file: &str, a: &LockEntry, b: &LockEntry) -> String {
    let mut out = format!("changed  {file}   {} {}", a.pack, a.version);
    if (&a.pack, &a.version) != (&b.pack, &b.version) {
        let _ = write!(out, ", now {} {}", b.pack, b.version);
    }
    out.push('\n');
    if a.sha256 != b.sha256 {
        let _ = write!(out, "  sha256 {}\n  now    {}\n", a.sha256, b.sha256);
    }
    if a.key != b.key {
        let none = "  no signature asked for any more\n".to_owned();
        out.push_str(&if b.key.is_some() { by(b) } else { none });
    }
    out
}

fn by(entry: &LockEntry) -> String {
    entry.key.as_deref().map(|key| format!("  signed with {key}\n")).unwrap_or_default()
}
