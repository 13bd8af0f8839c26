//! Valves and seats: touched up and proved with vacuum.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-job",
    title: "Touch up the seats",
    why: "A seat that leaks burns, and one that is pounded sinks: the valve stands deeper, lash closes, and power goes \
          with the sealing.",
    needs: &[USE],
    takes: takes!(speed),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Touch the seats, prove each port with vacuum", speed)],
    service: Some(ServiceInfo {
        part: "valves and seats",
        action: "recondition",
        since: "built",
        opens: "heads",
        resets: &["freshen/spring-load", "freshen/lash"],
        hours: 8.0,
        loses: "power",
        triggers: &["leak-down at a valve", "sunk 5 to 10 thou", "lash closing on one valve"],
        caution: Some(
            "Copper-beryllium seats: the dust harms the lungs for good. Cut wet, never blow it off, never grind it \
              dry.",
        ),
        held_in: &[],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["blow-by", "cranking-pressure", "lash", "leak-down", "power"],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["seat", "loose", "drop", "crack"],
        look: "The head off: the seat's bore, the valve, the crown under it and the water side pressed.",
    },
    Reach {
        by: &["bent", "burn", "burnt", "leak", "hammer"],
        look: "Guides and stems of the valves that leaked, spring loads, lash of every valve, plugs and mixture.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(50.0, 75.0, 100.0)],
    hardest: &[passes(15.0, 25.0, 40.0)],
    wears: &[&[Stress::of(Cause::Landing, slopes::VALVE)]],
    ..Lives::EMPTY
};
