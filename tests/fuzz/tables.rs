//! House tables that were tampered with, from their text through the translation and the sandbox to the pages.

use super::{bytes, holds, sheets, trees};
use fastrand::Rng;
use serde_json::{Value, json};
use std::sync::LazyLock;
use std::sync::atomic::{AtomicU64, Ordering};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, Given, LoadedPack, PackFaultKind};
use thou::sheet::Sheet;
use thou_tests::{file, sheet_of};

/// Tables that work, and what they are asked with.
pub struct Tables {
    texts: Vec<String>,
    /// The same without remarks, as trees.
    trees: Vec<Value>,
    pub packs: Vec<LoadedPack>,
    facts: Vec<(String, String)>,
}

impl Tables {
    pub fn new() -> Self {
        let names = ["rulepacks/tables/common-practice.json", "rulepacks/examples/table/ring-gaps.json"];
        let mut texts: Vec<String> = names.iter().map(|n| std::fs::read_to_string(file(n)).unwrap()).collect();
        texts.push(OTHERS.to_owned());
        let bare = |text: &String| {
            let lines = text.lines().filter(|l| !l.trim_start().starts_with("//"));
            serde_json::from_str(&lines.collect::<Vec<_>>().join("\n")).unwrap()
        };
        let facts = packs::facts_for_tables().into_iter().map(|f| (f.id, f.kind)).collect();
        Self { trees: texts.iter().map(bare).collect(), texts, packs: thou_tests::builtin(), facts }
    }
}

/// How many answers were given by what became a pack: where none does, nothing behind the translation is tried.
pub static ANSWERED: AtomicU64 = AtomicU64::new(0);

/// What the shipped tables have none of: findings, services, uses, remedies that solve.
const OTHERS: &str = r#"{
  "table": "ours", "title": "Nine Mile's numbers", "basis": "shop",
  "uses": [{ "id": "pulling", "like": "all-out" }],
  "rules": [
    { "id": "walls", "supersedes": ["clearances/piston-to-wall"], "when": "{use} in ['street', 'pulling']",
      "window": { "low": "{bore.nominal} * 0.001", "high": "max(5 thou, {low} + 1 thou)", "never-above": "{high} * 2",
        "below": "hold", "too-low": { "words": "hone to {solve}", "solve": "bore.diameter", "may": "up" } } },
    { "id": "cast", "why": "We broke two.", "operation": "rods-and-pistons",
      "when": "{use} != 'street' && {piston.alloy} in ['cast', 'hypereutectic']",
      "finding": { "words": "no cast pistons", "level": "hold", "do": "Forged ones.", "points-at": ["piston.alloy"] } },
    { "id": "springs", "supersedes": ["freshen/springs"], "when": "has({springs.count}) || {use} == 'bracket'",
      "service": { "meter": "passes", "low": "80", "nominal": "100", "high": "{engine.cylinders} * 20" } },
    { "id": "gap", "why": "It butts.", "operation": "rings", "otherwise": "no rings here",
      "windows": [ { "judges": "ring.top.end-gap", "when": "{bore.diameter} > 4 in", "low": "{bore.diameter} / 250",
        "aim": "({low} + {high}) / 2", "high": "{bore.diameter} / 180 + abs(-1 thou)" } ] }
  ]
}"#;

/// Bytes bent, a tree changed, or an expression made up.
pub fn tampered(rng: &mut Rng, real: &Tables) {
    let at = rng.usize(..real.texts.len());
    let text = match rng.u8(..8) {
        0 => String::from_utf8_lossy(&bytes::bent(rng, real.texts[at].as_bytes())).into_owned(),
        way => {
            let mut tree = real.trees[at].clone();
            few(rng, &mut tree);
            match way {
                1 | 2 => trees::change(rng, &mut tree),
                _ => (0..=rng.usize(..3)).for_each(|_| rewrite(rng, &mut tree, &real.facts)),
            }
            serde_json::to_string_pretty(&tree).unwrap()
        }
    };
    let twice = rng.u8(..16) == 0;
    through(rng, &text, &real.packs, twice);
}

