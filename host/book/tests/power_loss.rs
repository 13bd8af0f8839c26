//! Power that goes while a book is written: what was synced is on the disk, of the rest any part may be.
//!
//! A layer between SQLite and the disk (its VFS) puts down every write, sync, truncation and deletion, and passes it on.
//! Afterwards the disk is made again as it could be after any one of those steps: each change since the last sync is there
//! or not by chance, or there up to some sector; a file's name is there for certain once its folder was synced. This is
//! the one place beside the module that loads compiled code where `unsafe` stands: SQLite takes a VFS by pointers only.
#![allow(unsafe_code)]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::date;
use rusqlite::ffi;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::{CStr, c_char, c_int, c_void};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use thou_book::Book;
use thou_life::entry::{Entry, What};

/// What reached the disk's door, in order.
#[derive(Debug, Clone)]
enum Step {
    /// A file is opened that was not there: its name, and whether its first sync syncs the folder too, as SQLite's own VFS
    /// does for a journal.
    Made(PathBuf, bool),
    Wrote(PathBuf, usize, Vec<u8>),
    Cut(PathBuf, usize),
    Synced(PathBuf),
    /// A file is deleted, and whether the folder was synced with it.
    Deleted(PathBuf, bool),
    /// So many entries were confirmed by now.
    Confirmed(usize),
}

static STEPS: Mutex<Vec<Step>> = Mutex::new(Vec::new());

fn put(step: Step) {
    STEPS.lock().unwrap().push(step);
}

/// SQLite's own VFS, which everything is passed on to.
static REAL: std::sync::OnceLock<usize> = std::sync::OnceLock::new();

fn real() -> *mut ffi::sqlite3_vfs {
    *REAL.get().unwrap() as *mut ffi::sqlite3_vfs
}

/// Our file: SQLite's own is right behind it in the space that SQLite gives.
#[repr(C)]
struct Layer {
    methods: *const ffi::sqlite3_io_methods,
    /// Where its path is kept; none for a file without a name.
    path: Option<Box<PathBuf>>,
}

const OWN: usize = size_of::<Layer>();

/// The file of the VFS below.
fn below(file: *mut ffi::sqlite3_file) -> *mut ffi::sqlite3_file {
    // SAFETY: `open` has put it there, in the space that szOsFile asks for.
    unsafe { file.cast::<u8>().add(OWN).cast() }
}

/// Calls a method of the file below.
macro_rules! pass {
    ($file:expr, $method:ident $(, $arg:expr)*) => {{
        let file = below($file);
        // SAFETY: the file below was opened, and its methods are there until it is closed.
        unsafe { ((*(*file).pMethods).$method.unwrap())(file $(, $arg)*) }
    }};
}

fn path(file: *mut ffi::sqlite3_file) -> Option<PathBuf> {
    // SAFETY: `open` has written our part, and `close` takes it away last.
    unsafe { (*file.cast::<Layer>()).path.as_deref().cloned() }
}

extern "C" fn close(file: *mut ffi::sqlite3_file) -> c_int {
    let result = pass!(file, xClose);
    // SAFETY: our part was written by `open`, and SQLite asks for nothing of the file after this.
    unsafe { std::ptr::drop_in_place(&raw mut (*file.cast::<Layer>()).path) };
    result
}

extern "C" fn read(file: *mut ffi::sqlite3_file, to: *mut c_void, n: c_int, at: ffi::sqlite3_int64) -> c_int {
    pass!(file, xRead, to, n, at)
}

extern "C" fn write(file: *mut ffi::sqlite3_file, from: *const c_void, n: c_int, at: ffi::sqlite3_int64) -> c_int {
    if let Some(path) = path(file) {
        // SAFETY: SQLite gives so many bytes.
        let bytes = unsafe { std::slice::from_raw_parts(from.cast::<u8>(), usize::try_from(n).unwrap()) };
        put(Step::Wrote(path, usize::try_from(at).unwrap(), bytes.to_vec()));
    }
    pass!(file, xWrite, from, n, at)
}

extern "C" fn truncate(file: *mut ffi::sqlite3_file, size: ffi::sqlite3_int64) -> c_int {
    if let Some(path) = path(file) {
        put(Step::Cut(path, usize::try_from(size).unwrap()));
    }
    pass!(file, xTruncate, size)
}

extern "C" fn sync(file: *mut ffi::sqlite3_file, flags: c_int) -> c_int {
    let result = pass!(file, xSync, flags);
    if let Some(path) = path(file) {
        put(Step::Synced(path));
    }
    result
}

