//! Deviations that somebody in the shop answers for.

use super::item::Item;
use jiff::civil::Date;
use thou_contract::Level;
use thou_judge::State;
use thou_sheet::Sheet;
use thou_sheet::model::Accepted;

/// Marks what is accepted, and finds the entries that no longer match anything, have ended, or cannot be given.
pub(super) fn apply(sheet: &Sheet, items: &mut Vec<Item>, today: Option<Date>) {
    let mut findings = Vec::new();
    for entry in &sheet.accepted {
        let ended = entry.until.zip(today).is_some_and(|(until, today)| until < today);
        let mut matched = false;
        let mut refused = false;
        for item in items.iter_mut().filter(|i| i.rule == entry.rule && open_to(i) && here(sheet, entry, i)) {
            matched = true;
            if !item.can_be_accepted {
                refused = true;
            } else if !ended {
                item.accepted = Some(entry.clone());
            }
        }
        let (words, level) = if refused {
            ("{rule}: a limit of physics is not open to acceptance; the verdict stands", Level::Warn)
        } else if ended {
            ("{rule}: accepted until {until} and no longer: settle it, or sign it again", Level::Warn)
        } else if !matched {
            ("{rule}: nothing is left to accept here: take the entry out", Level::Note)
        } else {
            continue;
        };
        findings.push(finding(entry, words, level));
    }
    items.extend(findings);
}

/// Marks what is accepted, and says nothing of the entries.
pub(super) fn mark(sheet: &Sheet, items: &mut [Item], today: Option<Date>) {
    for entry in sheet.accepted.iter().filter(|e| e.until.zip(today).is_none_or(|(until, today)| until >= today)) {
        let matches = |i: &&mut Item| i.rule == entry.rule && open_to(i) && here(sheet, entry, i);
        for item in items.iter_mut().filter(matches).filter(|i| i.can_be_accepted) {
            item.accepted = Some(entry.clone());
        }
    }
}

fn open_to(item: &Item) -> bool {
    matches!(item.state, State::NoGo | State::Unproven | State::Look | State::Note | State::Stale)
}

fn here(sheet: &Sheet, entry: &Accepted, item: &Item) -> bool {
    let Some(wanted) = &entry.place else { return true };
    item.place.and_then(|(axis, at)| sheet.places.labels(axis).get(at)).is_some_and(|label| label == wanted)
}

fn finding(entry: &Accepted, words: &str, level: Level) -> Item {
    let mut item = Item::new("host/accepted", "Accepted deviation", "combination", State::from_level(level));
    let until = entry.until.map(|d| d.to_string()).unwrap_or_default();
    item.words = words.replace("{rule}", &entry.rule).replace("{until}", &until);
    item.at_stake = level;
    item.pointer = Some(entry.pointer.clone());
    item.why = "A signature stands for one thing, for a time; past that it hides what nobody has looked at.".to_owned();
    item
}
