//! Looks at a pack's bytes without running or compiling them.

use super::clean::clip;
use super::fault::PackFaultKind;
use super::imports::{Import, Imports, MAX_LISTED};
use wasmparser::{Encoding, Parser, Payload};

/// The custom section that holds the manifest.
pub const MANIFEST_SECTION: &str = "thou-manifest";
/// More than this is not compiled, in bytes: the compiler is no sandbox.
pub const MAX_BYTES: u64 = 64 * 1024 * 1024;
/// More manifest than this is not read, in bytes.
const MAX_MANIFEST: usize = 4 * 1024 * 1024;
/// What stands on the outside of a component.
#[derive(Debug, Default)]
pub(crate) struct ComponentFace<'a> {
    pub(crate) manifest: Option<&'a [u8]>,
    pub(crate) imports: Imports,
    pub(crate) exports: Vec<String>,
}

/// Reads a component's imports, exports and manifest.
pub(crate) fn look(bytes: &[u8]) -> Result<ComponentFace<'_>, PackFaultKind> {
    let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if size > MAX_BYTES {
        return Err(PackFaultKind::TooBig { bytes: size, limit: MAX_BYTES });
    }
    if let Some(what) = something_else(bytes) {
        return Err(PackFaultKind::NotAComponent(what));
    }
    let mut outside = ComponentFace::default();
    // parse_all walks into nested modules and components as well: only what stands at depth 0 is the pack's own
    let mut depth = 0_usize;
    for payload in Parser::new(0).parse_all(bytes) {
        match payload.map_err(damaged)? {
            Payload::Version { encoding: Encoding::Module, .. } if depth == 0 => {
                return Err(PackFaultKind::NotAComponent("a core module"));
            }
            Payload::ModuleSection { .. } | Payload::ComponentSection { .. } => depth += 1,
            Payload::End(_) => depth = depth.saturating_sub(1),
            Payload::CustomSection(section) if depth == 0 && section.name() == MANIFEST_SECTION => {
                if section.data().len() > MAX_MANIFEST {
                    return Err(PackFaultKind::BadManifest(vec![format!("it is over {MAX_MANIFEST} bytes long")]));
                }
                if outside.manifest.replace(section.data()).is_some() {
                    return Err(PackFaultKind::BadManifest(vec!["there are two of them".to_owned()]));
                }
            }
            Payload::ComponentImportSection(section) if depth == 0 => {
                for import in section {
                    let name = import.map_err(damaged)?.name.name;
                    outside.imports.count += 1;
                    if outside.imports.listed.len() < MAX_LISTED {
                        outside.imports.listed.push(Import { name: clip(name, 120) });
                    }
                }
            }
            Payload::ComponentExportSection(section) if depth == 0 => {
                for export in section {
                    if outside.exports.len() < MAX_LISTED {
                        outside.exports.push(clip(export.map_err(damaged)?.name.name, 120));
                    }
                }
            }
            _ => {}
        }
    }
    Ok(outside)
}

fn damaged(error: wasmparser::BinaryReaderError) -> PackFaultKind {
    PackFaultKind::Damaged(format!("{} (at byte {})", clip(error.message(), 200), error.offset()))
}

/// What these bytes are, when they are clearly no WebAssembly at all or a kind of it that is no component.
fn something_else(bytes: &[u8]) -> Option<&'static str> {
    // the binary format's preamble: magic, version, layer; layer 1 is a component
    match bytes {
        [] => Some("an empty file"),
        [0, b'a', b's', b'm', 0x0d, 0, 1, 0, ..] => None,
        [0, b'a', b's', b'm', _, _, 1, 0, ..] => Some("one in another version of the binary format"),
        [0, b'a', b's', b'm', _, _, 0, 0, ..] => Some("a core module"),
        [0, b'a', b's', b'm', ..] => Some("the first bytes of a WebAssembly file"),
        [0x7f, b'E', b'L', b'F', ..] => Some("a program or compiled code of this kind of machine (ELF)"),
        [b'M', b'Z', ..] => Some("a Windows program"),
        [0xcf | 0xce, 0xfa, 0xed, 0xfe, ..] => Some("a macOS program"),
        [b'P', b'K', 3, 4, ..] => Some("a zip archive"),
        [0x1f, 0x8b, ..] => Some("a gzip archive"),
        bytes => match std::str::from_utf8(bytes.get(..512).unwrap_or(bytes)).map_err(|e| e.error_len()) {
            Ok(text) if text.trim_start().starts_with('(') => Some("WebAssembly text, not yet assembled"),
            // a character cut in two by the end of the sample is text all the same
            Ok(_) | Err(None) => Some("a text file"),
            Err(Some(_)) => Some("something else"),
        },
    }
}
