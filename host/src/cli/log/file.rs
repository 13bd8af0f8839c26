//! Logs as files.

use super::entry_check::EntryCheck;
use super::known::load_known;
use super::say::{self, Wrap};
use super::speak::Speak;
use super::sure::SureArgs;
use super::twin::twin;
use crate::cli::io::{Exit, Io};
use crate::cli::shelf::{self, Shelf, complain, refuse};
use crate::packs::clean::clean;
use crate::sheet::Sheet;
use clap::{Args, ValueEnum};
use jiff::civil::Date;
use std::collections::BTreeMap;
use std::path::PathBuf;
use thou_book::{Book, FileForm, LineFault, Refused};
use thou_life::entry::{Entry, SHOP, What};

/// A log of 200,000 entries has about 40 MB.
const MOST_BYTES: u64 = 256 << 20;
/// How many faults are told one by one.
const MOST_TOLD: usize = 20;

#[derive(Debug, Args)]
pub(super) struct ImportArgs {
    /// The file: JSON Lines, or CSV with a row of names
    file: PathBuf,
    /// Keep the good lines and name the others; this is what happens if nothing is said
    #[arg(long, conflicts_with = "all_or_nothing")]
    keep_good: bool,
    /// Write nothing if one line is bad
    #[arg(long)]
    all_or_nothing: bool,
    /// Begin engines that the book does not have, without a sheet
    #[arg(long)]
    new_engines: bool,
    #[command(flatten)]
    sure: SureArgs,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FormArg {
    /// Rows and columns
    Csv,
    /// One JSON object a line
    Jsonl,
}

#[derive(Debug, Args)]
pub(super) struct ExportArgs {
    /// The engine's name in the book
    #[arg(required_unless_present = "all")]
    engine: Option<String>,
    /// Every engine
    #[arg(long, conflicts_with = "engine")]
    all: bool,
    /// How to write it
    #[arg(long, value_enum, default_value_t = FormArg::Jsonl)]
    format: FormArg,
    /// Write it to this file instead of the screen
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

pub(super) fn export(shelf: &Shelf, args: &ExportArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let engine = args.engine.as_deref().map(|e| shelf::engine(&book, e)).transpose();
    let engine = engine.map_err(|e| refuse(&e, wrap, io))?;
    let written = book.written(engine.as_deref()).map_err(|e| refuse(&e, wrap, io))?;
    let form = if args.format == FormArg::Csv { FileForm::Csv } else { FileForm::JsonLines };
    let text = thou_book::write(&written, form);
    let Some(out) = &args.out else {
        io.say(&text);
        return Ok(());
    };
    let there = out.exists();
    std::fs::write(out, text).map_err(|error| {
        if !there {
            // a file that was cut short is no export
            let _ = std::fs::remove_file(out);
        }
        complain(&format!("{}: {error}", out.display()), wrap, io)
    })?;
    io.say(&wrap.fill(
        &format!("{}: {}", out.display(), say::count(written.len() as f64, "entry", "entries")),
        "",
        "  ",
    ));
    Ok(())
}

pub(super) fn import(shelf: &Shelf, args: &ImportArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let name = clean(&args.file.display().to_string());
    let text = load(args, &name, wrap, io)?;
    let mut book = shelf.open(io)?;
    let known = load_known(&args.sure.packs, io)?;
    let lines = thou_book::read(&text);
    if args.new_engines {
        begin(&mut book, &lines, wrap, io)?;
    }
    let mut faults: Vec<LineFault> = Vec::new();
    let (mut good, mut places): (Vec<Entry>, Vec<u64>) = (Vec::new(), Vec::new());
    let mut days: BTreeMap<(String, Date), Vec<Entry>> = BTreeMap::new();
    let mut ran: BTreeMap<(String, Date), Vec<Entry>> = BTreeMap::new();
    let mut engines: BTreeMap<String, (Option<Date>, Option<Sheet>)> = BTreeMap::new();
    for line in lines {
        let entry = match line.entry {
            Ok(entry) => entry,
            Err(fault) => {
                faults.push(fault);
                continue;
            }
        };
        let mut tell = |field: &str, why: String| {
            let column = column(&text, line.line, field);
            faults.push(LineFault { line: line.line, column, why });
        };
        if entry.engine == SHOP {
            engines.entry(SHOP.to_owned()).or_insert((None, None));
        }
        if !engines.contains_key(&entry.engine) {
            match book.engine(&entry.engine) {
                Ok(row) => {
                    let sheet = shelf::sheet(&book, &entry.engine, wrap, io)?;
                    engines.insert(entry.engine.clone(), (row.built, sheet));
                }
                Err(error) => {
                    tell("engine", format!("{error} (--new-engines begins it without a sheet)"));
                    continue;
                }
            }
        }
        let (built, sheet) = engines.get(&entry.engine).map_or((None, None), |(built, sheet)| (*built, sheet.as_ref()));
        let check = EntryCheck { known: &known, sheet, built, today: io.today, sure: args.sure.sure() };
        if let Some((field, why)) = check.wrong(&entry) {
            tell(field, why);
            continue;
        }
        if matches!(entry.what, What::Ran { .. }) {
            let key = (entry.engine.clone(), entry.day);
            if !ran.contains_key(&key) {
                let there = book.on_day(&entry.engine, entry.day).map_err(|e| refuse(&e, wrap, io))?;
                ran.insert(key.clone(), there);
            }
            let there = ran.entry(key).or_default();
            if !there.iter().any(|t| t.id == entry.id) {
                if let Some(why) = args.sure.too_many(std::slice::from_ref(&entry), there) {
                    tell("passes", why);
                    continue;
                }
                there.push(entry.clone());
            }
        }
        // two entries with ids of their own are two; words alone can be the same pass twice
        if !line.own_id && !args.sure.again {
            let key = (entry.engine.clone(), entry.day);
            if !days.contains_key(&key) {
                let there = book.on_day(&entry.engine, entry.day).map_err(|e| refuse(&e, wrap, io))?;
                days.insert(key.clone(), there);
            }
            let there = days.entry(key).or_default();
            if let Some(twin) = twin(&entry, there).filter(|twin| twin.id != entry.id) {
                tell(
                    "elapsed",
                    format!("this pass is there already, as {}: if it is another one, say --again", twin.id),
                );
                continue;
            }
            there.push(entry.clone());
        }
        good.push(entry);
        places.push(line.line);
    }
    let mut kept = thou_book::KeptGood::default();
    if args.all_or_nothing {
        kept.refused = book.rehearse(&good).map_err(|e| refuse(&e, wrap, io))?;
    }
    if !args.all_or_nothing || faults.is_empty() && kept.refused.is_empty() {
        let imported = book.import(&name, &good, args.all_or_nothing);
        kept = match imported {
            Ok(kept) => kept,
            Err(thou_book::BookError::Refused(refused)) => {
                thou_book::KeptGood { refused: vec![refused], ..thou_book::KeptGood::default() }
            }
            Err(error) => return Err(refuse(&error, wrap, io)),
        };
    }
    for Refused { at, why } in &kept.refused {
        let line = places.get(*at).copied().unwrap_or(0);
        faults.push(LineFault { line, column: 1, why: why.to_string() });
    }
    faults.sort_by_key(|fault| (fault.line, fault.column));
    // where one bad line keeps all out, all of them have to be put right
    let told = if args.all_or_nothing { faults.len() } else { MOST_TOLD };
    for fault in faults.iter().take(told) {
        io.complain(&wrap.fill(&clean(&format!("{name}:{fault}")), "", "  "));
    }
    if faults.len() > told {
        io.complain(&wrap.fill(&format!("and {} more", faults.len() - told), "", "  "));
    }
    let new = kept.added.iter().filter(|(_, added)| added.new).count();
    let mut words = format!("{name}: {} written", say::count(new as f64, "entry", "entries"));
    let there = kept.added.len() - new;
    if there > 0 {
        words += &format!(", {there} were there already");
    }
    let older = kept.added.iter().filter(|(_, added)| added.before.is_some()).count();
    if older > 0 {
        words += &format!(", {older} older than what was there and counted where their days put them");
    }
    if !faults.is_empty() {
        let left =
            if faults.len() == 1 { "1 line is bad".to_owned() } else { format!("{} lines are bad", faults.len()) };
        words += &if args.all_or_nothing {
            format!("; {left}, and so nothing was written")
        } else {
            format!("; {left} and left out")
        };
    }
    io.say(&wrap.fill(&words, "", "  "));
    let written = |(at, added): &(usize, thou_book::Added)| {
        let entry = good.get(*at).filter(|_| added.new)?;
        Some(Entry { id: added.id.clone(), ..entry.clone() })
    };
    let written: Vec<Entry> = kept.added.iter().filter_map(written).collect();
    for (engine, (_, sheet)) in engines.iter().filter(|(engine, _)| *engine != SHOP) {
        let of: Vec<Entry> = written.iter().filter(|e| e.engine == *engine).cloned().collect();
        if !of.is_empty() {
            let history = book.history(engine).map_err(|e| refuse(&e, wrap, io))?;
            Speak::of_file(sheet.as_ref()).after(&history, &of, &known, wrap, io);
        }
    }
    if !written.is_empty() {
        io.say(&wrap.fill(crate::report::DEFERS_SHORT, "", "  "));
    }
    if faults.is_empty() { Ok(()) } else { Err(Exit::INVALID) }
}

/// Begins the engines that a file names and the book does not have.
fn begin(book: &mut Book, lines: &[thou_book::LogLine], wrap: Wrap, io: &mut Io<'_>) -> Result<(), Exit> {
    let names: std::collections::BTreeSet<&str> = lines
        .iter()
        .filter_map(|line| line.entry.as_ref().ok())
        .map(|entry| entry.engine.as_str())
        .filter(|engine| *engine != SHOP)
        .collect();
    for name in names {
        book.add_engine(name).map_err(|e| refuse(&e, wrap, io))?;
    }
    Ok(())
}

fn load(args: &ImportArgs, name: &str, wrap: Wrap, io: &mut Io<'_>) -> Result<String, Exit> {
    let about = std::fs::metadata(&args.file);
    if about.as_ref().is_ok_and(|about| about.len() > MOST_BYTES) {
        return Err(complain(&format!("{name}: larger than 256 MB, which no log is"), wrap, io));
    }
    let bytes = std::fs::read(&args.file).map_err(|error| {
        let why = match error.kind() {
            std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
            _ => format!("it cannot be read: {error}"),
        };
        complain(&format!("{name}: {why}"), wrap, io)
    })?;
    String::from_utf8(bytes).map_err(|error| {
        let good = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or(&[]);
        let line = good.iter().filter(|b| **b == b'\n').count() + 1;
        complain(&format!("{name}:{line}: this is not UTF-8 text; save the file as UTF-8"), wrap, io)
    })
}

/// Where a field stands in its line, in characters from one: its name in JSON, its cell in CSV.
fn column(text: &str, line: u64, field: &str) -> usize {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let row = text.lines().nth(usize::try_from(line.saturating_sub(1)).unwrap_or(0)).unwrap_or("");
    let quoted = format!("\"{field}\"");
    if let Some(at) = row.find(&quoted) {
        return row.get(..at).map_or(1, |before| before.chars().count() + 1);
    }
    let header = text.lines().next().unwrap_or("");
    let cell = header.split(',').position(|name| name.trim() == field).unwrap_or(0);
    thou_text::cell_column(row, cell)
}
