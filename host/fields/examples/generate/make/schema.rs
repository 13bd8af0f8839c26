//! The JSON Schema of a build sheet.

use super::tree::{Node, Section, Sheet};
use serde_json::{Map, Value, json};
use thou_contract::{KINDS, Kind};

const DAY: &str = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$";
const NUMBER: &str = r"^\s*[-+−]?([0-9]+[.]?[0-9]*|[.][0-9]+)([eE][-+]?[0-9]+)?\s*";

/// All of it.
pub fn schema(sheet: &Sheet) -> Value {
    let mut properties = Map::new();
    let (first, last): (Vec<&Node>, Vec<&Node>) = sheet.own.iter().partition(|n| !matches!(n.key(), "extra" | "notes"));
    for node in first {
        properties.insert(node.key().to_owned(), field(sheet, node));
    }
    for section in &sheet.sections {
        properties.insert(section.head.name.clone(), of_section(sheet, section));
    }
    for node in last {
        properties.insert(node.key().to_owned(), field(sheet, node));
    }
    let required: Vec<&str> = sheet
        .own
        .iter()
        .filter(|n| n.entry.required)
        .map(Node::key)
        .chain(sheet.sections.iter().filter(|s| s.head.required).map(|s| s.head.name.as_str()))
        .collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "https://thou.invalid/build.schema.json",
        "title": sheet.head.title,
        "description": sheet.head.words,
        "type": "object",
        "required": required,
        "properties": properties,
        "additionalProperties": false,
        "$defs": definitions(sheet),
    })
}

fn of_section(sheet: &Sheet, section: &Section) -> Value {
    let head = &section.head;
    if let Some(of) = &head.list_of {
        return json!({ "description": head.words, "type": "array", "items": { "$ref": to(of) } });
    }
    if let Some(of) = &head.by_name {
        return json!({ "description": head.words, "type": "object", "additionalProperties": { "$ref": to(of) } });
    }
    let nodes = if head.name == "readings" { &sheet.readings } else { &section.nodes };
    object(sheet, &head.words, nodes)
}

fn object(sheet: &Sheet, words: &str, nodes: &[Node]) -> Value {
    let properties: Map<String, Value> = nodes.iter().map(|n| (n.key().to_owned(), field(sheet, n))).collect();
    let required: Vec<&str> = nodes.iter().filter(|n| n.entry.required).map(Node::key).collect();
    let mut out = Map::new();
    out.insert("description".to_owned(), json!(words));
    out.insert("type".to_owned(), json!("object"));
    if !required.is_empty() {
        out.insert("required".to_owned(), json!(required));
    }
    out.insert("properties".to_owned(), Value::Object(properties));
    out.insert("additionalProperties".to_owned(), json!(false));
    Value::Object(out)
}

fn to(name: &str) -> String {
    format!("#/$defs/{name}")
}

/// One field, described.
fn field(sheet: &Sheet, node: &Node) -> Value {
    if node.kind() == "section" {
        return object(sheet, node.words(), &node.children);
    }
    let mut out = Map::new();
    let of = node.entry.of.as_deref().unwrap_or_default();
    let same = node.kind() == "row" && sheet.rows.iter().any(|r| r.head.name == of && r.head.words == node.words());
    if !same {
        out.insert("description".to_owned(), json!(node.words()));
    }
    if let Value::Object(rest) = typed(sheet, node, of) {
        out.extend(rest);
    }
    if !node.entry.examples.is_empty() {
        let examples: Vec<Value> = node.entry.examples.iter().map(plain).collect();
        out.insert("examples".to_owned(), json!(examples));
    }
    Value::Object(out)
}

