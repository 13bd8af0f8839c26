//! Over all samples and all built-in rules: whatever another pack puts in a rule's place, the exit status is never better
//! than without it, unless the shop's own entry says so; and physics stays even then.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::seam::{Raw, stand_in};
use thou::packs::{LoadedPack, OutcomeState, RuleOutcome, Said, Window};
use thou::sheet::Sheet;
use thou::verdict::{self, State, Verdict, WindowItem};
use thou_contract::{Level, Manifest, Rule, RuleKind};
use thou_tests::{TODAY, builtin, sheet_of, value};

/// Every sample build: the good ones, the planted ones and the mended ones.
fn every_sample() -> Vec<String> {
    let folders = ["sample-builds", "sample-builds/planted", "sample-builds/right"].into_iter();
    folders.flat_map(thou_tests::samples).filter(|name| value(name)["format"] == "thou-build-1").collect()
}

/// The rules of the built-in packs that a check hangs on, as `pack/rule`.
fn rules() -> BTreeMap<String, Rule> {
    let packs = builtin().into_iter().map(|p| p.manifest);
    let all = packs.flat_map(|m| m.rules.into_iter().map(move |r| (format!("{}/{}", m.id, r.id), r)));
    all.filter(|(_, r)| matches!(r.kind, RuleKind::Window | RuleKind::Finding)).collect()
}

/// How a pack loosens a window.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// A limit that nothing passes, and that is only noted.
    Wide,
    /// The old never-limits as working limits, too: a reading at them has no longer to be proven.
    AtNever,
    /// Only where the old one works from: nothing holds any more.
    OneSide,
}

fn name(rule: &str) -> String {
    rule.replace('/', "-")
}

/// A pack that stands in for these rules, and says that all is well.
fn loose(of: &BTreeMap<String, Rule>, windows: &[WindowItem], way: Way) -> LoadedPack {
    let pick = |(id, rule): (&String, &Rule)| -> Rule {
        let text = json!({ "words": "ours" });
        let kind = if rule.kind == RuleKind::Window { "window" } else { "finding" };
        serde_json::from_value(json!({
            "id": name(id), "kind": kind, "title": "Ours", "operation": rule.operation, "why": "Ours.", "basis": "shop",
            "source": "ours", "judges": rule.judges, "texts": [text], "supersedes": [id],
        }))
        .unwrap()
    };
    let manifest: Manifest = serde_json::from_value(json!({
        "contract": "rules-1.0", "id": "ours", "version": "1", "title": "Ours", "about": "Ours.", "facts": [],
        "rules": of.iter().map(pick).collect::<Vec<_>>(),
    }))
    .unwrap();
    let mut given: Vec<Said<Window, u32>> = Vec::new();
    for (at, (id, rule)) in (0u32..).zip(of) {
        for (fact, judged) in (0u32..).zip(&rule.judges) {
            let none = Window {
                fact,
                place: None,
                never_below: None,
                low: None,
                aim: None,
                high: Some(1e12),
                never_above: None,
                below: Level::Note,
                above: Level::Note,
                reuse: false,
                text: 0,
            };
            let old = windows.iter().filter(|w| w.rule == *id && w.fact == *judged);
            let copied = old.filter_map(|w| {
                let l = w.limits;
                let window =
                    Window { place: w.place.map(|p| u32::try_from(p).unwrap()), reuse: w.reuse, high: None, ..none };
                match way {
                    Way::Wide => None,
                    Way::AtNever if l.never_below.or(l.never_above).is_some() => Some(Window {
                        never_below: l.never_below,
                        low: l.never_below,
                        high: l.never_above,
                        never_above: l.never_above,
                        ..window
                    }),
                    Way::OneSide if l.low.is_some() => Some(Window { low: l.low, ..window }),
                    _ => None,
                }
            });
            let mut all: Vec<Window> = copied.collect();
            if all.is_empty() {
                all.push(none);
            }
            given.extend(all.into_iter().map(|what| Said { rule: at, what, args: 0 }));
        }
    }
    let kinds: Vec<RuleKind> = of.values().map(|r| r.kind).collect();
    stand_in(manifest, move |ask| {
        let outcome = |rule: &u32| {
            let window = kinds.get(*rule as usize) == Some(&RuleKind::Window);
            RuleOutcome { rule: *rule, state: if window { OutcomeState::Answered } else { OutcomeState::Clear } }
        };
        let windows = given.iter().filter(|w| ask.contains(&w.rule)).copied().collect();
        Raw { outcomes: ask.iter().map(outcome).collect(), windows, ..Raw::default() }
    })
}

