//! What the fuel does for a pound of it.

use crate::facts::FUEL;
use thou_sdk::prelude::*;

texts![
    PETROL = Text { low: AGAIN, high: AGAIN, ..Text::new("petrol") },
    BLEND = Text { low: AGAIN, high: AGAIN, ..Text::new("ethanol and its blends") },
    METHANOL = Text { low: AGAIN, high: AGAIN, ..Text::new("methanol") },
];

const AGAIN: Option<Remedy> = Remedy::say(
    "Look at fuel.bsfc and intent.fuel again: pump and injectors are sized by it. A figure from the dyno was made on one fuel.",
);

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "consumption",
    title: "Consumption for the fuel",
    operation: "combination",
    why: "Pump, lines, jets and injectors are all held against this one figure: one that belongs to another fuel makes all of them \
          look large enough.",
    source: "common practice, no source: petrol 0.38 to 0.65 lb/hp-h, E85 0.52 to 0.95, methanol 0.80 to 1.70",
    hold_source: Some(
        "common practice, no source: less than 0.30, 0.45 and 0.66 is more than 45 % of the heat in the fuel, and no such engine is there \
         (43.5, 29 and 19.9 MJ/kg, from memory)",
    ),
    judges: &["fuel.bsfc"],
    needs: &[FUEL],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Pounds a horsepower and hour, kg/J.
const fn pounds_a_horsepower_hour(x: f64) -> f64 {
    x * 0.453_592_37 / (745.699_871_582_270_2 * 3_600.0)
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (least, low, high, text) = match f.choice(FUEL) {
        Some("methanol") => (0.66, 0.80, 1.80, text::METHANOL),
        Some("e85" | "ethanol") => (0.45, 0.52, 1.10, text::BLEND),
        _ => (0.30, 0.36, 0.75, text::PETROL),
    };
    let window = Window::between(pounds_a_horsepower_hour(low), pounds_a_horsepower_hour(high));
    a.window(window.never_below(pounds_a_horsepower_hour(least)).text(text));
    Answered
}
