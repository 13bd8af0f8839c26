//! What several rules share.

use crate::facts::{ADDER, BEARING, CYLINDERS, FUEL, IS_INLET, LIFTER, STROKE, USE, VALVETRAIN};
use thou_sdk::prelude::*;

/// Nearer than the thinnest blade of a feeler set, in metres: parts that touch.
pub(crate) const CONTACT: f64 = thou(1.0);

/// Less than a gauge of tenths can tell from touching, in metres.
pub(crate) const TOUCH: f64 = thou(0.1);

/// What a window of contact says: its limit is physics', without a factor for safety. Practice's stands beside it.
pub(crate) const fn contact(words: &'static str) -> Text {
    Text { hold_basis: Some(Physics), ..Text::new(words) }
}

/// Below this parts touch, whatever a shop likes to leave between them.
pub(crate) const fn touches(below: f64) -> Window {
    Window::new().never_below(below)
}

/// Why a set rule has nothing to say of a single.
pub(crate) const ONE_CYLINDER: &str = "one cylinder: there is nothing to compare it with";
/// Why a shell rule has nothing to say of a built-up crank.
pub(crate) const ROLLER: &str = "roller bearings: there are no shells and no oil clearance";

/// Why a rule of some lifters cannot say where none are named.
pub(crate) const UNNAMED_LIFTERS: &str = "the sheet does not name the lifters (valvetrain.lifter)";

/// The lifters of a pushrod engine that a rule is about, and its reasons where the engine has others.
pub(crate) struct LiftersOf {
    pub(crate) these: &'static [&'static str],
    pub(crate) others: ReasonNumber,
    pub(crate) overhead_cam: ReasonNumber,
    pub(crate) not_named: ReasonNumber,
}

impl LiftersOf {
    /// What becomes of the rule on an engine without these lifters; none on one with them.
    pub(crate) fn stop(&self, f: &Facts<'_>) -> Option<Outcome> {
        if f.is(VALVETRAIN, &["bucket", "finger"]) {
            return Some(NotApplicable(self.overhead_cam));
        }
        if f.get(LIFTER).is_none() {
            return Some(CannotSay(self.not_named));
        }
        (!f.is(LIFTER, self.these)).then_some(NotApplicable(self.others))
    }
}

/// The value for the use: a use that a pack adds reaches a rule as one of these three.
pub(crate) fn by_use<T>(f: &Facts<'_>, street: T, bracket: T, all_out: T) -> T {
    match f.choice(USE) {
        Some("street") => street,
        Some("bracket") => bracket,
        _ => all_out,
    }
}

/// Work from low to high, aim at the middle.
pub(crate) const fn work(low: f64, high: f64) -> Window {
    Window::between(low, high).aim((low + high) / 2.0)
}

/// One cylinder, so no set of them.
pub(crate) fn single(f: &Facts<'_>) -> bool {
    f.get(CYLINDERS).is_some_and(|n| n < 1.5)
}

/// Rollers in place of shells.
pub(crate) fn roller(f: &Facts<'_>) -> bool {
    f.is(BEARING, &["roller"])
}

/// Nitrous, turbo or blower.
pub(crate) fn added(f: &Facts<'_>) -> bool {
    f.is(ADDER, &["nitrous", "turbo", "blower"])
}

/// Blown, on alcohol.
pub(crate) fn blown_alcohol(f: &Facts<'_>) -> bool {
    f.is(ADDER, &["blower"]) && f.is(FUEL, &["methanol", "ethanol"])
}

/// More than a street engine's heat and load.
pub(crate) fn raced(f: &Facts<'_>) -> bool {
    !f.is(USE, &["street"])
}

/// Turbo or blower.
pub(crate) fn boosted(f: &Facts<'_>) -> bool {
    f.is(ADDER, &["turbo", "blower"])
}

/// How long its stroke is against that of the V8 whose clearances the trade quotes, 3.50 in; never over 1, and 1 where the
/// sheet does not say.
pub(crate) fn stroke_scale(f: &Facts<'_>) -> f64 {
    f.get(STROKE).map_or(1.0, |stroke| (stroke / inches(3.5)).min(1.0))
}

/// The largest of what was read of a fact.
pub(crate) fn greatest(f: &Facts<'_>, fact: Fact) -> Option<f64> {
    f.each(fact).map(|(_, value)| value).reduce(f64::max)
}

/// Every valve by its place, and whether it is an inlet valve.
pub(crate) fn valves<'a>(f: &Facts<'a>) -> impl Iterator<Item = (u32, bool)> + use<'a> {
    f.each(IS_INLET).map(|(place, flag)| (place, flag > 0.5))
}
