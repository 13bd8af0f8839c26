//! Five hundred copies of a book, each damaged in another way: what is called whole says what the book said.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use crate::{Book, CalendarSaid, FileForm, write};
use jiff::civil::{Date, date};
use rusqlite::Connection;
use std::path::Path;
use thou_life::entry::Entry;

/// Numbers that look like chance and are the same each time: a linear congruential generator with Knuth's constants (The
/// Art of Computer Programming, vol. 2, 3.3.4, the line of MMIX).
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most.max(1)
    }

    fn among<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len() as u64) as usize]
    }
}

const SHEET: &str = r#"{ "format": "thou-build-1",
  "engine": { "name": "0417", "serial": "NME-0417", "date": "2026-01-10", "cylinders": 8, "layout": "v" },
  "intent": { "use": "bracket", "limiter": "7600 rpm" }, "meters": { "passes": "12 passes" } }"#;

fn entry(engine: &str, day: Date, what: &str) -> Entry {
    serde_json::from_str(&format!("{{\"id\":\"\",\"engine\":\"{engine}\",\"day\":\"{day}\",{what}}}")).unwrap()
}

/// Two engines, three sheets with a file, and a season of every kind of entry.
fn book(path: &Path) {
    let mut book = Book::create(path).unwrap();
    let file = [("rows.csv".to_owned(), "1,2,3\n4,5,6\n".to_owned())].into();
    book.add_sheet_with("0417", SHEET, &file, date(2026, 1, 12)).unwrap();
    book.add_sheet("0388", &SHEET.replace("0417", "0388"), date(2026, 1, 13)).unwrap();
    book.add_sheet("0417", &SHEET.replace("7600", "7700"), date(2026, 2, 1)).unwrap();
    for week in 0..16_i8 {
        let day = date(2026, 3 + week / 4, 1 + 7 * (week % 4));
        let engine = if week % 3 == 0 { "0388" } else { "0417" };
        let mut entries = vec![
            entry(engine, day, &format!("\"event\":\"E{week}\",\"what\":\"ran\",\"passes\":{}", 3 + week % 4)),
            entry(
                engine,
                day,
                &format!("\"what\":\"read\",\"reading\":\"leak-down\",\"place\":\"5\",\"value\":\"{} %\"", 4 + week),
            ),
            entry(engine, day, "\"what\":\"did\",\"service\":\"freshen/oil\",\"cost\":80"),
            entry(
                engine,
                day,
                &format!("\"what\":\"noted\",\"note\":\"week {week}: {}\"", "jets and plugs ".repeat(9)),
            ),
        ];
        if week % 4 == 1 {
            let set = format!("\"serial\":\"set {week}\"");
            entries.push(entry(engine, day, &format!("\"what\":\"fitted\",\"part\":\"valve springs\",{set}")));
            entries.push(entry(engine, day, &format!("\"what\":\"tightened\",{set}")));
            entries.push(entry(engine, day, &format!("\"what\":\"removed\",{set},\"disposition\":\"run\"")));
        }
        let added = book.append(&entries).unwrap();
        if week % 5 == 2 {
            book.append(&[entry(engine, day, &format!("\"what\":\"undone\",\"entry\":\"{}\"", added[0].id))]).unwrap();
        }
    }
    with_calendars(&mut book);
}

/// Keeps what a calendar file of both engines said.
fn with_calendars(book: &mut Book) {
    for engine in ["0417", "0388"] {
        book.keep_calendar(engine, &format!("[{{\"uid\":\"{engine}.stop.1\",\"sequence\":3}}]")).unwrap();
    }
}

/// All that a reader can get out of a book.
fn told(book: &Book) -> Result<String, crate::BookError> {
    let mut out = write(&book.written(None)?, FileForm::Csv);
    for row in book.engines()? {
        out += &format!("{row:?}\n{:?}\n", book.history(&row.name)?);
        out += &format!("{:?}\n", book.calendar_said(&row.name)?);
        for revision in 1..=row.revision {
            out += &format!("{:?}\n", book.sheet_revision(&row.name, revision)?);
        }
    }
    for part in ["valve springs", "rods"] {
        out += &format!("{:?}\n", book.lives(part)?);
    }
    Ok(out)
}

