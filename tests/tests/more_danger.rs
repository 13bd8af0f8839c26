//! More danger is never milder: each risk is raised step by step on every sample, and no step may end better than the one
//! before it, nor may what was a no-go become anything less.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use thou::sheet::Sheet;
use thou::verdict::{State, Verdict};
use thou_tests::{file, judge, samples, value};

/// How one risk is raised: a sheet with so much of it, from none on; nothing where the sheet has nothing to raise.
type Raise = fn(&Value, usize) -> Option<Value>;

/// Each risk, and in how many steps it is raised.
const RISKS: &[(&str, usize, Raise)] = &[
    ("boost", 6, boost),
    ("nitrous", 6, nitrous),
    ("speed", 6, speed),
    ("power", 6, power),
    ("altitude", 5, altitude),
    ("compression", 6, compression),
    ("octane that is missing", 6, octane),
    ("piston mass", 5, piston_mass),
    ("peak pressure", 6, peak_pressure),
    ("spring load", 5, spring_load),
    ("oil temperature", 5, oil_temperature),
    ("oil pressure that is missing", 6, oil_pressure),
    ("leak-down", 6, leak_down),
    ("torque that is missing", 5, torque),
    ("tightenings", 5, tightenings),
    ("age of the damper", 5, age),
    ("time at the strip that is missing", 5, strip),
    ("advance", 5, advance),
];

#[test]
fn more_danger_is_never_milder() {
    let mut milder = String::new();
    let mut held = BTreeSet::new();
    let mut steps = 0;
    for name in samples("sample-builds") {
        let base = value(&name);
        for (risk, count, raise) in RISKS {
            let Some(mut before) = raise(&base, 0).and_then(|first| told(&first)) else { continue };
            for step in 1..*count {
                // past what an engine can have at all the sheet is refused, which is not milder either
                let Some(now) = raise(&base, step).and_then(|raised| told(&raised)) else { break };
                steps += 1;
                if now.worst < before.worst {
                    let _ = writeln!(milder, "{name}, {risk}, step {step}: ends {} after {}", now.worst, before.worst);
                }
                for gone in before.no_goes.difference(&now.no_goes) {
                    let _ = writeln!(milder, "{name}, {risk}, step {step}: no no-go any more: {gone}");
                }
                if !now.no_goes.is_empty() {
                    held.insert(*risk);
                }
                before = now;
            }
        }
    }
    assert_eq!(milder, "");
    assert!(steps > 500, "{steps} steps");
    // what raises each far enough is held somewhere
    let missed: Vec<&str> = RISKS.iter().map(|(risk, ..)| *risk).filter(|risk| !held.contains(risk)).collect();
    assert_eq!(missed, ["age of the damper"]);
}

/// What a verdict comes to.
struct Told {
    /// 0 go, 1 a look, 2 open where it could hold, 3 a no-go.
    worst: u8,
    /// Rule and fact of every no-go; which of its places does not matter.
    no_goes: BTreeSet<String>,
}

/// What the packs say of a sheet; nothing of one that is refused.
fn told(value: &Value) -> Option<Told> {
    let text = serde_json::to_string(value).unwrap();
    let sheet = Sheet::parse("sheet.json", &text, &file("sample-builds")).ok()?;
    let verdict: Verdict = judge(&sheet);
    assert!(verdict.lost.is_empty(), "{:?}", verdict.lost);
    let no_goes = verdict.items.iter().filter(|i| i.state == State::NoGo);
    let no_goes = no_goes.map(|i| format!("{} {}", i.rule, i.fact.as_deref().unwrap_or(""))).collect();
    let worst = match verdict.exit_code(false) {
        0 if verdict.count(State::Look) == 0 => 0,
        0 => 1,
        4 => 2,
        1 => 3,
        other => panic!("{other} is no exit status of a check"),
    };
    Some(Told { worst, no_goes })
}

/// The quantity at a pointer, this many times as large.
fn times(sheet: &mut Value, pointer: &str, by: f64) -> Option<()> {
    let field = sheet.pointer_mut(pointer)?;
    *field = scaled(field, by)?;
    Some(())
}

/// A quantity as text, or a list of them, this many times as large.
fn scaled(quantity: &Value, by: f64) -> Option<Value> {
    match quantity {
        Value::Array(list) => list.iter().map(|v| scaled(v, by)).collect(),
        Value::String(text) => {
            let (number, unit) = text.split_once(' ')?;
            Some(json!(format!("{} {unit}", number.parse::<f64>().ok()? * by)))
        }
        Value::Number(number) => Some(json!(number.as_f64()? * by)),
        _ => None,
    }
}

