//! A disk that is full: the write fails with words, and the book stays whole.
#![allow(clippy::unwrap_used)]

use crate::{Book, BookError};
use jiff::civil::date;
use thou_life::entry::{Entry, What};

fn note(words: String) -> Entry {
    Entry {
        id: String::new(),
        engine: "0417".to_owned(),
        day: date(2026, 5, 2),
        zone: None,
        event: None,
        by: None,
        note: Some(words),
        what: What::Noted,
    }
}

#[test]
fn a_full_disk_fails_with_words_and_costs_only_what_was_not_confirmed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    let mut book = Book::create(&path).unwrap();
    book.add_engine("0417").unwrap();
    let pages: i64 = book.db.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
    // the library's own way to play a disk that is full (SQLite, "PRAGMA max_page_count": the answer is SQLITE_FULL)
    book.db.pragma_update_and_check(None, "max_page_count", pages + 8, |_| Ok(())).unwrap();
    let mut confirmed = 0;
    let error = loop {
        match book.append(&[note("words ".repeat(200))]) {
            Ok(_) => confirmed += 1,
            Err(error) => break error,
        }
    };
    assert_eq!(
        error.to_string(),
        format!("{}: the disk is full; this was NOT written, and the book is as it was", path.display())
    );
    assert!(confirmed > 3, "{confirmed}");
    // many at once, of which the first would fit: none is kept
    let many: Vec<Entry> = (0..50).map(|_| note("words ".repeat(200))).collect();
    assert!(matches!(book.import("a file", &many, false), Err(BookError::NotWritten { .. })));
    drop(book);
    let mut book = Book::open(&path).unwrap();
    assert_eq!(book.written(None).unwrap().len(), confirmed);
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
    book.append(&[note("room again".to_owned())]).unwrap();
    assert_eq!(book.written(None).unwrap().len(), confirmed + 1);
}

#[test]
fn a_newer_version_is_taken_on_whole_or_not_at_all() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    let mut book = Book::create(&path).unwrap();
    book.add_engine("0417").unwrap();
    book.append(&[note("kept".to_owned())]).unwrap();
    let mut steps = crate::schema::steps().to_vec();
    // the next version is made up: one good step, and one that fails half way
    steps.push("ALTER TABLE entry ADD COLUMN made_up TEXT");
    steps.push("CREATE TABLE half (a INTEGER) STRICT; INSERT INTO nowhere VALUES (1)");
    let turn = book.db.transaction().unwrap();
    crate::schema::migrate(&turn, &steps).unwrap_err();
    turn.rollback().unwrap();
    assert_eq!(crate::schema::version(&book.db).unwrap(), crate::schema::VERSION);
    steps.pop();
    let turn = book.db.transaction().unwrap();
    crate::schema::migrate(&turn, &steps).unwrap();
    turn.commit().unwrap();
    assert_eq!(crate::schema::version(&book.db).unwrap(), crate::schema::VERSION + 1);
    assert_eq!(book.written(None).unwrap().len(), 1);
    // and the program that does not know it leaves it alone
    drop(book);
    assert!(matches!(Book::open(&path), Err(BookError::Newer { .. })));
}
