//! A sheet to start from: everything a build is usually judged on, still to fill in.

use super::fault::Finder;
use super::keys::{Points, ReadingKey};
use super::model::{Axis, Places, Source};
use super::places::places;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// What stands in every starter: the section, and the dotted paths below it.
const STATED: &[(&str, &str)] = &[
    ("shop", "name temperature"),
    (
        "block",
        "material origin caps fill deck-height bore honed-with-plate state card.sheet card.main-housing-low \
         card.main-housing-high",
    ),
    ("crank", "material surface stroke main-journal rod-journal state"),
    (
        "rods",
        "material length rods-a-pin small-end-mass big-end-mass state card.sheet card.power-rating \
         card.housing-low card.housing-high",
    ),
    (
        "pistons",
        "alloy skirt-coating gauge-point compression-height dome-volume dish-volume gas-ports top-land-height \
         mass state card.sheet card.fit-low card.fit-high",
    ),
    ("pins", "fit oiling diameter mass lock-mass"),
    ("rings", "top-height top-material oil-tension mass card.sheet card.top-gap-factor card.second-gap-factor"),
    ("gasket", "kind bore compressed-thickness state"),
    ("heads", "material valves-a-cylinder chamber-volume guide-material seat-material seat-angle state"),
    ("valves", "inlet-material exhaust-material inlet-diameter exhaust-diameter stem-diameter state"),
    (
        "springs",
        "rate bind-height state card.sheet card.seat-load card.installed-height card.bind-margin \
         card.lift-limit",
    ),
    (
        "valvetrain",
        "kind lifter lifter-oiling rocker rocker-material rocker-ratio pushrod-diameter card.lash-hot-inlet \
         card.lash-hot-exhaust",
    ),
    (
        "cam",
        "inlet.lobe-lift inlet.valve-lift inlet.duration inlet.duration-at-50 inlet.centre-line \
         exhaust.lobe-lift exhaust.valve-lift exhaust.duration exhaust.duration-at-50 exhaust.centre-line",
    ),
    (
        "bearings",
        "kind rod-mass card.sheet card.main-clearance-low card.main-clearance-high card.rod-clearance-low \
         card.rod-clearance-high",
    ),
    (
        "fasteners",
        "heads.count-a-cylinder heads.clamp heads.lubricant heads.torque rod-bolts.count-a-rod \
         rod-bolts.clamp rod-bolts.times-tightened rod-bolts.lubricant rod-bolts.card.sheet \
         rod-bolts.card.stretch-low rod-bolts.card.stretch-high",
    ),
    ("oil", "grade volume temperature pressure-plan sump pickup"),
    ("fuel", "octane ethanol seals pump-flow"),
    ("induction", "intercooled"),
    ("ignition", "total-advance plug plug-gap"),
    ("balance", "kind damper factor bobweight oil-mass radius"),
];

const INTENT: &str = "power power-speed redline limiter shift-speed fuel adder sanctioned vehicle-mass passes-a-season \
    miles-a-year freshen-wanted";

/// The readings of every starter, in the order of the job.
const READ: &str = "bore crosshatch wall-thickness deck-flatness deck-roughness main-housing main-journal main-inside \
    end-play crank-straightness rod-housing rod-journal rod-inside rod-side-clearance rod-bolt-stretch piston \
    pin-bore pin top-gap second-gap rail-gap top-axial-clearance deck-clearance chamber-volume head-flatness \
    guide-bore stem installed-height seat-load retainer-to-seal piston-to-valve valve-radial lash-cold \
    cam-end-play damper-interference balance-front balance-rear oil-pump-end pickup-to-pan turning-torque \
    leak-down cranking-pressure oil-pressure-hot";

const NOTES: &[&str] = &[
    "null is a place still to fill in; fields that do not apply may go.",
    "Every quantity is text with its unit: \"4.155 in\", \"2.8 thou\", \"0.07 mm\", \"65 psi\", \"7200 rpm\".",
    "A row may also be tenths off a master: \"master\": \"4.1550 in\" in the set, and \"1\": { \"tenths\": [0, 1, -1, 0, 0, 1] }.",
    "Say when, by whom and with which gauge (by its name under gauges) each set was read.",
];

/// The text of a starter sheet: every value a hole, the places of the engine written out. It is a valid sheet.
///
/// `cylinders` is held to 1 to 16; a `layout` that is not one, or cannot have that many cylinders, becomes `inline` or
/// `single`.
#[must_use]
pub fn starter(use_id: &str, cylinders: usize, layout: &str) -> String {
    let cylinders = cylinders.clamp(1, 16);
    let layout = match layout {
        "v" | "flat" if cylinders > 1 => layout,
        _ if cylinders > 1 => "inline",
        _ => "single",
    };
    let use_id = if use_id.trim().is_empty() { "street" } else { use_id };

    let mut root = Map::new();
    root.insert("format".into(), json!("thou-build-1"));
    root.insert(
        "engine".into(),
        json!({ "name": "to fill in", "cylinders": cylinders, "layout": layout, "serial": null, "job": null,
            "date": null, "measured-by": null, "assembled-by": null }),
    );
    let mut intent = holes(INTENT);
    if let Some(object) = intent.as_object_mut() {
        object.shift_insert(0, "use".into(), json!(use_id));
    }
    root.insert("intent".into(), intent);
    root.insert(
        "gauges".into(),
        json!({
            "micrometer": { "kind": "outside-micrometer", "resolution": null, "uncertainty": null, "set-on": null },
            "bore gauge": { "kind": "bore-gauge", "resolution": null, "uncertainty": null, "set-on": null },
            "feelers": { "kind": "feeler", "resolution": null, "uncertainty": null, "set-on": null },
        }),
    );
    for (section, paths) in STATED {
        root.insert((*section).into(), holes(paths));
    }
    let of_engine = Value::Object(root.clone());
    let (source, keys) = (Source::default(), BTreeMap::new());
    let places = places(&of_engine, &mut Finder::new(&source, &keys));
    let readings: Map<String, Value> =
        READ.split_whitespace().filter_map(|name| Some((name.to_owned(), set(name, &places)?))).collect();
    root.insert("readings".into(), Value::Object(readings));
    root.insert("work".into(), json!([]));
    root.insert("accepted".into(), json!([]));
    root.insert("certificates".into(), json!([]));
    root.insert("meters".into(), holes("date passes miles hours"));
    root.insert("calendar".into(), json!([]));
    root.insert("lead-times".into(), json!({}));
    root.insert("costs".into(), json!({ "money": null, "hour": null, "parts": {} }));
    root.insert("spares".into(), json!([]));
    root.insert("notes".into(), json!(NOTES));
    let mut out = String::new();
    write(&Value::Object(root), 0, &mut out);
    out.push('\n');
    out
}

