//! A book as its users have it: written, read, undone, moved between engines, held against itself.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::{Date, date};
use thou_book::{Book, BookError, Refusal};
use thou_life::entry::Entry;

const SHEET: &str = r#"{ "format": "thou-build-1",
  "engine": { "name": "0417", "serial": "NME-0417", "date": "2026-01-10", "cylinders": 8, "layout": "v" },
  "intent": { "use": "bracket" } }"#;

fn book() -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().unwrap();
    let mut book = Book::create(&folder.path().join("shop.book")).unwrap();
    book.add_sheet("0417", SHEET, date(2026, 1, 12)).unwrap();
    book.add_sheet("0388", &SHEET.replace("0417", "0388"), date(2026, 1, 12)).unwrap();
    (folder, book)
}

fn entry(engine: &str, day: Date, what: &str) -> Entry {
    let text = format!("{{\"id\":\"\",\"engine\":\"{engine}\",\"day\":\"{day}\",{what}}}");
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn passes(engine: &str, day: Date, count: u32) -> Entry {
    entry(engine, day, &format!("\"what\":\"ran\",\"passes\":{count}"))
}

const MAY: fn(i8) -> Date = |day| date(2026, 5, day);

fn refused(result: Result<Vec<thou_book::Added>, BookError>) -> Refusal {
    match result {
        Err(BookError::Refused(refused)) => refused.why,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_same_sheet_again_adds_nothing_and_another_is_a_new_revision() {
    let (_folder, mut book) = book();
    let again = book.add_sheet("0417", SHEET, date(2026, 2, 1)).unwrap();
    assert_eq!((again.number, again.added), (1, false));
    let changed = SHEET.replace("bracket", "street");
    let new = book.add_sheet("0417", &changed, date(2026, 2, 1)).unwrap();
    assert_eq!((new.number, new.added), (2, true));
    assert_eq!(book.sheet("0417").unwrap().text, changed);
    assert_eq!(book.sheet_revision("0417", 1).unwrap().text, SHEET);
    let row = book.engine("0417").unwrap();
    assert_eq!((row.title.as_str(), row.usage.as_str(), row.revision), ("NME-0417", "street", 2));
    assert_eq!(book.sheet("0471").unwrap_err().to_string(), "no engine \"0471\" is in the book; did you mean 0417?");
}

#[test]
fn what_was_written_is_there_when_it_is_opened_again() {
    let (folder, mut book) = book();
    let added = book.append(&[passes("0417", MAY(2), 3), passes("0417", MAY(3), 2)]).unwrap();
    assert!(added.iter().all(|a| a.new && a.id.len() == 8));
    drop(book);
    let mut book = Book::open(&folder.path().join("shop.book")).unwrap();
    let history = book.history("0417").unwrap();
    assert_eq!(history.entries.len(), 2);
    assert_eq!(history.meters["passes"].total, 5.0);
    assert_eq!(history.meters["events"].total, 2.0);
    // read in once more, with the ids that they were given
    let again = book.append(&history.entries).unwrap();
    assert!(again.iter().all(|a| !a.new));
    assert_eq!(book.engine("0417").unwrap().entries, 2);
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
}

#[test]
fn one_bad_entry_keeps_all_out_or_only_itself() {
    let (_folder, mut book) = book();
    let list = [passes("0417", MAY(2), 3), passes("0499", MAY(2), 1), passes("0417", MAY(3), 1)];
    assert!(matches!(refused(book.append(&list)), Refusal::UnknownEngine { .. }));
    assert_eq!(book.engine("0417").unwrap().entries, 0);
    let kept = book.append_good(&list).unwrap();
    assert_eq!(kept.added.iter().map(|a| a.0).collect::<Vec<_>>(), [0, 2]);
    assert_eq!(kept.refused[0].at, 1);
    assert_eq!(book.history("0417").unwrap().meters["passes"].total, 4.0);
}

#[test]
fn a_part_keeps_its_life_from_engine_to_engine() {
    let (_folder, mut book) = book();
    let fitted = "\"what\":\"fitted\",\"part\":\"valve springs\",\"serial\":\"set 14\",\"brought\":{\"passes\":\"10\"}";
    let out = "\"what\":\"removed\",\"serial\":\"set 14\",\"disposition\":\"run\"";
    book.append(&[
        passes("0388", MAY(1), 5),
        entry("0388", MAY(2), fitted),
        passes("0388", MAY(3), 20),
        entry("0388", MAY(4), out),
        passes("0388", MAY(5), 7),
    ])
    .unwrap();
    book.append(&[
        entry("0417", MAY(6), &fitted.replace(",\"brought\":{\"passes\":\"10\"}", "")),
        passes("0417", MAY(7), 3),
    ])
    .unwrap();
    let history = book.history("0417").unwrap();
    assert_eq!(history.elsewhere("set 14", "passes"), 30.0);
    let lives = book.lives("valve springs").unwrap();
    assert_eq!(lives.len(), 1);
    assert_eq!(lives[0].run()["passes"], 33.0);
    assert_eq!((lives[0].still_in(), lives[0].failed()), (Some("0417"), false));
    // it cannot be in two engines, nor come out of one where it is not
    assert_eq!(
        refused(book.append(&[entry("0388", MAY(8), fitted)])).to_string(),
        "set 14 is in 0417, since 2026-05-06: log it as removed there first"
    );
    assert_eq!(
        refused(book.append(&[entry("0388", MAY(8), out)])).to_string(),
        "set 14 is not in 0388 on 2026-05-08: it is in 0417"
    );
    assert!(matches!(refused(book.append(&[entry("0388", MAY(5), fitted)])), Refusal::Later { .. }));
    let other = "\"what\":\"fitted\",\"part\":\"rod bolts\",\"serial\":\"set 14\"";
    assert_eq!(
        refused(book.append(&[entry("0417", MAY(8), other)])).to_string(),
        "set 14 is already the number of valve springs in this shop: give rod bolts a number of their own"
    );
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
}

#[test]
fn undoing_counts_no_more_and_an_earlier_day_is_put_where_it_belongs() {
    let (_folder, mut book) = book();
    let added = book.append(&[passes("0417", MAY(2), 3), passes("0417", MAY(9), 100)]).unwrap();
    let undo = format!("\"what\":\"undone\",\"entry\":\"{}\"", added[1].id);
    book.append(&[entry("0417", MAY(9), &undo)]).unwrap();
    assert_eq!(book.history("0417").unwrap().meters["passes"].total, 3.0);
    assert!(matches!(refused(book.append(&[entry("0417", MAY(9), &undo)])), Refusal::UndoneBefore { .. }));
    let late = book.append(&[passes("0417", MAY(1), 1)]).unwrap();
    assert_eq!(late[0].before, Some(MAY(9)));
    let history = book.history("0417").unwrap();
    assert_eq!(history.entries[0].day, MAY(1));
    assert_eq!(history.meters["passes"].total, 4.0);
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
}

#[test]
fn a_meter_is_counted_up_to_and_does_not_go_down() {
    let (_folder, mut book) = book();
    let reads =
        |day, text: &str| entry("0417", MAY(day), &format!("\"what\":\"ran\",\"meter\":{{\"passes\":\"{text}\"}}"));
    book.append(&[passes("0417", MAY(2), 3), reads(3, "10"), passes("0417", MAY(4), 2)]).unwrap();
    assert_eq!(book.history("0417").unwrap().meters["passes"].total, 12.0);
    assert_eq!(
        refused(book.append(&[reads(5, "11")])).to_string(),
        "the meter passes would go down: it reads 11, and the book has 12. If it was put back to nothing, say \
         --meter-was-reset; if an earlier entry counts too much, undo that first"
    );
    let reset = entry("0417", MAY(6), "\"what\":\"ran\",\"meter\":{\"passes\":\"5\"},\"meter-was-reset\":true");
    // five on the new meter, two of them counted already
    book.append(&[reset, reads(7, "6")]).unwrap();
    assert_eq!(book.history("0417").unwrap().meters["passes"].total, 16.0);
    book.append(&[entry("0417", MAY(8), "\"what\":\"freshened\""), passes("0417", MAY(9), 1)]).unwrap();
    let meters = book.history("0417").unwrap().meters;
    assert_eq!((meters["passes"].total, meters["passes"].since_freshened), (17.0, 1.0));
    // a meter that runs on over a freshening would be counted twice
    assert_eq!(
        refused(book.append(&[reads(10, "8")])).to_string(),
        "the meter passes reads 8, and before the freshening it read 6; a freshened engine is counted from nothing. If \
         the meter was put back to nothing then, say --meter-was-reset; if it runs on, log what the engine ran since instead"
    );
    // a freshened engine's meters are read from nothing
    book.append(&[reads(10, "4")]).unwrap();
    let meters = book.history("0417").unwrap().meters;
    assert_eq!((meters["passes"].total, meters["passes"].since_freshened), (20.0, 4.0));
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
}

#[test]
fn what_follows_from_the_entries_is_held_against_them() {
    let (folder, mut book) = book();
    book.append(&[passes("0417", MAY(2), 3)]).unwrap();
    drop(book);
    let path = folder.path().join("shop.book");
    let db = rusqlite::Connection::open(&path).unwrap();
    db.execute("UPDATE meter SET total = 4 WHERE meter = 'passes'", []).unwrap();
    drop(db);
    assert_eq!(
        Book::open(&path).unwrap().check().unwrap(),
        [
            "meters: 0417 passes [4.0,0.0,0.0,0.0] does not follow from the entries",
            "meters: 0417 passes [3.0,0.0,0.0,0.0] follows from the entries and is missing"
        ]
    );
}

#[test]
fn a_book_from_a_newer_program_another_file_and_no_file_are_told_apart_and_left_alone() {
    let (folder, book) = book();
    drop(book);
    let path = folder.path().join("shop.book");
    rusqlite::Connection::open(&path).unwrap().pragma_update(None, "user_version", 99).unwrap();
    let before = std::fs::read(&path).unwrap();
    assert!(matches!(Book::open(&path), Err(BookError::Newer { version: 99, .. })));
    assert_eq!(std::fs::read(&path).unwrap(), before);
    let text = folder.path().join("sheet.json");
    std::fs::write(&text, SHEET.repeat(10)).unwrap();
    assert!(matches!(Book::open(&text), Err(BookError::NotABook(_))));
    assert!(matches!(Book::create(&text), Err(BookError::Exists(_))));
    assert_eq!(std::fs::read_to_string(&text).unwrap(), SHEET.repeat(10));
    assert!(matches!(Book::open(&folder.path().join("none")), Err(BookError::Missing(_))));
    // begun by a program that was killed before it wrote anything
    let begun = folder.path().join("begun");
    std::fs::write(&begun, "").unwrap();
    assert!(matches!(Book::open(&begun), Err(BookError::Missing(_))));
    Book::open_or_create(&begun).unwrap();
    assert_eq!(
        Book::open(folder.path()).unwrap_err().to_string(),
        format!(
            "{}: it cannot be opened: no such folder, or a folder itself, or no right to it",
            folder.path().display()
        )
    );
}

#[test]
fn a_book_of_version_one_is_brought_up_to_date_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.book");
    std::fs::copy(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/book/version-1.book"), &path).unwrap();
    let old = rusqlite::Connection::open(&path).unwrap();
    let count = |db: &rusqlite::Connection| db.query_row("SELECT count(*) FROM entry", [], |row| row.get::<_, i64>(0));
    assert_eq!(
        (old.pragma_query_value(None, "user_version", |r| r.get::<_, i64>(0)).unwrap(), count(&old).unwrap()),
        (1, 15)
    );
    drop(old);
    let book = Book::open(&path).unwrap();
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
    let row = book.engine("0417").unwrap();
    assert_eq!((row.entries, row.last, row.revision), (11, Some(date(2026, 3, 17)), 1));
    // 118 before the book and 3 at E1; then freshened, and the meter itself read 133, of which the 9 that were undone are none
    let history = book.history("0417").unwrap();
    assert_eq!((history.meters["passes"].total, history.meters["passes"].since_freshened), (254.0, 133.0));
    assert_eq!(history.entries.len(), 9);
    let springs = &book.lives("valve springs").unwrap()[0];
    assert_eq!((springs.run()["passes"], springs.failed(), springs.tightened), (22.0, true, 1));
    drop(book);
    let new = rusqlite::Connection::open(&path).unwrap();
    assert_eq!(
        (new.pragma_query_value(None, "user_version", |r| r.get::<_, i64>(0)).unwrap(), count(&new).unwrap()),
        (6, 15)
    );
}
