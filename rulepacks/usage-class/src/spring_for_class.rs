//! The spring that a solid roller cam of each use usually carries.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{LIFTER, USE, VALVETRAIN};
use thou_sdk::prelude::*;

judges![SEAT = "spring.seat-load", OPEN = "spring.open-load"];

reasons![UNKNOWN_USE, NOT_SOLID_ROLLERS = "only solid rollers with pushrods, for the drag strip"];

texts![
    BRACKET_SEAT = Text {
        low: Remedy::say("Shim {place} or a heavier spring. As it is, it suits the street."),
        high: Remedy::say("A lighter spring in {place}. So much suits an all-out engine."),
        ..Text::new("bracket, on the seat")
    },
    BRACKET_OPEN = Text {
        low: Remedy::say("A heavier spring in {place}. As it is, it suits the street."),
        high: Remedy::say("A lighter spring in {place}. So much suits an all-out engine."),
        ..Text::new("bracket, open")
    },
    ALL_OUT_SEAT = Text {
        low: Remedy::say("Shim {place} or a heavier spring. As it is, it suits a bracket engine."),
        high: Remedy::say("A lighter spring in {place}: past what every use carries."),
        ..Text::new("all-out, on the seat")
    },
    ALL_OUT_OPEN = Text {
        low: Remedy::say("A heavier spring in {place}. As it is, it suits a bracket engine."),
        high: Remedy::say("A lighter spring in {place}: past what every use carries."),
        ..Text::new("all-out, open")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-for-class",
    title: "Spring for the lobe and the use",
    operation: "heads",
    why: "Too little spring lets the lifter leave the lobe, too much wears out everything between the two.",
    source: "common practice, no source, from light trains up; the cam's own card beats it, and valve-float decides",
    judges: JUDGES,
    needs: &[USE, LIFTER, VALVETRAIN],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Usual seat load from and to, for solid rollers with pushrods.
pub(crate) fn seat(usage: Usage, f: &Facts<'_>) -> Option<(f64, f64)> {
    if !f.is(LIFTER, &["roller-solid"]) || !f.is(VALVETRAIN, &["pushrod"]) {
        return None;
    }
    usage.pick(None, Some((220.0, 280.0)), Some((300.0, 450.0))).map(|(low, high)| (pounds(low), pounds(high)))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let Some((_, high)) = seat(usage, f) else { return NotApplicable(reason::NOT_SOLID_ROLLERS) };
    // a light train asks for less than the usual
    let low = pounds(usage.pick(0.0, 180.0, 240.0));
    let all_out = usage == Usage::AllOut;
    let seat_text = if all_out { text::ALL_OUT_SEAT } else { text::BRACKET_SEAT };
    a.window(Window::between(low, high).judging(judged::SEAT).text(seat_text));
    let (low, high, open_text) =
        if all_out { (650.0, 1_400.0, text::ALL_OUT_OPEN) } else { (500.0, 800.0, text::BRACKET_OPEN) };
    a.window(Window::between(pounds(low), pounds(high)).judging(judged::OPEN).text(open_text));
    Answered
}