/// A section with a null at each dotted path.
fn holes(paths: &str) -> Value {
    let mut root = Map::new();
    for path in paths.split_whitespace() {
        hole(&mut root, path);
    }
    Value::Object(root)
}

fn hole(at: &mut Map<String, Value>, path: &str) {
    match path.split_once('.') {
        None => {
            at.insert(path.to_owned(), Value::Null);
        }
        Some((first, rest)) => {
            let inner = at.entry(first.to_owned()).or_insert_with(|| Value::Object(Map::new()));
            if let Some(inner) = inner.as_object_mut() {
                hole(inner, rest);
            }
        }
    }
}

fn set(name: &str, places: &Places) -> Option<Value> {
    let key = ReadingKey::by_name(name)?;
    let mut set = holes("stage when by gauge");
    let object = set.as_object_mut()?;
    if key.axis == Axis::One {
        object.insert("value".into(), Value::Null);
        return Some(set);
    }
    let row = match key.points {
        Points::One => Value::Null,
        points => Value::Array(vec![Value::Null; points.names().len()]),
    };
    let rows = places.labels(key.axis).iter().map(|label| (label.clone(), row.clone())).collect();
    object.insert("at".into(), Value::Object(rows));
    Some(set)
}

/// JSON as a person would lay it out: what fits stands on one line, sections never do.
fn write(value: &Value, indent: usize, out: &mut String) {
    let flat = flat(value);
    let nested = match value {
        Value::Object(o) => indent < 2 && !o.is_empty() || o.values().any(|v| v.is_object() || v.is_array()),
        Value::Array(a) => a.iter().any(|v| v.is_object() || v.is_array()),
        _ => false,
    };
    if !nested && indent + flat.chars().count() <= 110 {
        out.push_str(&flat);
        return;
    }
    let pad = " ".repeat(indent + 2);
    let mut first = true;
    let mut next = |out: &mut String| {
        out.push_str(if first { "\n" } else { ",\n" });
        out.push_str(&pad);
        first = false;
    };
    match value {
        Value::Object(object) => {
            out.push('{');
            for (key, child) in object {
                next(out);
                out.push_str(&format!("{}: ", Value::String(key.clone())));
                write(child, indent + 2, out);
            }
            out.push_str(&format!("\n{}}}", " ".repeat(indent)));
        }
        Value::Array(list) => {
            out.push('[');
            for child in list {
                next(out);
                write(child, indent + 2, out);
            }
            out.push_str(&format!("\n{}]", " ".repeat(indent)));
        }
        _ => out.push_str(&flat),
    }
}

fn flat(value: &Value) -> String {
    match value {
        Value::Object(o) if !o.is_empty() => {
            let parts: Vec<String> =
                o.iter().map(|(k, v)| format!("{}: {}", Value::String(k.clone()), flat(v))).collect();
            format!("{{ {} }}", parts.join(", "))
        }
        Value::Array(a) => format!("[{}]", a.iter().map(flat).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::Sheet;
    use std::path::Path;

    #[test]
    fn a_starter_is_a_valid_sheet_for_every_engine() {
        for layout in ["single", "inline", "v", "flat", "nonsense"] {
            for cylinders in [0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 99] {
                let text = starter("bracket", cylinders, layout);
                let sheet = Sheet::parse("new.json", &text, Path::new("")).map_err(|f| f.to_string()).unwrap();
                assert_eq!(sheet.places.count(Axis::Cylinder), cylinders.clamp(1, 16));
                let bore = sheet.readings.get("bore").unwrap().first().unwrap();
                assert_eq!(bore.rows.len(), cylinders.clamp(1, 16));
                assert!(bore.rows.iter().flatten().all(|r| r.value.is_none()));
            }
        }
    }

    #[test]
    fn a_starter_reads_like_a_sheet() {
        let text = starter("bracket", 2, "inline");
        let top: Vec<&str> = text.lines().take(12).collect();
        assert_eq!(
            top,
            [
                "{",
                "  \"format\": \"thou-build-1\",",
                "  \"engine\": {",
                "    \"name\": \"to fill in\",",
                "    \"cylinders\": 2,",
                "    \"layout\": \"inline\",",
                "    \"serial\": null,",
                "    \"job\": null,",
                "    \"date\": null,",
                "    \"measured-by\": null,",
                "    \"assembled-by\": null",
                "  },",
            ]
        );
        assert!(text.contains("        \"1\": [null, null, null, null, null, null],\n"), "{text}");
        assert!(text.contains("      \"at\": { \"1I\": null, \"1E\": null, \"2I\": null, \"2E\": null }"), "{text}");
    }
}
