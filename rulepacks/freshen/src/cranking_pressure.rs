//! Cranking pressure.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_months, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    SCALED = scaled!("All plugs out, throttle open, same oil temperature", pressure),
    BY_COUNT = scaled!("All plugs out, throttle open, same oil temperature"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cranking-pressure",
    title: "Cranking pressure, every cylinder",
    why: "With the throttle open and a strong battery, a cylinder under its mates has a ring, a valve or a cam lobe \
          behind it.",
    needs: &[USE],
    takes: takes!(pressure),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "cylinders",
        action: "measure",
        since: "last-done",
        opens: "plugs",
        resets: &[],
        hours: 0.7,
        loses: "power",
        triggers: &["one cylinder 10 % under the mean"],
        caution: Some("Ignition and fuel off, and nobody near the belts while it cranks."),
        held_in: &[],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { done_by: &["cranking-pressure"], ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give_as(f, a, text::SCALED),
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[about_months(24.0)],
    bracket: &[passes(40.0, 60.0, 100.0)],
    sportsman: &[passes(15.0, 25.0, 40.0)],
    wears: &[&[Stress::of(Cause::Pressure, slopes::WEAR)]],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};
