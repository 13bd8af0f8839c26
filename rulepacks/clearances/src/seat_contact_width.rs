//! Width of the valve's contact on its seat.

use crate::common::{by_use, valves, work};
use crate::facts::{INLET, INLET_HEAD, IS_INLET, USE};
use thou_sdk::prelude::*;

const WIDEN: Option<Remedy> = Remedy::say("Cut the seat of {place} wider; blue it and look where it lands.");
const NARROW: Option<Remedy> =
    Remedy::say("Narrow the seat of {place} from above or below; blue it and look where it lands.");

texts![
    INLET = Text { low: WIDEN, high: NARROW, ..Text::new("inlet contact, for this use and valve") },
    EXHAUST = Text { low: WIDEN, high: NARROW, ..Text::new("exhaust contact, for this use") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "seat-contact-width",
    title: "Seat contact width",
    operation: "heads",
    why: "The valve cools through its seat: too narrow and it burns and sinks, too wide and it does not crush the \
          soot that holds it open. This is the contact, not the width of the cut.",
    source: "common practice, no source; factory service manuals: 35 to 87 thou, small heads 35 to 43 of \
             either valve, worn to 63",
    judges: &["seat.contact-width"],
    needs: &[USE, IS_INLET],
    takes: &[INLET, INLET_HEAD],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let small = f.get(INLET_HEAD).is_some_and(|head| head < mm(32.0));
    let titanium = f.is(INLET, &["titanium"]);
    // A bracket engine has either's seats: its range spans both. Titanium wants the street's width, whatever the use.
    let inlet = match (titanium, small) {
        (true, _) => (40.0, 60.0),
        (_, true) => (35.0, 60.0),
        _ => by_use(f, (40.0, 60.0), (30.0, 60.0), (30.0, 50.0)),
    };
    let exhaust = if small { (35.0, 60.0) } else { by_use(f, (45.0, 80.0), (45.0, 80.0), (45.0, 70.0)) };
    for (place, is_inlet) in valves(f) {
        let ((low, high), never, text) = if is_inlet {
            (inlet, if titanium { 35.0 } else { 20.0 }, text::INLET)
        } else {
            (exhaust, 30.0, text::EXHAUST)
        };
        a.window(work(thou(low), thou(high)).never_below(thou(never)).at(place).text(text));
    }
    Answered
}