/// A handful of the rules, so that a run is quick.
fn few(rng: &mut Rng, tree: &mut Value) {
    if let Some(rules) = tree["rules"].as_array_mut() {
        rng.shuffle(rules);
        rules.truncate(1 + rng.usize(..4));
    }
}

/// Writes something else where an expression stands.
fn rewrite(rng: &mut Rng, tree: &mut Value, facts: &[(String, String)]) {
    const FIELDS: [&str; 7] = ["when", "never-below", "low", "aim", "high", "never-above", "nominal"];
    let Some(rules) = tree["rules"].as_array_mut().filter(|r| !r.is_empty()) else { return };
    let rule = rng.usize(..rules.len());
    let rule = &mut rules[rule];
    let mut places: Vec<&mut Value> = Vec::new();
    let Some(fields) = rule.as_object_mut() else { return };
    for (name, value) in fields.iter_mut() {
        match (name.as_str(), value) {
            ("windows", Value::Array(list)) => places.extend(list),
            ("window" | "service", value) => places.push(value),
            ("when", value) if rng.u8(..3) == 0 => {
                let old = value.as_str().unwrap_or("").to_owned();
                *value = json!(if rng.u8(..3) == 0 { expression(rng, facts, &old) } else { holds(rng, 3) });
            }
            _ => {}
        }
    }
    if places.is_empty() {
        return;
    }
    let place = rng.usize(..places.len());
    let field = FIELDS[rng.usize(..FIELDS.len())];
    let there = places[place].as_object().is_some_and(|o| o.contains_key(field));
    if there || rng.u8(..4) == 0 {
        let old = places[place][field].as_str().unwrap_or("").to_owned();
        // most of them right, or hardly anything behind the translation is tried
        places[place][field] = json!(match (rng.u8(..3), field) {
            (0, _) => expression(rng, facts, &old),
            (_, "when") => holds(rng, 3),
            _ => length(rng, 3),
        });
    }
}

/// An expression with something changed in it, or one made up, right or nearly so.
fn expression(rng: &mut Rng, facts: &[(String, String)], old: &str) -> String {
    match rng.u8(..4) {
        0 if !old.is_empty() => bent(rng, facts, old),
        1 if !old.is_empty() => {
            let made = quantity(rng, facts, 1);
            let how = ["+", "-", "*", "/", "<", "==", "&&", "?"][rng.usize(..8)];
            format!("{old} {how} {made}")
        }
        2 => condition(rng, facts, 4),
        _ => quantity(rng, facts, 4),
    }
}

/// A length, as an expression that is right, though it may come to nothing or to no number.
fn length(rng: &mut Rng, deep: usize) -> String {
    const ATOMS: [&str; 10] = [
        "2.5 thou",
        "0.1 mm",
        "0 thou",
        "-1 thou",
        "1e300 in",
        "{bore.nominal}",
        "{bore.diameter}",
        "{stroke.nominal}",
        "{piston-to-wall}",
        "{piston.card.fit-low}",
    ];
    let less = deep.saturating_sub(1);
    match rng.u8(..if deep == 0 { 2 } else { 9 }) {
        0 | 1 => ATOMS[rng.usize(..ATOMS.len())].to_owned(),
        2 => format!("({} + {})", length(rng, less), length(rng, less)),
        3 => format!("({} - {})", length(rng, less), length(rng, less)),
        4 => format!("({} * {})", length(rng, less), ratio(rng, less)),
        5 => format!("({} / {})", length(rng, less), ratio(rng, less)),
        6 => format!("min({}, {})", length(rng, less), length(rng, less)),
        7 => format!("abs({})", length(rng, less)),
        _ => format!("({} ? {} : {})", holds(rng, less), length(rng, less), length(rng, less)),
    }
}

fn ratio(rng: &mut Rng, deep: usize) -> String {
    match rng.u8(..3) {
        0 if deep > 0 => format!("({} / {})", length(rng, deep - 1), length(rng, deep - 1)),
        1 => "{engine.cylinders}".to_owned(),
        _ => ["0", "0.001", "3", "1e-300", "1e300"][rng.usize(..5)].to_owned(),
    }
}

