//! Parts that were read warmer or colder than the rest: their gauge was not.

use super::host_item::operation_of;
use super::item::{Advice, ArgValue, Item};
use thou_contract::{Kind, Level};
use thou_judge::State;
use thou_sheet::Sheet;

/// The rule of a part that did not lie with the others.
const RULE: &str = "host/not-soaked";

/// How far from the others a part may be, K: 15 °F, which is half a thou on a 4 in piston; common practice, no source.
const APART: f64 = 8.34;

/// Sets of sizes whose part was warmer or colder than the others were.
pub(super) fn not_soaked(sheet: &Sheet) -> Vec<Item> {
    let Some(kind) = Kind::by_id("temperature") else { return Vec::new() };
    let sized = |key: &str| {
        let length = |k: Kind| matches!(k.id(), "length" | "clearance" | "gap");
        thou_fields::reading(key).and_then(|r| r.field.kind()).is_some_and(length)
    };
    let sets: Vec<_> = sheet
        .readings
        .iter()
        .filter(|(key, _)| sized(key))
        .flat_map(|(key, sets)| sets.iter().filter_map(move |set| Some((key, set, set.temperature?))))
        .collect();
    let mut all: Vec<f64> = sets.iter().map(|s| s.2).chain(sheet.figure("shop.temperature", kind)).collect();
    all.sort_by(f64::total_cmp);
    let Some(others) = all.get(all.len() / 2).copied() else { return Vec::new() };
    let apart = sets.into_iter().filter(|(.., at)| (at - others).abs() > APART);
    apart
        .map(|(key, set, at)| {
            let mut item = Item::new(RULE, "Parts not soaked", operation_of(key), State::Look);
            item.at_stake = Level::Warn;
            item.words = "{reading} read at {at}, the others at {others}".to_owned();
            item.args.insert("reading".to_owned(), ArgValue::Word(key.replace('-', " ")));
            for (name, value) in [("at", at), ("others", others)] {
                item.args.insert(name.to_owned(), ArgValue::Quantity(kind.id().to_owned(), value));
            }
            item.why =
                "A size is brought to 68 °F by the temperature of its part and of the shop, where the gauge is; where \
                        one of them is a slip, or the gauge was as warm as the part, it comes out wrong by that."
                    .to_owned();
            item.advice = Some(Advice {
                words: "Look at the temperature and its unit. Let part and gauge lie together until they feel alike, \
                        best overnight, and read it again."
                    .to_owned(),
                solved: None,
            });
            item.pointer = Some(format!("{}/temperature", set.pointer));
            item
        })
        .collect()
}
