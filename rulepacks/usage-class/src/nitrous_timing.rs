//! Nitrous with the timing left where it was.

use crate::common::as_eight;
use crate::facts::{ADDER, ADDER_POWER, CYLINDERS, TIMING_PULLED};
use thou_sdk::prelude::*;

reasons![NO_NITROUS = "no nitrous", NO_SHOT = "write intent.adder-power: how much is it jetted for?"];

texts![
    NOTHING_PULLED = Text {
        low: Remedy::say(
            "Pull what the nitrous system's maker says, start safe, read the plugs. This tool has not seen them.",
        ),
        points_at: &["nitrous.timing-pulled", "adder.power"],
        ..Text::new("ignition.nitrous-retard says that nothing is pulled")
    },
    NOT_STATED = Text {
        low: Remedy::say("Write in ignition.nitrous-retard what is pulled; until then nothing is."),
        points_at: &["adder.power"],
        ..Text::new("the sheet does not say that any timing is pulled")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-timing",
    title: "Timing pulled for nitrous",
    operation: "hand-over",
    why: "Nitrous burns the charge faster: left where it was, the spark puts the peak on a piston that is still coming \
          up, and that is a melted or broken land in one pass.",
    basis: Maker,
    source: "makers' fitting instructions for nitrous systems, from memory: all of them take timing out; how much is theirs to say",
    needs: &[ADDER, CYLINDERS],
    takes: &[ADDER_POWER, TIMING_PULLED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NO_NITROUS);
    }
    let Some(shot) = f.get(ADDER_POWER) else { return CannotSay(reason::NO_SHOT) };
    let text = match f.get(TIMING_PULLED) {
        Some(pulled) if pulled > 0.0 => return Clear,
        Some(_) => text::NOTHING_PULLED,
        None => text::NOT_STATED,
    };
    let shot = as_eight(shot, f);
    if shot < hp(50.0) {
        return Clear;
    }
    a.finding(if shot >= hp(100.0) { Hold } else { Warn }, text, &[]);
    Answered
}
