//! A table's expressions against an interpreter that is not ours: each of thousands of random expressions is translated
//! and run in the sandbox, and evaluated by the `cel` crate (the Common Expression Language, github.com/google/cel-spec)
//! over the same facts. Numbers are compared to the last bit.
//!
//! What differs on purpose is written out for the interpreter: a number is always a double (`7` is `7.0`), a unit is a
//! factor, and a division by zero is an error, here the lookup of a key that is not there.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, clippy::cast_possible_truncation)]

use cel::{Context, Program, Value};
use std::collections::{BTreeMap, HashMap};
use thou::packs::{Given, LoadedPack, OutcomeState};
use thou_table::{KnownFacts, TableFact, translate};

/// Expressions compared; each over several sets of facts.
const RULES: usize = 40;
const TABLES: usize = 60;
const SETS: usize = 4;
const PLACES: usize = 3;

/// xorshift64* (Vigna, An experimental exploration of Marsaglia's xorshift generators, 2016).
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_f491_4f6c_dd1d)
    }
    fn below(&mut self, n: usize) -> usize {
        (self.next() >> 33) as usize % n
    }
    fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}

/// An expression as a table has it, and as the interpreter is given it.
#[derive(Clone)]
struct Both {
    table: String,
    cel: String,
}

fn both(table: impl Into<String>, cel: impl Into<String>) -> Both {
    Both { table: table.into(), cel: cel.into() }
}

const RATIOS: [&str; 3] = ["r.a", "r.b", "r.c"];
const LENGTHS: [&str; 3] = ["l.a", "l.b", "v.a"];
const FLAGS: [&str; 2] = ["f.a", "v.flag"];
const CHOICES: [&str; 2] = ["c.a", "c.b"];
const WORDS: [&str; 3] = ["one", "two", "three"];

/// The interpreter's name for a fact: a key of the map `f`.
fn key(id: &str) -> String {
    format!("f.{}", id.replace('.', "_"))
}

fn fact(id: &str) -> Both {
    both(format!("{{{id}}}"), key(id))
}

fn joined(a: &Both, sign: &str, b: &Both) -> Both {
    both(format!("({} {sign} {})", a.table, b.table), format!("({} {sign} {})", a.cel, b.cel))
}

fn asked(when: &Both, a: &Both, b: &Both) -> Both {
    both(format!("({} ? {} : {})", when.table, a.table, b.table), format!("({} ? {} : {})", when.cel, a.cel, b.cel))
}

fn divided(a: &Both, b: &Both) -> Both {
    both(format!("({} / {})", a.table, b.table), format!("({} == 0.0 ? none.div0 : {} / {})", b.cel, a.cel, b.cel))
}

/// What is divided by hangs on a fact: a zero that stands in the table is refused before anything is run.
fn by(b: Both) -> Both {
    if b.table.contains('{') { b } else { joined(&b, "*", &fact("r.a")) }
}

fn call(name: &str, all: &[Both]) -> Both {
    let list = |of: fn(&Both) -> &str| all.iter().map(of).collect::<Vec<_>>().join(", ");
    both(format!("{name}({})", list(|b| &b.table)), format!("{name}({})", list(|b| &b.cel)))
}

struct Maker<'r> {
    random: &'r mut Random,
}

