//! Holds a pack to its cases, natively and without the sandbox: see [`thou_cases`] for what a case is. `thou pack test`
//! asks the built pack the same in the sandbox.

use crate::Pack;
use std::collections::BTreeSet;
use std::path::Path;
use thou_cases::Asked;
pub use thou_cases::{Case, meter_unit};
use thou_contract::answer::CheckedAnswer;
use thou_contract::{Manifest, RuleKind};

/// Everything that is wrong with this pack's cases; empty when all hold. `folder` is the pack's own.
#[must_use]
pub fn faults(pack: &Pack, folder: &Path) -> Vec<String> {
    let manifest = pack.manifest();
    let report = thou_cases::check(&manifest, folder, &mut Natively { pack, manifest: &manifest });
    manifest_faults(pack).into_iter().chain(report.faults).collect()
}

/// Panics with every fault, for a test of one line: `thou_sdk::cases::check(PACK, env!("CARGO_MANIFEST_DIR"))`.
///
/// # Panics
/// When a case does not hold.
#[allow(clippy::panic)]
pub fn check(pack: &Pack, folder: impl AsRef<Path>) {
    let faults = faults(pack, folder.as_ref());
    assert!(faults.is_empty(), "{} faults in the cases of {}\n{}", faults.len(), pack.id, faults.join("\n"));
}

/// Every case of a pack with the pack's answer, for a test of its own.
///
/// # Errors
/// What is wrong with the pack or its cases.
pub fn answers(pack: &Pack, folder: &Path) -> Result<Vec<(Case, CheckedAnswer)>, Vec<String>> {
    let manifest = pack.manifest();
    let mut heard = Heard { natively: Natively { pack, manifest: &manifest }, answers: Vec::new() };
    let report = thou_cases::check(&manifest, folder, &mut heard);
    if report.faults.is_empty() { Ok(heard.answers) } else { Err(report.faults) }
}

/// A pack without a sandbox around it.
struct Natively<'a> {
    pack: &'a Pack,
    manifest: &'a Manifest,
}

impl Asked for Natively<'_> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        let facts = crate::Facts::new(&case.facts.starts, &case.facts.values);
        self.pack.assess(&[case.rule], &facts).plain(self.manifest)
    }
}

/// The same, keeping what was asked and answered.
struct Heard<'a> {
    natively: Natively<'a>,
    answers: Vec<(Case, CheckedAnswer)>,
}

impl Asked for Heard<'_> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        let answer = self.natively.ask(case)?;
        self.answers.push((case.clone(), answer.clone()));
        Ok(answer)
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
