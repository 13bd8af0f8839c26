//! Holding a pack to its cases, in the sandbox.

mod reads;

use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use crate::packs::{self, CheckedAnswer, LoadedPack, cases};
use std::path::{Path, PathBuf};
use thou_cases::{Asked, Case, check, has_cases};
use thou_contract::Kind;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Test {
    /// The pack's folder, its .wasm file or its table; its cases are in `src` or `cases` there or beside it
    pack: PathBuf,
    /// The built pack to ask, instead of building the folder's
    #[arg(long = "pack", value_name = "FILE")]
    built: Option<PathBuf>,
    /// Write beside the cases of each rule that holds what their user would read, as the text to hold it to from now on
    #[arg(long)]
    write_reads: bool,
}

pub(super) fn test(args: &Test, io: &mut Io<'_>) -> Exit {
    let pack = match load(args) {
        Ok(pack) => pack,
        Err(NoPack::Command(words)) => {
            io.complain(&folded(&words));
            return Exit::INVALID;
        }
        Err(NoPack::Pack(words)) => {
            io.complain(&folded(&words));
            return Exit::PACK;
        }
    };
    super::unsaid::unsaid(&pack.manifest, io);
    let folder = cases::folder(&args.pack);
    if !has_cases(&folder) {
        io.complain(&folded(&format!(
            "{}: there are no cases. They are in a file a rule, beside its source or in the folder `cases`, such as \
             cases/{}.cases.toml",
            folder.display(),
            pack.manifest.rules.first().map_or("end-play", |r| r.id.as_str()),
        )));
        return Exit::INVALID;
    }
    let mut asked = Shown { boxed: cases::Boxed::new(&pack), write_reads: args.write_reads, written: 0 };
    let report = check(&pack.manifest, &folder, &mut asked);
    for fault in &report.faults {
        // the lines of a difference stay as they are
        let (first, rest) = fault.split_once('\n').unwrap_or((fault, ""));
        io.complain(&(folded(first) + rest));
    }
    let m = &pack.manifest;
    let many = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") };
    let of = format!("{} of {}", many(report.cases, "case"), many(report.rules, "rule"));
    let written = if args.write_reads { format!(", {} written", many(asked.written, "text")) } else { String::new() };
    if report.faults.is_empty() {
        io.say(&format!("{} {}: {of} hold in the sandbox{written}\n", m.id, m.version));
        return Exit::FINE;
    }
    io.say(&format!("{} {}: {of}, {}{written}\n", m.id, m.version, many(report.faults.len(), "fault")));
    Exit(1)
}

/// Why there is no pack to ask.
enum NoPack {
    Command(String),
    Pack(String),
}

fn load(args: &Test) -> Result<LoadedPack, NoPack> {
    let file = |path: &Path| packs::load_file(path).map_err(|fault| NoPack::Pack(fault.to_string()));
    if let Some(built) = &args.built {
        return file(built);
    }
    let path = &args.pack;
    if !path.exists() {
        return Err(NoPack::Command(format!("{}: there is no such folder or file", path.display())));
    }
    if path.is_file() {
        return file(path);
    }
    if path.join("Cargo.toml").is_file() {
        let built = packs::build::build(path).map_err(|error| NoPack::Pack(error.to_string()))?;
        return Ok(built.pack);
    }
    match candidates(path).as_slice() {
        [one] => file(one),
        [] => Err(NoPack::Command(format!(
            "{}: no Cargo.toml, no .wasm file and no table is in it. Name the built pack: `thou pack test {} --pack FILE`",
            path.display(),
            path.display()
        ))),
        several => Err(NoPack::Command(format!(
            "{}: which of {} is the pack? Name it: `thou pack test {} --pack FILE`",
            path.display(),
            several.iter().map(|p| p.display().to_string()).collect::<Vec<_>>().join(", "),
            path.display()
        ))),
    }
}

/// The files of a folder that can be a pack: the built ones, or else the tables.
fn candidates(folder: &Path) -> Vec<PathBuf> {
    let of = |extension: &str| {
        let entries = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path());
        let mut files: Vec<PathBuf> =
            entries.filter(|p| p.is_file() && p.extension().is_some_and(|e| e == extension)).collect();
        files.sort();
        files
    };
    let built = of("wasm");
    if built.is_empty() { of("json") } else { built }
}

/// Asks in the sandbox, and holds what a user would read to the text beside the rule's cases.
struct Shown<'a> {
    boxed: cases::Boxed<'a>,
    write_reads: bool,
    written: usize,
}

impl Asked for Shown<'_> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        self.boxed.ask(case)
    }

    fn kind(&self, fact: &str) -> Option<Kind> {
        self.boxed.kind(fact)
    }

    fn also(&mut self, cases: &[(Case, CheckedAnswer)]) -> Vec<String> {
        match reads::held(&self.boxed.pack.manifest, cases, self.write_reads) {
            Ok(written) => {
                self.written += usize::from(written);
                Vec::new()
            }
            Err(fault) => vec![fault],
        }
    }
}
