//! One pack's answer: in the sandbox, native, and the same windows in general-purpose rule engines.

use crate::given::given;
use crate::stages::places;
use crate::timing::{Subject, Times, rounds};
use crate::{Failed, peers, print};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, Given, LoadedPack, OutcomeState, on_deep_stack};
use thou::sheet::Sheet;

/// How many rules are asked.
const RULES: usize = 40;
/// The whole comparison is made this often, so that a busy moment falls on all alike.
const BLOCKS: usize = 5;
const ROUNDS: usize = 41;

pub(crate) fn run(sheet: &Path) -> Result<(), Failed> {
    let sheet = Sheet::read(sheet).map_err(|f| f.render(false))?;
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let house = packs::builtin().into_iter().find(|p| p.manifest.id == "clearances").ok_or("no pack clearances")?;
    let table = packs::load_file(&PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/forty.wasm")))
        .map_err(|f| format!("{f:?}"))?;
    let (of_house, of_table) = (given(&house.manifest, &facts), given(&table.manifest, &facts));
    let places = places(&facts);
    let house_given = Given { starts: &of_house.starts, values: &of_house.values, places: &places };
    let table_given = Given { starts: &of_table.starts, values: &of_table.values, places: &places };

    let answered = answering(&house, &of_house.ask, &house_given)?;
    if answered.len() < RULES || of_table.ask.len() != RULES {
        return Err(format!(
            "{} rules of clearances answer this sheet, {} of the table",
            answered.len(),
            of_table.ask.len()
        )
        .into());
    }
    let forty: Vec<u32> = answered.into_iter().take(RULES).collect();
    same_as_native(&house, &forty, &house_given)?;

    let (job, wanted) = table_job(&facts, &table, &of_table.ask, &table_given)?;

    let outside = peers::outside()?;
    let node = peers::node();
    if let Err(why) = &node {
        println!("\njson-rules-engine is left out: {why}.");
    }
    let mut lines: Vec<(String, Times)> = Vec::new();
    for _ in 0..BLOCKS {
        for (name, times) in own(&house, &forty, &house_given, &table, &of_table.ask, &table_given)? {
            add(&mut lines, name, &times.0);
        }
        take(&mut lines, &wanted, peers::ask(&outside.join("peers"), &[], &job)?)?;
        if let Ok(folder) = &node {
            let script = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src/node-peer.mjs"));
            take(&mut lines, &wanted, peers::ask(Path::new("node"), &[script, folder], &job)?)?;
        }
    }
    print::table("An answer of 40 window rules", "µs", 1.0, NAMES[0], &lines);
    Ok(())
}

/// What peers are given, and the windows that they must come to: for the sheet's own facts, which are timed, and for
/// two other engines with adders, so that every column of the table counts. The built pack is held to them as well.
fn table_job(
    facts: &SheetFacts<'_>,
    table: &LoadedPack,
    ask_for: &[u32],
    timed: &Given<'_>,
) -> Result<(Value, Vec<Windows>), Failed> {
    let lengths = ["bore.nominal", "main-journal.nominal", "rod-journal.nominal"];
    let [bore, main, rod] = [one(facts, lengths[0])?, one(facts, lengths[1])?, one(facts, lengths[2])?];
    let (uses, adders) = (["street", "bracket", "all-out"], ["none", "nitrous", "turbo", "blower"]);
    let at = |list: &[&str], word: &str| list.iter().position(|w| *w == word).map_or(-1.0, |i| i as f64);
    let own = (facts.choice("use").unwrap_or("bracket"), facts.choice("adder").unwrap_or("none"), bore);
    let (mut sets, mut wanted) = (Vec::new(), Vec::new());
    for (usage, adder, bore) in [own, ("street", "turbo", bore * 0.9), ("all-out", "nitrous", bore * 1.1)] {
        let values = [at(&uses, usage), at(&adders, adder), bore, main, rod];
        let given = Given { starts: &[0, 1, 2, 3, 4, 5], values: &values, places: timed.places };
        let windows: Windows = native(&given).windows.iter().map(|w| both(w.what.low, w.what.high)).collect();
        let boxed: Windows = ask(table, ask_for, &given)?.windows.iter().map(|w| both(w.what.low, w.what.high)).collect();
        same("forty.wasm", &windows, &boxed)?;
        wanted.push(windows);
        sets.push(json!({ "use": usage, "adder": adder, lengths[0]: bore, lengths[1]: main, lengths[2]: rod }));
    }
    Ok((json!({ "rounds": ROUNDS, "rows": peers::rows(), "facts": sets }), wanted))
}

type Windows = Vec<[f64; 2]>;

fn both(low: Option<f64>, high: Option<f64>) -> [f64; 2] {
    [low.unwrap_or(f64::NAN), high.unwrap_or(f64::NAN)]
}

/// The sandbox alone, for a profiler: forty rules of clearances, twenty thousand times.
pub(crate) fn spin(sheet: &Path) -> Result<(), Failed> {
    let sheet = Sheet::read(sheet).map_err(|f| f.render(false))?;
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let house = packs::builtin().into_iter().find(|p| p.manifest.id == "clearances").ok_or("no pack clearances")?;
    let given = given(&house.manifest, &facts);
    let (starts, values) = (given.starts.as_slice(), given.values.as_slice());
    let rules: Vec<u32> = given.ask.iter().copied().take(RULES).collect();
    let lengths = lengths(&[&house], &places(&facts));
    on_deep_stack(|| {
        let places = |id: &str| lengths.get(id).copied();
        let given = Given { starts, values, places: &places };
        for _ in 0..20_000 {
            drop(black_box(house.assess(&rules, &given)));
        }
    })?;
    Ok(())
}

/// How many places each fact of these packs has; a closure over facts does not go to another thread.
fn lengths(packs: &[&LoadedPack], places: &dyn Fn(&str) -> Option<u32>) -> BTreeMap<String, u32> {
    let rules = packs.iter().flat_map(|p| &p.manifest.rules);
    rules
        .flat_map(|r| r.judges.iter().chain(&r.needs).chain(&r.takes))
        .filter_map(|id| Some((id.clone(), places(id)?)))
        .collect()
}

const NAMES: [&str; 6] = [
    "clearances, 40 of its rules, fresh store",
    "clearances, 40 of its rules, fresh store and a fresh thread",
    "clearances, all that can be asked, fresh store",
    "clearances, the same 40 native",
    "table of 40 windows, fresh store",
    "table of 40 windows, native",
];

/// Ours, in turn, on the thread that packs run on.
fn own(
    house: &LoadedPack,
    forty: &[u32],
    house_given: &Given<'_>,
    table: &LoadedPack,
    all: &[u32],
    table_given: &Given<'_>,
) -> Result<Vec<(&'static str, Times)>, Failed> {
    let every: Vec<u32> = given_rules(house, house_given);
    // a fresh thread each is what a caller pays who is not on a deep stack already
    let mut apart = [Subject { name: NAMES[1], work: Box::new(|| drop(black_box(house.assess(forty, house_given)))) }];
    let apart = rounds(&mut apart, ROUNDS);
    let (starts, values) = (house_given.starts, house_given.values);
    let (table_starts, table_values) = (table_given.starts, table_given.values);
    let lengths = lengths(&[house, table], house_given.places);
    let mut times = on_deep_stack(move || {
        let places = |id: &str| lengths.get(id).copied();
        let house_given = Given { starts, values, places: &places };
        let table_given = Given { starts: table_starts, values: table_values, places: &places };
        let mut subjects = [
            Subject { name: NAMES[0], work: Box::new(|| drop(black_box(house.assess(forty, &house_given)))) },
            Subject { name: NAMES[2], work: Box::new(|| drop(black_box(house.assess(&every, &house_given)))) },
            Subject {
                name: NAMES[3],
                work: Box::new(|| {
                    let facts = thou_sdk::Facts::new(black_box(starts), black_box(values));
                    black_box(clearances::PACK.assess(forty, &facts));
                }),
            },
            Subject { name: NAMES[4], work: Box::new(|| drop(black_box(table.assess(all, &table_given)))) },
            Subject { name: NAMES[5], work: Box::new(|| drop(black_box(native(black_box(&table_given))))) },
        ];
        rounds(&mut subjects, ROUNDS)
    })?;
    times.extend(apart);
    Ok(times)
}

fn native(given: &Given<'_>) -> thou_sdk::Raw {
    let all: [u32; RULES] = std::array::from_fn(|i| i as u32);
    forty::PACK.assess(&all, &thou_sdk::Facts::new(given.starts, given.values))
}

fn ask(pack: &LoadedPack, ask: &[u32], given: &Given<'_>) -> Result<packs::CheckedAnswer, Failed> {
    Ok(pack.assess(ask, given).map_err(|f| format!("{f:?}"))?)
}

/// The window rules that answer when they are asked.
fn answering(pack: &LoadedPack, all: &[u32], given: &Given<'_>) -> Result<Vec<u32>, Failed> {
    Ok(ask(pack, all, given)?.outcomes.iter().filter(|o| o.state == OutcomeState::Answered).map(|o| o.rule).collect())
}

fn given_rules(pack: &LoadedPack, given: &Given<'_>) -> Vec<u32> {
    let empty = |id: &String| {
        let at = pack.manifest.facts.iter().position(|f| f.id == *id);
        at.and_then(|i| Some(given.starts.get(i)? == given.starts.get(i + 1)?)).unwrap_or(true)
    };
    let rules = (0_u32..).zip(&pack.manifest.rules);
    rules.filter(|(_, r)| !r.needs.iter().any(empty)).map(|(i, _)| i).collect()
}

/// The built pack and the crate beside it give the same windows, to the last bit.
fn same_as_native(pack: &LoadedPack, rules: &[u32], given: &Given<'_>) -> Result<(), Failed> {
    let boxed = ask(pack, rules, given)?;
    let native = clearances::PACK.assess(rules, &thou_sdk::Facts::new(given.starts, given.values));
    let same = boxed.windows.len() == native.windows.len()
        && boxed.windows.iter().zip(&native.windows).all(|(b, n)| b.rule == n.rule && b.what == n.what);
    if same { Ok(()) } else { Err("rulepacks/built/clearances.wasm and the crate give different windows".into()) }
}

fn one(facts: &SheetFacts<'_>, id: &str) -> Result<f64, Failed> {
    facts.one(id).map(|n| n.value).ok_or_else(|| format!("the sheet has no {id}").into())
}

/// Windows that differ by more than rounding are not the same rules.
fn same(who: &str, wanted: &Windows, got: &Windows) -> Result<(), Failed> {
    let near = |a: &f64, b: &f64| (a - b).abs() <= 1e-12 * a.abs().max(b.abs());
    let all =
        wanted.len() == got.len() && wanted.iter().zip(got).all(|(w, g)| w.iter().zip(g).all(|(a, b)| near(a, b)));
    if all { Ok(()) } else { Err(format!("{who} gives other windows than the table: nothing is timed").into()) }
}

fn take(lines: &mut Vec<(String, Times)>, wanted: &[Windows], told: Value) -> Result<(), Failed> {
    for peer in told.as_array().into_iter().flatten() {
        let name = peer.get("name").and_then(Value::as_str).unwrap_or("?");
        let of = |key: &str| peer.get(key).cloned().unwrap_or_default();
        let windows: Vec<Windows> = serde_json::from_value(of("windows"))?;
        if windows.len() != wanted.len() {
            return Err(format!("{name} answers {} of {} engines", windows.len(), wanted.len()).into());
        }
        for (wanted, got) in wanted.iter().zip(&windows) {
            same(name, wanted, got)?;
        }
        add(lines, &format!("table of 40 windows, {name}"), &serde_json::from_value::<Vec<f64>>(of("us"))?);
    }
    Ok(())
}

fn add(lines: &mut Vec<(String, Times)>, name: &str, times: &[f64]) {
    match lines.iter_mut().find(|(n, _)| n == name) {
        Some((_, all)) => all.0.extend(times),
        None => lines.push((name.to_owned(), Times(times.to_vec()))),
    }
}
