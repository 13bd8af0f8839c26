//! The spring that a solid roller cam of each use usually carries.

use crate::common::{Class, UNKNOWN_USE, class};
use crate::facts::{LIFTER, USE, VALVETRAIN};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-for-class",
    title: "Spring for the lobe and the use",
    operation: "heads",
    why: "Too little spring lets the lifter leave the lobe, too much wears out everything between the two.",
    source: "common practice, no source; the cam's own card beats it",
    judges: &["spring.seat-load", "spring.open-load"],
    needs: &[USE, LIFTER, VALVETRAIN],
    reasons: &[UNKNOWN_USE, "only solid rollers with pushrods, for the drag strip"],
    texts: &[
        Text {
            low: Remedy::say("Shim {place} or a heavier spring. As it is, it suits the street."),
            high: Remedy::say("A lighter spring in {place}. So much suits an all-out engine."),
            ..Text::new("bracket, on the seat")
        },
        Text {
            low: Remedy::say("A heavier spring in {place}. As it is, it suits the street."),
            high: Remedy::say("A lighter spring in {place}. So much suits an all-out engine."),
            ..Text::new("bracket, open")
        },
        Text {
            low: Remedy::say("Shim {place} or a heavier spring. As it is, it suits a bracket engine."),
            high: Remedy::say("A lighter spring in {place}: past what every use carries."),
            ..Text::new("all-out, on the seat")
        },
        Text {
            low: Remedy::say("A heavier spring in {place}. As it is, it suits a bracket engine."),
            high: Remedy::say("A lighter spring in {place}: past what every use carries."),
            ..Text::new("all-out, open")
        },
    ],
    assess,
    ..Rule::WINDOW
};

/// Seat load from and to, for solid rollers with pushrods.
pub(crate) fn seat(class: Class, f: &Facts<'_>) -> Option<(f64, f64)> {
    if !f.is(LIFTER, &["roller-solid"]) || !f.is(VALVETRAIN, &["pushrod"]) {
        return None;
    }
    class.pick(None, Some((220.0, 280.0)), Some((300.0, 450.0))).map(|(low, high)| (pounds(low), pounds(high)))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(class) = class(f) else { return CannotSay(0) };
    let Some((low, high)) = seat(class, f) else { return NotApplicable(1) };
    let text = class.pick(0, 0, 2);
    a.window(Window::between(low, high).text(text));
    let (low, high) = class.pick((0.0, 0.0), (600.0, 800.0), (900.0, 1_400.0));
    a.window(Window::between(pounds(low), pounds(high)).judging(1).text(text + 1));
    Answered
}
