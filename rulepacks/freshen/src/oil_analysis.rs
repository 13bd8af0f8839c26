//! Used-oil analysis.

use crate::facts::{PASSES_A_SEASON, USE};
use crate::lives::{Lives, NO_INTERVAL, about_passes, thousand_miles};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-analysis",
    title: "Send an oil sample",
    why: "The laboratory sees wear too small for the filter, if each sample is compared with this engine's own and per \
          pass.",
    source: "common practice, no source; the general figures are from a laboratory's guide",
    needs: &[USE],
    takes: takes!(PASSES_A_SEASON),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Sample from the middle of the warm drain")],
    service: Some(ServiceInfo {
        part: "engine oil",
        action: "inspect",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 0.2,
        loses: "money",
        triggers: &[
            "own trend broken by one metal",
            "general upper figures, far too high for a sample of 40 passes: iron 100 to 200, copper 10 to 50, lead 40 \
             to 100, aluminium 10 to 30, silicon 10 to 30 ppm",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { done_by: &["oil-iron"], ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives { street: &[thousand_miles(3.0, 4.0, 5.0)], ..Lives::EMPTY };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // Two samples in a bracket season: of 200 passes, where the sheet does not say.
    let season = f.get(PASSES_A_SEASON).filter(|p| *p >= 2.0).unwrap_or(200.0);
    Lives { bracket: &[about_passes(season / 2.0)], ..LIVES }.give(f, a)
}
