//! A pack's cases, asked in the sandbox: in whatever language it was written, and as its users will run it.

use super::{CheckedAnswer, Cost, Given, LoadedPack, RunLimits};
use std::path::{Path, PathBuf};
use thou_cases::{Asked, Case};
use thou_contract::Kind;
use thou_facts::Catalogue;

/// A fact that a case gives once, or judges, may stand for any place.
const ANY_PLACE: u32 = 32;

/// Asks a pack in the sandbox, and counts what its dearest answer costs.
pub struct Boxed<'a> {
    /// The pack.
    pub pack: &'a LoadedPack,
    /// The most of each that any answer took.
    pub cost: Cost,
}

impl<'a> Boxed<'a> {
    /// Nothing asked yet.
    #[must_use]
    pub fn new(pack: &'a LoadedPack) -> Self {
        Self { pack, cost: Cost::default() }
    }
}

impl Asked for Boxed<'_> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        let places = |fact: &str| Some(places(case, fact));
        let given = Given { starts: &case.facts.starts, values: &case.facts.values, places: &places };
        let (answer, cost) =
            self.pack.assess_counted(&[case.rule], &given, &RunLimits::default()).map_err(|fault| {
                // its user is its author here
                format!("{}; {}", fault.fault, fault.fault.author())
            })?;
        self.cost = Cost {
            fuel: self.cost.fuel.max(cost.fuel),
            memory: self.cost.memory.max(cost.memory),
            items: self.cost.items.max(cost.items),
        };
        Ok(answer)
    }

    fn kind(&self, fact: &str) -> Option<Kind> {
        // what a pack asks for itself is a fact of its own
        let own = || self.pack.manifest.inputs.iter().find(|i| i.id == fact).and_then(|i| Kind::by_id(&i.kind));
        Catalogue::standard().info(fact).map_or_else(own, |info| info.value.kind())
    }
}

/// As many places as the case gives of a fact.
fn places(case: &Case, fact: &str) -> u32 {
    match case.places(fact).and_then(|count| u32::try_from(count).ok()) {
        None | Some(0 | 1) => ANY_PLACE,
        Some(many) => many,
    }
}

/// The folder where a pack's cases are, in `src` or `cases`: its own, or the one that its file lies in.
#[must_use]
pub fn folder(pack: &Path) -> PathBuf {
    if pack.is_dir() {
        return pack.to_owned();
    }
    match pack.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    }
}
