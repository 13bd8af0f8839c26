//! What must stop nitrous by itself.

use crate::facts::{ADDER, FUEL_PRESSURE_SWITCH, FULL_THROTTLE_SWITCH, RELIEF_VENTED, SPEED_WINDOW};
use thou_sdk::prelude::*;

reasons![NO_NITROUS = "no nitrous"];

texts![
    FULL_THROTTLE = Text {
        low: Remedy::say("Fit a switch that arms it at full throttle alone, and write it down."),
        points_at: &["nitrous.full-throttle-switch"],
        ..Text::new("no full-throttle switch on the sheet")
    },
    SPEED = Text {
        low: Remedy::say("Set a lowest speed, and a highest well under the limiter, and write it down."),
        points_at: &["nitrous.speed-window"],
        ..Text::new("no speed window on the sheet")
    },
    FUEL_PRESSURE = Text {
        low: Remedy::say(
            "Fit a switch on the fuel side that drops the nitrous when pressure falls, and write it down.",
        ),
        points_at: &["nitrous.fuel-pressure-switch"],
        ..Text::new("no fuel pressure switch on the sheet")
    },
    RELIEF = Text {
        low: Remedy::say("Lead the bottle's relief disc outside the car, and write it down."),
        points_at: &["nitrous.relief-vented"],
        ..Text::new("the relief disc is not vented outside on the sheet")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-interlocks",
    title: "Nitrous interlocks",
    operation: "hand-over",
    why: "Nitrous on a closed throttle bursts the manifold, without fuel it melts pistons, on the limiter it breaks \
          them, and a bottle that vents inside takes the driver's air.",
    basis: Maker,
    source: "makers' fitting instructions and safety guidance for nitrous systems, from memory",
    needs: &[ADDER],
    takes: &[FULL_THROTTLE_SWITCH, SPEED_WINDOW, FUEL_PRESSURE_SWITCH, RELIEF_VENTED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NO_NITROUS);
    }
    let mut outcome = Clear;
    let asked = [
        (FULL_THROTTLE_SWITCH, text::FULL_THROTTLE),
        (SPEED_WINDOW, text::SPEED),
        (FUEL_PRESSURE_SWITCH, text::FUEL_PRESSURE),
        (RELIEF_VENTED, text::RELIEF),
    ];
    for (flag, text) in asked {
        if f.flag(flag) != Some(true) {
            a.finding(Hold, text, &[]);
            outcome = Answered;
        }
    }
    outcome
}
