//! What must hold for every rule of this pack.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::PACK;
use crate::class::NAMES;
use crate::facts::{ADDER, BMEP, CARD_OPEN_LOAD, FACTS, FUEL, OPEN_LOAD, PISTON_SPEED, SPRING_STRESS, TOP_SPEED, USE};
use std::collections::BTreeSet;
use thou_contract::ServiceInfo;
use thou_contract::answer::OutcomeState;
use thou_sdk::units::{feet_a_minute, pounds, rpm};
use thou_sdk::{Fact, Facts, Raw, Rule};

#[test]
fn every_case_holds() {
    thou_sdk::cases::check(PACK, env!("CARGO_MANIFEST_DIR"));
}

/// One value for each fact of the table, or none.
fn ask(rule: u32, values: &[Option<f64>]) -> (OutcomeState, Raw) {
    let (mut starts, mut all) = (vec![0], Vec::new());
    for value in values {
        all.extend(value);
        starts.push(u32::try_from(all.len()).unwrap());
    }
    let raw = PACK.assess(&[rule], &Facts::new(&starts, &all));
    (raw.outcomes[0].state, raw)
}

/// Engines that between them reach every branch: each use, with nothing else or with one more fact at some value.
fn engines() -> Vec<Vec<Option<f64>>> {
    let mut all = Vec::new();
    for used in 0..8 {
        let mut bare = vec![None; FACTS.len()];
        bare[0] = Some(f64::from(used));
        bare[TOP_SPEED.index] = Some(rpm(7_600.0));
        all.push(bare.clone());
        for i in 1..FACTS.len() {
            for value in [0.0, 1.0, 2.0, 3.0, 4.0, 500.0, 2e6] {
                let mut one = bare.clone();
                one[i] = Some(value);
                all.push(one);
            }
        }
    }
    all
}

fn placeholders(words: &str) -> BTreeSet<&str> {
    words.split("{arg:").skip(1).filter_map(|rest| rest.split('}').next()).collect()
}

#[test]
fn the_arguments_of_every_answer_are_those_of_its_text() {
    let mut heard = BTreeSet::new();
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for engine in engines() {
            let (_, answer) = ask(index, &engine);
            let services = answer.services.iter().map(|s| (s.what.text, s.args));
            let steps = answer.steps.iter().map(|s| (s.what.text, s.args));
            let given: Vec<(u32, u32)> = services.chain(steps).collect();
            let ends = given.iter().skip(1).map(|(_, start)| *start as usize).chain([answer.numbers.len()]);
            for ((text, start), end) in given.iter().zip(ends) {
                let args = rule.texts[*text as usize].args;
                let numbers = &answer.numbers[*start as usize..end];
                assert_eq!(numbers.len(), args.len(), "{} text {text}", rule.id);
                for (arg, number) in args.iter().zip(numbers) {
                    let index = (*number >= 0.0 && number.fract() == 0.0).then_some(*number as usize);
                    assert!(
                        arg.kind != "choice" || index.is_some_and(|i| i < arg.choices.len()),
                        "{} {}: {number}",
                        rule.id,
                        arg.name
                    );
                }
                heard.insert((rule.id, *text));
            }
        }
        for text in rule.texts {
            let names: BTreeSet<&str> = text.args.iter().map(|a| a.name).collect();
            assert_eq!(placeholders(text.words), names, "{}", rule.id);
        }
    }
    let unheard: Vec<_> = PACK
        .rules
        .iter()
        .flat_map(|r| (0..u32::try_from(r.texts.len()).unwrap()).map(|t| (r.id, t)))
        .filter(|t| !heard.contains(t))
        .collect();
    // Aluminium and reused are two facts at once; a case has both.
    assert_eq!(unheard, [("aluminium-rods", 1)]);
}

#[test]
fn the_first_reason_of_every_service_is_that_it_has_no_interval() {
    for rule in PACK.rules.iter().filter(|r| r.service.is_some()) {
        assert_eq!(rule.reasons.first(), Some(&crate::lives::NO_INTERVAL), "{}", rule.id);
    }
}

/// A rule that reads what it does not name would be answered from a cache that does not know it.
#[test]
fn a_rule_reads_nothing_that_it_does_not_name() {
    for (index, rule) in (0u32..).zip(PACK.rules) {
        let named = |i: usize| rule.needs.iter().chain(rule.takes).any(|f| f.index == i);
        for engine in engines() {
            let mut less = engine.clone();
            less.iter_mut().enumerate().filter(|(i, _)| !named(*i)).for_each(|(_, v)| *v = None);
            assert_eq!(format!("{:?}", ask(index, &engine)), format!("{:?}", ask(index, &less)), "{}", rule.id);
        }
    }
}

#[test]
fn every_life_is_a_range_of_whole_numbers() {
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for engine in engines() {
            for s in ask(index, &engine).1.services.iter().map(|s| s.what) {
                let unit = thou_sdk::cases::meter_unit(PACK.meters[s.meter as usize]);
                for life in [s.low, s.nominal, s.high] {
                    assert!(life / unit >= 1.0 && (life / unit).fract() < 1e-6, "{}: {life}", rule.id);
                }
                assert!(s.low <= s.nominal && s.nominal <= s.high, "{}: {s:?}", rule.id);
            }
        }
    }
}

