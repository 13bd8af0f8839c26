//! The oil pickup over the floor of the pan.

use crate::facts::SUMP;
use thou_sdk::prelude::*;

reasons![DRY_SUMP = "a dry sump draws from its own fittings"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pickup-to-pan",
    title: "Pickup to pan",
    operation: "assembly",
    why: "A pickup on the floor starves the pump; one far above it draws air when the car stands on its tail.",
    judges: &["pickup-to-pan"],
    needs: &[SUMP],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Bend or swap the pickup, or space the pan; read it with the pan's gasket in."),
        high: Remedy::say("Bend or swap the pickup, and fix it to the pump so that it stays."),
        ..Text::new("with the pan's gasket in; no one we know runs under 187 thou")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(SUMP, &["dry"]) {
        return NotApplicable(reason::DRY_SUMP);
    }
    a.window(Window::between(thou(250.0), thou(500.0)).never_below(thou(187.0)));
    Answered
}
