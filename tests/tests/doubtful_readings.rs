//! One slip of the pen in a good sheet is one finding that says what it looks like; what hangs on it waits, and where a
//! no-go waits, the finding holds in its place.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use thou::verdict::{Item, State, Verdict};
use thou_tests::{judge, sheet, value};

const GOOD: &str = "sample-builds/bracket.json";

/// An inch size a few thou larger.
fn larger(size: &Value, thou: f64) -> Value {
    let inches: f64 = size.as_str().and_then(|s| s.strip_suffix(" in")).unwrap().parse().unwrap();
    json!(format!("{:.4} in", inches + thou / 1e3))
}

/// The good sheet with what `slip` does to its readings.
fn judged(slip: impl FnOnce(&mut Value)) -> Verdict {
    let mut good = value(GOOD);
    slip(&mut good["readings"]);
    judge(&sheet(&good))
}

fn of_rule<'v>(verdict: &'v Verdict, rule: &str) -> Vec<&'v Item> {
    verdict.items.iter().filter(|i| i.rule == rule).collect()
}

fn advice(item: &Item) -> &str {
    item.advice.as_ref().map_or("", |a| &a.words)
}

#[test]
fn the_good_sheet_has_nothing_to_doubt() {
    let verdict = judge(&sheet(&value(GOOD)));
    assert_eq!(verdict.items.iter().filter(|i| i.unsettled || i.waits).count(), 0);
    assert_eq!(verdict.exit_code(false), 0);
}

#[test]
fn one_size_a_tenth_of_an_inch_off_is_one_no_go_and_what_hangs_on_it_waits() {
    // the big end comes out 0.1 in larger than its shaft: no piston of this crank would clear the head, by that figure
    let verdict = judged(|r| {
        r.as_object_mut().unwrap().remove("rod-clearance");
        r["rod-inside"]["at"]["4"] = larger(&r["rod-inside"]["at"]["4"], 100.0);
    });
    let no_go: Vec<&Item> = verdict.items.iter().filter(|i| i.state == State::NoGo).collect();
    assert_eq!(no_go.iter().map(|i| &*i.rule).collect::<Vec<_>>(), ["host/odd-one-out"]);
    assert_eq!(no_go[0].pointer.as_deref(), Some("/readings/rod-inside/at/4"));
    assert!(no_go[0].words.contains("as it is written it must not run"), "{}", no_go[0].words);
    assert_eq!(verdict.count(State::Look), 0);
    let waits = |rule: &str| of_rule(&verdict, rule).iter().any(|i| i.waits && i.state == State::Open);
    // its own window, and the ones that are made of how far the big end can move
    for rule in ["clearances/rod-clearance", "clearances/piston-to-head", "clearances/piston-to-valve"] {
        assert!(waits(rule), "{rule}");
    }
    assert_eq!(verdict.exit_code(false), 1);
}

#[test]
fn two_holes_that_fit_each_other_are_named_as_swapped() {
    // made of its parts, rod 3 has 3.7 thou and rod 6 has 2.2; read, it is the other way round
    let verdict = judged(|r| {
        r["rod-inside"]["at"]["3"] = larger(&r["rod-inside"]["at"]["3"], 1.0);
        r["rod-inside"]["at"]["6"] = larger(&r["rod-inside"]["at"]["6"], -0.6);
        r["rod-clearance"]["at"]["3"] = json!("0.0022 in");
        r["rod-clearance"]["at"]["6"] = json!("0.0037 in");
    });
    let found = of_rule(&verdict, "host/contradiction");
    let advice: Vec<&str> = found.iter().map(|i| advice(i)).collect();
    assert_eq!(found.len(), 2, "{advice:?}");
    assert!(advice[0].starts_with("Each fits the other: are 3 and 6 written at each other's place?"), "{advice:?}");
    assert_eq!(verdict.exit_code(false), 4);
}

#[test]
fn a_whole_row_that_is_off_by_the_same_points_at_the_gauge() {
    let verdict = judged(|r| {
        for clearance in r["rod-clearance"]["at"].as_object_mut().unwrap().values_mut() {
            *clearance = larger(clearance, 1.0);
        }
    });
    let found = of_rule(&verdict, "host/contradiction");
    assert_eq!(found.len(), 8);
    assert!(found.iter().all(|i| advice(i).starts_with("The whole row is off by the same")), "{}", advice(found[0]));
    assert_eq!(verdict.exit_code(false), 4);
}