/// What a field holds.
fn typed(sheet: &Sheet, node: &Node, of: &str) -> Value {
    let required = node.entry.required;
    let or_null = |kind: &str| if required { json!(kind) } else { json!([kind, "null"]) };
    match node.kind() {
        "constant" => json!({ "const": node.entry.is }),
        "address" => json!({ "type": "string" }),
        "text" if required => json!({ "type": "string", "minLength": 1 }),
        "text" => json!({ "type": ["string", "null"] }),
        "flag" => json!({ "type": or_null("boolean") }),
        "whole" => bounded(json!({ "type": or_null("integer") }), node),
        "number" => bounded(json!({ "type": or_null("number") }), node),
        "day" if required => json!({ "type": "string", "pattern": DAY }),
        "day" => json!({ "$ref": to("date") }),
        "rule" => json!({ "type": "string", "pattern": "^[a-z0-9-]+/[a-z0-9-]+$" }),
        "end" => json!({ "type": "string", "pattern": "^([0-9]{4}-[0-9]{2}-[0-9]{2}|next-freshen)$" }),
        "groups" => json!({
            "type": ["array", "null"],
            "items": { "type": "array", "minItems": 1, "items": { "type": "string", "minLength": 1 } },
        }),
        "numbers" => json!({ "type": "array", "items": { "type": "number" }, "minItems": 12, "maxItems": 721 }),
        "extra" => json!({ "type": "object", "additionalProperties": { "type": "object" } }),
        "list" => json!({ "type": "array", "items": { "$ref": to(of) } }),
        "by-name" => json!({ "type": "object", "additionalProperties": { "$ref": to(of) } }),
        "choice" if !of.is_empty() => json!({ "$ref": to(of) }),
        "choice" | "gauge" => {
            let words = sheet.choices(node).into_iter().map(|w| json!(w.0));
            let null = (!required).then_some(Value::Null);
            json!({ "enum": words.chain(null).collect::<Vec<_>>() })
        }
        "row" => json!({ "$ref": to(of) }),
        kind if node.path.starts_with("readings.") => json!({ "$ref": to(&format!("{kind}-readings")) }),
        kind => json!({ "$ref": to(kind) }),
    }
}

fn bounded(mut node: Value, of: &Node) -> Value {
    let Some([low, high]) = &of.entry.band else { return node };
    for (key, text) in [("minimum", low), ("maximum", high)] {
        if let (Some(object), Ok(limit)) = (node.as_object_mut(), text.parse::<i64>()) {
            object.insert(key.to_owned(), json!(limit));
        }
    }
    node
}

fn plain(value: &toml::Value) -> Value {
    match value {
        toml::Value::String(text) => json!(text),
        toml::Value::Integer(number) => json!(number),
        toml::Value::Float(number) => json!(number),
        toml::Value::Boolean(yes) => json!(yes),
        _ => Value::Null,
    }
}

