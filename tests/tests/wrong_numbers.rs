//! How many wrong numbers are noticed: each number of three good sheets, by the slips that happen, one at a time.
//!
//! What is noticed is written down beside the sheets, by field and slip, and compared: whoever makes a rule blind, or gives
//! it eyes, sees it in the table. `-` is a slip that nobody notices and that hurts nothing, `missed` one that can hurt:
//! `wrong-numbers-harm.toml` says of each field from what change on either side. To write the table anew: `THOU_BLESS=1 cargo test --release -p thou-tests --test wrong_numbers`.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::Sheet;
use thou::verdict::{State, Verdict, judge};
use thou_contract::{KINDS, Kind};

/// The sheets: every reading of a V8 on its rods, a four with tappets under the cam, a single.
const SHEETS: [&str; 3] = ["bracket", "inline-four", "single"];

fn read(file: &Path) -> String {
    std::fs::read_to_string(file).unwrap()
}

/// What a slip makes of a number and its unit, as it is then written.
type Slip = fn(f64, &str) -> Option<String>;

/// The slips, by name.
const SLIPS: [(&str, Slip); 8] = [
    ("x1.5", |n, unit| Some(written(n * 1.5, unit))),
    ("/1.5", |n, unit| Some(written(n / 1.5, unit))),
    ("x10", |n, unit| Some(written(n * 10.0, unit))),
    ("/10", |n, unit| Some(written(n / 10.0, unit))),
    ("+3 thou", |n, unit| Some(written(n + thou(unit)?, unit))),
    ("-3 thou", |n, unit| Some(written(n - thou(unit)?, unit))),
    ("transposed", |n, unit| Some(written(transposed(n)?, unit))),
    ("unit", |n, unit| Some(written(n, other(unit)?))),
];

fn written(number: f64, unit: &str) -> String {
    format!("{number:.7} {unit}").trim_end().to_owned()
}

/// The last two different digits beside one another the other way round.
fn transposed(n: f64) -> Option<f64> {
    let mut text = format!("{n}").into_bytes();
    let digit = |b: Option<&u8>| b.is_some_and(u8::is_ascii_digit);
    let at = (1..text.len())
        .rev()
        .find(|i| digit(text.get(*i)) && digit(text.get(i - 1)) && text.get(*i) != text.get(i - 1))?;
    text.swap(at, at - 1);
    String::from_utf8(text).ok()?.parse().ok()
}

/// Three thou in a unit of length.
fn thou(unit: &str) -> Option<f64> {
    Some(
        3.0 * match unit {
            "in" => 0.001,
            "thou" => 1.0,
            "mm" => 0.0254,
            "µm" => 25.4,
            _ => return None,
        },
    )
}

/// The unit that is written by mistake for this one.
fn other(unit: &str) -> Option<&'static str> {
    Some(match unit {
        "in" => "mm",
        "mm" => "in",
        "thou" => "µm",
        "µm" => "thou",
        "lbf" => "kgf",
        "psi" => "bar",
        "bar" => "psi",
        "lb-ft" => "N m",
        "N m" => "lb-ft",
        "g" => "oz",
        "hp" => "kW",
        "kW" => "hp",
        "lb" => "kg",
        "kg" => "lb",
        "°F" => "°C",
        "°C" => "°F",
        _ => return None,
    })
}

/// The places of numbers with units, and of bare numbers, that stand for a part, an intent or a reading.
fn numbers(value: &Value, at: &str, out: &mut Vec<String>) {
    match value {
        Value::Object(map) => map.iter().for_each(|(k, v)| numbers(v, &format!("{at}/{k}"), out)),
        Value::Array(list) => list.iter().enumerate().for_each(|(i, v)| numbers(v, &format!("{at}/{i}"), out)),
        Value::String(text) if number(text).is_some() => out.push(at.to_owned()),
        _ => {}
    }
}

fn number(text: &str) -> Option<(f64, &str)> {
    let (number, unit) = text.split_once(' ')?;
    Some((number.parse().ok()?, unit))
}

