//! A component of a core module, with the manifest in its custom section.

use wasm_encoder::{ComponentSectionId, CustomSection, Encode};
use wit_component::{ComponentEncoder, StringEncoding, embed_component_metadata};
use wit_parser::Resolve;

/// The contract, as the host has it.
const CONTRACT: &str = include_str!("../../../schemas/rules-1.0.wit");
/// The custom section that holds the manifest.
const SECTION: &str = "thou-manifest";

/// The same module and manifest give the same bytes. An error is a fault of this crate's, never of a table.
pub(crate) fn component(mut module: Vec<u8>, manifest: &str) -> Result<Vec<u8>, String> {
    let no = |e: String| format!("the table does not become a component: {e}");
    let mut resolve = Resolve::default();
    let package = resolve.push_str("rules-1.0.wit", CONTRACT).map_err(|e| no(format!("{e:#}")))?;
    let world = resolve.select_world(&[package], Some("rule-pack")).map_err(|e| no(format!("{e:#}")))?;
    embed_component_metadata(&mut module, &resolve, world, StringEncoding::UTF8).map_err(|e| no(format!("{e:#}")))?;
    let encoder = ComponentEncoder::default().validate(false).module(&module);
    let mut bytes = encoder.and_then(|mut e| e.encode()).map_err(|e| no(format!("{e:#}")))?;
    let section = CustomSection { name: SECTION.into(), data: manifest.as_bytes().into() };
    bytes.push(ComponentSectionId::CoreCustom.into());
    section.encode(&mut bytes);
    Ok(bytes)
}
