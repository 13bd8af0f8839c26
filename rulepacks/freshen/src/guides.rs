//! Valve guides and seals.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_passes, about_thousand_miles};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "guides",
    title: "Measure the guides, change the seals",
    why: "A loose guide lets the valve land off its seat, and oil past the seal takes the octane down.",
    needs: &[USE],
    takes: takes!(chemistry),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Gauge every guide, change every seal", chemistry)],
    service: Some(ServiceInfo {
        part: "guides and seals",
        action: "recondition",
        since: "built",
        opens: "heads",
        resets: &[],
        hours: 4.0,
        loses: "power",
        triggers: &["clearance 1 thou over what it was built to", "oil on the plugs or in the ports"],
        caution: None,
        held_in: &[],
        duty: Duty::Turns,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Stem and seat of each valve in them, its seal and the plug of that cylinder for oil, bore and rings of that cylinder for what came through.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[about_passes(300.0)],
    sportsman: &[about_passes(100.0)],
    hardest: &[about_passes(50.0)],
    terms: &[Term::Chemistry(Chemistry::Guides)],
    ..Lives::EMPTY
};