const TABLES: [(&str, &[&str]); 12] = [
    ("entry", &["id", "engine", "day", "what", "serial", "json", "digest", "link"]),
    ("sheet", &["engine", "revision", "day", "digest", "text", "proof", "link"]),
    ("attached", &["engine", "revision", "name", "text"]),
    ("engine", &["name", "title", "usage", "built", "start", "entries"]),
    ("meter", &["engine", "meter", "total", "zero", "read_at", "freshened"]),
    ("event", &["engine", "year", "name"]),
    (
        "stretch",
        &[
            "serial",
            "part",
            "engine",
            "fitted",
            "removed",
            "at_fitted",
            "at_removed",
            "brought",
            "failed",
            "disposition",
        ],
    ),
    ("tightened", &["seq", "serial", "engine", "day"]),
    ("done", &["engine", "service", "seq", "day", "at"]),
    ("undone", &["seq", "engine"]),
    ("chain", &["name", "link", "rows"]),
    ("calendar", &["engine", "said", "digest"]),
];

/// The file as a tool for databases opens it.
fn unguarded(path: &Path) -> Connection {
    let db = Connection::open(path).unwrap();
    db.pragma_update(None, "foreign_keys", false).unwrap();
    db
}

/// Does something to the rows of a table that the file itself cannot notice; how it is called.
fn swap(path: &Path, chance: &mut Chance) -> String {
    let db = unguarded(path);
    let (table, columns) = *chance.among(&TABLES);
    let column = *chance.among(columns);
    let key = if ["entry", "sheet", "attached", "stretch", "tightened", "undone"].contains(&table) {
        "rowid"
    } else {
        columns[0]
    };
    let keys: Vec<rusqlite::types::Value> = {
        let mut statement = db.prepare(&format!("SELECT {key} FROM {table} ORDER BY {key}")).unwrap();
        statement.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    if keys.is_empty() {
        return format!("nothing in {table}");
    }
    let (a, b) = (chance.among(&keys).clone(), chance.among(&keys).clone());
    let run = |sql: String, with: &[&dyn rusqlite::ToSql]| {
        // one that the table's own rules refuse is no damage
        let _ = db.execute(&sql, with);
    };
    match chance.below(5) {
        0 => run(format!("DELETE FROM {table} WHERE {key} = ?"), &[&a]),
        1 => run(format!("DELETE FROM {table} WHERE {key} >= ?"), &[&a]),
        // whole rows change places, each with what it carries
        2 if key == "rowid" => {
            run(format!("UPDATE {table} SET rowid = -1 WHERE rowid = ?"), &[&a]);
            run(format!("UPDATE {table} SET rowid = ?1 WHERE rowid = ?2"), &[&a, &b]);
            run(format!("UPDATE {table} SET rowid = ? WHERE rowid = -1"), &[&b]);
        }
        // two cells change places
        _ => {
            let cell = |key_of: &rusqlite::types::Value| {
                let sql = format!("SELECT {column} FROM {table} WHERE {key} = ? LIMIT 1");
                db.query_row(&sql, [key_of], |row| row.get::<_, rusqlite::types::Value>(0)).unwrap()
            };
            let (first, second) = (cell(&a), cell(&b));
            if ["id", "serial", "name"].contains(&column) {
                run(format!("UPDATE {table} SET {column} = 'between' WHERE {key} = ?"), &[&a]);
            }
            run(format!("UPDATE {table} SET {column} = ? WHERE {key} = ?"), &[&first, &b]);
            run(format!("UPDATE {table} SET {column} = ? WHERE {key} = ?"), &[&second, &a]);
        }
    }
    format!("{table} {column} {a:?} {b:?}")
}

/// Flips bits, or writes over, cuts off or takes out a part of the file.
fn spoil(bytes: &mut Vec<u8>, chance: &mut Chance) -> String {
    let size = bytes.len() as u64;
    let at = chance.below(size) as usize;
    match chance.below(6) {
        0..=2 => {
            let flips = 1 + chance.below(6);
            for _ in 0..flips {
                let at = chance.below(size) as usize;
                bytes[at] ^= 1 << chance.below(8);
            }
            format!("{flips} bits")
        }
        3 => {
            bytes.truncate(at.max(1));
            format!("cut at {at}")
        }
        4 => {
            let page = at / 4096 * 4096;
            let other = chance.below(size) as usize / 4096 * 4096;
            let (one, two) = (bytes[page..page + 4096].to_vec(), bytes[other..other + 4096].to_vec());
            bytes[page..page + 4096].copy_from_slice(&two);
            bytes[other..other + 4096].copy_from_slice(&one);
            format!("pages at {page} and {other}")
        }
        _ => {
            let end = (at + 1 + chance.below(300) as usize).min(bytes.len());
            bytes[at..end].fill(chance.below(256) as u8);
            format!("{at} to {end} written over")
        }
    }
}

#[test]
fn no_damaged_book_is_called_whole_while_it_says_another_thing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    book(&path);
    let whole = Book::open(&path).unwrap();
    let checked = whole.examine().unwrap();
    assert_eq!((checked.wrong, checked.entries[0], checked.sheets), (Vec::new(), checked.entries[1], [3, 3]));
    let wanted = told(&whole).unwrap();
    drop(whole);
    let good = std::fs::read(&path).unwrap();
    let mut chance = Chance(417);
    let copy = folder.path().join("copy.book");
    let (mut found, mut harmless) = (0, 0);
    for n in 0..500 {
        let mut bytes = good.clone();
        let how = if n % 2 == 0 {
            let how = spoil(&mut bytes, &mut chance);
            std::fs::write(&copy, &bytes).unwrap();
            how
        } else {
            std::fs::write(&copy, &bytes).unwrap();
            swap(&copy, &mut chance)
        };
        let Ok(book) = Book::open(&copy) else {
            found += 1;
            continue;
        };
        if book.examine().map_or(true, |checked| !checked.wrong.is_empty()) {
            found += 1;
            continue;
        }
        assert_eq!(told(&book).unwrap(), wanted, "{n}: {how}");
        harmless += 1;
    }
    // bits in what no page uses, and cells that were the same: more than half of all is found
    assert!(found > 300 && found + harmless == 500, "{found} found, {harmless} harmless");
}

