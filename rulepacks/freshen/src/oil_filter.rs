//! Oil filter, cut open and looked into.

use crate::facts::USE;
use crate::lives::{EACH_EVENT, Lives, NO_INTERVAL, about_months, passes, thousand_miles};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    SCALED = scaled!("Cut it, wash the pleats, look with a magnet and a glass", sump idle heat chemistry),
    BY_COUNT = scaled!("Cut it, wash the pleats, look with a magnet and a glass"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-filter",
    title: "Cut the filter and look",
    why: "The filter keeps what the bearings and wheels have lost; a magnet and a glass tell which of them it was.",
    needs: &[USE],
    takes: takes!(sump idle heat chemistry),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "oil filter",
        action: "inspect",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 0.5,
        loses: "engine",
        triggers: &[
            "magnetic flakes, bronze, or a needle: it does not run again before you know where from",
            "hot pressure down 8 to 10 psi at the same speed and temperature",
            "5 to 8 % over the limiter, or oil pressure lost",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give_as(f, a, text::SCALED),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &["burst", "split", "collapse", "leak", "loose"],
    look: "How long it ran without pressure: rod and main bearings looked at, the relief and its bypass, the new filter cut after one warm-up.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(3.0, 4.0, 5.0), about_months(12.0)],
    bracket: &[passes(25.0, 40.0, 60.0)],
    sportsman: &[passes(10.0, 20.0, 30.0)],
    hardest: &[EACH_EVENT],
    terms: &[Term::Sump(slopes::WEAR), Term::Idle(slopes::WEAR), Term::OilHeat, Term::Chemistry(Chemistry::Oil)],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};
