//! A floating pin in the rod.

use crate::facts::{PIN_FIT, ROD};
use thou_sdk::prelude::*;

reasons![PRESSED = "the pin is pressed in the rod"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-to-bush",
    title: "Pin to rod bush",
    operation: "rods-and-pistons",
    why: "The small end gets what oil finds it: a pin that sticks in its bush drags the piston round and scuffs the \
          skirt.",
    source: "common practice, no source; a trade article wants 1.0 to 1.2 thou and saw skirts scuff at 0.6 to 0.7",
    judges: &["pin-to-rod"],
    needs: &[PIN_FIT, ROD],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Hone the small end of {place} to {solve}.", "rod-bush", "up"),
        high: Remedy::say("Fit a new bush or an oversize pin to {place}."),
        ..Text::new("on diameter, for this rod")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PIN_FIT, &["floating"]) {
        return NotApplicable(reason::PRESSED);
    }
    let (low, aim, high) = if f.is(ROD, &["aluminium"]) { (1.2, 1.6, 2.0) } else { (0.8, 1.1, 1.6) };
    a.window(Window::between(thou(low), thou(high)).aim(thou(aim)).never_below(thou(0.5)));
    Answered
}
