//! Static compression against what the fuel stands.

use crate::common::{PETROL, PRESSED, along, as_eight, small_and_many_valved};
use crate::facts::{ADDER, ADDER_POWER, BORE, CYLINDERS, FUEL, HEAD, OCTANE, VALVES};
use thou_sdk::prelude::*;

texts![
    PUMP_PETROL = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or the same out of the dome or the chamber; or race petrol: at this compression it \
                 is an engine for that.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new(
            "on pump petrol of this octane, bore, valves, heads and nitrous counted; the aim is the careful school's",
        )
    },
    PUMP_PETROL_UNKNOWN = Text {
        high: Remedy::say("Write in fuel.octane what the pump says, or less compression, or race petrol."),
        ..Text::new("on the best pump petrol, of 94, since nobody says which; bore, valves, heads and nitrous counted")
    },
    RACE_PETROL = Text {
        high: Remedy::solve(
            "Gasket to {solve}, or the same out of the dome or the chamber; or a fuel of higher octane. At this \
                 compression it is an all-out engine on methanol.",
            "gasket.thickness",
            "up",
        ),
        ..Text::new(
            "on race petrol of this octane, bore, valves, heads and nitrous counted; the aim is the careful school's",
        )
    },
    RACE_PETROL_UNKNOWN = Text {
        high: Remedy::say("Write in fuel.octane what the drum says, or less compression, or methanol."),
        ..Text::new("on the best race petrol, of 116, since nobody says which; bore, valves, heads and nitrous counted")
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
    source: "common practice, no source; one trade article puts iron heads on 91 octane, (R+M)/2, at 10 to 1 with good \
             quench; half a ratio more for each 10 mm of bore under 100 and one for four valves. Compare with an engine of \
             your own that runs well on the same fuel",
    hold_source: Some(
        "common practice, no source: two ratios past the loosest school on pump petrol and on any of 100 or less, three on race petrol, four on alcohol",
    ),
    judges: &["compression.max"],
    needs: &[FUEL, HEAD, CYLINDERS],
    takes: &[OCTANE, ADDER, ADDER_POWER, BORE, VALVES],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Octane against compression with aluminium heads: where the loosest school stops.
pub(crate) const LOOSE: &[(f64, f64)] = &[(87.0, 9.5), (91.0, 10.5), (93.0, 11.0), (110.0, 14.0), (116.0, 15.5)];
/// The same for the careful school.
const CAREFUL: &[(f64, f64)] = &[(87.0, 9.0), (91.0, 10.0), (93.0, 10.5), (110.0, 13.0), (116.0, 14.0)];

/// How far past the loosest school nobody goes, on pump petrol and on race petrol.
pub(crate) const PAST: [f64; 2] = [2.0, 3.0];
/// More than any pump has.
const PUMPED: f64 = 95.0;
/// The best petrol at the pump and in a drum, for a sheet that does not say which.
const BEST: [f64; 2] = [94.0, 116.0];

/// What iron heads and nitrous take away from it, less what bore and valves add: the loose school's and the careful one's.
pub(crate) fn taken_away(f: &Facts<'_>) -> (f64, f64) {
    let iron = if f.is(HEAD, &["iron"]) { (0.5, 1.0) } else { (0.0, 0.0) };
    let shot = if f.is(ADDER, &["nitrous"]) { as_eight(f.get(ADDER_POWER).unwrap_or(0.0), f) } else { 0.0 };
    let more = small_and_many_valved(f);
    (iron.0 + 0.5 * shot / hp(200.0) - more, iron.1 + shot / hp(150.0) - more)
}

/// What presses the charge in leaves no more room than there is without it.
fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (loose, careful) = taken_away(f);
    let pressed = f.is(ADDER, PRESSED);
    if f.is(FUEL, PETROL) {
        let pump = f.is(FUEL, &["petrol-pump"]);
        let [best, past] = if pump { [BEST[0], PAST[0]] } else { [BEST[1], PAST[1]] };
        // no pump has more than the best, whatever the sheet says of it
        let octane = f.get(OCTANE).map(|octane| if pump { octane.min(PUMPED) } else { octane });
        // what is called race petrol and is none stands as little past its limit as the pump's
        let past = match octane {
            Some(octane) if octane <= 100.0 => PAST[0],
            _ => past,
        };
        let high = along(LOOSE, octane.unwrap_or(best)) - loose;
        let text = match (pump, octane) {
            (true, Some(_)) => text::PUMP_PETROL,
            (true, None) => text::PUMP_PETROL_UNKNOWN,
            (false, Some(_)) => text::RACE_PETROL,
            (false, None) => text::RACE_PETROL_UNKNOWN,
        };
        let window = Window::at_most(high).never_above(high + past).text(text);
        a.window(octane.map_or(window, |octane| window.aim((along(CAREFUL, octane) - careful).min(high))));
    } else if f.is(FUEL, &["methanol"]) {
        let window = if pressed { Window::at_most(16.0 - loose) } else { Window::between(13.0 - loose, 16.0 - loose) };
        a.window(window.never_above(20.0 - loose).levels(Note, Warn).text(text::METHANOL));
    } else {
        a.window(Window::at_most(13.5 - loose).aim(12.5 - careful).never_above(17.5 - loose).text(text::ETHANOL));
    }
    Answered
}
