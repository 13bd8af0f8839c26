//! The valve's edge in its pocket.

use crate::common::{CONTACT, by_use, contact, greatest, touches};
use crate::facts::{INLET_HEAD, STEM_CLEARANCE, USE, WALL_MAX};
use thou_sdk::prelude::*;

const CLEAR: Option<Remedy> =
    Remedy::say("Cut the pocket of {place} wider, with a cutter of the valve's diameter and twice this on it.");

texts![
    SHOP = Text { low: CLEAR, ..Text::new("between the valve's edge and the pocket's wall") },
    CONTACT = Text { low: CLEAR, ..contact("contact: the piston moves over and the stem tips") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-radial",
    title: "Valve in its pocket, sideways",
    operation: "mock-up",
    why: "A valve clears the floor of its pocket and still catches its wall: the piston rocks and the stem tips.",
    source: "trade articles: 50 thou to the side; common practice all out",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 30 thou, small heads 20; contact: what the piston moves sideways, half its clearance, and the stem by its own",
    ),
    judges: &["valve.radial-clearance"],
    needs: &[USE],
    takes: &[INLET_HEAD, WALL_MAX, STEM_CLEARANCE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let small = f.get(INLET_HEAD).is_some_and(|head| head < mm(30.0));
    let never = if small { thou(20.0) } else { thou(30.0) };
    a.window(Window::at_least(by_use(f, thou(50.0), thou(50.0), thou(40.0))).never_below(never).text(text::SHOP));
    let over = f.get(WALL_MAX).unwrap_or(0.0).max(0.0) / 2.0;
    // below its guide a stem tips by its clearance at the least: the head is as far below it as the guide is long
    let tips = greatest(f, STEM_CLEARANCE).unwrap_or(0.0).max(0.0);
    a.window(touches((over + tips).max(CONTACT)).text(text::CONTACT));
    Answered
}
