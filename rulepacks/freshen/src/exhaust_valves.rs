//! Exhaust valves.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_thousand_miles, passes};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    RACED = scaled!("Change the set", pressure speed chemistry),
    STREET = scaled!("Measure stems and margins, and change by what they show", pressure speed chemistry),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "exhaust-valves",
    title: "Replace the exhaust valves",
    why: "The hottest part that moves: it stretches under the head, the head cups, and one day it comes off.",
    needs: &[USE],
    takes: takes!(pressure speed chemistry),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "exhaust valves",
        action: "replace",
        since: "built",
        opens: "heads",
        resets: &["freshen/valve-job", "freshen/lash"],
        hours: 2.0,
        loses: "engine",
        triggers: &[
            "3 to 5 thou longer than new under the head",
            "stem necked, margin gone, a crack at the face",
            "a lean pass, or exhaust 150 °F over its usual",
        ],
        caution: None,
        held_in: &["valves"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give_as(f, a, if f.is(USE, &["street"]) { text::STREET } else { text::RACED }),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "drop", "head", "piece"],
        look: "The head off: piston, bore, chamber and seat of that cylinder, its rod for bend, the turbo or header and every other cylinder for pieces, filter cut; spring, retainer and locks of that valve.",
    },
    Reach {
        by: &["bent", "bend", "touch", "hit", "mark", "kiss"],
        look: "Every valve's leak-down and lash, the crowns for marks, pushrods rolled, guides of that cylinder; piston to valve and cam timing read again before new ones go in.",
    },
    Reach {
        by: &["burn", "burnt", "tulip", "lean"],
        look: "Its seat and guide, every other exhaust valve, plugs and mixture of that cylinder, its lash: why it ran hot, before a new one does.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(300.0, 450.0, 600.0)],
    sportsman: &[passes(75.0, 120.0, 200.0)],
    hardest: &[passes(30.0, 40.0, 60.0)],
    wears: &[&[Stress::of(Cause::Pressure, slopes::VALVE), Stress::of(Cause::Landing, slopes::VALVE)]],
    terms: &[Term::Chemistry(Chemistry::ExhaustValves)],
    ..Lives::EMPTY
};
