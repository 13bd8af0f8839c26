//! Days that cannot be: after today, before the work they depend on, past a gauge's calibration, after the assembly.

use super::item::{Advice, Item};
use jiff::{Span, civil::Date};
use std::collections::BTreeMap;
use thou_contract::Level;
use thou_fields::FieldValue;
use thou_judge::State;
use thou_sheet::Sheet;

/// The rule of a day that cannot be.
const RULE: &str = "host/day";

/// Work that leaves abrasive or chips in the block; common practice, no source.
const LEAVES_GRIT: [&str; 5] = ["bored", "honed", "line-honed", "decked", "lifter-bores-bushed"];

/// Everything about days; `today` is left out where nobody knows it.
pub(super) fn dates(sheet: &Sheet, today: Option<Date>) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(today) = today {
        items.extend(in_the_future(sheet, today));
    }
    items.extend(washed_before(sheet));
    items.extend(made_after_assembly(sheet));
    items.extend(past_calibration(sheet));
    items.extend(meters_run_back(sheet));
    items
}

/// A meter that stands lower now than it did at a service.
fn meters_run_back(sheet: &Sheet) -> Vec<Item> {
    let services = sheet.root.get("serviced").and_then(|s| s.as_object());
    let mut items = Vec::new();
    for meter in ["passes", "miles", "hours", "events"] {
        let Some(now) = sheet.root.get("meters").and_then(|m| m.get(meter)) else { continue };
        let Some((stands, unit)) = figure(now.as_f64(), now.as_str()) else { continue };
        let then = services.into_iter().flatten().filter_map(|(name, service)| {
            let at = service.get("at")?.get(meter)?;
            let (stood, of) = figure(at.as_f64(), at.as_str())?;
            (of == unit && stood > stands).then_some((stood, name))
        });
        if let Some((stood, service)) = then.max_by(|a, b| a.0.total_cmp(&b.0)) {
            let mut back = item(
                State::Look,
                "hand-over",
                format!("{meter} stand at {stands}, and stood at {stood} when {service} was done"),
                "Write what the meter reads now; one that was set back goes on from the old figure.",
                "Every life is counted from these two figures.",
                format!("/meters/{meter}"),
            );
            "A meter that ran back".clone_into(&mut back.title);
            items.push(back);
        }
    }
    items
}

/// A meter's figure and its unit, as a number or as text.
fn figure(number: Option<f64>, text: Option<&str>) -> Option<(f64, String)> {
    if let Some(number) = number {
        return Some((number, String::new()));
    }
    let (number, unit) = text?.split_once(' ')?;
    Some((number.parse().ok()?, unit.to_owned()))
}

fn item(state: State, operation: &str, words: String, advice: &str, why: &str, pointer: String) -> Item {
    let mut item = Item::new(RULE, "A day that cannot be", operation, state);
    item.words = words;
    item.advice = Some(Advice { words: advice.to_owned(), solved: None });
    item.why = why.to_owned();
    item.pointer = Some(pointer);
    item
}

/// Days that the sheet has of what was done, and where; what is planned may lie ahead.
fn done(sheet: &Sheet) -> Vec<(Date, String)> {
    let sets = sheet.readings.values().flatten().filter_map(|s| Some((s.when?, format!("{}/when", s.pointer))));
    let work = sheet.work.iter().map(|w| (w.when, w.pointer.clone()));
    let stated = thou_fields::fields().iter().filter(|f| f.value == FieldValue::Day && f.section() != "intent");
    let stated = stated.filter_map(|f| day(sheet, f.path));
    sets.chain(work).chain(stated).collect()
}

fn day(sheet: &Sheet, path: &str) -> Option<(Date, String)> {
    let (value, pointer) = sheet.stated(path)?;
    Some((value.as_str()?.parse().ok()?, pointer))
}

fn in_the_future(sheet: &Sheet, today: Date) -> Vec<Item> {
    let ahead = done(sheet).into_iter().filter(|(when, _)| *when > today);
    ahead
        .map(|(when, pointer)| {
            item(
                State::Look,
                "combination",
                format!("{when} is after today, {today}"),
                "Write the day that it was done.",
                "What goes stale is told by its day: one in the future never does.",
                pointer,
            )
        })
        .collect()
}

/// Metal was cut after the last wash.
fn washed_before(sheet: &Sheet) -> Option<Item> {
    let (washed, pointer) = day(sheet, "finish.washed")?;
    let cut = sheet.work.iter().filter(|w| LEAVES_GRIT.contains(&w.did.as_str())).max_by_key(|w| w.when)?;
    (washed < cut.when).then(|| {
        let mut item = item(
            State::Stale,
            "assembly",
            format!("washed {washed}, {} {}: what that left is in the block", cut.did, cut.when),
            "Wash it again with a brush in every bore and passage, and write the day down.",
            "Abrasive in a bore or a gallery is in the bearings at the first start.",
            pointer,
        );
        item.at_stake = Level::Hold;
        item.stale = Some(super::item::Stale { did: cut.did.clone(), when: cut.when, read: washed, now_about: None });
        item
    })
}

/// A part whose card is younger than the engine it is in.
fn made_after_assembly(sheet: &Sheet) -> Vec<Item> {
    let Some(assembled) = sheet.work.iter().filter(|w| w.did == "assembled").map(|w| w.when).max() else {
        return Vec::new();
    };
    let cards = thou_fields::fields().iter().filter(|f| f.value == FieldValue::Day && f.path.ends_with(".card.date"));
    let late = cards.filter_map(|f| day(sheet, f.path)).filter(|(when, _)| *when > assembled);
    late.map(|(when, pointer)| {
        item(
            State::Look,
            "assembly",
            format!("the card is of {when}, and the engine was assembled {assembled}"),
            "See that this is the card of the part in the engine, and write down what was changed.",
            "A card that is younger than the engine is another part's.",
            pointer,
        )
    })
    .collect()
}

/// How long a calibration is good for, months; common practice, no source: the shop's own interval may be another.
const CALIBRATED_FOR: i64 = 12;

/// Readings by a gauge whose calibration had run out.
fn past_calibration(sheet: &Sheet) -> Vec<Item> {
    let due: BTreeMap<&str, Date> = sheet
        .gauges
        .iter()
        .filter_map(|(name, gauge)| {
            let last = sheet.root.pointer(&format!("{}/certificate", gauge.pointer))?.as_str()?;
            let due = last.parse::<Date>().ok()?.checked_add(Span::new().months(CALIBRATED_FOR)).ok()?;
            Some((name.as_str(), due))
        })
        .collect();
    let mut items = Vec::new();
    for set in sheet.readings.values().flatten() {
        let (Some(when), Some((name, due))) = (set.when, set.gauge.as_deref().and_then(|g| due.get_key_value(g)))
        else {
            continue;
        };
        if when > *due {
            items.push(item(
                State::Look,
                "combination",
                format!("read {when} with {name}, whose calibration ran out {due}"),
                "Have the gauge calibrated and read again, or check it against a master and write that down.",
                "What a gauge past its day reads, nobody can prove.",
                format!("{}/when", set.pointer),
            ));
        }
    }
    items
}
