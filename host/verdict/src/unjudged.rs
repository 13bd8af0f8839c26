//! What the sheet has and nothing judges: a go says nothing of it, so the page does.

use super::rule_pack::RulePack;
use std::collections::BTreeSet;
use thou_facts::{Catalogue, SheetFacts};
use thou_fields::{Field, FieldValue, Standing};
use thou_sheet::Sheet;

/// What is written in the sheet and makes no difference to the check, by path, in the order of the fields' entries.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Unjudged {
    /// Sets of readings.
    pub readings: Vec<&'static str>,
    /// What is stated of parts and intent.
    pub stated: Vec<&'static str>,
}

impl Unjudged {
    /// Whether everything is judged by something.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty() && self.stated.is_empty()
    }
}

/// Figures, choices and days of this sheet on which no rule hangs. A reading that is there two ways, itself and by its parts, is judged by the comparison.
pub(super) fn unjudged<P: RulePack>(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    packs: &[P],
    looked_at: &BTreeSet<&'static str>,
) -> Unjudged {
    let catalogue = facts.catalogue();
    // a rule that does not apply has looked, too, and says on the page why
    let mut live = BTreeSet::new();
    for rule in packs.iter().flat_map(|p| &p.manifest().rules) {
        let hangs_on = rule.judges.iter().chain(&rule.needs).chain(&rule.takes);
        live.extend(hangs_on.filter_map(|fact| catalogue.info(fact)).map(|info| info.id));
    }
    let compared = catalogue.all().filter(|i| i.measured && !i.needs.is_empty() && i.series.is_none());
    let both = |id: &str| {
        let there = |cells: &[thou_facts::PlaceValue]| cells.iter().any(Result::is_ok);
        there(facts.cells(id)) && there(&facts.derived(id))
    };
    live.extend(super::judge::READ.iter().copied());
    live.extend(compared.map(|i| i.id).filter(|id| both(id)));
    let fields = fields_behind(catalogue, live);
    let extras: BTreeSet<&str> =
        packs.iter().flat_map(|p| &p.manifest().facts).filter_map(|f| f.id.strip_prefix("extra.")).collect();
    let mut found = Unjudged::default();
    let set_against = set_against(sheet);
    let judged = |path: &str| fields.contains(path) || set_against.contains(path) || looked_at.contains(path);
    for field in thou_fields::all().filter(|f| counts(f) && !judged(f.path)) {
        match field.path.strip_prefix("readings.") {
            Some(key) if read(sheet, key) => found.readings.push(field.path),
            None if sheet.stated(field.path).is_some() && !extras.contains(field.path) => found.stated.push(field.path),
            _ => {}
        }
    }
    found
}

/// What is stated and read of one thing, where both are there.
fn set_against(sheet: &Sheet) -> BTreeSet<&'static str> {
    let mut both = BTreeSet::new();
    for reading in thou_fields::readings().iter().filter(|r| read(sheet, r.name())) {
        for agreement in reading.agrees_with.iter().filter(|a| sheet.stated(a.field).is_some()) {
            both.extend([reading.field.path, agreement.field, agreement.less]);
        }
    }
    both
}

/// Every field that these facts are made of, by any way there is.
fn fields_behind(catalogue: &Catalogue, facts: BTreeSet<&'static str>) -> BTreeSet<&'static str> {
    let mut all = facts.clone();
    let mut next: Vec<&'static str> = facts.into_iter().collect();
    while let Some(info) = next.pop().and_then(|id| catalogue.info(id)) {
        next.extend(info.needs.iter().copied().chain(info.series).filter(|id| all.insert(id)));
    }
    all.into_iter().filter_map(|id| catalogue.info(id)).flat_map(|i| i.fields.iter().copied()).collect()
}

/// What could be judged: words, remarks, names and what the program itself reads could not.
fn counts(field: &Field) -> bool {
    let figure = matches!(
        field.value,
        FieldValue::Quantity(_)
            | FieldValue::Choice(_)
            | FieldValue::Flag
            | FieldValue::Day
            | FieldValue::Whole
            | FieldValue::Number
            | FieldValue::Read
    );
    figure && !matches!(field.standing, Standing::Program(_))
}

fn read(sheet: &Sheet, key: &str) -> bool {
    let sets = sheet.readings.get(key);
    sets.is_some_and(|sets| sets.iter().flat_map(|s| &s.rows).flatten().any(|r| r.value.is_some()))
}
