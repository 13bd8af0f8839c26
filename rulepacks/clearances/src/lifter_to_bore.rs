//! Lifters in their bores.

use crate::common::{TOUCH, contact, touches};
use crate::facts::{BLOCK, LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![NO_LIFTER_BORES = "no lifters in bores of the block"];

const HONE: Option<Remedy> = Remedy::solve("Hone the lifter bore of {place} to {solve}.", "lifter-bore", "up");

texts![
    SHOP = Text {
        low: HONE,
        high: Remedy::say("Swap lifters about, fit an oversize one, or sleeve the bore of {place}."),
        ..Text::new("on diameter")
    },
    CONTACT = Text { low: HONE, ..contact("contact: the lifter sticks in its bore") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lifter-to-bore",
    title: "Lifter to bore",
    operation: "block",
    why: "A tight lifter sticks and the valve meets the piston; a loose one tips on its lobe and bleeds the oil that \
          the mains wanted.",
    source: "common practice, no source; a trade article says about 1.5 thou for rollers; service manual of a pushrod \
             twin: 0.5 to 2.2",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: under 0.3 thou, over 4; contact: the lifter sticks"),
    judges: &["lifter-to-bore"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER, BLOCK],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(LIFTER, &["none"]) || f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::NO_LIFTER_BORES);
    }
    let aluminium = f.choice(BLOCK).is_some_and(|b| b.starts_with("aluminium"));
    let (low, aim, high) = if aluminium { (1.2, 1.6, 2.0) } else { (1.0, 1.5, 1.8) };
    let new = Window::between(thou(low), thou(high)).aim(thou(aim)).never_below(thou(0.3)).never_above(thou(4.0));
    a.window(new.text(text::SHOP));
    a.window(Window { high: Some(thou(2.5)), aim: None, ..new }.text(text::SHOP).reuse());
    a.window(touches(TOUCH).text(text::CONTACT));
    a.window(touches(TOUCH).text(text::CONTACT).reuse());
    Answered
}