/// What a calendar file said is no entry, and is named when it was altered: by the check, and by what saves the rest.
#[test]
fn an_altered_calendar_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    book(&path);
    unguarded(&path).execute("UPDATE calendar SET said = replace(said, '3', '2') WHERE engine = '0388'", []).unwrap();
    let said = Book::open(&path).unwrap().check().unwrap();
    assert!(said[0].starts_with("what the last calendar file of 0388 said was altered"), "{said:?}");
    let saved = Book::recover(&path, &folder.path().join("saved.book")).unwrap();
    assert_eq!((saved.lost_calendars, saved.lost.len()), (vec!["0388: altered".to_owned()], 0));
    let book = Book::open(&folder.path().join("saved.book")).unwrap();
    let kept = |engine: &str| book.calendar_said(engine).unwrap();
    assert_eq!((kept("0388"), kept("0417") == CalendarSaid::Nothing), (CalendarSaid::Nothing, false));
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
    drop(book);
    // and one that was taken out
    unguarded(&path).execute("DELETE FROM calendar WHERE engine = '0388'", []).unwrap();
    let said = Book::open(&path).unwrap().check().unwrap();
    assert!(said.len() == 1 && said[0].starts_with("the calendars that are kept are not those that were"), "{said:?}");
    let saved = Book::recover(&path, &folder.path().join("again.book")).unwrap();
    assert_eq!(saved.lost_calendars, ["1 more: nothing is left of it"]);
}

