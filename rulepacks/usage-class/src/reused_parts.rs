//! Parts that go in once, and used ones whose life nobody wrote down.

use crate::facts::{BEARING, GASKET, GASKET_STATE, ROD_BOLT_CLAMP, ROD_LIFE, ROD_MATERIAL, ROD_STATE};
use thou_sdk::prelude::*;

texts![
    GASKET_AGAIN = Text {
        low: Remedy::say("A new gasket: only solid copper is annealed and used again."),
        points_at: &["gasket.state"],
        ..Text::new("a head gasket that was clamped before")
    },
    RODS_AGAIN = Text {
        low: Remedy::say(
            "Write in rods.used what they had run, or new rods: aluminium ones are counted, not looked at."
        ),
        points_at: &["rod.state"],
        ..Text::new("used aluminium rods, and the sheet does not say what they had run")
    },
    BOLTED_ROLLERS = Text {
        low: Remedy::say(
            "Look at bearings.kind: a crank in rollers is built up, and its rods are in one piece without bolts."
        ),
        points_at: &["bearing.kind", "rod-bolt.clamp"],
        ..Text::new("rolling bearings, and rods with bolts")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "reused-parts",
    title: "Parts put in again",
    operation: "combination",
    why: "Steel layers and composites take their set once, and aluminium rods have no fatigue limit: neither shows what it has left.",
    source: "common practice, no source",
    takes: &[GASKET_STATE, GASKET, ROD_STATE, ROD_MATERIAL, ROD_LIFE, BEARING, ROD_BOLT_CLAMP],
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let used = &["reused", "reconditioned"];
    let gasket = f.is(GASKET_STATE, used) && !f.is(GASKET, &["copper"]);
    let rods = f.is(ROD_STATE, used) && f.is(ROD_MATERIAL, &["aluminium"]) && f.flag(ROD_LIFE).is_none();
    let rollers = f.is(BEARING, &["roller"]) && f.get(ROD_BOLT_CLAMP).is_some();
    let mut outcome = Clear;
    for (wrong, text) in [(gasket, text::GASKET_AGAIN), (rods, text::RODS_AGAIN), (rollers, text::BOLTED_ROLLERS)] {
        if wrong {
            a.finding(Warn, text, &[]);
            outcome = Answered;
        }
    }
    outcome
}
