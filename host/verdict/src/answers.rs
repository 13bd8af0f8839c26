//! Asking every pack what it has the facts for, and taking its answers apart.

use super::inputs::{Filled, Uses, given};
use super::item::{Advice, ArgValue, Item, ServiceItem, StepItem};
use super::rule_pack::{Given, RulePack};
use super::stand_in::{self, StandIns};
use super::verdict::{TakenValue, Verdict};
use super::window_item::{AnswerText, WindowItem};
use std::collections::{BTreeMap, BTreeSet};
use thou_contract::answer::{self, CheckedAnswer, Said};
use thou_contract::{Basis, Level, Manifest, Rule, RuleKind};
use thou_facts::SheetFacts;
use thou_judge::{Levels, Limits, State, basis, hold_basis};
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// Asks the packs for the rules of some kinds; a pack that has none of them is not run.
pub(super) fn ask<P: RulePack>(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[P], kinds: &[RuleKind]) -> Verdict {
    ask_where(sheet, facts, packs, &|rule: &Rule| kinds.contains(&rule.kind))
}

/// Asks the packs for those rules that are asked for.
pub(super) fn ask_where<P: RulePack>(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    packs: &[P],
    asked: &dyn Fn(&Rule) -> bool,
) -> Verdict {
    let uses: Uses = packs.iter().flat_map(|p| &p.manifest().uses).map(|u| (u.id.clone(), u.like.clone())).collect();
    let mut verdict = Verdict::default();
    let mut stand_ins = StandIns::default();
    for pack in packs {
        let manifest = pack.manifest();
        if !manifest.rules.iter().any(asked) {
            continue;
        }
        let given = given(manifest, sheet, facts, &uses, asked);
        verdict.taken.extend(given.defaults.iter().map(|(what, value, source)| TakenValue {
            what: what.clone(),
            value: value.clone(),
            source: source.clone(),
        }));
        let ask = askable(manifest, &given, asked, &mut verdict.items);
        let places = |fact: &str| places(sheet, facts, fact);
        let before = (verdict.windows.len(), verdict.items.len());
        match pack.answer(&ask, &Given { starts: &given.starts, values: &given.values, places: &places }) {
            Ok(answer) => take(sheet, facts, manifest, &answer, &mut verdict, &mut stand_ins),
            Err(lost) => verdict.lost.push(lost),
        }
        if !pack.built_in() {
            say_whose(&mut verdict, before, manifest);
        }
    }
    let stood_in = |rule: &str| stood_in_for(rule, packs, &stand_ins, |fact| places(sheet, facts, fact));
    let titles = packs.iter().map(|p| (p.manifest().id.clone(), p.manifest().title.clone())).collect();
    stand_in::stand_in(sheet, facts, &mut verdict, &stand_ins, &titles, stood_in);
    verdict
}

/// How many places a fact has in this engine.
#[must_use]
pub fn places(sheet: &Sheet, facts: &SheetFacts<'_>, fact: &str) -> Option<u32> {
    let axis = facts.info(fact)?.axis;
    u32::try_from(sheet.places.count(axis)).ok()
}

/// What one answer says, before anything that was read is held against it.
pub(super) fn of_one(sheet: &Sheet, facts: &SheetFacts<'_>, manifest: &Manifest, answer: &CheckedAnswer) -> Verdict {
    let mut verdict = Verdict::default();
    take(sheet, facts, manifest, answer, &mut verdict, &mut StandIns::default());
    verdict
}

/// What a pack would be asked of this build, and with what.
pub(super) fn question(sheet: &Sheet, facts: &SheetFacts<'_>, manifest: &Manifest) -> Question {
    let uses = manifest.uses.iter().map(|u| (u.id.clone(), u.like.clone())).collect();
    let given = given(manifest, sheet, facts, &uses, |_| true);
    let rules = askable(manifest, &given, |_| true, &mut Vec::new());
    Question { rules, starts: given.starts, values: given.values }
}

