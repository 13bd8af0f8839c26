//! A reading that is far from its neighbors: no limit and no source is needed to doubt it.

use super::host_item::{kind_of, operation_of, pointer, title};
use super::item::{ArgValue, Item};
use super::view::{is_direct, read_twice};
use thou_contract::Kind;
use thou_facts::{FactInfo, Num, SheetFacts};
use thou_judge::State;
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// The rule of a reading that is far from its neighbors.
pub(super) const ODD: &str = "host/odd-one-out";

/// A reading that is a slip of the unit or the decimal away from its neighbors.
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
            } else if let Some((low, high)) = stands_apart(kind_of(info), num, &like) {
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
/// A size of a quarter inch or more is cut to thousandths: its like are no share of it apart, but at most this; ours, no
/// source.
const SIZE: f64 = 250.0 * 2.54e-5;
const CUT_APART: f64 = 10.0 * 2.54e-5;

/// The least and the largest of the neighbors of a reading that is far from them all: no slip that can be named, and no
/// scatter either.
fn stands_apart(kind: Kind, num: &Num, others: &[f64]) -> Option<(f64, f64)> {
    let mut sorted = others.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = *sorted.get(sorted.len() / 2).filter(|_| sorted.len() >= 3)?;
    let (least, most) = (*sorted.first()?, *sorted.last()?);
    let cut = if kind.id() == "length" && middle >= SIZE { CUT_APART } else { SHARE * middle.abs() };
    let scatter = (SCATTERS * (most - least)).max(cut).max(2.0 * SCATTERS * num.uncertainty());
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
    item.words = "{read} stands apart from its neighbors, {meant} to {most}".to_owned();
    item.args.insert("most".to_owned(), ArgValue::Quantity(kind_of(info).id().to_owned(), high));
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
    item.words = "{read} stands alone among its neighbors: did you mean {meant}?".to_owned();
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
