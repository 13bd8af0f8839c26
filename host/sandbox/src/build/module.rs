//! From a core module to a component.

use super::error::BuildError;
use crate::clean::clip;
use crate::fault::PackFaultKind;
use crate::imports::Import;
use wasmparser::{Parser, Payload};
use wit_component::{ComponentEncoder, StringEncoding, embed_component_metadata};

/// The contract that every pack is of.
const CONTRACT: &str = include_str!("../../../../schemas/rules-1.0.wit");
/// The section that generated bindings leave in a module: which world it is of.
const WORLD: &str = "component-type";

/// A component of a core module. Where no bindings were generated it is taken to be of the contract's world.
pub(super) fn component(module: &[u8]) -> Result<Vec<u8>, BuildError> {
    let no = |e: String| BuildError::NoComponent(clip(&e, 400));
    let mut module = module.to_vec();
    if !knows_its_world(&module) {
        let mut resolve = wit_parser::Resolve::default();
        let package = resolve.push_str("rules-1.0.wit", CONTRACT).map_err(|e| no(e.to_string()))?;
        let world = resolve.select_world(&[package], Some("rule-pack")).map_err(|e| no(e.to_string()))?;
        embed_component_metadata(&mut module, &resolve, world, StringEncoding::UTF8)
            .map_err(|e| no(format!("{e:#}")))?;
    }
    let encoder = ComponentEncoder::default().validate(true).module(&module);
    encoder.and_then(|mut encoder| encoder.encode()).map_err(|e| no(format!("{e:#}")))
}

fn knows_its_world(module: &[u8]) -> bool {
    let sections = Parser::new(0).parse_all(module).filter_map(Result::ok);
    let mut names = sections.filter_map(|p| if let Payload::CustomSection(s) = p { Some(s.name()) } else { None });
    names.any(|name| name.starts_with(WORLD))
}

/// What a core module imports, as `module` or, where that says nothing, `module.name`.
pub(super) fn imports(module: &[u8]) -> Result<Vec<Import>, PackFaultKind> {
    let mut imports: Vec<Import> = Vec::new();
    for payload in Parser::new(0).parse_all(module) {
        let damaged = |e: wasmparser::BinaryReaderError| PackFaultKind::Damaged(clip(e.message(), 200));
        let Payload::ImportSection(section) = payload.map_err(damaged)? else { continue };
        for import in section.into_imports() {
            let import = import.map_err(damaged)?;
            let name = clip(&format!("{}.{}", import.module, import.name), 120);
            imports.push(Import { name });
        }
    }
    Ok(imports)
}
