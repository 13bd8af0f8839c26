//! Promises that hold for every rule and every sample, whatever the rules are.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use thou::facts::{Catalogue, SheetFacts};
use thou::sheet::Axis;
use thou::verdict::{Item, State, Verdict};
use thou_contract::{Kind, Level};
use thou_tests::{judge, samples, sheet, sheet_of, thou, value};

const GOOD: [&str; 5] = ["street", "bracket", "all-out", "inline-four", "single"];

fn key(item: &Item) -> String {
    format!("{} {:?} {:?}", item.rule, item.fact, item.place)
}

fn states(verdict: &Verdict) -> BTreeMap<String, State> {
    verdict.items.iter().map(|i| (key(i), i.state)).collect()
}

/// The windows that a check judges are those that the spec printed before anything was measured.
#[test]
fn the_windows_do_not_move_with_the_readings() {
    for name in GOOD {
        let full = value(&format!("sample-builds/{name}.json"));
        let mut bare = full.clone();
        bare.as_object_mut().unwrap().remove("readings");
        let windows = |v: &Value| {
            let verdict = judge(&sheet(v));
            let mut list: Vec<String> =
                verdict.windows.iter().map(|w| format!("{} {} {:?} {:?}", w.rule, w.fact, w.place, w.limits)).collect();
            list.sort();
            list
        };
        let (before, after) = (windows(&bare), windows(&full));
        assert!(before.len() > 40, "{name}: {} windows", before.len());
        // a rule may be given another reading than the one it judges: few are, and what parts take up makes contact
        let hangs = given_readings();
        assert!(hangs.len() < 30, "{hangs:?}");
        let rule = |w: &str| w.split(' ').next().unwrap().to_owned();
        for window in before.iter().filter(|w| !hangs.contains(&rule(w))) {
            assert!(after.contains(window), "{name}: {window} moved once something was measured");
        }
    }
}

/// The rules that are given something that a gauge brings.
fn given_readings() -> BTreeSet<String> {
    let measured = |id: &String| Catalogue::standard().info(id).is_some_and(|f| f.measured || hangs_on_a_reading(id));
    let packs = thou_tests::builtin();
    let rules =
        packs.iter().flat_map(|p| p.manifest.rules.iter().map(move |r| (format!("{}/{}", p.manifest.id, r.id), r)));
    rules.filter(|(_, r)| r.needs.iter().chain(&r.takes).any(measured)).map(|(id, _)| id).collect()
}

fn hangs_on_a_reading(id: &str) -> bool {
    let catalogue = Catalogue::standard();
    let info = catalogue.info(id).unwrap();
    info.needs.iter().any(|n| catalogue.info(n).is_some_and(|f| f.measured || hangs_on_a_reading(n)))
}

