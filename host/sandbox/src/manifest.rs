//! A pack's manifest: read from its section, held to schemas/pack.schema.json and to sense, cleaned.

pub(crate) mod circle;
pub(crate) mod faults;
mod sense;
mod shape;

pub use sense::unsaid;

use super::clean::{clean_json, clip};
use super::fault::PackFaultKind;
use serde_json::Value;
use thou_contract::{CONTRACT, Manifest};

/// A manifest of more values than this is not read: a real one of a hundred rules has some five thousand.
const MAX_VALUES: usize = 200_000;

/// The name that it gives itself, for messages about it, whatever else is wrong.
pub(crate) fn name(section: &[u8]) -> Option<String> {
    let value = parsed(section).ok()?;
    Some(clip(value.get("id")?.as_str()?, 60)).filter(|name| !name.trim().is_empty())
}

/// Whether its contract is this host's; nothing else of it can be judged before.
pub(crate) fn version(section: &[u8]) -> Result<(), PackFaultKind> {
    let bad = |what: String| PackFaultKind::BadManifest(vec![what]);
    let value = parsed(section)?;
    let Some(contract) = value.get("contract").and_then(Value::as_str) else {
        return Err(bad(format!("it does not say which `contract` it was written for (\"{CONTRACT}\")")));
    };
    let told = clip(contract, 40);
    match (numbers(contract), numbers(CONTRACT)) {
        (Some(its), Some(ours)) if its > ours => Err(PackFaultKind::NewerContract(told)),
        (Some(its), Some(ours)) if its < ours => Err(PackFaultKind::OlderContract(told)),
        (Some(_), _) => Ok(()),
        (None, _) => Err(bad(format!("`contract` is \"{told}\", which is no contract; this one is \"{CONTRACT}\""))),
    }
}

fn numbers(contract: &str) -> Option<(u32, u32)> {
    let (major, minor) = contract.strip_prefix("rules-")?.split_once('.')?;
    Some((major.parse().ok()?, minor.parse().ok()?))
}

/// The section as JSON, unless it holds so many values that reading them would take the memory of a hundred packs.
fn parsed(section: &[u8]) -> Result<Value, PackFaultKind> {
    let bad = |what: String| PackFaultKind::BadManifest(vec![what]);
    // every value but the first stands behind one of these; those inside words count too, which are few
    let values = section.iter().filter(|b| matches!(b, b',' | b'[' | b'{')).count();
    if values > MAX_VALUES {
        return Err(bad(format!("it has more than {MAX_VALUES} commas and brackets")));
    }
    serde_json::from_slice(section).map_err(|e| bad(format!("it is not JSON: {e}")))
}

/// The manifest, or everything that is wrong with it.
pub(crate) fn read(section: &[u8]) -> Result<Manifest, PackFaultKind> {
    let mut value = parsed(section)?;
    clean_json(&mut value);
    shape::faults(&value).none_or()?;
    let manifest =
        serde_json::from_value(value).map_err(|e| PackFaultKind::BadManifest(vec![clip(&e.to_string(), 200)]))?;
    sense::faults(&manifest).none_or()?;
    Ok(manifest)
}