impl Maker<'_> {
    fn ratio(&mut self, depth: usize) -> Both {
        if depth == 0 {
            if self.random.below(2) == 0 {
                return fact(self.random.one::<&str>(&RATIOS));
            }
            let n = self.random.below(5);
            return match self.random.below(3) {
                0 => both(format!("{n}"), format!("{n}.0")),
                1 => both(format!("{n}.25"), format!("{n}.25")),
                _ => both(format!("{n}e-1"), format!("{n}.0e-1")),
            };
        }
        let d = depth - 1;
        match self.random.below(10) {
            0 => joined(&self.ratio(d), "+", &self.ratio(d)),
            1 => joined(&self.ratio(d), "-", &self.ratio(d)),
            2 => joined(&self.ratio(d), "*", &self.ratio(d)),
            3 => divided(&self.ratio(d), &by(self.ratio(d))),
            4 => divided(&self.length(d), &by(self.length(d))),
            5 => {
                let of = self.ratio(d);
                both(format!("-{}", wrapped(&of.table)), format!("-{}", wrapped(&of.cel)))
            }
            6 => asked(&self.bool(d), &self.ratio(d), &self.ratio(d)),
            7 => call("min", &[self.ratio(d), self.ratio(d)]),
            8 => call("max", &[self.ratio(d), self.ratio(d), self.ratio(d)]),
            _ => call("abs", &[self.ratio(d)]),
        }
    }

    fn length(&mut self, depth: usize) -> Both {
        if depth == 0 {
            if self.random.below(2) == 0 {
                return fact(self.random.one::<&str>(&LENGTHS));
            }
            let n = self.random.below(4);
            // NIST SP 811 (2008), B.8: 1 in = 25.4 mm exactly, and a thou a thousandth of it
            let (unit, metres) = *self.random.one(&[("thou", 2.54e-5), ("in", 0.0254), ("mm", 1e-3)]);
            return both(format!("{n}.5 {unit}"), format!("{:?}", (n as f64 + 0.5) * metres));
        }
        let d = depth - 1;
        match self.random.below(6) {
            0 => joined(&self.length(d), "+", &self.length(d)),
            1 => joined(&self.length(d), "-", &self.length(d)),
            2 => joined(&self.length(d), "*", &self.ratio(d)),
            3 => divided(&self.length(d), &by(self.ratio(d))),
            4 => asked(&self.bool(d), &self.length(d), &self.length(d)),
            _ => call("max", &[self.length(d), self.length(d)]),
        }
    }

    fn bool(&mut self, depth: usize) -> Both {
        if depth == 0 {
            return match self.random.below(4) {
                0 => fact(self.random.one::<&str>(&FLAGS)),
                1 => {
                    let (id, word) = (*self.random.one(&CHOICES), *self.random.one(&WORDS));
                    let sign = *self.random.one(&["==", "!="]);
                    joined(&fact(id), sign, &both(format!("'{word}'"), format!("\"{word}\"")))
                }
                2 => {
                    let all = [RATIOS[0], LENGTHS[0], LENGTHS[2], FLAGS[0], FLAGS[1], CHOICES[0]];
                    let id = *self.random.one(&all);
                    both(format!("has({{{id}}})"), format!("has({})", key(id)))
                }
                _ => {
                    let word = *self.random.one(&["true", "false"]);
                    both(word, word)
                }
            };
        }
        let d = depth - 1;
        match self.random.below(10) {
            0 | 1 => joined(&self.bool(d), "&&", &self.bool(d)),
            2 | 3 => joined(&self.bool(d), "||", &self.bool(d)),
            4 => {
                let of = self.bool(d);
                both(format!("!{}", wrapped(&of.table)), format!("!{}", wrapped(&of.cel)))
            }
            5 => asked(&self.bool(d), &self.bool(d), &self.bool(d)),
            6 => {
                let sign = *self.random.one(&["<", "<=", ">", ">=", "==", "!="]);
                joined(&self.length(d), sign, &self.length(d))
            }
            7 => {
                let sign = *self.random.one(&["<", "<=", ">", ">=", "==", "!="]);
                joined(&self.ratio(d), sign, &self.ratio(d))
            }
            8 => {
                let id = *self.random.one(&CHOICES);
                let list = |quote: &str| format!("[{quote}one{quote}, {quote}three{quote}]");
                joined(&fact(id), "in", &both(list("'"), list("\"")))
            }
            _ => {
                let (of, a, b) = (self.ratio(d), self.ratio(d), self.ratio(d));
                let list = |a: &str, b: &str| format!("[{a}, {b}]");
                joined(&of, "in", &both(list(&a.table, &b.table), list(&a.cel, &b.cel)))
            }
        }
    }
}

fn wrapped(text: &str) -> String {
    format!("({text})")
}

fn catalogue() -> Vec<TableFact> {
    let fact = |id: &str, kind: &str| TableFact {
        id: id.to_owned(),
        kind: kind.to_owned(),
        axis: if id.starts_with("v.") || id == "judged" { "cylinder" } else { "one" }.to_owned(),
        choices: if kind == "choice" { WORDS.map(str::to_owned).to_vec() } else { Vec::new() },
    };
    let mut all = vec![fact("judged", "ratio")];
    all.extend(RATIOS.iter().map(|id| fact(id, "ratio")));
    all.extend(LENGTHS.iter().map(|id| fact(id, "length")));
    all.extend(FLAGS.iter().map(|id| fact(id, "flag")));
    all.extend(CHOICES.iter().map(|id| fact(id, "choice")));
    all
}

