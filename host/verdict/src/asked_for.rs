//! Fields of the sheet that packs ask for: those that are not there although this use wants them, and those that nobody who
//! is here asks for.

use super::item::{Advice, Item};
use super::rule_pack::RulePack;
use thou_contract::{Level, Manifest};
use thou_facts::SheetFacts;
use thou_judge::State;
use thou_sheet::{Sheet, escape};

/// The rule of a field that a pack wants for this use and the sheet has not.
pub const WANTED: &str = "host/asked-for";
/// The rule of fields whose pack is not here.
const NO_PACK: &str = "host/no-pack";

pub(super) fn asked_for<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P]) -> Vec<Item> {
    let manifests: Vec<&Manifest> = packs.iter().map(RulePack::manifest).collect();
    let mut items: Vec<Item> = manifests.iter().filter_map(|m| wanted(sheet, facts, &manifests, m)).collect();
    items.extend(without_pack(sheet, &manifests));
    items
}

fn wanted(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[&Manifest], pack: &Manifest) -> Option<Item> {
    let usage = sheet.stated("intent.use").and_then(|(v, _)| v.as_str())?;
    let like = packs.iter().flat_map(|m| &m.uses).find(|u| u.id == usage).map(|u| u.like.as_str());
    let required = |words: &[String]| words.iter().any(|w| w == usage || Some(w.as_str()) == like);
    let there = |id: &str| facts.choice(id).is_some() || facts.cells(id).iter().any(Result::is_ok);
    let missing: Vec<String> =
        pack.inputs.iter().filter(|i| required(&i.required_for) && !there(&i.id)).map(|i| i.id.clone()).collect();
    if missing.is_empty() {
        return None;
    }
    let mut item = Item::new(WANTED, &format!("fields that {} asks for", pack.id), "receiving", State::Open);
    // what a pack hangs on a field that it must have, it may hold by
    item.at_stake = Level::Hold;
    item.why = format!("{} wants it of every sheet for this use.", pack.title);
    item.wants = missing;
    Some(item)
}

/// One remark for each pack that is named there and is not loaded.
fn without_pack(sheet: &Sheet, packs: &[&Manifest]) -> Vec<Item> {
    let Some(all) = sheet.root.get("extra").and_then(|all| all.as_object()) else { return Vec::new() };
    let stray = all.keys().filter(|name| packs.iter().all(|m| m.id != **name));
    stray
        .map(|name| {
            let mut item = Item::new(NO_PACK, "Fields without their pack", "combination", State::Note);
            item.words = format!("no pack {name} is loaded, so that nobody reads extra.{name}").replace(['{', '}'], "");
            item.why = "What a pack asks for is read, held to its bounds and judged by that pack alone.".to_owned();
            item.advice = Some(Advice {
                words: "Load the pack, with --pack or in the file packs beside the sheet, or take the fields out."
                    .to_owned(),
                solved: None,
            });
            item.pointer = Some(format!("/extra/{}", escape(name)));
            item
        })
        .collect()
}
