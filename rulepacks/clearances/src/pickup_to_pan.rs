//! The oil pickup over the floor of the pan.

use crate::common::{contact, touches};
use crate::facts::{PICKUP_BORE, SUMP};
use thou_sdk::prelude::*;

reasons![DRY_SUMP = "a dry sump draws from its own fittings"];

const SPACE: Option<Remedy> =
    Remedy::say("Bend or swap the pickup, or space the pan; read it with the pan's gasket in.");

texts![
    SHOP = Text {
        low: SPACE,
        high: Remedy::say("Bend or swap the pickup, and fix it to the pump so that it stays."),
        ..Text::new("with the pan's gasket in")
    },
    STARVED = Text { low: SPACE, ..contact("starved: less room all round the tube than in it") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pickup-to-pan",
    title: "Pickup to pan",
    operation: "assembly",
    why: "A pickup on the floor starves the pump; one far above it draws air when the car stands on its tail.",
    source: "common practice, no source; by a tube whose bore the sheet gives, a third of it",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 100 thou where the tube's bore is not known; geometry: a quarter of it, where pi d h is \
         the tube's own pi d squared / 4",
    ),
    judges: &["pickup-to-pan"],
    needs: &[SUMP],
    takes: &[PICKUP_BORE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(SUMP, &["dry"]) {
        return NotApplicable(reason::DRY_SUMP);
    }
    let Some(tube) = f.get(PICKUP_BORE) else {
        a.window(Window::between(thou(250.0), thou(500.0)).never_below(thou(100.0)).text(text::SHOP));
        return Answered;
    };
    let low = tube / 3.0;
    a.window(Window::between(low, thou(500.0).max(low)).text(text::SHOP));
    a.window(touches(tube / 4.0).text(text::STARVED));
    Answered
}
