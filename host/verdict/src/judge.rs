//! Holding the readings against the windows, place by place.

use super::host_item::pointer;
use super::inputs::missing;
use super::item::{Advice, Item, ItemValue};
use super::sizes::{Size, Sizes};
use super::stale::{reading_key, stale};
use super::window_item::WindowItem;
use std::collections::BTreeSet;
use thou_contract::Remedy;
use thou_facts::{Bound, FactInfo, Grade, Missing, Num, PlaceValue, SheetFacts, ValueKind};
use thou_judge::{Limits, Miss, State};
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

pub(super) fn windows(sheet: &Sheet, facts: &SheetFacts<'_>, windows: &[WindowItem]) -> Vec<Item> {
    let worn = Worn::of(windows);
    let counted: Vec<&WindowItem> = windows.iter().filter(|w| worn.counts(sheet, facts, w)).collect();
    let sizes = Sizes::of(&counted);
    items_of(sheet, facts, &counted, Some(&sizes))
}

/// The same without the sizes to go to: of windows that others stand in for.
pub(super) fn without_sizes(sheet: &Sheet, facts: &SheetFacts<'_>, windows: &[WindowItem]) -> Vec<Item> {
    items_of(sheet, facts, &windows.iter().collect::<Vec<_>>(), None)
}

fn items_of<'w>(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    windows: &[&'w WindowItem],
    sizes: Option<&Sizes<'w>>,
) -> Vec<Item> {
    let mut items = Vec::new();
    for window in windows.iter().copied() {
        let Some(info) = facts.info(&window.fact) else {
            items.push(unknown_fact(window));
            continue;
        };
        let cells = facts.cells(&window.fact);
        let nothing_read = cells.iter().all(Result::is_err);
        if nothing_read && info.when_read() {
            continue;
        }
        if nothing_read && window.place.is_none() && !cells.is_empty() {
            items.push(open(info, window, None, cells));
            continue;
        }
        for (place, cell) in cells.iter().enumerate() {
            if window.place.is_none_or(|p| p == place) {
                items.push(one(sheet, facts, info, window, place, cell, sizes));
            }
        }
    }
    items
}

/// The rules and facts that have a wear limit.
pub struct Worn<'a>(BTreeSet<(&'a str, &'a str)>);

impl<'a> Worn<'a> {
    /// Of the windows that packs gave.
    #[must_use]
    pub fn of(windows: &'a [WindowItem]) -> Self {
        Self(windows.iter().filter(|w| w.reuse).map(|w| (w.rule.as_str(), w.fact.as_str())).collect())
    }

    /// A used part is held to its wear limit where the rule has one, a new part never is.
    #[must_use]
    pub fn counts(&self, sheet: &Sheet, facts: &SheetFacts<'_>, window: &WindowItem) -> bool {
        let part = facts.info(&window.fact).and_then(|i| i.part);
        let used = part.is_some_and(|p| sheet.state(p) == "reused");
        window.reuse == (used && self.0.contains(&(window.rule.as_str(), window.fact.as_str())))
    }
}

fn unknown_fact(window: &WindowItem) -> Item {
    let mut item = base(window, None);
    item.state = State::CannotSay;
    item.words = format!("this version of thou knows no fact \"{}\"", window.fact);
    item
}

fn base(window: &WindowItem, place: Option<(Axis, usize)>) -> Item {
    let mut item = Item::new(&window.rule, &window.title, &window.operation, State::Go);
    item.fact = Some(window.fact.clone());
    item.place = place;
    item.limits = Some(window.limits);
    item.whose.clone_from(&window.text.whose);
    item.hold_whose.clone_from(&window.hold_whose);
    item.basis = Some(window.basis);
    item.words.clone_from(&window.text.words);
    item.args.clone_from(&window.text.args);
    item.why.clone_from(&window.why);
    item.at_stake = window.levels.at_stake(&window.limits);
    item
}

fn open(info: &FactInfo, window: &WindowItem, place: Option<usize>, cells: &[PlaceValue]) -> Item {
    let mut item = base(window, place.filter(|_| info.axis != Axis::One).map(|p| (info.axis, p)));
    item.state = State::Open;
    item.wants = missing(cells);
    item.pointer = cells.iter().filter_map(|c| c.as_ref().err()).flatten().find_map(|m| match m {
        Missing::NotRead(pointer) => Some(pointer.clone()),
        _ => None,
    });
    item
}

