//! From the constants of a pack to its manifest.

use crate::rule::{Arg, CROSSED, Duty, Pack, Remedy, Rule, Text};
use thou_contract as contract;
use thou_contract::wear;

fn words(list: &[&str]) -> Vec<String> {
    list.iter().map(|w| (*w).to_owned()).collect()
}

impl Pack {
    /// The manifest.
    #[must_use]
    pub fn manifest(&self) -> contract::Manifest {
        contract::Manifest {
            contract: contract::CONTRACT.to_owned(),
            id: self.id.to_owned(),
            version: self.version.to_owned(),
            title: self.title.to_owned(),
            about: self.about.to_owned(),
            facts: self
                .facts
                .iter()
                .map(|f| contract::FactUse {
                    id: f.id.to_owned(),
                    kind: f.kind.to_owned(),
                    axis: f.axis.to_owned(),
                    choices: words(f.choices),
                })
                .collect(),
            meters: words(self.meters),
            inputs: self
                .inputs
                .iter()
                .map(|i| contract::Input {
                    id: i.id.to_owned(),
                    kind: i.kind.to_owned(),
                    about: i.about.to_owned(),
                    axis: (i.axis != "one").then(|| i.axis.to_owned()),
                    choices: words(i.choices),
                    band: i.band.map(|b| b.map(str::to_owned)),
                    gauge: i.gauge.map(str::to_owned),
                    moved_by: words(i.moved_by),
                    required_for: words(i.required_for),
                })
                .collect(),
            uses: self
                .uses
                .iter()
                .map(|u| contract::Use {
                    id: u.id.to_owned(),
                    title: u.title.to_owned(),
                    about: u.about.to_owned(),
                    like: u.like.to_owned(),
                })
                .collect(),
            defaults: self
                .defaults
                .iter()
                .map(|d| contract::Fallback {
                    fact: d.fact.to_owned(),
                    value: d.value.to_owned(),
                    source: d.source.to_owned(),
                })
                .collect(),
            rules: self.rules.iter().map(|r| rule(r)).collect(),
        }
    }

    /// The manifest as JSON.
    #[must_use]
    pub fn manifest_json(&self) -> String {
        serde_json::to_string(&self.manifest()).unwrap_or_default()
    }
}

fn rule(r: &Rule) -> contract::Rule {
    let ids = |facts: &[crate::Fact]| facts.iter().map(|f| f.id.to_owned()).collect();
    contract::Rule {
        id: r.id.to_owned(),
        kind: r.kind,
        title: r.title.to_owned(),
        operation: r.operation.to_owned(),
        why: r.why.to_owned(),
        basis: r.basis,
        source: r.source.to_owned(),
        hold_basis: r.hold_basis,
        hold_source: r.hold_source.map(str::to_owned),
        judges: words(r.judges),
        needs: ids(r.needs),
        takes: ids(r.takes),
        reasons: reasons(r),
        texts: r.texts.iter().map(text).collect(),
        supersedes: words(r.supersedes),
        service: r.service.map(|s| {
            let (wears, duty) = counts(s.duty);
            contract::ServiceInfo {
                part: s.part.to_owned(),
                action: s.action.to_owned(),
                since: s.since.to_owned(),
                opens: s.opens.to_owned(),
                resets: words(s.resets),
                hours: s.hours,
                loses: s.loses.to_owned(),
                triggers: words(s.triggers),
                caution: s.caution.map(str::to_owned),
                held_in: Some(words(s.held_in)),
                wears,
                duty,
                read_afresh: words(r.log.read_afresh),
                told_by: words(r.log.told_by),
                over_rev: r.log.over_rev.to_vec(),
                done_by: words(r.log.done_by),
                reaches: r.log.reaches.iter().map(reach).collect(),
                shape: r.log.shape,
            }
        }),
        step: r.step.map(|s| contract::StepInfo {
            after: words(s.after),
            until: words(s.until),
            caution: s.caution.map(str::to_owned),
        }),
    }
}

fn reach(r: &super::rule::Reach) -> contract::logged::Reach {
    contract::logged::Reach { by: words(r.by), look: r.look.to_owned() }
}

fn reasons(r: &Rule) -> Vec<String> {
    let crossed = (r.kind == contract::RuleKind::Window).then(|| CROSSED.to_owned());
    words(r.reasons).into_iter().chain(crossed).collect()
}

/// As the manifest writes it: what hurts, or how an outing counts without.
fn counts(duty: Duty) -> (wear::Wears, Option<wear::CountBy>) {
    match duty {
        Duty::Outing => (Vec::new(), Some(wear::CountBy::Outing)),
        Duty::Turns => (Vec::new(), Some(wear::CountBy::Turns)),
        Duty::Worn(wears) => (wears.iter().map(|place| place.to_vec()).collect(), None),
    }
}

fn text(t: &Text) -> contract::RuleText {
    let (wears, duty) = t.duty.map(counts).unwrap_or_default();
    contract::RuleText {
        words: t.words.to_owned(),
        whose: t.whose.map(str::to_owned),
        basis: t.basis,
        hold_basis: t.hold_basis,
        low: t.low.map(remedy),
        high: t.high.map(remedy),
        args: t.args.iter().map(argument).collect(),
        points_at: words(t.points_at),
        wears,
        duty,
    }
}

fn remedy(r: Remedy) -> contract::Remedy {
    contract::Remedy {
        words: r.words.to_owned(),
        solve: r.solve.map(|(fact, may)| contract::Solve { fact: fact.to_owned(), may: may.to_owned() }),
    }
}

fn argument(a: &Arg) -> contract::Argument {
    contract::Argument { name: a.name.to_owned(), kind: a.kind.to_owned(), choices: words(a.choices) }
}
