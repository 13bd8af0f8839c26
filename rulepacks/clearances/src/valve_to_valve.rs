//! Inlet valve to exhaust valve.

use crate::common::{CONTACT, contact, touches, valves};
use crate::facts::{IS_INLET, STEM_CLEARANCE};
use thou_sdk::prelude::*;

const CLEAR: Option<Remedy> = Remedy::say("Swap in smaller valves, sink the seats of {place}, or spread the lobes.");

texts![
    SHOP = Text { low: CLEAR, ..Text::new("at their closest in the overlap") },
    CONTACT = Text { low: CLEAR, ..contact("contact: both stems tip by their clearance") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-to-valve",
    title: "Valve to valve",
    operation: "mock-up",
    why: "Large valves close together pass each other in the overlap: a little more advance or ratio and they touch.",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: 40 thou; contact: what both stems tip by their clearance"),
    judges: &["valve-to-valve"],
    takes: &[STEM_CLEARANCE, IS_INLET],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(thou(60.0)).never_below(thou(40.0)).text(text::SHOP));
    // below its guide a stem tips by its clearance at the least: the head is as far below it as the guide is long
    let stems: Vec<(u32, f64)> = f.each(STEM_CLEARANCE).collect();
    let loosest = |inlets: bool| {
        let of = valves(f).filter(|(_, inlet)| *inlet == inlets).map(|(place, _)| place);
        let of: Vec<u32> = of.collect();
        stems.iter().filter(|(place, _)| of.contains(place)).map(|(_, c)| *c).fold(0.0, f64::max)
    };
    a.window(touches((loosest(true) + loosest(false)).max(CONTACT)).text(text::CONTACT));
    Answered
}
