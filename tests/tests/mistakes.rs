//! Mistakes that happen in shops, one at a time in a good sheet: each is said as loudly as `tests/mistakes` plans.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde::Deserialize;
use serde_json::Value;
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
    /// The good sheet.
    sheet: String,
    /// Where, as a JSON pointer.
    at: String,
    /// What is written there by mistake.
    is: toml::Value,
    /// How loudly it has to be said at least.
    says: String,
    /// Whether the program does not say it yet.
    #[serde(default)]
    missed: bool,
}

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

#[test]
fn mistakes_are_said_as_loudly_as_planned() {
    let packs = thou_tests::builtin();
    let folder = thou_tests::file("tests/mistakes");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let (mut tried, mut wrong) = (0, Vec::new());
    for file in files {
        let all: Mistakes = toml::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap();
        for mistake in all.mistake {
            tried += 1;
            let mut value = thou_tests::value(&format!("sample-builds/{}.json", mistake.sheet));
            let (_, good) = said(&value, None, &packs);
            let place = value.pointer_mut(&mistake.at);
            let place = match place {
                Some(place) => place,
                None => {
                    let (parent, key) = mistake.at.rsplit_once('/').unwrap();
                    let parent = value.pointer_mut(parent).and_then(Value::as_object_mut);
                    parent
                        .unwrap_or_else(|| panic!("{}: no such place", mistake.what))
                        .entry(key)
                        .or_insert(Value::Null)
                }
            };
            *place = serde_json::to_value(&mistake.is).unwrap();
            let wanted = match mistake.says.as_str() {
                "no-go" => 3,
                "open" => 2,
                "look" => 1,
                other => panic!("{}: says = \"{other}\"", mistake.what),
            };
            let (came, _) = said(&value, good.as_ref(), &packs);
            if (came >= wanted) == mistake.missed {
                wrong.push(format!(
                    "{} ({} = {:?}): came {came}, wanted {wanted}",
                    mistake.what, mistake.at, mistake.is
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {tried} not as planned: {wrong:#?}", wrong.len());
}
