//! JSON as a person would lay it out: what fits stands on one line.

use serde_json::Value;

/// Columns of a line.
const WIDTH: usize = 140;

/// The text, with a line break at its end.
pub fn pretty(value: &Value) -> String {
    let mut out = String::new();
    write(value, 0, 0, &mut out);
    out.push('\n');
    out
}

fn write(value: &Value, indent: usize, before: usize, out: &mut String) {
    let line = flat(value);
    let holds = |v: &Value| v.get("properties").is_some() || v.get("$defs").is_some();
    let nested = holds(value) || value.as_object().is_some_and(|o| o.values().any(Value::is_object) && indent < 4);
    if !nested && indent + before + line.chars().count() < WIDTH {
        out.push_str(&line);
        return;
    }
    let pad = " ".repeat(indent + 2);
    match value {
        Value::Object(object) => {
            out.push('{');
            for (at, (key, child)) in object.iter().enumerate() {
                let key = Value::String(key.clone()).to_string();
                out.push_str(&format!("{}\n{pad}{key}: ", if at == 0 { "" } else { "," }));
                write(child, indent + 2, key.chars().count() + 2, out);
            }
            out.push_str(&format!("\n{}}}", " ".repeat(indent)));
        }
        Value::Array(list) => {
            out.push('[');
            for (at, child) in list.iter().enumerate() {
                out.push_str(&format!("{}\n{pad}", if at == 0 { "" } else { "," }));
                write(child, indent + 2, 0, out);
            }
            out.push_str(&format!("\n{}]", " ".repeat(indent)));
        }
        other => out.push_str(&other.to_string()),
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
