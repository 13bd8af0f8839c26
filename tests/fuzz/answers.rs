//! Answers of every shape on real manifests, through the checks, the judging, the plan and every page.

use super::{sheets, trees};
use fastrand::Rng;
use std::collections::BTreeMap;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::seam::{Raw, stand_in};
use thou::packs::{Finding, OutcomeState, RuleOutcome, Said, Service, Step, Window};
use thou::sheet::Sheet;
use thou::verdict;
use thou_contract::{Level, Manifest, Rule, RuleKind, RuleText};
use thou_tests::{TODAY, builtin, sheet_of};

/// Runs that found something.
pub const KEPT: &[u64] = &[];

/// Sheets whose facts are computed once, and manifests to answer for.
pub struct Benches {
    sheets: Vec<(&'static Sheet, SheetFacts<'static>, Values)>,
    manifests: Vec<Manifest>,
}

/// What the facts come to that rules judge.
type Values = BTreeMap<String, f64>;

impl Benches {
    pub fn new() -> Self {
        let names = [
            "sample-builds/single.json",
            "sample-builds/inline-four.json",
            "sample-builds/planted/01-aluminium-rods.json",
        ];
        let packs = builtin();
        let sheets = names.map(|name| {
            // as long as the process
            let sheet: &'static Sheet = Box::leak(Box::new(sheet_of(name)));
            let facts = SheetFacts::new(Catalogue::standard(), sheet);
            let judged = verdict::judge(sheet, &facts, &packs, Some(TODAY)).items.into_iter();
            let values = judged.filter_map(|i| Some((i.fact?, i.value?.value))).collect();
            (sheet, facts, values)
        });
        Self { sheets: sheets.into(), manifests: packs.into_iter().map(|p| p.manifest).collect() }
    }
}

/// One answer.
pub fn one(rng: &mut Rng, benches: &Benches) {
    let (sheet, facts, values) = &benches.sheets[rng.usize(..benches.sheets.len())];
    let mut manifest = benches.manifests[rng.usize(..benches.manifests.len())].clone();
    few(rng, &mut manifest);
    let shape = Shape { wild: rng.u8(..4) == 0, wrong: rng.u8(..3) == 0 };
    let twice = rng.u8(..16) == 0;
    let (told, values) = (manifest.clone(), values.clone());
    // the same numbers whenever it is asked
    let seed = rng.u64(..);
    let packs = [stand_in(manifest, move |ask| answer(&mut Rng::with_seed(seed), &told, ask, &values, &shape))];
    let first = sheets::pages(sheet, facts, &packs);
    if twice {
        assert!(first == sheets::pages(sheet, facts, &packs), "the same answer, other bytes");
    }
}

/// A handful of the rules, so that a run is quick, with words changed now and then.
fn few(rng: &mut Rng, manifest: &mut Manifest) {
    let most = 1 + rng.usize(..8);
    rng.shuffle(&mut manifest.rules);
    manifest.rules.truncate(most);
    for rule in &mut manifest.rules {
        rule.supersedes.clear();
        if rng.bool() {
            // what is not needed is asked all the same
            rule.takes.append(&mut rule.needs);
        }
        for text in &mut rule.texts {
            if rng.u8(..8) == 0 {
                text.words = thou::packs::clean::clean(&trees::word(rng));
            }
        }
    }
}

/// How far an answer strays.
struct Shape {
    /// Numbers of any size.
    wild: bool,
    /// Now and then an index or a number that no answer may have.
    wrong: bool,
}

fn answer(rng: &mut Rng, manifest: &Manifest, ask: &[u32], values: &Values, shape: &Shape) -> Raw {
    let mut raw = Raw::default();
    for &index in ask {
        let rule = &manifest.rules[index as usize];
        let answered = match rng.u8(..8) {
            0 if !rule.reasons.is_empty() => OutcomeState::NotApplicable(some(rng, rule.reasons.len(), shape)),
            1 if !rule.reasons.is_empty() => OutcomeState::CannotSay(some(rng, rule.reasons.len(), shape)),
            2 => OutcomeState::Clear,
            _ => OutcomeState::Answered,
        };
        let rule_index = if shape.wrong && rng.u8(..200) == 0 { rng.u32(..) } else { index };
        raw.outcomes.push(RuleOutcome { rule: rule_index, state: answered });
        if answered == OutcomeState::Answered || shape.wrong && rng.u8(..100) == 0 {
            let most = if rng.u8(..32) == 0 { 40 } else { 3 };
            for _ in 0..=rng.usize(..most) {
                item(rng, index, rule, manifest, values, shape, &mut raw);
            }
        }
    }
    raw
}