/// A condition that is right.
fn holds(rng: &mut Rng, deep: usize) -> String {
    let less = deep.saturating_sub(1);
    match rng.u8(..if deep == 0 { 3 } else { 6 }) {
        0 => "{use} == 'street'".to_owned(),
        1 => "has({piston.card.fit-low})".to_owned(),
        2 => "{piston.alloy} in ['2618', 'cast']".to_owned(),
        3 => format!("!({})", holds(rng, less)),
        4 => {
            let how = ["<", "<=", ">", ">=", "==", "!="][rng.usize(..6)];
            format!("{} {how} {}", length(rng, less), length(rng, less))
        }
        _ => format!("({} {} {})", holds(rng, less), ["&&", "||"][rng.usize(..2)], holds(rng, less)),
    }
}

/// Pieces of an expression taken out, put in, doubled or swapped.
fn bent(rng: &mut Rng, facts: &[(String, String)], old: &str) -> String {
    const SIGNS: [&str; 34] = [
        "(", ")", "[", "]", "{", "}", "{{", "&&", "||", "!", "?", ":", "+", "-", "*", "/", "<", "<=", "==", "!=", "in",
        ",", ".", "'", "\"", "\\", "//", "%", "has(", "min(", "max(", "abs(", "1e999", "thou",
    ];
    let mut pieces: Vec<String> = old.split_inclusive([' ', '(', ')', '}']).map(str::to_owned).collect();
    for _ in 0..=rng.usize(..3) {
        if pieces.is_empty() {
            break;
        }
        let (at, to) = (rng.usize(..pieces.len()), rng.usize(..pieces.len()));
        match rng.u8(..6) {
            0 => drop(pieces.remove(at)),
            1 => pieces.insert(at, pieces[to].clone()),
            2 => pieces.swap(at, to),
            3 => pieces.insert(at, SIGNS[rng.usize(..SIGNS.len())].repeat([1, 1, 2, 40, 400][rng.usize(..5)])),
            4 => pieces[at] = atom(rng, facts),
            _ => pieces[at] = trees::word(rng),
        }
    }
    pieces.concat()
}

fn condition(rng: &mut Rng, facts: &[(String, String)], deep: usize) -> String {
    let less = deep.saturating_sub(1);
    match rng.u8(..if deep == 0 { 4 } else { 8 }) {
        0 => format!("has({})", fact(rng, facts)),
        1 => ["true", "false", "{use} == 'street'", "{use} in ['bracket', 'all-out']"][rng.usize(..4)].to_owned(),
        2 => format!("{} == '{}'", fact(rng, facts), ["cast", "2618", "none", "nitrous", ""][rng.usize(..5)]),
        3 => fact(rng, facts),
        4 => format!("!({})", condition(rng, facts, less)),
        5 => {
            let how = ["<", "<=", ">", ">=", "==", "!="][rng.usize(..6)];
            format!("{} {how} {}", quantity(rng, facts, less), quantity(rng, facts, less))
        }
        _ => {
            let how = ["&&", "||"][rng.usize(..2)];
            format!("({} {how} {})", condition(rng, facts, less), condition(rng, facts, less))
        }
    }
}

fn quantity(rng: &mut Rng, facts: &[(String, String)], deep: usize) -> String {
    let less = deep.saturating_sub(1);
    match rng.u8(..if deep == 0 { 2 } else { 7 }) {
        0 | 1 => atom(rng, facts),
        2 => format!("-({})", quantity(rng, facts, less)),
        3 => {
            let how = ["min", "max", "abs"][rng.usize(..3)];
            let inside: Vec<String> = (0..=rng.usize(..3)).map(|_| quantity(rng, facts, less)).collect();
            format!("{how}({})", inside.join(", "))
        }
        4 => {
            let (yes, no) = (quantity(rng, facts, less), quantity(rng, facts, less));
            format!("({} ? {yes} : {no})", condition(rng, facts, less))
        }
        _ => {
            let how = ["+", "-", "*", "/"][rng.usize(..4)];
            format!("({} {how} {})", quantity(rng, facts, less), quantity(rng, facts, less))
        }
    }
}

