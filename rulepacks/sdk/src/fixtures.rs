//! Holds a pack to its fixtures, natively and without the sandbox: see [`thou_contract::fixtures`] for what a fixture is.
//! `thou pack test` asks the built pack the same in the sandbox.

use crate::Pack;
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;
use thou_contract::answer::Answer;
pub use thou_contract::fixtures::meter_unit;
use thou_contract::fixtures::{Asked, Fixture, Report};
use thou_contract::{Manifest, RuleKind};

/// Everything that is wrong with this pack's fixtures; empty when all hold.
#[must_use]
pub fn faults(pack: &Pack, folder: &Path) -> Vec<String> {
    let manifest = pack.manifest();
    let Report { faults, .. } =
        thou_contract::fixtures::check(&manifest, folder, &mut Natively { pack, manifest: &manifest });
    manifest_faults(pack).into_iter().chain(faults).collect()
}

/// Panics with every fault, for a test of one line.
///
/// # Panics
/// When a fixture does not hold.
#[allow(clippy::panic)]
pub fn check(pack: &Pack, folder: impl AsRef<Path>) {
    let faults = faults(pack, folder.as_ref());
    assert!(faults.is_empty(), "{} faults in the fixtures of {}\n{}", faults.len(), pack.id, faults.join("\n"));
}

/// The fixture's facts as the contract hands them over: `starts` and `values`.
///
/// # Errors
/// When it names a fact that the pack does not ask for, or a value is not one.
pub fn given(pack: &Pack, fixture: &Value) -> Result<(Vec<u32>, Vec<f64>), String> {
    thou_contract::fixtures::given(&pack.manifest(), fixture).map(|facts| (facts.starts, facts.values))
}

/// A pack without a sandbox around it.
struct Natively<'a> {
    pack: &'a Pack,
    manifest: &'a Manifest,
}

impl Asked for Natively<'_> {
    fn ask(&mut self, fixture: &Fixture) -> Result<Answer, String> {
        let facts = crate::Facts::new(&fixture.facts.starts, &fixture.facts.values);
        self.pack.assess(&[fixture.rule], &facts).plain(self.manifest)
    }
}

fn manifest_faults(pack: &Pack) -> Vec<String> {
    let mut faults = Vec::new();
    let mut ids = BTreeSet::new();
    for rule in pack.rules {
        let mut say = |what: &str| faults.push(format!("{}: {what}", rule.id));
        if !ids.insert(rule.id) {
            say("this rule id is there twice");
        }
        if rule.title.is_empty() || rule.why.is_empty() || rule.source.is_empty() || rule.operation.is_empty() {
            say("title, operation, why and source must say something");
        }
        if rule.texts.is_empty() {
            say("a rule needs at least one text");
        }
        if rule.kind == RuleKind::Window && rule.judges.is_empty() {
            say("a window rule judges a fact");
        }
        if (rule.kind == RuleKind::Service) != rule.service.is_some() {
            say("a service, and only a service, says what is done");
        }
        for fact in rule.needs.iter().chain(rule.takes) {
            if rule.judges.contains(&fact.id) {
                say("what is judged is never given to the rule");
            }
        }
    }
    faults
}
