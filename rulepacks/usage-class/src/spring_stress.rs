//! What the wire bears at full lift.

use crate::facts::SPRING_STRESS_LIMIT;
use crate::spring_surge::uneven;
use thou_sdk::prelude::*;

const LIGHTER: Option<Remedy> = Remedy::say(
    "A spring of thicker wire or of more coils for {place}, or less lift. The outer spring is taken to bear its share by \
     rate.",
);

judges![SHARE = "spring.stress.share", STRESS = "spring.stress.open"];

reasons![UNEVEN = "a beehive, a conical and an air spring have no one coil diameter: ask their maker"];

texts![
    OF_STRENGTH = Text { high: LIGHTER, ..Text::new("shear stress at full lift, over the wire's tensile strength") },
    MAKER = Text { high: LIGHTER, ..Text::card("the wire's greatest stress", "spring card") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-stress",
    title: "Stress in the spring wire",
    operation: "heads",
    why: "Wire that is wound near its strength takes a set, then breaks.",
    basis: Published,
    source: "Shigley's Mechanical Engineering Design, table 10-6, from memory: 65 to 75 % of the wire's tensile strength for springs whose set was taken out, \
             loaded at rest; peening and cycles are not counted, the strength is a table's",
    judges: JUDGES,
    takes: &[crate::facts::SPRING_STYLE, SPRING_STRESS_LIMIT],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if uneven(f) {
        return NotApplicable(reason::UNEVEN);
    }
    match f.get(SPRING_STRESS_LIMIT) {
        Some(limit) => a.window(Window::at_most(limit).judging(judged::STRESS).text(text::MAKER)),
        None => a.window(Window::at_most(0.75).aim(0.65).judging(judged::SHARE).text(text::OF_STRENGTH)),
    }
    Answered
}
