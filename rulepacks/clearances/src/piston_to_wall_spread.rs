//! How far the piston fits lie apart.

use crate::common::{ONE_CYLINDER, by_use, single};
use crate::facts::{CYLINDERS, USE};
use thou_sdk::prelude::*;

reasons![ONE_CYLINDER];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-wall-spread",
    title: "Piston fits against each other",
    operation: "block",
    why: "Eight fits that differ are eight engines: the tight one sets the limit, the loose one the noise. A bore \
          that stands apart from its set is more often a reading or a piston in the wrong hole than a bad bore.",
    judges: &["piston-to-wall.spread"],
    needs: &[USE],
    takes: &[CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Read the odd ones again, swap pistons between the bores first, and hone last."),
        ..Text::new("tightest to loosest")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if single(f) {
        return NotApplicable(reason::ONE_CYLINDER);
    }
    a.window(Window::at_most(by_use(f, thou(0.8), thou(0.5), thou(0.3))));
    Answered
}
