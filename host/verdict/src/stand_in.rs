//! Rules that another pack's rule stands in for. Nothing of it happens in silence: the old rule is run too, and what it
//! was, what it is now and what it would have said is kept for the page.
//!
//! What physics forbids stays. A hold of anything else that would be looser, or gone, stays beside the new rule until the
//! shop signs for it in the sheet's `looser` list; then it is gone, and stands at the top of every page.

use super::item::{Item, ServiceItem};
use super::judge::{self, Worn};
use super::replaced::{Hold, Replaced};
use super::verdict::Verdict;
use super::window_item::WindowItem;
use std::collections::{BTreeMap, BTreeSet};
use thou_contract::{Basis, Level};
use thou_facts::SheetFacts;
use thou_judge::{Limits, SAME, State};
use thou_sheet::Sheet;
use thou_sheet::model::Looser;

/// The rules that stand in for a rule on a fact at a place; what a finding or a service replaces is on no fact.
#[derive(Default)]
pub(super) struct StandIns(BTreeMap<(String, String, Option<usize>), BTreeSet<String>>);

impl StandIns {
    /// That `by` stands in for these, on this fact and at this place.
    pub(super) fn add(&mut self, others: &[String], fact: &str, place: Option<usize>, by: &str) {
        for other in others {
            self.0.entry((other.clone(), fact.to_owned(), place)).or_default().insert(by.to_owned());
        }
    }

    /// Who stands in for a rule there.
    fn of(&self, rule: &str, fact: &str, place: Option<usize>) -> BTreeSet<String> {
        let mut places = vec![None];
        places.extend(place.map(Some));
        let at = |p| self.0.get(&(rule.to_owned(), fact.to_owned(), p));
        places.into_iter().filter_map(at).flatten().cloned().collect()
    }

    pub(super) fn covers(&self, rule: &str, fact: &str, place: Option<usize>) -> bool {
        !self.of(rule, fact, place).is_empty()
    }

    /// Who stands in for a rule anywhere.
    fn anywhere(&self, rule: &str) -> BTreeSet<String> {
        self.0.iter().filter(|((other, _, _), _)| other == rule).flat_map(|(_, by)| by).cloned().collect()
    }
}

/// Takes out what others stand in for, and notes it. `titles` are the packs' by their names.
pub(super) fn stand_in(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    verdict: &mut Verdict,
    stand_ins: &StandIns,
    titles: &BTreeMap<String, String>,
    stood_in_for: impl Fn(&str) -> bool,
) {
    if stand_ins.0.is_empty() {
        return;
    }
    let mut notes = Notes { sheet, titles, all: Vec::new() };
    notes.windows(facts, verdict, stand_ins);
    notes.findings(verdict, stand_ins, stood_in_for);
    notes.services(verdict, stand_ins);
    verdict.replaced = notes.all;
}

struct Notes<'a> {
    sheet: &'a Sheet,
    titles: &'a BTreeMap<String, String>,
    all: Vec<Replaced>,
}

