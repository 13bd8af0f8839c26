//! No damper.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{BORE, CYLINDERS, DAMPER, LAYOUT, SANCTIONED, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, SINGLE = "a single's crank is short and stiff, and seldom carries one"];

texts![
    NONE = Text {
        low: Remedy::say("Fit one, and keep its certificate with the sheet. No use of ours goes without."),
        points_at: &["damper.kind"],
        ..Text::new("no damper")
    },
    NONE_SHORT = Text {
        low: Remedy::say("Most short cranks run without one; fit one if its maker sells it with one."),
        points_at: &["damper.kind"],
        ..Text::new("no damper on a short crank")
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
    source: "common practice, no source",
    needs: &[USE, DAMPER, CYLINDERS],
    takes: &[SANCTIONED, LAYOUT, BORE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    match f.choice(DAMPER) {
        Some("none") if f.of(CYLINDERS) < 1.5 => return NotApplicable(reason::SINGLE),
        Some("none") if short(f) => a.finding(Note, text::NONE_SHORT, &[]),
        Some("none") => a.finding(Warn, text::NONE, &[]),
        Some("elastomer") if usage == Usage::AllOut && f.flag(SANCTIONED) == Some(true) => {
            a.finding(Note, text::PLAIN_ELASTOMER, &[])
        }
        _ => return Clear,
    }
    Answered
}

/// Up to four cylinders on a crank under some 450 mm: bores side by side with a third of one between them; two banks share
/// their throws.
fn short(f: &Facts<'_>) -> bool {
    let beside = if f.is(LAYOUT, &["v", "flat"]) { f.of(CYLINDERS) / 2.0 } else { f.of(CYLINDERS) };
    f.of(CYLINDERS) < 4.5 && f.get(BORE).is_some_and(|bore| beside * bore * 4.0 / 3.0 < mm(450.0))
}
