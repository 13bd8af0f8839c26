//! Taper of the bore.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bore-taper",
    title: "Bore taper",
    operation: "block",
    why: "A ring in a tapered bore opens and shuts with every stroke: it flutters, wears its groove, and its gap is \
          right at one height only. Wide at the top is worse than wide at the bottom.",
    source: "common practice, no source; factory service manuals, several makers (1984 to 2008): 0.5 thou new, 1.0 to \
             2.0 worn",
    judges: &["bore.taper"],
    needs: &[USE],
    texts: &[Text {
        high: Remedy::say(
            "Short-stroke the tight end of {place} until it is straight, then let the stones run out at both ends.",
        ),
        ..Text::new("over the height")
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