/// What a pack would be asked.
#[derive(Debug, Clone)]
pub struct Question {
    /// Indices of the manifest's rules, rising.
    pub rules: Vec<u32>,
    /// As [`Given::starts`].
    pub starts: Vec<u32>,
    /// As [`Given::values`].
    pub values: Vec<f64>,
}

/// What came from outside bears its pack's title where it names nobody else, and its pack's name beside what it gives out
/// for physics, a standard or published: a reader must see whose number a line is.
fn say_whose(verdict: &mut Verdict, (windows, items): (usize, usize), manifest: &Manifest) {
    let title: String = manifest.title.chars().take(MOST_TITLE).collect();
    let said = |whose: &mut String, basis: Option<Basis>| {
        let vouched = matches!(basis, Some(Basis::Physics | Basis::Standard | Basis::Published));
        let nobody = whose.is_empty() || EVERY_BASIS.iter().any(|b| b.word() == whose);
        match (basis, nobody) {
            (Some(basis), true) if vouched => *whose = format!("{}, says {}", basis.word(), manifest.id),
            (_, true) => whose.clone_from(&title),
            (_, false) if vouched => whose.push_str(&format!(", says {}", manifest.id)),
            (_, false) => {}
        }
    };
    for window in verdict.windows.iter_mut().skip(windows) {
        said(&mut window.text.whose, Some(window.basis));
        said(&mut window.hold_whose, Some(window.hold_basis));
    }
    for item in verdict.items.iter_mut().skip(items) {
        said(&mut item.whose, item.basis);
    }
}

/// What a number can rest on.
const EVERY_BASIS: [Basis; 6] =
    [Basis::Physics, Basis::Maker, Basis::Standard, Basis::Published, Basis::Shop, Basis::Practice];

/// Longest title that a line has room for, in characters.
const MOST_TITLE: usize = 40;

/// The rules whose needs are there; the others are open, and say what would let them answer.
fn askable(manifest: &Manifest, given: &Filled, asked: impl Fn(&Rule) -> bool, items: &mut Vec<Item>) -> Vec<u32> {
    let mut ask = Vec::new();
    for (index, rule) in (0u32..).zip(&manifest.rules).filter(|(_, rule)| asked(rule)) {
        let wants: BTreeSet<String> =
            rule.needs.iter().filter_map(|n| given.missing.get(n)).flatten().cloned().collect();
        if wants.is_empty() {
            ask.push(index);
            continue;
        }
        if rule.kind == RuleKind::Service {
            continue;
        }
        let mut item = Item::new(&id(manifest, rule), &rule.title, &rule.operation, State::Open);
        item.why.clone_from(&rule.why);
        item.wants = wants.into_iter().collect();
        item.at_stake = at_stake(rule);
        items.push(item);
    }
    ask
}

/// The loudest that a rule could be that was not asked or could not say: any window may have a never-limit, and a finding
/// is as loud as its basis allows.
fn at_stake(rule: &Rule) -> Level {
    let of_texts = rule.texts.iter().filter_map(|t| t.basis);
    let holds =
        rule.kind == RuleKind::Window || of_texts.chain([rule.basis]).any(|b| b.cap(Level::Hold) == Level::Hold);
    if holds { Level::Hold } else { Level::Warn }
}

fn id(manifest: &Manifest, rule: &Rule) -> String {
    format!("{}/{}", manifest.id, rule.id)
}

