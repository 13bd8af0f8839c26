//! Builds a pack: a Rust crate becomes a core module, a core module of any language a component, and the component
//! carries its manifest.
//!
//! The bytes depend on the sources and the compiler alone, not on where the sources lie: paths are remapped and
//! sections with names and tools are left out.

mod cargo;
mod digests;
mod error;
mod module;

use super::component::{MANIFEST_SECTION, MAX_BYTES};
use super::fault::{PackFault, PackFaultKind};
use super::pack::{self, LoadedPack};
use super::producers;
use super::strip::{stripped, with_section};
pub use digests::{Digest, Digests, sources_digest};
pub use error::BuildError;
use std::collections::BTreeSet;
use std::io::Read;
use std::path::{Path, PathBuf};

/// A pack just built.
#[derive(Debug, Clone)]
pub struct Built {
    /// It, loaded like any other.
    pub pack: LoadedPack,
    /// Its component.
    pub bytes: Vec<u8>,
    /// What it was made from, where it was made from sources.
    pub from: Option<BuiltFrom>,
}

/// What a pack was made from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BuiltFrom {
    /// SHA-256 of its sources and those of the crates beside it that it uses, see [`sources_digest`].
    pub sources: String,
    /// The compiler, as `rustc --version` names it.
    pub rustc: String,
}

/// Builds a pack from the folder of a crate, from a house table, or from a file that another language's tools made: a
/// core module, or a component without its manifest.
///
/// # Errors
/// When it is none of these, does not compile, or is no pack that [`LoadedPack::load`] would take.
pub fn build(path: &Path) -> Result<Built, BuildError> {
    if path.is_file() { from_file(path) } else { from_crate(path) }
}

/// With the cargo and the rustc that `CARGO` and `RUSTC` name. What the compiler has to say goes to standard error.
fn from_crate(dir: &Path) -> Result<Built, BuildError> {
    let crate_dir = dir.canonicalize().map_err(|error| BuildError::File { path: dir.to_owned(), error })?;
    if !crate_dir.join("Cargo.toml").is_file() {
        return Err(BuildError::NoCrate(dir.to_owned()));
    }
    let tools = cargo::Tools::new()?;
    tools.has_target()?;
    let crates = tools.crates(&crate_dir)?;
    let module = tools.module(&crate_dir, &crates)?;
    let module = std::fs::read(&module).map_err(|error| BuildError::File { path: module, error })?;
    let name = crate_dir.file_name().map_or_else(|| "?".to_owned(), |n| n.to_string_lossy().into_owned());
    // the linker may have left out which language it was
    let languages = BTreeSet::from(["Rust".to_owned()]);
    let bytes = described(&module::component(&module)?, languages, &name, &crate_dir.display().to_string())?;
    let pack = loaded(&bytes, &dir.display().to_string())?;
    let named: Vec<(&str, PathBuf)> = crates.local.iter().map(|(name, dir)| (name.as_str(), dir.clone())).collect();
    let sources = sources_digest(&named).map_err(|error| BuildError::File { path: crate_dir, error })?;
    Ok(Built { pack, bytes, from: Some(BuiltFrom { sources, rustc: tools.rustc_version }) })
}

fn from_file(path: &Path) -> Result<Built, BuildError> {
    let failed = |error| BuildError::File { path: path.to_owned(), error };
    let mut bytes = Vec::new();
    std::fs::File::open(path).and_then(|f| f.take(MAX_BYTES + 1).read_to_end(&mut bytes)).map_err(failed)?;
    let name = path.file_stem().map_or_else(|| "?".to_owned(), |n| n.to_string_lossy().into_owned());
    let origin = path.display().to_string();
    let fault = |fault: PackFaultKind| PackFault { pack: name.clone(), origin: origin.clone(), fault };
    if thou_table::is_table(&bytes) {
        let made = super::table(&origin, &bytes, &super::builtin());
        let bytes = made.map_err(|f| BuildError::Table(PackFault { pack: origin.clone(), ..fault(f) }))?.component;
        return Ok(Built { pack: loaded(&bytes, &origin)?, bytes, from: None });
    }
    let core = match super::component::look(&bytes) {
        Ok(outside) if outside.manifest.is_some() => return Err(BuildError::Already(path.to_owned())),
        Ok(_) => bytes,
        Err(PackFaultKind::NotAComponent("a core module")) => {
            let imports = module::imports(&bytes).map_err(fault)?;
            if !imports.is_empty() {
                return Err(fault(PackFaultKind::WantsImports(imports.into())).into());
            }
            module::component(&bytes)?
        }
        Err(PackFaultKind::NotAComponent(what)) => {
            return Err(BuildError::NotBuildable { path: path.to_owned(), what: what.to_owned() });
        }
        Err(other) => return Err(fault(other).into()),
    };
    let bytes = described(&core, BTreeSet::new(), &name, &origin)?;
    let pack = loaded(&bytes, &origin)?;
    Ok(Built { pack, bytes, from: None })
}

