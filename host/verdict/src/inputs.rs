//! From facts to what a pack is given: numbers in the order of its manifest, holes as NaN.

use super::view::wanted;
use std::collections::{BTreeMap, BTreeSet};
use thou_contract::{FactUse, Kind, Manifest, Rule};
use thou_facts::{Missing, PlaceValue, SheetFacts, ValueKind};
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// What one pack is given, and what the sheet could not give it.
pub(super) struct Filled {
    pub(super) starts: Vec<u32>,
    pub(super) values: Vec<f64>,
    /// For each fact that is absent: the fields that would bring it.
    pub(super) missing: BTreeMap<String, Vec<String>>,
    /// Defaults of the manifest that were filled in.
    pub(super) defaults: Vec<(String, String, String)>,
}

/// The uses that packs declare, each with the use it is like.
pub(super) type Uses = BTreeMap<String, String>;

/// Where only some rules are asked, only what they need or take is worked out: the rest is absent, and nobody asks for it.
pub(super) fn given(
    manifest: &Manifest,
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    uses: &Uses,
    asked: impl Fn(&Rule) -> bool,
) -> Filled {
    let all = manifest.rules.iter().all(&asked);
    let wanted: BTreeSet<&str> = manifest
        .rules
        .iter()
        .filter(|r| asked(r))
        .flat_map(|r| r.needs.iter().chain(&r.takes))
        .map(String::as_str)
        .collect();
    let mut given = Filled { starts: vec![0], values: Vec::new(), missing: BTreeMap::new(), defaults: Vec::new() };
    for fact in &manifest.facts {
        if !all && !wanted.contains(fact.id.as_str()) {
            given.starts.push(u32::try_from(given.values.len()).unwrap_or(u32::MAX));
            continue;
        }
        match values(fact, facts, uses) {
            Ok(values) => given.values.extend(values),
            Err(missing) => match default(manifest, fact) {
                Some((value, text, source)) => {
                    // one for every place
                    let places = facts.info(&fact.id).map_or(1, |info| sheet.places.count(info.axis));
                    given.values.extend(std::iter::repeat_n(value, places));
                    given.defaults.push((fact.id.clone(), text, source));
                }
                None => {
                    given.missing.insert(fact.id.clone(), missing);
                }
            },
        }
        given.starts.push(u32::try_from(given.values.len()).unwrap_or(u32::MAX));
    }
    given
}

/// One value a place, or the fields that would bring the fact.
fn values(fact: &FactUse, facts: &SheetFacts<'_>, uses: &Uses) -> Result<Vec<f64>, Vec<String>> {
    let Some(info) = facts.info(&fact.id) else {
        // of a pack that is not here the field would bring it, all the same
        let wanted =
            if fact.id.starts_with("extra.") { fact.id.clone() } else { format!("{} (no such fact)", fact.id) };
        return Err(vec![wanted]);
    };
    if info.axis == Axis::One {
        match info.value {
            ValueKind::Choice(_) => {
                let word = facts.choice(&fact.id).ok_or_else(|| missing(facts.cells(&fact.id)))?;
                // what anybody may write is told by its letters, however they are set
                let open = matches!(info.value, ValueKind::Choice([]));
                return Ok(vec![if open { text_index(fact, word) } else { choice_index(fact, word, uses) }]);
            }
            ValueKind::Flag => {
                let yes = facts.flag(&fact.id).ok_or_else(|| missing(facts.cells(&fact.id)))?;
                return Ok(vec![f64::from(u8::from(yes))]);
            }
            ValueKind::Quantity(_) => {}
        }
    }
    let cells = facts.cells(&fact.id);
    if cells.iter().any(Result::is_ok) || cells.iter().any(is_hole) {
        return Ok(cells.iter().map(|c| c.as_ref().map_or(f64::NAN, |n| n.value)).collect());
    }
    Err(missing(cells))
}

/// A place that the sheet has and that nobody has read yet.
fn is_hole(cell: &PlaceValue) -> bool {
    cell.as_ref().is_err_and(|why| why.iter().any(|w| matches!(w, Missing::NotRead(_))))
}

/// The fields that would bring these cells, each once.
pub(super) fn missing(cells: &[PlaceValue]) -> Vec<String> {
    let mut all: Vec<String> = cells.iter().filter_map(|c| c.as_ref().err()).flatten().map(wanted).collect();
    all.sort();
    all.dedup();
    all
}

/// The index of a word in the pack's own list; a declared use stands for the one it is like.
fn choice_index(fact: &FactUse, word: &str, uses: &Uses) -> f64 {
    let index = |w: &str| fact.choices.iter().position(|c| c == w).map(|i| i as f64);
    let mut at = word;
    for _ in 0..=uses.len() {
        if let Some(found) = index(at) {
            return found;
        }
        match uses.get(at) {
            Some(like) if fact.id == "use" => at = like,
            _ => break,
        }
    }
    -1.0
}

/// The same of what anybody may write, as a part's number: capitals and blanks do not count.
fn text_index(fact: &FactUse, text: &str) -> f64 {
    let plain = |word: &str| word.to_lowercase().split_whitespace().collect::<String>();
    fact.choices.iter().position(|c| plain(c) == plain(text)).map_or(-1.0, |i| i as f64)
}

fn default(manifest: &Manifest, fact: &FactUse) -> Option<(f64, String, String)> {
    let default = manifest.defaults.iter().find(|d| d.fact == fact.id)?;
    let value = match fact.kind.as_str() {
        "choice" => fact.choices.iter().position(|c| *c == default.value)? as f64,
        "flag" => f64::from(u8::from(default.value == "true")),
        kind => Kind::by_id(kind)?.parse(&default.value).ok()?,
    };
    Some((value, default.value.clone(), default.source.clone()))
}
