//! Static compression under a turbo or a blower, where anybody agrees at all.

use crate::common::{PRESSED, small_and_many_valved};
use crate::facts::{ADDER, ADDER_COOLED, BOOST, BORE, FUEL, OCTANE, VALVES};
use thou_sdk::prelude::*;

reasons![
    NOT_BOOSTED = "nothing presses the charge in",
    NO_AGREEMENT =
        "practice agrees on pump petrol and on no other fuel: compression-for-fuel has the bound, and ask who tunes it",
];

texts![
    MILD = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or a dish; or race petrol or ethanol. As it is, it suits a naturally aspirated engine.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new("pump petrol, a cooled charge and mild boost; the aim is the careful school's")
    },
    PAST_MILD = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or a dish; or race petrol or ethanol. Past mild and cooled the tuner asks for less still.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new(
            "pump petrol under more than mild boost of a cooled charge on 91, or nobody says how much: no more than that \
             stands",
        )
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "boosted-compression",
    title: "Compression under boost",
    operation: "mock-up",
    why: "Boost multiplies what compression does to the last of the charge.",
    source: "common practice, no source, and it differs widely: the mild case is the bound of all others; half of what bore \
             and valves are given without boost, and half a ratio less for each 5 psi past 10",
    judges: &["compression.max"],
    needs: &[FUEL],
    takes: &[ADDER, BOOST, ADDER_COOLED, OCTANE, BORE, VALVES],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, PRESSED) {
        return NotApplicable(reason::NOT_BOOSTED);
    }
    if !f.is(FUEL, &["petrol-pump"]) {
        return NotApplicable(reason::NO_AGREEMENT);
    }
    let mild = f.get(BOOST).is_some_and(|boost| boost <= psi(10.0))
        && f.get(OCTANE).is_some_and(|octane| octane >= 91.0)
        && f.flag(ADDER_COOLED) == Some(true);
    let more = small_and_many_valved(f) / 2.0;
    // half a ratio for each 5 psi past the mild case
    let pressed = f.get(BOOST).map_or(0.0, |boost| ((boost - psi(10.0)) / psi(10.0)).max(0.0));
    let more = more - pressed;
    a.window(Window::at_most(9.5 + more).aim(8.5 + more).text(if mild { text::MILD } else { text::PAST_MILD }));
    Answered
}