fn definitions(sheet: &Sheet) -> Map<String, Value> {
    let mut out = Map::new();
    for spec in KINDS {
        out.insert(spec.id.to_owned(), of_kind(sheet, spec.id));
    }
    out.insert(
        "date".to_owned(),
        json!({
            "description": "A day as year, month and day: \"2026-03-14\".",
            "type": ["string", "null"],
            "pattern": DAY,
            "examples": ["2026-03-14"],
        }),
    );
    out.insert(
        "notes".to_owned(),
        json!({ "description": "Text, or a list of texts.", "type": ["string", "array", "null"], "items": { "type": "string" } }),
    );
    out.insert(
        "names".to_owned(),
        json!({
            "description": "A list of names, each once.",
            "type": ["array", "null"],
            "items": { "type": "string", "minLength": 1 },
        }),
    );
    for list in &sheet.choices.choice {
        let words = list.choices.words().into_iter().map(|w| json!(w.0)).chain([Value::Null]);
        out.insert(list.name.clone(), json!({ "description": list.words, "enum": words.collect::<Vec<_>>() }));
    }
    let (around, listed): (Vec<&Section>, Vec<&Section>) =
        sheet.rows.iter().partition(|r| matches!(r.head.name.as_str(), "used" | "gauge"));
    for row in around {
        out.insert(row.head.name.clone(), object(sheet, &row.head.words, &row.nodes));
    }
    let mut kinds: Vec<&str> = sheet.readings.iter().map(Node::kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    for kind in kinds.into_iter().filter_map(Kind::by_id) {
        readings(sheet, kind, &mut out);
    }
    for row in listed.into_iter().filter(|r| r.head.name != "set") {
        let mut node = object(sheet, &row.head.words, &row.nodes);
        if row.head.name == "lift-table"
            && let Some(object) = node.as_object_mut()
        {
            object.insert("type".to_owned(), json!(["object", "null"]));
        }
        out.insert(row.head.name.clone(), node);
    }
    out
}

/// A kind of quantity: a number with one of its units.
fn of_kind(sheet: &Sheet, id: &str) -> Value {
    let said = sheet.kinds.kind.iter().find(|k| k.name == id);
    let words = said.map_or("", |k| k.words.as_str());
    let examples: Vec<Value> = said.map(|k| k.examples.iter().map(plain).collect()).unwrap_or_default();
    let spec = KINDS.iter().find(|k| k.id == id);
    let units: Vec<&str> = spec.map(|s| s.units.iter().map(|u| u.name).collect()).unwrap_or_default();
    let escaped: Vec<String> = units.iter().filter(|u| !u.is_empty()).map(|u| escape(u)).collect();
    let listed = escaped.join("|");
    if escaped.is_empty() {
        return json!({ "description": words, "type": ["integer", "null"], "minimum": 0, "examples": examples });
    }
    if units.contains(&"") {
        let pattern = format!("{NUMBER}({listed})?\\s*$");
        return json!({ "description": words, "type": ["number", "string", "null"], "pattern": pattern, "examples": examples });
    }
    let words = format!("{words} Number and unit: {}.", units.join(", "));
    json!({ "description": words, "type": ["string", "null"], "pattern": format!("{NUMBER}({listed})\\s*$"), "examples": examples })
}

fn escape(unit: &str) -> String {
    unit.chars().fold(String::new(), |mut out, c| {
        if matches!(c, '(' | ')' | '+' | '.') {
            out.push('\\');
        }
        out.push(c);
        out
    })
}

/// What stands under a reading of this kind: a row, a set, one set or a list of them.
fn readings(sheet: &Sheet, kind: Kind, out: &mut Map<String, Value>) {
    let (id, noun) = (kind.id(), kind.noun());
    // what is read in tenths off a master
    let tenths = kind.spec().units.iter().any(|u| u.name == "tenths");
    let bare = kind.spec().units.iter().any(|u| u.name.is_empty());
    let words =
        format!("What was read at one place: {noun}, null where nothing was read yet, or a list of them, one a point");
    let mut types = if bare { vec!["number", "string", "null", "array"] } else { vec!["string", "null", "array"] };
    let when = if bare { json!({ "type": ["number", "string"] }) } else { json!({ "type": "string" }) };
    let row = if tenths {
        types.push("object");
        json!({
            "description": format!("{words}; or tenths off the set master."),
            "type": types, "if": when, "then": { "$ref": to(id) }, "items": { "$ref": to(id) },
            "required": ["tenths"],
            "properties": {
                "tenths": {
                    "description": "Tenths off the master, one a point: 0.0001 in, or 0.001 mm if the master is metric; null where nothing was read yet.",
                    "type": "array",
                    "items": { "type": ["integer", "null"] },
                },
                "master": {
                    "description": "The size the gauge was set to; that of the set if nothing stands here.",
                    "$ref": to(id),
                },
            },
            "additionalProperties": false,
        })
    } else {
        json!({ "description": format!("{words}."), "type": types, "if": when, "then": { "$ref": to(id) }, "items": { "$ref": to(id) } })
    };
    out.insert(format!("{id}-row"), row);

    let set = sheet.rows.iter().find(|r| r.head.name == "set");
    let mut properties = Map::new();
    for node in set.iter().flat_map(|s| &s.nodes) {
        let described = match node.kind() {
            "master" if !tenths => continue,
            "master" | "value" => json!({ "description": node.words(), "$ref": to(id) }),
            "places" => json!({
                "description": node.words(),
                "type": ["object", "null"],
                "additionalProperties": { "$ref": to(&format!("{id}-row")) },
            }),
            _ => field(sheet, node),
        };
        properties.insert(node.key().to_owned(), described);
    }
    out.insert(
        format!("{id}-set"),
        json!({
            "description": format!("One set of readings, each {noun}: one gauge, one day."),
            "type": "object",
            "properties": properties,
            "additionalProperties": false,
        }),
    );
    let set = to(&format!("{id}-set"));
    out.insert(
        format!("{id}-readings"),
        json!({
            "description": "One set of readings, or a list of them, oldest first.",
            "type": ["object", "array"],
            "if": { "type": "object" },
            "then": { "$ref": set },
            "items": { "$ref": set },
        }),
    );
}