#[test]
fn two_sets_of_parts_that_make_two_clearances_are_told_by_name() {
    // nobody read the clearance itself: the shells in the rods say one thing, rods and loose shells another
    let verdict = judged(|r| {
        r.as_object_mut().unwrap().remove("rod-clearance");
        for inside in r["rod-inside"]["at"].as_object_mut().unwrap().values_mut() {
            *inside = larger(inside, 1.0);
        }
    });
    let found = of_rule(&verdict, "host/contradiction");
    assert_eq!(found.len(), 8);
    let words = |name: &str| format!("{:?}", found[0].args[name]);
    assert!(words("these").contains("rod-inside"), "{}", words("these"));
    assert!(words("those").contains("rod-housing, rod-shell"), "{}", words("those"));
}

#[test]
fn a_lift_that_is_the_lash_too_large_is_named_as_gross() {
    // the card's hot lash is 18 thou at the inlet and 20 at the exhaust
    let verdict = judged(|r| {
        for (valve, lift) in r["valve-lift"]["at"].as_object_mut().unwrap() {
            *lift = larger(lift, if valve.ends_with('I') { 18.0 } else { 20.0 });
        }
    });
    let found: Vec<&Item> = of_rule(&verdict, "host/not-as-stated");
    assert_eq!(found.len(), 16);
    assert!(found.iter().all(|i| advice(i).contains("one of the two is gross lift")), "{}", advice(found[0]));
    // 8 thou more than the lash is another rocker, and not gross lift
    let verdict = judged(|r| {
        for lift in r["valve-lift"]["at"].as_object_mut().unwrap().values_mut() {
            *lift = larger(lift, 28.0);
        }
    });
    let found = of_rule(&verdict, "host/not-as-stated");
    assert_eq!(found.len(), 16);
    assert!(!found.iter().any(|i| advice(i).contains("gross lift")), "{}", advice(found[0]));
}

#[test]
fn what_was_taken_off_is_no_size_to_go_to() {
    let mut good = value(GOOD);
    good["work"][4]["took"] = json!("9.000 in");
    let text = serde_json::to_string_pretty(&good).unwrap();
    let refused = thou::sheet::Sheet::parse("sheet.json", &text, &thou_tests::file("sample-builds"));
    let faults = refused.err().map(|f| f.render(false)).unwrap_or_default();
    assert!(faults.contains("took cannot be 9.000 in"), "{faults}");
    assert!(faults.contains("not the size that it came to"), "{faults}");
}

/// What the host finds out of the common in the good sheet with this written there.
fn unusual(pointer: &str, written: &str) -> Vec<(String, String)> {
    let mut slip = value(GOOD);
    *slip.pointer_mut(pointer).unwrap() = json!(written);
    let verdict = judge(&sheet(&slip));
    let found = of_rule(&verdict, "host/unusual").into_iter().chain(of_rule(&verdict, "host/not-soaked"));
    found.map(|i| (i.pointer.clone().unwrap(), i.words.clone())).collect()
}

#[test]
fn a_stated_figure_out_of_proportion_is_looked_at_where_it_stands() {
    let found = |words: &str| vec![words.to_owned()];
    let words = |pointer: &str, written: &str| -> Vec<String> {
        let found = unusual(pointer, written);
        assert!(found.iter().all(|(at, _)| at == pointer), "{found:?}");
        found.into_iter().map(|f| f.1).collect()
    };
    // half the stroke in another unit's digits; a ring nobody makes; a lobe that lasts longer than its engine turns
    let beside = found("{field} {stated}: usual with {of} {other} is {least} to {most} (common practice)");
    assert_eq!(words("/balance/radius", "18.75 in"), beside);
    assert_eq!(words("/pins/mass", "70 g"), beside);
    assert_eq!(words("/fasteners/rod-bolts/stretch", "9 thou"), beside);
    assert_eq!(words("/dyno/pulls/1/torque", "57 lb-ft"), beside);
    assert_eq!(
        words("/rings/second-height", "0.0655 in"),
        found("{field} {stated}: the nearest that is usual is {nearest} (common practice)")
    );
    // of work, what is usual goes by what was done: 25 thou off a deck, and never with a hone
    assert_eq!(words("/work/4/took", "40 thou"), Vec::<String>::new());
    assert_eq!(
        words("/work/9/took", "40 thou"),
        found("{field} {stated}: usual is {least} to {most} (common practice)")
    );
}

#[test]
fn a_part_that_did_not_lie_with_the_others_is_told() {
    let words = vec!["{reading} read at {at}, the others at {others}".to_owned()];
    let of = |written: &str| {
        let mut slip = value(GOOD);
        slip["readings"]["rod-bush"]["temperature"] = json!(written);
        let verdict = judge(&sheet(&slip));
        let found = of_rule(&verdict, "host/not-soaked").into_iter().map(|i| i.words.clone());
        found.collect::<Vec<_>>()
    };
    assert_eq!(of("68 °F"), Vec::<String>::new());
    assert_eq!(of("80 °F"), Vec::<String>::new());
    assert_eq!(of("86 °F"), words);
    assert_eq!(of("20 °F"), words);
}
