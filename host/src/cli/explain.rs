//! What the manifests say of a rule: why it is there, whose it is, what to do.

use super::io::{Exit, Io};
use super::load;
use super::options::PackFiles;
use super::paper::{fill, whose};
use crate::facts::{Catalogue, SheetFacts};
use crate::packs::{self, LoadedPack};
use crate::report::{self, Bench, Paint};
use crate::sheet::Sheet;
use crate::verdict::{self, RulePack};
use std::collections::BTreeSet;
use std::path::PathBuf;
use thou_contract::{Basis, Rule, RuleKind, System, wear};
use thou_text::nearest_few;

#[derive(Debug, clap::Args)]
pub(super) struct ExplainArgs {
    /// The rule, as pack/rule or its name alone
    rule: String,
    #[command(flatten)]
    with: PackFiles,
    /// A sheet: its own packs count too, and what another pack's rule replaces is said with its figures
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
}

pub(super) fn explain(args: &ExplainArgs, io: &mut Io<'_>) -> Exit {
    let mut sheet = match args.sheet.as_deref().map(|path| load::sheet(path, io)).transpose() {
        Ok(sheet) => sheet,
        Err(exit) => return exit,
    };
    let (packs, faults) = load::packs(&args.with, args.sheet.as_deref(), io);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    if let Some(sheet) = &mut sheet {
        sheet.looked_at = io.today;
        if let Err(exit) = load::pack_fields(sheet, &packs, io) {
            return exit;
        }
    }
    let all: Vec<(&LoadedPack, &Rule)> =
        packs.iter().flat_map(|p| p.manifest.rules.iter().map(move |r| (p, r))).collect();
    let name = |p: &LoadedPack, r: &Rule| format!("{}/{}", p.manifest.id, r.id);
    let wanted = args.rule.trim();
    let found: Vec<&(&LoadedPack, &Rule)> =
        all.iter().filter(|(p, r)| name(p, r) == wanted || r.id == wanted).collect();
    if found.is_empty() {
        let names: Vec<String> = all.iter().map(|(p, r)| name(p, r)).collect();
        // a rule's name alone will do
        let alone = names.iter().filter_map(|n| n.split('/').nth(1));
        let words: Vec<&str> = nearest_few(wanted, names.iter().map(String::as_str).chain(alone), 3);
        let named = |n: &&String| words.iter().any(|w| w == n || n.split('/').nth(1) == Some(w));
        let near: Vec<&str> = names.iter().filter(named).map(String::as_str).collect();
        let hint = if near.is_empty() {
            "`thou pack list` names them all.".to_owned()
        } else {
            format!("Did you mean {}?", near.join(", or "))
        };
        io.complain(&format!("No rule is called \"{}\". {hint}", packs::clean::clean(wanted)));
        return Exit::INVALID;
    }
    for (pack, rule) in found {
        io.say(&page(pack, rule));
        io.say(&stands_in(&packs, &name(pack, rule), sheet.as_ref(), io.today));
    }
    if faults.is_empty() { Exit::FINE } else { Exit::PACK }
}

/// Who stands in for a rule, or for whom it does: with a sheet what was, what is now and what the other would have said.
fn stands_in(packs: &[LoadedPack], rule: &str, sheet: Option<&Sheet>, today: Option<jiff::civil::Date>) -> String {
    let mut out = String::new();
    for pack in packs {
        for other in pack.manifest.rules.iter().filter(|r| r.supersedes.iter().any(|s| s == rule)) {
            let words = format!(
                "{}/{} of {} stands in for it wherever it answers; a hold that this loosens counts on until the sheet's \
                 `looser` signs for it",
                pack.manifest.id, other.id, pack.manifest.title
            );
            out.push_str(&fill(&words, "Replaced  ", "        "));
        }
    }
    let Some(sheet) = sheet else { return out };
    let facts = SheetFacts::new(Catalogue::of_sheet(sheet), sheet);
    let verdict = verdict::judge(sheet, &facts, packs, today);
    let bench = Bench { sheet, facts: &facts, system: System::Inch, paint: Paint::Plain, like: None };
    for line in report::replaced::of_rule(&bench, &verdict, rule) {
        out.push_str(&fill(&line, "On the sheet  ", "        "));
    }
    out
}

/// What a limit rests on, and its source; what a pack from elsewhere gives out for more than its own word bears its name.
fn rests_on(pack: &LoadedPack, basis: Basis, source: &str) -> String {
    let words = whose(basis, source);
    let vouched = matches!(basis, Basis::Physics | Basis::Standard | Basis::Published);
    if vouched && !pack.built_in() { format!("{words}, says {}", pack.manifest.id) } else { words }
}

