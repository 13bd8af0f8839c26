//! What hurts people beside an engine, said where the hand that needs it is. Common practice, no source.

use super::bench::{Bench, wrap};

/// Where springs are handled.
const SPRINGS: &str = "A spring under load flies. Glasses on, the valve held by air or by the piston at top, \
                       the retainer seated before you let go, and never your face over it.";

/// Before an engine turns.
const CRANKING: &str = "Before it is cranked by hand, by air or by the starter: no bar left on the nut, out \
                        of gear, hands clear, ignition and fuel off.";

/// Before an engine fires.
const FIRST_FIRE: &str = "At the first fire and on the dyno nobody stands in the plane of the damper or the \
                          flywheel; guards on, fuel shut-off within reach, fresh air, extinguisher, ears covered. No \
                          oil pressure: shut it off, do not rev it to see.";

/// Around a car that has just run.
const HOT: &str = "Headers, oil and water take the skin off: let it cool, gloves on, and the cap comes off cold.";

/// Around open fuel.
const FUEL: &str = "Fuel lines open: battery off, no spark, no flame, nothing hot under them, an extinguisher in \
                    reach.";

/// What is past its life.
const LET_GO: &str = "A rod, a bolt, a piston, a valve or a spring past its high goes through the block or the hood with \
                      people beside it: it does not start again, not even to load it.";

const ALCOHOL: &str = "Alcohol burns without a flame that you can see, and methanol goes in through skin and \
                       lungs: gloves, air, water at hand. After flooding: plugs out, and turn it by hand. Flush the \
                       fuel system at the end of the day.";

const NITROUS: &str = "Start from a safe tune; nothing here has seen the plugs. Bottle out of the sun and \
                       never over an open flame, its relief vented outside.";

/// The cautions of an operation of the job, as the sheet's engine has them.
pub(super) fn of_operation(bench: &Bench<'_>, operation: &str, out: &mut String) {
    let list: Vec<&str> = match operation {
        "heads" => vec![SPRINGS],
        "hand-over" => hand_over(bench),
        _ => Vec::new(),
    };
    for caution in list {
        out.push_str(&wrap(&format!("Caution: {caution}"), "  ", "    "));
    }
}

/// The cautions of starting it and of the day's end.
pub(super) fn hand_over(bench: &Bench<'_>) -> Vec<&'static str> {
    let mut list = vec![CRANKING, FIRST_FIRE];
    if bench.facts.choice("fuel").is_some_and(|f| matches!(f, "methanol" | "ethanol" | "e85")) {
        list.push(ALCOHOL);
    }
    if bench.facts.choice("adder").is_some_and(|a| a.contains("nitrous")) {
        list.push(NITROUS);
    }
    list
}

/// The cautions of work on a car between two events.
pub(super) fn at_the_track(bench: &Bench<'_>) -> Vec<&'static str> {
    let mut list = vec![CRANKING, HOT, FUEL, LET_GO];
    list.extend(hand_over(bench).into_iter().filter(|c| *c == ALCOHOL || *c == NITROUS));
    list
}
