//! Readings that may not be what they say, and what hangs on them.
//!
//! One slip of the pen must not come out as eight findings: what is made of a doubtful reading waits until the doubt is
//! settled, or signed for. What is said of the reading itself stands, a no-go above all.

use super::against_sheet::RULE as NOT_AS_STATED;
use super::item::{Advice, ArgValue, Item};
use super::odd_one_out::ODD;
use super::rule_pack::RulePack;
use std::collections::{BTreeMap, BTreeSet};
use thou_contract::Rule;
use thou_facts::{Num, SheetFacts};
use thou_fields::Points;
use thou_judge::State;
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

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

/// What is made of a reading that is doubtful and that nobody signed for is open, and so is what is held to a limit that is
/// made of it: neither a go nor a no-go is proven. Where a no-go waits, the doubt itself holds in its place: as it is
/// written, this must not run.
pub(super) fn wait<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P], items: &mut [Item]) {
    // what is read outweighs what is stated: that the two disagree is told, and the reading is judged
    let doubtful = |i: &&Item| i.unsettled && i.accepted.is_none() && i.rule != NOT_AS_STATED;
    let doubts: Vec<Item> = items.iter().filter(doubtful).cloned().collect();
    if doubts.is_empty() {
        return;
    }
    let behind = Behind::of(sheet, facts, packs);
    let mut held: BTreeMap<Finding, BTreeSet<String>> = BTreeMap::new();
    for item in items.iter_mut().filter(|i| i.limits.is_some() && i.accepted.is_none() && can_wait(i.state)) {
        let pointers = behind.pointers(item);
        // what is read together with it, such as a bore's taper, is as doubtful as it is
        let hangs = |d: &&Item| {
            let own = d.place == item.place && (d.fact == item.fact || behind.one_reading(d, item));
            d.pointer.as_deref().is_some_and(|p| pointers.contains(p)) && !own
        };
        let Some(doubt) = doubts.iter().find(hangs) else { continue };
        let Some(pointer) = &doubt.pointer else { continue };
        if item.state == State::NoGo {
            held.entry(finding(doubt)).or_default().insert(item.title.to_lowercase());
        }
        item.state = State::Open;
        item.waits = true;
        item.words = format!("waits: {} is to be settled first", doubt.rule);
        item.wants = vec![pointer.trim_start_matches('/').replace("/at/", " at ").replace('/', ".")];
        item.pointer = Some(pointer.clone());
        item.advice = None;
        item.miss = None;
    }
    for doubt in items.iter_mut().filter(|i| i.unsettled) {
        if let Some(titles) = held.get(&finding(doubt)) {
            doubt.state = State::NoGo;
            doubt.args.insert("held".to_owned(), ArgValue::Word(named(titles)));
            doubt.words.push_str("; as it is written it must not run: {held}");
        }
    }
}

/// What waits that is named before the rest is only counted.
const NAMED: usize = 3;

fn named(titles: &BTreeSet<String>) -> String {
    let names: Vec<&str> = titles.iter().take(NAMED).map(String::as_str).collect();
    match titles.len().checked_sub(NAMED) {
        Some(more) if more > 0 => format!("{} and {more} more", names.join(", ")),
        _ => names.join(", "),
    }
}

/// What a judged value and its limits are made of.
struct Behind<'a> {
    sheet: &'a Sheet,
    facts: &'a SheetFacts<'a>,
    /// What each rule makes its limits of, by `pack/rule`.
    of_rules: BTreeMap<String, Vec<&'a str>>,
}

impl<'a> Behind<'a> {
    fn of<P: RulePack>(sheet: &'a Sheet, facts: &'a SheetFacts<'a>, packs: &'a [P]) -> Self {
        let rules = packs.iter().map(P::manifest).flat_map(|m| m.rules.iter().map(move |rule| (m, rule)));
        let inputs = |rule: &'a Rule| rule.needs.iter().chain(&rule.takes).map(String::as_str).collect();
        let of_rules = rules.map(|(m, rule)| (format!("{}/{}", m.id, rule.id), inputs(rule))).collect();
        Self { sheet, facts, of_rules }
    }

    /// Where the sheet has them.
    fn pointers(&self, item: &Item) -> BTreeSet<&'a str> {
        let inputs = self.of_rules.get(&item.rule).into_iter().flatten().copied();
        let facts = item.fact.as_deref().into_iter().chain(inputs);
        facts
            .flat_map(|fact| self.cells(fact, item.place))
            .flat_map(|num| self.facts.roots(num))
            .map(|r| &*r.pointer)
            .collect()
    }

    /// Whether both are of one set that has one reading a place, and so of one figure.
    fn one_reading(&self, a: &Item, b: &Item) -> bool {
        let path = |item: &Item| self.facts.info(item.fact.as_deref()?)?.path;
        let reading = path(a).filter(|path| path_of_one(path));
        reading.is_some() && reading == path(b)
    }

    /// A fact at a place, or everywhere where it has no such place.
    fn cells(&self, fact: &str, place: Option<(Axis, usize)>) -> impl Iterator<Item = &'a Num> {
        let cells = self.facts.info(fact).map_or(&[][..], |info| self.facts.cells(info.id));
        let axis = self.facts.info(fact).map(|info| info.axis);
        let at = axis.zip(place).and_then(|(axis, (of, at))| self.sheet.places.project(axis, of, at));
        let here = at.and_then(|at| cells.get(at)).map_or(cells, std::slice::from_ref);
        here.iter().filter_map(|c| c.as_ref().ok())
    }
}

fn path_of_one(path: &str) -> bool {
    let reading = path.strip_prefix("readings.").and_then(thou_fields::reading);
    reading.is_some_and(|r| r.points == Points::One)
}

/// What tells one finding from the others.
type Finding = (String, Option<String>, Option<(Axis, usize)>);

fn finding(item: &Item) -> Finding {
    (item.rule.clone(), item.fact.clone(), item.place)
}

fn can_wait(state: State) -> bool {
    matches!(state, State::NoGo | State::Unproven | State::Look | State::Note | State::Go)
}
