//! Running the program as its users do, without a process of its own: the same arguments, the same bytes, the same
//! exit status, on a fixed day.

pub mod answers;
pub mod made;

use jiff::ZonedDateTime;
use jiff::civil::{Date, date};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use thou::cli::{Exit, Io, run_with};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, LoadedPack};
use thou::report::NamedPack;
use thou::sheet::Sheet;
use thou::verdict::{self, Verdict};

/// The day that every test runs on.
pub const TODAY: Date = date(2026, 7, 1);

/// What the program did.
#[derive(Debug)]
pub struct Run {
    /// Its exit status.
    pub exit: u8,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// The project's own folder.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map(Path::to_path_buf).unwrap_or_default()
}

/// A file of the project, as it is named from its folder.
#[must_use]
pub fn file(name: &str) -> PathBuf {
    root().join(name)
}

/// Runs the program; file names that start with `sample-builds/` or `rulepacks/` are the project's.
#[must_use]
pub fn thou(args: &[&str]) -> Run {
    let args: Vec<String> = args
        .iter()
        .map(|a| {
            let ours = ["sample-builds/", "rulepacks/"].iter().any(|folder| a.starts_with(folder));
            if ours { file(a).display().to_string() } else { (*a).to_owned() }
        })
        .collect();
    let own = settings().map(|folder| format!("{}/", folder.display())).unwrap_or_default();
    let plain = |text: String| {
        let text = text.replace(&format!("{}/", root().display()), "");
        if own.is_empty() { text } else { text.replace(&own, "") }
    };
    let run = run(&args, TODAY, None);
    Run { exit: run.exit, out: plain(run.out), err: plain(run.err) }
}

/// Runs it on the shop's book at this path, on this day.
#[must_use]
pub fn thou_on(book: &Path, today: Date, args: &[&str]) -> Run {
    run(&with_book(book, args), today, None)
}

/// Runs it on the shop's book at this path, at this moment.
#[must_use]
pub fn thou_at(book: &Path, clock: ZonedDateTime, args: &[&str]) -> Run {
    run(&with_book(book, args), clock.date(), Some(clock))
}

fn with_book(book: &Path, args: &[&str]) -> Vec<String> {
    args.iter().map(|a| (*a).to_owned()).chain(["--book".to_owned(), book.display().to_string()]).collect()
}

/// Runs it as somebody else, who has other settings.
#[must_use]
pub fn thou_as(settings: Option<&Path>, args: &[&str]) -> Run {
    let args: Vec<String> = args.iter().map(|a| (*a).to_owned()).collect();
    run_as(settings, &args, TODAY, None)
}

/// The settings of whoever runs the tests, a folder of this process.
fn settings() -> Option<&'static Path> {
    static FOLDER: LazyLock<Option<tempfile::TempDir>> = LazyLock::new(|| tempfile::tempdir().ok());
    FOLDER.as_ref().map(tempfile::TempDir::path)
}

fn run(args: &[String], today: Date, clock: Option<ZonedDateTime>) -> Run {
    run_as(settings(), args, today, clock)
}

fn run_as(settings: Option<&Path>, args: &[String], today: Date, clock: Option<ZonedDateTime>) -> Run {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut io = Io {
        out: &mut out,
        err: &mut err,
        out_colour: false,
        err_colour: false,
        today: Some(today),
        clock,
        settings: settings.map(Path::to_path_buf),
    };
    let Exit(exit) = run_with(std::iter::once("thou").chain(args.iter().map(String::as_str)).map(Into::into), &mut io);
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    Run { exit, out: text(out), err: text(err) }
}

/// The names of the sample builds, `sample-builds/bracket.json` first among its kind.
#[must_use]
pub fn samples(folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(file(folder)).into_iter().flatten().flatten();
    let mut names: Vec<String> = entries
        .map(|e| format!("{folder}/{}", e.file_name().to_string_lossy()))
        .filter(|n| n.ends_with(".json"))
        .collect();
    names.sort();
    names
}

/// A sample build's text as a value.
///
/// # Panics
/// When it cannot be read.
#[must_use]
pub fn value(name: &str) -> Value {
    let text = std::fs::read_to_string(file(name)).unwrap_or_else(|e| panic!("{name}: {e}"));
    serde_json::from_str(&text).unwrap_or_else(|e| panic!("{name}: {e}"))
}

/// A sheet from a value; it looks for its CSV files in the folder of the sample builds.
///
/// # Panics
/// When it is not valid.
#[must_use]
pub fn sheet(value: &Value) -> Sheet {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    Sheet::parse("sheet.json", &text, &file("sample-builds")).unwrap_or_else(|f| panic!("{}", f.render(false)))
}

/// What the built-in packs come to.
#[must_use]
pub fn judge(sheet: &Sheet) -> Verdict {
    let facts = SheetFacts::new(Catalogue::standard(), sheet);
    verdict::judge(sheet, &facts, &builtin(), Some(TODAY))
}

/// The built-in packs.
#[must_use]
pub fn builtin() -> Vec<LoadedPack> {
    packs::builtin()
}

/// A sample build's sheet, read from its file.
///
/// # Panics
/// When it is not valid.
#[must_use]
pub fn sheet_of(name: &str) -> Sheet {
    Sheet::read(&file(name)).unwrap_or_else(|f| panic!("{}", f.render(false)))
}

/// A copy of a sample with this changed, in a folder of its own with the files it names.
///
/// # Panics
/// When it cannot be written.
pub fn changed(name: &str, change: impl FnOnce(&mut Value)) -> (tempfile::TempDir, String) {
    let mut v = value(&format!("sample-builds/{name}.json"));
    change(&mut v);
    let folder = tempfile::tempdir().unwrap_or_else(|e| panic!("{e}"));
    for entry in std::fs::read_dir(file("sample-builds")).unwrap_or_else(|e| panic!("{e}")).flatten() {
        if entry.path().extension().is_some_and(|e| e == "csv") {
            std::fs::copy(entry.path(), folder.path().join(entry.file_name())).unwrap_or_else(|e| panic!("{e}"));
        }
    }
    let sheet = folder.path().join("sheet.json");
    std::fs::write(&sheet, serde_json::to_string_pretty(&v).unwrap_or_else(|e| panic!("{e}")))
        .unwrap_or_else(|e| panic!("{e}"));
    let sheet = sheet.display().to_string();
    (folder, sheet)
}

/// What a page says of these packs, without their files: the same for the same pack however it was built.
#[must_use]
pub fn named(packs: &[LoadedPack]) -> Vec<NamedPack> {
    let named = |p: &LoadedPack| NamedPack {
        id: p.manifest.id.clone(),
        version: p.manifest.version.clone(),
        built_in: true,
        sha256: String::new(),
        key: None,
    };
    packs.iter().map(named).collect()
}
