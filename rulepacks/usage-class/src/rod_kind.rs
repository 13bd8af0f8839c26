//! What the rods are made of against the use.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{ROD_MATERIAL, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE];

texts![
    ALUMINIUM_ON_STREET = Text {
        low: Remedy::say(
            "Steel rods: bobweight, piston-to-head and rod bearings follow. These suit a bracket or all-out engine.",
        ),
        points_at: &["use", "rod.material"],
        ..Text::new("aluminium rods on the street")
    },
    TITANIUM = Text {
        low: Remedy::say("See that their sides are coated, at every tear-down."),
        points_at: &["rod.material"],
        ..Text::new("titanium rods gall without a coating on their sides")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-kind",
    title: "Rods for the use",
    operation: "combination",
    why: "An aluminium rod counts every turn it makes, idling ones too, and is cold and tight on every start; a \
          titanium one galls on whatever it rubs.",
    source: "common practice, no source",
    needs: &[USE, ROD_MATERIAL],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    match f.choice(ROD_MATERIAL) {
        Some("aluminium") if usage == Usage::Street => a.finding(Warn, text::ALUMINIUM_ON_STREET, &[]),
        Some("titanium") => a.finding(Note, text::TITANIUM, &[]),
        _ => return Clear,
    }
    Answered
}
