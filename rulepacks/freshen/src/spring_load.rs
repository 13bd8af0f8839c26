//! Spring load, measured on the head.

use crate::facts::USE;
use crate::lives::{EACH_EVENT, EACH_PASS, Lives, NO_INTERVAL, about_thousand_miles, passes};
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    SCALED = scaled!("Load at the installed height, every spring, against its own figure after run-in", stress heat),
    BY_COUNT = scaled!("Load at the installed height, every spring, against its own figure after run-in"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-load",
    title: "Measure the spring loads",
    why: "A spring goes soft before it breaks, and a soft one lets the valve leave the cam. The loss counts from the \
          load after run-in: a new spring loses 3 to 8 % in its first heats.",
    source: "common practice, no source; checked every pass in the hardest class by a sanctioning body's technical \
             column (2019), every weekend in a bracket racer's column (2002)",
    needs: &[USE],
    takes: takes!(stress heat),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "valve springs",
        action: "measure",
        since: "last-done",
        opens: "valve-covers",
        resets: &[],
        hours: 1.5,
        loses: "engine",
        triggers: &[
            "5 % under the load after run-in: watch it",
            "10 % under: change it",
            "one spring 8 % under its mates",
            "3 to 5 % over the limiter, or more",
        ],
        caution: Some(
            "A spring on its retainer stores enough to take an eye: glasses on, the valve held by air or by the \
              piston at top, the retainer seated before you let go, and your face never over it.",
        ),
        held_in: &["springs"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { done_by: &["seat-load"], ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give_as(f, a, text::SCALED),
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(10.0)],
    bracket: &[passes(10.0, 20.0, 40.0)],
    sportsman: &[EACH_EVENT],
    hardest: &[EACH_PASS],
    wears: &[&[Stress::of(Cause::Spring, slopes::RELAXATION)]],
    wire: true,
    terms: &[Term::SpringHeat],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};
