//! What a table has beside its rules: settings, lists, maps, and the fields of the sheet that it asks for.

use crate::catalogue::{KnownFacts, TableFact};
use crate::draft::{DraftInput, DraftMap};
use crate::fault::TableFault;
use crate::json::SourceText;
use crate::scan::{self, FUNCTIONS, Item, TableNames};
use std::collections::BTreeMap;
use thou_contract::{Fallback, Input, Kind};
use thou_text::clean::clip;

/// A number with its unit, as an expression has them.
pub(crate) type Figure = (f64, Option<&'static str>);

/// Lists and maps by their names.
#[derive(Debug, Default)]
pub(crate) struct Beside {
    pub(crate) lists: BTreeMap<String, Vec<String>>,
    pub(crate) maps: BTreeMap<String, LookUp>,
}

/// A map, by a number or by a word.
#[derive(Debug)]
pub(crate) enum LookUp {
    Points(Vec<(Figure, Figure)>),
    Words(Vec<(String, Figure)>),
}

/// A text that is one number with its unit.
pub(crate) fn number(text: &str) -> Option<Figure> {
    match item(text)? {
        Item::Number(value, unit) => Some((value, unit)),
        _ => None,
    }
}

/// A text that is one number or one day, a sign before it at the most.
fn item(text: &str) -> Option<Item> {
    let trimmed = text.trim();
    let (sign, rest) = trimmed.strip_prefix('-').map_or((1.0, trimmed), |rest| (-1.0, rest));
    let scan = scan::scan(rest, &TableNames::default()).ok()?;
    let mut items = scan.items.into_values();
    match (items.next(), items.next(), scan.cel.trim().chars().all(|c| c == 'n' || c == '_')) {
        (Some((_, Item::Number(value, unit))), None, true) => Some(Item::Number(sign * value, unit)),
        (Some((_, day @ Item::Day(_))), None, true) if sign > 0.0 => Some(day),
        _ => None,
    }
}

/// Collects the names, and says what is wrong with what they stand for.
pub(crate) struct Collector<'f> {
    pub(crate) faults: &'f mut Vec<TableFault>,
    pub(crate) names: TableNames,
    pub(crate) beside: Beside,
}

