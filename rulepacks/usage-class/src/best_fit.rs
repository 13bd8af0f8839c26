//! Which use this combination would really suit.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{
    BLOCK_FILL, CYLINDERS, DURATION, FUEL, GAS_PORTS, LIFTER, LIFTER_OILING, PICKUP, PISTON_ALLOY, PISTON_SPEED,
    ROD_MATERIAL, SEAT_ANGLE, SEAT_LOAD, SUMP, SWEPT, TOP_RING, USE, VALVETRAIN, WANTED,
};
use crate::{cam_and_use, mean_piston_speed, pickup, ring_pack, spring_for_class, street_roller_load, wanted_interval};
use thou_sdk::prelude::*;

/// In the order of [`Usage::index`].
const USES: &[&str] = &["street", "bracket", "all-out"];

const ASKED: Arg = Arg { name: "asked", kind: "choice", choices: USES };
const BEST: Arg = Arg { name: "best", kind: "choice", choices: USES };
const SECOND: Arg = Arg { name: "second", kind: "choice", choices: USES };
const UNMET: Arg = Arg::of("unmet", "count");
const CHANGE_1: Arg = Arg { name: "change-1", kind: "choice", choices: CHANGES };
const CHANGE_2: Arg = Arg { name: "change-2", kind: "choice", choices: CHANGES };
const CHANGE_3: Arg = Arg { name: "change-3", kind: "choice", choices: CHANGES };

const OTHER: &str = "best fit {arg:best}, second best {arg:second}; needs of {arg:asked} that are not met: {arg:unmet}";
const SAME: &str = "{arg:best} fits best all the same, {arg:second} next; needs that are not met: {arg:unmet}";

const ONE: &str = "For {arg:asked}: {arg:change-1}.";
const TWO: &str = "For {arg:asked}, cheapest first: {arg:change-1}; {arg:change-2}.";
const THREE: &str = "For {arg:asked}, cheapest first: {arg:change-1}; {arg:change-2}; {arg:change-3}.";

reasons![UNKNOWN_USE, TOO_LITTLE = "the sheet says too little of the parts"];

texts![
    OTHER_BY_ONE = fit(OTHER, ONE, &[ASKED, BEST, SECOND, UNMET, CHANGE_1]),
    OTHER_BY_TWO = fit(OTHER, TWO, &[ASKED, BEST, SECOND, UNMET, CHANGE_1, CHANGE_2]),
    OTHER_BY_THREE = fit(OTHER, THREE, &[ASKED, BEST, SECOND, UNMET, CHANGE_1, CHANGE_2, CHANGE_3]),
    SAME_BY_ONE = fit(SAME, ONE, &[ASKED, BEST, SECOND, UNMET, CHANGE_1]),
    SAME_BY_TWO = fit(SAME, TWO, &[ASKED, BEST, SECOND, UNMET, CHANGE_1, CHANGE_2]),
    SAME_BY_THREE = fit(SAME, THREE, &[ASKED, BEST, SECOND, UNMET, CHANGE_1, CHANGE_2, CHANGE_3]),
];