/// Nobody should read one number where practice has a range.
#[test]
fn on_the_reference_engine_low_is_under_high_everywhere() {
    for (index, rule) in (0u32..).zip(PACK.rules) {
        for engine in engines().iter().filter(|e| e.iter().flatten().count() == 2) {
            for s in ask(index, engine).1.services.iter().map(|s| s.what) {
                assert!(s.low < s.high, "{}: {s:?}", rule.id);
            }
        }
    }
}

#[test]
fn services_name_each_other_and_trade_words_only() {
    let ids: BTreeSet<String> = PACK.rules.iter().map(|r| format!("{}/{}", PACK.id, r.id)).collect();
    for rule in PACK.rules {
        let Some(service) = rule.service else { continue };
        let of = |word: &str, list: &[&str]| assert!(list.contains(&word), "{}: {word}", rule.id);
        of(service.action, &ServiceInfo::ACTIONS);
        of(service.since, &ServiceInfo::SINCE);
        of(service.opens, &ServiceInfo::OPENS);
        of(service.loses, &ServiceInfo::LOSES);
        assert!(service.hours > 0.0 && !service.triggers.is_empty(), "{}", rule.id);
        for reset in service.resets {
            assert!(ids.contains(*reset) && !reset.ends_with(&format!("/{}", rule.id)), "{}: {reset}", rule.id);
        }
    }
    assert_eq!(NAMES.len(), 9);
}

/// What a text prints of one rule on one engine, in the order of its arguments.
fn printed(rule: &str, engine: &[(Fact, f64)]) -> Vec<f64> {
    let index = u32::try_from(PACK.rules.iter().position(|r| r.id == rule).unwrap()).unwrap();
    let mut values = vec![None; FACTS.len()];
    engine.iter().for_each(|(fact, value)| values[fact.index] = Some(*value));
    let rounded = |x: &f64| (x * 1e3).round() / 1e3;
    ask(index, &values).1.numbers.iter().map(rounded).collect()
}

/// Class, factor, whether that was held, then each ratio and where it comes from.
#[test]
fn a_text_prints_the_ratios_that_the_life_was_scaled_by() {
    let (street, bracket, all_out) = ((USE, 0.0), (USE, 1.0), (USE, 2.0));
    let fast = (PISTON_SPEED, feet_a_minute(4_750.0));
    assert_eq!(printed("rod-bolts", &[bracket, fast]), [1.0, 0.399, 0.0, 1.114, 0.0]);
    assert_eq!(printed("rod-bolts", &[bracket]), [1.0, 1.0, 0.0, 1.0, 1.0]);
    assert_eq!(printed("rod-bolts", &[bracket, (PISTON_SPEED, 40.0)]), [1.0, 0.2, 1.0, 3.062, 0.0]);
    assert_eq!(printed("rod-bolts", &[bracket, (PISTON_SPEED, 15.0)]), [1.0, 1.5, 2.0, 0.431, 0.0]);
    assert_eq!(printed("rod-bolts", &[street, (PISTON_SPEED, 15.0)]), [0.0, 1.0, 3.0, 0.431, 0.0]);
    let blown = [all_out, (ADDER, 3.0), (BMEP, 30e5), (FUEL, 4.0)];
    assert_eq!(printed("exhaust-valves", &blown), [3.0, 1.3, 0.0, 1.0, 2.0, 1.0, 1.0, 1.3, 0.0]);
    assert_eq!(printed("exhaust-valves", &[all_out]), [2.0, 1.0, 0.0, 1.0, 1.0, 1.0, 1.0, 1.0, 6.0]);
    assert_eq!(printed("springs", &[bracket, (SPRING_STRESS, 1.03)]), [1.0, 0.733, 0.0, 1.03, 3.0]);
    let load = (OPEN_LOAD, pounds(720.0));
    assert_eq!(printed("springs", &[bracket, load, (CARD_OPEN_LOAD, pounds(700.0))]), [1.0, 0.893, 0.0, 1.029, 4.0]);
    assert_eq!(printed("springs", &[bracket, load]), [1.0, 0.664, 0.0, 1.108, 5.0]);
    // By count alone: the class and nothing else.
    assert_eq!(printed("lash", &[all_out, load]), [2.0]);
    assert_eq!(printed("spark-plugs", &[street]), [0.0]);
}

#[test]
fn the_ladder_stands_on_the_limiter() {
    let ladder = |r: &Rule| r.id == "over-rev-ladder";
    let index = u32::try_from(PACK.rules.iter().position(|r| ladder(r)).unwrap()).unwrap();
    let mut engine = vec![None; FACTS.len()];
    engine[TOP_SPEED.index] = Some(rpm(7_600.0));
    let (outcome, answer) = ask(index, &engine);
    assert_eq!(outcome, OutcomeState::Answered);
    let speeds: Vec<f64> = answer.numbers.iter().map(|w| (w / rpm(1.0)).round()).collect();
    assert_eq!(speeds, [7_600.0, 7_828.0, 7_828.0, 7_980.0, 7_980.0, 8_208.0, 8_208.0]);
    let texts: Vec<u32> = answer.steps.iter().map(|s| s.what.text).collect();
    assert_eq!(texts, [0, 1, 2, 3, 4, 5]);
}

/// The host holds a log's water against the same figure that the ladder's page has.
#[test]
fn the_ladder_says_how_hot_water_is_too_hot() {
    let fahrenheit = thou_contract::logged::OVERHEATED_WATER * 1.8 - 459.67;
    let ladder = crate::over_rev_ladder::RULE;
    let words = format!("water over {fahrenheit:.0} °F");
    assert!(ladder.texts.iter().any(|t| t.words.contains(&words)), "{words}");
}
