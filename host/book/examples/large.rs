//! How long a large book takes: 500 engines and 200,000 entries, all invented.
//!
//! `cargo run --release -p thou-book --example large`
#![allow(clippy::unwrap_used, clippy::print_stdout, clippy::indexing_slicing)]

use jiff::civil::{Date, date};
use std::time::{Duration, Instant};
use thou_book::Book;
use thou_life::entry::Entry;

const ENGINES: i32 = 500;
const ENTRIES: i32 = 400;

fn entry(engine: &str, day: Date, what: &str) -> Entry {
    serde_json::from_str(&format!("{{\"id\":\"\",\"engine\":\"{engine}\",\"day\":\"{day}\",{what}}}")).unwrap()
}

/// Two seasons of an engine: passes, readings, oil, a set of springs in and out.
fn season(engine: &str) -> Vec<Entry> {
    let start = date(2025, 3, 1);
    let mut out = Vec::new();
    for n in 0..ENTRIES {
        let day = start.checked_add(jiff::Span::new().days(n * 3 / 2)).unwrap();
        let set = format!("{engine} set {}", n / 100);
        let what = match n % 100 {
            0 => format!("\"what\":\"fitted\",\"part\":\"valve springs\",\"serial\":\"{set}\""),
            99 => format!(
                "\"what\":\"removed\",\"serial\":\"{set}\",\"disposition\":\"scrap\",\"failed\":{}",
                n % 200 == 199
            ),
            r if r % 10 == 3 => format!(
                "\"what\":\"read\",\"reading\":\"leak-down\",\"place\":\"{}\",\"value\":\"{} %\"",
                n % 8 + 1,
                3 + n % 5
            ),
            r if r % 25 == 7 => "\"what\":\"did\",\"service\":\"freshen/oil\"".to_owned(),
            _ => format!("\"event\":\"E{}\",\"what\":\"ran\",\"passes\":1,\"elapsed\":\"9.{:02} s\"", n / 10, n % 60),
        };
        out.push(entry(engine, day, &what));
    }
    out
}

/// The middle of several times.
fn middle(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}

fn timed(what: &str, count: usize, mut one: impl FnMut(usize)) {
    let times = (0..count).map(|n| {
        let start = Instant::now();
        one(n);
        start.elapsed()
    });
    println!("{what:<52} {:>10.3} ms", middle(times.collect()).as_secs_f64() * 1e3);
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("large.book");
    let mut book = Book::create(&path).unwrap();
    let start = Instant::now();
    for n in 0..ENGINES {
        let name = format!("{n:04}");
        book.add_engine(&name).unwrap();
        book.append(&season(&name)).unwrap();
    }
    let each = start.elapsed().as_secs_f64() * 1e6 / f64::from(ENGINES * ENTRIES);
    println!("{:<52} {each:>10.1} µs an entry", "written, 400 at once");
    println!("{:<52} {:>10.1} MB", "the file", std::fs::metadata(&path).unwrap().len() as f64 / 1e6);
    drop(book);
    timed("opened", 9, |_| drop(Book::open(&path).unwrap()));
    let mut book = Book::open(&path).unwrap();
    let name = |n: usize| format!("{:04}", n * 37 % 500);
    timed("history of one engine", 51, |n| assert_eq!(book.history(&name(n)).unwrap().entries.len(), 400));
    timed("lives of 2,000 sets of springs", 9, |_| assert_eq!(book.lives("valve springs").unwrap().len(), 2_000));
    timed("list of 500 engines", 9, |_| assert_eq!(book.engines().unwrap().len(), 500));
    let pass = "\"what\":\"ran\",\"passes\":1";
    timed("one entry of today, on the disk", 51, |n| {
        book.append(&[entry(&name(n), date(2027, 1, 1), pass)]).unwrap();
    });
    timed("one entry of a day long past, on the disk", 51, |n| {
        book.append(&[entry(&name(n), date(2025, 6, 1), pass)]).unwrap();
    });
    timed("all of it held against itself", 1, |_| assert_eq!(book.check().unwrap(), Vec::<String>::new()));
}