/// Every reading of a key in its last set, this many times as large.
fn readings(sheet: &mut Value, key: &str, by: f64) -> Option<()> {
    let mut set = sheet.pointer_mut(&format!("/readings/{key}"))?;
    if set.is_array() {
        set = set.as_array_mut()?.last_mut()?;
    }
    if let Some(one) = set.get_mut("value") {
        *one = scaled(one, by)?;
    }
    for place in set.get_mut("at").and_then(Value::as_object_mut).into_iter().flatten() {
        *place.1 = scaled(place.1, by)?;
    }
    Some(())
}

fn growing(step: usize, by: f64) -> f64 {
    by.powi(i32::try_from(step).unwrap())
}

fn boost(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    // it stays what it is, and a turbo is hung on it
    sheet["intent"]["adder"] = json!("turbo");
    sheet["intent"]["adder-power"] = json!("50 hp");
    sheet["induction"]["intercooled"] = json!(true);
    sheet["intent"]["boost"] = json!(format!("{} psi", [6.0, 10.0, 15.0, 25.0, 40.0, 60.0].get(step)?));
    // 13.8 to 1 or so
    readings(&mut sheet, "chamber-volume", 0.65)?;
    Some(sheet)
}

fn nitrous(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    let shot = 60.0 * step as f64;
    if shot > 0.0 {
        sheet["intent"]["adder"] = json!("nitrous");
        sheet["intent"]["adder-power"] = json!(format!("{shot} hp"));
        sheet["intent"].as_object_mut()?.remove("boost");
        // it comes on top of what the engine makes
        let own = base["intent"]["power"].as_str()?;
        let (number, unit) = own.split_once(' ')?;
        let more = if unit == "kW" { shot * 0.745_7 } else { shot };
        sheet["intent"]["power"] = json!(format!("{} {unit}", number.parse::<f64>().ok()? + more));
    }
    Some(sheet)
}

fn speed(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    for field in ["redline", "limiter", "shift-speed", "lights-speed"] {
        let _ = times(&mut sheet, &format!("/intent/{field}"), growing(step, 1.12));
    }
    Some(sheet)
}

fn power(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    for field in ["power", "torque"] {
        times(&mut sheet, &format!("/intent/{field}"), growing(step, 1.15))?;
    }
    Some(sheet)
}

fn altitude(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    sheet["intent"]["altitude"] = json!(format!("{} ft", 3_000 * step));
    Some(sheet)
}

fn compression(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    readings(&mut sheet, "chamber-volume", growing(step, 0.88))?;
    Some(sheet)
}

fn octane(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    sheet["fuel"].as_object_mut()?.retain(|key, _| key != "ron" && key != "mon");
    sheet["fuel"]["octane"] = json!(116.0 - 7.0 * step as f64);
    Some(sheet)
}

fn piston_mass(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    readings(&mut sheet, "piston-mass", growing(step, 1.3))?;
    Some(sheet)
}

fn peak_pressure(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    times(&mut sheet, "/intent/peak-pressure", growing(step, 1.25))?;
    Some(sheet)
}

fn spring_load(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    for key in ["seat-load", "open-load", "seat-load-run-in"] {
        let _ = readings(&mut sheet, key, growing(step, 1.25));
    }
    Some(sheet)
}

fn oil_temperature(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    sheet["oil"]["temperature"] = json!(format!("{} °F", 220 + 30 * step));
    Some(sheet)
}

fn oil_pressure(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    readings(&mut sheet, "oil-pressure-hot", growing(step, 0.7))?;
    Some(sheet)
}

fn leak_down(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    readings(&mut sheet, "leak-down", growing(step, 2.0))?;
    Some(sheet)
}

fn torque(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    times(&mut sheet, "/fasteners/mains/torque", growing(step, 0.7))?;
    Some(sheet)
}

fn tightenings(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    *sheet.pointer_mut("/fasteners/rod-bolts/times-tightened")? = json!(1 + 5 * step);
    Some(sheet)
}

fn age(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    *sheet.pointer_mut("/balance/damper-made")? = json!(format!("{}-04-18", 2024 - 5 * step));
    Some(sheet)
}

fn strip(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    times(&mut sheet, "/intent/elapsed-time", growing(step, 0.9))?;
    Some(sheet)
}

fn advance(base: &Value, step: usize) -> Option<Value> {
    let mut sheet = base.clone();
    sheet["ignition"]["total-advance"] = json!(format!("{} deg", 32 + 7 * step));
    Some(sheet)
}
