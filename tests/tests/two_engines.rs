//! A season of 25 events over two engines, typed day by day as `seasons/two-engines.toml` has it: what is told at once, and
//! what each page says on the chosen days. `crosscheck/season.py` works its sums out anew.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use thou_tests::{file, thou_on, value};

#[derive(Deserialize)]
struct Season {
    engine: Vec<Engine>,
    day: Vec<Day>,
}

#[derive(Deserialize)]
struct Engine {
    name: String,
    sheet: String,
    day: String,
    calendar: Vec<Value>,
}

#[derive(Deserialize)]
struct Day {
    on: Date,
    #[serde(default)]
    typed: Vec<Typed>,
    #[serde(default)]
    pages: Vec<Page>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Typed {
    log: Option<String>,
    book: Option<String>,
    named: Option<String>,
    #[serde(default)]
    says: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Page {
    page: String,
    says: Vec<String>,
    #[serde(default)]
    never: Vec<String>,
}

/// A line as a shell takes it apart: by blanks, but for what stands in double quotes.
fn apart(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().unwrap().push(c),
        }
    }
    words
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_page_of_the_season_says_what_it_must() {
    let text = std::fs::read_to_string(file("tests/seasons/two-engines.toml")).unwrap();
    let season: Season = toml::from_str(&text).unwrap();
    let events: usize = season.engine.iter().map(|e| e.calendar.len()).sum();
    assert_eq!((season.engine.len(), events), (2, 25));
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("season.book");
    // what the program says, on one line; it must be fine
    let said = |on: Date, words: &[String]| {
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let run = thou_on(&book, on, &words);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{on} {words:?} {}", run.out);
        flat(&run.out)
    };
    let mut first = None;
    for engine in &season.engine {
        let mut sheet = value(&engine.sheet);
        sheet["calendar"] = json!(engine.calendar);
        for at in std::fs::read_dir(file("sample-builds")).unwrap().flatten() {
            if at.path().extension().is_some_and(|e| e == "csv") {
                std::fs::copy(at.path(), folder.path().join(at.file_name())).unwrap();
            }
        }
        let path = folder.path().join(format!("{}.json", engine.name));
        std::fs::write(&path, sheet.to_string()).unwrap();
        let day: Date = engine.day.parse().unwrap();
        first.get_or_insert(day);
        said(day, &["book", "add", &path.display().to_string()].map(str::to_owned));
    }
    let mut named: BTreeMap<String, String> = BTreeMap::new();
    let mut last = first.unwrap();
    let (mut told, mut read) = (0, 0);
    for day in &season.day {
        assert!(day.on >= last, "{} stands behind {last}", day.on);
        last = day.on;
        for typed in &day.typed {
            let (before, line) = match (&typed.log, &typed.book) {
                (Some(line), None) => (["log", "add"].as_slice(), line),
                (None, Some(line)) => (["book"].as_slice(), line),
                _ => panic!("{}: a line is of the log or of the book", day.on),
            };
            let line = named.iter().fold(line.clone(), |line, (name, id)| line.replace(&format!("{{{name}}}"), id));
            let words: Vec<String> = before.iter().map(|w| (*w).to_owned()).chain(apart(&line)).collect();
            let out = said(day.on, &words);
            for words in &typed.says {
                assert!(out.contains(words), "{} {line}\nis not told: {words}\n{out}", day.on);
                told += 1;
            }
            if let Some(name) = &typed.named {
                // as the line itself tells to write it
                let id = out.split_once(" settled ").unwrap().1.split(' ').next().unwrap();
                named.insert(name.clone(), id.to_owned());
            }
        }
        for page in &day.pages {
            let out = said(day.on, &apart(&page.page));
            for words in &page.says {
                assert!(out.contains(words), "{} {}\ndoes not say: {words}\n{out}", day.on, page.page);
                read += 1;
            }
            for words in &page.never {
                assert!(!out.contains(words), "{} {}\nsays: {words}\n{out}", day.on, page.page);
                read += 1;
            }
        }
    }
    assert!(told > 10 && read > 40, "{told} told, {read} read");
    assert_eq!(thou_on(&book, last, &["book", "check"]).exit, 0);
}
