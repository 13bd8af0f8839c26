//! What no schema can say of a manifest: names that must exist, meet or differ.

use super::circle::circle;
use super::faults::ManifestFaults;
use crate::clean::clip;
use std::collections::BTreeSet;
use thou_contract::wear::{CountBy, Stress};
use thou_contract::{Basis, Kind, Manifest, Remedy, Rule, RuleKind, RuleText, ServiceInfo, USES};
use thou_text::names;

/// What the rules of the host itself are called: `host/contradiction` and so on.
const HOST: &str = "host";

/// Everything in which this manifest contradicts itself.
pub(super) fn faults(m: &Manifest) -> ManifestFaults {
    let mut faults = ManifestFaults::default();
    if m.id == HOST {
        faults.add(|| format!("the pack is called {HOST}, which is what thou calls its own rules"));
    }
    if let Some(what) = names::title_fault(&m.title) {
        faults.add(|| format!("its title {what}"));
    }
    of_facts(m, &mut faults);
    of_extras(m, &mut faults);
    let facts: BTreeSet<&str> = m.facts.iter().map(|f| f.id.as_str()).collect();
    let rules: BTreeSet<&str> = m.rules.iter().map(|r| r.id.as_str()).collect();
    twice(m.rules.iter().map(|r| r.id.as_str()), "rule", &mut faults);
    for rule in &m.rules {
        let mut say = |what: String| faults.add(|| format!("rule {}: {what}", rule.id));
        of_rule(m, rule, &facts, &rules, &mut say);
        for text in &rule.texts {
            let own = [thou_judge::basis(rule, Some(text)), thou_judge::hold_basis(rule, Some(text))].map(Basis::word);
            if let Some(what) = text.whose.as_deref().and_then(|whose| names::whose_fault(whose, &own)) {
                say(format!("`whose` {what}"));
            }
        }
        for (at, text) in rule.texts.iter().enumerate() {
            of_text(rule, text, &mut |what| say(format!("text {at}: {what}")));
        }
    }
    let edges = |list: fn(&Rule) -> &[String]| {
        m.rules.iter().map(|r| (full(m, &r.id), list(r).iter().map(|o| full(m, o)).collect())).collect()
    };
    for (what, edges) in [
        ("replace each other", edges(|r| &r.supersedes)),
        ("wait for each other", edges(|r| r.step.as_ref().map_or(&[], |s| &s.after))),
    ] {
        if let Some(circle) = circle(&edges) {
            faults.add(|| format!("these rules {what} in a circle: {}", circle.join(", ")));
        }
    }
    faults
}

fn of_facts(m: &Manifest, faults: &mut ManifestFaults) {
    twice(m.facts.iter().map(|f| f.id.as_str()), "fact", faults);
    for fact in &m.facts {
        kind(&fact.kind, &["choice", "flag"], fact.choices.len(), &mut |what| {
            faults.add(|| format!("fact {}: {what}", fact.id));
        });
    }
}

fn of_extras(m: &Manifest, faults: &mut ManifestFaults) {
    for input in &m.inputs {
        if !input.id.starts_with(&format!("extra.{}.", m.id)) {
            faults.add(|| format!("input {}: a field of this pack is called extra.{}.<field>", input.id, m.id));
        }
        for what in thou_fields::input_faults(m, input) {
            faults.add(|| format!("input {}: {what}", input.id));
        }
    }
    twice(m.inputs.iter().map(|i| i.id.as_str()), "input", faults);
    for fact in m.facts.iter().filter(|f| f.id.starts_with(&format!("extra.{}.", m.id))) {
        if !m.inputs.iter().any(|i| i.id == fact.id) {
            faults
                .add(|| format!("fact {}: it is not among the pack's `inputs`, so that no sheet can have it", fact.id));
        }
    }
    twice(m.uses.iter().map(|u| u.id.as_str()), "use", faults);
    for usage in &m.uses {
        if USES.contains(&usage.id.as_str()) {
            faults.add(|| format!("use {}: every thou has it already", usage.id));
        }
        if !USES.contains(&usage.like.as_str()) {
            faults.add(|| {
                format!("use {}: it is like {}, and that is none of {}", usage.id, usage.like, USES.join(", "))
            });
        }
    }
    for default in &m.defaults {
        let fact = m.facts.iter().find(|f| f.id == default.fact);
        let wrong = match fact.map(|f| (f.kind.as_str(), f)) {
            None => Some("it is not among the facts of this pack".to_owned()),
            Some(("choice", f)) if f.choices.contains(&default.value) => None,
            Some(("choice", f)) => Some(format!("{} is none of {}", default.value, f.choices.join(", "))),
            Some(("flag", _)) if ["true", "false"].contains(&default.value.as_str()) => None,
            Some(("flag", _)) => Some(format!("{} is neither true nor false", default.value)),
            Some((kind, _)) => Kind::by_id(kind).and_then(|k| k.parse(&default.value).err()).map(|e| e.to_string()),
        };
        if let Some(what) = wrong {
            faults.add(|| format!("default of {}: {what}", default.fact));
        }
    }
}

