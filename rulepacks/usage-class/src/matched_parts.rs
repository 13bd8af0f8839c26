//! Parts of one set against each other.

use crate::facts::{BIG_END_MASS, CHAMBER, DOME, PISTON_MASS, SMALL_END_MASS, SWEPT};
use thou_sdk::prelude::*;

judges![
    CHAMBER = "chamber.volume.spread",
    DOME = "piston.dome.read.spread",
    PISTON = "piston.mass.spread",
    BIG_END = "rod.big-end.mass.spread",
    SMALL_END = "rod.small-end.mass.spread"
];

reasons![
    NOT_ALL =
        "neither chambers, domes, pistons nor rod ends were read one by one in every hole yet, or they are all alike"
];

texts![
    CHAMBER = Text {
        high: Remedy::say(
            "Pour the odd one again; then sink its valves or touch the others up to it, and judge compression by the smallest."
        ),
        ..Text::new("from the smallest chamber to the largest")
    },
    DOME = Text {
        high: Remedy::say(
            "Pour the odd one again at the same depth; then touch the largest domes down to the smallest, no thinner than their \
             maker lets them be."
        ),
        ..Text::new("from the smallest dome to the largest")
    },
    PISTON = Text {
        high: Remedy::say("Weigh the odd one again; take the heavy ones down under the pin boss to the lightest."),
        ..Text::new("from the lightest piston to the heaviest")
    },
    BIG_END = Text {
        high: Remedy::say("Weigh the odd one again, level and on its hook; take the heavy ones down at the cap's pad."),
        ..Text::new("from the lightest big end to the heaviest")
    },
    SMALL_END = Text {
        high: Remedy::say(
            "Weigh the odd one again, level and on its hook; take the heavy ones down at the top of the eye."
        ),
        ..Text::new("from the lightest small end to the heaviest")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "matched-parts",
    title: "Parts of one set",
    operation: "rods-and-pistons",
    why: "One hole unlike the others knocks first, or pulls the crank round with it; most often it is a slip at the burette or \
          the balance.",
    source: "common practice, no source: chambers and domes within a third of a hundredth of the cylinder, masses within 2 g on a cylinder of \
             50 cubic inches and by the root of its size",
    hold_source: Some("common practice, no source: that is another part, or a slip"),
    judges: JUDGES,
    needs: &[SWEPT],
    takes: &[CHAMBER, DOME, PISTON_MASS, BIG_END_MASS, SMALL_END_MASS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // the same figure in every hole is one that is stated, and says nothing of the others
    let known = |fact| {
        let all = f.all(fact);
        all.iter().all(|value| !value.is_nan()) && all.iter().any(|value| Some(value) != all.first())
    };
    let mut outcome = NotApplicable(reason::NOT_ALL);
    let swept = f.of(SWEPT);
    let mass = grams(2.0) * (swept / cc(819.4)).sqrt();
    for (fact, judged, text, high, never) in [
        (CHAMBER, judged::CHAMBER, text::CHAMBER, swept / 300.0, swept / 60.0),
        (DOME, judged::DOME, text::DOME, swept / 300.0, swept / 60.0),
        (PISTON_MASS, judged::PISTON, text::PISTON, mass, 10.0 * mass),
        (BIG_END_MASS, judged::BIG_END, text::BIG_END, mass, 10.0 * mass),
        (SMALL_END_MASS, judged::SMALL_END, text::SMALL_END, mass, 10.0 * mass),
    ] {
        if known(fact) {
            a.window(Window::at_most(high).never_above(never).judging(judged).text(text));
            outcome = Answered;
        }
    }
    outcome
}