fn item(rng: &mut Rng, index: u32, rule: &Rule, manifest: &Manifest, values: &Values, shape: &Shape, raw: &mut Raw) {
    let text = some(rng, rule.texts.len(), shape);
    let numbers = raw.numbers.len() as u32;
    if let Some(text) = rule.texts.get(text as usize) {
        arguments(rng, text, shape, &mut raw.numbers);
    }
    let numbers = if shape.wrong && rng.u8(..100) == 0 { rng.u32(..) } else { numbers };
    let place = match rng.u8(..4) {
        0 => Some(0),
        1 if shape.wrong => Some(rng.u32(..20)),
        _ => None,
    };
    let level = [Level::Hold, Level::Warn, Level::Note][rng.usize(..3)];
    match rule.kind {
        RuleKind::Window => {
            let fact = some(rng, rule.judges.len(), shape);
            let about = rule.judges.get(fact as usize).and_then(|f| values.get(f)).copied().unwrap_or(0.01);
            let mut limits: Vec<f64> = (0..5).map(|_| limit(rng, about, shape)).collect();
            if !(shape.wrong && rng.u8(..30) == 0) {
                limits.sort_by(f64::total_cmp);
            }
            let mut at = |i: usize| (rng.u8(..3) != 0).then(|| limits[i]);
            let (never_below, low, aim, high, mut never_above) = (at(0), at(1), at(2), at(3), at(4));
            if [never_below, low, high, never_above].iter().all(Option::is_none) && !shape.wrong {
                never_above = Some(limits[4]);
            }
            let below = [Level::Hold, Level::Warn, Level::Note][rng.usize(..3)];
            let reuse = rng.u8(..4) == 0;
            let what =
                Window { fact, place, never_below, low, aim, high, never_above, below, above: level, reuse, text };
            raw.windows.push(Said { rule: index, what, args: numbers });
        }
        RuleKind::Finding => {
            raw.findings.push(Said { rule: index, what: Finding { level, place, text }, args: numbers });
        }
        RuleKind::Service => {
            let mut lives: Vec<f64> = (0..3).map(|_| life(rng, shape)).collect();
            if !(shape.wrong && rng.u8(..30) == 0) {
                lives.sort_by(f64::total_cmp);
            }
            let meter = some(rng, manifest.meters.len(), shape);
            let what = Service { place, meter, low: lives[0], nominal: lives[1], high: lives[2], text };
            raw.services.push(Said { rule: index, what, args: numbers });
        }
        RuleKind::Step => raw.steps.push(Said { rule: index, what: Step { place, text }, args: numbers }),
    }
}

/// An index into so many, and now and then past them.
fn some(rng: &mut Rng, of: usize, shape: &Shape) -> u32 {
    if shape.wrong && rng.u8(..100) == 0 || of == 0 { rng.u32(..) } else { rng.u32(..of as u32) }
}

fn limit(rng: &mut Rng, about: f64, shape: &Shape) -> f64 {
    if shape.wrong && rng.u8(..100) == 0 {
        return [f64::NAN, f64::INFINITY, f64::NEG_INFINITY][rng.usize(..3)];
    }
    if shape.wild { trees::number(rng) } else { about * (0.5 + rng.f64()) }
}

fn life(rng: &mut Rng, shape: &Shape) -> f64 {
    let life = if shape.wild { trees::number(rng).abs() } else { rng.f64() * 10f64.powi(rng.i32(0..8)) };
    if shape.wrong && rng.u8(..100) == 0 { f64::NAN } else { life }
}

fn arguments(rng: &mut Rng, text: &RuleText, shape: &Shape, numbers: &mut Vec<f64>) {
    for arg in &text.args {
        let value = match arg.kind.as_str() {
            "choice" => f64::from(some(rng, arg.choices.len(), shape)),
            "flag" => f64::from(rng.u8(..2)),
            "place" => f64::from(rng.u8(..20)),
            _ if shape.wild => trees::number(rng),
            _ => rng.f64() * 10f64.powi(rng.i32(-6..6)),
        };
        numbers.push(value);
    }
}
