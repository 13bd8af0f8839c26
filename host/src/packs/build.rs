//! Builds a pack: a Rust crate becomes a core module, the module a component, the component carries its manifest.
//!
//! The bytes depend on the sources and the compiler alone, not on where the sources lie: paths are remapped and
//! sections with names and tools are left out.

mod cargo;
mod digests;

use super::component::MANIFEST_SECTION;
use super::fault::{Fault, PackFault};
use super::pack::{self, Pack};
use super::strip::{stripped, with_section};
pub use digests::{Digest, Digests, sources_digest};
use std::path::{Path, PathBuf};
use wit_component::ComponentEncoder;

/// Why a pack could not be built.
#[derive(Debug, thiserror::Error)]
pub enum BuildError {
    /// No crate there.
    #[error("{}: there is no Cargo.toml; `thou pack build` takes the folder of a crate", .0.display())]
    NoCrate(PathBuf),
    /// A tool could not be started.
    #[error("{tool} cannot be started: {error}; set {variable} to where it is")]
    NoTool {
        /** the program */
        tool: String,
        /** why not */
        error: String,
        /** CARGO or RUSTC */
        variable: &'static str,
    },
    /// The compiler said no, and has said why.
    #[error(
        "{cargo} could not build {}; its own words stand above. If it has no target wasm32-unknown-unknown: \
         `rustup target add wasm32-unknown-unknown`",
        crate_dir.display()
    )]
    Cargo {
        /** the program */
        cargo: String,
        /** the crate */
        crate_dir: PathBuf,
    },
    /// It built something else.
    #[error("{}: the crate gives no WebAssembly module: its Cargo.toml needs [lib] crate-type = [\"cdylib\"]", .0.display())]
    NoModule(PathBuf),
    /// What cargo says of itself cannot be read.
    #[error("what {0} printed cannot be read: {1}")]
    Unreadable(String, String),
    /// The module does not become a component.
    #[error("the module does not become a component: {0}; does the crate end with thou_sdk::pack!(...)?")]
    NoComponent(String),
    /// The component is no good pack.
    #[error(transparent)]
    Pack(#[from] PackFault),
    /// A file cannot be read or written.
    #[error("{}: {error}", path.display())]
    File {
        /** which */
        path: PathBuf,
        /** why */
        error: std::io::Error,
    },
}

/// A pack just built.
#[derive(Debug, Clone)]
pub struct Built {
    /// It, loaded like any other.
    pub pack: Pack,
    /// Its component.
    pub bytes: Vec<u8>,
    /// SHA-256 of its sources and those of the crates beside it that it uses, see [`sources_digest`].
    pub sources: String,
    /// The compiler, as `rustc --version` names it.
    pub rustc: String,
}

/// Builds the pack whose crate is in this folder, with the cargo and the rustc that `CARGO` and `RUSTC` name. What the
/// compiler has to say goes to standard error.
///
/// # Errors
/// When it does not compile, is no component, or is none that [`Pack::load`] would take.
pub fn build(dir: &Path) -> Result<Built, BuildError> {
    let crate_dir = dir.canonicalize().map_err(|error| BuildError::File { path: dir.to_owned(), error })?;
    if !crate_dir.join("Cargo.toml").is_file() {
        return Err(BuildError::NoCrate(crate_dir));
    }
    let tools = cargo::Tools::new()?;
    let crates = tools.crates(&crate_dir)?;
    let module = tools.module(&crate_dir, &crates)?;
    let module = std::fs::read(&module).map_err(|error| BuildError::File { path: module, error })?;
    let bytes = component(&module, &crate_dir)?;
    let pack = Pack::load(bytes.clone(), &dir.display().to_string())?;
    pack.prepare()?;
    let named: Vec<(&str, PathBuf)> = crates.local.iter().map(|(name, dir)| (name.as_str(), dir.clone())).collect();
    let sources = sources_digest(&named).map_err(|error| BuildError::File { path: crate_dir, error })?;
    Ok(Built { pack, bytes, sources, rustc: tools.rustc_version })
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
        if folder.join("digests.json").exists() {
            let mut digests = Digests::read(folder).map_err(|e| failed(&folder.join("digests.json"), e))?;
            digests.0.insert(self.pack.manifest.id.clone(), self.digest());
            digests.write(folder).map_err(|e| failed(&folder.join("digests.json"), e))?;
        }
        Ok(())
    }

    /// What `digests.json` says of it.
    #[must_use]
    pub fn digest(&self) -> Digest {
        Digest { sha256: self.pack.digest.clone(), sources_sha256: self.sources.clone(), rustc: self.rustc.clone() }
    }

    /// Compares it with this file and with the `digests.json` beside it, and says in which way they are out of date.
    /// Bytes are compared only where the same compiler made them.
    #[must_use]
    pub fn differs(&self, file: &Path) -> Option<String> {
        let (id, folder) = (&self.pack.manifest.id, folder_of(file));
        let Some(recorded) = Digests::read(folder).ok().and_then(|d| d.0.get(id).cloned()) else {
            return Some(format!("{id}: {} does not have it", folder.join("digests.json").display()));
        };
        if recorded.sources_sha256 != self.sources {
            return Some(format!("{id}: {} was built from other sources than these", file.display()));
        }
        if recorded.rustc != self.rustc {
            return None;
        }
        if recorded.sha256 != self.pack.digest {
            return Some(format!("{id}: the same sources and the same {} give other bytes", self.rustc));
        }
        let kept = std::fs::read(file).unwrap_or_default();
        (kept != self.bytes).then(|| format!("{id}: {} is not the file whose digest is recorded", file.display()))
    }
}

fn folder_of(file: &Path) -> &Path {
    file.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// A component with its manifest, from a core module that has the bindings' own section.
fn component(module: &[u8], crate_dir: &Path) -> Result<Vec<u8>, BuildError> {
    let no = |e: String| BuildError::NoComponent(super::clean::clip(&e, 400));
    let encoder = ComponentEncoder::default().validate(true).module(module);
    let bare = encoder.and_then(|mut encoder| encoder.encode()).map_err(|e| no(format!("{e:#}")))?;
    let bare = stripped(&bare).map_err(no)?;
    let outside = super::component::look(&bare);
    let fault = |fault: Fault| PackFault {
        pack: crate_dir.file_name().map_or_else(|| "?".to_owned(), |n| n.to_string_lossy().into_owned()),
        origin: crate_dir.display().to_string(),
        fault,
    };
    // before it is run, or the linker's words stand where ours should
    let imports = outside.map_err(fault)?.imports;
    if !imports.is_empty() {
        return Err(fault(Fault::WantsImports(imports)).into());
    }
    let manifest = pack::describe(&bare).map_err(fault)?;
    Ok(with_section(bare, MANIFEST_SECTION, manifest.as_bytes()))
}
