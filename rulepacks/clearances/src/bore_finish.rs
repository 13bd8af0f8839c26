//! The finish of the bore by its material-ratio curve.

use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bore-finish",
    title: "Bore finish",
    operation: "block",
    why: "Peaks wear the rings while they bed in, valleys hold the oil that they live on. A finish for fifteen passes \
          seals at once and is gone in forty; a plateau lasts seasons.",
    source: "trade articles, weak, and a ring maker's dyno test; the parameters are those of ISO 21920-2:2021",
    judges: &["bore.rpk", "bore.rk", "bore.rvk"],
    needs: &[USE],
    texts: &[
        Text {
            high: Remedy::say("Take the peaks of {place} down: a few light strokes with a finer stone or a brush."),
            ..Text::new("peaks (Rpk)")
        },
        Text {
            low: Remedy::say("Hone {place} again with a coarser stone before the plateau."),
            high: Remedy::say("Hone {place} again with a finer stone; count what it opens."),
            ..Text::new("core (Rk)")
        },
        Text {
            low: Remedy::say("Too little oil stays in {place}: hone with a coarser stone, then plateau."),
            high: Remedy::say("Hone {place} with a finer stone; deep valleys burn oil."),
            ..Text::new("valleys (Rvk)")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // A bracket engine is built for either: its range spans the plateau and the short-run finish.
    let (rpk, rk, rvk) = match f.choice(USE) {
        Some("street") => (15.0, (25.0, 45.0), (40.0, 80.0)),
        Some("bracket") => (15.0, (15.0, 45.0), (25.0, 80.0)),
        _ => (8.0, (15.0, 30.0), (25.0, 45.0)),
    };
    let of = |(low, high): (f64, f64)| Window::between(microinches(low), microinches(high)).levels(Note, Note);
    a.window(Window::at_most(microinches(rpk)).levels(Note, Note));
    a.window(of(rk).judging(1).text(1));
    a.window(of(rvk).judging(2).text(2));
    Answered
}
