//! What is read against what the sheet states of the same thing. The fields' entries say what states it, and how far
//! apart the two may be.

use super::contradiction::contradiction;
use super::host_item::{K, pointer};
use super::item::{Advice, ArgValue, Item};
use super::view::is_direct;
use thou_contract::Kind;
use thou_facts::{FactInfo, SheetFacts, ValueKind};
use thou_fields::Agreement;
use thou_sheet::Sheet;
use thou_sheet::model::Side;

/// The rule of a reading that is not what the sheet states.
pub(super) const RULE: &str = "host/not-as-stated";

/// Readings that are further from what the sheet states of them than the parts and the gauges explain.
pub(super) fn not_as_stated(sheet: &Sheet, facts: &SheetFacts<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    for reading in thou_fields::readings().iter().filter(|r| !r.agrees_with.is_empty()) {
        let Some(info) = size_of(facts, reading) else { continue };
        let ValueKind::Quantity(kind) = info.value else { continue };
        for agreement in reading.agrees_with {
            if let Some(stated) = stated(sheet, kind, agreement) {
                items.extend(apart(facts, info, agreement, agreement.within(kind, stated), stated));
            }
        }
    }
    items
}

/// The fact that is the size itself, and not its taper or its spread.
fn size_of<'a>(facts: &SheetFacts<'a>, reading: &thou_fields::ReadingField) -> Option<&'a FactInfo> {
    let kind = reading.field.kind()?;
    facts.catalogue().all().find(|i| {
        i.measured && i.series.is_none() && i.path == Some(reading.field.path) && i.value.kind() == Some(kind)
    })
}

/// What the sheet states, with what was taken off it.
fn stated(sheet: &Sheet, kind: Kind, agreement: &Agreement) -> Option<f64> {
    let less = if agreement.less.is_empty() { None } else { sheet.figure(agreement.less, kind) };
    Some(sheet.figure(agreement.field, kind)? - less.unwrap_or(0.0))
}

fn apart(facts: &SheetFacts<'_>, info: &FactInfo, agreement: &Agreement, within: f64, stated: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for (place, cell) in facts.cells(info.id).iter().enumerate() {
        let Ok(read) = cell else { continue };
        let allowed = within.max(K * read.uncertainty());
        if !is_direct(facts, info, read) || (read.value - stated).abs() <= allowed {
            continue;
        }
        let mut item = contradiction(facts, info, place, read, stated, allowed);
        item.rule = RULE.to_owned();
        item.words = "{read} read, {derived} by {field}: {apart} apart, usual {allowed}".to_owned();
        let field = if agreement.less.is_empty() {
            agreement.field.to_owned()
        } else {
            format!("{} less {}", agreement.field, agreement.less)
        };
        item.args.insert("field".to_owned(), ArgValue::Word(field));
        item.why = "What the sheet states and what was read are one part: rules take now the one and now the other."
            .to_owned();
        item.advice = Some(Advice {
            words: "Find which it is, a part other than the sheet says or a slip, and write down what is there."
                .to_owned(),
            solved: None,
        });
        item.pointer = pointer(facts, read);
        items.push(item);
    }
    items
}

/// A card's valve lift is nominal: what is read may differ by this much, common practice, no source.
const CARD_LIFT: f64 = 10.0 * 2.54e-5;

/// How near to the lash two lifts are apart that differ by it alone, common practice, no source.
const SAME_LASH: f64 = 4.0 * 2.54e-5;
const GROSS: &str = "They are the lash apart: one of the two is gross lift. The sheet wants net lift, lash taken off. ";

/// The lash that the lift at this valve goes with: the card's hot one, else as it was set.
fn lash(sheet: &Sheet, facts: &SheetFacts<'_>, place: usize) -> Option<f64> {
    let card = match sheet.places.side(place) {
        Some(Side::Inlet) => "lash.card.inlet",
        _ => "lash.card.exhaust",
    };
    let set = || facts.cells("lash.cold").get(place)?.as_ref().ok();
    facts.one(card).or_else(set).map(|lash| lash.value)
}

/// The net lift that was read or made against the one that the sheet states.
pub(super) fn lift_against_the_sheet(sheet: &Sheet, facts: &SheetFacts<'_>) -> Vec<Item> {
    let Some(info) = facts.info("valve.lift.net") else { return Vec::new() };
    let mut items = Vec::new();
    for (place, cell) in facts.cells(info.id).iter().enumerate() {
        let stated = match sheet.places.side(place) {
            Some(Side::Inlet) => "cam.valve-lift.inlet",
            _ => "cam.valve-lift.exhaust",
        };
        let (Ok(read), Some(card)) = (cell, facts.one(stated)) else { continue };
        let allowed = CARD_LIFT.max(K * read.uncertainty());
        if (read.value - card.value).abs() > allowed {
            let mut item = contradiction(facts, info, place, read, card.value, allowed);
            item.rule = RULE.to_owned();
            item.words = "{read} at the valve, {derived} on the sheet: {apart} apart, usual {allowed}".to_owned();
            let gross = lash(sheet, facts, place)
                .is_some_and(|lash| ((card.value - read.value).abs() - lash).abs() < SAME_LASH);
            let hint = if gross { GROSS } else { "" };
            item.advice = Some(Advice {
                words: format!(
                    "{hint}The rocker, the cam or the lash is not what the sheet says: find which, and write down what \
                     is there. Bind, retainer and valve clearance go with it."
                ),
                solved: None,
            });
            items.push(item);
        }
    }
    items
}
