//! Packs side by side.

use super::clean::clip;
use super::manifest::circle::circle;
use super::manifest::faults::LONGEST;
use super::pack::LoadedPack;
use std::collections::{BTreeMap, BTreeSet};
use thou_text::names::shape;
use thou_verdict::RulePack;

/// What is wrong with these packs side by side: a name taken twice, rules that replace each other in a circle, one use
/// that two packs declare. Each message names the packs.
#[must_use]
pub fn together(packs: &[LoadedPack]) -> Vec<String> {
    let mut faults = of_names(packs);
    let (mut names, mut uses) = (BTreeMap::new(), BTreeMap::new());
    let mut replaces: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for pack in packs {
        let m = &pack.manifest;
        if let Some(other) = names.insert(m.id.as_str(), &pack.origin) {
            faults.push(format!("two packs are called {}: {other} and {}; load one of them", m.id, pack.origin));
            continue;
        }
        for usage in &m.uses {
            if let Some(other) = uses.insert(usage.id.as_str(), m.id.as_str()) {
                faults.push(format!("packs {other} and {} both declare the use {}", m.id, usage.id));
            }
        }
        for rule in &m.rules {
            let id = format!("{}/{}", m.id, rule.id);
            replaces.entry(id).or_default().extend(rule.supersedes.iter().cloned());
        }
    }
    if let Some(circle) = circle(&replaces) {
        faults.push(clip(&format!("these rules replace each other in a circle: {}", circle.join(", ")), LONGEST));
    }
    faults
}

/// Packs that call themselves what another is called, in letters that look the same: their numbers would stand under its
/// name.
fn of_names(packs: &[LoadedPack]) -> Vec<String> {
    let mut faults = Vec::new();
    for (at, pack) in packs.iter().enumerate().filter(|(_, p)| !p.built_in()) {
        let own = shape(&pack.manifest.title);
        for other in packs.iter().take(at).filter(|o| o.manifest.id != pack.manifest.id) {
            // a shop has several tables under its one name, each with its own; in other letters it is somebody else
            let same =
                |name: &&String| *name == &pack.manifest.title && !other.built_in() && *name != &other.manifest.id;
            let mut names = [&other.manifest.id, &other.manifest.title].into_iter().filter(|name| !same(name));
            let taken = names.find(|name| shape(name) == own);
            if let Some(name) = taken {
                faults.push(clip(
                    &format!(
                        "pack {} calls itself \"{}\", and that is what pack {} is called ({name}): give it a title of its own",
                        pack.manifest.id, pack.manifest.title, other.manifest.id
                    ),
                    LONGEST,
                ));
                break;
            }
        }
    }
    faults
}
