//! Two ways to one figure that disagree: what is read and what its parts make, or two sets of parts.
//!
//! These need no limit and no source: they must agree within what the gauges can tell.

use super::host_item::{K, kind_of, operation_of, pointer, title};
use super::item::{Advice, ArgValue, Item};
use super::view::is_direct;
use std::collections::BTreeSet;
use thou_contract::Basis;
use thou_facts::{FactInfo, Grade, Num, SheetFacts, ValueKind};
use thou_judge::State;
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// The rule of two ways to one figure that disagree.
pub(super) const CONTRADICTION: &str = "host/contradiction";

/// Ways to one figure that disagree by more than the gauges explain, and by what was found doubtful before.
pub(super) fn contradictions(sheet: &Sheet, facts: &SheetFacts<'_>, doubtful: &[Item]) -> Vec<Item> {
    let pointers: BTreeSet<&str> = doubtful.iter().filter_map(|d| d.pointer.as_deref()).collect();
    let explained = |num: &Num| facts.roots(num).any(|r| pointers.contains(r.pointer.as_str()));

    let mut items = Vec::new();
    for info in facts.catalogue().all().filter(|i| i.measured && !i.needs.is_empty() && i.series.is_none()) {
        let (cells, ways) = (facts.cells(info.id), facts.ways(info.id));
        let mut found = Vec::new();
        for (place, cell) in cells.iter().enumerate() {
            let read = cell.as_ref().ok().filter(|num| is_direct(facts, info, num));
            let made = ways.iter().filter_map(|way| way.get(place)?.as_ref().ok());
            // a card is asked where nothing else is there: what is read outweighs it
            let made =
                made.enumerate().filter(|(nth, num)| *nth == 0 && read.is_some() || num.grade() == Grade::Measured);
            let made = made.map(|(_, num)| num);
            let all: Vec<&Num> = read.into_iter().chain(made).filter(|num| !explained(num)).collect();
            let Some((first, others)) = all.split_first() else { continue };
            let apart = others.iter().find_map(|other| Some((*other, disagree(info, first, other)?)));
            if let Some((other, allowed)) = apart {
                found.push(Pair { place, first, other, allowed, read: read.is_some_and(|r| std::ptr::eq(r, *first)) });
            }
        }
        items.extend(found.iter().map(|pair| pair.item(sheet, facts, info, &found)));
    }
    items
}

/// Two ways to the figure of one place.
struct Pair<'n> {
    place: usize,
    first: &'n Num,
    other: &'n Num,
    allowed: f64,
    /// Whether the first was read as such.
    read: bool,
}

impl Pair<'_> {
    fn apart(&self) -> f64 {
        self.first.value - self.other.value
    }

    fn item(&self, sheet: &Sheet, facts: &SheetFacts<'_>, info: &FactInfo, all: &[Self]) -> Item {
        let mut item = contradiction(facts, info, self.place, self.first, self.other.value, self.allowed);
        if !self.read {
            item.words =
                "{read} by {these}, {derived} by {those}: {apart} apart, and the gauges explain {allowed}".to_owned();
            for (name, mine, theirs) in [("these", self.first, self.other), ("those", self.other, self.first)] {
                item.args.insert(name.to_owned(), ArgValue::Word(own_readings(facts, mine, theirs)));
            }
        }
        let hint = if let Some(other) = self.swapped_with(all) {
            let label = |place: usize| sheet.places.labels(info.axis).get(place).map_or("", String::as_str);
            Some(format!(
                "Each fits the other: are {} and {} written at each other's place? ",
                label(self.place),
                label(other)
            ))
        } else {
            self.as_all_others(all, facts.cells(info.id).len()).then(|| {
                "The whole row is off by the same: look at the zero of the gauge and at its setting master first. "
                    .to_owned()
            })
        };
        if let (Some(hint), Some(advice)) = (hint, &mut item.advice) {
            advice.words.insert_str(0, &hint);
        }
        item
    }

    /// The place whose reading fits here, as the one here fits there.
    fn swapped_with(&self, all: &[Self]) -> Option<usize> {
        let fits = |a: &Self, b: &Self| (a.first.value - b.other.value).abs() <= a.allowed;
        all.iter().find(|b| b.place != self.place && fits(self, b) && fits(b, self)).map(|b| b.place)
    }

    /// Whether every place of several is off by the same, as far as the gauges can tell.
    fn as_all_others(&self, all: &[Self], places: usize) -> bool {
        all.len() == places && places > 2 && all.iter().all(|b| (b.apart() - self.apart()).abs() <= self.allowed)
    }
}

/// The sets of readings that the one value hangs on and the other does not.
fn own_readings(facts: &SheetFacts<'_>, mine: &Num, theirs: &Num) -> String {
    let sets = |num: &Num| -> BTreeSet<String> { facts.roots(num).filter_map(|r| r.reading.clone()).collect() };
    let shared = sets(theirs);
    let own: Vec<String> = sets(mine).into_iter().filter(|s| !shared.contains(s)).collect();
    if own.is_empty() { "what the sheet states".to_owned() } else { own.join(", ") }
}

/// What the gauges explain, if the two are further apart.
fn disagree(info: &FactInfo, read: &Num, from: &Num) -> Option<f64> {
    let gauges = K * apart(read, from);
    // a figure from a card or a drawing has a tolerance that nobody wrote down: 3 thou, common practice, no source
    let card = from.grade() > Grade::Measured || read.grade() > Grade::Measured;
    let floor = match info.value {
        ValueKind::Quantity(k) if matches!(k.id(), "length" | "clearance" | "gap") => {
            if card {
                3.0 * 2.54e-5
            } else {
                0.3 * 2.54e-5
            }
        }
        _ => 0.02 * read.value.abs(),
    };
    let allowed = gauges.max(floor);
    ((read.value - from.value).abs() > allowed).then_some(allowed)
}

/// Standard uncertainty of the difference of two values, what they share counted once (JCGM 100:2008, 5.2.2).
fn apart(a: &Num, b: &Num) -> f64 {
    let theirs = |id| b.roots.get(id).map_or(0.0, |s| s.cu);
    let mine: f64 = a.roots.iter().map(|(id, s)| (s.cu - theirs(id)).powi(2)).sum();
    let alone: f64 = b.roots.iter().filter(|(id, _)| a.roots.get(*id).is_none()).map(|(_, s)| s.cu * s.cu).sum();
    (mine + alone).sqrt()
}

pub(super) fn contradiction(
    facts: &SheetFacts<'_>,
    info: &FactInfo,
    place: usize,
    read: &Num,
    from: f64,
    allowed: f64,
) -> Item {
    let kind = kind_of(info);
    let mut item = Item::new(CONTRADICTION, &title(info), operation_of(info.id), State::Look);
    item.fact = Some(info.id.to_string());
    item.place = (info.axis != Axis::One).then_some((info.axis, place));
    item.words = "{read} read, {derived} from its parts: {apart} apart, and the gauges explain {allowed}".to_owned();
    for (name, value) in
        [("read", read.value), ("derived", from), ("apart", (read.value - from).abs()), ("allowed", allowed)]
    {
        item.args.insert(name.to_owned(), ArgValue::Quantity(kind.id().to_owned(), value));
    }
    item.advice = Some(Advice {
        words: "One of them is not what it says: read again, and check what the derivation stands on.".to_owned(),
        solved: None,
    });
    item.why = "Two ways to one figure must agree; which of them is wrong, no limit can tell.".to_owned();
    item.basis = Some(Basis::Physics);
    item.unsettled = true;
    item.pointer = pointer(facts, read);
    item
}
