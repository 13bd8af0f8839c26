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
