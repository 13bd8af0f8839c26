//! Sheets as files: what cannot be read, readings in files beside a sheet, and sheets broken at random.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use thou::sheet::Sheet;

/// A small sheet with nothing wrong.
const GOOD: &str = include_str!("sheets/0417.json");

/// A folder of its own for a test, removed when it ends.
struct Folder(std::path::PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("thou-sheet-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }
    fn write(&self, name: &str, text: impl AsRef<[u8]>) -> std::path::PathBuf {
        let path = self.0.join(name);
        std::fs::write(&path, text).unwrap();
        path
    }
    /// What is told of a file, with the folder's name taken out.
    fn told(&self, name: &str) -> String {
        let told = Sheet::read(&self.0.join(name)).map_err(|f| f.to_string()).err().unwrap_or_default();
        told.replace(&format!("{}/", self.0.display()), "")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[test]
fn files_that_cannot_be_read_say_why() {
    let folder = Folder::new("files");
    folder.write("latin.json", b"{\n  \"format\": \"\xe9\" }");
    folder.write("wide.json", b"\xff\xfe{\x00}\x00");
    folder.write("marked.json", format!("\u{feff}{GOOD}"));
    assert_eq!(
        folder.told("latin.json"),
        "latin.json: line 2, column 14 is not UTF-8 text\n    save the file as UTF-8\n"
    );
    assert_eq!(folder.told("wide.json"), "wide.json: the file is UTF-16 text\n    save it as UTF-8\n");
    assert_eq!(folder.told("marked.json"), "", "a byte order mark is no harm");
    assert_eq!(
        folder.told("none.json"),
        "none.json: there is no such file\n    thou new writes a sheet to start from\n"
    );
    std::fs::create_dir(folder.0.join("builds")).unwrap();
    assert_eq!(folder.told("builds"), "builds: this is a folder\n    name the sheet in it\n");
}

const BORES: &str = "place,top thrust,top axial\n1,4.1550 in,4.1551 in\n2,,4.1550 in\n";

fn with_bores() -> String {
    let start = GOOD.find("\"stage\": \"final\"").unwrap();
    let end = GOOD.find("\"end-play\"").unwrap();
    let set = "\"csv\": \"bores.csv\" },\n    ";
    format!("{}{set}{}", &GOOD[..start], &GOOD[end..])
}

#[test]
fn readings_come_from_a_file_beside_the_sheet() {
    let folder = Folder::new("csv");
    let path = folder.write("0417.json", with_bores());
    folder.write("bores.csv", BORES);
    let sheet = Sheet::read(&path).map_err(|f| f.to_string()).unwrap();
    let set = &sheet.readings["bore"][0];
    assert_eq!(set.points, ["top thrust", "top axial"]);
    assert_eq!(set.rows[1][0].value, None);
    assert!((set.rows[1][1].value.unwrap() - 4.155 * 0.0254).abs() < 1e-12);
    assert_eq!(set.rows[0][0].pointer, "/readings/bore/csv");
    assert_eq!(set.rows[7].len(), 2);
}

#[test]
fn a_bad_line_of_such_a_file_is_named() {
    let folder = Folder::new("bad-csv");
    folder.write("0417.json", with_bores());
    for (from, to, wanted) in [
        ("2,,", "2,psi,", "bores.csv:3:3: this is a length, not \"psi\": write it like \"4.1550 in\""),
        (
            "4.1551 in",
            "4.1551 psi",
            "bores.csv:2:13: this is a length; 'psi' is for a pressure\n    write in, thou, tenths, mm, µm, um",
        ),
        ("4.1551 in", "41551", "bores.csv:2:13: this is a length: write it with its unit, like \"4.1550 in\""),
        (
            "4.1551 in",
            "4.1551 in,1 in",
            "bores.csv:2:23: 3 values for 2 points\n    a value with a comma goes into double quotes",
        ),
        ("2,,", "9,,", "bores.csv:3:1: there is no cylinder \"9\"\n    the cylinders are 1, 2, 3, 4, 5, 6, 7, 8"),
        ("2,,", "1,,", "bores.csv:3:1: cylinder \"1\" stands twice\n    keep one line a place"),
        (
            "place,",
            "zylinder;",
            "bores.csv:1:1: the first line is \"zylinder;top thrust,top axial\"\n    write place,top thrust,… : place, then the points",
        ),
        (
            "4.1551 in",
            "4.1551 mm",
            "bores.csv:2:13: this cannot be 4.1551 mm\n    did you mean \"4.1551 in\", or is a decimal place off? It can be from 0.5 in to 20 in",
        ),
    ] {
        assert_eq!(BORES.matches(from).count(), 1, "{from}");
        folder.write("bores.csv", BORES.replace(from, to));
        assert_eq!(folder.told("0417.json"), format!("0417.json:16:14: readings.bore.csv reads {wanted}\n"));
    }
}

#[test]
fn a_sheet_cut_off_anywhere_is_told_and_never_panics() {
    for end in 0..GOOD.trim_end().len() {
        if let Some(cut) = GOOD.get(..end) {
            let faults = Sheet::parse("cut.json", cut, Path::new("")).expect_err(cut);
            assert!(!faults.faults().is_empty() && !faults.render(false).is_empty());
        }
    }
}

#[test]
fn a_sheet_with_bytes_changed_never_panics() {
    // a linear congruential generator (Knuth, MMIX) with a fixed seed: the same sheets at every run
    let mut state = 0x5eed_u64;
    let mut next = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % below
    };
    const LIKELY: &[u8] = b"{}[]\",:0123456789.-+eE/~\\ \n\x00\x1b\xc2\xb5inmpsthou";
    let mut faulty = 0;
    for _ in 0..3_000 {
        let mut bytes = GOOD.as_bytes().to_vec();
        for _ in 0..=next(4) {
            let at = next(bytes.len());
            match next(3) {
                0 => bytes[at] = LIKELY[next(LIKELY.len())],
                1 => bytes.insert(at, LIKELY[next(LIKELY.len())]),
                _ => drop(bytes.remove(at)),
            }
        }
        let text = String::from_utf8_lossy(&bytes);
        if let Err(faults) = Sheet::parse("changed.json", &text, Path::new("")) {
            faulty += 1;
            let shown = faults.to_string() + &faults.render(false);
            assert!(!shown.contains(['\u{1b}', '\u{0}']), "{shown:?}");
        }
    }
    assert!((1_000..3_000).contains(&faulty), "{faulty}");
}

#[test]
fn every_sample_build_is_a_good_sheet() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../sample-builds");
    let mut folders = vec![root];
    let mut told = String::new();
    let mut read = 0;
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            // beside the sheets stands what each must say, which is no sheet
            if path.is_dir() && !path.ends_with("expected") {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "json") {
                read += 1;
                told += &Sheet::read(&path).map_err(|f| f.to_string()).err().unwrap_or_default();
            }
        }
    }
    assert_eq!(told, "");
    assert!(read > 0);
}
