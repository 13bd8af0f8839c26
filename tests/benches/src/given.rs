//! What a pack is given of a sheet, as the host gives it: one number a place, in the order of the pack's manifest.

use thou::facts::{SheetFacts, ValueKind};
use thou_contract::Manifest;

/// Starts, values, and the rules whose needs are there.
pub(crate) struct Given {
    pub(crate) starts: Vec<u32>,
    pub(crate) values: Vec<f64>,
    pub(crate) ask: Vec<u32>,
}

pub(crate) fn given(manifest: &Manifest, facts: &SheetFacts<'_>) -> Given {
    let mut given = Given { starts: vec![0], values: Vec::new(), ask: Vec::new() };
    let mut absent = Vec::new();
    for fact in &manifest.facts {
        let from = given.values.len();
        if let Some(info) = facts.catalogue().info(&fact.id) {
            if let (ValueKind::Choice(_), Some(word)) = (info.value, facts.choice(&fact.id)) {
                given.values.push(fact.choices.iter().position(|c| c == word).map_or(-1.0, |i| i as f64));
            } else {
                let cells = facts.get(&fact.id).unwrap_or_default();
                if cells.iter().any(Result::is_ok) {
                    given.values.extend(cells.iter().map(|c| c.as_ref().map_or(f64::NAN, |n| n.value)));
                }
            }
        }
        if given.values.len() == from {
            absent.push(fact.id.as_str());
        }
        given.starts.push(u32::try_from(given.values.len()).unwrap_or(u32::MAX));
    }
    let askable = |needs: &[String]| needs.iter().all(|n| !absent.contains(&n.as_str()));
    given.ask = (0_u32..).zip(&manifest.rules).filter(|(_, r)| askable(&r.needs)).map(|(i, _)| i).collect();
    given
}
