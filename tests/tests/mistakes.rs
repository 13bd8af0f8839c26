//! Mistakes that happen in shops, one at a time in a good sheet: each is said as loudly as `tests/mistakes` plans.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde::Deserialize;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::Sheet;
use thou::verdict::{State, Verdict, judge};

#[derive(Deserialize)]
struct Mistakes {
    mistake: Vec<Mistake>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Mistake {
    /// What happened.
    what: String,
    /// In which of `JOBS`.
    job: String,
    /// The good sheet.
    sheet: String,
    /// Where, as a JSON pointer.
    at: String,
    /// What is written there by mistake; what is left out on the sheet has none.
    is: Option<toml::Value>,
    /// How loudly it has to be said at least.
    says: String,
    /// Whether the program does not say it yet.
    #[serde(default)]
    missed: bool,
}

/// What is done in a shop for one engine, in its order.
const JOBS: [&str; 10] =
    ["order", "machining", "measuring", "balance", "heads", "porting", "assembly", "dyno", "fuel", "hand-over"];

/// How loud a verdict is: 3 a no-go, 2 what leaves the engine unproven, 1 a look.
fn loudness(state: State) -> u8 {
    match state {
        State::NoGo => 3,
        State::Unproven | State::Open | State::Stale | State::CannotSay => 2,
        State::Look => 1,
        State::Note | State::Go | State::DoesNotApply => 0,
    }
}

/// The loudest that is said of this sheet and was not said of the good one; a sheet that is refused is as loud as can be.
fn said(value: &Value, good: Option<&Verdict>, packs: &[LoadedPack]) -> (u8, Option<Verdict>) {
    let text = serde_json::to_string(value).unwrap();
    let Ok(sheet) = Sheet::parse("sheet.json", &text, Path::new(&thou_tests::file("sample-builds"))) else {
        return (3, None);
    };
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let verdict = judge(&sheet, &facts, packs, Some(jiff::civil::date(2026, 11, 30)));
    let new = |item: &&thou::verdict::Item| {
        let before = good.into_iter().flat_map(|v| &v.items);
        !before
            .into_iter()
            .any(|b| b.rule == item.rule && b.place == item.place && b.fact == item.fact && b.state <= item.state)
    };
    let loudest = verdict.items.iter().filter(new).map(|i| loudness(i.state)).max().unwrap_or(0);
    let unsettled = verdict.items.iter().filter(new).any(|i| i.unsettled);
    (if unsettled { loudest.max(2) } else { loudest }, Some(verdict))
}

/// The sheet with the mistake in it.
fn with(good: &Value, mistake: &Mistake) -> Value {
    let mut value = good.clone();
    let (parent, key) = mistake.at.rsplit_once('/').unwrap();
    let parent = value.pointer_mut(parent).unwrap_or_else(|| panic!("{}: no such place", mistake.what));
    let is = mistake.is.as_ref().map(|is| serde_json::to_value(is).unwrap());
    match (parent, is) {
        (Value::Object(of), Some(is)) => of.insert(key.to_owned(), is),
        (Value::Object(of), None) => {
            of.remove(key).map(|_| None).unwrap_or_else(|| panic!("{}: not there", mistake.what))
        }
        (Value::Array(of), Some(is)) => Some(std::mem::replace(&mut of[key.parse::<usize>().unwrap()], is)),
        _ => panic!("{}: no such place", mistake.what),
    };
    assert_ne!(value, *good, "{}: nothing changed", mistake.what);
    value
}

/// How the mistake was said otherwise than planned, if it was.
fn otherwise(mistake: &Mistake, good: &(Value, Option<Verdict>), packs: &[LoadedPack]) -> Option<String> {
    let wanted = match mistake.says.as_str() {
        "no-go" => 3,
        "open" => 2,
        "look" => 1,
        other => panic!("{}: says = \"{other}\"", mistake.what),
    };
    let (came, _) = said(&with(&good.0, mistake), good.1.as_ref(), packs);
    ((came >= wanted) == mistake.missed).then(|| {
        let Mistake { sheet, what, at, is, .. } = mistake;
        format!("{sheet}: {what} ({at} = {is:?}): came {came}, wanted {wanted}")
    })
}

fn mistakes() -> Vec<Mistake> {
    let folder = thou_tests::file("tests/mistakes");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let read = |file| toml::from_str::<Mistakes>(&std::fs::read_to_string(file).unwrap()).unwrap().mistake;
    files.iter().flat_map(read).collect()
}

#[test]
fn mistakes_are_said_as_loudly_as_planned() {
    let (packs, mistakes) = (thou_tests::builtin(), mistakes());
    let good: BTreeMap<&str, (Value, Option<Verdict>)> = mistakes
        .iter()
        .map(|m| m.sheet.as_str())
        .collect::<BTreeSet<_>>()
        .into_iter()
        .map(|sheet| {
            let value = thou_tests::value(&format!("sample-builds/{sheet}.json"));
            let verdict = said(&value, None, &packs).1;
            (sheet, (value, verdict))
        })
        .collect();
    let wrong: Vec<String> = std::thread::scope(|scope| {
        let work: Vec<_> = mistakes
            .chunks(mistakes.len().div_ceil(2))
            .map(|part| {
                let (good, packs) = (&good, &packs);
                scope.spawn(move || {
                    part.iter().filter_map(|m| otherwise(m, &good[m.sheet.as_str()], packs)).collect::<Vec<_>>()
                })
            })
            .collect();
        work.into_iter().flat_map(|w| w.join().unwrap()).collect()
    });
    assert!(wrong.is_empty(), "{} of {} not as planned: {wrong:#?}", wrong.len(), mistakes.len());
}

#[test]
fn mistakes_are_of_every_job_and_sheet() {
    let mistakes = mistakes();
    let jobs: BTreeSet<&str> = mistakes.iter().map(|m| m.job.as_str()).collect();
    assert_eq!(jobs, BTreeSet::from(JOBS));
    let sheets: BTreeSet<String> = mistakes.iter().map(|m| format!("sample-builds/{}.json", m.sheet)).collect();
    let there: BTreeSet<String> =
        ["sample-builds", "sample-builds/right"].iter().flat_map(|folder| thou_tests::samples(folder)).collect();
    assert_eq!(sheets, there);
    let mut once = BTreeSet::new();
    let twice: Vec<&str> = mistakes
        .iter()
        .filter(|m| !once.insert((&m.sheet, &m.at, format!("{:?}", m.is))))
        .map(|m| m.what.as_str())
        .collect();
    assert!(twice.is_empty(), "{twice:?}");
}
