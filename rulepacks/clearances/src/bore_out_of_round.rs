//! Roundness of the bore.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bore-out-of-round",
    title: "Bore out of round",
    operation: "block",
    why: "A ring is round and springs only so far: where the bore is not, it leaves a slit for the gas and a wedge \
          for the oil.",
    source: "common practice, no source; factory service manuals, several makers (1984 to 2008): 0.5 thou new, 1.0 to \
             2.0 worn",
    judges: &["bore.out-of-round"],
    needs: &[USE],
    texts: &[Text {
        high: Remedy::say(
            "Read {place} again with the plate torqued as it was honed; then give it a few strokes with less load. If \
             it comes back, the plate or the block moves.",
        ),
        ..Text::new("over the directions, at the worst height")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let never = by_use(f, thou(2.0), thou(1.5), thou(1.5));
    a.window(Window::at_most(by_use(f, thou(0.5), thou(0.3), thou(0.2))).never_above(never));
    match f.choice(USE) {
        Some("street") => a.window(Window::at_most(thou(1.0)).never_above(never).reuse()),
        Some("bracket") => a.window(Window::at_most(thou(0.7)).never_above(never).reuse()),
        _ => {}
    }
    Answered
}
