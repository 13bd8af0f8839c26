//! How long a plan takes from a book of 500 engines and 200,000 entries, all of it invented: CPU seconds of one plan and of
//! the list over every engine. `cargo run --release -p thou-tests --example book-of-500 FOLDER`.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use jiff::Span;
use jiff::civil::date;
use std::path::PathBuf;
use thou::cli::{Exit, Io, run_with};
use thou_book::Book;
use thou_life::entry::Entry;

const ENGINES: u32 = 500;
const ENTRIES: u32 = 400;

/// CPU seconds of this process so far, in the kernel's ticks of a hundredth.
fn cpu() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap();
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap().split_whitespace().collect();
    (fields[11].parse::<f64>().unwrap() + fields[12].parse::<f64>().unwrap()) / 100.0
}

fn log(engine: &str) -> Vec<Entry> {
    let line = |n: u32| {
        let day = date(2026, 7, 1).checked_add(Span::new().days(i64::from(n) * 2)).unwrap();
        let what = match n % 20 {
            0 => r#""what":"did","service":"freshen/oil""#.to_owned(),
            1 => r#""what":"did","service":"freshen/lash""#.to_owned(),
            2..=9 => format!(
                r#""what":"read","reading":"leak-down","place":"{}","value":"{} %","gauge":"tester 2","baseline":{}"#,
                n % 8 + 1,
                3 + n / 100,
                n < 20
            ),
            _ => {
                format!(r#""what":"ran","passes":1,"peak-speed":"{} rpm","elapsed":"9.{n:04} s""#, 7_150 + n % 12 * 10)
            }
        };
        let text = format!(r#"{{"id":"{engine}-{n}","engine":"{engine}","day":"{day}",{what}}}"#);
        serde_json::from_str(&text).unwrap()
    };
    (0..ENTRIES).map(line).collect()
}

fn plan(args: &[&str]) -> f64 {
    let before = cpu();
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let today = Some(date(2028, 9, 10));
    let mut io =
        Io { out: &mut out, err: &mut err, out_colour: false, err_colour: false, today, clock: None, settings: None };
    let Exit(exit) = run_with(std::iter::once("thou").chain(args.iter().copied()).map(Into::into), &mut io);
    assert_eq!(exit, 0, "{}", String::from_utf8_lossy(&err));
    cpu() - before
}

fn main() {
    let path = PathBuf::from(std::env::args().nth(1).unwrap()).join("five-hundred.book");
    let name = path.display().to_string();
    if !path.exists() {
        let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
        let sheet = std::fs::read_to_string(root.join("../sample-builds/bracket.json")).unwrap();
        let mut book = Book::create(&path).unwrap();
        for n in 0..ENGINES {
            let engine = format!("e{n:03}");
            book.add_sheet(&engine, &sheet, date(2026, 6, 25)).unwrap();
            book.append(&log(&engine)).unwrap();
        }
    }
    println!("made: {:.2} s of CPU", cpu());
    let first = plan(&["plan", "e250", "--book", &name]);
    let again: Vec<f64> = (0..20).map(|_| plan(&["plan", "e250", "--book", &name])).collect();
    println!("one plan: {first:.2} s the first time, {:.3} s in the mean of 20", again.iter().sum::<f64>() / 20.0);
    println!("every engine: {:.2} s", plan(&["plan", "--all", "--book", &name]));
}