/// `/readings/top-gap/at/6` is `readings.top-gap`: a field, whatever the place.
fn field(pointer: &str) -> String {
    let parts: Vec<&str> = pointer.trim_start_matches('/').split('/').collect();
    let kept = if parts[0] == "readings" && parts.get(2) == Some(&"at") { 2 } else { parts.len() };
    parts[..kept].iter().filter(|p| p.parse::<usize>().is_err()).copied().collect::<Vec<_>>().join(".")
}

/// The first and the middle number of each field: holes beside one another are judged alike.
fn sampled(all: Vec<String>) -> Vec<String> {
    let mut by_field: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for pointer in all {
        by_field.entry(field(&pointer)).or_default().push(pointer);
    }
    by_field
        .into_values()
        .flat_map(|of| {
            let middle = of.len() / 2;
            let mut kept = vec![of[0].clone()];
            if middle > 0 {
                kept.push(of[middle].clone());
            }
            kept
        })
        .collect()
}

/// A slip that can hurt and that nobody notices.
const MISSED: &str = "missed";

/// Sections whose numbers say what was planned or spent, and not what the engine is.
const BESIDE: [&str; 8] = ["calendar", "costs", "lead-times", "spares", "serviced", "meters", "gauges", "shop"];

fn verdict(value: &Value, packs: &[LoadedPack]) -> Option<Verdict> {
    let text = serde_json::to_string(value).unwrap();
    let folder = thou_tests::file("sample-builds");
    let sheet = Sheet::parse("sheet.json", &text, Path::new(&folder)).ok()?;
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    Some(judge(&sheet, &facts, packs, None))
}

/// What the page has to say of a build, the worst state of each rule.
fn said(verdict: &Verdict) -> BTreeMap<(String, Option<String>), State> {
    let mut said = BTreeMap::new();
    for item in verdict.items.iter().filter(|i| i.state < State::Go) {
        let worst = said.entry((item.rule.clone(), item.fact.clone())).or_insert(item.state);
        *worst = item.state.min(*worst);
    }
    said
}

/// Which changes of a number can hurt, by field.
struct Harm(BTreeMap<String, toml::Table>);

impl Harm {
    fn read() -> Self {
        let table: toml::Table = read(&thou_tests::file("tests/tests/wrong-numbers-harm.toml")).parse().unwrap();
        let fields = table["field"].as_array().unwrap().iter().map(|f| f.as_table().unwrap().clone());
        Self(fields.map(|f| (f["name"].as_str().unwrap().to_owned(), f)).collect())
    }

    /// Whether it can hurt that this stands where that is true.
    fn can_hurt(&self, field: &str, stands: &str, is: &str) -> bool {
        let entry =
            self.0.get(field).unwrap_or_else(|| panic!("{field}: say in wrong-numbers-harm.toml what can hurt"));
        let kinds = KINDS.iter().filter_map(|k| Kind::by_id(k.id));
        let kind = kinds.into_iter().find(|k| k.parse(is).is_ok() && k.parse(stands).is_ok());
        let si = |text: &str| kind.map_or_else(|| number(text).unwrap().0, |kind| kind.parse(text).unwrap());
        let (stands, is) = (si(stands), si(is));
        let side = entry[if stands < is { "lower" } else { "higher" }].as_table().unwrap();
        let Some(from) = side.get("from") else {
            assert!(!side["harmless"].as_str().unwrap().is_empty());
            return false;
        };
        let from = from.as_str().unwrap();
        let amount = match number(from).unwrap() {
            (share, "%") => is.abs() * share / 100.0,
            (degrees, "°F") => degrees / 1.8,
            (degrees, "°C") => degrees,
            // a number that begins a text has no unit of its own
            (plain, _) => kind.map_or(plain, |kind| kind.parse(from).unwrap_or_else(|_| panic!("{field}: {from}"))),
        };
        (stands - is).abs() >= amount * (1.0 - 1e-9)
    }
}

/// The word for what became of a slip: refused, the worst that it brought, or nothing.
fn outcome(changed: Option<&Verdict>, good: &Verdict) -> &'static str {
    let Some(changed) = changed else { return "refused" };
    let before = said(good);
    let worse = said(changed).into_iter().filter(|(what, state)| before.get(what).is_none_or(|was| state < was));
    match worse.map(|(_, state)| state).min() {
        Some(State::NoGo) => "no-go",
        Some(State::Unproven | State::Open | State::Stale | State::CannotSay) => "open",
        Some(State::Look) => "look",
        Some(_) => "note",
        None => "-",
    }
}

