//! JSON with something changed in it.

use fastrand::Rng;
use serde_json::{Number, Value, json};

/// Words that go wrong in a terminal, a page, a parser or a sum.
pub const WORDS: [&str; 34] = [
    "",
    " ",
    "0",
    "-1",
    "1e308",
    "-0.0",
    "nan",
    "inf",
    "4.030 in",
    "102.36 mm",
    "1e308 in",
    "-4 in",
    "1e-308 thou",
    "4 furlongs",
    "12.5:1",
    "7000 rpm",
    "400 hp at 6500 rpm",
    "2026-02-30",
    "9999-12-31",
    "-9999-01-01",
    "true",
    "steel",
    "\u{1b}[2J\u{1b}[31mall go\u{1b}[0m",
    "0.004\u{202e}500.0",
    "\u{9b}31m",
    "\u{0}",
    "a\nb",
    "<script>alert(1)</script>",
    "{place} {low} {solve}",
    "{arg:none} {fact:bore.nominal",
    "µm °F ½ 機関 🏁",
    "../../etc/passwd",
    "extra.ours.thing",
    "clearances/piston-to-wall",
];

pub fn word(rng: &mut Rng) -> String {
    match rng.u8(..24) {
        0 => WORDS[rng.usize(..WORDS.len())].repeat(rng.usize(1..200)),
        1 => (0..rng.usize(..60)).map(|_| rng.char(..)).collect(),
        _ => WORDS[rng.usize(..WORDS.len())].to_owned(),
    }
}

pub fn number(rng: &mut Rng) -> f64 {
    const ODD: [f64; 12] = [0.0, -0.0, 1.0, -1.0, 0.5, 1e-300, 1e300, -1e300, 1e15, 4_294_967_296.0, 2.0, 16.0];
    match rng.u8(..3) {
        0 => ODD[rng.usize(..ODD.len())],
        1 => (rng.f64() - 0.5) * 10f64.powi(rng.i32(-12..12)),
        _ => f64::from(rng.i32(-20..200)),
    }
}

pub fn any(rng: &mut Rng, deep: usize) -> Value {
    match rng.u8(..if deep == 0 { 5 } else { 7 }) {
        0 => Value::Null,
        1 => json!(rng.bool()),
        2 => Number::from_f64(number(rng)).map_or(Value::Null, Value::Number),
        3 | 4 => json!(word(rng)),
        5 => (0..rng.usize(..4)).map(|_| any(rng, deep - 1)).collect(),
        _ => Value::Object((0..rng.usize(..4)).map(|_| (word(rng), any(rng, deep - 1))).collect()),
    }
}

fn count(value: &Value) -> usize {
    1 + match value {
        Value::Array(list) => list.iter().map(count).sum(),
        Value::Object(map) => map.values().map(count).sum(),
        _ => 0,
    }
}

/// The value that is so many steps into the tree.
fn nth<'a>(value: &'a mut Value, n: &mut usize) -> Option<&'a mut Value> {
    if *n == 0 {
        return Some(value);
    }
    *n -= 1;
    match value {
        Value::Array(list) => list.iter_mut().find_map(|v| nth(v, n)),
        Value::Object(map) => map.values_mut().find_map(|v| nth(v, n)),
        _ => None,
    }
}

/// Changes one to four places of a tree: another value, a slip in a number or a word, one gone, one twice, two swapped.
pub fn change(rng: &mut Rng, root: &mut Value) {
    for _ in 0..=rng.usize(..4) {
        let all = count(root);
        let other = nth(root, &mut rng.usize(..all)).cloned().unwrap_or(Value::Null);
        let Some(place) = nth(root, &mut rng.usize(..all)) else { continue };
        match (rng.u8(..10), &mut *place) {
            (0, _) => *place = any(rng, 2),
            (1, _) => *place = other,
            (_, Value::String(text)) => *text = slip(rng, text),
            (_, Value::Number(n)) => {
                let by = [0.0, -1.0, 10.0, 0.1, 1e6, 1e-6, 1.001][rng.usize(..7)];
                let changed = if rng.bool() { n.as_f64().unwrap_or(0.0) * by } else { number(rng) };
                *place = Number::from_f64(changed).map_or(Value::Null, Value::Number);
            }
            (2..=4, Value::Array(list)) if !list.is_empty() => {
                let at = rng.usize(..list.len());
                match rng.u8(..3) {
                    0 => drop(list.remove(at)),
                    1 => list.insert(at, other),
                    _ => list.push(list[at].clone()),
                }
            }
            (2..=4, Value::Object(map)) if !map.is_empty() => {
                let key = map.keys().nth(rng.usize(..map.len())).cloned().unwrap_or_default();
                let value = map.remove(&key).unwrap_or_default();
                if rng.bool() {
                    map.insert(word(rng), value);
                }
            }
            (5, _) => *place = any(rng, 1),
            _ => {}
        }
    }
}

/// A word as a hand would mistype it, or as nobody would.
fn slip(rng: &mut Rng, text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    if chars.is_empty() || rng.u8(..3) == 0 {
        return word(rng);
    }
    let at = rng.usize(..chars.len());
    let (before, after) = (chars[..at].iter().collect::<String>(), chars[at..].iter().collect::<String>());
    match rng.u8(..5) {
        0 => format!("{before}{}", after.chars().skip(1).collect::<String>()),
        1 => format!("{before}{}{after}", rng.char(..)),
        2 => format!("{before}{}{after}", word(rng)),
        3 => format!("{before}.{after}"),
        _ => format!("{before}{}{}", rng.digit(10), after.chars().skip(1).collect::<String>()),
    }
}