/// Everything the manifest says of a rule.
fn page(pack: &LoadedPack, rule: &Rule) -> String {
    let (manifest, origin) = (&pack.manifest, &pack.origin);
    let mut out = fill(&format!("{}/{}   {}", manifest.id, rule.id, rule.title), "", "  ");
    let kind = match rule.kind {
        RuleKind::Window => "gives a window",
        RuleKind::Finding => "looks at the combination",
        RuleKind::Service => "gives a service",
        RuleKind::Step => "gives a step",
    };
    let operation = rule.operation.replace('-', " ");
    let from = format!("{kind}; {operation}; from {} {} ({origin})", manifest.id, manifest.version);
    out.push_str(&fill(&from, "", "  "));
    out.push('\n');
    out.push_str(&fill(&rule.why, "Why     ", "        "));
    out.push_str(&fill(&rests_on(pack, rule.basis, &rule.source), "Whose   ", "        "));
    if rule.hold_basis.is_some() || rule.hold_source.is_some() {
        let basis = rule.hold_basis.unwrap_or(rule.basis);
        let source = rule.hold_source.as_deref().unwrap_or(&rule.source);
        out.push_str(&fill(&format!("never-limits, {}", rests_on(pack, basis, source)), "        ", "        "));
    }
    for (word, facts) in [("Judges", &rule.judges), ("Needs", &rule.needs), ("Takes", &rule.takes)] {
        if !facts.is_empty() {
            out.push_str(&fill(&facts.join(", "), &format!("{word:<8}"), "        "));
        }
    }
    let mut said = BTreeSet::new();
    for text in &rule.texts {
        let whose = text.whose.as_deref().map(|w| format!(" ({w})")).unwrap_or_default();
        out.push_str(&fill(&format!("{}{whose}", readable(&text.words)), "Says    ", "        "));
        for (side, remedy) in [("too low", &text.low), ("too high", &text.high)] {
            if let Some(remedy) = remedy {
                let label = if rule.kind == RuleKind::Window { format!("{side}: ") } else { String::new() };
                let words = format!("{label}{}", readable(&remedy.words));
                if said.insert(words.clone()) {
                    out.push_str(&fill(&words, "        ", "          "));
                }
            }
        }
    }
    for (index, reason) in rule.reasons.iter().enumerate() {
        out.push_str(&fill(reason, if index == 0 { "Silent  " } else { "        " }, "          "));
    }
    if let Some(service) = &rule.service {
        let words = format!(
            "{} the {}; opens {}; {} h; loses {}",
            service.action, service.part, service.opens, service.hours, service.loses
        );
        out.push_str(&fill(&words, "Work    ", "        "));
        let held = match service.held_in.as_deref() {
            None => "the pack does not say in which section of the sheet: no earlier use is counted in".to_owned(),
            Some([]) => "no section of the sheet: it brings no earlier use along".to_owned(),
            Some(sections) => {
                format!("{} on the sheet, whose use before this build is counted in", sections.join(", "))
            }
        };
        out.push_str(&fill(&held, "Held in ", "        "));
        let mut counts = BTreeSet::new();
        for text in 0..rule.texts.len() {
            let words = format!("an outing {}", wear::words(rule.wears(text).as_deref()));
            if counts.insert(words.clone()) {
                out.push_str(&fill(&words, if counts.len() == 1 { "Counts  " } else { "   or   " }, "        "));
            }
        }
        for (index, words) in service.log_words().iter().enumerate() {
            out.push_str(&fill(words, if index == 0 { "Log     " } else { "        " }, "          "));
        }
        if !service.triggers.is_empty() {
            out.push_str(&fill(&service.triggers.join("; "), "Sooner  ", "        "));
        }
        if let Some(caution) = &service.caution {
            out.push_str(&fill(caution, "Caution ", "        "));
        }
    }
    if !rule.supersedes.is_empty() {
        out.push_str(&fill(&rule.supersedes.join(", "), "Instead ", "        "));
    }
    out
}

/// A template as a person reads it: the names of what will stand there.
fn readable(template: &str) -> String {
    let mut out = String::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        let Some((name, tail)) = after.split_once('}') else { break };
        out.push_str(before);
        match name {
            "place" => out.push_str("(place)"),
            "solve" => out.push_str("(size)"),
            other => {
                let name = other.split_once(':').map_or(other, |(_, name)| name);
                out.push_str(&format!("({})", name.replace(['.', '-'], " ")));
            }
        }
        rest = tail;
    }
    out + rest
}
