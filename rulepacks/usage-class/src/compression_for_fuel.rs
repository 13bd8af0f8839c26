//! Static compression against what the fuel stands.

use crate::common::{PETROL, PRESSED, along, as_eight};
use crate::facts::{ADDER, ADDER_POWER, CYLINDERS, FUEL, HEAD, OCTANE};
use thou_sdk::prelude::*;

reasons![
    BOOSTED = "a pressed charge is another question: see boosted-compression",
    NO_OCTANE = "write the petrol's number in fuel.octane, 87 or more; without it nobody can say",
];

texts![
    PUMP_PETROL = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or the same out of the dome or the chamber; or race petrol. At this compression \
                 it is a bracket engine on race petrol.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new("on pump petrol of this octane, the heads and the nitrous counted; the aim is the careful school's")
    },
    RACE_PETROL = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or the same out of the dome or the chamber; or a fuel of higher octane. At this \
                 compression it is an all-out engine on methanol.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new("on race petrol of this octane, the heads and the nitrous counted; the aim is the careful school's")
    },
    ETHANOL = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or the same out of the dome or the chamber; or methanol.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new("on ethanol or its blends; what the pump calls E85 varies, so measure it")
    },
    METHANOL = Text {
        low: Remedy::solve(
            "Methanol pays from here up: gasket to {solve}, or a taller dome.",
            "gasket.thickness",
            "down",
        ),
        high: Remedy::solve("Gasket to {solve}, or the same out of the dome or the chamber.", "gasket.thickness", "up"),
        ..Text::new("on methanol")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "compression-for-fuel",
    title: "Compression for the fuel",
    operation: "mock-up",
    why: "Past what the fuel stands, the last of the charge goes off by itself: it hammers the ring lands out of a \
          piston within a pass, and nobody hears it over the exhaust.",
    source: "common practice, no source; one trade article puts iron heads on 91 octane at 10 to 1 with good quench. \
             Compare with an engine of your own that runs well on the same fuel",
    hold_basis: Some(Published),
    hold_source: Some("trade article, for pump petrol: a ratio and a half past the loosest school"),
    judges: &["compression.max"],
    needs: &[FUEL, HEAD, CYLINDERS],
    takes: &[OCTANE, ADDER, ADDER_POWER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Octane against compression with aluminium heads: where the loosest school stops.
pub(crate) const LOOSE: &[(f64, f64)] = &[(87.0, 9.5), (91.0, 10.5), (93.0, 11.0), (110.0, 14.0), (116.0, 15.5)];
/// The same for the careful school.
const CAREFUL: &[(f64, f64)] = &[(87.0, 9.0), (91.0, 10.0), (93.0, 10.5), (110.0, 13.0), (116.0, 14.0)];

/// What iron heads and nitrous take away from it: the loose school's and the careful one's.
pub(crate) fn taken_away(f: &Facts<'_>) -> (f64, f64) {
    let iron = if f.is(HEAD, &["iron"]) { (0.5, 1.0) } else { (0.0, 0.0) };
    let shot = if f.is(ADDER, &["nitrous"]) { as_eight(f.get(ADDER_POWER).unwrap_or(0.0), f) } else { 0.0 };
    (iron.0 + 0.5 * shot / hp(200.0), iron.1 + shot / hp(150.0))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(ADDER, PRESSED) {
        return NotApplicable(reason::BOOSTED);
    }
    let (loose, careful) = taken_away(f);
    if f.is(FUEL, PETROL) {
        let Some(octane) = f.get(OCTANE).filter(|o| *o >= 87.0) else { return CannotSay(reason::NO_OCTANE) };
        let window = Window::at_most(along(LOOSE, octane) - loose).aim(along(CAREFUL, octane) - careful);
        a.window(if f.is(FUEL, &["petrol-pump"]) {
            window.never_above(along(LOOSE, octane) - loose + 1.5).text(text::PUMP_PETROL)
        } else {
            window.text(text::RACE_PETROL)
        });
    } else if f.is(FUEL, &["methanol"]) {
        a.window(Window::between(13.0 - loose, 16.0 - loose).levels(Note, Warn).text(text::METHANOL));
    } else {
        a.window(Window::at_most(13.5 - loose).aim(12.5 - careful).text(text::ETHANOL));
    }
    Answered
}
