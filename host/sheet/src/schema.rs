//! Holds a sheet to its schema and says in the shop's words what does not fit.

use super::fault::{Finder, clean, escape, field};
use super::other_engines::{FOR, gives_away};
use super::published::schema;
use super::quantity::{example, wrong_quantity};
use jsonschema::ValidationError;
use jsonschema::error::ValidationErrorKind as E;
use serde_json::{Map, Value};
use thou_contract::Kind;
use thou_text::nearest;

/// Errors looked at: a file of rubbish has as many as it has values.
const MOST_ERRORS: usize = 500;

/// Finds everything that the schema does not allow.
pub(super) fn hold_to_schema(value: &Value, find: &mut Finder<'_>) {
    for error in thou_schema::build_errors(value).take(MOST_ERRORS) {
        tell(&error, "", schema(), find);
    }
}

/// Finds what this part of the schema does not allow in the value at a pointer: for what only a pack's manifest describes.
/// `node` may refer to the definitions of the sheet's schema named in `definitions`, or to others given there.
pub(super) fn hold_to(node: &Value, definitions: Map<String, Value>, value: &Value, at: &str, find: &mut Finder<'_>) {
    let mut whole = node.clone();
    whole.as_object_mut().map(|o| o.insert("$defs".to_owned(), Value::Object(definitions)));
    let options = jsonschema::options().with_pattern_options(jsonschema::PatternOptions::regex());
    match options.build(&whole) {
        Ok(validator) => {
            validator.iter_errors(value).take(MOST_ERRORS).for_each(|error| tell(&error, at, &whole, find))
        }
        Err(error) => find.at(at, format!("{}: {}", field(at), clean(&error.to_string(), 200)), None),
    }
}

/// `under` is where the value that was looked at stands, `whole` the schema that it was held to.
fn tell(error: &ValidationError<'_>, under: &str, whole: &Value, find: &mut Finder<'_>) {
    let pointer = &format!("{under}{}", error.instance_path().as_str());
    let name = field(pointer);
    let given = error.instance().as_ref();
    let node = parent(error.schema_path().as_str());
    match error.kind() {
        E::AdditionalProperties { unexpected } => {
            for key in unexpected {
                unknown(pointer, key, node, find);
            }
        }
        E::Required { property } => missing(pointer, property.as_str().unwrap_or(""), node, find),
        E::Type { .. } => {
            let path = error.schema_path().as_str();
            let (message, help) = wrong_type(&name, given, path, whole.pointer(above(path)).unwrap_or(node));
            find.at(pointer, message, help);
        }
        E::Pattern { .. } => {
            let (message, help) =
                wrong_text(&name, given.as_str().unwrap_or(""), error.schema_path().as_str(), pointer);
            find.at(pointer, message, help);
        }
        E::Enum { options } => {
            let words = words(options);
            let (message, help) = not_a_choice(&name, given, &words);
            find.at(pointer, message, Some(help));
        }
        E::Constant { expected_value } => {
            let message = format!("{name} is {}: this version reads {expected_value}", shown(given));
            find.at(pointer, message, Some(format!("write \"{name}\": {expected_value}")));
        }
        E::Minimum { .. } | E::Maximum { .. } => {
            let help = match (node.get("minimum"), node.get("maximum")) {
                (Some(low), Some(high)) => format!("write a whole number from {low} to {high}"),
                (Some(low), None) => format!("write {low} or more"),
                (_, high) => format!("write {} or less", high.unwrap_or(&Value::Null)),
            };
            find.at(pointer, format!("{name} cannot be {}", shown(given)), Some(help));
        }
        E::MinLength { .. } | E::MinItems { .. } => {
            find.at(pointer, format!("{name} is empty"), about(node).map(|a| format!("write {}", lower(a))));
        }
        _ => find.at(pointer, format!("{name}: {}", clean(&error.to_string(), 200)), None),
    }
}

/// The object of the schema that a keyword stands in.
fn parent(keyword: &str) -> &'static Value {
    schema().pointer(above(keyword)).unwrap_or(&Value::Null)
}

fn above(keyword: &str) -> &str {
    keyword.get(..keyword.rfind('/').unwrap_or(0)).unwrap_or("")
}