impl Collector<'_> {
    fn say(&mut self, text: &SourceText, message: impl Into<String>, help: Option<&str>) {
        self.faults.push(TableFault {
            message: message.into(),
            help: help.map(str::to_owned),
            span: text.span.clone(),
        });
    }

    /// A setting: one number with its unit, or a day.
    pub(crate) fn setting(&mut self, name: &SourceText, value: &SourceText, known: &KnownFacts<'_>) {
        if known.facts.iter().any(|f| f.id == name.value) {
            self.say(name, format!("{} is a fact: a setting of that name would hide it", name.value), None);
        }
        match item(&value.value) {
            Some(item) => {
                self.names.settings.insert(name.value.clone(), item);
            }
            None => {
                let help = "write it like \"60 thou\", \"0.85\" or \"2027-01-01\"";
                self.say(
                    value,
                    format!("{} is not one number with its unit, and no day", clip(&value.value, 40)),
                    Some(help),
                );
            }
        }
    }

    pub(crate) fn list(&mut self, name: &SourceText, entries: Vec<SourceText>) {
        self.reserved(name);
        if entries.is_empty() {
            self.say(name, format!("the list {} is empty, so nothing is in it", name.value), None);
        }
        self.names.lists.insert(name.value.clone());
        self.beside.lists.insert(name.value.clone(), entries.into_iter().map(|e| e.value).collect());
    }

    pub(crate) fn map(&mut self, name: &SourceText, map: DraftMap) {
        self.reserved(name);
        if self.names.lists.contains(&name.value) {
            self.say(name, format!("there is a list called {} already", name.value), None);
        }
        let mut figure = |text: &SourceText| {
            let found = number(&text.value);
            if found.is_none() {
                let help = Some("write it like \"2400 lb\"");
                self.say(text, format!("{} is not one number with its unit", clip(&text.value, 40)), help);
            }
            found
        };
        let made = match map {
            DraftMap::Points(points) => {
                let all: Vec<(&SourceText, Option<(Figure, Figure)>)> =
                    points.iter().map(|(x, y)| (x, figure(x).zip(figure(y)))).collect();
                for pair in all.windows(2) {
                    let [(_, Some((a, _))), (text, Some((b, _)))] = pair else { continue };
                    if si(*a) >= si(*b) {
                        let message = format!("{} does not come after the point before it", clip(&text.value, 40));
                        self.say(text, message, Some("the points of a map rise, each with its unit"));
                    }
                }
                if points.len() < 2 {
                    self.say(name, format!("the map {} has less than two points", name.value), None);
                }
                LookUp::Points(all.into_iter().filter_map(|(_, point)| point).collect())
            }
            DraftMap::Words(words) => {
                LookUp::Words(words.iter().filter_map(|(w, v)| Some((w.value.clone(), figure(v)?))).collect())
            }
        };
        self.names.maps.insert(name.value.clone());
        self.beside.maps.insert(name.value.clone(), made);
    }

    fn reserved(&mut self, name: &SourceText) {
        let word = name.value.as_str();
        if FUNCTIONS.contains(&word) || ["has", "in", "true", "false"].contains(&word) {
            self.say(name, format!("{word} is a word of the expressions"), Some("give it another name"));
        }
    }

    /// A field of the sheet, as a manifest has it, and as a fact that expressions name.
    pub(crate) fn input(
        &mut self,
        table: &str,
        draft: &DraftInput,
        known: &KnownFacts<'_>,
    ) -> (Input, TableFact, Option<Fallback>) {
        let id = format!("extra.{table}.{}", draft.id.value);
        if known.facts.iter().any(|f| f.id == draft.id.value) || self.names.settings.contains_key(&draft.id.value) {
            let message =
                format!("{} is a fact or a setting already: a field of that name would hide it", draft.id.value);
            self.say(&draft.id, message, None);
        }
        if self.names.inputs.insert(draft.id.value.clone(), id.clone()).is_some() {
            self.say(&draft.id, format!("there are two inputs called \"{}\"", draft.id.value), None);
        }
        let kind = draft.input.kind.as_str();
        if kind == "choice" && draft.input.choices.is_empty() {
            self.say(&draft.id, format!("input {}: a choice lists its `choices`", draft.id.value), None);
        }
        let default = draft.default.as_ref().and_then(|(value, source)| {
            let fine = match kind {
                "choice" => draft.input.choices.contains(&value.value),
                "flag" => ["true", "false"].contains(&value.value.as_str()),
                "text" => true,
                kind => match Kind::by_id(kind)?.parse(&value.value) {
                    Ok(_) => true,
                    Err(error) => {
                        self.say(value, format!("the default of {}: {error}", draft.id.value), None);
                        return None;
                    }
                },
            };
            if !fine {
                let message =
                    format!("the default of {} is \"{}\", which it cannot be", draft.id.value, clip(&value.value, 40));
                self.say(value, message, None);
            }
            Some(Fallback { fact: id.clone(), value: value.value.clone(), source: source.clone() })
        });
        let fact = TableFact {
            id: id.clone(),
            kind: if kind == "text" { "choice".to_owned() } else { kind.to_owned() },
            axis: draft.input.axis().to_owned(),
            choices: draft.input.choices.clone(),
        };
        (Input { id, ..draft.input.clone() }, fact, default)
    }
}

/// In SI, by the first kind that has the unit: enough to see whether points of one map rise.
fn si((value, unit): Figure) -> f64 {
    let units = thou_contract::KINDS.iter().flat_map(|k| k.units);
    let unit = unit.and_then(|name| units.into_iter().find(|u| u.name == name));
    unit.map_or(value, |u| (value + u.offset) * u.factor)
}