extern "C" fn size(file: *mut ffi::sqlite3_file, to: *mut ffi::sqlite3_int64) -> c_int {
    pass!(file, xFileSize, to)
}

extern "C" fn lock(file: *mut ffi::sqlite3_file, how: c_int) -> c_int {
    pass!(file, xLock, how)
}

extern "C" fn unlock(file: *mut ffi::sqlite3_file, how: c_int) -> c_int {
    pass!(file, xUnlock, how)
}

extern "C" fn reserved(file: *mut ffi::sqlite3_file, to: *mut c_int) -> c_int {
    pass!(file, xCheckReservedLock, to)
}

extern "C" fn control(file: *mut ffi::sqlite3_file, what: c_int, arg: *mut c_void) -> c_int {
    pass!(file, xFileControl, what, arg)
}

extern "C" fn sector(file: *mut ffi::sqlite3_file) -> c_int {
    pass!(file, xSectorSize)
}

extern "C" fn kind(file: *mut ffi::sqlite3_file) -> c_int {
    pass!(file, xDeviceCharacteristics)
}

/// Version 1: no shared memory and no mapping, so that nothing goes by unseen.
static METHODS: ffi::sqlite3_io_methods = ffi::sqlite3_io_methods {
    iVersion: 1,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(size),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(reserved),
    xFileControl: Some(control),
    xSectorSize: Some(sector),
    xDeviceCharacteristics: Some(kind),
    xShmMap: None,
    xShmLock: None,
    xShmBarrier: None,
    xShmUnmap: None,
    xFetch: None,
    xUnfetch: None,
};

fn named(name: *const c_char) -> Option<PathBuf> {
    // SAFETY: SQLite gives a text that ends in nought, or nothing for a file without a name.
    (!name.is_null()).then(|| PathBuf::from(unsafe { CStr::from_ptr(name) }.to_str().unwrap()))
}

extern "C" fn open(
    _: *mut ffi::sqlite3_vfs,
    name: *const c_char,
    file: *mut ffi::sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    let path = named(name);
    if let Some(path) = path.as_ref().filter(|path| !path.exists()) {
        put(Step::Made(path.clone(), flags & (ffi::SQLITE_OPEN_MAIN_JOURNAL | ffi::SQLITE_OPEN_SUPER_JOURNAL) != 0));
    }
    let file_below = below(file);
    // SAFETY: the space behind our part is as large as the VFS below asks for; our part is written before anybody reads it.
    unsafe {
        let result = ((*real()).xOpen.unwrap())(real(), name, file_below, flags, out);
        let methods = if (*file_below).pMethods.is_null() { std::ptr::null() } else { &raw const METHODS };
        file.cast::<Layer>().write(Layer { methods, path: path.map(Box::new) });
        result
    }
}

extern "C" fn delete(_: *mut ffi::sqlite3_vfs, name: *const c_char, with_folder: c_int) -> c_int {
    // SAFETY: passed on as it came.
    let result = unsafe { ((*real()).xDelete.unwrap())(real(), name, with_folder) };
    if let Some(path) = named(name).filter(|_| result == ffi::SQLITE_OK) {
        put(Step::Deleted(path, with_folder != 0));
    }
    result
}

/// Puts the layer before SQLite's own VFS, for every connection of this program.
fn put_between() {
    // SAFETY: the VFS that SQLite has is there as long as the program; ours is never freed. Its other methods are those of
    // the one below, which do not look at whose they are.
    unsafe {
        let found = ffi::sqlite3_vfs_find(std::ptr::null());
        REAL.set(found as usize).unwrap();
        let mut own = *found;
        own.szOsFile += c_int::try_from(OWN).unwrap();
        own.zName = c"power".as_ptr();
        own.pNext = std::ptr::null_mut();
        own.xOpen = Some(open);
        own.xDelete = Some(delete);
        assert_eq!(ffi::sqlite3_vfs_register(Box::into_raw(Box::new(own)), 1), ffi::SQLITE_OK);
    }
}

/// Numbers that look like chance and are the same each time: a linear congruential generator with Knuth's constants (The
/// Art of Computer Programming, vol. 2, 3.3.4, the line of MMIX).
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % most.max(1)
    }
}

/// A file as it is on the disk for certain, and what has come since.
#[derive(Debug, Clone, Default)]
struct OnDisk {
    bytes: Vec<u8>,
    since: Vec<Step>,
    /// Whether its name is there for certain, may be, or is for certain gone.
    name: Option<bool>,
    syncs_folder: bool,
}

const SECTOR: usize = 512;

