//! Whether the spring holds the valve on its cam up to the limiter.

use crate::facts::LOBE_TABLES;
use thou_sdk::prelude::*;

const WEAK: Option<Remedy> = Remedy::solve(
    "{place} leaves the cam at {fact:valve.float-speed}: a spring with {solve} on the seat, a lighter valve, retainer or \
     lifter, or a lower limiter. A rigid train with the masses as stated; a soft one floats sooner.",
    "spring.seat-load",
    "up",
);

texts![
    MADE = Text {
        low: WEAK,
        ..Text::new("spring over inertia at the highest speed, in any use; the curve made from lift and duration")
    },
    TABLE = Text {
        low: WEAK,
        hold_basis: Some(Physics),
        ..Text::new("spring over inertia at the highest speed, in any use; by the lobes' own tables")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-float",
    title: "Valve float against the limiter",
    operation: "heads",
    why: "Past the speed where spring and inertia are equal the valve flies: it lands on its seat at any speed, and on \
          the piston if there is one.",
    source: "common practice, no source: a fifth to a half more spring than the valve's inertia asks for; without a \
             lobe's table the curve is made from lift and duration and its nose can be a fifth off",
    hold_source: Some("common practice, no source: past what the curve that is made can be off by, nobody runs it"),
    judges: &["valve.float-margin"],
    takes: &[LOBE_TABLES],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let window = Window::at_least(1.2).aim(1.35);
    a.window(if f.get(LOBE_TABLES).is_some_and(|tables| tables > 1.5) {
        window.never_below(1.0).text(text::TABLE)
    } else {
        window.never_below(0.7).text(text::MADE)
    });
    Answered
}
