//! Aluminium rods.

use crate::facts::{ROD_MATERIAL, ROD_STATE, USE};
use crate::lives::{Lives, by_calendar, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_ALUMINIUM = "no aluminium rods on the sheet",];

texts![
    NEW = scaled!("New rods. Past the high figure they do not run, whatever is measured", inertia pressure),
    REUSED = scaled!(
        "New rods. These are not new: add the use they had, and with no record of it they count as at their high \
         figure",
        inertia pressure
    ),
    BY_CALENDAR = scaled!("New rods, by the year: no count of miles is known for them"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "aluminium-rods",
    title: "Replace the aluminium rods",
    why: "Aluminium has no endurance limit: every pass is spent for good, and the rod gives no sign that it is the \
          last. Nothing lengthens this count but new rods.",
    source: "common practice, no source: about 10 passes in the hardest classes, 100 to 300 elsewhere, and by the year on the street",
    needs: &[USE],
    takes: takes!(inertia pressure ROD_MATERIAL ROD_STATE),
    reasons: REASONS,
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "rods",
        action: "replace",
        since: "built",
        opens: "engine-out",
        resets: &[],
        hours: 6.0,
        loses: "engine",
        triggers: &[
            "3 to 5 thou longer than new",
            "big end 1.0 thou out",
            "any over-rev of 5 % or more",
            "a pass that hydraulicked or detonated",
        ],
        caution: Some(
            "Never run past the high figure, and never lengthened by a calculation or by a shop's own few failures.",
        ),
        held_in: &["rods"],
        duty: Duty::Worn(LIVES.wears),
    }),
    assess,
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[by_calendar(9.0, 12.0, 12.0)],
    bracket: &[passes(150.0, 200.0, 300.0)],
    sportsman: &[passes(60.0, 100.0, 150.0)],
    hardest: &[passes(10.0, 25.0, 50.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::ALUMINIUM)], &[Stress::of(Cause::Pressure, slopes::ALUMINIUM)]],
    most: 1.0,
    plain: text::BY_CALENDAR,
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ROD_MATERIAL, &["aluminium"]) {
        return NotApplicable(reason::NO_ALUMINIUM);
    }
    let reused = f.is(ROD_STATE, &["reused", "reconditioned"]);
    LIVES.give_as(f, a, if reused { text::REUSED } else { text::NEW })
}