impl Notes<'_> {
    /// The note of a rule on a fact, with these that stand in for it.
    fn note(&mut self, rule: &str, title: &str, fact: Option<&str>, by: &BTreeSet<String>) -> Option<&mut Replaced> {
        let by: BTreeMap<String, String> = by
            .iter()
            .map(|id| {
                let title = self.titles.get(pack(id)).cloned().unwrap_or_default();
                (id.clone(), title)
            })
            .collect();
        let at = self.all.iter().position(|r| r.rule == rule && r.fact.as_deref() == fact);
        if let Some(at) = at {
            let note = self.all.get_mut(at)?;
            note.by.extend(by);
            return Some(note);
        }
        self.all.push(Replaced {
            rule: rule.to_owned(),
            title: title.to_owned(),
            fact: fact.map(str::to_owned),
            by,
            was: Vec::new(),
            now: Vec::new(),
            lives: (Vec::new(), Vec::new()),
            said: Vec::new(),
            says: None,
            hold: Hold::Kept,
            signed: None,
        });
        self.all.last_mut()
    }

    /// The entry of the sheet that answers for it.
    fn entry(&self, rule: &str, by: &BTreeSet<String>) -> Option<Looser> {
        self.sheet.looser.iter().find(|e| e.rule == rule && by.contains(&e.instead)).cloned()
    }

    fn windows(&mut self, facts: &SheetFacts<'_>, verdict: &mut Verdict, stand_ins: &StandIns) {
        let all = std::mem::take(&mut verdict.windows);
        let counts: Vec<bool> = {
            let worn = Worn::of(&all);
            all.iter().map(|w| worn.counts(self.sheet, facts, w)).collect()
        };
        // what stays whatever else is decided: windows that nobody stands in for, and what physics forbids
        let staying: Vec<(WindowItem, bool)> = all
            .iter()
            .zip(&counts)
            .filter_map(|(w, counts)| match stand_ins.covers(&w.rule, &w.fact, w.place) {
                false => Some((w.clone(), *counts)),
                true => of_physics(w).map(|w| (w, *counts)),
            })
            .collect();
        for (window, counts) in all.into_iter().zip(counts) {
            let by = stand_ins.of(&window.rule, &window.fact, window.place);
            let from_outside = by.iter().any(|id| pack(id) != pack(&window.rule));
            let physics = of_physics(&window);
            // what physics alone forbids is not replaced at all
            if !from_outside || !counts || physics.as_ref() == Some(&window) {
                verdict.windows.extend(if by.is_empty() { Some(window) } else { physics });
                continue;
            }
            let others: Vec<&WindowItem> =
                staying.iter().filter(|(w, c)| *c && w.fact == window.fact).map(|(w, _)| w).collect();
            let places = facts.cells(&window.fact).len();
            let hold = hold(&window, &others, places);
            let signed = self.entry(&window.rule, &by);
            let now: Vec<WindowItem> = others
                .iter()
                .filter(|w| by.contains(&w.rule) && meets(w, window.place))
                .map(|w| (*w).clone())
                .collect();
            let beside = hold != Hold::Kept && signed.is_none();
            verdict.windows.extend(if beside { Some(window.clone()) } else { physics });
            let Some(note) = self.note(&window.rule, &window.title, Some(&window.fact), &by) else { continue };
            note.hold = note.hold.max(hold);
            note.signed = note.signed.take().or(signed);
            for new in now {
                if !note.now.contains(&new) {
                    note.now.push(new);
                }
            }
            note.was.push(window);
        }
    }

    /// Findings, and rules of windows that could not say anything and for which others answer everywhere.
    fn findings(&mut self, verdict: &mut Verdict, stand_ins: &StandIns, stood_in_for: impl Fn(&str) -> bool) {
        let all = std::mem::take(&mut verdict.items);
        let mut kept = Vec::new();
        for item in &all {
            let by = stand_ins.of(&item.rule, "", None);
            let unsaid = matches!(item.state, State::Open | State::CannotSay | State::DoesNotApply);
            let finding = !by.is_empty() && item.can_be_accepted;
            let takes = finding || unsaid && by.is_empty() && stood_in_for(&item.rule);
            if !takes {
                kept.push(item.clone());
                continue;
            }
            let by = if finding { by } else { stand_ins.anywhere(&item.rule) };
            if by.iter().all(|id| pack(id) == pack(&item.rule)) {
                continue;
            }
            let hold = match item.state {
                State::DoesNotApply => Hold::Kept,
                _ if item.at_stake < Level::Hold => Hold::Kept,
                // what could not say whether it holds
                State::Open | State::CannotSay => Hold::Dropped,
                _ => {
                    let new: Vec<&Item> = all.iter().filter(|i| by.contains(&i.rule)).collect();
                    let same_place = |i: &&&Item| i.place.is_none() || i.place == item.place;
                    let holds = new.iter().filter(same_place).any(|i| i.state == State::NoGo);
                    let could = new.iter().any(|i| i.at_stake == Level::Hold);
                    if holds || could && item.state != State::NoGo { Hold::Kept } else { Hold::Dropped }
                }
            };
            let signed = self.entry(&item.rule, &by);
            let says = all.iter().filter(|i| by.contains(&i.rule)).map(|i| i.state).min();
            if hold != Hold::Kept && signed.is_none() {
                kept.push(item.clone());
            }
            let Some(note) = self.note(&item.rule, &item.title, None, &by) else { continue };
            note.hold = note.hold.max(hold);
            note.signed = note.signed.take().or(signed);
            note.says = says;
            note.said.push(item.clone());
        }
        verdict.items = kept;
    }

    fn services(&mut self, verdict: &mut Verdict, stand_ins: &StandIns) {
        let (gone, kept): (Vec<ServiceItem>, Vec<ServiceItem>) =
            std::mem::take(&mut verdict.services).into_iter().partition(|s| stand_ins.covers(&s.rule, "", None));
        for service in gone {
            let by = stand_ins.of(&service.rule, "", None);
            if by.iter().all(|id| pack(id) == pack(&service.rule)) {
                continue;
            }
            let now: Vec<ServiceItem> = kept.iter().filter(|s| by.contains(&s.rule)).cloned().collect();
            let Some(note) = self.note(&service.rule, &service.title, None, &by) else { continue };
            for new in now {
                if !note.lives.1.contains(&new) {
                    note.lives.1.push(new);
                }
            }
            note.lives.0.push(service);
        }
        verdict.services = kept;
    }
}

/// The pack of a rule.
fn pack(rule: &str) -> &str {
    rule.split('/').next().unwrap_or(rule)
}

/// Whether a window counts at a place.
fn meets(window: &WindowItem, place: Option<usize>) -> bool {
    window.place.is_none() || place.is_none() || window.place == place
}

