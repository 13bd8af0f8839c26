//! What stands under `extra`, once it is known which packs ask for what: read as the sheet's own fields are.

use super::fault::{Finder, SheetFaults, clean, escape, field};
use super::model::Sheet;
use super::published::schema;
use super::schema::hold_to;
use super::{bands, lists, readings};
use serde_json::{Map, Value, json};
use thou_fields::{FieldValue, PackField};
use thou_text::nearest;

impl Sheet {
    /// Takes the fields that the loaded packs ask for, each pack by its name. What stands under the name of another pack is
    /// left alone: nobody can tell what it is.
    ///
    /// # Errors
    /// [`SheetFaults`]: something there is not what its pack asks for.
    pub fn take_pack_fields(&mut self, packs: &[(&str, Vec<&'static PackField>)]) -> Result<(), SheetFaults> {
        let mut find = Finder::new(&self.source, &self.source.keys);
        let mut read = Vec::new();
        for (pack, fields) in packs {
            let at = format!("/extra/{}", escape(pack));
            if let Some(Value::Object(given)) = self.root.pointer(&at) {
                known(given, &at, &format!("extra.{pack}"), fields, &mut find);
            }
            for field in fields {
                let Some((value, pointer)) = self.stated(field.path()) else { continue };
                let before = find.faults.len();
                one(field, value, &pointer, &mut find);
                if find.faults.len() == before && field.is_read() {
                    read.push((field.path(), readings::of_pack(self, &field.entry, value, pointer, &mut find)));
                }
            }
        }
        let faults = find.faults;
        if !faults.is_empty() {
            return Err(SheetFaults::new(self.source.clone(), faults));
        }
        self.readings.extend(read.into_iter().map(|(path, sets)| (path.to_owned(), sets)));
        self.pack_fields.extend(packs.iter().flat_map(|(_, fields)| fields).map(|f| (f.path(), *f)));
        Ok(())
    }
}

/// Every name under a pack's is one that it asks for, or holds one.
fn known(given: &Map<String, Value>, at: &str, path: &str, fields: &[&'static PackField], find: &mut Finder<'_>) {
    for (key, value) in given {
        let (own, below) = (format!("{path}.{key}"), format!("{path}.{key}."));
        let pointer = format!("{at}/{}", escape(key));
        if fields.iter().any(|f| f.path() == own) {
            continue;
        }
        if fields.iter().any(|f| f.path().starts_with(&below)) {
            match value {
                Value::Object(inner) => known(inner, &pointer, &own, fields, find),
                Value::Null => {}
                _ => find.at(&pointer, format!("{} is a section", field(&pointer)), Some("write { … }".to_owned())),
            }
            continue;
        }
        let under = format!("{path}.");
        let names: Vec<&str> =
            fields.iter().filter_map(|f| f.path().strip_prefix(&under)).filter_map(|n| n.split('.').next()).collect();
        let help = match nearest(key, names.iter().copied()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None if names.is_empty() => "the pack asks for no field of the sheet".to_owned(),
            None => format!("its fields are {}", names.join(", ")),
        };
        find.at_key(&pointer, format!("{path} has no field \"{}\"", clean(key, 40)), Some(help));
    }
}

/// One field, held to its kind, its words and its band.
fn one(field: &PackField, value: &Value, at: &str, find: &mut Finder<'_>) {
    let entry = &field.entry.field;
    let kind = entry.kind().map(thou_contract::Kind::id);
    let (node, names): (Value, Vec<String>) = match (entry.value, kind) {
        (_, Some(kind)) if field.is_read() => {
            let all = ["", "-row", "-set", "-readings"].map(|part| format!("{kind}{part}"));
            (json!({ "$ref": format!("#/$defs/{kind}-readings") }), all.to_vec())
        }
        (_, Some(kind)) => (json!({ "$ref": format!("#/$defs/{kind}") }), vec![kind.to_owned()]),
        (FieldValue::Choice(choices), _) => {
            let words = choices.iter().map(|c| json!(c.word)).chain([Value::Null]);
            (json!({ "enum": words.collect::<Vec<_>>() }), Vec::new())
        }
        (FieldValue::Flag, _) => (json!({ "type": ["boolean", "null"] }), Vec::new()),
        (FieldValue::Day, _) => (json!({ "$ref": "#/$defs/date" }), Vec::new()),
        _ => (json!({ "type": ["string", "null"] }), Vec::new()),
    };
    let before = find.faults.len();
    hold_to(&node, definitions(&names), value, at, find);
    if find.faults.len() > before {
        return;
    }
    match value {
        Value::Object(_) | Value::Array(_) => lists::calendar(value, at, find),
        Value::String(text) if entry.value == FieldValue::Day => lists::a_day(text, at, find),
        _ => bands::of_pack(entry, value, at, find),
    }
}

/// Those of the sheet's definitions that a field hangs on. A kind that no reading of the sheet's own has is read as a
/// pressure is.
fn definitions(names: &[String]) -> Map<String, Value> {
    let of = |name: &str| schema().pointer(&format!("/$defs/{name}")).cloned();
    let mut all = Map::new();
    for name in ["date", "stage", "temperature", "names", "notes"] {
        all.extend(of(name).map(|node| (name.to_owned(), node)));
    }
    let kind = names.first().map_or("", String::as_str);
    for name in names {
        let node = of(name).or_else(|| {
            let text = of(&name.replacen(kind, "pressure", 1))?.to_string();
            serde_json::from_str(&text.replace("#/$defs/pressure", &format!("#/$defs/{kind}"))).ok()
        });
        all.extend(node.map(|node| (name.clone(), node)));
    }
    all
}
