//! How much ethanol is in what it burns.

use crate::facts::FUEL;
use thou_sdk::prelude::*;

reasons![METHANOL = "methanol has nothing to do with it"];

const LOOK: Option<Remedy> = Remedy::say(
    "Test a sample in a tube with water, and jet and time it for what it is; or correct intent.fuel or fuel.ethanol.",
);

texts![
    PETROL = Text { high: LOOK, ..Text::new("in petrol: what the pump may sell under that name") },
    E85 = Text { low: LOOK, high: LOOK, ..Text::new("in E85: what the pump sells, winter to summer") },
    ETHANOL = Text { low: LOOK, ..Text::new("in ethanol: what is not ethanol is denaturant or water") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ethanol-content",
    title: "Ethanol in the fuel",
    operation: "combination",
    why: "Jets, injectors, timing and octane all go by it: an engine set up for E85 floods and knocks \
          on petrol, and one for petrol is lean on E85.",
    source: "ASTM D5798 has 51 to 83 % in E85, petrol up to 15 % at the pump, from memory; the edges around them are common \
             practice, no source",
    hold_source: Some("common practice, no source: it is another fuel"),
    judges: &["fuel.ethanol"],
    needs: &[FUEL],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(match f.choice(FUEL) {
        Some("petrol-pump" | "petrol-race") => {
            Window::at_most(percent(15.0)).never_above(percent(40.0)).text(text::PETROL)
        }
        Some("e85") => Window::between(percent(50.0), percent(85.0)).never_below(percent(30.0)).text(text::E85),
        Some("ethanol") => Window::at_least(percent(85.0)).never_below(percent(60.0)).text(text::ETHANOL),
        _ => return NotApplicable(reason::METHANOL),
    });
    Answered
}
