//! Static compression under a turbo or a blower, where anybody agrees at all.

use crate::common::PRESSED;
use crate::facts::{ADDER, ADDER_COOLED, BOOST, FUEL, OCTANE};
use thou_sdk::prelude::*;

reasons![
    NOT_BOOSTED = "nothing presses the charge in",
    NO_BOOST_FIGURE = "write intent.boost: without it nobody can say",
    NO_AGREEMENT =
        "practice agrees on pump petrol of 91 and more, cooled, up to 10 psi, and on nothing else: ask who tunes it",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "boosted-compression",
    title: "Compression under boost",
    operation: "mock-up",
    why: "Boost multiplies what compression does to the last of the charge.",
    source: "common practice, no source, and it differs widely: only the mild case is answered at all",
    judges: &["compression.max"],
    needs: &[FUEL],
    takes: &[ADDER, BOOST, ADDER_COOLED, OCTANE],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::solve(
            "Gasket to {solve}, or a dish; or race petrol or ethanol. As it is, it suits a naturally aspirated engine.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new("pump petrol, a cooled charge and mild boost; the aim is the careful school's")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, PRESSED) {
        return NotApplicable(reason::NOT_BOOSTED);
    }
    let Some(boost) = f.get(BOOST) else { return CannotSay(reason::NO_BOOST_FIGURE) };
    let octane = f.get(OCTANE).is_some_and(|o| o >= 91.0);
    if !(f.is(FUEL, &["petrol-pump"]) && octane && f.flag(ADDER_COOLED) == Some(true) && boost <= psi(10.0)) {
        return CannotSay(reason::NO_AGREEMENT);
    }
    a.window(Window::at_most(9.5).aim(8.5));
    Answered
}
