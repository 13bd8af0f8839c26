//! A pack's documentation from what it says of itself: as Markdown, or as one page of HTML without any script.

use crate::cli::io::{Exit, Io};
use crate::cli::paper::{folded, whose};
use crate::packs::{self, LoadedPack};
use crate::verdict::RulePack;
use std::path::PathBuf;
use thou_contract::{Basis, Manifest, Rule, RuleKind, RuleText};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Docs {
    /// The pack: a .wasm file or a table
    pack: PathBuf,
    /// What to write
    #[arg(long, value_enum, default_value_t = DocsFormat::Markdown)]
    format: DocsFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum DocsFormat {
    /// Markdown
    Markdown,
    /// One page of HTML
    Html,
}

pub(super) fn docs(args: &Docs, io: &mut Io<'_>) -> Exit {
    match packs::load_file(&args.pack) {
        Ok(pack) => {
            let blocks = of_pack(&pack);
            io.say(&match args.format {
                DocsFormat::Markdown => markdown(&blocks),
                DocsFormat::Html => html(&pack.manifest, &blocks),
            });
            Exit::FINE
        }
        Err(fault) => {
            io.complain(&folded(&fault.to_string()));
            Exit::PACK
        }
    }
}

/// A piece of the page.
enum Block {
    Heading(usize, String),
    Words(String),
    List(Vec<String>),
}

fn of_pack(pack: &LoadedPack) -> Vec<Block> {
    let m = &pack.manifest;
    let mut out = vec![Block::Heading(1, m.title.clone()), Block::Words(m.about.clone())];
    let digest = format!("{} {}, contract {}, sha256 {}", m.id, m.version, m.contract, pack.file_digest);
    out.push(Block::Words(digest));
    let mut listed = |heading: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            out.push(Block::Heading(2, heading.to_owned()));
            out.push(Block::List(lines));
        }
    };
    let default = |id: &str| m.defaults.iter().find(|d| d.fact == id);
    let input = |f: &thou_fields::PackField| {
        let mut line = format!("{} ({}): {}", f.path(), f.what(), f.entry.field.words);
        if f.entry.axis != thou_fields::Axis::One {
            line.push_str(&format!(" One a {}.", f.entry.axis.id()));
        }
        if !f.required_for.is_empty() {
            line.push_str(&format!(" Wanted for {}.", f.required_for.join(", ")));
        }
        if let Some(default) = default(f.path()) {
            line.push_str(&format!(" Where the sheet has none, {} is taken: {}.", default.value, default.source));
        }
        line
    };
    listed("Fields that it asks for", thou_fields::pack_fields(m).into_iter().map(input).collect());
    let other = m.defaults.iter().filter(|d| !m.inputs.iter().any(|i| i.id == d.fact));
    listed("Taken where the sheet has none", other.map(|d| format!("{}: {}, {}", d.fact, d.value, d.source)).collect());
    let usage =
        |u: &thou_contract::Use| format!("{}, judged like {} until a rule says otherwise: {}", u.id, u.like, u.about);
    listed("Uses that it adds", m.uses.iter().map(usage).collect());
    for (kind, heading) in [
        (RuleKind::Window, "Windows"),
        (RuleKind::Finding, "Findings"),
        (RuleKind::Service, "Services"),
        (RuleKind::Step, "Steps"),
    ] {
        let rules: Vec<&Rule> = m.rules.iter().filter(|r| r.kind == kind).collect();
        if !rules.is_empty() {
            out.push(Block::Heading(2, heading.to_owned()));
        }
        rules.into_iter().for_each(|rule| of_rule(pack, rule, &mut out));
    }
    out
}

fn of_rule(pack: &LoadedPack, rule: &Rule, out: &mut Vec<Block>) {
    let m = &pack.manifest;
    out.push(Block::Heading(3, format!("{} ({}/{})", rule.title, m.id, rule.id)));
    out.push(Block::Words(rule.why.clone()));
    let rests = |basis: Basis, source: &str| {
        let vouched = matches!(basis, Basis::Physics | Basis::Standard | Basis::Published) && !pack.built_in();
        let words = whose(basis, source);
        if vouched { format!("{words}, says {}", m.id) } else { words }
    };
    let mut lines = vec![format!("Whose numbers: {}", rests(rule.basis, &rule.source))];
    if let Some(basis) = rule.hold_basis.filter(|b| *b != rule.basis) {
        lines.push(format!("Never-limits: {}", rests(basis, rule.hold_source.as_deref().unwrap_or(&rule.source))));
    }
    for (what, list) in [
        ("Judges", &rule.judges),
        ("Not asked without", &rule.needs),
        ("Takes, where it is there,", &rule.takes),
        ("Stands in for", &rule.supersedes),
    ] {
        if !list.is_empty() {
            lines.push(format!("{what} {}", list.join(", ")));
        }
    }
    if let Some(service) = &rule.service {
        lines.push(format!(
            "{} the {}, {} hours of work once it is open: {}",
            service.action, service.part, service.hours, service.opens
        ));
        lines.extend(service.log_words());
    }
    let step = rule.step.as_ref();
    lines.extend(step.filter(|s| !s.after.is_empty()).map(|s| format!("After {}", s.after.join(", "))));
    lines.extend(step.filter(|s| !s.until.is_empty()).map(|s| format!("Not until {} is a go", s.until.join(", "))));
    lines.extend(step.and_then(|s| s.caution.as_ref()).map(|c| format!("Caution: {c}")));
    lines.extend(rule.texts.iter().map(said));
    // what could silence it, too
    lines.extend(rule.reasons.iter().map(|r| format!("May say nothing: {r}")));
    out.push(Block::List(lines));
}

/// A text of a rule with what to do.
fn said(text: &RuleText) -> String {
    let whose = text.whose.as_ref().map(|w| format!(" ({w})")).unwrap_or_default();
    let mut line = format!("Says: {}{whose}", text.words);
    for (side, remedy) in [("low", &text.low), ("high", &text.high)] {
        if let Some(remedy) = remedy {
            line.push_str(&format!("; {side}: {}", remedy.words));
        }
    }
    line
}

fn markdown(blocks: &[Block]) -> String {
    let mut out = String::new();
    for block in blocks {
        match block {
            Block::Heading(rank, text) => out.push_str(&format!("{} {}\n\n", "#".repeat(*rank), plain(text))),
            Block::Words(text) => out.push_str(&format!("{}\n\n", plain(text))),
            Block::List(lines) => {
                lines.iter().for_each(|line| out.push_str(&format!("- {}\n", plain(line))));
                out.push('\n');
            }
        }
    }
    out
}

/// Without what Markdown takes for its own, and on one line.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\r' => out.push(' '),
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|' => out.extend(['\\', c]),
            c => out.push(c),
        }
    }
    out
}

fn html(manifest: &Manifest, blocks: &[Block]) -> String {
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>{}</title>\n\
         <style>body{{font:16px/1.45 sans-serif;max-width:46em;margin:2em auto;padding:0 1em}}</style>\n",
        escaped(&manifest.title)
    );
    for block in blocks {
        match block {
            Block::Heading(rank, text) => out.push_str(&format!("<h{rank}>{}</h{rank}>\n", escaped(text))),
            Block::Words(text) => out.push_str(&format!("<p>{}</p>\n", escaped(text))),
            Block::List(lines) => {
                out.push_str("<ul>\n");
                lines.iter().for_each(|line| out.push_str(&format!("<li>{}</li>\n", escaped(line))));
                out.push_str("</ul>\n");
            }
        }
    }
    out.push_str("</html>\n");
    out
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