/// A number, most with a unit, or a fact.
fn atom(rng: &mut Rng, facts: &[(String, String)]) -> String {
    const UNITS: [&str; 10] = ["thou", "in", "mm", "psi", "rpm", "lbf", "%", "°F", "furlongs", ""];
    match rng.u8(..5) {
        0 => ["0", "0 thou", "1e308 in", "1e-320", "0.1 thou", "-0.0", "1e309 mm", "9007199254740993"][rng.usize(..8)]
            .to_owned(),
        1 => format!("{} {}", rng.u16(..), UNITS[rng.usize(..UNITS.len())]),
        2 => ["{low}", "{high}", "{aim}", "{never-below}"][rng.usize(..4)].to_owned(),
        _ => fact(rng, facts),
    }
}

fn fact(rng: &mut Rng, facts: &[(String, String)]) -> String {
    // lengths more than others, so that some sums are of like things
    let lengths = ["bore.nominal", "bore.diameter", "piston-to-wall", "stroke.nominal", "ring.top.end-gap"];
    if rng.bool() {
        return format!("{{{}}}", lengths[rng.usize(..lengths.len())]);
    }
    format!("{{{}}}", facts[rng.usize(..facts.len())].0)
}

/// Translated; told on a page where that fails, and loaded, asked and shown where it does not. What is translated is a
/// pack like any other: it loads, and its answers make sense whatever it is given.
pub fn through(rng: &mut Rng, text: &str, others: &[LoadedPack], twice: bool) {
    let translate = || packs::table("table.json", text.as_bytes(), others);
    let table = match translate() {
        Ok(table) => table,
        Err(PackFaultKind::BadTable(page)) => {
            holds::page(&page);
            assert!(page.starts_with("error: "), "{page}");
            assert!(page.len() < 40_000, "{} bytes are told of one table", page.len());
            return;
        }
        Err(other) => panic!("{other:?}"),
    };
    if twice {
        assert!(translate().unwrap() == table, "the same table, other bytes");
    }
    let pack = LoadedPack::load(table.component, "table.json").unwrap_or_else(|f| panic!("it does not load: {f}"));
    holds::plain(&serde_json::to_string(&pack.manifest).unwrap());
    for _ in 0..4 {
        ask(rng, &pack);
    }
    if rng.u8(..8) == 0 {
        let (sheet, facts) = &*BENCH;
        let packs = [others, std::slice::from_ref(&pack)].concat();
        sheets::pages(sheet, facts, &packs);
    }
}

/// A sheet whose facts are computed once.
static BENCH: LazyLock<(&'static Sheet, SheetFacts<'static>)> = LazyLock::new(|| {
    let sheet: &'static Sheet = Box::leak(Box::new(sheet_of("sample-builds/single.json")));
    (sheet, SheetFacts::new(Catalogue::standard(), sheet))
});

/// Asks all its rules with facts that are absent, not read, as they may be, or as no engine has them.
fn ask(rng: &mut Rng, pack: &LoadedPack) {
    let (mut starts, mut values) = (vec![0], Vec::new());
    let wild = rng.u8(..4) == 0;
    for fact in &pack.manifest.facts {
        let places = match (rng.u8(..8), fact.axis.as_str()) {
            (0, _) => 0,
            (_, "one") => 1,
            _ => 8,
        };
        for _ in 0..places {
            values.push(match (rng.u8(..12), fact.kind.as_str()) {
                (0, _) => f64::NAN,
                (1, "choice") => -1.0,
                (_, "choice") => f64::from(rng.u8(..4)),
                (_, "flag") => f64::from(rng.u8(..2)),
                _ if wild => trees::number(rng),
                _ => rng.f64() * 0.2,
            });
        }
        starts.push(values.len() as u32);
    }
    let rules: Vec<u32> = (0..pack.manifest.rules.len() as u32).collect();
    let given = Given { starts: &starts, values: &values, places: &|_| Some(8) };
    let once = || pack.assess(&rules, &given);
    match once() {
        Ok(answer) => {
            assert_eq!(once().as_ref(), Ok(&answer), "the same question, another answer");
            ANSWERED.fetch_add(1, Ordering::Relaxed);
        }
        Err(fault) => assert!(matches!(fault.fault, PackFaultKind::TooMuchReturned(_)), "{fault}"),
    }
}
