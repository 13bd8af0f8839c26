//! Which rule packs a check would run.

use crate::cli::io::{Exit, Io};
use crate::cli::load;
use crate::cli::options::PackFiles;
use crate::cli::paper::fill;
use std::fmt::Write as _;
use std::path::PathBuf;
use thou_contract::RuleKind;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct List {
    #[command(flatten)]
    with: PackFiles,
    /// The sheet whose `packs` file counts too
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
}

pub(super) fn list(args: &List, io: &mut Io<'_>) -> Exit {
    let (packs, faults) = load::packs(&args.with, args.sheet.as_deref(), io);
    let mut out = String::new();
    for pack in &packs {
        let m = &pack.manifest;
        out.push_str(&fill(&format!("{} {}   {}   ({})", m.id, m.version, m.title, pack.origin), "", "  "));
        out.push_str(&fill(&m.about, "  ", "  "));
        for u in &m.uses {
            let words = format!("adds the use \"{}\", judged like {} until a rule says otherwise", u.id, u.like);
            out.push_str(&fill(&words, "  ", "    "));
        }
        for (kind, word) in [
            (RuleKind::Window, "windows"),
            (RuleKind::Finding, "findings"),
            (RuleKind::Service, "services"),
            (RuleKind::Step, "steps"),
        ] {
            let ids: Vec<&str> = m.rules.iter().filter(|r| r.kind == kind).map(|r| r.id.as_str()).collect();
            if !ids.is_empty() {
                out.push_str(&fill(&format!("{} {word}: {}", ids.len(), ids.join(", ")), "  ", "    "));
            }
        }
        let _ = writeln!(out, "  sha256 {}\n", pack.digest);
    }
    io.say(&out);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    if faults.is_empty() { Exit::FINE } else { Exit::PACK }
}
