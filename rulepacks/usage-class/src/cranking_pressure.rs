//! Cranking pressure, the compression that a gauge sees.

use crate::facts::{EFFECTIVE, FUEL, HEAD};
use thou_sdk::prelude::*;

judges![READ = "cranking-pressure", SHARE = "cranking-pressure.share"];

texts![
    GEOMETRY = Text {
        low: Remedy::say(
            "Read {place} again, throttle open and warm; then wet. Or the cam is in wrong, or the compression is not what was worked out."
        ),
        ..Text::new("over what compression from where the inlet shuts makes of the air")
    },
    PUMP_PETROL = Text {
        low: Remedy::say("Read {place} again wet; if it rises, rings; if not, valves, or a cam that closes late."),
        high: Remedy::say("Check compression and inlet closing; as it cranks, it suits race petrol."),
        ..Text::new("pump petrol with these heads")
    },
    RACE_PETROL = Text {
        low: Remedy::say("Read {place} again wet; if it rises, rings; if not, valves, or a cam that closes late."),
        high: Remedy::say("Check compression and inlet closing; as it cranks, it suits methanol."),
        ..Text::new("race petrol")
    },
    METHANOL = Text {
        low: Remedy::say("Read {place} again wet; if it rises, rings; if not, valves, or a cam that closes late."),
        high: Remedy::say("Check compression and inlet closing, and that no fuel lies in {place}."),
        ..Text::new("methanol")
    },
    ETHANOL = Text {
        low: Remedy::say("Read {place} again wet; if it rises, rings; if not, valves, or a cam that closes late."),
        high: Remedy::say("Check compression and inlet closing, and that no fuel lies in {place}."),
        ..Text::new("ethanol or its blends: no school's figure is known, so only what no engine does")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cranking-pressure",
    title: "Cranking pressure for the fuel",
    operation: "hand-over",
    why: "It shows in one reading what volumes, cam and rings make of each other, before the fuel finds out.",
    source: "common practice, no source; like with like only: throttle open, all plugs out, same cranking speed and oil",
    hold_source: Some("common practice, no source: no sound hole cranks so little, none on this fuel so much"),
    judges: JUDGES,
    needs: &[FUEL, HEAD],
    takes: &[EFFECTIVE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Less than a hole with a hung valve, psi.
const LEAST: f64 = 60.0;

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(EFFECTIVE).is_some() {
        a.window(Window::at_least(0.65).judging(judged::SHARE).text(text::GEOMETRY));
    }
    let (low, high, most, text) = match f.choice(FUEL) {
        Some("petrol-pump") if f.is(HEAD, &["aluminium"]) => (150.0, 200.0, 280.0, text::PUMP_PETROL),
        Some("petrol-pump") => (150.0, 185.0, 280.0, text::PUMP_PETROL),
        Some("petrol-race") => (200.0, 240.0, 350.0, text::RACE_PETROL),
        Some("methanol") => (220.0, 280.0, 400.0, text::METHANOL),
        _ => {
            a.window(Window::new().never_below(psi(LEAST)).never_above(psi(400.0)).text(text::ETHANOL));
            return Answered;
        }
    };
    let window = Window::between(psi(low), psi(high)).levels(Note, Note);
    a.window(window.never_below(psi(LEAST)).never_above(psi(most)).text(text));
    Answered
}
