//! A mark that nobody checked.

use crate::facts::{ADVANCE_VERIFIED, MARK_VERIFIED};
use thou_sdk::prelude::*;

texts![
    MARK = Text {
        low: Remedy::say(
            "Find true top dead centre with a stop and correct the mark or the pointer, before it is timed."
        ),
        points_at: &["timing-mark.verified"],
        ..Text::new("the timing mark was not checked at true top dead centre")
    },
    LIGHT = Text {
        low: Remedy::say("Put a light on it at the speed where it is all in."),
        points_at: &["ignition.verified"],
        ..Text::new("the advance was not checked with a light at the crank")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "timing-mark",
    title: "Timing mark and light",
    operation: "hand-over",
    why: "A slipped ring or a pointer of another engine moves the spark by more than any curve: what the box shows is not what \
          the crank gets.",
    source: "common practice, no source",
    takes: &[MARK_VERIFIED, ADVANCE_VERIFIED],
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let mut outcome = Clear;
    for (flag, text) in [(MARK_VERIFIED, text::MARK), (ADVANCE_VERIFIED, text::LIGHT)] {
        if f.flag(flag) == Some(false) {
            a.finding(Warn, text, &[]);
            outcome = Answered;
        }
    }
    outcome
}