impl Built {
    /// Writes the component to this file. Where the file's folder has a `digests.json`, its digests are noted there.
    ///
    /// # Errors
    /// When a file cannot be written.
    pub fn write(&self, file: &Path) -> Result<(), BuildError> {
        let failed = |path: &Path, error| BuildError::File { path: path.to_owned(), error };
        std::fs::write(file, &self.bytes).map_err(|e| failed(file, e))?;
        let folder = folder_of(file);
        if let Some(digest) = self.digest().filter(|_| folder.join("digests.json").exists()) {
            let mut digests = Digests::read(folder).map_err(|e| failed(&folder.join("digests.json"), e))?;
            digests.0.insert(self.pack.manifest.id.clone(), digest);
            digests.write(folder).map_err(|e| failed(&folder.join("digests.json"), e))?;
        }
        Ok(())
    }

    /// What `digests.json` says of it; nothing of what was not built from sources.
    #[must_use]
    pub fn digest(&self) -> Option<Digest> {
        let BuiltFrom { sources, rustc } = self.from.clone()?;
        Some(Digest { sha256: self.pack.digest.clone(), sources_sha256: sources, rustc })
    }

    /// Compares it with this file and, where it was built from sources, with the `digests.json` beside it, and says in
    /// which way they are out of date. Bytes are compared only where the same compiler made them.
    #[must_use]
    pub fn differs(&self, file: &Path) -> Option<String> {
        let (id, folder) = (&self.pack.manifest.id, folder_of(file));
        let Some(made) = &self.from else {
            let kept = std::fs::read(file).unwrap_or_default();
            return (kept != self.bytes).then(|| format!("{id}: {} is not what this gives", file.display()));
        };
        let Some(recorded) = Digests::read(folder).ok().and_then(|d| d.0.get(id).cloned()) else {
            return Some(format!("{id}: {} does not have it", folder.join("digests.json").display()));
        };
        if recorded.sources_sha256 != made.sources {
            return Some(format!("{id}: {} was built from other sources than these", file.display()));
        }
        if recorded.rustc != made.rustc {
            return None;
        }
        if recorded.sha256 != self.pack.digest {
            return Some(format!("{id}: the same sources and the same {} give other bytes", made.rustc));
        }
        let kept = std::fs::read(file).unwrap_or_default();
        (kept != self.bytes).then(|| format!("{id}: {} is not the file whose digest is recorded", file.display()))
    }
}

fn folder_of(file: &Path) -> &Path {
    file.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// The component with its manifest, which it is asked for, and the languages it was written in; without whatever else
/// tells of the builder's machine.
fn described(
    component: &[u8],
    mut languages: BTreeSet<String>,
    name: &str,
    origin: &str,
) -> Result<Vec<u8>, BuildError> {
    languages.extend(producers::languages(component));
    let bare = stripped(component).map_err(|e| BuildError::NoComponent(super::clean::clip(&e, 400)))?;
    let fault = |fault: PackFaultKind| PackFault { pack: name.to_owned(), origin: origin.to_owned(), fault };
    // before it is run, or the linker's words stand where ours should
    let outside = super::component::look(&bare).map_err(fault)?;
    if outside.imports.count > 0 {
        return Err(fault(PackFaultKind::WantsImports(outside.imports)).into());
    }
    if outside.exports.is_empty() || !outside.exports.iter().any(|e| e.starts_with("thou:rules/pack@1.0.")) {
        return Err(fault(PackFaultKind::NoExport(outside.exports)).into());
    }
    let manifest = pack::describe(&bare).map_err(fault)?;
    let bare = with_section(bare, producers::SECTION, &producers::section(&languages));
    Ok(with_section(bare, MANIFEST_SECTION, manifest.as_bytes()))
}

/// As its users will load it, compiled once.
fn loaded(bytes: &[u8], origin: &str) -> Result<LoadedPack, BuildError> {
    let pack = LoadedPack::load(bytes.to_vec(), origin)?;
    pack.prepare()?;
    Ok(pack)
}
