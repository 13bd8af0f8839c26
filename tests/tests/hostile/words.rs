//! Packs whose manifest misbehaves; their code does nothing wrong.

use super::{manifest, well_behaved};
use serde_json::{Value, json};
use thou_tests::made::with_manifest;

/// The good pack under its manifest with this changed.
fn changed(change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let mut m = manifest();
    change(&mut m);
    with_manifest(well_behaved(), &m.to_string())
}

/// The good pack with these bytes for a manifest.
fn raw(bytes: &[u8]) -> Vec<u8> {
    use wasm_encoder::Encode;
    let mut component = well_behaved();
    component.push(0);
    wasm_encoder::CustomSection { name: "thou-manifest".into(), data: bytes.into() }.encode(&mut component);
    component
}

/// Every text that a hand wrote, with this around it; names and the words of the schema stay.
pub fn around(value: &mut Value, before: &str, after: &str) {
    const WORDS: [&str; 11] =
        ["title", "about", "why", "source", "words", "whose", "version", "hold-source", "caution", "part", "value"];
    match value {
        Value::Object(map) => {
            for (key, v) in map.iter_mut() {
                match v {
                    Value::String(text) if WORDS.contains(&key.as_str()) => *text = format!("{before}{text}{after}"),
                    Value::Array(list) if matches!(key.as_str(), "reasons" | "triggers" | "choices") => {
                        for text in list {
                            *text = json!(format!("{before}{}{after}", text.as_str().unwrap_or_default()));
                        }
                    }
                    v => around(v, before, after),
                }
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|v| around(v, before, after)),
        _ => {}
    }
}

/// A manifest with a text in every field that there is for one.
pub fn full() -> Value {
    let mut m = manifest();
    let push = |list: &mut Value, more: Value| list.as_array_mut().unwrap().push(more);
    push(&mut m["facts"], json!({ "id": "use", "kind": "choice", "axis": "one", "choices": ["street", "bracket"] }));
    push(&mut m["facts"], json!({ "id": "extra.hostile.field", "kind": "length", "axis": "one" }));
    m["inputs"] = json!([{ "id": "extra.hostile.field", "kind": "length", "about": "write it here" }]);
    m["uses"] = json!([{ "id": "pulling", "title": "Pulling", "about": "A sled", "like": "all-out" }]);
    m["meters"] = json!(["passes"]);
    m["rules"][0]["texts"][0]["low"] = json!({ "words": "open it up" });
    m["rules"][0]["texts"][0]["high"] = json!({ "words": "go back" });
    m["rules"][0]["texts"][0]["whose"] = json!("piston card");
    m["rules"][0]["hold-basis"] = json!("physics");
    m["rules"][0]["hold-source"] = json!("it touches");
    m["rules"][1]["reasons"] = json!(["there is none"]);
    // never asked, since no sheet has the field that it needs: its words are shown by `thou explain`
    let service = json!({
        "id": "look", "kind": "service", "title": "Look", "operation": "hand-over", "why": "to see", "basis": "practice",
        "source": "common practice, no source", "texts": [{ "words": "often" }], "needs": ["extra.hostile.field"],
        "service": { "part": "pistons", "action": "inspect", "since": "built", "opens": "heads", "hours": 1, "loses": "engine",
                     "triggers": ["smoke"], "caution": "hot" }
    });
    push(&mut m["rules"], service);
    m
}

/// What goes wrong on a terminal, on a page and in a reader's eye.
pub const LOUD: [(&str, &str, &str); 3] = [
    ("escape-codes-in-every-text", "\u{1b}[2J\u{1b}[31m\u{7}", "\u{9b}0m\u{8}\u{1b}]0;all go\u{7}"),
    ("turned-around-in-every-text", "\u{202e}\u{2066}", "\u{2069}\u{200b}\u{e0041}\u{ad}"),
    ("html-in-every-text", "<script>alert('", "')</script>&lt;b&gt;"),
];

pub fn all() -> Vec<(&'static str, Vec<u8>)> {
    let rule = |m: &Value, at: usize, id: &str| {
        let mut rule = m["rules"][at].clone();
        rule["id"] = json!(id);
        rule
    };
    let mut all = vec![
        ("a-hundred-thousand-brackets", raw("[".repeat(100_000).as_bytes())),
        (
            "a-manifest-of-ten-megabytes",
            raw(format!("{{\"contract\": \"rules-1.0\", \"about\": \"{}\"}}", " ".repeat(10 << 20)).as_bytes()),
        ),
        (
            "a-million-values-in-its-manifest",
            raw(format!("{{\"contract\": \"rules-1.0\", \"facts\": [{}0]}}", "0,".repeat(1_000_000)).as_bytes()),
        ),
        ("a-manifest-of-bad-text", raw(b"{\"contract\": \"rules-1.0\", \"id\": \"\xff\xfe\"}")),
        ("a-manifest-cut-short", raw(b"{\"contract\": \"rules-1.0\", \"id\": \"cut\", \"rul")),
        ("a-manifest-that-is-a-list", raw(b"[1, 2, 3]")),
        ("a-manifest-of-nothing", raw(b"")),
        ("two-manifests", with_manifest(changed(|_| ()), "{}")),
        ("a-name-of-a-megabyte", changed(|m| m["id"] = json!("a".repeat(1 << 20)))),
        ("words-of-a-megabyte", changed(|m| m["rules"][0]["why"] = json!("why ".repeat(1 << 18)))),
        (
            "a-thousand-names-of-a-thousand",
            changed(|m| {
                m["rules"][0]["needs"] = (0..1000).map(|i| json!(format!("{i}{}", "x".repeat(1000)))).collect()
            }),
        ),
        (
            "nothing-to-fill-in-a-million-times",
            changed(|m| {
                m["rules"][0]["texts"] = (0..90).map(|_| json!({ "words": "{}".repeat(2000) })).collect();
            }),
        ),
        (
            "replaces-in-a-circle",
            changed(|m| {
                m["rules"][0]["supersedes"] = json!(["hostile/deck"]);
                m["rules"][1]["supersedes"] = json!(["hostile/piston-to-wall"]);
            }),
        ),
        (
            "a-thousand-rules-with-arrows",
            changed(|m| {
                // no sheet has the field that they need, so they are never asked
                let field = json!({ "id": "extra.hostile.field", "kind": "length", "axis": "one" });
                m["facts"].as_array_mut().unwrap().push(field);
                m["inputs"] = json!([{ "id": "extra.hostile.field", "kind": "length", "about": "write it here" }]);
                let more: Vec<Value> = (2..1000)
                    .map(|i| {
                        let mut rule = rule(m, 1, &format!("r{i}"));
                        rule["needs"] = json!(["extra.hostile.field"]);
                        rule["supersedes"] =
                            (i + 1..1000.min(i + 200)).map(|j| json!(format!("hostile/r{j}"))).collect();
                        rule
                    })
                    .collect();
                m["rules"].as_array_mut().unwrap().extend(more);
            }),
        ),
        ("called-like-the-host", changed(|m| m["id"] = json!("host"))),
        ("called-like-nothing", changed(|m| m["id"] = json!(" "))),
        ("called-by-what-turns-around", changed(|m| m["id"] = json!("\u{202e}secnaraelc"))),
        ("for-no-contract", changed(|m| drop(m.as_object_mut().unwrap().remove("contract")))),
        ("for-a-contract-that-is-none", changed(|m| m["contract"] = json!("rules-one\u{1b}[2J"))),
        ("for-a-contract-of-many-digits", changed(|m| m["contract"] = json!("rules-99999999999999999999.0"))),
        ("with-more-than-a-manifest-has", changed(|m| m["\u{1b}[2Jrun"] = json!("rm -rf /"))),
        ("a-fact-of-no-kind", changed(|m| m["facts"][0]["kind"] = json!("furlongs"))),
        ("a-fact-twice", changed(|m| *m["facts"].as_array_mut().unwrap() = vec![m["facts"][0].clone(); 2])),
        ("a-fact-that-is-not-declared", changed(|m| m["rules"][1]["takes"] = json!(["stroke.nominal"]))),
        (
            "a-use-that-is-ours",
            changed(|m| m["uses"] = json!([{ "id": "street", "title": "S", "about": "S", "like": "all-out" }])),
        ),
        (
            "a-use-like-nothing",
            changed(|m| m["uses"] = json!([{ "id": "pulling", "title": "S", "about": "S", "like": "pulling" }])),
        ),
        (
            "a-field-of-another-pack",
            changed(|m| m["inputs"] = json!([{ "id": "extra.clearances.gap", "kind": "length", "about": "x" }])),
        ),
        (
            "a-default-for-another-fact",
            changed(|m| m["defaults"] = json!([{ "fact": "bore", "value": "1 in", "source": "x" }])),
        ),
        (
            "a-default-that-is-none",
            changed(|m| m["defaults"] = json!([{ "fact": "bore.nominal", "value": "wide", "source": "x" }])),
        ),
        ("nothing-fills-this-in", changed(|m| m["rules"][0]["texts"][0]["words"] = json!("{password} and {"))),
        ("a-window-of-nothing", changed(|m| m["rules"][0]["judges"] = json!([]))),
        ("a-service-without-one", changed(|m| m["rules"][1]["kind"] = json!("service"))),
        ("no-rules", changed(|m| m["rules"] = json!([]))),
        (
            "steps-in-a-circle",
            changed(|m| {
                for (at, other) in [(0, "deck"), (1, "piston-to-wall")] {
                    m["rules"][at]["kind"] = json!("step");
                    m["rules"][at]["step"] = json!({ "after": [other] });
                }
            }),
        ),
        ("replaces-a-rule-that-is-not-there", changed(|m| m["rules"][0]["supersedes"] = json!(["hostile/bores"]))),
    ];
    let services: [(&str, Value); 4] = [
        ("held-in-no-section", json!({ "held-in": ["valvtrain"] })),
        ("worn-by-a-slope-of-no-name", json!({ "wears": [[{ "cause": "inertia" }]] })),
        (
            "worn-by-slopes-that-cannot-be",
            json!({ "wears": [[{ "cause": "inertia", "harder": 4, "softer": 8.5 }, { "cause": "sliding", "harder": 90, "softer": 0 }]] }),
        ),
        (
            "worn-and-counted-otherwise",
            json!({ "wears": [[{ "cause": "spring", "slope": "wire" }]], "duty": "outing" }),
        ),
    ];
    for (name, says) in services {
        let mut m = full();
        let rule = m["rules"].as_array_mut().unwrap().iter_mut().find(|r| r["kind"] == "service").unwrap();
        rule["service"].as_object_mut().unwrap().extend(says.as_object().unwrap().clone());
        all.push((name, with_manifest(well_behaved(), &m.to_string())));
    }
    for (name, before, after) in LOUD {
        let mut m = full();
        around(&mut m, before, after);
        all.push((name, with_manifest(well_behaved(), &m.to_string())));
    }
    all
}