/// What fits, with what would bring the use that was asked for.
const fn fit(words: &'static str, changes: &'static str, args: &'static [Arg]) -> Text {
    Text { low: Remedy::say(changes), args, points_at: &["use"], ..Text::new(words) }
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "best-fit",
    title: "Best fit",
    operation: "combination",
    why: "An engine is as good as its worst match: each need of a use that the sheet does not meet is counted, and the \
          use with the fewest is what was built, whatever was asked for. Power alone is no fault in any use.",
    source: "common practice, no source: the needs are this pack's other rules",
    needs: &[USE],
    takes: &[
        WANTED,
        PISTON_SPEED,
        PISTON_ALLOY,
        SUMP,
        PICKUP,
        CYLINDERS,
        SEAT_LOAD,
        LIFTER,
        LIFTER_OILING,
        DURATION,
        SWEPT,
        VALVETRAIN,
        SEAT_ANGLE,
        GAS_PORTS,
        TOP_RING,
        ROD_MATERIAL,
        FUEL,
        BLOCK_FILL,
    ],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

/// Whether a need of this use is met; none where the sheet does not say, or the use does not ask.
type Need = fn(Usage, &Facts<'_>) -> Option<bool>;

/// Each change with the need that it meets, as `CHANGES` and `NEEDS` in the same order.
macro_rules! needs {
    ($(($change:literal, $met:expr)),* $(,)?) => {
        const CHANGES: &[&str] = &[$($change),*];
        const NEEDS: &[Need] = &[$($met),*];
    };
}

// Cheapest first.
needs![
    ("fewer passes between freshens", |usage, f| Some(f.get(WANTED)? <= wanted_interval::limit(usage)?)),
    ("a lower shift speed", |usage, f| Some(
        f.get(PISTON_SPEED)? <= mean_piston_speed::limit(usage, f.choice(PISTON_ALLOY)? == "cast")
    )),
    ("a rear or swinging pickup", |usage, f| {
        f.choice(PICKUP).filter(|_| pickup::asked(usage, f)).map(|pickup| pickup != "fixed")
    }),
    ("springs for the use", |usage, f| {
        let load = f.get(SEAT_LOAD)?;
        if usage == Usage::Street && f.is(LIFTER, &["roller-solid"]) {
            return Some(load <= street_roller_load::LIMIT);
        }
        let (low, high) = spring_for_class::seat(usage, f)?;
        Some((low..=high).contains(&load))
    }),
    ("pressure-fed or bushed lifters", |usage, f| match (usage, f.choice(LIFTER)?) {
        (Usage::Street, "roller-solid") => Some(f.choice(LIFTER_OILING)? != "splash"),
        _ => None,
    }),
    ("solid lifters", |usage, f| match (usage, f.choice(LIFTER)?) {
        (Usage::AllOut, lifter) => Some(!matches!(lifter, "flat-hydraulic" | "roller-hydraulic")),
        _ => None,
    }),
    ("a cam for the use", |usage, f| {
        let duration = f.get(DURATION)?;
        f.get(SWEPT)?;
        let (low, high) = cam_and_use::limits(usage, f)?;
        Some(low.is_none_or(|l| duration >= l) && high.is_none_or(|h| duration <= h))
    }),
    ("seats of 45 degrees", |usage, f| match usage {
        Usage::Street => Some(f.get(SEAT_ANGLE)? <= degrees(50.0)),
        _ => None,
    }),
    ("pistons and rings for street miles", |usage, f| {
        let thin = f.get(TOP_RING).map(ring_pack::thin);
        let ports = f.choice(GAS_PORTS).map(|p| p == "vertical");
        match (usage, thin.or(ports)) {
            (Usage::Street, Some(_)) => Some(thin != Some(true) && ports != Some(true)),
            _ => None,
        }
    }),
    ("forged pistons", |usage, f| match usage {
        Usage::AllOut => Some(!matches!(f.choice(PISTON_ALLOY)?, "cast" | "hypereutectic")),
        _ => None,
    }),
    ("steel rods", |usage, f| match usage {
        Usage::Street => Some(f.choice(ROD_MATERIAL)? != "aluminium"),
        _ => None,
    }),
    ("compression and fuel from the pump", |usage, f| match usage {
        Usage::Street => Some(matches!(f.choice(FUEL)?, "petrol-pump" | "e85")),
        _ => None,
    }),
    ("a block that is not filled", |usage, f| match usage {
        Usage::Street => Some(f.choice(BLOCK_FILL)? == "none"),
        _ => None,
    }),
];

/// The changes that this use still wants, cheapest first.
fn unmet(usage: Usage, f: &Facts<'_>) -> Vec<f64> {
    (0u32..).zip(NEEDS).filter(|(_, need)| need(usage, f) == Some(false)).map(|(i, _)| f64::from(i)).collect()
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(asked) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if !NEEDS.iter().any(|need| need(asked, f).is_some()) {
        return CannotSay(reason::TOO_LITTLE);
    }
    let changes = unmet(asked, f);
    if changes.is_empty() {
        return Clear;
    }
    let mut order = Usage::EVERY;
    order.sort_by_key(|c| (unmet(*c, f).len(), *c != asked));
    let [best, second, _] = order;
    let (other, same) = match changes.len() {
        1 => (text::OTHER_BY_ONE, text::SAME_BY_ONE),
        2 => (text::OTHER_BY_TWO, text::SAME_BY_TWO),
        _ => (text::OTHER_BY_THREE, text::SAME_BY_THREE),
    };
    let mut args = vec![asked.index(), best.index(), second.index(), changes.len() as f64];
    args.extend(changes.iter().take(3));
    if best == asked {
        a.finding(Note, same, &args)
    } else {
        a.finding(Warn, other, &args)
    }
    Answered
}