/// A fact's value at each place; none: absent altogether, NaN: not read.
type Facts = BTreeMap<String, Option<Vec<f64>>>;

fn facts(random: &mut Random) -> Facts {
    let mut facts = Facts::new();
    for fact in catalogue() {
        let places = if fact.axis == "one" { 1 } else { PLACES };
        let mut value = || match fact.kind.as_str() {
            "flag" => random.below(2) as f64,
            // none of the words that the pack knows
            "choice" => random.below(4) as f64 - 1.0,
            "length" => *random.one(&[0.0, 0.0254, 1e-3, 0.105, 2.54e-5, 1e-3 * 1.5]),
            _ => *random.one(&[0.0, 1.0, -1.0, 0.3, 7.0, 1e-3, -2.5]),
        };
        let values: Vec<f64> = (0..places).map(|_| value()).collect();
        let values = match random.below(6) {
            0 => None,
            1 if places > 1 => {
                Some(values.into_iter().map(|v| if random.below(2) == 0 { f64::NAN } else { v }).collect())
            }
            _ => Some(values),
        };
        facts.insert(fact.id, values);
    }
    facts
}

/// What the interpreter makes of it at one place.
fn oracle(program: &Program, facts: &Facts, place: usize) -> Result<Value, String> {
    let mut map: HashMap<String, Value> = HashMap::new();
    for fact in catalogue() {
        let Some(values) = &facts[&fact.id] else { continue };
        let value = values[if values.len() == 1 { 0 } else { place }];
        if value.is_nan() {
            continue;
        }
        let value = match fact.kind.as_str() {
            "flag" => Value::Bool(value > 0.5),
            "choice" if value < 0.0 => Value::from("another"),
            "choice" => Value::from(WORDS[value as usize]),
            _ => Value::Float(value),
        };
        map.insert(fact.id.replace('.', "_"), value);
    }
    let mut context = Context::default();
    context.add_variable_from_value("f", map);
    context.add_variable_from_value("none", HashMap::<String, Value>::new());
    context.add_function("abs", |x: f64| x.abs()).unwrap();
    context.add_function("min", cel::functions::min).unwrap();
    context.add_function("max", cel::functions::max).unwrap();
    program.execute(&context).map_err(|e| e.to_string())
}

fn pack(rules: &[String], seed: u64) -> LoadedPack {
    let text = format!("{{\"table\": \"t\", \"title\": \"T\", \"rules\": [{}]}}", rules.join(","));
    let facts = catalogue();
    let table = translate("t.json", &text, &KnownFacts { facts: &facts, packs: &[] })
        .unwrap_or_else(|f| panic!("seed {seed}: {f}\n{text}"));
    LoadedPack::load(table.component, "t.json").unwrap_or_else(|f| panic!("seed {seed}: {f}"))
}

fn quoted(text: &str) -> String {
    serde_json::Value::String(text.to_owned()).to_string()
}

/// What a pack is given of these facts, in the order of its manifest.
fn given(pack: &LoadedPack, facts: &Facts) -> (Vec<u32>, Vec<f64>) {
    let (mut starts, mut values) = (vec![0], Vec::new());
    for fact in &pack.manifest.facts {
        values.extend(facts[&fact.id].iter().flatten());
        starts.push(u32::try_from(values.len()).unwrap());
    }
    (starts, values)
}

fn seed() -> u64 {
    std::env::var("THOU_SEED").ok().and_then(|s| s.parse().ok()).unwrap_or(20_260_701)
}

