//! Rule packs: WebAssembly components that are given numbers, give numbers back, and reach nothing else.
//!
//! [`LoadedPack::load`] looks at a component without running it and takes its words from its manifest. [`LoadedPack::assess`]
//! compiles it (or takes it from the cache), asks it in a fresh store within [`RunLimits`], and holds its answer to the
//! manifest. Whatever is wrong is a [`PackFault`], which costs that pack's answer and nobody else's.

mod answer;
pub mod build;
mod builtin;
mod cache;
pub mod cases;
mod check;
mod compile;
mod compile_cost;
mod component;
mod contract_1_0;
mod deep_stack;
mod engine;
mod fault;
mod imports;
pub mod lock;
mod manifest;
mod pack;
mod producers;
mod regular;
pub mod signature;
mod strip;
mod table;
mod together;
pub mod version;

pub use answer::{CheckedAnswer, Finding, OutcomeState, RuleOutcome, Said, Service, Step, Window};
pub use builtin::builtin;
pub use component::{MANIFEST_SECTION, MAX_BYTES};
pub use deep_stack::on_deep_stack;
pub use engine::{Cost, RunLimits};
pub use fault::{PackFault, PackFaultKind};
pub use imports::{Import, Imports};
pub use manifest::unsaid;
pub use pack::{BUILT_IN, Given, LoadedPack};
pub use table::{facts_for_tables, table};
pub use thou_text::clean;
pub use together::together;

/// What fuzzing needs and nobody else: an answer that no sandbox gave, on its way through everything behind it.
#[doc(hidden)]
pub mod seam {
    pub use super::answer::Raw;
    pub use super::pack::stand_in;
}

use regular::Whole;
use sha2::{Digest, Sha256};
use std::path::Path;
use thou_sheet::{Sheet, SheetFaults};
use thou_text::hex;

/// Takes into a sheet the fields that these packs ask for.
///
/// # Errors
/// What is written there and is not what a pack asks for.
pub fn take_fields(sheet: &mut Sheet, packs: &[LoadedPack]) -> Result<(), SheetFaults> {
    let fields = |p: &'_ LoadedPack| thou_fields::pack_fields(&p.manifest);
    let all: Vec<_> = packs.iter().map(|p| (p.manifest.id.as_str(), fields(p))).collect();
    sheet.take_pack_fields(&all)
}

/// Loads a pack from a file, a component or a house table, beside the built-in ones; nothing is compiled yet.
///
/// # Errors
/// When the file cannot be read, or as [`LoadedPack::load`], or when the table is wrong.
pub fn load_file(path: &Path) -> Result<LoadedPack, PackFault> {
    load_beside(path, &builtin())
}

/// The same beside these packs: a table can stand in for their rules.
///
/// # Errors
/// As [`load_file`].
pub fn load_beside(path: &Path, others: &[LoadedPack]) -> Result<LoadedPack, PackFault> {
    load_bytes_beside(path, read_file(path)?, others)
}

/// Loads a pack from the bytes of its file: who holds them to a digest runs what was held to it.
///
/// # Errors
/// As [`load_file`].
pub fn load_bytes(path: &Path, bytes: Vec<u8>) -> Result<LoadedPack, PackFault> {
    load_bytes_beside(path, bytes, &builtin())
}

/// The same beside these packs.
///
/// # Errors
/// As [`load_file`].
pub fn load_bytes_beside(path: &Path, bytes: Vec<u8>, others: &[LoadedPack]) -> Result<LoadedPack, PackFault> {
    let origin = clean::clean(&path.display().to_string());
    let of_file = hex(&Sha256::digest(&bytes));
    let mut component = bytes;
    if thou_table::is_table(&component) {
        let fault = |fault: PackFaultKind| PackFault { pack: origin.clone(), origin: origin.clone(), fault };
        component = table(&origin, &component, others).map_err(fault)?.component;
    }
    let mut pack = LoadedPack::load(component, &origin)?;
    pack.file_digest = of_file;
    Ok(pack)
}

/// Reads a pack's file, whatever is in it.
///
/// # Errors
/// When it cannot be read, or is larger than any pack.
pub fn read_file(path: &Path) -> Result<Vec<u8>, PackFault> {
    let origin = clean::clean(&path.display().to_string());
    let fault = |fault: PackFaultKind| PackFault { pack: origin.clone(), origin: origin.clone(), fault };
    match regular::read(path, MAX_BYTES) {
        Ok(Whole::Bytes(bytes)) => Ok(bytes),
        Ok(Whole::TooBig(bytes)) => Err(fault(PackFaultKind::TooBig { bytes, limit: MAX_BYTES })),
        Err(error) => Err(fault(PackFaultKind::Unreadable(clean::clean(&error.to_string())))),
    }
}
