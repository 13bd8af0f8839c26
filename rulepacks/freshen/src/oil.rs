//! Engine oil.

use crate::facts::{FUEL, OIL_BASE, USE};
use crate::lives::{Life, Lives, NO_INTERVAL, by_calendar, passes, thousand_miles};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![SCALED = scaled!("Drain it warm", sump idle heat chemistry), BY_COUNT = scaled!("Drain it warm")];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil",
    title: "Change the oil",
    why: "Fuel and water thin the oil from the first start on, heat eats it, and the bearings feel both. A small sump \
          and a rich idle get there sooner.",
    needs: &[USE],
    takes: takes!(sump idle heat chemistry OIL_BASE),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "engine oil",
        action: "replace",
        since: "last-done",
        opens: "nothing",
        resets: &["freshen/oil-filter"],
        hours: 0.7,
        loses: "money",
        triggers: &[
            "milky, or smells of fuel",
            "fuel over 3 %",
            "after coolant in the oil or an engine run hot",
            "methanol: some change it after every event",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { read_afresh: &["oil-fuel"], told_by: &["oil-fuel"], ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(3.0, 4.0, 5.0), by_calendar(9.0, 12.0, 12.0)],
    bracket: &[passes(25.0, 40.0, 60.0)],
    sportsman: &[passes(10.0, 20.0, 30.0)],
    hardest: &[passes(1.0, 3.0, 5.0)],
    terms: &[Term::Sump(slopes::WEAR), Term::Idle(slopes::WEAR), Term::OilHeat, Term::Chemistry(Chemistry::Oil)],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // a synthetic lasts as long as no fuel thins it, which alcohol does
    let synthetic = f.is(OIL_BASE, &["synthetic"]) && !f.is(FUEL, &["e85", "ethanol", "methanol"]);
    let street: &[Life] =
        if synthetic { &[thousand_miles(5.0, 6.0, 7.5), by_calendar(9.0, 12.0, 12.0)] } else { LIVES.street };
    Lives { street, ..LIVES }.give_as(f, a, text::SCALED)
}