#[test]
fn wrong_numbers_are_noticed_as_the_table_says() {
    let packs = thou_tests::builtin();
    let harm = Harm::read();
    let mut table: BTreeMap<(String, String), Vec<&'static str>> = BTreeMap::new();
    let (mut tried, mut noticed, mut can_hurt, mut missed) = (0_u32, 0_u32, 0_u32, 0_u32);
    for name in SHEETS {
        let good = thou_tests::value(&format!("sample-builds/{name}.json"));
        let was = verdict(&good, &packs).unwrap();
        let mut all = Vec::new();
        numbers(&good, "", &mut all);
        all.retain(|p| !BESIDE.contains(&p.split('/').nth(1).unwrap()));
        let changes: Vec<(String, &str, Value)> = sampled(all)
            .into_iter()
            .flat_map(|pointer| {
                let text = good.pointer(&pointer).and_then(Value::as_str).unwrap().to_owned();
                let (n, unit) = number(&text).unwrap();
                let of = |(slip, make): (&'static str, Slip)| {
                    let changed = make(n, unit).filter(|t| n != 0.0 || !slip.starts_with(['x', '/']) || *t == text)?;
                    let mut value = good.clone();
                    *value.pointer_mut(&pointer).unwrap() = Value::String(changed);
                    Some((pointer.clone(), slip, value))
                };
                SLIPS.into_iter().filter_map(of).collect::<Vec<_>>()
            })
            .collect();
        let half = changes.len().div_ceil(2);
        let outcomes: Vec<&'static str> = std::thread::scope(|scope| {
            let work: Vec<_> = changes
                .chunks(half)
                .map(|part| {
                    let (packs, was) = (&packs, &was);
                    scope.spawn(move || {
                        part.iter().map(|(_, _, v)| outcome(verdict(v, packs).as_ref(), was)).collect::<Vec<_>>()
                    })
                })
                .collect();
            work.into_iter().flat_map(|w| w.join().unwrap()).collect()
        });
        for ((pointer, slip, value), came) in changes.iter().zip(outcomes) {
            let at = |sheet: &Value| sheet.pointer(pointer).and_then(Value::as_str).unwrap().to_owned();
            let hurts = harm.can_hurt(&field(pointer), &at(value), &at(&good));
            let came = if came == "-" && hurts { MISSED } else { came };
            tried += 1;
            noticed += u32::from(came != "-" && came != MISSED);
            can_hurt += u32::from(hurts);
            missed += u32::from(came == MISSED);
            let row = table.entry((name.to_owned(), field(pointer))).or_insert_with(|| vec![""; SLIPS.len()]);
            let at = SLIPS.iter().position(|(s, _)| s == slip).unwrap();
            // of two places of a field the quieter one counts
            if row[at].is_empty() || came == MISSED || came == "-" && row[at] != MISSED {
                row[at] = came;
            }
        }
    }
    let mut text = format!("sheet,field,{}\n", SLIPS.map(|(slip, _)| slip).join(","));
    for ((sheet, field), row) in &table {
        let _ = writeln!(text, "{sheet},{field},{}", row.join(","));
    }
    let file = thou_tests::file("tests/tests/wrong-numbers.csv");
    if std::env::var_os("THOU_BLESS").is_some() {
        std::fs::write(&file, &text).unwrap();
        println!("{noticed} of {tried} noticed");
        println!("{} of {can_hurt} that can hurt", can_hurt - missed);
    }
    let kept = read(&file);
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<BTreeSet<_>>();
    let (now, then) = (lines(&text), lines(&kept));
    let gone: Vec<&String> = then.difference(&now).collect();
    let new: Vec<&String> = now.difference(&then).collect();
    assert!(gone.is_empty() && new.is_empty(), "was {gone:#?}\nis {new:#?}\n{noticed} of {tried} noticed");
    assert!(10 * missed <= can_hurt, "{missed} of {can_hurt} that can hurt are missed");
}