/// Follows `$ref`.
fn resolved(node: &'static Value) -> &'static Value {
    match node.get("$ref").and_then(Value::as_str) {
        Some(target) => schema().pointer(target.trim_start_matches('#')).unwrap_or(node),
        None => node,
    }
}

fn about(node: &Value) -> Option<&str> {
    node.get("description").and_then(Value::as_str)
}

fn properties(node: &'static Value) -> Option<&'static Map<String, Value>> {
    node.get("properties").and_then(Value::as_object)
}

fn unknown(pointer: &str, key: &str, node: &'static Value, find: &mut Finder<'_>) {
    let child = format!("{pointer}/{}", escape(key));
    let key = clean(key, 40);
    let message = match pointer {
        "" => format!("a sheet has no section \"{key}\""),
        "/readings" => format!("there is no reading \"{key}\""),
        _ => format!("{} has no field \"{key}\"", field(pointer)),
    };
    let known = properties(node);
    let near = known.and_then(|p| nearest(&key, p.keys().map(String::as_str)));
    let help = match (near, known) {
        _ if gives_away(&key) => FOR.to_owned(),
        (Some(near), _) => format!("did you mean \"{near}\"?"),
        (None, Some(p)) if p.len() <= 16 => {
            let names: Vec<&str> = p.keys().map(String::as_str).collect();
            format!("its fields are {}", names.join(", "))
        }
        _ => "other things go into \"notes\", and what a rule pack asks for into \"extra\"".to_owned(),
    };
    find.at_key(&child, message, Some(help));
}

fn missing(pointer: &str, key: &str, node: &'static Value, find: &mut Finder<'_>) {
    let name = if pointer.is_empty() { key.to_owned() } else { format!("{}.{key}", field(pointer)) };
    let wanted = properties(node).and_then(|p| p.get(key)).unwrap_or(&Value::Null);
    let what = about(wanted).unwrap_or("");
    let wanted = resolved(wanted);
    let write = if let Some(fixed) = wanted.get("const") {
        format!("write \"{key}\": {fixed}")
    } else if let Some(options) = wanted.get("enum") {
        format!("write one of {}", words(options).join(", "))
    } else if wanted.get("type").and_then(Value::as_str) == Some("object") {
        format!("write \"{key}\": {{ … }}")
    } else if let Some(example) = wanted.get("examples").and_then(|e| e.get(0)) {
        format!("write it like {example}")
    } else {
        format!("write \"{key}\": …")
    };
    find.at_start(pointer, format!("{name} is missing"), Some(format!("{write} ({})", lower(what))));
}

/// The definition that a keyword belongs to: `length` for `/$defs/length-row/type`, with what it is besides.
fn definition(keyword: &str) -> (Option<Kind>, &str) {
    let Some(id) = keyword.strip_prefix("/$defs/").and_then(|rest| rest.split('/').next()) else {
        return (None, "");
    };
    if keyword.matches('/').count() > 3 {
        return (None, "");
    }
    for part in ["-row", "-set", "-readings"] {
        if let Some(kind) = id.strip_suffix(part).and_then(Kind::by_id) {
            return (Some(kind), part);
        }
    }
    (Kind::by_id(id), id)
}

fn wrong_type(name: &str, given: &Value, keyword: &str, node: &Value) -> (String, Option<String>) {
    let (kind, part) = definition(keyword);
    let got = shown(given);
    if let Some(kind) = kind {
        let (noun, example) = (kind.noun(), example(kind));
        return match part {
            "-set" | "-readings" => (
                format!("{name} is {got}: readings are a section"),
                Some(format!("write {{ \"at\": {{ \"1\": {example} }} }}")),
            ),
            _ if kind.id() == "count" => {
                (format!("{name} is {noun}: write a whole number, like {example}, not {got}"), None)
            }
            _ if given.is_number() => (format!("{name} is {noun}: write it with its unit, like {example}"), None),
            _ => (format!("{name} is {noun}, not {got}: write it like {example}"), None),
        };
    }
    if part == "date" {
        return (format!("{name} is a day, not {got}: write it like \"2026-03-14\""), None);
    }
    let types: Vec<&str> = match node.get("type") {
        Some(Value::String(one)) => vec![one.as_str()],
        Some(Value::Array(several)) => several.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    };
    let wanted = match types.first().copied() {
        Some("string") => "text: write it in double quotes",
        Some("boolean") => "yes or no: write true or false",
        Some("number") => "a number: write it without quotes and without a unit",
        Some("integer") if given.is_number() => "a whole number",
        Some("integer") => "a whole number: write it without quotes",
        Some("object") => "a section: write { … }",
        Some("array") => "a list: write [ … ]",
        _ => "something else",
    };
    (format!("{name} is {got}, and should be {wanted}"), None)
}

fn wrong_text(name: &str, text: &str, keyword: &str, pointer: &str) -> (String, Option<String>) {
    let (kind, part) = definition(keyword);
    if let Some(kind) = kind {
        return match kind.parse(text) {
            Err(error) => wrong_quantity(name, kind, text, &error),
            Ok(_) => (format!("{name} is {}: write it like {}", kind.noun(), example(kind)), None),
        };
    }
    let text = clean(text, 40);
    match pointer.rsplit('/').next().unwrap_or("") {
        "rule" | "instead" => (
            format!("{name}: \"{text}\" is not the name of a rule"),
            Some("write pack/rule, like \"clearances/piston-to-wall\"".to_owned()),
        ),
        "until" if pointer.starts_with("/accepted") => (
            format!("{name}: \"{text}\" is not an end"),
            Some("write a day like \"2026-03-14\", or \"next-freshen\"".to_owned()),
        ),
        _ if part == "date" || keyword.ends_with("/pattern") => {
            (format!("{name} is a day, not \"{text}\": write it like \"2026-03-14\""), None)
        }
        _ => (format!("{name} cannot be \"{text}\""), None),
    }
}

fn not_a_choice(name: &str, given: &Value, words: &[String]) -> (String, String) {
    let list = words.join(", ");
    let near = given.as_str().and_then(|g| nearest(g, words.iter().map(String::as_str)));
    let help = match near {
        _ if given.as_str().is_some_and(gives_away) => format!("{FOR}. It can be {list}"),
        Some(near) => format!("did you mean \"{near}\"? It can be {list}"),
        None => format!("it can be {list}"),
    };
    (format!("{name} cannot be {}", shown(given)), help)
}

fn words(options: &Value) -> Vec<String> {
    options.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect()
}

/// A value as a sentence can hold it.
fn shown(value: &Value) -> String {
    match value {
        Value::Null => "null".to_owned(),
        Value::Bool(b) => b.to_string(),
        Value::Number(n) => clean(&n.to_string(), 40),
        Value::String(s) => format!("\"{}\"", clean(s, 40)),
        Value::Array(_) => "a list".to_owned(),
        Value::Object(_) => "a section".to_owned(),
    }
}

fn lower(text: &str) -> String {
    let text = text.trim_end_matches('.');
    let mut chars = text.chars();
    chars.next().map(|c| c.to_lowercase().chain(chars).collect()).unwrap_or_default()
}