fn take(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    manifest: &Manifest,
    answer: &CheckedAnswer,
    verdict: &mut Verdict,
    stand_ins: &mut StandIns,
) {
    let rule_of = |index: u32| manifest.rules.get(index as usize);
    for outcome in &answer.outcomes {
        let Some(rule) = rule_of(outcome.rule) else { continue };
        let (state, reason) = match outcome.state {
            answer::OutcomeState::Answered => continue,
            answer::OutcomeState::Clear => {
                // that it looked and has nothing to say is an answer too, and stands in for the other's
                if rule.kind == RuleKind::Finding {
                    stand_ins.add(&rule.supersedes, "", None, &id(manifest, rule));
                }
                (State::Go, 0)
            }
            answer::OutcomeState::NotApplicable(reason) => (State::DoesNotApply, reason),
            answer::OutcomeState::CannotSay(reason) => (State::CannotSay, reason),
        };
        if rule.kind == RuleKind::Service && state != State::CannotSay {
            continue;
        }
        let mut item = Item::new(&id(manifest, rule), &rule.title, &rule.operation, state);
        item.why.clone_from(&rule.why);
        item.at_stake = at_stake(rule);
        if state != State::Go {
            item.words = rule.reasons.get(reason as usize).cloned().unwrap_or_default();
        }
        if item.words == CROSSED {
            let figures = rule.takes.iter().chain(&rule.needs).filter_map(|f| facts.where_stated(f));
            item.crossed = figures.filter(|pointer| pointer.contains("/card/")).collect();
            item.pointer = item.crossed.first().cloned();
        }
        verdict.items.push(item);
    }
    for Said { rule, what: window, args } in &answer.windows {
        let Some(rule) = rule_of(*rule) else { continue };
        let Some(fact) = rule.judges.get(window.fact as usize) else { continue };
        let template = rule.texts.get(window.text as usize);
        let (basis, hold_basis) = (basis(rule, template), hold_basis(rule, template));
        let place = window.place.map(|p| p as usize);
        stand_ins.add(&rule.supersedes, fact, place, &id(manifest, rule));
        let text = text(rule, window.text, args, basis);
        let hold_whose = if hold_basis == basis { text.whose.clone() } else { hold_basis.word().to_owned() };
        verdict.windows.push(WindowItem {
            rule: id(manifest, rule),
            title: heading(rule, fact),
            operation: rule.operation.clone(),
            fact: fact.clone(),
            place,
            limits: Limits::of(window),
            levels: Levels::of(window, rule, template),
            reuse: window.reuse,
            text,
            basis,
            hold_basis,
            hold_whose,
            why: rule.why.clone(),
        });
    }
    for finding in &answer.findings {
        let Some(rule) = rule_of(finding.rule) else { continue };
        stand_ins.add(&rule.supersedes, "", None, &id(manifest, rule));
        verdict.items.push(found(sheet, facts, manifest, rule, finding));
    }
    for Said { rule, what: service, args } in &answer.services {
        let (Some(rule), Some(meter)) = (rule_of(*rule), manifest.meters.get(service.meter as usize)) else {
            continue;
        };
        let Some(info) = &rule.service else { continue };
        stand_ins.add(&rule.supersedes, "", None, &id(manifest, rule));
        let text = text(rule, service.text, args, rule.basis);
        verdict.services.push(ServiceItem {
            rule: id(manifest, rule),
            title: rule.title.clone(),
            place: service.place.map(|p| (Axis::Cylinder, p as usize)),
            meter: meter.clone(),
            low: service.low,
            nominal: service.nominal,
            high: service.high,
            words: text.words,
            args: text.args,
            why: rule.why.clone(),
            service: info.clone(),
            wears: rule.wears(service.text as usize),
            basis: rule.basis,
            source: rule.source.clone(),
        });
    }
    for Said { rule, what: step, args } in &answer.steps {
        let Some(rule) = rule_of(*rule) else { continue };
        let text = text(rule, step.text, args, rule.basis);
        verdict.steps.push(StepItem {
            rule: id(manifest, rule),
            title: rule.title.clone(),
            operation: rule.operation.clone(),
            place: step.place.map(|p| (Axis::Cylinder, p as usize)),
            words: text.words,
            args: text.args,
            after: rule.step.as_ref().map(|s| s.after.clone()).unwrap_or_default(),
            caution: rule.step.as_ref().and_then(|s| s.caution.clone()),
        });
    }
}

