//! Whether the spring holds the valve on its cam up to the limiter.

use thou_sdk::prelude::*;

const WEAK: Option<Remedy> = Remedy::solve(
    "{place} leaves the cam at {fact:valve.float-speed}: a spring with {solve} on the seat, a lighter valve, retainer or \
     lifter, or a lower limiter. A rigid train with the masses as stated; a soft one floats sooner.",
    "spring.seat-load",
    "up",
);

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-float",
    title: "Valve float against the limiter",
    operation: "heads",
    why: "Past the speed where spring and inertia are equal the valve flies: it lands on its seat at any speed, and on \
          the piston if there is one.",
    source: "common practice, no source: a fifth to a half more spring than the valve's inertia asks for; without a \
             lobe's table the curve is made from lift and duration and its nose can be a fifth off",
    judges: &["valve.float-margin"],
    texts: &[Text { low: WEAK, ..Text::new("spring over inertia at the highest speed, in any use") }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(1.2).aim(1.35));
    Answered
}
