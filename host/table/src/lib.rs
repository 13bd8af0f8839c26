//! House tables: a shop's own numbers as a table of expressions, made into a rule pack.
//!
//! A table is JSON with `//` remarks (`schemas/table.schema.json`). Its conditions and limits are expressions of CEL, the
//! Common Expression Language (cel-spec, the language definition), over facts in braces and numbers with their units:
//! `{bore.diameter} * 0.00125`, `{bore.nominal} < 4.2 in ? 4.5 thou : 5.0 thou`. Two things are narrower than in CEL:
//! every number is one (`7 / 2` is 3.5), and a division by zero is an error, as CEL has it for whole numbers.
//!
//! [`translate`] makes a WebAssembly component of it under the contract rules-1.0: a pack like any other, run in the same
//! sandbox. It is pure: text in, bytes or [`TableFaults`] out.
#![forbid(unsafe_code)]

mod beside;
mod catalogue;
mod check;
mod component;
mod draft;
mod emit;
mod fault;
mod json;
mod module;
mod scan;
mod starter;
#[cfg(test)]
mod tests;
mod translate;
mod tree;

pub use catalogue::{KnownFacts, TableFact};
pub use fault::{MOST_FAULTS, TableFault, TableFaults};
pub use starter::{COMMON_PRACTICE, STARTER_CASES, starter};
use thou_contract::Manifest;

/// A table as a pack.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its words and needs.
    pub manifest: Manifest,
    /// The component, with the manifest in its custom section.
    pub component: Vec<u8>,
}

/// Whether a file's bytes look like a table's, and not like a component's: JSON, or a remark before it.
#[must_use]
pub fn is_table(bytes: &[u8]) -> bool {
    let mut text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes).trim_ascii_start();
    while let Some(remark) = text.strip_prefix(b"//") {
        let end = remark.iter().position(|b| *b == b'\n').unwrap_or(remark.len());
        text = remark.get(end..).unwrap_or_default().trim_ascii_start();
    }
    text.starts_with(b"{") || text.starts_with(b"/*")
}

/// Makes a pack of a table's text; `name` is the file's, for messages.
///
/// # Errors
/// Everything that is wrong with it, each at its line and column.
pub fn translate(name: &str, text: &str, known: &KnownFacts<'_>) -> Result<Table, TableFaults> {
    let body = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = json::TableReader::new(body);
    let draft = reader.parse().and_then(|root| draft::read(&mut reader, &root));
    let mut faults = reader.faults;
    let Some(draft) = draft.filter(|_| faults.len() <= MOST_FAULTS) else {
        return Err(TableFaults::new(name, body, faults));
    };
    let translated = translate::translate(draft, body, known, &mut faults);
    if !faults.is_empty() {
        return Err(TableFaults::new(name, body, faults));
    }
    let whole = |message: String| TableFaults::new(name, body, vec![TableFault { message, help: None, span: 0..0 }]);
    let manifest = serde_json::to_string(&translated.manifest).map_err(|e| whole(e.to_string()))?;
    let module = module::module(&translated.rules, &translated.runs, &manifest);
    let component = component::component(module, &manifest).map_err(whole)?;
    Ok(Table { manifest: translated.manifest, component })
}