fn of_rule(m: &Manifest, rule: &Rule, facts: &BTreeSet<&str>, rules: &BTreeSet<&str>, say: &mut impl FnMut(String)) {
    for fact in rule.needs.iter().chain(&rule.takes) {
        if rule.judges.contains(fact) {
            say(format!("it judges {fact} and is given it too: a window must not move with the reading"));
        } else if !facts.contains(fact.as_str()) {
            say(format!("it needs or takes {fact}, which is not among the pack's facts"));
        }
    }
    if rule.kind == RuleKind::Window && rule.judges.is_empty() {
        say("a window rule judges at least one fact".to_owned());
    }
    if (rule.kind == RuleKind::Service) != rule.service.is_some() {
        say("a service rule, and no other, has a `service`".to_owned());
    }
    if (rule.kind == RuleKind::Step) != rule.step.is_some() {
        say("a step rule, and no other, has a `step`".to_owned());
    }
    if let Some(service) = &rule.service {
        wear(&service.wears, service.duty, say);
    }
    if rule.kind == RuleKind::Service && m.meters.is_empty() {
        say("its lives count on a meter, and the pack has no `meters`".to_owned());
    }
    let mine = full(m, &rule.id);
    for other in &rule.supersedes {
        if full(m, other) == mine {
            say("it supersedes itself".to_owned());
        } else if !other.contains('/') {
            say(format!("it supersedes {other}: write it as pack/rule"));
        }
    }
    let named = [
        ("resets", rule.service.as_ref().map(|s| &s.resets)),
        ("comes after", rule.step.as_ref().map(|s| &s.after)),
        ("waits for", rule.step.as_ref().map(|s| &s.until)),
        ("supersedes", Some(&rule.supersedes)),
    ];
    for (what, list) in named {
        for other in list.into_iter().flatten() {
            let own = match other.split_once('/') {
                Some((pack, rest)) => (pack == m.id).then_some(rest),
                None => Some(other.as_str()),
            };
            if let Some(own) = own.filter(|own| !rules.contains(own)) {
                say(format!("it {what} {other}, and this pack has no rule {own}"));
            }
        }
    }
}

/// What hurts a part has a slope that damage can have, and an outing counts in one way.
fn wear(wears: &[Vec<Stress>], duty: Option<CountBy>, say: &mut impl FnMut(String)) {
    wears.iter().flatten().filter_map(Stress::fault).for_each(&mut *say);
    if duty.is_some() && !wears.is_empty() {
        say("it has `wears` and a `duty`: say what hurts the part, or how an outing counts without, and not both"
            .to_owned());
    }
}

fn of_text(rule: &Rule, text: &RuleText, say: &mut impl FnMut(String)) {
    wear(&text.wears, text.duty, say);
    if rule.service.is_none() && (text.duty.is_some() || !text.wears.is_empty()) {
        say("`wears` and `duty` belong to the texts of a service".to_owned());
    }
    for arg in &text.args {
        kind(&arg.kind, &["choice", "flag", "place"], arg.choices.len(), &mut |what| {
            say(format!("argument {}: {what}", arg.name));
        });
    }
    template(&text.words, rule, text, false, say);
    for remedy in [&text.low, &text.high].into_iter().flatten() {
        let Remedy { words, solve } = remedy;
        template(words, rule, text, solve.is_some(), say);
    }
}

/// Of words that are wrong, so many characters are shown.
const SHOWN: usize = 80;

/// Every `{...}` of a template is something that the host fills in.
fn template(words: &str, rule: &Rule, text: &RuleText, solves: bool, say: &mut impl FnMut(String)) {
    let mut rest = words;
    while let Some((_, after)) = rest.split_once('{') {
        let Some((inside, next)) = after.split_once('}') else {
            say(format!("a {{ without its }} in \"{}\"", clip(words, SHOWN)));
            return;
        };
        rest = next;
        let known = match inside.split_once(':') {
            Some(("arg", name)) => text.args.iter().any(|a| a.name == name),
            Some(("fact", id)) => !id.is_empty(),
            Some(_) => false,
            None if ["low", "aim", "high", "miss"].contains(&inside) => !rule.judges.is_empty(),
            None if inside == "solve" => solves,
            None => inside == "place",
        };
        if !known {
            say(format!("nothing fills in {{{}}} in \"{}\"", clip(inside, SHOWN), clip(words, SHOWN)));
        }
    }
}

fn kind(kind: &str, besides: &[&str], choices: usize, say: &mut impl FnMut(String)) {
    if Kind::by_id(kind).is_none() && !besides.contains(&kind) {
        say(format!("there is no kind of quantity called {kind}"));
    }
    if (kind == "choice") != (choices > 0) {
        say("a choice, and nothing else, lists its `choices`".to_owned());
    }
}

fn twice<'a>(ids: impl Iterator<Item = &'a str>, what: &str, faults: &mut ManifestFaults) {
    let mut seen = BTreeSet::new();
    for id in ids.filter(|id| !seen.insert(*id)) {
        faults.add(|| format!("{what} {id} is there twice"));
    }
}

fn full(m: &Manifest, rule: &str) -> String {
    if rule.contains('/') { rule.to_owned() } else { format!("{}/{rule}", m.id) }
}

/// What the services of a pack leave unsaid, which costs nothing but their count: what holds a part, and how an outing counts.
#[must_use]
pub fn unsaid(m: &Manifest) -> Vec<String> {
    let weighed = m.meters.iter().any(|meter| matches!(meter.as_str(), "passes" | "miles"));
    let mut out = Vec::new();
    for rule in &m.rules {
        let Some(ServiceInfo { part, held_in, wears, duty, .. }) = &rule.service else { continue };
        if held_in.is_none() {
            out.push(format!(
                "rule {}: nothing says what holds the {part}, so what a used part ran before this build is not counted \
                 in. Name its sections of the sheet, such as \"held-in\": [\"valvetrain\"], or write \"held-in\": [] for none",
                rule.id
            ));
        }
        if weighed && wears.is_empty() && duty.is_none() {
            out.push(format!(
                "rule {}: nothing says what hurts the {part}, so an outing counts as one, however hard it was. Say what it \
                 `wears` by, or write \"duty\": \"outing\" if that is meant",
                rule.id
            ));
        }
    }
    out
}
