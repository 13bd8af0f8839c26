//! Fields that a pack adds to the sheet, as entries like the sheet's own.

use crate::field::{Band, Choice, Field, FieldValue, JobStep, Standing, word};
use crate::reading::{Axis, Moved, Points, ReadingField, after};
use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock, PoisonError};
use thou_contract::{Input, Kind, Manifest, USES};
use thou_text::nearest;

/// A field `extra.<pack>.<field>`.
#[derive(Debug, Clone, Copy)]
pub struct PackField {
    /// Its entry; what is stated has no gauge.
    pub entry: ReadingField,
    /// The pack that asks for it.
    pub pack: &'static str,
    /// The uses in which a sheet without it is open.
    pub required_for: &'static [&'static str],
}

impl PackField {
    /// Its dotted path.
    #[must_use]
    pub fn path(&self) -> &'static str {
        self.entry.field.path
    }
    /// Whether a gauge reads it: it stands in the sheet as a set of readings.
    #[must_use]
    pub fn is_read(&self) -> bool {
        !self.entry.gauge.is_empty()
    }
    /// What it is and what it can be, for a page: "a length, read with a caliper, 0.02 in to 0.5 in".
    #[must_use]
    pub fn what(&self) -> String {
        let field = &self.entry.field;
        let mut all = vec![match field.value {
            FieldValue::Choice(choices) => choices.iter().map(|c| c.word).collect::<Vec<_>>().join(", "),
            FieldValue::Flag => "true or false".to_owned(),
            FieldValue::Day => "a day".to_owned(),
            FieldValue::Quantity(_) => field.kind().map_or("", Kind::noun).to_owned(),
            _ => "text".to_owned(),
        }];
        if self.is_read() {
            all.push(format!("read with a {}", self.entry.gauge.replace('-', " ")));
        }
        if let Some(band) = field.band {
            all.push(format!("{} to {}", band.low, band.high));
        }
        all.join(", ")
    }
}

/// What a manifest asks for, in its order. An input that the manifest's checks would refuse is left out.
///
/// An entry lives as long as the program, as those of the sheet do: the same words are kept once.
#[must_use]
pub fn pack_fields(manifest: &Manifest) -> Vec<&'static PackField> {
    manifest.inputs.iter().filter_map(|input| kept(manifest, input)).collect()
}

fn kept(manifest: &Manifest, input: &Input) -> Option<&'static PackField> {
    static KEPT: OnceLock<Mutex<BTreeMap<String, &'static PackField>>> = OnceLock::new();
    let choices = match (input.choices.is_empty(), manifest.facts.iter().find(|f| f.id == input.id)) {
        (true, Some(fact)) => &fact.choices,
        _ => &input.choices,
    };
    let key = format!("{} {input:?} {choices:?}", manifest.id);
    let mut kept = KEPT.get_or_init(Mutex::default).lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(field) = kept.get(&key) {
        return Some(field);
    }
    let field: &'static PackField = Box::leak(Box::new(entry(&manifest.id, input, choices)?));
    kept.insert(key, field);
    Some(field)
}

fn entry(pack: &str, input: &Input, choices: &[String]) -> Option<PackField> {
    let value = match input.kind.as_str() {
        "choice" => FieldValue::Choice(leak(choices.iter().map(|c| word(text(c), "")).collect::<Vec<Choice>>())),
        "flag" => FieldValue::Flag,
        "text" => FieldValue::Text,
        id => match Kind::by_id(id)? {
            kind if kind.is_day() => FieldValue::Day,
            kind => FieldValue::Quantity(kind.id()),
        },
    };
    let mut field = Field::new(text(&input.id), text(&input.about), value, JobStep::Order);
    field.standing = Standing::Fact;
    field.band = input.band.as_ref().map(|[low, high]| Band { low: text(low), high: text(high) });
    let gauge = input.gauge.as_deref().map_or("", text);
    let mut entry = ReadingField::new(field, Axis::by_id(input.axis())?, Points::One, gauge);
    entry.moved_by = leak(input.moved_by.iter().map(|w| after(text(w))).collect::<Vec<Moved>>());
    let required_for = leak(input.required_for.iter().map(|u| text(u)).collect::<Vec<&'static str>>());
    Some(PackField { entry, pack: text(pack), required_for })
}

fn text(words: &str) -> &'static str {
    Box::leak(words.to_owned().into_boxed_str())
}

fn leak<T>(list: Vec<T>) -> &'static [T] {
    Box::leak(list.into_boxed_slice())
}

/// Everything in which an input is no entry that a field of the sheet could have, or does not agree with its fact.
#[must_use]
pub fn input_faults(m: &Manifest, input: &Input) -> Vec<String> {
    let mut faults = Vec::new();
    of_value(m, input, &mut faults);
    of_words(m, input, &mut faults);
    faults
}

