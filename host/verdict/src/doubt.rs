//! Readings that may not be what they say, and what hangs on them.
//!
//! One slip of the pen must not come out as eight findings: what is made of a doubtful reading waits until the doubt is
//! settled, or signed for. What is said of the reading itself stands, a no-go above all.

use super::against_sheet::RULE as NOT_AS_STATED;
use super::host_rules::ODD;
use super::item::{Advice, Item};
use std::collections::BTreeSet;
use thou_facts::SheetFacts;
use thou_judge::State;

/// A doubtful reading is no ground to cut metal on.
pub(super) fn settle_first(items: &mut [Item], doubtful: &[Item]) {
    for item in items.iter_mut().filter(|i| i.advice.is_some() && i.fact.is_some()) {
        // a slip of the pen explains a contradiction, and not the other way round
        let of_item = |d: &&Item| d.fact == item.fact && d.place == item.place;
        if let Some(doubt) = doubtful.iter().filter(of_item).max_by_key(|d| d.rule == ODD) {
            let what = if doubt.rule == ODD { "the odd one out" } else { "the contradiction" };
            let words = format!("Settle {what} first ({}): this reading may not be what it says.", doubt.rule);
            item.advice = Some(Advice { words, solved: None });
        }
    }
}

/// What is made of a reading that is doubtful and that nobody signed for is open: neither its go nor its no-go is proven.
pub(super) fn wait(facts: &SheetFacts<'_>, items: &mut [Item]) {
    // what is read outweighs what is stated: that the two disagree is told, and the reading is judged
    let doubtful = |i: &&Item| i.unsettled && i.accepted.is_none() && i.rule != NOT_AS_STATED;
    let doubts: Vec<Item> = items.iter().filter(doubtful).cloned().collect();
    if doubts.is_empty() {
        return;
    }
    for item in items.iter_mut().filter(|i| i.limits.is_some() && i.accepted.is_none() && can_wait(i.state)) {
        let (Some(fact), place) = (item.fact.as_deref(), item.place) else { continue };
        let at = place.map_or(0, |(_, at)| at);
        let Some(Ok(num)) = facts.cells(fact).get(at) else { continue };
        // what is read off the doubtful reading itself stands: a bore that is out of round is no milder for being the only one
        let read_as = facts.info(fact).and_then(|info| info.path).and_then(|p| p.strip_prefix("readings."));
        let own = |d: &Item| {
            let set = d.pointer.as_deref().and_then(|p| p.strip_prefix("/readings/")?.split('/').next());
            d.fact.as_deref() == Some(fact) && d.place == place || set.is_some() && set == read_as
        };
        let behind: BTreeSet<&str> = facts.roots(num).map(|r| r.pointer.as_str()).collect();
        // what is made of it is as doubtful as it is
        let hangs = |d: &&Item| d.pointer.as_deref().is_some_and(|p| behind.contains(p)) && !own(d);
        if let Some(Item { pointer: Some(pointer), rule, .. }) = doubts.iter().find(hangs) {
            item.state = State::Open;
            item.words = format!("waits: {rule} is to be settled first");
            item.wants = vec![pointer.trim_start_matches('/').replace("/at/", " at ").replace('/', ".")];
            item.pointer = Some(pointer.clone());
            item.advice = None;
            item.miss = None;
        }
    }
}

fn can_wait(state: State) -> bool {
    matches!(state, State::NoGo | State::Unproven | State::Look | State::Note | State::Go)
}