/// What physics forbids of a window; none where it forbids nothing.
fn of_physics(window: &WindowItem) -> Option<WindowItem> {
    let Limits { never_below, low, high, never_above, .. } = window.limits;
    let never = window.hold_basis == Basis::Physics;
    let works = window.levels.physics;
    let limits = Limits {
        never_below: never_below.filter(|_| never),
        low: low.filter(|_| works && window.levels.below == Level::Hold),
        aim: None,
        high: high.filter(|_| works && window.levels.above == Level::Hold),
        never_above: never_above.filter(|_| never),
    };
    (limits != Limits::default()).then(|| WindowItem { limits, ..window.clone() })
}

/// What becomes of what a window holds, where these count in its stead.
fn hold(window: &WindowItem, others: &[&WindowItem], places: usize) -> Hold {
    let at = |place: usize| {
        let here = || others.iter().filter(move |w| w.place.is_none_or(|p| p == place));
        let least = here().filter_map(|w| floor(w)).reduce(f64::max);
        let most = here().filter_map(|w| ceiling(w)).reduce(f64::min);
        let low = kept(floor(window), least, |old, new| old - new);
        low.max(kept(ceiling(window), most, |old, new| new - old))
    };
    let here = |place: &usize| window.place.is_none_or(|p| p == *place);
    (0..places).filter(here).map(at).max().unwrap_or(Hold::Kept)
}

/// `by` is how much looser the new limit is.
fn kept(old: Option<f64>, new: Option<f64>, by: impl Fn(f64, f64) -> f64) -> Hold {
    match (old, new) {
        (None, _) => Hold::Kept,
        (Some(_), None) => Hold::Dropped,
        (Some(old), Some(new)) if by(old, new) > SAME * old.abs().max(new.abs()) => Hold::Loosened,
        _ => Hold::Kept,
    }
}

/// The least that does not hold.
fn floor(window: &WindowItem) -> Option<f64> {
    let low = window.limits.low.filter(|_| window.levels.below == Level::Hold);
    [window.limits.never_below, low].into_iter().flatten().reduce(f64::max)
}

/// The most that does not hold.
fn ceiling(window: &WindowItem) -> Option<f64> {
    let high = window.limits.high.filter(|_| window.levels.above == Level::Hold);
    [window.limits.never_above, high].into_iter().flatten().reduce(f64::min)
}

/// Runs what was replaced, too. `last` does to its items what is done to all others before a page is made of them.
/// What the old rule would hold and nothing else holds stays, unless somebody signed for it.
pub(super) fn run_too(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    replaced: &mut [Replaced],
    items: &mut Vec<Item>,
    last: impl Fn(&mut Vec<Item>),
) {
    for note in replaced.iter_mut().filter(|r| !r.was.is_empty()) {
        let mut said = judge::without_sizes(sheet, facts, &note.was);
        last(&mut said);
        if !note.counts_beside() {
            for item in said.iter().filter(|i| holds(i)) {
                let same = |i: &&Item| i.fact == item.fact && (i.place == item.place || i.place.is_none());
                let held = items.iter().filter(same).any(|i| holds(i) && i.state <= worst(item.state));
                if !held {
                    note.hold = note.hold.max(Hold::Loosened);
                    if note.signed.is_none() {
                        items.push(item.clone());
                    }
                }
            }
        }
        note.said.extend(said);
    }
}

/// Whether it keeps the exit status from nothing at hold.
fn holds(item: &Item) -> bool {
    let open = matches!(item.state, State::Open | State::Unproven | State::Stale | State::CannotSay);
    item.accepted.is_none() && (item.state == State::NoGo || open && item.at_stake == Level::Hold)
}

/// The best state that comes to the same exit status.
fn worst(state: State) -> State {
    if state == State::NoGo { State::NoGo } else { State::CannotSay }
}

/// Entries that nothing is signed with.
pub(super) fn idle_entries(sheet: &Sheet, replaced: &[Replaced]) -> Vec<Item> {
    let needed = |entry: &Looser| {
        let quiet = |s| matches!(s, State::Go | State::Note | State::DoesNotApply);
        replaced.iter().any(|r| {
            r.signed.as_ref() == Some(entry) && (r.hold != Hold::Kept || r.said.iter().any(|i| !quiet(i.state)))
        })
    };
    let idle = sheet.looser.iter().filter(|e| !needed(e));
    idle.map(|entry| {
        let mut item = Item::new("host/looser", "Looser limit", "combination", State::Note);
        item.words = format!(
            "{} in the stead of {}: nothing of it is looser here, or no pack that was loaded has it: take the entry out",
            entry.instead, entry.rule
        );
        item.at_stake = Level::Note;
        item.pointer = Some(entry.pointer.clone());
        item.why = "A signature that nothing needs is there for the next pack of that name.".to_owned();
        item
    })
    .collect()
}
