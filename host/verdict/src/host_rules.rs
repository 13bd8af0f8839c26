//! What the host finds without a pack: readings that contradict one another, and one that is far from its neighbours.
//!
//! These need no limit and no source: two ways to the same figure must agree within what the gauges can tell.

use super::item::{ArgValue, Item};
use super::view::{is_direct, read_twice};
use std::collections::BTreeSet;
use thou_contract::{Basis, Kind};
use thou_facts::{FactInfo, Grade, Num, SheetFacts, ValueKind};
use thou_judge::State;
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// The rule of a reading that is far from its neighbours.
pub(super) const ODD: &str = "host/odd-one-out";

/// Coverage factor of the comparison (JCGM 100:2008, 6.3.3).
pub(super) const K: f64 = 2.0;

/// The rule of two ways to one figure that disagree.
pub(super) const CONTRADICTION: &str = "host/contradiction";

/// Two ways to one figure that disagree by more than the gauges explain, and by what was found doubtful before.
pub(super) fn contradictions(facts: &SheetFacts<'_>, doubtful: &[Item]) -> Vec<Item> {
    let pointers: BTreeSet<&str> = doubtful.iter().filter_map(|d| d.pointer.as_deref()).collect();
    let explained = |num: &Num| facts.roots(num).any(|r| pointers.contains(r.pointer.as_str()));

    let mut items = Vec::new();
    for info in facts.catalogue().all().filter(|i| i.measured && !i.needs.is_empty() && i.series.is_none()) {
        let (direct, derived) = (facts.cells(info.id), facts.derived(info.id));
        for (place, pair) in direct.iter().zip(&derived).enumerate() {
            if let (Ok(read), Ok(from)) = pair
                && is_direct(facts, info, read)
                && let Some(allowed) = disagree(info, read, from)
                && !explained(read)
                && !explained(from)
            {
                items.push(contradiction(facts, info, place, read, from.value, allowed));
            }
        }
    }
    items
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

/// A fact's name as words.
fn title(info: &FactInfo) -> String {
    info.id.replace(['.', '-'], " ")
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
    item.advice = Some(super::item::Advice {
        words: "One of them is not what it says: read again, and check what the derivation stands on.".to_owned(),
        solved: None,
    });
    item.why = "Two ways to one figure must agree; which of them is wrong, no limit can tell.".to_owned();
    item.basis = Some(Basis::Physics);
    item.unsettled = true;
    item.pointer = pointer(facts, read);
    item
}

/// Where a value's heaviest reading stands.
pub(super) fn pointer(facts: &SheetFacts<'_>, num: &Num) -> Option<String> {
    let mut best: Option<(bool, f64, String)> = None;
    for (id, share) in num.roots.iter() {
        let root = facts.root(id);
        let candidate = (root.pointer.starts_with("/readings/"), share.cu.abs(), root.pointer.clone());
        if !candidate.2.is_empty() && best.as_ref().is_none_or(|b| (candidate.0, candidate.1) > (b.0, b.1)) {
            best = Some(candidate);
        }
    }
    best.map(|b| b.2)
}

/// A reading that is a slip of the unit or the decimal away from its neighbours.
pub(super) fn odd_ones_out(sheet: &Sheet, facts: &SheetFacts<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    for info in facts.catalogue().all().filter(|i| i.measured && i.axis != Axis::One && i.series.is_none()) {
        let cells = facts.cells(info.id);
        let values: Vec<(usize, f64)> =
            cells.iter().enumerate().filter_map(|(i, c)| Some((i, c.as_ref().ok()?.value))).collect();
        if values.len() < 4 {
            continue;
        }
        for (place, value) in &values {
            let Some(Ok(num)) = cells.get(*place) else { continue };
            if !is_direct(facts, info, num) {
                continue;
            }
            let others: Vec<f64> = values.iter().filter(|(i, _)| i != place).map(|(_, v)| *v).collect();
            // inlets are like inlets, and exhausts like exhausts
            let alike = |i: &usize| info.axis != Axis::Valve || sheet.places.side(*i) == sheet.places.side(*place);
            let like: Vec<f64> = values.iter().filter(|(i, _)| i != place && alike(i)).map(|(_, v)| *v).collect();
            if let Some(meant) = slip(kind_of(info), *value, &others) {
                items.push(odd_one(facts, info, *place, num, meant));
            } else if let Some((low, high)) = stands_apart(num, &like) {
                items.push(apart_one(sheet, facts, info, *place, num, low, high));
            }
        }
    }
    items
}

/// What the number was meant to be, if one slip explains it: the other system of units, a decimal place, or one turn
/// of a micrometer's thimble (25 thou, or half a millimetre).
fn slip(kind: Kind, value: f64, others: &[f64]) -> Option<f64> {
    let mut sorted = others.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = *sorted.get(sorted.len() / 2)?;
    let (least, most) = (*sorted.first()?, *sorted.last()?);
    let spread = (most - least).max(middle.abs() * 0.05);
    let near = |x: f64| x >= least - spread && x <= most + spread;
    // tenths apart are scatter, whatever their ratio
    let scatter = matches!(kind.id(), "length" | "clearance" | "gap") && (value - middle).abs() < 1.0 * 2.54e-5;
    if near(value) || scatter || middle <= 0.0 || value <= 0.0 {
        return None;
    }
    let ratio = value / middle;
    if !(0.25..4.0).contains(&ratio) {
        return [25.4, 1.0 / 25.4, 10.0, 0.1].into_iter().map(|f| value * f).find(|x| near(*x));
    }
    let length = kind.id() == "length";
    let turns = [25.0 * 2.54e-5, -25.0 * 2.54e-5, 0.5e-3, -0.5e-3];
    let tight = (most - least).max(1.0 * 2.54e-5);
    let close = |x: f64| x >= least - tight && x <= most + tight;
    let slips = turns.into_iter().map(|t| value + t).chain(transposed(value));
    slips.into_iter().find(|x| length && close(*x))
}

/// The size with two neighboring digits the other way round, as it was written: to a tenth, or to a hundredth or a
/// thousandth of a millimeter.
fn transposed(value: f64) -> Vec<f64> {
    let mut all = Vec::new();
    for step in [2.54e-6, 1e-5, 1e-6] {
        let digits = (value / step).round();
        if (value / step - digits).abs() > 1e-4 || !(10.0..1e9).contains(&digits) {
            continue;
        }
        let text = format!("{digits:.0}");
        for at in 1..text.len() {
            let mut swapped: Vec<u8> = text.bytes().collect();
            swapped.swap(at - 1, at);
            if let Some(number) = String::from_utf8(swapped).ok().and_then(|t| t.parse::<f64>().ok()) {
                all.push(number * step);
            }
        }
    }
    all
}

/// How many times the scatter of its neighbors a reading is from their middle before it stands apart, and which share of
/// that middle it has to be off at least; ours, no source.
const SCATTERS: f64 = 4.0;
const SHARE: f64 = 0.25;

/// The least and the largest of the neighbors of a reading that is far from them all: no slip that can be named, and no
/// scatter either.
fn stands_apart(num: &Num, others: &[f64]) -> Option<(f64, f64)> {
    let mut sorted = others.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = *sorted.get(sorted.len() / 2).filter(|_| sorted.len() >= 3)?;
    let (least, most) = (*sorted.first()?, *sorted.last()?);
    let scatter = (SCATTERS * (most - least)).max(SHARE * middle.abs()).max(2.0 * SCATTERS * num.uncertainty());
    ((num.value - middle).abs() > scatter).then_some((least, most))
}

fn apart_one(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    info: &FactInfo,
    place: usize,
    num: &Num,
    low: f64,
    high: f64,
) -> Item {
    let mut item = odd_one(facts, info, place, num, low);
    item.words = "{read} stands apart from its neighbors, {meant} to {high}".to_owned();
    item.args.insert("high".to_owned(), ArgValue::Quantity(kind_of(info).id().to_owned(), high));
    item.why =
        "Holes of one engine that were cut alike read alike: a slip of the pen, or the part to look at.".to_owned();
    item.advice = Some(super::item::Advice {
        words: "Read it again; where it stays, write `twice` and look at the part.".to_owned(),
        solved: None,
    });
    // read twice, it is no slip
    item.unsettled = !read_twice(sheet, facts, num);
    item
}

fn odd_one(facts: &SheetFacts<'_>, info: &FactInfo, place: usize, num: &Num, meant: f64) -> Item {
    let kind = kind_of(info).id().to_owned();
    let mut item = Item::new(ODD, &title(info), operation_of(info.id), State::Look);
    item.fact = Some(info.id.to_string());
    item.place = Some((info.axis, place));
    item.words = "{read} stands alone among its neighbours: did you mean {meant}?".to_owned();
    item.args.insert("read".to_owned(), ArgValue::Quantity(kind.clone(), num.value));
    item.args.insert("meant".to_owned(), ArgValue::Quantity(kind, meant));
    item.advice = Some(super::item::Advice {
        words: "Read it again, and look at the unit and the decimal point.".to_owned(),
        solved: None,
    });
    item.unsettled = true;
    item.why = "One slip of the unit, of a decimal place or of the thimble explains it.".to_owned();
    item.pointer = pointer(facts, num);
    item
}

fn kind_of(info: &FactInfo) -> Kind {
    match info.value {
        ValueKind::Quantity(kind) => kind,
        _ => Kind::by_id("ratio").unwrap_or_else(|| unreachable!("ratio is a kind")),
    }
}

/// The page that a fact belongs on, where no rule says.
pub(crate) fn operation_of(fact: &str) -> &'static str {
    let starts = |list: &[&str]| list.iter().any(|p| fact.starts_with(p));
    if starts(&["bore", "deck", "block", "main-housing", "main.alignment", "liner", "lifter-bore", "cam-bearing"]) {
        "block"
    } else if starts(&["crank", "main-journal", "rod-journal"]) {
        "crank"
    } else if starts(&["ring"]) {
        "rings"
    } else if starts(&["chamber", "head", "stem", "guide", "seat", "spring", "valve.margin"]) {
        "heads"
    } else if starts(&[
        "piston-to-",
        "valve",
        "retainer",
        "pushrod",
        "rod-to-",
        "counterweight",
        "rocker",
        "compression",
    ]) {
        "mock-up"
    } else if starts(&["piston", "rod-housing", "rod-bush", "rod-bolt", "pin", "rod.", "bobweight"]) {
        "rods-and-pistons"
    } else {
        "assembly"
    }
}