/// The worse, the more.
fn weight(exit: u8) -> u8 {
    match exit {
        0 => 0,
        4 => 1,
        1 => 2,
        _ => 3,
    }
}

fn judged(sheet: &Sheet, facts: &SheetFacts<'_>, own: &LoadedPack) -> Verdict {
    let packs = [builtin(), vec![own.clone()]].concat();
    let verdict = verdict::judge(sheet, facts, &packs, Some(TODAY));
    assert!(verdict.lost.is_empty(), "{:?}", verdict.lost);
    verdict
}

#[test]
fn the_status_is_never_better_than_without_the_pack() {
    let rules = rules();
    assert!(rules.len() > 60, "{} rules", rules.len());
    let (mut tried, mut kept) = (0, BTreeSet::new());
    for name in every_sample() {
        let sheet = sheet_of(&name);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let base = verdict::judge(&sheet, &facts, &builtin(), Some(TODAY));
        let mut hold = |of: &BTreeMap<String, Rule>, way: Way| {
            let with = judged(&sheet, &facts, &loose(of, &base.windows, way));
            for strict in [false, true] {
                let (before, after) = (base.exit_code(strict), with.exit_code(strict));
                let which: Vec<&String> = of.keys().take(3).collect();
                assert!(
                    weight(after) >= weight(before),
                    "{name}: {before} without the pack, {after} with it, strict {strict}: {which:?}"
                );
            }
            kept.extend(with.replaced.iter().filter(|r| r.counts_beside()).map(|r| r.rule.clone()));
            tried += 1;
        };
        for way in [Way::Wide, Way::AtNever, Way::OneSide] {
            hold(&rules, way);
        }
        // each rule by itself that alone could make the status better
        let quiet = |s| matches!(s, State::Go | State::Note | State::DoesNotApply | State::Look);
        let loud: BTreeSet<&str> = base.items.iter().filter(|i| !quiet(i.state)).map(|i| i.rule.as_str()).collect();
        for (id, rule) in rules.iter().filter(|(id, _)| loud.contains(id.as_str())) {
            let one = BTreeMap::from([(id.clone(), rule.clone())]);
            for way in [Way::Wide, Way::AtNever] {
                hold(&one, way);
            }
        }
    }
    assert!(tried > 100, "{tried} packs");
    // most rules hold by something that is not physics, and each of them was seen to count on
    assert!(kept.len() > 60, "{} rules counted on", kept.len());
}

/// With an entry for every rule what is left is physics, all of it.
#[test]
fn what_physics_forbids_stays_whatever_is_signed() {
    let rules = rules();
    let entry =
        |id: &String| json!({ "rule": id, "instead": format!("ours/{}", name(id)), "reason": "tried", "by": "R. L." });
    let (mut physics, mut gone) = (0, 0);
    for sample in every_sample() {
        let mut v = value(&sample);
        v["looser"] = rules.keys().map(entry).collect::<Vec<_>>().into();
        let folder = thou_tests::file(&sample);
        let text = serde_json::to_string_pretty(&v).unwrap();
        let sheet = Sheet::parse("sheet.json", &text, folder.parent().unwrap())
            .unwrap_or_else(|f| panic!("{}", f.render(false)));
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let base = verdict::judge(&sheet, &facts, &builtin(), Some(TODAY));
        let with = judged(&sheet, &facts, &loose(&rules, &base.windows, Way::Wide));
        let here = |v: &Verdict, may: bool| -> BTreeSet<_> {
            let holds = v
                .items
                .iter()
                .filter(|i| i.state == State::NoGo && i.can_be_accepted == may && rules.contains_key(&i.rule));
            holds.map(|i| (i.rule.clone(), i.fact.clone(), i.place)).collect()
        };
        let (before, after) = (here(&base, false), here(&with, false));
        assert!(before.is_subset(&after), "{sample}: {:?}", before.difference(&after).collect::<Vec<_>>());
        assert_eq!(here(&with, true), BTreeSet::new(), "{sample}: what is signed for is gone");
        assert!(with.replaced.iter().all(|r| !r.counts_beside()), "{sample}");
        physics += before.len();
        gone += here(&base, true).len();
    }
    assert!(physics > 0 && gone > 0, "{physics} of physics, {gone} others");
}
