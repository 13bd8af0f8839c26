//! Takes the custom sections out of a component: names, producers and whatever else tells of the builder's machine.

use wasm_encoder::{Component, Encode, Module, RawSection};
use wasmparser::{Encoding, Parser, Payload};

/// The same component, at every depth without custom sections.
pub(crate) fn stripped(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut out = None;
    let mut depth = 0_usize;
    for payload in Parser::new(0).parse_all(bytes) {
        let payload = payload.map_err(|e| e.to_string())?;
        if let Payload::Version { encoding, .. } = &payload
            && depth == 0
        {
            out = Some(match encoding {
                Encoding::Module => Module::new().finish(),
                Encoding::Component => Component::new().finish(),
            });
            continue;
        }
        let nested = match &payload {
            Payload::ModuleSection { unchecked_range, .. } | Payload::ComponentSection { unchecked_range, .. } => {
                depth += 1;
                (depth == 1).then(|| unchecked_range.clone())
            }
            Payload::End(_) => {
                depth = depth.saturating_sub(1);
                continue;
            }
            _ if depth > 0 => continue,
            _ => None,
        };
        if matches!(payload, Payload::CustomSection(_)) || (depth > 1) {
            continue;
        }
        let (Some((id, range)), Some(out)) = (payload.as_section(), out.as_mut()) else { continue };
        let data = bytes.get(range).unwrap_or_default();
        match nested {
            Some(inside) => section(out, id, &stripped(bytes.get(inside).unwrap_or_default())?),
            None => section(out, id, data),
        }
    }
    out.ok_or_else(|| "it is empty".to_owned())
}

fn section(out: &mut Vec<u8>, id: u8, data: &[u8]) {
    out.push(id);
    RawSection { id, data }.encode(out);
}

/// The same component with this custom section at its end.
pub(crate) fn with_section(mut bytes: Vec<u8>, name: &str, data: &[u8]) -> Vec<u8> {
    let section = wasm_encoder::CustomSection { name: name.into(), data: data.into() };
    bytes.push(wasm_encoder::ComponentSectionId::CoreCustom.into());
    section.encode(&mut bytes);
    bytes
}
