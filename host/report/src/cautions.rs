//! What hurts people beside an engine, said where the hand that needs it is. Common practice, no source.

use super::bench::{Bench, wrap};
use std::collections::BTreeSet;
use thou_contract::OPERATIONS;

/// Where springs are handled.
const SPRINGS: &str = "A spring under load flies. Glasses on, the valve held by air or by the piston at top, \
                       the retainer seated before you let go, and never your face over it.";

/// Before an engine turns.
const CRANKING: &str = "Before it is cranked by hand, by air or by the starter: no bar left on the nut, out \
                        of gear, hands clear, ignition and fuel off.";

/// Before an engine fires.
const FIRST_FIRE: &str = "At the first fire and on the dyno nobody stands in the plane of the damper or the \
                          flywheel; guards on, fuel shut-off within reach, exhaust led outside and a carbon monoxide alarm, extinguisher, ears covered. No \
                          oil pressure: shut it off, do not rev it to see.";

/// Around a car that has just run.
const HOT: &str = "Headers, oil and water take the skin off: let it cool, gloves on, and the cap comes off cold.";

/// Around open fuel.
const FUEL: &str = "Fuel lines open: battery off, no spark, no flame, nothing hot under them, an extinguisher in \
                    reach.";

/// What is past its life.
const LET_GO: &str = "A rod, a bolt, a piston, a valve or a spring past the most that it is good for goes through the block or \
                      the hood with people beside it: it does not start again, not even to load it.";

/// Of every alcohol.
const ALCOHOL: &str = "Alcohol burns without a flame that you can see: air, water at hand, an extinguisher for alcohol. After \
                       flooding: plugs out, and turn it by hand. Flush the fuel system at the end of the day.";

/// Of methanol alone.
const METHANOL: &str = "Methanol goes in through skin and lungs and blinds: gloves, glasses, fresh air.";

/// Of gasoline alone.
const GASOLINE: &str =
    "Gasoline vapor creeps along the floor and lights at a distance: no water on the fire, foam or powder.";

/// Of a car on public roads.
const STREET: &str = "On public roads emissions, noise and inspection are the law's: see that this combination may be driven \
                      there before it is handed over.";

/// Where the block is lifted, cut and washed.
const BLOCK: &str = "Lift with a rated sling and stand beside, never under. No gloves or loose sleeves at a spindle that turns, \
                     glasses on. Hot tank and lye: face shield, long gloves, and no aluminum or magnesium in lye. Magnesium \
                     chips burn: keep them dry, class D extinguisher, never water.";

/// Where the crank is ground and spun.
const CRANK: &str = "Guards on before it spins, nobody in line with the crank or the wheel; ring the wheel before it is \
                     mounted. A crank takes two people or a hoist.";

/// Where pins and bushes are pressed.
const PRESS: &str = "At the press: part square and on a full support, guard between it and you, glasses on. Heated small ends \
                     and pins burn through gloves.";

const NITROUS: &str = "Start from a safe tune; nothing here has seen the plugs. Bottle out of the sun and \
                       never over an open flame, its relief vented outside; closed before anybody works on the car.";

/// The cautions of an operation of the job, as the sheet's engine has them.
pub(super) fn of_operation(bench: &Bench<'_>, operation: &str, out: &mut String) {
    let list: Vec<&str> = match operation {
        "block" => vec![BLOCK],
        "crank" => vec![CRANK],
        "rods-and-pistons" => vec![PRESS],
        "heads" => vec![SPRINGS],
        "hand-over" => hand_over(bench),
        _ => Vec::new(),
    };
    for caution in list {
        out.push_str(&wrap(&format!("Caution: {caution}"), "  ", "    "));
    }
}

/// The cautions of the operations that a check sends somebody back to, each once.
pub(super) fn of_work(bench: &Bench<'_>, operations: &BTreeSet<&str>, out: &mut String) {
    if operations.is_empty() {
        return;
    }
    out.push('\n');
    for operation in OPERATIONS.iter().filter(|o| operations.contains(*o)) {
        of_operation(bench, operation, out);
    }
}

/// The cautions of its fuel and of what is added to it.
fn of_fuel(bench: &Bench<'_>) -> Vec<&'static str> {
    let fuel = bench.facts.choice("fuel");
    let mut list = Vec::new();
    match fuel {
        Some("methanol") => list.extend([ALCOHOL, METHANOL]),
        Some("ethanol" | "e85") => list.push(ALCOHOL),
        Some(word) if word.starts_with("petrol") => list.push(GASOLINE),
        _ => {}
    }
    if bench.facts.choice("adder").is_some_and(|a| a.contains("nitrous")) {
        list.push(NITROUS);
    }
    list
}

/// The cautions of starting it and of the day's end.
pub(super) fn hand_over(bench: &Bench<'_>) -> Vec<&'static str> {
    let mut list = vec![CRANKING, FIRST_FIRE];
    list.extend(of_fuel(bench));
    if bench.facts.choice("use") == Some("street") {
        list.push(STREET);
    }
    list
}

/// The cautions of work on a car between two events.
pub(super) fn at_the_track(bench: &Bench<'_>) -> Vec<&'static str> {
    let mut list = vec![CRANKING, HOT, FUEL, LET_GO];
    list.extend(of_fuel(bench));
    list
}