impl OnDisk {
    fn apply(bytes: &mut Vec<u8>, step: &Step, upto: usize) {
        match step {
            Step::Wrote(_, at, new) => {
                let new = &new[..upto.min(new.len())];
                if bytes.len() < at + new.len() {
                    bytes.resize(at + new.len(), 0);
                }
                bytes[*at..at + new.len()].copy_from_slice(new);
            }
            Step::Cut(_, size) => bytes.resize(*size, 0),
            _ => {}
        }
    }

    fn sync(&mut self) {
        for step in std::mem::take(&mut self.since) {
            Self::apply(&mut self.bytes, &step, usize::MAX);
        }
    }

    /// As it may be when the power comes back; none where it has no name.
    fn after(&self, chance: &mut Chance) -> Option<Vec<u8>> {
        if !self.name.unwrap_or_else(|| chance.below(2) == 0) {
            return None;
        }
        let mut bytes = self.bytes.clone();
        for step in &self.since {
            match (chance.below(5), step) {
                (0 | 1, _) => Self::apply(&mut bytes, step, usize::MAX),
                // torn: some of its sectors
                (2, Step::Wrote(_, _, new)) => {
                    Self::apply(&mut bytes, step, chance.below(new.len() / SECTOR + 1) * SECTOR);
                }
                _ => {}
            }
        }
        Some(bytes)
    }
}

/// The disk after so many steps.
fn disk(steps: &[Step]) -> BTreeMap<PathBuf, OnDisk> {
    let mut files: BTreeMap<PathBuf, OnDisk> = BTreeMap::new();
    // what was deleted without its folder synced is there or not
    let folder_synced = |files: &mut BTreeMap<PathBuf, OnDisk>| {
        for file in files.values_mut().filter(|f| f.name.is_none()) {
            file.name = Some(true);
        }
    };
    for step in steps {
        match step {
            Step::Made(path, journal) => {
                files.insert(path.clone(), OnDisk { syncs_folder: *journal, ..OnDisk::default() });
            }
            Step::Wrote(path, ..) | Step::Cut(path, _) => {
                files.get_mut(path).unwrap().since.push(step.clone());
            }
            Step::Synced(path) => {
                let file = files.get_mut(path).unwrap();
                file.sync();
                if std::mem::take(&mut file.syncs_folder) {
                    folder_synced(&mut files);
                }
            }
            Step::Deleted(path, true) => {
                files.remove(path);
                folder_synced(&mut files);
            }
            Step::Deleted(path, false) => files.get_mut(path).unwrap().name = None,
            Step::Confirmed(_) => {}
        }
    }
    files
}

const SHEET: &str = r#"{ "format": "thou-build-1",
  "engine": { "name": "0417", "date": "2026-01-10", "cylinders": 8, "layout": "v" }, "intent": { "use": "bracket" } }"#;

