//! Windows on a few facts alone, for readings that stand in no sheet: a log's.

use super::answers;
use super::judge::Worn;
use super::rule_pack::RulePack;
use super::window_item::WindowItem;
use thou_contract::RuleKind;
use thou_facts::SheetFacts;
use thou_judge::Judged;
use thou_sheet::Sheet;

/// The windows of the packs on these facts, after supersession. Only the rules that judge one of them are asked.
#[must_use]
pub fn windows_on<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P], wanted: &[&str]) -> Vec<WindowItem> {
    let asked = |rule: &thou_contract::Rule| {
        rule.kind == RuleKind::Window && rule.judges.iter().any(|j| wanted.contains(&j.as_str()))
    };
    answers::ask_where(sheet, facts, packs, &asked).windows
}

/// Those windows that a value of a fact at a place is held against in this build.
pub fn windows_of<'a>(
    sheet: &'a Sheet,
    facts: &'a SheetFacts<'_>,
    windows: &'a [WindowItem],
    fact: &'a str,
    place: usize,
) -> impl Iterator<Item = &'a WindowItem> {
    let worn = Worn::of(windows);
    let mine = windows.iter().filter(move |w| w.fact == fact && w.place.is_none_or(|p| p == place));
    mine.filter(move |w| worn.counts(sheet, facts, w))
}

impl WindowItem {
    /// Holds a plain value, SI, against its limits: no gauge is known of it.
    #[must_use]
    pub fn holds(&self, value: f64) -> Judged {
        thou_judge::judge(value, 0.0, &self.limits, self.levels)
    }
}
