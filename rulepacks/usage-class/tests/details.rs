//! What the runner of the cases leaves alone: the templates, the remedies, and what a rule needs.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::path::Path;
use thou_contract::answer::CheckedAnswer;
use thou_sdk::cases::Case;
use thou_sdk::{Facts, Text};
use usage_class::PACK;

/// Every case with the answer to it.
fn cases() -> Vec<(Case, CheckedAnswer)> {
    thou_sdk::cases::answers(PACK, Path::new(env!("CARGO_MANIFEST_DIR"))).unwrap()
}

#[test]
fn every_side_that_can_fail_says_what_to_do() {
    for (case, answer) in cases() {
        let rule = PACK.rules[case.rule as usize];
        let text = |i: u32| -> &Text { &rule.texts[i as usize] };
        let at = format!("{}: {}", rule.id, case.name);
        for w in answer.windows.iter().map(|w| w.what) {
            let low = w.low.or(w.never_below).is_none() || text(w.text).low.is_some();
            let high = w.high.or(w.never_above).is_none() || text(w.text).high.is_some();
            assert!(low && high, "{at}");
        }
        for f in answer.findings.iter().map(|f| f.what) {
            assert!(text(f.text).low.is_some() && !text(f.text).points_at.is_empty(), "{at}");
        }
    }
}

#[test]
fn templates_name_only_what_is_there() {
    for rule in PACK.rules {
        for text in rule.texts {
            let remedies = [text.low, text.high];
            let solves = |words: &str| remedies.iter().flatten().any(|r| r.words == words && r.solve.is_some());
            let all = remedies.iter().flatten().map(|r| r.words).chain([text.words]);
            for words in all {
                for hole in words.split('{').skip(1).map(|rest| rest.split('}').next().unwrap()) {
                    let known = match hole.split_once(':') {
                        None if hole == "solve" => solves(words),
                        None => ["low", "aim", "high", "miss", "place"].contains(&hole),
                        Some(("arg", name)) => text.args.iter().any(|a| a.name == name),
                        Some((word, _)) => word == "fact",
                    };
                    assert!(known, "{}: {{{hole}}} in \"{words}\"", rule.id);
                }
            }
            for remedy in remedies.iter().flatten().filter(|r| r.solve.is_some()) {
                assert!(remedy.words.contains("{solve}"), "{}: \"{}\" does not say the size", rule.id, remedy.words);
            }
        }
    }
}

/// The case's facts without one of them.
fn without(case: &Case, fact: usize) -> (Vec<u32>, Vec<f64>) {
    let (mut starts, mut values) = (vec![0], Vec::new());
    for at in 0..PACK.facts.len() {
        if at != fact {
            values.extend(case.facts.of(at));
        }
        starts.push(values.len() as u32);
    }
    (starts, values)
}

#[test]
fn every_need_changes_some_answer() {
    let all = cases();
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for need in rule.needs.iter().chain(rule.takes) {
            let counts = all.iter().filter(|(case, _)| case.rule == index).any(|(case, _)| {
                let ask = |starts: &[u32], values: &[f64]| {
                    format!("{:?}", PACK.assess(&[index], &Facts::new(starts, values)))
                };
                let (starts, values) = without(case, need.index);
                values.len() < case.facts.values.len()
                    && ask(&case.facts.starts, &case.facts.values) != ask(&starts, &values)
            });
            assert!(counts, "{}: {} changes nothing", rule.id, need.id);
        }
    }
}
