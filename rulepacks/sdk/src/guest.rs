//! The component's side of the contract.

use crate::{Answer, Facts, Level, Outcome, Pack};

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
    let (outcomes, answer) = pack.assess(ask, &Facts::new(&facts.starts, &facts.values));
    if let Some(unknown) = ask.iter().find(|i| **i as usize >= pack.rules.len()) {
        return Err(format!("asked for rule {unknown} of {}", pack.rules.len()));
    }
    let Answer { windows, findings, services, steps, numbers, .. } = answer;
    Ok(wit::Answer {
        outcomes: outcomes.into_iter().map(outcome).collect(),
        windows: windows
            .into_iter()
            .map(|(rule, w, numbers)| wit::Window {
                rule,
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
                numbers,
            })
            .collect(),
        findings: findings
            .into_iter()
            .map(|(rule, f, numbers)| wit::Finding {
                rule,
                level: level(f.level),
                place: f.place,
                text: f.text,
                numbers,
            })
            .collect(),
        services: services
            .into_iter()
            .map(|(rule, s, numbers)| wit::Service {
                rule,
                place: s.place,
                meter: s.meter,
                low: s.low,
                nominal: s.nominal,
                high: s.high,
                text: s.text,
                numbers,
            })
            .collect(),
        steps: steps.into_iter().map(|(rule, place, text, numbers)| wit::Step { rule, place, text, numbers }).collect(),
        numbers,
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

fn outcome((rule, outcome): (u32, Outcome)) -> wit::Outcome {
    let (state, reason) = match outcome {
        Outcome::Answered => (wit::State::Answered, 0),
        Outcome::Clear => (wit::State::Clear, 0),
        Outcome::NotApplicable(reason) => (wit::State::NotApplicable, reason),
        Outcome::CannotSay(reason) => (wit::State::CannotSay, reason),
    };
    wit::Outcome { rule, state, reason }
}