/// Whatever size the program tells the machinist to go to, there the fact is inside its window.
#[test]
fn every_remedy_works() {
    let mut tried = 0;
    let folders = ["sample-builds", "sample-builds/planted", "sample-builds/right"];
    for name in folders.iter().flat_map(|f| samples(f)) {
        let sheet = sheet_of(&name);
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        for item in judge(&sheet).items {
            let (Some(advice), Some(fact), Some(limits)) = (&item.advice, &item.fact, &item.limits) else { continue };
            let Some(solved) = &advice.solved else { continue };
            let at = item.place.map_or(0, |p| p.1);
            for size in [solved.from, solved.aim, solved.to].into_iter().flatten() {
                let fork = facts.fork(&[(&solved.fact, solved.place.map_or(0, |p| p.1), size)]);
                let cell = if *fact == solved.fact {
                    size
                } else {
                    fork.derived(fact).get(at).cloned().unwrap().unwrap().value
                };
                let inside = |limit: Option<f64>, sign: f64| {
                    limit.is_none_or(|l| (cell - l) * sign >= -1e-6 * l.abs().max(1e-6))
                };
                assert!(
                    inside(limits.low, 1.0)
                        && inside(limits.high, -1.0)
                        && inside(limits.never_below, 1.0)
                        && inside(limits.never_above, -1.0),
                    "{name}: {} says {} to {size}, and {fact} is then {cell} of {limits:?}",
                    item.rule,
                    solved.fact
                );
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "only {tried} sizes tried");
}

/// Without one of its readings a verdict is open, and where it can hold the exit status is not 0.
#[test]
fn without_any_one_reading_its_verdict_is_open() {
    let full = value("sample-builds/bracket.json");
    let before = judge(&sheet(&full));
    let keys: Vec<String> = full["readings"].as_object().unwrap().keys().cloned().collect();
    let mut opened = 0;
    for reading in keys {
        let mut less = full.clone();
        less["readings"].as_object_mut().unwrap().remove(&reading);
        let after = judge(&sheet(&less));
        // a reading can be one of two ways to a figure, as a clearance and its parts: then nothing opens
        let gone: Vec<&Item> = after.items.iter().filter(|i| i.state == State::Open).collect();
        let go_before = states(&before);
        for item in &gone {
            opened += 1;
            if item.at_stake == Level::Hold {
                assert_ne!(after.exit_code(false), 0, "without {reading}, {} is open and the exit is clean", item.rule);
            }
            assert!(
                !item.wants.is_empty() || !item.words.is_empty(),
                "without {reading}, {} does not say what it wants",
                item.rule
            );
            assert_ne!(go_before.get(&key(item)), Some(&State::Open), "{} was open all along", item.rule);
        }
        assert!(after.count(State::NoGo) == 0, "without {reading} something is no-go");
        let summary = thou::report::check::summary(&after);
        assert!(gone.is_empty() || summary.contains("Not a checked engine yet"), "without {reading}: {summary}");
    }
    assert!(opened > 60, "{opened}");
}

/// The same engine in millimetres comes to the same verdicts.
#[test]
fn inches_and_millimetres_come_to_the_same() {
    for name in ["bracket", "street", "all-out", "planted/01-aluminium-rods", "planted/03-nitrous"] {
        let inch = value(&format!("sample-builds/{name}.json"));
        let mut metric = inch.clone();
        let changed = to_metric(&mut metric, None);
        assert!(changed > 100, "{name}: {changed} quantities changed");
        let (a, b) = (states(&judge(&sheet(&inch))), states(&judge(&sheet(&metric))));
        let differ: Vec<_> = a.iter().filter(|(k, v)| b.get(*k) != Some(v)).map(|(k, v)| (k, v, b.get(k))).collect();
        assert!(differ.is_empty(), "{name}: {differ:?}");
        assert_eq!(a.len(), b.len());
    }
}

/// Writes every inch and thou in millimetres, rows of tenths as the sizes they stand for; gives how many.
fn to_metric(value: &mut Value, master: Option<f64>) -> usize {
    let length = Kind::by_id("length").unwrap();
    match value {
        Value::String(text) if text.ends_with(" in") || text.ends_with(" thou") => {
            let Ok(si) = length.parse(text) else { return 0 };
            // seventeen digits say exactly what the inches said, to the last bit of a double
            *text = format!("{:.17e} mm", si * 1e3);
            1
        }
        Value::Array(list) => list.iter_mut().map(|v| to_metric(v, master)).sum(),
        Value::Object(map) => {
            let own = map.get("master").and_then(Value::as_str).and_then(|t| length.parse(t).ok()).or(master);
            if let (Some(Value::Array(tenths)), Some(master)) = (map.get("tenths"), own) {
                let sizes: Vec<Value> = tenths
                    .iter()
                    .map(|t| {
                        t.as_f64()
                            .map_or(Value::Null, |t| Value::String(format!("{:.17e} mm", (master + t * 2.54e-6) * 1e3)))
                    })
                    .collect();
                let n = sizes.len();
                *value = Value::Array(sizes);
                return n;
            }
            map.iter_mut()
                .filter(|(k, _)| !matches!(k.as_str(), "csv" | "notes"))
                .map(|(k, v)| if k == "master" { 0 } else { to_metric(v, own) })
                .sum()
        }
        _ => 0,
    }
}

/// Naming the cylinders otherwise changes the labels and nothing else.
#[test]
fn the_shops_own_numbering_is_only_a_name() {
    let text = std::fs::read_to_string(thou_tests::file("sample-builds/single.json")).unwrap();
    let sheet_a = sheet(&serde_json::from_str(&text).unwrap());
    let label = sheet_a.places.labels(Axis::Cylinder).first().unwrap().clone();
    let mut other: Value = serde_json::from_str(&text).unwrap();
    other["engine"]["cylinder-names"] = serde_json::json!(["pot"]);
    for (reading, sets) in other["readings"].as_object_mut().unwrap() {
        let axis =
            Catalogue::standard().all().find(|f| f.path == Some(&format!("readings.{reading}")[..])).map(|f| f.axis);
        if matches!(axis, Some(Axis::Cylinder | Axis::Rod | Axis::Valve)) {
            rename(sets, &label, "pot");
        }
    }
    let (a, b) = (states(&judge(&sheet_a)), states(&judge(&sheet(&other))));
    assert_eq!(a, b);
}

fn rename(readings: &mut Value, from: &str, to: &str) {
    match readings {
        Value::Object(map) => {
            for (key, value) in std::mem::take(map) {
                let mut value = value;
                if key == "at" {
                    if let Value::Object(at) = &mut value {
                        let renamed = std::mem::take(at).into_iter().map(|(k, v)| {
                            let valve =
                                k.strip_prefix(from).filter(|rest| rest.is_empty() || rest.starts_with(['I', 'E']));
                            (valve.map_or(k.clone(), |rest| format!("{to}{rest}")), v)
                        });
                        at.extend(renamed);
                    }
                } else {
                    rename(&mut value, from, to);
                }
                map.insert(key, value);
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|v| rename(v, from, to)),
        _ => {}
    }
}

/// The same input gives the same bytes.
#[test]
fn the_same_sheet_gives_the_same_bytes() {
    for page in ["spec", "check", "plan"] {
        let run = || thou(&[page, "sample-builds/bracket.json"]).out;
        assert_eq!(run(), run(), "{page}");
    }
}

/// No page is all green while something is open: the count of what nobody measured stands first.
#[test]
fn what_is_not_measured_is_counted_first() {
    let run = thou(&["check", "sample-builds/bracket.json"]);
    let summary = run.out.lines().nth(1).unwrap();
    assert!(summary.starts_with("0 not measured, 0 no-go"), "{summary}");
}

/// A page fits a clipboard.
#[test]
fn no_line_is_wider_than_eighty_columns() {
    let folders = ["sample-builds", "sample-builds/planted", "sample-builds/right"];
    for name in folders.iter().flat_map(|f| samples(f)) {
        for page in ["spec", "check", "plan"] {
            for units in ["in", "mm"] {
                let run = thou(&[page, &name, "--units", units]);
                let wide: Vec<&str> = run.out.lines().filter(|l| l.chars().count() > 80).collect();
                assert!(wide.is_empty(), "{page} {name} --units {units}: {wide:#?}");
            }
        }
    }
}

/// The log counts an outing down by the slopes that the pack scales its lives by: how fast each life falls with one
/// hundredth more of a stress, from the pack's own answers, against what its manifest says of the part.
#[test]
fn a_log_counts_by_the_slopes_that_the_lives_are_scaled_by() {
    use thou_contract::answer::Said;
    use thou_contract::wear::{Cause, Stress};
    let speed = ["piston.speed.mean.at-shift"];
    let pressure = ["bmep.at-power"];
    let load = ["spring.open-load", "extra.freshen.spring-stress"];
    // choices by their index: bracket, no adder, race petrol, pushrods, roller lifters, titanium valves
    let engine = |id: &str, aluminium: bool| match id {
        "use" | "fuel" | "valve.inlet.material" => Some(1.0),
        "adder" | "valvetrain.kind" | "cam.drive" | "rocker.type" | "gasket.kind" => Some(0.0),
        "lifter.type" => Some(3.0),
        "rod.material" => Some(if aluminium { 2.0 } else { 0.0 }),
        "rocker.material" => Some(if aluminium { 1.0 } else { 0.0 }),
        "piston.speed.mean.at-shift" => Some(22.86),
        "bmep.at-power" => Some(13.1e5),
        "spring.open-load" => Some(650.0 * 4.448_221_615_260_5),
        "extra.freshen.spring-stress" => Some(1.0),
        _ => None,
    };
    let (pack, manifest) = (freshen::PACK, freshen::PACK.manifest());
    // the factor on every life that a rule gives, with the text that it is given with; none where it is not scaled
    let lives = |index: u32, aluminium: bool, more: &[&str], by: f64| -> Vec<(usize, Option<f64>)> {
        let rule = pack.rules[index as usize];
        let (mut starts, mut values) = (vec![0], Vec::new());
        for fact in pack.facts {
            let grows = if more.contains(&fact.id) { by } else { 1.0 };
            values.extend(engine(fact.id, aluminium).map(|value| value * grows));
            starts.push(values.len() as u32);
        }
        let raw = pack.assess(&[index], &thou_sdk::Facts::new(&starts, &values));
        let life = |service: &Said<thou_sdk::Service, u32>| {
            let text = service.what.text as usize;
            let at = rule.texts[text].args.iter().position(|a| a.name == "factor");
            (text, at.map(|at| raw.numbers[service.args as usize + at]))
        };
        raw.services.iter().map(life).collect()
    };
    let (mut weighed, mut plain) = (BTreeSet::new(), 0);
    for (index, rule) in (0u32..).zip(&manifest.rules).filter(|(_, rule)| rule.service.is_some()) {
        for (what, more) in [("speed", &speed[..]), ("pressure", &pressure[..]), ("load", &load[..])] {
            for aluminium in [false, true] {
                let harder = lives(index, aluminium, more, 1.01);
                for ((text, known), (_, harder)) in lives(index, aluminium, more, 1.0).into_iter().zip(harder) {
                    let Some((known, harder)) = known.zip(harder) else {
                        assert_eq!(rule.wears(text), None, "{}: {text} is not scaled, and weighed", rule.id);
                        plain += 1;
                        continue;
                    };
                    let pack = -(harder / known).ln() / 1.01_f64.ln();
                    let power = |Stress { cause, slope }: &Stress| match (cause, what) {
                        // the ring's own tension is a tenth of it and does not grow
                        (Cause::Pressure | Cause::Sliding, "pressure")
                        | (Cause::Landing, "speed")
                        | (Cause::Spring, "load") => slope.harder,
                        (Cause::Inertia, "speed") => 2.0 * slope.harder,
                        _ => 0.0,
                    };
                    let places = rule.wears(text).unwrap_or_default();
                    let log = places.iter().map(|place| place.iter().map(power).sum()).fold(0.0, f64::max);
                    assert!((pack - log).abs() < 1e-6, "{} text {text}, {what}: {pack} and {log}", rule.id);
                    if log > 0.0 {
                        weighed.insert((rule.id.as_str(), text, what));
                    }
                }
            }
        }
    }
    // both kinds of rods and of rockers, and both stresses of a part that has two
    for known in [("rockers", 0), ("rockers", 1), ("aluminium-rods", 0), ("steel-rods", 0), ("lash", 0)] {
        assert!(weighed.iter().any(|(id, text, _)| (*id, *text) == known), "{known:?}: {weighed:?}");
    }
    for known in [("retainers", 0, "speed"), ("retainers", 0, "load"), ("aluminium-rods", 0, "pressure")] {
        assert!(weighed.contains(&known), "{known:?}: {weighed:?}");
    }
    assert!(weighed.len() >= 25 && plain > 0, "{}, {plain}", weighed.len());
}
