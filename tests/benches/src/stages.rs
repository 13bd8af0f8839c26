//! What `thou check` does, stage by stage in a process of its own, so that the first time is the one that is timed.

use crate::Failed;
use crate::given::given;
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, Given};
use thou::report::{self, Bench, NamedPack, Paint};
use thou::sheet::Sheet;
use thou::verdict;
use thou_contract::System;

/// Times every stage once, then (in the same process) once more as often as asked; µs.
pub(crate) fn run(path: &Path, again: usize) -> Result<Vec<(&'static str, Vec<f64>)>, Failed> {
    let mut told: Vec<(&'static str, Vec<f64>)> = Vec::new();
    for _ in 0..=again {
        let start = Instant::now();
        let mut last = 0.0;
        let mut note = |name: &'static str| {
            let now = start.elapsed().as_secs_f64() * 1e6;
            let took = now - std::mem::replace(&mut last, now);
            match told.iter_mut().find(|(n, _)| *n == name) {
                Some((_, times)) => times.push(took),
                None => told.push((name, vec![took])),
            }
        };
        let text = std::fs::read_to_string(path)?;
        let folder = path.parent().unwrap_or(Path::new(""));
        note("read the file");
        let value: serde_json::Value = serde_json::from_str(&text)?;
        note("(the same text by serde_json alone)");
        black_box(thou_schema::build_errors(&value).count());
        note("(hold it to the schema, alone)");
        let sheet = Sheet::parse("sheet", &text, folder).map_err(|f| f.render(false))?;
        note("Sheet::parse");
        let packs = packs::builtin();
        note("packs: manifests (builtin)");
        black_box(packs::together(&packs));
        note("packs: side by side (together)");
        let catalogue = Catalogue::standard();
        note("Catalogue::standard");
        let facts = SheetFacts::new(catalogue, &sheet);
        note("facts: table of roots (Facts::new)");
        for pack in &packs {
            let judged = pack.manifest.rules.iter().flat_map(|r| &r.judges);
            for id in pack.manifest.facts.iter().map(|f| &f.id).chain(judged) {
                black_box(facts.get(id));
            }
        }
        note("facts: all that the packs take or judge");
        for pack in &packs {
            pack.prepare().map_err(|f| format!("{f:?}"))?;
        }
        note("packs: engine and compiled code (prepare)");
        let asked: Vec<_> = packs.iter().map(|p| (p, given(&p.manifest, &facts))).collect();
        note("(gather what each pack is given)");
        let places = places(&facts);
        for (pack, given) in &asked {
            let given_of = Given { starts: &given.starts, values: &given.values, places: &places };
            pack.assess(&given.ask, &given_of).map_err(|f| format!("{f:?}"))?;
        }
        note("packs: ask all three");
        let verdict = verdict::judge(&sheet, &facts, &packs, None);
        note("verdict::judge, with gathering and asking again");
        let bench = Bench { sheet: &sheet, facts: &facts, system: System::Inch, paint: Paint::Plain, like: None };
        let named = |p: &packs::LoadedPack| NamedPack {
            id: p.manifest.id.clone(),
            version: p.manifest.version.clone(),
            built_in: true,
            sha256: p.file_digest.clone(),
            key: None,
        };
        let names: Vec<NamedPack> = packs.iter().map(named).collect();
        black_box(report::check::text(&bench, &verdict, &names, false));
        note("render the text (report::check)");
    }
    Ok(told)
}

/// How many places a fact has.
pub(crate) fn places<'a>(facts: &'a SheetFacts<'_>) -> impl Fn(&str) -> Option<u32> + 'a {
    |id| facts.get(id).and_then(|cells| u32::try_from(cells.len()).ok())
}