/// A line that a later program wrote: no damage, and its reader is told what to do.
#[test]
fn an_entry_of_a_newer_program_is_told_as_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    let mut book = Book::create(&path).unwrap();
    book.add_engine("0417").unwrap();
    book.append(&[entry("0417", date(2026, 5, 2), "\"what\":\"noted\",\"note\":\"kept\"")]).unwrap();
    drop(book);
    let db = unguarded(&path);
    let sql = "UPDATE entry SET what = 'weighed', json = replace(json, '\"noted\"', '\"weighed\"')";
    assert_eq!(db.execute(sql, []).unwrap(), 1);
    drop(db);
    let book = Book::open(&path).unwrap();
    let error = book.written(None).unwrap_err().to_string();
    let wanted = "the entry \"weighed\" of 0417, 2026-05-02, was written by a newer thou, which knows that kind: use the \
                  newer program; the book was left as it is";
    assert_eq!(error, format!("{}: {wanted}", path.display()));
    assert!(!error.contains("damaged"), "{error}");
}

/// An entry that was altered, one that was taken out, and the sheet's limiter: each is named, and the rest is trusted.
#[test]
fn what_was_altered_is_named_and_what_is_left_can_be_trusted() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    book(&path);
    let all = Book::open(&path).unwrap().written(None).unwrap();
    let (third, ninth) = (all[2].0.id.clone(), all[8].0.id.clone());
    let db = unguarded(&path);
    db.execute("UPDATE entry SET json = replace(json, '80', '60') WHERE seq = 3", []).unwrap();
    db.execute("DELETE FROM entry WHERE seq IN (9, 10)", []).unwrap();
    db.execute("UPDATE sheet SET text = replace(text, '7600', '8600') WHERE engine = '0417' AND revision = 1", [])
        .unwrap();
    drop(db);
    let checked = Book::open(&path).unwrap().examine().unwrap();
    let said = checked.wrong.join("\n");
    assert!(
        said.contains(&format!("entry 3 ({third}, 0388, 2026-03-01, did) was altered after it was written")),
        "{said}"
    );
    assert!(said.contains("entries 9 to 10 are missing, before entry 11 ("), "{said}");
    assert!(
        said.contains("the sheet of 0417, revision 1, was altered after it was taken in: do not trust it"),
        "{said}"
    );
    let many = all.len() as u32;
    assert_eq!((checked.entries, checked.sheets), ([many - 3, many - 2], [2, 3]));

    let saved = Book::recover(&path, &folder.path().join("saved.book")).unwrap();
    let lost: Vec<(i64, i64)> = saved.lost.iter().map(|l| (l.from, l.to)).collect();
    assert_eq!((lost, saved.lost_entries(), saved.end_known), (vec![(3, 3), (9, 10)], 3, true));
    assert!(saved.lost[0].words.contains("it reads now: {\"id\":") && saved.lost[0].words.contains("60"), "{saved:?}");
    assert_eq!(saved.lost_sheets, ["0417, revision 1: altered"]);
    assert_eq!((saved.entries, saved.sheets), (many - 3, 2));
    let book = Book::open(&folder.path().join("saved.book")).unwrap();
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
    assert!(book.written(None).unwrap().iter().all(|(e, _)| e.id != third && e.id != ninth));
}

/// The end of the log cut off, row by row, as no page shows: the count of the chain says how many.
#[test]
fn an_end_that_was_cut_off_is_missed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.book");
    book(&path);
    let many = Book::open(&path).unwrap().written(None).unwrap().len() as i64;
    let db = unguarded(&path);
    db.execute("DELETE FROM entry WHERE seq > ?", [many - 4]).unwrap();
    drop(db);
    let said = Book::open(&path).unwrap().check().unwrap().join("\n");
    assert!(said.contains(&format!("4 of the {many} entries that were written are missing")), "{said}");
    let saved = Book::recover(&path, &folder.path().join("saved.book")).unwrap();
    let lost: Vec<(i64, i64)> = saved.lost.iter().map(|l| (l.from, l.to)).collect();
    assert_eq!(lost, [(many - 3, many)]);
}
