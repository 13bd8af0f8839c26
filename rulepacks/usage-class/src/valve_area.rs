//! Whether the inlet valve opens as much as its throat.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-area",
    title: "Valve opening against its throat",
    operation: "heads",
    why: "While the valve opens less than the throat below it, the seat is what chokes, and more lift brings more air. \
          From there on only a larger throat or a better shape does.",
    basis: Published,
    source: "Heywood, Internal Combustion Engine Fundamentals (1988), eq. 6.7 to 6.9: least of three areas; geometry \
             alone, no discharge",
    judges: &["valve.area.over-port"],
    texts: &[Text {
        low: Remedy::say(
            "At full lift the seat still is the least area: the throat would be open from {fact:valve.lift.port-limits} \
             on. More lift, or a smaller throat that keeps its shape.",
        ),
        ..Text::new("inlet at full lift over its throat")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(1.0).levels(Note, Note));
    Answered
}
