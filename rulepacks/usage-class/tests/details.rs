//! What the runner of the fixtures leaves alone: the sizes to aim at, the arguments of a finding, and the templates.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use serde_json::Value;
use std::path::{Path, PathBuf};
use thou_contract::Kind;
use thou_sdk::{Facts, Raw, Rule, Text};
use usage_class::PACK;

fn number(value: &Value, kind: &str) -> f64 {
    match value {
        Value::Number(n) => n.as_f64().unwrap(),
        Value::String(text) => Kind::by_id(kind).unwrap().parse(text).unwrap(),
        other => panic!("{other} is not a number"),
    }
}

/// A quantity of whatever kind its unit belongs to.
fn quantity(value: &Value) -> f64 {
    let text = match value {
        Value::String(text) => text,
        other => return number(other, "ratio"),
    };
    thou_contract::KINDS.iter().find_map(|k| Kind::by_id(k.id).unwrap().parse(text).ok()).unwrap()
}

fn given(fixture: &Value) -> (Vec<u32>, Vec<f64>) {
    let (mut starts, mut values) = (vec![0], Vec::new());
    for fact in PACK.facts {
        if let Some(value) = fixture["facts"].get(fact.id) {
            values.push(match (fact.kind, value) {
                ("choice", word) => fact.choices.iter().position(|c| word == c).map_or(-1.0, |i| i as f64),
                ("flag", yes) => f64::from(u8::from(yes.as_bool().unwrap())),
                (kind, value) => number(value, kind),
            });
        }
        starts.push(values.len() as u32);
    }
    (starts, values)
}

fn answer(index: u32, fixture: &Value) -> Raw {
    let (starts, values) = given(fixture);
    PACK.assess(&[index], &Facts::new(&starts, &values))
}

/// Every fixture with its rule.
fn fixtures() -> Vec<(u32, &'static Rule, PathBuf, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    let mut all = Vec::new();
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for entry in std::fs::read_dir(folder.join(rule.id)).unwrap() {
            let path = entry.unwrap().path();
            let fixture = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
            all.push((index, *rule, path, fixture));
        }
    }
    all
}

#[test]
fn windows_aim_where_their_fixtures_say() {
    let mut seen = 0;
    for (index, _, path, fixture) in fixtures() {
        let windows = answer(index, &fixture).windows;
        let wanted = fixture.get("aims").and_then(Value::as_array).cloned();
        let wanted = wanted.unwrap_or_else(|| vec![Value::Null; windows.len()]);
        assert_eq!(wanted.len(), windows.len(), "{}", path.display());
        for (want, window) in wanted.iter().zip(&windows) {
            match (want, window.what.aim) {
                (Value::Null, None) => {}
                (want, Some(aim)) if !want.is_null() => {
                    let want = quantity(want);
                    assert!((want - aim).abs() <= 1e-9 * want.abs(), "{}: aims at {aim}", path.display());
                    seen += 1;
                }
                (want, aim) => panic!("{}: {want} against {aim:?}", path.display()),
            }
            let order: Vec<f64> = window.what.limits().into_iter().flatten().collect();
            assert!(order.is_sorted(), "{}: {order:?}", path.display());
        }
    }
    assert!(seen > 0);
}

#[test]
fn findings_carry_the_arguments_that_their_texts_announce() {
    let mut seen = 0;
    for (index, rule, path, fixture) in fixtures() {
        let answer = answer(index, &fixture);
        for finding in &answer.findings {
            let args = rule.texts[finding.what.text as usize].args;
            let numbers = &answer.numbers[finding.args as usize..];
            assert!(numbers.len() >= args.len(), "{}", path.display());
            let words: Vec<Value> = args
                .iter()
                .zip(numbers)
                .map(|(arg, n)| if arg.kind == "choice" { arg.choices[*n as usize].into() } else { (*n as u64).into() })
                .collect();
            let wanted = fixture.get("args").cloned().unwrap_or_else(|| Value::Array(Vec::new()));
            assert_eq!(Value::Array(words), wanted, "{}", path.display());
            seen += args.len();
        }
    }
    assert!(seen > 0);
}

#[test]
fn every_text_of_every_rule_is_said_in_some_fixture() {
    let mut said: Vec<(&str, u32)> = Vec::new();
    for (index, rule, _, fixture) in fixtures() {
        let answer = answer(index, &fixture);
        said.extend(answer.windows.iter().map(|w| (rule.id, w.what.text)));
        said.extend(answer.findings.iter().map(|f| (rule.id, f.what.text)));
    }
    for rule in PACK.rules {
        for text in 0..rule.texts.len() as u32 {
            assert!(said.contains(&(rule.id, text)), "{}: text {text} is never said", rule.id);
        }
    }
}

#[test]
fn every_side_that_can_fail_says_what_to_do() {
    for (index, rule, path, fixture) in fixtures() {
        let answer = answer(index, &fixture);
        let text = |i: u32| -> &Text { &rule.texts[i as usize] };
        for w in answer.windows.iter().map(|w| w.what) {
            let low = w.low.or(w.never_below).is_none() || text(w.text).low.is_some();
            let high = w.high.or(w.never_above).is_none() || text(w.text).high.is_some();
            assert!(low && high, "{}", path.display());
        }
        for f in answer.findings.iter().map(|f| f.what) {
            assert!(text(f.text).low.is_some() && !text(f.text).points_at.is_empty(), "{}", path.display());
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

#[test]
fn every_need_changes_some_answer() {
    let all = fixtures();
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for need in rule.needs.iter().chain(rule.takes) {
            let counts = all.iter().filter(|(i, ..)| *i == index).any(|(_, _, _, fixture)| {
                let (starts, values) = given(fixture);
                let with = PACK.assess(&[index], &Facts::new(&starts, &values));
                let mut without = fixture.clone();
                let had = without["facts"].as_object_mut().unwrap().remove(need.id).is_some();
                let (starts, values) = given(&without);
                had && format!("{with:?}") != format!("{:?}", PACK.assess(&[index], &Facts::new(&starts, &values)))
            });
            assert!(counts, "{}: {} changes nothing", rule.id, need.id);
        }
    }
}