/// An entry of a season, some of them long, so that pages come and go.
fn entry(n: usize) -> Entry {
    let note = format!("note {n} {}", "long ".repeat(if n.is_multiple_of(7) { 400 } else { n % 5 }));
    let day = date(2026, 2, 1).checked_add(jiff::Span::new().days(i64::try_from(n / 3).unwrap())).unwrap();
    let what = match n % 4 {
        0 => r#""what":"ran","passes":3"#.to_owned(),
        1 => format!(r#""what":"fitted","part":"spark plugs","serial":"set {n}""#),
        2 => r#""what":"read","reading":"leak-down","place":"5","value":"9 %""#.to_owned(),
        _ => r#""what":"noted""#.to_owned(),
    };
    serde_json::from_str(&format!(r#"{{"id":"e{n}","engine":"0417","day":"{day}","note":"{}",{what}}}"#, note.trim()))
        .unwrap()
}

/// Writes a book of one batch after another, and what the calendar said, confirming each.
fn season(path: &Path) -> usize {
    let mut book = Book::create(path).unwrap();
    book.add_sheet("0417", SHEET, date(2026, 1, 12)).unwrap();
    put(Step::Confirmed(0));
    let mut done = 0;
    for batch in [1, 1, 2, 1, 30, 1, 1, 5, 1, 40, 1, 1, 1, 3, 1] {
        let entries: Vec<Entry> = (done..done + batch).map(entry).collect();
        if batch == 40 {
            // a file that is read in, with its own line of what was begun
            book.import("season.csv", &entries, true).unwrap();
        } else {
            book.append(&entries).unwrap();
        }
        done += batch;
        put(Step::Confirmed(done));
        book.keep_calendar("0417", &format!("{{\"said after\":{done}}}")).unwrap();
    }
    done
}

/// What is wrong with the book after the power went at this step and came back; and how many entries are there.
fn look(steps: &[Step], chance: &mut Chance) -> Result<usize, String> {
    let after = tempfile::tempdir().unwrap();
    for (name, file) in disk(steps) {
        if let Some(bytes) = file.after(chance) {
            std::fs::write(after.path().join(name.file_name().unwrap()), bytes).unwrap();
        }
    }
    let path = after.path().join("shop.book");
    let confirmed = steps.iter().rev().find_map(|s| match s {
        Step::Confirmed(n) => Some(*n),
        _ => None,
    });
    let opened = match confirmed {
        Some(_) => Book::open(&path),
        // nothing was confirmed yet: it may be begun anew
        None => Book::open_or_create(&path),
    };
    let mut book = opened.map_err(|error| error.to_string())?;
    let wrong = book.check().map_err(|error| error.to_string())?;
    if !wrong.is_empty() {
        return Err(wrong.join("; "));
    }
    let there = book.written(None).map_err(|error| error.to_string())?;
    if there.len() < confirmed.unwrap_or(0) {
        return Err(format!("{} of {} that were confirmed", there.len(), confirmed.unwrap_or(0)));
    }
    if let Some(n) = there.iter().enumerate().find_map(|(n, (found, _))| (*found != entry(n)).then_some(n)) {
        return Err(format!("entry {n} is another one"));
    }
    if confirmed.is_some() {
        // and it can be written on
        let next = Entry { day: date(2026, 12, 1), what: What::Noted, id: "next".to_owned(), ..entry(0) };
        book.append(&[next]).map_err(|error| error.to_string())?;
    }
    Ok(there.len())
}

#[test]
fn what_was_confirmed_is_there_after_three_hundred_cuts() {
    put_between();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    let written = season(&path);
    let steps = std::mem::take(&mut *STEPS.lock().unwrap());
    let syncs = steps.iter().filter(|s| matches!(s, Step::Synced(_))).count();
    assert!(syncs > 60 && steps.len() > 300, "{syncs} syncs in {} steps: the layer saw nothing", steps.len());

    let mut chance = Chance(1);
    let (mut in_a_write, mut short) = (0, 0);
    for round in 0..300 {
        let at = chance.below(steps.len() + 1);
        let steps = &steps[..at];
        in_a_write += usize::from(disk(steps).values().any(|file| !file.since.is_empty()));
        let there = look(steps, &mut chance).unwrap_or_else(|wrong| panic!("round {round}, cut at {at}: {wrong}"));
        short += usize::from(there < written);
    }
    assert!(in_a_write > 100 && short > 200, "{in_a_write} cuts in the middle of a write, {short} before the last one");

    // where it would not wait for the disk: what the test is there to see
    let no_sync: Vec<Step> = steps.iter().filter(|s| !matches!(s, Step::Synced(_))).cloned().collect();
    let lost = (0..100).filter(|_| {
        let at = chance.below(no_sync.len() + 1);
        look(&no_sync[..at], &mut chance).is_err()
    });
    assert!(lost.count() > 10, "cuts do not see that nothing is synced");
    // and where a journal's end would not be (SQLite's FULL in place of EXTRA), just after an entry was confirmed
    let full: Vec<Step> = steps
        .iter()
        .map(|s| match s {
            Step::Deleted(path, _) => Step::Deleted(path.clone(), false),
            other => other.clone(),
        })
        .collect();
    let confirmed: Vec<usize> = (0..full.len()).filter(|i| matches!(full[*i], Step::Confirmed(n) if n > 0)).collect();
    let lost = confirmed.iter().filter(|at| look(&full[..=**at], &mut chance).is_err());
    assert!(lost.count() > 2, "cuts do not see that the folder is not synced");
}

/// What the disk is after the power went, by hand.
#[test]
fn of_what_was_not_synced_nobody_knows() {
    let name = PathBuf::from("f");
    let wrote = |n: usize| Step::Wrote(name.clone(), n, vec![1]);
    let steps = [Step::Made(name.clone(), false), wrote(0), Step::Synced(name.clone()), wrote(1)];
    let seen: BTreeSet<_> = (0..64).map(|seed| disk(&steps)[&name].after(&mut Chance(seed * 7_919))).collect();
    assert_eq!(seen, [None, Some(vec![1]), Some(vec![1, 1])].into());
    // with the folder synced its name is there
    let steps = [Step::Made(name.clone(), true), wrote(0), Step::Synced(name.clone())];
    let seen: BTreeSet<_> = (0..64).map(|seed| disk(&steps)[&name].after(&mut Chance(seed * 7_919))).collect();
    assert_eq!(seen, [Some(vec![1])].into());
}
