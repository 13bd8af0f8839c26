//! From the entries to the files that are made of them.

mod check;
mod entry;
mod json;
mod reference;
mod rust;
mod schema;
mod tree;

/// A file as it should stand.
pub struct GeneratedFile {
    /// Where.
    pub path: String,
    /// What.
    pub text: String,
}

/// Every file, or what is wrong with the entries.
pub fn all() -> Result<Vec<GeneratedFile>, Vec<String>> {
    let here = env!("CARGO_MANIFEST_DIR");
    let sheet = tree::read(&format!("{here}/data"))?;
    let faults = check::faults(&sheet);
    if !faults.is_empty() {
        return Err(faults);
    }
    let file = |path: &str, text: String| GeneratedFile { path: format!("{here}/{path}"), text };
    Ok(vec![
        file("src/generated.rs", rust::tables(&sheet)),
        file("../../schemas/build.schema.json", json::pretty(&schema::schema(&sheet))),
        file("../../schemas/fields.md", reference::reference(&sheet)),
    ])
}
