//! What every page starts with: the sheet, and the packs that count for it.

use super::io::{Exit, Io};
use super::options::{PackFiles, WhatIf};
use crate::packs::lock::{self, Lock, LockEntry};
use crate::packs::{self, LoadedPack, PackFault, PackFaultKind};
use crate::report::NamedPack;
use crate::sheet::{Sheet, WhatIfFault};
use crate::verdict::RulePack;
use std::path::{Path, PathBuf};

/// Reads a sheet, or says on standard error what is wrong with it.
pub(super) fn sheet(path: &Path, io: &mut Io<'_>) -> Result<Sheet, Exit> {
    Sheet::read(path).map_err(|faults| {
        let text = faults.render(io.err_colour);
        io.complain(&text);
        Exit::INVALID
    })
}

/// The sheet as it would be with some fields otherwise, or says on standard error why it cannot be.
pub(super) fn what_if(sheet: Sheet, what_if: &WhatIf, io: &mut Io<'_>) -> Result<Sheet, Exit> {
    if what_if.assignments.is_empty() {
        return Ok(sheet);
    }
    sheet.what_if(&what_if.assignments).map_err(|fault| {
        let text = match fault {
            WhatIfFault::Field(words) => super::paper::fill(&format!("--set {words}"), "", "  "),
            WhatIfFault::Sheet(faults) => faults.render(io.err_colour),
        };
        io.complain(&text);
        Exit::INVALID
    })
}

/// Takes the fields that the packs ask for, or says on standard error what is wrong with them.
pub(super) fn pack_fields(sheet: &mut Sheet, packs: &[LoadedPack], io: &mut Io<'_>) -> Result<(), Exit> {
    packs::take_fields(sheet, packs).map_err(|faults| {
        let text = faults.render(io.err_colour);
        io.complain(&text);
        Exit::INVALID
    })
}

/// The packs that count: the built-in ones, those of the `packs` file beside the sheet, those of the command line.
/// A pack that cannot be loaded is told with the rest of the report, and costs the others nothing.
pub(super) fn packs(with: &PackFiles, sheet: Option<&Path>, io: &Io<'_>) -> (Vec<LoadedPack>, Vec<PackFault>) {
    let folder = sheet.map(|sheet| sheet.parent().unwrap_or(Path::new("")));
    let Loaded { packs: mut all, mut faults } = from_files(&with.packs, folder, &pack_folders(io));
    let together = packs::together(&all);
    if !together.is_empty() {
        // the built-in packs stand by themselves; what was loaded beside them does not get along
        all.truncate(packs::builtin().len());
        let pack = "the packs together".to_owned();
        faults.push(PackFault { origin: pack.clone(), pack, fault: PackFaultKind::BadManifest(together) });
    }
    (all, faults)
}

/// Packs, and those that could not be had.
struct Loaded {
    packs: Vec<LoadedPack>,
    faults: Vec<PackFault>,
}

impl Loaded {
    /// A table is loaded beside those before it, whose rules it can stand in for.
    fn keep(&mut self, load: impl FnOnce(&[LoadedPack]) -> Result<LoadedPack, PackFault>) {
        match load(&self.packs) {
            Ok(pack) => self.packs.push(pack),
            Err(fault) => self.faults.push(fault),
        }
    }
}

/// The built-in packs, those of the file `packs` in a sheet's folder and those of the command line, each held to the
/// folder's lock: who is listed must lie below that folder, or in one that the user's own list allows, and must be locked;
/// who is named on the command line is held to the lock where it has that file.
fn from_files(named: &[PathBuf], folder: Option<&Path>, list: &Path) -> Loaded {
    let mut all = Loaded { packs: packs::builtin(), faults: Vec::new() };
    let lock = match folder.map(Lock::read).transpose() {
        Ok(lock) => lock.flatten(),
        Err(fault) => {
            all.faults.push(fault);
            return all;
        }
    };
    let listed = match folder.map(lock::listed).transpose() {
        Ok(listed) => listed.flatten().unwrap_or_default(),
        Err(fault) => {
            all.faults.push(fault);
            Vec::new()
        }
    };
    let allowed = lock::allowed(list);
    for name in &listed {
        let home = folder.unwrap_or(Path::new(""));
        let path = home.join(name);
        let entry = lock.as_ref().map(|lock| lock.listed(name));
        all.keep(|others| {
            let fault = |fault| pack_fault(&path, fault);
            lock::reach(home, name, &allowed, list).map_err(fault)?;
            let shown = || packs::clean::clean(&path.display().to_string());
            match entry {
                Some(Some(entry)) => held(&path, entry, others),
                Some(None) => Err(fault(PackFaultKind::NotLocked(shown()))),
                // a folder of a stranger's has its packs run by nobody's word
                None => Err(fault(PackFaultKind::NeverLocked(shown()))),
            }
        });
    }
    let mut missing: Vec<&LockEntry> =
        lock.iter().flat_map(|l| &l.entries).filter(|e| !listed.contains(&e.file)).collect();
    for path in named {
        let entry = lock.as_ref().and_then(|lock| lock.reached(path));
        missing.retain(|e| Some(*e) != entry);
        all.keep(|others| match entry {
            None => packs::load_beside(path, others),
            Some(entry) => held(path, entry, others),
        });
    }
    let folder = folder.unwrap_or(Path::new(""));
    all.faults.extend(missing.into_iter().map(|entry| pack_fault(&folder.join(&entry.file), PackFaultKind::NotListed)));
    all
}

fn held(path: &Path, entry: &LockEntry, others: &[LoadedPack]) -> Result<LoadedPack, PackFault> {
    let bytes = packs::read_file(path)?;
    entry.hold(path, &bytes).map_err(|fault| pack_fault(path, fault))?;
    let mut pack = packs::load_bytes_beside(path, bytes, others)?;
    pack.key.clone_from(&entry.key);
    Ok(pack)
}

/// The user's own list of folders whose packs may count beside any sheet.
pub(super) fn pack_folders(io: &Io<'_>) -> PathBuf {
    io.settings.clone().unwrap_or_default().join("pack-folders")
}

/// The folder of the user's own settings, after the XDG Base Directory Specification; none where the computer has no home.
pub(super) fn settings() -> Option<PathBuf> {
    let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let base = absolute("XDG_CONFIG_HOME").or_else(|| Some(absolute("HOME")?.join(".config")))?;
    Some(base.join("thou"))
}

fn pack_fault(path: &Path, fault: PackFaultKind) -> PackFault {
    let origin = packs::clean::clean(&path.display().to_string());
    PackFault { pack: origin.clone(), origin, fault }
}

/// What a page says of each pack.
pub(super) fn named(packs: &[LoadedPack]) -> Vec<NamedPack> {
    let named = |p: &LoadedPack| NamedPack {
        id: p.manifest.id.clone(),
        version: p.manifest.version.clone(),
        built_in: p.built_in(),
        sha256: p.file_digest.clone(),
        key: p.key.clone(),
    };
    packs.iter().map(named).collect()
}
