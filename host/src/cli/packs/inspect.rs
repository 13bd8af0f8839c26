//! What a pack declares: its manifest, what it asks for, whose its limits are. It is not run, but for its cost.

mod cost;
mod json;
mod lack;

use crate::cli::io::{Exit, Io};
use crate::cli::load;
use crate::cli::options::Format;
use crate::cli::paper::{fill, folded, whose};
use crate::packs::{self, LoadedPack};
use cost::{CostRow, cost_rows};
use lack::lack;
use std::fmt::Write as _;
use std::path::PathBuf;
use thou_contract::{Manifest, Rule, RuleKind};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Inspect {
    /// The pack: a .wasm file or a table
    pack: PathBuf,
    /// Run it once over this sheet, to say how near it comes to the limits of the sandbox
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

pub(super) fn inspect(args: &Inspect, io: &mut Io<'_>) -> Exit {
    let pack = match packs::load_file(&args.pack) {
        Ok(pack) => pack,
        Err(fault) => {
            io.complain(&folded(&fault.to_string()));
            return Exit::PACK;
        }
    };
    let mut sheet = match args.sheet.as_deref().map(|sheet| load::sheet(sheet, io)).transpose() {
        Ok(sheet) => sheet,
        Err(exit) => return exit,
    };
    if let Some(sheet) = &mut sheet {
        sheet.looked_at = io.today;
        if let Err(exit) = load::pack_fields(sheet, std::slice::from_ref(&pack), io) {
            return exit;
        }
    }
    let costs = match cost_rows(&pack, &args.pack, sheet.as_ref()) {
        Ok(costs) => costs,
        Err(fault) => {
            io.complain(&folded(&fault.to_string()));
            return Exit::PACK;
        }
    };
    match args.format {
        Format::Text => io.say(&text(&pack, &costs)),
        Format::Json => {
            let text = serde_json::to_string_pretty(&json::value(&pack, &costs)).unwrap_or_default();
            io.say(&format!("{text}\n"));
        }
    }
    Exit::FINE
}

fn text(pack: &LoadedPack, costs: &[CostRow]) -> String {
    let m = &pack.manifest;
    let mut out = format!("{} {}   {}   ({})\n", m.id, m.version, m.title, pack.origin);
    out.push_str(&fill(&m.about, "  ", "  "));
    let languages: Vec<String> = pack.languages().into_iter().collect();
    let made = if languages.is_empty() { "its tools do not say".to_owned() } else { languages.join(", ") };
    let _ = write!(out, "\ncontract  {}\nmade in   {made}\nsize      {} bytes\n", m.contract, pack.bytes().len());
    let _ = write!(out, "sha256    {}\nimports   nothing\n", pack.digest);
    facts(m, &mut out);
    for (kind, heading) in [
        (RuleKind::Window, "WINDOWS"),
        (RuleKind::Finding, "FINDINGS"),
        (RuleKind::Service, "SERVICES"),
        (RuleKind::Step, "STEPS"),
    ] {
        let rules: Vec<&Rule> = m.rules.iter().filter(|r| r.kind == kind).collect();
        if !rules.is_empty() {
            let _ = writeln!(out, "\n{heading}: {}", rules.len());
        }
        for rule in rules {
            self::rule(m, rule, &mut out);
        }
    }
    extras(m, &mut out);
    self::cost::text(costs, &mut out);
    out
}

fn facts(m: &Manifest, out: &mut String) {
    if m.facts.is_empty() {
        out.push_str("\nIt asks for no facts.\n");
        return;
    }
    const HEADING: &str = "FACTS IT IS GIVEN";
    let width = m.facts.iter().map(|f| f.id.len()).max().unwrap_or(0).clamp(HEADING.len(), 40);
    let _ = writeln!(out, "\n{HEADING:<width$}  {:<22} axis", "kind");
    for fact in &m.facts {
        let _ = writeln!(out, "{:<width$}  {:<22} {}", fact.id, fact.kind, fact.axis);
        if let Some(lack) = lack(m, fact) {
            out.push_str(&fill(&lack, "    ", "    "));
        }
    }
}

fn rule(m: &Manifest, rule: &Rule, out: &mut String) {
    let _ = writeln!(out, "  {}/{}   {}", m.id, rule.id, rule.title);
    let mut words = whose(rule.basis, &rule.source);
    if let Some(basis) = rule.hold_basis.filter(|b| *b != rule.basis) {
        let source = rule.hold_source.as_deref().unwrap_or(&rule.source);
        let _ = write!(words, "; never-limits {}", whose(basis, source));
    }
    out.push_str(&fill(&words, "      ", "      "));
    for (word, list) in
        [("judges", &rule.judges), ("needs", &rule.needs), ("takes", &rule.takes), ("stands in for", &rule.supersedes)]
    {
        if !list.is_empty() {
            out.push_str(&fill(&format!("{word} {}", list.join(", ")), "      ", "        "));
        }
    }
    if let Some(service) = &rule.service {
        let held = match service.held_in.as_deref() {
            None => "does not say what holds its part".to_owned(),
            Some([]) => "nothing on the sheet holds its part".to_owned(),
            Some(sections) => format!("held in {}", sections.join(", ")),
        };
        let counts = thou_contract::wear::words(rule.wears(0).as_deref());
        out.push_str(&fill(&format!("{held}; counts {counts}"), "      ", "        "));
        for words in service.log_words() {
            out.push_str(&fill(&words, "      ", "        "));
        }
    }
}

fn extras(m: &Manifest, out: &mut String) {
    let mut section = |heading: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            let _ = writeln!(out, "\n{heading}");
        }
        for line in lines {
            out.push_str(&fill(&line, "  ", "    "));
        }
    };
    let input = |i: &thou_fields::PackField| {
        let entry = &i.entry;
        let mut what = vec![i.what()];
        if entry.axis != thou_fields::Axis::One {
            what.push(format!("one a {}", entry.axis.id()));
        }
        if !entry.moved_by.is_empty() {
            what.push(format!("stale once {}", entry.moved_by.iter().map(|w| w.work).collect::<Vec<_>>().join(", ")));
        }
        if !i.required_for.is_empty() {
            what.push(format!("wanted for {}", i.required_for.join(", ")));
        }
        format!("{} ({}): {}", i.path(), what.join("; "), entry.field.words)
    };
    section("FIELDS IT ADDS TO THE SHEET", thou_fields::pack_fields(m).into_iter().map(input).collect());
    let usage =
        |u: &thou_contract::Use| format!("{}, judged like {} until a rule says otherwise: {}", u.id, u.like, u.about);
    section("USES IT ADDS", m.uses.iter().map(usage).collect());
    let default = |d: &thou_contract::Fallback| format!("{}: {} ({})", d.fact, d.value, d.source);
    section("TAKEN WHERE THE SHEET DOES NOT SAY", m.defaults.iter().map(default).collect());
}
