//! From a file, held to the schema.

use super::fault::SheetFaults;
use super::json;
use super::model::{Sheet, Source};
use super::schema::hold_to_schema;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;

impl Sheet {
    /// Reads a sheet from a file; files of readings that it names are looked for beside it.
    ///
    /// # Errors
    /// [`SheetFaults`]: the file cannot be read, is not JSON, or does not hold together.
    pub fn read(path: &Path) -> Result<Self, SheetFaults> {
        let name = path.display().to_string();
        let text = load(path, &name)?;
        Self::parse(&name, &text, path.parent().unwrap_or(Path::new("")))
    }

    /// Reads a sheet from its text. `name` is what messages call it, `folder` is where files it names are looked for.
    ///
    /// # Errors
    /// [`SheetFaults`]: the text is not JSON, or does not hold together.
    pub fn parse(name: &str, text: &str, folder: &Path) -> Result<Self, SheetFaults> {
        let source = Source { name: name.to_owned(), folder: folder.to_owned(), ..Source::default() };
        Self::parse_from(source, text, hold_to_schema)
    }

    /// Reads a sheet that was kept together with the files it names, by their names.
    ///
    /// # Errors
    /// As [`Sheet::parse`].
    pub fn parse_kept(name: &str, text: &str, files: BTreeMap<String, String>) -> Result<Self, SheetFaults> {
        Self::parse_from(Source { name: name.to_owned(), kept: Some(files), ..Source::default() }, text, hold_to_schema)
    }
}

fn load(path: &Path, name: &str) -> Result<String, SheetFaults> {
    let failed = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => {
            SheetFaults::whole(name, "there is no such file", Some("thou new writes a sheet to start from"))
        }
        _ => SheetFaults::whole(name, format!("the file cannot be read: {error}"), None),
    };
    let about = std::fs::metadata(path).map_err(failed)?;
    if about.is_dir() {
        return Err(SheetFaults::whole(name, "this is a folder", Some("name the sheet in it")));
    }
    let too_big = |bytes: u64| SheetFaults::whole(name, json::SHEET.too_big(bytes), Some(json::SHEET.too_much));
    if about.len() > json::SHEET.most_bytes as u64 {
        return Err(too_big(about.len()));
    }
    let mut bytes = Vec::new();
    // a pipe has no length: what comes out of it is cut off as well
    std::fs::File::open(path)
        .map_err(failed)?
        .take(json::SHEET.most_bytes as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    if bytes.len() > json::SHEET.most_bytes {
        return Err(too_big(bytes.len() as u64));
    }
    String::from_utf8(bytes).map_err(|error| not_utf8(name, &error))
}

fn not_utf8(name: &str, error: &std::string::FromUtf8Error) -> SheetFaults {
    let bytes = error.as_bytes();
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return SheetFaults::whole(name, "the file is UTF-16 text", Some("save it as UTF-8"));
    }
    let good = bytes.get(..error.utf8_error().valid_up_to()).unwrap_or(&[]);
    let good = String::from_utf8_lossy(good);
    let (line, column) = (good.matches('\n').count() + 1, good.rsplit('\n').next().unwrap_or("").chars().count() + 1);
    SheetFaults::whole(name, format!("line {line}, column {column} is not UTF-8 text"), Some("save the file as UTF-8"))
}
