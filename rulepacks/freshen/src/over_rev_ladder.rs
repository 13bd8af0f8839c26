//! What an over-rev asks for before the next pass.
//!
//! An over-rev is an event and not wear: four tenths of a second past the limiter are less than one pass of fatigue,
//! but one load that opens a rod joint, or one valve that leaves its cam, is enough.

use crate::facts::TOP_SPEED;
use thou_sdk::OVER_REV_RUNGS;
use thou_sdk::prelude::*;

/// What is said up to each rung.
const UP_TO: [TextNumber; 3] = [text::UNDER_3, text::FROM_3_TO_5, text::FROM_5_TO_8];

const FROM: Arg = Arg::of("from", "angular-speed");
const TO: Arg = Arg::of("to", "angular-speed");

texts![
    UNDER_3 = Text { args: &[FROM, TO], ..Text::new("{arg:from} to {arg:to}, up to 3 % over: write it in the log.") },
    FROM_3_TO_5 = Text {
        args: &[FROM, TO],
        ..Text::new(
            "{arg:from} to {arg:to}, 3 to 5 % over: lash of every valve, spring loads on the head, plugs; \
                leak-down that evening.",
        )
    },
    FROM_5_TO_8 = Text {
        args: &[FROM, TO],
        ..Text::new(
            "{arg:from} to {arg:to}, 5 to 8 % over, or past the speed at which the valves float: that, and the \
                crowns through the plug holes for valve marks, pushrods rolled, filter cut; rod bolts count to half of \
                their nominal figure.",
        )
    },
    OVER_8 = Text {
        args: &[FROM],
        ..Text::new(
            "Over {arg:from}, more than 8 % over, or past the speed at which the rod bolts let the joint open: it \
                does not run. Bolts and springs replaced, rods and housings measured, crank crack-tested.",
        )
    },
    MISSED_GEAR = Text::new(
        "Whatever the speed was, as for 5 to 8 %: a missed gear, a driveline that broke under power, or more than \
            2 s on the limiter.",
    ),
    OTHER_EVENTS = Text::new(
        "Events too, and no count covers them: oil pressure lost, water over 240 °F or gone, detonation, a lean \
            pass, a nitrous backfire, a cylinder full of liquid, a hard landing, water in the engine. Find out before \
            it runs.",
    ),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "over-rev-ladder",
    title: "After an over-rev",
    operation: "hand-over",
    why: "It is the single load that opens a rod joint, or the one valve that leaves its cam and touches, that breaks \
          the engine, not the fraction of a pass that the counter adds.",
    needs: &[TOP_SPEED],
    texts: TEXTS,
    step: Some(StepInfo { after: &[], until: &[], caution: None }),
    assess,
    ..Rule::STEP
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let top = f.of(TOP_SPEED);
    let mut from = top;
    for (text, over) in UP_TO.into_iter().zip(OVER_REV_RUNGS) {
        let to = top * (1.0 + over);
        a.step(None, text, &[from, to]);
        from = to;
    }
    a.step(None, text::OVER_8, &[from]);
    a.step(None, text::MISSED_GEAR, &[]);
    a.step(None, text::OTHER_EVENTS, &[]);
    Answered
}
