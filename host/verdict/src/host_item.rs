//! What the items that the host finds by itself have in common.

use thou_contract::Kind;
use thou_facts::{FactInfo, Num, SheetFacts, ValueKind};

/// Coverage factor of a comparison (JCGM 100:2008, 6.3.3).
pub(super) const K: f64 = 2.0;

/// A fact's name as words.
pub(super) fn title(info: &FactInfo) -> String {
    info.id.replace(['.', '-'], " ")
}

/// Where a value's heaviest reading stands.
pub(super) fn pointer(facts: &SheetFacts<'_>, num: &Num) -> Option<String> {
    let mut best: Option<(bool, f64, &str)> = None;
    for (id, share) in num.roots.iter() {
        let at = facts.root(id).pointer.as_str();
        let read = at.starts_with("/readings/") || at.starts_with("/extra/") && facts.root(id).reading.is_some();
        let candidate = (read, share.cu.abs(), at);
        if !at.is_empty() && best.is_none_or(|b| (candidate.0, candidate.1) > (b.0, b.1)) {
            best = Some(candidate);
        }
    }
    best.map(|b| b.2.to_owned())
}

pub(super) fn kind_of(info: &FactInfo) -> Kind {
    match info.value {
        ValueKind::Quantity(kind) => kind,
        _ => Kind::by_id("ratio").unwrap_or_else(|| unreachable!("ratio is a kind")),
    }
}

/// The page that a fact belongs on, where no rule says.
pub(super) fn operation_of(fact: &str) -> &'static str {
    let starts = |list: &[&str]| list.iter().any(|p| fact.starts_with(p));
    if starts(&["bore", "deck", "block", "main-housing", "main.alignment", "liner", "lifter-bore", "cam-bearing"]) {
        "block"
    } else if starts(&["crank", "main-journal", "rod-journal"]) {
        "crank"
    } else if starts(&["ring"]) {
        "rings"
    } else if starts(&["chamber", "head", "stem", "guide", "seat", "spring", "valve.margin"]) {
        "heads"
    } else if starts(&[
        "piston-to-",
        "valve",
        "retainer",
        "pushrod",
        "rod-to-",
        "counterweight",
        "rocker",
        "compression",
    ]) {
        "mock-up"
    } else if starts(&["piston", "rod-housing", "rod-bush", "rod-bolt", "pin", "rod.", "bobweight"]) {
        "rods-and-pistons"
    } else {
        "assembly"
    }
}
