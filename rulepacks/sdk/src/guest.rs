//! The component's side of the contract.

use crate::{Facts, Level, Pack};
use thou_contract::answer::{Finding, OutcomeState, RuleOutcome, Said, Service, Step, Window};

wit_bindgen::generate!({
    world: "rule-pack",
    path: "../../schemas/rules-1.0.wit",
    pub_export_macro: true,
    export_macro_name: "export_pack",
    default_bindings_module: "thou_sdk::guest",
});

use exports::thou::rules::pack as wit;

/// Answers the host from a pack's constants.
pub fn assess(pack: &Pack, ask: &[u32], facts: &wit::Facts) -> Result<wit::Answer, String> {
    std::panic::set_hook(Box::new(|info| tell(&info.to_string())));
    let raw = pack.assess(ask, &Facts::new(&facts.starts, &facts.values));
    if let Some(unknown) = ask.iter().find(|i| **i as usize >= pack.rules.len()) {
        return Err(format!("asked for rule {unknown} of {}", pack.rules.len()));
    }
    Ok(wit::Answer {
        outcomes: raw.outcomes.iter().map(outcome).collect(),
        windows: raw.windows.iter().map(window).collect(),
        findings: raw.findings.iter().map(finding).collect(),
        services: raw.services.iter().map(service).collect(),
        steps: raw.steps.iter().map(step).collect(),
        numbers: raw.numbers,
    })
}

/// A component without imports has one way to say why it ends: the host takes growths of memory that it can only
/// refuse as letters, one a call.
fn tell(text: &str) {
    for byte in text.bytes().take(400) {
        core::arch::wasm32::memory_grow::<0>(0x9a00 + usize::from(byte));
    }
}

fn level(level: Level) -> wit::Level {
    match level {
        Level::Hold => wit::Level::Hold,
        Level::Warn => wit::Level::Warn,
        Level::Note => wit::Level::Note,
    }
}

fn outcome(outcome: &RuleOutcome) -> wit::Outcome {
    let (state, reason) = match outcome.state {
        OutcomeState::Answered => (wit::State::Answered, 0),
        OutcomeState::Clear => (wit::State::Clear, 0),
        OutcomeState::NotApplicable(reason) => (wit::State::NotApplicable, reason),
        OutcomeState::CannotSay(reason) => (wit::State::CannotSay, reason),
    };
    wit::Outcome { rule: outcome.rule, state, reason }
}

fn window(Said { rule, what: w, args }: &Said<Window, u32>) -> wit::Window {
    wit::Window {
        rule: *rule,
        fact: w.fact,
        place: w.place,
        never_below: w.never_below,
        low: w.low,
        aim: w.aim,
        high: w.high,
        never_above: w.never_above,
        below: level(w.below),
        above: level(w.above),
        reuse: w.reuse,
        text: w.text,
        numbers: *args,
    }
}

fn finding(Said { rule, what: f, args }: &Said<Finding, u32>) -> wit::Finding {
    wit::Finding { rule: *rule, level: level(f.level), place: f.place, text: f.text, numbers: *args }
}

fn service(Said { rule, what: s, args }: &Said<Service, u32>) -> wit::Service {
    wit::Service {
        rule: *rule,
        place: s.place,
        meter: s.meter,
        low: s.low,
        nominal: s.nominal,
        high: s.high,
        text: s.text,
        numbers: *args,
    }
}

fn step(Said { rule, what: s, args }: &Said<Step, u32>) -> wit::Step {
    wit::Step { rule: *rule, place: s.place, text: s.text, numbers: *args }
}
