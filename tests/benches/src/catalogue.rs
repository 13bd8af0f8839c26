//! Every fact of the catalogue for one sheet, and what each subject of it costs.

use crate::timing::Times;
use crate::{Failed, print};
use std::collections::{BTreeMap, BTreeSet};
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;
use thou::facts::{Catalogue, FactInfo, Facts};
use thou::sheet::Sheet;

const REPEATS: usize = 41;
/// Facts that are named.
const MOST: usize = 16;
const WHOLE: &str = "whole catalogue, its models not yet run";

pub(crate) fn run(path: &Path) -> Result<(), Failed> {
    let sheet = Sheet::read(path).map_err(|f| f.render(false))?;
    let catalogue = Catalogue::standard();
    let order = order(catalogue);
    let owners = owners(&order)?;
    let mut whole = vec![Times::default(), Times::default(), Times::default()];
    let mut subjects: BTreeMap<&str, Times> = BTreeMap::new();
    let mut facts: BTreeMap<&str, Times> = BTreeMap::new();
    for _ in 0..REPEATS {
        // what the models keep, they keep in their thread: a new one has nothing
        let told = std::thread::scope(|s| s.spawn(|| once(catalogue, &sheet, &order)).join());
        let (lines, each) = told.map_err(|_| "a thread stopped")?;
        for (all, one) in whole.iter_mut().zip(lines) {
            all.0.push(one);
        }
        let mut sums: BTreeMap<&str, f64> = BTreeMap::new();
        for (info, us) in order.iter().zip(each) {
            *sums.entry(owners.get(info.id).map_or("?", String::as_str)).or_default() += us;
            facts.entry(info.id).or_default().0.push(us);
        }
        for (name, us) in sums {
            subjects.entry(name).or_default().0.push(us);
        }
    }
    let names = [WHOLE, "again in the same thread, new Facts", "(Facts::new)"];
    let lines: Vec<(String, Times)> = names.iter().map(|n| (*n).to_owned()).zip(whole).collect();
    print::table(&format!("The whole catalogue, {} facts", order.len()), "µs", 1.0, WHOLE, &lines);
    let first = || lines.first().cloned();
    let listed = |times: BTreeMap<&str, Times>| -> Vec<(String, Times)> {
        let mut all: Vec<(String, Times)> = times.into_iter().map(|(n, t)| (n.to_owned(), t)).collect();
        all.sort_by(|a, b| b.1.median().total_cmp(&a.1.median()));
        first().into_iter().chain(all).collect()
    };
    print::table("By subject of the catalogue, its own facts", "µs", 1.0, WHOLE, &listed(subjects));
    let mut dearest = listed(facts);
    dearest.truncate(MOST + 1);
    let all = Facts::new(catalogue, &sheet);
    for (name, _) in dearest.iter_mut().skip(1) {
        let needs = catalogue.info(name).map(|i| i.needs.as_slice()).unwrap_or_default();
        let spread = needs.iter().filter(|n| all.one(n).is_some_and(|n| n.uncertainty() > 0.0)).count();
        *name = format!("{name} ({spread} uncertain needs)");
    }
    print::table("The facts that cost most, without what they need", "µs", 1.0, WHOLE, &dearest);
    Ok(())
}

/// µs: the three lines of the whole, and each fact's own.
fn once(catalogue: &Catalogue, sheet: &Sheet, order: &[&FactInfo]) -> ([f64; 3], Vec<f64>) {
    let micros = |since: Instant| since.elapsed().as_secs_f64() * 1e6;
    let start = Instant::now();
    let facts = Facts::new(catalogue, sheet);
    let made = micros(start);
    let each = order.iter().map(|info| {
        let from = Instant::now();
        black_box(facts.get(info.id));
        micros(from)
    });
    let each: Vec<f64> = each.collect();
    let whole = micros(start);
    let start = Instant::now();
    let facts = Facts::new(catalogue, sheet);
    for info in order {
        black_box(facts.get(info.id));
    }
    ([whole, micros(start), made], each)
}

/// Every fact after those that it needs, so that its time is its own.
fn order(catalogue: &Catalogue) -> Vec<&FactInfo> {
    fn visit<'c>(
        catalogue: &'c Catalogue,
        info: &'c FactInfo,
        seen: &mut BTreeSet<&'c str>,
        out: &mut Vec<&'c FactInfo>,
    ) {
        if seen.insert(info.id) {
            for need in info.needs.iter().chain(&info.series).filter_map(|n| catalogue.info(n)) {
                visit(catalogue, need, seen, out);
            }
            out.push(info);
        }
    }
    let (mut seen, mut out) = (BTreeSet::new(), Vec::new());
    for info in catalogue.all() {
        visit(catalogue, info, &mut seen, &mut out);
    }
    out
}

/// Which file of the catalogue a fact is written in: the one with its name and the beginning of what it says of it.
fn owners<'a>(all: &[&'a FactInfo]) -> Result<BTreeMap<&'a str, String>, Failed> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../host/facts/src/catalogue"))? {
        let path = entry?.path();
        if let Some(stem) = path.file_stem() {
            files.push((stem.to_string_lossy().into_owned(), std::fs::read_to_string(&path)?));
        }
    }
    files.sort();
    let mut owners = BTreeMap::new();
    for info in all {
        let id = format!("\"{}\"", info.series.unwrap_or(info.id));
        let about: String = info.about.chars().take(24).collect();
        let has = |(_, text): &&(String, String)| text.contains(&id);
        let file = files.iter().find(|f| has(f) && f.1.contains(&about)).or_else(|| files.iter().find(has));
        owners.insert(info.id, file.map_or_else(|| "?".to_owned(), |f| f.0.clone()));
    }
    Ok(owners)
}
