//! Packs made for a test: a core module from WebAssembly text, a component of it, a manifest in it.

use std::path::Path;
use wasm_encoder::{CustomSection, Encode};

/// The component that `thou pack build` would make of a core module, without a manifest.
///
/// # Panics
/// When it is no module of the contract.
#[must_use]
pub fn component(mut module: Vec<u8>) -> Vec<u8> {
    let wit = Path::new(env!("CARGO_MANIFEST_DIR")).join("../schemas/rules-1.0.wit");
    let mut resolve = wit_parser::Resolve::default();
    let package = resolve.push_path(&wit).unwrap_or_else(|e| panic!("{e}")).0;
    let world = resolve.select_world(&[package], Some("rule-pack")).unwrap_or_else(|e| panic!("{e}"));
    let utf8 = wit_component::StringEncoding::UTF8;
    wit_component::embed_component_metadata(&mut module, &resolve, world, utf8).unwrap_or_else(|e| panic!("{e}"));
    let mut encoder = wit_component::ComponentEncoder::default().module(&module).unwrap_or_else(|e| panic!("{e}"));
    encoder.encode().unwrap_or_else(|e| panic!("{e}"))
}

/// A component with this manifest in its custom section.
#[must_use]
pub fn with_manifest(mut component: Vec<u8>, manifest: &str) -> Vec<u8> {
    component.push(0);
    let section = CustomSection { name: "thou-manifest".into(), data: manifest.as_bytes().into() };
    section.encode(&mut component);
    component
}

/// A well-behaved pack under this manifest: its first rule gives piston-to-wall 3.15 to 3.94 thou or so (80 to 100 µm
/// aimed and worked to, never under 40 nor over 120), its second has nothing to say.
///
/// # Panics
/// When it does not assemble.
#[must_use]
pub fn good(manifest: &serde_json::Value) -> Vec<u8> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("hostile/good.wat");
    let module = wat::parse_file(&file).unwrap_or_else(|e| panic!("{e}"));
    with_manifest(component(module), &manifest.to_string())
}