fn one<'w>(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    info: &FactInfo,
    window: &'w WindowItem,
    place: usize,
    cell: &PlaceValue,
    sizes: Option<&Sizes<'w>>,
) -> Item {
    let num = match cell {
        Ok(num) => num,
        Err(_) => return open(info, window, Some(place), std::slice::from_ref(cell)),
    };
    let mut item = base(window, (info.axis != Axis::One).then_some((info.axis, place)));
    let measured = num.grade() == Grade::Measured;
    item.value = Some(ItemValue { value: num.value, u: num.uncertainty(), measured, bound: num.bound });
    item.pointer = pointer(facts, num);
    if let Some(stale) = stale(sheet, facts, info, num) {
        item.state = State::Stale;
        item.stale = Some(stale);
        return item;
    }
    if info.measured && !measured {
        item.state = State::Open;
        item.words = "{value} by the card or the drawing: read it".to_owned();
        item.wants = info.path.map(|p| vec![p.to_owned()]).unwrap_or_default();
        return item;
    }
    if let Some(words) = unfit(sheet, facts, info, num) {
        item.state = State::Open;
        item.words = words.to_owned();
        return item;
    }
    let judged = thou_judge::judge(num.value, num.uncertainty(), &window.limits, window.levels);
    if num.bound.is_some_and(|bound| !settles(bound, &window.limits, judged.miss)) {
        item.state = State::CannotSay;
        item.words = "{value}: more than that the model cannot say".to_owned();
        return item;
    }
    item.state = judged.state;
    item.miss = judged.miss;
    item.near_edge = judged.near_edge;
    let decided = if judged.by_never { window.hold_basis } else { window.basis };
    item.basis = Some(decided);
    let held = matches!(judged.state, State::NoGo | State::Unproven);
    item.can_be_accepted = !(held && decided == thou_contract::Basis::Physics);
    if let (Some((side, _)), Some(sizes)) = (judged.miss, sizes) {
        item.advice = advice(sheet, facts, info, window, place, side, sizes);
    }
    item
}

/// Whether a bound says enough: wherever beyond it the true value lies, it is outside for sure, or it is on the same side
/// of every limit.
fn settles(bound: Bound, limits: &Limits, miss: Option<(Miss, f64)>) -> bool {
    let ends = [limits.never_below, limits.low, limits.high, limits.never_above];
    match (bound, miss) {
        (Bound::OrLess, Some((Miss::Low, _))) | (Bound::OrMore, Some((Miss::High, _))) => true,
        (_, Some(_)) => false,
        (Bound::OrMore, None) => ends.iter().skip(2).all(Option::is_none),
        (Bound::OrLess, None) => ends.iter().take(2).all(Option::is_none),
    }
}

/// Facts that the judging itself asks for, besides the rules.
pub(super) const READ: [&str; 1] = [PLATE];

/// Whether the block was honed with a plate: what is read without it is another shape.
const PLATE: &str = "bore.plate-honed";

/// Readings that cannot prove what is asked of them.
fn unfit(sheet: &Sheet, facts: &SheetFacts<'_>, info: &FactInfo, num: &Num) -> Option<&'static str> {
    let fine = matches!(info.value, ValueKind::Quantity(k) if k.id() == "clearance");
    let roots = || facts.roots(num);
    let without_plate =
        |r: &thou_facts::Root| reading_key(&r.pointer).is_some_and(|(key, _)| key == "bore") && r.plate != Some(true);
    if fine && facts.flag(PLATE) == Some(true) && roots().any(without_plate) {
        return Some(
            "{value} read without the plate that it was honed with: not the shape it runs in, read again with it",
        );
    }
    let strip = |r: &thou_facts::Root| {
        r.gauge.as_deref().and_then(|g| sheet.gauges.get(g)).is_some_and(|g| g.kind == "plastic-strip")
    };
    if roots().any(strip) {
        return Some("{value} by a plastic strip: a sanity check, no proof; read it with a gauge");
    }
    None
}

fn advice<'w>(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    info: &FactInfo,
    window: &'w WindowItem,
    place: usize,
    side: Miss,
    sizes: &Sizes<'w>,
) -> Option<Advice> {
    let remedy: &Remedy = match side {
        Miss::Low => window.text.low.as_ref()?,
        Miss::High => window.text.high.as_ref()?,
    };
    let change = remedy.solve.as_ref();
    Some(match change.and_then(|change| Some((change, sizes.to(sheet, facts, info, window, place, change)?))) {
        Some((_, Size::To(solved))) => Advice { words: remedy.words.clone(), solved: Some(solved) },
        Some((change, Size::Breaks(title))) => {
            let part = change.fact.replace(['.', '-'], " ");
            let words =
                format!("No size of {part} alone does it: {title} would not be met then. Another part is wanted.");
            Advice { words, solved: None }
        }
        None => Advice { words: remedy.words.clone(), solved: None },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_settles_what_lies_on_its_own_side_alone() {
        let at_least = Limits { low: Some(0.0), ..Limits::default() };
        let at_most = Limits { high: Some(0.0), ..Limits::default() };
        let (short, over) = (Some((Miss::Low, 8.0)), Some((Miss::High, 8.0)));
        // eight short or more is short; eight in hand or less may be short, eight or more is not
        assert!(settles(Bound::OrLess, &at_least, short) && !settles(Bound::OrLess, &at_least, None));
        assert!(settles(Bound::OrMore, &at_least, None) && !settles(Bound::OrMore, &at_least, short));
        assert!(settles(Bound::OrMore, &at_most, over) && !settles(Bound::OrMore, &at_most, None));
        assert!(settles(Bound::OrLess, &at_most, None) && !settles(Bound::OrLess, &at_most, over));
    }
}