fn of_value(m: &Manifest, input: &Input, faults: &mut Vec<String>) {
    let mut say = |what: String| faults.push(what);
    let kind = Kind::by_id(&input.kind);
    let (words, axis) = (Input::WORDS.contains(&input.kind.as_str()), Axis::by_id(input.axis()));
    if kind.is_none() && !words {
        say(format!("there is no kind of quantity called {}", input.kind));
        return;
    }
    let fact = m.facts.iter().find(|f| f.id == input.id);
    let of_fact = fact.map(|f| f.choices.as_slice()).unwrap_or_default();
    if input.kind == "choice" && input.choices.is_empty() && of_fact.is_empty() {
        say("a choice lists its `choices`".to_owned());
    }
    if input.kind != "choice" && !input.choices.is_empty() {
        say("`choices` are those of a choice, and of nothing else".to_owned());
    }
    if let Some(stray) = of_fact.iter().find(|c| !input.choices.is_empty() && !input.choices.contains(c)) {
        say(format!("its fact has the choice {stray}, which is none of its own"));
    }
    if let Some(fact) = fact {
        // what anybody may write reaches a rule as the number of one of the words that it knows
        let asked = if input.kind == "text" { "choice" } else { &input.kind };
        for (what, its, own) in [("kind", &fact.kind, asked), ("axis", &fact.axis, input.axis())] {
            if its != own {
                say(format!("its {what} is {own}, and that of its fact {its}"));
            }
        }
    }
    let measured = kind.filter(|k| !k.is_day());
    match (&input.gauge, measured, axis) {
        (_, _, None) => say(format!("there is no axis called {}", input.axis())),
        (None, _, Some(axis)) if axis != Axis::One => {
            say(format!(
                "it has a value a {}, and names no `gauge`: what is not one for the engine is read",
                axis.id()
            ));
        }
        (Some(_), None, _) => say(format!("no gauge reads {}", kind.map_or("words", Kind::noun))),
        (Some(name), Some(kind), _) => match crate::gauge(name) {
            None => say(format!("there is no gauge called {}", name)),
            Some(gauge) if !gauge.shows(kind) => say(format!("a {name} shows no {}", kind.id())),
            Some(_) => {}
        },
        _ => {}
    }
    if let Some([low, high]) = &input.band {
        let ends = measured.map(|kind| [low, high].map(|text| kind.parse(text)));
        match ends {
            None => say("a `band` is that of a quantity".to_owned()),
            Some([Ok(low), Ok(high)]) if low < high => {}
            Some([Ok(_), Ok(_)]) => say(format!("its band does not rise: {low}, {high}")),
            Some(ends) => ends.into_iter().filter_map(Result::err).for_each(|e| say(format!("its band: {e}"))),
        }
    }
}

fn of_words(m: &Manifest, input: &Input, faults: &mut Vec<String>) {
    let mut say = |what: String| faults.push(what);
    if input.gauge.is_none() && !input.moved_by.is_empty() {
        say("`moved-by` is said of what a gauge reads".to_owned());
    }
    let did = crate::field("work.did").map_or(&[][..], |f| f.choices());
    let work = |word: &str| match word.strip_prefix("new ") {
        Some(part) => crate::sections().iter().any(|s| s.name == part) || part.starts_with("fasteners."),
        None => did.iter().any(|c| c.word == word),
    };
    for stray in input.moved_by.iter().filter(|w| !work(w)) {
        let near = nearest(stray, did.iter().map(|c| c.word)).map(|n| format!(", did you mean {n}?"));
        say(format!("no work is called {}{}", stray, near.unwrap_or_default()));
    }
    let uses = || USES.into_iter().chain(m.uses.iter().map(|u| u.id.as_str()));
    for stray in input.required_for.iter().filter(|w| !uses().any(|u| u == **w)) {
        say(format!("it is required for {stray}, which is no use: {}", uses().collect::<Vec<_>>().join(", ")));
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    fn manifest(inputs: &str) -> Manifest {
        let text = format!(
            "{{\"contract\": \"rules-1.0\", \"id\": \"ours\", \"version\": \"1\", \"title\": \"Ours\", \"about\": \"Ours.\", \
             \"facts\": [{{\"id\": \"extra.ours.plating\", \"kind\": \"choice\", \"axis\": \"one\", \"choices\": [\"none\", \"hard\"]}}], \
             \"rules\": [], \"inputs\": [{inputs}]}}"
        );
        serde_json::from_str(&text).unwrap()
    }

    #[test]
    fn an_input_is_an_entry_like_any_other_and_kept_once() {
        let asked = r#"{"id": "extra.ours.wall", "kind": "length", "about": "The sleeve's wall.", "axis": "cylinder",
            "band": ["0.02 in", "0.5 in"], "gauge": "caliper", "moved-by": ["bored"], "required-for": ["bracket"]},
            {"id": "extra.ours.plating", "kind": "choice", "about": "What the bore is plated with."}"#;
        let fields = pack_fields(&manifest(asked));
        let again = pack_fields(&manifest(asked));
        assert!(fields.iter().zip(&again).all(|(a, b)| std::ptr::eq(*a, *b)));
        assert_eq!(fields[0].what(), "a length, read with a caliper, 0.02 in to 0.5 in");
        assert!(fields[0].is_read() && fields[0].entry.axis == Axis::Cylinder);
        assert!(fields[0].entry.moved_by[0].is("bored", None));
        assert_eq!(fields[1].what(), "none, hard");
    }
}