#[test]
fn expressions_come_to_what_the_interpreter_of_cel_makes_of_them() {
    let seed = seed();
    let mut random = Random(seed);
    let places = |_: &str| Some(PLACES as u32);
    let (mut numbers, mut errors, mut no, mut compared) = (0_usize, 0_usize, 0_usize, 0_usize);
    for _ in 0..TABLES {
        let expressions: Vec<(bool, Both)> = (0..RULES)
            .map(|i| {
                let is_bool = i % 2 == 0;
                let depth = 1 + random.below(3);
                let mut maker = Maker { random: &mut random };
                (is_bool, if is_bool { maker.bool(depth) } else { maker.ratio(depth) })
            })
            .collect();
        let rules: Vec<String> = expressions
            .iter()
            .enumerate()
            .map(|(i, (is_bool, e))| {
                let (when, low) = if *is_bool { (e.table.as_str(), "1") } else { ("true", e.table.as_str()) };
                format!(
                    "{{ \"id\": \"r-{i}\", \"why\": \"w\", \"operation\": \"block\", \"when\": {}, \
                     \"window\": {{ \"judges\": \"judged\", \"low\": {} }} }}",
                    quoted(when),
                    quoted(low)
                )
            })
            .collect();
        let pack = pack(&rules, seed);
        let programs: Vec<Program> = expressions
            .iter()
            .map(|(_, e)| Program::compile(&e.cel).unwrap_or_else(|f| panic!("seed {seed}: {}: {f}", e.cel)))
            .collect();
        for _ in 0..SETS {
            let facts = facts(&mut random);
            let (starts, values) = given(&pack, &facts);
            let ask: Vec<u32> = (0..RULES as u32).collect();
            let answer = pack
                .assess(&ask, &Given { starts: &starts, values: &values, places: &places })
                .unwrap_or_else(|f| panic!("seed {seed}: {f}"));
            for (i, (is_bool, e)) in expressions.iter().enumerate() {
                compared += 1;
                let at = |what: &str| format!("seed {seed}: {}\n{}\n{facts:?}\n{what}", e.table, e.cel);
                let windows: Vec<_> = answer.windows.iter().filter(|w| w.rule as usize == i).collect();
                let state = answer.outcomes[i].state;
                // where nothing that is there runs over places, there is one answer for all of them
                let runs = LENGTHS[2..].iter().chain(&FLAGS[1..]);
                let runs = runs.filter(|id| e.table.contains(**id)).any(|id| facts[*id].is_some());
                let all: Vec<Option<u32>> = if runs { (0..PLACES as u32).map(Some).collect() } else { vec![None] };
                let told: Vec<Result<Value, String>> =
                    all.iter().map(|p| oracle(&programs[i], &facts, p.unwrap_or(0) as usize)).collect();
                let fine = |v: &Result<Value, String>| match v {
                    Ok(Value::Float(v)) => v.is_finite(),
                    Ok(_) => true,
                    Err(_) => false,
                };
                let wanted: Vec<(Option<u32>, f64)> = all
                    .iter()
                    .zip(&told)
                    .filter_map(|(p, v)| match v {
                        Ok(Value::Float(v)) if v.is_finite() => Some((*p, *v)),
                        Ok(Value::Bool(true)) => Some((*p, 1.0)),
                        _ => None,
                    })
                    .collect();
                let got: Vec<(Option<u32>, f64)> =
                    windows.iter().map(|w| (w.what.place, w.what.low.unwrap())).collect();
                if told.iter().all(fine) {
                    assert_eq!(got.len(), wanted.len(), "{}", at(&format!("{state:?} {told:?}")));
                    for (g, w) in got.iter().zip(&wanted) {
                        assert!(g.0 == w.0 && g.1 == w.1, "{}", at(&format!("{g:?} {w:?}")));
                    }
                    let quiet = OutcomeState::NotApplicable(0);
                    let state_wanted = if wanted.is_empty() { quiet } else { OutcomeState::Answered };
                    assert_eq!(state, state_wanted, "{}", at(""));
                    no += usize::from(wanted.is_empty());
                    numbers += usize::from(!is_bool);
                } else {
                    errors += 1;
                    match state {
                        // what is not read costs its own place; what cannot be worked out costs the rule
                        OutcomeState::Answered => assert_eq!(got, wanted, "{}", at(&format!("{told:?}"))),
                        OutcomeState::CannotSay(1) => assert!(wanted.is_empty(), "{}", at(&format!("{told:?}"))),
                        // which division it was, each with a reason of its own
                        OutcomeState::CannotSay(reason) if reason == 2 || reason >= 4 => {
                            assert!(e.table.contains('/') || e.table.contains('m'), "{}", at(&format!("{told:?}")));
                        }
                        other => panic!("{}", at(&format!("{other:?} {told:?}"))),
                    }
                }
            }
        }
    }
    println!("seed {seed}: {compared} compared, {numbers} numbers, {no} that do not hold, {errors} errors");
    const { assert!(TABLES * RULES >= 2_000, "expressions") };
    // the test must have something of everything to compare
    assert!(numbers > 1_000 && no > 500 && errors > 500, "{numbers} {no} {errors}");
}
