//! No damper.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{CYLINDERS, DAMPER, SANCTIONED, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, SINGLE = "a single's crank is short and stiff, and seldom carries one"];

texts![
    NONE = Text {
        low: Remedy::say("Fit one, and keep its certificate with the sheet. No use of ours goes without."),
        points_at: &["damper.kind"],
        ..Text::new("no damper")
    },
    PLAIN_ELASTOMER = Text {
        low: Remedy::say(
            "Read what your body asks of a damper, this year's book, and keep its certificate with the sheet.",
        ),
        points_at: &["damper.kind", "sanctioned"],
        ..Text::new("a plain elastomer ring in an all-out engine that is looked at")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper",
    title: "Damper",
    operation: "assembly",
    why: "A crank rings like a bar that is struck; undamped it loosens bolts, eats timing gears and cracks behind the \
          front throw. A sanctioning body may ask for a certificate: read this year's book of your own.",
    source: "common practice, no source, and nobody disagrees",
    needs: &[USE, DAMPER, CYLINDERS],
    takes: &[SANCTIONED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    match f.choice(DAMPER) {
        Some("none") if f.of(CYLINDERS) < 1.5 => return NotApplicable(reason::SINGLE),
        Some("none") => a.finding(Warn, text::NONE, &[]),
        Some("elastomer") if usage == Usage::AllOut && f.flag(SANCTIONED) == Some(true) => {
            a.finding(Note, text::PLAIN_ELASTOMER, &[])
        }
        _ => return Clear,
    }
    Answered
}
