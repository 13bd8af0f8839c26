//! What the sheet states against what such a figure usually is, beside another one of the engine or by itself. The fields'
//! entries say it. Outside is not impossible: that is what their bands are for.

use super::item::{Advice, ArgValue, Item};
use std::collections::BTreeSet;
use thou_contract::{Kind, Level};
use thou_facts::SheetFacts;
use thou_fields::{Field, FieldValue, Usual};
use thou_judge::State;
use thou_sheet::Sheet;

/// The rule of a stated figure that is out of the common.
const RULE: &str = "host/unusual";

/// A figure that the sheet states: its field, and where it stands, dotted.
struct Stated {
    field: &'static Field,
    at: String,
}

/// Stated figures that such an engine does not usually have, and the fields that were looked at for it.
pub(super) fn unusual(sheet: &Sheet, facts: &SheetFacts<'_>) -> (Vec<Item>, BTreeSet<&'static str>) {
    let (mut items, mut looked_at) = (Vec::new(), BTreeSet::new());
    for stated in all(sheet) {
        let sets: Vec<Set> = stated.field.usual.iter().filter_map(|u| stated.against(sheet, facts, u)).collect();
        if !sets.is_empty() {
            looked_at.insert(stated.field.path);
        }
        items.extend(sets.iter().find_map(Set::item));
    }
    (items, looked_at)
}

/// Every figure of the sheet that something is usual for, in lists, too.
fn all(sheet: &Sheet) -> Vec<Stated> {
    let once = thou_fields::fields().iter().filter(|f| !f.usual.is_empty());
    let mut out: Vec<Stated> = once.map(|field| Stated { field, at: field.path.to_owned() }).collect();
    let lists = thou_fields::fields().iter().filter_map(|f| match f.value {
        FieldValue::List(rows) => Some((f.path, rows)),
        _ => None,
    });
    let sections = thou_fields::sections().iter().filter_map(|s| Some((s.name, s.rows.filter(|_| !s.by_name)?)));
    for (at, rows) in lists.chain(sections) {
        let rows = thou_fields::rows_of(rows).map_or(&[][..], |r| r.fields);
        for field in rows.iter().filter(|f| !f.usual.is_empty()) {
            let below = field.path.split_once('.').map_or("", |(_, below)| below);
            let count = sheet.stated(at).and_then(|(v, _)| v.as_array()).map_or(0, Vec::len);
            out.extend((0..count).map(|row| Stated { field, at: format!("{at}.{row}.{below}") }));
        }
    }
    out.retain(|stated| sheet.stated(&stated.at).is_some());
    out
}

impl Stated {
    /// A path of the sheet; one that begins as this row does is of the same row.
    fn path(&self, path: &str) -> String {
        match (path.split_once('.'), self.at.rsplit_once('.')) {
            (Some((rows, below)), Some((row, _))) if rows == self.field.section() && self.at != self.field.path => {
                format!("{row}.{below}")
            }
            _ => path.to_owned(),
        }
    }

    /// Set against what is usual; none where that does not hold, or what it goes by is not there.
    fn against(&self, sheet: &Sheet, facts: &SheetFacts<'_>, usual: &'static Usual) -> Option<Set> {
        let kind = self.field.kind()?;
        let figure = sheet.figure(&self.at, kind)?;
        let holds = |only: &thou_fields::Only| {
            let word = sheet.stated(&self.path(only.path)).and_then(|(v, _)| v.as_str());
            word.is_some_and(|word| only.words.contains(&word))
        };
        if !self.field.only.iter().chain(&usual.only).all(holds) {
            return None;
        }
        let other = if usual.of.is_empty() { None } else { Some(beside(sheet, facts, usual.of)?) };
        // nothing goes in proportion to what is not there
        if other.is_some_and(|(value, _)| value <= 0.0) {
            return None;
        }
        let (low, high) = usual.si(kind, figure, other.map(|o| o.0))?;
        let (_, pointer) = sheet.stated(&self.at)?;
        Some(Set { field: self.field, usual, kind, figure, other, low, high, pointer })
    }
}

/// A figure with what is usual of it.
struct Set {
    field: &'static Field,
    usual: &'static Usual,
    kind: Kind,
    figure: f64,
    other: Option<(f64, Kind)>,
    low: f64,
    high: f64,
    pointer: String,
}

impl Set {
    /// What to say of it where it is outside.
    fn item(&self) -> Option<Item> {
        // 1e-9 relative: the same limit in inches and in millimetres differs in the last digit
        let slack = 1e-9 * self.high.abs();
        if self.figure >= self.low - slack && self.figure <= self.high + slack {
            return None;
        }
        let mut item = Item::new(RULE, "Stated figures out of the common", operation(self.field), State::Look);
        item.at_stake = Level::Warn;
        let quantity = |kind: Kind, value: f64| ArgValue::Quantity(kind.id().to_owned(), value);
        for (name, value) in [("stated", self.figure), ("least", self.low), ("most", self.high)] {
            item.args.insert(name.to_owned(), quantity(self.kind, value));
        }
        let mut word = |name: &str, word: String| item.args.insert(name.to_owned(), ArgValue::Word(word));
        word("field", thou_sheet::field(&self.pointer));
        word("of", self.usual.of.to_owned());
        word("nearest", self.usual.nearest(self.kind, self.figure).map_or("", |n| n.0).to_owned());
        let beside = if self.other.is_some() { "with {of} {other} " } else { "" };
        item.words = if self.usual.sizes.is_empty() {
            format!("{{field}} {{stated}}: usual {beside}is {{least}} to {{most}} (common practice)")
        } else {
            "{field} {stated}: the nearest that is usual is {nearest} (common practice)".to_owned()
        };
        if let Some((value, kind)) = self.other {
            item.args.insert("other".to_owned(), quantity(kind, value));
        }
        item.why =
            "A figure far from what its neighbors go with is most often a slip, and much hangs on it.".to_owned();
        item.advice = Some(Advice {
        words: "Look at the decimal place, at the unit and at what it is beside. Where the engine is like that, it stands."
            .to_owned(),
        solved: None,
    });
        item.pointer = Some(self.pointer.clone());
        Some(item)
    }
}

/// The other figure and its kind: a fact's, else a field's.
fn beside(sheet: &Sheet, facts: &SheetFacts<'_>, of: &str) -> Option<(f64, Kind)> {
    if let Some(info) = facts.info(of) {
        let num = facts.cells(of).iter().find_map(|cell| cell.as_ref().ok())?;
        return Some((num.value, info.value.kind()?));
    }
    let kind = thou_fields::field(of)?.kind()?;
    Some((sheet.figure(of, kind)?, kind))
}

/// The page that a section's figures belong on.
fn operation(field: &Field) -> &'static str {
    match field.section() {
        "block" | "finish" => "block",
        "crank" | "bearings" | "balance" => "crank",
        "rods" | "pistons" | "pins" => "rods-and-pistons",
        "fasteners" if field.path.starts_with("fasteners.rod-bolts") => "rods-and-pistons",
        "rings" => "rings",
        "heads" | "valves" | "springs" => "heads",
        "fasteners" | "gasket" | "oil" => "assembly",
        _ => "combination",
    }
}
