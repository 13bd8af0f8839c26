//! What is left of the head's clamp when the tightening came out badly.

use crate::facts::PEAK;
use thou_sdk::prelude::*;

judges![SLACKEST = "head.clamp-ratio.low", TIGHTEST = "head.clamp-ratio.high"];

reasons![NO_PEAK = "the sheet has no peak pressure: head-clamp takes the modelled one"];

texts![
    SLACKEST = Text {
        low: Remedy::say(
            "{fact:head-fastener.clamp} a fastener is a middle figure: tighten by angle or stretch, with the \
                 lubricant that the figure was made with, or clamp harder.",
        ),
        ..Text::new("clamp over lift with every fastener at its slackest")
    },
    TIGHTEST = Text {
        low: Remedy::say(
            "The head lifts even with every fastener at its tightest: bigger or more fasteners, or less pressure.",
        ),
        ..Text::new("clamp over lift with every fastener at its tightest")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "head-clamp-scatter",
    title: "Head clamp at the slack end of its scatter",
    operation: "heads",
    why: "Friction decides how much of a torque becomes clamp. The gasket seals where the slackest fastener is.",
    source: "common practice, no source: half as much again as the lift; the scatter is a gasket maker's, 30 % by torque \
             and 10 % by angle, in a trade article",
    hold_basis: Some(Physics),
    hold_source: Some("pressure on the gasket's sealing ring against the clamp at its best"),
    judges: JUDGES,
    takes: &[PEAK],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(PEAK).is_none() {
        return NotApplicable(reason::NO_PEAK);
    }
    a.window(Window::at_least(1.5).judging(judged::SLACKEST).text(text::SLACKEST));
    a.window(Window { never_below: Some(1.0), ..Window::new().judging(judged::TIGHTEST).text(text::TIGHTEST) });
    Answered
}
