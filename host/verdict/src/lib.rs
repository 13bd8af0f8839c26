//! Judging: packs give windows, findings, services and steps; the host holds every reading against them.
//!
//! Packs answer before any reading is looked at, so what is printed before the machining and what is judged after it
//! are the same windows by construction.

mod accepted;
mod against_sheet;
mod answers;
mod asked_for;
mod contradiction;
mod dates;
mod doubt;
mod host_item;
mod inputs;
pub mod item;
mod judge;
pub mod moves;
mod odd_one_out;
mod on_facts;
pub mod remedy;
mod replaced;
mod rule_pack;
mod sizes;
mod soak;
mod stale;
mod stand_in;
mod unjudged;
mod unusual;
mod verdict;
pub mod view;
mod window_item;

pub use answers::{CROSSED, Question, places};
pub use asked_for::WANTED as ASKED_FOR;
pub use item::{Advice, ArgValue, Item, ItemValue, ServiceItem, Solved, Stale, StepItem};
use jiff::civil::Date;
pub use judge::Worn;
pub use on_facts::{windows_of, windows_on};
pub use replaced::{Hold, Replaced};
pub use rule_pack::{Given, LostAnswer, RulePack};
use thou_contract::answer::CheckedAnswer;
use thou_contract::{Manifest, OPERATIONS, RuleKind};
use thou_facts::SheetFacts;
pub use thou_judge::{Judged, Limits, Miss, State};
use thou_sheet::Sheet;
use thou_sheet::model::Axis;
pub use unjudged::Unjudged;
pub use verdict::{Counts, TakenValue, Verdict};
pub use window_item::{AnswerText, WindowItem};

/// What a pack's rules can be.
const EVERY_KIND: [RuleKind; 4] = [RuleKind::Window, RuleKind::Finding, RuleKind::Service, RuleKind::Step];

/// Asks the packs and judges their answers. `today` decides whether an accepted deviation has ended; without it the
/// sheet's own date does.
#[must_use]
pub fn judge<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P], today: Option<Date>) -> Verdict {
    let mut verdict = answers::ask(sheet, facts, packs, &EVERY_KIND);
    let mut items = std::mem::take(&mut verdict.items);
    items.extend(judge::windows(sheet, facts, &verdict.windows));
    let mut doubtful = [odd_one_out::odd_ones_out(sheet, facts), against_sheet::not_as_stated(sheet, facts)].concat();
    doubtful.extend(contradiction::contradictions(sheet, facts, &doubtful));
    doubt::settle_first(&mut items, &doubtful);
    items.extend(doubtful);
    items.extend(against_sheet::lift_against_the_sheet(sheet, facts));
    let (unusual, looked_at) = unusual::unusual(sheet, facts);
    items.extend(unusual);
    items.extend(soak::not_soaked(sheet));
    items.extend(dates::dates(sheet, today));
    items.extend(asked_for::asked_for(sheet, facts, packs));
    accepted::apply(sheet, &mut items, today.or(sheet.as_of));
    let doubts: Vec<Item> = items.iter().filter(|i| i.unsettled).cloned().collect();
    doubt::wait(sheet, facts, packs, &mut items);
    stand_in::run_too(sheet, facts, &mut verdict.replaced, &mut items, |said| {
        accepted::mark(sheet, said, today.or(sheet.as_of));
        let own = said.len();
        said.extend(doubts.iter().cloned());
        doubt::wait(sheet, facts, packs, said);
        said.truncate(own);
    });
    items.extend(stand_in::idle_entries(sheet, &verdict.replaced));
    in_order(&mut items);
    verdict.unjudged = unjudged::unjudged(sheet, facts, packs, &looked_at);
    verdict.items = items;
    verdict.taken.extend(facts.defaults_taken().into_iter().map(|d| TakenValue {
        what: d.fact.to_owned(),
        value: taken_text(&d),
        source: d.source.to_owned(),
    }));
    verdict.taken.sort();
    verdict.taken.dedup();
    verdict
}

/// Judges one answer of one pack against these facts, and nothing else: what its rules say, for the pack's cases.
#[must_use]
pub fn judge_answer(sheet: &Sheet, facts: &SheetFacts<'_>, manifest: &Manifest, answer: &CheckedAnswer) -> Verdict {
    let mut verdict = answers::of_one(sheet, facts, manifest, answer);
    let mut items = std::mem::take(&mut verdict.items);
    items.extend(judge::windows(sheet, facts, &verdict.windows));
    in_order(&mut items);
    verdict.items = items;
    verdict
}

/// What a pack would be asked of this build; to find out what its answer costs, however it answers.
#[must_use]
pub fn question(sheet: &Sheet, facts: &SheetFacts<'_>, manifest: &Manifest) -> Question {
    answers::question(sheet, facts, manifest)
}

/// Asks the packs for services and steps alone, and judges nothing: for a list over many engines, where a verdict on each
/// would take most of the time.
#[must_use]
pub fn services<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P]) -> Verdict {
    answers::ask(sheet, facts, packs, &[RuleKind::Service, RuleKind::Step])
}

/// "0.48 lb/hp-h (0.45 to 0.50)", in the trade's own units.
fn taken_text(taken: &thou_facts::DefaultTaken) -> String {
    let Some(kind) = taken.value.kind() else { return String::new() };
    let system = thou_contract::System::Inch;
    let figure = thou_facts::Figure::of(taken.fact, kind, system);
    let text = figure.text(taken.taken);
    if taken.low == taken.high {
        return text;
    }
    format!("{text} ({} to {})", figure.number(taken.low), figure.number(taken.high))
}

/// By what each is sorted by is made out once an item, not once a comparison.
fn in_order(items: &mut Vec<Item>) {
    let mut places: Vec<usize> = (0..items.len()).collect();
    {
        let keys: Vec<Order<'_>> = items.iter().map(order).collect();
        places.sort_by_key(|i| keys.get(*i).copied());
    }
    let mut taken: Vec<Option<Item>> = std::mem::take(items).into_iter().map(Some).collect();
    items.extend(places.into_iter().filter_map(|i| taken.get_mut(i).and_then(Option::take)));
}

/// Operation, weight, rule, place, fact: what the report is sorted by.
type Order<'a> = (usize, State, &'a str, Option<(Axis, usize)>, Option<&'a str>);

fn order(item: &Item) -> Order<'_> {
    let operation = OPERATIONS.iter().position(|o| *o == item.operation).unwrap_or(OPERATIONS.len());
    (operation, item.state, &item.rule, item.place, item.fact.as_deref())
}