/// What a pack made with the Rust kit says of limits that cross, as its manifest has it.
pub const CROSSED: &str = "the limits that come of these figures cross: look at what the sheet and the card state";

/// The rule's title, and which of its facts where it judges several.
fn heading(rule: &Rule, fact: &str) -> String {
    if rule.judges.len() > 1 {
        format!("{}: {}", rule.title, fact.replace(['.', '-'], " "))
    } else {
        rule.title.clone()
    }
}

fn found(
    sheet: &Sheet,
    facts: &SheetFacts<'_>,
    manifest: &Manifest,
    rule: &Rule,
    said: &Said<answer::Finding>,
) -> Item {
    let finding = &said.what;
    let template = rule.texts.get(finding.text as usize);
    let basis = basis(rule, template);
    let text = text(rule, finding.text, &said.args, basis);
    let mut item =
        Item::new(&id(manifest, rule), &rule.title, &rule.operation, State::from_level(basis.cap(finding.level)));
    item.at_stake = basis.cap(finding.level);
    let points_at = template.map(|t| t.points_at.as_slice()).unwrap_or_default();
    let facts_pointed = points_at.iter().chain(&rule.needs);
    item.pointer = facts_pointed.clone().find_map(|f| facts.where_stated(f));
    item.place = finding.place.map(|p| {
        let axis = points_at.first().and_then(|f| facts.info(f)).map_or(Axis::Cylinder, |i| i.axis);
        let axis = if sheet.places.count(axis) > p as usize { axis } else { Axis::Cylinder };
        (axis, p as usize)
    });
    item.fact = points_at.first().cloned();
    item.words = text.words;
    item.args = text.args;
    item.whose = text.whose;
    item.basis = Some(basis);
    item.can_be_accepted = basis != Basis::Physics;
    item.why.clone_from(&rule.why);
    item.advice = text.low.map(|r| Advice { words: r.words, solved: None });
    item
}

fn text(rule: &Rule, index: u32, given: &[f64], basis: Basis) -> AnswerText {
    let Some(text) = rule.texts.get(index as usize) else { return AnswerText::default() };
    let mut args = BTreeMap::new();
    for (argument, value) in text.args.iter().zip(given) {
        let arg = if argument.kind == "choice" {
            ArgValue::Word(argument.choices.get(*value as usize).cloned().unwrap_or_default())
        } else {
            ArgValue::Quantity(argument.kind.clone(), *value)
        };
        args.insert(argument.name.clone(), arg);
    }
    AnswerText {
        words: text.words.clone(),
        whose: text.whose.clone().unwrap_or_else(|| basis.word().to_owned()),
        low: text.low.clone(),
        high: text.high.clone(),
        args,
    }
}

/// Whether others answer at every place for all that this rule judges, so that it is not missed where it could not say
/// anything itself. One that may hold by physics is missed all the same.
fn stood_in_for<P: RulePack>(
    id: &str,
    packs: &[P],
    stand_ins: &StandIns,
    places: impl Fn(&str) -> Option<u32>,
) -> bool {
    let Some((pack, name)) = id.split_once('/') else { return false };
    let Some(pack) = packs.iter().map(RulePack::manifest).find(|m| m.id == pack) else { return false };
    let Some(rule) = pack.rules.iter().find(|r| r.id == name) else { return false };
    let of_texts = rule.texts.iter().flat_map(|t| [t.basis, t.hold_basis]);
    let physics = of_texts.chain([Some(rule.basis), rule.hold_basis]).any(|basis| basis == Some(Basis::Physics));
    let everywhere = |fact: &String| {
        let count = places(fact).and_then(|count| usize::try_from(count).ok()).unwrap_or(0);
        let covered = |place| stand_ins.covers(id, fact, place);
        covered(None) || count > 0 && (0..count).all(|at| covered(Some(at)))
    };
    rule.kind == RuleKind::Window && !physics && rule.judges.iter().all(everywhere)
}
